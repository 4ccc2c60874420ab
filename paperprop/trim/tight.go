package trim

import "math"

// The sets of a plan share what so many sets may cost above the bound. A set that
// alone falls short of full value by more than this gap is in no such plan. If the
// bound leaves no gap, sets must have full value under all the best dual values,
// and the fewest sets have it under dual values inside the face of these: of 10^14
// full sets a few hundred, so that they can be listed and searched (Dantzig,
// Fulkerson and Johnson 1954 rule out by reduced costs; de Lima, Iori and Miyazawa
// 2023 look for dual values inside the face).

// How much cheaper patterns are made, to move dual values into their face. The runs
// of all cheaper patterns add up to little compared with one set, so the gap that
// this opens is far smaller than the distance it moves a pattern.
const (
	ease      = 1e-2
	easedRuns = 1e-2
)

// gap returns by how much sets may fall short of full value under the present dual
// values, all together, in a plan of that cost with what is fixed. If it is below
// zero, no plan has such a cost.
func (s *master) gap(cost int64) int64 {
	gap := s.proof.full * (cost - s.spent)
	for i, n := range s.least {
		gap -= s.proof.row[i] * int64(max(0, n))
	}
	for k, n := range s.stocks {
		gap += s.proof.spare[k] * n
	}
	return gap
}

// list returns the patterns that fall short of full value by no more than gap. It
// is not ok if there are more than limit.
func (s *master) list(gap int64, limit int) (list []pattern, ok bool) {
	for j, d := range s.m.parents {
		if !drawable(d, s.stocks, 1) {
			continue
		}
		for g := range s.m.groups {
			s.spread(j, g)
			found, ok := s.sack.all(s.proof.full*d.cost+s.proof.of(d)-gap, limit-len(list))
			if !ok {
				return nil, false
			}
			for _, set := range found {
				list = append(list, pattern{int32(j), int32(g), set})
			}
		}
	}
	return list, true
}

// spread makes the table of what sets of a parent and group are worth.
func (s *master) spread(parent, group int) {
	d := s.m.parents[parent]
	d.least = max(1, d.least) // so that sets worth nothing have a place too
	s.offer(s.m.groups[group], d)
	s.sack.items, s.sack.room = s.items, limits{d.width, d.least, s.m.pieces, s.m.kinds}
	s.sack.foresee()
}

// inner solves the linear program to optimality, and leaves dual values mixed from
// the best ones, until every pattern with full value under them is part of some
// solution; weights are made from these. It is not ok if time is up.
func (s *master) inner() (ok bool) {
	p := s.lp
	for p.primal(); !s.stop() && s.generate(0); p.primal() {
	}
	y := append([]float64(nil), p.y...)
	first := len(s.patterns)
	seen := make([]bool, first)
	for k := 2.0; !s.stop(); k++ {
		var fresh []int
		for c := s.bought; c < len(seen); c++ {
			if !seen[c] && p.value(p.m+c) <= 0 && s.falls(c, y) < 1e-6*p.cost[p.m+c] {
				fresh = append(fresh, c)
				seen[c] = true
			}
		}
		if len(fresh) == 0 {
			break
		}
		for _, c := range fresh {
			s.put(s.patterns[c], p.columns[c], (1-ease)*p.cost[p.m+c])
			p.high[p.m+len(s.patterns)-1] = easedRuns / float64(1000+len(fresh))
			seen = append(seen, true)
		}
		for p.primal(); !s.stop() && s.generate(0); p.primal() {
		}
		for i := range y {
			y[i] += (p.y[i] - y[i]) / k
		}
		seen = append(seen, make([]bool, len(s.patterns)-len(seen))...)
	}
	// The cheaper patterns now equal those they were made from.
	for c := first; c < len(s.patterns); c++ {
		p.cost[p.m+c], p.high[p.m+c] = float64(s.m.parents[s.patterns[c].parent].cost), math.Inf(1)
	}
	p.settle()
	p.primal()
	y, p.y = p.y, y
	s.generate(0)
	p.y = y
	return !s.stop()
}

