package water

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/search"
)

// HottestAir is the upper end of the saturation curve for humid air; the lower end is 0
// °C.
const HottestAir = paperprop.Temperature(200)

// The equations of humid air: ASHRAE Handbook Fundamentals 2017, chapter 1, for
// SI units, air and steam as ideal gases. Saturated air holds more water than they
// say, by the real-gas tables of that handbook: 0.4 % at 25 °C, 0.6 % at 50 and
// 1.2 % at 85 °C.
const (
	massRatio   = 0.621945 // of a mole of water to one of air
	airConstant = 0.287042 // kJ/(kg K), of dry air; kPa m³ is kJ
	volumeRatio = 1.607858 // of moles in a mass of water to those in one of air
	airHeat     = 1.006    // kJ/(kg K), of dry air
	steamHeat   = 1.86     // kJ/(kg K), of its vapour
	vaporising  = 2501.0   // kJ/kg, at 0 °C
)

// celsius returns t in °C, for formulas that hold in °C.
func celsius(t paperprop.Temperature) float64 { return float64(t) }

// logSaturation returns the logarithm of the pressure in Pa at which water of t °C
// boils, for 0 to 200 °C (equation 6). It agrees with region 4 within 0.03 %.
func logSaturation(t float64) float64 {
	k := t + 273.15
	return -5.8002206e+03/k + 1.3914993 + k*(-4.8640239e-02+k*(4.1764768e-05-1.4452093e-08*k)) + 6.5459673*math.Log(k)
}

// saturated returns the saturation pressure for humid air at t °C, in kPa.
func saturated(t float64) float64 { return math.Exp(logSaturation(t)) / 1000 }

// Air is a state of humid air. The functions AirWith… and AirAt… make one from whatever
// is known of its water content.
type Air struct {
	Temperature    paperprop.Temperature // dry bulb
	Pressure       paperprop.AbsolutePressure
	HumidityRatio  paperprop.HumidityRatio    // water over DRY air
	VapourPressure paperprop.AbsolutePressure // partial pressure of the water
}

// AirWithVapour returns air at temperature t, from 0 to 200 °C, and pressure p, with a
// vapour pressure from 0 to saturation and below p.
func AirWithVapour(t paperprop.Temperature, vapour, p paperprop.AbsolutePressure) (Air, error) {
	if err := dryBulb(t, p); err != nil {
		return Air{}, err
	}
	if err := unsaturated("vapour-pressure", t, vapour, p); err != nil {
		return Air{}, err
	}
	return Air{t, p, humidity(vapour, p), vapour}, nil
}

// AirWithRatio returns air at temperature t, from 0 to 200 °C, and pressure p, with a
// humidity ratio from 0 to saturation.
func AirWithRatio(t paperprop.Temperature, x paperprop.HumidityRatio, p paperprop.AbsolutePressure) (Air, error) {
	if err := dryBulb(t, p); err != nil {
		return Air{}, err
	}
	vapour := paperprop.AbsolutePressure(float64(x)/(massRatio+float64(x))*p.In(paperprop.KilopascalAbsolute)) * paperprop.KilopascalAbsolute
	if !(x >= 0) || unsaturated("", t, vapour, p) != nil {
		most := paperprop.HumidityRatio(math.Inf(1))
		if s := SaturatedVapour(t); s < p {
			most = humidity(s, p)
		}
		return Air{}, rangeError("humidity-ratio", x, 0, most, false)
	}
	return Air{t, p, x, vapour}, nil
}

// AirWithRelative returns air at temperature t, from 0 to 200 °C, and pressure p, with
// a relative humidity phi from 0 to 100 %. Above the boiling point phi must be lower,
// as the vapour pressure has to stay below p.
func AirWithRelative(t paperprop.Temperature, phi paperprop.Fraction, p paperprop.AbsolutePressure) (Air, error) {
	if err := dryBulb(t, p); err != nil {
		return Air{}, err
	}
	if err := within("relative-humidity", phi, 0, 1); err != nil {
		return Air{}, err
	}
	vapour := paperprop.AbsolutePressure(float64(phi)*SaturatedVapour(t).In(paperprop.KilopascalAbsolute)) * paperprop.KilopascalAbsolute
	if vapour >= p {
		return Air{}, &paperprop.RangeError{
			Input: "relative-humidity", Kind: phi.Kind(), Unit: phi.Kind().Print(),
			Value: float64(phi), Min: 0, Max: float64(p / SaturatedVapour(t)), BelowMax: true,
		}
	}
	return Air{t, p, humidity(vapour, p), vapour}, nil
}

