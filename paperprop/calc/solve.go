package calc

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/wording"
)

// A Root is a value of the unknown input that gives the required output. If the output
// counts whole things, it is an interval.
type Root struct {
	Input     *Cell
	Low, High float64 // canonical; equal for a single value
}

// gridSteps is the number of steps in which the range of the unknown is searched.
const gridSteps = 2000

// openEnd is where the search stops on an open side, in the unit to print in.
const openEnd = 1e9

// A NoRootError reports that no value of the unknown gives the output.
type NoRootError struct {
	Unknown, Target *Cell
	Low, High       float64 // canonical: the range that was searched
	Flat            bool    // the output does not depend on the unknown
	Between         bool    // for a whole number: the answer lies between Low and High

	given string // text of the target, kept because the next row may replace it
}

func (e *NoRootError) Error() string {
	if e.Flat {
		return fmt.Sprintf("%s does not depend on %s", e.Target.Name, e.Unknown.Name)
	}
	low, high := e.Unknown.people(e.Low), e.Unknown.people(e.High)
	if e.Between {
		return fmt.Sprintf("no whole %s gives %s %s: the answer lies between %s and %s", e.Unknown.Name,
			e.Target.Name, e.given, low, high)
	}
	return fmt.Sprintf("no %s between %s and %s gives %s %s", e.Unknown.Name, low, high, e.Target.Name, e.given)
}

// target returns the output that was given to solve for an input; nil if there is none.
func (s *Sheet) target() *Cell {
	if i := slices.IndexFunc(s.Out, (*Cell).Given); i >= 0 {
		return s.Out[i]
	}
	return nil
}

// solve finds the input left out from the output given.
func (s *Sheet) solve(target *Cell) error {
	for _, c := range s.Out {
		if c.given && c != target {
			return fmt.Errorf("%s and %s are both outputs: give one to solve for an input", target.Name, c.Name)
		}
	}
	unknown, err := s.toSolveFor(target)
	if err != nil {
		return err
	}
	unknown.given = true
	defer func() { unknown.given = false }()
	if s.related {
		if err := s.relate(); err != nil {
			return err
		}
	}
	search := searcher{s: s, unknown: unknown, target: target}
	if search.want, err = target.wanting(); err != nil {
		return err
	}
	if err := search.run(); err != nil {
		return err
	}
	s.Roots = search.roots
	s.MoreRoots = search.more || search.gear == nil && len(search.roots) > fewRoots
	return s.at(s.Roots[0])
}

// at computes the results that belong to one of the values found.
func (s *Sheet) at(r Root) error {
	s.law = nil
	r.Input.given = true
	defer func() { r.Input.given = false }()
	r.Input.put(r.Low)
	return s.run()
}

// wanting returns the number that an output was given; for a Value, in the unit in
// which it is computed.
func (c *Cell) wanting() (float64, error) {
	if c.Kind != nil {
		return c.want, nil
	}
	to := c.relatedUnit()
	if err := c.bothNamed(to); err != nil {
		return 0, err
	}
	return c.converted(c.want, to)
}

// toSolveFor returns the input to solve for: the one given as "?", else the required one
// left out, else the only one that would complete a choice.
func (s *Sheet) toSolveFor(target *Cell) (*Cell, error) {
	asked, missing := s.open((*Cell).Given)
	open := asked
	if len(open) == 0 {
		open = missing
	} else if len(missing) > 0 {
		return nil, &MissingError{Input: missing[0].Field}
	}
	switch {
	case len(open) > 1:
		var names []string
		for _, c := range open {
			names = append(names, c.Name)
		}
		return nil, fmt.Errorf("%s are left out, one output gives only one of them", strings.Join(names, " and "))
	case len(open) == 0:
		return nil, fmt.Errorf("%s is an output and no required input is left out: leave one out, or give the one asked for as ?%s", target.Name, s.assumed())
	}
	c := open[0]
	if c.Shape != One {
		return nil, fmt.Errorf("can't solve for %s: only for one number", c.Name)
	}
	if c.Kind == nil && c.Relation == "any" && len(c.raw) == 0 {
		c.unit = s.unitSought(c, target)
	}
	return c, nil
}

