package paperprop

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"millmaths.example/paperprop/internal/wording"
)

// The kinds of error in this package, for [errors.Is].
var (
	ErrNumber = errors.New("not a number")
	ErrUnit   = errors.New("not a unit that fits")
	ErrRange  = errors.New("out of range")
)

// A NumberError reports text that is not a number, or a number past the limits of 64
// characters, exponents to ±400 and the range of a float64.
type NumberError struct {
	Text   string // as written; at most its first 64 bytes
	Reason string
}

func (e *NumberError) Error() string { return fmt.Sprintf("number %q: %s", e.Text, e.Reason) }

// Unwrap makes errors.Is(err, ErrNumber) true.
func (e *NumberError) Unwrap() error { return ErrNumber }

// A Fault says what is wrong with a unit.
type Fault uint8

// The faults of a unit.
const (
	UnknownUnit   Fault = iota // no such unit
	MissingUnit                // a number without a unit, where one is needed
	AmbiguousUnit              // more than one unit goes by that name
	ForeignUnit                // a unit of another quantity
	MalformedUnit              // not composed as units are
)

// A UnitError reports a unit that could not be read, or one that does not fit.
type UnitError struct {
	Kind       *Kind  // what the unit should measure; nil if any unit would do
	Text       string // the unit as written; where it is missing, the whole text
	Fault      Fault
	Candidates []string // units that would be accepted, or similar spellings
	Reason     string   // a remark; may be empty
}

func (e *UnitError) Error() string {
	switch e.Fault {
	case MissingUnit:
		return fmt.Sprintf("%s %q: unit missing%s", called(e.Kind), e.Text, e.choice(", want "))
	case AmbiguousUnit:
		return fmt.Sprintf("%q is ambiguous%s%s", e.Text, e.choice(": "), e.remark())
	case ForeignUnit:
		return fmt.Sprintf("%q is no unit of %s%s%s", e.Text, called(e.Kind), e.choice(", want "), e.remark())
	case MalformedUnit:
		return fmt.Sprintf("unit %q: %s", e.Text, e.Reason)
	}
	text := fmt.Sprintf("unknown unit %q", e.Text)
	if e.Candidates != nil {
		return text + ", near: " + strings.Join(e.Candidates, ", ")
	}
	if e.Kind != nil {
		return text + ", want a unit of " + e.Kind.words + " such as " + wording.Or(e.Kind.usual())
	}
	return text
}

// Unwrap makes errors.Is(err, ErrUnit) true.
func (e *UnitError) Unwrap() error { return ErrUnit }

// called returns what a value of kind k is called in a message.
func called(k *Kind) string {
	if k == nil {
		return "value"
	}
	return k.words
}

func (e *UnitError) choice(before string) string {
	if e.Candidates == nil {
		return ""
	}
	return before + wording.Or(e.Candidates)
}

func (e *UnitError) remark() string {
	if e.Reason == "" {
		return ""
	}
	return " (" + e.Reason + ")"
}

// A ConversionError reports two units that do not measure the same quantity.
type ConversionError struct{ From, To Unit }

func (e *ConversionError) Error() string {
	if e.From.otherMoney(e.To) {
		return fmt.Sprintf("%v and %v are prices in two currencies: one cannot be converted into the other", e.From, e.To)
	}
	return fmt.Sprintf("%s is %s and %s %s: one cannot be converted into the other", named(e.From), describe(e.From), named(e.To), describe(e.To))
}

// Unwrap makes errors.Is(err, ErrUnit) true.
func (e *ConversionError) Unwrap() error { return ErrUnit }

// named returns a unit as written, or in words where nothing is: the unit of a number.
func named(u Unit) string {
	if text := u.String(); text != "" {
		return text
	}
	return "a number alone"
}

func describe(u Unit) string {
	if u.String() == "" {
		return "without a unit"
	}
	if k := u.Kind(); k != nil {
		return "a unit of " + k.words
	}
	return "of dimension " + u.Dimension().String()
}

// A RangeError reports an input outside its range.
type RangeError struct {
	Input              string  // "consistency-in"; empty if only the kind is known
	Kind               *Kind   // nil for a number of no kind
	Value, Min, Max    float64 // canonical
	AboveMin, BelowMax bool    // the bound itself is excluded
	Unit               Unit    // the unit used in the message
	Text               string  // the value as written; if empty, Error writes Value in Unit
}

func (e *RangeError) Error() string {
	wanted := e.wanted()
	if math.IsInf(e.Value, 0) && wanted != "a finite number" {
		wanted = "a finite number, " + wanted
	}
	return fmt.Sprintf("%s is %s, want %s", cmp.Or(e.Input, called(e.Kind)), cmp.Or(e.Text, e.people(e.Value)), wanted)
}

// Unwrap makes errors.Is(err, ErrRange) true.
func (e *RangeError) Unwrap() error { return ErrRange }

func (e *RangeError) wanted() string {
	low, high := !math.IsInf(e.Min, -1), !math.IsInf(e.Max, 1)
	over, under := "at least ", "at most "
	if e.AboveMin {
		over = "above "
	}
	if e.BelowMax {
		under = "below "
	}
	switch {
	case low && high && e.Min == e.Max:
		return e.bound(e.Min)
	case low && high && !e.AboveMin && !e.BelowMax:
		return e.bound(e.Min) + " to " + e.bound(e.Max)
	case low && high:
		return over + e.bound(e.Min) + " and " + under + e.bound(e.Max)
	case low:
		return over + e.bound(e.Min)
	case high:
		return under + e.bound(e.Max)
	}
	return "a finite number"
}

func (e *RangeError) people(v float64) string {
	return WithUnit(People(e.Unit.To(v)), e.Unit)
}

// bound writes a bound as a person reads it, but to twelve digits where rounding would
// make the refused value look as if it were in range.
func (e *RangeError) bound(v float64) string {
	exact, value := e.Unit.To(v), e.Unit.To(e.Value)
	read, err := ParseNumber(People(exact))
	if err == nil && (v == e.Max && value > exact && value <= read || v == e.Min && value < exact && value >= read) {
		if twelve, err := strconv.ParseFloat(strconv.FormatFloat(exact, 'e', 11, 64), 64); err == nil {
			return WithUnit(string(AppendShort(nil, twelve)), e.Unit)
		}
	}
	return e.people(v)
}

// WithUnit returns a number, given as text, followed by its unit: "4 %". For the unit 1
// and the zero Unit it returns the number alone.
func WithUnit(number string, u Unit) string {
	if text := u.String(); text != "" && text != "1" {
		return number + " " + text
	}
	return number
}
