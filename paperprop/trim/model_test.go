package trim

import (
	"maps"
	"math/rand/v2"
	"slices"
	"testing"
)

// looseModel has rows that several cuts meet, as sheets have them, two groups, deckles of
// several times and least widths, and stocks that they draw from; a solution of it may be
// anything.
func looseModel(r *rand.Rand) *model {
	m := &model{groups: make([][]int32, 2), pieces: 2 + r.IntN(6), kinds: 1 + r.IntN(4), runs: 1 + r.IntN(2)}
	for i := range 3 + r.IntN(3) {
		n := r.IntN(9)
		m.rows = append(m.rows, row{n, n + r.IntN(4)})
		group := int32(i % 2)
		width := 3 + r.Int64N(9)
		for units := int32(1); units <= 1+r.Int32N(3); units++ {
			m.groups[group] = append(m.groups[group], int32(len(m.cuts)))
			m.cuts = append(m.cuts, cut{width * int64(units), int32(i), units, group})
		}
	}
	for range 1 + r.IntN(3) {
		d := parent{width: 20 + r.Int64N(20), cost: 1 + r.Int64N(30), times: 1 + r.Int32N(2)}
		if r.IntN(2) == 0 {
			d.least = d.width - r.Int64N(12)
		}
		for k := range 2 {
			if r.IntN(2) == 0 {
				d.draws = append(d.draws, draw{int32(k), 1 + r.Int32N(3)})
			}
		}
		m.parents = append(m.parents, d)
	}
	m.stocks = []int64{r.Int64N(9), r.Int64N(9)}
	return m
}

// anySet is a pattern of a group, wide or not.
func (m *model) anySet(r *rand.Rand) pattern {
	p := pattern{parent: r.Int32N(int32(len(m.parents))), group: r.Int32N(2)}
	for _, c := range m.groups[p.group] {
		if n := r.Int32N(3); n > 0 && r.IntN(3) > 0 {
			p.pieces = append(p.pieces, piece{c, n})
		}
	}
	return p
}

func (m *model) anySolution(r *rand.Rand) (s solution) {
	for range 1 + r.IntN(5) {
		if p := m.anySet(r); len(p.pieces) > 0 {
			s.patterns, s.times = append(s.patterns, p), append(s.times, 1+r.IntN(4))
		}
	}
	s.cost = m.cost(&s)
	return s
}

// laid is the cuts of a set, one by one.
func laid(p pattern) (cuts []int32) {
	for _, c := range p.pieces {
		for range c.n {
			cuts = append(cuts, c.cut)
		}
	}
	return cuts
}

// What a model says of sets and solutions is what their reels come to, one by one.
func TestModel(t *testing.T) {
	r := rand.New(rand.NewPCG(24, 1))
	allowed, refused := 0, 0
	for range 2000 {
		m := looseModel(r)
		s := m.anySolution(r)
		made, cost := make([]int, len(m.rows)), int64(0)
		for i, p := range s.patterns {
			for range s.times[i] {
				cost += m.parents[p.parent].cost
				for _, c := range laid(p) {
					made[m.cuts[c].row] += int(m.cuts[c].units)
				}
			}
		}
		if got := m.made(s); !slices.Equal(got, made) || m.cost(&s) != cost {
			t.Fatalf("%+v: %+v makes %v for %d, want %v for %d", m, s, got, m.cost(&s), made, cost)
		}
		for _, p := range s.patterns {
			d := m.parents[p.parent]
			width, kinds := int64(0), map[int32]bool{}
			column := map[int32]int32{}
			for _, c := range laid(p) {
				width += m.cuts[c].width
				kinds[c] = true
				column[m.cuts[c].row] += m.cuts[c].units * d.times
			}
			for _, x := range d.draws {
				column[int32(len(m.rows))+x.stock] += x.n
			}
			if got := m.used(p); got != width {
				t.Fatalf("%+v uses %d, want %d", p, got, width)
			}
			got := map[int32]int32{}
			entries := m.column(p)
			for _, e := range entries {
				got[e.row] = e.n
			}
			if !maps.Equal(got, column) || len(entries) != len(column) {
				t.Fatalf("%+v of %+v is column %v, want %v", p, m, entries, column)
			}
			pieces := len(laid(p))
			countable := pieces <= m.pieces && len(kinds) <= m.kinds
			fits := width <= d.width && width >= d.least
			if m.countable(p) != countable || m.allows(p) != (countable && fits) {
				t.Fatalf("%+v: set %+v is countable %v and allowed %v, want %v, %v", m, p, m.countable(p), m.allows(p), countable, countable && fits)
			}
			if countable && fits {
				allowed++
				other := p
				if other.group = 1 - p.group; m.allows(other) {
					t.Fatalf("%+v allows %+v, of another group", m, other)
				}
			} else {
				refused++
			}
		}
	}
	if allowed < 200 || refused < 200 {
		t.Errorf("%d sets allowed and %d refused, want many of both", allowed, refused)
	}
	m := &model{pieces: 9, kinds: 9, parents: []parent{{width: 9}}}
	if m.countable(pattern{}) || m.allows(pattern{}) {
		t.Error("a set of nothing is allowed")
	}
}

