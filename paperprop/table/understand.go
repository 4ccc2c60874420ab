package table

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

const (
	searchRows = 4096 // records of the sample examined to find the heads
	searchHead = 512  // the heads are among the first of them, this many
)

// A row holds what the search for the heads needs to know about a record.
type row struct {
	line, lines int  // its first line and number of lines
	start, end  int  // indexes in the sample
	filled      int  // number of cells up to the last that is not empty
	width       int  // number of cells
	texts       bool // has texts and no numbers
	footer      bool
	matches     int // number of cells that are expected names
}

// counts reports whether a row helps to locate the table.
func (it *row) counts() bool { return it.filled > 0 && !it.footer }

// A guess is a delimiter and the heads found with it.
type guess struct {
	delimiter byte
	rows      []row
	least     int // number of cells that a line of heads has at least
	head      int // index in rows
	fit       int // number of rows below the heads that fit under them
	below     int // number of rows below the heads
}

// understand finds the delimiter, the heads, the units and the decimal sign from the
// sample, and leaves the text after the heads to Next.
func (r *Reader) understand(o *Options) error {
	l := r.layout
	delimiters := []byte(allDelimiters)
	if o.Delimiter != 0 {
		delimiters = []byte{o.Delimiter}
	}
	hint, skip := r.delimiterLine()
	if hint != 0 && o.Delimiter == 0 {
		delimiters = []byte{hint}
	}
	best, err := r.bestGuess(o, delimiters, skip)
	if err != nil {
		return err
	}
	l.Delimiter = best.delimiter
	if err := r.takeHeads(&best, o.whole()); err != nil {
		return err
	}
	return r.findDecimal(o)
}

// delimiterLine reads the line "sep=;" that spreadsheets write first, and returns its
// length.
func (r *Reader) delimiterLine() (delimiter byte, skip int) {
	s := scanner{text: r.text}
	first, ok := s.next(nil)
	if line := r.text[first.start:first.stop]; ok && len(line) == 5 && bytes.EqualFold(line[:4], []byte("sep=")) {
		if c := line[4]; c == ',' || c == ';' || c == '\t' {
			return c, first.end
		}
	}
	return 0, 0
}

// bestGuess tries the delimiters. A tab or a semicolon that gives a table is preferred
// to a comma, which may be a decimal sign, unless the comma gives more of the expected
// names.
func (r *Reader) bestGuess(o *Options, delimiters []byte, skip int) (best guess, err error) {
	hoped := o.hoped()
	found := false
	for _, delimiter := range delimiters {
		g := guess{delimiter: delimiter, rows: r.rows(delimiter, hoped, skip), least: 2}
		if o.Delimiter != 0 {
			g.least = 1
		}
		if !g.findHead(o.Head) || g.rows[g.head].width < g.least {
			continue
		}
		if !found || g.better(&best) {
			best, found = g, true
		}
	}
	if !found && o.Delimiter == 0 {
		best = guess{rows: r.rows(0, hoped, skip)}
		found = best.findHead(o.Head) && !bytes.ContainsAny(best.headText(r.text), allDelimiters)
	}
	if !found {
		for _, delimiter := range delimiters {
			if err := r.turned(r.rows(delimiter, nil, skip), delimiter, hoped); err != nil && o.Head == 0 {
				return best, err
			}
		}
		return best, r.noHeads(o.Head)
	}
	if err := r.headsAbove(&best); err != nil && o.Head == 0 {
		return best, err
	}
	if below := best.head + 1; o.Head == 0 && best.rows[best.head].matches == 0 {
		if err := r.turned(best.rows[below:], best.delimiter, hoped); err != nil {
			return best, err
		}
	}
	if line := best.piped(r.text); line > 0 {
		return best, r.otherwiseParted(line, "|")
	}
	if best.delimiter == 0 {
		if line := blankParted(best.rows, r.text); line > 0 {
			return best, r.otherwiseParted(line, "blanks")
		}
	}
	return best, nil
}

