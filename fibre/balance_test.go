package fibre_test

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"

	"millmaths.example/fibre"
	"millmaths.example/paperprop"
)

// closes says whether terms, of which what leaves has a minus, add up to zero
// within 1e-12 of the largest of them.
func closes(t *testing.T, what string, terms ...float64) {
	t.Helper()
	sum, largest := 0.0, 0.0
	for _, x := range terms {
		sum += x
		largest = max(largest, math.Abs(x))
	}
	if !(math.Abs(sum) <= 1e-12*largest) {
		t.Errorf("%s: %v add up to %g, want 0 within 1e-12 of %g", what, terms, sum, largest)
	}
}

// share lies from 0 to below 1, at times at 0 and within 1e-12 of 1.
func share(r *rand.Rand) float64 {
	switch x := math.Pow(10, -12*r.Float64()); r.IntN(5) {
	case 0:
		return 0
	case 1:
		return x * (1 - 1e-12)
	case 2:
		return 1 - x
	}
	return r.Float64()
}

const balances = 1000

// Whatever was used so often, and all that was used more often, is all there
// is; the mean is theirs.
func TestAgesAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 1))
	for range balances {
		loop := fibre.Age{RecoveredShare: paperprop.Fraction(share(r)), Yield: paperprop.Fraction(1 - share(r))}
		all, uses := []float64{-1}, []float64{}
		var last fibre.AgeResult
		const ages = 12
		for loop.PreviousUses = 0; loop.PreviousUses < ages; loop.PreviousUses++ {
			got, err := loop.Calculate()
			if err != nil {
				t.Fatalf("%+v: %v", loop, err)
			}
			all = append(all, float64(got.AgeShare))
			uses = append(uses, float64(loop.PreviousUses)*float64(got.AgeShare))
			last = got
		}
		older := float64(last.AtLeastShare) * float64(last.RecycledShare) // used before as often as there are ages, or more
		closes(t, "ages", append(all, older)...)
		// What is as old or older is, counted from there, as old as all is.
		closes(t, "uses", append(uses, older*(ages+float64(last.MeanPreviousUses)), -float64(last.MeanPreviousUses))...)
		closes(t, "conventions", float64(last.MeanUses), -float64(last.MeanPreviousUses), -1)
	}
}

// The ends that the signature takes: no recovery, and all but all of it.
func TestEndsOfRecovery(t *testing.T) {
	got, err := fibre.Age{RecoveredShare: 0, PreviousUses: 0}.Calculate()
	if want := (fibre.AgeResult{AgeShare: 1, AtLeastShare: 1, MeanUses: 1}); err != nil || got != want {
		t.Errorf("nothing recovered: %+v, %v, want %+v: all fibre is new", got, err, want)
	}
	if got, err = (fibre.Age{RecoveredShare: 0, PreviousUses: 1}).Calculate(); err != nil || got.AgeShare != 0 || got.AtLeastShare != 0 {
		t.Errorf("nothing recovered, used once: %+v, %v, want no fibre", got, err)
	}
	if _, err := (fibre.Age{RecoveredShare: 1}).Calculate(); !errors.Is(err, paperprop.ErrRange) {
		t.Errorf("all recovered without loss: %v, want a refusal: fibre grows old without end", err)
	}
	if _, err := (fibre.AgeStart{RecoveredShare: 1}).Calculate(); !errors.Is(err, paperprop.ErrRange) {
		t.Errorf("all recovered without loss: %v, want a refusal", err)
	}
	almost := paperprop.Fraction(math.Nextafter(1, 0))
	if got, err = (fibre.Age{RecoveredShare: almost}).Calculate(); err != nil || got.MeanUses != 1<<53 {
		t.Errorf("all but 2^-53 recovered: %v, %v, want %d uses", got.MeanUses, err, 1<<53)
	}
}

// A pass later the fibre that was kept is a use older, and the new fibre is
// new; after many passes nothing changes.
func TestAgeFromPassToPass(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 2))
	for range balances {
		loop := fibre.AgeStart{RecoveredShare: paperprop.Fraction(share(r)), Yield: paperprop.Fraction(1 - share(r)), Loops: paperprop.Count(r.IntN(40))}
		q := float64(loop.RecoveredShare) * float64(loop.Yield)
		now, err := loop.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		loop.Loops++
		next, err := loop.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closes(t, "mean", float64(next.MeanPreviousUses), -q, -q*float64(now.MeanPreviousUses))
		closes(t, "oldest", float64(next.OldestShare), -q*float64(now.OldestShare))
		steady, err := fibre.Age{RecoveredShare: loop.RecoveredShare, Yield: loop.Yield}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		loop.Loops = 1e15
		old, err := loop.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closes(t, "steady", float64(steady.MeanPreviousUses), -float64(old.MeanPreviousUses))
	}
}

