package calc

import (
	"errors"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/wording"
)

// A Sheet is a calculation with its inputs and results: set inputs from text or
// numbers, Run, then read the outputs. A Sheet is for one goroutine, and comes
// from the NewSheet of a [Calculation]: the zero Sheet is of none.
type Sheet struct {
	In, Out []*Cell

	of       Calculation
	compute  func() error
	picture  func() *Picture // nil if there is none
	guards   []guard
	numbers  []*float64 // the outputs that are one number each,
	plain    []*Cell    // their cells,
	others   []*Cell    // and the outputs that are not
	ran      bool       // the last run succeeded, and nothing was given since
	inverse  bool       // an output or a "?" was given since the last Reset
	borrows  bool       // the structs point to lists or values of the caller
	choices  []Choice
	even     [][]*Cell
	totals   []total
	together bool    // there are choices, even lists or totals
	between  []*Cell // intermediate values, for worked solutions
	warnings *Warnings
	priced   bool                 // some input may be a price, in a currency
	related  bool                 // some Value takes its unit from another's, or an input is kept as written
	sources  map[string]Uncertain // uncertainties shared by several inputs, by name

	correlations []correlation
	law          *law // of the last run, once it was asked for

	turned *Cell // an output from which the last run solved because its input was surplus

	Roots     []Root // values found for the input that was solved for
	MoreRoots bool   // there can be more than these: they lie closer together than the search goes
}

// A Cell is one input or output of a sheet.
type Cell struct {
	*Field
	sheet  *Sheet
	index  int
	number *float64 // the value, if the field is one number
	bound  binding  // the value, if it is not
	exact  func() string
	kept   *Written // the number as written, if the calculation needs it

	shareOf   string        // for an output: the input of which it is a share
	meaning   func() string // for a label: what its word stands for
	output    bool
	given     bool
	plain     bool           // one quantity, without a text
	asked     bool           // "?": to be solved for
	text      string         // as written
	unit      paperprop.Unit // unit in which it was written
	raw       []float64      // for a Value: the numbers as written, in unit
	uncertain []Uncertain    // by member; empty if none is given
	want      float64        // for an output that is given: its value
	grid      []float64      // for an input that is solved for: the points to search
	follows   relation       // for a Value: its unit
}

// Info returns the description of the calculation.
func (s *Sheet) Info() *Info { return s.of.Info() }

// Reset clears everything that was given or computed, and correlations. It keeps
// sources and the units to print in.
func (s *Sheet) Reset() {
	for _, c := range s.In {
		c.Forget()
	}
	for _, c := range s.Out {
		c.Forget()
	}
	s.Roots, s.MoreRoots, s.ran, s.inverse, s.correlations = nil, false, false, false, nil
}

// Input returns the input with the given name.
func (s *Sheet) Input(name string) (*Cell, bool) { return find(s.In, name) }

// Output returns the output with the given name.
func (s *Sheet) Output(name string) (*Cell, bool) { return find(s.Out, name) }

func find(cells []*Cell, name string) (*Cell, bool) {
	i := slices.IndexFunc(cells, func(c *Cell) bool { return c.Name == name })
	if i < 0 {
		return nil, false
	}
	return cells[i], true
}

// named returns the input and the output with the given name; one of them may be nil.
func (s *Sheet) named(name string) (in, out *Cell, err error) {
	in, _ = s.Input(name)
	out, _ = s.Output(name)
	if in == nil && out == nil {
		return nil, nil, s.nameError(name)
	}
	return in, out, nil
}

// Set sets an input from text, or an output in order to solve for an input. A name that
// is both means the input.
func (s *Sheet) Set(name, text string) error {
	if c, ok := s.Input(name); ok {
		return c.Set(text)
	}
	if c, ok := s.Output(name); ok {
		return c.Set(text)
	}
	return s.nameError(name)
}

