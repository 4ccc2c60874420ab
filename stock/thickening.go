package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Thickening removes filtrate from a flow of stock.
type Thickening struct {
	MassFlow            paperprop.MassFlow    // stock before, above zero
	ConsistencyIn       paperprop.Consistency // before, above FiltrateConsistency
	ConsistencyOut      paperprop.Consistency // after, above ConsistencyIn
	FiltrateConsistency paperprop.Consistency // of the filtrate; zero is clear water
}

// ThickeningResult is the thickened stock and the filtrate.
type ThickeningResult struct {
	MassFlowOut      paperprop.MassFlow
	FiltrateFlow     paperprop.MassFlow
	Capture          paperprop.Fraction // dry matter kept over dry matter fed
	ThickeningFactor paperprop.Ratio    // ConsistencyOut/ConsistencyIn
	FiltratePerDry   paperprop.MassRatio
}

// Calculate closes the balance: q_out = q(c_in − c_f)/(c_out − c_f).
func (t Thickening) Calculate() (ThickeningResult, error) { return thickening.Calculate(t) }

func (t Thickening) compute() (ThickeningResult, error) {
	k, err := thicken(t.MassFlow.In(paperprop.TonnePerHour), t.ConsistencyIn, t.ConsistencyOut, t.FiltrateConsistency)
	return ThickeningResult{
		MassFlowOut:      paperprop.MassFlow(k.out) * paperprop.TonnePerHour,
		FiltrateFlow:     paperprop.MassFlow(k.filtrate) * paperprop.TonnePerHour,
		Capture:          paperprop.Fraction(k.capture),
		ThickeningFactor: paperprop.Ratio(k.factor),
		FiltratePerDry:   paperprop.MassRatio(k.perDry),
	}, err
}

// ThickeningBatch removes filtrate from a batch of stock.
type ThickeningBatch struct {
	Mass                paperprop.Mass        // stock before, above zero
	ConsistencyIn       paperprop.Consistency // before, above FiltrateConsistency
	ConsistencyOut      paperprop.Consistency // after, above ConsistencyIn
	FiltrateConsistency paperprop.Consistency // of the filtrate; zero is clear water
}

// ThickeningBatchResult is the thickened stock and the filtrate.
type ThickeningBatchResult struct {
	MassOut          paperprop.Mass
	FiltrateMass     paperprop.Mass
	Capture          paperprop.Fraction // dry matter kept over dry matter fed
	ThickeningFactor paperprop.Ratio    // ConsistencyOut/ConsistencyIn
	FiltratePerDry   paperprop.MassRatio
}

// Calculate closes the balance: m_out = m(c_in − c_f)/(c_out − c_f).
func (t ThickeningBatch) Calculate() (ThickeningBatchResult, error) {
	return thickeningBatch.Calculate(t)
}

func (t ThickeningBatch) compute() (ThickeningBatchResult, error) {
	k, err := thicken(t.Mass.In(paperprop.Tonne), t.ConsistencyIn, t.ConsistencyOut, t.FiltrateConsistency)
	return ThickeningBatchResult{
		MassOut:          paperprop.Mass(k.out) * paperprop.Tonne,
		FiltrateMass:     paperprop.Mass(k.filtrate) * paperprop.Tonne,
		Capture:          paperprop.Fraction(k.capture),
		ThickeningFactor: paperprop.Ratio(k.factor),
		FiltratePerDry:   paperprop.MassRatio(k.perDry),
	}, err
}

// thickened is the result of a thickener, amounts in the unit of the stock.
type thickened struct{ out, filtrate, capture, factor, perDry float64 }

func thicken(stock float64, in, out, filtrate paperprop.Consistency) (thickened, error) {
	if in <= filtrate {
		return thickened{}, calc.Refuse("consistency-in", in, "above filtrate-consistency %v", filtrate)
	}
	if out <= in {
		return thickened{}, calc.Refuse("consistency-out", out, "above consistency-in %v", in)
	}
	// Neither part is computed as the rest of the other, so both keep their digits
	// where they are small.
	kept, off := float64(in-filtrate)/float64(out-filtrate), float64(out-in)/float64(out-filtrate)
	factor := float64(out / in)
	return thickened{
		out: stock * kept, filtrate: stock * off,
		capture: kept * factor, factor: factor, perDry: float64(out-in) / float64(in-filtrate) / float64(out),
	}, nil
}

