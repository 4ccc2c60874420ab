package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

const ofTheTest = "by the rule of the test that it comes from: none applied"

// StripStrength is the strength of a strip, in any test that loads it across its
// width.
type StripStrength struct {
	Force      paperprop.Force  // greatest, above zero
	StripWidth paperprop.Length // of the loaded edge; zero stands for 15 mm
}

// StripStrengthResult is the strength, named after the test.
type StripStrengthResult struct {
	Strength paperprop.ForcePerLength
}

// Calculate returns the strength F/b.
func (s StripStrength) Calculate() (StripStrengthResult, error) { return stripStrength.Calculate(s) }

func (s StripStrength) compute() (StripStrengthResult, error) {
	return StripStrengthResult{overEdge(s.Force, s.StripWidth)}, nil
}

var stripStrength = &calc.Description[StripStrength, StripStrengthResult]{
	Name:     "strip-strength",
	Title:    "Strength of a strip",
	Answers:  "How strong a strip is for its width, whatever the test, dry or wet (wet strength).",
	Formula:  []string{"S = F/b"},
	Source:   "definition: T 494 (text seen), for any force over the edge it loads",
	Status:   calc.Published,
	Example:  "force=96.4 N",
	Mistakes: []string{"kN/m is N/mm; a force in kgf on 15 mm is kgf/15mm, of which one is 0.654 kN/m."},
	Compute:  StripStrength.compute,
	Fields: func(f *calc.Form, in *StripStrength, out *StripStrengthResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest").Above(0)
		widthOfStrip(f, &in.StripWidth)
		calc.Out(f, &out.Strength, "strength", "S", "kN/m", "force over width").Unreported(ofTheTest)
	},
}

// StrengthIndex is a strength over the grammage: tensile, short-span, ring or
// corrugated crush.
type StrengthIndex struct {
	Strength paperprop.ForcePerLength // as reported, above zero
	Grammage paperprop.Grammage       // conditioned, above zero
}

// StrengthIndexResult is the index.
type StrengthIndexResult struct {
	StrengthIndex paperprop.StrengthIndex
}

// Calculate returns the index S/g.
func (s StrengthIndex) Calculate() (StrengthIndexResult, error) { return strengthIndex.Calculate(s) }

func (s StrengthIndex) compute() (StrengthIndexResult, error) {
	return StrengthIndexResult{index(s.Strength, s.Grammage)}, nil
}

var strengthIndex = &calc.Description[StrengthIndex, StrengthIndexResult]{
	Name:    "strength-index",
	Title:   "Strength index",
	Answers: "How strong a sheet is for its grammage, from a strength already reported.",
	Formula: []string{"I = S/g"},
	Source:  "definition; index over grammage on a packaging laboratory's page (seen)",
	Status:  calc.Published,
	Example: "strength=2.3 kN/m; grammage=121.4 g/m2",
	Mistakes: []string{
		"On oven-dry grammage it is another index, 8 % higher at 7.5 % moisture: say so.",
		"A reported strength is rounded already: for the last digit start from the force.",
	},
	Compute: StrengthIndex.compute,
	Fields: func(f *calc.Form, in *StrengthIndex, out *StrengthIndexResult) {
		calc.In(f, &in.Strength, "strength", "S", "kN/m", "tensile, short-span (SCT), ring (RCT) or corrugated (CCT) crush").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned unless the result says otherwise").Above(0)
		calc.Out(f, &out.StrengthIndex, "strength-index", "I", "kN.m/kg", "strength over grammage").Unreported(ofTheTest)
	},
}

// BreakingLength is a tensile strength expressed as a length of strip.
type BreakingLength struct {
	TensileStrength paperprop.ForcePerLength // as reported, above zero
	Grammage        paperprop.Grammage       // conditioned, above zero
	Gravity         paperprop.Acceleration   // zero stands for 9.80665 m/s²
}

// BreakingLengthResult is the tensile index and the breaking length.
type BreakingLengthResult struct {
	TensileIndex   paperprop.StrengthIndex
	BreakingLength paperprop.Length
}

// Calculate returns the index S/g and the length S/(g·g_0).
func (b BreakingLength) Calculate() (BreakingLengthResult, error) { return breakingLength.Calculate(b) }

