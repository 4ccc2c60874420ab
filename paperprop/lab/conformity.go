package lab

import (
	"math/big"
	"slices"

	"millmaths.example/paperprop/calc"
)

// A Side is the side of a limit on which a value conforms.
type Side string

// The sides of a limit.
const (
	SideAtLeast Side = "at-least"
	SideAtMost  Side = "at-most"
)

// A Verdict says whether a value conforms.
type Verdict string

// The verdicts.
const (
	VerdictPass      Verdict = "pass"
	VerdictFail      Verdict = "fail"
	VerdictUndecided Verdict = "undecided"
)

// margin returns how far a value lies inside its limit, exactly: 8.0 minus 7.9 is
// 0.1.
func margin(value, limit *big.Rat, side Side) *big.Rat {
	if side == SideAtLeast {
		return new(big.Rat).Sub(value, limit)
	}
	return new(big.Rat).Sub(limit, value)
}

func verdict(margin *big.Rat) Verdict {
	if margin.Sign() < 0 {
		return VerdictFail
	}
	return VerdictPass
}

// written holds the numbers of a sheet as they were written. A limit given in
// another unit need not be a decimal in the unit of the value.
type written struct{ value, limit, step, band calc.Written }

// apart returns the margin of an unrounded value. In solving for a value, that and
// the limit are float64s: a search might never meet a limit that is no float64.
func (w *written) apart(value, limit float64, side Side) *big.Rat {
	if !w.value.Holds(value) || !w.limit.Holds(limit) {
		w = new(written)
	}
	return margin(w.value.Exactly(value), w.limit.Exactly(limit), side)
}

// ConformityAbsolute compares an unrounded value with a limit.
type ConformityAbsolute struct {
	Value float64 // unrounded
	Limit float64 // in the unit of Value
	Side  Side

	written written
}

// ConformityResult is the verdict, and how far inside the limit the value lies.
type ConformityResult struct {
	Margin  float64 // above zero inside the limit
	Verdict Verdict // a value equal to the limit passes
}

// Calculate compares by the absolute method of ASTM E29.
func (c ConformityAbsolute) Calculate() (ConformityResult, error) {
	return conformityAbsolute.Calculate(c)
}

func (c ConformityAbsolute) compute() (ConformityResult, error) {
	return conformityResult(c.written.apart(c.Value, c.Limit, c.Side)), nil
}

func conformityResult(margin *big.Rat) ConformityResult {
	m, _ := margin.Float64()
	return ConformityResult{m, verdict(margin)}
}

const (
	formulaAtLeast = "at-least: d = x - x_l"
	formulaAtMost  = "at-most: d = x_l - x"
)

func inLimit(f *calc.Form, value, limit *float64, side *Side, w *written) {
	calc.InValue(f, value, "value", "x", "any", "unrounded").Written(&w.value)
	calc.InValue(f, limit, "limit", "x_l", "as value", "of the specification").Written(&w.limit)
	calc.InWord(f, side, "side", "on which the value conforms", SideAtLeast, SideAtMost)
}

var conformityAbsolute = &calc.Description[ConformityAbsolute, ConformityResult]{
	Name:     "conformity-absolute",
	Title:    "Conformity of the unrounded value",
	Answers:  "Whether a value meets a limit, compared as it is.",
	Formula:  []string{formulaAtLeast, formulaAtMost},
	Source:   "absolute method of ASTM E29 (scope seen)",
	Status:   calc.Published,
	Example:  "value=2.1978 kN/m; limit=2.20 kN/m; side=at-least",
	Mistakes: []string{"The specification chooses between the absolute and the rounding method: 2.1978 fails 2.20 here and passes there."},
	Compare: []calc.Comparison{
		{Name: "conformity-rounding", Inputs: "value=2.1978 kN/m; limit=2.20 kN/m; side=at-least; step=0.01 kN/m; tie=even",
			Why: "the rounding method rounds to the place of the limit first: it passes"},
		{Name: "conformity-guard-band", Inputs: "value=2.1978 kN/m; limit=2.20 kN/m; side=at-least; expanded-uncertainty=0.05 kN/m",
			Why: "with a guard band it is undecided: the limit lies within the uncertainty"},
	},
	Compute: ConformityAbsolute.compute,
	Fields: func(f *calc.Form, in *ConformityAbsolute, out *ConformityResult) {
		inLimit(f, &in.Value, &in.Limit, &in.Side, &in.written)
		calc.OutValue(f, &out.Margin, "margin", "d", "difference of value", "inside the limit above zero")
		calc.OutWord(f, &out.Verdict, "verdict", "equal passes", VerdictPass, VerdictFail)
	},
}

// ConformityRounding compares a value with a limit, after rounding it to the place
// of the limit.
type ConformityRounding struct {
	Value float64 // unrounded
	Limit float64 // in the unit of Value
	Side  Side
	Step  float64 // the place of the limit as written, above zero
	Tie   Tie

	written written
}

