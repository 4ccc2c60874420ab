package result_test

import (
	"math"
	"testing"

	"millmaths.example/paperprop/result"
)

// Kind: published. Source: JCGM 100:2008 Annex H.3, full digits as quoted with
// the GTC 1.5.1 documentation.
func TestFitLine(t *testing.T) {
	x := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	y := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	l, ok := result.FitLine(x, y)
	if !ok {
		t.Fatal("no line")
	}
	for _, test := range []struct {
		what      string
		got, want float64
	}{
		{"intercept at 20", l.At(20), -0.17120379},
		{"its uncertainty", l.Uncertainty(20), 0.0028775978},
		{"slope", l.Slope, 0.0021826977},
		{"its uncertainty", l.SlopeUncertainty(), 0.00066793877},
		{"correlation", l.Correlation(20), -0.9304296},
		{"at 30", l.At(30), -0.14937681},
		{"uncertainty at 30", l.Uncertainty(30), 0.0041385958},
		{"residual deviation", l.Deviation, 0.00349756396351},
	} {
		if !(math.Abs(test.got/test.want-1) <= 1e-7) {
			t.Errorf("%s is %.9g, want %.9g", test.what, test.got, test.want)
		}
	}
}

// Far from zero the line is as good as near it. Kind: common-practice: the
// points moved by a whole number.
func TestFitLineFarFromZero(t *testing.T) {
	x, y := []float64{1, 2, 3, 4, 6}, []float64{2, 3, 5, 4, 7}
	near, _ := result.FitLine(x, y)
	for i := range x {
		x[i], y[i] = x[i]+1e9, y[i]-1e9
	}
	far, _ := result.FitLine(x, y)
	if !(math.Abs(far.Slope/near.Slope-1) <= 1e-14) || !(math.Abs(far.Deviation/near.Deviation-1) <= 1e-13) {
		t.Errorf("slope %v, deviation %v, want %v, %v", far.Slope, far.Deviation, near.Slope, near.Deviation)
	}
	// The mean of these is no float64.
	x, y = []float64{1e16, 1e16 + 2, 1e16 + 4, 1e16 + 6}, []float64{0, 1, 2, 3}
	if odd, ok := result.FitLine(x, y); !ok || !(math.Abs(odd.Slope-0.5) <= 1e-15) {
		t.Errorf("slope %v, want 0.5", odd.Slope)
	}
	if three, ok := result.FitLine([]float64{1, 2, 3}, []float64{2, 4, 6}); !ok || three.Slope != 2 {
		t.Errorf("three points give %+v, want the slope 2", three)
	}
	for _, bad := range [][2][]float64{{{1, 2}, {1, 2}}, {{2, 2, 2}, {1, 2, 3}}, {{1, 2, 3}, {1, 2}},
		{{1, math.NaN(), 3}, {1, 2, 3}}, {{1, 2, 3}, {1, math.NaN(), 3}}, {{1, 2, math.Inf(1)}, {1, 2, 3}}, {{1, 2, 3}, {1, 2, math.Inf(-1)}}} {
		if l, ok := result.FitLine(bad[0], bad[1]); ok {
			t.Errorf("FitLine(%v, %v) = %+v, want none", bad[0], bad[1], l)
		}
	}
}

// Points on a line, as far as float64s tell, leave nothing beside it; a last digit does.
// How far they tell is a matter of the largest number, be it an x or a y.
func TestStraightPoints(t *testing.T) {
	for _, test := range []struct {
		x, y     []float64
		straight bool
	}{
		{[]float64{1, 2, 3, 4}, []float64{0.1, 0.2, 0.3, 0.4}, true},
		{[]float64{1, 2, 3, 4}, []float64{0.1, 0.2, 0.3, 0.40000000001}, false},
		{[]float64{1, 2, 3, 4}, []float64{1e6 + 0.1, 1e6 + 0.2, 1e6 + 0.3, 1e6 + 0.4}, true},
		{[]float64{1e6 + 0.1, 1e6 + 0.2, 1e6 + 0.3, 1e6 + 0.4}, []float64{0.1, 0.2, 0.3, 0.4}, true},
		{[]float64{1e6 + 0.1, 1e6 + 0.2, 1e6 + 0.3, 1e6 + 0.4}, []float64{0.1, 0.2, 0.3, 0.400001}, false},
	} {
		l, ok := result.FitLine(test.x, test.y)
		if !ok || (l.Deviation == 0) != test.straight {
			t.Errorf("from %v to %v: deviation %v, %v, want none: %v", test.x, test.y, l.Deviation, ok, test.straight)
		}
	}
}