// AirAtDewPoint returns air at temperature t, from 0 to 200 °C, and pressure p, with a
// dew point from 0 °C to t and below the boiling point.
func AirAtDewPoint(t, dew paperprop.Temperature, p paperprop.AbsolutePressure) (Air, error) {
	if err := dryBulb(t, p); err != nil {
		return Air{}, err
	}
	if err := belowBoiling("dew-point", dew, t, p); err != nil {
		return Air{}, err
	}
	vapour := SaturatedVapour(dew)
	return Air{t, p, humidity(vapour, p), vapour}, nil
}

// AirAtWetBulb returns air at temperature t, from 0 to 200 °C, and pressure p, with a
// thermodynamic wet-bulb temperature up to t and below the boiling point. The lowest is
// that of dry air, or 0 °C if that is higher.
func AirAtWetBulb(t, wet paperprop.Temperature, p paperprop.AbsolutePressure) (Air, error) {
	if err := dryBulb(t, p); err != nil {
		return Air{}, err
	}
	if err := belowBoiling("wet-bulb", wet, t, p); err != nil {
		return Air{}, err
	}
	full := float64(humidity(SaturatedVapour(wet), p))
	x := wetBulbRatio(celsius(t), celsius(wet), full)
	if x < 0 && x > -lastDigits*full {
		x = 0 // dry air, within rounding
	}
	if x < 0 {
		driest, _ := Air{t, p, 0, 0}.WetBulb()
		return Air{}, rangeError("wet-bulb", wet, driest, min(t, boilingAir(p)), false)
	}
	return AirWithRatio(t, paperprop.HumidityRatio(x), p)
}

// wetBulbRatio returns the humidity ratio of air at t °C whose wet bulb is wet °C,
// where saturated air has the given ratio (equation 33, above freezing).
func wetBulbRatio(t, wet, ratio float64) float64 {
	return ((vaporising-2.326*wet)*ratio - airHeat*(t-wet)) / (vaporising + steamHeat*t - 4.186*wet)
}

// SaturatedVapour returns the saturation pressure over water at t, from 0 to 200 °C, by
// the ASHRAE equation for humid air; it is within 0.03 % of IAPWS-IF97. Outside this
// range it extrapolates, without an error.
func SaturatedVapour(t paperprop.Temperature) paperprop.AbsolutePressure {
	return paperprop.AbsolutePressure(saturated(celsius(t))) * paperprop.KilopascalAbsolute
}

// RatioAtDewPoint returns the humidity ratio of air at pressure p that begins to
// condense at dew, from 0 to 200 °C and below the boiling point.
func RatioAtDewPoint(dew paperprop.Temperature, p paperprop.AbsolutePressure) (paperprop.HumidityRatio, error) {
	if err := aboveVacuum(p); err != nil {
		return 0, err
	}
	if err := belowBoiling("dew-point", dew, HottestAir, p); err != nil {
		return 0, err
	}
	return humidity(SaturatedVapour(dew), p), nil
}

// humidity returns the mass of water over the mass of dry air.
func humidity(vapour, p paperprop.AbsolutePressure) paperprop.HumidityRatio {
	return paperprop.HumidityRatio(massRatio * float64(vapour/(p-vapour)))
}

// RelativeHumidity returns the vapour pressure over the saturation pressure of water.
func (a Air) RelativeHumidity() paperprop.Fraction {
	phi := float64(a.VapourPressure / SaturatedVapour(a.Temperature))
	if phi > 1 && phi < 1+1e-12 {
		phi = 1 // wet bulb and dry bulb are equal, within rounding
	}
	return paperprop.Fraction(phi)
}

// SpecificHumidity returns the mass of water over the mass of MOIST air.
func (a Air) SpecificHumidity() paperprop.Fraction {
	return paperprop.Fraction(a.HumidityRatio / (1 + a.HumidityRatio))
}

// Enthalpy returns the enthalpy of the moist air per mass of DRY air. It is zero for
// dry air and liquid water at 0 °C.
func (a Air) Enthalpy() paperprop.SpecificEnergy {
	t, x := celsius(a.Temperature), float64(a.HumidityRatio)
	return paperprop.SpecificEnergy(airHeat*t+x*(vaporising+steamHeat*t)) * paperprop.KilojoulePerKilogram
}

// SpecificVolume returns the volume of the moist air per mass of DRY air.
func (a Air) SpecificVolume() paperprop.SpecificVolume {
	return MoistVolume(a.Temperature, a.HumidityRatio, a.Pressure)
}

// Density returns the mass of the moist air over its volume.
func (a Air) Density() paperprop.Density {
	return paperprop.Density((1+float64(a.HumidityRatio))/a.SpecificVolume().In(paperprop.CubicMetrePerKilogram)) * paperprop.KilogramPerCubicMetre
}

