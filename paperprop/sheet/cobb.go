package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Cobb is a Cobb test of water absorption.
type Cobb struct {
	MassIn  paperprop.Mass     // before, above zero
	MassOut paperprop.Mass     // after blotting, at least MassIn
	Area    paperprop.Area     // wetted; zero stands for 100 cm²
	Time    paperprop.Duration // of contact, above zero; only labels the result
}

// CobbResult is the water absorbed per area.
type CobbResult struct {
	Cobb paperprop.Grammage
}

// Calculate returns the Cobb value (m_2 − m_1)/A.
func (c Cobb) Calculate() (CobbResult, error) { return cobb.Calculate(c) }

func (c Cobb) compute() (CobbResult, error) {
	if c.MassOut < c.MassIn {
		return CobbResult{}, calc.Refuse("mass-out", c.MassOut, "at least mass-in %v", c.MassIn)
	}
	taken := c.MassOut.In(paperprop.Gram) - c.MassIn.In(paperprop.Gram)
	return CobbResult{paperprop.Grammage(taken/c.Area.In(paperprop.SquareMetre)) * paperprop.GramPerSquareMetre}, nil
}

var cobb = &calc.Description[Cobb, CobbResult]{
	Name:    "cobb",
	Title:   "Water absorption by Cobb",
	Answers: "How much water a square metre of sheet takes up in a time (its uptake or absorbency), which tells its sizing.",
	Formula: []string{"a = (m_2 - m_1)/A"},
	Source:  "formula on a testing laboratory's page; ISO 535 excerpts (seen)",
	Status:  calc.Published,
	Example: "mass-in=1.248 g; mass-out=1.5265 g; time=60 s",
	Mistakes: []string{
		"A Cobb value without its time means nothing: write Cobb60.",
		"For Cobb60 the water is poured off at 45 s and the sheet blotted at 60 s (ISO 535, seen).",
		"The test is not for unsized paper, nor for paper below 50 g/m2 (ISO 535, seen).",
	},
	Compute: Cobb.compute,
	Fields: func(f *calc.Form, in *Cobb, out *CobbResult) {
		calc.In(f, &in.MassIn, "mass-in", "m_1", "g", "before").Above(0)
		calc.In(f, &in.MassOut, "mass-out", "m_2", "g", "after blotting")
		calc.In(f, &in.Area, "area", "A", "cm2", "wetted").Above(0).Default(100)
		calc.In(f, &in.Time, "time", "tau", "s", "of contact; belongs to the result").Above(0).Label()
		calc.Out(f, &out.Cobb, "cobb", "a", "g/m2", "water taken up").
			Unreported("0.5 or 1 g/m2 in use (memory), none applied; mean of 5 from each side (laboratory pages, published)")
	},
}
