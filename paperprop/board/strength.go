package board

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Burst is an estimate of the burst of a board from that of its papers.
type Burst struct {
	LinerBurst   []paperprop.Pressure // of each liner, above zero
	FlutingBurst []paperprop.Pressure // of each fluting, above zero; may be empty
	FlutingShare paperprop.Fraction   // of the flutings' burst that counts, 0 to 100 %
}

// BurstResult is the burst to expect.
type BurstResult struct {
	BurstStrength paperprop.Pressure
}

// Calculate returns the burst Σp_l + x·Σp_f.
func (b Burst) Calculate() (BurstResult, error) { return boardBurst.Calculate(b) }

func (b Burst) compute() (BurstResult, error) {
	var liners, flutings float64
	for _, p := range b.LinerBurst {
		liners += p.In(paperprop.Kilopascal)
	}
	for _, p := range b.FlutingBurst {
		flutings += p.In(paperprop.Kilopascal)
	}
	return BurstResult{paperprop.Pressure(liners+float64(b.FlutingShare)*flutings) * paperprop.Kilopascal}, nil
}

var boardBurst = &calc.Description[Burst, BurstResult]{
	Name:    "board-burst",
	Title:   "Burst strength of board from its papers",
	Answers: "What burst strength to expect of the papers of a board, by a rule of thumb.",
	Formula: []string{"p = sum(p_l) + x*sum(p_f)"},
	Source: "a box-makers association's Q&A: two liners of 100 psi make 200 psi, the fluting counts nothing (seen); " +
		"an Indian practice adds a third of the fluting (seen in the same place)",
	Status:  calc.Published,
	Example: "liner-burst=[520 480] kPa; fluting-burst=[240] kPa",
	Mistakes: []string{
		"A rule of thumb, not a law: glue, flute and moisture move the burst of the board.",
		"Say which rule was used: with a third of a fluting of 240 kPa the same board has 80 kPa more.",
	},
	Compare: []calc.Comparison{{
		Inputs: "liner-burst=[520 480] kPa; fluting-burst=[240] kPa; fluting-share=33.3333333333 %",
		Why:    "the practice that counts a third of the fluting",
	}},
	Compute: Burst.compute,
	Fields: func(f *calc.Form, in *Burst, out *BurstResult) {
		calc.InList(f, &in.LinerBurst, "liner-burst", "p_l", "kPa", "of each liner").Above(0)
		calc.InList(f, &in.FlutingBurst, "fluting-burst", "p_f", "kPa", "of each fluting; left out, nothing of it counts").Above(0).Optional()
		calc.In(f, &in.FlutingShare, "fluting-share", "x", "%", "of the flutings' burst that counts: none, or a third in Indian practice").
			From(0).UpTo(100).Default(0)
		calc.Out(f, &out.BurstStrength, "burst-strength", "p", "kPa", "by the rule of thumb").Unreported(estimated)
	},
}

// SandwichStiffness is the bending stiffness of two liners held at a distance.
type SandwichStiffness struct {
	LinerStiffness []paperprop.ForcePerLength // tensile stiffness of the two liners, above zero
	LinerDistance  paperprop.Length           // middle to middle, above zero
}

// SandwichStiffnessResult is the bending stiffness per width.
type SandwichStiffnessResult struct {
	BendingStiffness paperprop.BendingStiffness
}

// Calculate returns the stiffness E_t1·E_t2/(E_t1 + E_t2)·h², neglecting the core.
func (s SandwichStiffness) Calculate() (SandwichStiffnessResult, error) {
	return sandwichStiffness.Calculate(s)
}

func (s SandwichStiffness) compute() (SandwichStiffnessResult, error) {
	if n := len(s.LinerStiffness); n != 2 {
		return SandwichStiffnessResult{}, calc.Refuse("liner-stiffness", calc.Members(n), "2, one for each liner")
	}
	top, bottom := s.LinerStiffness[0].In(paperprop.KilonewtonPerMetre), s.LinerStiffness[1].In(paperprop.KilonewtonPerMetre)
	h := s.LinerDistance.In(paperprop.Millimetre)
	// kN/m times mm² is mN·m.
	return SandwichStiffnessResult{paperprop.BendingStiffness(top*bottom/(top+bottom)*h*h) * paperprop.MillinewtonMetre}, nil
}

