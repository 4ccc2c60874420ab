package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// BaleLot is a lot of bales or loads. Its lists are of equal length.
type BaleLot struct {
	Mass     []paperprop.Mass // of each as received, above zero
	Moisture []paperprop.Moisture
}

// BaleLotResult is the mass of the lot, its moisture and its dry mass.
type BaleLotResult struct {
	LotMass     paperprop.Mass
	LotMoisture paperprop.Moisture // weighted by mass
	LotDryMass  paperprop.OvenDryMass
}

// Calculate returns the sums, and the moisture weighted by mass.
func (b BaleLot) Calculate() (BaleLotResult, error) { return baleLot.Calculate(b) }

func (b BaleLot) compute() (BaleLotResult, error) {
	var mass, water float64
	for i, m := range b.Mass {
		mass += m.In(paperprop.Kilogram)
		water += m.In(paperprop.Kilogram) * float64(b.Moisture[i])
	}
	return BaleLotResult{
		LotMass:     paperprop.Mass(mass) * paperprop.Kilogram,
		LotMoisture: paperprop.Moisture(water / mass),
		LotDryMass:  paperprop.OvenDryMass(mass-water) * paperprop.OvenDryKilogram,
	}, nil
}

var baleLot = &calc.Description[BaleLot, BaleLotResult]{
	Name:     "bale-lot",
	Title:    "Mass and moisture of a lot of bales",
	Answers:  "What a lot of bales of pulp or recovered paper (waste paper, OCC) weighs, how moist it is as a whole, and how much of it is dry.",
	Formula:  []string{"m_l = sum(m)", "w_l = sum(m*w)/m_l", "m_d = sum(m*(1 - w))"},
	Source:   "balance of water over the bales",
	Status:   calc.CommonPractice,
	Example:  "mass=[612 588 745 530] kg; moisture=[9.4 12.1 17.8 10.9] %",
	Mistakes: []string{"The simple mean of the moistures is wrong: heavy bales count for more."},
	Compute:  BaleLot.compute,
	Fields: func(f *calc.Form, in *BaleLot, out *BaleLotResult) {
		f.Even(
			calc.InList(f, &in.Mass, "mass", "m", "kg", "of each bale or load as it is").Above(0),
			calc.InList(f, &in.Moisture, "moisture", "w", "%", "of each"),
		)
		calc.Out(f, &out.LotMass, "lot-mass", "m_l", "kg", "of all")
		calc.Out(f, &out.LotMoisture, "lot-moisture", "w_l", "%", "weighted by mass")
		calc.Out(f, &out.LotDryMass, "lot-dry-mass", "m_d", "kg", "of all")
	},
}
