package catalogue_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop/calc"
)

// From each output each input is asked back: whatever is said to be a root
// gives that output again, at both ends of an interval, and a search that finds
// nothing says so in no other way.
func TestRootsGiveTheOutputBack(t *testing.T) {
	roots := 0
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(13, 14))
		for range 2 {
			s := accepted(t, c, r)
			for _, in := range s.In {
				if in.Shape != calc.One || in.Kind == nil || !in.Given() {
					continue
				}
				for _, out := range s.Out {
					if _, both := s.Input(out.Name); !both && out.Shape == calc.One && out.Kind != nil && out.Present() {
						roots += rootsGiveBack(t, c, s, in, out)
					}
				}
			}
		}
	})
	if roots < 400 {
		t.Errorf("%d roots were tried, want 400 or more", roots)
	}
}

func rootsGiveBack(t *testing.T, c calc.Calculation, s *calc.Sheet, in, out *calc.Cell) (tried int) {
	t.Helper()
	ask := copyBut(c, s, in)
	if err := ask.Set(in.Name, "?"); err != nil {
		t.Fatal(err)
	}
	if err := ask.Set(out.Name, out.Full()); err != nil {
		t.Fatal(err)
	}
	if err := ask.Run(); err != nil {
		var none *calc.NoRootError
		if !errors.As(err, &none) {
			t.Errorf("%s from %s = %s: %v", in.Name, out.Name, out.Full(), err)
		}
		return 0
	}
	for _, root := range ask.Roots {
		for _, x := range []float64{root.Low, root.High} {
			again := copyBut(c, s, in)
			cell, _ := again.Input(in.Name)
			cell.Put(x)
			if err := again.Run(); err != nil {
				t.Errorf("%s from %s = %s: root %v is refused: %v", in.Name, out.Name, out.Full(), x, err)
				continue
			}
			back, _ := again.Output(out.Name)
			if want := out.Number(); !back.Present() || !(math.Abs(back.Number()-want) <= 1e-9*max(math.Abs(want), 1e-6)) {
				t.Errorf("%s from %s = %s: root %v gives %s", in.Name, out.Name, out.Full(), x, back.Full())
			}
			tried++
		}
	}
	return tried
}

// The values of an input that is a pure number have no unit in JSON, as all pure numbers.
func TestRootsWithoutUnit(t *testing.T) {
	s := sheetOf("cielab")
	for name, text := range map[string]string{
		"chroma": "25.696128106305371", "y-tristimulus": "1.8271637020081541", "z-tristimulus": "0",
		"white-x": "93.64381", "white-y": "96.64003", "white-z": "100.1492",
	} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	data, err := s.MarshalJSON()
	var answer struct{ Roots []map[string]any }
	if err != nil || json.Unmarshal(data, &answer) != nil || len(answer.Roots) != 2 {
		t.Fatalf("%s, %v, want two values", data, err)
	}
	for _, r := range answer.Roots {
		if _, told := r["unit"]; told || r["input"] != "x-tristimulus" {
			t.Errorf("%v, want an x-tristimulus without a unit", r)
		}
	}
}
