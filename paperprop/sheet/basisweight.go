package sheet

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// A Ream is a trade ream: a number of sheets of one size, or an area.
type Ream string

// The reams, with sheet sizes in inches.
const (
	ReamBook     Ream = "book"     // 25 × 38, 500 sheets
	ReamBond     Ream = "bond"     // 17 × 22, 500 sheets
	ReamCover    Ream = "cover"    // 20 × 26, 500 sheets
	ReamBristol  Ream = "bristol"  // 22.5 × 28.5, 500 sheets
	ReamIndex    Ream = "index"    // 25.5 × 30.5, 500 sheets
	ReamTag      Ream = "tag"      // 24 × 36, 500 sheets: 3000 ft²
	ReamBlotting Ream = "blotting" // 19 × 24, 500 sheets
	ReamBlanks   Ream = "blanks"   // 22 × 28, 500 sheets
	ReamTissue   Ream = "tissue"   // 24 × 36, 480 sheets
	Ream1000     Ream = "ft2-1000" // 1000 ft²: board
	Ream3000     Ream = "ft2-3000"
	Ream3300     Ream = "ft2-3300"
)

// reams defines the names: a number of sheets of width × length in inches, or one
// sheet of some square feet.
var reams = []struct {
	name                  Ream
	width, length, sheets float64
}{
	{ReamBook, 25, 38, 500},
	{ReamBond, 17, 22, 500},
	{ReamCover, 20, 26, 500},
	{ReamBristol, 22.5, 28.5, 500},
	{ReamIndex, 25.5, 30.5, 500},
	{ReamTag, 24, 36, 500},
	{ReamBlotting, 19, 24, 500},
	{ReamBlanks, 22, 28, 500},
	{ReamTissue, 24, 36, 480},
	{Ream1000, 12, 12, 1000},
	{Ream3000, 12, 12, 3000},
	{Ream3300, 12, 12, 3300},
}

// size describes a ream: the number of sheets and their size, or the area.
func (r Ream) size() string {
	for _, ream := range reams {
		if ream.name == r && ream.width == 12 { // square feet
			return fmt.Sprintf("%g ft2", ream.sheets)
		}
		if ream.name == r {
			return fmt.Sprintf("%g sheets of %g x %g in", ream.sheets, ream.width, ream.length)
		}
	}
	return ""
}

// BasisWeight restates a grammage as the mass of a trade ream.
type BasisWeight struct {
	Grammage paperprop.Grammage // above zero
	Ream     Ream
}

// BasisWeightResult is the mass and the area of the ream.
type BasisWeightResult struct {
	BasisWeight paperprop.BasisWeight
	ReamArea    paperprop.Area // of all sheets, one side
}

// Calculate returns the mass g·A. It uses exact factors, not the rounded ones of
// printed tables.
func (b BasisWeight) Calculate() (BasisWeightResult, error) { return basisWeight.Calculate(b) }

func (b BasisWeight) compute() (BasisWeightResult, error) {
	var r BasisWeightResult
	for _, ream := range reams {
		if ream.name == b.Ream {
			inches := ream.width * ream.length * ream.sheets
			r.ReamArea = paperprop.Area(inches) * paperprop.SquareInch
		}
	}
	pounds := b.Grammage.In(paperprop.PoundPer1000SquareFoot) * r.ReamArea.In(paperprop.SquareFoot) / 1000
	r.BasisWeight = paperprop.BasisWeight(pounds) * paperprop.PoundPerReam
	return r, nil
}

var basisWeight = &calc.Description[BasisWeight, BasisWeightResult]{
	Name:    "basis-weight",
	Title:   "Basis weight of a trade ream",
	Answers: "What a ream of a trade size weighs, and back.",
	Formula: []string{"W = g*A"},
	Source:  "exact factors of pound, inch and foot (NIST Handbook 44, SP 811); sizes of reams as in GNU units 2.22",
	Status:  calc.Library,
	Example: "grammage=127 g/m2; ream=ft2-1000",
	Mistakes: []string{
		"3300 ft2 is not 25 x 38 in x 500 sheets, which is 3298.6 ft2.",
		"A basis weight means nothing without its ream; it follows the climate of the weighing.",
	},
	Compute: BasisWeight.compute,
	Fields: func(f *calc.Form, in *BasisWeight, out *BasisWeightResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the paper").Above(0)
		names := make([]Ream, len(reams))
		for i, r := range reams {
			names[i] = r.name
		}
		calc.InWord(f, &in.Ream, "ream", "book 25x38 in, bond 17x22, cover 20x26, bristol 22.5x28.5, index 25.5x30.5, "+
			"tag 24x36, blotting 19x24, blanks 22x28, 500 sheets; tissue 24x36, 480; ft2-... an area", names...).Label().Meaning(func() string { return in.Ream.size() })
		calc.Out(f, &out.BasisWeight, "basis-weight", "W", "lb", "mass of that ream")
		calc.Out(f, &out.ReamArea, "ream-area", "A", "ft2", "of all sheets, one side")
	},
}