// open returns the inputs that could be solved for: those given as "?", and the required
// ones left out.
func (s *Sheet) open(given func(*Cell) bool) (asked, missing []*Cell) {
	for _, c := range s.In {
		switch {
		case c.asked:
			asked = append(asked, c)
		case c.Need == Required && !given(c):
			missing = append(missing, c)
		}
	}
	return asked, missing
}

// Sought reports whether the input with that name was solved for in the last run. An
// output of the same name only repeats it.
func (s *Sheet) Sought(name string) bool { return len(s.Roots) > 0 && s.Roots[0].Input.Name == name }

// unitSought returns the unit in which a Value is solved for: that of the output that
// follows it, else of an input that does. A difference of temperatures comes last: in K, it
// does not say in which unit the temperature is.
func (s *Sheet) unitSought(c, target *Cell) (unit paperprop.Unit) {
	for _, f := range append([]*Cell{target}, s.In...) {
		if f == c || !f.given || f.follows.of != c {
			continue
		}
		if k := f.unit.Kind(); k == nil || k.Name() != "TemperatureDifference" || f.follows.how != difference {
			return f.unit
		}
		if unit.IsZero() {
			unit = f.unit
		}
	}
	return unit
}

// assumed names the inputs with a default that may be solved for on request.
func (s *Sheet) assumed() string {
	var text string
	for _, choice := range s.choices {
		open := slices.DeleteFunc(slices.Concat(choice.Of...), func(name string) bool {
			c, _ := s.Input(name)
			return c.given
		})
		if len(open) > 0 {
			text += ", such as " + wording.Or(open)
		}
	}
	var names []string
	for _, c := range s.Defaults() {
		names = append(names, c.Name)
	}
	if len(names) > 0 {
		text += "; there is a default for " + strings.Join(names, ", ")
	}
	return text
}

type searcher struct {
	s               *Sheet
	unknown, target *Cell
	want            float64
	roots           []Root
	best            float64 // distance of the last root from the wanted output
	near            float64 // change of the output that counts as none
	last            probe   // the last point considered
	gear            *Cell   // the count with which the output jumps; nil if there is none
	more            bool    // there are roots besides those found
	lastErr         error
}

// miss returns the distance from the wanted output, and whether the calculation refuses
// the input. The refusal is kept without the text as written, as only the last one is
// reported.
func (f *searcher) miss(x float64) (y float64, refused bool) {
	f.unknown.put(x)
	err := f.s.settle()
	if err == nil {
		err = f.s.compute()
	}
	if err == nil {
		err = f.s.finite()
	}
	if err != nil {
		f.lastErr = err
		return 0, true
	}
	if !f.target.present() {
		return 0, true
	}
	return f.target.Number() - f.want, false
}

// A probe is one point of the search.
type probe struct {
	x, miss float64
	count   float64 // of the gear, if there is one
	refused bool
}

func (f *searcher) probe(x float64) probe {
	p := probe{x: x}
	if p.miss, p.refused = f.miss(x); f.gear != nil && !p.refused {
		p.count = *f.gear.number
	}
	return p
}

