package lab

import (
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Precision is an interlaboratory trial of one material.
type Precision struct {
	// Result has a row per laboratory and a column per replicate. Rows may differ
	// in length. There must be at least 2 laboratories, and at least 2 results in
	// one of them.
	Result [][]float64
	Factor paperprop.Ratio // from a standard deviation to a limit, 2.8, 2.77 ...; above zero
}

// PrecisionResult is the precision of the method.
type PrecisionResult struct {
	Mean                     float64 // of all results
	RepeatabilityDeviation   float64 // within laboratories, pooled
	LaboratoryDeviation      float64 // between laboratories; 0 if its square is estimated below 0
	ReproducibilityDeviation float64
	RepeatabilityLimit       float64
	ReproducibilityLimit     float64

	// H is how far the mean of each laboratory lies from that of all, in standard
	// deviations of the means; K is the standard deviation of each over the pooled
	// one. They are nil unless all laboratories have the same number of results, 2
	// or more, and neither divisor is zero.
	H, K []float64
}

// Calculate separates the variance within laboratories from that between them.
func (p Precision) Calculate() (PrecisionResult, error) {
	if !(p.Factor > 0) || math.IsInf(float64(p.Factor), 0) {
		return PrecisionResult{}, calc.Refuse("factor", p.Factor, "above 0")
	}
	if err := p.check(); err != nil {
		return PrecisionResult{}, err
	}
	c := newCells(p.Result)
	within, between := c.variances()
	sr, sR := math.Sqrt(within), math.Sqrt(within+between)
	f := float64(p.Factor)
	r := PrecisionResult{
		Mean: c.mean, RepeatabilityDeviation: sr, LaboratoryDeviation: math.Sqrt(between), ReproducibilityDeviation: sR,
		RepeatabilityLimit: f * sr, ReproducibilityLimit: f * sR,
	}
	r.H, r.K = c.consistency(sr)
	if !(r.ReproducibilityLimit <= math.MaxFloat64) {
		return PrecisionResult{}, calc.Refuse("result", text("numbers whose deviations times the factor are none"), "smaller ones, or a smaller factor")
	}
	return r, nil
}

func (p Precision) check() error {
	if len(p.Result) < 2 {
		return calc.Refuse("result", text(fmt.Sprintf("%d laboratory", len(p.Result))), "at least 2 laboratories")
	}
	replicated := false
	for i, row := range p.Result {
		if len(row) == 0 {
			return calc.Refuse("result", text(fmt.Sprintf("empty for laboratory %d", i+1)), "a result of each")
		}
		replicated = replicated || len(row) > 1
	}
	if !replicated {
		return calc.Refuse("result", text("one result a laboratory"), "at least 2 results in one: nothing is repeated")
	}
	return checkReadings("result", "laboratory", "result", p.Result, "leave it out: rows may differ in length")
}

// cells holds the results of a trial by laboratory.
type cells struct {
	counts, means, deviations []float64 // a deviation is 0 if there is only one result
	total, mean               float64
}

func newCells(results [][]float64) cells {
	var c cells
	for _, row := range results {
		s, _ := result.StandardDeviation(row)
		c.counts = append(c.counts, float64(len(row)))
		c.means = append(c.means, result.Mean(row))
		c.deviations = append(c.deviations, s)
	}
	all := slices.Concat(results...)
	c.total, c.mean = float64(len(all)), result.Mean(all)
	return c
}

// variances returns the variances within and between laboratories.
func (c cells) variances() (within, between float64) {
	labs := float64(len(c.means))
	var repeated, apart, squares float64
	for i, n := range c.counts {
		repeated += (n - 1) * c.deviations[i] * c.deviations[i]
		apart += n * (c.means[i] - c.mean) * (c.means[i] - c.mean)
		squares += n * n
	}
	within = repeated / (c.total - labs)
	size := (c.total - squares/c.total) / (labs - 1) // mean size of a cell
	return within, max(0, (apart/(labs-1)-within)/size)
}

// consistency returns h and k of each laboratory.
func (c cells) consistency(repeatability float64) (h, k []float64) {
	spread, _ := result.StandardDeviation(c.means)
	even := !slices.ContainsFunc(c.counts, func(n float64) bool { return n != c.counts[0] || n < 2 })
	if !even || spread == 0 || repeatability == 0 {
		return nil, nil
	}
	mean := result.Mean(c.means)
	for i, m := range c.means {
		h = append(h, (m-mean)/spread)
		k = append(k, c.deviations[i]/repeatability)
	}
	return h, k
}

func precisionFactor() *calc.Field {
	return numeric("factor", "f", calc.One, factorHelp)
}

var precision = &calc.Tool{
	About: calc.Info{
		Name:    "precision",
		Title:   "Precision of a method from a trial",
		Answers: "How far results of one laboratory, and of several (round robin), scatter, and which laboratory stands apart.",
		Method: "n_i results with mean m_i and standard deviation s_i in each of p laboratories, N in all: s_r^2 = sum((n_i - 1)*s_i^2)/(N - p); " +
			"s_L^2 = (sum(n_i*(m_i - m)^2)/(p - 1) - s_r^2)/n with n = (N - sum(n_i^2)/N)/(p - 1), not below 0; s_R^2 = s_r^2 + s_L^2; r = f*s_r, R = f*s_R; " +
			"h = (m_i - mean of means)/their standard deviation, k = s_i/s_r",
		Source:  "formulas of ISO 5725-2 and ASTM E691 (memory), worked on the glucose data in R package ILS 0.3",
		Status:  calc.Memory,
		Example: "result=[2.31 2.24 2.42 | 2.19 2.33 2.27 | 2.40 2.44 2.36] kN/m; factor=2.8",
		Mistakes: []string{
			"Outliers are shown by h and k, never removed here. Their critical values depend on the numbers of laboratories and of results " +
				"and are not given: take those of the standard by which the trial was made.",
			"The mean of a test result of several determinations is one result: do not enter the determinations.",
			"r and R are limits for differences; the standard deviations are 2.8 times smaller.",
		},
		Tool: true,
	},
	Fields: func() (in, out []*calc.Field) {
		return []*calc.Field{
			calc.NewField("result", "x", calc.Table, "a row a laboratory, separated by bars: [1 2 3 | 4 5 6] g"),
			precisionFactor(),
		}, fieldsOf(new(PrecisionResult).outputs())
	},
	Clean:   withoutMissing,
	Picture: drawPrecision,
	Run: func(given []calc.Pair) ([]calc.Answer, error) {
		table, err := readRows(given, "result")
		if err != nil {
			return nil, err
		}
		written := textOf(given, "factor")
		if written == "" {
			return nil, &calc.MissingError{Input: precisionFactor()}
		}
		factor, err := paperprop.ParseRatio(written)
		if err != nil {
			return nil, &calc.InputError{Input: "factor", Text: written, Err: err}
		}
		r, err := Precision{Result: table.readings, Factor: factor}.Calculate()
		if err != nil {
			return nil, err
		}
		return answersOf(r.outputs(), table.unit), nil
	},
}

func (r *PrecisionResult) outputs() []output {
	const scattering = "; only where all have the same number of results, 2 or more, and these scatter"
	return []output{
		related(&r.Mean, "mean", "m", "as result", "of all results"),
		related(&r.RepeatabilityDeviation, "repeatability-deviation", "s_r", "difference of result", "within laboratories, pooled"),
		related(&r.LaboratoryDeviation, "laboratory-deviation", "s_L", "difference of result", "between laboratories; 0 where its square is estimated below 0"),
		related(&r.ReproducibilityDeviation, "reproducibility-deviation", "s_R", "difference of result", "of results of different laboratories"),
		related(&r.RepeatabilityLimit, "repeatability-limit", "r", "difference of result", "of two results of one laboratory"),
		related(&r.ReproducibilityLimit, "reproducibility-limit", "R", "difference of result", "of results of two laboratories"),
		{Field: numeric("h", "h", calc.List, "of each laboratory, between"+scattering), list: &r.H},
		{Field: numeric("k", "k", calc.List, "of each laboratory, within"+scattering), list: &r.K},
	}
}
