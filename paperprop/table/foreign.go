package table

import (
	"slices"
	"strings"
	"sync"

	"millmaths.example/paperprop"
)

// foreignHeads tells whether a row without numbers has a name with a unit of its own
// where numbers in a unit should stand: these are heads of another table.
func (l *Layout) foreignHeads(fields [][]byte) bool {
	return l.inUnitColumn(fields, func(cell, _ string) bool { return listedUnit(unitBehind(cell)) })
}

// otherUnits tells whether a row is one of units, of which one measures the same as the
// numbers above but is not theirs.
func (l *Layout) otherUnits(fields [][]byte) bool {
	return l.inUnitColumn(fields, func(cell, unit string) bool {
		own := unbracket(cell)
		if own == unit || !listedUnit(own) {
			return false
		}
		_, _, err := paperprop.Convert("1 "+own, unit)
		return err == nil
	}) && l.unitRow(fields)
}

// inUnitColumn tells whether a row has no numbers, and something holds of a text in a
// column that has a unit.
func (l *Layout) inUnitColumn(fields [][]byte, holds func(cell, unit string) bool) bool {
	const longest = 200
	if slices.ContainsFunc(fields, startsNumber) {
		return false
	}
	for i, cell := range fields[:min(len(fields), len(l.Columns))] {
		if unit := l.Columns[i].Unit; unit != "" && len(cell) <= longest && !Missing(cell) && holds(string(cell), unit) {
			return true
		}
	}
	return false
}

// unitBehind is what stands behind a name where a unit may.
func unitBehind(head string) string {
	for _, brackets := range [...]string{"[]", "()"} {
		if _, unit, ok := bracketed(head, brackets[:1], brackets[1:]); ok {
			return unit
		}
	}
	for _, sign := range unitSigns {
		if i := strings.LastIndex(head, sign); i > 0 {
			return strings.TrimSpace(head[i+len(sign):])
		}
	}
	return ""
}

// listedUnit tells whether a text is a unit by the lists alone: a file may have many
// rows of texts, and to look for what else could be a unit takes long.
func listedUnit(text string) bool { return text != "1" && listedUnits()[plainUnit(text)] }

var listedUnits = sync.OnceValue(func() map[string]bool {
	listed := map[string]bool{}
	for _, kind := range paperprop.Kinds() {
		for _, unit := range kind.Units() {
			listed[plainUnit(unit.String())] = true
		}
	}
	return listed
})

func plainUnit(text string) string {
	return strings.NewReplacer("µ", "u", "μ", "u", "²", "2", "³", "3", "·", ".").Replace(text)
}