func (f *searcher) run() error {
	g := &f.s.guards[f.unknown.index]
	whole := g.whole
	g.whole = false // the search also tries numbers that are not whole
	defer func() { g.whole = whole }()

	if f.unknown.grid == nil {
		f.unknown.grid = grid(g)
	}
	grid := f.unknown.grid
	f.gear = f.geared(grid)
	computed := make([]probe, 0, len(grid))
	before := probe{refused: true}
	older := before
	f.last = before
	for _, x := range grid {
		p := f.probe(x)
		if !p.refused {
			computed = append(computed, p)
		}
		edge := p
		if x > grid[0] {
			edge = f.between(before, p)
		}
		f.consider(p)
		switch {
		case p.refused && !before.refused:
			f.dip(older, before, edge)
			f.dipAt(edge, before)
		case before.refused && !p.refused:
			before = edge
			f.dipAt(edge, p)
		default:
			f.dip(older, before, p)
		}
		older, before = before, p
	}
	if len(computed) == 0 && f.lastErr != nil {
		return f.s.asWritten(f.lastErr)
	}
	f.widen(grid)
	f.roots = slices.DeleteFunc(f.roots, func(r Root) bool { return f.excluded(r, g) })
	none := &NoRootError{Unknown: f.unknown, Target: f.target, given: f.target.text}
	if f.flat(computed) {
		none.Flat = true
		return none
	}
	if found := f.roots; whole && len(found) > 0 {
		if f.wholeRoots(); len(f.roots) == 0 {
			none.Between, none.Low, none.High = true, math.Floor(found[0].Low), math.Ceil(found[0].High)
			return none
		}
	}
	if len(f.roots) == 0 {
		none.Low, none.High = grid[0], grid[len(grid)-1]
		if f.unknown.AboveLow {
			none.Low = math.Nextafter(none.Low, math.Inf(-1)) // the excluded end itself
		}
		return none
	}
	slices.SortFunc(f.roots, func(a, b Root) int { return cmp.Compare(a.Low, b.Low) })
	return nil
}

// Limits for an output that is constant except for rounding, which is large where the
// unknown is close to zero. Chosen here: in the tests over the catalogue they lose no
// root.
const (
	mostlyBelieved = 0.85 // of the points: the output equals the wanted one almost everywhere
	wholeStretch   = 0.9  // of those believed: if so many lie in the roots, they are one stretch and an answer
	strayPoints    = 50   // one in this many may be an outlier, at either end, or refused
)

// flat reports whether the output does not depend on the unknown.
func (f *searcher) flat(computed []probe) bool {
	if len(computed) < 2 {
		return false
	}
	least, most, believed := computed[0].miss, computed[0].miss, 0
	for _, p := range computed {
		least, most = min(least, p.miss), max(most, p.miss)
		if f.believes(p) {
			believed++
		}
	}
	switch {
	case f.still(least, most):
		// With whole things there may be a single number before the next is refused.
		refused := len(f.unknown.grid) - len(computed)
		return !f.target.Stepped || refused <= len(computed)/strayPoints
	case len(f.roots) > 0:
		return f.want != 0 && float64(believed) > mostlyBelieved*float64(len(computed)) && (f.inPieces(computed, believed) || f.throughout(computed))
	}
	slices.SortFunc(computed, func(a, b probe) int { return cmp.Compare(a.miss, b.miss) })
	stray := len(computed) / strayPoints
	return f.still(computed[stray].miss, computed[len(computed)-1-stray].miss)
}

// still reports whether two outputs are equal apart from rounding.
func (f *searcher) still(least, most float64) bool {
	return most-least <= 1e-13*max(math.Abs(most+f.want), math.Abs(least+f.want))
}

// inPieces reports whether the roots leave out many of the points that are believed.
func (f *searcher) inPieces(computed []probe, believed int) bool {
	found := 0
	for _, p := range computed {
		if slices.ContainsFunc(f.roots, func(r Root) bool { return r.Low <= p.x && p.x <= r.High }) {
			found++
		}
	}
	return float64(found) < wholeStretch*float64(believed)
}

// throughout reports whether one root, of an output that does not jump, extends from
// end to end of what was computed.
func (f *searcher) throughout(computed []probe) bool {
	stray := len(computed) / strayPoints
	r := f.roots[0]
	return !f.target.Stepped && r.Low <= computed[stray].x && r.High >= computed[len(computed)-1-stray].x
}

// excluded reports whether a root is the last number before an excluded end: the end
// itself gives the output, as no flow needs no water.
func (f *searcher) excluded(r Root, g *guard) bool {
	return f.unknown.AboveLow && r.High <= g.low || f.unknown.BelowHigh && r.Low >= g.high
}

