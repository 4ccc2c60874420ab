// Package sheet holds the calculations behind test methods for paper and
// board: grammage, moisture, density, strength, water absorption.
//
// Moisture is always on the wet basis. An index divides by the grammage at the
// climate of the test; one on dry grammage would need a name of its own.
package sheet

import (
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Calculations lists what the package calculates.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		grammage, basisWeight, moisture, moistureInDish, grammageAtMoisture, massAtMoisture,
		density, tensile, tear, burst, shortSpan, ringCrush, cobb,
		opacity, opacitySides, contrastRatio, lightCoefficients, absorptionRatio, padReflectance, sheetReflectance, opticalMix,
		brightness, whitePoint, tristimulus, filterTristimulus, cielab, whiteness, colourDifference,
	}
}

// threeFigures is how most methods of the sheet are reported.
func threeFigures() result.Rule { return result.Figures(3, result.Even) }

// tenthOfPercent is how moisture is reported.
func tenthOfPercent() result.Rule { return result.StepOf(1, -1, result.Even) }
