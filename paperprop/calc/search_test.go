package calc

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// curve is a calculation of one input, whose range and function a test chooses.
type curve struct {
	X paperprop.Length
	A paperprop.Ratio
}

type curveResult struct{ Y paperprop.Ratio }

// drawn makes a curve of a function of x in mm; NaN is refused.
func drawn(ranged func(*Input), of func(x float64) float64) *Sheet {
	d := &Description[curve, curveResult]{
		Name: "curve",
		Compute: func(c curve) (curveResult, error) {
			y := of(float64(c.X))
			if math.IsNaN(y) {
				return curveResult{}, Refuse("x", c.X, "another")
			}
			return curveResult{paperprop.Ratio(y)}, nil
		},
		Fields: func(f *Form, in *curve, out *curveResult) {
			ranged(In(f, &in.X, "x", "x", "mm", "sought"))
			In(f, &in.A, "a", "a", "1", "of no account").Default(3)
			Out(f, &out.Y, "y", "y", "1", "")
		},
	}
	return d.NewSheet()
}

func wide(in *Input)        { in.From(-1e12).UpTo(1e12) }
func closed(in *Input)      { in.From(0).UpTo(10) }
func positive(in *Input)    { in.Above(0) }
func whole(in *Input)       { in.From(1).UpTo(100).Whole() }
func between3(in *Input)    { in.From(-3).UpTo(3) }
func tiny(in *Input)        { in.From(1e-7).UpTo(1e-3) }
func upTo100Whole(i *Input) { i.From(-10).UpTo(100).Whole() }

// refusedFrom is a function that is refused outside of two ends.
func refusedFrom(low, high float64, of func(x float64) float64) func(x float64) float64 {
	return func(x float64) float64 {
		if x < low || x > high {
			return math.NaN()
		}
		return of(x)
	}
}

func line(x float64) float64 { return x }

// noisy is level up to 6, but for the last digit of each seventh thousandth.
func noisy(x float64) float64 {
	y := 5 + max(x-6, 0)
	if int(1000*x)%7 == 3 {
		return math.Nextafter(y, 6)
	}
	return y
}

