package trim

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
)

// grain is the number of decimals of a millimetre that a width may have: a 64th of
// an inch has six.
const grain = 9

// lastDigits is the error, in units in the last place, that a few steps of float64
// arithmetic may leave: 69.875 times 25.4 mm is 1774.8249999999998 mm.
const lastDigits = 4

// exact returns a length in whole grains, from its shortest decimal text. A number
// that differs only in its last digits from one with few enough decimals counts as
// that one.
func exact(l paperprop.Length) (int64, error) {
	x := l.In(paperprop.Millimetre)
	whole, part, _ := strings.Cut(strconv.FormatFloat(x, 'f', -1, 64), ".")
	if len(part) > grain {
		text := strconv.FormatFloat(x, 'f', grain, 64)
		near, _ := strconv.ParseFloat(text, 64) // digits and a point
		if size := math.Abs(x); math.Abs(near-x) > lastDigits*(math.Nextafter(size, math.Inf(1))-size) {
			return 0, fmt.Errorf("width is %v, want at most %d decimals of a mm", l, grain)
		}
		whole, part, _ = strings.Cut(text, ".")
	}
	n, err := strconv.ParseInt(whole+part+strings.Repeat("0", grain-len(part)), 10, 64)
	if longest := 100 * paperprop.Kilometre; err != nil || l > longest {
		return 0, fmt.Errorf("width is %v, want at most %v", l, longest)
	}
	return n, nil
}

// length is the inverse of exact.
func length(n int64) paperprop.Length { return lengths(n, 1) }

// lengths returns the length of n times so many grains. The product may exceed an
// int64.
func lengths(n, times int64) paperprop.Length { return sumOf(new(big.Int), n, times) }

// sumOf adds n times so many grains to sum, and returns the sum as a length.
func sumOf(sum *big.Int, n, times int64) paperprop.Length {
	sum.Add(sum, new(big.Int).Mul(big.NewInt(n), big.NewInt(times)))
	text := fmt.Sprintf("%0*d", grain+1, new(big.Int).Abs(sum))
	if sum.Sign() < 0 {
		text = "-" + text
	}
	at := len(text) - grain
	x, _ := strconv.ParseFloat(text[:at]+"."+text[at:], 64) // digits and a point
	return paperprop.Length(x) * paperprop.Millimetre
}

// clean returns a length as a plan reports it: without the rounding of arithmetic.
func clean(l paperprop.Length) paperprop.Length {
	if n, err := exact(l); err == nil {
		return length(n)
	}
	return l
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
