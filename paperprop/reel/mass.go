package reel

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Mass is the mass of a reel. Exactly two of Length, Diameter and ReelThickness are
// given; zero is not given.
type Mass struct {
	Length        paperprop.Length   // wound, above zero
	Diameter      paperprop.Length   // outside, above CoreDiameter
	ReelThickness paperprop.Length   // of a layer in the reel, at most half of Diameter − CoreDiameter
	CoreDiameter  paperprop.Length   // outside of the core
	ReelWidth     paperprop.Length   // above zero
	Grammage      paperprop.Grammage // at the moisture of the reel, above zero
}

// MassResult is the reel, and the mass of its paper.
type MassResult struct {
	Length        paperprop.Length
	Diameter      paperprop.Length
	ReelThickness paperprop.Length
	Mass          paperprop.Mass // without core and wrapping
	RollDensity   paperprop.Density
	Warnings      calc.Warnings
}

// Calculate returns the mass L·b·g, and the roll density g/t.
func (m Mass) Calculate() (MassResult, error) { return reelMass.Calculate(m) }

func (m Mass) compute() (MassResult, error) {
	wound, err := Reel{m.Length, m.Diameter, m.ReelThickness, m.CoreDiameter}.compute()
	if err != nil {
		return MassResult{}, err
	}
	g := m.Grammage.In(paperprop.GramPerSquareMetre)
	rho := 1000 * g / wound.ReelThickness.In(paperprop.Micrometre)
	mass := wound.Length.In(paperprop.Metre) * m.ReelWidth.In(paperprop.Metre) * g // g
	return MassResult{
		Length:        wound.Length,
		Diameter:      wound.Diameter,
		ReelThickness: wound.ReelThickness,
		Mass:          paperprop.Mass(mass/1000) * paperprop.Kilogram,
		RollDensity:   paperprop.Density(rho) * paperprop.KilogramPerCubicMetre,
		Warnings:      judgeDensity(rho),
	}, nil
}

var unlikelyDensity = calc.Warnings{{Code: "unlikely-roll-density", Text: "a roll density outside 300 to 1400 kg/m3 (memory): " +
	"thickness, grammage, mass or factor is wrong, unless it is tissue"}}

// judgeDensity warns of a roll density, in kg/m³, that paper does not have.
func judgeDensity(rho float64) calc.Warnings {
	if result.Outside(rho, 300, 1400) {
		return unlikelyDensity
	}
	return nil
}

