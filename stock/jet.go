package stock

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Jet is the jet of a headbox, from the head of stock.
type Jet struct {
	Head                paperprop.Length       // of stock at the transmitter, above zero
	TransmitterHeight   paperprop.Length       // above the jet; negative below it
	WireSpeed           paperprop.Speed        // above zero
	VelocityCoefficient paperprop.Ratio        // jet over ideal speed: above zero, at most 1; zero stands for 1
	Gravity             paperprop.Acceleration // local, above zero; zero stands for 9.80665 m/s²
}

// JetResult is the speed of the jet, and of the jet against the wire.
type JetResult struct {
	JetSpeed        paperprop.Speed
	JetToWireRatio  paperprop.Ratio
	SpeedDifference paperprop.Speed // jet minus wire: rush above zero, drag below
}

// Calculate returns the jet speed φ√(2g(H + z)), its ratio to the wire speed, and
// the difference of the two.
func (j Jet) Calculate() (JetResult, error) { return jet.Calculate(j) }

func (j Jet) compute() (JetResult, error) {
	head := j.Head.In(paperprop.Metre) + j.TransmitterHeight.In(paperprop.Metre)
	if head <= 0 {
		return JetResult{}, calc.Refuse("head", j.Head, "above %v: none is left at the jet", -j.TransmitterHeight)
	}
	return jetOnWire(2*j.Gravity.In(paperprop.MetrePerSquareSecond)*head, j.VelocityCoefficient, j.WireSpeed), nil
}

// jetOnWire returns the jet whose ideal speed has the given square, in m²/s².
func jetOnWire(square float64, coefficient paperprop.Ratio, wireSpeed paperprop.Speed) JetResult {
	v, wire := float64(coefficient)*math.Sqrt(square), wireSpeed.In(paperprop.MetrePerSecond)
	return JetResult{
		JetSpeed:        paperprop.Speed(v) * paperprop.MetrePerSecond,
		JetToWireRatio:  paperprop.Ratio(v / wire),
		SpeedDifference: paperprop.Speed(v-wire) * paperprop.MetrePerSecond,
	}
}

