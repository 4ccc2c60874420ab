package calc

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc/uncertainty"
)

// FirstOrderDiffers is the warning that draws and first order do not agree.
var FirstOrderDiffers = &Warning{"first-order-differs", "the 95 % interval by first order differs from that of the draws: " +
	"the calculation bends within the uncertainty, or an input is far from normal; take the draws"}

// Warnings about uncertainties that were computed without draws.
var (
	firstOrderBends = Warning{"first-order-bends", "u of first order is off by a tenth or more: " +
		"the calculation bends within the uncertainty of its inputs"}
	firstOrderJumps = Warning{"first-order-jumps", "the result jumps within the uncertainty of its inputs, " +
		"and u of first order, that beside the jump, leaves it out"}
	spreadRefused = Warning{"spread-refused", "the uncertainty reaches values that the calculation refuses: " +
		"its distribution can't be the one given, and u of first order need not hold"}
	totalUncertain = Warning{"total-uncertain", "the members add up to a total, so that their uncertainties are correlated " +
		"(JCGM 100:2008, 5.2), but with those given the total is uncertain too, and u need not hold: state the correlations " +
		"(--correlated A,B=-0.5, in Go Sheet.Correlate) so that what one has more the others have less"}
	freedomUnused = Warning{"freedom-unused", "correlated inputs have no effective degrees of freedom (Welch-Satterthwaite): " +
		"k is that of infinitely many, and U is too small where theirs are few"}
)

// Doubts returns what to know about the uncertainties of a sheet that has run, and about
// what was found besides: where first order falls short, which draws were not used, where
// degrees of freedom were not. The warnings of the run are not among them.
func (s *Sheet) Doubts(found Findings) ([]Warning, error) {
	law, err := s.firstOrder()
	if err != nil {
		return nil, err
	}
	return s.doubts(found, law), nil
}

func (s *Sheet) doubts(found Findings, law *law) (doubts []Warning) {
	all := law.all
	if len(all) == 0 {
		return nil
	}
	if len(found.Samples) > 0 {
		doubts = drawnDoubts(found.Samples)
	} else {
		doubts = s.strains(law)
	}
	if names := s.uncertainTotals(); len(names) > 0 {
		doubts = append(doubts, totalUncertain.about(names))
	}
	if found.Level > 0 {
		if names := namesOf(all, func(i int) bool { return all[i].freedomLost }); len(names) > 0 {
			doubts = append(doubts, freedomUnused.about(names))
		}
	}
	return doubts
}

// looseTotal is the part of the variance of independent members that is taken for a total
// without any: the correlations that keep it are known to a digit or two. Chosen here.
const looseTotal = 0.05

// uncertainTotals names the lists whose total is fixed, though as their members are
// uncertain it would not be.
func (s *Sheet) uncertainTotals() (names []string) {
	if len(s.totals) == 0 {
		return nil
	}
	vs := s.variables()
	for _, t := range s.totals {
		var of []string
		var moves []float64 // of the total, by variable
		apart := 0.0        // its variance, were the members independent
		for _, v := range vs {
			move := 0.0
			for _, m := range v.of {
				if m.cell == t.cell {
					move += m.scale
					apart += m.scale * m.scale
				}
			}
			if move > 0 {
				of, moves = append(of, v.name), append(moves, move)
			}
		}
		if apart > 0 && uncertainty.Covariance(moves, moves, s.relation(func(i int) string { return of[i] })) > looseTotal*apart {
			names = append(names, t.cell.Name)
		}
	}
	return names
}

// namesShown is the most names that a warning lists.
const namesShown = 12

