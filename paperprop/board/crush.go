package board

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A CrushMethod is the test behind an edge crush. Results of different tests are
// not interchangeable.
type CrushMethod string

// The methods: plain and waxed pieces, and in the second family waxed, necked and
// clamped ones.
const (
	MethodISO3037  CrushMethod = "iso-3037"
	MethodISO13821 CrushMethod = "iso-13821"
	MethodT811     CrushMethod = "t-811"
	MethodT838     CrushMethod = "t-838"
	MethodT839     CrushMethod = "t-839"
)

// EdgeCrush is an edge crush test of board, with the flutes upright.
type EdgeCrush struct {
	Force  paperprop.Force  // greatest, mean of the pieces, above zero
	Length paperprop.Length // of the loaded edge, above zero: 100 mm or 2 in
	Method CrushMethod
}

// EdgeCrushResult is the edge crush resistance.
type EdgeCrushResult struct {
	EdgeCrush paperprop.ForcePerLength
}

// Calculate returns the strength F/l.
func (e EdgeCrush) Calculate() (EdgeCrushResult, error) { return edgeCrush.Calculate(e) }

func (e EdgeCrush) compute() (EdgeCrushResult, error) {
	// N/mm is kN/m.
	return EdgeCrushResult{paperprop.ForcePerLength(e.Force.In(paperprop.Newton)/e.Length.In(paperprop.Millimetre)) * paperprop.KilonewtonPerMetre}, nil
}

var edgeCrush = &calc.Description[EdgeCrush, EdgeCrushResult]{
	Name:    "edge-crush",
	Title:   "Edge crush resistance of board (ECT)",
	Answers: "How much load the edge of a board bears for its length (edgewise crush).",
	Formula: []string{"E_c = F/l"},
	Source:  "ISO 3037 as quoted by two public pages: R = 0.01 F on 100 mm (seen); 2 in of the T methods from memory",
	Status:  calc.Published,
	Example: "force=518 N; length=100 mm; method=iso-3037",
	Mistakes: []string{
		"Waxed, necked and clamped pieces give other results: name the method, and compare only within one.",
		"The length is that of the loaded edge: 100 mm in ISO 3037, 2 in in the T methods (memory).",
	},
	Compute: EdgeCrush.compute,
	Fields: func(f *calc.Form, in *EdgeCrush, out *EdgeCrushResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest, mean of the pieces").Above(0)
		calc.In(f, &in.Length, "length", "l", "mm", "of the loaded edge: 100 mm in ISO 3037, 2 in in the T methods (memory)").Above(0)
		calc.InWord(f, &in.Method, "method", "named with the result: results of two methods are not interchangeable",
			MethodISO3037, MethodISO13821, MethodT811, MethodT838, MethodT839).Label()
		calc.Out(f, &out.EdgeCrush, "edge-crush", "E_c", "kN/m", "by this method").Report(result.StepOf(1, -1, result.Even), "ISO 3037: mean of 10 pieces; taken for the other methods too", calc.Memory)
	},
}

// A ComponentTest is a test of papers from which an edge crush is estimated. A
// factor is valid for one test only.
type ComponentTest string

// The tests.
const (
	TestShortSpan ComponentTest = "short-span"
	TestRingCrush ComponentTest = "ring-crush"
)

// EdgeCrushEstimate is an estimate of the edge crush of a board from its papers.
// FlutingStrength and TakeUp are of equal length.
type EdgeCrushEstimate struct {
	LinerStrength   []paperprop.ForcePerLength // of each liner, cross direction, above zero
	FlutingStrength []paperprop.ForcePerLength // of each fluting, same test, above zero
	TakeUp          []paperprop.Ratio          // of each fluting, 1 or above
	Factor          paperprop.Ratio            // fitted per mill and test, above zero; no default
	Test            ComponentTest              // of the strengths and of the factor
}

// EdgeCrushEstimateResult is the estimate.
type EdgeCrushEstimateResult struct {
	EdgeCrush paperprop.ForcePerLength
}

// Calculate returns the estimate k(ΣS_l + Σα·S_f).
func (e EdgeCrushEstimate) Calculate() (EdgeCrushEstimateResult, error) {
	return edgeCrushEstimate.Calculate(e)
}

func (e EdgeCrushEstimate) compute() (EdgeCrushEstimateResult, error) {
	sum := 0.0
	for _, liner := range e.LinerStrength {
		sum += liner.In(paperprop.KilonewtonPerMetre)
	}
	for i, fluting := range e.FlutingStrength {
		sum += float64(e.TakeUp[i]) * fluting.In(paperprop.KilonewtonPerMetre)
	}
	return EdgeCrushEstimateResult{paperprop.ForcePerLength(float64(e.Factor)*sum) * paperprop.KilonewtonPerMetre}, nil
}