// mostCounted is how far the search tries whole numbers too.
const mostCounted = 100

// grid returns the points to search: evenly spaced over a closed range and also
// logarithmically, as the end of a range may be much smaller than the range. A pure number
// may be refused where it is not whole, as degrees of freedom without a rule for others.
func grid(g *guard) []float64 {
	unit := g.cell.Unit.From(1) - g.cell.Unit.From(0)
	low, high := g.low, g.high
	openLow, openHigh := low < -openEnd*unit, high > openEnd*unit
	if openLow {
		low = -openEnd * unit
	}
	if openHigh {
		high = openEnd * unit
	}
	points := []float64{low, high}
	if !openLow && !openHigh {
		for i := 1; i < gridSteps; i++ {
			points = append(points, low+(high-low)*float64(i)/gridSteps)
		}
	}
	// Starts at a nano-unit, on either side of zero within the range.
	for i := range gridSteps {
		x := unit * math.Pow(10, -9+18*float64(i)/gridSteps)
		for _, x := range []float64{x, -x} {
			if x > low && x < high {
				points = append(points, x)
			}
		}
	}
	if low < 0 && high > 0 {
		points = append(points, 0)
	}
	if k := g.cell.Kind; k != nil && k.Name() == "Ratio" {
		for x := 1.0; x <= mostCounted; x++ {
			if x > low && x < high {
				points = append(points, x)
			}
		}
	}
	slices.Sort(points)
	return slices.Compact(points)
}

// between looks for roots between two neighbouring points of the grid. Where one of them
// is refused it returns the last accepted point on the way to it, else b.
func (f *searcher) between(a, b probe) (edge probe) {
	edge = b
	switch {
	case a.refused && b.refused:
		return edge
	case a.refused || b.refused:
		edge = f.edge(a, b)
		f.consider(edge)
		if a.refused {
			a = edge
		} else {
			b = edge
		}
	}
	f.teeth(a, b)
	return edge
}

// edge returns the last accepted point on the way to the refused one.
func (f *searcher) edge(a, b probe) probe {
	taken, refused := a, b
	if a.refused {
		taken, refused = b, a
	}
	for range 120 {
		x := taken.x + (refused.x-taken.x)/2
		if x == taken.x || x == refused.x {
			break
		}
		if p := f.probe(x); p.refused {
			refused = p
		} else {
			taken = p
		}
	}
	return taken
}

// bisect halves the interval down to two neighbouring floats and returns the better
// one.
func (f *searcher) bisect(a, b probe) probe {
	for range 200 {
		x := a.x + (b.x-a.x)/2
		if x == a.x || x == b.x {
			break
		}
		p := f.probe(x)
		if p.refused {
			return p
		}
		if p.miss < 0 == (a.miss < 0) {
			a = p
		} else {
			b = p
		}
	}
	if math.Abs(b.miss) < math.Abs(a.miss) {
		return b
	}
	return a
}

// consider accepts a point as a root only if the calculation gives the output back, as
// the sign also changes across a pole.
//
// Successive points that are believed, with the middle between them, are one root, at
// the best of them: with a faint slope, the output is met within tolerance over a wide
// stretch.
func (f *searcher) consider(p probe) {
	before := f.last
	if f.last = p; !f.believes(p) {
		return
	}
	miss := math.Abs(p.miss)
	if last := len(f.roots) - 1; last >= 0 && (math.Abs(f.roots[last].Low-p.x) <= 1e-7*max(math.Abs(f.roots[last].Low), math.Abs(p.x)) ||
		f.believes(before) && f.believes(f.probe(before.x+(p.x-before.x)/2))) {
		if miss < f.best {
			f.roots[last], f.best = Root{f.unknown, p.x, p.x}, miss
		}
		return
	}
	f.roots, f.best = append(f.roots, Root{f.unknown, p.x, p.x}), miss
}

// believes reports whether the calculation gives the output back.
func (f *searcher) believes(p probe) bool {
	return !p.refused && math.Abs(p.miss) <= 1e-9*max(math.Abs(f.want), f.smallest())
}

