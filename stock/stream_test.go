package stock_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/stock"
)

const tries = 4000

// closed fails unless the terms add up to nothing, to 1e-12 of the largest.
func closed(t *testing.T, balance string, in any, terms ...float64) {
	t.Helper()
	var sum, largest float64
	for _, x := range terms {
		sum += x
		largest = max(largest, math.Abs(x))
	}
	if !(math.Abs(sum) <= 1e-12*largest) {
		t.Errorf("%+v: %s is open by %g, terms %v", in, balance, sum, terms)
	}
}

// within draws a number from low to high: every third time an end, or one that
// lies a hair beside it.
func within(r *rand.Rand, low, high float64) float64 {
	hair := 1e-9 * (high - low)
	switch r.IntN(12) {
	case 0:
		return low
	case 1:
		return high
	case 2:
		return low + hair
	case 3:
		return high - hair
	}
	return low + (high-low)*r.Float64()
}

// must is the result of inputs that are in range.
func must[I interface{ Calculate() (O, error) }, O any](t *testing.T, in I) O {
	t.Helper()
	out, err := in.Calculate()
	if err != nil {
		t.Fatalf("%+v: %v", in, err)
	}
	return out
}

// What the headbox gives is in the sheet or in the tray.
func TestRetentionCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 1))
	for range tries {
		headbox := within(r, 1e-6, 0.2)
		tray := within(r, 0, headbox)
		usual := stock.Retention{
			HeadboxConsistency: paperprop.Consistency(headbox),
			TrayConsistency:    paperprop.Consistency(tray),
		}
		kept := float64(must(t, usual).FirstPassRetention)
		closed(t, "solids over equal flows", usual, headbox, -kept*headbox, -tray)

		sheet := headbox + within(r, 1e-12, 1-headbox)
		exact := stock.RetentionTwoProduct{
			HeadboxConsistency: usual.HeadboxConsistency,
			TrayConsistency:    usual.TrayConsistency,
			SheetDryness:       paperprop.DryContent(sheet),
		}
		kept = float64(must(t, exact).FirstPassRetention)
		sheetFlow := kept * headbox / sheet // of the headbox flow
		closed(t, "solids of two products", exact, headbox, -sheetFlow*sheet, -(1-sheetFlow)*tray)
	}
}

func TestFillerRetentionCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 2))
	for range tries {
		headbox, ash := within(r, 1e-6, 0.2), within(r, 1e-9, 1-1e-9)
		filler, fibre := headbox*ash*within(r, 0, 1), headbox*(1-ash)*within(r, 0, 1) // in the tray
		tray, trayAsh := min(filler+fibre, headbox), 0.0
		if filler > 0 {
			trayAsh = filler / (filler + fibre)
		}
		in := stock.FillerRetention{
			HeadboxConsistency: paperprop.Consistency(headbox),
			HeadboxAshShare:    paperprop.Fraction(ash),
			TrayConsistency:    paperprop.Consistency(tray),
			TrayAshShare:       paperprop.Fraction(trayAsh),
		}
		out, err := in.Calculate()
		if err != nil {
			// Of a trace in a lot of the other the share keeps too few digits.
			if ash > 1e-3 && ash < 1-1e-3 {
				t.Fatalf("%+v: %v", in, err)
			}
			continue
		}
		kept := float64(out.FirstPassRetention)
		keptFiller, keptFibre := float64(out.FillerRetention), float64(out.FibreRetention)
		closed(t, "filler", in, headbox*ash, -keptFiller*headbox*ash, -tray*trayAsh)
		closed(t, "fibre", in, headbox*(1-ash), -keptFibre*headbox*(1-ash), -tray*(1-trayAsh))
		closed(t, "both", in, headbox, -(1-kept)*headbox, -keptFiller*headbox*ash, -keptFibre*headbox*(1-ash))
	}
}

// What is in the headbox is fresh or came back; what was fed is delivered or
// lost.
func TestLoopRetentionCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 3))
	for range tries {
		kept, back := within(r, 1e-9, 1), within(r, 0, 1)
		in := stock.LoopRetention{FirstPassRetention: paperprop.Fraction(kept), ReturnShare: paperprop.Fraction(back)}
		out := must(t, in)
		overall, headbox := float64(out.OverallRetention), float64(out.BuildUpFactor)
		closed(t, "headbox", in, headbox, -1, -back*(1-kept)*headbox)
		closed(t, "sheet", in, overall, -kept*headbox)
		closed(t, "loop", in, 1, -overall, -(1-back)*(1-kept)*headbox)
		if back == 1 && overall != 1 {
			t.Errorf("%+v: a closed loop retains %v, want 1", in, overall)
		}
	}
}

func TestLoopAshCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 4))
	for range tries {
		fresh, back := within(r, 0, 1), within(r, 0, 1)
		fibre, filler := within(r, 1e-9, 1), within(r, 1e-9, 1)
		in := stock.LoopAsh{
			FreshAshShare:   paperprop.Fraction(fresh),
			FibreRetention:  paperprop.Fraction(fibre),
			FillerRetention: paperprop.Fraction(filler),
			ReturnShare:     paperprop.Fraction(back),
		}
		out := must(t, in)
		inHeadbox := func(fed, kept float64) float64 { // of filler or fibre, per dry matter fed
			component := stock.LoopRetention{FirstPassRetention: paperprop.Fraction(kept), ReturnShare: in.ReturnShare}
			all := fed * float64(must(t, component).BuildUpFactor)
			closed(t, "component", component, all, -fed, -back*(1-kept)*all)
			return all
		}
		ash, rest := inHeadbox(fresh, filler), inHeadbox(1-fresh, fibre)
		closed(t, "headbox", in, float64(out.HeadboxAshShare)*(ash+rest), -ash)
		closed(t, "sheet", in, float64(out.SheetAshShare)*(ash*filler+rest*fibre), -ash*filler)
		if back == 1 {
			closed(t, "nothing lost", in, float64(out.SheetAshShare), -fresh)
		}
	}
}

func TestFreshStockAndHeadboxClose(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 5))
	for range tries {
		sheet, kept, c := within(r, 0.1, 100), within(r, 1e-9, 1), within(r, 1e-6, 1)
		fresh := stock.FreshStock{SheetDryFlow: paperprop.OvenDryFlow(sheet), OverallRetention: paperprop.Fraction(kept)}
		feed := must(t, fresh)
		closed(t, "loop", fresh, feed.FreshDryFlow.In(1), -sheet, -feed.LossDryFlow.In(1))

		headbox := stock.HeadboxFlow{
			SheetDryFlow:       paperprop.OvenDryFlow(sheet),
			FirstPassRetention: paperprop.Fraction(kept),
			HeadboxConsistency: paperprop.Consistency(c),
			Density:            paperprop.Density(within(r, 900, 1100)),
			SliceWidth:         paperprop.Length(within(r, 100, 12000)),
		}
		flow := must(t, headbox)
		mass := flow.MassFlow.In(paperprop.TonnePerHour)
		closed(t, "wire", headbox, mass*c, -sheet, -flow.TrayDryFlow.In(paperprop.DryTonnePerHour))
		closed(t, "density", headbox, 1000*mass,
			-flow.VolumeFlow.In(paperprop.CubicMetrePerHour)*headbox.Density.In(paperprop.KilogramPerCubicMetre))
	}
}

// Base sheet and solution go in, the sized sheet comes out; then water goes
// until the paper is as moist as at the reel.
func TestPickUpCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 6))
	for range tries {
		solids := within(r, 1e-9, 0.9)
		out := solids + within(r, 1e-9, 0.99-solids)
		in := out + within(r, 1e-9, 1-out)
		press := stock.PickUp{DrynessIn: paperprop.DryContent(in), DrynessOut: paperprop.DryContent(out), Solids: paperprop.DryContent(solids)}
		taken := must(t, press)
		wet, dry := taken.WetPickUp.In(paperprop.DosageKilogramPerKilogram), taken.DryPickUp.In(paperprop.DosageKilogramPerKilogram)
		closed(t, "dry matter", press, 1, wet*solids, -out/in, -out*wet)
		closed(t, "water", press, (1-in)/in, wet*(1-solids), -(1-out)/in, -(1-out)*wet)
		closed(t, "starch", press, dry, -wet*solids)
		closed(t, "sized sheet", press, float64(taken.AddedDryShare)*(1+dry), -dry)

		moisture := within(r, 0, 1-out)
		if out < 1e-3 {
			moisture *= 1 - 1e-6 // so near 100 % a moisture no longer holds the digits of the dryness
		}
		dryers := stock.PickUpEvaporation{DrynessIn: press.DrynessIn, DrynessOut: press.DrynessOut, Solids: press.Solids,
			PaperMoisture: paperprop.Moisture(moisture)}
		dried := must(t, dryers)
		paper := (1 + dry) / (1 - moisture) // per dry base
		closed(t, "dryers", dryers, (1-out)*(1+dry)/out, -float64(dried.WaterPerDry), -paper*moisture)
		closed(t, "starch in the paper", dryers, paper*dried.DryPickUpPerPaper.In(paperprop.DosageKilogramPerKilogram), -dry)
	}
}

