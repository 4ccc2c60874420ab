package line

import (
	"errors"
	"fmt"
	"math"
)

// A Solver solves one line repeatedly with different figures. After the first
// solution it allocates nothing. It must not be used by several goroutines at once.
type Solver struct {
	l         *Line
	b         *builder
	figures   []float64 // of the line, then the size, a switch for each tank, and one for each tank or split that may stand still
	first     *pass
	newton    *pass
	reference []float64 // the first solution, from which all others start
	refers    bool
	u, next   []float64
	before    []float64 // the solution before a tank was switched, or before Newton passes
	held      []float64 // values held by the passes that fill the loops
	results   []Result
	failed    error     // of the last call of Solve
	solution  []float64 // the figures of the last solution

	Passes int     // of the last solution
	Error  float64 // relative error of the last solution: the change that one more pass would make
}

// NewSolver returns a solver for the line, which has solved it once. It returns an
// error, with the stage and the reason, if a figure is unknown ("?") or the line
// has no solution.
func (l *Line) NewSolver() (*Solver, error) {
	if err := l.missing(); err != nil {
		return nil, err
	}
	s, err := l.newSolver()
	if err != nil {
		return nil, err
	}
	if err := s.Solve(); err != nil {
		return nil, err
	}
	return s, nil
}

func (l *Line) newSolver() (*Solver, error) {
	b := build(l)
	s := &Solver{l: l, b: b, figures: make([]float64, b.hidden)}
	for i, f := range l.Figures {
		s.figures[i] = f.Value
	}
	s.openTanks()
	if b.s.rows != b.s.unknowns {
		return nil, &Error{File: l.File, Err: fmt.Errorf("%d equations for %d unknowns: the line was changed after it was read", b.s.rows, b.s.unknowns)}
	}
	n := b.s.unknowns
	s.u, s.next, s.before, s.reference = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	s.held = make([]float64, len(b.s.holds))
	s.first, s.newton = newPass(&b.s, true), newPass(&b.s, false)
	return s, nil
}

// openTanks opens the overflow of every tank that has one, and the make-up of the
// others.
func (s *Solver) openTanks() {
	for _, t := range s.l.tanks {
		z := 0.0
		if t.overflow == "" {
			z = 1
		}
		s.figures[s.b.makeUp[t.index]] = z
	}
}

// missing refuses a line without stages or with unknown figures.
func (l *Line) missing() error {
	if len(l.stages) == 0 {
		return errNoStages
	}
	var all []error
	for _, f := range l.Figures {
		if !f.Unknown {
			continue
		}
		what := "missing"
		if f.Text != "" {
			what = "is " + f.Text
		}
		all = append(all, &Error{File: l.File, Line: f.Line, Err: fmt.Errorf(
			"%s %s (%s): want a value such as %s, or a result that it should give", f.Name, what, f.Field.Help, f.example())})
	}
	return errors.Join(all...)
}

// example returns a value that the figure would accept.
func (f *Figure) example() string {
	typical := map[string]float64{"Consistency": 0.03, "DryContent": 0.5, "Fraction": 0.1, "Moisture": 0.1}
	x, ok := typical[f.Field.Kind.Name()]
	if !ok {
		x = f.Field.Unit.From(1)
	}
	return `"` + f.Field.Kind.Format(x, f.Field.Unit) + `"`
}

// Figure returns the canonical value of figure i of the line.
func (s *Solver) Figure(i int) float64 { return s.figures[i] }

// Set changes figure i of the line to a canonical value for the next solution.
// Solve checks its range.
func (s *Solver) Set(i int, value float64) { s.figures[i] = value }

// Reset sets all figures back to those of the line.
func (s *Solver) Reset() {
	if s.l == nil {
		return
	}
	for i := range s.l.Figures {
		s.figures[i] = s.l.Figures[i].Value
	}
}

// maxPasses bounds Newton's method, which needs four to six.
const maxPasses = 40

