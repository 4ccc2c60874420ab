package line

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
)

// An Answer is the steady balance of a line.
type Answer struct {
	Line    *Line
	Streams []Stream
	Stages  []Balance // of the stages, then of the tanks
	Whole   Balance   // of the mill as a whole
	Results []Result  // of the line, its tanks and its streams
	Values  []float64 // of the results, in canonical units
	Closure float64   // worst relative difference of all balances
	Passes  int       // Newton passes made
	Error   float64   // relative error of the solution: the change that one more pass would make
}

// A Stream is what flows from one place to another.
type Stream struct {
	Name        string
	Part        string // its part in its stage or tank: "bales", "solution", "vapour", "broke", "rejects", "overflow", ...
	From, To    string // a stage, a tank, "fresh", "sold", "vapour", or an exit; To is empty for a stream that is split further
	Total       paperprop.MassFlow
	Flows       []paperprop.MassFlow  // in the order of the line's components, water last
	Dryness     paperprop.DryContent  // or consistency, as the conventions say
	Volume      paperprop.VolumeFlow  // zero if it is not a liquid, or its temperature or a density is not given
	Temperature paperprop.Temperature // only with a Volume
}

// A Balance compares the flows into a place with those out of it.
type Balance struct {
	Name, Kind string
	In, Out    []string             // names of streams
	Came       []paperprop.MassFlow // by component
	Left       []paperprop.MassFlow
	Closure    float64 // worst relative difference of a component
}

// Errors of an Answer, a Solver or a Line that was not made as it has to be.
var (
	errNoLine    = errors.New("the answer belongs to no line")
	errNotOfLine = errors.New("the solver belongs to no line, want one from Line.NewSolver")
	errNoStages  = errors.New("the line has no stages, want one from Read or ReadFile")
)

// closed is the largest relative difference that a balance may have.
const closed = 1e-9

// Solve balances the line. It returns an error where [Line.NewSolver] or
// [Solver.Answer] does.
func (l *Line) Solve() (*Answer, error) {
	s, err := l.NewSolver()
	if err != nil {
		return nil, err
	}
	return s.Answer()
}

// Answer returns the last solution as an [Answer]. It returns the error of the last
// call of Solve, if there was one, and an error if a balance does not close to
// 1e-9.
func (s *Solver) Answer() (*Answer, error) {
	if s.l == nil {
		return nil, errNotOfLine
	}
	if s.failed != nil {
		return nil, s.failed
	}
	a := &Answer{Line: s.solved(), Results: slices.Clone(s.Results()), Values: s.Values(nil), Passes: s.Passes, Error: s.Error}
	for _, st := range s.b.streams {
		if !st.hidden {
			a.Streams = append(a.Streams, s.stream(st))
		}
	}
	outside := func(place string) bool {
		for _, st := range s.l.stages {
			if st.name == place {
				return false
			}
		}
		return s.b.tanks[place] == nil
	}
	for _, st := range s.l.stages {
		a.Stages = append(a.Stages, s.balance(st.name, st.kind.name,
			func(o *stream) bool { return o.to == st.name || o.stage == st && o.from == fresh },
			func(o *stream) bool { return o.stage == st && o.from != fresh && s.leaves(o) }))
	}
	for _, t := range s.l.tanks {
		a.Stages = append(a.Stages, s.balance(t.name, "tank",
			func(o *stream) bool { return o.to == t.name }, func(o *stream) bool { return o.tank == t }))
	}
	a.Whole = s.balance("the mill", "", func(o *stream) bool { return o.from == fresh }, func(o *stream) bool { return o.to != "" && outside(o.to) })
	a.Closure = a.Whole.Closure
	for _, b := range a.Stages {
		a.Closure = max(a.Closure, b.Closure)
	}
	if !(a.Closure <= closed) {
		return nil, &Error{File: s.l.File, Err: fmt.Errorf("the balance closes only to %.1e, want %g: the figures differ too much in size", a.Closure, closed)}
	}
	return a, nil
}

// largest returns the largest flow of the last solution, in t/h.
func (s *Solver) largest() float64 {
	most := 0.0
	for _, st := range s.b.streams {
		most = max(most, math.Abs(s.total(st)))
	}
	return most
}

// solved returns the line with the figures of the last solution: figures set since
// the line was read appear as they are now.
func (s *Solver) solved() *Line {
	l := s.l
	for i := range s.l.Figures {
		if x := s.solution[i]; l.Figures[i].Value != x {
			l = l.withValue(i, x)
		}
	}
	return l
}

// leaves reports whether a stream really leaves its stage. Hidden streams are only
// steps in between: a sheet before its broke is taken, a whole before it is split.
func (s *Solver) leaves(st *stream) bool { return !st.hidden && st.to != "" }

func (s *Solver) stream(st *stream) Stream {
	out := Stream{
		Name: st.name, Part: st.key, From: st.from, To: st.to,
		Total: paperprop.MassFlow(s.total(st)), Dryness: paperprop.DryContent(s.dryness(st)),
	}
	if st.from == fresh && st.stage != nil {
		out.To = st.stage.name
	}
	for k := range s.l.Components {
		out.Flows = append(out.Flows, paperprop.MassFlow(s.flow(st, k)))
	}
	if s.b.pumped(st) {
		out.Volume = paperprop.VolumeFlow(s.volume(st))
		out.Temperature = paperprop.Temperature(s.figures[s.b.temperature(st)])
	}
	return out
}

func (s *Solver) balance(name, kind string, in, out func(*stream) bool) Balance {
	n := len(s.l.Components)
	b := Balance{Name: name, Kind: kind, Came: make([]paperprop.MassFlow, n), Left: make([]paperprop.MassFlow, n)}
	for _, st := range s.b.streams {
		if st.hidden {
			continue
		}
		if in(st) {
			b.In = append(b.In, st.name)
			for k := range b.Came {
				b.Came[k] += paperprop.MassFlow(s.flow(st, k))
			}
		}
		if out(st) {
			b.Out = append(b.Out, st.name)
			for k := range b.Left {
				b.Left[k] += paperprop.MassFlow(s.flow(st, k))
			}
		}
	}
	// A trace is compared with a millionth of the largest flow of the line: it is
	// the difference of larger numbers, whose rounding it holds.
	trace := max(1e-6*s.largest(), math.SmallestNonzeroFloat64)
	for k := range b.Came {
		came, left := float64(b.Came[k]), float64(b.Left[k])
		d := math.Abs(came-left) / max(math.Abs(came), trace)
		if !(d <= b.Closure) {
			b.Closure = d
		}
	}
	return b
}

// Value returns a result in its canonical unit, and whether there is a result of
// that name.
func (a *Answer) Value(name string) (float64, bool) {
	for i := range a.Results {
		if a.Results[i].Name == name {
			return a.Values[i], true
		}
	}
	return 0, false
}

// OfStream reports whether the result belongs to a stream, rather than to a tank or
// the line as a whole.
func (r *Result) OfStream() bool { return r.stream != nil }
