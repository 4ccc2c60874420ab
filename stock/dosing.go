package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// DosingPump is the flow of solution that a pump must deliver for a dosage.
type DosingPump struct {
	Dosage      paperprop.Dosage      // active (or dry) substance per dry stock, zero or more
	DryFlow     paperprop.OvenDryFlow // of stock, above zero
	ActiveShare paperprop.Fraction    // of the solution pumped: above zero, at most 100 %
	Density     paperprop.Density     // of the solution, above zero
}

// DosingPumpResult is the flow to pump.
type DosingPumpResult struct {
	ActiveFlow paperprop.MassFlow
	VolumeFlow paperprop.VolumeFlow
}

// Calculate returns the active substance z·q_d, and the volume flow of solution
// that holds it.
func (p DosingPump) Calculate() (DosingPumpResult, error) { return dosingPump.Calculate(p) }

func (p DosingPump) compute() (DosingPumpResult, error) {
	active := p.Dosage.In(paperprop.KilogramPerTonne) * p.DryFlow.In(paperprop.DryTonnePerHour) // kg/h
	volume := active / (float64(p.ActiveShare) * p.Density.In(paperprop.KilogramPerCubicMetre)) // m³/h
	return DosingPumpResult{
		ActiveFlow: paperprop.MassFlow(active) * paperprop.KilogramPerHour,
		VolumeFlow: paperprop.VolumeFlow(volume) * paperprop.CubicMetrePerHour,
	}, nil
}

var dosingPump = &calc.Description[DosingPump, DosingPumpResult]{
	Name:    "dosing-pump",
	Title:   "Flow of a dosing pump",
	Answers: "How many litres of solution an hour, of a retention aid or starch, a pump must bring for a dosage on dry stock.",
	Formula: []string{"q_a = z*q_d", "Q = q_a/(s*rho)"},
	Source:  "definition of the dosage and of density",
	Status:  calc.CommonPractice,
	Example: "dosage=0.25 kg/t; dry-flow=17.75 t/h; active-share=0.2 %; density=1000 kg/m3",
	Mistakes: []string{
		"The share is that of the solution pumped, not of the product in the sack: 0.2 % after make-down, not 90 %.",
		"A per cent by mass is not 10 g/L where the solution is denser than water: at 1.35 kg/L it is 13.5 g/L.",
	},
	Cautions: []*calc.Caution{&calc.Chemicals},
	Compute:  DosingPump.compute,
	Fields: func(f *calc.Form, in *DosingPump, out *DosingPumpResult) {
		calc.In(f, &in.Dosage, "dosage", "z", "kg/t", "active or dry substance per dry stock").From(0)
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "t/h", "of stock").Above(0)
		calc.In(f, &in.ActiveShare, "active-share", "s", "%", "active or dry substance over the solution pumped").Above(0).UpTo(100)
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the solution").Above(0)
		calc.Out(f, &out.ActiveFlow, "active-flow", "q_a", "kg/h", "of active substance")
		calc.Out(f, &out.VolumeFlow, "volume-flow", "Q", "L/h", "of solution to pump")
	},
}

// MakeDown dissolves, cooks or thins a product with water.
type MakeDown struct {
	ProductMass paperprop.Mass       // as received, or a solution made before; above zero
	ActiveShare paperprop.Fraction   // dry or active substance in it: above zero, at most 100 %
	SteamMass   paperprop.Mass       // condensed into the solution; zero is no steam
	Solids      paperprop.DryContent // wanted, above zero, at most that of product and condensed steam alone
}

// MakeDownResult is the water to add and the solution made.
type MakeDownResult struct {
	ActiveMass   paperprop.OvenDryMass
	WaterMass    paperprop.Mass
	SolutionMass paperprop.Mass
}

// Calculate returns the mass of solution m_p·x_a/s, and the water in it that
// neither product nor steam brings.
func (m MakeDown) Calculate() (MakeDownResult, error) { return makeDown.Calculate(m) }

func (m MakeDown) compute() (MakeDownResult, error) {
	product, steam := m.ProductMass.In(paperprop.Kilogram), m.SteamMass.In(paperprop.Kilogram)
	active := product * float64(m.ActiveShare)
	solution := active / float64(m.Solids)
	water := result.Rest(solution, product+steam)
	if water < 0 {
		return MakeDownResult{}, calc.Refuse("solids", m.Solids,
			"at most %v: product and steam give no more", paperprop.DryContent(active/(product+steam)))
	}
	return MakeDownResult{
		ActiveMass:   paperprop.OvenDryMass(active) * paperprop.OvenDryKilogram,
		WaterMass:    paperprop.Mass(water) * paperprop.Kilogram,
		SolutionMass: paperprop.Mass(solution) * paperprop.Kilogram,
	}, nil
}

var makeDown = &calc.Description[MakeDown, MakeDownResult]{
	Name:    "make-down",
	Title:   "Make-down of starch or of a polymer",
	Answers: "How much water makes a product into a solution of some solids, the steam that cooks it counted.",
	Formula: []string{"m_a = m_p*x_a", "m_w = m_a/s - m_p - m_s", "m = m_a/s"},
	Source:  balance,
	Status:  calc.CommonPractice,
	Example: "product-mass=1000 kg; active-share=88 %; steam-mass=1100 kg; solids=9.5 %",
	Mistakes: []string{
		"Starch as bought is not dry: it holds 10 to 20 % water (limits up to 15 % seen).",
		"Steam condenses into the starch: 30 % before the cooker is not 30 % after it.",
	},
	Cautions: []*calc.Caution{&calc.StarchDust, &calc.Chemicals, &calc.Steam},
	Compute:  MakeDown.compute,
	Fields: func(f *calc.Form, in *MakeDown, out *MakeDownResult) {
		calc.In(f, &in.ProductMass, "product-mass", "m_p", "kg", "as received, or a solution made before").Above(0)
		calc.In(f, &in.ActiveShare, "active-share", "x_a", "%", "dry or active substance in it").Above(0).UpTo(100)
		calc.In(f, &in.SteamMass, "steam-mass", "m_s", "kg", "condensed into it").From(0).Default(0)
		calc.In(f, &in.Solids, "solids", "s", "%", "wanted").Above(0)
		calc.Out(f, &out.ActiveMass, "active-mass", "m_a", "kg", "dry or active substance")
		calc.Out(f, &out.WaterMass, "water-mass", "m_w", "kg", "to add")
		calc.Out(f, &out.SolutionMass, "solution-mass", "m", "kg", "made")
	},
}
