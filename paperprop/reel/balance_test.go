package reel_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/reel"
)

// closed says whether two sides of a balance agree to 1e-12 of the largest of
// their terms.
func closed(t *testing.T, what string, left, right float64, terms ...float64) {
	t.Helper()
	largest := max(math.Abs(left), math.Abs(right))
	for _, x := range terms {
		largest = max(largest, math.Abs(x))
	}
	if d := math.Abs(left - right); !(d <= 1e-12*largest) {
		t.Errorf("%s: %v and %v differ by %g of the largest term", what, left, right, d/largest)
	}
}

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

// tenths is a width as an order book writes it.
func tenths(r *rand.Rand, low, high float64) paperprop.Length {
	return paperprop.Length(math.Round(10*between(r, low, high)) / 10)
}

// Whichever of the three is left out, it comes back, and mass and density are
// those of the same ring of paper.
func TestReelComesBack(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	for range 2000 {
		core := paperprop.Length(between(r, 0, 300))
		outer := core + paperprop.Length(between(r, 100, 2000))
		layer := paperprop.Length(between(r, 0.03, 1.5))
		full, err := reel.Reel{Diameter: outer, ReelThickness: layer, CoreDiameter: core}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		byLength, err := reel.Reel{Length: full.Length, ReelThickness: layer, CoreDiameter: core}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "diameter", float64(byLength.Diameter), float64(outer))
		byDiameter, err := reel.Reel{Length: full.Length, Diameter: outer, CoreDiameter: core}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "thickness", float64(byDiameter.ReelThickness), float64(layer))

		width, g := paperprop.Length(between(r, 200, 3000)), paperprop.Grammage(between(r, 40, 400))
		mass, err := reel.Mass{Length: full.Length, Diameter: outer, CoreDiameter: core, ReelWidth: width, Grammage: g}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		weighed, err := reel.RollDensity{Mass: mass.Mass, Diameter: outer, CoreDiameter: core, ReelWidth: width, Grammage: g}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "roll density", float64(weighed.RollDensity), float64(mass.RollDensity))
		closed(t, "thickness by the scale", float64(weighed.ReelThickness), float64(layer))
		web, err := reel.Length{Mass: mass.Mass, ReelWidth: width, Grammage: g}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "length by the scale", float64(web.Length), float64(full.Length))
		factor, err := reel.MassByFactor{Diameter: outer, CoreDiameter: core, ReelWidth: width, ReelFactor: math.Pi / 4 * mass.RollDensity}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "mass by factor", float64(factor.Mass), float64(mass.Mass))
	}
}

// The circumferences of the layers are added up one by one.
func TestLayersAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	for range 100 {
		core, layer, n := between(r, 0, 300), between(r, 0.05, 1), 1+r.IntN(2000)
		outer := core + 2*layer*float64(n)
		var inner, middle, outside float64
		for i := range n {
			inner += math.Pi * (core + 2*layer*float64(i))
			middle += math.Pi * (core + 2*layer*(float64(i)+0.5))
			outside += math.Pi * (core + 2*layer*float64(i+1))
		}
		sum, err := reel.LayerSum{
			Diameter: paperprop.Length(outer), CoreDiameter: paperprop.Length(core), ReelThickness: paperprop.Length(layer),
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "layers", float64(sum.ExactLayers), float64(n), outer/layer)
		for _, l := range []struct {
			what      string
			got, want float64
		}{{"inside", float64(sum.InnerLength), inner}, {"middle", float64(sum.Length), middle}, {"outside", float64(sum.OuterLength), outside}} {
			closed(t, l.what, l.got, l.want, outside, outer*outer/layer)
		}
	}
}

