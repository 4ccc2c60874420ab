package drying

import (
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/water"
)

// Kind: common-practice. At the pressure at which it boils, water is still water and
// its steam already steam: between them lies the latent heat.
func TestWaterMeetsItsVapour(t *testing.T) {
	for c := paperprop.Temperature(0); c <= 350; c += 2.5 {
		s, err := water.SaturatedAt(c)
		if err != nil {
			t.Fatal(err)
		}
		liquid, err := Water{c, s.Pressure}.Calculate()
		if err != nil {
			t.Errorf("water that boils at %v: %v", c, err)
		}
		vapour, err := WaterVapour{c, s.Pressure}.Calculate()
		if err != nil || vapour.Enthalpy-liquid.Enthalpy != s.LatentHeat() {
			t.Errorf("steam at %v, where water boils: %v above water, %v, want %v", c, vapour.Enthalpy-liquid.Enthalpy, err, s.LatentHeat())
		}
	}
}

// Superheated steam begins with the saturated one, and ends at 800 °C, however it is
// given. The ends of gauge pressures are those of absolute ones, under any atmosphere.
func TestSteamAtItsEnds(t *testing.T) {
	for p := paperprop.AbsolutePressure(0.5); p < 20; p += 0.25 {
		s, err := water.SaturatedUnder(p)
		if err != nil {
			t.Fatal(err)
		}
		r, err := SuperheatedSteam{Pressure: p, Temperature: &s.Temperature}.Calculate()
		if err != nil || r.Superheat != 0 || r.Enthalpy != s.SteamEnthalpy {
			t.Errorf("%v at %v: %+v, %v, want saturated steam", p, s.Temperature, r, err)
		}
		all := water.HottestVapour.Minus(s.Temperature)
		r, err = SuperheatedSteam{Pressure: p, Superheat: &all}.Calculate()
		if err != nil || r.Temperature != water.HottestVapour {
			t.Errorf("%v superheated by %v: %v, %v, want %v", p, all, r.Temperature, err, water.HottestVapour)
		}
	}
	for atmosphere := paperprop.AbsolutePressure(0.7); atmosphere < 1.1; atmosphere += 0.01 {
		for _, p := range []paperprop.AbsolutePressure{water.LowestSaturated, water.HighestSaturated} {
			gauge := p.Gauge(atmosphere)
			if r, err := (Steam{GaugePressure: &gauge, AtmosphericPressure: atmosphere}).Calculate(); err != nil || r.Pressure != p {
				t.Errorf("%v against %v: %v, %v, want %v", gauge, atmosphere, r.Pressure, err, p)
			}
			gauge += paperprop.GaugePressure(p-1) * 1e-12 // further out: one end is below 1 bar, one above
			if _, err := (Steam{GaugePressure: &gauge, AtmosphericPressure: atmosphere}).Calculate(); err == nil {
				t.Errorf("%v against %v is not refused", gauge, atmosphere)
			}
		}
	}
}
