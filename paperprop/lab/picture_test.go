package lab_test

import (
	"math"
	"slices"
	"testing"

	"millmaths.example/paperprop/catalogue"
)

// Each reading is drawn at its number, between level lines at the limits and the mean
// that were computed; what lies outside is marked where it is drawn.
func TestControlChartPicture(t *testing.T) {
	c, _ := catalogue.Find("control-chart")
	s := c.NewSheet()
	values := []float64{10, 10.2, 9.9, 10.1, 15, 10, 9.8, 10.1}
	if err := s.Set("value", "[10 10.2 9.9 10.1 15 10 9.8 10.1]"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	p := s.Picture()
	if p.X.From != 0 || p.X.To != 8 || len(p.Curves) != 4 {
		t.Fatalf("%d curves from %v to %v", len(p.Curves), p.X.From, p.X.To)
	}
	for i, name := range []string{"upper-limit", "mean", "lower-limit"} {
		out, _ := s.Output(name)
		if level := p.Curves[i]; !slices.Equal(level.Y, []float64{out.Number(), out.Number()}) || !slices.Equal(level.X, []float64{0, 8}) {
			t.Errorf("%s is drawn from %v at %v, want %v", name, level.X, level.Y, out.Number())
		}
	}
	readings := p.Curves[3]
	if !slices.Equal(readings.X, []float64{1, 2, 3, 4, 5, 6, 7, 8}) || !slices.Equal(readings.Y, values) {
		t.Errorf("readings are drawn at %v, %v", readings.X, readings.Y)
	}
	if len(p.Marks) != 1 || p.Marks[0].Label != "5" || p.Marks[0].X != 5 || !(math.Abs(p.Marks[0].Y-15) < 1e-12) {
		t.Errorf("marks %+v, want reading 5", p.Marks)
	}
}

// The axis of the readings has their unit, where they have one.
func TestControlChartUnit(t *testing.T) {
	c, _ := catalogue.Find("control-chart")
	for text, want := range map[string]string{"[8.0 8.1 8.3] %": "value [%]", "[80.1 81 80.6] g/m2": "value [g/m2]", "[20 21 20.5] degC": "value [degC]", "[8.0 8.1 8.3]": "value"} {
		s := c.NewSheet()
		if err := s.Set("value", text); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		if got := s.Picture().Y.Label; got != want {
			t.Errorf("%s is drawn over %q, want %q", text, got, want)
		}
	}
}
