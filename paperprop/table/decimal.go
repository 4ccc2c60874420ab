package table

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// An AmbiguousError reports a file in which every number with a separator can be read
// in two ways, so that nothing decides which is meant.
type AmbiguousError struct {
	File         string
	Line, Column int    // of the first such cell, from 1
	Text         string // as written: "1.234"
	AsPoint      string // the number if the decimal sign is a point: "1.234"
	AsComma      string // the number if it is a comma: "1234"

	option string // as Options.DecimalName
}

// Error returns a message with the cell, its two readings, and the option that decides.
func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%s%d:%d: %s is %s with a decimal point, or %s with a decimal comma, and no other cell tells which, want %s or %s",
		prefix(e.File), e.Line, e.Column, quote(e.Text), e.AsPoint, e.AsComma, asked(e.option, '.'), asked(e.option, ','))
}

// asked returns how a caller asks for a decimal sign by the name of an option.
func asked(option string, sign byte) string {
	switch {
	case option == "":
		return fmt.Sprintf("Options.Decimal %q", sign)
	case sign == ',':
		return option + " comma"
	}
	return option + " point"
}

// A MixedError reports a file in which one cell has a decimal point and another
// a decimal comma.
type MixedError struct {
	File                   string
	PointLine, PointColumn int    // of the first cell with a decimal point, from 1
	PointText              string // as written: "98.1"
	CommaLine, CommaColumn int    // of the first cell with a decimal comma
	CommaText              string // as written: "121,4"

	option string // as Options.DecimalName
}

// Error returns a message with both cells, the upper one first.
func (e *MixedError) Error() string {
	point := fmt.Sprintf("%d:%d: %s has a decimal point", e.PointLine, e.PointColumn, quote(e.PointText))
	comma := fmt.Sprintf("%d:%d: %s has a decimal comma", e.CommaLine, e.CommaColumn, quote(e.CommaText))
	if (place{line: e.CommaLine, column: e.CommaColumn}).before(place{line: e.PointLine, column: e.PointColumn}) {
		point, comma = comma, point
	}
	return fmt.Sprintf("%s%s, but %s%s, want one decimal sign in a file, or %s where %s is a name or a date, %s where %s is: a row with a number of the other sign is refused",
		prefix(e.File), point, prefix(e.File), comma, asked(e.option, ','), quote(e.PointText), asked(e.option, '.'), quote(e.CommaText))
}

func prefix(file string) string {
	if file == "" {
		return ""
	}
	return file + ":"
}

// A reading is what the separators of one number reveal about the decimal sign.
type reading uint8

const (
	silent      reading = iota // no separator, or no number
	pointProven                // the decimal sign is a point
	commaProven
	pointLikely // 1.234: the point is the decimal sign or separates thousands
	commaLikely // 1,234
	pointQuoted // "1.234", in quotes
)

// evidence holds the first cell of each reading except silent.
type evidence [pointQuoted + 1]place

func (e *evidence) add(r reading, line, column int, cell []byte) {
	if e[r].line == 0 {
		e[r] = place{line, column, string(cell)}
	}
}

// addCell adds a cell of a row to the evidence.
func (e *evidence) addCell(rec *Record, i int) {
	cell := rec.Fields[i]
	for at := firstToken(cell); at >= 0; {
		token := tokenAt(cell, at)
		r := token.read(cell)
		if r == pointLikely && rec.quoted(i) {
			r = pointQuoted
		}
		if r != silent {
			e.add(r, rec.Line, i+1, cell)
		}
		at = tokenFrom(cell, token.next)
	}
}

// Evidence from columns of readings, and from others: a name such as 2.1 and a date such
// as 27.11. say nothing of how readings are written.
type evidences struct {
	hasReadings      []bool // for each column
	readings, others evidence
}

