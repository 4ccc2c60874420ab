package lab_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/lab"
	"millmaths.example/paperprop/result"
)

// A value may be a temperature: a step, a margin and a spread of it are
// differences, which have no offset (common-practice, by hand).
func TestTemperatures(t *testing.T) {
	table := `id,calculation,inputs,expected,tolerance,kind,source,note
t1,replicates,value=[20.1 20.3 20.8] degC,mean=20.4 degC; range=0.7 K,rel 1e-9,common-practice,by hand,
t2,round,value=12.37 degC; step=0.5 K; tie=even,reported=12.5 degC,exact,common-practice,by hand,
t3,round,value=12.37 degC; step=0.5 degC; tie=even,refused,exact,common-practice,a temperature is no difference,
t4,conformity-absolute,value=23.4 degC; limit=23 degC; side=at-most,margin=-0.4 K; verdict=fail,rel 1e-9,common-practice,by hand,
t5,conformity-absolute,value=23.4 degC; limit=75 degF; side=at-most,verdict=pass,exact,common-practice,75 degF is 23.9 degC,
t6,conformity-guard-band,value=8.05 +- 0.02 %; limit=8.0 %; side=at-most; expanded-uncertainty=0.1 %,u(margin)=0.02 %; verdict=undecided,rel 1e-9,common-practice,by hand,
t7,conformity-guard-band,margin=1 degF_diff; limit=20 degC; side=at-least; expanded-uncertainty=0.5 K,value=69 degF; verdict=pass,rel 1e-9,common-practice,by hand,
`
	checks, err := calc.ReadChecks("temperatures", strings.NewReader(table))
	if err != nil {
		t.Fatal(err)
	}
	for i := range checks {
		for _, f := range checks[i].Run(find) {
			t.Errorf("%s: %v", checks[i].ID, f)
		}
	}
}

