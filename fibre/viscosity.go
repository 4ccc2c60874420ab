package fibre

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

var cupriethylenediamine = calc.Caution{Code: "cupriethylenediamine", Text: "Cupriethylenediamine is caustic, poisonous and harms by breath and skin: " +
	"work in the hood with gloves and eye protection, collect the copper; the safety data sheet, local codes and licensed practice come first."}

// notTied is a mistake common to both viscosities.
const notTied = "A capillary viscosity at 0.5 % and a limiting viscosity number are two tests: one becomes the other only by a relation that is named."

// CapillaryViscosity is the viscosity of a solution by the time of efflux.
type CapillaryViscosity struct {
	ViscometerConstant paperprop.ViscometerConstant // of the tube, above zero
	Time               paperprop.Duration           // of efflux, above zero
	Density            paperprop.Density            // of the solution, above zero
}

// CapillaryViscosityResult is the viscosity.
type CapillaryViscosityResult struct {
	Viscosity paperprop.Viscosity
}

// Calculate returns the viscosity C·τ·ρ.
func (v CapillaryViscosity) Calculate() (CapillaryViscosityResult, error) {
	return capillaryViscosity.Calculate(v)
}

func (v CapillaryViscosity) compute() (CapillaryViscosityResult, error) {
	eta := v.ViscometerConstant.In(paperprop.SquareMillimetrePerSquareSecond) * v.Time.In(paperprop.Second) *
		v.Density.In(paperprop.GramPerCubicCentimetre)
	return CapillaryViscosityResult{paperprop.Viscosity(eta) * paperprop.MillipascalSecond}, nil
}

var capillaryViscosity = &calc.Description[CapillaryViscosity, CapillaryViscosityResult]{
	Name:    "capillary-viscosity",
	Title:   "Capillary viscosity of dissolved pulp",
	Answers: "How viscous a solution of pulp is, from the time that it takes through a tube.",
	Formula: []string{"eta = C_v*tau*rho"},
	Source:  "T 230: 0.5 % in 0.5 M cupriethylenediamine (seen); formula and density from memory",
	Status:  calc.Memory,
	Example: "viscometer-constant=0.0980 mm2/s2; time=158.4 s; density=1.052 g/cm3",
	Mistakes: []string{
		"The density is that of the solution, 1.052 g/cm3 in T 230 (memory): with water's the result is 5 % too low.",
		notTied,
	},
	Cautions: []*calc.Caution{&calc.LabChemicals, &cupriethylenediamine},
	Compute:  CapillaryViscosity.compute,
	Fields: func(f *calc.Form, in *CapillaryViscosity, out *CapillaryViscosityResult) {
		calc.In(f, &in.ViscometerConstant, "viscometer-constant", "C_v", "mm2/s2", "of the tube").Above(0)
		calc.In(f, &in.Time, "time", "tau", "s", "of efflux").Above(0)
		calc.In(f, &in.Density, "density", "rho", "g/cm3", "of the solution").Above(0)
		calc.Out(f, &out.Viscosity, "viscosity", "eta", "mPa.s", "of the solution")
	},
}

// LimitingViscosity is the limiting viscosity number of cellulose.
type LimitingViscosity struct {
	ViscosityRatio paperprop.Ratio         // solution over solvent, above 1
	Concentration  paperprop.Concentration // of cellulose, above zero
	MartinConstant *paperprop.Ratio        // with the decimal logarithm, zero or more; nil stands for 0.13
}

// LimitingViscosityResult is the limiting viscosity number, and its product with
// the concentration.
type LimitingViscosityResult struct {
	ViscosityProduct        paperprop.Ratio
	LimitingViscosityNumber paperprop.SpecificVolume
	Warnings                calc.Warnings
}

// Calculate returns x/C, where x solves x·10^(k·x) = η_r − 1.
func (v LimitingViscosity) Calculate() (LimitingViscosityResult, error) {
	return limitingViscosity.Calculate(v)
}

var oddProduct = calc.Warnings{{Code: "product", Text: "ISO 5351 asks for a viscosity-product of 3.0 +- 0.4 (memory): take another concentration"}}

func (v LimitingViscosity) compute() (LimitingViscosityResult, error) {
	x := martin(float64(v.ViscosityRatio)-1, math.Ln10*float64(*v.MartinConstant))
	r := LimitingViscosityResult{
		ViscosityProduct:        paperprop.Ratio(x),
		LimitingViscosityNumber: paperprop.SpecificVolume(x/v.Concentration.In(paperprop.GramPerMillilitre)) * paperprop.CubicCentimetrePerGram,
	}
	if x < 2.6-1e-12 || x > 3.4+1e-12 {
		r.Warnings = oddProduct
	}
	return r, nil
}

// martin solves x·exp(a·x) = y for x, with y above zero and a not below. In
// logarithms the curve bends one way only, so Newton's steps from below always
// rise.
func martin(y, a float64) float64 {
	x := y / (1 + a*y)
	for range 60 {
		step := (math.Log(x/y) + a*x) / (1/x + a)
		if x -= step; !(math.Abs(step) > 1e-16*x) {
			break
		}
	}
	return x
}

