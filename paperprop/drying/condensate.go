package drying

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Condensate is the steam that condenses to give off a heat flow. Exactly one of
// Pressure and GaugePressure is given.
type Condensate struct {
	HeatFlow            paperprop.Power            // given off, above zero
	Pressure            paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
}

// CondensateResult is the condensate that forms.
type CondensateResult struct {
	CondensateFlow paperprop.MassFlow
	LatentHeat     paperprop.SpecificEnergy
}

// Calculate returns the condensate P_h/r.
func (c Condensate) Calculate() (CondensateResult, error) { return condensate.Calculate(c) }

func (c Condensate) compute() (CondensateResult, error) {
	s, err := saturatedSteam(c.Pressure, c.GaugePressure, c.AtmosphericPressure, "")
	if err != nil {
		return CondensateResult{}, err
	}
	return CondensateResult{condensing(c.HeatFlow, s.LatentHeat()), s.LatentHeat()}, nil
}

// condensing returns the steam that gives off a heat flow: kW over kJ/kg is kg/s.
func condensing(heat paperprop.Power, latent paperprop.SpecificEnergy) paperprop.MassFlow {
	return paperprop.MassFlow(heat.In(paperprop.Kilowatt)/latent.In(paperprop.KilojoulePerKilogram)) * paperprop.KilogramPerSecond
}