var jet = &calc.Description[Jet, JetResult]{
	Name:    "jet",
	Title:   "Speed of the jet from the head",
	Answers: "How fast the jet leaves the headbox under a head of stock, and whether it rushes or drags on the wire.",
	Formula: []string{"v_j = phi*sqrt(2*g_0*(H + z))", "k_j = v_j/v_w", "v_d = v_j - v_w"},
	Source:  `v = sqrt(2 g h): trade-journal article "On the importance of jet/wire ratio" (seen, with worked figures)`,
	Status:  calc.Published,
	Example: "head=5.45 m; transmitter-height=0.1 m; wire-speed=615 m/min",
	Mistakes: []string{
		"Ratio and difference are two scales: at 615 m/min a ratio of 1.02 is a rush of 12.3 m/min.",
		"A transmitter above the jet reads too little: 2 in of 466 in are 0.2 % of the speed.",
		"Head is of the stock itself: one pressure is 1.0 % more head of stock at 50 degC than at 20 degC.",
	},
	Compare: []calc.Comparison{
		{
			Inputs: "head=5.45 m; transmitter-height=0.1 m; wire-speed=615 m/min; gravity=32.19 ft/s2",
			Why:    "gravity of 32.19 ft/s2, as the trade-journal article takes it beside 9.81 m/s2; standard gravity is 32.174 ft/s2",
		},
		{
			Inputs: "head=5.45 m; wire-speed=615 m/min",
			Why:    "the transmitter's height left out, as if it stood at the jet",
		},
		{
			Name:   "jet-pressure",
			Inputs: "gauge-pressure=54.0459 kPa(g); density=993 kg/m3; wire-speed=615 m/min",
			Why:    "from pressure: the same where it is that of the head at the density of the stock",
		},
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  Jet.compute,
	Fields: func(f *calc.Form, in *Jet, out *JetResult) {
		calc.In(f, &in.Head, "head", "H", "m", "of stock at the transmitter").Above(0)
		calc.In(f, &in.TransmitterHeight, "transmitter-height", "z", "m", "of the transmitter above the jet, negative below it").
			From(math.Inf(-1)).Default(0)
		wireOfJet(f, &in.WireSpeed, &in.VelocityCoefficient)
		calc.In(f, &in.Gravity, "gravity", "g_0", "m/s2", "local; other sources take 9.81").Above(0).Default(9.80665)
		speedsOfJet(f, out)
	},
}

func wireOfJet(f *calc.Form, wire *paperprop.Speed, coefficient *paperprop.Ratio) {
	calc.In(f, wire, "wire-speed", "v_w", "m/min", "of the wire").Above(0)
	calc.In(f, coefficient, "velocity-coefficient", "phi", "1", "jet over ideal speed").Above(0).UpTo(1).Default(1)
}

func speedsOfJet(f *calc.Form, out *JetResult) {
	calc.Out(f, &out.JetSpeed, "jet-speed", "v_j", "m/min", "where the jet has contracted")
	calc.Out(f, &out.JetToWireRatio, "jet-to-wire-ratio", "k_j", "1", "jet over wire")
	calc.Out(f, &out.SpeedDifference, "speed-difference", "v_d", "m/min", "jet less wire: rush above zero, drag below")
}

// JetPressure is the jet of a headbox, from its pressure.
type JetPressure struct {
	GaugePressure       paperprop.GaugePressure // in the headbox at the jet, above zero
	Density             paperprop.Density       // of the stock, above zero
	WireSpeed           paperprop.Speed         // above zero
	VelocityCoefficient paperprop.Ratio         // jet over ideal speed: above zero, at most 1; zero stands for 1
}

// Calculate returns the jet speed φ√(2p/ρ), its ratio to the wire speed, and the
// difference of the two.
func (j JetPressure) Calculate() (JetResult, error) { return jetPressure.Calculate(j) }

func (j JetPressure) compute() (JetResult, error) {
	pascals := 1000 * j.GaugePressure.In(paperprop.KilopascalGauge)
	return jetOnWire(2*pascals/j.Density.In(paperprop.KilogramPerCubicMetre), j.VelocityCoefficient, j.WireSpeed), nil
}

var jetPressure = &calc.Description[JetPressure, JetResult]{
	Name:    "jet-pressure",
	Title:   "Speed of the jet from the pressure",
	Answers: "How fast the jet leaves the headbox under a pressure, and whether it rushes or drags on the wire.",
	Formula: []string{"v_j = phi*sqrt(2*p/rho)", "k_j = v_j/v_w", "v_d = v_j - v_w"},
	Source:  "pressure turned into speed without loss, times the coefficient",
	Status:  calc.CommonPractice,
	Example: "gauge-pressure=54.0459 kPa(g); density=993 kg/m3; wire-speed=615 m/min",
	Mistakes: []string{
		"Gauge pressure, not absolute: an atmosphere is a head of 10 m.",
		"The density is that of warm stock: with 1000 in place of 988 kg/m3 the jet is 0.6 % too slow.",
	},
	Compare: []calc.Comparison{{
		Name:   "jet",
		Inputs: "head=5.55 m; wire-speed=615 m/min",
		Why:    "from the head of stock, which needs no density",
	}},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  JetPressure.compute,
	Fields: func(f *calc.Form, in *JetPressure, out *JetResult) {
		calc.In(f, &in.GaugePressure, "gauge-pressure", "p", "kPa(g)", "in the headbox at the jet").Above(0)
		calc.In(f, &in.Density, "density", "rho", "kg/m3", "of the stock, from stock-density").Above(0)
		wireOfJet(f, &in.WireSpeed, &in.VelocityCoefficient)
		speedsOfJet(f, out)
	},
}
