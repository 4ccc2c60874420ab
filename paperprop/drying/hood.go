package drying

import (
	"errors"
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/water"
)

// exhaustRatio returns the humidity ratio of exhaust air: x, or that at the dew
// point if one is given.
func exhaustRatio(x paperprop.HumidityRatio, dew *paperprop.Temperature, atmosphere paperprop.AbsolutePressure) (paperprop.HumidityRatio, error) {
	if dew == nil {
		return x, nil
	}
	x, err := water.RatioAtDewPoint(*dew, atmosphere)
	var bound *paperprop.RangeError
	if errors.As(err, &bound) {
		bound.Input = "exhaust-dew-point"
	}
	return x, err
}

// exhaustAir binds the humidity of exhaust air, as a humidity ratio or a dew point.
func exhaustAir(f *calc.Form, x *paperprop.HumidityRatio, dew **paperprop.Temperature) {
	f.Exactly(1,
		calc.In(f, x, "exhaust-humidity-ratio", "X_x", "kg/kg", "water over DRY exhaust air").Above(0),
		calc.Pointer(f, dew, "exhaust-dew-point", "T_dx", "degC", "of the exhaust air, below boiling").From(0).UpTo(float64(water.HottestAir)),
	)
}

// refuseExhaust returns the error for exhaust air that is too dry.
func refuseExhaust(x paperprop.HumidityRatio, dew *paperprop.Temperature, least paperprop.HumidityRatio, whose string) error {
	if dew != nil {
		return calc.Refuse("exhaust-dew-point", *dew, "that of a humidity ratio above %v, "+whose, least)
	}
	return calc.Refuse("exhaust-humidity-ratio", x, "above %v, "+whose, least)
}

// AirPerWater is the dry air that carries away a mass of water. Exactly one of
// ExhaustHumidityRatio and ExhaustDewPoint is given.
type AirPerWater struct {
	ExhaustHumidityRatio paperprop.HumidityRatio    // above the supply's; zero is not given
	ExhaustDewPoint      *paperprop.Temperature     // 0 to 200 °C, below boiling; nil is not given
	SupplyHumidityRatio  paperprop.HumidityRatio    // from zero
	AtmosphericPressure  paperprop.AbsolutePressure // for the dew point; zero stands for 1.01325 bar absolute
}

// AirPerWaterResult is that air.
type AirPerWaterResult struct {
	ExhaustHumidityRatio paperprop.HumidityRatio
	AirPerWater          paperprop.MassRatio // DRY air
}

// Calculate returns the air per water 1/(X_x − X_y).
func (a AirPerWater) Calculate() (AirPerWaterResult, error) { return airPerWater.Calculate(a) }

func (a AirPerWater) compute() (AirPerWaterResult, error) {
	x, err := exhaustRatio(a.ExhaustHumidityRatio, a.ExhaustDewPoint, a.AtmosphericPressure)
	if err != nil {
		return AirPerWaterResult{}, err
	}
	carried := result.Rest(float64(x), float64(a.SupplyHumidityRatio))
	if carried <= 0 {
		return AirPerWaterResult{}, refuseExhaust(x, a.ExhaustDewPoint, a.SupplyHumidityRatio, "that of the supply air")
	}
	return AirPerWaterResult{x, paperprop.MassRatio(1 / carried)}, nil
}

var airPerWater = &calc.Description[AirPerWater, AirPerWaterResult]{
	Name:    "air-per-water",
	Title:   "Dry air per water evaporated",
	Answers: "How much dry air carries off each kilogram of water, where nothing leaks.",
	Formula: []string{"k_a = 1/(X_x - X_y)"},
	Method:  "a dew point becomes a humidity ratio as in humid-air",
	Source:  "balance of water over the hood; saturation by " + handbook,
	Status:  calc.CommonPractice,
	Example: "exhaust-dew-point=60 degC; supply-humidity-ratio=0.01 kg/kg",
	Mistakes: []string{
		"Air at 60 degC dew point needs 7 kg of dry air per kg of water, at 50 degC 13: the dew point decides what the hood costs.",
		"Air that leaks in carries water off too, cold: see hood.",
	},
	Compute: AirPerWater.compute,
	Fields: func(f *calc.Form, in *AirPerWater, out *AirPerWaterResult) {
		exhaustAir(f, &in.ExhaustHumidityRatio, &in.ExhaustDewPoint)
		calc.In(f, &in.SupplyHumidityRatio, "supply-humidity-ratio", "X_y", "kg/kg", "water over DRY supply air").From(0)
		airAtmosphere(f, &in.AtmosphericPressure, "needed with a dew point")
		calc.Out(f, &out.ExhaustHumidityRatio, "exhaust-humidity-ratio", "X_x", "kg/kg", "water over DRY exhaust air")
		calc.Out(f, &out.AirPerWater, "air-per-water", "k_a", "kg/kg", "DRY air per water evaporated")
	},
}

