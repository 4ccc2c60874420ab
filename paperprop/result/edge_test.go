package result_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"millmaths.example/paperprop/result"
)

func TestDixonOfWhatIsNone(t *testing.T) {
	for _, test := range []struct {
		r result.DixonRatio
		x []float64
	}{
		{255, []float64{1, 2, 3}},
		{result.R10, []float64{1, 2, math.NaN()}},
		{result.R10, []float64{1, 2, math.Inf(1)}},
		{result.R10, []float64{4, 4, 4}},
	} {
		if got, ok := test.r.Of(test.x, true); ok || got != 0 {
			t.Errorf("ratio %d of %v = %v, %v, want none", test.r, test.x, got, ok)
		}
	}
}

func TestCorrelationOfTwoLengths(t *testing.T) {
	up, inf := []float64{1, 2, 3}, math.Inf(1)
	for _, x := range [][]float64{{1, 2}, {1, math.NaN(), 3}, {1, inf, 3}, {-inf, 2, inf}} {
		if r, s := result.Correlation(up, x), result.Correlation(x, up); !math.IsNaN(r) || !math.IsNaN(s) {
			t.Errorf("Correlation of %v and %v = %v and %v, want NaN", up, x, r, s)
		}
	}
	for _, x := range [][]float64{{1e200, 2e200, 3e200}, {1e-200, 2e-200, 3e-200}} {
		if r, s := result.Correlation(x, up), result.Correlation(up, x); !(math.Abs(r-1) <= 1e-14 && math.Abs(s-1) <= 1e-14) {
			t.Errorf("Correlation of %v and %v = %v and %v, want 1", x, up, r, s)
		}
	}
}

// TestCorrelation asks gonum's stat.Correlation (a library) for random pairs. What
// does not vary, which has no correlation there, is 0 here.
func TestCorrelation(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 3))
	for range 1000 {
		x, y := make([]float64, 2+random.IntN(20)), make([]float64, 0, 22)
		share := random.NormFloat64()
		for i := range x {
			x[i] = 100 + random.NormFloat64()
			y = append(y, share*x[i]+random.NormFloat64())
		}
		if got, want := result.Correlation(x, y), stat.Correlation(x, y, nil); !(math.Abs(got-want) <= 1e-12) {
			t.Fatalf("Correlation(%v, %v) is %v, want %v", x, y, got, want)
		}
	}
	rising, falling, level := []float64{1, 2, 4}, []float64{8, 6, 2}, []float64{3, 3, 3}
	for _, test := range []struct {
		x, y []float64
		want float64
	}{{rising, rising, 1}, {rising, falling, -1}, {rising, level, 0}, {level, rising, 0}, {level, level, 0}, {nil, nil, 0}} {
		if got := result.Correlation(test.x, test.y); !(math.Abs(got-test.want) <= 1e-15) {
			t.Errorf("Correlation(%v, %v) is %v, want %v", test.x, test.y, got, test.want)
		}
	}
}

// TestRest has a whole of which the last digits that do not count are just 1.
func TestRest(t *testing.T) {
	const whole = 1 / result.LastDigits
	for left, want := range map[float64]float64{0: 0, 0.5: 0, 1: 0, 2: 2, -1: 0, -2: -2, whole: whole, whole / 4: whole / 4} {
		if got := result.Rest(whole, whole-left); got != want {
			t.Errorf("a whole and its parts are %v apart, the rest is %v, want %v", left, got, want)
		}
		if got := result.Rest(-whole, -whole+left); got != -want {
			t.Errorf("a whole below zero and its parts are %v apart, the rest is %v, want %v", left, got, -want)
		}
	}
	for _, test := range [][2]float64{{math.NaN(), 1}, {1, math.NaN()}, {math.Inf(1), 1}, {math.Inf(-1), 1}, {1, math.Inf(1)}, {math.Inf(1), math.Inf(1)}} {
		if got := result.Rest(test[0], test[1]); got-got == 0 {
			t.Errorf("the rest of %v less %v is %v, want what is not finite", test[0], test[1], got)
		}
	}
}

// Kind: common-practice, no source. Which of Dixon's ratios is meant for how many.
func TestDixonRatioOf(t *testing.T) {
	for count, want := range map[int]result.DixonRatio{
		3: result.R10, 7: result.R10, 8: result.R11, 10: result.R11, 11: result.R21, 13: result.R21, 14: result.R22, 30: result.R22,
	} {
		if got := result.DixonRatioOf(count); got != want {
			t.Errorf("the ratio of %d readings is %d, want %d", count, got, want)
		}
	}
}

// TestNarrowestRange has readings 1e-140 apart, which are told from each other, and
// ones that are not.
func TestNarrowestRange(t *testing.T) {
	for apart, taken := range map[float64]bool{0: true, 0.99e-140: false, 1e-140: true, 1.01e-140: true} {
		if _, err := result.Summarise([]float64{0, apart}, 0.95); taken != (err == nil) {
			t.Errorf("readings %v apart: %v", apart, err)
		}
	}
}