// At the limits of a set one more is too much, and one less too little.
func TestAllowsAtLimits(t *testing.T) {
	set := pattern{pieces: []piece{{0, 2}, {1, 1}}} // 2·4 + 3
	for _, test := range []struct {
		width, least  int64
		pieces, kinds int
		want          bool
	}{
		{11, 11, 3, 2, true}, {12, 0, 4, 3, true}, {10, 0, 3, 2, false}, {13, 12, 3, 2, false}, {11, 0, 2, 2, false}, {11, 0, 3, 1, false},
	} {
		m := &model{cuts: []cut{{width: 4}, {width: 3, row: 1}}, pieces: test.pieces, kinds: test.kinds,
			parents: []parent{{width: test.width, least: test.least}}}
		if got := m.allows(set); got != test.want {
			t.Errorf("%+v: %v, want %v", test, got, test.want)
		}
	}
}

// Keys tell patterns apart.
func TestKey(t *testing.T) {
	r := rand.New(rand.NewPCG(24, 2))
	known := map[string]pattern{}
	for range 3000 {
		p := pattern{parent: r.Int32N(3)}
		for c := range int32(3) {
			if n := r.Int32N(3) * (1 + 199*r.Int32N(2)); n > 0 {
				p.pieces = append(p.pieces, piece{c * 100, n})
			}
		}
		q, ok := known[p.key()]
		if ok && (q.parent != p.parent || !slices.Equal(q.pieces, p.pieces)) {
			t.Fatalf("%+v and %+v have one key", p, q)
		}
		known[p.key()] = p
	}
	if want := 3 * 5 * 5 * 5; len(known) > want || len(known) < want/2 {
		t.Errorf("%d keys, want most of %d", len(known), want)
	}
}

// What may not lie side by side is told for each of a set.
func TestClash(t *testing.T) {
	m := &model{}
	set := []piece{{0, 1}, {2, 1}}
	if m.clash(set, 1) {
		t.Error("cuts clash where none are apart")
	}
	m.apart = [][]int32{{1}, {0, 1}, {3}, {2}}
	for c, want := range []bool{false, true, false, true} {
		if got := m.clash(set, int32(c)); got != want {
			t.Errorf("cut %d beside %v clashes %v, want %v", c, set, got, want)
		}
	}
	for _, test := range []struct {
		set  []piece
		want bool
	}{
		{[]piece{{0, 1}, {2, 1}}, false}, {[]piece{{0, 3}}, false}, {[]piece{{0, 1}, {1, 1}}, true},
		{[]piece{{1, 1}}, false}, {[]piece{{1, 2}}, true}, {[]piece{{0, 1}, {2, 1}, {3, 1}}, true},
	} {
		if got := m.clashes(test.set); got != test.want {
			t.Errorf("%v clashes %v, want %v", test.set, got, test.want)
		}
	}
}
