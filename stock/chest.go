package stock

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Chest is the content of a chest or tower.
type Chest struct {
	Volume      paperprop.Volume   // of the chest, full, above zero
	Level       paperprop.Fraction // filled part of the volume, 0 to 100 %
	Consistency paperprop.Consistency
	Density     paperprop.Density // of the stock, above zero
}

// ChestResult is the stock in a chest and its dry matter.
type ChestResult struct {
	Mass       paperprop.Mass
	DryMass    paperprop.OvenDryMass
	AirDryMass paperprop.AirDryMass
}

// Calculate returns the mass of stock V·l·ρ and the dry matter in it.
func (c Chest) Calculate() (ChestResult, error) { return chest.Calculate(c) }

func (c Chest) compute() (ChestResult, error) {
	m := c.Volume.In(paperprop.CubicMetre) * float64(c.Level) * c.Density.In(paperprop.KilogramPerCubicMetre) // kg
	dry := paperprop.OvenDryMass(m*float64(c.Consistency)) * paperprop.OvenDryKilogram
	return ChestResult{Mass: paperprop.Mass(m) * paperprop.Kilogram, DryMass: dry, AirDryMass: dry.AirDry()}, nil
}

var chest = &calc.Description[Chest, ChestResult]{
	Name:    "chest",
	Title:   "Stock in a chest",
	Answers: "How much stock and dry matter a chest, tank or tower holds at a level.",
	Formula: []string{"m = V*l*rho", "m_d = m*c", "m_ad = m_d/0.9"},
	Source:  "definition of density and consistency",
	Status:  calc.CommonPractice,
	Example: "volume=300 m3; level=68 %; consistency=3.4 %; density=1000.53 kg/m3",
	Mistakes: []string{
		"The level is a part of the volume: where the floor slopes, half the height is less than half of it.",
		"Above about 10 % stock holds air, so a tower holds less of it than its density without air says.",
	},
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  Chest.compute,
	Fields: func(f *calc.Form, in *Chest, out *ChestResult) {
		calc.In(f, &in.Volume, "volume", "V", "m3", "of the chest, full").Above(0)
		calc.In(f, &in.Level, "level", "l", "%", "filled part of the volume").From(0).UpTo(100)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of the stock")
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the stock, from stock-density").Above(0)
		calc.Out(f, &out.Mass, "mass", "m", "t", "of stock")
		calc.Out(f, &out.DryMass, "dry-mass", "m_d", "t", "in it")
		calc.Out(f, &out.AirDryMass, "air-dry-mass", "m_ad", "t", "the same at 90 % dryness")
	},
}

// ChestTime is a chest that fills or empties at steady flows.
type ChestTime struct {
	Volume      paperprop.Volume      // of the chest, full, above zero
	Level       paperprop.Fraction    // now, 0 to 100 %
	ToLevel     paperprop.Fraction    // wanted, 0 to 100 %
	Consistency paperprop.Consistency // of the stock in the chest and of both flows, above zero
	Density     paperprop.Density     // of the stock, above zero
	DryFlowIn   paperprop.OvenDryFlow // zero or more
	DryFlowOut  paperprop.OvenDryFlow // zero or more
}

// ChestTimeResult is the time until the wanted level is reached.
type ChestTimeResult struct {
	Time paperprop.Duration // zero when it is there already
}

// Calculate returns the time V(l − l_to)ρ·c/(q_out − q_in). It is an error if the
// flows lead away from the wanted level.
func (c ChestTime) Calculate() (ChestTimeResult, error) { return chestTime.Calculate(c) }

func (c ChestTime) compute() (ChestTimeResult, error) {
	if c.Level == c.ToLevel {
		return ChestTimeResult{}, nil
	}
	surplus := (c.DryFlowOut - c.DryFlowIn).In(paperprop.DryTonnePerHour)
	if fall := c.Level > c.ToLevel; surplus == 0 || fall != (surplus > 0) {
		return ChestTimeResult{}, calc.Refuse("to-level", c.ToLevel,
			"a level to which %v in and %v out lead from %v", c.DryFlowIn, c.DryFlowOut, c.Level)
	}
	dry := c.Volume.In(paperprop.CubicMetre) * float64(c.Level-c.ToLevel) *
		c.Density.In(paperprop.KilogramPerCubicMetre) / 1000 * float64(c.Consistency) // t
	return ChestTimeResult{paperprop.Duration(dry/surplus) * paperprop.Hour}, nil
}

