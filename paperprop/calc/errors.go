package calc

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
)

// A MissingError reports an input that is required and was not given.
type MissingError struct {
	Input *Field
	Also  []string // other inputs of a sheet that are missing too
}

func (e *MissingError) Error() string {
	if len(e.Also) > 0 {
		return e.first() + "; missing too: " + strings.Join(e.Also, ", ")
	}
	return e.first()
}

// first is what is said of the first input that is missing.
func (e *MissingError) first() string {
	switch {
	case e.Input.Shape == Word:
		return fmt.Sprintf("%s is missing, want %s: no default", e.Input.Name, orList(e.Input.Choices))
	case e.Input.Shape == Table:
		return fmt.Sprintf("%s is missing, want rows in brackets, such as [1 2 3 | 4 5 6] g", e.Input.Name)
	case e.Input.Kind == nil:
		return fmt.Sprintf("%s is missing, want a number in any unit", e.Input.Name)
	}
	text := fmt.Sprintf("%s is missing, want %s", e.Input.Name, e.Input.wanted())
	if e.Input.Shape == List || e.Input.Kind.Name() == "Ratio" { // the unit does not tell what is meant
		text += ": " + e.Input.Help
	}
	return text
}

// wanted names the sort of value that an input takes.
func (f *Field) wanted() string {
	article := "a "
	if f.Shape == List {
		article = "a list of "
	} else if strings.ContainsRune("AEIO", rune(f.Kind.Name()[0])) {
		article = "an "
	}
	words := f.Kind.Words()
	if words == "ratio" {
		words = "number"
	}
	if f.Shape == List {
		words = plural(words)
	}
	text := article + words
	if u := f.Unit.String(); u != "" && u != "1" {
		text += " such as 1 " + u
	}
	return text
}

// plural is the plural of what a kind is called: masses, densities, lengths.
func plural(words string) string {
	switch stem, y := strings.CutSuffix(words, "y"); {
	case y && !strings.HasSuffix(stem, "a"):
		return stem + "ies"
	case strings.HasSuffix(words, "s"):
		return words + "es"
	}
	return words + "s"
}

func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// A WordError reports a word that is none of the choices.
type WordError struct {
	Input *Field
	Text  string
}

func (e *WordError) Error() string {
	return fmt.Sprintf("%s is %q, want %s", e.Input.Name, shortened(e.Text), orList(e.Input.Choices))
}

// A WholeError reports a number that should be whole.
type WholeError struct {
	Input string
	Value float64
	Text  string // as the person wrote it
}

func (e *WholeError) Error() string {
	if e.Text != "" {
		return fmt.Sprintf("%s is %s, want a whole number", e.Input, e.Text)
	}
	return fmt.Sprintf("%s is %s, want a whole number", e.Input, paperprop.People(e.Value))
}

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *WholeError) Unwrap() error { return paperprop.ErrRange }

// A FiniteError reports a result that is no number, or beyond 1e300: the inputs lie
// outside what the calculation can take.
type FiniteError struct{ Output *Field }

func (e *FiniteError) Error() string {
	return fmt.Sprintf("%s is not finite for these inputs: %v", e.Output.Name, paperprop.ErrRange)
}

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *FiniteError) Unwrap() error { return paperprop.ErrRange }

// A ChoiceError reports that too many or too few of some inputs were given.
type ChoiceError struct {
	Choice Choice
	Given  []string
}

func (e *ChoiceError) Error() string {
	if len(e.Given) == 0 {
		return fmt.Sprintf("want %v, none is given", e.Choice)
	}
	return fmt.Sprintf("want %v, given: %s", e.Choice, strings.Join(e.Given, ", "))
}

// A LengthError reports lists that should be as long as each other.
type LengthError struct {
	Input, Other *Field
	Got, Want    int
}

func (e *LengthError) Error() string {
	return fmt.Sprintf("%s has %v, want %d, as many as %s", e.Input.Name, Members(e.Got), e.Want, e.Other.Name)
}

// A Refusal reports an input that is in its range but can't go with the
// others, or whose result would mean nothing.
type Refusal struct {
	Input string // may name an output: a yield above 100 %

	written string         // as the person wrote it, where that is known
	unit    paperprop.Unit // in which the person wrote the input
	numbers paperprop.Unit // of a Value, the unit of its numbers
	got     fmt.Stringer
	want    string
	args    []fmt.Stringer
}

