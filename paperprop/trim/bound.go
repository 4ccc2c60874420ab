package trim

import (
	"math"
	"math/bits"
)

// A proof is a lower bound that can be checked in whole numbers: a unit of row i is
// worth row[i], a unit of stock k spare[k], and no set is worth more than full
// times its cost plus what it draws from stocks. So many sets can hold only so much
// worth, and what must be cut is worth more.
type proof struct {
	row   []int64
	spare []int64
	full  int64
}

// bound returns the least cost of sets that hold what is wanted. Rows with negative
// demand count as none.
func (p *proof) bound(least, most []int, stocks []int64) int64 {
	var sum wide
	for i, v := range p.row {
		n := least[i]
		if v < 0 {
			n = most[i]
		}
		sum.add(v, int64(max(0, n)))
	}
	for k, v := range p.spare {
		sum.add(-v, stocks[k])
	}
	if sum.hi < 0 || sum.hi == 0 && sum.lo == 0 || p.full <= 0 {
		return 0
	}
	sum.add(p.full-1, 1)
	return int64(sum.over(uint64(p.full)))
}

// A wide is a 128-bit integer, for exact sums of products.
type wide struct {
	hi int64
	lo uint64
}

// add adds a product.
func (w *wide) add(a, b int64) {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	hi -= uint64(b)&uint64(a>>63) + uint64(a)&uint64(b>>63) // as Mul64 is unsigned
	var carry uint64
	w.lo, carry = bits.Add64(w.lo, lo, 0)
	w.hi += int64(hi + carry)
}

// over divides a number not below zero. If the result is no int64, it returns the
// largest.
func (w *wide) over(d uint64) uint64 {
	if uint64(w.hi) >= d {
		return math.MaxInt64
	}
	q, _ := bits.Div64(uint64(w.hi), w.lo, d)
	return min(q, math.MaxInt64)
}

// of returns what a set on a parent may be worth besides its cost: what it draws
// from stocks.
func (p *proof) of(d parent) int64 {
	var sum int64
	for _, x := range d.draws {
		sum += p.spare[x.stock] * int64(x.n)
	}
	return sum
}

// set makes p a copy of q.
func (p *proof) set(q *proof) {
	p.row = append(p.row[:0], q.row...)
	p.spare = append(p.spare[:0], q.spare...)
	p.full = q.full
}

// value returns approximately what bound rounds up.
func (p *proof) value(least, most []int, stocks []int64) float64 {
	sum := 0.0
	for i, v := range p.row {
		n := max(0, least[i])
		if v < 0 {
			n = max(0, most[i])
		}
		sum += float64(v) * float64(n)
	}
	for k, v := range p.spare {
		sum -= float64(v) * float64(stocks[k])
	}
	return sum / float64(p.full)
}
