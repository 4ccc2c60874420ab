package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Tear is a reading of a pendulum tear tester.
type Tear struct {
	Reading        paperprop.Force    // mean scale reading in units of force, above zero
	PendulumFactor paperprop.Ratio    // number of sheets the scale is made for, above zero: 16; 32 with augmenting weight
	Plies          paperprop.Count    // torn together, at least 1
	Grammage       paperprop.Grammage // above zero
}

// TearResult is the force to tear one sheet.
type TearResult struct {
	TearingForce paperprop.Force
	TearIndex    paperprop.TearIndex
	TearFactor   paperprop.TearFactor
}

// Calculate returns the force x·p/n, and that over the grammage.
func (t Tear) Calculate() (TearResult, error) { return tear.Calculate(t) }

func (t Tear) compute() (TearResult, error) {
	force := paperprop.Force(t.Reading.In(paperprop.Millinewton)*float64(t.PendulumFactor)/float64(t.Plies)) * paperprop.Millinewton
	r := TearResult{TearingForce: force}
	r.TearIndex, r.TearFactor = torn(force, t.Grammage)
	return r, nil
}

// torn returns a tearing force over the grammage, in the present and the former
// unit.
func torn(force paperprop.Force, grammage paperprop.Grammage) (paperprop.TearIndex, paperprop.TearFactor) {
	g := grammage.In(paperprop.GramPerSquareMetre)
	return paperprop.TearIndex(force.In(paperprop.Millinewton)/g) * paperprop.MillinewtonSquareMetrePerGram,
		paperprop.TearFactor(100*force.In(paperprop.GramForce)/g) * paperprop.TearFactorSquareDecimetre
}

var tear = &calc.Description[Tear, TearResult]{
	Name:    "tear",
	Title:   "Tearing force, index and factor",
	Answers: "What force tears one sheet under a pendulum (Elmendorf), and for its grammage.",
	Formula: []string{"F = x*p/n", "X = F/g"},
	Method:  tearFactorInWords,
	Source:  "a scale made for 16 sheets, 32 with augmenting weight: Roberts and Etherington, binding dictionary, 1982 (seen)",
	Status:  calc.Published,
	Example: "reading=24 gf; pendulum-factor=16; plies=4; grammage=115 g/m2",
	Mistakes: []string{
		"A reading in gf is given as gf: as mN it is 9.8 times too small. T 414 takes 9.81 mN for a gf (memory).",
		"Index and factor differ by a factor of 10.2, and some pages mix them.",
	},
	Compute: Tear.compute,
	Fields: func(f *calc.Form, in *Tear, out *TearResult) {
		calc.In(f, &in.Reading, "reading", "x", "mN", "mean scale reading in force units").Above(0)
		calc.In(f, &in.PendulumFactor, "pendulum-factor", "p", "1", "sheets the scale is made for: 16, with augmenting weight 32").Above(0)
		calc.In(f, &in.Plies, "plies", "n", "1", "torn together").From(1)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of one sheet").Above(0)
		calc.Out(f, &out.TearingForce, "tearing-force", "F", "mN", "of one sheet").Report(threeFigures(), tearReadings, calc.Memory)
		tearOutputs(f, &out.TearIndex, &out.TearFactor)
	},
}

const (
	tearFactorInWords = "tear factor: 100 times the force in gf over the grammage in g/m2 (memory)"
	tearReadings      = "ISO 1974, T 414: mean of 10 in each direction"
)

func tearOutputs(f *calc.Form, index *paperprop.TearIndex, factor *paperprop.TearFactor) {
	calc.Out(f, index, "tear-index", "X", "mN.m2/g", "force over grammage").Report(threeFigures(), tearReadings, calc.Memory)
	calc.Out(f, factor, "tear-factor", "X_f", "dm2", "100 gf/(g/m2), the old factor").Report(threeFigures(), tearReadings, calc.Memory)
}

// TearIndex restates a reported tearing force.
type TearIndex struct {
	TearingForce paperprop.Force    // of one sheet, above zero
	Grammage     paperprop.Grammage // above zero
}

// TearIndexResult is the force over the grammage, in the present and the former
// unit.
type TearIndexResult struct {
	TearIndex  paperprop.TearIndex
	TearFactor paperprop.TearFactor
}

