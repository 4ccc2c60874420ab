package trim

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"
)

// smallLP has few rows, of which some have a most, and few columns, of which some have
// a most or a least.
func smallLP(r *rand.Rand) *lp {
	var low, high []float64
	for range 2 + r.IntN(3) {
		n := float64(r.IntN(7))
		low = append(low, n)
		if r.IntN(3) == 0 {
			high = append(high, n+float64(r.IntN(4)))
		} else {
			high = append(high, math.Inf(1))
		}
	}
	p := newLP(low, high)
	p.stop = never
	for range 3 + r.IntN(3) {
		p.addSmall(r)
	}
	return p
}

// addSmall adds a column.
func (p *lp) addSmall(r *rand.Rand) {
	var column []entry
	for i := range p.m {
		if n := r.Int32N(4); n > 0 {
			column = append(column, entry{int32(i), n})
		}
	}
	high := math.Inf(1)
	if r.IntN(3) == 0 {
		high = float64(1 + r.IntN(3))
	}
	p.add(column, float64(1+r.IntN(9)), high)
	if r.IntN(6) == 0 {
		p.low[len(p.low)-1] = 1
	}
}

// column of a variable, all rows of it: that of a row stands on the other side.
func (p *lp) column(v int) []float64 {
	out := make([]float64, p.m)
	if v < p.m {
		out[v] = -1
		return out
	}
	for _, e := range p.columns[v-p.m] {
		out[e.row] += float64(e.n)
	}
	return out
}

// solved is the solution of a system of these columns, by elimination; it is not ok if
// they are dependent.
func solved(columns [][]float64, right []float64) (x []float64, ok bool) {
	m := len(right)
	a := make([][]float64, m)
	for i := range a {
		for _, column := range columns {
			a[i] = append(a[i], column[i])
		}
		a[i] = append(a[i], right[i])
	}
	for k := range m {
		best := k
		for i := k; i < m; i++ {
			if math.Abs(a[i][k]) > math.Abs(a[best][k]) {
				best = i
			}
		}
		if a[k], a[best] = a[best], a[k]; math.Abs(a[k][k]) < 1e-9 {
			return nil, false
		}
		for i := range m {
			if f := a[i][k] / a[k][k]; i != k && f != 0 {
				for j := range a[i] {
					a[i][j] -= f * a[k][j]
				}
			}
		}
	}
	for k := range m {
		x = append(x, a[k][m]/a[k][k])
	}
	return x, true
}

// cheapest is the least cost by trying all bases, with all others at each of their
// bounds. It is endless where no point keeps all bounds.
func (p *lp) cheapest() float64 {
	n := len(p.place)
	best := math.Inf(1)
	x := make([]float64, n)
	columns := make([][]float64, n)
	for v := range columns {
		columns[v] = p.column(v)
	}
	for set := range 1 << n {
		if bits.OnesCount(uint(set)) != p.m {
			continue
		}
		var basis [][]float64
		var in, out []int
		for v := range n {
			if set>>v&1 == 1 {
				in, basis = append(in, v), append(basis, columns[v])
			} else {
				out = append(out, v)
			}
		}
		var at func(k int)
		at = func(k int) {
			if k < len(out) {
				v := out[k]
				x[v] = p.low[v]
				at(k + 1)
				if !math.IsInf(p.high[v], 1) && p.high[v] != p.low[v] {
					x[v] = p.high[v]
					at(k + 1)
				}
				return
			}
			right := make([]float64, p.m)
			cost := 0.0
			for _, v := range out {
				cost += p.cost[v] * x[v]
				for i, a := range columns[v] {
					right[i] -= a * x[v]
				}
			}
			values, ok := solved(basis, right)
			for i, v := range in {
				if !ok || values[i] < p.low[v]-1e-7 || values[i] > p.high[v]+1e-7 {
					return
				}
				cost += p.cost[v] * values[i]
			}
			best = min(best, cost)
		}
		if _, ok := solved(basis, make([]float64, p.m)); ok {
			at(0)
		}
	}
	return best
}

