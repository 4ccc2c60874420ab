package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

const stiffnessUnreported = "ISO 5628: " + notSeen

const beamTheory = "theory of a beam, from memory; "

func stiffnessOfBending(f *calc.Form, stiffness *paperprop.BendingStiffness, unit string) {
	calc.Out(f, stiffness, "bending-stiffness", "S_b", unit, "N m2 for each metre of width").Unreported(stiffnessUnreported)
}

// bendingStiffness converts a stiffness from N·mm, which equals mN·m.
func bendingStiffness(newtonMillimetres float64) paperprop.BendingStiffness {
	return paperprop.BendingStiffness(newtonMillimetres) * paperprop.MillinewtonMetre
}

// TwoPointBending is a bending test of a strip, clamped at one end and loaded at
// the other.
type TwoPointBending struct {
	Force         paperprop.Force  // at BendingLength, above zero
	Angle         paperprop.Angle  // of the clamp, above zero
	BendingLength paperprop.Length // clamp to point of force, above zero
	StripWidth    paperprop.Length // zero stands for 38 mm
}

// TwoPointBendingResult is the bending stiffness per width.
type TwoPointBendingResult struct {
	BendingStiffness paperprop.BendingStiffness
	Warnings         calc.Warnings

	radian paperprop.Angle // for the formula line
}

// Calculate returns the stiffness F·l²/(3·θ·b), θ in radians.
func (t TwoPointBending) Calculate() (TwoPointBendingResult, error) {
	return twoPointBending.Calculate(t)
}

var largeAngle = calc.Warnings{{Code: "large-angle", Text: "above 7.5 deg the deflection is not small and the result no longer a stiffness: " +
	"take bending-resistance"}}

func (t TwoPointBending) compute() (TwoPointBendingResult, error) {
	l := t.BendingLength.In(paperprop.Millimetre)
	s := t.Force.In(paperprop.Newton) * l * l / (3 * t.Angle.In(paperprop.Radian) * t.StripWidth.In(paperprop.Millimetre))
	r := TwoPointBendingResult{BendingStiffness: bendingStiffness(s), radian: paperprop.Radian}
	if result.Outside(t.Angle.In(paperprop.Degree), 0, 7.5) {
		r.Warnings = largeAngle
	}
	return r, nil
}

var twoPointBending = &calc.Description[TwoPointBending, TwoPointBendingResult]{
	Name:    "two-point-bending",
	Title:   "Bending stiffness, two-point",
	Answers: "How stiff a sheet is against bending, from the force at the end of a clamped strip.",
	Formula: []string{"S_b = F*pow(l, 2)*rad/(3*theta*b)"},
	Source:  beamTheory + "two-point method of ISO 5628:2019 for paper and thin board (abstract seen)",
	Status:  calc.Memory,
	Example: "force=21 mN; angle=5 deg; bending-length=50 mm",
	Mistakes: []string{
		"The angle counts in radians: in degrees the constant is 60/pi and not 1/3.",
		"A reading at 15 deg is not a stiffness: the formula is for small angles.",
	},
	Compute: TwoPointBending.compute,
	Fields: func(f *calc.Form, in *TwoPointBending, out *TwoPointBendingResult) {
		calc.In(f, &in.Force, "force", "F", "mN", "at the free length").Above(0)
		calc.In(f, &in.Angle, "angle", "theta", "deg", "of the clamp; small").Above(0).Below(90)
		calc.In(f, &in.BendingLength, "bending-length", "l", "mm", "clamp to point of force").Above(0)
		calc.In(f, &in.StripWidth, "strip-width", "b", "mm", "of the piece").Above(0).Default(38)
		stiffnessOfBending(f, &out.BendingStiffness, "mN.m")
		calc.Between(f, &out.radian, "rad", "deg", "one radian")
		f.Warnings(&out.Warnings)
	},
}

// ThreePointBending is a bending test of a strip on two supports, loaded in the
// middle.
type ThreePointBending struct {
	Force      paperprop.Force  // whole load in the middle, above zero
	Deflection paperprop.Length // in the middle, above zero
	Span       paperprop.Length // between the supports, above zero
	StripWidth paperprop.Length // above zero
}

// ThreePointBendingResult is the bending stiffness per width.
type ThreePointBendingResult struct {
	BendingStiffness paperprop.BendingStiffness
}

// Calculate returns the stiffness F·l³/(48·f·b).
func (t ThreePointBending) Calculate() (ThreePointBendingResult, error) {
	return threePointBending.Calculate(t)
}

func (t ThreePointBending) compute() (ThreePointBendingResult, error) {
	l := t.Span.In(paperprop.Millimetre)
	s := t.Force.In(paperprop.Newton) * l * l * l / (48 * t.Deflection.In(paperprop.Millimetre) * t.StripWidth.In(paperprop.Millimetre))
	return ThreePointBendingResult{bendingStiffness(s)}, nil
}

