package board

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// BoxCompression is an estimate of the top-to-bottom load that a single, empty,
// single-wall regular slotted box bears.
type BoxCompression struct {
	EdgeCrush         paperprop.ForcePerLength // above zero
	Perimeter         paperprop.Length         // of the box, above zero
	Thickness         paperprop.Length         // of the board, above zero, at most a tenth of Perimeter
	Constant          paperprop.Ratio          // above zero; zero stands for 5.87
	PerimeterExponent *paperprop.Ratio         // 0 to 1; nil stands for 0.5
	Height            paperprop.Length         // only checks the limit of the formula; zero is not given
}

// BoxCompressionResult is the estimate.
type BoxCompressionResult struct {
	BoxCompression paperprop.Force
	Warnings       calc.Warnings
}

// Calculate returns the load k·E_c·Zᵃ·t¹⁻ᵃ.
func (b BoxCompression) Calculate() (BoxCompressionResult, error) { return boxCompression.Calculate(b) }

var tooLow = calc.Warnings{{Code: "low-box", Text: "the height is at most a seventh of the perimeter: " +
	"the formula holds for taller boxes (common practice)"}}

// lowBox warns of a given height that is too low for the perimeter.
func lowBox(height, perimeter paperprop.Length) calc.Warnings {
	if height != 0 && result.Rest(7*float64(height), float64(perimeter)) <= 0 {
		return tooLow
	}
	return nil
}

func (b BoxCompression) compute() (BoxCompressionResult, error) {
	if result.Rest(10*float64(b.Thickness), float64(b.Perimeter)) > 0 {
		return BoxCompressionResult{}, calc.Refuse("thickness", b.Thickness,
			"at most a tenth of perimeter %v: mm may have been written as m", b.Perimeter)
	}
	thickness, perimeter := b.Thickness.In(paperprop.Millimetre), b.Perimeter.In(paperprop.Millimetre)
	// kN/m is N/mm. The exponents add up to 1, so k has no unit.
	load := float64(b.Constant) * b.EdgeCrush.In(paperprop.KilonewtonPerMetre) *
		thickness * math.Pow(perimeter/thickness, float64(*b.PerimeterExponent))
	return BoxCompressionResult{paperprop.Force(load) * paperprop.Newton, lowBox(b.Height, b.Perimeter)}, nil
}

var boxCompression = &calc.Description[BoxCompression, BoxCompressionResult]{
	Name:    "box-compression",
	Title:   "Box compression (BCT) by the simplified McKee formula",
	Answers: "What load a lone empty box is likely to bear, from its edge crush (ECT), perimeter and thickness.",
	Formula: []string{"B_c = k*E_c*t*pow(Z/t, a)"},
	Method:  "the same as k*E_c*Z^a*t^(1 - a), and k*E_c*sqrt(Z*t) with the usual exponent; regular slotted box, single wall, top to bottom, empty",
	Source:  "public notes on the McKee equation: 5.87 (seen), 5.876 (seen elsewhere); 5.874 with exponents 0.492 and 0.508 from memory",
	Status:  calc.Published,
	Example: "edge-crush=4.9 kN/m; perimeter=1.32 m; thickness=3.9 mm; height=220 mm",
	Mistakes: []string{
		"The perimeter in m with the thickness in mm is wrong by a factor of 31.6: a public note does that; units are converted here.",
		"Moisture, time, stacking pattern, print and handling all take off from this: see stacking before anything is stacked.",
		"Not for double wall, die-cut boxes, or boxes that lean on what is in them.",
	},
	Compare: []calc.Comparison{
		{Inputs: "edge-crush=4.9 kN/m; perimeter=1.32 m; thickness=3.9 mm; constant=5.876", Why: "another constant in print"},
		{Inputs: "edge-crush=4.9 kN/m; perimeter=1.32 m; thickness=3.9 mm; constant=5.874; perimeter-exponent=0.492", Why: "exponents 0.492 and 0.508 (memory)"},
		{Name: "box-compression-full", Inputs: "edge-crush=4.9 kN/m; md-bending-stiffness=11.3 N.m; cd-bending-stiffness=5.2 N.m; perimeter=1.32 m",
			Why: "the full formula, with bending stiffness in place of thickness (memory)"},
	},
	Cautions: []*calc.Caution{&stackedLoad},
	Compute:  BoxCompression.compute,
	Fields: func(f *calc.Form, in *BoxCompression, out *BoxCompressionResult) {
		calc.In(f, &in.EdgeCrush, "edge-crush", "E_c", "kN/m", "of the board").Above(0)
		calc.In(f, &in.Perimeter, "perimeter", "Z", "m", "of the box, 2*(length + width)").Above(0)
		calc.In(f, &in.Thickness, "thickness", "t", "mm", "of the board (caliper)").Above(0)
		calc.In(f, &in.Constant, "constant", "k", "1", "5.876 and, with exponents 0.492 and 0.508, 5.874 are in use as well").Above(0).Default(5.87).Label()
		calc.Pointer(f, &in.PerimeterExponent, "perimeter-exponent", "a", "1", "that of thickness is 1 - a, so k has no unit").From(0).UpTo(1).Default(0.5)
		boxHeight(f, &in.Height)
		calc.Out(f, &out.BoxCompression, "box-compression", "B_c", "N", "of a lone empty box, top to bottom, single wall").Unreported(estimated)
		f.Warnings(&out.Warnings)
	},
}

