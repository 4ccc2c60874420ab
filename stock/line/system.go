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

// minus is the coefficient with its sign turned.
func (c coefficient) minus() coefficient {
	return coefficient{-c.base, c.figure, -c.factor}
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
// the tanks.
type hold struct {
	row, col int
	guess    float64
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

// A pass is the system made linear, either with what products hold fixed or
// about the last solution (Newton), with its matrix prepared.
type pass struct {
	s        *system
	entries  []entry
	values   []float64
	rhs      []float64
	terms    []int32 // the value each term adds to, -1: not of this pass
	held     []int32 // the value the flow of a product adds to (column held)
	flow     []int32 // the value the held of a product adds to (column flow)
	holds    []int32 // nil: a Newton pass
	replaced []bool  // rows that holds stand in for
	f        *lu
}

func newPass(s *system, start bool) *pass {
	p := &pass{s: s, rhs: make([]float64, s.rows), replaced: make([]bool, s.rows)}
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

// fill puts numbers into the matrix: those of the figures, and of products
// about the solution u.
func (p *pass) fill(figures, u []float64) {
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
	for i := range p.s.products {
		q := &p.s.products[i]
		if p.flow[i] < 0 {
			continue
		}
		p.values[p.flow[i]] += q.factor * u[q.held]
		if p.held != nil {
			p.values[p.held[i]] += q.factor * u[q.flow]
			p.rhs[q.row] += q.factor * u[q.held] * u[q.flow]
		}
	}
	for i, at := range p.holds {
		h := &p.s.holds[i]
		p.values[at] = 1
		p.rhs[h.row] = u[h.col]
	}
}

// prepare finds the order of elimination for numbers such as these.
func (p *pass) prepare(figures, u []float64) (rows, cols []int) {
	p.fill(figures, u)
	p.f, rows, cols = newLU(p.s.unknowns, p.entries, p.values)
	return rows, cols
}

// step puts into next what the pass makes of u.
func (p *pass) step(figures, u, next []float64) bool {
	p.fill(figures, u)
	return p.f.solve(p.values, p.rhs, next)
}

// change is the largest difference of two solutions, beside their values or,
// for what is almost nothing, a millionth of the largest value.
func change(a, b []float64) float64 {
	scale := 0.0
	for _, x := range b {
		scale = max(scale, math.Abs(x))
	}
	most := 0.0
	for i, x := range b {
		d := math.Abs(x-a[i]) / max(math.Abs(x), 1e-6*scale)
		if !(d <= most) {
			most = d // NaN too
		}
	}
	return most
}
