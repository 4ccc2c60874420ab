package fibre_test

import (
	"fmt"

	"millmaths.example/fibre"
	"millmaths.example/paperprop"
)

// Two rules are in use, and they differ: the call says which.
func ExampleMoistureClaim() {
	claim := fibre.MoistureClaim{
		Mass:      []paperprop.Mass{25 * paperprop.Tonne},
		Moisture:  []paperprop.Moisture{16 * paperprop.Percent},
		Allowance: 10 * paperprop.Percent,
		Scope:     fibre.ScopeLoad,
	}
	for _, claim.Rule = range []fibre.ClaimRule{fibre.RuleBasis, fibre.RulePoints} {
		r, err := claim.Calculate()
		fmt.Printf("%s: %.3f t, %v\n", claim.Rule, r.PayableMass.In(paperprop.Tonne), err)
	}
	// Output:
	// basis: 23.333 t, <nil>
	// points: 23.500 t, <nil>
}

// Three loads come to Quillbeck, an invented mill. What is paid and what is
// claimed are decimals that add up to what was weighed.
func ExampleMoistureClaim_Decimals() {
	claim := fibre.MoistureClaim{
		Mass:      []paperprop.Mass{24_860, 25_340, 23_920},
		Moisture:  []paperprop.Moisture{0.125, 0.081, 0.137},
		Allowance: 10 * paperprop.Percent,
		Rule:      fibre.RuleBasis,
		Scope:     fibre.ScopeLoad,
	}
	payable, claimed, err := claim.Decimals()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("delivered %v kg, to pay for %v kg, claimed %v kg\n", payable.Add(claimed), payable, claimed)
	// Output: delivered 74120 kg, to pay for 72446.067 kg, claimed 1673.933 kg
}

// Pulp is invoiced at 90 % dryness; what was found on delivery is less.
func ExampleSaleableClaim_Decimals() {
	claim := fibre.SaleableClaim{
		InvoicedMass: 25_300 * paperprop.Kilogram,
		Mass:         25_117 * paperprop.Kilogram,
		Dryness:      89.72 * paperprop.Percent,
	}
	r, err := claim.Calculate()
	if err != nil {
		fmt.Println(err)
		return
	}
	saleable, claimed, err := claim.Decimals()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v kg + %v kg = %v kg, %.2f %% claimed\n", saleable, claimed, saleable.Add(claimed), 100*float64(r.ClaimShare))
	// Output: 25038.858 kg + 261.142 kg = 25300 kg, 1.03 % claimed
}

func ExampleUnwantedClaim_Decimal() {
	claim := fibre.UnwantedClaim{
		Mass:           24.6 * paperprop.Tonne,
		UnwantedShare:  3.7 * paperprop.Percent,
		ToleratedShare: 1.5 * paperprop.Percent,
	}
	claimed, err := claim.Decimal()
	fmt.Println(claimed, "kg, error:", err)
	// Output: 541.2 kg, error: <nil>
}

func ExampleBaleLot() {
	r, err := fibre.BaleLot{
		Mass:     []paperprop.Mass{612, 588, 745, 530},
		Moisture: []paperprop.Moisture{0.094, 0.121, 0.178, 0.109},
	}.Calculate()
	fmt.Printf("%.0f kg at %.3f %%, %v\n", r.LotMass.In(paperprop.Kilogram), 100*float64(r.LotMoisture), err)
	// Output: 2475 kg at 12.891 %, <nil>
}

// The yard of Quillbeck.
func ExampleYardCover() {
	r, err := fibre.YardCover{
		BaleMass: 3200 * paperprop.Tonne, BaleMoisture: 11.5 * paperprop.Percent,
		PaperFlow: 14.2128 * paperprop.TonnePerHour, PaperMoisture: 7.5 * paperprop.Percent,
		Uptime: 91 * paperprop.Percent, AddedDryShare: 4.114 * paperprop.Percent, Yield: 91.93 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.2f days, error: %v\n", r.Time.In(paperprop.Day), err)
	// Output: 9.46 days, error: <nil>
}

// Freeness is mixed as one asks, but said not to mix.
func ExampleFurnish() {
	r, err := fibre.Furnish{
		Share:    []paperprop.Fraction{0.6, 0.4},
		Value:    []float64{520, 380},
		Property: fibre.PropertyFreeness,
	}.Calculate()
	fmt.Println(r.MeanValue, r.Warnings[0].Code, err)
	// Output: 464 not-additive <nil>
}

// Two conventions are in use, and they differ by one.
func ExampleAge() {
	r, err := fibre.Age{RecoveredShare: 71.7 * paperprop.Percent}.Calculate()
	fmt.Printf("used %.2f times before, %.2f times with the present one, error: %v\n", float64(r.MeanPreviousUses), float64(r.MeanUses), err)
	// Output: used 2.53 times before, 3.53 times with the present one, error: <nil>
}

func ExampleLength() {
	r, err := fibre.Length{
		ClassLength: []paperprop.Length{0.1, 0.3, 0.7, 1.2, 1.9, 2.7},
		ClassCount:  []paperprop.Ratio{3120, 2210, 1480, 690, 240, 75},
		LowerLimit:  0.2 * paperprop.Millimetre,
	}.Calculate()
	fmt.Printf("%.2f mm by number, %.2f by length, %.2f by mass, error: %v\n",
		float64(r.NumberMeanLength), float64(r.LengthWeightedLength), float64(r.MassWeightedLength), err)
	// Output: 0.68 mm by number, 1.05 by length, 1.47 by mass, error: <nil>
}

// Without a correction from the table of the method the result is as measured.
func ExampleFreeness() {
	sample := fibre.Freeness{
		Volume:      412 * paperprop.Millilitre,
		Consistency: 0.31 * paperprop.Percent,
		Temperature: paperprop.Celsius(21.5),
	}
	r, err := sample.Calculate()
	fmt.Printf("%.0f mL, %s, error: %v\n", r.Freeness.In(paperprop.Millilitre), r.Warnings[0].Code, err)

	correction := -7 * paperprop.Millilitre
	sample.VolumeCorrection = &correction
	r, err = sample.Calculate()
	fmt.Printf("%.0f mL, %d warnings, error: %v\n", r.Freeness.In(paperprop.Millilitre), len(r.Warnings), err)
	// Output:
	// 412 mL, uncorrected, error: <nil>
	// 405 mL, 0 warnings, error: <nil>
}

func ExampleTestCharge() {
	r, err := fibre.TestCharge{
		DryMass:       24 * paperprop.OvenDryGram,
		Dryness:       28.4 * paperprop.Percent,
		ToConsistency: 10 * paperprop.Percent,
	}.Calculate()
	fmt.Printf("%.1f g of pulp, %.1f g of water, error: %v\n", r.MoistMass.In(paperprop.Gram), r.WaterMass.In(paperprop.Gram), err)
	// Output: 84.5 g of pulp, 155.5 g of water, error: <nil>
}

func ExampleKappa() {
	r, err := fibre.Kappa{
		DryMass:       2.045 * paperprop.OvenDryGram,
		BlankVolume:   50.10 * paperprop.Millilitre,
		TitrantVolume: 22.35 * paperprop.Millilitre,
		Normality:     0.2 * paperprop.EquivalentPerLitre,
		Temperature:   []paperprop.Temperature{paperprop.Celsius(24.6), paperprop.Celsius(25.2)},
	}.Calculate()
	fmt.Printf("kappa %.1f, %.0f %% used up, error: %v\n", float64(r.KappaNumber), 100*float64(r.ConsumedShare), err)
	// Output: kappa 27.5, 55 % used up, error: <nil>
}
