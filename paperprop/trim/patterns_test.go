package trim

import (
	"cmp"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// A counted model has each parent at each of the times, draws that often, and what is
// spent as a stock more.
func TestCount(t *testing.T) {
	r := rand.New(rand.NewPCG(28, 1))
	for range 300 {
		m := looseModel(r)
		for j := range m.parents {
			m.parents[j].times = 1
		}
		times := []int{1, 2, 5}[:r.IntN(4)]
		rows := []row{{1, 2}, {3, 4}}
		c := m.count(rows, 77, m.stocks, times)
		want := &counted{model: &model{rows: rows, cuts: m.cuts, groups: m.groups, pieces: m.pieces, kinds: m.kinds, runs: 1, strict: true,
			stocks: []int64{m.stocks[0], m.stocks[1], 77}}}
		for j, d := range m.parents {
			for _, n := range times {
				p := parent{width: d.width, least: d.least, cost: 1, times: int32(n)}
				for _, x := range d.draws {
					for range n - 1 {
						x.n += d.draws[len(p.draws)].n
					}
					p.draws = append(p.draws, x)
				}
				cost := int32(0)
				for range n {
					cost += int32(d.cost)
				}
				p.draws = append(p.draws, draw{2, cost})
				want.parents = append(want.parents, p)
				want.base = append(want.base, int32(j))
			}
		}
		if !reflect.DeepEqual(c, want) {
			t.Fatalf("counted %+v, want %+v", c, want)
		}
	}
}

// The times that patterns may want are those of the best plan, small ones and what rows come to;
// all of them where they are few, and of many those that are wanted most.
func TestTimesFor(t *testing.T) {
	r := rand.New(rand.NewPCG(28, 2))
	all, some, thinned := 0, 0, 0
	for n := range 2000 {
		m := &model{runs: 1 + max(0, r.IntN(6)-2)}
		var rows []row
		top := 0
		for range 1 + r.IntN(40) {
			n := r.IntN([]int{5, 40, 1200}[n%3])
			x := row{n, n + r.IntN(3)}
			rows = append(rows, x)
			top = max(top, x.most)
		}
		var best []int
		for range r.IntN(5) {
			best = append(best, 1+r.IntN(2*top+1))
		}
		limit := max(20, 600/len(rows))
		if mostTimes(len(rows)) != limit {
			t.Fatalf("%d rows have %d times, want %d", len(rows), mostTimes(len(rows)), limit)
		}
		if m.runs > 1 {
			limit *= 2
		}
		votes := map[int]int{}
		for _, n := range slices.Concat(best, []int{1, 2, 3, m.runs}) {
			votes[n] += 1000
		}
		for _, x := range rows {
			if x.most > 0 {
				votes[x.most] += 4
				votes[x.most/2] += 3
				votes[x.most/3]++
				votes[x.least]++
			}
		}
		var want []int
		for n := m.runs; n <= top; n++ {
			if votes[n] > 0 || top+1 <= limit {
				want = append(want, n)
			}
		}
		switch {
		case top+1 <= limit:
			all++
		case len(want) > limit:
			thinned++
			slices.SortStableFunc(want, func(a, b int) int { return cmp.Compare(votes[b], votes[a]) })
			want = want[:limit]
			slices.Sort(want)
		default:
			some++
		}
		m.fillers = r.IntN(3) // whose numbers don't count
		for range m.fillers {
			rows = append(rows, row{0, top + 1 + r.IntN(9)})
		}
		if got := m.timesFor(slices.Clip(rows), best); !slices.Equal(got, want) {
			t.Fatalf("rows %v, runs %d, best %v: %v, want %v", rows, m.runs, best, got, want)
		}
	}
	if all < 100 || some < 100 || thinned < 100 {
		t.Errorf("%d times all, %d times those that are wanted, %d times fewer: want each often", all, some, thinned)
	}
	for rows, want := range map[int]int{0: 600, 1: 600, 7: 85, 30: 20, 31: 20, 200: 20} {
		if got := mostTimes(rows); got != want {
			t.Errorf("%d rows have %d times, want %d", rows, got, want)
		}
	}
	for rows, want := range map[int]int{0: 12, 7: 12, 8: 11, 40: 7, 80: 2, 88: 2, 200: 2} {
		if got := mixEvery(rows); got != want {
			t.Errorf("%d rows are mixed every %d, want %d", rows, got, want)
		}
	}
}

// A stage begins with the rest of the plan as it stands, and patterns known before at most
// of the times that they can be cut.
func TestSeed(t *testing.T) {
	r := rand.New(rand.NewPCG(28, 3))
	plans, pools := 0, 0
	for range 500 {
		m := looseModel(r)
		for j := range m.parents {
			m.parents[j].times = 1
		}
		rows := slices.Clone(m.rows)
		for i := range rows {
			rows[i].most += 2
		}
		c := m.count(rows, 100, m.stocks, []int{1, 2, 3, 4, 6})
		s := &stage{counted: c, master: newMaster(c.model, never)}
		plan := m.anySolution(r)
		pool := m.anySolution(r).patterns
		want := map[string]bool{}
		for i, p := range plan.patterns {
			for k, d := range c.parents {
				if c.base[k] == p.parent && int(d.times) == plan.times[i] {
					p.parent = int32(k)
					want[p.key()] = true
					p.parent = c.base[k]
					plans++
				}
			}
		}
		for _, p := range pool {
			most := 1000
			for most > 0 && slices.ContainsFunc(p.pieces, func(x piece) bool {
				return most*int(x.n*m.cuts[x.cut].units) > rows[m.cuts[x.cut].row].most
			}) {
				most--
			}
			for k, d := range c.parents {
				if n := int(d.times); c.base[k] == p.parent && n <= most && float64(n) > float64(most)*2/3+1e-9 {
					want[pattern{int32(k), p.group, p.pieces}.key()] = true
					pools++
				}
			}
		}
		s.seed(c, pool, plan)
		for _, p := range s.patterns[s.bought:] {
			if !want[p.key()] {
				t.Fatalf("seeded with %+v, not of %+v or %+v", p, plan, pool)
			}
		}
		if len(s.patterns)-s.bought != len(want) {
			t.Fatalf("seeded with %d, want %d", len(s.patterns)-s.bought, len(want))
		}
		// What the linear program thought of goes back, the nearest to use first, each once.
		for i := range s.lp.y {
			s.lp.y[i] = r.Float64()
		}
		var order []int
		for i := s.bought; i < len(s.patterns); i++ {
			order = append(order, i)
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.lp.reduced(s.lp.m+a), s.lp.reduced(s.lp.m+b)) })
		var back []string
		for _, i := range order {
			p := s.patterns[i]
			p.parent = c.base[p.parent]
			if !slices.Contains(back, p.key()) {
				back = append(back, p.key())
			}
		}
		got := poolOf(c, s.master)
		if !slices.EqualFunc(got, back, func(p pattern, key string) bool { return p.key() == key }) {
			t.Fatalf("pool %v, want %d others", got, len(back))
		}
	}
	if plans < 200 || pools < 200 {
		t.Errorf("%d patterns of plans and %d of pools, want many", plans, pools)
	}
	c := &counted{model: &model{parents: []parent{{cost: 1, times: 1}}}, base: []int32{0}}
	s := newMaster(&model{parents: []parent{{cost: 1, times: 1}}, cuts: make([]cut, 700), rows: []row{{1, 1}}}, never)
	for i := range int32(700) {
		s.take(pattern{pieces: []piece{{i, 1}}})
	}
	if got := len(poolOf(c, s)); got != 601 {
		t.Errorf("%d of 700 in the pool, want 601", got)
	}
}

