package trim

import (
	"cmp"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// orderedModel has so many rows of a day's orders, cut from one deckle.
func orderedModel(r *rand.Rand, rows, reels int) *model {
	m := &model{groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}
	for len(m.rows) < rows {
		w := 150 + r.Int64N(500)
		if slices.ContainsFunc(m.cuts, func(c cut) bool { return c.width == w }) {
			continue
		}
		m.groups[0] = append(m.groups[0], int32(len(m.cuts)))
		m.cuts = append(m.cuts, m.cutOf(w, len(m.rows)))
		n := 1 + r.IntN(reels)
		m.rows = append(m.rows, row{n, n})
	}
	m.parents = []parent{{width: 1036, cost: 1, times: 1}}
	m.sortCuts()
	return m
}

// overrun lets all rows be overrun, by tenths.
func (m *model) overrun(more int) *model {
	for i := range m.rows {
		m.rows[i].most += 1 + m.rows[i].least*more/10
	}
	return m
}

// after is a time that is up when it was asked for so often.
func after(asks int) func() bool { return func() bool { asks--; return asks < 0 } }

// begunSolver is a solver over a begun master.
func begunSolver(r *rand.Rand) *solver {
	return &solver{master: begunMaster(r), enough: -1, never: 1 << 30}
}

// A cost that is of no use is one above the greatest sum of deckles below that of the plan, or
// above what is enough.
func TestGoal(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 1))
	gaps := 0
	for range 300 {
		m := &model{}
		for range 1 + r.IntN(3) {
			m.parents = append(m.parents, parent{cost: 2 + r.Int64N(30)})
		}
		s := &solver{master: &master{m: m}, never: 999, enough: -1}
		sums := map[int64]bool{0: true}
		for c := int64(1); c <= 200; c++ {
			for _, d := range m.parents {
				sums[c] = sums[c] || c >= d.cost && sums[c-d.cost]
			}
		}
		for range 30 {
			cost := 1 + r.Int64N(200)
			want := cost - 1
			for len(m.parents) > 1 && !sums[want] {
				if want--; want > 0 {
					gaps++
				}
			}
			if got := s.below(cost); got != want {
				t.Fatalf("below %d of %+v is %d, want %d", cost, m.parents, got, want)
			}
			s.has, s.best.cost = true, cost
			if got := s.goal(); got != want+1 {
				t.Fatalf("goal %d, want %d", got, want+1)
			}
			// It is done where the bound comes to that.
			for _, lower := range []int64{want, want + 1, cost} {
				s.lower, s.enough = lower, -1
				if got := s.done(); got != (lower > want) || got && s.lower != cost || !got && s.lower != lower {
					t.Fatalf("plan %d, bound %d, sums below %d: done %v, bound %d", cost, lower, want, got, s.lower)
				}
			}
			s.lower = 0
			for d := range int64(3) {
				if s.enough = cost - 1 + d; s.done() != (d > 0) || s.lower != 0 {
					t.Fatalf("plan %d, enough %d: done %v, bound %d", cost, s.enough, s.done(), s.lower)
				}
			}
			s.has = false
			for d := range int64(3) {
				if s.lower = s.enough - 1 + d; s.done() != (d > 1) || s.goal() != s.enough+1 {
					t.Fatalf("no plan, bound %d, enough %d: done %v, goal %d", s.lower, s.enough, s.done(), s.goal())
				}
			}
			if s.enough = -1; s.goal() != 999 || s.done() {
				t.Fatalf("no plan: goal %d, done %v", s.goal(), s.done())
			}
			if s.enough, s.lower = 0, 1; s.goal() != 1 || !s.done() {
				t.Fatalf("nothing is enough: goal %d, done %v", s.goal(), s.done())
			}
			s.enough = -1
		}
	}
	if gaps < 1000 {
		t.Errorf("%d costs between sums, want many", gaps)
	}
	some := &solver{master: &master{m: &model{parents: []parent{{cost: 3}, {cost: 3}}}}, has: true, best: solution{cost: 5}, lower: 4}
	if !some.done() || some.lower != 4 { // of what is asked for the bound is what it is
		t.Errorf("nothing is enough: done with a bound of %d, want 4", some.lower)
	}
	m := &model{parents: []parent{{cost: 1000}, {cost: 1000}}}
	for cost, want := range map[int64]int64{mostCosts: mostCosts - 1000, mostCosts + 1: mostCosts, mostCosts + 2: mostCosts + 1} {
		s := &solver{master: &master{m: m}}
		if got := s.below(cost); got != want {
			t.Errorf("below %d is %d, want %d", cost, got, want)
		}
	}
}

