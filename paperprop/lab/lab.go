// Package lab goes from readings to statements: rounding, shares, replicates,
// conformity with a limit. A value may be in any unit; those that belong
// together share it, so here a plain float64 is one number of that unit.
package lab

import "millmaths.example/paperprop/calc"

// Calculations lists what the package calculates.
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
