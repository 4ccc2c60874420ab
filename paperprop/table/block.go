package table

import (
	"bytes"
	"fmt"
	"slices"
	"sync/atomic"
	"unicode/utf8"
)

// Class says what a record is.
type Class uint8

// Classes of records.
const (
	Data    Class = iota // a row of cells under the heads
	Blank                // nothing in it
	Head                 // the heads come again: a new block of the same columns
	Units                // the row of units comes again
	Footer               // the writer's own mean, s, total, count: not to be counted
	Bad                  // cannot be read, Err says why
	Changed              // other heads: what follows must not be read under the first ones, Err says why
)

// String returns the class in a word.
func (c Class) String() string {
	names := [...]string{"data", "blank", "head", "units", "footer", "bad", "changed"}
	if int(c) < len(names) {
		return names[c]
	}
	return fmt.Sprintf("Class(%d)", uint8(c))
}

// A Record is one row of the table. Raw and Fields point into the block, and
// hold until its next record is asked for or the block is used again.
type Record struct {
	Line   int      // where it begins, from 1
	Raw    []byte   // as it stands in the file, in UTF-8, with its line end
	Fields [][]byte // without quotes and outer blanks
	Class  Class
	Err    error // a *CellError if Class is Bad or Changed, else nil

	// whole are the cells in quotes with the blanks that stand within, where a row has
	// such: a blank may be there to keep a spreadsheet from taking a text for a
	// formula. A cell without quotes is nil.
	whole [][]byte

	stop     int    // where the line end begins in Raw
	plain    int    // how many cells stand in Raw without quotes, 0 if one has them
	unquoted []byte // room for cells with doubled quotes
	folded   bool   // line ends stand within quotes
	label    int    // the cell that names a footer
	after    []byte // first text found behind a closing quote
	afterAt  int    // the cell it is in
}

// Cell returns the cell in column i, from 0. A row that is short has empty ones.
func (rec *Record) Cell(i int) []byte {
	if uint(i) < uint(len(rec.Fields)) {
		return rec.Fields[i]
	}
	return nil
}

// Label returns the cell that names a record of class Footer: "Mean".
func (rec *Record) Label() []byte { return rec.Cell(rec.label) }

// AppendRow appends the first cells of the record, as many as there are
// columns, each with the delimiter of the file behind it: as they stand there,
// or as AppendCSV writes them where quotes or too many cells do not let them.
// In a file of one column the delimiter is a comma.
func (rec *Record) AppendRow(dst []byte, columns int, delimiter byte) []byte {
	if rec.plain == columns {
		return append(append(dst, rec.Raw[:rec.stop]...), delimiter)
	}
	for i := range columns {
		cell := rec.Cell(i)
		if rec.quoted(i) {
			cell = rec.whole[i]
		}
		dst = append(AppendCSV(dst, delimiter, cell), delimiter)
	}
	return dst
}

// clear makes room for the next record's cells.
func (rec *Record) clear() {
	if rec != nil {
		rec.Fields, rec.whole, rec.unquoted, rec.after, rec.plain = rec.Fields[:0], rec.whole[:0], rec.unquoted[:0], nil, 0
	}
}

func (rec *Record) add(cell []byte) {
	if rec != nil {
		rec.Fields = append(rec.Fields, trim(cell))
		rec.whole = append(rec.whole, nil)
	}
}

func (rec *Record) addQuoted(cell []byte, doubled bool, after []byte) {
	if rec == nil {
		return
	}
	if len(after) > 0 && rec.after == nil && len(trim(after)) > 0 {
		rec.after, rec.afterAt = trim(after), len(rec.Fields)
	}
	if doubled {
		cell = rec.undouble(cell)
	}
	rec.Fields = append(rec.Fields, trim(cell))
	rec.whole = append(rec.whole, cell)
}

// quoted tells whether cell i stands in quotes in the file.
func (rec *Record) quoted(i int) bool { return i < len(rec.whole) && rec.whole[i] != nil }

// undouble copies a cell and writes its doubled quotes once.
func (rec *Record) undouble(cell []byte) []byte {
	begin := len(rec.unquoted)
	for {
		i := bytes.IndexByte(cell, '"')
		if i < 0 {
			break
		}
		rec.unquoted = append(rec.unquoted, cell[:i+1]...)
		cell = cell[i+2:]
	}
	rec.unquoted = append(rec.unquoted, cell...)
	return rec.unquoted[begin:len(rec.unquoted):len(rec.unquoted)]
}

