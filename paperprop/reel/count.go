package reel

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Count is an order by mass to be met with whole reels of one diameter.
type Count struct {
	OrderedMass  paperprop.Mass     // above zero
	ReelWidth    paperprop.Length   // above zero
	Diameter     paperprop.Length   // outside, above CoreDiameter
	CoreDiameter paperprop.Length   // outside of the core
	RollDensity  paperprop.Density  // above zero
	UnderRun     paperprop.Fraction // allowed below OrderedMass: 0 to below 100 %
	OverRun      paperprop.Fraction // allowed above OrderedMass
}

// CountResult is the numbers of reels that the order allows.
type CountResult struct {
	ReelMass     paperprop.Mass  // of a reel, paper only
	ExactReels   paperprop.Ratio // not rounded
	FewestReels  paperprop.Count
	MostReels    paperprop.Count
	NearestReels paperprop.Count // of those allowed, the one nearest the order; the fewer of two equally near
	NearestMass  paperprop.Mass
	Warnings     calc.Warnings
}

// Calculate returns all whole numbers n with m(1 − under) ≤ n·m₁ ≤ m(1 + over). If
// there is none, the error names the nearest two.
func (c Count) Calculate() (CountResult, error) { return reelCount.Calculate(c) }

func (c Count) compute() (CountResult, error) {
	if err := aboveCore("diameter", c.Diameter, c.CoreDiameter); err != nil {
		return CountResult{}, err
	}
	ordered := c.OrderedMass.In(paperprop.Kilogram)
	rho := c.RollDensity.In(paperprop.KilogramPerCubicMetre)
	one := massOf(rho, c.Diameter, c.CoreDiameter, c.ReelWidth)
	exact := ordered / one
	fewest, most := wholeUp(exact*(1-float64(c.UnderRun))), wholeDown(exact*(1+float64(c.OverRun)))
	if fewest > most {
		below := max(1, wholeDown(exact)) // zero reels is not a choice
		return CountResult{}, calc.Refuse("ordered-mass", c.OrderedMass,
			"what whole reels make within under-run and over-run; the nearest are %v with %v and %v with %v",
			paperprop.Count(below), paperprop.Mass(below*one)*paperprop.Kilogram,
			paperprop.Count(below+1), paperprop.Mass((below+1)*one)*paperprop.Kilogram)
	}
	nearest := min(max(wholeUp(exact-0.5), fewest), most)
	return CountResult{
		ReelMass:     paperprop.Mass(one) * paperprop.Kilogram,
		ExactReels:   paperprop.Ratio(exact),
		FewestReels:  paperprop.Count(fewest),
		MostReels:    paperprop.Count(most),
		NearestReels: paperprop.Count(nearest),
		NearestMass:  paperprop.Mass(nearest*one) * paperprop.Kilogram,
		Warnings:     judgeDensity(rho),
	}, nil
}

// snapped rounds a number of reels that lies within 1e-9 of a whole one. The mass
// of a reel contains π, so decimals cannot decide.
func snapped(x float64) float64 {
	if n := math.Round(x); math.Abs(x-n) <= 1e-9*math.Abs(x) {
		return n
	}
	return x
}

func wholeUp(x float64) float64   { return math.Ceil(snapped(x)) }
func wholeDown(x float64) float64 { return math.Floor(snapped(x)) }

const wholeReels = "a number within 1e-9 of a whole one counts as whole, so that no reel turns on the last digit"

