package lab

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// rows holds readings of one unit, a row per laboratory or scan.
type rows struct {
	readings [][]float64 // NaN for none
	unit     paperprop.Unit
}

// readRows reads "[1 2 3 | 4 5 6] g". A cell without a reading is written -, --
// or n/a.
func readRows(given []calc.Pair, name string) (rows, error) {
	text := textOf(given, name)
	if text == "" {
		return rows{}, &calc.MissingError{Input: calc.NewField(name, "", calc.Table, "")}
	}
	inner, ok := strings.CutPrefix(text, "[")
	inner, unit, closed := strings.Cut(inner, "]")
	if !ok || !closed {
		return rows{}, &calc.InputError{Input: name, Text: text, Err: errors.New("want rows in brackets, such as [1 2 3 | 4 5 6] g")}
	}
	var r rows
	var err error
	if r.unit, err = paperprop.ParseUnit(strings.TrimSpace(unit)); err != nil {
		return rows{}, &calc.InputError{Input: name, Text: text, Err: err}
	}
	for i, line := range strings.Split(inner, "|") {
		var row []float64
		for j, cell := range strings.Fields(line) {
			x, err := readCell(strings.TrimSuffix(cell, ","))
			if err != nil {
				return rows{}, &calc.InputError{Input: name, Text: cell, Err: fmt.Errorf("row %d, reading %d: %w", i+1, j+1, err)}
			}
			row = append(row, x)
		}
		r.readings = append(r.readings, row)
	}
	return r, nil
}

func readCell(cell string) (float64, error) {
	if cell == "-" || cell == "--" || cell == "n/a" {
		return math.NaN(), nil
	}
	return paperprop.ParseNumber(cell)
}

// mostReading is the largest reading, so that squares stay finite.
const mostReading = 1e140

// checkReadings refuses readings that can't be used, and says where they stand.
func checkReadings(input, row, column string, readings [][]float64, gap string) error {
	for i, line := range readings {
		for j, x := range line {
			switch {
			case math.IsNaN(x):
				return &placeError{input, row, column, i + 1, j + 1, "missing, " + gap}
			case math.Abs(x) > mostReading:
				return &placeError{input, row, column, i + 1, j + 1, "too large, want a number up to 1e140 in size"}
			}
		}
	}
	return nil
}

// A placeError says what is wrong with one reading of a table.
type placeError struct {
	input, row, column string
	i, j               int
	fault              string
}

func (e *placeError) Error() string {
	return fmt.Sprintf("%s: %s %d, %s %d: %s", e.input, e.row, e.i, e.column, e.j, e.fault)
}

// About returns the input that the table is of, for [calc.Code].
func (e *placeError) About() string { return e.input }

// Row returns the row of the table, from 1, from which the reader of a file can
// tell the line.
func (e *placeError) Row() int { return e.i }

// Unwrap makes errors.Is(err, paperprop.ErrRange) true.
func (e *placeError) Unwrap() error { return paperprop.ErrRange }

// An aboutError names the input for an error of package result, which counts readings or
// parts and knows no names.
type aboutError struct {
	error
	input string
}

// About returns the input, for [calc.Code].
func (e aboutError) About() string { return e.input }

func (e aboutError) Unwrap() error { return e.error }

// numeric describes an input or result without a unit.
func numeric(name, symbol string, shape calc.Shape, help string) *calc.Field {
	f := calc.NewField(name, symbol, shape, help)
	f.Kind = paperprop.Ratio(0).Kind()
	f.Unit = f.Kind.Canonical()
	return f
}

// An output is a result of a tool, bound to the field of its struct that holds it.
type output struct {
	*calc.Field
	number *float64
	list   *[]float64 // instead of a number; nil is absent
}

// related binds a number whose unit follows that of the table.
func related(p *float64, name, symbol, relation, help string) output {
	f := calc.NewField(name, symbol, calc.One, help)
	f.Relation = relation
	return output{Field: f, number: p}
}

// unit returns the unit of the output of a table whose readings are in u.
func (o output) unit(u paperprop.Unit) paperprop.Unit {
	relation, _, _ := strings.Cut(o.Relation, " of ")
	switch {
	case o.Kind != nil:
		return paperprop.Unit{}
	case relation == "difference":
		return u.Difference()
	case relation == "square":
		return u.Difference().Squared()
	}
	return u
}

func fieldsOf(outputs []output) []*calc.Field {
	fields := make([]*calc.Field, len(outputs))
	for i, o := range outputs {
		fields[i] = o.Field
	}
	return fields
}

// answersOf returns the answers of a table whose readings are in u.
func answersOf(outputs []output, u paperprop.Unit) []calc.Answer {
	var all []calc.Answer
	for _, o := range outputs {
		switch a := (calc.Answer{Name: o.Name, Unit: o.unit(u)}); {
		case o.number != nil:
			a.Value = *o.number
			all = append(all, a)
		case *o.list != nil:
			a.List = *o.list
			all = append(all, a)
		}
	}
	return all
}