// check holds all that a program keeps to its columns and bounds.
func (p *lp) check(t *testing.T, after string) {
	t.Helper()
	basic := 0
	for v, at := range p.place {
		if at >= 0 {
			if basic++; int(p.head[at]) != v {
				t.Fatalf("after %s: variable %d in place %d, where %d is", after, v, at, p.head[at])
			}
		}
		want := p.cost[v]
		for i, a := range p.column(v) {
			want -= p.y[i] * a
		}
		if d := p.reduced(v); math.Abs(d-want) > 1e-9 || at >= 0 && math.Abs(d) > 1e-9 {
			t.Fatalf("after %s: reduced cost %v of variable %d in place %d, want %v", after, d, v, at, want)
		}
		inverse := p.direction(v)
		for i := range p.m {
			sum := 0.0
			for k, h := range p.head {
				sum += p.column(int(h))[i] * inverse[k]
			}
			if math.Abs(sum-p.column(v)[i]) > 1e-9 {
				t.Fatalf("after %s: the basis makes %v of variable %d in row %d, want %v", after, sum, v, i, p.column(v)[i])
			}
		}
	}
	if basic != p.m {
		t.Fatalf("after %s: %d in the basis, want %d", after, basic, p.m)
	}
	total := 0.0
	sum := make([]float64, p.m)
	for v := range p.place {
		total += p.cost[v] * p.value(v)
		for i, a := range p.column(v) {
			sum[i] += a * p.value(v)
		}
		if at := p.place[v]; at == atLow && p.value(v) != p.low[v] || at == atHigh && p.value(v) != p.high[v] {
			t.Fatalf("after %s: variable %d is %v, at %d, want one of %v and %v", after, v, p.value(v), at, p.low[v], p.high[v])
		}
	}
	if got := p.total(); math.Abs(got-total) > 1e-9 {
		t.Fatalf("after %s: total %v, want %v", after, got, total)
	}
	for i, s := range sum {
		if math.Abs(s) > 1e-9 {
			t.Fatalf("after %s: sum of row %d is off by %v", after, i, s)
		}
	}
}

// priced tells whether all reduced costs are as they ought to be for dual.
func (p *lp) priced() bool {
	for v, at := range p.place {
		if d := p.reduced(v); p.low[v] != p.high[v] && (at == atLow && d < -2*optimal || at == atHigh && d > 2*optimal) {
			return false
		}
	}
	return true
}

// solve checks dual, then primal, against all bases.
func (p *lp) solve(t *testing.T, after string) (ok bool) {
	t.Helper()
	want := p.cheapest()
	if ok = p.dual(); ok == math.IsInf(want, 1) {
		t.Fatalf("after %s: dual is %v, cheapest %v", after, ok, want)
	}
	p.check(t, after+" and dual")
	if !ok {
		return false
	}
	if !p.priced() {
		t.Fatalf("after %s and dual: a reduced cost has the wrong sign", after)
	}
	if p.total() < want-1e-7 {
		t.Fatalf("after %s and dual: costs %v, want at least %v", after, p.total(), want)
	}
	steps := p.steps
	p.primal()
	p.check(t, after+", dual and primal")
	if math.Abs(p.total()-want) > 1e-7 || !p.priced() {
		t.Fatalf("after %s, dual and primal: costs %v, want %v", after, p.total(), want)
	}
	if p.steps != steps {
		t.Fatalf("after %s and dual: primal takes %d steps from the best", after, p.steps-steps)
	}
	return true
}

// Small programs are solved as trying all bases solves them: from the rows alone, with
// another column, with other bounds, from a basis of before and from any columns.
func TestLP(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 1))
	solvedOnes := 0
	for range 150 {
		p := smallLP(r)
		p.settle()
		p.check(t, "newLP")
		if !p.solve(t, "newLP") {
			continue
		}
		solvedOnes++
		for range 2 {
			p.addSmall(r)
			p.settle()
			want := p.cheapest()
			if p.low[len(p.low)-1] > 0 { // sums may be off their bounds
				p.restart()
				p.check(t, "restart")
				if !p.solve(t, "add and restart") {
					break
				}
			}
			p.primal()
			p.check(t, "add")
			if math.Abs(p.total()-want) > 1e-7 {
				t.Fatalf("after add: costs %v, want %v", p.total(), want)
			}
		}
		if !p.dual() {
			continue
		}
		want, from := p.total(), p.save()
		low, high := slices.Clone(p.low), slices.Clone(p.high)
		for range 3 {
			v := p.m + r.IntN(len(p.columns))
			if p.high[v] = math.Floor(p.value(v)); p.high[v] < p.low[v] || r.IntN(2) == 0 {
				p.low[v], p.high[v] = p.low[v]+1, max(p.high[v], p.low[v]+1)
			}
			if p.place[v] == atHigh && p.low[v] == p.high[v] {
				p.place[v] = atLow
			}
			p.settle()
			p.check(t, "other bounds")
			if !p.solve(t, "other bounds") {
				break
			}
		}
		copy(p.low, low)
		copy(p.high, high)
		p.addSmall(r)
		p.high[len(p.high)-1], p.low[len(p.low)-1] = 0, 0
		p.place[len(p.place)-1] = atHigh
		p.restore(from)
		p.check(t, "restore")
		if p.place[len(p.place)-1] != atLow || math.Abs(p.total()-want) > 1e-7 {
			t.Fatalf("restored, costs %v and the last stands at %d, want %v", p.total(), p.place[len(p.place)-1], want)
		}
		p.restart()
		p.check(t, "restart")
		if p.total() > 0 && !slices.ContainsFunc(p.low[p.m:], func(x float64) bool { return x > 0 }) {
			t.Fatalf("restarted, costs %v, want 0", p.total())
		}
		p.solve(t, "restart")

		var columns []int32
		for _, c := range r.Perm(len(p.columns))[:r.IntN(len(p.columns)+1)] {
			columns = append(columns, int32(p.m+c))
		}
		low, high = slices.Clone(p.low), slices.Clone(p.high)
		p.begin(columns)
		p.check(t, "begin")
		if !slices.Equal(p.low, low) || !slices.Equal(p.high, high) || !p.priced() {
			t.Fatalf("begun with %v: bounds from %v to %v, want %v to %v, priced %v", columns, p.low, p.high, low, high, p.priced())
		}
		p.solve(t, "begin")
	}
	if solvedOnes < 75 {
		t.Errorf("%d of 150 programs have a solution, want many", solvedOnes)
	}
}

