package calc

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// warm is a calculation of a temperature, whose zero is not that of its unit.
type warm struct{ T paperprop.Temperature }

// drawnIn is drawn with the input in another unit; of is given what counts in it.
func drawnIn(unit string, ranged func(*Input), of func(x float64) float64) *Sheet {
	if unit == "degF" {
		d := &Description[warm, curveResult]{
			Name: "warm",
			Compute: func(w warm) (curveResult, error) {
				return curveResult{paperprop.Ratio(of(w.T.Celsius()*9/5 + 32))}, nil
			},
			Fields: func(f *Form, in *warm, out *curveResult) {
				ranged(In(f, &in.T, "x", "t", unit, "sought"))
				Out(f, &out.Y, "y", "y", "1", "")
			},
		}
		return d.NewSheet()
	}
	d := &Description[curve, curveResult]{
		Name: "curve",
		Compute: func(c curve) (curveResult, error) {
			return curveResult{paperprop.Ratio(of(c.X.In(paperprop.Metre)))}, nil
		},
		Fields: func(f *Form, in *curve, out *curveResult) {
			ranged(In(f, &in.X, "x", "x", unit, "sought"))
			Out(f, &out.Y, "y", "y", "1", "")
		},
	}
	return d.NewSheet()
}

// setAll gives texts such as "a=3 ± 0.1" and runs the sheet.
func setAll(s *Sheet, texts ...string) error {
	for _, text := range texts {
		name, value, _ := strings.Cut(text, "=")
		if err := s.Set(name, value); err != nil {
			return err
		}
	}
	return s.Run()
}

func wideMetres(in *Input)   { in.From(-1e12).UpTo(1e12) }
func billion(in *Input)      { in.From(-1e9).UpTo(1e9) }
func toTwoThousand(i *Input) { i.From(0).UpTo(2000) }
func wholeOf5000(in *Input)  { in.From(1).UpTo(5000).Whole() }

// near gives a function two zeros and no others.
func near(a, b float64) func(x float64) float64 {
	return func(x float64) float64 { return (x - a) * (x - b) * 1e-9 }
}

// The search finds two roots that lie close to each other, in whatever unit it
// goes by: between the points of the even grid, which a closed range has, and on
// either side of zero and far out, where only the logarithmic one goes.
func TestCloseRoots(t *testing.T) {
	for _, test := range []struct {
		name, unit string
		ranged     func(*Input)
		a, b       float64
	}{
		{"in metres, far out", "m", wideMetres, 4.5e8, 5.5e8},
		{"in metres, far below zero", "m", wideMetres, -5.5e8, -4.5e8},
		{"in metres, up to the end of a closed range", "m", billion, 3.025e8, 3.045e8},
		{"in metres, from the other end", "m", billion, -3.045e8, -3.025e8},
		{"in millimetres, up to the end of a closed range", "mm", billion, 3.025e8, 3.045e8},
		{"in degrees whose zero is another", "degF", func(*Input) {}, 10, 50},
		{"small ones", "mm", tiny, 2e-5, 5e-5},
	} {
		of := near(test.a, test.b)
		if test.name == "small ones" { // steep, so that they stay two
			of = func(x float64) float64 { return 1e10 * (x - test.a) * (x - test.b) }
		}
		s := drawn(test.ranged, of)
		if test.unit != "mm" {
			s = drawnIn(test.unit, test.ranged, of)
		}
		if err := setAll(s, "y=0"); err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		x, _ := s.Input("x")
		var got []float64
		for _, r := range s.Roots {
			got = append(got, x.Unit.To(r.Low))
		}
		if len(got) != 2 || !(math.Abs(got[0]-test.a) <= 1e-8*math.Abs(test.a)) || !(math.Abs(got[1]-test.b) <= 1e-8*math.Abs(test.b)) {
			t.Errorf("%s: roots %v, want %v and %v", test.name, got, test.a, test.b)
		}
	}
}

