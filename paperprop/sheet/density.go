package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Density is the density of a sheet, from grammage and thickness.
type Density struct {
	Grammage     paperprop.Grammage // above zero, same climate as Thickness
	Thickness    paperprop.Length   // of a single sheet, above zero
	FibreDensity paperprop.Density  // of the solid, used for the voids only; zero stands for 1500 kg/m³
}

// DensityResult is density, bulk and voids.
type DensityResult struct {
	Density   paperprop.Density // apparent
	Bulk      paperprop.SpecificVolume
	VoidShare paperprop.Fraction // by volume
}

// Calculate returns the density g/t, its reciprocal and the voids.
func (d Density) Calculate() (DensityResult, error) { return density.Calculate(d) }

func (d Density) compute() (DensityResult, error) {
	rho, bulk := apparent(d.Grammage, d.Thickness)
	voids := result.Rest(1, float64(rho/d.FibreDensity))
	if voids < 0 {
		return DensityResult{}, calc.Refuse("density", rho, "at most fibre-density %v: is a unit wrong?", d.FibreDensity)
	}
	return DensityResult{
		Density:   rho,
		Bulk:      bulk,
		VoidShare: paperprop.Fraction(voids),
	}, nil
}

// apparent returns the density of a sheet with its voids, and the reciprocal.
func apparent(grammage paperprop.Grammage, thickness paperprop.Length) (paperprop.Density, paperprop.SpecificVolume) {
	g, t := grammage.In(paperprop.GramPerSquareMetre), thickness.In(paperprop.Micrometre)
	return paperprop.Density(1000*g/t) * paperprop.KilogramPerCubicMetre,
		paperprop.SpecificVolume(t/g) * paperprop.CubicCentimetrePerGram
}

const thicknessReadings = "ISO 534: 20 readings of thickness, 10 of density and bulk"

var density = &calc.Description[Density, DensityResult]{
	Name:    "density",
	Title:   "Apparent density and bulk of a sheet",
	Answers: "How dense a sheet is, its bulk, and how much of it is voids.",
	Formula: []string{"rho = g/t", "v_s = t/g", "x_v = 1 - rho/rho_f"},
	Source:  "definition: ISO 534:2011 (scope seen); fibre density 1500 kg/m3 from memory",
	Status:  calc.Published,
	Example: "grammage=124 g/m2; thickness=198 um",
	Mistakes: []string{
		"Single-sheet and bulking thickness give different densities.",
		"T 411 presses the sheet with 50 kPa (seen), ISO 534 with 100 kPa (memory): thickness by one is not thickness by the other.",
	},
	Compute: Density.compute,
	Fields: func(f *calc.Form, in *Density, out *DensityResult) {
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "same climate as thickness").Above(0)
		calc.In(f, &in.Thickness, "thickness", "t", "um", "of a single sheet (caliper)").Above(0)
		calc.In(f, &in.FibreDensity, "fibre-density", "rho_f", "kg/m3", "of the solid; for void-share alone").Above(0).Default(1500)
		calc.Out(f, &out.Density, "density", "rho", "kg/m3", "apparent").Report(threeFigures(), thicknessReadings, calc.Memory)
		calc.Out(f, &out.Bulk, "bulk", "v_s", "cm3/g", "volume of a mass").Report(threeFigures(), thicknessReadings, calc.Memory)
		calc.Out(f, &out.VoidShare, "void-share", "x_v", "%", "by volume")
	},
}

// BulkingThickness is the thickness of a sheet in a pack.
type BulkingThickness struct {
	PackThickness paperprop.Length   // of the whole pack, above zero
	Count         paperprop.Count    // sheets in the pack, at least 2
	Grammage      paperprop.Grammage // of a sheet, above zero
}

// BulkingThicknessResult is the thickness of one sheet in the pack, and its density
// and bulk.
type BulkingThicknessResult struct {
	BulkingThickness paperprop.Length
	Density          paperprop.Density // apparent
	Bulk             paperprop.SpecificVolume
}

// Calculate returns the thickness t_p/n, and density and bulk from it.
func (b BulkingThickness) Calculate() (BulkingThicknessResult, error) {
	return bulkingThickness.Calculate(b)
}

func (b BulkingThickness) compute() (BulkingThicknessResult, error) {
	thickness := paperprop.Length(b.PackThickness.In(paperprop.Micrometre)/float64(b.Count)) * paperprop.Micrometre
	rho, bulk := apparent(b.Grammage, thickness)
	return BulkingThicknessResult{BulkingThickness: thickness, Density: rho, Bulk: bulk}, nil
}

var bulkingThickness = &calc.Description[BulkingThickness, BulkingThicknessResult]{
	Name:    "bulking-thickness",
	Title:   "Bulking thickness of a pack of sheets",
	Answers: "How thick a sheet is in a pack, and its density and bulk there.",
	Formula: []string{"t_b = t_p/n", "rho = g/t_b", "v_s = t_b/g"},
	Source:  "pack of sheets by ISO 534:2011 (scope and note seen)",
	Status:  calc.Published,
	Example: "pack-thickness=1.632 mm; count=10; grammage=121.4 g/m2",
	Mistakes: []string{
		"It is not the single-sheet thickness, which is mostly larger: the hills of one sheet lie in the valleys of the next.",
		"It is not for board, corrugated board (ISO 3034) or tissue (ISO 12625-3).",
	},
	Compare: []calc.Comparison{{
		Name: "density", Inputs: "grammage=121.4 g/m2; thickness=168 um",
		Why: "the same paper by its single-sheet thickness has another density and bulk: say which was measured",
	}},
	Compute: BulkingThickness.compute,
	Fields: func(f *calc.Form, in *BulkingThickness, out *BulkingThicknessResult) {
		calc.In(f, &in.PackThickness, "pack-thickness", "t_p", "mm", "of the whole pack").Above(0)
		calc.In(f, &in.Count, "count", "n", "1", "sheets in the pack").From(2)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of a sheet").Above(0)
		calc.Out(f, &out.BulkingThickness, "bulking-thickness", "t_b", "um", "of a sheet in the pack").Report(threeFigures(), thicknessReadings, calc.Memory)
		calc.Out(f, &out.Density, "density", "rho", "kg/m3", "apparent, in the pack").Report(threeFigures(), thicknessReadings, calc.Memory)
		calc.Out(f, &out.Bulk, "bulk", "v_s", "cm3/g", "volume of a mass").Report(threeFigures(), thicknessReadings, calc.Memory)
	},
}
