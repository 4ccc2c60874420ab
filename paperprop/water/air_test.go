package water

import (
	"errors"
	"math"
	"testing"

	"millmaths.example/paperprop"
)

const (
	atmosphere = 1.01325 * paperprop.BarAbsolute
	table3     = "ASHRAE Handbook Fundamentals 2017 ch. 1 Table 3, quoted in the SI test file of the psychrolib library"
)

func TestSaturatedVapour(t *testing.T) {
	for _, test := range []struct {
		celsius, pascal, tolerance float64
		kind, source               string
	}{
		{5, 872.6, 3e-4, "published", table3},
		{82, 20740.0479047 / 0.403625590023, 1e-9, "library", "npm psychrolib 1.1.1"},
	} {
		if got := 1000 * saturated(test.celsius); !(math.Abs(got-test.pascal) <= test.tolerance*test.pascal) {
			t.Errorf("vapour pressure at %v °C is %v Pa, want %v (%s: %s)", test.celsius, got, test.pascal, test.kind, test.source)
		}
	}
	for c := paperprop.Temperature(1); c <= 200; c++ {
		p, _ := SaturationPressure(c)
		if got := SaturatedVapour(c); !(math.Abs(float64(got/p)-1) <= 2.7e-4) {
			t.Errorf("vapour pressure at %v is %v, by IAPWS-IF97 %v: more than 0.027 %% apart", c, got, p)
		}
	}
}

// Kind: common-practice. From dry air to saturated in steps of 1 %, and to a
// dew point one hundredth of a degree below boiling: all five ways in give the
// state, both inverses go back, and everything rises from step to step.
func TestAirWalk(t *testing.T) {
	for _, p := range []paperprop.AbsolutePressure{0.05, 0.7, atmosphere, 20} {
		for _, c := range []paperprop.Temperature{0, 0.5, 20, 60, 82, 99.9, 100.5, 120, 200} {
			most := min(float64(SaturatedVapour(c)), float64(SaturatedVapour(max(0, boilingAir(p)-0.01))))
			if boilingAir(p) == HottestAir {
				most = float64(SaturatedVapour(c))
			}
			var last Air
			var dews, wets rise
			for percent := range 101 {
				vapour := paperprop.AbsolutePressure(most * float64(percent) / 100)
				a, err := AirWithVapour(c, vapour, p)
				if err != nil {
					t.Fatalf("%v of vapour at %v, %v: %v", vapour, c, p, err)
				}
				sameAir(t, "humidity ratio", a, func() (Air, error) { return AirWithRatio(c, a.HumidityRatio, p) })
				if phi := a.RelativeHumidity(); phi <= 1 {
					sameAir(t, "relative humidity", a, func() (Air, error) { return AirWithRelative(c, phi, p) })
				}
				if percent > 0 && !(a.HumidityRatio > last.HumidityRatio && a.Enthalpy() > last.Enthalpy() && a.SpecificVolume() > last.SpecificVolume() && a.Density() < last.Density()) {
					t.Errorf("%+v after %+v", a, last)
				}
				dew, ok := a.DewPoint()
				if ok != (vapour >= SaturatedVapour(0)) {
					t.Errorf("%+v has a dew point: %v", a, ok)
				}
				if ok {
					sameAir(t, "dew point", a, func() (Air, error) { return AirAtDewPoint(c, dew, p) })
					if dew > c || !dews.to(dew) {
						t.Errorf("%+v: dew point %v after %+v", a, dew, dews)
					}
				}
				wet, ok := a.WetBulb()
				if ok {
					sameAir(t, "wet bulb", a, func() (Air, error) { return AirAtWetBulb(c, wet, p) })
					if wet < dew || wet > c || !wets.to(wet) {
						t.Errorf("%+v: wet bulb %v after %+v, dew point %v", a, wet, wets, dew)
					}
				} else if wets.begun {
					t.Errorf("%+v: no wet bulb after %+v", a, wets)
				}
				last = a
			}
		}
	}
}

// A rise goes up by steps of which none is longer than the one before: it has no
// gap and no jump.
type rise struct {
	last, step paperprop.Temperature
	begun      bool
}

func (r *rise) to(x paperprop.Temperature) bool {
	step := x - r.last
	ok := !r.begun || step >= 0 && (r.step == 0 || step <= r.step+1e-9)
	if r.begun {
		r.step = step
	}
	r.last, r.begun = x, true
	return ok
}

// sameAir makes a state another way. Near boiling a dew point holds the dry air
// to fewer digits, since little is left of it.
func sameAir(t *testing.T, by string, want Air, remake func() (Air, error)) {
	t.Helper()
	got, err := remake()
	if err != nil {
		t.Errorf("%+v by %s: %v", want, by, err)
		return
	}
	digits := 1e-12 * float64(want.Pressure/(want.Pressure-want.VapourPressure))
	if !(math.Abs(float64(got.HumidityRatio-want.HumidityRatio)) <= 10*digits*math.Max(float64(want.HumidityRatio), 1e-3)) {
		t.Errorf("%+v by %s is %+v", want, by, got)
	}
}

