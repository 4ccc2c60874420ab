package board

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// StackLayers is the number of boxes on top of one another in a stack.
type StackLayers struct {
	StackHeight paperprop.Length // of the boxes, without pallets, at least BoxHeight
	BoxHeight   paperprop.Length // outside, loaded, above zero
}

// StackLayersResult is the number of layers.
type StackLayersResult struct {
	Layers paperprop.Count
}

// Calculate returns ⌊H/h⌋. A ratio within 1e-9 of a whole number counts as that
// number.
func (s StackLayers) Calculate() (StackLayersResult, error) { return stackLayers.Calculate(s) }

func (s StackLayers) compute() (StackLayersResult, error) {
	layers := wholes(s.StackHeight.In(paperprop.Millimetre) / s.BoxHeight.In(paperprop.Millimetre))
	if layers < 1 {
		return StackLayersResult{}, calc.Refuse("stack-height", s.StackHeight, "at least box-height %v", s.BoxHeight)
	}
	return StackLayersResult{paperprop.Count(layers)}, nil
}

var stackLayers = &calc.Description[StackLayers, StackLayersResult]{
	Name:     "stack-layers",
	Title:    "Layers of boxes in a stack",
	Answers:  "How many boxes stand over one another in a height.",
	Method:   "n = floor(H/h), a ratio within 1e-9 of a whole number taken as whole",
	Source:   "geometry",
	Status:   calc.CommonPractice,
	Example:  "stack-height=2.1 m; box-height=236 mm",
	Mistakes: []string{"Take the outside height of a loaded box, and take pallets off the height first."},
	Cautions: []*calc.Caution{&stackedLoad},
	Compute:  StackLayers.compute,
	Fields: func(f *calc.Form, in *StackLayers, out *StackLayersResult) {
		calc.In(f, &in.StackHeight, "stack-height", "H", "m", "of the boxes, without pallets").Above(0)
		calc.In(f, &in.BoxHeight, "box-height", "h", "m", "outside, loaded").Above(0)
		calc.Out(f, &out.Layers, "layers", "n", "1", "whole boxes")
	},
}

// Stacking compares the load on the bottom box of a stack with the load allowed on
// it.
type Stacking struct {
	BoxCompression paperprop.Force   // measured on boxes as delivered, above zero
	Mass           paperprop.Mass    // of a filled box, above zero
	Layers         paperprop.Count   // boxes on top of one another, from 1
	Multiplier     []paperprop.Ratio // for time, humidity, pattern and so on: above 0, at most 1; [1] for no reduction
	AddedMass      paperprop.Mass    // of pallets and other goods that this column carries
}

// StackingResult is the load, the load allowed, and the margin between them.
type StackingResult struct {
	Load            paperprop.Force // on the bottom box
	TotalMultiplier paperprop.Ratio // product of the multipliers; its reciprocal is the safety factor it stands for
	AllowedLoad     paperprop.Force
	SafetyFactor    paperprop.Ratio        // of BoxCompression over Load
	MostLayers      paperprop.Count        // within AllowedLoad; zero: even AddedMass is too much
	Gravity         paperprop.Acceleration // the standard value, used here
	Warnings        calc.Warnings
}

// Calculate returns the load F = ((n − 1)m + m_a)g, and the load allowed B_c·Πf.
func (s Stacking) Calculate() (StackingResult, error) { return stacking.Calculate(s) }

var (
	overload       = calc.Warning{Code: "overload", Text: "the load on the bottom box is above what is allowed: do not stack like this"}
	fewMultipliers = calc.Warning{Code: "few-multipliers", Text: "fewer than three multipliers below 1: time, humidity and pattern each take off a share"}

	overloaded       = calc.Warnings{&overload}
	tooFew           = calc.Warnings{&fewMultipliers}
	overloadedAndFew = calc.Warnings{&overload, &fewMultipliers}
)

// doubts returns the warnings for a stack.
func (s Stacking) doubts(over bool) calc.Warnings {
	below := 0
	for _, f := range s.Multiplier {
		if f < 1 {
			below++
		}
	}
	switch few := below < 3; {
	case over && few:
		return overloadedAndFew
	case over:
		return overloaded
	case few:
		return tooFew
	}
	return nil
}

func (s Stacking) compute() (StackingResult, error) {
	mass, added := s.Mass.In(paperprop.Kilogram), s.AddedMass.In(paperprop.Kilogram)
	above := (float64(s.Layers)-1)*mass + added
	if above <= 0 {
		return StackingResult{}, calc.Refuse("layers", s.Layers, "2 or more, or an added-mass: nothing stands on the bottom box")
	}
	total := 1.0
	for _, f := range s.Multiplier {
		total *= float64(f)
	}
	gravity := (1 * paperprop.StandardGravity).In(paperprop.MetrePerSquareSecond)
	strength, load := s.BoxCompression.In(paperprop.Newton), above*gravity
	allowed := strength * total
	most := max(0, wholes((allowed/gravity-added)/mass)+1)
	return StackingResult{
		Load:            paperprop.Force(load) * paperprop.Newton,
		TotalMultiplier: paperprop.Ratio(total),
		AllowedLoad:     paperprop.Force(allowed) * paperprop.Newton,
		SafetyFactor:    paperprop.Ratio(strength / load),
		MostLayers:      paperprop.Count(most),
		Gravity:         paperprop.StandardGravity,
		Warnings:        s.doubts(most < float64(s.Layers)), // by one tolerance with most-layers, lest they disagree
	}, nil
}

