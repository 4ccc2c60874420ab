// Package sheet holds the calculations behind test methods for paper and
// board: grammage, moisture, density, strength, water absorption.
//
// A calculation is a struct of inputs with a method:
//
//	r, err := sheet.Tensile{
//		Force:    85 * paperprop.Newton,
//		Grammage: 80 * paperprop.GramPerSquareMetre,
//	}.Calculate()
//	fmt.Printf("%.2f kN/m\n", r.TensileStrength.In(paperprop.KilonewtonPerMetre)) // 5.67 kN/m
//
// Moisture is always on the wet basis. An index divides by the grammage in the
// climate of the test; one on dry grammage would need a name of its own.
//
// # What people get wrong
//
// A grammage is as-taken, conditioned or oven-dry: say which was weighed, and divide
// by the one that the method names.
//
// A basis weight means nothing without its ream: 26 lb is three different papers.
//
// A bending force at 15° is not a stiffness, and readings by two methods for one
// property do not convert into each other.
//
// The strip is 15 mm wide by default: [Tensile] has the default of its method, and a
// zero width is "not given".
//
// Results are unrounded. The rule of a method is applied once, on a sheet of the
// calculation (Reported), not to the typed result.
package sheet

import (
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		grammage, basisWeight, reamMass, reamChange, areaPerMass, webLength, sheetCount,
		moisture, moistureInDish, moistureLot, moistureBasis, grammageAtMoisture, massAtMoisture,
		density, bulkingThickness, stripStrength, strengthIndex, tensile, breakingLength,
		stretch, tensileEnergy, tensileCurve, tensileStiffness, mdCd,
		tear, tearIndex, tearEnergy, burst, burstRatio,
		twoPointBending, threePointBending, fourPointBending, plateStiffness,
		bendingIndex, bendingMoment, bendingResistance, zStrength, plyBond,
		cobb, airPermeance, airPermeanceFlow, gurley, shortSpan, ringCrush, flutedCrush, corrugatedCrush,
		plyBuild, plyValue, coatWeight,
		opacity, opacitySides, contrastRatio, lightCoefficients, absorptionRatio, padReflectance, sheetReflectance, opticalMix,
		brightness, whitePoint, tristimulus, filterTristimulus, cielab, whiteness, colourDifference,
	}
}

// threeFigures is the reporting rule of most methods.
func threeFigures() result.Rule { return result.Figures(3, result.Even) }

// tenthOfPercent is the reporting rule of moisture and stretch.
func tenthOfPercent() result.Rule { return result.StepOf(1, -1, result.Even) }

// notSeen is the note on a method whose rounding rule was not seen.
const notSeen = "its rule of rounding was not seen, none applied"