// turned refuses a table with an expected name at the beginning of a row, where none is
// among the heads: its columns are rows.
func (r *Reader) turned(rows []row, delimiter byte, hoped []string) error {
	var rec Record
	for _, it := range rows[:min(len(rows), searchHead)] {
		if it.filled < 2 {
			continue
		}
		rec.parse(r.text[it.start:it.end], delimiter)
		name := bytes.TrimRight(rec.Fields[0], ": ")
		if len(name) > 0 && !isNumeric(name) && matches([][]byte{name}, hoped) > 0 {
			return &CellError{File: r.layout.Name, Line: it.line, Column: 1, Text: string(rec.Fields[0]),
				Reason: "a name of a column in front of a row, and none in a line of heads", Accepted: "the names in one line, and the numbers of each below it"}
		}
	}
	return nil
}

func (r *Reader) otherwiseParted(line int, mark string) error {
	return &CellError{File: r.layout.Name, Line: line, Reason: "cells separated by " + mark, Accepted: "a comma, a semicolon or a tab between them"}
}

// headsAbove refuses a table if a line above its heads has their first cells, and more or
// fewer: what stands between would be left out as a preamble.
func (r *Reader) headsAbove(g *guess) error {
	var head, above Record
	head.parse(g.headText(r.text), g.delimiter)
	names := head.Fields[:g.rows[g.head].filled]
	for _, it := range g.rows[:g.head] {
		above.parse(r.text[it.start:it.end], g.delimiter)
		same := min(it.filled, len(names))
		if same > 1 && slices.EqualFunc(above.Fields[:same], names[:same], bytes.Equal) {
			return &CellError{File: r.layout.Name, Line: it.line, Reason: fmt.Sprintf("heads like those of line %d, with %d cells for %d", g.rows[g.head].line, it.filled, len(names)),
				Accepted: "one line of heads, or the same again"}
		}
	}
	return nil
}

// blankParted returns the line of texts that two or more blanks separate, above one of as
// many cells with digits; 0 if there is none. The rows are lines that nothing cuts.
func blankParted(rows []row, sample []byte) int {
	const near = 4 // a row of units may have fewer cells, and a rule only one
	for i, it := range rows[:min(len(rows), searchHead)] {
		if !it.texts {
			continue
		}
		columns := wide(sample[it.start:it.end])
		if columns < 2 {
			continue
		}
		for _, below := range rows[i+1 : min(len(rows), i+1+near)] {
			if text := sample[below.start:below.end]; wide(text) == columns && bytes.ContainsAny(text, "0123456789") {
				return it.line
			}
		}
	}
	return 0
}

// wide returns the number of texts in a line that two or more blanks separate.
func wide(line []byte) int {
	n := 0
	for part := range bytes.SplitSeq(line, []byte("  ")) {
		if len(bytes.TrimSpace(part)) > 0 {
			n++
		}
	}
	return n
}

// piped returns the line of the heads if vertical bars separate the cells there and in
// the row below; 0 if they do not, or if another delimiter gives columns.
func (g *guess) piped(sample []byte) int {
	stroke := []byte{'|'}
	head := g.rows[g.head]
	n := bytes.Count(g.headText(sample), stroke)
	below := slices.IndexFunc(g.rows[g.head+1:], func(it row) bool { return it.counts() })
	if g.delimiter != 0 || n == 0 || below < 0 {
		return 0
	}
	if it := g.rows[g.head+1+below]; bytes.Count(sample[it.start:it.end], stroke) != n {
		return 0
	}
	return head.line
}

// hoped returns the expected names in the form in which names are compared. "Kraft [N]"
// stands for Kraft too.
func (o *Options) hoped() (names []string) {
	for _, name := range o.Heads {
		names = append(names, spellings(name)...)
	}
	return names
}

// whole returns the expected heads that have a unit in square brackets, as folded name
// and unit. Such a name, U/min of "U/min [1/min]", is not split at its slash.
func (o *Options) whole() (columns []Column) {
	for _, name := range o.Heads {
		if head, unit, ok := bracketed(name, square, "]"); ok {
			columns = append(columns, Column{fold(head), unit})
		}
	}
	return columns
}

// headText returns the line of heads as written.
func (g *guess) headText(sample []byte) []byte {
	return sample[g.rows[g.head].start:g.rows[g.head].end]
}

