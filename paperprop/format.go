package paperprop

import (
	"bytes"
	"fmt"
	"math"
	"math/big"
	"strconv"
)

// AppendShort appends the shortest digits that parse back to x, without an
// exponent from 1e-6 to below 1e15, else with one; zero is "0", never "-0".
func AppendShort(dst []byte, x float64) []byte {
	if x == 0 {
		return append(dst, '0')
	}
	if a := math.Abs(x); a >= 1e-6 && a < 1e15 {
		return strconv.AppendFloat(dst, x, 'f', -1, 64)
	}
	return strconv.AppendFloat(dst, x, 'e', -1, 64)
}

// People writes x as a person reads it: at most 6 significant digits.
func People(x float64) string {
	var buffer [32]byte
	return string(AppendPeople(buffer[:0], x))
}

// AppendPeople appends x as a person reads it: rounded to at most 6
// significant digits, without the zeros at the end of a fraction, laid out as
// [AppendShort] does.
func AppendPeople(dst []byte, x float64) []byte {
	a := math.Abs(x)
	if !(a >= 1e-6 && a < 1e15) {
		return appendPeopleSlow(dst, x)
	}
	digits, point, ok := six(a)
	if !ok {
		return appendPeopleSlow(dst, x)
	}
	if x < 0 {
		dst = append(dst, '-')
	}
	return appendSix(dst, digits, point)
}

// appendPeopleSlow lets strconv round.
func appendPeopleSlow(dst []byte, x float64) []byte {
	if x == 0 || x-x != 0 {
		return AppendShort(dst, x)
	}
	var buffer [32]byte
	return layOut(dst, strconv.AppendFloat(buffer[:0], x, 'e', 5, 64))
}

// six returns the first 6 digits of x, rounded, as a whole number, and how
// many of them stand before the point. It is false where floats cannot tell
// which way to round.
func six(x float64) (digits uint32, point int, ok bool) {
	// log10(2) is 0.30103; the estimate is right, or one off.
	point = (int(math.Float64bits(x)>>52)-1023)*30103/100000 + 1
	if x < powers[point+tiny-1] {
		point--
	} else if x >= powers[point+tiny] {
		point++
	}
	scaled := x
	if shift := 6 - point; shift >= 0 {
		scaled *= powers[shift+tiny]
	} else {
		scaled /= powers[tiny-shift]
	}
	digits = uint32(scaled)
	rest := scaled - float64(digits)
	const unsure = 1e-8 // a product of two floats is right to 1e-9 of a 6th digit
	if rest > 0.5-unsure && rest < 0.5+unsure || rest > 1-unsure {
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

// Powers of ten from 1e-tiny; those from 1e0 to 1e22 are exact.
const tiny = 8

var powers = [...]float64{
	1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1, 1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7,
	1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
}

// appendSix appends 6 digits, but for zeros at the end of a fraction, with
// point of them before the decimal point.
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

// appendDigits appends digits with point of them before the decimal point,
// and zeros where there are too few.
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

// Format writes a canonical value in u: a number, a space, the unit; of a pure
// number the number alone. It is the shortest text in u that parses back to
// value, or the one in the canonical unit where no text in u does.
func (k *Kind) Format(value float64, u Unit) string {
	var buffer [64]byte
	text, ok := k.appendNumber(buffer[:0], value, u)
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
func (k *Kind) appendNumber(dst []byte, value float64, u Unit) ([]byte, bool) {
	switch {
	case u.Kind() != k:
		return dst, false
	case value == 0 && u.u.shift == 0 || value-value != 0 || u.plain():
		return AppendShort(dst, value), true
	}
	if x := u.To(value) + 0; x-x == 0 { // + 0: there is no -0
		for precision := 15; precision <= 17; precision++ {
			if text, ok := shorten(dst, x, precision, value, u); ok {
				return text, true
			}
		}
	}
	return exactNumber(dst, value, u)
}

// plain says whether a number in u is the canonical one.
func (u Unit) plain() bool { return u.u.factor == 1 && u.u.shift == 0 && u.u.big == nil }

// shorten writes x with as few digits as parse back to value, at most
// precision. False means that even those do not.
func shorten(dst []byte, x float64, precision int, value float64, u Unit) ([]byte, bool) {
	var buffer, best [32]byte
	n := 0
	for precision > 0 {
		text := strconv.AppendFloat(buffer[:0], x, 'e', precision-1, 64)
		if v, err := read(text, '.', u); err != nil || v != value {
			break
		}
		n = copy(best[:], text)
		precision = significant(text) - 1
	}
	if n == 0 {
		return dst, false
	}
	return layOut(dst, best[:n]), true
}

// significant counts the digits of 1.23e+04, without zeros at the end.
func significant(text []byte) int {
	n, digits := 0, 0
	for _, c := range text {
		if c == 'e' {
			break
		}
		if c >= '0' && c <= '9' {
			if digits++; c != '0' {
				n = digits
			}
		}
	}
	return n
}

// layOut appends a number like -1.2300e+04 as [AppendShort] does: -12300.
func layOut(dst, text []byte) []byte {
	if text[0] == '-' {
		dst, text = append(dst, '-'), text[1:]
	}
	mantissa, exponent, _ := bytes.Cut(text, []byte("e"))
	e, _ := strconv.Atoi(string(exponent))
	digits := append(make([]byte, 0, 32), mantissa[0])
	if len(mantissa) > 2 {
		digits = append(digits, mantissa[2:]...)
	}
	digits = digits[:max(1, significant(digits))]
	if e >= -6 && e < 15 {
		return appendDigits(dst, digits, e+1)
	}
	dst = append(dst, digits[0])
	if len(digits) > 1 {
		dst = append(append(dst, '.'), digits[1:]...)
	}
	return append(append(dst, 'e'), exponent...)
}

// exactNumber writes the first 17 digits of the exact number in u: no two
// floats share them, whatever the factor.
func exactNumber(dst []byte, value float64, u Unit) ([]byte, bool) {
	x := new(big.Rat).SetFloat64(value)
	if u.u.shift != 0 {
		x.Sub(x, new(big.Rat).SetFrac64(u.u.shift, int64(u.u.exact.den)))
	}
	x.Quo(x, u.u.rat())
	var buffer [32]byte
	text := new(big.Float).SetPrec(200).SetRat(x).Append(buffer[:0], 'e', 16)
	v, err := read(text, '.', u)
	return layOut(dst, text), err == nil && v == value
}

// text writes a value of the kind in the unit to print in.
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
