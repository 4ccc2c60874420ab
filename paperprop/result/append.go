package result

import (
	"encoding/binary"
	"math"
	"slices"
)

// The fast path counts in units of the last decimal, in whole numbers of at
// most 15 digits. A decimal of so few digits is the shortest text of its
// float64, so comparing with the float64 of a tie decides as the texts would.
const (
	maxUnits = 9e13 // a digit more, with half a step, is still within 15
	maxStep  = 1e13
	maxPower = 22 // powers of ten up to this one are exact
)

// tens holds 10^-22 to 10^22.
var tens = [...]float64{
	1e-22, 1e-21, 1e-20, 1e-19, 1e-18, 1e-17, 1e-16, 1e-15, 1e-14, 1e-13, 1e-12,
	1e-11, 1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1,
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// Append appends the text that [Rule.Round] returns. It allocates nothing except to
// grow dst, provided x and the step are of ordinary size: at most 21 decimals, and 13
// digits in all. Bytes between the length and the capacity of dst may be overwritten.
func (r Rule) Append(dst []byte, x float64) []byte { return r.append(dst, x, 0) }

// computedSlack is the relative distance from a tie within which a computed number
// counts as that tie. It covers the rounding of a few float operations, and of a
// difference that is a thousandth of its operands, such as a moisture of 0.2 % by a
// dish. Quotients of seven-digit readings lie further from a tie, or exactly on it.
const computedSlack = 1e-11

// AppendComputed is [Rule.Append] for a number that came out of a formula. A number
// within a relative 1e-11 of a tie counts as the tie: 10 g less 9.255 g, over 10 g, is
// 7.45 %, although the float lies beside it.
func (r Rule) AppendComputed(dst []byte, x float64) []byte { return r.append(dst, x, computedSlack) }

// append handles what most results need: above zero, at most eight digits and seven
// decimals, not near a tie. Making no calls, it takes two thirds of the time of
// appendAny.
func (r Rule) append(dst []byte, x, slack float64) []byte {
	places := -int(r.exponent)
	if r.figures > 0 {
		places = int(r.figures) - 1 - firstPower(x)
	}
	if uint(places) >= 8 || !(x > 0 && x < 1e8) || cap(dst)-len(dst) < shortRoom {
		return r.appendAny(dst, x, slack)
	}
	steps := x * tens[maxPower+places]
	if r.mantissa > 1 {
		steps /= float64(r.mantissa)
	}
	units := int64(steps + 0.5)
	if rest := steps - float64(units); rest > 0.499 || rest < -0.499 { // the error is below 0.001
		return r.appendAny(dst, x, slack)
	}
	if r.mantissa > 1 {
		units *= r.mantissa
	}
	if units >= firstLong[r.figures&15] {
		return r.appendAny(dst, x, slack)
	}
	return appendShort(dst, uint64(units), places)
}

// firstLong holds, for each number of figures, the first whole number that has more of
// them or is too long for appendShort.
var firstLong = [16]int64{1e8, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e8, 1e8, 1e8, 1e8, 1e8, 1e8, 1e8}

// firstPower returns the power of ten of the first figure of size, for sizes from 1e-22
// to 1e22. Outside these the result means nothing.
func firstPower(size float64) int {
	exponent := int(math.Float64bits(size)>>52) - 1023
	first := exponent * 1233 >> 12 // 1233/4096 is log 2: the power of ten, or one less
	if at := uint(maxPower + first + 1); at < uint(len(tens)) && size >= tens[at] {
		first++
	}
	return first
}

// appendAny is append for any number.
func (r Rule) appendAny(dst []byte, x, slack float64) []byte {
	size := math.Abs(x)
	step, places := uint64(r.mantissa), -int(r.exponent)
	if r.figures > 0 {
		step, places = r.lastFigure(size)
	}
	if step-1 >= maxStep || uint(places) >= maxPower || !(size*tens[maxPower+places] < maxUnits) {
		return r.appendExact(dst, x)
	}
	units := r.units(size, step, places, slack)
	if places > 0 && r.figures > 0 && float64(units) == tens[maxPower+r.figures] {
		units, places = units/10, places-1 // a carry: one figure too many
	}
	if x < 0 && units > 0 {
		dst = append(dst, '-')
	}
	return appendFixed(dst, units, places)
}

func (r Rule) appendExact(dst []byte, x float64) []byte {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return dst
	}
	return append(dst, r.Text(Exact(x))...)
}

