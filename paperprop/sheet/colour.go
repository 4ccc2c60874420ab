package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// WhitePoint is the white point of an illuminant and an observer.
type WhitePoint struct {
	Condition Condition
}

// Calculate returns X, Y and Z of a perfectly white surface.
func (w WhitePoint) Calculate() (TristimulusResult, error) { return whitePoint.Calculate(w) }

func (w WhitePoint) compute() (TristimulusResult, error) {
	switch w.Condition {
	case ConditionC2:
		return TristimulusResult{98.07, 100, 118.22}, nil
	case ConditionD6510:
		return TristimulusResult{94.81, 100, 107.32}, nil
	}
	return TristimulusResult{95.04, 100, 108.88}, nil
}

var whitePoint = &calc.Description[WhitePoint, TristimulusResult]{
	Name:    "white-point",
	Title:   "White point of an illuminant and an observer",
	Answers: "What X, Y and Z perfect white has.",
	Formula: []string{
		"C/2: X_n = 98.07", "C/2: Z_n = 118.22",
		"D65/10: X_n = 94.81", "D65/10: Z_n = 107.32",
		"D65/2: X_n = 95.04", "D65/2: Z_n = 108.88",
		"Y_n = 100",
	},
	Source:  "CIE 015:2018, as carried by colour-science 0.4.6 (seen)",
	Status:  calc.Published,
	Example: "condition=C/2",
	Mistakes: []string{
		"Weights tables have white points of their own, 98.074 100 118.232 and 94.811 100 107.304 in one (memory): take one source throughout.",
		"C/2 and D65/10 are not to be mixed: the same sheet has another colour under each.",
	},
	Compute: WhitePoint.compute,
	Fields: func(f *calc.Form, in *WhitePoint, out *TristimulusResult) {
		calc.InWord(f, &in.Condition, "condition", "illuminant and observer", ConditionC2, ConditionD6510, ConditionD652).Label()
		calc.Out(f, &out.XTristimulus, "x-tristimulus", "X_n", "1", "of perfect white")
		calc.Out(f, &out.YTristimulus, "y-tristimulus", "Y_n", "1", "of perfect white")
		calc.Out(f, &out.ZTristimulus, "z-tristimulus", "Z_n", "1", "of perfect white")
	},
}

// FilterTristimulus is a colour from readings through three filters.
type FilterTristimulus struct {
	RedReflectance   paperprop.Fraction // with the X filter, zero or above
	GreenReflectance paperprop.Fraction // with the Y filter, zero or above
	BlueReflectance  paperprop.Fraction // with the Z filter, zero or above
	Condition        Condition          // C/2 or D65/10
}

// Calculate returns X = a·R_x + b·R_z, Y = R_y and Z = c·R_z, with reflectances in
// per cent.
func (t FilterTristimulus) Calculate() (TristimulusResult, error) {
	return filterTristimulus.Calculate(t)
}

func (t FilterTristimulus) compute() (TristimulusResult, error) {
	red, green, blue := t.RedReflectance.In(paperprop.Percent), t.GreenReflectance.In(paperprop.Percent), t.BlueReflectance.In(paperprop.Percent)
	a, b, c := 0.768417, 0.179707, 1.073241
	if t.Condition == ConditionC2 {
		a, b, c = 0.783185, 0.19752, 1.182264
	}
	return TristimulusResult{paperprop.Ratio(a*red + b*blue), paperprop.Ratio(green), paperprop.Ratio(c * blue)}, nil
}

