// Package table reads measurement tables as instruments and people write
// them: commas, semicolons or tabs, a point or a comma as the decimal sign,
// any of the usual encodings, a preamble, a row of units, several blocks under
// one head, and the instrument's own mean at the end.
//
// Open finds out how the file is written and says so in Layout; the Reader then gives the
// records one after another:
//
//	r, err := table.Open(file, table.Options{Name: "lab.csv"})
//	...
//	for rec, err := range r.Records() {
//		if err != nil {
//			return err
//		}
//		... rec.Class, rec.Cell(0)
//	}
//
// For more speed, Next cuts the stream into blocks of whole records. They are
// independent of one another, so several goroutines may work on several:
//
//	var block table.Block
//	var rec table.Record
//	for {
//		if err := r.Next(&block); err == io.EOF {
//			break
//		} else if err != nil {
//			return err
//		}
//		for block.Record(&rec) {
//			... rec.Class, rec.Cell(0)
//		}
//	}
//
// The package moves text, not quantities. Every record of the file comes back
// with a class; none is dropped, and what can be read in more than one way is
// refused.
//
// # What people get wrong
//
// A file in which 1.234 is the only number with a separator can be read in two
// ways. Open refuses it and shows both; set [Options.Decimal] if you know.
//
// The line with the instrument's own mean is a record like the others, of class
// [Footer]. Take only [Data], or the mean counts as a reading. A row that may be one, P95
// below readings of other names or a row without a name, is [Bad]; a program that knows
// better hands it to [Layout.TakeFooter].
//
// The cells of a [Record] are views into its block: copy what has to outlive the
// next record.
//
// A missing reading is not 0: ask [Missing] and [Censored] before parsing a cell.
package table

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"iter"
	"sync/atomic"

	"golang.org/x/text/transform"

	"millmaths.example/paperprop"
)

const (
	sampleSize = 1 << 20   // text that Open examines
	blockSize  = 256 << 10 // text of an ordinary block
	maxRecord  = 1 << 20   // text of one record, its line end included
	maxCell    = 64 << 10  // text of one cell
	maxColumns = 16 << 10  // heads: more than a scanner measures, as many as a spreadsheet has columns
)

// Options override what Open would find out. The zero value overrides nothing.
type Options struct {
	// Name is the name of the file for messages, "-" for standard input.
	Name string
	// Delimiter is ',', ';' or '\t'; 0 means find out.
	Delimiter byte
	// Decimal is the decimal sign, '.' or ','; 0 means find out.
	Decimal byte
	// DecimalName tells readers of messages how to give Decimal, such as "--decimal",
	// which takes point or comma; "" names the field.
	DecimalName string
	// Encoding is "utf-8", "utf-16le", "utf-16be", "windows-1252" or "iso-8859-1"; ""
	// means find out.
	Encoding string
	// Head is the line of the heads, from 1; 0 means find out.
	Head int
	// Heads are names expected among the heads. They help to find the line of heads
	// below a preamble.
	Heads []string
	// IsUnit reports whether a text is a unit, in a row of units or in brackets after a
	// head. Nil accepts what [paperprop.ParseUnit] reads.
	IsUnit func(text string) bool
	// Tell is called with a note on each footer that [ReadColumn] does not count.
	Tell func(note string)

	inUnits bool // only columns that have a unit are read
}

func (o *Options) check() error {
	switch {
	case o.Delimiter != 0 && o.Delimiter != ',' && o.Delimiter != ';' && o.Delimiter != '\t':
		return fmt.Errorf("delimiter is %q, want a comma, a semicolon or a tab", o.Delimiter)
	case o.Decimal != 0 && o.Decimal != '.' && o.Decimal != ',':
		return fmt.Errorf("decimal sign is %q, want a point or a comma", o.Decimal)
	case o.Head < 0:
		return fmt.Errorf("line of heads is %d, want 1 or more: a table without heads is not read, as nothing would say what its columns are", o.Head)
	}
	return nil
}

// isUnit accepts units of every kind, and ambiguous ones: whoever reads the numbers
// names the candidates. A bare 1 numbers things: force (1), force (2).
func isUnit(text string) bool {
	if text == "1" {
		return false
	}
	_, err := paperprop.ParseUnit(text)
	var unit *paperprop.UnitError
	return err == nil || errors.As(err, &unit) && unit.Fault == paperprop.AmbiguousUnit
}

// A Reader gives the records of a table one by one, or cuts it into blocks of whole
// records. Next may be called by one goroutine at a time, while others use the blocks.
type Reader struct {
	layout  *Layout
	source  io.Reader // UTF-8 text
	text    []byte    // read, but not yet in a block
	ended   bool      // source is exhausted
	line    int       // line number at the start of text
	index   int       // index of the next block
	block   int       // size of an ordinary block
	before  Class     // what the previous blocks are to the next record
	changed atomic.Pointer[CellError]
	err     error // the error that ended reading, or io.EOF
}

// Open finds out how a table is written, from its first mebibyte at most. An ambiguous
// table is refused: see [AmbiguousError] and [MixedError].
func Open(source io.Reader, o Options) (*Reader, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	own := o.IsUnit != nil
	if !own {
		o.IsUnit = isUnit
	}
	layout := &Layout{Name: o.Name, decimalName: o.DecimalName, isUnit: o.IsUnit, ownUnits: own}
	if o.Name == "-" {
		layout.Name = "standard input"
	}
	r := &Reader{layout: layout, line: 1, block: blockSize}
	if err := r.decode(impatient{source}, o.Encoding); err != nil {
		return nil, err
	}
	if err := r.understand(&o); err != nil {
		return nil, err
	}
	return r, nil
}

