// Package lab goes from readings to statements: rounding, shares, replicates,
// conformity with a limit. A value may be in any unit; those that belong
// together share it, so here a plain float64 is one number of that unit.
package lab

import "millmaths.example/paperprop/calc"

// Calculations lists what the package calculates.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		convert, round, shares, replicates, conformityAbsolute, conformityRounding, conformityGuardBand, propagate,
	}
}
