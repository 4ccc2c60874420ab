package line

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// With returns the line with a new text for a figure: a value, an uncertain value,
// or "?". If the figure fixes the size ("size.reel"), it takes the place of the one
// that did.
func (l *Line) With(name, text string) (*Line, error) {
	changed := *l
	changed.Figures = append([]Figure(nil), l.Figures...)
	changed.sizeBy(name)
	i, err := changed.FigureNamed(name)
	if err != nil {
		return nil, err
	}
	if err := changed.Figures[i].set(strings.TrimSpace(text)); err != nil {
		return nil, err
	}
	if changed.size != l.size {
		changed.checkSize()
	}
	if len(changed.errors) > 0 {
		return nil, errors.Join(changed.errors...)
	}
	return &changed, nil
}

// WithAll returns the line with new texts for several figures, each as for With. As
// in a file, a figure may have only one text, and only one figure may fix the size.
// A figure that runs through a range is not yet known.
func (l *Line) WithAll(set []calc.Pair) (*Line, error) {
	var size *calc.Pair
	for i := range set {
		s := &set[i]
		for _, before := range set[:i] {
			if before.Name == s.Name {
				return nil, fmt.Errorf("%s is given twice: %q and %q, want one", s.Name, before.Text, s.Text)
			}
		}
		if !fixesSize(s.Name) {
			continue
		}
		if size != nil {
			return nil, fmt.Errorf("size is fixed by %s = %s and %s = %s at once: give one, and the others follow", size.Name, size.Text, s.Name, s.Text)
		}
		size = s
	}
	changed := l
	for _, s := range set {
		var err error
		if calc.IsRange(s.Text) {
			s.Text = "?"
		}
		if changed, err = changed.With(s.Name, s.Text); err != nil {
			return nil, err
		}
	}
	return changed, nil
}

// fixesSize reports whether a figure of that name can fix the size.
func fixesSize(name string) bool {
	return slices.ContainsFunc(sizes, func(k key) bool { return name == "size."+k.name })
}

// sizeBy makes the named key the one that fixes the size.
func (l *Line) sizeBy(name string) {
	for _, k := range sizes {
		if at, ok := l.figure("size." + l.size); ok && name == "size."+k.name && k.name != l.size {
			l.size = k.name
			l.Figures[at].Name, l.Figures[at].Field = name, k.field(name)
		}
	}
}

// FigureNamed returns the index of a figure. The error suggests the nearest names.
func (l *Line) FigureNamed(name string) (int, error) {
	if i, ok := l.figure(name); ok {
		return i, nil
	}
	var names []string
	for _, f := range l.Figures {
		names = append(names, f.Name)
	}
	for _, k := range sizes {
		if k.name != l.size {
			names = append(names, "size."+k.name)
		}
	}
	return 0, &nameError{NameError: calc.NameError{Calculation: l.called(), Name: name, Near: calc.Nearest(name, names), All: names}, what: "figure"}
}

func (l *Line) called() string {
	if l.Name == "" {
		return "line"
	}
	return l.Name
}

// withValue returns the line with a canonical value for a figure.
func (l *Line) withValue(i int, x float64) *Line {
	changed := *l
	changed.Figures = append([]Figure(nil), l.Figures...)
	f := &changed.Figures[i]
	f.Value, f.Unknown = x, false
	f.Text = paperprop.WithUnit(paperprop.People(f.Field.Unit.To(x)), f.Field.Unit)
	return &changed
}

// ResultNamed returns the index of a result. The error suggests the nearest names, or
// those of the stream or tank that is named.
func ResultNamed(results []Result, name string) (int, error) {
	place := name[:strings.LastIndex(name, ".")+1] // with its point; empty if there is none
	var names, ofPlace []string
	for i := range results {
		if results[i].Name == name {
			return i, nil
		}
		names = append(names, results[i].Name)
		if place != "" && strings.HasPrefix(results[i].Name, place) {
			ofPlace = append(ofPlace, results[i].Name)
		}
	}
	return 0, &nameError{NameError: calc.NameError{Calculation: "the line", Name: name, Near: calc.Nearest(name, names), All: ofPlace}, what: "result"}
}

