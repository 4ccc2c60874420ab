package table

import (
	"bytes"
	"math/bits"
	"slices"
	"strconv"
	"strings"
)

// Sorts of names that specimens and statistics share. A row of such a name is a reading
// only if other rows are named alike, as by Q4, P12 and 10s.
type sorts uint8

const (
	quartiles   sorts = 1 << iota // Q1
	percentiles                   // P95
	shares                        // 95 %
	multiples                     // 3s
	variances                     // s2
	letters                       // S, N, R, V
	words                         // Result, Total L1
	behind                        // MD s
	sortCount   = iota
)

// String returns what a name of the sort may stand for.
func (s sorts) String() string {
	titles := [sortCount]string{"a quartile", "a percentile", "a percentile", "a multiple of s", "a variance", "a statistic", "a total or another result", "a statistic"}
	return titles[bits.TrailingZeros8(uint8(s))]
}

// sortOf returns the sort of a name, and whether a statistic may have it: P95 is one of
// the usual percentiles, P12 is not. Other names are of no sort.
func sortOf(cell []byte) (s sorts, statistic bool) {
	const longest = 10 // of a name with a number
	switch n := len(cell); {
	case n == 0 || hasDigitEnds(cell) || isDigit(cell[0]) && n > longest:
		return 0, false
	case isDigit(cell[0]):
		number := cell[:n-len(bytes.TrimLeft(cell, "0123456789.,"))]
		return sortOfNumber(number, bytes.TrimLeft(cell[len(number):], " "))
	case n == 1 && isLetter(cell[0]):
		return letters, strings.IndexByte("SNRV", cell[0]) >= 0
	case n <= longest && isDigit(cell[n-1]):
		if s, statistic := sortOfLetter(cell[0], string(bytes.TrimLeft(cell[1:], " "))); s != 0 {
			return s, statistic
		}
	}
	if certaintyOf(cell) == unsure {
		return words, true
	}
	switch first, last, ok := outerWords(cell); {
	case isFooterName(cell): // in a column that names rows, but not first
		return words, true
	case !ok:
		return 0, false
	case certaintyOf(first) == total || certaintyOf(last) == total || certaintyOf(last) == unsure:
		return words, true
	case isFooterName(last):
		return behind, true
	}
	return 0, false
}

func hasDigitEnds(cell []byte) bool {
	return len(cell) > 0 && isDigit(cell[0]) && isDigit(cell[len(cell)-1])
}

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

func sortOfLetter(letter byte, number string) (s sorts, statistic bool) {
	if strings.Trim(number, "0123456789.,") != "" {
		return 0, false
	}
	switch letter {
	case 'Q', 'q':
		return quartiles, slices.Contains([]string{"1", "2", "3", "25", "50", "75"}, number)
	case 'P', 'p':
		return percentiles, isPercentile(number)
	case 'S', 's':
		return variances, letter == 's' && number == "2"
	}
	return 0, false
}

func sortOfNumber(number, behind []byte) (s sorts, statistic bool) {
	if string(behind) == "%" {
		return shares, isPercentile(string(number))
	}
	if rest, ok := withoutDeviation(behind); ok && len(rest) == 0 {
		return multiples, slices.Contains([]string{"1", "2", "3", "4", "5", "6", "1.96", "1,96"}, string(number))
	}
	return 0, false
}

func isPercentile(number string) bool {
	switch strings.Replace(number, ",", ".", 1) {
	case "0.1", "1", "2.5", "5", "10", "16", "20", "25", "50", "75", "80", "84", "90", "95", "97.5", "98", "99", "99.5", "99.9":
		return true
	}
	return false
}

// A nameColumn is a column of the names of the rows, or of their numbers.
type nameColumn struct {
	At        int
	EmptyLast bool // empty cells are few, and below the others
	TextsLast bool // the rows have numbers, and texts are below them
	Remarks   bool // no row has a name here but the last ones, and these may be a statistic's
}

// doubt returns why a row may not be a reading: it has no name or one that statistics
// have, unlike the other rows.
func (l *Layout) doubt(rec *Record, before Class) *CellError {
	for _, c := range l.names {
		cell := rec.Cell(c.At)
		if hasDigitEnds(cell) {
			continue // a number, as most are, is neither of the three
		}
		switch {
		case c.Remarks:
		case unnamed(cell) && (c.EmptyLast || before == Footer):
			rec.placed = !c.EmptyLast
			return l.doubtful(rec, c.At, "no name, and a total or a mean may have none", "a name, if it is a reading")
		case c.TextsLast && !likeNumbering(cell) && !Missing(cell):
			return l.doubtful(rec, c.At, "no number, as other rows have, and a total or a mean may be named so", "a number, if it is a reading")
		}
		if problem := l.doubtName(rec, c.At); problem != nil {
			return problem
		}
	}
	for _, at := range l.named {
		if hasDigitEnds(rec.Cell(at)) {
			continue
		}
		if problem := l.doubtName(rec, at); problem != nil {
			return problem
		}
	}
	return nil
}

// unnamed reports whether a cell holds no name, at most a dash.
func unnamed(cell []byte) bool {
	return len(cell) == 0 || !isDigit(cell[0]) && !isLetter(cell[0]) && len(bytes.Trim(cell, "-–—. ")) == 0
}

// Unnamed returns the first column of names in which a record has none: it may have the
// name of the row above, or be a total. It reports false if there is no such column.
func (l *Layout) Unnamed(rec *Record) (column int, ok bool) {
	for _, c := range l.names {
		if !c.Remarks && unnamed(rec.Cell(c.At)) {
			return c.At, true
		}
	}
	return 0, false
}

