package calc

import (
	"fmt"
	"strings"

	"millmaths.example/paperprop"
)

// relate converts Values that belong together to the unit of the one that the others
// follow.
func (s *Sheet) relate() error {
	for _, c := range s.In {
		if c.given && c.Kind == nil && len(c.raw) > 0 && strings.Contains(c.Relation, " ") {
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
		y, err := c.unit.Convert(x, to)
		if err != nil {
			return &InputError{c.Name, c.text, fmt.Errorf("%w; want the unit of %s", err, c.anchor().Name)}
		}
		c.putMember(i, y)
	}
	return nil
}

// bothNamed refuses a number without a unit beside one with a unit: beside a value in
// %, a step of 0.1 would be 10 %.
func (c *Cell) bothNamed(to paperprop.Unit) error {
	if c.unit.IsZero() && !pure(to) {
		return &InputError{c.Name, c.text, unitMissing(c.text, to)}
	}
	a := c.anchor()
	like := strings.HasPrefix(c.Relation, "as ") || strings.HasPrefix(c.Relation, "difference of ")
	if like && a.given && a.unit.IsZero() && !pure(c.unit) {
		return &InputError{a.Name, a.text, unitMissing(a.text, c.unit)}
	}
	return nil
}

// anchor returns the input whose unit a Value follows.
func (c *Cell) anchor() *Cell {
	if c.Relation == "any" {
		return c
	}
	if i := strings.LastIndexByte(c.Relation, ' '); i >= 0 {
		if a, ok := c.sheet.Input(c.Relation[i+1:]); ok {
			return a
		}
	}
	return nil
}

// mustRelate panics where a relation names no input, or is a unit: a fault of the
// description, as in [Form.quantity].
func (c *Cell) mustRelate() {
	if c.Kind != nil || c.Shape == Word || c.Shape == Text && c.Relation == "" || c.Relation == "any" {
		return
	}
	before, named, ok := strings.Cut(c.Relation, " per ")
	if ok {
		_, ok = c.sheet.Input(before)
	} else {
		named, ok = relative(c.Relation)
	}
	if _, there := c.sheet.Input(named); !ok || !there {
		panic(fmt.Sprintf("calc: %s: relation %q, want any, as x, difference of x, square of x or y per x, where x and y are inputs; a quantity with a unit of its own is bound by In or Out", c.Name, c.Relation))
	}
}

// relative returns the name of the one input that a relation is about.
func relative(relation string) (name string, ok bool) {
	for _, prefix := range [...]string{"as ", "difference of ", "square of "} {
		if name, ok = strings.CutPrefix(relation, prefix); ok {
			return name, true
		}
	}
	return "", false
}

// relatedUnit returns the unit of a Value.
func (c *Cell) relatedUnit() paperprop.Unit {
	if y, x, ok := strings.Cut(c.Relation, " per "); ok {
		return c.sheet.unitOf(y).Difference().Per(c.sheet.unitOf(x).Difference())
	}
	a := c.anchor()
	if a == nil {
		return paperprop.Unit{}
	}
	switch {
	case strings.HasPrefix(c.Relation, "difference of "):
		return a.unit.Difference()
	case strings.HasPrefix(c.Relation, "square of "):
		return a.unit.Difference().Squared()
	}
	return a.unit
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
