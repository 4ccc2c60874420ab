package reel

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Left is a partly used reel.
type Left struct {
	Length       paperprop.Length // of the full reel, above zero
	Diameter     paperprop.Length // of the full reel, above CoreDiameter
	CoreDiameter paperprop.Length // outside of the core
	LeftDiameter paperprop.Length // now: CoreDiameter to Diameter
}

// LeftResult is the paper still on the core.
type LeftResult struct {
	LeftLength paperprop.Length
	LeftShare  paperprop.Fraction
}

// Calculate compares the rings of paper. The thickness cancels if it is the same
// throughout the reel.
func (l Left) Calculate() (LeftResult, error) { return reelLeft.Calculate(l) }

func (l Left) compute() (LeftResult, error) {
	share, err := shareLeft(l.LeftDiameter, l.Diameter, l.CoreDiameter)
	return LeftResult{
		LeftLength: paperprop.Length(l.Length.In(paperprop.Metre)*share) * paperprop.Metre,
		LeftShare:  paperprop.Fraction(share),
	}, err
}

// shareLeft returns the present ring of paper over that of the full reel.
func shareLeft(now, full, core paperprop.Length) (float64, error) {
	if err := aboveCore("diameter", full, core); err != nil {
		return 0, err
	}
	if now < core || now > full {
		return 0, calc.Refuse("left-diameter", now, "core-diameter %v to diameter %v", core, full)
	}
	inner := core.In(paperprop.Millimetre)
	return ring(now.In(paperprop.Millimetre), inner) / ring(full.In(paperprop.Millimetre), inner), nil
}

var reelLeft = &calc.Description[Left, LeftResult]{
	Name:     "reel-left",
	Title:    "Length left on a reel",
	Answers:  "How much paper a reel of a smaller diameter than full (a butt roll) still holds.",
	Formula:  []string{"x_l = (pow(D_l, 2) - pow(D_c, 2))/(pow(D, 2) - pow(D_c, 2))", "L_l = L*x_l"},
	Source:   "areas of the rings of paper in ratio",
	Status:   calc.CommonPractice,
	Example:  "length=4800 m; diameter=1200 mm; core-diameter=100 mm; left-diameter=700 mm",
	Mistakes: []string{"Half the diameter is a quarter of the paper, not half, and less where the core is large: 2500 mm on a core of 650 keep 19.6 % at 1250."},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Left.compute,
	Fields: func(f *calc.Form, in *Left, out *LeftResult) {
		fullAndNow(f, &in.Length, &in.Diameter, &in.CoreDiameter, &in.LeftDiameter)
		left(f, &out.LeftLength, &out.LeftShare)
	},
}

// fullAndNow binds a full reel and its present diameter.
func fullAndNow(f *calc.Form, length, diameter, core, now *paperprop.Length) {
	calc.In(f, length, "length", "L", "m", "of the full reel").Above(0)
	ringOfPaper(f, diameter, core, "of the full reel")
	calc.In(f, now, "left-diameter", "D_l", "mm", "now, core-diameter to diameter").Varied()
}

func left(f *calc.Form, length *paperprop.Length, share *paperprop.Fraction) {
	calc.Out(f, length, "left-length", "L_l", "m", "rings of paper in ratio")
	calc.Out(f, share, "left-share", "x_l", "%", "of the full reel")
}

// RunOut is a reel that is being used up.
type RunOut struct {
	Length       paperprop.Length   // of the full reel, above zero
	Diameter     paperprop.Length   // of the full reel, above CoreDiameter
	CoreDiameter paperprop.Length   // outside of the core
	LeftDiameter paperprop.Length   // now: CoreDiameter to Diameter
	ReelWidth    paperprop.Length   // above zero
	Grammage     paperprop.Grammage // at the moisture of the reel, above zero
	Speed        paperprop.Speed    // above zero
}

// RunOutResult is the paper left, and how long it lasts.
type RunOutResult struct {
	LeftLength paperprop.Length
	LeftShare  paperprop.Fraction
	LeftMass   paperprop.Mass // paper only
	LeftTime   paperprop.Duration
}

// Calculate compares the rings of paper, as [Left] does, and runs off the rest at
// the given speed.
func (r RunOut) Calculate() (RunOutResult, error) { return runOut.Calculate(r) }

func (r RunOut) compute() (RunOutResult, error) {
	share, err := shareLeft(r.LeftDiameter, r.Diameter, r.CoreDiameter)
	length := r.Length.In(paperprop.Metre) * share
	mass := length * r.ReelWidth.In(paperprop.Metre) * r.Grammage.In(paperprop.GramPerSquareMetre) // g
	return RunOutResult{
		LeftLength: paperprop.Length(length) * paperprop.Metre,
		LeftShare:  paperprop.Fraction(share),
		LeftMass:   paperprop.Mass(mass/1000) * paperprop.Kilogram,
		LeftTime:   paperprop.Duration(length/r.Speed.In(paperprop.MetrePerMinute)) * paperprop.Minute,
	}, err
}

var runOut = &calc.Description[RunOut, RunOutResult]{
	Name:    "reel-run-out",
	Title:   "Length, mass and time left on a reel",
	Answers: "How long a reel on the unwind will last, and what it still weighs.",
	Formula: []string{
		"x_l = (pow(D_l, 2) - pow(D_c, 2))/(pow(D, 2) - pow(D_c, 2))",
		"L_l = L*x_l",
		"m_l = L_l*b*g",
		"tau_l = L_l/v",
	},
	Source:  "areas of the rings of paper in ratio; mass of a web",
	Status:  calc.CommonPractice,
	Example: "length=6556 m; diameter=1250 mm; core-diameter=100 mm; left-diameter=700 mm; reel-width=1080 mm; grammage=120 g/m2; speed=300 m/min",
	Mistakes: []string{
		"Half the diameter is a quarter of the paper or less, not half: the end comes sooner than it looks.",
		"Time and mass run to the bare core; a splice needs some metres more.",
	},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  RunOut.compute,
	Fields: func(f *calc.Form, in *RunOut, out *RunOutResult) {
		fullAndNow(f, &in.Length, &in.Diameter, &in.CoreDiameter, &in.LeftDiameter)
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at the moisture of the reel").Above(0)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "at which it runs off").Above(0)
		left(f, &out.LeftLength, &out.LeftShare)
		calc.Out(f, &out.LeftMass, "left-mass", "m_l", "kg", "paper only")
		calc.Out(f, &out.LeftTime, "left-time", "tau_l", "min", "to the bare core")
	},
}
