package calc

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/formula"
)

// A Solution is a worked solution, as a good teacher would write it on the board. It
// holds texts, so that any front end can set them; package calc/worked writes it as plain
// text or in Markdown.
type Solution struct {
	Title    string
	Given    []GivenLine
	Between  []GivenLine // intermediate values that steps use and no step gives
	Solved   string      // how an input was found from an output, or empty
	Steps    []Step
	Method   string
	Results  []ResultLine
	Warnings Warnings
	Cautions []*Caution
	Source   string
	Status   Status
}

// A GivenLine is one input of a worked solution.
type GivenLine struct {
	Symbol, Name, Help string
	Written            string // the value as written; empty for a default
	Value              string // the value in the unit to print in, empty if Written already says it; or left out
	Default            bool
}

// A Step is one formula with its substitution and unrounded result.
type Step struct {
	Formula     string // q_w = q*(c_in - c_out)/(c_out - c_w)
	Substituted string // 300 t/h*(4.6 % - 0.92 %)/(0.92 % - 0 %)
	Result      string // 1200 t/h

	Line   *formula.Line     // the formula, for front ends that set it themselves
	Values map[string]string // the text for each symbol: 300 t/h
}

// lacks reports whether the formula has a symbol that has no value: that of an input
// that was left out.
func (step *Step) lacks(symbol string) bool {
	_, ok := step.Values[symbol]
	return !ok && slices.Contains(step.Line.Names(), symbol)
}

// A ResultLine is one output of a worked solution.
type ResultLine struct {
	Symbol, Name, Help string
	Full, Reported     string
	Ruled              bool    // Reported follows a rule; else it has six digits
	Rule               string  // the rule by which it is reported, or why there is none
	Remark             string  // what it must not be taken for
	U                  string  // standard uncertainty; may be empty
	Freedom            float64 // its degrees of freedom; zero: infinitely many
	Budget             []BudgetLine
	Members            []ResultLine // for a list: name and uncertainty of each member
	Stepped            bool         // inputs are uncertain, but it changes in jumps: only draws give its uncertainty

	uncertainty Uncertainty
}

// Expanded returns the coverage factor for a level of confidence, and the expanded
// uncertainty as a person reads it. A result without a standard uncertainty is an
// error.
func (r *ResultLine) Expanded(level float64) (k float64, text string, err error) {
	switch {
	case r.U != "":
	case len(r.Members) > 0:
		return 0, "", fmt.Errorf("%s is a list: its members have uncertainties of their own", r.Name)
	case r.Stepped:
		return 0, "", fmt.Errorf("%s moves in steps and has no uncertainty to expand: draws tell it", r.Name)
	default:
		return 0, "", fmt.Errorf("%s has no uncertainty to expand: no input was given with one", r.Name)
	}
	k, expanded, err := r.uncertainty.Expanded(level)
	if err != nil {
		return 0, "", err
	}
	return k, r.uncertainty.Cell.Spread(expanded), nil
}

// A BudgetLine is one source of uncertainty of a result. The last one can be what
// correlations add to the variance or take from it, which has no U.
type BudgetLine struct {
	Name, U string
	Percent float64 // of the variance
}

// Solution returns the worked solution of a sheet that has run.
func (s *Sheet) Solution() (*Solution, error) {
	if !s.ran {
		return nil, ErrNotRun
	}
	info := s.Info()
	w := &Solution{
		Title: info.Title, Method: info.Method, Warnings: slices.Clip(s.Warnings()),
		Cautions: info.Cautions, Source: info.Source, Status: info.Status,
	}
	w.Solved = s.solvedText()
	var err error
	if w.Steps, err = s.steps(); err != nil {
		return nil, err
	}
	for _, c := range s.In {
		if line, ok := givenLine(c); ok {
			w.Given = append(w.Given, line)
		} else if slices.ContainsFunc(w.Steps, func(step Step) bool { return step.lacks(c.Symbol) }) {
			w.Given = append(w.Given, GivenLine{Symbol: c.Symbol, Name: c.Name, Help: c.Help, Value: "left out"})
		}
	}
	w.Between = s.onTheWay(w.Steps)
	w.Results, err = s.resultLines()
	return w, err
}

