package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

const (
	permeanceReadings = "ISO 5636: 2 or 3 significant figures in use (memory), none applied; mean of 10, five from each side (published)"
	permeanceSource   = "definition of air permeance; ranges and pressure from abstracts of ISO 5636 and the T 460 draft of 2006 (seen)"
)

func permeanceOutput(f *calc.Form, p *paperprop.AirPermeance, warnings *calc.Warnings) {
	calc.Out(f, p, "air-permeance", "P", "um/(Pa.s)", "air through an area in a time under a pressure").Unreported(permeanceReadings)
	f.Warnings(warnings)
}

// permeance takes mL, cm², s and kPa: cm/(kPa·s) is 10 µm/(Pa·s).
func permeance(volume, area, seconds, pressure float64) paperprop.AirPermeance {
	return paperprop.AirPermeance(10*volume/(area*seconds*pressure)) * paperprop.MicrometrePerPascalSecond
}

// porosity is a mistake common to all permeances.
const porosity = "Porosity, as mills call it, is a permeance or a Gurley time: how much air passes, not how much of the sheet is pores."

// AirPermeance is a test that measures the time for a volume of air.
type AirPermeance struct {
	Volume             paperprop.Volume   // of air, above zero
	Time               paperprop.Duration // for that volume, above zero
	Area               paperprop.Area     // above zero; 6.42 or 6.45 cm² in use
	PressureDifference paperprop.Pressure // across the sheet, above zero
}

// AirPermeanceResult is the permeance from first principles.
type AirPermeanceResult struct {
	AirPermeance paperprop.AirPermeance
	Warnings     calc.Warnings
}

// Calculate returns the permeance V/(A·τ·p).
func (a AirPermeance) Calculate() (AirPermeanceResult, error) { return airPermeance.Calculate(a) }

var outsideGurley = calc.Warnings{{Code: "out-of-range", Text: "outside 0.1 to 100 um/(Pa s), the range of the Gurley method of ISO 5636-5 (published)"}}

func (a AirPermeance) compute() (AirPermeanceResult, error) {
	r := AirPermeanceResult{AirPermeance: permeance(a.Volume.In(paperprop.Millilitre), a.Area.In(paperprop.SquareCentimetre),
		a.Time.In(paperprop.Second), a.PressureDifference.In(paperprop.Kilopascal))}
	if result.Outside(r.AirPermeance.In(paperprop.MicrometrePerPascalSecond), 0.1, 100) {
		r.Warnings = outsideGurley
	}
	return r, nil
}

var airPermeance = &calc.Description[AirPermeance, AirPermeanceResult]{
	Name:    "air-permeance",
	Title:   "Air permeance from a volume and its time",
	Answers: "How much air a sheet lets through, from the time that a volume takes.",
	Formula: []string{"P = V/(A*tau*p)"},
	Source:  permeanceSource,
	Status:  calc.CommonPractice,
	Example: "volume=100 mL; time=38 s; area=6.42 cm2; pressure-difference=1.22 kPa",
	Mistakes: []string{
		"The area is 6.42 cm2 in some sources (memory) and about 6.45 cm2 in T 460: 0.5 % of the result.",
		"A Gurley time is not a permeance: a tight sheet has a long one, and a mean of times is not that of permeances.",
		porosity,
	},
	Compare: []calc.Comparison{
		{
			Inputs: "volume=100 mL; time=38 s; area=6.45 cm2; pressure-difference=1.22 kPa",
			Why:    "with the area of T 460, 127.08 um/Pa over the time in place of 127.67",
		},
		{Name: "gurley", Inputs: "time=38 s; gurley-constant=135.3 um/Pa", Why: "by the constant of the later ISO 5636-5 (memory), 6 % higher"},
	},
	Compute: AirPermeance.compute,
	Fields: func(f *calc.Form, in *AirPermeance, out *AirPermeanceResult) {
		calc.In(f, &in.Volume, "volume", "V", "mL", "of air").Above(0)
		calc.In(f, &in.Time, "time", "tau", "s", "for it").Above(0)
		calc.In(f, &in.Area, "area", "A", "cm2", "6.42 cm2 or 6.45 cm2: sources disagree").Above(0)
		calc.In(f, &in.PressureDifference, "pressure-difference", "p", "kPa", "across the sheet; 1.22 kPa in T 460").Above(0)
		permeanceOutput(f, &out.AirPermeance, &out.Warnings)
	},
}

// AirPermeanceFlow is a test that measures a flow of air.
type AirPermeanceFlow struct {
	VolumeFlow         paperprop.VolumeFlow // of air, above zero
	Area               paperprop.Area       // of the head; zero stands for 10 cm²
	PressureDifference paperprop.Pressure   // across the sheet, above zero
}

// AirPermeanceFlowResult is the permeance from first principles.
type AirPermeanceFlowResult struct {
	AirPermeance paperprop.AirPermeance
	Warnings     calc.Warnings
}

// Calculate returns the permeance Q/(A·p).
func (a AirPermeanceFlow) Calculate() (AirPermeanceFlowResult, error) {
	return airPermeanceFlow.Calculate(a)
}

var outsideBendtsen = calc.Warnings{{Code: "out-of-range", Text: "outside 0.35 to 15 um/(Pa s), the range of the Bendtsen method of ISO 5636-3 (published)"}}

