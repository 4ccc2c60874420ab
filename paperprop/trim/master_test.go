package trim

import (
	"cmp"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// begunMaster is of a loose model that may keep cuts apart, knows some sets, and has runs of
// some of them fixed and some closed.
func begunMaster(r *rand.Rand) *master {
	m := looseModel(r)
	m.strict = r.IntN(2) == 0
	for i := range m.rows {
		m.rows[i].least *= 2
		m.rows[i].most = m.rows[i].least + r.IntN(3)
	}
	if r.IntN(3) == 0 {
		m.apart = make([][]int32, len(m.cuts))
		for range r.IntN(4) {
			a, b := r.Int32N(int32(len(m.cuts))), r.Int32N(int32(len(m.cuts)))
			if m.apart[a] = append(m.apart[a], b); a != b {
				m.apart[b] = append(m.apart[b], a)
			}
		}
	}
	s := newMaster(m, never)
	for range 12 {
		p := m.anySet(r)
		if !m.allows(p) {
			continue
		}
		c, _ := s.take(p)
		if n := s.first(c); r.IntN(2) == 0 && s.fitsTimes(c, n) {
			s.fix(c, n)
		}
		if r.IntN(4) == 0 && !s.closed[c] {
			s.close([]int{c}, true)
		}
	}
	return s
}

// weigh gives the rows of the linear program dual values at random.
func (s *master) weighAtRandom(r *rand.Rand) {
	high := []float64{3, 40, 3000}[r.IntN(3)]
	for i := range s.lp.y {
		s.lp.y[i] = high * (r.Float64() - 0.2)
		if i >= len(s.m.rows) {
			s.lp.y[i] = -s.lp.y[i]
		}
	}
}

// offered is what sets of a group on a parent may be made of, as a choice.
func (s *master) offered(g int, d parent) *choice {
	c := &choice{room: limits{d.width, d.least, s.m.pieces, s.m.kinds}, apart: s.m.apart}
	if s.m.apart == nil && slices.ContainsFunc(s.m.cuts, func(c cut) bool { return c.units > 1 }) {
		c.model = s.m
		for _, n := range s.most {
			c.most = append(c.most, max(0, n)/(s.m.runs*int(d.times)))
		}
	}
	for _, at := range s.m.groups[g] {
		cut := s.m.cuts[at]
		units := int(cut.units * d.times)
		n := 0
		for (n+1)*units*s.m.runs <= s.most[cut.row] {
			n++
		}
		if s.m.apart != nil && slices.Contains(s.m.apart[at], at) {
			n = min(n, 1)
		}
		value := int64(units) * s.proof.row[cut.row]
		if n > 0 && cut.width <= d.width && (value > 0 || d.least > 0) {
			c.items = append(c.items, item{at, int32(n), cut.width, value})
		}
	}
	return c
}

// worthOf is what a set is worth under the present weights.
func (s *master) worthOf(p pattern) (sum int64) {
	for _, c := range laid(p) {
		sum += s.proof.row[s.m.cuts[c].row] * int64(s.m.cuts[c].units*s.m.parents[p.parent].times)
	}
	return sum
}

// up is a ratio rounded up.
func up(a, b int64) int64 {
	n := a / b
	if n*b < a {
		n++
	}
	return n
}

// Rows are asked for a little more each, and nothing is fixed.
func TestNewMaster(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 1))
	for range 200 {
		m := looseModel(r)
		m.strict = r.IntN(2) == 0
		s := nudged(m, 0.01, never)
		slop, dearest := 0.0, int64(0)
		for i, x := range m.rows {
			more := s.lp.low[i] - float64(x.least)
			if more <= 0 || more > 0.01+1e-9 {
				t.Fatalf("row %d asks for %v, want a little more than %d", i, s.lp.low[i], x.least)
			}
			slop += more
			high, most := math.Inf(1), x.least
			if m.strict {
				high, most = float64(x.most)+0.02, x.most
			}
			if s.lp.high[i] != high || s.least[i] != x.least || s.most[i] != most || s.bounded(x) != most {
				t.Fatalf("row %d of %+v: at most %v, %d to %d, want %v, %d", i, m, s.lp.high[i], s.least[i], s.most[i], high, most)
			}
			if !reflect.DeepEqual(s.lp.columns[i], []entry{{int32(i), 1}}) || s.lp.cost[s.lp.m+i] != s.price || s.patterns[i].parent != -1 {
				t.Fatalf("column %d is no reel that is bought in", i)
			}
		}
		for k, n := range m.stocks {
			if at := len(m.rows) + k; s.lp.low[at] != 0 || s.lp.high[at] < float64(n) || s.lp.high[at] > float64(n)+0.01 || s.stocks[k] != n {
				t.Fatalf("stock %d is %v, want %d", k, s.lp.high[at], n)
			}
		}
		for _, d := range m.parents {
			dearest = max(dearest, d.cost)
		}
		if math.Abs(s.slop-slop) > 1e-9 || s.priciest != dearest || s.finest != 1<<36/dearest || s.price != float64(10*dearest) || s.bought != len(m.rows) {
			t.Fatalf("%+v: slop %v, priciest %d, finest %d, price %v, bought %d", m, s.slop, s.priciest, s.finest, s.price, s.bought)
		}
	}
	m := &model{rows: make([]row, 1009), parents: []parent{{cost: 1 << 40}}}
	s := nudged(m, 1, never)
	if s.finest != 1 {
		t.Errorf("finest is %d where costs are great, want 1", s.finest)
	}
	asked := s.lp.low[:1009]
	slices.Sort(asked)
	if len(slices.Compact(asked)) != 1009 {
		t.Error("two rows of 1009 ask for as much more")
	}
}