func (l *Layout) doubtName(rec *Record, at int) *CellError {
	s, statistic := sortOf(rec.Cell(at))
	if !statistic || l.usual&s != 0 {
		return nil
	}
	return l.doubtful(rec, at, "may name "+s.String()+", as no reading is named alike", "another name, if it is a reading")
}

func (l *Layout) doubtful(rec *Record, at int, reason, accepted string) *CellError {
	return &CellError{Column: at + 1, Head: l.head(at), Text: string(rec.Cell(at)), Reason: reason, Accepted: accepted, Doubtful: true}
}

// labels finds the columns in which a summary may have its name: those that number the
// specimens, as in H7;Mean;55,5, and those in which some rows have the name of a mean and
// some do not, as in 55,5;Mean.
type labels struct {
	rows    int
	footers bool
	columns []label
}

type label struct {
	measured        bool           // of a column with a unit, or one that is expected: a text in it is a failed reading
	digits, missing int            // numbers of cells with a number alone, and of empty ones
	last            int            // number of the empty ones that no other follows
	gaps            bool           // others follow empty ones
	number          int            // the last one
	uneven          bool           // the numbers do not count the rows: 1, 2, 1, 2, 3
	texts           bool           // some other cell does not name a summary
	text            bool           // the last cell is no number, nor the name of a summary
	mixed           bool           // numbers follow texts
	means           bool           // some cell names a mean
	named           bool           // the last cell may be the name of a statistic
	within          bool           // others follow such names
	perhaps         [sortCount]int // numbers of names of each sort that statistics may have
	usual           sorts          // sorts of which some name is no statistic's
}

func newLabels(l *Layout, hoped []string) *labels {
	n := &labels{columns: make([]label, len(l.Columns))}
	for i := range n.columns {
		n.columns[i].measured = l.Columns[i].Unit != "" || slices.Contains(hoped, l.folded[i])
	}
	return n
}

func (n *labels) addRow(rec *Record) {
	n.rows++
	for i := range n.columns {
		switch c := &n.columns[i]; {
		case !c.measured:
			c.add(rec.Cell(i))
		case Missing(rec.Cell(i)):
			c.missing++
		}
	}
}

func (n *label) add(cell []byte) {
	s, statistic := sortOf(cell)
	switch {
	case statistic:
		n.perhaps[bits.TrailingZeros8(uint8(s))]++
	default:
		n.usual |= s
	}
	n.within = n.within || n.named && !statistic
	n.named = statistic
	if Missing(cell) {
		n.missing++
		if unnamed(cell) {
			n.last++
		}
		return
	}
	n.gaps = n.gaps || n.last > 0
	n.last = 0
	switch {
	case isNumbering(cell):
		n.digits++
		n.mixed = n.mixed || n.text
		n.text = false
		number, err := strconv.Atoi(string(cell))
		n.uneven = n.uneven || err != nil || number != 1 && number != n.number+1
		n.number = number
	case isFooter(cell):
		n.means = n.means || namesMean(cell)
	default:
		n.text = n.text || !likeNumbering(cell)
		n.texts = n.texts || !statistic || s == shares || s == multiples // the last two are numbers with a unit, too
	}
}

// isNumbering reports whether a cell holds a number, a date or a time alone.
func isNumbering(cell []byte) bool {
	return startsNumber(cell) && len(bytes.Trim(cell, "0123456789.,-/: ")) == 0
}

// likeNumbering reports whether a cell begins as a number does, or one with a mark before
// it: 3a, 2*, #4.
func likeNumbering(cell []byte) bool {
	return len(cell) > 0 && isDigit(cell[0]) || len(cell) > 1 && isDigit(cell[1])
}

// addHeads tells that the heads come again: the last cells above them may be of totals.
func (n *labels) addHeads() {
	for i := range n.columns {
		n.columns[i].last, n.columns[i].text, n.columns[i].named = 0, false, false
	}
}

// tell stores in a layout what it needs to know of names.
func (n *labels) tell(l *Layout) {
	readings, named := false, false // some column before has readings, or names
	for i := range n.columns {
		c := &n.columns[i]
		switch {
		case c.missing == n.rows:
			continue
		case c.measured:
			readings = true
			continue
		}
		few := 2*c.missing < n.rows
		first := !named && (!readings || few && 2*c.digits < n.rows) // behind readings, numbers are others, and many gaps are of remarks
		named = named || first
		if counts := !c.uneven && !c.mixed && c.number > 1; first || counts {
			l.names = append(l.names, nameColumn{At: i, EmptyLast: few && !c.gaps && (counts || !readings), TextsLast: !c.mixed && c.digits > 1})
		}
		numbers := !c.texts && c.digits > c.missing
		means := c.means && (c.texts || c.missing+c.digits > 0)
		if numbers || means {
			l.named = append(l.named, i)
		}
		switch names := n.rows - c.missing; {
		case first || numbers || means:
			l.usual |= c.usual | c.shared(names)
		case c.missing > 0 && c.shared(names)&words != 0 && !c.within:
			l.names = append(l.names, nameColumn{At: i, Remarks: true})
		}
	}
	if !n.footers {
		l.usual |= letters | behind // where nothing was computed, S and Jo Max are names
	}
}

// shared returns the sort that all names of a column are of.
func (n *label) shared(names int) (s sorts) {
	for i, count := range n.perhaps {
		if count == names {
			s |= 1 << i
		}
	}
	return s
}
