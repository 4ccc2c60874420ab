package trim

import (
	"cmp"
	"math"
	"slices"
)

// A complete search for a plan of so many sets, which together leave so much width
// and no more. A set that leaves more is in no such plan, nor is one that the
// linear program rules out (see inner): often few remain.
//
//   - If all can be listed, the list is searched.
//   - If some reel lies in few of them, these are tried one after another.
//   - Otherwise the search is over pairs of reels (Ryan and Foster 1981, as Vance
//     1998 has it for cutting stock): either some set holds an a and a b, and the
//     two become one wider reel; or none does, and the two never lie side by side.
//
// What is left each time is a problem of the same kind, only smaller or narrower.

// A pairing is such a search.
type pairing struct {
	slack int64 // width that all sets together may leave
	sets  int64 // of the plan sought
	stop  func() bool
	found solution // in pieces of the problem
	has   bool
	nodes int
	list  int // the most sets that are listed
	ways  int // the most sets with a certain reel that are tried one after another
}

const (
	mostListed = 5000
	mostTried  = 20
)

// A node is a problem whose reels may each be several that lie side by side.
type node struct {
	*model
	sets  int64     // that it may take
	taken [][]piece // sets that are settled, in cuts of the problem
	parts [][]piece // of each cut, in cuts of the problem
	pool  pool      // that its linear program begins with
}

// pairable reports whether this search suits a model: sets of one parent, limited
// only by width, few reels of each width, and sets that must be nearly full.
func (m *model) pairable(sets int64) bool {
	if len(m.parents) != 1 || len(m.groups) != 1 || len(m.stocks) > 0 || !m.listable(mostAhead) {
		return false
	}
	d := m.parents[0]
	reels := 0
	for _, r := range m.rows {
		reels += r.least
	}
	return reels <= 2*len(m.rows) && d.cost == 1 && m.pieces >= int(d.width) && m.kinds >= len(m.cuts) &&
		len(m.cuts) == len(m.rows) && 1000*m.slack(sets) < d.width
}

// slack returns the width that so many sets have beyond what is wanted.
func (m *model) slack(sets int64) int64 {
	left := m.parents[0].width * sets
	for _, c := range m.cuts {
		left -= c.width * int64(m.rows[c.row].least)
	}
	return left
}

// pairs looks for plans of fewer sets than the best, until there are none.
func (s *solver) pairs() bool {
	for !s.done() {
		p := &pairing{sets: s.best.cost - 1, stop: s.stop, list: mostListed, ways: mostTried}
		p.slack = s.m.slack(p.sets)
		if !p.search(p.root(s.master)) {
			return false
		}
		if !p.has {
			return true
		}
		s.keep(p.found.patterns, p.found.times)
	}
	return true
}

// root returns the whole problem, with sets that leave little.
func (p *pairing) root(s *master) *node {
	m := *s.m
	m.cuts, m.rows = nil, nil
	n := &node{model: &m, sets: p.sets}
	n.parents = []parent{{width: s.m.parents[0].width, cost: 1, times: 1}}
	n.parents[0].least = max(1, n.parents[0].width-p.slack)
	n.groups = [][]int32{nil}
	n.apart = make([][]int32, len(s.m.cuts))
	for c, cut := range s.m.cuts {
		want := s.m.rows[cut.row].least
		n.rows = append(n.rows, row{want, want})
		n.cuts = append(n.cuts, m.cutOf(cut.width, c))
		n.parts = append(n.parts, []piece{{int32(c), 1}})
	}
	n.sortGroup()
	for c := s.bought; c < len(s.patterns); c++ {
		n.pool.patterns = append(n.pool.patterns, s.patterns[c])
	}
	return n
}

func (m *model) cutOf(width int64, row int) cut { return cut{width, int32(row), 1, 0} }

func (n *node) sortGroup() {
	group := make([]int32, len(n.cuts))
	for c := range group {
		group[c] = int32(c)
	}
	n.groups = [][]int32{group}
	n.sortCuts()
}

// search searches a node. It reports whether it came to an end: found a plan, or
// made sure that there is none.
func (p *pairing) search(n *node) bool {
	p.nodes++
	if len(n.rows) == 0 {
		p.take(n, solution{})
		return true
	}
	s := p.relaxed(n)
	if s.lower > n.sets {
		return true
	}
	if p.stop() || s.doubt || !s.inner() {
		return false
	}
	gap := s.gap(n.sets)
	if gap < 0 {
		return true
	}
	if list, ok := s.list(gap, p.list); ok {
		return p.over(n, list)
	}
	ways, few := s.sack.rarest(s.proof.full-gap, p.ways)
	slices.SortStableFunc(ways, func(a, b []piece) int { return cmp.Compare(s.runs(b), s.runs(a)) })
	q, paired := p.pick(n, s.master)
	if p.dives(n, s, !few && !paired) {
		return true
	}
	pool := s.pool(4 * len(s.m.rows))
	s = nil // a dense inverse at every depth would take much memory
	var next []func() *node
	switch {
	case few:
		for _, set := range ways {
			next = append(next, func() *node { return n.without(set, pool) })
		}
	case paired:
		next = append(next, func() *node { return n.together(q, pool) }, func() *node { return n.beside(q, pool) })
	default:
		return false
	}
	complete := true
	for _, child := range next {
		all := p.search(child())
		if p.has || p.stop() {
			return p.has
		}
		complete = complete && all
	}
	return complete
}

