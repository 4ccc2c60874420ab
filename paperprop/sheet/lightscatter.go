package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// absorptionOf returns k/s for the reflectance of an infinitely thick pad.
func absorptionOf(pad float64) float64 { return (1 - pad) * (1 - pad) / (2 * pad) }

// padOf returns the reflectance of an infinitely thick pad for a given k/s. Nothing
// cancels in this form, and it is defined one uncertainty step below k = 0.
func padOf(ratio float64) float64 {
	return 1 / (1 + ratio + math.Sqrt(max(0, ratio*(ratio+2))))
}

// over returns the reflectance of a sheet over a backing, with the light reflected
// to and fro between the two.
func over(backing, black, transmittance float64) float64 {
	return black + transmittance*transmittance*backing/(1-black*backing)
}

// contrastBacking is the reflectance of the backing of the contrast ratio.
const contrastBacking = 0.89

const kubelkaMunk = "Kubelka and Munk; closed forms checked against mpmath and by integrating the two-flux equation"

// LightCoefficients is scattering and absorption, from two reflectances measured on
// one instrument.
type LightCoefficients struct {
	BlackReflectance paperprop.Fraction // one sheet over black, above zero, below PadReflectance
	PadReflectance   paperprop.Fraction // of an opaque pad, below 100 %
	Grammage         paperprop.Grammage // above zero
}

// LightCoefficientsResult is the optical coefficients of the sheet, and its
// opacity.
type LightCoefficientsResult struct {
	Scattering      paperprop.OpticalCoefficient
	Absorption      paperprop.OpticalCoefficient
	AbsorptionRatio paperprop.Ratio
	Opacity         paperprop.Fraction // with paper backing
	Warnings        calc.Warnings
}

// Calculate returns s = ln[R_∞(1 − R_0·R_∞)/(R_∞ − R_0)]·R_∞/(g(1 − R_∞²)), and k.
func (l LightCoefficients) Calculate() (LightCoefficientsResult, error) {
	return lightCoefficients.Calculate(l)
}

var nearlyOpaque = calc.Warnings{{Code: "opaque", Text: "an opacity above 95 % lies outside ISO 9416 (published): " +
	"the scattering found grows without limit as the sheet over black comes to read like the pad"}}

func (l LightCoefficients) compute() (LightCoefficientsResult, error) {
	black, pad := float64(l.BlackReflectance), float64(l.PadReflectance)
	if black >= pad {
		return LightCoefficientsResult{}, calc.Refuse("black-reflectance", l.BlackReflectance, "below pad-reflectance %v", l.PadReflectance)
	}
	grammage := l.Grammage.In(paperprop.GramPerSquareMetre) / 1000 // kg/m²
	// The logarithm is ln(1 + x) with x = R_0(1 − R_∞²)/(R_∞ − R_0), which tends to
	// zero with 1 − R_∞².
	x := black * (1 - pad) * (1 + pad) / (pad - black)
	scattering := pad * black / (grammage * (pad - black)) * logRatio(x)
	ratio := absorptionOf(pad)
	opacity := black / pad
	r := LightCoefficientsResult{
		Scattering:      paperprop.OpticalCoefficient(scattering) * paperprop.OpticalSquareMetrePerKilogram,
		Absorption:      paperprop.OpticalCoefficient(scattering*ratio) * paperprop.OpticalSquareMetrePerKilogram,
		AbsorptionRatio: paperprop.Ratio(ratio),
		Opacity:         paperprop.Fraction(opacity),
	}
	if result.Rest(opacity, 0.95) > 0 {
		r.Warnings = nearlyOpaque
	}
	return r, nil
}

// logRatio returns ln(1 + x)/x.
func logRatio(x float64) float64 {
	if x == 0 {
		return 1
	}
	return math.Log1p(x) / x
}

