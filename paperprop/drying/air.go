package drying

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

const handbook = "ASHRAE Handbook Fundamentals 2017 chapter 1, SI (seen as quoted, with test values, in the psychrolib library)"

// HumidAir is a state of humid air. Exactly one of WetBulb, DewPoint,
// RelativeHumidity, HumidityRatio and VapourPressure is given; nil is not given.
type HumidAir struct {
	Temperature         paperprop.Temperature       // dry bulb, 0 to 200 °C
	WetBulb             *paperprop.Temperature      // thermodynamic, 0 °C to Temperature
	DewPoint            *paperprop.Temperature      // 0 °C to Temperature, and below boiling
	RelativeHumidity    *paperprop.Fraction         // 0 to 100 %
	HumidityRatio       *paperprop.HumidityRatio    // water over DRY air, from zero
	VapourPressure      *paperprop.AbsolutePressure // of the water, below AtmosphericPressure and saturation
	AtmosphericPressure paperprop.AbsolutePressure  // of the moist air; zero stands for 1.01325 bar absolute
}

// HumidAirResult is all properties of the air.
type HumidAirResult struct {
	HumidityRatio    paperprop.HumidityRatio // water over DRY air
	RelativeHumidity paperprop.Fraction
	VapourPressure   paperprop.AbsolutePressure
	DewPoint         *paperprop.Temperature // nil below 0 °C
	WetBulb          *paperprop.Temperature // nil below 0 °C
	SpecificHumidity paperprop.Fraction     // water over MOIST air
	Enthalpy         paperprop.SpecificEnergy
	SpecificVolume   paperprop.SpecificVolume // volume of moist air over mass of DRY air
	Density          paperprop.Density        // of the moist air

	SaturationPressure paperprop.AbsolutePressure // at the dry bulb
	Warnings           calc.Warnings
}

// Calculate returns the rest of the state. Air and vapour are taken as ideal gases.
func (h HumidAir) Calculate() (HumidAirResult, error) { return humidAir.Calculate(h) }

func (h HumidAir) air() (water.Air, error) {
	t, p := h.Temperature, h.AtmosphericPressure
	switch {
	case h.WetBulb != nil:
		return water.AirAtWetBulb(t, *h.WetBulb, p)
	case h.DewPoint != nil:
		return water.AirAtDewPoint(t, *h.DewPoint, p)
	case h.RelativeHumidity != nil:
		return water.AirWithRelative(t, *h.RelativeHumidity, p)
	case h.HumidityRatio != nil:
		return water.AirWithRatio(t, *h.HumidityRatio, p)
	}
	return water.AirWithVapour(t, *h.VapourPressure, p)
}

func airAtmosphere(f *calc.Form, p *paperprop.AbsolutePressure, help string) {
	calc.In(f, p, "atmospheric-pressure", "p_a", "bar(a)", help).Above(0).Default(1.01325)
}

// comparedTo is the dew point up to which the error of the ideal gas is known.
const comparedTo = paperprop.Temperature(85)

var beyondComparison = calc.Warnings{{Code: "ideal-gas", Text: "dew point above 85 degC: air and vapour are taken as ideal gases, which " +
	"hold at least 1.2 % less water there than real ones (published up to 85 degC), and less still closer to boiling"}}

func (h HumidAir) compute() (HumidAirResult, error) {
	a, err := h.air()
	if err != nil {
		return HumidAirResult{}, err
	}
	r := HumidAirResult{
		HumidityRatio:      a.HumidityRatio,
		RelativeHumidity:   a.RelativeHumidity(),
		VapourPressure:     a.VapourPressure,
		SpecificHumidity:   a.SpecificHumidity(),
		Enthalpy:           a.Enthalpy(),
		SpecificVolume:     a.SpecificVolume(),
		Density:            a.Density(),
		SaturationPressure: water.SaturatedVapour(h.Temperature),
	}
	if dew, ok := a.DewPoint(); ok {
		r.DewPoint = &dew
		if dew > comparedTo+1e-9 { // a given dew point comes back with different last digits
			r.Warnings = beyondComparison
		}
	}
	if wet, ok := a.WetBulb(); ok {
		r.WetBulb = &wet
	}
	return r, nil
}

