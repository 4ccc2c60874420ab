package trim

import (
	"cmp"
	"math"
	"slices"
)

// scale is the worth of one unit of cost when dual values are converted to whole
// numbers.
const scale = 1 << 36

// A master holds the linear program over the patterns found so far, some runs of
// which are fixed, and finds more patterns.
type master struct {
	m        *model
	lp       *lp
	patterns []pattern // by column; the first ones may stand for reels bought in at a high price
	bought   int       // number of those for reels bought in
	known    map[string]int
	unit     int64 // worth of one unit of cost, in whole numbers
	priciest int64 // the highest cost of a set
	finest   int64 // the largest that unit may be
	sack     knapsack
	items    []item

	fixed       []int // fixed runs of each column
	closed      []bool
	shut        int     // number of closed patterns
	least, most []int   // of each row, without what is fixed
	stocks      []int64 // left of each, after what is fixed
	spent       int64   // cost of what is fixed

	proof  proof   // of the last bound
	proven proof   // of the highest bound since relax began
	center proof   // proof of the highest value, to mix dual values with
	root   proof   // of all rows, valid for every part of them
	price  float64 // of a reel bought in
	slop   float64
	nudge  float64
	doubt  bool    // the linear program failed, though nothing proves that it must
	whole  bool    // the pool holds all patterns that matter
	worth  []int64 // then of each pattern, under the last weights
	stop   func() bool
}

func newMaster(m *model, stop func() bool) *master { return nudged(m, 1e-7, stop) }

func nudged(m *model, nudge float64, stop func() bool) *master {
	n := len(m.rows)
	s := &master{nudge: nudge, m: m, known: map[string]int{}, stop: stop, stocks: slices.Clone(m.stocks)}
	var low, high []float64
	var dearest int64
	for i, r := range m.rows {
		// Slightly more than what is wanted, by a different amount for each row, so
		// that ties between exchanges, and the walks that end in them, are rare.
		more := nudge * float64(1+i*7919%1009) / 1009
		s.slop += more
		low = append(low, float64(r.least)+more)
		high = append(high, math.Inf(1))
		if m.strict {
			high[i] = float64(r.most) + nudge*2
		}
		s.least, s.most = append(s.least, r.least), append(s.most, s.bounded(r))
	}
	for _, n := range m.stocks {
		low, high = append(low, 0), append(high, float64(n)+1e-5)
	}
	for _, p := range m.parents {
		dearest = max(dearest, p.cost)
	}
	s.priciest = dearest
	s.finest = max(1, scale/dearest)
	s.price = 10 * float64(dearest)
	s.lp = newLP(low, high)
	s.lp.stop = stop
	for i := range m.rows {
		s.put(pattern{parent: -1}, []entry{{int32(i), 1}}, s.price)
	}
	s.bought = n
	return s
}

// smooth is the weight of the dual values of the best bound.
const smooth = 0.6

// bounded returns the most that a row can take into one pattern or plan.
func (s *master) bounded(r row) int {
	if s.m.strict {
		return r.most
	}
	return r.least
}

func (s *master) put(p pattern, column []entry, cost float64) {
	s.patterns = append(s.patterns, p)
	s.fixed = append(s.fixed, 0)
	s.closed = append(s.closed, false)
	s.lp.add(column, cost, math.Inf(1))
}

// take adds a pattern to the pool unless it is there, and returns its column.
func (s *master) take(p pattern) (column int, isNew bool) {
	sortPieces(p.pieces)
	key := p.key()
	if c, ok := s.known[key]; ok {
		return c, false
	}
	c := len(s.patterns)
	s.known[key] = c
	s.put(p, s.m.column(p), float64(s.m.parents[p.parent].cost))
	return c, true
}

// A pool is patterns found before, those of a basis first.
type pool struct {
	patterns []pattern
	base     int // number of those in the basis
}

// pool returns at most so many patterns of a master, those closest to use first.
func (s *master) pool(most int) pool {
	type rated struct {
		c int
		d float64
	}
	var all []rated
	var p pool
	for c := s.bought; c < len(s.patterns); c++ {
		d := s.lp.reduced(s.lp.m + c)
		if s.lp.place[s.lp.m+c] >= 0 {
			d = -1
			p.base++
		}
		all = append(all, rated{c, d})
	}
	slices.SortStableFunc(all, func(a, b rated) int { return cmp.Compare(a.d, b.d) })
	for _, r := range all[:min(len(all), most)] {
		p.patterns = append(p.patterns, s.patterns[r.c])
	}
	return p
}

