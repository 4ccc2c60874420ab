package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// PickUp is the solution that a sheet takes up in a size press, from the dryness
// before and after it.
type PickUp struct {
	DrynessIn  paperprop.DryContent // of the base sheet into the nip
	DrynessOut paperprop.DryContent // out of it, before any drying: above Solids, below DrynessIn
	Solids     paperprop.DryContent // of the solution, above zero
}

// PickUpResult is the pick-up, and its sensitivity to an error in the dryness.
type PickUpResult struct {
	WetPickUp     paperprop.Dosage   // solution per dry base
	DryPickUp     paperprop.Dosage   // per dry base
	AddedDryShare paperprop.Fraction // of the dry sized sheet
	Sensitivity   paperprop.Fraction // relative change of both pick-ups for a DrynessOut one point higher; negative
}

// Calculate returns the wet pick-up (1 − d_out/d_in)/(d_out − s) and what follows
// from it.
func (p PickUp) Calculate() (PickUpResult, error) { return pickUp.Calculate(p) }

func (p PickUp) compute() (PickUpResult, error) {
	wet, err := takenUp(p.DrynessIn, p.DrynessOut, p.Solids)
	dry := wet * float64(p.Solids)
	return PickUpResult{
		WetPickUp:     paperprop.Dosage(wet) * paperprop.DosageKilogramPerKilogram,
		DryPickUp:     paperprop.Dosage(dry) * paperprop.DosageKilogramPerKilogram,
		AddedDryShare: paperprop.Fraction(dry / (1 + dry)),
		Sensitivity:   paperprop.Fraction(-0.01 * (1/float64(p.DrynessIn-p.DrynessOut) + 1/float64(p.DrynessOut-p.Solids))),
	}, err
}

// takenUp returns the solution per dry base sheet.
func takenUp(in, out, solids paperprop.DryContent) (float64, error) {
	if out <= solids || out >= in {
		return 0, calc.Refuse("dryness-out", out, "above solids %v and below dryness-in %v", solids, in)
	}
	return float64(in-out) / float64(in) / float64(out-solids), nil
}

const sizePressBalance = "balance of water and of dry matter over the size press, nothing evaporated in it"

