package table

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"strings"

	"millmaths.example/paperprop"
)

// A Grid holds the numbers of a whole table, all in one unit: scans of a sensor,
// results of laboratories.
type Grid struct {
	Rows    [][]float64 // NaN for a missing reading
	Lines   []int       // line of each row, from 1
	Heads   []string    // heads of the columns read
	Unit    string      // common unit
	Reading []string    // notes on how the table was read
}

// mostNumbers limits the numbers of a grid or a column, as they are held in memory.
const mostNumbers = 500_000

// shortest is the least number of numbers that a row counts as: even a short row takes
// that much memory.
const shortest = 4

// ReadGrid reads the columns that have a unit, which must be the same for all. Columns
// with a head such as mean or s are computed by the file's writer and left out. A table
// without any unit is refused, as nothing would tell a number from a name. A cell that
// is neither a number nor a mark for a missing reading is an error with its place.
func ReadGrid(source io.Reader, o Options) (*Grid, error) {
	o.inUnits = true
	r, err := Open(source, o)
	if err != nil {
		return nil, err
	}
	l := r.Layout()
	g := &Grid{Reading: l.Reading()}
	at, err := g.columns(l)
	if err != nil {
		return nil, err
	}
	err = r.each(func(rec *Record) error {
		switch rec.Class {
		case Footer:
			g.Reading = append(g.Reading, rec.notCounted())
		case Data:
			return g.add(l, rec, at)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return g, nil
}

func (rec *Record) notCounted() string {
	return fmt.Sprintf("footer, not counted: line %d %q", rec.Line, rec.Label())
}

// each calls do for the records of the table. It ends with the first that cannot be
// read, or that do refuses.
func (r *Reader) each(do func(rec *Record) error) error {
	for rec, err := range r.Records() {
		switch {
		case err != nil:
			return err
		case rec.Class == Bad || rec.Class == Changed:
			return rec.Err
		}
		if err := do(rec); err != nil {
			return err
		}
	}
	return nil
}

// columns chooses the columns, sets their unit and notes which they are.
func (g *Grid) columns(l *Layout) (at []int, err error) {
	var left []string
	for i, c := range l.Columns {
		switch {
		case c.Unit == "" || isFooterName([]byte(c.Head)):
			left = append(left, fmt.Sprintf("%d (%s)", i+1, c.Head))
			continue
		case len(at) > 0 && !SameUnit(c.Unit, g.Unit):
			return nil, l.errorf("columns %q and %q have the units %q and %q, want one unit", g.Heads[0], c.Head, g.Unit, c.Unit)
		}
		g.Unit = cmp.Or(g.Unit, c.Unit)
		at, g.Heads = append(at, i), append(g.Heads, c.Head)
	}
	if len(at) == 0 {
		return nil, l.errorf("no column has a unit, want it behind the head of each column of readings: r1 [kN/m]")
	}
	read := fmt.Sprintf("read: column %d (%s) in %s", at[0]+1, g.Heads[0], g.Unit)
	if last := len(at) - 1; last > 0 {
		read = fmt.Sprintf("read: %d columns in %s, from %d (%s) to %d (%s)", len(at), g.Unit, at[0]+1, g.Heads[0], at[last]+1, g.Heads[last])
	}
	g.Reading = append(g.Reading, read)
	if len(left) > 0 {
		g.Reading = append(g.Reading, "not read: column "+strings.Join(left, ", "))
	}
	return at, nil
}

func (g *Grid) add(l *Layout, rec *Record, at []int) error {
	decimal := decimalOf(l)
	var row []float64
	for _, i := range at {
		if i >= len(rec.Fields) {
			break
		}
		cell := rec.Cell(i)
		if Missing(cell) {
			row = append(row, math.NaN())
			continue
		}
		x, err := paperprop.ReadNumber(l.Single(cell), decimal)
		if err != nil {
			return &CellError{File: l.Name, Line: rec.Line, Column: i + 1, Head: l.head(i), Text: string(cell),
				Reason: "not a number", Accepted: "a number, or an empty cell"}
		}
		row = append(row, x)
	}
	if most := mostNumbers / max(len(at), shortest); len(g.Rows) == most {
		return l.errorf("more than %d rows with %d numbers each, want a smaller table", most, len(at))
	}
	g.Rows, g.Lines = append(g.Rows, row), append(g.Lines, rec.Line)
	return nil
}

// ReadColumn reads one column: its numbers as written, in order, and its unit. A cell
// without a reading is an error with its place, as columns that belong together would
// otherwise shift against each other.
func ReadColumn(source io.Reader, o Options, head string) (numbers []string, unit string, err error) {
	o.Heads = append(o.Heads, head)
	r, err := Open(source, o)
	if err != nil {
		return nil, "", err
	}
	l := r.Layout()
	at, ok := l.Find(head)
	if !ok {
		var heads []string
		for _, c := range l.Columns {
			heads = append(heads, c.Head)
		}
		return nil, "", l.errorf("no one column has the head %q, heads are %s", head, strings.Join(heads, ", "))
	}
	refused := func(rec *Record, reason string) *CellError {
		return &CellError{File: l.Name, Line: rec.Line, Column: at + 1, Head: head, Text: string(rec.Cell(at)),
			Reason: reason, Accepted: "a number in each row of a list"}
	}
	err = r.each(func(rec *Record) error {
		switch {
		case rec.Class == Footer && o.Tell != nil:
			o.Tell(rec.notCounted())
			return nil
		case rec.Class != Data:
			return nil
		}
		if Missing(rec.Cell(at)) {
			return refused(rec, "no reading")
		}
		text := l.Single(rec.Cell(at))
		if _, err := paperprop.ReadNumber(text, decimalOf(l)); err != nil {
			return refused(rec, "not a number").orUnit(decimalOf(l))
		}
		if len(numbers) == mostNumbers {
			return l.errorf("more than %d numbers in column %q, want a smaller table", mostNumbers, head)
		}
		numbers = append(numbers, strings.Replace(string(text), string(rune(decimalOf(l))), ".", 1))
		return nil
	})
	if err != nil {
		return nil, "", err
	}
	return numbers, l.Columns[at].Unit, nil
}

// orUnit says of a cell such as 4.5 kg in a list that its unit belongs in the head.
func (e *CellError) orUnit(decimal byte) *CellError {
	number, text, _ := strings.Cut(e.Text, " ")
	_, none := paperprop.ReadNumber([]byte(number), decimal)
	if u, err := paperprop.ParseUnit(text); none == nil && err == nil && text != "" {
		e.Reason, e.Accepted = "a unit in a list", fmt.Sprintf("a number alone, and the unit of all in the head: %s [%v]", e.Head, u)
	}
	return e
}

func decimalOf(l *Layout) byte {
	if l.Decimal == 0 {
		return '.'
	}
	return l.Decimal
}
