package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Tear is a reading of a tear tester with a pendulum.
type Tear struct {
	Reading        paperprop.Force    // mean scale reading in units of force, above zero
	PendulumFactor paperprop.Ratio    // sheets that the scale is made for, above zero: 16, with augmenting weight 32
	Plies          paperprop.Count    // torn together, at least 1
	Grammage       paperprop.Grammage // above zero
}

// TearResult is the force to tear one sheet.
type TearResult struct {
	TearingForce paperprop.Force
	TearIndex    paperprop.TearIndex
	TearFactor   paperprop.TearFactor
}

// Calculate returns x·p/n and what that is over the grammage.
func (t Tear) Calculate() (TearResult, error) { return tear.Calculate(t) }

func (t Tear) compute() (TearResult, error) {
	force := paperprop.Force(t.Reading.In(paperprop.Millinewton)*float64(t.PendulumFactor)/float64(t.Plies)) * paperprop.Millinewton
	g := t.Grammage.In(paperprop.GramPerSquareMetre)
	return TearResult{
		TearingForce: force,
		TearIndex:    paperprop.TearIndex(force.In(paperprop.Millinewton)/g) * paperprop.MillinewtonSquareMetrePerGram,
		TearFactor:   paperprop.TearFactor(100*force.In(paperprop.GramForce)/g) * paperprop.TearFactorSquareDecimetre,
	}, nil
}

var tear = &calc.Description[Tear, TearResult]{
	Name:    "tear",
	Title:   "Tearing force, index and factor",
	Answers: "What force tears one sheet, and for its grammage.",
	Formula: []string{"F = x*p/n", "X = F/g"},
	Method:  "tear factor: 100 times the force in gf over the grammage in g/m2 (memory)",
	Source:  "a scale made for 16 sheets, 32 with augmenting weight: Roberts and Etherington, binding dictionary, 1982 (seen)",
	Status:  calc.Published,
	Example: "reading=24 gf; pendulum-factor=16; plies=4; grammage=115 g/m2",
	Mistakes: []string{
		"A scale in gf is given in gf; T 414 takes it times 9.81 mN (memory).",
		"Index and factor differ by 10.2, and some pages mix them.",
	},
	Compute: Tear.compute,
	Fields: func(f *calc.Form, in *Tear, out *TearResult) {
		calc.In(f, &in.Reading, "reading", "x", "mN", "mean scale reading in force units").Above(0)
		calc.In(f, &in.PendulumFactor, "pendulum-factor", "p", "1", "sheets the scale is made for: 16, with augmenting weight 32").Above(0)
		calc.In(f, &in.Plies, "plies", "n", "1", "torn together").From(1)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of one sheet").Above(0)
		calc.Out(f, &out.TearingForce, "tearing-force", "F", "mN", "of one sheet").Report(threeFigures(), "ISO 1974, T 414", calc.Memory)
		calc.Out(f, &out.TearIndex, "tear-index", "X", "mN.m2/g", "force over grammage").Report(threeFigures(), "ISO 1974, T 414", calc.Memory)
		calc.Out(f, &out.TearFactor, "tear-factor", "X_f", "dm2", "100 gf/(g/m2), the old factor").Report(threeFigures(), "ISO 1974, T 414", calc.Memory)
	},
}
