package calc

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/wording"
)

// A Range is an input that runs from one value to another: "3..5 %", in ten steps, or
// "3..5 % by 0.25 %".
type Range struct {
	Values []float64 // canonical
	Unit   paperprop.Unit
	Short  bool // the last step would pass the end, which is left out
}

// maxPoints limits a range: nobody could read a longer table.
const maxPoints = 100_000

// IsRange reports whether a text is a range rather than a value.
func IsRange(text string) bool { return strings.Contains(text, "..") }

// otherRange returns how to write a range that was written as 0.8-0.9 %, and the sign in
// it that makes none.
func otherRange(text string) (dotted, sign string, ok bool) {
	for _, other := range [...]struct{ sign, told string }{
		{"–", "a dash"}, {"-", "a dash"}, {"…", `"…"`}, {" to ", `"to"`},
	} {
		from, to, cut := strings.Cut(text, other.sign)
		from, to = strings.TrimSpace(from), strings.TrimSpace(to)
		_, err := paperprop.ParseNumber(from)
		if cut && err == nil && to != "" && '0' <= to[0] && to[0] <= '9' {
			return from + ".." + to, other.told, true
		}
	}
	return "", "", false
}

// Range reads a range for the cell. The ends are exact, as are the points between them
// if the step is a decimal.
func (c *Cell) Range(text string) (Range, error) {
	r, err := c.readRange(strings.TrimSpace(text))
	if err != nil {
		return Range{}, &InputError{c.Name, text, err}
	}
	return r, nil
}

// cantRun returns an error that says why an input accepts no range, and what it
// accepts.
func (c *Cell) cantRun() error {
	switch {
	case c.Shape == Word:
		return fmt.Errorf("a word can't run through a range, want %s", wording.Or(c.Choices))
	case c.Shape != One:
		return errors.New("a list can't run through a range, want its values, such as [5 6 7] and their unit")
	case c.Kind == nil:
		return errors.New("an input of any unit can't run through a range, want one value with its unit")
	}
	return nil
}

func (c *Cell) readRange(text string) (Range, error) {
	if err := c.cantRun(); err != nil {
		return Range{}, err
	}
	if strings.Contains(text, "...") {
		return Range{}, errors.New("three dots, want two, and a digit before the point of a decimal: 1..3 or 1..0.3")
	}
	span, step, stepped := strings.Cut(text, " by ")
	low, high, u, err := c.readEnds(span)
	if err != nil {
		return Range{}, err
	}
	steps := c.steps(low, high)
	if stepped {
		d, err := c.readStep(strings.TrimSpace(step), u)
		if err != nil {
			return Range{}, err
		}
		steps = math.Abs(high-low) / d
		if near := math.Round(steps); math.Abs(steps-near) < 1e-6 {
			steps = near
		}
	}
	if !(steps >= 1 && steps < maxPoints) {
		return Range{}, fmt.Errorf("a range of %s steps, want 1 to %d", paperprop.People(steps), maxPoints)
	}
	return newRange(low, high, steps, u)
}

// readEnds reads the two ends of a range, of which the first may leave out its unit. The
// unit returned is that of the first.
func (c *Cell) readEnds(span string) (low, high float64, u paperprop.Unit, err error) {
	from, to, _ := strings.Cut(span, "..")
	_, unit, _, err := c.split(to)
	if err != nil {
		return 0, 0, u, fmt.Errorf("want a range such as 3..5 %s: %w", c.Unit, err)
	}
	if _, own, _, err := c.split(from); err == nil && own == "" {
		from = strings.TrimSpace(from + " " + unit)
	}
	if low, u, err = c.Kind.Parse(from); err != nil {
		return 0, 0, u, err
	}
	if high, _, err = c.Kind.Parse(strings.TrimSpace(to)); err != nil {
		return 0, 0, u, err
	}
	if low == high {
		return 0, 0, u, errors.New("both ends are the same, want a range from one value to another")
	}
	return low, high, u, nil
}

// newRange returns the points between two ends, even in the unit u.
func newRange(low, high, steps float64, u paperprop.Unit) (Range, error) {
	r := Range{Unit: u}
	a, b := u.To(low), u.To(high)
	if !(math.Abs(b-a)*steps <= math.MaxFloat64 && math.Abs(b-a) > 1e-14*steps*max(math.Abs(a), math.Abs(b))) {
		return Range{}, errors.New("the steps between these ends are beyond a float64, want other ends or fewer steps")
	}
	for i := 0.0; i <= steps; i++ {
		number := paperprop.AppendShort(nil, toDigits(a+(b-a)*i/steps, 15))
		v, err := u.Read(number, '.') // as if it had been written
		if err != nil {
			return Range{}, err
		}
		r.Values = append(r.Values, v)
	}
	r.Values[0] = low
	if steps == math.Trunc(steps) {
		r.Values[len(r.Values)-1] = high
	} else {
		r.Short = true
	}
	return r, nil
}

// steps returns the number of steps if none is given: ten; for whole numbers the number
// of the next larger whole step, if ten steps would fall between them.
func (c *Cell) steps(low, high float64) float64 {
	const steps = 10
	span := math.Abs(high - low)
	if !c.Whole || low != math.Trunc(low) || span != math.Trunc(span) {
		return steps
	}
	return span / math.Ceil(span/steps)
}

func (c *Cell) readStep(text string, u paperprop.Unit) (float64, error) {
	numbers, unit, _, err := c.split(text)
	if err != nil {
		return 0, fmt.Errorf("step: %w", err)
	}
	difference, err := c.unitBeside(unit, u)
	if err != nil {
		return 0, fmt.Errorf("step: %w", err)
	}
	number, err := paperprop.ParseNumber(strings.Join(numbers, " "))
	if err != nil {
		return 0, fmt.Errorf("step: %w", err)
	}
	if d := difference.From(number); d > 0 {
		return d, nil
	}
	return 0, fmt.Errorf("step %s, want above zero", text)
}

// toDigits drops digits that a float64 does not hold, or that a difference has lost:
// 0.30000000000000004 is 0.3 to 15 digits.
func toDigits(x float64, digits int) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil {
		return x
	}
	return rounded
}
