package table

import (
	"bytes"
	"fmt"
	"strings"
)

// A CellError reports what is wrong with a cell, a record or a file, and where.
type CellError struct {
	File         string // as the caller named it
	Line, Column int    // from 1; Column counts cells and is 0 if the error is not about one
	Head         string // of the column; may be empty
	Text         string // the cell as written
	Reason       string // "not a number"
	Accepted     string // "a number in N"
	Doubtful     bool   // the row may be a reading or a footer: Layout.TakeFooter takes it for a reading
}

// Error returns a message such as
//
//	lab.csv:17:3: force "overload": not a number, want a number in N
func (e *CellError) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		if e.File != "" {
			b.WriteByte(':')
		}
		fmt.Fprintf(&b, "%d", e.Line)
		if e.Column > 0 {
			fmt.Fprintf(&b, ":%d", e.Column)
		}
	}
	if b.Len() > 0 {
		b.WriteString(": ")
	}
	b.WriteString(e.Head)
	if e.Head != "" && e.Text != "" {
		b.WriteByte(' ')
	}
	if e.Text != "" {
		b.WriteString(quote(e.Text))
	}
	if e.Head != "" || e.Text != "" {
		b.WriteString(": ")
	}
	b.WriteString(e.Reason)
	if e.Accepted != "" {
		b.WriteString(", want " + e.Accepted)
	}
	return b.String()
}

// quote returns a cell in quotes for a message, shortened if it is long.
func quote(text string) string {
	const most = 60
	if len(text) > most {
		text = strings.ToValidUTF8(text[:most], "\uFFFD") + "…"
	}
	return fmt.Sprintf("%q", text)
}

// Missing reports whether a cell says that there is no value: it is empty, or holds one
// of the usual dashes and points, or a word such as n/a. A reading that could not be
// measured ("overload", "<5") is not missing.
func Missing(cell []byte) bool {
	if len(cell) == 0 {
		return true
	}
	if len(cell) > 5 || isDigit(cell[0]) {
		return false
	}
	switch string(bytes.ToLower(cell)) {
	case "-", "--", "---", "–", "—", ".", "..", "...", "n/a", "na", "n.a.", "n.a", "nil", "null", "nan", "#n/a", "#na", "#nv", "k.a.":
		return true
	}
	return false
}

// Censored reports whether a cell gives a limit instead of a value: "<5", "> 100", "≤
// 0,2".
func Censored(cell []byte) bool {
	rest := cell
	for _, sign := range []string{"<", ">", "≤", "≥"} {
		if after, ok := bytes.CutPrefix(cell, []byte(sign)); ok {
			rest = after
			break
		}
	}
	if len(rest) == len(cell) {
		return false
	}
	return startsNumber(bytes.TrimLeft(bytes.TrimPrefix(rest, []byte("=")), " "))
}

func isDigit(c byte) bool { return c-'0' < 10 }

// startsNumber reports whether a cell begins like a number: an optional sign, then a
// digit or a decimal sign before one.
func startsNumber(cell []byte) bool {
	if len(cell) > 0 && (cell[0] == '+' || cell[0] == '-') {
		cell = cell[1:]
	} else {
		cell = bytes.TrimPrefix(cell, []byte("−"))
	}
	if len(cell) > 1 && (cell[0] == '.' || cell[0] == ',') {
		cell = cell[1:]
	}
	return len(cell) > 0 && isDigit(cell[0])
}

// AppendCSV appends a cell to a line of CSV, quoted if it holds a delimiter, a quote, a
// line end or an outer space. The caller adds delimiters between cells and the line
// end.
func AppendCSV(dst []byte, delimiter byte, cell []byte) []byte {
	if !needsQuotes(cell, delimiter) {
		return append(dst, cell...)
	}
	dst = append(dst, '"')
	for {
		i := bytes.IndexByte(cell, '"')
		if i < 0 {
			break
		}
		dst = append(dst, cell[:i]...)
		dst = append(dst, '"', '"')
		cell = cell[i+1:]
	}
	dst = append(dst, cell...)
	return append(dst, '"')
}

func needsQuotes(cell []byte, delimiter byte) bool {
	for _, c := range cell {
		if c == delimiter || c == '"' || c == '\n' || c == '\r' {
			return true
		}
	}
	return len(trim(cell)) != len(cell)
}