// No plan costs more than a set for each reel, nor than all sets of the stocks. Where the
// widths alone need more of them, a search ends before it has a set.
func TestMostCost(t *testing.T) {
	drawing := func(cost int64, draws ...draw) parent { return parent{width: 100, cost: cost, times: 1, draws: draws} }
	for _, test := range []struct {
		name    string
		parents []parent
		stocks  []int64
		want    int64
	}{
		{"no stock", []parent{drawing(3), drawing(5)}, nil, 35},
		{"one of two in stock", []parent{drawing(3), drawing(5, draw{0, 1})}, []int64{2}, 31},
		{"both in stock", []parent{drawing(3, draw{1, 1}), drawing(5, draw{0, 1})}, []int64{2, 1}, 13},
		{"the scarcer of two stocks", []parent{drawing(5, draw{0, 1}, draw{1, 2})}, []int64{6, 7}, 15},
		{"more than reels", []parent{drawing(5, draw{0, 1})}, []int64{math.MaxInt64}, 35},
	} {
		m := &model{rows: []row{{4, 5}, {0, 2}, {0, 9}}, fillers: 1, parents: test.parents, stocks: test.stocks}
		if got := m.mostCost(5); got != test.want {
			t.Errorf("%s: %d, want %d", test.name, got, test.want)
		}
	}
	m := orderedModel(rand.New(rand.NewPCG(5, 5)), 9, 20)
	m.parents[0].draws, m.stocks = []draw{{0, 1}}, []int64{9}
	if s := solve(m, never); !s.impossible || len(s.patterns) > s.bought {
		t.Errorf("impossible %v after %d sets, want it after none", s.impossible, len(s.patterns)-s.bought)
	}
}

// A plan is wanted that costs a set less where the bound is so near.
func TestNear(t *testing.T) {
	for _, test := range []struct {
		has           bool
		enough, lower int64
		want          bool
	}{{true, -1, 7, true}, {true, -1, 6, false}, {true, -1, 8, true}, {true, 0, 8, false}, {false, -1, 8, false}} {
		s := &solver{master: &master{priciest: 3}, has: test.has, best: solution{cost: 10}, enough: test.enough, lower: test.lower}
		if s.near() != test.want {
			t.Errorf("%+v: near %v", test, !test.want)
		}
	}
}

// The bound by width is worth each reel what it is wide, by the unit of its best cut.
func TestByWidth(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 2))
	for range 500 {
		s := begunSolver(r)
		for i := range s.m.cuts {
			s.m.cuts[i].width = 3 + r.Int64N(30)
		}
		s.byWidth()
		p := s.proven
		for i, v := range p.row {
			want := int64(math.MaxInt64)
			for _, c := range s.m.cuts {
				if int(c.row) == i {
					want = min(want, c.width/int64(c.units))
				}
			}
			if v != want {
				t.Fatalf("a reel of row %d is worth %d, want %d", i, v, want)
			}
		}
		want := int64(1)
		for _, d := range s.m.parents {
			want = max(want, up(d.width*int64(d.times), d.cost))
		}
		if p.full != want || len(p.spare) != len(s.m.stocks) || slices.ContainsFunc(p.spare, func(v int64) bool { return v != 0 }) {
			t.Fatalf("full %d, spare %v, want %d and nothing", p.full, p.spare, want)
		}
		for i := range s.least {
			s.least[i] = r.IntN(9)
		}
		lower := s.byWidth()
		if got := p.bound(s.least, s.most, s.m.stocks); got != lower {
			t.Fatalf("bound %d, want %d", lower, got)
		}
		// What raises the bound is kept with its proof.
		s.lower, s.byWeights = 5, 3
		s.raise(5)
		if s.byWeights != 3 || s.shown.full != 0 {
			t.Fatal("a bound that is no higher is taken")
		}
		s.raise(6)
		if s.lower != 6 || s.byWeights != 6 || !reflect.DeepEqual(s.shown.row, p.row) || !reflect.DeepEqual(s.root.row, p.row) || s.root.full != p.full {
			t.Fatalf("raised to %d by %+v", s.lower, s.shown)
		}
	}
}

