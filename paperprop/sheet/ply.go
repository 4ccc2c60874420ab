package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// PlyBuild is a sheet built from its plies.
type PlyBuild struct {
	PlyDryGrammage []paperprop.OvenDryGrammage // of each ply, top to back, above zero
	Moisture       paperprop.Moisture          // of the finished sheet, below 100 %
}

// PlyBuildResult is the sheet, and the share of each ply in it.
type PlyBuildResult struct {
	DryGrammage paperprop.OvenDryGrammage
	Grammage    paperprop.Grammage
	PlyShare    []paperprop.Fraction // of dry mass
}

// Calculate adds up the plies.
func (p PlyBuild) Calculate() (PlyBuildResult, error) { return plyBuild.Calculate(p) }

func (p PlyBuild) compute() (PlyBuildResult, error) {
	dry := 0.0
	for _, ply := range p.PlyDryGrammage {
		dry += ply.In(paperprop.DryGramPerSquareMetre)
	}
	r := PlyBuildResult{
		DryGrammage: paperprop.OvenDryGrammage(dry) * paperprop.DryGramPerSquareMetre,
		Grammage:    paperprop.Grammage(dry/(1-float64(p.Moisture))) * paperprop.GramPerSquareMetre,
		PlyShare:    make([]paperprop.Fraction, len(p.PlyDryGrammage)),
	}
	for i, ply := range p.PlyDryGrammage {
		r.PlyShare[i] = paperprop.Fraction(ply.In(paperprop.DryGramPerSquareMetre) / dry)
	}
	return r, nil
}

var plyBuild = &calc.Description[PlyBuild, PlyBuildResult]{
	Name:    "ply-build",
	Title:   "Grammage of a sheet from its plies",
	Answers: "What a sheet of several plies weighs, and what share each ply has.",
	Formula: []string{"g_d = sum(g_p)", "g = g_d/(1 - w)", "x = g_p/sum(g_p)"},
	Source:  "balance of dry matter",
	Status:  calc.CommonPractice,
	Example: "ply-dry-grammage=[42 60 38] g/m2; moisture=7.5 %",
	Mistakes: []string{
		"Plies are oven-dry, the sheet is not: 140 g/m2 of plies make 151.4 g/m2 at 7.5 % moisture.",
		"Shares of stock at the headboxes are not those of the sheet: each ply loses its own part through its wire.",
	},
	Compute: PlyBuild.compute,
	Fields: func(f *calc.Form, in *PlyBuild, out *PlyBuildResult) {
		calc.InList(f, &in.PlyDryGrammage, "ply-dry-grammage", "g_p", "g/m2", "of each ply, top to back, oven-dry").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of the finished sheet").From(0).Below(100)
		calc.Out(f, &out.DryGrammage, "dry-grammage", "g_d", "g/m2", "sum of the plies")
		calc.Out(f, &out.Grammage, "grammage", "g", "g/m2", "of the finished sheet")
		calc.OutList(f, &out.PlyShare, "ply-share", "x", "%", "of each ply, of dry mass")
	},
}

// PlyValue is the value of a sheet of some property that is additive by mass. Its
// lists are of equal length.
type PlyValue struct {
	PlyDryGrammage []paperprop.OvenDryGrammage // of each ply, above zero
	PlyValue       []float64                   // of each ply, in the same order, in one unit
}

// PlyValueResult is the value of the sheet, in the unit of the plies' values.
type PlyValueResult struct {
	Value float64
}

// Calculate returns the mean of the values, weighted by dry mass.
func (p PlyValue) Calculate() (PlyValueResult, error) { return plyValue.Calculate(p) }

func (p PlyValue) compute() (PlyValueResult, error) {
	var dry, sum float64
	for i, ply := range p.PlyDryGrammage {
		g := ply.In(paperprop.DryGramPerSquareMetre)
		dry, sum = dry+g, sum+g*p.PlyValue[i]
	}
	return PlyValueResult{sum / dry}, nil
}

