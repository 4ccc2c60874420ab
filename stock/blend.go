package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Blend mixes flows of stock. Its lists are of equal length.
type Blend struct {
	MassFlow    []paperprop.MassFlow    // of each stream, zero or more, not all zero
	Consistency []paperprop.Consistency // of each stream
}

// BlendResult is the mixed stock, and where its dry matter comes from.
type BlendResult struct {
	MassFlowOut    paperprop.MassFlow
	ConsistencyOut paperprop.Consistency
	DryFlowOut     paperprop.OvenDryFlow
	DryShare       []paperprop.Fraction // from each stream; empty where there is no dry matter
}

// Calculate returns the sum of the flows, and their consistency as the mean
// weighted by mass.
func (b Blend) Calculate() (BlendResult, error) { return blend.Calculate(b) }

func (b Blend) compute() (BlendResult, error) {
	m, err := mix("mass-flow", b.MassFlow, paperprop.TonnePerHour, b.Consistency)
	return BlendResult{
		MassFlowOut:    paperprop.MassFlow(m.mass) * paperprop.TonnePerHour,
		ConsistencyOut: m.consistency,
		DryFlowOut:     paperprop.OvenDryFlow(m.dry) * paperprop.DryTonnePerHour,
		DryShare:       m.shares,
	}, err
}

// BlendBatch mixes batches of stock. Its lists are of equal length.
type BlendBatch struct {
	Mass        []paperprop.Mass        // of each stock, zero or more, not all zero
	Consistency []paperprop.Consistency // of each stock
}

// BlendBatchResult is the mixed stock, and where its dry matter comes from.
type BlendBatchResult struct {
	MassOut        paperprop.Mass
	ConsistencyOut paperprop.Consistency
	DryMassOut     paperprop.OvenDryMass
	DryShare       []paperprop.Fraction // from each stock; empty where there is no dry matter
}

// Calculate returns the sum of the masses, and their consistency as the mean
// weighted by mass.
func (b BlendBatch) Calculate() (BlendBatchResult, error) { return blendBatch.Calculate(b) }

func (b BlendBatch) compute() (BlendBatchResult, error) {
	m, err := mix("mass", b.Mass, paperprop.Tonne, b.Consistency)
	return BlendBatchResult{
		MassOut:        paperprop.Mass(m.mass) * paperprop.Tonne,
		ConsistencyOut: m.consistency,
		DryMassOut:     paperprop.OvenDryMass(m.dry) * paperprop.OvenDryTonne,
		DryShare:       m.shares,
	}, err
}

type mixed struct {
	mass, dry   float64
	consistency paperprop.Consistency
	shares      []paperprop.Fraction
}

// An amount is a mass or a flow of mass.
type amount[Q any] interface {
	~float64
	In(unit Q) float64
	String() string
}

// mix adds up amounts in the given unit, and returns the share of the dry matter
// that each brings.
func mix[Q amount[Q]](input string, amounts []Q, unit Q, consistencies []paperprop.Consistency) (mixed, error) {
	m, err := pool(input, amounts, unit, consistencies)
	if err == nil && m.dry > 0 {
		for i, a := range amounts {
			m.shares = append(m.shares, paperprop.Fraction(a.In(unit)*float64(consistencies[i])/m.dry))
		}
	}
	return m, err
}

// pool adds up amounts in the given unit.
func pool[Q amount[Q]](input string, amounts []Q, unit Q, consistencies []paperprop.Consistency) (mixed, error) {
	var m mixed
	for i, a := range amounts {
		m.mass += a.In(unit)
		m.dry += a.In(unit) * float64(consistencies[i])
	}
	if m.mass <= 0 {
		return m, calc.Refuse(input, Q(m.mass), "a sum above zero")
	}
	m.consistency = paperprop.Consistency(m.dry / m.mass)
	return m, nil
}

var blend = &calc.Description[Blend, BlendResult]{
	Name:     "blend",
	Title:    "Blend of flows of stock",
	Answers:  "What flow and consistency streams of stock make together, and whose dry matter it is.",
	Formula:  []string{"q_out = sum(q)", "q_d = sum(q*c)", "c_out = q_d/q_out", "x = q*c/q_d"},
	Source:   balance + " over the mixing point",
	Status:   calc.CommonPractice,
	Example:  "mass-flow=[210 85 40] t/h; consistency=[3.9 3.5 0.6] %",
	Mistakes: []string{"The simple mean of the consistencies is wrong unless all flows are the same."},
	Compute:  Blend.compute,
	Fields: func(f *calc.Form, in *Blend, out *BlendResult) {
		f.Even(
			calc.InList(f, &in.MassFlow, "mass-flow", "q", "t/h", "of each stream"),
			calc.InList(f, &in.Consistency, "consistency", "c", "%", "of each stream"),
		)
		calc.Out(f, &out.MassFlowOut, "mass-flow-out", "q_out", "t/h", "all together")
		calc.Out(f, &out.ConsistencyOut, "consistency-out", "c_out", "%", "weighted by mass")
		calc.Out(f, &out.DryFlowOut, "dry-flow-out", "q_d", "t/h", "dry matter in it")
		calc.OutList(f, &out.DryShare, "dry-share", "x", "%", "of the dry matter, from each stream")
	},
}

var blendBatch = &calc.Description[BlendBatch, BlendBatchResult]{
	Name:     "blend-batch",
	Title:    "Blend of batches of stock",
	Answers:  "What mass and consistency batches of stock make together, and whose dry matter it is.",
	Formula:  []string{"m_out = sum(m)", "m_d = sum(m*c)", "c_out = m_d/m_out", "x = m*c/m_d"},
	Source:   balance,
	Status:   calc.CommonPractice,
	Example:  "mass=[60 25 15] t; consistency=[4.2 3.6 0.4] %",
	Mistakes: []string{"The simple mean of the consistencies is wrong unless all masses are the same."},
	Compute:  BlendBatch.compute,
	Fields: func(f *calc.Form, in *BlendBatch, out *BlendBatchResult) {
		f.Even(
			calc.InList(f, &in.Mass, "mass", "m", "t", "of each stock"),
			calc.InList(f, &in.Consistency, "consistency", "c", "%", "of each stock"),
		)
		calc.Out(f, &out.MassOut, "mass-out", "m_out", "t", "all together")
		calc.Out(f, &out.ConsistencyOut, "consistency-out", "c_out", "%", "weighted by mass")
		calc.Out(f, &out.DryMassOut, "dry-mass-out", "m_d", "t", "dry matter in it")
		calc.OutList(f, &out.DryShare, "dry-share", "x", "%", "of the dry matter, from each stock")
	},
}
