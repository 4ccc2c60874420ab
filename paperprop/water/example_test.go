package water_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/water"
)

// The white water of the invented Quillbeck Board Mill is warm, and lighter
// for it.
func ExampleDensity() {
	d, err := water.Density(paperprop.Celsius(48), 1.01325*paperprop.BarAbsolute)
	fmt.Printf("%.2f kg/m³, error: %v\n", d.In(paperprop.KilogramPerCubicMetre), err)
	_, err = water.Density(paperprop.Celsius(120), 1.01325*paperprop.BarAbsolute)
	fmt.Println(err)
	// Output:
	// 988.94 kg/m³, error: <nil>
	// water at 120 degC: pressure is 1.01325 bar(a), want 1.98665 bar(a) to 1000 bar(a)
}

// The third steam group of the machine has 3.2 bar on its gauge.
func ExampleSaturatedUnder() {
	gauge := 3.2 * paperprop.BarGauge
	s, err := water.SaturatedUnder(gauge.Absolute(1.01325 * paperprop.BarAbsolute))
	fmt.Printf("%.1f °C, latent heat %.0f kJ/kg, error: %v\n", s.Temperature.Celsius(), s.LatentHeat().In(paperprop.KilojoulePerKilogram), err)
	// Output: 145.5 °C, latent heat 2128 kJ/kg, error: <nil>
}

// The hood's exhaust is 84 °C, 62 °C at the wet bulb.
func ExampleAirAtWetBulb() {
	a, err := water.AirAtWetBulb(paperprop.Celsius(84), paperprop.Celsius(62), 1.01325*paperprop.BarAbsolute)
	dew, _ := a.DewPoint()
	fmt.Printf("%.3f kg/kg of dry air, dew point %.1f °C, error: %v\n", float64(a.HumidityRatio), dew.Celsius(), err)
	// Output: 0.159 kg/kg of dry air, dew point 60.7 °C, error: <nil>
}
