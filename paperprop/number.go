package paperprop

import (
	"math"
	"math/big"
	"math/bits"
	"strings"
)

// Longer numbers and larger exponents are refused before any arithmetic: exact
// arithmetic with a huge exponent would never end.
const (
	maxLength   = 64
	maxExponent = 400
)

// A decimal is a number as read: digits·10^exponent.
type decimal struct {
	digits   uint64
	exponent int
	negative bool
	long     bool // more digits than every uint64 can hold: digits is invalid
}

// scan reads the number at the start of text and returns where it ends. The reason is
// empty if a number was read.
func scan[T string | []byte](text T, point byte) (d decimal, end int, reason string) {
	i := 0
	if i < len(text) && text[i] == '-' {
		d.negative = true
		i++
	} else if i+2 < len(text) && text[i] == 0xE2 && text[i+1] == 0x88 && text[i+2] == 0x92 { // the minus sign −
		d.negative = true
		i += 3
	}
	start, fraction := i, 0
	for ; i < len(text) && text[i]-'0' <= 9; i++ {
		d.digits = d.digits*10 + uint64(text[i]-'0')
	}
	count := i - start
	if i < len(text) && text[i] == point {
		i++
		first := i
		for ; i < len(text) && text[i]-'0' <= 9; i++ {
			d.digits = d.digits*10 + uint64(text[i]-'0')
		}
		fraction = i - first
		if fraction == 0 {
			return d, i, noDigits(string(text), count, i)
		}
	}
	if count += fraction; count == 0 {
		return d, i, noDigits(string(text), 0, i)
	}
	d.exponent, d.long = -fraction, count > 19
	if i < len(text) && text[i]|0x20 == 'e' {
		if e, next := scanExponent(text, i+1); next > 0 {
			d.exponent, i = d.exponent+e, next
			if e > maxExponent || e < -maxExponent {
				return d, i, "exponent beyond ±400"
			}
		}
	}
	if i > maxLength {
		return d, i, "longer than 64 characters"
	}
	return d, i, ""
}

// scanExponent reads the exponent at text[i:]; next is 0 if there is none.
func scanExponent[T string | []byte](text T, i int) (e, next int) {
	negative := false
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		negative = text[i] == '-'
		i++
	}
	start := i
	for ; i < len(text) && text[i]-'0' <= 9; i++ {
		e = min(e*10+int(text[i]-'0'), 10*maxExponent)
	}
	if i == start {
		return 0, 0
	}
	if negative {
		e = -e
	}
	return e, i
}

// noDigits returns the reason why text has no number that ends before text[i:].
func noDigits(text string, count, i int) string {
	rest := text[i:]
	switch {
	case count > 0 && strings.HasPrefix(rest, "."):
		return "a range, want one number"
	case count > 0:
		return "no digit after the decimal sign"
	case strings.HasPrefix(rest, "+"):
		return "a leading +, leave it out"
	case strings.HasPrefix(rest, "["):
		return "a list, want one number"
	case strings.HasPrefix(rest, ","):
		return "a comma, want a decimal point and digits"
	case strings.TrimSpace(text) == "":
		return "empty"
	}
	return "no digits"
}

// tail returns what is wrong with the text after a number, where only a unit may
// follow. It is empty if no fault is recognised.
func tail(text string, end int, point byte) string {
	if end >= len(text) || end == 0 {
		return ""
	}
	rest := text[end:]
	digit := len(rest) > 1 && rest[1]-'0' <= 9
	switch {
	case strings.Contains(rest, "±"), strings.Contains(rest, "+-"), strings.Contains(rest, "+/-"):
		return "an uncertainty, want the value alone"
	case rest[0] == '_':
		return "_ between digits, leave it out"
	case rest[0] == '/' && digit:
		return "a fraction, want a decimal number"
	case rest[0] == '\'' && digit && strings.ContainsAny(rest, "\"″"):
		return "feet and inches, want one number with one unit"
	case rest[0] == '\'' && digit:
		return "' between digits, leave it out"
	case rest[0] == ',' && point == '.' && digit:
		return comma(text, end)
	case rest[0] == '.' && point == ',' && digit:
		return "a point where the decimal sign is a comma"
	case rest[0] == point && point == '.':
		return "two points, want one number"
	case rest[0] == point:
		return "two commas, want one number"
	}
	return ""
}

// ungrouped returns the number with which text begins, of which text[:end] is read, if
// blanks part it into thousands: 1234.5 for "1 234,5 kg". Otherwise it is "".
func ungrouped(text string, end int) string {
	whole := text[:end]
	if strings.Trim(whole, "-0123456789") != "" || len(strings.TrimPrefix(whole, "-")) > 3 {
		return ""
	}
	rest, groups := text[end:], 0
	for ; strings.HasPrefix(rest, " ") && digits(rest[1:]) == 3; groups++ {
		whole, rest = whole+rest[1:4], rest[4:]
	}
	if groups == 0 {
		return ""
	}
	if rest != "" && (rest[0] == '.' || rest[0] == ',') && digits(rest[1:]) > 0 {
		whole += "." + rest[1:1+digits(rest[1:])]
	}
	return whole
}

// digits returns how many digits text begins with.
func digits(text string) int { return len(text) - len(strings.TrimLeft(text, "0123456789")) }

