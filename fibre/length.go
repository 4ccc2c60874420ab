package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Length is the mean length of fibres counted in classes. Its lists are of equal
// length.
type Length struct {
	ClassLength []paperprop.Length // centres of the classes, above zero
	ClassCount  []paperprop.Ratio  // fibres in each, zero or more
	LowerLimit  paperprop.Length   // classes below it are left out; zero counts all
}

// LengthResult is the mean with three weightings, from the shortest to the longest.
type LengthResult struct {
	NumberMeanLength     paperprop.Length
	LengthWeightedLength paperprop.Length
	MassWeightedLength   paperprop.Length // if the mass of a fibre is proportional to the square of its length
}

// Calculate returns the means Σnl/Σn, Σnl²/Σnl and Σnl³/Σnl².
func (l Length) Calculate() (LengthResult, error) { return length.Calculate(l) }

// belowLimit reports whether a length lies below a limit by more than the last
// digits, which a conversion may lose.
func belowLimit(l, limit paperprop.Length) bool { return l < limit*(1-1e-14) }

func (l Length) compute() (LengthResult, error) {
	var count, first, second, third float64
	for i, class := range l.ClassLength {
		if belowLimit(class, l.LowerLimit) {
			continue
		}
		n, x := float64(l.ClassCount[i]), class.In(paperprop.Millimetre)
		count += n
		first += n * x
		second += n * x * x
		third += n * x * x * x
	}
	if count == 0 {
		return LengthResult{}, calc.Refuse("class-count", paperprop.Ratio(0), "above 0 in all from lower-limit %v up", l.LowerLimit)
	}
	return LengthResult{
		NumberMeanLength:     paperprop.Length(first/count) * paperprop.Millimetre,
		LengthWeightedLength: paperprop.Length(second/first) * paperprop.Millimetre,
		MassWeightedLength:   paperprop.Length(third/second) * paperprop.Millimetre,
	}, nil
}

var length = &calc.Description[Length, LengthResult]{
	Name:    "fibre-length",
	Title:   "Mean fibre length",
	Answers: "How long fibres are on average, by number, by length and by mass.",
	Formula: []string{
		"k = reaches(l, l_0)",
		"L_n = sum(k*n*l)/sum(k*n)",
		"L_l = sum(k*n*pow(l, 2))/sum(k*n*l)",
		"L_w = sum(k*n*pow(l, 3))/sum(k*n*pow(l, 2))",
	},
	Source:  "T 232 (definitions seen on a summary page); mass weighting with mass per fibre as l^2 after T 271 and ISO 16065 (memory)",
	Status:  calc.Memory,
	Example: "class-length=[0.1 0.3 0.7 1.2 1.9 2.7] mm; class-count=[3120 2210 1480 690 240 75]; lower-limit=0.2 mm",
	Mistakes: []string{
		"The number mean means nothing without the lower limit that was used; 0.2 mm is usual (memory).",
		"Mass weighting here takes coarseness to rise with length; with equal coarseness the mass-weighted mean is the length-weighted one.",
	},
	Compare: []calc.Comparison{
		{
			Inputs: "class-length=[0.1 0.3 0.7 1.2 1.9 2.7] mm; class-count=[3120 2210 1480 690 240 75]; lower-limit=0 mm",
			Why:    "no lower limit: the number mean falls by a third, the mass-weighted hardly moves",
		},
		{
			Name:   "fraction-length",
			Inputs: "retained-dry-mass=[0.663 1.036 0.828 0.456 0.2025] g; fraction-length=[0.3 0.7 1.2 1.9 2.7] mm",
			Why:    "by mass weighed, of fibre of one coarseness in the same classes: the length-weighted mean again",
		},
	},
	Compute: Length.compute,
	Fields: func(f *calc.Form, in *Length, out *LengthResult) {
		counted(f, &in.ClassLength, &in.ClassCount)
		calc.In(f, &in.LowerLimit, "lower-limit", "l_0", "mm", "shorter classes are left out; 0 counts all").From(0).Label()
		calc.Out(f, &out.NumberMeanLength, "number-mean-length", "L_n", "mm", "each fibre counts alike")
		calc.Out(f, &out.LengthWeightedLength, "length-weighted-length", "L_l", "mm", "each millimetre counts alike")
		calc.Out(f, &out.MassWeightedLength, "mass-weighted-length", "L_w", "mm", "if mass per fibre goes with the square of its length")
	},
}

