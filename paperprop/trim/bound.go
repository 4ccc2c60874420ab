package trim

import "math/big"

// A proof is a lower bound that can be checked in whole numbers: a unit of row
// i is worth row[i], one of stock k spare[k], and no set is worth more than full
// times its cost and what it draws from stocks. What must be cut is worth more
// than that many sets can hold.
type proof struct {
	row   []int64
	spare []int64
	full  int64
}

// bound is the least cost of sets that hold what is wanted.
func (p *proof) bound(least, most []int, stocks []int64) int64 {
	sum, term := new(big.Int), new(big.Int)
	for i, v := range p.row {
		n := least[i]
		if v < 0 {
			n = most[i]
		}
		sum.Add(sum, term.Mul(big.NewInt(v), big.NewInt(int64(n))))
	}
	for k, v := range p.spare {
		sum.Sub(sum, term.Mul(big.NewInt(v), big.NewInt(stocks[k])))
	}
	if sum.Sign() <= 0 || p.full <= 0 {
		return 0
	}
	full := big.NewInt(p.full)
	sum.Add(sum, term.Sub(full, big.NewInt(1)))
	return sum.Quo(sum, full).Int64()
}

// of is what a set of a parent may be worth beside its cost.
func (p *proof) of(d parent) int64 {
	var sum int64
	for _, x := range d.draws {
		sum += p.spare[x.stock] * int64(x.n)
	}
	return sum
}

// set makes p a copy.
func (p *proof) set(q *proof) {
	p.row = append(p.row[:0], q.row...)
	p.spare = append(p.spare[:0], q.spare...)
	p.full = q.full
}

// value is about what bound rounds up.
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
