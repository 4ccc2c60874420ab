package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Refining is the energy that a refiner gives to stock.
type Refining struct {
	Power       paperprop.Power       // motor load, above NoLoadPower
	NoLoadPower paperprop.Power       // plates apart, stock flowing
	DryFlow     paperprop.OvenDryFlow // through the refiner, above zero
}

// RefiningResult is the net power, and the net energy per dry matter.
type RefiningResult struct {
	NetPower       paperprop.Power
	SpecificEnergy paperprop.SpecificEnergy // net
}

// Calculate returns the net power P_e − P_0, and that over the dry flow.
func (r Refining) Calculate() (RefiningResult, error) { return refining.Calculate(r) }

func (r Refining) compute() (RefiningResult, error) {
	net, err := netPower(r.Power, r.NoLoadPower)
	return RefiningResult{
		NetPower:       net,
		SpecificEnergy: paperprop.SpecificEnergy(net.In(paperprop.Kilowatt)/r.DryFlow.In(paperprop.DryTonnePerHour)) * paperprop.KilowattHourPerTonne,
	}, err
}

func netPower(power, noLoad paperprop.Power) (paperprop.Power, error) {
	if power <= noLoad {
		return 0, calc.Refuse("power", power, "above no-load-power %v", noLoad)
	}
	return power - noLoad, nil
}

var refining = &calc.Description[Refining, RefiningResult]{
	Name:    "refining",
	Title:   "Net specific energy of refining",
	Answers: "How much energy a refiner, deflaker or disperger gives to a tonne of dry stock (SRE); beating, in a beater, is the older word.",
	Formula: []string{"P_n = P_e - P_0", "e = P_n/q_d"},
	Source:  "definition of the net specific energy",
	Status:  calc.CommonPractice,
	Example: "power=410 kW; no-load-power=115 kW; dry-flow=14.4 t/h",
	Mistakes: []string{
		"Gross is not net: the no-load power turns stock, not fibre, and is measured with stock flowing and plates apart.",
		"1 hp d/short ton is 19.73 kWh/t: the short ton is in it.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  Refining.compute,
	Fields: func(f *calc.Form, in *Refining, out *RefiningResult) {
		powersOfRefiner(f, &in.Power, &in.NoLoadPower)
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "t/h", "through the refiner").Above(0)
		calc.Out(f, &out.NetPower, "net-power", "P_n", "kW", "power less no-load-power")
		calc.Out(f, &out.SpecificEnergy, "specific-energy", "e", "kWh/t", "net, per dry matter")
	},
}

// RefinerEdgeLoad is the intensity of refining, by the energy on the crossing bar
// edges.
type RefinerEdgeLoad struct {
	Power       paperprop.Power     // motor load, above NoLoadPower
	NoLoadPower paperprop.Power     // plates apart, stock flowing
	RotorBars   paperprop.Count     // of one gap, one or more
	StatorBars  paperprop.Count     // of one gap, one or more
	BarLength   paperprop.Length    // of one bar, above zero
	Gaps        paperprop.Count     // between plates, one or more; a double disc has two
	Frequency   paperprop.Frequency // of the rotor, above zero
}

// RefinerEdgeLoadResult is the length of crossing edges, and the energy per length.
type RefinerEdgeLoadResult struct {
	CuttingLength    paperprop.Length // per revolution
	CuttingSpeed     paperprop.Speed
	SpecificEdgeLoad paperprop.EdgeLoad
}

// Calculate returns the cutting length n_g·z_r·z_s·L, the cutting speed, and the
// net power over that speed.
func (r RefinerEdgeLoad) Calculate() (RefinerEdgeLoadResult, error) {
	return refinerEdgeLoad.Calculate(r)
}

func (r RefinerEdgeLoad) compute() (RefinerEdgeLoadResult, error) {
	net, err := netPower(r.Power, r.NoLoadPower)
	length := float64(r.Gaps) * float64(r.RotorBars) * float64(r.StatorBars) * r.BarLength.In(paperprop.Metre) / 1000 // km
	speed := length * r.Frequency.In(paperprop.Hertz)                                                                 // km/s
	return RefinerEdgeLoadResult{
		CuttingLength:    paperprop.Length(length) * paperprop.Kilometre,
		CuttingSpeed:     paperprop.Speed(speed) * paperprop.KilometrePerSecond,
		SpecificEdgeLoad: paperprop.EdgeLoad(net.In(paperprop.Kilowatt)/speed) * paperprop.JoulePerMetre,
	}, err
}

var refinerEdgeLoad = &calc.Description[RefinerEdgeLoad, RefinerEdgeLoadResult]{
	Name:    "refiner-edge-load",
	Title:   "Specific edge load of a refiner",
	Answers: "How much energy each metre of crossing bar edges gives to the stock (SEL).",
	Formula: []string{"L_c = n_g*z_r*z_s*L", "v_c = L_c*n", "S = (P_e - P_0)/v_c"},
	Source:  "definition of the specific edge load",
	Status:  calc.CommonPractice,
	Example: "power=410 kW; no-load-power=115 kW; rotor-bars=150; stator-bars=144; bar-length=0.21 m; gaps=2; frequency=600 1/min",
	Mistakes: []string{
		"A double disc has two gaps: taken for one, the load comes out twice as high.",
		"The no-load power comes off first; with gross power plates seem to work harder than they do.",
		"Bars in zones of different number: add up z_r*z_s*L zone by zone, never the bars.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  RefinerEdgeLoad.compute,
	Fields: func(f *calc.Form, in *RefinerEdgeLoad, out *RefinerEdgeLoadResult) {
		powersOfRefiner(f, &in.Power, &in.NoLoadPower)
		calc.In(f, &in.RotorBars, "rotor-bars", "z_r", "1", "of one gap").From(1)
		calc.In(f, &in.StatorBars, "stator-bars", "z_s", "1", "of one gap").From(1)
		calc.In(f, &in.BarLength, "bar-length", "L", "m", "of one bar").Above(0)
		calc.In(f, &in.Gaps, "gaps", "n_g", "1", "between plates; double disc 2").From(1)
		calc.In(f, &in.Frequency, "frequency", "n", "1/min", "of the rotor").Above(0)
		calc.Out(f, &out.CuttingLength, "cutting-length", "L_c", "km", "per revolution")
		calc.Out(f, &out.CuttingSpeed, "cutting-speed", "v_c", "km/s", "cutting-length times frequency")
		calc.Out(f, &out.SpecificEdgeLoad, "specific-edge-load", "S", "J/m", "net power/cutting-speed")
	},
}

func powersOfRefiner(f *calc.Form, power, noLoad *paperprop.Power) {
	calc.In(f, power, "power", "P_e", "kW", "motor load")
	calc.In(f, noLoad, "no-load-power", "P_0", "kW", "plates apart, stock flowing").From(0)
}
