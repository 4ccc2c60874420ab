package calc

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
)

// A spread is the right side of ±, before the value is known.
type spread struct {
	halfWidths   []float64 // numbers as written
	unit         string
	relative     bool
	distribution Distribution
	divisor      float64 // divides a half-width to give a standard uncertainty
	freedom      float64
	source       *Uncertain
	name         string
}

// cutName splits "rectangular(0.1) g" into the name, the text in brackets and the text
// after them; "balance" is a name alone.
func cutName(text string) (name, inner, rest string, ok bool) {
	end := 0
	for end < len(text) && (letter(text[end]) || end > 0 && (text[end] == '-' || text[end] == '_' || text[end] >= '0' && text[end] <= '9')) {
		end++
	}
	name, rest = text[:end], text[end:]
	if name == "" || rest == "" {
		return name, "", "", name != ""
	}
	inner, rest, ok = strings.Cut(strings.TrimPrefix(rest, "("), ")")
	return name, inner, strings.TrimSpace(rest), ok && text[end] == '('
}

// tellsFactor reports whether a text gives an expanded uncertainty with its coverage
// factor, as certificates do: 3 (k=2).
func tellsFactor(text string) bool {
	return strings.Contains(strings.ReplaceAll(text, " ", ""), "k=")
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

// readSpread reads the right side of ±. If the value already has its unit, a percentage
// is relative.
func (c *Cell) readSpread(text string, hasUnit bool) (spread, error) {
	s := spread{distribution: Normal, divisor: 1}
	numbers := text
	if tellsFactor(text) {
		return s, errors.New("right of ±: a coverage factor, want one standard uncertainty (k = 1): U divided by k")
	}
	if name, inner, rest, ok := cutName(text); ok {
		width, known, err := s.take(name, inner)
		switch {
		case err != nil:
			return s, err
		case !strings.Contains(text, "("):
			source, ok := c.sheet.sources[name]
			if !ok {
				return s, fmt.Errorf("unknown source of uncertainty %q, name it once: --source %s=\"0.5 g\"", name, name)
			}
			s.source, s.name = &source, name
			return s, nil
		case !known:
			return s, fmt.Errorf("unknown distribution %q, want rectangular, triangular, arcsine, normal, resolution or readings", name)
		}
		numbers = strings.TrimSpace(width + " " + rest)
	}
	if name, unit, more := strings.Cut(text, " "); more {
		if _, ok := c.sheet.sources[name]; ok {
			return s, fmt.Errorf("right of ±: the source %s stands alone, want %s left of ±", name, strings.TrimSpace(unit))
		}
	}
	texts, unit, bracket, err := c.split(numbers)
	if err != nil {
		return s, fmt.Errorf("right of ±: %w", err)
	}
	if !hasUnit && unit == "" && !bracket && c.endsInUnit(texts) {
		texts, unit = texts[:1], "1"
	}
	for _, t := range texts {
		x, err := paperprop.ParseNumber(t)
		if err != nil {
			return s, fmt.Errorf("right of ±: %w", err)
		}
		if x < 0 {
			return s, fmt.Errorf("an uncertainty of %s is below zero, want 0 or more", t)
		}
		s.halfWidths = append(s.halfWidths, x)
	}
	s.unit = unit
	s.relative = hasUnit && unit == "%"
	return s, nil
}

// endsInUnit reports whether the 1 of "0.001 1" can only be the unit of a list's one
// uncertainty: without it the list would have none, and needs one.
func (c *Cell) endsInUnit(texts []string) bool {
	if len(texts) != 2 || texts[1] != "1" || c.Kind == nil || !c.hasUnit("1") {
		return false
	}
	_, _, err := c.Kind.Parse(texts[0])
	return err != nil
}

// take takes the distribution of that name, if it is known, and returns what of the text
// in its brackets is the half-width.
func (s *spread) take(name, inner string) (width string, known bool, err error) {
	width, known = inner, true
	switch name {
	case "resolution":
		s.distribution, s.divisor = Rectangular, 2 // half a digit to either side
	case "readings":
		width, s.divisor, s.freedom, err = ofReadings(inner)
	default:
		s.distribution, known = distributionNamed(name)
	}
	s.divisor *= divisors[s.distribution]
	return width, known, err
}

// refusePercentage refuses per cent of a value in a unit in which they mean nothing, or could
// be per cent as such.
func (c *Cell) refusePercentage(unit paperprop.Unit) error {
	percent := unit.Dimension() == paperprop.Dimension{} && !pure(unit)
	scale := unit != unit.Difference()
	if c.Kind != nil {
		percent, scale = c.hasUnit("%"), c.isTemperature()
	}
	switch {
	case scale:
		return errors.New("a temperature has no percentage: write 20 ± 0.5 °C")
	case percent:
		return errors.New("± % after a share can be read two ways: write 4.0 ± 0.1 % with one unit at the end")
	}
	return nil
}

// ofReadings splits "0.4, 5", the standard deviation of single readings and their
// number. The uncertainty of the mean is smaller by the square root of the number.
func ofReadings(inner string) (deviation string, root, freedom float64, err error) {
	deviation, count, ok := strings.Cut(inner, ",")
	n, err := paperprop.ParseNumber(strings.TrimSpace(count))
	if !ok || err != nil || n < 2 || n != math.Trunc(n) {
		return "", 0, 0, fmt.Errorf("readings(%s), want readings(s, n): the standard deviation of n single readings, n from 2", inner)
	}
	return deviation, math.Sqrt(n), n - 1, nil
}

// over returns the uncertainty of each of the values.
func (s spread) over(r reading, c *Cell) ([]Uncertain, error) {
	n := len(r.values)
	if s.source != nil {
		u, err := s.source.in(c, r.unit)
		u.Source = s.name
		return slices.Repeat([]Uncertain{u}, n), err
	}
	if k := len(s.halfWidths); k != 1 && k != n {
		return nil, fmt.Errorf("%d uncertainties for %v, want one or as many", k, Members(n))
	}
	var unit paperprop.Unit // none where it is relative
	var err error
	if s.relative {
		err = c.refusePercentage(r.unit)
	} else {
		unit, err = c.unitBeside(s.unit, r.unit)
	}
	if err != nil {
		return nil, err
	}
	out := make([]Uncertain, n)
	for i := range out {
		half := unit.From(s.halfWidths[min(i, len(s.halfWidths)-1)])
		if s.relative {
			half *= math.Abs(r.values[i]) / 100
		}
		out[i] = Uncertain{Standard: half / s.divisor, Distribution: s.distribution, Freedom: s.freedom}
	}
	return out, nil
}

// unitBeside reads the unit of a difference beside a value in a unit: where the text names
// none, it is the value's own.
func (c *Cell) unitBeside(text string, value paperprop.Unit) (paperprop.Unit, error) {
	if text == "" || text == value.String() {
		return c.differenceUnit(value), nil
	}
	return c.spreadUnit(text, value)
}

// spreadUnit reads the unit of an uncertainty that is not the value's own.
func (c *Cell) spreadUnit(text string, value paperprop.Unit) (paperprop.Unit, error) {
	if c.Kind == nil {
		if u, err := c.anyUnit(text); err == nil && u.String() == value.String() {
			return c.differenceUnit(value), nil // the same unit in another spelling
		}
		return paperprop.Unit{}, fmt.Errorf("right of ±: unit %s, want that of the value", text)
	}
	u, err := c.Kind.Unit(text)
	if err == nil {
		return u.Difference(), nil
	}
	switch c.Kind.Name() {
	case "Temperature": // 20 °C ± 1 K
		k, _ := paperprop.KindNamed("TemperatureDifference")
		return k.Unit(text)
	case "GaugePressure": // 3.2 bar(g) ± 0.1 bar
		return plainPressure(c.Kind, text, "(g)", err)
	case "AbsolutePressure":
		return plainPressure(c.Kind, text, "(a)", err)
	}
	return u, err
}

// plainPressure reads the unit of a difference of pressures, which is neither above the
// air nor above vacuum: kPa for what marked would be kPa(g).
func plainPressure(k *paperprop.Kind, text, mark string, refused error) (paperprop.Unit, error) {
	if u, err := k.Unit(text + mark); err == nil {
		return u, nil
	}
	return paperprop.Unit{}, refused
}