// Hood is the balance of air and water in a hood. Exactly one of
// ExhaustHumidityRatio and ExhaustDewPoint is given.
type Hood struct {
	Evaporation          paperprop.MassFlow         // above zero
	ExhaustHumidityRatio paperprop.HumidityRatio    // above that of the air going in; zero is not given
	ExhaustDewPoint      *paperprop.Temperature     // 0 to 200 °C, below boiling; nil is not given
	SupplyHumidityRatio  paperprop.HumidityRatio    // from zero
	LeakHumidityRatio    paperprop.HumidityRatio    // of the machine hall, from zero
	SupplyShare          paperprop.Fraction         // dry supply air over dry exhaust air, 0 to 100 %
	AtmosphericPressure  paperprop.AbsolutePressure // for the dew point; zero stands for 1.01325 bar absolute
}

// HoodResult is the air flows, all as DRY air.
type HoodResult struct {
	ExhaustAirFlow       paperprop.DryAirFlow
	SupplyAirFlow        paperprop.DryAirFlow
	LeakAirFlow          paperprop.DryAirFlow
	ExhaustHumidityRatio paperprop.HumidityRatio
}

// Calculate balances water and dry air in the hood.
func (h Hood) Calculate() (HoodResult, error) { return hood.Calculate(h) }

func (h Hood) compute() (HoodResult, error) {
	x, err := exhaustRatio(h.ExhaustHumidityRatio, h.ExhaustDewPoint, h.AtmosphericPressure)
	if err != nil {
		return HoodResult{}, err
	}
	share := float64(h.SupplyShare)
	in := share*float64(h.SupplyHumidityRatio) + (1-share)*float64(h.LeakHumidityRatio)
	carried := result.Rest(float64(x), in)
	if carried <= 0 {
		return HoodResult{}, refuseExhaust(x, h.ExhaustDewPoint, paperprop.HumidityRatio(in), "that of supply and leak air together")
	}
	exhaust := h.Evaporation.In(paperprop.TonnePerHour) / carried
	return HoodResult{
		ExhaustAirFlow:       paperprop.DryAirFlow(exhaust) * paperprop.DryAirTonnePerHour,
		SupplyAirFlow:        paperprop.DryAirFlow(share*exhaust) * paperprop.DryAirTonnePerHour,
		LeakAirFlow:          paperprop.DryAirFlow((1-share)*exhaust) * paperprop.DryAirTonnePerHour,
		ExhaustHumidityRatio: x,
	}, nil
}

var hood = &calc.Description[Hood, HoodResult]{
	Name:    "hood",
	Title:   "Air balance of a dryer hood",
	Answers: "How much dry air a hood exhausts, is supplied with, and draws in through its leaks.",
	Formula: []string{"q_x = q_e/(X_x - x_y*X_y - (1 - x_y)*X_l)", "q_y = x_y*q_x", "q_l = (1 - x_y)*q_x"},
	Method:  "a dew point becomes a humidity ratio as in humid-air",
	Source:  "balance of water and dry air over the hood; saturation by " + handbook,
	Status:  calc.CommonPractice,
	Example: "evaporation=18.8788 t/h; exhaust-dew-point=60 degC; supply-humidity-ratio=0.01 kg/kg; leak-humidity-ratio=0.014 kg/kg; supply-share=72 %",
	Mistakes: []string{
		"All flows are of DRY air: the moist exhaust weighs 15 % more at 0.15 kg/kg. See air-volume for cubic metres.",
		"The share of supply air has no default: 60 to 80 % is common practice, the rest leaks in from the hall.",
	},
	Compute: Hood.compute,
	Fields: func(f *calc.Form, in *Hood, out *HoodResult) {
		calc.In(f, &in.Evaporation, "evaporation", "q_e", "t/h", "water evaporated").Above(0)
		exhaustAir(f, &in.ExhaustHumidityRatio, &in.ExhaustDewPoint)
		calc.In(f, &in.SupplyHumidityRatio, "supply-humidity-ratio", "X_y", "kg/kg", "water over DRY supply air").From(0)
		calc.In(f, &in.LeakHumidityRatio, "leak-humidity-ratio", "X_l", "kg/kg", "of the air of the machine hall").From(0)
		calc.In(f, &in.SupplyShare, "supply-share", "x_y", "%", "dry supply of dry exhaust air").From(0).UpTo(100)
		airAtmosphere(f, &in.AtmosphericPressure, "needed with a dew point")
		calc.Out(f, &out.ExhaustAirFlow, "exhaust-air-flow", "q_x", "t/h", "DRY air")
		calc.Out(f, &out.SupplyAirFlow, "supply-air-flow", "q_y", "t/h", "DRY air")
		calc.Out(f, &out.LeakAirFlow, "leak-air-flow", "q_l", "t/h", "DRY air")
		calc.Out(f, &out.ExhaustHumidityRatio, "exhaust-humidity-ratio", "X_x", "kg/kg", "water over DRY exhaust air")
		f.Picture(func() *calc.Picture { return drawHood(in, out) })
	},
}

