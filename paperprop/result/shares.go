package result

import (
	"math/big"
	"slices"
	"strconv"

	"github.com/shopspring/decimal"
)

// Shares returns the share of each part in their sum, as a multiple of step, such that
// the shares add up to exactly 1. Every share is rounded down, and the remaining steps
// go to the largest remainders, of equal ones to the earlier part. The step is a
// fraction that divides 1, such as 0.001; parts are 0 or above, and at least one is
// above 0. Its errors are [InputError].
func Shares(parts []decimal.Decimal, step decimal.Decimal) ([]decimal.Decimal, error) {
	whole, err := stepsInOne(step)
	if err != nil {
		return nil, err
	}
	sizes, sum, err := inOneUnit(parts)
	if err != nil {
		return nil, err
	}
	shares := make([]decimal.Decimal, len(parts))
	for i, count := range apportion(whole, sizes, sum) {
		shares[i] = decimal.NewFromBigInt(count, 0).Mul(step)
	}
	return shares, nil
}

// apportion distributes whole in proportion to the sizes, which add up to sum.
func apportion(whole *big.Int, sizes []*big.Int, sum *big.Int) []*big.Int {
	counts := make([]*big.Int, len(sizes))
	remainders := make([]*big.Int, len(sizes))
	order := make([]int, len(sizes))
	left := new(big.Int).Set(whole)
	for i, size := range sizes {
		counts[i], remainders[i] = new(big.Int).QuoRem(new(big.Int).Mul(size, whole), sum, new(big.Int))
		left.Sub(left, counts[i])
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return remainders[j].Cmp(remainders[i]) })
	for _, i := range order[:left.Int64()] { // fewer steps than remainders
		counts[i].Add(counts[i], big.NewInt(1))
	}
	return counts
}

// stepsInOne returns how many steps make 1.
func stepsInOne(step decimal.Decimal) (*big.Int, error) {
	if step.Sign() > 0 {
		if steps := new(big.Rat).Inv(step.Rat()); steps.IsInt() {
			return steps.Num(), nil
		}
	}
	return nil, &InputError{"step", plain(step), "a fraction that divides 1, such as 0.001"}
}

// inOneUnit returns the parts and their sum as whole numbers, in units of the last
// decimal of any part.
func inOneUnit(parts []decimal.Decimal) (sizes []*big.Int, sum *big.Int, err error) {
	exponent := int32(0)
	for i, part := range parts {
		if part.Sign() < 0 {
			return nil, nil, &InputError{"part " + strconv.Itoa(i+1), plain(part), "0 or above"}
		}
		exponent = min(exponent, part.Exponent())
	}
	sum = new(big.Int)
	for _, part := range parts {
		size := part.Shift(-exponent).BigInt()
		sizes = append(sizes, size)
		sum.Add(sum, size)
	}
	if sum.Sign() == 0 {
		return nil, nil, &InputError{"the sum of the parts", "0", "above 0"}
	}
	return sizes, sum, nil
}