var limitingViscosity = &calc.Description[LimitingViscosity, LimitingViscosityResult]{
	Name:    "limiting-viscosity",
	Title:   "Limiting viscosity number",
	Answers: "What the limiting viscosity number of cellulose is, from the viscosity of one solution.",
	Formula: []string{"eta_r = 1 + x*pow(10, k_m*x)", "eta_0 = x/C"},
	Method:  "x is the root of eta_r = 1 + x*pow(10, k_m*x), found by Newton's method in logarithms",
	Source:  "ISO 5351, Martin's equation with 0.13 (memory)",
	Status:  calc.Memory,
	Example: "viscosity-ratio=8.20; concentration=0.0036 g/mL",
	Mistakes: []string{
		"The constant belongs to the decimal logarithm: with the natural one it is 0.30.",
		"Lignin dissolves too: above 0.5 % the number is not for a specification (seen).",
		notTied,
	},
	Cautions: []*calc.Caution{&calc.LabChemicals, &cupriethylenediamine},
	Compute:  LimitingViscosity.compute,
	Fields: func(f *calc.Form, in *LimitingViscosity, out *LimitingViscosityResult) {
		calc.In(f, &in.ViscosityRatio, "viscosity-ratio", "eta_r", "1", "solution over solvent").Above(1)
		calc.In(f, &in.Concentration, "concentration", "C", "g/mL", "of cellulose").Above(0)
		calc.Pointer(f, &in.MartinConstant, "martin-constant", "k_m", "1", "with the decimal logarithm").From(0).Default(0.13)
		calc.Out(f, &out.ViscosityProduct, "viscosity-product", "x", "1", "number times concentration")
		calc.Out(f, &out.LimitingViscosityNumber, "limiting-viscosity-number", "eta_0", "mL/g", "at vanishing concentration")
		f.Warnings(&out.Warnings)
	},
}

// A DegreeRelation gives a degree of polymerisation from a limiting viscosity
// number.
type DegreeRelation string

// The two relations, with [η] in mL/g. They differ by some 10 %.
const (
	RelationScan   DegreeRelation = "scan"   // P^0.905 = 0.75·[η], SCAN C15:62
	RelationLinear DegreeRelation = "linear" // P = 1.65·[η], 1989
)

// PolymerisationDegree is the mean chain length of cellulose, in glucose units.
type PolymerisationDegree struct {
	LimitingViscosityNumber paperprop.SpecificVolume // above zero
	Relation                DegreeRelation
}

// PolymerisationDegreeResult is the degree of polymerisation.
type PolymerisationDegreeResult struct {
	PolymerisationDegree paperprop.Ratio
}

// Calculate returns (0.75·[η])^(1/0.905) or 1.65·[η], [η] in mL/g.
func (d PolymerisationDegree) Calculate() (PolymerisationDegreeResult, error) {
	return polymerisationDegree.Calculate(d)
}

func (d PolymerisationDegree) compute() (PolymerisationDegreeResult, error) {
	eta := d.LimitingViscosityNumber.In(paperprop.CubicCentimetrePerGram)
	if d.Relation == RelationScan {
		return PolymerisationDegreeResult{paperprop.Ratio(math.Pow(0.75*eta, 1/0.905))}, nil
	}
	return PolymerisationDegreeResult{paperprop.Ratio(1.65 * eta)}, nil
}

var polymerisationDegree = &calc.Description[PolymerisationDegree, PolymerisationDegreeResult]{
	Name:    "polymerisation-degree",
	Title:   "Degree of polymerisation",
	Answers: "How many glucose units a chain of cellulose has on average (DP), by one of two relations.",
	Formula: []string{"scan: P = pow(0.75*eta_0/eta_1, 1/0.905)", "linear: P = 1.65*eta_0/eta_1"},
	Source:  `abstract of "Cellulose molecular weights determined by viscometry" (1989), which gives both and calls the first incorrect (seen)`,
	Status:  calc.Published,
	Example: "limiting-viscosity-number=823 mL/g; relation=scan",
	Mistakes: []string{
		"A degree without its relation says little, and a trend across both says nothing.",
		"The number is in mL/g: in dL/g it is a hundredth.",
		"The abstract was seen with P = 1.65*[eta]. A form with an exponent, P^0.90 = 1.65*[eta], is remembered too (memory): at 823 mL/g it gives 3027, not 1358.",
	},
	Compare: []calc.Comparison{{
		Inputs: "limiting-viscosity-number=823 mL/g; relation=linear",
		Why:    "the relation of 1989",
	}},
	Compute: PolymerisationDegree.compute,
	Fields: func(f *calc.Form, in *PolymerisationDegree, out *PolymerisationDegreeResult) {
		one := paperprop.CubicCentimetrePerGram
		calc.In(f, &in.LimitingViscosityNumber, "limiting-viscosity-number", "eta_0", "mL/g", "of the cellulose").Above(0)
		calc.InWord(f, &in.Relation, "relation", "P^0.905 = 0.75 eta_0 (SCAN C15:62), or P = 1.65 eta_0 (1989)", RelationScan, RelationLinear).Label()
		calc.Out(f, &out.PolymerisationDegree, "polymerisation-degree", "P", "1", "mean")
		calc.Between(f, &one, "eta_1", "mL/g", "unit in which the relations hold")
	},
}
