package uncertainty

import (
	"errors"
	"math"
	"math/bits"
)

// A Moved is an uncertain input that [Strains] really moves.
type Moved struct {
	Kurtosis float64   // fourth moment of its distribution: 3 of a normal one, 1.8 of a rectangular one
	Slopes   []float64 // of each result, as [Slope] returns them; one left out is zero
}

func (m Moved) slope(i int) float64 {
	if i < len(m.Slopes) {
		return m.Slopes[i]
	}
	return 0
}

// A Strain is where first order falls short.
type Strain struct {
	Bends   []bool // by result: its uncertainty is off by a tenth or more
	Jumps   []bool // by result: so it is, as the result jumps within the uncertainty of an input
	Refused []bool // by input: the function refuses values within its uncertainty
}

// Limits of a strain. Chosen here.
const (
	strained     = 0.1 // part of an uncertainty by which first order may be off, and part of it that a jump makes up
	mostTogether = 64  // values that are moved together: the work grows with the square of their number, and the many readings of a list hardly bend a result together
	mostSearched = 64  // results that are searched for a jump
	halvings     = 40  // until a steep bend can be told from a jump
)

// A strain compares the variances of the results by first order with those between points
// at which the inputs really are moved.
type strain struct {
	f               Function
	estimates       []float64
	inputs          []Moved
	t               []float64
	straight        []float64 // variances of first order, of the inputs that can be moved
	alone, together []float64 // variances with one input moved after the other, and with all
	most            []most    // by result
	refused         []bool
}

// A most is the input that departs most from first order, and the variance by which.
type most struct {
	input int
	by    float64
}

// Strains moves the inputs of a function with the given results, which are those at rest,
// and tells where first order does not describe what happens. A function that refuses an
// input returns an error; one that has fewer results there, [ErrResults]. The inputs are
// taken as independent.
func Strains(f Function, estimates []float64, inputs []Moved) Strain {
	n := len(estimates)
	s := &strain{
		f: f, estimates: estimates, inputs: inputs, t: make([]float64, len(inputs)),
		straight: make([]float64, n), alone: make([]float64, n), most: make([]most, n), refused: make([]bool, len(inputs)),
	}
	if s.moveAlone() && len(inputs) <= mostTogether {
		s.moveTogether()
	}
	out := Strain{make([]bool, n), make([]bool, n), s.refused}
	searched := 0
	for i := range n {
		out.Bends[i] = s.bends(i, s.alone[i]) || s.together != nil && s.bends(i, s.together[i])
		if out.Bends[i] && searched < mostSearched {
			searched++
			out.Jumps[i] = s.jumps(i)
		}
	}
	return out
}

// bends reports whether a variance of a result is far from that of first order.
func (s *strain) bends(i int, variance float64) bool {
	u := math.Sqrt(variance)
	return math.Abs(u-math.Sqrt(s.straight[i])) > strained*u && u > Negligible*math.Abs(s.estimates[i])
}

// moveAlone moves one input after the other by √κ standard uncertainties. With the weight
// 1/(2κ) for each of the two, such points have the first five moments of a distribution of
// kurtosis κ: the variance is exact where the calculation is of second degree. It reports
// whether all inputs could be moved.
func (s *strain) moveAlone() (whole bool) {
	whole = true
	for k, in := range s.inputs {
		step := math.Sqrt(in.Kurtosis)
		up, upErr := s.at(k, step)
		down, downErr := s.at(k, -step)
		s.refused[k] = refuses(upErr) || refuses(downErr)
		if upErr != nil || downErr != nil {
			whole = false
			continue
		}
		for i := range s.estimates {
			shift := (up[i] + down[i]) / (2 * in.Kurtosis)
			moved := (up[i]*up[i]+down[i]*down[i])/(2*in.Kurtosis) - shift*shift
			straight := in.slope(i) * in.slope(i)
			s.alone[i] += moved
			s.straight[i] += straight
			if by := math.Abs(moved - straight); by > s.most[i].by {
				s.most[i] = most{k, by}
			}
		}
	}
	return whole
}

// refuses tells a refusal from results that are absent.
func refuses(err error) bool { return err != nil && !errors.Is(err, ErrResults) }

// moveTogether moves all inputs at once by one standard uncertainty, each up as often as
// down and independent of the others (Walsh functions, and their opposites): the variance
// is exact where the calculation is straight, and sees what bends in several inputs
// together, as a range does.
func (s *strain) moveTogether() {
	defer clear(s.t)
	runs := 1
	for runs <= len(s.inputs) {
		runs *= 2
	}
	n := float64(2 * runs)
	sum, squares := make([]float64, len(s.estimates)), make([]float64, len(s.estimates))
	for run := range 2 * runs {
		for k := range s.t {
			s.t[k] = 1 - 2*float64((bits.OnesCount(uint(run%runs&(k+1)))+run/runs)%2)
		}
		d, err := s.moved()
		if err != nil {
			return
		}
		for i := range d {
			sum[i] += d[i]
			squares[i] += d[i] * d[i]
		}
	}
	s.together = squares
	for i := range squares {
		s.together[i] = max(0, squares[i]-sum[i]*sum[i]/n) / n
	}
}

// at is moved with one input moved by t.
func (s *strain) at(k int, t float64) ([]float64, error) {
	defer func() { s.t[k] = 0 }()
	s.t[k] = t
	return s.moved()
}

// moved returns the differences of the results from their estimates.
func (s *strain) moved() ([]float64, error) {
	y, err := s.f(s.t)
	if err != nil {
		return nil, err
	}
	if len(y) != len(s.estimates) {
		return nil, ErrResults
	}
	d := make([]float64, len(y))
	for i := range y {
		d[i] = y[i] - s.estimates[i]
	}
	return d, nil
}

// jumps reports whether a result that bends does so by jumping, along the input that
// departs most from first order. It closes in on the steepest place: what is left there of
// a bend is nothing.
func (s *strain) jumps(i int) bool {
	if s.most[i].by == 0 {
		return false
	}
	k := s.most[i].input
	bent := func(t float64) float64 { // what first order leaves over
		d, err := s.at(k, t)
		if err != nil {
			return math.NaN()
		}
		return d[i] - t*s.inputs[k].slope(i)
	}
	step := math.Sqrt(s.inputs[k].Kurtosis)
	low, high := -step, step
	below, above := bent(low), bent(high)
	for range halvings {
		middle := low/2 + high/2
		at := bent(middle)
		if !(math.Abs(at-below) < math.Abs(above-at)) {
			high, above = middle, at
		} else {
			low, below = middle, at
		}
	}
	return math.Abs(above-below) > strained*math.Sqrt(s.alone[i])
}
