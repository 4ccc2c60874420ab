package reel

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Production is the production of a machine while it runs.
type Production struct {
	Grammage   paperprop.Grammage // at reel moisture, above zero
	SheetWidth paperprop.Length   // at the reel, before edge trim, above zero
	Speed      paperprop.Speed    // at the reel, above zero
}

// ProductionResult is gross production.
type ProductionResult struct {
	PaperFlow paperprop.MassFlow
	AreaFlow  paperprop.AreaFlow
}

// Calculate returns the paper flow g·b·v and the area b·v per time.
func (p Production) Calculate() (ProductionResult, error) { return production.Calculate(p) }

func (p Production) compute() (ProductionResult, error) {
	area, paper := made(p.Grammage, p.SheetWidth, p.Speed)
	return ProductionResult{
		PaperFlow: paperprop.MassFlow(paper) * paperprop.TonnePerHour,
		AreaFlow:  paperprop.AreaFlow(area) * paperprop.SquareMetrePerHour,
	}, nil
}

// made returns the production of a web, as area in m²/h and mass in t/h.
func made(g paperprop.Grammage, width paperprop.Length, speed paperprop.Speed) (area, paper float64) {
	area = width.In(paperprop.Metre) * speed.In(paperprop.MetrePerMinute) * 60
	return area, area * g.In(paperprop.GramPerSquareMetre) / 1e6
}

var production = &calc.Description[Production, ProductionResult]{
	Name:     "production",
	Title:    "Gross production of a paper machine",
	Answers:  "How many tonnes and square metres an hour a machine makes while it runs.",
	Formula:  []string{"A_t = b*v", "P = g*A_t"},
	Source:   "definition; worked example in training notes on paper-machine calculations (public preview page)",
	Status:   calc.Published,
	Example:  "grammage=120 g/m2; sheet-width=3.36 m; speed=625 m/min",
	Mistakes: []string{"Grammage and production are at reel moisture; the width is that before edge trim."},
	Compute:  Production.compute,
	Fields: func(f *calc.Form, in *Production, out *ProductionResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at reel moisture").Above(0)
		atTheReel(f, &in.SheetWidth, &in.Speed)
		calc.Out(f, &out.PaperFlow, "paper-flow", "P", "t/h", "gross, while running")
		calc.Out(f, &out.AreaFlow, "area-flow", "A_t", "m2/h", "gross, while running")
	},
}

// atTheReel binds the width and speed of the web.
func atTheReel(f *calc.Form, width *paperprop.Length, speed *paperprop.Speed) {
	calc.In(f, width, "sheet-width", "b", "m", "at the reel, before edge trim").Above(0)
	calc.In(f, speed, "speed", "v", "m/min", "at the reel").Above(0)
}

// DryProduction is the dry matter in the production of a machine.
type DryProduction struct {
	Grammage   paperprop.Grammage // at reel moisture, above zero
	Moisture   paperprop.Moisture // at the reel, below 100 %
	SheetWidth paperprop.Length   // at the reel, before edge trim, above zero
	Speed      paperprop.Speed    // at the reel, above zero
}

// DryProductionResult is gross production, moist and oven-dry.
type DryProductionResult struct {
	PaperFlow paperprop.MassFlow
	DryFlow   paperprop.OvenDryFlow
}

// Calculate returns the paper flow g·b·v, and that without its water.
func (p DryProduction) Calculate() (DryProductionResult, error) { return dryProduction.Calculate(p) }

func (p DryProduction) compute() (DryProductionResult, error) {
	_, paper := made(p.Grammage, p.SheetWidth, p.Speed)
	return DryProductionResult{
		PaperFlow: paperprop.MassFlow(paper) * paperprop.TonnePerHour,
		DryFlow:   paperprop.OvenDryFlow(paper*(1-float64(p.Moisture))) * paperprop.DryTonnePerHour,
	}, nil
}