// Weights are the dual values in whole numbers, as fine as they may be, mixed with those
// of the best bound.
func TestWeights(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 2))
	for range 1000 {
		s := begunMaster(r)
		s.weighAtRandom(r)
		mix := 0.0
		if r.IntN(2) == 0 {
			mix = smooth
			for range s.m.rows {
				s.center.row = append(s.center.row, r.Int64N(1<<30))
			}
			s.center.full = 1 + r.Int64N(1<<30)
		}
		s.weights(mix)
		highest := 1.0
		for _, y := range s.lp.y {
			highest = max(highest, math.Abs(y))
		}
		unit := min(s.finest, int64(16*(1<<36)/highest))
		if s.unit != unit || s.proof.full != unit || len(s.proof.row) != len(s.m.rows) || len(s.proof.spare) != len(s.m.stocks) {
			t.Fatalf("unit %d, full %d, want %d", s.unit, s.proof.full, unit)
		}
		for i, v := range s.proof.row {
			want := s.lp.y[i] * float64(unit)
			if !s.m.strict {
				want = max(0, want)
			}
			if mix > 0 {
				want = 0.4*want + 0.6*float64(s.center.row[i])*float64(unit)/float64(s.center.full)
			}
			if math.Abs(float64(v)-want) > 1.01+1e-9*math.Abs(want) || mix == 0 && math.Abs(float64(v)-want) > 0.5 {
				t.Fatalf("weight %d of row %d, want %v", v, i, want)
			}
		}
		for k, v := range s.proof.spare {
			if want := max(0, -s.lp.y[len(s.m.rows)+k]*float64(unit)); math.Abs(float64(v)-want) > 0.5 {
				t.Fatalf("weight %d of stock %d, want %v", v, k, want)
			}
		}
	}
	s := begunMaster(r)
	s.lp.y[0] = 1e30
	if s.weights(0); s.unit != 1 {
		t.Errorf("unit %d where dual values are huge, want 1", s.unit)
	}
}

// What sets are made of is what is left of each row, parted among all runs.
func TestOffer(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 3))
	for range 1000 {
		s := begunMaster(r)
		s.weighAtRandom(r)
		s.weights(0)
		for _, d := range s.m.parents {
			for g := range s.m.groups {
				want := s.offered(g, d).items
				if s.offer(s.m.groups[g], d); !slices.Equal(s.items, want) {
					t.Fatalf("%+v: offers %v, want %v", s.m, s.items, want)
				}
			}
		}
	}
}

