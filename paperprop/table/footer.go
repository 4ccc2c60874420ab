package table

import (
	"bytes"
	_ "embed"
	"strings"
	"sync"
	"unicode/utf8"
)

// footersText lists the names of what programs and people compute from the rows, and how
// sure each is.
//
//go:embed footers.txt
var footersText string

// A certainty says what a name of footersText means: alone, and beside other words.
type certainty byte

const (
	noFooter certainty = 0
	alone    certainty = ' ' // a footer if nothing stands beside it
	sure     certainty = '*' // a footer, whatever stands beside it
	total    certainty = '+' // a footer alone; beside other words, perhaps
	unsure   certainty = '?' // perhaps a footer
)

// knownFooters holds the names of footersText, parsed when a table has a first row of
// text.
var knownFooters struct {
	once      sync.Once
	certainty map[string]certainty
	endings   map[string][]string // sure names that can end a longer word, by their last bytes
}

// ending is the least number of bytes of a name that ends a longer word, Tagesmittelwert.
const ending = 7

func parseFooters() {
	known := &knownFooters
	known.certainty, known.endings = map[string]certainty{}, map[string][]string{}
	for line := range strings.Lines(footersText) {
		_, names, found := strings.Cut(line, ": ")
		if !found || line[0] == '#' {
			continue
		}
		for name := range strings.SplitSeq(strings.TrimSpace(names), ", ") {
			c := alone
			if last := certainty(name[len(name)-1]); last == sure || last == total || last == unsure {
				c, name = last, name[:len(name)-1]
			}
			key := string(appendKey(nil, []byte(name)))
			known.certainty[key] = c
			if n := len(key) - ending; c == sure && n >= 0 {
				known.endings[key[n:]] = append(known.endings[key[n:]], key)
			}
		}
	}
}

// ignored are the signs that do not count in a name of a footer.
const ignored = " .,-_%"

// longestLabel is the length up to which a cell may be the name of a footer.
const longestLabel = 80

// appendKey appends a name in the form in which names of footers are compared: in lower
// case, without blanks, points, commas and hyphens, and up to a bracket, a colon or an
// equals sign. The colon of S:a, which is short for summa, is part of it. It appends
// nothing for a name with digits.
func appendKey(dst, name []byte) []byte {
	key, ascii := dst, true
	if len(name) > longestLabel {
		return dst
	}
	for i, c := range name {
		if len(key) > len(dst) && (c == '(' || c == '[' || c == '=' || c == ':' && !shortens(name, i)) {
			break
		}
		switch {
		case isDigit(c):
			return dst
		case strings.IndexByte(ignored, c) >= 0:
			continue
		case c >= 0x80:
			ascii = false
		case 'A' <= c && c <= 'Z':
			c |= 0x20
		}
		key = append(key, c)
	}
	if ascii {
		return key
	}
	return append(dst, bytes.ToLower(key[len(dst):])...)
}

// shortens reports whether a colon stands between the first letter of a word and its last,
// in place of the others.
func shortens(name []byte, colon int) bool {
	return colon == 1 && len(name) > 2 && isLetter(name[0]) && isLetter(name[2]) && (len(name) == 3 || !isLetter(name[3]))
}

// certaintyOf returns how sure it is that a name is that of a footer.
func certaintyOf(name []byte) certainty {
	var room [longestLabel]byte
	key := appendKey(room[:0], name)
	if len(key) == 0 {
		return noFooter
	}
	known := &knownFooters
	known.once.Do(parseFooters)
	if c := known.certainty[string(key)]; c != noFooter {
		return c
	}
	if n := len(key) - ending; n > 0 && !bytes.ContainsRune(name, ' ') {
		for _, word := range known.endings[string(key[n:])] {
			if bytes.HasSuffix(key, []byte(word)) {
				return sure
			}
		}
	}
	return noFooter
}

// isFooter reports whether a record that begins with this cell is a summary by the
// file's writer: Mean, Mean MD, MD mean or Mean + 3s.
func isFooter(cell []byte) bool { return isFooterName(cell) || hasMean(cell) || aroundMean(cell) }

// isFooterName reports whether a cell is the name of a summary. A single letter counts
// in lower case only: S and N also name specimens and sides of the sheet. V [%] is a
// coefficient of variation.
func isFooterName(cell []byte) bool {
	var room [longestLabel]byte
	if key := appendKey(room[:0], cell); len(key) == 1 {
		letter := bytes.TrimLeft(cell, ignored)[0]
		return letter == 's' || letter == 'n' || key[0] == 'v' && bytes.ContainsRune(cell, '%')
	}
	switch certaintyOf(cell) {
	case alone, sure, total:
		return true
	}
	return false
}

// outerWords returns the first and the last of several words.
func outerWords(cell []byte) (first, last []byte, ok bool) {
	if len(cell) > longestLabel {
		return nil, nil, false
	}
	first, last, ok = bytes.Cut(cell, []byte{' '})
	return first, last[bytes.LastIndexByte(last, ' ')+1:], ok
}

// hasMean reports whether the first or last of several words is one that only a summary
// has.
func hasMean(cell []byte) bool {
	first, last, ok := outerWords(cell)
	return ok && (certaintyOf(first) == sure || certaintyOf(last) == sure)
}

// namesMean reports whether a cell has such a word, or is one: not s or max, which may be
// a side of the sheet and a person.
func namesMean(cell []byte) bool {
	switch string(bytes.ToLower(bytes.TrimRight(cell, ".,:"))) {
	case "media", "média": // which may begin a name: Media 5
		return true
	}
	return certaintyOf(cell) == sure || hasMean(cell)
}

// aroundMean reports whether a cell names what lies some s from the mean, or how far
// from it: x + 3s, ±2 s, MW ± s.
func aroundMean(cell []byte) bool {
	rest, ok := withoutDeviation(cell)
	if !ok {
		return false
	}
	rest = bytes.TrimRight(rest, "0123456789., ")
	for _, sign := range []string{"+", "-", "−", "±", "+/-"} {
		if before, ok := bytes.CutSuffix(rest, []byte(sign)); ok {
			before = bytes.TrimRight(before, " +/")
			return len(before) == 0 || string(before) == "x" || isFooterName(before)
		}
	}
	return false
}

// withoutDeviation cuts the name of a standard deviation off the end of a cell.
func withoutDeviation(cell []byte) (rest []byte, ok bool) {
	for _, name := range []string{"s", "sd", "SD", "σ", "sigma", "Sigma"} {
		if rest, ok := bytes.CutSuffix(cell, []byte(name)); ok {
			return rest, true
		}
	}
	return nil, false
}

// namesStatistic reports whether a cell that begins with a number names a statistic: "95%
// CI", "95 % confidence", "1. Quartil". Of most such cells the last letter says no.
func namesStatistic(cell []byte) bool {
	if last := cell[len(cell)-1]; last < utf8.RuneSelf && !isLetter(last) {
		return false
	}
	if certaintyOf(cell[bytes.LastIndexAny(cell, " .%-")+1:]) == sure {
		return true
	}
	level, name, ok := bytes.Cut(cell, []byte{'%'})
	name = bytes.ToLower(bytes.TrimLeft(name, " "))
	return ok && len(level) <= 6 && (string(name) == "ci" || bytes.HasPrefix(name, []byte("ci ")) ||
		bytes.HasPrefix(name, []byte("conf")) || bytes.HasPrefix(name, []byte("vertrauens")) || bytes.HasPrefix(name, []byte("konfidenz")))
}
