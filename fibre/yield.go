package fibre

import (
	"math/big"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Yield compares paper made with bales used.
type Yield struct {
	PaperMass     paperprop.Mass        // made, moist, above zero
	PaperMoisture paperprop.Moisture    // below 100 %
	AddedDryMass  paperprop.OvenDryMass // starch, filler and size not from bales, below the dry paper
	BaleMass      paperprop.Mass        // used, as received, above zero
	BaleMoisture  paperprop.Moisture    // below 100 %

	// As written, so that exactly as much out as in is not taken for more.
	written struct{ paperMass, paperMoisture, addedDryMass, baleMass, baleMoisture calc.Written }
}

// YieldResult is the dry yield and the ratio of the moist masses.
type YieldResult struct {
	Yield        paperprop.Fraction // dry over dry
	BalePerPaper paperprop.MassRatio
}

// Calculate returns the yield (m_p(1 − w_p) − m_a)/(m_b(1 − w_b)).
func (y Yield) Calculate() (YieldResult, error) { return yield.Calculate(y) }

func (y Yield) compute() (YieldResult, error) {
	paper, bales := y.PaperMass.In(paperprop.Tonne), y.BaleMass.In(paperprop.Tonne)
	added := y.AddedDryMass.In(paperprop.OvenDryTonne)
	dryPaper := paper * (1 - float64(y.PaperMoisture))
	r := YieldResult{
		Yield:        paperprop.Fraction((dryPaper - added) / (bales * (1 - float64(y.BaleMoisture)))),
		BalePerPaper: paperprop.MassRatio(bales / paper),
	}
	const plain = 1e-9 // relative difference from which floats decide without doubt
	if dryPaper-added > plain*dryPaper && r.Yield < 1-plain {
		return r, nil
	}
	switch fromBales, dryBales := y.exactly(); {
	case fromBales.Sign() <= 0:
		return YieldResult{}, calc.Refuse("added-dry-mass", y.AddedDryMass, "below the dry paper, %v", paperprop.OvenDryMass(dryPaper)*paperprop.OvenDryTonne)
	case fromBales.Cmp(dryBales) > 0:
		return YieldResult{}, calc.Refuse("yield", r.Yield, "at most 100 %%: more comes out than went in")
	}
	r.Yield = min(r.Yield, 1)
	return r, nil
}

// exactly returns the dry paper made from bales, and the dry bales, as they were
// written: 285.6 kg at 11.3 % and 289.5168 kg at 12.5 % are equally dry, which
// floats miss.
func (y *Yield) exactly() (fromBales, dryBales *big.Rat) {
	w := &y.written
	dryPaper := dry(w.paperMass.Exactly(float64(y.PaperMass)), w.paperMoisture.Exactly(float64(y.PaperMoisture)))
	dryBales = dry(w.baleMass.Exactly(float64(y.BaleMass)), w.baleMoisture.Exactly(float64(y.BaleMoisture)))
	return dryPaper.Sub(dryPaper, w.addedDryMass.Exactly(float64(y.AddedDryMass))), dryBales
}

// dry returns the dry part of a mass.
func dry(mass, moisture *big.Rat) *big.Rat {
	dryness := new(big.Rat).Sub(big.NewRat(1, 1), moisture)
	return dryness.Mul(dryness, mass)
}

var yield = &calc.Description[Yield, YieldResult]{
	Name:     "yield",
	Title:    "Yield of recovered paper",
	Answers:  "What part of the dry matter of the bales becomes paper, and how many tonnes of bales a tonne of paper takes, which is the utilisation of recovered paper.",
	Formula:  []string{"Y = (m_p*(1 - w_p) - m_a)/(m_b*(1 - w_b))", "k_b = m_b/m_p"},
	Source:   "balance of dry matter over the mill",
	Status:   calc.CommonPractice,
	Example:  "paper-mass=500 t; paper-moisture=8 %; added-dry-mass=21 t; bale-mass=540 t; bale-moisture=9.6 %",
	Mistakes: []string{"Tonnes of bales per tonne of paper is a ratio of masses as they are, not a yield."},
	Compute:  Yield.compute,
	Fields: func(f *calc.Form, in *Yield, out *YieldResult) {
		w := &in.written
		calc.In(f, &in.PaperMass, "paper-mass", "m_p", "t", "made, as it is").Above(0).Written(&w.paperMass)
		calc.In(f, &in.PaperMoisture, "paper-moisture", "w_p", "%", "of it").From(0).Below(100).Written(&w.paperMoisture)
		calc.In(f, &in.AddedDryMass, "added-dry-mass", "m_a", "t", "starch, filler, size that did not come with the bales").Default(0).Written(&w.addedDryMass)
		calc.In(f, &in.BaleMass, "bale-mass", "m_b", "t", "used, as they come").Above(0).Written(&w.baleMass)
		calc.In(f, &in.BaleMoisture, "bale-moisture", "w_b", "%", "of them").From(0).Below(100).Written(&w.baleMoisture)
		calc.Out(f, &out.Yield, "yield", "Y", "%", "dry over dry")
		calc.Out(f, &out.BalePerPaper, "bale-per-paper", "k_b", "t/t", "both as they are")
	},
}
