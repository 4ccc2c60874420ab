package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Spots is the dirt on a sheet.
type Spots struct {
	SpotArea []paperprop.Area // of each spot counted, above zero
	Area     paperprop.Area   // inspected, counting both sides if both were; above zero
}

// SpotsResult is the area and number of spots per area inspected.
type SpotsResult struct {
	SpotAreaPerArea paperprop.Fraction
	SpotsPerArea    paperprop.CountPerArea
}

// Calculate returns the spot area Σa/A, and the count over A.
func (s Spots) Calculate() (SpotsResult, error) { return spots.Calculate(s) }

func (s Spots) compute() (SpotsResult, error) {
	area := s.Area.In(paperprop.SquareMetre)
	return SpotsResult{
		SpotAreaPerArea: paperprop.Fraction(darkened(s.SpotArea)/area) * paperprop.SquareMillimetrePerSquareMetre,
		SpotsPerArea:    paperprop.CountPerArea(float64(len(s.SpotArea))/area) * paperprop.PerSquareMetre,
	}, nil
}

// darkened returns the area of all spots, in mm².
func darkened(spots []paperprop.Area) float64 {
	var all float64
	for _, a := range spots {
		all += a.In(paperprop.SquareMillimetre)
	}
	return all
}

var spots = &calc.Description[Spots, SpotsResult]{
	Name:    "spots",
	Title:   "Spots by area inspected",
	Answers: "How much of a surface is spots (dirt specks, shives), and how many spots a square metre shows.",
	Formula: []string{"x_s = sum(a_i)/A", "n_a = count(a_i)/A"},
	Source:  "definitions",
	Status:  calc.CommonPractice,
	Example: "spot-area=[0.12 0.35 0.08 1.4] mm2; area=0.5 m2",
	Mistakes: []string{
		"The area inspected is twice the sheet where both sides were looked at.",
		"Results compare only where the smallest spot counted is the same: the count depends on it, the area hardly does.",
		"1 mm2/m2 is 1 ppm.",
	},
	Compare: []calc.Comparison{{
		Name:   "spots-per-mass",
		Inputs: "spot-area=[0.12 0.35 0.08 1.4] mm2; dry-mass=0.030 kg",
		Why:    "for the mass: 0.5 m2 of both sides of a sheet of 120 g/m2 dry. A heavier sheet hides more of its dirt.",
	}},
	Compute: Spots.compute,
	Fields: func(f *calc.Form, in *Spots, out *SpotsResult) {
		eachSpot(f, &in.SpotArea)
		calc.In(f, &in.Area, "area", "A", "m2", "inspected; both sides: twice the sheet").Above(0)
		calc.Out(f, &out.SpotAreaPerArea, "spot-area-per-area", "x_s", "mm2/m2", "area of spots")
		calc.Out(f, &out.SpotsPerArea, "spots-per-area", "n_a", "1/m2", "number of spots")
	},
}

func eachSpot(f *calc.Form, area *[]paperprop.Area) {
	calc.InList(f, area, "spot-area", "a_i", "mm2", "of each spot counted").Above(0)
}

// SpotsPerMass is the dirt in a mass of sheets.
type SpotsPerMass struct {
	SpotArea []paperprop.Area      // of each spot counted, above zero
	DryMass  paperprop.OvenDryMass // inspected, above zero
}

// SpotsPerMassResult is the area and number of spots per mass inspected.
type SpotsPerMassResult struct {
	SpotAreaPerMass paperprop.AreaPerMass
	SpotsPerMass    paperprop.CountPerMass
}

// Calculate returns the spot area Σa/m_d, and the count over m_d.
func (s SpotsPerMass) Calculate() (SpotsPerMassResult, error) { return spotsPerMass.Calculate(s) }

func (s SpotsPerMass) compute() (SpotsPerMassResult, error) {
	mass := s.DryMass.In(paperprop.OvenDryKilogram)
	return SpotsPerMassResult{
		SpotAreaPerMass: paperprop.AreaPerMass(darkened(s.SpotArea)/mass) * paperprop.SquareMillimetrePerKilogram,
		SpotsPerMass:    paperprop.CountPerMass(float64(len(s.SpotArea))/mass) * paperprop.PerKilogram,
	}, nil
}

var spotsPerMass = &calc.Description[SpotsPerMass, SpotsPerMassResult]{
	Name:    "spots-per-mass",
	Title:   "Spots by mass inspected",
	Answers: "How much area of spots a kilogram of dry sheets shows, and how many spots.",
	Formula: []string{"x_m = sum(a_i)/m_d", "n_m = count(a_i)/m_d"},
	Source:  "definitions",
	Status:  calc.CommonPractice,
	Example: "spot-area=[0.12 0.35 0.08 1.4] mm2; dry-mass=0.030 kg",
	Mistakes: []string{
		"Oven-dry mass: conditioned sheets at 7.5 % moisture would look 7.5 % cleaner.",
		"Only what lies near a surface is seen: values compare at one grammage of the sheets.",
	},
	Compare: []calc.Comparison{{
		Name:   "spots",
		Inputs: "spot-area=[0.12 0.35 0.08 1.4] mm2; area=0.5 m2",
		Why:    "for the area looked at: both sides of a sheet of 120 g/m2 dry",
	}},
	Compute: SpotsPerMass.compute,
	Fields: func(f *calc.Form, in *SpotsPerMass, out *SpotsPerMassResult) {
		eachSpot(f, &in.SpotArea)
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "kg", "inspected").Above(0)
		calc.Out(f, &out.SpotAreaPerMass, "spot-area-per-mass", "x_m", "mm2/kg", "area of spots")
		calc.Out(f, &out.SpotsPerMass, "spots-per-mass", "n_m", "1/kg", "number of spots")
	},
}
