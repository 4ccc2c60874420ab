package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Freeness is how fast stock drains, by the volume from the side orifice.
type Freeness struct {
	Volume           paperprop.Volume      // from the side orifice, 0 to 1000 mL
	Consistency      paperprop.Consistency // of the sample, above zero
	Temperature      paperprop.Temperature // of the sample, 0 to 100 °C
	VolumeCorrection *paperprop.Volume     // from the table of the method; nil leaves the result as measured
}

// FreenessResult is the freeness, at 0.30 % and 20 °C if it was corrected.
type FreenessResult struct {
	Freeness   paperprop.Volume
	Correction paperprop.Volume // the one applied; zero if there was none
	Warnings   calc.Warnings
}

// Calculate returns the freeness V + V_c.
func (f Freeness) Calculate() (FreenessResult, error) { return freeness.Calculate(f) }

var (
	uncorrected = calc.Warning{Code: "uncorrected", Text: "as measured: not corrected to 0.30 % and 20 degC; " +
		"read a volume-correction from the table of the method"}
	falseFreeness = calc.Warning{Code: "false-freeness", Text: "below 100 mL fine fibre that passes the plate may give a false freeness"}

	asMeasured         = calc.Warnings{&uncorrected}
	doubtful           = calc.Warnings{&falseFreeness}
	doubtfulAsMeasured = calc.Warnings{&uncorrected, &falseFreeness}
)

func (f Freeness) correction() paperprop.Volume {
	if f.VolumeCorrection == nil {
		return 0
	}
	return *f.VolumeCorrection
}

func (f Freeness) compute() (FreenessResult, error) {
	r := FreenessResult{Correction: f.correction()}
	r.Freeness = f.Volume + r.Correction
	if r.Freeness < 0 {
		return r, calc.Refuse("volume-correction", r.Correction, "at least %v: freeness is not below 0", -f.Volume)
	}
	measured := f.VolumeCorrection == nil && !f.standard()
	slow := r.Freeness.In(paperprop.Millilitre) < 100-1e-9
	switch {
	case measured && slow:
		r.Warnings = doubtfulAsMeasured
	case measured:
		r.Warnings = asMeasured
	case slow:
		r.Warnings = doubtful
	}
	return r, nil
}

// standard reports whether the sample is at 0.30 % and 20.0 °C, to the digits
// written.
func (f Freeness) standard() bool {
	return writtenAs("0.0030", float64(f.Consistency), -4) && writtenAs("20.0", f.Temperature.Celsius(), -1)
}

// writtenAs reports whether x, rounded to a power of ten, reads as text.
func writtenAs(text string, x float64, place int32) bool {
	var buffer [32]byte
	return string(result.StepOf(1, place, result.Even).Append(buffer[:0], x)) == text
}

// freenessSteps returns the rounding rule for a freeness in millilitres.
func freenessSteps(millilitres float64) result.Rule {
	switch {
	case result.Rest(millilitres, 250) > 0:
		return result.StepOf(1, 1, result.Even)
	case result.Rest(millilitres, 100) >= 0:
		return result.StepOf(5, 0, result.Even)
	}
	return result.StepOf(1, 0, result.Even)
}

// neverConverted is a mistake common to both drainage tests.
const neverConverted = "Freeness and Schopper-Riegler number are two tests with two pads, and no formula or table turns one into the other."

var freeness = &calc.Description[Freeness, FreenessResult]{
	Name:    "freeness",
	Title:   "Freeness, as measured or corrected",
	Answers: "What the Canadian Standard freeness of a stock is, a test of drainage (drainability), corrected by the table of the method where one was read.",
	Formula: []string{"CSF = V + V_c"},
	Source:  "ISO 5267-2:2001 and T 227: 3 g in 1000 mL, 0.30 % and 20.0 degC (seen); the tables of correction were not seen",
	Status:  calc.Published,
	Example: "volume=412 mL; consistency=0.31 %; temperature=21.5 degC; volume-correction=-8 mL",
	Mistakes: []string{
		"Thinner or warmer stock drains faster and reads higher (memory): the correction takes it back.",
		"The printed corrections come from groundwood; chemical pulps need larger ones (study of 1993, seen).",
		"Below 100 mL fine fibre may pass the plate and give a false freeness: a warning says so.",
		neverConverted,
	},
	Compute: Freeness.compute,
	Fields: func(f *calc.Form, in *Freeness, out *FreenessResult) {
		calc.In(f, &in.Volume, "volume", "V", "mL", "from the side orifice").From(0).UpTo(1000)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of the sample").Above(0).Label()
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the sample").From(0).UpTo(100).Label()
		calc.Pointer(f, &in.VolumeCorrection, "volume-correction", "V_c", "mL", "from the table of the method, may be below 0").From(-1000)
		calc.Out(f, &out.Freeness, "freeness", "CSF", "mL", "at 0.30 % and 20 degC; without volume-correction as measured").
			ReportBy("1 mL below 100, 5 mL to 250, 10 mL above", calc.Memory, freenessSteps)
		calc.Between(f, &out.Correction, "V_c", "mL", "correction that was reckoned with; 0 without one")
		f.Warnings(&out.Warnings)
	},
}

