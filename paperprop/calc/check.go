package calc

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
)

// A Check is one row of a check table: a call and its expected outcome.
type Check struct {
	File        string
	Line        int
	ID          string
	Calculation string
	Inputs      []Pair
	Refused     bool   // the call must return an error, whatever its reason: an input given twice is one
	Warned      bool   // the call must give a warning
	Expected    []Pair // "u(NAME)" is a standard uncertainty
	Tolerance   Tolerance
	Kind        Status
	Source      string
	Note        string

	// Open opens the file of an input @FILE. If nil, the file is looked for beside the
	// table or below, and nowhere else, as a table may come from a stranger.
	Open func(name string) (io.ReadCloser, error)
}

// A Tolerance says how far a value may differ from the expected one.
type Tolerance struct {
	Relative, Absolute float64 // Absolute is in the unit of the expected value
	Exact              bool
}

// takes reports whether got is within the tolerance of want. An expected zero is met
// within 1e-15.
func (t Tolerance) takes(got, want float64) bool {
	switch {
	case t.Exact:
		return got == want
	case t.Absolute > 0:
		return math.Abs(got-want) <= t.Absolute
	case want == 0:
		return math.Abs(got) <= 1e-15
	}
	return math.Abs(got-want) <= t.Relative*math.Abs(want)
}

// A Failure is one way in which a call differs from what its check row expects.
type Failure struct {
	Name       string // empty if the failure is of the call as a whole
	Got, Want  string
	Difference string
}

func (f Failure) String() string {
	text := f.Got
	if f.Name != "" {
		text = f.Name + " is " + f.Got
	}
	if f.Want != "" {
		text += ", want " + f.Want
	}
	if f.Difference != "" {
		text += ", difference " + f.Difference
	}
	return text
}

// A Lookup finds a calculation by its name.
type Lookup func(name string) (Calculation, bool)

// Run makes the call of the row and returns everything that was not as expected.
func (c *Check) Run(lookup Lookup) []Failure {
	calculation, ok := lookup(c.Calculation)
	if !ok {
		return []Failure{{Got: fmt.Sprintf("unknown calculation %q", c.Calculation)}}
	}
	if tool, ok := calculation.(*Tool); ok {
		return c.runTool(tool)
	}
	s := calculation.NewSheet()
	for _, p := range slices.Concat(c.Inputs, c.Expected) {
		if _, _, err := s.named(bareName(p.Name)); err != nil {
			return []Failure{{Got: err.Error()}}
		}
	}
	inputs := slices.Clone(c.Inputs)
	for i := range inputs {
		var err error
		if inputs[i].Text, err = c.expanded(inputs[i].Text); err != nil {
			return []Failure{{Got: fmt.Sprintf("%s: %v", inputs[i].Name, err)}} // does not count as refused: there was no call
		}
	}
	err := givenTwice(inputs)
	if err == nil {
		err = call(s, c.asking(s, inputs))
	}
	if failures, done := c.outcome(err); done {
		return failures
	}
	if err := c.choose(s); err != nil {
		return []Failure{{Got: "refused: " + err.Error()}}
	}
	return c.compare(s)
}

// choose computes the results of the value that the row expects of an input solved for,
// where several were found: they are not those of the first.
func (c *Check) choose(s *Sheet) error {
	if len(s.Roots) < 2 {
		return nil
	}
	for _, p := range c.Expected {
		if p.Name != s.Roots[0].Input.Name {
			continue
		}
		for _, r := range s.Roots {
			if c.compareNumbers(r.Input, [][]float64{{r.Low}}, p.Text) == nil {
				return s.at(r)
			}
		}
	}
	return nil
}

// outcome returns what is wrong with a call that was refused, or should have been. It
// reports whether nothing is left to compare.
func (c *Check) outcome(err error) (failures []Failure, done bool) {
	switch {
	case err != nil && c.Refused:
		return nil, true
	case err != nil:
		return []Failure{{Got: "refused: " + err.Error()}}, true
	case c.Refused:
		return []Failure{{Got: "computed", Want: "a refusal"}}, true
	}
	return nil, false
}

// asking adds an input to solve for, taken from what the row expects, if an output is
// given and no required input is left out: it has a default, or is one of a choice. A
// command takes a ? for it; here the row names it.
func (c *Check) asking(s *Sheet, inputs []Pair) []Pair {
	given := func(name string) bool {
		return slices.ContainsFunc(inputs, func(p Pair) bool { return p.Name == name })
	}
	for _, in := range s.In {
		if in.Need == Required && !given(in.Name) {
			return inputs
		}
	}
	solves := slices.ContainsFunc(inputs, func(p Pair) bool {
		in, _ := s.Input(p.Name)
		return in == nil
	})
	asked := slices.ContainsFunc(inputs, func(p Pair) bool { return p.Text == "?" })
	if !solves || asked {
		return inputs
	}
	for _, p := range c.Expected {
		if in, _ := s.Input(p.Name); in != nil && !given(p.Name) {
			return append(inputs, Pair{p.Name, "?"})
		}
	}
	return inputs
}

