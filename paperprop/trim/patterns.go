package trim

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// Fewest different patterns at a given cost: each column of the linear program is a
// set cut t times at once, for many t, and costs one. Fixed runs are taken out of
// the rows, and the program is built anew for the rest, with the earlier columns
// that still fit.

// A counted model asks for the fewest patterns. Its parent k is parent base[k] of
// the model, cut times[k] times.
type counted struct {
	*model
	base []int32
}

// mostTimes returns how many different times a counted model may have: each takes a
// search of its own, so with many rows there are few.
func mostTimes(rows int) int { return max(20, 600/max(1, rows)) }

// count returns the counted model of what is left.
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

// timesFor returns the runs that patterns may need: those of the best plan, what
// rows have left or a whole fraction of it, and small ones.
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
		most *= 2 // the rest must come out exactly
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
	// Reduced to the most frequent, but spread over the whole range.
	slices.SortStableFunc(times, func(a, b int) int { return cmp.Compare(votes[b], votes[a]) })
	times = times[:most]
	slices.Sort(times)
	return times
}

// misses is the number of dives without success that ends the search for fewer
// patterns.
const misses = 250

// mixEvery returns the number of dives between mixings of patterns, which save some
// or give another start: fewer if many rows make dives long.
func mixEvery(rows int) int { return max(2, 12-rows/8) }

// kicks is the number of steps that add a pattern before every other mixing: the
// result from there is often better.
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

// exact looks for one pattern fewer by a complete search, if the possible times are
// few enough, and reports whether it found a solution.
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

// smallSearch is the most columns, rows times times, for which a complete search
// for the fewest patterns is tried.
const smallSearch = 400

// smallNodes is the number of nodes of that search.
const smallNodes = 1000

// Nodes of the search that completes a dive: more if there is no plan yet.
const (
	patient     = 200
	lessPatient = 20
)

// anySparse looks for a solution of at most that cost by the same dives: if a
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
	pool []pattern // from which columns were made
	root *stage    // of all rows, until the best solution changes
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
	if len(times) == 0 { // what is left is less than a pattern must be cut
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

// A rest is what a dive still has to make, and what it has chosen.
type rest struct {
	rows   []row
	stocks []int64
	spend  int64
	chosen solution
	plan   solution // a plan for the rest
}

func (r *rest) clone() rest {
	c := *r
	c.rows, c.stocks = slices.Clone(r.rows), slices.Clone(r.stocks)
	c.chosen.patterns, c.chosen.times = slices.Clone(r.chosen.patterns), slices.Clone(r.chosen.times)
	return c
}

// turns is how often a dive may go back one stage and choose differently.
const turns = 6

// dive makes one dive, and reports whether it found a better solution.
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
		// There is nothing below: the last choice is to blame, or one of those made
		// with it.
		if left--; left < 0 {
			return false
		}
		for i := len(now.chosen.patterns); i < len(next.chosen.patterns); i++ {
			avoid[timed(next.chosen, i)] = true
		}
	}
	return false
}

// completed makes the rest of a dive in as few sets as possible, if so few widths
// are left that few patterns may be enough, and reports whether it did.
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

// timed returns a text that identifies a pattern and its times.
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

// seed fills the pool of a master: with patterns known before, at the times that
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

// poolOf returns the patterns of the base that the linear program used.
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

// choose fixes the columns of the linear program that are practically whole, or
// else the greatest. The seed says how many, and breaks ties differently.
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
		drawn := parent.draws[:len(parent.draws)-1] // the last is the cost
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
