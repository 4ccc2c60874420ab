package drying_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/drying"
)

// The machine is that of the invented Quillbeck Board Mill.

func ExampleEvaporation() {
	r, err := drying.Evaporation{
		DrynessIn:   44 * paperprop.Percent,
		MoistureOut: 6 * paperprop.Percent,
		PaperFlow:   36 * paperprop.TonnePerHour,
	}.Calculate()
	fmt.Printf("%.2f t/h, %v\n", r.Evaporation.In(paperprop.TonnePerHour), err)
	// Output: 40.91 t/h, <nil>
}

func ExampleSizePressEvaporation() {
	r, err := drying.SizePressEvaporation{
		Grammage:       120 * paperprop.GramPerSquareMetre,
		MoistureOut:    7.5 * paperprop.Percent,
		PickUpGrammage: 4.29 * paperprop.DryGramPerSquareMetre,
		Solids:         9.5 * paperprop.Percent,
		DrynessIn:      47.5 * paperprop.Percent,
		SizeMoistureIn: 4 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.1f + %.1f g/m², %v\n", float64(r.PreDryerWater), float64(r.AfterDryerWater), err)
	// Output: 113.5 + 36.3 g/m², <nil>
}

// A gauge that reads zero is a reading, so gauge pressures are pointers.
func ExampleSteam() {
	gauge := 3.2 * paperprop.BarGauge
	r, err := drying.Steam{GaugePressure: &gauge}.Calculate()
	fmt.Printf("%.1f °C, %.0f kJ/kg, %v\n", r.Temperature.Celsius(), r.LatentHeat.In(paperprop.KilojoulePerKilogram), err)
	// Output: 145.5 °C, 2128 kJ/kg, <nil>
}

func ExampleDryerSteam() {
	gauge := 3.2 * paperprop.BarGauge
	r, err := drying.DryerSteam{
		PaperFlow:              15.12 * paperprop.TonnePerHour,
		DrynessIn:              47.5 * paperprop.Percent,
		MoistureOut:            7.5 * paperprop.Percent,
		TemperatureIn:          paperprop.Celsius(46),
		EvaporationTemperature: paperprop.Celsius(82),
		TemperatureOut:         paperprop.Celsius(97),
		FibreHeatCapacity:      1.4 * paperprop.KilojoulePerKilogramKelvin,
		OtherHeatShare:         15 * paperprop.Percent,
		GaugePressure:          &gauge,
	}.Calculate()
	fmt.Printf("%.2f t/h of steam, %.3f kg per kg of water, %v\n", r.SteamFlow.In(paperprop.TonnePerHour), float64(r.SteamPerWater), err)
	// Output: 19.67 t/h of steam, 1.373 kg per kg of water, <nil>
}

func ExampleHumidAir() {
	wet := paperprop.Celsius(62)
	r, err := drying.HumidAir{Temperature: paperprop.Celsius(84), WetBulb: &wet}.Calculate()
	fmt.Printf("%.4f kg/kg of dry air, dew point %.1f °C, %v\n", float64(r.HumidityRatio), r.DewPoint.Celsius(), err)
	// Output: 0.1590 kg/kg of dry air, dew point 60.7 °C, <nil>
}

func ExampleHood() {
	dew := paperprop.Celsius(60)
	r, err := drying.Hood{
		Evaporation:         18.8788 * paperprop.TonnePerHour,
		ExhaustDewPoint:     &dew,
		SupplyHumidityRatio: 0.010 * paperprop.WaterPerDryAir,
		LeakHumidityRatio:   0.014 * paperprop.WaterPerDryAir,
		SupplyShare:         72 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.0f t/h of dry air, %.0f of it through leaks, %v\n", float64(r.ExhaustAirFlow), float64(r.LeakAirFlow), err)
	// Output: 134 t/h of dry air, 37 of it through leaks, <nil>
}