// SetPairs sets several in turn, as [Sheet.Set] does, up to the first that is refused.
func (s *Sheet) SetPairs(pairs []Pair) error {
	for _, p := range pairs {
		if err := s.Set(p.Name, p.Text); err != nil {
			return err
		}
	}
	return nil
}

// SetText sets several, written as the examples of descriptions are: "mass-flow=300 t/h;
// consistency-in=4 %". It refuses what [ParsePairs] and [Sheet.Set] refuse.
func (s *Sheet) SetText(text string) error {
	pairs, err := ParsePairs(text)
	if err != nil {
		return err
	}
	return s.SetPairs(pairs)
}

// nameError returns the error for a name that the calculation does not have. The sheet
// of a tool has no names at all, and says so.
func (s *Sheet) nameError(name string) error {
	if t, ok := s.of.(*Tool); ok {
		return t.noSheet()
	}
	names := s.names()
	return &NameError{s.Info().Name, name, Nearest(name, names), names}
}

func (s *Sheet) names() []string {
	var names []string
	for _, c := range slices.Concat(s.In, s.Out) {
		if !slices.Contains(names, c.Name) {
			names = append(names, c.Name)
		}
	}
	return names
}

// Given reports whether an input was given. After Run, an input that holds its default
// is not given.
func (c *Cell) Given() bool { return c.given }

// Uncertain reports whether the value was given with an uncertainty.
func (c *Cell) Uncertain() bool { return len(c.uncertain) > 0 }

// AsWritten returns the text that was given.
func (c *Cell) AsWritten() string { return c.text }

// WrittenIn returns the unit in the text that was given; for a list, that of its first
// member.
func (c *Cell) WrittenIn() paperprop.Unit { return c.unit }

// Put sets an input to one number, which is the only member of a list, in its canonical
// unit; for a Value, in the unit that [Cell.PutUnit] named. It is meant for cells of a table: no text is kept, and no
// uncertainty given before. An output is left as not given; use Set to solve from one.
func (c *Cell) Put(x float64) {
	if !c.plain {
		c.putOther(x)
		return
	}
	*c.number, c.given = x, true
	c.sheet.ran = false
}

// putOther is Put for a cell that keeps more than a number.
func (c *Cell) putOther(x float64) {
	if c.output {
		c.Forget()
		return
	}
	c.given, c.sheet.ran = true, false
	c.dropText()
	if c.Kind == nil {
		c.raw = append(c.raw[:0], x)
	}
	c.plain = c.number != nil && c.Kind != nil
	c.put(x)
}

// PutList sets an input to a list of numbers, in the unit of [Cell.Put]. An input that
// is not a list accepts one number; with several it is left as not given.
func (c *Cell) PutList(x []float64) {
	if c.number != nil || c.output {
		if c.Forget(); len(x) == 1 {
			c.Put(x[0])
		}
		return
	}
	c.given, c.sheet.ran = len(x) > 0, false
	c.dropText()
	if c.Kind == nil {
		c.raw = append(c.raw[:0], x...)
	}
	c.bound.set(x)
}

// dropText clears the text of an earlier row, and what it said in addition to the
// value.
func (c *Cell) dropText() {
	c.asked, c.text, c.unit, c.uncertain = false, "", c.unitToKeep(), c.uncertain[:0]
}

// unitToKeep returns no unit, except for a Value and for a price in a currency, which
// keep the unit that PutUnit named.
func (c *Cell) unitToKeep() paperprop.Unit {
	if c.Kind == nil || c.unit.Currency() != "" {
		return c.unit
	}
	return paperprop.Unit{}
}

// Forget clears an input, which is then not given.
func (c *Cell) Forget() {
	c.sheet.ran = false
	if t := c.sheet.turned; t != nil && t.Name == c.Name && !c.output {
		c.sheet.turned = nil
		t.Forget()
	}
	c.given, c.asked, c.text, c.unit = false, false, "", paperprop.Unit{}
	c.raw, c.uncertain = c.raw[:0], c.uncertain[:0]
}

