package line

import (
	"math"
	"slices"
)

// An entry is a place in a matrix that may be other than zero.
type entry struct{ row, col int }

// An lu solves a sparse system again and again with different numbers. The order of
// elimination and the fill are found once, with typical numbers; after that a
// solution is one pass over the entries that are not zero, without a search or an
// allocation.
//
// If only some rows and columns of a system change, the rest is eliminated first:
// begin does that once, and finish solves the remaining part each time it changes.
type lu struct {
	n     int
	fixed int     // leading pivots that begin eliminates
	rows  []int32 // elimination order: the k-th pivot's row
	cols  []int32 // and its column
	place []int32 // of a row, in that order
	start []int32 // of row k in slot and at
	slot  []int32 // which value of the matrix
	at    []int32 // where in the permuted row it stands
	low   []int32 // start of row k in left
	left  []int32 // earlier pivots to subtract from row k, ascending
	late  []int32 // where in left the pivots that are not fixed begin
	high  []int32 // start of row k in right and value
	right []int32 // columns right of the diagonal
	value []float64
	inv   []float64 // one over the diagonal
	size  []float64 // largest magnitude of a row, when prepared
	work  []float64
	y     []float64

	pstart []int32   // start of row k in pcol and part
	pcol   []int32   // columns of the part
	part   []float64 // what is left to solve
	base   []float64 // the part as begin leaves it
	rhs    []float64 // its right side, by row
	inPart []int32   // where an entry stands in the part; -1: it was eliminated
}

// newLU finds an order of elimination for a matrix of n rows. It takes a typical
// value for each entry, and a typical solution x; entries must differ. Rows and
// columns that change are eliminated last. If the matrix is singular, f is nil and
// the rows and columns that are left over are returned.
func newLU(n int, entries []entry, values, x []float64, lateRows, lateCols []bool) (f *lu, rows, cols []int) {
	order := newElimination(n, entries, values, x)
	fixed := 0
	for order.step(lateRows, lateCols) {
		fixed++
	}
	for range n - fixed {
		if !order.step(nil, nil) {
			rows, cols = order.left()
			return nil, rows, cols
		}
	}
	f = &lu{
		n: n, fixed: fixed, rows: make([]int32, n), cols: make([]int32, n), place: make([]int32, n),
		start: make([]int32, n+1), low: make([]int32, n+1), late: make([]int32, n), high: make([]int32, n+1), pstart: make([]int32, n+1),
		inv: make([]float64, n), size: make([]float64, n), work: make([]float64, n), y: make([]float64, n), rhs: make([]float64, n),
	}
	position := make([]int32, n) // of a column
	for k, p := range order.pivots {
		f.rows[k], f.cols[k] = int32(p.row), int32(p.col)
		position[p.col], f.place[p.row] = int32(k), int32(k)
	}
	byRow := make([][]int, n)
	for i, e := range entries {
		byRow[f.place[e.row]] = append(byRow[f.place[e.row]], i)
		f.inPart = append(f.inPart, -1)
	}
	filled := make([][]int32, n) // columns right of the diagonal, of the rows done
	for k := range n {
		var pattern []int32
		for _, i := range byRow[k] {
			f.slot, f.at = append(f.slot, int32(i)), append(f.at, position[entries[i].col])
			pattern = append(pattern, position[entries[i].col])
			f.size[k] = max(f.size[k], math.Abs(values[i]))
		}
		f.start[k+1] = int32(len(f.slot))
		slices.Sort(pattern)
		i := 0
		for ; i < len(pattern) && pattern[i] < int32(min(k, fixed)); i++ {
			f.left = append(f.left, pattern[i])
			pattern = merge(pattern, i+1, filled[pattern[i]])
		}
		f.late[k] = int32(len(f.left))
		if k >= fixed {
			f.pcol = append(f.pcol, pattern[i:]...)
			for _, e := range byRow[k] {
				if j, ok := slices.BinarySearch(pattern[i:], position[entries[e].col]); ok {
					f.inPart[e] = f.pstart[k] + int32(j)
				}
			}
		}
		f.pstart[k+1] = int32(len(f.pcol))
		for ; i < len(pattern) && pattern[i] < int32(k); i++ {
			f.left = append(f.left, pattern[i])
			pattern = merge(pattern, i+1, filled[pattern[i]])
		}
		f.low[k+1] = int32(len(f.left))
		for _, c := range pattern {
			if c > int32(k) {
				filled[k] = append(filled[k], c)
			}
		}
		f.right = append(f.right, filled[k]...)
		f.high[k+1] = int32(len(f.right))
	}
	f.value, f.part, f.base = make([]float64, len(f.right)), make([]float64, len(f.pcol)), make([]float64, len(f.pcol))
	return f, nil, nil
}

