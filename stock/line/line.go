// Package line balances a whole machine line, from the bale to the reel.
//
// One TOML file describes the line as an operator would: the stages in the order
// in which stock meets them, each with the one or two figures known for it, the
// tanks, what comes back, and one figure that fixes the size. The answer is the
// steady balance of every component in every stream:
//
//	l, err := line.ReadFile("harebell-120.toml")
//	...
//	a, err := l.Solve()
//	fmt.Println(a.Closure) // how far the balance is from closed, relative
//	for _, s := range a.Streams {
//		fmt.Println(s.Name, s.Total, s.Dryness)
//	}
//
// # The file
//
// Every value is a text with its unit. A figure may have an uncertainty, and
// one may be "?", to be solved for (see Line.SolveFor):
//
//	[[stage]]
//	name        = "headbox"
//	kind        = "headbox"
//	consistency = "0.82 ± 0.01 %"
//	water       = "white water"
//
// A figure is named by its stage and key: "headbox.consistency",
// "wire.retention.fibre". Kinds lists what the file may say.
//
// # Method
//
// The unknowns are the flows of each component in each stream, in t/h.
// Mixing, retention, rejects, consistencies and the size are linear in them;
// the composition of a well-mixed tank makes the draws products of two
// unknowns. The system is solved by Newton's method, each pass of which is a
// direct solution of the whole line, starting from clear water in all tanks.
// Where that leads to no balance, or to one with flows below zero, the loops are
// filled pass by pass, as when a line starts up, and Newton's method begins there.
// A Solver keeps the order of elimination and allocates nothing.
//
// # What people get wrong
//
// What one figure fixes, a second may contradict: a line with too many or too few
// figures is refused with the stage and the reason.
//
// Retention is of what comes to the wire, component by component; what follows the
// water needs none.
//
// A consistency of a line counts everything but water unless its file says otherwise;
// that of package stock leaves out what is dissolved. Conventions states what an
// answer rests on.
//
// The answer is the steady state. It does not say how long a change takes.
package line

import (
	"fmt"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// A Line is a machine line as read from its file. It never changes after it was
// read, so any number of goroutines may solve it. The zero Line has no stages, and
// solving it is an error.
type Line struct {
	Name       string
	File       string // "" if it was not read from a file
	Components []Component
	Figures    []Figure

	conventions []int // index of the word chosen, by convention
	stages      []*stage
	tanks       []*tank
	waters      []*sideWater
	exits       []*exit
	size        string // the key that fixes it
	temperature int    // index of the figure, or constant
	errors      []error
}

// A Component is one of the substances that stock consists of.
type Component struct {
	Name      string
	Dissolved bool              // follows the water; else suspended
	Density   paperprop.Density // of a suspended component; zero: no volume flows
	usual     bool              // the density is not told
}

// A Figure is a known value of a line, with a name such as "headbox.consistency".
type Figure struct {
	Name      string
	Stage     string // or a tank, or a table of the file
	Field     *calc.Field
	Text      string // as written
	Value     float64
	Uncertain calc.Uncertain // a standard uncertainty of zero means none was given
	Unknown   bool           // "?", to be solved for
	Line      int            // in the file

	other  *calc.Field // the other quantity it may have: a flow, or water per tonne
	solved bool        // its value gives a result that was given instead
}

// String returns the figure as the file writes it, such as "wire.dryness = 20 %".
func (f Figure) String() string { return f.Name + " = " + f.Text }

// An Error reports what is wrong with a line, and where.
type Error struct {
	File  string
	Line  int    // of the file; 0 if no one line is at fault
	Stage string // or tank; "" for the file as a whole
	Err   error
}

func (e *Error) Error() string {
	text := e.Err.Error()
	if e.Stage != "" {
		text = e.Stage + ": " + text
	}
	switch {
	case e.File != "" && e.Line > 0:
		return fmt.Sprintf("%s:%d: %s", e.File, e.Line, text)
	case e.File != "":
		return e.File + ": " + text
	case e.Line > 0:
		return fmt.Sprintf("line %d: %s", e.Line, text)
	}
	return text
}

// Unwrap returns what is wrong.
func (e *Error) Unwrap() error { return e.Err }

// dry reports whether component k is not water. Water comes last.
func (l *Line) dry(k int) bool { return k < l.water() }

// water returns the index of water among the components; 0 if there are none.
func (l *Line) water() int { return max(0, len(l.Components)-1) }

// says reports whether the file chose the second word of a convention.
func (l *Line) says(convention int) bool { return l.conventions[convention] == 1 }

// Cautions returns what to beware of at the stages of the line, each once.
func (l *Line) Cautions() []*calc.Caution {
	var all []*calc.Caution
	for _, s := range l.stages {
		for _, c := range s.kind.cautions {
			if !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	return all
}

// Conventions returns the statements that the answer depends on, as the file gives
// them or by default.
func (l *Line) Conventions() []string {
	var texts []string
	for i, word := range l.conventions {
		texts = append(texts, conventions[i].about+" "+conventions[i].words[word])
	}
	if slices.ContainsFunc(l.Figures, func(f Figure) bool { return f.Field.Kind.Name() == temperature.quantity }) {
		for _, c := range l.Components {
			if c.usual {
				texts = append(texts, fmt.Sprintf("volume flows take %s as %v, as no density is given", c.Name, c.Density))
			}
		}
	}
	if _, given := l.figure("mill.running"); !given && texts != nil {
		texts = append(texts, "the line never stops, as no running is given under [mill]")
	}
	return texts
}

// Stages returns the names of the stages of a kind, such as "winder", in the order
// of the file.
func (l *Line) Stages(kind string) []string {
	var names []string
	for _, s := range l.stages {
		if s.kind.name == kind {
			names = append(names, s.name)
		}
	}
	return names
}

// figure returns the index of a figure.
func (l *Line) figure(name string) (int, bool) {
	for i := range l.Figures {
		if l.Figures[i].Name == name {
			return i, true
		}
	}
	return 0, false
}

// A stage of a line.
type stage struct {
	index   int
	name    string
	line    int
	told    *node // its table in the file
	kind    *kind
	figures map[string]int    // by key; "retention.fibre"
	rest    string            // the component that makes up the rest of the bales
	places  map[string]string // by key: rejects-to, water, water-to, broke-to
	to      []branch
}

// has reports whether the stage has a figure of that key.
func (s *stage) has(key string) bool {
	_, ok := s.figures[key]
	return ok
}

// at is the coefficient of a figure of the stage, times a factor.
func (s *stage) at(key string, factor float64) coefficient {
	return coefficient{0, s.figures[key], factor}
}

// A branch is a part of the stream that goes on from a stage.
type branch struct {
	to    string
	share int // index of the figure; constant: the rest
}

// A tank is a well mixed tank of constant content: a surplus overflows, a lack is
// made up.
type tank struct {
	index    int
	name     string
	line     int
	told     *node  // its table in the file
	overflow string // a place, or "" for none
	makeUp   string // "fresh", a tank, or "" for none
	figures  map[string]int
}

// A sideWater is water that goes to a place at a given rate, fresh or from a tank.
type sideWater struct {
	name, from, to string
	line           int
	told           *node // its table in the file
	flow           int   // index of the figure: a flow, or a ratio to what is sold
	figures        map[string]int
}

// An exit is a place where something leaves the mill.
type exit struct {
	name     string
	effluent bool
}

// Places with a meaning of their own.
const (
	sold   = "sold"
	fresh  = "fresh"
	vapour = "vapour"
)
