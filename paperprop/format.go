package paperprop

import (
	"bytes"
	"fmt"
	"math"
	"math/big"
	"strconv"
)

// AppendShort appends the shortest digits that parse back to x, without an exponent
// from 1e-6 to below 1e15 and with one outside. Zero is "0", never "-0".
func AppendShort(dst []byte, x float64) []byte {
	if x == 0 {
		return append(dst, '0')
	}
	if a := math.Abs(x); a >= 1e-6 && a < 1e15 {
		return strconv.AppendFloat(dst, x, 'f', -1, 64)
	}
	return strconv.AppendFloat(dst, x, 'e', -1, 64)
}

// People returns x as a person reads it: with at most 6 significant digits.
func People(x float64) string {
	var buffer [32]byte
	return string(AppendPeople(buffer[:0], x))
}

// AppendPeople appends x as a person reads it: rounded to at most 6 significant digits,
// without trailing zeros of a fraction, in the layout of [AppendShort].
func AppendPeople(dst []byte, x float64) []byte {
	a := math.Abs(x)
	if !(a >= 1e-6 && a < 1e15) {
		return appendPeopleSlow(dst, x)
	}
	digits, point, ok := six(a)
	if !ok || point > 15 {
		return appendPeopleSlow(dst, x)
	}
	if x < 0 {
		dst = append(dst, '-')
	}
	return appendSix(dst, digits, point)
}

// appendPeopleSlow is AppendPeople with strconv doing the rounding.
func appendPeopleSlow(dst []byte, x float64) []byte {
	if x == 0 || x-x != 0 {
		return AppendShort(dst, x)
	}
	var buffer [32]byte
	d, _, _ := scan(strconv.AppendFloat(buffer[:0], x, 'e', 5, 64), '.')
	return d.append(dst)
}

// six returns the first 6 digits of x, rounded, as a whole number, and how many of them
// stand before the point. It reports false if floats cannot tell which way to round.
func six(x float64) (digits uint32, point int, ok bool) {
	point = before(x)
	scaled := x
	if shift := 6 - point; shift >= 0 {
		scaled *= powers[shift+tiny]
	} else {
		scaled /= powers[tiny-shift]
	}
	digits = uint32(scaled)
	rest := scaled - float64(digits)
	const unsure = 1e-8 // a product of two floats is right to 1e-9 of a 6th digit
	if rest > 0.5-unsure && rest < 0.5+unsure {
		return 0, 0, false
	}
	if rest > 0.5 {
		digits++
	}
	if digits == 1e6 {
		digits, point = 1e5, point+1
	}
	return digits, point, true
}

// before returns how many digits of x stand before the point, for x from 1e-6 to below
// 1e15: 3 for 123.4, -1 for 0.01234.
func before(x float64) int {
	// log10(2) is 0.30103; the estimate is right, or one off.
	point := (int(math.Float64bits(x)>>52)-1023)*30103/100000 + 1
	if x < powers[point+tiny-1] {
		point--
	} else if x >= powers[point+tiny] {
		point++
	}
	return point
}

// Powers of ten from 1e-tiny; those from 1e0 to 1e22 are exact.
const tiny = 8

var powers = [...]float64{
	1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1, 1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7,
	1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
}

// appendSix appends 6 digits, point of them before the decimal point, without trailing
// zeros of a fraction.
func appendSix(dst []byte, digits uint32, point int) []byte {
	var text [6]byte
	for i := len(text) - 1; i >= 0; i-- {
		text[i] = byte('0' + digits%10)
		digits /= 10
	}
	end := len(text)
	for end > 1 && text[end-1] == '0' {
		end--
	}
	return appendDigits(dst, text[:end], point)
}

// appendDigits appends digits, point of them before the decimal point, padded with
// zeros if there are too few.
func appendDigits(dst, digits []byte, point int) []byte {
	if point <= 0 {
		dst = append(dst, "0.000000"[:2-point]...)
		return append(dst, digits...)
	}
	if point < len(digits) {
		dst = append(dst, digits[:point]...)
		dst = append(dst, '.')
		return append(dst, digits[point:]...)
	}
	dst = append(dst, digits...)
	for range point - len(digits) {
		dst = append(dst, '0')
	}
	return dst
}

// AppendShort appends a canonical value in u, without the unit: the shortest number that
// [Unit.Read] reads as value or, if none in u is, the digits of [Unit.To].
func (u Unit) AppendShort(dst []byte, value float64) []byte {
	if u.u == nil {
		return AppendShort(dst, value)
	}
	if text, ok := u.appendNumber(dst, value); ok {
		return text
	}
	return AppendShort(dst, u.To(value))
}

