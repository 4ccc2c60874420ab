package lab

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// CompareSamples compares the means of two samples that may spread differently.
type CompareSamples struct {
	FirstValue  []float64          // 2 or more
	SecondValue []float64          // 2 or more, of the other sample; at least one of the samples has some spread
	Confidence  paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
}

// CompareSamplesResult is the difference of the means, with its interval.
type CompareSamplesResult struct {
	Difference       float64 // first minus second
	DegreesOfFreedom paperprop.Ratio
	HalfWidth        float64
	Lower, Upper     float64 // if zero lies outside them, chance alone hardly explains the difference
	t                paperprop.Ratio
}

// Calculate returns Welch's interval.
func (c CompareSamples) Calculate() (CompareSamplesResult, error) { return compareSamples.Calculate(c) }

func (c CompareSamples) compute() (CompareSamplesResult, error) {
	if err := atLeast(2, "first-value", c.FirstValue); err != nil {
		return CompareSamplesResult{}, err
	}
	if err := atLeast(2, "second-value", c.SecondValue); err != nil {
		return CompareSamplesResult{}, err
	}
	// u is the standard uncertainty of a mean, nu its degrees of freedom.
	u1, nu1 := ofMean(c.FirstValue)
	u2, nu2 := ofMean(c.SecondValue)
	u := math.Hypot(u1, u2)
	if u == 0 {
		return CompareSamplesResult{}, calc.Refuse("second-value", calc.Members(len(c.SecondValue)), "some spread in one of the samples")
	}
	a, b := u1/u, u2/u
	nu := 1 / (math.Pow(a, 4)/nu1 + math.Pow(b, 4)/nu2)
	t := student(c.Confidence, nu)
	d, h := result.Mean(c.FirstValue)-result.Mean(c.SecondValue), t*u
	return CompareSamplesResult{d, paperprop.Ratio(nu), h, d - h, d + h, paperprop.Ratio(t)}, nil
}

func ofMean(x []float64) (uncertainty, degreesOfFreedom float64) {
	s, _ := result.StandardDeviation(x)
	n := float64(len(x))
	return s / math.Sqrt(n), n - 1
}

func outDifference(f *calc.Form, halfWidth, lower, upper *float64, help string) {
	calc.OutValue(f, halfWidth, "half-width", "h", "difference of first-value", help)
	calc.OutValue(f, lower, "lower", "d_lo", "difference of first-value", "difference - half-width")
	calc.OutValue(f, upper, "upper", "d_up", "difference of first-value", "difference + half-width")
}

const (
	formulaLower  = "d_lo = d - h"
	formulaUpper  = "d_up = d + h"
	examplePaired = "first-value=[7.6 7.4 8.1 7.9] %; second-value=[7.4 7.3 7.8 7.8] %"
)

var compareSamples = &calc.Description[CompareSamples, CompareSamplesResult]{
	Name:    "compare-samples",
	Title:   "Difference of two samples",
	Answers: "By how much the means of two independent samples differ, and whether by more than chance (t-test).",
	Formula: []string{
		"d = mean(x) - mean(y)",
		"v_x = sum((x - mean(x))*(x - mean(x)))/(count(x) - 1)/count(x)",
		"v_y = sum((y - mean(y))*(y - mean(y)))/(count(y) - 1)/count(y)",
		"nu = pow(v_x + v_y, 2)/(v_x*v_x/(count(x) - 1) + v_y*v_y/(count(y) - 1))",
		"h = t*sqrt(v_x + v_y)", formulaLower, formulaUpper,
	},
	Method:  "t is the quantile of Student's t with nu degrees of freedom, not rounded, at (1 + P)/2",
	Source:  "Welch's test with the degrees of freedom of Satterthwaite",
	Status:  calc.CommonPractice,
	Example: "first-value=[2.31 2.24 2.42 2.28 2.36] kN/m; second-value=[2.19 2.33 2.07 2.20] kN/m",
	Mistakes: []string{
		"Two intervals that overlap may still differ: the interval of the difference counts.",
		"Readings of the same pieces are pairs, not two samples: their common scatter drops out.",
		"No difference seen is no proof that there is none: look at the width of the interval.",
	},
	Compare: []calc.Comparison{
		{Inputs: examplePaired, Why: "two instruments on the same four pieces, taken as if the pieces were others"},
		{Name: "compare-pairs", Inputs: examplePaired, Why: "the same readings as pairs: what the pieces differ in drops out"},
	},
	Compute: CompareSamples.compute,
	Fields: func(f *calc.Form, in *CompareSamples, out *CompareSamplesResult) {
		calc.InValues(f, &in.FirstValue, "first-value", "x", "any", "readings of a sample, at least 2")
		calc.InValues(f, &in.SecondValue, "second-value", "y", "as first-value", "of another sample, at least 2")
		inConfidence(f, &in.Confidence, "of the interval")
		calc.OutValue(f, &out.Difference, "difference", "d", "difference of first-value", "mean of first less mean of second")
		calc.Out(f, &out.DegreesOfFreedom, "degrees-of-freedom", "nu", "1", "Welch-Satterthwaite, not rounded")
		outDifference(f, &out.HalfWidth, &out.Lower, &out.Upper, "of the interval of the difference")
		calc.Between(f, &out.t, "t", "1", "quantile of Student's t")
	},
}

