package calc

import (
	"cmp"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/wording"
)

// A MissingError reports a required input that was not given.
type MissingError struct {
	Input *Field
	Also  []string // other missing inputs of the sheet
}

func (e *MissingError) Error() string {
	if len(e.Also) > 0 {
		return e.first() + "; missing too: " + strings.Join(e.Also, ", ")
	}
	return e.first()
}

// first returns the message for the first missing input.
func (e *MissingError) first() string {
	switch {
	case e.Input.Shape == Word:
		return fmt.Sprintf("%s is missing, want %s: no default", e.Input.Name, wording.Or(e.Input.Choices))
	case e.Input.Shape == Table:
		return fmt.Sprintf("%s is missing, want rows in brackets, such as [1 2 3 | 4 5 6] g", e.Input.Name)
	case e.Input.Shape == Text:
		return fmt.Sprintf("%s is missing, want a text: %s", e.Input.Name, e.Input.Help)
	case e.Input.Kind == nil:
		return fmt.Sprintf("%s is missing, want a number in any unit", e.Input.Name)
	}
	text := fmt.Sprintf("%s is missing, want %s", e.Input.Name, e.Input.wanted())
	if e.Input.Shape == List || e.Input.Kind.Name() == "Ratio" { // the unit alone would not explain what is meant
		text += ": " + e.Input.Help
	}
	return text
}

// wanted returns the sort of value that an input accepts.
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
	if !pure(f.Unit) {
		text += " such as 1 " + f.Unit.String()
	}
	return text
}

// plural returns the plural of the name of a kind: masses, densities, lengths.
func plural(words string) string {
	switch stem, y := strings.CutSuffix(words, "y"); {
	case y && !strings.HasSuffix(stem, "a"):
		return stem + "ies"
	case strings.HasSuffix(words, "s"):
		return words + "es"
	}
	return words + "s"
}

// A WordError reports a word that is not one of the choices.
type WordError struct {
	Input *Field
	Text  string
}

func (e *WordError) Error() string {
	return fmt.Sprintf("%s is %q, want %s", e.Input.Name, wording.Clip(e.Text), wording.Or(e.Input.Choices))
}

// A WholeError reports a number that should be whole.
type WholeError struct {
	Input string
	Value float64
	Text  string // as written
}

func (e *WholeError) Error() string {
	return fmt.Sprintf("%s is %s, want a whole number", e.Input, cmp.Or(e.Text, paperprop.People(e.Value)))
}

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *WholeError) Unwrap() error { return paperprop.ErrRange }

// A FiniteError reports a result that is not finite or exceeds 1e300: the inputs lie
// outside what the calculation can handle.
type FiniteError struct{ Output *Field }

func (e *FiniteError) Error() string {
	return fmt.Sprintf("%s is not finite for these inputs: %v", e.Output.Name, paperprop.ErrRange)
}

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *FiniteError) Unwrap() error { return paperprop.ErrRange }

// A ChoiceError reports that too many or too few of the inputs of a choice were given.
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

// A LengthError reports lists that should have the same length.
type LengthError struct {
	Input, Other *Field
	Got, Want    int
}

func (e *LengthError) Error() string {
	return fmt.Sprintf("%s has %v, want %d, as many as %s", e.Input.Name, Members(e.Got), e.Want, e.Other.Name)
}

// A Refusal reports an input that is in its range but does not fit the others, or would
// give a meaningless result.
type Refusal struct {
	Input string // may name an output, such as a yield above 100 %

	written string         // as written, if known
	unit    paperprop.Unit // unit in which the input was written
	numbers paperprop.Unit // for a Value, the unit of its numbers
	got     fmt.Stringer
	want    string
	args    []fmt.Stringer
}

// Refuse returns a [Refusal] of the value got of an input, with a text on what would be
// accepted. The args are quantities for the verbs %v in want. Texts are formatted only
// when asked for, as a search tries thousands of refused values.
func Refuse(input string, got fmt.Stringer, want string, args ...fmt.Stringer) error {
	return &Refusal{Input: input, got: got, want: want, args: args}
}

// Got returns the value as written, else as a person reads it.
func (e *Refusal) Got() string {
	if e.written != "" {
		return e.written
	}
	return e.text(e.got, e.form())
}

// Want returns what would be accepted.
func (e *Refusal) Want() string {
	texts, form := make([]any, len(e.args)), e.form()
	for i, a := range e.args {
		texts[i] = e.text(a, form)
	}
	return fmt.Sprintf(e.want, texts...)
}

// Written sets the text in which the value was written.
func (e *Refusal) Written(text string) { e.written = text }

func (e *Refusal) Error() string {
	verb := "is"
	if _, count := e.got.(Members); count && e.written == "" {
		verb = "has"
	}
	return fmt.Sprintf("%s %s %s, want %s", e.Input, verb, e.Got(), e.Want())
}

// words is text among the quantities of a message.
type words string

func (w words) String() string { return string(w) }

// Members is the number of values in a list, for use with [Refuse]: "3 values".
type Members int

// String returns "1 value", "2 values" and so on.
func (n Members) String() string { return wording.Count(int(n), "value") }

