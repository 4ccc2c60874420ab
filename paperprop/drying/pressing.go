package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Pressing is the water that a press removes from the web.
type Pressing struct {
	DrynessIn  paperprop.DryContent  // above zero
	DrynessOut paperprop.DryContent  // above DrynessIn, below 100 %
	DryFlow    paperprop.OvenDryFlow // all of it stays in the web; above zero
}

// PressingResult is the water as a flow and per dry mass.
type PressingResult struct {
	WaterFlow   paperprop.MassFlow
	WaterPerDry paperprop.MassRatio
}

// Calculate returns the water q_d·(1/d_in − 1/d_out).
func (p Pressing) Calculate() (PressingResult, error) { return pressing.Calculate(p) }

func (p Pressing) compute() (PressingResult, error) {
	if p.DrynessOut <= p.DrynessIn {
		return PressingResult{}, calc.Refuse("dryness-out", p.DrynessOut, "above dryness-in %v", p.DrynessIn)
	}
	water := 1/float64(p.DrynessIn) - 1/float64(p.DrynessOut)
	return PressingResult{
		WaterFlow:   paperprop.MassFlow(p.DryFlow.In(paperprop.DryTonnePerHour)*water) * paperprop.TonnePerHour,
		WaterPerDry: paperprop.MassRatio(water),
	}, nil
}

