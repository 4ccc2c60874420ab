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

// Version is the version of the names, units and meaning of all calculations.
const Version = "0.1.0"

// A Status says where a number or rule was found. It is never upgraded.
type Status string

// The statuses, the best first.
const (
	Published      Status = "published"       // seen in print
	Library        Status = "library"         // computed with a named general-purpose library
	CommonPractice Status = "common-practice" // a balance or rule of the trade, without a source
	Memory         Status = "memory"          // remembered, not seen
)

// Cite returns a source followed by its status, which is not repeated if the source
// ends with it.
func (s Status) Cite(source string) string {
	status := " (" + string(s) + ")"
	return strings.TrimSuffix(source, status) + status
}

// A Calculation is a [Description] without its types. A [Tool] is a Calculation too:
// its Info says so, and it is run by its own Run.
type Calculation interface {
	ID() string // the name; cheaper than Info, which describes all fields
	Info() *Info
	NewSheet() *Sheet
}

// Info describes a calculation. It must not be changed.
type Info struct {
	Name     string // name of the command, in check tables and in the catalogue
	Title    string
	Answers  string   // the question it answers
	Formula  []string // lines for package formula
	Method   string   // the method in words, if no formula line can state it
	Source   string
	Status   Status
	Example  string // a working call: "mass-flow=300 t/h; consistency-in=4.6 %"
	Mistakes []string
	Compare  []Comparison
	Cautions []*Caution
	In, Out  []*Field
	Between  []*Field // intermediate values that formula lines name and no output holds
	Exactly  []Choice // choices of inputs of which a given number must be given
	Tool     bool     // it is a Tool: it reads its own texts and has no Sheet
	Open     bool     // for a tool: it accepts names beyond those of In
	Drawn    bool     // it can draw a picture of a result
	Bare     bool     // for a tool: its command takes the inputs as arguments, in order
}

// A Comparison is another answer to the same question, by another rule or definition in
// use. It is calculated beside the example to show how much the two differ.
type Comparison struct {
	Name   string // name of the calculation; empty for the same one with other inputs
	Inputs string // "headbox-consistency=0.9 %; tray-consistency=0.3 %; ..."
	Why    string // how it differs
}

// A Description describes a calculation with inputs I and results O. Its tests should
// use [Sheet.CheckLines] to check that its formula lines agree with Compute.
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

	// Compute is the calculation itself, called with defaults filled in and ranges
	// checked. It refuses only what a range cannot express, and must accept a step past
	// the end of a range.
	Compute func(I) (O, error)

	// Fields binds and describes the fields of in and out. What the program gets wrong
	// there, such as an unknown unit or a name bound twice, panics on first use, so that
	// any test of the description finds it. A field of in that is not bound stays zero.
	Fields func(f *Form, in *I, out *O)

	entry
}

// An entry is the part of a description that needs no types. The compiler makes a
// method of Description once for each of hundreds of calculations, but one of entry
// only once.
type entry struct {
	info atomic.Pointer[Info]
	pool sync.Pool // of *bound
}

// describe adds the fields of a sheet to the description.
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

// bound holds the results, and a sheet that points into them and into the inputs. The
// padding keeps the results of two workers out of one cache line.
type bound[I, O any] struct {
	_       apart
	in      *I
	out     O
	_       apart
	compute func(I) (O, error)
	sheet   Sheet
}

// apart has the size of two cache lines, which processors fetch together.
type apart [128]byte

// bind allocates what the closure needs. Each type allocated here or captured by the
// closure is linked once for every calculation, with all types that it leads to, under
// names that spell them out: so the closure captures the input and an any.
func (d *Description[I, O]) bind() *bound[I, O] {
	// A variable rather than a field behind a pointer: the compiler then passes the
	// struct without a copy, which would wait for the numbers just written.
	var in I
	b := &make([]bound[I, O], 1)[0] // not new: that would link the type of its shape too
	b.in, b.compute = &in, d.Compute
	f := Form{sheet: &b.sheet}
	d.Fields(&f, &in, &b.out)
	f.finish()
	b.sheet.of = d
	var held any = b
	b.sheet.compute = func() (err error) {
		b := held.(*bound[I, O])
		b.out, err = b.compute(in)
		return err
	}
	return b
}

// ID returns the name of the calculation.
func (d *Description[I, O]) ID() string { return d.Name }

// Info returns the description as an [Info]. It is built on first use.
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

// Calculate fills in defaults, checks ranges and computes. A result that is not finite
// is an error. It does not allocate once a sheet of the calculation is available.
func (d *Description[I, O]) Calculate(in I) (out O, err error) {
	b, _ := d.pool.Get().(*bound[I, O])
	if b == nil {
		b = d.bind()
	}
	*b.in = in
	if err = b.sheet.runTyped(); err == nil {
		out = b.out
	}
	if b.sheet.borrows {
		*b.in, b.out = *new(I), *new(O) // keeps no list or pointer of the caller
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

// A guard is the part of an input that is checked for every row.
type guard struct {
	number     *float64 // nil: the cell's own binding holds the value
	low, high  float64  // both included
	substitute float64  // the default
	cell       *Cell
	need       Need
	whole      bool
	more       bool // there is more to check than two limits: a binding, a whole number
}

// settleTyped fills in the defaults of a typed struct and checks it. In an input that
// may be left out, zero means not given. It is no case of settle: one function that asks
// which of the two it is takes a tenth longer for a row, and more for a typed struct.
func (s *Sheet) settleTyped() error {
	given := uint64(0)
	if s.together { // before defaults are filled in
		given = s.bits((*guard).filled)
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

// settle fills in the defaults and checks what was given.
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
	return s.settleTogether(s.bits(func(g *guard) bool { return g.cell.given }))
}

// plainly reports at once, for most values, that they are in range.
func (g *guard) plainly() bool { return !g.more && *g.number >= g.low && *g.number <= g.high }

// bits returns a bit for each input for which is reports true.
func (s *Sheet) bits(is func(*guard) bool) (set uint64) {
	for i := range s.guards {
		if is(&s.guards[i]) {
			set |= 1 << i
		}
	}
	return set
}

// settleTogether checks the rules that involve several inputs.
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

// absent returns the error for the required inputs that were not given, nil if all were.
func (s *Sheet) absent() error {
	for i, g := range s.guards {
		if g.need == Required && !g.cell.given {
			return s.missing(i)
		}
	}
	return nil
}

// missing returns the error for the first guard whose input is missing.
func (s *Sheet) missing(first int) error {
	err := &MissingError{Input: s.guards[first].cell.Field}
	for _, g := range s.guards[first+1:] {
		if g.need == Required && !g.cell.given {
			err.Also = append(err.Also, g.cell.Name)
		}
	}
	return err
}

// largest limits the size of a result, so that it can be written in any unit.
const largest = 1e300

// finite refuses results that are not finite: the inputs lie outside what the
// calculation can handle.
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
