package catalogue_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop/calc"
)

// Every input is swept in so many steps; a hundred before a release:
//
//	go test ./paperprop/catalogue -run TestSweep -steps 100
var sweepSteps = flag.Int("steps", 12, "steps in which TestSweep goes through the range of an input")

// Every input goes through its range, at three settings of the others. What is
// taken is one stretch without a gap; at each step the method agrees with the
// formula lines, so that it has no jump which they don't have; where there are
// no lines, a result that is no count has no jump at all.
func TestSweep(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		name := c.Info().Name
		r := rand.New(rand.NewPCG(21, 22))
		for setting := range 3 {
			s := c.NewSheet()
			if setting == 0 {
				set(t, s, c.Info().Example)
				if err := s.Run(); err != nil {
					t.Fatal(err)
				}
			} else {
				s = accepted(t, c, r)
			}
			for _, cell := range s.In {
				if cell.Given() && (cell.Shape == calc.One || cell.Shape == calc.List && cell.Present()) {
					sweep(t, s, cell, name+" "+cell.Name)
				}
			}
		}
	})
}

// set gives a sheet inputs as a description writes them.
func set(t *testing.T, s *calc.Sheet, inputs string) {
	t.Helper()
	if err := s.SetText(inputs); err != nil {
		t.Fatal(err)
	}
}

// sweep moves one input, of a list the first member, through its range.
func sweep(t *testing.T, s *calc.Sheet, cell *calc.Cell, name string) {
	before := cell.Numbers()
	defer func() { putFirst(cell, before, before[0]) }()
	var last float64     // the step before, if it was taken
	taken, ended := 0, 0 // stretches begun and ended
	var at []float64
	for k := range *sweepSteps + 1 {
		x := step(cell.Field, before[0], float64(k)/float64(*sweepSteps))
		if cell.Whole {
			x = math.Round(x)
		}
		putFirst(cell, before, x)
		if err := s.Run(); err != nil {
			if taken > ended {
				ended++
			}
			continue
		}
		if taken == ended {
			taken++
			at = append(at, x)
		}
		for _, out := range s.Out {
			for _, y := range out.Numbers() {
				if out.Shape != calc.Word && out.Shape != calc.Text && (math.IsNaN(y) || math.IsInf(y, 0)) {
					t.Errorf("%s = %v: %s is %v", name, x, out.Name, y)
				}
			}
		}
		compareLines(t, s, map[string]int{})
		if byMethod(s.Info().Name) != "" && taken > ended && k > 0 && last < x {
			continuous(t, s, cell, before, last, x, name)
		}
		last = x
	}
	if taken > 1 && !isBroken(name) {
		t.Errorf("%s is taken in %d stretches, from %v: a gap", name, taken, at)
	}
}

// step is a point of a field's range, from 0 at its beginning to 1 at its end. An
// open side goes a thousand times as far as the value that was there, in the
// logarithm.
func step(f *calc.Field, value, part float64) float64 {
	low, high := f.Low, f.High
	size := max(math.Abs(value), 1e-3)
	switch {
	case !math.IsInf(low, 0) && !math.IsInf(high, 0):
		return low + (high-low)*part
	case !math.IsInf(low, 0):
		return low + size*(math.Pow(10, 6*part-3)-1e-3)
	case !math.IsInf(high, 0):
		return high - size*(math.Pow(10, 6*(1-part)-3)-1e-3)
	case part < 0.5:
		return -size * (math.Pow(10, 6*(1-2*part)-3) - 1e-3)
	default:
		return size * (math.Pow(10, 6*(2*part-1)-3) - 1e-3)
	}
}

// putFirst puts a number into a cell, or in place of the first of its list.
func putFirst(cell *calc.Cell, before []float64, x float64) {
	if cell.Shape != calc.List {
		cell.Put(x)
		return
	}
	list := append([]float64{x}, before[1:]...)
	cell.PutList(list)
}

// continuous bisects the step between two values of an input towards the larger
// change of each result: what changes by as much over next to nothing jumps.
func continuous(t *testing.T, s *calc.Sheet, cell *calc.Cell, before []float64, low, high float64, name string) {
	if cell.Whole {
		return
	}
	for i, out := range s.Out {
		if out.Shape != calc.One || out.Stepped || jumps(s.Info().Name+" "+out.Name) {
			continue
		}
		value := func(x float64) float64 {
			putFirst(cell, before, x)
			if s.Run() != nil || !s.Out[i].Present() {
				return math.NaN()
			}
			return s.Out[i].Number()
		}
		a, b := low, high
		ya, yb := value(a), value(b)
		whole := math.Abs(yb - ya)
		for range 40 {
			middle := a + (b-a)/2
			y := value(middle)
			if math.Abs(y-ya) > math.Abs(yb-y) {
				b, yb = middle, y
			} else {
				a, ya = middle, y
			}
		}
		if d := math.Abs(yb - ya); d > 1e-3*whole && d > 1e-6*max(math.Abs(ya), math.Abs(yb)) {
			t.Errorf("%s: %s jumps from %v to %v at %v", name, out.Name, ya, yb, a)
		}
	}
	putFirst(cell, before, high)
	if err := s.Run(); err != nil {
		t.Error(fmt.Errorf("%s: taken before, now %w", name, err))
	}
}
