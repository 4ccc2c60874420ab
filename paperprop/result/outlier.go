package result

import (
	"math"
	"math/big"
	"slices"
)

// GrubbsLimit returns the critical value of Grubbs' test for count readings: how many
// standard deviations a suspect reading may lie from the mean. The significance is a
// fraction between 0 and 1; either makes the test two-sided, with half of it on each
// side. The result is NaN for fewer than 3 readings and for any other significance.
func GrubbsLimit(count int, significance float64, either bool) float64 {
	n := float64(count)
	if either {
		n *= 2
	}
	if count < 3 || !(significance > 0 && significance < 1) {
		return math.NaN()
	}
	t := StudentT(significance/n, float64(count-2)) // negative, but only its square is used
	n = float64(count)
	return GrubbsLargest(count) * math.Sqrt(t*t/(n-2+t*t))
}

// GrubbsLargest returns the largest possible value of Grubbs' statistic for count
// readings. It is NaN for fewer than 3, as [GrubbsLimit] is.
func GrubbsLargest(count int) float64 {
	if count < 3 {
		return math.NaN()
	}
	return float64(count-1) / math.Sqrt(float64(count))
}

// A DixonRatio is a statistic of Dixon's test: a gap over a range. In R21, for
// instance, the gap is from the suspect reading to the second one after it, and the
// range leaves out one reading at the other end.
type DixonRatio uint8

// The ratios of Dixon's test. The zero value is R10.
const (
	R10 DixonRatio = iota
	R11
	R21
	R22
)

// DixonRatioOf returns the ratio to use for count readings.
func DixonRatioOf(count int) DixonRatio {
	switch {
	case count <= 7:
		return R10
	case count <= 10:
		return R11
	case count <= 13:
		return R21
	}
	return R22
}

// Least returns the smallest number of readings for which the ratio means anything:
// with one fewer, the gap is the whole range.
func (r DixonRatio) Least() int { return int(3 + r) }

// Of returns the ratio with the highest reading of x as the suspect, or the lowest if
// highest is false. The readings count as their shortest texts and the ratio is rounded
// once, so that one that equals a critical value of the table is not above it. It
// reports false if there are too few readings, or if the range in the ratio is zero or
// not finite.
func (r DixonRatio) Of(x []float64, highest bool) (float64, bool) {
	if len(x) < r.Least() || r > R22 {
		return 0, false
	}
	sorted := slices.Sorted(slices.Values(x))
	if highest {
		slices.Reverse(sorted)
	}
	next, last := 1, len(sorted)-1
	if r >= R21 {
		next = 2
	}
	switch r {
	case R11, R21:
		last--
	case R22:
		last -= 2
	}
	if extent := sorted[last] - sorted[0]; extent == 0 || !(math.Abs(extent) <= math.MaxFloat64) {
		return 0, false
	}
	from := func(reading float64) *big.Rat {
		return new(big.Rat).Sub(Exact(reading).Rat(), Exact(sorted[0]).Rat())
	}
	ratio, _ := new(big.Rat).Quo(from(sorted[next]), from(sorted[last])).Float64()
	return ratio, true
}

// dixonLimits holds the critical values for 3 to 30 readings at 5 %, one-sided, each
// for the ratio that suits its count (Dixon 1951).
var dixonLimits = [...]float64{
	0.941, 0.765, 0.642, 0.560, 0.507, // R10
	0.554, 0.512, 0.477, // R11
	0.576, 0.546, 0.521, // R21
	0.546, 0.525, 0.507, 0.490, 0.475, 0.462, 0.450, 0.440, 0.430, // R22
	0.421, 0.413, 0.406, 0.399, 0.393, 0.387, 0.381, 0.376,
}

// DixonLimit returns the critical value of Dixon's test for 3 to 30 readings, at 5 %
// and one-sided, for the ratio that suits the count. For any other count it is NaN. The
// table of 1951 differs by up to 0.002 from the exact distribution.
func DixonLimit(count int) float64 {
	if count < 3 || count-3 >= len(dixonLimits) {
		return math.NaN()
	}
	return dixonLimits[count-3]
}
