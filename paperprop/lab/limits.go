package lab

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// PrecisionLimits is the limits for differences that follow from the standard
// deviations of a precision statement.
type PrecisionLimits struct {
	Mean                     float64         // of the material, above zero
	RepeatabilityDeviation   float64         // within a laboratory, zero or above
	ReproducibilityDeviation float64         // between laboratories, at least RepeatabilityDeviation
	Factor                   paperprop.Ratio // 2.8, 2.77 ...; above zero
}

// PrecisionLimitsResult is the largest differences to expect between two results.
type PrecisionLimitsResult struct {
	RepeatabilityLimit       float64
	ReproducibilityLimit     float64
	RepeatabilityVariation   paperprop.Fraction // of the mean
	ReproducibilityVariation paperprop.Fraction
}

// Calculate returns the limits f·s.
func (p PrecisionLimits) Calculate() (PrecisionLimitsResult, error) {
	return precisionLimits.Calculate(p)
}

func (p PrecisionLimits) compute() (PrecisionLimitsResult, error) {
	sr, sR, f := p.RepeatabilityDeviation, p.ReproducibilityDeviation, float64(p.Factor)
	if sR < sr {
		return PrecisionLimitsResult{}, calc.Refuse("reproducibility-deviation", paperprop.Ratio(sR),
			"at least repeatability-deviation %v, which it includes", paperprop.Ratio(sr))
	}
	return PrecisionLimitsResult{f * sr, f * sR, paperprop.Fraction(sr / p.Mean), paperprop.Fraction(sR / p.Mean)}, nil
}

// factorHelp names the factors in use.
const factorHelp = "2.8 (ISO 5725, ASTM), 2.77 (TAPPI, memory), 2.771808 exact: no default"

// inFactor binds the factor from a standard deviation to a limit.
func inFactor(f *calc.Form, p *paperprop.Ratio) {
	calc.In(f, p, "factor", "f", "1", factorHelp).Above(0)
}

var precisionLimits = &calc.Description[PrecisionLimits, PrecisionLimitsResult]{
	Name:    "precision-limits",
	Title:   "Limits from a precision statement",
	Answers: "By how much two results may differ in one laboratory and between two.",
	Formula: []string{"r = f*s_r", "R = f*s_R", "v_r = s_r/m", "v_R = s_R/m"},
	Source:  "public page on precision values of aggregates testing with its formulas page (r = 2.8 s)",
	Status:  calc.Published,
	Example: "mean=0.539 %; repeatability-deviation=0.021 %; reproducibility-deviation=0.057 %; factor=2.8",
	Mistakes: []string{
		"A standard deviation is not a limit: the limit is 2.8 times as wide.",
		"A test result of several determinations has a smaller deviation than a determination: know which one the statement means.",
	},
	Compare: []calc.Comparison{{Inputs: "mean=0.539 %; repeatability-deviation=0.021 %; reproducibility-deviation=0.057 %; factor=2.77",
		Why: "TAPPI prints 2.77 (memory): 1.1 % narrower than 2.8"}},
	Compute: PrecisionLimits.compute,
	Fields: func(f *calc.Form, in *PrecisionLimits, out *PrecisionLimitsResult) {
		calc.InValue(f, &in.Mean, "mean", "m", "any", "of the material").Above(0)
		calc.InValue(f, &in.RepeatabilityDeviation, "repeatability-deviation", "s_r", "difference of mean", "within a laboratory").From(0)
		calc.InValue(f, &in.ReproducibilityDeviation, "reproducibility-deviation", "s_R", "difference of mean", "between laboratories, at least the other").From(0)
		inFactor(f, &in.Factor)
		calc.OutValue(f, &out.RepeatabilityLimit, "repeatability-limit", "r", "difference of mean", "of two results of one laboratory")
		calc.OutValue(f, &out.ReproducibilityLimit, "reproducibility-limit", "R", "difference of mean", "of results of two laboratories")
		calc.Out(f, &out.RepeatabilityVariation, "repeatability-variation", "v_r", "%", "of the mean").ShareOf("mean")
		calc.Out(f, &out.ReproducibilityVariation, "reproducibility-variation", "v_R", "%", "of the mean").ShareOf("mean")
	},
}

// RangeFactor is the factor of a critical range.
type RangeFactor struct {
	Count      paperprop.Count    // results compared, 2 to 100
	Confidence paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
}

// RangeFactorResult is the factor.
type RangeFactorResult struct {
	Factor paperprop.Ratio
}

// Calculate returns the quantile of the studentised range, for infinitely many
// degrees of freedom.
func (r RangeFactor) Calculate() (RangeFactorResult, error) { return rangeFactor.Calculate(r) }

