package stock

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Pulping turns a flow of bales into stock and removes coarse rejects.
type Pulping struct {
	BaleFlow         paperprop.MassFlow    // bales as received, above zero
	BaleMoisture     paperprop.Moisture    // below 100 %
	RejectRate       paperprop.Fraction    // coarse rejects over the bales, dry over dry, below 100 %
	RejectDryness    paperprop.DryContent  // required with a RejectRate
	Consistency      paperprop.Consistency // of the accepted stock, above WaterConsistency
	WaterConsistency paperprop.Consistency // of the water added; zero is clear water
}

// PulpingResult is the water to add and what leaves the pulper.
type PulpingResult struct {
	WaterFlow    paperprop.MassFlow
	StockFlow    paperprop.MassFlow
	StockDryFlow paperprop.OvenDryFlow
	RejectFlow   paperprop.MassFlow
}

// Calculate closes the balance of stock and of dry matter over the pulper.
func (p Pulping) Calculate() (PulpingResult, error) { return pulping.Calculate(p) }

func (p Pulping) compute() (PulpingResult, error) {
	k, err := pulp(p.BaleFlow.In(paperprop.TonnePerHour), p.BaleMoisture, p.RejectRate, p.RejectDryness, p.Consistency, p.WaterConsistency)
	return PulpingResult{
		WaterFlow:    paperprop.MassFlow(k.water) * paperprop.TonnePerHour,
		StockFlow:    paperprop.MassFlow(k.stock) * paperprop.TonnePerHour,
		StockDryFlow: paperprop.OvenDryFlow(k.stock*float64(p.Consistency)) * paperprop.DryTonnePerHour,
		RejectFlow:   paperprop.MassFlow(k.rejects) * paperprop.TonnePerHour,
	}, err
}

// rounding is how far a computed 1 − x may lie from the decimal it stands for: 1 −
// 0.97 is a little more than 0.03.
const rounding = 1e-15

// pulped is the balance of a pulper, in the unit of the bales.
type pulped struct{ baleDry, water, stock, rejects float64 }

func pulp(bales float64, moisture paperprop.Moisture, rejectRate paperprop.Fraction, rejectDryness paperprop.DryContent,
	consistency, waterConsistency paperprop.Consistency) (pulped, error) {
	if consistency <= waterConsistency {
		return pulped{}, calc.Refuse("consistency", consistency, "above water-consistency %v", waterConsistency)
	}
	if rejectRate > 0 && rejectDryness == 0 {
		return pulped{}, calc.Refuse("reject-rate", rejectRate, "with it the reject-dryness")
	}
	dry := bales * (1 - float64(moisture))
	r, c, water := float64(rejectRate), float64(consistency), float64(waterConsistency)
	var rejects float64
	if r != 0 {
		rejects = dry * r / float64(rejectDryness)
	}
	thick := dry*(1-r) - c*(bales-rejects) // dry matter in excess of the wanted consistency, before water is added
	if math.Abs(thick) <= rounding*bales {
		thick = 0
	}
	if thick < 0 {
		return pulped{}, calc.Refuse("bale-moisture", moisture, "bales dry enough for a consistency of %v: no water is to be added", consistency)
	}
	// From the dry matter alone: bales plus water less rejects would carry the last
	// digits of wet rejects into the stock, which with clear water doesn't depend
	// on them.
	stock := (dry*(1-r) - water*(bales-rejects)) / (c - water)
	return pulped{baleDry: dry, water: thick / (c - water), stock: stock, rejects: rejects}, nil
}

var pulpingMistakes = []string{
	"Bales bring water with them: their moisture counts against the water to add.",
	"Rejects leave wet: their dryness decides how much water goes with them.",
}

var pulping = &calc.Description[Pulping, PulpingResult]{
	Name:    "pulping",
	Title:   "Pulping of a flow of bales",
	Answers: "How much water turns bales into stock of a consistency in a pulper (slusher, repulper), and what leaves as coarse rejects.",
	Formula: []string{
		"q_r = P_b*(1 - w_b)*r/d_r",
		"q_w = (P_b*(1 - w_b)*(1 - r) - c*(P_b - q_r))/(c - c_w)",
		"q = P_b + q_w - q_r",
		"q_d = q*c",
	},
	Source:   balance + " over the pulper",
	Status:   calc.CommonPractice,
	Example:  "bale-flow=28 t/h; bale-moisture=10 %; reject-rate=6 %; reject-dryness=35 %; consistency=4.2 %",
	Mistakes: pulpingMistakes,
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  Pulping.compute,
	Fields: func(f *calc.Form, in *Pulping, out *PulpingResult) {
		calc.In(f, &in.BaleFlow, "bale-flow", "P_b", "t/h", "bales as they come").Above(0)
		contentsOfPulper(f, &in.BaleMoisture, &in.RejectRate, &in.RejectDryness, &in.Consistency, &in.WaterConsistency)
		calc.Out(f, &out.WaterFlow, "water-flow", "q_w", "t/h", "water to add")
		calc.Out(f, &out.StockFlow, "stock-flow", "q", "t/h", "accepted stock")
		calc.Out(f, &out.StockDryFlow, "stock-dry-flow", "q_d", "t/h", "dry matter in it, the water's included")
		calc.Out(f, &out.RejectFlow, "reject-flow", "q_r", "t/h", "rejects as they leave")
	},
}

