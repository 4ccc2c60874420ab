package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

// SteamHeating heats a flow of stock with saturated steam that condenses in it.
// Exactly one of Pressure and GaugePressure is given.
type SteamHeating struct {
	MassFlow            paperprop.MassFlow         // stock before, above zero
	ConsistencyIn       paperprop.Consistency      // before
	TemperatureIn       paperprop.Temperature      // before, 0 to 180 °C
	TemperatureOut      paperprop.Temperature      // wanted: above TemperatureIn, at most 180 °C
	Pressure            paperprop.AbsolutePressure // of the steam, which must condense above TemperatureOut; zero: GaugePressure is given
	GaugePressure       *paperprop.GaugePressure   // of the same steam, may be negative; nil: Pressure is given
	AtmosphericPressure paperprop.AbsolutePressure // added to a gauge pressure; zero stands for 1.01325 bar
	FibreHeatCapacity   paperprop.SpecificHeat     // of dry matter, above zero
	WaterHeatCapacity   paperprop.SpecificHeat     // of the water in the stock; zero stands for 4.19 kJ/(kg K)
}

// SteamHeatingResult is the heat, the steam that brings it and the stock after.
type SteamHeatingResult struct {
	HeatFlow       paperprop.Power // taken up by the stock
	SteamFlow      paperprop.MassFlow
	MassFlowOut    paperprop.MassFlow // with the condensed steam
	ConsistencyOut paperprop.Consistency

	steam, condensate paperprop.SpecificEnergy
}

// Calculate returns the heat q(c·c_f + (1 − c)c_h)(T_out − T_in), and the steam
// that gives it up on condensing to water at T_out.
func (s SteamHeating) Calculate() (SteamHeatingResult, error) { return steamHeating.Calculate(s) }

func (s SteamHeating) compute() (SteamHeatingResult, error) {
	if s.TemperatureOut <= s.TemperatureIn {
		return SteamHeatingResult{}, calc.Refuse("temperature-out", s.TemperatureOut, "above temperature-in %v", s.TemperatureIn)
	}
	condensed, err := water.SaturatedAt(s.TemperatureOut)
	if err != nil {
		return SteamHeatingResult{}, err
	}
	p := s.Pressure
	if s.GaugePressure != nil {
		if p = s.GaugePressure.Absolute(s.AtmosphericPressure); p <= condensed.Pressure {
			return SteamHeatingResult{}, calc.Refuse("gauge-pressure", *s.GaugePressure,
				"above %v: there steam condenses at temperature-out %v", paperprop.GaugePressure(condensed.Pressure-s.AtmosphericPressure), s.TemperatureOut)
		}
	} else if p <= condensed.Pressure {
		return SteamHeatingResult{}, calc.Refuse("pressure", p, "above %v: there steam condenses at temperature-out %v", condensed.Pressure, s.TemperatureOut)
	}
	steam, err := water.SaturatedUnder(p)
	if err != nil {
		return SteamHeatingResult{}, err
	}
	q, c := s.MassFlow.In(paperprop.TonnePerHour), float64(s.ConsistencyIn)
	capacity := c*s.FibreHeatCapacity.In(paperprop.KilojoulePerKilogramKelvin) + (1-c)*s.WaterHeatCapacity.In(paperprop.KilojoulePerKilogramKelvin)
	heat := q * capacity * float64(s.TemperatureOut-s.TemperatureIn) // MJ/h
	r := SteamHeatingResult{steam: steam.SteamEnthalpy, condensate: condensed.LiquidEnthalpy}
	added := heat / (r.steam - r.condensate).In(paperprop.KilojoulePerKilogram) // t/h
	r.HeatFlow = paperprop.Power(heat/3.6) * paperprop.Kilowatt
	r.SteamFlow = paperprop.MassFlow(added) * paperprop.TonnePerHour
	r.MassFlowOut = paperprop.MassFlow(q+added) * paperprop.TonnePerHour
	r.ConsistencyOut = paperprop.Consistency(q * c / (q + added))
	return r, nil
}

var steamHeating = &calc.Description[SteamHeating, SteamHeatingResult]{
	Name:    "steam-heating",
	Title:   "Heating of stock by steam",
	Answers: "How much steam warms a flow of stock, and how much the condensed steam thins it.",
	Formula: []string{
		"P_h = q*(c_in*c_f + (1 - c_in)*c_h)*(T_out - T_in)",
		"q_s = P_h/(h_g - h_f)",
		"q_out = q + q_s",
		"c_out = q*c_in/q_out",
	},
	Source: "balance of heat and mass, no heat lost; steam saturated and dry at its pressure, water saturated at temperature-out, by IAPWS-IF97; " +
		"heat capacities taken as constant",
	Status:  calc.CommonPractice,
	Example: "mass-flow=200 t/h; consistency-in=4 %; temperature-in=45 degC; temperature-out=60 degC; gauge-pressure=3.2 bar(g); fibre-heat-capacity=1.4 kJ/(kg K)",
	Mistakes: []string{
		"The water leaves with the stock at temperature-out: it gives more than the latent heat at the steam pressure.",
		"The steam stays in the stock as water and thins it.",
		"bar is not bar(g): 3.2 bar(g) are 4.2 bar(a).",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  SteamHeating.compute,
	Fields: func(f *calc.Form, in *SteamHeating, out *SteamHeatingResult) {
		calc.In(f, &in.MassFlow, "mass-flow", "q", "t/h", "stock before").Above(0)
		calc.In(f, &in.ConsistencyIn, "consistency-in", "c_in", "%", "before")
		calc.In(f, &in.TemperatureIn, "temperature-in", "T_in", "degC", "before").From(0).UpTo(180)
		calc.In(f, &in.TemperatureOut, "temperature-out", "T_out", "degC", "wanted; over 100 degC under pressure").From(0).UpTo(180)
		f.Exactly(1,
			calc.In(f, &in.Pressure, "pressure", "p", "bar(a)", "of saturated dry steam that condenses in the stock").Above(0),
			calc.Pointer(f, &in.GaugePressure, "gauge-pressure", "p_g", "bar(g)", "of the same steam, may be negative"),
		)
		calc.In(f, &in.AtmosphericPressure, "atmospheric-pressure", "p_a", "bar(a)", "added to a gauge pressure").Above(0).Default(1.01325)
		heatCapacities(f, &in.FibreHeatCapacity, &in.WaterHeatCapacity)
		calc.Out(f, &out.HeatFlow, "heat-flow", "P_h", "kW", "taken up by the stock")
		calc.Out(f, &out.SteamFlow, "steam-flow", "q_s", "t/h", "saturated steam")
		calc.Out(f, &out.MassFlowOut, "mass-flow-out", "q_out", "t/h", "stock with the condensed steam")
		calc.Out(f, &out.ConsistencyOut, "consistency-out", "c_out", "%", "after it")
		calc.Between(f, &out.steam, "h_g", "kJ/kg", "enthalpy of the steam")
		calc.Between(f, &out.condensate, "h_f", "kJ/kg", "enthalpy of the water that it becomes")
	},
}
