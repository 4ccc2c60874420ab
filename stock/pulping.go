package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Pulping turns a flow of bales into stock, with coarse rejects taken out.
type Pulping struct {
	BaleFlow         paperprop.MassFlow    // bales as they come, above zero
	BaleMoisture     paperprop.Moisture    // below 100 %
	RejectRate       paperprop.Fraction    // coarse rejects over the bales, dry over dry, below 100 %
	RejectDryness    paperprop.DryContent  // must be given with a RejectRate
	Consistency      paperprop.Consistency // of the accepted stock, above WaterConsistency
	WaterConsistency paperprop.Consistency // of the water added; zero is clear water
}

// PulpingResult is the water to add and what leaves the pulper.
type PulpingResult struct {
	WaterFlow    paperprop.MassFlow
	StockFlow    paperprop.MassFlow
	StockDryFlow paperprop.OvenDryFlow
	RejectFlow   paperprop.MassFlow
}

// Calculate closes the balance of stock and of dry matter over the pulper.
func (p Pulping) Calculate() (PulpingResult, error) { return pulping.Calculate(p) }

func (p Pulping) compute() (PulpingResult, error) {
	if p.Consistency <= p.WaterConsistency {
		return PulpingResult{}, calc.Refuse("consistency", p.Consistency, "above water-consistency %v", p.WaterConsistency)
	}
	if p.RejectRate > 0 && p.RejectDryness == 0 {
		return PulpingResult{}, calc.Refuse("reject-rate", p.RejectRate, "with it the reject-dryness")
	}
	bales := p.BaleFlow.In(paperprop.TonnePerHour)
	dry := bales * (1 - float64(p.BaleMoisture))
	r, c, water := float64(p.RejectRate), float64(p.Consistency), float64(p.WaterConsistency)
	var rejects float64
	if r != 0 {
		rejects = dry * r / float64(p.RejectDryness)
	}
	w := (dry*(1-r) - c*(bales-rejects)) / (c - water)
	if w < 0 {
		return PulpingResult{}, calc.Refuse("bale-moisture", p.BaleMoisture, "bales dry enough for a consistency of %v: no water is to be added", p.Consistency)
	}
	stock := bales + w - rejects
	return PulpingResult{
		WaterFlow:    paperprop.MassFlow(w) * paperprop.TonnePerHour,
		StockFlow:    paperprop.MassFlow(stock) * paperprop.TonnePerHour,
		StockDryFlow: paperprop.OvenDryFlow(stock*c) * paperprop.DryTonnePerHour,
		RejectFlow:   paperprop.MassFlow(rejects) * paperprop.TonnePerHour,
	}, nil
}

var pulping = &calc.Description[Pulping, PulpingResult]{
	Name:    "pulping",
	Title:   "Pulping of a flow of bales",
	Answers: "How much water turns bales into stock of a consistency, and what leaves as coarse rejects.",
	Formula: []string{
		"q_r = P_b*(1 - w_b)*r/d_r",
		"q_w = (P_b*(1 - w_b)*(1 - r) - c*(P_b - q_r))/(c - c_w)",
		"q = P_b + q_w - q_r",
		"q_d = q*c",
	},
	Source:  balance + " over the pulper",
	Status:  calc.CommonPractice,
	Example: "bale-flow=28 t/h; bale-moisture=10 %; reject-rate=6 %; reject-dryness=35 %; consistency=4.2 %",
	Mistakes: []string{
		"Bales bring water with them: their moisture counts against the water to add.",
		"Rejects leave wet: their dryness decides how much water goes with them.",
	},
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  Pulping.compute,
	Fields: func(f *calc.Form, in *Pulping, out *PulpingResult) {
		calc.In(f, &in.BaleFlow, "bale-flow", "P_b", "t/h", "bales as they come").Above(0)
		calc.In(f, &in.BaleMoisture, "bale-moisture", "w_b", "%", "of them").From(0).Below(100)
		calc.In(f, &in.RejectRate, "reject-rate", "r", "%", "coarse rejects over the bales, dry over dry").From(0).Below(100).Default(0)
		calc.In(f, &in.RejectDryness, "reject-dryness", "d_r", "%", "of the rejects, needed with a reject-rate").Above(0).Optional()
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of the accepted stock")
		calc.In(f, &in.WaterConsistency, "water-consistency", "c_w", "%", "of the water added").Default(0)
		calc.Out(f, &out.WaterFlow, "water-flow", "q_w", "t/h", "water to add")
		calc.Out(f, &out.StockFlow, "stock-flow", "q", "t/h", "accepted stock")
		calc.Out(f, &out.StockDryFlow, "stock-dry-flow", "q_d", "t/h", "dry matter in it, the water's included")
		calc.Out(f, &out.RejectFlow, "reject-flow", "q_r", "t/h", "rejects as they leave")
	},
}