// Refuse makes a Refusal: of what value, and what would be accepted. The args
// are quantities for the verbs %v of want. The texts are written when they are asked
// for: a search tries thousands of values that are refused.
func Refuse(input string, got fmt.Stringer, want string, args ...fmt.Stringer) error {
	return &Refusal{Input: input, got: got, want: want, args: args}
}

// Got is the value as the person wrote it, else as a person reads it.
func (e *Refusal) Got() string {
	if e.written != "" {
		return e.written
	}
	return e.text(e.got)
}

// Want is what would be accepted.
func (e *Refusal) Want() string {
	texts := make([]any, len(e.args))
	for i, a := range e.args {
		texts[i] = e.text(a)
	}
	return fmt.Sprintf(e.want, texts...)
}

// Written puts in how the person wrote the value.
func (e *Refusal) Written(text string) { e.written = text }

func (e *Refusal) Error() string { return fmt.Sprintf("%s is %s, want %s", e.Input, e.Got(), e.Want()) }

// words are a text amid quantities.
type words string

func (w words) String() string { return string(w) }

// Members is how many values a list has, for [Refuse]: "3 values".
type Members int

// String writes the number in words of a person.
func (n Members) String() string {
	if n == 1 {
		return "1 value"
	}
	return strconv.Itoa(int(n)) + " values"
}

// text writes the quantities that unit measures in that: masses in grams, dry ones too.
func (e *Refusal) text(q fmt.Stringer) string {
	if q == nil {
		return "" // of a Refusal that Refuse did not make
	}
	if strings.Contains(q.String(), "Inf") {
		return "beyond all numbers"
	}
	if _, number := q.(paperprop.Ratio); number && !e.numbers.IsZero() {
		return paperprop.WithUnit(q.String(), e.numbers)
	}
	own, ok := q.(interface{ Kind() *paperprop.Kind })
	if !ok || e.unit.IsZero() {
		return q.String()
	}
	k := own.Kind()
	unit, unitErr := k.Unit(e.unit.String())
	v, _, err := k.Parse(q.String())
	if err != nil || unitErr != nil {
		return q.String()
	}
	return people(v, unit)
}

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *Refusal) Unwrap() error { return paperprop.ErrRange }

// A NameError reports a name that the calculation does not have.
type NameError struct {
	Calculation, Name string
	Near              []string
}

func (e *NameError) Error() string {
	text := fmt.Sprintf("%s has no input or output %q", e.Calculation, e.Name)
	if len(e.Near) > 0 {
		text += ", near: " + strings.Join(e.Near, ", ")
	}
	return text
}

// An InputError puts the name of an input, and the text given for it, before
// what is wrong with the text.
type InputError struct {
	Input, Text string
	Err         error
}

func (e *InputError) Error() string {
	text := e.Err.Error()
	switch e.Err.(type) {
	case *WordError, *MissingError: // which name the input, as of a typed one
		return text
	}
	var unit *paperprop.UnitError
	if errors.As(e.Err, &unit) && unit.Fault == paperprop.MissingUnit {
		what := "value"
		if unit.Kind != nil {
			what = unit.Kind.Words()
		}
		text = strings.TrimPrefix(text, what+" ")
		if strings.HasPrefix(text, strconv.Quote(e.Text)) {
			return e.Input + " " + text // the name of the input says what it is
		}
	}
	if strings.Contains(text, strconv.Quote(e.Text)) {
		return e.Input + ": " + text // no text twice
	}
	return fmt.Sprintf("%s %q: %s", e.Input, shortened(e.Text), text)
}

// shortened is a text that fits into a message.
func shortened(text string) string {
	const most = 64
	if len(text) > most {
		return text[:most] + "…"
	}
	return text
}

// Unwrap returns what is wrong.
func (e *InputError) Unwrap() error { return e.Err }

// A noNumberError says what was wanted of a text that begins with no number.
type noNumberError struct{ want string }

func (e *noNumberError) Error() string { return "no number, want " + e.want }

// Unwrap makes errors.Is(err, paperprop.ErrNumber) true, as of any other text that is
// no number.
func (e *noNumberError) Unwrap() error { return paperprop.ErrNumber }

func memberName(name string, i int) string { return fmt.Sprintf("%s[%d]", name, i+1) }
