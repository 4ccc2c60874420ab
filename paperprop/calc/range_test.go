package calc

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

func fieldOf(t *testing.T, kind, unit string) *Field {
	t.Helper()
	k, ok := paperprop.KindNamed(kind)
	if !ok {
		t.Fatalf("no kind %s", kind)
	}
	u, err := k.Unit(unit)
	if err != nil {
		t.Fatal(err)
	}
	return &Field{Name: "x", Kind: k, Unit: u, Whole: kind == "Count"}
}

// Ranges with their points in the unit in which they were written, by hand.
func TestRange(t *testing.T) {
	for _, test := range []struct {
		kind, unit, text string
		want             []float64
		short            bool
	}{
		{"Consistency", "%", "3..5 %", []float64{3, 3.2, 3.4, 3.6, 3.8, 4, 4.2, 4.4, 4.6, 4.8, 5}, false},
		{"Consistency", "%", "3..5 % by 1 %", []float64{3, 4, 5}, false},
		{"Consistency", "%", "3 %..5 % by 0.5", []float64{3, 3.5, 4, 4.5, 5}, false},
		{"Consistency", "%", "0.1..0.4 % by 0.1 %", []float64{0.1, 0.2, 0.3, 0.4}, false},
		{"Consistency", "%", "5..3 % by 1 %", []float64{5, 4, 3}, false},
		{"Consistency", "%", "3..5 % by 0.8 %", []float64{3, 3.8, 4.6}, true},
		{"Consistency", "%", "3..5 % by 0.005 g/g", []float64{3, 3.5, 4, 4.5, 5}, false},
		{"Consistency", "%", "3 % .. 5 % by 2 %", []float64{3, 5}, false},
		{"Consistency", "%", "-1..1 % by 1 %", []float64{-1, 0, 1}, false},
		{"Consistency", "%", "0.03..0.05 1 by 0.01 1", []float64{0.03, 0.04, 0.05}, false},
		{"Consistency", "%", "0.03 1..5 % by 0.01 1", []float64{0.03, 0.04, 0.05}, false},
		{"Area", "m2", "1..3 1000 ft2 by 1 1000 ft2", []float64{1, 2, 3}, false},
		{"Temperature", "degC", "20..22 degC by 1 degC", []float64{20, 21, 22}, false},
		{"Temperature", "degC", "20..22 degC by 1 K", []float64{20, 21, 22}, false},
		{"Temperature", "degC", "68..86 degF by 9 degF", []float64{68, 77, 86}, false},
		{"MassFlow", "t/h", "1 t/h..3000 kg/h by 1 t/h", []float64{1, 2, 3}, false},
		{"Count", "1", "2..7", []float64{2, 3, 4, 5, 6, 7}, false},
		{"Count", "1", "20..0", []float64{20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 0}, false},
		{"Count", "1", "0..25", []float64{0, 3, 6, 9, 12, 15, 18, 21, 24}, true},
		{"Count", "1", "0.5..1.5 by 0.5", []float64{0.5, 1, 1.5}, false},
	} {
		f := fieldOf(t, test.kind, test.unit)
		r, err := f.Range(test.text)
		if err != nil {
			t.Error(err)
			continue
		}
		var got []float64
		same := len(r.Values) == len(test.want) && r.Short == test.short
		for i, x := range r.Values {
			got = append(got, r.Unit.To(x))
			same = same && math.Abs(got[i]-test.want[i]) <= 1e-12*max(1, math.Abs(test.want[i]))
		}
		if !same {
			t.Errorf("%s: %v, short %v, want %v, short %v (by hand)", test.text, got, r.Short, test.want, test.short)
		}
	}
	// Each value is what its text says to the last bit, as one given by itself.
	for _, test := range []struct{ kind, unit, text, format string }{
		{"Mass", "kg", "1..100 lb by 1 lb", "%.0f lb"}, {"Consistency", "%", "1..10 % by 0.1 %", "%.1f %%"}, {"Temperature", "degC", "32..212 degF by 0.5 degF", "%.1f degF"},
	} {
		f := fieldOf(t, test.kind, test.unit)
		r, err := f.Range(test.text)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range r.Values {
			text := fmt.Sprintf(test.format, r.Unit.To(x))
			if v, _, err := f.Kind.Parse(text); err != nil || v != x {
				t.Errorf("%s: %v where %s is %v, %v", test.text, x, text, v, err)
			}
		}
	}
	// The ends are what their texts say to the last bit, and so is a decimal between.
	f := fieldOf(t, "Consistency", "%")
	r, err := f.Range("0.1..0.7 % by 0.1 %")
	if err != nil {
		t.Fatal(err)
	}
	for i, x := range r.Values {
		if want, _, err := f.Kind.Parse(fmt.Sprintf("0.%d %%", i+1)); err != nil || x != want {
			t.Errorf("point %d is %v, want %v", i+1, x, want)
		}
	}
	for steps, want := range map[int]bool{1: true, maxPoints - 1: true, maxPoints: false} {
		r, err := f.Range(fmt.Sprintf("0..%d %% by 1 %%", steps))
		if (err == nil) != want || want && len(r.Values) != steps+1 {
			t.Errorf("%d steps: %d points, %v", steps, len(r.Values), err)
		}
	}
}