// Solve balances the line. If the line is impossible, its error is an [Error] with
// the stage and the reason.
func (s *Solver) Solve() error {
	if s.failed = s.solve(); s.failed == nil {
		s.solution = append(s.solution[:0], s.figures...)
	}
	return s.failed
}

func (s *Solver) solve() error {
	if s.l == nil {
		return errNotOfLine
	}
	for i := range s.l.Figures {
		f := &s.l.Figures[i]
		if x := s.figures[i]; !(x >= f.Field.Low && x <= f.Field.High) || f.Field.AboveLow && x == f.Field.Low || f.Field.BelowHigh && x == f.Field.High {
			g := *f
			if g.Value != x {
				g.Value, g.Text = x, ""
			}
			return s.l.errorAt(f, g.inRange())
		}
	}
	if !s.refers {
		if err := s.apart(); err != nil {
			return err
		}
	}
	s.fixSize()
	if err := s.steady(); err != nil {
		if full, why := s.fill(); !full {
			return s.clearer(err, why)
		}
	}
	if !s.refers {
		// Later solutions will be near this one, so the order is chosen for it.
		if s.newton.prepare(s.figures, s.u); s.newton.f == nil {
			return s.singular(nil, nil)
		}
		copy(s.reference, s.u)
		s.refers = true
	}
	return nil
}

// steady solves the equations with each tank at its overflow or its make-up,
// whichever it needs, and refuses a solution that is not possible.
func (s *Solver) steady() error {
	// A tank with an overflow and a make-up may have to switch. Each does so at
	// most twice, since a switch of one moves the others.
	changed := false
	for range 2*len(s.l.tanks) + 1 {
		if err := s.settle(); err != nil {
			if changed {
				return s.beforeChange(err)
			}
			return err
		}
		if !s.switchTanks() {
			break
		}
		copy(s.before, s.u)
		changed = true
	}
	return s.possible()
}

// beforeChange explains a line that has no solution after a tank was switched: it
// returns the reason for the switch if there is one, else err.
func (s *Solver) beforeChange(err error) error {
	copy(s.u, s.before)
	if cause := s.possible(); cause != nil {
		return cause
	}
	return err
}

// fixSize computes the size in t/h.
func (s *Solver) fixSize() {
	size := s.figures[s.b.sizeFigure]
	if s.b.width != constant { // m/min, mm, g/m2
		size *= s.figures[s.b.width] * s.figures[s.b.grammage] * (60 / 1e3 / 1e6)
	}
	s.figures[s.b.size] = size
}

// settle solves the equations, starting from the reference or, if that fails, from
// clear water.
func (s *Solver) settle() error {
	if s.refers {
		copy(s.u, s.reference)
		if s.iterate() && !s.idle() {
			return nil
		}
	}
	if err := s.start(nil); err != nil {
		return err
	}
	// There may be no order of elimination yet; or it was found for other numbers, and
	// a pivot may vanish: then a new order is found from where that happened.
	for range 5 {
		if s.iterate() {
			if !s.idle() {
				return nil
			}
			continue
		}
		if rows, cols := s.newton.prepare(s.figures, s.u); s.newton.f == nil {
			return s.singular(rows, cols)
		}
	}
	if err := s.stuck(); err != nil {
		return err
	}
	return &Error{File: s.l.File, Err: loose{errors.New("the water loop does not settle: the figures contradict each other, or a component comes back faster than it leaves")}}
}

// Of the passes that fill the loops: the most that are made, those before the first
// is judged, and the relative change below which the loops are full.
const (
	fillings = 256
	warming  = 3
	filled   = 1e-6
)