var lightCoefficients = &calc.Description[LightCoefficients, LightCoefficientsResult]{
	Name:    "light-coefficients",
	Title:   "Light scattering and absorption of a sheet",
	Answers: "How much a paper scatters and absorbs light, from one sheet over black and a pad.",
	Formula: []string{
		"s = log(Rinf*(1 - R0*Rinf)/(Rinf - R0))*Rinf/(g*(1 - pow(Rinf, 2)))",
		"r = pow(1 - Rinf, 2)/(2*Rinf)",
		"k = s*r",
		"O = R0/Rinf",
	},
	Source:  kubelkaMunk + "; scope of ISO 9416:2017 (seen): luminance, C/2, d/0, white and near-white uncoated paper, opacity below about 95 %",
	Status:  calc.Library,
	Example: "black-reflectance=72.4 %; pad-reflectance=80.5 %; grammage=80 g/m2",
	Mistakes: []string{
		"Both readings on one instrument: a reading of 15/d, A/2 with one of d/0, C/2 gives nothing.",
		"Near full opacity a last digit of the reading moves s by per cents: look at the uncertainty.",
	},
	Compute: LightCoefficients.compute,
	Fields: func(f *calc.Form, in *LightCoefficients, out *LightCoefficientsResult) {
		calc.In(f, &in.BlackReflectance, "black-reflectance", "R0", "%", "one sheet over black").Above(0)
		calc.In(f, &in.PadReflectance, "pad-reflectance", "Rinf", "%", "of a pad of the paper, thick enough").Above(0).Below(100)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of one sheet").Above(0)
		calc.Out(f, &out.Scattering, "scattering", "s", "m2/kg", "of light").Report(threeFigures(), "ISO 9416", calc.Memory)
		calc.Out(f, &out.Absorption, "absorption", "k", "m2/kg", "of light").Report(threeFigures(), "ISO 9416", calc.Memory)
		calc.Out(f, &out.AbsorptionRatio, "absorption-ratio", "r", "1", "k/s")
		calc.Out(f, &out.Opacity, "opacity", "O", "%", "paper backing, light and geometry of the readings")
		f.Warnings(&out.Warnings)
	},
}

// AbsorptionRatio is k/s from the reflectance of an infinitely thick pad.
type AbsorptionRatio struct {
	PadReflectance paperprop.Fraction // above zero, at most 100 %
}

// AbsorptionRatioResult is absorption over scattering.
type AbsorptionRatioResult struct {
	AbsorptionRatio paperprop.Ratio
}

// Calculate returns the ratio (1 − R_∞)²/(2R_∞).
func (a AbsorptionRatio) Calculate() (AbsorptionRatioResult, error) {
	return absorptionRatio.Calculate(a)
}

func (a AbsorptionRatio) compute() (AbsorptionRatioResult, error) {
	return AbsorptionRatioResult{paperprop.Ratio(absorptionOf(float64(a.PadReflectance)))}, nil
}

var absorptionRatio = &calc.Description[AbsorptionRatio, AbsorptionRatioResult]{
	Name:     "absorption-ratio",
	Title:    "Absorption over scattering from the reflectance of a pad",
	Answers:  "How absorption compares with scattering, from the reflectance of a pad, or that reflectance from the ratio.",
	Formula:  []string{"r = pow(1 - Rinf, 2)/(2*Rinf)"},
	Source:   "Kubelka and Munk",
	Status:   calc.Memory,
	Example:  "pad-reflectance=74.4 %",
	Mistakes: []string{"Ratios add up over the parts of a furnish by their scattering, reflectances do not: see optical-mix."},
	Compute:  AbsorptionRatio.compute,
	Fields: func(f *calc.Form, in *AbsorptionRatio, out *AbsorptionRatioResult) {
		calc.In(f, &in.PadReflectance, "pad-reflectance", "Rinf", "%", "of a pad thick enough").Above(0).UpTo(100)
		calc.Out(f, &out.AbsorptionRatio, "absorption-ratio", "r", "1", "k/s; given instead, it yields the reflectance")
	},
}

// PadReflectance is the reflectance of a pad, and from it the opacity with paper
// backing, from readings of one sheet over black and over a backing.
type PadReflectance struct {
	BlackReflectance   paperprop.Fraction // over black, above zero
	BackedReflectance  paperprop.Fraction // over the backing, above BlackReflectance, at most 100 %
	BackingReflectance paperprop.Fraction // of the backing, above zero, at most 100 %; zero stands for 89 %
}

// PadReflectanceResult is the reflectance of the pad and the two opacities.
type PadReflectanceResult struct {
	PadReflectance paperprop.Fraction
	Opacity        paperprop.Fraction // with paper backing
	ContrastRatio  paperprop.Fraction // over the backing
	Warnings       calc.Warnings
}

