package lab_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
)

// ask runs a tool on inputs that are written as in a check table.
func ask(t *testing.T, name, inputs string) ([]calc.Answer, error) {
	t.Helper()
	pairs, err := calc.ParsePairs(inputs)
	if err != nil {
		t.Fatal(err)
	}
	c, ok := find(name)
	if !ok {
		t.Fatalf("no %s", name)
	}
	return c.(*calc.Tool).Run(pairs)
}

// A tool says what is wrong, and which of its inputs: the unit that is none or the value
// that is none, the place in a table, the line of a model.
func TestToolsNameWhatIsWrong(t *testing.T) {
	for _, test := range []struct{ name, inputs, input, want string }{
		{"convert", "value=5 kg; to=xyz", "to", `to: unknown unit "xyz"`},
		{"convert", "value=5 xyz; to=kg", "value", `value "5 xyz": unknown unit "xyz"`},
		{"convert", "value=5 kg; to=m", "value", `value "5 kg": "m" is no unit of mass, want kg or mg`},
		{"precision", "result=[1 2 3 | 1 2 x] N; factor=2.8", "result", `result: row 2, reading 3: number "x": no digits`},
		{"propagate", "method=first-order", "model", "model is missing, want a text: NAME = FORMULA, several separated by bars"},
		{"propagate", "model=y = 2*a", "method", "method is missing, want first-order, second-order or monte-carlo: no default"},
		{"propagate", "model=y = 2*a; method=guess", "method", `method is "guess", want first-order, second-order or monte-carlo`},
		{"propagate", "model=y = 2*a; method=first-order; correlation=some", "correlation", `correlation is "some", want ignored`},
		{"propagate", "model=y = 2*a; method=first-order", "a", "a is missing, want a number in any unit"},
		{"propagate", "model=y = 2*a | z = 3*; method=first-order", "model", `model: formula "z = 3*": want a number or a name at the end`},
		{"propagate", "model=y = 2*a | y = 3*a; method=first-order", "model", `model "y = 3*a": two formulas for y`},
		{"propagate", "model=y = 2*z | z = 3*a; method=first-order", "model", `model "y = 2*z | z = 3*a": z is used before its own formula`},
		{"propagate", "model=y = a + b + c; method=first-order; a=[1 2 3] V; b=1 V; c=[1 2] V", "c", "c has 2 values, want 3, as many as a"},
	} {
		_, err := ask(t, test.name, test.inputs)
		if _, input := calc.Code(err); fmt.Sprint(err) != test.want || input != test.input {
			t.Errorf("%s %s: %v, of %q, want %s, of %q", test.name, test.inputs, err, input, test.want, test.input)
		}
	}
}

// Names of a model are inputs on the right of a formula and results on the left; what a
// model that can't be read takes is for its run to say.
func TestNamesOfAModel(t *testing.T) {
	c, _ := find("propagate")
	tool := c.(*calc.Tool)
	takes := strings.Fields("a b c df(a) corr(a,b) corr(c,a)")
	gives := strings.Fields("y z u(y) u(z) mean(z) df(y) lower(z) upper(y) part(a) corr(y,z) corr(a,b) corr(c,a)")
	neither := strings.Fields("q u(a) mean(b) lower(c) part(y) corr(a,y) corr(a) corr(a,b,c) df(a,b) df(q) what(y)")
	for _, name := range slices.Concat(takes, gives, neither) {
		model := []calc.Pair{{Name: "model", Text: "y = a*b | z = y + c"}}
		if got := tool.Takes(model, name, false); got != slices.Contains(takes, name) {
			t.Errorf("%s is an input: %v", name, got)
		}
		if got := tool.Takes(model, name, true); got != slices.Contains(gives, name) {
			t.Errorf("%s is a result: %v", name, got)
		}
		model[0].Text = "y = 2*"
		if !tool.Takes(model, name, false) || !tool.Takes(model, name, true) {
			t.Errorf("%s is refused before the model", name)
		}
	}
}

