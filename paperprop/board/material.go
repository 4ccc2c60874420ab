package board

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Grammage is the grammage of a board from its papers. FlutingGrammage and TakeUp
// are of equal length, and all grammages are at the same moisture.
type Grammage struct {
	LinerGrammage    []paperprop.Grammage // of each liner, above zero
	FlutingGrammage  []paperprop.Grammage // of each fluting, flat, above zero
	TakeUp           []paperprop.Ratio    // of each fluting, 1 or above
	AdhesiveGrammage paperprop.Grammage   // of all glue lines together; zero leaves it out
}

// GrammageResult is the grammage of the board, and the share of each part in it.
type GrammageResult struct {
	Grammage      paperprop.Grammage
	LinerShare    []paperprop.Fraction
	FlutingShare  []paperprop.Fraction // including its take-up
	AdhesiveShare paperprop.Fraction
}

// Calculate returns the grammage Σg_l + Σα·g_f + g_a.
func (g Grammage) Calculate() (GrammageResult, error) { return boardGrammage.Calculate(g) }

func (g Grammage) compute() (GrammageResult, error) {
	r := GrammageResult{
		LinerShare:   make([]paperprop.Fraction, len(g.LinerGrammage)),
		FlutingShare: make([]paperprop.Fraction, len(g.FlutingGrammage)),
	}
	adhesive := g.AdhesiveGrammage.In(paperprop.GramPerSquareMetre)
	sum := adhesive
	for _, liner := range g.LinerGrammage {
		sum += liner.In(paperprop.GramPerSquareMetre)
	}
	for i, fluting := range g.FlutingGrammage {
		sum += float64(g.TakeUp[i]) * fluting.In(paperprop.GramPerSquareMetre)
	}
	for i, liner := range g.LinerGrammage {
		r.LinerShare[i] = paperprop.Fraction(liner.In(paperprop.GramPerSquareMetre) / sum)
	}
	for i, fluting := range g.FlutingGrammage {
		r.FlutingShare[i] = paperprop.Fraction(float64(g.TakeUp[i]) * fluting.In(paperprop.GramPerSquareMetre) / sum)
	}
	r.Grammage = paperprop.Grammage(sum) * paperprop.GramPerSquareMetre
	r.AdhesiveShare = paperprop.Fraction(adhesive / sum)
	return r, nil
}

var boardGrammage = &calc.Description[Grammage, GrammageResult]{
	Name:    "board-grammage",
	Title:   "Grammage of corrugated board",
	Answers: "How heavy a corrugated board is, and how much of it is liner (kraftliner, testliner), fluting (corrugating medium) and adhesive.",
	Formula: []string{"g = sum(g_l) + sum(alpha*g_f) + g_a", "x_l = g_l/g", "x_f = alpha*g_f/g", "x_a = g_a/g"},
	Source:  "masses add up, at one moisture; a box-makers association's Q&A reckons its shares so (seen)",
	Status:  calc.CommonPractice,
	Example: "liner-grammage=[140 120] g/m2; fluting-grammage=[105] g/m2; take-up=[1.43]; adhesive-grammage=9 g/m2",
	Mistakes: []string{
		"A fluting counts with its take-up: 105 g/m2 at 1.43 is 150 g/m2 of board.",
		"A take-up belongs to a pair of rolls and falls as they wear: a table of flute letters is not a measurement.",
	},
	Compute: Grammage.compute,
	Fields: func(f *calc.Form, in *Grammage, out *GrammageResult) {
		calc.InList(f, &in.LinerGrammage, "liner-grammage", "g_l", "g/m2", "of each liner; all grammages at one moisture").Above(0)
		f.Even(
			calc.InList(f, &in.FlutingGrammage, "fluting-grammage", "g_f", "g/m2", "of each fluting, flat").Above(0),
			calc.InList(f, &in.TakeUp, "take-up", "alpha", "1", "of each fluting, in the same order").From(1),
		)
		calc.In(f, &in.AdhesiveGrammage, "adhesive-grammage", "g_a", "g/m2", "of all glue lines together; 0 leaves it out on purpose").From(0)
		calc.Out(f, &out.Grammage, "grammage", "g", "g/m2", "of the board")
		calc.OutList(f, &out.LinerShare, "liner-share", "x_l", "%", "of each liner, of the mass as it is")
		calc.OutList(f, &out.FlutingShare, "fluting-share", "x_f", "%", "of each fluting with its take-up")
		calc.Out(f, &out.AdhesiveShare, "adhesive-share", "x_a", "%", "of all glue lines")
	},
}

// TakeUp is the take-up of a purely sinusoidal flute.
type TakeUp struct {
	FluteHeight paperprop.Length // of the fluting's centre line, peak to peak, above zero
	Pitch       paperprop.Length // from flute to flute, above zero
}

