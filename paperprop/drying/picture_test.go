package drying_test

import (
	"math"
	"testing"

	"millmaths.example/paperprop/catalogue"
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
		{"hood", [][2]string{{"evaporation", "15 t/h"}, {"exhaust-humidity-ratio", "0.16 kg/kg"}, {"supply-humidity-ratio", "0.01 kg/kg"}, {"leak-humidity-ratio", "0.01 kg/kg"}, {"supply-share", "50 %"}}, "exhaust 100 t/h", 60.84, 0.16},
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
