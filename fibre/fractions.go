package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Fractions is the classification of fibre by screens.
type Fractions struct {
	DryMass         paperprop.OvenDryMass   // of all the fibre put in, above zero
	RetainedDryMass []paperprop.OvenDryMass // on each screen, coarsest first, zero or more; together at most DryMass
}

// FractionsResult is the share of DryMass on each screen, and the share that passed
// them all.
type FractionsResult struct {
	RetainedShare []paperprop.Fraction
	FinesShare    paperprop.Fraction
}

// Calculate returns the shares m_i/m_d, and what is left.
func (c Fractions) Calculate() (FractionsResult, error) { return fractions.Calculate(c) }

func (c Fractions) compute() (FractionsResult, error) {
	r := FractionsResult{RetainedShare: make([]paperprop.Fraction, len(c.RetainedDryMass))}
	var retained paperprop.OvenDryMass
	for i, m := range c.RetainedDryMass {
		retained += m
		r.RetainedShare[i] = paperprop.Fraction(m / c.DryMass)
	}
	passed := result.Rest(float64(c.DryMass), float64(retained))
	if passed < 0 {
		return FractionsResult{}, calc.Refuse("retained-dry-mass", retained, "in all at most dry-mass %v", c.DryMass)
	}
	r.FinesShare = paperprop.Fraction(passed / float64(c.DryMass))
	return r, nil
}

var fractions = &calc.Description[Fractions, FractionsResult]{
	Name:    "fibre-fractions",
	Title:   "Fractions by screens",
	Answers: "What part of the fibre each screen kept, and what part passed them all.",
	Formula: []string{"x_i = m_i/m_d", "x_f = 1 - sum(m_i)/m_d"},
	Source:  "balance of dry matter; T 261 is one screen of round 76 um holes, nominal 200 mesh (definition seen)",
	Status:  calc.CommonPractice,
	Example: "dry-mass=10.00 g; retained-dry-mass=[3.12 2.05 1.48 1.01] g",
	Mistakes: []string{
		"What passed is not weighed: it is the rest, and bears the errors of all the weighings.",
		"Dry masses: what the screens kept is dried before it is weighed.",
		"Fines by mass and by length are two measures that no factor ties.",
	},
	Compute: Fractions.compute,
	Fields: func(f *calc.Form, in *Fractions, out *FractionsResult) {
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "of all the fibre put in").Above(0)
		calc.InList(f, &in.RetainedDryMass, "retained-dry-mass", "m_i", "g", "on each screen, coarsest first").From(0)
		calc.OutList(f, &out.RetainedShare, "retained-share", "x_i", "%", "of dry-mass")
		calc.Out(f, &out.FinesShare, "fines-share", "x_f", "%", "passed all")
	},
}

// FractionLength is the mean length of weighed fractions. Its lists are of equal
// length.
type FractionLength struct {
	RetainedDryMass []paperprop.OvenDryMass // of each fraction, zero or more; their sum above zero
	FractionLength  []paperprop.Length      // mean of each, above zero
}

// FractionLengthResult is the mean weighted by the masses.
type FractionLengthResult struct {
	MassWeightedLength paperprop.Length
}

// Calculate returns the mean Σml/Σm.
func (l FractionLength) Calculate() (FractionLengthResult, error) { return fractionLength.Calculate(l) }

func (l FractionLength) compute() (FractionLengthResult, error) {
	var all, first float64
	for i, mass := range l.RetainedDryMass {
		m := mass.In(paperprop.OvenDryGram)
		all += m
		first += m * l.FractionLength[i].In(paperprop.Millimetre)
	}
	if all == 0 {
		return FractionLengthResult{}, calc.Refuse("retained-dry-mass", paperprop.OvenDryMass(0), "above 0 in all")
	}
	return FractionLengthResult{paperprop.Length(first/all) * paperprop.Millimetre}, nil
}

