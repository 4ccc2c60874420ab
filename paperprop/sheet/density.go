package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Density is that of a sheet from its grammage and thickness.
type Density struct {
	Grammage     paperprop.Grammage // above zero, same climate as Thickness
	Thickness    paperprop.Length   // of a single sheet, above zero
	FibreDensity paperprop.Density  // of the solid, for the voids alone; zero stands for 1500 kg/m³
}

// DensityResult is density, bulk and voids.
type DensityResult struct {
	Density   paperprop.Density // apparent
	Bulk      paperprop.SpecificVolume
	VoidShare paperprop.Fraction // by volume
}

// Calculate returns g/t and its reciprocal.
func (d Density) Calculate() (DensityResult, error) { return density.Calculate(d) }

func (d Density) compute() (DensityResult, error) {
	g, t := d.Grammage.In(paperprop.GramPerSquareMetre), d.Thickness.In(paperprop.Micrometre)
	rho := paperprop.Density(1000*g/t) * paperprop.KilogramPerCubicMetre
	if rho > d.FibreDensity {
		return DensityResult{}, calc.Refuse("density", rho, "at most fibre-density %v: is a unit wrong?", d.FibreDensity)
	}
	return DensityResult{
		Density:   rho,
		Bulk:      paperprop.SpecificVolume(t/g) * paperprop.CubicCentimetrePerGram,
		VoidShare: paperprop.Fraction(1 - float64(rho/d.FibreDensity)),
	}, nil
}

var density = &calc.Description[Density, DensityResult]{
	Name:     "density",
	Title:    "Apparent density and bulk of a sheet",
	Answers:  "How dense a sheet is, its bulk, and how much of it is voids.",
	Formula:  []string{"rho = g/t", "v_s = t/g", "x_v = 1 - rho/rho_f"},
	Source:   "definition: ISO 534:2011 (scope seen); fibre density 1500 kg/m3 from memory",
	Status:   calc.Published,
	Example:  "grammage=124 g/m2; thickness=198 um",
	Mistakes: []string{"Single-sheet and bulking thickness give different densities."},
	Compute:  Density.compute,
	Fields: func(f *calc.Form, in *Density, out *DensityResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "same climate as thickness").Above(0)
		calc.In(f, &in.Thickness, "thickness", "t", "um", "of a single sheet").Above(0)
		calc.In(f, &in.FibreDensity, "fibre-density", "rho_f", "kg/m3", "of the solid; for void-share alone").Above(0).Default(1500)
		calc.Out(f, &out.Density, "density", "rho", "kg/m3", "apparent").Report(threeFigures(), "ISO 534", calc.Memory)
		calc.Out(f, &out.Bulk, "bulk", "v_s", "cm3/g", "volume of a mass").Report(threeFigures(), "ISO 534", calc.Memory)
		calc.Out(f, &out.VoidShare, "void-share", "x_v", "%", "by volume")
	},
}
