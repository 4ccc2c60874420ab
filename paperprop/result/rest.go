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
