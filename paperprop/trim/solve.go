package trim

import (
	"cmp"
	"math"
	"slices"
)

// A solver finds a plan of a model and proves it, as far as time allows.
type solver struct {
	*master
	best  solution
	has   bool
	lower int64
	shown proof // that proves byWeights
	// byWeights is the part of lower that weights prove; the rest is proven by a
	// search.
	byWeights int64
	// impossible is set if no plan can hold all rows.
	impossible bool
	// enough, unless below zero, is a cost that is low enough; a plan that costs
	// more is of no use.
	enough   int64
	sums     []bool // which costs the deckles add up to, as far as computed
	never    int64  // a cost above that of any plan
	nodes    int
	patience int // nodes after which a search gives up; 0 is never
}

// solve finds the least cost.
func solve(m *model, stop func() bool) *solver {
	s := &solver{master: newMaster(m, stop), enough: -1}
	s.run()
	return s
}

// within finds a solution of at most that cost, if a search with patience nodes
// finds one; 0 is without limit. It starts from a pool.
func within(m *model, cost int64, stop func() bool, patience int, from pool) (solution, bool) {
	s := &solver{master: newMaster(m, stop), enough: cost, patience: patience}
	s.begin(from)
	s.run()
	return s.best, s.has
}

// solveHard finds the least cost if a pattern must be cut several times, or a set
// has a least width. It first mends a plan whose patterns may be cut once, and be
// as thin as they like if there is no other. If that leads to no proof, there
// follow a search by runs, kept short as it finds little, longer mending, dives
// over patterns that are cut t times at once, and the search again. stop gives the
// end of a part of the time.
func (m *model) solveHard(stop func(part float64) func() bool) *solver {
	once := *m
	once.runs = 1
	t := &solver{master: newMaster(&once, stop(0.1)), enough: -1, patience: hardPatience}
	t.run()
	s := &solver{master: newMaster(m, stop(0.1)), enough: -1, patience: hardPatience}
	if t.impossible {
		return t // what is missing there is missing here
	}
	s.knows(t)
	if m.runs == 1 && t.has && t.best.cost <= t.lower {
		s.best, s.has = t.best, t.has
		return s
	}
	if !t.has {
		once.parents = slices.Clone(m.parents)
		for j := range once.parents {
			once.parents[j].least = 0
		}
		t = &solver{master: newMaster(&once, stop(0.1)), enough: -1, patience: hardPatience}
		t.run()
	}
	if t.has {
		s.best, s.has = m.mended(t.best, mendMisses, mendNodes, s.stop)
	}
	if m.runs > 1 && !s.done() {
		s.run()
	}
	if s.impossible || s.done() {
		return s
	}
	if t.has && (!s.has || t.best.cost < s.best.cost) {
		found, ok := m.mended(t.best, 100*mendMisses, mixNodes, stop(0.1))
		if !ok && !s.has {
			alike := once.mixed(t.best, 0, 0, stop(0.1))
			found, ok = m.mended(alike, 1000*mendMisses, mixNodes, stop(0.6))
		}
		if ok {
			s.best, s.has = found, true
		}
	}
	if s.done() {
		return s
	}
	sparse := stop(0.5)
	for cost := s.lower; !sparse() && (s.has && cost < s.best.cost || !s.has && cost <= s.lower+s.lower/20+2); cost++ {
		dives := misses
		if s.has {
			dives = 20
		}
		if found, ok := m.anySparse(cost, dives, sparse); ok {
			s.best, s.has = found, true
			break
		}
	}
	if s.done() {
		return s
	}
	last := &solver{master: newMaster(m, stop(0.4)), best: s.best, has: s.has, enough: -1}
	last.knows(s)
	last.run()
	return last
}

// knows takes the bound and proof of a search with no more limits: what no plan can
// do there, none can do here. Stocks that it lacked are worth nothing.
func (s *solver) knows(t *solver) {
	s.lower, s.byWeights = t.lower, t.byWeights
	s.shown.set(&t.shown)
	s.shown.spare = append(s.shown.spare, make([]int64, len(s.m.stocks)-len(t.m.stocks))...)
	s.root.set(&s.shown)
}

// hardPatience is the number of nodes for the first searches of hard problems.
const hardPatience = 10_000

