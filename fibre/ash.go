package fibre

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

var hotFurnace = calc.Caution{Code: "hot-furnace", Text: "A furnace and a crucible out of it burn long after they glow, and what is lit in it smokes: " +
	"tongs, gloves, eye protection, the hood; the laboratory's own rules, local codes and licensed practice come first."}

// Ash is the residue of a sample on ignition.
type Ash struct {
	ResidueMass         paperprop.Mass        // without the crucible, at most the dry sample
	Mass                paperprop.Mass        // of the sample as weighed, above zero
	Moisture            paperprop.Moisture    // of a separate piece of the same sample, below 100 %
	IgnitionTemperature paperprop.Temperature // within 25 K of 525 or 900 °C; reported with the result
}

// AshResult is the residue over the dry matter.
type AshResult struct {
	AshShare paperprop.Fraction
}

// Calculate returns the ash m_r/(m(1 − w)).
func (a Ash) Calculate() (AshResult, error) { return ash.Calculate(a) }

func (a Ash) compute() (AshResult, error) {
	t := a.IgnitionTemperature.Celsius()
	if math.Abs(t-525) > 25 && math.Abs(t-900) > 25 {
		return AshResult{}, calc.Refuse("ignition-temperature", a.IgnitionTemperature, "525 or 900 degC, within 25 K")
	}
	dry := a.Mass.In(paperprop.Gram) * (1 - float64(a.Moisture))
	residue := a.ResidueMass.In(paperprop.Gram)
	if result.Rest(dry, residue) < 0 {
		return AshResult{}, calc.Refuse("residue-mass", a.ResidueMass, "at most the dry sample, %v", paperprop.Mass(dry)*paperprop.Gram)
	}
	return AshResult{paperprop.Fraction(residue / dry)}, nil
}

var ash = &calc.Description[Ash, AshResult]{
	Name:    "ash",
	Title:   "Ash of pulp or paper",
	Answers: "What part of the dry matter is left after ignition.",
	Formula: []string{"a = m_r/(m*(1 - w))"},
	Source:  "T 413 and T 211: of the moisture-free sample, moisture of a piece beside it (seen on summary pages)",
	Status:  calc.Published,
	Example: "residue-mass=0.2115 g; mass=1.5000 g; moisture=6.0 %; ignition-temperature=525 degC",
	Mistakes: []string{
		"Ash is not filler: at 900 degC carbonate leaves 56 % of itself, clay 86 to 89 % (seen).",
		"The temperature belongs to the result: 525 and 900 degC give two ashes of one sheet.",
		"Ash of the moist sample is too low: 14.1 % in place of 15 % here.",
	},
	Compare: []calc.Comparison{{
		Inputs: "residue-mass=0.1185 g; mass=1.5000 g; moisture=6.0 %; ignition-temperature=900 degC",
		Why:    "the same sheet at 900 degC, if all its ash is carbonate: 56.03 % of it",
	}},
	Cautions: []*calc.Caution{&hotFurnace},
	Compute:  Ash.compute,
	Fields: func(f *calc.Form, in *Ash, out *AshResult) {
		calc.In(f, &in.ResidueMass, "residue-mass", "m_r", "g", "after ignition, without the crucible").From(0)
		calc.In(f, &in.Mass, "mass", "m", "g", "of the sample as weighed").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of a piece beside it").From(0).Below(100)
		calc.In(f, &in.IgnitionTemperature, "ignition-temperature", "T", "degC", "525 or 900 degC, within 25 K; belongs to the result").From(500).UpTo(925).Label()
		calc.Out(f, &out.AshShare, "ash-share", "a", "%", "of dry matter")
	},
}

// FillerContent is the filler that corresponds to an ash.
type FillerContent struct {
	AshShare      paperprop.Fraction // of dry matter, 0 to 100 %
	ResidueFactor paperprop.Ratio    // ash over filler at the temperature of ignition, above zero, at most 1
}

// FillerContentResult is the filler content, if all ash comes from that filler.
type FillerContentResult struct {
	FillerShare paperprop.Fraction // of dry matter
}

// Calculate returns the filler content a/f_r.
func (c FillerContent) Calculate() (FillerContentResult, error) { return fillerContent.Calculate(c) }

func (c FillerContent) compute() (FillerContentResult, error) {
	filler := float64(c.AshShare) / float64(c.ResidueFactor)
	if result.Rest(1, filler) < 0 {
		return FillerContentResult{}, calc.Refuse("filler-share", paperprop.Fraction(filler), "at most 100 %%: the ash is not from this filler alone")
	}
	return FillerContentResult{paperprop.Fraction(filler)}, nil
}