// over searches a node for a plan of these sets only.
func (p *pairing) over(n *node, list []pattern) bool {
	s := listed(n.model, list, n.sets, p.stop)
	complete := s.branch()
	if s.has {
		p.take(n, s.best)
	}
	return complete || s.has
}

// dives looks for a plan at the root: if nothing else helps, and now and then.
func (p *pairing) dives(n *node, s *solver, stuck bool) bool {
	dives := 0
	switch {
	case p.nodes == 1:
		dives = rootDives
	case stuck || p.nodes&(p.nodes-1) == 0:
		dives = 1
	}
	root := s.lp.save()
	for seed := range dives {
		s.dive(seed)
		if s.has {
			p.take(n, s.best)
			return true
		}
		s.release()
		s.lp.restore(root)
	}
	return false
}

// rootDives is the number of dives before the search begins.
const rootDives = 8

// relaxed solves the linear program of a node. If all sets are full, no two bases
// differ in cost, so the rows ask for slightly more, each by a different amount,
// until the end is near.
func (p *pairing) relaxed(n *node) *solver {
	s := &solver{master: nudged(n.model, 1e-3, p.stop), enough: n.sets, never: n.sets + 1}
	s.begin(n.pool)
	s.raise(s.byWidth())
	lower, ok := s.relax(n.sets + 1)
	if lower > n.sets || ok {
		s.lower = max(s.lower, lower)
	} else {
		s.doubt = true
	}
	return s
}

// take stores a plan of a node in pieces of the problem.
func (p *pairing) take(n *node, s solution) {
	p.has, p.found = true, solution{cost: s.cost + int64(len(n.taken))}
	for i, q := range s.patterns {
		p.found.patterns = append(p.found.patterns, pattern{pieces: n.spelt(q.pieces)})
		p.found.times = append(p.found.times, s.times[i])
	}
	for _, set := range n.taken {
		p.found.patterns = append(p.found.patterns, pattern{pieces: set})
		p.found.times = append(p.found.times, 1)
	}
}

// spelt returns a set of a node in pieces of the problem.
func (n *node) spelt(set []piece) (out []piece) {
	for _, x := range set {
		for _, part := range n.parts[x.cut] {
			out = added(out, part.cut, part.n*x.n)
		}
	}
	sortPieces(out)
	return out
}

func added(set []piece, cut, n int32) []piece {
	for i := range set {
		if set[i].cut == cut {
			set[i].n += n
			return set
		}
	}
	return append(set, piece{cut, n})
}

// runs returns how often the linear program cuts a set.
func (s *master) runs(set []piece) float64 {
	if c, ok := s.known[pattern{pieces: set}.key()]; ok {
		return s.lp.value(s.lp.m + c)
	}
	return 0
}

// A pair is two cuts, possibly the same.
type pair struct{ a, b int32 }

// pick returns the pair whose runs are furthest from whole, the widest of several.
// It is not ok if all are practically whole.
func (p *pairing) pick(n *node, s *master) (best pair, ok bool) {
	runs := map[pair]float64{}
	for c := s.bought; c < len(s.patterns); c++ {
		x := s.lp.value(s.lp.m + c)
		if x < 1e-6 {
			continue
		}
		set := s.patterns[c].pieces
		for i, u := range set {
			if u.n > 1 {
				runs[pair{u.cut, u.cut}] += x
			}
			for _, v := range set[i+1:] {
				runs[pair{u.cut, v.cut}] += x
			}
		}
	}
	width := func(q pair) int64 { return n.cuts[q.a].width + n.cuts[q.b].width }
	most := 0.01
	for q, x := range runs {
		part := x - math.Floor(x)
		part = math.Round(1e6*min(part, 1-part)) / 1e6
		if part < most {
			continue
		}
		if part > most || !ok || cmp.Or(cmp.Compare(width(q), width(best)), cmp.Compare(best.a, q.a), cmp.Compare(best.b, q.b)) > 0 {
			best, most, ok = q, part, true
		}
	}
	return best, ok
}