// PutWord sets an input to a word. An input that does not take a word is left as not
// given.
func (c *Cell) PutWord(w string) {
	if c.Shape != Word || c.output {
		c.Forget()
		return
	}
	c.given, c.sheet.ran = true, false
	c.dropText()
	c.bound.setWord(w)
}

// Run checks what was given, solves for an input if an output was given (or, as
// [Sheet.Surplus] tells, an input too many), computes, and keeps the results in the sheet.
func (s *Sheet) Run() (err error) {
	if s.ran, s.law = false, nil; s.turned != nil {
		s.turnBack()
	}
	if s.inverse || s.related || s.priced {
		s.Roots, s.MoreRoots = nil, false
		err = s.runOrSolve()
	} else if err = s.settle(); err == nil {
		err = s.evaluate()
	}
	if err != nil {
		if target := s.Surplus((*Cell).Given); target != nil {
			err = s.solveFromSurplus(target)
		}
	}
	s.ran = err == nil
	return err
}

// ErrNotRun is returned when results are requested from a sheet that has none.
var ErrNotRun = errors.New("the calculation was not run, or not since an input was given")

func (s *Sheet) runOrSolve() error {
	if s.priced {
		if err := s.oneCurrency(); err != nil {
			return err
		}
	}
	if !s.inverse {
		return s.run()
	}
	if target := s.target(); target != nil {
		return s.solve(target)
	}
	for _, c := range s.In {
		if c.asked && !s.isResult(c) {
			return &InputError{c.Name, c.text, errUnknownWithoutOutput}
		}
	}
	return s.run()
}

// isResult reports whether an input that is left out is computed from the others of its
// choice, without an output: the diameter of a reel, from length and thickness.
func (s *Sheet) isResult(c *Cell) bool {
	_, out, _ := s.named(c.Name)
	return c.Need == Optional && out != nil
}

func (s *Sheet) run() error {
	if s.related {
		if err := s.relate(); err != nil {
			if absent := s.absent(); absent != nil {
				return absent // it may be the one whose unit the others follow
			}
			return err
		}
	}
	if err := s.settle(); err != nil {
		return err
	}
	return s.evaluate()
}

// evaluate computes from the values as they are, without checking ranges: a step for an
// uncertainty may pass the end of one.
func (s *Sheet) evaluate() error {
	if err := s.compute(); err != nil {
		return s.asWritten(err)
	}
	return s.finite()
}

// asWritten puts the text as written into a refusal.
func (s *Sheet) asWritten(err error) error {
	switch err := err.(type) {
	case *Refusal:
		in, out, _ := s.named(err.Input)
		switch {
		case in == nil && out != nil && out.Kind != nil:
			err.unit = out.Unit
		case in != nil:
			unit, text := in.written()
			if in.Kind != nil {
				err.unit = unit
			} else {
				err.numbers = in.relatedUnit()
			}
			if text != "" {
				err.Written(text)
			}
		}
	case *paperprop.RangeError: // from a lower package, about the input of that name
		if in, _, _ := s.named(err.Input); in != nil && in.Kind == err.Kind {
			err.Unit, err.Text = in.written()
		}
	}
	return err
}

// written returns the unit in which an input was written, or is printed, and its text
// if it is a single value that was given.
func (c *Cell) written() (unit paperprop.Unit, text string) {
	unit = c.Unit
	if !c.unit.IsZero() {
		unit = c.unit
	}
	if c.given && c.Shape == One {
		text = c.text
	}
	return unit, text
}

// Warnings returns the warnings of the last run, if it succeeded.
func (s *Sheet) Warnings() Warnings {
	if s.warnings == nil || !s.ran {
		return nil
	}
	return *s.warnings
}

// Defaults returns the inputs that were left out and have a default.
func (s *Sheet) Defaults() []*Cell {
	var cells []*Cell
	for _, c := range s.In {
		if !c.given && c.Need == Defaulted && !s.isRoot(c) {
			cells = append(cells, c)
		}
	}
	return cells
}