// The change that sensitivity foretells is that of a small step of dryness.
func TestPickUpSensitivity(t *testing.T) {
	press := stock.PickUp{DrynessIn: 0.96, DrynessOut: 0.71, Solids: 0.095}
	const step = 1e-6
	more, less := press, press
	more.DrynessOut += step
	less.DrynessOut -= step
	at := must(t, press)
	slope := float64(must(t, more).WetPickUp-must(t, less).WetPickUp) / (2 * step) / float64(at.WetPickUp)
	if got := float64(at.Sensitivity); !(math.Abs(got-0.01*slope) <= 1e-8) {
		t.Errorf("sensitivity %v, by differences %v", got, 0.01*slope)
	}
}

// What dissolves leaves, with the effluent or otherwise.
func TestBuildUpCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 7))
	for range tries {
		load, effluent, other := within(r, 0, 100), within(r, 1e-9, 50), within(r, 0, 1-1e-9)
		in := stock.BuildUp{
			LoadPerPaper:     paperprop.Dosage(load),
			EffluentPerPaper: paperprop.SpecificVolume(effluent),
			OtherExitShare:   paperprop.Fraction(other),
		}
		out := must(t, in)
		closed(t, "dissolved matter", in, load, -out.Concentration.In(paperprop.GramPerLitre)*effluent, -other*load)
		if warned := len(out.Warnings) > 0; warned != (other == 0) {
			t.Errorf("%+v: warned %v", in, warned)
		}
	}
}

func TestMillWaterCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 8))
	for range tries {
		in := stock.MillWater{
			BaleFlow:        paperprop.MassFlow(within(r, 0, 40)),
			BaleMoisture:    paperprop.Moisture(within(r, 0, 0.99)),
			Evaporation:     paperprop.MassFlow(within(r, 0, 50)),
			PaperFlow:       paperprop.MassFlow(within(r, 0.1, 40)),
			PaperMoisture:   paperprop.Moisture(within(r, 0, 0.99)),
			RejectWaterFlow: paperprop.MassFlow(within(r, 0, 40)),
			WaterDensity:    paperprop.Density(within(r, 950, 1050)),
		}
		density := in.WaterDensity.In(paperprop.GramPerCubicCentimetre)
		bales, paper := float64(in.BaleFlow)*float64(in.BaleMoisture), float64(in.PaperFlow)*float64(in.PaperMoisture)
		// As little fresh water as leaves no effluent, or more.
		needed := max(0, float64(in.Evaporation)+paper+float64(in.RejectWaterFlow)-bales) / density
		in.FreshVolumeFlow = paperprop.VolumeFlow(needed + within(r, 0, 200))
		out := must(t, in)
		closed(t, "water", in, float64(in.FreshVolumeFlow)*density, bales, -float64(in.Evaporation), -paper,
			-float64(in.RejectWaterFlow), -float64(out.EffluentVolumeFlow)*density)
	}
}

func TestMakeDownCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 9))
	for range tries {
		product, active, steam := within(r, 0.1, 5000), within(r, 1e-6, 1), within(r, 0, 5000)
		solids := product * active / (product + steam) * within(r, 1e-6, 1) // from a trace up to what no water is added to
		in := stock.MakeDown{
			ProductMass: paperprop.Mass(product),
			ActiveShare: paperprop.Fraction(active),
			SteamMass:   paperprop.Mass(steam),
			Solids:      paperprop.DryContent(solids),
		}
		out := must(t, in)
		closed(t, "mass", in, product, steam, float64(out.WaterMass), -float64(out.SolutionMass))
		closed(t, "dry matter", in, product*active, -float64(out.SolutionMass)*solids)
	}
}

func TestWaterRemovalCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 10))
	for range tries {
		before := within(r, 1e-6, 1)
		after := within(r, before, 1)
		in := stock.WaterRemoval{DrynessIn: paperprop.DryContent(before), DrynessOut: paperprop.DryContent(after)}
		out := must(t, in)
		closed(t, "per dry matter", in, 1/before, -1/after, -float64(out.WaterPerDry))
		closed(t, "per paper", in, after/before, -1, -float64(out.WaterPerPaper))
	}
}
