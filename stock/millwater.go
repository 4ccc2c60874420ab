package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// MillWater is the water balance of a whole mill.
type MillWater struct {
	FreshVolumeFlow paperprop.VolumeFlow // fresh water, zero or more
	BaleFlow        paperprop.MassFlow   // as received, zero or more
	BaleMoisture    paperprop.Moisture   // below 100 %
	Evaporation     paperprop.MassFlow   // of the whole mill, zero or more
	PaperFlow       paperprop.MassFlow   // at the reel, above zero
	PaperMoisture   paperprop.Moisture   // below 100 %
	RejectWaterFlow paperprop.MassFlow   // water that leaves with rejects and sludge; zero is none
	WaterDensity    paperprop.Density    // of fresh water and effluent; zero stands for 1000 kg/m³
}

// MillWaterResult is the effluent, and fresh water and effluent per tonne of paper.
type MillWaterResult struct {
	EffluentVolumeFlow paperprop.VolumeFlow
	FreshPerPaper      paperprop.SpecificVolume
	EffluentPerPaper   paperprop.SpecificVolume
}

// Calculate returns the effluent: the water that comes in and does not leave any
// other way. It is an error if that is below zero.
func (m MillWater) Calculate() (MillWaterResult, error) { return millWater.Calculate(m) }

func (m MillWater) compute() (MillWaterResult, error) {
	density := m.WaterDensity.In(paperprop.GramPerCubicCentimetre) // t/m³
	fresh, paper := m.FreshVolumeFlow.In(paperprop.CubicMetrePerDay), m.PaperFlow.In(paperprop.TonnePerDay)
	in := fresh*density + m.BaleFlow.In(paperprop.TonnePerDay)*float64(m.BaleMoisture)
	out := m.Evaporation.In(paperprop.TonnePerDay) + paper*float64(m.PaperMoisture) + m.RejectWaterFlow.In(paperprop.TonnePerDay)
	effluent := result.Rest(in, out) / density
	if effluent < 0 {
		return MillWaterResult{}, calc.Refuse("effluent-volume-flow", paperprop.VolumeFlow(effluent)*paperprop.CubicMetrePerDay,
			"%v or more: more water leaves than comes", paperprop.VolumeFlow(0))
	}
	return MillWaterResult{
		EffluentVolumeFlow: paperprop.VolumeFlow(effluent) * paperprop.CubicMetrePerDay,
		FreshPerPaper:      paperprop.SpecificVolume(fresh/paper) * paperprop.CubicMetrePerTonne,
		EffluentPerPaper:   paperprop.SpecificVolume(effluent/paper) * paperprop.CubicMetrePerTonne,
	}, nil
}

var millWater = &calc.Description[MillWater, MillWaterResult]{
	Name:    "mill-water",
	Title:   "Water balance of a mill",
	Answers: "How much effluent a mill gives, and how much fresh water and effluent that is per tonne of paper.",
	Formula: []string{
		"Q_e = (Q_0*rho_w + P_b*w_b - q_e - P*w - q_r)/rho_w",
		"v_0 = Q_0/P",
		"v_e = Q_e/P",
	},
	Source: "balance of water over the mill, of that in starch and chemicals too if it is counted as fresh",
	Status: calc.CommonPractice,
	Example: "fresh-volume-flow=2580 m3/d; bale-flow=371.8 t/d; bale-moisture=11.5 %; evaporation=453.1 t/d; " +
		"paper-flow=362.9 t/d; paper-moisture=7.5 %; reject-water-flow=418.4 t/d",
	Mistakes: []string{
		"Effluent is less than fresh water: evaporation alone takes more than a tonne per tonne of paper.",
		"Per paper at the reel and per paper sold are two numbers: 6 % broke makes 6.4 %.",
	},
	Compute: MillWater.compute,
	Fields: func(f *calc.Form, in *MillWater, out *MillWaterResult) {
		calc.In(f, &in.FreshVolumeFlow, "fresh-volume-flow", "Q_0", "m3/d", "fresh water").From(0)
		calc.In(f, &in.BaleFlow, "bale-flow", "P_b", "t/d", "bales as they come").From(0)
		calc.In(f, &in.BaleMoisture, "bale-moisture", "w_b", "%", "of them").From(0).Below(100)
		calc.In(f, &in.Evaporation, "evaporation", "q_e", "t/d", "of the whole mill").From(0)
		paperMade(f, &in.PaperFlow, &in.PaperMoisture)
		calc.In(f, &in.RejectWaterFlow, "reject-water-flow", "q_r", "t/d", "water that leaves with rejects and sludge").From(0).Default(0)
		calc.In(f, &in.WaterDensity, "water-density", "rho_w", "kg/m3", "of fresh water and effluent").Above(0).Default(1000)
		calc.Out(f, &out.EffluentVolumeFlow, "effluent-volume-flow", "Q_e", "m3/d", "what is left of the water")
		calc.Out(f, &out.FreshPerPaper, "fresh-per-paper", "v_0", "m3/t", "fresh water per paper at the reel")
		calc.Out(f, &out.EffluentPerPaper, "effluent-per-paper", "v_e", "m3/t", "effluent per paper at the reel")
	},
}

func paperMade(f *calc.Form, paper *paperprop.MassFlow, moisture *paperprop.Moisture) {
	calc.In(f, paper, "paper-flow", "P", "t/d", "at the reel").Above(0)
	calc.In(f, moisture, "paper-moisture", "w", "%", "of that paper").From(0).Below(100)
}

// BuildUp is the build-up of dissolved matter in the water of a mill.
type BuildUp struct {
	LoadPerPaper     paperprop.Dosage         // dissolved matter released per paper, zero or more
	EffluentPerPaper paperprop.SpecificVolume // above zero
	OtherExitShare   paperprop.Fraction       // of the load: what leaves with paper or rejects, or decays; below 100 %, zero is none
}