func (r RangeFactor) compute() (RangeFactorResult, error) {
	return RangeFactorResult{paperprop.Ratio(result.StudentizedRange(float64(r.Confidence), int(r.Count)))}, nil
}

var rangeFactor = &calc.Description[RangeFactor, RangeFactorResult]{
	Name:    "range-factor",
	Title:   "Factor of a critical range",
	Answers: "How many standard deviations the largest and smallest of several results may lie apart.",
	Method:  "quantile of the studentised range for infinitely many degrees of freedom; of two results z*sqrt(2)",
	Source:  "scipy 1.10.1 studentized_range; ISO 5725-6 prints one decimal (memory)",
	Status:  calc.Library,
	Example: "count=3",
	Mistakes: []string{
		"2.8 is for two results; of four the range may be 3.6 standard deviations.",
		"It takes the standard deviation of the method as known, not one from the results themselves.",
	},
	Compute: RangeFactor.compute,
	Fields: func(f *calc.Form, in *RangeFactor, out *RangeFactorResult) {
		calc.In(f, &in.Count, "count", "n", "1", "results compared").From(2).UpTo(100)
		inConfidence(f, &in.Confidence, "that results of one thing lie no farther apart")
		calc.Out(f, &out.Factor, "factor", "f", "1", "critical range over standard deviation")
	},
}

// CriticalDifference is the largest difference to expect between two means.
type CriticalDifference struct {
	RepeatabilityLimit   float64         // zero or above
	ReproducibilityLimit float64         // at least RepeatabilityLimit
	FirstCount           paperprop.Count // of results in the first mean; zero stands for 1
	SecondCount          paperprop.Count // in the second; zero stands for 1
}

// CriticalDifferenceResult is that difference, within a laboratory and between two.
type CriticalDifferenceResult struct {
	SameLaboratoryDifference  float64
	TwoLaboratoriesDifference float64
}

// Calculate reduces the limits by what the means average out.
func (c CriticalDifference) Calculate() (CriticalDifferenceResult, error) {
	return criticalDifference.Calculate(c)
}

func (c CriticalDifference) compute() (CriticalDifferenceResult, error) {
	r, R := c.RepeatabilityLimit, c.ReproducibilityLimit
	if R < r {
		return CriticalDifferenceResult{}, calc.Refuse("reproducibility-limit", paperprop.Ratio(R),
			"at least repeatability-limit %v, which it includes", paperprop.Ratio(r))
	}
	same := r * math.Sqrt(1/(2*float64(c.FirstCount))+1/(2*float64(c.SecondCount)))
	between := math.Sqrt((R - r) * (R + r)) // of laboratories, without that of readings
	return CriticalDifferenceResult{same, math.Hypot(between, same)}, nil
}

var criticalDifference = &calc.Description[CriticalDifference, CriticalDifferenceResult]{
	Name:    "critical-difference",
	Title:   "Critical difference of two means",
	Answers: "By how much the means of two laboratories, or of one, may differ.",
	Formula: []string{"d_r = r*sqrt(1/(2*n_1) + 1/(2*n_2))", "d_R = sqrt(R*R - r*r*(1 - 1/(2*n_1) - 1/(2*n_2)))"},
	Source:  "ISO 5725-6:1994 clause 4.2 (memory)",
	Status:  calc.Memory,
	Example: "repeatability-limit=0.06 kN/m; reproducibility-limit=0.15 kN/m; first-count=5; second-count=10",
	Mistakes: []string{
		"More readings do little between laboratories: with R = 2.5 r even endless readings leave 0.92 R.",
		"r and R of single results; those of a test result that is a mean already are not thinned again.",
	},
	Compute: CriticalDifference.compute,
	Fields: func(f *calc.Form, in *CriticalDifference, out *CriticalDifferenceResult) {
		calc.InValue(f, &in.RepeatabilityLimit, "repeatability-limit", "r", "any", "of single results").Deviation().From(0)
		calc.InValue(f, &in.ReproducibilityLimit, "reproducibility-limit", "R", "as repeatability-limit", "of single results, at least the other").From(0)
		calc.In(f, &in.FirstCount, "first-count", "n_1", "1", "results in the first mean").From(1).Default(1)
		calc.In(f, &in.SecondCount, "second-count", "n_2", "1", "results in the second mean").From(1).Default(1)
		calc.OutValue(f, &out.SameLaboratoryDifference, "same-laboratory-difference", "d_r", "as repeatability-limit", "of two means of one laboratory")
		calc.OutValue(f, &out.TwoLaboratoriesDifference, "two-laboratories-difference", "d_R", "as repeatability-limit", "of means of two laboratories")
	},
}