// Kind: common-practice. Pure steam, more than saturated, below freezing, and
// what is no number.
func TestAirRefuses(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		name string
		call func() (Air, error)
		want string
	}{
		{"above saturation", func() (Air, error) { return AirWithRatio(30, 0.05, atmosphere) }, "humidity-ratio is 0.05 kg/kg, want 0 kg/kg to 0.0272"},
		{"steam by humidity", func() (Air, error) { return AirWithRelative(110, 1, atmosphere) }, "relative-humidity is 100 %, want at least 0 % and below 70.6671 %"},
		{"half a per cent above full", func() (Air, error) { return AirWithRelative(30, 1.005, atmosphere) }, "relative-humidity is 1.005, want 0 to 1"},
		{"steam by dew point", func() (Air, error) { return AirAtDewPoint(110, 100, atmosphere) }, "dew-point is 100 degC, want at least 0 degC and below 99.9741 degC"},
		{"steam by vapour", func() (Air, error) { return AirWithVapour(110, 1.02, atmosphere) }, "vapour-pressure is 1.02 bar(a), want at least 0 bar(a) and below 1.01325 bar(a)"},
		{"wet above dry", func() (Air, error) { return AirAtWetBulb(60, 65, atmosphere) }, "wet-bulb is 65 degC, want 0 degC to 60 degC"},
		{"drier than dry", func() (Air, error) { return AirAtWetBulb(60, 10, atmosphere) }, "wet-bulb is 10 degC, want 21.2491 degC to 60 degC"},
		{"dew above dry", func() (Air, error) { return AirAtDewPoint(60, 72, atmosphere) }, "dew-point is 72 degC, want 0 degC to 60 degC"},
		{"frost", func() (Air, error) { return AirAtDewPoint(60, -1, atmosphere) }, "dew-point is -1 degC, want 0 degC to 60 degC"},
		{"hot", func() (Air, error) { return AirWithRatio(201, 0, atmosphere) }, "temperature is 201 degC, want 0 degC to 200 degC"},
		{"vacuum", func() (Air, error) { return AirWithRatio(20, 0, 0) }, "atmospheric-pressure is 0 bar(a), want above 0 bar(a)"},
		{"no number", func() (Air, error) { return AirWithRatio(20, paperprop.HumidityRatio(nan), atmosphere) }, ""},
		{"no humidity", func() (Air, error) { return AirWithRelative(20, paperprop.Fraction(nan), atmosphere) }, ""},
		{"no dew point", func() (Air, error) { return AirAtDewPoint(20, paperprop.Temperature(nan), atmosphere) }, ""},
	} {
		a, err := test.call()
		var bound *paperprop.RangeError
		if a != (Air{}) || !errors.As(err, &bound) || len(err.Error()) < len(test.want) || err.Error()[:len(test.want)] != test.want {
			t.Errorf("%s: %+v, %v, want %s", test.name, a, err, test.want)
		}
	}
}

// TestAirAsPrinted takes the properties of one state, and what follows from them by
// definition.
func TestAirAsPrinted(t *testing.T) {
	const spreadsheet = "SI test file of the psychrolib library, value of a spreadsheet named there"
	a, err := AirWithRatio(30, 0.02, 95.461*paperprop.KilopascalAbsolute)
	if err != nil {
		t.Fatal(err)
	}
	dew, err := RatioAtDewPoint(60, atmosphere)
	if err != nil {
		t.Fatal(err)
	}
	warmer := a
	warmer.Temperature++
	for _, test := range []struct {
		name                 string
		got, want, tolerance float64
		kind, source         string
	}{
		{"enthalpy", a.Enthalpy().In(paperprop.KilojoulePerKilogram), 81.316, 1e-6, "published", spreadsheet},
		{"volume", a.SpecificVolume().In(paperprop.CubicMetrePerKilogram), 0.940855374353, 3e-6, "published", spreadsheet},
		{"density", a.Density().In(paperprop.KilogramPerCubicMetre), 1.08411986348, 3e-6, "published", spreadsheet},
		{"ratio at a dew point of 60 °C", float64(dew), 0.152417464941, 1e-9, "library", "npm psychrolib 1.1.1"},
		{"water in moist air", float64(a.SpecificHumidity()), 0.02 / 1.02, 1e-15, "common-practice", "definition"},
		{"heat of a degree", MoistHeatCapacity(0.02).In(paperprop.KilojoulePerKilogramKelvin), float64(warmer.Enthalpy() - a.Enthalpy()), 1e-12, "common-practice", "difference of enthalpies"},
	} {
		if !(math.Abs(test.got-test.want) <= test.tolerance*test.want) {
			t.Errorf("%s is %v, want %v (%s: %s)", test.name, test.got, test.want, test.kind, test.source)
		}
	}
	for _, p := range []paperprop.AbsolutePressure{0, -1, paperprop.AbsolutePressure(math.NaN()), paperprop.AbsolutePressure(math.Inf(1))} {
		var ranged *paperprop.RangeError
		if x, err := RatioAtDewPoint(20, p); !errors.As(err, &ranged) || ranged.Input != "atmospheric-pressure" {
			t.Errorf("RatioAtDewPoint at %v is %v, %v, want the pressure refused", p, x, err)
		}
	}
	if _, err := RatioAtDewPoint(100, atmosphere); !errors.Is(err, paperprop.ErrRange) {
		t.Errorf("a dew point at which water boils: %v, want ErrRange", err)
	}
}

