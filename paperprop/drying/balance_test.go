package drying

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/water"
)

// closed reports a balance that does not close to 1e-12 of its largest term.
func closed(t *testing.T, what string, in any, terms ...float64) {
	t.Helper()
	var sum, largest float64
	for _, x := range terms {
		sum += x
		largest = max(largest, math.Abs(x))
	}
	if !(math.Abs(sum) <= 1e-12*largest) {
		t.Errorf("%s: %+v leaves %g of %g", what, in, sum, largest)
	}
}

// between draws from a range.
func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

const trials = 2000

// Kind: common-practice. What goes into the dryers comes out, as paper or as
// water, and so does the dry matter.
func TestEvaporationCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range trials {
		in := Evaporation{
			DrynessIn:   paperprop.DryContent(between(r, 0.01, 0.8)),
			MoistureOut: paperprop.Moisture(between(r, 0, 0.19)),
			PaperFlow:   paperprop.MassFlow(between(r, 1, 100)),
		}
		out, err := in.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		per, err := EvaporationPerTonne{in.DrynessIn, in.MoistureOut}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		dry := float64(out.DryFlow)
		web := dry / float64(in.DrynessIn)
		closed(t, "mass", in, web, -float64(in.PaperFlow), -float64(out.Evaporation))
		closed(t, "water", in, dry*float64(per.MoistureRatioIn), -dry*float64(per.MoistureRatioOut), -float64(out.Evaporation))
		closed(t, "dry matter", in, dry, -float64(in.PaperFlow)*(1-float64(in.MoistureOut)))
		closed(t, "per tonne", in, float64(per.WaterPerDry), -float64(per.MoistureRatioIn), float64(per.MoistureRatioOut))
	}
}

// Kind: common-practice. Water off the presses and with the size leaves in two
// sections or with the paper.
func TestSizePressCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	taken := 0
	for range trials {
		in := SizePressEvaporation{
			Grammage:       paperprop.Grammage(between(r, 60, 300)),
			MoistureOut:    paperprop.Moisture(between(r, 0, 0.12)),
			PickUpGrammage: paperprop.OvenDryGrammage(between(r, 0, 10)),
			Solids:         paperprop.DryContent(between(r, 0.03, 1)),
			DrynessIn:      paperprop.DryContent(between(r, 0.3, 0.6)),
			SizeMoistureIn: paperprop.Moisture(between(r, 0, 0.3)),
		}
		out, err := in.Calculate()
		if err != nil {
			continue
		}
		taken++
		base, starch := float64(out.BaseDryGrammage), float64(in.PickUpGrammage)
		size := starch / float64(in.Solids)
		reel := float64(in.Grammage)
		closed(t, "mass", in, base/float64(in.DrynessIn), size, -reel, -float64(out.PreDryerWater), -float64(out.AfterDryerWater))
		closed(t, "dry matter", in, base, starch, -reel*(1-float64(in.MoistureOut)))
		after := (base + starch) / (1 - float64(out.SizeMoistureOut))
		closed(t, "after dryers", in, after, -reel, -float64(out.AfterDryerWater))
		closed(t, "per paper", in, float64(out.WaterPerPaper)*reel, -float64(out.PreDryerWater), -float64(out.AfterDryerWater))
	}
	if taken < trials/2 {
		t.Errorf("%d of %d webs are taken", taken, trials)
	}
}

// Kind: common-practice. The web before the press is the web after it and the
// water between.
func TestPressingCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range trials {
		in := Pressing{
			DrynessIn:  paperprop.DryContent(between(r, 0.05, 0.3)),
			DrynessOut: paperprop.DryContent(between(r, 0.31, 0.7)),
			DryFlow:    paperprop.OvenDryFlow(between(r, 1, 60)),
		}
		out, err := in.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		dry := float64(in.DryFlow)
		closed(t, "mass", in, dry/float64(in.DrynessIn), -dry/float64(in.DrynessOut), -float64(out.WaterFlow))
		gain, err := PressGain{in.DrynessIn, in.DrynessOut, 0.05}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "saving and speed", in, (1-float64(gain.EvaporationSaving))*(1+float64(gain.SpeedGain)), -1)
	}
}

// The page says what a point of dryness saves between 35 and 55 %, and where it
// saves 6 %. By hand: p/((d + 1)*(p - d)) with p = 92.5, least at d = (p - 1)/2.
func TestPressGainOfAPoint(t *testing.T) {
	saved := func(d float64) float64 {
		r, err := PressGain{paperprop.DryContent(d / 100), paperprop.DryContent((d + 1) / 100), 0.075}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		return r.EvaporationSaving.In(paperprop.Percent)
	}
	least, most := math.Inf(1), 0.0
	for d := 35.0; d <= 54; d += 0.25 {
		least, most = min(least, saved(d)), max(most, saved(d))
	}
	if !(math.Abs(least-4.2323) <= 5e-5 && math.Abs(most-4.4686) <= 5e-5) {
		t.Errorf("a point saves %v to %v %%, want 4.2323 to 4.4686", least, most)
	}
	for _, d := range []float64{20, 71.5} {
		if inner := d + math.Copysign(1, 45-d); !(saved(d) > 6 && saved(inner) < 6) {
			t.Errorf("a point saves %v %% at %v and %v %% at %v, want 6 between", saved(d), d, saved(inner), inner)
		}
	}
}