// What is taken off a reel and what is left make the full one.
func TestReelRunsOut(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	for range 1000 {
		core, outer := between(r, 0, 300), between(r, 400, 1500)
		now, length := between(r, core, outer), between(r, 100, 20_000)
		left, err := reel.Left{
			Length: paperprop.Length(length) * paperprop.Metre, Diameter: paperprop.Length(outer),
			CoreDiameter: paperprop.Length(core), LeftDiameter: paperprop.Length(now),
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		// A reel wound on the paper that is left has the length that was taken.
		taken, err := reel.Reel{
			Diameter: paperprop.Length(outer), CoreDiameter: paperprop.Length(now),
			ReelThickness: paperprop.Length(math.Pi / 4 * (outer*outer - core*core) / (1000 * length)),
		}.Calculate()
		if err != nil {
			continue // less than one layer was taken
		}
		closed(t, "left and taken", float64(left.LeftLength+taken.Length), 1000*length)
	}
}

// Reels and trim make the deckle, the edges the sheet, patterns and trim the
// plan, to the last bit where all is in tenths of a millimetre.
func TestTrimBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 2000 {
		var widths []paperprop.Length
		var counts []paperprop.Count
		var tenth int64 // of a millimetre, in all
		for range 1 + r.IntN(4) {
			b, n := tenths(r, 300, 1500), paperprop.Count(1+r.IntN(3))
			widths, counts = append(widths, b), append(counts, n)
			tenth += int64(math.Round(10*float64(b))) * int64(n)
		}
		spare, edge := int64(r.IntN(500)), int64(r.IntN(300))
		deckle := paperprop.Length(float64(tenth+spare) / 10)
		set, err := reel.TrimLoss{Deckle: deckle, ReelWidth: widths, Count: counts}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		if want := paperprop.Length(float64(spare) / 10); set.Trim != want {
			t.Errorf("trim of %v on %v of %v is %v, want %v", widths, counts, deckle, set.Trim, want)
		}
		closed(t, "loss on deckle and efficiency", float64(set.LossOnDeckle+set.DeckleEfficiency), 1)
		closed(t, "trim on reels", float64(set.LossOnReels)*float64(tenth)/10, float64(set.Trim))

		sheet := paperprop.Length(float64(tenth+spare+2*edge) / 10)
		edges, err := reel.EdgeTrim{
			SheetWidth: sheet, LeastEdge: paperprop.Length(float64(edge) / 10), ReelWidth: widths, Count: counts,
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		if edges.UsableDeckle != deckle || edges.SpareTrim != set.Trim {
			t.Errorf("usable-deckle %v with spare-trim %v, want %v with %v", edges.UsableDeckle, edges.SpareTrim, deckle, set.Trim)
		}
		closed(t, "trim and edges", float64(edges.Trim), float64(spare+2*edge)/10)
		closed(t, "sheet", float64(edges.LossOnSheetWidth)*float64(sheet)+float64(tenth)/10, float64(sheet))
	}
}

func TestPlanBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 500 {
		deckle := tenths(r, 2500, 6000)
		plan := reel.PlanTrimLoss{Deckle: deckle}
		var reels, sets float64
		for range 1 + r.IntN(8) {
			used, n := tenths(r, 2000, 2500), paperprop.Count(1+r.IntN(30))
			plan.UsedWidth, plan.Runs = append(plan.UsedWidth, used), append(plan.Runs, n)
			reels += float64(n) * float64(used)
			sets += float64(n)
		}
		got, err := plan.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "reels and trim", reels+float64(got.Trim), sets*float64(deckle))
		closed(t, "loss on deckle", float64(got.LossOnDeckle)*sets*float64(deckle), float64(got.Trim), sets*float64(deckle))
		closed(t, "loss on reels", float64(got.LossOnReels)*reels, float64(got.Trim), reels)
	}
}

// Sets, rest and what is lost make the jumbo; a jumbo of just so many reels
// gives them all, whatever its length looks like in binary.
func TestSetsOfAJumbo(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 6))
	for range 2000 {
		decimetres, n := int64(1+r.IntN(100_000)), int64(1+r.IntN(60))
		length := paperprop.Length(float64(decimetres)/10) * paperprop.Metre
		whole, err := reel.Sets{JumboLength: paperprop.Length(float64(decimetres*n)/10) * paperprop.Metre, ReelLength: length}.Calculate()
		if err != nil || whole.Sets != paperprop.Count(n) || whole.RestLength != 0 {
			t.Errorf("%d reels of %v: %v and a rest of %v, %v", n, length, whole.Sets, whole.RestLength, err)
		}

		jumbo := reel.Sets{
			JumboLength: length + tenths(r, 1000, 4e7), ReelLength: length, LostLength: tenths(r, 0, 1000),
		}
		got, err := jumbo.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "jumbo", float64(got.Sets)*float64(length)+float64(got.RestLength+jumbo.LostLength), float64(jumbo.JumboLength))
		if got.RestLength < 0 || got.RestLength >= length {
			t.Errorf("a rest of %v, want one of at least 0 mm and below %v", got.RestLength, length)
		}
	}
}