// onTheWay returns the intermediate values that steps use and no step gives: from a
// steam table, or a unit in which coefficients hold.
func (s *Sheet) onTheWay(steps []Step) []GivenLine {
	var lines []GivenLine
	for _, c := range s.between {
		uses := func(step Step) bool { return slices.Contains(step.Line.Names(), c.Symbol) }
		gives := func(step Step) bool { return step.Line.Name == c.Symbol }
		if c.Present() && slices.ContainsFunc(steps, uses) && !slices.ContainsFunc(steps, gives) && s.bySymbol(c.Symbol, s.In) == nil {
			lines = append(lines, GivenLine{Symbol: c.Symbol, Help: c.Help, Value: c.short()})
		}
	}
	return lines
}

func givenLine(c *Cell) (GivenLine, bool) {
	line := GivenLine{Symbol: c.Symbol, Name: c.Name, Help: c.Help}
	switch {
	case c.given && c.Shape == Word:
		line.Written = c.Word()
	case c.given:
		line.Written = c.text
		if c.text == "" || c.Kind != nil && c.unit != c.PrintUnit() || !pure(c.unit) && !c.unit.Spelled(c.text) {
			line.Value = c.short()
			if c.Shape == One && c.Uncertain() {
				u := c.Difference(c.uncertain[0].Standard)
				line.Value = paperprop.WithUnit(paperprop.People(c.Printed())+" ± "+twoFigures(u), c.PrintUnit())
			}
		}
	case c.Need == Defaulted && c.Present():
		line.Value, line.Default = c.short(), true
	default:
		return line, false
	}
	return line, true
}

// unrounded returns a result with ten digits: more than any reading has, but not so
// many that they show how a number is stored, as 11.6249999999999 does.
func (c *Cell) unrounded() string {
	if c.Shape.inLetters() {
		return c.Reported()
	}
	return c.join(tenDigits)
}

func tenDigits(x float64) string { return string(paperprop.AppendShort(nil, toDigits(x, 10))) }

// short returns a value with six digits, as a person reads it.
func (c *Cell) short() string { return c.join(paperprop.People) }

// inPrintUnit reports whether a cell was given in the unit to print in.
func (c *Cell) inPrintUnit() bool { return c.given && (c.Kind == nil || c.unit == c.PrintUnit()) }

func (s *Sheet) solvedText() string {
	if len(s.Roots) == 0 {
		return ""
	}
	var roots []string
	for _, r := range s.Roots {
		roots = append(roots, r.Input.Name+" = "+r.People())
	}
	target := s.target()
	return fmt.Sprintf("%s was given as %s; the range of %s was searched for what gives it: %s",
		target.Name, target.text, s.Roots[0].Input.Name, strings.Join(roots, ", or "))
}

// Lines parses the formula lines that hold for the words of the sheet.
func (s *Sheet) Lines() ([]*formula.Line, error) {
	var lines []*formula.Line
	for _, text := range s.Info().Formula {
		line, err := formula.Parse(text)
		if err != nil {
			return nil, err
		}
		if s.holds(line) {
			lines = append(lines, line)
		}
	}
	return lines, nil
}

func (s *Sheet) holds(line *formula.Line) bool {
	for _, w := range line.Words {
		if !slices.ContainsFunc(s.In, func(c *Cell) bool { return c.Shape == Word && c.Word() == w }) {
			return false
		}
	}
	return true
}

// Values returns the inputs and results of a sheet that has run, for its formula lines:
// in coherent units, by symbol. A result has its symbol even if an input of that symbol
// was left out.
func (s *Sheet) Values() formula.Values { return s.valuesBy((*Cell).coherent) }

// valuesBy is Values with another value for each cell that has one.
func (s *Sheet) valuesBy(value func(*Cell) formula.Value) formula.Values {
	values := formula.Values{}
	for _, c := range slices.Concat(s.In, s.Out, s.between) {
		if c.Shape.inLetters() || !c.Present() {
			continue
		}
		if slices.Contains(s.In, c) && !c.given && c.Need == Optional {
			continue
		}
		values[c.Symbol] = value(c)
	}
	return values
}

func (c *Cell) coherent() formula.Value {
	numbers := c.Numbers()
	var d paperprop.Dimension
	if c.Kind != nil {
		canonical := c.Kind.Canonical()
		factor, offset := canonical.SI()
		d = canonical.Dimension()
		for i := range numbers {
			numbers[i] = numbers[i]*factor + offset
		}
	}
	if c.Shape == List {
		return formula.List(numbers, d)
	}
	return formula.Number(numbers[0], d)
}

