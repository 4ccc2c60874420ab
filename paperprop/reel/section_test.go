package reel_test

import (
	"math"
	"testing"

	"millmaths.example/paperprop/catalogue"
)

// A section shows six circles around the middle: core, outside, and between them those
// that divide the paper into five rings of equal area. Each is closed, and ends at the
// upper right; the outside alone has a label, core and outside alone are heavy.
func TestSectionOfAReel(t *testing.T) {
	c, _ := catalogue.Find("reel")
	s := c.NewSheet()
	for name, text := range map[string]string{"diameter": "1250 mm", "core-diameter": "100 mm", "reel-thickness": "186 um"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	curves := s.Picture().Curves
	if len(curves) != 6 {
		t.Fatalf("%d circles, want 6", len(curves))
	}
	for i, circle := range curves {
		wanted := math.Sqrt(50*50 + float64(i)/5*(625*625-50*50))
		last, turned := len(circle.X)-1, 0.0
		for j := range circle.X {
			if radius := math.Hypot(circle.X[j], circle.Y[j]); !(math.Abs(radius-wanted) <= 1e-9) {
				t.Fatalf("circle %d has a radius of %v, want %v", i, radius, wanted)
			}
			if j > 0 {
				turned += math.Atan2(circle.X[j-1]*circle.Y[j]-circle.Y[j-1]*circle.X[j], circle.X[j-1]*circle.X[j]+circle.Y[j-1]*circle.Y[j])
			}
		}
		if !(math.Abs(turned-2*math.Pi) <= 1e-9) || !(math.Abs(circle.X[last]-circle.Y[last]) <= 1e-9) || !(circle.X[last] > 0) {
			t.Errorf("circle %d turns by %v rad and ends at %v, %v", i, turned, circle.X[last], circle.Y[last])
		}
		if last < 90 {
			t.Errorf("circle %d has %d corners", i, last)
		}
		if inner := i > 0 && i < 5; circle.Light != inner || circle.Label != [...]string{5: "1250"}[i] {
			t.Errorf("circle %d: light %v, label %q", i, circle.Light, circle.Label)
		}
	}
}
