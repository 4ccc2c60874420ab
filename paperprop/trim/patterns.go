package trim

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// Fewest different patterns at a cost: each column of the linear program is a
// set cut t times at once, for many t, and costs one. What is fixed is taken out
// of the rows, and the program is made anew for the rest, with the columns of
// the one before that still fit.

// A counted model asks for the fewest patterns: parent k of it is parent base[k]
// of the model, cut times[k] times.
type counted struct {
	*model
	base []int32
}

// mostTimes is how many different times one counted model has: each takes a
// search of its own, so many rows get few.
func mostTimes(rows int) int { return max(20, 600/max(1, rows)) }

// count makes the counted model of what is left.
func (m *model) count(rows []row, spend int64, stocks []int64, times []int) *counted {
	c := &counted{model: &model{rows: rows, cuts: m.cuts, groups: m.groups, pieces: m.pieces, kinds: m.kinds, runs: 1, strict: true, fillers: m.fillers, alike: m.alike}}
	c.stocks = append(slices.Clone(stocks), spend)
	last := int32(len(stocks))
	for j, d := range m.parents {
		for _, t := range times {
			p := parent{width: d.width, least: d.least, cost: 1, times: int32(t)}
			for _, x := range d.draws {
				p.draws = append(p.draws, draw{x.stock, x.n * int32(t)})
			}
			p.draws = append(p.draws, draw{last, int32(d.cost) * int32(t)})
			c.parents = append(c.parents, p)
			c.base = append(c.base, int32(j))
		}
	}
	return c
}

// timesFor are the runs that patterns may want: those of the best plan, what
// rows are left or a whole part of it, and small ones.
func (m *model) timesFor(rows []row, best []int) []int {
	most := 0
	rows = rows[:len(rows)-m.fillers]
	for _, r := range rows {
		most = max(most, r.most)
	}
	votes := make([]int, most+1)
	vote := func(t, n int) {
		if t >= m.runs && t <= most {
			votes[t] += n
		}
	}
	for _, t := range best {
		vote(t, 1000)
	}
	for t := range 4 {
		vote(t, 1000)
	}
	vote(m.runs, 1000)
	for _, r := range rows {
		if r.most > 0 {
			vote(r.most, 4)
			vote(r.most/2, 3)
			vote(r.most/3, 1)
			vote(r.least, 1)
		}
	}
	most = mostTimes(len(rows))
	if m.runs > 1 {
		most *= 2 // what is left must come out even
	}
	var times []int
	for t, n := range votes {
		if n > 0 || len(votes) <= most && t >= m.runs && t > 0 {
			times = append(times, t)
		}
	}
	if len(times) <= most {
		return times
	}
	// Thinned: the most wanted, but spread over the whole.
	slices.SortStableFunc(times, func(a, b int) int { return cmp.Compare(votes[b], votes[a]) })
	times = times[:most]
	slices.Sort(times)
	return times
}

// misses is how many dives may find nothing before the search for fewer
// patterns ends.
const misses = 250

// mixEvery is how many dives come before patterns are mixed, which saves some, or is
// another solution to look from: fewer where many rows make dives long.
func mixEvery(rows int) int { return max(2, 12-rows/8) }

// kicks is how many steps that make one pattern more come before every other mixing:
// what it comes to from there is often better.
const kicks = 3

// fewer looks for a solution of the same cost with fewer patterns.
func (m *model) fewer(s solution, stop func() bool) solution {
	d := &sparser{model: m, best: m.merged(s), stop: stop}
	every := mixEvery(len(m.rows))
	for missed := 0; missed < misses && len(d.best.patterns) > 1 && !stop(); {
		before := len(d.best.patterns)
		d.dive()
		d.seed++
		if missed++; missed%every == 0 {
			if next := m.mixed(d.best, uint64(d.seed), d.seed/every%2*kicks, stop); len(next.patterns) <= len(d.best.patterns) {
				d.take(next)
			}
		}
		if len(d.best.patterns) < before {
			missed = 0
		}
	}
	for d.exact() {
	}
	return d.best
}

// exact looks for one pattern less by a complete search, where all times that
// there can be are few enough, and tells whether it found a solution.
func (d *sparser) exact() bool {
	times := d.timesFor(d.rows, d.best.times)
	for _, r := range d.rows {
		if !slices.Contains(times, max(r.most, d.runs)) || len(times)*len(d.rows) > smallSearch {
			return false
		}
	}
	c := d.count(d.rows, d.best.cost, d.stocks, times)
	s := &solver{master: newMaster(c.model, d.stop), enough: int64(len(d.best.patterns) - 1), patience: smallNodes}
	s.run()
	found := s.best
	if !s.has || len(found.patterns) >= len(d.best.patterns) {
		return false
	}
	for i := range found.patterns {
		p := &found.patterns[i]
		found.times[i] *= int(c.parents[p.parent].times)
		p.parent = c.base[p.parent]
	}
	d.take(found)
	return true
}