// BuildUpResult is the concentration that the water of the loop reaches.
type BuildUpResult struct {
	Concentration paperprop.Concentration // steady
	Warnings      calc.Warnings
}

// Calculate returns the concentration z_l(1 − x_o)/v_e.
func (b BuildUp) Calculate() (BuildUpResult, error) { return buildUp.Calculate(b) }

var noOtherExit = calc.Warnings{{Code: "upper-bound", Text: "without an other-exit-share the concentration is an upper bound: " +
	"some of the load leaves with paper and rejects, some decays"}}

func (b BuildUp) compute() (BuildUpResult, error) {
	load, effluent := b.LoadPerPaper.In(paperprop.KilogramPerTonne), b.EffluentPerPaper.In(paperprop.CubicMetrePerTonne)
	r := BuildUpResult{Concentration: paperprop.Concentration(load*(1-float64(b.OtherExitShare))/effluent) * paperprop.GramPerLitre}
	if b.OtherExitShare == 0 {
		r.Warnings = noOtherExit
	}
	return r, nil
}

var buildUp = &calc.Description[BuildUp, BuildUpResult]{
	Name:    "build-up",
	Title:   "Build-up of dissolved matter in closed water",
	Answers: "How much dissolved matter the water of a mill holds in the end, for the effluent that it still gives.",
	Formula: []string{"C = z_l*(1 - x_o)/v_e"},
	Source:  "balance of dissolved matter over a steady, mixed loop",
	Status:  calc.CommonPractice,
	Example: "load-per-paper=12 kg/t; effluent-per-paper=4.75 m3/t; other-exit-share=10 %",
	Mistakes: []string{
		"Concentration goes with one over the effluent: from 5 to 4 m3/t it rises by a quarter, from 2 to 1 m3/t it doubles.",
		"Water in the paper carries dissolved matter out too: count it in the other exits.",
	},
	Compute: BuildUp.compute,
	Fields: func(f *calc.Form, in *BuildUp, out *BuildUpResult) {
		calc.In(f, &in.LoadPerPaper, "load-per-paper", "z_l", "kg/t", "dissolved matter released per paper").From(0)
		calc.In(f, &in.EffluentPerPaper, "effluent-per-paper", "v_e", "m3/t", "from mill-water").Above(0)
		calc.In(f, &in.OtherExitShare, "other-exit-share", "x_o", "%", "of the load, with paper, rejects or by decay").From(0).Below(100).Default(0)
		calc.Out(f, &out.Concentration, "concentration", "C", "mg/L", "in the closed loop, steady")
		f.Warnings(&out.Warnings)
	},
}

// EffluentLoad is the load that an effluent carries.
type EffluentLoad struct {
	VolumeFlow    paperprop.VolumeFlow    // of effluent, zero or more
	Concentration paperprop.Concentration // in it, zero or more
	PaperFlow     paperprop.MassFlow      // at the reel, above zero
	PaperMoisture paperprop.Moisture      // below 100 %
}

// EffluentLoadResult is that load, in itself and per paper.
type EffluentLoadResult struct {
	LoadFlow     paperprop.MassFlow
	LoadPerPaper paperprop.Dosage
	LoadShare    paperprop.Fraction // of the dry paper
}

// Calculate returns the load Q·C, and that per paper and per dry paper.
func (e EffluentLoad) Calculate() (EffluentLoadResult, error) { return effluentLoad.Calculate(e) }

func (e EffluentLoad) compute() (EffluentLoadResult, error) {
	load := e.VolumeFlow.In(paperprop.CubicMetrePerDay) * e.Concentration.In(paperprop.GramPerLitre) // kg/d
	perPaper := load / e.PaperFlow.In(paperprop.TonnePerDay)                                         // kg/t
	return EffluentLoadResult{
		LoadFlow:     paperprop.MassFlow(load/1000) * paperprop.TonnePerDay,
		LoadPerPaper: paperprop.Dosage(perPaper) * paperprop.KilogramPerTonne,
		LoadShare:    paperprop.Fraction(perPaper / (1000 * (1 - float64(e.PaperMoisture)))),
	}, nil
}

var effluentLoad = &calc.Description[EffluentLoad, EffluentLoadResult]{
	Name:    "effluent-load",
	Title:   "Load of an effluent",
	Answers: "How much of something (COD, BOD, AOX) an effluent carries, per day and per tonne of paper.",
	Formula: []string{"q_l = Q*C", "z_l = q_l/P", "x_l = q_l/(P*(1 - w))"},
	Source:  "definition of the load",
	Status:  calc.CommonPractice,
	Example: "volume-flow=1726 m3/d; concentration=1924 mg/L; paper-flow=362.9 t/d; paper-moisture=7.5 %",
	Mistakes: []string{
		"A lower concentration is not a lower load where more water thins it.",
		"Per paper and per dry paper are two numbers; permits and loss of solids don't use the same.",
	},
	Compute: EffluentLoad.compute,
	Fields: func(f *calc.Form, in *EffluentLoad, out *EffluentLoadResult) {
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "m3/d", "of effluent").From(0)
		calc.In(f, &in.Concentration, "concentration", "C", "mg/L", "in it").From(0)
		paperMade(f, &in.PaperFlow, &in.PaperMoisture)
		calc.Out(f, &out.LoadFlow, "load-flow", "q_l", "t/d", "in all")
		calc.Out(f, &out.LoadPerPaper, "load-per-paper", "z_l", "kg/t", "per paper at the reel")
		calc.Out(f, &out.LoadShare, "load-share", "x_l", "%", "of the dry paper, for solids lost")
	},
}