// run goes from a quick plan and the bound of the linear program through dives to a
// complete search, and ends when plan and bound meet.
func (s *solver) run() {
	s.never = s.m.mostCost(s.priciest) + 1
	s.greedy()
	s.thickened()
	s.raise(s.byWidth())
	if s.has && s.enough < 0 && s.best.cost == s.lower+1 && s.m.pairable(s.lower) {
		if s.pairs() {
			s.lower = s.best.cost
		}
		return
	}
	lower, ok := s.relax(s.goal())
	if s.impossible = !s.has && lower >= s.goal(); s.impossible {
		return
	}
	s.raise(lower)
	if !ok || s.done() {
		return
	}
	root := s.lp.save()
	dives := 12
	if s.m.parents[0].least > 0 && len(s.m.rows) < 25 {
		dives = 3 // the rest seldom makes full sets, and a search is fast
	}
	split := s.enough < 0 && s.has && s.m.varied()
	for seed := range dives {
		if split && (seed == 0 && s.bySplits(splitGlances) || seed == divesFirst && s.bySplits(splitNodes)) {
			return
		}
		if seed == divesFirst && s.near() && s.m.listable(mostAhead/4) && s.overList() {
			s.lower = s.best.cost
			return
		}
		s.dive(seed)
		s.release()
		s.lp.restore(root)
		if s.done() || s.stop() {
			return
		}
	}
	if s.branch() {
		s.lower, s.impossible = s.best.cost, !s.has
	}
}

// mostCost returns what no plan costs more than: a set of the priciest for each reel, or
// all that stocks give, if parents draw from any.
func (m *model) mostCost(priciest int64) int64 {
	var reels, stocked int64
	for _, r := range m.asked() {
		reels += int64(max(r.least, r.most))
	}
	for _, d := range m.parents {
		sets := reels
		for _, x := range d.draws {
			sets = min(sets, m.stocks[x.stock]/int64(x.n))
		}
		stocked += sets * d.cost
	}
	return min(reels*priciest, stocked)
}

// divesFirst is the number of dives before sets are listed: most plans are found by
// the first.
const divesFirst = 4

// near reports whether the plan sought costs one set less than the best.
func (s *solver) near() bool {
	return s.enough < 0 && s.has && s.best.cost <= s.lower+s.priciest
}

// thickened takes a plan whose sets may be thinner than allowed, and fills them up
// with what may be made beyond demand.
func (s *solver) thickened() {
	m := *s.m
	sheets := slices.ContainsFunc(m.cuts, func(c cut) bool { return c.units > 1 })
	more := slices.ContainsFunc(m.rows, func(r row) bool { return r.least < r.most })
	if m.runs > 1 || s.enough >= 0 || sheets || !more || !slices.ContainsFunc(m.parents, func(d parent) bool { return d.least > 0 }) {
		return
	}
	m.strict, m.parents = false, slices.Clone(m.parents)
	for j := range m.parents {
		m.parents[j].least = 0
	}
	thin := &solver{master: newMaster(&m, s.stop), enough: -1, patience: patient}
	thin.run()
	if !thin.has {
		return
	}
	plan, made := m.lowered(thin.best)
	for i, p := range plan.patterns {
		thick := s.m.thick(p, plan.times[i], made)
		if s.m.used(thick) < s.m.parents[p.parent].least {
			return
		}
		plan.patterns[i] = thick
	}
	for r, n := range made {
		if n < m.rows[r].least || n > m.rows[r].most {
			return
		}
	}
	s.keep(plan.patterns, plan.times)
	for _, p := range plan.patterns {
		s.take(p)
	}
}

// thick fills up all runs of a pattern with the widest that rows may still take,
// until it is full enough, and counts them in made.
func (m *model) thick(p pattern, times int, made []int) pattern {
	for {
		next, row := pattern{}, 0
		for _, c := range m.groups[p.group] {
			cut := m.cuts[c]
			if made[cut.row]+times*int(cut.units) > m.rows[cut.row].most {
				continue
			}
			with := pattern{p.parent, p.group, added(slices.Clone(p.pieces), c, 1)}
			if m.used(with) <= m.parents[p.parent].width && m.countable(with) {
				next, row = with, int(c)
				break
			}
		}
		if next.pieces == nil || m.used(p) >= m.parents[p.parent].least {
			return p
		}
		sortPieces(next.pieces)
		p = next
		made[m.cuts[row].row] += times * int(m.cuts[row].units)
	}
}

