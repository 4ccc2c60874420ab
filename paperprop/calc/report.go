package calc

import (
	"cmp"
	"errors"
	"math"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
)

// Reported returns the cell as it is to be reported: rounded by the rule of its method,
// exact if it is computed in decimals, else with six significant digits for a person to
// read. A list is in brackets. If the cell is not Present, it is "".
func (c *Cell) Reported() string {
	if !c.Present() {
		return ""
	}
	return paperprop.WithUnit(string(c.AppendNumber(nil, false)), c.PrintUnit())
}

// Meaning returns what the word of a label stands for, if that is more than the word.
func (c *Cell) Meaning() string {
	if c.meaning == nil || !c.Present() {
		return ""
	}
	return c.meaning()
}

// exactText returns the text computed in decimals. For an input that was solved for,
// which is a float and no text, it has ten digits.
func (c *Cell) exactText() string {
	if len(c.sheet.Roots) > 0 {
		return tenDigits(c.Printed())
	}
	return c.exact()
}

// AppendNumber appends what Reported returns, without the unit; if full, what FullNumber
// returns. It is for cells of a table, and appends nothing for an absent result.
func (c *Cell) AppendNumber(dst []byte, full bool) []byte {
	switch {
	case !c.Present():
		return dst
	case c.Shape.inLetters():
		return append(dst, c.Word()...)
	case c.exact != nil && !full:
		return append(dst, c.exactText()...)
	case c.Shape == List:
		dst = append(dst, '[')
		for i, v := range c.Numbers() {
			if i > 0 {
				dst = append(dst, ' ')
			}
			dst = c.appendOne(dst, v, full)
		}
		return append(dst, ']')
	}
	return c.appendOne(dst, c.Number(), full)
}

func (c *Cell) appendOne(dst []byte, v float64, full bool) []byte {
	if full {
		return c.Unit.AppendShort(dst, v) // a Value has no unit to print in
	}
	x := c.Unit.To(v)
	if rule := c.Field.Report.For(x); !rule.IsZero() {
		return rule.AppendComputed(dst, x)
	}
	return paperprop.AppendPeople(dst, x)
}

// Full returns the cell unrounded, with the shortest digits that give the value back.
// If the cell is not Present, it is "".
func (c *Cell) Full() string {
	if !c.Present() {
		return ""
	}
	if c.Shape.inLetters() {
		return c.Reported()
	}
	if c.Kind != nil && c.Shape == One {
		return c.Kind.Format(c.Number(), c.PrintUnit())
	}
	return paperprop.WithUnit(c.FullNumber(), c.PrintUnit())
}

// FullNumber is [Cell.Full] without the unit, always in the unit to print in.
func (c *Cell) FullNumber() string {
	if !c.Present() || c.Shape.inLetters() {
		return c.Full()
	}
	return string(c.AppendNumber(nil, true))
}

// digits returns a canonical value in a unit, if possible with digits that parse back
// to the same value.
func (c *Cell) digits(v float64, u paperprop.Unit) string {
	if c.Kind == nil {
		u = paperprop.Unit{} // a Value is kept in its own unit
	}
	return string(u.AppendShort(nil, v))
}

// join returns the numbers of a cell in the unit to print in, each formatted by write; a
// list is in brackets.
func (c *Cell) join(write func(x float64) string) string {
	u := c.PrintUnit()
	var texts []string
	for _, v := range c.Numbers() {
		texts = append(texts, write(c.In(v, u)))
	}
	if c.Shape != List {
		return paperprop.WithUnit(texts[0], u)
	}
	return paperprop.WithUnit("["+strings.Join(texts, " ")+"]", u)
}

// In converts a canonical value of the cell to the unit u. A Value is returned
// unchanged, as it is kept in its own unit.
func (c *Cell) In(v float64, u paperprop.Unit) float64 {
	if c.Kind == nil {
		return v
	}
	return u.To(v)
}

// HasRule reports whether Reported follows a rule of a test method or computes in
// decimals.
func (c *Cell) HasRule() bool {
	return c.exact != nil || c.Shape == Text || !c.Field.Report.Rule.IsZero() || c.Field.Report.Grows != nil
}

// For returns the rule for a number in the unit to print in.
func (r *Report) For(x float64) result.Rule {
	if r.Grows != nil {
		return r.Grows(x)
	}
	return r.Rule
}

// String returns the rule for reporting, and where it comes from.
func (r Report) String() string {
	if r.Words != "" {
		return r.Words + " (" + string(r.Status) + ")"
	}
	if r.Rule.IsZero() {
		return r.Note
	}
	text := r.Rule.String()
	if r.Of != "" {
		text += "; " + r.Of
	}
	return text + " (" + string(r.Status) + ")"
}

// Short is String without the tie rule and the document.
func (r Report) Short() string {
	if r.Words != "" {
		return r.String()
	}
	if r.Rule.IsZero() {
		return ""
	}
	rule, _, _ := strings.Cut(r.Rule.String(), ",")
	return rule + " (" + string(r.Status) + ")"
}

// Spread returns a standard uncertainty with two significant digits, in the unit to
// print in.
func (c *Cell) Spread(u float64) string {
	return paperprop.WithUnit(twoFigures(c.Difference(u)), c.PrintUnit().Difference())
}

// ToPlaceOf returns a result rounded to the place of the second digit of its standard
// uncertainty u, as more digits would mean nothing. If u is zero, it returns the
// reported result.
func (c *Cell) ToPlaceOf(u float64) string {
	if u = c.Difference(u); !(u >= 1e-290 && u <= largest) || c.Shape != One {
		return c.Reported()
	}
	place := int32(math.Floor(math.Log10(u))) - 1
	return paperprop.WithUnit(result.StepOf(1, place, result.Even).Round(c.Printed()), c.PrintUnit())
}

// PeopleBeside returns a canonical value of the cell, in the unit to print in but without
// it, as a person reads it beside its standard uncertainty u: with six significant digits,
// or with as many more as u leaves it.
func (c *Cell) PeopleBeside(v, u float64) string {
	return peopleBeside(c.In(v, c.PrintUnit()), c.Difference(u))
}

func peopleBeside(x, u float64) string {
	const six, all = 6, 16
	if x == 0 || !(u >= 1e-290 && u <= largest) {
		return paperprop.People(x)
	}
	first, place := math.Floor(math.Log10(math.Abs(x))), math.Floor(math.Log10(u))-1
	if first-place < six {
		return paperprop.People(x)
	}
	return result.StepOf(1, int32(max(place, first-all+1)), result.Even).Round(x)
}

func twoFigures(x float64) string { return result.Figures(2, result.Even).Round(x) }

// PrintIn sets the unit in which to print an output, or an input that is solved for or
// has a default. A rule that rounds to a step of the usual unit does not apply in
// another.
func (s *Sheet) PrintIn(name, unit string) error {
	in, out, err := s.named(name)
	if err != nil {
		return err
	}
	c := cmp.Or(out, in)
	if c.Kind == nil {
		return &InputError{name, unit, errors.New("it is printed in the unit of the inputs")}
	}
	u, err := c.Kind.Unit(unit)
	if err != nil {
		return &InputError{name, unit, err}
	}
	if in != nil {
		in.Unit = u
	}
	if u != c.Unit && !c.Field.Report.Rule.BySignificantFigures() {
		c.Field.Report = Report{}
	}
	c.Unit, c.exact, c.Decimal = u, nil, false
	return nil
}
