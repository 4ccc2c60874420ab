package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Dewatering follows a sheet from section to section. Loss of solids is left
// out of account.
type Dewatering struct {
	Dryness   []paperprop.DryContent // headbox, wire, presses ... reel: two or more, none falling, the last above the first
	PaperFlow paperprop.MassFlow     // at the last dryness, above zero
}

// DewateringResult is the water that each section takes.
type DewateringResult struct {
	DryFlow          paperprop.OvenDryFlow
	WaterPerDry      []paperprop.MassRatio
	WaterShare       []paperprop.Fraction // of all the water removed
	WaterFlow        []paperprop.MassFlow
	TotalWaterPerDry paperprop.MassRatio
}

// Calculate returns 1/d_i − 1/d_(i+1) for each section and what follows.
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
	Answers: "How much water wire, presses and dryers take, and what part of it all.",
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
	Mistakes: []string{"Points of dryness are not water: from 0.7 to 19 % goes forty times what goes from 19 to 47 %."},
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
