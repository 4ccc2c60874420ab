package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Evaporation is the water that the dryers evaporate.
type Evaporation struct {
	DrynessIn   paperprop.DryContent // web into the dryers: above zero, below that of the paper
	MoistureOut paperprop.Moisture   // paper at the reel, below 100 %
	PaperFlow   paperprop.MassFlow   // moist, above zero
}

// EvaporationResult is the water as a flow, per dry mass and per paper.
type EvaporationResult struct {
	Evaporation   paperprop.MassFlow
	DryFlow       paperprop.OvenDryFlow
	WaterPerDry   paperprop.MassRatio
	WaterPerPaper paperprop.MassRatio
}

// Calculate returns the evaporation P·(d_out/d_in − 1), with d_out = 1 − w_out.
func (e Evaporation) Calculate() (EvaporationResult, error) { return evaporation.Calculate(e) }

func (e Evaporation) compute() (EvaporationResult, error) {
	in, out, err := dries(e.DrynessIn, e.MoistureOut)
	if err != nil {
		return EvaporationResult{}, err
	}
	paper := e.PaperFlow.In(paperprop.TonnePerHour)
	return EvaporationResult{
		Evaporation:   paperprop.MassFlow(paper*(out/in-1)) * paperprop.TonnePerHour,
		DryFlow:       paperprop.OvenDryFlow(paper*out) * paperprop.DryTonnePerHour,
		WaterPerDry:   paperprop.MassRatio(1/in - 1/out),
		WaterPerPaper: paperprop.MassRatio(out/in - 1),
	}, nil
}

// dries returns the dryness before and after the dryers.
func dries(in paperprop.DryContent, moistureOut paperprop.Moisture) (before, after float64, err error) {
	before, after = float64(in), 1-float64(moistureOut)
	if result.Rest(after, before) <= 0 {
		err = calc.Refuse("dryness-in", in, "below that of the paper, %v", moistureOut.DryContent())
	}
	return before, after, err
}

// webThroughDryers binds the inputs that all balances over the dryers share.
func webThroughDryers(f *calc.Form, in *paperprop.DryContent, out *paperprop.Moisture) {
	calc.In(f, in, "dryness-in", "d_in", "%", "web into the dryers").Above(0).Below(100)
	calc.In(f, out, "moisture-out", "w_out", "%", "paper at the reel, wet basis").From(0).Below(100)
}

var evaporation = &calc.Description[Evaporation, EvaporationResult]{
	Name:    "evaporation",
	Title:   "Water evaporated in the dryers",
	Answers: "How much water the dryers take from a web that comes in wet and leaves as paper.",
	Formula: []string{"q_d = P*(1 - w_out)", "e_d = 1/d_in - 1/(1 - w_out)", "e_p = (1 - w_out)/d_in - 1", "q_e = P*e_p"},
	Source:  "balance of water and dry matter over the dryers",
	Status:  calc.CommonPractice,
	Example: "dryness-in=47.5 %; moisture-out=7.5 %; paper-flow=15.12 t/h",
	Mistakes: []string{
		"Per dry mass and per paper are different numbers.",
		"A point more dryness off the press saves about 4 % of the water: press-gain has the exact figure.",
	},
	Compute: Evaporation.compute,
	Fields: func(f *calc.Form, in *Evaporation, out *EvaporationResult) {
		webThroughDryers(f, &in.DrynessIn, &in.MoistureOut)
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/h", "moist, at moisture-out").Above(0)
		calc.Out(f, &out.Evaporation, "evaporation", "q_e", "t/h", "water evaporated")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "dry matter of the paper")
		calc.Out(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "per dry mass")
		calc.Out(f, &out.WaterPerPaper, "water-per-paper", "e_p", "kg/t", "per mass of paper at the reel")
	},
}

// EvaporationPerTonne is the water that the dryers evaporate per mass of paper.
type EvaporationPerTonne struct {
	DrynessIn   paperprop.DryContent // web into the dryers: above zero, below that of the paper
	MoistureOut paperprop.Moisture   // paper at the reel, below 100 %
}

// EvaporationPerTonneResult is the water in the web, and the part that is
// evaporated.
type EvaporationPerTonneResult struct {
	MoistureRatioIn, MoistureRatioOut paperprop.MoistureRatio
	WaterPerDry, WaterPerPaper        paperprop.MassRatio
}

