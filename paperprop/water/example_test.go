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
