package fibre

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

var (
	caustic = calc.Caution{Code: "caustic", Text: "Cooking liquor is hot, burns skin and blinds; digesters stand under pressure: " +
		"isolation, protective clothing, local codes and licensed practice come first."}
	hydrogenSulphide = calc.Caution{Code: "hydrogen-sulphide", Text: "Acid drives hydrogen sulphide out of sulphide liquor: it kills, and dulls the nose first. " +
		"Keep acid away, measure the air; local codes and licensed practice come first."}
)

// An AlkaliBasis is the substance that the chemicals of a liquor are expressed as.
type AlkaliBasis string

// The bases: 61.97853856 g of Na2O are 79.99353856 g of NaOH.
const (
	BasisNa2O AlkaliBasis = "na2o"
	BasisNaOH AlkaliBasis = "naoh"
)

// CookingLiquor is an alkaline liquor by its three sodium salts.
type CookingLiquor struct {
	Basis           AlkaliBasis             // of the salts given
	ToBasis         AlkaliBasis             // of the results
	SodiumHydroxide paperprop.Concentration // zero or more; above zero together with SodiumSulphide
	SodiumSulphide  paperprop.Concentration // zero or more
	SodiumCarbonate paperprop.Concentration // zero or more
}

// CookingLiquorResult is the alkali of the liquor, expressed as ToBasis.
type CookingLiquorResult struct {
	ActiveAlkali    paperprop.Concentration // NaOH + Na2S
	EffectiveAlkali paperprop.Concentration // NaOH + half of Na2S
	TotalAlkali     paperprop.Concentration // NaOH + Na2S + Na2CO3
	Sulphidity      paperprop.Fraction      // Na2S over active alkali
	BasisFactor     paperprop.Ratio         // from Basis to ToBasis
}

// Calculate returns the sums, converted from one basis to the other.
func (c CookingLiquor) Calculate() (CookingLiquorResult, error) { return cookingLiquor.Calculate(c) }

// NaOH and Na2O with the same sodium; atomic masses Na 22.98976928, O 15.999, H
// 1.008.
const (
	sodiumHydroxide = 2 * (22.98976928 + 15.999 + 1.008)
	sodiumOxide     = 2*22.98976928 + 15.999
)

// to returns the factor from a mass on one basis to that on another.
func (b AlkaliBasis) to(other AlkaliBasis) paperprop.Ratio {
	switch {
	case b == other:
		return 1
	case other == BasisNaOH:
		return sodiumHydroxide / sodiumOxide
	}
	return sodiumOxide / sodiumHydroxide
}

func (c CookingLiquor) compute() (CookingLiquorResult, error) {
	hydroxide, sulphide := c.SodiumHydroxide.In(paperprop.GramPerLitre), c.SodiumSulphide.In(paperprop.GramPerLitre)
	active := hydroxide + sulphide
	if active == 0 {
		return CookingLiquorResult{}, calc.Refuse("sodium-hydroxide", c.SodiumHydroxide,
			"above 0 where there is no sodium-sulphide: there is no alkali to cook with")
	}
	factor := c.Basis.to(c.ToBasis)
	k := float64(factor)
	return CookingLiquorResult{
		ActiveAlkali:    paperprop.Concentration(k*active) * paperprop.GramPerLitre,
		EffectiveAlkali: paperprop.Concentration(k*(hydroxide+sulphide/2)) * paperprop.GramPerLitre,
		TotalAlkali:     paperprop.Concentration(k*(active+c.SodiumCarbonate.In(paperprop.GramPerLitre))) * paperprop.GramPerLitre,
		Sulphidity:      paperprop.Fraction(sulphide / active),
		BasisFactor:     factor,
	}, nil
}

var cookingLiquor = &calc.Description[CookingLiquor, CookingLiquorResult]{
	Name:    "cooking-liquor",
	Title:   "Alkali and sulphidity of cooking liquor",
	Answers: "How much active, effective and total alkali a cooking liquor (white liquor) holds, and how much of it is sulphide.",
	Formula: []string{
		"C_aa = k_b*(C_h + C_s)",
		"C_ea = k_b*(C_h + C_s/2)",
		"C_ta = k_b*(C_h + C_s + C_c)",
		"x_s = C_s/(C_h + C_s)",
	},
	Method:  "k_b is 1 where basis and to-basis are the same, 79.99353856/61.97853856 from na2o to naoh, and the inverse of that back",
	Source:  "definitions of the trade; 2 NaOH 79.99353856 for 1 Na2O 61.97853856, from standard atomic weights",
	Status:  calc.CommonPractice,
	Example: "basis=na2o; to-basis=na2o; sodium-hydroxide=90 g/L; sodium-sulphide=35 g/L; sodium-carbonate=22 g/L",
	Mistakes: []string{
		"A figure means nothing without its basis: 125 g/L as Na2O are 161.3 g/L as NaOH.",
		"Some mills take sulphidity over the total alkali: 23.8 % here in place of 28 %.",
		"Half of the sulphide hydrolyses to hydroxide, so effective is less than active alkali.",
	},
	Compare: []calc.Comparison{{
		Inputs: "basis=na2o; to-basis=naoh; sodium-hydroxide=90 g/L; sodium-sulphide=35 g/L; sodium-carbonate=22 g/L",
		Why:    "the same liquor expressed as NaOH",
	}},
	Cautions: []*calc.Caution{&caustic, &hydrogenSulphide},
	Compute:  CookingLiquor.compute,
	Fields: func(f *calc.Form, in *CookingLiquor, out *CookingLiquorResult) {
		calc.InWord(f, &in.Basis, "basis", "what the figures given are expressed as", BasisNa2O, BasisNaOH)
		calc.InWord(f, &in.ToBasis, "to-basis", "what the results are expressed as", BasisNa2O, BasisNaOH).Symbol("basis_to").Label()
		calc.In(f, &in.SodiumHydroxide, "sodium-hydroxide", "C_h", "g/L", "NaOH, as basis").From(0)
		calc.In(f, &in.SodiumSulphide, "sodium-sulphide", "C_s", "g/L", "Na2S, as basis").From(0)
		calc.In(f, &in.SodiumCarbonate, "sodium-carbonate", "C_c", "g/L", "Na2CO3, as basis").From(0)
		calc.Out(f, &out.ActiveAlkali, "active-alkali", "C_aa", "g/L", "NaOH and Na2S")
		calc.Out(f, &out.EffectiveAlkali, "effective-alkali", "C_ea", "g/L", "NaOH and half of Na2S")
		calc.Out(f, &out.TotalAlkali, "total-alkali", "C_ta", "g/L", "NaOH, Na2S and Na2CO3: total titratable alkali")
		calc.Out(f, &out.Sulphidity, "sulphidity", "x_s", "%", "Na2S over active alkali")
		calc.Between(f, &out.BasisFactor, "k_b", "1", "from basis to to-basis")
	},
}