// Labels returns the given inputs that are to be printed beside the results.
func (s *Sheet) Labels() []*Cell {
	var cells []*Cell
	for _, c := range s.In {
		if c.given && c.Label {
			cells = append(cells, c)
		}
	}
	return cells
}

// Present reports whether the cell holds a value. An input does if it was given; after
// a successful Run, also if it has a default or was solved for. An output does after a
// successful Run, unless it is absent.
func (c *Cell) Present() bool { return (c.given && !c.output || c.sheet.ran) && c.present() }

// Empty reports whether the cell is an output list that a run has left without members.
// It is not Present, but it is an answer: none of the readings lies outside.
func (c *Cell) Empty() bool {
	return c.output && c.Shape == List && c.Need != Optional && c.sheet.ran && !c.bound.present()
}

// NoneText is what people read for a list that is [Cell.Empty].
const NoneText = "none"

// present is Present for the state that a run has just left, successful or not.
func (c *Cell) present() bool {
	if c.shareOf != "" {
		if _, offset := c.sheet.unitOf(c.shareOf).SI(); offset != 0 {
			return false
		}
	}
	if c.number != nil {
		return c.Need != Optional || c.given || c.output || c.sheet.isRoot(c)
	}
	return c.bound.present()
}

// Number returns the value in the canonical unit, a Value in its own unit; for a list,
// the first member. It means nothing unless the cell is [Cell.Present].
func (c *Cell) Number() float64 {
	if c.number != nil {
		return *c.number
	}
	if c.bound.length() == 0 {
		return 0
	}
	return c.bound.at(0)
}

// Numbers returns the values in the canonical unit.
func (c *Cell) Numbers() []float64 {
	if c.number != nil {
		return []float64{*c.number}
	}
	values := make([]float64, c.bound.length())
	for i := range values {
		values[i] = c.bound.at(i)
	}
	return values
}

// Word returns the word or text of the cell. It is empty for a cell with numbers, and
// for one that is not Present.
func (c *Cell) Word() string {
	if c.bound == nil || !c.Present() {
		return ""
	}
	return c.bound.word()
}

// Printed returns the value in the unit to print in.
func (c *Cell) Printed() float64 { return c.In(c.Number(), c.PrintUnit()) }

// PrintUnit returns the unit in which the cell is printed: that of its description, in
// the currency that was given; for a Value, the unit that was given.
func (c *Cell) PrintUnit() paperprop.Unit {
	switch {
	case c.Kind == nil:
		return c.relatedUnit()
	case c.sheet != nil && c.sheet.priced:
		return c.Unit.PricedIn(c.sheet.currency())
	}
	return c.Unit
}

// Nearest returns at most three of the names, those most similar to name, the best
// first.
func Nearest(name string, names []string) []string {
	const longest = 64 // a longer name is not a misspelling
	if len(name) > longest {
		return nil
	}
	type near struct {
		name     string
		distance int
	}
	var found []near
	name = strings.ToLower(name)
	most := 1 + len(name)/4
	for _, n := range names {
		contained := len(name) > 2 && strings.Contains(n, name)
		if !contained && max(len(n)-len(name), len(name)-len(n)) > most {
			continue // names from outside may have any length
		}
		if d := wording.Distance(name, n); contained || d <= most {
			found = append(found, near{n, d})
		}
	}
	if begins := beginning(name, names); len(found) == 0 && begins != "" {
		return []string{begins}
	}
	slices.SortStableFunc(found, func(a, b near) int { return a.distance - b.distance })
	var out []string
	for _, n := range found[:min(len(found), 3)] {
		out = append(out, n.name)
	}
	return out
}

// beginning returns the longest of the names with which a longer one begins: out for
// output, cobb for cobb60.
func beginning(name string, names []string) (longest string) {
	for _, n := range names {
		if len(n) > max(2, len(longest)) && strings.HasPrefix(name, n) {
			longest = n
		}
	}
	return longest
}
