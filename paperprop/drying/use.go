package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// grossOrNet is a mistake common to all results per tonne.
const grossOrNet = "Per tonne on the reel and per tonne sold differ by broke and trim: say which."

func paperFlow(f *calc.Form, p *paperprop.MassFlow) {
	calc.In(f, p, "paper-flow", "P", "t/h", "say whether gross or net").Above(0)
}

// SteamUse is the measured steam consumption of a dryer section.
type SteamUse struct {
	SteamFlow   paperprop.MassFlow // to the dryers, above zero
	Evaporation paperprop.MassFlow // above zero
	PaperFlow   paperprop.MassFlow // above zero
}

// SteamUseResult is the steam per water and per paper.
type SteamUseResult struct {
	SteamPerWater paperprop.MassRatio
	SteamPerPaper paperprop.MassRatio
	Warnings      calc.Warnings
}

// Calculate returns the steam per water q_s/q_e, and per paper q_s/P.
func (s SteamUse) Calculate() (SteamUseResult, error) { return steamUse.Calculate(s) }

func (s SteamUse) compute() (SteamUseResult, error) {
	perWater := paperprop.MassRatio(s.SteamFlow / s.Evaporation)
	return SteamUseResult{
		SteamPerWater: perWater,
		SteamPerPaper: paperprop.MassRatio(s.SteamFlow / s.PaperFlow),
		Warnings:      judgeSteam(perWater),
	}, nil
}