func call(s *Sheet, inputs []Pair) error {
	if err := s.SetPairs(inputs); err != nil {
		return err
	}
	return s.Run()
}

// bareName returns the NAME of u(NAME).
func bareName(name string) string {
	if inner, ok := strings.CutPrefix(name, "u("); ok {
		return strings.TrimSuffix(inner, ")")
	}
	return name
}

func (c *Check) compare(s *Sheet) []Failure {
	var failures []Failure
	if c.Warned && len(s.Warnings()) == 0 {
		if doubts, err := s.Doubts(Findings{}); err != nil || len(doubts) == 0 {
			failures = append(failures, unwarned)
		}
	}
	for _, p := range c.Expected {
		if f := c.compareOne(s, p); f != nil {
			f.Name = p.Name
			failures = append(failures, *f)
		}
	}
	return failures
}

var unwarned = Failure{Got: "no warning", Want: "one"}

func (c *Check) compareOne(s *Sheet, p Pair) *Failure {
	name := bareName(p.Name)
	in, out, _ := s.named(name)
	switch {
	case name != p.Name:
		if out == nil || s.isRoot(in) {
			out = in
		}
		return c.compareUncertainty(s, out, p)
	case out != nil && out.Shape == List && p.Text == "[]":
		if out.Present() {
			return &Failure{Got: out.Full(), Want: "an empty list"}
		}
		return nil
	case out != nil && out.Shape.inLetters():
		if !out.Present() {
			return &Failure{Got: "absent", Want: strconv.Quote(p.Text)}
		}
		if got := out.Reported(); got != p.Text {
			return &Failure{Got: strconv.Quote(got), Want: strconv.Quote(p.Text)}
		}
		return nil
	case out != nil && !out.Present():
		return &Failure{Got: "absent", Want: p.Text}
	case s.isRoot(in): // an output of its name only repeats it
	case out != nil:
		return c.compareNumbers(out, [][]float64{out.Numbers()}, p.Text)
	default:
		return &Failure{Got: notSolvedFor, Want: p.Text}
	}
	var roots [][]float64
	for _, r := range s.Roots {
		roots = append(roots, []float64{r.Low})
		if r.High != r.Low {
			roots = append(roots, c.insideInterval(in, r, p.Text))
		}
	}
	f := c.compareNumbers(in, roots, p.Text)
	if n := len(s.Roots); f != nil && n > 1 {
		f.Got += fmt.Sprintf(", the nearest of %d values found", n)
	}
	return f
}

// insideInterval returns the expected value itself if it lies in the interval.
func (c *Check) insideInterval(in *Cell, r Root, text string) []float64 {
	want, err := in.readValues(text)
	if err == nil && want.values[0] >= r.Low && want.values[0] <= r.High {
		return want.values
	}
	return []float64{r.High}
}

// notSolvedFor describes an expected input that the row gives, or leaves to its
// default.
const notSolvedFor = "an input that was not solved for"

// notCompared returns a failure of the row itself: what it expects cannot be read.
func notCompared(text string, err error) *Failure {
	return &Failure{Got: fmt.Sprintf("not compared with %q: %v", text, err)}
}

// compareNumbers compares in the unit of the expected value. Any of the answers may
// match; if none does, the nearest is shown.
func (c *Check) compareNumbers(cell *Cell, answers [][]float64, text string) *Failure {
	want, err := cell.readValues(text)
	if err != nil {
		return notCompared(text, err)
	}
	unit := want.unit
	if cell.Kind != nil {
		if _, err := cell.PrintUnit().Convert(1, unit); err != nil { // the currencies differ
			return &Failure{Got: err.Error(), Want: text}
		}
	}
	var nearest *Failure
	least := math.Inf(1)
	for _, got := range answers {
		f, off := c.compareAnswer(cell, got, want.values, unit)
		if f == nil {
			return nil
		}
		if nearest == nil || off < least {
			nearest, least = f, off
		}
	}
	nearest.Want = text
	return nearest
}

// compareAnswer returns a failure, if there is one, and its distance from what was
// expected.
func (c *Check) compareAnswer(cell *Cell, got, want []float64, unit paperprop.Unit) (*Failure, float64) {
	if len(got) != len(want) {
		return &Failure{Got: Members(len(got)).String()}, 0
	}
	for i := range got {
		g, w := got[i], want[i]
		var shown float64
		if cell.Kind == nil {
			var err error
			if shown, err = cell.PrintUnit().Convert(g, unit); err != nil {
				return &Failure{Got: err.Error()}, 0
			}
			g = shown
		} else if shown = unit.To(g); !c.Tolerance.Exact {
			g, w = shown, unit.To(w)
		}
		if !c.Tolerance.takes(g, w) {
			difference := g - w
			if cell.Kind != nil && c.Tolerance.Exact { // compared in the canonical unit, shown in the expected one
				difference = unit.Difference().To(difference)
			}
			return &Failure{
				Got:        shownMember(shown, unit, i, len(got)),
				Difference: paperprop.People(difference),
			}, math.Abs(g - w)
		}
	}
	return nil, 0
}