// A root that a float holds is found to the last bit, and so are the ends of a
// stretch.
func TestExactRoots(t *testing.T) {
	for _, test := range []struct {
		name   string
		ranged func(*Input)
		of     func(x float64) float64
		want   float64
		roots  [][2]float64
	}{
		{"rising", toTwoThousand, line, 100.3, [][2]float64{{100.3, 100.3}}},
		{"rising, in the middle of two points", toTwoThousand, line, 100.5, [][2]float64{{100.5, 100.5}}},
		{"falling, in the middle of two points", toTwoThousand, func(x float64) float64 { return -x }, -100.5, [][2]float64{{100.5, 100.5}}},
		{"touching at zero in a range without ends", wide, math.Abs, 0, [][2]float64{{0, 0}}},
		{"the one point that is taken", closed, refusedFrom(10, 10, line), 10, [][2]float64{{10, 10}}},
		{"the lower end, the one point that is taken", closed, refusedFrom(0, 0, line), 0, [][2]float64{{0, 0}}},
		{"the lower end, below a level", closed, func(x float64) float64 { return min(math.Ceil(x), 1) }, 0, [][2]float64{{0, 0}}},
		{"a stretch up to the end", closed, func(x float64) float64 { return math.Floor(x/3) + 1 }, 4, [][2]float64{{9, 10}}},
		{"a stretch at either end", closed, func(x float64) float64 { return math.Floor(math.Abs(x-5) / 2) }, 2, [][2]float64{{0, math.Nextafter(1, 2)}, {9, 10}}}, // 5 less that rounds to 4
		{"a stretch whose like ends the range", closed, func(x float64) float64 { return math.Floor(math.Abs(x-7) / 2) }, 1, [][2]float64{{math.Nextafter(3, 4), 5}, {9, 10}}},
		{"stretches on either side of zero", between3, func(x float64) float64 { return math.Floor(math.Abs(x) / 2) }, 1, [][2]float64{{-3, -2}, {2, 3}}},
		{"a stretch from an end below zero", between3, func(x float64) float64 { return math.Floor(x / 2) }, -2, [][2]float64{{-3, math.Nextafter(-2, -3)}}},
	} {
		s := drawn(test.ranged, test.of)
		if err := setAll(s, fmt.Sprintf("y=%.17g", test.want)); err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		var got [][2]float64
		for _, r := range s.Roots {
			got = append(got, [2]float64{r.Low, r.High})
		}
		if !slices.Equal(got, test.roots) {
			t.Errorf("%s: roots %.17g, want %.17g", test.name, got, test.roots)
		}
	}
	// No float has the square 2: the nearest stands for its root.
	s := drawn(closed, func(x float64) float64 { return x*x - 2 })
	if err := setAll(s, "y=0"); err != nil || len(s.Roots) != 1 || !(math.Abs(s.Roots[0].Low-math.Sqrt2) <= 1e-15) {
		t.Errorf("a square less two is zero at %v, %v, want %v", s.Roots, err, math.Sqrt2)
	}
}

// A hole that is wider than the steps of the search parts a stretch of roots in two.
func TestRootsPartedByHole(t *testing.T) {
	for _, hole := range [][2]float64{{3, 3.1}, {1, 2}, {5, 9}} {
		s := drawn(closed, func(x float64) float64 {
			if x > hole[0] && x < hole[1] {
				return 1
			}
			return 2
		})
		if err := setAll(s, "y=2"); err != nil {
			t.Fatal(err)
		}
		var got [][2]float64
		for _, r := range s.Roots {
			got = append(got, [2]float64{r.Low, r.High})
		}
		if want := [][2]float64{{0, hole[0]}, {hole[1], 10}}; !slices.Equal(got, want) {
			t.Errorf("a hole from %v to %v: roots %v, want %v", hole[0], hole[1], got, want)
		}
	}
}

// A small output is no constant one, and one far from what is wanted is not
// constant for that; zero everywhere is.
func TestFlat(t *testing.T) {
	for _, test := range []struct {
		name   string
		ranged func(*Input)
		of     func(x float64) float64
		y      string
		want   string // the error
	}{
		{"zero everywhere", closed, func(float64) float64 { return 0 }, "0", "y does not depend on x"},
		{"a small output", closed, func(x float64) float64 { return 1e-12 * x }, "3.3e-12", ""},
		{"a faint slope, far away", closed, func(x float64) float64 { return 5 + 1e-9*x }, "1000000", "no x between 0 mm and 10 mm"},
		{"a whole number beyond the range", whole, line, "1000", "no x between 1 mm and 100 mm"},
		{"beside a whole number, of a small output", whole, func(x float64) float64 { return 1e-9 * x }, "6.9999995e-9", "lies between 6 mm and 7 mm"},
	} {
		err := setAll(drawn(test.ranged, test.of), "y="+test.y)
		if (err == nil) != (test.want == "") || err != nil && !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", test.name, err, test.want)
		}
	}
	s := drawn(wholeOf5000, func(x float64) float64 { return math.Floor(x / 2000) })
	if err := setAll(s, "y=1"); err != nil || len(s.Roots) != 1000 || s.Roots[0].Low != 2000 || !s.MoreRoots {
		t.Errorf("of two thousand whole numbers %d are told, %v, more: %v, want 1000, and that there are more", len(s.Roots), err, s.MoreRoots)
	}
}