func (a AirPermeanceFlow) compute() (AirPermeanceFlowResult, error) {
	const minute = 60 // s
	r := AirPermeanceFlowResult{AirPermeance: permeance(a.VolumeFlow.In(paperprop.MillilitrePerMinute),
		a.Area.In(paperprop.SquareCentimetre), minute, a.PressureDifference.In(paperprop.Kilopascal))}
	if result.Outside(r.AirPermeance.In(paperprop.MicrometrePerPascalSecond), 0.35, 15) {
		r.Warnings = outsideBendtsen
	}
	return r, nil
}

var airPermeanceFlow = &calc.Description[AirPermeanceFlow, AirPermeanceFlowResult]{
	Name:    "air-permeance-flow",
	Title:   "Air permeance from a flow",
	Answers: "How much air a sheet lets through, from the flow under a pressure.",
	Formula: []string{"P = Q/(A*p)"},
	Source:  permeanceSource,
	Status:  calc.CommonPractice,
	Example: "volume-flow=350 mL/min; pressure-difference=1.47 kPa",
	Mistakes: []string{
		"1 mL/min is 0.01134 um/(Pa s) at 1.47 kPa (ISO 5636-3) and 0.01667 at 1 kPa (ISO 5636-2), both on 10 cm2 (memory).",
		"mL/min from the roughness head of the same instrument (Bendtsen) is not a permeance, and scales of roughness or smoothness (Bendtsen, Sheffield, PPS) do not convert into one another.",
		porosity,
	},
	Compare: []calc.Comparison{{
		Inputs: "volume-flow=350 mL/min; pressure-difference=1 kPa",
		Why:    "the same flow under the pressure of ISO 5636-2 (memory) is that of a more permeable sheet",
	}},
	Compute: AirPermeanceFlow.compute,
	Fields: func(f *calc.Form, in *AirPermeanceFlow, out *AirPermeanceFlowResult) {
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "mL/min", "of air").Above(0)
		calc.In(f, &in.Area, "area", "A", "cm2", "of the head").Above(0).Default(10)
		calc.In(f, &in.PressureDifference, "pressure-difference", "p", "kPa", "1.47 kPa (ISO 5636-3), 1 kPa (ISO 5636-2); memory").Above(0)
		permeanceOutput(f, &out.AirPermeance, &out.Warnings)
	},
}

// Gurley turns a Gurley time into a permeance by a given constant.
type Gurley struct {
	Time           paperprop.Duration      // for 100 mL, above zero
	GurleyConstant paperprop.PermeanceTime // above zero; no default, since sources disagree
}

// GurleyResult is the permeance according to that constant.
type GurleyResult struct {
	AirPermeance paperprop.AirPermeance
	Warnings     calc.Warnings
}

// Calculate returns the permeance k/τ.
func (g Gurley) Calculate() (GurleyResult, error) { return gurley.Calculate(g) }

var outsideT460 = calc.Warnings{{Code: "out-of-range", Text: "outside 5 to 1800 s, the range of T 460 for 100 mL (draft of 2006, published)"}}

func (g Gurley) compute() (GurleyResult, error) {
	seconds := g.Time.In(paperprop.Second)
	p := g.GurleyConstant.In(paperprop.MicrometrePerPascal) / seconds
	r := GurleyResult{AirPermeance: paperprop.AirPermeance(p) * paperprop.MicrometrePerPascalSecond}
	if result.Outside(seconds, 5, 1800) {
		r.Warnings = outsideT460
	}
	return r, nil
}

var gurley = &calc.Description[Gurley, GurleyResult]{
	Name:    "gurley",
	Title:   "Air permeance from a Gurley time",
	Answers: "What air permeance a Gurley time (air resistance) stands for, by the constant that is named.",
	Formula: []string{"P = k/tau"},
	Source:  "constants of ISO 5636-5: 127 um/Pa in older editions, 135.3 in those of 2003 and 2013, both memory",
	Status:  calc.Memory,
	Example: "time=38 s; gurley-constant=127 um/Pa",
	Mistakes: []string{
		"127 and 135.3 um/Pa differ by 6.5 %: a permeance found this way is worth no more than its constant, so name it.",
		"The time is that for 100 mL: one for 300 mL is three times as long.",
		porosity,
	},
	Compare: []calc.Comparison{
		{Inputs: "time=38 s; gurley-constant=135.3 um/Pa", Why: "by the constant of the editions of 2003 and 2013 (memory)"},
		{
			Name: "air-permeance", Inputs: "volume=100 mL; time=38 s; area=6.42 cm2; pressure-difference=1.22 kPa",
			Why: "from first principles, which make the constant 127.67 um/Pa on 6.42 cm2",
		},
	},
	Compute: Gurley.compute,
	Fields: func(f *calc.Form, in *Gurley, out *GurleyResult) {
		calc.In(f, &in.Time, "time", "tau", "s", "for 100 mL").Above(0)
		calc.In(f, &in.GurleyConstant, "gurley-constant", "k", "um/Pa", "127 or 135.3 (memory), 127.67 by geometry; belongs to the result").Above(0).Label()
		permeanceOutput(f, &out.AirPermeance, &out.Warnings)
	},
}
