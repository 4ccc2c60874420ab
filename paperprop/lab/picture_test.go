package lab_test

import (
	"math"
	"slices"
	"testing"

	"millmaths.example/paperprop/calc"
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

// drawn is the picture that a tool makes of its inputs.
func drawn(t *testing.T, name, inputs string) *calc.Picture {
	t.Helper()
	answers, err := ask(t, name, inputs)
	if err != nil {
		t.Fatal(err)
	}
	c, _ := find(name)
	return c.(*calc.Tool).Picture(nil, answers)
}

// through says whether a curve goes through points, but for rounding.
func through(c calc.Curve, points ...[2]float64) bool {
	for i, p := range points {
		if len(c.X) != len(points) || len(c.Y) != len(points) || !(math.Abs(c.X[i]-p[0])+math.Abs(c.Y[i]-p[1]) <= 1e-8) {
			return false
		}
	}
	return true
}

// The positions have means of 7.1 % and 7.6 %, all 7.35 %; across the sheet the mean square
// is 0.25 and of the rest 0.01, so that 2 sigma are twice the root of 0.24 over two scans
// (common-practice, by hand).
func TestProfilePicture(t *testing.T) {
	p := drawn(t, "profile", "scan=[7.0 7.4 | 7.2 7.8] %")
	if len(p.Curves) != 4 || p.Y.Label != "mean of the scans [%]" {
		t.Fatalf("%d curves over %q", len(p.Curves), p.Y.Label)
	}
	const sigma = 0.692820323
	for i, y := range []float64{7.35 + sigma, 7.35, 7.35 - sigma} {
		if !through(p.Curves[i], [2]float64{1, y}, [2]float64{2, y}) || p.Curves[i].Dashed != (i != 1) {
			t.Errorf("level %d is %+v, want it at %v", i, p.Curves[i], y)
		}
	}
	if !through(p.Curves[3], [2]float64{1, 7.1}, [2]float64{2, 7.6}) {
		t.Errorf("the profile is %+v", p.Curves[3])
	}
	for _, unit := range []string{"", " 1"} {
		if label := drawn(t, "profile", "scan=[7.0 7.4 | 7.2 7.8]"+unit).Y.Label; label != "mean of the scans" {
			t.Errorf("without a unit the profile is drawn over %q", label)
		}
	}
}

// Means of 20.5 and 23.5 lie their standard deviation over the root of two from that of
// both; squares within are 0.5 and 4.5, pooled 2.5 (common-practice, by hand).
func TestPrecisionPicture(t *testing.T) {
	p := drawn(t, "precision", "result=[20 21 | 22 25] N; factor=2.8")
	if p.X.From != 0 || p.X.To != 3 || len(p.Curves) != 5 || !through(p.Curves[0], [2]float64{0, 0}, [2]float64{3, 0}) {
		t.Fatalf("curves %+v from %v to %v", p.Curves, p.X.From, p.X.To)
	}
	for i, bar := range [][2]float64{{0.9, -0.7071067812}, {1.1, 0.4472135955}, {1.9, 0.7071067812}, {2.1, 1.3416407865}} {
		if c := p.Curves[i+1]; !through(c, [2]float64{bar[0], 0}, bar) || c.Dashed != (i%2 == 1) {
			t.Errorf("bar %d is %+v, want it at %v to %v", i, c, bar[0], bar[1])
		}
	}
	if p := drawn(t, "precision", "result=[20 21 | 22 25 24] N; factor=2.8"); p != nil {
		t.Errorf("drawn without h and k: %+v", p)
	}
}

// What is left out of a file is told, and only that.
func TestNotesOfWhatIsLeftOut(t *testing.T) {
	none := math.NaN()
	for _, test := range []struct {
		name string
		rows [][]float64
		want []string
	}{
		{"profile", [][]float64{{none, 1, 2, 4, none}, {none, 5, 5, 5, none}, {none, 2, 2, 3, none}},
			[]string{"2 of 3 scans used, positions 2 to 4 of 5", "left out, stuck or empty: scan 2"}},
		{"profile", [][]float64{{1, 1, 1}, {1, 2, 4}, {2, 2, 2}}, []string{"1 of 3 scans used, positions 1 to 3 of 3", "left out, stuck or empty: scans 1 3"}},
		{"profile", [][]float64{{1, 2, 4}, {2, 2, 3}}, []string{"2 of 2 scans used, positions 1 to 3 of 3"}},
		{"precision", [][]float64{{1, none, 2}, {none, 3, none}, {4, 5}},
			[]string{"row 1: 2 results, 1 missing and left out", "row 2: 1 result, 2 missing and left out"}},
	} {
		c, _ := find(test.name)
		kept, notes, err := c.(*calc.Tool).Clean(test.rows)
		if err != nil || !slices.Equal(notes, test.want) {
			t.Errorf("%s of %v: %q, %v, want %q", test.name, test.rows, notes, err, test.want)
		}
		for _, row := range kept {
			if slices.ContainsFunc(row, math.IsNaN) {
				t.Errorf("%s of %v keeps %v", test.name, test.rows, row)
			}
		}
	}
	c, _ := find("profile")
	if kept, notes, err := c.(*calc.Tool).Clean([][]float64{{1, 1, 1}}); err == nil {
		t.Errorf("of a stuck scan alone: %v, %q, want an error", kept, notes)
	}
}