// merge adds the columns of more to those of a sorted pattern, from index from on.
func merge(pattern []int32, from int, more []int32) []int32 {
	for _, c := range more {
		if i, found := slices.BinarySearch(pattern[from:], c); !found {
			pattern = slices.Insert(pattern, from+i, c)
		}
	}
	return pattern
}

// free subtracts the pivots in left from the row being worked on, and returns its
// right side.
func (f *lu) free(left []int32, rhs float64) float64 {
	work := f.work
	for _, j := range left {
		w := work[j]
		work[j] = 0
		if w == 0 {
			continue
		}
		m := w * f.inv[j]
		rhs -= m * f.y[j]
		from, to := f.high[j], f.high[j+1]
		right, value := f.right[from:to], f.value[from:to]
		for i, c := range right {
			work[c] -= m * value[i]
		}
	}
	return rhs
}

// keep stores the row being worked on as the k-th pivot's. It returns false if the
// pivot has shrunk to nothing.
func (f *lu) keep(k int, rhs float64) bool {
	work := f.work
	pivot := work[k]
	work[k] = 0
	from, to := f.high[k], f.high[k+1]
	right, value := f.right[from:to], f.value[from:to]
	for i, c := range right {
		value[i] = work[c]
		work[c] = 0
	}
	f.y[k] = rhs
	f.inv[k] = 1 / pivot
	return math.Abs(pivot) > 1e-13*f.size[k]
}

// begin eliminates the rows and columns that do not change, and leaves the rest in
// part and rhs.
func (f *lu) begin(values, b []float64) bool {
	for k := range f.n {
		for i := f.start[k]; i < f.start[k+1]; i++ {
			f.work[f.at[i]] = values[f.slot[i]]
		}
		rhs := f.free(f.left[f.low[k]:f.late[k]], b[f.rows[k]])
		if k < f.fixed {
			if !f.keep(k, rhs) {
				return false
			}
			continue
		}
		for i := f.pstart[k]; i < f.pstart[k+1]; i++ {
			f.base[i] = f.work[f.pcol[i]]
			f.work[f.pcol[i]] = 0
		}
		f.rhs[k] = rhs
	}
	copy(f.part, f.base)
	return true
}

// finish solves the part with right side b, for the columns that change.
func (f *lu) finish(b, x []float64) bool {
	for k := f.fixed; k < f.n; k++ {
		from, to := f.pstart[k], f.pstart[k+1]
		columns, part := f.pcol[from:to], f.part[from:to]
		for i, c := range columns {
			f.work[c] = part[i]
		}
		if !f.keep(k, f.free(f.left[f.late[k]:f.low[k+1]], b[k])) {
			return false
		}
	}
	f.back(f.n-1, f.fixed, x)
	return true
}

// rest computes the columns that do not change, after finish.
func (f *lu) rest(x []float64) { f.back(f.fixed-1, 0, x) }

func (f *lu) back(from, to int, x []float64) {
	y := f.y
	for k := from; k >= to; k-- {
		v := y[k]
		from, to := f.high[k], f.high[k+1]
		right, value := f.right[from:to], f.value[from:to]
		for i, c := range right {
			v -= value[i] * x[f.cols[c]]
		}
		x[f.cols[k]] = v * f.inv[k]
	}
}