var edgeCrushEstimate = &calc.Description[EdgeCrushEstimate, EdgeCrushEstimateResult]{
	Name:    "edge-crush-estimate",
	Title:   "Edge crush (ECT) estimated from the papers",
	Answers: "What edge crush to expect of the papers of a board, by a factor of the mill's own.",
	Formula: []string{"E_c = k*(sum(S_l) + sum(alpha*S_f))"},
	Source:  "that the sums go with edge crush is said in the T 818 and T 826 scopes (seen); the factor is not",
	Status:  calc.CommonPractice,
	Example: "liner-strength=[2.5 2.1] kN/m; fluting-strength=[1.7] kN/m; take-up=[1.43]; factor=0.7; test=short-span",
	Mistakes: []string{
		"The factor is fitted per mill: about 0.7 on short-span, 0.8 and more on ring crush (memory). There is no default.",
		"A factor of one test with strengths of the other is wrong: no relation between the two holds for all papers.",
	},
	Compute: EdgeCrushEstimate.compute,
	Fields: func(f *calc.Form, in *EdgeCrushEstimate, out *EdgeCrushEstimateResult) {
		calc.InList(f, &in.LinerStrength, "liner-strength", "S_l", "kN/m", "of each liner, cross direction").Above(0)
		f.Even(
			calc.InList(f, &in.FlutingStrength, "fluting-strength", "S_f", "kN/m", "of each fluting, by the same test").Above(0),
			calc.InList(f, &in.TakeUp, "take-up", "alpha", "1", "of each fluting, in the same order").From(1),
		)
		calc.In(f, &in.Factor, "factor", "k", "1", "fitted per mill: about 0.7 on short-span, 0.8 and more on ring crush (memory)").Above(0)
		calc.InWord(f, &in.Test, "test", "that the strengths and the factor come from: SCT or RCT", TestShortSpan, TestRingCrush)
		calc.Out(f, &out.EdgeCrush, "edge-crush", "E_c", "kN/m", "an estimate").Unreported(estimated)
	},
}

// FlatCrush is a flat crush test of board.
type FlatCrush struct {
	Force paperprop.Force // greatest, above zero
	Area  paperprop.Area  // of the piece, above zero
}

// FlatCrushResult is the pressure that the flutes bear.
type FlatCrushResult struct {
	FlatCrush paperprop.Pressure
}

// Calculate returns the pressure F/A.
func (c FlatCrush) Calculate() (FlatCrushResult, error) { return flatCrush.Calculate(c) }

func (c FlatCrush) compute() (FlatCrushResult, error) {
	return FlatCrushResult{paperprop.Pressure(c.Force.In(paperprop.Kilonewton)/c.Area.In(paperprop.SquareMetre)) * paperprop.Kilopascal}, nil
}

var flatCrush = &calc.Description[FlatCrush, FlatCrushResult]{
	Name:    "flat-crush",
	Title:   "Flat crush resistance of board (FCT)",
	Answers: "What pressure the flutes of a board bear.",
	Formula: []string{"p = F/A"},
	Source:  "definition; limits in the scope of ISO 3035 (seen)",
	Status:  calc.Published,
	Example: "force=845 N; area=64.5 cm2",
	Mistakes: []string{
		"Not for double wall or microflute (ISO 3035, published).",
		"The area is that of the cutter: 32.2 or 64.5 cm2 (memory), one twice the other.",
	},
	Compute: FlatCrush.compute,
	Fields: func(f *calc.Form, in *FlatCrush, out *FlatCrushResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest").Above(0)
		calc.In(f, &in.Area, "area", "A", "cm2", "of the piece: 32.2 or 64.5 cm2 (memory)").Above(0)
		calc.Out(f, &out.FlatCrush, "flat-crush", "p", "kPa", "not for double wall or microflute").Unreported("ISO 3035: its rule of rounding was not seen, none applied")
	},
}

// PinAdhesion is a test of the glue lines between fluting and liner.
type PinAdhesion struct {
	Force          paperprop.Force  // greatest, above zero
	GlueLineLength paperprop.Length // number of glued flute tips times the width of the piece, above zero
}

// PinAdhesionResult is the strength of a glue line.
type PinAdhesionResult struct {
	PinAdhesion paperprop.ForcePerLength
}

// Calculate returns the strength F/l.
func (p PinAdhesion) Calculate() (PinAdhesionResult, error) { return pinAdhesion.Calculate(p) }

func (p PinAdhesion) compute() (PinAdhesionResult, error) {
	return PinAdhesionResult{paperprop.ForcePerLength(p.Force.In(paperprop.Newton)/p.GlueLineLength.In(paperprop.Metre)) * paperprop.NewtonPerMetre}, nil
}

var pinAdhesion = &calc.Description[PinAdhesion, PinAdhesionResult]{
	Name:     "pin-adhesion",
	Title:    "Pin adhesion of board",
	Answers:  "What force a metre of glue line between fluting and liner bears.",
	Formula:  []string{"f_p = F/l"},
	Source:   "definition",
	Status:   calc.CommonPractice,
	Example:  "force=415 N; glue-line-length=0.5 m",
	Mistakes: []string{"Each liner has its own glue lines: the single-face and the double-face side are tested and reported apart."},
	Compute:  PinAdhesion.compute,
	Fields: func(f *calc.Form, in *PinAdhesion, out *PinAdhesionResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest").Above(0)
		calc.In(f, &in.GlueLineLength, "glue-line-length", "l", "m", "flute tips glued times width of the piece").Above(0)
		calc.Out(f, &out.PinAdhesion, "pin-adhesion", "f_p", "N/m", "of the glue line").Unreported("no method was seen, no rule applied")
	},
}