// Where a search makes the proof of a bound, no set that is left is worth more than full,
// and full is no more than that takes. What is worth most is known then.
func TestGenerate(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 4))
	grown, still, again, skipped := 0, 0, 0, 0
	for n := range 3000 {
		s := begunMaster(r)
		m := s.m
		s.weighAtRandom(r)
		if r.IntN(3) == 0 { // so little that no set is worth its cost
			for i := range m.rows {
				s.lp.y[i] /= 100
			}
		}
		s.weights(0)
		full := s.unit
		var best []pattern
		for j, d := range m.parents {
			if !drawable(d, s.stocks, m.runs) {
				skipped++
				continue
			}
			for g := range m.groups {
				c := s.offered(g, d)
				spare := s.proof.of(d)
				least := s.unit*d.cost + spare
				c.atLeast = least + max(1, least>>30)
				most := c.atLeast
				var top pattern
				c.every(c.items, false, func(set []piece, value, width int64) {
					p := pattern{int32(j), int32(g), slices.Clone(set)}
					sortPieces(p.pieces)
					if k, ok := s.known[p.key()]; ok && s.closed[k] || value <= most || width < d.least || width == 0 {
						return
					}
					most, top = value, p
				})
				if full = max(full, up(most-spare, d.cost)); top.pieces != nil {
					best = append(best, top)
				}
			}
		}
		before := full
		if m.runs > 1 {
			for c, n := range s.fixed {
				if n > 0 && !s.closed[c] && s.fitsTimes(c, 1) {
					d := m.parents[s.patterns[c].parent]
					full = max(full, up(s.worthOf(s.patterns[c])-s.proof.of(d), d.cost))
				}
			}
		}
		if full > before {
			again++
		}
		known := len(s.patterns)
		grew := s.generate(0)
		if s.proof.full != full {
			t.Fatalf("master %d of %+v: full %d, want %d", n, m, s.proof.full, full)
		}
		if grew != (len(s.patterns) > known) {
			t.Fatalf("master %d: grew from %d to %d sets, and says %v", n, known, len(s.patterns), grew)
		}
		if grew {
			grown++
		} else {
			still++
		}
		for _, p := range s.patterns[known:] {
			if !m.allows(p) {
				t.Fatalf("master %d of %+v: found %+v, which is not allowed", n, m, p)
			}
		}
		for _, p := range best { // there may be others that are worth as much
			if !slices.ContainsFunc(s.patterns[s.bought:], func(q pattern) bool {
				return q.parent == p.parent && q.group == p.group && s.worthOf(q) >= s.worthOf(p)
			}) {
				t.Fatalf("master %d of %+v: knows nothing as good as %+v", n, m, p)
			}
		}
	}
	if grown < 500 || still < 500 || again < 10 || skipped < 200 {
		t.Errorf("%d masters grown, %d not, %d full by what is cut already, %d parents out of stock: want many", grown, still, again, skipped)
	}
}

// Room that a set leaves is filled with what is still wanted, of rows that it lacks.
func TestFilled(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 5))
	filled, back := 0, 0
	for n := range 3000 {
		s := begunMaster(r)
		m := s.m
		thin := m.anySet(r)
		d := m.parents[thin.parent]
		if m.used(thin) > d.width || len(laid(thin)) > m.pieces {
			continue
		}
		cuts := laid(thin)
		for _, c := range m.groups[thin.group] {
			cut := m.cuts[c]
			if slices.ContainsFunc(cuts, func(x int32) bool {
				return m.cuts[x].row == cut.row || m.apart != nil && slices.Contains(m.apart[c], x)
			}) {
				continue
			}
			if len(setOf(thin, slices.Clone(cuts)).pieces) >= m.kinds {
				break
			}
			for k := 1; k*int(cut.units*d.times)*m.runs <= s.most[cut.row]; k++ {
				with := setOf(thin, append(slices.Clone(cuts), c))
				if m.used(with) > d.width || len(laid(with)) > m.pieces || k > 1 && m.apart != nil && slices.Contains(m.apart[c], c) {
					break
				}
				cuts = append(cuts, c)
			}
		}
		want := setOf(thin, cuts)
		if c, ok := s.known[want.key()]; ok && s.closed[c] {
			want = thin
			back++
		}
		was := slices.Clone(thin.pieces)
		got := s.filled(thin)
		sortPieces(got.pieces)
		if !slices.Equal(got.pieces, want.pieces) || got.parent != thin.parent || got.group != thin.group || !slices.Equal(thin.pieces, was) {
			t.Fatalf("master %d of %+v: %+v filled is %+v, want %+v", n, m, thin, got, want)
		}
		if len(got.pieces) > len(thin.pieces) {
			filled++
		}
	}
	if filled < 500 || back < 5 {
		t.Errorf("%d sets filled, %d closed then, want many", filled, back)
	}
}

