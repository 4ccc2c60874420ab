package drying

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/internal/search"
)

// vapourConstant is the gas constant of water vapour, in kJ/(kg K), as both
// sorption models write it.
const vapourConstant = 0.4615

// A SorptionModel is a model of the moisture of fibre in equilibrium with humid
// air.
type SorptionModel string

// The models. At single points their heats differ by up to a factor of two; over a
// whole dryer section they agree within 5 %.
const (
	ModelHeikkila SorptionModel = "heikkila" // Heikkilä 1993, coefficients from memory
	ModelTryding  SorptionModel = "tryding"  // Tryding et al. 2022, bleached fibre
)

// Both models write the relative humidity over fibre as 1 − exp(−x), where x rises
// with the moisture ratio u and the temperature. The heat of sorption follows from
// x by Clausius and Clapeyron: R·T²·d(ln phi)/dT at constant u.

// exponent returns x and its derivative by temperature, in 1/K. From fullAt on, the
// fibre holds free water, and x is infinite.
func (m SorptionModel) exponent(u float64, t paperprop.Temperature) (x, slope float64) {
	if m == ModelHeikkila {
		x, slope = 47.58*math.Pow(u, 1.877), 0.10085*math.Pow(u, 1.0585)
		return x + slope*t.Celsius(), slope
	}
	k, full := t.Kelvin(), m.fullAt(t)
	if u >= full {
		return math.Inf(1), 0
	}
	q := math.Pow(402/k, swelling+1)
	x = math.Pow(u/(spread*math.Exp(q/(swelling+1))*(1-u/full)), 1/width)
	return x, x / width * (q/k + u*fullReference/(310*full*(full-u)))
}

// The parameters of [ModelTryding].
const (
	width         = 0.661
	swelling      = 3.64
	fullReference = 0.818 // kg/kg at 23 °C
	// spread is k_inf·(1 − c)^(1 − c)·exp(c − 1)/c, where c is the width and k_inf
	// is 0.0841.
	spread = 0.0841 * 0.7469824679714194
)

// fullAt returns the moisture ratio at which the fibre is full; infinite if the
// model has no such limit.
func (m SorptionModel) fullAt(t paperprop.Temperature) float64 {
	if m == ModelHeikkila {
		return math.Inf(1)
	}
	return fullReference * (1 + (296.15-t.Kelvin())/310)
}

// freeFrom is a moisture ratio above which neither model has heat that a float64
// could show: 1 − phi is below exp(−170). An integral on equal pieces up to the
// thinnest stock would lose the last digits of the heat below it.
const freeFrom = 2 // kg/kg

// moistureRatio returns the u at which the model gives x.
func (m SorptionModel) moistureRatio(x float64, t paperprop.Temperature) float64 {
	if m == ModelTryding {
		q := math.Pow(402/t.Kelvin(), swelling+1)
		free := math.Pow(x, width) * spread * math.Exp(q/(swelling+1))
		return free / (1 + free/m.fullAt(t))
	}
	// x is the sum of two powers of u, of which the greater is between x/2 and x.
	of := func(x float64) float64 {
		return min(math.Pow(x/47.58, 1/1.877), math.Pow(x/(0.10085*t.Celsius()), 1/1.0585))
	}
	return math.Exp(search.Zero(math.Log(of(x/2)), math.Log(of(x)), func(lnU float64) float64 {
		got, _ := m.exponent(math.Exp(lnU), t)
		return math.Log(got / x)
	}))
}

// heat returns the heat of sorption at a moisture ratio, in kJ per kg of water. It
// falls to zero as the air becomes saturated.
func (m SorptionModel) heat(u float64, t paperprop.Temperature) float64 {
	x, slope := m.exponent(u, t)
	return vapourConstant * t.Kelvin() * t.Kelvin() * slope / math.Expm1(x)
}

// EquilibriumMoisture is fibre in equilibrium with humid air. Exactly one of
// RelativeHumidity, MoistureRatio and Moisture is given; zero is not given.
type EquilibriumMoisture struct {
	Temperature      paperprop.Temperature   // 0 to 200 °C
	RelativeHumidity paperprop.Fraction      // above zero, below 100 %
	MoistureRatio    paperprop.MoistureRatio // above zero
	Moisture         paperprop.Moisture      // above zero, below 100 %
	Model            SorptionModel
}

// EquilibriumMoistureResult is the equilibrium, and the heat of sorption.
type EquilibriumMoistureResult struct {
	RelativeHumidity paperprop.Fraction
	MoistureRatio    paperprop.MoistureRatio
	Moisture         paperprop.Moisture
	SorptionHeat     paperprop.SpecificEnergy // beyond the latent heat, per water
}

