package result

import (
	"math"
	"slices"
)

// GrubbsLimit returns the critical value of Grubbs' test among count readings:
// how many standard deviations the suspect one may lie from the mean. The
// significance is a fraction between 0 and 1; of a test on either side it is
// shared between the two. It is NaN for fewer than 3 readings, and for any other
// significance.
func GrubbsLimit(count int, significance float64, either bool) float64 {
	n := float64(count)
	if either {
		n *= 2
	}
	if count < 3 || !(significance > 0 && significance < 1) {
		return math.NaN()
	}
	t := StudentT(significance/n, float64(count-2)) // below zero; its square counts
	n = float64(count)
	return GrubbsLargest(count) * math.Sqrt(t*t/(n-2+t*t))
}

// GrubbsLargest returns the largest statistic that count readings can have.
func GrubbsLargest(count int) float64 { return float64(count-1) / math.Sqrt(float64(count)) }

// A DixonRatio says which readings Dixon's test compares: R21 takes the gap from
// the suspect to the second reading after it, over the range without one reading
// at the other end.
type DixonRatio uint8

// The ratios of Dixon's test. The zero one is R10.
const (
	R10 DixonRatio = iota
	R11
	R21
	R22
)

// DixonRatioOf returns the ratio meant for count readings.
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

// Least returns how many readings the ratio needs to say anything: with one
// fewer the gap is the whole range.
func (r DixonRatio) Least() int { return int(3 + r) }

// Of returns the ratio for the highest reading of x, or the lowest, which is
// suspected. It is false where there are too few readings, or the range in the
// ratio is zero or no number.
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
	extent := sorted[last] - sorted[0]
	if extent == 0 || !(math.Abs(extent) <= math.MaxFloat64) {
		return 0, false
	}
	return (sorted[next] - sorted[0]) / extent, true
}

// dixonLimits are the critical values for 3 to 30 readings, 5 % on one side,
// each for the ratio of its count (Dixon 1951).
var dixonLimits = [...]float64{
	0.941, 0.765, 0.642, 0.560, 0.507, // R10
	0.554, 0.512, 0.477, // R11
	0.576, 0.546, 0.521, // R21
	0.546, 0.525, 0.507, 0.490, 0.475, 0.462, 0.450, 0.440, 0.430, // R22
	0.421, 0.413, 0.406, 0.399, 0.393, 0.387, 0.381, 0.376,
}

// DixonLimit returns the critical value of Dixon's test among 3 to 30 readings,
// at 5 % on one side, for the ratio of that count; NaN for another count. The
// table of 1951 is up to 0.002 off the exact distribution.
func DixonLimit(count int) float64 {
	if count < 3 || count-3 >= len(dixonLimits) {
		return math.NaN()
	}
	return dixonLimits[count-3]
}