var plyValue = &calc.Description[PlyValue, PlyValueResult]{
	Name:    "ply-value",
	Title:   "Value of a sheet from those of its plies",
	Answers: "How much ash, or what price, a sheet has from what each ply has.",
	Formula: []string{"v = sum(g_p*v_p)/sum(g_p)"},
	Source:  "balance by dry mass",
	Status:  calc.CommonPractice,
	Example: "ply-dry-grammage=[42 60 38] g/m2; ply-value=[14 9 11] %",
	Mistakes: []string{
		"Only what adds by mass may be weighted so: ash, price, kappa number. Brightness is that of the top ply, bending stiffness that of the faces.",
		"Prices have to be for dry mass: that of bales at 11.5 % moisture is 13 % higher for what is dry in them.",
	},
	Compute: PlyValue.compute,
	Fields: func(f *calc.Form, in *PlyValue, out *PlyValueResult) {
		f.Even(
			calc.InList(f, &in.PlyDryGrammage, "ply-dry-grammage", "g_p", "g/m2", "of each ply, oven-dry").Above(0),
			calc.InValues(f, &in.PlyValue, "ply-value", "v_p", "any", "of each ply; what adds by mass"),
		)
		calc.OutValue(f, &out.Value, "value", "v", "as ply-value", "weighted by dry mass")
	},
}

// CoatWeight is the coating applied to a sheet.
type CoatWeight struct {
	CoatedGrammage paperprop.Grammage // above zero
	BaseGrammage   paperprop.Grammage // of the uncoated sheet, above zero
	CoatedMoisture paperprop.Moisture // below 100 %
	BaseMoisture   paperprop.Moisture // of the uncoated sheet, below 100 %
}

// CoatWeightResult is the dry coat per area and per mass.
type CoatWeightResult struct {
	CoatDryGrammage paperprop.OvenDryGrammage
	CoatUse         paperprop.Dosage // dry coat over moist coated sheet
}

// Calculate subtracts the dry uncoated sheet from the dry coated one.
func (c CoatWeight) Calculate() (CoatWeightResult, error) { return coatWeight.Calculate(c) }

func (c CoatWeight) compute() (CoatWeightResult, error) {
	coated := c.CoatedGrammage.In(paperprop.GramPerSquareMetre)
	base := c.BaseGrammage.In(paperprop.GramPerSquareMetre) * (1 - float64(c.BaseMoisture))
	coat := result.Rest(coated*(1-float64(c.CoatedMoisture)), base)
	if coat < 0 {
		return CoatWeightResult{}, calc.Refuse("coated-grammage", c.CoatedGrammage,
			"enough at its moisture for the dry sheet before, %v", paperprop.OvenDryGrammage(base)*paperprop.DryGramPerSquareMetre)
	}
	return CoatWeightResult{
		CoatDryGrammage: paperprop.OvenDryGrammage(coat) * paperprop.DryGramPerSquareMetre,
		CoatUse:         paperprop.Dosage(1000*coat/coated) * paperprop.KilogramPerTonne,
	}, nil
}

var coatWeight = &calc.Description[CoatWeight, CoatWeightResult]{
	Name:    "coat-weight",
	Title:   "Coat weight",
	Answers: "How much dry coating (pigment and binder) a sheet took up in a coater, from its grammage before and after.",
	Formula: []string{"g_d = g_c*(1 - w_c) - g_b*(1 - w_b)", "z = g_d/g_c"},
	Source:  "balance of dry matter",
	Status:  calc.CommonPractice,
	Example: "coated-grammage=134.2 g/m2; base-grammage=121.4 g/m2; coated-moisture=5.2 %; base-moisture=7.5 %",
	Mistakes: []string{
		"The difference of the moist grammages is not the coat: 121.4 g/m2 at 7.5 % and 134.2 at 5.2 % hold 14.9 g/m2 of it, not 12.8.",
		"A small difference of two large figures: 0.3 g/m2 in each makes 0.4 g/m2 in the coat.",
	},
	Compute: CoatWeight.compute,
	Fields: func(f *calc.Form, in *CoatWeight, out *CoatWeightResult) {
		calc.In(f, &in.CoatedGrammage, "coated-grammage", "g_c", "g/m2", "of the coated sheet").Above(0)
		calc.In(f, &in.BaseGrammage, "base-grammage", "g_b", "g/m2", "of the sheet before").Above(0)
		calc.In(f, &in.CoatedMoisture, "coated-moisture", "w_c", "%", "of the coated sheet").From(0).Below(100)
		calc.In(f, &in.BaseMoisture, "base-moisture", "w_b", "%", "of the sheet before").From(0).Below(100)
		calc.Out(f, &out.CoatDryGrammage, "coat-dry-grammage", "g_d", "g/m2", "oven-dry coat")
		calc.Out(f, &out.CoatUse, "coat-use", "z", "kg/t", "dry coat over coated sheet as it is")
	},
}
