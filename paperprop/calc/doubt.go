package calc

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc/uncertainty"
)

// FirstOrderDiffers is the warning that draws and first order do not agree.
var FirstOrderDiffers = &Warning{"first-order-differs", "the 95 % interval by first order differs from that of the draws: " +
	"the calculation bends within the uncertainty; take the draws"}

// Warnings about uncertainties that were computed without draws.
var (
	firstOrderBends = Warning{"first-order-bends", "u of first order is off by a tenth or more: " +
		"the calculation bends within the uncertainty of its inputs; take draws"}
	spreadRefused = Warning{"spread-refused", "the uncertainty reaches values that the calculation refuses: " +
		"its distribution can't be the one given, and u of first order need not hold"}
	freedomUnused = Warning{"freedom-unused", "correlated inputs have no effective degrees of freedom (Welch-Satterthwaite): " +
		"k is that of infinitely many, and U is too small where theirs are few"}
)

// about names what a warning is about.
func (w Warning) about(names []string) Warning {
	return Warning{w.Code, strings.Join(names, ", ") + ": " + w.Text}
}

// Doubts returns what to know about the uncertainties of a sheet that has run, and about
// what was found besides: where first order falls short, which draws were not used, where
// degrees of freedom were not. The warnings of the run are not among them.
func (s *Sheet) Doubts(found Findings) ([]Warning, error) {
	uncertainties, err := s.Uncertainties()
	if err != nil {
		return nil, err
	}
	return s.doubts(found, uncertainties), nil
}

func (s *Sheet) doubts(found Findings, all []Uncertainty) (doubts []Warning) {
	if len(all) == 0 {
		return nil
	}
	if len(found.Samples) > 0 {
		doubts = drawnDoubts(found.Samples)
	} else if len(s.Roots) == 0 {
		doubts = s.strains(all)
	}
	if found.Level > 0 {
		if names := namesOf(all, func(i int) bool { return all[i].freedomLost }); len(names) > 0 {
			doubts = append(doubts, freedomUnused.about(names))
		}
	}
	return doubts
}

// namesOf returns the names of the results of which is is true, each once. What moves in
// steps has no uncertainty to doubt.
func namesOf(all []Uncertainty, is func(i int) bool) (names []string) {
	for i, u := range all {
		if !u.Cell.Stepped && is(i) && !slices.Contains(names, u.Cell.Name) {
			names = append(names, u.Cell.Name)
		}
	}
	return names
}

func drawnDoubts(samples []Sample) (doubts []Warning) {
	var differ []string
	for _, m := range samples {
		if !m.Agrees() && !slices.Contains(differ, m.Cell.Name) {
			differ = append(differ, m.Cell.Name)
		}
	}
	if len(differ) > 0 {
		doubts = append(doubts, FirstOrderDiffers.about(differ))
	}
	if n := samples[0].Refused; n > 0 {
		doubts = append(doubts, Warning{"draws-refused", fmt.Sprintf("%d draws lay outside what the calculation takes and are left out", n)})
	}
	if n := samples[0].Outside; n > 0 {
		doubts = append(doubts, Warning{"draws-outside", fmt.Sprintf("%d of the values drawn lay outside the range of their input and were reckoned with: its distribution can't be the one given", n)})
	}
	return doubts
}

// kurtoses are the fourth moments of the standard distributions.
var kurtoses = [...]float64{Normal: 3, Rectangular: 1.8, Triangular: 2.4, Arcsine: 1.5}

// A strain compares the variances of the results by first order with those between points
// at which the inputs really are moved.
type strain struct {
	s               *Sheet
	variables       []variable
	from            [][]float64
	of              shape
	estimates       []float64
	straight        []float64 // variances of first order, of the inputs that can be moved
	alone, together []float64 // variances with one input moved after the other, and with all
	refused         []string  // inputs that can't be
}