// The curve of a result is judged by its shape, whatever its size and whatever is
// added to it, and by the points that are taken.
func TestTellingByShape(t *testing.T) {
	for _, test := range []struct {
		name string
		of   func(a, b float64) float64
		want string
	}{
		{"three times as much as a bent one", func(a, b float64) float64 { return 3*a + b*b/20 - 25 }, "a"},
		{"two as bent: the first", func(a, b float64) float64 { return (a * a) * (b * b) }, "a"},
		{"far from zero", func(a, b float64) float64 { return 1000 + a*a }, "a"},
		{"small", func(a, b float64) float64 { return 1e-12 * a * a }, "a"},
		{"five points", func(a, b float64) float64 {
			return refusedFrom(8.2, 12, func(a float64) float64 { return a * a * a })(a)
		}, "a"},
		{"four points", func(a, b float64) float64 {
			return refusedFrom(8.4, 12, func(a float64) float64 { return a * a * a })(a)
		}, ""},
	} {
		d := &Description[power, powerResult]{
			Name: "shaped",
			Compute: func(p power) (powerResult, error) {
				y := test.of(float64(p.A), float64(p.B))
				if math.IsNaN(y) {
					return powerResult{}, Refuse("a", p.A, "another")
				}
				return powerResult{Y: paperprop.Ratio(y)}, nil
			},
			Fields: func(f *Form, in *power, out *powerResult) {
				In(f, &in.A, "a", "a", "1", "")
				In(f, &in.B, "b", "b", "1", "")
				Out(f, &out.Y, "y", "y", "1", "")
			},
		}
		s := d.NewSheet()
		if err := setAll(s, "a=10", "b=10"); err != nil {
			t.Fatal(err)
		}
		got := ""
		if c, _ := s.Telling(s.Out[0]); c != nil {
			got = c.Name
		}
		if got != test.want {
			t.Errorf("%s: told by %q, want %q", test.name, got, test.want)
		}
	}
}

// The steps of a range may be small; those below the last bits of its ends are
// refused.
func TestRangeOfSmallSteps(t *testing.T) {
	f := fieldOf(t, "Length", "mm")
	if r, err := f.Range("1e-9..2e-9 mm"); err != nil || len(r.Values) != 11 || !(math.Abs(r.Values[5]-1.5e-9) <= 1e-24) {
		t.Errorf("from a nanomillimetre to two: %v, %v", r.Values, err)
	}
	if r, err := f.Range("1..1.000000000001 mm by 0.000000000000001 mm"); err == nil || !strings.Contains(err.Error(), "beyond a float64") {
		t.Errorf("a thousand steps within four thousand floats: %d, %v", len(r.Values), err)
	}
}

func uncertaintyOf(t *testing.T, s *Sheet, name string) Uncertainty {
	t.Helper()
	all, err := s.Uncertainties()
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range all {
		if u.Cell.Name == name {
			return u
		}
	}
	t.Fatalf("no uncertainty of %s", name)
	return Uncertainty{}
}

func about(got, want float64) bool { return math.Abs(got-want) <= 1e-8*math.Abs(want) }

// A source has the unit and the distribution that it was given with.
func TestSourceUnits(t *testing.T) {
	for _, test := range []struct {
		source string
		want   float64 // of 2x, with x in mm; zero: refused
	}{
		{"0.5 mm", 1}, {"0.05 cm", 1}, {"0.0005 m", 1},
		{"rectangular(1) mm", 2 / math.Sqrt(3)}, {"triangular(1) mm", 2 / math.Sqrt(6)}, {"arcsine(0.1) cm", 2 / math.Sqrt2},
		{"0.5", 0}, {"0.5 kg", 0}, {"0.5 mm", 1},
	} {
		s := drawn(positive, func(x float64) float64 { return 2 * x })
		if err := s.SetSource("rule", test.source); err != nil {
			t.Fatal(err)
		}
		err := setAll(s, "x=3 mm ± rule")
		if (err != nil) != (test.want == 0) {
			t.Errorf("a source of %s: %v", test.source, err)
			continue
		}
		if err == nil {
			if u := uncertaintyOf(t, s, "y").Standard; !about(u, test.want) {
				t.Errorf("a source of %s: u(2x) = %v, want %v", test.source, u, test.want)
			}
		}
	}
}

