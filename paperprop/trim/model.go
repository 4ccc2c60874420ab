package trim

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// A model is a problem in whole numbers: what the solver works on. Orders of
// one width and group are one row; a row has one cut for each width by which it
// can be met.
type model struct {
	rows    []row
	cuts    []cut
	parents []parent
	stocks  []int64   // of which parents draw
	groups  [][]int32 // cuts that may share a set
	pieces  int       // most across
	kinds   int       // most different widths across
	runs    int       // fewest runs of a pattern that is cut at all, from 1
	fillers int       // rows, the last, that nobody ordered: they help sets to their least width
	strict  bool      // rows must not get more than their most: what is too much can't be left in the trim
	apart   [][]int32 // of each cut, those that never lie beside it; nil if there are none
	alike   bool      // some cuts of a group are as wide, for other rows: one width across
}

// A row is what is wanted of a width.
type row struct{ least, most int }

// A cut is a width a set may hold. It gives units to its row.
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
	times int32  // a set is cut so often at once: 1, but where patterns are counted
	draws []draw // from stocks
}

// A draw is what a set takes from a stock.
type draw struct{ stock, n int32 }

// A pattern is a set that the slitter can cut.
type pattern struct {
	parent int32
	group  int32
	pieces []piece // by cut
}

// A solution runs patterns.
type solution struct {
	patterns []pattern
	times    []int
	cost     int64
}

// asked are the rows that somebody ordered.
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

// key is the identity of a pattern.
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

// column is a pattern as a column of the linear program: units for each row,
// then what it draws from stocks.
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

// clash tells whether a cut may not lie beside one of a set.
func (m *model) clash(set []piece, cut int32) bool {
	return m.apart != nil && slices.ContainsFunc(set, func(p piece) bool { return slices.Contains(m.apart[cut], p.cut) })
}

// widths counts the different ones of a set.
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

// hasWidth tells whether a reel so wide lies in a set.
func (m *model) hasWidth(set []piece, width int64) bool {
	return slices.ContainsFunc(set, func(p piece) bool { return m.cuts[p.cut].width == width })
}

// adds tells whether the slitter may cut a cut that a set lacks beside what is in it,
// where its width would be one too many.
func (m *model) adds(set []piece, cut int32) bool {
	return m.widths(set) < m.kinds || m.alike && m.hasWidth(set, m.cuts[cut].width)
}

// allows tells whether the slitter can cut a pattern.
func (m *model) allows(p pattern) bool {
	used, d := m.used(p), m.parents[p.parent]
	for _, c := range p.pieces {
		if m.cuts[c.cut].group != p.group {
			return false
		}
	}
	return m.countable(p) && used <= d.width && used >= d.least
}

// countable tells whether the slitter has the knives for a pattern.
func (m *model) countable(p pattern) bool {
	pieces := 0
	for _, c := range p.pieces {
		pieces += int(c.n)
	}
	return pieces > 0 && pieces <= m.pieces && m.widths(p.pieces) <= m.kinds
}
