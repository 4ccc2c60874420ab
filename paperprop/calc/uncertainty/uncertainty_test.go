package uncertainty_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"millmaths.example/paperprop/calc/uncertainty"
)

// square is y = (a + t·u)², a function whose moments are known in closed form.
func squares(a, u float64) uncertainty.Function {
	return func(t []float64) ([]float64, error) {
		sum := 0.0
		for _, x := range t {
			sum += (a + x*u) * (a + x*u)
		}
		return []float64{sum}, nil
	}
}

// A sum of squares of n independent normal numbers N(a, u²) has the mean
// n(a² + u²) and the variance n(4a²u² + 2u⁴): moments of the normal
// distribution, as printed in any handbook.
func TestSecondOrderIsExactForSquares(t *testing.T) {
	for _, test := range []struct{ a, u, n float64 }{{0, 0.005, 2}, {0.01, 0.005, 1}, {3, 0.5, 4}} {
		bends, err := uncertainty.Bends(squares(test.a, test.u), int(test.n))
		if err != nil {
			t.Fatal(err)
		}
		wantShift := test.n * test.u * test.u
		wantVariance := test.n * 2 * math.Pow(test.u, 4)
		if got := bends[0].Shift; !(math.Abs(got-wantShift) <= 1e-9*wantShift) {
			t.Errorf("a = %v: shift %v, want %v", test.a, got, wantShift)
		}
		if got := bends[0].Variance; !(math.Abs(got-wantVariance) <= 1e-8*wantVariance+1e-13*test.a*test.a*test.u*test.u) {
			t.Errorf("a = %v: variance %v, want %v", test.a, got, wantVariance)
		}
	}
}

// The product of two independent numbers has the variance a²v² + b²u² + u²v².
func TestSecondOrderOfAProduct(t *testing.T) {
	const a, u, b, v = 2.0, 0.3, 5.0, 0.4
	product := func(t []float64) ([]float64, error) { return []float64{(a + t[0]*u) * (b + t[1]*v)}, nil }
	bends, err := uncertainty.Bends(product, 2)
	if err != nil {
		t.Fatal(err)
	}
	if want := u * u * v * v; !(math.Abs(bends[0].Variance-want) <= 1e-10*want) || !(math.Abs(bends[0].Shift) <= 1e-12) {
		t.Errorf("got %+v, want a variance of %v and no shift", bends[0], want)
	}
}

// The moments of a normal number to the sixth give the variance of a cube, 9a⁴u² +
// 36a²u⁴ + 15u⁶, and of a b² with both of the standard uncertainty u, (b⁴ + 4a²b²)u² +
// (2a² + 6b²)u⁴ + 3u⁶: the terms in u⁴ are those of the second order.
func TestSecondOrderOfCubes(t *testing.T) {
	const a, b, u = 2.0, 5.0, 0.1
	for _, test := range []struct {
		name            string
		f               func(x, y float64) float64
		shift, variance float64
	}{
		{"a³", func(x, _ float64) float64 { return x * x * x }, 3 * a * u * u, 36 * a * a * u * u * u * u},
		{"a b²", func(x, y float64) float64 { return x * y * y }, a * u * u, (2*a*a + 6*b*b) * u * u * u * u},
	} {
		bends, err := uncertainty.Bends(func(t []float64) ([]float64, error) {
			return []float64{test.f(a+t[0]*u, b+t[1]*u)}, nil
		}, 2)
		if err != nil {
			t.Fatal(err)
		}
		if got := bends[0]; !(math.Abs(got.Shift/test.shift-1) <= 1e-9) || !(math.Abs(got.Variance/test.variance-1) <= 1e-7) {
			t.Errorf("%s: %+v, want a shift of %v and a variance of %v", test.name, got, test.shift, test.variance)
		}
	}
}

// The reciprocal of x(1 ± r) has the shift r²/x and the terms 8r⁴/x², by its derivatives;
// for a wide r, whose bend changes within a step, and for one that leaves few digits.
func TestSecondOrderOfAReciprocal(t *testing.T) {
	for _, test := range []struct{ r, exact float64 }{{0.3, 1e-8}, {0.2, 1e-9}, {0.1, 1e-9}, {0.01, 1e-6}} {
		const x = 2.0
		reciprocal := func(t []float64) ([]float64, error) { return []float64{1 / (x * (1 + t[0]*test.r))}, nil }
		bends, err := uncertainty.Bends(reciprocal, 1)
		if err != nil {
			t.Fatal(err)
		}
		shift, variance := test.r*test.r/x, 8*math.Pow(test.r, 4)/(x*x)
		if !(math.Abs(bends[0].Shift-shift) <= test.exact*shift) || !(math.Abs(bends[0].Variance-variance) <= test.exact*variance) {
			t.Errorf("r = %v: got %+v, want %v and %v", test.r, bends[0], shift, variance)
		}
	}
}