// byWidth returns the bound by width: a reel is worth its width. Bounds of the
// linear program start from it.
func (s *solver) byWidth() int64 {
	p := &s.proven
	p.row, p.spare, p.full = make([]int64, len(s.m.rows)), make([]int64, len(s.m.stocks)), 1
	for _, c := range s.m.cuts {
		if v := c.width / int64(c.units); p.row[c.row] == 0 || v < p.row[c.row] {
			p.row[c.row] = v
		}
	}
	for _, d := range s.m.parents {
		p.full = max(p.full, (d.width*int64(d.times)+d.cost-1)/d.cost)
	}
	return p.bound(s.least, s.most, s.m.stocks)
}

// raise records a lower bound with its proof.
func (s *solver) raise(lower int64) {
	if lower > s.lower {
		s.lower = lower
		s.root.set(&s.proven)
		if fillers := s.proven.row[len(s.m.asked()):]; !slices.ContainsFunc(fillers, func(v int64) bool { return v < 0 }) {
			s.byWeights = lower // a proof holds weights of orders only
			s.shown.set(&s.proven)
		}
	}
}

// short returns the row of which most is missing in the linear program, which a bound may
// have left unsolved.
func (s *solver) short() int {
	s.relax(math.MaxInt64)
	worst := 0
	for r := range s.m.asked() {
		if s.lp.value(s.lp.m+r) > s.lp.value(s.lp.m+worst) {
			worst = r
		}
	}
	return worst
}

func (s *solver) done() bool {
	if s.has && s.enough < 0 && s.lower >= s.goal() {
		s.lower = max(s.lower, s.best.cost) // no deckles add up to a cost in between
	}
	return s.has && s.best.cost <= max(s.lower, s.enough) || s.enough >= 0 && s.lower > s.enough
}

// goal returns the cost from which a plan is of no use.
func (s *solver) goal() int64 {
	switch {
	case s.has:
		return s.below(s.best.cost) + 1
	case s.enough >= 0:
		return s.enough + 1
	}
	return s.never
}

// mostCosts is the greatest sum of deckles that is listed.
const mostCosts = 4_000_000

// below returns the greatest sum of deckles below a cost.
func (s *solver) below(cost int64) int64 {
	if len(s.m.parents) < 2 || cost > mostCosts {
		return cost - 1
	}
	if int64(len(s.sums)) < cost {
		s.sums = make([]bool, cost)
		s.sums[0] = true
		for _, d := range s.m.parents {
			for c := d.cost; c < cost; c++ {
				s.sums[c] = s.sums[c] || s.sums[c-d.cost]
			}
		}
	}
	for cost--; cost > 0 && !s.sums[cost]; cost-- {
	}
	return cost
}

// release releases all that is fixed.
func (s *solver) release() {
	for c := range s.fixed {
		if s.fixed[c] > 0 {
			s.fix(c, -s.fixed[c])
		}
	}
	s.bounds()
}

// left reports whether anything is wanted beyond what is fixed.
func (s *solver) left() bool {
	for _, n := range s.least {
		if n > 0 {
			return true
		}
	}
	return false
}

// keep makes what is fixed, with these sets, the best plan if it is better and of
// use.
func (s *solver) keep(sets []pattern, times []int) bool {
	cost := s.spent
	for i, p := range sets {
		cost += s.m.parents[p.parent].cost * int64(times[i])
	}
	if s.has && cost >= s.best.cost || s.enough >= 0 && cost > s.enough {
		return false
	}
	all := solution{cost: cost}
	for c, n := range s.fixed {
		if n > 0 {
			all.patterns = append(all.patterns, s.patterns[c])
			all.times = append(all.times, n)
		}
	}
	all.patterns, all.times = append(all.patterns, sets...), append(all.times, times...)
	s.has, s.best = true, s.m.merged(all)
	return true
}

// dive rounds the solution of the linear program, fixes what it rounded, and solves
// again for the rest, until nothing is left. Seeds break ties differently.
func (s *solver) dive(seed int) {
	for !s.stop() {
		s.bounds()
		lower, ok := s.relax(s.goal())
		if !ok || lower >= s.goal() {
			return
		}
		if !s.round(seed) {
			return
		}
		if !s.left() {
			s.keep(nil, nil)
			return
		}
		s.greedy()
		if s.done() {
			return
		}
	}
}