// Each value of an unknown that gives the output is found, once, lowest first;
// where the output stands still, the whole stretch is.
func TestRoots(t *testing.T) {
	floor, square := math.Floor, func(x float64) float64 { return x * x }
	for _, test := range []struct {
		name   string
		ranged func(*Input)
		of     func(float64) float64
		want   float64
		roots  [][2]float64
	}{
		{"a straight line", closed, line, 3.3, [][2]float64{{3.3, 3.3}}},
		{"a falling line", closed, func(x float64) float64 { return -x }, -3.3, [][2]float64{{3.3, 3.3}}},
		{"on the grid", closed, line, 2.5, [][2]float64{{2.5, 2.5}}},
		{"at the lower end", closed, line, 0, [][2]float64{{0, 0}}},
		{"at the upper end", closed, line, 10, [][2]float64{{10, 10}}},
		{"near the lower end, in the logarithm", closed, func(x float64) float64 { return math.Log(x + 1e-9) }, math.Log(2e-8), [][2]float64{{1.9e-8, 1.9e-8}}},
		{"in the micrometres", tiny, line, 3.21e-5, [][2]float64{{3.21e-5, 3.21e-5}}},
		{"two of a parabola", between3, square, 2, [][2]float64{{-math.Sqrt2, -math.Sqrt2}, {math.Sqrt2, math.Sqrt2}}},
		{"two of a range without ends", wide, square, 2e6, [][2]float64{{-math.Sqrt(2e6), -math.Sqrt(2e6)}, {math.Sqrt(2e6), math.Sqrt(2e6)}}},
		{"where both sides are above", between3, square, 0, [][2]float64{{0, 0}}},
		{"a faint slope", closed, func(x float64) float64 { return 5 + 1e-6*x }, 5.000003, [][2]float64{{3, 3}}},
		{"large, of an open range", positive, line, 123456789, [][2]float64{{123456789, 123456789}}},
		{"small, of an open range", positive, line, 1.5e-7, [][2]float64{{1.5e-7, 1.5e-7}}},
		{"three", closed, func(x float64) float64 { return (x - 1.01) * (x - 4.02) * (x - 7.03) }, 0, [][2]float64{{1.01, 1.01}, {4.02, 4.02}, {7.03, 7.03}}},
		{"a hair below the grid, and in the next step", closed, func(x float64) float64 { return (x - 5 + 1e-14) * (x - 5.001) }, 0, [][2]float64{{5, 5}, {5.001, 5.001}}},
		{"two within a step, of a kink", closed, func(x float64) float64 { return math.Abs(x - 4.0021) }, 1e-4, [][2]float64{{4.002, 4.002}, {4.0022, 4.0022}}},
		{"two within a step, of a falling kink", closed, func(x float64) float64 { return 2 - math.Abs(x-4.0021) }, 1.9999, [][2]float64{{4.002, 4.002}, {4.0022, 4.0022}}},
		{"two within a step, of a curve", closed, func(x float64) float64 { return square(x - 4.0021) }, 1e-8, [][2]float64{{4.002, 4.002}, {4.0022, 4.0022}}},
		{"where a kink touches", closed, func(x float64) float64 { return math.Abs(x - 4.0021) }, 0, [][2]float64{{4.0021, 4.0021}}},
		{"where a curve touches", closed, func(x float64) float64 { return square(x - 4.0021) }, 0, [][2]float64{{4.0021, 4.0021}}},
		{"not at a pole", closed, func(x float64) float64 { return 1 / (x - 3.3333) }, 0.5, [][2]float64{{5.3333, 5.3333}}},
		{"beside a refused stretch below", closed, refusedFrom(3.3333, 10, line), 3.3334, [][2]float64{{3.3334, 3.3334}}},
		{"beside a refused stretch above", closed, refusedFrom(0, 6.6667, line), 6.6666, [][2]float64{{6.6666, 6.6666}}},
		{"at the edge of a refused stretch", closed, refusedFrom(3.3333, 10, line), 3.3333, [][2]float64{{3.3333, 3.3333}}},
		{"a step", closed, floor, 3, [][2]float64{{3, math.Nextafter(4, 0)}}},
		{"the first step", closed, floor, 0, [][2]float64{{0, math.Nextafter(1, 0)}}},
		{"the last step", closed, func(x float64) float64 { return math.Floor(x/3) + 1 }, 4, [][2]float64{{9, 10}}},
		{"two steps", closed, func(x float64) float64 { return math.Floor(math.Abs(x - 5)) }, 2, [][2]float64{{math.Nextafter(2, 3), 3}, {7, math.Nextafter(8, 0)}}},
		{"level but for the last digit, then rising", closed, noisy, 5, [][2]float64{{0, 6}}},
		{"level but for the last digit, which is asked for", closed, noisy, math.Nextafter(5, 6), [][2]float64{{0, 6}}},
		{"past what is level", closed, noisy, 5.001, [][2]float64{{6.001, 6.001}}},
		{"a whole number", whole, func(x float64) float64 { return x * 1.5 }, 10.5, [][2]float64{{7, 7}}},
		{"several whole numbers", whole, func(x float64) float64 { return math.Floor(x / 4) }, 2, [][2]float64{{8, 8}, {9, 9}, {10, 10}, {11, 11}}},
		{"the first whole number", whole, line, 1, [][2]float64{{1, 1}}},
		{"the last whole number", whole, line, 100, [][2]float64{{100, 100}}},
		{"a whole number below zero", upTo100Whole, line, -7, [][2]float64{{-7, -7}}},
	} {
		s := drawn(test.ranged, test.of)
		if err := s.Set("y", fmt.Sprintf("%.17g", test.want)); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		var got [][2]float64
		same := len(s.Roots) == len(test.roots)
		for i, r := range s.Roots {
			got = append(got, [2]float64{r.Low, r.High})
			if same {
				for k, x := range got[i] {
					same = same && math.Abs(x-test.roots[i][k]) <= 1e-8*max(math.Abs(x), 1e-9)+1e-15
				}
			}
		}
		if !same {
			t.Errorf("%s: roots %.12g, want %.12g", test.name, got, test.roots)
			continue
		}
		x, _ := s.Input("x")
		if x.Given() || math.Abs(x.Number()-test.roots[0][0]) > 1e-8*max(math.Abs(x.Number()), 1e-9) {
			t.Errorf("%s: the sheet holds %v, given %v, want the first root", test.name, x.Number(), x.Given())
		}
		for _, r := range s.Roots {
			if y := test.of(r.Low); math.Abs(y-test.want) > 1e-9*max(math.Abs(test.want), 1e-3) {
				t.Errorf("%s: %v gives %v, want %v", test.name, r.Low, y, test.want)
			}
		}
	}
}