// A Verdict is the outcome of a check.
type Verdict string

// The verdicts.
const (
	VerdictPass Verdict = "pass"
	VerdictFail Verdict = "fail"
)

// FreenessBlank checks a freeness tester with water.
type FreenessBlank struct {
	Mass paperprop.Mass // from the side orifice, of 1000 g of water at 20 °C; 0 to 1000 g
}

// FreenessBlankResult says whether the tester is fit for use.
type FreenessBlankResult struct {
	Verdict Verdict
}

// Calculate passes 880 to 890 g, both included.
func (b FreenessBlank) Calculate() (FreenessBlankResult, error) { return freenessBlank.Calculate(b) }

func (b FreenessBlank) compute() (FreenessBlankResult, error) {
	// In kilograms, the canonical unit of mass, both ends are exact.
	if kg := b.Mass.In(paperprop.Kilogram); kg < 0.880 || kg > 0.890 {
		return FreenessBlankResult{VerdictFail}, nil
	}
	return FreenessBlankResult{VerdictPass}, nil
}

var freenessBlank = &calc.Description[FreenessBlank, FreenessBlankResult]{
	Name:    "freeness-blank",
	Title:   "Blank test of a freeness tester",
	Answers: "Whether a freeness tester may be used, from what clear water gives.",
	Method:  "passes from 880 g to 890 g, both ends too, unrounded",
	Source:  "page of a university laboratory on freeness, after T 227 (seen)",
	Status:  calc.Published,
	Example: "mass=884 g",
	Mistakes: []string{
		"What leaves is weighed, not rounded as a freeness is: 890.4 g fails, though 890 mL would be written.",
	},
	Compute: FreenessBlank.compute,
	Fields: func(f *calc.Form, in *FreenessBlank, out *FreenessBlankResult) {
		calc.In(f, &in.Mass, "mass", "m", "g", "that 1000 g of water at 20 degC give at the side orifice").From(0).UpTo(1000)
		calc.OutWord(f, &out.Verdict, "verdict", "of the tester", VerdictPass, VerdictFail)
	},
}

// SchopperRiegler is how slowly stock drains, by the volume from the side orifice.
type SchopperRiegler struct {
	Volume paperprop.Volume // from the side orifice, 0 to 1000 mL
}

// SchopperRieglerResult is the Schopper-Riegler number: 0 for 1000 mL, 100 for
// none.
type SchopperRieglerResult struct {
	SchopperRieglerNumber paperprop.Ratio
	Warnings              calc.Warnings
}

// Calculate returns the number 100 − V/(10 mL).
func (s SchopperRiegler) Calculate() (SchopperRieglerResult, error) {
	return schopperRiegler.Calculate(s)
}

var outOfRange = calc.Warnings{{Code: "out-of-range", Text: "the test is most reliable from 10 to 90 (ISO 5267-1, seen); " +
	"fibre so short that it passes the wire gives falsely low numbers"}}

func (s SchopperRiegler) compute() (SchopperRieglerResult, error) {
	// In cubic metres, the canonical unit, 545 mL gives exactly 45.5, a tie;
	// 45.49999999999999 would round the other way.
	sr := 100 - 1e5*s.Volume.In(paperprop.CubicMetre)
	r := SchopperRieglerResult{SchopperRieglerNumber: paperprop.Ratio(sr)}
	if sr < 10-1e-9 || sr > 90+1e-9 {
		r.Warnings = outOfRange
	}
	return r, nil
}

var schopperRiegler = &calc.Description[SchopperRiegler, SchopperRieglerResult]{
	Name:    "schopper-riegler",
	Title:   "Schopper-Riegler number",
	Answers: "What the Schopper-Riegler number of a stock is, a test of drainage (drainability).",
	Formula: []string{"SR = 100*(1 - V/V_0)"},
	Source:  "ISO 5267-1:1999 abstract and a data sheet of the tester: 1000 mL is 0, no discharge is 100 (seen)",
	Status:  calc.Published,
	Example: "volume=545 mL",
	Mistakes: []string{
		neverConverted,
		"High is slow here and fast for freeness.",
		"The test has 2 g in 1000 mL at 20 degC, freeness 3 g.",
	},
	Compute: SchopperRiegler.compute,
	Fields: func(f *calc.Form, in *SchopperRiegler, out *SchopperRieglerResult) {
		poured := paperprop.Litre
		calc.In(f, &in.Volume, "volume", "V", "mL", "from the side orifice").From(0).UpTo(1000)
		calc.Out(f, &out.SchopperRieglerNumber, "schopper-riegler-number", "SR", "1", "0 for 1000 mL, 100 for none").
			Report(result.StepOf(1, 0, result.Even), "ISO 5267-1", calc.Memory)
		calc.Between(f, &poured, "V_0", "mL", "volume that is poured in")
		f.Warnings(&out.Warnings)
	},
}
