package result

import "math"

// StudentizedRange returns the value below which the range of count normally
// distributed readings, of known standard deviation 1, lies with the given probability,
// between 0 and 1, correct to 10 digits. It is the factor from a standard deviation to
// a critical difference of several results: 2.77 for two results at 0.95. It is NaN for
// any other probability and for a count outside 2 to 1000.
func StudentizedRange(probability float64, count int) float64 {
	if !(probability > 0 && probability < 1) || count < 2 || count > 1000 {
		return math.NaN()
	}
	n, beyond := float64(count), 1-probability
	// The probability that some pair lies this far apart is an upper bound.
	w := -math.Sqrt2 * Normal(beyond/(n*(n-1)))
	for range 1000 {
		tail, density := rangeTail(w, n)
		// The logarithm of the tail is concave: from above, Newton's method descends to
		// the root and never passes it.
		step := math.Log(tail/beyond) * tail / density
		w += step
		if math.Abs(step) < 1e-10*w {
			break
		}
	}
	return w
}

// rangeTail returns the probability that the range of n readings exceeds w, and its
// density at w, as integrals over the largest reading. The integrands are analytic and
// vanish at both ends, so a sum of equal steps is correct to the last digits.
func rangeTail(w, n float64) (tail, density float64) {
	const step, low, high = 1.0 / 8, -8, 12
	for i := range int((high - low) / step) {
		z := low + step*float64(i)
		below, far := normalBelow(z), normalBelow(z-w)
		all := normalDensity(z) * math.Pow(below, n-1)
		share := far / below
		if all == 0 || share >= 1 {
			continue
		}
		rest := (n - 1) * math.Log1p(-share)
		tail -= all * math.Expm1(rest)
		density += all * normalDensity(z-w) / below * math.Exp(rest) / (1 - share)
	}
	return tail * n * step, density * n * (n - 1) * step
}

func normalBelow(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
