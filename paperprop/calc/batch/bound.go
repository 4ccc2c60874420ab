package batch

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// A Bound is a job bound to the columns of one table, for a program that provides the
// rows itself: from a columnar file, a database, a cluster. It computes and writes them
// as Run does. A Bound is for one goroutine; a job may be bound any number of times.
type Bound struct {
	worker *worker
	notes  []string
}

// A BoundColumn is a column that gives an input.
type BoundColumn struct {
	Column int // index in the table, from 0
	Input  *calc.Field
	// Unit is the unit of the column's numbers. It is no unit if each cell must have
	// its own, or if the input is a word.
	Unit paperprop.Unit
	// Bare reports whether a number alone is accepted: the column has a unit, or the
	// input needs none.
	Bare bool
}

// A Part is the outcome of one block of a table.
type Part struct {
	Computed []byte // lines of the rows that were computed
	Unused   []byte // lines of the other rows, including footers, with the reason and no results
	Told     []error
	Totals   Totals
}

var errBoundSums = errors.New("batch: lots and summaries need all rows: a job bound to columns takes them one by one")

// Bind finds the columns of the inputs. It returns the errors with which Run would
// refuse the table before the first row, and refuses a job with Lot, By or Together.
func (j *Job) Bind(l *table.Layout) (*Bound, error) {
	switch {
	case j.Calculation == nil:
		return nil, errNoCalculation
	case j.Lot != "" || len(j.By) > 0 || j.Together:
		return nil, errBoundSums
	}
	p, notes, err := j.plan(l)
	if err != nil {
		return nil, err
	}
	w, err := p.worker()
	if err != nil {
		return nil, err
	}
	return &Bound{w, append(notes, p.assumed...)}, nil
}

// Notes returns which column gives which input, and what holds for every row.
func (b *Bound) Notes() []string { return b.notes }

// Columns returns the columns that are read, in the order of the inputs.
func (b *Bound) Columns() []BoundColumn {
	var columns []BoundColumn
	for i, col := range b.worker.columns {
		for _, at := range col.at {
			columns = append(columns, BoundColumn{at, b.worker.cells[i].Field, col.unit, col.pure})
		}
	}
	return columns
}

// Head returns the line of heads, to be written once above all parts.
func (b *Bound) Head() []byte { return b.worker.appendHead(nil, b.worker.sheet) }

// ResultHead returns the head that Run gives a result, or the remark: its name, or
// "NAME of CALCULATION" where the table has a column of that name.
func (b *Bound) ResultHead(name string) string { return b.worker.unlike(name) }

// Compute computes one row from the Line and Fields of rec. The results are on the
// Sheet until the next row. An error is a *table.CellError or a *RowError, with the
// place.
func (b *Bound) Compute(rec *table.Record) error {
	b.worker.rec = *rec
	return b.worker.compute()
}

// Sheet returns the sheet that holds the results of a row.
func (b *Bound) Sheet() *calc.Sheet { return b.worker.sheet }

// Remark returns what Run writes beside the row computed last: the reason of err, or
// the codes of the row's warnings. It counts the warnings in t.
func (b *Bound) Remark(err error, t *Totals) string {
	if err != nil {
		return remark(err)
	}
	b.worker.scratch = b.worker.warnings(b.worker.scratch[:0], t)
	return string(b.worker.scratch)
}

// Block computes the rows of a block of the table, which may come from another process.
// An error ends the work: rows after other heads than those of the layout must not be
// read. A block of a table with other heads or another decimal sign is refused.
func (b *Bound) Block(of *table.Block) (Part, error) {
	if l := of.Layout(); l != nil {
		if err := b.sameTable(l); err != nil {
			return Part{}, err
		}
	}
	var unused []byte
	part := block{text: *of, aside: &unused}
	b.worker.computeBlock(&part)
	return Part{part.out, unused, part.told, part.totals}, part.end
}

// sameTable refuses a block whose layout is not the one that the job is bound to.
func (b *Bound) sameTable(l *table.Layout) error {
	p := b.worker.plan
	delimiter, decimal := cmp.Or(l.Delimiter, ','), cmp.Or(l.Decimal, p.decimal) // 0 if none was seen, so any fits
	switch {
	case !slices.Equal(l.Columns, p.layout.Columns):
		return fmt.Errorf("batch: a block with the heads %s, and the job is bound to %s: bind it to the layout of each table",
			headsWithUnits(l), headsWithUnits(p.layout))
	case delimiter != p.delimiter || decimal != p.decimal:
		return fmt.Errorf("batch: a block with %q between cells and %q as the decimal sign, and the job is bound to %q and %q: bind it to the layout of each table",
			delimiter, decimal, p.delimiter, p.decimal)
	}
	return nil
}

func headsWithUnits(l *table.Layout) string {
	var heads []string
	for _, c := range l.Columns {
		heads = append(heads, withUnit(c))
	}
	return strings.Join(heads, ", ")
}
