package trim

import (
	"math/rand/v2"
	"testing"
)

// No plan within a cost costs more, whether the search comes to its end or not.
func TestWithin(t *testing.T) {
	r := rand.New(rand.NewPCG(77, 1))
	for n := range 300 {
		m := hardModel(r)
		s := m.solveHard(func(part float64) func() bool { return after(int(part * 2000)) })
		if !s.has {
			continue
		}
		for _, patience := range []int{20, 200} {
			if got, ok := within(m, s.best.cost-1, never, patience, pool{}); ok && m.cost(&got) > s.best.cost-1 {
				t.Fatalf("model %d: %+v: within %d a plan of %d", n, m, s.best.cost-1, m.cost(&got))
			}
		}
		if few := m.fewer(s.best, after(3000)); m.cost(&few) > s.best.cost {
			t.Fatalf("model %d: %+v: fewer patterns cost %d, and %d before", n, m, m.cost(&few), s.best.cost)
		}
	}
}

// Dives over runs are made for costs up to a twentieth and two more than the bound, no more.
func TestSolveHardReach(t *testing.T) {
	up := func() bool { return true }
	for _, test := range []struct {
		twice, once int // rows of which two sets are wanted, or one which must be two
		want        bool
	}{{0, 1, true}, {0, 2, true}, {0, 3, false}, {9, 3, true}, {8, 4, false}, {8, 3, false}} {
		m := &model{groups: [][]int32{nil}, pieces: 9, kinds: 9, runs: 2, strict: true, parents: []parent{{width: 5000, cost: 1, times: 1}}}
		for i := range test.twice + test.once {
			m.groups[0] = append(m.groups[0], int32(i))
			m.cuts = append(m.cuts, m.cutOf(int64(5000-i), i)) // too wide for two
			m.rows = append(m.rows, row{1, 2})
			if i < test.twice {
				m.rows[i].least = 2
			}
		}
		s := m.solveHard(func(part float64) func() bool {
			if part == 0.5 {
				return after(1_000_000)
			}
			return up
		})
		lower := int64(test.twice*2 + test.once)
		if s.has != test.want || s.has && s.best.cost != int64(len(m.rows)*2) {
			t.Errorf("%+v: plan of %d, %v, want %d above a bound of about %d: %v", test, s.best.cost, s.has, len(m.rows)*2, lower, test.want)
		}
	}
}
