package search

import (
	"math"
	"testing"
)

// Kind: common-practice. Zeros known by hand, on curves that bend, are level at
// the zero, or have it at an end.
func TestZero(t *testing.T) {
	for _, test := range []struct {
		name      string
		low, high float64
		f         func(float64) float64
		want      float64
	}{
		{"line", -1, 3, func(x float64) float64 { return x - 2 }, 2},
		{"falling", -1, 3, func(x float64) float64 { return 2 - x }, 2},
		{"at the low end", 0, 1, func(x float64) float64 { return x }, 0},
		{"at the high end", 0, 1, func(x float64) float64 { return x - 1 }, 1},
		{"hidden at the low end", 0, 1, func(x float64) float64 { return x + 1e-17 }, 0},
		{"hidden at the high end", 0, 1, func(x float64) float64 { return x - 1 - 2.2e-16 }, 1},
		{"steep", 0, 50, func(x float64) float64 { return math.Exp(x) - math.Exp(40) }, 40},
		{"root two", 0, 2, func(x float64) float64 { return x*x - 2 }, math.Sqrt2},
		{"step", 0, 1, func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0.3},
	} {
		calls := 0
		got := Zero(test.low, test.high, func(x float64) float64 { calls++; return test.f(x) })
		if !(math.Abs(got-test.want) <= 4e-15*max(1, test.want)) || calls > 70 {
			t.Errorf("%s: zero at %v after %d calls, want %v", test.name, got, calls, test.want)
		}
	}
}