// MoistVolume returns the volume of moist air per mass of DRY air in it, as an ideal
// gas at any temperature. It checks nothing: the caller is responsible for the humidity
// ratio.
func MoistVolume(t paperprop.Temperature, x paperprop.HumidityRatio, p paperprop.AbsolutePressure) paperprop.SpecificVolume {
	v := airConstant * t.Kelvin() * (1 + volumeRatio*float64(x)) / p.In(paperprop.KilopascalAbsolute)
	return paperprop.SpecificVolume(v) * paperprop.CubicMetrePerKilogram
}

// MoistHeatCapacity returns the heat capacity of moist air per mass of DRY air in it.
func MoistHeatCapacity(x paperprop.HumidityRatio) paperprop.SpecificHeat {
	return paperprop.SpecificHeat(airHeat+steamHeat*float64(x)) * paperprop.KilojoulePerKilogramKelvin
}

// DewPoint returns the temperature at which the air begins to condense. It reports
// false below 0 °C, where frost forms.
func (a Air) DewPoint() (dew paperprop.Temperature, ok bool) {
	vapour := a.VapourPressure.In(paperprop.KilopascalAbsolute)
	if vapour < saturated(0)*(1-lastDigits) {
		return 0, false
	}
	return saturatedAt(vapour, a.Temperature), true
}

// WetBulb returns the thermodynamic wet-bulb temperature: that to which the air cools
// as it takes up water of the same temperature until saturated. It reports false below
// 0 °C.
func (a Air) WetBulb() (wet paperprop.Temperature, ok bool) {
	t, x := celsius(a.Temperature), float64(a.HumidityRatio)
	p := a.Pressure.In(paperprop.KilopascalAbsolute)
	// The humidity ratio has a pole at the boiling point. Multiplied by the pressure of
	// the dry air, the balance has none, and it rises throughout.
	balance := func(wet float64) float64 {
		vapour := saturated(wet)
		return (vaporising-2.326*wet)*massRatio*vapour -
			(airHeat*(t-wet)+x*(vaporising+steamHeat*t-4.186*wet))*(p-vapour)
	}
	if balance(0) > lastDigits*vaporising*massRatio*saturated(0) {
		return 0, false
	}
	high := math.Min(t, celsius(boilingAir(a.Pressure)))
	return paperprop.Celsius(search.Zero(0, high, balance)), true
}

// boilingAir returns the temperature, from 0 to 200 °C, at which the saturation
// pressure for humid air reaches p.
func boilingAir(p paperprop.AbsolutePressure) paperprop.Temperature {
	kilopascal := p.In(paperprop.KilopascalAbsolute)
	switch {
	case kilopascal <= saturated(0):
		return 0
	case kilopascal >= saturated(celsius(HottestAir)):
		return HottestAir
	}
	return saturatedAt(kilopascal, HottestAir)
}

// saturatedAt returns the temperature, from 0 °C to hottest, at which a vapour pressure
// in kPa is the saturation pressure.
func saturatedAt(vapour float64, hottest paperprop.Temperature) paperprop.Temperature {
	want := math.Log(vapour * 1000)
	return paperprop.Celsius(search.Zero(0, celsius(hottest), func(t float64) float64 { return logSaturation(t) - want }))
}

func dryBulb(t paperprop.Temperature, p paperprop.AbsolutePressure) error {
	if err := aboveVacuum(p); err != nil {
		return err
	}
	return within("temperature", t, 0, HottestAir)
}

func aboveVacuum(p paperprop.AbsolutePressure) error {
	if !(p > 0 && p <= math.MaxFloat64) {
		return rangeError("atmospheric-pressure", p, 0, paperprop.AbsolutePressure(math.Inf(1)), true)
	}
	return nil
}

// lastDigits is the relative amount by which a computed vapour pressure may exceed
// saturation.
const lastDigits = 1e-12

// unsaturated refuses a vapour pressure above saturation, and air that is pure steam.
func unsaturated(input string, t paperprop.Temperature, vapour, p paperprop.AbsolutePressure) error {
	most := SaturatedVapour(t)
	if vapour >= 0 && vapour <= most*(1+lastDigits) && vapour < p {
		return nil
	}
	e := &paperprop.RangeError{Input: input, Kind: p.Kind(), Unit: p.Kind().Canonical(), Value: float64(vapour), Max: float64(most)}
	if most >= p {
		e.Max, e.BelowMax = float64(p), true
	}
	return e
}

// belowBoiling refuses a dew point or wet bulb below 0 °C, above most, or at which the
// air would be pure steam.
func belowBoiling(input string, t, most paperprop.Temperature, p paperprop.AbsolutePressure) error {
	if t >= 0 && t <= most && SaturatedVapour(t) < p {
		return nil
	}
	e := &paperprop.RangeError{Input: input, Kind: t.Kind(), Unit: t.Kind().Canonical(), Value: float64(t), Max: float64(most)}
	if boiling := boilingAir(p); boiling <= most {
		e.Max, e.BelowMax = float64(boiling), true
	}
	return e
}
