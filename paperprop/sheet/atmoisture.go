package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// GrammageAtMoisture restates a grammage at another moisture.
type GrammageAtMoisture struct {
	Grammage   paperprop.Grammage // at Moisture, above zero
	Moisture   paperprop.Moisture // now, below 100 %
	ToMoisture paperprop.Moisture // wanted, below 100 %; zero is oven-dry
}

// GrammageAtMoistureResult is the grammage at the wanted moisture, and the dry
// grammage.
type GrammageAtMoistureResult struct {
	ToGrammage  paperprop.Grammage
	DryGrammage paperprop.OvenDryGrammage
}

// Calculate returns the grammage g(1 − w)/(1 − w_to).
func (g GrammageAtMoisture) Calculate() (GrammageAtMoistureResult, error) {
	return grammageAtMoisture.Calculate(g)
}

func (g GrammageAtMoisture) compute() (GrammageAtMoistureResult, error) {
	dry, to := atMoisture(g.Grammage.In(paperprop.GramPerSquareMetre), g.Moisture, g.ToMoisture)
	return GrammageAtMoistureResult{
		ToGrammage:  paperprop.Grammage(to) * paperprop.GramPerSquareMetre,
		DryGrammage: paperprop.OvenDryGrammage(dry) * paperprop.DryGramPerSquareMetre,
	}, nil
}

// MassAtMoisture restates a mass at another moisture.
type MassAtMoisture struct {
	Mass       paperprop.Mass     // at Moisture, above zero
	Moisture   paperprop.Moisture // now, below 100 %
	ToMoisture paperprop.Moisture // agreed or wanted, below 100 %; 10 % is air-dry
}

// MassAtMoistureResult is the mass at the wanted moisture, and the dry mass.
type MassAtMoistureResult struct {
	ToMass  paperprop.Mass
	DryMass paperprop.OvenDryMass
}

// Calculate returns the mass m(1 − w)/(1 − w_to).
func (m MassAtMoisture) Calculate() (MassAtMoistureResult, error) { return massAtMoisture.Calculate(m) }

func (m MassAtMoisture) compute() (MassAtMoistureResult, error) {
	dry, to := atMoisture(m.Mass.In(paperprop.Kilogram), m.Moisture, m.ToMoisture)
	return MassAtMoistureResult{
		ToMass:  paperprop.Mass(to) * paperprop.Kilogram,
		DryMass: paperprop.OvenDryMass(dry) * paperprop.OvenDryKilogram,
	}, nil
}

// atMoisture keeps the dry matter of x and changes the water.
func atMoisture(x float64, moisture, to paperprop.Moisture) (dry, moist float64) {
	dry = x * (1 - float64(moisture))
	return dry, dry / (1 - float64(to))
}

const dryMatterStays = "balance of dry matter"

var addingPoints = []string{"Adding points is wrong: what is 100 at 5 % is 105.56 at 10 %, not 105, in g/m2 as in kg."}

var grammageAtMoisture = &calc.Description[GrammageAtMoisture, GrammageAtMoistureResult]{
	Name:     "grammage-at-moisture",
	Title:    "Grammage at another moisture",
	Answers:  "What a grammage becomes at another moisture, and oven-dry.",
	Formula:  []string{"g_d = g*(1 - w)", "g_to = g_d/(1 - w_to)"},
	Source:   dryMatterStays,
	Status:   calc.CommonPractice,
	Example:  "grammage=127 g/m2; moisture=7.5 %; to-moisture=9 %",
	Mistakes: addingPoints,
	Compute:  GrammageAtMoisture.compute,
	Fields: func(f *calc.Form, in *GrammageAtMoisture, out *GrammageAtMoistureResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at moisture").Above(0)
		moistures(f, &in.Moisture, &in.ToMoisture)
		calc.Out(f, &out.ToGrammage, "to-grammage", "g_to", "g/m2", "at to-moisture")
		calc.Out(f, &out.DryGrammage, "dry-grammage", "g_d", "g/m2", "without water")
	},
}

var massAtMoisture = &calc.Description[MassAtMoisture, MassAtMoistureResult]{
	Name:     "mass-at-moisture",
	Title:    "Mass at another moisture",
	Answers:  "What a mass becomes at another moisture, and oven-dry.",
	Formula:  []string{"m_d = m*(1 - w)", "m_to = m_d/(1 - w_to)"},
	Source:   dryMatterStays,
	Status:   calc.CommonPractice,
	Example:  "mass=20000 kg; moisture=11.6 %; to-moisture=10 %",
	Mistakes: addingPoints,
	Compute:  MassAtMoisture.compute,
	Fields: func(f *calc.Form, in *MassAtMoisture, out *MassAtMoistureResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "at moisture").Above(0)
		moistures(f, &in.Moisture, &in.ToMoisture)
		calc.Out(f, &out.ToMass, "to-mass", "m_to", "kg", "at to-moisture")
		calc.Out(f, &out.DryMass, "dry-mass", "m_d", "kg", "without water")
	},
}

func moistures(f *calc.Form, now, to *paperprop.Moisture) {
	calc.In(f, now, "moisture", "w", "%", "now").From(0).Below(100)
	calc.In(f, to, "to-moisture", "w_to", "%", "agreed or wanted; 0 is oven-dry, 10 % air-dry").From(0).Below(100)
}
