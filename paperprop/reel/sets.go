package reel

import (
	"math"

	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Sets is a jumbo that is rewound into sets of customers' reels, by length.
type Sets struct {
	JumboLength paperprop.Length // on the spool, above zero
	ReelLength  paperprop.Length // of a customer's reel, above zero
	LostLength  paperprop.Length // on the outside and inside of the jumbo and in threading, at most JumboLength; zero is none
}

// SetsResult is the whole sets, and the rest on the spool.
type SetsResult struct {
	Sets       paperprop.Count
	RestLength paperprop.Length // without LostLength
}

// Calculate returns how many whole reels the usable length of the jumbo gives. Less
// than one is an error.
func (s Sets) Calculate() (SetsResult, error) { return sets.Calculate(s) }

func (s Sets) compute() (SetsResult, error) {
	jumbo, lost, reel := exactly(s.JumboLength), exactly(s.LostLength), exactly(s.ReelLength)
	usable := rest(jumbo, lost)
	if usable.Sign() < 0 {
		return SetsResult{}, calc.Refuse("lost-length", s.LostLength, "at most jumbo-length %v", s.JumboLength)
	}
	n, left := wholeTimes(reel, usable)
	if n == 0 {
		return SetsResult{}, calc.Refuse("jumbo-length", s.JumboLength, "at least reel-length and lost-length, %v: not one whole set",
			millimetres(reel.Add(lost)))
	}
	return SetsResult{Sets: paperprop.Count(n), RestLength: millimetres(left)}, nil
}

// exactly returns a length in mm as the decimal that was written.
func exactly(l paperprop.Length) decimal.Decimal { return result.Exact(l.In(paperprop.Millimetre)) }

func millimetres(d decimal.Decimal) paperprop.Length {
	return paperprop.Length(d.InexactFloat64()) * paperprop.Millimetre
}

// noise returns the error that a float64 may hold in its last digits. A text is
// read without any, but a program that converts a length from feet leaves some.
func noise(whole decimal.Decimal) decimal.Decimal { return whole.Abs().Shift(-14) }

// rest returns whole minus part, or zero if that is only noise.
func rest(whole, part decimal.Decimal) decimal.Decimal {
	left := whole.Sub(part)
	if left.Abs().LessThanOrEqual(noise(whole)) {
		return decimal.Zero
	}
	return left
}

// wholeTimes returns how many times a part goes into a whole, and what is left
// over: in decimals, 30000.3 holds 10000.1 three times. A part of zero, which the
// step of an uncertainty can give, goes in zero times.
func wholeTimes(part, whole decimal.Decimal) (n float64, left decimal.Decimal) {
	if part.Sign() <= 0 {
		return 0, whole
	}
	times, left := whole.QuoRem(part, 0)
	n = times.InexactFloat64()
	switch {
	case left.LessThanOrEqual(noise(whole)):
		return n, decimal.Zero
	case part.Sub(left).LessThanOrEqual(noise(whole)):
		return n + 1, decimal.Zero
	}
	return n, left
}

var sets = &calc.Description[Sets, SetsResult]{
	Name:    "sets",
	Title:   "Sets of reels from a jumbo, by length",
	Answers: "How many whole sets a machine reel (jumbo, parent reel) gives, and what is left on its spool (tambour).",
	Formula: []string{"L_0 = L_j - L_x - N*L_r"},
	Method:  "sets are the whole part of (jumbo-length - lost-length)/reel-length, in decimals: 30000.3 m over 10000.1 m is 3",
	Source:  "rule of the trade",
	Status:  calc.CommonPractice,
	Example: "jumbo-length=20817 m; reel-length=6555 m; lost-length=60 m",
	Mistakes: []string{
		"What is slabbed off outside and inside and lost in threading counts against each jumbo; change of set and splices may take more.",
		"In binary fractions 1.2 over 0.4 is a little less than 3: a whole set is lost to rounding.",
	},
	Compare: []calc.Comparison{{
		Name:   "sets-by-diameter",
		Inputs: "jumbo-diameter=2300 mm; spool-diameter=600 mm; reel-diameter=1250 mm; core-diameter=100 mm",
		Why:    "diameters tell the sets only if jumbo and reels are wound equally hard; the jumbo is usually softer and holds less",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Sets.compute,
	Fields: func(f *calc.Form, in *Sets, out *SetsResult) {
		calc.In(f, &in.JumboLength, "jumbo-length", "L_j", "m", "on the spool").Above(0)
		calc.In(f, &in.ReelLength, "reel-length", "L_r", "m", "of a customer's reel").Above(0)
		calc.In(f, &in.LostLength, "lost-length", "L_x", "m", "outside and inside of the jumbo, threading; at most jumbo-length").From(0).Default(0)
		calc.Out(f, &out.Sets, "sets", "N", "1", "whole sets")
		calc.Out(f, &out.RestLength, "rest-length", "L_0", "m", "left on the spool, lost-length not counted")
	},
}

// SetsByDiameter is a jumbo that is rewound into sets, by diameters.
type SetsByDiameter struct {
	JumboDiameter paperprop.Length // above SpoolDiameter
	SpoolDiameter paperprop.Length
	ReelDiameter  paperprop.Length // above CoreDiameter
	CoreDiameter  paperprop.Length // outside of the core
}

// SetsByDiameterResult is the number of sets, whole and exact, and the rest on the
// spool.
type SetsByDiameterResult struct {
	Sets         paperprop.Count
	ExactSets    paperprop.Ratio
	RestDiameter paperprop.Length
}

// Calculate compares the rings of paper, which is right if jumbo and reels are
// wound equally hard.
func (s SetsByDiameter) Calculate() (SetsByDiameterResult, error) { return setsByDiameter.Calculate(s) }

func (s SetsByDiameter) compute() (SetsByDiameterResult, error) {
	if s.JumboDiameter <= s.SpoolDiameter {
		return SetsByDiameterResult{}, calc.Refuse("jumbo-diameter", s.JumboDiameter, "above spool-diameter %v", s.SpoolDiameter)
	}
	if err := aboveCore("reel-diameter", s.ReelDiameter, s.CoreDiameter); err != nil {
		return SetsByDiameterResult{}, err
	}
	jumbo, spool := exactly(s.JumboDiameter), exactly(s.SpoolDiameter)
	outer, core := exactly(s.ReelDiameter), exactly(s.CoreDiameter)
	n, left := wholeTimes(squares(outer, core), squares(jumbo, spool))
	onSpool := spool.Mul(spool)
	if n == 0 {
		least := paperprop.Length(math.Sqrt(onSpool.Add(squares(outer, core)).InexactFloat64())) * paperprop.Millimetre
		return SetsByDiameterResult{}, calc.Refuse("jumbo-diameter", s.JumboDiameter, "at least %v: not one whole set", least)
	}
	exact := ring(s.JumboDiameter.In(paperprop.Millimetre), s.SpoolDiameter.In(paperprop.Millimetre)) /
		ring(s.ReelDiameter.In(paperprop.Millimetre), s.CoreDiameter.In(paperprop.Millimetre))
	return SetsByDiameterResult{
		Sets:         paperprop.Count(n),
		ExactSets:    paperprop.Ratio(exact),
		RestDiameter: paperprop.Length(math.Sqrt(onSpool.Add(left).InexactFloat64())) * paperprop.Millimetre,
	}, nil
}

// squares returns the area of a ring of paper, without the factor π/4.
func squares(outer, inner decimal.Decimal) decimal.Decimal {
	return outer.Sub(inner).Mul(outer.Add(inner))
}

var setsByDiameter = &calc.Description[SetsByDiameter, SetsByDiameterResult]{
	Name:    "sets-by-diameter",
	Title:   "Sets of reels from a jumbo, by diameter",
	Answers: "How many whole sets a machine reel of a diameter gives if all is wound equally hard.",
	Formula: []string{
		"N_x = (pow(D_j, 2) - pow(D_s, 2))/(pow(D_r, 2) - pow(D_c, 2))",
		"D_0 = sqrt(pow(D_j, 2) - N*(pow(D_r, 2) - pow(D_c, 2)))",
	},
	Method:  "sets are the whole part of exact-sets, in decimals",
	Source:  "areas of the rings of paper in ratio",
	Status:  calc.CommonPractice,
	Example: "jumbo-diameter=2300 mm; spool-diameter=600 mm; reel-diameter=1250 mm; core-diameter=100 mm",
	Mistakes: []string{
		"The jumbo is usually wound softer than the reels: at 2 % more thickness it holds 2 % less, and the last set comes out short.",
		"Nothing is taken off for slab and threading: reckon by length where that matters.",
	},
	Compare: []calc.Comparison{{
		Name:   "sets",
		Inputs: "jumbo-length=20817 m; reel-length=6555 m; lost-length=60 m",
		Why:    "by length it does not matter how hard either is wound, and what is lost is taken off",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  SetsByDiameter.compute,
	Fields: func(f *calc.Form, in *SetsByDiameter, out *SetsByDiameterResult) {
		calc.In(f, &in.JumboDiameter, "jumbo-diameter", "D_j", "mm", "of the machine reel, above spool-diameter")
		calc.In(f, &in.SpoolDiameter, "spool-diameter", "D_s", "mm", "of the machine reel").From(0)
		calc.In(f, &in.ReelDiameter, "reel-diameter", "D_r", "mm", "of a customer's reel, above core-diameter")
		calc.In(f, &in.CoreDiameter, "core-diameter", "D_c", "mm", "OUTSIDE of the core; order data give the inside").From(0)
		calc.Out(f, &out.Sets, "sets", "N", "1", "whole sets, if all is wound equally hard")
		calc.Out(f, &out.ExactSets, "exact-sets", "N_x", "1", "rings of paper in ratio, not rounded")
		calc.Out(f, &out.RestDiameter, "rest-diameter", "D_0", "mm", "left on the spool")
	},
}
