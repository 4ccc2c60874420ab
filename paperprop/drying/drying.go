// Package drying calculates the dry end: water to evaporate and the rate at
// which cylinders take it.
package drying

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Calculations lists what the package calculates.
func Calculations() []calc.Calculation {
	return []calc.Calculation{evaporation, dryingRate}
}

// Evaporation is the water that the dryers take.
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

// Calculate returns P·(d_out/d_in − 1), with d_out = 1 − w_out.
func (e Evaporation) Calculate() (EvaporationResult, error) { return evaporation.Calculate(e) }

func (e Evaporation) compute() (EvaporationResult, error) {
	in, out := float64(e.DrynessIn), 1-float64(e.MoistureOut)
	if in >= out {
		return EvaporationResult{}, calc.Refuse("dryness-in", e.DrynessIn, "below that of the paper, %v", paperprop.DryContent(out))
	}
	paper := e.PaperFlow.In(paperprop.TonnePerHour)
	return EvaporationResult{
		Evaporation:   paperprop.MassFlow(paper*(out/in-1)) * paperprop.TonnePerHour,
		DryFlow:       paperprop.OvenDryFlow(paper*out) * paperprop.DryTonnePerHour,
		WaterPerDry:   paperprop.MassRatio(1/in - 1/out),
		WaterPerPaper: paperprop.MassRatio(out/in - 1),
	}, nil
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
		"One point more dryness after the press saves about 4 % of the water (common practice, no source).",
	},
	Compute: Evaporation.compute,
	Fields: func(f *calc.Form, in *Evaporation, out *EvaporationResult) {
		calc.In(f, &in.DrynessIn, "dryness-in", "d_in", "%", "web into the dryers").Above(0)
		calc.In(f, &in.MoistureOut, "moisture-out", "w_out", "%", "paper at the reel, wet basis").From(0).Below(100)
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/h", "moist, at moisture-out").Above(0)
		calc.Out(f, &out.Evaporation, "evaporation", "q_e", "t/h", "water evaporated")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "dry matter of the paper")
		calc.Out(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "per dry mass")
		calc.Out(f, &out.WaterPerPaper, "water-per-paper", "e_p", "kg/t", "per mass of paper at the reel")
	},
}

// Rate is the evaporation that a surface of cylinders bears.
type Rate struct {
	Evaporation paperprop.MassFlow // above zero
	Cylinders   paperprop.Count    // steam-heated and touching the sheet: whole, from 1
	Diameter    paperprop.Length   // of a cylinder, above zero
	SheetWidth  paperprop.Length   // at the reel, above zero
}

// RateResult is the surface and the rate on it.
type RateResult struct {
	DryingSurface paperprop.Area // full circumference
	DryingRate    paperprop.MassFlux
}

// Calculate returns q_e over the full circumference of all cylinders.
func (r Rate) Calculate() (RateResult, error) { return dryingRate.Calculate(r) }

func (r Rate) compute() (RateResult, error) {
	surface := float64(r.Cylinders) * math.Pi * r.Diameter.In(paperprop.Metre) * r.SheetWidth.In(paperprop.Metre) // m²
	return RateResult{
		DryingSurface: paperprop.Area(surface) * paperprop.SquareMetre,
		DryingRate:    paperprop.MassFlux(r.Evaporation.In(paperprop.KilogramPerHour)/surface) * paperprop.KilogramPerHourSquareMetre,
	}, nil
}

var dryingRate = &calc.Description[Rate, RateResult]{
	Name:    "drying-rate",
	Title:   "Drying rate of a cylinder section",
	Answers: "How much water an hour a square metre of cylinder takes.",
	Formula: []string{"A = n*pi*D*b", "R = q_e/A"},
	Source:  "definition published in TAPPI TIP 0404-07",
	Status:  calc.Published,
	Example: "evaporation=14300 kg/h; cylinders=32; diameter=1.8 m; sheet-width=3.36 m",
	Mistakes: []string{
		"The surface is the full circumference, not the part that the sheet touches.",
		"Not for machines with infrared or impingement drying; report it with the mean steam temperature.",
	},
	Compute: Rate.compute,
	Fields: func(f *calc.Form, in *Rate, out *RateResult) {
		calc.In(f, &in.Evaporation, "evaporation", "q_e", "kg/h", "water evaporated").Above(0)
		calc.In(f, &in.Cylinders, "cylinders", "n", "1", "steam-heated and touching the sheet").From(1)
		calc.In(f, &in.Diameter, "diameter", "D", "m", "of a cylinder").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "b", "m", "at the reel").Above(0)
		calc.Out(f, &out.DryingSurface, "drying-surface", "A", "m2", "full circumference")
		calc.Out(f, &out.DryingRate, "drying-rate", "R", "kg/(h m2)", "on the full circumference")
	},
}
