package result

import "math"

// A sum is a sum of float64s kept as one number in two parts, high + low, so
// that nothing visible is lost however many terms there are.
type sum struct{ high, low float64 }

// add adds x, and carries on what rounding takes from the larger of the two
// (Neumaier's summation).
func (s *sum) add(x float64) {
	high := s.high + x
	if math.Abs(s.high) >= math.Abs(x) {
		s.low += s.high - high + x
	} else {
		s.low += x - high + s.high
	}
	s.high = high
}

func (s sum) value() float64 { return s.high + s.low }

// over returns s/n, in two parts again.
func (s sum) over(n float64) sum {
	high := s.value() / n
	rest := math.FMA(-high, n, s.high) + s.low
	return sum{high, rest / n}
}

func total(x []float64) (s sum) {
	for _, v := range x {
		s.add(v)
	}
	return s
}

// Mean returns the mean of x, rounded once: sums are compensated. It is NaN
// where there are no values, and takes values up to 1e300 in size.
func Mean(x []float64) float64 { return total(x).over(float64(len(x))).value() }

// StandardDeviation returns the standard deviation of x about its mean, with
// n − 1; false where there are fewer than two values. It takes values up to
// 1e140 in size.
func StandardDeviation(x []float64) (float64, bool) {
	if len(x) < 2 {
		return 0, false
	}
	d := deviate(x)
	if d.minimum == d.maximum {
		return 0, true
	}
	return math.Sqrt(d.squares.value() / float64(len(x)-1)), true
}

// deviations are what the distances of values from their mean add up to. With
// a mean in two parts they need no correction for its rounding.
type deviations struct {
	mean             sum
	minimum, maximum float64
	squares          sum // Σd²
	lagged           sum // Σd·(next d)
}

// deviate goes through x twice: for the mean, and for the distances from it.
func deviate(x []float64) deviations {
	d := deviations{mean: total(x).over(float64(len(x)))}
	last := 0.0
	for i, v := range x {
		if i == 0 {
			d.minimum, d.maximum = v, v
		}
		d.minimum, d.maximum = min(d.minimum, v), max(d.maximum, v)
		distance := v - d.mean.high - d.mean.low
		// A product that is rounded first, lest it be fused with the sum.
		d.squares.add(float64(distance * distance))
		d.lagged.add(float64(last * distance))
		last = distance
	}
	return d
}
