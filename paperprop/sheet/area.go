package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// areaOf returns the area of a mass of paper, one side, in m².
func areaOf(m paperprop.Mass, g paperprop.Grammage) float64 {
	return m.In(paperprop.Gram) / g.In(paperprop.GramPerSquareMetre)
}

// AreaPerMass is the area that a mass of paper covers.
type AreaPerMass struct {
	Grammage paperprop.Grammage // above zero
	Mass     paperprop.Mass     // at the moisture of the grammage; zero stands for 1 t
}

// AreaPerMassResult is the area, one side.
type AreaPerMassResult struct {
	Area        paperprop.Area
	AreaPerMass paperprop.AreaPerMass
}

// Calculate returns the area m/g, and the area per mass 1/g.
func (a AreaPerMass) Calculate() (AreaPerMassResult, error) { return areaPerMass.Calculate(a) }

func (a AreaPerMass) compute() (AreaPerMassResult, error) {
	return AreaPerMassResult{
		Area:        paperprop.Area(areaOf(a.Mass, a.Grammage)) * paperprop.SquareMetre,
		AreaPerMass: paperprop.AreaPerMass(areaOf(paperprop.Kilogram, a.Grammage)) * paperprop.SquareMetrePerKilogram,
	}, nil
}

var areaPerMass = &calc.Description[AreaPerMass, AreaPerMassResult]{
	Name:     "area-per-mass",
	Title:    "Area of a mass of paper",
	Answers:  "How many square metres a tonne of paper covers.",
	Formula:  []string{"A = m/g", "a = 1/g"},
	Source:   "definition of grammage",
	Status:   calc.CommonPractice,
	Example:  "grammage=121.4 g/m2; mass=25.16 t",
	Mistakes: []string{"Sold by area and made by mass: 1 g/m2 too much at 120 g/m2 gives away 0.8 % of the area."},
	Compute:  AreaPerMass.compute,
	Fields: func(f *calc.Form, in *AreaPerMass, out *AreaPerMassResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the paper").Above(0)
		calc.In(f, &in.Mass, "mass", "m", "t", "of paper at the moisture of its grammage").Above(0).Default(1)
		calc.Out(f, &out.Area, "area", "A", "m2", "one side")
		calc.Out(f, &out.AreaPerMass, "area-per-mass", "a", "m2/t", "one side")
	},
}

// WebLength is the length of a web of known mass.
type WebLength struct {
	Mass       paperprop.Mass     // of paper, without the core; above zero
	Grammage   paperprop.Grammage // above zero
	SheetWidth paperprop.Length   // of the web, above zero
}

// WebLengthResult is the length of the web.
type WebLengthResult struct {
	Length paperprop.Length
}

// Calculate returns the length m/(g·b).
func (w WebLength) Calculate() (WebLengthResult, error) { return webLength.Calculate(w) }

func (w WebLength) compute() (WebLengthResult, error) {
	length := areaOf(w.Mass, w.Grammage) / w.SheetWidth.In(paperprop.Metre)
	return WebLengthResult{paperprop.Length(length) * paperprop.Metre}, nil
}

var webLength = &calc.Description[WebLength, WebLengthResult]{
	Name:    "web-length",
	Title:   "Length of a web from its mass",
	Answers: "How long a web of a mass, grammage and width is (footage of a roll).",
	Formula: []string{"L = m/(g*b)"},
	Source:  "definition of grammage",
	Status:  calc.CommonPractice,
	Example: "mass=1440 kg; grammage=120 g/m2; sheet-width=2240 mm",
	Mistakes: []string{
		"The core is not paper: take it off the mass first.",
		"Paper that dried after it was weighed is lighter, not shorter.",
	},
	Compute: WebLength.compute,
	Fields: func(f *calc.Form, in *WebLength, out *WebLengthResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "of paper, without the core").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the paper").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "b", "mm", "of the web").Above(0)
		calc.Out(f, &out.Length, "length", "L", "m", "of the web")
	},
}
