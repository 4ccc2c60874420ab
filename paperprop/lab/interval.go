package lab

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// inConfidence binds the confidence of a two-sided interval.
func inConfidence(f *calc.Form, p *paperprop.Fraction, help string) {
	calc.In(f, p, "confidence", "P", "%", help).Above(50).Below(100).Default(95)
}

// beyond returns the probability beyond each end of an interval.
func beyond(confidence paperprop.Fraction) float64 { return (1 - float64(confidence)) / 2 }

// student returns the half-width of an interval of that confidence, in standard
// uncertainties.
func student(confidence paperprop.Fraction, degreesOfFreedom float64) float64 {
	return -result.StudentT(beyond(confidence), degreesOfFreedom)
}

// atLeast refuses a list of fewer than n values.
func atLeast(n int, input string, values []float64) error {
	if len(values) >= n {
		return nil
	}
	return calc.Refuse(input, calc.Members(len(values)), "at least %v", calc.Members(n))
}

// MeanInterval is the confidence interval of a mean, from summary figures alone.
type MeanInterval struct {
	Count             paperprop.Count    // of readings, 2 or more
	Mean              float64            // of the readings
	StandardDeviation float64            // with n − 1, zero or above
	Confidence        paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
}

// MeanIntervalResult is the interval of the mean.
type MeanIntervalResult struct {
	HalfWidth              float64
	Lower, Upper           float64
	CoefficientOfVariation *paperprop.Fraction // nil unless Mean is above zero
	t                      paperprop.Ratio
}

// Calculate returns the interval x̄ ± t·s/√n.
func (m MeanInterval) Calculate() (MeanIntervalResult, error) { return meanInterval.Calculate(m) }

func (m MeanInterval) compute() (MeanIntervalResult, error) {
	n, s := float64(m.Count), m.StandardDeviation
	t := student(m.Confidence, n-1)
	h := t * s / math.Sqrt(n)
	r := MeanIntervalResult{HalfWidth: h, Lower: m.Mean - h, Upper: m.Mean + h, t: paperprop.Ratio(t)}
	if m.Mean > 0 {
		v := paperprop.Fraction(s / m.Mean)
		r.CoefficientOfVariation = &v
	}
	return r, nil
}

var meanInterval = &calc.Description[MeanInterval, MeanIntervalResult]{
	Name:    "mean-interval",
	Title:   "Confidence interval of a mean",
	Answers: "Between which values the true mean lies, from the number, mean and standard deviation of readings.",
	Formula: []string{"h = t*s/sqrt(n)", "x_lo = x_m - h", "x_up = x_m + h", "v = s/x_m"},
	Method:  "t is the quantile of Student's t with n - 1 degrees of freedom at (1 + P)/2",
	Source:  "definition; readings that are normal and independent",
	Status:  calc.CommonPractice,
	Example: "count=10; mean=2.34 kN/m; standard-deviation=0.09 kN/m",
	Mistakes: []string{
		"With the normal 1.96 in place of t the interval of five readings is too narrow by 29 %.",
		"s is that of single readings; divided by the root of n already, it must not be so again.",
		"The interval is for the mean: single readings scatter more widely, by the root of n.",
	},
	Compute: MeanInterval.compute,
	Fields: func(f *calc.Form, in *MeanInterval, out *MeanIntervalResult) {
		calc.In(f, &in.Count, "count", "n", "1", "readings").From(2)
		calc.InValue(f, &in.Mean, "mean", "x_m", "any", "of the readings")
		calc.InValue(f, &in.StandardDeviation, "standard-deviation", "s", "difference of mean", "of single readings, with n - 1").From(0)
		inConfidence(f, &in.Confidence, "of the interval")
		calc.OutValue(f, &out.HalfWidth, "half-width", "h", "difference of mean", "of the interval")
		calc.OutValue(f, &out.Lower, "lower", "x_lo", "as mean", "mean - half-width")
		calc.OutValue(f, &out.Upper, "upper", "x_up", "as mean", "mean + half-width")
		calc.OutPointer(f, &out.CoefficientOfVariation, "coefficient-of-variation", "v", "%", "s over mean, which is above zero").ShareOf("mean")
		calc.Between(f, &out.t, "t", "1", "quantile of Student's t")
	},
}

// StudentT is a quantile of Student's distribution.
type StudentT struct {
	DegreesOfFreedom paperprop.Ratio    // above zero, not necessarily whole
	Probability      paperprop.Fraction // of a value below the quantile: above 0 %, below 100 %
}

// StudentTResult is the quantile.
type StudentTResult struct {
	Quantile paperprop.Ratio
}