// A Wish is a result given in place of a figure.
type Wish struct {
	Result    string
	Value     float64 // canonical
	Uncertain calc.Uncertain
}

// ReadWish parses the text of a given result, such as "12 t/h".
func (l *Line) ReadWish(name, text string) (Wish, error) {
	results := build(l).results()
	i, err := ResultNamed(results, name)
	if err != nil {
		return Wish{}, err
	}
	r := &results[i]
	f := calc.NewField(name, "", calc.One, r.About)
	f.Kind, f.Unit = r.Kind, r.Unit
	e, err := f.Estimate(text)
	return Wish{name, e.Value, e.Uncertain}, err
}

// unknown returns the index of the one unknown figure.
func (l *Line) unknown() (int, error) {
	at := -1
	for i, f := range l.Figures {
		if f.Unknown && at >= 0 {
			return 0, &Error{File: l.File, Err: fmt.Errorf("%s and %s are both unknown: one result gives one figure", l.Figures[at].Name, f.Name)}
		}
		if f.Unknown {
			at = i
		}
	}
	if at < 0 {
		return 0, &Error{File: l.File, Err: errors.New("too many figures: with a result given, one figure must be left out or ?")}
	}
	return at, nil
}

// A NoRootError reports that no value of a figure gives a result.
type NoRootError struct {
	Figure    *Figure
	Result    *Result
	Want      float64
	Low, High float64 // range of the result; NaN if the line is impossible with every value tried
	Last      error   // the last reason, if the line is impossible with every value tried
}

func (e *NoRootError) Error() string {
	if math.IsNaN(e.Low) {
		return fmt.Sprintf("%s: no value makes the line possible: %v", e.Figure.Name, e.Last)
	}
	return fmt.Sprintf("%s: no value gives %s %s; it ranges from %s to %s", e.Figure.Name, e.Result.Name,
		e.Result.Text(e.Want), paperprop.People(e.Result.In(e.Low)), e.Result.Text(e.High))
}

// Code returns what [calc.Code] returns where no value of an input gives an output.
func (e *NoRootError) Code() (code, input string) { return "no-root", e.Figure.Name }

// Unwrap returns the reason that the line was refused, if it always was.
func (e *NoRootError) Unwrap() error { return e.Last }

// gridSteps is the number of steps in the search for roots: two roots closer than a
// step may be missed.
const gridSteps = 400

// SolveFor finds the values of the one unknown figure that give a result, and
// returns the line with each, lowest first. If there are none, the error is a
// [NoRootError].
func (l *Line) SolveFor(w Wish) ([]*Line, error) {
	at, err := l.unknown()
	if err != nil {
		return nil, err
	}
	s, err := l.newSolver()
	if err != nil {
		return nil, err
	}
	target, err := ResultNamed(s.Results(), w.Result)
	if err != nil {
		return nil, err
	}
	search := &search{s: s, figure: at, result: &s.results[target], want: w.Value, low: math.NaN(), high: math.NaN()}
	var lines []*Line
	for _, x := range search.roots() {
		root := l.withValue(at, x)
		root.Figures[at].solved = true
		lines = append(lines, root)
	}
	if lines == nil {
		return nil, &Error{File: l.File, Line: l.Figures[at].Line, Err: &NoRootError{&l.Figures[at], search.result, w.Value, search.low, search.high, search.last}}
	}
	return lines, nil
}

// A search looks for roots in the range of one figure.
type search struct {
	s         *Solver
	figure    int
	result    *Result
	want      float64
	low, high float64 // of the result
	last      error
}

// off returns how far the result is from the one wanted; NaN if the line is
// refused.
func (f *search) off(x float64) float64 {
	f.s.Set(f.figure, x)
	if err := f.s.Solve(); err != nil {
		f.last = err
		return math.NaN()
	}
	y := f.result.of(f.s)
	if !(f.low <= y) {
		f.low = y
	}
	if !(f.high >= y) {
		f.high = y
	}
	return y - f.want
}