var stacking = &calc.Description[Stacking, StackingResult]{
	Name:    "stacking",
	Title:   "Load on the bottom box of a stack",
	Answers: "What the bottom box of a stack carries, what it may carry, and how many layers that allows.",
	Formula: []string{
		"F = ((n - 1)*m + m_a)*g_0",
		"f_t = product(f)",
		"F_a = B_c*f_t",
		"N = B_c/F",
	},
	Method: "g_0 is standard gravity, 9.80665 m/s2; most layers floor((F_a/g_0 - m_a)/m) + 1, " +
		"a ratio within 1e-9 of a whole number taken as whole, none below 0",
	Source:  "balance of weight; multipliers as handbooks of the trade have them (memory), the user's own to give",
	Status:  calc.CommonPractice,
	Example: "box-compression=2.06 kN; mass=8.4 kg; layers=8; multiplier=[0.6 0.8 0.85]; added-mass=22 kg",
	Mistakes: []string{
		"Multipliers in handbooks (memory): 30 days 0.60, 80 % relative humidity 0.68, interlocked pattern 0.60 to 0.40. They multiply: " +
			"together 0.16 at the worst, a safety factor of 6.",
		"A multiplier left out counts as 1. Give one each for time, humidity and pattern, and 1 only where nothing is taken off.",
		"The bottom box does not carry itself: seven boxes over it in a stack of eight.",
		"A formula of box-compression gives a lone empty box in a laboratory: use compressions measured on boxes as delivered.",
	},
	Cautions: []*calc.Caution{&stackedLoad},
	Compute:  Stacking.compute,
	Fields: func(f *calc.Form, in *Stacking, out *StackingResult) {
		calc.In(f, &in.BoxCompression, "box-compression", "B_c", "kN", "BCT, measured on boxes as delivered").Above(0)
		calc.In(f, &in.Mass, "mass", "m", "kg", "of a filled box").Above(0)
		calc.In(f, &in.Layers, "layers", "n", "1", "boxes one over another").From(1)
		calc.InList(f, &in.Multiplier, "multiplier", "f", "1", "for time (creep), humidity, pattern and so on; 1 says that nothing is taken off").Above(0).UpTo(1)
		calc.In(f, &in.AddedMass, "added-mass", "m_a", "kg", "pallets and goods above that this column carries").Default(0)
		calc.Out(f, &out.Load, "load", "F", "N", "on the bottom box")
		calc.Out(f, &out.TotalMultiplier, "total-multiplier", "f_t", "1", "product; 1/f_t is the safety factor it stands for")
		calc.Out(f, &out.AllowedLoad, "allowed-load", "F_a", "N", "on the bottom box")
		calc.Out(f, &out.SafetyFactor, "safety-factor", "N", "1", "compression over load")
		calc.Out(f, &out.MostLayers, "most-layers", "n_m", "1", "by the allowed load; test before anyone stacks by it")
		calc.Between(f, &out.Gravity, "g_0", "m/s2", "standard gravity")
		f.Warnings(&out.Warnings)
	},
}

// StackOffset is the strength that a box loses by not standing straight on the one
// below.
type StackOffset struct {
	OffsetShare paperprop.Fraction // share of the box side that overhangs, 0 to 100 %
	LossRatio   paperprop.Ratio    // per cent of strength lost per per cent of overhang, above zero; zero stands for 2.5
}

// StackOffsetResult is the loss of compression strength.
type StackOffsetResult struct {
	LossShare  paperprop.Fraction
	Multiplier paperprop.Ratio // for [Stacking]
	Warnings   calc.Warnings
}

// Calculate returns the loss k·x and the multiplier 1 − k·x.
func (s StackOffset) Calculate() (StackOffsetResult, error) { return stackOffset.Calculate(s) }

var largeOffset = calc.Warnings{{Code: "out-of-range", Text: "an offset above 10 %: the linear rule was found for small ones"}}

func (s StackOffset) compute() (StackOffsetResult, error) {
	loss := float64(s.LossRatio) * float64(s.OffsetShare)
	left := result.Rest(1, loss)
	if left <= 0 {
		return StackOffsetResult{}, calc.Refuse("offset-share", s.OffsetShare, "below %v: the rule leaves nothing of the strength", paperprop.Fraction(1/s.LossRatio))
	}
	r := StackOffsetResult{LossShare: paperprop.Fraction(loss), Multiplier: paperprop.Ratio(left)}
	if result.Rest(float64(s.OffsetShare), 0.1) > 0 {
		r.Warnings = largeOffset
	}
	return r, nil
}

var stackOffset = &calc.Description[StackOffset, StackOffsetResult]{
	Name:    "stack-offset",
	Title:   "Loss of strength by an offset in the stack",
	Answers: "How much compression strength (BCT) is lost where boxes do not stand straight over one another.",
	Formula: []string{"x_l = k*x", "f = 1 - x_l"},
	Source:  "a thesis of 2010: 2.5 % lost for 1 % of offset (seen); older shares of 1/12 per side and 1/6 per corner were found inaccurate there",
	Status:  calc.Published,
	Example: "offset-share=6 %",
	Mistakes: []string{
		"For small offsets only: the corners carry most of the load, and once they are off the straight rule ends.",
		"The multiplier covers the offset alone: time and humidity have their own.",
	},
	Cautions: []*calc.Caution{&stackedLoad},
	Compute:  StackOffset.compute,
	Fields: func(f *calc.Form, in *StackOffset, out *StackOffsetResult) {
		calc.In(f, &in.OffsetShare, "offset-share", "x", "%", "of the box side that stands out").From(0).UpTo(100)
		calc.In(f, &in.LossRatio, "loss-ratio", "k", "1", "per cent lost per per cent out").Above(0).Default(2.5)
		calc.Out(f, &out.LossShare, "loss-share", "x_l", "%", "of the compression strength")
		calc.Out(f, &out.Multiplier, "multiplier", "f", "1", "for stacking")
		f.Warnings(&out.Warnings)
	},
}