// fill solves the equations as a line fills at its start: first with clear water in
// the tanks, then with what the pass before brought to them. Where the water is far
// from clear, Newton's method may find a balance with flows below zero, or none;
// from a nearly full loop it finds the possible one, and fill reports whether it
// did. A loop only grows dirtier as it fills, so a pass that is not possible ends
// it, with the reason.
func (s *Solver) fill() (full bool, why error) {
	s.openTanks()
	for i, h := range s.b.s.holds {
		s.held[i] = s.guess(&h)
	}
	var end error // where Newton passes lead from there
	for pass := 1; pass <= fillings; pass++ {
		level, err := s.level(s.held)
		if err != nil {
			return false, why
		}
		if level {
			// The first cause is the one: what it spoils comes after it.
			switch now := s.possible(); {
			case now == nil:
				why = nil
			case why == nil || isLoose(why):
				why = now
			}
			if why != nil && pass > warming {
				return false, why
			}
		}
		still := !(s.renew() > filled) && level
		doubled := pass&(pass-1) == 0
		if (still || doubled) && s.converge() && !s.idle() {
			if end = s.possible(); end == nil {
				return true, nil
			}
		}
		if still {
			break
		}
	}
	return false, end
}

// clearer returns the error of a line without a balance: what was wrong as its loops
// filled, if err is loose.
func (s *Solver) clearer(err, why error) error {
	var of *Error
	if !isLoose(err) || isLoose(why) || !errors.As(why, &of) {
		return err
	}
	return &Error{File: of.File, Line: of.Line, Stage: of.Stage, Err: fmt.Errorf("%w, as the loops fill: they come to no balance", of.Err)}
}

// converge makes Newton passes. If the order of elimination fails, it finds a new
// one and tries again.
func (s *Solver) converge() bool {
	copy(s.before, s.u)
	if s.iterate() {
		return true
	}
	copy(s.u, s.before)
	s.newton.prepare(s.figures, s.u)
	return s.iterate()
}

// level makes first passes until each tank is at its overflow or its make-up, whichever
// it needs, and reports whether it came to that.
func (s *Solver) level(contents []float64) (bool, error) {
	for range 2*len(s.l.tanks) + 1 {
		if err := s.start(contents); err != nil {
			return false, err
		}
		if !s.switchTanks() {
			return true, nil
		}
	}
	return false, nil
}

// renew replaces each held value by the one that the last pass implies, and returns
// the largest relative change. The water of a tank comes after its components, as
// it is the rest.
func (s *Solver) renew() float64 {
	s.newton.residual(s.figures, s.u)
	lack, most := s.newton.rhs, 0.0
	for i := range s.b.s.holds {
		h := &s.b.s.holds[i]
		missing, slope := 0.0, 0.0
		for _, row := range h.own {
			missing += lack[row]
			slope += s.b.s.slope(row, h.col, s.figures, s.u)
		}
		d := ratio(missing, slope)
		for _, t := range s.b.s.terms {
			if t.col == h.col {
				lack[t.row] -= t.at(s.figures) * d
			}
		}
		s.held[i] = s.u[h.col] + d
		if e := ratio(math.Abs(d), math.Abs(s.held[i])); !(e <= most) {
			most = e // NaN too
		}
	}
	return most
}

// start makes the first pass, with clear water in the tanks or the given contents.
func (s *Solver) start(contents []float64) error {
	for i, h := range s.b.s.holds {
		s.u[h.col] = s.guess(&h)
		if contents != nil {
			s.u[h.col] = contents[i]
		}
	}
	if s.first.f == nil || !s.first.solve(s.figures, s.u, s.next) {
		if rows, cols := s.first.prepare(s.figures, s.u); s.first.f == nil {
			return s.singular(rows, cols)
		}
		if !s.first.solve(s.figures, s.u, s.next) {
			return s.singular(nil, nil)
		}
	}
	s.u, s.next = s.next, s.u
	s.idle()
	return nil
}

// guess returns the value that a first pass holds. What a valve lets through is of the size
// of its figure: from far above, Newton's method would not find that of a valve next to shut.
func (s *Solver) guess(h *hold) float64 {
	if h.valve != constant {
		return min(h.guess, s.figures[h.valve])
	}
	return h.guess
}

// nothing is the share of the largest flow below which a flow is rounding of zero.
const nothing = 1e-14

