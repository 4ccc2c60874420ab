package result

import "math"

// A Line is a least-squares straight line through points.
type Line struct {
	Count        int
	MeanX, MeanY float64 // a point of the line
	Slope        float64
	Squares      float64 // Σ(x − MeanX)²
	Deviation    float64 // residual standard deviation, with Count − 2 degrees of freedom; 0 where only rounding is left
}

// FitLine returns the least-squares line through the points (x, y), with all errors in
// y. It reports false for fewer than three points, for lists of different length, for
// equal x throughout, and if a number is not finite.
func FitLine(x, y []float64) (Line, bool) {
	if len(x) < 3 || len(y) != len(x) {
		return Line{}, false
	}
	n := float64(len(x))
	meanX, meanY := total(x).over(n), total(y).over(n)
	from := func(v float64, mean sum) float64 { return v - mean.high - mean.low }
	var squares, products, rests sum
	for i := range x {
		dx := from(x[i], meanX)
		squares.add(float64(dx * dx))
		products.add(float64(dx * from(y[i], meanY)))
	}
	l := Line{Count: len(x), MeanX: meanX.value(), MeanY: meanY.value(), Squares: squares.value()}
	if !(l.Squares > 0) {
		return Line{}, false
	}
	l.Slope = products.value() / l.Squares
	straight := true // as far as float64s tell
	for i := range x {
		rest := from(y[i], meanY) - l.Slope*from(x[i], meanX)
		rests.add(float64(rest * rest))
		straight = straight && math.Abs(rest) <= LastDigits*(math.Abs(y[i])+math.Abs(l.Slope*x[i]))
	}
	if l.Deviation = math.Sqrt(rests.value() / (n - 2)); !(l.Deviation <= math.MaxFloat64) {
		return Line{}, false
	}
	if straight {
		l.Deviation = 0
	}
	return l, true
}

// At returns the y of the line at x.
func (l Line) At(x float64) float64 { return l.MeanY + l.Slope*(x-l.MeanX) }

// Uncertainty returns the standard uncertainty of the line at x, including the
// correlation of intercept and slope. A single further reading has a larger one.
func (l Line) Uncertainty(x float64) float64 { return l.Deviation * l.lever(x) }

// lever returns Uncertainty over Deviation.
func (l Line) lever(x float64) float64 {
	return math.Hypot(1/math.Sqrt(float64(l.Count)), (x-l.MeanX)/math.Sqrt(l.Squares))
}

// SlopeUncertainty returns the standard uncertainty of the slope.
func (l Line) SlopeUncertainty() float64 { return l.Deviation / math.Sqrt(l.Squares) }

// Correlation returns the correlation coefficient of the slope with the value of the
// line at x.
func (l Line) Correlation(x float64) float64 {
	return (x - l.MeanX) / math.Sqrt(l.Squares) / l.lever(x)
}