// An elimination chooses pivots that cause little fill (Markowitz) and whose terms,
// pivot times unknown, are not small beside the rest of their row: a little fibre
// must not come out as the difference of two large flows of water.
type elimination struct {
	rows   [][]cell // those not yet eliminated; nil: already a pivot's
	counts []int    // entries in each column
	pivots []entry
	at     []int // of a column: one more than its index in the row being worked on; 0 if it has none
}

// A cell is the value in a column of a row. What is left of larger values, subtracted
// from each other, may be their rounding alone.
type cell struct {
	col         int
	value, size float64 // size is the largest magnitude of what the value was made from
}

// counts reports whether the value is more than rounding.
func (c *cell) counts() bool { return math.Abs(c.value) > 1e-11*c.size }

func newElimination(n int, entries []entry, values, x []float64) *elimination {
	largest := 0.0
	for _, v := range x {
		largest = max(largest, math.Abs(v))
	}
	e := &elimination{rows: make([][]cell, n), counts: make([]int, n), at: make([]int, n)}
	for i := range e.rows {
		e.rows[i] = []cell{}
	}
	for i, at := range entries {
		v := values[i] * max(math.Abs(x[at.col]), 1e-6*largest)
		e.rows[at.row] = append(e.rows[at.row], cell{at.col, v, math.Abs(v)})
		e.counts[at.col]++
	}
	return e
}

// step eliminates the next pivot outside the given rows and columns. It returns
// false if there is none.
func (e *elimination) step(notRows, notCols []bool) bool {
	best, at, cost := entry{-1, -1}, 0, math.MaxInt
	for i, row := range e.rows {
		if row == nil || notRows != nil && notRows[i] {
			continue
		}
		largest := 0.0
		for _, p := range row {
			largest = max(largest, math.Abs(p.value))
		}
		for j, p := range row {
			if notCols != nil && notCols[p.col] || math.Abs(p.value) < 0.01*largest || !p.counts() {
				continue
			}
			if c := (len(row) - 1) * (e.counts[p.col] - 1); c < cost {
				best, at, cost = entry{i, p.col}, j, c
			}
		}
		if cost == 0 {
			break
		}
	}
	if best.row < 0 {
		return false
	}
	e.eliminate(best, at)
	return true
}

func (e *elimination) eliminate(p entry, at int) {
	pivot := e.rows[p.row]
	e.rows[p.row] = nil
	for _, u := range pivot {
		e.counts[u.col]--
	}
	e.pivots = append(e.pivots, p)
	for i, row := range e.rows {
		if e.counts[p.col] == 0 {
			break
		}
		j := slices.IndexFunc(row, func(u cell) bool { return u.col == p.col })
		if j < 0 {
			continue
		}
		m := row[j].value / pivot[at].value
		row[j] = row[len(row)-1]
		row = row[:len(row)-1]
		e.counts[p.col]--
		for j, u := range row {
			e.at[u.col] = j + 1
		}
		for _, u := range pivot {
			switch j := e.at[u.col]; {
			case u.col == p.col:
			case j > 0:
				row[j-1].value -= m * u.value
				row[j-1].size = max(row[j-1].size, math.Abs(m)*u.size)
			default:
				row = append(row, cell{u.col, -m * u.value, math.Abs(m) * u.size})
				e.counts[u.col]++
			}
		}
		for _, u := range row {
			e.at[u.col] = 0
		}
		e.rows[i] = row
	}
}

// left returns the rows and columns without a pivot.
func (e *elimination) left() (rows, cols []int) {
	taken := make([]bool, len(e.rows))
	for _, p := range e.pivots {
		taken[p.col] = true
	}
	for i := range e.rows {
		if e.rows[i] != nil {
			rows = append(rows, i)
		}
		if !taken[i] {
			cols = append(cols, i)
		}
	}
	return rows, cols
}
