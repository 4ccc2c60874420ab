package calc

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/uncertainty"
)

// A Distribution is the shape assumed for an uncertain input.
type Distribution uint8

// The distributions.
const (
	Normal Distribution = iota
	Rectangular
	Triangular
	Arcsine
)

// Kurtosis returns the fourth moment of the distribution in standard uncertainties. One that
// is not known is taken as normal.
func (d Distribution) Kurtosis() float64 {
	if d > Arcsine {
		d = Normal
	}
	return [...]float64{Normal: 3, Rectangular: 1.8, Triangular: 2.4, Arcsine: 1.5}[d]
}

// divisors turn the number on the right of ± into a standard uncertainty. For a normal
// distribution it is one already, for the others a half-width (GUM 4.3).
var divisors = [...]float64{Normal: 1, Rectangular: sqrt3, Triangular: sqrt6, Arcsine: math.Sqrt2}

const (
	sqrt3 = 1.7320508075688772935274463415058723669428
	sqrt6 = 2.4494897427831780981972840747058913919659
)

// String returns the name of the distribution.
func (d Distribution) String() string {
	if d > Arcsine {
		return "distribution " + strconv.Itoa(int(d))
	}
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
	Source       string  // values with one source move together
	Freedom      float64 // degrees of freedom; zero: infinitely many
	unit         string
}

// in returns a source's uncertainty for a value in the unit u.
func (s Uncertain) in(c *Cell, u paperprop.Unit) (Uncertain, error) {
	if s.unit == "" && !pure(u) {
		return s, fmt.Errorf("the source has no unit, want one as in %s", u)
	}
	unit, err := c.unitBeside(s.unit, u)
	s.Standard = unit.From(s.Standard)
	return s, err
}

// SetSource names an uncertainty that several inputs share, as when one balance weighs
// both masses. The text is a number and a unit: "0.5 mg", "rectangular(1) mg". An input
// uses it by name: "12.5 g ± balance". The error is an [InputError].
func (s *Sheet) SetSource(name, text string) error {
	read := &Cell{Field: &Field{Name: name, Relation: "any"}, sheet: s}
	r, err := read.readSpread(text, false)
	if err == nil && (r.source != nil || len(r.halfWidths) != 1) {
		err = errOneNumber
	}
	if err != nil {
		return &InputError{"source " + name, text, err}
	}
	if s.sources == nil {
		s.sources = map[string]Uncertain{}
	}
	source := Uncertain{
		Standard: r.halfWidths[0] / r.divisor, Distribution: r.distribution, Freedom: r.freedom, unit: r.unit,
	}
	if first, ok := s.sources[name]; ok {
		if source.Freedom == 0 {
			source.Freedom = first.Freedom // set by SetFreedom
		}
		if first != source {
			return &InputError{"source " + name, text, errSourceTwice}
		}
	}
	s.sources[name] = source
	return nil
}

// UnusedSources returns the names of the sources that no input uses.
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

// A Share is the contribution of one uncertain value to the uncertainty of an output:
// sensitivity times standard uncertainty.
type Share struct {
	Name string // name of the input, of the member of a list, or of the shared source
	U    float64

	slope, freedom float64 // U with its sign
}

// An Uncertainty is the first-order uncertainty of one output (JCGM 100:2008, 5.1.2 and
// 5.2.2).
type Uncertainty struct {
	Cell     *Cell
	Standard float64 // canonical, as a difference
	Freedom  float64 // effective degrees of freedom, not rounded; zero: infinitely many, or not available
	Shares   []Share // in the order of the inputs

	freedomLost bool // it has none, as values that have are correlated
}

// Expanded returns the coverage factor for a level of confidence between 0 and 1, and
// the expanded uncertainty in the canonical unit (JCGM 100:2008, 6.2 and G.3).
func (u *Uncertainty) Expanded(confidence float64) (k, expanded float64, err error) {
	k, err = uncertainty.Factor(confidence, u.Freedom)
	return k, k * u.Standard, err
}

// A correlation is between two uncertain values, given by the names of their shares.
type correlation struct {
	a, b string
	r    float64
}

// of reports whether it is that of a and b, in either order.
func (c correlation) of(a, b string) bool { return c.a == a && c.b == b || c.a == b && c.b == a }