var condensate = &calc.Description[Condensate, CondensateResult]{
	Name:    "condensate",
	Title:   "Condensate from a heat flow",
	Answers: "How much steam condenses where that much heat is given off.",
	Formula: []string{"q_c = P_h/r"},
	Method:  "latent heat r by IAPWS-IF97; saturated steam in, saturated condensate out",
	Source:  "balance of heat; latent heat by " + if97,
	Status:  calc.CommonPractice,
	Example: "heat-flow=395 kW; gauge-pressure=1.8 bar(g)",
	Mistakes: []string{
		"Steam blown through a cylinder leaves with the condensate and has given off nothing: it is not in this figure.",
		"Condensate that leaves colder than it condensed gives off 4.2 kJ/kg more for each kelvin.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  Condensate.compute,
	Fields: func(f *calc.Form, in *Condensate, out *CondensateResult) {
		calc.In(f, &in.HeatFlow, "heat-flow", "P_h", "kW", "given off by condensing steam").Above(0)
		steamPressure(f, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		calc.Out(f, &out.CondensateFlow, "condensate-flow", "q_c", "kg/h", "that forms, for traps and siphons to pass")
		calc.Out(f, &out.LatentHeat, "latent-heat", "r", "kJ/kg", "of the steam")
	},
}

// FlashSteam is condensate let down to a lower pressure. Exactly one pressure is
// given for each side.
type FlashSteam struct {
	CondensateFlow      paperprop.MassFlow         // saturated at the higher pressure; above zero
	PressureIn          paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressureIn     *paperprop.GaugePressure   // nil is not given
	PressureOut         paperprop.AbsolutePressure // below the pressure before; zero is not given
	GaugePressureOut    *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
}

// FlashSteamResult is the flash steam, and the condensate that remains.
type FlashSteamResult struct {
	FlashShare        paperprop.Fraction // of the condensate, by mass
	FlashFlow         paperprop.MassFlow
	CondensateFlowOut paperprop.MassFlow

	LiquidEnthalpyIn, LiquidEnthalpyOut paperprop.SpecificEnergy
	LatentHeatOut                       paperprop.SpecificEnergy
}

// Calculate returns the share (h_f1 − h_f2)/r_2 of the condensate that becomes
// steam.
func (s FlashSteam) Calculate() (FlashSteamResult, error) { return flashSteam.Calculate(s) }

func (s FlashSteam) compute() (FlashSteamResult, error) {
	before, err := saturatedSteam(s.PressureIn, s.GaugePressureIn, s.AtmosphericPressure, "-in")
	if err != nil {
		return FlashSteamResult{}, err
	}
	after, err := saturatedSteam(s.PressureOut, s.GaugePressureOut, s.AtmosphericPressure, "-out")
	if err != nil {
		return FlashSteamResult{}, err
	}
	// A gauge pressure is only as precise as its sum with the atmosphere.
	if a := s.AtmosphericPressure; result.Rest(float64(before.Pressure+a), float64(after.Pressure+a)) <= 0 {
		if s.GaugePressureOut != nil {
			return FlashSteamResult{}, calc.Refuse("gauge-pressure-out", *s.GaugePressureOut, "below %v, the pressure before", before.Pressure.Gauge(s.AtmosphericPressure))
		}
		return FlashSteamResult{}, calc.Refuse("pressure-out", s.PressureOut, "below %v, the pressure before", before.Pressure)
	}
	share := float64((before.LiquidEnthalpy - after.LiquidEnthalpy) / after.LatentHeat())
	flow := s.CondensateFlow.In(paperprop.KilogramPerHour)
	return FlashSteamResult{
		FlashShare:        paperprop.Fraction(share),
		FlashFlow:         paperprop.MassFlow(flow*share) * paperprop.KilogramPerHour,
		CondensateFlowOut: paperprop.MassFlow(flow*(1-share)) * paperprop.KilogramPerHour,
		LiquidEnthalpyIn:  before.LiquidEnthalpy, LiquidEnthalpyOut: after.LiquidEnthalpy, LatentHeatOut: after.LatentHeat(),
	}, nil
}

var flashSteam = &calc.Description[FlashSteam, FlashSteamResult]{
	Name:    "flash-steam",
	Title:   "Flash steam from condensate",
	Answers: "How much of a condensate becomes steam when its pressure falls.",
	Formula: []string{"x_f = (h_f1 - h_f2)/r_2", "q_f = q_c*x_f", "q_out = q_c*(1 - x_f)"},
	Method:  "enthalpies by IAPWS-IF97; nothing is lost to the surroundings",
	Source:  "balance of heat over the separator; enthalpies by " + if97,
	Status:  calc.CommonPractice,
	Example: "condensate-flow=11 t/h; gauge-pressure-in=3.2 bar(g); gauge-pressure-out=0.4 bar(g)",
	Mistakes: []string{
		"A few per cent by mass is nearly all of the volume: a line sized for water chokes.",
		"Condensate that left the cylinder colder than saturation flashes less.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  FlashSteam.compute,
	Fields: func(f *calc.Form, in *FlashSteam, out *FlashSteamResult) {
		calc.In(f, &in.CondensateFlow, "condensate-flow", "q_c", "kg/h", "saturated at the higher pressure").Above(0)
		const before, after = "of the condensate", "of the flash steam"
		f.Exactly(1, absoluteSteam(f, &in.PressureIn, "pressure-in", "p_1", before), gaugeSteam(f, &in.GaugePressureIn, "gauge-pressure-in", "p_g1", before))
		f.Exactly(1, absoluteSteam(f, &in.PressureOut, "pressure-out", "p_2", after), gaugeSteam(f, &in.GaugePressureOut, "gauge-pressure-out", "p_g2", after))
		steamAtmosphere(f, &in.AtmosphericPressure)
		calc.Out(f, &out.FlashShare, "flash-share", "x_f", "%", "of the condensate, by mass")
		calc.Out(f, &out.FlashFlow, "flash-flow", "q_f", "kg/h", "steam that forms")
		calc.Out(f, &out.CondensateFlowOut, "condensate-flow-out", "q_out", "kg/h", "left as water")
		calc.Between(f, &out.LiquidEnthalpyIn, "h_f1", "kJ/kg", "enthalpy of the condensate before")
		calc.Between(f, &out.LiquidEnthalpyOut, "h_f2", "kJ/kg", "enthalpy of the condensate after")
		calc.Between(f, &out.LatentHeatOut, "r_2", "kJ/kg", "latent heat at the pressure after")
	},
}

// CylinderHeat is the heat that a cylinder gives to the web. Exactly one of
// Pressure and GaugePressure is given.
type CylinderHeat struct {
	Pressure            paperprop.AbsolutePressure // 0.00611 to 165.29 bar absolute; zero is not given
	GaugePressure       *paperprop.GaugePressure   // nil is not given
	AtmosphericPressure paperprop.AbsolutePressure // zero stands for 1.01325 bar absolute
	WebTemperature      paperprop.Temperature      // from 0 °C to below the steam's
	HeatTransfer        paperprop.HeatTransfer     // overall, steam to web, above zero
	Diameter            paperprop.Length           // above zero
	SheetWidth          paperprop.Length           // above zero
	Wrap                paperprop.Angle            // angle of contact with the sheet, above zero, at most 360°
}

// CylinderHeatResult is the heat, and the steam for it.
type CylinderHeatResult struct {
	SteamTemperature paperprop.Temperature // saturation
	ContactArea      paperprop.Area
	HeatFlow         paperprop.Power
	CondensateFlow   paperprop.MassFlow
	LatentHeat       paperprop.SpecificEnergy

	turn paperprop.Angle
}

// Calculate returns the heat U·A·(T_s − T_w).
func (c CylinderHeat) Calculate() (CylinderHeatResult, error) { return cylinderHeat.Calculate(c) }

func (c CylinderHeat) compute() (CylinderHeatResult, error) {
	s, err := saturatedSteam(c.Pressure, c.GaugePressure, c.AtmosphericPressure, "")
	if err != nil {
		return CylinderHeatResult{}, err
	}
	if !hotter(s.Temperature, c.WebTemperature) {
		return CylinderHeatResult{}, calc.Refuse("web-temperature", c.WebTemperature, "below that of the steam, %v", s.Temperature)
	}
	area := circumference(c.Diameter, c.SheetWidth) * float64(c.Wrap/fullTurn)
	heat := paperprop.Power(c.HeatTransfer.In(paperprop.WattPerSquareMetreKelvin)*area*float64(s.Temperature.Minus(c.WebTemperature))) * paperprop.Watt
	return CylinderHeatResult{
		SteamTemperature: s.Temperature,
		ContactArea:      paperprop.Area(area) * paperprop.SquareMetre,
		HeatFlow:         heat,
		CondensateFlow:   condensing(heat, s.LatentHeat()),
		LatentHeat:       s.LatentHeat(),
		turn:             fullTurn,
	}, nil
}

var cylinderHeat = &calc.Description[CylinderHeat, CylinderHeatResult]{
	Name:    "cylinder-heat",
	Title:   "Heat from a drying cylinder",
	Answers: "How much heat a drying cylinder (dryer can, Yankee) gives to the web, and how much steam condenses in it.",
	Formula: []string{"A = pi*D*b*beta/beta_0", "P_h = U*A*(T_s - T_w)", "q_c = P_h/r"},
	Method:  "saturation temperature and latent heat r by IAPWS-IF97",
	Source:  "definition of heat transfer; saturation by " + if97,
	Status:  calc.CommonPractice,
	Example: "gauge-pressure=1.8 bar(g); web-temperature=80 degC; heat-transfer=330 W/(m2 K); diameter=1.8 m; sheet-width=3.36 m; wrap=230 deg",
	Mistakes: []string{
		"The overall heat transfer has no default: from memory the contact alone gives 200 to 1000 W/(m2 K), falling as the web dries.",
		"The area is what the web touches, not the full circumference of the drying rate.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  CylinderHeat.compute,
	Fields: func(f *calc.Form, in *CylinderHeat, out *CylinderHeatResult) {
		steamPressure(f, &in.Pressure, &in.GaugePressure, &in.AtmosphericPressure)
		calc.In(f, &in.WebTemperature, "web-temperature", "T_w", "degC", "below that of the steam").From(0).UpTo(350)
		calc.In(f, &in.HeatTransfer, "heat-transfer", "U", "W/(m2 K)", "overall, steam to web").Above(0)
		cylinderSize(f, &in.Diameter, &in.SheetWidth)
		wrapAngle(f, &in.Wrap)
		calc.Out(f, &out.SteamTemperature, "steam-temperature", "T_s", "degC", "saturation")
		calc.Out(f, &out.ContactArea, "contact-area", "A", "m2", "under the sheet")
		calc.Out(f, &out.HeatFlow, "heat-flow", "P_h", "kW", "steam to web")
		calc.Out(f, &out.CondensateFlow, "condensate-flow", "q_c", "kg/h", "that forms")
		calc.Between(f, &out.LatentHeat, "r", "kJ/kg", "latent heat of the steam")
		calc.Between(f, &out.turn, "beta_0", "deg", "a full turn")
	},
}

// CylinderHeatTransfer is the overall heat transfer from steam to web.
type CylinderHeatTransfer struct {
	CondensateHeatTransfer paperprop.HeatTransfer        // steam to shell, above zero
	ShellThickness         paperprop.Length              // zero neglects the shell
	ShellConductivity      paperprop.ThermalConductivity // above zero
	ContactHeatTransfer    paperprop.HeatTransfer        // shell to web, above zero
}

// CylinderHeatTransferResult is the coefficient of all three resistances together.
type CylinderHeatTransferResult struct {
	HeatTransfer paperprop.HeatTransfer
}

// Calculate adds up the resistances: 1/U = 1/U_c + t/k + 1/U_t.
func (c CylinderHeatTransfer) Calculate() (CylinderHeatTransferResult, error) {
	return cylinderHeatTransfer.Calculate(c)
}

func (c CylinderHeatTransfer) compute() (CylinderHeatTransferResult, error) {
	resistance := 1/c.CondensateHeatTransfer.In(paperprop.WattPerSquareMetreKelvin) +
		c.ShellThickness.In(paperprop.Metre)/c.ShellConductivity.In(paperprop.WattPerMetreKelvin) +
		1/c.ContactHeatTransfer.In(paperprop.WattPerSquareMetreKelvin)
	return CylinderHeatTransferResult{paperprop.HeatTransfer(1/resistance) * paperprop.WattPerSquareMetreKelvin}, nil
}

var cylinderHeatTransfer = &calc.Description[CylinderHeatTransfer, CylinderHeatTransferResult]{
	Name:    "cylinder-heat-transfer",
	Title:   "Heat transfer of a drying cylinder",
	Answers: "How well heat goes from steam to web through condensate, shell and contact.",
	Formula: []string{"U = 1/(1/U_c + t/k + 1/U_t)"},
	Source:  "resistances in a row add up; thin shell",
	Status:  calc.CommonPractice,
	Example: "condensate-heat-transfer=1500 W/(m2 K); shell-thickness=28 mm; shell-conductivity=50 W/(m K); contact-heat-transfer=500 W/(m2 K)",
	Mistakes: []string{
		"The smallest of the three decides: doubling the best hardly helps.",
		"None has a default: from memory the condensate gives 500 to 3000, the contact 200 to 1000 W/(m2 K), falling as the web dries.",
	},
	Cautions: []*calc.Caution{&calc.Steam},
	Compute:  CylinderHeatTransfer.compute,
	Fields: func(f *calc.Form, in *CylinderHeatTransfer, out *CylinderHeatTransferResult) {
		calc.In(f, &in.CondensateHeatTransfer, "condensate-heat-transfer", "U_c", "W/(m2 K)", "steam to shell; 500 to 3000 (memory)").Above(0)
		calc.In(f, &in.ShellThickness, "shell-thickness", "t", "mm", "of the cylinder").From(0)
		calc.In(f, &in.ShellConductivity, "shell-conductivity", "k", "W/(m K)", "of the shell").Above(0)
		calc.In(f, &in.ContactHeatTransfer, "contact-heat-transfer", "U_t", "W/(m2 K)", "shell to web; 200 to 1000, falling as the web dries (memory)").Above(0)
		calc.Out(f, &out.HeatTransfer, "heat-transfer", "U", "W/(m2 K)", "overall, steam to web")
	},
}
