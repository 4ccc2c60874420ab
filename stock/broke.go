package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Broke is the repulping of paper that comes back from the machine.
type Broke struct {
	PaperFlow   paperprop.MassFlow    // off the machine, as it is there, above zero
	Moisture    paperprop.Moisture    // of the paper, below 100 %
	BrokeRate   paperprop.Fraction    // of PaperFlow that is pulped again; 100 % in a break
	Consistency paperprop.Consistency // in the broke pulper: above zero, at most 1 − Moisture
}

// BrokeResult is the broke, the water to pulp it and the stock it makes.
type BrokeResult struct {
	BrokeFlow paperprop.MassFlow // as it is
	DryFlow   paperprop.OvenDryFlow
	WaterFlow paperprop.MassFlow // clean water to pulp it
	StockFlow paperprop.MassFlow
}

// Calculate returns the broke flow P·r_b, its dry matter, and the stock it makes.
func (b Broke) Calculate() (BrokeResult, error) { return broke.Calculate(b) }

func (b Broke) compute() (BrokeResult, error) {
	dryness, c := 1-float64(b.Moisture), float64(b.Consistency)
	excess := result.Rest(1, float64(b.Moisture)+c) // of dryness over consistency
	if excess < 0 {
		return BrokeResult{}, calc.Refuse("consistency", b.Consistency, "at most the dryness of the paper, %v", b.Moisture.DryContent())
	}
	paper := b.PaperFlow.In(paperprop.TonnePerHour) * float64(b.BrokeRate)
	return BrokeResult{
		BrokeFlow: paperprop.MassFlow(paper) * paperprop.TonnePerHour,
		DryFlow:   paperprop.OvenDryFlow(paper*dryness) * paperprop.DryTonnePerHour,
		WaterFlow: paperprop.MassFlow(paper*excess/c) * paperprop.TonnePerHour,
		StockFlow: paperprop.MassFlow(paper*dryness/c) * paperprop.TonnePerHour,
	}, nil
}

var broke = &calc.Description[Broke, BrokeResult]{
	Name:    "broke",
	Title:   "Pulping of broke",
	Answers: "How much stock the broke of a machine becomes, and the water for it.",
	Formula: []string{"P_b = P*r_b", "q_d = P_b*(1 - w)", "q_w = q_d/c - P_b", "q = P_b + q_w"},
	Source:  balance + " over the broke pulper",
	Status:  calc.CommonPractice,
	Example: "paper-flow=15.12 t/h; moisture=7.5 %; broke-rate=6 %; consistency=4.0 %",
	Mistakes: []string{
		"The broke pulper is sized by the break, a broke-rate of 100 %, not by the mean.",
		"Broke of the wet end is not paper: off the press it is more water than fibre.",
	},
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  Broke.compute,
	Fields: func(f *calc.Form, in *Broke, out *BrokeResult) {
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/h", "off the machine, as it is there").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of it").Below(100)
		calc.In(f, &in.BrokeRate, "broke-rate", "r_b", "%", "of paper-flow that is pulped again, 100 % in a web break").From(0).UpTo(100)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "in the broke pulper").Above(0)
		calc.Out(f, &out.BrokeFlow, "broke-flow", "P_b", "t/h", "as it is")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "dry matter in it")
		calc.Out(f, &out.WaterFlow, "water-flow", "q_w", "t/h", "clean water to pulp it")
		calc.Out(f, &out.StockFlow, "stock-flow", "q", "t/h", "broke stock; how long a chest takes it: chest-time")
	},
}