// smallSearch is the most columns, rows times times, that a complete search for
// fewest patterns is tried with.
const smallSearch = 400

// smallNodes is how many nodes that search has.
const smallNodes = 1000

// How many nodes the search has that completes a dive: more where there is no
// plan yet.
const (
	patient     = 200
	lessPatient = 20
)

// anySparse looks for a solution of at most that cost by the same dives: where a
// pattern must be cut several times, rounding a solution of the linear program
// seldom gives one.
func (m *model) anySparse(cost int64, dives int, stop func() bool) (solution, bool) {
	d := &sparser{model: m, best: solution{cost: cost}, stop: stop}
	for ; d.seed < dives && !stop(); d.seed++ {
		if d.dive() {
			d.best.cost = m.cost(&d.best)
			return d.best, true
		}
	}
	return solution{}, false
}

// A sparser looks for solutions with fewer patterns.
type sparser struct {
	*model
	best solution
	pool []pattern // that columns were made of
	root *stage    // of all rows, until the best solution is another
	seed int
	stop func() bool
}

// A stage is a solved counted model.
type stage struct {
	*counted
	*master
	lower int64
	ok    bool
}

// stage solves the counted model of what is left.
func (d *sparser) stage(rows []row, spend int64, stocks []int64, rest solution, room int) *stage {
	times := d.timesFor(rows, rest.times)
	if len(times) == 0 { // too little is left to be cut as often as a pattern must be
		return &stage{}
	}
	c := d.count(rows, spend, stocks, times)
	s := &stage{counted: c, master: newMaster(c.model, d.stop)}
	s.seed(c, d.pool, rest)
	s.lower, s.ok = s.relaxRounds(int64(room)+1, 40)
	if s.ok && s.lower <= int64(room) {
		d.pool = poolOf(c, s.master)
	}
	return s
}

// A rest is what a dive has still to make, and what it chose.
type rest struct {
	rows   []row
	stocks []int64
	spend  int64
	chosen solution
	plan   solution // that makes the rest
}

func (r *rest) clone() rest {
	c := *r
	c.rows, c.stocks = slices.Clone(r.rows), slices.Clone(r.stocks)
	c.chosen.patterns, c.chosen.times = slices.Clone(r.chosen.patterns), slices.Clone(r.chosen.times)
	return c
}

// turns is how often a dive may go back one stage and choose otherwise.
const turns = 6

// dive looks once, and tells whether it found a better solution.
func (d *sparser) dive() bool {
	now := rest{d.rows, d.stocks, d.best.cost, solution{cost: d.best.cost}, d.best}
	target := len(d.best.patterns) - 1
	if target < 0 { // any plan will do
		target = 3 * len(d.rows)
	}
	if d.root == nil {
		d.root = d.stage(now.rows, now.spend, now.stocks, now.plan, target)
	}
	s, left := d.root, turns
	avoid := map[string]bool{}
	for !d.stop() && s.ok && s.lower <= int64(target-len(now.chosen.patterns)) {
		next := now.clone()
		if !d.choose(s, &next, avoid) {
			return false
		}
		if d.completed(&next, target) {
			return true
		}
		room := target - len(next.chosen.patterns)
		if done(next.rows) || room <= 0 {
			return false
		}
		below := d.stage(next.rows, next.spend, next.stocks, next.plan, room)
		if below.ok && below.lower <= int64(room) {
			now, s = next, below
			continue
		}
		// Nothing is left below: the last that was chosen is to blame, or one of
		// those chosen with it.
		if left--; left < 0 {
			return false
		}
		for i := len(now.chosen.patterns); i < len(next.chosen.patterns); i++ {
			avoid[timed(next.chosen, i)] = true
		}
	}
	return false
}

// completed makes what a dive has left in as few sets as can be, if so few widths
// are left that this may come to few patterns, and tells whether it did.
func (d *sparser) completed(r *rest, target int) bool {
	open := 0
	for _, row := range r.rows {
		if row.least > 0 {
			open++
		}
	}
	if room := target - len(r.chosen.patterns); 10*open > 13*room+20 {
		return false
	}
	model := *d.model
	model.rows, model.stocks, model.strict = slices.Clone(r.rows), r.stocks, true
	nodes := lessPatient
	if len(d.best.patterns) == 0 {
		nodes = patient
	}
	found, ok := within(&model, r.spend, d.stop, nodes, pool{})
	if !ok {
		return false
	}
	r.plan = model.merged(found)
	all := d.merged(join(r.chosen, r.plan))
	if len(all.patterns) > target {
		return false
	}
	d.take(all)
	return true
}