// Calculate returns R_∞ = a − √(a² − 1), a = (R_b + (R_0 − R_b + R_g)/(R_0·R_g))/2.
func (p PadReflectance) Calculate() (PadReflectanceResult, error) { return padReflectance.Calculate(p) }

var otherBacking = calc.Warnings{{Code: "other-backing", Text: "the contrast-ratio is the one over this backing; that of T 425 is over 89 %"}}

func (p PadReflectance) compute() (PadReflectanceResult, error) {
	black, backed, backing := float64(p.BlackReflectance), float64(p.BackedReflectance), float64(p.BackingReflectance)
	if backed <= black {
		return PadReflectanceResult{}, calc.Refuse("backed-reflectance", p.BackedReflectance, "above black-reflectance %v", p.BlackReflectance)
	}
	a := (backed + (black-backed+backing)/(black*backing)) / 2
	if a < 1-1e-12 { // dividing by two reflectances loses more than the last digits
		return PadReflectanceResult{}, calc.Refuse("backed-reflectance", p.BackedReflectance,
			"less over a backing of %v: no sheet with black-reflectance %v lets so much light through", p.BackingReflectance, p.BlackReflectance)
	}
	pad := padOf(a - 1) // a is 1 + k/s
	r := PadReflectanceResult{
		PadReflectance: paperprop.Fraction(pad),
		Opacity:        paperprop.Fraction(black / pad),
		ContrastRatio:  paperprop.Fraction(black / backed),
	}
	if result.Outside(backing, contrastBacking-0.005, contrastBacking+0.005) {
		r.Warnings = otherBacking
	}
	return r, nil
}

var padReflectance = &calc.Description[PadReflectance, PadReflectanceResult]{
	Name:    "pad-reflectance",
	Title:   "Reflectance of a pad from one sheet over two backings",
	Answers: "What a pad of a paper would read, and so its opacity with paper backing, from a single sheet over two backings.",
	Formula: []string{
		"a = (R_b + (R0 - R_b + R_g)/(R0*R_g))/2",
		"Rinf = a - sqrt(pow(a, 2) - 1)",
		"O = R0/Rinf",
		"C = R0/R_b",
	},
	Source:  kubelkaMunk + "; T 1214 covers the relation (memory)",
	Status:  calc.Library,
	Example: "black-reflectance=70 %; backed-reflectance=78 %",
	Mistakes: []string{
		"This holds for readings of one instrument: it does not make an ISO 2471 opacity of a T 425 one, whose light and geometry are others.",
		"The backing is what it reads now, not what its label said when it was new.",
	},
	Compute: PadReflectance.compute,
	Fields: func(f *calc.Form, in *PadReflectance, out *PadReflectanceResult) {
		calc.In(f, &in.BlackReflectance, "black-reflectance", "R0", "%", "over black").Above(0)
		calc.In(f, &in.BackedReflectance, "backed-reflectance", "R_b", "%", "over the backing").UpTo(100)
		calc.In(f, &in.BackingReflectance, "backing-reflectance", "R_g", "%", "of the backing").Above(0).UpTo(100).Default(100 * contrastBacking)
		calc.Out(f, &out.PadReflectance, "pad-reflectance", "Rinf", "%", "of a pad, by the theory")
		calc.Out(f, &out.Opacity, "opacity", "O", "%", "paper backing, light and geometry of the readings").Unreported("reckoned, not read by a method")
		calc.Out(f, &out.ContrastRatio, "contrast-ratio", "C", "%", "over the backing").Unreported("reckoned, not read by a method")
		f.Warnings(&out.Warnings)
	},
}

// Reflectance is the reflectance of a sheet of known scattering and absorption.
type Reflectance struct {
	Scattering         paperprop.OpticalCoefficient // above zero
	Absorption         paperprop.OpticalCoefficient // zero or above
	Grammage           paperprop.Grammage           // above zero
	BackingReflectance paperprop.Fraction           // of the backing; zero is black
}

// ReflectanceResult is the reflectances over the backing, over black, over 89 % and
// of a pad, the transmittance, and the two opacities.
type ReflectanceResult struct {
	Reflectance      paperprop.Fraction
	BlackReflectance paperprop.Fraction
	WhiteReflectance paperprop.Fraction // over 89 %
	PadReflectance   paperprop.Fraction
	Transmittance    paperprop.Fraction
	Opacity          paperprop.Fraction // with paper backing
	ContrastRatio    paperprop.Fraction // with a backing of 89 %
}