// shownMember returns a value in full, with its position if it is one of several.
func shownMember(x float64, u paperprop.Unit, i, n int) string {
	text := paperprop.WithUnit(string(paperprop.AppendShort(nil, x)), u)
	if n > 1 {
		text += fmt.Sprintf(" as member %d", i+1)
	}
	return text
}

func (c *Check) compareUncertainty(s *Sheet, cell *Cell, p Pair) *Failure {
	all, err := s.Uncertainties()
	if err != nil {
		return &Failure{Got: err.Error(), Want: p.Text}
	}
	got := standards(cell, all)
	switch {
	case len(got) > 0:
	case len(all) == 0:
		return &Failure{Got: "no uncertainty: no input has one", Want: p.Text}
	case cell.Stepped:
		return &Failure{Got: "no uncertainty: it stands still and jumps", Want: p.Text}
	default:
		return &Failure{Got: notSolvedFor, Want: p.Text}
	}
	numbers, unitText, _, err := cell.split(p.Text)
	if err != nil {
		return notCompared(p.Text, err)
	}
	unit, err := cell.uncertaintyUnit(unitText)
	if err != nil {
		return notCompared(p.Text, err)
	}
	if len(numbers) != len(got) {
		return &Failure{Got: Members(len(got)).String(), Want: p.Text}
	}
	for i, text := range numbers {
		want, err := paperprop.ParseNumber(text)
		if err != nil {
			return notCompared(p.Text, err)
		}
		x := got[i]
		if cell.Kind != nil {
			x = unit.To(x)
		} else if x, err = cell.PrintUnit().Difference().Convert(x, unit); err != nil {
			return &Failure{Got: err.Error(), Want: p.Text}
		}
		if !c.Tolerance.takes(x, want) {
			return &Failure{Got: shownMember(x, unit, i, len(got)), Want: p.Text, Difference: paperprop.People(x - want)}
		}
	}
	return nil
}

// uncertaintyUnit reads the unit of an expected uncertainty.
func (c *Cell) uncertaintyUnit(text string) (paperprop.Unit, error) {
	if c.Kind == nil {
		u, err := paperprop.ParseUnit(text)
		return u.Difference(), err
	}
	u, err := c.spreadUnit(text, c.Unit)
	return u.Difference(), err
}

func (c *Check) runTool(t *Tool) []Failure {
	for _, p := range c.Inputs {
		if !t.Takes(c.Inputs, p.Name, false) {
			return []Failure{{Got: fmt.Sprintf("%s has no input %q", t.About.Name, p.Name)}}
		}
	}
	for _, p := range c.Expected {
		if !t.Takes(c.Inputs, p.Name, true) {
			return []Failure{{Got: fmt.Sprintf("%s has no output %q", t.About.Name, p.Name)}}
		}
	}
	var answers []Answer
	err := givenTwice(c.Inputs)
	if err == nil {
		answers, err = t.Run(c.Inputs)
	}
	failures, done := c.outcome(err)
	if done {
		return failures
	}
	if c.Warned && len(t.Warnings(c.Inputs)) == 0 {
		failures = append(failures, unwarned)
	}
	for _, p := range c.Expected {
		i := slices.IndexFunc(answers, func(a Answer) bool { return a.Name == p.Name })
		if i < 0 {
			failures = append(failures, Failure{p.Name, "absent", p.Text, ""})
		} else if f := c.compareTool(answers[i], p.Text); f != nil {
			f.Name = p.Name
			failures = append(failures, *f)
		}
	}
	return failures
}

func (c *Check) compareTool(a Answer, text string) *Failure {
	number, unitText, _ := strings.Cut(text, " ")
	numbers, err := []string{number}, error(nil)
	if a.List != nil {
		if numbers, unitText, _, err = splitNumbers(text); err != nil {
			return notCompared(text, err)
		}
	}
	all := a.Numbers()
	if len(all) != len(numbers) {
		return &Failure{Got: Members(len(all)).String(), Want: text}
	}
	unit := a.Unit
	if unitText != unit.String() {
		if unit, err = a.unitNamed(unitText); err != nil {
			return notCompared(text, err)
		}
	}
	for i, x := range all {
		want, err := paperprop.ParseNumber(numbers[i])
		if err != nil {
			return notCompared(text, err)
		}
		got, err := a.Unit.Convert(x, unit)
		if err != nil {
			return &Failure{Got: paperprop.WithUnit(paperprop.People(x), a.Unit), Want: text}
		}
		if !c.Tolerance.takes(got, want) {
			return &Failure{Got: shownMember(got, unit, i, len(all)), Want: text, Difference: paperprop.People(got - want)}
		}
	}
	return nil
}
