package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// tensileReadings is the note on what the reporting rules of tensile results apply
// to.
const tensileReadings = "ISO 1924-2 and -3, T 494: mean of 10 in each direction, conditioned grammage"

const notInterchangeable = "ISO 1924-2 (20 mm/min, 180 mm) and ISO 1924-3 (100 mm/min, 100 mm) are not interchangeable."

func betweenClamps(f *calc.Form, span *paperprop.Length) {
	calc.In(f, span, "span", "l", "mm", "between the clamps at the start: 180 mm ISO 1924-2, 100 mm ISO 1924-3").Above(0)
}

// Stretch is the elongation of a strip up to its greatest force.
type Stretch struct {
	Elongation paperprop.Length // at greatest force, zero or above
	Span       paperprop.Length // between the clamps at the start, above zero
}

// StretchResult is the stretch.
type StretchResult struct {
	Stretch paperprop.Fraction
}

// Calculate returns the stretch e/l.
func (s Stretch) Calculate() (StretchResult, error) { return stretch.Calculate(s) }

func (s Stretch) compute() (StretchResult, error) {
	return StretchResult{paperprop.Fraction(s.Elongation / s.Span)}, nil
}

var stretch = &calc.Description[Stretch, StretchResult]{
	Name:     "stretch",
	Title:    "Stretch at greatest force",
	Answers:  "By how much of its length a strip gives before it breaks.",
	Formula:  []string{"epsilon = e/l"},
	Source:   "definition of T 494 (text seen)",
	Status:   calc.Published,
	Example:  "elongation=1.83 mm; span=100 mm",
	Mistakes: []string{notInterchangeable},
	Compute:  Stretch.compute,
	Fields: func(f *calc.Form, in *Stretch, out *StretchResult) {
		calc.In(f, &in.Elongation, "elongation", "e", "mm", "at greatest force").From(0)
		betweenClamps(f, &in.Span)
		calc.Out(f, &out.Stretch, "stretch", "epsilon", "%", "over the span").Report(tenthOfPercent(), tensileReadings, calc.Memory)
	},
}

// TensileEnergy is the work absorbed by a strip until it breaks.
type TensileEnergy struct {
	Energy     paperprop.Energy   // area under the curve of force against elongation, up to the greatest force; zero or above
	Span       paperprop.Length   // between the clamps, above zero
	StripWidth paperprop.Length   // zero stands for 15 mm
	Grammage   paperprop.Grammage // conditioned, above zero
}

// TensileEnergyResult is the work per area and per mass.
type TensileEnergyResult struct {
	TensileEnergy      paperprop.EnergyPerArea
	TensileEnergyIndex paperprop.SpecificEnergy
}

// Calculate returns the absorption W/(l·b), and that over the grammage.
func (t TensileEnergy) Calculate() (TensileEnergyResult, error) { return tensileEnergy.Calculate(t) }

func (t TensileEnergy) compute() (TensileEnergyResult, error) {
	var r TensileEnergyResult
	r.TensileEnergy, r.TensileEnergyIndex = absorbed(t.Energy.In(paperprop.Millijoule), t.Span, t.StripWidth, t.Grammage)
	return r, nil
}

// absorbed returns a work in mJ over the area of a strip, and over its mass.
func absorbed(work float64, span, width paperprop.Length, g paperprop.Grammage) (paperprop.EnergyPerArea, paperprop.SpecificEnergy) {
	z := 1000 * work / (span.In(paperprop.Millimetre) * width.In(paperprop.Millimetre)) // mJ/mm² is 1000 J/m²
	return paperprop.EnergyPerArea(z) * paperprop.JoulePerSquareMetre,
		paperprop.SpecificEnergy(z/g.In(paperprop.GramPerSquareMetre)) * paperprop.KilojoulePerKilogram // J/g
}

var tensileEnergy = &calc.Description[TensileEnergy, TensileEnergyResult]{
	Name:    "tensile-energy",
	Title:   "Tensile energy absorption and index",
	Answers: "How much work a strip takes up before it breaks (TEA), for its area and mass.",
	Formula: []string{"Z = W/(l*b)", "Z_i = Z/g"},
	Source:  "definitions of ISO 1924-3 and T 494 (seen)",
	Status:  calc.Published,
	Example: "energy=113 mJ; span=100 mm; grammage=121.4 g/m2",
	Mistakes: []string{
		"The area between the clamps counts, not that of the whole strip.",
		"The work after the greatest force does not count.",
	},
	Compute: TensileEnergy.compute,
	Fields: func(f *calc.Form, in *TensileEnergy, out *TensileEnergyResult) {
		calc.In(f, &in.Energy, "energy", "W", "mJ", "under force against elongation up to greatest force").From(0)
		betweenClamps(f, &in.Span)
		widthOfStrip(f, &in.StripWidth)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		energyOutputs(f, &out.TensileEnergy, &out.TensileEnergyIndex)
	},
}