// grid returns the values to try: evenly spaced over a range with two ends, else
// evenly in the logarithm.
func (f *search) grid() []float64 {
	d := f.s.l.Figures[f.figure].Field
	low, high := d.Low, d.High
	xs := make([]float64, gridSteps+1)
	for i := range xs {
		t := float64(i) / gridSteps
		if math.IsInf(high, 1) {
			xs[i] = d.Unit.From(math.Pow(10, -6+15*t))
		} else {
			xs[i] = low + (high-low)*t
		}
	}
	return xs
}

func (f *search) roots() []float64 {
	var roots []float64
	add := func(x float64) {
		if n := len(roots); n == 0 || math.Abs(x-roots[n-1]) > 1e-9*math.Abs(x) {
			roots = append(roots, x)
		}
	}
	xs := f.grid()
	a, fa := xs[0], f.off(xs[0])
	for _, b := range xs[1:] {
		fb := f.off(b)
		switch {
		case fa == 0:
			add(a)
		case math.IsNaN(fa) != math.IsNaN(fb):
			// A root may lie between the last value accepted and the first refused.
			edge, fe := f.edge(a, b, math.IsNaN(fa))
			if math.IsNaN(fa) && fe*fb <= 0 {
				add(f.bisect(edge, b, fe))
			} else if math.IsNaN(fb) && fa*fe <= 0 {
				add(f.bisect(a, edge, fa))
			}
		case fa*fb < 0:
			add(f.bisect(a, b, fa))
		}
		a, fa = b, fb
	}
	if fa == 0 {
		add(a)
	}
	return roots
}

// edge finds the end of a refused stretch.
func (f *search) edge(a, b float64, refusedFirst bool) (x, off float64) {
	bad, good := b, a
	if refusedFirst {
		bad, good = a, b
	}
	off = f.off(good)
	for range 60 {
		m := bad/2 + good/2
		if y := f.off(m); math.IsNaN(y) {
			bad = m
		} else {
			good, off = m, y
		}
	}
	return good, off
}

// bisect narrows a change of sign down to neighbouring numbers, or nearly.
func (f *search) bisect(a, b, fa float64) float64 {
	for range 200 {
		m := a/2 + b/2
		if m == a || m == b || math.Abs(b-a) <= 4e-16*math.Abs(m) {
			break
		}
		fm := f.off(m)
		if fm == 0 {
			return m
		}
		if math.Signbit(fm) == math.Signbit(fa) {
			a, fa = m, fm
		} else {
			b = m
		}
	}
	return a/2 + b/2
}

// A Spread is the standard uncertainty of a result, to first order (JCGM 100:2008,
// 5.1.2), with the contribution of each uncertain figure.
type Spread struct {
	Standard float64 // in the canonical unit, as a difference
	Shares   []calc.Share

	slopes []float64 // the shares with their signs
}

// lastDigits is the relative change of a result below which it is only rounding.
const lastDigits = 1e-12

