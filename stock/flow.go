package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Flow turns a volume flow of stock into masses.
type Flow struct {
	VolumeFlow  paperprop.VolumeFlow // of stock, above zero
	Consistency paperprop.Consistency
	Density     paperprop.Density // of the stock, above zero
}

// FlowResult is the flow by mass.
type FlowResult struct {
	MassFlow paperprop.MassFlow
	DryFlow  paperprop.OvenDryFlow
}

// Calculate returns the mass flow Q·ρ and the dry matter in it.
func (s Flow) Calculate() (FlowResult, error) { return stockFlow.Calculate(s) }

func (s Flow) compute() (FlowResult, error) {
	q := s.VolumeFlow.In(paperprop.CubicMetrePerHour) * s.Density.In(paperprop.KilogramPerCubicMetre) / 1000 // t/h
	return FlowResult{
		MassFlow: paperprop.MassFlow(q) * paperprop.TonnePerHour,
		DryFlow:  paperprop.OvenDryFlow(q*float64(s.Consistency)) * paperprop.DryTonnePerHour,
	}, nil
}

var stockFlow = &calc.Description[Flow, FlowResult]{
	Name:     "stock-flow",
	Title:    "Mass flow of stock from its volume flow",
	Answers:  "How many tonnes of stock and of dry matter a volume flow carries.",
	Formula:  []string{"q = Q*rho", "q_d = q*c"},
	Source:   "definition of density and consistency",
	Status:   calc.CommonPractice,
	Example:  "volume-flow=420 m3/h; consistency=3.8 %; density=1001.91 kg/m3",
	Mistakes: []string{"The trade often takes 1000 kg/m3: stock of 4 % is 1.4 % above that at 4 degC and 0.3 % at 48 degC. Ask stock-density."},
	Compare: []calc.Comparison{{
		Name: "stock-flow-rule", Inputs: "volume-flow=420 m3/h; consistency=3.8 %",
		Why: "the rounded US factor, solved for the dry flow, takes 999.55 kg/m3 at any consistency and temperature: 422.041 short ton/d are 15.9529 t/h, 0.24 % less; of cold stock 1.3 % less",
	}},
	Compute: Flow.compute,
	Fields: func(f *calc.Form, in *Flow, out *FlowResult) {
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "m3/h", "of stock").Above(0)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of it")
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the stock, from stock-density").Above(0)
		calc.Out(f, &out.MassFlow, "mass-flow", "q", "t/h", "of stock")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "dry matter in it")
	},
}

// perGallon is the specific volume that a rule factor of 1 stands for at 1 %:
// 1 US gal/min for 1 short ton/d of dry matter.
const perGallon = paperprop.SpecificVolume(float64(paperprop.USGallonPerMinute)/float64(paperprop.ShortTonPerDay)) * paperprop.CubicMetrePerTonne

// FlowRule is the US rule of thumb for the volume flow of stock.
type FlowRule struct {
	DryFlow     paperprop.OvenDryFlow // above zero
	Consistency paperprop.Consistency // oven-dry, above zero
	RuleFactor  paperprop.Ratio       // zero stands for the printed 16.65
}

// FlowRuleResult is the volume flow by the rule.
type FlowRuleResult struct {
	VolumeFlow paperprop.VolumeFlow

	perGallon paperprop.SpecificVolume
}

// Calculate returns the volume flow in US gallons a minute: k times short tons of
// dry matter a day, over the consistency in per cent.
func (s FlowRule) Calculate() (FlowRuleResult, error) { return flowRule.Calculate(s) }

func (s FlowRule) compute() (FlowRuleResult, error) {
	perDry := float64(s.RuleFactor) * perGallon.In(paperprop.CubicMetrePerTonne) / float64(s.Consistency/paperprop.Percent)
	return FlowRuleResult{
		VolumeFlow: paperprop.VolumeFlow(perDry*s.DryFlow.In(paperprop.DryTonnePerHour)) * paperprop.CubicMetrePerHour,
		perGallon:  perGallon,
	}, nil
}

var flowRule = &calc.Description[FlowRule, FlowRuleResult]{
	Name:    "stock-flow-rule",
	Title:   "Volume flow of stock by the rounded US rule",
	Answers: "How many gallons a minute (gpm) bring a dry flow (short tons a day, TPD) at a consistency, by the rule that pump books print.",
	Formula: []string{"Q = k*v_1*q_d*0.01/c"},
	Source: "Engineering Data Book of the Hydraulic Institute, losses with paper stock, Appendix A Eq. 3.E.5, after TAPPI TIS 408-4 (seen); " +
		"v_1 is 1 US gal/min for 1 short ton/d",
	Status:  calc.Published,
	Example: "dry-flow=320 short ton/d; consistency=0.8 %",
	Mistakes: []string{
		"16.65 is rounded: at 1000 kg/m3 units alone make 16.6426, and it falls as the stock gets denser.",
		"Short tons, oven-dry: with air-dry ones the factor is 15.0 (memory).",
	},
	Compare: []calc.Comparison{
		{
			Name: "stock-flow", Inputs: "dry-flow=320 short ton/d; consistency=0.8 %; density=1000 kg/m3",
			Why: "exact at a density that is named, solved for the volume flow: 1511.97 m3/h are 6657.02 US gal/min",
		},
		{
			Inputs: "dry-flow=320 short ton/d; consistency=0.8 %; rule-factor=16.6666666666667",
			Why:    "the 0.06 rule: short tons a day are 0.06 times gallons a minute times per cent",
		},
	},
	Compute: FlowRule.compute,
	Fields: func(f *calc.Form, in *FlowRule, out *FlowRuleResult) {
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "short ton/d", "oven-dry").Above(0)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "oven-dry").Above(0)
		calc.In(f, &in.RuleFactor, "rule-factor", "k", "1", "US gal/min for 1 short ton/d at 1 %: 16.65 printed, 1/0.06 by the 0.06 rule").
			Above(0).Default(16.65)
		calc.Out(f, &out.VolumeFlow, "volume-flow", "Q", "US gal/min", "by a rounded rule; stock-flow is exact")
		calc.Between(f, &out.perGallon, "v_1", "US gal d/(min short ton)", "1 US gal/min for 1 short ton/d")
	},
}

