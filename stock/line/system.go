package line

import "math"

// constant marks a coefficient that depends on no figure.
const constant = -1

// A coefficient is a number plus a figure times a factor.
type coefficient struct {
	base   float64
	figure int // constant: none
	factor float64
}

func number(x float64) coefficient { return coefficient{base: x, figure: constant} }

func (c coefficient) at(figures []float64) float64 {
	if c.figure == constant {
		return c.base
	}
	return c.base + c.factor*figures[c.figure]
}

// A term is a coefficient times an unknown, in a row.
type term struct {
	row, col int
	coefficient
}

// A product is a factor times two unknowns, in a row: a draw times a share of its
// tank's content, or a split times the flow that is split.
type product struct {
	row, held, flow int
	factor          float64
}

// A load is a term on the right side of a row.
type load struct {
	row int
	coefficient
}

// A hold fixes the unknown of a product at a guess, in place of a row, so that the
// first pass is linear: clear water in the tanks, for one. The sum of the rows in
// own then tells what the unknown should have been. If nothing flows in parts, any
// value would do, and a hidden figure of 1 makes it zero.
type hold struct {
	row, col int
	guess    float64
	valve    int // the figure that is 0 if it is shut; constant: it can't be
	own      []int
	parts    []int // flows
	idle     int   // the hidden figure; constant: something always flows
}

// A system is a set of equations: linear terms and products of two unknowns that
// add up to the right sides. A machine line needs no more: every mixing, retention,
// reject rate and consistency is linear in the flows of components, and only a draw
// from a well mixed tank, of a composition unknown itself, is a product.
type system struct {
	unknowns int
	rows     int
	terms    []term
	products []product
	loads    []load
	holds    []hold
}

// slope returns the derivative of a row by an unknown, with the others as in u.
func (s *system) slope(row, col int, figures, u []float64) float64 {
	sum := 0.0
	for _, t := range s.terms {
		if t.row == row && t.col == col {
			sum += t.at(figures)
		}
	}
	for _, q := range s.products {
		if q.row == row && q.held == col {
			sum += q.factor * u[q.flow]
		}
	}
	return sum
}

// A pass is the system made linear, either by holds or about the last solution
// (Newton), with its matrix prepared.
type pass struct {
	s        *system
	entries  []entry
	values   []float64 // of the entries
	rhs      []float64 // by row
	terms    []int32   // the entry each term adds to; -1: not in this pass
	held     []int32   // the entry in column held, to which a product adds its flow
	flow     []int32   // the entry in column flow, to which a product adds its held
	holds    []int32   // nil: a Newton pass
	replaced []bool    // rows replaced by holds
	shares   []int     // unknowns that Newton passes change: shares of a tank or of a split,
	flows    []int     // and flows
	right    []float64 // right side of the part; after residual, the sum of the magnitudes in each row
	counts   []bool    // unknowns that are not mere rounding
	f        *lu
}

func newPass(s *system, start bool) *pass {
	p := &pass{s: s, rhs: make([]float64, s.rows), right: make([]float64, s.rows), counts: make([]bool, s.unknowns), replaced: make([]bool, s.rows)}
	index := map[entry]int32{}
	place := func(row, col int) int32 {
		if p.replaced[row] {
			return -1
		}
		at, ok := index[entry{row, col}]
		if !ok {
			at = int32(len(p.entries))
			index[entry{row, col}] = at
			p.entries = append(p.entries, entry{row, col})
		}
		return at
	}
	if start {
		for _, h := range s.holds {
			p.holds = append(p.holds, place(h.row, h.col))
		}
		for _, h := range s.holds {
			p.replaced[h.row] = true
		}
	}
	for _, t := range s.terms {
		p.terms = append(p.terms, place(t.row, t.col))
	}
	for _, q := range s.products {
		p.flow = append(p.flow, place(q.row, q.flow))
		if !start {
			p.held = append(p.held, place(q.row, q.held))
		}
	}
	p.values = make([]float64, len(p.entries))
	return p
}

// figures enters the figures into the matrix and the right side: the part that
// stays the same from pass to pass.
func (p *pass) figures(figures []float64) {
	clear(p.values)
	clear(p.rhs)
	for i := range p.s.loads {
		l := &p.s.loads[i]
		if !p.replaced[l.row] {
			p.rhs[l.row] += l.at(figures)
		}
	}
	for i, at := range p.terms {
		if at >= 0 {
			p.values[at] += p.s.terms[i].at(figures)
		}
	}
}

// products adds the products, made linear about u, to a matrix and a right side.
func (p *pass) products(u, values, rhs []float64) {
	for i := range p.s.products {
		q := &p.s.products[i]
		if p.flow[i] < 0 {
			continue
		}
		held := q.factor * u[q.held]
		values[p.flow[i]] += held
		if p.held != nil {
			values[p.held[i]] += q.factor * u[q.flow]
			rhs[q.row] += held * u[q.flow]
		}
	}
	for i, at := range p.holds {
		h := &p.s.holds[i]
		values[at] = 1
		rhs[h.row] = u[h.col]
	}
}

