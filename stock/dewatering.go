package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Dewatering follows a sheet from section to section. Loss of solids is neglected.
type Dewatering struct {
	Dryness   []paperprop.DryContent // headbox, wire, presses ... reel: two or more, none falling, the last above the first
	PaperFlow paperprop.MassFlow     // at the last dryness, above zero
}

// DewateringResult is the water that each section removes.
type DewateringResult struct {
	DryFlow          paperprop.OvenDryFlow
	WaterPerDry      []paperprop.MassRatio
	WaterShare       []paperprop.Fraction // of all the water removed
	WaterFlow        []paperprop.MassFlow
	TotalWaterPerDry paperprop.MassRatio
}

// Calculate returns the water per dry matter 1/d_i − 1/d_(i+1) of each section, and
// what follows from it.
func (d Dewatering) Calculate() (DewateringResult, error) { return dewatering.Calculate(d) }

func (d Dewatering) compute() (DewateringResult, error) {
	last := len(d.Dryness) - 1
	if last < 1 {
		return DewateringResult{}, calc.Refuse("dryness", d.Dryness[0], "two or more, in order")
	}
	if d.Dryness[last] <= d.Dryness[0] {
		return DewateringResult{}, calc.Refuse("dryness", d.Dryness[last], "the last above the first, %v", d.Dryness[0])
	}
	dry := d.PaperFlow.In(paperprop.TonnePerHour) * float64(d.Dryness[last]) // t/h
	total := 1/float64(d.Dryness[0]) - 1/float64(d.Dryness[last])
	r := DewateringResult{
		DryFlow:          paperprop.OvenDryFlow(dry) * paperprop.DryTonnePerHour,
		TotalWaterPerDry: paperprop.MassRatio(total),
	}
	for i, before := range d.Dryness[:last] {
		after := d.Dryness[i+1]
		if after < before {
			return DewateringResult{}, calc.Refuse("dryness", after, "at least the %v before it: the sheet gets no wetter", before)
		}
		water := 1/float64(before) - 1/float64(after)
		r.WaterPerDry = append(r.WaterPerDry, paperprop.MassRatio(water))
		r.WaterShare = append(r.WaterShare, paperprop.Fraction(water/total))
		r.WaterFlow = append(r.WaterFlow, paperprop.MassFlow(dry*water)*paperprop.TonnePerHour)
	}
	return r, nil
}

var dewatering = &calc.Description[Dewatering, DewateringResult]{
	Name:    "dewatering",
	Title:   "Water removed from section to section",
	Answers: "How much water the wire section (forming section, fourdrinier; with foils and the couch), the presses and the dryers take, and what part of it all.",
	Formula: []string{
		"q_d = P*final(d)",
		"e_d = 1/before(d) - 1/after(d)",
		"e_t = sum(e_d)",
		"x = e_d/e_t",
		"q_w = q_d*e_d",
	},
	Source:   balance + " over each section",
	Status:   calc.CommonPractice,
	Example:  "dryness=[0.7 19 47 93] %; paper-flow=20 t/h",
	Mistakes: []string{"Points of dryness are not water: from 0.7 to 19 % goes more than forty times what goes from 19 to 47 %."},
	Compute:  Dewatering.compute,
	Fields: func(f *calc.Form, in *Dewatering, out *DewateringResult) {
		calc.InList(f, &in.Dryness, "dryness", "d", "%", "headbox, wire, presses ... reel, in order").Above(0)
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/h", "at the last dryness").Above(0)
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "in it")
		calc.OutList(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "removed in each section")
		calc.OutList(f, &out.WaterShare, "water-share", "x", "%", "of all the water removed")
		calc.OutList(f, &out.WaterFlow, "water-flow", "q_w", "t/h", "removed in each section")
		calc.Out(f, &out.TotalWaterPerDry, "total-water-per-dry", "e_t", "kg/kg", "removed in all")
	},
}

// WaterRemoval is the water that a sheet loses between two drynesses.
type WaterRemoval struct {
	DrynessIn  paperprop.DryContent // before, above zero
	DrynessOut paperprop.DryContent // after, at least DrynessIn
}

// WaterRemovalResult is that water, over dry matter and over paper.
type WaterRemovalResult struct {
	WaterPerDry   paperprop.MassRatio
	WaterPerPaper paperprop.MassRatio // over the mass that leaves, its water included
}

// Calculate returns the water 1/d_in − 1/d_out per dry matter, and d_out/d_in − 1
// per paper.
func (w WaterRemoval) Calculate() (WaterRemovalResult, error) { return waterRemoval.Calculate(w) }

func (w WaterRemoval) compute() (WaterRemovalResult, error) {
	if w.DrynessOut < w.DrynessIn {
		return WaterRemovalResult{}, calc.Refuse("dryness-out", w.DrynessOut, "at least dryness-in %v", w.DrynessIn)
	}
	in, out := float64(w.DrynessIn), float64(w.DrynessOut)
	return WaterRemovalResult{
		WaterPerDry:   paperprop.MassRatio((out - in) / (in * out)),
		WaterPerPaper: paperprop.MassRatio((out - in) / in),
	}, nil
}

var waterRemoval = &calc.Description[WaterRemoval, WaterRemovalResult]{
	Name:    "water-removal",
	Title:   "Water removed between two drynesses",
	Answers: "How much water a sheet loses between two drynesses, per dry matter and per paper that leaves.",
	Formula: []string{"e_d = 1/d_in - 1/d_out", "e_p = d_out/d_in - 1"},
	Source:  "balance of water and of dry matter, solids loss left out",
	Status:  calc.CommonPractice,
	Example: "dryness-in=47.5 %; dryness-out=96 %",
	Mistakes: []string{
		"Per dry matter and per paper are two numbers: from 53 to 92 % it is 800 kg/t dry and 736 kg/t of paper.",
		"Points of dryness are not water: from 45 to 46 % goes 48 kg per tonne of dry matter, from 91 to 92 % 12 kg.",
	},
	Compute: WaterRemoval.compute,
	Fields: func(f *calc.Form, in *WaterRemoval, out *WaterRemovalResult) {
		calc.In(f, &in.DrynessIn, "dryness-in", "d_in", "%", "before").Above(0)
		calc.In(f, &in.DrynessOut, "dryness-out", "d_out", "%", "after")
		calc.Out(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "per dry matter")
		calc.Out(f, &out.WaterPerPaper, "water-per-paper", "e_p", "kg/t", "over the mass that leaves")
	},
}