var steamUse = &calc.Description[SteamUse, SteamUseResult]{
	Name:    "steam-use",
	Title:   "Specific steam use of a dryer section",
	Answers: "How much steam a dryer section takes per water evaporated and per tonne of paper (specific steam consumption), from its meters.",
	Formula: []string{"k_s = q_s/q_e", "k_p = q_s/P"},
	Source:  "definition; 1.2 to 1.5 kg/kg is common practice",
	Status:  calc.CommonPractice,
	Example: "steam-flow=25.68 t/h; evaporation=18.8788 t/h; paper-flow=15.12 t/h",
	Mistakes: []string{
		"Below 1.15 kg/kg an input is wrong, often the dryness off the press or a meter of the wrong range, unless the steam is below about 0.5 bar(g) or infrared, impingement or gas-fired hoods dry too.",
		"Steam per paper says as much of the press as of the dryers: compare machines by steam per water.",
		grossOrNet,
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  SteamUse.compute,
	Fields: func(f *calc.Form, in *SteamUse, out *SteamUseResult) {
		calc.In(f, &in.SteamFlow, "steam-flow", "q_s", "t/h", "to the dryers").Above(0)
		calc.In(f, &in.Evaporation, "evaporation", "q_e", "t/h", "water evaporated").Above(0)
		paperFlow(f, &in.PaperFlow)
		calc.Out(f, &out.SteamPerWater, "steam-per-water", "k_s", "kg/kg", "steam per water evaporated")
		calc.Out(f, &out.SteamPerPaper, "steam-per-paper", "k_p", "t/t", "steam per paper")
		f.Warnings(&out.Warnings)
	},
}

// HeatUse is the heat supplied by a flow of steam. Exactly one of Pressure and
// GaugePressure is given.
type HeatUse struct {
	SteamFlow           paperprop.MassFlow         // above zero
	PaperFlow           paperprop.MassFlow         // above zero
	Pressure            paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
}

// HeatUseResult is the heat as a flow and per paper.
type HeatUseResult struct {
	HeatFlow     paperprop.Power
	HeatPerPaper paperprop.SpecificEnergy
	LatentHeat   paperprop.SpecificEnergy
}

// Calculate returns the heat q_s·r, for saturated steam in and condensate out.
func (h HeatUse) Calculate() (HeatUseResult, error) { return heatUse.Calculate(h) }

func (h HeatUse) compute() (HeatUseResult, error) {
	s, err := saturatedSteam(h.Pressure, h.GaugePressure, h.AtmosphericPressure, "")
	if err != nil {
		return HeatUseResult{}, err
	}
	latent := s.LatentHeat().In(paperprop.KilojoulePerKilogram)
	return HeatUseResult{
		HeatFlow:     paperprop.Power(h.SteamFlow.In(paperprop.KilogramPerSecond)*latent) * paperprop.Kilowatt,
		HeatPerPaper: paperprop.SpecificEnergy(float64(h.SteamFlow/h.PaperFlow)*latent) * paperprop.KilojoulePerKilogram,
		LatentHeat:   s.LatentHeat(),
	}, nil
}

var heatUse = &calc.Description[HeatUse, HeatUseResult]{
	Name:    "heat-use",
	Title:   "Heat used as steam",
	Answers: "How much heat a flow of steam brings, and how much that is for a tonne of paper.",
	Formula: []string{"P_h = q_s*r", "h_p = P_h/P"},
	Method:  "latent heat r by IAPWS-IF97; saturated steam in, saturated condensate out",
	Source:  "definition; latent heat by " + if97,
	Status:  calc.CommonPractice,
	Example: "steam-flow=25.68 t/h; paper-flow=15.12 t/h; gauge-pressure=3.2 bar(g)",
	Mistakes: []string{
		"A tonne of steam is not always the same heat: 2.16 GJ at 2, 2.00 GJ at 10 bar(g), more if the condensate is lost.",
		grossOrNet,
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  HeatUse.compute,
	Fields: func(f *calc.Form, in *HeatUse, out *HeatUseResult) {
		calc.In(f, &in.SteamFlow, "steam-flow", "q_s", "t/h", "steam used").Above(0)
		paperFlow(f, &in.PaperFlow)
		steamPressure(f, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		calc.Out(f, &out.HeatFlow, "heat-flow", "P_h", "kW", "steam to condensate")
		calc.Out(f, &out.HeatPerPaper, "heat-per-paper", "h_p", "GJ/t", "per paper")
		calc.Between(f, &out.LatentHeat, "r", "kJ/kg", "latent heat of the steam")
	},
}

// PowerUse is the electricity used for paper.
type PowerUse struct {
	Power     paperprop.Power    // from zero
	PaperFlow paperprop.MassFlow // above zero
}

// PowerUseResult is the electricity per paper.
type PowerUseResult struct {
	PowerPerPaper paperprop.SpecificEnergy
}

// Calculate returns the electricity P_e/P.
func (p PowerUse) Calculate() (PowerUseResult, error) { return powerUse.Calculate(p) }

func (p PowerUse) compute() (PowerUseResult, error) {
	return PowerUseResult{paperprop.SpecificEnergy(p.Power.In(paperprop.Kilowatt)/p.PaperFlow.In(paperprop.TonnePerHour)) * paperprop.KilowattHourPerTonne}, nil
}

var powerUse = &calc.Description[PowerUse, PowerUseResult]{
	Name:     "power-use",
	Title:    "Electricity per tonne of paper",
	Answers:  "How much electricity a tonne of paper takes (specific consumption of power).",
	Formula:  []string{"e_p = P_e/P"},
	Source:   "definition",
	Status:   calc.CommonPractice,
	Example:  "power=5.8 MW; paper-flow=15.12 t/h",
	Mistakes: []string{grossOrNet, "Say what the meter counts: machine alone, stock preparation, or the whole mill."},
	Compute:  PowerUse.compute,
	Fields: func(f *calc.Form, in *PowerUse, out *PowerUseResult) {
		calc.In(f, &in.Power, "power", "P_e", "kW", "electricity").From(0)
		paperFlow(f, &in.PaperFlow)
		calc.Out(f, &out.PowerPerPaper, "power-per-paper", "e_p", "kWh/t", "electricity per paper")
	},
}

// WaterUse is the fresh water used for paper.
type WaterUse struct {
	FreshVolumeFlow paperprop.VolumeFlow // from zero
	PaperFlow       paperprop.MassFlow   // above zero
}

// WaterUseResult is the fresh water per paper.
type WaterUseResult struct {
	FreshPerPaper paperprop.SpecificVolume
}

// Calculate returns the water Q_0/P.
func (w WaterUse) Calculate() (WaterUseResult, error) { return waterUse.Calculate(w) }

func (w WaterUse) compute() (WaterUseResult, error) {
	return WaterUseResult{paperprop.SpecificVolume(w.FreshVolumeFlow.In(paperprop.CubicMetrePerHour)/w.PaperFlow.In(paperprop.TonnePerHour)) * paperprop.CubicMetrePerTonne}, nil
}

var waterUse = &calc.Description[WaterUse, WaterUseResult]{
	Name:     "water-use",
	Title:    "Fresh water per tonne of paper",
	Answers:  "How much fresh water a tonne of paper takes (specific consumption of water).",
	Formula:  []string{"v_0 = Q_0/P"},
	Source:   "definition",
	Status:   calc.CommonPractice,
	Example:  "fresh-volume-flow=102.3 m3/h; paper-flow=14.2128 t/h",
	Mistakes: []string{grossOrNet, "Fresh water is not effluent: about 1 m3/t leaves through the hood."},
	Compute:  WaterUse.compute,
	Fields: func(f *calc.Form, in *WaterUse, out *WaterUseResult) {
		calc.In(f, &in.FreshVolumeFlow, "fresh-volume-flow", "Q_0", "m3/h", "fresh water").From(0)
		paperFlow(f, &in.PaperFlow)
		calc.Out(f, &out.FreshPerPaper, "fresh-per-paper", "v_0", "m3/t", "fresh water per paper")
	},
}

// EnergyUse is heat and electricity together.
type EnergyUse struct {
	HeatPerPaper  paperprop.SpecificEnergy // from zero
	PowerPerPaper paperprop.SpecificEnergy // from zero
}

// EnergyUseResult is the sum, without weighting.
type EnergyUseResult struct {
	EnergyPerPaper paperprop.SpecificEnergy
}

// Calculate returns the sum h_p + e_e.
func (e EnergyUse) Calculate() (EnergyUseResult, error) { return energyUse.Calculate(e) }

func (e EnergyUse) compute() (EnergyUseResult, error) {
	return EnergyUseResult{e.HeatPerPaper + e.PowerPerPaper}, nil
}

var energyUse = &calc.Description[EnergyUse, EnergyUseResult]{
	Name:    "energy-use",
	Title:   "Heat and electricity per tonne of paper",
	Answers: "How much heat and electricity a tonne of paper takes, added up.",
	Formula: []string{"e_t = h_p + e_e"},
	Source:  "definition",
	Status:  calc.CommonPractice,
	Example: "heat-per-paper=3.62 GJ/t; power-per-paper=384 kWh/t",
	Mistakes: []string{
		"It is a sum, not primary energy: a kilowatt-hour of electricity takes more than one of fuel.",
		"A GJ is 277.8 kWh.",
	},
	Compute: EnergyUse.compute,
	Fields: func(f *calc.Form, in *EnergyUse, out *EnergyUseResult) {
		calc.In(f, &in.HeatPerPaper, "heat-per-paper", "h_p", "GJ/t", "heat").From(0)
		calc.In(f, &in.PowerPerPaper, "power-per-paper", "e_e", "kWh/t", "electricity").From(0)
		calc.Out(f, &out.EnergyPerPaper, "energy-per-paper", "e_t", "MWh/t", "both, without weighting")
	},
}