var reelMass = &calc.Description[Mass, MassResult]{
	Name:    "reel-mass",
	Title:   "Mass and density of a reel",
	Answers: "What the paper of a reel weighs (roll weight), and how dense it is wound.",
	Formula: []string{
		"L = pi*(pow(D, 2) - pow(D_c, 2))/(4*t)",
		"D = sqrt(pow(D_c, 2) + 4*L*t/pi)",
		"t = pi*(pow(D, 2) - pow(D_c, 2))/(4*L)",
		"m = L*b*g",
		"rho = g/t",
	},
	Source:  "mass of a web; area of the ring of paper",
	Status:  calc.CommonPractice,
	Example: "diameter=1250 mm; core-diameter=100 mm; reel-thickness=186 um; reel-width=1080 mm; grammage=120 g/m2",
	Mistakes: []string{
		"The tester's thickness is of a relaxed sheet: with it and the diameter a reel comes out too short and too light, with it and the length too large.",
		"The grammage is that at the moisture of the reel: oven-dry it gives 8 % too little for a reel at 8 %.",
		"Core, plugs and wrapping are not paper; lifting gear carries them too.",
	},
	Compare: []calc.Comparison{{
		Name:   "reel-mass-by-factor",
		Inputs: "diameter=1250 mm; core-diameter=100 mm; reel-width=1080 mm; reel-factor=0.018 lb/in3",
		Why:    "the trade factor for antique, the lightest of three, stands for a roll density of 634 kg/m3; here it is g/t",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Mass.compute,
	Fields: func(f *calc.Form, in *Mass, out *MassResult) {
		twoOfThree(f, &in.Length, &in.Diameter, &in.ReelThickness, &in.CoreDiameter)
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at the moisture of the reel").Above(0)
		allThree(f, &out.Length, &out.Diameter, &out.ReelThickness)
		calc.Out(f, &out.Mass, "mass", "m", "kg", "paper only, without core and wrapping")
		calc.Out(f, &out.RollDensity, "roll-density", "rho", "kg/m3", "as wound")
		f.Warnings(&out.Warnings)
	},
}

// RollDensity is the density of a reel that was weighed and measured.
type RollDensity struct {
	Mass         paperprop.Mass     // paper only, above zero
	Diameter     paperprop.Length   // outside, above CoreDiameter
	CoreDiameter paperprop.Length   // outside of the core
	ReelWidth    paperprop.Length   // above zero
	Grammage     paperprop.Grammage // at the moisture of the reel, above zero
}

// RollDensityResult is the density of the winding, and the thickness of a layer.
type RollDensityResult struct {
	RollDensity   paperprop.Density
	ReelThickness paperprop.Length // of a layer in the reel
	Length        paperprop.Length
	Warnings      calc.Warnings
}

// Calculate returns the mass over the volume of the ring, and from that the
// thickness g/ρ.
func (d RollDensity) Calculate() (RollDensityResult, error) { return rollDensity.Calculate(d) }

func (d RollDensity) compute() (RollDensityResult, error) {
	if err := aboveCore("diameter", d.Diameter, d.CoreDiameter); err != nil {
		return RollDensityResult{}, err
	}
	m, b, g := d.Mass.In(paperprop.Kilogram), d.ReelWidth.In(paperprop.Metre), d.Grammage.In(paperprop.GramPerSquareMetre)
	rho := m / (ring(d.Diameter.In(paperprop.Metre), d.CoreDiameter.In(paperprop.Metre)) * b)
	return RollDensityResult{
		RollDensity:   paperprop.Density(rho) * paperprop.KilogramPerCubicMetre,
		ReelThickness: paperprop.Length(1000*g/rho) * paperprop.Micrometre,
		Length:        paperprop.Length(1000*m/(b*g)) * paperprop.Metre,
		Warnings:      judgeDensity(rho),
	}, nil
}

var rollDensity = &calc.Description[RollDensity, RollDensityResult]{
	Name:    "roll-density",
	Title:   "Density of a reel and thickness in it",
	Answers: "How dense a weighed reel is wound, and how thick a layer is in it.",
	Formula: []string{"rho = 4*m/(pi*(pow(D, 2) - pow(D_c, 2))*b)", "t = g/rho", "L = m/(b*g)"},
	Source:  "mass over the volume of the ring of paper",
	Status:  calc.CommonPractice,
	Example: "mass=1018 kg; diameter=1250 mm; core-diameter=100 mm; reel-width=1080 mm; grammage=140 g/m2",
	Mistakes: []string{
		"Take the thickness for length and diameter from here, not from the tester.",
		"A scale shows core, plugs and wrapping too: take them off first.",
	},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  RollDensity.compute,
	Fields: func(f *calc.Form, in *RollDensity, out *RollDensityResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "paper only, without core and wrapping").Above(0)
		ringOfPaper(f, &in.Diameter, &in.CoreDiameter, "outside")
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at the moisture of the reel").Above(0)
		calc.Out(f, &out.RollDensity, "roll-density", "rho", "kg/m3", "mass over the volume of the ring")
		thicknessInReel(f, &out.ReelThickness)
		calc.Out(f, &out.Length, "length", "L", "m", "wound")
		f.Warnings(&out.Warnings)
	},
}

// CompressionFactor compares the loose sheet with a layer in the reel.
type CompressionFactor struct {
	Thickness     paperprop.Length // of the loose sheet, as tested, above zero
	ReelThickness paperprop.Length // in the reel, above zero
}

// CompressionFactorResult is how much winding compresses the sheet.
type CompressionFactorResult struct {
	CompressionFactor paperprop.Ratio
	Warnings          calc.Warnings
}

// Calculate returns the thickness as tested over that in the reel.
func (c CompressionFactor) Calculate() (CompressionFactorResult, error) {
	return compressionFactor.Calculate(c)
}

var unlikelyCompression = calc.Warnings{{Code: "unlikely-compression", Text: "a compression factor outside 0.8 to 1.5 (memory): " +
	"one of the two thicknesses is wrong"}}

func (c CompressionFactor) compute() (CompressionFactorResult, error) {
	k := float64(c.Thickness / c.ReelThickness)
	r := CompressionFactorResult{CompressionFactor: paperprop.Ratio(k)}
	if result.Outside(k, 0.8, 1.5) {
		r.Warnings = unlikelyCompression
	}
	return r, nil
}

var compressionFactor = &calc.Description[CompressionFactor, CompressionFactorResult]{
	Name:    "compression-factor",
	Title:   "Compression of the sheet in the reel",
	Answers: "How much thicker the tester finds the loose sheet than it lies in the reel.",
	Formula: []string{"k_t = t_s/t"},
	Source:  "definition; 1.00 to 1.10 is typical, soft bulky grades more (memory)",
	Status:  calc.CommonPractice,
	Example: "thickness=195 um; reel-thickness=186 um",
	Mistakes: []string{
		"Below 1 the factor is not a compression: air was wound in, or the grammage was at another moisture than the mass.",
		"A factor holds for a grade on a winder, not for paper: find it from a weighed reel.",
	},
	Compute: CompressionFactor.compute,
	Fields: func(f *calc.Form, in *CompressionFactor, out *CompressionFactorResult) {
		calc.In(f, &in.Thickness, "thickness", "t_s", "um", "of the loose sheet, by the tester (caliper)").Above(0)
		calc.In(f, &in.ReelThickness, "reel-thickness", "t", "um", "of a layer in the reel").Above(0)
		calc.Out(f, &out.CompressionFactor, "compression-factor", "k_t", "1", "tester over reel")
		f.Warnings(&out.Warnings)
	},
}

// Length is the length of a reel of known mass.
type Length struct {
	Mass      paperprop.Mass     // paper only, above zero
	ReelWidth paperprop.Length   // above zero
	Grammage  paperprop.Grammage // at the moisture of the reel, above zero
}

// LengthResult is the web that a mass of paper makes.
type LengthResult struct {
	Length paperprop.Length
	Area   paperprop.Area
}

// Calculate returns the length m/(b·g) and the area m/g.
func (l Length) Calculate() (LengthResult, error) { return reelLength.Calculate(l) }

func (l Length) compute() (LengthResult, error) {
	area := l.Mass.In(paperprop.Gram) / l.Grammage.In(paperprop.GramPerSquareMetre) // m²
	return LengthResult{
		Length: paperprop.Length(area/l.ReelWidth.In(paperprop.Metre)) * paperprop.Metre,
		Area:   paperprop.Area(area) * paperprop.SquareMetre,
	}, nil
}

var reelLength = &calc.Description[Length, LengthResult]{
	Name:    "reel-length",
	Title:   "Length of a reel from its mass",
	Answers: "How long a web and how large an area a mass of paper is.",
	Formula: []string{"A = m/g", "L = A/b"},
	Source:  "definition; printed in a printing-trade sheet of paper arithmetic as m = 100 000 kg/(cm x g/m2)",
	Status:  calc.Published,
	Example: "mass=850 kg; reel-width=1080 mm; grammage=120 g/m2",
	Mistakes: []string{
		"The printed constant 41.7 for pounds and inches is 500/12 = 41.667 rounded, 0.08 % too long, and holds for reams of 500 sheets only.",
		"Core, plugs and wrapping are not paper.",
	},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Length.compute,
	Fields: func(f *calc.Form, in *Length, out *LengthResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "paper only").Above(0)
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at the moisture of the reel").Above(0)
		calc.Out(f, &out.Length, "length", "L", "m", "mass over width and grammage")
		calc.Out(f, &out.Area, "area", "A", "m2", "mass over grammage")
	},
}

