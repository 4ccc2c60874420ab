package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Grammage is a grammage from weighed test pieces. Exactly one of Area and the pair
// of Length and Width is given.
type Grammage struct {
	Mass   paperprop.Mass   // of all test pieces together, above zero
	Count  paperprop.Count  // pieces weighed together; zero stands for 1
	Area   paperprop.Area   // of one piece
	Length paperprop.Length // of one piece
	Width  paperprop.Length // of one piece
}

// GrammageResult is the grammage at the moisture of the pieces.
type GrammageResult struct {
	Grammage paperprop.Grammage
	Warnings calc.Warnings
}

// Calculate returns the grammage m/(n·A).
func (g Grammage) Calculate() (GrammageResult, error) { return grammage.Calculate(g) }

var smallPiece = calc.Warnings{{Code: "small-piece", Text: "a test piece below 100 cm2 is to be reported as a deviation " +
	"(AS 1301.405:2021, published)"}}

func (g Grammage) compute() (GrammageResult, error) {
	area := g.Area.In(paperprop.SquareMetre)
	if area == 0 {
		area = g.Length.In(paperprop.Metre) * g.Width.In(paperprop.Metre)
	}
	r := GrammageResult{
		Grammage: paperprop.Grammage(g.Mass.In(paperprop.Gram)/(float64(g.Count)*area)) * paperprop.GramPerSquareMetre,
	}
	const least = 0.01 // m²
	if result.Rest(area, least) < 0 {
		r.Warnings = smallPiece
	}
	return r, nil
}

var grammage = &calc.Description[Grammage, GrammageResult]{
	Name:    "grammage",
	Title:   "Grammage from the mass of test pieces",
	Answers: "What a square metre of paper weighs (gsm), from pieces on the balance.",
	Formula: []string{"g = m/(n*A)", "g = m/(n*l*b)"},
	Source:  "definition: ISO 536:2019 as excerpted in AS 1301.405:2021",
	Status:  calc.Published,
	Example: "mass=5.871 g; length=250 mm; width=200 mm",
	Mistakes: []string{
		"Conditioned, oven-dry and as-taken grammage are three results: say which was weighed.",
	},
	Compute: Grammage.compute,
	Fields: func(f *calc.Form, in *Grammage, out *GrammageResult) {
		calc.In(f, &in.Mass, "mass", "m", "g", "of all test pieces together").Above(0)
		calc.In(f, &in.Count, "count", "n", "1", "test pieces weighed together").From(1).Default(1)
		f.Exactly(1,
			calc.In(f, &in.Area, "area", "A", "cm2", "of one piece").Above(0),
			calc.Together(
				calc.In(f, &in.Length, "length", "l", "mm", "of one piece").Above(0),
				calc.In(f, &in.Width, "width", "b", "mm", "of one piece").Above(0),
			),
		)
		calc.Out(f, &out.Grammage, "grammage", "g", "g/m2", "at the moisture of the pieces").
			Report(threeFigures(), "at least 20 pieces from 5 specimens (AS 1301.405:2021); ASTM D646 (ISO 536 from memory)", calc.Published)
		f.Warnings(&out.Warnings)
	},
}
