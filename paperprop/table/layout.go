package table

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
)

// A Column is one column of the table.
type Column struct {
	Head string // as written, without its unit
	Unit string // from `force [N]`, `force (N)`, `force/N`, `force, N` or the row of units; "" if none
}

// A Layout says how a file is written.
type Layout struct {
	Name      string // of the file
	Encoding  string // see Options
	Mark      bool   // the text begins with a byte order mark
	Delimiter byte   // 0: there is only one column
	Decimal   byte   // 0: no separator in the sample; one that comes later is refused
	Thousands byte   // point or comma, whichever Decimal is not; 0 if Decimal is
	Preamble  int    // number of lines above the heads, which are not read
	HeadLine  int    // line of the heads, from 1
	UnitLine  int    // line of the units, 0 if there is none
	Columns   []Column

	isUnit      func(string) bool
	ownUnits    bool     // Options.IsUnit was given
	assumed     bool     // the encoding is guessed
	proof       place    // cell that decided the decimal sign
	given       bool     // the decimal sign was given in Options
	decimalName string   // as Options.DecimalName
	undecided   bool     // no separator in the sample, and the file goes on
	heads       []string // as written, in the order of Columns
	folded      []string // names of Columns as Find compares them
	longest     int      // length of the longest of heads
	units       []string // the row of units as written
	more        []more   // lines of text between the heads and the units
	fewest      int      // least number of cells in a row
	named       []int    // columns in which a footer may have its name
	names       []nameColumn
	usual       sorts     // names that rows have as well as statistics
	numberHeads bool      // a head begins with a digit
	headStarts  [256]bool // bytes with which a head begins, in both cases
}

// A more is a line below the heads that says more about them, as "max." does below
// "force", or a rule. It names a column only where the heads alone do not: see joinHeads.
// Where it does, the line of heads as written is one too.
type more struct {
	Line  int
	Cells []string
}

// A place is a cell of the file.
type place struct {
	line, column int
	text         string
}

// String returns a text such as `line 11, "96,4"`.
func (p place) String() string { return fmt.Sprintf("line %d, %s", p.line, quote(p.text)) }

func (p place) before(q place) bool {
	return p.line < q.line || p.line == q.line && p.column < q.column
}

// NewLayout returns the layout of a table that a program provides cell by cell, without
// a file: the decimal sign is a point, and rows are written with commas. It copies the
// columns.
func NewLayout(name string, columns []Column) *Layout {
	l := &Layout{Name: name, Encoding: utf8Name, Delimiter: ',', Columns: slices.Clone(columns), isUnit: isUnit}
	for _, c := range columns {
		l.heads, l.folded = append(l.heads, c.Head), append(l.folded, fold(c.Head))
	}
	l.setDecimal('.')
	l.given = true
	return l
}

// Find returns the index of the column with the given name, from 0. Case is ignored,
// and '-', '_' and space are equal. A head as written, with its unit, is a name too.
// Find reports false if no column has the name, or several have: see [Layout.FindAll].
func (l *Layout) Find(name string) (column int, ok bool) {
	all := l.FindAll(name)
	if len(all) != 1 {
		return 0, false
	}
	return all[0], true
}

// FindAll returns the indexes of all columns with the given name, in order. If there
// are none, it returns those whose head as written, with its unit, is the name: "mass
// before / g".
func (l *Layout) FindAll(name string) []int {
	name = fold(name)
	if name == "" {
		return nil
	}
	var all, written []int
	for i, folded := range l.folded {
		switch {
		case folded == name:
			all = append(all, i)
		case fold(l.heads[i]) == name:
			written = append(written, i)
		}
	}
	if len(all) == 0 {
		return written
	}
	return all
}

// fold returns a name in the form in which names are compared.
func fold(name string) string {
	name = strings.Map(func(c rune) rune {
		if c == '-' || c == '_' || c == '\u00A0' {
			return ' '
		}
		return c
	}, strings.ToLower(name))
	return strings.Join(strings.Fields(name), " ")
}

// Notes returns plain sentences on how the file is read, with line numbers.
func (l *Layout) Notes() []string {
	notes := l.Reading()
	for i, c := range l.Columns {
		note := fmt.Sprintf("column %d: %s", i+1, quote(c.Head))
		if c.Head == "" {
			note = fmt.Sprintf("column %d: no head", i+1)
		}
		if c.Unit != "" {
			note += " in " + c.Unit
		}
		notes = append(notes, note)
	}
	return notes
}

