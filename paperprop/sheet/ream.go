package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// sheetMass returns the mass of one sheet, in g.
func sheetMass(g paperprop.Grammage, length, width paperprop.Length) float64 {
	return g.In(paperprop.GramPerSquareMetre) * length.In(paperprop.Metre) * width.In(paperprop.Metre)
}

// sizeOfSheet binds the two sides of a sheet.
func sizeOfSheet(f *calc.Form, length, width *paperprop.Length) {
	calc.In(f, length, "length", "l", "mm", "of a sheet").Above(0)
	calc.In(f, width, "width", "b", "mm", "of a sheet").Above(0)
}

// ReamMass is the mass of any number of sheets of any size.
type ReamMass struct {
	Grammage paperprop.Grammage // above zero
	Length   paperprop.Length   // of a sheet, above zero
	Width    paperprop.Length   // of a sheet, above zero
	Count    paperprop.Count    // sheets, at least 1; zero stands for 500
}

// ReamMassResult is the mass of all sheets and of one.
type ReamMassResult struct {
	ReamMass  paperprop.Mass
	ReamArea  paperprop.Area // of all sheets, one side
	SheetMass paperprop.Mass
}

// Calculate returns the mass g·l·b·n.
func (r ReamMass) Calculate() (ReamMassResult, error) { return reamMass.Calculate(r) }

func (r ReamMass) compute() (ReamMassResult, error) {
	one, n := sheetMass(r.Grammage, r.Length, r.Width), float64(r.Count)
	area := r.Length.In(paperprop.Metre) * r.Width.In(paperprop.Metre) * n
	return ReamMassResult{
		ReamMass:  paperprop.Mass(one*n) * paperprop.Gram,
		ReamArea:  paperprop.Area(area) * paperprop.SquareMetre,
		SheetMass: paperprop.Mass(one) * paperprop.Gram,
	}, nil
}

var reamMass = &calc.Description[ReamMass, ReamMassResult]{
	Name:    "ream-mass",
	Title:   "Mass of a ream of any size",
	Answers: "What so many sheets of a size weigh, and what grammage a ream of known mass has.",
	Formula: []string{"m_s = g*l*b", "m = g*l*b*n", "A = l*b*n"},
	Source:  "mass over the area of all sheets: tables of two Japanese paper pages (seen)",
	Status:  calc.Published,
	Example: "grammage=121.4 g/m2; length=1000 mm; width=700 mm",
	Mistakes: []string{
		"A ream is 500 sheets, or 480, 516 or 1000; in Japan 1000 of paper and 100 of board: count=1000 gives the M weight, count=1 a sheet.",
		"A4 at 80 g/m2 weighs 4.99 g, not 5 g, the mass of a sixteenth of a square metre.",
	},
	Compute: ReamMass.compute,
	Fields: func(f *calc.Form, in *ReamMass, out *ReamMassResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the paper").Above(0)
		sizeOfSheet(f, &in.Length, &in.Width)
		calc.In(f, &in.Count, "count", "n", "1", "sheets: 500 or 480; 1000 for the M weight; 1 for a sheet").From(1).Default(500)
		calc.Out(f, &out.ReamMass, "ream-mass", "m", "kg", "of all sheets")
		calc.Out(f, &out.ReamArea, "ream-area", "A", "m2", "of all sheets, one side")
		calc.Out(f, &out.SheetMass, "sheet-mass", "m_s", "g", "of one sheet")
	},
}

// ReamChange restates a basis weight for another ream of the same paper.
type ReamChange struct {
	BasisWeight paperprop.BasisWeight // mass of the first ream, above zero
	Length      paperprop.Length      // of its sheets, above zero
	Width       paperprop.Length      // of its sheets, above zero
	Count       paperprop.Count       // of its sheets, at least 1; zero stands for 500
	ToLength    paperprop.Length      // of a sheet of the other ream, above zero
	ToWidth     paperprop.Length      // of a sheet of the other ream, above zero
	ToCount     paperprop.Count       // sheets of the other ream, at least 1
}

// ReamChangeResult is the mass of the other ream, and the grammage of the paper.
type ReamChangeResult struct {
	ToBasisWeight paperprop.BasisWeight
	Grammage      paperprop.Grammage
}

// Calculate multiplies the mass by the ratio of the areas of the reams.
func (r ReamChange) Calculate() (ReamChangeResult, error) { return reamChange.Calculate(r) }