var pickUp = &calc.Description[PickUp, PickUpResult]{
	Name:    "pick-up",
	Title:   "Pick-up in a size press",
	Answers: "How much solution and how much starch a sheet takes up (its uptake), from its dryness before and after the nip.",
	Formula: []string{
		"w_p = (1 - d_out/d_in)/(d_out - s)",
		"z_p = w_p*s",
		"x_a = z_p/(1 + z_p)",
		"k_d = -0.01*(1/(d_in - d_out) + 1/(d_out - s))",
	},
	Source:  sizePressBalance,
	Status:  calc.CommonPractice,
	Example: "dryness-in=96 %; dryness-out=71 %; solids=9.5 %",
	Mistakes: []string{
		"All depends on the dryness after the nip: one point of it moves the pick-up by about 6 % of its value.",
		"Per dry base sheet and over the sized sheet are two numbers: 40.2 kg/t is a share of 3.87 %.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine, &calc.Steam},
	Compute:  PickUp.compute,
	Fields: func(f *calc.Form, in *PickUp, out *PickUpResult) {
		drynessAtSizePress(f, &in.DrynessIn, &in.DrynessOut, &in.Solids)
		calc.Out(f, &out.WetPickUp, "wet-pick-up", "w_p", "kg/t", "solution per dry base")
		calc.Out(f, &out.DryPickUp, "dry-pick-up", "z_p", "kg/t", "per dry base, both sides")
		calc.Out(f, &out.AddedDryShare, "added-dry-share", "x_a", "%", "of the dry sized sheet")
		calc.Out(f, &out.Sensitivity, "sensitivity", "k_d", "%", "change of both pick-ups, relative, for one point more dryness-out")
	},
}

func drynessAtSizePress(f *calc.Form, in, out, solids *paperprop.DryContent) {
	calc.In(f, in, "dryness-in", "d_in", "%", "of the base sheet into the nip")
	calc.In(f, out, "dryness-out", "d_out", "%", "out of it, before any drying")
	calc.In(f, solids, "solids", "s", "%", "of the solution").Above(0)
}

// PickUpGrammage is a pick-up as grammage.
type PickUpGrammage struct {
	BaseDryGrammage paperprop.OvenDryGrammage // of the sheet before, above zero
	DryPickUp       paperprop.Dosage          // per dry base, both sides, zero or more
}

// PickUpGrammageResult is the added grammage, and that of the sized sheet.
type PickUpGrammageResult struct {
	PickUpGrammage   paperprop.OvenDryGrammage
	SizedDryGrammage paperprop.OvenDryGrammage
}

// Calculate returns the added grammage g_b·z_p, and the sized sheet's g_b(1 + z_p).
func (p PickUpGrammage) Calculate() (PickUpGrammageResult, error) { return pickUpGrammage.Calculate(p) }

func (p PickUpGrammage) compute() (PickUpGrammageResult, error) {
	base := p.BaseDryGrammage.In(paperprop.DryGramPerSquareMetre)
	added := base * p.DryPickUp.In(paperprop.DosageKilogramPerKilogram)
	return PickUpGrammageResult{
		PickUpGrammage:   paperprop.OvenDryGrammage(added) * paperprop.DryGramPerSquareMetre,
		SizedDryGrammage: paperprop.OvenDryGrammage(base+added) * paperprop.DryGramPerSquareMetre,
	}, nil
}

var pickUpGrammage = &calc.Description[PickUpGrammage, PickUpGrammageResult]{
	Name:    "pick-up-grammage",
	Title:   "Pick-up per area",
	Answers: "How many grams of dry starch a square metre took up (its uptake), and what it weighs with them.",
	Formula: []string{"g_p = g_b*z_p", "g_s = g_b + g_p"},
	Source:  "definition of the pick-up",
	Status:  calc.CommonPractice,
	Example: "base-dry-grammage=106.71 g/m2; dry-pick-up=40.23 kg/t",
	Mistakes: []string{
		"The base is the dry sheet before the size press: on 120 g/m2 as sold 40.23 kg/t would give 4.83 in place of 4.29 g/m2.",
		"Both sides together: one side has about half.",
	},
	Compute: PickUpGrammage.compute,
	Fields: func(f *calc.Form, in *PickUpGrammage, out *PickUpGrammageResult) {
		calc.In(f, &in.BaseDryGrammage, "base-dry-grammage", "g_b", "g/m2", "of the sheet before").Above(0)
		calc.In(f, &in.DryPickUp, "dry-pick-up", "z_p", "kg/t", "per dry base, both sides").From(0)
		calc.Out(f, &out.PickUpGrammage, "pick-up-grammage", "g_p", "g/m2", "dry, both sides")
		calc.Out(f, &out.SizedDryGrammage, "sized-dry-grammage", "g_s", "g/m2", "dry, of the sheet after")
	},
}

// PickUpEvaporation is the water that the dryers after a size press must evaporate.
type PickUpEvaporation struct {
	DrynessIn     paperprop.DryContent // of the base sheet into the nip
	DrynessOut    paperprop.DryContent // out of it: above Solids, below DrynessIn
	Solids        paperprop.DryContent // of the solution, above zero
	PaperMoisture paperprop.Moisture   // at the reel, at most that out of the nip
}

// PickUpEvaporationResult is that water, and the pick-up per paper.
type PickUpEvaporationResult struct {
	WaterPerDry       paperprop.MassRatio // per dry base
	DryPickUpPerPaper paperprop.Dosage    // per paper as it is at the reel
}

// Calculate returns the water (1 + z_p)(1/d_out − 1/(1 − w)) per dry base, and the
// pick-up z_p(1 − w)/(1 + z_p) per paper.
func (p PickUpEvaporation) Calculate() (PickUpEvaporationResult, error) {
	return pickUpEvaporation.Calculate(p)
}

func (p PickUpEvaporation) compute() (PickUpEvaporationResult, error) {
	wet, err := takenUp(p.DrynessIn, p.DrynessOut, p.Solids)
	if err != nil {
		return PickUpEvaporationResult{}, err
	}
	out, paper := float64(p.DrynessOut), 1-float64(p.PaperMoisture)
	drier := result.Rest(paper, out)
	if drier < 0 {
		return PickUpEvaporationResult{}, calc.Refuse("paper-moisture", p.PaperMoisture,
			"at most %v, that out of the nip", paperprop.Moisture(1-out))
	}
	dry := wet * float64(p.Solids)
	return PickUpEvaporationResult{
		WaterPerDry:       paperprop.MassRatio((1 + dry) * drier / (out * paper)),
		DryPickUpPerPaper: paperprop.Dosage(dry*paper/(1+dry)) * paperprop.DosageKilogramPerKilogram,
	}, nil
}

var pickUpEvaporation = &calc.Description[PickUpEvaporation, PickUpEvaporationResult]{
	Name:    "pick-up-evaporation",
	Title:   "Water to evaporate after a size press",
	Answers: "How much water the dryers after the size press must take, and how much starch is in the paper.",
	Formula: []string{
		"w_p = (1 - d_out/d_in)/(d_out - s)",
		"z_p = w_p*s",
		"e_d = (1 + z_p)*(1/d_out - 1/(1 - w))",
		"z_r = z_p*(1 - w)/(1 + z_p)",
	},
	Source:  sizePressBalance,
	Status:  calc.CommonPractice,
	Example: "dryness-in=96 %; dryness-out=71 %; solids=9.5 %; paper-moisture=7.5 %",
	Mistakes: []string{
		"Thicker solution saves steam: at one dry pick-up of 40 kg/t, 12 % brings 23 % less water than 9.5 %.",
		"Per dry base and per paper are two bases: 40.2 kg/t on the base is 35.8 kg/t of paper at 7.5 % moisture.",
	},
	Compute: PickUpEvaporation.compute,
	Fields: func(f *calc.Form, in *PickUpEvaporation, out *PickUpEvaporationResult) {
		drynessAtSizePress(f, &in.DrynessIn, &in.DrynessOut, &in.Solids)
		calc.In(f, &in.PaperMoisture, "paper-moisture", "w", "%", "at the reel")
		calc.Out(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "to evaporate after the press, per dry base")
		calc.Out(f, &out.DryPickUpPerPaper, "dry-pick-up-per-paper", "z_r", "kg/t", "dry starch per paper as it is at the reel")
	},
}
