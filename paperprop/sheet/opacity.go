package sheet

import (
	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Opacity is the opacity with paper backing: the reflectance of one sheet over
// black relative to that of a pad of the same paper.
type Opacity struct {
	BlackReflectance paperprop.Fraction // one sheet over black, zero or above, at most PadReflectance
	PadReflectance   paperprop.Fraction // of an opaque pad, above zero
}

// OpacityResult is the opacity with paper backing.
type OpacityResult struct {
	Opacity paperprop.Fraction
}

// Calculate returns the opacity R_0/R_∞.
func (o Opacity) Calculate() (OpacityResult, error) { return opacity.Calculate(o) }

func (o Opacity) compute() (OpacityResult, error) {
	if o.BlackReflectance > o.PadReflectance {
		return OpacityResult{}, calc.Refuse("black-reflectance", o.BlackReflectance, "at most pad-reflectance %v", o.PadReflectance)
	}
	return OpacityResult{paperprop.Fraction(float64(o.BlackReflectance) / float64(o.PadReflectance))}, nil
}

const oneInstrument = "Opacity with paper backing (ISO 2471, T 519: d/0, C/2) and over 89 % (T 425: 15/d, A/2) are two quantities, read on two instruments."

var opacity = &calc.Description[Opacity, OpacityResult]{
	Name:    "opacity",
	Title:   "Opacity with paper backing",
	Answers: "How opaque a sheet is, by one sheet over black against a pad of the same paper.",
	Formula: []string{"O = R0/Rinf"},
	Source:  "ISO 2471 and T 519: diffuse illumination, d/0, illuminant C (seen)",
	Status:  calc.Published,
	Example: "black-reflectance=72.4 %; pad-reflectance=80.5 %",
	Mistakes: []string{
		oneInstrument,
		"A pad is thick enough when twice as many sheets read the same.",
	},
	Compare: []calc.Comparison{{
		Name: "contrast-ratio", Inputs: "black-reflectance=72.4 %; white-reflectance=81.6 %",
		Why: "the other opacity, over a backing of 89 %, of a sheet with the same reading over black",
	}},
	Compute: Opacity.compute,
	Fields: func(f *calc.Form, in *Opacity, out *OpacityResult) {
		calc.In(f, &in.BlackReflectance, "black-reflectance", "R0", "%", "one sheet over black").From(0)
		calc.In(f, &in.PadReflectance, "pad-reflectance", "Rinf", "%", "of a pad of the paper, thick enough").Above(0)
		calc.Out(f, &out.Opacity, "opacity", "O", "%", "paper backing; not the one over 89 %").Report(tenthOfPercent(), "ISO 2471, T 519", calc.Memory)
	},
}

// ContrastRatio is the opacity over a backing of 89 %.
type ContrastRatio struct {
	BlackReflectance paperprop.Fraction // over black, zero or above, at most WhiteReflectance
	WhiteReflectance paperprop.Fraction // over a backing of 89 %, above zero
}

// ContrastRatioResult is the opacity over a backing of 89 %.
type ContrastRatioResult struct {
	ContrastRatio paperprop.Fraction
}

// Calculate returns the opacity R_0/R_0.89.
func (c ContrastRatio) Calculate() (ContrastRatioResult, error) { return contrastRatio.Calculate(c) }

func (c ContrastRatio) compute() (ContrastRatioResult, error) {
	if c.BlackReflectance > c.WhiteReflectance {
		return ContrastRatioResult{}, calc.Refuse("black-reflectance", c.BlackReflectance, "at most white-reflectance %v", c.WhiteReflectance)
	}
	return ContrastRatioResult{paperprop.Fraction(float64(c.BlackReflectance) / float64(c.WhiteReflectance))}, nil
}

var contrastRatio = &calc.Description[ContrastRatio, ContrastRatioResult]{
	Name:    "contrast-ratio",
	Title:   "Opacity over a backing of 89 %",
	Answers: "How opaque a sheet is, by its reflectance over black against that over a white of 89 %.",
	Formula: []string{"C = R0/R_w"},
	Source:  "T 425: 15/d, illuminant A, 2 degrees; C0.89 = R0/R0.89, black body at most 0.5 % (abstract seen)",
	Status:  calc.Published,
	Example: "black-reflectance=72.4 %; white-reflectance=81.6 %",
	Mistakes: []string{
		oneInstrument,
		"By Kubelka and Munk one can be reckoned from the other only for readings of one instrument: see pad-reflectance.",
	},
	Compare: []calc.Comparison{{
		Name: "opacity", Inputs: "black-reflectance=72.4 %; pad-reflectance=80.5 %",
		Why: "the other opacity, with paper backing, of a sheet with the same reading over black",
	}},
	Compute: ContrastRatio.compute,
	Fields: func(f *calc.Form, in *ContrastRatio, out *ContrastRatioResult) {
		calc.In(f, &in.BlackReflectance, "black-reflectance", "R0", "%", "over black").From(0)
		calc.In(f, &in.WhiteReflectance, "white-reflectance", "R_w", "%", "over a backing of 89 %").Above(0)
		calc.Out(f, &out.ContrastRatio, "contrast-ratio", "C", "%", "89 % backing; not the one with paper backing").Report(tenthOfPercent(), "T 425", calc.Memory)
	},
}

// An OpacityMethod is a method whose rule says when the two sides of a sheet are
// reported separately.
type OpacityMethod string

// The methods, with the difference that calls for separate results (published).
const (
	MethodISO2471 OpacityMethod = "iso-2471" // above 0.2 %
	MethodT519    OpacityMethod = "t-519"    // from 0.5 %
	MethodT425    OpacityMethod = "t-425"    // above 0.2 %
)

// Sides says how the two sides of a sheet are reported.
type Sides string

// The two ways.
const (
	SidesTogether Sides = "together" // their mean
	SidesApart    Sides = "apart"    // separately
)

// OpacitySides compares the opacity of the two sides of a sheet.
type OpacitySides struct {
	TopOpacity  paperprop.Fraction // above zero, at most 100 %
	WireOpacity paperprop.Fraction // same method, above zero, at most 100 %
	Method      OpacityMethod
}

// OpacitySidesResult is the difference of the sides, and how to report them.
type OpacitySidesResult struct {
	Opacity        paperprop.Fraction // mean of the sides
	SideDifference paperprop.Fraction
	Sides          Sides
}

// Calculate compares the sides in decimals: 88.8 % minus 88.6 % is not more than
// 0.2 %.
func (o OpacitySides) Calculate() (OpacitySidesResult, error) { return opacitySides.Calculate(o) }

func (o OpacitySides) compute() (OpacitySidesResult, error) {
	difference := result.Exact(float64(o.TopOpacity)).Sub(result.Exact(float64(o.WireOpacity))).Abs()
	apart := difference.GreaterThan(decimal.New(2, -3))
	if o.Method == MethodT519 {
		apart = difference.GreaterThanOrEqual(decimal.New(5, -3))
	}
	r := OpacitySidesResult{
		Opacity:        (o.TopOpacity + o.WireOpacity) / 2,
		SideDifference: paperprop.Fraction(difference.InexactFloat64()),
		Sides:          SidesTogether,
	}
	if apart {
		r.Sides = SidesApart
	}
	return r, nil
}

var opacitySides = &calc.Description[OpacitySides, OpacitySidesResult]{
	Name:    "opacity-sides",
	Title:   "Opacity of the two sides of a sheet",
	Answers: "Whether the opacity of the two sides is reported as one mean or apart.",
	Formula: []string{"O = (O_t + O_w)/2", "dO = abs(O_t - O_w)"},
	Method:  "apart above 0.2 % by ISO 2471 and T 425, from 0.5 % by T 519; the difference is taken in decimals",
	Source:  "an optics-instrument laboratory's page: the rules of all three methods (seen)",
	Status:  calc.Published,
	Example: "top-opacity=88.6 %; wire-opacity=88.9 %; method=iso-2471",
	Mistakes: []string{
		"Each method has its own limit beyond which the sides are reported apart: 0.3 % is apart by ISO 2471 and together by T 519.",
		"Both sides by one method: opacities with paper backing and over 89 % are not compared.",
	},
	Compare: []calc.Comparison{{Inputs: "top-opacity=88.6 %; wire-opacity=88.9 %; method=t-519", Why: "the same readings by T 519"}},
	Compute: OpacitySides.compute,
	Fields: func(f *calc.Form, in *OpacitySides, out *OpacitySidesResult) {
		calc.In(f, &in.TopOpacity, "top-opacity", "O_t", "%", "of the top side").Above(0).UpTo(100)
		calc.In(f, &in.WireOpacity, "wire-opacity", "O_w", "%", "of the wire side, by the same method").Above(0).UpTo(100)
		calc.InWord(f, &in.Method, "method", "tells the sides apart: iso-2471 and t-425 above 0.2 %, t-519 from 0.5 %", MethodISO2471, MethodT519, MethodT425).Label()
		calc.Out(f, &out.Opacity, "opacity", "O", "%", "mean of the sides").Report(tenthOfPercent(), "ISO 2471, T 519, T 425", calc.Memory)
		calc.Out(f, &out.SideDifference, "side-difference", "dO", "%", "absolute").Unreported("compared as it is")
		calc.OutWord(f, &out.Sides, "sides", "how to report", SidesTogether, SidesApart)
	},
}