// lineResults evaluates the formula lines and returns their results by symbol,
// including values that are not outputs.
func lineResults(lines []*formula.Line, values formula.Values) map[string]formula.Value {
	found := map[string]formula.Value{}
	for _, line := range lines {
		v, err := line.Eval(values)
		if err != nil {
			continue
		}
		found[line.Name] = v
		if _, ok := values[line.Name]; !ok {
			values[line.Name] = v
		}
	}
	return found
}

func (s *Sheet) steps() ([]Step, error) {
	lines, err := s.Lines()
	if err != nil {
		return nil, err
	}
	w := s.way(lines)
	var steps []Step
	for i, line := range lines {
		if s.shown(line, lines, w) && !s.roundAbout(line, lines[i+1:]) {
			steps = append(steps, s.step(line, w))
		}
	}
	return steps, nil
}

// shown reports whether a line is a step of the solution.
func (s *Sheet) shown(line *formula.Line, lines []*formula.Line, w *way) bool {
	if in := s.bySymbol(line.Name, s.In); in != nil && in.given {
		return false // the line is a form of a formula for a value that was given
	}
	if s.bySymbol(line.Name, slices.Concat(s.In, s.Out, s.between)) == nil && slices.ContainsFunc(s.Out, func(c *Cell) bool { return c.Symbol == line.Name }) {
		return false // its result is absent
	}
	// Another form may be the one that suits these inputs.
	return complete(line, w.values) || !slices.ContainsFunc(lines, func(l *formula.Line) bool {
		return l.Name == line.Name && complete(l, w.values)
	})
}

func (s *Sheet) step(line *formula.Line, w *way) Step {
	texts := s.texts(line, w)
	step := Step{Formula: line.Text, Line: line, Values: texts}
	step.Substituted = line.Replace(func(name string, alone bool) (string, bool) {
		text, ok := texts[name]
		if !alone {
			text = bracketed(text)
		}
		return text, ok
	})
	if out := s.bySymbol(line.Name, slices.Concat(s.Out, s.between)); out != nil {
		step.Result = out.join(tenDigits)
	} else if _, ok := w.found[line.Name]; ok {
		step.Result, _ = w.text(line.Name, tenDigits)
	}
	return step
}

// texts returns the values of the names in a line as they appear in a substitution:
// with six digits, but with ten where a calculator needs them, and what was written as
// it was written.
func (s *Sheet) texts(line *formula.Line, w *way) map[string]string {
	texts := map[string]string{}
	maps.Copy(texts, s.leftOutAsZero(line, w))
	write := paperprop.People
	if !s.sixDigitsDo(line, w) {
		write = tenDigits
	}
	for _, name := range line.Names() {
		switch c := s.substituted(name); {
		case c == nil:
			if text, ok := w.text(name, write); ok {
				texts[name] = text
			}
		case s.fromZero(c, line):
			texts[name] = textOf(c.coherent(), write) + " K"
		case c.inPrintUnit():
			texts[name] = c.unrounded()
		default:
			texts[name] = c.join(write)
		}
	}
	return texts
}

// substituted returns the cell whose value stands for a name in a substitution.
func (s *Sheet) substituted(name string) *Cell {
	return s.bySymbol(name, slices.Concat(s.between, s.In, s.Out))
}

// fromZero reports whether a temperature counts from absolute zero in a line. A weighted
// mean of temperatures stays on their own scale.
func (s *Sheet) fromZero(c *Cell, line *formula.Line) bool {
	return c.isTemperature() && (slices.Contains(line.Factors(), c.Symbol) && c.Shape != List || line.Divides(c.Symbol))
}

// sixDigitsDo reports whether a line with its values to six digits gives its result to
// four: not where they are nearly the same and one is taken from the other.
func (s *Sheet) sixDigitsDo(line *formula.Line, w *way) bool {
	exact, err := line.Eval(w.values)
	if err != nil {
		return true // a name without a value
	}
	values := maps.Clone(w.values)
	for _, name := range line.Names() {
		v := values[name]
		v.Numbers = slices.Clone(v.Numbers)
		c := s.substituted(name)
		for i, x := range v.Numbers {
			switch {
			case c == nil || s.fromZero(c, line):
				v.Numbers[i] = toDigits(x, 6)
			case c.inPrintUnit(): // stands there as it is
			case c.Kind == nil:
				v.Numbers[i] = toDigits(x, 6)
			default:
				factor, offset := c.Kind.Canonical().SI()
				u := c.PrintUnit()
				v.Numbers[i] = u.From(toDigits(u.To((x-offset)/factor), 6))*factor + offset
			}
		}
		values[name] = v
	}
	rounded, err := line.Eval(values)
	if err != nil || len(rounded.Numbers) != len(exact.Numbers) {
		return false
	}
	for i, x := range exact.Numbers {
		if !(math.Abs(rounded.Numbers[i]-x) <= 1e-4*math.Abs(x)) {
			return false
		}
	}
	return true
}

