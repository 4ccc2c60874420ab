package stock_test

import (
	"errors"
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/stock"
)

func ExampleDilution() {
	r, err := stock.Dilution{
		MassFlow:       300 * paperprop.TonnePerHour,
		ConsistencyIn:  4.6 * paperprop.Percent,
		ConsistencyOut: 0.92 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.0f t/h of water, error: %v\n", r.WaterFlow.In(paperprop.TonnePerHour), err)
	// Output: 1200 t/h of water, error: <nil>
}

// What can't be is refused with the input, its value and what would be taken.
func ExampleDilution_refused() {
	_, err := stock.Dilution{
		MassFlow:       300 * paperprop.TonnePerHour,
		ConsistencyIn:  3 * paperprop.Percent,
		ConsistencyOut: 4 * paperprop.Percent,
	}.Calculate()
	fmt.Println(err)
	fmt.Println(errors.Is(err, paperprop.ErrRange))
	// Output:
	// consistency-out is 4 %, want above water-consistency 0 % and at most consistency-in 3 %
	// true
}

// A temperature of 0 °C is a reading, so it is given by a pointer.
func ExampleDensity() {
	cold := paperprop.Celsius(0)
	r, err := stock.Density{
		Consistency: 4 * paperprop.Percent,
		Temperature: &cold,
	}.Calculate()
	fmt.Printf("%.1f kg/m³, %v\n", r.Density.In(paperprop.KilogramPerCubicMetre), err)
	// Output: 1013.4 kg/m³, <nil>
}

func ExampleBlend() {
	r, err := stock.Blend{
		MassFlow:    []paperprop.MassFlow{210, 85, 40},
		Consistency: []paperprop.Consistency{0.039, 0.035, 0.006},
	}.Calculate()
	fmt.Printf("%.4f %%, %v\n", 100*float64(r.ConsistencyOut), err)
	// Output: 3.4045 %, <nil>
}
