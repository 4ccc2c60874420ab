package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

// Density is the density of stock from the densities of its parts. Exactly one of
// WaterDensity and Temperature is given.
type Density struct {
	Consistency   paperprop.Consistency  // filler included
	WaterDensity  paperprop.Density      // zero: from Temperature
	Temperature   *paperprop.Temperature // 0 to 99 °C; nil: WaterDensity is given
	FibreDensity  paperprop.Density      // of the wet fibre wall; zero stands for 1500 kg/m³
	FillerShare   paperprop.Fraction     // of all dry matter
	FillerDensity paperprop.Density      // must be given with a FillerShare
	AirShare      paperprop.Fraction     // entrained air over the volume of stock, below 100 %
}

// DensityResult is the density of stock and the dry matter in its volume.
type DensityResult struct {
	Density       paperprop.Density
	Concentration paperprop.Concentration
	WaterDensity  paperprop.Density // the one used
	Warnings      calc.Warnings
}

// Calculate returns the density of the parts together,
// 1/ρ = c(1 − x_f)/ρ_f + c·x_f/ρ_a + (1 − c)/ρ_w, less the air's share of the
// volume.
func (d Density) Calculate() (DensityResult, error) { return density.Calculate(d) }

// airFree is the consistency above which stock holds air (memory: 8 to 10 %).
const airFree = 10 * paperprop.Percent

var airFilled = calc.Warnings{{Code: "air-filled", Text: "above about 10 % stock holds air (memory): " +
	"without an air-share the density is an upper bound"}}

func (d Density) compute() (DensityResult, error) {
	r := DensityResult{WaterDensity: d.WaterDensity}
	if d.Temperature != nil {
		var err error
		if r.WaterDensity, err = water.Density(*d.Temperature, 1.01325*paperprop.BarAbsolute); err != nil {
			return r, err
		}
	}
	if d.FillerShare > 0 && d.FillerDensity == 0 {
		return r, calc.Refuse("filler-share", d.FillerShare, "with it a filler-density (carbonate about 2700 kg/m3, kaolin 2600, from memory)")
	}
	c, filler := float64(d.Consistency), float64(d.FillerShare)
	volume := c*(1-filler)/d.FibreDensity.In(paperprop.KilogramPerCubicMetre) +
		(1-c)/r.WaterDensity.In(paperprop.KilogramPerCubicMetre)
	if filler > 0 {
		volume += c * filler / d.FillerDensity.In(paperprop.KilogramPerCubicMetre)
	}
	rho := (1 - float64(d.AirShare)) / volume
	r.Density = paperprop.Density(rho) * paperprop.KilogramPerCubicMetre
	r.Concentration = paperprop.Concentration(c*rho) * paperprop.GramPerLitre
	if d.Consistency > airFree && d.AirShare == 0 {
		r.Warnings = airFilled
	}
	return r, nil
}

var density = &calc.Description[Density, DensityResult]{
	Name:    "stock-density",
	Title:   "Density of stock",
	Answers: "How dense a stock is at its temperature, and how many grams of dry matter a litre of it holds.",
	Formula: []string{"rho = (1 - x_a)/(c*((1 - x_f)/rho_f + x_f/rho_a) + (1 - c)/rho_w)", "C = c*rho"},
	Source:  "volumes add up; water by IAPWS-IF97 at 101.325 kPa; fibre wall 1500 kg/m3 from memory (1500 to 1550)",
	Status:  calc.CommonPractice,
	Example: "consistency=4.2 %; temperature=48 degC",
	Mistakes: []string{
		"4 % is 40 g/L only where the stock weighs 1000 kg/m3: it is 40.5 g/L at 20 degC and 39.9 at 60.",
		"From 20 to 60 degC the density falls by 15 kg/m3, more than four points of consistency add.",
	},
	Compute: Density.compute,
	Fields: func(f *calc.Form, in *Density, out *DensityResult) {
		calc.In(f, &in.Consistency, "consistency", "c", "%", "filler included")
		f.Exactly(1,
			calc.In(f, &in.WaterDensity, "water-density", "rho_w", "kg/m3", "of the water").Above(0),
			calc.Pointer(f, &in.Temperature, "temperature", "T", "degC", "of pure water at 101.325 kPa").From(0).UpTo(99),
		)
		calc.In(f, &in.FibreDensity, "fibre-density", "rho_f", "kg/m3", "of the wet fibre wall").Above(0).Default(1500)
		calc.In(f, &in.FillerShare, "filler-share", "x_f", "%", "filler over all dry matter").From(0).UpTo(100).Default(0)
		calc.In(f, &in.FillerDensity, "filler-density", "rho_a", "kg/m3", "of the filler, needed with a filler-share").Above(0).Optional()
		calc.In(f, &in.AirShare, "air-share", "x_a", "%", "entrained air over stock volume").From(0).Below(100).Default(0)
		calc.Out(f, &out.Density, "density", "rho", "kg/m3", "of the stock")
		calc.Out(f, &out.Concentration, "concentration", "C", "g/L", "dry matter in the volume of stock")
		calc.Between(f, &out.WaterDensity, "rho_w", "kg/m3", "density of the water")
		f.Warnings(&out.Warnings)
	},
}