// evidences returns none yet. A column may have readings if it has a unit or an expected
// name; any may if no name is expected, unless units are.
func (l *Layout) evidences(hoped []string, inUnits bool) *evidences {
	e := &evidences{hasReadings: make([]bool, len(l.Columns))}
	for i, c := range l.Columns {
		e.hasReadings[i] = c.Unit != "" || len(hoped) == 0 && !inUnits ||
			slices.Contains(hoped, l.folded[i]) || slices.Contains(hoped, fold(l.heads[i]))
	}
	return e
}

// addRow adds the cells of a row. A cell behind the last column has no reading.
func (e *evidences) addRow(rec *Record) {
	for i := range rec.Fields {
		if i < len(e.hasReadings) && e.hasReadings[i] {
			e.readings.addCell(rec, i)
		} else {
			e.others.addCell(rec, i)
		}
	}
}

// decide sets the decimal sign of the file. Where readings have no separators, other
// columns tell how the file writes numbers; contradictions there matter only if readings
// with separators may follow.
func (e *evidences) decide(l *Layout, whole bool) error {
	if e.readings != (evidence{}) {
		return e.readings.decide(l)
	}
	point, comma := e.others[pointProven].line > 0, e.others[commaProven].line > 0
	if point != comma || !whole {
		return e.others.decide(l)
	}
	return nil
}

// decide sets the decimal sign of the file, or refuses the file if its cells are
// ambiguous or contradict each other. If commas separate the cells, a point that could
// separate thousands is taken for the decimal sign, since a comma within a number would
// need quotes. A quoted number with a comma brings the doubt back, and so it stays if
// all such numbers are quoted.
func (e *evidence) decide(l *Layout) error {
	point, comma := e[pointProven], e[commaProven]
	switch {
	case point.line > 0 && comma.line > 0:
		return &MixedError{File: l.Name, option: l.decimalName,
			PointLine: point.line, PointColumn: point.column, PointText: point.text,
			CommaLine: comma.line, CommaColumn: comma.column, CommaText: comma.text}
	case point.line > 0:
		l.setDecimal('.')
		l.proof = point
		return nil
	case comma.line > 0:
		l.setDecimal(',')
		l.proof = comma
		return nil
	}
	either := e[pointLikely]
	if l.Delimiter == ',' && either.line > 0 && e[commaLikely].line == 0 {
		l.setDecimal('.')
		l.proof = either
		return nil
	}
	for _, other := range [...]place{e[commaLikely], e[pointQuoted]} {
		if either.line == 0 || other.line > 0 && other.before(either) {
			either = other
		}
	}
	if either.line == 0 {
		return nil
	}
	return &AmbiguousError{File: l.Name, Line: either.line, Column: either.column, Text: either.text,
		AsPoint: readAs(either.text, '.'), AsComma: readAs(either.text, ','), option: l.decimalName}
}

func (l *Layout) setDecimal(sign byte) { l.Decimal, l.Thousands = sign, otherSign(sign) }

func otherSign(sign byte) byte { return '.' + ',' - sign }

// readAs returns a cell as it reads if sign is its decimal sign.
func readAs(text string, sign byte) string {
	other := string(otherSign(sign))
	return strings.ReplaceAll(strings.ReplaceAll(text, other, ""), string(sign), ".")
}

// firstToken returns the index of the number that begins a cell, after an optional
// sign, bracket or limit; -1 if the cell does not begin with one.
func firstToken(cell []byte) int {
	if len(cell) > 0 && isDigit(cell[0]) {
		return 0
	}
	rest := bytes.TrimLeft(cell, "<>=≤≥~±+-−[( ")
	at := len(cell) - len(rest)
	if len(rest) > 1 && isSeparator(rest[0]) && isDigit(rest[1]) || len(rest) > 0 && isDigit(rest[0]) {
		return at
	}
	return -1
}

// A token is a run of digits and separators in a cell.
type token struct {
	start, end int // a separator after the last digit is punctuation, not part of the number
	next       int // index after such separators
	separators int // number of separators within
	last       int // index of the last of them
}

