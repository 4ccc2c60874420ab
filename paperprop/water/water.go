// Package water holds the properties of water and steam by the industrial
// formulation IAPWS-IF97, from which steam tables are printed, and of humid air as
// a mixture of ideal gases:
//
//	d, err := water.Density(paperprop.Celsius(48), 1.01325*paperprop.BarAbsolute)
//	s, err := water.SaturatedUnder(4 * paperprop.BarAbsolute)
//	a, err := water.AirAtDewPoint(paperprop.Celsius(82), paperprop.Celsius(60), 1.01325*paperprop.BarAbsolute)
//
// The formulation is divided into regions, each in a file of its own: the liquid
// (1), steam (2) and the line on which the two are in equilibrium (4). Region 3,
// near the critical point, and region 5, above 800 °C, are not covered. Whatever
// returns an error refuses what lies outside with a [paperprop.RangeError] that
// states the bound.
//
// # What people get wrong
//
// A gauge shows the pressure above that of the air around it. Steam tables want the
// absolute one: [paperprop.GaugePressure.Absolute] adds the atmosphere, and the
// types let nobody forget it.
//
// Humidity is water over dry air, not over moist air, and a relative humidity
// says nothing without its temperature.
//
// Above its boiling point at a pressure, water is no liquid: Density and Liquid
// refuse it rather than extrapolate.
package water

import (
	"fmt"

	"millmaths.example/paperprop"
)

// Limits of the regions.
const (
	Coldest          = paperprop.Temperature(0)   // liquid and steam
	HottestSaturated = paperprop.Temperature(350) // liquid, and steam in equilibrium with it
	HottestVapour    = paperprop.Temperature(800)
	HighestPressure  = 100 * paperprop.MegapascalAbsolute
)

// The pressures at which water boils at 0 and at 350 °C, rounded outwards in the
// eleventh digit.
const (
	LowestSaturated  = 6.1121267744e-4 * paperprop.MegapascalAbsolute
	HighestSaturated = 16.529164253 * paperprop.MegapascalAbsolute
)

// SaturationPressure returns the pressure at which water boils at t, from 0 to 350 °C.
func SaturationPressure(t paperprop.Temperature) (paperprop.AbsolutePressure, error) {
	if err := within("temperature", t, Coldest, HottestSaturated); err != nil {
		return 0, err
	}
	return megapascal(saturation4(t.Kelvin())), nil
}

// SaturationTemperature returns the temperature at which water boils at pressure p,
// from 0.00611213 to 165.2916 bar absolute.
func SaturationTemperature(p paperprop.AbsolutePressure) (paperprop.Temperature, error) {
	if err := within("pressure", p, LowestSaturated, HighestSaturated); err != nil {
		return 0, err
	}
	return paperprop.Kelvin(boiling4(p.In(paperprop.MegapascalAbsolute))), nil
}

// Saturation is a state in which water and steam are in equilibrium.
type Saturation struct {
	Temperature                   paperprop.Temperature
	Pressure                      paperprop.AbsolutePressure
	LiquidEnthalpy, SteamEnthalpy paperprop.SpecificEnergy
}

// SaturatedAt returns the saturation at temperature t, from 0 to 350 °C.
func SaturatedAt(t paperprop.Temperature) (Saturation, error) {
	p, err := SaturationPressure(t)
	if err != nil {
		return Saturation{}, err
	}
	return saturation(t, p), nil
}

// SaturatedUnder returns the saturation at pressure p, from 0.00611213 to 165.2916 bar
// absolute.
func SaturatedUnder(p paperprop.AbsolutePressure) (Saturation, error) {
	t, err := SaturationTemperature(p)
	if err != nil {
		return Saturation{}, err
	}
	return saturation(t, p), nil
}

func saturation(t paperprop.Temperature, p paperprop.AbsolutePressure) Saturation {
	k, mpa := t.Kelvin(), p.In(paperprop.MegapascalAbsolute)
	return Saturation{
		Temperature: t, Pressure: p,
		LiquidEnthalpy: paperprop.SpecificEnergy(enthalpy1(k, mpa)) * paperprop.KilojoulePerKilogram,
		SteamEnthalpy:  paperprop.SpecificEnergy(enthalpy2(k, mpa)) * paperprop.KilojoulePerKilogram,
	}
}

