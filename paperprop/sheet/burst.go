package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Burst is a bursting test.
type Burst struct {
	BurstStrength paperprop.Pressure // above zero
	Grammage      paperprop.Grammage // above zero
}

// BurstResult is the strength over the grammage, in either unit.
type BurstResult struct {
	BurstIndex  paperprop.BurstIndex
	BurstFactor paperprop.BurstIndex // the same; printed in (gf/cm2)/(g/m2)
	Warnings    calc.Warnings
}

// Calculate returns p/g.
func (b Burst) Calculate() (BurstResult, error) { return burst.Calculate(b) }

var burstRange = calc.Warnings{{Code: "out-of-range", Text: "outside 70 to 5500 kPa, what ISO 2758 (70 to 1400 kPa) and ISO 2759 " +
	"(250 to 5500 kPa) take together (published)"}}

func (b Burst) compute() (BurstResult, error) {
	p := b.BurstStrength.In(paperprop.Kilopascal)
	index := paperprop.BurstIndex(p/b.Grammage.In(paperprop.GramPerSquareMetre)) * paperprop.KilopascalSquareMetrePerGram
	r := BurstResult{BurstIndex: index, BurstFactor: index}
	if p < 70*(1-1e-12) || p > 5500*(1+1e-12) {
		r.Warnings = burstRange
	}
	return r, nil
}

var burst = &calc.Description[Burst, BurstResult]{
	Name:     "burst",
	Title:    "Burst index and factor",
	Answers:  "How strong a sheet is against bursting, for its grammage.",
	Formula:  []string{"X = p/g", "X_f = p/g"},
	Source:   "definition: ISO 2758:2014, 3.2 (seen)",
	Status:   calc.Published,
	Example:  "burst-strength=320 kPa; grammage=80 g/m2",
	Mistakes: []string{"The factor's figure is 10.19716 times that of the index; one public page prints neither."},
	Compute:  Burst.compute,
	Fields: func(f *calc.Form, in *Burst, out *BurstResult) {
		calc.In(f, &in.BurstStrength, "burst-strength", "p", "kPa", "greatest pressure").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the sheet").Above(0)
		calc.Out(f, &out.BurstIndex, "burst-index", "X", "kPa.m2/g", "strength over grammage").Report(threeFigures(), "ISO 2758", calc.Memory)
		calc.Out(f, &out.BurstFactor, "burst-factor", "X_f", "(gf/cm2)/(g/m2)", "the same in trade units").Report(threeFigures(), "ISO 2758", calc.Memory)
		f.Warnings(&out.Warnings)
	},
}
