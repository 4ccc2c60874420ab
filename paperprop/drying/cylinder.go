package drying

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Rate is the drying rate of cylinders, on their full circumference.
type Rate struct {
	Evaporation paperprop.MassFlow // above zero
	Cylinders   paperprop.Count    // steam-heated and touching the sheet: whole, from 1
	Diameter    paperprop.Length   // of a cylinder, above zero
	SheetWidth  paperprop.Length   // at the reel, above zero
}

// RateResult is the surface, and the rate on it.
type RateResult struct {
	DryingSurface paperprop.Area // full circumference
	DryingRate    paperprop.MassFlux
}

// Calculate returns the rate, q_e over the full circumference of all cylinders.
func (r Rate) Calculate() (RateResult, error) { return dryingRate.Calculate(r) }

func (r Rate) compute() (RateResult, error) {
	surface := float64(r.Cylinders) * circumference(r.Diameter, r.SheetWidth)
	return RateResult{
		DryingSurface: paperprop.Area(surface) * paperprop.SquareMetre,
		DryingRate:    paperprop.MassFlux(r.Evaporation.In(paperprop.KilogramPerHour)/surface) * paperprop.KilogramPerHourSquareMetre,
	}, nil
}

// circumference returns the surface of a cylinder over the width of the sheet, in
// m².
func circumference(diameter, width paperprop.Length) float64 {
	return math.Pi * diameter.In(paperprop.Metre) * width.In(paperprop.Metre)
}

// cylinderSection binds the inputs that both drying rates share.
func cylinderSection(f *calc.Form, evaporation *paperprop.MassFlow, cylinders *paperprop.Count, diameter, width *paperprop.Length) {
	calc.In(f, evaporation, "evaporation", "q_e", "kg/h", "water evaporated").Above(0)
	calc.In(f, cylinders, "cylinders", "n", "1", "steam-heated and touching the sheet").From(1)
	cylinderSize(f, diameter, width)
}

func cylinderSize(f *calc.Form, diameter, width *paperprop.Length) {
	calc.In(f, diameter, "diameter", "D", "m", "of a cylinder").Above(0)
	calc.In(f, width, "sheet-width", "b", "m", "at the reel").Above(0)
}

var dryingRate = &calc.Description[Rate, RateResult]{
	Name:    "drying-rate",
	Title:   "Drying rate of a cylinder section",
	Answers: "How much water a square metre of cylinder evaporates in an hour.",
	Formula: []string{"A = n*pi*D*b", "R = q_e/A"},
	Source:  "definition published in TAPPI TIP 0404-07",
	Status:  calc.Published,
	Example: "evaporation=14300 kg/h; cylinders=32; diameter=1.8 m; sheet-width=3.36 m",
	Mistakes: []string{
		"The surface is the full circumference, not the part that the sheet touches.",
		"Not for machines with infrared or impingement drying; report it with the mean steam temperature.",
	},
	Compare: []calc.Comparison{{
		Name:   "contact-drying-rate",
		Inputs: "evaporation=14300 kg/h; cylinders=32; diameter=1.8 m; sheet-width=3.36 m; wrap=230 deg",
		Why:    "on the surface that the sheet touches: higher by 360 deg over the wrap, and not a rate to set beside others'",
	}},
	Compute: Rate.compute,
	Fields: func(f *calc.Form, in *Rate, out *RateResult) {
		cylinderSection(f, &in.Evaporation, &in.Cylinders, &in.Diameter, &in.SheetWidth)
		calc.Out(f, &out.DryingSurface, "drying-surface", "A", "m2", "full circumference")
		calc.Out(f, &out.DryingRate, "drying-rate", "R", "kg/(h m2)", "on the full circumference")
	},
}

// ContactRate is the drying rate of cylinders, on the surface under the sheet.
type ContactRate struct {
	Evaporation paperprop.MassFlow // above zero
	Cylinders   paperprop.Count    // steam-heated and touching the sheet: whole, from 1
	Diameter    paperprop.Length   // of a cylinder, above zero
	SheetWidth  paperprop.Length   // at the reel, above zero
	Wrap        paperprop.Angle    // angle of contact with the sheet, above zero, at most 360°
}

// ContactRateResult is the surface, and the rate on it.
type ContactRateResult struct {
	ContactArea       paperprop.Area
	ContactDryingRate paperprop.MassFlux

	turn paperprop.Angle
}

// Calculate returns the rate, q_e over the surface that the sheet touches.
func (c ContactRate) Calculate() (ContactRateResult, error) { return contactDryingRate.Calculate(c) }