// A closed pattern is forbidden, in whatever order its pieces come.
func TestForbid(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 6))
	closed := 0
	for range 500 {
		s := begunMaster(r)
		if s.forbid(0, 0); (s.sack.banned == nil) != !slices.Contains(s.closed, true) {
			t.Fatalf("%d closed, and banned is %v", s.shut, s.sack.banned != nil)
		}
		if s.sack.banned == nil {
			continue
		}
		for c := s.bought; c < len(s.patterns); c++ {
			p := s.patterns[c]
			set := slices.Clone(p.pieces)
			slices.Reverse(set)
			if s.forbid(int(p.parent), int(p.group)); s.sack.banned(slices.Clone(set)) != s.closed[c] {
				t.Fatalf("set %+v is closed %v, and banned %v", p, s.closed[c], !s.closed[c])
			}
			if s.closed[c] {
				closed++
			}
			set[0].n += 50
			if s.sack.banned(set) {
				t.Fatalf("set %+v is not known, and banned", set)
			}
		}
	}
	if closed < 200 {
		t.Errorf("%d sets closed, want many", closed)
	}
}

// Runs that are fixed are taken from what is left, and bounds follow.
func TestFix(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 7))
	tight, free := 0, 0
	for range 1000 {
		s := begunMaster(r)
		m := s.m
		least, most, stocks := []int{}, []int{}, slices.Clone(m.stocks)
		for _, x := range m.rows {
			least, most = append(least, x.least), append(most, s.bounded(x))
		}
		spent := int64(0)
		shut := 0
		for c := s.bought; c < len(s.patterns); c++ {
			p := s.patterns[c]
			d := m.parents[p.parent]
			for range s.fixed[c] {
				spent += d.cost
				for _, x := range laid(p) {
					least[m.cuts[x].row] -= int(m.cuts[x].units * d.times)
					most[m.cuts[x].row] -= int(m.cuts[x].units * d.times)
				}
				for _, x := range d.draws {
					stocks[x.stock] -= int64(x.n)
				}
			}
			if s.closed[c] {
				shut++
			}
		}
		if !slices.Equal(s.least, least) || !slices.Equal(s.most, most) || !slices.Equal(s.stocks, stocks) || s.spent != spent || s.shut != shut {
			t.Fatalf("left %v to %v, %v in stock, %d spent, want %v to %v, %v, %d", s.least, s.most, s.stocks, s.spent, least, most, stocks, spent)
		}
		for v := s.lp.m + s.bought; v < len(s.lp.place); v++ {
			if s.lp.place[v] < 0 && r.IntN(2) == 0 {
				s.lp.place[v], s.lp.high[v] = atHigh, s.lp.low[v]
			}
		}
		s.bounds()
		s.lp.check(t, "bounds")
		for c := s.bought; c < len(s.patterns); c++ {
			p := s.patterns[c]
			d := m.parents[p.parent]
			room := func(runs int) bool { // by one run after another
				most, stocks := slices.Clone(most), slices.Clone(stocks)
				for range runs {
					for _, x := range laid(p) {
						most[m.cuts[x].row] -= int(m.cuts[x].units * d.times)
					}
					for _, x := range d.draws {
						stocks[x.stock] -= int64(x.n)
					}
				}
				for _, x := range laid(p) {
					if most[m.cuts[x].row] < 0 {
						return false
					}
				}
				for _, x := range d.draws {
					if stocks[x.stock] < 0 {
						return false
					}
				}
				return true
			}
			for n := 1; n < 4; n++ {
				if s.fitsTimes(c, n) != room(n) {
					t.Fatalf("%+v fits %d times: %v; left %v, %v", p, n, !room(n), most, stocks)
				}
			}
			first := 1
			if s.fixed[c] == 0 {
				first = m.runs
			}
			if s.first(c) != first || s.fits(c) != room(first) {
				t.Fatalf("%+v goes up by %d first and fits %v, want %d, %v", p, s.first(c), s.fits(c), first, room(first))
			}
			high := math.Inf(1)
			if s.closed[c] || !room(first) {
				high = float64(s.fixed[c])
				tight++
			} else {
				free++
			}
			if v := s.lp.m + c; s.lp.low[v] != float64(s.fixed[c]) || s.lp.high[v] != high || s.lp.place[v] == atHigh && math.IsInf(high, 1) {
				t.Fatalf("%+v from %v to %v, want %d to %v", p, s.lp.low[v], s.lp.high[v], s.fixed[c], high)
			}
		}
	}
	if tight < 300 || free < 300 {
		t.Errorf("%d columns may not go up, %d may, want many", tight, free)
	}
}

