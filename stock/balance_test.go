package stock_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/water"
	"millmaths.example/stock"
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

// nearEnds lies between 0 and 1 and comes as near to either as 1e-12.
func nearEnds(r *rand.Rand) float64 {
	switch x := math.Pow(10, -12*r.Float64()); r.IntN(3) {
	case 0:
		return x
	case 1:
		return 1 - x
	}
	return r.Float64()
}

// inside are numbers strictly between 0 and 1.
func inside(r *rand.Rand) float64 { return min(max(nearEnds(r), 1e-12), 1-1e-12) }

const balances = 2000

func TestThickeningCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 1))
	for range balances {
		filtrate := paperprop.Consistency(nearEnds(r) * r.Float64())
		in := filtrate + paperprop.Consistency(inside(r))*(1-filtrate)
		out := in + paperprop.Consistency(nearEnds(r))*(1-in)
		if in <= filtrate || out <= in || out > 1 {
			continue
		}
		q := paperprop.MassFlow(math.Pow(10, 8*r.Float64()-3))
		got, err := stock.Thickening{MassFlow: q, ConsistencyIn: in, ConsistencyOut: out, FiltrateConsistency: filtrate}.Calculate()
		if err != nil {
			t.Fatalf("%v to %v, filtrate %v: %v", in, out, filtrate, err)
		}
		kept := float64(got.MassFlowOut) * float64(out)
		closes(t, "stock", float64(q), -float64(got.MassFlowOut), -float64(got.FiltrateFlow))
		closes(t, "dry matter", float64(q)*float64(in), -kept, -float64(got.FiltrateFlow)*float64(filtrate))
		closes(t, "capture", float64(got.Capture)*float64(q)*float64(in), -kept)
		closes(t, "filtrate", float64(got.FiltratePerDry)*kept, -float64(got.FiltrateFlow))

		batch, err := stock.ThickeningBatch{Mass: paperprop.Mass(q) * paperprop.Tonne, ConsistencyIn: in, ConsistencyOut: out, FiltrateConsistency: filtrate}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closes(t, "batch", batch.MassOut.In(paperprop.Tonne), -float64(got.MassFlowOut))
		closes(t, "batch filtrate", batch.FiltrateMass.In(paperprop.Tonne), -float64(got.FiltrateFlow))
	}
}

func TestScreeningCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 2))
	accepted := 0
	for range balances {
		feed := math.Pow(10, 8*r.Float64()-3)
		s := stock.Screening{
			FeedVolumeFlow:   paperprop.VolumeFlow(feed),
			FeedConsistency:  paperprop.Consistency(max(nearEnds(r), 1e-12)),
			RejectVolumeFlow: paperprop.VolumeFlow(feed * inside(r)),
		}
		// Up to all the dry matter that is fed, and sometimes just that.
		most := min(1, float64(s.FeedConsistency)*feed/float64(s.RejectVolumeFlow))
		s.RejectConsistency = paperprop.Consistency(most * nearEnds(r))
		if r.IntN(8) == 0 {
			s.RejectConsistency = paperprop.Consistency(most)
		}
		got, err := s.Calculate()
		if err != nil {
			continue // too little dry matter in the rejects for what is fed
		}
		accepted++
		reject := float64(s.RejectVolumeFlow)
		closes(t, "volume", feed, -reject, -float64(got.AcceptVolumeFlow))
		closes(t, "dry matter", feed*float64(s.FeedConsistency), -reject*float64(s.RejectConsistency),
			-float64(got.AcceptVolumeFlow)*float64(got.AcceptConsistency))
		closes(t, "rates", float64(got.MassRejectRate), -float64(got.VolumeRejectRate)*float64(got.RejectThickeningFactor))
		if got.AcceptConsistency < 0 || got.AcceptConsistency > 1+1e-9 {
			t.Errorf("%+v: accept-consistency %v", s, got.AcceptConsistency)
		}
	}
	if accepted < balances/2 {
		t.Errorf("%d of %d screens were taken", accepted, balances)
	}
}

