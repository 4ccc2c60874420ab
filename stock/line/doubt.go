package line

import (
	"errors"
	"fmt"
	"slices"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/uncertainty"
)

var errNoSpreads = errors.New("the spreads are not those of this line, want them from Line.Uncertainties")

// An uncertainFigure is moved; what is uncertain in a result that is given has no figure.
type uncertainFigure struct {
	name   string
	at     int // of the figure; below zero for none
	spread calc.Uncertain
}

// uncertain returns what is uncertain, in the order of the shares of a [Spread].
func (l *Line) uncertain(solved int, w Wish) (all []uncertainFigure) {
	for i, f := range l.Figures {
		if f.Uncertain.Standard > 0 && i != solved {
			all = append(all, uncertainFigure{f.Name, i, f.Uncertain})
		}
	}
	if solved >= 0 && w.Uncertain.Standard > 0 {
		all = append(all, uncertainFigure{w.Result, -1, w.Uncertain})
	}
	return all
}

// Doubts returns warnings where the spreads, which are those of [Line.Uncertainties] for the
// same figure solved for and result given, do not describe how the results really move.
func (l *Line) Doubts(solved int, w Wish, spreads []Spread) ([]calc.Warning, error) {
	moved := l.uncertain(solved, w)
	if len(spreads) == 0 || len(moved) == 0 {
		return nil, nil
	}
	s, err := l.NewSolver()
	if err != nil {
		return nil, err
	}
	if err := s.Solve(); err != nil {
		return nil, err
	}
	estimates := s.Values(nil)
	f := s.movedBy(moved)
	if solved >= 0 {
		if solved >= len(l.Figures) || len(spreads) != len(estimates)+1 {
			return nil, errNoSpreads
		}
		if f, err = s.following(solved, w, moved, spreads); err != nil {
			return nil, err
		}
		estimates = append(estimates, l.Figures[solved].Value)
	}
	if len(spreads) != len(estimates) {
		return nil, errNoSpreads
	}
	var inputs []uncertainty.Moved
	var names, results []string
	for k, m := range moved {
		in := uncertainty.Moved{Kurtosis: m.spread.Distribution.Kurtosis(), Slopes: make([]float64, len(spreads))}
		for i, spread := range spreads {
			if in.Slopes[i], err = spread.slope(k, len(moved)); err != nil {
				return nil, err
			}
		}
		inputs, names = append(inputs, in), append(names, m.name)
	}
	for _, r := range s.Results() {
		results = append(results, r.Name)
	}
	if solved >= 0 {
		results = append(results, l.Figures[solved].Name)
	}
	return append(l.leftOut(), calc.StrainWarnings(uncertainty.Strains(f, estimates, inputs), results, names, false)...), nil
}

// leftOut warns of the uncertainty of a share that is the rest of the others.
func (l *Line) leftOut() (all []calc.Warning) {
	for _, st := range l.stages {
		if i, told := st.figures["bales."+st.rest]; told && l.Figures[i].Uncertain.Standard > 0 {
			all = append(all, calc.Warning{Code: "uncertainty-left-out", Text: fmt.Sprintf(
				"that of %s is not carried: the dry shares add up to 100 %%, and the largest follows from the others, "+
					"whose uncertainties it takes up", l.Figures[i].Name)})
		}
	}
	return all
}

// slope returns share k of n with its sign; what has no uncertainty has no shares.
func (s Spread) slope(k, n int) (float64, error) {
	switch {
	case s.Standard == 0:
		return 0, nil
	case len(s.slopes) != n:
		return 0, errNoSpreads
	}
	return s.slopes[k], nil
}

// movedBy returns the results as a function of what is uncertain.
func (s *Solver) movedBy(moved []uncertainFigure) uncertainty.Function {
	return func(t []float64) ([]float64, error) {
		for k, m := range moved {
			if m.at >= 0 {
				s.Set(m.at, s.l.Figures[m.at].Value+t[k]*m.spread.Standard)
			}
		}
		if err := s.Solve(); err != nil {
			return nil, err
		}
		return s.Values(nil), nil
	}
}

// following is movedBy for a line with a figure that was solved for: it moves so that the
// result given keeps its value, and is the last result.
func (s *Solver) following(solved int, w Wish, moved []uncertainFigure, spreads []Spread) (uncertainty.Function, error) {
	target, err := ResultNamed(s.Results(), w.Result)
	if err != nil {
		return nil, err
	}
	value, step := s.results[target].of(s), s.l.stepOf(solved)
	slopes, err := s.slopes(solved, step)
	if err != nil {
		return nil, err
	}
	forward := s.movedBy(moved)
	implicit := uncertainty.Implicit{
		At: func(t []float64, x float64) ([]float64, error) {
			s.Set(solved, x)
			return forward(t)
		},
		Root: s.l.Figures[solved].Value, Target: target, Value: value, Slope: slopes[target] / step,
		Moves: slices.Clone(spreads[len(spreads)-1].slopes), Targets: make([]float64, len(moved)),
	}
	if len(implicit.Moves) != len(moved) {
		return nil, errNoSpreads
	}
	if k := len(moved) - 1; moved[k].at < 0 {
		implicit.Targets[k] = moved[k].spread.Standard
	}
	return implicit.Function(), nil
}