// A pool has the patterns of the basis first, then those nearest to use.
func TestPool(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 8))
	basic := 0
	for range 200 {
		s := newMaster(smallModel(r), never)
		s.relax(math.MaxInt64)
		order := []int{}
		rate := func(c int) float64 {
			if s.lp.place[s.lp.m+c] >= 0 {
				return -1
			}
			return s.lp.reduced(s.lp.m + c)
		}
		base := 0
		for c := s.bought; c < len(s.patterns); c++ {
			if order = append(order, c); s.lp.place[s.lp.m+c] >= 0 {
				base++
			}
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rate(a), rate(b)) })
		basic += base
		for most := range len(order) + 2 {
			p := s.pool(most)
			if len(p.patterns) != min(most, len(order)) || p.base != base {
				t.Fatalf("%d patterns, %d of the basis, want %d of %d, %d", len(p.patterns), p.base, most, len(order), base)
			}
			for i, q := range p.patterns {
				if q.key() != s.patterns[order[i]].key() {
					t.Fatalf("pattern %d is %+v, want %+v", i, q, s.patterns[order[i]])
				}
			}
		}
		// Another begins with it where it ended.
		from := s.pool(1000)
		from.patterns = append(from.patterns, pattern{pieces: []piece{{0, 1000}}}) // not allowed
		other := newMaster(s.m, never)
		other.begin(from)
		if len(other.patterns)-other.bought != len(order) {
			t.Fatalf("begins with %d patterns, want %d", len(other.patterns)-other.bought, len(order))
		}
		want := newMaster(s.m, never)
		var columns []int32
		for i, p := range from.patterns[:len(order)] {
			if c, _ := want.take(p); i < base {
				columns = append(columns, int32(want.lp.m+c))
			}
		}
		if want.lp.begin(columns); !reflect.DeepEqual(other.lp.save(), want.lp.save()) {
			t.Fatalf("begins at %v, want %v", other.lp.save(), want.lp.save())
		}
	}
	if basic < 200 {
		t.Errorf("%d patterns in bases, want some of each", basic)
	}
	s := newMaster(smallModel(r), never)
	before := s.lp.save()
	if s.begin(pool{}); !reflect.DeepEqual(s.lp.save(), before) {
		t.Error("a pool of nothing begins something")
	}
}

