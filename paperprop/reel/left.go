package reel

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Left is a reel that was partly used.
type Left struct {
	Length       paperprop.Length // of the full reel, above zero
	Diameter     paperprop.Length // of the full reel, above CoreDiameter
	CoreDiameter paperprop.Length // outside of the core
	LeftDiameter paperprop.Length // now: CoreDiameter to Diameter
}

// LeftResult is what is still on the core.
type LeftResult struct {
	LeftLength paperprop.Length
	LeftShare  paperprop.Fraction
}

// Calculate takes the rings of paper in ratio: the thickness cancels if it is
// even through the reel.
func (l Left) Calculate() (LeftResult, error) { return reelLeft.Calculate(l) }

func (l Left) compute() (LeftResult, error) {
	if l.Diameter <= l.CoreDiameter {
		return LeftResult{}, calc.Refuse("diameter", l.Diameter, "above core-diameter %v", l.CoreDiameter)
	}
	if l.LeftDiameter < l.CoreDiameter || l.LeftDiameter > l.Diameter {
		return LeftResult{}, calc.Refuse("left-diameter", l.LeftDiameter, "core-diameter %v to diameter %v", l.CoreDiameter, l.Diameter)
	}
	full, core := l.Diameter.In(paperprop.Millimetre), l.CoreDiameter.In(paperprop.Millimetre)
	share := ring(l.LeftDiameter.In(paperprop.Millimetre), core) / ring(full, core)
	return LeftResult{
		LeftLength: paperprop.Length(l.Length.In(paperprop.Metre)*share) * paperprop.Metre,
		LeftShare:  paperprop.Fraction(share),
	}, nil
}

var reelLeft = &calc.Description[Left, LeftResult]{
	Name:     "reel-left",
	Title:    "Length left on a reel",
	Answers:  "How much paper a reel of a smaller diameter than full still holds.",
	Formula:  []string{"x_l = (pow(D_l, 2) - pow(D_c, 2))/(pow(D, 2) - pow(D_c, 2))", "L_l = L*x_l"},
	Source:   "areas of the rings of paper in ratio",
	Status:   calc.CommonPractice,
	Example:  "length=4800 m; diameter=1200 mm; core-diameter=100 mm; left-diameter=700 mm",
	Mistakes: []string{"Half the diameter is a quarter of the paper, not half."},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Left.compute,
	Fields: func(f *calc.Form, in *Left, out *LeftResult) {
		calc.In(f, &in.Length, "length", "L", "m", "of the full reel").Above(0)
		calc.In(f, &in.Diameter, "diameter", "D", "mm", "of the full reel")
		calc.In(f, &in.CoreDiameter, "core-diameter", "D_c", "mm", "OUTSIDE of the core").From(0)
		calc.In(f, &in.LeftDiameter, "left-diameter", "D_l", "mm", "now")
		calc.Out(f, &out.LeftLength, "left-length", "L_l", "m", "rings of paper in ratio")
		calc.Out(f, &out.LeftShare, "left-share", "x_l", "%", "of the full reel")
	},
}