// TakeUpResult is the length of the fluting over that of the board.
type TakeUpResult struct {
	TakeUp paperprop.Ratio
}

// Calculate returns the take-up (2/π)·√(1 + A²)·E(m) with A = π·h/p and m = A²/(1 +
// A²).
func (t TakeUp) Calculate() (TakeUpResult, error) { return takeUp.Calculate(t) }

func (t TakeUp) compute() (TakeUpResult, error) {
	slope := math.Pi * t.FluteHeight.In(paperprop.Millimetre) / t.Pitch.In(paperprop.Millimetre)
	return TakeUpResult{paperprop.Ratio(sineLength(slope))}, nil
}

// sineLength returns the length of a sine over that of its axis, given its steepest
// slope. It is the circumference of an ellipse with half-axes √(1 + slope²) and 1,
// over that of the unit circle, found by the arithmetic-geometric mean. In this
// form nothing cancels for flat waves.
func sineLength(slope float64) float64 {
	const enough = 14 // the two means meet in 12 steps at the steepest slope whose square is a float64
	a, b := math.Sqrt(1+slope*slope), 1.0
	area, weight := 1+slope*slope/2, 1.0
	for range enough {
		c := (a - b) / 2
		area -= weight * c * c
		weight *= 2
		a, b = (a+b)/2, math.Sqrt(a*b)
	}
	return area / a
}

var takeUp = &calc.Description[TakeUp, TakeUpResult]{
	Name:    "take-up",
	Title:   "Take-up of a sine flute",
	Answers: "How much fluting a metre of board takes, if the flute is a pure sine.",
	Formula: []string{"A = pi*h/p"},
	Method:  "arc length of a sine: alpha = (2/pi)*sqrt(1 + A^2)*E(m), m = A^2/(1 + A^2), E the complete elliptic integral of the second kind, by the arithmetic-geometric mean",
	Source:  "geometry; checked against mpmath and a quadrature",
	Status:  calc.Library,
	Example: "flute-height=3.6 mm; pitch=7.8 mm",
	Mistakes: []string{
		"Real flutes are arcs and straights: a measured take-up differs from the sine's by a few per cent.",
		"The height is that of the fluting's centre line, not of the board nor of the roll.",
	},
	Compare: []calc.Comparison{{
		Name: "take-up-measured", Inputs: "fluting-length=1.43 m; board-length=1 m",
		Why: "measured on a board of this kind: the rolls decide, not the sine",
	}},
	Compute: TakeUp.compute,
	Fields: func(f *calc.Form, in *TakeUp, out *TakeUpResult) {
		calc.In(f, &in.FluteHeight, "flute-height", "h", "mm", "of the fluting's centre line, peak to peak").Above(0)
		calc.In(f, &in.Pitch, "pitch", "p", "mm", "from flute to flute").Above(0)
		calc.Out(f, &out.TakeUp, "take-up", "alpha", "1", "of a pure sine")
	},
}

// TakeUpMeasured is the take-up of a fluting pulled off its board, or of the webs
// run in the same time.
type TakeUpMeasured struct {
	FlutingLength paperprop.Length // pulled flat, above zero
	BoardLength   paperprop.Length // that it came from, above zero, at most FlutingLength
}

// TakeUpMeasuredResult is the length of the fluting over that of the board.
type TakeUpMeasuredResult struct {
	TakeUp   paperprop.Ratio
	Warnings calc.Warnings
}

// Calculate returns the take-up l_f/l.
func (t TakeUpMeasured) Calculate() (TakeUpMeasuredResult, error) { return takeUpMeasured.Calculate(t) }

var unusualTakeUp = calc.Warnings{{Code: "out-of-range", Text: "take-ups lie between about 1.15 and 1.65 (common practice): check both lengths"}}

func (t TakeUpMeasured) compute() (TakeUpMeasuredResult, error) {
	if t.FlutingLength < t.BoardLength {
		return TakeUpMeasuredResult{}, calc.Refuse("fluting-length", t.FlutingLength, "at least board-length %v", t.BoardLength)
	}
	ratio := t.FlutingLength.In(paperprop.Millimetre) / t.BoardLength.In(paperprop.Millimetre)
	r := TakeUpMeasuredResult{TakeUp: paperprop.Ratio(ratio)}
	if result.Outside(ratio, 1.15, 1.65) {
		r.Warnings = unusualTakeUp
	}
	return r, nil
}

