package calc

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// power is a law of powers: y = a²·c/b, whose elasticities are 2, −1 and 1.
type power struct {
	A, B, C, N paperprop.Ratio
	T          paperprop.Temperature
}

type powerResult struct{ Y, Zero, Constant paperprop.Ratio }

var powers = &Description[power, powerResult]{
	Name: "power",
	Compute: func(p power) (powerResult, error) {
		if p.A > 1000 {
			return powerResult{}, Refuse("a", p.A, "at most 1000")
		}
		return powerResult{Y: p.A * p.A * p.C / p.B, Constant: 7}, nil
	},
	Fields: func(f *Form, in *power, out *powerResult) {
		In(f, &in.A, "a", "a", "1", "squared")
		In(f, &in.B, "b", "b", "1", "divided by").Above(0)
		In(f, &in.C, "c", "c", "1", "times").UpTo(100)
		In(f, &in.N, "n", "n", "1", "of no account").Whole().Default(1)
		In(f, &in.T, "t", "t", "degC", "of no account").Default(20)
		Out(f, &out.Y, "y", "y", "1", "")
		Out(f, &out.Zero, "zero", "z", "1", "")
		Out(f, &out.Constant, "constant", "k", "1", "")
	},
}

func powerSheet(t *testing.T, texts ...string) *Sheet {
	t.Helper()
	s := powers.NewSheet()
	for _, text := range texts {
		name, value, _ := strings.Cut(text, "=")
		if err := s.Set(name, value); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	return s
}

// An elasticity is the exponent of a law of powers. Of inputs that move nothing,
// are whole, are zero, or were not given, none is told; the largest comes first.
func TestInfluences(t *testing.T) {
	for _, test := range []struct{ inputs, output, want string }{
		{"a=3 b=2 c=5 n=4", "y", "a 2, b -1, c 1"},
		{"a=-3 b=2 c=5 t=20degC", "y", "a 2, b -1, c 1"},
		{"a=1000 b=2 c=5", "y", "b -1, c 1"},  // a can't be moved up
		{"a=3 b=2 c=100", "y", "a 2, b -1"},   // nor can c
		{"a=3 b=2 c=99.95", "y", "a 2, b -1"}, // by so much
		{"a=3 b=2 c=99.8", "y", "a 2, b -1, c 1"},
		{"a=3 b=2 c=0", "y", ""}, // nothing of nothing
		{"a=3 b=2 c=5", "zero", ""},
		{"a=3 b=2 c=5", "constant", ""},
	} {
		s := powerSheet(t, strings.Fields(test.inputs)...)
		out, _ := s.Output(test.output)
		before := out.Number()
		var got []string
		for _, in := range s.Influences(out) {
			got = append(got, fmt.Sprintf("%s %.4g", in.Input.Name, in.Elasticity))
		}
		if text := strings.Join(got, ", "); text != test.want {
			t.Errorf("%s: %s follows %s, want %s", test.inputs, test.output, text, test.want)
		}
		if a, _ := s.Input("a"); out.Number() != before || !strings.HasPrefix(test.inputs, fmt.Sprintf("a=%v ", a.Number())) {
			t.Errorf("%s: the sheet is left with a = %v and %s = %v", test.inputs, a.Number(), test.output, out.Number())
		}
	}
	s := powers.NewSheet()
	if got := s.Influences(s.Out[0]); got != nil {
		t.Errorf("a sheet that has not run tells %v", got)
	}
	solved := powers.NewSheet()
	for _, p := range [][2]string{{"a", "3"}, {"c", "5"}, {"y", "15"}} {
		if err := solved.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := solved.Run(); err != nil || solved.Influences(solved.Out[0]) != nil {
		t.Errorf("where an input was solved for: %v, %v", err, solved.Influences(solved.Out[0]))
	}
}

// The curve that tells most is the most bent of the inputs that move a result about
// as much as any does, or the one input that moves it most by far.
func TestTelling(t *testing.T) {
	mixed := func(of func(a, b, c float64) float64, varied bool) *Sheet {
		d := &Description[power, powerResult]{
			Name: "mixed",
			Compute: func(p power) (powerResult, error) {
				return powerResult{Y: paperprop.Ratio(of(float64(p.A), float64(p.B), float64(p.C)))}, nil
			},
			Fields: func(f *Form, in *power, out *powerResult) {
				In(f, &in.A, "a", "a", "1", "")
				In(f, &in.B, "b", "b", "1", "").Above(0)
				c := In(f, &in.C, "c", "c", "1", "").UpTo(100)
				if varied {
					c.Varied()
				}
				Out(f, &out.Y, "y", "y", "1", "")
			},
		}
		s := d.NewSheet()
		for _, name := range []string{"a", "b", "c"} {
			if err := s.Set(name, "10"); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, test := range []struct {
		name   string
		of     func(a, b, c float64) float64
		varied bool
		want   string
	}{
		{"alike, one bent", func(a, b, c float64) float64 { return a / b }, false, "b"},
		{"one far above the others", func(a, b, c float64) float64 { return a*20 + b + c }, false, "a"},
		{"all straight and alike", func(a, b, c float64) float64 { return a + b }, false, ""},
		{"one alone, straight", func(a, b, c float64) float64 { return a }, false, ""},
		{"one alone, bent", func(a, b, c float64) float64 { return a * a * a }, false, "a"},
		{"bent, and moves less than four fifths", func(a, b, c float64) float64 { return a * math.Sqrt(b) }, false, "a"},
		{"the one that is marked", func(a, b, c float64) float64 { return a*20 + b + c }, true, "c"},
		{"marked, and moves nothing", func(a, b, c float64) float64 { return a*20 + b }, true, "a"},
		{"nothing moves it", func(a, b, c float64) float64 { return 5 }, false, ""},
	} {
		s := mixed(test.of, test.varied)
		got := ""
		c, r := s.Telling(s.Out[0])
		if c != nil {
			got = c.Name
			if n := len(r.Values); n != 121 || !(math.Abs(r.Values[0]-5) < 1e-9) || !(math.Abs(r.Values[n-1]-15) < 1e-9) || !(math.Abs(r.Values[60]-10) < 1e-9) {
				t.Errorf("%s: the range of %s is %v to %v in %d points", test.name, got, r.Values[0], r.Values[n-1], n)
			}
		}
		if got != test.want {
			t.Errorf("%s: told by %q, want %q", test.name, got, test.want)
		}
	}
}

// A range about a value keeps within what the input takes; an end that is excluded
// is left by a hundredth of the way.
func TestAbout(t *testing.T) {
	for _, test := range []struct {
		x         float64
		ranged    func(*Input)
		low, high float64
	}{
		{10, func(*Input) {}, 5, 15},
		{11, func(*Input) {}, 5.5, 17}, // of two digits: 16.5 is 16 or 17
		{-10, func(in *Input) { in.From(-100) }, -15, -5},
		{10, func(in *Input) { in.From(7).UpTo(12) }, 7, 12},
		{10, func(in *Input) { in.Above(7).Below(12) }, 7.03, 11.98},
		{10, func(in *Input) { in.Above(5).Below(15) }, 5.05, 14.95},
		{10, func(in *Input) { in.From(5).UpTo(15) }, 5, 15},
		{10, func(in *Input) { in.Above(4.9).Below(15.1) }, 5, 15},
	} {
		s := drawn(test.ranged, line)
		x, _ := s.Input("x")
		x.Put(test.x)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		r := x.about()
		low, high := r.Values[0], r.Values[len(r.Values)-1]
		if test.x == 11 && math.Abs(high-16) < 1e-9 {
			high = 17
		}
		if !(math.Abs(low-test.low) <= 1e-12*20) || !(math.Abs(high-test.high) <= 1e-12*20) || r.Unit != x.Unit {
			t.Errorf("about %v: %v to %v, want %v to %v", test.x, low, high, test.low, test.high)
		}
	}
}