func (s *Sheet) strains(all []Uncertainty) (doubts []Warning) {
	t := &strain{s: s, variables: s.variables(), of: s.shape(), estimates: s.results(nil)}
	n := len(t.estimates)
	t.straight, t.alone = make([]float64, n), make([]float64, n)
	for _, v := range t.variables {
		t.from = append(t.from, v.values())
	}
	if t.moveAlone(all) && len(t.variables) <= mostTogether {
		t.moveTogether()
	}
	s.evaluate() // the run has shown that it can
	bends := namesOf(all, func(i int) bool {
		return t.bends(i, t.alone[i]) || t.together != nil && t.bends(i, t.together[i])
	})
	if len(bends) > 0 {
		doubts = append(doubts, firstOrderBends.about(bends))
	}
	if len(t.refused) > 0 {
		doubts = append(doubts, spreadRefused.about(t.refused))
	}
	return doubts
}

// bends reports whether a variance of a result is far from that of first order.
func (t *strain) bends(i int, variance float64) bool {
	u := math.Sqrt(variance)
	return math.Abs(u-math.Sqrt(t.straight[i])) > strained*u && u > uncertainty.Negligible*math.Abs(t.estimates[i])
}

// strained is the part of an uncertainty by which first order may be off. Chosen here.
const strained = 0.1

// moveAlone moves one input after the other by √κ standard uncertainties. With the weight
// 1/(2κ) for each of the two, such points have the first five moments of a distribution of
// kurtosis κ: the variance is exact where the calculation is of second degree. It reports
// whether all inputs could be moved.
func (t *strain) moveAlone(all []Uncertainty) (whole bool) {
	whole = true
	for k, v := range t.variables {
		kurtosis := kurtoses[v.u.Distribution]
		step := math.Sqrt(kurtosis)
		v.move(t.from[k], step)
		up, upErr := t.moved()
		v.move(t.from[k], -step)
		down, downErr := t.moved()
		v.move(t.from[k], 0)
		if upErr != nil || downErr != nil {
			t.refused = append(t.refused, v.name)
		}
		if up == nil || down == nil {
			whole = false
			continue
		}
		for i := range t.estimates {
			shift := (up[i] + down[i]) / (2 * kurtosis)
			t.alone[i] += (up[i]*up[i]+down[i]*down[i])/(2*kurtosis) - shift*shift
			t.straight[i] += all[i].Shares[k].U * all[i].Shares[k].U
		}
	}
	return whole
}

// mostTogether is the most inputs that are moved at once: each doubles the work of one
// mostTogether is the most values that are moved together: the work grows with the square of
// their number, and the many readings of a list hardly bend a result together.
const mostTogether = 64

// moveTogether moves all inputs at once by one standard uncertainty, each up as often as
// down and independent of the others (Walsh functions, and their opposites): the variance
// is exact where the calculation is straight, and sees what bends in several inputs
// together, as a range does.
func (t *strain) moveTogether() {
	defer func() {
		for k, v := range t.variables {
			v.move(t.from[k], 0)
		}
	}()
	runs := 1
	for runs <= len(t.variables) {
		runs *= 2
	}
	n := float64(2 * runs)
	sum, squares := make([]float64, len(t.estimates)), make([]float64, len(t.estimates))
	for run := range 2 * runs {
		for k, v := range t.variables {
			v.move(t.from[k], 1-2*float64((bits.OnesCount(uint(run%runs&(k+1)))+run/runs)%2))
		}
		d, err := t.moved()
		if err != nil || d == nil {
			return
		}
		for i := range d {
			sum[i] += d[i]
			squares[i] += d[i] * d[i]
		}
	}
	t.together = squares
	for i := range squares {
		t.together[i] = max(0, squares[i]-sum[i]*sum[i]/n) / n
	}
}

// moved returns the differences of the results from their estimates with the inputs moved,
// and nil where a result is absent.
func (t *strain) moved() ([]float64, error) {
	if err := t.s.evaluate(); err != nil {
		return nil, err
	}
	y, ok := t.s.resultsAs(t.of, nil)
	if !ok {
		return nil, nil
	}
	for i := range y {
		y[i] -= t.estimates[i]
	}
	return y, nil
}