func TestSetsByDiameter(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 1000 {
		s := reel.SetsByDiameter{
			JumboDiameter: tenths(r, 2000, 3500), SpoolDiameter: tenths(r, 300, 900),
			ReelDiameter: tenths(r, 700, 1500), CoreDiameter: tenths(r, 0, 300),
		}
		got, err := s.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		square := func(l paperprop.Length) float64 { return float64(l) * float64(l) }
		closed(t, "rings", square(got.RestDiameter)+float64(got.Sets)*(square(s.ReelDiameter)-square(s.CoreDiameter)), square(s.JumboDiameter))
		if got.RestDiameter < s.SpoolDiameter || float64(got.ExactSets) < float64(got.Sets) || float64(got.ExactSets) >= float64(got.Sets)+1 {
			t.Errorf("%+v gives %+v", s, got)
		}
	}
	// 13² − 5² is 16 times 5² − 4², in binary fractions a little less.
	got, err := reel.SetsByDiameter{JumboDiameter: 3.9, SpoolDiameter: 1.5, ReelDiameter: 1.5, CoreDiameter: 1.2}.Calculate()
	if err != nil || got.Sets != 16 || got.RestDiameter != 1.5 {
		t.Errorf("3.9 on 1.5 into 1.5 on 1.2: %+v, %v, want 16 and a bare spool", got, err)
	}
}

// What whole reels weigh is an order for so many, with no tolerance at all; a
// number of reels allowed is inside the tolerance and the next is not.
func TestReelCount(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	for range 2000 {
		c := reel.Count{
			OrderedMass: 1000, ReelWidth: tenths(r, 300, 3000), Diameter: tenths(r, 600, 1500), CoreDiameter: tenths(r, 70, 300),
			RollDensity: paperprop.Density(between(r, 300, 1400)), OverRun: 1e9,
		}
		one, err := c.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		n := float64(1 + r.IntN(200))
		c.OverRun = 0
		// Some digits are lost when a person copies a result.
		for _, off := range []float64{0, 1e-12, -1e-12, 1e-10, -1e-10} {
			c.OrderedMass = paperprop.Mass(n * float64(one.ReelMass) * (1 + off))
			exact, err := c.Calculate()
			want := paperprop.Count(n)
			if err != nil || exact.FewestReels != want || exact.MostReels != want || exact.NearestReels != want {
				t.Errorf("%v reels: %+v, %v", n, exact, err)
			}
		}

		c.OrderedMass = paperprop.Mass(between(r, 5000, 50_000))
		c.UnderRun, c.OverRun = paperprop.Fraction(between(r, 0, 0.3)), paperprop.Fraction(between(r, 0, 0.3))
		got, err := c.Calculate()
		if err != nil {
			continue // no whole number of these reels fits
		}
		least, most := float64(c.OrderedMass)*(1-float64(c.UnderRun)), float64(c.OrderedMass)*(1+float64(c.OverRun))
		m := float64(got.ReelMass)
		few, many := float64(got.FewestReels), float64(got.MostReels)
		if few*m < least*(1-2e-9) || (few-1)*m >= least || many*m > most*(1+2e-9) || (many+1)*m <= most {
			t.Errorf("%+v gives %+v", c, got)
		}
		for n := few; n <= many; n++ {
			if math.Abs(n*m-float64(c.OrderedMass)) < math.Abs(float64(got.NearestMass-c.OrderedMass))*(1-1e-9) {
				t.Errorf("%+v: %v reels are nearer than %v", c, n, got.NearestReels)
			}
		}
	}
}

