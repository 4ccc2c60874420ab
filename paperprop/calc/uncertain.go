package calc

import (
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/uncertainty"
)

// A Distribution is what is known of an uncertain input.
type Distribution uint8

// The distributions.
const (
	Normal Distribution = iota
	Rectangular
	Triangular
	Arcsine
)

// divisors turn what is written right of ± into a standard uncertainty: of a
// normal distribution that itself, of the others a half-width (GUM 4.3).
var divisors = [...]float64{Normal: 1, Rectangular: sqrt3, Triangular: sqrt6, Arcsine: math.Sqrt2}

const (
	sqrt3 = 1.7320508075688772935274463415058723669428
	sqrt6 = 2.4494897427831780981972840747058913919659
)

func (d Distribution) String() string {
	return [...]string{"normal", "rectangular", "triangular", "arcsine"}[d]
}

func distributionNamed(name string) (Distribution, bool) {
	for d := Normal; d <= Arcsine; d++ {
		if d.String() == name {
			return d, true
		}
	}
	return 0, false
}

// Uncertain is the uncertainty of one value.
type Uncertain struct {
	Standard     float64 // canonical, as a difference
	Distribution Distribution
	Source       string // values with one source move together
	unit         string
}

// in gives a source's uncertainty to a value in the unit u.
func (s Uncertain) in(c *Cell, u paperprop.Unit) (Uncertain, error) {
	unit := c.differenceUnit(u)
	if s.unit != "" && s.unit != u.String() {
		var err error
		if unit, err = c.spreadUnit(s.unit, u); err != nil {
			return s, err
		}
	}
	if !unit.IsZero() {
		s.Standard = unit.From(s.Standard)
	}
	return s, nil
}

// Source names an uncertainty that several inputs share: one balance weighs
// both masses. The text is a number and a unit: "0.5 mg", "rectangular(1) mg".
func (s *Sheet) Source(name, text string) error {
	read := &Cell{Field: &Field{Name: name, Relation: "any"}, sheet: s}
	r, err := read.readSpread(text, false)
	if err != nil || r.source != nil || len(r.halfWidths) != 1 {
		if err == nil {
			err = errOneNumber
		}
		return &InputError{"source " + name, text, err}
	}
	if s.sources == nil {
		s.sources = map[string]Uncertain{}
	}
	s.sources[name] = Uncertain{
		Standard: r.halfWidths[0] / divisors[r.distribution], Distribution: r.distribution, unit: r.unit,
	}
	return nil
}

// UnusedSources names the sources that no input has.
func (s *Sheet) UnusedSources() []string {
	var unused []string
	for name := range s.sources {
		used := slices.ContainsFunc(slices.Concat(s.In, s.Out), func(c *Cell) bool {
			return slices.ContainsFunc(c.uncertain, func(u Uncertain) bool { return u.Source == name })
		})
		if !used {
			unused = append(unused, name)
		}
	}
	slices.Sort(unused)
	return unused
}

// A Share is what one uncertain value contributes to the uncertainty of an
// output: sensitivity times standard uncertainty.
type Share struct {
	Name string // of the input, a list's with its member, or the source shared
	U    float64
}

// An Uncertainty is that of one output, by first order (JCGM 100:2008, 5.1.2).
type Uncertainty struct {
	Cell     *Cell
	Standard float64 // canonical, as a difference
	Shares   []Share // in the order of the inputs
}

// A variable is one uncertain number of a sheet, or several that move together.
type variable struct {
	name string
	of   []member
	u    Uncertain
}

type member struct {
	cell  *Cell
	index int
	scale float64 // standard uncertainty
}

func (m member) value() float64 {
	if m.cell.number != nil {
		return *m.cell.number
	}
	return m.cell.bound.at(m.index)
}

func (m member) put(x float64) {
	if m.cell.number != nil {
		*m.cell.number = x
		return
	}
	values := m.cell.Numbers()
	values[m.index] = x
	m.cell.bound.set(values)
}

// variables lists what is uncertain. Members with one source are one variable.
func (s *Sheet) variables() []variable {
	var vs []variable
	for _, c := range s.In {
		if !c.given {
			continue
		}
		factor := 1.0
		if len(c.raw) > 0 && c.Kind == nil { // a Value was written in one unit and counts in another
			unit, to := c.unit, c.relatedUnit()
			if a, err := unit.Difference().Convert(1, to.Difference()); err == nil {
				factor = a
			}
		}
		for i, u := range c.uncertain {
			if u.Standard == 0 {
				continue
			}
			m := member{c, i, u.Standard * factor}
			if u.Source != "" {
				if k := slices.IndexFunc(vs, func(v variable) bool { return v.u.Source == u.Source }); k >= 0 {
					vs[k].of = append(vs[k].of, m)
					continue
				}
			}
			name := c.Name
			if u.Source != "" {
				name = u.Source
			} else if c.Shape == List {
				name = memberName(c.Name, i)
			}
			vs = append(vs, variable{name, []member{m}, u})
		}
	}
	return vs
}

// move sets a variable t standard uncertainties from where it was.
func (v variable) move(from []float64, t float64) {
	for i, m := range v.of {
		m.put(from[i] + t*m.scale)
	}
}

func (v variable) values() []float64 {
	out := make([]float64, len(v.of))
	for i, m := range v.of {
		out[i] = m.value()
	}
	return out
}