var filterTristimulus = &calc.Description[FilterTristimulus, TristimulusResult]{
	Name:    "filter-tristimulus",
	Title:   "CIE XYZ from readings through three filters",
	Answers: "What colour a sheet has, as X, Y and Z, from its reflectance through a red, a green and a blue filter.",
	Formula: []string{
		"C/2: X = 100*(0.783185*R_x + 0.19752*R_z)", "C/2: Z = 100*1.182264*R_z",
		"D65/10: X = 100*(0.768417*R_x + 0.179707*R_z)", "D65/10: Z = 100*1.073241*R_z",
		"Y = 100*R_y",
	},
	Source:  "coefficients in a public general-purpose colour toolbox (seen)",
	Status:  calc.Published,
	Example: "red-reflectance=71 %; green-reflectance=70 %; blue-reflectance=58 %; condition=C/2",
	Mistakes: []string{
		"The X filter sees the red part only: the blue part of X comes from the Z filter.",
		"The coefficients belong to the filters of one condition: C/2 filters with D65/10 coefficients give no colour.",
	},
	Compute: FilterTristimulus.compute,
	Fields: func(f *calc.Form, in *FilterTristimulus, out *TristimulusResult) {
		calc.In(f, &in.RedReflectance, "red-reflectance", "R_x", "%", "with the X filter").From(0)
		calc.In(f, &in.GreenReflectance, "green-reflectance", "R_y", "%", "with the Y filter").From(0)
		calc.In(f, &in.BlueReflectance, "blue-reflectance", "R_z", "%", "with the Z filter").From(0)
		calc.InWord(f, &in.Condition, "condition", "illuminant and observer of the filters", ConditionC2, ConditionD6510).Label()
		xyz(f, &out.XTristimulus, &out.YTristimulus, &out.ZTristimulus)
	},
}

// CIELAB is a colour relative to its white point, both on the same scale.
type CIELAB struct {
	XTristimulus paperprop.Ratio // zero or above
	YTristimulus paperprop.Ratio // zero or above
	ZTristimulus paperprop.Ratio // zero or above
	WhiteX       paperprop.Ratio // of the white point, above zero
	WhiteY       paperprop.Ratio // of the white point, above zero; zero stands for 100
	WhiteZ       paperprop.Ratio // of the white point, above zero
}

// CIELABResult is the colour in L*a*b*.
type CIELABResult struct {
	Lightness  paperprop.Ratio // L*, 100 is white
	RedGreen   paperprop.Ratio // a*, red above zero
	YellowBlue paperprop.Ratio // b*, yellow above zero
	Chroma     paperprop.Ratio // C*, distance from grey
	Hue        paperprop.Angle // 0 to below 360°; 0 for grey
}

// Calculate returns L* = 116·f(Y/Y_n) − 16, and the other values by CIE 15.
func (c CIELAB) Calculate() (CIELABResult, error) { return cielab.Calculate(c) }

// cieRoot returns the cube root; below (6/29)³, the tangent to it there.
func cieRoot(t float64) float64 {
	const edge = 216.0 / 24389
	if t > edge {
		return math.Cbrt(t)
	}
	return t*(841.0/108) + 4.0/29
}

// noChroma is the chroma below which a colour is grey, and its hue only rounding.
const noChroma = 1e-9

// hueOf returns the hue angle of a colour in degrees, 0 to below 360.
func hueOf(a, b float64) float64 {
	if math.Hypot(a, b) < noChroma {
		return 0
	}
	h := math.Atan2(b, a) * (180 / math.Pi)
	if h < 0 {
		h += 360
	}
	if h >= 360 { // b is just below zero
		return 0
	}
	return h
}

func (c CIELAB) compute() (CIELABResult, error) {
	x := cieRoot(float64(c.XTristimulus) / float64(c.WhiteX))
	y := cieRoot(float64(c.YTristimulus) / float64(c.WhiteY))
	z := cieRoot(float64(c.ZTristimulus) / float64(c.WhiteZ))
	a, b := 500*result.Rest(x, y), 200*result.Rest(y, z) // a grey has neither, whatever the last digits
	return CIELABResult{
		Lightness:  paperprop.Ratio(116*y - 16),
		RedGreen:   paperprop.Ratio(a),
		YellowBlue: paperprop.Ratio(b),
		Chroma:     paperprop.Ratio(math.Hypot(a, b)),
		Hue:        paperprop.Angle(hueOf(a, b)) * paperprop.Degree,
	}, nil
}