// Primal alone comes to the least cost from any point that keeps all bounds.
func TestPrimal(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 2))
	steps, flips := 0, 0
	for range 300 {
		p := smallLP(r)
		p.settle()
		if !p.dual() {
			continue
		}
		for v := p.m; v < len(p.cost); v++ {
			p.cost[v] = float64(r.IntN(9))
		}
		p.settle()
		want, before := p.cheapest(), p.steps
		was := slices.Clone(p.place)
		p.primal()
		p.check(t, "primal")
		if math.Abs(p.total()-want) > 1e-7 || !p.priced() {
			t.Fatalf("costs %v, want %v", p.total(), want)
		}
		if p.steps > before {
			steps++
		} else if !slices.Equal(p.place, was) {
			flips++
		}
	}
	if steps < 100 || flips < 3 {
		t.Errorf("%d programs took steps, and %d went from bound to bound, want many", steps, flips)
	}
}

// Time that is up ends both, where they are.
func TestLPStop(t *testing.T) {
	p := newLP([]float64{2, 3}, []float64{math.Inf(1), math.Inf(1)})
	p.add([]entry{{0, 1}}, 1, math.Inf(1))
	p.add([]entry{{1, 1}}, 1, math.Inf(1))
	left := 1
	p.stop = func() bool { left--; return left < 0 }
	if p.dual() || p.steps != 1 {
		t.Errorf("dual is done in %d steps, want 1 and then the end", p.steps)
	}
	p.stop = never
	if !p.dual() || p.total() != 5 || p.steps != 2 {
		t.Errorf("dual costs %v in %d steps, want 5 in 2", p.total(), p.steps)
	}
	p.cost[2] = -1
	p.settle()
	p.stop = func() bool { return true }
	if p.primal(); p.steps != 2 {
		t.Errorf("primal takes a step when time is up")
	}
	p.stop = never
	if p.primal(); p.total() != 1 { // there is no end to it
		t.Errorf("primal costs %v, want 1", p.total())
	}
}

// An inverse that is no longer true is made anew after so many exchanges.
func TestRenew(t *testing.T) {
	for _, m := range []int{1, 2, 7, 40} {
		low, high := make([]float64, m), make([]float64, m)
		for i := range high {
			high[i] = math.Inf(1)
		}
		p := newLP(low, high)
		p.stop = never
		p.add([]entry{{0, 2}}, 1, math.Inf(1))
		for n := 1; n <= 250; n++ {
			v := []int{m, 0}[(n+1)%2]
			w := p.direction(v)
			p.exchange(0, v, 0, atLow, w)
			if want := n % (100 + m/2); p.pivots != want || p.steps != n {
				t.Fatalf("%d rows: %d exchanges since the inverse is new, of %d, want %d of %d", m, p.pivots, p.steps, want, n)
			}
		}
		p.check(t, "exchanges")
		p.inverse[0] = 5
		p.renew()
		p.check(t, "renew")
		p.restart()
		if p.pivots != 0 {
			t.Errorf("restarted with %d exchanges", p.pivots)
		}
	}
}

// Sums that a basis leaves off their bounds become these.
func TestShift(t *testing.T) {
	p := newLP([]float64{4, 6, 1}, []float64{math.Inf(1), math.Inf(1), math.Inf(1)})
	p.add([]entry{{0, 2}, {1, 1}, {2, 3}}, 1, math.Inf(1))
	p.add([]entry{{1, 1}}, 1, math.Inf(1))
	for v := range p.place {
		p.place[v] = atLow
	}
	p.base([]int32{3})
	p.settle()
	p.x[p.place[3]] = 5
	p.shift()
	for i, want := range []float64{10, 5, 15} {
		if got := p.value(i); math.Abs(got-want) > 1e-12 || p.low[i] > want || p.place[i] < 0 && p.low[i] != want {
			t.Errorf("sum of row %d is %v and at least %v, want %v", i, got, p.low[i], want)
		}
	}
	if p.low[0] != 4 || p.low[1] != 5 || p.low[2] != 15 {
		t.Errorf("rows are at least %v, want the sums of those that stand at their bound, or less", p.low[:3])
	}
	p.check(t, "shift")
}

