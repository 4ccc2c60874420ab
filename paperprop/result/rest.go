package result

import "math"

// LastDigits is the relative difference allowed between two ways of calculating the
// same number: a smaller one is neither a reason to refuse nor a remainder.
const LastDigits = 1e-14

// Rest returns whole − parts, or 0 where the difference is only the rounding of floats.
// A result that is not finite is returned as it is.
func Rest(whole, parts float64) float64 {
	rest := whole - parts
	if math.Abs(rest) <= LastDigits*math.Abs(whole) && !math.IsInf(whole, 0) {
		return 0
	}
	return rest
}

// Outside reports whether a calculated number lies below low or above high by more than
// rounding: a number on a limit is not outside.
func Outside(x, low, high float64) bool { return Rest(x, low) < 0 || Rest(x, high) > 0 }

// NearWhole returns the nearest whole number if x lies within 1e-9 of it, or within the
// last digits of a large number; otherwise x. So 2.1/0.7, which falls just short of 3
// in binary, is 3.
func NearWhole(x float64) float64 {
	if whole := math.Round(x); math.Abs(x-whole) <= max(1e-9, LastDigits*math.Abs(whole)) {
		return whole
	}
	return x
}