// form returns how quantities are written: as people read them, or with more digits where
// the value refused would look like one that is wanted.
func (e *Refusal) form() func(float64, paperprop.Unit) string {
	for _, a := range e.args {
		if e.got != nil && a.String() != e.got.String() && e.text(a, people) == e.text(e.got, people) {
			return twelve
		}
	}
	return people
}

// text returns a quantity in a form, in the unit of the input if that measures it too:
// masses in grams, dry ones as well.
func (e *Refusal) text(q fmt.Stringer, form func(float64, paperprop.Unit) string) string {
	if q == nil {
		return "" // the Refusal was not made by Refuse
	}
	if strings.Contains(q.String(), "Inf") {
		return "infinite"
	}
	if _, number := q.(paperprop.Ratio); number && !e.numbers.IsZero() {
		return paperprop.WithUnit(q.String(), e.numbers)
	}
	own, ok := q.(interface{ Kind() *paperprop.Kind })
	if !ok {
		return q.String()
	}
	k := own.Kind()
	v, unit, err := k.Parse(q.String())
	if err != nil {
		return q.String()
	}
	if written, err := k.Unit(e.unit.String()); err == nil && !e.unit.IsZero() {
		unit = written
	}
	return form(v, unit)
}

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *Refusal) Unwrap() error { return paperprop.ErrRange }

// A NameError reports a name that the calculation does not have.
type NameError struct {
	Calculation, Name string
	Near              []string
	All               []string // all names, told where none is near
}

func (e *NameError) Error() string {
	return fmt.Sprintf("%s has no input or output %q%s", e.Calculation, e.Name, e.Wanted())
}

// Wanted returns the end of a message: the names that are near, or else all, or nothing.
func (e *NameError) Wanted() string {
	switch {
	case len(e.Near) > 0:
		return ", near: " + strings.Join(e.Near, ", ")
	case len(e.All) > 0:
		return ", want one of " + strings.Join(e.All, ", ")
	}
	return ""
}

// An InputError adds the name of an input, and the text given for it, to an error about
// that text.
type InputError struct {
	Input, Text string
	Err         error
}

func (e *InputError) Error() string {
	text := e.Err.Error()
	switch e.Err.(type) {
	case *WordError, *MissingError: // which name the input already
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
			return e.Input + " " + text // the name of the input replaces "value"
		}
	}
	if strings.Contains(text, strconv.Quote(e.Text)) {
		return e.Input + ": " + text // does not repeat the text
	}
	return fmt.Sprintf("%s %q: %s", e.Input, wording.Clip(e.Text), text)
}

// Unwrap returns the error about the text.
func (e *InputError) Unwrap() error { return e.Err }

// An UnlikeError refuses a Value in a unit that measures something else than the input
// that it follows: a step in g/m2 of a reading in N.
type UnlikeError struct {
	Err error  // usually a *paperprop.ConversionError
	Of  string // the input that it follows
}

func (e *UnlikeError) Error() string { return e.Err.Error() + "; want " + e.Accepted() }

// Accepted says what would do.
func (e *UnlikeError) Accepted() string { return "the unit of " + e.Of }

// Unwrap returns the error without what would do.
func (e *UnlikeError) Unwrap() error { return e.Err }

// A noNumberError says what was wanted of a text that begins with no number.
type noNumberError struct{ want string }

func (e *noNumberError) Error() string { return "no number, want " + e.want }

// Unwrap makes errors.Is(err, paperprop.ErrNumber) true, as of any other text that is
// no number.
func (e *noNumberError) Unwrap() error { return paperprop.ErrNumber }

func memberName(name string, i int) string { return fmt.Sprintf("%s[%d]", name, i+1) }

// Code returns the stable code of an error of this package, for programs, and the name
// of the input it is about, if any. The codes are missing, range (the name may be that
// of an output that is not finite), refused, word, choice (too many or too few of an
// "exactly n of"), length (lists that differ), no-root, name (an unknown name), text
// (an unreadable value), and input for everything else. An error of another package may
// have a method Code that returns one of them. For a nil error both are empty.
func Code(err error) (code, input string) {
	var missing *MissingError
	var ranged *paperprop.RangeError
	var refusal *Refusal
	var read *InputError
	var name *NameError
	var whole *WholeError
	var word *WordError
	var choice *ChoiceError
	var length *LengthError
	var root *NoRootError
	var infinite *FiniteError
	var coded interface{ Code() (code, input string) }
	var other interface{ About() string }
	if err == nil {
		return "", ""
	}
	switch {
	case errors.As(err, &coded):
		return coded.Code()
	case errors.As(err, &missing):
		return "missing", missing.Input.Name
	case errors.As(err, &ranged):
		return "range", ranged.Input
	case errors.As(err, &whole):
		return "range", whole.Input
	case errors.As(err, &infinite):
		return "range", infinite.Output.Name
	case errors.As(err, &refusal):
		return "refused", refusal.Input
	case errors.As(err, &word):
		return "word", word.Input.Name
	case errors.As(err, &choice):
		return "choice", ""
	case errors.As(err, &length):
		return "length", length.Input.Name
	case errors.As(err, &root):
		return "no-root", root.Unknown.Name
	case errors.As(err, &name):
		return "name", name.Name
	case errors.As(err, &read):
		return "text", read.Input
	case errors.As(err, &other):
		return "input", other.About()
	}
	return "input", ""
}
