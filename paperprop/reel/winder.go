package reel

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// WinderTime is the time of a winder that runs sets one after another.
type WinderTime struct {
	Length       paperprop.Length       // of a set, above zero
	Speed        paperprop.Speed        // highest, above zero
	Acceleration paperprop.Acceleration // the same up and down, above zero
	ChangeTime   paperprop.Duration     // between sets
	Sets         paperprop.Count        // from 1
}

// WinderTimeResult is the time for one set and for all.
type WinderTimeResult struct {
	RunTime      paperprop.Duration // of a set
	SetTime      paperprop.Duration // including the change
	Time         paperprop.Duration // of all sets
	MeanSpeed    paperprop.Speed    // over SetTime
	ReachedSpeed paperprop.Speed    // at most Speed: lower if the set is too short to reach it
}

// Calculate returns the time to speed up, run and slow down: L/v + v/a, with v the
// speed reached.
func (w WinderTime) Calculate() (WinderTimeResult, error) { return winderTime.Calculate(w) }

func (w WinderTime) compute() (WinderTimeResult, error) {
	length, a := w.Length.In(paperprop.Metre), w.Acceleration.In(paperprop.MetrePerSquareSecond)*3600 // m, m/min²
	reached := min(w.Speed.In(paperprop.MetrePerMinute), math.Sqrt(length*a))
	run := length/reached + reached/a
	set := run + w.ChangeTime.In(paperprop.Minute)
	return WinderTimeResult{
		RunTime:      paperprop.Duration(run) * paperprop.Minute,
		SetTime:      paperprop.Duration(set) * paperprop.Minute,
		Time:         paperprop.Duration(float64(w.Sets)*set) * paperprop.Minute,
		MeanSpeed:    paperprop.Speed(length/set) * paperprop.MetrePerMinute,
		ReachedSpeed: paperprop.Speed(reached) * paperprop.MetrePerMinute,
	}, nil
}

var winderTime = &calc.Description[WinderTime, WinderTimeResult]{
	Name:    "winder-time",
	Title:   "Time of a winder",
	Answers: "How long a winder or rewinder takes for sets of a length, and whether it keeps up with the machine.",
	Formula: []string{
		"v_r = min(v, sqrt(L*a))",
		"tau_r = L/v_r + v_r/a",
		"tau_s = tau_r + tau_c",
		"tau = N*tau_s",
		"v_m = L/tau_s",
	},
	Source:  "uniform acceleration up and down; a set that does not come to top speed takes 2*sqrt(L/a)",
	Status:  calc.CommonPractice,
	Example: "length=6555 m; speed=2400 m/min; acceleration=0.5 m/s2; change-time=3 min; sets=3",
	Mistakes: []string{
		"Top speed says little: compare the mean speed with the machine's, which never stops to change sets.",
		"A short set never comes to top speed; there more acceleration helps, not more speed.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine, &calc.HeavyReel},
	Compute:  WinderTime.compute,
	Fields: func(f *calc.Form, in *WinderTime, out *WinderTimeResult) {
		calc.In(f, &in.Length, "length", "L", "m", "of a set").Above(0)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "highest").Above(0)
		calc.In(f, &in.Acceleration, "acceleration", "a", "m/s2", "up and down alike").Above(0)
		calc.In(f, &in.ChangeTime, "change-time", "tau_c", "min", "between sets").From(0)
		calc.In(f, &in.Sets, "sets", "N", "1", "run down one after the other").From(1)
		calc.Out(f, &out.RunTime, "run-time", "tau_r", "min", "of a set")
		calc.Out(f, &out.SetTime, "set-time", "tau_s", "min", "with its change")
		calc.Out(f, &out.Time, "time", "tau", "min", "of all sets")
		calc.Out(f, &out.MeanSpeed, "mean-speed", "v_m", "m/min", "over set-time: compare with the machine's")
		calc.Between(f, &out.ReachedSpeed, "v_r", "m/min", "highest speed that is reached")
	},
}

// WebPower is the power to pull a web.
type WebPower struct {
	Tension         paperprop.ForcePerLength // of the web, or its difference across a roll, above zero
	SheetWidth      paperprop.Length         // above zero
	Speed           paperprop.Speed          // above zero
	DriveEfficiency paperprop.Fraction       // at most 100 %; zero stands for 100 %, the power at the web
}

// WebPowerResult is that power.
type WebPowerResult struct {
	Power paperprop.Power
}

// Calculate returns the power f·b·v/η.
func (w WebPower) Calculate() (WebPowerResult, error) { return webPower.Calculate(w) }

func (w WebPower) compute() (WebPowerResult, error) {
	f, b := w.Tension.In(paperprop.KilonewtonPerMetre), w.SheetWidth.In(paperprop.Metre)
	power := f * b * w.Speed.In(paperprop.MetrePerSecond) / float64(w.DriveEfficiency) // kN·m/s is kW
	return WebPowerResult{Power: paperprop.Power(power) * paperprop.Kilowatt}, nil
}

var webPower = &calc.Description[WebPower, WebPowerResult]{
	Name:    "web-power",
	Title:   "Power that web tension takes",
	Answers: "What power pulls a web of a tension at a speed.",
	Formula: []string{"P_e = f*b*v/eta"},
	Source:  "definition of power",
	Status:  calc.CommonPractice,
	Example: "tension=0.4 kN/m; sheet-width=3.36 m; speed=625 m/min; drive-efficiency=92 %",
	Mistakes: []string{
		"A driven roll takes the difference of the tensions after and before it, not the tension.",
		"Friction, air and acceleration come on top; at 100 % the power is that at the web, not at the motor.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  WebPower.compute,
	Fields: func(f *calc.Form, in *WebPower, out *WebPowerResult) {
		calc.In(f, &in.Tension, "tension", "f", "kN/m", "of the web, or its difference over a roll").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "b", "m", "of the web").Above(0)
		calc.In(f, &in.Speed, "speed", "v", "m/min", "of the web").Above(0)
		calc.In(f, &in.DriveEfficiency, "drive-efficiency", "eta", "%", "100 %: power at the web").Above(0).UpTo(100).Default(100)
		calc.Out(f, &out.Power, "power", "P_e", "kW", "at the motor, or at the web")
	},
}