// idle sets the switch of each split and of each tank's content by whether anything
// comes to it, and reports whether any was changed. Behind a shut valve there is no flow
// to split, and none to fill a tank.
func (s *Solver) idle() bool {
	most := 0.0
	for _, i := range s.b.flows {
		most = max(most, math.Abs(s.u[i]))
	}
	turned := false
	for i := range s.b.s.holds {
		h := &s.b.s.holds[i]
		if h.idle == constant {
			continue
		}
		comes, z := 0.0, 0.0
		for _, flow := range h.parts {
			comes += math.Abs(s.u[flow])
		}
		if comes <= nothing*most {
			z = 1
		}
		if s.figures[h.idle] != z {
			s.figures[h.idle], turned = z, true
		}
	}
	return turned
}

// digits is the relative error to which the equations are solved.
const digits = 1e-14

// iterate makes Newton passes. Their changes shrink as squares, so two successive
// changes give the next, e' = k·e². It stops when that is below digits, or when the
// changes are only rounding.
func (s *Solver) iterate() bool {
	if s.newton.f == nil || !s.newton.begin(s.figures) {
		return false
	}
	before := math.Inf(1)
	for s.Passes = 1; s.Passes <= maxPasses; s.Passes++ {
		if !s.newton.step(s.u, s.next) {
			return false
		}
		e := s.newton.change(s.u, s.next)
		s.u, s.next = s.next, s.u
		if math.IsNaN(e) || math.IsInf(e, 0) {
			return false
		}
		if s.Error = e * e * e / (before * before); e < 1e-5 && s.Error < digits || e < 1e-11 {
			s.newton.f.rest(s.u)
			return s.hold()
		}
		before = e
	}
	return false
}

// held is the residual of an equation that is accepted, relative to the sum of its
// terms.
const held = 1e-13

// hold checks the solution against its equations, after corrections if elimination
// lost digits, and sets flows to zero that the equations cannot tell from zero.
func (s *Solver) hold() bool {
	lack := s.newton.residual(s.figures, s.u)
	for n := 0; n < 4 && !(lack < held); n++ {
		if !s.newton.correct(s.u, s.next) {
			return false
		}
		lack = s.newton.residual(s.figures, s.u)
	}
	if !(lack < 100*held) {
		return false
	}
	s.newton.silence(s.figures, s.u, held)
	return true
}

// switchTanks switches a tank to its make-up if its overflow came out below zero,
// or back, and reports whether it switched any.
func (s *Solver) switchTanks() bool {
	changed := false
	for _, t := range s.l.tanks {
		if t.overflow == "" || t.makeUp == "" {
			continue
		}
		z := &s.figures[s.b.makeUp[t.index]]
		for _, st := range s.b.streams {
			runs := st.tank == t && st.key == "overflow" && *z == 0 || st.to == t.name && st.key == "make-up" && *z == 1
			if runs && s.total(st) < -1e-9*s.u[s.b.through[t.index]] {
				*z, changed = 1-*z, true
				break
			}
		}
	}
	return changed
}

// flow returns the flow of component k in a stream, in t/h.
func (s *Solver) flow(st *stream, k int) float64 {
	if st.draw != absent {
		return s.u[st.draw] * s.u[s.b.content[st.tank.index][k]]
	}
	if st.flows[k] == absent {
		return 0
	}
	return s.u[st.flows[k]]
}

func (s *Solver) total(st *stream) float64 {
	if st.draw != absent {
		return s.u[st.draw]
	}
	sum := 0.0
	for k := range st.flows {
		sum += s.flow(st, k)
	}
	return sum
}

// solids returns the dry matter of a stream, in t/h.
func (s *Solver) solids(st *stream) float64 {
	sum := 0.0
	for k := range s.l.water() {
		sum += s.flow(st, k)
	}
	return sum
}

// counted returns the flow in a stream that a consistency or dryness counts, in
// t/h.
func (s *Solver) counted(st *stream, convention int) float64 {
	sum := 0.0
	for k, c := range s.l.Components {
		if s.l.dry(k) && (!c.Dissolved || !s.l.says(convention)) {
			sum += s.flow(st, k)
		}
	}
	return sum
}
