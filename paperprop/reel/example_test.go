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

// Harebell 120 of the invented mill Quillbeck, on the scale and for an order.
func ExampleCount() {
	weighed, err := reel.RollDensity{
		Mass:         850 * paperprop.Kilogram,
		Diameter:     1250 * paperprop.Millimetre,
		CoreDiameter: 100 * paperprop.Millimetre,
		ReelWidth:    1080 * paperprop.Millimetre,
		Grammage:     120 * paperprop.GramPerSquareMetre,
	}.Calculate()
	if err != nil {
		fmt.Println(err)
		return
	}
	order, err := reel.Count{
		OrderedMass:  12 * paperprop.Tonne,
		ReelWidth:    1080 * paperprop.Millimetre,
		Diameter:     1250 * paperprop.Millimetre,
		CoreDiameter: 100 * paperprop.Millimetre,
		RollDensity:  weighed.RollDensity,
		UnderRun:     10 * paperprop.Percent,
		OverRun:      10 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%v to %v reels, best %v, %v\n", order.FewestReels, order.MostReels, order.NearestReels, err)
	// Output: 13 to 15 reels, best 14, <nil>
}

// Three reels of 10 000.1 m come off a jumbo of 30 000.3 m, whatever that is in
// binary.
func ExampleSets() {
	r, err := reel.Sets{
		JumboLength: 30000.3 * paperprop.Metre,
		ReelLength:  10000.1 * paperprop.Metre,
	}.Calculate()
	fmt.Printf("%v sets, rest %v, %v\n", r.Sets, r.RestLength, err)
	// Output: 3 sets, rest 0 mm, <nil>
}

// A draw needs its base.
func ExampleDraw() {
	r, err := reel.Draw{
		SpeedIn:  980 * paperprop.MetrePerMinute,
		SpeedOut: 1008 * paperprop.MetrePerMinute,
	}.Calculate()
	fmt.Printf("%.3f %% of the speed before, %.3f %% of the speed after, %v\n",
		r.Draw.In(paperprop.Percent), r.DrawOnSpeedOut.In(paperprop.Percent), err)
	// Output: 2.857 % of the speed before, 2.778 % of the speed after, <nil>
}

// What Quillbeck sells, over all hours that the machine is there to run.
func ExampleNetProduction() {
	r, err := reel.NetProduction{
		Grammage:      120 * paperprop.GramPerSquareMetre,
		SheetWidth:    3.36 * paperprop.Metre,
		Speed:         625 * paperprop.MetrePerMinute,
		Uptime:        91 * paperprop.Percent,
		SaleableShare: 94 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.1f t/d, %v\n", r.NetPaperFlow.In(paperprop.TonnePerDay), err)
	// Output: 310.4 t/d, <nil>
}
