package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Yield compares paper made with bales used.
type Yield struct {
	PaperMass     paperprop.Mass        // made, as it is, above zero
	PaperMoisture paperprop.Moisture    // below 100 %
	AddedDryMass  paperprop.OvenDryMass // starch, filler, size that came without bales: below the dry paper
	BaleMass      paperprop.Mass        // used, as they come, above zero
	BaleMoisture  paperprop.Moisture    // below 100 %
}

// YieldResult is the dry yield and the ratio of masses as they are.
type YieldResult struct {
	Yield        paperprop.Fraction // dry over dry
	BalePerPaper paperprop.MassRatio
}

// Calculate returns (m_p(1 − w_p) − m_a)/(m_b(1 − w_b)).
func (y Yield) Calculate() (YieldResult, error) { return yield.Calculate(y) }

func (y Yield) compute() (YieldResult, error) {
	paper, bales := y.PaperMass.In(paperprop.Tonne), y.BaleMass.In(paperprop.Tonne)
	added := y.AddedDryMass.In(paperprop.OvenDryTonne)
	dryPaper := paper * (1 - float64(y.PaperMoisture))
	if added >= dryPaper {
		return YieldResult{}, calc.Refuse("added-dry-mass", y.AddedDryMass, "below the dry paper, %v", paperprop.OvenDryMass(dryPaper)*paperprop.OvenDryTonne)
	}
	r := YieldResult{
		Yield:        paperprop.Fraction((dryPaper - added) / (bales * (1 - float64(y.BaleMoisture)))),
		BalePerPaper: paperprop.MassRatio(bales / paper),
	}
	if r.Yield > 1 {
		return YieldResult{}, calc.Refuse("yield", r.Yield, "at most 100 %%: more comes out than went in")
	}
	return r, nil
}

var yield = &calc.Description[Yield, YieldResult]{
	Name:     "yield",
	Title:    "Yield of recovered paper",
	Answers:  "What part of the dry matter of the bales becomes paper, and how many tonnes of bales a tonne of paper takes, which is the utilisation of recovered paper.",
	Formula:  []string{"Y = (m_p*(1 - w_p) - m_a)/(m_b*(1 - w_b))", "k_b = m_b/m_p"},
	Source:   "balance of dry matter over the mill",
	Status:   calc.CommonPractice,
	Example:  "paper-mass=500 t; paper-moisture=8 %; added-dry-mass=21 t; bale-mass=540 t; bale-moisture=9.6 %",
	Mistakes: []string{"Tonnes of bales per tonne of paper is a ratio of masses as they are, and no yield."},
	Compute:  Yield.compute,
	Fields: func(f *calc.Form, in *Yield, out *YieldResult) {
		calc.In(f, &in.PaperMass, "paper-mass", "m_p", "t", "made, as it is").Above(0)
		calc.In(f, &in.PaperMoisture, "paper-moisture", "w_p", "%", "of it").From(0).Below(100)
		calc.In(f, &in.AddedDryMass, "added-dry-mass", "m_a", "t", "starch, filler, size that did not come with the bales").Default(0)
		calc.In(f, &in.BaleMass, "bale-mass", "m_b", "t", "used, as they come").Above(0)
		calc.In(f, &in.BaleMoisture, "bale-moisture", "w_b", "%", "of them").From(0).Below(100)
		calc.Out(f, &out.Yield, "yield", "Y", "%", "dry over dry")
		calc.Out(f, &out.BalePerPaper, "bale-per-paper", "k_b", "t/t", "both as they are")
	},
}