// HFactor is the time of a cook, weighted by the rate at which lignin dissolves.
// Its lists are of equal length, two readings or more.
type HFactor struct {
	Time            []paperprop.Duration            // of each reading, rising; only differences count
	Temperature     []paperprop.Temperature         // at each, 0 to 200 °C
	RateIntercept   paperprop.Ratio                 // of ln k = k_1 − k_2/T; zero stands for 43.2
	RateTemperature paperprop.TemperatureDifference // of the same, above zero; zero stands for 16115 K
}

// HFactorResult is the H-factor, the equivalent hours at 100 °C.
type HFactorResult struct {
	HFactor paperprop.Ratio
}

// Calculate returns ∫exp(k_1 − k_2/T) over time in hours, by the trapezoidal rule.
func (h HFactor) Calculate() (HFactorResult, error) { return hFactor.Calculate(h) }

func (h HFactor) compute() (HFactorResult, error) {
	if n := len(h.Time); n < 2 {
		return HFactorResult{}, calc.Refuse("time", calc.Members(n), "two readings or more")
	}
	sum, before := 0.0, h.rate(0)
	for i := 1; i < len(h.Time); i++ {
		if h.Time[i] <= h.Time[i-1] {
			return HFactorResult{}, calc.Refuse("time", h.Time[i], "above %v, the reading before it", h.Time[i-1])
		}
		after := h.rate(i)
		sum += (before + after) / 2 * (h.Time[i] - h.Time[i-1]).In(paperprop.Hour)
		before = after
	}
	return HFactorResult{paperprop.Ratio(sum)}, nil
}

// rate returns the relative rate at which lignin dissolves at a reading, about 1 at
// 100 °C.
func (h HFactor) rate(i int) float64 {
	return math.Exp(float64(h.RateIntercept) - h.RateTemperature.In(paperprop.KelvinDifference)/h.Temperature[i].Kelvin())
}

var hFactor = &calc.Description[HFactor, HFactorResult]{
	Name:    "h-factor",
	Title:   "H-factor of a cook",
	Answers: "What a cook in a digester at changing temperature amounts to, in hours at 100 degC.",
	Formula: []string{
		"k = exp(k_1 - k_2/T)",
		"H = sum((before(k) + after(k))/2*(after(tau) - before(tau)))/tau_1",
	},
	Source:  "Vroom (1957): ln k = 43.2 - 16115 K/T (memory); trapezoids between readings",
	Status:  calc.Memory,
	Example: "time=[0 90 180] min; temperature=[80 170 170] degC",
	Mistakes: []string{
		"Take readings close together while it heats up: the trapezoid of 80 to 170 degC in one step gives too high a factor.",
		"A degree counts: 171 degC gives 8.5 % more than 170.",
		"Some use 43.181 and 16113 K (memory); a factor goes with its constants.",
	},
	Compare: []calc.Comparison{
		{
			Inputs: "time=[0 15 30 45 60 75 90 180] min; temperature=[80 95 110 125 140 155 170 170] degC",
			Why:    "the same cook read every quarter of an hour while it heats up",
		},
		{
			Inputs: "time=[0 90 180] min; temperature=[80 170 170] degC; rate-intercept=43.181; rate-temperature=16113 K",
			Why:    "other constants in use",
		},
	},
	Cautions: []*calc.Caution{&caustic},
	Compute:  HFactor.compute,
	Fields: func(f *calc.Form, in *HFactor, out *HFactorResult) {
		hour := paperprop.Hour
		f.Even(
			calc.InList(f, &in.Time, "time", "tau", "min", "of each reading, rising; only differences count").From(0),
			calc.InList(f, &in.Temperature, "temperature", "T", "degC", "at each reading").From(0).UpTo(200),
		)
		calc.In(f, &in.RateIntercept, "rate-intercept", "k_1", "1", "of ln k = k_1 - k_2/T").Default(43.2)
		calc.In(f, &in.RateTemperature, "rate-temperature", "k_2", "K", "of the same").Above(0).Default(16115)
		calc.Out(f, &out.HFactor, "h-factor", "H", "1", "about 1 an hour at 100 degC")
		calc.Between(f, &hour, "tau_1", "h", "unit of time of the factor")
	},
}
