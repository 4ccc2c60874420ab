package calc

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
)

// A Shape says how many values a field takes, and of what sort.
type Shape uint8

// The shapes of fields.
const (
	One Shape = iota
	List
	Word // one of Choices
	Text
	Table // rows of numbers, of a tool
)

// inLetters reports whether a field holds a word or a text, and no number.
func (s Shape) inLetters() bool { return s == Word || s == Text }

// A Field describes one input or output of a calculation. A field without a kind that
// is neither a word nor a text is a Value: a number of any unit.
type Field struct {
	Name, Symbol, Help  string
	Shape               Shape
	Kind                *paperprop.Kind // nil for a Value, a word or a text
	Relation            string          // unit of a Value: "any", "as x", "difference of x", "square of x", "y per x"
	Deviates            bool            // for a Value: it is a deviation, not a point on a scale
	Unit                paperprop.Unit  // unit to print in, where no sheet says otherwise; none for a Value, a word or a text
	Choices             []string
	Low, High           float64 // canonical; infinite if open
	AboveLow, BelowHigh bool    // the bound itself is excluded
	Whole               bool
	Need                Need
	Substitute          float64 // the default, canonical
	Label               bool    // for an input: a result means nothing without it
	Varied              bool    // for an input: the one that varies in practice
	Report              Report  // for an output
	Remark              string  // for an output: what it must not be taken for, told beside every result
	Decimal             bool    // the reported text is computed in decimals
	Stepped             bool    // for an output: it changes in jumps, so slopes do not give its uncertainty
}

// A Need says what happens if an input is left out. An output that may be absent is
// Optional.
type Need uint8

// The needs of inputs.
const (
	Required Need = iota
	Defaulted
	Optional
)

// A Report says how a result is reported, and on whose authority.
type Report struct {
	Rule   result.Rule
	Grows  func(x float64) result.Rule // instead of Rule, if the step grows with the result: the rule for a number in the unit to print in
	Words  string                      // Grows in words: "1 mL below 100, 10 mL above"
	Of     string                      // the document with the rule: "ASTM D646"
	Status Status
	Note   string // a remark, if there is no rule
}

// Default returns the default as a person reads it; empty if there is none.
func (f *Field) Default() string {
	if f.Need != Defaulted {
		return ""
	}
	return people(f.Substitute, f.Unit)
}

// people returns a canonical value in the unit u as a person reads it.
func people(v float64, u paperprop.Unit) string {
	return paperprop.WithUnit(paperprop.People(u.To(v)), u)
}

// twelve writes a quantity with up to twelve digits.
func twelve(v float64, u paperprop.Unit) string {
	x, err := strconv.ParseFloat(strconv.FormatFloat(u.To(v), 'e', 11, 64), 64)
	if err != nil {
		return people(v, u)
	}
	return paperprop.WithUnit(string(paperprop.AppendShort(nil, x)), u)
}

// A Form collects the fields of a calculation, bound to one pair of structs.
type Form struct{ sheet *Sheet }

// An Input is an input being described.
type Input struct{ cell *Cell }

// An Output is an output being described.
type Output struct{ cell *Cell }

// In binds an input of one quantity. Unit is the unit to print in.
func In(f *Form, p paperprop.Property, name, symbol, unit, help string) *Input {
	c := f.quantity(p.Kind(), name, symbol, unit, help)
	c.number = p.Number()
	return f.input(c)
}

// A quantity is any of the quantity types of paperprop.
type quantity interface {
	~float64
	Kind() *paperprop.Kind
}

// Pointer binds an optional input for which zero is a reading (0 °C): nil means not
// given.
func Pointer[Q quantity](f *Form, p **Q, name, symbol, unit, help string) *Input {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.bound = &pointed[Q]{p: p}
	return f.input(c).Optional()
}

// InList binds an input that is a list of quantities.
func InList[Q quantity](f *Form, p *[]Q, name, symbol, unit, help string) *Input {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.Shape, c.bound = List, &listed[Q]{p}
	return f.input(c)
}

// InWord binds an input that is one of several words. It has no Default: a word left out
// is refused, or empty where it is Optional.
func InWord[W ~string](f *Form, p *W, name, help string, choices ...W) *Input {
	return f.input(word(f, p, name, help, choices))
}

func word[W ~string](f *Form, p *W, name, help string, choices []W) *Cell {
	c := f.cell(name, name, help)
	c.Shape, c.bound = Word, &worded[W]{p}
	for _, w := range choices {
		c.Choices = append(c.Choices, string(w))
	}
	return c
}

// InValue binds a Value, a number whose unit is free or follows that of another input:
// relation is "any", "as x" or "difference of x".
func InValue(f *Form, p *float64, name, symbol, relation, help string) *Input {
	c := f.cell(name, symbol, help)
	c.Relation, c.number = relation, p
	return f.input(c)
}

