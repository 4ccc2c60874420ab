package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// ChargeDemand is the charge of a filtrate by polyelectrolyte titration.
type ChargeDemand struct {
	TitrantVolume paperprop.Volume              // to the end point, at least BlankVolume
	BlankVolume   paperprop.Volume              // of the same titrant; zero is no blank
	Normality     paperprop.AmountConcentration // of the titrant, above zero
	SampleVolume  paperprop.Volume              // of filtrate, above zero
}

// ChargeDemandResult is the amount of charge per volume of filtrate.
type ChargeDemandResult struct {
	ChargeConcentration paperprop.AmountConcentration // zero or more; its sign is opposite to the titrant's
}

// Calculate returns the charge per volume, (V_t − V_0)·N/V_s.
func (c ChargeDemand) Calculate() (ChargeDemandResult, error) { return chargeDemand.Calculate(c) }

func (c ChargeDemand) compute() (ChargeDemandResult, error) {
	charge, err := titrated(c.TitrantVolume, c.BlankVolume, c.Normality)
	return ChargeDemandResult{
		ChargeConcentration: paperprop.AmountConcentration(charge/c.SampleVolume.In(paperprop.Litre)) * paperprop.EquivalentPerLitre,
	}, err
}

// titrated returns the charge that a titrant neutralised, in mol.
func titrated(titrant, blank paperprop.Volume, normality paperprop.AmountConcentration) (float64, error) {
	if titrant < blank {
		return 0, calc.Refuse("titrant-volume", titrant, "at least blank-volume %v", blank)
	}
	return (titrant - blank).In(paperprop.Litre) * normality.In(paperprop.EquivalentPerLitre), nil
}

var chargeDemand = &calc.Description[ChargeDemand, ChargeDemandResult]{
	Name:    "charge-demand",
	Title:   "Charge demand of a filtrate",
	Answers: "How much charge a filtrate holds (cationic demand), from a titration, as on a particle charge detector (PCD), with a polyelectrolyte of the other sign.",
	Formula: []string{"q_v = (V_t - V_0)*N/V_s"},
	Source:  "definition of the titration",
	Status:  calc.CommonPractice,
	Example: "titrant-volume=3.42 mL; blank-volume=0.12 mL; normality=0.001 eq/L; sample-volume=10 mL",
	Mistakes: []string{
		"The result is a size, its sign is opposite to the titrant's: a cationic titrant measures an anionic sample.",
		"Stock in place of filtrate measures fines too, and never stops drifting.",
	},
	Cautions: []*calc.Caution{&calc.LabChemicals},
	Compute:  ChargeDemand.compute,
	Fields: func(f *calc.Form, in *ChargeDemand, out *ChargeDemandResult) {
		titration(f, &in.TitrantVolume, &in.BlankVolume, &in.Normality)
		calc.In(f, &in.SampleVolume, "sample-volume", "V_s", "mL", "of filtrate").Above(0)
		calc.Out(f, &out.ChargeConcentration, "charge-concentration", "q_v", "ueq/L", "its size: its sign is opposite to the titrant's")
	},
}

func titration(f *calc.Form, titrant, blank *paperprop.Volume, normality *paperprop.AmountConcentration) {
	calc.In(f, titrant, "titrant-volume", "V_t", "mL", "to the end point")
	calc.In(f, blank, "blank-volume", "V_0", "mL", "of the same titrant").From(0).Default(0)
	calc.In(f, normality, "normality", "N", "eq/L", "of the titrant").Above(0)
}

// FibreCharge is the charge of fibre by polyelectrolyte titration.
type FibreCharge struct {
	TitrantVolume paperprop.Volume              // to the end point, at least BlankVolume
	BlankVolume   paperprop.Volume              // of the same titrant; zero is no blank
	Normality     paperprop.AmountConcentration // of the titrant, above zero
	DryMass       paperprop.OvenDryMass         // of the fibre titrated, above zero
}

// FibreChargeResult is the amount of charge per mass of dry fibre.
type FibreChargeResult struct {
	ChargePerDry paperprop.AmountPerMass
}

// Calculate returns the charge per dry mass, (V_t − V_0)·N/m_d.
func (c FibreCharge) Calculate() (FibreChargeResult, error) { return fibreCharge.Calculate(c) }

func (c FibreCharge) compute() (FibreChargeResult, error) {
	charge, err := titrated(c.TitrantVolume, c.BlankVolume, c.Normality)
	return FibreChargeResult{
		ChargePerDry: paperprop.AmountPerMass(1000*charge/c.DryMass.In(paperprop.OvenDryKilogram)) * paperprop.MilliequivalentPerKilogram,
	}, err
}

var fibreCharge = &calc.Description[FibreCharge, FibreChargeResult]{
	Name:    "fibre-charge",
	Title:   "Charge of fibre",
	Answers: "How much charge a kilogram of dry fibre holds, from a titration.",
	Formula: []string{"q_m = (V_t - V_0)*N/m_d"},
	Source:  "definition of the titration",
	Status:  calc.CommonPractice,
	Example: "titrant-volume=8.3 mL; blank-volume=0.4 mL; normality=0.01 eq/L; dry-mass=1.25 g",
	Mistakes: []string{
		"Surface and total charge are two numbers: a large polymer does not reach into the wall.",
		"Oven-dry mass, not the mass of the moist pad.",
	},
	Cautions: []*calc.Caution{&calc.LabChemicals},
	Compute:  FibreCharge.compute,
	Fields: func(f *calc.Form, in *FibreCharge, out *FibreChargeResult) {
		titration(f, &in.TitrantVolume, &in.BlankVolume, &in.Normality)
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "of the fibre titrated").Above(0)
		calc.Out(f, &out.ChargePerDry, "charge-per-dry", "q_m", "meq/kg", "its size, per dry fibre")
	},
}