// lastFigure returns the step of the last significant figure of size, in units of the
// last decimal; 0 if the fast path cannot handle it.
func (r Rule) lastFigure(size float64) (step uint64, places int) {
	if size == 0 {
		return 1, 0 // zero has no figures, and is reported as "0"
	}
	if !(size >= 1e-6 && size < maxUnits) {
		return 0, 0
	}
	last := firstPower(size) - int(r.figures) + 1
	if last > 0 {
		return uint64(tens[maxPower+last]), 0
	}
	return 1, -last
}

// units returns size in units of the last decimal, as a whole number of steps. It
// compares size with the tie after n steps; a size within slack and within a thousandth
// of a step counts as the tie. An n that is wrong by one does no harm: size is then
// next to a whole number of steps, and the ties on both sides lead to that.
func (r Rule) units(size float64, step uint64, places int, slack float64) uint64 {
	n := uint64(size * tens[maxPower+places] / float64(step))
	tie := float64(10*n*step+5*step) / tens[maxPower+places+1]
	if math.Abs(size-tie) <= min(slack*tie, 0.001*float64(step)/tens[maxPower+places]) {
		size = tie
	}
	if size > tie || size == tie && (r.tie == Away || n%2 == 1) {
		n++
	}
	return n * step
}

// shortRoom is the space appendShort needs: nine bytes, and eight written at once after
// the point.
const shortRoom = 17

// appendShort is appendFixed for units below 10^8 and at most seven places.
func appendShort(dst []byte, units uint64, places int) []byte {
	n := places + 1
	for units >= whole[n&15] {
		n++
	}
	text := eightDigits(units) >> (8 * (8 - n) & 63)
	room := dst[len(dst) : len(dst)+shortRoom]
	binary.LittleEndian.PutUint64(room, text)
	if places == 0 {
		return dst[:len(dst)+n]
	}
	before := n - places
	room[before] = '.'
	binary.LittleEndian.PutUint64(room[before+1:], text>>(8*before&63))
	return dst[:len(dst)+n+1]
}

// eightDigits returns the digits of n, below 10^8, as bytes, the first digit lowest. It
// separates halves, pairs and digits, each in lanes of one word.
func eightDigits(n uint64) uint64 {
	n = n/1e4 | n%1e4<<32
	pairs := n * 5243 >> 19 & 0x0000007f_0000007f // by 100, for what is below 10^4
	n = pairs | (n-100*pairs)<<16
	digits := n * 103 >> 10 & 0x000f_000f_000f_000f // by 10, for what is below 100
	return digits | (n-10*digits)<<8 | 0x3030303030303030
}

// appendFixed appends units with a point before the last places digits. It writes in
// place, from the last digit to the first.
func appendFixed(dst []byte, units uint64, places int) []byte {
	n := places + 1
	for n < len(whole) && units >= whole[n] {
		n++
	}
	from := len(dst)
	if places > 0 {
		dst = slices.Grow(dst, n+1)[:from+n+1]
	} else {
		dst = slices.Grow(dst, n)[:from+n]
	}
	i := len(dst)
	for range places {
		i--
		dst[i] = byte('0' + units%10)
		units /= 10
	}
	if places > 0 {
		i--
		dst[i] = '.'
	}
	for i > from {
		i--
		dst[i] = byte('0' + units%10)
		units /= 10
	}
	return dst
}

// whole holds the powers of ten that fit a uint64.
var whole = [...]uint64{
	1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
}