func (c ContactRate) compute() (ContactRateResult, error) {
	area := float64(c.Cylinders) * circumference(c.Diameter, c.SheetWidth) * float64(c.Wrap/fullTurn)
	return ContactRateResult{
		turn:              fullTurn,
		ContactArea:       paperprop.Area(area) * paperprop.SquareMetre,
		ContactDryingRate: paperprop.MassFlux(c.Evaporation.In(paperprop.KilogramPerHour)/area) * paperprop.KilogramPerHourSquareMetre,
	}, nil
}

var contactDryingRate = &calc.Description[ContactRate, ContactRateResult]{
	Name:    "contact-drying-rate",
	Title:   "Drying rate on the surface in contact",
	Answers: "How much water a square metre of cylinder under the sheet evaporates in an hour.",
	Formula: []string{"A = n*pi*D*b*beta/beta_0", "R_c = q_e/A"},
	Source:  "definition",
	Status:  calc.CommonPractice,
	Example: "evaporation=14300 kg/h; cylinders=32; diameter=1.8 m; sheet-width=3.36 m; wrap=230 deg",
	Mistakes: []string{
		"It is not the drying rate of the trade, which takes the full circumference: at a wrap of 230 deg it is 1.57 times as high.",
	},
	Compute: ContactRate.compute,
	Fields: func(f *calc.Form, in *ContactRate, out *ContactRateResult) {
		cylinderSection(f, &in.Evaporation, &in.Cylinders, &in.Diameter, &in.SheetWidth)
		wrapAngle(f, &in.Wrap)
		calc.Out(f, &out.ContactArea, "contact-area", "A", "m2", "under the sheet")
		calc.Out(f, &out.ContactDryingRate, "contact-drying-rate", "R_c", "kg/(h m2)", "on the surface in contact: never compare with drying-rate")
		calc.Between(f, &out.turn, "beta_0", "deg", "a full turn")
	},
}

const fullTurn = 360 * paperprop.Degree

func wrapAngle(f *calc.Form, wrap *paperprop.Angle) {
	calc.In(f, wrap, "wrap", "beta", "deg", "contact angle of the sheet").Above(0).UpTo(360)
}

// CylindersNeeded is the number of cylinders for a drying rate.
type CylindersNeeded struct {
	Evaporation paperprop.MassFlow // above zero
	DryingRate  paperprop.MassFlux // on the full circumference, above zero
	Diameter    paperprop.Length   // of a cylinder, above zero
	SheetWidth  paperprop.Length   // at the reel, above zero
}

// CylindersNeededResult is the number of cylinders.
type CylindersNeededResult struct {
	Cylinders      paperprop.Count
	ExactCylinders paperprop.Ratio
}

// Calculate returns the number q_e/(R·π·D·b), rounded up.
func (c CylindersNeeded) Calculate() (CylindersNeededResult, error) {
	return cylindersNeeded.Calculate(c)
}

func (c CylindersNeeded) compute() (CylindersNeededResult, error) {
	exact := c.Evaporation.In(paperprop.KilogramPerHour) /
		(c.DryingRate.In(paperprop.KilogramPerHourSquareMetre) * circumference(c.Diameter, c.SheetWidth))
	whole := math.Ceil(result.NearWhole(exact)) // rounding in a conversion must not add a cylinder
	return CylindersNeededResult{Cylinders: paperprop.Count(max(1, whole)), ExactCylinders: paperprop.Ratio(exact)}, nil
}

var cylindersNeeded = &calc.Description[CylindersNeeded, CylindersNeededResult]{
	Name:    "cylinders-needed",
	Title:   "Cylinders needed for an evaporation",
	Answers: "How many cylinders a machine needs to evaporate that much at a given drying rate.",
	Formula: []string{"n_x = q_e/(R*pi*D*b)"},
	Method:  "rounded up to whole cylinders; within 1e-9 of a whole number it counts as whole",
	Source:  "drying rate by TAPPI TIP 0404-07 (definition seen), turned round",
	Status:  calc.CommonPractice,
	Example: "evaporation=18.8788 t/h; drying-rate=23.66 kg/(h m2); diameter=1.8 m; sheet-width=3.36 m",
	Mistakes: []string{
		"There is no rate for all machines: it depends on grade and steam temperature, so take one that was measured.",
		"The rate counts the full circumference; one on the surface in contact asks for too few cylinders.",
	},
	Compute: CylindersNeeded.compute,
	Fields: func(f *calc.Form, in *CylindersNeeded, out *CylindersNeededResult) {
		calc.In(f, &in.Evaporation, "evaporation", "q_e", "kg/h", "water evaporated").Above(0)
		calc.In(f, &in.DryingRate, "drying-rate", "R", "kg/(h m2)", "on the full circumference; depends on grade and steam temperature").Above(0)
		cylinderSize(f, &in.Diameter, &in.SheetWidth)
		calc.Out(f, &out.Cylinders, "cylinders", "n", "1", "rounded up")
		calc.Out(f, &out.ExactCylinders, "exact-cylinders", "n_x", "1", "not rounded")
	},
}
