// Package calc holds the description of a calculation, written once, and what
// follows from it.
//
// A calculation is an input struct with a method that returns a result struct
// and an error. Beside it, in the same file, stands a [Description]: names,
// symbols, units, ranges, defaults, formula lines, source, reporting rules,
// cautions. It binds the fields of both structs by pointer:
//
//	var dilution = &calc.Description[Dilution, DilutionResult]{
//		Name:    "dilution",
//		Formula: []string{"q_w = q*(c_in - c_out)/(c_out - c_w)"},
//		Compute: Dilution.compute,
//		Fields: func(f *calc.Form, in *Dilution, out *DilutionResult) {
//			calc.In(f, &in.MassFlow, "mass-flow", "q", "t/h", "stock before").Above(0)
//			...
//
// The typed method checks, computes and allocates nothing. All other faces
// work on a [Sheet], a bound copy of the two structs: flags, table cells,
// JSON, worked solutions, uncertainty, ranges, solving for an input and check
// tables know no calculation by name.
//
// A sheet is filled with texts that have units, run, and read:
//
//	s := dilution.NewSheet()
//	err := s.Set("mass-flow", "300 ± 3 t/h")
//	...
//	err = s.Run()
//	fmt.Println(s.Out[0].Reported())
//
// # What people get wrong
//
// A Description never changes once written, so any number of goroutines may
// calculate at once; a Sheet belongs to one.
//
// In a typed struct zero is "not given" where an input may be left out. A required
// field that was forgotten counts as zero, and is refused only where zero lies
// outside its range: only a sheet reports a missing input. On a sheet a zero that is
// given is a zero; Forget leaves an input out again.
//
// Set takes a text in any unit, Put a number in the canonical one.
//
// A typed result is not rounded and shows no caution: Reported writes a result by the
// rule of its method, and the Cautions stand in the Info.
package calc

import (
	"math"
	"strings"
	"sync"
	"sync/atomic"
)

// Version is that of the names, units and meaning of all calculations.
const Version = "0.1.0"

// A Status says where a number or rule was found. One never becomes another.
type Status string

// The statuses, the best first.
const (
	Published      Status = "published"       // seen in print
	Library        Status = "library"         // computed with a named general-purpose library
	CommonPractice Status = "common-practice" // a balance or rule of the trade, no source
	Memory         Status = "memory"          // remembered, not seen
)

// Cite writes a source with its status, which a source that ends with it says once.
func (s Status) Cite(source string) string {
	status := " (" + string(s) + ")"
	return strings.TrimSuffix(source, status) + status
}

// A Calculation is a description seen from outside, without its types. A
// [Tool] is one too: its Info says so, and it is run by its own Run.
type Calculation interface {
	ID() string // the name; cheaper than Info, which describes all fields
	Info() *Info
	NewSheet() *Sheet
}

// Info is what a calculation says of itself. It must not be changed.
type Info struct {
	Name     string // of the command, the check tables, the entry in the catalogue
	Title    string
	Answers  string   // what it is asked for
	Formula  []string // lines for package formula
	Method   string   // in words, where no formula line can say it
	Source   string
	Status   Status
	Example  string // a working call: "mass-flow=300 t/h; consistency-in=4.6 %"
	Mistakes []string
	Compare  []Comparison
	Cautions []*Caution
	In, Out  []*Field
	Between  []*Field // values on the way that formula lines name and no output holds
	Exactly  []Choice // inputs of which a number must be given
	Tool     bool     // takes texts of its own; has no Sheet
	Open     bool     // of a tool: it takes names of its own beside those of In
	Drawn    bool     // a result can be drawn
	Bare     bool     // of a tool: its command takes the inputs as words, in order
}

// A Comparison is another answer to the same question, by a rule or definition
// that is in use too. It is worked beside the example, so that a reader sees by
// how much the two differ.
type Comparison struct {
	Name   string // of the calculation; empty: the same one, asked otherwise
	Inputs string // "headbox-consistency=0.9 %; tray-consistency=0.3 %; ..."
	Why    string // how it differs
}

// A Description describes a calculation with inputs I and results O. That its formula
// lines agree with Compute is for its tests to ask, with [Sheet.CheckLines].
type Description[I, O any] struct {
	Name, Title, Answers string
	Formula              []string
	Method               string
	Source               string
	Status               Status
	Example              string
	Mistakes             []string
	Compare              []Comparison
	Cautions             []*Caution

	// Compute is the calculation itself. Ranges and defaults are dealt with
	// before it; it refuses only what one range can't say, and bears a step
	// past an end of a range.
	Compute func(I) (O, error)

	// Fields binds and describes the fields of in and out.
	Fields func(f *Form, in *I, out *O)

	entry
}

// An entry is what of a description needs no types. The compiler writes a method
// of Description once for every calculation, hundreds of times, and this once.
type entry struct {
	info atomic.Pointer[Info]
	pool sync.Pool // of *bound
}

// describe adds the fields of a sheet to what was written down.
func (e *entry) describe(i Info, s *Sheet) *Info {
	i.Drawn = s.picture != nil
	i.Exactly = s.choices
	for _, c := range s.In {
		i.In = append(i.In, c.Field)
	}
	for _, c := range s.Out {
		i.Out = append(i.Out, c.Field)
	}
	for _, c := range s.between {
		i.Between = append(i.Between, c.Field)
	}
	e.info.CompareAndSwap(nil, &i)
	return e.info.Load()
}

// bound is a copy of both structs with a sheet that points into it. The room
// around the structs keeps the numbers of two workers out of one line of the cache.
type bound[I, O any] struct {
	_       apart
	in      I
	out     O
	_       apart
	compute func(I) (O, error)
	sheet   Sheet
}

// apart is two lines of the cache, which processors fetch together.
type apart [128]byte

