package drying

import (
	"math"
	"testing"

	"millmaths.example/paperprop"
)

var models = []SorptionModel{ModelHeikkila, ModelTryding}

// Kind: common-practice. The isotherm is followed to the same point both ways,
// rises all the way, and its heat is what Clausius and Clapeyron make of it.
func TestIsotherms(t *testing.T) {
	for _, model := range models {
		for _, c := range []paperprop.Temperature{0, 0.5, 23, 60, 95, 150, 200} {
			last := 0.0
			for percent := 1; percent < 100; percent++ {
				phi := float64(percent) / 100
				r, err := EquilibriumMoisture{Temperature: c, RelativeHumidity: paperprop.Fraction(phi), Model: model}.Calculate()
				if err != nil {
					t.Fatal(err)
				}
				u := float64(r.MoistureRatio)
				back, err := EquilibriumMoisture{Temperature: c, MoistureRatio: r.MoistureRatio, Model: model}.Calculate()
				if err != nil || !(math.Abs(float64(back.RelativeHumidity)-phi) <= 1e-12) {
					t.Errorf("%s at %v: %d %% gives %v, which gives back %v, %v", model, c, percent, u, back.RelativeHumidity, err)
				}
				if u <= last {
					t.Errorf("%s at %v: %v at %d %% after %v", model, c, u, percent, last)
				}
				last = u
				if c == 0 || c == 200 {
					continue // the slope below needs both sides
				}
				logPhi := func(by float64) float64 {
					x, _ := model.exponent(u, c+paperprop.Temperature(by))
					return math.Log(-math.Expm1(-x))
				}
				const h = 1e-3
				slope := (8*(logPhi(h)-logPhi(-h)) - (logPhi(2*h) - logPhi(-2*h))) / (12 * h)
				want := vapourConstant * c.Kelvin() * c.Kelvin() * slope
				if got := float64(r.SorptionHeat); !(math.Abs(got-want) <= 1e-6*math.Max(math.Abs(want), 1)) {
					t.Errorf("%s at %v, %d %%: heat %v, by the isotherm %v", model, c, percent, got, want)
				}
			}
		}
	}
}

// Kind: common-practice, form published by Tryding et al. 2022: the heat as they
// print it.
func TestHeatAsPrinted(t *testing.T) {
	for _, c := range []paperprop.Temperature{5, 25, 60, 90, 140} {
		for u := 0.01; u < 0.5; u += 0.01 {
			k, w := c.Kelvin(), u/0.818
			x, _ := ModelTryding.exponent(u, c)
			a, big := -math.Expm1(-x), 1+(296.15-k)/310
			if 1-a < 1e-9 {
				continue
			}
			h := -(1 - a) / a * math.Log(1-a)
			eta := 1 + w*math.Pow(k/402, 5.64)*(402.0/310)/(big*(big-w))
			want := 0.4615 * 402 * math.Pow(402/k, 3.64) / 0.661 * h * eta
			if got := ModelTryding.heat(u, c); !(math.Abs(got-want) <= 1e-7*want) {
				t.Errorf("at %v, %v kg/kg: %v kJ/kg, as printed %v", c, u, got, want)
			}
		}
	}
}

// Free water holds no heat of sorption: however thin the stock, it is that of a web at
// 30 %, to the last digits.
func TestDesorptionHeatOfThinStock(t *testing.T) {
	for _, model := range models {
		of := func(in paperprop.DryContent) float64 {
			r, err := DesorptionHeat{in, 0.075, 90, model}.Calculate()
			if err != nil {
				t.Fatal(err)
			}
			return float64(r.SorptionHeatPerDry)
		}
		want := of(0.3)
		for _, in := range []paperprop.DryContent{0.1, 1e-3, 1e-7, 1e-12, 1e-20, 1e-36, 1e-300} {
			if got := of(in); got != want {
				t.Errorf("%s, %v: %v, want %v", model, in, got, want)
			}
		}
	}
}

// Kind: library (mpmath 1.3.0). Nearly bone dry, the integral keeps its digits over all
// the decades of moisture.
func TestDesorptionHeatOfTheLastWater(t *testing.T) {
	for _, test := range []struct {
		model SorptionModel
		out   paperprop.Moisture
		want  float64
	}{
		{ModelHeikkila, 1e-14, 48.214291375114048},
		{ModelHeikkila, 1e-102, 48.214291375121242},
		{ModelHeikkila, 1e-300, 48.214291375121242}, // what is left below 1e-102 is nothing
		{ModelTryding, 1e-8, 46.763339492646081},
		{ModelTryding, 1e-14, 46.763343990518972},
		{ModelTryding, 1e-102, 46.76334399052347},
	} {
		r, err := DesorptionHeat{0.45, test.out, 80, test.model}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(r.SorptionHeatPerDry); !(math.Abs(got-test.want) <= 1e-9*test.want) {
			t.Errorf("%s to %v: %v kJ/kg, want %v", test.model, test.out, got, test.want)
		}
	}
}

// Kind: common-practice. The integral agrees with Simpson's rule on many fine
// steps, and of two parts one after the other it is the sum.
func TestDesorptionHeat(t *testing.T) {
	heat := func(model SorptionModel, in paperprop.DryContent, out paperprop.Moisture, c paperprop.Temperature) float64 {
		r, err := DesorptionHeat{in, out, c, model}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		return float64(r.SorptionHeatPerDry)
	}
	for _, model := range models {
		for _, c := range []paperprop.Temperature{0, 20, 90, 200} {
			for _, out := range []paperprop.Moisture{0.0001, 0.02, 0.075, 0.2} {
				got := heat(model, 0.4, out, c)
				want := simpson(math.Log(float64(out/(1-out))), math.Log(min(1.5, model.fullAt(c))*(1-1e-12)), func(lnU float64) float64 {
					return math.Exp(lnU) * model.heat(math.Exp(lnU), c)
				})
				if !(math.Abs(got-want) <= 1e-8*want) {
					t.Errorf("%s at %v to %v: %v kJ/kg, by Simpson %v", model, c, out, got, want)
				}
				parts := heat(model, 0.4, 0.25, c) + heat(model, 0.75, out, c)
				if !(math.Abs(got-parts) <= 1e-8*want) {
					t.Errorf("%s at %v to %v: %v kJ/kg, in two parts %v", model, c, out, got, parts)
				}
			}
		}
	}
	if got := heat(ModelTryding, 0.3, 0.6, 90); got != 0 {
		t.Errorf("drying to 60 %% frees free water alone, but takes %v kJ/kg", got)
	}
}

func simpson(a, b float64, f func(float64) float64) float64 {
	const n = 20000
	h := (b - a) / n
	s := f(a) + f(b)
	for i := 1; i < n; i++ {
		s += float64(2+2*(i%2)) * f(a+float64(i)*h)
	}
	return s * h / 3
}

// Kind: common-practice. Where the humidity rounds to 100 % the heat is zero.
func TestSaturatedFibre(t *testing.T) {
	r, err := EquilibriumMoisture{Temperature: 60, MoistureRatio: 20, Model: ModelHeikkila}.Calculate()
	if err != nil || r.RelativeHumidity != 1 || r.SorptionHeat != 0 {
		t.Errorf("20 kg/kg: %+v, %v, want 100 %% and no heat", r, err)
	}
}
