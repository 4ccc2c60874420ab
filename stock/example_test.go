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

// Machine stock and broke of the invented Quillbeck Board Mill, by their shares
// of the dry furnish.
func ExampleProportioning() {
	r, err := stock.Proportioning{
		DryFlow:     14.4 * paperprop.DryTonnePerHour,
		DryShare:    []paperprop.Fraction{0.94, 0.06},
		Consistency: []paperprop.Consistency{0.034, 0.040},
	}.Calculate()
	fmt.Printf("%.1f t/h at %.2f %%, %v\n", r.MassFlowOut.In(paperprop.TonnePerHour), 100*float64(r.ConsistencyOut), err)
	// Output: 419.7 t/h at 3.43 %, <nil>
}

func ExampleThickening() {
	r, err := stock.Thickening{
		MassFlow:            650 * paperprop.TonnePerHour,
		ConsistencyIn:       0.72 * paperprop.Percent,
		ConsistencyOut:      4.5 * paperprop.Percent,
		FiltrateConsistency: 0.03 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.1f t/h run off, %.1f %% of the dry matter stays, %v\n",
		r.FiltrateFlow.In(paperprop.TonnePerHour), 100*float64(r.Capture), err)
	// Output: 549.7 t/h run off, 96.5 % of the dry matter stays, <nil>
}

// How long the machine chest of the invented Quillbeck Board Mill lasts when
// nothing comes into it.
func ExampleChestTime() {
	r, err := stock.ChestTime{
		Volume:      300 * paperprop.CubicMetre,
		Level:       0.68,
		ToLevel:     0.15,
		Consistency: 3.4 * paperprop.Percent,
		Density:     1011 * paperprop.KilogramPerCubicMetre,
		DryFlowOut:  14.3 * paperprop.DryTonnePerHour,
	}.Calculate()
	fmt.Printf("%.1f min, %v\n", r.Time.In(paperprop.Minute), err)
	// Output: 22.9 min, <nil>
}

// The pulper of the invented Quillbeck Board Mill, filled at 4.6 %.
func ExamplePulperCharge() {
	r, err := stock.PulperCharge{
		Volume:           28 * paperprop.CubicMetre,
		Consistency:      4.6 * paperprop.Percent,
		Density:          1014 * paperprop.KilogramPerCubicMetre,
		BaleMoisture:     11.5 * paperprop.Percent,
		WaterConsistency: 0.19 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.0f kg of bales, %.0f kg of water, %v\n", r.BaleMass.In(paperprop.Kilogram), r.WaterMass.In(paperprop.Kilogram), err)
	// Output: 1418 kg of bales, 26974 kg of water, <nil>
}

// The two screens of the invented Quillbeck Board Mill; a cascade is fed more
// than what is fresh.
func ExampleScreenCascade() {
	r, err := stock.ScreenCascade{
		Arrangement:    stock.ArrangementCascade,
		DryFlow:        14.7 * paperprop.DryTonnePerHour,
		MassRejectRate: []paperprop.Fraction{0.14, 0.18},
	}.Calculate()
	for _, q := range r.StageDryFlow {
		fmt.Printf("%.2f t/h\n", q.In(paperprop.DryTonnePerHour))
	}
	fmt.Printf("loss %.2f %%, %v\n", 100*float64(r.Loss), err)
	// Output:
	// 16.61 t/h
	// 2.32 t/h
	// loss 2.85 %, <nil>
}

// A contaminant with no way out of the plant is refused.
func ExampleCascadeRemoval_refused() {
	_, err := stock.CascadeRemoval{
		Arrangement:            stock.ArrangementCascade,
		StageRemovalEfficiency: []paperprop.Fraction{1, 0},
	}.Calculate()
	fmt.Println(errors.Is(err, paperprop.ErrRange))
	// Output: true
}

func ExampleRefinerEdgeLoad() {
	r, err := stock.RefinerEdgeLoad{
		Power:       620 * paperprop.Kilowatt,
		NoLoadPower: 160 * paperprop.Kilowatt,
		RotorBars:   150,
		StatorBars:  144,
		BarLength:   0.21 * paperprop.Metre,
		Gaps:        2,
		Frequency:   600 * paperprop.PerMinute,
	}.Calculate()
	fmt.Printf("%.2f J/m at %.2f km/s, %v\n", r.SpecificEdgeLoad.In(paperprop.JoulePerMetre), r.CuttingSpeed.In(paperprop.KilometrePerSecond), err)
	// Output: 5.07 J/m at 90.72 km/s, <nil>
}
