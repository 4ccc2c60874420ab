package fibre

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// loop is the source of results for fibre in a steady loop.
const loop = "steady loop in which every pass keeps the same share of the fibre (geometric series)"

// Age is how often the fibre of a steady loop has been used before.
type Age struct {
	RecoveredShare paperprop.Fraction // of the fibre in use that is collected again, below 100 %
	Yield          paperprop.Fraction // of the collected fibre that reaches the next sheet, at most 100 %; zero stands for 100 %
	PreviousUses   paperprop.Count    // the age asked about; zero is new fibre
}

// AgeResult is the age of the fibre. The two means differ by one.
type AgeResult struct {
	RecycledShare    paperprop.Fraction // of the furnish
	AgeShare         paperprop.Fraction // used exactly PreviousUses times before
	AtLeastShare     paperprop.Fraction // used at least PreviousUses times before
	MeanPreviousUses paperprop.Ratio
	MeanUses         paperprop.Ratio // counting the present one
}

// Calculate returns, with q = r·Y: the shares (1 − q)·q^k and q^k, and the means
// q/(1 − q) and 1/(1 − q).
func (a Age) Calculate() (AgeResult, error) { return age.Calculate(a) }

func (a Age) compute() (AgeResult, error) {
	q := recycled(a.RecoveredShare, a.Yield)
	older := math.Pow(q, float64(a.PreviousUses))
	return AgeResult{
		RecycledShare:    paperprop.Fraction(q),
		AgeShare:         paperprop.Fraction((1 - q) * older),
		AtLeastShare:     paperprop.Fraction(older),
		MeanPreviousUses: paperprop.Ratio(q / (1 - q)),
		MeanUses:         paperprop.Ratio(1 / (1 - q)),
	}, nil
}

// recycled returns the share of a furnish that was used before.
func recycled(recovered, yield paperprop.Fraction) float64 {
	return float64(recovered) * float64(yield)
}

var age = &calc.Description[Age, AgeResult]{
	Name:    "fibre-age",
	Title:   "How often fibre was used before",
	Answers: "What part of the fibre in a steady loop was used a given number of times before, and how often it was used on average.",
	Formula: []string{"q = r*Y", "x_k = (1 - q)*pow(q, k)", "x_K = pow(q, k)", "n_p = q/(1 - q)", "n_u = 1/(1 - q)"},
	Source:  loop + "; 1/(1 - r) gives the 3.5 uses that the European Paper Recycling Council reports with 71.7 % (2014, seen)",
	Status:  calc.Memory,
	Example: "recovered-share=80 %; yield=91.93 %; previous-uses=3",
	Mistakes: []string{
		"Two conventions are in use, and differ by one: 71.7 % are 2.53 previous uses, and 3.53 with the present one.",
		"3.5 uses are not 3.5 uses a year: the loop has no clock.",
		"Losses count: with a yield of 90 % a collection of 80 % is a loop of 72 %.",
	},
	Compare: []calc.Comparison{
		{
			Inputs: "recovered-share=71.7 %; previous-uses=0",
			Why:    "as the European figure of 2014 is reckoned, 3.5: the present use counted, losses not",
		},
		{
			Name:   "fibre-age-start",
			Inputs: "recovered-share=80 %; yield=91.93 %; loops=5",
			Why:    "not yet steady, five passes after an all-new furnish: younger",
		},
	},
	Compute: Age.compute,
	Fields: func(f *calc.Form, in *Age, out *AgeResult) {
		fibreKept(f, &in.RecoveredShare, &in.Yield)
		calc.In(f, &in.PreviousUses, "previous-uses", "k", "1", "asked for; 0 is new fibre").From(0)
		calc.Out(f, &out.RecycledShare, "recycled-share", "q", "%", "of the furnish")
		calc.Out(f, &out.AgeShare, "age-share", "x_k", "%", "used exactly that often before")
		calc.Out(f, &out.AtLeastShare, "at-least-share", "x_K", "%", "that often or more")
		calc.Out(f, &out.MeanPreviousUses, "mean-previous-uses", "n_p", "1", "before the present one")
		calc.Out(f, &out.MeanUses, "mean-uses", "n_u", "1", "counting the present one: one more")
	},
}

func fibreKept(f *calc.Form, recovered, yield *paperprop.Fraction) {
	calc.In(f, recovered, "recovered-share", "r", "%", "of the fibre in use that is collected again").From(0).Below(100)
	calc.In(f, yield, "yield", "Y", "%", "of it that reaches the next sheet").Above(0).UpTo(100).Default(100)
}

// AgeStart is how old the fibre of a loop is that began with new fibre.
type AgeStart struct {
	RecoveredShare paperprop.Fraction // of the fibre in use that is collected again, below 100 %
	Yield          paperprop.Fraction // of the collected fibre that reaches the next sheet, at most 100 %; zero stands for 100 %
	Loops          paperprop.Count    // since the furnish was all new, zero or more
}

// AgeStartResult is the age after that many loops.
type AgeStartResult struct {
	MeanPreviousUses paperprop.Ratio
	OldestShare      paperprop.Fraction // in use since the start
}

