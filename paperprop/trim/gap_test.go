package trim

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
)

// weighedMaster is a begun master with weights at random, some of them none.
func weighedMaster(r *rand.Rand) *master {
	s := begunMaster(r)
	s.weighAtRandom(r)
	s.weights(0)
	for i := range s.proof.row {
		s.proof.row[i] >>= 12 // so that some sets are worth about a cost
		if r.IntN(5) == 0 {
			s.proof.row[i] = 0
		}
	}
	for k := range s.proof.spare {
		s.proof.spare[k] >>= 12
	}
	s.unit = 1 << 20
	s.proof.full = s.unit + r.Int64N(s.unit)
	return s
}

// What sets may fall short of full, all together, is what they cost beyond what is wanted.
func TestGap(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 1))
	for range 1000 {
		s := weighedMaster(r)
		cost := s.spent + r.Int64N(200) - 20
		want := new(big.Int)
		add := func(a, b int64) { want.Add(want, new(big.Int).Mul(big.NewInt(a), big.NewInt(b))) }
		add(s.proof.full, cost)
		add(s.proof.full, -s.spent)
		for i, v := range s.proof.row {
			for range s.least[i] {
				add(v, -1)
			}
		}
		for k, v := range s.proof.spare {
			add(v, s.stocks[k])
		}
		if got := s.gap(cost); got != want.Int64() {
			t.Fatalf("gap %d, want %v", got, want)
		}
	}
}

// A list has all sets that fall no shorter, if they are not too many, by trying all.
func TestList(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 2))
	some := 0
	for n := range 1000 {
		s := weighedMaster(r)
		if s.m.strict {
			for i := range s.proof.row {
				s.proof.row[i] = max(0, s.proof.row[i])
			}
		}
		gap := r.Int64N(s.proof.full)
		var want []pattern
		for j, d := range s.m.parents {
			if !drawable(d, s.stocks, 1) {
				continue
			}
			d.least = max(1, d.least)
			for g := range s.m.groups {
				c := s.offered(g, d)
				c.atLeast = s.proof.full*d.cost + s.proof.of(d) - gap
				for _, set := range c.dear(c.byWidth()) {
					want = append(want, pattern{int32(j), int32(g), set})
				}
			}
		}
		same := func(p, q pattern) bool {
			return p.parent == q.parent && p.group == q.group && slices.Equal(p.pieces, q.pieces)
		}
		if got, ok := s.list(gap, len(want)); !ok || !slices.EqualFunc(got, want, same) {
			t.Fatalf("master %d of %+v: %v, %v, want %v", n, s.m, got, ok, want)
		}
		if len(want) == 0 {
			continue
		}
		some++
		if got, ok := s.list(gap, len(want)-1); ok || got != nil {
			t.Fatalf("master %d: %d sets are too many for %d, and ok", n, len(want), len(want)-1)
		}
	}
	if some < 200 {
		t.Errorf("%d lists hold something, want many", some)
	}
}

