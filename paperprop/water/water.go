// Package water holds the properties of water by the industrial formulation
// IAPWS-IF97, the one that steam tables are printed from:
//
//	d, err := water.Density(paperprop.Celsius(48), 1.01325*paperprop.BarAbsolute)
//
// It has the liquid (region 1) and the pressure at which that boils (region
// 4), each in a file of its own.
package water

import (
	"fmt"

	"millmaths.example/paperprop"
)

// Where region 1 ends.
const (
	minLiquid   = paperprop.Temperature(0)
	maxLiquid   = paperprop.Temperature(350)
	maxPressure = 100 * paperprop.MegapascalAbsolute
)

// Density returns the density of pure liquid water at t, from 0 to 350 °C, and
// p, from the pressure at which water of that temperature boils to 100 MPa. The
// error for anything else is a [paperprop.RangeError].
func Density(t paperprop.Temperature, p paperprop.AbsolutePressure) (paperprop.Density, error) {
	if !(t >= minLiquid && t <= maxLiquid) {
		return 0, &paperprop.RangeError{
			Input: "temperature", Kind: t.Kind(), Unit: t.Kind().Canonical(),
			Value: float64(t), Min: float64(minLiquid), Max: float64(maxLiquid),
		}
	}
	boiling := paperprop.AbsolutePressure(saturation4(t.Kelvin())) * paperprop.MegapascalAbsolute
	if !(p >= boiling && p <= maxPressure) {
		return 0, fmt.Errorf("water at %v: %w", t, &paperprop.RangeError{
			Input: "pressure", Kind: p.Kind(), Unit: p.Kind().Canonical(),
			Value: float64(p), Min: float64(boiling), Max: float64(maxPressure),
		})
	}
	return paperprop.Density(density1(t.Kelvin(), p.In(paperprop.MegapascalAbsolute))) * paperprop.KilogramPerCubicMetre, nil
}