// Results that have no uncertainty have no correlation, nor has one that follows from
// normal inputs alone degrees of freedom.
func TestResultsThatAreAbsent(t *testing.T) {
	for _, test := range []struct{ inputs, want string }{
		{"model=y = a + b | z = 2*b; method=first-order; a=1 +- 0.1; b=2", "y z u(y) u(z)"},
		{"model=z = 2*b | y = a + b; method=first-order; a=1 +- 0.1; b=2", "z y u(z) u(y)"},
		{"model=y = a + b; method=first-order; a=1 +- 0.1; b=2 +- 0.1; df(a)=5", "y u(y) df(y) part(a) part(b)"},
		{"model=y = a + b; method=first-order; a=1 +- 0.1; b=2 +- 0.1; df(a)=5; corr(a,b)=0.5", "y u(y) part(a) part(b)"},
		{"model=y = a + b | z = 2*a; method=first-order; a=1 +- 0.1; b=2 +- 0.1", "y z u(y) u(z) corr(y,z) corr(z,y)"},
	} {
		answers, err := ask(t, "propagate", test.inputs)
		var names []string
		for _, a := range answers {
			names = append(names, a.Name)
		}
		if got := strings.Join(names, " "); err != nil || got != test.want {
			t.Errorf("%s: %s, %v, want %s", test.inputs, got, err, test.want)
		}
	}
}

// A result without any uncertainty has the same value in each draw; draws that are not
// finite are refused wherever they come.
func TestDrawsOfAModel(t *testing.T) {
	answers, err := ask(t, "propagate", "model=y = 2*b; method=monte-carlo; b=3")
	want := map[string]float64{"y": 6, "u(y)": 0, "mean(y)": 6, "lower(y)": 6, "upper(y)": 6}
	if err != nil || len(answers) != len(want) {
		t.Fatalf("%v, %v, want %v", answers, err, want)
	}
	for _, a := range answers {
		if a.Value != want[a.Name] {
			t.Errorf("%s is %v, want %v", a.Name, a.Value, want[a.Name])
		}
	}
	for _, inputs := range []string{
		"model=y = sqrt(a); method=monte-carlo; a=1 +- 1",
		"model=y = sqrt(2 - a); method=monte-carlo; a=1 +- 1",
	} {
		const want = "y is not finite for some draws: the inputs are too uncertain for the formula"
		if _, err := ask(t, "propagate", inputs); fmt.Sprint(err) != want {
			t.Errorf("%s: %v, want %s", inputs, err, want)
		}
	}
}

// A result is told in the unit that a laboratory writes, not in base units; in that of an
// input where they measure the same. The numbers follow from 1 N = 1 kg m/s2 alone.
func TestResultOfAModelHasAUsualUnit(t *testing.T) {
	for _, test := range []struct {
		model, inputs string
		value         float64
		unit          string
	}{
		{"g = m/(l*b)", "m=6 g; l=200 mm; b=250 mm", 120, "g/m2"},
		{"S = F/b", "F=90 N; b=15 mm", 6, "kN/m"},
		{"I = F/b/g", "F=90 N; b=15 mm; g=120 g/m2", 50, "kN.m/kg"},
		{"p = F/A", "F=90 N; A=15 cm2", 60, "kPa"},
		{"F = m*g_0", "m=6 kg; g_0=10 m/s2", 60, "N"},
		{"W = F*s", "F=90 N; s=20 mm", 1.8, "J"},
		{"P = F*v", "F=90 N; v=20 m/s", 1.8, "kW"},
		{"q = m/t", "m=30 kg; t=3 s", 36, "t/h"},
		{"rho = m/V", "m=30 kg; V=15 L", 2000, "kg/m3"},
		{"l = V/A", "V=30 m3; A=15 m2", 2, "m"},
		{"l = A/b", "A=30 m2; b=15 mm", 2e6, "mm"},
		{"x = F*F*b", "F=2 N; b=3 m", 12, "kg2 m3/s4"},
		{"r = F/G", "F=2 N; G=1 kN", 0.002, ""},
	} {
		answers, err := ask(t, "propagate", "model="+test.model+"; method=first-order; "+test.inputs)
		if err != nil {
			t.Errorf("%s: %v", test.model, err)
			continue
		}
		if got := answers[0]; !(math.Abs(got.Value-test.value) <= 1e-12*test.value) || got.Unit.String() != test.unit {
			t.Errorf("%s of %s is %v %v, want %v %s", test.model, test.inputs, got.Value, got.Unit, test.value, test.unit)
		}
	}
}