var thickeningMistakes = []string{
	"Filtrate is not clear: at 0.9 to 10 %, filtrate of 0.05 % takes 5 % of the dry matter with it.",
	"The water between 1/c_in and 1/c_out is the filtrate only where it is clear.",
}

var thickening = &calc.Description[Thickening, ThickeningResult]{
	Name:    "thickening",
	Title:   "Thickening of a flow of stock",
	Answers: "How much filtrate runs off a thickener, disc filter, save-all, clarifier, flotation cell (DAF) or screw press (dewatering of sludge too), and how much of the dry matter stays.",
	Formula: []string{
		"q_out = q*(c_in - c_f)/(c_out - c_f)",
		"q_f = q*(c_out - c_in)/(c_out - c_f)",
		"R_c = q_out*c_out/(q*c_in)",
		"k_t = c_out/c_in",
		"u_f = q_f/(q_out*c_out)",
	},
	Source:   balance + " over the thickener",
	Status:   calc.CommonPractice,
	Example:  "mass-flow=650 t/h; consistency-in=0.72 %; consistency-out=4.5 %; filtrate-consistency=0.03 %",
	Mistakes: thickeningMistakes,
	Compute:  Thickening.compute,
	Fields: func(f *calc.Form, in *Thickening, out *ThickeningResult) {
		calc.In(f, &in.MassFlow, "mass-flow", "q", "t/h", "stock before").Above(0)
		consistenciesOfThickening(f, &in.ConsistencyIn, &in.ConsistencyOut, &in.FiltrateConsistency)
		calc.Out(f, &out.MassFlowOut, "mass-flow-out", "q_out", "t/h", "thickened stock")
		calc.Out(f, &out.FiltrateFlow, "filtrate-flow", "q_f", "t/h", "what runs off")
		sharesOfThickening(f, &out.Capture, &out.ThickeningFactor, &out.FiltratePerDry)
	},
}

var thickeningBatch = &calc.Description[ThickeningBatch, ThickeningBatchResult]{
	Name:    "thickening-batch",
	Title:   "Thickening of a batch of stock",
	Answers: "How much filtrate runs off a batch, and how much of the dry matter stays.",
	Formula: []string{
		"m_out = m*(c_in - c_f)/(c_out - c_f)",
		"m_f = m*(c_out - c_in)/(c_out - c_f)",
		"R_c = m_out*c_out/(m*c_in)",
		"k_t = c_out/c_in",
		"u_f = m_f/(m_out*c_out)",
	},
	Source:   balance,
	Status:   calc.CommonPractice,
	Example:  "mass=1000 t; consistency-in=0.9 %; consistency-out=10 %; filtrate-consistency=0.05 %",
	Mistakes: thickeningMistakes,
	Compute:  ThickeningBatch.compute,
	Fields: func(f *calc.Form, in *ThickeningBatch, out *ThickeningBatchResult) {
		calc.In(f, &in.Mass, "mass", "m", "t", "stock before").Above(0)
		consistenciesOfThickening(f, &in.ConsistencyIn, &in.ConsistencyOut, &in.FiltrateConsistency)
		calc.Out(f, &out.MassOut, "mass-out", "m_out", "t", "thickened stock")
		calc.Out(f, &out.FiltrateMass, "filtrate-mass", "m_f", "t", "what runs off")
		sharesOfThickening(f, &out.Capture, &out.ThickeningFactor, &out.FiltratePerDry)
	},
}

func consistenciesOfThickening(f *calc.Form, in, out, filtrate *paperprop.Consistency) {
	calc.In(f, in, "consistency-in", "c_in", "%", "before")
	calc.In(f, out, "consistency-out", "c_out", "%", "after")
	calc.In(f, filtrate, "filtrate-consistency", "c_f", "%", "of what runs off").Default(0)
}

func sharesOfThickening(f *calc.Form, capture *paperprop.Fraction, factor *paperprop.Ratio, perDry *paperprop.MassRatio) {
	calc.Out(f, capture, "capture", "R_c", "%", "dry matter kept over dry matter fed")
	calc.Out(f, factor, "thickening-factor", "k_t", "1", "consistency-out/consistency-in")
	calc.Out(f, perDry, "filtrate-per-dry", "u_f", "t/t", "filtrate over dry matter kept")
}