// smallest returns what counts as zero if the wanted output is zero.
func (f *searcher) smallest() float64 {
	if f.want != 0 {
		return 0
	}
	return 1e-6
}

// widen extends a root to an interval if the output is constant around it: a number of
// whole reels, a rounded value, a claim below the allowance.
func (f *searcher) widen(grid []float64) {
	found := f.roots
	f.roots = nil
	down := slices.Clone(grid)
	slices.Reverse(down)
	for _, r := range found {
		if slices.ContainsFunc(f.roots, func(w Root) bool { return w.Low <= r.Low && r.Low <= w.High }) {
			continue
		}
		f.near = 1e-12 * math.Abs(f.want) // rounding may change the last digits of a constant output
		wide := f.around(r, down, grid)
		if !(wide.High-wide.Low > 0.01*max(math.Abs(wide.Low), math.Abs(wide.High))) { // a faint slope
			f.near = 0
			wide = f.around(r, down, grid)
		}
		f.roots = append(f.roots, wide)
	}
}

// around returns the interval of a root; the grid may be in either order.
func (f *searcher) around(r Root, down, up []float64) Root {
	level := f.probe(r.Low).miss
	return Root{f.unknown, f.reach(r.Low, down, level), f.reach(r.Low, up, level)}
}

// reach returns how far from a root the output keeps its level, at all points of the
// grid on the way.
func (f *searcher) reach(from float64, grid []float64, level float64) float64 {
	same := func(x float64) bool {
		p := f.probe(x)
		return !p.refused && math.Abs(p.miss-level) <= f.near
	}
	end := grid[len(grid)-1]
	near := 2 * math.Copysign(1e-9*max(math.Abs(from), 1e-9), end-from)
	if from == end || math.Abs(near) > math.Abs(end-from) || !same(from+near/2) || !same(from+near) {
		return from
	}
	in, out := from+near, end
	for _, x := range grid {
		if (x-in)*near <= 0 {
			continue // behind
		}
		if out = x; !same(x) {
			break
		}
		in = x
	}
	for range 200 {
		x := in + (out-in)/2
		if x == in || x == out {
			break
		}
		if same(x) {
			in = x
		} else {
			out = x
		}
	}
	return in
}

// mostWhole is the most whole numbers that are told as roots.
const mostWhole = 1000

// wholeRoots keeps those roots that are whole numbers and give the output back.
func (f *searcher) wholeRoots() {
	found := f.roots
	f.roots = nil
	for _, r := range found {
		for x := math.Ceil(r.Low - 1e-6); x <= math.Floor(r.High+1e-6); x++ {
			if len(f.roots) == mostWhole {
				f.more = true
				return
			}
			if f.believes(f.probe(x)) {
				f.roots = append(f.roots, Root{f.unknown, x, x})
			}
		}
	}
}

// People returns a root as a person reads it.
func (r Root) People() string {
	if r.Low == r.High {
		return r.Input.people(r.Low)
	}
	low := r.Low
	if r.Input.AboveLow && low == r.Input.sheet.guards[r.Input.index].low {
		low = math.Nextafter(low, math.Inf(-1)) // the end itself, not what comes after it
	}
	return fmt.Sprintf("%s to %s", paperprop.People(r.Input.In(low, r.Input.PrintUnit())), r.Input.people(r.High))
}

// Full returns the root unrounded, as [Cell.Full] does; an interval as People does.
func (r Root) Full() string {
	if r.Low == r.High {
		return paperprop.WithUnit(r.FullNumber(), r.Input.PrintUnit())
	}
	return r.People()
}

// FullNumber returns the root, of an interval the lower end, as [Cell.FullNumber] does.
func (r Root) FullNumber() string { return r.Input.digits(r.Low, r.Input.PrintUnit()) }

// people returns a number of the cell as a person reads it.
func (c *Cell) people(v float64) string {
	u := c.PrintUnit()
	return paperprop.WithUnit(paperprop.People(c.In(v, u)), u)
}
