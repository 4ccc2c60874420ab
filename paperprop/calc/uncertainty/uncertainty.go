// Package uncertainty holds the law of propagation: how the uncertainties of a
// function's inputs make up that of its results (JCGM 100:2008).
//
// Inputs are measured in their own standard uncertainties: the t of an input is
// how many of them it lies from its estimate. So the slope of a result with respect
// to an input is that input's contribution, in the unit of the result:
//
//	slopes, err := uncertainty.Slope(at, 1e-3)          // for each input
//	u, err := uncertainty.Combined(slopes, correlation) // of one result
//
// The functions know neither sheets nor formulas: each passes its own.
//
// # What people get wrong
//
// t counts standard uncertainties, not the unit of the input. With x = 10 and u = 0.5 the
// contribution to x² is 10: move x to 10 + 0.5 t. Moved to 10 + t, the slope is 20.
//
// A [Correlation] is 1 for an input with itself. One that is always 0 makes every
// uncertainty 0; that of independent inputs is [Independent].
//
// First order sees no bend: at the foot of x² the slope is 0, and so is the uncertainty.
// [Bends] has the next terms, and [Strains] tells where they count.
//
// A level of confidence is a part of one: 0.95, not 95. Zero degrees of freedom stand for
// infinitely many, not for none.
//
// [Freedom] takes as many degrees of freedom as slopes, and holds for independent inputs.
//
// [Bends] changes one t from call to call: a [Function] that keeps it should copy it.
package uncertainty

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"millmaths.example/paperprop/result"
)

// A Line returns the results with one input moved by t standard uncertainties.
type Line func(t float64) ([]float64, error)

// A Function returns the results with each input i moved by t[i] standard
// uncertainties.
type Function func(t []float64) ([]float64, error)

// ErrResults reports that a function returned a different number of results than
// before.
var ErrResults = errors.New("the number of results changes near these values")

// A stencil is a derivative as a weighted sum of differences, so that it is exactly
// zero if nothing changes.
type stencil []struct{ step, weight float64 }

// The stencils. Their truncation error is of fourth order in the step, for beside of
// third order.
var (
	centre = stencil{{1, 8. / 12}, {2, -1. / 12}}         // first derivative, of y(step) - y(-step)
	third  = stencil{{1, -13. / 8}, {2, 1}, {3, -1. / 8}} // third, of the same
	second = stencil{{1, 16. / 12}, {2, -1. / 12}}        // second, of y(step) - 2 y(0) + y(-step)
	beside = stencil{{1, 3}, {2, -1.5}, {3, 1. / 3}}      // first, of y(step) - y(0)
	off    = stencil{{2, 57. / 6}, {3, -7}, {4, 11. / 6}} // first, of y(step) - y(1), without y(0)
	apart  = stencil{{1, 1}}                              // second, with the single step
)

// Slope returns the derivative of each result at t = 0, from steps of h, or of less if
// smaller steps give another result because a kink or a pole is near. If the function
// refuses a step on one side, Slope tries smaller ones, then the other side alone. At a
// kink, such as that of the range of two equal readings, and at a jump, it returns the slope
// of the steeper side: a jump has none. Its errors are those of the function, where it refuses both sides, and
// [ErrResults].
func Slope(at Line, h float64) ([]float64, error) {
	at = remembered(at)
	for range 6 {
		if slope, err := centre.odd(at, h); err == nil {
			return settled(at, h, slope)
		}
		h /= 8 // near a limit of what can be computed
	}
	h = min(h*512, 1e-4)
	if slope, err := beside.forward(at, h); err == nil {
		return slope, nil
	}
	return beside.forward(at, -h)
}

// remembered calls a function once for each step, and returns an error if the number of
// results changes.
func remembered(at Line) Line {
	type answer struct {
		y   []float64
		err error
	}
	known := map[float64]answer{}
	results := -1
	return func(t float64) ([]float64, error) {
		a, ok := known[t]
		if !ok {
			y, err := at(t)
			switch {
			case err != nil:
			case results < 0:
				results = len(y)
			case len(y) != results:
				err = ErrResults
			}
			a = answer{slices.Clone(y), err}
			known[t] = a
		}
		return a.y, a.err
	}
}

