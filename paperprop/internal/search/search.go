// Package search finds where a function crosses zero.
package search

import "math"

// Zero returns the x between low and high at which f is zero, correct to the last few
// digits. f must be continuous and have opposite signs at the ends, or be zero at one;
// if rounding hides that, Zero returns the end at which f is nearer to zero. It uses
// Chandrupatla's method: interpolation through the last three points where those bend
// little, bisection where they do not.
func Zero(low, high float64, f func(x float64) float64) float64 {
	a, b := high, low
	fa, fb := f(a), f(b)
	if fa*fb > 0 {
		if math.Abs(fa) < math.Abs(fb) {
			return a
		}
		return b
	}
	c, fc := a, fa
	share := 0.5 // fraction of the way from a to b
	for range 200 {
		x := a + share*(b-a)
		fx := f(x)
		if math.Signbit(fx) == math.Signbit(fa) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		best, smallest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, smallest = b, fb
		}
		least := (1e-15*math.Abs(best) + 1e-15) / math.Abs(b-a)
		if smallest == 0 || least > 0.5 {
			return best
		}
		share = 0.5
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			share = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		share = min(1-least, max(least, share))
	}
	return a
}