func boxHeight(f *calc.Form, height *paperprop.Length) {
	calc.In(f, height, "height", "h", "m", "to check the limit only: above a seventh of the perimeter").Above(0).Optional()
}

// BoxCompressionFull is the same estimate from edge crush and bending stiffness.
type BoxCompressionFull struct {
	EdgeCrush          paperprop.ForcePerLength   // above zero
	MdBendingStiffness paperprop.BendingStiffness // above zero
	CdBendingStiffness paperprop.BendingStiffness // above zero
	Perimeter          paperprop.Length           // of the box, above zero
	Constant           paperprop.Ratio            // above zero; zero stands for 2.028
	EdgeCrushExponent  paperprop.Ratio            // above zero, at most 1; zero stands for 0.746
	Height             paperprop.Length           // only checks the limit of the formula; zero is not given
}

// Calculate returns the load k·E_cᵉ·√(S_md·S_cd)¹⁻ᵉ·Z²ᵉ⁻¹.
func (b BoxCompressionFull) Calculate() (BoxCompressionResult, error) {
	return boxCompressionFull.Calculate(b)
}

func (b BoxCompressionFull) compute() (BoxCompressionResult, error) {
	crush, perimeter := b.EdgeCrush.In(paperprop.NewtonPerMetre), b.Perimeter.In(paperprop.Metre)
	stiffness := math.Sqrt(b.MdBendingStiffness.In(paperprop.NewtonMetre)) * math.Sqrt(b.CdBendingStiffness.In(paperprop.NewtonMetre))
	load := float64(b.Constant) * crush * perimeter * math.Pow(stiffness/(crush*perimeter*perimeter), 1-float64(b.EdgeCrushExponent))
	return BoxCompressionResult{paperprop.Force(load) * paperprop.Newton, lowBox(b.Height, b.Perimeter)}, nil
}

var boxCompressionFull = &calc.Description[BoxCompressionFull, BoxCompressionResult]{
	Name:    "box-compression-full",
	Title:   "Box compression (BCT) by the full McKee formula",
	Answers: "What load a lone empty box is likely to bear, from its edge crush (ECT), bending stiffness and perimeter.",
	Formula: []string{"B_c = k*E_c*Z*pow(sqrt(S_md*S_cd)/(E_c*pow(Z, 2)), 1 - e)"},
	Method:  "the same as k*E_c^e*sqrt(S_md*S_cd)^(1 - e)*Z^(2*e - 1): the exponents leave no unit over, so k is the same in lbf and in and in N and m",
	Source:  "McKee, Gander and Wachuta 1963, constants from memory",
	Status:  calc.Memory,
	Example: "edge-crush=4.9 kN/m; md-bending-stiffness=11.3 N.m; cd-bending-stiffness=5.2 N.m; perimeter=1.32 m; height=220 mm",
	Mistakes: []string{
		"375 of the rounded form with exponents 0.75, 0.25 and 0.5 is for kN/m, N.m and m: here it is 2.108780 with edge-crush-exponent 0.75.",
		"The stiffness is that of the board by four-point bending, both directions, not of its liners.",
	},
	Compare: []calc.Comparison{
		{Inputs: "edge-crush=4.9 kN/m; md-bending-stiffness=11.3 N.m; cd-bending-stiffness=5.2 N.m; perimeter=1.32 m; constant=2.10878; edge-crush-exponent=0.75",
			Why: "the rounded form (memory)"},
		{Name: "box-compression", Inputs: "edge-crush=4.9 kN/m; perimeter=1.32 m; thickness=3.9 mm", Why: "the simplified formula, with thickness in place of bending stiffness"},
	},
	Cautions: []*calc.Caution{&stackedLoad},
	Compute:  BoxCompressionFull.compute,
	Fields: func(f *calc.Form, in *BoxCompressionFull, out *BoxCompressionResult) {
		calc.In(f, &in.EdgeCrush, "edge-crush", "E_c", "kN/m", "of the board").Above(0)
		calc.In(f, &in.MdBendingStiffness, "md-bending-stiffness", "S_md", "N.m", "of the board, machine direction").Above(0)
		calc.In(f, &in.CdBendingStiffness, "cd-bending-stiffness", "S_cd", "N.m", "of the board, cross direction").Above(0)
		calc.In(f, &in.Perimeter, "perimeter", "Z", "m", "of the box, 2*(length + width)").Above(0)
		calc.In(f, &in.Constant, "constant", "k", "1", "2.108780 with an exponent of 0.75 is the rounded form").Above(0).Default(2.028)
		calc.In(f, &in.EdgeCrushExponent, "edge-crush-exponent", "e", "1", "that of stiffness is 1 - e, of the perimeter 2*e - 1").Above(0).UpTo(1).Default(0.746)
		boxHeight(f, &in.Height)
		calc.Out(f, &out.BoxCompression, "box-compression", "B_c", "N", "of a lone empty box, top to bottom").Unreported(estimated)
		f.Warnings(&out.Warnings)
	},
}
