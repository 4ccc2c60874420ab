package calc

import (
	"errors"
	"fmt"
	"math"

	"millmaths.example/paperprop/calc/formula"
)

// CheckLines returns an error if a formula line gives a result other than the
// calculation: a number that differs by more than 1e-12 of the largest term in it,
// another dimension, or another number of members. The sheet must have run. CheckLines
// uses the lines given, else those of the description that hold for the words of the
// sheet. A line is skipped if one of its values is absent, or if no field has one of its
// symbols: a worked solution leaves such a symbol as it is.
//
// Because a worked solution prints lines and results side by side, the tests of a
// description should call CheckLines for several inputs.
func (s *Sheet) CheckLines(lines ...*formula.Line) error {
	if !s.ran {
		return ErrNotRun
	}
	if len(lines) == 0 {
		var err error
		if lines, err = s.Lines(); err != nil {
			return err
		}
	}
	var wrong []error
	values, held := s.Values(), s.Values()
	for _, line := range lines {
		if !complete(line, values) {
			continue
		}
		got, err := line.Eval(values)
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", line.Text, err))
			continue
		}
		if want, ok := held[line.Name]; ok {
			wrong = append(wrong, lineDiffers(line, got, want))
		} else { // an intermediate value
			values[line.Name] = got
		}
	}
	return errors.Join(wrong...)
}

func lineDiffers(line *formula.Line, got, want formula.Value) error {
	if got.Dimension != want.Dimension {
		return fmt.Errorf("%s comes out in %v, and %s is in %v", line.Text, got.Dimension, line.Name, want.Dimension)
	}
	if len(got.Numbers) != len(want.Numbers) {
		return fmt.Errorf("%s gives %d values, the calculation %d", line.Text, len(got.Numbers), len(want.Numbers))
	}
	for i, g := range got.Numbers {
		w, member := want.Numbers[i], ""
		if math.Abs(g-w) <= 1e-12*max(got.Size[i], math.Abs(w)) {
			continue
		}
		if want.List {
			member = fmt.Sprintf(" as member %d", i+1)
		}
		return fmt.Errorf("%s gives %v%s, the calculation %v, in SI units", line.Text, g, member, w)
	}
	return nil
}
