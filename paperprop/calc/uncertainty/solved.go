package uncertainty

import (
	"errors"
	"math"
)

// An Implicit is a function with an unknown beside its inputs, from which the unknown was
// found: one of its results was given.
type Implicit struct {
	// At returns the results with each input i moved by t[i] standard uncertainties and the
	// unknown at x.
	At      func(t []float64, x float64) ([]float64, error)
	Root    float64   // the unknown, with the inputs at rest
	Target  int       // the result that was given,
	Value   float64   // its value there,
	Slope   float64   // and how it moves with the unknown
	Moves   []float64 // of the unknown to first order, by input; one left out is zero
	Targets []float64 // of the given result, likewise: zero but for its own uncertainty
}

// errUnsolved reports inputs for which no unknown near the root gives the result.
var errUnsolved = errors.New("nothing near the value found gives the result")

// Limits of the search for the unknown. Chosen here.
const (
	mostSteps = 40
	nearby    = 1e-9            // relative, to the result and to the unknown
	leftover  = Negligible / 10 // of the result, lest it seem uncertain
)

// Function returns the function of the inputs alone: for those moved, the unknown is found
// anew, from where first order has it. It is the last of the results.
func (m Implicit) Function() Function {
	return func(t []float64) ([]float64, error) {
		x, want := m.Root, m.Value
		for i, by := range t[:min(len(t), len(m.Moves))] {
			x += by * m.Moves[i]
		}
		for i, by := range t[:min(len(t), len(m.Targets))] {
			want += by * m.Targets[i]
		}
		y, err := m.At(t, x)
		if err != nil {
			x = m.Root
			y, err = m.At(t, x)
		}
		if err != nil {
			return nil, err
		}
		if m.Target < 0 || m.Target >= len(y) {
			return nil, ErrResults
		}
		return m.find(t, x, want, y)
	}
}

// find makes secant steps, and shorter ones where those lead no nearer.
func (m Implicit) find(t []float64, x, want float64, y []float64) ([]float64, error) {
	slope := m.Slope
	miss := want - y[m.Target]
	step := miss / slope
	y = append([]float64(nil), y...)
	for range mostSteps {
		if math.Abs(miss) <= nearby*math.Abs(want) || math.Abs(miss/slope) <= nearby*math.Abs(x) {
			if math.Abs(miss) > leftover*math.Abs(want) { // one step more makes it so small
				if next, err := m.At(t, x+step); err == nil && len(next) == len(y) && math.Abs(want-next[m.Target]) < math.Abs(miss) {
					x, y = x+step, append(y[:0], next...)
				}
			}
			return append(y, x), nil
		}
		next, err := m.At(t, x+step)
		if err != nil || len(next) != len(y) || !(math.Abs(want-next[m.Target]) < math.Abs(miss)) {
			step /= 2
			continue
		}
		if moved := next[m.Target] - y[m.Target]; moved != 0 {
			slope = moved / step
		}
		x += step
		y = append(y[:0], next...)
		miss = want - y[m.Target]
		step = miss / slope
	}
	return nil, errUnsolved
}