// Contaminant is neither made nor lost, and each definition of efficiency leads
// to the others.
func TestScreenEfficiencyCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 3))
	for range balances {
		rate, feed := inside(r), math.Pow(10, 6*r.Float64()-7)
		accept := feed / (1 - rate) * nearEnds(r) * (1 - 1e-9)
		got, err := stock.ScreenEfficiency{
			MassRejectRate: paperprop.Fraction(rate), FeedContaminant: paperprop.Fraction(feed), AcceptContaminant: paperprop.Fraction(accept),
		}.Calculate()
		if err != nil {
			if feed-(1-rate)*accept > 2e-15*accept {
				t.Errorf("%g of mass, %g fed, %g accepted: %v", rate, feed, accept, err)
			}
			continue
		}
		closes(t, "contaminant", feed, -rate*float64(got.RejectContaminant), -(1-rate)*accept)
		closes(t, "removal", feed, -feed*float64(got.RemovalEfficiency), -(1-rate)*accept)
		closes(t, "cleanliness", feed, -feed*float64(got.CleanlinessEfficiency), -accept)
		closes(t, "quotient", float64(got.RejectContaminant), -float64(got.RejectContaminant)*float64(got.ScreeningQuotient), -accept)
	}
}

func TestScreenQuotientCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 4))
	for range balances {
		rate, q := inside(r), nearEnds(r)
		if r.IntN(8) == 0 {
			q = float64(r.IntN(2)) // a splitter, or ideal
		}
		got, err := stock.ScreenQuotient{MassRejectRate: paperprop.Fraction(rate), ScreeningQuotient: paperprop.Ratio(q)}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		// Of a feed with one part of contaminant:
		removal, accept := float64(got.RemovalEfficiency), 1-float64(got.CleanlinessEfficiency)
		reject := removal / rate
		closes(t, "contaminant", 1, -rate*reject, -(1-rate)*accept)
		closes(t, "quotient", reject, -reject*q, -accept)
		if removal < rate*(1-1e-12) || removal > 1+1e-12 {
			t.Errorf("rate %g, quotient %g: removal %g", rate, q, removal)
		}
	}
}

// Plug and mixed flow agree where all passes, and plug flow removes more.
func TestScreenPassageLimits(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 5))
	for range balances {
		rate, fibre, contaminant := inside(r), inside(r), nearEnds(r)
		var removal [2]float64
		for i, model := range []stock.PassageModel{stock.ModelMixed, stock.ModelPlug} {
			got, err := stock.ScreenPassage{
				Model: model, VolumeRejectRate: paperprop.Fraction(rate),
				FibrePassageRatio: paperprop.Ratio(fibre), ContaminantPassageRatio: paperprop.Ratio(contaminant),
			}.Calculate()
			if err != nil {
				t.Fatal(err)
			}
			removal[i] = float64(got.RemovalEfficiency)
			closes(t, "rates", float64(got.MassRejectRate), -rate*float64(got.RejectThickeningFactor))
			if x := float64(got.MassRejectRate); x < rate*(1-1e-12) || x > 1+1e-12 {
				t.Errorf("%s, rate %g, fibre %g: mass reject rate %g", model, rate, fibre, x)
			}
			all, err := stock.ScreenPassage{Model: model, VolumeRejectRate: paperprop.Fraction(rate), FibrePassageRatio: 1, ContaminantPassageRatio: 1}.Calculate()
			if err != nil {
				t.Fatal(err)
			}
			closes(t, "all passes", float64(all.RemovalEfficiency), -rate)
		}
		if removal[0] > removal[1]*(1+1e-12) {
			t.Errorf("rate %g, contaminant %g: mixed removes %g, plug %g", rate, contaminant, removal[0], removal[1])
		}
	}
}

func TestScreenCascadeCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 6))
	for i := range balances {
		rates := make([]paperprop.Fraction, 1+r.IntN(10))
		for k := range rates {
			rates[k] = paperprop.Fraction(inside(r))
		}
		arrangement := stock.ArrangementCascade
		if i%2 == 0 {
			arrangement = stock.ArrangementFeedForward
		}
		fresh := math.Pow(10, 6*r.Float64()-3)
		got, err := stock.ScreenCascade{Arrangement: arrangement, DryFlow: paperprop.OvenDryFlow(fresh), MassRejectRate: rates}.Calculate()
		if err != nil {
			t.Fatalf("%s %v: %v", arrangement, rates, err)
		}
		feed := func(k int) float64 { return float64(got.StageDryFlow[k]) }
		accepted := 0.0
		for k := range rates {
			above := fresh
			if k > 0 {
				above = feed(k-1) * float64(rates[k-1])
			}
			back := 0.0
			if arrangement == stock.ArrangementCascade && k+1 < len(rates) {
				back = feed(k+1) * (1 - float64(rates[k+1]))
			}
			closes(t, "feed of a stage", above, back, -feed(k))
			if k == 0 || arrangement == stock.ArrangementFeedForward {
				accepted += feed(k) * (1 - float64(rates[k]))
			}
		}
		last := len(rates) - 1
		closes(t, "rejects", feed(last)*float64(rates[last]), -float64(got.RejectDryFlow))
		closes(t, "accepts", accepted, -float64(got.AcceptDryFlow))
		closes(t, "plant", fresh, -float64(got.AcceptDryFlow), -float64(got.RejectDryFlow))
		closes(t, "loss", float64(got.Loss)*fresh, -float64(got.RejectDryFlow))
	}
}

// What a plant removes is got again by sending contaminant round until nearly
// none is left in it.
func TestCascadeRemovalByRounds(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 7))
	for i := range 200 {
		stages := make([]paperprop.Fraction, 1+r.IntN(4))
		for k := range stages {
			stages[k] = paperprop.Fraction(0.05 + 0.9*r.Float64())
		}
		arrangement := stock.ArrangementCascade
		if i%2 == 0 {
			arrangement = stock.ArrangementFeedForward
		}
		got, err := stock.CascadeRemoval{Arrangement: arrangement, StageRemovalEfficiency: stages}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		in := make([]float64, len(stages))
		in[0] = 1
		removed := 0.0
		for range 20000 {
			next := make([]float64, len(stages))
			for k, x := range in {
				e := float64(stages[k])
				if k+1 < len(stages) {
					next[k+1] += x * e
				} else {
					removed += x * e
				}
				if k > 0 && arrangement == stock.ArrangementCascade {
					next[k-1] += x * (1 - e)
				}
			}
			in = next
		}
		if !(math.Abs(removed-float64(got.RemovalEfficiency)) <= 1e-9) {
			t.Errorf("%s %v removes %v, by rounds %v", arrangement, stages, got.RemovalEfficiency, removed)
		}
	}
}

// The ends: a stage that rejects none or all, and contaminant without a way out.
func TestCascadeRemovalEnds(t *testing.T) {
	for _, test := range []struct {
		arrangement stock.Arrangement
		stages      []paperprop.Fraction
		want        float64
		refused     bool
	}{
		{stock.ArrangementCascade, []paperprop.Fraction{0}, 0, false},
		{stock.ArrangementCascade, []paperprop.Fraction{1}, 1, false},
		{stock.ArrangementCascade, []paperprop.Fraction{1, 1, 1}, 1, false},
		{stock.ArrangementCascade, []paperprop.Fraction{1, 0.5}, 1, false}, // it comes back until it is out
		{stock.ArrangementCascade, []paperprop.Fraction{0.5, 0}, 0, false},
		{stock.ArrangementCascade, []paperprop.Fraction{1, 0}, 0, true},
		{stock.ArrangementCascade, []paperprop.Fraction{0.5, 1, 0}, 0, true},
		{stock.ArrangementCascade, []paperprop.Fraction{1, 1, 0, 0.5}, 0, true},
		{stock.ArrangementCascade, []paperprop.Fraction{0, 1, 0}, 0, false}, // none gets to where it would gather
		{stock.ArrangementFeedForward, []paperprop.Fraction{1, 0}, 0, false},
		{stock.ArrangementFeedForward, []paperprop.Fraction{1, 0.25}, 0.25, false},
	} {
		got, err := stock.CascadeRemoval{Arrangement: test.arrangement, StageRemovalEfficiency: test.stages}.Calculate()
		if (err != nil) != test.refused || err == nil && float64(got.RemovalEfficiency) != test.want {
			t.Errorf("%s %v removes %v, %v, want %v, refused %t", test.arrangement, test.stages, got.RemovalEfficiency, err, test.want, test.refused)
		}
	}
}