// A source is one number, and one that no input names is told.
func TestSourceIsOneNumber(t *testing.T) {
	s := drawn(positive, func(x float64) float64 { return 2 * x })
	const want = `source rule "[1 2] mm": want one number, not a list`
	if err := s.SetSource("rule", "[1 2] mm"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	for _, name := range []string{"rule", "balance"} {
		if err := s.SetSource(name, "0.5 mm"); err != nil {
			t.Fatal(err)
		}
	}
	if err := setAll(s, "x=3 mm ± rule"); err != nil {
		t.Fatal(err)
	}
	if got := s.UnusedSources(); !slices.Equal(got, []string{"balance"}) {
		t.Errorf("unused are %v, want balance", got)
	}
}

// A source has its unit already: one behind its name belongs to the value.
func TestSourceStandsAlone(t *testing.T) {
	s := drawn(positive, func(x float64) float64 { return 2 * x })
	if err := s.SetSource("rule", "0.5 mm"); err != nil {
		t.Fatal(err)
	}
	const want = `x "3 ± rule mm": right of ±: the source rule stands alone, want mm left of ±`
	if err := s.Set("x", "3 ± rule mm"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	const other = `x "3 ± ruler mm": right of ±: no number, want a number and a unit`
	if err := s.Set("x", "3 ± ruler mm"); err == nil || err.Error() != other {
		t.Errorf("got %v, want %s", err, other)
	}
}

// Of y = a²·c/b the relative uncertainties, for one per cent of each input, are
// 2, −1 and 1 per cent: a correlation adds twice their product. Degrees of freedom
// are those of Welch and Satterthwaite.
func TestPowerUncertainty(t *testing.T) {
	const y = 22.5
	for _, test := range []struct {
		a, b string
		r    float64
		want float64 // per cent, squared
	}{
		{"a", "b", 0, 6}, {"a", "b", 1, 2}, {"a", "b", -1, 10}, {"a", "c", 1, 10}, {"b", "c", 1, 4}, {"c", "a", 0.5, 8},
	} {
		s := powerSheet(t, "a=3 ± 0.03", "b=2 ± 0.02", "c=5 ± 0.05")
		if err := s.Correlate(test.a, test.b, test.r); err != nil {
			t.Errorf("a correlation of %v: %v", test.r, err)
			continue
		}
		if u := uncertaintyOf(t, s, "y"); !about(u.Standard, y*math.Sqrt(test.want)/100) || u.Freedom != 0 {
			t.Errorf("%s and %s correlated by %v: u = %v, want %v", test.a, test.b, test.r, u.Standard, y*math.Sqrt(test.want)/100)
		}
		if err := s.Correlate(test.a, test.b, math.Nextafter(1, 2)); err == nil {
			t.Error("a correlation above one is taken")
		}
	}
	s := powerSheet(t, "a=3 ± 0.03", "b=2 ± 0.02", "c=5 ± 0.05")
	for name, freedom := range map[string]float64{"a": 4, "b": 5, "c": 10} {
		if err := s.SetFreedom(name, freedom); err != nil {
			t.Fatal(err)
		}
	}
	// 6² / (2⁴/4 + 1/5 + 1/10)
	if u := uncertaintyOf(t, s, "y"); !about(u.Freedom, 36/4.3) {
		t.Errorf("%v effective degrees of freedom, want %v (by hand)", u.Freedom, 36/4.3)
	}
	bent, err := s.SecondOrder()
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range bent {
		// The mean of a² is 9 + 0.03², that of 1/b about (1 + 0.01²)/2.
		if want := 9.0009 * 5 / 2 * 1.0001; b.Cell.Name == "y" && !(math.Abs(b.Mean-want) <= 1e-6) {
			t.Errorf("second order: a mean of %v, want %v", b.Mean, want)
		} else if b.Cell.Name == "constant" && (b.Mean != 7 || b.Standard != 0) {
			t.Errorf("second order: a constant is %v ± %v", b.Mean, b.Standard)
		}
	}
}

// Small results have uncertainties and shares as large ones have, and so has a
// small root.
func TestSmallUncertainty(t *testing.T) {
	s := drawn(positive, func(x float64) float64 { return 1e-9 * x })
	if err := setAll(s, "x=1 mm ± 0.01 mm"); err != nil {
		t.Fatal(err)
	}
	if u := uncertaintyOf(t, s, "y"); !about(u.Standard, 1e-11) || !about(u.Shares[0].U, 1e-11) {
		t.Errorf("of a billionth u = %v with the share %v, want 1e-11", u.Standard, u.Shares[0].U)
	}
	s = drawn(positive, func(x float64) float64 { return 1 / x })
	if err := setAll(s, "y=10000 ± 100"); err != nil {
		t.Fatal(err)
	}
	if u := uncertaintyOf(t, s, "x"); !about(u.Standard, 1e-6) {
		t.Errorf("of the root 1e-4 u = %v, want one per cent", u.Standard)
	}
}

// A Value counts in the unit of the input that it follows, and its uncertainty does.
func TestUncertainValue(t *testing.T) {
	type pair struct{ A, B float64 }
	d := &Description[pair, powerResult]{
		Name:    "pair",
		Compute: func(p pair) (powerResult, error) { return powerResult{Y: paperprop.Ratio(p.A + p.B)}, nil },
		Fields: func(f *Form, in *pair, out *powerResult) {
			InValue(f, &in.A, "a", "a", "any", "")
			InValue(f, &in.B, "b", "b", "as a", "")
			Out(f, &out.Y, "y", "y", "1", "")
		},
	}
	s := d.NewSheet()
	if err := setAll(s, "a=2 m ± 0.03 m", "b=300 cm ± 4 cm"); err != nil {
		t.Fatal(err)
	}
	if u := uncertaintyOf(t, s, "y").Standard; !about(s.Out[0].Number(), 5) || !about(u, 0.05) {
		t.Errorf("2 m ± 0.03 m and 300 cm ± 4 cm make %v ± %v, want 5 ± 0.05", s.Out[0].Number(), u)
	}
}

// A Value that is solved for is written in its own unit, and an output given counts in
// that of the input it follows, its uncertainty too.
func TestSolvedValue(t *testing.T) {
	type in struct{ Old, New float64 }
	type out struct{ Mean float64 }
	d := &Description[in, out]{
		Name: "middle", Formula: []string{"m = (a + b)/2"},
		Compute: func(i in) (out, error) { return out{(i.Old + i.New) / 2}, nil },
		Fields: func(f *Form, i *in, o *out) {
			InValue(f, &i.Old, "old", "a", "any", "")
			InValue(f, &i.New, "new", "b", "as old", "")
			OutValue(f, &o.Mean, "mean", "m", "as old", "")
		},
	}
	for _, test := range []struct{ old, mean, want, u string }{
		{"2 %", "3.5 %", "5 %", ""},
		{"2 mg/L", "0.0035 g/L", "5 mg/L", ""},
		{"20 degC", "86 degF", "40 degC", ""},
		{"2 mm", "0.35 ± 0.01 cm", "5 mm", "0.20 mm"},
		{"20 degC", "86 ± 1.8 degF", "40 degC", "2.0 K"},
		{"2 mg/L", "3 %", `mean "3 %": % is a unit of fraction and mg/L a unit of concentration: one cannot be converted into the other; want the unit of old`, ""},
		{"2 %", "3.5", `mean "3.5": unit missing, want %`, ""},
		{"2", "3.5 %", `old "2": unit missing, want %`, ""},
		{"2", "3.5", "5", ""},
		{"2 mm", "1e12 mm", "no new between -1000000000 mm and 1000000000 mm gives mean 1e12 mm", ""},
	} {
		s := d.NewSheet()
		if err := setAll(s, "old="+test.old, "mean="+test.mean); err != nil {
			if err.Error() != test.want {
				t.Errorf("%s, %s: %v, want %s", test.old, test.mean, err, test.want)
			}
			continue
		}
		if got := s.Roots[0].People(); got != test.want || len(s.Roots) != 1 {
			t.Errorf("%s, %s: %s, want %s", test.old, test.mean, got, test.want)
		}
		solution, err := s.Solution()
		if err != nil || solution.Results[0].U != test.u {
			t.Errorf("%s, %s: u is %q, %v, want %q", test.old, test.mean, solution.Results[0].U, err, test.u)
		}
	}
}

// A share of a temperature is one of its kelvins: 10 degC are not half of 20 degC.
func TestShareOfTemperature(t *testing.T) {
	type in struct{ X float64 }
	type out struct{ Share paperprop.Fraction }
	d := &Description[in, out]{
		Name: "tenth", Formula: []string{"v = 0.1"},
		Compute: func(in) (out, error) { return out{0.1}, nil },
		Fields: func(f *Form, i *in, o *out) {
			InValue(f, &i.X, "value", "x", "any", "")
			Out(f, &o.Share, "share", "v", "%", "").ShareOf("value")
		},
	}
	for text, want := range map[string]string{"20 degC": "", "68 degF": "", "293 K": "10 %", "5 g": "10 %", "5": "10 %"} {
		s := d.NewSheet()
		if err := setAll(s, "value="+text); err != nil {
			t.Fatal(err)
		}
		solution, err := s.Solution()
		if got := s.Out[0].Reported(); err != nil || got != want || len(solution.Steps) != len(want)/4 {
			t.Errorf("of %s: %q in %d steps, %v, want %q", text, got, len(solution.Steps), err, want)
		}
	}
}
