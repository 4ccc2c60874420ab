package stock

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// PipeSpeed is the mean speed in a round pipe.
type PipeSpeed struct {
	VolumeFlow paperprop.VolumeFlow // above zero
	Diameter   paperprop.Length     // inside, above zero
}

// PipeSpeedResult is that speed.
type PipeSpeedResult struct {
	Speed paperprop.Speed
}

// Calculate returns the speed 4Q/(πD²).
func (p PipeSpeed) Calculate() (PipeSpeedResult, error) { return pipeSpeed.Calculate(p) }

func (p PipeSpeed) compute() (PipeSpeedResult, error) {
	d := p.Diameter.In(paperprop.Metre)
	v := 4 * p.VolumeFlow.In(paperprop.CubicMetrePerHour) / (math.Pi * d * d) // m/h
	return PipeSpeedResult{paperprop.Speed(v/60) * paperprop.MetrePerMinute}, nil
}

var pipeSpeed = &calc.Description[PipeSpeed, PipeSpeedResult]{
	Name:    "pipe-speed",
	Title:   "Speed in a pipe",
	Answers: "How fast a flow goes through a round pipe, on average.",
	Formula: []string{"v = 4*Q/(pi*pow(D, 2))"},
	Source:  "definition of the mean speed",
	Status:  calc.CommonPractice,
	Example: "volume-flow=250 m3/h; diameter=250 mm",
	Mistakes: []string{
		"Inside diameter: 1 mm less in 100 mm is 2 % more speed and 5 % more friction of water.",
	},
	Compute: PipeSpeed.compute,
	Fields: func(f *calc.Form, in *PipeSpeed, out *PipeSpeedResult) {
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "m3/h", "through the pipe").Above(0)
		calc.In(f, &in.Diameter, "diameter", "D", "mm", "inside").Above(0)
		calc.Out(f, &out.Speed, "speed", "v", "m/s", "mean over the section")
	},
}

// dataBook is the source of the friction formulas. They are empirical: speeds in
// ft/s, diameters in inches, consistencies in per cent, losses in feet per 100
// feet.
const dataBook = "Engineering Data Book of the Hydraulic Institute, losses with paper stock"

// unitSpeed and unitDiameter let a formula line divide by the units in which
// its coefficients hold.
func unitSpeed(f *calc.Form) {
	one := paperprop.FootPerSecond
	calc.Between(f, &one, "v_1", "ft/s", "unit of speed of the coefficients")
}

func unitDiameter(f *calc.Form) {
	one := paperprop.Inch
	calc.Between(f, &one, "D_1", "in", "unit of diameter of the coefficients")
}

// PipeFriction is the head that stock loses in a pipe. The coefficients depend on
// the furnish; there are no defaults.
type PipeFriction struct {
	Speed               paperprop.Speed       // above zero, up to that of PipeFrictionLimit
	Diameter            paperprop.Length      // inside, above zero
	Consistency         paperprop.Consistency // oven-dry, 2 to 6 %
	FrictionFactor      paperprop.Ratio       // above zero: for ft/s, per cent, inches, feet per 100 feet
	SpeedExponent       paperprop.Ratio
	ConsistencyExponent paperprop.Ratio
	DiameterExponent    paperprop.Ratio
	FrictionCorrection  paperprop.Ratio // product of the corrections for temperature, pipe, furnish and safety, above zero; zero stands for 1
}

// PipeFrictionResult is the head lost over the length of the pipe.
type PipeFrictionResult struct {
	HeadLoss paperprop.Fraction
	Warnings calc.Warnings
}

// Calculate returns the head loss k_F·K·v^a·c^b·D^y, in the units of the source.
func (p PipeFriction) Calculate() (PipeFrictionResult, error) { return pipeFriction.Calculate(p) }

var dragReduced = calc.Warnings{{Code: "drag-reduced", Text: "faster than the onset of drag reduction (pipe-friction-onset): " +
	"the formula no longer holds, stock has less friction than water"}}

func (p PipeFriction) compute() (PipeFrictionResult, error) {
	v, d := p.Speed.In(paperprop.FootPerSecond), p.Diameter.In(paperprop.Inch)
	loss := float64(p.FrictionCorrection) * float64(p.FrictionFactor) * math.Pow(v, float64(p.SpeedExponent)) *
		math.Pow(100*float64(p.Consistency), float64(p.ConsistencyExponent)) * math.Pow(d, float64(p.DiameterExponent))
	r := PipeFrictionResult{HeadLoss: paperprop.Fraction(loss) * paperprop.MetrePer100Metre}
	if v > onset(p.Consistency) {
		r.Warnings = dragReduced
	}
	return r, nil
}