var cielab = &calc.Description[CIELAB, CIELABResult]{
	Name:    "cielab",
	Title:   "CIELAB colour",
	Answers: "What lightness, redness and yellowness (L*a*b*) a colour has against its white.",
	Formula: []string{
		"t = pow(6/29, 3)",
		"f_x = pow(max(X/X_n, t), 1/3) + (min(X/X_n, t) - t)*841/108",
		"f_y = pow(max(Y/Y_n, t), 1/3) + (min(Y/Y_n, t) - t)*841/108",
		"f_z = pow(max(Z/Z_n, t), 1/3) + (min(Z/Z_n, t) - t)*841/108",
		"L = 116*f_y - 16",
		"a = 500*(f_x - f_y)",
		"b = 200*(f_y - f_z)",
		"C = sqrt(pow(a, 2) + pow(b, 2))",
	},
	Method:  "f is the cube root, below (6/29)^3 its tangent there; the hue is the angle of (a, b), 0 where C is below 1e-9",
	Source:  "formula of CIE 15; checked against colour-science 0.4.6",
	Status:  calc.Library,
	Example: "x-tristimulus=78.5; y-tristimulus=82.1; z-tristimulus=90.3; white-x=98.07; white-z=118.22",
	Mistakes: []string{
		"The white point must be that of the light, observer and table of X, Y and Z: another shifts a and b of white itself.",
		"Figures on a scale of 1 against a white of 100 give black: both on one scale.",
	},
	Compute: CIELAB.compute,
	Fields: func(f *calc.Form, in *CIELAB, out *CIELABResult) {
		calc.In(f, &in.XTristimulus, "x-tristimulus", "X", "1", "of the colour").From(0)
		calc.In(f, &in.YTristimulus, "y-tristimulus", "Y", "1", "of the colour").From(0)
		calc.In(f, &in.ZTristimulus, "z-tristimulus", "Z", "1", "of the colour").From(0)
		calc.In(f, &in.WhiteX, "white-x", "X_n", "1", "of the white point, on the same scale").Above(0)
		calc.In(f, &in.WhiteY, "white-y", "Y_n", "1", "of the white point").Above(0).Default(100)
		calc.In(f, &in.WhiteZ, "white-z", "Z_n", "1", "of the white point").Above(0)
		calc.Out(f, &out.Lightness, "lightness", "L", "1", "L*")
		calc.Out(f, &out.RedGreen, "red-green", "a", "1", "a*, red above zero")
		calc.Out(f, &out.YellowBlue, "yellow-blue", "b", "1", "b*, yellow above zero")
		calc.Out(f, &out.Chroma, "chroma", "C", "1", "C*ab")
		calc.Out(f, &out.Hue, "hue", "h", "deg", "hab, 0 to below 360 deg; 0 without chroma")
	},
}

// An Observer is a standard observer, by field of view. The factor of the tint
// depends on it.
type Observer string

// The observers.
const (
	ObserverTwoDegree Observer = "two-degree" // tint factor 1000
	ObserverTenDegree Observer = "ten-degree" // tint factor 900
)

// Whiteness is the whiteness of a near-white sheet under D65.
type Whiteness struct {
	YTristimulus       paperprop.Ratio // zero or above
	XChromaticity      paperprop.Ratio // above 0, below 1
	YChromaticity      paperprop.Ratio // above 0, below 1; the two add up to at most 1
	WhiteXChromaticity paperprop.Ratio // of the white point, above 0, below 1: 0.3138 for D65/10
	WhiteYChromaticity paperprop.Ratio // of the white point, above 0, below 1: 0.3310 for D65/10
	Observer           Observer
}

// WhitenessResult is whiteness and tint.
type WhitenessResult struct {
	Whiteness paperprop.Ratio
	Tint      paperprop.Ratio // greenish above zero, reddish below
	Warnings  calc.Warnings
}