// Calculate returns, with q = r·Y, the mean age q(1 − q^n)/(1 − q) and the oldest
// share q^n.
func (a AgeStart) Calculate() (AgeStartResult, error) { return ageStart.Calculate(a) }

func (a AgeStart) compute() (AgeStartResult, error) {
	q, n := recycled(a.RecoveredShare, a.Yield), float64(a.Loops)
	replaced := 1 - math.Pow(q, n)
	if q > 0.5 { // where the power is near 1 and the difference would lose digits
		replaced = -math.Expm1(n * math.Log(q))
	}
	return AgeStartResult{
		MeanPreviousUses: paperprop.Ratio(q * replaced / (1 - q)),
		OldestShare:      paperprop.Fraction(math.Pow(q, n)),
	}, nil
}

var ageStart = &calc.Description[AgeStart, AgeStartResult]{
	Name:    "fibre-age-start",
	Title:   "Age of fibre after some loops",
	Answers: "How often fibre was used before, on average, some loops after an all-new furnish (virgin fibre).",
	Formula: []string{"q = r*Y", "n_p = q*(1 - pow(q, n))/(1 - q)", "x_n = pow(q, n)"},
	Source:  loop + ", before it is steady",
	Status:  calc.Memory,
	Example: "recovered-share=80 %; yield=91.93 %; loops=5",
	Mistakes: []string{
		"A loop is soon old: after 5 passes of 75 % the mean is 2.29 previous uses of the 3 at which it ends.",
	},
	Compare: []calc.Comparison{{
		Name:   "fibre-age",
		Inputs: "recovered-share=80 %; yield=91.93 %; previous-uses=5",
		Why:    "the steady loop, where it ends",
	}},
	Compute: AgeStart.compute,
	Fields: func(f *calc.Form, in *AgeStart, out *AgeStartResult) {
		fibreKept(f, &in.RecoveredShare, &in.Yield)
		calc.In(f, &in.Loops, "loops", "n", "1", "since the furnish was all new").From(0)
		calc.Out(f, &out.MeanPreviousUses, "mean-previous-uses", "n_p", "1", "before the present one")
		calc.Out(f, &out.OldestShare, "oldest-share", "x_n", "%", "there from the start")
	},
}

// RecycledProperty is a property of a steady loop, which changes less with each
// pass.
type RecycledProperty struct {
	NewValue       float64            // of new fibre, in any unit
	PlateauValue   float64            // that the property approaches, in the same unit
	Decay          paperprop.Ratio    // share of the distance that remains after each pass, below 1
	RecoveredShare paperprop.Fraction // of the fibre in use that is collected again, below 100 %
	Yield          paperprop.Fraction // of the collected fibre that reaches the next sheet, at most 100 %; zero stands for 100 %
}

// RecycledPropertyResult is the mean over all ages, in the unit of the values.
type RecycledPropertyResult struct {
	MeanValue float64
}

// Calculate returns the mean y_p + (y_0 − y_p)(1 − q)/(1 − q·k_d), with q = r·Y.
func (p RecycledProperty) Calculate() (RecycledPropertyResult, error) {
	return recycledProperty.Calculate(p)
}

func (p RecycledProperty) compute() (RecycledPropertyResult, error) {
	q := recycled(p.RecoveredShare, p.Yield)
	left := (1 - q) / (1 - q*float64(p.Decay))
	return RecycledPropertyResult{p.PlateauValue + (p.NewValue-p.PlateauValue)*left}, nil
}

var recycledProperty = &calc.Description[RecycledProperty, RecycledPropertyResult]{
	Name:    "recycled-property",
	Title:   "Property of a recycled furnish",
	Answers: "What value a property keeps in a steady loop when each pass takes it nearer to a plateau.",
	Formula: []string{"q = r*Y", "y_m = y_p + (y_0 - y_p)*(1 - q)/(1 - q*k_d)"},
	Source:  loop + "; ages mix by their shares",
	Status:  calc.Memory,
	Example: "new-value=52 N.m/g; plateau-value=34 N.m/g; decay=0.55; recovered-share=80 %; yield=91.93 %",
	Mistakes: []string{
		"Plateau and decay are measured on the pulp at hand; no numbers of strength lost per pass hold for all (the first changes most, seen).",
		"Mixing by shares is itself doubtful for strength and freeness: see furnish.",
		"Tear and stiffness rise where density, tensile and burst fall: a plateau may lie above the new value.",
	},
	Compute: RecycledProperty.compute,
	Fields: func(f *calc.Form, in *RecycledProperty, out *RecycledPropertyResult) {
		calc.InValue(f, &in.NewValue, "new-value", "y_0", "any", "of new fibre")
		calc.InValue(f, &in.PlateauValue, "plateau-value", "y_p", "as new-value", "towards which it falls or rises")
		calc.In(f, &in.Decay, "decay", "k_d", "1", "what each pass leaves of the distance").From(0).Below(1)
		fibreKept(f, &in.RecoveredShare, &in.Yield)
		calc.OutValue(f, &out.MeanValue, "mean-value", "y_m", "as new-value", "of the steady furnish")
	},
}