// A Block is some whole records of a table. The zero value is ready for
// Reader.Next; used again, it keeps its room. One goroutine at a time may use
// it, while others use other blocks.
type Block struct {
	text       []byte
	scan       scanner
	line       int
	index      int
	layout     *Layout
	changed    *atomic.Pointer[CellError]
	afterHeads bool // the record before was the heads come again
	checked    bool
	dirty      bool // somewhere in text is what no text should hold
}

// Index returns the number of the block in the file, from 0: by it results
// computed at the same time are put back in order.
func (b *Block) Index() int { return b.index }

// Layout returns what was understood of the file that the block is of.
func (b *Block) Layout() *Layout { return b.layout }

// Record reads the next record of the block into rec and reports whether there
// was one. Behind a record of class Changed there is none: rows under other
// heads would be read wrongly. Reader.Next refuses from then on too.
func (b *Block) Record(rec *Record) bool {
	if b.layout == nil { // no Reader filled it
		return false
	}
	if !b.checked {
		b.checked = true
		b.dirty = b.layout.unclean(b.text)
	}
	record, ok := b.scan.next(rec)
	if !ok {
		return false
	}
	rec.Line, rec.Raw, rec.Err = b.line, b.text[record.start:record.end], nil
	rec.stop, rec.folded = record.stop-record.start, record.folded
	b.line++
	if record.folded {
		b.line += countLines(b.text[record.start:record.stop])
	}
	b.layout.classify(rec, b.afterHeads, b.dirty)
	b.afterHeads = rec.Class == Head
	if rec.Class == Changed {
		b.scan.pos = len(b.text)
		if err, ok := rec.Err.(*CellError); ok {
			b.changed.CompareAndSwap(nil, err)
		}
	}
	return true
}

// unclean tells whether text holds a NUL, or bytes that its encoding does not
// allow: those came out of the decoder as U+FFFD, or are still there in UTF-8.
func (l *Layout) unclean(text []byte) bool {
	if bytes.IndexByte(text, 0) >= 0 || !utf8.Valid(text) {
		return true
	}
	return l.Encoding != utf8Name && bytes.Contains(text, []byte("\uFFFD"))
}

// classify finds out what a record is. Rows that begin with a number, most of
// them, need no comparison with heads, units and footers.
func (l *Layout) classify(rec *Record, afterHeads, dirty bool) {
	if rec.after != nil {
		l.refuse(rec, l.behindQuote(rec))
		return
	}
	first := 0
	for first < len(rec.Fields) && len(rec.Fields[first]) == 0 {
		first++
	}
	if first == len(rec.Fields) {
		rec.Class = Blank
		return
	}
	rec.Class = Data
	if dirty && l.unclean(rec.Raw) {
		l.refuse(rec, l.uncleanCell(rec))
		return
	}
	if c := rec.Fields[first][0]; !isDigit(c) || l.numberHeads {
		l.classifyText(rec, first, afterHeads)
		if rec.Class != Data {
			return
		}
	}
	if l.namesFooter(rec) {
		rec.Class = Footer
		return
	}
	if problem := l.shape(rec); problem != nil {
		l.refuse(rec, problem)
		return
	}
	if rec.folded {
		if problem := l.rowsWithin(rec); problem != nil {
			l.refuse(rec, problem)
			return
		}
	}
	if l.undecided {
		if problem := l.firstSeparator(rec); problem != nil {
			l.refuse(rec, problem)
		}
	}
}

func (l *Layout) refuse(rec *Record, problem *CellError) {
	if rec.folded { // a quote that is closed too late takes rows with it
		problem.Reason += fmt.Sprintf(" (the record has lines %d to %d)", rec.Line, rec.Line+countLines(rec.Raw[:rec.stop]))
	}
	problem.File, problem.Line = l.Name, rec.Line
	rec.Class, rec.Err = Bad, problem
}

// classifyText looks for heads, units and footers in a record that does not
// begin with a digit.
func (l *Layout) classifyText(rec *Record, first int, afterHeads bool) {
	switch {
	case l.sameHeads(rec.Fields):
		rec.Class = Head
	case l.otherHeads(rec.Fields):
		l.refuse(rec, &CellError{Reason: "other heads, or the same in another order or with other units",
			Accepted: fmt.Sprintf("the heads of line %d again, or a file of its own for what follows", l.HeadLine)})
		rec.Class = Changed
	case l.sameUnits(rec.Fields):
		rec.Class = Units
	case l.foreignHeads(rec.Fields):
		l.refuse(rec, &CellError{Reason: "other heads, in columns that have a unit",
			Accepted: fmt.Sprintf("the heads of line %d again, or a file of its own for what follows", l.HeadLine)})
		rec.Class = Changed
	case afterHeads && l.unitRow(rec.Fields) || l.otherUnits(rec.Fields):
		l.refuse(rec, &CellError{Reason: "other units than above", Accepted: l.wantUnits()})
		rec.Class = Changed
	case isFooter(rec.Fields[first]):
		rec.Class, rec.label = Footer, first
	}
}

