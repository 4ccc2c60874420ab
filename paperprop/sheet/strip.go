package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// strength returns a force over a width, and that over the grammage.
func strength(force paperprop.Force, width paperprop.Length, g paperprop.Grammage) (paperprop.ForcePerLength, paperprop.StrengthIndex) {
	s := overEdge(force, width)
	return s, index(s, g)
}

// overEdge returns a force over the length of the edge that bears it.
func overEdge(force paperprop.Force, edge paperprop.Length) paperprop.ForcePerLength {
	return paperprop.ForcePerLength(force.In(paperprop.Newton)/edge.In(paperprop.Millimetre)) * paperprop.KilonewtonPerMetre // N/mm
}

// index returns a strength over the grammage.
func index(s paperprop.ForcePerLength, g paperprop.Grammage) paperprop.StrengthIndex {
	return paperprop.StrengthIndex(1000*s.In(paperprop.KilonewtonPerMetre)/g.In(paperprop.GramPerSquareMetre)) * paperprop.KilonewtonMetrePerKilogram
}

// ownWeight returns the length of a strip that breaks under its own weight.
func ownWeight(i paperprop.StrengthIndex, gravity paperprop.Acceleration) paperprop.Length {
	// kN·m/kg over m/s² is km.
	return paperprop.Length(i.In(paperprop.KilonewtonMetrePerKilogram)/gravity.In(paperprop.MetrePerSquareSecond)) * paperprop.Kilometre
}

// Tensile is a tensile test of a strip.
type Tensile struct {
	Force      paperprop.Force        // greatest, above zero
	StripWidth paperprop.Length       // zero stands for 15 mm
	Grammage   paperprop.Grammage     // conditioned, above zero
	Gravity    paperprop.Acceleration // for the breaking length; zero stands for 9.80665 m/s²
}

// TensileResult is the tensile strength, its index and the breaking length.
type TensileResult struct {
	TensileStrength paperprop.ForcePerLength
	TensileIndex    paperprop.StrengthIndex
	BreakingLength  paperprop.Length
}

// Calculate returns the strength F/b, the index: that over the grammage, and the
// breaking length: the index over gravity.
func (t Tensile) Calculate() (TensileResult, error) { return tensile.Calculate(t) }

func (t Tensile) compute() (TensileResult, error) {
	var r TensileResult
	r.TensileStrength, r.TensileIndex = strength(t.Force, t.StripWidth, t.Grammage)
	r.BreakingLength = ownWeight(r.TensileIndex, t.Gravity)
	return r, nil
}

var tensile = &calc.Description[Tensile, TensileResult]{
	Name:    "tensile",
	Title:   "Tensile strength, index and breaking length",
	Answers: "How strong a strip is in tension, as such, for its grammage, and as a length that would break under its own weight.",
	Formula: []string{"S = F/b", "I = S/g", "L = S/(g*g_0)"},
	Source:  "definitions of T 494 (text seen) and a paper-testing article; g_0 is standard gravity",
	Status:  calc.Published,
	Example: "force=85 N; grammage=80 g/m2",
	Mistakes: []string{
		notInterchangeable,
		"Breaking lengths with 9.81 m/s2 or the factor 102000 differ by up to 0.03 %.",
	},
	Compute: Tensile.compute,
	Fields: func(f *calc.Form, in *Tensile, out *TensileResult) {
		forceOnStrip(f, &in.Force, &in.StripWidth, &in.Grammage)
		gravityOfBreaking(f, &in.Gravity)
		calc.Out(f, &out.TensileStrength, "tensile-strength", "S", "kN/m", "force over width").Report(threeFigures(), tensileReadings, calc.Memory)
		calc.Out(f, &out.TensileIndex, "tensile-index", "I", "kN.m/kg", "strength over grammage").Report(threeFigures(), tensileReadings, calc.Memory)
		calc.Out(f, &out.BreakingLength, "breaking-length", "L", "km", "length that breaks under its own weight").Report(threeFigures(), tensileReadings, calc.Memory)
	},
}