// The limits that tell a settled slope from one that smaller steps change, and a kink
// from a bend. Chosen here.
const (
	agreement = 1e-7  // of two slopes, relative to the larger
	noise     = 1e-14 // relative, of a result; over the step it is that of a slope
	shrunk    = 0.5   // least part of a kink that must remain at an eighth of the step; a bend leaves an eighth, a jump eight times as much
	smaller   = 6     // number of times that steps are made smaller
)

// settled returns each slope at the first step, which leaves the most digits, or, if a
// smaller step changes it, at the step that agrees with the one before. Where none agrees,
// as among many small jumps, the first slope stays.
func settled(at Line, h float64, slope []float64) ([]float64, error) {
	wide := h
	origin, err := at(0)
	if err != nil {
		return nil, err
	}
	found := slices.Clone(slope)
	open := make([]bool, len(slope))
	for i := range open {
		open[i] = true
	}
	for k := range smaller {
		h /= 8
		nearer, err := centre.odd(at, h)
		if err != nil {
			return nil, err
		}
		left := false
		for i := range found {
			if !open[i] {
				continue
			}
			allowed := agreement*max(math.Abs(nearer[i]), math.Abs(found[i])) + noise*math.Abs(origin[i])/h
			open[i] = math.Abs(nearer[i]-found[i]) > allowed
			if left = left || open[i]; open[i] || k > 0 {
				found[i] = nearer[i]
			}
		}
		if !left {
			break
		}
	}
	for i := range found {
		if open[i] {
			found[i] = slope[i]
		}
	}
	if err := jumps(at, wide, found, open); err != nil {
		return nil, err
	}
	return found, kinks(at, h, origin, found)
}

// jumps takes the slope beside a jump on which the origin lies: that of the steeper side.
// The slope across it grows as the steps shrink, which is no slope. Many small jumps within
// the steps may make up one, and its growth is another.
func jumps(at Line, h float64, found []float64, open []bool) error {
	if !slices.Contains(open, true) {
		return nil
	}
	var across [4][]float64 // known from settled
	for k := range across {
		var err error
		if across[k], err = centre.odd(at, h/math.Pow(8, float64(k))); err != nil {
			return err
		}
	}
	var sides [2][]float64
	for k, side := range []float64{h / 8, -h / 8} { // within what was not refused
		var err error
		if sides[k], err = off.sum(side, func(step float64) ([]float64, error) { return difference(at, step*side, side) }); err != nil {
			return err
		}
	}
	for i := range found {
		if !open[i] || !eightfold(across[1][i]-across[0][i], across[2][i]-across[1][i]) || !eightfold(across[2][i]-across[1][i], across[3][i]-across[2][i]) {
			continue
		}
		if found[i] = sides[0][i]; math.Abs(sides[1][i]) > math.Abs(found[i]) {
			found[i] = sides[1][i]
		}
	}
	return nil
}

// eightfold reports whether what an eighth of the step adds grows as it does across a jump.
func eightfold(first, second float64) bool { return math.Abs(second/first-8) < 1 }

// kinks takes the slope of the steeper side where the slopes on the two sides of the
// origin stay apart however small the step.
func kinks(at Line, h float64, origin, slope []float64) error {
	wide, err := apart.even(at, h)
	if err != nil {
		return err
	}
	narrow, err := apart.even(at, h/8)
	if err != nil {
		return err
	}
	for i := range slope {
		before, half := math.Abs(wide[i]*h/2), math.Abs(narrow[i]*h/8/2) // half the difference of the sides
		least := agreement*math.Abs(slope[i]) + 128*noise*math.Abs(origin[i])/h
		if half > max(least, shrunk*before) && before > shrunk*half {
			slope[i] += math.Copysign(half, slope[i])
		}
	}
	return nil
}

func (s stencil) odd(at Line, h float64) ([]float64, error) {
	return s.sum(h, func(step float64) ([]float64, error) { return difference(at, step*h, -step*h) })
}

func (s stencil) forward(at Line, h float64) ([]float64, error) {
	return s.sum(h, func(step float64) ([]float64, error) { return difference(at, step*h, 0) })
}

func (s stencil) even(at Line, h float64) ([]float64, error) {
	return s.sum(h*h, func(step float64) ([]float64, error) {
		up, err := difference(at, step*h, 0)
		if err != nil {
			return nil, err
		}
		down, err := difference(at, -step*h, 0)
		if err != nil {
			return nil, err
		}
		for i := range up {
			up[i] += down[i]
		}
		return up, nil
	})
}

