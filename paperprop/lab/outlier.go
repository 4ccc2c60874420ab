package lab

import (
	"math"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A Suspect is the reading to test as an outlier.
type Suspect string

// The suspects. Dixon's test does not take SideEither.
const (
	SideEither  Suspect = "either" // the one farther from the mean
	SideLowest  Suspect = "lowest"
	SideHighest Suspect = "highest"
)

// Verdicts on a suspect. A suspect is shown, never removed.
const (
	VerdictOutlier Verdict = "outlier"
	VerdictNone    Verdict = "none"
)

func outlierWhere(outlier bool) Verdict {
	if outlier {
		return VerdictOutlier
	}
	return VerdictNone
}

// Grubbs is Grubbs' test of whether one reading lies too far from the others.
type Grubbs struct {
	Value        []float64 // 3 or more, not all equal
	Side         Suspect
	Significance paperprop.Fraction // between 0 and 100 %; zero stands for 5 %
}

// GrubbsResult is the outcome of the test.
type GrubbsResult struct {
	Statistic     paperprop.Ratio
	CriticalValue paperprop.Ratio
	Position      paperprop.Count // of the suspect in Value, from 1
	Verdict       Verdict         // VerdictOutlier if Statistic is above CriticalValue
	Warnings      calc.Warnings
	t             paperprop.Ratio
}

// Calculate returns the distance of the suspect from the mean over s, and the
// critical value, which chance rarely exceeds.
func (g Grubbs) Calculate() (GrubbsResult, error) { return grubbs.Calculate(g) }

var fewReadings = calc.Warnings{{Code: "few-readings", Text: "with three readings, none can lie far enough out for the test to be worth much: " +
	"at 5 % on either side 1.1543 is critical and 1.1547 the largest statistic there is"}}

func (g Grubbs) compute() (GrubbsResult, error) {
	if err := atLeast(3, "value", g.Value); err != nil {
		return GrubbsResult{}, err
	}
	s, _ := result.StandardDeviation(g.Value)
	if s == 0 {
		return GrubbsResult{}, calc.Refuse("value", calc.Members(len(g.Value)), "not all of them alike")
	}
	mean := result.Mean(g.Value)
	at, farthest := 0, math.Inf(-1)
	for i, x := range g.Value {
		distance := mean - x
		switch g.Side {
		case SideHighest:
			distance = -distance
		case SideEither:
			distance = math.Abs(distance)
		}
		if distance > farthest+sameDistance*s { // the first of equals
			at, farthest = i, distance
		}
	}
	n, side := len(g.Value), g.Side
	r := GrubbsResult{
		Statistic:     paperprop.Ratio(farthest / s),
		CriticalValue: paperprop.Ratio(result.GrubbsLimit(n, float64(g.Significance), side == SideEither)),
		Position:      paperprop.Count(at + 1),
		t:             grubbsQuantile(n, g.Significance, side),
	}
	r.Verdict = outlierWhere(r.Statistic > r.CriticalValue)
	if n < 4 {
		r.Warnings = fewReadings
	}
	return r, nil
}

// sameDistance is the difference that rounding may put between two equal distances.
const sameDistance = 1e-13

// grubbsQuantile returns the t in the critical value.
func grubbsQuantile(n int, significance paperprop.Fraction, side Suspect) paperprop.Ratio {
	p := float64(significance) / float64(n)
	if side == SideEither {
		p /= 2
	}
	return paperprop.Ratio(-result.StudentT(p, float64(n-2)))
}

const (
	formulaGrubbsLimit = "G_c = (n - 1)/sqrt(n)*sqrt(t*t/(n - 2 + t*t))"
	methodGrubbs       = "t is the upper quantile of Student's t with n - 2 degrees of freedom, at alpha/n for one side and at alpha/(2n) for either"
	sourceGrubbs       = "NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17.1; numbers seen in public test suites that cite it"
)

func inGrubbs(f *calc.Form, side *Suspect, significance *paperprop.Fraction) {
	calc.InWord(f, side, "side", "of the suspect; either takes the two-sided critical value", SideEither, SideLowest, SideHighest)
	calc.In(f, significance, "significance", "alpha", "%", "chance that a good reading is called an outlier").Above(0).Below(100).Default(5)
}

var grubbs = &calc.Description[Grubbs, GrubbsResult]{
	Name:    "grubbs",
	Title:   "Grubbs' test for one outlier",
	Answers: "Whether the reading farthest from the mean lies farther out than chance would have it.",
	Formula: []string{
		"n = count(x)", "x_m = mean(x)", "s = sqrt(sum((x - x_m)*(x - x_m))/(n - 1))",
		"either: G = max(x_m - least(x), most(x) - x_m)/s", "lowest: G = (x_m - least(x))/s", "highest: G = (most(x) - x_m)/s",
		formulaGrubbsLimit,
	},
	Method:  methodGrubbs,
	Source:  sourceGrubbs,
	Status:  calc.Published,
	Example: "value=[34.5 33.9 34.8 28.6 34.1] N; side=either",
	Mistakes: []string{
		"An outlier is shown, never removed without a physical reason: report with and without it.",
		"A side chosen after a look at the readings does not count as one: take the critical value of either.",
		"Two outliers on one side hide each other.",
	},
	Compare: []calc.Comparison{{Name: "dixon", Inputs: "value=[34.5 33.9 34.8 28.6 34.1] N; side=lowest",
		Why: "Dixon's test compares gaps, needs no mean, and is one-sided at 5 %"}},
	Compute: Grubbs.compute,
	Fields: func(f *calc.Form, in *Grubbs, out *GrubbsResult) {
		calc.InValues(f, &in.Value, "value", "x", "any", "readings, at least 3, not all alike")
		inGrubbs(f, &in.Side, &in.Significance)
		calc.Out(f, &out.Statistic, "statistic", "G", "1", "distance of the suspect from the mean over s")
		calc.Out(f, &out.CriticalValue, "critical-value", "G_c", "1", "hardly reached by chance")
		calc.Out(f, &out.Position, "position", "i", "1", "of the suspect, from 1; the first of equals")
		calc.OutWord(f, &out.Verdict, "verdict", "outlier where the statistic is above the critical value; nothing is removed", VerdictOutlier, VerdictNone)
		calc.Between(f, &out.t, "t", "1", "quantile of Student's t")
		f.Warnings(&out.Warnings)
	},
}

// GrubbsLimit is the critical value of Grubbs' test.
type GrubbsLimit struct {
	Count        paperprop.Count // of readings, 3 or more
	Side         Suspect
	Significance paperprop.Fraction // between 0 and 100 %; zero stands for 5 %
}

// GrubbsLimitResult is the critical value, and the largest possible statistic.
type GrubbsLimitResult struct {
	CriticalValue     paperprop.Ratio
	GreatestStatistic paperprop.Ratio
	t                 paperprop.Ratio
}

// Calculate returns the critical value for a number of readings.
func (g GrubbsLimit) Calculate() (GrubbsLimitResult, error) { return grubbsLimit.Calculate(g) }

func (g GrubbsLimit) compute() (GrubbsLimitResult, error) {
	n := int(g.Count)
	return GrubbsLimitResult{
		CriticalValue:     paperprop.Ratio(result.GrubbsLimit(n, float64(g.Significance), g.Side == SideEither)),
		GreatestStatistic: paperprop.Ratio(result.GrubbsLargest(n)),
		t:                 grubbsQuantile(n, g.Significance, g.Side),
	}, nil
}

var grubbsLimit = &calc.Description[GrubbsLimit, GrubbsLimitResult]{
	Name:    "grubbs-limit",
	Title:   "Critical value of Grubbs' test",
	Answers: "How many standard deviations from the mean a suspect reading may lie.",
	Formula: []string{formulaGrubbsLimit, "G_max = (n - 1)/sqrt(n)"},
	Method:  methodGrubbs,
	Source:  sourceGrubbs,
	Status:  calc.Published,
	Example: "count=10; side=either",
	Mistakes: []string{
		"Tables are one-sided (ASTM E178, memory) or two-sided (ISO 5725-2, memory): 2.176 and 2.290 for ten readings at 5 %.",
		"The largest statistic of ten readings is 2.846, however far the outlier lies: three standard deviations never flag it.",
	},
	Compute: GrubbsLimit.compute,
	Fields: func(f *calc.Form, in *GrubbsLimit, out *GrubbsLimitResult) {
		calc.In(f, &in.Count, "count", "n", "1", "readings").From(3)
		inGrubbs(f, &in.Side, &in.Significance)
		calc.Out(f, &out.CriticalValue, "critical-value", "G_c", "1", "hardly reached by chance")
		calc.Out(f, &out.GreatestStatistic, "greatest-statistic", "G_max", "1", "that so many readings can have")
		calc.Between(f, &out.t, "t", "1", "quantile of Student's t")
	},
}

// A DixonRatio is the ratio that Dixon's test compares.
type DixonRatio string

// The ratios: the gap from the suspect to a neighbour, over a range of readings.
const (
	RatioR10 DixonRatio = "r10" // gap to the nearest, over the whole range
	RatioR11 DixonRatio = "r11" // gap to the nearest, over the range without one at the other end
	RatioR21 DixonRatio = "r21" // gap to the second nearest, over the range without one at the other end
	RatioR22 DixonRatio = "r22" // gap to the second nearest, over the range without two at the other end
)

// dixonRatios is in the order of package result.
var dixonRatios = [...]DixonRatio{result.R10: RatioR10, result.R11: RatioR11, result.R21: RatioR21, result.R22: RatioR22}

// Dixon is Dixon's test of whether the lowest or highest reading is an outlier.
type Dixon struct {
	Value []float64  // 3 to 30
	Side  Suspect    // SideLowest or SideHighest
	Ratio DixonRatio // if empty, the one for the number of readings
}

// DixonResult is the outcome of the test. A verdict needs the ratio for which there
// is a table.
type DixonResult struct {
	Statistic     paperprop.Ratio
	CriticalValue *paperprop.Ratio // nil if the ratio is not the one for the number of readings
	Verdict       Verdict          // VerdictOutlier if Statistic is above CriticalValue; empty without one
	Warnings      calc.Warnings
}

var otherRatio = calc.Warnings{{Code: "other-ratio", Text: "critical values are known here only for the ratio that belongs to the number of readings: by another there is no verdict"}}

// Calculate returns the gap over the range.
func (d Dixon) Calculate() (DixonResult, error) { return dixon.Calculate(d) }

func (d Dixon) compute() (DixonResult, error) {
	n := len(d.Value)
	if n < 3 || n > 30 {
		return DixonResult{}, calc.Refuse("value", calc.Members(n), "3 to 30")
	}
	usual := result.DixonRatioOf(n)
	ratio := usual
	if d.Ratio != "" {
		ratio = result.DixonRatio(slices.Index(dixonRatios[:], d.Ratio))
	}
	if err := atLeast(ratio.Least(), "value", d.Value); err != nil {
		return DixonResult{}, err
	}
	q, ok := ratio.Of(d.Value, d.Side == SideHighest)
	if !ok {
		return DixonResult{}, calc.Refuse("value", calc.Members(n), "some spread: the range in the ratio %v is zero", text(dixonRatios[ratio]))
	}
	r := DixonResult{Statistic: paperprop.Ratio(q)}
	if ratio != usual {
		r.Warnings = otherRatio
		return r, nil
	}
	limit := paperprop.Ratio(result.DixonLimit(n))
	r.CriticalValue, r.Verdict = &limit, outlierWhere(r.Statistic > limit)
	return r, nil
}

// A text appears in a refusal as it is.
type text string

func (t text) String() string { return string(t) }

const sourceDixon = "Dixon (1951) at 5 % one-sided, as carried in R package outliers 0.15 and cleared of its slips"

var dixon = &calc.Description[Dixon, DixonResult]{
	Name:    "dixon",
	Title:   "Dixon's test for one outlier",
	Answers: "Whether the lowest or highest of a few readings stands apart from the rest.",
	Method: "readings in order from the suspect: r10 = (x2 - x1)/(xn - x1), r11 = (x2 - x1)/(x(n-1) - x1), r21 = (x3 - x1)/(x(n-1) - x1), " +
		"r22 = (x3 - x1)/(x(n-2) - x1); r10 to 7 readings, r11 to 10, r21 to 13, r22 above",
	Source:  sourceDixon,
	Status:  calc.Published,
	Example: "value=[34.5 33.9 34.8 28.6 34.1] N; side=lowest",
	Mistakes: []string{
		"An outlier is shown, never removed without a physical reason.",
		"r10 for ten readings has another critical value than r11: the table belongs to the ratio of the count.",
		"The table is one-sided: a side chosen after a look doubles the 5 %.",
	},
	Compare: []calc.Comparison{{Name: "grubbs", Inputs: "value=[34.5 33.9 34.8 28.6 34.1] N; side=lowest",
		Why: "Grubbs' test takes the distance from the mean over s, at any significance"}},
	Compute: Dixon.compute,
	Fields: func(f *calc.Form, in *Dixon, out *DixonResult) {
		calc.InValues(f, &in.Value, "value", "x", "any", "3 to 30 readings")
		calc.InWord(f, &in.Side, "side", "of the suspect", SideLowest, SideHighest)
		calc.InWord(f, &in.Ratio, "ratio", "left out: by the number of readings", dixonRatios[:]...).Optional()
		calc.Out(f, &out.Statistic, "statistic", "Q", "1", "gap over range")
		calc.OutPointer(f, &out.CriticalValue, "critical-value", "Q_c", "1", "at 5 % one-sided; absent where the ratio is not that of the count")
		calc.OutWord(f, &out.Verdict, "verdict", "outlier where the statistic is above the critical value", VerdictOutlier, VerdictNone).Optional()
		f.Warnings(&out.Warnings)
	},
}

// DixonLimit is the critical value of Dixon's test.
type DixonLimit struct {
	Count paperprop.Count // of readings, 3 to 30
}

// DixonLimitResult is the critical value.
type DixonLimitResult struct {
	CriticalValue paperprop.Ratio
}

// Calculate returns the value from the table of 1951.
func (d DixonLimit) Calculate() (DixonLimitResult, error) { return dixonLimit.Calculate(d) }

func (d DixonLimit) compute() (DixonLimitResult, error) {
	return DixonLimitResult{paperprop.Ratio(result.DixonLimit(int(d.Count)))}, nil
}

var dixonLimit = &calc.Description[DixonLimit, DixonLimitResult]{
	Name:     "dixon-limit",
	Title:    "Critical value of Dixon's test",
	Answers:  "Which share of the range a gap must take up to be an outlier's.",
	Method:   "table for the ratio of the count: r10 to 7 readings, r11 to 10, r21 to 13, r22 to 30; up to 0.002 off the exact distribution",
	Source:   sourceDixon,
	Status:   calc.Published,
	Example:  "count=5",
	Mistakes: []string{"Copies of the table carry slips (350 for 0.350, 0.009 for 0.099): values of one ratio must fall with the count."},
	Compute:  DixonLimit.compute,
	Fields: func(f *calc.Form, in *DixonLimit, out *DixonLimitResult) {
		calc.In(f, &in.Count, "count", "n", "1", "readings").From(3).UpTo(30)
		calc.Out(f, &out.CriticalValue, "critical-value", "Q_c", "1", "at 5 % one-sided")
	},
}