// TestAirAtItsEnds has the law that where the pressure is that of saturation there is
// no air at saturation: it is refused, or what little is left is a number.
func TestAirAtItsEnds(t *testing.T) {
	for c := paperprop.Temperature(0); c <= 200; c++ {
		p := SaturatedVapour(c)
		for name, make := range map[string]func() (Air, error){
			"relative humidity": func() (Air, error) { return AirWithRelative(c, 1, p) },
			"vapour":            func() (Air, error) { return AirWithVapour(c, p, p) },
			"dew point":         func() (Air, error) { return AirAtDewPoint(c, c, p) },
			"wet bulb":          func() (Air, error) { return AirAtWetBulb(c, c, p) },
		} {
			if a, err := make(); err == nil && math.IsInf(float64(a.HumidityRatio), 0) || err != nil && !errors.Is(err, paperprop.ErrRange) {
				t.Errorf("saturated by %s at %v: %+v, %v", name, c, a, err)
			}
		}
		var bound *paperprop.RangeError
		if _, err := AirWithVapour(c, 2*p, p); !errors.As(err, &bound) || !bound.BelowMax || bound.Max != float64(p) {
			t.Errorf("twice the vapour at %v: %v, want below %v", c, err, p)
		}
	}
	var bound *paperprop.RangeError
	if _, err := RatioAtDewPoint(HottestAir, SaturatedVapour(HottestAir)); !errors.As(err, &bound) || !bound.BelowMax || bound.Max != float64(HottestAir) {
		t.Errorf("a dew point of 200 °C at its pressure: %v, want below 200 °C", err)
	}
	// A vapour pressure that was worked out may lie a last digit above saturation.
	full := SaturatedVapour(30)
	if a, err := AirWithVapour(30, full*(1+5e-13), atmosphere); err != nil || a.RelativeHumidity() != 1 {
		t.Errorf("a last digit above saturation: %v, %v, want 1", a.RelativeHumidity(), err)
	}
	if phi := (Air{30, atmosphere, 0.03, 1.01 * full}).RelativeHumidity(); !(math.Abs(float64(phi)-1.01) <= 1e-12) {
		t.Errorf("1 %% above saturation is %v", phi)
	}
	driest, _ := Air{60, atmosphere, 0, 0}.WetBulb()
	if a, err := AirAtWetBulb(60, driest-1e-8, atmosphere); !errors.Is(err, paperprop.ErrRange) {
		t.Errorf("drier than dry by more than a last digit: %+v, %v", a, err)
	}
}

func BenchmarkAir(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		a, err := AirAtDewPoint(82, 60, atmosphere)
		if err != nil {
			b.Fatal(err)
		}
		a.WetBulb()
	}
}

// Kind: common-practice. A dew point and a wet bulb of 0 °C come back at any pressure
// and dry bulb, and what lies below is absent.
func TestAirAtFreezing(t *testing.T) {
	for i := 0; i <= 400; i++ {
		p := paperprop.AbsolutePressure(0.3+0.002*float64(i)) * paperprop.BarAbsolute
		for dry := paperprop.Celsius(0); dry <= 9; dry += 0.75 {
			wetted, err := AirAtWetBulb(dry, 0, p)
			if err == nil {
				if wet, ok := wetted.WetBulb(); !ok || !(wet <= 1e-9) {
					t.Fatalf("air of %v, wet bulb 0 degC, at %v has a wet bulb of %v, %v", dry, p, wet, ok)
				}
			}
			dewed, err := AirAtDewPoint(dry, 0, p)
			if err != nil {
				t.Fatal(err)
			}
			if dew, ok := dewed.DewPoint(); !ok || !(dew <= 1e-9) {
				t.Fatalf("air of %v, dew point 0 degC, at %v has a dew point of %v, %v", dry, p, dew, ok)
			}
			if wet, ok := dewed.WetBulb(); dry == 0 && (!ok || !(wet <= 1e-9)) {
				t.Fatalf("air of 0 degC, full at %v, has a wet bulb of %v, %v", p, wet, ok)
			}
			if full, err := AirAtWetBulb(0, 0, p); err != nil {
				t.Fatal(err)
			} else if dew, ok := full.DewPoint(); !ok || !(dew <= 1e-9) {
				t.Fatalf("air of 0 degC, wet bulb 0 degC, at %v has a dew point of %v, %v", p, dew, ok)
			}
			drier, err := AirWithVapour(dry, dewed.VapourPressure*(1-1e-9), p)
			if err != nil {
				t.Fatal(err)
			}
			if dew, ok := drier.DewPoint(); ok {
				t.Fatalf("air of %v a little below a dew point of 0 degC, at %v has one of %v", dry, p, dew)
			}
		}
	}
}
