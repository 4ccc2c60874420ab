package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// FlutedCrush is a flat crush test of laboratory-fluted medium.
type FlutedCrush struct {
	Force []paperprop.Force  // of each piece of 10 flutes, above zero
	Delay paperprop.Duration // from fluting to crushing: zero is at once (CMT0); only labels the result
}

// FlutedCrushResult is the mean force.
type FlutedCrushResult struct {
	FlutedCrush paperprop.Force
}

// Calculate returns the mean of the pieces.
func (c FlutedCrush) Calculate() (FlutedCrushResult, error) { return flutedCrush.Calculate(c) }

func (c FlutedCrush) compute() (FlutedCrushResult, error) {
	sum := 0.0
	for _, force := range c.Force {
		sum += force.In(paperprop.Newton)
	}
	return FlutedCrushResult{paperprop.Force(sum/float64(len(c.Force))) * paperprop.Newton}, nil
}

var flutedCrush = &calc.Description[FlutedCrush, FlutedCrushResult]{
	Name:    "fluted-crush",
	Title:   "Flat crush of laboratory-fluted paper (CMT)",
	Answers: "What force crushes ten flutes of a fluting paper (corrugating medium).",
	Formula: []string{"F_m = mean(F)"},
	Source:  "ISO 7263-1:2018, a force of 10 flutes (laboratory page, seen); CMT0 and CMT30 from memory",
	Status:  calc.Published,
	Example: "force=[271 265 280 258 276] N; delay=0 min",
	Mistakes: []string{
		"It is a force in N, never a pressure: the pieces have ten flutes, not an area.",
		"CMT0 and CMT30 are two results: after 30 min the paper has its moisture back and is weaker (memory).",
	},
	Compute: FlutedCrush.compute,
	Fields: func(f *calc.Form, in *FlutedCrush, out *FlutedCrushResult) {
		calc.InList(f, &in.Force, "force", "F", "N", "of each piece of 10 flutes").Above(0)
		delayOfCrush(f, &in.Delay, "0 min (CMT0) or 30 min (CMT30)")
		calc.Out(f, &out.FlutedCrush, "fluted-crush", "F_m", "N", "mean of the pieces").Unreported("ISO 7263: " + notSeen)
	},
}

func delayOfCrush(f *calc.Form, delay *paperprop.Duration, which string) {
	calc.In(f, delay, "delay", "tau", "min", "fluting to crushing: "+which+"; belongs to the result").From(0).Label()
}

// CorrugatedCrush is an edge crush test of a laboratory-fluted strip.
type CorrugatedCrush struct {
	Force       paperprop.Force    // greatest, above zero
	StripLength paperprop.Length   // above zero
	Grammage    paperprop.Grammage // conditioned, of the flat fluting, above zero
	Delay       paperprop.Duration // from fluting to crushing: zero is at once; only labels the result
}

// CorrugatedCrushResult is the crush strength of the strip, and its index.
type CorrugatedCrushResult struct {
	CorrugatedCrushStrength paperprop.ForcePerLength
	CorrugatedCrushIndex    paperprop.StrengthIndex
}

// Calculate returns the strength F/l, and that over the grammage.
func (c CorrugatedCrush) Calculate() (CorrugatedCrushResult, error) {
	return corrugatedCrush.Calculate(c)
}

func (c CorrugatedCrush) compute() (CorrugatedCrushResult, error) {
	var r CorrugatedCrushResult
	r.CorrugatedCrushStrength, r.CorrugatedCrushIndex = strength(c.Force, c.StripLength, c.Grammage)
	return r, nil
}

var corrugatedCrush = &calc.Description[CorrugatedCrush, CorrugatedCrushResult]{
	Name:    "corrugated-crush",
	Title:   "Edge crush of a fluted strip (CCT) and index",
	Answers: "How much load a fluted strip bears on edge, for its length and grammage.",
	Formula: []string{"S = F/l", "I = S/g"},
	Source:  "ISO 16945:2014, procedures, kN/m and index in N.m/g (packaging laboratory's page, seen); length of the strip from memory",
	Status:  calc.Published,
	Example: "force=310 N; strip-length=152 mm; grammage=105 g/m2; delay=0 min",
	Mistakes: []string{
		"The length is that of the flat strip, and the grammage that of the flat paper, not of the waves.",
		"Procedure a (at once) and b (after 30 to 35 min) are two results.",
	},
	Compute: CorrugatedCrush.compute,
	Fields: func(f *calc.Form, in *CorrugatedCrush, out *CorrugatedCrushResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest").Above(0)
		calc.In(f, &in.StripLength, "strip-length", "l", "mm", "152 mm (memory)").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned, of the flat fluting").Above(0)
		delayOfCrush(f, &in.Delay, "0 min (procedure a) or 30 to 35 min (b)")
		calc.Out(f, &out.CorrugatedCrushStrength, "corrugated-crush-strength", "S", "kN/m", "force over length").Unreported("ISO 16945: " + notSeen)
		calc.Out(f, &out.CorrugatedCrushIndex, "corrugated-crush-index", "I", "N.m/g", "strength over grammage").Unreported("ISO 16945: " + notSeen)
	},
}