// Reading returns the Notes without those on the columns.
func (l *Layout) Reading() []string {
	notes := []string{"encoding: " + l.encodingNote(), "delimiter: " + delimiterTitle(l.Delimiter), "decimal sign: " + l.decimalNote()}
	switch {
	case l.Preamble == 1:
		notes = append(notes, "line 1: preamble, not read")
	case l.Preamble > 1:
		notes = append(notes, fmt.Sprintf("lines 1 to %d: preamble, not read", l.Preamble))
	}
	if l.HeadLine == 0 { // the rows come from a program
		return notes
	}
	heads := fmt.Sprintf("line %d: heads", l.HeadLine)
	read := ", not read"
	if slices.ContainsFunc(l.more, func(m more) bool { return m.Line == l.HeadLine }) {
		read = ""
	}
	for _, m := range l.more {
		if m.Line != l.HeadLine {
			heads += fmt.Sprintf("; line %d: more on the heads%s", m.Line, read)
		}
	}
	if l.UnitLine > 0 {
		heads += fmt.Sprintf("; line %d: units", l.UnitLine)
	}
	return append(notes, heads)
}

func (l *Layout) encodingNote() string {
	note := encodingTitle(l.Encoding)
	switch {
	case l.Mark:
		note += ", with mark"
	case l.assumed:
		note += ", as the bytes are not UTF-8"
	}
	return note
}

func (l *Layout) decimalNote() string {
	title := signTitle(l.Decimal)
	switch {
	case l.given:
		return title + ", as given"
	case l.Decimal == 0:
		return "none seen"
	}
	return fmt.Sprintf("%s (%v)", title, l.proof)
}

func signTitle(sign byte) string {
	if sign == ',' {
		return "comma"
	}
	return "point"
}

func delimiterTitle(delimiter byte) string {
	switch delimiter {
	case ',':
		return "comma"
	case ';':
		return "semicolon"
	case '\t':
		return "tab"
	}
	return "none, one column"
}

// head returns the head of column i for a message.
func (l *Layout) head(i int) string {
	if i < len(l.Columns) {
		return l.Columns[i].Head
	}
	return ""
}

// fileError returns an error about the file as a whole.
func (l *Layout) fileError(reason, accepted string) *CellError {
	return &CellError{File: l.Name, Reason: reason, Accepted: accepted}
}

// errorf returns an error that begins with the name of the file, if there is one.
func (l *Layout) errorf(format string, args ...any) error {
	err := fmt.Errorf(format, args...)
	if l.Name == "" {
		return err
	}
	return fmt.Errorf("%s: %w", l.Name, err)
}

// setHeads stores the cells of the line of heads, one for each column. A cell that is
// one of whole is not split if that would give it a unit of another quantity: U/min is
// in 1/min.
func (l *Layout) setHeads(cells []string, whole []Column) {
	l.heads = cells
	for _, cell := range cells {
		column := l.column(cell)
		if slices.ContainsFunc(whole, func(w Column) bool { return w.Head == fold(cell) && !sameSort(w.Unit, column.Unit) }) {
			column = Column{Head: cell}
		}
		l.Columns = append(l.Columns, column)
		l.folded = append(l.folded, fold(column.Head))
		l.know(cell)
	}
}

// know stores what finds a head among the cells of rows.
func (l *Layout) know(head string) {
	if head == "" {
		return
	}
	l.longest = max(l.longest, len(head))
	l.headStarts[head[0]], l.headStarts[head[0]^0x20] = true, true
	l.numberHeads = l.numberHeads || isDigit(head[0])
}

// column splits a head into name and unit. Text in square brackets is always a unit,
// text elsewhere only if it is a known one: "force (N)" but "grammage (conditioned)". A
// slash may also be part of a unit: "force/N" but "kg/t" and "dose kg/t".
func (l *Layout) column(head string) Column {
	for _, p := range partings(head) {
		switch {
		case p.sign == square:
			return p.Column
		case !l.isUnit(p.Unit):
		case p.sign == slash && (l.isUnit(p.Head) || l.isUnit(head) || p.inUnit()):
		default:
			return p.Column
		}
	}
	return Column{Head: head}
}

// A parting is one way to split a head into a name and a unit.
type parting struct {
	Column
	sign string // text between name and unit
}

// inUnit reports whether the slash belongs to a unit that follows a name, as in
// "Grammage g/m2" and "Flow gal/min". A last word alone proves nothing: "dew-point/°C",
// "consistency-in/%".
func (p parting) inUnit() bool {
	words := strings.FieldsFunc(p.Head, func(c rune) bool { return strings.ContainsRune(" _-:,\u00A0", c) })
	if len(words) == 0 {
		return false
	}
	last := words[len(words)-1]
	text := last + slash + p.Unit
	unit, err := paperprop.ParseUnit(text)
	var unclear *paperprop.UnitError
	switch {
	case err == nil && listedUnit(unit.String()):
		return true
	case saysWhich(last):
		return false
	case errors.As(err, &unclear):
		return unclear.Fault == paperprop.AmbiguousUnit
	}
	kind := unit.Kind()
	if kind == nil {
		return false
	}
	_, err = kind.Unit(text)
	return err == nil
}

