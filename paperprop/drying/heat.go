package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/water"
)

// SheetHeat is the heat that the web takes up in drying.
type SheetHeat struct {
	DrynessIn              paperprop.DryContent // web into the dryers: above zero, below that of the paper
	MoistureOut            paperprop.Moisture   // paper at the reel, below 100 %
	TemperatureIn          paperprop.Temperature
	EvaporationTemperature paperprop.Temperature    // from TemperatureIn to 350 °C
	TemperatureOut         paperprop.Temperature    // from EvaporationTemperature to 350 °C
	FibreHeatCapacity      paperprop.SpecificHeat   // dry, above zero
	WaterHeatCapacity      paperprop.SpecificHeat   // zero stands for 4.19 kJ/(kg K)
	SorptionHeatPerDry     paperprop.SpecificEnergy // from DesorptionHeat; zero is none
}

// SheetHeatResult is the heat, by purpose.
type SheetHeatResult struct {
	SensibleHeatPerDry    paperprop.SpecificEnergy // warming of the web
	EvaporationHeatPerDry paperprop.SpecificEnergy
	HeatPerWater          paperprop.SpecificEnergy // all heat, per water evaporated
	LatentHeat            paperprop.SpecificEnergy // at EvaporationTemperature
}

// Calculate heats the web to EvaporationTemperature, evaporates the water there,
// and heats the rest on.
func (s SheetHeat) Calculate() (SheetHeatResult, error) { return sheetHeat.Calculate(s) }

func (s SheetHeat) compute() (SheetHeatResult, error) {
	in, out, err := dries(s.DrynessIn, s.MoistureOut)
	switch {
	case err != nil:
	case s.TemperatureIn > s.EvaporationTemperature:
		err = calc.Refuse("temperature-in", s.TemperatureIn, "at most evaporation-temperature %v", s.EvaporationTemperature)
	case s.TemperatureOut < s.EvaporationTemperature:
		err = calc.Refuse("temperature-out", s.TemperatureOut, "evaporation-temperature %v or above", s.EvaporationTemperature)
	}
	if err != nil {
		return SheetHeatResult{}, err
	}
	state, err := water.SaturatedAt(s.EvaporationTemperature)
	if err != nil {
		return SheetHeatResult{}, calc.Refuse("evaporation-temperature", s.EvaporationTemperature, "%v to %v", water.Coldest, water.HottestSaturated)
	}
	fibre, liquid := s.FibreHeatCapacity.In(paperprop.KilojoulePerKilogramKelvin), s.WaterHeatCapacity.In(paperprop.KilojoulePerKilogramKelvin)
	r := state.LatentHeat().In(paperprop.KilojoulePerKilogram)
	wet, dry := (1-in)/in, (1-out)/out // water per dry mass
	warming := (fibre+liquid*wet)*float64(s.EvaporationTemperature.Minus(s.TemperatureIn)) +
		(fibre+liquid*dry)*float64(s.TemperatureOut.Minus(s.EvaporationTemperature))
	evaporating := (wet - dry) * r
	sorption := s.SorptionHeatPerDry.In(paperprop.KilojoulePerKilogram)
	return SheetHeatResult{
		SensibleHeatPerDry:    paperprop.SpecificEnergy(warming) * paperprop.KilojoulePerKilogram,
		EvaporationHeatPerDry: paperprop.SpecificEnergy(evaporating) * paperprop.KilojoulePerKilogram,
		HeatPerWater:          paperprop.SpecificEnergy((warming+evaporating+sorption)/(wet-dry)) * paperprop.KilojoulePerKilogram,
		LatentHeat:            state.LatentHeat(),
	}, nil
}