// The best plan is what is fixed with the sets beside it, those of one pattern put together.
func TestKeep(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 3))
	for range 1000 {
		s := begunSolver(r)
		beside := s.m.anySolution(r)
		for c := s.bought; c < len(s.patterns); c++ {
			if r.IntN(3) == 0 {
				beside.patterns, beside.times = append(beside.patterns, s.patterns[c]), append(beside.times, 1)
			}
		}
		want := cutSets(beside)
		for c, n := range s.fixed {
			if n > 0 {
				want[s.patterns[c].key()] += n
			}
		}
		cost := s.spent + s.m.cost(&beside)
		if !s.keep(beside.patterns, beside.times) || !s.has || s.best.cost != cost || !reflect.DeepEqual(cutSets(s.best), want) || len(s.best.patterns) != len(want) {
			t.Fatalf("kept %+v for %d, want %v for %d", s.best, s.best.cost, want, cost)
		}
		if s.m.cost(&s.best) != cost {
			t.Fatalf("kept %+v, which costs %d, not %d", s.best, s.m.cost(&s.best), cost)
		}
		before := s.best
		if s.keep(beside.patterns, beside.times) || !reflect.DeepEqual(s.best, before) {
			t.Fatal("what is no better is kept")
		}
		s.best.cost++
		if !s.keep(beside.patterns, beside.times) || s.best.cost != cost {
			t.Fatal("what is better is not kept")
		}
		wanted := slices.ContainsFunc(s.least, func(n int) bool { return n > 0 })
		if s.left() != wanted {
			t.Fatalf("left %v: %v", s.least, !wanted)
		}
		if s.release(); s.spent != 0 || slices.ContainsFunc(s.fixed, func(n int) bool { return n != 0 }) || !slices.Equal(s.stocks, s.m.stocks) {
			t.Fatalf("released: %d spent, fixed %v", s.spent, s.fixed)
		}
		for i, x := range s.m.rows {
			if s.least[i] != x.least || s.most[i] != s.bounded(x) {
				t.Fatalf("released: row %d wants %d to %d", i, s.least[i], s.most[i])
			}
		}
	}
}

// widest is the set of a group and parent that takes what is widest first, as many as fit.
func (s *solver) widest(cuts []int32, j int, least, most []int) pattern {
	m := s.m
	d := m.parents[j]
	p := pattern{parent: int32(j), group: m.cuts[cuts[0]].group}
	for _, c := range cuts {
		cut := m.cuts[c]
		if m.clash(p.pieces, c) || len(p.pieces) == m.kinds || slices.ContainsFunc(p.pieces, func(x piece) bool { return m.cuts[x.cut].row == cut.row }) {
			continue
		}
		wanted := least[cut.row]
		if d.least > 0 && m.used(p) < d.least {
			wanted = most[cut.row]
		}
		for n := int32(1); int(n*cut.units*d.times)*m.runs <= wanted; n++ {
			with := pattern{p.parent, p.group, added(slices.Clone(p.pieces), c, 1)}
			if m.used(with) > d.width || len(laid(with)) > m.pieces || n > 1 && m.clash([]piece{{c, 1}}, c) {
				break
			}
			p = with
		}
	}
	return p
}

