package trim

import "slices"

// tidy brings what a solution makes of each row as close to what is ordered as its
// sets allow: a surplus is taken out of sets, and room in them is used for rows
// that are short.
func (m *model) tidy(s solution, entries []entryRow) solution {
	made := m.made(s)
	if !m.strict {
		s, made = m.lowered(s)
	}
	for i := range s.patterns {
		m.shift(&s.patterns[i], s.times[i], made, entries)
	}
	return m.merged(s)
}

// lowered takes surpluses out of sets, and returns what is then made of each row.
func (m *model) lowered(s solution) (solution, []int) {
	s.patterns, s.times = slices.Clone(s.patterns), slices.Clone(s.times)
	made := m.made(s)
	for r := range m.rows {
		for made[r] > m.rows[r].most {
			m.takeOut(&s, made, r, made[r]-m.rows[r].most)
		}
	}
	return s, made
}

// made returns what a solution makes of each row.
func (m *model) made(s solution) []int {
	made := make([]int, len(m.rows))
	for i, p := range s.patterns {
		for _, c := range p.pieces {
			made[m.cuts[c.cut].row] += s.times[i] * int(c.n*m.cuts[c.cut].units)
		}
	}
	return made
}

// takeOut takes at most n units of a row out of the sets of one pattern, and splits
// the pattern if not all of its runs lose it.
func (m *model) takeOut(s *solution, made []int, r, n int) {
	best := -1
	for i, p := range s.patterns {
		if at := m.pieceOf(p, r); at >= 0 && (best < 0 || better(s.times[i], s.times[best], n)) {
			best = i
		}
	}
	p, times := s.patterns[best], min(n, s.times[best])
	thinner := pattern{p.parent, p.group, slices.Clone(p.pieces)}
	at := m.pieceOf(p, r)
	c := &thinner.pieces[at]
	units := m.cuts[c.cut].units
	if c.n--; units > 1 { // one sheet fewer across
		thinner.pieces = m.withCut(thinner, r, units-1)
	} else if c.n == 0 {
		thinner.pieces = slices.Delete(thinner.pieces, at, at+1)
	}
	made[r] -= times
	if s.times[best] -= times; s.times[best] > 0 {
		if len(thinner.pieces) > 0 {
			s.patterns, s.times = append(s.patterns, thinner), append(s.times, times)
		}
		return
	}
	s.patterns[best], s.times[best] = thinner, times
	if len(thinner.pieces) == 0 {
		s.patterns = slices.Delete(s.patterns, best, best+1)
		s.times = slices.Delete(s.times, best, best+1)
	}
}

// better prefers the pattern whose runs are all thinned, and among these the one
// run most.
func better(a, b, n int) bool {
	if (a <= n) != (b <= n) {
		return a <= n
	}
	if a <= n {
		return a > b
	}
	return a < b
}

// pieceOf returns the index at which a pattern holds a row, its widest cut first,
// or -1.
func (m *model) pieceOf(p pattern, r int) int {
	best := -1
	for i, c := range p.pieces {
		if int(m.cuts[c.cut].row) == r && (best < 0 || m.cuts[c.cut].units < m.cuts[p.pieces[best].cut].units) {
			best = i
		}
	}
	return best
}

// withCut returns a pattern whose first piece of a row, or what is left of it,
// gains a cut of so many units.
func (m *model) withCut(p pattern, r int, units int32) []piece {
	pieces := slices.DeleteFunc(slices.Clone(p.pieces), func(c piece) bool { return c.n == 0 })
	for c, cut := range m.cuts {
		if int(cut.row) == r && cut.units == units {
			at := slices.IndexFunc(pieces, func(x piece) bool { return int(x.cut) == c })
			if at >= 0 {
				pieces[at].n++
			} else {
				pieces = append(pieces, piece{int32(c), 1})
			}
			break
		}
	}
	sortPieces(pieces)
	return pieces
}

// shift takes reels out of all runs of a pattern, or adds some, if that brings a
// row closer to what is ordered.
func (m *model) shift(p *pattern, times int, made []int, entries []entryRow) {
	d := m.parents[p.parent]
	for i := 0; i < len(p.pieces); i++ {
		c := &p.pieces[i]
		cut := m.cuts[c.cut]
		for c.n > 0 && made[cut.row]-times*int(cut.units) >= entries[cut.row].ordered &&
			m.used(*p)-cut.width >= d.least && (len(p.pieces) > 1 || c.n > 1) {
			c.n--
			made[cut.row] -= times * int(cut.units)
		}
		if c.n == 0 {
			p.pieces = slices.Delete(p.pieces, i, i+1)
			i--
		}
	}
	for _, c := range m.groups[p.group] {
		cut := m.cuts[c]
		for made[cut.row]+times*int(cut.units) <= entries[cut.row].ordered {
			more := pattern{p.parent, p.group, slices.Clone(p.pieces)}
			if at := slices.IndexFunc(more.pieces, func(x piece) bool { return x.cut == c }); at >= 0 {
				more.pieces[at].n++
			} else {
				more.pieces = append(more.pieces, piece{c, 1})
			}
			if !m.allows(more) {
				break
			}
			sortPieces(more.pieces)
			p.pieces = more.pieces
			made[cut.row] += times * int(cut.units)
		}
	}
}

// merged combines the runs of equal patterns.
func (m *model) merged(s solution) solution {
	out := solution{cost: s.cost}
	at := map[string]int{}
	for i, p := range s.patterns {
		key := p.key()
		if k, ok := at[key]; ok {
			out.times[k] += s.times[i]
			continue
		}
		at[key] = len(out.patterns)
		out.patterns, out.times = append(out.patterns, p), append(out.times, s.times[i])
	}
	return out
}