// Kind: common-practice. What the steam gives off is what web and surroundings
// take, and the parts of a dryer section are the calculations of their names.
func TestDryerSteamCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range trials {
		gauge := paperprop.GaugePressure(between(r, -0.5, 12))
		hot := paperprop.Celsius(between(r, 200, 400))
		in := DryerSteam{
			PaperFlow:              paperprop.MassFlow(between(r, 1, 100)),
			DrynessIn:              paperprop.DryContent(between(r, 0.3, 0.6)),
			MoistureOut:            paperprop.Moisture(between(r, 0, 0.12)),
			TemperatureIn:          paperprop.Celsius(between(r, 5, 60)),
			EvaporationTemperature: paperprop.Celsius(between(r, 60, 95)),
			TemperatureOut:         paperprop.Celsius(between(r, 95, 130)),
			FibreHeatCapacity:      1.4,
			SorptionHeatPerDry:     paperprop.SpecificEnergy(between(r, 0.1, 40)),
			OtherHeatShare:         paperprop.Fraction(between(r, 0, 0.3)),
			GaugePressure:          &gauge,
		}
		if r.IntN(2) == 0 {
			in.SteamTemperature = &hot
		}
		out, err := in.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		in.WaterHeatCapacity = 4.19
		sheet, err := in.sheet().Calculate()
		if err != nil {
			t.Fatal(err)
		}
		per, err := EvaporationPerTonne{in.DrynessIn, in.MoistureOut}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		kilogram := out.SteamFlow.In(paperprop.KilogramPerSecond)
		closed(t, "steam", in, kilogram*float64(out.SteamEnthalpy-out.CondensateEnthalpy), -out.HeatFlow.In(paperprop.Kilowatt))
		dry := in.PaperFlow.In(paperprop.KilogramPerSecond) * (1 - float64(in.MoistureOut))
		shared := dry * (1 + float64(in.OtherHeatShare))
		closed(t, "web", in, shared*float64(sheet.SensibleHeatPerDry), shared*float64(sheet.EvaporationHeatPerDry),
			shared*float64(in.SorptionHeatPerDry), -out.HeatFlow.In(paperprop.Kilowatt))
		closed(t, "latent", in, float64(per.WaterPerDry)*float64(sheet.LatentHeat), -float64(sheet.EvaporationHeatPerDry))
		closed(t, "steam per paper", in, float64(out.SteamPerPaper)*float64(in.PaperFlow), -float64(out.SteamFlow))
		use, err := SteamUse{out.SteamFlow, out.Evaporation, in.PaperFlow}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "specific steam", in, float64(use.SteamPerWater), -float64(out.SteamPerWater))
	}
}

// Kind: common-practice. Steam below what web and losses need is warned of,
// wherever it is met.
func TestTooLittleSteam(t *testing.T) {
	for _, test := range []struct {
		steam paperprop.MassFlow
		warns bool
	}{{11.4, true}, {11.5, false}, {13, false}} {
		use, err := SteamUse{test.steam, 10, 9}.Calculate()
		if err != nil || (len(use.Warnings) > 0) != test.warns {
			t.Errorf("%v for 10 t/h of water: %v, %v, want a warning: %v", test.steam, use.Warnings, err, test.warns)
		}
	}
	per, err := SteamPerWater{HeatPerWater: 2300, Pressure: 4}.Calculate()
	if err != nil || len(per.Warnings) == 0 {
		t.Errorf("2300 kJ/kg at 4 bar(a): %v, %v, want a warning", per.Warnings, err)
	}
}

// Kind: common-practice. Condensate that flashes keeps its mass and its heat.
func TestFlashCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range trials {
		in := FlashSteam{
			CondensateFlow: paperprop.MassFlow(between(r, 0.1, 50)),
			PressureIn:     paperprop.AbsolutePressure(between(r, 2, 160)),
			PressureOut:    paperprop.AbsolutePressure(between(r, 0.01, 2)),
		}
		out, err := in.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		after, err := water.SaturatedUnder(in.PressureOut)
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "mass", in, float64(in.CondensateFlow), -float64(out.FlashFlow), -float64(out.CondensateFlowOut))
		closed(t, "heat", in, float64(in.CondensateFlow)*float64(out.LiquidEnthalpyIn),
			-float64(out.FlashFlow)*float64(after.SteamEnthalpy), -float64(out.CondensateFlowOut)*float64(after.LiquidEnthalpy))
	}
}

