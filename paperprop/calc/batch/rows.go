package batch

import (
	"bytes"
	"fmt"
	"io"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// write writes all of a text, or returns an error that out accepted less.
func write(out io.Writer, text []byte) error {
	n, err := out.Write(text)
	if err == nil && n < len(text) {
		err = io.ErrShortWrite
	}
	return err
}

// appendHead appends the heads of the table and of the results, with units.
func (p *plan) appendHead(line []byte, s *calc.Sheet) []byte {
	for _, c := range p.layout.Columns {
		line = p.appendCell(line, []byte(withUnit(c)))
	}
	for _, c := range p.results(s) {
		col := outputColumn(c)
		col.Head = p.unlike(col.Head)
		line = p.appendCell(line, []byte(withUnit(col)))
	}
	return append(table.AppendCSV(line, p.delimiter, []byte(p.unlike("remark"))), '\n')
}

// withUnit returns the head of a column as a file has it.
func withUnit(c table.Column) string {
	if c.Unit == "" {
		return c.Head
	}
	return c.Head + " [" + c.Unit + "]"
}

// unlike returns a head of a result that no column of the table has, as two columns with
// the same head could not be named: where there is a diameter, "diameter of reel".
func (p *plan) unlike(head string) string {
	free := head
	for n := 1; p.taken[plain(free)]; n++ {
		free = head + " of " + p.Calculation.ID()
		if n > 1 {
			free += fmt.Sprint(" ", n)
		}
	}
	return free
}

func outputColumn(c *calc.Cell) table.Column {
	col := table.Column{Head: c.Name}
	if u := c.PrintUnit().String(); u != "1" {
		col.Unit = u
	}
	return col
}

// appendCell appends a cell and a delimiter.
func (p *plan) appendCell(line, cell []byte) []byte {
	return append(table.AppendCSV(line, p.delimiter, cell), p.delimiter)
}

// computeBlock computes the rows of a block.
func (w *worker) computeBlock(b *block) {
	b.out, b.told, b.totals, b.groups, b.end = b.out[:0], b.told[:0], Totals{}, groups{}, nil
	for b.text.Record(&w.rec) {
		switch w.class() {
		case table.Data:
			if !w.asked(&b.totals) {
				continue
			}
			b.totals.Rows++
			w.row(b)
		case table.Footer:
			b.totals.footer(&w.rec)
			w.unused(b, "footer: not counted")
		case table.Bad:
			b.totals.Rows++
			w.fail(b, w.rec.Err)
		case table.Changed:
			b.totals.Rows++
			w.fail(b, w.rec.Err)
			b.end = w.rec.Err
		}
	}
}

// asked reports whether the row has the cells that Only requires. If not, it is counted.
func (w *worker) asked(t *Totals) bool {
	for i, o := range w.only {
		if cell := w.rec.Cell(o.at); string(cell) != o.text {
			t.Others++
			t.Lack.add(i, cell)
			return false
		}
	}
	return true
}

// class returns the class of the record, with a footer as an ordinary row if NoFooters
// is set.
func (w *worker) class() table.Class {
	if w.NoFooters {
		w.layout.TakeFooter(&w.rec)
	}
	return w.rec.Class
}

func (w *worker) row(b *block) {
	if err := w.compute(); err != nil {
		w.fail(b, err)
		return
	}
	b.totals.Computed++
	w.sayUnnamedRow(&b.totals)
	b.out = w.appendInput(b.out)
	for _, c := range w.results {
		b.out = append(w.appendResult(b.out, c), w.delimiter)
	}
	if w.uncertain || w.defaulted || w.skipped || len(w.sheet.Warnings()) > 0 || w.several() {
		b.out = w.warnings(b.out, &b.totals)
	}
	b.out = append(b.out, '\n')
	if w.grouped && b.end == nil {
		b.end = b.groups.add(w)
	}
}

// appendResult appends a result with the decimal sign of the file, quoted where that
// sign is also the delimiter.
func (w *worker) appendResult(dst []byte, c *calc.Cell) []byte {
	from := len(dst)
	dst = c.AppendNumber(dst, w.Full)
	if w.decimal == '.' || c.Shape == calc.Word {
		return dst
	}
	point := bytes.IndexByte(dst[from:], '.')
	if point < 0 {
		return dst
	}
	for i := from + point; i < len(dst); i++ {
		if dst[i] == '.' {
			dst[i] = w.decimal
		}
	}
	if w.decimal == w.delimiter {
		w.scratch = append(w.scratch[:0], dst[from:]...)
		dst = table.AppendCSV(dst[:from], w.delimiter, w.scratch)
	}
	return dst
}

// appendInput appends the row as it was read, and a delimiter.
func (w *worker) appendInput(dst []byte) []byte {
	return w.rec.AppendRow(dst, len(w.layout.Columns), w.delimiter)
}

func (w *worker) fail(b *block, err error) {
	// The cells of a row of another shape may be those of other heads, and name no group.
	if w.grouped && (w.rec.Class == table.Data || len(w.by) == 0) {
		b.groups.leaveOut(w)
	}
	b.totals.Reported++
	b.totals.Failed++
	b.told = append(b.told, err)
	w.unused(b, remark(err))
}

// unused writes a row in its place, with the reason instead of results.
func (w *worker) unused(b *block, reason string) {
	to := &b.out
	if b.aside != nil {
		to = b.aside
	}
	line := w.appendInput(*to)
	for range w.results {
		line = append(line, w.delimiter)
	}
	*to = append(table.AppendCSV(line, w.delimiter, []byte(reason)), '\n')
}
