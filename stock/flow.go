package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Flow turns a volume flow of stock into masses.
type Flow struct {
	VolumeFlow  paperprop.VolumeFlow // of stock, above zero
	Consistency paperprop.Consistency
	Density     paperprop.Density // of the stock, above zero
}

// FlowResult is what flows by mass.
type FlowResult struct {
	MassFlow paperprop.MassFlow
	DryFlow  paperprop.OvenDryFlow
}

// Calculate returns Q·ρ and the dry matter in it.
func (s Flow) Calculate() (FlowResult, error) { return stockFlow.Calculate(s) }

func (s Flow) compute() (FlowResult, error) {
	q := s.VolumeFlow.In(paperprop.CubicMetrePerHour) * s.Density.In(paperprop.KilogramPerCubicMetre) / 1000 // t/h
	return FlowResult{
		MassFlow: paperprop.MassFlow(q) * paperprop.TonnePerHour,
		DryFlow:  paperprop.OvenDryFlow(q*float64(s.Consistency)) * paperprop.DryTonnePerHour,
	}, nil
}

var stockFlow = &calc.Description[Flow, FlowResult]{
	Name:     "stock-flow",
	Title:    "Mass flow of stock from its volume flow",
	Answers:  "How many tonnes of stock and of dry matter a volume flow carries.",
	Formula:  []string{"q = Q*rho", "q_d = q*c"},
	Source:   "definition of density and consistency",
	Status:   calc.CommonPractice,
	Example:  "volume-flow=420 m3/h; consistency=3.8 %; density=1012.8 kg/m3",
	Mistakes: []string{"The trade often takes the density of water: at 4 % that is 1.3 % too little."},
	Compute:  Flow.compute,
	Fields: func(f *calc.Form, in *Flow, out *FlowResult) {
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "m3/h", "of stock").Above(0)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of it")
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the stock, from stock-density").Above(0)
		calc.Out(f, &out.MassFlow, "mass-flow", "q", "t/h", "of stock")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "dry matter in it")
	},
}
