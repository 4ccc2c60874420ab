package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/water"
)

// Water is pure liquid water.
type Water struct {
	Temperature paperprop.Temperature      // 0 to 350 °C
	Pressure    paperprop.AbsolutePressure // from saturation to 1000 bar; zero stands for 1.01325 bar absolute
}

// WaterResult is its properties.
type WaterResult struct {
	Density        paperprop.Density
	SpecificVolume paperprop.SpecificVolume
	Enthalpy       paperprop.SpecificEnergy // close to zero at the triple point
	HeatCapacity   paperprop.SpecificHeat   // at constant pressure
}

// Calculate evaluates IAPWS-IF97, region 1.
func (w Water) Calculate() (WaterResult, error) { return liquidWater.Calculate(w) }

func (w Water) compute() (WaterResult, error) {
	boiling, err := water.SaturationPressure(w.Temperature)
	if err == nil && w.Pressure < boiling {
		err = calc.Refuse("pressure", w.Pressure, "%v, at which water of this temperature boils, or above", boiling)
	}
	if err != nil {
		return WaterResult{}, err
	}
	p, err := water.Liquid(w.Temperature, w.Pressure)
	return WaterResult{p.Density(), p.SpecificVolume, p.Enthalpy, p.HeatCapacity}, err
}

var liquidWater = &calc.Description[Water, WaterResult]{
	Name:    "water",
	Title:   "Liquid water",
	Answers: "How dense water is at its temperature, and what heat it holds.",
	Formula: []string{"rho = 1/v_s"},
	Method:  "IAPWS-IF97 region 1",
	Source:  if97,
	Status:  calc.Published,
	Example: "temperature=48 degC",
	Mistakes: []string{
		"Water of 80 degC is 2.8 % lighter than 1 kg/L: a volume of it is not a mass.",
		"A temperature above 100 degC wants a pressure: at the atmosphere's it boils.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  Water.compute,
	Fields: func(f *calc.Form, in *Water, out *WaterResult) {
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the water").From(float64(water.Coldest)).UpTo(float64(water.HottestSaturated))
		calc.In(f, &in.Pressure, "pressure", "p", "bar(a)", "absolute").Above(0).UpTo(water.HighestPressure.In(paperprop.BarAbsolute)).Default(1.01325)
		calc.Out(f, &out.Density, "density", "rho", "kg/m3", "of pure water, free of air")
		calc.Out(f, &out.SpecificVolume, "specific-volume", "v_s", "m3/kg", "of it")
		calc.Out(f, &out.Enthalpy, "enthalpy", "h", "kJ/kg", "zero at the triple point")
		calc.Out(f, &out.HeatCapacity, "heat-capacity", "c_p", "kJ/(kg K)", "at constant pressure")
	},
}

// WaterVapour is steam in region 2 of IAPWS-IF97.
type WaterVapour struct {
	Temperature paperprop.Temperature      // 0 to 800 °C
	Pressure    paperprop.AbsolutePressure // above zero, at most saturation or the boundary of region 3
}

// WaterVapourResult is its properties.
type WaterVapourResult struct {
	SpecificVolume paperprop.SpecificVolume
	Enthalpy       paperprop.SpecificEnergy
	HeatCapacity   paperprop.SpecificHeat // at constant pressure
}

// Calculate evaluates IAPWS-IF97, region 2.
func (w WaterVapour) Calculate() (WaterVapourResult, error) { return waterVapour.Calculate(w) }

func (w WaterVapour) compute() (WaterVapourResult, error) {
	most, err := water.DensestVapour(w.Temperature)
	if err == nil && w.Pressure > most {
		err = calc.Refuse("pressure", w.Pressure, "at most %v at this temperature: beyond lies water, or region 3", most)
	}
	if err != nil {
		return WaterVapourResult{}, err
	}
	p, err := water.Vapour(w.Temperature, w.Pressure)
	return WaterVapourResult{p.SpecificVolume, p.Enthalpy, p.HeatCapacity}, err
}

var waterVapour = &calc.Description[WaterVapour, WaterVapourResult]{
	Name:    "water-vapour",
	Title:   "Water vapour",
	Answers: "What volume and heat steam has at any temperature and pressure, thin or dense.",
	Method: "IAPWS-IF97 region 2: to saturation at 350 degC and below, above that to the boundary of region 3 " +
		"(its equation from memory)",
	Source:  if97,
	Status:  calc.Published,
	Example: "temperature=180 degC; pressure=4.2 bar(a)",
	Mistakes: []string{
		"Below saturation in temperature there is water, not steam: at 2 bar(a) and 100 degC it is liquid.",
		"Steam is not an ideal gas: at 10 bar(a) and 200 degC it takes 6 % less room than one.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  WaterVapour.compute,
	Fields: func(f *calc.Form, in *WaterVapour, out *WaterVapourResult) {
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the steam").From(float64(water.Coldest)).UpTo(float64(water.HottestVapour))
		calc.In(f, &in.Pressure, "pressure", "p", "bar(a)", "absolute").Above(0).UpTo(water.HighestPressure.In(paperprop.BarAbsolute))
		calc.Out(f, &out.SpecificVolume, "specific-volume", "v_s", "m3/kg", "of the steam")
		calc.Out(f, &out.Enthalpy, "enthalpy", "h", "kJ/kg", "zero for water at the triple point")
		calc.Out(f, &out.HeatCapacity, "heat-capacity", "c_p", "kJ/(kg K)", "at constant pressure")
	},
}
