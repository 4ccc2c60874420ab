package line

import (
	"errors"
	"fmt"
	"math"
)

// A Solver solves one line again and again with other figures. It allocates
// nothing after the first solution; it belongs to one goroutine.
type Solver struct {
	l         *Line
	b         *builder
	figures   []float64 // those of the line, then the size, a switch for each tank, and one for each split
	first     *pass
	newton    *pass
	reference []float64 // the first solution: all others begin there
	refers    bool
	u, next   []float64
	before    []float64 // the solution before a tank was changed, or before Newton passes
	held      []float64 // what the passes hold that fill the loops
	results   []Result
	failed    error     // of the last call of Solve
	solution  []float64 // the figures of the last solution

	Passes int     // of the last solution
	Error  float64 // of it, relative: the change that one more pass would make
}

// NewSolver prepares a line. It fails where the line has an unknown ("?") or no
// solution, with the stage and the reason.
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
		return nil, &Error{File: l.File, Err: b.miscount()}
	}
	n := b.s.unknowns
	s.u, s.next, s.before, s.reference = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	s.held = make([]float64, len(b.s.holds))
	s.first, s.newton = newPass(&b.s, true), newPass(&b.s, false)
	return s, nil
}

// openTanks lets every tank run over that can, and makes up the others.
func (s *Solver) openTanks() {
	for _, t := range s.l.tanks {
		z := 0.0
		if t.overflow == "" {
			z = 1
		}
		s.figures[s.b.makeUp[t.index]] = z
	}
}

// missing refuses a line of which a figure is not known.
func (l *Line) missing() error {
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

// example is a value that the figure would take.
func (f *Figure) example() string {
	typical := map[string]float64{"Consistency": 0.03, "DryContent": 0.5, "Fraction": 0.1, "Moisture": 0.1}
	x, ok := typical[f.Field.Kind.Name()]
	if !ok {
		x = f.Field.Unit.From(1)
	}
	return `"` + f.Field.Kind.Format(x, f.Field.Unit) + `"`
}

// Figure returns the value of a figure, canonical.
func (s *Solver) Figure(i int) float64 { return s.figures[i] }

// Set gives a figure another value, canonical, for the next solution. Its
// range is checked by Solve.
func (s *Solver) Set(i int, value float64) { s.figures[i] = value }

// Reset gives all figures the values of the line.
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

// Solve balances the line. Its error is an [Error] with the stage and the
// reason where the line is impossible.
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
	s.fixSize()
	if err := s.steady(); err != nil && !s.fill() {
		return err
	}
	if !s.refers {
		// From here on solutions are near this one, and so should the order be.
		if s.newton.prepare(s.figures, s.u); s.newton.f == nil {
			return s.singular(nil, nil)
		}
		copy(s.reference, s.u)
		s.refers = true
	}
	return nil
}

