package result

import "math"

// Correlation returns that of readings taken in pairs, -1 to 1; 0 where one of
// the two does not vary. It is NaN for lists that are not as long as each other.
func Correlation(x, y []float64) float64 {
	if len(x) != len(y) {
		return math.NaN()
	}
	mx, my := Mean(x), Mean(y)
	var xx, yy, xy sum
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		xx.add(dx * dx)
		yy.add(dy * dy)
		xy.add(dx * dy)
	}
	if !(xx.value() > 0) || !(yy.value() > 0) {
		return 0
	}
	return max(-1, min(1, xy.value()/(math.Sqrt(xx.value())*math.Sqrt(yy.value()))))
}
