package calc_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// full are the results of a sheet with all their digits.
func full(s *calc.Sheet) string {
	text := ""
	for _, c := range s.Out {
		text += c.Name + " " + c.Full() + "; "
	}
	return text
}

// Uncertainties that are refused leave the results of the run, not those of a step.
func TestRefusedUncertainties(t *testing.T) {
	s := given(t, "dilution", "mass-flow=300 ± 3 t/h; consistency-in=4.6 ± 0.1 %; consistency-out=0.92 ± 0.01 %")
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	for _, pair := range []struct {
		a, b string
		r    float64
	}{{"mass-flow", "consistency-in", -1}, {"mass-flow", "consistency-out", 1}, {"consistency-in", "consistency-out", 1}} {
		if err := s.Correlate(pair.a, pair.b, pair.r); err != nil {
			t.Fatal(err)
		}
	}
	const want = "no inputs can have these correlations together: the variance comes out below zero"
	if _, err := s.Uncertainties(); err == nil || err.Error() != want {
		t.Errorf("three values of which two move against the third and not each other: %v, want %s", err, want)
	}
	if got, want := full(s), "water-flow 1200 t/h; mass-flow-out 1500 t/h; dry-flow-out 13.799999999999999 t/h; "; got != want {
		t.Errorf("afterwards the sheet holds %s, want %s", got, want)
	}
}

// What is put takes the place of a text, a question mark too, and of all that it said.
func TestPutOverText(t *testing.T) {
	s := given(t, "dilution", "mass-flow=?; consistency-in=4.6 %; consistency-out=0.92 %")
	flow, _ := s.Input("mass-flow")
	for what, put := range map[string]func(){
		"a number":      func() { flow.Put(300) },
		"a list of one": func() { flow.PutList([]float64{300}) },
	} {
		if err := flow.Set("?"); err != nil {
			t.Fatal(err)
		}
		put()
		if err := s.Run(); err != nil || s.Out[0].Full() != "1200 t/h" {
			t.Errorf("%s over ?: %s, %v, want 1200 t/h", what, s.Out[0].Full(), err)
		}
	}
	s = given(t, "screen-passage", sheet(t, "screen-passage").Info().Example)
	model, _ := s.Input("model")
	if err := model.Set("plug"); err != nil {
		t.Fatal(err)
	}
	model.PutWord("mixed")
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	if w, err := s.Solution(); err != nil || written(w, "model") != "mixed" || model.AsWritten() != "" {
		t.Errorf("plug, then mixed is put: the solution gives %q and the text is %q, %v", written(w, "model"), model.AsWritten(), err)
	}
}

// written is what a worked solution says of an input.
func written(w *calc.Solution, name string) string {
	for _, g := range w.Given {
		if g.Name == name {
			return g.Written + g.Value
		}
	}
	return ""
}

// A worked solution tells the numbers that were put, of any unit too.
func TestSolutionOfPut(t *testing.T) {
	s := sheet(t, "conformity-absolute")
	percent, err := paperprop.ParseUnit("%")
	if err != nil {
		t.Fatal(err)
	}
	for name, x := range map[string]float64{"value": 7.4, "limit": 7.5} {
		c, _ := s.Input(name)
		c.PutUnit(percent)
		c.Put(x)
	}
	if err := s.Set("side", "at-most"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	if w, err := s.Solution(); err != nil || written(w, "value") != "7.4 %" || written(w, "limit") != "7.5 %" {
		t.Errorf("7.4 %% and 7.5 %% were put: %q and %q, %v", written(w, "value"), written(w, "limit"), err)
	}
}

// A number that is put is for an input: an output is solved from by Set alone.
func TestPutIntoOutput(t *testing.T) {
	s := given(t, "dilution", "mass-flow=?; consistency-in=4.6 %; consistency-out=0.92 %")
	for what, put := range map[string]func(*calc.Cell){
		"Put":     func(c *calc.Cell) { c.Put(1200) },
		"PutList": func(c *calc.Cell) { c.PutList([]float64{1200}) },
		"PutWord": func(c *calc.Cell) { c.PutWord("1200") },
	} {
		put(s.Out[0])
		const want = `mass-flow "?": to solve for an input give one output`
		if err := s.Run(); s.Out[0].Given() || err == nil || err.Error() != want {
			t.Errorf("%s into an output: given %v, %v, want %s", what, s.Out[0].Given(), err, want)
		}
	}
}

// What is no number is refused of a value that counts as it was written, too.
func TestNoNumberWritten(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		s := given(t, "conformity-absolute", sheet(t, "conformity-absolute").Info().Example)
		c, _ := s.Input("value")
		c.Put(x)
		if err := s.Run(); !errors.Is(err, paperprop.ErrRange) {
			t.Errorf("a value of %v: %v, want it out of range", x, err)
		}
	}
}