// Layout returns how the file is written. It does not change.
func (r *Reader) Layout() *Layout { return r.layout }

// decode reads the sample, and prepares the rest of the source as UTF-8.
func (r *Reader) decode(source io.Reader, encoding string) error {
	r.source = source
	if err := r.fill(sampleSize); err != nil {
		return err
	}
	found, err := findEncoding(r.text, r.ended, encoding)
	if err != nil {
		return r.layout.fileError(err.Error(), "")
	}
	r.layout.Encoding, r.layout.Mark, r.layout.assumed = found.name, found.mark > 0, found.assumed
	r.text = r.text[found.mark:]
	if found.decoder == nil {
		return nil
	}
	r.source = transform.NewReader(io.MultiReader(bytes.NewReader(r.text), source), found.decoder)
	r.text, r.ended = nil, false
	return r.fill(sampleSize)
}

// fill reads until text holds size bytes or the source ends.
func (r *Reader) fill(size int) error {
	const firstRoom = 32 << 10
	for !r.ended && len(r.text) < size {
		have := len(r.text)
		if have == cap(r.text) {
			room := min(max(firstRoom, 4*have), size)
			r.text = append(make([]byte, 0, room), r.text...)
		}
		n, err := io.ReadFull(r.source, r.text[have:min(cap(r.text), size)])
		r.text = r.text[:have+n]
		if err == io.EOF || err == io.ErrUnexpectedEOF {
			r.ended = true
		} else if err != nil {
			return r.failed(err)
		}
	}
	return nil
}

// An impatient reader gives up on a source that repeatedly returns no data and no end.
type impatient struct{ source io.Reader }

func (r impatient) Read(p []byte) (int, error) {
	const most = 100
	for range most {
		if n, err := r.source.Read(p); n > 0 || err != nil || len(p) == 0 {
			return n, err
		}
	}
	return 0, io.ErrNoProgress
}

func (r *Reader) failed(err error) error {
	if r.layout.Name == "" {
		return fmt.Errorf("reading the table: %w", err)
	}
	return fmt.Errorf("%s: reading: %w", r.layout.Name, err)
}

// Next stores the next block of whole records in b, replacing its old text. After the
// last block it returns io.EOF. Other errors name the line: a quote that is never
// closed, a record of more than a mebibyte, heads that have changed, a source that
// failed. Next only cuts the text; Block.Record parses the records.
func (r *Reader) Next(b *Block) error {
	if changed := r.changed.Load(); changed != nil {
		return changed
	}
	if r.err != nil {
		return r.err
	}
	cut, last, err := r.cut()
	if err != nil {
		r.err = err
		return err
	}
	spare := b.text[:0]
	*b = Block{
		text: r.text[:cut], line: r.line, index: r.index, layout: r.layout,
		before: r.before, changed: &r.changed,
	}
	b.scan = scanner{text: b.text, delimiter: r.layout.Delimiter}
	r.before = r.layout.leftBy(b.text, last, r.before)
	r.line += countLines(b.text)
	r.index++
	r.text = append(spare, r.text[cut:]...)
	return nil
}

// Records returns an iterator over the records of the blocks that Next has not given. A
// record is valid until the next. An error ends the table and comes without a record;
// those of single rows are in their records. A loop that is left early cannot go on: what
// it has not seen of its block is lost.
func (r *Reader) Records() iter.Seq2[*Record, error] {
	return func(yield func(*Record, error) bool) {
		var b Block
		var rec Record
		for {
			switch err := r.Next(&b); {
			case err == io.EOF:
				return
			case err != nil:
				yield(nil, err)
				return
			}
			for b.Record(&rec) {
				if !yield(&rec, nil) {
					return
				}
			}
		}
	}
}

// cut returns the indexes at which the next block ends and its last record begins.
func (r *Reader) cut() (end, last int, err error) {
	for size := max(r.block, len(r.text)); ; size = min(2*size, maxRecord+1) {
		if err := r.fill(size); err != nil {
			return 0, 0, err
		}
		text := r.text[:min(size, len(r.text))]
		final := r.ended && len(text) == len(r.text)
		if len(text) == 0 {
			return 0, 0, io.EOF
		}
		end, last = lastRecord(text, r.layout.Delimiter, final)
		switch {
		case end > 0 && (end <= maxRecord || last > 0):
			return end, last, nil
		case final || size > maxRecord:
			return 0, 0, r.endless(len(text) <= maxRecord)
		}
	}
}

// endless returns the error for a record at the start of text that does not end, either
// in the whole text or within the limit of a record.
func (r *Reader) endless(whole bool) *CellError {
	if whole {
		return &CellError{File: r.layout.Name, Line: r.line,
			Reason: "a quote in the record that begins here is never closed", Accepted: "a closing quote"}
	}
	return &CellError{File: r.layout.Name, Line: r.line,
		Reason: "the record that begins here has no end within 1 MiB", Accepted: "shorter records, and every quote closed"}
}
