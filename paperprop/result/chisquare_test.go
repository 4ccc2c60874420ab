package result_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"

	"millmaths.example/paperprop/result"
)

const gonum = "gonum v0.17.0"

var probabilities = []float64{1e-9, 1e-6, 0.001, 0.05, 0.25, 0.5, 0.75, 0.95, 0.975, 0.999, 1 - 1e-6}

// Kind: library. Source: gonum v0.17.0, distuv.ChiSquared: its distribution
// takes the probability between the points 1e-10 below the quantile and above.
func TestChiSquareByLibrary(t *testing.T) {
	for _, nu := range []float64{0.5, 1, 2, 3.7, 10, 29, 100, 1234.5, 1e4, 1e5, 1e6} {
		for _, p := range probabilities {
			x := result.ChiSquare(p, nu)
			if !between(distuv.ChiSquared{K: nu}, x, p) {
				t.Errorf("ChiSquare(%v, %v) = %v, but below it lies %v (library: %s)", p, nu, x, distuv.ChiSquared{K: nu}.CDF(x), gonum)
			}
		}
	}
}

// Kind: library. Source: gonum v0.17.0, mathext.RegIncBeta, which holds up to some
// thousand degrees of freedom.
func TestFByLibrary(t *testing.T) {
	for _, above := range []float64{0.5, 1, 2, 5.5, 30, 1000} {
		for _, below := range []float64{0.5, 1, 2, 5.5, 30, 1000} {
			for _, p := range probabilities {
				x := result.F(p, above, below)
				if d := (byBeta{above, below}); !between(d, x, p) {
					t.Errorf("F(%v, %v, %v) = %v, but below it lies %v and above it %v (library: %s)", p, above, below, x, d.CDF(x), d.Survival(x), gonum)
				}
			}
		}
	}
}

// byBeta is the distribution of F, each tail by itself.
type byBeta struct{ above, below float64 }

func (b byBeta) CDF(x float64) float64 {
	return mathext.RegIncBeta(b.above/2, b.below/2, b.above*x/(b.above*x+b.below))
}

func (b byBeta) Survival(x float64) float64 {
	return mathext.RegIncBeta(b.below/2, b.above/2, b.below/(b.above*x+b.below))
}

type distribution interface {
	CDF(x float64) float64
	Survival(x float64) float64
}

func between(d distribution, x, p float64) bool {
	low, high := x*(1-1e-10), x*(1+1e-10)
	if p > 0.5 {
		return d.Survival(low) >= 1-p && d.Survival(high) <= 1-p
	}
	return d.CDF(low) <= p && d.CDF(high) >= p
}

// Kind: memory. Source: tables of the distributions as textbooks print them.
func TestChiSquareAndFTables(t *testing.T) {
	for _, test := range []struct{ got, want float64 }{
		{result.ChiSquare(0.95, 1), 3.841},
		{result.ChiSquare(0.95, 2), 5.991},
		{result.ChiSquare(0.95, 5), 11.070},
		{result.ChiSquare(0.95, 10), 18.307},
		{result.ChiSquare(0.05, 10), 3.940},
		{result.ChiSquare(0.99, 10), 23.209},
		{result.ChiSquare(0.95, 30), 43.773},
		{result.ChiSquare(0.95, 100), 124.342},
		{result.F(0.95, 3, 10), 3.708},
		{result.F(0.95, 5, 5), 5.050},
		{result.F(0.95, 10, 20), 2.348},
		{result.F(0.99, 2, 10), 7.559},
	} {
		if !(math.Abs(test.got-test.want) <= 0.0006) {
			t.Errorf("quantile is %v, want %v", test.got, test.want)
		}
	}
}

// Kind: common-practice. Closed forms, and what the distributions have to do
// with one another.
func TestChiSquareAndFClosedForms(t *testing.T) {
	for _, p := range probabilities {
		for _, test := range []struct {
			what      string
			got, want float64
		}{
			{"chi-square with 2", result.ChiSquare(p, 2), -2 * math.Log1p(-p)},
			{"chi-square with 1", result.ChiSquare(p, 1), square(result.StudentT((1-p)/2, math.Inf(1)))},
			{"F(2, 7)", result.F(p, 2, 7), 3.5 * math.Expm1(-math.Log1p(-p)/3.5)},
			{"F(2, 1e6)", result.F(p, 2, 1e6), 5e5 * math.Expm1(-math.Log1p(-p)/5e5)},
			{"F(1, 16.66)", result.F(p, 1, 16.66), square(result.StudentT((1-p)/2, 16.66))},
			{"F(1, 1e5)", result.F(p, 1, 1e5), square(result.StudentT((1-p)/2, 1e5))},
			{"F(1, 1e6)", result.F(p, 1, 1e6), square(result.StudentT((1-p)/2, 1e6))},
			{"F(3, inf)", result.F(p, 3, math.Inf(1)), result.ChiSquare(p, 3) / 3},
			{"F(inf, 3)", result.F(p, math.Inf(1), 3), 3 / result.ChiSquare(1-p, 3)},
		} {
			if p < 0.001 && test.want != -2*math.Log1p(-p) {
				continue // (1-p)/2 has lost the digits of p
			}
			if !(math.Abs(test.got/test.want-1) <= 1e-10) {
				t.Errorf("%s at %v is %v, want %v", test.what, p, test.got, test.want)
			}
		}
	}
	if got := result.F(0.3, math.Inf(1), math.Inf(1)); got != 1 {
		t.Errorf("F(0.3, inf, inf) = %v, want 1", got)
	}
}

