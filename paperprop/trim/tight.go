package trim

import "math"

// The sets of a plan share what so many sets may cost above the bound. A set that
// alone falls short of full value by more than this gap is in no such plan. Where
// the bound leaves no gap, sets must have full value under all the dual values
// that are best, and under such as lie inside the face of these the fewest have:
// of 10^14 full sets a few hundred, so that they can be listed and searched
// (reduced costs as Dantzig, Fulkerson and Johnson 1954 use them, to rule out;
// dual values inside the face as de Lima, Iori and Miyazawa 2023 look for them).

// How much cheaper patterns are made, to move dual values into their face. The
// runs of all that are cheaper add up to little beside one set, so the gap that
// this opens is far smaller than what it moves a pattern away.
const (
	ease      = 1e-2
	easedRuns = 1e-2
)

// floor gives the present dual values their weights, and says what a set must be
// worth under them to be in a plan of so many sets; there is none if not any can
// be. What is worth so much is found in the sack.
func (s *master) floor(sets int64) (floor int64, any bool) {
	s.weights(0)
	d := s.m.parents[0]
	s.offer(s.m.groups[0], d)
	k := &s.sack
	k.items, k.room = s.items, limits{d.width, d.least, s.m.pieces, s.m.kinds}
	k.foresee()
	full := k.ahead[d.width]
	gap := full * sets
	for i, n := range s.least {
		gap -= s.proof.row[i] * int64(n)
	}
	return full - gap, gap >= 0
}

// inner solves the linear program to the end, and leaves dual values that are
// mixed of the best there are, until each pattern that has full value under them
// is part of some solution. It is not ok if time is up.
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
			if !seen[c] && p.value(p.m+c) <= 0 && s.falls(c, y) < 1e-6 {
				fresh = append(fresh, c)
				seen[c] = true
			}
		}
		if len(fresh) == 0 {
			break
		}
		for _, c := range fresh {
			s.put(s.patterns[c], p.columns[c], p.cost[p.m+c]-ease)
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
	// The cheaper ones are now like those they were made from.
	for c := first; c < len(s.patterns); c++ {
		p.cost[p.m+c], p.high[p.m+c] = float64(s.m.parents[s.patterns[c].parent].cost), math.Inf(1)
	}
	p.settle()
	p.primal()
	copy(p.y, y)
	return !s.stop()
}

// falls is by how much a pattern falls short of full value.
func (s *master) falls(c int, y []float64) float64 {
	d := s.lp.cost[s.lp.m+c]
	for _, e := range s.lp.columns[c] {
		d -= y[e.row] * float64(e.n)
	}
	return d
}

// listed is a search over these patterns alone for a plan of so many sets.
func listed(m *model, list [][]piece, sets int64, stop func() bool) *solver {
	s := &solver{master: newMaster(m, stop), enough: sets, never: sets + 1}
	s.whole = true
	for i, set := range list {
		c, _ := s.take(pattern{pieces: set})
		// All have the same value, so that exchanges would go round in circles.
		s.lp.cost[s.lp.m+c] += 1e-6 * float64(1+i*7919%1009) / 1009
	}
	s.lp.settle()
	return s
}

// dearestOfPool is the most that a pattern of the pool is worth that may be cut.
func (s *master) dearestOfPool() int64 {
	most := s.unit
	s.worth = grown(s.worth, len(s.patterns))
	for c := s.bought; c < len(s.patterns); c++ {
		s.worth[c] = 0
		if s.closed[c] || !s.fits(c) {
			continue
		}
		for _, e := range s.lp.columns[c] {
			s.worth[c] += s.proof.row[e.row] * int64(e.n)
		}
		most = max(most, s.worth[c])
	}
	return most
}

// ruleOut closes what falls too short of full value to be in a plan of that cost
// with what is fixed, and returns it.
func (s *master) ruleOut(cost int64) (out []int) {
	gap := s.proof.full * (cost - s.spent)
	for i, n := range s.above(s.least) {
		gap -= s.proof.row[i] * int64(n)
	}
	for c := s.bought; c < len(s.worth); c++ {
		if !s.closed[c] && s.proof.full-s.worth[c] > gap && s.fits(c) {
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