func TestRangeRefuses(t *testing.T) {
	for _, test := range []struct{ kind, unit, text, want string }{
		{"Consistency", "%", "3..", `x "3..": want a range such as 3..5 %: no number, want a number and a unit`},
		{"Consistency", "%", "1...3 %", `x "1...3 %": three dots, want two, and a digit before the point of a decimal: 1..3 or 1..0.3`},
		{"Consistency", "%", "3..5", `x "3..5": "3": unit missing, want % or g/g`},
		{"Consistency", "%", "3 kg..5 %", `"kg" is no unit of consistency`},
		{"Consistency", "%", "3..5 kg", `"kg" is no unit of consistency`},
		{"Consistency", "%", "3 %..5 kg", `"kg" is no unit of consistency`},
		{"Consistency", "%", "5..5 %", `x "5..5 %": both ends are the same, want a range from one value to another`},
		{"Consistency", "%", "0.1...0.3 %", `x "0.1...0.3 %": three dots, want two, and a digit before the point of a decimal: 1..3 or 1..0.3`},
		{"Consistency", "%", "3..5 % by 0 %", `x "3..5 % by 0 %": step 0 %, want above zero`},
		{"Consistency", "%", "3..5 % by -1 %", `step -1 %, want above zero`},
		{"Consistency", "%", "3..5 % by much", `step: no number`},
		{"Consistency", "%", "3..5 % by 1 kg", `step: "kg" is no unit of consistency`},
		{"Consistency", "%", "3..5 % by 1,0 %", `step: number "1,0"`},
		{"Consistency", "%", "3..5 % by 3 %", `a range of 0.666667 steps, want 1 to 100000`},
		{"Consistency", "%", "3..5 % by 0.00001 %", `a range of 200000 steps, want 1 to 100000`},
		{"Consistency", "%", "-1e308..1e308 %", `the steps between these ends are beyond a float64`},
		{"Consistency", "%", "0..1e308 %", `the steps between these ends are beyond a float64`},
		{"Consistency", "%", "1..1.0000000000000002 %", `the steps between these ends are beyond a float64`},
	} {
		_, err := fieldOf(t, test.kind, test.unit).Range(test.text)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want in it %s", test.text, err, test.want)
		}
	}
	for want, f := range map[string]*Field{
		`x "3..5 %": a list can't run through a range, want its values, such as [5 6 7] and their unit`: {Name: "x", Shape: List},
		`x "3..5 %": a word can't run through a range, want even or away`:                               {Name: "x", Shape: Word, Choices: []string{"even", "away"}},
		`x "3..5 %": an input of any unit can't run through a range, want one value with its unit`:      {Name: "x", Relation: "any"},
	} {
		if _, err := f.Range("3..5 %"); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
	list := fieldOf(t, "Consistency", "%")
	list.Shape = List
	if _, err := list.Range("3..5 %"); err == nil {
		t.Error("a list of quantities runs through a range")
	}
}

