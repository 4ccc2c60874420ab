package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// ZStrength is a tensile test through the thickness of a sheet.
type ZStrength struct {
	Force paperprop.Force // greatest, above zero
	Area  paperprop.Area  // above zero
}

// ZStrengthResult is the strength in the thickness direction.
type ZStrengthResult struct {
	ZStrength paperprop.Pressure
}

// Calculate returns the strength F/A.
func (z ZStrength) Calculate() (ZStrengthResult, error) { return zStrength.Calculate(z) }

func (z ZStrength) compute() (ZStrengthResult, error) {
	stress := z.Force.In(paperprop.Newton) / z.Area.In(paperprop.SquareMetre)
	return ZStrengthResult{paperprop.Pressure(stress) * paperprop.Pascal}, nil
}

var zStrength = &calc.Description[ZStrength, ZStrengthResult]{
	Name:    "z-strength",
	Title:   "Strength through the thickness of a sheet",
	Answers: "How strong a sheet is against being pulled apart through its thickness (z-direction tensile).",
	Formula: []string{"sigma = F/A"},
	Source:  "definition of a stress",
	Status:  calc.CommonPractice,
	Example: "force=268 N; area=6.45 cm2",
	Mistakes: []string{
		"A break in the tape or at its glue is not a break of the sheet: leave that piece out and say so.",
		"It is a stress, the ply bond an energy: the two rank papers differently.",
	},
	Compute: ZStrength.compute,
	Fields: func(f *calc.Form, in *ZStrength, out *ZStrengthResult) {
		calc.In(f, &in.Force, "force", "F", "N", "greatest, through the thickness").Above(0)
		calc.In(f, &in.Area, "area", "A", "cm2", "of the piece").Above(0)
		calc.Out(f, &out.ZStrength, "z-strength", "sigma", "kPa", "force over area").Unreported("no method was seen, no rule applied")
	},
}

// PlyBond is the work that splits a sheet in its plane.
type PlyBond struct {
	Energy paperprop.Energy // spent, above zero
	Area   paperprop.Area   // above zero
}

// PlyBondResult is the work per area.
type PlyBondResult struct {
	PlyBond paperprop.EnergyPerArea
}

// Calculate returns the work per area W/A.
func (p PlyBond) Calculate() (PlyBondResult, error) { return plyBond.Calculate(p) }

func (p PlyBond) compute() (PlyBondResult, error) {
	perArea := p.Energy.In(paperprop.Joule) / p.Area.In(paperprop.SquareMetre)
	return PlyBondResult{paperprop.EnergyPerArea(perArea) * paperprop.JoulePerSquareMetre}, nil
}

var plyBond = &calc.Description[PlyBond, PlyBondResult]{
	Name:    "ply-bond",
	Title:   "Ply bond",
	Answers: "How much work it takes to split a sheet in its plane (internal bond, Scott bond), for its area.",
	Formula: []string{"Z = W/A"},
	Source:  "definition: work over area",
	Status:  calc.CommonPractice,
	Example: "energy=0.129 J; area=6.45 cm2",
	Mistakes: []string{
		"The blow also bends and throws the pieces: thick, stiff sheets read too high.",
		"A scale in thousandths of a ft.lbf is for its own area, mostly 1 in2: 0.1 ft.lbf on it is 210 J/m2.",
	},
	Compute: PlyBond.compute,
	Fields: func(f *calc.Form, in *PlyBond, out *PlyBondResult) {
		calc.In(f, &in.Energy, "energy", "W", "J", "spent").Above(0)
		calc.In(f, &in.Area, "area", "A", "cm2", "of the piece").Above(0)
		calc.Out(f, &out.PlyBond, "ply-bond", "Z", "J/m2", "work over area").Unreported("no method was seen, no rule applied")
	},
}
