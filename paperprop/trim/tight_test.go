package trim

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// smallModel has few reels, one deckle or two of which one may be scarce, and may
// have a limit across.
func smallModel(r *rand.Rand) *model {
	m := &model{groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}
	width := 20 + r.Int64N(20)
	for n := 2 + r.IntN(4); len(m.cuts) < n; {
		w := 3 + r.Int64N(width/2)
		if slices.ContainsFunc(m.cuts, func(c cut) bool { return c.width == w }) {
			continue
		}
		m.groups[0] = append(m.groups[0], int32(len(m.cuts)))
		want := 1 + r.IntN(3)
		m.cuts = append(m.cuts, m.cutOf(w, len(m.rows)))
		m.rows = append(m.rows, row{want, want})
	}
	m.parents = []parent{{width: width, cost: 1, times: 1}}
	if r.IntN(2) == 0 {
		m.parents[0].cost = width
		narrow := width * 3 / 4
		m.parents = append(m.parents, parent{width: narrow, cost: narrow, times: 1})
		if r.IntN(2) == 0 {
			m.parents[1].draws = []draw{{0, 1}}
			m.stocks = []int64{r.Int64N(3)}
		}
	}
	if r.IntN(3) == 0 {
		m.pieces = 2 + r.IntN(2)
	}
	m.sortCuts()
	return m
}

// cheapest is the least cost, by trying all sets for what is left, one after another.
func (m *model) cheapest(known map[string]int64, want []int, stock int64) int64 {
	first := slices.IndexFunc(want, func(n int) bool { return n > 0 })
	if first < 0 {
		return 0
	}
	key := string(append(encoded(want), byte(stock)))
	if cost, ok := known[key]; ok {
		return cost
	}
	best := int64(1 << 40)
	for j, d := range m.parents {
		left := stock
		if len(d.draws) > 0 {
			if left--; left < 0 {
				continue
			}
		}
		var fill func(c int, room int64, pieces int)
		fill = func(c int, room int64, pieces int) {
			if c == len(m.cuts) {
				if pieces < m.pieces { // some set holds the first, and order is no matter
					best = min(best, m.parents[j].cost+m.cheapest(known, want, left))
				}
				return
			}
			at := m.cuts[c].row
			for n := 0; n <= want[at] && int64(n)*m.cuts[c].width <= room && n <= pieces; n++ {
				want[at] -= n
				fill(c+1, room-int64(n)*m.cuts[c].width, pieces-n)
				want[at] += n
			}
		}
		for c := range m.cuts {
			if int(m.cuts[c].row) == first && m.cuts[c].width <= d.width {
				want[first]--
				fill(0, d.width-m.cuts[c].width, min(m.pieces, 1000)-1)
				want[first]++
			}
		}
	}
	known[key] = best
	return best
}

func encoded(want []int) (key []byte) {
	for _, n := range want {
		key = append(key, byte(n))
	}
	return key
}

// Lists lead to the least cost, found here by trying everything.
func TestOverList(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	lowered := 0
	for n := range 400 {
		m := smallModel(r)
		want := make([]int, len(m.rows))
		for i, x := range m.rows {
			want[i] = x.least
		}
		stock := int64(0)
		if len(m.stocks) > 0 {
			stock = m.stocks[0]
		}
		least := m.cheapest(map[string]int64{}, want, stock)
		s := &solver{master: newMaster(m, func() bool { return false }), enough: -1}
		s.never = 1 << 30
		// A plan to begin with: every reel is a set of its own.
		var sets []pattern
		var times []int
		for c, x := range m.cuts {
			sets, times = append(sets, pattern{pieces: []piece{{int32(c), 1}}}), append(times, m.rows[x.row].least)
		}
		s.keep(sets, times)
		for s.best.cost > least+2*s.priciest { // lists of far better plans are long
			s.best.cost--
		}
		before := s.best.cost
		s.raise(s.byWidth())
		if !s.overList() {
			t.Fatalf("model %d: %+v is not searched to the end", n, m)
		}
		if s.best.cost != least {
			t.Fatalf("model %d: %+v costs %d, want %d", n, m, s.best.cost, least)
		}
		if before > least {
			lowered++
			if made := m.made(s.best); m.cost(&s.best) != least || !covers(m, made) {
				t.Errorf("model %d: plan %+v makes %v", n, s.best, made)
			}
			for _, p := range s.best.patterns {
				if !m.allows(p) {
					t.Errorf("model %d: set %+v is not allowed", n, p)
				}
			}
		}
	}
	if lowered < 300 {
		t.Errorf("%d of 400 plans became better, want most", lowered)
	}
}

func covers(m *model, made []int) bool {
	for i, x := range m.rows {
		if made[i] < x.least {
			return false
		}
	}
	return true
}