// Calculate returns the t that is not exceeded with the given probability.
func (s StudentT) Calculate() (StudentTResult, error) { return studentT.Calculate(s) }

func (s StudentT) compute() (StudentTResult, error) {
	return StudentTResult{paperprop.Ratio(result.StudentT(float64(s.Probability), float64(s.DegreesOfFreedom)))}, nil
}

var studentT = &calc.Description[StudentT, StudentTResult]{
	Name:    "student-t",
	Title:   "Quantile of Student's t",
	Answers: "Which value Student's t stays below with a given probability.",
	Method:  "root of the incomplete beta function in the logarithms of t and of the smaller tail; a series about the normal quantile above 4000 degrees of freedom",
	Source:  "mpmath 1.2.1, root of the regularised incomplete beta function",
	Status:  calc.Library,
	Example: "degrees-of-freedom=9; probability=97.5 %",
	Mistakes: []string{
		"The probability is one-sided: an interval of 95 % takes the quantile at 97.5 %.",
		"n readings have n - 1 degrees of freedom, a fitted line n - 2.",
	},
	Compute: StudentT.compute,
	Fields: func(f *calc.Form, in *StudentT, out *StudentTResult) {
		calc.In(f, &in.DegreesOfFreedom, "degrees-of-freedom", "nu", "1", "need not be whole").Above(0)
		calc.In(f, &in.Probability, "probability", "p", "%", "one-sided, below").Above(0).Below(100)
		calc.Out(f, &out.Quantile, "quantile", "t", "1", "of Student's t")
	},
}

// SampleSize is the number of readings needed for a mean.
type SampleSize struct {
	CoefficientOfVariation paperprop.Fraction // of single readings, above zero
	RelativeHalfWidth      paperprop.Fraction // wanted half-width of the interval over the mean, above zero
	Confidence             paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
}

// SampleSizeResult is the number of readings.
type SampleSizeResult struct {
	Count       paperprop.Count // the smallest that is enough
	NormalCount paperprop.Count // by the normal distribution; too small for few readings
}

// Calculate returns the smallest n for which t(n − 1)·v/√n is at most h.
func (s SampleSize) Calculate() (SampleSizeResult, error) { return sampleSize.Calculate(s) }

// mostReadings is far more than anybody takes.
const mostReadings = 1e9

func (s SampleSize) compute() (SampleSizeResult, error) {
	ratio := float64(s.RelativeHalfWidth) / float64(s.CoefficientOfVariation)
	needed := func(degreesOfFreedom float64) float64 {
		q := student(s.Confidence, degreesOfFreedom) / ratio
		return q * q
	}
	normal := max(2, math.Ceil(needed(math.Inf(1))))
	if !(ratio > 0 && normal <= mostReadings) { // draws about a width can fall below zero
		return SampleSizeResult{}, calc.Refuse("relative-half-width", s.RelativeHalfWidth, "wide enough for at most 1e9 readings")
	}
	n := normal
	for needed(n-1) > n {
		n++
	}
	return SampleSizeResult{paperprop.Count(n), paperprop.Count(normal)}, nil
}

var sampleSize = &calc.Description[SampleSize, SampleSizeResult]{
	Name:    "sample-size",
	Title:   "Readings for an interval of given width",
	Answers: "How many readings a mean needs to be known to within some per cent.",
	Method:  "the smallest n, at least 2, with t(n - 1)*v/sqrt(n) at most h; t depends on n, so n is counted up from the normal answer",
	Source:  "confidence interval of a mean by Student's t",
	Status:  calc.CommonPractice,
	Example: "coefficient-of-variation=6 %; relative-half-width=2 %",
	Mistakes: []string{
		"The normal formula (z*v/h)^2 says 35 readings at v = 6 %, h = 2 %, where 38 are needed.",
		"Half the width needs four times the readings.",
		"Readings from one spot say nothing of the reel: they must be as independent as the question asks.",
	},
	Compute: SampleSize.compute,
	Fields: func(f *calc.Form, in *SampleSize, out *SampleSizeResult) {
		calc.In(f, &in.CoefficientOfVariation, "coefficient-of-variation", "v", "%", "of single readings").Above(0)
		calc.In(f, &in.RelativeHalfWidth, "relative-half-width", "h", "%", "wanted, of the mean").Above(0)
		inConfidence(f, &in.Confidence, "of the interval")
		calc.Out(f, &out.Count, "count", "n", "1", "smallest number that does")
		calc.Out(f, &out.NormalCount, "normal-count", "n_z", "1", "with the normal quantile for t: too small for few readings")
	},
}
