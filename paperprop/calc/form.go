package calc

import (
	"fmt"
	"math"
	"slices"
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

// A Field tells one input or output of a calculation.
type Field struct {
	Name, Symbol, Help  string
	Shape               Shape
	Kind                *paperprop.Kind // nil: a Value, a word, a text
	Relation            string          // of a Value: "any", "as x", "difference of x", "square of x", "y per x"
	Deviates            bool            // of a Value of any unit: it is a deviation, no point of a scale
	Unit                paperprop.Unit  // to print in; none for a Value, a word, a text
	Choices             []string
	Low, High           float64 // canonical; infinite where open
	AboveLow, BelowHigh bool    // the bound itself is excluded
	Whole               bool
	Need                Need
	Substitute          float64 // the default, canonical
	Label               bool    // of an input: a result is not to be read without it
	Varied              bool    // of an input: it is the one that changes where the calculation is used
	Report              Report  // of an output
	Decimal             bool    // the reported text is computed in decimals
	Stepped             bool    // of an output: it stands still and jumps, so no slope tells its uncertainty
}

// Need says what happens when an input is left out. An output that may be
// absent is Optional.
type Need uint8

// The needs of inputs.
const (
	Required Need = iota
	Defaulted
	Optional
)

// A Report says how a result is written down, and who says so.
type Report struct {
	Rule   result.Rule
	Grows  func(x float64) result.Rule // in place of Rule: that for a number in the unit to print in, where the step grows with it
	Words  string                      // which tell Grows: "1 mL below 100, 10 mL above"
	Of     string                      // "ASTM D646"
	Status Status
	Note   string // what is known where there is no rule to apply
}

// Default is the default as a person reads it, or empty.
func (f *Field) Default() string {
	if f.Need != Defaulted {
		return ""
	}
	if f.Kind == nil {
		return paperprop.People(f.Substitute)
	}
	return people(f.Substitute, f.Unit)
}

// people writes a canonical value for a person to read, in the unit u.
func people(v float64, u paperprop.Unit) string {
	return paperprop.WithUnit(paperprop.People(u.To(v)), u)
}

// A Form takes the fields of a calculation, bound to one pair of structs.
type Form struct{ sheet *Sheet }

// An Input is an input being described.
type Input struct{ cell *Cell }

// An Output is an output being described.
type Output struct{ cell *Cell }

// In binds an input: one quantity.
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

// Pointer binds an optional input whose zero is a reading (0 °C): nil is not
// given.
func Pointer[Q quantity](f *Form, p **Q, name, symbol, unit, help string) *Input {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.bound = &pointed[Q]{p: p}
	return f.input(c).Optional()
}

// InList binds an input of several quantities.
func InList[Q quantity](f *Form, p *[]Q, name, symbol, unit, help string) *Input {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.Shape, c.bound = List, &listed[Q]{p}
	return f.input(c)
}

// InWord binds a choice between words. Default is for numbers: a word left out is
// refused, or of an Optional one empty.
func InWord[W ~string](f *Form, p *W, name, help string, choices ...W) *Input {
	c := f.cell(name, name, help)
	c.Shape, c.bound = Word, &worded[W]{p}
	for _, w := range choices {
		c.Choices = append(c.Choices, string(w))
	}
	return f.input(c)
}

// InValue binds a number in any unit or in one that follows another input's:
// relation is "any", "as x" or "difference of x".
func InValue(f *Form, p *float64, name, symbol, relation, help string) *Input {
	c := f.cell(name, symbol, help)
	c.Relation, c.number = relation, p
	return f.input(c)
}

// InValues is InValue for a list.
func InValues(f *Form, p *[]float64, name, symbol, relation, help string) *Input {
	c := f.cell(name, symbol, help)
	c.Shape, c.Relation, c.bound = List, relation, &listed[float64]{p}
	return f.input(c)
}

// Out binds an output: one quantity.
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

// OutList binds an output of several quantities; empty is absent.
func OutList[Q quantity](f *Form, p *[]Q, name, symbol, unit, help string) *Output {
	var q Q
	c := f.quantity(q.Kind(), name, symbol, unit, help)
	c.Shape, c.bound = List, &listed[Q]{p}
	return f.output(c)
}

// OutWord binds an output that is a word.
func OutWord[W ~string](f *Form, p *W, name, help string, choices ...W) *Output {
	c := f.cell(name, name, help)
	c.Shape, c.bound = Word, &worded[W]{p}
	for _, w := range choices {
		c.Choices = append(c.Choices, string(w))
	}
	return f.output(c)
}

// OutText binds an output that is a text: the digits of a reported value, to
// which the unit of the value that relation names is added.
func OutText(f *Form, p *string, name, symbol, relation, help string) *Output {
	c := f.cell(name, symbol, help)
	c.Shape, c.Relation, c.bound = Text, relation, &worded[string]{p}
	return f.output(c)
}

// OutValue binds a number whose unit follows that of an input.
func OutValue(f *Form, p *float64, name, symbol, relation, help string) *Output {
	c := f.cell(name, symbol, help)
	c.Relation, c.number = relation, p
	return f.output(c)
}

// OutValuePointer is OutValue for a result that may be absent: nil.
func OutValuePointer(f *Form, p **float64, name, symbol, relation, help string) *Output {
	c := f.cell(name, symbol, help)
	c.Need, c.Relation, c.bound = Optional, relation, &pointed[float64]{p: p}
	return f.output(c)
}

// Between binds a value on the way that a formula line names and no output
// holds, such as the density of the water: worked solutions show it.
func Between(f *Form, p paperprop.Property, symbol, unit, help string) {
	c := f.quantity(p.Kind(), symbol, symbol, unit, help)
	c.number = p.Number()
	f.sheet.between = append(f.sheet.between, c)
}

// Warnings binds the place where the calculation leaves its warnings.
func (f *Form) Warnings(p *Warnings) { f.sheet.warnings = p }

// Picture draws a result, where there is something to see.
func (f *Form) Picture(draw func() *Picture) { f.sheet.picture = draw }

// Exactly demands that n of the choices are given: a choice is an input or
// inputs taken together, such as a length and a width in place of an area.
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

// Even demands lists of one length: a moisture for each mass. An optional list
// that was left out is not counted.
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

// SumsTo demands that the members of a list add up to a total, give or take
// within; both are numbers in the unit that the field prints in. It is asked of
// what was given alone: an uncertainty moves one member and leaves the others.
func (in *Input) SumsTo(of, within float64) *Input {
	c := in.cell
	c.sheet.totals = append(c.sheet.totals, total{c, c.canonical(of), c.canonical(within)})
	return in
}

func (t total) check() error {
	sum := 0.0
	for i := range t.cell.bound.length() {
		sum += t.cell.bound.at(i)
	}
	// 33.333 % three times is just within 0.001 %, but for the last digits.
	if math.Abs(sum-t.of) <= t.within+result.LastDigits*(math.Abs(t.of)+t.within) {
		return nil
	}
	u := t.cell.Unit
	all := paperprop.WithUnit(fmt.Sprintf("%.12g", u.To(sum)), u) + " in all" // more digits than people want, lest it read as the total
	return &Refusal{Input: t.cell.Name, written: all, want: "%v within %v", args: []fmt.Stringer{words(people(t.of, u)), words(people(t.within, u))}}
}

// Chosen is what Exactly counts: an *Input, or inputs taken Together.
type Chosen interface{ inputs() []*Input }

func (in *Input) inputs() []*Input { return []*Input{in} }

type together []*Input

func (t together) inputs() []*Input { return t }

// Together makes one choice of several inputs: (length, width).
func Together(in ...*Input) Chosen { return together(in) }

// A Choice is a rule that N of the inputs named must be given.
type Choice struct {
	N    int
	Of   [][]string // each the names that are given together
	mask []uint64
}

// String writes the rule as the reference does: "exactly 1 of area, (length,width)".
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

// Above excludes the bound and what lies below it; bounds are numbers in the
// unit that the field prints in.
func (in *Input) Above(low float64) *Input { in.From(low).cell.AboveLow = true; return in }

// From takes the bound and what lies above it.
func (in *Input) From(low float64) *Input {
	in.cell.Low, in.cell.AboveLow = in.cell.canonical(low), false
	return in
}

// Below excludes the bound and what lies above it.
func (in *Input) Below(high float64) *Input { in.UpTo(high).cell.BelowHigh = true; return in }

// UpTo takes the bound and what lies below it.
func (in *Input) UpTo(high float64) *Input {
	in.cell.High, in.cell.BelowHigh = in.cell.canonical(high), false
	return in
}

// Head is the name with the unit of what was given, for the axis of a picture.
func (in *Input) Head() string {
	if unit := paperprop.WithUnit("", in.cell.PrintUnit()); unit != "" {
		return in.cell.Name + " [" + strings.TrimSpace(unit) + "]"
	}
	return in.cell.Name
}

// Whole takes whole numbers only.
func (in *Input) Whole() *Input { in.cell.Whole = true; return in }

// Default is what stands for an input left out, in the unit that the field
// prints in. In the typed struct zero means left out, so zero must be no
// reading, or the default.
func (in *Input) Default(x float64) *Input {
	in.cell.Need, in.cell.Substitute = Defaulted, in.cell.canonical(x)
	return in
}

// Optional lets an input be left out. In the typed struct zero means so.
func (in *Input) Optional() *Input { in.cell.Need = Optional; return in }

// Optional lets a word be absent: empty.
func (out *Output) Optional() *Output { out.cell.Need = Optional; return out }

// Label has an input printed beside the results, which mean nothing without
// it: the time of a Cobb value.
func (in *Input) Label() *Input { in.cell.Label = true; return in }

// Meaning tells what the word of a label stands for: bond, 500 sheets of 17 x 22 in.
func (in *Input) Meaning(text func() string) *Input { in.cell.meaning = text; return in }

// Varied marks the input that changes where the calculation is used, as the
// diameter of a reel that runs off: a curve over it tells most.
func (in *Input) Varied() *Input { in.cell.Varied = true; return in }

// Deviation says that a value of any unit is a deviation, so that a temperature is
// a difference and no point of its scale.
func (in *Input) Deviation() *Input { in.cell.Deviates = true; return in }

// Symbol gives a word a symbol other than its name.
func (in *Input) Symbol(symbol string) *Input { in.cell.Field.Symbol = symbol; return in }

// Report gives the rule by which the result is written down, and whose it is.
func (out *Output) Report(rule result.Rule, of string, status Status) *Output {
	out.cell.Field.Report = Report{Rule: rule, Of: of, Status: status}
	return out
}

// ReportBy reports by a rule whose step grows with the result, a number in the unit
// to print in; words tell it.
func (out *Output) ReportBy(words string, status Status, grows func(x float64) result.Rule) *Output {
	out.cell.Field.Report = Report{Grows: grows, Words: words, Status: status}
	return out
}

// Unreported says why no rule is applied.
func (out *Output) Unreported(note string) *Output {
	out.cell.Field.Report = Report{Note: note}
	return out
}

// Steps says that the output stands still and jumps: a rounded value has no
// slope. Counts have none of themselves.
func (out *Output) Steps() *Output { out.cell.Field.Stepped = true; return out }

// ShareOf says that the output is a share of a Value, an input: it is absent where that
// is a temperature on a scale of which the zero is not nothing.
func (out *Output) ShareOf(input string) *Output { out.cell.shareOf = input; return out }

// Exact gives the reported text as a decimal that is computed from the
// shortest texts of the inputs: masses that are invoiced add up. The text is in
// the unit that the field prints in.
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
		// A description is written by us, and the walk over the catalogue
		// builds each one: this can't happen on anybody's data.
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

// finish makes the guards once all inputs are described.
func (f *Form) finish() {
	s := f.sheet
	s.guards = make([]guard, len(s.In))
	for i, c := range s.In {
		c.index = i
		g := &s.guards[i]
		*g = guard{number: c.number, substitute: c.Substitute, need: c.Need, whole: c.Whole, more: c.number == nil || c.Whole, cell: c}
		c.plain = c.number != nil && c.Kind != nil
		g.low, g.high = max(c.Low, -math.MaxFloat64), min(c.High, math.MaxFloat64)
		if c.AboveLow {
			g.low = math.Nextafter(g.low, math.Inf(1))
		}
		if c.BelowHigh {
			g.high = math.Nextafter(g.high, math.Inf(-1))
		}
		if strings.Contains(c.Relation, " ") || c.kept != nil {
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
			var m uint64
			for _, c := range s.In {
				if slices.Contains(names, c.Name) {
					m |= 1 << c.index
				}
			}
			s.choices[i].mask = append(s.choices[i].mask, m)
		}
	}
}