// Steps that are no decimal: a third, a tenth of a millimetre in inches.
func TestToStep(t *testing.T) {
	for _, test := range []struct {
		x, step      string
		tie          result.Tie
		want, text   string
		kind, source string
	}{
		{"1", "1/254", result.Even, "1", "1", "common-practice", ownArithmetic},
		{"1", "1/3", result.Even, "1", "1", "common-practice", ownArithmetic},
		{"1/2", "1/3", result.Even, "2/3", "0.6666666666666666", "common-practice", ownArithmetic},
		{"1/6", "1/3", result.Even, "0", "0", "common-practice", ownArithmetic},
		{"1/6", "1/3", result.Away, "1/3", "0.3333333333333333", "common-practice", ownArithmetic},
		{"-1/2", "1/3", result.Away, "-2/3", "-0.6666666666666666", "common-practice", ownArithmetic},
		{"-1/9", "1/3", result.Away, "0", "0", "common-practice", ownArithmetic},
		{"-0.04", "0.10", result.Even, "0", "0.0", "common-practice", ownArithmetic},
		{"12.25", "0.5", result.Even, "12", "12.0", "common-practice", ownArithmetic},
		{"42025", "50", result.Even, "42000", "42000", "library", pyDecimal},
		{"1e30", "1e29", result.Even, "1e30", "1000000000000000000000000000000", "common-practice", ownArithmetic},
	} {
		got, text, err := result.ToStep(rat(test.x), rat(test.step), test.tie)
		if err != nil || got.Cmp(rat(test.want)) != 0 || text != test.text {
			t.Errorf("ToStep(%s, %s, %v) = %v, %q, %v, want %s, %q (%s: %s)",
				test.x, test.step, test.tie, got, text, err, test.want, test.text, test.kind, test.source)
		}
	}
	for _, step := range []string{"0", "-1/3"} {
		_, _, err := result.ToStep(rat("1"), rat(step), result.Even)
		if want := "step is " + step + ", want a step above 0"; err == nil || err.Error() != want {
			t.Errorf("ToStep to %s: %v, want %s", step, err, want)
		}
	}
}

func TestFromRat(t *testing.T) {
	for text, want := range map[string]string{"1/8": "0.125", "-7/5": "-1.4", "1200": "1200", "0": "0", "0.0070": "0.007", "1/3": "", "1/254": ""} {
		got, ends := result.FromRat(rat(text))
		if ends != (want != "") || ends && got.String() != want {
			t.Errorf("FromRat(%s) = %v, %v, want %q", text, got, ends, want)
		}
	}
}

func rat(text string) *big.Rat {
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text)
	}
	return x
}

func TestBySignificantFigures(t *testing.T) {
	for r, want := range map[result.Rule]bool{
		{}: false, result.Figures(1, result.Even): true, result.Figures(3, result.Away): true, step("0.1", result.Even): false, step("5", result.Even): false,
	} {
		if got := r.BySignificantFigures(); got != want {
			t.Errorf("%v: by significant figures is %v", r, got)
		}
	}
}

// Kind: common-practice, no source. On a limit a number is not outside it, but for its
// last digits; what is no number is not outside either.
func TestOutside(t *testing.T) {
	for x, want := range map[float64]bool{
		0.3: true, 1.15: false, 1.15 * (1 - 1e-15): false, 1.15 * (1 - 1e-12): true, 1.4: false,
		1.65: false, 1.65 * (1 + 1e-15): false, 1.65 * (1 + 1e-12): true, math.Inf(1): true, math.Inf(-1): true,
	} {
		if got := result.Outside(x, 1.15, 1.65); got != want {
			t.Errorf("%v outside 1.15 to 1.65 is %v, want %v", x, got, want)
		}
	}
	if result.Outside(math.NaN(), 1, 2) {
		t.Error("NaN is outside")
	}
}

// Kind: common-practice, no source.
func TestNearWhole(t *testing.T) {
	tall, low := 2.1, 0.7
	for x, want := range map[float64]float64{
		tall / low: 3, 0: 0, 0.5: 0.5, 1 - 1e-9: 1, 1 - 2e-9: 1 - 2e-9, -3 - 1e-10: -3,
		1e12 + 0.25: 1e12 + 0.25, 1e14 + 0.25: 1e14, 1e300: 1e300, math.Inf(1): math.Inf(1),
	} {
		if got := result.NearWhole(x); got != want {
			t.Errorf("NearWhole(%v) = %v, want %v", x, got, want)
		}
	}
	if got := result.NearWhole(math.NaN()); got == got {
		t.Errorf("NearWhole(NaN) = %v", got)
	}
}