// A function may return the same slice each time.
func TestResultsInOneSlice(t *testing.T) {
	results := make([]float64, 1)
	f := func(t []float64) ([]float64, error) {
		results[0] = t[0] * t[0]
		return results, nil
	}
	bends, err := uncertainty.Bends(f, 1)
	if err != nil || !(math.Abs(bends[0].Shift-1) <= 1e-12) || !(math.Abs(bends[0].Variance-2) <= 1e-12) {
		t.Errorf("got %+v, %v, want a shift of 1 and a variance of 2", bends, err)
	}
	slope, err := uncertainty.Slope(func(t float64) ([]float64, error) { return f([]float64{1 + t}) }, 1e-3)
	if err != nil || !(math.Abs(slope[0]-2) <= 1e-9) {
		t.Errorf("slope %v, %v, want 2", slope, err)
	}
}

func TestStandardOfSecondOrder(t *testing.T) {
	for _, test := range []struct {
		what              string
		y, u, terms, want float64
		ok                bool
	}{
		{"terms add", 2, 0.3, 0.16, 0.5, true},
		{"terms take away", 2, 0.5, -0.16, 0.3, true},
		{"terms are more than there is", 2, 0.3, -0.16, 0, false},
		{"the last digits of a result", -0.034, 0, -1e-34, 0, true},
		{"the last digits of a large one", 1e200, 0, -1e300, 0, true},
		{"a result of zero", 0, 0, -1e-34, 0, false},
		{"no variance", 0, 0, 0, 0, true},
	} {
		got, ok := uncertainty.Bend{Variance: test.terms}.Standard(test.y, test.u)
		if ok != test.ok || !(math.Abs(got-test.want) <= 1e-15) {
			t.Errorf("%s: %v, %v, want %v, %v", test.what, got, ok, test.want, test.ok)
		}
	}
}

func one(f func(x float64) float64) uncertainty.Line {
	return func(x float64) ([]float64, error) { return []float64{f(x)}, nil }
}

func TestSlope(t *testing.T) {
	exp := func(x float64) ([]float64, error) { return []float64{math.Exp(2 * x)}, nil }
	refusing := errors.New("below zero")
	root := func(x float64) ([]float64, error) {
		if x < 0 {
			return nil, refusing
		}
		return []float64{math.Sqrt(1 + x)}, nil
	}
	down := func(x float64) ([]float64, error) { return root(-x) }
	for _, test := range []struct {
		name string
		at   uncertainty.Line
		want float64
	}{
		{"both sides", exp, 2}, {"one side", root, 0.5}, {"the other side", down, -0.5},
		{"a kink within the steps", one(func(x float64) float64 { return math.Abs(x + 1e-4) }), 1},
		{"just beside", one(func(x float64) float64 { return math.Abs(x - 2e-7) }), -1},
		{"on a kink", one(math.Abs), 1},
		{"one side of it", one(func(x float64) float64 { return 5 + max(0, x) }), 1},
		{"on its way", one(func(x float64) float64 { return 3*x - math.Abs(x) }), 4},
		{"a pole at five steps", one(func(x float64) float64 { return 1 / (x + 5e-3) }), -4e4},
		{"a pole at two", one(func(x float64) float64 { return 1 / (x + 2.0001e-3) }), -1 / (2.0001e-3 * 2.0001e-3)},
		{"the bottom of a parabola", one(func(x float64) float64 { return 7 + x*x }), 0},
		{"a steep one", one(func(x float64) float64 { return 7 + 1e6*x*x }), 0},
		{"a jump within the steps", one(func(x float64) float64 { return 2*x + math.Floor(x+0.9999) }), 2},
		{"on a jump", one(func(x float64) float64 { return math.Floor(x) }), 0},
		{"on a jump down a slope", one(func(x float64) float64 { return 2*x - 1e-3*math.Floor(x) }), 2},
		{"on a jump between slopes", one(func(x float64) float64 { return x + math.Floor(x)*(1-4*x) }), 5},
		{"on a jump beside curves", one(func(x float64) float64 { return x*x*(1+x) + 3*x + math.Floor(x) }), 3},
		{"on one of many jumps", one(func(x float64) float64 { return 2.1e-5 * math.Floor(x/7e-6) }), (8*285 - 571) / 12. * 0.021}, // 285 within the step, 571 within two
		{"a cubic", one(func(x float64) float64 { return x * x * x }), 0},
	} {
		for _, unit := range []float64{1, 1e-7, 1e7} { // a slope is as good in any unit
			in := func(x float64) ([]float64, error) {
				y, err := test.at(x)
				for i := range y {
					y[i] *= unit
				}
				return y, err
			}
			got, err := uncertainty.Slope(in, 1e-3)
			if want := test.want * unit; err != nil || !(math.Abs(got[0]-want) <= 1e-9*max(unit, math.Abs(want))) {
				t.Errorf("%s in units of %v: %v, %v, want %v", test.name, unit, got, err, want)
			}
		}
	}
	narrow := func(x float64) ([]float64, error) {
		if math.Abs(x) > 2.5e-3 {
			return nil, errors.New("outside")
		}
		return []float64{2*x + math.Floor(x)}, nil
	}
	if got, err := uncertainty.Slope(narrow, 1e-3); err != nil || !(math.Abs(got[0]-2) <= 1e-9) {
		t.Errorf("on a jump between refusals: %v, %v, want 2", got, err)
	}
	// What computing leaves of a large result is no kink, and smaller steps make it larger.
	for _, origin := range []float64{1e8, -1e8, 1e10} {
		got, err := uncertainty.Slope(one(func(x float64) float64 { return origin + math.Sin(x) }), 1e-3)
		if err != nil || !(math.Abs(got[0]-1) <= 3e-13*math.Abs(origin)) {
			t.Errorf("on %v: %v, %v, want 1", origin, got, err)
		}
	}
	constant := func(float64) ([]float64, error) { return []float64{0.1}, nil }
	if got, err := uncertainty.Slope(constant, 1e-3); err != nil || got[0] != 0 {
		t.Errorf("nothing moves: slope %v, %v, want exactly 0", got, err)
	}
}