// Uncertainties propagates the uncertainty of the inputs to all outputs, and to
// the input that was solved for. The sheet must have run; it is left as it was.
// Without an uncertain input there is none.
func (s *Sheet) Uncertainties() ([]Uncertainty, error) {
	if !s.ran {
		return nil, ErrNotRun
	}
	vs := s.variables()
	target := s.target()
	if len(vs) == 0 && (target == nil || len(target.uncertain) == 0) {
		return nil, nil
	}
	var out []Uncertainty
	cells, lengths := s.numericOutputs()
	for i, c := range cells {
		for range lengths[i] {
			out = append(out, Uncertainty{Cell: c})
		}
	}
	n := len(out)
	var root *solvedRoot
	if target != nil {
		var err error
		if root, err = s.solvedRoot(target, n, slices.Index(cells, target)); err != nil {
			return nil, err
		}
		out = append(out, Uncertainty{Cell: root.cell})
		if len(target.uncertain) > 0 {
			root.share(out, target.Name, make([]float64, n), target.uncertain[0].Standard)
		}
	}
	for _, v := range vs {
		slopes, err := s.slopes(v, n)
		if err != nil {
			return nil, fmt.Errorf("uncertainty of %s: %w", v.name, err)
		}
		if root != nil {
			root.share(out, v.name, slopes, 0)
			continue
		}
		for i, slope := range slopes {
			out[i].add(v.name, slope)
		}
	}
	if err := s.evaluate(); err != nil {
		return nil, err
	}
	values := s.results(nil)
	if root != nil {
		values = append(values, root.cell.Number())
	}
	for i, y := range values {
		out[i].dropNoise(y)
	}
	return out, nil
}

func (u *Uncertainty) add(name string, slope float64) {
	u.Shares = append(u.Shares, Share{name, math.Abs(slope)})
	u.Standard = math.Hypot(u.Standard, slope)
}

// target is the output that was given to solve for an input.
func (s *Sheet) target() *Cell {
	if len(s.Roots) == 0 {
		return nil
	}
	for _, c := range s.Out {
		if c.given {
			return c
		}
	}
	return nil
}

// A solvedRoot moves with the uncertain inputs, so that the output that was
// given stays what it is.
type solvedRoot struct {
	cell   *Cell
	scale  float64   // of the slopes
	slopes []float64 // of all results with the root
	target int       // the output that was given
}

func (s *Sheet) solvedRoot(target *Cell, n, at int) (*solvedRoot, error) {
	r := &solvedRoot{cell: s.Roots[0].Input, target: at}
	r.scale = max(1e-3*math.Abs(r.cell.Number()), 1e-12)
	var err error
	r.slopes, err = s.slopes(variable{r.cell.Name, []member{{r.cell, 0, r.scale}}, Uncertain{}}, n)
	if err != nil {
		return nil, err
	}
	if at < 0 || r.slopes[at] == 0 {
		return nil, fmt.Errorf("uncertainty of %s: %s does not move with it", r.cell.Name, target.Name)
	}
	return r, nil
}

// share adds what one variable does to each result and, last, to the root:
// directly, and by way of the root. The output given has an uncertainty of its
// own alone.
func (r *solvedRoot) share(out []Uncertainty, name string, slopes []float64, own float64) {
	move := (own - slopes[r.target]) / r.slopes[r.target]
	for i, slope := range slopes {
		if i == r.target {
			out[i].add(name, own)
		} else {
			out[i].add(name, slope+move*r.slopes[i])
		}
	}
	out[len(slopes)].add(name, move*r.scale)
}

// dropNoise keeps the twelve digits that a difference has, and sets to zero
// what the last digits of the results make of a slope that is zero.
func (u *Uncertainty) dropNoise(y float64) {
	u.Standard = toDigits(u.Standard, 12)
	if u.Standard < 1e-13*math.Abs(y) {
		u.Standard = 0
	}
	for i := range u.Shares {
		if u.Shares[i].U < 1e-10*u.Standard || u.Standard == 0 {
			u.Shares[i].U = 0
		}
	}
}

// numericOutputs lists the outputs that are numbers and how many each holds.
func (s *Sheet) numericOutputs() (cells []*Cell, lengths []int) {
	for _, c := range s.Out {
		if c.Shape == Word || c.Shape == Text || !c.Present() {
			continue
		}
		n := 1
		if c.number == nil {
			n = c.bound.length()
		}
		cells, lengths = append(cells, c), append(lengths, n)
	}
	return cells, lengths
}

// results appends all numeric results in order.
func (s *Sheet) results(dst []float64) []float64 {
	for _, c := range s.Out {
		switch {
		case c.Shape == Word || c.Shape == Text:
		case c.number != nil:
			dst = append(dst, *c.number)
		default:
			for i := range c.bound.length() {
				dst = append(dst, c.bound.at(i))
			}
		}
	}
	return dst
}

// slopes are the changes of the n results for one standard uncertainty of v.
// A step of a thousandth leaves twelve digits.
func (s *Sheet) slopes(v variable, n int) ([]float64, error) {
	from := v.values()
	defer v.move(from, 0)
	h := math.Inf(1)
	for i, m := range v.of {
		h = min(h, 1e-3*max(math.Abs(from[i]), m.scale)/m.scale)
	}
	return uncertainty.Slope(func(t float64) ([]float64, error) {
		v.move(from, t)
		if err := s.evaluate(); err != nil {
			return nil, err
		}
		y := s.results(nil)
		if len(y) != n {
			return nil, uncertainty.ErrResults
		}
		return y, nil
	}, h)
}