// The text before a unit: "force / N" and "force/N", which ISO 80000-1 uses for a
// quantity over its unit, "force, N" and "force in N".
const (
	square      = "["
	round       = "("
	comma       = ","
	wideSlash   = " / "
	preposition = " in "
	slash       = "/"
)

// partings returns the ways to split a head, the likeliest first. Of slashes without
// blanks the first comes first, since a unit may have one itself: "flow/t/h". A slash
// before brackets is not part of the name: "grammage/(g/m2)".
func partings(head string) (all []parting) {
	for _, brackets := range [...][2]string{{square, "]"}, {round, ")"}} {
		if name, unit, ok := bracketed(head, brackets[0], brackets[1]); ok {
			sign := brackets[0]
			if over := strings.TrimRight(name, "/,:;- "); over != name && over != "" {
				if sign == round && strings.Contains(name[len(over):], slash) {
					sign = slash
				}
				name = over
			}
			all = append(all, parting{Column{name, unit}, sign})
		}
	}
	at := func(i int, sign string) {
		name, unit := strings.TrimSpace(head[:i]), unbracket(strings.TrimSpace(head[i+len(sign):]))
		if name != "" && unit != "" {
			all = append(all, parting{Column{name, unit}, sign})
		}
	}
	for _, sign := range [...]string{comma, wideSlash, preposition} {
		if i := strings.LastIndex(head, sign); i > 0 && !(sign == comma && saysWhich(head[i+len(sign):])) {
			at(i, sign)
		}
	}
	for i := range min(len(head), longestHead) {
		if head[i] == '/' {
			at(i, slash)
		}
	}
	return all
}

// saysWhich reports whether a unit after a comma is more likely a word: "consistency,
// in" is not in inches, "time, min" may be the shortest, and F and W are sides of a
// sheet.
func saysWhich(unit string) bool {
	switch strings.TrimSpace(unit) {
	case "in", "min", "second", "sheet", "sheets", "day", "A", "C", "F", "L", "M", "W":
		return true
	}
	return false
}

// longestHead is the length up to which a cell is searched for a name with a unit.
const longestHead = 200

// bracketed splits "force [N]" into its name and the text in the brackets.
func bracketed(head, open, shut string) (name, inside string, ok bool) {
	rest, ok := strings.CutSuffix(head, shut)
	if !ok {
		return "", "", false
	}
	name, inside, ok = cutLast(rest, open)
	name, inside = strings.TrimSpace(name), withoutIn(strings.TrimSpace(inside))
	return name, inside, ok && name != "" && inside != ""
}

// cutLast splits s at the last opening bracket that closes at the end of s, so that
// "flow (t/(h m))" gives "t/(h m)".
func cutLast(s, open string) (before, after string, ok bool) {
	depth := 1
	for i := len(s) - 1; i >= 0; i-- {
		switch {
		case s[i] == open[0]:
			depth--
		case s[i] == ')' && open == "(" || s[i] == ']' && open == "[":
			depth++
		}
		if depth == 0 {
			return s[:i], s[i+1:], true
		}
	}
	return "", "", false
}

// setUnits stores the row of units under the heads.
func (l *Layout) setUnits(line int, fields [][]byte) error {
	l.UnitLine = line
	l.units = make([]string, len(l.Columns))
	for i := range l.Columns {
		if i >= len(fields) || Missing(fields[i]) {
			continue
		}
		l.units[i] = string(fields[i])
		unit := unbracket(l.units[i])
		if isUnitLabel(unit) {
			continue
		}
		column := &l.Columns[i]
		switch {
		case column.Unit == "":
			column.Unit = unit
		case !SameUnit(column.Unit, unit):
			return l.otherUnit(line, i, *column, l.units[i])
		}
	}
	return nil
}

func (l *Layout) otherUnit(line, i int, head Column, text string) error {
	return &CellError{File: l.Name, Line: line, Column: i + 1, Head: head.Head, Text: text,
		Reason: fmt.Sprintf("another unit than [%s] in the head", head.Unit), Accepted: "one unit for a column"}
}

