package board_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/board"
)

// The boxes of the examples are invented, like the mill that makes their board.

func ExampleGrammage() {
	r, err := board.Grammage{
		LinerGrammage:    []paperprop.Grammage{140, 120},
		FlutingGrammage:  []paperprop.Grammage{105},
		TakeUp:           []paperprop.Ratio{1.43},
		AdhesiveGrammage: 9 * paperprop.GramPerSquareMetre,
	}.Calculate()
	fmt.Printf("%.1f g/m², %.1f %% of it fluting, %v\n", r.Grammage.In(paperprop.GramPerSquareMetre), r.FlutingShare[0].In(paperprop.Percent), err)
	// Output: 419.1 g/m², 35.8 % of it fluting, <nil>
}

func ExampleBoxCompression() {
	r, err := board.BoxCompression{
		EdgeCrush: 4.9 * paperprop.KilonewtonPerMetre,
		Perimeter: 1.32 * paperprop.Metre,
		Thickness: 3.9 * paperprop.Millimetre,
		Height:    180 * paperprop.Millimetre,
	}.Calculate()
	fmt.Printf("%.0f N, %v\n", r.BoxCompression.In(paperprop.Newton), err)
	for _, w := range r.Warnings {
		fmt.Println(w.Code)
	}
	// Output:
	// 2064 N, <nil>
	// low-box
}

func ExampleStacking() {
	r, err := board.Stacking{
		BoxCompression: 2.06 * paperprop.Kilonewton,
		Mass:           8.4 * paperprop.Kilogram,
		Layers:         8,
		Multiplier:     []paperprop.Ratio{0.60, 0.80, 0.85}, // time, humidity, pattern
		AddedMass:      22 * paperprop.Kilogram,
	}.Calculate()
	fmt.Printf("%.0f N of %.0f N allowed, safety factor %.2f, most layers %v, %v\n",
		r.Load.In(paperprop.Newton), r.AllowedLoad.In(paperprop.Newton), float64(r.SafetyFactor), r.MostLayers, err)
	// Output: 792 N of 840 N allowed, safety factor 2.60, most layers 8, <nil>
}