// timed is the identity of a pattern and its times.
func timed(s solution, i int) string {
	return s.patterns[i].key() + "*" + strconv.Itoa(s.times[i])
}

func (d *sparser) take(s solution) {
	cost := d.best.cost
	d.best = d.merged(s)
	d.best.cost = cost
	d.root = nil
}

func done(rows []row) bool {
	for _, r := range rows {
		if r.least > 0 {
			return false
		}
	}
	return true
}

func join(a, b solution) solution {
	return solution{patterns: slices.Concat(a.patterns, b.patterns), times: slices.Concat(a.times, b.times), cost: a.cost}
}

// seed fills the pool of a master: patterns known before, at the times that
// they can be cut, and the rest of the best plan as it stands.
func (s *master) seed(c *counted, pool []pattern, rest solution) {
	for i, p := range rest.patterns {
		for k := range c.parents {
			if c.base[k] == p.parent && int(c.parents[k].times) == rest.times[i] {
				s.take(pattern{int32(k), p.group, slices.Clone(p.pieces)})
			}
		}
	}
	for _, p := range pool {
		most := math.MaxInt32
		for _, x := range p.pieces {
			cut := s.m.cuts[x.cut]
			most = min(most, s.m.rows[cut.row].most/int(x.n*cut.units))
		}
		for k := range c.parents {
			if c.base[k] == p.parent && int(c.parents[k].times) <= most && 3*int(c.parents[k].times) > 2*most {
				s.take(pattern{int32(k), p.group, slices.Clone(p.pieces)})
			}
		}
	}
}

// poolOf are patterns of the base that the linear program thought of.
func poolOf(c *counted, s *master) []pattern {
	seen := map[string]bool{}
	var pool []pattern
	type rated struct {
		col int
		d   float64
	}
	var cols []rated
	for i := s.bought; i < len(s.patterns); i++ {
		cols = append(cols, rated{i, s.lp.reduced(s.lp.m + i)})
	}
	slices.SortStableFunc(cols, func(a, b rated) int { return cmp.Compare(a.d, b.d) })
	for _, r := range cols {
		p := s.patterns[r.col]
		base := pattern{c.base[p.parent], p.group, p.pieces}
		if key := base.key(); !seen[key] {
			seen[key] = true
			if pool = append(pool, base); len(pool) > 600 {
				break
			}
		}
	}
	return pool
}

// choose fixes the columns of the linear program that are as good as whole, or
// the greatest. Seeds say how many, and break ties otherwise.
func (d *sparser) choose(s *stage, r *rest, avoid map[string]bool) bool {
	type part struct {
		col int
		x   float64
	}
	noise := 0.1 * float64(d.seed%6)
	most := 1 << (d.seed % 4)
	var parts []part
	for i := s.bought; i < len(s.patterns); i++ {
		x := s.lp.value(s.lp.m + i)
		if x < 1e-4 {
			continue
		}
		x += noise * float64((i*2654435761+d.seed*40503)>>3&1023) / 1024
		parts = append(parts, part{i, x})
	}
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(b.x, a.x) })
	fixed := 0
	for _, p := range parts {
		if fixed > 0 && p.x < 0.75 || fixed == most {
			break
		}
		col := s.patterns[p.col]
		parent := s.counted.parents[col.parent]
		drawn := parent.draws[:len(parent.draws)-1] // the last is what is spent
		fits := true
		for _, e := range s.lp.columns[p.col] {
			if int(e.row) < len(r.rows) {
				fits = fits && int(e.n) <= r.rows[e.row].most
			}
		}
		base := s.base[col.parent]
		r.chosen.patterns = append(r.chosen.patterns, pattern{base, col.group, col.pieces})
		r.chosen.times = append(r.chosen.times, int(parent.times))
		last := len(r.chosen.patterns) - 1
		cost := d.parents[base].cost * int64(parent.times)
		if !fits || cost > r.spend || !drawable(parent.with(drawn), r.stocks, 1) || avoid[timed(r.chosen, last)] {
			r.chosen.patterns, r.chosen.times = r.chosen.patterns[:last], r.chosen.times[:last]
			continue
		}
		for _, e := range s.lp.columns[p.col] {
			if int(e.row) < len(r.rows) {
				row := &r.rows[e.row]
				row.most -= int(e.n)
				row.least = max(0, row.least-int(e.n))
			}
		}
		r.spend -= cost
		for _, x := range drawn {
			r.stocks[x.stock] -= int64(x.n)
		}
		fixed++
	}
	return fixed > 0
}

func (p parent) with(draws []draw) parent {
	p.draws = draws
	return p
}
