package calc_test

import (
	"math"
	"strings"
	"testing"
)

// Readings, resolutions, correlations and degrees of freedom, reckoned by hand
// from the definitions (JCGM 100:2008, 4.2, 4.3.7, 5.2.2, G.4.1): common
// practice, no source for the figures.
func TestUncertaintyOfReadings(t *testing.T) {
	s := sheet(t, "grammage")
	for _, p := range [][2]string{
		{"mass", "mean(5.871 5.868 5.874 5.869) g"}, {"length", "200 ± resolution(0.6) mm"}, {"width", "250 ± readings(0.4, 4) mm"},
	} {
		if err := s.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	all, err := s.Uncertainties()
	if err != nil {
		t.Fatal(err)
	}
	// s² of the mass is ((0.5² + 2.5² + 3.5² + 1.5²)/3)·1e-6 g².
	mass, length, width := math.Sqrt(21./3/4)*1e-3/5.8705, 0.3/math.Sqrt(3)/200, 0.2/250
	want := 117.41 * math.Sqrt(mass*mass+length*length+width*width)
	if u := all[0].Standard; !(math.Abs(u-want) <= 1e-9*want) {
		t.Errorf("u = %v, want %v", u, want)
	}
	relative := want / 117.41
	freedom := math.Pow(relative, 4) / (math.Pow(mass, 4)/3 + math.Pow(width, 4)/3)
	if got := all[0].Freedom; !(math.Abs(got-freedom) <= 1e-6*freedom) {
		t.Errorf("%v degrees of freedom, want %v", got, freedom)
	}
	if err := s.Correlate("length", "width", -0.5); err != nil {
		t.Fatal(err)
	}
	if all, err = s.Uncertainties(); err != nil {
		t.Fatal(err)
	}
	want = 117.41 * math.Sqrt(mass*mass+length*length+width*width-length*width)
	if u := all[0].Standard; !(math.Abs(u-want) <= 1e-9*want) || all[0].Freedom != 0 {
		t.Errorf("correlated: u = %v with %v degrees of freedom, want %v and none", u, all[0].Freedom, want)
	}
}

func TestUncertaintyRefuses(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"5.87 ± readings(0.4) g", "want readings(s, n)"},
		{"5.87 ± readings(0.4, 1) g", "n from 2"},
		{"mean(5.87) g", "two readings or more"},
	} {
		err := sheet(t, "grammage").Set("mass", test.text)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("mass %q: %v, want in it %q", test.text, err, test.want)
		}
	}
	s := sheet(t, "dilution")
	for _, p := range [][2]string{{"mass-flow", "300 ± 3 t/h"}, {"consistency-in", "4 ± 0.1 %"}, {"consistency-out", "1 %"}} {
		if err := s.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	for _, err := range []error{
		s.Correlate("mass-flow", "mass-flow", 1), s.Correlate("mass-flow", "consistency-in", 1.1),
		s.Correlate("mass-flow", "consistency-out", 0.5), s.SetFreedom("consistency-out", 3), s.SetFreedom("mass-flow", 0),
		s.SetFreedom("mas-flow", 3),
	} {
		if err == nil {
			t.Error("taken, want a refusal")
		}
	}
}

// A product has the variance a²v² + b²u² + u²v² by second order, exactly.
func TestSecondOrderOfACalculation(t *testing.T) {
	d := sheet(t, "dosage")
	for _, p := range [][2]string{{"dosage", "10 ± 2 kg/t"}, {"dry-flow", "20 ± 3 t/h"}, {"active-share", "100 %"}} {
		if err := d.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := d.Run(); err != nil {
		t.Fatal(err)
	}
	bent, err := d.SecondOrder()
	if err != nil {
		t.Fatal(err)
	}
	// kg/t times t/h is kg/h; the flow is kept in t/h.
	want := 1e-3 * math.Sqrt(400*4+100*9+4*9)
	if got := bent[0].Standard; bent[0].Cell.Name != "active-flow" || !(math.Abs(got-want) <= 1e-9*want) {
		t.Errorf("%s: u = %v, want %v", bent[0].Cell.Name, got, want)
	}
	if d.Out[0].Number() != 0.2 {
		t.Errorf("afterwards the sheet holds %v, want 0.2", d.Out[0].Number())
	}
}

// What an uncertain input cancels out of has no uncertainty by second order either:
// the last digits of its differences once came out below zero, and refused the rest.
func TestSecondOrderOfWhatCancels(t *testing.T) {
	for _, flow := range []string{"14.4", "14.5", "14.6", "14.7", "15.3"} {
		s := sheet(t, "proportioning")
		for _, p := range [][2]string{{"dry-flow", flow + " t/h ± 1 %"}, {"dry-share", "[94 6] %"}, {"consistency", "[3.4 4.0] %"}} {
			if err := s.Set(p[0], p[1]); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		bent, err := s.SecondOrder()
		if err != nil {
			t.Errorf("dry-flow %s t/h: %v", flow, err)
			continue
		}
		for _, b := range bent {
			if b.Cell.Name == "consistency-out" && b.Standard != 0 {
				t.Errorf("dry-flow %s t/h: consistency-out has u = %v, want 0", flow, b.Standard)
			}
		}
	}
}
