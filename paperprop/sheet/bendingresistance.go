package sheet

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// overCube divides by the third power of the grammage: from mN·m and g/m² to N·m
// over (kg/m²)³, and likewise from mN to N.
func overCube(milli float64, grammage paperprop.Grammage) float64 {
	g := grammage.In(paperprop.GramPerSquareMetre)
	return 1e6 * milli / (g * g * g)
}

// BendingIndex is a bending stiffness over the third power of the grammage.
type BendingIndex struct {
	BendingStiffness paperprop.BendingStiffness // above zero
	Grammage         paperprop.Grammage         // above zero
}

// BendingIndexResult is the index.
type BendingIndexResult struct {
	BendingIndex paperprop.BendingIndex
}

// Calculate returns the index S_b/g³.
func (b BendingIndex) Calculate() (BendingIndexResult, error) { return bendingIndex.Calculate(b) }

func (b BendingIndex) compute() (BendingIndexResult, error) {
	i := overCube(b.BendingStiffness.In(paperprop.MillinewtonMetre), b.Grammage)
	return BendingIndexResult{paperprop.BendingIndex(i) * paperprop.NewtonMetreSeventhPerCubicKilogram}, nil
}

var bendingIndex = &calc.Description[BendingIndex, BendingIndexResult]{
	Name:    "bending-index",
	Title:   "Bending stiffness index",
	Answers: "How stiff a sheet is against bending for its grammage.",
	Formula: []string{"S_i = S_b/pow(g, 3)"},
	Source:  "definition: stiffness grows with the third power of thickness, and so of grammage at one density",
	Status:  calc.CommonPractice,
	Example: "bending-stiffness=1.6 mN.m; grammage=121.4 g/m2",
	Mistakes: []string{
		"The third power: 1 % of error in the grammage is 3 % of the index.",
		"A tensile index divides by the grammage once; the two are not to be set side by side.",
	},
	Compute: BendingIndex.compute,
	Fields: func(f *calc.Form, in *BendingIndex, out *BendingIndexResult) {
		calc.In(f, &in.BendingStiffness, "bending-stiffness", "S_b", "mN.m", "for the width").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		calc.Out(f, &out.BendingIndex, "bending-index", "S_i", "N.m7/kg3", "stiffness over the third power of grammage").Unreported(stiffnessUnreported)
	},
}

// BendingMoment is the moment from a tester of the Taber type, in Taber units of 1
// gf·cm.
type BendingMoment struct {
	BendingMoment paperprop.Moment // on a piece of 38 mm, above zero
	BendingLength paperprop.Length // lever; zero stands for 50 mm
}

// BendingMomentResult is the force at the end of the lever.
type BendingMomentResult struct {
	Force paperprop.Force
}

// Calculate returns the force M/l.
func (b BendingMoment) Calculate() (BendingMomentResult, error) { return bendingMoment.Calculate(b) }

func (b BendingMoment) compute() (BendingMomentResult, error) {
	force := b.BendingMoment.In(paperprop.MomentMillinewtonMetre) / b.BendingLength.In(paperprop.Millimetre) // mN·m over mm is N
	return BendingMomentResult{paperprop.Force(force) * paperprop.Newton}, nil
}

var bendingMoment = &calc.Description[BendingMoment, BendingMomentResult]{
	Name:    "bending-moment",
	Title:   "Force of a bending moment in Taber units",
	Answers: "What force at its lever a bending moment in Taber units stands for, and back.",
	Formula: []string{"F = M/l"},
	Source:  "geometry of T 489: lever 50 mm, piece 38 mm (on a testing laboratory's page, seen); a Taber unit is 1 gf.cm",
	Status:  calc.Memory,
	Example: "bending-moment=43 gf.cm",
	Mistakes: []string{
		"Instruments agree with geometry only roughly: 1.961 mN for each Taber unit at 50 mm by geometry, about 2.03 measured (memory).",
		"T 489 and T 566 may differ by 40 %, say both of their scopes: one is not to be turned into the other.",
		"A moment at 15 deg is not a stiffness.",
	},
	Compare: []calc.Comparison{{
		Inputs: "bending-moment=43 gf.cm; bending-length=10 mm",
		Why:    "the same figure on the lever of 10 mm of the low range (T 566): the force is five times as large, and the sheet a limper one",
	}},
	Compute: BendingMoment.compute,
	Fields: func(f *calc.Form, in *BendingMoment, out *BendingMomentResult) {
		calc.In(f, &in.BendingMoment, "bending-moment", "M", "mN.m", "a Taber unit is 1 gf.cm on a 38 mm piece").Above(0)
		calc.In(f, &in.BendingLength, "bending-length", "l", "mm", "lever: 50 mm, 10 mm in the low range").Above(0).Default(50)
		calc.Out(f, &out.Force, "force", "F", "mN", "at the lever, by geometry alone").Unreported("T 489, T 566: " + notSeen)
	},
}