// Greedy sets are the fullest of all parents, run as often as they fit.
func TestFullest(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 4))
	found, none := 0, 0
	for n := range 2000 {
		s := begunSolver(r)
		m := s.m
		group := m.groups[r.IntN(len(m.groups))]
		filled := 0.0
		var want pattern
		times := 0
		for j, d := range m.parents {
			p := s.widest(group, j, s.least, s.most)
			if used := m.used(p); !drawable(d, s.stocks, m.runs) || used < max(1, d.least) || float64(used)*float64(d.times)/float64(d.cost) <= filled {
				continue
			}
			filled = float64(m.used(p)) * float64(d.times) / float64(d.cost)
			want, times = p, m.runs
			ok := func(n int) bool { // no row gets more than it wants, or may have if it wants none, unless by a single run
				for _, e := range m.column(p) {
					k := int(e.row) - len(m.rows)
					if k < 0 && int(e.n)*n > cmp.Or(max(0, s.least[e.row]), s.most[e.row]) && n > 1 || k >= 0 && int64(e.n)*int64(n) > s.stocks[k] {
						return false
					}
				}
				return true
			}
			for ok(times + 1) {
				times++
			}
		}
		sortPieces(want.pieces)
		got, runs := s.fullest(group, s.least, s.most, s.stocks)
		if runs != times || times > 0 && !reflect.DeepEqual(got, want) {
			t.Fatalf("solver %d: %+v: %d of %+v, want %d of %+v; left %v to %v, %v", n, m, runs, got, times, want, s.least, s.most, s.stocks)
		}
		if times > 0 {
			found++
		} else {
			none++
		}
	}
	if found < 500 || none < 100 {
		t.Errorf("%d sets found, %d times none, want many", found, none)
	}
}

// A set that is full only with what nobody needs is run as often as that may be: one by
// one, millions of sets took longer than a search has.
func TestFullestOfMillions(t *testing.T) {
	m := &model{
		rows: []row{{0, 3_000_000}, {1_000_000, 1_000_000}}, cuts: []cut{{600, 0, 1, 0}, {150, 1, 1, 0}},
		parents: []parent{{width: 1000, least: 700, cost: 1, times: 1}}, groups: [][]int32{{0, 1}},
		pieces: 9, kinds: 9, runs: 1, strict: true,
	}
	s := &solver{master: newMaster(m, func() bool { return false })}
	// 600 + 2·150, until there is none of the 150
	if set, runs := s.fullest(m.groups[0], s.least, s.most, nil); !slices.Equal(set.pieces, []piece{{0, 1}, {1, 2}}) || runs != 500_000 {
		t.Errorf("%d runs of %v, want 500000 of one 600 and two 150", runs, set.pieces)
	}
}

// What greedy keeps makes all that is wanted, of what there is, at its cost, and is in the pool.
func TestGreedy(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 5))
	kept, dear := 0, 0
	for n := range 2000 {
		s := begunSolver(r)
		m := s.m
		least, most, stocks := slices.Clone(s.least), slices.Clone(s.most), slices.Clone(s.stocks)
		var sets []pattern
		var times []int
		cost := s.spent
		for _, group := range m.groups {
			wanted := func() bool {
				for _, c := range group {
					if least[m.cuts[c].row] > 0 {
						return true
					}
				}
				return false
			}
			for wanted() {
				p, n := s.fullest(group, least, most, stocks)
				if n == 0 {
					break
				}
				sets, times = append(sets, p), append(times, n)
				for _, e := range m.column(p) {
					if k := int(e.row) - len(m.rows); k < 0 {
						least[e.row] -= int(e.n) * n
						most[e.row] -= int(e.n) * n
					} else {
						stocks[k] -= int64(e.n) * int64(n)
					}
				}
				cost += int64(n) * m.parents[p.parent].cost
			}
		}
		whole := !slices.ContainsFunc(least, func(n int) bool { return n > 0 })
		if r.IntN(3) == 0 { // a plan that costs as much, or one more
			s.has, s.best.cost = true, cost+r.Int64N(2)
		}
		want := whole && (!s.has || cost < s.goal())
		before, bestBefore := len(s.patterns), s.best
		s.greedy()
		if want {
			kept++
		} else {
			dear++
		}
		if !want && (len(s.patterns) != before || !reflect.DeepEqual(s.best, bestBefore)) {
			t.Fatalf("solver %d: %+v is kept, of %v in %v for %d, whole %v", n, s.best, sets, times, cost, whole)
		}
		if !want {
			continue
		}
		all := cutSets(solution{patterns: sets, times: times})
		for c, n := range s.fixed[:before] {
			if n > 0 {
				all[s.patterns[c].key()] += n
			}
		}
		if s.best.cost != cost || !reflect.DeepEqual(cutSets(s.best), all) {
			t.Fatalf("solver %d: kept %+v, want %v in %v for %d", n, s.best, sets, times, cost)
		}
		for _, p := range sets {
			if _, ok := s.known[p.key()]; !ok {
				t.Fatalf("solver %d: %+v is not known", n, p)
			}
		}
	}
	if kept < 200 || dear < 200 {
		t.Errorf("%d plans kept, %d not, want many", kept, dear)
	}
}

