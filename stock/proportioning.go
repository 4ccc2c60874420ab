package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Proportioning mixes stocks by their shares of the dry furnish. Its lists are of
// equal length.
type Proportioning struct {
	DryFlow     paperprop.OvenDryFlow   // of the whole furnish, above zero
	DryShare    []paperprop.Fraction    // of each stock; together 100 % within 0.001 %
	Consistency []paperprop.Consistency // of each stock, above zero
}

// ProportioningResult is the flow of each stock and of the blend.
type ProportioningResult struct {
	MassFlow       []paperprop.MassFlow
	MassFlowOut    paperprop.MassFlow
	ConsistencyOut paperprop.Consistency
}

// Calculate returns the flow q_d·x/c of each stock, and the blend.
func (p Proportioning) Calculate() (ProportioningResult, error) { return proportioning.Calculate(p) }

func (p Proportioning) compute() (ProportioningResult, error) {
	dry := p.DryFlow.In(paperprop.DryTonnePerHour)
	parts, sum := portion(dry, paperprop.TonnePerHour, p.DryShare, p.Consistency)
	return ProportioningResult{
		MassFlow:       parts,
		MassFlowOut:    paperprop.MassFlow(sum) * paperprop.TonnePerHour,
		ConsistencyOut: paperprop.Consistency(dry / sum),
	}, nil
}

// ProportioningBatch mixes batches of stock by their shares of the dry furnish. Its
// lists are of equal length.
type ProportioningBatch struct {
	DryMass     paperprop.OvenDryMass   // of the whole furnish, above zero
	DryShare    []paperprop.Fraction    // of each stock; together 100 % within 0.001 %
	Consistency []paperprop.Consistency // of each stock, above zero
}

// ProportioningBatchResult is the mass of each stock and of the blend.
type ProportioningBatchResult struct {
	Mass           []paperprop.Mass
	MassOut        paperprop.Mass
	ConsistencyOut paperprop.Consistency
}

// Calculate returns the mass m_d·x/c of each stock, and the blend.
func (p ProportioningBatch) Calculate() (ProportioningBatchResult, error) {
	return proportioningBatch.Calculate(p)
}

func (p ProportioningBatch) compute() (ProportioningBatchResult, error) {
	dry := p.DryMass.In(paperprop.OvenDryTonne)
	parts, sum := portion(dry, paperprop.Tonne, p.DryShare, p.Consistency)
	return ProportioningBatchResult{
		Mass:           parts,
		MassOut:        paperprop.Mass(sum) * paperprop.Tonne,
		ConsistencyOut: paperprop.Consistency(dry / sum),
	}, nil
}

// portion returns the amount of each stock and their sum, in the unit of the dry
// amount.
func portion[Q ~float64](dry float64, unit Q, shares []paperprop.Fraction, consistencies []paperprop.Consistency) (parts []Q, sum float64) {
	parts = make([]Q, len(shares))
	for i, share := range shares {
		part := dry * float64(share) / float64(consistencies[i])
		parts[i] = Q(part) * unit
		sum += part
	}
	return parts, sum
}

var portioningMistakes = []string{
	"Shares of dry furnish are not shares of flow: a thin stock takes more of the flow.",
	"The consistency of the blend is the harmonic mean: 80 % at 3.8 % with 20 % at 3.2 % makes 3.66 %, not 3.68 %.",
}

var proportioning = &calc.Description[Proportioning, ProportioningResult]{
	Name:     "proportioning",
	Title:    "Flows of stock for the shares of a furnish",
	Answers:  "What flow of each stock gives a furnish its shares of dry matter.",
	Formula:  []string{"q = q_d*x/c", "q_out = sum(q)", "c_out = q_d/q_out"},
	Source:   balance + " over the mixing point",
	Status:   calc.CommonPractice,
	Example:  "dry-flow=14.4 t/h; dry-share=[94 6] %; consistency=[3.4 4.0] %",
	Mistakes: portioningMistakes,
	Compute:  Proportioning.compute,
	Fields: func(f *calc.Form, in *Proportioning, out *ProportioningResult) {
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "t/h", "of the whole furnish").Above(0)
		stocksOfFurnish(f, &in.DryShare, &in.Consistency)
		calc.OutList(f, &out.MassFlow, "mass-flow", "q", "t/h", "of each stock")
		calc.Out(f, &out.MassFlowOut, "mass-flow-out", "q_out", "t/h", "all together")
		calc.Out(f, &out.ConsistencyOut, "consistency-out", "c_out", "%", "of the blend")
	},
}

var proportioningBatch = &calc.Description[ProportioningBatch, ProportioningBatchResult]{
	Name:     "proportioning-batch",
	Title:    "Batches of stock for the shares of a furnish",
	Answers:  "What mass of each stock gives a furnish its shares of dry matter.",
	Formula:  []string{"m = m_d*x/c", "m_out = sum(m)", "c_out = m_d/m_out"},
	Source:   balance,
	Status:   calc.CommonPractice,
	Example:  "dry-mass=4.8 t; dry-share=[70 30] %; consistency=[4.6 3.2] %",
	Mistakes: portioningMistakes,
	Compute:  ProportioningBatch.compute,
	Fields: func(f *calc.Form, in *ProportioningBatch, out *ProportioningBatchResult) {
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "t", "of the whole furnish").Above(0)
		stocksOfFurnish(f, &in.DryShare, &in.Consistency)
		calc.OutList(f, &out.Mass, "mass", "m", "t", "of each stock")
		calc.Out(f, &out.MassOut, "mass-out", "m_out", "t", "all together")
		calc.Out(f, &out.ConsistencyOut, "consistency-out", "c_out", "%", "of the blend")
	},
}

func stocksOfFurnish(f *calc.Form, share *[]paperprop.Fraction, consistency *[]paperprop.Consistency) {
	f.Even(
		calc.InList(f, share, "dry-share", "x", "%", "of each stock, of the dry furnish; 100 % in all").From(0).SumsTo(100, 0.001),
		calc.InList(f, consistency, "consistency", "c", "%", "of each stock").Above(0),
	)
}
