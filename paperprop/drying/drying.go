// Package drying calculates the dry end: pressing, the water to evaporate, the
// cylinders and the steam that evaporate it, the humid air that carries it off,
// vacuum, and the steam, power and water that a tonne of paper takes.
//
// A calculation is a struct of inputs with a method:
//
//	r, err := drying.Evaporation{
//		DrynessIn:   44 * paperprop.Percent,
//		MoistureOut: 6 * paperprop.Percent,
//		PaperFlow:   36 * paperprop.TonnePerHour,
//	}.Calculate()
//	fmt.Printf("%.2f t/h\n", r.Evaporation.In(paperprop.TonnePerHour)) // 40.91 t/h
//
// A steam state is a temperature, an absolute pressure, or a gauge pressure and
// the atmosphere against which it is read; the types keep them apart.
//
// # What people get wrong
//
// Points of dryness are not water: from 0.7 to 19 % more than forty times as much
// water leaves as from 19 to 47 %.
//
// Per tonne of paper and per tonne of dry paper differ by the moisture of the reel;
// each input and result says which it is.
//
// The pressure of a steam group is read on a gauge. Give it as a GaugePressure with
// the atmosphere, not as an absolute one.
//
// Humidity ratio is per kilogram of dry air; the air flows of [Hood] are of dry air.
package drying

import "millmaths.example/paperprop/calc"

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		evaporation, evaporationPerTonne, sizePressEvaporation,
		pressing, pressGain, pressImpulse, pressNip,
		dryingRate, contactDryingRate, cylindersNeeded, meanSteamTemperature, dryerGroups,
		steam, wetSteam, superheatedSteam, liquidWater, waterVapour,
		sheetHeat, steamPerWater, dryerSteam, steamUse,
		condensate, flashSteam, cylinderHeat, cylinderHeatTransfer,
		humidAir, atmosphere, airPerWater, hood, airVolume, airHeating,
		sheetEvaporation, equilibriumMoisture, desorptionHeat,
		freeAir, vacuumAir, powerUse, waterUse, heatUse, energyUse,
	}
}
