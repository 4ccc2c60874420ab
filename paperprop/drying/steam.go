package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

// Steam is a state of saturated steam. Exactly one of Temperature, Pressure and
// GaugePressure is given.
type Steam struct {
	Temperature         *paperprop.Temperature     // 0 to 350 °C; nil: a pressure is given
	Pressure            paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
}

// SteamResult is the steam-table properties of that state.
type SteamResult struct {
	Temperature    paperprop.Temperature
	Pressure       paperprop.AbsolutePressure
	GaugePressure  paperprop.GaugePressure
	LiquidEnthalpy paperprop.SpecificEnergy // close to zero at the triple point
	SteamEnthalpy  paperprop.SpecificEnergy
	LatentHeat     paperprop.SpecificEnergy
	LiquidVolume   paperprop.SpecificVolume
	SteamVolume    paperprop.SpecificVolume
}

// Calculate evaluates IAPWS-IF97.
func (s Steam) Calculate() (SteamResult, error) { return steam.Calculate(s) }

func (s Steam) saturation() (water.Saturation, error) {
	if s.Temperature != nil {
		return water.SaturatedAt(*s.Temperature)
	}
	return saturatedSteam(s.Pressure, s.GaugePressure, s.AtmosphericPressure, "")
}

func (s Steam) compute() (SteamResult, error) {
	state, err := s.saturation()
	if err != nil {
		return SteamResult{}, err
	}
	r := SteamResult{
		Temperature:    state.Temperature,
		Pressure:       state.Pressure,
		GaugePressure:  state.Pressure.Gauge(s.AtmosphericPressure),
		LiquidEnthalpy: state.LiquidEnthalpy,
		SteamEnthalpy:  state.SteamEnthalpy,
		LatentHeat:     state.LatentHeat(),
		LiquidVolume:   state.Liquid().SpecificVolume,
		SteamVolume:    state.Steam().SpecificVolume,
	}
	if s.GaugePressure != nil {
		r.GaugePressure = *s.GaugePressure // subtracting the atmosphere again would lose a digit
	}
	return r, nil
}