// allDelimiters are the delimiters to try, the likeliest first.
const allDelimiters = "\t;,"

func (r *Reader) noHeads(line int) error {
	const accepted = "a line of names above the rows of numbers, in as many cells as they have"
	switch {
	case len(bytes.TrimSpace(r.text)) == 0:
		return r.layout.fileError("nothing in it", "a line of heads and rows under it")
	case line > 0:
		return &CellError{File: r.layout.Name, Line: line, Reason: "no heads here", Accepted: accepted}
	}
	if end, _ := lastRecord(r.text, 0, r.ended); end == 0 {
		return r.endless(r.ended)
	}
	lines := r.rows(0, nil, 0)
	if line := blankParted(lines, r.text); line > 0 {
		return r.otherwiseParted(line, "blanks")
	}
	if i := slices.IndexFunc(lines, func(it row) bool { return it.filled > 0 }); i >= 0 && r.wholeInQuotes(lines[i]) {
		return &CellError{File: r.layout.Name, Line: lines[i].line, Reason: "the whole line is in quotes, as one cell", Accepted: "quotes around single cells, or none"}
	}
	for _, delimiter := range []byte(allDelimiters) {
		if err := r.misquoted(delimiter); err != nil {
			return err
		}
	}
	return r.layout.fileError("no line of heads found", accepted)
}

// wholeInQuotes reports whether a line that nothing cuts is one cell in quotes that holds
// a delimiter.
func (r *Reader) wholeInQuotes(line row) bool {
	var rec Record
	rec.parse(r.text[line.start:line.end], 0)
	return rec.quoted(0) && bytes.ContainsAny(rec.Fields[0], allDelimiters)
}

// misquoted returns the error for the first record, cut at a delimiter, that ends a quote too
// early, nil if there is none. Another delimiter would stand behind a quote that it cuts not.
func (r *Reader) misquoted(delimiter byte) error {
	s := scanner{text: r.text, delimiter: delimiter}
	var rec Record
	for line := r.line; ; {
		record, ok := s.next(&rec)
		switch {
		case !ok:
			return nil
		case len(rec.Fields) > 1 && rec.after != nil && strings.IndexByte(allDelimiters, rec.after[0]) < 0:
			rec.Line, rec.Raw, rec.stop, rec.folded = line, r.text[record.start:record.end], record.stop-record.start, record.folded
			r.layout.refuse(&rec, r.layout.behindQuote(&rec))
			return rec.Err
		}
		line += countLines(r.text[record.start:record.end])
	}
}

// rows reads the first records of the sample.
func (r *Reader) rows(delimiter byte, hoped []string, skip int) []row {
	end, _ := lastRecord(r.text, delimiter, r.ended)
	if end <= skip {
		return nil
	}
	line := r.line
	s := scanner{text: r.text[:end], delimiter: delimiter, pos: skip}
	if skip > 0 {
		line++
	}
	numbers := slices.ContainsFunc(hoped, func(name string) bool { return startsNumber([]byte(name)) })
	var rec Record
	var rows []row
	for len(rows) < searchRows {
		record, ok := s.next(&rec)
		if !ok {
			break
		}
		it := rowOf(&rec)
		if (it.texts || numbers) && len(rows) < searchHead {
			it.matches = matches(rec.Fields, hoped)
		}
		it.start, it.end = record.start, record.end
		it.line, it.lines = line, countLines(s.text[record.start:record.end])
		line += it.lines
		rows = append(rows, it)
	}
	return rows
}

// rowOf returns the row of one record.
func rowOf(rec *Record) row {
	it := row{width: len(rec.Fields), filled: filled(rec.Fields)}
	if it.filled == 0 {
		return it
	}
	first := slices.IndexFunc(rec.Fields, func(cell []byte) bool { return len(cell) > 0 })
	it.footer = isFooter(rec.Fields[first])
	it.texts = !slices.ContainsFunc(rec.Fields, isNumeric)
	return it
}

// filled returns the number of cells up to the last that is not empty.
func filled(fields [][]byte) int {
	n := len(fields)
	for n > 0 && len(fields[n-1]) == 0 {
		n--
	}
	return n
}