// about names what a warning is about, and only counts what would be a long list.
func (w Warning) about(names []string) Warning {
	if n := len(names) - namesShown; n > 1 {
		names = append(slices.Clone(names[:namesShown]), fmt.Sprintf("%d more", n))
	}
	return Warning{w.Code, strings.Join(names, ", ") + ": " + w.Text}
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

// StrainWarnings returns the warnings about uncertainties of first order that a strain
// calls for. It names the results and inputs in their order, each name once, and leaves out
// a result without a name. Draws reports whether somebody can be told to take draws.
func StrainWarnings(found uncertainty.Strain, results, inputs []string, draws bool) (all []Warning) {
	var jump, bend, refused []string
	add := func(to *[]string, name string) {
		if name != "" && !slices.Contains(*to, name) {
			*to = append(*to, name)
		}
	}
	for i, name := range results {
		switch {
		case i < len(found.Jumps) && found.Jumps[i]:
			add(&jump, name)
		case i < len(found.Bends) && found.Bends[i]:
			add(&bend, name)
		}
	}
	for k, name := range inputs {
		if k < len(found.Refused) && found.Refused[k] {
			add(&refused, name)
		}
	}
	for _, w := range []struct {
		of    Warning
		names []string
	}{{firstOrderJumps, jump}, {firstOrderBends, bend}} {
		if draws {
			w.of.Text += "; take draws"
		}
		if len(w.names) > 0 {
			all = append(all, w.of.about(w.names))
		}
	}
	if len(refused) > 0 {
		all = append(all, spreadRefused.about(refused))
	}
	return all
}

// strains moves what is uncertain, and tells where first order does not describe it.
func (s *Sheet) strains(law *law) []Warning {
	vs, all := s.variables(), law.all
	estimates := s.results(nil)
	var f uncertainty.Function
	if law.root == nil {
		f = s.movedBy(vs)
	} else {
		if target := s.target(); len(target.uncertain) > 0 { // no input moves with it
			vs = slices.Insert(vs, 0, variable{name: target.Name, u: target.uncertain[0]})
		}
		f = s.following(vs, law, estimates)
		estimates = append(estimates, law.root.cell.Number())
	}
	inputs, names := make([]uncertainty.Moved, len(vs)), make([]string, len(vs))
	for k, v := range vs {
		names[k] = v.name
		inputs[k] = uncertainty.Moved{Kurtosis: v.u.Distribution.Kurtosis(), Slopes: make([]float64, len(all))}
		for i := range all {
			inputs[k].Slopes[i] = all[i].Shares[k].slope
		}
	}
	results := make([]string, len(all))
	for i, u := range all {
		if !u.Cell.Stepped {
			results[i] = u.Cell.Name
		}
	}
	found := uncertainty.Strains(f, estimates, inputs)
	f(make([]float64, len(vs))) // the run has shown that it can
	return StrainWarnings(found, results, names, law.root == nil && len(s.correlated()) == 0)
}

// movedBy returns the results as a function of the variables, which it moves from where
// they are now.
func (s *Sheet) movedBy(vs []variable) uncertainty.Function {
	of, at := s.shape(), make([]float64, len(vs))
	var from [][]float64
	for _, v := range vs {
		from = append(from, v.values())
	}
	return func(t []float64) ([]float64, error) {
		for k, v := range vs {
			if t[k] != at[k] {
				v.move(from[k], t[k])
				at[k] = t[k]
			}
		}
		if err := s.evaluate(); err != nil {
			return nil, err
		}
		y, ok := s.resultsAs(of, nil)
		if !ok {
			return nil, uncertainty.ErrResults
		}
		return y, nil
	}
}

// following returns the results as a function of the variables where an input was solved
// for: it moves so that the given output has its value, or what the uncertainty of that
// makes of it, and is the last result.
func (s *Sheet) following(vs []variable, law *law, estimates []float64) uncertainty.Function {
	root, moved := law.root, s.movedBy(vs)
	implicit := uncertainty.Implicit{
		At: func(t []float64, x float64) ([]float64, error) {
			root.cell.put(x)
			return moved(t)
		},
		Root: root.cell.Number(), Target: root.target, Value: estimates[root.target], Slope: root.slopes[root.target] / root.scale,
	}
	for k := range vs {
		implicit.Moves = append(implicit.Moves, law.all[len(estimates)].Shares[k].slope)
		implicit.Targets = append(implicit.Targets, law.all[root.target].Shares[k].slope)
	}
	return implicit.Function()
}
