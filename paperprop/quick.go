package paperprop

import "math"

// quick is [Unit.shortest] in floats of twice the length, for every row of a table. Of
// numbers with equally many digits it returns the one nearest to value. It reports false
// where it cannot tell, as for a power of two, whose neighbours are not equally far.
func (u Unit) quick(value float64) (decimal, bool) {
	bits := math.Float64bits(math.Abs(value))
	num, den, whole := u.u.whole()
	if !whole || bits<<12 == 0 {
		return decimal{}, false
	}
	x, more := u.twice(value)
	negative := x < 0
	if negative {
		x, more = -x, -more
	}
	if !(x >= 1e-5 && x < 1e15) {
		return decimal{}, false
	}
	places := 17 - before(x)
	scale := math.Pow10(places) // exact
	n, tail := times(x, scale)
	tail += more * scale
	// What lies within half of the last bit of value parses back to it. In units of the
	// 17th digit that is 0.5 to 11; of a shifted unit it is more near its own zero, and
	// near that of the canonical one less than floats of twice the length hold.
	half := math.Float64frombits((bits>>52-53)<<52) * den / num * scale
	if !(half >= 0.01 && half < 50) {
		return decimal{}, false
	}
	for _, step := range [...]uint64{100, 10, 1} {
		over := uint64(n) % step
		off := float64(over) + tail
		steps := math.Round(off / float64(step))
		const sure = 1e-9
		switch miss := math.Abs(steps*float64(step) - off); {
		case miss < half*(1-sure):
			digits := int64(uint64(n)-over) + int64(steps)*int64(step)
			return decimal{digits: uint64(digits), exponent: -places, negative: negative}, true
		case miss < half*(1+sure):
			return decimal{}, false
		}
	}
	return decimal{}, false
}

// twice is [Unit.To] with twice the digits: the number in u is x + more.
func (u Unit) twice(value float64) (x, more float64) {
	num, den, _ := u.u.whole()
	product, rest := times(value, den)
	sum, lost := plus(product, -float64(u.u.shift))
	x = sum / num
	return x, (math.FMA(-x, num, sum) + lost + rest) / num
}

// times returns a·b rounded, and what rounding took off.
func times(a, b float64) (product, rest float64) {
	product = a * b
	return product, math.FMA(a, b, -product)
}

// plus returns a+b rounded, and what rounding took off.
func plus(a, b float64) (sum, rest float64) {
	sum = a + b
	second := sum - a
	return sum, (a - (sum - second)) + (b - second)
}