// ThickStock is the flow of thick stock that a machine needs for its paper.
type ThickStock struct {
	Grammage         paperprop.Grammage    // at the reel, as it is there, above zero
	Moisture         paperprop.Moisture    // of that paper, below 100 %
	Speed            paperprop.Speed       // at the reel, above zero
	SheetWidth       paperprop.Length      // at the reel, above zero
	AddedDryShare    paperprop.Fraction    // part of the dry sheet that is added after the wire, below 100 %
	OverallRetention paperprop.Fraction    // of the wet end: above zero, at most 100 %
	Consistency      paperprop.Consistency // of the thick stock, above zero
	Density          paperprop.Density     // of the thick stock, above zero
}

// ThickStockResult is the dry flow of the paper, and the thick stock for it.
type ThickStockResult struct {
	SheetDryFlow paperprop.OvenDryFlow // in the paper
	DryFlow      paperprop.OvenDryFlow // that the thick stock must bring
	VolumeFlow   paperprop.VolumeFlow  // of thick stock
}

// Calculate returns the dry flow of the sheet g·v·B(1 − w), the part of it that
// comes over the wire divided by the retention, and the stock that holds that.
func (s ThickStock) Calculate() (ThickStockResult, error) { return thickStock.Calculate(s) }

func (s ThickStock) compute() (ThickStockResult, error) {
	area := s.Speed.In(paperprop.MetrePerMinute) * 60 * s.SheetWidth.In(paperprop.Metre)            // m²/h
	sheet := s.Grammage.In(paperprop.GramPerSquareMetre) * 1e-6 * area * (1 - float64(s.Moisture))  // t/h
	dry := sheet * (1 - float64(s.AddedDryShare)) / float64(s.OverallRetention)                     // t/h
	volume := dry / float64(s.Consistency) / (s.Density.In(paperprop.KilogramPerCubicMetre) / 1000) // m³/h
	return ThickStockResult{
		SheetDryFlow: paperprop.OvenDryFlow(sheet) * paperprop.DryTonnePerHour,
		DryFlow:      paperprop.OvenDryFlow(dry) * paperprop.DryTonnePerHour,
		VolumeFlow:   paperprop.VolumeFlow(volume) * paperprop.CubicMetrePerHour,
	}, nil
}

var thickStock = &calc.Description[ThickStock, ThickStockResult]{
	Name:    "thick-stock",
	Title:   "Thick stock that a machine needs",
	Answers: "What flow of thick stock makes a paper at a speed, with what the wet end loses.",
	Formula: []string{"q_s = g*v*B*(1 - w)", "q_d = q_s*(1 - x_a)/R_o", "Q = q_d/(c*rho)"},
	Source:  "balance of dry matter from the thick stock to the reel",
	Status:  calc.CommonPractice,
	Example: "grammage=120 g/m2; moisture=7.5 %; speed=625 m/min; sheet-width=3.36 m; added-dry-share=3.87 %; " +
		"overall-retention=97 %; consistency=3.4 %; density=1000.53 kg/m3",
	Mistakes: []string{
		"Take overall, not first-pass retention: what the white water brings back is not lost.",
		"That holds where all that comes back joins after this stock. Fibre of a save-all that joins it before is not in dry-flow: it comes on top.",
		"Surface starch comes after the wire: the thick stock does not bring it.",
		"Speed, width and grammage belong together: all at the reel, draw and shrinkage are in them.",
	},
	Compute: ThickStock.compute,
	Fields: func(f *calc.Form, in *ThickStock, out *ThickStockResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at the reel, as it is there").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of that paper").Below(100)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "at the reel").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "B", "m", "at the reel").Above(0)
		calc.In(f, &in.AddedDryShare, "added-dry-share", "x_a", "%", "of the dry sheet, added after the wire").From(0).Below(100).Default(0)
		calc.In(f, &in.OverallRetention, "overall-retention", "R_o", "%", "of the wet end, from loop-retention").Above(0).UpTo(100)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of the thick stock").Above(0)
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the thick stock").Above(0)
		calc.Out(f, &out.SheetDryFlow, "sheet-dry-flow", "q_s", "t/h", "in the paper")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "that the thick stock must bring")
		calc.Out(f, &out.VolumeFlow, "volume-flow", "Q", "m3/h", "of thick stock")
	},
}
