package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// MoistureLot is the moisture of a lot, from its test pieces. Its lists are of
// equal length.
type MoistureLot struct {
	MoistMass []paperprop.Mass        // of each test piece as taken, above zero
	DryMass   []paperprop.OvenDryMass // of each, in the same order: above zero, at most its MoistMass
}

// MoistureLotResult is the moisture of the lot, and its range.
type MoistureLotResult struct {
	Moisture       paperprop.Moisture // mean of the pieces
	PooledMoisture paperprop.Moisture // of all pieces together
	MoistureRange  paperprop.Moisture // highest minus lowest
}

// Calculate returns the mean of the pieces' moistures, unweighted, and the moisture
// of all pieces taken together.
func (l MoistureLot) Calculate() (MoistureLotResult, error) { return moistureLot.Calculate(l) }

// rounding is the most by which moistures that are equal can differ as float64.
const rounding = 1e-15

func (l MoistureLot) compute() (MoistureLotResult, error) {
	var sum, moist, water, lowest, highest float64
	for i := range l.MoistMass {
		m, dry := l.MoistMass[i].In(paperprop.Gram), l.DryMass[i].In(paperprop.OvenDryGram)
		if dry > m {
			return MoistureLotResult{}, calc.Refuse("dry-mass", l.DryMass[i], "at most the moist-mass of the piece, %v", l.MoistMass[i])
		}
		w := (m - dry) / m
		if i == 0 {
			lowest, highest = w, w
		}
		lowest, highest = min(lowest, w), max(highest, w)
		sum, moist, water = sum+w, moist+m, water+(m-dry)
	}
	if highest-lowest < rounding {
		highest = lowest
	}
	return MoistureLotResult{
		Moisture:       paperprop.Moisture(sum / float64(len(l.MoistMass))),
		PooledMoisture: paperprop.Moisture(water / moist),
		MoistureRange:  paperprop.Moisture(highest - lowest),
	}, nil
}

var moistureLot = &calc.Description[MoistureLot, MoistureLotResult]{
	Name:    "moisture-lot",
	Title:   "Moisture of a lot from its test pieces",
	Answers: "How moist a lot is, from the pieces taken out of it, and how much they differ.",
	Formula: []string{
		"w = mean((m - m_d)/m)",
		"w_m = sum(m - m_d)/sum(m)",
		"w_r = most((m - m_d)/m) - least((m - m_d)/m)",
	},
	Source:  "the mean of the pieces is the result of ISO 287:2017 (memory; title and wet basis seen)",
	Status:  calc.Memory,
	Example: "moist-mass=[52.34 49.87 55.02] g; dry-mass=[48.41 46.21 50.73] g",
	Mistakes: []string{
		"The mean of the moistures is not that of all pieces together unless the pieces weigh alike: a large wet one counts for more in the mass.",
		"A range of more than a percentage point says more about the lot than its mean does.",
	},
	Compute: MoistureLot.compute,
	Fields: func(f *calc.Form, in *MoistureLot, out *MoistureLotResult) {
		f.Even(
			calc.InList(f, &in.MoistMass, "moist-mass", "m", "g", "of each test piece as taken").Above(0),
			calc.InList(f, &in.DryMass, "dry-mass", "m_d", "g", "of each, in the same order").Above(0),
		)
		calc.Out(f, &out.Moisture, "moisture", "w", "%", "mean of the pieces").
			Report(tenthOfPercent(), "ISO 287: mean of the pieces, with their spread", calc.Memory)
		calc.Out(f, &out.PooledMoisture, "pooled-moisture", "w_m", "%", "of all pieces together, by mass")
		calc.Out(f, &out.MoistureRange, "moisture-range", "w_r", "%", "highest less lowest, in per cent of moist mass")
	},
}

// MoistureBasis restates a moisture on the dry basis.
type MoistureBasis struct {
	Moisture paperprop.Moisture // wet basis: 0 to below 100 %
}

// MoistureBasisResult is the same water on other bases.
type MoistureBasisResult struct {
	MoistureRatio paperprop.MoistureRatio // over dry mass
	Dryness       paperprop.DryContent    // 1 − moisture
}

// Calculate returns the moisture ratio w/(1 − w).
func (m MoistureBasis) Calculate() (MoistureBasisResult, error) { return moistureBasis.Calculate(m) }

func (m MoistureBasis) compute() (MoistureBasisResult, error) {
	ratio, err := m.Moisture.MoistureRatio()
	return MoistureBasisResult{MoistureRatio: ratio, Dryness: m.Moisture.DryContent()}, err
}

var moistureBasis = &calc.Description[MoistureBasis, MoistureBasisResult]{
	Name:    "moisture-basis",
	Title:   "Moisture on the dry basis",
	Answers: "What a moisture of paper is on the dry basis of wood and textiles, and back.",
	Formula: []string{"u = w/(1 - w)", "d = 1 - w"},
	Source:  "both definitions on a drying-method page for paper, wood and textiles (seen)",
	Status:  calc.Published,
	Example: "moisture=7.5 %",
	Mistakes: []string{
		"At 7.5 % the bases differ by 0.6 points, at 50 % by 50: a wood chip at 100 % on the dry basis is half water.",
		"At 100 % wet basis there is nothing dry to divide by.",
	},
	Compute: MoistureBasis.compute,
	Fields: func(f *calc.Form, in *MoistureBasis, out *MoistureBasisResult) {
		calc.In(f, &in.Moisture, "moisture", "w", "%", "wet basis").From(0).Below(100)
		calc.Out(f, &out.MoistureRatio, "moisture-ratio", "u", "kg/kg", "dry basis")
		calc.Out(f, &out.Dryness, "dryness", "d", "%", "1 - moisture")
	},
}