var threePointBending = &calc.Description[ThreePointBending, ThreePointBendingResult]{
	Name:    "three-point-bending",
	Title:   "Bending stiffness, three-point",
	Answers: "How stiff a board is against bending, from a load in the middle between two supports.",
	Formula: []string{"S_b = F*pow(l, 3)/(48*f*b)"},
	Source:  beamTheory + "ISO 5628:2019 writes 2F for the load (excerpt seen)",
	Status:  calc.Memory,
	Example: "force=1.4 N; deflection=1.2 mm; span=80 mm; strip-width=25 mm",
	Mistakes: []string{
		"ISO 5628 writes F for half the load: given here, it halves the stiffness.",
		"Three-point bending shears corrugated board as well: take four points for it.",
	},
	Compute: ThreePointBending.compute,
	Fields: func(f *calc.Form, in *ThreePointBending, out *ThreePointBendingResult) {
		calc.In(f, &in.Force, "force", "F", "N", "whole load in the middle; ISO 5628 writes 2F for it").Above(0)
		calc.In(f, &in.Deflection, "deflection", "f", "mm", "in the middle").Above(0)
		calc.In(f, &in.Span, "span", "l", "mm", "between the supports").Above(0)
		calc.In(f, &in.StripWidth, "strip-width", "b", "mm", "of the piece").Above(0)
		stiffnessOfBending(f, &out.BendingStiffness, "N.m")
	},
}

// FourPointBending is a bending test of a strip on two inner supports, with a load
// on each end.
type FourPointBending struct {
	Force      paperprop.Force  // whole load, half on each outer arm, above zero
	Deflection paperprop.Length // in the middle, against the inner supports, above zero
	Arm        paperprop.Length // outer load to inner support, above zero
	Span       paperprop.Length // between the inner supports, above zero
	StripWidth paperprop.Length // above zero
}

// FourPointBendingResult is the bending stiffness per width.
type FourPointBendingResult struct {
	BendingStiffness paperprop.BendingStiffness
}

// Calculate returns the stiffness F·a·l²/(16·f·b).
func (t FourPointBending) Calculate() (FourPointBendingResult, error) {
	return fourPointBending.Calculate(t)
}

func (t FourPointBending) compute() (FourPointBendingResult, error) {
	l := t.Span.In(paperprop.Millimetre)
	s := t.Force.In(paperprop.Newton) * t.Arm.In(paperprop.Millimetre) * l * l /
		(16 * t.Deflection.In(paperprop.Millimetre) * t.StripWidth.In(paperprop.Millimetre))
	return FourPointBendingResult{bendingStiffness(s)}, nil
}

var fourPointBending = &calc.Description[FourPointBending, FourPointBendingResult]{
	Name:    "four-point-bending",
	Title:   "Bending stiffness, four-point",
	Answers: "How stiff corrugated board is against bending, from loads on both ends of a strip.",
	Formula: []string{"S_b = F*a*pow(l, 2)/(16*f*b)"},
	Source:  beamTheory + "four points are recommended for corrugated board (ISO 5628:2019, abstract seen)",
	Status:  calc.Memory,
	Example: "force=6 N; deflection=0.4 mm; arm=60 mm; span=120 mm; strip-width=100 mm",
	Mistakes: []string{
		"The force is that of both arms together.",
		"The deflection is against the inner supports, where the bending is pure, not that of the loads.",
	},
	Compute: FourPointBending.compute,
	Fields: func(f *calc.Form, in *FourPointBending, out *FourPointBendingResult) {
		calc.In(f, &in.Force, "force", "F", "N", "whole load, half on each outer arm").Above(0)
		calc.In(f, &in.Deflection, "deflection", "f", "mm", "in the middle, against the inner supports").Above(0)
		calc.In(f, &in.Arm, "arm", "a", "mm", "outer load to inner support").Above(0)
		calc.In(f, &in.Span, "span", "l", "mm", "between the inner supports").Above(0)
		calc.In(f, &in.StripWidth, "strip-width", "b", "mm", "of the piece").Above(0)
		stiffnessOfBending(f, &out.BendingStiffness, "N.m")
	},
}

// PlateStiffness is the bending stiffness of a homogeneous sheet, from its modulus.
type PlateStiffness struct {
	Modulus   paperprop.Pressure // of the sheet in its plane, above zero
	Thickness paperprop.Length   // above zero
}

// PlateStiffnessResult is the bending stiffness per width.
type PlateStiffnessResult struct {
	BendingStiffness paperprop.BendingStiffness
}

// Calculate returns the stiffness E·t³/12.
func (p PlateStiffness) Calculate() (PlateStiffnessResult, error) { return plateStiffness.Calculate(p) }

func (p PlateStiffness) compute() (PlateStiffnessResult, error) {
	t := p.Thickness.In(paperprop.Millimetre)
	return PlateStiffnessResult{bendingStiffness(p.Modulus.In(paperprop.Megapascal) * t * t * t / 12)}, nil // MPa is N/mm²
}

var plateStiffness = &calc.Description[PlateStiffness, PlateStiffnessResult]{
	Name:    "plate-stiffness",
	Title:   "Bending stiffness of an even sheet",
	Answers: "What bending stiffness a sheet has by its modulus and thickness, if it is the same all through.",
	Formula: []string{"S_b = E*pow(t, 3)/12"},
	Source:  beamTheory + "a sheet alike all through",
	Status:  calc.Memory,
	Example: "modulus=4.4 GPa; thickness=168 um",
	Mistakes: []string{
		"A tenth more thickness is a third more stiffness: an error in it counts three times.",
		"Plies with stiff faces bend less than that, rough surfaces more.",
	},
	Compute: PlateStiffness.compute,
	Fields: func(f *calc.Form, in *PlateStiffness, out *PlateStiffnessResult) {
		calc.In(f, &in.Modulus, "modulus", "E", "GPa", "of the sheet in its plane").Above(0)
		calc.In(f, &in.Thickness, "thickness", "t", "um", "of the sheet (caliper)").Above(0)
		stiffnessOfBending(f, &out.BendingStiffness, "mN.m")
	},
}
