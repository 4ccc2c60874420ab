package table

import (
	"fmt"
	"io"
	"math"

	"millmaths.example/paperprop"
)

// A Grid is the numbers of a whole table in one unit: scans of a scanner, results
// of laboratories.
type Grid struct {
	Rows    [][]float64 // NaN where a cell says that there is no reading; a short row stays short
	Lines   []int       // where each row stands, from 1
	Heads   []string    // of the columns taken
	Unit    string      // of all of them; empty if none is told
	Reading []string    // how the table was understood
}

// most numbers a grid may have: it is held in memory.
const mostNumbers = 20_000_000

// ReadGrid reads the columns that have a unit, which must be one; where no column
// has a unit, it reads all. A cell that is neither a number nor says that there
// is none is refused with its place.
func ReadGrid(source io.Reader, o Options) (*Grid, error) {
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
	var b Block
	var rec Record
	for {
		switch err := r.Next(&b); {
		case err == io.EOF:
			return g, nil
		case err != nil:
			return nil, err
		}
		for b.Record(&rec) {
			switch rec.Class {
			case Bad, Changed:
				return nil, rec.Err
			case Data:
				if err := g.add(l, &rec, at); err != nil {
					return nil, err
				}
			}
		}
	}
}

// columns chooses the columns and tells their unit.
func (g *Grid) columns(l *Layout) (at []int, err error) {
	withUnit := false
	for i, c := range l.Columns {
		switch {
		case c.Unit == "":
			continue
		case withUnit && c.Unit != g.Unit:
			return nil, fmt.Errorf("%s: columns %q and %q have the units %q and %q, want one unit", l.Name, g.Heads[0], c.Head, g.Unit, c.Unit)
		}
		withUnit, g.Unit = true, c.Unit
		at, g.Heads = append(at, i), append(g.Heads, c.Head)
	}
	if !withUnit {
		for i, c := range l.Columns {
			at, g.Heads = append(at, i), append(g.Heads, c.Head)
		}
	}
	return at, nil
}

func (g *Grid) add(l *Layout, rec *Record, at []int) error {
	decimal := l.Decimal
	if decimal == 0 {
		decimal = '.'
	}
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
		x, err := paperprop.Unit{}.Read(l.Number(cell, nil), decimal)
		if err != nil {
			return &CellError{File: l.Name, Line: rec.Line, Column: i + 1, Head: l.head(i), Text: string(cell),
				Reason: "not a number", Accepted: "a number, or an empty cell"}
		}
		row = append(row, x)
	}
	if len(g.Rows)*len(at) > mostNumbers {
		return fmt.Errorf("%s: more than %d numbers, want a smaller table", l.Name, mostNumbers)
	}
	g.Rows, g.Lines = append(g.Rows, row), append(g.Lines, rec.Line)
	return nil
}