// comma returns how to write a number that has a comma at text[i].
func comma(text string, i int) string {
	end := i
	for end < len(text) && strings.IndexByte("0123456789,.", text[end]) >= 0 {
		end++
	}
	number := text[:end]
	point := number[:i] + "." + number[i+1:]
	switch {
	case strings.Contains(number[:i], ".") && strings.Count(number, ",") == 1: // 1.234,5
		return "points between digits and a decimal comma, write " + strings.ReplaceAll(number[:i], ".", "") + "." + number[i+1:]
	case strings.Count(number, ",") > 1 || strings.Contains(number, "."):
		return "commas between digits, write " + strings.ReplaceAll(number, ",", "")
	case end-i == 4 && strings.Trim(number[:i], "-0") != "":
		return "a comma that can be read two ways, write " + point + " or " + strings.ReplaceAll(number, ",", "")
	}
	return "decimal comma, write " + point
}

// Powers of 5 and of 10 that fit a uint64.
var (
	fives = [28]uint64{
		1, 5, 25, 125, 625, 3125, 15625, 78125, 390625, 1953125, 9765625, 48828125, 244140625, 1220703125, 6103515625,
		30517578125, 152587890625, 762939453125, 3814697265625, 19073486328125, 95367431640625, 476837158203125,
		2384185791015625, 11920928955078125, 59604644775390625, 298023223876953125, 1490116119384765625, 7450580596923828125,
	}
	tens = [20]uint64{
		1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
	}
)

// Whole numbers below exactFloat are exact in a float64, so a quotient of two is
// rounded once.
const exactFloat = 1 << 53

// times returns d·r, rounded once. It reports false if 128 bits are not enough.
func (d decimal) times(r ratio) (float64, bool) {
	if d.long {
		return 0, false
	}
	high, low := bits.Mul64(d.digits, r.num)
	if e := -d.exponent; high == 0 && low < exactFloat && uint(e) < uint(len(tens)) {
		if over, den := bits.Mul64(r.den, tens[e]); over == 0 && den < exactFloat {
			return d.signed(float64(low) / float64(den)), true
		}
	}
	return d.wide(high, low, r.den)
}

// wide returns high:low/den·10^exponent, rounded once.
func (d decimal) wide(high, low, den uint64) (float64, bool) {
	if high|low == 0 {
		return 0, true
	}
	e := d.exponent
	switch {
	case e >= len(fives) || e <= -len(fives):
		return 0, false
	case e >= 0:
		over, high2 := bits.Mul64(high, fives[e])
		carry, low2 := bits.Mul64(low, fives[e])
		sum, overflow := bits.Add64(high2, carry, 0)
		if over|overflow != 0 {
			return 0, false
		}
		high, low = sum, low2
	default:
		over, product := bits.Mul64(den, fives[-e])
		if over != 0 {
			return 0, false
		}
		den = product
	}
	return d.signed(quotient(high, low, den, e)), true
}

// shifted returns (d·num + shift)/den of a temperature, rounded once. It reports false
// if a numerator or denominator is not exact in a float64.
func (d decimal) shifted(u *unit) (float64, bool) {
	e := -d.exponent
	if d.long || uint(e) > 10 {
		return 0, false
	}
	over, n := bits.Mul64(d.digits, u.exact.num)
	if over != 0 || n >= exactFloat {
		return 0, false
	}
	sum := float64(u.shift) * float64(tens[e])
	if d.negative {
		sum -= float64(n)
	} else {
		sum += float64(n)
	}
	den := float64(u.exact.den) * float64(tens[e])
	if sum >= exactFloat || sum <= -exactFloat {
		return 0, false
	}
	return sum / den, true
}

func (d decimal) signed(x float64) float64 {
	if d.negative && x != 0 {
		return -x
	}
	return x
}

// quotient returns high:low/den·2^e, rounded once to the nearest, ties to
// even. The result is far from the ends of the range of float64.
func quotient(high, low, den uint64, e int) float64 {
	// Dividend and divisor get their top bit set, so the quotient has 64 bits.
	if high == 0 {
		high, low, e = low, 0, e-64
	}
	n := bits.LeadingZeros64(high)
	high, low, e = high<<n|low>>(64-n), low<<n, e-n
	n = bits.LeadingZeros64(den)
	den, e = den<<n, e+n
	lost := uint64(0)
	if high >= den {
		lost = low & 1
		high, low, e = high>>1, low>>1|high<<63, e+1
	}
	q, remainder := bits.Div64(high, low, den)
	const dropped, half = 11, 1 << 10
	kept, rest := q>>dropped, q&(1<<dropped-1)
	if rest > half || rest == half && (remainder|lost != 0 || kept&1 == 1) {
		kept++
	}
	return float64(kept) * math.Float64frombits(uint64(e+dropped+1023)<<52)
}

// LeadingNumber returns the number at the start of text, exactly as written: 4.05 for
// "4.05(2) %". It reports false if there is none, or one that [ParseNumber] would
// refuse.
func LeadingNumber(text string) (*big.Rat, bool) {
	_, end, reason := scan(text, '.')
	if reason != "" {
		return nil, false
	}
	return rat(text[:end], '.'), true
}

// rat returns the exact value of a number that scan accepted.
func rat(text string, point byte) *big.Rat {
	text = strings.Replace(text, "−", "-", 1)
	if point != '.' {
		text = strings.Replace(text, string(point), ".", 1)
	}
	x, _ := new(big.Rat).SetString(text)
	return x
}