// isTemperature reports whether the cell is a temperature, on a scale with an offset.
func (c *Cell) isTemperature() bool {
	if c.Kind == nil {
		return false
	}
	_, offset := c.Kind.Canonical().SI()
	return offset != 0
}

// bracketed separates a unit with a slash, and a sign, from the text around it: 1
// t/(125 g/m2).
func bracketed(text string) string {
	if strings.ContainsAny(text, "/") || strings.HasPrefix(text, "-") {
		return "(" + text + ")"
	}
	return text
}

// complete reports whether all names of a line have values.
func complete(line *formula.Line, values formula.Values) bool {
	for _, name := range line.Names() {
		if _, ok := values[name]; !ok {
			return false
		}
	}
	return true
}

// bySymbol returns the cell with a value and the given symbol.
func (s *Sheet) bySymbol(symbol string, cells []*Cell) *Cell {
	for _, c := range cells {
		if c.Symbol == symbol && c.Shape != Word && c.Present() && (c.given || c.Need != Optional || !slices.Contains(s.In, c)) {
			return c
		}
	}
	return nil
}

func (s *Sheet) resultLines() ([]ResultLine, error) {
	uncertainties, err := s.Uncertainties()
	if err != nil {
		return nil, err
	}
	cells := s.Out
	if len(s.Roots) == 1 { // the input that was solved for comes first
		cells = slices.Concat([]*Cell{s.Roots[0].Input}, s.Out)
	}
	var lines []ResultLine
	for _, c := range cells {
		if c.Empty() {
			lines = append(lines, ResultLine{Symbol: c.Symbol, Name: c.Name, Help: c.Help, Full: NoneText})
		}
		if c.output && (!c.Present() || s.Sought(c.Name)) {
			continue
		}
		line := ResultLine{
			Symbol: c.Symbol, Name: c.Name, Help: c.Help,
			Full: c.unrounded(), Reported: c.Reported(), Ruled: c.HasRule(), Rule: c.Field.Report.String(), Remark: c.Remark,
		}
		if !c.output {
			line.Rule = "solved for"
			if r := s.Roots[0]; r.Low != r.High { // every value between gives the output
				line.Full, line.Reported = r.People(), r.People()
			}
		}
		line.spread(c, uncertainties)
		lines = append(lines, line)
	}
	return lines, nil
}

// spread sets the uncertainty of a cell's line, or those of its members.
func (r *ResultLine) spread(c *Cell, uncertainties []Uncertainty) {
	for _, u := range uncertainties {
		if u.Cell != c {
			continue
		}
		if c.Stepped {
			r.Stepped = true
			return
		}
		of := r
		if c.Shape == List {
			r.Members = append(r.Members, ResultLine{Name: memberName(c.Name, len(r.Members))})
			of = &r.Members[len(r.Members)-1]
		}
		of.U, of.Budget, of.Freedom, of.uncertainty = c.Spread(u.Standard), budget(u), u.Freedom, u
		if c.Shape == List { // leaves out the other members, which have no effect
			of.Budget = slices.DeleteFunc(of.Budget, func(b BudgetLine) bool { return b.Percent == 0 })
		}
	}
}

// budget returns the shares of an uncertainty, the largest first.
func budget(u Uncertainty) []BudgetLine {
	if u.Standard == 0 {
		return nil
	}
	shares := slices.Clone(u.Shares)
	slices.SortStableFunc(shares, func(a, b Share) int { return cmp.Compare(b.U, a.U) })
	var lines []BudgetLine
	rest := 100.0
	for _, s := range shares {
		part := s.U / u.Standard
		lines = append(lines, BudgetLine{s.Name, u.Cell.Spread(s.U), 100 * part * part})
		rest -= 100 * part * part
	}
	if math.Abs(rest) > 0.01 { // of independent values nothing is left
		lines = append(lines, BudgetLine{"correlations", "", rest})
	}
	return lines
}
