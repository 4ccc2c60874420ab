package stock

import (
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Consistency is the filtration of replicate samples. Its lists are of equal
// length.
type Consistency struct {
	SampleMass    []paperprop.Mass // stock as sampled, above zero
	FilterMass    []paperprop.Mass // filter alone, dried
	DryFilterMass []paperprop.Mass // filter with its pad, dried: from FilterMass to FilterMass plus SampleMass
}

// ConsistencyResult is the consistency of each replicate, their mean and their
// range.
type ConsistencyResult struct {
	SampleConsistency []paperprop.Consistency
	Consistency       paperprop.Consistency // mean of the replicates
	ConsistencyRange  paperprop.Fraction    // largest minus smallest over the mean
}

// Calculate returns (m_df − m_f)/m_s for each replicate, and the mean and range.
func (c Consistency) Calculate() (ConsistencyResult, error) { return consistency.Calculate(c) }

func (c Consistency) compute() (ConsistencyResult, error) {
	var r ConsistencyResult
	values := make([]float64, len(c.SampleMass))
	var rounding float64 // the most by which values that are equal can differ as float64
	for i, sample := range c.SampleMass {
		pad := c.DryFilterMass[i] - c.FilterMass[i]
		if pad < 0 || result.Rest(float64(c.FilterMass[i]+sample), float64(c.DryFilterMass[i])) < 0 {
			return r, calc.Refuse("dry-filter-mass", c.DryFilterMass[i],
				"from filter-mass %v up to that with the sample of %v", c.FilterMass[i], sample)
		}
		values[i] = min(float64(pad/sample), 1)
		rounding = max(rounding, 4e-16*float64(c.DryFilterMass[i]/sample))
		r.SampleConsistency = append(r.SampleConsistency, paperprop.Consistency(values[i]))
	}
	mean := result.Mean(values)
	r.Consistency = paperprop.Consistency(mean)
	if span := slices.Max(values) - slices.Min(values); mean > 0 && span > rounding {
		r.ConsistencyRange = paperprop.Fraction(span / mean)
	}
	return r, nil
}

var consistency = &calc.Description[Consistency, ConsistencyResult]{
	Name:    "consistency",
	Title:   "Consistency of stock by filtration",
	Answers: "How much of a stock the filter keeps, from replicate samples weighed before and after.",
	Formula: []string{"c_i = (m_df - m_f)/m_s", "c = mean(c_i)", "r_c = (most(c_i) - least(c_i))/c"},
	Source:  "definition as in GB/T 5399-1985, which adapts ISO 4119-1978 (seen)",
	Status:  calc.Published,
	Example: "sample-mass=[251.3 248.8] g; filter-mass=[1.118 1.124] g; dry-filter-mass=[10.744 10.702] g",
	Mistakes: []string{
		"What the filter lets through, dissolved matter and fine filler, is not in it.",
		"Grams of dry fibre in 100 mL are not per cent: stock is not as dense as water.",
	},
	Compute: Consistency.compute,
	Fields: func(f *calc.Form, in *Consistency, out *ConsistencyResult) {
		f.Even(
			calc.InList(f, &in.SampleMass, "sample-mass", "m_s", "g", "stock as sampled, one for each replicate").Above(0),
			calc.InList(f, &in.FilterMass, "filter-mass", "m_f", "g", "filter alone, dried"),
			calc.InList(f, &in.DryFilterMass, "dry-filter-mass", "m_df", "g", "filter with its pad, dried at 105 degC"),
		)
		calc.OutList(f, &out.SampleConsistency, "sample-consistency", "c_i", "%", "of each replicate")
		calc.Out(f, &out.Consistency, "consistency", "c", "%", "mean of the replicates").
			Unreported("reporting digits of ISO 4119 and T 240 not verified: none applied")
		calc.Out(f, &out.ConsistencyRange, "consistency-range", "r_c", "%", "largest minus smallest over the mean")
	},
}
