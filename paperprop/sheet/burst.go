package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Burst is a bursting test.
type Burst struct {
	BurstStrength paperprop.Pressure // above zero
	Grammage      paperprop.Grammage // above zero
}

// BurstResult is the burst index, in two units.
type BurstResult struct {
	BurstIndex  paperprop.BurstIndex
	BurstFactor paperprop.BurstIndex // the same; printed in (gf/cm2)/(g/m2)
	Warnings    calc.Warnings
}

// Calculate returns the index p/g.
func (b Burst) Calculate() (BurstResult, error) { return burst.Calculate(b) }

var burstRange = calc.Warnings{{Code: "out-of-range", Text: "outside 70 to 5500 kPa, the range of ISO 2758 (70 to 1400 kPa) and ISO 2759 " +
	"(250 to 5500 kPa) together (published)"}}

func (b Burst) compute() (BurstResult, error) {
	p := b.BurstStrength.In(paperprop.Kilopascal)
	index := paperprop.BurstIndex(p/b.Grammage.In(paperprop.GramPerSquareMetre)) * paperprop.KilopascalSquareMetrePerGram
	r := BurstResult{BurstIndex: index, BurstFactor: index}
	if result.Outside(p, 70, 5500) {
		r.Warnings = burstRange
	}
	return r, nil
}

const burstReadings = "ISO 2758: mean of 20, ten from each side"

var burst = &calc.Description[Burst, BurstResult]{
	Name:     "burst",
	Title:    "Burst index and factor",
	Answers:  "How strong a sheet is against bursting (Mullen test), for its grammage.",
	Formula:  []string{"X = p/g", "X_f = p/g"},
	Source:   "definition: ISO 2758:2014, 3.2 (seen)",
	Status:   calc.Published,
	Example:  "burst-strength=320 kPa; grammage=80 g/m2",
	Mistakes: []string{"The factor's figure is 10.19716 times that of the index; one public page prints neither."},
	Compute:  Burst.compute,
	Fields: func(f *calc.Form, in *Burst, out *BurstResult) {
		calc.In(f, &in.BurstStrength, "burst-strength", "p", "kPa", "greatest pressure").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of the sheet").Above(0)
		calc.Out(f, &out.BurstIndex, "burst-index", "X", "kPa.m2/g", "strength over grammage").Report(threeFigures(), burstReadings, calc.Memory)
		calc.Out(f, &out.BurstFactor, "burst-factor", "X_f", "(gf/cm2)/(g/m2)", "the same in trade units").Report(threeFigures(), burstReadings, calc.Memory)
		f.Warnings(&out.Warnings)
	},
}

// BurstRatio is a burst strength over a basis weight: points per pound of a ream.
type BurstRatio struct {
	BurstStrength paperprop.Pressure    // above zero
	BasisWeight   paperprop.BasisWeight // of the ream that the result names, above zero
}

// BurstRatioResult is the ratio, meaningful only with the name of its ream.
type BurstRatioResult struct {
	BurstRatio paperprop.PressurePerMass
}

// Calculate returns the ratio p/W.
func (b BurstRatio) Calculate() (BurstRatioResult, error) { return burstRatio.Calculate(b) }

func (b BurstRatio) compute() (BurstRatioResult, error) {
	points := b.BurstStrength.In(paperprop.PSI) / b.BasisWeight.In(paperprop.PoundPerReam)
	return BurstRatioResult{paperprop.PressurePerMass(points) * paperprop.PSIPerPound}, nil
}

var burstRatio = &calc.Description[BurstRatio, BurstRatioResult]{
	Name:    "burst-ratio",
	Title:   "Burst in points per pound",
	Answers: "How many psi of burst a sheet has for each pound of its ream.",
	Formula: []string{"r = p/W"},
	Source:  "trade figure: points (psi) over ream weight",
	Status:  calc.CommonPractice,
	Example: "burst-strength=44 psi; basis-weight=25 lb",
	Mistakes: []string{
		"A pound of 1000 ft2 is three of 3000 ft2: the same paper has three times the points per pound. Name the ream.",
		"In a mill a point is a psi of burst here, a mil of thickness there.",
	},
	Compute: BurstRatio.compute,
	Fields: func(f *calc.Form, in *BurstRatio, out *BurstRatioResult) {
		calc.In(f, &in.BurstStrength, "burst-strength", "p", "psi", "greatest pressure").Above(0)
		calc.In(f, &in.BasisWeight, "basis-weight", "W", "lb", "of the ream that the result names").Above(0).Label()
		calc.Out(f, &out.BurstRatio, "burst-ratio", "r", "psi/lb", "points per pound of that ream").
			Unreported("a trade figure without a method: name its ream")
	},
}