// Calculate evaluates the isotherm of the model, in either direction.
func (e EquilibriumMoisture) Calculate() (EquilibriumMoistureResult, error) {
	return equilibriumMoisture.Calculate(e)
}

func (e EquilibriumMoisture) compute() (EquilibriumMoistureResult, error) {
	r := EquilibriumMoistureResult{e.RelativeHumidity, e.MoistureRatio, e.Moisture, 0}
	u := float64(e.MoistureRatio)
	switch {
	case e.RelativeHumidity != 0:
		u = e.Model.moistureRatio(-math.Log1p(-float64(e.RelativeHumidity)), e.Temperature)
	case e.Moisture != 0:
		u = float64(e.Moisture / (1 - e.Moisture))
	}
	if full := e.Model.fullAt(e.Temperature); u >= full {
		if e.Moisture != 0 {
			return r, calc.Refuse("moisture", e.Moisture, "below %v, where the fibre is full", paperprop.Moisture(full/(1+full)))
		}
		return r, calc.Refuse("moisture-ratio", e.MoistureRatio, "below %v, where the fibre is full", paperprop.MoistureRatio(full))
	}
	if e.RelativeHumidity == 0 {
		x, _ := e.Model.exponent(u, e.Temperature)
		r.RelativeHumidity = paperprop.Fraction(-math.Expm1(-x))
	}
	if e.MoistureRatio == 0 {
		r.MoistureRatio = paperprop.MoistureRatio(u)
	}
	if e.Moisture == 0 {
		r.Moisture = paperprop.Moisture(u / (1 + u))
	}
	r.SorptionHeat = paperprop.SpecificEnergy(e.Model.heat(u, e.Temperature)) * paperprop.KilojoulePerKilogram
	return r, nil
}

const sorptionSource = "heikkila: P. Heikkila, thesis on the drying of coated webs, 1993, coefficients from memory; " +
	"tryding: Tryding et al., Drying Technology 2022, doi 10.1080/07373937.2022.2084104, form and parameters (bleached fibre) seen in the authors' public code"

func sorptionModel(f *calc.Form, m *SorptionModel) {
	calc.InWord(f, m, "model", "heikkila (coefficients from memory) or tryding (full range, bleached fibre, published 2022)", ModelHeikkila, ModelTryding)
}

var equilibriumMoisture = &calc.Description[EquilibriumMoisture, EquilibriumMoistureResult]{
	Name:    "equilibrium-moisture",
	Title:   "Equilibrium moisture of paper",
	Answers: "How moist fibre is in balance with humid air, and how firmly it holds that water.",
	Formula: []string{"u = w/(1 - w)", "w = u/(1 + u)"},
	Method: "phi = 1 - exp(-x). heikkila: x = 47.58*pow(u, 1.877) + 0.10085*t*pow(u, 1.0585), t in degC; " +
		"tryding (Henderson I, version 2): x = pow(u/(xi*kappa*(1 - u/u_F)), 1/c), xi = pow(1 - c, 1 - c)*exp(c - 1)/c, " +
		"kappa = 0.0841*exp(pow(402/T, n + 1)/(n + 1)), u_F = 0.818*(1 + (296.15 - T)/310), c = 0.661, n = 3.64, T in K; " +
		"heat of sorption R_v*T*T*d(ln phi)/dT at constant u, R_v = 0.4615 kJ/(kg K)",
	Source:  sorptionSource,
	Status:  calc.Memory,
	Example: "temperature=23 degC; relative-humidity=50 %; model=tryding",
	Mistakes: []string{
		"The models differ: at u = 0.1 and 25 degC 57 % and 269 kJ/kg by heikkila, 49 % and 605 kJ/kg by tryding.",
		"Paper that dries to a climate keeps more water than paper that takes it up (hysteresis, 1 to 2 points from memory): no model here knows that.",
		"Filler takes up next to no water: the moisture is that of the fibre alone.",
	},
	Compare: []calc.Comparison{{
		Inputs: "temperature=23 degC; relative-humidity=50 %; model=heikkila",
		Why:    "by the other model",
	}},
	Compute: EquilibriumMoisture.compute,
	Fields: func(f *calc.Form, in *EquilibriumMoisture, out *EquilibriumMoistureResult) {
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of air and fibre").From(0).UpTo(200)
		f.Exactly(1,
			calc.In(f, &in.RelativeHumidity, "relative-humidity", "phi", "%", "of the air").Above(0).Below(100),
			calc.In(f, &in.MoistureRatio, "moisture-ratio", "u", "kg/kg", "water over dry mass").Above(0),
			calc.In(f, &in.Moisture, "moisture", "w", "%", "wet basis").Above(0).Below(100),
		)
		sorptionModel(f, &in.Model)
		calc.Out(f, &out.RelativeHumidity, "relative-humidity", "phi", "%", "of the air in balance")
		calc.Out(f, &out.MoistureRatio, "moisture-ratio", "u", "kg/kg", "water over dry mass")
		calc.Out(f, &out.Moisture, "moisture", "w", "%", "wet basis")
		calc.Out(f, &out.SorptionHeat, "sorption-heat", "h_s", "kJ/kg", "beyond the latent heat, per water")
	},
}

