package sheet_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/sheet"
)

func ExampleTensile() {
	r, err := sheet.Tensile{
		Force:    85 * paperprop.Newton,
		Grammage: 80 * paperprop.GramPerSquareMetre,
	}.Calculate() // the strip is 15 mm wide where nothing is said
	fmt.Printf("%.2f kN/m, %.1f kN·m/kg, %.2f km, %v\n",
		r.TensileStrength.In(paperprop.KilonewtonPerMetre),
		r.TensileIndex.In(paperprop.KilonewtonMetrePerKilogram),
		r.BreakingLength.In(paperprop.Kilometre), err)
	// Output: 5.67 kN/m, 70.8 kN·m/kg, 7.22 km, <nil>
}

func ExampleBasisWeight() {
	r, err := sheet.BasisWeight{
		Grammage: 127 * paperprop.GramPerSquareMetre,
		Ream:     sheet.Ream1000,
	}.Calculate()
	fmt.Printf("%.2f lb, %v\n", r.BasisWeight.In(paperprop.PoundPerReam), err)
	// Output: 26.01 lb, <nil>
}
