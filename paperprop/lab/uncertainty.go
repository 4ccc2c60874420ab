package lab

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A Distribution is the assumed distribution of a value within its limits.
type Distribution string

// The distributions.
const (
	DistributionRectangular Distribution = "rectangular" // equally likely everywhere
	DistributionTriangular  Distribution = "triangular"  // most likely in the middle
	DistributionArcsine     Distribution = "arcsine"     // most likely at the limits
)

// TypeB is a standard uncertainty from the limits of a value.
type TypeB struct {
	HalfWidth    float64 // of the distribution, above zero; d/2 for a resolution d
	Distribution Distribution
}

// TypeBResult is the standard uncertainty.
type TypeBResult struct {
	StandardUncertainty float64
}

// Calculate returns the standard deviation of the distribution.
func (t TypeB) Calculate() (TypeBResult, error) { return typeB.Calculate(t) }

func (t TypeB) compute() (TypeBResult, error) {
	square := 3.0
	switch t.Distribution {
	case DistributionTriangular:
		square = 6
	case DistributionArcsine:
		square = 2
	}
	return TypeBResult{t.HalfWidth / math.Sqrt(square)}, nil
}

var typeB = &calc.Description[TypeB, TypeBResult]{
	Name:    "type-b",
	Title:   "Standard uncertainty from limits",
	Answers: "Which standard uncertainty limits stand for: of a resolution, a tolerance, a certificate.",
	Formula: []string{"rectangular: u = a/sqrt(3)", "triangular: u = a/sqrt(6)", "arcsine: u = a/sqrt(2)"},
	Source:  "variances of the distributions; JCGM 100:2008 4.3 (memory)",
	Status:  calc.CommonPractice,
	Example: "half-width=0.05 g; distribution=rectangular",
	Mistakes: []string{
		"A resolution of 0.1 g has the half-width 0.05 g: u = 0.029 g.",
		"A tolerance is not a standard uncertainty: it is 1.7 of them, rectangular.",
		"An expanded uncertainty on a certificate is divided by its k, not by sqrt(3).",
	},
	Compute: TypeB.compute,
	Fields: func(f *calc.Form, in *TypeB, out *TypeBResult) {
		calc.InValue(f, &in.HalfWidth, "half-width", "a", "any", "of the distribution; a resolution d has d/2").Deviation().Above(0)
		calc.InWord(f, &in.Distribution, "distribution", "what is known within the limits",
			DistributionRectangular, DistributionTriangular, DistributionArcsine)
		calc.OutValue(f, &out.StandardUncertainty, "standard-uncertainty", "u", "as half-width", "standard deviation of the distribution")
	},
}

// A DegreesRule is the rule for degrees of freedom that are not whole.
type DegreesRule string

// The rules.
const (
	RuleTruncate    DegreesRule = "truncate"    // to the next lower whole number, as in the GUM
	RuleInterpolate DegreesRule = "interpolate" // Student's quantile at the fractional number itself
)

// ExpandedUncertainty is the expansion of a standard uncertainty to an interval.
type ExpandedUncertainty struct {
	StandardUncertainty float64            // zero or above
	DegreesOfFreedom    paperprop.Ratio    // effective, 1 or above; zero for infinitely many
	Confidence          paperprop.Fraction // above 50 %, below 100 %; zero stands for 95 %
	Rule                DegreesRule        // required if DegreesOfFreedom is not whole
}

// ExpandedUncertaintyResult is the coverage factor k, and k·u.
type ExpandedUncertaintyResult struct {
	CoverageFactor      paperprop.Ratio
	ExpandedUncertainty float64
}

// Calculate returns k·u, with k from Student's t or from the normal distribution.
func (e ExpandedUncertainty) Calculate() (ExpandedUncertaintyResult, error) {
	return expandedUncertainty.Calculate(e)
}

func (e ExpandedUncertainty) compute() (ExpandedUncertaintyResult, error) {
	nu := float64(e.DegreesOfFreedom)
	switch {
	case nu == 0:
		nu = math.Inf(1)
	case e.Rule == RuleTruncate:
		nu = math.Trunc(nu)
	case e.Rule == "" && nu != math.Trunc(nu):
		return ExpandedUncertaintyResult{}, calc.Refuse("degrees-of-freedom", e.DegreesOfFreedom, "a whole number, or a rule: truncate or interpolate")
	}
	k := student(e.Confidence, nu)
	return ExpandedUncertaintyResult{paperprop.Ratio(k), k * e.StandardUncertainty}, nil
}

