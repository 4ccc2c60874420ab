package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// TensileCurve is a tensile test of a strip, point by point. Its lists are of equal
// length.
type TensileCurve struct {
	Elongation []paperprop.Length // rising from zero, at least 3 points
	Force      []paperprop.Force  // at each elongation
	Span       paperprop.Length   // between the clamps, above zero
	StripWidth paperprop.Length   // zero stands for 15 mm
	Grammage   paperprop.Grammage // conditioned, above zero
}

// TensileCurveResult is everything that the curve says about the strip.
type TensileCurveResult struct {
	TensileStrength    paperprop.ForcePerLength
	Stretch            paperprop.Fraction // at greatest force
	TensileEnergy      paperprop.EnergyPerArea
	TensileEnergyIndex paperprop.SpecificEnergy
	TensileStiffness   paperprop.ForcePerLength
}

// Calculate evaluates the curve up to its greatest force, the first if several are
// equal: the work by the trapezoidal rule, the slope as the steepest chord between
// neighbouring points.
func (t TensileCurve) Calculate() (TensileCurveResult, error) { return tensileCurve.Calculate(t) }

func (t TensileCurve) compute() (TensileCurveResult, error) {
	peak, err := t.peak()
	if err != nil {
		return TensileCurveResult{}, err
	}
	var work, slope float64 // N·mm is mJ; N/mm
	for i := range peak {
		e := (t.Elongation[i+1] - t.Elongation[i]).In(paperprop.Millimetre)
		before, after := t.Force[i].In(paperprop.Newton), t.Force[i+1].In(paperprop.Newton)
		work += e * (before + after) / 2
		if e > 0 {
			slope = max(slope, (after-before)/e)
		}
	}
	if slope == 0 {
		return TensileCurveResult{}, calc.Refuse("elongation", t.Elongation[peak], "an elongation that rises on the way to the greatest force, %v", t.Force[peak])
	}
	r := TensileCurveResult{
		TensileStrength:  overEdge(t.Force[peak], t.StripWidth),
		Stretch:          paperprop.Fraction(t.Elongation[peak] / t.Span),
		TensileStiffness: stiff(slope, t.Span, t.StripWidth),
	}
	r.TensileEnergy, r.TensileEnergyIndex = absorbed(work, t.Span, t.StripWidth, t.Grammage)
	return r, nil
}

// peak returns the index of the first greatest force. It refuses a curve that
// cannot be that of a strip drawn until it broke.
func (t TensileCurve) peak() (int, error) {
	last := len(t.Elongation) - 1
	if last < 2 {
		return 0, calc.Refuse("elongation", t.Elongation[last], "at least 3 points, from zero")
	}
	// A start within a thousandth of the whole counts as zero, since an uncertainty
	// steps there.
	if math.Abs(float64(t.Elongation[0])) > 1e-3*float64(t.Elongation[last]) {
		return 0, calc.Refuse("elongation", t.Elongation[0], "zero at the first point: what the strip gave before is not in the curve")
	}
	peak := 0
	for i, e := range t.Elongation[1:] {
		if e < t.Elongation[i] {
			return 0, calc.Refuse("elongation", e, "at least the %v before it: a strip does not run backwards", t.Elongation[i])
		}
		if t.Force[i+1] > t.Force[peak] {
			peak = i + 1
		}
	}
	if peak == 0 {
		return 0, calc.Refuse("force", t.Force[0], "less at the first point than later")
	}
	return peak, nil
}

var tensileCurve = &calc.Description[TensileCurve, TensileCurveResult]{
	Name:    "tensile-curve",
	Title:   "Tensile properties from a curve",
	Answers: "How strong, stretchy, tough and stiff a strip is, from its curve of force against elongation (strain).",
	Formula: []string{"S = most(F)/b", "Z_i = Z/g"},
	Method: "stretch: elongation at the greatest force, the first of equal ones, over the span; " +
		"tensile energy: trapezoids up to there over span times width; " +
		"tensile stiffness: steepest chord between neighbouring points up to there, times span over width",
	Source:  "definitions: ISO 1924-3:2005, 3.8 to 3.10, and T 494 (seen); trapezoids and chords are the library's choice",
	Status:  calc.Published,
	Example: "elongation=[0 0.25 0.5 1 1.5 1.83] mm; force=[0 28 47.5 72 88 96.4] N; span=100 mm; grammage=121.4 g/m2",
	Mistakes: []string{
		"Chords cut the bow of a curve off: six of them lose 0.7 % of the work under a parabola.",
		"Points closer than the noise of the force make the steepest chord too steep: thin them out first.",
		"Slack before the force rises is not stretch: begin the curve where it does.",
	},
	Compute: TensileCurve.compute,
	Fields: func(f *calc.Form, in *TensileCurve, out *TensileCurveResult) {
		f.Even(
			calc.InList(f, &in.Elongation, "elongation", "e", "mm", "rising from 0, at least 3 points").From(0),
			calc.InList(f, &in.Force, "force", "F", "N", "at each elongation").From(0),
		)
		betweenClamps(f, &in.Span)
		widthOfStrip(f, &in.StripWidth)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		calc.Out(f, &out.TensileStrength, "tensile-strength", "S", "kN/m", "greatest force over width").Report(threeFigures(), tensileReadings, calc.Memory)
		calc.Out(f, &out.Stretch, "stretch", "epsilon", "%", "at greatest force").Report(tenthOfPercent(), tensileReadings, calc.Memory)
		energyOutputs(f, &out.TensileEnergy, &out.TensileEnergyIndex)
		stiffnessOutput(f, &out.TensileStiffness)
	},
}