var fractionLength = &calc.Description[FractionLength, FractionLengthResult]{
	Name:    "fraction-length",
	Title:   "Mean fibre length of fractions by mass",
	Answers: "How long fibre is on average, weighted by the masses of its fractions.",
	Formula: []string{"L_w = sum(m_i*l_i)/sum(m_i)"},
	Source:  "T 232 (definition seen on a summary page)",
	Status:  calc.Published,
	Example: "retained-dry-mass=[3.12 2.05 1.48 1.01] g; fraction-length=[2.6 1.7 1.0 0.5] mm",
	Mistakes: []string{
		"What passed all screens has no length here: with 2.34 g of 0.1 mm beside them the 1.77 mm of the example becomes 1.38 mm.",
		"The mean of each fraction is itself weighted by mass, or the sum is not.",
	},
	Compare: []calc.Comparison{{
		Name:   "fibre-length",
		Inputs: "class-length=[2.6 1.7 1.0 0.5] mm; class-count=[1200 1206 1480 2020]; lower-limit=0 mm",
		Why:    "the same fractions counted, if all fibre is of one coarseness: then length-weighted is mass-weighted",
	}},
	Compute: FractionLength.compute,
	Fields: func(f *calc.Form, in *FractionLength, out *FractionLengthResult) {
		f.Even(
			calc.InList(f, &in.RetainedDryMass, "retained-dry-mass", "m_i", "g", "of each fraction").From(0),
			calc.InList(f, &in.FractionLength, "fraction-length", "l_i", "mm", "mean of each").Above(0),
		)
		calc.Out(f, &out.MassWeightedLength, "mass-weighted-length", "L_w", "mm", "weighted by the masses")
	},
}

// Coarseness is the mass of fibre per length.
type Coarseness struct {
	DryMass          paperprop.OvenDryMass // of all fibres counted, above zero
	Count            paperprop.Count       // of fibres, one or more
	NumberMeanLength paperprop.Length      // the number mean, above zero
}

// CoarsenessResult is the coarseness, and the number of fibres per mass.
type CoarsenessResult struct {
	Coarseness    paperprop.Coarseness
	FibresPerMass paperprop.CountPerMass
}

// Calculate returns the coarseness m_d/(N·L_n), and N/m_d.
func (c Coarseness) Calculate() (CoarsenessResult, error) { return coarseness.Calculate(c) }

func (c Coarseness) compute() (CoarsenessResult, error) {
	m, n := 1000*c.DryMass.In(paperprop.OvenDryGram), float64(c.Count) // mg
	return CoarsenessResult{
		Coarseness:    paperprop.Coarseness(m/(n*c.NumberMeanLength.In(paperprop.Metre))) * paperprop.MilligramPerMetre,
		FibresPerMass: paperprop.CountPerMass(1000*n/m) * paperprop.PerGram,
	}, nil
}

var coarseness = &calc.Description[Coarseness, CoarsenessResult]{
	Name:    "coarseness",
	Title:   "Coarseness of fibre",
	Answers: "What a metre of fibre weighs, and how many fibres a gram holds.",
	Formula: []string{"d_l = m_d/(N*L_n)", "n_m = N/m_d"},
	Source:  "T 234, mass per length (seen); the decigrex, 1 mg/100 m, from memory",
	Status:  calc.Memory,
	Example: "dry-mass=4.80 mg; count=31500; number-mean-length=0.840 mm",
	Mistakes: []string{
		"The number mean, and none that is weighted: with a length-weighted 1.23 mm in place of 0.84 mm the example comes out a third too low.",
		"All that has mass is counted: fines left out by a lower limit make fibre seem coarser.",
		"1 decigrex is 1 mg/100m, so 0.01 mg/m.",
	},
	Compute: Coarseness.compute,
	Fields: func(f *calc.Form, in *Coarseness, out *CoarsenessResult) {
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "mg", "of all that was counted").Above(0)
		calc.In(f, &in.Count, "count", "N", "1", "of fibres").From(1)
		calc.In(f, &in.NumberMeanLength, "number-mean-length", "L_n", "mm", "number mean, not a weighted one").Above(0)
		calc.Out(f, &out.Coarseness, "coarseness", "d_l", "mg/m", "mass per length")
		calc.Out(f, &out.FibresPerMass, "fibres-per-mass", "n_m", "million/g", "fibres in a mass")
	},
}
