package trim

import "math"

// An entry is a coefficient of a column.
type entry struct {
	row int32
	n   int32
}

// lp is a linear program over a growing pool of columns: minimise cost·x subject to
// low ≤ A·x ≤ high, row by row, and bounds on each x. It keeps the inverse of the
// basis, dense, as a slitting plan has few rows and many columns. The variable of
// row i is the sum of the row, that of column j has the index m+j.
//
// Its results are floating point, and only guide: bounds are proven by [bound], and
// plans are counted in whole numbers.
type lp struct {
	m         int
	columns   [][]entry
	cost      []float64 // of all variables, 0 of rows
	low, high []float64 // of all variables
	place     []int32   // place in the basis, or atLow or atHigh
	head      []int32   // variable in each place of the basis
	inverse   []float64 // m×m, row by row
	x         []float64 // of the basis
	y         []float64 // dual value of each row
	work, row []float64
	some      []int32
	weight    []float64 // of all variables, the assumed steepness of an exchange
	pivots    int       // since the inverse was last made anew
	steps     int       // in all
	stop      func() bool
}

const (
	atLow  = -1
	atHigh = -2
)

const (
	feasible = 1e-8 // a sum this close to its bound counts as within it
	optimal  = 1e-9 // a reduced cost this close to zero counts as zero
	pivotal  = 1e-7 // a smaller pivot counts as zero
)

// newLP returns a program of rows alone, with all sums at zero, as there are no
// columns.
func newLP(low, high []float64) *lp {
	m := len(low)
	p := &lp{
		m: m, cost: make([]float64, m), low: low, high: high,
		place: make([]int32, m), head: make([]int32, m), inverse: make([]float64, m*m),
		x: make([]float64, m), y: make([]float64, m), work: make([]float64, m), row: make([]float64, m),
		weight: make([]float64, m),
	}
	for i := range m {
		p.weight[i] = 1
	}
	for i := range m {
		p.place[i], p.head[i] = int32(i), int32(i)
		p.inverse[i*m+i] = -1 // a row's variable stands on the other side
	}
	return p
}

// add adds a column to the pool, at its lower bound of zero.
func (p *lp) add(column []entry, cost, high float64) {
	p.columns = append(p.columns, column)
	p.cost = append(p.cost, cost)
	p.low = append(p.low, 0)
	p.high = append(p.high, high)
	p.place = append(p.place, atLow)
	p.weight = append(p.weight, 1)
}

// value returns the value of a variable.
func (p *lp) value(v int) float64 {
	switch at := p.place[v]; at {
	case atLow:
		return p.low[v]
	case atHigh:
		return p.high[v]
	default:
		return p.x[at]
	}
}

// reduced returns the reduced cost of a variable.
func (p *lp) reduced(v int) float64 {
	if v < p.m {
		return p.y[v]
	}
	d := p.cost[v]
	for _, e := range p.columns[v-p.m] {
		d -= p.y[e.row] * float64(e.n)
	}
	return d
}

// direction returns the column of a variable in terms of the basis.
func (p *lp) direction(v int) []float64 {
	m, w := p.m, p.work
	if v < m {
		for i := range m {
			w[i] = -p.inverse[i*m+v]
		}
		return w
	}
	column := p.columns[v-m]
	for i := range m {
		s, row := 0.0, p.inverse[i*m:i*m+m]
		for _, e := range column {
			s += row[e.row] * float64(e.n)
		}
		w[i] = s
	}
	return w
}

// settle recomputes the values of the basis and the dual values.
func (p *lp) settle() {
	m := p.m
	right := p.row
	clear(right)
	for v := range p.place {
		if p.place[v] >= 0 {
			continue
		}
		value := p.value(v)
		switch {
		case value == 0:
		case v < m:
			right[v] += value
		default:
			for _, e := range p.columns[v-m] {
				right[e.row] -= value * float64(e.n)
			}
		}
	}
	clear(p.y)
	for i := range m {
		s, row := 0.0, p.inverse[i*m:i*m+m]
		for k, r := range right {
			s += row[k] * r
		}
		p.x[i] = s
		if c := p.cost[p.head[i]]; c != 0 {
			for k := range row {
				p.y[k] += c * row[k]
			}
		}
	}
}

// renew computes the inverse of the basis afresh by elimination, so that errors of
// many small steps do not accumulate. A variable whose column has become dependent
// is replaced by that of a row.
func (p *lp) renew() {
	p.base(append([]int32(nil), p.head...))
	p.settle()
}

