// Package drying calculates the dry end: pressing, the water to evaporate, the
// cylinders and the steam that do it, the humid air that carries it off, vacuum,
// and what a tonne of paper takes of steam, power and water.
//
// A steam state is a temperature, an absolute pressure, or a gauge pressure and
// the atmosphere that it is read against; the types keep them apart.
package drying

import "millmaths.example/paperprop/calc"

// Calculations lists what the package calculates.
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
