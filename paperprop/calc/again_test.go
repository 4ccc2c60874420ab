package calc_test

import (
	"testing"

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
	const want = "no inputs can be correlated so: the variance comes out below zero"
	if _, err := s.Uncertainties(); err == nil || err.Error() != want {
		t.Errorf("three values of which two move against the third and not each other: %v, want %s", err, want)
	}
	if got, want := full(s), "water-flow 1200 t/h; mass-flow-out 1500 t/h; dry-flow-out 13.799999999999999 t/h; "; got != want {
		t.Errorf("afterwards the sheet holds %s, want %s", got, want)
	}
}