// Kind: common-practice. Dry air and water that go into a hood come out of it,
// and heat into air is the difference of its enthalpies.
func TestHoodCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range trials {
		dew := paperprop.Celsius(between(r, 30, 99.9))
		in := Hood{
			Evaporation:         paperprop.MassFlow(between(r, 1, 60)),
			ExhaustDewPoint:     &dew,
			SupplyHumidityRatio: paperprop.HumidityRatio(between(r, 0, 0.02)),
			LeakHumidityRatio:   paperprop.HumidityRatio(between(r, 0, 0.02)),
			SupplyShare:         paperprop.Fraction(r.Float64()),
		}
		out, err := in.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "dry air", in, float64(out.ExhaustAirFlow), -float64(out.SupplyAirFlow), -float64(out.LeakAirFlow))
		closed(t, "water", in, float64(out.ExhaustAirFlow)*float64(out.ExhaustHumidityRatio), -float64(in.Evaporation),
			-float64(out.SupplyAirFlow)*float64(in.SupplyHumidityRatio), -float64(out.LeakAirFlow)*float64(in.LeakHumidityRatio))

		x, cold, hot := in.SupplyHumidityRatio, paperprop.Celsius(between(r, 26, 60)), paperprop.Celsius(between(r, 60, 120))
		heat, err := AirHeating{out.SupplyAirFlow, cold, hot, x}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		before, err := HumidAir{Temperature: cold, HumidityRatio: &x}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		after, err := HumidAir{Temperature: hot, HumidityRatio: &x}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		flow := out.SupplyAirFlow.In(paperprop.DryAirKilogramPerSecond)
		closed(t, "heat of air", in, flow*float64(before.Enthalpy), heat.HeatFlow.In(paperprop.Kilowatt), -flow*float64(after.Enthalpy))
	}
}

func BenchmarkDryerSteam(b *testing.B) {
	gauge := 3.2 * paperprop.BarGauge
	in := DryerSteam{PaperFlow: 15.12, DrynessIn: 0.475, MoistureOut: 0.075, TemperatureIn: 46, EvaporationTemperature: 82,
		TemperatureOut: 97, FibreHeatCapacity: 1.4, OtherHeatShare: 0.15, GaugePressure: &gauge}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := in.Calculate(); err != nil {
			b.Fatal(err)
		}
	}
}

// Kind: common-practice. A web as dry as the paper is refused at any moisture, whatever
// 1 less its float leaves.
func TestAsDryAsThePaper(t *testing.T) {
	for i := 1; i < 1000; i++ {
		in, out := paperprop.DryContent(float64(1000-i)/1000), paperprop.Moisture(float64(i)/1000)
		if _, _, err := dries(in, out); err == nil {
			t.Errorf("a web of %v is dried to paper of %v", in, out)
		}
		if _, _, err := dries(in-1e-9, out); err != nil {
			t.Errorf("a web just below %v: %v", in, err)
		}
		if _, err := (PressGain{0.0005, in, out}).Calculate(); err == nil {
			t.Errorf("a web is pressed to %v for paper of %v", in, out)
		}
	}
}

// Hot air is warned of whether it is warmed or cooled, beside air that condenses too.
func TestHotAir(t *testing.T) {
	for _, test := range []struct {
		in, out, ratio float64
		want           string
	}{
		{35, 200, 0.01, ""},
		{35, 201, 0.01, "hot-air"},
		{201, 35, 0.01, "hot-air"},
		{84, 35, 0.15, "condensing"},
		{300, 35, 0.15, "condensing hot-air"},
	} {
		a := AirHeating{
			AirFlow:       10 * paperprop.DryAirTonnePerHour,
			TemperatureIn: paperprop.Celsius(test.in), TemperatureOut: paperprop.Celsius(test.out),
			HumidityRatio: paperprop.HumidityRatio(test.ratio),
		}
		r, err := a.Calculate()
		var codes []string
		for _, w := range r.Warnings {
			codes = append(codes, w.Code)
		}
		if got := strings.Join(codes, " "); err != nil || got != test.want {
			t.Errorf("%v to %v degC: %q, %v, want %q", test.in, test.out, got, err, test.want)
		}
	}
	for c := paperprop.Temperature(10); c < 90; c++ { // saturated air holds all its water, a thousandth more is too much
		saturated, err := water.AirWithRelative(c, 1, 1.01325)
		if err != nil {
			t.Fatal(err)
		}
		for _, more := range []paperprop.HumidityRatio{0, 0.001} {
			r, err := AirHeating{AirFlow: 10, TemperatureIn: 95, TemperatureOut: c, HumidityRatio: saturated.HumidityRatio * (1 + more)}.Calculate()
			if err != nil || (len(r.Warnings) > 0) != (more > 0) {
				t.Errorf("to %v with %v more than saturated air holds: %v, %v", c, more, r.Warnings, err)
			}
		}
	}
}