// begin takes the patterns of a pool that are allowed.
func (s *master) begin(from pool) {
	if len(from.patterns) == 0 {
		return
	}
	var base []int32
	for i, p := range from.patterns {
		if !s.m.allows(p) {
			continue
		}
		if c, isNew := s.take(p); isNew && i < from.base {
			base = append(base, int32(s.lp.m+c))
		}
	}
	s.lp.begin(base)
}

// fits reports whether one more run of a column fits what is left.
func (s *master) fits(c int) bool {
	runs := 1
	if s.fixed[c] == 0 {
		runs = s.m.runs
	}
	return s.fitsTimes(c, runs)
}

// fix fixes runs of a column, or releases them if runs is below zero.
func (s *master) fix(c, runs int) {
	s.fixed[c] += runs
	for _, e := range s.lp.columns[c] {
		if int(e.row) < len(s.m.rows) {
			s.least[e.row] -= int(e.n) * runs
			s.most[e.row] -= int(e.n) * runs
		} else {
			s.stocks[int(e.row)-len(s.m.rows)] -= int64(e.n) * int64(runs)
		}
	}
	s.spent += s.m.parents[s.patterns[c].parent].cost * int64(runs)
}

// bounds enters into the linear program what is fixed, and which columns no longer
// fit.
func (s *master) bounds() {
	p := s.lp
	for c := s.bought; c < len(s.patterns); c++ {
		v := p.m + c
		p.low[v] = float64(s.fixed[c])
		if s.closed[c] || !s.fits(c) {
			p.high[v] = p.low[v]
		} else {
			p.high[v] = math.Inf(1)
			if p.place[v] == atHigh {
				p.place[v] = atLow
			}
		}
	}
	p.settle()
}

// relax solves the linear program over all patterns that fit what is left, by
// finding those that it lacks. It returns a lower bound on the total cost,
// including what is fixed. It ends early once the bound reaches goal, or can't rise
// to the next whole number. It is not ok if the program has no solution or time is
// up.
func (s *master) relax(goal int64) (lower int64, ok bool) {
	return s.relaxRounds(goal, math.MaxInt)
}

// relaxRounds is relax with at most so many rounds of looking for patterns.
func (s *master) relaxRounds(goal int64, rounds int) (lower int64, ok bool) {
	p := s.lp
	if !p.dual() {
		if s.stop() {
			return s.spent, false
		}
		p.restart()
		if !p.dual() {
			s.doubt = true
			return s.spent, false
		}
	}
	mix, before, middle := 0.0, math.Inf(1), 0.0
	if s.root.full > 0 {
		lower = s.spent + s.root.bound(s.least, s.most, s.stocks)
		s.proven.set(&s.root)
		s.center.set(&s.root)
		middle = s.root.value(s.least, s.most, s.stocks)
		if lower >= goal {
			return lower, true
		}
	}
	for ; ; rounds-- {
		p.primal()
		if s.stop() {
			return lower, false
		}
		grew := s.generate(mix)
		if found := s.spent + s.proof.bound(s.least, s.most, s.stocks); found > lower {
			lower = found
			s.proven.set(&s.proof)
		}
		if value := s.proof.value(s.least, s.most, s.stocks); value > middle {
			middle = value
			s.center.set(&s.proof)
		}
		if lower >= goal {
			return lower, true
		}
		// Dual values between the best and the present ones lead to patterns that
		// last. If they find nothing, the present ones are used.
		if mix > 0 && !grew {
			mix = 0
			continue
		}
		if mix = 0; len(s.m.rows) > 30 && p.total() < before-1e-9 && middle > 0 {
			mix = smooth
		}
		before = p.total()
		buys := s.buys()
		switch {
		case grew && rounds <= 0 && !buys:
			return lower, true
		case grew:
		case !buys:
			return lower, true
		case s.price > 1e6*float64(s.m.parents[0].cost):
			s.doubt = true
			return lower, false
		default:
			s.dearer(10)
			defer s.dearer(0.1)
		}
		if !buys && float64(lower) >= math.Ceil(p.total()-1e-6-s.slop) {
			if s.exact() {
				return lower, true
			}
		}
	}
}