var pipeFriction = &calc.Description[PipeFriction, PipeFrictionResult]{
	Name:    "pipe-friction",
	Title:   "Friction of stock in a pipe",
	Answers: "How much head stock of 2 to 6 % loses in a pipe, with the coefficients of its furnish.",
	Formula: []string{"h_L = k_F*K*pow(v/v_1, a)*pow(100*c, b)*pow(D/D_1, y)/100"},
	Source: dataBook + ", formula and Table II (seen). K, a, b, y: kraft 11.40, 0.36, 1.89, -1.33; long-fibre kraft never dried " +
		"at 725 CSF 11.80, 0.31, 1.81, -1.34; stone groundwood at 114 CSF 3.81, 0.27, 2.37, -0.85; newsprint broke at 75 CSF 5.19, 0.36, 1.91, -0.82",
	Status: calc.Published,
	Example: "speed=1.4 m/s; diameter=250 mm; consistency=3 %; friction-factor=5.19; speed-exponent=0.36; " +
		"consistency-exponent=1.91; diameter-exponent=-0.82",
	Mistakes: []string{
		"It holds below the speed of pipe-friction-limit only.",
		"The factor belongs to ft/s, per cent, inches and feet per 100 feet: it can't be used with metres.",
		"Warm stock has less friction: the same book's factor 1.526 - 0.00556 T, T in degF (seen), is 0.998 at its 95 degF and 0.75 at 140 degF.",
	},
	Compare: []calc.Comparison{
		{
			Name:   "pipe-friction-water",
			Inputs: "speed=1.4 m/s; diameter=250 mm",
			Why:    "water alone at that speed",
		},
		{
			Inputs: "speed=1.4 m/s; diameter=250 mm; consistency=3 %; friction-factor=11.40; speed-exponent=0.36; " +
				"consistency-exponent=1.89; diameter-exponent=-1.33",
			Why: "another furnish of the same table: kraft",
		},
	},
	Compute: PipeFriction.compute,
	Fields: func(f *calc.Form, in *PipeFriction, out *PipeFrictionResult) {
		flowInPipe(f, &in.Speed, &in.Diameter)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "oven-dry; below 2 % take pipe-friction-water").From(2).UpTo(6)
		calc.In(f, &in.FrictionFactor, "friction-factor", "K", "1", "for ft/s, per cent, inches, ft/100ft; from the furnish table").Above(0)
		calc.In(f, &in.SpeedExponent, "speed-exponent", "a", "1", "from the furnish table")
		calc.In(f, &in.ConsistencyExponent, "consistency-exponent", "b", "1", "from the furnish table")
		calc.In(f, &in.DiameterExponent, "diameter-exponent", "y", "1", "from the furnish table")
		calc.In(f, &in.FrictionCorrection, "friction-correction", "k_F", "1", "for temperature, pipe, furnish, safety: one product").Above(0).Default(1)
		calc.Out(f, &out.HeadLoss, "head-loss", "h_L", "m/100m", "over the length of the pipe")
		unitSpeed(f)
		unitDiameter(f)
		f.Warnings(&out.Warnings)
	},
}

func flowInPipe(f *calc.Form, speed *paperprop.Speed, diameter *paperprop.Length) {
	calc.In(f, speed, "speed", "v", "m/s", "mean over the section, from pipe-speed").Above(0)
	calc.In(f, diameter, "diameter", "D", "mm", "inside").Above(0)
}

// PipeFrictionWater is the head that water loses in a pipe. Stock below 2 % is
// taken for water.
type PipeFrictionWater struct {
	Speed    paperprop.Speed  // above zero
	Diameter paperprop.Length // inside, above zero
}

// PipeFrictionWaterResult is the head lost over the length of the pipe.
type PipeFrictionWaterResult struct {
	HeadLoss paperprop.Fraction
}

// Calculate returns the head loss 0.58·v^1.75·D^−1.25, in the units of the source.
func (p PipeFrictionWater) Calculate() (PipeFrictionWaterResult, error) {
	return pipeFrictionWater.Calculate(p)
}

func (p PipeFrictionWater) compute() (PipeFrictionWaterResult, error) {
	v, d := p.Speed.In(paperprop.FootPerSecond), p.Diameter.In(paperprop.Inch)
	return PipeFrictionWaterResult{
		HeadLoss: paperprop.Fraction(0.58*math.Pow(v, 1.75)*math.Pow(d, -1.25)) * paperprop.MetrePer100Metre,
	}, nil
}

var pipeFrictionWater = &calc.Description[PipeFrictionWater, PipeFrictionWaterResult]{
	Name:    "pipe-friction-water",
	Title:   "Friction of water in a pipe",
	Answers: "How much head water loses in a pipe; stock below 2 % is reckoned the same.",
	Formula: []string{"h_L = 0.58*pow(v/v_1, 1.75)*pow(D/D_1, -1.25)/100"},
	Source:  dataBook + " (seen; its worked example lies 0.35 % below its formula)",
	Status:  calc.Published,
	Example: "speed=1.4 m/s; diameter=250 mm",
	Mistakes: []string{
		"Smooth pipe, no bends and valves, no allowance for age.",
		"The factor 0.58 belongs to ft/s, inches and feet per 100 feet.",
	},
	Compute: PipeFrictionWater.compute,
	Fields: func(f *calc.Form, in *PipeFrictionWater, out *PipeFrictionWaterResult) {
		flowInPipe(f, &in.Speed, &in.Diameter)
		calc.Out(f, &out.HeadLoss, "head-loss", "h_L", "m/100m", "over the length of the pipe")
		unitSpeed(f)
		unitDiameter(f)
	},
}