// Columns that depend on those before stay out, and of rows those that are given stay in.
func TestBase(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 3))
	for range 300 {
		p := smallLP(r)
		for v := range p.place {
			p.place[v] = atLow
		}
		given := r.Perm(len(p.place))[:r.IntN(len(p.place))]
		var old []int32
		for _, v := range given {
			old = append(old, int32(v))
		}
		p.base(old)
		p.settle()
		p.check(t, "base")
		for k, v := range given {
			if p.place[v] >= 0 {
				continue
			}
			if v < p.m {
				t.Fatalf("row %d of %v is out", v, given)
			}
			var basis [][]float64 // all rows given, and columns till this
			for i, u := range given {
				if u < p.m || i <= k && p.place[u] >= 0 {
					basis = append(basis, p.column(u))
				}
			}
			if len(basis) < p.m && rank(append(basis, p.column(v))) > len(basis) {
				t.Fatalf("column %d of %v is out, and not dependent", v, given)
			}
		}
	}
}

// rank of columns, by elimination.
func rank(columns [][]float64) (n int) {
	left := slices.Clone(columns)
	for i := range left {
		left[i] = slices.Clone(left[i])
	}
	for row := range left[0] {
		at := slices.IndexFunc(left, func(c []float64) bool { return math.Abs(c[row]) > 1e-9 })
		if at < 0 {
			continue
		}
		pivot := left[at]
		left = slices.Delete(left, at, at+1)
		n++
		for _, c := range left {
			f := c[row] / pivot[row]
			for i := range c {
				c[i] -= f * pivot[i]
			}
		}
		if len(left) == 0 {
			break
		}
	}
	return n
}

// How steep exchanges are taken to be follows from the row of the one that is made.
func TestWeigh(t *testing.T) {
	r := rand.New(rand.NewPCG(22, 4))
	anew := 0
	for range 300 {
		p := smallLP(r)
		p.settle()
		if !p.dual() {
			continue
		}
		place, v := r.IntN(p.m), -1
		for u, at := range p.place {
			if at < 0 && math.Abs(p.direction(u)[place]) > 0.01 && (v < 0 || r.IntN(2) == 0) {
				v = u
			}
		}
		if v < 0 {
			continue
		}
		for u := range p.weight {
			p.weight[u] = 1 + 3*r.Float64()
		}
		if r.IntN(4) == 0 {
			p.weight[v] = 2e8
		}
		pivot := p.direction(v)[place]
		scale := p.weight[v] / pivot / pivot
		want := slices.Clone(p.weight)
		for u, at := range p.place {
			if a := p.direction(u)[place]; at < 0 && p.low[u] != p.high[u] {
				want[u] = max(want[u], a*a*scale)
			}
		}
		want[p.head[place]] = max(1, scale)
		if scale > 1e8 {
			anew++
			for u := range want {
				want[u] = 1
			}
		}
		p.weigh(place, v, pivot)
		for u, w := range p.weight {
			if math.Abs(w-want[u]) > 1e-6*want[u] {
				t.Fatalf("weights %v, want %v", p.weight, want)
			}
		}
	}
	if anew < 10 {
		t.Errorf("weights begin anew %d times, want some", anew)
	}
}

// Primal goes on as long as something moves, and ends where nothing does for long.
func TestPrimalStill(t *testing.T) {
	for _, test := range []struct {
		rows       int
		cost, high float64
		want       int
	}{
		{1, -1, 1, 1500}, {1, -1, 1e-10, 1040}, {1, -1, 1.1e-10, 1500}, {3, -1, 1e-11, 1120}, {1, -1e-9, 1, 0}, {1, -1.1e-9, 1, 1500},
	} {
		low, high := make([]float64, test.rows), make([]float64, test.rows)
		for i := range high {
			high[i] = math.Inf(1)
		}
		p := newLP(low, high)
		p.stop = never
		for range 1500 {
			p.add([]entry{{0, 1}}, test.cost, test.high)
		}
		p.settle()
		p.primal()
		moved := 0
		for _, at := range p.place {
			if at == atHigh {
				moved++
			}
		}
		if moved != test.want {
			t.Errorf("%+v: %d columns at their most", test, moved)
		}
		sum := p.value(0)
		if math.Abs(sum-float64(moved)*test.high) > 1e-9 {
			t.Errorf("%+v: sum of the row is %v, want %v", test, sum, float64(moved)*test.high)
		}
	}
}
