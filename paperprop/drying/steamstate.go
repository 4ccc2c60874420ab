package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/water"
)

// saturatedSteam returns the state of saturated steam at an absolute pressure or,
// if that is not nil, at a gauge pressure relative to the atmosphere. The suffix
// belongs to the name of the input.
func saturatedSteam(p paperprop.AbsolutePressure, gauge *paperprop.GaugePressure, atmosphere paperprop.AbsolutePressure, suffix string) (water.Saturation, error) {
	if gauge != nil {
		// The sum has no more digits than the atmosphere, so that gauge pressures are compared.
		low, high := water.LowestSaturated.Gauge(atmosphere), water.HighestSaturated.Gauge(atmosphere)
		if result.Outside(float64(*gauge), float64(low), float64(high)) {
			return water.Saturation{}, calc.Refuse("gauge-pressure"+suffix, *gauge, "%v to %v against this atmosphere", low, high)
		}
		p = min(max(gauge.Absolute(atmosphere), water.LowestSaturated), water.HighestSaturated)
	}
	return water.SaturatedUnder(p)
}

// steamPressure binds the pressure of saturated steam, absolute or gauge.
func steamPressure(f *calc.Form, p *paperprop.AbsolutePressure, gauge **paperprop.GaugePressure, atmosphere *paperprop.AbsolutePressure) {
	f.Exactly(1, absoluteSteam(f, p, "pressure", "p", "of the steam"), gaugeSteam(f, gauge, "gauge-pressure", "p_g", "of the steam"))
	steamAtmosphere(f, atmosphere)
}

// steamState binds a state of saturated steam, by temperature or by either
// pressure.
func steamState(f *calc.Form, t **paperprop.Temperature, p *paperprop.AbsolutePressure, gauge **paperprop.GaugePressure, atmosphere *paperprop.AbsolutePressure) {
	f.Exactly(1,
		calc.Pointer(f, t, "temperature", "T", "degC", "of saturation").From(float64(water.Coldest)).UpTo(float64(water.HottestSaturated)),
		absoluteSteam(f, p, "pressure", "p", "of the steam"),
		gaugeSteam(f, gauge, "gauge-pressure", "p_g", "of the steam"),
	)
	steamAtmosphere(f, atmosphere)
}

func absoluteSteam(f *calc.Form, p *paperprop.AbsolutePressure, name, symbol, whose string) *calc.Input {
	return calc.In(f, p, name, symbol, "bar(a)", whose+", absolute").
		From(water.LowestSaturated.In(paperprop.BarAbsolute)).UpTo(water.HighestSaturated.In(paperprop.BarAbsolute))
}

func gaugeSteam(f *calc.Form, p **paperprop.GaugePressure, name, symbol, whose string) *calc.Input {
	return calc.Pointer(f, p, name, symbol, "bar(g)", whose+", as the gauge reads; negative under vacuum").
		UpTo(water.HighestSaturated.In(paperprop.BarAbsolute))
}

func steamAtmosphere(f *calc.Form, p *paperprop.AbsolutePressure) {
	calc.In(f, p, "atmospheric-pressure", "p_a", "bar(a)", "added to a gauge pressure: measured, or from altitude").Above(0).Default(1.01325)
}

// suppliedSteam returns the enthalpy of steam at the pressure of a saturation,
// superheated to t unless that is nil.
func suppliedSteam(s water.Saturation, t *paperprop.Temperature) (paperprop.SpecificEnergy, error) {
	if t == nil {
		return s.SteamEnthalpy, nil
	}
	if hotter(s.Temperature, *t) {
		return 0, calc.Refuse("steam-temperature", *t, "that of saturation, %v, or above", s.Temperature)
	}
	v, err := s.Superheated(max(*t, s.Temperature))
	return v.Enthalpy, err
}

// hotter reports whether t is above other by more than the rounding of a saturation
// temperature.
func hotter(t, other paperprop.Temperature) bool { return result.Rest(t.Kelvin(), other.Kelvin()) > 0 }

const if97 = "IAPWS R7-97(2012), coefficients and verification tables seen in public ports"
