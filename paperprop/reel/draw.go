package reel

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Draw is the step in speed between two sections.
type Draw struct {
	SpeedIn  paperprop.Speed // before, above zero
	SpeedOut paperprop.Speed // after, above zero
}

// DrawResult is the draw by the three conventions in use.
type DrawResult struct {
	Draw           paperprop.Fraction // over the speed before; negative: slack
	DrawOnSpeedOut paperprop.Fraction
	SpeedRatio     paperprop.Ratio
}

// Calculate returns v_out − v_in over each of the two speeds, and the ratio
// v_out/v_in.
func (d Draw) Calculate() (DrawResult, error) { return draw.Calculate(d) }

func (d Draw) compute() (DrawResult, error) {
	gain := d.SpeedOut - d.SpeedIn
	return DrawResult{
		Draw:           paperprop.Fraction(gain / d.SpeedIn),
		DrawOnSpeedOut: paperprop.Fraction(gain / d.SpeedOut),
		SpeedRatio:     paperprop.Ratio(d.SpeedOut / d.SpeedIn),
	}, nil
}

var draw = &calc.Description[Draw, DrawResult]{
	Name:    "draw",
	Title:   "Draw between two sections",
	Answers: "How much faster the web leaves than it enters, or slower (crepe), in each of the three conventions.",
	Formula: []string{"e_1 = (v_out - v_in)/v_in", "e_2 = (v_out - v_in)/v_out", "k_v = v_out/v_in"},
	Source:  "definitions; all three are in use",
	Status:  calc.CommonPractice,
	Example: "speed-in=612 m/min; speed-out=625 m/min",
	Mistakes: []string{
		"A draw needs its base: 980 to 1008 m/min is 2.857 % on the speed before and 2.778 % on the speed after.",
		"Two speeds good to 0.1 % leave a draw of 2 % uncertain by a fourteenth: measure the difference.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  Draw.compute,
	Fields: func(f *calc.Form, in *Draw, out *DrawResult) {
		twoSpeeds(f, &in.SpeedIn, &in.SpeedOut)
		calc.Out(f, &out.Draw, "draw", "e_1", "%", "on the speed before; negative: slack")
		calc.Out(f, &out.DrawOnSpeedOut, "draw-on-speed-out", "e_2", "%", "on the speed after: the other convention")
		calc.Out(f, &out.SpeedRatio, "speed-ratio", "k_v", "1", "after over before: the third")
	},
}

func twoSpeeds(f *calc.Form, in, out *paperprop.Speed) {
	calc.In(f, in, "speed-in", "v_in", "m/min", "of the web before").Above(0)
	calc.In(f, out, "speed-out", "v_out", "m/min", "of the web after").Above(0)
}

// DrawShrinkage is a web that is drawn out in length and shrinks in width.
type DrawShrinkage struct {
	SpeedIn       paperprop.Speed           // before, above zero
	SpeedOut      paperprop.Speed           // after, above zero
	SheetWidthIn  paperprop.Length          // before, above zero
	SheetWidthOut paperprop.Length          // after, above zero; no edge trimmed in between
	DryGrammageIn paperprop.OvenDryGrammage // before, above zero
}

// DrawShrinkageResult is the effect of both on the grammage.
type DrawShrinkageResult struct {
	Draw           paperprop.Fraction // over the speed before
	Shrinkage      paperprop.Fraction // of width
	DryGrammageOut paperprop.OvenDryGrammage
	Warnings       calc.Warnings
}

// Calculate conserves the dry mass: g_in·v_in·b_in = g_out·v_out·b_out.
func (d DrawShrinkage) Calculate() (DrawShrinkageResult, error) { return drawShrinkage.Calculate(d) }

var widerWeb = calc.Warnings{{Code: "wider-web", Text: "the web is wider after than before: are the widths swapped?"}}

func (d DrawShrinkage) compute() (DrawShrinkageResult, error) {
	g := d.DryGrammageIn.In(paperprop.DryGramPerSquareMetre)
	r := DrawShrinkageResult{
		Draw:      paperprop.Fraction((d.SpeedOut - d.SpeedIn) / d.SpeedIn),
		Shrinkage: paperprop.Fraction((d.SheetWidthIn - d.SheetWidthOut) / d.SheetWidthIn),
		DryGrammageOut: paperprop.OvenDryGrammage(g*float64(d.SpeedIn/d.SpeedOut)*float64(d.SheetWidthIn/d.SheetWidthOut)) *
			paperprop.DryGramPerSquareMetre,
	}
	if d.SheetWidthOut > d.SheetWidthIn {
		r.Warnings = widerWeb
	}
	return r, nil
}

var drawShrinkage = &calc.Description[DrawShrinkage, DrawShrinkageResult]{
	Name:    "draw-shrinkage",
	Title:   "Grammage after draw and shrinkage",
	Answers: "What a draw in length and a shrinkage in width make of the dry grammage.",
	Formula: []string{"e_1 = (v_out - v_in)/v_in", "r_b = 1 - b_out/b_in", "g_out = g_in*v_in*b_in/(v_out*b_out)"},
	Source:  "balance of dry mass, no edge trimmed in between",
	Status:  calc.CommonPractice,
	Example: "speed-in=612 m/min; speed-out=625 m/min; sheet-width-in=3.46 m; sheet-width-out=3.36 m; dry-grammage-in=110 g/m2",
	Mistakes: []string{
		"What is kept is dry mass: at the moisture of the sheet the balance does not hold.",
		"A web shrinks 3 to 10 % in width as it dries (papermaking glossary, seen), the edges most (memory): the mean hides the profile.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  DrawShrinkage.compute,
	Fields: func(f *calc.Form, in *DrawShrinkage, out *DrawShrinkageResult) {
		twoSpeeds(f, &in.SpeedIn, &in.SpeedOut)
		calc.In(f, &in.SheetWidthIn, "sheet-width-in", "b_in", "m", "before").Above(0)
		calc.In(f, &in.SheetWidthOut, "sheet-width-out", "b_out", "m", "after, no edge trimmed in between").Above(0)
		calc.In(f, &in.DryGrammageIn, "dry-grammage-in", "g_in", "g/m2", "before").Above(0)
		calc.Out(f, &out.Draw, "draw", "e_1", "%", "on the speed before; negative: slack")
		calc.Out(f, &out.Shrinkage, "shrinkage", "r_b", "%", "of the width before")
		calc.Out(f, &out.DryGrammageOut, "dry-grammage-out", "g_out", "g/m2", "after; dry mass is kept")
		f.Warnings(&out.Warnings)
	},
}

// TotalDraw is the draws of a machine from section to section.
type TotalDraw struct {
	Speed []paperprop.Speed // of each section in running order, two or more, above zero
}

// TotalDrawResult is the draw over all sections, and of each step.
type TotalDrawResult struct {
	TotalDraw   paperprop.Fraction
	SectionDraw []paperprop.Fraction // one fewer than speeds; negative: slack
}

// Calculate returns each draw over the speed before it, and the product of all (1 +
// draw), minus 1.
func (t TotalDraw) Calculate() (TotalDrawResult, error) { return totalDraw.Calculate(t) }

func (t TotalDraw) compute() (TotalDrawResult, error) {
	last := len(t.Speed) - 1
	if last < 1 {
		return TotalDrawResult{}, calc.Refuse("speed", t.Speed[0], "two or more, in running order: one speed has no draw")
	}
	first := t.Speed[0]
	r := TotalDrawResult{TotalDraw: paperprop.Fraction((t.Speed[last] - first) / first)}
	for i, before := range t.Speed[:last] {
		r.SectionDraw = append(r.SectionDraw, paperprop.Fraction((t.Speed[i+1]-before)/before))
	}
	return r, nil
}

var totalDraw = &calc.Description[TotalDraw, TotalDrawResult]{
	Name:    "total-draw",
	Title:   "Total draw of a machine and of its sections",
	Answers: "How much faster the web leaves a machine than it enters, and in which steps.",
	Formula: []string{"e_i = (after(v) - before(v))/before(v)", "e_t = exp(sum(log(1 + e_i))) - 1"},
	Method:  "the total is the product of (1 + draw) over the sections less 1, the last speed over the first less 1",
	Source:  "definition; draws multiply",
	Status:  calc.CommonPractice,
	Example: "speed=[600 612 619 625 624] m/min",
	Mistakes: []string{
		"Draws do not add up: five of 2 % are 10.41 %, not 10 %.",
		"Draws on the speed after do not multiply this way; these are on the speed before.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  TotalDraw.compute,
	Fields: func(f *calc.Form, in *TotalDraw, out *TotalDrawResult) {
		calc.InList(f, &in.Speed, "speed", "v", "m/min", "of each section in running order, two or more").Above(0)
		calc.Out(f, &out.TotalDraw, "total-draw", "e_t", "%", "of all sections")
		calc.OutList(f, &out.SectionDraw, "section-draw", "e_i", "%", "of each step, on the speed before; negative: slack")
	},
}

// RollSpeed is a roll that turns with the web.
type RollSpeed struct {
	Speed    paperprop.Speed  // of the surface, above zero
	Diameter paperprop.Length // of the roll, above zero
}

// RollSpeedResult is the rotational speed of the roll.
type RollSpeedResult struct {
	Frequency paperprop.Frequency
}

// Calculate returns the speed v/(πD).
func (r RollSpeed) Calculate() (RollSpeedResult, error) { return rollSpeed.Calculate(r) }

func (r RollSpeed) compute() (RollSpeedResult, error) {
	n := r.Speed.In(paperprop.MetrePerMinute) / (math.Pi * r.Diameter.In(paperprop.Metre))
	return RollSpeedResult{Frequency: paperprop.Frequency(n) * paperprop.PerMinute}, nil
}

var rollSpeed = &calc.Description[RollSpeed, RollSpeedResult]{
	Name:    "roll-speed",
	Title:   "Revolutions of a roll",
	Answers: "How many turns a minute a roll makes at a speed of the web.",
	Formula: []string{"n = v/(pi*D)"},
	Source:  "definition",
	Status:  calc.CommonPractice,
	Example: "speed=625 m/min; diameter=1800 mm",
	Mistakes: []string{
		"Draws are of surfaces: a roll of 1500 mm ground down by 1 mm runs 0.067 % slower at the same revolutions.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  RollSpeed.compute,
	Fields: func(f *calc.Form, in *RollSpeed, out *RollSpeedResult) {
		calc.In(f, &in.Speed, "speed", "v", "m/min", "of the surface").Above(0)
		calc.In(f, &in.Diameter, "diameter", "D", "mm", "of the roll").Above(0)
		calc.Out(f, &out.Frequency, "frequency", "n", "1/min", "turns of the roll")
	},
}