func tokenAt(cell []byte, at int) token {
	t := token{start: at, next: at, last: at}
	for ; t.next < len(cell); t.next++ {
		if c := cell[t.next]; isSeparator(c) {
			t.separators++
			t.last = t.next
		} else if !isDigit(c) {
			break
		}
	}
	t.end = t.next
	for t.end > t.start && isSeparator(cell[t.end-1]) {
		t.end--
		t.separators--
	}
	if t.end < t.next {
		t.last = t.start + max(0, bytes.LastIndexAny(cell[t.start:t.end], ".,"))
	}
	return t
}

func isSeparator(c byte) bool { return c == '.' || c == ',' }

// tokenFrom returns the index at which the next digits and separators begin; -1 if
// there are none.
func tokenFrom(cell []byte, at int) int {
	for ; at < len(cell); at++ {
		if isDigit(cell[at]) || isSeparator(cell[at]) {
			return at
		}
	}
	return -1
}

// read returns what the separators of a token mean. Part of a date, a time or a
// quotient means nothing.
func (t token) read(cell []byte) reading {
	if t.separators == 0 || t.partOfDate(cell) {
		return silent
	}
	sign, number := cell[t.last], cell[t.start:t.end]
	exponent := exponentAt(cell, t.end)
	if t.separators == 1 {
		switch decimals := t.end - t.last - 1; {
		case decimals != 3 || exponent || !grouped(number, sign, 0):
			return proven(sign)
		case sign == '.':
			return pointLikely
		}
		return commaLikely
	}
	switch {
	case exponent:
		return silent
	case grouped(number, sign, 0): // 1,234,567
		return proven(otherSign(sign))
	case grouped(number, otherSign(sign), sign): // 1,234.5
		return proven(sign)
	}
	return silent
}

func proven(sign byte) reading {
	if sign == '.' {
		return pointProven
	}
	return commaProven
}

// partOfDate reports whether a colon, a slash or a hyphen joins the token to other
// digits, as in 14:05:33.120 or 3.5-4.5.
func (t token) partOfDate(cell []byte) bool {
	if i := t.start - 1; i > 0 && isDigit(cell[i-1]) && joins(cell[i]) {
		return true
	}
	i := t.end
	return i+1 < len(cell) && joins(cell[i]) && isDigit(cell[i+1])
}

func joins(c byte) bool { return c == ':' || c == '/' || c == '-' }

// exponentAt reports whether there is an exponent at index i. A number with an exponent
// has no thousands separators.
func exponentAt(cell []byte, i int) bool {
	if i+1 >= len(cell) || cell[i]|0x20 != 'e' {
		return false
	}
	if sign := cell[i+1]; sign == '+' || sign == '-' {
		i++
	}
	return i+1 < len(cell) && isDigit(cell[i+1])
}

// grouped reports whether separator groups a number in thousands: one to three digits,
// not beginning with 0, then groups of exactly three, then perhaps sign and decimals.
func grouped(number []byte, separator, sign byte) bool {
	if sign != 0 {
		if i := bytes.IndexByte(number, sign); i >= 0 {
			if bytes.IndexByte(number[i+1:], separator) >= 0 || bytes.IndexByte(number[i+1:], sign) >= 0 {
				return false
			}
			number = number[:i]
		}
	}
	first, rest, found := bytes.Cut(number, []byte{separator})
	if !found || len(first) == 0 || len(first) > 3 || first[0] == '0' || !allDigits(first) {
		return false
	}
	for found {
		var group []byte
		group, rest, found = bytes.Cut(rest, []byte{separator})
		if len(group) != 3 || !allDigits(group) {
			return false
		}
	}
	return true
}

func allDigits(text []byte) bool {
	for _, c := range text {
		if !isDigit(c) {
			return false
		}
	}
	return true
}

