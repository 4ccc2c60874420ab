package trim

import "slices"

// Deckles of several widths add up to only a few costs, and sets without trim
// seldom reach the bound. So the numbers of sets per deckle are chosen first: all
// combinations of a cost, the least cost first. The rest then has little room, and
// is soon solved or shown to have no solution.

// Limits of the search over the combinations of a cost.
const (
	mostSplits   = 60      // combinations of one cost
	splitTries   = 100_000 // steps to find them
	splitNodes   = 1000    // for the search of each
	splitGlances = 30      // while there is only a quick plan
)

// bySplits raises the bound or improves the best plan until they meet. It is not ok
// if there are too many combinations, one is not settled within the nodes, or time
// is up.
func (s *solver) bySplits(nodes int) (ok bool) {
	for !s.done() {
		splits, ok := s.m.splits(s.lower)
		if !ok {
			return false
		}
		pool := s.pool(len(s.patterns))
		for _, sets := range splits {
			t := &solver{master: newMaster(s.m.split(sets), s.stop), enough: s.lower, patience: nodes}
			t.knows(s)
			t.begin(pool)
			if t.run(); t.has {
				s.keep(t.best.patterns, t.best.times)
				return true
			}
			if !t.impossible {
				return false
			}
		}
		s.lower++
	}
	return true
}

// splits returns all combinations of sets per parent that come to a cost and are
// wide enough for what is wanted. It is not ok if there are too many.
func (m *model) splits(cost int64) (all [][]int64, ok bool) {
	var wanted int64
	for _, c := range m.cuts {
		if c.units == 1 {
			wanted += c.width * int64(m.rows[c.row].least)
		}
	}
	sets := make([]int64, len(m.parents))
	tries := 0
	var next func(j int, cost, wanted int64) bool
	next = func(j int, cost, wanted int64) bool {
		d := m.parents[j]
		most := cost / d.cost
		if tries++; tries > splitTries {
			return false
		}
		for _, x := range d.draws {
			most = min(most, m.stocks[x.stock]/int64(x.n))
		}
		if j < len(m.parents)-1 {
			for sets[j] = most; sets[j] >= 0; sets[j]-- {
				if !next(j+1, cost-sets[j]*d.cost, wanted-sets[j]*d.width) {
					return false
				}
			}
			return true
		}
		if sets[j] = most; most*d.cost == cost && most*d.width >= wanted {
			all = append(all, slices.Clone(sets))
		}
		return len(all) <= mostSplits
	}
	return all, next(0, cost, wanted)
}

// split returns the model with the given number of sets of each parent.
func (m *model) split(sets []int64) *model {
	t := *m
	t.parents, t.stocks = slices.Clone(m.parents), slices.Clone(m.stocks)
	for j, n := range sets {
		d := &t.parents[j]
		d.draws = append(slices.Clone(d.draws), draw{int32(len(t.stocks)), 1})
		t.stocks = append(t.stocks, n)
	}
	return &t
}

// varied reports whether parents differ in cost.
func (m *model) varied() bool {
	return slices.ContainsFunc(m.parents, func(d parent) bool { return d.cost != m.parents[0].cost })
}
