package table

import (
	"bytes"
	"fmt"
	"slices"
	"sync/atomic"
	"unicode/utf8"

	"millmaths.example/paperprop/internal/wording"
)

// A Class says what kind of record a row is.
type Class uint8

// Classes of records.
const (
	Data    Class = iota // a row of cells under the heads
	Blank                // an empty line
	Head                 // the heads repeated: a new block of the same columns
	Units                // the row of units repeated
	Footer               // a mean, s, total or count that the file's writer computed: not a reading
	Bad                  // cannot be read, or may be a footer; Err says why
	Changed              // different heads: later rows must not be read under the first ones; Err says why
)

// String returns the name of the class.
func (c Class) String() string {
	names := [...]string{"data", "blank", "head", "units", "footer", "bad", "changed"}
	if int(c) < len(names) {
		return names[c]
	}
	return fmt.Sprintf("Class(%d)", uint8(c))
}

// A Record is one row of the table. Raw and Fields point into the block and are valid
// until its next record is read or the block is reused.
type Record struct {
	Line   int      // line on which it begins, from 1
	Raw    []byte   // as in the file, in UTF-8, with its line end
	Fields [][]byte // the cells without quotes and outer blanks
	Class  Class
	Err    error // a *CellError if Class is Bad or Changed, else nil

	// whole holds the quoted cells with their outer blanks, if the row has any such: a
	// blank may be there to keep a spreadsheet from taking text for a formula. An
	// unquoted cell is nil.
	whole [][]byte

	stop     int    // index in Raw at which the line end begins
	plain    int    // number of cells if Raw has no quotes, else 0
	unquoted []byte // buffer for cells with doubled quotes
	folded   bool   // there are line ends within quotes
	label    int    // index of the cell that names a footer
	placed   bool   // only its place makes the row a footer, or doubtful
	after    []byte // first text found after a closing quote
	afterAt  int    // index of its cell
}

// Cell returns the cell in column i, from 0. Cells past the end of a short row are
// empty.
func (rec *Record) Cell(i int) []byte {
	if uint(i) < uint(len(rec.Fields)) {
		return rec.Fields[i]
	}
	return nil
}

// Label returns the cell that names a record of class Footer: "Mean".
func (rec *Record) Label() []byte { return rec.Cell(rec.label) }

// AppendRow appends the first columns cells of the record, each followed by the
// delimiter. Cells are copied as they stand in the file, or written as [AppendCSV] does
// if quotes or surplus cells prevent a copy. In a file of one column the delimiter is a
// comma.
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

// clear empties the record for the cells of the next.
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

// quoted reports whether cell i is quoted in the file.
func (rec *Record) quoted(i int) bool { return i < len(rec.whole) && rec.whole[i] != nil }

// undouble copies a cell with its doubled quotes made single.
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

// A Block holds some whole records of a table. The zero value is ready for Reader.Next;
// a reused Block keeps its buffers. A Block may be used by one goroutine at a time,
// while others use other blocks.
type Block struct {
	text    []byte
	scan    scanner
	line    int
	index   int
	layout  *Layout
	changed *atomic.Pointer[CellError]
	before  Class // of the previous record that is not empty, so far as it matters: Head, Footer or Data
	checked bool
	dirty   bool // text has a NUL or bytes not of its encoding
}

// Index returns the position of the block in the file, from 0, by which results
// computed concurrently can be put back in order.
func (b *Block) Index() int { return b.index }

// Layout returns the layout of the file that the block comes from.
func (b *Block) Layout() *Layout { return b.layout }

// Record reads the next record of the block into rec and reports whether there was one.
// A record of class Changed is the last: rows under other heads would be read wrongly,
// and from then on Reader.Next returns an error too.
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
	rec.placed = false
	rec.stop, rec.folded = record.stop-record.start, record.folded
	b.line++
	if record.folded {
		b.line += countLines(b.text[record.start:record.stop])
	}
	b.layout.classify(rec, b.before, b.dirty)
	b.before = rec.leaves(b.before)
	if rec.Class == Changed {
		b.scan.pos = len(b.text)
		if err, ok := rec.Err.(*CellError); ok {
			b.changed.CompareAndSwap(nil, err)
		}
	}
	return true
}

// unclean reports whether text holds a NUL, or bytes that its encoding does not allow.
// The decoder turns such bytes into U+FFFD; in UTF-8 they are still there.
func (l *Layout) unclean(text []byte) bool {
	if bytes.IndexByte(text, 0) >= 0 || !utf8.Valid(text) {
		return true
	}
	return l.Encoding != utf8Name && bytes.Contains(text, []byte("\uFFFD"))
}

