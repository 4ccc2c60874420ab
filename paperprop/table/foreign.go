package table

import (
	"slices"
	"strings"
	"sync"

	"millmaths.example/paperprop"
)

// foreignHeads reports whether a row without numbers has a name with a unit where
// numbers in a unit should stand: it is the head of another table. One or two letters
// before a slash are no name: n/m means not measured.
func (l *Layout) foreignHeads(fields [][]byte) bool {
	const shortestName = 3
	return l.inUnitColumn(fields, func(cell, _ string) bool {
		return slices.ContainsFunc(partings(cell), func(p parting) bool {
			return listedUnit(p.Unit) && !(p.sign == slash && (len(p.Head) < shortestName || listedUnit(p.Head)))
		})
	})
}

// otherUnits reports whether a row is a row of units in which some unit measures the
// same as the numbers above it but differs from theirs.
func (l *Layout) otherUnits(fields [][]byte) bool {
	return l.inUnitColumn(fields, func(cell, unit string) bool {
		own := unbracket(cell)
		return listedUnit(own) && !SameUnit(own, unit) && sameSort(own, unit)
	}) && l.unitRow(fields)
}

// sameSort reports whether a value in one unit can be converted to the other.
func sameSort(a, b string) bool {
	_, _, err := paperprop.Convert("1 "+a, b)
	return err == nil
}

// inUnitColumn reports whether a row has no numbers, and holds is true of some text in
// a column that has a unit.
func (l *Layout) inUnitColumn(fields [][]byte, holds func(cell, unit string) bool) bool {
	if slices.ContainsFunc(fields, startsNumber) {
		return false
	}
	for i, cell := range fields[:min(len(fields), len(l.Columns))] {
		if unit := l.Columns[i].Unit; unit != "" && len(cell) <= longestHead && !Missing(cell) && holds(string(cell), unit) {
			return true
		}
	}
	return false
}

// SameUnit reports whether two texts are spellings of one unit, such as g/m2, gsm and
// g/m².
func SameUnit(a, b string) bool {
	if plainUnit(a) == plainUnit(b) {
		return true
	}
	u, err := paperprop.ParseUnit(a)
	if err != nil {
		return false
	}
	v, err := paperprop.ParseUnit(b)
	return err == nil && u.String() == v.String()
}

// listedUnit reports whether a text is a listed unit. It does not try composed units: a
// file may have many rows of text, and that search is slow.
func listedUnit(text string) bool {
	const longest = 40
	listed.once.Do(func() {
		listed.units = map[string]bool{}
		for _, kind := range paperprop.Kinds() {
			for _, unit := range kind.Units() {
				listed.units[plainUnit(unit.String())] = true
			}
		}
	})
	return len(text) <= longest && text != "1" && listed.units[plainUnit(text)]
}

var listed struct {
	once  sync.Once
	units map[string]bool
}

// plainUnit returns a unit without letters that not every keyboard has.
func plainUnit(text string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case 'µ', 'μ':
			return 'u'
		case '²':
			return '2'
		case '³':
			return '3'
		case '·':
			return '.'
		}
		return r
	}, text)
}