// Calculate returns the index F/g, and the factor 100·F/g with gf and g/m².
func (t TearIndex) Calculate() (TearIndexResult, error) { return tearIndex.Calculate(t) }

func (t TearIndex) compute() (TearIndexResult, error) {
	var r TearIndexResult
	r.TearIndex, r.TearFactor = torn(t.TearingForce, t.Grammage)
	return r, nil
}

var tearIndex = &calc.Description[TearIndex, TearIndexResult]{
	Name:    "tear-index",
	Title:   "Tear index and factor",
	Answers: "How hard a sheet is to tear for its grammage, from a reported tearing force.",
	Formula: []string{"X = F/g"},
	Method:  tearFactorInWords,
	Source:  "index: a pulp and paper reference page (seen)",
	Status:  calc.Published,
	Example: "tearing-force=812 mN; grammage=121.4 g/m2",
	Mistakes: []string{
		"The page named as the source prints the factor as 100 mN/(g/m2), 9.8 times too large: the factor takes gf, and 1 of it is 0.0980665 of the index.",
		"The force is that of one sheet, not of the four torn together.",
	},
	Compute: TearIndex.compute,
	Fields: func(f *calc.Form, in *TearIndex, out *TearIndexResult) {
		calc.In(f, &in.TearingForce, "tearing-force", "F", "mN", "of one sheet").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of one sheet").Above(0)
		tearOutputs(f, &out.TearIndex, &out.TearFactor)
	},
}

// TearEnergy is a tearing force from the work of the pendulum.
type TearEnergy struct {
	Energy     paperprop.Energy // lost by the pendulum, above zero
	TearLength paperprop.Length // length torn, above zero
	Plies      paperprop.Count  // torn together, at least 1
	PathRatio  paperprop.Ratio  // path of the clamp over length torn; zero stands for 2
}

// TearEnergyResult is the mean force to tear one sheet.
type TearEnergyResult struct {
	TearingForce paperprop.Force
}

// Calculate returns the force W/(k·l·n).
func (t TearEnergy) Calculate() (TearEnergyResult, error) { return tearEnergy.Calculate(t) }

func (t TearEnergy) compute() (TearEnergyResult, error) {
	way := float64(t.PathRatio) * t.TearLength.In(paperprop.Metre) * float64(t.Plies)
	return TearEnergyResult{paperprop.Force(t.Energy.In(paperprop.Joule)/way) * paperprop.Newton}, nil
}

var tearEnergy = &calc.Description[TearEnergy, TearEnergyResult]{
	Name:    "tear-energy",
	Title:   "Tearing force from the work of the pendulum",
	Answers: "What mean force tears one sheet, from the work that the pendulum lost.",
	Formula: []string{"F = W/(k*l*n)"},
	Source:  "work over distance torn and number of sheets: a laboratory's page on ISO 1974 (seen); that the clamp goes twice that way from memory",
	Status:  calc.Memory,
	Example: "energy=0.28 J; tear-length=43 mm; plies=4",
	Mistakes: []string{
		"The clamp goes twice the length torn: a force over the length alone is twice as large. Say which was taken.",
		"The work to lift the pieces and the friction of the bearing are not the sheet's.",
	},
	Compare: []calc.Comparison{{
		Inputs: "energy=0.28 J; tear-length=43 mm; plies=4; path-ratio=1",
		Why:    "as work over the length torn alone, as the words of the page have it that is the source, the force is twice as large",
	}},
	Compute: TearEnergy.compute,
	Fields: func(f *calc.Form, in *TearEnergy, out *TearEnergyResult) {
		calc.In(f, &in.Energy, "energy", "W", "J", "lost by the pendulum").Above(0)
		calc.In(f, &in.TearLength, "tear-length", "l", "mm", "torn; 43 mm (memory)").Above(0)
		calc.In(f, &in.Plies, "plies", "n", "1", "torn together").From(1)
		calc.In(f, &in.PathRatio, "path-ratio", "k", "1", "way of the clamp over length torn: say which was taken").Above(0).Default(2).Label()
		calc.Out(f, &out.TearingForce, "tearing-force", "F", "mN", "mean, of one sheet").Report(threeFigures(), tearReadings, calc.Memory)
	},
}