// Limits of a search for one set: nodes if there is no other way, or cells of a
// table that is made after fewer nodes.
const (
	mostNodes = 20_000_000
	mostCells = 400_000_000
	mostAhead = 32_000_000 // cells of the table for a guided search
	unknown   = math.MaxInt64 / 4
)

// buys reports whether the solution needs reels that no pattern gives.
func (s *master) buys() bool {
	for c := range s.bought {
		if s.lp.value(s.lp.m+c) > 1e-5 {
			return true
		}
	}
	return false
}

// exact removes the extra demand of the rows. It reports whether that changed
// little, or the solution still buys no reels.
func (s *master) exact() bool {
	if s.slop < 1e-3 {
		return true
	}
	for i, n := range s.m.rows {
		s.lp.low[i] = float64(n.least)
	}
	s.slop = 0
	s.lp.settle()
	return s.lp.dual() && !s.buys()
}

// dearer raises the price of reels bought in, so that the bound shows what no plan
// can do.
func (s *master) dearer(times float64) {
	s.price *= times
	for c := range s.bought {
		s.lp.cost[s.lp.m+c] = s.price
	}
	s.lp.settle()
}

// weights converts the dual values, mixed with those of the best bound, to whole
// numbers, for the proof of a bound.
func (s *master) weights(mix float64) {
	m := s.m
	highest := 1.0
	for _, y := range s.lp.y {
		highest = max(highest, math.Abs(y))
	}
	s.unit = min(s.finest, max(1, int64(16*scale/highest)))
	s.proof.row = grown(s.proof.row, len(m.rows))
	s.proof.spare = grown(s.proof.spare, len(m.stocks))
	for i := range m.rows {
		s.proof.row[i] = int64(math.Round(s.lp.y[i] * float64(s.unit)))
		if !m.strict {
			s.proof.row[i] = max(0, s.proof.row[i])
		}
		if mix > 0 {
			best := float64(s.center.row[i]) / float64(s.center.full) * float64(s.unit)
			s.proof.row[i] = int64(mix*best + (1-mix)*float64(s.proof.row[i]))
		}
	}
	for k := range m.stocks {
		s.proof.spare[k] = max(0, int64(math.Round(-s.lp.y[len(m.rows)+k]*float64(s.unit))))
	}
	s.proof.full = s.unit
}

// generate looks for patterns that would lower the cost, and makes the proof of a
// bound from the dual values, mixed with those of the best bound. It reports
// whether it found any.
func (s *master) generate(mix float64) bool {
	m, grew := s.m, false
	s.weights(mix)
	if s.whole {
		s.proof.full = s.dearestOfPool()
		return false
	}
	for j, d := range m.parents {
		if !drawable(d, s.stocks, m.runs) {
			continue
		}
		for g, cuts := range m.groups {
			spare := s.proof.of(d)
			threshold := s.unit*d.cost + spare
			s.forbid(j, g)
			worth, sets := s.dearest(cuts, d, threshold+max(1, threshold>>30))
			if over := worth - spare; over > s.proof.full*d.cost {
				s.proof.full = (over + d.cost - 1) / d.cost
			}
			for _, set := range sets {
				p := pattern{int32(j), int32(g), set}
				if !m.strict {
					p = s.filled(p)
				}
				if _, isNew := s.take(p); isNew {
					grew = true
				}
			}
		}
	}
	if m.runs > 1 {
		s.proof.full = s.again(s.proof.full)
	}
	return grew
}

// again raises full to the worth of one more run of a pattern already cut, which
// may take what is too little for a new one.
func (s *master) again(full int64) int64 {
	for c, n := range s.fixed {
		if n == 0 || s.closed[c] || !s.fits(c) {
			continue
		}
		d := s.m.parents[s.patterns[c].parent]
		worth := -s.proof.of(d)
		for _, x := range s.patterns[c].pieces {
			cut := s.m.cuts[x.cut]
			worth += s.proof.row[cut.row] * int64(x.n*cut.units*d.times)
		}
		if worth > full*d.cost {
			full = (worth + d.cost - 1) / d.cost
		}
	}
	return full
}