// What has gone out is what came in less the change of what is in the chest:
// the response is its own rate of change, and lies between the two values.
func TestChestResponseCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 8))
	for range balances {
		before, in := 2*r.Float64()-1, 2*r.Float64()-1
		volume, flow := math.Pow(10, 6*r.Float64()-2), math.Pow(10, 6*r.Float64()-2)
		turns := math.Pow(10, 16*r.Float64()-13) // mean residence times
		c := stock.ChestResponse{
			Volume: paperprop.Volume(volume), VolumeFlow: paperprop.VolumeFlow(flow),
			ValueBefore: before, ValueIn: in, Time: paperprop.Duration(60 * turns * volume / flow),
		}
		got, err := c.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		tau := float64(c.Time) / float64(got.MeanResidenceTime)
		closes(t, "flow", float64(got.MeanResidenceTime)/60*flow, -volume)
		if slack := 1e-15; got.Value < min(before, in)-slack || got.Value > max(before, in)+slack {
			t.Errorf("%+v gives %v, want from %v to %v", c, got.Value, before, in)
		}
		// A stop on the way changes nothing.
		first, second := c, c
		first.Time *= 0.25
		half, err := first.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		second.ValueBefore, second.Time = half.Value, c.Time*0.75
		rest, err := second.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(rest.Value - got.Value); d > 1e-12*max(math.Abs(before), math.Abs(in)) {
			t.Errorf("%+v gives %v, in two times %v", c, got.Value, rest.Value)
		}
		// Near the start the change keeps its digits.
		if tau < 1e-6 {
			fresh := c
			fresh.ValueBefore, fresh.ValueIn = 0, 1
			got, err := fresh.Calculate()
			if err != nil {
				t.Fatal(err)
			}
			closes(t, "start", got.Value, -(tau - tau*tau/2 + tau*tau*tau/6))
		}
	}
}

// The level that a time leads to is the one that was asked for.
func TestChestTimeCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 9))
	taken := 0
	for range balances {
		c := stock.ChestTime{
			Volume: paperprop.Volume(math.Pow(10, 4*r.Float64()-1)), Level: paperprop.Fraction(nearEnds(r)), ToLevel: paperprop.Fraction(nearEnds(r)),
			Consistency: paperprop.Consistency(inside(r)), Density: paperprop.Density(950 + 150*r.Float64()),
			DryFlowIn: paperprop.OvenDryFlow(50 * r.Float64()), DryFlowOut: paperprop.OvenDryFlow(50 * r.Float64()),
		}
		got, err := c.Calculate()
		if (err != nil) != ((c.Level > c.ToLevel) != (c.DryFlowOut > c.DryFlowIn)) {
			t.Errorf("%+v: %v", c, err)
		}
		if err != nil {
			continue
		}
		taken++
		full := float64(c.Volume) * float64(c.Density) / 1000 * float64(c.Consistency) // t
		hours := got.Time.In(paperprop.Hour)
		closes(t, "dry matter", full*float64(c.Level), hours*float64(c.DryFlowIn), -hours*float64(c.DryFlowOut), -full*float64(c.ToLevel))
	}
	if taken < balances/4 {
		t.Errorf("%d of %d chests were taken", taken, balances)
	}
	there := stock.ChestTime{Volume: 300, Level: 0.4, ToLevel: 0.4, Consistency: 0.04, Density: 1010, DryFlowIn: 16, DryFlowOut: 12}
	if got, err := there.Calculate(); err != nil || got.Time != 0 {
		t.Errorf("a level that is there takes %v, %v, want 0 min", got.Time, err)
	}
}

// Bales, water and rejects of a pulper, and the bales that its charge needs.
func TestPulpingCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 10))
	taken := 0
	for range balances {
		p := stock.PulpingBatch{
			BaleMass: paperprop.Mass(math.Pow(10, 6*r.Float64()-1)), BaleMoisture: paperprop.Moisture(nearEnds(r)),
			RejectRate: paperprop.Fraction(inside(r)), RejectDryness: paperprop.DryContent(inside(r)),
			Consistency: paperprop.Consistency(0.3 * r.Float64()), WaterConsistency: paperprop.Consistency(0.01 * r.Float64()),
		}
		got, err := p.Calculate()
		if err != nil {
			continue
		}
		taken++
		dry, r := float64(got.BaleDryMass), float64(p.RejectRate)
		closes(t, "mass", float64(p.BaleMass), float64(got.WaterMass), -float64(got.RejectMass), -float64(got.StockMass))
		closes(t, "dry matter", dry, float64(got.WaterMass)*float64(p.WaterConsistency), -dry*r, -float64(got.StockDryMass))
		closes(t, "rejects", dry*r, -float64(got.RejectMass)*float64(p.RejectDryness))
	}
	if taken < balances/4 {
		t.Errorf("%d of %d batches were taken", taken, balances)
	}
}

func TestPulperChargeCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 11))
	for range balances {
		dryness := inside(r)
		c := dryness * inside(r)
		water := c * nearEnds(r) * 0.99
		p := stock.PulperCharge{
			Volume: paperprop.Volume(math.Pow(10, 4*r.Float64()-2)), Density: paperprop.Density(950 + 150*r.Float64()),
			Consistency: paperprop.Consistency(c), BaleMoisture: paperprop.Moisture(1 - dryness), WaterConsistency: paperprop.Consistency(water),
		}
		got, err := p.Calculate()
		if err != nil {
			if 1-float64(p.BaleMoisture)-c > 2e-15 {
				t.Errorf("%+v: %v", p, err)
			}
			continue
		}
		bales := float64(got.BaleMass)
		closes(t, "mass", bales, float64(got.WaterMass), -float64(got.StockMass))
		closes(t, "dry matter", bales*(1-float64(p.BaleMoisture)), float64(got.WaterMass)*water, -float64(got.StockDryMass))
	}
}

// Streams keep their heat.
func TestMixingTemperatureCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 12))
	for range balances {
		n := 1 + r.IntN(5)
		m := stock.MixingTemperature{FibreHeatCapacity: paperprop.SpecificHeat(1.25 + 0.25*r.Float64()), WaterHeatCapacity: 4.19}
		for range n {
			m.MassFlow = append(m.MassFlow, paperprop.MassFlow(math.Pow(10, 6*r.Float64()-2)))
			m.Consistency = append(m.Consistency, paperprop.Consistency(nearEnds(r)))
			m.Temperature = append(m.Temperature, paperprop.Celsius(100*nearEnds(r)))
		}
		got, err := m.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		capacity := func(q paperprop.MassFlow, c paperprop.Consistency) float64 {
			return float64(q) * (float64(c)*float64(m.FibreHeatCapacity) + (1-float64(c))*float64(m.WaterHeatCapacity))
		}
		terms := []float64{-capacity(got.MassFlowOut, got.ConsistencyOut) * got.TemperatureOut.Celsius()}
		for i := range n {
			terms = append(terms, capacity(m.MassFlow[i], m.Consistency[i])*m.Temperature[i].Celsius())
		}
		closes(t, "heat", terms...)
	}
}

// Steam that condenses at the very temperature that is wanted does not heat to it.
func TestSteamAtItsLimit(t *testing.T) {
	condensed, err := water.SaturatedAt(110)
	if err != nil {
		t.Fatal(err)
	}
	heating := stock.SteamHeating{
		MassFlow: 200 * paperprop.TonnePerHour, ConsistencyIn: 0.04, TemperatureIn: 45, TemperatureOut: 110,
		Pressure: condensed.Pressure, FibreHeatCapacity: 1.4 * paperprop.KilojoulePerKilogramKelvin,
	}
	if got, err := heating.Calculate(); err == nil {
		t.Errorf("steam of %v heats to 110 degC: %v", condensed.Pressure, got)
	}
	gauge := condensed.Pressure.Gauge(1.01325 * paperprop.BarAbsolute)
	heating.Pressure, heating.GaugePressure = 0, &gauge
	if got, err := heating.Calculate(); err == nil {
		t.Errorf("steam of %v heats to 110 degC: %v", gauge, got)
	}
}

// Readings that differ in what floats can hold have a range; by hand, in powers of two.
func TestNearReadingsHaveARange(t *testing.T) {
	const apart = 1.0 / (1 << 40)
	got, err := stock.Consistency{
		SampleMass: []paperprop.Mass{256, 256}, FilterMass: []paperprop.Mass{1, 1}, DryFilterMass: []paperprop.Mass{11, 11 + apart},
	}.Calculate()
	if err != nil {
		t.Fatal(err)
	}
	closes(t, "range", float64(got.ConsistencyRange), -apart/10)
}