// BendingResistance is the force that bends a strip to an angle.
type BendingResistance struct {
	Force         paperprop.Force    // mean of both sides, above zero
	Angle         paperprop.Angle    // 15° or 7.5°; zero stands for 15°
	BendingLength paperprop.Length   // zero stands for 50 mm
	Grammage      paperprop.Grammage // above zero
}

// BendingResistanceResult is the force, valid only with its angle and length, and
// its index by grammage.
type BendingResistanceResult struct {
	BendingResistance      paperprop.Force
	BendingResistanceIndex paperprop.BendingResistanceIndex
	Warnings               calc.Warnings
}

// Calculate returns the force F and the index F/g³.
func (b BendingResistance) Calculate() (BendingResistanceResult, error) {
	return bendingResistance.Calculate(b)
}

var notComparable = calc.Warnings{{Code: "not-comparable", Text: "results at a bending length other than 50 mm can't be compared " +
	"with those at 50 mm (AS/NZS 1301.453:2016, published)"}}

func (b BendingResistance) compute() (BendingResistanceResult, error) {
	// A conversion may lose a little, and an uncertainty takes a step: a thousandth
	// of a degree allows for both.
	if at := b.Angle.In(paperprop.Degree); math.Abs(at-15) > 1e-3 && math.Abs(at-7.5) > 1e-3 {
		return BendingResistanceResult{}, calc.Refuse("angle", b.Angle, "15 deg or 7.5 deg")
	}
	force := b.Force.In(paperprop.Millinewton)
	r := BendingResistanceResult{
		BendingResistance:      paperprop.Force(force) * paperprop.Millinewton,
		BendingResistanceIndex: paperprop.BendingResistanceIndex(overCube(force, b.Grammage)) * paperprop.NewtonMetreSixthPerCubicKilogram,
	}
	if result.Outside(b.BendingLength.In(paperprop.Millimetre), 50, 50) {
		r.Warnings = notComparable
	}
	return r, nil
}

var bendingResistance = &calc.Description[BendingResistance, BendingResistanceResult]{
	Name:    "bending-resistance",
	Title:   "Bending resistance and index",
	Answers: "What force bends a strip to an angle, and what that is for the grammage.",
	Formula: []string{"F_b = F", "F_i = F/pow(g, 3)"},
	Source:  "ISO 2493 by AS/NZS 1301.453:2016 (excerpt seen: 15 or 7.5 deg, 50 mm); index from memory",
	Status:  calc.Memory,
	Example: "force=38 mN; grammage=121.4 g/m2",
	Mistakes: []string{
		"It is a force at its angle and length, never a stiffness: give both with it.",
		"Where more than a tenth of the pieces crack at 15 deg the test goes to 7.5 deg: half the angle is not half the force.",
	},
	Compute: BendingResistance.compute,
	Fields: func(f *calc.Form, in *BendingResistance, out *BendingResistanceResult) {
		calc.In(f, &in.Force, "force", "F", "mN", "mean of both sides").Above(0)
		calc.In(f, &in.Angle, "angle", "theta", "deg", "15 or 7.5 deg; belongs to the result").Above(0).Default(15).Label()
		calc.In(f, &in.BendingLength, "bending-length", "l", "mm", "belongs to the result").Above(0).Default(50).Label()
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		const readings = "ISO 2493: mean of at least 10 in each direction, as many from each side (published); " + notSeen
		calc.Out(f, &out.BendingResistance, "bending-resistance", "F_b", "mN", "the force itself").Unreported(readings)
		calc.Out(f, &out.BendingResistanceIndex, "bending-resistance-index", "F_i", "N.m6/kg3", "force over the third power of grammage").Unreported(readings)
		f.Warnings(&out.Warnings)
	},
}