// findHead looks for the line of heads: the given one, else the one with most of the
// expected names, which may be numbers, else the first of texts only under which rows fit.
func (g *guess) findHead(line int) bool {
	if line > 0 {
		i := slices.IndexFunc(g.rows, func(it row) bool { return it.line == line && it.filled > 0 })
		if i < 0 {
			return false
		}
		g.take(i)
		return true
	}
	head := g.search(true)
	if head < 0 {
		head = g.search(false)
	}
	if head < 0 {
		return false
	}
	g.take(head)
	return true
}

// search returns the index of the heads, -1 if there are none. If strict, most of the
// last rows must fit under them; otherwise it is enough that the next row does.
func (g *guess) search(strict bool) int {
	last := g.lastFour()
	first := g.rows[:min(searchHead, len(g.rows))]
	least := 1
	if slices.ContainsFunc(first, func(it row) bool { return it.matches > 0 && it.width >= g.least }) {
		least = g.least // a remark is no line of heads
	}
	found, matches := -1, 0
	for i, it := range first {
		named := it.matches >= 2 || it.matches > 0 && it.matches == it.filled
		if !it.texts && !named || it.width < least || it.matches <= matches && found >= 0 {
			continue
		}
		if named && it.matches > matches || !g.padded(i) && g.tableUnder(i, last, strict) {
			found, matches = i, it.matches
		}
	}
	return found
}

// padded reports whether line i belongs to a preamble that was padded with delimiters
// to the width of the table: the first line below with twice as many cells holds only
// texts, as heads do.
func (g *guess) padded(i int) bool {
	below := g.rows[i+1:]
	k := slices.IndexFunc(below, func(it row) bool { return it.filled >= 2*g.rows[i].filled })
	return k >= 0 && below[k].texts && g.rows[i].filled < g.rows[i].width
}

func (g *guess) take(head int) {
	g.head = head
	g.fit, g.below = 0, 0
	for _, it := range g.rows[head+1:] {
		if !it.counts() {
			continue
		}
		g.below++
		if g.rows[head].fits(it) {
			g.fit++
		}
	}
}

// lastFour returns the indexes of the last four rows that count.
func (g *guess) lastFour() []int {
	var last []int
	for i := len(g.rows) - 1; i >= 0 && len(last) < 4; i-- {
		if g.rows[i].counts() {
			last = append(last, i)
		}
	}
	return last
}

// tableUnder reports whether the rows under line i form a table with these heads: the
// next row and, if strict, most of the last ones must fit.
func (g *guess) tableUnder(i int, last []int, strict bool) bool {
	head := g.rows[i]
	next := slices.IndexFunc(g.rows[i+1:], func(it row) bool { return it.counts() })
	if next < 0 {
		return g.emptyTable(i)
	}
	if !head.fits(g.rows[i+1+next]) {
		return false
	}
	under, fit := 0, 0
	for _, at := range last {
		if at > i {
			under++
			if head.fits(g.rows[at]) {
				fit++
			}
		}
	}
	return !strict || 2*fit > under
}

// emptyTable reports whether line i, with no rows under it, is nevertheless the heads:
// above it there is nothing, or only a preamble with fewer cells.
func (g *guess) emptyTable(i int) bool {
	return !slices.ContainsFunc(g.rows[:i], func(it row) bool { return it.filled > 0 && it.width >= g.rows[i].width })
}

// fits reports whether a row has as many cells as the heads. It may have more or fewer
// empty cells at the end, as far as a delimiter at the line end explains them.
func (it *row) fits(under row) bool {
	return under.filled <= it.width && under.width >= it.filled
}

// better reports whether g is a better guess than h, which comes before it.
func (g *guess) better(h *guess) bool {
	if m, n := g.rows[g.head].matches, h.rows[h.head].matches; m != n {
		return m > n
	}
	good := func(x *guess) bool { return x.below > 0 && 10*x.fit >= 9*x.below }
	if good(g) != good(h) {
		return good(g)
	}
	return !good(g) && g.fit*max(1, h.below) > h.fit*max(1, g.below)
}

