package drying_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/water"
)

// What is drawn is what was computed: the curve ends at the dryness out, the
// marks stand on it, and humid air stands on its own line of saturation.
func TestPictures(t *testing.T) {
	for _, test := range []struct {
		calculation string
		inputs      [][2]string
		mark        string
		x, y        float64
	}{
		{"dryer-groups", [][2]string{{"dryness-in", "45 %"}, {"moisture-out", "5 %"}, {"pressure", "[2] bar(a)"}, {"cylinders", "[7]"}, {"web-temperature", "80 degC"}}, "2 bar(a)", 7, 95},
		{"humid-air", [][2]string{{"temperature", "60 degC"}, {"humidity-ratio", "0.05 kg/kg"}}, "air", 60, 0.05},
		{"hood", [][2]string{{"evaporation", "15 t/h"}, {"exhaust-humidity-ratio", "0.16 kg/kg"}, {"supply-humidity-ratio", "0.01 kg/kg"}, {"leak-humidity-ratio", "0.01 kg/kg"}, {"supply-share", "50 %"}}, "exhaust", 60.84, 0.16},
	} {
		c, _ := catalogue.Find(test.calculation)
		s := c.NewSheet()
		if s.Picture() != nil {
			t.Errorf("%s: a picture before the run", test.calculation)
		}
		for _, in := range test.inputs {
			if err := s.Set(in[0], in[1]); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		found := false
		p := s.Picture()
		for _, m := range p.Marks {
			if m.Label == test.mark {
				found = math.Abs(m.X-test.x) < 0.01 && math.Abs(m.Y-test.y) < 1e-9
			}
		}
		if !found {
			t.Errorf("%s: marks %+v, want %q at %v, %v", test.calculation, p.Marks, test.mark, test.x, test.y)
		}
		for _, curve := range p.Curves {
			if len(curve.X) != len(curve.Y) || len(curve.X) == 0 {
				t.Errorf("%s: curve %q of %d and %d numbers", test.calculation, curve.Label, len(curve.X), len(curve.Y))
			}
		}
	}
}

// picture runs a calculation and draws it.
func picture(t *testing.T, calculation string, inputs ...string) *calc.Picture {
	t.Helper()
	c, _ := catalogue.Find(calculation)
	s := c.NewSheet()
	for _, text := range inputs {
		name, value, _ := strings.Cut(text, "=")
		if err := s.Set(name, value); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	return s.Picture()
}

// Each curve of humid air is of one relative humidity, and begins at freezing; that of
// saturation alone is heavy. What is marked lies on the chart, its dew point and its
// wet bulb on saturation, joined to it by a dashed line each.
func TestAirOnItsChart(t *testing.T) {
	for _, test := range []struct{ temperature, ratio string }{{"60 degC", "0.02 kg/kg"}, {"90 degC", "0.4 kg/kg"}} {
		p := picture(t, "humid-air", "temperature="+test.temperature, "humidity-ratio="+test.ratio)
		var humidities []string
		dashed := 0
		for _, c := range p.Curves {
			if c.Dashed {
				dashed++
				continue
			}
			humidities = append(humidities, c.Label)
			if c.Light == (c.Label == "100 %") || c.X[0] != 0 || len(c.X) < 20 {
				t.Errorf("%s: light is %v, %d points from %v", c.Label, c.Light, len(c.X), c.X[0])
			}
			for i := range c.X {
				air, err := water.AirWithRatio(paperprop.Celsius(c.X[i]), paperprop.HumidityRatio(c.Y[i]), paperprop.BarAbsolute*1.01325)
				if err != nil {
					t.Fatal(err)
				}
				if got := fmt.Sprintf("%.0f %%", 100*float64(air.RelativeHumidity())); got != strings.TrimSuffix(c.Label, " %")+" %" || c.X[i] > p.X.To*1.0001 || c.Y[i] > p.Y.To {
					t.Errorf("%s: %s at %v, %v", c.Label, got, c.X[i], c.Y[i])
				}
			}
		}
		if got := strings.Join(humidities, ", "); got != "20, 40, 60, 80, 100 %" || dashed != 2 || len(p.Marks) != 3 {
			t.Errorf("curves %s and %d dashed, marks %v", got, dashed, p.Marks)
		}
		for _, m := range p.Marks {
			if !(m.X < p.X.To && m.Y < p.Y.To && m.X > p.X.To/4 && m.Y > p.Y.To/4) {
				t.Errorf("%s at %v, %v is in a corner of %v by %v", m.Label, m.X, m.Y, p.X.To, p.Y.To)
			}
			if m.Label == "air" {
				continue
			}
			full, err := water.RatioAtDewPoint(paperprop.Celsius(m.X), paperprop.BarAbsolute*1.01325)
			if err != nil || !(math.Abs(float64(full)-m.Y) < 1e-9) {
				t.Errorf("%s at %v, %v, where saturated air has %v: %v", m.Label, m.X, m.Y, full, err)
			}
		}
	}
}

// The curve of dryness goes from that of the web over the mark of each group to the
// dryness out, and rises at each cylinder.
func TestDrynessOverCylinders(t *testing.T) {
	p := picture(t, "dryer-groups", "dryness-in=45 %", "moisture-out=5 %", "gauge-pressure=[0.5 2] bar(g)", "cylinders=[4 6]", "web-temperature=80 degC")
	curve := p.Curves[len(p.Curves)-1]
	if n := len(curve.X); n != 11 || curve.Y[0] != 45 || !(math.Abs(curve.Y[n-1]-95) < 1e-9) || !slices.IsSorted(curve.Y) {
		t.Errorf("the curve is %v", curve.Y)
	}
	for i, at := range []int{4, 10} {
		m, end := p.Marks[i], p.Curves[i]
		if m.X != float64(at) || !(math.Abs(curve.Y[at]-m.Y) < 1e-9) || m.Label != [...]string{"0.5 bar(g)", "2 bar(g)"}[i] {
			t.Errorf("mark %+v, the curve is at %v", m, curve.Y[at])
		}
		if end.X[0] != m.X || end.X[1] != m.X || end.Y[0] != 45 || end.Y[1] != m.Y {
			t.Errorf("a group ends at %v, %v, its mark is %+v", end.X, end.Y, m)
		}
	}
}

// The flows of a hood stand in its title, lest labels so long run over the lines. Its
// exhaust, the wettest air, lies well on the chart.
func TestFlowsOfAHood(t *testing.T) {
	p := picture(t, "hood", "evaporation=15 t/h", "exhaust-humidity-ratio=0.16 kg/kg", "supply-humidity-ratio=0.01 kg/kg", "leak-humidity-ratio=0.01 kg/kg", "supply-share=60 %")
	if want := "air of a hood at its dew points, dry air in t/h: exhaust 100, supply 60, hall 40"; p.Title != want {
		t.Errorf("the title is %q, want %q", p.Title, want)
	}
	if m := p.Marks[0]; !(m.X < p.X.To && m.X > p.X.To/2 && m.Y < p.Y.To && m.Y > p.Y.To/2) {
		t.Errorf("%s at %v, %v is in a corner of %v by %v", m.Label, m.X, m.Y, p.X.To, p.Y.To)
	}
}
