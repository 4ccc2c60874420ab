package fibre

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

var oxidiser = calc.Caution{Code: "oxidiser", Text: "Permanganate with acid oxidises what it meets, stains and burns, and iodine vapours harm: " +
	"never near solvents or sugar, in the hood, with eye protection; the safety data sheet, local codes and licensed practice come first."}

// Kappa is the kappa number of pulp: the millilitres of 0.1 N permanganate that a
// gram of it consumes, corrected to a consumption of 50 % and to 25 °C. It rises
// with the lignin content, but is not a content itself.
type Kappa struct {
	DryMass       paperprop.OvenDryMass         // of pulp, above zero
	BlankVolume   paperprop.Volume              // of thiosulfate, above zero
	TitrantVolume paperprop.Volume              // of thiosulfate for the test, at most BlankVolume
	Normality     paperprop.AmountConcentration // of the thiosulfate, above zero
	Temperature   []paperprop.Temperature       // of the reaction: one, or start and end; 20 to 30 °C each
}

// KappaResult is the kappa number and the values it is computed from.
type KappaResult struct {
	PermanganateVolume paperprop.Volume // of 0.1 N consumed
	CorrectionFactor   paperprop.Ratio  // to a consumption of 50 %
	ConsumedShare      paperprop.Fraction
	KappaNumber        paperprop.Ratio
	Warnings           calc.Warnings
}

// Calculate returns p·f/m_d·(1 + 0.013(25 − T)), with p = (V_b − V_a)·N/(0.1 eq/L)
// in mL, f = 10^(0.00093(p − 50)), m_d in g and T in °C.
func (k Kappa) Calculate() (KappaResult, error) { return kappa.Calculate(k) }

var (
	consumption = calc.Warning{Code: "consumption", Text: "the test should use 20 to 60 % of the permanganate " +
		"(ISO 302, seen): repeat with another mass of pulp"}
	otherVolume = calc.Warning{Code: "other-volume", Text: "the blank is not that of about 100 mL of 0.1 N permanganate, " +
		"for which the factor to 50 % holds (memory): of half the volume it is 5 % too small"}

	oddConsumption          = calc.Warnings{&consumption}
	oddVolume               = calc.Warnings{&otherVolume}
	oddConsumptionAndVolume = calc.Warnings{&consumption, &otherVolume}
)

// kappaDoubts returns the warnings for the share of the permanganate that was used up, and
// the volume of 0.1 N that was there, in mL.
func kappaDoubts(used, volume float64) calc.Warnings {
	switch odd, other := result.Outside(used, 0.2, 0.6), result.Outside(volume, 90, 110); {
	case odd && other:
		return oddConsumptionAndVolume
	case odd:
		return oddConsumption
	case other:
		return oddVolume
	}
	return nil
}

func (k Kappa) compute() (KappaResult, error) {
	if k.TitrantVolume > k.BlankVolume {
		return KappaResult{}, calc.Refuse("titrant-volume", k.TitrantVolume, "at most blank-volume %v", k.BlankVolume)
	}
	if n := len(k.Temperature); n > 2 {
		return KappaResult{}, calc.Refuse("temperature", calc.Members(n), "one reading, or start and end")
	}
	t := 0.0
	for _, reading := range k.Temperature {
		t += reading.Celsius() / float64(len(k.Temperature))
	}
	used := (k.BlankVolume - k.TitrantVolume).In(paperprop.Millilitre)
	p := used * k.Normality.In(paperprop.EquivalentPerLitre) / 0.1
	f := math.Pow(10, 0.00093*(p-50))
	r := KappaResult{
		PermanganateVolume: paperprop.Volume(p) * paperprop.Millilitre,
		CorrectionFactor:   paperprop.Ratio(f),
		ConsumedShare:      paperprop.Fraction((k.BlankVolume - k.TitrantVolume) / k.BlankVolume),
		KappaNumber:        paperprop.Ratio(p * f / k.DryMass.In(paperprop.OvenDryGram) * (1 + 0.013*(25-t))),
	}
	r.Warnings = kappaDoubts(float64(r.ConsumedShare), k.BlankVolume.In(paperprop.Millilitre)*k.Normality.In(paperprop.EquivalentPerLitre)/0.1)
	return r, nil
}

// kappaSteps returns the rounding rule for a kappa number: one decimal below 50,
// none from there on.
func kappaSteps(k float64) result.Rule {
	if result.Rest(k, 50) >= 0 {
		return result.StepOf(1, 0, result.Even)
	}
	return result.StepOf(1, -1, result.Even)
}

