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

// leastCost is the least cost of a model, by trying everything.
func (m *model) leastCost() int64 {
	want := make([]int, len(m.rows))
	for i, x := range m.rows {
		want[i] = x.least
	}
	stock := int64(0)
	if len(m.stocks) > 0 {
		stock = m.stocks[0]
	}
	return m.cheapest(map[string]int64{}, want, stock)
}

// singles is a solver with a poor plan, in which every reel is a set of its own, and
// the bound by width.
func singles(m *model) *solver {
	s := &solver{master: newMaster(m, func() bool { return false }), enough: -1, never: 1 << 30}
	var sets []pattern
	var times []int
	for c, x := range m.cuts {
		sets, times = append(sets, pattern{pieces: []piece{{int32(c), 1}}}), append(times, m.rows[x.row].least)
	}
	s.keep(sets, times)
	s.raise(s.byWidth())
	return s
}

// Lists lead to the least cost, found here by trying everything.
func TestOverList(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	lowered := 0
	for n := range 400 {
		m := smallModel(r)
		least := m.leastCost()
		s := singles(m)
		for s.best.cost > least+2*s.priciest { // lists of far better plans are long
			s.best.cost--
		}
		before := s.best.cost
		if !s.overList() {
			t.Fatalf("model %d: %+v is not searched to the end", n, m)
		}
		if s.best.cost != least {
			t.Fatalf("model %d: %+v costs %d, want %d", n, m, s.best.cost, least)
		}
		if before > least {
			lowered++
			checkBest(t, s)
		}
	}
	if lowered < 300 {
		t.Errorf("%d of 400 plans became better, want most", lowered)
	}
}

// checkBest checks that the best plan has its cost, makes what is wanted and keeps
// all limits.
func checkBest(t *testing.T, s *solver) {
	t.Helper()
	m := s.m
	if made := m.made(s.best); m.cost(&s.best) != s.best.cost || !covers(m, made) {
		t.Errorf("model %+v: plan %+v makes %v", m, s.best, made)
	}
	for _, p := range s.best.patterns {
		if !m.allows(p) {
			t.Errorf("model %+v: set %+v is not allowed", m, p)
		}
	}
	for k, n := range m.stocks {
		for i, p := range s.best.patterns {
			for _, d := range m.parents[p.parent].draws {
				if int(d.stock) == k {
					n -= int64(d.n) * int64(s.best.times[i])
				}
			}
		}
		if n < 0 {
			t.Errorf("model %+v: plan %+v takes more than stock %d has", m, s.best, k)
		}
	}
}

// The ways to make up a cost lead to the least cost.
func TestBySplits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	for n := 0; n < 400; {
		m := smallModel(r)
		if len(m.parents) < 2 {
			continue
		}
		n++
		s, least := singles(m), m.leastCost()
		if !s.bySplits(0) {
			t.Fatalf("model %+v is not searched to the end", m)
		}
		if s.best.cost != least || s.lower != least {
			t.Fatalf("model %+v: cost %d and bound %d, want %d", m, s.best.cost, s.lower, least)
		}
		checkBest(t, s)
	}
}

// All ways to make 100 of 10, 9 and 4, three times 9 at most, that are 100 wide, by
// trying all.
func TestSplits(t *testing.T) {
	m := &model{
		rows:    []row{{100, 100}},
		cuts:    []cut{{width: 1, units: 1}},
		parents: []parent{{width: 10, cost: 10}, {width: 9, cost: 9, draws: []draw{{0, 1}}}, {width: 3, cost: 4}},
		stocks:  []int64{3},
	}
	for width := int64(80); width <= 100; width++ {
		m.rows[0].least = int(width)
		var want [][]int64
		for a := int64(10); a >= 0; a-- {
			for b := int64(3); b >= 0; b-- {
				for c := int64(0); c <= 25; c++ {
					if 10*a+9*b+4*c == 100 && 10*a+9*b+3*c >= width {
						want = append(want, []int64{a, b, c})
					}
				}
			}
		}
		got, ok := m.splits(100)
		if !ok || !slices.EqualFunc(got, want, slices.Equal) {
			t.Errorf("width %d: %v, %v, want %v", width, got, ok, want)
		}
	}
	m.parents[2], m.stocks[0] = parent{width: 1, cost: 1}, 100 // 68 ways
	if got, ok := m.splits(100); ok {
		t.Errorf("%d ways are not too many", len(got))
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