func (r ReamChange) compute() (ReamChangeResult, error) {
	feet := func(length, width paperprop.Length, count paperprop.Count) float64 { // ft²
		return length.In(paperprop.Foot) * width.In(paperprop.Foot) * float64(count)
	}
	perFoot := r.BasisWeight.In(paperprop.PoundPerReam) / feet(r.Length, r.Width, r.Count)
	return ReamChangeResult{
		ToBasisWeight: paperprop.BasisWeight(perFoot*feet(r.ToLength, r.ToWidth, r.ToCount)) * paperprop.PoundPerReam,
		Grammage:      paperprop.Grammage(1000*perFoot) * paperprop.PoundPer1000SquareFoot,
	}, nil
}

var reamChange = &calc.Description[ReamChange, ReamChangeResult]{
	Name:    "ream-change",
	Title:   "Basis weight on another ream",
	Answers: "What another ream of the same paper weighs, and what grammage that is.",
	Formula: []string{"g = W/(l*b*n)", "W_to = g*l_to*b_to*n_to"},
	Source:  "areas of the two reams in ratio; a Japanese page gives 62.5 kg kiku and 90 kg shiroku as one paper (seen)",
	Status:  calc.CommonPractice,
	Example: "basis-weight=50 lb; length=38 in; width=25 in; to-length=36 in; to-width=24 in; to-count=500",
	Mistakes: []string{
		"50 lb of 25 x 38 in and 50 lb of 24 x 36 in are two papers: 74.0 and 81.4 g/m2.",
		"The M weight is that of 1000 sheets of the size cut, not of two basic reams.",
	},
	Compute: ReamChange.compute,
	Fields: func(f *calc.Form, in *ReamChange, out *ReamChangeResult) {
		calc.In(f, &in.BasisWeight, "basis-weight", "W", "lb", "mass of the first ream").Above(0)
		calc.In(f, &in.Length, "length", "l", "in", "of its sheets").Above(0)
		calc.In(f, &in.Width, "width", "b", "in", "of its sheets").Above(0)
		calc.In(f, &in.Count, "count", "n", "1", "of its sheets").From(1).Default(500)
		calc.In(f, &in.ToLength, "to-length", "l_to", "in", "of a sheet of the other ream").Above(0)
		calc.In(f, &in.ToWidth, "to-width", "b_to", "in", "of a sheet of the other ream").Above(0)
		calc.In(f, &in.ToCount, "to-count", "n_to", "1", "sheets of the other ream; 1000 for the M weight").From(1)
		calc.Out(f, &out.ToBasisWeight, "to-basis-weight", "W_to", "lb", "mass of the other ream")
		calc.Out(f, &out.Grammage, "grammage", "g", "g/m2", "of the paper")
	},
}

// SheetCount is the number of sheets in a mass of paper.
type SheetCount struct {
	Mass     paperprop.Mass     // of paper, above zero
	Grammage paperprop.Grammage // above zero
	Length   paperprop.Length   // of a sheet, above zero
	Width    paperprop.Length   // of a sheet, above zero
}

// SheetCountResult is the number of whole sheets and the mass of one.
type SheetCountResult struct {
	Count     paperprop.Count
	SheetMass paperprop.Mass
}

// Calculate counts the whole sheets in the mass.
func (s SheetCount) Calculate() (SheetCountResult, error) { return sheetCount.Calculate(s) }

func (s SheetCount) compute() (SheetCountResult, error) {
	one := sheetMass(s.Grammage, s.Length, s.Width)
	return SheetCountResult{
		Count:     paperprop.Count(math.Floor(result.NearWhole(s.Mass.In(paperprop.Gram) / one))),
		SheetMass: paperprop.Mass(one) * paperprop.Gram,
	}, nil
}

var sheetCount = &calc.Description[SheetCount, SheetCountResult]{
	Name:     "sheet-count",
	Title:    "Sheets in a mass of paper",
	Answers:  "How many whole sheets of a size are in a mass of paper.",
	Formula:  []string{"m_s = g*l*b"},
	Method:   "count: the whole part of mass over sheet-mass; a ratio within 1e-9 of a whole number counts as whole",
	Source:   "mass over that of one sheet",
	Status:   calc.CommonPractice,
	Example:  "mass=500 kg; grammage=121.4 g/m2; length=1000 mm; width=700 mm",
	Mistakes: []string{"A pallet counted by mass is as wrong as its grammage: 2 % of 5000 sheets are 100."},
	Compute:  SheetCount.compute,
	Fields: func(f *calc.Form, in *SheetCount, out *SheetCountResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "of paper").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the paper").Above(0)
		sizeOfSheet(f, &in.Length, &in.Width)
		calc.Out(f, &out.Count, "count", "n", "1", "whole sheets")
		calc.Out(f, &out.SheetMass, "sheet-mass", "m_s", "g", "of one sheet")
	},
}