// sum returns the weighted sum of the differences, divided by over, a power of the
// step.
func (s stencil) sum(over float64, difference func(step float64) ([]float64, error)) ([]float64, error) {
	var sum []float64
	for _, p := range s {
		d, err := difference(p.step)
		if err != nil {
			return nil, err
		}
		if sum == nil {
			sum = make([]float64, len(d))
		}
		if len(d) != len(sum) {
			return nil, ErrResults
		}
		for i := range sum {
			sum[i] += p.weight * d[i] / over
		}
	}
	return sum, nil
}

func difference(at Line, a, b float64) ([]float64, error) {
	x, err := at(a)
	if err != nil {
		return nil, err
	}
	d := slices.Clone(x) // the function may write its next results over these
	y, err := at(b)
	if err != nil {
		return nil, err
	}
	if len(d) != len(y) {
		return nil, ErrResults
	}
	for i := range d {
		d[i] -= y[i]
	}
	return d, nil
}

// Digits rounds x to twelve significant digits, which is what a slope has.
func Digits(x float64) float64 {
	// No error: the largest number is rounded down.
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 11, 64), 64)
	return rounded
}

// A Correlation returns the correlation coefficient of inputs i and j: 1 for an input
// with itself, 0 for independent ones.
type Correlation func(i, j int) float64

// Independent is the [Correlation] of independent inputs.
func Independent(i, j int) float64 {
	if i == j {
		return 1
	}
	return 0
}

// Covariance returns the covariance of two results with slopes a and b, or with equal
// slopes the variance of one: the sum of c_i u_i c_j u_j r_ij (JCGM 100:2008, 5.2.2).
func Covariance(a, b []float64, r Correlation) float64 {
	sum := 0.0
	for i := range a {
		for j := range b {
			if a[i] != 0 && b[j] != 0 {
				sum += a[i] * b[j] * r(i, j)
			}
		}
	}
	return sum
}

// Combined returns the standard uncertainty of a result. It returns an error for
// correlations that make the variance negative, which no inputs can have. Other
// impossible correlations may pass, as the outcome depends on the slopes.
func Combined(slopes []float64, r Correlation) (float64, error) {
	largest := 0.0
	for _, s := range slopes {
		largest = max(largest, math.Abs(s))
	}
	if largest == 0 {
		return 0, nil
	}
	scaled := make([]float64, len(slopes)) // so that squares neither overflow nor vanish
	for i, s := range slopes {
		scaled[i] = s / largest
	}
	v := Covariance(scaled, scaled, r)
	if v < -1e-12*float64(len(slopes)) {
		return 0, errors.New("no inputs can have these correlations together: the variance comes out below zero")
	}
	return largest * math.Sqrt(max(0, v)), nil
}

// Freedom returns the effective degrees of freedom of a standard uncertainty u by the
// Welch-Satterthwaite formula (JCGM 100:2008, G.4.1), not rounded. Zero means
// infinitely many, for the inputs too. The formula holds for independent inputs. It is
// NaN, which [Factor] refuses, if the lists differ in length.
func Freedom(u float64, slopes, freedom []float64) float64 {
	if len(slopes) != len(freedom) {
		return math.NaN()
	}
	sum := 0.0
	for i, s := range slopes {
		if freedom[i] > 0 {
			q := s / u
			sum += q * q * q * q / freedom[i]
		}
	}
	if !(sum > 0) {
		return 0
	}
	return 1 / sum
}

// Factor returns the coverage factor k for a level of confidence between 0 and 1: of
// the normal distribution if freedom is 0, which means infinitely many, otherwise of
// Student's t with that many degrees of freedom, which need not be whole. A factor
// beyond float64, as for far less than one degree of freedom, is an error.
func Factor(confidence, freedom float64) (float64, error) {
	switch {
	case !(confidence > 0 && confidence < 1):
		return 0, fmt.Errorf("a level of confidence of %v, want above 0 and below 1", confidence)
	case !(freedom >= 0):
		return 0, fmt.Errorf("%v degrees of freedom, want a number above 0, or 0 for infinitely many", freedom)
	case freedom == 0:
		freedom = math.Inf(1)
	}
	k := result.StudentT((1+confidence)/2, freedom)
	if !(k <= math.MaxFloat64) {
		return 0, fmt.Errorf("the coverage factor of %v degrees of freedom at a level of %v is beyond a float64, want more of them or a lower level", freedom, confidence)
	}
	return k, nil
}