func forceOnStrip(f *calc.Form, force *paperprop.Force, width *paperprop.Length, grammage *paperprop.Grammage) {
	calc.In(f, force, "force", "F", "N", "greatest").Above(0)
	widthOfStrip(f, width)
	calc.In(f, grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
}

func widthOfStrip(f *calc.Form, width *paperprop.Length) {
	calc.In(f, width, "strip-width", "b", "mm", "of the strip").Above(0).Default(15)
}

func gravityOfBreaking(f *calc.Form, gravity *paperprop.Acceleration) {
	calc.In(f, gravity, "gravity", "g_0", "m/s2", "for the breaking length; other sources take 9.81").Above(0).Default(9.80665)
}

// ShortSpan is a compression test over a short span.
type ShortSpan struct {
	Force      paperprop.Force    // greatest, above zero
	StripWidth paperprop.Length   // zero stands for 15 mm
	Grammage   paperprop.Grammage // conditioned, above zero
	Thickness  paperprop.Length   // only checks the limit of the method; zero is not given
}

// ShortSpanResult is the compressive strength of a strip, and its index.
type ShortSpanResult struct {
	ShortSpanStrength paperprop.ForcePerLength
	ShortSpanIndex    paperprop.StrengthIndex
	Warnings          calc.Warnings
}

// Calculate returns the strength F/b, and that over the grammage.
func (s ShortSpan) Calculate() (ShortSpanResult, error) { return shortSpan.Calculate(s) }

var thinForShortSpan = calc.Warnings{{Code: "thin-sheet", Text: "thinner than 140 um: the span of 0.70 mm is more than " +
	"5 thicknesses (T 826, published)"}}

func (s ShortSpan) compute() (ShortSpanResult, error) {
	var r ShortSpanResult
	r.ShortSpanStrength, r.ShortSpanIndex = strength(s.Force, s.StripWidth, s.Grammage)
	if thinner(s.Thickness, 140) {
		r.Warnings = thinForShortSpan
	}
	return r, nil
}

// thinner reports whether a given thickness is below a limit in µm.
func thinner(thickness paperprop.Length, limit float64) bool {
	return thickness != 0 && result.Rest(thickness.In(paperprop.Micrometre), limit) < 0
}

const shortSpanReadings = "mean of 20 in each direction (DIN 54518, seen), conditioned grammage; ISO 9895"

var shortSpan = &calc.Description[ShortSpan, ShortSpanResult]{
	Name:     "short-span",
	Title:    "Short-span compression strength (SCT) and index",
	Answers:  "How strong a strip is in compression over 0.70 mm.",
	Formula:  []string{"S = F/b", "I = S/g"},
	Source:   "ISO 9895 and T 826 (span, strip and limit seen)",
	Status:   calc.Published,
	Example:  "force=33.1 N; grammage=127 g/m2",
	Mistakes: []string{"There is no relation to ring crush that holds for all papers."},
	Compute:  ShortSpan.compute,
	Fields: func(f *calc.Form, in *ShortSpan, out *ShortSpanResult) {
		forceOnStrip(f, &in.Force, &in.StripWidth, &in.Grammage)
		calc.In(f, &in.Thickness, "thickness", "t", "um", "to check the limit of the method only").Above(0).Optional()
		calc.Out(f, &out.ShortSpanStrength, "short-span-strength", "S", "kN/m", "force over width").Report(threeFigures(), shortSpanReadings, calc.Memory)
		calc.Out(f, &out.ShortSpanIndex, "short-span-index", "I", "kN.m/kg", "strength over grammage").Report(threeFigures(), shortSpanReadings, calc.Memory)
		f.Warnings(&out.Warnings)
	},
}

// RingCrush is a compression test of a strip standing on edge in a ring.
type RingCrush struct {
	Force       paperprop.Force    // greatest, above zero
	StripLength paperprop.Length   // zero stands for 152.4 mm
	Grammage    paperprop.Grammage // conditioned, above zero
	Thickness   paperprop.Length   // only checks the limit of the method; zero is not given
}

// RingCrushResult is the ring crush strength, and its index.
type RingCrushResult struct {
	RingCrushStrength paperprop.ForcePerLength
	RingCrushIndex    paperprop.StrengthIndex
	Warnings          calc.Warnings
}

// Calculate returns the strength F/l, and that over the grammage.
func (c RingCrush) Calculate() (RingCrushResult, error) { return ringCrush.Calculate(c) }

var (
	thinForRing = calc.Warnings{{Code: "thin-sheet", Text: "thinner than 280 um: buckling mixes with crush (ISO 12192 and T 822, published), " +
		"and ISO 12192 begins at 100 um (published)"}}
	thickForRing = calc.Warnings{{Code: "out-of-range", Text: "thicker than 580 um, where ISO 12192 ends (published)"}}
)

func (c RingCrush) compute() (RingCrushResult, error) {
	var r RingCrushResult
	r.RingCrushStrength, r.RingCrushIndex = strength(c.Force, c.StripLength, c.Grammage)
	switch {
	case thinner(c.Thickness, 280):
		r.Warnings = thinForRing
	case result.Rest(c.Thickness.In(paperprop.Micrometre), 580) > 0:
		r.Warnings = thickForRing
	}
	return r, nil
}

const ringReadings = "ISO 12192 by AS/NZS 1301.407:2017: mean of at least 10 in each direction (published); " + notSeen

var ringCrush = &calc.Description[RingCrush, RingCrushResult]{
	Name:     "ring-crush",
	Title:    "Ring crush strength (RCT) and index",
	Answers:  "How much load a strip bears on edge in a ring, for its length and grammage.",
	Formula:  []string{"S = F/l", "I = S/g"},
	Source:   "ISO 12192:2011 (strip seen in AS/NZS 1301.407:2017)",
	Status:   calc.Published,
	Example:  "force=250 N; grammage=130 g/m2",
	Mistakes: []string{"Some ISO prints divide by 152 mm (memory), T 822 reports lbf per 6 in."},
	Compute:  RingCrush.compute,
	Fields: func(f *calc.Form, in *RingCrush, out *RingCrushResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest").Above(0)
		calc.In(f, &in.StripLength, "strip-length", "l", "mm", "of the strip; 152 mm in some ISO prints (memory)").Above(0).Default(152.4)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		calc.In(f, &in.Thickness, "thickness", "t", "um", "to check the limits of the method only").Above(0).Optional()
		calc.Out(f, &out.RingCrushStrength, "ring-crush-strength", "S", "kN/m", "force over length").Unreported(ringReadings)
		calc.Out(f, &out.RingCrushIndex, "ring-crush-index", "I", "kN.m/kg", "strength over grammage").Unreported(ringReadings)
		f.Warnings(&out.Warnings)
	},
}
