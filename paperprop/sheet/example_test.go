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

func ExampleReamMass() {
	r, err := sheet.ReamMass{
		Grammage: 120 * paperprop.GramPerSquareMetre,
		Length:   1000 * paperprop.Millimetre,
		Width:    700 * paperprop.Millimetre,
	}.Calculate() // 500 sheets where nothing is said
	fmt.Printf("%.0f kg, a sheet %.0f g, %v\n", r.ReamMass.In(paperprop.Kilogram), r.SheetMass.In(paperprop.Gram), err)
	// Output: 42 kg, a sheet 84 g, <nil>
}

// A piece of Harebell 120, a grade of the invented Quillbeck Board Mill, is
// drawn until it breaks.
func ExampleTensileCurve() {
	r, err := sheet.TensileCurve{
		Elongation: []paperprop.Length{0, 0.25, 0.5, 1, 1.5, 1.83}, // mm
		Force:      []paperprop.Force{0, 28, 47.5, 72, 88, 96.4},   // N
		Span:       100 * paperprop.Millimetre,
		Grammage:   121.4 * paperprop.GramPerSquareMetre,
	}.Calculate()
	fmt.Printf("%.2f kN/m at %.1f %%, %.1f J/m², stiffness %.0f kN/m, %v\n",
		r.TensileStrength.In(paperprop.KilonewtonPerMetre), r.Stretch.In(paperprop.Percent),
		r.TensileEnergy.In(paperprop.JoulePerSquareMetre), r.TensileStiffness.In(paperprop.KilonewtonPerMetre), err)
	// Output: 6.43 kN/m at 1.8 %, 75.5 J/m², stiffness 747 kN/m, <nil>
}

func ExampleMoistureLot() {
	r, err := sheet.MoistureLot{
		MoistMass: []paperprop.Mass{100 * paperprop.Gram, 50 * paperprop.Gram},
		DryMass:   []paperprop.OvenDryMass{90 * paperprop.OvenDryGram, 47.5 * paperprop.OvenDryGram},
	}.Calculate()
	fmt.Printf("mean %.2f %%, pooled %.2f %%, range %.2f %%, %v\n", r.Moisture.In(paperprop.Percent),
		r.PooledMoisture.In(paperprop.Percent), r.MoistureRange.In(paperprop.Percent), err)
	// Output: mean 7.50 %, pooled 8.33 %, range 5.00 %, <nil>
}

// The constant of a Gurley time is never silent: sources disagree by 6.5 %.
func ExampleGurley() {
	for _, constant := range []paperprop.PermeanceTime{127, 135.3} {
		r, err := sheet.Gurley{Time: 38 * paperprop.Second, GurleyConstant: constant * paperprop.MicrometrePerPascal}.Calculate()
		fmt.Printf("%.2f µm/(Pa·s), %v\n", r.AirPermeance.In(paperprop.MicrometrePerPascalSecond), err)
	}
	// Output:
	// 3.34 µm/(Pa·s), <nil>
	// 3.56 µm/(Pa·s), <nil>
}

func ExampleBendingResistance() {
	_, err := sheet.BendingResistance{
		Force:    38 * paperprop.Millinewton,
		Angle:    10 * paperprop.Degree,
		Grammage: 121.4 * paperprop.GramPerSquareMetre,
	}.Calculate()
	fmt.Println(err)
	// Output: angle is 10 deg, want 15 deg or 7.5 deg
}

func ExampleCoatWeight() {
	r, err := sheet.CoatWeight{
		CoatedGrammage: 134.2 * paperprop.GramPerSquareMetre,
		BaseGrammage:   121.4 * paperprop.GramPerSquareMetre,
		CoatedMoisture: 5.2 * paperprop.Percent,
		BaseMoisture:   7.5 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.1f g/m² dry, %.0f kg/t, %v\n", r.CoatDryGrammage.In(paperprop.DryGramPerSquareMetre), r.CoatUse.In(paperprop.KilogramPerTonne), err)
	// Output: 14.9 g/m² dry, 111 kg/t, <nil>
}