// LatentHeat returns the heat that the steam gives off as it condenses, per mass.
func (s Saturation) LatentHeat() paperprop.SpecificEnergy { return s.SteamEnthalpy - s.LiquidEnthalpy }

// Liquid returns the properties of the saturated water.
func (s Saturation) Liquid() Properties {
	return region1(s.Temperature.Kelvin(), s.Pressure.In(paperprop.MegapascalAbsolute))
}

// Steam returns the properties of the saturated steam.
func (s Saturation) Steam() Properties {
	return region2(s.Temperature.Kelvin(), s.Pressure.In(paperprop.MegapascalAbsolute))
}

// Superheated returns the properties of steam at the saturation pressure and at
// temperature t, from that of the saturation to 800 °C.
func (s Saturation) Superheated(t paperprop.Temperature) (Properties, error) {
	if err := within("temperature", t, s.Temperature, HottestVapour); err != nil {
		return Properties{}, err
	}
	return region2(t.Kelvin(), s.Pressure.In(paperprop.MegapascalAbsolute)), nil
}

// Liquid returns the properties of pure liquid water at temperature t, from 0 to 350
// °C, and pressure p, from the saturation pressure at t to 100 MPa.
func Liquid(t paperprop.Temperature, p paperprop.AbsolutePressure) (Properties, error) {
	boiling, err := SaturationPressure(t)
	if err != nil {
		return Properties{}, err
	}
	if err := within("pressure", p, boiling, HighestPressure); err != nil {
		return Properties{}, fmt.Errorf("water at %v: %w", t, err)
	}
	return region1(t.Kelvin(), p.In(paperprop.MegapascalAbsolute)), nil
}

// Density returns the density of pure liquid water, for the arguments that [Liquid]
// accepts.
func Density(t paperprop.Temperature, p paperprop.AbsolutePressure) (paperprop.Density, error) {
	w, err := Liquid(t, p)
	if err != nil {
		return 0, err
	}
	return w.Density(), nil
}

// Vapour returns the properties of steam at temperature t, from 0 to 800 °C, and
// pressure p, above zero and at most that of [DensestVapour]. A pressure below 1e-200
// kPa is refused, as its volume is no float64.
func Vapour(t paperprop.Temperature, p paperprop.AbsolutePressure) (Properties, error) {
	most, err := DensestVapour(t)
	if err != nil {
		return Properties{}, err
	}
	const least = 1e-200 * paperprop.KilopascalAbsolute
	if !(p >= least && p <= most) {
		return Properties{}, fmt.Errorf("steam at %v: %w", t, rangeError("pressure", p, 0, most, true))
	}
	return region2(t.Kelvin(), p.In(paperprop.MegapascalAbsolute)), nil
}

// DensestVapour returns the highest pressure of steam in region 2 at t, from 0 to 800
// °C: up to 350 °C steam condenses there, above that region 3 begins.
func DensestVapour(t paperprop.Temperature) (paperprop.AbsolutePressure, error) {
	if err := within("temperature", t, Coldest, HottestVapour); err != nil {
		return 0, err
	}
	if t <= HottestSaturated {
		return megapascal(saturation4(t.Kelvin())), nil
	}
	return min(megapascal(boundary23(t.Kelvin())), HighestPressure), nil
}

func megapascal(x float64) paperprop.AbsolutePressure {
	return paperprop.AbsolutePressure(x) * paperprop.MegapascalAbsolute
}

// A bounded quantity is one that this package checks against limits.
type bounded interface {
	~float64
	Kind() *paperprop.Kind
}

// within refuses a value outside its bounds, and NaN.
func within[Q bounded](input string, x, low, high Q) error {
	if x >= low && x <= high {
		return nil
	}
	return rangeError(input, x, low, high, false)
}

func rangeError[Q bounded](input string, x, low, high Q, above bool) error {
	return &paperprop.RangeError{
		Input: input, Kind: x.Kind(), Unit: x.Kind().Canonical(),
		Value: float64(x), Min: float64(low), Max: float64(high), AboveMin: above,
	}
}