// PipeFrictionLimit is the speed up to which PipeFriction holds.
type PipeFrictionLimit struct {
	Consistency   paperprop.Consistency // oven-dry, 2 to 6 %
	LimitFactor   paperprop.Ratio       // above zero: for ft/s and per cent
	LimitExponent paperprop.Ratio
}

// PipeFrictionLimitResult is that speed.
type PipeFrictionLimitResult struct {
	Speed paperprop.Speed
}

// Calculate returns the speed K_m·c^σ, in ft/s with c in per cent.
func (p PipeFrictionLimit) Calculate() (PipeFrictionLimitResult, error) {
	return pipeFrictionLimit.Calculate(p)
}

func (p PipeFrictionLimit) compute() (PipeFrictionLimitResult, error) {
	v := float64(p.LimitFactor) * math.Pow(100*float64(p.Consistency), float64(p.LimitExponent))
	return PipeFrictionLimitResult{paperprop.Speed(v) * paperprop.FootPerSecond}, nil
}

var pipeFrictionLimit = &calc.Description[PipeFrictionLimit, PipeFrictionLimitResult]{
	Name:    "pipe-friction-limit",
	Title:   "Speed up to which pipe friction of stock holds",
	Answers: "Up to what speed the formula of pipe-friction holds for a furnish and a consistency.",
	Formula: []string{"v_max = K_m*pow(100*c, sigma)*v_1"},
	Source:  dataBook + " (seen, with a worked example)",
	Status:  calc.Published,
	Example: "consistency=3 %; limit-factor=0.59; limit-exponent=1.45",
	Mistakes: []string{
		"The factor belongs to ft/s and per cent, and to one furnish in one kind of pipe: 0.59 with 1.45 is the book's worked example, 0.98 with 1.2 kraft in copper pipe on a trade journal's page (seen); ask the book or the maker of the pump for others.",
		"Above this speed friction first falls as the plug comes off the wall: the formula would give too much (memory).",
	},
	Compute: PipeFrictionLimit.compute,
	Fields: func(f *calc.Form, in *PipeFrictionLimit, out *PipeFrictionLimitResult) {
		calc.In(f, &in.Consistency, "consistency", "c", "%", "oven-dry").From(2).UpTo(6)
		calc.In(f, &in.LimitFactor, "limit-factor", "K_m", "1", "for ft/s and per cent; from the furnish table").Above(0)
		calc.In(f, &in.LimitExponent, "limit-exponent", "sigma", "1", "from the furnish table")
		calc.Out(f, &out.Speed, "speed", "v_max", "m/s", "up to which pipe-friction holds")
		unitSpeed(f)
	},
}

// PipeFrictionOnset is the speed above which stock loses less head than water.
type PipeFrictionOnset struct {
	Consistency paperprop.Consistency // oven-dry, 2 to 6 %
}

// PipeFrictionOnsetResult is that speed.
type PipeFrictionOnsetResult struct {
	Speed paperprop.Speed
}

// Calculate returns the speed 4.00·c^1.40, in ft/s with c in per cent.
func (p PipeFrictionOnset) Calculate() (PipeFrictionOnsetResult, error) {
	return pipeFrictionOnset.Calculate(p)
}

func (p PipeFrictionOnset) compute() (PipeFrictionOnsetResult, error) {
	return PipeFrictionOnsetResult{paperprop.Speed(onset(p.Consistency)) * paperprop.FootPerSecond}, nil
}

// onset returns the speed at which drag reduction begins, in ft/s.
func onset(c paperprop.Consistency) float64 { return 4 * math.Pow(100*float64(c), 1.4) }

var pipeFrictionOnset = &calc.Description[PipeFrictionOnset, PipeFrictionOnsetResult]{
	Name:    "pipe-friction-onset",
	Title:   "Onset of drag reduction in a pipe",
	Answers: "Above what speed stock has less friction in a pipe than water has.",
	Formula: []string{"v_w = 4.00*pow(100*c, 1.40)*v_1"},
	Source:  dataBook + " (seen, with a worked example)",
	Status:  calc.Published,
	Example: "consistency=3 %",
	Mistakes: []string{
		"The factor is 4.00 for ft/s and 1.22 for m/s: 3 % begins at 18.6 ft/s, 5.7 m/s.",
	},
	Compute: PipeFrictionOnset.compute,
	Fields: func(f *calc.Form, in *PipeFrictionOnset, out *PipeFrictionOnsetResult) {
		calc.In(f, &in.Consistency, "consistency", "c", "%", "oven-dry").From(2).UpTo(6)
		calc.Out(f, &out.Speed, "speed", "v_w", "m/s", "above which stock has less friction than water")
		unitSpeed(f)
	},
}
