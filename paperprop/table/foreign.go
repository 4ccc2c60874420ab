package table

import (
	"slices"
	"strings"
	"sync"

	"millmaths.example/paperprop"
)

// foreignHeads tells whether a row without numbers has a name with a unit of its own
// where numbers in a unit should stand: these are heads of another table. A letter or
// two before a slash are no name: n/m is what was not measured.
func (l *Layout) foreignHeads(fields [][]byte) bool {
	const shortestName = 3
	return l.inUnitColumn(fields, func(cell, _ string) bool {
		return slices.ContainsFunc(partings(cell), func(p parting) bool {
			return listedUnit(p.Unit) && !(p.sign == slash && (len(p.Head) < shortestName || listedUnit(p.Head)))
		})
	})
}

// otherUnits tells whether a row is one of units, of which one measures the same as the
// numbers above but is not theirs.
func (l *Layout) otherUnits(fields [][]byte) bool {
	return l.inUnitColumn(fields, func(cell, unit string) bool {
		own := unbracket(cell)
		return listedUnit(own) && !SameUnit(own, unit) && sameSort(own, unit)
	}) && l.unitRow(fields)
}

// sameSort tells whether what is in one unit can be told in the other.
func sameSort(a, b string) bool {
	_, _, err := paperprop.Convert("1 "+a, b)
	return err == nil
}

// inUnitColumn tells whether a row has no numbers, and something holds of a text in a
// column that has a unit.
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

// SameUnit tells whether two texts are spellings of one unit, as g/m2, gsm and g/m² are.
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

// listedUnit tells whether a text is a unit by the lists alone: a file may have many
// rows of texts, and to look for what else could be a unit takes long.
func listedUnit(text string) bool {
	const longest = 40
	return len(text) <= longest && text != "1" && listedUnits()[plainUnit(text)]
}

var listedUnits = sync.OnceValue(func() map[string]bool {
	listed := map[string]bool{}
	for _, kind := range paperprop.Kinds() {
		for _, unit := range kind.Units() {
			listed[plainUnit(unit.String())] = true
		}
	}
	return listed
})

func plainUnit(text string) string { return plainLetters().Replace(text) }

var plainLetters = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer("µ", "u", "μ", "u", "²", "2", "³", "3", "·", ".")
})