// classify sets the class of a record. Most rows begin with a number and need no
// comparison with heads, units and footers.
func (l *Layout) classify(rec *Record, before Class, dirty bool) {
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
		l.classifyText(rec, first, before)
		if rec.Class != Data {
			return
		}
	} else if namesStatistic(rec.Fields[first]) {
		rec.Class, rec.label = Footer, first
		return
	}
	if l.namesFooter(rec) {
		rec.Class = Footer
		return
	}
	if problem := l.shape(rec); problem != nil {
		l.refuse(rec, problem)
		return
	}
	if problem := l.doubt(rec, before); problem != nil {
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
	if rec.folded { // a quote closed too late swallows rows
		problem.Reason += fmt.Sprintf(" (the record has lines %d to %d)", rec.Line, rec.Line+countLines(rec.Raw[:rec.stop]))
	}
	problem.File, problem.Line = l.Name, rec.Line
	rec.Class, rec.Err = Bad, problem
}

// classifyText looks for heads, units and footers in a record that does not begin with
// a digit.
func (l *Layout) classifyText(rec *Record, first int, before Class) {
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
	case before == Head && l.unitRow(rec.Fields) || l.otherUnits(rec.Fields):
		l.refuse(rec, &CellError{Reason: "other units than above", Accepted: l.wantUnits()})
		rec.Class = Changed
	case isFooter(rec.Fields[first]):
		rec.Class, rec.label = Footer, first
	case before == Footer && rec.counts(first):
		rec.Class, rec.label, rec.placed = Footer, first, l.doubt(rec, Data) == nil
	}
}

// counts reports whether a record behind a footer is one too: N and whole numbers. N
// may also name a specimen or a side of the sheet.
func (rec *Record) counts(first int) bool {
	if string(rec.Fields[first]) != "N" {
		return false
	}
	for _, cell := range rec.Fields[first+1:] {
		if !allDigits(cell) {
			return false
		}
	}
	return true
}

// leaves is what a record is to the next one, given what stands before it: empty lines
// change nothing, and what may be a footer counts as one. A footer that only its place
// makes one is Data: a block that begins behind it could not know.
func (rec *Record) leaves(before Class) Class {
	switch {
	case rec.Class == Blank:
		return before
	case rec.Class == Head:
		return Head
	case (rec.Class == Footer || rec.doubtful()) && !rec.placed:
		return Footer
	}
	return Data
}

// doubtful reports whether a refused row may be a reading.
func (rec *Record) doubtful() bool {
	problem, ok := rec.Err.(*CellError)
	return ok && problem.Doubtful
}

// namesFooter reports whether a row has the name of a summary in a column of such names.
func (l *Layout) namesFooter(rec *Record) bool {
	for _, i := range l.named {
		if cell := rec.Cell(i); len(cell) > 0 && !isDigit(cell[0]) && isFooter(cell) {
			rec.label = i
			return true
		}
	}
	return false
}

// TakeFooter treats a record of class Footer, and one that is refused because it may be
// a footer, as an ordinary row: it becomes Data, or Bad if it does not fit under the
// heads.
func (l *Layout) TakeFooter(rec *Record) {
	if rec.Class != Footer && !rec.doubtful() {
		return
	}
	rec.Class, rec.Err = Data, nil
	if problem := l.shape(rec); problem != nil {
		l.refuse(rec, problem)
	}
}

// shape brings a row to the number of columns, or returns why it does not fit. Surplus
// empty cells, such as a delimiter at the line end makes, are dropped.
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
			Reason: "the row ends before this cell", Accepted: fmt.Sprintf("%s as in the heads of line %d", wording.Count(columns, "cell"), l.HeadLine)}
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
		Reason: "text after a closing quote", Accepted: `a quote within quotes written twice: ""`}
}

// rowsWithin refuses a row with a quoted cell whose line ends could begin and end rows
// of the table: its closing quote is not the one that was meant.
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
		behind, kept := len(rec.whole)-i-1, max(0, filled(rec.Fields)-i-1) // cells after it, and those that are not dropped
		if i+len(head.Fields) < l.fewest || i+filled(head.Fields) > columns ||
			len(tail.Fields)+behind < l.fewest || len(tail.Fields)+kept > columns {
			continue
		}
		if slices.ContainsFunc(head.Fields[1:], saysReading) || slices.ContainsFunc(tail.Fields[:len(tail.Fields)-1], saysReading) {
			return &CellError{Column: i + 1, Head: l.head(i), Text: string(cell),
				Reason: "the quotes hold what looks like rows", Accepted: "every quote closed in its own cell"}
		}
	}
	return nil
}

// saysReading reports whether a cell begins as a number does, or says why there is none:
// <5, n/a.
func saysReading(cell []byte) bool {
	return startsNumber(cell) || Censored(cell) || len(cell) > 0 && Missing(cell)
}

// uncleanCell returns the error for the cell that holds a NUL or undecodable bytes.
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
