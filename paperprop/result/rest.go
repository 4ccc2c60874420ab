package result

import "math"

// LastDigits is how far two ways of reckoning one number may lie apart,
// relative: less is no reason to refuse, nor a rest.
const LastDigits = 1e-14

// Rest is what a whole leaves beside its parts, without what only the last
// digits of the floats leave.
func Rest(whole, parts float64) float64 {
	if rest := whole - parts; math.Abs(rest) > LastDigits*whole {
		return rest
	}
	return 0
}
