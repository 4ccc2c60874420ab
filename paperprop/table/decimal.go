package table

import (
	"bytes"
	"fmt"
	"strings"
)

// An AmbiguousError reports a file in which every number with a separator can
// be read in two ways, so that nothing says which is meant.
type AmbiguousError struct {
	File         string
	Line, Column int    // of the first such cell, from 1
	Text         string // as written: "1.234"
	AsPoint      string // the number if the decimal sign is a point: "1.234"
	AsComma      string // the number if it is a comma: "1234"
}

// Error shows the cell, read both ways, and the option that decides.
func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%s%d:%d: %s is %s with a decimal point, or %s with a decimal comma, and no other cell tells which, want --decimal point or --decimal comma",
		prefix(e.File), e.Line, e.Column, quote(e.Text), e.AsPoint, e.AsComma)
}

// A MixedError reports a file in which one cell has a decimal point and another
// a decimal comma.
type MixedError struct {
	File                   string
	PointLine, PointColumn int    // of the first cell with a decimal point, from 1
	PointText              string // as written: "98.1"
	CommaLine, CommaColumn int    // of the first cell with a decimal comma
	CommaText              string // as written: "121,4"
}

// Error shows both cells, the upper one first.
func (e *MixedError) Error() string {
	point := fmt.Sprintf("%d:%d: %s has a decimal point", e.PointLine, e.PointColumn, quote(e.PointText))
	comma := fmt.Sprintf("%d:%d: %s has a decimal comma", e.CommaLine, e.CommaColumn, quote(e.CommaText))
	if (place{line: e.CommaLine, column: e.CommaColumn}).before(place{line: e.PointLine, column: e.PointColumn}) {
		point, comma = comma, point
	}
	return fmt.Sprintf("%s%s, but %s%s, want one decimal sign in a file, or --decimal comma where %s is a name or a date, --decimal point where %s is: a row with a number of the other sign is refused",
		prefix(e.File), point, prefix(e.File), comma, quote(e.PointText), quote(e.CommaText))
}

func prefix(file string) string {
	if file == "" {
		return ""
	}
	return file + ":"
}

// reading is what the separators of one number say of the decimal sign.
type reading uint8

const (
	silent      reading = iota // no separator, or no number
	pointProven                // the decimal sign is a point
	commaProven
	pointLikely // 1.234: a point is the decimal sign or parts thousands
	commaLikely // 1,234
	pointQuoted // "1.234", in quotes
)

// evidence collects the first cell of each reading but silent.
type evidence [pointQuoted + 1]place

func (e *evidence) add(r reading, line, column int, cell []byte) {
	if e[r].line == 0 {
		e[r] = place{line, column, string(cell)}
	}
}

// addRow looks at the cells of a row.
func (e *evidence) addRow(rec *Record) {
	for i, cell := range rec.Fields {
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
}

// decide sets the decimal sign of the file, or refuses where its cells allow
// two readings, or contradict each other. Where commas part the cells, a point
// that could part thousands is taken for the decimal sign, as a comma in a
// number needs quotes there; a quoted comma brings the doubt back, and it stays
// where all such numbers have quotes anyway.
func (e *evidence) decide(l *Layout) error {
	point, comma := e[pointProven], e[commaProven]
	switch {
	case point.line > 0 && comma.line > 0:
		return &MixedError{File: l.Name,
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
		AsPoint: readAs(either.text, '.'), AsComma: readAs(either.text, ',')}
}

func (l *Layout) setDecimal(sign byte) { l.Decimal, l.Thousands = sign, otherSign(sign) }

func otherSign(sign byte) byte { return '.' + ',' - sign }

// readAs writes the numbers of a cell as they are if sign is its decimal sign.
func readAs(text string, sign byte) string {
	other := string(otherSign(sign))
	return strings.ReplaceAll(strings.ReplaceAll(text, other, ""), string(sign), ".")
}

// firstToken returns where the first number of a cell begins, -1 if the cell
// does not begin with one (behind a sign, a bracket or a limit).
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
	start, end int // a separator behind the last digit belongs to the sentence, not to the number
	next       int // behind such separators
	separators int // within the number
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

// tokenFrom returns where the next digits and separators begin, -1 if none.
func tokenFrom(cell []byte, at int) int {
	for ; at < len(cell); at++ {
		if isDigit(cell[at]) || isSeparator(cell[at]) {
			return at
		}
	}
	return -1
}

// read says what the separators of a token mean. A part of a date, a time or a
// quotient says nothing.
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

// partOfDate tells whether a colon, a slash or a hyphen joins the token to
// other digits, as in 14:05:33.120 or 3.5-4.5.
func (t token) partOfDate(cell []byte) bool {
	if i := t.start - 1; i > 0 && isDigit(cell[i-1]) && joins(cell[i]) {
		return true
	}
	i := t.end
	return i+1 < len(cell) && joins(cell[i]) && isDigit(cell[i+1])
}

func joins(c byte) bool { return c == ':' || c == '/' || c == '-' }

// exponentAt tells whether an exponent stands at i. A number with one has no
// thousands.
func exponentAt(cell []byte, i int) bool {
	if i+1 >= len(cell) || cell[i]|0x20 != 'e' {
		return false
	}
	if sign := cell[i+1]; sign == '+' || sign == '-' {
		i++
	}
	return i+1 < len(cell) && isDigit(cell[i+1])
}

// grouped tells whether separator parts a number into thousands: one to three
// digits, not beginning with 0, then groups of exactly three; behind the sign,
// if it is there, come decimals.
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

// Number returns a cell without the separators of its thousands, ready for a
// parser that knows the decimal sign of the file, which stays as it is. Where
// a separator does not stand before groups of three digits, the cell is
// returned as it is, for that parser to refuse. It writes into scratch, and
// only where there is something to take away.
//
// While Layout.Decimal is 0 the parser must refuse a point and a comma alike;
// such rows are of class Bad already.
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

// firstSeparator refuses a row with the file's first separator where that came
// too late to decide by.
func (l *Layout) firstSeparator(rec *Record) *CellError {
	var found evidence
	found.addRow(rec)
	for _, p := range found {
		if p.line > 0 {
			return &CellError{Column: p.column, Head: l.head(p.column - 1), Text: p.text,
				Reason:   "a separator, where the first MiB of the file has none to tell the decimal sign by",
				Accepted: "whole numbers, or --decimal point or --decimal comma"}
		}
	}
	return nil
}

// Single is the text of a cell that holds one number, without what parts its thousands.
func (l *Layout) Single(cell []byte) []byte {
	text := l.Number(cell, nil)
	if parted := Ungrouped(text, decimalOf(l)); parted != nil {
		return parted
	}
	return text
}

// Ungrouped is a number whose thousands blanks or apostrophes part, "1 234,5" or
// "1'234.5", without them; nil where the cell is none.
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

// UngroupedValue is Ungrouped where a unit or an uncertainty may stand behind the number:
// "1 234,5 mm" is "1234,5 mm".
func UngroupedValue(cell []byte, decimal byte) []byte {
	behind := strings.TrimLeft(string(cell), "-−0123456789 '\u00A0\u202F\u2009\u2019"+string(rune(decimal)))
	number := bytes.TrimRight(cell[:len(cell)-len(behind)], " \u00A0\u202F\u2009")
	behind = string(cell[len(number):])
	if behind != "" && strings.ContainsRune(".,;:/-−'[", []rune(behind)[0]) || exponentAt(cell, len(number)) {
		return nil // one of several numbers, or a number that has no thousands
	}
	if parted := Ungrouped(number, decimal); parted != nil {
		return append(parted, behind...)
	}
	return nil
}
