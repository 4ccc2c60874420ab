// Package reel calculates reels of paper and what a machine makes: length,
// diameter and mass of a reel, what is left of it, production, draws, sets from a
// jumbo, trim loss, reels for an order, winder time.
//
// A calculation is a struct of inputs with a method:
//
//	r, err := reel.Reel{ // two of Length, Diameter and ReelThickness
//		Diameter:      1250 * paperprop.Millimetre,
//		CoreDiameter:  100 * paperprop.Millimetre,
//		ReelThickness: 186 * paperprop.Micrometre,
//	}.Calculate()
//	fmt.Printf("%.0f m\n", r.Length.In(paperprop.Metre)) // 6556 m
//
// The thickness of a layer in the reel is not the tester's: layers are pressed
// together. The result of [Reel] is only as good as that thickness; [RollDensity]
// finds it from a reel on the scale.
//
// A count of whole reels or sets never turns on the last digit of a binary
// fraction: lengths and widths are added and compared in decimals, and a number of
// reels computed with pi is taken as whole within 1e-9 of it.
//
// # What people get wrong
//
// The core in an order is its inside; the paper begins at its outside.
//
// Half the diameter is a quarter of the paper, and less where the core is large.
//
// Loss on the deckle and loss on the reels are different numbers, as are gross and
// net production: each result says what it is a share of.
//
// Draws multiply: five of 2 % are 10.41 %.
package reel

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Calculations returns all calculations of the package.
func Calculations() []calc.Calculation {
	return []calc.Calculation{
		reel, layerSum, reelMass, rollDensity, compressionFactor, reelLength, massByFactor, reelLeft, runOut,
		production, dryProduction, netProduction, machineEfficiency, draw, drawShrinkage, totalDraw, rollSpeed,
		sets, setsByDiameter, trimLoss, edgeTrim, planTrimLoss, reelCount, countByDiameter, sheetOrder,
		winderTime, webPower,
	}
}

// Reel is the geometry of a wound reel. Exactly two of Length, Diameter and
// ReelThickness are given; zero is not given.
type Reel struct {
	Length        paperprop.Length // wound, above zero
	Diameter      paperprop.Length // outside, above CoreDiameter
	ReelThickness paperprop.Length // of a layer in the reel, at most half of Diameter − CoreDiameter
	CoreDiameter  paperprop.Length // outside of the core
}

// ReelResult is the whole geometry, and the number of layers.
type ReelResult struct {
	Length        paperprop.Length
	Diameter      paperprop.Length
	ReelThickness paperprop.Length // of a layer in the reel, not the tester's
	ExactLayers   paperprop.Ratio  // not rounded
}

// Calculate returns the missing one of the three from the area of the ring of
// paper, π(D² − D_c²)/4 = L·t.
func (r Reel) Calculate() (ReelResult, error) { return reel.Calculate(r) }

func (r Reel) compute() (ReelResult, error) {
	length, outer := r.Length.In(paperprop.Millimetre), r.Diameter.In(paperprop.Millimetre)
	layer, core := r.ReelThickness.In(paperprop.Millimetre), r.CoreDiameter.In(paperprop.Millimetre)
	if length == 0 || layer == 0 { // the diameter is one of the two given
		if err := aboveCore("diameter", r.Diameter, r.CoreDiameter); err != nil {
			return ReelResult{}, err
		}
	}
	switch {
	case length == 0:
		length = ring(outer, core) / layer
	case outer == 0:
		outer = math.Sqrt(core*core + 4*length*layer/math.Pi)
	default:
		layer = ring(outer, core) / length
	}
	layers, err := layersBetween(outer, core, layer)
	return ReelResult{
		Length:        paperprop.Length(length) * paperprop.Millimetre,
		Diameter:      paperprop.Length(outer) * paperprop.Millimetre,
		ReelThickness: paperprop.Length(layer) * paperprop.Millimetre,
		ExactLayers:   paperprop.Ratio(layers),
	}, err
}

// aboveCore refuses a diameter that leaves no ring of paper on the core.
func aboveCore(name string, diameter, core paperprop.Length) error {
	if diameter > core {
		return nil
	}
	return calc.Refuse(name, diameter, "above core-diameter %v", core)
}