var dryProduction = &calc.Description[DryProduction, DryProductionResult]{
	Name:     "dry-production",
	Title:    "Gross production as dry matter",
	Answers:  "How many tonnes an hour of paper, and of dry matter in it, a machine makes while it runs.",
	Formula:  []string{"P = g*b*v", "q_d = P*(1 - w)"},
	Source:   "definition",
	Status:   calc.CommonPractice,
	Example:  "grammage=120 g/m2; moisture=7.5 %; sheet-width=3.36 m; speed=625 m/min",
	Mistakes: []string{"The moisture is that of the sheet of that grammage; a conditioned grammage needs the conditioned moisture."},
	Compute:  DryProduction.compute,
	Fields: func(f *calc.Form, in *DryProduction, out *DryProductionResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at reel moisture").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "at the reel, wet basis").From(0).Below(100)
		atTheReel(f, &in.SheetWidth, &in.Speed)
		calc.Out(f, &out.PaperFlow, "paper-flow", "P", "t/h", "gross, while running")
		calc.Out(f, &out.DryFlow, "dry-flow", "q_d", "t/h", "dry matter in it")
	},
}

// NetProduction is the saleable production of a machine.
type NetProduction struct {
	Grammage      paperprop.Grammage // at reel moisture, above zero
	SheetWidth    paperprop.Length   // at the reel, before edge trim, above zero
	Speed         paperprop.Speed    // at the reel, above zero
	Uptime        paperprop.Fraction // time with sheet on the reel over time available, above zero, at most 100 %
	SaleableShare paperprop.Fraction // of the reeled mass, above zero, at most 100 %
}

// NetProductionResult is the gross and net production.
type NetProductionResult struct {
	GrossPaperFlow paperprop.MassFlow // while running
	NetPaperFlow   paperprop.MassFlow // mean over the available time
}

// Calculate returns the paper flow g·b·v, and that times both factors.
func (p NetProduction) Calculate() (NetProductionResult, error) { return netProduction.Calculate(p) }

func (p NetProduction) compute() (NetProductionResult, error) {
	_, gross := made(p.Grammage, p.SheetWidth, p.Speed)
	return NetProductionResult{
		GrossPaperFlow: paperprop.MassFlow(gross) * paperprop.TonnePerHour,
		NetPaperFlow:   paperprop.MassFlow(gross*float64(p.Uptime)*float64(p.SaleableShare)) * paperprop.TonnePerHour,
	}, nil
}

var netProduction = &calc.Description[NetProduction, NetProductionResult]{
	Name:    "net-production",
	Title:   "Net production of a paper machine",
	Answers: "How many tonnes an hour can be sold, over the time that the machine was there to run.",
	Formula: []string{"P_g = g*b*v", "P_n = P_g*eta_t*x_s"},
	Source:  "page of a paper-machine builder, worked example: hours x efficiency x yield; factors named as in lecture slides on TAPPI TIP 0404-47",
	Status:  calc.Published,
	Example: "grammage=120 g/m2; sheet-width=3.36 m; speed=625 m/min; uptime=91 %; saleable-share=94 %",
	Mistakes: []string{
		"An efficiency that mixes time and broke is multiplied in once: give it as uptime and 100 % as saleable-share.",
		"Gross is per running hour, net per available hour: 24 h of one are not 24 h of the other.",
	},
	Compare: []calc.Comparison{{
		Inputs: "grammage=120 g/m2; sheet-width=3.36 m; speed=625 m/min; uptime=91 %; saleable-share=100 %",
		Why:    "some take one efficiency for all losses; where it holds the time alone, what goes back as broke counts as sold",
	}},
	Compute: NetProduction.compute,
	Fields: func(f *calc.Form, in *NetProduction, out *NetProductionResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at reel moisture").Above(0)
		atTheReel(f, &in.SheetWidth, &in.Speed)
		calc.In(f, &in.Uptime, "uptime", "eta_t", "%", "time with sheet on the reel of time available").Above(0).UpTo(100)
		calc.In(f, &in.SaleableShare, "saleable-share", "x_s", "%", "of the reeled mass; 100 % if uptime holds all losses").Above(0).UpTo(100)
		calc.Out(f, &out.GrossPaperFlow, "gross-paper-flow", "P_g", "t/h", "while running")
		calc.Out(f, &out.NetPaperFlow, "net-paper-flow", "P_n", "t/h", "saleable, mean over the available time")
	},
}

