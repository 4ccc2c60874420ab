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
package uncertainty

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"millmaths.example/paperprop/result"
)

// A Line returns the results with one input moved by t.
type Line func(t float64) ([]float64, error)

// A Function returns the results with each input moved by its t.
type Function func(t []float64) ([]float64, error)

// ErrResults says that a function did not return as many results as before.
var ErrResults = errors.New("the number of results changes near these values")

// A stencil is a derivative made of differences at steps of one, so that it is
// exactly zero where nothing moves.
type stencil []struct{ step, weight float64 }

// The stencils. Their own error is of fourth order in the step, that of beside
// of third.
var (
	centre = stencil{{1, 8. / 12}, {2, -1. / 12}}         // first derivative, of y(step) - y(-step)
	third  = stencil{{1, -13. / 8}, {2, 1}, {3, -1. / 8}} // third, of the same
	second = stencil{{1, 16. / 12}, {2, -1. / 12}}        // second, of y(step) - 2 y(0) + y(-step)
	beside = stencil{{1, 3}, {2, -1.5}, {3, 1. / 3}}      // first, of y(step) - y(0)
	apart  = stencil{{1, 1}}                              // second, plainly
)

// Slope returns the derivative of each result at t = 0 by steps of h, or of less where
// smaller ones say otherwise: a kink or a pole is near. Where the function refuses a
// step on one side, nearer ones are tried, then the other side alone. On a kink, such as
// that of a range of two equal readings, it is the steeper side's.
func Slope(at Line, h float64) ([]float64, error) {
	at = remembered(at)
	for range 6 {
		if slope, err := centre.odd(at, h); err == nil {
			return settled(at, h, slope)
		}
		h /= 8 // an end of what can be computed is near
	}
	h = min(h*512, 1e-4)
	if slope, err := beside.forward(at, h); err == nil {
		return slope, nil
	}
	return beside.forward(at, -h)
}

// remembered asks a function once for each step, and refuses what has another number of
// results than the step before it.
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

// What tells a slope that is settled from one that smaller steps change, and a kink from
// a bend. Chosen here.
const (
	agreement = 1e-7  // of two slopes, of the larger
	noise     = 1e-14 // of a result, over the step
	shrunk    = 0.5   // of what a kink leaves at an eighth of the step, give or take; a bend leaves an eighth, a jump eight times as much
	smaller   = 6     // times that steps are made smaller
)

// settled takes each slope at the first step, which leaves most digits, or where a
// smaller one gives another, at the one that agrees with the one before. On a jump none
// does, and the first stays.
func settled(at Line, h float64, slope []float64) ([]float64, error) {
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
	return found, kinks(at, h, origin, found)
}

// kinks takes the steeper side where the two sides of the origin keep apart however
// small the step.
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
		before, half := math.Abs(wide[i]*h/2), math.Abs(narrow[i]*h/8/2) // of what the sides differ by
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

// sum adds up the differences by their weights, over the power of the step.
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
	y, err := at(b)
	if err != nil {
		return nil, err
	}
	if len(x) != len(y) {
		return nil, ErrResults
	}
	d := make([]float64, len(x))
	for i := range d {
		d[i] = x[i] - y[i]
	}
	return d, nil
}

// Digits keeps the twelve digits of x that a slope has.
func Digits(x float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 11, 64), 64)
	if err != nil {
		return x
	}
	return rounded
}

// A Correlation is that of two inputs by their numbers: 1 of an input with
// itself, 0 of independent ones.
type Correlation func(i, j int) float64

// Independent inputs have nothing to do with each other.
func Independent(i, j int) float64 {
	if i == j {
		return 1
	}
	return 0
}

// Covariance returns that of two results with these slopes, or of one with
// itself, its variance: the sum of c_i u_i c_j u_j r_ij (JCGM 100:2008, 5.2.2).
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