// every is the linear program over all sets that what is left allows.
func (s *master) every() *lp {
	var low, high []float64
	for i, n := range s.least {
		low, high = append(low, float64(max(0, n))), append(high, math.Inf(1))
		if s.m.strict {
			high[i] = float64(s.most[i])
		}
	}
	for _, n := range s.stocks {
		low, high = append(low, 0), append(high, float64(n))
	}
	p := newLP(low, high)
	p.stop = never
	s.proof.row, s.proof.spare = make([]int64, len(s.m.rows)), make([]int64, len(s.m.stocks))
	for i := range s.proof.row {
		s.proof.row[i] = 1
	}
	for j, d := range s.m.parents {
		for g := range s.m.groups {
			c := s.offered(g, d)
			c.every(c.items, false, func(set []piece, _, width int64) {
				p0 := pattern{int32(j), int32(g), slices.Clone(set)}
				sortPieces(p0.pieces)
				if k, ok := s.known[p0.key()]; width >= max(1, d.least) && (!ok || !s.closed[k]) {
					p.add(s.m.column(p0), float64(d.cost), math.Inf(1))
				}
			})
		}
	}
	return p
}

// The bound of the linear program is that over all sets there are, for what is left, and its
// proof holds for each of them.
func TestRelax(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 9))
	bounds, none, parts := 0, 0, 0
	for n := range 600 {
		m := smallModel(r)
		if m.strict = n%3 == 0; m.strict {
			m.overrun(2)
		}
		if n%5 == 0 {
			m.parents[0].draws = []draw{{int32(len(m.stocks)), 1}}
			m.stocks = append(m.stocks, 1+r.Int64N(3))
		}
		s := newMaster(m, never)
		if n%2 == 0 {
			s.relax(math.MaxInt64)
			for c := s.bought; c < len(s.patterns); c++ {
				if r.IntN(4) == 0 && s.fits(c) {
					s.fix(c, 1)
				}
				if r.IntN(4) == 0 {
					s.close([]int{c}, true)
				}
			}
			s.bounds()
			parts++
		}
		all := s.every()
		all.settle()
		const goal = 1 << 30
		lower, ok := s.relax(goal)
		if !all.dual() {
			none++
			if ok && lower < goal {
				t.Fatalf("model %d: %+v: no sets do, and the bound is %d", n, m, lower)
			}
			continue
		}
		all.primal()
		z := float64(s.spent) + all.total()
		if !ok || lower != int64(math.Ceil(z-1e-5)) && lower != int64(math.Ceil(z+1e-5)) {
			t.Fatalf("model %d: %+v: bound %d, %v, want %v", n, m, lower, ok, z)
		}
		bounds++
		q := &s.proven
		if got := s.spent + q.bound(s.least, s.most, s.stocks); got != lower {
			t.Fatalf("model %d: %+v proves %d, want %d", n, q, got, lower)
		}
		s.proof.set(q)
		for j, d := range m.parents {
			if !drawable(d, s.stocks, 1) {
				continue
			}
			for g := range m.groups {
				c := s.offered(g, d)
				c.every(c.items, false, func(set []piece, value, width int64) {
					p := pattern{int32(j), int32(g), slices.Clone(set)}
					sortPieces(p.pieces)
					if k, ok := s.known[p.key()]; ok && s.closed[k] {
						return
					}
					if value > q.full*d.cost+q.of(d) {
						t.Fatalf("model %d: set %+v is worth %d, more than %d·%d + %d", n, p, value, q.full, d.cost, q.of(d))
					}
				})
			}
		}
	}
	if bounds < 400 || none < 10 || parts < 200 {
		t.Errorf("%d bounds, %d without a plan, %d of what is left, want many", bounds, none, parts)
	}
}