// AirVolume is the volume of a flow of moist air.
type AirVolume struct {
	AirFlow             paperprop.DryAirFlow       // above zero
	Temperature         paperprop.Temperature      // −50 to 600 °C
	HumidityRatio       paperprop.HumidityRatio    // water over DRY air, from zero
	AtmosphericPressure paperprop.AbsolutePressure // of the moist air; zero stands for 1.01325 bar absolute
}

// AirVolumeResult is the flow of moist air, by volume and by mass.
type AirVolumeResult struct {
	VolumeFlow     paperprop.VolumeFlow
	MoistAirFlow   paperprop.MassFlow
	SpecificVolume paperprop.SpecificVolume // volume of moist air over mass of DRY air
}

// Calculate returns the volume flow q_a·v_s and the mass flow q_a·(1 + X).
func (a AirVolume) Calculate() (AirVolumeResult, error) { return airVolume.Calculate(a) }

func (a AirVolume) compute() (AirVolumeResult, error) {
	v := water.MoistVolume(a.Temperature, a.HumidityRatio, a.AtmosphericPressure)
	dry := a.AirFlow.In(paperprop.DryAirTonnePerHour)
	return AirVolumeResult{
		VolumeFlow:     paperprop.VolumeFlow(dry*v.In(paperprop.CubicMetrePerTonne)) * paperprop.CubicMetrePerHour,
		MoistAirFlow:   paperprop.MassFlow(dry*(1+float64(a.HumidityRatio))) * paperprop.TonnePerHour,
		SpecificVolume: v,
	}, nil
}

var airVolume = &calc.Description[AirVolume, AirVolumeResult]{
	Name:    "air-volume",
	Title:   "Volume of a flow of moist air",
	Answers: "How many cubic metres an hour a flow of dry air with its water is.",
	Formula: []string{"Q = q_a*v_s", "q_m = q_a*(1 + X)"},
	Method:  "v_s = 287.042*T*(1 + 1.607858*X)/p_a, T in K, p_a in Pa: air and vapour as ideal gases",
	Source:  handbook,
	Status:  calc.Published,
	Example: "air-flow=134 t/h; temperature=84 degC; humidity-ratio=0.152 kg/kg",
	Mistakes: []string{
		"A fan moves volume: at 84 degC and 0.15 kg/kg a tonne of dry air takes 1260 m3, at 20 degC dry 830 m3.",
		"It is a volume as it is, not at normal conditions.",
	},
	Compute: AirVolume.compute,
	Fields: func(f *calc.Form, in *AirVolume, out *AirVolumeResult) {
		dryAir(f, &in.AirFlow)
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the air").From(-50).UpTo(600)
		calc.In(f, &in.HumidityRatio, "humidity-ratio", "X", "kg/kg", "water over DRY air").From(0)
		airAtmosphere(f, &in.AtmosphericPressure, "of the moist air")
		calc.Out(f, &out.VolumeFlow, "volume-flow", "Q", "m3/h", "moist, as it is")
		calc.Out(f, &out.MoistAirFlow, "moist-air-flow", "q_m", "t/h", "with its water")
		calc.Between(f, &out.SpecificVolume, "v_s", "m3/kg", "volume of the moist air, per DRY air")
	},
}