// Uncertainties propagates the uncertainties of the figures to all results, in
// their order. If a figure was solved for, solved is its index and w is the result
// given: the figure moves so that the result stays, and the uncertainty of the
// result itself comes last. Otherwise solved is below zero. It returns nil if
// nothing is uncertain.
func (l *Line) Uncertainties(solved int, w Wish) ([]Spread, error) {
	s, err := l.NewSolver()
	if err != nil {
		return nil, err
	}
	n := len(s.Results())
	out := make([]Spread, n, n+1)
	var root []float64
	target, step := -1, 0.0
	if solved >= 0 {
		if target, err = ResultNamed(s.results, w.Result); err != nil {
			return nil, err
		}
		step = l.stepOf(solved)
		y := s.results[target].of(s)
		if root, err = s.slopes(solved, step); err != nil {
			return nil, err
		}
		if !(math.Abs(root[target]) > lastDigits*math.Abs(y)) {
			return nil, fmt.Errorf("uncertainty of %s: %s does not move with it", l.Figures[solved].Name, w.Result)
		}
		out = out[:n+1]
	}
	share := func(name string, slopes []float64, own float64) {
		move := 0.0
		if root != nil {
			move = (own - slopes[target]) / root[target]
		}
		for i := range out {
			d := move * step // of the figure itself
			switch {
			case i == target:
				d = own
			case i < n && root != nil:
				d = slopes[i] + move*root[i]
			case i < n:
				d = slopes[i]
			}
			out[i].Shares = append(out[i].Shares, calc.Share{Name: name, U: math.Abs(d)})
			out[i].slopes = append(out[i].slopes, d)
			out[i].Standard = math.Hypot(out[i].Standard, d)
		}
	}
	moved := l.uncertain(solved, w)
	for _, m := range moved {
		slopes, own := make([]float64, n), m.spread.Standard
		if m.at >= 0 {
			own = 0
			if slopes, err = s.slopes(m.at, m.spread.Standard); err != nil {
				return nil, fmt.Errorf("uncertainty of %s: %w", m.name, err)
			}
		}
		share(m.name, slopes, own)
	}
	if len(moved) == 0 {
		return nil, nil
	}
	if err := s.Solve(); err != nil {
		return nil, err
	}
	for i, y := range s.Values(nil) {
		if out[i].Standard < lastDigits*math.Abs(y) {
			out[i] = Spread{}
		}
	}
	return out, nil
}

// stepOf returns the change of a figure to which slopes of the results refer.
func (l *Line) stepOf(i int) float64 {
	if step := 1e-3 * math.Abs(l.Figures[i].Value); step > 0 {
		return step
	}
	return l.Figures[i].Field.Unit.Difference().From(1e-3)
}

// slopes returns the changes of all results for one standard uncertainty of a
// figure, by a five-point difference; next to an impossible line, by a one-sided
// one.
func (s *Solver) slopes(i int, u float64) ([]float64, error) {
	x := s.l.Figures[i].Value
	defer s.Reset()
	h := 1e-3 * max(math.Abs(x), u)
	var last error
	for range 5 {
		var slope []float64
		if slope, last = s.difference(i, x, h, []float64{-2, -1, 1, 2}, []float64{1, -8, 8, -1}, 12*h/u); last == nil {
			return slope, nil
		}
		for _, side := range []float64{h, -h} {
			if slope, last = s.difference(i, x, side, []float64{0, 1, 2, 3}, []float64{-11, 18, -9, 2}, 6*side/u); last == nil {
				return slope, nil
			}
		}
		h /= 8
	}
	return nil, last
}

func (s *Solver) difference(i int, x, h float64, steps, weights []float64, over float64) ([]float64, error) {
	slope := make([]float64, len(s.Results()))
	var values []float64
	for j, step := range steps {
		s.Set(i, x+step*h)
		if err := s.Solve(); err != nil {
			return nil, err
		}
		values = s.Values(values[:0])
		for k, y := range values {
			slope[k] += weights[j] * y / over
		}
	}
	return slope, nil
}

// A Point is the solution for one value of a figure that runs through a range.
type Point struct {
	Figure float64   // canonical
	Values []float64 // of all results; nil if the line is refused
	Err    error
}

// Range solves the line for each canonical value of the named figure.
func (l *Line) Range(name string, values []float64) ([]Point, error) {
	i, err := l.FigureNamed(name)
	if err != nil || len(values) == 0 {
		return nil, err
	}
	known := l.withValue(i, values[0])
	if err := known.missing(); err != nil {
		return nil, err
	}
	s, err := known.newSolver()
	if err != nil {
		return nil, err
	}
	var points []Point
	for _, x := range values {
		p := Point{Figure: x, Err: known.withValue(i, x).Figures[i].whole()}
		if p.Err == nil {
			s.Set(i, x)
			p.Err = s.Solve()
		}
		if p.Err == nil {
			p.Values = s.Values(nil)
		}
		points = append(points, p)
	}
	return points, nil
}