var takeUpMeasured = &calc.Description[TakeUpMeasured, TakeUpMeasuredResult]{
	Name:     "take-up-measured",
	Title:    "Take-up of a fluting as measured",
	Answers:  "How much fluting a metre of board took.",
	Formula:  []string{"alpha = l_f/l"},
	Source:   "definition; typical take-ups: a box-makers association's Q&A, 1.3 and 1.43 (seen), others common practice",
	Status:   calc.CommonPractice,
	Example:  "fluting-length=1.43 m; board-length=1 m",
	Mistakes: []string{"Pull the fluting flat, not tight: wet fluting stretches by a per cent and more."},
	Compute:  TakeUpMeasured.compute,
	Fields: func(f *calc.Form, in *TakeUpMeasured, out *TakeUpMeasuredResult) {
		calc.In(f, &in.FlutingLength, "fluting-length", "l_f", "m", "pulled flat, or run in a time").Above(0)
		calc.In(f, &in.BoardLength, "board-length", "l", "m", "in which it lay, or run in the same time").Above(0)
		calc.Out(f, &out.TakeUp, "take-up", "alpha", "1", "of the fluting")
		f.Warnings(&out.Warnings)
	},
}

// CorrugatorUse is the paper that a corrugator uses for an order. Grammage and
// TakeUp are of equal length.
type CorrugatorUse struct {
	Area       paperprop.Area       // of good board, above zero
	SheetWidth paperprop.Length     // of the webs, above zero
	WasteShare paperprop.Fraction   // of the board made, side trim included, below 100 %
	Grammage   []paperprop.Grammage // of each web, above zero
	TakeUp     []paperprop.Ratio    // of each web; 1 for a liner
}

// CorrugatorUseResult is the board to make, and the webs that go into it.
type CorrugatorUseResult struct {
	BoardLength paperprop.Length
	WebLength   []paperprop.Length
	WebMass     []paperprop.Mass
	Mass        paperprop.Mass // of all webs, without adhesive
}

// Calculate returns the length of board L = A/(b(1 − x_w)), and for each web the
// length α·L and the mass α·L·b·g.
func (c CorrugatorUse) Calculate() (CorrugatorUseResult, error) { return corrugatorUse.Calculate(c) }

func (c CorrugatorUse) compute() (CorrugatorUseResult, error) {
	width := c.SheetWidth.In(paperprop.Metre)
	length := c.Area.In(paperprop.SquareMetre) / (width * (1 - float64(c.WasteShare)))
	r := CorrugatorUseResult{
		BoardLength: paperprop.Length(length) * paperprop.Metre,
		WebLength:   make([]paperprop.Length, len(c.Grammage)),
		WebMass:     make([]paperprop.Mass, len(c.Grammage)),
	}
	for i, grammage := range c.Grammage {
		web := float64(c.TakeUp[i]) * length
		r.WebLength[i] = paperprop.Length(web) * paperprop.Metre
		r.WebMass[i] = paperprop.Mass(web*width*grammage.In(paperprop.GramPerSquareMetre)) * paperprop.Gram
		r.Mass += r.WebMass[i]
	}
	return r, nil
}

var corrugatorUse = &calc.Description[CorrugatorUse, CorrugatorUseResult]{
	Name:    "corrugator-use",
	Title:   "Paper that a corrugator takes",
	Answers: "What length and mass of each web an area of good board takes.",
	Formula: []string{"L = A/(b*(1 - x_w))", "L_w = alpha*L", "m_w = alpha*L*b*g", "m = sum(m_w)"},
	Source:  "balance of length and mass over the corrugator",
	Status:  calc.CommonPractice,
	Example: "area=24000 m2; sheet-width=2.24 m; waste-share=6 %; grammage=[140 105 120] g/m2; take-up=[1 1.43 1]",
	Mistakes: []string{
		"Waste is a share of the board made: divide by 0.94, a surcharge of 6 % is too little.",
		"The webs are as wide as the machine runs, not as the sheets that are sold.",
	},
	Compute: CorrugatorUse.compute,
	Fields: func(f *calc.Form, in *CorrugatorUse, out *CorrugatorUseResult) {
		calc.In(f, &in.Area, "area", "A", "m2", "of good board").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "b", "m", "of the webs").Above(0)
		calc.In(f, &in.WasteShare, "waste-share", "x_w", "%", "of the board made, side trim included").From(0).Below(100).Default(0)
		f.Even(
			calc.InList(f, &in.Grammage, "grammage", "g", "g/m2", "of each web").Above(0),
			calc.InList(f, &in.TakeUp, "take-up", "alpha", "1", "of each web, in the same order; 1 for a liner").From(1),
		)
		calc.Out(f, &out.BoardLength, "board-length", "L", "m", "to be made")
		calc.OutList(f, &out.WebLength, "web-length", "L_w", "m", "of each web")
		calc.OutList(f, &out.WebMass, "web-mass", "m_w", "kg", "of each web")
		calc.Out(f, &out.Mass, "mass", "m", "kg", "of all webs, without adhesive")
	},
}