// The fewest reels of the diameter found make the order, and that diameter is
// allowed.
func TestReelCountByDiameter(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	made := 0
	for range 1000 {
		c := reel.CountByDiameter{
			OrderedMass: paperprop.Mass(between(r, 5000, 50_000)), ReelWidth: tenths(r, 300, 3000), LeastDiameter: tenths(r, 900, 1100),
			MostDiameter: tenths(r, 1100, 1400), CoreDiameter: tenths(r, 70, 300), RollDensity: paperprop.Density(between(r, 300, 1400)),
		}
		got, err := c.Calculate()
		if err != nil {
			continue
		}
		made++
		if got.Diameter < c.LeastDiameter*(1-1e-9) || got.Diameter > c.MostDiameter*(1+1e-9) {
			t.Errorf("%+v gives %v", c, got.Diameter)
		}
		one, err := reel.Mass{
			Diameter: got.Diameter, CoreDiameter: c.CoreDiameter, ReelThickness: paperprop.Length(0.2), ReelWidth: c.ReelWidth,
			Grammage: paperprop.Grammage(0.2 * float64(c.RollDensity)),
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "ordered mass", float64(got.FewestReels)*float64(one.Mass), float64(c.OrderedMass))
	}
	if made < 500 {
		t.Errorf("%d orders could be met, want 500 or more", made)
	}
}

// Draws multiply; drawn and shrunk, the web keeps its dry mass.
func TestDrawBalances(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 10))
	for range 1000 {
		var machine reel.TotalDraw
		v := between(r, 50, 2000)
		for range 2 + r.IntN(8) {
			machine.Speed = append(machine.Speed, paperprop.Speed(v))
			v *= between(r, 0.98, 1.04)
		}
		got, err := machine.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		product := 1.0
		for i, e := range got.SectionDraw {
			step, err := reel.Draw{SpeedIn: machine.Speed[i], SpeedOut: machine.Speed[i+1]}.Calculate()
			if err != nil || step.Draw != e {
				t.Errorf("draw %v, %v, of the section %v", step.Draw, err, e)
			}
			closed(t, "one over the other", (1+float64(step.Draw))*(1-float64(step.DrawOnSpeedOut)), 1)
			product *= 1 + float64(e)
		}
		closed(t, "total", 1+float64(got.TotalDraw), product)

		web := reel.DrawShrinkage{
			SpeedIn: machine.Speed[0], SpeedOut: machine.Speed[1], SheetWidthIn: tenths(r, 3000, 8000), SheetWidthOut: tenths(r, 2500, 3000),
			DryGrammageIn: paperprop.OvenDryGrammage(between(r, 30, 400)),
		}
		after, err := web.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		closed(t, "dry mass", float64(web.DryGrammageIn)*float64(web.SpeedIn)*float64(web.SheetWidthIn),
			float64(after.DryGrammageOut)*float64(web.SpeedOut)*float64(web.SheetWidthOut))
	}
}

// The areas under the speed of a winder, up, on and down, are the length.
func TestWinderRunsTheLength(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 11))
	short := 0
	for range 1000 {
		w := reel.WinderTime{
			Length: paperprop.Length(between(r, 100, 20_000)) * paperprop.Metre, Speed: paperprop.Speed(between(r, 500, 3000)),
			Acceleration: paperprop.Acceleration(between(r, 0.2, 1)), ChangeTime: 3, Sets: paperprop.Count(1 + r.IntN(9)),
		}
		got, err := w.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		a := w.Acceleration.In(paperprop.MetrePerSquareSecond)
		v, run := got.ReachedSpeed.In(paperprop.MetrePerSecond), got.RunTime.In(paperprop.Second)
		ramp := v / a
		closed(t, "length", ramp*v+(run-2*ramp)*v, w.Length.In(paperprop.Metre))
		if got.ReachedSpeed < w.Speed {
			short++
			closed(t, "short run", run, 2*math.Sqrt(w.Length.In(paperprop.Metre)/a))
		}
		closed(t, "all sets", float64(got.Time)*float64(got.MeanSpeed), float64(w.Sets)*w.Length.In(paperprop.Metre))
	}
	if short < 50 {
		t.Errorf("%d runs below top speed, want 50 or more", short)
	}
}