// A share of a temperature is absent, and no reason to refuse the uncertainties of the
// results that are there. By hand (common-practice): 0.1 K of three independent readings
// is 0.1/√3 K of their mean, and a limit 2.8 times as wide as a deviation.
func TestUncertaintyBesideAbsent(t *testing.T) {
	for _, test := range []struct {
		name, inputs, output string
		want                 float64
	}{
		{"replicates", "value=[20 21 22] ± 0.1 degC", "mean", 0.1 / math.Sqrt(3)},
		{"precision-limits", "mean=20 degC; repeatability-deviation=0.5 ± 0.1 K; reproducibility-deviation=0.8 K; factor=2.8", "repeatability-limit", 0.28},
	} {
		s := given(t, test.name, test.inputs)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		all, err := s.Uncertainties()
		if err != nil {
			t.Errorf("%s of temperatures: %v", test.name, err)
			continue
		}
		for _, u := range all {
			if u.Cell.Name == test.output && !(math.Abs(u.Standard-test.want) <= 1e-11) {
				t.Errorf("u of %s is %v, want %v", test.output, u.Standard, test.want)
			}
		}
		samples, err := calc.MonteCarlo{Draws: 100_000, Seed: 1}.Run(context.Background(), s)
		if err != nil {
			t.Errorf("draws of %s: %v", test.name, err)
		}
		for _, m := range samples {
			if m.Cell.Name == test.output && !(math.Abs(m.Standard-test.want) <= 0.01*test.want) {
				t.Errorf("draws give %s a u of %v, want %v", test.output, m.Standard, test.want)
			}
		}
	}
}

// A source keeps its degrees of freedom for inputs that are given it later, whichever
// comes first; the text that named it may be said again.
func TestFreedomOfSource(t *testing.T) {
	for _, order := range [][2]string{{"headbox-consistency", "tray-consistency"}, {"tray-consistency", "headbox-consistency"}} {
		s := sheet(t, "retention")
		text := map[string]string{"headbox-consistency": "0.8 % ± probe", "tray-consistency": "0.2 % ± probe"}
		for _, do := range []func() error{
			func() error { return s.SetSource("probe", "0.01 %") },
			func() error { return s.Set(order[0], text[order[0]]) },
			func() error { return s.SetFreedom("probe", 5) },
			func() error { return s.Set(order[1], text[order[1]]) },
			func() error { return s.SetSource("probe", "0.01 %") },
			s.Run,
		} {
			if err := do(); err != nil {
				t.Fatal(err)
			}
		}
		all, err := s.Uncertainties()
		if err != nil || all[0].Freedom != 5 {
			t.Errorf("%s first: %v degrees of freedom, %v, want 5", order[0], all[0].Freedom, err)
		}
	}
}

// JSON leaves out what can't be expanded, and refuses a level that is none.
func TestFindingsBeyond(t *testing.T) {
	s := given(t, "retention", "headbox-consistency=0.8 ± 0.01 %; tray-consistency=0.2 %")
	if err := s.SetFreedom("headbox-consistency", 1e-4); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	b, err := s.MarshalFindings(calc.Findings{Level: 0.95})
	if err != nil || strings.Contains(string(b), "expanded") || !strings.Contains(string(b), `"freedom":0.0001`) {
		t.Errorf("a factor beyond a float64: %s, %v", b, err)
	}
	for _, level := range []float64{7, -1, math.NaN()} {
		if b, err := s.MarshalFindings(calc.Findings{Level: level}); err == nil {
			t.Errorf("a level of %v: %s", level, b)
		}
	}
}

// An input that was forgotten is not there, nor is one that was never given; a default
// is once it was taken.
func TestInputPresent(t *testing.T) {
	s := given(t, "screen-passage", sheet(t, "screen-passage").Info().Example)
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	model, _ := s.Input("model")
	if !model.Present() || model.Word() == "" || len(s.Values()) == 0 {
		t.Errorf("after a run the model is %q, present %v", model.Word(), model.Present())
	}
	s.Reset()
	for _, c := range s.In {
		if c.Present() || c.Reported() != "" || c.Full() != "" || c.Word() != "" {
			t.Errorf("after Reset %s is %q, present %v", c.Name, c.Full(), c.Present())
		}
	}
	if v := s.Values(); len(v) > 0 {
		t.Errorf("after Reset there are values: %v", v)
	}
	s = given(t, "air-dry-consistency", "consistency=3.15 %")
	c, _ := s.Input("commercial-dryness")
	if c.Present() {
		t.Errorf("a default of %s before a run", c.Full())
	}
	if err := s.Run(); err != nil || c.Full() != "90 %" || c.Given() {
		t.Errorf("after a run the default is %q, given %v, %v", c.Full(), c.Given(), err)
	}
}