var steam = &calc.Description[Steam, SteamResult]{
	Name:    "steam",
	Title:   "Saturated steam",
	Answers: "What a steam table says: temperature, pressure, enthalpies, latent heat and volumes of saturated steam.",
	Formula: []string{"p_g = p - p_a", "r = h_g - h_f"},
	Method:  "IAPWS-IF97: the saturation line by region 4, both ways; the liquid by region 1, the steam by region 2",
	Source:  if97,
	Status:  calc.Published,
	Example: "gauge-pressure=1.8 bar(g)",
	Mistakes: []string{
		"Gauge is not absolute: at 3 bar(g) steam has 143.7 degC, at 3 bar(a) 133.5 degC.",
		"At 1500 m the atmosphere is 0.85 bar(a): a gauge of 1 bar(g) is then 1.85 bar(a), 2.7 K colder than at sea level.",
		"First dryers run below the atmosphere: their gauge pressure is negative.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  Steam.compute,
	Fields: func(f *calc.Form, in *Steam, out *SteamResult) {
		steamState(f, &in.Temperature, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		calc.Out(f, &out.Temperature, "temperature", "T", "degC", "of saturation")
		calc.Out(f, &out.Pressure, "pressure", "p", "bar(a)", "of saturation, absolute")
		calc.Out(f, &out.GaugePressure, "gauge-pressure", "p_g", "bar(g)", "pressure less the atmosphere")
		calc.Out(f, &out.LiquidEnthalpy, "liquid-enthalpy", "h_f", "kJ/kg", "of the water; zero at the triple point")
		calc.Out(f, &out.SteamEnthalpy, "steam-enthalpy", "h_g", "kJ/kg", "of the steam")
		calc.Out(f, &out.LatentHeat, "latent-heat", "r", "kJ/kg", "given off by the steam as it condenses")
		calc.Out(f, &out.LiquidVolume, "liquid-volume", "v_f", "m3/kg", "of the water")
		calc.Out(f, &out.SteamVolume, "steam-volume", "v_g", "m3/kg", "of the steam")
	},
}

// WetSteam is a mixture of saturated steam and droplets. Exactly one of
// Temperature, Pressure and GaugePressure is given.
type WetSteam struct {
	Temperature         *paperprop.Temperature     // 0 to 350 °C; nil: a pressure is given
	Pressure            paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
	SteamQuality        paperprop.Fraction         // share of vapour by mass, 0 to 100 %
}

// WetSteamResult is the mixture and its two phases.
type WetSteamResult struct {
	Temperature                   paperprop.Temperature
	Pressure                      paperprop.AbsolutePressure
	Enthalpy                      paperprop.SpecificEnergy
	SpecificVolume                paperprop.SpecificVolume
	LiquidEnthalpy, SteamEnthalpy paperprop.SpecificEnergy
	LiquidVolume, SteamVolume     paperprop.SpecificVolume
}

// Calculate returns the enthalpy h_f + x·r, and the volume mixed likewise.
func (w WetSteam) Calculate() (WetSteamResult, error) { return wetSteam.Calculate(w) }

func (w WetSteam) compute() (WetSteamResult, error) {
	s, err := Steam{w.Temperature, w.Pressure, w.GaugePressure, w.AtmosphericPressure}.compute()
	x := float64(w.SteamQuality)
	mixed := func(liquid, steam float64) float64 { return liquid + x*(steam-liquid) }
	h := mixed(s.LiquidEnthalpy.In(paperprop.KilojoulePerKilogram), s.SteamEnthalpy.In(paperprop.KilojoulePerKilogram))
	v := mixed(s.LiquidVolume.In(paperprop.CubicMetrePerTonne), s.SteamVolume.In(paperprop.CubicMetrePerTonne))
	return WetSteamResult{
		Temperature: s.Temperature, Pressure: s.Pressure,
		Enthalpy:       paperprop.SpecificEnergy(h) * paperprop.KilojoulePerKilogram,
		SpecificVolume: paperprop.SpecificVolume(v) * paperprop.CubicMetrePerTonne,
		LiquidEnthalpy: s.LiquidEnthalpy, SteamEnthalpy: s.SteamEnthalpy,
		LiquidVolume: s.LiquidVolume, SteamVolume: s.SteamVolume,
	}, err
}

var wetSteam = &calc.Description[WetSteam, WetSteamResult]{
	Name:    "wet-steam",
	Title:   "Wet steam",
	Answers: "What enthalpy and volume steam has when it carries drops of water.",
	Formula: []string{"h = h_f + x*(h_g - h_f)", "v_s = v_f + x*(v_g - v_f)"},
	Method:  "enthalpies and volumes of saturated water and steam by IAPWS-IF97, regions 4, 1 and 2",
	Source:  if97,
	Status:  calc.Published,
	Example: "gauge-pressure=1.8 bar(g); steam-quality=96 %",
	Mistakes: []string{
		"Steam of 95 % still gives off 95 % of its latent heat, but its drops give none, and they wear valves.",
		"Quality is by mass: at 4 bar(a) 5 % of water by mass is one part in 8000 of the volume.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  WetSteam.compute,
	Fields: func(f *calc.Form, in *WetSteam, out *WetSteamResult) {
		steamState(f, &in.Temperature, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		calc.In(f, &in.SteamQuality, "steam-quality", "x", "%", "vapour by mass, 100 % less the wetness").From(0).UpTo(100)
		calc.Out(f, &out.Temperature, "temperature", "T", "degC", "of saturation")
		calc.Out(f, &out.Pressure, "pressure", "p", "bar(a)", "of saturation, absolute")
		calc.Out(f, &out.Enthalpy, "enthalpy", "h", "kJ/kg", "of the mixture; zero for water at the triple point")
		calc.Out(f, &out.SpecificVolume, "specific-volume", "v_s", "m3/kg", "of the mixture")
		calc.Between(f, &out.LiquidEnthalpy, "h_f", "kJ/kg", "enthalpy of the drops")
		calc.Between(f, &out.SteamEnthalpy, "h_g", "kJ/kg", "enthalpy of the vapour")
		calc.Between(f, &out.LiquidVolume, "v_f", "m3/kg", "volume of the drops")
		calc.Between(f, &out.SteamVolume, "v_g", "m3/kg", "volume of the vapour")
	},
}

// SuperheatedSteam is steam above its saturation temperature. Exactly one of
// Pressure and GaugePressure is given, and exactly one of Temperature and
// Superheat.
type SuperheatedSteam struct {
	Pressure            paperprop.AbsolutePressure       // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure         // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure       // zero stands for 1.01325 bar absolute
	Temperature         *paperprop.Temperature           // from saturation to 800 °C; nil is not given
	Superheat           *paperprop.TemperatureDifference // above saturation, from zero; nil is not given
}

// SuperheatedSteamResult is its steam-table properties.
type SuperheatedSteamResult struct {
	Pressure              paperprop.AbsolutePressure
	Temperature           paperprop.Temperature
	Superheat             paperprop.TemperatureDifference
	SaturationTemperature paperprop.Temperature
	Enthalpy              paperprop.SpecificEnergy
	SpecificVolume        paperprop.SpecificVolume
	HeatCapacity          paperprop.SpecificHeat // at constant pressure
}

// Calculate evaluates IAPWS-IF97.
func (s SuperheatedSteam) Calculate() (SuperheatedSteamResult, error) {
	return superheatedSteam.Calculate(s)
}

func (s SuperheatedSteam) compute() (SuperheatedSteamResult, error) {
	state, err := saturatedSteam(s.Pressure, s.GaugePressure, s.AtmosphericPressure, "")
	if err != nil {
		return SuperheatedSteamResult{}, err
	}
	r := SuperheatedSteamResult{Pressure: state.Pressure, SaturationTemperature: state.Temperature}
	if s.Temperature != nil {
		if hotter(state.Temperature, *s.Temperature) {
			return r, calc.Refuse("temperature", *s.Temperature, "that of saturation, %v, or above: this is water", state.Temperature)
		}
		r.Temperature = max(*s.Temperature, state.Temperature)
		r.Superheat = r.Temperature.Minus(state.Temperature)
	} else {
		r.Temperature, r.Superheat = state.Temperature.Plus(*s.Superheat), *s.Superheat
		if r.Temperature > water.HottestVapour {
			return r, calc.Refuse("superheat", r.Superheat, "at most %v, to %v", water.HottestVapour.Minus(state.Temperature), water.HottestVapour)
		}
	}
	v, err := state.Superheated(r.Temperature)
	r.Enthalpy, r.SpecificVolume, r.HeatCapacity = v.Enthalpy, v.SpecificVolume, v.HeatCapacity
	return r, err
}

var superheatedSteam = &calc.Description[SuperheatedSteam, SuperheatedSteamResult]{
	Name:    "superheated-steam",
	Title:   "Superheated steam",
	Answers: "What enthalpy and volume steam has when it is hotter than the temperature at which it condenses.",
	Formula: []string{"dT = T - T_sat", "T = T_sat + dT"},
	Method:  "saturation by IAPWS-IF97 region 4, the steam by region 2",
	Source:  if97,
	Status:  calc.Published,
	Example: "gauge-pressure=3.2 bar(g); superheat=20 K",
	Mistakes: []string{
		"Superheat hardly adds heat: 20 K at 4 bar(a) is 45 kJ/kg beside a latent heat of 2133 kJ/kg.",
		"A cylinder takes the superheat badly: until it is gone the steam gives off heat as a gas.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  SuperheatedSteam.compute,
	Fields: func(f *calc.Form, in *SuperheatedSteam, out *SuperheatedSteamResult) {
		steamPressure(f, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		f.Exactly(1,
			calc.Pointer(f, &in.Temperature, "temperature", "T", "degC", "of the steam").From(float64(water.Coldest)).UpTo(float64(water.HottestVapour)),
			calc.Pointer(f, &in.Superheat, "superheat", "dT", "K", "above saturation").From(0).UpTo(float64(water.HottestVapour)),
		)
		calc.Out(f, &out.Pressure, "pressure", "p", "bar(a)", "absolute")
		calc.Out(f, &out.Temperature, "temperature", "T", "degC", "of the steam")
		calc.Out(f, &out.Superheat, "superheat", "dT", "K", "above saturation")
		calc.Out(f, &out.SaturationTemperature, "saturation-temperature", "T_sat", "degC", "at which it condenses")
		calc.Out(f, &out.Enthalpy, "enthalpy", "h", "kJ/kg", "zero for water at the triple point")
		calc.Out(f, &out.SpecificVolume, "specific-volume", "v_s", "m3/kg", "of the steam")
		calc.Out(f, &out.HeatCapacity, "heat-capacity", "c_p", "kJ/(kg K)", "at constant pressure")
	},
}

// MeanSteamTemperature is the mean temperature of steam groups at several
// pressures. Exactly one of GaugePressure and Pressure is given, one value per
// group.
type MeanSteamTemperature struct {
	GaugePressure       []paperprop.GaugePressure
	Pressure            []paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute
	Cylinders           []paperprop.Count            // of each group: whole, from 1
	AtmosphericPressure paperprop.AbsolutePressure   // zero stands for 1.01325 bar absolute
}

// MeanSteamTemperatureResult is the mean, and the temperature that is often
// mistaken for it.
type MeanSteamTemperatureResult struct {
	MeanSteamTemperature    paperprop.Temperature
	SteamTemperature        []paperprop.Temperature // of each group
	MeanPressureTemperature paperprop.Temperature   // at the mean pressure: not the same
}

// Calculate weights the saturation temperatures by the cylinders.
func (m MeanSteamTemperature) Calculate() (MeanSteamTemperatureResult, error) {
	return meanSteamTemperature.Calculate(m)
}

func (m MeanSteamTemperature) compute() (MeanSteamTemperatureResult, error) {
	r := MeanSteamTemperatureResult{SteamTemperature: make([]paperprop.Temperature, len(m.Cylinders))}
	var cylinders, temperatures, pressures float64
	for i, n := range m.Cylinders {
		s, err := groupSteam(m.Pressure, m.GaugePressure, i, m.AtmosphericPressure)
		if err != nil {
			return r, err
		}
		r.SteamTemperature[i] = s.Temperature
		cylinders += float64(n)
		temperatures += float64(n) * s.Temperature.Celsius()
		pressures += float64(n) * s.Pressure.In(paperprop.BarAbsolute)
	}
	r.MeanSteamTemperature = paperprop.Celsius(temperatures / cylinders)
	var err error
	r.MeanPressureTemperature, err = water.SaturationTemperature(paperprop.AbsolutePressure(pressures/cylinders) * paperprop.BarAbsolute)
	return r, err
}

var meanSteamTemperature = &calc.Description[MeanSteamTemperature, MeanSteamTemperatureResult]{
	Name:    "mean-steam-temperature",
	Title:   "Mean steam temperature of a dryer section",
	Answers: "At what average steam temperature a dryer section runs, to set beside its drying rate.",
	Formula: []string{"T_m = sum(n*T_s)/sum(n)"},
	Method:  "saturation temperature of each group by IAPWS-IF97 region 4; that of the mean pressure is shown beside the mean",
	Source:  "definition published in TAPPI TIP 0404-07; saturation by " + if97,
	Status:  calc.Published,
	Example: "gauge-pressure=[0.4 1.8 3.2] bar(g); cylinders=[10 14 18]",
	Mistakes: []string{
		"The temperature of the mean pressure is another number: 141.7 in place of 139.5 degC for groups of 6, 14 and 20 cylinders at 0.5, 2 and 4 bar(g).",
		"Where the diameters differ, drying surface is the weight: give whole numbers in proportion to it.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  MeanSteamTemperature.compute,
	Fields: func(f *calc.Form, in *MeanSteamTemperature, out *MeanSteamTemperatureResult) {
		groupPressures(f, &in.GaugePressure, &in.Pressure, &in.Cylinders)
		steamAtmosphere(f, &in.AtmosphericPressure)
		calc.Out(f, &out.MeanSteamTemperature, "mean-steam-temperature", "T_m", "degC", "weighted by cylinders")
		calc.OutList(f, &out.SteamTemperature, "steam-temperature", "T_s", "degC", "saturation of each group")
		calc.Out(f, &out.MeanPressureTemperature, "mean-pressure-temperature", "T_p", "degC", "of the mean pressure: often taken for the mean, and wrong")
	},
}