var fillerContent = &calc.Description[FillerContent, FillerContentResult]{
	Name:    "filler-content",
	Title:   "Filler content from ash",
	Answers: "How much filler (clay, carbonate or another pigment) a sheet holds, if all its ash comes from one.",
	Formula: []string{"x_f = a/f_r"},
	Source:  "residue of 56 % for carbonate and 86 to 89 % for clay at 900 degC (seen on a page on ISO 2144)",
	Status:  calc.CommonPractice,
	Example: "ash-share=11.2 %; residue-factor=0.56",
	Mistakes: []string{
		"No factor holds for all fillers: 11.2 % of ash is 20 % of carbonate or 12.9 % of clay.",
		"At 525 degC carbonate keeps its CO2: the factor 0.56 belongs to 900 degC.",
		"Recovered paper brings mixed fillers: see filler-two-temperatures.",
	},
	Compare: []calc.Comparison{{
		Inputs: "ash-share=11.2 %; residue-factor=0.87",
		Why:    "if the ash is that of clay (0.86 to 0.89)",
	}},
	Compute: FillerContent.compute,
	Fields: func(f *calc.Form, in *FillerContent, out *FillerContentResult) {
		calc.In(f, &in.AshShare, "ash-share", "a", "%", "of dry matter").From(0).UpTo(100)
		calc.In(f, &in.ResidueFactor, "residue-factor", "f_r", "1", "ash over filler at that temperature").Above(0).UpTo(1)
		calc.Out(f, &out.FillerShare, "filler-share", "x_f", "%", "of dry matter, if all ash comes from one filler")
	},
}

// FillerTwoTemperatures separates carbonate from other ash by igniting at two
// temperatures.
type FillerTwoTemperatures struct {
	LowAshShare   paperprop.Fraction // at 525 °C, 0 to 100 %
	HighAshShare  paperprop.Fraction // at 900 °C, at most LowAshShare
	CarbonateLoss paperprop.Fraction // share of carbonate that leaves as CO2; zero stands for 43.9713 %
}

// FillerTwoTemperaturesResult is the composition of the ash at 525 °C.
type FillerTwoTemperaturesResult struct {
	CarbonateShare paperprop.Fraction // of dry matter
	OtherAshShare  paperprop.Fraction // of dry matter
}

// Calculate returns the carbonate (a_5 − a_9)/f_c, and the rest of a_5.
func (c FillerTwoTemperatures) Calculate() (FillerTwoTemperaturesResult, error) {
	return fillerTwoTemperatures.Calculate(c)
}

func (c FillerTwoTemperatures) compute() (FillerTwoTemperaturesResult, error) {
	low, high := float64(c.LowAshShare), float64(c.HighAshShare)
	lost := result.Rest(low, high)
	if lost < 0 {
		return FillerTwoTemperaturesResult{}, calc.Refuse("high-ash-share", c.HighAshShare, "at most low-ash-share %v", c.LowAshShare)
	}
	carbonate := lost / float64(c.CarbonateLoss)
	other := result.Rest(low, carbonate)
	if other < 0 {
		return FillerTwoTemperaturesResult{}, calc.Refuse("high-ash-share", c.HighAshShare,
			"at least %v: less is left than carbonate alone would leave", paperprop.Fraction(low*(1-float64(c.CarbonateLoss))))
	}
	return FillerTwoTemperaturesResult{CarbonateShare: paperprop.Fraction(carbonate), OtherAshShare: paperprop.Fraction(other)}, nil
}

var fillerTwoTemperatures = &calc.Description[FillerTwoTemperatures, FillerTwoTemperaturesResult]{
	Name:    "filler-two-temperatures",
	Title:   "Carbonate from ash at two temperatures",
	Answers: "How much of the ash is carbonate (GCC, PCC), from ash at 525 and at 900 degC.",
	Formula: []string{"x_c = (a_5 - a_9)/f_c", "x_o = a_5 - x_c"},
	Source:  "calcium carbonate loses CO2, 44.0095/100.0869 of itself (standard atomic weights, memory)",
	Status:  calc.Memory,
	Example: "low-ash-share=11.0 %; high-ash-share=8.3 %",
	Mistakes: []string{
		"Clay loses water too, 11 to 14 % of itself: take that off first, or it counts as carbonate.",
		"The difference magnifies errors: 0.1 % of ash is 0.23 % of carbonate.",
	},
	Compare: []calc.Comparison{{
		Name:   "filler-content",
		Inputs: "ash-share=8.3 %; residue-factor=0.56",
		Why:    "from the ash at 900 degC alone, if all of it were carbonate's: more filler than there is ash at 525 degC",
	}},
	Compute: FillerTwoTemperatures.compute,
	Fields: func(f *calc.Form, in *FillerTwoTemperatures, out *FillerTwoTemperaturesResult) {
		calc.In(f, &in.LowAshShare, "low-ash-share", "a_5", "%", "at 525 degC").From(0).UpTo(100)
		calc.In(f, &in.HighAshShare, "high-ash-share", "a_9", "%", "at 900 degC").From(0)
		calc.In(f, &in.CarbonateLoss, "carbonate-loss", "f_c", "%", "of carbonate that leaves as CO2").Above(0).UpTo(100).Default(43.9713)
		calc.Out(f, &out.CarbonateShare, "carbonate-share", "x_c", "%", "of dry matter")
		calc.Out(f, &out.OtherAshShare, "other-ash-share", "x_o", "%", "of dry matter")
	},
}
