package calc

import "slices"

// Surplus returns the output from which Run solves although it is given as an input: of
// length, diameter and thickness of a reel two are inputs, and a third gives the core. It
// is the last input of a choice that has one too many, if one input is left to solve for
// and the result of the same name repeats it; nil if there is none. The function given
// reports what is, or will be, given.
func (s *Sheet) Surplus(given func(*Cell) bool) *Cell {
	if len(s.choices) == 0 || slices.ContainsFunc(s.Out, given) {
		return nil
	}
	if asked, missing := s.open(given); len(asked)+len(missing) != 1 {
		return nil
	}
	for _, choice := range s.choices {
		n, last := 0, (*Cell)(nil)
		for _, names := range choice.Of {
			in, out, _ := s.named(names[0])
			if !given(in) {
				continue
			}
			if n++; out != nil && len(names) == 1 && in.Kind != nil && in.Kind == out.Kind {
				last = out
			}
		}
		if n == choice.N+1 {
			return last
		}
	}
	return nil
}

// solveFromSurplus solves from an output that was given as an input.
func (s *Sheet) solveFromSurplus(target *Cell) error {
	in, _ := s.Input(target.Name)
	if err := in.Check(); err != nil {
		return err
	}
	target.want = in.Number()
	in.pass(target)
	if target.text == "" {
		target.text = target.people(target.want)
	}
	s.turned, s.inverse = target, true
	return s.solve(target)
}

// turnBack undoes solveFromSurplus before another run, which may have other inputs.
func (s *Sheet) turnBack() {
	target := s.turned
	s.turned = nil
	in, _ := s.Input(target.Name)
	if in.given {
		target.Forget() // given anew
		return
	}
	target.pass(in)
	in.put(target.want)
	in.plain = false // its text may be of our making
}

// pass moves what was given of a cell to another, except for the number.
func (c *Cell) pass(to *Cell) {
	to.given, to.text, to.unit = true, c.text, c.unit
	to.uncertain, c.uncertain = c.uncertain, to.uncertain
	c.Forget()
}