// Negligible is the part of a result below which a standard uncertainty is rounding
// noise: differences over a step of the uncertainty leave that much of zero.
const Negligible = 1e-13

// A Bend holds the second-order terms for independent normal inputs (JCGM 100:2008,
// 5.1.2 note).
type Bend struct {
	Shift    float64 // of the mean: half the sum of the second derivatives
	Variance float64 // added to the variance: the sum of ½f_ij² + f_i f_ijj
}

// Standard returns the second-order standard uncertainty of a result y whose first-order
// one is u, and false where the second-order terms make the variance negative. It is
// zero where only rounding noise of y is left.
func (b Bend) Standard(y, u float64) (float64, bool) {
	variance := u*u + b.Variance
	if math.Sqrt(math.Abs(variance)) < Negligible*math.Abs(y) {
		return 0, true
	}
	return math.Sqrt(max(variance, 0)), variance >= 0
}

// bendStep is large enough for third derivatives of a result that the uncertainty changes
// little. One that it changes much needs smaller steps.
const bendStep = 0.25

// Bends returns the Bend of each result of a function of n inputs, from steps of up to
// three quarters of a standard uncertainty to either side. Its errors are those of the
// function, and [ErrResults].
func Bends(f Function, n int) ([]Bend, error) {
	bends, err := bendsAt(f, n, bendStep)
	if err != nil {
		return nil, err
	}
	half, err := bendsAt(f, n, bendStep/2)
	if err != nil {
		return nil, err
	}
	quarter, err := bendsAt(f, n, bendStep/4)
	if err != nil {
		return nil, err
	}
	for k := range bends {
		b, h, q := &bends[k], half[k], quarter[k]
		b.Shift = refined(b.Shift, h.Shift, q.Shift)
		b.Variance = refined(b.Variance, h.Variance, q.Variance)
	}
	return bends, nil
}

// refined returns what three values, each from half the steps of the one before, tend to:
// their errors are of fourth, sixth and eighth order in the step. If smaller steps bring
// them no closer, rounding parts them, and the first has least of it.
func refined(whole, half, quarter float64) float64 {
	near, nearer := half+(half-whole)/15, quarter+(quarter-half)/15
	if !(math.Abs(nearer-near) < math.Abs(half-whole)/8) {
		return whole
	}
	return nearer + (nearer-near)/63
}

// bendsAt returns the bends from steps of h.
func bendsAt(f Function, n int, h float64) ([]Bend, error) {
	t := make([]float64, n)
	var bends []Bend
	for i := range n {
		along := func(x float64) ([]float64, error) {
			t[i] = x
			defer func() { t[i] = 0 }()
			return f(t)
		}
		slope, err := centre.odd(along, h)
		if err != nil {
			return nil, err
		}
		curve, err := second.even(along, h)
		if err != nil {
			return nil, err
		}
		twist, err := third.odd(along, h)
		if err != nil {
			return nil, err
		}
		if bends == nil {
			bends = make([]Bend, len(curve))
		}
		for k := range bends {
			bends[k].Shift += curve[k] / 2
			bends[k].Variance += curve[k]*curve[k]/2 + slope[k]*twist[k]/(h*h)
		}
		for j := range n {
			if j == i {
				continue
			}
			if err := cross(f, t, i, j, h, slope, bends); err != nil {
				return nil, err
			}
		}
	}
	return bends, nil
}

// cross adds the terms of two inputs: derivatives of the slope by i along j.
func cross(f Function, t []float64, i, j int, h float64, slope []float64, bends []Bend) error {
	slopeAt := func(x float64) ([]float64, error) {
		t[j] = x
		defer func() { t[i], t[j] = 0, 0 }()
		return centre.odd(func(y float64) ([]float64, error) { t[i] = y; return f(t) }, h)
	}
	mixed, err := centre.odd(slopeAt, h)
	if err != nil {
		return err
	}
	twist, err := second.even(slopeAt, h)
	if err != nil {
		return err
	}
	for k := range bends {
		bends[k].Variance += mixed[k]*mixed[k]/2 + slope[k]*twist[k]
	}
	return nil
}
