package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

var fireLoad = calc.Caution{Code: "fire-load", Text: "Bales burn deep and long, heat up when stored wet, and stacks fall: " +
	"stack heights, lanes and fire protection follow local codes, the insurer and licensed practice."}

// YardCover is how long a yard of bales lasts.
type YardCover struct {
	BaleMass      paperprop.Mass     // in the yard, moist, above zero
	BaleMoisture  paperprop.Moisture // below 100 %
	PaperFlow     paperprop.MassFlow // made while the machine runs, above zero
	PaperMoisture paperprop.Moisture // below 100 %
	Uptime        paperprop.Fraction // share of calendar time that the machine runs, at most 100 %; zero stands for 100 %
	AddedDryShare paperprop.Fraction // of the dry paper that does not come from bales, below 100 %
	Yield         paperprop.Fraction // dry paper from bales over dry bales, above zero, at most 100 %
}

// YardCoverResult is the use of bales, averaged over calendar time, and how long
// they last.
type YardCoverResult struct {
	BaleFlow paperprop.MassFlow // at their moisture
	Time     paperprop.Duration // that the yard lasts
}

// Calculate returns the use of bales P(1 − w_p)·η·(1 − x_a)/(Y(1 − w_b)), and the
// time: the mass in the yard over it.
func (y YardCover) Calculate() (YardCoverResult, error) { return yardCover.Calculate(y) }

func (y YardCover) compute() (YardCoverResult, error) {
	dryPaper := y.PaperFlow.In(paperprop.TonnePerDay) * (1 - float64(y.PaperMoisture)) * float64(y.Uptime)
	dryBales := dryPaper * (1 - float64(y.AddedDryShare)) / float64(y.Yield)
	used := dryBales / (1 - float64(y.BaleMoisture))
	return YardCoverResult{
		BaleFlow: paperprop.MassFlow(used) * paperprop.TonnePerDay,
		Time:     paperprop.Duration(y.BaleMass.In(paperprop.Tonne)/used) * paperprop.Day,
	}, nil
}

var yardCover = &calc.Description[YardCover, YardCoverResult]{
	Name:    "yard-cover",
	Title:   "How long a yard of bales lasts",
	Answers: "For how many days the bales in the yard suffice, and how many of them a day takes.",
	Formula: []string{"P_b = P*(1 - w_p)*eta*(1 - x_a)/(Y*(1 - w_b))", "tau = m_b/P_b"},
	Source:  "balance of dry matter over the mill",
	Status:  calc.CommonPractice,
	Example: "bale-mass=3200 t; bale-moisture=11.5 %; paper-flow=341.1 t/d; paper-moisture=7.5 %; uptime=91 %; added-dry-share=4.114 %; yield=91.93 %",
	Mistakes: []string{
		"Bales and paper differ in moisture: tonnes over tonnes, 3200/341.1, gives 9.38 d, which is neither the time of running nor that of the calendar.",
		"Net paper: what comes back as broke is made twice and takes bales once.",
		"Starch and filler that are added take no bales; the yield counts dry matter from bales only.",
	},
	Cautions: []*calc.Caution{&fireLoad},
	Compute:  YardCover.compute,
	Fields: func(f *calc.Form, in *YardCover, out *YardCoverResult) {
		calc.In(f, &in.BaleMass, "bale-mass", "m_b", "t", "in the yard, as it is").Above(0)
		calc.In(f, &in.BaleMoisture, "bale-moisture", "w_b", "%", "of it").From(0).Below(100)
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/d", "while the machine runs").Above(0)
		calc.In(f, &in.PaperMoisture, "paper-moisture", "w_p", "%", "of the paper").From(0).Below(100)
		calc.In(f, &in.Uptime, "uptime", "eta", "%", "of the calendar time that it runs").Above(0).UpTo(100).Default(100)
		calc.In(f, &in.AddedDryShare, "added-dry-share", "x_a", "%", "of the dry paper that does not come from bales").From(0).Below(100).Default(0)
		calc.In(f, &in.Yield, "yield", "Y", "%", "dry over dry").Above(0).UpTo(100)
		calc.Out(f, &out.BaleFlow, "bale-flow", "P_b", "t/d", "used, at bale-moisture")
		calc.Out(f, &out.Time, "time", "tau", "d", "that the yard lasts")
	},
}