// InValues is [InValue] for a list.
func InValues(f *Form, p *[]float64, name, symbol, relation, help string) *Input {
	c := f.cell(name, symbol, help)
	c.Shape, c.Relation, c.bound = List, relation, &listed[float64]{p}
	return f.input(c)
}

// Out binds an output of one quantity. Unit is the unit to print in.
func Out(f *Form, p paperprop.Property, name, symbol, unit, help string) *Output {
	c := f.quantity(p.Kind(), name, symbol, unit, help)
	c.number = p.Number()
	return f.output(c)
}

// OutPointer binds an output that may be absent: nil.
func OutPointer[Q quantity](f *Form, p **Q, name, symbol, unit, help string) *Output {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.Need, c.bound = Optional, &pointed[Q]{p: p}
	return f.output(c)
}

// OutList binds an output that is a list of quantities; an empty list is absent.
func OutList[Q quantity](f *Form, p *[]Q, name, symbol, unit, help string) *Output {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.Shape, c.bound = List, &listed[Q]{p}
	return f.output(c)
}

// OutWord binds an output that is a word.
func OutWord[W ~string](f *Form, p *W, name, help string, choices ...W) *Output {
	return f.output(word(f, p, name, help, choices))
}

// OutText binds an output that is a text: the digits of a reported value. It is printed
// with the unit of the input that relation names.
func OutText(f *Form, p *string, name, symbol, relation, help string) *Output {
	c := f.cell(name, symbol, help)
	c.Shape, c.Relation, c.bound = Text, relation, &worded[string]{p}
	return f.output(c)
}

// OutValue binds an output whose unit follows that of an input: relation is "as x",
// "difference of x", "square of x" or "y per x". One with a unit of its own is bound by
// [Out].
func OutValue(f *Form, p *float64, name, symbol, relation, help string) *Output {
	c := f.cell(name, symbol, help)
	c.Relation, c.number = relation, p
	return f.output(c)
}

// OutValuePointer is [OutValue] for a result that may be absent: nil.
func OutValuePointer(f *Form, p **float64, name, symbol, relation, help string) *Output {
	c := f.cell(name, symbol, help)
	c.Need, c.Relation, c.bound = Optional, relation, &pointed[float64]{p: p}
	return f.output(c)
}

// Between binds an intermediate value that a formula line names and no output holds,
// such as the density of the water, so that worked solutions can show it.
func Between(f *Form, p paperprop.Property, symbol, unit, help string) {
	c := f.quantity(p.Kind(), symbol, symbol, unit, help)
	c.number = p.Number()
	f.sheet.between = append(f.sheet.between, c)
}

// Warnings binds the variable in which the calculation leaves its warnings.
func (f *Form) Warnings(p *Warnings) { f.sheet.warnings = p }

// Picture sets the function that draws a result.
func (f *Form) Picture(draw func() *Picture) { f.sheet.picture = draw }

// Exactly requires that exactly n of the choices are given. A choice is an input, or
// several taken [Together], such as a length and a width instead of an area.
func (f *Form) Exactly(n int, of ...Chosen) {
	choice := Choice{N: n}
	for _, o := range of {
		var names []string
		for _, in := range o.inputs() {
			in.Optional()
			names = append(names, in.cell.Name)
		}
		choice.Of = append(choice.Of, names)
	}
	f.sheet.choices = append(f.sheet.choices, choice)
}

// Even requires lists of the same length, such as a moisture for each mass. An optional
// list that was left out does not count.
func (f *Form) Even(lists ...*Input) {
	var cells []*Cell
	for _, in := range lists {
		cells = append(cells, in.cell)
	}
	f.sheet.even = append(f.sheet.even, cells)
}

// A total is what the members of a list must add up to.
type total struct {
	cell       *Cell
	of, within float64 // canonical
}

// SumsTo requires that the members of a list add up to a total, give or take within.
// Both are numbers in the unit that the field prints in. Only the given values are
// checked: an uncertainty moves one member at a time.
func (in *Input) SumsTo(of, within float64) *Input {
	c := in.cell
	c.sheet.totals = append(c.sheet.totals, total{c, c.Unit.From(of), c.Unit.From(within)})
	return in
}

func (t total) check() error {
	sum := 0.0
	for i := range t.cell.bound.length() {
		sum += t.cell.bound.at(i)
	}
	// 33.333 % three times is just within 0.001 %, apart from rounding.
	if math.Abs(sum-t.of) <= t.within+result.LastDigits*(math.Abs(t.of)+t.within) {
		return nil
	}
	u := t.cell.Unit
	all := paperprop.WithUnit(fmt.Sprintf("%.12g", u.To(sum)), u) + " in all" // enough digits that it does not read as the total
	return &Refusal{Input: t.cell.Name, written: all, want: "%v within %v", args: []fmt.Stringer{words(people(t.of, u)), words(people(t.within, u))}}
}