var kappa = &calc.Description[Kappa, KappaResult]{
	Name:    "kappa",
	Title:   "Kappa number",
	Answers: "How much permanganate pulp uses up, from the titration.",
	Formula: []string{
		"p = (V_b - V_a)*N/N_1",
		"f = pow(10, 0.00093*(p/V_1 - 50))",
		"x_p = (V_b - V_a)/V_b",
		"K = (p/V_1)*f/(m_d/m_1)*(1 + 0.013*(T_0 - mean(T))/T_1)",
	},
	Source: "T 236 om-99 and ISO 302:2015 (definition and limits seen); 0.00093 and 0.013 from memory",
	Status: calc.Memory,
	Example: "dry-mass=2.045 g; blank-volume=50.10 mL; titrant-volume=22.35 mL; normality=0.2000 eq/L; " +
		"temperature=[24.6 25.2] degC",
	Mistakes: []string{
		"Between 20 and 60 % of the permanganate is to be used up (ISO 302, seen), or between 30 and 70 % (T 236, memory): beyond, repeat with another mass.",
		"The normality is that of the thiosulfate, 0.2 eq/L, not of the permanganate, 0.1.",
		"Off 50 % the number is corrected: p of 30 mL counts for 0.958 of itself, 70 mL for 1.044. That holds for 100 mL of permanganate " +
			"(memory): a test with half of everything needs p doubled for it.",
		"Hexenuronic acid uses permanganate too: a kappa number is not a lignin content (seen).",
	},
	Cautions: []*calc.Caution{&calc.LabChemicals, &oxidiser},
	Compute:  Kappa.compute,
	Fields: func(f *calc.Form, in *Kappa, out *KappaResult) {
		normality, volume, mass := 0.1*paperprop.EquivalentPerLitre, paperprop.Millilitre, paperprop.OvenDryGram
		standard, kelvin := paperprop.Celsius(25), paperprop.KelvinDifference
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "of pulp").Above(0)
		calc.In(f, &in.BlankVolume, "blank-volume", "V_b", "mL", "thiosulfate for the blank").Above(0)
		calc.In(f, &in.TitrantVolume, "titrant-volume", "V_a", "mL", "thiosulfate for the test").From(0).Varied()
		calc.In(f, &in.Normality, "normality", "N", "eq/L", "of the thiosulfate").Above(0)
		calc.InList(f, &in.Temperature, "temperature", "T", "degC", "of the reaction: one reading, or start and end; beyond 20 to 30 degC repeat").
			From(20).UpTo(30)
		calc.Out(f, &out.PermanganateVolume, "permanganate-volume", "p", "mL", "of 0.1 N used up")
		calc.Out(f, &out.CorrectionFactor, "correction-factor", "f", "1", "to 50 % used up")
		calc.Out(f, &out.ConsumedShare, "consumed-share", "x_p", "%", "of the permanganate added")
		calc.Out(f, &out.KappaNumber, "kappa-number", "K", "1", "mL of 0.1 N for a gram of dry pulp").
			ReportBy("0.1 below 50, 1 from there on", calc.Memory, kappaSteps)
		calc.Between(f, &normality, "N_1", "eq/L", "normality of permanganate in the definition")
		calc.Between(f, &volume, "V_1", "mL", "unit of volume in the definition")
		calc.Between(f, &mass, "m_1", "g", "unit of mass in the definition")
		calc.Between(f, &standard, "T_0", "degC", "temperature of the method")
		calc.Between(f, &kelvin, "T_1", "K", "unit of temperature of the correction")
		f.Warnings(&out.Warnings)
	},
}

// KappaLignin is the lignin that corresponds to a kappa number.
type KappaLignin struct {
	KappaNumber  paperprop.Ratio    // zero or more
	LigninFactor paperprop.Fraction // lignin per unit of kappa number, above zero
}

// KappaLigninResult is the lignin content.
type KappaLigninResult struct {
	LigninShare paperprop.Fraction // of dry pulp
}

// Calculate returns the lignin content K·k_l.
func (k KappaLignin) Calculate() (KappaLigninResult, error) { return kappaLignin.Calculate(k) }

func (k KappaLignin) compute() (KappaLigninResult, error) {
	lignin := float64(k.KappaNumber) * float64(k.LigninFactor)
	if result.Rest(1, lignin) < 0 {
		return KappaLigninResult{}, calc.Refuse("lignin-share", paperprop.Fraction(lignin), "at most 100 %%: more lignin than pulp")
	}
	return KappaLigninResult{paperprop.Fraction(lignin)}, nil
}

var kappaLignin = &calc.Description[KappaLignin, KappaLigninResult]{
	Name:    "kappa-lignin",
	Title:   "Lignin from a kappa number",
	Answers: "How much lignin a kappa number stands for, by a factor of one's own.",
	Formula: []string{"x_l = K*k_l"},
	Source:  "summary page of T 236: 0.13 % a unit (seen); ISO 302 knows no general relation (seen)",
	Status:  calc.Published,
	Example: "kappa-number=30; lignin-factor=0.13 %",
	Mistakes: []string{
		"The factor belongs to the pulp; hexenuronic acid and other matter count as lignin (seen).",
	},
	Compare: []calc.Comparison{{
		Inputs: "kappa-number=30; lignin-factor=0.152207 %",
		Why:    "an encyclopaedia has K = 6.57 L, L the lignin in per cent (seen): a sixth more",
	}},
	Compute: KappaLignin.compute,
	Fields: func(f *calc.Form, in *KappaLignin, out *KappaLigninResult) {
		calc.In(f, &in.KappaNumber, "kappa-number", "K", "1", "of the pulp").From(0)
		calc.In(f, &in.LigninFactor, "lignin-factor", "k_l", "%", "lignin per unit; no general one: T 236 has 0.13 %").Above(0).Label()
		calc.Out(f, &out.LigninShare, "lignin-share", "x_l", "%", "of dry pulp")
	},
}
