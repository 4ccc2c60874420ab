// Package water holds the properties of water.
//
// So far: the density of liquid water by the industrial formulation
// IAPWS-IF97, region 1, with the saturation pressure that bounds it.
package water

import "millmaths.example/paperprop"

// Limits of region 1 of IAPWS-IF97.
const (
	Coldest     paperprop.Temperature      = 0      // °C
	Hottest     paperprop.Temperature      = 350    // °C
	HighestLine paperprop.AbsolutePressure = 1000   // bar(a)
	kelvin                                 = 273.15 // K at 0 °C
	megapascal                             = 10     // bar
)

// Density is that of pure liquid water, in kg/m³, at a temperature of 0 to
// 350 °C and a pressure from saturation to 1000 bar(a) (IAPWS-IF97, region 1).
// Outside it returns a [paperprop.RangeError] that names the bound.
func Density(t paperprop.Temperature, p paperprop.AbsolutePressure) (paperprop.Density, error) {
	if !(t >= Coldest && t <= Hottest) {
		return 0, outside("temperature", &t, float64(Coldest), float64(Hottest))
	}
	boiling := megapascal * saturation(float64(t)+kelvin)
	if !(float64(p) >= boiling && p <= HighestLine) {
		return 0, outside("pressure", &p, boiling, float64(HighestLine))
	}
	return paperprop.Density(1 / volume1(float64(t)+kelvin, float64(p)/megapascal)), nil
}

func outside(input string, p paperprop.Property, low, high float64) error {
	k := p.Kind()
	return &paperprop.RangeError{Input: input, Kind: k, Value: *p.Number(), Min: low, Max: high, Unit: k.Print()}
}