// Calculate returns the reflectances by Kubelka and Munk, in a form that also holds
// without absorption.
func (r Reflectance) Calculate() (ReflectanceResult, error) { return sheetReflectance.Calculate(r) }

func (r Reflectance) compute() (ReflectanceResult, error) {
	scattering, absorption := r.Scattering.In(paperprop.OpticalSquareMetrePerKilogram), r.Absorption.In(paperprop.OpticalSquareMetrePerKilogram)
	depth, ratio := scattering*r.Grammage.In(paperprop.GramPerSquareMetre)/1000, absorption/scattering
	black, transmittance := oneSheet(depth, ratio)
	pad, white := padOf(ratio), over(contrastBacking, black, transmittance)
	return ReflectanceResult{
		Reflectance:      paperprop.Fraction(over(float64(r.BackingReflectance), black, transmittance)),
		BlackReflectance: paperprop.Fraction(black),
		WhiteReflectance: paperprop.Fraction(white),
		PadReflectance:   paperprop.Fraction(pad),
		Transmittance:    paperprop.Fraction(transmittance),
		Opacity:          paperprop.Fraction(black / pad),
		ContrastRatio:    paperprop.Fraction(black / white),
	}, nil
}

// oneSheet returns the reflectance over black and the transmittance of a sheet;
// depth is s·g and ratio k/s. With z = b·s·g and b² = r(r + 2), the textbook's
// b·coth(z) and sinh(z)/b are computed from z·coth(z) and sinh(z)/z. These are
// smooth in z², so they hold at k = 0, keep their digits near it, and are defined
// one uncertainty step below it.
func oneSheet(depth, ratio float64) (black, transmittance float64) {
	square := depth * depth * ratio * (ratio + 2)
	z := math.Sqrt(math.Abs(square))
	zcoth, sinhz, cosh := 1.0, 1.0, 1.0
	switch {
	case square > 0:
		zcoth, sinhz, cosh = z/math.Tanh(z), math.Sinh(z)/z, math.Cosh(z)
	case square < 0:
		zcoth, sinhz, cosh = z/math.Tan(z), math.Sin(z)/z, math.Cos(z)
	}
	a := (1 + ratio) * depth
	return depth / (a + zcoth), 1 / (a*sinhz + cosh)
}