// setMore stores what stands between the heads and the first row, except the units. Heads
// that it does not tell apart are refused.
func (l *Layout) setMore(r *Reader, rows []row) error {
	telling := 0
	var texts [][]string
	for _, it := range rows {
		if it.filled == 0 || it.line == l.UnitLine {
			continue
		}
		m := more{Line: it.line}
		for _, cell := range r.record(it) {
			m.Cells = append(m.Cells, string(cell))
		}
		l.more = append(l.more, m)
		if !isRule(r.record(it)) {
			telling, texts = cmp.Or(telling, it.line), append(texts, m.Cells)
		}
	}
	if telling == 0 {
		return nil
	}
	if err := l.joinHeads(texts, telling); err != nil {
		return err
	}
	for i, c := range l.Columns {
		if name := l.folded[i]; name != "" && slices.Contains(l.folded[:i], name) {
			return &CellError{File: l.Name, Line: l.HeadLine, Column: i + 1, Head: c.Head,
				Reason:   fmt.Sprintf("a head that stands twice, and only line %d may say which is which", telling),
				Accepted: "heads in one line, each with a name of its own"}
		}
	}
	return nil
}

// joinHeads adds what stands below the heads to those that it has to tell apart: Force MD
// and Force CD. Others keep their names, as max. below force is no part of its name. The
// line is that of the first text, for an error about a unit in it.
func (l *Layout) joinHeads(lines [][]string, line int) error {
	below := make([]string, len(l.Columns))
	for _, cells := range lines {
		for i := range min(len(below), len(cells)) {
			below[i] = strings.TrimSpace(below[i] + " " + cells[i])
		}
	}
	heads, unclear := slices.Clone(l.heads), l.unclear(below)
	var over Column // the head that stands over this column
	for i := range l.Columns {
		column := &l.Columns[i]
		if l.heads[i] != "" || !unclear[i] {
			over = *column
		} else if l.UnitLine == 0 {
			column.Unit = over.Unit
		}
		if below[i] != "" && (l.heads[i] == "" || unclear[i]) {
			own := l.column(below[i])
			if own.Unit != "" && column.Unit != "" && !SameUnit(own.Unit, column.Unit) {
				return l.otherUnit(line, i, over, below[i])
			}
			column.Head, column.Unit = strings.TrimSpace(over.Head+" "+own.Head), cmp.Or(own.Unit, column.Unit)
			heads[i] = column.Head
		}
	}
	if slices.Equal(heads, l.heads) {
		return nil
	}
	l.more = append(l.more, more{l.HeadLine, l.heads})
	l.heads = heads
	for i, c := range l.Columns {
		l.folded[i] = fold(c.Head)
		l.know(heads[i])
	}
	return nil
}

// unclear returns which heads need what stands below them: those that stand twice, and
// those that a spreadsheet joined over several columns, of which only the first has the
// text.
func (l *Layout) unclear(below []string) []bool {
	unclear, times := make([]bool, len(l.heads)), make(map[string]int, len(l.heads))
	for _, name := range l.folded {
		times[name]++
	}
	for i, head := range l.heads {
		switch name := l.folded[i]; {
		case name != "":
			unclear[i] = unclear[i] || times[name] > 1
		case head == "" && i > 0 && below[i] != "" && below[i-1] != "" && (l.heads[i-1] != "" || unclear[i-1]):
			unclear[i-1], unclear[i] = true, true
		}
	}
	return unclear
}

// unbracket removes brackets around a unit.
func unbracket(text string) string {
	n := len(text)
	if n > 2 && (text[0] == '[' && text[n-1] == ']' || text[0] == '(' && text[n-1] == ')') {
		text = strings.TrimSpace(text[1 : n-1])
	}
	return withoutIn(text)
}

// withoutIn returns the unit of "in N", which is no inch newton. Inches of mercury, "in
// Hg", stay.
func withoutIn(text string) string {
	rest, ok := strings.CutPrefix(text, "in ")
	if !ok {
		return text
	}
	if whole, err := paperprop.ParseUnit(text); err == nil && listedUnit(whole.String()) || !isUnit(rest) {
		return text
	}
	return rest
}

// unitRow reports whether a row holds units: every cell is one, is empty or says that
// units stand beside it, and none is a number. If the first cell is no name, up to half
// of the units may be unknown: those of columns that nobody reads matter to nobody.
func (l *Layout) unitRow(fields [][]byte) bool {
	units, unknown := 0, 0
	const longest = 40
	for i, cell := range fields {
		if Missing(cell) {
			continue
		}
		if len(cell) > longest {
			return false
		}
		switch unit := unbracket(string(cell)); {
		case l.isUnit(unit):
			units++
		case isUnitLabel(unit):
		case i == 0 || startsNumber(cell): // A may name a specimen, and stand before its reading
			return false
		default:
			unknown++
		}
	}
	return units > 0 && units >= unknown
}