// What is worth most of the pool is no more than full, and what falls too short is closed.
func TestDearestOfPool(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 3))
	dear, ruled := 0, 0
	for n := range 2000 {
		s := weighedMaster(r)
		s.m.runs = 1
		want := s.unit
		for c := s.bought; c < len(s.patterns); c++ {
			d := s.m.parents[s.patterns[c].parent]
			if !s.closed[c] && s.fitsTimes(c, 1) {
				want = max(want, up(s.worthOf(s.patterns[c])-s.proof.of(d), d.cost))
			}
		}
		got := s.dearestOfPool()
		if got != want {
			t.Fatalf("master %d: full is %d, want %d", n, got, want)
		}
		if got > s.unit {
			dear++
		}
		for c := s.bought; c < len(s.patterns); c++ {
			worth := int64(0)
			if !s.closed[c] && s.fits(c) {
				worth = s.worthOf(s.patterns[c]) - s.proof.of(s.m.parents[s.patterns[c].parent])
			}
			if s.worth[c] != worth {
				t.Fatalf("master %d: column %d is worth %d, want %d", n, c, s.worth[c], worth)
			}
		}
		s.proof.full = got
		cost := s.spent + 1 + r.Int64N(40)
		for s.gap(cost) < 0 {
			cost++
		}
		gap := s.gap(cost)
		var short []int
		for c := s.bought; c < len(s.patterns); c++ {
			if !s.closed[c] && s.fits(c) && got*s.m.parents[s.patterns[c].parent].cost-s.worth[c] > gap {
				short = append(short, c)
			}
		}
		closed, shut := slices.Clone(s.closed), s.shut
		out := s.ruleOut(cost)
		if !slices.Equal(out, short) || s.shut != shut+len(out) {
			t.Fatalf("master %d: ruled out %v, want %v; %d closed", n, out, short, s.shut)
		}
		for c := range s.closed {
			if s.closed[c] != (closed[c] || slices.Contains(short, c)) {
				t.Fatalf("master %d: column %d is closed %v", n, c, s.closed[c])
			}
		}
		if s.close(out, false); !slices.Equal(s.closed, closed) || s.shut != shut {
			t.Fatalf("master %d: opened again, %v, %d, want %v, %d", n, s.closed, s.shut, closed, shut)
		}
		if len(out) > 0 {
			ruled++
		}
	}
	if dear < 100 || ruled < 200 {
		t.Errorf("%d pools with dear sets, %d ruled out, want many", dear, ruled)
	}
}

// Dual values from inside the face of the best rule out sets that no best solution of the
// linear program has, and none that one has.
func TestInner(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 4))
	full, short := 0, 0
	for n := range 300 {
		m := smallModel(r)
		if len(m.stocks) > 0 {
			m.stocks[0] += 20
		}
		s := nudged(m, 0, never)
		if _, ok := s.relax(1 << 30); !ok {
			continue
		}
		if !s.inner() {
			t.Fatalf("model %d has no time", n)
		}
		p := s.lp
		for c := s.bought; c < len(s.patterns); c++ {
			d := m.parents[s.patterns[c].parent]
			if v := p.m + c; p.cost[v] != float64(d.cost) || !math.IsInf(p.high[v], 1) || p.reduced(v) < -1e-6*float64(d.cost) {
				t.Fatalf("model %d: column %d costs %v, at most %v, reduced %v", n, c, p.cost[v], p.high[v], p.reduced(v))
			}
		}
		p.check(t, "inner")
		// Sets of full value under these weights, against the best solutions: how often
		// can a set be cut in one?
		z := p.total()
		for c := s.bought; c < len(s.patterns); c++ {
			falls := s.falls(c, p.y)
			if math.Abs(falls-p.reduced(p.m+c)) > 1e-9 {
				t.Fatalf("model %d: column %d falls short by %v, want %v", n, c, falls, p.reduced(p.m+c))
			}
			d := float64(m.parents[s.patterns[c].parent].cost)
			worth := float64(s.worthOf(s.patterns[c])-s.proof.of(m.parents[s.patterns[c].parent])) / float64(s.proof.full)
			q := newLP(slices.Clone(p.low[:p.m]), slices.Clone(p.high[:p.m]))
			q.stop = never
			for k, column := range p.columns {
				q.add(column, p.cost[p.m+k], math.Inf(1))
			}
			q.low[q.m+c] = 1e-2 // of this at least so much
			q.settle()
			if !q.dual() {
				continue
			}
			q.primal()
			switch {
			case q.total() <= z+1e-9:
				if worth < d*(1-1e-3) {
					t.Fatalf("model %d: %+v: set %+v is in a solution as good as any, and worth %v of %v", n, m, s.patterns[c], worth, d)
				}
				full++
			case worth < d*(1-1e-7):
				short++
			}
		}
	}
	if full < 400 || short < 400 {
		t.Errorf("%d sets full and %d short, want many", full, short)
	}

	// The set of 19 and 12 is full at first, and is made a hundredth cheaper: half way to
	// where it is full then, it falls short.
	m := packing([]int64{19, 19, 19, 12, 11, 11}, 38)
	s := nudged(m, 0, never)
	s.relax(1 << 30)
	s.inner()
	for i, want := range []float64{0.5, 0.495, 0.2525} {
		if got := float64(s.proof.row[i]) / float64(s.proof.full); math.Abs(got-want) > 1e-6 {
			t.Errorf("a reel of %d is worth %v sets, want %v", m.cuts[i].width, got, want)
		}
	}
	if p := s.patterns[len(s.patterns)-1]; len(s.patterns)-s.bought != 4 || p.key() != (pattern{pieces: []piece{{0, 1}, {1, 1}}}).key() {
		t.Errorf("%d sets, the last %+v, want 4 and once more that of 19 and 12", len(s.patterns)-s.bought, p)
	}
}

