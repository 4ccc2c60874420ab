package lab

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/result"
)

const (
	modelBlocks = 250
	modelBlock  = 4000 // draws evaluated at a time, as a list
	modelDraws  = modelBlocks * modelBlock
	lowerDraw   = modelDraws/40 - 1 // of the draws in order, that which 2.5 % do not exceed
	upperDraw   = modelDraws - modelDraws/40 - 1
	modelSeed   = 1
	mostDrawn   = 20 // results, whose draws are all kept: 8 MB for each
)

// monteCarlo draws from the inputs and evaluates the formulas on the lists.
func (m *model) monteCarlo() ([]calc.Answer, error) {
	if len(m.lines) > mostDrawn {
		return nil, calc.Refuse("model", formulas(len(m.lines)), fmt.Sprintf("at most %d for monte-carlo", mostDrawn))
	}
	l, err := m.law()
	if err != nil {
		return nil, err
	}
	factor, err := m.factor()
	if err != nil {
		return nil, err
	}
	samples := make([][]float64, len(m.lines))
	drawn := make([][]float64, len(m.inputs))
	for i := range drawn {
		drawn[i] = make([]float64, modelBlock)
	}
	for block := range uint64(modelBlocks) {
		values := formula.Values{}
		for i, e := range m.inputs {
			e.shape.Draw(drawn[i], 0, 1, modelSeed, block*uint64(len(m.inputs))+uint64(i))
		}
		correlate(drawn, factor)
		for i, e := range m.inputs {
			d := e.unit.Dimension()
			if e.u == 0 {
				values[e.name] = formula.Number(e.value, d)
				continue
			}
			for k, t := range drawn[i] {
				drawn[i][k] = e.value + t*e.u
			}
			values[e.name] = formula.List(drawn[i], d)
		}
		results, err := m.results(values)
		if err != nil {
			return nil, err
		}
		for k, v := range results {
			samples[k] = append(samples[k], spread(v, modelBlock)...)
		}
	}
	return l.sampled(samples)
}

// spread returns a list of n numbers; a single number is repeated.
func spread(v formula.Value, n int) []float64 {
	if len(v.Numbers) == n {
		return v.Numbers
	}
	return slices.Repeat(v.Numbers, n)
}

func (l *law) sampled(samples [][]float64) ([]calc.Answer, error) {
	out := l.estimates()
	for k, line := range l.lines {
		x := samples[k]
		if slices.ContainsFunc(x, func(y float64) bool { return y-y != 0 }) {
			return nil, fmt.Errorf("%s is not finite for some draws: the inputs are too uncertain for the formula", line.Name)
		}
		var r result.Running
		for _, y := range x {
			r.Add(y)
		}
		summary, err := r.Summary(0.95)
		if err != nil {
			return nil, err
		}
		slices.Sort(x)
		out = append(out,
			l.answer("u("+line.Name+")", k, *summary.StandardDeviation),
			l.beside("mean("+line.Name+")", k, summary.Mean, *summary.StandardDeviation),
			l.beside("lower("+line.Name+")", k, x[lowerDraw], *summary.StandardDeviation),
			l.beside("upper("+line.Name+")", k, x[upperDraw], *summary.StandardDeviation))
	}
	return out, nil
}

// factor returns the Cholesky factor of the matrix of correlations, or nil if the
// inputs are independent.
func (m *model) factor() ([][]float64, error) {
	if !m.correlated() {
		return nil, nil
	}
	n := len(m.inputs)
	f := make([][]float64, n)
	for i := range n {
		f[i] = make([]float64, i+1)
		for j := range i + 1 {
			rest := m.correlation(i, j)
			for k := range j {
				rest -= f[i][k] * f[j][k]
			}
			switch {
			case i != j && f[j][j] > 0:
				f[i][j] = rest / f[j][j]
			case i != j && math.Abs(rest) > 1e-9, i == j && rest < -1e-9:
				return nil, errors.New("no inputs can have these correlations together")
			case i == j:
				f[i][i] = math.Sqrt(max(0, rest))
			}
			if m.correlation(i, j) != 0 && i != j && (m.inputs[i].shape != calc.Normal || m.inputs[j].shape != calc.Normal) {
				return nil, errors.New("draws of correlated inputs are normal: give them with ±")
			}
		}
	}
	return f, nil
}

// correlate turns independent numbers into correlated ones, in place.
func correlate(x [][]float64, factor [][]float64) {
	for i, row := range slices.Backward(factor) {
		for k := range x[i] {
			sum := 0.0
			for j, f := range row {
				sum += f * x[j][k]
			}
			x[i][k] = sum
		}
	}
}