// A property mixed by the shares of the ages is the closed form.
func TestRecycledPropertyIsTheMixture(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 3))
	for range 100 {
		p := fibre.RecycledProperty{
			NewValue: 100 * r.Float64(), PlateauValue: 100 * r.Float64(), Decay: paperprop.Ratio(r.Float64()),
			RecoveredShare: paperprop.Fraction(0.9 * r.Float64()), Yield: paperprop.Fraction(1 - r.Float64()),
		}
		got, err := p.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		terms := []float64{-got.MeanValue}
		loop := fibre.Age{RecoveredShare: p.RecoveredShare, Yield: p.Yield}
		for ; loop.PreviousUses < 400; loop.PreviousUses++ {
			age, err := loop.Calculate()
			if err != nil {
				t.Fatal(err)
			}
			value := p.PlateauValue + (p.NewValue-p.PlateauValue)*math.Pow(float64(p.Decay), float64(loop.PreviousUses))
			terms = append(terms, float64(age.AgeShare)*value)
		}
		closes(t, "property", terms...)
	}
}

// The parts of a claim add up to the last digit, and lie within half a gram of
// the exact quotient, which big.Rat knows.
func TestClaimsAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 4))
	hundredths := func(from, to int) float64 { return float64(from+r.IntN(to-from)) / 100 }
	for range balances {
		c := fibre.MoistureClaim{
			Allowance: paperprop.Moisture(hundredths(0, 2000) / 100),
			Rule:      []fibre.ClaimRule{fibre.RuleBasis, fibre.RulePoints}[r.IntN(2)],
			Scope:     []fibre.ClaimScope{fibre.ScopeLot, fibre.ScopeLoad}[r.IntN(2)],
		}
		var delivered decimal.Decimal
		for range 1 + r.IntN(5) {
			kilograms := hundredths(1, 3_000_000)
			c.Mass = append(c.Mass, paperprop.Mass(kilograms))
			c.Moisture = append(c.Moisture, paperprop.Moisture(hundredths(0, 4000)/100))
			delivered = delivered.Add(decimal.NewFromFloat(kilograms))
		}
		got, err := c.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		payable, claimed, err := c.Decimals()
		if err != nil {
			t.Fatal(err)
		}
		if !payable.Add(claimed).Equal(delivered) {
			t.Errorf("%+v: %v and %v, want %v in all", c, payable, claimed, delivered)
		}
		if x, _ := payable.Float64(); !(math.Abs(x-float64(got.PayableMass)) <= 0.0005+1e-12*x) {
			t.Errorf("%+v: %v kg in decimals, %v", c, payable, got.PayableMass)
		}

		s := fibre.SaleableClaim{InvoicedMass: c.Mass[0], Mass: c.Mass[0], Dryness: paperprop.DryContent(1 - c.Moisture[0])}
		s.Dryness = paperprop.DryContent(math.Round(float64(s.Dryness)*1e4) / 1e4)
		saleable, claim, err := s.Decimals()
		if err != nil {
			t.Fatal(err)
		}
		if !saleable.Add(claim).Equal(decimal.NewFromFloat(float64(s.InvoicedMass))) {
			t.Errorf("%+v: %v and %v do not make up the invoice", s, saleable, claim)
		}
		exact := decimal.NewFromFloat(float64(s.Mass)).Mul(decimal.NewFromFloat(float64(s.Dryness))).Rat()
		exact.Quo(exact, big.NewRat(9, 10))
		off := exact.Sub(exact, saleable.Rat())
		if off.Abs(off).Cmp(big.NewRat(1, 2000)) > 0 || off.Sign() != 0 && saleable.Exponent() < -3 {
			t.Errorf("%+v: %v kg, off by %v", s, saleable, off.FloatString(9))
		}
	}
}