// Calculate returns W = Y + 800(x_n − x) + 1700(y_n − y), and the tint.
func (w Whiteness) Calculate() (WhitenessResult, error) { return whiteness.Calculate(w) }

var notWhite = calc.Warnings{{Code: "out-of-range", Text: "the formula holds for 40 < W < 5Y - 280 and -4 < T < 2 (CIE 15:2004); " +
	"an older rule has T within 3 of zero (CIE 1986)"}}

func (w Whiteness) compute() (WhitenessResult, error) {
	x, y, luminance := float64(w.XChromaticity), float64(w.YChromaticity), float64(w.YTristimulus)
	if result.Rest(x+y, 1) > 0 {
		return WhitenessResult{}, calc.Refuse("y-chromaticity", w.YChromaticity, "at most %v beside x-chromaticity %v: x, y and z add up to 1",
			1-w.XChromaticity, w.XChromaticity)
	}
	dx, dy := float64(w.WhiteXChromaticity)-x, float64(w.WhiteYChromaticity)-y
	factor := 900.0
	if w.Observer == ObserverTwoDegree {
		factor = 1000
	}
	white, tint := luminance+800*dx+1700*dy, factor*dx-650*dy
	r := WhitenessResult{Whiteness: paperprop.Ratio(white), Tint: paperprop.Ratio(tint)}
	const digits = 1e-11 // more than the rounding of the terms near a limit: a value on it counts as outside
	if !(white-40 > digits && 5*luminance-280-white > digits && tint+4 > digits && 2-tint > digits) {
		r.Warnings = notWhite
	}
	return r, nil
}

var whiteness = &calc.Description[Whiteness, WhitenessResult]{
	Name:    "whiteness",
	Title:   "CIE whiteness and tint",
	Answers: "How white a near-white sheet looks, and whether it leans to green or red.",
	Formula: []string{
		"W = Y + 800*(x_n - x) + 1700*(y_n - y)",
		"two-degree: T = 1000*(x_n - x) - 650*(y_n - y)",
		"ten-degree: T = 900*(x_n - x) - 650*(y_n - y)",
	},
	Source:  "CIE 15 (formula and limits seen in a colour library's documentation of that text); ISO 11475 is D65/10",
	Status:  calc.Published,
	Example: "y-tristimulus=88.5; x-chromaticity=0.306; y-chromaticity=0.3215; white-x-chromaticity=0.3138; white-y-chromaticity=0.3310; observer=ten-degree",
	Mistakes: []string{
		"1000 belongs to 2 degrees and 900 to 10: one public library has them the other way round.",
		"Brightness is not whiteness: a bluish sheet and a yellowish one can share an R457.",
		"Brown board has no whiteness: the formula is for near-white sheets, and warns of others.",
	},
	Compute: Whiteness.compute,
	Fields: func(f *calc.Form, in *Whiteness, out *WhitenessResult) {
		calc.In(f, &in.YTristimulus, "y-tristimulus", "Y", "1", "luminance, perfect white has 100").From(0)
		calc.In(f, &in.XChromaticity, "x-chromaticity", "x", "1", "X/(X + Y + Z)").Above(0).Below(1)
		calc.In(f, &in.YChromaticity, "y-chromaticity", "y", "1", "Y/(X + Y + Z)").Above(0).Below(1)
		calc.In(f, &in.WhiteXChromaticity, "white-x-chromaticity", "x_n", "1", "0.3138 for D65/10").Above(0).Below(1)
		calc.In(f, &in.WhiteYChromaticity, "white-y-chromaticity", "y_n", "1", "0.3310 for D65/10").Above(0).Below(1)
		calc.InWord(f, &in.Observer, "observer", "the tint factor is 1000 or 900", ObserverTwoDegree, ObserverTenDegree).Label()
		calc.Out(f, &out.Whiteness, "whiteness", "W", "1", "100 for perfect white")
		calc.Out(f, &out.Tint, "tint", "T", "1", "greenish above zero, reddish below")
		f.Warnings(&out.Warnings)
	},
}