func contentsOfPulper(f *calc.Form, moisture *paperprop.Moisture, rejectRate *paperprop.Fraction, rejectDryness *paperprop.DryContent,
	consistency, waterConsistency *paperprop.Consistency) {
	calc.In(f, moisture, "bale-moisture", "w_b", "%", "of them").From(0).Below(100)
	calc.In(f, rejectRate, "reject-rate", "r", "%", "coarse rejects over the bales, dry over dry").From(0).Below(100).Default(0)
	calc.In(f, rejectDryness, "reject-dryness", "d_r", "%", "of the rejects, needed with a reject-rate").Above(0).Optional()
	calc.In(f, consistency, "consistency", "c", "%", "of the accepted stock")
	calc.In(f, waterConsistency, "water-consistency", "c_w", "%", "of the water added").Default(0)
}

// PulpingBatch turns a batch of bales into stock and removes coarse rejects.
type PulpingBatch struct {
	BaleMass         paperprop.Mass        // bales as received, above zero
	BaleMoisture     paperprop.Moisture    // below 100 %
	RejectRate       paperprop.Fraction    // coarse rejects over the bales, dry over dry, below 100 %
	RejectDryness    paperprop.DryContent  // required with a RejectRate
	Consistency      paperprop.Consistency // of the accepted stock, above WaterConsistency
	WaterConsistency paperprop.Consistency // of the water added; zero is clear water
}

// PulpingBatchResult is the water to add and what leaves the pulper.
type PulpingBatchResult struct {
	WaterMass    paperprop.Mass
	BaleDryMass  paperprop.OvenDryMass
	StockMass    paperprop.Mass
	StockDryMass paperprop.OvenDryMass
	RejectMass   paperprop.Mass // as it leaves
}

// Calculate closes the balance of stock and of dry matter over the pulper.
func (p PulpingBatch) Calculate() (PulpingBatchResult, error) { return pulpingBatch.Calculate(p) }

func (p PulpingBatch) compute() (PulpingBatchResult, error) {
	k, err := pulp(p.BaleMass.In(paperprop.Kilogram), p.BaleMoisture, p.RejectRate, p.RejectDryness, p.Consistency, p.WaterConsistency)
	return PulpingBatchResult{
		WaterMass:    paperprop.Mass(k.water) * paperprop.Kilogram,
		BaleDryMass:  paperprop.OvenDryMass(k.baleDry) * paperprop.OvenDryKilogram,
		StockMass:    paperprop.Mass(k.stock) * paperprop.Kilogram,
		StockDryMass: paperprop.OvenDryMass(k.stock*float64(p.Consistency)) * paperprop.OvenDryKilogram,
		RejectMass:   paperprop.Mass(k.rejects) * paperprop.Kilogram,
	}, err
}

var pulpingBatch = &calc.Description[PulpingBatch, PulpingBatchResult]{
	Name:    "pulping-batch",
	Title:   "Pulping of a batch of bales",
	Answers: "How much water turns a batch of bales into stock of a consistency.",
	Formula: []string{
		"m_db = m_b*(1 - w_b)",
		"m_r = m_db*r/d_r",
		"m_w = (m_db*(1 - r) - c*(m_b - m_r))/(c - c_w)",
		"m = m_b + m_w - m_r",
		"m_d = m*c",
	},
	Source:   balance + " over the pulper",
	Status:   calc.CommonPractice,
	Example:  "bale-mass=1240 kg; bale-moisture=11.5 %; reject-rate=4 %; reject-dryness=58 %; consistency=4.6 %; water-consistency=0.19 %",
	Mistakes: pulpingMistakes,
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  PulpingBatch.compute,
	Fields: func(f *calc.Form, in *PulpingBatch, out *PulpingBatchResult) {
		calc.In(f, &in.BaleMass, "bale-mass", "m_b", "kg", "bales as they come").Above(0)
		contentsOfPulper(f, &in.BaleMoisture, &in.RejectRate, &in.RejectDryness, &in.Consistency, &in.WaterConsistency)
		calc.Out(f, &out.WaterMass, "water-mass", "m_w", "kg", "water to add")
		calc.Out(f, &out.BaleDryMass, "bale-dry-mass", "m_db", "kg", "in the bales")
		calc.Out(f, &out.StockMass, "stock-mass", "m", "kg", "accepted stock")
		calc.Out(f, &out.StockDryMass, "stock-dry-mass", "m_d", "kg", "dry matter in it, the water's included")
		calc.Between(f, &out.RejectMass, "m_r", "kg", "rejects as they leave")
	},
}

