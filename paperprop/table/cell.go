package table

import (
	"bytes"
	"fmt"
	"strings"
)

// A CellError tells what is wrong with a cell, a record or a file, and where.
type CellError struct {
	File         string // as the caller named it
	Line, Column int    // from 1; Column counts cells, 0 where none is meant
	Head         string // of the column, "" where none is meant
	Text         string // the cell as written
	Reason       string // "not a number"
	Accepted     string // "a number in N"
}

// Error returns a line such as
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

// quote shows a cell in a message, cut short where it is long.
func quote(text string) string {
	const most = 60
	if len(text) > most {
		text = strings.ToValidUTF8(text[:most], "\uFFFD") + "…"
	}
	return fmt.Sprintf("%q", text)
}

// Missing tells whether a cell says that there is no value: nothing at all,
// one of the dashes or points people put there, or a word such as n/a. What
// could not be measured ("overload", "<5") is not missing.
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

// Censored tells whether a cell gives a limit in place of a value: "<5",
// "> 100", "≤ 0,2".
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

// startsNumber tells whether a cell begins like a number: a sign or none, a
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

// isFooterWord knows the names under which instruments and spreadsheets write
// what they computed themselves, without spaces, points and hyphens.
func isFooterWord(key []byte) bool {
	switch string(key) {
	case "mean", "meanvalue", "average", "avg", "ave",
		"sd", "std", "stdev", "stddev", "standarddeviation",
		"cv", "cov", "rsd", "coefficientofvariation", "variance", "se", "sem",
		"min", "minimum", "max", "maximum", "median", "range",
		"count", "total", "subtotal", "grandtotal", "sum":
		return true
	case "mittelwert", "mittel", "mw", "durchschnitt", "standardabweichung",
		"stdabw", "stabw", "variationskoeffizient", "vk", "varianz", "zentralwert",
		"spannweite", "anzahl", "summe", "gesamt", "gesamtsumme", "zwischensumme":
		return true
	case "moyenne", "moy", "écarttype", "ecarttype", "coefficientdevariation",
		"médiane", "mediane", "mini", "maxi", "étendue", "etendue",
		"nombre", "somme", "soustotal":
		return true
	case "media", "promedio", "desviaciónestándar", "desviacionestandar", "desvest",
		"coeficientedevariación", "coeficientedevariacion", "mínimo", "minimo",
		"máximo", "maximo", "mediana", "rango", "recuento", "suma":
		return true
	case "coeffofvariation", "coeffvar", "varkoeff", "variationskoeff", "standardabw", "anz",
		"medelvärde", "standardavvikelse", "średnia", "srednia", "keskiarvo":
		return true
	case "averagevalue", "medianvalue", "minvalue", "maxvalue", "minimumvalue", "maximumvalue",
		"standarddev", "stddeviation", "standarderror", "stderror", "xbar",
		"numberoftests", "numberofsamples", "numberofspecimens", "numberofvalues":
		return true
	case "x̄", "ø", "σ":
		return true
	}
	return false
}

// isFooter tells whether a record that begins with this cell is the writer's own summary:
// Mean, and Mean MD.
func isFooter(cell []byte) bool { return isFooterName(cell) || beginsFooter(cell) }

// beginsFooter tells whether the first word of several is one that nothing but a summary
// bears.
func beginsFooter(cell []byte) bool {
	const longest = 20
	word, _, more := bytes.Cut(cell[:min(len(cell), longest)], []byte{' '})
	if !more {
		return false
	}
	switch string(bytes.ToLower(bytes.TrimRight(word, ".,:"))) {
	case "mean", "average", "avg", "median", "stdev", "stddev",
		"mittelwert", "durchschnitt", "standardabweichung", "stdabw", "zentralwert",
		"moyenne", "écart-type", "médiane", "promedio", "medelvärde", "keskiarvo":
		return true
	}
	return false
}

// isFooterName tells whether a cell is the name of a summary. What follows a bracket, a
// colon or an equals sign is left out of the comparison, and points, commas, hyphens and
// spaces too. A single letter counts in lower case alone: specimens and sides of the
// sheet are called S and N.
func isFooterName(cell []byte) bool {
	const longest = 40
	var room [longest]byte
	key := room[:0]
	ascii := true
letters:
	for _, c := range cell {
		switch {
		case isDigit(c) || len(key) == longest:
			return false
		case c >= 0x80:
			ascii = false
		}
		if len(key) > 0 && (c == '(' || c == '[' || c == '=' || c == ':') {
			break letters
		}
		if c != ' ' && c != '.' && c != ',' && c != '-' && c != '_' && c != '%' {
			key = append(key, c)
		}
	}
	if len(key) == 1 {
		return key[0] == 's' || key[0] == 'n'
	}
	if !ascii {
		return isFooterWord(bytes.ToLower(key))
	}
	for i, c := range key {
		if 'A' <= c && c <= 'Z' {
			key[i] |= 0x20
		}
	}
	return isFooterWord(key)
}

// AppendCSV appends a cell to a line of CSV, in quotes where it needs them: a
// delimiter, a quote, a line end or an outer space in it. Delimiters between
// cells and the line end are the caller's.
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
