package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// FreeAir is a flow of rarefied air, restated at normal conditions.
type FreeAir struct {
	VolumeFlow          paperprop.VolumeFlow       // as sucked in, above zero
	Vacuum              paperprop.Pressure         // below the atmosphere, from zero
	Temperature         paperprop.Temperature      // −50 to 200 °C
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
}

// FreeAirResult is the flow at 0 °C and 101.325 kPa.
type FreeAirResult struct {
	NormalVolumeFlow paperprop.VolumeFlow // as dry gas: water vapour is not subtracted

	normalPressure    paperprop.AbsolutePressure
	normalTemperature paperprop.Temperature
}

// Calculate returns the normal flow Q·(p_a − p_v)/p_n·T_n/T.
func (a FreeAir) Calculate() (FreeAirResult, error) { return freeAir.Calculate(a) }

func (a FreeAir) compute() (FreeAirResult, error) {
	r := FreeAirResult{normalPressure: 1.01325 * paperprop.BarAbsolute, normalTemperature: paperprop.Celsius(0)}
	atmosphere := a.AtmosphericPressure.In(paperprop.KilopascalAbsolute)
	thin := result.Rest(atmosphere, a.Vacuum.In(paperprop.Kilopascal))
	if thin <= 0 {
		return r, calc.Refuse("vacuum", a.Vacuum, "below the atmosphere, %v", paperprop.Pressure(atmosphere)*paperprop.Kilopascal)
	}
	q := a.VolumeFlow.In(paperprop.CubicMetrePerHour) * thin / r.normalPressure.In(paperprop.KilopascalAbsolute) *
		r.normalTemperature.Kelvin() / a.Temperature.Kelvin()
	r.NormalVolumeFlow = paperprop.VolumeFlow(q) * paperprop.CubicMetrePerHour
	return r, nil
}

var freeAir = &calc.Description[FreeAir, FreeAirResult]{
	Name:    "free-air",
	Title:   "Thin air at normal conditions",
	Answers: "How much air a vacuum element takes and its vacuum pump moves, as normal cubic metres.",
	Formula: []string{"Q_n = Q*(p_a - p_v)/p_n*T_n/T"},
	Source:  "ideal gas; p_n and T_n are the normal conditions, 101.325 kPa and 0 degC",
	Status:  calc.CommonPractice,
	Example: "volume-flow=6000 m3/h; vacuum=30 kPa; temperature=45 degC",
	Mistakes: []string{
		"Normal is 0 degC: in standard cubic feet (60 or 68 degF) the same air is 6 or 7 % more volume.",
		"The water vapour is still in it: at 45 degC and 70 kPa absolute it is up to a seventh of the volume.",
		"A printed list gives 1.669 m3/h for 1 ft3/min: a misprint for 1.699.",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  FreeAir.compute,
	Fields: func(f *calc.Form, in *FreeAir, out *FreeAirResult) {
		calc.In(f, &in.VolumeFlow, "volume-flow", "Q", "m3/h", "as sucked in, at vacuum and temperature").Above(0)
		calc.In(f, &in.Vacuum, "vacuum", "p_v", "kPa", "below the atmosphere").From(0)
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the air").From(-50).UpTo(200)
		airAtmosphere(f, &in.AtmosphericPressure, "around the machine")
		calc.Out(f, &out.NormalVolumeFlow, "normal-volume-flow", "Q_n", "m3/h", "at 0 degC and 101.325 kPa, water vapour not taken off")
		calc.Between(f, &out.normalPressure, "p_n", "kPa(a)", "normal pressure")
		calc.Between(f, &out.normalTemperature, "T_n", "degC", "normal temperature")
	},
}

// VacuumAir is the air of a vacuum element across the width of the machine.
type VacuumAir struct {
	FlowPerWidth paperprop.FlowPerWidth // above zero
	SheetWidth   paperprop.Length       // above zero
}

// VacuumAirResult is the flow of air.
type VacuumAirResult struct {
	VolumeFlow paperprop.VolumeFlow
}

// Calculate returns the air flow Q_b·b.
func (v VacuumAir) Calculate() (VacuumAirResult, error) { return vacuumAir.Calculate(v) }

func (v VacuumAir) compute() (VacuumAirResult, error) {
	q := v.FlowPerWidth.In(paperprop.LitrePerMinuteMetre) * v.SheetWidth.In(paperprop.Metre)
	return VacuumAirResult{paperprop.VolumeFlow(q) * paperprop.LitrePerMinute}, nil
}

var vacuumAir = &calc.Description[VacuumAir, VacuumAirResult]{
	Name:    "vacuum-air",
	Title:   "Air of a vacuum element",
	Answers: "How much air a vacuum element (suction box, couch roll, felt suction or Uhle box) takes over the width of the machine.",
	Formula: []string{"Q = Q_b*b"},
	Source:  "definition; the factors of the trade per width were not seen, so there is no default",
	Status:  calc.CommonPractice,
	Example: "flow-per-width=40 m3/(h cm); sheet-width=3.36 m",
	Mistakes: []string{
		"A factor holds for its own vacuum, speed, grade and slot alone.",
		"1 ft3/(min in) is 0.669 m3/(h cm).",
	},
	Cautions: []*calc.Caution{&calc.MovingMachine},
	Compute:  VacuumAir.compute,
	Fields: func(f *calc.Form, in *VacuumAir, out *VacuumAirResult) {
		calc.In(f, &in.FlowPerWidth, "flow-per-width", "Q_b", "m3/(h cm)", "air per width of the element").Above(0)
		calc.In(f, &in.SheetWidth, "sheet-width", "b", "m", "of the element").Above(0)
		calc.Out(f, &out.VolumeFlow, "volume-flow", "Q", "m3/h", "of the whole element")
	},
}
