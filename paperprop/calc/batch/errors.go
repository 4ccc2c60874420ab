package batch

import (
	"fmt"
	"strings"

	"millmaths.example/paperprop/calc"
)

// A HeadError reports a head that no column has, or more than one.
type HeadError struct {
	File  string
	Field string   // field of the Job that names the head: "Columns", "By", "Only", "Lot"; empty if the head is the input's own name
	Input string   // input that the column would give; for Columns only
	Head  string   // head as named
	Count int      // number of columns that have it: none, or several
	Heads []string // heads of the table
	Above int      // line above the heads that table.Options.Head would join to them; 0 if none
	Alike []string // the several heads with their units, if these tell them apart
}

func (e *HeadError) Error() string {
	switch {
	case len(e.Alike) > 0:
		return fmt.Sprintf("%s%d columns have the head %q, want one of %s", before(e.File), e.Count, e.Head, strings.Join(e.Alike, ", "))
	case e.Count > 1:
		return fmt.Sprintf("%s%d columns have the head %q, want it once", before(e.File), e.Count, e.Head)
	}
	return fmt.Sprintf("%sno column has the head %q, heads are %s", before(e.File), e.Head, strings.Join(e.Heads, ", "))
}

// An UnboundError reports an input that has neither a column nor a value. If Input is
// empty, the table has no column for any input, or for too few of a Choice.
type UnboundError struct {
	File        string
	Calculation string
	Input       string
	Like        string            // a head similar to the input; may be empty
	Unit        string            // unit at the end of Like, written without brackets; may be empty
	Heads       []string          // heads of the table
	Inputs      []string          // inputs of the calculation, if Input is empty
	Output      string            // output that has the name of a head: with Columns it gives the output, to solve for Input
	Choice      *calc.ChoiceError // too few inputs of a choice have a column or a value; Input is empty

	field *calc.Field
}

func (e *UnboundError) Error() string {
	file, heads := before(e.File), strings.Join(e.Heads, ", ")
	switch {
	case e.Choice != nil:
		return fmt.Sprintf("%s%v; heads are %s", file, e.Choice, heads)
	case e.Input == "":
		return fmt.Sprintf("%sno column is named like an input of %s: heads are %s, inputs are %s", file, e.Calculation, heads, strings.Join(e.Inputs, ", "))
	case e.Like == "":
		return fmt.Sprintf("%sno column for %s and no value: heads are %s", file, e.Input, heads)
	case e.Unit == "":
		return fmt.Sprintf("%sno column for %s: is it %q?", file, e.Input, e.Like)
	}
	name := strings.TrimSpace(strings.TrimSuffix(e.Like, e.Unit))
	return fmt.Sprintf("%sno column for %s: is it %q? A unit after a name needs brackets: write %q", file, e.Input, e.Like, name+" ["+e.Unit+"]")
}

// Unwrap returns the [calc.MissingError] of the input, or the [calc.ChoiceError], if there
// is one.
func (e *UnboundError) Unwrap() error {
	switch {
	case e.field != nil:
		return &calc.MissingError{Input: e.field}
	case e.Choice != nil:
		return e.Choice
	}
	return nil
}

// before returns the file name to put before a message; a table that a program provides
// may have none.
func before(file string) string {
	if file == "" {
		return ""
	}
	return file + ": "
}