// solvedPart is a solver whose linear program is solved for what is left.
func solvedPart(r *rand.Rand, nudge float64) *solver {
	m := smallModel(r)
	if r.IntN(2) == 0 {
		for i := range m.rows {
			m.rows[i].least *= 3
			m.rows[i].most *= 3
		}
	}
	if m.runs = 1 + r.IntN(2); m.runs > 1 {
		for i := range m.rows {
			m.rows[i].least *= 2
			m.rows[i].most = m.rows[i].least + 1
		}
		m.strict = true
	}
	s := &solver{master: nudged(m, nudge, never), enough: -1, never: 1 << 30}
	s.relax(1 << 29)
	for c := s.bought; c < len(s.patterns); c++ {
		if n := s.first(c); r.IntN(5) == 0 && s.fitsTimes(c, n) {
			s.fix(c, n)
		}
		if r.IntN(6) == 0 {
			s.close([]int{c}, true)
		}
	}
	s.bounds()
	s.relax(1 << 29)
	return s
}

// Whole parts of the solution are fixed, or the column nearest to the next whole number.
func TestRound(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 6))
	whole, single, none := 0, 0, 0
	for n := range 2000 {
		s := solvedPart(r, []float64{1e-7, 1e-4}[n%2])
		want := slices.Clone(s.fixed)
		x := make([]float64, len(s.patterns))
		any := false
		pick, best := -1, 0.0
		seed := n % 5
		// In the order of the columns, each beside what is fixed by then.
		rest := &solver{master: newMaster(s.m, never)}
		rest.most, rest.stocks = slices.Clone(s.most), slices.Clone(s.stocks)
		rest.lp.columns, rest.fixed = s.lp.columns, want
		for c := s.bought; c < len(s.patterns); c++ {
			if x[c] = s.lp.value(s.lp.m+c) - float64(s.fixed[c]); x[c] < 1e-6 {
				continue
			}
			k := 0
			for float64(k+1) <= x[c]+1e-5+20*s.nudge {
				k++
			}
			if k > 0 && (want[c] > 0 || k >= s.m.runs) && rest.fitsTimes(c, k) {
				want[c] += k
				any = true
				for _, e := range s.lp.columns[c] {
					if at := int(e.row) - len(s.m.rows); at < 0 {
						rest.most[e.row] -= int(e.n) * k
					} else {
						rest.stocks[at] -= int64(e.n) * int64(k)
					}
				}
			}
			score := x[c] - math.Floor(x[c])
			if seed > 0 {
				score += float64((c*2654435761+seed*40503)/8%1024) / 1024 * 0.08 * float64(seed)
			}
			if score > best && rest.fits(c) {
				pick, best = c, score
			}
		}
		switch {
		case any:
			whole++
		case pick >= 0:
			single++
			if want[pick]++; want[pick] == 1 {
				want[pick] = s.m.runs
			}
		default:
			none++
		}
		if got := s.round(seed); got != (any || pick >= 0) || !slices.Equal(s.fixed, want) {
			t.Fatalf("solver %d: %+v: fixed %v, %v, want %v of %v", n, s.m, s.fixed, got, want, x)
		}
	}
	if whole < 200 || single < 100 || none < 20 {
		t.Errorf("%d times whole parts, %d times one column, %d times none: want each often", whole, single, none)
	}
}

