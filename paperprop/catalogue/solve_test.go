package catalogue_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop/calc"
)

// Any input is found again from an output that depends on it: the inverse of
// the method is the method itself, so this check needs no source.
func TestSolveFindsTheInput(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(3, 4))
		s := c.NewSheet()
		solved := map[string]int{}
		for accepted, tries := 0, 0; accepted < 6 && tries < 4000; tries++ {
			s.Reset()
			randomInputs(r, s)
			if s.Run() != nil {
				continue
			}
			accepted++
			for _, in := range s.In {
				if in.Shape != calc.One || !in.Given() || in.Relation != "" {
					continue
				}
				for _, out := range s.Out {
					if out.Shape == calc.One && out.Kind != nil && out.Present() && depends(s, in, out) {
						solveBack(t, s, in, out)
						solved[in.Name]++
					}
				}
			}
			if t.Failed() {
				return
			}
		}
		for _, f := range c.Info().In {
			if f.Shape == calc.One && f.Kind != nil && solved[f.Name] == 0 && !idle[c.ID()+" "+f.Name] {
				t.Errorf("%s was never solved for", f.Name)
			}
		}
	})
}

// idle are the inputs that no numeric output of quantity depends on, or only
// where a warning is all that they change.
var idle = map[string]bool{}

// depends says whether an output moves with an input that is changed a little.
func depends(s *calc.Sheet, in, out *calc.Cell) bool {
	before, y := in.Number(), out.Number()
	defer func() { in.Put(before); s.Run() }()
	step := 1e-3
	if in.Whole {
		step = 1 / before
	}
	for _, factor := range []float64{1 + step, 1 - step} {
		in.Put(before * factor)
		if s.Run() == nil && out.Present() && math.Abs(out.Number()-y) > 1e-7*math.Abs(y) {
			return true
		}
	}
	return false
}

// asked is a sheet like s in which in is to be found from what out came to.
func asked(t *testing.T, s *calc.Sheet, in, out *calc.Cell) *calc.Sheet {
	t.Helper()
	other := copyInputs(t, s)
	if err := other.Set(in.Name, "?"); err != nil {
		t.Fatal(err)
	}
	target, _ := other.Output(out.Name)
	if err := target.Set(out.Kind.Format(out.Number(), out.Kind.Canonical())); err != nil {
		t.Fatal(err)
	}
	return other
}

// copyInputs gives a new sheet what was given to s.
func copyInputs(t *testing.T, s *calc.Sheet) *calc.Sheet {
	t.Helper()
	c, _ := find(s)
	other := c.NewSheet()
	for i, in := range s.In {
		switch to := other.In[i]; {
		case !in.Given():
		case in.Shape == calc.Word:
			to.PutWord(in.Word())
		case in.Shape == calc.List:
			to.PutList(in.Numbers())
		default:
			to.Put(in.Number())
		}
	}
	return other
}

func solveBack(t *testing.T, s *calc.Sheet, in, out *calc.Cell) {
	t.Helper()
	other := asked(t, s, in, out)
	if err := other.Run(); err != nil {
		t.Errorf("%s from %s: %v\n%s", in.Name, out.Full(), err, given(s))
		return
	}
	want, found := in.Number(), false
	for _, root := range other.Roots {
		slack := 1e-6 * math.Abs(want)
		found = found || root.Low-slack <= want && want <= root.High+slack
		for _, x := range []float64{root.Low, root.High} {
			again := copyInputs(t, s)
			cell, _ := again.Input(in.Name)
			cell.Put(x)
			if err := again.Run(); err != nil {
				t.Errorf("%s: root %v is refused: %v", in.Name, x, err)
				continue
			}
			y, _ := again.Output(out.Name)
			if d := math.Abs(y.Number() - out.Number()); d > 1e-9*max(math.Abs(out.Number()), 1e-6) {
				t.Errorf("%s: root %v gives %s, want %s", in.Name, x, y.Full(), out.Full())
			}
		}
	}
	if !found {
		t.Errorf("%s = %s from %s: not among the roots %v\n%s", in.Name, in.Full(), out.Full(), people(other.Roots), given(s))
	}
}

func people(roots []calc.Root) (texts []string) {
	for _, r := range roots {
		texts = append(texts, r.People())
	}
	return texts
}

// given writes the inputs of a sheet for a failure.
func given(s *calc.Sheet) (text string) {
	for _, c := range s.In {
		if c.Given() {
			text += c.Name + "=" + c.Full() + "; "
		}
	}
	return text
}

// An output that does not move with the unknown says so, and is not searched
// for in vain.
func TestSolveFlat(t *testing.T) {
	for _, test := range []struct{ name, inputs, kind, source string }{
		{"dosage", "dosage=6.5 kg/t; dry-flow=21 t/h; active-share=?; active-flow=136.5 kg/h", "common-practice", "q_a = z·q_d holds no share"},
		{"cobb", "wet-mass=5.2 g; dry-mass=4.1 g; area=100 cm2; time=?; cobb=110 g/m2", "published", "ISO 535:2023: the time is named, not reckoned with"},
	} {
		_, err := solve(t, test.name, test.inputs)
		var none *calc.NoRootError
		if !errors.As(err, &none) || !none.Flat {
			t.Errorf("%s %s: %v, want that nothing depends on the unknown (%s: %s)", test.name, test.inputs, err, test.kind, test.source)
		}
	}
}

// Past a pole the sign of a difference changes though there is no root.
func TestSolveNoRootPastPole(t *testing.T) {
	s, err := solve(t, "dilution", "mass-flow=300 t/h; consistency-in=4.6 %; water-consistency=0.2 %; water-flow=-1000 t/h")
	if err == nil {
		t.Errorf("a water-flow of -1000 t/h gives %v, want a refusal: c_out is refused at and below c_w", people(s.Roots))
	}
	if _, err := solve(t, "dilution", "mass-flow=300 t/h; consistency-in=4.6 %; water-flow=1e15 t/h"); err == nil {
		t.Error("a water-flow of 1e15 t/h gives a root, want none: it is too thin to be searched for")
	}
}

func solve(t *testing.T, name, inputs string) (*calc.Sheet, error) {
	t.Helper()
	c := named(t, name)
	s := c.NewSheet()
	pairs, err := calc.ParsePairs(inputs)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range pairs {
		if err := s.Set(p.Name, p.Text); err != nil {
			t.Fatal(err)
		}
	}
	return s, s.Run()
}