// Estimates of no calculation's, with their standard uncertainties by hand
// (common practice: JCGM 100:2008, 4.3.7, 4.3.9; arcsine from memory).
func TestParseEstimate(t *testing.T) {
	for _, test := range []struct {
		text, unit      string
		value, standard float64
		distribution    Distribution
		readings        int
	}{
		{"50.0(2) mm", "mm", 50, 0.2, Normal, 0},
		{"0.3 ± 0.1 g", "g", 0.3, 0.1, Normal, 0},
		{"12 kg", "kg", 12, 0, Normal, 0},
		{"12", "1", 12, 0, Normal, 0},
		{"rectangular(1.1, 1.3) kg/m3", "kg/m3", 1.2, 0.1 / math.Sqrt(3), Rectangular, 0},
		{"triangular(-1, 5) mm", "mm", 2, 3 / math.Sqrt(6), Triangular, 0},
		{"arcsine(4, 6) mm", "mm", 5, 1 / math.Sqrt2, Arcsine, 0},
		{"mean(1 2 3) g", "g", 2, 1 / math.Sqrt(3), Normal, 0},
		{"[1 2 3] g", "g", 1, 0, Normal, 3},
		{"1 2 3 g", "g", 1, 0, Normal, 3},
		{"0.5 ± 0.1 1", "1", 0.5, 0.1, Normal, 0},
		{"[0.5 1]", "1", 0.5, 0, Normal, 2},
		{"[0.5 0.7] 1", "1", 0.5, 0, Normal, 2},
	} {
		e, err := ParseEstimate(test.text)
		if err != nil {
			t.Error(err)
			continue
		}
		unit := e.Unit.String()
		if unit == "" {
			unit = "1"
		}
		if !(math.Abs(e.Value-test.value) <= 1e-12*math.Abs(test.value)) || unit != test.unit || len(e.Readings) != test.readings ||
			!(math.Abs(e.Standard-test.standard) <= 1e-12) || e.Distribution != test.distribution {
			t.Errorf("%s: %+v, want %v ± %v %s, %v", test.text, e, test.value, test.standard, test.unit, test.distribution)
		}
	}
	for text, want := range map[string]string{
		"rectangular(1) g":        "rectangular(1), want both ends: rectangular(LOW, HIGH) UNIT",
		"rectangular(3, 1) g":     "rectangular(3, 1): the low end comes first",
		"rectangular(3, 3) g":     "rectangular(3, 3): the low end comes first",
		"rectangular(x, 3) g":     `"x"`,
		"rectangular(3, x) g":     `"x"`,
		"rectangular(1, 3) zogs":  "zogs",
		"normal(1, 3) g":          `unknown distribution "normal", want rectangular, triangular or arcsine`,
		"gaussian(1, 3) g":        `unknown distribution "gaussian"`,
		"[1] g":                   "one reading has no spread, want two or more",
		"[1 2] ± 1 g":             "readings with ±: their own spread is their uncertainty",
		"0.5 1":                   "two readings, or one number of the unit 1, write [0.5 1] or 0.5",
		"g":                       "no number",
		"mean(1) g":               "two readings or more",
		"1 ± 2 ± 3 g":             "an uncertainty is given twice",
		"1 ± rectangular(1, 2) g": "decimal comma",
	} {
		if e, err := ParseEstimate(text); err == nil || !strings.Contains(err.Error(), want) && want != "decimal comma" {
			t.Errorf("%s: %+v, %v, want in the error %s", text, e, err, want)
		}
	}
}

// An estimate of a field is canonical, and refused with its name.
func TestFieldEstimate(t *testing.T) {
	f := fieldOf(t, "Consistency", "%")
	e, err := f.Estimate("4.0 ± 0.1 %")
	if err != nil || !(math.Abs(e.Value-0.04) <= 1e-15) || !(math.Abs(e.Standard-0.001) <= 1e-15) {
		t.Errorf("%+v, %v", e, err)
	}
	if e, err = f.Estimate("0.04 g/g"); err != nil || e.Value != 0.04 || e.Standard != 0 {
		t.Errorf("%+v, %v", e, err)
	}
	for text, want := range map[string]string{
		"%": `x "%": no number, want a consistency such as 1 %`, "4": `x "4": unit missing`, "4 5 %": "want one number, not a list",
	} {
		if _, err := f.Estimate(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
	any := &Field{Name: "x", Relation: "any"}
	if _, err := any.Estimate("kg"); err == nil || !strings.Contains(err.Error(), `x "kg": no number, want a number and a unit`) {
		t.Errorf("a value of any unit: %v", err)
	}
}

// A tolerance takes what lies on its edge, and no more.
func TestTolerance(t *testing.T) {
	for _, test := range []struct {
		text      string
		got, want float64
		takes     bool
	}{
		{"exact", 1.5, 1.5, true}, {"exact", math.Nextafter(1.5, 2), 1.5, false},
		{"abs 0.5", 2, 1.5, true}, {"abs 0.5", 1, 1.5, true}, {"abs 0.5", 2.01, 1.5, false}, {"abs 0.5", 0.99, 1.5, false},
		{"abs 0.5", 0.5, 0, true}, {"abs 0.5", 0.51, 0, false},
		{"rel 0.25", 5, 4, true}, {"rel 0.25", 3, 4, true}, {"rel 0.25", 5.01, 4, false}, {"rel 0.25", -5, -4, true}, {"rel 0.25", -5.01, -4, false},
		{"rel 0.25", 1e-15, 0, true}, {"rel 0.25", -1e-15, 0, true}, {"rel 0.25", 1.1e-15, 0, false},
		{"rel 0", 4, 4, true}, {"abs 0", 4, 4, true}, {"rel 0.25", math.NaN(), 4, false}, {"abs 0.25", math.NaN(), 4, false},
	} {
		tolerance, err := parseTolerance(test.text)
		if err != nil || tolerance.takes(test.got, test.want) != test.takes {
			t.Errorf("%s: %v for %v is taken: %v, %v", test.text, test.got, test.want, !test.takes, err)
		}
	}
}
