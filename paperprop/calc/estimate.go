package calc

import (
	"errors"
	"fmt"
	"strings"

	"millmaths.example/paperprop"
)

// An Estimate is a value with what is known of its uncertainty, independent of any
// calculation: "50.0(2) mm", "0.3 ± 0.1 g", "rectangular(1.1, 1.3) kg/m3".
type Estimate struct {
	Value     float64 // in Unit
	Unit      paperprop.Unit
	Uncertain           // in Unit, as a difference
	Readings  []float64 // repeated observations, of which Value is the mean; nil for a single value
}

// ParseEstimate reads a value of any unit. Besides what an input of a calculation
// accepts, it reads a distribution given by its two ends, and a list of readings whose
// spread gives the uncertainty. The error says what is wrong with the text; for a
// number or a unit that is unreadable it is a [paperprop.NumberError] or a
// [paperprop.UnitError].
func ParseEstimate(text string) (Estimate, error) {
	if name, inner, rest, ok := cutName(text); ok && strings.Contains(text, "(") && name != "mean" {
		return parseEnds(name, inner, rest)
	}
	c := &Cell{Field: &Field{Shape: List, Relation: "any"}, sheet: &Sheet{}}
	r, err := c.readValues(strings.TrimSpace(text))
	if err != nil {
		return Estimate{}, err
	}
	e := Estimate{Value: r.values[0], Unit: r.unit}
	number, one := strings.CutSuffix(strings.TrimSpace(text), " 1")
	switch {
	case one && isNumber(number):
		return Estimate{}, fmt.Errorf("two readings, or one number of the unit 1, write [%s 1] or %[1]s", number)
	case len(r.values) > 1 && r.uncertain != nil:
		return Estimate{}, errors.New("readings with ±: their own spread is their uncertainty")
	case len(r.values) > 1:
		e.Readings = r.values
	case strings.HasPrefix(strings.TrimSpace(text), "["):
		return Estimate{}, errors.New("one reading has no spread, want two or more, or a value ± its uncertainty")
	case r.uncertain != nil:
		e.Uncertain = r.uncertain[0]
	}
	return e, nil
}

// Estimate reads a value of the field's kind with what is known of its uncertainty. All
// numbers are canonical.
func (f *Field) Estimate(text string) (Estimate, error) {
	c := &Cell{Field: f, sheet: &Sheet{}}
	r, err := c.readValues(strings.TrimSpace(text))
	if err == errNoNumber && f.Kind != nil {
		err = &noNumberError{c.wanted()}
	}
	if err != nil {
		return Estimate{}, &InputError{f.Name, text, err}
	}
	e := Estimate{Value: r.values[0], Unit: r.unit}
	if r.uncertain != nil {
		e.Uncertain = r.uncertain[0]
	}
	return e, nil
}

// Range reads a range of the field's kind, such as "3..5 % by 0.25 %".
func (f *Field) Range(text string) (Range, error) { return (&Cell{Field: f}).Range(text) }

// parseEnds reads a distribution given by its ends.
func parseEnds(name, inner, unit string) (Estimate, error) {
	d, known := distributionNamed(name)
	if !known || d == Normal {
		return Estimate{}, fmt.Errorf("unknown distribution %q, want rectangular, triangular or arcsine", name)
	}
	low, high, ok := strings.Cut(inner, ",")
	if !ok {
		return Estimate{}, fmt.Errorf("%s(%s), want both ends: %[1]s(LOW, HIGH) UNIT", name, inner)
	}
	u, err := paperprop.ParseUnit(unit)
	if err != nil {
		return Estimate{}, err
	}
	a, err := paperprop.ParseNumber(strings.TrimSpace(low))
	if err != nil {
		return Estimate{}, err
	}
	b, err := paperprop.ParseNumber(strings.TrimSpace(high))
	if err != nil {
		return Estimate{}, err
	}
	if a >= b {
		return Estimate{}, fmt.Errorf("%s(%s): the low end comes first", name, inner)
	}
	return Estimate{Value: a/2 + b/2, Unit: u, Uncertain: Uncertain{Standard: (b/2 - a/2) / divisors[d], Distribution: d}}, nil
}

// Draw fills x with numbers from the distribution with the given mean and standard
// deviation. The same seed and stream always give the same numbers.
func (d Distribution) Draw(x []float64, mean, deviation float64, seed, stream uint64) {
	d.fill(newGenerator(seed, stream), x, mean, deviation)
}