// isUnitLabel reports whether a text stands in a row of units where there is no unit: it
// says what the row is, or how dates are written.
func isUnitLabel(text string) bool {
	text = strings.TrimRight(strings.ToLower(text), ":")
	switch text {
	case "unit", "units", "einheit", "einheiten", "unité", "unités", "unite", "unites", "unidad", "unidades",
		"unità", "unidade", "eenheid", "enhet", "enheter", "enhed", "yksikkö", "jednostka", "text", "string":
		return true
	}
	const shortest = 5 // hh:mm
	return len(text) >= shortest && strings.Trim(text, "dmyjatghis.:/- ") == "" && strings.ContainsAny(text, ".:/-")
}

// sameUnits reports whether a row repeats the row of units.
func (l *Layout) sameUnits(fields [][]byte) bool {
	if l.units == nil {
		return false
	}
	for i := range max(len(fields), len(l.units)) {
		var cell []byte
		if i < len(fields) && !Missing(fields[i]) {
			cell = fields[i]
		}
		if i < len(l.units) && !sameUnitCell(string(cell), l.units[i]) || i >= len(l.units) && len(cell) > 0 {
			return false
		}
	}
	return true
}

func sameUnitCell(cell, unit string) bool {
	return cell == unit || listedUnit(unbracket(cell)) && SameUnit(unbracket(cell), unbracket(unit))
}

func (l *Layout) wantUnits() string {
	if l.UnitLine == 0 {
		return "none here, as there are none under the heads above"
	}
	return fmt.Sprintf("those of line %d", l.UnitLine)
}

// sameHeads reports whether a row repeats the line of heads, or one that says more about
// them.
func (l *Layout) sameHeads(fields [][]byte) bool {
	if string(fields[0]) == l.heads[0] && sameCells(fields, l.heads) {
		return true
	}
	return slices.ContainsFunc(l.more, func(m more) bool { return sameCells(fields, m.Cells) })
}

// sameCells reports whether a row has these cells, and no others but empty ones.
func sameCells(fields [][]byte, cells []string) bool {
	for i := range max(len(fields), len(cells)) {
		var cell []byte
		if i < len(fields) {
			cell = fields[i]
		}
		if i < len(cells) && string(cell) != cells[i] || i >= len(cells) && len(cell) > 0 {
			return false
		}
	}
	return true
}

// otherHeads reports whether a row is a line of heads, but not the one of this file:
// its first cell has the name of its column, or half of its cells are names of columns
// and no numbers.
func (l *Layout) otherHeads(fields [][]byte) bool {
	filled, names := 0, 0
	for i, cell := range fields {
		if len(cell) == 0 {
			continue
		}
		filled++
		if l.headStarts[cell[0]] && (i == 0 || !isDigit(cell[0])) && l.isHead(cell) {
			names++
			if i == 0 && fold(l.column(string(cell)).Head) == l.folded[0] {
				return true
			}
		}
	}
	return names >= 2 && 2*names >= filled
}

// isHead reports whether a cell is the name of a column, with or without a unit.
// Whether brackets hold a unit, a slow question, is asked only if the name before them
// is one.
func (l *Layout) isHead(cell []byte) bool {
	if len(cell) > longestHead {
		return false
	}
	named := func(name string) bool { return slices.Contains(l.folded, name) }
	head := string(cell)
	return named(fold(head)) || slices.ContainsFunc(partings(head), func(p parting) bool {
		return (p.sign != slash || len(p.Head) <= l.longest) && named(fold(p.Head))
	}) && named(fold(l.column(head).Head))
}

// classOf classifies a raw record without what stands before it.
func (l *Layout) classOf(raw []byte) *Record {
	rec := Record{Raw: raw}
	rec.parse(raw, l.Delimiter)
	l.classify(&rec, Data, l.unclean(raw))
	return &rec
}

// leftBy returns what a block with its last record at index last is to the record behind
// it, given what stands before the block.
func (l *Layout) leftBy(text []byte, last int, before Class) Class {
	rec := l.classOf(text[last:])
	if rec.Class != Blank {
		return rec.leaves(before)
	}
	var above []byte // the last record that is not empty: if there is none, it leaves what stands before
	s := scanner{text: text[:last], delimiter: l.Delimiter}
	for record, ok := s.next(rec); ok; record, ok = s.next(rec) {
		if filled(rec.Fields) > 0 {
			above = text[record.start:record.end]
		}
	}
	return l.classOf(above).leaves(before)
}
