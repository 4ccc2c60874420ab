package drying_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/drying"
)

func ExampleEvaporation() {
	r, err := drying.Evaporation{
		DrynessIn:   44 * paperprop.Percent,
		MoistureOut: 6 * paperprop.Percent,
		PaperFlow:   36 * paperprop.TonnePerHour,
	}.Calculate()
	fmt.Printf("%.2f t/h, %v\n", r.Evaporation.In(paperprop.TonnePerHour), err)
	// Output: 40.91 t/h, <nil>
}
