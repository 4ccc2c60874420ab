package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Handsheet is the stock needed for a laboratory sheet.
type Handsheet struct {
	DryGrammage paperprop.OvenDryGrammage // wanted, above zero
	Area        paperprop.Area            // of the sheet, above zero
	Consistency paperprop.Consistency     // of the stock, above zero
}

// HandsheetResult is the dry mass of the sheet and the stock to pour for it.
type HandsheetResult struct {
	DryMass   paperprop.OvenDryMass
	StockMass paperprop.Mass // to pour
}

// Calculate returns the dry mass g_d·A, and the stock: that over c.
func (h Handsheet) Calculate() (HandsheetResult, error) { return handsheet.Calculate(h) }

func (h Handsheet) compute() (HandsheetResult, error) {
	m := h.DryGrammage.In(paperprop.DryGramPerSquareMetre) * h.Area.In(paperprop.SquareMetre)
	return HandsheetResult{
		DryMass:   paperprop.OvenDryMass(m) * paperprop.OvenDryGram,
		StockMass: paperprop.Mass(m/float64(h.Consistency)) * paperprop.Gram,
	}, nil
}

var handsheet = &calc.Description[Handsheet, HandsheetResult]{
	Name:    "handsheet",
	Title:   "Stock for a laboratory sheet",
	Answers: "How much stock to pour into the sheet former for a laboratory sheet of a grammage.",
	Formula: []string{"m_d = g_d*A", "m = m_d/c"},
	Source:  "T 205: 60 g/m2 oven-dry (seen), 200 cm2 and 0.30 % (memory)",
	Status:  calc.CommonPractice,
	Example: "dry-grammage=60 g/m2; area=200 cm2; consistency=0.30 %",
	Mistakes: []string{
		"The grammage is oven-dry: a conditioned sheet of 60 g/m2 at 7.5 % moisture holds 55.5.",
		"What passes the wire is lost: the first sheet is dried and weighed, and handsheet-adjust mends the next.",
	},
	Compare: []calc.Comparison{{
		Inputs: "dry-grammage=75 g/m2; area=314 cm2; consistency=0.30 %",
		Why:    "75 g/m2 on 314 cm2 after ISO 5269-2 (memory)",
	}},
	Compute: Handsheet.compute,
	Fields: func(f *calc.Form, in *Handsheet, out *HandsheetResult) {
		calc.In(f, &in.DryGrammage, "dry-grammage", "g_d", "g/m2", "wanted").Above(0)
		calc.In(f, &in.Area, "area", "A", "cm2", "of the sheet").Above(0)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of the stock").Above(0)
		calc.Out(f, &out.DryMass, "dry-mass", "m_d", "g", "of the sheet, if nothing is lost")
		calc.Out(f, &out.StockMass, "stock-mass", "m", "g", "to pour")
	},
}

// HandsheetAdjust corrects the volume of stock to pour.
type HandsheetAdjust struct {
	Volume    paperprop.Volume      // poured for the last sheet, above zero
	ToDryMass paperprop.OvenDryMass // wanted, above zero
	DryMass   paperprop.OvenDryMass // of the last sheet, above zero
}

// HandsheetAdjustResult is the volume for the next sheet.
type HandsheetAdjustResult struct {
	ToVolume paperprop.Volume
}

// Calculate returns the volume V·m_to/m_d.
func (h HandsheetAdjust) Calculate() (HandsheetAdjustResult, error) {
	return handsheetAdjust.Calculate(h)
}

func (h HandsheetAdjust) compute() (HandsheetAdjustResult, error) {
	v := h.Volume.In(paperprop.Millilitre) * h.ToDryMass.In(paperprop.OvenDryGram) / h.DryMass.In(paperprop.OvenDryGram)
	return HandsheetAdjustResult{paperprop.Volume(v) * paperprop.Millilitre}, nil
}

var handsheetAdjust = &calc.Description[HandsheetAdjust, HandsheetAdjustResult]{
	Name:    "handsheet-adjust",
	Title:   "Stock for the next laboratory sheet",
	Answers: "How much stock to pour for the next sheet after one that came out too light or too heavy.",
	Formula: []string{"V_to = V*m_to/m_d"},
	Source:  "mass goes with the volume poured",
	Status:  calc.CommonPractice,
	Example: "volume=400 mL; to-dry-mass=1.200 g; dry-mass=1.147 g",
	Mistakes: []string{
		"Both masses oven-dry: a conditioned sheet of 1.291 g at 7.2 % moisture is one of 1.198 g.",
	},
	Compute: HandsheetAdjust.compute,
	Fields: func(f *calc.Form, in *HandsheetAdjust, out *HandsheetAdjustResult) {
		calc.In(f, &in.Volume, "volume", "V", "mL", "poured for the last sheet").Above(0)
		calc.In(f, &in.ToDryMass, "to-dry-mass", "m_to", "g", "wanted").Above(0)
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "of the last sheet").Above(0)
		calc.Out(f, &out.ToVolume, "to-volume", "V_to", "mL", "for the next sheet")
	},
}

// HandsheetGrammage is the grammage of a laboratory sheet.
type HandsheetGrammage struct {
	Mass     paperprop.Mass     // of the conditioned sheet, above zero
	Moisture paperprop.Moisture // of the sheet, below 100 %
	Area     paperprop.Area     // above zero
}

// HandsheetGrammageResult is the grammage, conditioned and oven-dry.
type HandsheetGrammageResult struct {
	Grammage    paperprop.Grammage
	DryGrammage paperprop.OvenDryGrammage
}

// Calculate returns the grammage m/A, and that without its water.
func (h HandsheetGrammage) Calculate() (HandsheetGrammageResult, error) {
	return handsheetGrammage.Calculate(h)
}

func (h HandsheetGrammage) compute() (HandsheetGrammageResult, error) {
	g := h.Mass.In(paperprop.Gram) / h.Area.In(paperprop.SquareMetre)
	return HandsheetGrammageResult{
		Grammage:    paperprop.Grammage(g) * paperprop.GramPerSquareMetre,
		DryGrammage: paperprop.OvenDryGrammage(g*(1-float64(h.Moisture))) * paperprop.DryGramPerSquareMetre,
	}, nil
}

var handsheetGrammage = &calc.Description[HandsheetGrammage, HandsheetGrammageResult]{
	Name:    "handsheet-grammage",
	Title:   "Grammage of a laboratory sheet",
	Answers: "What grammage a laboratory sheet has, as conditioned and oven-dry.",
	Formula: []string{"g = m/A", "g_d = g*(1 - w)"},
	Source:  "definitions",
	Status:  calc.CommonPractice,
	Example: "mass=1.291 g; moisture=7.2 %; area=200 cm2",
	Mistakes: []string{
		"Standards ask for an oven-dry grammage: 64.6 g/m2 as conditioned is 59.9 here.",
		"A sheet dried without restraint shrinks: measure its area, not that of the mould.",
	},
	Compute: HandsheetGrammage.compute,
	Fields: func(f *calc.Form, in *HandsheetGrammage, out *HandsheetGrammageResult) {
		calc.In(f, &in.Mass, "mass", "m", "g", "of the conditioned sheet").Above(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of it").From(0).Below(100)
		calc.In(f, &in.Area, "area", "A", "cm2", "of the sheet").Above(0)
		calc.Out(f, &out.Grammage, "grammage", "g", "g/m2", "as conditioned")
		calc.Out(f, &out.DryGrammage, "dry-grammage", "g_d", "g/m2", "without its water")
	},
}
