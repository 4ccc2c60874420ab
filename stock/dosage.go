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

// Calculate returns the active substance z·q_d and the product that holds it.
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
	Answers:  "How much of a product, such as a retention aid (flocculant), size (AKD, ASA, rosin), alum, dye, bleaching chemical, defoamer, biocide or starch, goes to a flow of stock for a dosage of active substance.",
	Formula:  []string{"q_a = z*q_d", "q_p = q_a/s", "z_p = z/s"},
	Source:   "definition of the dosage",
	Status:   calc.CommonPractice,
	Example:  "dosage=6.5 kg/t; dry-flow=21 t/h; active-share=35 %",
	Mistakes: []string{"Per tonne of dry stock, not of paper: some mills reckon on paper as made."},
	Compare: []calc.Comparison{{
		Name:   "dosage-on-paper",
		Inputs: "dosage=6.5 kg/t; paper-flow=21 t/h; moisture=7.5 %; active-share=35 %",
		Why:    "the same figures if they are per tonne of paper as made: on dry matter it is more",
	}},
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

// DosageOnPaper feeds a chemical whose dosage is per tonne of paper.
type DosageOnPaper struct {
	Dosage      paperprop.Dosage   // active (or dry) substance per paper as it is at the reel, zero or more
	PaperFlow   paperprop.MassFlow // at the reel, above zero
	Moisture    paperprop.Moisture // of that paper, below 100 %
	ActiveShare paperprop.Fraction // active substance over the product as dosed: above zero, at most 100 %
}

// DosageOnPaperResult is the feed, and the dosage on dry paper.
type DosageOnPaperResult struct {
	ActiveFlow  paperprop.MassFlow
	ProductFlow paperprop.MassFlow
	DosageOnDry paperprop.Dosage // active substance per dry paper
}

// Calculate returns the active substance z·P, the product that holds it, and the
// dosage on dry paper, z/(1 − w).
func (d DosageOnPaper) Calculate() (DosageOnPaperResult, error) { return dosageOnPaper.Calculate(d) }

func (d DosageOnPaper) compute() (DosageOnPaperResult, error) {
	z := d.Dosage.In(paperprop.KilogramPerTonne)
	active := z * d.PaperFlow.In(paperprop.TonnePerHour) // kg/h
	return DosageOnPaperResult{
		ActiveFlow:  paperprop.MassFlow(active) * paperprop.KilogramPerHour,
		ProductFlow: paperprop.MassFlow(active/float64(d.ActiveShare)) * paperprop.KilogramPerHour,
		DosageOnDry: paperprop.Dosage(z/(1-float64(d.Moisture))) * paperprop.KilogramPerTonne,
	}, nil
}

var dosageOnPaper = &calc.Description[DosageOnPaper, DosageOnPaperResult]{
	Name:    "dosage-on-paper",
	Title:   "Dosage of a chemical on paper as made",
	Answers: "How much of a product a dosage per tonne of paper takes, and what dosage on dry paper that is.",
	Formula: []string{"q_a = z*P", "q_p = q_a/s", "z_d = z/(1 - w)"},
	Source:  "definition of the dosage",
	Status:  calc.CommonPractice,
	Example: "dosage=9 kg/t; paper-flow=15.12 t/h; moisture=7.5 %; active-share=35 %",
	Mistakes: []string{
		"Per tonne of paper is less than per tonne of dry stock: at 7.5 % moisture 9 kg/t are 9.73 kg/t dry.",
		"Active substance, not product: 9 kg/t of a product at 35 % are 3.15 kg/t active.",
	},
	Compare: []calc.Comparison{{
		Name:   "dosage",
		Inputs: "dosage=9 kg/t; dry-flow=13.986 t/h; active-share=35 %",
		Why:    "the same 9 kg/t if they are per tonne of dry matter: on the same paper it is less",
	}},
	Cautions: []*calc.Caution{&calc.Chemicals},
	Compute:  DosageOnPaper.compute,
	Fields: func(f *calc.Form, in *DosageOnPaper, out *DosageOnPaperResult) {
		calc.In(f, &in.Dosage, "dosage", "z", "kg/t", "active or dry substance per paper as it is at the reel").From(0)
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/h", "at the reel").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of that paper").From(0).Below(100)
		calc.In(f, &in.ActiveShare, "active-share", "s", "%", "active or dry substance over the product as dosed").Above(0).UpTo(100)
		calc.Out(f, &out.ActiveFlow, "active-flow", "q_a", "kg/h", "of active substance")
		calc.Out(f, &out.ProductFlow, "product-flow", "q_p", "kg/h", "of the product as dosed")
		calc.Out(f, &out.DosageOnDry, "dosage-on-dry", "z_d", "kg/t", "the same dosage per dry paper")
	},
}