// begin takes a basis of these columns, as far as they are independent. It relaxes
// the bounds of sums that violate them until all reduced costs have the signs that
// dual needs.
func (p *lp) begin(columns []int32) {
	for v := range p.place {
		p.place[v] = atLow
	}
	p.base(columns)
	p.settle()
	low := append([]float64(nil), p.low[:p.m]...)
	for i, x := range p.x {
		if v := int(p.head[i]); v >= p.m {
			p.x[i] = max(x, p.low[v])
		}
	}
	p.shift()
	p.primal()
	copy(p.low, low)
	p.settle()
}

// shift sets the bounds of the rows that stand at them to their sums.
func (p *lp) shift() {
	sum := make([]float64, p.m)
	for i, x := range p.x {
		if v := int(p.head[i]); v >= p.m {
			for _, e := range p.columns[v-p.m] {
				sum[e.row] += x * float64(e.n)
			}
		}
	}
	for i := range p.m {
		if p.place[i] < 0 {
			p.low[i] = sum[i]
		} else {
			p.x[p.place[i]] = sum[i]
			p.low[i] = min(p.low[i], sum[i])
		}
	}
	p.settle()
}

// base computes the inverse of the basis of the given variables.
func (p *lp) base(old []int32) {
	m := p.m
	p.pivots = 0
	inverse := p.inverse
	clear(inverse)
	for i := range m {
		inverse[i*m+i] = -1
	}
	free := make([]bool, m) // rows whose own variable may still leave
	for i := range m {
		p.head[i] = int32(i)
		free[i] = true
	}
	for _, v := range old {
		if int(v) < m {
			free[v] = false
		}
	}
	for _, v := range old {
		if int(v) < m {
			p.place[v] = v
			continue
		}
		w := p.direction(int(v))
		best := -1
		for i := range m {
			if free[i] && (best < 0 || math.Abs(w[i]) > math.Abs(w[best])) {
				best = i
			}
		}
		if best < 0 || math.Abs(w[best]) < pivotal {
			p.place[v] = atLow
			continue
		}
		free[best] = false
		p.eliminate(best, w)
		p.head[best], p.place[v] = v, int32(best)
	}
	for i := range m {
		if free[i] {
			p.place[i] = int32(i)
		}
	}
}

// eliminate updates the inverse when a column takes place r.
func (p *lp) eliminate(r int, w []float64) {
	m := p.m
	pivot := p.inverse[r*m : r*m+m]
	scale := 1 / w[r]
	some := p.some[:0] // where the pivot's row is not zero
	for k := range pivot {
		if pivot[k] != 0 {
			pivot[k] *= scale
			some = append(some, int32(k))
		}
	}
	p.some = some
	for i := range m {
		f := w[i]
		if i == r || f == 0 {
			continue
		}
		row := p.inverse[i*m : i*m+m]
		if 4*len(some) < m {
			for _, k := range some {
				row[k] -= f * pivot[k]
			}
			continue
		}
		for k, t := range pivot {
			row[k] -= f * t
		}
	}
}

// exchange puts variable v in place r, by direction w. The variable moves by t, and
// the one that was there goes to a bound.
func (p *lp) exchange(r, v int, t float64, to int32, w []float64) {
	reduced := p.reduced(v)
	entered := p.value(v) + t
	for i, d := range w {
		p.x[i] -= d * t
	}
	m := p.m
	old := p.head[r]
	p.place[old] = to
	p.eliminate(r, w)
	for k, t := range p.inverse[r*m : r*m+m] {
		p.y[k] += reduced * t
	}
	p.head[r], p.place[v], p.x[r] = int32(v), int32(r), entered
	p.steps++
	if p.pivots++; p.pivots >= 100+m/2 {
		p.renew()
	}
}

// dual repairs sums that violate their bounds while all reduced costs keep their
// signs. It is not ok if nothing can repair them.
func (p *lp) dual() bool {
	m := p.m
	for {
		r, worst, under := -1, feasible, false
		for i, x := range p.x {
			v := p.head[i]
			if d := p.low[v] - x; d > worst {
				r, worst, under = i, d, true
			}
			if d := x - p.high[v]; d > worst {
				r, worst, under = i, d, false
			}
		}
		if r < 0 {
			return true
		}
		if p.stop() {
			return false
		}
		row := p.inverse[r*m : r*m+m]
		enter, least, size := -1, math.Inf(1), 0.0
		for v, at := range p.place {
			if at >= 0 || p.low[v] == p.high[v] {
				continue
			}
			var a float64
			if v < m {
				a = -row[v]
			} else {
				for _, e := range p.columns[v-m] {
					a += row[e.row] * float64(e.n)
				}
			}
			if math.Abs(a) < pivotal || (a < 0) != (under == (at == atLow)) {
				continue
			}
			ratio := math.Abs(p.reduced(v)) / math.Abs(a)
			if ratio < least-1e-11 || ratio < least+1e-11 && math.Abs(a) > size {
				enter, least, size = v, ratio, math.Abs(a)
			}
		}
		if enter < 0 {
			return false
		}
		out := p.head[r]
		to, edge := int32(atLow), p.low[out]
		if !under {
			to, edge = atHigh, p.high[out]
		}
		w := p.direction(enter)
		if math.Abs(w[r]) < pivotal/10 {
			p.renew()
			continue
		}
		p.exchange(r, enter, (p.x[r]-edge)/w[r], to, w)
	}
}