// A Chosen is what Exactly counts: an *Input, or inputs taken [Together].
type Chosen interface{ inputs() []*Input }

func (in *Input) inputs() []*Input { return []*Input{in} }

type together []*Input

func (t together) inputs() []*Input { return t }

// Together makes one choice of several inputs: (length, width).
func Together(in ...*Input) Chosen { return together(in) }

// A Choice is the rule that exactly N of the named inputs must be given.
type Choice struct {
	N    int
	Of   [][]string // each entry holds names that are given together
	mask []uint64
}

// String returns the rule as written in the reference: "exactly 1 of area,
// (length,width)".
func (c Choice) String() string {
	var of []string
	for _, names := range c.Of {
		if len(names) > 1 {
			of = append(of, "("+strings.Join(names, ",")+")")
		} else {
			of = append(of, names[0])
		}
	}
	return fmt.Sprintf("exactly %d of %s", c.N, strings.Join(of, ", "))
}

func (c *Choice) check(given uint64, s *Sheet) error {
	n, part := 0, false
	for _, m := range c.mask {
		if given&m == m {
			n++
		} else if given&m != 0 {
			part = true
		}
	}
	if n == c.N && !part {
		return nil
	}
	err := &ChoiceError{Choice: *c}
	for i, g := range s.guards {
		if given&(1<<i) != 0 && slices.ContainsFunc(c.Of, func(names []string) bool { return slices.Contains(names, g.cell.Name) }) {
			err.Given = append(err.Given, g.cell.Name)
		}
	}
	return err
}

// Above requires a value above low. Bounds are numbers in the unit that the field
// prints in.
func (in *Input) Above(low float64) *Input { in.From(low).cell.AboveLow = true; return in }

// From requires a value of at least low.
func (in *Input) From(low float64) *Input {
	in.cell.Low, in.cell.AboveLow = in.cell.Unit.From(low), false
	return in
}

// Below requires a value below high.
func (in *Input) Below(high float64) *Input { in.UpTo(high).cell.BelowHigh = true; return in }

// UpTo requires a value of at most high.
func (in *Input) UpTo(high float64) *Input {
	in.cell.High, in.cell.BelowHigh = in.cell.Unit.From(high), false
	return in
}

// Head returns the name with the unit as given, for the axis of a picture.
func (in *Input) Head() string {
	if unit := paperprop.WithUnit("", in.cell.PrintUnit()); unit != "" {
		return in.cell.Name + " [" + strings.TrimSpace(unit) + "]"
	}
	return in.cell.Name
}

// Whole requires a whole number.
func (in *Input) Whole() *Input { in.cell.Whole = true; return in }

// Default sets the value of an input that is left out, in the unit that the field
// prints in. In the typed struct zero means left out, so zero must not be a reading,
// unless it is the default. A word has none.
func (in *Input) Default(x float64) *Input {
	if in.cell.Shape == Word {
		// A fault of the description, as a wrong unit is: it would do nothing, unnoticed.
		panic(fmt.Sprintf("calc: %s: Default is for numbers, and a word has none: want Optional, or no default", in.cell.Name))
	}
	in.cell.Need, in.cell.Substitute = Defaulted, in.cell.Unit.From(x)
	return in
}

// Optional lets an input be left out. In the typed struct zero means left out.
func (in *Input) Optional() *Input { in.cell.Need = Optional; return in }

// Optional lets a word be absent, which is the empty word.
func (out *Output) Optional() *Output { out.cell.Need = Optional; return out }

// Label has an input printed beside the results because they mean nothing without it,
// such as the time of a Cobb value.
func (in *Input) Label() *Input { in.cell.Label = true; return in }

// Meaning sets what the word of a label stands for: bond, 500 sheets of 17 x 22 in.
func (in *Input) Meaning(text func() string) *Input { in.cell.meaning = text; return in }

// Varied marks the input that varies in practice, such as the diameter of a reel that
// unwinds: a curve over it is the most informative.
func (in *Input) Varied() *Input { in.cell.Varied = true; return in }

// Deviation marks a Value as a deviation, so that a temperature is a difference and not
// a point on its scale.
func (in *Input) Deviation() *Input { in.cell.Deviates = true; return in }

// Symbol gives a word a symbol other than its name.
func (in *Input) Symbol(symbol string) *Input { in.cell.Field.Symbol = symbol; return in }

// Report sets the rule by which the result is reported, the document that gives it, and
// its status.
func (out *Output) Report(rule result.Rule, of string, status Status) *Output {
	out.cell.Field.Report = Report{Rule: rule, Of: of, Status: status}
	return out
}