func dryAir(f *calc.Form, q *paperprop.DryAirFlow) {
	calc.In(f, q, "air-flow", "q_a", "t/h", "DRY air").Above(0)
}

// AirHeating is the heating or cooling of a flow of moist air.
type AirHeating struct {
	AirFlow        paperprop.DryAirFlow    // above zero
	TemperatureIn  paperprop.Temperature   // −50 to 600 °C
	TemperatureOut paperprop.Temperature   // −50 to 600 °C; below TemperatureIn for cooling
	HumidityRatio  paperprop.HumidityRatio // water over DRY air, unchanged, from zero
}

// AirHeatingResult is the heat, below zero for cooling.
type AirHeatingResult struct {
	HeatFlow     paperprop.Power
	HeatCapacity paperprop.SpecificHeat // of the moist air, per DRY air
	Warnings     calc.Warnings
}

var (
	wetAir = calc.Warning{Code: "condensing", Text: "at 1.01325 bar(a) the air would condense at temperature-out, which gives off far more heat than this"}
	hotAir = calc.Warning{Code: "hot-air", Text: "constant heat capacities are too low for hot air: by 1 % where dry air is warmed from 20 to 200 degC, " +
		"by 3 % to 450 degC, by more from one high temperature to another and for vapour"}

	wouldCondense   = calc.Warnings{&wetAir}
	isHot           = calc.Warnings{&hotAir}
	hotAndCondenses = calc.Warnings{&wetAir, &hotAir}
)

// coolestHot is the temperature above which constant heat capacities are more than 1 %
// too low for air that comes from a mill's hall.
const coolestHot = paperprop.Temperature(200)

// Calculate returns the heat q_a·c_p·(T_out − T_in).
func (a AirHeating) Calculate() (AirHeatingResult, error) { return airHeating.Calculate(a) }

func (a AirHeating) compute() (AirHeatingResult, error) {
	c := water.MoistHeatCapacity(a.HumidityRatio)
	heat := a.AirFlow.In(paperprop.DryAirKilogramPerSecond) * c.In(paperprop.KilojoulePerKilogramKelvin) * float64(a.TemperatureOut.Minus(a.TemperatureIn))
	r := AirHeatingResult{HeatFlow: paperprop.Power(heat) * paperprop.Kilowatt, HeatCapacity: c}
	const atmosphere = 1.01325 * paperprop.BarAbsolute
	// Air that is saturated at 0 degC is supersaturated below.
	coldest := max(a.TemperatureOut, paperprop.Celsius(0))
	full, err := water.RatioAtDewPoint(coldest, atmosphere)
	switch condenses, hot := err == nil && a.HumidityRatio > full, max(a.TemperatureIn, a.TemperatureOut) > coolestHot; {
	case condenses && hot:
		r.Warnings = hotAndCondenses
	case condenses:
		r.Warnings = wouldCondense
	case hot:
		r.Warnings = isHot
	}
	return r, nil
}

var airHeating = &calc.Description[AirHeating, AirHeatingResult]{
	Name:    "air-heating",
	Title:   "Heat to warm moist air",
	Answers: "How much heat warms the supply air of a hood, or is left in its exhaust (heat recovery).",
	Formula: []string{"P_h = q_a*c_p*(T_out - T_in)"},
	Method:  "c_p = 1.006 + 1.86*X kJ/(kg K) per dry air: constant heat capacities",
	Source:  handbook,
	Status:  calc.Published,
	Example: "air-flow=96 t/h; temperature-in=35 degC; temperature-out=95 degC; humidity-ratio=0.01 kg/kg",
	Mistakes: []string{
		"Constant heat capacities are 1 % low at 200 and 3 % at 450 degC.",
		"Where exhaust air is cooled below its dew point, water condenses and gives far more heat than this.",
	},
	Compute: AirHeating.compute,
	Fields: func(f *calc.Form, in *AirHeating, out *AirHeatingResult) {
		dryAir(f, &in.AirFlow)
		calc.In(f, &in.TemperatureIn, "temperature-in", "T_in", "degC", "before").From(-50).UpTo(600)
		calc.In(f, &in.TemperatureOut, "temperature-out", "T_out", "degC", "after").From(-50).UpTo(600)
		calc.In(f, &in.HumidityRatio, "humidity-ratio", "X", "kg/kg", "water over DRY air, unchanged").From(0)
		calc.Out(f, &out.HeatFlow, "heat-flow", "P_h", "kW", "to the air; negative where it is cooled, without condensing")
		calc.Between(f, &out.HeatCapacity, "c_p", "kJ/(kg K)", "heat capacity of the moist air, per DRY air")
		f.Warnings(&out.Warnings)
	},
}

