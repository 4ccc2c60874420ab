package trim

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// mixable is a problem of one deckle with a solution by first fit: reels in
// random order, each set cut once or a few times.
func mixable(r *rand.Rand) (*model, solution) {
	deckle := int64(30 + r.IntN(40))
	m := &model{parents: []parent{{width: deckle, cost: 1, times: 1}}, groups: [][]int32{nil}, pieces: 3 + r.IntN(4), kinds: 2 + r.IntN(3), runs: 1 + r.IntN(2)}
	for c := range 4 + r.IntN(5) {
		m.groups[0] = append(m.groups[0], int32(c))
		m.cuts = append(m.cuts, m.cutOf(5+r.Int64N(deckle/2), c))
		m.rows = append(m.rows, row{})
	}
	var s solution
	for range 4 + r.IntN(6) {
		p, times := pattern{}, m.runs+r.IntN(4)
		for range 20 {
			with := pattern{pieces: added(slices.Clone(p.pieces), int32(r.IntN(len(m.cuts))), 1)}
			if sortPieces(with.pieces); m.allows(with) {
				p = with
			}
		}
		s.patterns, s.times = append(s.patterns, p), append(s.times, times)
	}
	for i, n := range m.made(s) {
		m.rows[i] = row{n, n}
	}
	s.cost = m.cost(&s)
	return m, m.merged(s)
}

func never() bool { return false }

// Mixing makes the same reels in as many sets, within all limits, of no more
// patterns where it was not made worse first, and the same again.
func TestMixed(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	saved := 0
	for n := range 300 {
		m, s := mixable(r)
		kicks := n % 4 // none in a quarter
		want, runs, patterns := m.made(s), m.cost(&s), len(s.patterns)
		got := m.mixed(s, 1, kicks, never)
		if !reflect.DeepEqual(m.made(got), want) || m.cost(&got) != runs || got.cost != s.cost {
			t.Fatalf("problem %d: makes %v in %d sets, want %v in %d", n, m.made(got), m.cost(&got), want, runs)
		}
		for i, p := range got.patterns {
			if !m.allows(p) || got.times[i] < m.runs {
				t.Errorf("problem %d: pattern %v is cut %d times, want at least %d, of at most %d reels and %d widths in %d",
					n, p, got.times[i], m.runs, m.pieces, m.kinds, m.parents[0].width)
			}
		}
		if kicks == 0 && len(got.patterns) > patterns {
			t.Errorf("problem %d: %d patterns, %d before", n, len(got.patterns), patterns)
		}
		saved += patterns - len(got.patterns)
		if again := m.mixed(s, 1, kicks, never); !reflect.DeepEqual(again, got) {
			t.Errorf("problem %d: another solution at another time", n)
		}
	}
	if saved < 100 {
		t.Errorf("%d patterns saved on 300 problems: want some on many", saved)
	}
}

// What is mended makes the same reels in as many sets, within all limits, cuts every
// pattern often enough and uses enough of its width.
func TestMended(t *testing.T) {
	t.Run("runs", func(t *testing.T) { testMended(t, func(m *model, _ solution) { m.runs++ }) })
	t.Run("width", func(t *testing.T) {
		testMended(t, func(m *model, s solution) {
			var used []int64
			for _, p := range s.patterns {
				used = append(used, m.used(p))
			}
			slices.Sort(used)
			m.parents[0].least = (used[0] + used[len(used)/2] + 1) / 2
		})
	})
}

// testMended mends solutions under a limit that some of their patterns don't keep.
func testMended(t *testing.T, limit func(*model, solution)) {
	r := rand.New(rand.NewPCG(11, 12))
	short, mended := 0, 0
	for n := range 300 {
		m, s := mixable(r)
		one := *m
		one.runs = 1
		s = one.mixed(s, uint64(n), 0, never)
		if limit(m, s); !lacking(m.mixer(s, 0, never)) {
			continue
		}
		short++
		steps := 0
		got, ok := m.mended(s, 100*mendMisses, mixNodes, func() bool { steps++; return steps > 3000 })
		if !ok {
			continue
		}
		mended++
		if !reflect.DeepEqual(m.made(got), m.made(s)) || m.cost(&got) != m.cost(&s) {
			t.Fatalf("problem %d: makes %v in %d sets, want %v in %d", n, m.made(got), m.cost(&got), m.made(s), m.cost(&s))
		}
		for i, p := range got.patterns {
			if !m.allows(p) || got.times[i] < m.runs {
				t.Errorf("problem %d: pattern %v is cut %d times, want at least %d", n, p, got.times[i], m.runs)
			}
		}
	}
	if short < 100 || mended < short/3 {
		t.Errorf("%d of %d plans mended, want many", mended, short)
	}
}

// lacking tells whether some pattern is cut too seldom or is too thin.
func lacking(x *mixer) bool {
	for i := range x.now.patterns {
		if runs, width := x.lacks(i); runs > 0 || width > 0 {
			return true
		}
	}
	return false
}

// Two sets that are each cut once, of 4 + 4 and of 3 + 3, are two of 4 + 3.
func TestMixedTwoToOne(t *testing.T) {
	m := &model{parents: []parent{{width: 8, cost: 1, times: 1}}, groups: [][]int32{{0, 1}}, pieces: 5, kinds: 5, runs: 1,
		cuts: []cut{{4, 0, 1, 0}, {3, 1, 1, 0}}, rows: []row{{2, 2}, {2, 2}}}
	got := m.mixed(solution{patterns: []pattern{{pieces: []piece{{0, 2}}}, {pieces: []piece{{1, 2}}}}, times: []int{1, 1}, cost: 2}, 1, 0, never)
	want := solution{patterns: []pattern{{pieces: []piece{{0, 1}, {1, 1}}}}, times: []int{2}, cost: 2}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("mixed is %v, want %v", got, want)
	}
}