// A search over a list finds a plan of its sets, if there is one of so little.
func TestListed(t *testing.T) {
	r := rand.New(rand.NewPCG(30, 5))
	found, none := 0, 0
	for n := range 200 {
		m := smallModel(r)
		m.stocks, m.parents = nil, m.parents[:1]
		m.parents[0].draws = nil
		s := newMaster(m, never)
		s.relax(1 << 30)
		list := s.patterns[s.bought:]
		sets := make([][]int, len(list)) // what each makes
		for i, p := range list {
			sets[i] = m.made(solution{patterns: []pattern{p}, times: []int{1}})
		}
		left := make([]int, len(m.rows))
		for i := range left {
			left[i] = m.rows[i].least
		}
		var next func(first, runs int) bool
		next = func(first, runs int) bool {
			if !slices.ContainsFunc(left, func(n int) bool { return n > 0 }) {
				return true
			}
			if runs == 0 {
				return false
			}
			for i := first; i < len(sets); i++ {
				ok := true
				for k, n := range sets[i] {
					left[k] -= n
					ok = ok && left[k] >= 0
				}
				ok = ok && next(i, runs-1)
				for k, n := range sets[i] {
					left[k] += n
				}
				if ok {
					return true
				}
			}
			return false
		}
		most := 0
		for _, x := range m.rows {
			most += x.least
		}
		least := 0
		for least <= most && !next(0, least) {
			least++
		}
		for runs := max(1, least-1); runs <= min(least, most); runs++ {
			cost := int64(runs) * m.parents[0].cost
			got := listed(m, list, cost, never)
			if complete := got.branch(); !complete || !got.has && runs == least {
				t.Fatalf("model %d: %+v: %v of %d runs, complete %v, want %v", n, list, got.has, runs, complete, runs == least)
			}
			if got.has {
				found++
				checkBest(t, got)
			} else {
				none++
			}
			if got.has && got.best.cost > cost {
				t.Fatalf("model %d: a plan of %d, want at most %d", n, got.best.cost, cost)
			}
		}
	}
	if found < 50 || none < 50 {
		t.Errorf("%d found, %d not, want many", found, none)
	}
}

// Sets can be listed where tables are small and nothing asks for more than rows want.
func TestListable(t *testing.T) {
	base := func() *model {
		return &model{cuts: make([]cut, 3), parents: []parent{{width: 20, times: 1}, {width: 10, times: 1}}, runs: 1}
	}
	for name, test := range map[string]struct {
		change func(*model)
		most   int64
		want   bool
	}{
		"small":   {func(*model) {}, 60, true},
		"large":   {func(*model) {}, 59, false},
		"least":   {func(m *model) { m.parents[1].least = 1 }, 60, false},
		"times":   {func(m *model) { m.parents[1].times = 2 }, 60, false},
		"strict":  {func(m *model) { m.strict = true }, 60, false},
		"runs":    {func(m *model) { m.runs = 2 }, 60, false},
		"no runs": {func(m *model) { m.runs = 0 }, 60, true},
	} {
		m := base()
		test.change(m)
		if m.listable(test.most) != test.want {
			t.Errorf("%s: listable %v", name, !test.want)
		}
	}
}
