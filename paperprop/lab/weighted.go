package lab

import (
	"math"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// PooledDeviation is the pooled standard deviation of several groups.
type PooledDeviation struct {
	StandardDeviation []float64         // of each group, zero or above
	Count             []paperprop.Count // of readings in each, 2 or more
}

// PooledDeviationResult is the standard deviation within the groups.
type PooledDeviationResult struct {
	PooledStandardDeviation float64
	DegreesOfFreedom        paperprop.Count
}

// Calculate weights the variances by their degrees of freedom.
func (p PooledDeviation) Calculate() (PooledDeviationResult, error) {
	return pooledDeviation.Calculate(p)
}

func (p PooledDeviation) compute() (PooledDeviationResult, error) {
	var squares, freedom float64
	for i, s := range p.StandardDeviation {
		nu := float64(p.Count[i]) - 1
		squares += nu * s * s
		freedom += nu
	}
	return PooledDeviationResult{math.Sqrt(squares / freedom), paperprop.Count(freedom)}, nil
}

var pooledDeviation = &calc.Description[PooledDeviation, PooledDeviationResult]{
	Name:    "pooled-deviation",
	Title:   "Pooled standard deviation",
	Answers: "Which standard deviation several groups of readings have in common, each about its own mean.",
	Formula: []string{"s_p = sqrt(sum((n - 1)*s*s)/sum(n - 1))", "nu = sum(n - 1)"},
	Source:  "definition; the groups scatter alike",
	Status:  calc.CommonPractice,
	Example: "standard-deviation=[0.12 0.09 0.15] kN/m; count=[10 8 5]",
	Mistakes: []string{
		"The mean of standard deviations is not a standard deviation: squares are averaged, by degrees of freedom.",
		"All readings thrown together have a larger s: the differences between the groups are in it.",
	},
	Compute: PooledDeviation.compute,
	Fields: func(f *calc.Form, in *PooledDeviation, out *PooledDeviationResult) {
		f.Even(
			calc.InValues(f, &in.StandardDeviation, "standard-deviation", "s", "any", "of each group").Deviation().From(0),
			calc.InList(f, &in.Count, "count", "n", "1", "readings in each group").From(2),
		)
		calc.OutValue(f, &out.PooledStandardDeviation, "pooled-standard-deviation", "s_p", "as standard-deviation", "within the groups")
		calc.Out(f, &out.DegreesOfFreedom, "degrees-of-freedom", "nu", "1", "of the pooled one")
	},
}

// WeightedMean is a weighted mean.
type WeightedMean struct {
	Value  []float64
	Weight []float64 // of each, zero or above, not all zero
}

// WeightedMeanResult is the mean, and the spread of the values about it.
type WeightedMeanResult struct {
	Mean, Spread float64
}

// Calculate returns the mean Σwx/Σw.
func (w WeightedMean) Calculate() (WeightedMeanResult, error) { return weightedMean.Calculate(w) }

func (w WeightedMean) compute() (WeightedMeanResult, error) {
	if !slices.ContainsFunc(w.Weight, func(w float64) bool { return w != 0 }) {
		return WeightedMeanResult{}, calc.Refuse("weight", paperprop.Ratio(0), "a sum above zero")
	}
	mean, sum := weigh(w.Value, w.Weight)
	squares, alike := 0.0, true
	for i, x := range w.Value {
		d := x - mean
		squares += w.Weight[i] * d * d
		alike = alike && (w.Weight[i] == 0 || math.Abs(d) <= result.LastDigits*math.Abs(x))
	}
	if alike {
		squares = 0 // drops what rounding of the mean left
	}
	return WeightedMeanResult{mean, math.Sqrt(squares / sum)}, nil
}

// weigh returns the weighted mean and the sum of the weights.
func weigh(values, weights []float64) (mean, sum float64) {
	for i, x := range values {
		mean += weights[i] * x
		sum += weights[i]
	}
	return mean / sum, sum
}

var weightedMean = &calc.Description[WeightedMean, WeightedMeanResult]{
	Name:    "weighted-mean",
	Title:   "Weighted mean",
	Answers: "What the mean of a lot is when its parts are of different size.",
	Formula: []string{"x_m = sum(w*x)/sum(w)", "s = sqrt(sum(w*(x - x_m)*(x - x_m))/sum(w))"},
	Source:  "definition",
	Status:  calc.CommonPractice,
	Example: "value=[8.7 12.4 10.6] %; weight=[575 630 604] kg",
	Mistakes: []string{
		"Moistures are weighted by moist mass, consistencies by stock: by what the quotient has below the stroke.",
		"The spread is that of the parts, not the uncertainty of the mean.",
	},
	Compute: WeightedMean.compute,
	Fields: func(f *calc.Form, in *WeightedMean, out *WeightedMeanResult) {
		f.Even(
			calc.InValues(f, &in.Value, "value", "x", "any", "of each part"),
			calc.InValues(f, &in.Weight, "weight", "w", "any", "of each, not all zero").From(0),
		)
		calc.OutValue(f, &out.Mean, "mean", "x_m", "as value", "weighted")
		calc.OutValue(f, &out.Spread, "spread", "s", "difference of value", "root of the weighted mean square about it")
	},
}

// VarianceWeightedMean is the mean of results for the same quantity with different
// uncertainties.
type VarianceWeightedMean struct {
	Value               []float64
	StandardUncertainty []float64 // of each, above zero
}

// VarianceWeightedMeanResult is the mean, and its standard uncertainty.
type VarianceWeightedMeanResult struct {
	Mean, MeanUncertainty float64
}

// Calculate weights each result by 1/u².
func (v VarianceWeightedMean) Calculate() (VarianceWeightedMeanResult, error) {
	return varianceWeightedMean.Calculate(v)
}

func (v VarianceWeightedMean) compute() (VarianceWeightedMeanResult, error) {
	best := slices.Min(v.StandardUncertainty)
	weights := make([]float64, len(v.Value))
	for i, u := range v.StandardUncertainty {
		weights[i] = best / u * (best / u) // relative to the best, so that the square of a small u stays a number
	}
	mean, sum := weigh(v.Value, weights)
	return VarianceWeightedMeanResult{mean, best / math.Sqrt(sum)}, nil
}

var varianceWeightedMean = &calc.Description[VarianceWeightedMean, VarianceWeightedMeanResult]{
	Name:    "variance-weighted-mean",
	Title:   "Mean weighted by uncertainty",
	Answers: "Which value several independent results of one thing give together.",
	Formula: []string{"x_m = sum(x/(u*u))/sum(1/(u*u))", "u_m = 1/sqrt(sum(1/(u*u)))"},
	Source:  "least squares of independent results",
	Status:  calc.CommonPractice,
	Example: "value=[26.1 25.4 25.9] psi; standard-uncertainty=[0.2 0.4 0.25] psi",
	Mistakes: []string{
		"The uncertainty of the mean tells nothing of results that contradict each other: look at them first.",
		"A common source of error (one calibration) does not average out.",
	},
	Compare: []calc.Comparison{{Name: "weighted-mean", Inputs: "value=[26.1 25.4 25.9] psi; weight=[10 10 10]",
		Why: "weights of one's own, here equal: how many readings lie behind each result"}},
	Compute: VarianceWeightedMean.compute,
	Fields: func(f *calc.Form, in *VarianceWeightedMean, out *VarianceWeightedMeanResult) {
		f.Even(
			calc.InValues(f, &in.Value, "value", "x", "any", "results of one thing"),
			calc.InValues(f, &in.StandardUncertainty, "standard-uncertainty", "u", "difference of value", "of each").Above(0),
		)
		calc.OutValue(f, &out.Mean, "mean", "x_m", "as value", "weighted by 1/u^2")
		calc.OutValue(f, &out.MeanUncertainty, "mean-uncertainty", "u_m", "difference of value", "standard uncertainty of the mean")
	},
}