// takeHeads reads the heads and the row of units, and moves past them.
func (r *Reader) takeHeads(g *guess, whole []Column) error {
	l := r.layout
	head := g.rows[g.head]
	columns := head.filled
	for _, it := range g.rows[g.head+1:] {
		if it.filled > columns && it.filled <= head.width {
			columns = it.filled
		}
	}
	if head.width > maxColumns {
		return &CellError{File: l.Name, Line: head.line, Column: maxColumns + 1, Reason: fmt.Sprintf("%d cells", head.width),
			Accepted: fmt.Sprintf("at most %d in a line of heads", maxColumns)}
	}
	l.HeadLine, l.Preamble, l.fewest = head.line, head.line-1, head.filled
	cells := make([]string, columns)
	for i, cell := range r.record(head) {
		if i < columns {
			cells[i] = string(cell)
		}
	}
	l.setHeads(cells, whole)
	last := g.head
	if units := r.unitsUnder(g); units > 0 {
		last = units
		if err := l.setUnits(g.rows[units].line, r.record(g.rows[units])); err != nil {
			return err
		}
	} else if names := r.namesUnder(g); names > 0 {
		last = names
	}
	for i := last + 1; i < len(g.rows) && (g.rows[i].filled == 0 || isRule(r.record(g.rows[i]))); i++ {
		if g.rows[i].filled > 0 {
			last = i
		}
	}
	if err := l.setMore(r, g.rows[g.head+1:last+1]); err != nil {
		return err
	}
	end := g.rows[last]
	r.text, r.line = r.text[end.end:], end.line+end.lines
	return nil
}

// mostMore limits the lines of text between the heads and the row of units.
const mostMore = 6

// unitsUnder returns the index of the row of units, 0 if there is none. Empty lines and
// rules may stand above it, and lines that say more about the heads, which hold texts
// only.
func (r *Reader) unitsUnder(g *guess) int {
	head, more := g.rows[g.head], 0
	for i := g.head + 1; i < len(g.rows) && more <= mostMore; i++ {
		it := g.rows[i]
		cells := r.record(it)
		switch {
		case it.filled == 0 || isRule(cells):
			continue
		case !it.texts || !head.fits(it):
			return 0
		case r.layout.unitRow(cells) && r.overNumbers(cells, g.rows[i+1:]) && !r.overUnits(g, i):
			return i
		}
		more++
	}
	return 0
}

// overUnits reports whether a row that may be one of units is one of symbols, F and b above
// N and mm: the row under it has units wherever it has some itself, of other quantities.
func (r *Reader) overUnits(g *guess, at int) bool {
	next := slices.IndexFunc(g.rows[at+1:], func(it row) bool { return it.counts() })
	if next < 0 || !g.rows[at+1+next].texts {
		return false
	}
	symbols, units := r.record(g.rows[at]), r.record(g.rows[at+1+next])
	if !r.layout.unitRow(units) || !r.overNumbers(units, g.rows[at+next+2:]) {
		return false
	}
	other := false
	for i, cell := range symbols {
		symbol := unbracket(string(cell))
		switch {
		case Missing(cell) || !r.layout.isUnit(symbol):
		case i >= len(units) || !r.layout.isUnit(unbracket(string(units[i]))):
			return false
		case !sameSort(symbol, unbracket(string(units[i]))):
			other = true
		}
	}
	return other
}

// namesUnder returns the index of a row of texts, above rows with numbers, all of which stand
// under heads that need them, or under none; 0 if there is none.
func (r *Reader) namesUnder(g *guess) int {
	at := g.head + 1
	if at+1 >= len(g.rows) || g.rows[at].filled == 0 || !g.rows[at].texts || g.rows[at+1].texts || !g.rows[g.head].fits(g.rows[at]) {
		return 0
	}
	below := make([]string, len(r.layout.heads))
	for i, cell := range r.record(g.rows[at])[:g.rows[at].filled] {
		below[i] = string(cell)
	}
	needed := false
	for i, unclear := range r.layout.unclear(below) {
		if below[i] != "" && (!unclear && r.layout.heads[i] != "" || Missing([]byte(below[i]))) {
			return 0
		}
		needed = needed || below[i] != "" && unclear
	}
	if !needed {
		return 0
	}
	return at
}