// ReportBy sets a rule whose step grows with the result, a number in the unit to print
// in; words describe it.
func (out *Output) ReportBy(words string, status Status, grows func(x float64) result.Rule) *Output {
	out.cell.Field.Report = Report{Grows: grows, Words: words, Status: status}
	return out
}

// Unreported says why there is no rule.
func (out *Output) Unreported(note string) *Output {
	out.cell.Field.Report = Report{Note: note}
	return out
}

// Remark tells beside every result what it must not be taken for.
func (out *Output) Remark(text string) *Output { out.cell.Field.Remark = text; return out }

// Steps marks an output that changes in jumps, such as a rounded value, which has no
// slope. Counts are marked already.
func (out *Output) Steps() *Output { out.cell.Field.Stepped = true; return out }

// ShareOf marks the output as a share of a Value, an input. It is absent if the input
// is a temperature on a scale whose zero is not absolute zero.
func (out *Output) ShareOf(input string) *Output { out.cell.shareOf = input; return out }

// Exact sets a function that returns the reported text, computed in decimals from the
// shortest texts of the inputs, so that invoiced masses add up. The text is in the unit
// that the field prints in.
func (out *Output) Exact(text func() string) *Output {
	out.cell.exact, out.cell.Decimal = text, true
	return out
}

func (f *Form) cell(name, symbol, help string) *Cell {
	return &Cell{sheet: f.sheet, Field: &Field{
		Name: name, Symbol: symbol, Help: help, Low: math.Inf(-1), High: math.Inf(1),
	}}
}

func (f *Form) quantity(k *paperprop.Kind, name, symbol, unit, help string) *Cell {
	c := f.cell(name, symbol, help)
	c.Kind = k
	c.Low, c.High = k.Range()
	c.Whole = k.Name() == "Count"
	u, err := k.Unit(unit)
	if err != nil {
		// A fault of the description, which the catalogue's tests find by building each
		// one. No user data can cause it.
		panic(fmt.Sprintf("calc: %s: %v", name, err))
	}
	c.Unit = u
	return c
}

func (f *Form) input(c *Cell) *Input {
	f.sheet.In = append(f.sheet.In, c)
	return &Input{c}
}

func (f *Form) output(c *Cell) *Output {
	c.Stepped = c.Whole
	c.output = true
	f.sheet.Out = append(f.sheet.Out, c)
	return &Output{c}
}

// mustDiffer panics where a name or the field of an input is bound twice: a fault of the
// description, as in [Form.quantity].
func (c *Cell) mustDiffer(others []*Cell) {
	for _, other := range others {
		switch {
		case c.Name == other.Name:
			panic(fmt.Sprintf("calc: %s: bound twice", c.Name))
		case !c.output && c.number != nil && c.number == other.number:
			panic(fmt.Sprintf("calc: %s: bound to the field of %s", c.Name, other.Name))
		}
	}
}

// finish makes the guards after all inputs are described.
func (f *Form) finish() {
	s := f.sheet
	s.guards = make([]guard, len(s.In))
	for _, cells := range [...][]*Cell{s.In, s.Out} {
		for i, c := range cells {
			c.resolve()
			c.mustDiffer(cells[:i])
		}
	}
	for i, c := range s.In {
		c.index = i
		s.guards[i] = newGuard(c)
		c.plain = c.number != nil && c.Kind != nil
		if c.follows.how != unrelated || c.kept != nil {
			s.related = true
		}
		if c.Relation != "" || c.Kind != nil && c.Kind.Name() == "Price" {
			s.priced = true
		}
	}
	for _, c := range s.Out {
		if c.number != nil {
			s.numbers, s.plain = append(s.numbers, c.number), append(s.plain, c)
		} else {
			s.others = append(s.others, c)
		}
	}
	s.together = len(s.choices)+len(s.even)+len(s.totals) > 0
	s.borrows = len(s.others) > 0 || s.warnings != nil || slices.ContainsFunc(s.In, func(c *Cell) bool { return c.number == nil })
	for i := range s.choices {
		for _, names := range s.choices[i].Of {
			is := func(g *guard) bool { return slices.Contains(names, g.cell.Name) }
			s.choices[i].mask = append(s.choices[i].mask, s.bits(is))
		}
	}
}

func newGuard(c *Cell) guard {
	g := guard{
		number: c.number, low: max(c.Low, -math.MaxFloat64), high: min(c.High, math.MaxFloat64), substitute: c.Substitute,
		cell: c, need: c.Need, whole: c.Whole, more: c.number == nil || c.Whole,
	}
	if c.AboveLow {
		g.low = math.Nextafter(g.low, math.Inf(1))
	}
	if c.BelowHigh {
		g.high = math.Nextafter(g.high, math.Inf(-1))
	}
	return g
}
