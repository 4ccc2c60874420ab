package table

import (
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

// Layout is what was understood of a file.
type Layout struct {
	Name      string // of the file
	Encoding  string // see Options
	Mark      bool   // the text begins with a byte order mark
	Delimiter byte   // 0: one column, nothing to part
	Decimal   byte   // 0: no separator seen yet, so one that comes later is refused
	Thousands byte   // the other of point and comma; 0 while Decimal is
	Preamble  int    // lines above the heads, which are not read
	HeadLine  int    // the line of the heads
	UnitLine  int    // the line of the units, 0 if there is none
	Columns   []Column

	isUnit      func(string) bool
	ownUnits    bool      // isUnit is the caller's
	assumed     bool      // the encoding is a guess
	proof       place     // what decided the decimal sign
	given       bool      // the decimal sign was given, not found
	undecided   bool      // no separator in the sample, and the file goes on
	heads       []string  // as written, in the order of Columns
	folded      []string  // names of Columns, for Find
	longest     int       // of heads
	units       []string  // the row of units as written
	fewest      int       // cells that a row must have
	numbered    []int     // columns of numbers, in which a footer may have its name
	numberHeads bool      // a head begins with a digit
	headStarts  [256]bool // bytes with which a head begins, in both cases
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

// NewLayout is the layout of a table that a program brings itself, cell by
// cell: no file, a point as the decimal sign, commas where it is written. It keeps a
// copy of the columns.
func NewLayout(name string, columns []Column) *Layout {
	l := &Layout{Name: name, Encoding: utf8Name, Delimiter: ',', Columns: slices.Clone(columns), isUnit: isUnit}
	for _, c := range columns {
		l.heads, l.folded = append(l.heads, c.Head), append(l.folded, fold(c.Head))
	}
	l.setDecimal('.')
	l.given = true
	return l
}

// Find returns the index of the column with that name, from 0. Case does not
// matter, and '-', '_' and a space are alike. A head as it is written, with its
// unit, is a name too. It is not ok where no column has the name or several have:
// see FindAll.
func (l *Layout) Find(name string) (column int, ok bool) {
	all := l.FindAll(name)
	if len(all) != 1 {
		return 0, false
	}
	return all[0], true
}

// FindAll returns the indexes of all columns with that name, in order; where none has
// it, of those whose head is written so, with its unit: "mass before / g".
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

// fold writes a name in the way in which names are compared.
func fold(name string) string {
	name = strings.Map(func(c rune) rune {
		if c == '-' || c == '_' || c == '\u00A0' {
			return ' '
		}
		return c
	}, strings.ToLower(name))
	return strings.Join(strings.Fields(name), " ")
}

// Notes says in plain sentences what was understood, with line numbers.
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

// Reading is Notes without the columns: how the file is written.
func (l *Layout) Reading() []string {
	notes := []string{"encoding: " + l.encodingNote(), "delimiter: " + delimiterTitle(l.Delimiter), "decimal sign: " + l.decimalNote()}
	switch {
	case l.Preamble == 1:
		notes = append(notes, "line 1: preamble, not read")
	case l.Preamble > 1:
		notes = append(notes, fmt.Sprintf("lines 1 to %d: preamble, not read", l.Preamble))
	}
	if l.HeadLine == 0 { // a program brings the rows
		return notes
	}
	heads := fmt.Sprintf("line %d: heads", l.HeadLine)
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

// fileError is an error about the file as a whole.
func (l *Layout) fileError(reason, accepted string) *CellError {
	return &CellError{File: l.Name, Reason: reason, Accepted: accepted}
}

// errorf is an error with the name of the file, where there is one, before it.
func (l *Layout) errorf(format string, args ...any) error {
	err := fmt.Errorf(format, args...)
	if l.Name == "" {
		return err
	}
	return fmt.Errorf("%s: %w", l.Name, err)
}

// setHeads takes the cells of the line of heads, as many as there are columns. One of
// the whole that has a unit of another sort there is parted from none: U/min is in 1/min.
func (l *Layout) setHeads(cells []string, whole []Column) {
	l.heads = cells
	for _, cell := range cells {
		column := l.column(cell)
		if slices.ContainsFunc(whole, func(w Column) bool { return w.Head == fold(cell) && !sameSort(w.Unit, column.Unit) }) {
			column = Column{Head: cell}
		}
		l.Columns = append(l.Columns, column)
		l.folded = append(l.folded, fold(column.Head))
		l.longest = max(l.longest, len(cell))
		if cell == "" {
			continue
		}
		l.headStarts[cell[0]], l.headStarts[cell[0]^0x20] = true, true
		if isDigit(cell[0]) {
			l.numberHeads = true
		}
	}
}

// column parts a head from the unit behind it. What stands in square brackets is
// always meant as a unit, elsewhere only if it is one: "force (N)" but "grammage
// (conditioned)". A slash may be part of a unit too: "force/N" but "kg/t" and "dose kg/t".
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

// A parting is one way in which a head may be a name and a unit behind it.
type parting struct {
	Column
	sign string // before the unit
}

// inUnit tells whether the slash is part of a unit that stands behind a name, as in
// "Grammage g/m2" and "Flow gal/min". A last word alone says nothing: "dew-point/°C",
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

// What stands before a unit: "force / N" and "force/N" as ISO 80000-1 writes a quantity
// over its unit, "force, N", and "force in N".
const (
	square      = "["
	round       = "("
	comma       = ","
	wideSlash   = " / "
	preposition = " in "
	slash       = "/"
)

// partings lists them, the likeliest first. Of slashes without blanks that is the first,
// for a unit may have one itself: "flow/t/h". One before brackets is no part of a name:
// "grammage/(g/m2)".
func partings(head string) (all []parting) {
	for _, brackets := range [...][2]string{{square, "]"}, {round, ")"}} {
		if name, unit, ok := bracketed(head, brackets[0], brackets[1]); ok {
			sign := brackets[0]
			if over := strings.TrimRight(name, "/ "); over != name && over != "" {
				name = over
				if sign == round {
					sign = slash
				}
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

// saysWhich tells whether a unit behind a comma is rather a word: "consistency, in" is
// not in inches, "time, min" may be the shortest, and F and W are sides of a sheet.
func saysWhich(unit string) bool {
	switch strings.TrimSpace(unit) {
	case "in", "min", "second", "sheet", "sheets", "day", "A", "C", "F", "L", "M", "W":
		return true
	}
	return false
}

// longestHead is how long a name with a unit may be that is looked for in a cell.
const longestHead = 200

// bracketed parts "force [N]" into its name and what stands in the brackets.
func bracketed(head, open, shut string) (name, inside string, ok bool) {
	rest, ok := strings.CutSuffix(head, shut)
	if !ok {
		return "", "", false
	}
	name, inside, ok = cutLast(rest, open)
	name, inside = strings.TrimSpace(name), strings.TrimSpace(inside)
	return name, inside, ok && name != "" && inside != ""
}

// cutLast parts s at the last open bracket that closes at its end, so that
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

// setUnits takes the row of units that stands under the heads.
func (l *Layout) setUnits(line int, fields [][]byte) error {
	l.UnitLine = line
	l.units = make([]string, len(l.Columns))
	for i := range l.Columns {
		if i >= len(fields) || Missing(fields[i]) {
			continue
		}
		l.units[i] = string(fields[i])
		unit := unbracket(l.units[i])
		column := &l.Columns[i]
		switch {
		case column.Unit == "":
			column.Unit = unit
		case !SameUnit(column.Unit, unit):
			return &CellError{File: l.Name, Line: line, Column: i + 1, Head: column.Head, Text: l.units[i],
				Reason: fmt.Sprintf("another unit than [%s] in the head", column.Unit), Accepted: "one unit for a column"}
		}
	}
	return nil
}

// unbracket takes away the brackets in which some write their units.
func unbracket(text string) string {
	n := len(text)
	if n > 2 && (text[0] == '[' && text[n-1] == ']' || text[0] == '(' && text[n-1] == ')') {
		return strings.TrimSpace(text[1 : n-1])
	}
	return text
}

// unitRow tells whether every cell is a unit or empty, and one at least is a
// unit.
func (l *Layout) unitRow(fields [][]byte) bool {
	found := false
	const longest = 40
	for _, cell := range fields {
		if Missing(cell) {
			continue
		}
		if len(cell) > longest || !l.isUnit(unbracket(string(cell))) {
			return false
		}
		found = true
	}
	return found
}

// sameUnits tells whether a row is the row of units once more.
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

// sameHeads tells whether a row is the line of heads once more.
func (l *Layout) sameHeads(fields [][]byte) bool {
	if string(fields[0]) != l.heads[0] {
		return false
	}
	for i := range max(len(fields), len(l.heads)) {
		var cell []byte
		if i < len(fields) {
			cell = fields[i]
		}
		if i < len(l.heads) && string(cell) != l.heads[i] || i >= len(l.heads) && len(cell) > 0 {
			return false
		}
	}
	return true
}

// otherHeads tells whether a row is heads, but not the ones of this file: its
// first cell stands under its own name, or half of its cells are names of
// columns.
func (l *Layout) otherHeads(fields [][]byte) bool {
	filled, names := 0, 0
	for i, cell := range fields {
		if len(cell) == 0 {
			continue
		}
		filled++
		if l.headStarts[cell[0]] && l.isHead(cell) {
			names++
			if i == 0 && fold(l.column(string(cell)).Head) == l.folded[0] {
				return true
			}
		}
	}
	return names >= 2 && 2*names >= filled
}

// isHead tells whether a cell is the name of a column, with or without a unit.
// Whether brackets hold a unit, which takes long to find out, is asked only
// where the name before them is one.
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

// headsAgain tells whether a raw record is the line of heads once more.
func (l *Layout) headsAgain(raw []byte) bool {
	var rec Record
	rec.parse(raw, l.Delimiter)
	return rec.after == nil && l.sameHeads(rec.Fields)
}
