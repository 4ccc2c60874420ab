package calc

import (
	"cmp"
	"math"
	"slices"
)

// An Influence says how strongly an input moves an output at the given values.
type Influence struct {
	Input      *Cell
	Elasticity float64 // per cent of the output per per cent of the input, in the units to print in
}

// Influences returns the effect of each given input on an output, the largest first. It
// covers inputs that are one quantity other than zero, and needs an output that is one
// number. The sheet must have run; its results are unchanged afterwards.
func (s *Sheet) Influences(output *Cell) []Influence {
	if !s.ran || len(s.Roots) > 0 || output.Shape != One || !output.Present() || output.Printed() == 0 {
		return nil
	}
	var found []Influence
	for _, c := range s.movable() {
		if e := s.elasticity(output, c); math.Abs(e) > 1e-9 && !math.IsInf(e, 0) {
			found = append(found, Influence{c, e})
		}
	}
	slices.SortStableFunc(found, func(a, b Influence) int {
		return cmp.Compare(math.Abs(b.Elasticity), math.Abs(a.Elasticity))
	})
	return found
}

// movable returns the given inputs that are one quantity and can change a little.
func (s *Sheet) movable() []*Cell {
	var cells []*Cell
	for _, c := range s.In {
		if c.given && c.Shape == One && c.Kind != nil && c.Present() && !c.Whole && c.Printed() != 0 {
			cells = append(cells, c)
		}
	}
	return cells
}

// elasticity moves an input by a thousandth to either side.
func (s *Sheet) elasticity(output, c *Cell) float64 {
	const step = 1e-3
	x, y := c.Printed(), output.Printed()
	up, upErr := s.outputAt(output, c, x*(1+step))
	down, downErr := s.outputAt(output, c, x*(1-step))
	if upErr != nil || downErr != nil {
		return math.Inf(1)
	}
	return (up - down) / (2 * step * y)
}

// outputAt computes an output with an input at x, in the input's unit to print in, and
// leaves the sheet unchanged.
func (s *Sheet) outputAt(output, c *Cell, x float64) (float64, error) {
	was := c.Number()
	defer func() {
		c.put(was)
		s.evaluate() // restores the results
	}()
	c.put(c.Unit.From(x))
	if err := c.Check(); err != nil {
		return 0, err
	}
	if err := s.evaluate(); err != nil {
		return 0, err
	}
	if !output.present() {
		return 0, ErrNotRun
	}
	return output.Printed(), nil
}

// Telling returns the input whose curve is most informative for an output, with a range
// around its value: the one that is Varied, else, among those of about the largest
// influence, the one with the most bent curve. It returns nil if no input stands out
// and all curves are straight, or if nothing moves the output.
func (s *Sheet) Telling(output *Cell) (*Cell, Range) {
	const alike, straight = 0.8, 0.02
	all := s.Influences(output)
	var best *Cell
	var bestRange Range
	bend := straight
	first := 0 // number of inputs of about the largest influence
	for _, in := range all {
		if in.Input.Varied {
			return in.Input, in.Input.about()
		}
	}
	for _, in := range all {
		if math.Abs(in.Elasticity) < alike*math.Abs(all[0].Elasticity) {
			break
		}
		first++
		r := in.Input.about()
		if b := s.bend(output, in.Input, r); b > bend {
			best, bestRange, bend = in.Input, r, b
		}
	}
	if best == nil && first == 1 && len(all) > 1 {
		return all[0].Input, all[0].Input.about()
	}
	return best, bestRange
}

// about returns a range from about half of the value to half as much again, within the
// range of the input.
func (c *Cell) about() Range {
	const steps = 120
	x := c.Printed()
	low, high := toDigits(x*0.5, 2), toDigits(x*1.5, 2)
	if x < 0 {
		low, high = high, low
	}
	// An excluded bound is avoided by a hundredth of the way.
	if end := c.Unit.To(c.Low); end > low || end == low && c.AboveLow {
		low = end
		if c.AboveLow {
			low += (x - end) / 100
		}
	}
	if end := c.Unit.To(c.High); end < high || end == high && c.BelowHigh {
		high = end
		if c.BelowHigh {
			high -= (end - x) / 100
		}
	}
	r := Range{Unit: c.Unit}
	for i := range steps + 1 {
		r.Values = append(r.Values, c.Unit.From(toDigits(low+(high-low)*float64(i)/steps, 15)))
	}
	return r
}

// bend returns how far a curve departs from the straight line between its ends,
// relative to its height; 0 is straight. Refused parts of the range are left out.
func (s *Sheet) bend(output, c *Cell, r Range) float64 {
	var xs, ys []float64
	for i := 0; i < len(r.Values); i += 10 {
		x := r.Unit.To(r.Values[i])
		if y, err := s.outputAt(output, c, x); err == nil {
			xs, ys = append(xs, x), append(ys, y)
		}
	}
	if len(xs) < 5 {
		return 0
	}
	height, away := slices.Max(ys)-slices.Min(ys), 0.0
	n := len(xs) - 1
	for i := range xs {
		chord := ys[0] + (ys[n]-ys[0])*(xs[i]-xs[0])/(xs[n]-xs[0])
		away = max(away, math.Abs(ys[i]-chord))
	}
	if height <= 1e-9*math.Abs(ys[0]) {
		return 0
	}
	return away / height
}