// falls returns by how much a pattern falls short of full value.
func (s *master) falls(c int, y []float64) float64 {
	d := s.lp.cost[s.lp.m+c]
	for _, e := range s.lp.columns[c] {
		d -= y[e.row] * float64(e.n)
	}
	return d
}

// listed searches these patterns only for a plan of at most that cost.
func listed(m *model, list []pattern, cost int64, stop func() bool) *solver {
	s := &solver{master: newMaster(m, stop), enough: cost, never: cost + 1}
	s.whole = true
	for i, p := range list {
		c, _ := s.take(p)
		// All have the same value, so exchanges would go round in circles.
		s.lp.cost[s.lp.m+c] *= 1 + 1e-6*float64(1+i*7919%1009)/1009
	}
	s.lp.settle()
	return s
}

// overList looks for better plans than the best by lists, until there are none. It
// is not ok if too much would have to be listed, or time is up.
func (s *solver) overList() (ok bool) {
	for !s.done() {
		cost := s.goal() - 1
		if cost > s.priciest<<24 { // the worth of so many sets exceeds an int64
			return false
		}
		t := &solver{master: nudged(s.m, 1e-3, s.stop), enough: cost, never: cost + 1}
		t.begin(pool{patterns: s.patterns[s.bought:]})
		if lower, ok := t.relax(cost + 1); lower > cost {
			return true
		} else if !ok || !t.inner() {
			return false
		}
		gap := t.gap(cost)
		if gap < 0 {
			return true
		}
		list, ok := t.list(gap, mostListed)
		if !ok {
			return false
		}
		found := listed(s.m, list, cost, s.stop)
		complete := found.branch()
		if !found.has {
			return complete
		}
		s.keep(found.best.patterns, found.best.times)
	}
	return true
}

// listable reports whether the sets of a model can be listed: tables have at most
// so many cells, and neither a least width nor least runs ask for more than a row
// wants.
func (m *model) listable(most int64) bool {
	cells := int64(0)
	for _, d := range m.parents {
		if d.least > 0 || d.times > 1 {
			return false
		}
		cells = max(cells, d.width*int64(len(m.cuts)))
	}
	return !m.strict && m.runs <= 1 && cells <= most
}

// dearestOfPool returns the least value of full that no permitted pattern of the
// pool exceeds.
func (s *master) dearestOfPool() int64 {
	full := s.unit
	s.worth = grown(s.worth, len(s.patterns))
	for c := s.bought; c < len(s.patterns); c++ {
		s.worth[c] = 0
		if s.closed[c] || !s.fits(c) {
			continue
		}
		d := s.m.parents[s.patterns[c].parent]
		for _, x := range s.patterns[c].pieces {
			cut := s.m.cuts[x.cut]
			s.worth[c] += s.proof.row[cut.row] * int64(x.n*cut.units*d.times)
		}
		s.worth[c] -= s.proof.of(d)
		if s.worth[c] > full*d.cost {
			full = (s.worth[c] + d.cost - 1) / d.cost
		}
	}
	return full
}

// ruleOut closes the patterns that fall too far short of full value to be in a plan
// of that cost with what is fixed, and returns them.
func (s *master) ruleOut(cost int64) (out []int) {
	gap := s.gap(cost)
	for c := s.bought; c < len(s.worth); c++ {
		full := s.proof.full * s.m.parents[s.patterns[c].parent].cost
		if !s.closed[c] && full-s.worth[c] > gap && s.fits(c) {
			out = append(out, c)
		}
	}
	s.close(out, true)
	return out
}

func (s *master) close(columns []int, closed bool) {
	for _, c := range columns {
		s.closed[c] = closed
	}
	if closed {
		s.shut += len(columns)
	} else {
		s.shut -= len(columns)
	}
}
