package fibre

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// TestCharge is the stock to prepare for a test.
type TestCharge struct {
	DryMass       paperprop.OvenDryMass // that the test needs, above zero
	Dryness       paperprop.DryContent  // of the pulp or stock at hand, above zero
	ToConsistency paperprop.Consistency // of the charge, above zero, at most Dryness
}

// TestChargeResult is the pulp to weigh, the water to add, and their sum.
type TestChargeResult struct {
	MoistMass paperprop.Mass // of pulp or stock to take
	WaterMass paperprop.Mass // to add
	TotalMass paperprop.Mass
}

// Calculate returns the moist pulp m_d/d, the total m_d/c, and the water between
// them.
func (c TestCharge) Calculate() (TestChargeResult, error) { return testCharge.Calculate(c) }

func (c TestCharge) compute() (TestChargeResult, error) {
	m, d, to := c.DryMass.In(paperprop.OvenDryGram), float64(c.Dryness), float64(c.ToConsistency)
	if to > d {
		return TestChargeResult{}, calc.Refuse("to-consistency", c.ToConsistency, "at most dryness %v", c.Dryness)
	}
	return TestChargeResult{
		MoistMass: paperprop.Mass(m/d) * paperprop.Gram,
		WaterMass: paperprop.Mass(m*(d-to)/(d*to)) * paperprop.Gram,
		TotalMass: paperprop.Mass(m/to) * paperprop.Gram,
	}, nil
}

var testCharge = &calc.Description[TestCharge, TestChargeResult]{
	Name:    "test-charge",
	Title:   "Charge of a test",
	Answers: "How much pulp and how much water make the charge of a test, as of a freeness tester or a PFI mill.",
	Formula: []string{"m_w = m_d/d", "m_t = m_d/c_to", "m_a = m_t - m_w"},
	Source:  "balance of dry matter; T 227 3 g in 1 L, Schopper-Riegler 2 g, T 248 24 g (seen), ISO 5264-2 30 g (memory)",
	Status:  calc.CommonPractice,
	Example: "dry-mass=24 g; dryness=28.4 %; to-consistency=10 %",
	Mistakes: []string{
		"Water in the pulp counts: 24 g dry at 28.4 % brings 60.5 g of the 216 g of water.",
		"Standards differ in the charge, and revolutions of one do not carry over to the other.",
	},
	Compare: []calc.Comparison{{
		Inputs: "dry-mass=30 g; dryness=28.4 %; to-consistency=10 %",
		Why:    "30 g after ISO 5264-2 (memory) in place of 24 g after T 248 (seen)",
	}},
	Compute: TestCharge.compute,
	Fields: func(f *calc.Form, in *TestCharge, out *TestChargeResult) {
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "that the test wants").Above(0)
		calc.In(f, &in.Dryness, "dryness", "d", "%", "of the pulp or stock at hand").Above(0)
		calc.In(f, &in.ToConsistency, "to-consistency", "c_to", "%", "of the charge").Above(0)
		calc.Out(f, &out.MoistMass, "moist-mass", "m_w", "g", "of pulp or stock to take")
		calc.Out(f, &out.WaterMass, "water-mass", "m_a", "g", "to add")
		calc.Out(f, &out.TotalMass, "total-mass", "m_t", "g", "of the charge")
	},
}

// Disintegration is the charge of a laboratory disintegrator.
type Disintegration struct {
	DryMass   paperprop.OvenDryMass // of pulp, above zero
	Dryness   paperprop.DryContent  // of the pulp at hand, above zero
	TotalMass paperprop.Mass        // of the charge, at least the moist pulp; zero stands for 2000 g
}

// DisintegrationResult is the water to add and the number of revolutions.
type DisintegrationResult struct {
	WaterMass   paperprop.Mass // to add
	Consistency paperprop.Consistency
	Revolutions paperprop.Count
}

// Calculate returns the water m_t − m_d/d, the consistency m_d/m_t, and the
// revolutions: 30000 for a dryness of 20 % or more, 10000 below.
func (d Disintegration) Calculate() (DisintegrationResult, error) { return disintegration.Calculate(d) }

// drained is the dryness from which pulp needs the higher number of revolutions.
const drained = 20 * paperprop.Percent

func (d Disintegration) compute() (DisintegrationResult, error) {
	dry, total := d.DryMass.In(paperprop.OvenDryGram), d.TotalMass.In(paperprop.Gram)
	moist := dry / float64(d.Dryness)
	water := result.Rest(total, moist)
	if water < 0 {
		return DisintegrationResult{}, calc.Refuse("total-mass", d.TotalMass, "at least the moist pulp, %v", paperprop.Mass(moist)*paperprop.Gram)
	}
	r := DisintegrationResult{
		WaterMass:   paperprop.Mass(water) * paperprop.Gram,
		Consistency: paperprop.Consistency(dry / total),
		Revolutions: 10_000,
	}
	if d.Dryness >= drained {
		r.Revolutions = 30_000
	}
	return r, nil
}

var disintegration = &calc.Description[Disintegration, DisintegrationResult]{
	Name:    "disintegration",
	Title:   "Charge of a disintegrator",
	Answers: "How much water goes to pulp in a laboratory disintegrator, and for how many revolutions it runs.",
	Formula: []string{"m_a = m_t - m_d/d", "c = m_d/m_t", "n = 10000 + 20000*reaches(d, 0.2)"},
	Source:  "page of a university laboratory after ISO 5263: 2000 +- 25 cm3, 30000 revolutions from 20 % up, else 10000 (seen)",
	Status:  calc.Published,
	Example: "dry-mass=30 g; dryness=22 %",
	Mistakes: []string{
		"The revolutions depend on the dryness before, not on the consistency of the charge.",
		"Standards differ: ISO 5263 has 1.5 % (seen), T 205 24 g in 2000 g, 1.2 % (memory).",
		"Mechanical pulp with latency takes the hot method, at 85 degC or above (ISO 5263-3, seen).",
	},
	Compare: []calc.Comparison{{
		Inputs: "dry-mass=30 g; dryness=18 %",
		Why:    "pulp wetter than 20 % takes a third of the revolutions",
	}},
	Compute: Disintegration.compute,
	Fields: func(f *calc.Form, in *Disintegration, out *DisintegrationResult) {
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "of pulp").Above(0)
		calc.In(f, &in.Dryness, "dryness", "d", "%", "of the pulp at hand").Above(0)
		calc.In(f, &in.TotalMass, "total-mass", "m_t", "g", "of the charge").Above(0).Default(2000)
		calc.Out(f, &out.WaterMass, "water-mass", "m_a", "g", "to add")
		calc.Out(f, &out.Consistency, "consistency", "c", "%", "of the charge")
		calc.Out(f, &out.Revolutions, "revolutions", "n", "1", "to run")
	},
}
