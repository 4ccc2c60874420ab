package result

import (
	"math/big"

	"github.com/shopspring/decimal"
)

// RoundDecimal returns d rounded by r, exactly. A decimal from outside the program must
// come from [ParseDecimal].
func (r Rule) RoundDecimal(d decimal.Decimal) decimal.Decimal {
	switch {
	case r.IsZero():
		return d
	case r.figures == 0:
		n := r.multiple(d, r.mantissa, r.exponent)
		return decimal.NewFromBigInt(n.Mul(n, big.NewInt(r.mantissa)), r.exponent)
	case d.IsZero():
		return decimal.Decimal{}
	}
	first := leading(d)
	exponent := first - int32(r.figures) + 1
	n := r.multiple(d, 1, exponent)
	if y := decimal.NewFromBigInt(n, exponent); leading(y) == first {
		return y
	}
	// A carry leaves a power of ten, with one figure too many.
	return decimal.NewFromBigInt(n.Quo(n, big.NewInt(10)), exponent+1)
}

// multiple returns d as a whole number of steps of mantissa·10^exponent, rounded.
func (r Rule) multiple(d decimal.Decimal, mantissa int64, exponent int32) *big.Int {
	steps, step := d.Coefficient(), big.NewInt(mantissa)
	if shift := d.Exponent() - exponent; shift >= 0 {
		steps.Mul(steps, powerOfTen(shift))
	} else {
		step.Mul(step, powerOfTen(-shift))
	}
	return r.tie.nearest(steps, step)
}

// nearest returns the whole number nearest to n/d, where d is above zero.
func (t Tie) nearest(n, d *big.Int) *big.Int {
	whole, rest := new(big.Int).QuoRem(n, d, new(big.Int))
	side := rest.Lsh(rest, 1).CmpAbs(d)
	if side > 0 || side == 0 && (t == Away || whole.Bit(0) == 1) {
		whole.Add(whole, big.NewInt(int64(n.Sign())))
	}
	return whole
}

// ToStep rounds x to a multiple of step, exactly, for steps that a [Rule] cannot hold
// because they are not finite decimals: 0.1 mm in inches. The text has as many decimals
// as the step; if the step is not a finite decimal, it is the shortest text of the
// float64. A step that is not above zero is an [InputError].
func ToStep(x, step *big.Rat, tie Tie) (rounded *big.Rat, text string, err error) {
	if step.Sign() <= 0 {
		return nil, "", &InputError{"step", step.RatString(), "a step above 0"}
	}
	steps := new(big.Rat).Quo(x, step)
	rounded = new(big.Rat).SetInt(tie.nearest(steps.Num(), steps.Denom()))
	rounded.Mul(rounded, step)
	if places, ends := step.FloatPrec(); ends {
		return rounded, rounded.FloatString(places), nil
	}
	float, _ := rounded.Float64()
	return rounded, plain(Exact(float)), nil
}

// leading returns the power of ten of the first digit of d, which must not be zero.
func leading(d decimal.Decimal) int32 { return int32(d.NumDigits()) - 1 + d.Exponent() }

func powerOfTen(n int32) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)
}

// plain returns d in plain digits, with all its decimals.
func plain(d decimal.Decimal) string { return d.StringFixed(max(0, -d.Exponent())) }
