package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Dilution thins a flow of stock with water.
type Dilution struct {
	MassFlow         paperprop.MassFlow    // stock before, above zero
	ConsistencyIn    paperprop.Consistency // before, above zero
	ConsistencyOut   paperprop.Consistency // wanted: above the water's, at most ConsistencyIn
	WaterConsistency paperprop.Consistency // of the water added; zero is clear water
}

// DilutionResult is the water to add and the diluted stock.
type DilutionResult struct {
	WaterFlow   paperprop.MassFlow
	MassFlowOut paperprop.MassFlow
	DryFlowOut  paperprop.OvenDryFlow // the water's dry matter included
}

// Calculate returns the water to add: q·(c_in − c_out)/(c_out − c_w).
func (d Dilution) Calculate() (DilutionResult, error) { return dilution.Calculate(d) }

func (d Dilution) compute() (DilutionResult, error) {
	t, err := thin(d.MassFlow.In(paperprop.TonnePerHour), d.ConsistencyIn, d.ConsistencyOut, d.WaterConsistency)
	return DilutionResult{
		WaterFlow:   paperprop.MassFlow(t.water) * paperprop.TonnePerHour,
		MassFlowOut: paperprop.MassFlow(t.out) * paperprop.TonnePerHour,
		DryFlowOut:  paperprop.OvenDryFlow(t.dry) * paperprop.DryTonnePerHour,
	}, err
}

// DilutionBatch thins a batch of stock with water.
type DilutionBatch struct {
	Mass             paperprop.Mass        // stock before, above zero
	ConsistencyIn    paperprop.Consistency // before, above zero
	ConsistencyOut   paperprop.Consistency // wanted: above the water's, at most ConsistencyIn
	WaterConsistency paperprop.Consistency // of the water added; zero is clear water
}

// DilutionBatchResult is the water to add and the diluted stock.
type DilutionBatchResult struct {
	WaterMass  paperprop.Mass
	MassOut    paperprop.Mass
	DryMassOut paperprop.OvenDryMass // the water's dry matter included
}

// Calculate returns the water to add: m·(c_in − c_out)/(c_out − c_w).
func (d DilutionBatch) Calculate() (DilutionBatchResult, error) { return dilutionBatch.Calculate(d) }

func (d DilutionBatch) compute() (DilutionBatchResult, error) {
	t, err := thin(d.Mass.In(paperprop.Tonne), d.ConsistencyIn, d.ConsistencyOut, d.WaterConsistency)
	return DilutionBatchResult{
		WaterMass:  paperprop.Mass(t.water) * paperprop.Tonne,
		MassOut:    paperprop.Mass(t.out) * paperprop.Tonne,
		DryMassOut: paperprop.OvenDryMass(t.dry) * paperprop.OvenDryTonne,
	}, err
}

// thinned is the result of a dilution, in the unit of the stock.
type thinned struct{ water, out, dry float64 }

func thin(stock float64, in, out, water paperprop.Consistency) (thinned, error) {
	if out > in || out <= water {
		return thinned{}, calc.Refuse("consistency-out", out, "above water-consistency %v and at most consistency-in %v", water, in)
	}
	w := stock * float64(in-out) / float64(out-water)
	return thinned{water: w, out: stock + w, dry: (stock + w) * float64(out)}, nil
}

var thinningMistakes = []string{
	"White water carries solids, so more of it is needed than of clear water.",
	"C1 V1 = C2 V2 holds for g/L; for per cent it is masses that count.",
}

var dilution = &calc.Description[Dilution, DilutionResult]{
	Name:     "dilution",
	Title:    "Dilution of stock to a lower consistency",
	Answers:  "How much water thins a flow of stock, as at the fan pump, and what flow it becomes.",
	Formula:  []string{"q_w = q*(c_in - c_out)/(c_out - c_w)", "q_out = q + q_w", "q_d = q_out*c_out"},
	Source:   balance + " over the mixing point",
	Status:   calc.CommonPractice,
	Example:  "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %",
	Mistakes: thinningMistakes,
	Compute:  Dilution.compute,
	Fields: func(f *calc.Form, in *Dilution, out *DilutionResult) {
		calc.In(f, &in.MassFlow, "mass-flow", "q", "t/h", "stock before").Above(0)
		consistenciesOfDilution(f, &in.ConsistencyIn, &in.ConsistencyOut, &in.WaterConsistency)
		calc.Out(f, &out.WaterFlow, "water-flow", "q_w", "t/h", "water to add")
		calc.Out(f, &out.MassFlowOut, "mass-flow-out", "q_out", "t/h", "diluted stock")
		calc.Out(f, &out.DryFlowOut, "dry-flow-out", "q_d", "t/h", "dry matter in it, the water's included")
	},
}

var dilutionBatch = &calc.Description[DilutionBatch, DilutionBatchResult]{
	Name:     "dilution-batch",
	Title:    "Dilution of a batch of stock to a lower consistency",
	Answers:  "How much water thins a batch of stock, and what mass it becomes.",
	Formula:  []string{"m_w = m*(c_in - c_out)/(c_out - c_w)", "m_out = m + m_w", "m_d = m_out*c_out"},
	Source:   balance,
	Status:   calc.CommonPractice,
	Example:  "mass=50 t; consistency-in=12 %; consistency-out=4 %; water-consistency=0.25 %",
	Mistakes: thinningMistakes,
	Compute:  DilutionBatch.compute,
	Fields: func(f *calc.Form, in *DilutionBatch, out *DilutionBatchResult) {
		calc.In(f, &in.Mass, "mass", "m", "t", "stock before").Above(0)
		consistenciesOfDilution(f, &in.ConsistencyIn, &in.ConsistencyOut, &in.WaterConsistency)
		calc.Out(f, &out.WaterMass, "water-mass", "m_w", "t", "water to add")
		calc.Out(f, &out.MassOut, "mass-out", "m_out", "t", "diluted stock")
		calc.Out(f, &out.DryMassOut, "dry-mass-out", "m_d", "t", "dry matter in it, the water's included")
	},
}

func consistenciesOfDilution(f *calc.Form, in, out, water *paperprop.Consistency) {
	calc.In(f, in, "consistency-in", "c_in", "%", "before").Above(0)
	calc.In(f, out, "consistency-out", "c_out", "%", "wanted")
	calc.In(f, water, "water-consistency", "c_w", "%", "of the water added").Default(0)
}