// The column to branch on covers the row that the fewest cover, and of such is nearest to a run.
func TestPick(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 7))
	picked, none := 0, 0
	for n := range 2000 {
		s := solvedPart(r, 1e-7)
		s.whole = n%3 == 0
		var open []int
		value := func(c int) float64 { return min(1, s.lp.value(s.lp.m+c)-float64(s.fixed[c])) }
		for c := s.bought; c < len(s.patterns); c++ {
			if (s.whole || value(c) >= 1e-6) && !s.closed[c] && s.fits(c) {
				open = append(open, c)
			}
		}
		covering := func(row int) (all []int) {
			for _, c := range open {
				if slices.ContainsFunc(s.lp.columns[c], func(e entry) bool { return int(e.row) == row }) {
					all = append(all, c)
				}
			}
			return all
		}
		of := open
		rarest := -1
		for row := range s.m.rows {
			if all := covering(row); len(all) > 0 && s.least[row] > 0 && (rarest < 0 || len(all) < len(of)) {
				rarest, of = row, all
			}
		}
		want := -1
		for _, c := range of {
			if want < 0 || value(c) > value(want) {
				want = c
			}
		}
		if got := s.pick(); got != want {
			t.Fatalf("solver %d: picked %d, want %d of %v", n, got, want, of)
		}
		if want < 0 {
			none++
		} else {
			picked++
		}
	}
	if picked < 500 || none < 20 {
		t.Errorf("%d picked, %d times none, want many", picked, none)
	}
}

// A search to its end finds the least cost, found here by trying everything, or that there is
// no plan of so little, and leaves all as it was.
func TestBranch(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 8))
	nodes := 0
	for n := range 200 {
		m := smallModel(r)
		least := m.leastCost()
		s := &solver{master: newMaster(m, never), enough: -1, never: 1 << 30}
		if !s.branch() || s.best.cost != least || !s.has {
			t.Fatalf("model %d: %+v: cost %d, want %d", n, m, s.best.cost, least)
		}
		checkBest(t, s)
		if s.shut != 0 || s.spent != 0 || slices.Contains(s.closed, true) || slices.ContainsFunc(s.fixed, func(n int) bool { return n != 0 }) {
			t.Fatalf("model %d: %d closed, %d spent at the end", n, s.shut, s.spent)
		}
		nodes += s.nodes
		for enough := max(0, least-2); enough <= least; enough++ {
			s := &solver{master: newMaster(m, never), enough: enough, never: 1 << 30}
			if !s.branch() || s.has != (enough == least) {
				t.Fatalf("model %d: %+v: has %v of %d, least %d", n, m, s.has, enough, least)
			}
		}
		s = &solver{master: newMaster(m, never), enough: least - 1, never: 1 << 30, patience: 1}
		if s.branch() != (s.nodes == 1) || s.nodes > 2 {
			t.Fatalf("model %d: a search of one node takes %d", n, s.nodes)
		}
	}
	if nodes < 400 {
		t.Errorf("%d nodes in 200 models, want several", nodes)
	}
}

// A whole search finds the least cost and its bound, and so do those of so much and no more.
func TestRun(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 9))
	for n := range 200 {
		m := smallModel(r)
		least := m.leastCost()
		s := solve(m, never)
		if s.best.cost != least || s.lower != least || s.byWeights > least || s.impossible {
			t.Fatalf("model %d: %+v: cost %d, bound %d, %d by weights, want %d", n, m, s.best.cost, s.lower, s.byWeights, least)
		}
		checkBest(t, s)
		if got := s.shown.bound(s.least, s.most, m.stocks); got != s.byWeights {
			t.Fatalf("model %d: %+v proves %d, want %d", n, s.shown, got, s.byWeights)
		}
		for enough := max(0, least-2); enough <= least+1; enough++ {
			got, ok := within(m, enough, never, 0, s.pool(r.IntN(20)))
			if ok != (enough >= least) || ok && (got.cost > enough || m.cost(&got) != got.cost) {
				t.Fatalf("model %d: %+v: %+v within %d, least %d", n, m, got, enough, least)
			}
		}
		if s.short() != 0 {
			t.Fatalf("model %d: row %d is short", n, s.short())
		}
	}
	// A stock that is good for too little makes no plan; what is short is told.
	for n := range 50 {
		m := smallModel(r)
		m.parents = m.parents[:1]
		m.parents[0].draws, m.stocks = []draw{{0, 1}}, []int64{1}
		for i := range m.rows {
			m.rows[i] = row{4, 4}
		}
		s := solve(m, never)
		if s.has || !s.impossible {
			t.Fatalf("model %d: %+v: plan %+v", n, m, s.best)
		}
		short, worst := s.short(), 0
		for i := range m.rows {
			if s.lp.value(s.lp.m+i) > s.lp.value(s.lp.m+worst) {
				worst = i
			}
		}
		if short != worst || s.lp.value(s.lp.m+worst) == 0 {
			t.Fatalf("model %d: row %d is short, want %d", n, short, worst)
		}
	}
}

