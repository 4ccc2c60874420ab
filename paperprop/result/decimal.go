package result

import (
	"bytes"
	"math"
	"math/big"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// Numbers beyond these limits are refused before any arithmetic: decimal arithmetic on
// a huge exponent never ends.
const (
	maxLength   = 64
	maxExponent = 400
)

// ParseDecimal reads a plain number exactly: an optional sign (- or −), digits with at
// most one point that a digit follows, and an optional exponent. It protects all
// decimal arithmetic, and so accepts at most 64 bytes and exponents to ±400. Its errors
// are [InputError].
func ParseDecimal(text string) (decimal.Decimal, error) {
	if want := fault(text); want != "" {
		return decimal.Decimal{}, &InputError{"number", quote(text), want}
	}
	return decimal.NewFromString(text)
}

// fault returns what ParseDecimal would accept instead of text; it is empty if text is
// acceptable.
func fault(text string) string {
	if len(text) > maxLength {
		return "at most 64 bytes"
	}
	mantissa, exponent := text, "0"
	if i := strings.IndexAny(text, "eE"); i >= 0 {
		mantissa, exponent = text[:i], text[i+1:]
	}
	if !isMantissa(mantissa) || !isExponent(exponent) {
		return "digits with at most one decimal point, such as 4.05 or -1.2e3"
	}
	if e, err := strconv.Atoi(exponent); err != nil || e > maxExponent || e < -maxExponent {
		return "an exponent from -400 to 400"
	}
	return ""
}

// isMantissa accepts "-4.0", "4" and ".5", but not "5.", which may begin a range.
func isMantissa(text string) bool {
	text = strings.TrimPrefix(strings.TrimPrefix(text, "\u2212"), "-")
	whole, fraction, point := strings.Cut(text, ".")
	if !point {
		return isDigits(whole)
	}
	return (whole == "" || isDigits(whole)) && isDigits(fraction)
}

func isExponent(text string) bool {
	if text != "" && (text[0] == '+' || text[0] == '-') {
		text = text[1:]
	}
	return isDigits(text)
}

func isDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return text != ""
}

func quote(text string) string {
	if len(text) > maxLength {
		return strconv.Quote(text[:maxLength]) + "..."
	}
	return strconv.Quote(text)
}

// Exact returns the decimal of the shortest text of x: 2.675, not the
// 2.67499999999999982… of the float64. It accepts any finite x; for NaN and the
// infinities, which have no decimal, it returns 0.
func Exact(x float64) decimal.Decimal {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return decimal.Decimal{}
	}
	digits, exponent := shortest(x)
	return decimal.New(digits, exponent)
}

// FromRat returns x as a decimal, and whether x is a finite decimal: 1/8 is 0.125, 1/3
// is not one.
func FromRat(x *big.Rat) (d decimal.Decimal, ends bool) {
	places, ends := x.FloatPrec()
	if !ends {
		return d, false
	}
	digits := new(big.Int).Mul(x.Num(), powerOfTen(int32(places)))
	return decimal.NewFromBigInt(digits.Quo(digits, x.Denom()), -int32(places)), true
}

// shortest returns the shortest text of a finite x as digits·10^exponent.
func shortest(x float64) (digits int64, exponent int32) {
	var buffer [32]byte
	text := strconv.AppendFloat(buffer[:0], x, 'e', -1, 64)
	e := bytes.IndexByte(text, 'e')
	power, _ := strconv.Atoi(string(text[e+1:])) // as strconv wrote it
	point := e
	for i, c := range text[:e] {
		switch c {
		case '-':
		case '.':
			point = i + 1
		default:
			digits = digits*10 + int64(c-'0')
		}
	}
	if x < 0 {
		digits = -digits
	}
	return digits, int32(power - (e - point))
}