// A bound that is known is not looked for, and no more rounds are made than are asked for.
func TestRelaxRounds(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 10))
	short := 0
	for range 100 {
		m := orderedModel(r, 8, 12)
		s := &solver{master: newMaster(m, never), enough: -1, never: 1 << 30}
		s.raise(s.byWidth())
		if lower, ok := s.relax(s.lower); lower != s.lower || !ok || len(s.patterns) > s.bought {
			t.Fatalf("bound %d, %v, with %d sets, want %d of none", lower, ok, len(s.patterns)-s.bought, s.lower)
		}
		s.greedy()
		full := newMaster(m, never)
		want, _ := full.relax(math.MaxInt64)
		before := len(s.patterns)
		lower, ok := s.relaxRounds(math.MaxInt64, 0)
		if !ok || lower > want {
			t.Fatalf("a round comes to %d, %v, want at most %d", lower, ok, want)
		}
		if len(s.patterns) > before+3 {
			t.Fatalf("%d sets of a round, want 3 at most", len(s.patterns)-before)
		}
		if len(s.patterns) < len(full.patterns) {
			short++
		}
		s.stop = func() bool { return true }
		s.lp.stop = s.stop
		if _, ok := s.relax(math.MaxInt64); ok {
			t.Fatal("ok when time is up")
		}
	}
	if short < 50 {
		t.Errorf("%d of 100 are shorter, want most", short)
	}
}

// What rows ask for beyond what is wanted is taken back where the solution has to buy for it.
func TestExact(t *testing.T) {
	m := &model{rows: []row{{2, 2}}, cuts: []cut{{5, 0, 1, 0}}, groups: [][]int32{{0}}, parents: []parent{{width: 9, cost: 1, times: 1}}, pieces: 9, kinds: 9, runs: 1}
	for _, test := range []struct {
		nudge       float64
		most        int
		buys, exact bool
	}{
		{0.5, 2, false, true}, {2, 2, true, true}, {2, 1, true, false}, {2, 3, false, true},
	} {
		s := nudged(m, test.nudge, never)
		c, _ := s.take(pattern{pieces: []piece{{0, 1}}})
		s.lp.high[s.lp.m+c] = float64(test.most)
		if !s.lp.dual() {
			t.Fatal("there is no solution")
		}
		s.lp.primal()
		if test.nudge < 1 { // slop is below a thousandth: nothing is taken back
			if !s.exact() || s.slop == 0 || s.lp.low[0] == 2 {
				t.Errorf("%+v: %v of slop taken back", test, s.slop)
			}
			continue
		}
		if s.buys() != test.buys {
			t.Errorf("%+v: buys %v", test, s.buys())
		}
		if got := s.exact(); got != test.exact || s.slop != 0 || s.lp.low[0] != 2 {
			t.Errorf("%+v: exact %v, slop %v, asks for %v", test, got, s.slop, s.lp.low[0])
		}
	}
	s := newMaster(m, never)
	s.lp.dual()
	price := s.price
	s.dearer(10)
	s.lp.check(t, "dearer")
	if s.price != 10*price || s.lp.total() < 19.9*price || s.lp.total() > 20.1*price {
		t.Errorf("two reels cost %v, want %v", s.lp.total(), 20*price)
	}
}

// Where a search for a set would not end, a table finds what is worth most.
func TestDearestTable(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 11))
	tables := 0
	for range 10 {
		m := &model{groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}
		for len(m.rows) < 25 {
			m.groups[0] = append(m.groups[0], int32(len(m.rows)))
			m.cuts = append(m.cuts, m.cutOf(2*(60+r.Int64N(90)), len(m.rows)))
			m.rows = append(m.rows, row{2, 2})
		}
		m.parents = []parent{{width: 1501, cost: 1, times: 1}}
		s := newMaster(m, never)
		s.proof.row = nil
		for _, c := range m.cuts {
			s.proof.row = append(s.proof.row, c.width) // the last of the deckle stays empty, in all ways
		}
		worth, sets := s.dearest(m.groups[0], m.parents[0], 1500)
		if worth != 1500 || len(sets) != 0 {
			t.Fatalf("%v worth %d, want none worth more than 1500", sets, worth)
		}
		worth, sets = s.dearest(m.groups[0], m.parents[0], 1498)
		if worth != 1500 || len(sets) == 0 || s.worthOf(pattern{pieces: sets[len(sets)-1]}) != 1500 {
			t.Fatalf("%v worth %d, want 1500", sets, worth)
		}
		if s.sack.ended {
			tables++
		}
		s.sack.ended = false
		m.pieces = 1 // what the table finds is not allowed
		worth, sets = s.dearest(m.groups[0], m.parents[0], 1498)
		if !s.sack.ended && (worth != 1498 || len(sets) != 0) {
			t.Fatalf("%v worth %d, want none", sets, worth)
		}
	}
	if tables < 5 {
		t.Errorf("%d tables, want some", tables)
	}
}