// Loads that are no moister than agreed are paid to the last digit, and nothing is
// claimed of them: only what the basis rule divides is rounded.
func TestNoClaimIsDue(t *testing.T) {
	const pounds, more, tonnes = 10300 * paperprop.Pound, 10001 * paperprop.Pound, 25 * paperprop.Tonne
	for _, test := range []struct {
		mass             []paperprop.Mass
		moisture         []paperprop.Moisture
		scope            fibre.ClaimScope
		payable, claimed string // kg, by hand: 10300 lb are 4672.001411 kg
	}{
		{[]paperprop.Mass{pounds}, []paperprop.Moisture{0.05}, fibre.ScopeLoad, "4672.001411", "0"},
		{[]paperprop.Mass{pounds}, []paperprop.Moisture{0.05}, fibre.ScopeLot, "4672.001411", "0"},
		{[]paperprop.Mass{pounds, more}, []paperprop.Moisture{0.05, 0.1}, fibre.ScopeLoad, "9208.37870337", "0"},
		{[]paperprop.Mass{pounds, more}, []paperprop.Moisture{0.1, 0.1}, fibre.ScopeLot, "9208.37870337", "0"},
		{[]paperprop.Mass{pounds, tonnes}, []paperprop.Moisture{0.05, 0.16}, fibre.ScopeLoad, "28005.334411", "1666.667"},
		{[]paperprop.Mass{tonnes, tonnes}, []paperprop.Moisture{0.04, 0.16}, fibre.ScopeLot, "50000", "0"},
		{[]paperprop.Mass{tonnes, tonnes}, []paperprop.Moisture{0.04, 0.16}, fibre.ScopeLoad, "48333.333", "1666.667"},
	} {
		c := fibre.MoistureClaim{Mass: test.mass, Moisture: test.moisture, Allowance: 0.1, Rule: fibre.RuleBasis, Scope: test.scope}
		payable, claimed, err := c.Decimals()
		if err != nil || payable.String() != test.payable || claimed.String() != test.claimed {
			t.Errorf("%+v: %v and %v kg, %v, want %s and %s", c, payable, claimed, err, test.payable, test.claimed)
		}
	}
}

// Decimals come from the texts of the inputs. One that was sought has none: what
// it gives is written with ten digits, and the mass that was given comes out.
func TestClaimSoughtFor(t *testing.T) {
	for payable, claimed := range map[string]string{"23750 kg": "1250 kg", "23750.123 kg": "1249.877 kg", "23.5 t": "1500 kg"} {
		s := sheet(t, "moisture-claim", map[string]string{
			"mass": "25 t", "moisture": "15 %", "rule": "points", "scope": "lot", "payable-mass": payable,
		})
		if got := s.Out[1].Reported(); got != claimed {
			t.Errorf("%s are paid: claimed are %s, want %s", payable, got, claimed)
		}
		if got := string(s.Out[1].AppendNumber(nil, false)) + " kg"; got != claimed {
			t.Errorf("%s are paid: the cell says %s, want %s", payable, got, claimed)
		}
	}
}

// A quotient without an end goes to the nearer gram, be it within 1e-16 of a tie;
// one that has an end is not rounded.
func TestSaleableMassIsRoundedOnce(t *testing.T) {
	for _, test := range []struct {
		kilograms  float64
		commercial paperprop.DryContent
		want       string
	}{
		{1000.4505, 0.9, "1111.612"},           // 1111.61166…
		{0.0045, 0.9, "0.005"},                 // 0.005
		{0.00045, 0.9, "0.0005"},               // has an end
		{0.00135, 0.9, "0.0015"},               // has an end
		{0.00035000000000000006, 0.7, "0.001"}, // just above the tie 0.0005
		{0.00034999999999999994, 0.7, "0"},     // just below it
		{0.0010499999999999995, 0.7, "0.001"},  // just below the tie 0.0015
		{1e9, 0.7, "1428571428.571"},           // sevenths
		{2e9, 0.7, "2857142857.143"},           // and those that are rounded up
		{12345678.901, 1, "12345678.901"},      // nothing to divide
		{0.0004999999999999999, 1, "0.0004999999999999999"},
		{987654321.0005, 1, "987654321.0005"},
		{1, 0.8, "1.25"},
	} {
		s := fibre.SaleableMass{Mass: paperprop.Mass(test.kilograms), Dryness: 1, CommercialDryness: test.commercial}
		if got, err := s.Decimal(); err != nil || got.String() != test.want {
			t.Errorf("%v kg of dry pulp at %v: %s kg, %v, want %s (by hand)", test.kilograms, test.commercial, got, err, test.want)
		}
	}
}

func TestChargesAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 5))
	for range balances {
		dry, dryness := math.Pow(10, 4*r.Float64()-2), 1-share(r)
		charge := fibre.TestCharge{
			DryMass: paperprop.OvenDryMass(dry) * paperprop.OvenDryGram, Dryness: paperprop.DryContent(dryness),
			ToConsistency: paperprop.Consistency(dryness * (1 - share(r))),
		}
		got, err := charge.Calculate()
		if err != nil {
			t.Fatalf("%+v: %v", charge, err)
		}
		closes(t, "charge", float64(got.MoistMass), float64(got.WaterMass), -float64(got.TotalMass))
		closes(t, "dry matter", float64(charge.DryMass), -float64(got.MoistMass)*dryness)

		d := fibre.Disintegration{DryMass: charge.DryMass, Dryness: charge.Dryness, TotalMass: got.TotalMass}
		stirred, err := d.Calculate()
		if err != nil {
			t.Fatalf("%+v: %v", d, err)
		}
		closes(t, "water", float64(got.WaterMass), -float64(stirred.WaterMass), float64(got.TotalMass), -float64(got.TotalMass))
		closes(t, "consistency", float64(stirred.Consistency), -float64(charge.ToConsistency))
	}
}

func TestFractionsAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 6))
	for range balances {
		c := fibre.Fractions{}
		for range 1 + r.IntN(5) {
			m := paperprop.OvenDryMass(r.IntN(1000)) / 100 * paperprop.OvenDryGram
			c.RetainedDryMass = append(c.RetainedDryMass, m)
			c.DryMass += m
		}
		c.DryMass += paperprop.OvenDryMass(r.IntN(3)*r.IntN(1000)) / 100 * paperprop.OvenDryGram
		if c.DryMass == 0 {
			continue
		}
		got, err := c.Calculate()
		if err != nil {
			t.Fatalf("%+v: %v", c, err)
		}
		terms := []float64{-1, float64(got.FinesShare)}
		for _, x := range got.RetainedShare {
			terms = append(terms, float64(x))
		}
		closes(t, "fractions", terms...)
		if got.FinesShare < 0 {
			t.Errorf("%+v: fines-share %v", c, got.FinesShare)
		}
	}
}

// Two ignitions and the two sorts of ash are one and the same.
func TestFillersAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 7))
	for range balances {
		carbonate, other, loss := 0.5*share(r), 0.5*share(r), 0.05+0.95*r.Float64()
		got, err := fibre.FillerTwoTemperatures{
			LowAshShare:   paperprop.Fraction(carbonate + other),
			HighAshShare:  paperprop.Fraction(carbonate*(1-loss) + other),
			CarbonateLoss: paperprop.Fraction(loss),
		}.Calculate()
		if err != nil {
			t.Fatalf("%g of carbonate, %g of other ash, loss %g: %v", carbonate, other, loss, err)
		}
		// The loss magnifies the last digits of the ashes.
		if d := math.Abs(float64(got.CarbonateShare) - carbonate); d > 1e-14*(carbonate+other)/loss {
			t.Errorf("carbonate-share %v, want %g of %g, loss %g", got.CarbonateShare, carbonate, other, loss)
		}
		closes(t, "ash", float64(got.CarbonateShare), float64(got.OtherAshShare), -carbonate-other)
	}
}

// What Calculate refuses has no decimals either: no rule is guessed, and lists of
// different length are no matter for a panic.
func TestDecimalsRefuse(t *testing.T) {
	three := []paperprop.Mass{1, 2, 3}
	for _, claim := range []fibre.MoistureClaim{
		{Mass: three, Moisture: []paperprop.Moisture{0.1, 0.1}, Allowance: 0.1, Rule: fibre.RuleBasis, Scope: fibre.ScopeLot},
		{Mass: three, Moisture: []paperprop.Moisture{0.1, 0.1, 0.1}, Allowance: 0.1, Rule: "Basis", Scope: fibre.ScopeLot},
		{Mass: three, Moisture: []paperprop.Moisture{0.1, 0.1, paperprop.Moisture(math.NaN())}, Allowance: 0.1, Rule: fibre.RuleBasis, Scope: fibre.ScopeLot},
	} {
		if payable, _, err := claim.Decimals(); err == nil {
			t.Errorf("%+v: pay %v, want an error", claim, payable)
		}
	}
	cost := fibre.FurnishCost{Share: []paperprop.Fraction{0.6, 0.3}, Price: []paperprop.Price{150, 120}, BalePerPaper: 1.1}
	if mean, _, err := cost.Decimals(); err == nil {
		t.Errorf("shares of 90 %%: %v, want an error", mean)
	}
	if price, err := (fibre.PriceAsReceived{DryPrice: 150, Moisture: 1.01}).Decimal(); err == nil {
		t.Errorf("a moisture of 101 %%: %v, want an error", price)
	}
}