// forbid keeps closed patterns from being found again.
func (s *master) forbid(parent, group int) {
	s.sack.banned = nil
	if s.shut == 0 {
		return
	}
	s.sack.banned = func(set []piece) bool {
		sortPieces(set)
		c, ok := s.known[pattern{int32(parent), int32(group), set}.key()]
		return ok && s.closed[c]
	}
}

// offer fills items with what sets of a group on a parent can be made of.
func (s *master) offer(cuts []int32, d parent) {
	s.items = s.items[:0]
	s.sack.bind(s.m)
	for _, c := range cuts {
		cut := &s.m.cuts[c]
		units := cut.units * d.times
		most := s.most[cut.row] / (s.m.runs * int(units))
		if s.sack.cuts != nil {
			across := d.width / (cut.width / int64(cut.units))
			s.sack.left[cut.row] = int32(min(across, int64(max(0, s.most[cut.row])/(s.m.runs*int(d.times))), math.MaxInt32))
		}
		value := s.proof.row[cut.row] * int64(units)
		if most <= 0 || value <= 0 && d.least == 0 || cut.width > d.width {
			continue
		}
		if s.m.apart != nil && slices.Contains(s.m.apart[c], c) {
			most = 1
		}
		s.items = append(s.items, item{c, int32(min(most, math.MaxInt32)), cut.width, value})
	}
}

// dearest finds sets of a group on a parent that are worth more than threshold, and
// an upper bound on their worth.
func (s *master) dearest(cuts []int32, d parent, threshold int64) (worth int64, sets [][]piece) {
	s.offer(cuts, d)
	room := limits{d.width, d.least, s.m.pieces, s.m.kinds}
	cells, nodes := d.width*int64(len(s.items))*2, mostNodes
	if s.m.apart != nil { // only if the table is small
		worth = s.sack.guided(s.items, room, threshold, mostNodes)
		return worth, slices.Clone(s.sack.sets)
	}
	if cells < mostCells {
		nodes = int(cells/8) + 2000
	}
	worth, exact := s.sack.search(s.items, room, threshold, nodes)
	sets = s.sack.sets
	if n := len(sets); n > 3 {
		sets = sets[n-3:]
	}
	switch {
	case exact:
	case cells >= mostCells:
		worth = unknown // anything is possible: it gives no bound
	default:
		var set []piece
		if worth, set = s.sack.table(s.items, d.width); worth > threshold {
			if p := (pattern{pieces: set, group: s.m.cuts[set[0].cut].group}); s.allows(p, room) && s.sack.shares(set) {
				sets = append(sets, set)
			}
		}
		worth = max(worth, threshold)
	}
	return worth, slices.Clone(sets)
}

func (s *master) allows(p pattern, room limits) bool {
	pieces := 0
	for _, c := range p.pieces {
		pieces += int(c.n)
	}
	return pieces <= room.pieces && s.m.widths(p.pieces) <= room.kinds && s.m.used(p) >= room.least
}

// filled returns a pattern whose trim is used for what is still wanted, at no cost.
// If that would be a closed pattern, it returns the pattern as it is.
func (s *master) filled(thin pattern) pattern {
	p := thin
	p.pieces = slices.Clone(p.pieces)
	d := s.m.parents[p.parent]
	room := d.width - s.m.used(p)
	left := s.m.pieces
	for _, c := range p.pieces {
		left -= int(c.n)
	}
	for _, c := range s.m.groups[p.group] {
		cut := s.m.cuts[c]
		if cut.width > room || left == 0 {
			continue
		}
		n := min(int64(s.most[cut.row]/(s.m.runs*int(cut.units*d.times))), room/cut.width, int64(left))
		at := slices.IndexFunc(p.pieces, func(x piece) bool { return s.m.cuts[x.cut].row == cut.row })
		if n <= 0 || at >= 0 || !s.m.adds(p.pieces, c) || s.m.clash(p.pieces, c) {
			continue
		}
		if s.m.clash([]piece{{c, 1}}, c) {
			n = 1
		}
		p.pieces = append(p.pieces, piece{c, int32(n)})
		room -= n * cut.width
		left -= int(n)
	}
	if s.shut > 0 {
		sortPieces(p.pieces)
		if c, ok := s.known[p.key()]; ok && s.closed[c] {
			return thin
		}
	}
	return p
}