// primal lowers the cost over the pool while all sums keep their bounds. The cost
// falls with every exchange except those that move nothing; a long run of these
// ends the search, as bounds need no exact optimum.
func (p *lp) primal() {
	still := 0
	for !p.stop() {
		enter, best := -1, 0.0
		for v, at := range p.place {
			if at >= 0 || p.low[v] == p.high[v] {
				continue
			}
			d := p.reduced(v)
			if at == atLow {
				d = -d
			}
			if d > optimal && d*d > best*p.weight[v] {
				enter, best = v, d*d/p.weight[v]
			}
		}
		if enter < 0 {
			return
		}
		up := 1.0
		if p.place[enter] == atHigh {
			up = -1
		}
		w := p.direction(enter)
		r, most, size := -1, p.high[enter]-p.low[enter], 0.0
		var to int32
		for i, d := range w {
			d *= up
			v := p.head[i]
			var room float64
			var side int32
			switch {
			case d > pivotal:
				room, side = (p.x[i]-p.low[v])/d, atLow
			case d < -pivotal:
				room, side = (p.x[i]-p.high[v])/d, atHigh
			default:
				continue
			}
			room = max(room, 0)
			if room < most-1e-10 || room < most+1e-10 && math.Abs(d) > size {
				r, most, size, to = i, room, math.Abs(d), side
			}
		}
		if math.IsInf(most, 1) {
			return // does not occur: every column has a cost
		}
		if most > 1e-10 {
			still = 0
		} else if still++; still > 40*p.m+1000 {
			return
		}
		if r < 0 {
			for i, d := range w {
				p.x[i] -= d * up * most
			}
			p.place[enter] = atHigh + atLow - p.place[enter]
			continue
		}
		p.weigh(r, enter, w[r])
		p.exchange(r, enter, up*most, to, w)
	}
}

// weigh updates the weights before variable v takes place r (Devex, Harris 1973).
func (p *lp) weigh(r, v int, pivot float64) {
	row := p.inverse[r*p.m : r*p.m+p.m]
	scale := p.weight[v] / (pivot * pivot)
	for u, at := range p.place {
		if at >= 0 || p.low[u] == p.high[u] {
			continue
		}
		var a float64
		if u < p.m {
			a = row[u]
		} else {
			for _, e := range p.columns[u-p.m] {
				a += row[e.row] * float64(e.n)
			}
		}
		if w := a * a * scale; w > p.weight[u] {
			p.weight[u] = w
		}
	}
	p.weight[p.head[r]] = max(scale, 1)
	if scale > 1e8 {
		for u := range p.weight {
			p.weight[u] = 1
		}
	}
}

// restart goes back to the rows alone. Costs are never below zero, so all reduced
// costs have the signs that dual needs.
func (p *lp) restart() {
	clear(p.inverse)
	for v := range p.place {
		p.place[v] = atLow
		p.weight[v] = 1
	}
	for i := range p.m {
		p.place[i], p.head[i] = int32(i), int32(i)
		p.inverse[i*p.m+i] = -1
	}
	p.pivots = 0
	p.settle()
}

// total returns the cost of the present point.
func (p *lp) total() float64 {
	sum := 0.0
	for v := p.m; v < len(p.place); v++ {
		if c := p.cost[v]; c != 0 {
			sum += c * p.value(v)
		}
	}
	return sum
}

// A basis holds the places of all variables.
type basis struct{ place, head []int32 }

func (p *lp) save() basis {
	return basis{append([]int32(nil), p.place...), append([]int32(nil), p.head...)}
}

// restore goes back to a basis; columns added after it are at their lower bound.
func (p *lp) restore(b basis) {
	copy(p.head, b.head)
	n := copy(p.place, b.place)
	for v := n; v < len(p.place); v++ {
		p.place[v] = atLow
	}
	p.renew()
}
