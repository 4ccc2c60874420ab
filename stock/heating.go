package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// MixingTemperature mixes streams of stock and water of different temperatures. Its
// lists are of equal length.
type MixingTemperature struct {
	MassFlow          []paperprop.MassFlow    // of each stream, zero or more, not all zero
	Consistency       []paperprop.Consistency // of each stream
	Temperature       []paperprop.Temperature // of each stream, 0 to 100 °C
	FibreHeatCapacity paperprop.SpecificHeat  // of dry matter, above zero
	WaterHeatCapacity paperprop.SpecificHeat  // zero stands for 4.19 kJ/(kg K)
}

// MixingTemperatureResult is the mixed stock.
type MixingTemperatureResult struct {
	TemperatureOut paperprop.Temperature
	MassFlowOut    paperprop.MassFlow
	ConsistencyOut paperprop.Consistency
}

// Calculate returns the mean of the temperatures, weighted by mass and heat
// capacity.
func (m MixingTemperature) Calculate() (MixingTemperatureResult, error) {
	return mixingTemperature.Calculate(m)
}

func (m MixingTemperature) compute() (MixingTemperatureResult, error) {
	all, err := pool("mass-flow", m.MassFlow, paperprop.TonnePerHour, m.Consistency)
	if err != nil {
		return MixingTemperatureResult{}, err
	}
	fibre, water := m.FibreHeatCapacity.In(paperprop.KilojoulePerKilogramKelvin), m.WaterHeatCapacity.In(paperprop.KilojoulePerKilogramKelvin)
	var heat, capacity float64
	for i, flow := range m.MassFlow {
		c := float64(m.Consistency[i])
		k := flow.In(paperprop.TonnePerHour) * (c*fibre + (1-c)*water)
		capacity += k
		heat += k * m.Temperature[i].Celsius()
	}
	return MixingTemperatureResult{
		TemperatureOut: paperprop.Celsius(heat / capacity),
		MassFlowOut:    paperprop.MassFlow(all.mass) * paperprop.TonnePerHour,
		ConsistencyOut: all.consistency,
	}, nil
}

var mixingTemperature = &calc.Description[MixingTemperature, MixingTemperatureResult]{
	Name:    "mixing-temperature",
	Title:   "Temperature of mixed streams",
	Answers: "How warm streams of stock and water are together.",
	Formula: []string{
		"T_out = sum(q*(c*c_f + (1 - c)*c_h)*T)/sum(q*(c*c_f + (1 - c)*c_h))",
		"q_out = sum(q)",
		"c_out = sum(q*c)/q_out",
	},
	Source:  "balance of heat and mass over the mixing point, no heat lost, heat capacities taken as constant",
	Status:  calc.CommonPractice,
	Example: "mass-flow=[120 480] t/h; consistency=[4.0 0.19] %; temperature=[55 42] degC; fibre-heat-capacity=1.4 kJ/(kg K)",
	Mistakes: []string{
		"Dry matter holds about a third of the heat of water, 1.2 to 1.55 kJ/(kg K) in print (memory): it matters in thick stock alone.",
		"The simple mean of the temperatures is wrong unless all flows are the same.",
	},
	Cautions: []*calc.Caution{&calc.HotLiquid},
	Compute:  MixingTemperature.compute,
	Fields: func(f *calc.Form, in *MixingTemperature, out *MixingTemperatureResult) {
		f.Even(
			calc.InList(f, &in.MassFlow, "mass-flow", "q", "t/h", "of each stream").From(0),
			calc.InList(f, &in.Consistency, "consistency", "c", "%", "of each stream"),
			calc.InList(f, &in.Temperature, "temperature", "T", "degC", "of each stream").From(0).UpTo(100),
		)
		heatCapacities(f, &in.FibreHeatCapacity, &in.WaterHeatCapacity)
		calc.Out(f, &out.TemperatureOut, "temperature-out", "T_out", "degC", "of the mixture")
		calc.Out(f, &out.MassFlowOut, "mass-flow-out", "q_out", "t/h", "all together")
		calc.Out(f, &out.ConsistencyOut, "consistency-out", "c_out", "%", "of the mixture")
	},
}

// heatCapacities binds the two heat capacities. Dry matter has no default: sources
// give 1.25 to 1.5 kJ/(kg K).
func heatCapacities(f *calc.Form, fibre, water *paperprop.SpecificHeat) {
	calc.In(f, fibre, "fibre-heat-capacity", "c_f", "kJ/(kg K)", "of dry matter; printed values run from 1.2 to 1.55 (memory)").Above(0)
	calc.In(f, water, "water-heat-capacity", "c_h", "kJ/(kg K)", "of water").Above(0).Default(4.19)
}
