package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Dosage feeds a chemical to a flow of dry stock.
type Dosage struct {
	Dosage      paperprop.Dosage      // active (or dry) substance per dry stock, zero or more
	DryFlow     paperprop.OvenDryFlow // of stock, above zero
	ActiveShare paperprop.Fraction    // active substance over the product as dosed: above zero, at most 100 %
}

// DosageResult is what to feed.
type DosageResult struct {
	ActiveFlow    paperprop.MassFlow
	ProductFlow   paperprop.MassFlow
	ProductDosage paperprop.Dosage // product as dosed per dry stock
}

// Calculate returns z·q_d and the product that holds it.
func (d Dosage) Calculate() (DosageResult, error) { return dosage.Calculate(d) }

func (d Dosage) compute() (DosageResult, error) {
	z, share := d.Dosage.In(paperprop.KilogramPerTonne), float64(d.ActiveShare)
	active := z * d.DryFlow.In(paperprop.DryTonnePerHour) // kg/h
	return DosageResult{
		ActiveFlow:    paperprop.MassFlow(active) * paperprop.KilogramPerHour,
		ProductFlow:   paperprop.MassFlow(active/share) * paperprop.KilogramPerHour,
		ProductDosage: paperprop.Dosage(z/share) * paperprop.KilogramPerTonne,
	}, nil
}

var dosage = &calc.Description[Dosage, DosageResult]{
	Name:     "dosage",
	Title:    "Dosage of a chemical on dry stock",
	Answers:  "How much of a product goes to a flow of stock for a dosage of active substance.",
	Formula:  []string{"q_a = z*q_d", "q_p = q_a/s", "z_p = z/s"},
	Source:   "definition of the dosage",
	Status:   calc.CommonPractice,
	Example:  "dosage=6.5 kg/t; dry-flow=21 t/h; active-share=35 %",
	Mistakes: []string{"Per tonne of dry stock, not of paper: some mills reckon on paper as made."},
	Cautions: []*calc.Caution{&calc.Chemicals},
	Compute:  Dosage.compute,
	Fields: func(f *calc.Form, in *Dosage, out *DosageResult) {
		calc.In(f, &in.Dosage, "dosage", "z", "kg/t", "active or dry substance per dry stock").From(0)
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "t/h", "of stock").Above(0)
		calc.In(f, &in.ActiveShare, "active-share", "s", "%", "active or dry substance over the product as dosed").Above(0).UpTo(100)
		calc.Out(f, &out.ActiveFlow, "active-flow", "q_a", "kg/h", "of active substance")
		calc.Out(f, &out.ProductFlow, "product-flow", "q_p", "kg/h", "of the product as dosed")
		calc.Out(f, &out.ProductDosage, "product-dosage", "z_p", "kg/t", "product as dosed per dry stock")
	},
}