// prepare finds the order of elimination for numbers like these.
func (p *pass) prepare(figures, u []float64) (rows, cols []int) {
	p.figures(figures)
	p.products(u, p.values, p.rhs)
	var lateRows, lateCols []bool
	typical := u
	if p.holds != nil {
		typical = make([]float64, len(u)) // not known yet: all the same
		for i := range typical {
			typical[i] = 1
		}
	} else {
		lateRows, lateCols = make([]bool, p.s.rows), make([]bool, p.s.unknowns)
		for _, q := range p.s.products {
			lateRows[q.row], lateCols[q.held], lateCols[q.flow] = true, true, true
		}
	}
	p.f, rows, cols = newLU(p.s.unknowns, p.entries, p.values, typical, lateRows, lateCols)
	if p.f != nil {
		p.shares, p.flows = nil, nil
		isShare := make([]bool, p.s.unknowns)
		for _, q := range p.s.products {
			isShare[q.held] = true
		}
		for _, c := range p.f.cols[p.f.fixed:] {
			if isShare[c] {
				p.shares = append(p.shares, int(c))
			} else {
				p.flows = append(p.flows, int(c))
			}
		}
	}
	return rows, cols
}

// change returns the relative difference of two solutions.
func (p *pass) change(a, b []float64) float64 {
	return max(change(a, b, p.shares, 1), change(a, b, p.flows, 0))
}

// solve computes the solution x of a first pass.
func (p *pass) solve(figures, u, x []float64) bool {
	p.figures(figures)
	p.products(u, p.values, p.rhs)
	if !p.f.begin(p.values, p.rhs) || !p.f.finish(p.f.rhs, x) {
		return false
	}
	p.f.rest(x)
	return true
}

// begin enters the figures for the steps that follow.
func (p *pass) begin(figures []float64) bool {
	p.figures(figures)
	return p.f.begin(p.values, p.rhs)
}

// step makes a Newton pass from u, and stores in next the unknowns that occur in
// products.
func (p *pass) step(u, next []float64) bool {
	f := p.f
	copy(f.part, f.base)
	copy(p.right, f.rhs)
	for i := range p.s.products {
		q := &p.s.products[i]
		held := q.factor * u[q.held]
		f.part[f.inPart[p.flow[i]]] += held
		f.part[f.inPart[p.held[i]]] += q.factor * u[q.flow]
		p.right[f.place[q.row]] += held * u[q.flow]
	}
	return f.finish(p.right, next)
}

// residual stores in p.rhs by how much each equation fails at u, and returns the
// worst of these relative to the sum of its terms.
func (p *pass) residual(figures, u []float64) float64 {
	lack, size := p.rhs, p.right
	clear(lack)
	clear(size)
	for i := range p.s.loads {
		l := &p.s.loads[i]
		x := l.at(figures)
		lack[l.row] += x
		size[l.row] += math.Abs(x)
	}
	for i := range p.s.terms {
		t := &p.s.terms[i]
		x := t.at(figures) * u[t.col]
		lack[t.row] -= x
		size[t.row] += math.Abs(x)
	}
	for i := range p.s.products {
		q := &p.s.products[i]
		x := q.factor * u[q.held] * u[q.flow]
		lack[q.row] -= x
		size[q.row] += math.Abs(x)
	}
	largest := 0.0
	for _, x := range size {
		largest = max(largest, x)
	}
	worst := 0.0
	for i, x := range lack {
		// A row of traces has no digits of its own.
		size[i] = max(size[i], 1e-7*largest)
		if e := math.Abs(x) / size[i]; !(e <= worst) {
			worst = e
		}
	}
	return worst
}

// silence sets unknowns to zero that the last residual cannot tell from zero: in no
// row are they more than the given part of the sum of its terms. Where one flow
// takes all of another, such a remainder is the rounding of both.
func (p *pass) silence(figures, u []float64, part float64) {
	clear(p.counts)
	for i := range p.s.terms {
		t := &p.s.terms[i]
		if math.Abs(t.at(figures)*u[t.col]) > part*p.right[t.row] {
			p.counts[t.col] = true
		}
	}
	for i := range p.s.products {
		q := &p.s.products[i]
		if math.Abs(q.factor*u[q.held]*u[q.flow]) > part*p.right[q.row] {
			p.counts[q.held], p.counts[q.flow] = true, true
		}
	}
	for i, counts := range p.counts {
		if !counts {
			u[i] = 0
		}
	}
}

// correct removes from u the error that a residual shows. The order of elimination
// was found for other numbers, and costs digits.
func (p *pass) correct(u, next []float64) bool {
	if !p.f.begin(p.values, p.rhs) {
		return false
	}
	f := p.f
	for i := range p.s.products {
		q := &p.s.products[i]
		f.part[f.inPart[p.flow[i]]] += q.factor * u[q.held]
		f.part[f.inPart[p.held[i]]] += q.factor * u[q.flow]
	}
	if !f.finish(f.rhs, next) {
		return false
	}
	f.rest(next)
	for i, d := range next {
		u[i] += d
	}
	return true
}

// change returns the largest relative difference of two solutions in some unknowns.
// Values that are almost nothing are compared with a millionth of the scale
// instead.
func change(a, b []float64, of []int, scale float64) float64 {
	for _, i := range of {
		scale = max(scale, math.Abs(b[i]))
	}
	most := 0.0
	for _, i := range of {
		d := math.Abs(b[i]-a[i]) / max(math.Abs(b[i]), 1e-6*scale)
		if !(d <= most) {
			most = d // NaN too
		}
	}
	return most
}