// Correlate sets the correlation r of two uncertain values, which may be inputs,
// members of a list, or sources. Pairs without one are independent. A later call for
// the same pair replaces it, and Reset clears it.
func (s *Sheet) Correlate(a, b string, r float64) error {
	switch {
	case a == b:
		return fmt.Errorf("%s is one value: it can't be correlated with itself", a)
	case !(r >= -1 && r <= 1):
		return fmt.Errorf("the correlation of %s and %s is %v, want -1 to 1", a, b, r)
	}
	names := s.uncertainNames()
	for _, name := range []string{a, b} {
		if !slices.Contains(names, name) {
			return fmt.Errorf("%s has no uncertainty to be correlated; uncertain are: %s", name, strings.Join(names, ", "))
		}
	}
	s.law = nil
	s.correlations = slices.DeleteFunc(s.correlations, func(c correlation) bool { return c.of(a, b) })
	if r != 0 {
		s.correlations = append(s.correlations, correlation{a, b, r})
	}
	return nil
}

// correlated returns the correlations of values that are still uncertain.
func (s *Sheet) correlated() []correlation {
	if len(s.correlations) == 0 {
		return nil
	}
	names := s.uncertainNames()
	return slices.DeleteFunc(slices.Clone(s.correlations), func(c correlation) bool {
		return !slices.Contains(names, c.a) || !slices.Contains(names, c.b)
	})
}

// uncertainNames returns the names of what is uncertain.
func (s *Sheet) uncertainNames() (names []string) {
	for _, v := range s.variables() {
		names = append(names, v.name)
	}
	return names
}

// SetFreedom sets the degrees of freedom, above zero, of the uncertain values of an
// input or of a shared source. A source keeps them; an input has them until it is given
// anew.
func (s *Sheet) SetFreedom(name string, freedom float64) error {
	if !(freedom > 0) || math.IsInf(freedom, 0) {
		return fmt.Errorf("%v degrees of freedom of %s, want a number above 0", freedom, name)
	}
	s.law = nil
	source, found := s.sources[name]
	if found { // for inputs that use it later
		source.Freedom = freedom
		s.sources[name] = source
	}
	for _, c := range s.In {
		for i := range c.uncertain {
			switch u := &c.uncertain[i]; {
			case u.Source == name && name != "":
			case c.Name != name:
				continue
			case u.Source != "":
				return fmt.Errorf("the uncertainty of %s is that of the source %s: give the degrees of freedom to that", name, u.Source)
			}
			c.uncertain[i].Freedom, found = freedom, true
		}
	}
	if found {
		return nil
	}
	if _, ok := s.Input(name); ok {
		return fmt.Errorf("%s has no uncertainty that could have degrees of freedom", name)
	}
	return s.nameError(name)
}

// correlationOf returns the correlation of two shares by their names.
func (s *Sheet) correlationOf(a, b string) float64 {
	for _, c := range s.correlations {
		if c.of(a, b) {
			return c.r
		}
	}
	return 0
}