func TestCombined(t *testing.T) {
	full := func(i, j int) float64 { return 1 }
	against := func(i, j int) float64 {
		if i == j {
			return 1
		}
		return -1
	}
	for _, test := range []struct {
		slopes []float64
		r      uncertainty.Correlation
		want   float64
	}{
		{[]float64{3, 4}, uncertainty.Independent, 5},
		{[]float64{3, -4}, full, 1},
		{[]float64{3e-200, 4e-200}, uncertainty.Independent, 5e-200},
		{[]float64{3e200, 4e200}, uncertainty.Independent, 5e200},
		{[]float64{2, 2}, against, 0},
		{nil, full, 0},
	} {
		if got, err := uncertainty.Combined(test.slopes, test.r); err != nil || !(math.Abs(got-test.want) <= 1e-15*test.want) {
			t.Errorf("Combined(%v) = %v, %v, want %v", test.slopes, got, err, test.want)
		}
	}
	if _, err := uncertainty.Combined([]float64{1, 1, 1}, against); err == nil {
		t.Error("three inputs each against both others were taken")
	}
}

// JCGM 100:2008, H.1.6 (end gauge): contributions of 25 nm with 18 degrees of
// freedom, 9.7 nm with 25.6, 2.9 nm with 50 and 16.6 nm with 2 make 31.7 nm with
// 16.7, printed 16 (numbers as remembered, kind memory).
func TestFreedom(t *testing.T) {
	slopes := []float64{25, 9.7, 2.9, 16.6}
	u, _ := uncertainty.Combined(slopes, uncertainty.Independent)
	if got := uncertainty.Freedom(u, slopes, []float64{18, 25.6, 50, 2}); !(math.Abs(got-16.7) <= 0.1) {
		t.Errorf("%v effective degrees of freedom, want 16.7", got)
	}
	for _, freedom := range [][]float64{nil, {18, 25.6, 50}, make([]float64, 5)} {
		got := uncertainty.Freedom(u, slopes, freedom)
		if _, err := uncertainty.Factor(0.95, got); !math.IsNaN(got) || err == nil {
			t.Errorf("%d degrees of freedom for 4 slopes: %v, whose factor has no error, want NaN", len(freedom), got)
		}
	}
	if got := uncertainty.Freedom(u, slopes, make([]float64, 4)); got != 0 {
		t.Errorf("%v, want 0: infinitely many", got)
	}
	// An input of infinitely many adds nothing: 5⁴ 7 / 4⁴ are left.
	if got := uncertainty.Freedom(5, []float64{3, 4}, []float64{0, 7}); !(math.Abs(got-17.08984375) <= 1e-12) {
		t.Errorf("%v effective degrees of freedom, want 17.08984375", got)
	}
	for _, test := range []struct{ confidence, freedom, want float64 }{
		{0.95, 0, 1.96}, {0.99, 16, 2.92}, {0.95, 10, 2.23}, // JCGM 100:2008, table G.2, as remembered
	} {
		if k, err := uncertainty.Factor(test.confidence, test.freedom); err != nil || !(math.Abs(k-test.want) <= 0.005) {
			t.Errorf("Factor(%v, %v) = %v, %v, want %v", test.confidence, test.freedom, k, err, test.want)
		}
	}
}