// webHeat binds the inputs of a heat balance over the web other than dryness and
// moisture.
func webHeat(f *calc.Form, in, evaporation, out *paperprop.Temperature, fibre, liquid *paperprop.SpecificHeat, sorption *paperprop.SpecificEnergy) {
	coldest, hottest := float64(water.Coldest), float64(water.HottestSaturated)
	calc.In(f, in, "temperature-in", "T_in", "degC", "web into the dryers; not above evaporation-temperature").From(coldest).UpTo(hottest)
	calc.In(f, evaporation, "evaporation-temperature", "T_e", "degC", "of the web where its water leaves").From(coldest).UpTo(hottest)
	calc.In(f, out, "temperature-out", "T_out", "degC", "web at the end; not below evaporation-temperature").From(coldest).UpTo(hottest)
	calc.In(f, fibre, "fibre-heat-capacity", "c_f", "kJ/(kg K)", "dry; printed values run from 1.2 to 1.55 (memory)").Above(0)
	calc.In(f, liquid, "water-heat-capacity", "c_w", "kJ/(kg K)", "of the water in the web").Above(0).Default(4.19)
	calc.In(f, sorption, "sorption-heat-per-dry", "h_3", "kJ/kg", "from desorption-heat with its named model").From(0).Default(0)
}

var sheetHeat = &calc.Description[SheetHeat, SheetHeatResult]{
	Name:    "sheet-heat",
	Title:   "Heat that the web takes up in the dryers",
	Answers: "How much heat the web itself takes, for each kilogram of water that leaves it.",
	Formula: []string{
		"u_in = (1 - d_in)/d_in",
		"u_out = w_out/(1 - w_out)",
		"h_1 = (c_f + c_w*u_in)*(T_e - T_in) + (c_f + c_w*u_out)*(T_out - T_e)",
		"h_2 = (u_in - u_out)*r",
		"h_w = (h_1 + h_2 + h_3)/(u_in - u_out)",
	},
	Method:  "latent heat r at the evaporation temperature by IAPWS-IF97",
	Source:  "balance of heat and water over the web; latent heat by " + if97,
	Status:  calc.CommonPractice,
	Example: "dryness-in=47.5 %; moisture-out=7.5 %; temperature-in=46 degC; evaporation-temperature=82 degC; temperature-out=97 degC; fibre-heat-capacity=1.4 kJ/(kg K)",
	Mistakes: []string{
		"The latent heat alone is too little: warming the web adds about a tenth.",
		"There is no one heat capacity of fibre: 1.2 and 1.55 kJ/(kg K) differ by 0.7 % in the heat.",
		"Water is held by the fibre at the end: sorption adds 0.5 to 1.5 %, by a model that must be named.",
	},
	Compute: SheetHeat.compute,
	Fields: func(f *calc.Form, in *SheetHeat, out *SheetHeatResult) {
		webThroughDryers(f, &in.DrynessIn, &in.MoistureOut)
		webHeat(f, &in.TemperatureIn, &in.EvaporationTemperature, &in.TemperatureOut,
			&in.FibreHeatCapacity, &in.WaterHeatCapacity, &in.SorptionHeatPerDry)
		calc.Out(f, &out.SensibleHeatPerDry, "sensible-heat-per-dry", "h_1", "kJ/kg", "warming of the web, per dry mass")
		calc.Out(f, &out.EvaporationHeatPerDry, "evaporation-heat-per-dry", "h_2", "kJ/kg", "latent, per dry mass")
		calc.Out(f, &out.HeatPerWater, "heat-per-water", "h_w", "kJ/kg", "all of it, per water evaporated")
		calc.Out(f, &out.LatentHeat, "latent-heat", "r", "kJ/kg", "at the evaporation temperature")
	},
}

// leastSteam is a specific steam use below which no cylinder dryer gets: a web
// takes about 2530 kJ/kg, that is 1.11 kg/kg at −0.3 bar gauge and 1.19 at 3, not
// counting losses to air, leaks and vents.
const leastSteam = 1.15 * paperprop.KilogramPerKilogram

var tooLittleSteam = calc.Warnings{{Code: "too-little-steam", Text: "less than 1.15 kg of steam per kg of water: less than web and losses need (1.2 to 1.5 is common practice), " +
	"so an input is wrong, unless the steam is below about 0.5 bar(g) or infrared, impingement or gas-fired hoods dry the web too"}}

// judgeSteam warns of less steam than a web needs.
func judgeSteam(use paperprop.MassRatio) calc.Warnings {
	if result.Rest(float64(use), float64(leastSteam)) < 0 {
		return tooLittleSteam
	}
	return nil
}

