package stock_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/stock"
)

// The two forms of first-pass retention differ by the water in the sheet.
func ExampleRetentionTwoProduct() {
	usual, _ := stock.Retention{
		HeadboxConsistency: 0.80 * paperprop.Percent,
		TrayConsistency:    0.20 * paperprop.Percent,
	}.Calculate()
	exact, err := stock.RetentionTwoProduct{
		HeadboxConsistency: 0.80 * paperprop.Percent,
		TrayConsistency:    0.20 * paperprop.Percent,
		SheetDryness:       20 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.2f %% and %.2f %%, %v\n", 100*usual.FirstPassRetention, 100*exact.FirstPassRetention, err)
	// Output: 75.00 % and 75.76 %, <nil>
}

func ExampleLoopRetention() {
	r, err := stock.LoopRetention{
		FirstPassRetention: 60 * paperprop.Percent,
		ReturnShare:        95 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.2f %% in all, %.3f times the fresh solids in the headbox, %v\n", 100*r.OverallRetention, r.BuildUpFactor, err)
	// Output: 96.77 % in all, 1.613 times the fresh solids in the headbox, <nil>
}

func ExampleHeadboxFlow() {
	r, err := stock.HeadboxFlow{
		SheetDryFlow:       24 * paperprop.DryTonnePerHour,
		FirstPassRetention: 85 * paperprop.Percent,
		HeadboxConsistency: 0.80 * paperprop.Percent,
		Density:            1000 * paperprop.KilogramPerCubicMetre,
		SliceWidth:         5 * paperprop.Metre,
	}.Calculate()
	fmt.Printf("%.0f L/(min m), %v\n", r.FlowPerWidth.In(paperprop.LitrePerMinuteMetre), err)
	// Output: 11765 L/(min m), <nil>
}

// A transmitter above the jet sees less head than there is at the jet.
func ExampleJet() {
	r, err := stock.Jet{
		Head:              464 * paperprop.Inch,
		TransmitterHeight: 2 * paperprop.Inch,
		WireSpeed:         3000 * paperprop.FootPerMinute,
		Gravity:           32.19 * paperprop.FootPerSquareSecond,
	}.Calculate()
	fmt.Printf("%.3f, %.1f ft/min, %v\n", r.JetToWireRatio, r.JetSpeed.In(paperprop.FootPerMinute), err)
	// Output: 1.000, 3000.1 ft/min, <nil>
}

func ExampleDosingPump() {
	r, err := stock.DosingPump{
		Dosage:      0.25 * paperprop.KilogramPerTonne,
		DryFlow:     31 * paperprop.DryTonnePerHour,
		ActiveShare: 0.20 * paperprop.Percent,
		Density:     1000 * paperprop.KilogramPerCubicMetre,
	}.Calculate()
	fmt.Printf("%.0f L/h, %v\n", r.VolumeFlow.In(paperprop.LitrePerHour), err)
	// Output: 3875 L/h, <nil>
}

// Harebell 120 on a good hour of the invented mill Quillbeck.
func ExamplePickUp() {
	r, err := stock.PickUp{
		DrynessIn:  96 * paperprop.Percent,
		DrynessOut: 71 * paperprop.Percent,
		Solids:     9.5 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.1f kg/t dry, %.1f %% of it for each point of dryness, %v\n",
		r.DryPickUp.In(paperprop.KilogramPerTonne), 100*r.Sensitivity, err)
	// Output: 40.2 kg/t dry, -5.6 % of it for each point of dryness, <nil>
}

// More water can't leave a mill than comes in.
func ExampleMillWater_refused() {
	_, err := stock.MillWater{
		FreshVolumeFlow: 4 * paperprop.CubicMetrePerHour,
		Evaporation:     23 * paperprop.TonnePerHour,
		PaperFlow:       22 * paperprop.TonnePerHour,
	}.Calculate()
	fmt.Println(err)
	// Output: effluent-volume-flow is -19 m3/h, want 0 m3/h or more: more water leaves than comes
}

// The coefficients are those of a furnish, for ft/s, per cent and inches.
func ExamplePipeFriction() {
	r, err := stock.PipeFriction{
		Speed:               5 * paperprop.FootPerSecond,
		Diameter:            8 * paperprop.Inch,
		Consistency:         3 * paperprop.Percent,
		FrictionFactor:      5.19,
		SpeedExponent:       0.36,
		ConsistencyExponent: 1.91,
		DiameterExponent:    -0.82,
	}.Calculate()
	fmt.Printf("%.1f ft in 100 ft, %v\n", float64(r.HeadLoss/paperprop.MetrePer100Metre), err)
	// Output: 13.7 ft in 100 ft, <nil>
}