func energyOutputs(f *calc.Form, z *paperprop.EnergyPerArea, index *paperprop.SpecificEnergy) {
	calc.Out(f, z, "tensile-energy", "Z", "J/m2", "work over span times width").Report(threeFigures(), tensileReadings, calc.Memory)
	calc.Out(f, index, "tensile-energy-index", "Z_i", "J/g", "that over grammage").Report(threeFigures(), tensileReadings, calc.Memory)
}

// TensileStiffness is the resistance of a strip to a small elongation.
type TensileStiffness struct {
	Slope      paperprop.ForcePerLength // steepest slope of force against elongation, above zero
	Span       paperprop.Length         // between the clamps, above zero
	StripWidth paperprop.Length         // zero stands for 15 mm
	Thickness  paperprop.Length         // above zero
	Grammage   paperprop.Grammage       // conditioned, above zero
}

// TensileStiffnessResult is the stiffness per width, that over the grammage, and
// the modulus.
type TensileStiffnessResult struct {
	TensileStiffness      paperprop.ForcePerLength
	TensileStiffnessIndex paperprop.StrengthIndex
	Modulus               paperprop.Pressure
}

// Calculate returns the stiffness k·l/b, that over the grammage, and that over the
// thickness.
func (t TensileStiffness) Calculate() (TensileStiffnessResult, error) {
	return tensileStiffness.Calculate(t)
}

func (t TensileStiffness) compute() (TensileStiffnessResult, error) {
	stiffness := stiff(t.Slope.In(paperprop.KilonewtonPerMetre), t.Span, t.StripWidth)
	modulus := stiffness.In(paperprop.KilonewtonPerMetre) / t.Thickness.In(paperprop.Millimetre) // N/mm²
	return TensileStiffnessResult{
		TensileStiffness:      stiffness,
		TensileStiffnessIndex: index(stiffness, t.Grammage),
		Modulus:               paperprop.Pressure(modulus) * paperprop.Megapascal,
	}, nil
}

// stiff converts a slope of force against elongation, in N/mm, to one of force over
// width against stretch.
func stiff(slope float64, span, width paperprop.Length) paperprop.ForcePerLength {
	return paperprop.ForcePerLength(slope*float64(span/width)) * paperprop.KilonewtonPerMetre
}

var tensileStiffness = &calc.Description[TensileStiffness, TensileStiffnessResult]{
	Name:    "tensile-stiffness",
	Title:   "Tensile stiffness, index and modulus",
	Answers: "How stiff a strip is against a small stretch, for its width, grammage and thickness (Young's modulus).",
	Formula: []string{"E_b = k*l/b", "E_i = E_b/g", "E = E_b/t"},
	Source:  "definitions: ISO 1924-3:2005, 3.8 to 3.10 (seen)",
	Status:  calc.Published,
	Example: "slope=112 N/mm; span=100 mm; thickness=168 um; grammage=121.4 g/m2",
	Mistakes: []string{
		"The modulus depends on how thickness was measured; the index does not.",
		"Clamps that slip, and slack, take off the slope.",
	},
	Compute: TensileStiffness.compute,
	Fields: func(f *calc.Form, in *TensileStiffness, out *TensileStiffnessResult) {
		calc.In(f, &in.Slope, "slope", "k", "N/mm", "steepest, of force against elongation").Above(0)
		betweenClamps(f, &in.Span)
		widthOfStrip(f, &in.StripWidth)
		calc.In(f, &in.Thickness, "thickness", "t", "um", "of a single sheet (caliper)").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "conditioned").Above(0)
		stiffnessOutput(f, &out.TensileStiffness)
		calc.Out(f, &out.TensileStiffnessIndex, "tensile-stiffness-index", "E_i", "kN.m/g", "stiffness over grammage; MN.m/kg").
			Report(threeFigures(), tensileReadings, calc.Memory)
		calc.Out(f, &out.Modulus, "modulus", "E", "GPa", "stiffness over thickness").Report(threeFigures(), tensileReadings, calc.Memory)
	},
}

func stiffnessOutput(f *calc.Form, stiffness *paperprop.ForcePerLength) {
	calc.Out(f, stiffness, "tensile-stiffness", "E_b", "kN/m", "slope of force over width against stretch").
		Report(threeFigures(), tensileReadings, calc.Memory)
}
