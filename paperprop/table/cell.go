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

// isFooterWord knows the names that instruments and spreadsheets give to statistics
// they compute, without spaces, points and hyphens.
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
		"stdabweichung", "streuung", "kleinstwert", "größtwert", "minimalwert", "maximalwert",
		"stichprobenumfang", "arithmmittel", "arithmetischesmittel", "mittelw", "minwert", "maxwert", "relstd", "var",
		"coeffdevariation", "coefvar", "coefvariation", "valeurmoyenne", "nbmesures", "nbre", "effectif", "nombred'essais",
		"aver", "coeffofvar", "lowest", "highest", "number", "nooftests", "noofsamples", "noofspecimens":
		return true
	case "medelvärde", "medel", "medelv", "medeltal", "standardavvikelse", "stdavvikelse", "stdavv", "stdav", "stdavvik", "stdafv", "variationskoefficient", "antal", "minsta", "största", "summa",
		"gjennomsnitt", "snitt", "middelverdi", "middel", "middelv", "spredning", "standardavvik", "variasjonskoeffisient", "antall", "minste", "største",
		"gennemsnit", "middelværdi", "standardafvigelse", "mindste", "maks", "mediaani",
		"keskiarvo", "keskim", "keskihajonta", "hajonta", "variaatiokerroin", "varkerroin", "lkm", "minimi", "maksimi", "lukumäärä", "yhteensä":
		return true
	case "média", "desviopadrão", "desviopadrao", "coeficientedevariação", "coefdevariação", "contagem", "soma",
		"deviazionestandard", "devstandard", "scartotipo", "coefficientedivariazione", "massimo", "numero", "número", "conteggio", "somma", "totale",
		"coefdevariación", "desvestándar", "desvestandar", "desvstd", "desvtípica", "desviacióntípica", "prom", "valormedio", "mín", "máx",
		"devstd", "devst", "scartoquadraticomedio", "valoremedio", "mediaaritm":
		return true
	case "gemiddelde", "standaardafwijking", "standaarddeviatie", "variatiecoëfficiënt", "variatiecoefficient", "aantal", "totaal",
		"średnia", "srednia", "odchyleniestandardowe", "odchstd", "współczynnikzmienności", "maksimum", "liczba", "rozstęp",
		"průměr", "směrodatnáodchylka", "variačníkoeficient", "počet", "medián":
		return true
	case "œrednia", "wspó³czynnikzmiennoœci", "rozstêp", "prùmìr", "smìrodatnáodchylka", "poèet": // windows-1250 read as windows-1252
		return true
	case "averagevalue", "medianvalue", "minvalue", "maxvalue", "minimumvalue", "maximumvalue",
		"standarddev", "stddeviation", "standarderror", "stderror", "xbar",
		"numberoftests", "numberofsamples", "numberofspecimens", "numberofvalues":
		return true
	case "ci", "confidenceinterval", "vertrauensbereich", "konfidenzintervall",
		"ucl", "lcl", "usl", "lsl", "uppercontrollimit", "lowercontrollimit",
		"spec", "specification", "target", "upperlimit", "lowerlimit", "tolerance",
		"sollwert", "soll", "zielwert", "toleranz", "tol", "untergrenze", "obergrenze", "grenzwert", "nennwert", "spez", "spezifikation":
		return true
	case "x̄", "x̅", "ø", "σ", "μ", "µ", "±s":
		return true
	}
	return false
}

// isFooter reports whether a record that begins with this cell is a summary by the
// file's writer: Mean, Mean MD or MD mean.
func isFooter(cell []byte) bool { return isFooterName(cell) || hasMean(cell) }

// hasMean reports whether the first or last of several words is one that only a summary
// has.
func hasMean(cell []byte) bool {
	if len(cell) > longestLabel {
		return false
	}
	first, last := bytes.IndexByte(cell, ' '), bytes.LastIndexByte(cell, ' ')
	return first > 0 && (isMeanWord(cell[:first]) || isMeanWord(cell[last+1:]))
}

// namesMean reports whether a cell has such a word, or is one: not s or max, which may be
// a side of the sheet and a person.
func namesMean(cell []byte) bool {
	switch string(bytes.ToLower(bytes.TrimRight(cell, ".,:"))) {
	case "media", "média": // which may begin a name: Media 5
		return true
	}
	return isMeanWord(cell) || hasMean(cell)
}

const longestLabel = 60

func isMeanWord(word []byte) bool {
	const longest = 20
	word = bytes.TrimRight(word, ".,:")
	if len(word) > longest {
		return false
	}
	var room [longest]byte
	key := room[:0]
	for _, c := range word {
		if c >= 0x80 {
			key = bytes.ToLower(word)
			break
		}
		if 'A' <= c && c <= 'Z' {
			c |= 0x20
		}
		key = append(key, c)
	}
	switch string(key) {
	case "mean", "average", "avg", "median", "stdev", "stddev",
		"mittelwert", "durchschnitt", "standardabweichung", "stdabw", "zentralwert",
		"moyenne", "écart-type", "médiane", "promedio", "medelvärde", "keskiarvo",
		"gjennomsnitt", "gennemsnit", "gemiddelde", "średnia", "œrednia", "průměr", "prùmìr":
		return true
	}
	return false
}

// namesInterval reports whether a cell that begins with a number names an interval of
// confidence: "95% CI", "95 % confidence". Of most such cells the last letter says no.
func namesInterval(cell []byte) bool {
	if last := cell[len(cell)-1] | 0x20; last < 'a' || last > 'z' {
		return false
	}
	level, name, ok := bytes.Cut(cell, []byte{'%'})
	name = bytes.ToLower(bytes.TrimLeft(name, " "))
	return ok && len(level) <= 6 && (string(name) == "ci" || bytes.HasPrefix(name, []byte("ci ")) ||
		bytes.HasPrefix(name, []byte("conf")) || bytes.HasPrefix(name, []byte("vertrauens")) || bytes.HasPrefix(name, []byte("konfidenz")))
}

// isFooterName reports whether a cell is the name of a summary. The comparison ignores
// everything after a bracket, a colon or an equals sign, and also points, commas,
// hyphens and spaces. A single letter counts in lower case only: S and N also name
// specimens and sides of the sheet. V [%] is a coefficient of variation.
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
		return key[0] == 's' || key[0] == 'n' || key[0]|0x20 == 'v' && bytes.IndexByte(cell, '%') > 0
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
