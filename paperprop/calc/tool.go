package calc

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"

	"millmaths.example/paperprop"
)

// A Pair is a name with the text given for it.
type Pair struct{ Name, Text string }

// An Answer is one result of a tool.
type Answer struct {
	Name  string
	Value float64   // in Unit
	List  []float64 // if the result is a list
	Unit  paperprop.Unit
	Text  string  // if the result is a text
	U     float64 // standard uncertainty of Value, for the digits that people read; zero: six digits
}

// Numbers returns the values of a result that is not a text.
func (a Answer) Numbers() []float64 {
	if a.List != nil {
		return a.List
	}
	return []float64{a.Value}
}

// unitNamed reads a unit to show the result in. Of two quantities that share a spelling it
// is the result's own: K is a difference of temperatures where the result is one.
func (a Answer) unitNamed(text string) (paperprop.Unit, error) {
	if k := a.Unit.Kind(); k != nil {
		if u, err := k.Unit(text); err == nil {
			return u, nil
		}
	}
	return paperprop.ParseUnit(text)
}

// A Tool is a calculation whose inputs no struct can hold, because it accepts names or
// tables of the caller. It has a signature and works with check tables like any other.
type Tool struct {
	About Info // without the fields

	// Fields makes the inputs and outputs on first use.
	Fields func() (in, out []*Field)

	Run func(given []Pair) ([]Answer, error)

	// Clean removes from a table read from a file what the tool cannot use, by rules
	// that the notes name; NaN is a missing reading. Nil removes nothing.
	Clean func(rows [][]float64) (kept [][]float64, notes []string, err error)

	// Warn returns what to know about the answers to what was given, which Run takes. It is
	// nil if there is nothing.
	Warn func(given []Pair) []Warning

	// Picture draws the answers. It is nil if there is nothing to see.
	Picture func(given []Pair, answers []Answer) *Picture

	// Open reports whether a name that About does not list is nevertheless an input, or
	// an output, as a model has names of its own. Nil means no.
	Open func(given []Pair, name string, output bool) bool

	once sync.Once
}

// Takes reports whether a name is one of the tool's inputs, or of its outputs.
func (t *Tool) Takes(given []Pair, name string, output bool) bool {
	fields := t.Info().In
	if output {
		fields = t.Info().Out
	}
	if t.Open != nil && t.Open(given, name, output) {
		return true
	}
	return slices.ContainsFunc(fields, func(f *Field) bool { return f.Name == name })
}

// Warnings returns what to know about the answers to what was given.
func (t *Tool) Warnings(given []Pair) []Warning {
	if t.Warn == nil {
		return nil
	}
	return t.Warn(given)
}

// ID returns the name of the tool.
func (t *Tool) ID() string { return t.About.Name }

// Info returns the description of the tool.
func (t *Tool) Info() *Info {
	t.once.Do(func() { t.About.In, t.About.Out = t.Fields() })
	return &t.About
}

// NewSheet returns a sheet without inputs. Its Set and its Run return an error: use the
// tool's own Run, or [RunJSON].
func (t *Tool) NewSheet() *Sheet { return &Sheet{of: t, compute: t.noSheet} }

func (t *Tool) noSheet() error {
	return fmt.Errorf("%s is a tool and has no sheet, want its own Run or RunJSON", t.About.Name)
}

// NewField returns a field for an input or output of a tool.
func NewField(name, symbol string, shape Shape, help string) *Field {
	return &Field{Name: name, Symbol: symbol, Shape: shape, Relation: "any", Help: help, Low: math.Inf(-1), High: math.Inf(1)}
}

// NewWords returns a field for an input of a tool that is a choice of words.
func NewWords(name, help string, choices ...string) *Field {
	f := NewField(name, name, Word, help)
	f.Choices = choices
	return f
}

// People returns the answer as a person reads it.
func (a Answer) People() string {
	if a.Text != "" {
		return a.Text
	}
	return a.join(func(x float64) string { return peopleBeside(x, a.U) })
}

// Full returns the answer with all its digits.
func (a Answer) Full() string {
	if a.Text != "" {
		return a.Text
	}
	return a.join(func(x float64) string { return string(paperprop.AppendShort(nil, x)) })
}

