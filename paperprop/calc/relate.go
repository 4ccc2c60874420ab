package calc

import (
	"fmt"
	"strings"

	"millmaths.example/paperprop"
)

// A relation says how the unit of a Value follows from those of inputs. Cells of quantities
// and words have none.
type relation struct {
	how   following
	of    *Cell // the input; for any unit the cell itself
	above *Cell // the input above the line of a quotient
}

// A following is a way in which a unit follows from another.
type following uint8

const (
	unrelated  following = iota // any
	same                        // as x
	difference                  // difference of x
	square                      // square of x
	quotient                    // y per x
)

// resolve reads the Relation of a cell. It panics where that names no input, or is a unit: a
// fault of the description, as in [Form.quantity].
func (c *Cell) resolve() {
	if c.Kind != nil || c.Shape == Word || c.Shape == Text && c.Relation == "" {
		return
	}
	input := func(name string) *Cell { in, _ := c.sheet.Input(name); return in }
	r, last := &c.follows, strings.LastIndexByte(c.Relation, ' ')
	before := strings.TrimSpace(c.Relation[:last+1])
	r.of = input(c.Relation[last+1:])
	switch y, per := strings.CutSuffix(before, " per"); {
	case c.Relation == "any":
		r.of = c
	case before == "as":
		r.how = same
	case before == "difference of":
		r.how = difference
	case before == "square of":
		r.how = square
	case per:
		r.how, r.above = quotient, input(y)
	}
	if r.of == nil || r.how == unrelated && r.of != c || r.how == quotient && r.above == nil {
		panic(fmt.Sprintf("calc: %s: relation %q, want any, as x, difference of x, square of x or y per x, where x and y are inputs; a quantity with a unit of its own is bound by In or Out", c.Name, c.Relation))
	}
}

// relate converts Values that belong together to the unit of the one that the others
// follow.
func (s *Sheet) relate() error {
	for _, c := range s.In {
		if c.given && len(c.raw) > 0 && c.follows.how != unrelated {
			if err := c.follow(); err != nil {
				return err
			}
		}
		if c.kept != nil {
			c.keep()
		}
	}
	return nil
}

// follow converts a Value to the unit of the input that it follows.
func (c *Cell) follow() error {
	to := c.relatedUnit()
	if err := c.bothNamed(to); err != nil {
		return err
	}
	for i, x := range c.raw {
		y, err := c.converted(x, to)
		if err != nil {
			return err
		}
		c.putMember(i, y)
	}
	return nil
}

// converted returns a number in the unit of the input that the cell follows.
func (c *Cell) converted(x float64, to paperprop.Unit) (float64, error) {
	y, err := c.unit.Convert(x, to)
	if err != nil {
		return 0, &InputError{c.Name, c.text, &UnlikeError{Err: err, Of: c.follows.of.Name}}
	}
	return y, nil
}

// bothNamed refuses a number without a unit beside one with a unit: beside a value in
// %, a step of 0.1 would be 10 %.
func (c *Cell) bothNamed(to paperprop.Unit) error {
	if c.unit.IsZero() && !pure(to) {
		return &InputError{c.Name, c.text, unitMissing(c.text, to)}
	}
	a := c.follows.of
	like := c.follows.how == same || c.follows.how == difference
	if like && a.given && a.unit.IsZero() && !pure(c.unit) {
		return &InputError{a.Name, a.text, unitMissing(a.text, c.unit)}
	}
	return nil
}

// relatedUnit returns the unit of a Value.
func (c *Cell) relatedUnit() paperprop.Unit {
	r := c.follows
	switch {
	case r.of == nil:
		return paperprop.Unit{}
	case r.how == difference:
		return r.of.unit.Difference()
	case r.how == square:
		return r.of.unit.Difference().Squared()
	case r.how == quotient:
		return r.above.unit.Difference().Per(r.of.unit.Difference())
	}
	return r.of.unit
}

// oneCurrency refuses prices in two currencies, as written or to be printed: one cannot
// be converted into the other.
func (s *Sheet) oneCurrency() error {
	first := s.firstPrice()
	if first == nil {
		return nil
	}
	currency := first.unit.Currency()
	for _, cells := range [...][]*Cell{s.In, s.Out} {
		for _, c := range cells {
			for _, u := range [...]paperprop.Unit{c.unit, c.Unit} {
				if other := u.Currency(); other != "" && other != currency {
					return &InputError{c.Name, u.String(), fmt.Errorf("%s is in %s, want one currency", first.Name, currency)}
				}
			}
		}
	}
	return nil
}

// currency returns the currency of the given prices; empty if they name none.
func (s *Sheet) currency() string {
	if c := s.firstPrice(); c != nil {
		return c.unit.Currency()
	}
	return ""
}

// firstPrice returns the first input, or given output, in a currency.
func (s *Sheet) firstPrice() *Cell {
	for _, cells := range [...][]*Cell{s.In, s.Out} {
		for _, c := range cells {
			if c.unit.Currency() != "" {
				return c
			}
		}
	}
	return nil
}

// unitOf returns the unit in which an input was given.
func (s *Sheet) unitOf(name string) paperprop.Unit {
	c, _ := s.Input(name)
	return c.unit
}