// A run that was refused has no warnings of the one before.
func TestWarningsOfARun(t *testing.T) {
	s := given(t, "take-up-measured", "fluting-length=1.9 m; board-length=1 m")
	if err := s.Run(); err != nil || len(s.Warnings()) != 1 {
		t.Fatalf("%v, %d warnings, want 1", err, len(s.Warnings()))
	}
	c, _ := s.Input("board-length")
	for what, leave := range map[string]func(){
		"refused":   func() { c.Put(-1); s.Run() },
		"given new": func() { c.Put(1) },
		"Reset":     s.Reset,
	} {
		if leave(); len(s.Warnings()) > 0 {
			t.Errorf("%s: %d warnings, want none", what, len(s.Warnings()))
		}
	}
}

// A correlation of zero, or of a value that is certain by now, holds nothing up: degrees
// of freedom, second order and draws are for independent values.
func TestCorrelatedNoMore(t *testing.T) {
	for what, end := range map[string]func(s *calc.Sheet) error{
		"zero":    func(s *calc.Sheet) error { return s.Correlate("tray-consistency", "headbox-consistency", 0) },
		"certain": func(s *calc.Sheet) error { return s.Set("tray-consistency", "0.2 %") },
	} {
		s := given(t, "retention", "headbox-consistency=0.8 ± 0.01 %; tray-consistency=0.2 ± 0.01 %")
		for _, do := range []func() error{
			func() error { return s.SetFreedom("headbox-consistency", 5) },
			func() error { return s.Correlate("headbox-consistency", "tray-consistency", 0.5) },
			s.Run,
		} {
			if err := do(); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := s.SecondOrder(); err == nil {
			t.Error("second order of values that are correlated")
		}
		if err := end(s); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		all, err := s.Uncertainties()
		if err != nil || !(all[0].Freedom >= 5) {
			t.Errorf("%s: %v degrees of freedom, %v, want 5 or more", what, all[0].Freedom, err)
		}
		if _, err := s.SecondOrder(); err != nil {
			t.Errorf("%s: %v", what, err)
		}
		if _, err := (calc.MonteCarlo{Draws: 1000}).Run(context.Background(), s); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// A member of a list can be drawn outside its range as any other value can, alone or with
// all that share its source.
func TestMembersDrawnOutside(t *testing.T) {
	const n = 10_000
	for _, consistency := range []string{"[4 0] ± 0.1 %", "[4 0] % ± transmitter"} {
		s := sheet(t, "mixing-temperature")
		if err := s.SetSource("transmitter", "0.1 %"); err != nil {
			t.Fatal(err)
		}
		for name, text := range map[string]string{
			"mass-flow": "[120 480] t/h", "consistency": consistency, "temperature": "[55 42] degC", "fibre-heat-capacity": "1.4 kJ/(kg K)",
		} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		samples, err := calc.MonteCarlo{Draws: n, Workers: 1}.Run(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		if m := samples[0]; math.Abs(float64(m.Outside)-n/2) > 5*math.Sqrt(n)/2 || m.Refused > 0 {
			t.Errorf("consistency=%s: %d of %d outside, want about half of those of the second stream; %d refused", consistency, m.Outside, n, m.Refused)
		}
	}
}

// Equal readings have no autocorrelation, and readings beside them do: that is no reason to
// refuse the uncertainties of the results that are there, nor to refuse draws. That of the
// mean of five, by hand (common-practice), is 0.1/√5 N.
func TestUncertaintyOfEqualReadings(t *testing.T) {
	s := given(t, "replicates", "value=[17.9 17.9 17.9 17.9 17.9] ± 0.1 N")
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	us, err := s.Uncertainties()
	if err != nil {
		t.Fatal(err)
	}
	for _, u := range us {
		if u.Cell.Name == "mean" && math.Abs(u.Standard-0.1/math.Sqrt(5)) > 1e-9 {
			t.Errorf("the mean has u = %v, want %v", u.Standard, 0.1/math.Sqrt(5))
		}
	}
	samples, err := calc.MonteCarlo{Draws: 10_000, Workers: 1}.Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range samples {
		if m.Refused > 0 || m.Cell.Name == "mean" && math.Abs(m.Standard-0.1/math.Sqrt(5)) > 0.002 {
			t.Errorf("%s: u = %v, %d draws refused", m.Cell.Name, m.Standard, m.Refused)
		}
	}
}

// A certificate gives an expanded uncertainty and its factor; ± takes a standard one.
func TestCoverageFactorRefused(t *testing.T) {
	for _, text := range []string{"300 t/h ± 3 (k=2)", "300 t/h ± 3 t/h (k = 2)", "300 ± 3 t/h k=2", "300000 kg/h ± 3 kg/h (k=2)"} {
		s := sheet(t, "dilution")
		want := `mass-flow "` + text + `": right of ±: a coverage factor, want one standard uncertainty (k = 1): U divided by k`
		if err := s.Set("mass-flow", text); err == nil || err.Error() != want {
			t.Errorf("%v, want %s", err, want)
		}
	}
	if err := sheet(t, "dilution").Set("mass-flow", "300 t/h ± 50 kg/h"); err != nil {
		t.Error(err)
	}
}
