package sheet_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/sheet"
)

// Plies make the whole sheet: shares add up to one, and each is its ply of all
// that is dry.
func TestPliesMakeTheSheet(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 1000 {
		plies := make([]paperprop.OvenDryGrammage, 1+r.IntN(6))
		for i := range plies {
			plies[i] = paperprop.OvenDryGrammage(1 + 100*r.Float64())
		}
		got, err := sheet.PlyBuild{PlyDryGrammage: plies, Moisture: paperprop.Moisture(0.1 * r.Float64())}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for i, share := range got.PlyShare {
			sum += float64(share)
			if ply := float64(got.DryGrammage) * float64(share); !(math.Abs(ply-float64(plies[i])) <= 1e-12*float64(got.DryGrammage)) {
				t.Errorf("plies %v: share %d of the sheet is %v g/m2", plies, i+1, ply)
			}
		}
		if !(math.Abs(sum-1) <= 1e-12) {
			t.Errorf("plies %v: shares add up to %v", plies, sum)
		}
	}
}

// A mass of n sheets holds n, however large n is and whatever a sheet weighs; a
// mass just short of them holds one less.
func TestSheetCountIsWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for range 10000 {
		n := math.Floor(math.Pow(10, 8*r.Float64()))
		s := sheet.SheetCount{
			Grammage: paperprop.Grammage(20 + 400*r.Float64()),
			Length:   paperprop.Length(100+1500*r.Float64()) * paperprop.Millimetre,
			Width:    paperprop.Length(100+1500*r.Float64()) * paperprop.Millimetre,
		}
		for _, less := range []float64{0, 0.001} {
			one := s.Grammage.In(paperprop.GramPerSquareMetre) * s.Length.In(paperprop.Metre) * s.Width.In(paperprop.Metre)
			s.Mass = paperprop.Mass((n-less)*one) * paperprop.Gram
			got, err := s.Calculate()
			if want := n - math.Ceil(less); err != nil || float64(got.Count) != want {
				t.Fatalf("%+v: %v sheets, %v, want %v", s, got.Count, err, want)
			}
		}
	}
}

// The curve of a straight spring is a triangle: its chord is the stiffness and
// half of force times stretch the energy, wherever the points lie.
func TestStraightCurve(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for range 1000 {
		slope := 1 + 200*r.Float64() // N/mm
		c := sheet.TensileCurve{Span: 100 * paperprop.Millimetre, Grammage: 100 * paperprop.GramPerSquareMetre}
		e := 0.0
		for range 3 + r.IntN(20) {
			c.Elongation = append(c.Elongation, paperprop.Length(e)*paperprop.Millimetre)
			c.Force = append(c.Force, paperprop.Force(slope*e)*paperprop.Newton)
			e += 0.1 + r.Float64()
		}
		got, err := c.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		energy := 1000 * float64(got.TensileStrength) * float64(got.Stretch) / 2 // kN/m is 1000 J/m²
		if !(math.Abs(float64(got.TensileEnergy)-energy) <= 1e-12*energy) {
			t.Errorf("%+v: energy %v, want %v J/m2", c, got.TensileEnergy, energy)
		}
		if stiffness := slope * 100 / 15; !(math.Abs(float64(got.TensileStiffness)-stiffness) <= 1e-12*stiffness) {
			t.Errorf("%+v: stiffness %v, want %v kN/m", c, got.TensileStiffness, stiffness)
		}
	}
}

// A ream is told by its sheets, or where it is an area by that.
func TestMeaningOfReams(t *testing.T) {
	all := sheet.Calculations()
	c := all[slices.IndexFunc(all, func(c calc.Calculation) bool { return c.ID() == "basis-weight" })]
	for ream, want := range map[string]string{"bond": "500 sheets of 17 x 22 in", "tissue": "480 sheets of 24 x 36 in", "ft2-1000": "1000 ft2", "ft2-3300": "3300 ft2"} {
		s := c.NewSheet()
		for name, text := range map[string]string{"grammage": "80 g/m2", "ream": ream} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if in, _ := s.Input("ream"); in.Meaning() != want {
			t.Errorf("%s is %q, want %q", ream, in.Meaning(), want)
		}
	}
}