// Calculate returns the evaporation u_in − u_out, per dry mass and per paper at the
// reel.
func (e EvaporationPerTonne) Calculate() (EvaporationPerTonneResult, error) {
	return evaporationPerTonne.Calculate(e)
}

func (e EvaporationPerTonne) compute() (EvaporationPerTonneResult, error) {
	in, out, err := dries(e.DrynessIn, e.MoistureOut)
	return EvaporationPerTonneResult{
		MoistureRatioIn:  paperprop.MoistureRatio((1 - in) / in),
		MoistureRatioOut: paperprop.MoistureRatio(float64(e.MoistureOut) / out),
		WaterPerDry:      paperprop.MassRatio(1/in - 1/out),
		WaterPerPaper:    paperprop.MassRatio(out/in - 1),
	}, err
}

var evaporationPerTonne = &calc.Description[EvaporationPerTonne, EvaporationPerTonneResult]{
	Name:    "evaporation-per-tonne",
	Title:   "Water evaporated per tonne",
	Answers: "How much water the dryers take for each tonne of paper, and for each of dry matter.",
	Formula: []string{"u_in = (1 - d_in)/d_in", "u_out = w_out/(1 - w_out)", "e_d = u_in - u_out", "e_p = e_d*(1 - w_out)"},
	Source:  "balance of water and dry matter over the dryers",
	Status:  calc.CommonPractice,
	Example: "dryness-in=47.5 %; moisture-out=7.5 %",
	Mistakes: []string{
		"Moisture is water over all, moisture ratio water over dry: a web of 50 % has a ratio of 1.",
		"Per dry mass and per paper differ by the dryness of the paper: 8 % at 8 % moisture.",
	},
	Compute: EvaporationPerTonne.compute,
	Fields: func(f *calc.Form, in *EvaporationPerTonne, out *EvaporationPerTonneResult) {
		webThroughDryers(f, &in.DrynessIn, &in.MoistureOut)
		calc.Out(f, &out.MoistureRatioIn, "moisture-ratio-in", "u_in", "kg/kg", "water over dry mass, before")
		calc.Out(f, &out.MoistureRatioOut, "moisture-ratio-out", "u_out", "kg/kg", "water over dry mass, after")
		calc.Out(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "evaporated, per dry mass")
		calc.Out(f, &out.WaterPerPaper, "water-per-paper", "e_p", "kg/t", "evaporated, per mass of paper at the reel")
	},
}

// SizePressEvaporation is the water that the dryers before and after a size press
// evaporate, per area of paper at the reel.
type SizePressEvaporation struct {
	Grammage       paperprop.Grammage        // paper at the reel, above zero
	MoistureOut    paperprop.Moisture        // of the paper at the reel, below 100 %
	PickUpGrammage paperprop.OvenDryGrammage // dry starch, both sides together, below the dry paper
	Solids         paperprop.DryContent      // of the size, above zero
	DrynessIn      paperprop.DryContent      // web off the presses, above zero
	SizeMoistureIn paperprop.Moisture        // of the WEB before the size press, below 100 %
}

// SizePressEvaporationResult is the water of both sections.
type SizePressEvaporationResult struct {
	BaseDryGrammage paperprop.OvenDryGrammage // web without pick-up
	SizeMoistureOut paperprop.Moisture        // of the web after the size press
	PreDryerWater   paperprop.Grammage
	AfterDryerWater paperprop.Grammage
	WaterPerPaper   paperprop.MassRatio

	SizedWater paperprop.Grammage // in the web after the size press
}

// Calculate balances dry matter and water from the presses to the reel. Shrinkage
// is neglected.
func (s SizePressEvaporation) Calculate() (SizePressEvaporationResult, error) {
	return sizePressEvaporation.Calculate(s)
}