// PulperCharge fills a pulper with bales and water.
type PulperCharge struct {
	Volume           paperprop.Volume      // of the batch, above zero
	Consistency      paperprop.Consistency // wanted, above WaterConsistency
	Density          paperprop.Density     // of that stock, above zero
	BaleMoisture     paperprop.Moisture    // the bales must be drier than the stock
	WaterConsistency paperprop.Consistency // of the water added; zero is clear water
}

// PulperChargeResult is the bales and water to charge, and the stock they make.
type PulperChargeResult struct {
	BaleMass     paperprop.Mass
	WaterMass    paperprop.Mass
	StockMass    paperprop.Mass
	StockDryMass paperprop.OvenDryMass
}

// Calculate returns the mass of bales V·ρ(c − c_w)/(1 − w_b − c_w), and the water.
func (p PulperCharge) Calculate() (PulperChargeResult, error) { return pulperCharge.Calculate(p) }

func (p PulperCharge) compute() (PulperChargeResult, error) {
	if p.Consistency <= p.WaterConsistency {
		return PulperChargeResult{}, calc.Refuse("consistency", p.Consistency, "above water-consistency %v", p.WaterConsistency)
	}
	dryness, c, water := 1-float64(p.BaleMoisture), float64(p.Consistency), float64(p.WaterConsistency)
	if dryness <= c+rounding {
		return PulperChargeResult{}, calc.Refuse("bale-moisture", p.BaleMoisture, "bales drier than the consistency of %v", p.Consistency)
	}
	stock := p.Volume.In(paperprop.CubicMetre) * p.Density.In(paperprop.KilogramPerCubicMetre)
	return PulperChargeResult{
		BaleMass:     paperprop.Mass(stock*(c-water)/(dryness-water)) * paperprop.Kilogram,
		WaterMass:    paperprop.Mass(stock*(dryness-c)/(dryness-water)) * paperprop.Kilogram,
		StockMass:    paperprop.Mass(stock) * paperprop.Kilogram,
		StockDryMass: paperprop.OvenDryMass(stock*c) * paperprop.OvenDryKilogram,
	}, nil
}

var pulperCharge = &calc.Description[PulperCharge, PulperChargeResult]{
	Name:    "pulper-charge",
	Title:   "Charge of a batch pulper",
	Answers: "How many kilograms of bales and of water fill a pulper at a consistency.",
	Formula: []string{
		"m = V*rho",
		"m_b = m*(c - c_w)/(1 - w_b - c_w)",
		"m_w = m - m_b",
		"m_d = m*c",
	},
	Source:  balance + " over the batch",
	Status:  calc.CommonPractice,
	Example: "volume=28 m3; consistency=4.6 %; density=1004.68 kg/m3; bale-moisture=11.5 %; water-consistency=0.19 %",
	Mistakes: []string{
		"The volume is that of the batch, not of the vessel: leave the room that the rotor's wave needs.",
		"4.6 % of a tonne are 46 kg of dry matter: of bales at 11.5 % moisture that is 52 kg.",
	},
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  PulperCharge.compute,
	Fields: func(f *calc.Form, in *PulperCharge, out *PulperChargeResult) {
		calc.In(f, &in.Volume, "volume", "V", "m3", "of the batch in the pulper").Above(0)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "wanted")
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of that stock, from stock-density").Above(0)
		calc.In(f, &in.BaleMoisture, "bale-moisture", "w_b", "%", "of the bales")
		calc.In(f, &in.WaterConsistency, "water-consistency", "c_w", "%", "of the water added").Default(0)
		calc.Out(f, &out.BaleMass, "bale-mass", "m_b", "kg", "bales to charge")
		calc.Out(f, &out.WaterMass, "water-mass", "m_w", "kg", "water to charge")
		calc.Out(f, &out.StockMass, "stock-mass", "m", "kg", "the batch")
		calc.Out(f, &out.StockDryMass, "stock-dry-mass", "m_d", "kg", "dry matter in it")
	},
}