// Format returns a canonical value in u: a number, a space and the unit; for a pure
// number the number alone. The text is the shortest in u that parses back to value or,
// if none in u does, the one in the canonical unit.
func (k *Kind) Format(value float64, u Unit) string {
	var buffer [64]byte
	text, ok := buffer[:0], u.Kind() == k
	if ok {
		text, ok = u.appendNumber(text, value)
	}
	if !ok {
		u = k.Canonical()
		text = AppendShort(buffer[:0], value)
	}
	if k.pure() && u.u.name == "1" {
		return string(text)
	}
	text = append(text, ' ')
	return string(append(text, u.u.name...))
}

// appendNumber appends the shortest number in u that parses back to value.
func (u Unit) appendNumber(dst []byte, value float64) ([]byte, bool) {
	if value == 0 && u.u.shift == 0 || value-value != 0 || u.plain() {
		return AppendShort(dst, value), true
	}
	d, ok := u.shortest(value)
	return d.append(dst), ok
}

// plain reports whether a number in u is its own canonical value.
func (u Unit) plain() bool {
	return u.u == nil || u.u.factor == 1 && u.u.shift == 0 && u.u.big == nil
}

// shortest returns the number in u with the fewest digits, at most 17, whose canonical
// value is value.
func (u Unit) shortest(value float64) (decimal, bool) {
	if d, ok := u.quick(value); ok {
		return d, true
	}
	var all decimal
	if x := u.To(value); x-x == 0 {
		var buffer [32]byte
		all, _, _ = scan(strconv.AppendFloat(buffer[:0], x, 'e', 16, 64), '.')
	} else {
		all, _ = u.exactDigits(value) // the number is finite, but not a step on the way to it
	}
	if d := all.cut(2); u.canonical(d) == value {
		return u.fewer(d, value), true
	}
	// x is a rounded quotient: the 16th digit may be 2 off.
	d := all.cut(1)
	for _, step := range [...]int64{0, 1, -1, 2, -2} {
		near := d
		near.digits += uint64(step)
		if u.canonical(near) == value {
			return near, true
		}
	}
	if u.canonical(all) == value {
		return all, true
	}
	return u.exactDigits(value)
}

// fewer removes digits from d as long as the value stays the same.
func (u Unit) fewer(d decimal, value float64) decimal {
	for d.digits >= 10 {
		next := d.cut(1)
		if next.digits*10 != d.digits && u.canonical(next) != value {
			break
		}
		d = next
	}
	return d
}

// cut rounds off the last n digits of d.
func (d decimal) cut(n int) decimal {
	d.digits = (d.digits + tens[n]/2) / tens[n]
	d.exponent += n
	return d
}

// canonical returns the canonical value of d in u.
func (u Unit) canonical(d decimal) float64 {
	v, ok := u.value(d)
	if !ok {
		v, _ = u.slow(string(d.append(nil)), '.')
	}
	return v
}

// exactDigits returns the first 17 digits of the exact number in u. Without a shift, no
// two floats share them, whatever the factor; with one, two may.
func (u Unit) exactDigits(value float64) (decimal, bool) {
	x := new(big.Rat).SetFloat64(value)
	u.u.fromCanonical(x)
	var buffer [32]byte
	d, _, _ := scan(new(big.Float).SetPrec(200).SetRat(x).Append(buffer[:0], 'e', 16), '.')
	return d, u.canonical(d) == value
}

// append writes d as [AppendShort] writes a float, without trailing zeros.
func (d decimal) append(dst []byte) []byte {
	var buffer [20]byte
	digits := strconv.AppendUint(buffer[:0], d.digits, 10)
	point := len(digits) + d.exponent
	digits = bytes.TrimRight(digits, "0")
	if len(digits) == 0 {
		return append(dst, '0')
	}
	if d.negative {
		dst = append(dst, '-')
	}
	if point > -6 && point <= 15 {
		return appendDigits(dst, digits, point)
	}
	dst = append(dst, digits[0])
	if len(digits) > 1 {
		dst = append(append(dst, '.'), digits[1:]...)
	}
	dst = append(dst, 'e')
	sign, e := byte('+'), point-1
	if e < 0 {
		sign, e = '-', -e
	}
	if dst = append(dst, sign); e < 10 {
		dst = append(dst, '0')
	}
	return strconv.AppendInt(dst, int64(e), 10)
}

// text writes a value of kind k in its unit to print in.
func (k *Kind) text(value float64) string { return k.Format(value, k.Print()) }

func (k *Kind) finite(value float64) error {
	if value-value != 0 {
		return &RangeError{Kind: k, Value: value, Min: math.Inf(-1), Max: math.Inf(1), Unit: k.Print()}
	}
	return nil
}

func (k *Kind) marshal(value float64) ([]byte, error) {
	if err := k.finite(value); err != nil {
		return nil, fmt.Errorf("no text: %w", err)
	}
	return []byte(k.text(value)), nil
}

func (k *Kind) unmarshal(text []byte, value *float64) error {
	v, _, err := k.Parse(string(text))
	if err == nil {
		*value = v
	}
	return err
}