// isRule reports whether a row is a line drawn under the heads, ----;---, and not a row of
// missing readings.
func isRule(cells [][]byte) bool {
	rule := false
	for _, cell := range cells {
		if len(bytes.Trim(cell, "-")) > 0 && len(bytes.Trim(cell, "=")) > 0 && len(bytes.Trim(cell, "_")) > 0 {
			return false
		}
		rule = rule || !Missing(cell)
	}
	return rule && len(cells[0]) > 0
}

// overNumbers reports whether a row of units stands above numbers, with at least one unit.
// Otherwise its first cell is a name, as A names a specimen of which nothing was measured.
// If there are no numbers below, some cell after the first must be a unit.
func (r *Reader) overNumbers(cells [][]byte, below []row) bool {
	units := make([]bool, len(cells))
	for i, cell := range cells {
		units[i] = !Missing(cell) && r.layout.isUnit(unbracket(string(cell)))
	}
	numbers := false
	for _, it := range below {
		if !it.counts() || it.texts {
			continue
		}
		for i, cell := range r.record(it) {
			switch {
			case !startsNumber(cell):
			case i < len(units) && units[i]:
				return true
			default:
				numbers = true
			}
		}
	}
	return !numbers && (len(units) == 1 || slices.Contains(units[1:], true))
}

// record returns the cells of one record of the sample.
func (r *Reader) record(it row) [][]byte {
	var rec Record
	rec.parse(r.text[it.start:it.end], r.layout.Delimiter)
	return rec.Fields
}

// matches returns the number of cells that are expected names, with or without a unit. A
// number that comes again is a reading, not a name.
func matches(cells [][]byte, hoped []string) int {
	n := 0
	var numbers []string
	for _, cell := range cells {
		switch {
		case len(hoped) == 0:
		case isNumeric(cell):
			if name := fold(string(cell)); slices.Contains(hoped, name) && !slices.Contains(numbers, name) {
				numbers = append(numbers, name)
			}
		case slices.ContainsFunc(spellings(string(cell)), func(name string) bool { return slices.Contains(hoped, name) }):
			n++
		}
	}
	return n + len(numbers)
}

// isNumeric reports whether a cell begins like a number, and is not the unit 1/min.
func isNumeric(cell []byte) bool { return startsNumber(cell) && !bytes.HasPrefix(cell, []byte("1/")) }

// spellings returns the folded names that a head may have: the whole head, and the text
// before a unit. Text before a comma counts only if a listed unit follows; otherwise it
// is more often a sentence.
func spellings(head string) []string {
	names := []string{fold(head)}
	for _, p := range partings(head) {
		if p.sign != comma || listedUnit(p.Unit) {
			names = append(names, fold(p.Head))
		}
	}
	return names
}

// findDecimal decides the decimal sign from the rows and footers of the sample, and
// finds the columns in which rows and summaries have their names.
func (r *Reader) findDecimal(o *Options) error {
	l := r.layout
	end, _ := lastRecord(r.text, l.Delimiter, r.ended)
	sample := Block{text: r.text[:end], line: r.line, layout: l, changed: &r.changed}
	sample.scan = scanner{text: sample.text, delimiter: l.Delimiter}
	hoped := o.hoped()
	seen := l.evidences(hoped, o.inUnits)
	var rec Record
	names := newLabels(l, hoped)
	for sample.Record(&rec) {
		if rec.Class == Data || rec.Class == Footer {
			seen.addRow(&rec)
		}
		switch rec.Class {
		case Data:
			names.addRow(&rec)
		case Footer:
			names.footers = true
		case Head:
			names.addHeads()
		}
	}
	r.changed.Store(nil)
	names.tell(l)
	if o.Decimal != 0 {
		l.setDecimal(o.Decimal)
		l.given = true
		return nil
	}
	whole := r.ended && end == len(r.text)
	if err := seen.decide(l, whole); err != nil {
		return err
	}
	l.undecided = l.Decimal == 0 && !whole
	return nil
}
