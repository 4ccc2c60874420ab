package trim

import "slices"

// Deckles of several widths add up to few costs, and the bound is seldom one that
// sets without trim come to. So how many sets each deckle gives is chosen first, all
// ways that come to a cost, the least cost first: what is left then has little room,
// and is soon found, or found to be none.

// What ways to make up a cost may take.
const (
	mostSplits   = 60      // of one cost
	splitTries   = 100_000 // to find them
	splitNodes   = 1000    // of the search of each
	splitGlances = 30      // before there is more than a quick plan
)

// bySplits raises the bound, or betters the best plan, until they meet. It is not ok
// if there are too many ways, one is not settled in so many nodes, or time is up.
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

// splits are all numbers of sets of the parents that come to a cost and are wide
// enough for what is wanted. It is not ok if there are too many.
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

// split is a model with so many sets of each parent.
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

// varied tells whether parents cost differently.
func (m *model) varied() bool {
	return slices.ContainsFunc(m.parents, func(d parent) bool { return d.cost != m.parents[0].cost })
}
