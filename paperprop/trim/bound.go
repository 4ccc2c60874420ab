package trim

import "math/big"

// A proof is a lower bound that can be checked in whole numbers: a unit of row
// i is worth row[i], and no set of parent j is worth more than full·cost of j +
// spare[j]. What must be cut is worth more than that many sets can hold.
type proof struct {
	row   []int64
	spare []int64
	full  int64
}

// bound is the least cost of sets that hold what is wanted.
func (p *proof) bound(m *model, least, most []int) int64 {
	sum, term := new(big.Int), new(big.Int)
	for i, v := range p.row {
		n := least[i]
		if v < 0 {
			n = most[i]
		}
		sum.Add(sum, term.Mul(big.NewInt(v), big.NewInt(int64(n))))
	}
	for j, v := range p.spare {
		if v != 0 {
			sum.Sub(sum, term.Mul(big.NewInt(v), big.NewInt(int64(m.parents[j].stock))))
		}
	}
	if sum.Sign() <= 0 || p.full <= 0 {
		return 0
	}
	full := big.NewInt(p.full)
	sum.Add(sum, term.Sub(full, big.NewInt(1)))
	return sum.Quo(sum, full).Int64()
}