// relation returns the correlations of shares, or variables, by their names.
func (s *Sheet) relation(name func(i int) string) uncertainty.Correlation {
	if len(s.correlations) == 0 {
		return uncertainty.Independent
	}
	return func(i, j int) float64 {
		if i == j {
			return 1
		}
		return s.correlationOf(name(i), name(j))
	}
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

func (m member) put(x float64) { m.cell.putMember(m.index, x) }

// variables returns what is uncertain. Members with the same source are one variable.
func (s *Sheet) variables() []variable {
	var vs []variable
	for _, c := range s.In {
		if !c.given {
			continue
		}
		factor := c.writtenFactor()
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

// writtenFactor returns the factor from an uncertainty as written to the unit in which
// the cell is computed: a Value may be written in another unit.
func (c *Cell) writtenFactor() float64 {
	if c.Kind == nil {
		if a, err := c.unit.Difference().Convert(1, c.relatedUnit().Difference()); err == nil {
			return a
		}
	}
	return 1
}

// move sets a variable to t standard uncertainties from where it was.
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

// Uncertainties propagates the uncertainties of the inputs to all outputs, and to the
// input that was solved for. For an output that changes in jumps the result means
// nothing: use [MonteCarlo]. The sheet must have run, and is unchanged afterwards.
// Without an uncertain input the result is nil. The shares are not for the caller to change.
func (s *Sheet) Uncertainties() ([]Uncertainty, error) {
	law, err := s.firstOrder()
	if err != nil {
		return nil, err
	}
	return slices.Clone(law.all), nil
}

// A law is what the law of propagation makes of a run: each face asks for it more than once.
type law struct {
	all  []Uncertainty
	root *solvedRoot // nil where no input was solved for
}

// firstOrder returns the law of the last run, and works it out once.
func (s *Sheet) firstOrder() (*law, error) {
	if !s.ran {
		return nil, ErrNotRun
	}
	if s.law == nil {
		law, err := s.propagated()
		if err != nil {
			return nil, err
		}
		s.law = law
	}
	return s.law, nil
}

func (s *Sheet) propagated() (*law, error) {
	vs := s.variables()
	target := s.target()
	if len(vs) == 0 && (target == nil || len(target.uncertain) == 0) {
		return new(law), nil
	}
	out, root, err := s.propagate(vs, target, s.shape())
	if restored := s.evaluate(); err == nil { // the steps have changed the results
		err = restored
	}
	if err != nil {
		return nil, err
	}
	values := s.results(nil)
	if root != nil {
		values = append(values, root.cell.Number())
	}
	for i, y := range values {
		out[i].dropNoise(y)
	}
	return &law{out, root}, nil
}

// propagate computes the uncertainties by steps of the inputs. It leaves the results of
// the last step in the sheet.
func (s *Sheet) propagate(vs []variable, target *Cell, of shape) (out []Uncertainty, root *solvedRoot, err error) {
	var at int // position of the target: a list before it holds several results
	for i, c := range s.Out {
		if c == target {
			at = len(out)
		}
		for range of[i] {
			out = append(out, Uncertainty{Cell: c})
		}
	}
	n := len(out)
	if target != nil {
		if root, err = s.solvedRoot(target, of, at); err != nil {
			return nil, nil, err
		}
		out = append(out, Uncertainty{Cell: root.cell})
		if len(target.uncertain) > 0 {
			own := target.uncertain[0]
			root.share(out, Share{Name: target.Name, freedom: own.Freedom}, make([]float64, n), own.Standard*target.writtenFactor())
		}
	}
	for _, v := range vs {
		slopes, err := s.slopes(v, of)
		if err != nil {
			return nil, nil, fmt.Errorf("uncertainty of %s: %w", v.name, err)
		}
		of := Share{Name: v.name, freedom: v.u.Freedom}
		if root != nil {
			root.share(out, of, slopes, 0)
			continue
		}
		for i, slope := range slopes {
			out[i].add(of, slope)
		}
	}
	for i := range out {
		if err := out[i].combine(s); err != nil {
			return nil, nil, err
		}
	}
	return out, root, nil
}

func (u *Uncertainty) add(of Share, slope float64) {
	of.slope, of.U = slope, math.Abs(slope)
	u.Shares = append(u.Shares, of)
}

// combine computes the uncertainty from its shares.
func (u *Uncertainty) combine(s *Sheet) (err error) {
	slopes, freedom := make([]float64, 0, len(u.Shares)), make([]float64, 0, len(u.Shares))
	for _, share := range u.Shares {
		slopes, freedom = append(slopes, share.slope), append(freedom, share.freedom)
	}
	related := s.relation(func(i int) string { return u.Shares[i].Name })
	if u.Standard, err = uncertainty.Combined(slopes, related); err != nil || u.Standard == 0 {
		return err
	}
	if u.freedomLost = u.correlatesFreedom(related); !u.freedomLost {
		u.Freedom = uncertainty.Freedom(u.Standard, slopes, freedom)
	}
	return nil
}

// correlatesFreedom reports whether a value of few degrees of freedom is correlated with
// another, so that the formula of Welch and Satterthwaite does not hold. Values that do
// not move the result don't count.
func (u *Uncertainty) correlatesFreedom(related uncertainty.Correlation) bool {
	for i, a := range u.Shares {
		for j, b := range u.Shares[:i] {
			if (a.freedom > 0 || b.freedom > 0) && u.feels(a) && u.feels(b) && related(i, j) != 0 {
				return true
			}
		}
	}
	return false
}

// feels reports whether a value moves the result by more than rounding does.
func (u *Uncertainty) feels(s Share) bool { return s.U > 1e-10*u.Standard }

// A solvedRoot moves with the uncertain inputs, so that the given output keeps its
// value.
type solvedRoot struct {
	cell   *Cell
	scale  float64   // step to which the slopes refer
	slopes []float64 // of all results by the root
	target int       // index of the output that was given
}

func (s *Sheet) solvedRoot(target *Cell, of shape, at int) (*solvedRoot, error) {
	r := &solvedRoot{cell: s.Roots[0].Input, target: at}
	if target.Stepped {
		return nil, fmt.Errorf("uncertainty of %s: %s moves in steps and has no slope, want the inputs without ±", r.cell.Name, target.Name)
	}
	r.scale = max(1e-3*math.Abs(r.cell.Number()), 1e-12)
	var err error
	r.slopes, err = s.slopes(variable{r.cell.Name, []member{{r.cell, 0, r.scale}}, Uncertain{}}, of)
	if err != nil {
		return nil, err
	}
	if r.slopes[at] == 0 {
		return nil, fmt.Errorf("uncertainty of %s: %s does not move with it", r.cell.Name, target.Name)
	}
	return r, nil
}

// share adds what one variable contributes to each result and, last, to the root:
// directly, and through the root. The given output has only its own uncertainty.
func (r *solvedRoot) share(out []Uncertainty, of Share, slopes []float64, own float64) {
	move := (own - slopes[r.target]) / r.slopes[r.target]
	for i, slope := range slopes {
		if i == r.target {
			out[i].add(of, own)
		} else {
			out[i].add(of, slope+move*r.slopes[i])
		}
	}
	out[len(slopes)].add(of, move*r.scale)
}

// dropNoise keeps the twelve digits of a difference that are valid, and sets to zero
// what is only rounding of the results.
func (u *Uncertainty) dropNoise(y float64) {
	u.Standard = uncertainty.Digits(u.Standard)
	if u.Standard < uncertainty.Negligible*math.Abs(y) {
		u.Standard = 0
	}
	for i := range u.Shares {
		share := &u.Shares[i].U
		if *share = uncertainty.Digits(*share); *share < 1e-10*u.Standard || u.Standard == 0 {
			*share = 0
		}
	}
}

// A shape is the number of numeric results of each output at the estimates.
type shape []int

// shape returns the shape of the results that the sheet holds.
func (s *Sheet) shape() shape {
	of := make(shape, len(s.Out))
	for i, c := range s.Out {
		of[i] = c.results()
	}
	return of
}

// results returns how many numbers an output holds: none if it is absent or in letters.
func (c *Cell) results() int {
	switch {
	case c.Shape.inLetters() || !c.present():
		return 0
	case c.number != nil:
		return 1
	}
	return c.bound.length()
}

// results appends all numeric results in order, except absent ones.
func (s *Sheet) results(dst []float64) []float64 {
	dst, _ = s.resultsAs(s.shape(), dst)
	return dst
}

// resultsAs appends the results that have a place in the shape. It reports false if one is
// missing; one that is absent at the estimates, as what is divided by the deviation of
// equal readings, is not looked for.
func (s *Sheet) resultsAs(of shape, dst []float64) ([]float64, bool) {
	for i, n := range of {
		if n == 0 {
			continue
		}
		c := s.Out[i]
		if c.results() != n {
			return dst, false
		}
		if c.number != nil {
			dst = append(dst, *c.number)
			continue
		}
		for k := range n {
			dst = append(dst, c.bound.at(k))
		}
	}
	return dst, true
}

// slopes returns the changes of the results for one standard uncertainty of v. A step of a
// thousandth leaves twelve digits.
func (s *Sheet) slopes(v variable, of shape) ([]float64, error) {
	from := v.values()
	defer v.move(from, 0)
	h := math.Inf(1)
	for i, m := range v.of {
		h = min(h, 1e-3*max(math.Abs(from[i]), m.scale)/m.scale)
	}
	var y []float64 // for each step: Slope keeps a copy
	return uncertainty.Slope(func(t float64) ([]float64, error) {
		v.move(from, t)
		if err := s.evaluate(); err != nil {
			return nil, err
		}
		var ok bool
		if y, ok = s.resultsAs(of, y[:0]); !ok {
			return nil, uncertainty.ErrResults
		}
		return y, nil
	}, h)
}

// A Bent is the mean and uncertainty of one output with the second-order terms for
// independent normal inputs (JCGM 100:2008, 5.1.2 note).
type Bent struct {
	Cell           *Cell
	Mean, Standard float64 // canonical; Standard as a difference
}

// SecondOrder propagates the uncertainties of the inputs with the second-order terms.
// The sheet must have run, and is unchanged afterwards. Outputs that change in jumps
// are left out.
func (s *Sheet) SecondOrder() ([]Bent, error) {
	switch correlated := s.correlated(); {
	case len(s.Roots) > 0:
		return nil, fmt.Errorf("%s was solved for, and second order does not solve: give it in place of the output", s.Roots[0].Input.Name)
	case len(correlated) > 0:
		return nil, fmt.Errorf("second order holds for independent inputs, and %s and %s are correlated", correlated[0].a, correlated[0].b)
	}
	first, err := s.Uncertainties()
	if err != nil || len(first) == 0 {
		return nil, err
	}
	vs := s.variables()
	estimates, f := s.results(nil), s.movedBy(vs)
	bends, err := uncertainty.Bends(f, len(vs))
	if _, restored := f(make([]float64, len(vs))); restored != nil {
		return nil, restored
	}
	if err != nil {
		return nil, fmt.Errorf("second order: %w", err)
	}
	var out []Bent
	for i, b := range bends {
		if first[i].Cell.Stepped {
			continue
		}
		standard, ok := b.Standard(estimates[i], first[i].Standard)
		if !ok {
			return nil, fmt.Errorf("second order: the terms of %s come out below zero: take draws", first[i].Cell.Name)
		}
		out = append(out, Bent{first[i].Cell, estimates[i] + b.Shift, standard})
	}
	return out, nil
}