// fewestPatterns is the least number of patterns, at most so many, that make all rows at
// a cost, by trying all.
func (m *model) fewestPatterns(cost int64, most int) int {
	var sets []pattern
	for j, d := range m.parents {
		c := &choice{room: limits{d.width, d.least, m.pieces, m.kinds}, apart: m.apart}
		for i, cut := range m.cuts {
			c.items = append(c.items, item{int32(i), int32(m.rows[cut.row].most / int(cut.units)), cut.width, 0})
		}
		c.items = slices.DeleteFunc(c.items, func(it item) bool { return it.most == 0 })
		c.every(c.items, false, func(set []piece, _, width int64) {
			if width >= max(1, d.least) {
				sets = append(sets, pattern{parent: int32(j), pieces: slices.Clone(set)})
			}
		})
	}
	made := make([]int, len(m.rows))
	var next func(first, left int, cost int64) bool
	next = func(first, left int, cost int64) bool {
		if covers(m, made) {
			return true
		}
		if left == 0 {
			return false
		}
		for i := first; i < len(sets); i++ {
			p := sets[i]
			for n := m.runs; int64(n)*m.parents[p.parent].cost <= cost; n++ {
				over := false
				for _, c := range p.pieces {
					at := m.cuts[c.cut].row
					made[at] += n * int(c.n*m.cuts[c.cut].units)
					over = over || made[at] > m.rows[at].most
				}
				ok := !over && next(i+1, left-1, cost-int64(n)*m.parents[p.parent].cost)
				for _, c := range p.pieces {
					made[m.cuts[c.cut].row] -= n * int(c.n*m.cuts[c.cut].units)
				}
				if ok {
					return true
				}
				if over {
					break
				}
			}
		}
		return false
	}
	for n := range most {
		if next(0, n, cost) {
			return n
		}
	}
	return most
}