func square(x float64) float64 { return x * x }

// Kind: library. Source: gonum v0.17.0, quad.Fixed over the range of n normal
// readings, distuv.UnitNormal.
func TestStudentizedRangeByLibrary(t *testing.T) {
	for _, n := range []int{2, 3, 5, 10, 37, 100} {
		for _, p := range []float64{0.5, 0.9, 0.95, 0.99, 0.9999} {
			w := result.StudentizedRange(p, n)
			got := quad.Fixed(func(z float64) float64 {
				u := distuv.UnitNormal
				return float64(n) * u.Prob(z) * math.Pow(u.CDF(z)-u.CDF(z-w), float64(n-1))
			}, -8, 12, 400, quad.Legendre{}, 0)
			if !(math.Abs(got-p) <= 1e-11) {
				t.Errorf("StudentizedRange(%v, %v) = %v, but below it lies %v (library: %s)", p, n, w, got, gonum)
			}
		}
	}
}

func TestStudentizedRange(t *testing.T) {
	for _, test := range []struct {
		probability  float64
		count        int
		want         float64
		kind, source string
	}{
		{0.95, 2, 2.7718076487, "library", scipy + " norm.ppf(0.975)*sqrt(2)"}, // PRE-020
		{0.99, 2, 3.642772735, "library", scipy},                               // RS-280
		{0.95, 5, 3.858, "library", scipy + " studentized_range"},              // PRE-024
		{0.95, 6, 4.030, "library", scipy + " studentized_range"},              // PRE-025
		{0.95, 10, 4.474, "library", scipy + " studentized_range"},             // PRE-026
		{0.95, 3, 3.314, "memory", "tables of the studentized range"},
		{0.95, 20, 5.012, "memory", "tables of the studentized range"},
		{0.99, 5, 4.603, "memory", "tables of the studentized range"},
	} {
		tolerance := 0.0006
		if test.count == 2 {
			tolerance = 1e-9
		}
		if got := result.StudentizedRange(test.probability, test.count); !(math.Abs(got-test.want) <= tolerance) {
			t.Errorf("StudentizedRange(%v, %v) = %v, want %v (%s: %s)", test.probability, test.count, got, test.want, test.kind, test.source)
		}
	}
}

// The largest degrees of freedom, and infinite ones above the stroke: 10 over the
// chi-square of the other side. Kind: memory. Source: tables of the distributions
// as textbooks print them.
func TestDistributionsAtTheirEnds(t *testing.T) {
	if got := result.F(0.95, math.Inf(1), 10); !(math.Abs(got-2.54) <= 0.005) {
		t.Errorf("F of 0.95, infinite and 10, is %v, want 2.54", got)
	}
	if got := result.F(0.05, math.Inf(1), 10); !(math.Abs(got-10/18.31) <= 0.0005) {
		t.Errorf("F of 0.05, infinite and 10, is %v, want 10 over 18.31", got)
	}
	if got := result.ChiSquare(0.5, 1e8) / 1e8; !(math.Abs(got-1) < 1e-7) {
		t.Errorf("the median of chi-square is %v of 1e8 degrees of freedom, want about 1", got)
	}
	if got := result.F(0.5, 1e6, 1e6); !(math.Abs(got-1) < 1e-9) {
		t.Errorf("the median of F of 1e6 and 1e6 is %v, want 1", got)
	}
}

func TestDistributionsWithoutAnswer(t *testing.T) {
	for _, p := range []float64{0, 1, -0.1, 1.1, math.NaN()} {
		for what, got := range map[string]float64{
			"ChiSquare": result.ChiSquare(p, 3), "F": result.F(p, 3, 4), "F to infinity": result.F(p, 3, math.Inf(1)),
			"F of infinity": result.F(p, math.Inf(1), math.Inf(1)), "StudentizedRange": result.StudentizedRange(p, 3),
		} {
			if !math.IsNaN(got) {
				t.Errorf("%s at the probability %v is %v, want NaN", what, p, got)
			}
		}
	}
	for _, n := range []float64{0, -1, 1e9, math.NaN()} {
		if a, b, c := result.ChiSquare(0.5, n), result.F(0.5, n, 3), result.F(0.5, 3, n); !math.IsNaN(a) || !math.IsNaN(b) || !math.IsNaN(c) {
			t.Errorf("with %v degrees of freedom: %v, %v, %v, want NaN", n, a, b, c)
		}
	}
	for _, n := range []int{2, 1000} {
		if got := result.StudentizedRange(0.5, n); !(got > 0.9 && got < 8) {
			t.Errorf("StudentizedRange(0.5, %d) = %v, want a range of normal readings", n, got)
		}
	}
	for _, n := range []int{1, 1001} {
		if got := result.StudentizedRange(0.5, n); !math.IsNaN(got) {
			t.Errorf("StudentizedRange(0.5, %d) = %v, want NaN", n, got)
		}
	}
}