var chestTime = &calc.Description[ChestTime, ChestTimeResult]{
	Name:    "chest-time",
	Title:   "Time to fill or empty a chest",
	Answers: "How long a chest lasts, or how soon it is full, at the dry flows in and out.",
	Formula: []string{"tau = V*(l - l_to)*rho*c/(q_out - q_in)"},
	Source:  "balance of dry matter over the chest at one consistency",
	Status:  calc.CommonPractice,
	Example: "volume=300 m3; level=68 %; to-level=15 %; consistency=3.4 %; density=1000.53 kg/m3; dry-flow-in=0 t/h; dry-flow-out=14.3 t/h",
	Mistakes: []string{
		"A pump loses suction before the chest is empty: ask for the level at which it does.",
		"Flows are dry flows: 14 t/h of paper holds 1 t/h of water.",
	},
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  ChestTime.compute,
	Fields: func(f *calc.Form, in *ChestTime, out *ChestTimeResult) {
		calc.In(f, &in.Volume, "volume", "V", "m3", "of the chest, full").Above(0)
		calc.In(f, &in.Level, "level", "l", "%", "now").From(0).UpTo(100)
		calc.In(f, &in.ToLevel, "to-level", "l_to", "%", "the level asked for").From(0).UpTo(100).Default(0)
		calc.In(f, &in.Consistency, "consistency", "c", "%", "of what is in it and flows").Above(0)
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the stock, from stock-density").Above(0)
		calc.In(f, &in.DryFlowIn, "dry-flow-in", "q_in", "t/h", "into the chest").From(0).Default(0)
		calc.In(f, &in.DryFlowOut, "dry-flow-out", "q_out", "t/h", "out of the chest").From(0).Default(0)
		calc.Out(f, &out.Time, "time", "tau", "min", "until the level is there")
	},
}

// ChestResponse is a well mixed chest after a step in its feed.
type ChestResponse struct {
	Volume      paperprop.Volume     // of stock in the chest, well mixed, above zero
	VolumeFlow  paperprop.VolumeFlow // through it, above zero
	ValueBefore float64              // of any quantity that mixes linearly
	ValueIn     float64              // in the feed from time zero, in the same unit
	Time        paperprop.Duration   // since the feed changed
}

// ChestResponseResult is the value in the chest at that time, and the mean
// residence time.
type ChestResponseResult struct {
	Value             float64
	MeanResidenceTime paperprop.Duration
}

// Calculate returns the value y_in + (y_0 − y_in)·exp(−τ·Q/V) and the residence
// time V/Q.
func (c ChestResponse) Calculate() (ChestResponseResult, error) { return chestResponse.Calculate(c) }

func (c ChestResponse) compute() (ChestResponseResult, error) {
	residence := c.Volume.In(paperprop.CubicMetre) / c.VolumeFlow.In(paperprop.CubicMetrePerHour) // h
	x := c.Time.In(paperprop.Hour) / residence
	return ChestResponseResult{
		// The sum of what is left of the old stock and what came in: each keeps its
		// digits where it is small.
		Value:             c.ValueBefore*math.Exp(-x) - c.ValueIn*math.Expm1(-x),
		MeanResidenceTime: paperprop.Duration(residence) * paperprop.Hour,
	}, nil
}

var chestResponse = &calc.Description[ChestResponse, ChestResponseResult]{
	Name:    "chest-response",
	Title:   "Response of a mixed chest to a change of its feed",
	Answers: "How far the stock in a chest has followed its feed after a time, and how long stock stays in it on average.",
	Formula: []string{"y = y_in + (y_0 - y_in)*exp(-tau*Q/V)", "tau_m = V/Q"},
	Source:  "balance over a chest that is mixed perfectly and whose level does not move",
	Status:  calc.CommonPractice,
	Example: "volume=220 m3; volume-flow=420 m3/h; value-before=3.2 %; value-in=3.8 %; time=20 min",
	Mistakes: []string{
		"After one mean residence time 63.2 % of the change is there, after three 95 %.",
		"Only what mixes linearly by volume may be asked for: consistency, ash, dye; not freeness, not pH.",
		"A corner where stock stands shortens the response and hides a tail: the volume is that which is mixed.",
	},
	Cautions: []*calc.Caution{&calc.ConfinedSpace},
	Compute:  ChestResponse.compute,
	Fields: func(f *calc.Form, in *ChestResponse, out *ChestResponseResult) {
		calc.In(f, &in.Volume, "volume", "V", "m3", "of stock in the chest, well mixed").Above(0)
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "m3/h", "through it").Above(0)
		calc.InValue(f, &in.ValueBefore, "value-before", "y_0", "any", "of any quantity that mixes linearly")
		calc.InValue(f, &in.ValueIn, "value-in", "y_in", "as value-before", "in the feed from time 0")
		calc.In(f, &in.Time, "time", "tau", "min", "since the feed changed")
		calc.OutValue(f, &out.Value, "value", "y", "as value-before", "in the chest then")
		calc.Out(f, &out.MeanResidenceTime, "mean-residence-time", "tau_m", "min", "volume over flow")
	},
}