// What few rows are cut into is the fewest patterns that there can be at the cost, by trying
// all, and within all limits.
func TestFewer(t *testing.T) {
	r := rand.New(rand.NewPCG(28, 4))
	saved, searched := 0, 0
	for n := 0; n < 100; {
		m := smallModel(r)
		if len(m.rows) > 4 || len(m.stocks) > 0 {
			continue
		}
		n++
		if len(m.rows) < 4 {
			for i := range m.rows {
				m.rows[i] = row{m.rows[i].least * 2, m.rows[i].least * 2}
			}
		}
		m.strict = true
		s := solve(m, never)
		want := m.fewestPatterns(s.best.cost, len(s.best.patterns))
		// First by the complete search alone.
		d := &sparser{model: m, best: m.merged(s.best), stop: never}
		before := len(d.best.patterns)
		for d.exact() {
			if len(d.best.patterns) >= before {
				t.Fatalf("model %d: %d patterns of %d are found, not fewer", n, len(d.best.patterns), before)
			}
			before = len(d.best.patterns)
			searched++
		}
		for _, got := range []solution{d.best, m.fewer(s.best, never)} {
			if len(got.patterns) != want || got.cost != s.best.cost || m.cost(&got) > got.cost {
				t.Fatalf("model %d: %+v: %d patterns for %d, want %d for %d", n, m, len(got.patterns), m.cost(&got), want, s.best.cost)
			}
			for i, k := range m.made(got) {
				if k < m.rows[i].least || k > m.rows[i].most {
					t.Fatalf("model %d: makes %v of %v", n, m.made(got), m.rows)
				}
			}
			for _, p := range got.patterns {
				if !m.allows(p) {
					t.Fatalf("model %d: %+v is not allowed", n, p)
				}
			}
			saved += len(s.best.patterns) - len(got.patterns)
		}
	}
	if saved < 10 || searched < 5 {
		t.Errorf("%d patterns saved, %d by search, want some", saved, searched)
	}
}

// Dives find plans that cut each pattern often enough, where there are some at a cost.
func TestAnySparse(t *testing.T) {
	r := rand.New(rand.NewPCG(28, 5))
	found := 0
	for n := 0; n < 60; {
		m := smallModel(r)
		if len(m.rows) > 3 || len(m.stocks) > 0 {
			continue
		}
		n++
		m.runs, m.strict = 2, true
		for i := range m.rows {
			m.rows[i] = row{m.rows[i].least * 2, m.rows[i].least*2 + 1}
		}
		cost := int64(0)
		for i := range m.rows {
			cost += int64(m.rows[i].least) * m.parents[0].cost
		}
		got, ok := m.anySparse(cost, 3, never)
		if !ok {
			continue
		}
		found++
		if _, ok := m.anySparse(cost, 0, never); ok {
			t.Fatalf("model %d: no dive finds a plan", n)
		}
		if got.cost != m.cost(&got) || got.cost > cost {
			t.Fatalf("model %d: cost %d, %d in sum, want at most %d", n, got.cost, m.cost(&got), cost)
		}
		for i, k := range m.made(got) {
			if k < m.rows[i].least || k > m.rows[i].most {
				t.Fatalf("model %d: makes %v of %v", n, m.made(got), m.rows)
			}
		}
		for i, p := range got.patterns {
			if !m.allows(p) || got.times[i] < m.runs {
				t.Fatalf("model %d: %+v is cut %d times", n, p, got.times[i])
			}
		}
	}
	if found < 40 {
		t.Errorf("%d of 60 have a plan, want most", found)
	}
}

