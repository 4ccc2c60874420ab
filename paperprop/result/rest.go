package result

import "math"

// LastDigits is how far two ways of reckoning one number may lie apart,
// relative: less is no reason to refuse, nor a rest.
const LastDigits = 1e-14

// Rest is what a whole leaves beside its parts, without what only the last
// digits of the floats leave. What is not finite stays so.
func Rest(whole, parts float64) float64 {
	rest := whole - parts
	if math.Abs(rest) <= LastDigits*math.Abs(whole) && !math.IsInf(whole, 0) {
		return 0
	}
	return rest
}

// Outside says whether a number that was worked out lies below low or above high
// by more than its last digits: on a limit it is not outside.
func Outside(x, low, high float64) bool { return Rest(x, low) < 0 || Rest(x, high) > 0 }

// NearWhole takes a number within 1e-9 of a whole one, or within the last digits of
// a large one, for that: 2.1/0.7 falls just short of 3 in binary and is 3.
func NearWhole(x float64) float64 {
	if whole := math.Round(x); math.Abs(x-whole) <= max(1e-9, LastDigits*math.Abs(whole)) {
		return whole
	}
	return x
}
