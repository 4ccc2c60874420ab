package sheet

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Moisture is the moisture of a test piece dried to constant mass.
type Moisture struct {
	MoistMass paperprop.Mass        // of the piece as taken, above zero
	DryMass   paperprop.OvenDryMass // after 105 °C: above zero, at most MoistMass
}

// MoistureResult is the water on both bases.
type MoistureResult struct {
	Moisture      paperprop.Moisture      // over moist mass
	Dryness       paperprop.DryContent    // 1 − moisture
	MoistureRatio paperprop.MoistureRatio // over dry mass: wood and textiles, not paper
}

// Calculate returns the moisture (m − m_d)/m.
func (m Moisture) Calculate() (MoistureResult, error) { return moisture.Calculate(m) }

func (m Moisture) compute() (MoistureResult, error) {
	moist, dry := m.MoistMass.In(paperprop.Gram), m.DryMass.In(paperprop.OvenDryGram)
	if dry > moist {
		return MoistureResult{}, calc.Refuse("dry-mass", m.DryMass, "at most moist-mass %v", m.MoistMass)
	}
	return moistureOf(moist, dry), nil
}

func moistureOf(moist, dry float64) MoistureResult {
	w := (moist - dry) / moist
	return MoistureResult{
		Moisture:      paperprop.Moisture(w),
		Dryness:       paperprop.DryContent(1 - w),
		MoistureRatio: paperprop.MoistureRatio((moist - dry) / dry),
	}
}

var moistureMistakes = []string{
	"On the dry basis 7.5 % of moisture is 8.1 %: paper is always on the wet basis.",
	"Volatile matter counts as water.",
}

var moisture = &calc.Description[Moisture, MoistureResult]{
	Name:     "moisture",
	Title:    "Moisture of a test piece",
	Answers:  "How much of a piece is water, and how much is dry (dry content), from its mass before and after drying.",
	Formula:  []string{"w = (m - m_d)/m", "d = 1 - w", "u = (m - m_d)/m_d"},
	Source:   "definition: ISO 287:2017 and T 412 (titles seen), wet basis from a textbook and a drying-method page (seen)",
	Status:   calc.Published,
	Example:  "moist-mass=52.34 g; dry-mass=48.41 g",
	Mistakes: moistureMistakes,
	Compute:  Moisture.compute,
	Fields: func(f *calc.Form, in *Moisture, out *MoistureResult) {
		calc.In(f, &in.MoistMass, "moist-mass", "m", "g", "of the piece as taken").Above(0)
		calc.In(f, &in.DryMass, "dry-mass", "m_d", "g", "after 105 degC to constant mass").Above(0)
		moistureOutputs(f, out)
	},
}

func moistureOutputs(f *calc.Form, out *MoistureResult) {
	calc.Out(f, &out.Moisture, "moisture", "w", "%", "over moist mass").
		Report(tenthOfPercent(), "ISO 287: mean of the pieces; T 412: of two", calc.Memory)
	calc.Out(f, &out.Dryness, "dryness", "d", "%", "1 - moisture")
	calc.Out(f, &out.MoistureRatio, "moisture-ratio", "u", "kg/kg", "over dry mass: wood and textiles, not paper")
}

// MoistureInDish is Moisture weighed in a dish.
type MoistureInDish struct {
	DishMass      paperprop.Mass // empty, above zero
	MoistDishMass paperprop.Mass // dish with the moist piece, above DishMass
	DryDishMass   paperprop.Mass // dish with the dry piece: above DishMass, at most MoistDishMass
}

// MoistureInDishResult is the water on both bases, and the dry mass.
type MoistureInDishResult struct {
	MoistureResult
	DryMass paperprop.OvenDryMass
}

// Calculate returns the moisture (m_1 − m_2)/(m_1 − m_dish).
func (m MoistureInDish) Calculate() (MoistureInDishResult, error) { return moistureInDish.Calculate(m) }

func (m MoistureInDish) compute() (MoistureInDishResult, error) {
	if m.MoistDishMass <= m.DishMass {
		return MoistureInDishResult{}, calc.Refuse("moist-dish-mass", m.MoistDishMass, "above dish-mass %v", m.DishMass)
	}
	if m.DryDishMass <= m.DishMass || m.DryDishMass > m.MoistDishMass {
		return MoistureInDishResult{}, calc.Refuse("dry-dish-mass", m.DryDishMass,
			"above dish-mass %v and at most moist-dish-mass %v", m.DishMass, m.MoistDishMass)
	}
	dish := m.DishMass.In(paperprop.Gram)
	dry := m.DryDishMass.In(paperprop.Gram) - dish
	return MoistureInDishResult{
		MoistureResult: moistureOf(m.MoistDishMass.In(paperprop.Gram)-dish, dry),
		DryMass:        paperprop.OvenDryMass(dry) * paperprop.OvenDryGram,
	}, nil
}

var moistureInDish = &calc.Description[MoistureInDish, MoistureInDishResult]{
	Name:     "moisture-in-dish",
	Title:    "Moisture of a test piece weighed in a dish",
	Answers:  "How much of a piece is water, when it is weighed in a dish.",
	Formula:  []string{"w = (m_1 - m_2)/(m_1 - m_dish)", "d = 1 - w", "m_d = m_2 - m_dish", "u = (m_1 - m_2)/m_d"},
	Source:   "definition: ISO 287:2017 and T 412 (titles seen), the dish subtracted",
	Status:   calc.Published,
	Example:  "dish-mass=35.127 g; moist-dish-mass=47.902 g; dry-dish-mass=46.911 g",
	Mistakes: moistureMistakes,
	Compute:  MoistureInDish.compute,
	Fields: func(f *calc.Form, in *MoistureInDish, out *MoistureInDishResult) {
		calc.In(f, &in.DishMass, "dish-mass", "m_dish", "g", "empty").Above(0)
		calc.In(f, &in.MoistDishMass, "moist-dish-mass", "m_1", "g", "dish with the moist piece")
		calc.In(f, &in.DryDishMass, "dry-dish-mass", "m_2", "g", "dish with the dry piece")
		moistureOutputs(f, &out.MoistureResult)
		calc.Out(f, &out.DryMass, "dry-mass", "m_d", "g", "dry piece without the dish")
	},
}