// A dive fixes what is greatest, takes it from what is left, and goes on where it may.
func TestChoose(t *testing.T) {
	r := rand.New(rand.NewPCG(28, 6))
	chosen, refused := 0, 0
	for range 300 {
		m := smallModel(r)
		m.strict = true
		s := solve(m, never)
		if !s.has {
			continue
		}
		d := &sparser{model: m, best: m.merged(s.best), stop: never, seed: r.IntN(24)}
		now := rest{d.rows, d.stocks, d.best.cost, solution{cost: d.best.cost}, d.best}
		st := d.stage(now.rows, now.spend, now.stocks, now.plan, len(d.best.patterns))
		if !st.ok {
			t.Fatal("no stage holds the best plan")
		}
		if st.lower > int64(len(d.best.patterns)) {
			t.Fatalf("at least %d patterns, and there is a plan of %d", st.lower, len(d.best.patterns))
		}
		next := now.clone()
		avoid := map[string]bool{}
		if !d.choose(st, &next, avoid) {
			refused++
			continue
		}
		chosen++
		if most := 1 << (d.seed % 4); len(next.chosen.patterns) > most {
			t.Fatalf("%d are chosen, want at most %d", len(next.chosen.patterns), most)
		}
		made := m.made(next.chosen)
		for i, x := range next.rows {
			if x.most != m.rows[i].most-made[i] || x.least != max(0, m.rows[i].least-made[i]) || x.most < 0 {
				t.Fatalf("row %d is left %+v of %+v, less %d", i, x, m.rows[i], made[i])
			}
		}
		stocks := slices.Clone(m.stocks)
		for i, p := range next.chosen.patterns {
			m.drawFrom(stocks, p, next.chosen.times[i])
			if !m.allows(p) {
				t.Fatalf("%+v is not allowed", p)
			}
		}
		if !slices.Equal(next.stocks, stocks) || slices.ContainsFunc(stocks, func(n int64) bool { return n < 0 }) {
			t.Fatalf("stocks left %v, want %v", next.stocks, stocks)
		}
		if spent := m.cost(&next.chosen); next.spend != now.spend-spent || next.spend < 0 {
			t.Fatalf("%d left of %d, less %d", next.spend, now.spend, spent)
		}
		if !reflect.DeepEqual(now.rows, d.rows) || !slices.Equal(now.stocks, d.stocks) {
			t.Fatal("choosing changes what it begins with")
		}
		// What is avoided is not chosen again.
		for i := range next.chosen.patterns {
			avoid[timed(next.chosen, i)] = true
		}
		other := now.clone()
		d.choose(st, &other, avoid)
		for i := range other.chosen.patterns {
			if avoid[timed(other.chosen, i)] {
				t.Fatalf("%+v is chosen again", other.chosen.patterns[i])
			}
		}
	}
	if chosen < 200 {
		t.Errorf("%d chose, %d not, want most to", chosen, refused)
	}
}

// A complete search is tried where rows and times are few enough.
func TestExactLimit(t *testing.T) {
	for _, test := range []struct {
		reels int
		want  bool
	}{{150, true}, {200, true}, {202, false}, {250, false}} {
		m := &model{parents: []parent{{width: 9, cost: 1, times: 1}}, groups: [][]int32{{0, 1}}, pieces: 9, kinds: 9, runs: 1,
			cuts: []cut{{4, 0, 1, 0}, {3, 1, 1, 0}}, rows: []row{{test.reels, test.reels}, {test.reels, test.reels}}}
		best := solution{patterns: []pattern{{pieces: []piece{{0, 2}}}, {pieces: []piece{{1, 2}}}}, times: []int{test.reels / 2, test.reels / 2}, cost: int64(test.reels)}
		d := &sparser{model: m, best: best, stop: never}
		if got := d.exact(); got != test.want || len(d.best.patterns) == 1 != test.want {
			t.Errorf("%d reels: %v, %+v", test.reels, got, d.best)
		}
	}
}

// All is done where no row wants anything, and a plan's parts are put one after the other.
func TestDone(t *testing.T) {
	for _, test := range []struct {
		rows []row
		want bool
	}{{nil, true}, {[]row{{0, 0}, {0, 3}}, true}, {[]row{{0, 0}, {1, 3}}, false}, {[]row{{-1, 0}}, true}} {
		if done(test.rows) != test.want {
			t.Errorf("%v: done %v", test.rows, !test.want)
		}
	}
	a := solution{patterns: []pattern{{parent: 1}}, times: []int{2}, cost: 3}
	b := solution{patterns: []pattern{{parent: 4}, {parent: 5}}, times: []int{6, 7}, cost: 8}
	want := solution{patterns: []pattern{{parent: 1}, {parent: 4}, {parent: 5}}, times: []int{2, 6, 7}, cost: 3}
	if got := join(a, b); !reflect.DeepEqual(got, want) {
		t.Errorf("joined %+v, want %+v", got, want)
	}
	if a, b := timed(b, 0), timed(b, 1); a == b || timed(solution{patterns: []pattern{{parent: 4}}, times: []int{6}}, 0) != a {
		t.Errorf("patterns with their times are %q and %q", a, b)
	}
}