// MassByFactor is the mass of a reel by a trade factor.
type MassByFactor struct {
	Diameter     paperprop.Length  // outside, above CoreDiameter
	CoreDiameter paperprop.Length  // outside of the core
	ReelWidth    paperprop.Length  // above zero
	ReelFactor   paperprop.Density // π/4 times a roll density, above zero
}

// MassByFactorResult is the mass by the factor, and the roll density behind it.
type MassByFactorResult struct {
	Mass        paperprop.Mass
	RollDensity paperprop.Density // that the factor stands for
	Warnings    calc.Warnings
}

// Calculate returns the mass k_r·(D² − D_c²)·b.
func (m MassByFactor) Calculate() (MassByFactorResult, error) { return massByFactor.Calculate(m) }

func (m MassByFactor) compute() (MassByFactorResult, error) {
	if err := aboveCore("diameter", m.Diameter, m.CoreDiameter); err != nil {
		return MassByFactorResult{}, err
	}
	rho := 4 / math.Pi * m.ReelFactor.In(paperprop.KilogramPerCubicMetre)
	mass := massOf(rho, m.Diameter, m.CoreDiameter, m.ReelWidth)
	return MassByFactorResult{
		Mass:        paperprop.Mass(mass) * paperprop.Kilogram,
		RollDensity: paperprop.Density(rho) * paperprop.KilogramPerCubicMetre,
		Warnings:    judgeDensity(rho),
	}, nil
}