// bind makes one thing, in which the closure too finds what it needs: each type
// that is allocated here is linked for every calculation.
func (d *Description[I, O]) bind() *bound[I, O] {
	// A variable and not a pointer: from this the compiler hands over without a
	// copy on the way, which would wait for the numbers just written.
	var b bound[I, O]
	b.compute = d.Compute
	f := Form{sheet: &b.sheet}
	d.Fields(&f, &b.in, &b.out)
	f.finish()
	b.sheet.of = d
	b.sheet.compute = func() (err error) {
		b.out, err = b.compute(b.in)
		return err
	}
	return &b
}

// ID returns the name.
func (d *Description[I, O]) ID() string { return d.Name }

// Info returns what the description says. It is built when first asked for.
func (d *Description[I, O]) Info() *Info {
	if i := d.info.Load(); i != nil {
		return i
	}
	return d.describe(Info{
		Name: d.Name, Title: d.Title, Answers: d.Answers, Formula: d.Formula, Method: d.Method,
		Source: d.Source, Status: d.Status, Example: d.Example, Mistakes: d.Mistakes,
		Compare: d.Compare, Cautions: d.Cautions,
	}, d.NewSheet())
}

// NewSheet returns an empty sheet of the calculation.
func (d *Description[I, O]) NewSheet() *Sheet { return &d.bind().sheet }

// Calculate puts in defaults, checks ranges, computes, and refuses what is not
// finite. It allocates nothing once a sheet of the calculation is at hand.
func (d *Description[I, O]) Calculate(in I) (out O, err error) {
	b, _ := d.pool.Get().(*bound[I, O])
	if b == nil {
		b = d.bind()
	}
	b.in = in
	if err = b.sheet.runTyped(); err == nil {
		out = b.out
	}
	if b.sheet.borrows {
		b.in, b.out = *new(I), *new(O) // holds on to no list or pointer of the caller
	}
	d.pool.Put(b)
	return out, err
}

func (s *Sheet) runTyped() error {
	if err := s.settleTyped(); err != nil {
		return err
	}
	if err := s.compute(); err != nil {
		return err
	}
	return s.finite()
}

// A guard is the part of an input that every row passes.
type guard struct {
	number     *float64 // nil: the cell's own binding holds the value
	low, high  float64  // both included
	substitute float64  // the default
	cell       *Cell
	need       Need
	whole      bool
	more       bool // to check than two limits: a binding, a whole number
}

// settleTyped puts in the defaults of a typed struct and checks it. Zero is no
// reading where an input may be left out.
func (s *Sheet) settleTyped() error {
	given := uint64(0)
	if s.together { // before the defaults are there
		given = s.given(func(g *guard) bool { return g.need == Required || g.filled() })
	}
	for i := range s.guards {
		g := &s.guards[i]
		if g.need != Required && !g.filled() {
			if g.need == Defaulted {
				g.cell.put(g.substitute)
			}
			continue
		}
		if !g.plainly() {
			if err := g.cell.Check(); err != nil {
				return err
			}
		}
	}
	if !s.together {
		return nil
	}
	return s.settleTogether(given)
}

func (g *guard) filled() bool {
	if g.number != nil {
		return *g.number != 0
	}
	return g.cell.bound.present()
}

// settle puts in the defaults and checks what was given.
func (s *Sheet) settle() error {
	for i := range s.guards {
		g := &s.guards[i]
		if !g.cell.given {
			if g.need == Required {
				return s.missing(i)
			}
			g.leaveOut()
			continue
		}
		if !g.plainly() {
			if err := g.cell.Check(); err != nil {
				return err
			}
		}
	}
	if !s.together {
		return nil
	}
	return s.settleTogether(s.given(func(g *guard) bool { return g.cell.given }))
}

// plainly says at once of most values that they pass.
func (g *guard) plainly() bool { return !g.more && *g.number >= g.low && *g.number <= g.high }

// given has a bit for each input for which is says yes.
func (s *Sheet) given(is func(*guard) bool) uint64 {
	given := uint64(0)
	for i := range s.guards {
		if is(&s.guards[i]) {
			given |= 1 << i
		}
	}
	return given
}

// settleTogether checks what inputs must be together.
func (s *Sheet) settleTogether(given uint64) error {
	for i := range s.choices {
		if err := s.choices[i].check(given, s); err != nil {
			return err
		}
	}
	if len(s.even) > 0 {
		if err := s.evenLists(); err != nil {
			return err
		}
	}
	for _, t := range s.totals {
		if err := t.check(); err != nil {
			return err
		}
	}
	return nil
}

func (g *guard) takes(v float64) bool {
	return v >= g.low && v <= g.high && (!g.whole || v == math.Trunc(v))
}

func (g *guard) leaveOut() {
	if g.need == Defaulted {
		g.cell.put(g.substitute)
	} else {
		g.cell.clear()
	}
}

// missing is the error of the first guard whose input is missing.
func (s *Sheet) missing(first int) error {
	err := &MissingError{Input: s.guards[first].cell.Field}
	for _, g := range s.guards[first+1:] {
		if g.need == Required && !g.cell.given {
			err.Also = append(err.Also, g.cell.Name)
		}
	}
	return err
}

// largest is what a result may be, so that it can be written in any unit.
const largest = 1e300

// finite refuses results that are no numbers: they mean that the inputs lie
// outside what the calculation can take.
func (s *Sheet) finite() error {
	for i, p := range s.numbers {
		if x := *p; !(x <= largest && x >= -largest) {
			return notFinite(s.plain[i])
		}
	}
	for _, c := range s.others {
		if !c.bound.finite() {
			return notFinite(c)
		}
	}
	return nil
}

func notFinite(c *Cell) error { return &FiniteError{Output: c.Field} }
