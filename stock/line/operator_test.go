package line_test

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/stock/line"
)

// A save-all that lives on what runs over stands still when nothing does, and the tank
// takes its make-up.
func TestNothingRunsOver(t *testing.T) {
	for _, test := range []struct {
		old, new string
		still    bool
	}{
		{`flow = "20 t/h"`, `flow = "0.1 t/h"`, false},
		{`flow = "5 t/h"`, `flow = "300 t/h"`, true},
	} {
		text := strings.Replace(twoPly, test.old, test.new, 1)
		if text == twoPly {
			t.Fatalf("%q is not in the line", test.old)
		}
		a, err := answer(text)
		if err != nil {
			t.Errorf("%s: %v", test.new, err)
			continue
		}
		over, _ := a.Value("overflow of the white water.total")
		filtrate, _ := a.Value("filtrate of the save-all.total")
		made, _ := a.Value("make-up of the white water.total")
		if still := over == 0 && filtrate == 0 && made > 0; still != test.still || a.Closure > 1e-9 {
			t.Errorf("%s: %v t/h run over, %v t/h leave the save-all, %v t/h are made up, closed to %v", test.new, over, filtrate, made, a.Closure)
		}
	}
}

// A thickener's solution is worked from its figures, not from its own result; and
// what follows the water on a wire too.
func TestStepsFromFigures(t *testing.T) {
	a := solve(t, twoPly)
	for place, want := range map[string]string{"thickener": "l = s*(1 - c)/(c - x)", "save-all": "l = s*(1 - c)/(c - x)", "bottom wire": "x = D/(D + W)"} {
		w, err := a.Steps(place)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(w.Steps, func(s line.Step) bool { return s.Formula == want }) {
			t.Errorf("%s: no step %q in %v", place, want, w.Steps)
		}
	}
}

// A step is shown in its unit, to six digits and to all.
func TestStepsShown(t *testing.T) {
	a := solve(t, read(t, quillbeck))
	w, err := a.Steps("white water")
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(w.Steps, func(s line.Step) bool { return s.Formula == "x1 = d1/q" })
	if i < 0 {
		t.Fatalf("no share of fibre in %v", w.Steps)
	}
	full, err := strconv.ParseFloat(strings.TrimSuffix(w.Steps[i].Full, " %"), 64)
	if got := w.Steps[i]; got.Result != "0.0716436 %" || err != nil || full != 100*got.Value {
		t.Errorf("%s is shown as %s and %s", got.Formula, got.Result, got.Full)
	}
}

// Water without a component has a volume though the density of that is not told.
func TestVolumeOfWater(t *testing.T) {
	a := solve(t, strings.Replace(twoPly, `density = "1500 kg/m3"`, "", 1))
	for _, s := range a.Streams {
		if got, want := s.Volume > 0, s.Name == "water of the press"; got != want {
			t.Errorf("%s has %v of volume", s.Name, s.Volume)
		}
	}
	if _, err := a.JSON(nil); err != nil {
		t.Error(err)
	}
}

// Where a consistency counts suspended matter alone, so does what the solution of a
// pulper takes off with its rejects.
func TestStepsSuspended(t *testing.T) {
	a := solve(t, strings.Replace(twoPly, "[size]", "[conventions]\nconsistency = \"suspended matter\"\n[size]", 1))
	w, err := a.Steps("brown pulper")
	if err != nil {
		t.Fatal(err)
	}
	for _, step := range w.Steps {
		if !(math.Abs(step.Value-step.Solved) <= 1e-9*math.Abs(step.Solved)) {
			t.Errorf("%s = %g, the line gives %g", step.Formula, step.Value, step.Solved)
		}
	}
}
