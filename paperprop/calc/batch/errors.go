package batch

import (
	"fmt"
	"strings"

	"millmaths.example/paperprop/calc"
)

// A HeadError reports a head that is not that of one column.
type HeadError struct {
	File  string
	Field string   // of the Job that names the head: "Columns", "By", "Only", "Lot"; empty where it is the input that is called so
	Input string   // that the column would give; of Columns alone
	Head  string   // as named
	Count int      // of the columns that have it: none, or several
	Heads []string // of the table
}

func (e *HeadError) Error() string {
	if e.Count > 1 {
		return fmt.Sprintf("%s%d columns have the head %q, want it once", before(e.File), e.Count, e.Head)
	}
	return fmt.Sprintf("%sno column has the head %q, heads are %s", before(e.File), e.Head, strings.Join(e.Heads, ", "))
}

// An UnboundError reports an input that has neither a column nor a value. Where Input
// is empty, the table has nothing for any input.
type UnboundError struct {
	File        string
	Calculation string
	Input       string
	Like        string   // a head that looks like the input, or empty
	Unit        string   // that ends Like and lacks its brackets, or empty
	Heads       []string // of the table
	Inputs      []string // of the calculation, where Input is empty
	Output      string   // of the calculation, that a head is called as: Columns can give it, to solve for Input

	field *calc.Field
}

func (e *UnboundError) Error() string {
	file, heads := before(e.File), strings.Join(e.Heads, ", ")
	switch {
	case e.Input == "":
		return fmt.Sprintf("%sno column is called as an input of %s: heads are %s, inputs are %s", file, e.Calculation, heads, strings.Join(e.Inputs, ", "))
	case e.Like == "":
		return fmt.Sprintf("%sno column for %s and no value: heads are %s", file, e.Input, heads)
	case e.Unit == "":
		return fmt.Sprintf("%sno column for %s: is it %q?", file, e.Input, e.Like)
	}
	name := strings.TrimSpace(strings.TrimSuffix(e.Like, e.Unit))
	return fmt.Sprintf("%sno column for %s: is it %q? A unit behind a name wants brackets: write %q", file, e.Input, e.Like, name+" ["+e.Unit+"]")
}

// Unwrap says which input is missing, where it is one.
func (e *UnboundError) Unwrap() error {
	if e.field == nil {
		return nil
	}
	return &calc.MissingError{Input: e.field}
}

// before puts a file in front of a message. A table that a program brings may have none.
func before(file string) string {
	if file == "" {
		return ""
	}
	return file + ": "
}