// counted binds the classes and counts of a fibre analyser.
func counted(f *calc.Form, lengths *[]paperprop.Length, counts *[]paperprop.Ratio) {
	f.Even(
		calc.InList(f, lengths, "class-length", "l", "mm", "centres of the classes").Above(0),
		calc.InList(f, counts, "class-count", "n", "1", "fibres in each").From(0),
	)
}

// Fines is the share of counted objects that are shorter than a limit. Its lists
// are of equal length.
type Fines struct {
	ClassLength []paperprop.Length // centres of the classes, above zero
	ClassCount  []paperprop.Ratio  // objects in each, zero or more
	FinesLimit  paperprop.Length   // classes below it are fines; above zero
}

// FinesResult is that share, by number and by length.
type FinesResult struct {
	FinesNumberShare paperprop.Fraction
	FinesLengthShare paperprop.Fraction
}

// Calculate returns Σn/Σn and Σnl/Σnl, with the numerators over the classes below
// the limit.
func (s Fines) Calculate() (FinesResult, error) { return fines.Calculate(s) }

func (s Fines) compute() (FinesResult, error) {
	var count, all, fine, short float64
	for i, class := range s.ClassLength {
		n, x := float64(s.ClassCount[i]), class.In(paperprop.Millimetre)
		count += n
		all += n * x
		if belowLimit(class, s.FinesLimit) {
			fine += n
			short += n * x
		}
	}
	if count == 0 {
		return FinesResult{}, calc.Refuse("class-count", paperprop.Ratio(0), "above 0 in all")
	}
	return FinesResult{
		FinesNumberShare: paperprop.Fraction(fine / count),
		FinesLengthShare: paperprop.Fraction(short / all),
	}, nil
}

var fines = &calc.Description[Fines, FinesResult]{
	Name:    "fibre-fines",
	Title:   "Fines by length",
	Answers: "What part of the objects that were counted is shorter than fibre, by number and by length.",
	Formula: []string{
		"k = 1 - reaches(l, l_f)",
		"x_n = sum(k*n)/sum(n)",
		"x_l = sum(k*n*l)/sum(n*l)",
	},
	Source:  "definitions",
	Status:  calc.CommonPractice,
	Example: "class-length=[0.1 0.3 0.7 1.2 1.9 2.7] mm; class-count=[3120 2210 1480 690 240 75]; fines-limit=0.2 mm",
	Mistakes: []string{
		"By number, by length and by mass are three shares: 40 % by number is 9 % by length in the example.",
		"The limit belongs to the result; 0.2 mm is usual (memory).",
	},
	Compare: []calc.Comparison{{
		Name:   "fibre-fractions",
		Inputs: "dry-mass=2.482 g; retained-dry-mass=[1.637] g",
		Why:    "fines by mass, what passes a screen of 76 um (T 261): another measure, and another pulp",
	}},
	Compute: Fines.compute,
	Fields: func(f *calc.Form, in *Fines, out *FinesResult) {
		counted(f, &in.ClassLength, &in.ClassCount)
		calc.In(f, &in.FinesLimit, "fines-limit", "l_f", "mm", "below it fines; a class at the limit is none").Above(0).Label()
		calc.Out(f, &out.FinesNumberShare, "fines-number-share", "x_n", "%", "by number")
		calc.Out(f, &out.FinesLengthShare, "fines-length-share", "x_l", "%", "by length")
	},
}