// Combined returns the standard uncertainty of a result. Correlations by which its
// variance comes out below zero are refused: no inputs can have them. Others that none
// can have may pass, as the slopes decide what they come to.
func Combined(slopes []float64, r Correlation) (float64, error) {
	largest := 0.0
	for _, s := range slopes {
		largest = max(largest, math.Abs(s))
	}
	if largest == 0 {
		return 0, nil
	}
	scaled := make([]float64, len(slopes)) // squares neither overflow nor vanish
	for i, s := range slopes {
		scaled[i] = s / largest
	}
	v := Covariance(scaled, scaled, r)
	if v < -1e-12*float64(len(slopes)) {
		return 0, errors.New("no inputs can be correlated so: the variance comes out below zero")
	}
	return largest * math.Sqrt(max(0, v)), nil
}

// Freedom returns the effective degrees of freedom of a standard uncertainty u
// by Welch and Satterthwaite (JCGM 100:2008, G.4.1), not rounded. Zero stands
// for infinitely many, among those of the inputs too. The formula holds for
// independent inputs.
func Freedom(u float64, slopes, freedom []float64) float64 {
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

// Factor returns the coverage factor k for a level of confidence between 0 and
// 1: of the normal distribution, or of Student's t with so many degrees of
// freedom, which need not be whole. Zero stands for infinitely many. A factor that no
// float64 holds, as far less than one degree of freedom has, is refused.
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

// Negligible is the share of a result that its last digits, in differences over a step
// of the uncertainty, make of an uncertainty that is zero.
const Negligible = 1e-13

// A Bend is what the terms of second order add for independent normal inputs
// (JCGM 100:2008, 5.1.2 note).
type Bend struct {
	Shift    float64 // of the mean: half the sum of the second derivatives
	Variance float64 // the sum of ½f_ij² + f_i f_ijj
}

// Standard is the standard uncertainty by second order of a result y that has u by
// first order, and false where the terms of second order make the variance fall below
// zero. It is zero where only the last digits of y are left.
func (b Bend) Standard(y, u float64) (float64, bool) {
	variance := u*u + b.Variance
	if math.Sqrt(math.Abs(variance)) < Negligible*math.Abs(y) {
		return 0, true
	}
	return math.Sqrt(max(variance, 0)), variance >= 0
}

// bendStep is wide enough for third derivatives and narrow enough for the
// stencils.
const bendStep = 0.25

// Bends returns the Bend of each result of a function of n inputs.
func Bends(f Function, n int) ([]Bend, error) {
	t := make([]float64, n)
	var bends []Bend
	for i := range n {
		along := func(x float64) ([]float64, error) {
			t[i] = x
			defer func() { t[i] = 0 }()
			return f(t)
		}
		slope, err := centre.odd(along, bendStep)
		if err != nil {
			return nil, err
		}
		curve, err := second.even(along, bendStep)
		if err != nil {
			return nil, err
		}
		twist, err := third.odd(along, bendStep)
		if err != nil {
			return nil, err
		}
		if bends == nil {
			bends = make([]Bend, len(curve))
		}
		for k := range bends {
			bends[k].Shift += curve[k] / 2
			bends[k].Variance += curve[k]*curve[k]/2 + slope[k]*twist[k]/(bendStep*bendStep)
		}
		for j := range n {
			if j == i {
				continue
			}
			if err := cross(f, t, i, j, slope, bends); err != nil {
				return nil, err
			}
		}
	}
	return bends, nil
}

// cross adds the terms of two inputs: derivatives along j of the slope by i.
func cross(f Function, t []float64, i, j int, slope []float64, bends []Bend) error {
	slopeAt := func(x float64) ([]float64, error) {
		t[j] = x
		defer func() { t[i], t[j] = 0, 0 }()
		return centre.odd(func(y float64) ([]float64, error) { t[i] = y; return f(t) }, bendStep)
	}
	mixed, err := centre.odd(slopeAt, bendStep)
	if err != nil {
		return err
	}
	twist, err := second.even(slopeAt, bendStep)
	if err != nil {
		return err
	}
	for k := range bends {
		bends[k].Variance += mixed[k]*mixed[k]/2 + slope[k]*twist[k]
	}
	return nil
}
