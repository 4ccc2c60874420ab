package trim

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// fullSets is a problem of sets that must all be full, or nearly: widths that
// were cut from some sets, and moved about a little.
func fullSets(r *rand.Rand) (widths []int64, deckle int64, sets int) {
	deckle, sets = int64(40+r.IntN(60)), 3+r.IntN(4)
	for range sets {
		left := deckle
		for range 2 {
			if left < 6 {
				break
			}
			w := 2 + r.Int64N(left-4)
			widths, left = append(widths, w), left-w
		}
		widths = append(widths, left)
	}
	for range r.IntN(12) {
		a, b := r.IntN(len(widths)), r.IntN(len(widths))
		if a != b && widths[a] > 2 && widths[b] < deckle {
			widths[a]--
			widths[b]++
		}
	}
	widths[0] = max(1, widths[0]-r.Int64N(3))
	return widths, deckle, sets
}

// packing is the model of sets of such widths.
func packing(widths []int64, deckle int64) *model {
	m := &model{parents: []parent{{width: deckle, cost: 1, times: 1}}, groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}
	slices.SortFunc(widths, func(a, b int64) int { return int(b - a) })
	for _, w := range widths {
		if last := len(m.cuts) - 1; last >= 0 && m.cuts[last].width == w {
			m.rows[last].least++
			m.rows[last].most++
			continue
		}
		m.groups[0] = append(m.groups[0], int32(len(m.cuts)))
		m.cuts = append(m.cuts, m.cutOf(w, len(m.rows)))
		m.rows = append(m.rows, row{1, 1})
	}
	return m
}

// packs tells whether widths fit into rooms, by trying all.
func packs(widths, rooms []int64) bool {
	if len(widths) == 0 {
		return true
	}
	for i := range rooms {
		if rooms[i] < widths[0] || slices.Contains(rooms[:i], rooms[i]) {
			continue
		}
		rooms[i] -= widths[0]
		ok := packs(widths[1:], rooms)
		rooms[i] += widths[0]
		if ok {
			return true
		}
	}
	return false
}

// A search finds a plan of so many sets where there is one, and else comes to its
// end: over a list of sets, over the sets of a rare reel, over pairs.
func TestPairs(t *testing.T) {
	for _, test := range []struct {
		name       string
		list, ways int
		nodes      int // at most; what rules sets out keeps them few
	}{{"list", mostListed, mostTried, 600}, {"ways", 0, mostTried, 610}, {"some ways", 2, 2, 620}, {"pairs", 0, 0, 620}} {
		t.Run(test.name, func(t *testing.T) { searches(t, test.list, test.ways, test.nodes) })
	}
}

func searches(t *testing.T, list, ways, most int) {
	r := rand.New(rand.NewPCG(7, 8))
	planned, nodes := 0, 0
	for n := range 600 {
		widths, deckle, sets := fullSets(r)
		m := packing(widths, deckle)
		rooms := make([]int64, sets)
		for i := range rooms {
			rooms[i] = deckle
		}
		want := packs(widths, rooms)
		p := &pairing{sets: int64(sets), slack: m.slack(int64(sets)), stop: func() bool { return false }, list: list, ways: ways}
		if !p.search(p.root(newMaster(m, p.stop))) || p.has != want {
			t.Fatalf("problem %d: widths %v in %d sets of %d: has %v, want %v", n, widths, sets, deckle, p.has, want)
		}
		nodes += p.nodes
		if !p.has {
			continue
		}
		planned++
		made := m.made(p.found)
		for i, x := range m.rows {
			if made[i] < x.least {
				t.Errorf("problem %d: %d of width %d, want %d", n, made[i], m.cuts[i].width, x.least)
			}
		}
		for _, q := range p.found.patterns {
			if !m.allows(q) {
				t.Errorf("problem %d: set %v is too wide", n, q)
			}
		}
		if m.cost(&p.found) > int64(sets) {
			t.Errorf("problem %d: %d sets, want %d", n, m.cost(&p.found), sets)
		}
	}
	if planned < 100 || planned > 500 || list == 0 && nodes < 605 || nodes > most {
		t.Errorf("%d of 600 planned in %d nodes: want some of either sort, some that need a search, and at most %d nodes", planned, nodes, most)
	}
}