// ConformityRoundingResult is the rounded value, and the verdict on it.
type ConformityRoundingResult struct {
	Reported string
	Margin   float64 // of the rounded value
	Verdict  Verdict
	Warnings calc.Warnings
}

// Calculate compares by the rounding method of ASTM E29.
func (c ConformityRounding) Calculate() (ConformityRoundingResult, error) {
	return conformityRounding.Calculate(c)
}

func (c ConformityRounding) compute() (ConformityRoundingResult, error) {
	limit, step := c.written.limit.Exactly(c.Limit), c.written.step.Exactly(c.Step)
	rounded, text, warnings, err := c.written.toStep(c.Value, c.Step, c.Tie)
	if err != nil {
		return ConformityRoundingResult{}, err
	}
	m := conformityResult(margin(rounded, limit, c.Side))
	if !new(big.Rat).Quo(limit, step).IsInt() {
		warnings = slices.Concat(warnings, limitOffStep)
	}
	return ConformityRoundingResult{Reported: text, Margin: m.Margin, Verdict: m.Verdict, Warnings: warnings}, nil
}

var limitOffStep = calc.Warnings{{Code: "limit-off-step", Text: "the limit is not a multiple of the step: a value equal to it may fail once it is rounded"}}

var conformityRounding = &calc.Description[ConformityRounding, ConformityRoundingResult]{
	Name:     "conformity-rounding",
	Title:    "Conformity of the rounded value",
	Answers:  "Whether a value meets a limit, rounded to the place of the limit first.",
	Method:   "the value is rounded to the step in decimals, then compared; margin of the rounded value",
	Source:   "rounding method of ASTM E29 (scope seen)",
	Status:   calc.Published,
	Example:  "value=2.1978 kN/m; limit=2.20 kN/m; side=at-least; step=0.01 kN/m; tie=even",
	Mistakes: []string{"Round once, from the unrounded value."},
	Compute:  ConformityRounding.compute,
	Fields: func(f *calc.Form, in *ConformityRounding, out *ConformityRoundingResult) {
		inLimit(f, &in.Value, &in.Limit, &in.Side, &in.written)
		calc.InValue(f, &in.Step, "step", "d", "difference of value", "the place of the limit as written").Above(0).Written(&in.written.step)
		inTie(f, &in.Tie)
		calc.OutText(f, &out.Reported, "reported", "y", "as value", "value rounded to step")
		calc.OutValue(f, &out.Margin, "margin", "m", "difference of value", "of the rounded value").Steps()
		f.Warnings(&out.Warnings)
		calc.OutWord(f, &out.Verdict, "verdict", "equal passes", VerdictPass, VerdictFail)
	},
}

// ConformityGuardBand compares a value with a limit, and leaves undecided what its
// uncertainty leaves open.
type ConformityGuardBand struct {
	Value               float64 // unrounded
	Limit               float64 // in the unit of Value
	Side                Side
	ExpandedUncertainty float64 // the guard band, zero or above

	written written
}

// Calculate compares the numbers as exact decimals.
func (c ConformityGuardBand) Calculate() (ConformityResult, error) {
	return conformityGuardBand.Calculate(c)
}

func (c ConformityGuardBand) compute() (ConformityResult, error) {
	m := c.written.apart(c.Value, c.Limit, c.Side)
	r := conformityResult(m)
	if m.Abs(m).Cmp(c.written.band.Exactly(c.ExpandedUncertainty)) < 0 {
		r.Verdict = VerdictUndecided
	}
	return r, nil
}

var conformityGuardBand = &calc.Description[ConformityGuardBand, ConformityResult]{
	Name:    "conformity-guard-band",
	Title:   "Conformity with a guard band",
	Answers: "Whether a value meets a limit beyond its uncertainty, which is one decision rule.",
	Formula: []string{formulaAtLeast, formulaAtMost},
	Source:  "guard band of the expanded uncertainty on either side of the limit",
	Status:  calc.CommonPractice,
	Example: "value=2.40 kN/m; limit=2.31 kN/m; side=at-least; expanded-uncertainty=0.05 kN/m",
	Mistakes: []string{
		"Undecided is not a pass: agree beforehand who bears the risk.",
		"An uncertainty typed with the value (6.05 ± 0.06 kN/m) moves the u of the margin, not the decision: give what decides as expanded-uncertainty.",
	},
	Compute: ConformityGuardBand.compute,
	Fields: func(f *calc.Form, in *ConformityGuardBand, out *ConformityResult) {
		inLimit(f, &in.Value, &in.Limit, &in.Side, &in.written)
		calc.InValue(f, &in.ExpandedUncertainty, "expanded-uncertainty", "U", "difference of value", "the guard band").From(0).Written(&in.written.band)
		calc.OutValue(f, &out.Margin, "margin", "d", "difference of value", "inside the limit above zero")
		calc.OutWord(f, &out.Verdict, "verdict", "undecided while the margin is smaller than the uncertainty on either side",
			VerdictPass, VerdictFail, VerdictUndecided)
	},
}