// layersBetween returns the layers between two diameters, all in mm, and refuses
// less than one. Rounding in a conversion does not count.
func layersBetween(outer, core, layer float64) (float64, error) {
	layers := (outer - core) / (2 * layer)
	if result.Rest(layers, 1) < 0 {
		return layers, calc.Refuse("reel-thickness", paperprop.Length(layer)*paperprop.Millimetre,
			"at most half of diameter - core-diameter, %v: less than one layer", paperprop.Length((outer-core)/2)*paperprop.Millimetre)
	}
	return layers, nil
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
	Compare: []calc.Comparison{{
		Name:   "layer-sum",
		Inputs: "diameter=1250 mm; core-diameter=100 mm; reel-thickness=186 um",
		Why:    "the sum over the layers is the same length if each counts at its middle; at its inside the reel is shorter by pi*(D - D_c)/2",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Reel.compute,
	Fields: func(f *calc.Form, in *Reel, out *ReelResult) {
		twoOfThree(f, &in.Length, &in.Diameter, &in.ReelThickness, &in.CoreDiameter)
		allThree(f, &out.Length, &out.Diameter, &out.ReelThickness)
		calc.Out(f, &out.ExactLayers, "exact-layers", "N", "1", "not rounded")
		f.Picture(func() *calc.Picture { return section(in, out) })
	},
}

// twoOfThree binds the inputs that define a reel.
func twoOfThree(f *calc.Form, length, diameter, thickness, core *paperprop.Length) {
	f.Exactly(2,
		calc.In(f, length, "length", "L", "m", "wound").Above(0),
		calc.In(f, diameter, "diameter", "D", "mm", "outside, above core-diameter"),
		calc.In(f, thickness, "reel-thickness", "t", "um", "of a layer in the reel, not the tester's").Above(0),
	)
	calc.In(f, core, "core-diameter", "D_c", "mm", "OUTSIDE of the core; order data give the inside").From(0)
}

func allThree(f *calc.Form, length, diameter, thickness *paperprop.Length) {
	calc.Out(f, length, "length", "L", "m", "by the area of the ring of paper")
	calc.Out(f, diameter, "diameter", "D", "mm", "outside")
	thicknessInReel(f, thickness)
}

// thicknessInReel binds the thickness that the length and the diameters of a reel make.
func thicknessInReel(f *calc.Form, thickness *paperprop.Length) {
	calc.Out(f, thickness, "reel-thickness", "t", "um", "of a layer in the reel, not the tester's").Remark("in the reel, not the tester's")
}

// ringOfPaper binds the two diameters of a reel.
func ringOfPaper(f *calc.Form, diameter, core *paperprop.Length, of string) {
	calc.In(f, diameter, "diameter", "D", "mm", of+", above core-diameter")
	calc.In(f, core, "core-diameter", "D_c", "mm", "OUTSIDE of the core; order data give the inside").From(0)
}

// LayerSum is the length of a reel as the sum of its layers, one circumference
// each.
type LayerSum struct {
	Diameter      paperprop.Length // outside, above CoreDiameter
	CoreDiameter  paperprop.Length // outside of the core
	ReelThickness paperprop.Length // of a layer in the reel, above zero, at most half of Diameter − CoreDiameter
}

// LayerSumResult is the length by each of the three circumferences in use.
type LayerSumResult struct {
	ExactLayers paperprop.Ratio  // not rounded
	Length      paperprop.Length // each layer at its middle: exactly that by area
	InnerLength paperprop.Length // each at its inside
	OuterLength paperprop.Length // each at its outside
}

// Calculate returns the length N·π·(D + D_c)/2, and that minus and plus π(D −
// D_c)/2.
func (l LayerSum) Calculate() (LayerSumResult, error) { return layerSum.Calculate(l) }

func (l LayerSum) compute() (LayerSumResult, error) {
	if err := aboveCore("diameter", l.Diameter, l.CoreDiameter); err != nil {
		return LayerSumResult{}, err
	}
	outer, core := l.Diameter.In(paperprop.Millimetre), l.CoreDiameter.In(paperprop.Millimetre)
	layers, err := layersBetween(outer, core, l.ReelThickness.In(paperprop.Millimetre))
	middle, half := math.Pi/2*layers*(outer+core), math.Pi/2*(outer-core)
	return LayerSumResult{
		ExactLayers: paperprop.Ratio(layers),
		Length:      paperprop.Length(middle) * paperprop.Millimetre,
		InnerLength: paperprop.Length(middle-half) * paperprop.Millimetre,
		OuterLength: paperprop.Length(middle+half) * paperprop.Millimetre,
	}, err
}

var layerSum = &calc.Description[LayerSum, LayerSumResult]{
	Name:    "layer-sum",
	Title:   "Length of a reel, layer by layer",
	Answers: "How long a reel is if its layers are added up, and how little it matters where in a layer its circumference is taken.",
	Formula: []string{
		"N = (D - D_c)/(2*t)",
		"L = pi*N*(D + D_c)/2",
		"L_1 = L - pi*(D - D_c)/2",
		"L_2 = L + pi*(D - D_c)/2",
	},
	Source:  "sum of an arithmetic series; direct summation with Python mpmath agrees",
	Status:  calc.Library,
	Example: "diameter=1250 mm; core-diameter=100 mm; reel-thickness=186 um",
	Mistakes: []string{
		"A count of layers from the surface of the core is not more exact than the area of the ring: it is half a layer off, 1.81 m from 100 to 1250 mm whatever the thickness.",
		"The true spiral is longer than the area form by less than a millimetre; 2 % on the thickness is 2 % on the length.",
	},
	Compare: []calc.Comparison{{
		Name:   "reel",
		Inputs: "diameter=1250 mm; core-diameter=100 mm; reel-thickness=186 um",
		Why:    "the area of the ring gives the length at the middle of the layers",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  LayerSum.compute,
	Fields: func(f *calc.Form, in *LayerSum, out *LayerSumResult) {
		ringOfPaper(f, &in.Diameter, &in.CoreDiameter, "outside")
		calc.In(f, &in.ReelThickness, "reel-thickness", "t", "um", "of a layer in the reel, not the tester's").Above(0)
		calc.Out(f, &out.ExactLayers, "exact-layers", "N", "1", "not rounded")
		calc.Out(f, &out.Length, "length", "L", "m", "each layer at its middle: the area form exactly")
		calc.Out(f, &out.InnerLength, "inner-length", "L_1", "m", "each at its inside")
		calc.Out(f, &out.OuterLength, "outer-length", "L_2", "m", "each at its outside")
	},
}