var pressing = &calc.Description[Pressing, PressingResult]{
	Name:    "pressing",
	Title:   "Water pressed out of the web",
	Answers: "How much water the presses take between two drynesses.",
	Formula: []string{"e_d = 1/d_in - 1/d_out", "q_w = q_d*e_d"},
	Source:  "balance of water and dry matter over the press",
	Status:  calc.CommonPractice,
	Example: "dryness-in=19 %; dryness-out=47.5 %; dry-flow=13.445 t/h",
	Mistakes: []string{
		"From 19 to 20 % dryness 0.26 kg of water per kg of dry matter goes, from 46 to 47 % only 0.05 kg.",
		"Dissolved matter that leaves with the pressed water is left out: all dry matter stays in the web.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  Pressing.compute,
	Fields: func(f *calc.Form, in *Pressing, out *PressingResult) {
		calc.In(f, &in.DrynessIn, "dryness-in", "d_in", "%", "web into the press").Above(0).Below(100)
		calc.In(f, &in.DrynessOut, "dryness-out", "d_out", "%", "web off the press").Above(0).Below(100)
		calc.In(f, &in.DryFlow, "dry-flow", "q_d", "t/h", "dry matter of the web").Above(0)
		calc.Out(f, &out.WaterFlow, "water-flow", "q_w", "t/h", "pressed out")
		calc.Out(f, &out.WaterPerDry, "water-per-dry", "e_d", "kg/kg", "pressed out, per dry mass")
	},
}

// PressGain is the gain for the dryers from a different dryness after the press.
type PressGain struct {
	Dryness     paperprop.DryContent // of the web now: above zero, below that of the paper
	NewDryness  paperprop.DryContent // of the web after the change: above zero, below that of the paper
	MoistureOut paperprop.Moisture   // paper at the reel, below 100 %
}

// PressGainResult is the gain in water or in speed, below zero if the web gets
// wetter.
type PressGainResult struct {
	EvaporationSaving paperprop.Fraction // over the present evaporation
	SpeedGain         paperprop.Fraction // if the dryers limit the machine
}

// Calculate returns the saving 1 − E_new/E and the speed gain E/E_new − 1.
func (p PressGain) Calculate() (PressGainResult, error) { return pressGain.Calculate(p) }

func (p PressGain) compute() (PressGainResult, error) {
	now, then, paper := float64(p.Dryness), float64(p.NewDryness), 1-float64(p.MoistureOut)
	for _, d := range [...]struct {
		input   string
		dryness paperprop.DryContent
	}{{"dryness", p.Dryness}, {"new-dryness", p.NewDryness}} {
		if result.Rest(paper, float64(d.dryness)) <= 0 {
			return PressGainResult{}, calc.Refuse(d.input, d.dryness, "below that of the paper, %v", p.MoistureOut.DryContent())
		}
	}
	saved := (then - now) / (now * then) // water per dry mass; 1/d − 1/d' would cancel
	load := func(d float64) float64 { return (paper - d) / (paper * d) }
	return PressGainResult{
		EvaporationSaving: paperprop.Fraction(saved / load(now)),
		SpeedGain:         paperprop.Fraction(saved / load(then)),
	}, nil
}

var pressGain = &calc.Description[PressGain, PressGainResult]{
	Name:    "press-gain",
	Title:   "Worth of a drier web off the press",
	Answers: "How much less the dryers evaporate, or how much faster they run, when the web leaves the press drier.",
	Formula: []string{"E = 1/d - 1/(1 - w_out)", "E_new = 1/d_new - 1/(1 - w_out)", "x_e = 1 - E_new/E", "x_v = E/E_new - 1"},
	Source:  "balance of water; the rule of about 4 % a point that it replaces is common practice",
	Status:  calc.CommonPractice,
	Example: "dryness=47.5 %; new-dryness=49 %; moisture-out=7.5 %",
	Mistakes: []string{
		"The rule of 4 % a point is a saving of 4.2 to 4.5 % between 35 and 55 % dryness, for 7.5 % moisture at the reel; a conference abstract of 2023 (seen) " +
			"says 4 to 6 %, but the balance saves 6 % a point only below about 20 or above about 71 %.",
		"Saving and speed are two numbers: 10 % less water is 11.1 % more speed.",
		"Steam follows the water only at equal steam-per-water: the web must be warmed all the same.",
	},
	Compute: PressGain.compute,
	Fields: func(f *calc.Form, in *PressGain, out *PressGainResult) {
		calc.In(f, &in.Dryness, "dryness", "d", "%", "web off the press now").Above(0).Below(100)
		calc.In(f, &in.NewDryness, "new-dryness", "d_new", "%", "web off the press then").Above(0).Below(100)
		calc.In(f, &in.MoistureOut, "moisture-out", "w_out", "%", "paper at the reel, wet basis").From(0).Below(100)
		calc.Out(f, &out.EvaporationSaving, "evaporation-saving", "x_e", "%", "water not evaporated, of the water now")
		calc.Out(f, &out.SpeedGain, "speed-gain", "x_v", "%", "if the dryers limit the machine")
	},
}

// PressImpulse is the press impulse of several nips in a row.
type PressImpulse struct {
	LineLoad []paperprop.ForcePerLength // of each nip, above zero
	Speed    paperprop.Speed            // above zero
}

// PressImpulseResult is the impulse of each nip, and their sum.
type PressImpulseResult struct {
	PressImpulse paperprop.PressImpulse
	NipImpulse   []paperprop.PressImpulse
}

// Calculate returns the impulses f/v and their sum.
func (p PressImpulse) Calculate() (PressImpulseResult, error) { return pressImpulse.Calculate(p) }

func (p PressImpulse) compute() (PressImpulseResult, error) {
	r := PressImpulseResult{NipImpulse: make([]paperprop.PressImpulse, len(p.LineLoad))}
	for i, load := range p.LineLoad {
		r.NipImpulse[i] = impulse(load, p.Speed)
		r.PressImpulse += r.NipImpulse[i]
	}
	return r, nil
}

// impulse returns a line load over a speed: kN/m over m/s is kPa·s.
func impulse(load paperprop.ForcePerLength, v paperprop.Speed) paperprop.PressImpulse {
	return paperprop.PressImpulse(load.In(paperprop.KilonewtonPerMetre)/v.In(paperprop.MetrePerSecond)) * paperprop.KilopascalSecond
}

var pressImpulse = &calc.Description[PressImpulse, PressImpulseResult]{
	Name:    "press-impulse",
	Title:   "Press impulse of several nips",
	Answers: "How hard (line load, linear load) and how long the nips of a press section press the web, all together.",
	Formula: []string{"I_i = f/v", "I = sum(f/v)"},
	Source:  "definition: line load over speed; impulses add up",
	Status:  calc.CommonPractice,
	Example: "line-load=[80 110 900] kN/m; speed=625 m/min",
	Mistakes: []string{
		"At the same line load twice the speed is half the impulse.",
		"In lbf/in (pli) and ft/min (fpm) the impulse in psi s is 5 times load over speed.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  PressImpulse.compute,
	Fields: func(f *calc.Form, in *PressImpulse, out *PressImpulseResult) {
		calc.InList(f, &in.LineLoad, "line-load", "f", "kN/m", "of each nip").Above(0)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "of the web").Above(0)
		calc.Out(f, &out.PressImpulse, "press-impulse", "I", "kPa s", "sum over the nips")
		calc.OutList(f, &out.NipImpulse, "nip-impulse", "I_i", "kPa s", "of each nip")
	},
}

// PressNip is a single nip of known length.
type PressNip struct {
	LineLoad  paperprop.ForcePerLength // above zero
	Speed     paperprop.Speed          // above zero
	NipLength paperprop.Length         // in running direction, above zero
}

// PressNipResult is the pressure, the time and their product.
type PressNipResult struct {
	PressImpulse paperprop.PressImpulse
	MeanPressure paperprop.Pressure
	DwellTime    paperprop.Duration
}

// Calculate returns the impulse f/v, the pressure f/L and the time L/v.
func (p PressNip) Calculate() (PressNipResult, error) { return pressNip.Calculate(p) }

func (p PressNip) compute() (PressNipResult, error) {
	length := p.NipLength.In(paperprop.Metre)
	return PressNipResult{
		PressImpulse: impulse(p.LineLoad, p.Speed),
		MeanPressure: paperprop.Pressure(p.LineLoad.In(paperprop.KilonewtonPerMetre)/length) * paperprop.Kilopascal,
		DwellTime:    paperprop.Duration(length/p.Speed.In(paperprop.MetrePerSecond)) * paperprop.Second,
	}, nil
}

var pressNip = &calc.Description[PressNip, PressNipResult]{
	Name:    "press-nip",
	Title:   "Pressure and time in a press nip",
	Answers: "What mean pressure the web bears in the nip of a press (a shoe press too) or a calender, for how long, and what impulse that is.",
	Formula: []string{"I = f/v", "p_m = f/L", "tau = L/v"},
	Source:  "definitions: impulse = line load/speed = mean pressure times dwell time",
	Status:  calc.CommonPractice,
	Example: "line-load=900 kN/m; speed=625 m/min; nip-length=250 mm",
	Mistakes: []string{
		"The mean pressure is not the peak: that of a roll nip lies well above it.",
		"The impulse does not depend on the length of the nip; pressure and time do.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  PressNip.compute,
	Fields: func(f *calc.Form, in *PressNip, out *PressNipResult) {
		calc.In(f, &in.LineLoad, "line-load", "f", "kN/m", "of the nip").Above(0)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "of the web").Above(0)
		calc.In(f, &in.NipLength, "nip-length", "L", "mm", "in running direction").Above(0)
		calc.Out(f, &out.PressImpulse, "press-impulse", "I", "kPa s", "mean pressure times dwell time")
		calc.Out(f, &out.MeanPressure, "mean-pressure", "p_m", "MPa", "over the length of the nip")
		calc.Out(f, &out.DwellTime, "dwell-time", "tau", "ms", "of the web in the nip")
	},
}
