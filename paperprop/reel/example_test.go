package reel_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/reel"
)

// Two of length, diameter and thickness give the third.
func ExampleReel() {
	r, err := reel.Reel{
		Diameter:      1250 * paperprop.Millimetre,
		CoreDiameter:  100 * paperprop.Millimetre,
		ReelThickness: 186 * paperprop.Micrometre,
	}.Calculate()
	fmt.Printf("%.0f m, %v\n", r.Length.In(paperprop.Metre), err)
	// Output: 6556 m, <nil>
}

func ExampleTrimLoss() {
	r, err := reel.TrimLoss{
		Deckle:    2540 * paperprop.Millimetre,
		ReelWidth: []paperprop.Length{844.5, 844.5, 850.9},
	}.Calculate()
	fmt.Printf("trim %v, %v\n", r.Trim, err)
	// Output: trim 0.1 mm, <nil>
}