// Number returns a cell without its thousands separators, for a parser that knows the
// file's decimal sign, which stays as it is. A cell whose separators do not stand
// before groups of three digits is returned unchanged, for that parser to refuse.
// Number writes to scratch, and only if there is a separator to remove.
//
// While Layout.Decimal is 0 the parser must refuse both point and comma; such rows are
// already of class Bad.
func (l *Layout) Number(cell, scratch []byte) []byte {
	if l.Thousands == 0 || bytes.IndexByte(cell, l.Thousands) < 0 {
		return cell
	}
	out := scratch[:0]
	done := 0
	for at := tokenFrom(cell, 0); at >= 0; {
		t := tokenAt(cell, at)
		at = tokenFrom(cell, t.next)
		number := cell[t.start:t.end]
		if bytes.IndexByte(number, l.Thousands) < 0 {
			continue
		}
		if !grouped(number, l.Thousands, l.Decimal) || exponentAt(cell, t.end) || t.partOfDate(cell) {
			return cell
		}
		out = append(out, cell[done:t.start]...)
		for _, c := range number {
			if c != l.Thousands {
				out = append(out, c)
			}
		}
		done = t.end
	}
	return append(out, cell[done:]...)
}

// firstSeparator refuses a row with the file's first separator if it comes too late to
// decide the decimal sign.
func (l *Layout) firstSeparator(rec *Record) *CellError {
	var found evidence
	for i := range rec.Fields {
		found.addCell(rec, i)
	}
	for _, p := range found {
		if p.line > 0 {
			return &CellError{Column: p.column, Head: l.head(p.column - 1), Text: p.text,
				Reason:   "a separator, where the first MiB of the file has none to tell the decimal sign by",
				Accepted: "whole numbers, or " + asked(l.decimalName, '.') + " or " + asked(l.decimalName, ',')}
		}
	}
	return nil
}

// Single returns the text of a cell that holds one number, without thousands
// separators.
func (l *Layout) Single(cell []byte) []byte {
	text := l.Number(cell, nil)
	if parted := Ungrouped(text, decimalOf(l)); parted != nil {
		return parted
	}
	return text
}

// Ungrouped returns a number whose thousands are separated by blanks or apostrophes, "1
// 234,5" or "1'234.5", without the separators; nil if the cell is not such a number.
func Ungrouped(cell []byte, decimal byte) []byte {
	text := strings.NewReplacer("\u00A0", " ", "\u202F", " ", "\u2009", " ", "\u2019", "'").Replace(string(cell))
	at := strings.IndexAny(text, " '")
	if at < 1 {
		return nil
	}
	sign := text[at : at+1]
	whole, fraction, _ := strings.Cut(text, string(rune(decimal)))
	digits := strings.Split(strings.TrimPrefix(strings.TrimPrefix(whole, "-"), "−"), sign)
	for i, group := range digits {
		if strings.Trim(group, "0123456789") != "" || len(group) > 3 || group == "" || i > 0 && len(group) != 3 {
			return nil
		}
	}
	if strings.Trim(fraction, "0123456789") != "" {
		return nil
	}
	return []byte(strings.ReplaceAll(text, sign, ""))
}

// UngroupedValue is [Ungrouped] for a number that a unit or an uncertainty may follow:
// "1 234,5 mm" becomes "1234,5 mm".
func UngroupedValue(cell []byte, decimal byte) []byte {
	behind := strings.TrimLeft(string(cell), "-−0123456789 '\u00A0\u202F\u2009\u2019"+string(rune(decimal)))
	number := bytes.TrimRight(cell[:len(cell)-len(behind)], " \u00A0\u202F\u2009")
	behind = string(cell[len(number):])
	if behind != "" && strings.ContainsRune(".,;:/-−'[", []rune(behind)[0]) || exponentAt(cell, len(number)) {
		return nil // several numbers, or one without thousands
	}
	if parted := Ungrouped(number, decimal); parted != nil {
		return append(parted, behind...)
	}
	return nil
}
