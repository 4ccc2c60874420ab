// Package reel calculates reels of paper and what a machine makes: length and
// diameter of a reel, what is left of it, production, loss by trim.
//
// The thickness of a layer in the reel is not the tester's: layers are pressed
// together. The result of [Reel] is as good as that thickness.
package reel

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Calculations lists what the package calculates.
func Calculations() []calc.Calculation {
	return []calc.Calculation{reel, reelLeft, production, trimLoss}
}

// Reel is the geometry of a wound reel. Exactly two of Length, Diameter and
// ReelThickness are given; zero is not given.
type Reel struct {
	Length        paperprop.Length // wound, above zero
	Diameter      paperprop.Length // outside, above CoreDiameter
	ReelThickness paperprop.Length // of a layer in the reel, at most half of what Diameter is above CoreDiameter
	CoreDiameter  paperprop.Length // outside of the core
}

// ReelResult holds all three, and how many layers that is.
type ReelResult struct {
	Length        paperprop.Length
	Diameter      paperprop.Length
	ReelThickness paperprop.Length
	ExactLayers   paperprop.Ratio // not rounded
}

// Calculate returns the third of the three by the area of the ring of paper:
// π(D² − D_c²)/4 = L·t.
func (r Reel) Calculate() (ReelResult, error) { return reel.Calculate(r) }

func (r Reel) compute() (ReelResult, error) {
	length, outer := r.Length.In(paperprop.Millimetre), r.Diameter.In(paperprop.Millimetre)
	layer, core := r.ReelThickness.In(paperprop.Millimetre), r.CoreDiameter.In(paperprop.Millimetre)
	if outer != 0 && outer <= core {
		return ReelResult{}, calc.Refuse("diameter", r.Diameter, "above core-diameter %v", r.CoreDiameter)
	}
	switch {
	case length == 0:
		length = ring(outer, core) / layer
	case outer == 0:
		outer = math.Sqrt(core*core + 4*length*layer/math.Pi)
	default:
		layer = ring(outer, core) / length
	}
	if layers := (outer - core) / (2 * layer); layers < 1 {
		return ReelResult{}, calc.Refuse("reel-thickness", paperprop.Length(layer)*paperprop.Millimetre,
			"at most half of diameter - core-diameter, %v: less than one layer", paperprop.Length((outer-core)/2)*paperprop.Millimetre)
	}
	return ReelResult{
		Length:        paperprop.Length(length) * paperprop.Millimetre,
		Diameter:      paperprop.Length(outer) * paperprop.Millimetre,
		ReelThickness: paperprop.Length(layer) * paperprop.Millimetre,
		ExactLayers:   paperprop.Ratio((outer - core) / (2 * layer)),
	}, nil
}

// ring is the area of paper between two diameters.
func ring(outer, inner float64) float64 { return math.Pi / 4 * (outer - inner) * (outer + inner) }

var reel = &calc.Description[Reel, ReelResult]{
	Name:    "reel",
	Title:   "Length, diameter and thickness of a reel",
	Answers: "The third of length, diameter and thickness in the reel, from the other two.",
	Formula: []string{
		"L = pi*(pow(D, 2) - pow(D_c, 2))/(4*t)",
		"D = sqrt(pow(D_c, 2) + 4*L*t/pi)",
		"t = pi*(pow(D, 2) - pow(D_c, 2))/(4*L)",
		"N = (D - D_c)/(2*t)",
	},
	Source:  "area of the ring of paper; formula seen on several public roll-length pages",
	Status:  calc.Published,
	Example: "diameter=1250 mm; core-diameter=100 mm; reel-thickness=186 um",
	Mistakes: []string{
		"The tester's thickness is of a relaxed sheet: in the reel a layer is thinner.",
		"Order data give the inside of the core; the paper begins at its outside.",
	},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Reel.compute,
	Fields: func(f *calc.Form, in *Reel, out *ReelResult) {
		f.Exactly(2,
			calc.In(f, &in.Length, "length", "L", "m", "wound").Above(0),
			calc.In(f, &in.Diameter, "diameter", "D", "mm", "outside"),
			calc.In(f, &in.ReelThickness, "reel-thickness", "t", "um", "of a layer in the reel, not the tester's").Above(0),
		)
		calc.In(f, &in.CoreDiameter, "core-diameter", "D_c", "mm", "OUTSIDE of the core").From(0)
		calc.Out(f, &out.Length, "length", "L", "m", "by the area of the ring")
		calc.Out(f, &out.Diameter, "diameter", "D", "mm", "outside")
		calc.Out(f, &out.ReelThickness, "reel-thickness", "t", "um", "of a layer in the reel")
		calc.Out(f, &out.ExactLayers, "exact-layers", "N", "1", "not rounded")
	},
}