// Whole degrees of freedom need no rule, and are found without one (library: Python
// mpmath 1.3.0, root of the regularised incomplete beta function).
func TestFreedomSolvedFor(t *testing.T) {
	c, _ := find("expanded-uncertainty")
	s := c.NewSheet()
	for _, p := range [][2]string{{"standard-uncertainty", "0.5 g"}, {"degrees-of-freedom", "?"}, {"coverage-factor", "2.570581835636315"}} {
		if err := s.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil || len(s.Roots) != 1 || s.Roots[0].Low != 5 {
		t.Errorf("roots %v, %v, want 5 alone", s.Roots, err)
	}
}

// What was written counts while it stands: a number that was put, as from a cell
// of a table, one that an uncertainty moves and one of a typed struct stand for
// themselves (common-practice, by hand).
func TestAsWritten(t *testing.T) {
	c, _ := find("conformity-rounding")
	s := c.NewSheet()
	for name, text := range map[string]string{"value": "273.36 in", "limit": "22.75 ft", "side": "at-least", "step": "1 in", "tie": "even"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	value, _ := s.Input("value")
	verdict, _ := s.Output("verdict")
	for _, test := range []struct {
		value float64
		want  lab.Verdict
	}{{273.36, lab.VerdictPass}, {272.5, lab.VerdictFail}, {272.51, lab.VerdictPass}} {
		value.Put(test.value)
		if err := s.Run(); err != nil || verdict.Word() != string(test.want) {
			t.Errorf("%v in at least 22.75 ft: %q, %v, want %s", test.value, verdict.Word(), err, test.want)
		}
	}
	got, err := lab.ConformityGuardBand{Value: 7.9, Limit: 8, Side: lab.SideAtMost, ExpandedUncertainty: 0.1}.Calculate()
	if want := (lab.ConformityResult{Margin: 0.1, Verdict: lab.VerdictPass}); err != nil || got != want {
		t.Errorf("7.9 at most 8.0, U = 0.1: %v, %v, want %v", got, err, want)
	}
}

// A margin has the uncertainty of a value that is written with more digits than
// a float64 holds (common-practice, by hand).
func TestUncertaintyOfWhatIsWritten(t *testing.T) {
	c, _ := find("conformity-absolute")
	s := c.NewSheet()
	for name, text := range map[string]string{"value": "45.00000000000000000001 +- 0.1 ft", "limit": "540 in", "side": "at-least"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	if margin := s.Out[0].Number(); margin != 1e-20 {
		t.Errorf("margin is %v, want 1e-20", margin)
	}
	u, err := s.Uncertainties()
	if err != nil || len(u) == 0 || !(math.Abs(u[0].Standard-0.1) <= 1e-12) {
		t.Errorf("uncertainties are %v, %v, want 0.1 ft first", u, err)
	}
}

// A value is found that just meets a limit which is no float64 in its unit
// (common-practice, by hand: 205 g/m2 are 41.98730944261695 lb/1000ft2).
func TestMarginOfNothing(t *testing.T) {
	for _, name := range []string{"conformity-absolute", "conformity-guard-band"} {
		c, _ := find(name)
		s := c.NewSheet()
		inputs := map[string]string{"limit": "205 g/m2", "side": "at-least", "margin": "0 lb/1000ft2"}
		if name == "conformity-guard-band" {
			inputs["expanded-uncertainty"] = "1 g/m2"
		}
		for name, text := range inputs {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Errorf("%s: %v", name, err)
		} else if value, _ := s.Input("value"); value.Number() != 41.98730944261695 {
			t.Errorf("%s: value is %v, want 41.98730944261695", name, value.Number())
		}
	}
}

// What is alike as decimals has no spread.
func TestNoSpread(t *testing.T) {
	pairs, err := lab.ComparePairs{FirstValue: []float64{7.6, 7.4, 8.1, 7.9}, SecondValue: []float64{7.5, 7.3, 8.0, 7.8}}.Calculate()
	if err != nil || pairs.StandardDeviation != 0 || pairs.HalfWidth != 0 || pairs.Lower != 0.1 {
		t.Errorf("pairs: %+v, %v", pairs, err)
	}
	for _, values := range [][]float64{{0.1, 0.1, 0.1, 5}, {8.7, 8.7, 8.7, 8.7}} {
		mean, err := lab.WeightedMean{Value: values, Weight: []float64{0.3, 0.1, 0.7, 0}}.Calculate()
		if err != nil || mean.Spread != 0 {
			t.Errorf("weighted mean of %v: %+v, %v", values, mean, err)
		}
	}
}

// An error says which input it is of, also where it counts readings or parts.
func TestErrorsNameTheInput(t *testing.T) {
	for _, test := range []struct{ name, input, values, want string }{
		{"replicates", "value", "[1 1e150] N", "reading 2 is 1e+150, want a number up to 1e140 in size"},
		{"replicates", "value", "[0 1e-141] N", "the range of the readings is 1e-141, want 0, or at least 1e-140"},
		{"shares", "part", "[0 0] kg", "the sum of the parts is 0, want above 0"},
	} {
		c, _ := find(test.name)
		s := c.NewSheet()
		if err := s.Set(test.input, test.values); err != nil {
			t.Fatal(err)
		}
		err := s.Run()
		if _, input := calc.Code(err); fmt.Sprint(err) != test.want || input != test.input || !errors.As(err, new(*result.InputError)) {
			t.Errorf("%s of %s: %v, of input %q, want %s, of %s", test.name, test.values, err, input, test.want, test.input)
		}
	}
}

// A step in another unit leaves more digits than people write, and a warning says what to
// do; not so where the rounded value is short.
func TestStepInAnotherUnit(t *testing.T) {
	for _, test := range []struct{ name, inputs, reported, codes string }{
		{"round", "value=42.03 lb/1000ft2; step=1 g/m2; tie=even", "41.98730944261695 lb/1000ft2", "step-in-another-unit"},
		{"round", "value=45.5 kg; step=1 lb; tie=even", "45.35923700 kg", "step-in-another-unit"},
		{"round", "value=1 in; step=0.1 mm; tie=even", "1 in", ""},
		{"round", "value=12345678901.5 in; step=1 in; tie=even", "12345678902 in", ""},
		{"round", "value=123456.1 yd; step=1 ft; tie=even", "123456 yd", ""},
		{"round", "value=12.35 g; step=0.123456 g; tie=even", "12.345600 g", ""},
		{"conformity-rounding", "value=42.03 lb/1000ft2; limit=205 g/m2; side=at-least; step=1 g/m2; tie=even", "41.98730944261695 lb/1000ft2", "step-in-another-unit"},
		{"conformity-rounding", "value=42.03 lb/1000ft2; limit=205.5 g/m2; side=at-least; step=1 g/m2; tie=even", "41.98730944261695 lb/1000ft2", "step-in-another-unit limit-off-step"},
		{"conformity-rounding", "value=22.78 ft; limit=273 in; side=at-least; step=1 in; tie=away", "22.75 ft", ""},
	} {
		c, _ := find(test.name)
		s := c.NewSheet()
		for _, pair := range strings.Split(test.inputs, "; ") {
			name, text, _ := strings.Cut(pair, "=")
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		var codes []string
		for _, w := range s.Warnings() {
			codes = append(codes, w.Code)
		}
		if got := s.Out[0].Reported(); got != test.reported || strings.Join(codes, " ") != test.codes {
			t.Errorf("%s %s: %s, warned of %q, want %s, %q", test.name, test.inputs, got, codes, test.reported, test.codes)
		}
	}
}

// Shares that are rounded stand still and jump: no slope tells their uncertainty,
// but draws do (by hand, to first order: 0.1 N of 1 N and 2 N are 2.22 %).
func TestSharesMoveInSteps(t *testing.T) {
	for _, step := range []string{"0.1 %", "1 %"} {
		c, _ := find("shares")
		s := c.NewSheet()
		for name, text := range map[string]string{"part": "1 +- 0.1 N; 2 N", "step": step} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		solution, err := s.Solution()
		if err != nil {
			t.Fatal(err)
		}
		if u := solution.Results[0].U; u != "" {
			t.Errorf("shares to %s: u = %s, want none of first order", step, u)
		}
		samples, err := calc.MonteCarlo{Draws: 10_000, Seed: 1}.Run(t.Context(), s)
		if err != nil {
			t.Fatal(err)
		}
		for i, sample := range samples {
			if !(math.Abs(sample.Standard-0.0222) <= 0.002) {
				t.Errorf("share %d to %s: u = %v by draws, want about 2.22 %%", i+1, step, sample.Standard)
			}
		}
	}
}

func find(name string) (calc.Calculation, bool) {
	for _, c := range lab.Calculations() {
		if c.ID() == name {
			return c, true
		}
	}
	return nil, false
}

// A model has no more results than can be correlated, and drawn, in the memory of a
// program that others ask too.
func TestModelIsBounded(t *testing.T) {
	model := func(lines int) string {
		formulas := make([]string, lines)
		for i := range formulas {
			formulas[i] = fmt.Sprintf("y%d = a*%d", i, i+1)
		}
		return strings.Join(formulas, " | ")
	}
	c, ok := find("propagate")
	if !ok {
		t.Fatal("no propagate")
	}
	for _, test := range []struct {
		lines        int
		method, want string
	}{
		{100, "first-order", ""},
		{101, "first-order", "model is 101 formulas, want at most 100"},
		{100_000, "monte-carlo", "model is 100000 formulas, want at most 100"},
		{21, "monte-carlo", "model is 21 formulas, want at most 20 for monte-carlo"},
	} {
		_, err := c.(*calc.Tool).Run([]calc.Pair{{Name: "model", Text: model(test.lines)}, {Name: "method", Text: test.method}, {Name: "a", Text: "1 ± 0.1"}})
		if got := fmt.Sprint(err); got != test.want && (test.want != "" || err != nil) {
			t.Errorf("%d formulas, %s: %v, want %q", test.lines, test.method, err, test.want)
		}
	}
	// Twenty are not too many, so that something else is wrong.
	_, err := ask(t, "propagate", "model="+model(19)+" | z = b; method=monte-carlo; a=rectangular(1, 2); b=1 +- 0.1; corr(a,b)=0.5")
	if fmt.Sprint(err) != "draws of correlated inputs are normal: give them with ±" {
		t.Errorf("20 formulas, monte-carlo: %v", err)
	}
}

// A worked solution shows Student's t as tables do: 3.83 for 8 degrees of freedom and
// 0.25 % beyond (library: Python mpmath 1.3.0, root of the regularised incomplete beta
// function).
func TestStudentInGrubbs(t *testing.T) {
	c, _ := find("grubbs-limit")
	s := c.NewSheet()
	for name, text := range map[string]string{"count": "10", "side": "either"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	solution, err := s.Solution()
	if err != nil || len(solution.Between) != 1 || solution.Between[0].Symbol != "t" || solution.Between[0].Value != "3.83252" {
		t.Errorf("between are %+v, %v, want t of 3.83252", solution.Between, err)
	}
}

// A line is told as extrapolated beyond its points, and not at the last of them; between
// the points of a table the ends count, and no two points have one x.
func TestEndsOfALine(t *testing.T) {
	x, y := []float64{1, 2, 3, 4}, []float64{2, 4.1, 5.9, 8}
	for at, beyond := range map[float64]bool{1: false, 2.5: false, 4: false, 0.999: true, 4.001: true} {
		p, err := lab.LinePrediction{X: x, Y: y, At: at}.Calculate()
		if err != nil || len(p.Warnings) > 0 != beyond || beyond && p.Warnings[0].Code != "extrapolated" {
			t.Errorf("line at %v: %v, %v, want it extrapolated: %v", at, p.Warnings, err, beyond)
		}
		i, err := lab.Interpolate{X: x, Y: y, At: at}.Calculate()
		if (err != nil) != beyond {
			t.Errorf("table at %v: %v, %v", at, i.Interpolated, err)
		}
	}
	const equal = "x is 2, want above the 2 before it: the table must rise"
	if _, err := (lab.Interpolate{X: []float64{1, 2, 2}, Y: []float64{1, 2, 3}, At: 1.5}).Calculate(); fmt.Sprint(err) != equal {
		t.Errorf("two points of one x: %v, want %s", err, equal)
	}
}

// First order of a formula is doubted where it falls short, and no other method.
func TestPropagateDoubts(t *testing.T) {
	c, ok := find("propagate")
	if !ok {
		t.Fatal("no propagate")
	}
	for _, test := range []struct{ model, method, x, want string }{
		{"y = 2*x", "first-order", "3 ± 1 mm", ""},
		{"y = pow(x, 2) | z = 2*x | w = y + z", "first-order", "0 ± 1", "first-order-bends: y, w"},
		{"y = pow(x, 2)", "second-order", "0 ± 1", ""},
		{"y = log(x)", "first-order", "1 ± 0.6", "spread-refused: x"},
		{"y = log(x)", "first-order", "1 ± rectangular(0.5)", ""}, // 0.5 to 1.5, u is 0.30 for 0.29
		{"y = 1/(x", "first-order", "1 ± 0.6", ""},
		{"y = 1/x", "first-order", "0 ± 0.6", ""}, // Run refuses them
	} {
		var said []string
		for _, w := range c.(*calc.Tool).Warnings([]calc.Pair{{Name: "model", Text: test.model}, {Name: "method", Text: test.method}, {Name: "x", Text: test.x}}) {
			names, _, _ := strings.Cut(w.Text, ": ")
			said = append(said, w.Code+": "+names)
		}
		if got := strings.Join(said, "; "); got != test.want {
			t.Errorf("%s, %s, x = %s: %q, want %q", test.model, test.method, test.x, got, test.want)
		}
	}
}

// The results of JCGM 100:2008, H.2, are correlated by -0.588, -0.485 and 0.993 (its table
// H.4, from memory).
func TestCorrelatedResults(t *testing.T) {
	c, ok := find("propagate")
	if !ok {
		t.Fatal("no propagate")
	}
	answers, err := c.(*calc.Tool).Run([]calc.Pair{
		{Name: "model", Text: "R = V/I*cos(phi) | X = V/I*sin(phi) | Z = V/I"}, {Name: "method", Text: "first-order"},
		{Name: "V", Text: "[5.007 4.994 5.005 4.990 4.999] V"},
		{Name: "I", Text: "[19.663 19.639 19.640 19.685 19.678] mA"},
		{Name: "phi", Text: "[1.0456 1.0438 1.0468 1.0428 1.0433] rad"},
	})
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]float64{"corr(R,X)": -0.588, "corr(Z,R)": -0.485, "corr(X,Z)": 0.993} {
		i := slices.IndexFunc(answers, func(a calc.Answer) bool { return a.Name == name })
		if i < 0 || !(math.Abs(answers[i].Value-want) <= 0.001) {
			t.Errorf("%s is not %v in %v", name, want, answers)
		}
	}
}