// A function whose number of results changes with the step is refused.
func TestResultsChange(t *testing.T) {
	empty := func(t float64) ([]float64, error) {
		if t > 0 {
			return nil, nil
		}
		return []float64{t}, nil
	}
	if slope, err := uncertainty.Slope(empty, 1e-3); !errors.Is(err, uncertainty.ErrResults) {
		t.Errorf("first no result, then one: %v, %v, want %v", slope, err, uncertainty.ErrResults)
	}
	for what, most := range map[string]func(t float64) bool{
		"off the estimate": func(t float64) bool { return t != 0 },
		"at large steps":   func(t float64) bool { return math.Abs(t) > 2e-4 },
		"on one side":      func(t float64) bool { return t > 0 },
	} {
		at := func(t float64) ([]float64, error) {
			if most(t) {
				return []float64{t, 2 * t}, nil
			}
			return []float64{t}, nil
		}
		if slope, err := uncertainty.Slope(at, 1e-3); !errors.Is(err, uncertainty.ErrResults) {
			t.Errorf("two results %s: %v, %v, want %v", what, slope, err, uncertainty.ErrResults)
		}
		along := func(t []float64) ([]float64, error) { return at(t[0] + t[1]) }
		if bends, err := uncertainty.Bends(along, 2); what != "at large steps" && !errors.Is(err, uncertainty.ErrResults) {
			t.Errorf("two results %s: %v, %v, want %v", what, bends, err, uncertainty.ErrResults)
		}
	}
}

// What has no coverage factor is refused, and is no NaN and no infinity.
func TestNoFactor(t *testing.T) {
	beyond := "the coverage factor of %v degrees of freedom at a level of %v is beyond a float64, want more of them or a lower level"
	for _, test := range []struct {
		confidence, freedom float64
		want                string
	}{
		{0.95, -1, "-1 degrees of freedom, want a number above 0, or 0 for infinitely many"},
		{0.95, math.NaN(), "NaN degrees of freedom, want a number above 0, or 0 for infinitely many"},
		{0.95, 0.0001, fmt.Sprintf(beyond, 0.0001, 0.95)},
		{math.Nextafter(1, 0), 0, fmt.Sprintf(beyond, math.Inf(1), math.Nextafter(1, 0))},
		{0, 5, "a level of confidence of 0, want above 0 and below 1"},
		{1, 5, "a level of confidence of 1, want above 0 and below 1"},
		{math.NaN(), 5, "a level of confidence of NaN, want above 0 and below 1"},
	} {
		if k, err := uncertainty.Factor(test.confidence, test.freedom); err == nil || err.Error() != test.want {
			t.Errorf("Factor(%v, %v) = %v, %v, want %s", test.confidence, test.freedom, k, err, test.want)
		}
	}
}

// Rounding goes to the twelfth digit, and takes no number out of float64.
func TestDigits(t *testing.T) {
	for x, want := range map[float64]float64{1.0 / 3: 0.333333333333, -2e300 / 3: -6.66666666667e299, 0: 0, math.MaxFloat64: 1.79769313486e308} {
		if got := uncertainty.Digits(x); got != want {
			t.Errorf("Digits(%v) = %v, want %v", x, got, want)
		}
	}
}

// A force of 96.4 N and a width of 15 mm, each with its uncertainty, make a
// strength: the slopes are what each contributes, in kN/m.
func ExampleSlope() {
	strength := func(force, width float64) float64 { return force / width }
	byForce, _ := uncertainty.Slope(func(t float64) ([]float64, error) { return []float64{strength(96.4+0.5*t, 15)}, nil }, 1e-3)
	byWidth, _ := uncertainty.Slope(func(t float64) ([]float64, error) { return []float64{strength(96.4, 15+0.1*t)}, nil }, 1e-3)
	u, err := uncertainty.Combined([]float64{byForce[0], byWidth[0]}, uncertainty.Independent)
	fmt.Printf("%.4f and %.4f make %.4f kN/m, error: %v\n", byForce[0], byWidth[0], u, err)
	// Output: 0.0333 and -0.0428 make 0.0543 kN/m, error: <nil>
}