// DesorptionHeat is the heat needed to dry a web beyond the latent heat.
type DesorptionHeat struct {
	DrynessIn   paperprop.DryContent  // web into the dryers: above zero, below that of the paper
	MoistureOut paperprop.Moisture    // paper at the reel, above zero, below 100 %
	Temperature paperprop.Temperature // of the web, 0 to 200 °C
	Model       SorptionModel
}

// DesorptionHeatResult is that heat.
type DesorptionHeatResult struct {
	SorptionHeatPerDry paperprop.SpecificEnergy
}

// Calculate integrates the heat of sorption over the moisture ratio.
func (d DesorptionHeat) Calculate() (DesorptionHeatResult, error) { return desorptionHeat.Calculate(d) }

func (d DesorptionHeat) compute() (DesorptionHeatResult, error) {
	in, out, err := dries(d.DrynessIn, d.MoistureOut)
	if err != nil {
		return DesorptionHeatResult{}, err
	}
	dry := float64(d.MoistureOut) / out
	wet := min((1-in)/in, d.Model.fullAt(d.Temperature), max(freeFrom, 2*dry))
	if dry >= wet {
		return DesorptionHeatResult{}, nil // the paper at the reel still holds free water
	}
	heat := overLogarithm(dry, wet, func(u float64) float64 { return d.Model.heat(u, d.Temperature) })
	return DesorptionHeatResult{paperprop.SpecificEnergy(heat) * paperprop.KilojoulePerKilogram}, nil
}

// overLogarithm integrates f from a to b, both above zero, by five-point Gauss
// quadrature on equal pieces of the logarithm: the binding of the last water
// changes with each decade of u. Pieces longer than a quarter would lose digits.
func overLogarithm(a, b float64, f func(u float64) float64) float64 {
	length := math.Log(b) - math.Log(a)
	pieces := max(48, math.Ceil(4*length))
	half := length / (2 * pieces)
	var s float64
	for i := range int(pieces) {
		middle := math.Log(a) + float64(2*i+1)*half
		for _, p := range [...]struct{ at, weight float64 }{
			{-0.9061798459386640, 0.2369268850561891}, {-0.5384693101056831, 0.4786286704993665}, {0, 0.5688888888888889},
			{0.5384693101056831, 0.4786286704993665}, {0.9061798459386640, 0.2369268850561891},
		} {
			u := math.Exp(middle + half*p.at)
			s += p.weight * u * f(u)
		}
	}
	return s * half
}

var desorptionHeat = &calc.Description[DesorptionHeat, DesorptionHeatResult]{
	Name:    "desorption-heat",
	Title:   "Heat of desorption of a web",
	Answers: "How much heat beyond the latent heat frees the water that the fibre holds, per dry mass.",
	Method: "integral of the heat of sorption of equilibrium-moisture over the moisture ratio, from that of the paper to that of the web or, if this is less, of saturated fibre, " +
		"by Gauss's rule with 5 points on 48 equal pieces of ln u, or more of a quarter each",
	Source:  sorptionSource,
	Status:  calc.Memory,
	Example: "dryness-in=47.5 %; moisture-out=7.5 %; temperature=90 degC; model=heikkila",
	Mistakes: []string{
		"It is 0.5 to 1.5 % of the latent heat of the whole web, though the last water is held with hundreds of kJ/kg.",
		"Bone dry is outside every model: the last traces are held ever more firmly.",
	},
	Compare: []calc.Comparison{{
		Inputs: "dryness-in=47.5 %; moisture-out=7.5 %; temperature=90 degC; model=tryding",
		Why:    "by the other model",
	}},
	Compute: DesorptionHeat.compute,
	Fields: func(f *calc.Form, in *DesorptionHeat, out *DesorptionHeatResult) {
		calc.In(f, &in.DrynessIn, "dryness-in", "d_in", "%", "web into the dryers").Above(0).Below(100)
		calc.In(f, &in.MoistureOut, "moisture-out", "w_out", "%", "paper at the reel, wet basis").Above(0).Below(100)
		calc.In(f, &in.Temperature, "temperature", "T", "degC", "of the web").From(0).UpTo(200)
		sorptionModel(f, &in.Model)
		calc.Out(f, &out.SorptionHeatPerDry, "sorption-heat-per-dry", "h_3", "kJ/kg", "beyond the latent heat, per dry mass")
	},
}
