package lab

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Replicates is repeated readings of the same quantity.
type Replicates struct {
	Value      []float64          // one or more
	Confidence paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
}

// ReplicatesResult is the statistics of the readings. Those that need two readings
// are nil if there is one.
type ReplicatesResult struct {
	Count                  paperprop.Count
	Mean                   float64
	StandardDeviation      *float64            // with n − 1
	CoefficientOfVariation *paperprop.Fraction // nil unless Mean is above zero
	HalfWidth              *float64            // of the confidence interval of the mean
	Lower, Upper           *float64
	Minimum, Maximum       float64
	Median                 float64
	Range                  *float64
	CriticalDifference     *float64         // of two single readings
	Autocorrelation        *paperprop.Ratio // at lag 1; nil if all readings are equal
	Warnings               calc.Warnings
}

// Calculate returns the statistics, in two passes over the readings.
func (r Replicates) Calculate() (ReplicatesResult, error) { return replicates.Calculate(r) }

var singleReading = calc.Warnings{{Code: "single-reading", Text: "one reading has no standard deviation, interval or coefficient of variation"}}

func (r Replicates) compute() (ReplicatesResult, error) {
	s, err := result.Summarise(r.Value, float64(r.Confidence))
	if err != nil {
		return ReplicatesResult{}, aboutError{err, "value"}
	}
	out := ReplicatesResult{
		Count: paperprop.Count(s.Count), Mean: s.Mean, Minimum: s.Minimum, Maximum: s.Maximum, Median: *s.Median,
		StandardDeviation: s.StandardDeviation, HalfWidth: s.HalfWidth, Lower: s.Lower, Upper: s.Upper,
		CriticalDifference: s.CriticalDifference, Range: s.Range,
		CoefficientOfVariation: (*paperprop.Fraction)(s.CoefficientOfVariation),
		Autocorrelation:        (*paperprop.Ratio)(s.Autocorrelation),
	}
	if s.Count == 1 {
		out.Warnings = singleReading
	}
	return out, nil
}

var replicates = &calc.Description[Replicates, ReplicatesResult]{
	Name:    "replicates",
	Title:   "What replicate readings say",
	Answers: "Mean, spread (standard deviation, CV) and confidence interval of readings, and by how much two single ones may differ.",
	Formula: []string{"n = count(x)", "x_m = mean(x)", "s = sqrt(sum((x - x_m)*(x - x_m))/(n - 1))", "v = s/x_m", "R = x_max - x_min"},
	Method: "s by two passes with the mean of the deviations taken off; half-width t*s/sqrt(n) with Student's t; " +
		"critical difference z*sqrt(2)*s with the normal quantile; lag-1 autocorrelation of the order given",
	Source:  "definitions; checked on the NIST StRD univariate sets",
	Status:  calc.Published,
	Example: "value=[17.4 18.1 17.7 18.6 17.9] lbf/in",
	Mistakes: []string{
		"An outlier is shown, never removed without a physical reason.",
		"Readings that follow one another in the machine direction are not independent: see the autocorrelation.",
	},
	Compute: Replicates.compute,
	Fields: func(f *calc.Form, in *Replicates, out *ReplicatesResult) {
		calc.InValues(f, &in.Value, "value", "x", "any", "readings")
		calc.In(f, &in.Confidence, "confidence", "P", "%", "of the interval").Above(50).Below(100).Default(95)
		calc.Out(f, &out.Count, "count", "n", "1", "readings")
		calc.OutValue(f, &out.Mean, "mean", "x_m", "as value", "of the readings")
		calc.OutValuePointer(f, &out.StandardDeviation, "standard-deviation", "s", "difference of value", "n - 1")
		calc.OutPointer(f, &out.CoefficientOfVariation, "coefficient-of-variation", "v", "%", "s over mean").ShareOf("value")
		calc.OutValuePointer(f, &out.HalfWidth, "half-width", "h", "difference of value", "of the confidence interval of the mean")
		calc.OutValuePointer(f, &out.Lower, "lower", "x_lo", "as value", "mean - half-width")
		calc.OutValuePointer(f, &out.Upper, "upper", "x_up", "as value", "mean + half-width")
		calc.OutValue(f, &out.Minimum, "minimum", "x_min", "as value", "smallest reading")
		calc.OutValue(f, &out.Maximum, "maximum", "x_max", "as value", "largest reading")
		calc.OutValue(f, &out.Median, "median", "x_med", "as value", "middle reading")
		calc.OutValuePointer(f, &out.Range, "range", "R", "difference of value", "maximum - minimum")
		calc.OutValuePointer(f, &out.CriticalDifference, "critical-difference", "r", "difference of value", "of two single readings")
		calc.OutPointer(f, &out.Autocorrelation, "autocorrelation", "r_1", "1", "lag 1; far from zero the interval is wrong")
		f.Warnings(&out.Warnings)
	},
}