// ComparePairs compares two readings on each of several pieces.
type ComparePairs struct {
	FirstValue  []float64          // 2 or more
	SecondValue []float64          // of the same pieces, in the same order
	Confidence  paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
}

// ComparePairsResult is the mean difference of the readings, with its interval.
type ComparePairsResult struct {
	Difference        float64 // first minus second
	StandardDeviation float64 // of the differences
	HalfWidth         float64
	Lower, Upper      float64
	t                 paperprop.Ratio
}

// Calculate returns the interval of the mean difference.
func (c ComparePairs) Calculate() (ComparePairsResult, error) { return comparePairs.Calculate(c) }

func (c ComparePairs) compute() (ComparePairsResult, error) {
	if err := atLeast(2, "first-value", c.FirstValue); err != nil {
		return ComparePairsResult{}, err
	}
	differences := make([]float64, len(c.FirstValue))
	for i, x := range c.FirstValue {
		// In decimals, so that 7.6 less 7.5 and 8.1 less 8.0 are the same.
		differences[i] = result.Exact(x).Sub(result.Exact(c.SecondValue[i])).InexactFloat64()
	}
	s, _ := result.StandardDeviation(differences)
	u, nu := ofMean(differences)
	t := student(c.Confidence, nu)
	d, h := result.Mean(differences), t*u
	return ComparePairsResult{d, s, h, d - h, d + h, paperprop.Ratio(t)}, nil
}

var comparePairs = &calc.Description[ComparePairs, ComparePairsResult]{
	Name:    "compare-pairs",
	Title:   "Difference of pairs",
	Answers: "By how much two methods differ on the same pieces, and whether by more than chance (paired t-test).",
	Formula: []string{
		"d = mean(x - y)", "s = sqrt(sum((x - y - d)*(x - y - d))/(count(x) - 1))", "h = t*s/sqrt(count(x))", formulaLower, formulaUpper,
	},
	Method:  "t is the quantile of Student's t with n - 1 degrees of freedom at (1 + P)/2",
	Source:  "confidence interval of a mean, of the differences",
	Status:  calc.CommonPractice,
	Example: examplePaired,
	Mistakes: []string{
		"The pieces must be the same and in the same order: half a sheet each is a pair, two sheets are not.",
		"A difference that grows with the value is not a constant: plot it, or fit a line.",
	},
	Compare: []calc.Comparison{{Name: "compare-samples", Inputs: examplePaired, Why: "the same readings as if they were of other pieces: the interval is wider"}},
	Compute: ComparePairs.compute,
	Fields: func(f *calc.Form, in *ComparePairs, out *ComparePairsResult) {
		f.Even(
			calc.InValues(f, &in.FirstValue, "first-value", "x", "any", "one reading of each piece, at least 2"),
			calc.InValues(f, &in.SecondValue, "second-value", "y", "as first-value", "the other reading of each"),
		)
		inConfidence(f, &in.Confidence, "of the interval")
		calc.OutValue(f, &out.Difference, "difference", "d", "difference of first-value", "mean of the differences")
		calc.OutValue(f, &out.StandardDeviation, "standard-deviation", "s", "difference of first-value", "of the differences")
		outDifference(f, &out.HalfWidth, &out.Lower, &out.Upper, "of the interval of the difference, n - 1 degrees of freedom")
		calc.Between(f, &out.t, "t", "1", "quantile of Student's t")
	},
}