// Where there is no root, the error says what was searched, or why none can be.
func TestNoRoots(t *testing.T) {
	for _, test := range []struct {
		name         string
		ranged       func(*Input)
		of           func(float64) float64
		y, want      string
		flat, middle bool
	}{
		{"beyond the range", closed, line, "11", "no x between 0 mm and 10 mm gives y 11", false, false},
		{"below the range", closed, line, "-0.001", "no x between 0 mm and 10 mm gives y -0.001", false, false},
		{"an open range", wide, func(x float64) float64 { return x * x }, "-1", "no x between -1e+09 mm and 1e+09 mm gives y -1", false, false},
		{"a half-open range", positive, func(x float64) float64 { return x * x }, "-1", "no x between 0 mm and 1e+09 mm gives y -1", false, false},
		{"a pole alone", closed, func(x float64) float64 { return 1 / (x - 3.3333) }, "0", "no x between 0 mm and 10 mm gives y 0", false, false},
		{"a constant", closed, func(float64) float64 { return 5 }, "5", "y does not depend on x", true, false},
		{"a constant that is another", closed, func(float64) float64 { return 5 }, "6", "y does not depend on x", true, false},
		{"nearly a constant", closed, func(x float64) float64 { return 5 + 1e-15*x }, "5", "y does not depend on x", true, false},
		{"between whole numbers", whole, func(x float64) float64 { return x * 1.5 }, "10", "no whole x gives y 10: the answer lies between 6 mm and 7 mm", false, true},
		{"always refused", closed, func(float64) float64 { return math.NaN() }, "1", "want another", false, false},
		{"refused where it would be", closed, refusedFrom(4, 10, line), "3", "no x between 0 mm and 10 mm gives y 3", false, false},
	} {
		s := drawn(test.ranged, test.of)
		if err := s.Set("y", test.y); err != nil {
			t.Fatal(err)
		}
		err := s.Run()
		var none *NoRootError
		if err == nil || !strings.Contains(strings.ReplaceAll(err.Error(), "1000000000", "1e+09"), test.want) {
			t.Errorf("%s: roots %v, %v, want %q", test.name, s.Roots, err, test.want)
			continue
		}
		if errors.As(err, &none) && (none.Flat != test.flat || none.Between != test.middle) {
			t.Errorf("%s: %+v", test.name, none)
		}
	}
}

// Which input is sought is said where it is not plain.
func TestUnknownInput(t *testing.T) {
	s := drawn(closed, line)
	for _, p := range [][2]string{{"x", "3 mm"}, {"y", "3"}} {
		if err := s.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err == nil || !strings.Contains(err.Error(), "y is an output and no required input is left out: leave one out, or give the one asked for as ?; there is a default for a") {
		t.Errorf("nothing is left out: %v", err)
	}
	if err := s.Set("a", "4"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err == nil || !strings.HasSuffix(err.Error(), "asked for as ?") {
		t.Errorf("nothing is left out, nor has a default: %v", err)
	}
	if err := s.Set("a", "?"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err == nil || !strings.Contains(err.Error(), "y does not depend on a") {
		t.Errorf("a is sought: %v", err)
	}
	x, _ := s.Input("x")
	x.Forget()
	var missing *MissingError
	if err := s.Run(); !errors.As(err, &missing) || missing.Input.Name != "x" {
		t.Errorf("a is sought, and x is missing: %v", err)
	}
	if err := s.Set("x", "?"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err == nil || err.Error() != "x and a are left out, one output gives only one of them" {
		t.Errorf("two are sought: %v", err)
	}
}

// A root is written as one value or as the stretch that it is.
func TestRootText(t *testing.T) {
	for y, want := range map[string]string{"3": "3 mm to 4 mm", "10": "10 mm"} {
		s := drawn(closed, math.Floor)
		if err := s.Set("y", y); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		if got := s.Roots[0].People(); got != strings.Replace(want, "3 mm to", "3 to", 1) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A stretch from an end that is not taken is told from that end.
func TestRootTextFromOpenEnd(t *testing.T) {
	s := drawn(func(in *Input) { in.Above(0).Below(10) }, func(x float64) float64 { return math.Floor(x/5) + 1 })
	for y, want := range map[string]string{"1": "0 to 5 mm", "2": "5 to 10 mm"} {
		if err := setAll(s, "y="+y); err != nil {
			t.Fatal(err)
		}
		if got := s.Roots[0].People(); got != want {
			t.Errorf("y = %s: %q, want %q", y, got, want)
		}
	}
}

// A member of a list is the one that stands at its place once the list is sorted.
func TestSelected(t *testing.T) {
	for _, x := range [][]float64{{1}, {2, 1}, {3, 1, 2}, {5, 5, 5, 5}, {1, 2, 2, 1, 3, 3, 1}, {9, 8, 7, 6, 5, 4, 3, 2, 1, 0}, {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}} {
		sorted := slices.Sorted(slices.Values(x))
		for k, want := range sorted {
			if got := selected(slices.Clone(x), k); got != want {
				t.Errorf("selected(%v, %d) = %v, want %v", x, k, got, want)
			}
		}
	}
}