// Thin sets are made thick where rows may have more, within all limits.
func TestThickened(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 10))
	thick := 0
	for n := range 300 {
		m := smallModel(r)
		m.parents, m.stocks = m.parents[:1], nil
		m.parents[0].draws = nil
		d := &m.parents[0]
		d.least = d.width - 1 - r.Int64N(d.width/3)
		m.strict = true
		m.overrun(r.IntN(10))
		if n%7 == 0 {
			m.runs = 2
		}
		s := &solver{master: newMaster(m, never), enough: -1, never: 1 << 30}
		if n%5 == 0 {
			s.enough = int64(n % 2 * 50)
		}
		if n%11 == 0 {
			for i := range m.rows {
				m.rows[i].most = m.rows[i].least
			}
		}
		s.thickened()
		if !s.has {
			continue
		}
		thick++
		more := slices.ContainsFunc(m.rows, func(x row) bool { return x.least < x.most })
		if m.runs > 1 || s.enough >= 0 || !more {
			t.Fatalf("model %d is thickened", n)
		}
		for _, p := range s.best.patterns {
			if _, ok := s.known[p.key()]; !ok || !m.allows(p) {
				t.Fatalf("model %d: %+v: set %+v, known %v", n, m, p, ok)
			}
		}
		for i, k := range m.made(s.best) {
			if k < m.rows[i].least || k > m.rows[i].most {
				t.Fatalf("model %d: makes %v of %v", n, m.made(s.best), m.rows)
			}
		}
		if s.best.cost != m.cost(&s.best) {
			t.Fatalf("model %d: costs %d, want %d", n, s.best.cost, m.cost(&s.best))
		}
	}
	if thick < 50 {
		t.Errorf("%d of 300 thickened, want many", thick)
	}
	for least := int64(7); least < 10; least++ { // two reels of 4 are just as wide as they must be, and no third fits
		m := &model{rows: []row{{2, 4}}, cuts: []cut{{4, 0, 1, 0}}, groups: [][]int32{{0}}, pieces: 9, kinds: 9, runs: 1, strict: true,
			parents: []parent{{width: 10, least: least, cost: 1, times: 1}}}
		s := &solver{master: newMaster(m, never), enough: -1, never: 1 << 30}
		if s.thickened(); s.has != (least <= 8) {
			t.Errorf("at least %d wide: thickened %v", least, s.has)
		}
	}
}

// hardModel has few reels, patterns that must be cut several times or sets that must be full.
func hardModel(r *rand.Rand) *model {
	m := smallModel(r)
	m.strict, m.stocks = true, nil
	for j := range m.parents {
		m.parents[j].draws = nil
	}
	if len(m.rows) > 3 {
		m.rows, m.cuts = m.rows[:3], m.cuts[:3]
		m.groups[0] = []int32{0, 1, 2}
		m.sortCuts()
	}
	m.overrun(r.IntN(5))
	if r.IntN(2) == 0 {
		m.runs = 2 + r.IntN(2)
		for i := range m.rows {
			m.rows[i].most++
		}
	}
	if m.runs == 1 || r.IntN(3) == 0 {
		for j := range m.parents {
			d := &m.parents[j]
			d.least = d.width * int64(5+r.IntN(5)) / 10
		}
	}
	return m
}

