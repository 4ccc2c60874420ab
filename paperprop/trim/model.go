package trim

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// A model is a problem in whole numbers, as the solver works on it. Orders of one
// width and group are one row; a row has a cut for each width that can meet it.
type model struct {
	rows    []row
	cuts    []cut
	parents []parent
	stocks  []int64   // that parents draw from
	groups  [][]int32 // the cuts of each, which may share a set
	pieces  int       // most across
	kinds   int       // most different widths across
	runs    int       // the fewest runs of a pattern that is cut at all, from 1
	fillers int       // number of rows at the end that nobody ordered: they help sets to reach their least width
	strict  bool      // rows must not get more than their most: a surplus can't be left in the trim
	apart   [][]int32 // of each cut, those that must not lie beside it; nil if there are none
	alike   bool      // some cuts of a group have equal widths, for different rows: they count as one width across
}

// A row is the demand for a width.
type row struct{ least, most int }

// A cut is a width that a set may hold. It gives units to its row.
type cut struct {
	width int64
	row   int32
	units int32
	group int32
}

// A parent is what sets are cut from.
type parent struct {
	width int64 // that can be used
	least int64 // that must be used
	cost  int64
	times int32  // a set is cut so often at once: 1, unless patterns are counted
	draws []draw // from stocks
}

// A draw is the amount a set takes from a stock.
type draw struct{ stock, n int32 }

// A pattern is a set that the slitter can cut.
type pattern struct {
	parent int32
	group  int32
	pieces []piece // by cut
}

// A solution is a list of patterns and their runs.
type solution struct {
	patterns []pattern
	times    []int
	cost     int64
}

// asked returns the rows that somebody ordered.
func (m *model) asked() []row { return m.rows[:len(m.rows)-m.fillers] }

func (m *model) cost(s *solution) int64 {
	var sum int64
	for i, p := range s.patterns {
		sum += m.parents[p.parent].cost * int64(s.times[i])
	}
	return sum
}

func (m *model) used(p pattern) int64 {
	var sum int64
	for _, c := range p.pieces {
		sum += m.cuts[c.cut].width * int64(c.n)
	}
	return sum
}

// key returns a text that identifies a pattern.
func (p pattern) key() string {
	var room [64]byte // most keys are shorter
	b := binary.AppendUvarint(room[:0], uint64(p.parent))
	for _, c := range p.pieces {
		b = binary.AppendUvarint(b, uint64(c.cut))
		b = binary.AppendUvarint(b, uint64(c.n))
	}
	return string(b)
}

func sortPieces(set []piece) {
	slices.SortFunc(set, func(a, b piece) int { return cmp.Compare(a.cut, b.cut) })
}

// column returns a pattern as a column of the linear program: the units for each
// row, then the draws from stocks.
func (m *model) column(p pattern) []entry {
	d := m.parents[p.parent]
	column := make([]entry, 0, len(p.pieces)+len(d.draws))
next:
	for _, c := range p.pieces {
		cut := m.cuts[c.cut]
		for i := range column {
			if column[i].row == cut.row {
				column[i].n += c.n * cut.units * d.times
				continue next
			}
		}
		column = append(column, entry{cut.row, c.n * cut.units * d.times})
	}
	for _, d := range d.draws {
		column = append(column, entry{int32(len(m.rows)) + d.stock, d.n})
	}
	return column
}

// clash reports whether a cut may not lie beside one in the set.
func (m *model) clash(set []piece, cut int32) bool {
	return m.apart != nil && slices.ContainsFunc(set, func(p piece) bool { return slices.Contains(m.apart[cut], p.cut) })
}

// widths returns the number of different widths in a set.
func (m *model) widths(set []piece) int {
	if !m.alike {
		return len(set)
	}
	n := 0
	for i, p := range set {
		if !m.hasWidth(set[:i], m.cuts[p.cut].width) {
			n++
		}
	}
	return n
}

// hasWidth reports whether a reel of that width lies in a set.
func (m *model) hasWidth(set []piece, width int64) bool {
	return slices.ContainsFunc(set, func(p piece) bool { return m.cuts[p.cut].width == width })
}

// adds reports whether the slitter allows a new cut beside those in a set, if its
// width would be one more.
func (m *model) adds(set []piece, cut int32) bool {
	return m.widths(set) < m.kinds || m.alike && m.hasWidth(set, m.cuts[cut].width)
}

// allows reports whether the slitter can cut a pattern.
func (m *model) allows(p pattern) bool {
	used, d := m.used(p), m.parents[p.parent]
	for _, c := range p.pieces {
		if m.cuts[c.cut].group != p.group {
			return false
		}
	}
	return m.countable(p) && used <= d.width && used >= d.least
}

// countable reports whether the slitter has the knives for a pattern.
func (m *model) countable(p pattern) bool {
	pieces := 0
	for _, c := range p.pieces {
		pieces += int(c.n)
	}
	return pieces > 0 && pieces <= m.pieces && m.widths(p.pieces) <= m.kinds
}
