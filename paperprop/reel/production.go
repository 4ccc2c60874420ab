package reel

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Production is what a machine makes while it runs.
type Production struct {
	Grammage   paperprop.Grammage // at reel moisture, above zero
	SheetWidth paperprop.Length   // at the reel, before edge trim, above zero
	Speed      paperprop.Speed    // at the reel, above zero
}

// ProductionResult is gross production.
type ProductionResult struct {
	PaperFlow paperprop.MassFlow
	AreaFlow  paperprop.AreaFlow
}

// Calculate returns g·b·v and b·v.
func (p Production) Calculate() (ProductionResult, error) { return production.Calculate(p) }

func (p Production) compute() (ProductionResult, error) {
	area := p.SheetWidth.In(paperprop.Metre) * p.Speed.In(paperprop.MetrePerMinute) * 60 // m²/h
	return ProductionResult{
		PaperFlow: paperprop.MassFlow(area*p.Grammage.In(paperprop.GramPerSquareMetre)/1e6) * paperprop.TonnePerHour,
		AreaFlow:  paperprop.AreaFlow(area) * paperprop.SquareMetrePerHour,
	}, nil
}

var production = &calc.Description[Production, ProductionResult]{
	Name:     "production",
	Title:    "Gross production of a paper machine",
	Answers:  "How many tonnes and square metres an hour a machine makes while it runs.",
	Formula:  []string{"A_t = b*v", "P = g*A_t"},
	Source:   "definition; worked example in training notes on paper-machine calculations (public preview page)",
	Status:   calc.Published,
	Example:  "grammage=120 g/m2; sheet-width=3.36 m; speed=625 m/min",
	Mistakes: []string{"Grammage and production are at reel moisture; the width is that before edge trim."},
	Compute:  Production.compute,
	Fields: func(f *calc.Form, in *Production, out *ProductionResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "at reel moisture").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "b", "m", "at the reel, before edge trim").Above(0)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "at the reel").Above(0)
		calc.Out(f, &out.PaperFlow, "paper-flow", "P", "t/h", "gross, while running")
		calc.Out(f, &out.AreaFlow, "area-flow", "A_t", "m2/h", "gross, while running")
	},
}