var colderThanWeb = calc.Warnings{{Code: "steam-colder-than-web", Text: "the steam condenses at a lower temperature than temperature-out: it can't heat the web that far; " +
	"a pressure or a temperature is wrong, or another source heats too"}}

// SteamPerWater is the steam needed per water evaporated. Exactly one of Pressure
// and GaugePressure is given.
type SteamPerWater struct {
	HeatPerWater        paperprop.SpecificEnergy   // that the steam must supply, losses included; above zero
	Pressure            paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
	SteamTemperature    *paperprop.Temperature     // superheated, from saturation to 800 °C; nil: saturated
}

// SteamPerWaterResult is the steam, and the heat that each kilogram gives off.
type SteamPerWaterResult struct {
	SteamPerWater      paperprop.MassRatio
	SteamEnthalpy      paperprop.SpecificEnergy
	CondensateEnthalpy paperprop.SpecificEnergy // saturated, at the pressure of the steam
	Warnings           calc.Warnings
}

// Calculate returns the steam h_w/(h_g − h_c).
func (s SteamPerWater) Calculate() (SteamPerWaterResult, error) { return steamPerWater.Calculate(s) }

func (s SteamPerWater) compute() (SteamPerWaterResult, error) {
	state, err := saturatedSteam(s.Pressure, s.GaugePressure, s.AtmosphericPressure, "")
	if err != nil {
		return SteamPerWaterResult{}, err
	}
	supplied, err := suppliedSteam(state, s.SteamTemperature)
	r := SteamPerWaterResult{
		SteamPerWater:      paperprop.MassRatio(s.HeatPerWater / (supplied - state.LiquidEnthalpy)),
		SteamEnthalpy:      supplied,
		CondensateEnthalpy: state.LiquidEnthalpy,
	}
	r.Warnings = judgeSteam(r.SteamPerWater)
	return r, err
}

// superheat binds the temperature of steam that may be superheated.
func superheat(f *calc.Form, t **paperprop.Temperature) {
	calc.Pointer(f, t, "steam-temperature", "T_s", "degC", "of superheated steam; left out: saturated").
		From(float64(water.Coldest)).UpTo(float64(water.HottestVapour))
}