func (a Answer) join(write func(x float64) string) string {
	var texts []string
	for _, x := range a.Numbers() {
		texts = append(texts, write(x))
	}
	if a.List != nil {
		return paperprop.WithUnit("["+strings.Join(texts, " ")+"]", a.Unit)
	}
	return paperprop.WithUnit(texts[0], a.Unit)
}

// Restate converts the answer to another unit. A unit that is spelt as one of
// the answer's own quantity is that one: K of a difference is a difference.
func (a *Answer) Restate(u paperprop.Unit) error {
	if own, err := a.unitNamed(u.String()); err == nil {
		u = own
	}
	list := make([]float64, len(a.List))
	for i, x := range a.List {
		var err error
		if list[i], err = a.Unit.Convert(x, u); err != nil {
			return &InputError{a.Name, u.String(), err}
		}
	}
	x, err := a.Unit.Convert(a.Value, u)
	if err != nil {
		return &InputError{a.Name, u.String(), err}
	}
	if a.U != 0 {
		if factor, err := a.Unit.Difference().Convert(1, u.Difference()); err == nil {
			a.U *= factor
		}
	}
	a.Value, a.Unit = x, u
	if a.List != nil {
		a.List = list
	}
	return nil
}

// AnswersJSON returns what was given to a tool and its answers as JSON, in the form
// that a calculation uses. The warnings are those about how it came to be given, such as
// what Clean removed; those of the tool are added.
func AnswersJSON(t *Tool, given []Pair, answers []Answer, warnings ...Warning) ([]byte, error) {
	var inputs, outputs object
	for _, p := range given {
		inputs.add(p.Name, p.Text)
	}
	for _, a := range answers {
		if a.Text != "" {
			outputs.add(a.Name, a.Text)
			continue
		}
		o := object{{"value", jsonNumber(a.Value)}}
		if a.List != nil {
			o = object{{"value", jsonNumbers(a.List)}}
		}
		o.addUnit(a.Unit)
		outputs.add(a.Name, o)
	}
	o := object{{"calculation", t.About.Name}, {"version", Version}, {"inputs", inputs}, {"outputs", outputs}}
	o.addWarnings(slices.Concat(warnings, t.Warnings(given)))
	o.addOrigin(&t.About)
	return marshal(o)
}

// TableText returns rows in the form in which a tool reads a table: "[1 2 | 3 -] g",
// with - for NaN.
func TableText(rows [][]float64, unit string) string {
	b := []byte{'['}
	for i, row := range rows {
		if i > 0 {
			b = append(b, " |"...)
		}
		for j, x := range row {
			if i+j > 0 {
				b = append(b, ' ')
			}
			if math.IsNaN(x) {
				b = append(b, '-')
			} else {
				b = paperprop.AppendShort(b, x)
			}
		}
	}
	return strings.TrimSpace(string(b) + "] " + unit)
}

func (t *Tool) names() (names []string) {
	for _, f := range t.About.In {
		names = append(names, f.Name)
	}
	return names
}

// AnswerJSON runs the tool on the inputs given and those of a JSON object, in the form
// that [Sheet.SetJSON] reads, and returns its answers as JSON.
func (t *Tool) AnswerJSON(given []Pair, data []byte) ([]byte, error) {
	members, err := parseObject(data)
	if err != nil {
		return nil, err
	}
	all := slices.Clone(given)
	for _, m := range members {
		text, err := valueText(m.raw, false)
		if err != nil {
			return nil, &InputError{m.name, string(m.raw), err}
		}
		if i := slices.IndexFunc(given, func(p Pair) bool { return p.Name == m.name }); i >= 0 {
			return nil, &InputError{m.name, text, givenAlready(given[i])}
		}
		all = append(all, Pair{m.name, text})
	}
	for _, p := range all {
		if !t.Takes(all, p.Name, false) {
			return nil, &NameError{t.About.Name, p.Name, Nearest(p.Name, t.names()), t.names()}
		}
	}
	answers, err := t.Run(all)
	if err != nil {
		return nil, err
	}
	return AnswersJSON(t, all, answers)
}