// namesFooter tells whether a row has the name of a summary where others have a number.
func (l *Layout) namesFooter(rec *Record) bool {
	for _, i := range l.numbered {
		if cell := rec.Cell(i); len(cell) > 0 && !isDigit(cell[0]) && isFooter(cell) {
			rec.label = i
			return true
		}
	}
	return false
}

// TakeFooter makes a record of class Footer a row like the others: Data, or Bad where it
// does not fit under the heads.
func (l *Layout) TakeFooter(rec *Record) {
	if rec.Class != Footer {
		return
	}
	rec.Class = Data
	if problem := l.shape(rec); problem != nil {
		l.refuse(rec, problem)
	}
}

// shape brings a row to the number of columns, or says why it does not fit.
// Empty cells too many, as a delimiter at the line end makes one, are dropped.
func (l *Layout) shape(rec *Record) *CellError {
	columns := len(l.Columns)
	for n := len(rec.Fields); n > columns; n-- {
		if len(rec.Fields[n-1]) > 0 {
			return &CellError{Column: n, Text: string(rec.Fields[n-1]),
				Reason: fmt.Sprintf("%d cells", n), Accepted: fmt.Sprintf("%d as in the heads of line %d", columns, l.HeadLine)}
		}
		rec.Fields = rec.Fields[:n-1]
	}
	if n := len(rec.Fields); n < l.fewest {
		return &CellError{Column: n + 1, Head: l.head(n),
			Reason: "the row ends before this cell", Accepted: fmt.Sprintf("%d cells as in the heads of line %d", columns, l.HeadLine)}
	}
	if len(rec.Raw) > maxCell {
		for i, cell := range rec.Fields {
			if len(cell) > maxCell {
				return &CellError{Column: i + 1, Head: l.head(i), Reason: "more than 64 KiB of text", Accepted: "a shorter cell"}
			}
		}
	}
	return nil
}

func (l *Layout) behindQuote(rec *Record) *CellError {
	i := rec.afterAt
	return &CellError{Column: i + 1, Head: l.head(i), Text: string(rec.after),
		Reason: "text behind a closing quote", Accepted: `a quote within quotes written twice: ""`}
}

// rowsWithin refuses a row whose cell has line ends where rows of the table may end and
// begin: its quote is not the one that was meant to close it.
func (l *Layout) rowsWithin(rec *Record) *CellError {
	columns := len(l.Columns)
	for i, cell := range rec.whole {
		first := bytes.IndexAny(cell, "\r\n")
		if first < 0 {
			continue
		}
		last := bytes.LastIndexAny(cell, "\r\n")
		var head, tail Record
		head.split(cell[:first], l.Delimiter)
		tail.split(cell[last+1:], l.Delimiter)
		behind := i + len(head.Fields)
		if behind < l.fewest || behind > columns || len(tail.Fields) != i+1 {
			continue
		}
		if slices.ContainsFunc(head.Fields[1:], startsNumber) || slices.ContainsFunc(tail.Fields[:i], startsNumber) {
			return &CellError{Column: i + 1, Head: l.head(i), Text: string(cell),
				Reason: "the quotes hold what looks like rows", Accepted: "every quote closed in its own cell"}
		}
	}
	return nil
}

// uncleanCell names the cell that holds what no text should.
func (l *Layout) uncleanCell(rec *Record) *CellError {
	accepted := encodingTitle(l.Encoding) + " text"
	for i, cell := range rec.Fields {
		switch {
		case bytes.IndexByte(cell, 0) >= 0:
			return &CellError{Column: i + 1, Head: l.head(i), Text: string(cell), Reason: "a NUL character in it", Accepted: accepted}
		case l.unclean(cell):
			return &CellError{Column: i + 1, Head: l.head(i), Text: string(cell), Reason: "bytes that are not " + encodingTitle(l.Encoding), Accepted: accepted}
		}
	}
	return &CellError{Reason: "bytes that are not " + encodingTitle(l.Encoding), Accepted: accepted}
}