// steady solves the equations with every tank at its overflow or its make-up, as it
// needs, and refuses a solution that is not possible.
func (s *Solver) steady() error {
	// A tank that has an overflow and a make-up may have to change from one to
	// the other; each does so at most twice, as a change of one moves others.
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

// beforeChange says why a line that has no solution once a tank was changed to its
// make-up, or back, had to change it; err where it did not.
func (s *Solver) beforeChange(err error) error {
	copy(s.u, s.before)
	if cause := s.possible(); cause != nil {
		return cause
	}
	return err
}

// fixSize computes what the size comes to, in t/h.
func (s *Solver) fixSize() {
	size := s.figures[s.b.sizeFigure]
	if s.b.width != constant { // m/min, mm, g/m2
		size *= s.figures[s.b.width] * s.figures[s.b.grammage] * (60 / 1e3 / 1e6)
	}
	s.figures[s.b.size] = size
}

// settle solves the equations, from the reference or, where that leads
// nowhere, from clear water.
func (s *Solver) settle() error {
	if s.refers {
		copy(s.u, s.reference)
		if s.iterate() && !s.idle() {
			return nil
		}
	}
	if err := s.begin(nil); err != nil {
		return err
	}
	// The order of elimination was found for other numbers, and a pivot may
	// vanish on the way: then a new one is found where that was.
	for range 4 {
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
	return &Error{File: s.l.File, Err: errors.New("the water loop does not settle: the figures contradict each other, or a component comes back faster than it leaves")}
}

// Of the passes that fill the loops: how many at most, how many before one is judged,
// and how little the last of them moves what is held, relative.
const (
	fillings = 256
	warming  = 3
	filled   = 1e-6
)

// fill solves the equations as a line that starts up does: with clear water in the
// tanks at first, then with what the pass before brought to them. Where the water is
// far from clear, Newton's method may come to a balance with flows below zero, or to
// none; from a loop that is nearly full it finds the one that is possible, and fill
// tells whether it did. A loop only grows dirtier as it fills, so a pass that is not
// possible ends it.
func (s *Solver) fill() bool {
	s.openTanks()
	for i, h := range s.b.s.holds {
		s.held[i] = s.guess(&h)
	}
	for pass := 1; pass <= fillings; pass++ {
		if s.begin(s.held) != nil || pass > warming && !s.switchTanks() && s.possible() != nil {
			return false
		}
		moved := s.renew()
		full := !(moved > filled)
		doubled := pass > warming && pass&(pass-1) == 0
		if (full || doubled) && s.converge() && !s.idle() && s.possible() == nil {
			return true
		}
		if full {
			return false
		}
	}
	return false
}

// converge makes Newton passes, with another order of elimination where the one
// found for other numbers leads nowhere.
func (s *Solver) converge() bool {
	copy(s.before, s.u)
	if s.iterate() {
		return true
	}
	copy(s.u, s.before)
	s.newton.prepare(s.figures, s.u)
	return s.iterate()
}

// renew puts in place of what was held what the last pass makes of it, and returns
// the largest change, relative. The water of a tank comes after all else in it, of
// which it is the rest.
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

// begin makes the first pass, with clear water in the tanks or with the
// contents given, and prepares the passes that were not.
func (s *Solver) begin(contents []float64) error {
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
	if s.newton.f == nil {
		if rows, cols := s.newton.prepare(s.figures, s.u); s.newton.f == nil {
			return s.singular(rows, cols)
		}
	}
	return nil
}

// guess is what a first pass holds: none where a shut valve leaves nothing to part.
func (s *Solver) guess(h *hold) float64 {
	if h.valve != constant && s.figures[h.valve] == 0 {
		return 0
	}
	return h.guess
}

// nothing is what rounding leaves of a flow that is none, of the largest.
const nothing = 1e-14

// idle turns the switch of each split to whether nothing comes to it, and tells whether
// any was turned: a valve that is shut leaves what follows it without a flow to part.
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

// digits is the error, relative, to which the equations are solved.
const digits = 1e-14

// iterate makes Newton passes. Their changes shrink as squares: from two that
// follow each other, e' = k·e², comes the error that the next would find. It
// ends where that is less than digits, or where the changes are those of
// rounding.
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

// held is the part of its terms to which an equation is held.
const held = 1e-13

// hold holds the solution to its equations, after corrections where elimination lost
// digits. A flow that these equations can't tell from none is none.
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

// switchTanks turns to the make-up of a tank whose overflow came out below
// zero, or back.
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

// flow is that of a component in a stream, in t/h.
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

// solids is the dry matter of a stream, in t/h.
func (s *Solver) solids(st *stream) float64 {
	sum := 0.0
	for k := range s.l.water() {
		sum += s.flow(st, k)
	}
	return sum
}

// counted is the part of a stream that a consistency or a dryness counts.
func (s *Solver) counted(st *stream, convention int) float64 {
	sum := 0.0
	for k, c := range s.l.Components {
		if s.l.dry(k) && (!c.Dissolved || !s.l.says(convention)) {
			sum += s.flow(st, k)
		}
	}
	return sum
}
