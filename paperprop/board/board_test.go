package board_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/board"
	"millmaths.example/paperprop/calc"
)

// All that people stack boxes by says that stacks fall.
func TestStackedLoadIsToldOf(t *testing.T) {
	var got []string
	for _, c := range board.Calculations() {
		info := c.Info()
		if slices.ContainsFunc(info.Cautions, func(c *calc.Caution) bool { return c.Code == "stacked-load" }) {
			got = append(got, info.Name)
		}
	}
	want := []string{"box-compression", "box-compression-full", "stack-layers", "stacking", "strength-at-moisture", "stack-offset"}
	if !slices.Equal(got, want) {
		t.Errorf("the caution is borne by %q, want %q", got, want)
	}
}

// The shares of a board add up to all of it.
func TestSharesAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 200 {
		b := board.Grammage{AdhesiveGrammage: paperprop.Grammage(20 * r.Float64())}
		for range 1 + r.IntN(4) {
			b.LinerGrammage = append(b.LinerGrammage, paperprop.Grammage(80+200*r.Float64()))
			b.FlutingGrammage = append(b.FlutingGrammage, paperprop.Grammage(80+100*r.Float64()))
			b.TakeUp = append(b.TakeUp, paperprop.Ratio(1+r.Float64()))
		}
		got, err := b.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		sum := got.AdhesiveShare
		for i := range got.LinerShare {
			sum += got.LinerShare[i] + got.FlutingShare[i]
		}
		if !(math.Abs(float64(sum)-1) <= 1e-12) {
			t.Errorf("%+v: shares add up to %v", b, sum)
		}
	}
}

// What the webs weigh is the board's grammage over its area, waste included.
func TestCorrugatorTakesTheBoard(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 200 {
		liner, fluting, takeUp := paperprop.Grammage(80+200*r.Float64()), paperprop.Grammage(80+100*r.Float64()), paperprop.Ratio(1+r.Float64())
		of, err := board.Grammage{
			LinerGrammage: []paperprop.Grammage{liner, liner}, FlutingGrammage: []paperprop.Grammage{fluting}, TakeUp: []paperprop.Ratio{takeUp},
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		use := board.CorrugatorUse{
			Area: 24000 * paperprop.SquareMetre, SheetWidth: 2.2 * paperprop.Metre, WasteShare: paperprop.Fraction(0.9 * r.Float64()),
			Grammage: []paperprop.Grammage{liner, fluting, liner}, TakeUp: []paperprop.Ratio{1, takeUp, 1},
		}
		got, err := use.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		want := use.Area.In(paperprop.SquareMetre) * of.Grammage.In(paperprop.GramPerSquareMetre) / 1000 / (1 - float64(use.WasteShare))
		if !(math.Abs(got.Mass.In(paperprop.Kilogram)-want) <= 1e-12*want) {
			t.Errorf("%+v takes %v, want %v kg", use, got.Mass, want)
		}
	}
}

// The take-up of a sine is its length, summed over small steps.
func TestTakeUpIsTheLengthOfASine(t *testing.T) {
	for _, ratio := range []float64{1e-6, 0.01, 0.1, 0.3, 0.5, 1, 3, 50} {
		got, err := board.TakeUp{FluteHeight: paperprop.Length(ratio), Pitch: 1 * paperprop.Millimetre}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		// The trapezoid rule over whole periods of a smooth function converges
		// faster than any power of the step.
		const steps = 20000
		want := 0.0
		for i := range steps {
			slope := math.Pi * ratio * math.Cos(2*math.Pi*float64(i)/steps)
			want += math.Sqrt(1+slope*slope) / steps
		}
		if !(math.Abs(float64(got.TakeUp)-want) <= 1e-12*want) {
			t.Errorf("height %v of the pitch: take-up %v, want %v (quadrature)", ratio, got.TakeUp, want)
		}
	}
}

// One layer more than most layers is more than allowed, and no layer less is.
func TestMostLayersAreAllowed(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for range 500 {
		s := board.Stacking{
			BoxCompression: paperprop.Force(500 + 5000*r.Float64()), Mass: paperprop.Mass(1 + 20*r.Float64()), Layers: 2,
			Multiplier: []paperprop.Ratio{paperprop.Ratio(0.1 + 0.9*r.Float64()), 0.9, 0.999}, AddedMass: paperprop.Mass(50 * r.Float64()),
		}
		most, err := s.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		for layers := max(1, most.MostLayers); layers <= most.MostLayers+1; layers++ {
			s.Layers = layers
			got, err := s.Calculate()
			if err != nil {
				t.Fatal(err)
			}
			if over := len(got.Warnings) > 0; over != (layers > most.MostLayers) {
				t.Errorf("%+v: warned %v, most layers %v", s, over, most.MostLayers)
			}
		}
	}
}

// A stack is too high where it has more layers than the most: at a compression solved
// for, a last digit below what the load needs, the two would contradict each other.
func TestOverloadIsMoreThanTheMostLayers(t *testing.T) {
	const multipliers = 0.6 * 0.8 * 0.85
	load := (7*8.4 + 22) * 9.80665
	for _, part := range []float64{0.9, 1 - 1e-6, 1 - 1e-12, 1, 1 + 1e-12, 1.1} {
		got, err := board.Stacking{
			BoxCompression: paperprop.Force(part*load/multipliers) * paperprop.Newton, Mass: 8.4 * paperprop.Kilogram, Layers: 8,
			Multiplier: []paperprop.Ratio{0.6, 0.8, 0.85}, AddedMass: 22 * paperprop.Kilogram,
		}.Calculate()
		if over := len(got.Warnings) > 0; err != nil || over != (got.MostLayers < 8) {
			t.Errorf("%v of the compression needed: most layers %v of 8, warnings %v, %v", part, got.MostLayers, got.Warnings, err)
		}
	}
}
