package calc

import (
	"fmt"
	"testing"

	"millmaths.example/paperprop/calc/formula"
)

// CheckLines says what a line makes of the inputs and what the calculation does, and
// passes over a line of which a value is missing.
func TestCheckLines(t *testing.T) {
	for _, test := range []struct {
		lines []string
		want  string
	}{
		{[]string{"s = sum(m)"}, "<nil>"},
		{[]string{"s = sum(m)*(1 + 1e-13)"}, "<nil>"},
		{[]string{"s = sum(m)*(1 + 1e-11)"}, "s = sum(m)*(1 + 1e-11) gives 6.00000000006, the calculation 6, in SI units"},
		{[]string{"s = 1e4*sum(m) - 9999*sum(m)"}, "<nil>"}, // its terms are 60000
		{[]string{"s = sum(m)*(l - l)/(l - l)"}, "s = sum(m)*(l - l)/(l - l) gives NaN, the calculation 6, in SI units"},
		{[]string{"s = sum(m)/l"}, "s = sum(m)/l comes out in kg/m, and s is in kg"},
		{[]string{"s = m"}, "s = m gives 3 values, the calculation 1"},
		{[]string{"e = 2*m"}, "<nil>"},
		{[]string{"e = m*m/sum(m)"}, "e = m*m/sum(m) gives 0.16666666666666666 as member 1, the calculation 2, in SI units"},
		{[]string{"s = sum(m) + other"}, "<nil>"},
		{[]string{"way = 2*sum(m)", "s = way"}, "s = way gives 12, the calculation 6, in SI units"},
		{[]string{"s = 2*sum(m)", "e = m"}, "s = 2*sum(m) gives 12, the calculation 6, in SI units\n" +
			"e = m gives 1 as member 1, the calculation 2, in SI units"},
	} {
		s := shapesSheet()
		for name, text := range map[string]string{"weights": "[1 2 3] kg", "word": "yes"} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.CheckLines(); err != ErrNotRun {
			t.Errorf("of a sheet that has not run: %v", err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		var lines []*formula.Line
		for _, text := range test.lines {
			line, err := formula.Parse(text)
			if err != nil {
				t.Fatal(err)
			}
			lines = append(lines, line)
		}
		if got := fmt.Sprint(s.CheckLines(lines...)); got != test.want {
			t.Errorf("%s:\n got %s\nwant %s", test.lines, got, test.want)
		}
	}
}

// Without lines those of the description are taken, which may not be readable.
func TestCheckOwnLines(t *testing.T) {
	type in struct{ X float64 }
	type out struct{ Y float64 }
	for line, want := range map[string]string{
		"y = 2*x": "<nil>",
		"y = 3*x": "y = 3*x gives 12, the calculation 8, in SI units",
		"y = 2*":  `formula "y = 2*": want a number or a name at the end`,
	} {
		d := &Description[in, out]{
			Name: "twice", Formula: []string{line},
			Compute: func(i in) (out, error) { return out{2 * i.X}, nil },
			Fields: func(f *Form, i *in, o *out) {
				InValue(f, &i.X, "first", "x", "any", "")
				OutValue(f, &o.Y, "second", "y", "as first", "")
			},
		}
		s := d.NewSheet()
		if err := s.Set("first", "4"); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprint(s.CheckLines()); got != want {
			t.Errorf("%s:\n got %s\nwant %s", line, got, want)
		}
	}
}
