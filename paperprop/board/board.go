// Package board calculates corrugated board and the boxes made of it: what a
// board weighs and is made of, how it resists crush and bending, how much of it a
// box needs and what a box may carry.
//
// A calculation is a struct of inputs with a method:
//
//	r, err := board.Grammage{
//		LinerGrammage:    []paperprop.Grammage{140, 120}, // g/m²
//		FlutingGrammage:  []paperprop.Grammage{105},
//		TakeUp:           []paperprop.Ratio{1.43},
//		AdhesiveGrammage: 9 * paperprop.GramPerSquareMetre,
//	}.Calculate()
//	fmt.Printf("%.1f g/m²\n", r.Grammage.In(paperprop.GramPerSquareMetre)) // 419.1 g/m²
//
// What a box carries is an estimate. Stacked boxes can fall on people, so those
// calculations, and those whose results go into a stack, carry a caution, which
// the command shows with every result. A typed result holds numbers only: when you
// show them to people, show the Cautions of the calculation's Info too.
//
// # What people get wrong
//
// A fluting counts with its take-up: 105 g/m² at 1.43 is 150 g/m² of board.
//
// Edge crush by one method is not that by another: name the method, and compare only
// within one.
//
// The laboratory's box compression is not what a box carries for months: time,
// humidity and stacking pattern each reduce it, and their multipliers multiply.
package board

import (
	"math"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		boardGrammage, takeUp, takeUpMeasured, corrugatorUse,
		edgeCrush, edgeCrushEstimate, flatCrush, pinAdhesion,
		boardBurst, sandwichStiffness, boxBlank,
		boxCompression, boxCompressionFull,
		stackLayers, stacking, strengthAtMoisture, stackOffset,
	}
}

var stackedLoad = calc.Caution{
	Code: "stacked-load",
	Text: "Stacked boxes can fall on people. This is an estimate and no licence to stack: test filled boxes in their own climate, " +
		"time and pattern first; local codes and licensed practice decide.",
}

// estimated is the note on why an estimate has no reporting rule.
const estimated = "an estimate has no method to round it"

// wholes returns a ratio rounded down to a whole number, or up to one that it
// almost reaches.
func wholes(ratio float64) float64 { return math.Floor(result.NearWhole(ratio)) }