func (s SizePressEvaporation) compute() (SizePressEvaporationResult, error) {
	g, out := s.Grammage.In(paperprop.GramPerSquareMetre), float64(s.MoistureOut)
	starch, solids := s.PickUpGrammage.In(paperprop.DryGramPerSquareMetre), float64(s.Solids)
	in, before := float64(s.DrynessIn), float64(s.SizeMoistureIn)
	base := result.Rest(g*(1-out), starch)
	if base <= 0 {
		return SizePressEvaporationResult{}, calc.Refuse("pick-up-grammage", s.PickUpGrammage, "below the dry grammage of the paper, %v", s.Grammage.OvenDry(s.MoistureOut.DryContent()))
	}
	if result.Rest(1-before, in) <= 0 {
		return SizePressEvaporationResult{}, calc.Refuse("dryness-in", s.DrynessIn, "below that before the size press, %v", s.SizeMoistureIn.DryContent())
	}
	web, brought := base*before/(1-before), starch*(1-solids)/solids // water, g/m²
	pre, after := base*(1/in-1/(1-before)), result.Rest(web+brought, g*out)
	r := SizePressEvaporationResult{
		BaseDryGrammage: paperprop.OvenDryGrammage(base) * paperprop.DryGramPerSquareMetre,
		SizeMoistureOut: paperprop.Moisture((web + brought) / (base + starch + web + brought)),
		PreDryerWater:   paperprop.Grammage(pre) * paperprop.GramPerSquareMetre,
		AfterDryerWater: paperprop.Grammage(after) * paperprop.GramPerSquareMetre,
		WaterPerPaper:   paperprop.MassRatio((pre + after) / g),
		SizedWater:      paperprop.Grammage(web+brought) * paperprop.GramPerSquareMetre,
	}
	if after < 0 {
		return r, calc.Refuse("after-dryer-water", r.AfterDryerWater, "0 g/m2 or more: the web would leave the size press drier than the paper at the reel")
	}
	return r, nil
}

var sizePressEvaporation = &calc.Description[SizePressEvaporation, SizePressEvaporationResult]{
	Name:    "size-press-evaporation",
	Title:   "Water evaporated before and after a size press",
	Answers: "How much water the dryers before and after a size press take, and how wet the web leaves it.",
	Formula: []string{
		"g_b = g*(1 - w_out) - c_d",
		"g_e1 = g_b*(1/d_in - 1/(1 - w_a))",
		"g_a = g_b*w_a/(1 - w_a) + c_d*(1 - s)/s",
		"g_e2 = g_a - g*w_out",
		"w_b = g_a/(g_b + c_d + g_a)",
		"e_p = (g_e1 + g_e2)/g",
	},
	Source:  "balance of water and dry matter over both dryer sections",
	Status:  calc.CommonPractice,
	Example: "grammage=120 g/m2; moisture-out=7.5 %; pick-up-grammage=4.29 g/m2; solids=9.5 %; dryness-in=47.5 %; size-moisture-in=4 %",
	Mistakes: []string{
		"The dry starch is part of the grammage at the reel: the web before the size press is lighter.",
		"Size at 8 % solids brings 11.5 kg of water with each kg of starch, at 12 % it brings 7.3 kg.",
		"The moisture before the size press is that of the web, not of the size.",
	},
	Compute: SizePressEvaporation.compute,
	Fields: func(f *calc.Form, in *SizePressEvaporation, out *SizePressEvaporationResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "paper at the reel, at moisture-out").Above(0)
		calc.In(f, &in.MoistureOut, "moisture-out", "w_out", "%", "paper at the reel, wet basis").From(0).Below(100)
		calc.In(f, &in.PickUpGrammage, "pick-up-grammage", "c_d", "g/m2", "dry starch on both sides together").From(0)
		calc.In(f, &in.Solids, "solids", "s", "%", "of the size").Above(0)
		calc.In(f, &in.DrynessIn, "dryness-in", "d_in", "%", "web off the presses").Above(0).Below(100)
		calc.In(f, &in.SizeMoistureIn, "size-moisture-in", "w_a", "%", "of the WEB before the size press, wet basis").From(0).Below(100)
		calc.Out(f, &out.BaseDryGrammage, "base-dry-grammage", "g_b", "g/m2", "dry web without pick-up")
		calc.Out(f, &out.SizeMoistureOut, "size-moisture-out", "w_b", "%", "web after the size press, wet basis")
		calc.Out(f, &out.PreDryerWater, "pre-dryer-water", "g_e1", "g/m2", "evaporated before the size press, per area at the reel")
		calc.Out(f, &out.AfterDryerWater, "after-dryer-water", "g_e2", "g/m2", "evaporated after it, per area at the reel")
		calc.Out(f, &out.WaterPerPaper, "water-per-paper", "e_p", "kg/t", "both, per mass of paper at the reel")
		calc.Between(f, &out.SizedWater, "g_a", "g/m2", "water after the size press")
	},
}