// SheetEvaporation is the evaporation from a web into the air above it.
type SheetEvaporation struct {
	MassTransfer        paperprop.Speed            // of vapour through air, above zero
	Temperature         paperprop.Temperature      // of the film, 0 to 200 °C
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
	AirVapourPressure   paperprop.AbsolutePressure // from zero, below the atmosphere's
	SheetVapourPressure paperprop.AbsolutePressure // at the web, below the atmosphere's
}

// SheetEvaporationResult is the rate, below zero if the web takes up water.
type SheetEvaporationResult struct {
	DryingRate paperprop.MassFlux // per area of web

	vapourConstant paperprop.SpecificHeat
}

// Calculate returns the rate by Stefan's law, k·p/(R_w·T)·ln((p − p_wa)/(p −
// p_ws)).
func (s SheetEvaporation) Calculate() (SheetEvaporationResult, error) {
	return sheetEvaporation.Calculate(s)
}

func (s SheetEvaporation) compute() (SheetEvaporationResult, error) {
	r := SheetEvaporationResult{vapourConstant: vapourConstant * paperprop.KilojoulePerKilogramKelvin}
	if s.AirVapourPressure >= s.AtmosphericPressure {
		return r, calc.Refuse("air-vapour-pressure", s.AirVapourPressure, "below that of the atmosphere, %v", s.AtmosphericPressure)
	}
	if s.SheetVapourPressure >= s.AtmosphericPressure {
		return r, calc.Refuse("sheet-vapour-pressure", s.SheetVapourPressure, "below that of the atmosphere, %v: above it the web boils, which follows another law", s.AtmosphericPressure)
	}
	p, air := s.AtmosphericPressure.In(paperprop.KilopascalAbsolute), s.AirVapourPressure.In(paperprop.KilopascalAbsolute)
	web := s.SheetVapourPressure.In(paperprop.KilopascalAbsolute)
	// kPa over kJ/kg is kg/m³.
	flux := s.MassTransfer.In(paperprop.MetrePerSecond) * p / (vapourConstant * s.Temperature.Kelvin()) * math.Log1p((web-air)/(p-web))
	r.DryingRate = paperprop.MassFlux(3600*flux) * paperprop.KilogramPerHourSquareMetre
	return r, nil
}

var sheetEvaporation = &calc.Description[SheetEvaporation, SheetEvaporationResult]{
	Name:    "sheet-evaporation",
	Title:   "Evaporation from a web into air",
	Answers: "How fast a free web dries, from the vapour pressures at the web and in the air.",
	Formula: []string{"R = k*p_a/(R_w*T)*log((p_a - p_wa)/(p_a - p_ws))"},
	Source:  "Stefan's law of one-way diffusion, as cylinder-drying models use it; R_w 0.4615 kJ/(kg K) is that of water vapour",
	Status:  calc.Memory,
	Example: "mass-transfer=0.015 m/s; temperature=75 degC; air-vapour-pressure=14 kPa(a); sheet-vapour-pressure=36 kPa(a)",
	Mistakes: []string{
		"The mass transfer has no default: it depends on speed, draw and ventilation of the pocket.",
		"It is per area of web, not of cylinder: do not set it beside drying-rate.",
		"Near boiling at the web the logarithm is much more than the difference of pressures.",
	},
	Compute: SheetEvaporation.compute,
	Fields: func(f *calc.Form, in *SheetEvaporation, out *SheetEvaporationResult) {
		calc.In(f, &in.MassTransfer, "mass-transfer", "k", "m/s", "of vapour through air").Above(0)
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the film").From(0).UpTo(200)
		airAtmosphere(f, &in.AtmosphericPressure, "of the moist air")
		calc.In(f, &in.AirVapourPressure, "air-vapour-pressure", "p_wa", "kPa(a)", "of the air, away from the web").From(0)
		calc.In(f, &in.SheetVapourPressure, "sheet-vapour-pressure", "p_ws", "kPa(a)", "at the web").From(0)
		calc.Out(f, &out.DryingRate, "drying-rate", "R", "kg/(h m2)", "per area of web; negative where it takes up water")
		calc.Between(f, &out.vapourConstant, "R_w", "kJ/(kg K)", "gas constant of water vapour")
	},
}
