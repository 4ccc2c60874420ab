package line

import "math"

// constant marks a coefficient that depends on no figure.
const constant = -1

// A coefficient is a number, or a number and a figure times another.
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

// A product is a factor times two unknowns, in a row: a draw times the
// composition of its tank, a split times what is split.
type product struct {
	row, held, flow int
	factor          float64
}

// A load is what stands on the right of a row.
type load struct {
	row int
	coefficient
}

// A hold fixes an unknown of the kind that products hold, in place of a row, so
// that all is linear: the first pass over a line starts so, with clear water in
// the tanks. The sum of its own rows says what that makes of it. Where nothing of what
// it parts flows, any would do, and a hidden figure of 1 takes none.
type hold struct {
	row, col int
	guess    float64
	valve    int // the figure that shuts it at 0; constant: none does
	own      []int
	parts    []int // flows
	idle     int   // the hidden figure; constant: something always flows
}

// A system of equations says that linear terms and products of two unknowns
// sum to the right sides. That is all a machine line needs: every mixing,
// retention, reject rate and consistency is linear in the flows of components,
// and the one thing that is not, the make-up of what is drawn from a well
// mixed tank, is a product.
type system struct {
	unknowns int
	rows     int
	terms    []term
	products []product
	loads    []load
	holds    []hold
}

// slope is what an unknown counts for in a row, with the others as they are at u.
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

// A pass is the system made linear, either with what products hold fixed or
// about the last solution (Newton), with its matrix prepared.
type pass struct {
	s        *system
	entries  []entry
	values   []float64 // of the entries
	rhs      []float64 // by row
	terms    []int32   // the entry each term adds to, -1: not of this pass
	held     []int32   // the entry the flow of a product adds to (column held)
	flow     []int32   // the entry the held of a product adds to (column flow)
	holds    []int32   // nil: a Newton pass
	replaced []bool    // rows that holds stand in for
	shares   []int     // unknowns that Newton passes change: shares of a tank or of a split,
	flows    []int     // and flows
	right    []float64 // right side of the part; after residual the size of the rows
	counts   []bool    // unknowns that are more than rounding
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

// figures puts the numbers of the figures into the matrix and the right side:
// what stays as it is from pass to pass.
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

// products adds those about the solution u to a matrix, at the places of their
// entries, and to a right side, at those of their rows.
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

// prepare finds the order of elimination for numbers such as these.
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

// change is how far two solutions differ, relative.
func (p *pass) change(a, b []float64) float64 {
	return max(change(a, b, p.shares, 1), change(a, b, p.flows, 0))
}

// solve puts into x the solution of a first pass.
func (p *pass) solve(figures, u, x []float64) bool {
	p.figures(figures)
	p.products(u, p.values, p.rhs)
	if !p.f.begin(p.values, p.rhs) || !p.f.finish(p.f.rhs, x) {
		return false
	}
	p.f.rest(x)
	return true
}

// begin puts in the figures for the steps that follow.
func (p *pass) begin(figures []float64) bool {
	p.figures(figures)
	return p.f.begin(p.values, p.rhs)
}

// step puts into next what a Newton pass makes of u, of the unknowns that
// products hold.
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

// residual puts into p.rhs what the equations lack at u, and returns the worst
// of them beside the sum of its terms.
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

// silence makes nothing of the unknowns that a residual just reckoned can't tell from
// nothing: in no row do they count for more than the part of its terms that is given.
// What is left where one flow takes all of another is the rounding of both.
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

// correct takes from u the error that a residual shows: the order of
// elimination was found for other numbers, and costs digits.
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

// change is the largest difference of two solutions in some unknowns, beside
// their values or, for what is almost nothing, a millionth of a scale.
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
