package calc

import (
	"math"
	"slices"
	"testing"

	"millmaths.example/paperprop"
)

// Beside its uncertainty a number has six digits, or as many as there are down to the
// second of the uncertainty.
func TestPeopleBeside(t *testing.T) {
	for _, test := range []struct {
		x, u float64
		want string
	}{
		{1234567.891, 0.5, "1234567.89"},
		{-1234567.891, 0.5, "-1234567.89"},
		{1234567.891, 5, "1234567.9"},
		{1234567.891, 500, "1234570"}, // six digits go further than 1234570
		{1234567.891, 50, "1234568"},
		{123456.7, 50, "123457"},
		{0.1234567891, 1e-8, "0.123456789"},
		{0, 0.5, "0"},
		{1234567.891, 0, "1234570"},
		{1234567.891, 1e-300, "1234570"},
		{1.25, 1e-30, "1.250000000000000"}, // no more than sixteen digits
		{1.0 / 3, 1e-25, "0.3333333333333333"},
	} {
		if got := peopleBeside(test.x, test.u); got != test.want {
			t.Errorf("%v beside %v is %s, want %s", test.x, test.u, got, test.want)
		}
	}
}

// The beginning of a name is told of if it is a name of three letters or more.
func TestBeginning(t *testing.T) {
	for name, want := range map[string]string{"outing": "out", "outputs": "output", "cdx": "", "c": ""} {
		if got := beginning(name, []string{"cd", "out", "output", "put"}); got != want {
			t.Errorf("%s begins with %q, want %q", name, got, want)
		}
	}
}

// An axis is headed by the name of an input and the unit in which it was given, if any.
func TestHead(t *testing.T) {
	for text, want := range map[string]string{"3 g": "value [g]", "3 %": "value [%]", "3": "value"} {
		s := ran(t, "ratio", "2", "value", text)
		c, _ := s.Input("value")
		if got := (&Input{cell: c}).Head(); got != want {
			t.Errorf("%s is headed %q, want %q", text, got, want)
		}
	}
}

// What is small in its unit is not small beside itself: the square of 1e-4 is 1e-8.
func TestSmallResultsHaveASpread(t *testing.T) {
	s := drawn(positive, func(x float64) float64 { return x * x })
	if err := setAll(s, "x=1e-4 ± 1e-6 mm"); err != nil {
		t.Fatal(err)
	}
	samples, err := MonteCarlo{Draws: 10_000}.Run(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	for _, sample := range samples {
		if want := 2e-10; sample.Cell.Name != "y" || !(math.Abs(sample.Standard-want) <= 0.05*want) {
			t.Errorf("a spread of %v, want %v", sample.Standard, want)
		}
	}
}

// A number that was put counts as its shortest decimal.
func TestPutCountsAsWritten(t *testing.T) {
	var w Written
	c := &Cell{Field: &Field{Name: "x", Relation: "any"}, kept: &w, number: new(float64)}
	c.sheet = &Sheet{In: []*Cell{c}}
	percent, err := paperprop.ParseUnit("%")
	if err != nil {
		t.Fatal(err)
	}
	c.given, c.unit, c.raw = true, percent, []float64{7.4}
	if !c.KeepsWritten() || (&Cell{}).KeepsWritten() {
		t.Error("whether an input counts as written")
	}
	if x, ok := c.asNumber(); !ok || x.RatString() != "37/5" {
		t.Errorf("7.4 counts as %v, %v", x, ok)
	}
	c.raw[0] = math.Inf(1)
	if x, ok := c.asNumber(); ok {
		t.Errorf("infinity counts as %v", x)
	}
}

// The points of a search: the ends of the range, as far as a search goes; two thousand even
// steps if both ends are ends of the range; powers of ten from a nano-unit on; zero; whole
// numbers of a pure number. By hand from the constants of the search.
func TestGrid(t *testing.T) {
	for _, test := range []struct {
		unit      string
		ranged    func(*Input)
		low, high float64 // in mm, as the points
		with      []float64
		without   []float64
	}{
		{"mm", closed, 0, 10, []float64{0.005, 5, 9.995, 1e-9, 1e-9 * math.Pow(10, 4.5)}, []float64{-1e-9}},
		{"mm", between3, -3, 3, []float64{0, 1, -1, 1e-9, -1e-9, 0.003, -0.003}, nil},
		{"mm", wide, -1e9, 1e9, []float64{0, 1, -1, 1e-9, -1e-9}, []float64{1e6, -999e6}},
		{"mm", billion, -1e9, 1e9, []float64{0, 1e-9, 1e6, -999e6}, nil},
		{"mm", func(in *Input) { in.From(0).UpTo(1e9 + 1) }, 0, 1e9, []float64{1e-9, 1}, []float64{5e5, 999.5e6}},
		{"m", wideMetres, -1e12, 1e12, []float64{0, 1e3, -1e3, 1e-6, -1e-6}, []float64{1e9, -999e9}},
		{"m", billion, -1e12, 1e12, []float64{0, 1e-6, 1e9, -999e9}, nil},
	} {
		s := drawnIn(test.unit, test.ranged, line)
		points := grid(&s.guards[0])
		if points[0] != test.low || points[len(points)-1] != test.high {
			t.Errorf("%s: from %v to %v, want %v to %v", test.unit, points[0], points[len(points)-1], test.low, test.high)
		}
		for i, x := range points[1:] {
			if !(x > points[i]) {
				t.Errorf("%s: %v comes after %v", test.unit, x, points[i])
			}
		}
		for _, x := range test.with {
			if !hasNear(points, x) {
				t.Errorf("%s, %v to %v: %v is no point", test.unit, test.low, test.high, x)
			}
		}
		for _, x := range test.without {
			if hasNear(points, x) {
				t.Errorf("%s, %v to %v: %v is a point", test.unit, test.low, test.high, x)
			}
		}
	}
	s := ran(t, "ratio", "2")
	ratio, _ := s.Input("ratio")
	ratio.grid = nil
	points := grid(&s.guards[ratio.index])
	for x := 1.0; x <= mostCounted; x++ {
		if !slices.Contains(points, x) {
			t.Errorf("the whole number %v is no point", x)
		}
	}
}

func hasNear(points []float64, x float64) bool {
	return slices.ContainsFunc(points, func(p float64) bool { return math.Abs(p-x) <= 1e-12*math.Abs(x) })
}

// The unit of a Value follows from the inputs that it relates to.
func TestPowerOfAnInput(t *testing.T) {
	x, y := &Cell{Field: &Field{Name: "x"}}, &Cell{Field: &Field{Name: "y"}}
	s := &Sheet{In: []*Cell{x, y}}
	for relation, want := range map[string][2]int8{
		"as x": {1, 0}, "difference of y": {0, 1}, "square of x": {2, 0}, "y per x": {-1, 1}, "x per y": {1, -1}, "any": {0, 0},
	} {
		c := &Cell{Field: &Field{Name: "c", Relation: relation}, sheet: s}
		c.resolve()
		if got := [2]int8{c.power(x), c.power(y)}; got != want {
			t.Errorf("%s: powers %v of x and y, want %v", relation, got, want)
		}
	}
}

// Fourth moments in standard uncertainties, from the integrals.
func TestKurtosis(t *testing.T) {
	for of, want := range map[Distribution]float64{Normal: 3, Rectangular: 9.0 / 5, Triangular: 12.0 / 5, Arcsine: 3.0 / 2, Arcsine + 1: 3} {
		if got := of.Kurtosis(); got != want {
			t.Errorf("distribution %v has %v, want %v", of, got, want)
		}
	}
}