// Plans that are hard to come by keep all limits, and no bound is above what there is: found
// here by trying all. A search with time enough finds the best, in most cases.
func TestSolveHard(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 11))
	plans, best, none, wide := 0, 0, 0, 0
	for n := range 150 {
		m := hardModel(r)
		asks := []int{10, 100, 1000, 20000}[n%4]
		s := m.solveHard(func(part float64) func() bool { return after(int(part * float64(asks))) })
		const most = 4 // patterns
		if s.has {
			plans++
			checkBest(t, s)
			for i, k := range m.made(s.best) {
				if k > m.rows[i].most {
					t.Fatalf("model %d: makes %v of %v", n, m.made(s.best), m.rows)
				}
			}
			for i, k := range s.best.times {
				if k < m.runs {
					t.Fatalf("model %d: %+v is cut %d times, want %d at least", n, s.best.patterns[i], k, m.runs)
				}
			}
			if s.lower > s.best.cost {
				t.Fatalf("model %d: a bound of %d and a plan of %d", n, s.lower, s.best.cost)
			}
		}
		switch {
		case s.has && m.fewestPatterns(s.best.cost-1, most) == most: // none that costs less
			best++
		case s.has && m.fewestPatterns(s.lower-1, most) < most:
			t.Fatalf("model %d: %+v: there is a plan below %d", n, m, s.lower)
		case s.has:
			wide++
		case s.impossible && m.fewestPatterns(1000, most) < most:
			t.Fatalf("model %d: %+v: there is a plan, and said to be none", n, m)
		default:
			none++
		}
	}
	if plans < 50 || best < 50 || none < 10 {
		t.Errorf("%d plans, %d the best, %d not, %d times none: want many", plans, best, wide, none)
	}
}

// Sets that must all be full are found where there are such, by trying all.
func TestSolveFull(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 12))
	full, over := 0, 0
	for n := range 100 {
		widths, deckle, sets := fullSets(r)
		m := packing(widths, deckle)
		rooms := make([]int64, sets)
		for i := range rooms {
			rooms[i] = deckle
		}
		want := int64(sets)
		if !packs(widths, rooms) {
			want++
			over++
		} else {
			full++
		}
		s := solve(m, never)
		if s.best.cost != want || s.lower != want {
			t.Fatalf("problem %d: widths %v on %d: %d sets, bound %d, want %d", n, widths, deckle, s.best.cost, s.lower, want)
		}
		checkBest(t, s)
	}
	if full < 20 || over < 20 {
		t.Errorf("%d problems of full sets, %d of one more, want many", full, over)
	}
}

// Where the searches before have no time, mending and dives over runs find plans, or better ones
// than there were.
func TestSolveHardParts(t *testing.T) {
	up := func() bool { return true }
	r := rand.New(rand.NewPCG(29, 13))
	better := map[string]int{}
	for n := range 200 {
		m := hardModel(r)
		if n%2 == 0 {
			m, _ = mixable(r)
			m.strict, m.runs = true, 2
			m.overrun(0)
		}
		if m.runs == 1 {
			continue
		}
		run := func(live func(call int, part float64) bool) *solver {
			call := 0
			return m.solveHard(func(part float64) func() bool {
				if call++; live(call, part) {
					return after(3000)
				}
				return up
			})
		}
		quick := run(func(int, float64) bool { return false })
		for name, live := range map[string]func(int, float64) bool{
			"dives":   func(_ int, part float64) bool { return part == 0.5 },
			"mending": func(call int, part float64) bool { return call > 2 && part == 0.1 },
			"long":    func(_ int, part float64) bool { return part == 0.6 },
			"last":    func(_ int, part float64) bool { return part == 0.4 },
		} {
			s := run(live)
			if !s.has {
				if quick.has {
					t.Fatalf("%s: %+v: a plan is lost", name, m)
				}
				continue
			}
			checkBest(t, s)
			if quick.has && s.best.cost > quick.best.cost {
				t.Fatalf("%s: %+v: %d, and %d before", name, m, s.best.cost, quick.best.cost)
			}
			if !quick.has || s.best.cost < quick.best.cost {
				better[name]++
				if quick.has {
					better[name+" of a plan"]++
				}
			}
		}
	}
	for name, least := range map[string]int{"dives": 30, "dives of a plan": 5, "mending": 40, "mending of a plan": 1, "long": 40, "last": 80, "last of a plan": 8} {
		if better[name] < least {
			t.Errorf("%s: better %d times, want at least %d", name, better[name], least)
		}
	}
}