// round fixes the whole parts of the solution or, if there are none, the column
// closest to the next whole number.
func (s *solver) round(seed int) bool {
	fixed := false
	pick, best := -1, 0.0
	type part struct {
		c int
		x float64
	}
	var parts []part
	for c := s.bought; c < len(s.patterns); c++ {
		x := s.lp.value(s.lp.m+c) - float64(s.fixed[c])
		if x < 1e-6 {
			continue
		}
		n := int(math.Floor(x + 1e-5 + 20*s.nudge))
		if n > 0 && s.fixed[c] == 0 && n < s.m.runs {
			n = 0
		}
		for ; n > 0 && s.fitsTimes(c, n); n = 0 {
			s.fix(c, n)
			fixed = true
		}
		score := x - math.Floor(x)
		if seed > 0 {
			score += float64((c*2654435761+seed*40503)>>3&1023) / 1024 * 0.08 * float64(seed)
		}
		parts = append(parts, part{c, score})
		if s.fits(c) && score > best {
			pick, best = c, score
		}
	}
	if fixed {
		return true
	}
	if pick < 0 {
		return false
	}
	s.fix(pick, s.first(pick))
	// Many rows take many steps, so columns that are practically whole are fixed in
	// the first.
	if len(s.m.rows) > 100 {
		slices.SortFunc(parts, func(a, b part) int { return cmp.Or(cmp.Compare(b.x, a.x), cmp.Compare(a.c, b.c)) })
		for k, more := 0, len(s.m.rows)/100; k < len(parts) && more > 0 && parts[k].x > 0.8; k++ {
			if parts[k].c != pick && s.fits(parts[k].c) {
				s.fix(parts[k].c, s.first(parts[k].c))
				more--
			}
		}
	}
	return true
}

// first returns the fewest runs by which a column may rise.
func (s *master) first(c int) int {
	if s.fixed[c] == 0 {
		return s.m.runs
	}
	return 1
}

// fitsTimes reports whether so many more runs of a column fit what is left.
func (s *master) fitsTimes(c, n int) bool {
	for _, e := range s.lp.columns[c] {
		if k := int(e.row) - len(s.m.rows); k < 0 && int(e.n)*n > s.most[e.row] || k >= 0 && int64(e.n)*int64(n) > s.stocks[k] {
			return false
		}
	}
	return true
}

// greedy completes what is fixed with the fullest set, run as often as it fits,
// then the next, and so on.
func (s *solver) greedy() {
	m := s.m
	least, most := slices.Clone(s.least), slices.Clone(s.most)
	stocks := slices.Clone(s.stocks)
	var sets []pattern
	var times []int
	cost := s.spent
	for _, cuts := range m.groups {
		for slices.ContainsFunc(cuts, func(c int32) bool { return least[m.cuts[c].row] > 0 }) {
			set, n := s.fullest(cuts, least, most, stocks)
			if n == 0 {
				break
			}
			for _, c := range set.pieces {
				cut := m.cuts[c.cut]
				units := n * int(c.n*cut.units*m.parents[set.parent].times)
				least[cut.row] -= units
				most[cut.row] -= units
			}
			m.drawFrom(stocks, set, n)
			if cost += m.parents[set.parent].cost * int64(n); cost >= s.goal() {
				return
			}
			sets, times = append(sets, set), append(times, n)
		}
	}
	for _, n := range least {
		if n > 0 {
			return
		}
	}
	s.keep(sets, times)
	for _, p := range sets {
		s.take(p)
	}
}

// drawFrom subtracts from stocks what the runs of a pattern draw.
func (m *model) drawFrom(stocks []int64, p pattern, n int) {
	for _, x := range m.parents[p.parent].draws {
		stocks[x.stock] -= int64(x.n) * int64(n)
	}
}

// drawable reports whether stocks are enough for so many more sets.
func drawable(d parent, stocks []int64, runs int) bool {
	for _, x := range d.draws {
		if stocks[x.stock] < int64(x.n)*int64(runs) {
			return false
		}
	}
	return true
}

