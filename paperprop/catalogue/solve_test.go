package catalogue_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
)

// Every number that an output depends on is found again from that output; of
// one that no output depends on that is said.
func TestSolvingFindsInputsAgain(t *testing.T) {
	solved := 0
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(3, 4))
		for range 4 {
			s := accepted(t, c, r)
			for _, in := range s.In {
				if in.Shape == calc.One && in.Present() && (in.Given() || in.Need == calc.Defaulted) {
					if findAgain(t, c, s, in) {
						solved++
					}
				}
			}
		}
	})
	if solved < 300 {
		t.Errorf("%d inputs were found again, want 300 or more", solved)
	}
}

// accepted returns a sheet that has run on random inputs.
func accepted(t *testing.T, c calc.Calculation, r *rand.Rand) *calc.Sheet {
	t.Helper()
	for range 2000 {
		s := c.NewSheet()
		randomInputs(r, s)
		if s.Run() == nil {
			return s
		}
	}
	t.Fatal("no random inputs are taken")
	return nil
}

// copyBut is a sheet with the same inputs but one.
func copyBut(c calc.Calculation, s *calc.Sheet, but *calc.Cell) *calc.Sheet {
	other := c.NewSheet()
	for i, in := range s.In {
		switch {
		case !in.Given() || in == but:
		case in.Shape == calc.Word:
			other.In[i].PutWord(in.Word())
		case in.Shape == calc.List:
			other.In[i].PutList(in.Numbers())
		default:
			other.In[i].Put(in.Number())
		}
	}
	return other
}

// depending returns an output that moves with the input.
func depending(c calc.Calculation, s *calc.Sheet, in *calc.Cell) *calc.Cell {
	for _, factor := range []float64{1.001, 0.999, 1.1, 0.9} {
		moved := copyBut(c, s, in)
		x := in.Number() * factor
		if x == 0 {
			x = factor * 1e-3
		}
		if in.Whole {
			x = in.Number() + math.Copysign(1, factor-1)
		}
		to, _ := moved.Input(in.Name)
		to.Put(x)
		if moved.Run() != nil {
			continue
		}
		for i, out := range s.Out {
			if _, both := s.Input(out.Name); both || out.Shape != calc.One || !out.Present() || !moved.Out[i].Present() {
				continue
			}
			if a, b := out.Number(), moved.Out[i].Number(); !(math.Abs(a-b) <= 1e-7*math.Abs(a)) {
				return out
			}
		}
	}
	return nil
}

func findAgain(t *testing.T, c calc.Calculation, s *calc.Sheet, in *calc.Cell) bool {
	t.Helper()
	if notFound(c.ID() + " " + in.Name) {
		return false
	}
	out := depending(c, s, in)
	ask := copyBut(c, s, in)
	if err := ask.Set(in.Name, "?"); err != nil {
		t.Fatal(err)
	}
	if out == nil {
		if isLabel(c.ID() + " " + in.Name) {
			expectFlat(t, ask, in)
		}
		return false // level here, but perhaps not elsewhere
	}
	if err := ask.Set(out.Name, out.Full()); err != nil {
		t.Fatal(err)
	}
	if err := ask.Run(); err != nil {
		t.Errorf("%s = %s gives %s = %s; asked back: %v", in.Name, in.Full(), out.Name, out.Full(), err)
		return false
	}
	for _, root := range ask.Roots {
		near := 1e-6 * max(math.Abs(in.Number()), 1e-9)
		if in.Number() >= root.Low-near && in.Number() <= root.High+near {
			return true
		}
	}
	var roots []string
	for _, root := range ask.Roots {
		roots = append(roots, root.People())
	}
	t.Errorf("%s = %s gives %s = %s; asked back: %s", in.Name, in.Full(), out.Name, out.Full(), strings.Join(roots, ", "))
	return false
}

// expectFlat gives each output in turn: none finds the input.
func expectFlat(t *testing.T, ask *calc.Sheet, in *calc.Cell) {
	t.Helper()
	for _, out := range ask.Out {
		if out.Shape != calc.One || out.Kind == nil {
			continue
		}
		if err := ask.Set(out.Name, out.Kind.Format(out.Unit.From(1), out.Unit)); err != nil {
			t.Fatal(err)
		}
		err := ask.Run()
		var none *calc.NoRootError
		if err == nil || errors.As(err, &none) && !none.Flat {
			t.Errorf("%s moves no output, but solving for it from %s says %v", in.Name, out.Name, err)
		}
		return
	}
}

// Where the sign changes past a pole there is no root.
func TestNoRootPastAPole(t *testing.T) {
	for _, test := range []struct{ calculation, inputs, want string }{
		{"retention", "headbox-consistency=0.8 %; first-pass-retention=-5 %", "no tray-consistency between 0 % and 100 % gives first-pass-retention -5 %"},
		{"evaporation", "moisture-out=8 %; paper-flow=20 t/h; evaporation=-3 t/h", "no dryness-in between "},
		{"air-dry", "mass=25 t; air-dry-mass=30 t", "no dryness between 0 % and 100 % gives air-dry-mass 30 t"},
		{"drying-rate", "drying-rate=22 kg/(h m2); evaporation=19.4 t/h; diameter=1.5 m; sheet-width=5.2 m", "no whole cylinders gives drying-rate 22 kg/(h m2): the answer lies between 35 and 36"},
		{"cobb", "mass-in=1 g; mass-out=2 g; cobb=50 g/m2; time=?", "cobb does not depend on time"},
		{"dilution", "consistency-in=4 %; consistency-out=1 %; water-flow=1 t/h; dry-flow-out=1 t/h", "water-flow and dry-flow-out are both outputs: give one to solve for an input"},
		{"dilution", "water-flow=1 t/h; consistency-out=1 %", "mass-flow and consistency-in are left out, one output gives only one of them"},
		{"dilution", "mass-flow=1 t/h; consistency-in=4 %; consistency-out=1 %; water-flow=1 t/h", "water-flow is an output and no required input is left out: leave one out, or give the one asked for as ?"},
	} {
		err := runRow(test.calculation, test.inputs)
		if err == nil || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%s %s: %v, want %s", test.calculation, test.inputs, err, test.want)
		}
	}
}

func runRow(calculation, inputs string) error {
	s := sheetOf(calculation)
	if err := s.SetText(inputs); err != nil {
		return err
	}
	return s.Run()
}
