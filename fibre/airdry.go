package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// AirDry restates a mass on the scale as oven-dry and air-dry mass.
type AirDry struct {
	Mass    paperprop.Mass // as it lies on the scale, above zero
	Dryness paperprop.DryContent
}

// AirDryResult is the mass without water, and the mass with 10 % of it.
type AirDryResult struct {
	DryMass     paperprop.OvenDryMass
	AirDryMass  paperprop.AirDryMass
	AirDryShare paperprop.Fraction // air-dry over scale mass: above 100 % when drier than 90 %
}

// Calculate returns the oven-dry mass m·d and the air-dry mass m·d/0.9.
func (a AirDry) Calculate() (AirDryResult, error) { return airDry.Calculate(a) }

// airDryness is the dryness of air-dry pulp, by definition.
const airDryness = 0.9

func (a AirDry) compute() (AirDryResult, error) {
	m, d := a.Mass.In(paperprop.Kilogram), float64(a.Dryness)
	return AirDryResult{
		DryMass:     paperprop.OvenDryMass(m*d) * paperprop.OvenDryKilogram,
		AirDryMass:  paperprop.AirDryMass(m*d/airDryness) * paperprop.AirDryKilogram,
		AirDryShare: paperprop.Fraction(d / airDryness),
	}, nil
}

var airDry = &calc.Description[AirDry, AirDryResult]{
	Name:     "air-dry",
	Title:    "Oven-dry and air-dry mass",
	Answers:  "What a mass on the scale is without its water (oven-dry or bone-dry: OD, BD, in odt or BDMT), and at 90 % dryness (air-dry: AD).",
	Formula:  []string{"m_d = m*d", "m_ad = m_d/0.9", "x_ad = d/0.9"},
	Source:   "1 air-dry tonne = 900 kg oven-dry + 100 kg water: glossary and question pages of the trade (seen)",
	Status:   calc.Published,
	Example:  "mass=248.6 t; dryness=91.35 %",
	Mistakes: []string{"Air-dry is always 90 %; another commercial dryness is a matter of the contract and another calculation."},
	Compute:  AirDry.compute,
	Fields: func(f *calc.Form, in *AirDry, out *AirDryResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "as it lies on the scale").Above(0)
		calc.In(f, &in.Dryness, "dryness", "d", "%", "of it")
		calc.Out(f, &out.DryMass, "dry-mass", "m_d", "kg", "without water")
		calc.Out(f, &out.AirDryMass, "air-dry-mass", "m_ad", "kg", "at 90 % dryness, always")
		calc.Out(f, &out.AirDryShare, "air-dry-share", "x_ad", "%", "air-dry over scale mass")
	},
}
