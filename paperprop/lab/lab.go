// Package lab goes from readings to statements: rounding, shares, replicates,
// conformity with a limit. A value may be in any unit; those that belong together
// share it, so here a plain float64 is a number in that unit.
//
// A calculation is a struct of inputs with a method:
//
//	r, err := lab.Replicates{Value: []float64{17.4, 18.1, 17.7, 18.6, 17.9}}.Calculate()
//	fmt.Printf("%.2f ± %.2f\n", r.Mean, *r.HalfWidth) // 17.94 ± 0.56
//
// # What people get wrong
//
// Values that belong together share a unit. Nothing checks that here, unlike on a
// [millmaths.example/paperprop/calc.Sheet]: convert first, or use the sheet.
//
// An outlier is shown, not removed: [Grubbs] gives a verdict; the decision is a
// person's.
//
// What can't be known is nil, not 0: one reading has no standard deviation and no
// interval.
//
// The same value may pass by one rule and fail by another. Fix the rule before
// the test: [ConformityAbsolute], [ConformityRounding] and those with a guard band.
package lab

import "millmaths.example/paperprop/calc"

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		convert, round, shares, replicates, meanInterval, studentT, pooledDeviation,
		grubbs, grubbsLimit, dixon, dixonLimit,
		conformityAbsolute, conformityRounding, conformityGuardBand,
		weightedMean, varianceWeightedMean, compareSamples, comparePairs, sampleSize,
		lineFit, linePrediction, interpolate,
		precision, precisionLimits, rangeFactor, criticalDifference, controlChart, profile,
		typeB, expandedUncertainty, notation, propagate,
	}
}
