package result

import (
	"math"
	"slices"
	"strconv"
)

// A Summary holds the statistics of readings. A statistic that the readings cannot give
// is nil, never 0: for a single reading all but the mean and the extremes.
type Summary struct {
	Count                  int
	Mean, Minimum, Maximum float64
	Median                 *float64 // nil from [Running], which keeps no readings
	Range                  *float64 // Maximum − Minimum
	StandardDeviation      *float64 // divisor n − 1
	CoefficientOfVariation *float64 // StandardDeviation/Mean, a fraction; nil unless the mean is above zero
	HalfWidth              *float64 // of the confidence interval of the mean, by Student's t
	Lower, Upper           *float64 // the ends of that interval
	CriticalDifference     *float64 // the difference of two single readings stays within it with the given confidence
	Autocorrelation        *float64 // of successive readings; far from zero the interval is wrong. Nil if all readings are equal, and from Running
}

// Summarise returns the summary of the readings x, with an interval of the given
// confidence, above 0.5 and below 1. It accepts readings up to 1e140 in size and does
// not change x. Its errors are [InputError].
func Summarise(x []float64, confidence float64) (Summary, error) {
	for i, v := range x {
		if !usable(v) {
			return Summary{}, refuse(i+1, v)
		}
	}
	d := deviate(x)
	s, err := summarise(len(x), d.mean.value(), d.minimum, d.maximum, d.squares.value(), confidence)
	if err != nil {
		return Summary{}, err
	}
	middle := median(x)
	s.Median = &middle
	if s.Maximum > s.Minimum {
		neighbours := d.lagged.value() / d.squares.value()
		s.Autocorrelation = &neighbours
	}
	return s, nil
}

// Beyond these limits the squares of readings, or of their distances, overflow or
// vanish.
const (
	maxReading = 1e140
	minRange   = 1e-140
)

func usable(reading float64) bool { return math.Abs(reading) <= maxReading }

func refuse(position int, reading float64) error {
	return &InputError{"reading " + strconv.Itoa(position), number(reading), "a number up to 1e140 in size"}
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// summarise computes what follows from the mean, the extremes and the sum of squared
// distances from the mean.
func summarise(count int, mean, minimum, maximum, squares, confidence float64) (Summary, error) {
	extent := maximum - minimum
	switch {
	case !(confidence > 0.5 && confidence < 1):
		return Summary{}, &InputError{"confidence", number(confidence), "above 0.5 and below 1"}
	case count == 0:
		return Summary{}, &InputError{"the number of readings", "0", "at least 1"}
	case extent > 0 && extent < minRange:
		return Summary{}, &InputError{"the range of the readings", number(extent), "0, or at least 1e-140"}
	}
	s := Summary{Count: count, Mean: mean, Minimum: minimum, Maximum: maximum}
	if count > 1 {
		s.spread(extent, squares, confidence)
	}
	return s, nil
}

// spread fills in the statistics that need two or more readings.
func (s *Summary) spread(extent, squares, confidence float64) {
	if extent == 0 {
		squares = 0 // drops what rounding of the mean left
	}
	n, upper := float64(s.Count), 0.5+confidence/2
	deviation := math.Sqrt(squares / (n - 1))
	half := StudentT(upper, n-1) * deviation / math.Sqrt(n)
	lower, higher := s.Mean-half, s.Mean+half
	critical := Normal(upper) * math.Sqrt2 * deviation
	s.Range, s.StandardDeviation, s.HalfWidth = &extent, &deviation, &half
	s.Lower, s.Upper, s.CriticalDifference = &lower, &higher, &critical
	if variation := deviation / s.Mean; s.Mean > 0 && !math.IsInf(variation, 0) {
		s.CoefficientOfVariation = &variation
	}
}

func median(x []float64) float64 {
	sorted := slices.Sorted(slices.Values(x))
	middle := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[middle]
	}
	return (sorted[middle-1] + sorted[middle]) / 2
}