var humidAir = &calc.Description[HumidAir, HumidAirResult]{
	Name:    "humid-air",
	Title:   "Humid air",
	Answers: "How much water air holds, from its wet bulb (psychrometer, psychrometric chart), dew point or humidity, and what heat and volume it has.",
	Formula: []string{"X = 0.621945*p_w/(p_a - p_w)", "phi = p_w/p_ws", "x_w = X/(1 + X)", "rho = (1 + X)/v_s"},
	Method: "T in degC: X = ((2501 - 2.326*T_wb)*X_s - 1.006*(T - T_wb))/(2501 + 1.86*T - 4.186*T_wb), X_s saturated at the wet bulb; " +
		"h = 1.006*T + X*(2501 + 1.86*T) kJ/kg; v_s = 287.042*T*(1 + 1.607858*X)/p_a, T in K, p_a in Pa; " +
		"saturation pressure p_ws by equation 6 of the source; dew point and wet bulb are searched between 0 degC and dry bulb or boiling, to the last digits",
	Source:  handbook,
	Status:  calc.Published,
	Example: "temperature=84 degC; wet-bulb=62 degC",
	Mistakes: []string{
		"Humidity ratio is per DRY air, and so are enthalpy and volume; specific humidity is per moist air: 160 g/kg dry is 138 g/kg moist.",
		"As an ideal gas saturated air holds 0.4 % too little water at 25, 0.6 % at 50 and 1.2 % at 85 degC (published table values).",
		"Half a kelvin on a wet bulb of 62 degC is 3 % on the humidity ratio.",
		"A dew point at boiling is pure steam: there is no air left to relate its water to.",
	},
	Compute: HumidAir.compute,
	Fields: func(f *calc.Form, in *HumidAir, out *HumidAirResult) {
		hottest := float64(water.HottestAir)
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "dry bulb").From(0).UpTo(hottest)
		f.Exactly(1,
			calc.Pointer(f, &in.WetBulb, "wet-bulb", "T_wb", "degC", "thermodynamic; at most the dry bulb").From(0).UpTo(hottest),
			calc.Pointer(f, &in.DewPoint, "dew-point", "T_dp", "degC", "at most the dry bulb, below boiling").From(0).UpTo(hottest),
			calc.Pointer(f, &in.RelativeHumidity, "relative-humidity", "phi", "%", "of the vapour pressure, over water").From(0).UpTo(100),
			calc.Pointer(f, &in.HumidityRatio, "humidity-ratio", "X", "kg/kg", "water over DRY air").From(0),
			calc.Pointer(f, &in.VapourPressure, "vapour-pressure", "p_w", "kPa(a)", "of the water; below the atmosphere's and saturation").From(0),
		)
		airAtmosphere(f, &in.AtmosphericPressure, "of the moist air")
		calc.Out(f, &out.HumidityRatio, "humidity-ratio", "X", "kg/kg", "water over DRY air; ideal gas: 0.4 to 1.2 % low at 25 to 85 degC saturated")
		calc.Out(f, &out.RelativeHumidity, "relative-humidity", "phi", "%", "of the vapour pressure, over water")
		calc.Out(f, &out.VapourPressure, "vapour-pressure", "p_w", "kPa(a)", "of the water")
		calc.OutPointer(f, &out.DewPoint, "dew-point", "T_dp", "degC", "where it begins to condense; absent below 0 degC")
		calc.OutPointer(f, &out.WetBulb, "wet-bulb", "T_wb", "degC", "thermodynamic; absent below 0 degC")
		calc.Out(f, &out.SpecificHumidity, "specific-humidity", "x_w", "g/kg", "water over MOIST air")
		calc.Out(f, &out.Enthalpy, "enthalpy", "h", "kJ/kg", "per DRY air; zero for dry air and water at 0 degC")
		calc.Out(f, &out.SpecificVolume, "specific-volume", "v_s", "m3/kg", "moist, per DRY air")
		calc.Out(f, &out.Density, "density", "rho", "kg/m3", "of the moist air")
		calc.Between(f, &out.SaturationPressure, "p_ws", "kPa(a)", "saturation pressure at the dry bulb")
		f.Warnings(&out.Warnings)
		f.Picture(func() *calc.Picture { return drawAir(in, out) })
	},
}

// Atmosphere is the atmospheric pressure at an altitude.
type Atmosphere struct {
	Altitude paperprop.Length // above sea level, −5000 to 11000 m
}

// AtmosphereResult is that pressure.
type AtmosphereResult struct {
	AtmosphericPressure paperprop.AbsolutePressure
}

// Calculate returns the pressure of the standard atmosphere.
func (a Atmosphere) Calculate() (AtmosphereResult, error) { return atmosphere.Calculate(a) }

func (a Atmosphere) compute() (AtmosphereResult, error) {
	pascal := 101325 * math.Pow(1-2.25577e-5*a.Altitude.In(paperprop.Metre), 5.2559)
	return AtmosphereResult{paperprop.AbsolutePressure(pascal/1000) * paperprop.KilopascalAbsolute}, nil
}

var atmosphere = &calc.Description[Atmosphere, AtmosphereResult]{
	Name:    "atmosphere",
	Title:   "Atmospheric pressure at an altitude",
	Answers: "What pressure the air has where the mill stands.",
	Method:  "standard atmosphere: p_a = 101325*pow(1 - 0.0000225577*H, 5.2559) Pa, H in m; the range from memory",
	Source:  handbook,
	Status:  calc.Published,
	Example: "altitude=380 m",
	Mistakes: []string{
		"Weather moves it by some 3 %: where it matters, read a barometer that is not reduced to sea level.",
		"At 1000 m a steam gauge of 1 bar(g) is 1.9 bar(a), not 2.",
	},
	Compute: Atmosphere.compute,
	Fields: func(f *calc.Form, in *Atmosphere, out *AtmosphereResult) {
		calc.In(f, &in.Altitude, "altitude", "H", "m", "above sea level").From(-5000).UpTo(11000)
		calc.Out(f, &out.AtmosphericPressure, "atmospheric-pressure", "p_a", "bar(a)", "of the standard atmosphere")
	},
}