// of returns a node that wants so many of each row, and the number that each cut of
// n has in it.
func (n *node) of(want []int) (c *node, to []int32) {
	m := *n.model
	m.rows, m.cuts = nil, nil
	c = &node{model: &m, sets: n.sets, taken: n.taken}
	to = make([]int32, len(n.cuts))
	for i, cut := range n.cuts {
		to[i] = -1
		if want[i] > 0 {
			to[i] = int32(len(c.cuts))
			c.cuts = append(c.cuts, n.cutOf(cut.width, len(c.rows)))
			c.rows = append(c.rows, row{want[i], want[i]})
			c.parts = append(c.parts, n.parts[i])
		}
	}
	c.apart = make([][]int32, len(c.cuts), len(c.cuts)+1)
	for i, list := range n.apart {
		for _, j := range list {
			if to[i] >= 0 && to[j] >= 0 {
				c.apart[to[i]] = append(c.apart[to[i]], to[j])
			}
		}
	}
	return c, to
}

// wanted returns what a node wants of each row.
func (n *node) wanted() (want []int) {
	for _, r := range n.rows {
		want = append(want, r.least)
	}
	return want
}

// without returns the node in which a set is settled.
func (n *node) without(set []piece, from pool) *node {
	want := n.wanted()
	for _, x := range set {
		want[x.cut] -= int(x.n)
	}
	c, to := n.of(want)
	c.sets--
	c.taken = append(slices.Clip(c.taken), n.spelt(set))
	c.sortGroup()
	for i, p := range from.patterns {
		if q, ok := renamed(p, to, -1, -1, -1); ok {
			c.pool.patterns = append(c.pool.patterns, q)
		}
		if i < from.base {
			c.pool.base = len(c.pool.patterns)
		}
	}
	return c
}

// together returns the node in which an a and a b are one reel.
func (n *node) together(q pair, from pool) *node {
	a, b := q.a, q.b
	want := n.wanted()
	want[a]--
	want[b]--
	c, to := n.of(want)
	wide := int32(len(c.cuts))
	c.cuts = append(c.cuts, n.cutOf(n.cuts[a].width+n.cuts[b].width, len(c.rows)))
	c.rows = append(c.rows, row{1, 1})
	parts := slices.Clone(n.parts[a])
	for _, x := range n.parts[b] {
		parts = added(parts, x.cut, x.n)
	}
	c.parts = append(c.parts, parts)
	c.apart = append(c.apart, nil)
	for _, j := range slices.Concat(n.apart[a], n.apart[b]) {
		if k := to[j]; k >= 0 && !slices.Contains(c.apart[wide], k) {
			c.apart[wide] = append(c.apart[wide], k)
			c.apart[k] = append(c.apart[k], wide)
		}
	}
	c.sortGroup()
	for i, p := range from.patterns {
		if q, ok := renamed(p, to, a, b, wide); ok {
			c.pool.patterns = append(c.pool.patterns, q)
		}
		if q, ok := renamed(p, to, -1, -1, -1); ok {
			c.pool.patterns = append(c.pool.patterns, q)
		}
		if i < from.base {
			c.pool.base = len(c.pool.patterns)
		}
	}
	return c
}

// renamed returns a pattern with new numbers for its cuts, and an a and a b in it
// as one reel. It is not ok if it lacks these, or a cut has no new number.
func renamed(p pattern, to []int32, a, b, wide int32) (pattern, bool) {
	out := pattern{p.parent, p.group, nil}
	gone := 0
	for _, x := range p.pieces {
		for _, w := range [...]int32{a, b} {
			if x.cut == w && x.n > 0 {
				x.n--
				gone++
			}
		}
		if x.n == 0 {
			continue
		}
		if to[x.cut] < 0 {
			return out, false
		}
		out.pieces = append(out.pieces, piece{to[x.cut], x.n})
	}
	if wide >= 0 {
		if gone < 2 {
			return out, false
		}
		out.pieces = append(out.pieces, piece{wide, 1})
	}
	sortPieces(out.pieces)
	return out, true
}

// beside returns the node in which no set holds an a and a b.
func (n *node) beside(q pair, from pool) *node {
	a, b, m := q.a, q.b, *n.model
	c := &node{model: &m, sets: n.sets, taken: n.taken, parts: n.parts}
	c.apart = slices.Clone(n.apart)
	c.apart[a] = append(slices.Clone(c.apart[a]), b)
	if a != b {
		c.apart[b] = append(slices.Clone(c.apart[b]), a)
	}
	for i, p := range from.patterns {
		if !c.clashes(p.pieces) {
			c.pool.patterns = append(c.pool.patterns, p)
		}
		if i < from.base {
			c.pool.base = len(c.pool.patterns)
		}
	}
	return c
}

// clashes reports whether a set holds cuts that may not lie side by side.
func (m *model) clashes(set []piece) bool {
	for i, x := range set {
		for _, y := range set[i:] {
			if (x.cut != y.cut || x.n > 1) && slices.Contains(m.apart[x.cut], y.cut) {
				return true
			}
		}
	}
	return false
}