// A search for a set ends after so many nodes as make its table worth while.
func TestDearestNodes(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 13))
	near := 0
	for range 300 {
		m := &model{groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}
		for range 8 + r.IntN(7) {
			m.groups[0] = append(m.groups[0], int32(len(m.rows)))
			m.cuts = append(m.cuts, m.cutOf(2*(60+r.Int64N(90)), len(m.rows)))
			m.rows = append(m.rows, row{2, 2})
		}
		m.parents = []parent{{width: 1001 + 2*r.Int64N(300), cost: 1, times: 1}}
		s := newMaster(m, never)
		for _, c := range m.cuts {
			s.proof.row = append(s.proof.row, c.width)
		}
		d := m.parents[0]
		s.dearest(m.groups[0], d, d.width-1)
		ended := s.sack.ended
		c := s.offered(0, d)
		k := c.sack()
		k.search(c.items, c.room, d.width-1, 1<<30)
		nodes, most := 1<<30-k.nodes, int(d.width)*len(c.items)/4+2000
		if ended != (nodes > most) {
			t.Fatalf("%d nodes of %d, ended %v", nodes, most, ended)
		}
		if nodes > most/3 && nodes < 3*most {
			near++
		}
	}
	if near < 50 {
		t.Errorf("%d searches take about as many nodes as they may, want many", near)
	}
}

// Of the sets that a search finds the last are kept, as they are worth most.
func TestDearestLast(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 12))
	many := 0
	for range 2000 {
		s := begunMaster(r)
		s.m.apart, s.shut = nil, 0
		s.sack.banned = nil
		s.weighAtRandom(r)
		s.weights(0)
		d := s.m.parents[0]
		c := s.offered(0, d)
		sets, most := c.rising(c.byValue(), false)
		if len(sets) > 3 {
			sets = sets[len(sets)-3:]
			many++
		}
		worth, got := s.dearest(s.m.groups[0], d, 0)
		for i := range got {
			sortPieces(got[i])
		}
		for i := range sets {
			sortPieces(sets[i])
		}
		if worth != most || !sameSets(got, sets) {
			t.Fatalf("%+v: %v worth %d, want %v worth %d", s.m, got, worth, sets, most)
		}
		room := limits{d.width, d.least, s.m.pieces, s.m.kinds}
		p := s.m.anySet(r)
		if want := len(laid(p)) <= s.m.pieces && len(p.pieces) <= s.m.kinds && s.m.used(p) >= d.least; s.allows(p, room) != want {
			t.Fatalf("%+v is allowed %v", p, !want)
		}
	}
	if many < 10 {
		t.Errorf("%d times more than three sets, want some", many)
	}
}

// Reels that no set gives are bought at a price that is raised until nothing else explains it:
// the bound is then that of the last price, and in doubt.
func TestDoubt(t *testing.T) {
	m := &model{rows: []row{{2, 2}}, cuts: []cut{{5, 0, 1, 0}}, groups: [][]int32{{0}}, pieces: 9, kinds: 9, runs: 1,
		parents: []parent{{width: 9, cost: 1, times: 1, draws: []draw{{0, 1}}}}, stocks: []int64{0}}
	s := newMaster(m, never)
	price := s.price
	lower, ok := s.relax(math.MaxInt64)
	if ok || !s.doubt || lower < 2e7 || lower > 2.0001e7 {
		t.Errorf("bound %d, %v, in doubt %v, want two reels at ten million", lower, ok, s.doubt)
	}
	if math.Abs(s.price-price) > 1e-9*price {
		t.Errorf("price %v afterwards, want %v", s.price, price)
	}
	s = newMaster(m, never)
	if lower, ok := s.relax(2000); !ok || s.doubt || lower < 2000 || lower > 2001 {
		t.Errorf("bound %d, %v, in doubt %v, want 2000, which was asked for", lower, ok, s.doubt)
	}
}
