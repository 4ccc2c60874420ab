package result

import "math"

// Correlation returns the correlation coefficient of paired readings, from -1 to 1. It
// is 0 if x or y does not vary, and NaN if the lists differ in length or a reading is
// not finite.
func Correlation(x, y []float64) float64 {
	if len(x) != len(y) {
		return math.NaN()
	}
	mx, my := Mean(x), Mean(y)
	farX, farY := farthest(x, mx), farthest(y, my)
	switch {
	case !(farX <= math.MaxFloat64 && farY <= math.MaxFloat64):
		return math.NaN()
	case farX == 0 || farY == 0:
		return 0
	}
	var xx, yy, xy sum
	for i := range x {
		dx, dy := (x[i]-mx)/farX, (y[i]-my)/farY // scaled so that squares neither overflow nor vanish
		xx.add(dx * dx)
		yy.add(dy * dy)
		xy.add(dx * dy)
	}
	return max(-1, min(1, xy.value()/(math.Sqrt(xx.value())*math.Sqrt(yy.value()))))
}

// farthest returns the largest distance of a reading from the mean; NaN if a reading is
// NaN.
func farthest(readings []float64, mean float64) float64 {
	far := 0.0
	for _, v := range readings {
		far = max(far, math.Abs(v-mean))
	}
	return far
}
