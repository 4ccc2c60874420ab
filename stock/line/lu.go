package line

import (
	"math"
	"slices"
)

// An entry is a place of a matrix where something may stand.
type entry struct{ row, col int }

// An lu solves a sparse system again and again with other numbers. The order
// of elimination and the fill are found once, with typical numbers; after that
// a solution is one pass over what is not zero, without a search and without
// an allocation.
type lu struct {
	n     int
	rows  []int32 // elimination order: the k-th pivot's row
	cols  []int32 // and its column
	start []int32 // of row k in slot and at
	slot  []int32 // which value of the matrix
	at    []int32 // where in the permuted row it stands
	low   []int32 // start of row k in left
	left  []int32 // earlier pivots that row k has to be freed from, ascending
	high  []int32 // start of row k in right and value
	right []int32 // columns right of the diagonal
	value []float64
	inv   []float64 // one over the diagonal
	size  []float64 // of the largest of a row, at preparing
	work  []float64
	y     []float64
}

// newLU finds an order of elimination for a matrix of n rows. The values are
// typical ones, one for each entry; entries must differ. A matrix that is
// singular gives the rows and columns that are left over.
func newLU(n int, entries []entry, values []float64) (f *lu, rows, cols []int) {
	order := newElimination(n, entries, values)
	for range n {
		if !order.step() {
			rows, cols = order.left()
			return nil, rows, cols
		}
	}
	f = &lu{
		n: n, rows: make([]int32, n), cols: make([]int32, n),
		start: make([]int32, n+1), low: make([]int32, n+1), high: make([]int32, n+1),
		inv: make([]float64, n), size: make([]float64, n), work: make([]float64, n), y: make([]float64, n),
	}
	position := make([]int32, n) // of a column
	place := make([]int, n)      // of a row
	for k, p := range order.pivots {
		f.rows[k], f.cols[k] = int32(p.row), int32(p.col)
		position[p.col], place[p.row] = int32(k), k
	}
	byRow := make([][]int, n)
	for i, e := range entries {
		byRow[place[e.row]] = append(byRow[place[e.row]], i)
	}
	filled := make([][]int32, n) // right of the diagonal, of the rows done
	for k := range n {
		var pattern []int32
		for _, i := range byRow[k] {
			f.slot, f.at = append(f.slot, int32(i)), append(f.at, position[entries[i].col])
			pattern = append(pattern, position[entries[i].col])
			f.size[k] = max(f.size[k], math.Abs(values[i]))
		}
		f.start[k+1] = int32(len(f.slot))
		slices.Sort(pattern)
		for i := 0; i < len(pattern) && pattern[i] < int32(k); i++ {
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
	f.value = make([]float64, len(f.right))
	return f, nil, nil
}

// merge adds columns to those of a sorted pattern from an index on.
func merge(pattern []int32, from int, more []int32) []int32 {
	for _, c := range more {
		if i, found := slices.BinarySearch(pattern[from:], c); !found {
			pattern = slices.Insert(pattern, from+i, c)
		}
	}
	return pattern
}

// solve puts into x the solution for a matrix and a right side. It says no
// where a pivot has shrunk to nothing.
func (f *lu) solve(values, b, x []float64) bool {
	work, y := f.work, f.y
	for k := range f.n {
		for i := f.start[k]; i < f.start[k+1]; i++ {
			work[f.at[i]] = values[f.slot[i]]
		}
		rhs := b[f.rows[k]]
		for _, j := range f.left[f.low[k]:f.low[k+1]] {
			w := work[j]
			work[j] = 0
			if w == 0 {
				continue
			}
			m := w * f.inv[j]
			rhs -= m * y[j]
			from, to := f.high[j], f.high[j+1]
			right, value := f.right[from:to], f.value[from:to]
			for i, c := range right {
				work[c] -= m * value[i]
			}
		}
		pivot := work[k]
		work[k] = 0
		from, to := f.high[k], f.high[k+1]
		right, value := f.right[from:to], f.value[from:to]
		for i, c := range right {
			value[i] = work[c]
			work[c] = 0
		}
		y[k] = rhs
		if !(math.Abs(pivot) > 1e-13*f.size[k]) {
			return false
		}
		f.inv[k] = 1 / pivot
	}
	for k := f.n - 1; k >= 0; k-- {
		v := y[k]
		from, to := f.high[k], f.high[k+1]
		right, value := f.right[from:to], f.value[from:to]
		for i, c := range right {
			v -= value[i] * y[c]
		}
		v *= f.inv[k]
		y[k] = v
		x[f.cols[k]] = v
	}
	return true
}

// An elimination chooses pivots that fill little (Markowitz) and are not small
// beside the rest of their row.
type elimination struct {
	rows   []map[int]float64
	counts []int // of the columns
	pivots []entry
	size   []float64 // of the largest of a row, at first
}

func newElimination(n int, entries []entry, values []float64) *elimination {
	e := &elimination{rows: make([]map[int]float64, n), counts: make([]int, n), size: make([]float64, n)}
	for i := range e.rows {
		e.rows[i] = map[int]float64{}
	}
	for i, at := range entries {
		e.rows[at.row][at.col] = values[i]
		e.counts[at.col]++
		e.size[at.row] = max(e.size[at.row], math.Abs(values[i]))
	}
	return e
}

// step takes the next pivot, or says that there is none.
func (e *elimination) step() bool {
	best, cost := entry{-1, -1}, math.MaxInt
	for i, row := range e.rows {
		if row == nil || cost == 0 {
			continue
		}
		largest := 0.0
		for _, v := range row {
			largest = max(largest, math.Abs(v))
		}
		if largest <= 1e-11*e.size[i] {
			continue
		}
		for j, v := range row {
			c := (len(row) - 1) * (e.counts[j] - 1)
			// The smaller column breaks a tie, so that the order is always one.
			if math.Abs(v) >= 0.05*largest && (c < cost || c == cost && i == best.row && j < best.col) {
				best, cost = entry{i, j}, c
			}
		}
	}
	if best.row < 0 {
		return false
	}
	e.eliminate(best)
	return true
}

func (e *elimination) eliminate(p entry) {
	pivot := e.rows[p.row]
	e.rows[p.row] = nil
	for j := range pivot {
		e.counts[j]--
	}
	for _, row := range e.rows {
		v, ok := row[p.col]
		if !ok {
			continue
		}
		delete(row, p.col)
		e.counts[p.col]--
		m := v / pivot[p.col]
		for j, u := range pivot {
			if j == p.col {
				continue
			}
			if _, there := row[j]; !there {
				e.counts[j]++
			}
			row[j] -= m * u
		}
	}
	e.pivots = append(e.pivots, p)
}

// left names the rows and columns that have no pivot.
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
