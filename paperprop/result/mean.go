package result

import "math"

// A sum is a sum of float64s held in two parts, high + low, so that it loses nothing
// visible however many terms it has.
type sum struct{ high, low float64 }

// add adds x, and keeps in low what rounding would lose (Neumaier's summation).
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

// over returns s/n, again in two parts.
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

// Mean returns the mean of x, rounded once: the sum is compensated. It accepts values
// up to 1e300 in size, and is NaN if x is empty.
func Mean(x []float64) float64 { return total(x).over(float64(len(x))).value() }

// StandardDeviation returns the sample standard deviation of x (divisor n − 1). It
// reports false for fewer than two values. It accepts values up to 1e140 in size.
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

// deviations holds sums of the distances of values from their mean. Because the mean is
// in two parts, the sums need no correction for its rounding.
type deviations struct {
	mean             sum
	minimum, maximum float64
	squares          sum // Σd²
	lagged           sum // Σd·(next d)
}

// deviate makes two passes over x: one for the mean, one for the distances from it.
func deviate(x []float64) deviations {
	d := deviations{mean: total(x).over(float64(len(x)))}
	last := 0.0
	for i, v := range x {
		if i == 0 {
			d.minimum, d.maximum = v, v
		}
		d.minimum, d.maximum = min(d.minimum, v), max(d.maximum, v)
		distance := v - d.mean.high - d.mean.low
		// The conversion rounds the product first, so that it is not fused with the
		// sum.
		d.squares.add(float64(distance * distance))
		d.lagged.add(float64(last * distance))
		last = distance
	}
	return d
}
