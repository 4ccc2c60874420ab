package calc

import (
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/formula"
)

// A way holds results of formula lines that are not fields of the sheet, such as the
// mean on the way to a deviation. Their numbers are in the units of the readings.
type way struct {
	values formula.Values // values of the fields, and results of the lines
	found  map[string]formula.Value
	units  map[string]paperprop.Unit
}

func (s *Sheet) way(lines []*formula.Line) *way {
	w := &way{values: s.Values(), units: map[string]paperprop.Unit{}}
	w.found = lineResults(lines, w.values)
	s.unitsOnTheWay(lines, w)
	return w
}

// text returns the result of a line as text, and whether there is one.
func (w *way) text(name string, write func(float64) string) (string, bool) {
	v, ok := w.values[name]
	if !ok {
		return "", false
	}
	text := textOf(v, write)
	if u := w.units[name]; !pure(u) {
		text += " " + u.String()
	} else if v.Dimension != (paperprop.Dimension{}) {
		text += " " + v.Dimension.String()
	}
	return text, true
}

// textOf returns the numbers of a value, each formatted by write; a list is in brackets.
func textOf(v formula.Value, write func(float64) string) string {
	numbers := make([]string, len(v.Numbers))
	for i, x := range v.Numbers {
		numbers[i] = write(x)
	}
	text := strings.Join(numbers, " ")
	if v.List {
		return "[" + text + "]"
	}
	return text
}

// unitsOnTheWay finds the units of results that lines compute from Values, whose
// numbers have no dimension. Each unit that was given stands for a base quantity, and
// the lines carry its powers along as they do those of kilograms and metres.
func (s *Sheet) unitsOnTheWay(lines []*formula.Line, w *way) {
	free := s.freeUnits()
	powers := lineResults(lines, s.valuesBy(func(c *Cell) formula.Value {
		v := c.coherent()
		v.Dimension = paperprop.Dimension{}
		for i, a := range free {
			v.Dimension[i] = c.power(a)
		}
		return v
	}))
	for name, v := range powers {
		w.units[name] = unitOf(v.Dimension, free)
	}
	for i, a := range free {
		if a.unit == a.unit.Difference() {
			continue
		}
		var alone paperprop.Dimension
		alone[i] = 1
		moved := lineResults(lines, s.movedByOne(a))
		for name, v := range powers {
			if v.Dimension == alone && math.Abs(firstNumber(moved[name])-firstNumber(w.found[name])) > 0.5 {
				w.units[name] = a.unit // a point on its scale, such as a mean of temperatures
			}
		}
	}
}

// freeUnits returns the inputs that were given in a unit of the caller's choice, as many
// as a Dimension has room for.
func (s *Sheet) freeUnits() []*Cell {
	var free []*Cell
	for _, c := range s.In {
		if c.Kind == nil && c.Relation == "any" && c.given && !pure(c.unit) && len(free) < len(paperprop.Dimension{}) {
			free = append(free, c)
		}
	}
	return free
}

// unitOf returns the unit with these powers of free units, as differences: one of them,
// its square, or a quotient. It returns no unit for other powers, which have no name.
func unitOf(powers paperprop.Dimension, free []*Cell) paperprop.Unit {
	var above, below paperprop.Unit
	for i, a := range free {
		switch d := a.unit.Difference(); {
		case powers[i] == 0:
		case powers[i] == 1 && above.IsZero():
			above = d
		case powers[i] == 2 && above.IsZero():
			above = d.Squared()
		case powers[i] == -1 && below.IsZero():
			below = d
		default:
			return paperprop.Unit{}
		}
	}
	if above.IsZero() || below.IsZero() {
		return above
	}
	return above.Per(below)
}

// movedByOne returns the values of a sheet with those of an input, and of all that are
// on its scale, moved by 1 in its unit. A difference stays as it is.
func (s *Sheet) movedByOne(a *Cell) formula.Values {
	return s.valuesBy(func(c *Cell) formula.Value {
		v := c.coherent()
		if c.onScaleOf(a) {
			for i := range v.Numbers {
				v.Numbers[i]++
			}
		}
		return v
	})
}

// onScaleOf reports whether a Value is a point on the scale of an input.
func (c *Cell) onScaleOf(a *Cell) bool { return c == a || c.follows == relation{how: same, of: a} }

// power returns the power to which the unit of a Value contains that of an input.
func (c *Cell) power(a *Cell) int8 {
	r := c.follows
	switch {
	case c.onScaleOf(a) || r.how == difference && r.of == a || r.how == quotient && r.above == a:
		return 1
	case r.how == square && r.of == a:
		return 2
	case r.how == quotient && r.of == a:
		return -1
	}
	return 0
}

func firstNumber(v formula.Value) float64 {
	if len(v.Numbers) == 0 {
		return 0
	}
	return v.Numbers[0]
}

// leftOutAsZero returns texts for the inputs that a line names and that were left out,
// if the result is what the line gives with them at zero: an origin left out.
func (s *Sheet) leftOutAsZero(line *formula.Line, w *way) map[string]string {
	out := s.bySymbol(line.Name, s.Out)
	if out == nil || complete(line, w.values) {
		return nil
	}
	values, texts := formula.Values{}, map[string]string{}
	for _, name := range line.Names() {
		if v, ok := w.values[name]; ok {
			values[name] = v
			continue
		}
		i := slices.IndexFunc(s.In, func(c *Cell) bool { return c.Symbol == name && c.Shape == One && c.Need == Optional })
		if i < 0 || line.Divides(name) {
			return nil
		}
		u, d := s.In[i].PrintUnit(), paperprop.Dimension{}
		if k := s.In[i].Kind; k != nil {
			d = k.Canonical().Dimension()
		} else {
			u = s.In[i].relatedUnit()
		}
		values[name], texts[name] = formula.Number(0, d), paperprop.WithUnit("0", u)
	}
	v, err := line.Eval(values)
	if err != nil || v.List || math.Abs(v.Numbers[0]-out.coherent().Numbers[0]) > 1e-9*math.Abs(v.Numbers[0]) {
		return nil
	}
	return texts
}

// roundAbout reports whether a line needs a result that a later line computes from this
// line's. Of two forms of a formula, the later one continues from what the method
// finds.
func (s *Sheet) roundAbout(line *formula.Line, later []*formula.Line) bool {
	return slices.ContainsFunc(later, func(l *formula.Line) bool {
		in := s.bySymbol(l.Name, s.In)
		return l.Name != line.Name && (in == nil || !in.given) &&
			slices.Contains(line.Names(), l.Name) && slices.Contains(l.Names(), line.Name)
	})
}