var expandedUncertainty = &calc.Description[ExpandedUncertainty, ExpandedUncertaintyResult]{
	Name:    "expanded-uncertainty",
	Title:   "Expanded uncertainty",
	Answers: "Which interval holds the true value with a stated confidence.",
	Formula: []string{"U = k*u"},
	Method:  "k is the quantile of Student's t at (1 + P)/2, of the normal distribution where no degrees of freedom are given",
	Source:  "JCGM 100:2008 Annex G (memory); Student's t by mpmath 1.2.1",
	Status:  calc.Memory,
	Example: "standard-uncertainty=0.045 kN/m; degrees-of-freedom=11.7; rule=truncate",
	Mistakes: []string{
		"U without k and the confidence tells nothing: report all three.",
		"k = 2 is 95 % only where the degrees of freedom are many: with 5 of them it is 2.57.",
		"Degrees of freedom by Welch and Satterthwaite do not hold for correlated inputs.",
	},
	Compare: []calc.Comparison{{Inputs: "standard-uncertainty=0.045 kN/m; degrees-of-freedom=11.7; rule=interpolate",
		Why: "the quantile at 11.7 itself is a little smaller than at 11, to which the GUM cuts (memory)"}},
	Compute: ExpandedUncertainty.compute,
	Fields: func(f *calc.Form, in *ExpandedUncertainty, out *ExpandedUncertaintyResult) {
		calc.InValue(f, &in.StandardUncertainty, "standard-uncertainty", "u", "any", "combined").Deviation().From(0)
		calc.In(f, &in.DegreesOfFreedom, "degrees-of-freedom", "nu", "1", "effective; left out: infinite").From(1).Optional()
		inConfidence(f, &in.Confidence, "that the interval holds the value")
		calc.InWord(f, &in.Rule, "rule", "needed where degrees of freedom are not whole: cut to the whole number below, or take them as they are",
			RuleTruncate, RuleInterpolate).Optional()
		calc.Out(f, &out.CoverageFactor, "coverage-factor", "k", "1", "of the interval")
		calc.OutValue(f, &out.ExpandedUncertainty, "expanded-uncertainty", "U", "as standard-uncertainty", "half-width of the interval")
	},
}

// A Form is the notation of a value with its uncertainty.
type Form string

// The forms.
const (
	FormBrackets  Form = "brackets"   // 12.345(67)
	FormPlusMinus Form = "plus-minus" // 0.83+/-0.12
)

// A FiguresRule is the number of figures for an uncertainty.
type FiguresRule string

// The rules for the figures.
const (
	RuleTwoFigures FiguresRule = "two-figures"
	RulePdg        FiguresRule = "pdg" // by the first three: 100 to 354 two, to 949 one, else 1000 with two
)

// Notation is a value written with its standard uncertainty.
type Notation struct {
	Value               float64
	StandardUncertainty float64 // above zero
	Form                Form
	Rule                FiguresRule
}

// NotationResult is the text.
type NotationResult struct {
	Reported string
}

// Calculate rounds both to the same place, ties to even.
func (n Notation) Calculate() (NotationResult, error) { return notation.Calculate(n) }

func (n Notation) compute() (NotationResult, error) {
	rule := result.TwoFigures
	if n.Rule == RulePdg {
		rule = result.PDG
	}
	if n.Form == FormPlusMinus {
		return NotationResult{rule.PlusMinus(n.Value, n.StandardUncertainty)}, nil
	}
	return NotationResult{rule.Brackets(n.Value, n.StandardUncertainty)}, nil
}

const exampleNotation = "value=2.34176 kN/m; standard-uncertainty=0.0427 kN/m"

var notation = &calc.Description[Notation, NotationResult]{
	Name:    "notation",
	Title:   "A value written with its uncertainty",
	Answers: "How a value and its standard uncertainty are written down together.",
	Method: "the uncertainty to two figures, or by the rule of the Particle Data Group; the value to the same place; ties to even on the shortest decimal texts; " +
		"figures in brackets count in the last place written of the value",
	Source:  "GTC 1.5.1 documentation, output; pdg: Python uncertainties 3.1.6, default format",
	Status:  calc.Published,
	Example: exampleNotation + "; form=brackets; rule=two-figures",
	Mistakes: []string{
		"12.3(12) means 12.3 with u = 1.2: figures in brackets never bear a point.",
		"After a carry two figures stay two: 0.0996 is 0.10, not 0.1.",
		"The uncertainty is a standard one (k = 1); say so where an expanded one is written.",
	},
	Compare: []calc.Comparison{
		{Inputs: exampleNotation + "; form=plus-minus; rule=two-figures", Why: "the same with a sign between"},
		{Inputs: exampleNotation + "; form=brackets; rule=pdg", Why: "an option, not the GUM's: one figure from 355 to 949"},
	},
	Compute: Notation.compute,
	Fields: func(f *calc.Form, in *Notation, out *NotationResult) {
		calc.InValue(f, &in.Value, "value", "y", "any", "unrounded")
		calc.InValue(f, &in.StandardUncertainty, "standard-uncertainty", "u", "difference of value", "of the value").Above(0)
		calc.InWord(f, &in.Form, "form", "12.345(67), or 12.345+/-0.067", FormBrackets, FormPlusMinus)
		calc.InWord(f, &in.Rule, "rule", "figures of the uncertainty: two, or by the Particle Data Group one where its first three are 355 to 949", RuleTwoFigures, RulePdg)
		calc.OutText(f, &out.Reported, "reported", "text", "as value", "both to one place, with the unit of value")
	},
}