var reelCount = &calc.Description[Count, CountResult]{
	Name:    "reel-count",
	Title:   "Whole reels for an ordered mass",
	Answers: "How many reels of a diameter an order by mass takes, with the under-run and over-run that it allows.",
	Formula: []string{"m_1 = pi/4*rho*(pow(D, 2) - pow(D_c, 2))*b", "n_x = m_o/m_1", "m_n = n_1*m_1"},
	Method: "fewest is n_x*(1 - x_u) rounded up, most n_x*(1 + x_o) rounded down, " +
		"nearest the whole number between them that is nearest to n_x; " + wholeReels,
	Source:  "rule of the trade; tolerances are the order's",
	Status:  calc.CommonPractice,
	Example: "ordered-mass=12 t; reel-width=1080 mm; diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3; under-run=10 %; over-run=10 %",
	Mistakes: []string{
		"The nearest whole number may lie outside the tolerance: without under-run it is rounded up.",
		"Take the roll density from weighed reels: 5 % on it is a reel in twenty.",
	},
	Compare: []calc.Comparison{{
		Name:   "reel-count-by-diameter",
		Inputs: "ordered-mass=12 t; reel-width=1080 mm; least-diameter=1150 mm; most-diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3",
		Why:    "where the diameter may give way, whole reels make the ordered mass exactly",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  Count.compute,
	Fields: func(f *calc.Form, in *Count, out *CountResult) {
		calc.In(f, &in.OrderedMass, "ordered-mass", "m_o", "t", "of this width").Above(0)
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		ringOfPaper(f, &in.Diameter, &in.CoreDiameter, "outside")
		calc.In(f, &in.RollDensity, "roll-density", "rho", "kg/m3", "as wound").Above(0)
		calc.In(f, &in.UnderRun, "under-run", "x_u", "%", "allowed below ordered-mass").From(0).Below(100)
		calc.In(f, &in.OverRun, "over-run", "x_o", "%", "allowed above ordered-mass").From(0)
		calc.Out(f, &out.ReelMass, "reel-mass", "m_1", "kg", "of one reel, paper only")
		calc.Out(f, &out.ExactReels, "exact-reels", "n_x", "1", "ordered-mass over reel-mass, not rounded")
		calc.Out(f, &out.FewestReels, "fewest-reels", "n_min", "1", "allowed by under-run")
		calc.Out(f, &out.MostReels, "most-reels", "n_max", "1", "allowed by over-run")
		calc.Out(f, &out.NearestReels, "nearest-reels", "n_1", "1", "of those allowed; of two equally near the fewer")
		calc.Out(f, &out.NearestMass, "nearest-mass", "m_n", "kg", "of the nearest reels")
		f.Warnings(&out.Warnings)
	},
}

// CountByDiameter is an order by mass to be met exactly with whole reels whose
// diameter may vary.
type CountByDiameter struct {
	OrderedMass   paperprop.Mass    // above zero
	ReelWidth     paperprop.Length  // above zero
	LeastDiameter paperprop.Length  // above CoreDiameter
	MostDiameter  paperprop.Length  // at least LeastDiameter
	CoreDiameter  paperprop.Length  // outside of the core
	RollDensity   paperprop.Density // above zero
}

// CountByDiameterResult is the numbers of reels that fit, and the diameter for the
// fewest.
type CountByDiameterResult struct {
	FewestReels paperprop.Count
	MostReels   paperprop.Count
	Diameter    paperprop.Length // of the fewest reels
	Warnings    calc.Warnings
}

// Calculate returns the whole numbers of reels that meet the ordered mass exactly
// with a diameter in range.
func (c CountByDiameter) Calculate() (CountByDiameterResult, error) {
	return countByDiameter.Calculate(c)
}

func (c CountByDiameter) compute() (CountByDiameterResult, error) {
	if err := aboveCore("least-diameter", c.LeastDiameter, c.CoreDiameter); err != nil {
		return CountByDiameterResult{}, err
	}
	if c.MostDiameter < c.LeastDiameter {
		return CountByDiameterResult{}, calc.Refuse("most-diameter", c.MostDiameter, "at least least-diameter %v", c.LeastDiameter)
	}
	ordered, rho := c.OrderedMass.In(paperprop.Kilogram), c.RollDensity.In(paperprop.KilogramPerCubicMetre)
	lightest := massOf(rho, c.LeastDiameter, c.CoreDiameter, c.ReelWidth)
	heaviest := massOf(rho, c.MostDiameter, c.CoreDiameter, c.ReelWidth)
	fewest, most := wholeUp(ordered/heaviest), wholeDown(ordered/lightest)
	if most == 0 {
		return CountByDiameterResult{}, calc.Refuse("ordered-mass", c.OrderedMass, "at least %v, one reel of least-diameter", paperprop.Mass(lightest)*paperprop.Kilogram)
	}
	if fewest > most {
		return CountByDiameterResult{}, calc.Refuse("ordered-mass", c.OrderedMass,
			"what whole reels make from least-diameter to most-diameter; the most for %v is %v, the least for %v is %v",
			paperprop.Count(most), paperprop.Mass(most*heaviest)*paperprop.Kilogram,
			paperprop.Count(fewest), paperprop.Mass(fewest*lightest)*paperprop.Kilogram)
	}
	core, b := c.CoreDiameter.In(paperprop.Metre), c.ReelWidth.In(paperprop.Metre)
	return CountByDiameterResult{
		FewestReels: paperprop.Count(fewest),
		MostReels:   paperprop.Count(most),
		Diameter:    paperprop.Length(math.Sqrt(core*core+4*ordered/(fewest*math.Pi*rho*b))) * paperprop.Metre,
		Warnings:    judgeDensity(rho),
	}, nil
}

var countByDiameter = &calc.Description[CountByDiameter, CountByDiameterResult]{
	Name:    "reel-count-by-diameter",
	Title:   "Whole reels for an ordered mass, by diameter",
	Answers: "How many reels within a range of diameters make an ordered mass exactly, and what diameter the fewest of them have.",
	Formula: []string{"D = sqrt(pow(D_c, 2) + 4*m_o/(n_min*pi*rho*b))"},
	Method: "fewest is the ordered mass over that of a reel of most-diameter, rounded up; " +
		"most is the ordered mass over that of a reel of least-diameter, rounded down; " + wholeReels,
	Source:  "volume of the ring of paper; rule of the trade",
	Status:  calc.CommonPractice,
	Example: "ordered-mass=12 t; reel-width=1080 mm; least-diameter=1150 mm; most-diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3",
	Mistakes: []string{
		"All reels of a set have one length and so one diameter: an order fixed this way shares no set with one that is fixed otherwise.",
		"Few reels of a small order leave gaps: no whole number may fit a narrow range.",
	},
	Compare: []calc.Comparison{{
		Name:   "reel-count",
		Inputs: "ordered-mass=12 t; reel-width=1080 mm; diameter=1250 mm; core-diameter=100 mm; roll-density=645 kg/m3; under-run=10 %; over-run=10 %",
		Why:    "where the diameter is fixed, whole reels need a tolerance on the mass",
	}},
	Cautions: []*calc.Caution{&calc.HeavyReel},
	Compute:  CountByDiameter.compute,
	Fields: func(f *calc.Form, in *CountByDiameter, out *CountByDiameterResult) {
		calc.In(f, &in.OrderedMass, "ordered-mass", "m_o", "t", "met exactly").Above(0)
		calc.In(f, &in.ReelWidth, "reel-width", "b", "mm", "of the reel").Above(0)
		calc.In(f, &in.LeastDiameter, "least-diameter", "D_min", "mm", "allowed, above core-diameter")
		calc.In(f, &in.MostDiameter, "most-diameter", "D_max", "mm", "allowed, at least least-diameter")
		calc.In(f, &in.CoreDiameter, "core-diameter", "D_c", "mm", "OUTSIDE of the core; order data give the inside").From(0)
		calc.In(f, &in.RollDensity, "roll-density", "rho", "kg/m3", "as wound").Above(0)
		calc.Out(f, &out.FewestReels, "fewest-reels", "n_min", "1", "up to most-diameter")
		calc.Out(f, &out.MostReels, "most-reels", "n_max", "1", "down to least-diameter")
		calc.Out(f, &out.Diameter, "diameter", "D", "mm", "of the fewest reels, for exactly ordered-mass")
		f.Warnings(&out.Warnings)
	},
}

// SheetOrder is an order of sheets to be cut from reels.
type SheetOrder struct {
	OrderedMass  paperprop.Mass     // above zero
	CutWidth     paperprop.Length   // across the web, above zero
	CutLength    paperprop.Length   // along the web, above zero
	Grammage     paperprop.Grammage // above zero
	SheetsAcross paperprop.Count    // from 1
}

// SheetOrderResult is the number of sheets and the web to cut them from.
type SheetOrderResult struct {
	SheetMass   paperprop.Mass
	ExactSheets paperprop.Ratio  // not rounded
	ReelWidth   paperprop.Length // without side trim of the sheeter
	WebLength   paperprop.Length // without spoilage
}

// Calculate returns m/(g·b·l) sheets, and a web that is SheetsAcross sheets wide.
func (s SheetOrder) Calculate() (SheetOrderResult, error) { return sheetOrder.Calculate(s) }

func (s SheetOrder) compute() (SheetOrderResult, error) {
	b, l := s.CutWidth.In(paperprop.Metre), s.CutLength.In(paperprop.Metre)
	one := s.Grammage.In(paperprop.GramPerSquareMetre) * b * l // g
	sheets, across := s.OrderedMass.In(paperprop.Gram)/one, float64(s.SheetsAcross)
	return SheetOrderResult{
		SheetMass:   paperprop.Mass(one) * paperprop.Gram,
		ExactSheets: paperprop.Ratio(sheets),
		ReelWidth:   paperprop.Length(across*s.CutWidth.In(paperprop.Millimetre)) * paperprop.Millimetre,
		WebLength:   paperprop.Length(sheets/across*l) * paperprop.Metre,
	}, nil
}

var sheetOrder = &calc.Description[SheetOrder, SheetOrderResult]{
	Name:    "sheet-order",
	Title:   "Sheets of an order and the web they take",
	Answers: "How many sheets an ordered mass is, and how wide and long a web they are cut from.",
	Formula: []string{"m_s = g*b_c*l_s", "n_x = m_o/m_s", "b = n_a*b_c", "L = n_x/n_a*l_s"},
	Source:  "definition",
	Status:  calc.CommonPractice,
	Example: "ordered-mass=9.8 t; cut-width=820 mm; cut-length=1160 mm; grammage=140 g/m2; sheets-across=3",
	Mistakes: []string{
		"Which side is the width decides the grain: the length runs with the machine.",
		"Side trim of the sheeter and spoilage come on top of width and length.",
	},
	Compute: SheetOrder.compute,
	Fields: func(f *calc.Form, in *SheetOrder, out *SheetOrderResult) {
		calc.In(f, &in.OrderedMass, "ordered-mass", "m_o", "t", "of sheets").Above(0)
		calc.In(f, &in.CutWidth, "cut-width", "b_c", "mm", "of a sheet, across the web").Above(0)
		calc.In(f, &in.CutLength, "cut-length", "l_s", "mm", "of a sheet, along the web").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at the moisture of ordered-mass").Above(0)
		calc.In(f, &in.SheetsAcross, "sheets-across", "n_a", "1", "on the reel").From(1)
		calc.Out(f, &out.SheetMass, "sheet-mass", "m_s", "g", "of one sheet")
		calc.Out(f, &out.ExactSheets, "exact-sheets", "n_x", "1", "not rounded")
		calc.Out(f, &out.ReelWidth, "reel-width", "b", "mm", "without side trim of the sheeter")
		calc.Out(f, &out.WebLength, "web-length", "L", "m", "without spoilage")
	},
}