// fullest builds a set from what is left, widest first, on the parent that it fills
// best; n is how often it can be run.
func (s *solver) fullest(cuts []int32, least, most []int, stocks []int64) (set pattern, n int) {
	m := s.m
	var filled float64
	for j, d := range m.parents {
		if !drawable(d, stocks, m.runs) {
			continue
		}
		var pieces []piece
		room, left := d.width, m.pieces
		for _, c := range cuts {
			cut := m.cuts[c]
			wanted := least[cut.row]
			if d.least > 0 && room > d.width-d.least {
				wanted = most[cut.row]
			}
			t := min(int64(wanted/(int(cut.units*d.times)*m.runs)), room/cut.width, int64(left))
			if m.clash([]piece{{c, 1}}, c) {
				t = min(t, 1)
			}
			if t <= 0 || !m.adds(pieces, c) || m.clash(pieces, c) || slices.ContainsFunc(pieces, func(p piece) bool { return m.cuts[p.cut].row == cut.row }) {
				continue
			}
			pieces = append(pieces, piece{c, int32(t)})
			room -= t * cut.width
			left -= int(t)
		}
		if len(pieces) == 0 || d.width-room < d.least {
			continue
		}
		if part := float64(d.width-room) * float64(d.times) / float64(d.cost); part > filled {
			filled, set = part, pattern{int32(j), m.cuts[cuts[0]].group, pieces}
			n = max(m.runs, m.often(set, least, most))
			for _, x := range d.draws {
				n = min(n, int(stocks[x.stock]/int64(x.n)))
			}
		}
	}
	if n > 0 {
		sortPieces(set.pieces)
	}
	return set, n
}

// often returns how often a set can be run until a row in it has what it needs, or
// everything it may have if it needs nothing.
func (m *model) often(set pattern, least, most []int) int {
	n := math.MaxInt
	for _, c := range set.pieces {
		cut := m.cuts[c.cut]
		units, left := int(c.n*cut.units*m.parents[set.parent].times), least[cut.row]
		if left <= 0 {
			left = most[cut.row]
		}
		n = min(n, max(1, left/units))
	}
	return n
}

// pick chooses the column to branch on: one that covers the row with the fewest
// ways to be covered, so that ruling them out one by one soon leaves none.
func (s *solver) pick() int {
	ways := make([]int, len(s.m.rows))
	for c := s.bought; c < len(s.patterns); c++ {
		x := s.lp.value(s.lp.m+c) - float64(s.fixed[c])
		if x < 1e-6 && !s.whole || s.closed[c] || !s.fits(c) {
			continue
		}
		for _, e := range s.lp.columns[c] {
			if int(e.row) < len(ways) {
				ways[e.row]++
			}
		}
	}
	row := -1
	for r, n := range ways {
		if n > 0 && s.least[r] > 0 && (row < 0 || n < ways[row]) {
			row = r
		}
	}
	pick, best := -1, -1.0
	for c := s.bought; c < len(s.patterns); c++ {
		x := s.lp.value(s.lp.m+c) - float64(s.fixed[c])
		if x < 1e-6 && !s.whole || s.closed[c] || !s.fits(c) {
			continue
		}
		covers := row < 0
		for _, e := range s.lp.columns[c] {
			covers = covers || int(e.row) == row
		}
		if covers && min(x, 1) > best {
			pick, best = c, min(x, 1)
		}
	}
	return pick
}

// branch searches everything that is left, first with one more run of a column,
// then without. It is complete unless time is up.
func (s *solver) branch() bool {
	s.bounds()
	lower, ok := s.relax(s.goal())
	if s.nodes++; s.patience > 0 && s.nodes > s.patience {
		return false
	}
	if !ok {
		return !s.stop() && !s.doubt
	}
	if lower >= s.goal() {
		return true
	}
	if s.whole {
		out := s.ruleOut(s.enough)
		defer s.close(out, false)
	}
	pick := s.pick()
	if pick < 0 {
		if !s.left() {
			s.keep(nil, nil)
		}
		return true
	}
	n := s.first(pick)
	s.fix(pick, n)
	if !s.left() {
		s.keep(nil, nil)
	} else {
		s.greedy()
		if !s.branch() {
			return false
		}
	}
	s.fix(pick, -n)
	if s.done() {
		return true
	}
	s.closed[pick] = true
	s.shut++
	complete := s.branch()
	s.closed[pick] = false
	s.shut--
	return complete
}
