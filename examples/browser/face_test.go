package main

import (
	"strings"
	"testing"
)

// TestExamplesWork: what the page fills in for each calculation is computed.
func TestExamplesWork(t *testing.T) {
	for _, r := range rooms() {
		for _, c := range r.Calculations {
			d, err := describe(c.Name)
			if err != nil {
				t.Errorf("describe(%q): %v", c.Name, err)
				continue
			}
			texts := map[string]string{}
			for _, f := range d.Inputs {
				texts[f.Name] = f.Example
			}
			w, err := work(c.Name, texts)
			if err != nil || w.Solution == nil || len(w.Solution.Results) == 0 {
				t.Errorf("work(%q, its example) = %v, %v", c.Name, w.Solution, err)
			}
		}
	}
}

func TestWork(t *testing.T) {
	thin := func(flow, in, out string) map[string]string {
		return map[string]string{"mass-flow": flow, "consistency-in": in, "consistency-out": out}
	}
	w, err := work("dilution", thin("300 t/h", "3..5 %", "0.92 %"))
	if err != nil || len(w.Curves) == 0 {
		t.Fatalf("a range gives %d curves, %v", len(w.Curves), err)
	}
	c := w.Curves[0]
	if n := len(c.Pieces[0]); c.Y != "water-flow [t/h]" || c.X != "consistency-in [%]" || n != 121 || c.Pieces[0][0][0] != 3 || c.Pieces[0][n-1][0] != 5 {
		t.Errorf("the curve is %s over %s, %d points", c.Y, c.X, n)
	}
	// Where the stock is thinner than wanted the curve has no points.
	w, err = work("dilution", thin("300 t/h", "2..0.5 %", "0.92 %"))
	if err != nil || len(w.Curves[0].Pieces) != 1 || len(w.Curves[0].Pieces[0]) > 90 {
		t.Errorf("a curve over a refused stretch: %v, %v", w.Curves, err)
	}
	for _, test := range []struct {
		texts map[string]string
		holds string
	}{
		{thin("300 m", "4.6 %", "0.92 %"), "no unit of mass flow"},
		{thin("", "4.6 %", "0.92 %"), "mass-flow is missing"},
		{thin("300 t/h", "3..5 %", "0.5..0.9 %"), "is a range already"},
		{thin("300 t/h", "0.1..0.5 %", "0.92 %"), "consistency-out"},
		{map[string]string{}, "missing"},
	} {
		if _, err := work("dilution", test.texts); err == nil || !strings.Contains(err.Error(), test.holds) {
			t.Errorf("work(dilution, %v) refuses with %v, want %q", test.texts, err, test.holds)
		}
	}
	if _, err := work("nothing", nil); err == nil {
		t.Error("an unknown calculation is computed")
	}
}