// MachineEfficiency is the efficiency of a machine, by time and by tonnes.
type MachineEfficiency struct {
	SheetOnReelTime paperprop.Duration // at most AvailableTime
	AvailableTime   paperprop.Duration // without long planned stops, above zero
	SaleableMass    paperprop.Mass     // at most ReeledMass
	ReeledMass      paperprop.Mass     // at the moisture of SaleableMass, above zero
}

// MachineEfficiencyResult is both shares and their product.
type MachineEfficiencyResult struct {
	Uptime            paperprop.Fraction
	SaleableShare     paperprop.Fraction
	OverallEfficiency paperprop.Fraction
}

// Calculate returns the share of the time, that of the tonnes, and their product.
func (m MachineEfficiency) Calculate() (MachineEfficiencyResult, error) {
	return machineEfficiency.Calculate(m)
}

func (m MachineEfficiency) compute() (MachineEfficiencyResult, error) {
	if m.SheetOnReelTime > m.AvailableTime {
		return MachineEfficiencyResult{}, calc.Refuse("sheet-on-reel-time", m.SheetOnReelTime, "at most available-time %v", m.AvailableTime)
	}
	if m.SaleableMass > m.ReeledMass {
		return MachineEfficiencyResult{}, calc.Refuse("saleable-mass", m.SaleableMass, "at most reeled-mass %v", m.ReeledMass)
	}
	uptime, saleable := float64(m.SheetOnReelTime/m.AvailableTime), float64(m.SaleableMass/m.ReeledMass)
	return MachineEfficiencyResult{
		Uptime:            paperprop.Fraction(uptime),
		SaleableShare:     paperprop.Fraction(saleable),
		OverallEfficiency: paperprop.Fraction(uptime * saleable),
	}, nil
}

var machineEfficiency = &calc.Description[MachineEfficiency, MachineEfficiencyResult]{
	Name:    "machine-efficiency",
	Title:   "Efficiency of a paper machine, of time and of tonnes",
	Answers: "What share of its time a machine had sheet on the reel (the rest is downtime), what share of the reeled paper was sold, and both together.",
	Formula: []string{"eta_t = tau_s/tau_a", "x_s = m_s/m_r", "eta = eta_t*x_s"},
	Source:  "TAPPI TIP 0404-47, seen in public lecture slides",
	Status:  calc.Published,
	Example: "sheet-on-reel-time=637 h; available-time=700 h; saleable-mass=9053.6 t; reeled-mass=9631.4 t",
	Mistakes: []string{
		"Available time leaves out planned stops above 24 h, in one scheme above 48 h: machines compare only under one of them.",
		"Saleable is what leaves the winder less trim, slab and off-quality; both masses are at one moisture.",
	},
	Compare: []calc.Comparison{{
		Inputs: "sheet-on-reel-time=637 h; available-time=736 h; saleable-mass=9053.6 t; reeled-mass=9631.4 t",
		Why:    "a planned stop of 36 h is not available time where stops above 24 h are taken out, and is some where only those above 48 h are",
	}},
	Compute: MachineEfficiency.compute,
	Fields: func(f *calc.Form, in *MachineEfficiency, out *MachineEfficiencyResult) {
		calc.In(f, &in.SheetOnReelTime, "sheet-on-reel-time", "tau_s", "h", "with sheet on the reel, at most available-time")
		calc.In(f, &in.AvailableTime, "available-time", "tau_a", "h", "less planned stops above 24 h (one scheme: 48 h): say which").Above(0)
		calc.In(f, &in.SaleableMass, "saleable-mass", "m_s", "t", "net off the winder, at most reeled-mass")
		calc.In(f, &in.ReeledMass, "reeled-mass", "m_r", "t", "at the same moisture as saleable-mass").Above(0)
		calc.Out(f, &out.Uptime, "uptime", "eta_t", "%", "of the available time")
		calc.Out(f, &out.SaleableShare, "saleable-share", "x_s", "%", "of the reeled mass")
		calc.Out(f, &out.OverallEfficiency, "overall-efficiency", "eta", "%", "uptime times saleable-share (OME); OEE counts lost speed too (memory)")
	},
}