var sandwichStiffness = &calc.Description[SandwichStiffness, SandwichStiffnessResult]{
	Name:    "sandwich-stiffness",
	Title:   "Bending stiffness of a sandwich",
	Answers: "How stiff two liners are against bending when a core holds them apart.",
	Formula: []string{"S_b = pow(h, 2)/sum(1/E_t)"},
	Method:  "for two liners 1/sum(1/E_t) is E_t1*E_t2/(E_t1 + E_t2); the neutral axis lies nearer to the stiffer one, the core does not count",
	Source:  "beam theory",
	Status:  calc.Memory,
	Example: "liner-stiffness=[950 870] kN/m; liner-distance=3.9 mm",
	Mistakes: []string{
		"The distance is from middle to middle of the liners, not the thickness of the board; it counts by its square.",
		"Fluting and shear leave a measured stiffness off this one, most of all across short spans.",
	},
	Compute: SandwichStiffness.compute,
	Fields: func(f *calc.Form, in *SandwichStiffness, out *SandwichStiffnessResult) {
		calc.InList(f, &in.LinerStiffness, "liner-stiffness", "E_t", "kN/m", "tensile stiffness of the two liners").Above(0)
		calc.In(f, &in.LinerDistance, "liner-distance", "h", "mm", "middle to middle of the liners").Above(0)
		calc.Out(f, &out.BendingStiffness, "bending-stiffness", "S_b", "N.m", "per width, without the core")
	},
}

// A MoistureRule says how the loss over several points of moisture adds up.
type MoistureRule string

// The two readings of "8 % per point". After two points the first leaves 84 %, the
// second 84.64 %.
const (
	RuleLinear   MoistureRule = "linear"   // S(1 − x·n): each point takes a share of the initial strength
	RuleCompound MoistureRule = "compound" // S(1 − x)ⁿ: each point takes a share of what is left
)

// StrengthAtMoisture restates a compression strength at another moisture.
type StrengthAtMoisture struct {
	Strength     paperprop.ForcePerLength // at the initial moisture, above zero
	MoistureGain paperprop.Fraction       // in points, -100 to 100 %; below zero if the paper dries
	LossPerPoint *paperprop.Fraction      // of the strength, 0 to below 100 %; nil stands for 8 %
	Rule         MoistureRule
}

// StrengthAtMoistureResult is the strength at the new moisture.
type StrengthAtMoistureResult struct {
	ToStrength paperprop.ForcePerLength
}

// Calculate returns the strength S(1 − x·n) or S(1 − x)ⁿ, for n points.
func (s StrengthAtMoisture) Calculate() (StrengthAtMoistureResult, error) {
	return strengthAtMoisture.Calculate(s)
}

func (s StrengthAtMoisture) compute() (StrengthAtMoistureResult, error) {
	points, loss := s.MoistureGain.In(paperprop.Percent), float64(*s.LossPerPoint)
	left := result.Rest(1, loss*points)
	if s.Rule == RuleCompound {
		left = math.Pow(1-loss, points)
	}
	if left <= 0 {
		return StrengthAtMoistureResult{}, calc.Refuse("moisture-gain", s.MoistureGain, "below %v: nothing of the strength is left",
			paperprop.Fraction(1/loss)*paperprop.Percent)
	}
	return StrengthAtMoistureResult{paperprop.ForcePerLength(left*s.Strength.In(paperprop.KilonewtonPerMetre)) * paperprop.KilonewtonPerMetre}, nil
}

var strengthAtMoisture = &calc.Description[StrengthAtMoisture, StrengthAtMoistureResult]{
	Name:    "strength-at-moisture",
	Title:   "Compression strength at another moisture",
	Answers: "What a compression strength becomes when the paper takes up or loses moisture.",
	Formula: []string{
		"n = 100*dw",
		"linear: S_to = S*(1 - x*n)",
		"compound: S_to = S*pow(1 - x, n)",
	},
	Source:  "a containerboard producer's page on quality tests: one point more moisture takes about 8 % (seen), for 50 to 60 % relative humidity",
	Status:  calc.CommonPractice,
	Example: "strength=2.5 kN/m; moisture-gain=2 %; rule=linear",
	Mistakes: []string{
		"The 8 % was found over one point of moisture: over several the two rules part, at 5 points 60 % against 66 % left.",
		"A gain of 2 % is from 7.5 % to 9.5 % moisture, not to 7.65 %.",
	},
	Compare:  []calc.Comparison{{Inputs: "strength=2.5 kN/m; moisture-gain=2 %; rule=compound", Why: "each point takes its share of what is left"}},
	Cautions: []*calc.Caution{&stackedLoad},
	Compute:  StrengthAtMoisture.compute,
	Fields: func(f *calc.Form, in *StrengthAtMoisture, out *StrengthAtMoistureResult) {
		calc.In(f, &in.Strength, "strength", "S", "kN/m", "at the moisture now").Above(0)
		calc.In(f, &in.MoistureGain, "moisture-gain", "dw", "%", "points of moisture; below zero the paper dries").From(-100).UpTo(100)
		calc.Pointer(f, &in.LossPerPoint, "loss-per-point", "x", "%", "of strength per point of moisture").From(0).Below(100).Default(8)
		calc.InWord(f, &in.Rule, "rule", "how points add up: S(1 - x*n), or S(1 - x)^n", RuleLinear, RuleCompound)
		calc.Out(f, &out.ToStrength, "to-strength", "S_to", "kN/m", "at the moisture after").Unreported(estimated)
	},
}