var sheetReflectance = &calc.Description[Reflectance, ReflectanceResult]{
	Name:    "sheet-reflectance",
	Title:   "Reflectance, transmittance and opacity of a sheet",
	Answers: "What a sheet of known scattering, absorption and grammage reflects, lets through and hides.",
	Formula: []string{
		"Rinf = 1 + k/s - sqrt(pow(k/s, 2) + 2*k/s)",
		"E = exp(-s*g*(1/Rinf - Rinf))",
		"R0 = Rinf*(1 - E)/(1 - pow(Rinf, 2)*E)",
		"T = (1 - pow(Rinf, 2))*sqrt(E)/(1 - pow(Rinf, 2)*E)",
		"R = R0 + pow(T, 2)*R_g/(1 - R0*R_g)",
		"R_w = R0 + pow(T, 2)*0.89/(1 - R0*0.89)",
		"O = R0/Rinf",
		"C = R0/R_w",
	},
	Method:  "without absorption R0 = s*g/(1 + s*g), T = 1/(1 + s*g) and Rinf = 1: the lines are 0/0 there, the form reckoned with is not",
	Source:  kubelkaMunk,
	Status:  calc.Library,
	Example: "scattering=55 m2/kg; absorption=1.8 m2/kg; grammage=60 g/m2",
	Mistakes: []string{
		"Grammage enters in kg/m2: at 60 g/m2 and 55 m2/kg s*g is 3.3.",
		"The two opacities of one sheet differ by some per cent: say which.",
	},
	Compute: Reflectance.compute,
	Fields: func(f *calc.Form, in *Reflectance, out *ReflectanceResult) {
		calc.In(f, &in.Scattering, "scattering", "s", "m2/kg", "of light").Above(0)
		calc.In(f, &in.Absorption, "absorption", "k", "m2/kg", "of light").From(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the sheet").Above(0)
		calc.In(f, &in.BackingReflectance, "backing-reflectance", "R_g", "%", "of what lies under the sheet").From(0).UpTo(100).Default(0)
		calc.Out(f, &out.Reflectance, "reflectance", "R", "%", "over that backing")
		calc.Out(f, &out.BlackReflectance, "black-reflectance", "R0", "%", "over black")
		calc.Out(f, &out.WhiteReflectance, "white-reflectance", "R_w", "%", "over 89 %")
		calc.Out(f, &out.PadReflectance, "pad-reflectance", "Rinf", "%", "of a pad thick enough")
		calc.Out(f, &out.Transmittance, "transmittance", "T", "%", "over black")
		calc.Out(f, &out.Opacity, "opacity", "O", "%", "paper backing; given instead, it yields the grammage it needs")
		calc.Out(f, &out.ContrastRatio, "contrast-ratio", "C", "%", "89 % backing")
	},
}

// OpticalMix is the scattering and absorption of a furnish, from those of its
// parts. Its lists are of equal length.
type OpticalMix struct {
	Share      []paperprop.Fraction           // of dry mass; together 100 %
	Scattering []paperprop.OpticalCoefficient // of each part, above zero
	Absorption []paperprop.OpticalCoefficient // of each part, zero or above
}

// OpticalMixResult is the optical coefficients of the mixture, and the reflectance
// of a pad.
type OpticalMixResult struct {
	MixScattering  paperprop.OpticalCoefficient
	MixAbsorption  paperprop.OpticalCoefficient
	PadReflectance paperprop.Fraction
}

// Calculate returns the scattering Σx·s, the absorption Σx·k and the reflectance of
// a pad.
func (m OpticalMix) Calculate() (OpticalMixResult, error) { return opticalMix.Calculate(m) }

func (m OpticalMix) compute() (OpticalMixResult, error) {
	var scattering, absorption float64
	for i, share := range m.Share {
		scattering += float64(share) * m.Scattering[i].In(paperprop.OpticalSquareMetrePerKilogram)
		absorption += float64(share) * m.Absorption[i].In(paperprop.OpticalSquareMetrePerKilogram)
	}
	return OpticalMixResult{
		MixScattering:  paperprop.OpticalCoefficient(scattering) * paperprop.OpticalSquareMetrePerKilogram,
		MixAbsorption:  paperprop.OpticalCoefficient(absorption) * paperprop.OpticalSquareMetrePerKilogram,
		PadReflectance: paperprop.Fraction(padOf(absorption / scattering)),
	}, nil
}

var opticalMix = &calc.Description[OpticalMix, OpticalMixResult]{
	Name:    "optical-mix",
	Title:   "Light scattering and absorption of a mixed furnish",
	Answers: "What pulps and fillers scatter and absorb together, and what a pad of the mix would read.",
	Formula: []string{"s_m = sum(x*s)", "k_m = sum(x*k)", "Rinf = 1 + k_m/s_m - sqrt(pow(k_m/s_m, 2) + 2*k_m/s_m)"},
	Source:  "coefficients per mass add up by mass",
	Status:  calc.CommonPractice,
	Example: "share=[50 30 20] %; scattering=[35 50 160] m2/kg; absorption=[6 0.8 0.4] m2/kg",
	Mistakes: []string{
		"Reflectances do not mix: a dark tenth takes far more than a tenth of the brightness.",
		"Filler also comes between fibres and changes their scattering; the sum does not know that.",
	},
	Compute: OpticalMix.compute,
	Fields: func(f *calc.Form, in *OpticalMix, out *OpticalMixResult) {
		f.Even(
			calc.InList(f, &in.Share, "share", "x", "%", "of dry mass, 100 % in all").From(0).UpTo(100).SumsTo(100, 1e-7),
			calc.InList(f, &in.Scattering, "scattering", "s", "m2/kg", "of each part").Above(0),
			calc.InList(f, &in.Absorption, "absorption", "k", "m2/kg", "of each part").From(0),
		)
		calc.Out(f, &out.MixScattering, "mix-scattering", "s_m", "m2/kg", "weighted by mass")
		calc.Out(f, &out.MixAbsorption, "mix-absorption", "k_m", "m2/kg", "weighted by mass")
		calc.Out(f, &out.PadReflectance, "pad-reflectance", "Rinf", "%", "of a pad of the mix")
	},
}