func (b BreakingLength) compute() (BreakingLengthResult, error) {
	i := index(b.TensileStrength, b.Grammage)
	return BreakingLengthResult{TensileIndex: i, BreakingLength: ownWeight(i, b.Gravity)}, nil
}

var breakingLength = &calc.Description[BreakingLength, BreakingLengthResult]{
	Name:     "breaking-length",
	Title:    "Breaking length",
	Answers:  "How long a strip would have to hang to break under its own weight, from a reported tensile strength.",
	Formula:  []string{"I = S/g", "L = S/(g*g_0)"},
	Source:   "a paper-testing article (seen), which takes 9.81 m/s2; g_0 is standard gravity",
	Status:   calc.Published,
	Example:  "tensile-strength=6.43 kN/m; grammage=121.4 g/m2",
	Mistakes: []string{"Breaking length is no more than the index over gravity: 1 kN.m/kg is 0.101972 km."},
	Compare: []calc.Comparison{
		{Inputs: "tensile-strength=6.43 kN/m; grammage=121.4 g/m2; gravity=9.81 m/s2", Why: "with 9.81 m/s2, as the article has it, 0.03 % shorter: three figures do not show it"},
		{
			Inputs: "tensile-strength=6.43 kN/m; grammage=121.4 g/m2; gravity=9.803921568627451 m/s2",
			Why:    "with the factor 102000 of T 494 (memory), which is 1e6/(9.80392 m/s2), 0.03 % longer",
		},
	},
	Compute: BreakingLength.compute,
	Fields: func(f *calc.Form, in *BreakingLength, out *BreakingLengthResult) {
		calc.In(f, &in.TensileStrength, "tensile-strength", "S", "kN/m", "as reported").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		gravityOfBreaking(f, &in.Gravity)
		calc.Out(f, &out.TensileIndex, "tensile-index", "I", "kN.m/kg", "strength over grammage").Report(threeFigures(), tensileReadings, calc.Memory)
		calc.Out(f, &out.BreakingLength, "breaking-length", "L", "km", "length that breaks under its own weight").Report(threeFigures(), tensileReadings, calc.Memory)
	},
}

// MdCd compares the two directions of a sheet, in any unit.
type MdCd struct {
	MdValue float64 // machine direction, above zero
	CdValue float64 // cross direction, of the same quantity, above zero
}

// MdCdResult is the ratio of the two directions, and their geometric mean.
type MdCdResult struct {
	MdCdRatio     paperprop.Ratio
	GeometricMean float64
}

// Calculate returns the ratio x_md/x_cd and the mean √(x_md·x_cd).
func (m MdCd) Calculate() (MdCdResult, error) { return mdCd.Calculate(m) }

func (m MdCd) compute() (MdCdResult, error) {
	return MdCdResult{
		MdCdRatio:     paperprop.Ratio(m.MdValue / m.CdValue),
		GeometricMean: math.Sqrt(m.MdValue * m.CdValue),
	}, nil
}

var mdCd = &calc.Description[MdCd, MdCdResult]{
	Name:    "md-cd",
	Title:   "Machine and cross direction",
	Answers: "By how much a sheet differs in its two directions, and what it is apart from them.",
	Formula: []string{"r = x_md/x_cd", "x_g = sqrt(x_md*x_cd)"},
	Source:  "usual figures of anisotropy",
	Status:  calc.CommonPractice,
	Example: "md-value=6.43 kN/m; cd-value=2.71 kN/m",
	Mistakes: []string{
		"The arithmetic mean of the directions rises with the ratio alone: take the geometric mean to compare furnishes.",
		"Of stretch and tear the cross direction has the larger value: a ratio below 1 is not a mistake there.",
	},
	Compute: MdCd.compute,
	Fields: func(f *calc.Form, in *MdCd, out *MdCdResult) {
		calc.InValue(f, &in.MdValue, "md-value", "x_md", "any", "machine direction").Above(0)
		calc.InValue(f, &in.CdValue, "cd-value", "x_cd", "as md-value", "cross direction, same quantity").Above(0)
		calc.Out(f, &out.MdCdRatio, "md-cd-ratio", "r", "1", "machine over cross direction")
		calc.OutValue(f, &out.GeometricMean, "geometric-mean", "x_g", "as md-value", "of the two directions").Unreported(ofTheTest)
	},
}