var steamPerWater = &calc.Description[SteamPerWater, SteamPerWaterResult]{
	Name:    "steam-per-water",
	Title:   "Steam per water evaporated",
	Answers: "How much steam evaporates a kilogram of water, from the heat that this takes.",
	Formula: []string{"k_s = h_w/(h_g - h_c)"},
	Method:  "enthalpies by IAPWS-IF97; the condensate leaves saturated at the pressure of the steam",
	Source:  "balance of heat over the cylinder; enthalpies by " + if97,
	Status:  calc.CommonPractice,
	Example: "heat-per-water=2930 kJ/kg; gauge-pressure=3.2 bar(g)",
	Mistakes: []string{
		"Higher pressure does not save steam: its latent heat falls, from 2257 kJ/kg at 0 to 2000 kJ/kg at 10 bar(g).",
		"The heat must hold the losses to air, leaks, vents and radiation: the web alone asks about 1.19 kg/kg at 3 bar(g), 1.2 to 1.5 is common practice.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  SteamPerWater.compute,
	Fields: func(f *calc.Form, in *SteamPerWater, out *SteamPerWaterResult) {
		calc.In(f, &in.HeatPerWater, "heat-per-water", "h_w", "kJ/kg", "asked of the steam, losses included").Above(0)
		steamPressure(f, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		superheat(f, &in.SteamTemperature)
		calc.Out(f, &out.SteamPerWater, "steam-per-water", "k_s", "kg/kg", "steam per water evaporated")
		calc.Out(f, &out.SteamEnthalpy, "steam-enthalpy", "h_g", "kJ/kg", "of the steam as supplied")
		calc.Out(f, &out.CondensateEnthalpy, "condensate-enthalpy", "h_c", "kJ/kg", "of the condensate, saturated")
		f.Warnings(&out.Warnings)
	},
}

// DryerSteam is the steam of a whole dryer section. Exactly one of Pressure and
// GaugePressure is given.
type DryerSteam struct {
	PaperFlow              paperprop.MassFlow   // moist, above zero
	DrynessIn              paperprop.DryContent // web into the dryers: above zero, below that of the paper
	MoistureOut            paperprop.Moisture   // paper at the reel, below 100 %
	TemperatureIn          paperprop.Temperature
	EvaporationTemperature paperprop.Temperature      // from TemperatureIn to 350 °C
	TemperatureOut         paperprop.Temperature      // from EvaporationTemperature to 350 °C
	FibreHeatCapacity      paperprop.SpecificHeat     // dry, above zero
	WaterHeatCapacity      paperprop.SpecificHeat     // zero stands for 4.19 kJ/(kg K)
	SorptionHeatPerDry     paperprop.SpecificEnergy   // from DesorptionHeat; zero is none
	OtherHeatShare         paperprop.Fraction         // for air, leakage, venting and radiation, over the sheet heat
	Pressure               paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure          *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure    paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
	SteamTemperature       *paperprop.Temperature     // superheated, from saturation to 800 °C; nil: saturated
}

// DryerSteamResult is the water, heat and steam of the section.
type DryerSteamResult struct {
	Evaporation   paperprop.MassFlow
	HeatPerWater  paperprop.SpecificEnergy // of the sheet
	HeatFlow      paperprop.Power          // of the sheet and the rest together
	SteamPerWater paperprop.MassRatio
	SteamFlow     paperprop.MassFlow
	SteamPerPaper paperprop.MassRatio

	SensibleHeatPerDry                paperprop.SpecificEnergy // warming of the web
	LatentHeat                        paperprop.SpecificEnergy // of the water, at EvaporationTemperature
	SteamEnthalpy, CondensateEnthalpy paperprop.SpecificEnergy
	Warnings                          calc.Warnings
}

// Calculate combines evaporation, sheet heat and steam per water.
func (d DryerSteam) Calculate() (DryerSteamResult, error) { return dryerSteam.Calculate(d) }

func (d DryerSteam) sheet() SheetHeat {
	return SheetHeat{
		DrynessIn: d.DrynessIn, MoistureOut: d.MoistureOut,
		TemperatureIn: d.TemperatureIn, EvaporationTemperature: d.EvaporationTemperature, TemperatureOut: d.TemperatureOut,
		FibreHeatCapacity: d.FibreHeatCapacity, WaterHeatCapacity: d.WaterHeatCapacity, SorptionHeatPerDry: d.SorptionHeatPerDry,
	}
}

func (d DryerSteam) compute() (DryerSteamResult, error) {
	evaporated, err := Evaporation{d.DrynessIn, d.MoistureOut, d.PaperFlow}.compute()
	if err != nil {
		return DryerSteamResult{}, err
	}
	sheet, err := d.sheet().compute()
	if err != nil {
		return DryerSteamResult{}, err
	}
	heat := sheet.HeatPerWater.In(paperprop.KilojoulePerKilogram) * (1 + float64(d.OtherHeatShare))
	supply, err := SteamPerWater{
		HeatPerWater: paperprop.SpecificEnergy(heat) * paperprop.KilojoulePerKilogram,
		Pressure:     d.Pressure, GaugePressure: d.GaugePressure, AtmosphericPressure: d.AtmosphericPressure,
		SteamTemperature: d.SteamTemperature,
	}.compute()
	warnings := supply.Warnings
	if state, err := saturatedSteam(d.Pressure, d.GaugePressure, d.AtmosphericPressure, ""); err == nil && hotter(d.TemperatureOut, state.Temperature) {
		warnings = append(colderThanWeb[:1:1], warnings...)
	}
	flow := evaporated.Evaporation.In(paperprop.KilogramPerSecond)
	steam := flow * float64(supply.SteamPerWater)
	return DryerSteamResult{
		Evaporation:   evaporated.Evaporation,
		HeatPerWater:  sheet.HeatPerWater,
		HeatFlow:      paperprop.Power(flow*heat) * paperprop.Kilowatt,
		SteamPerWater: supply.SteamPerWater,
		SteamFlow:     paperprop.MassFlow(steam) * paperprop.KilogramPerSecond,
		SteamPerPaper: paperprop.MassRatio(steam / d.PaperFlow.In(paperprop.KilogramPerSecond)),
		LatentHeat:    sheet.LatentHeat, SensibleHeatPerDry: sheet.SensibleHeatPerDry, SteamEnthalpy: supply.SteamEnthalpy, CondensateEnthalpy: supply.CondensateEnthalpy,
		Warnings: warnings,
	}, err
}

var dryerSteam = &calc.Description[DryerSteam, DryerSteamResult]{
	Name:    "dryer-steam",
	Title:   "Steam of a dryer section",
	Answers: "How much steam a dryer section takes, from the web, its temperatures and the steam's pressure.",
	Formula: []string{
		"q_e = P*((1 - w_out)/d_in - 1)",
		"u_in = (1 - d_in)/d_in",
		"u_out = w_out/(1 - w_out)",
		"h_1 = (c_f + c_w*u_in)*(T_e - T_in) + (c_f + c_w*u_out)*(T_out - T_e)",
		"h_w = (h_1 + (u_in - u_out)*r + h_3)/(u_in - u_out)",
		"P_h = q_e*h_w*(1 + x_o)",
		"k_s = h_w*(1 + x_o)/(h_g - h_c)",
		"q_s = q_e*k_s",
		"k_p = q_s/P",
	},
	Method: "latent heat r at the evaporation temperature, enthalpies of steam and saturated condensate by IAPWS-IF97",
	Source: "balance of heat and water over the dryers; enthalpies by " + if97,
	Status: calc.CommonPractice,
	Example: "paper-flow=15.12 t/h; dryness-in=47.5 %; moisture-out=7.5 %; temperature-in=46 degC; evaporation-temperature=82 degC; temperature-out=97 degC; " +
		"fibre-heat-capacity=1.4 kJ/(kg K); other-heat-share=15 %; gauge-pressure=3.2 bar(g)",
	Mistakes: []string{
		"The heat that goes past the web (air, leakage, venting, radiation) has no default: measure it, or judge it by steam-per-water, 1.2 to 1.5 kg/kg by common practice.",
		"A size press wets the web again: add its water with size-press-evaporation.",
		"Steam that blows through and is used elsewhere is not used here.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  DryerSteam.compute,
	Fields: func(f *calc.Form, in *DryerSteam, out *DryerSteamResult) {
		calc.In(f, &in.PaperFlow, "paper-flow", "P", "t/h", "moist, at moisture-out").Above(0)
		webThroughDryers(f, &in.DrynessIn, &in.MoistureOut)
		webHeat(f, &in.TemperatureIn, &in.EvaporationTemperature, &in.TemperatureOut,
			&in.FibreHeatCapacity, &in.WaterHeatCapacity, &in.SorptionHeatPerDry)
		calc.In(f, &in.OtherHeatShare, "other-heat-share", "x_o", "%", "air, leakage, venting, radiation, of the sheet heat").From(0)
		steamPressure(f, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		superheat(f, &in.SteamTemperature)
		calc.Out(f, &out.Evaporation, "evaporation", "q_e", "t/h", "water evaporated")
		calc.Out(f, &out.HeatPerWater, "heat-per-water", "h_w", "kJ/kg", "of the sheet, per water evaporated")
		calc.Out(f, &out.HeatFlow, "heat-flow", "P_h", "kW", "of sheet and others together")
		calc.Out(f, &out.SteamPerWater, "steam-per-water", "k_s", "kg/kg", "others included")
		calc.Out(f, &out.SteamFlow, "steam-flow", "q_s", "t/h", "to the dryers")
		calc.Out(f, &out.SteamPerPaper, "steam-per-paper", "k_p", "t/t", "per mass of paper at the reel")
		calc.Between(f, &out.SensibleHeatPerDry, "h_1", "kJ/kg", "warming of the web, per dry mass")
		calc.Between(f, &out.LatentHeat, "r", "kJ/kg", "latent heat at the evaporation temperature")
		calc.Between(f, &out.SteamEnthalpy, "h_g", "kJ/kg", "enthalpy of the steam as supplied")
		calc.Between(f, &out.CondensateEnthalpy, "h_c", "kJ/kg", "enthalpy of the condensate, saturated")
		f.Warnings(&out.Warnings)
	},
}
