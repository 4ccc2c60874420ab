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
	w.found = s.lineResults(lines, w.values)
	s.unitsOnTheWay(lines, w)
	return w
}

// text returns the result of a line as text, and whether there is one.
func (w *way) text(name string) (string, bool) {
	v, ok := w.values[name]
	if !ok {
		return "", false
	}
	text := peopleText(v)
	if u, ok := w.units[name]; ok && !pure(u) {
		text += " " + u.String()
	} else if v.Dimension != (paperprop.Dimension{}) {
		text += " " + v.Dimension.String()
	}
	return text, true
}

func peopleText(v formula.Value) string {
	numbers := make([]string, len(v.Numbers))
	for i, x := range v.Numbers {
		numbers[i] = paperprop.People(x)
	}
	text := strings.Join(numbers, " ")
	if v.List {
		return "[" + text + "]"
	}
	return text
}

// unitsOnTheWay finds the units of results that lines compute from Values, whose
// numbers have no dimension, from how they change: twice the readings give twice their
// mean, and four times the sum of their squares.
func (s *Sheet) unitsOnTheWay(lines []*formula.Line, w *way) {
	type part struct {
		anchor *Cell
		degree float64
	}
	parts := map[string][]part{}
	for _, a := range s.In {
		if a.Kind != nil || a.Relation != "any" || !a.given || pure(a.unit) {
			continue
		}
		twice := s.lineResults(lines, s.moved(a, func(x, degree float64) float64 { return x * math.Pow(2, degree) }))
		for name, v := range w.found {
			if x, y := firstNumber(v), firstNumber(twice[name]); x != 0 && y/x > 0 {
				if degree := math.Log2(y / x); math.Abs(degree) > 1e-9 {
					parts[name] = append(parts[name], part{a, math.Round(degree*1e6) / 1e6})
				}
			}
		}
	}
	for name, of := range parts {
		first, last := of[0], of[len(of)-1]
		switch d := first.anchor.unit.Difference(); {
		case len(of) == 1 && first.degree == 1:
			w.units[name] = first.anchor.unit
			if d != first.anchor.unit && !s.isPoint(name, first.anchor, lines, w) {
				w.units[name] = d
			}
		case len(of) == 1 && first.degree == 2:
			w.units[name] = d.Squared()
		case len(of) == 2 && first.degree == 1 && last.degree == -1:
			w.units[name] = d.Per(last.anchor.unit.Difference())
		case len(of) == 2 && first.degree == -1 && last.degree == 1:
			w.units[name] = last.anchor.unit.Difference().Per(d)
		}
	}
}

// isPoint reports whether the result of a line is a point on its scale, such as a mean
// of temperatures, rather than a difference.
func (s *Sheet) isPoint(name string, a *Cell, lines []*formula.Line, w *way) bool {
	shifted := s.lineResults(lines, s.moved(a, func(x, degree float64) float64 { return x + degree }))
	return math.Abs(firstNumber(shifted[name])-firstNumber(w.found[name])) > 0.5
}

// moved returns the values of a sheet with those of an input, and of all that follow
// its unit, changed.
func (s *Sheet) moved(a *Cell, change func(x, degree float64) float64) formula.Values {
	values := s.Values()
	for _, c := range slices.Concat(s.In, s.Out) {
		v, ok := values[c.Symbol]
		degree := c.degree(a)
		if !ok || degree == 0 {
			continue
		}
		for i, x := range v.Numbers {
			v.Numbers[i] = change(x, degree)
		}
		values[c.Symbol] = v
	}
	return values
}

// degree returns the power to which the unit of a Value contains that of an input.
func (c *Cell) degree(a *Cell) float64 {
	y, x, per := strings.Cut(c.Relation, " per ")
	kind, of, _ := strings.Cut(c.Relation, " of ")
	switch {
	case c.Kind != nil:
		return 0
	case c == a || c.Relation == "as "+a.Name || kind == "difference" && of == a.Name:
		return 1
	case kind == "square" && of == a.Name:
		return 2
	case per && y == a.Name:
		return 1
	case per && x == a.Name:
		return -1
	}
	return 0
}

func firstNumber(v formula.Value) float64 {
	if i := slices.IndexFunc(v.Numbers, func(x float64) bool { return x != 0 }); i >= 0 {
		return v.Numbers[i]
	}
	return 0
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
		values[name], texts[name] = formula.Number(0, d), strings.TrimSuffix("0 "+u.String(), " 1")
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