// massOf returns the mass in kg of a reel of the given density in kg/m³.
func massOf(rho float64, diameter, core, width paperprop.Length) float64 {
	return rho * ring(diameter.In(paperprop.Metre), core.In(paperprop.Metre)) * width.In(paperprop.Metre)
}

var massByFactor = &calc.Description[MassByFactor, MassByFactorResult]{
	Name:    "reel-mass-by-factor",
	Title:   "Mass of a reel by a factor of the trade",
	Answers: "What a reel weighs by the rule of the trade that squares the diameters, and what density that rule takes it to have.",
	Formula: []string{"m = k_r*(pow(D, 2) - pow(D_c, 2))*b", "rho = 4*k_r/pi"},
	Source:  "printing-trade sheet of paper arithmetic: antique 0.018, bond 0.021, ledger 0.023 lb/in3; that a factor is pi/4 times a roll density follows",
	Status:  calc.Published,
	Example: "diameter=1250 mm; core-diameter=100 mm; reel-width=1080 mm; reel-factor=0.018 lb/in3",
	Mistakes: []string{
		"A factor stands for one roll density (634, 740 and 811 kg/m3): board wound otherwise is out by as much.",
		"The factors are for inches and pounds; the unit goes with the number.",
	},
	Compare: []calc.Comparison{{
		Name:   "reel-mass",
		Inputs: "diameter=1250 mm; core-diameter=100 mm; reel-thickness=186 um; reel-width=1080 mm; grammage=120 g/m2",
		Why:    "takes the density of the reel itself, g/t, in place of a factor",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  MassByFactor.compute,
	Fields: func(f *calc.Form, in *MassByFactor, out *MassByFactorResult) {
		ringOfPaper(f, &in.Diameter, &in.CoreDiameter, "outside")
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		calc.In(f, &in.ReelFactor, "reel-factor", "k_r", "lb/in3", "of the trade: antique 0.018, bond 0.021, ledger 0.023").Above(0).Label()
		calc.Out(f, &out.Mass, "mass", "m", "kg", "by the rule of the trade")
		calc.Out(f, &out.RollDensity, "roll-density", "rho", "kg/m3", "that the factor stands for")
		f.Warnings(&out.Warnings)
	},
}
