package water

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

const (
	table5  = "IAPWS R7-97(2012) Table 5, as carried in the tests of a public steam-table port"
	table15 = "IAPWS R7-97(2012) Table 15, as carried in the tests of a public steam-table port"
	table36 = "IAPWS R7-97(2012) Table 36, as carried in the tests of a public steam-table port"
	table35 = "IAPWS R7-97(2012) Table 35, as carried in the tests of two public steam-table ports"
	iapws   = "python3-iapws 1.5.3-1 (iapws 1.5.2)"
)

// ninth returns half a unit of the ninth digit of x, which the verification
// tables print.
func ninth(x float64) float64 { return math.Pow(10, math.Floor(math.Log10(x))-8) / 2 }

// is compares nine digits, as the tables print them.
func is(t *testing.T, what string, got, want float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= ninth(want)) {
		t.Errorf("%s is %.10g, want %.9g (published: %s)", what, got, want, source)
	}
}

// The verification tables of the release, to every digit printed.
func TestVerificationTables(t *testing.T) {
	for _, test := range []struct {
		region             func(k, megapascal float64) Properties
		kelvin, megapascal float64
		volume             float64 // m³/kg
		enthalpy, heat     float64 // kJ/kg, kJ/(kg K)
		source             string
	}{
		{region1, 300, 3, 0.100215168e-2, 0.115331273e3, 0.417301218e1, table5},
		{region1, 300, 80, 0.971180894e-3, 0.184142828e3, 0.401008987e1, table5},
		{region1, 500, 3, 0.120241800e-2, 0.975542239e3, 0.465580682e1, table5},
		{region2, 300, 0.0035, 0.394913866e2, 0.254991145e4, 0.191300162e1, table15},
		{region2, 700, 0.0035, 0.923015898e2, 0.333568375e4, 0.208141274e1, table15},
		{region2, 700, 30, 0.542946619e-2, 0.263149474e4, 0.103505092e2, table15},
	} {
		p := test.region(test.kelvin, test.megapascal)
		at := fmt.Sprintf(" at %v K, %v MPa", test.kelvin, test.megapascal)
		is(t, "volume"+at, p.SpecificVolume.In(paperprop.CubicMetrePerKilogram), test.volume, test.source)
		is(t, "enthalpy"+at, p.Enthalpy.In(paperprop.KilojoulePerKilogram), test.enthalpy, test.source)
		is(t, "heat capacity"+at, p.HeatCapacity.In(paperprop.KilojoulePerKilogramKelvin), test.heat, test.source)
	}
	for _, test := range []struct{ megapascal, kelvin float64 }{
		{0.1, 0.372755919e3}, {1, 0.453035632e3}, {10, 0.584149488e3},
	} {
		is(t, fmt.Sprintf("boiling at %v MPa", test.megapascal), boiling4(test.megapascal), test.kelvin, table36)
	}
}

func TestSaturation(t *testing.T) {
	for _, test := range []struct {
		kelvin, want, tolerance float64
		kind, source            string
	}{
		{300, 0.353658941e-2, ninth(0.353658941e-2), "published", table35},
		{500, 0.263889776e1, ninth(0.263889776e1), "published", table35},
		{600, 0.123443146e2, ninth(0.123443146e2), "published", table35},
		{273.15, 0.611212677444e-3, 1e-15, "library", iapws},
	} {
		if got := saturation4(test.kelvin); !(math.Abs(got-test.want) <= test.tolerance) {
			t.Errorf("saturation at %v K is %.9g MPa, want %.9g (%s: %s)", test.kelvin, got, test.want, test.kind, test.source)
		}
	}
}

func TestDensity(t *testing.T) {
	for _, test := range []struct {
		temperature  paperprop.Temperature
		pressure     paperprop.AbsolutePressure
		want         paperprop.Density
		tolerance    float64
		kind, source string
	}{
		{paperprop.Celsius(20), 1.01325 * paperprop.BarAbsolute, 998.206092468, 5e-10, "library", iapws},                                  // WT-016
		{paperprop.Fahrenheit(130), 1.01325 * paperprop.BarAbsolute, 61.5524027268 * paperprop.PoundPerCubicFoot, 2e-9, "library", iapws}, // WT-017
		{paperprop.Kelvin(300), 3 * paperprop.MegapascalAbsolute, 1 / 0.100215168e-2, 5e-6, "published", table5},
	} {
		got, err := Density(test.temperature, test.pressure)
		if err != nil || !(math.Abs(float64(got-test.want)) <= test.tolerance) {
			t.Errorf("Density(%v, %v) = %.12g, %v, want %.12g (%s: %s)", test.temperature, test.pressure, float64(got), err, float64(test.want), test.kind, test.source)
		}
	}
}

func TestDensityEnds(t *testing.T) {
	boiling := paperprop.AbsolutePressure(saturation4(623.15)) * paperprop.MegapascalAbsolute
	for _, test := range []struct {
		temperature paperprop.Temperature
		pressure    paperprop.AbsolutePressure
	}{
		{0, 1.01325}, {0, 1000}, {350, 1000}, {350, boiling}, {paperprop.Kelvin(273.15), 1}, {paperprop.Kelvin(623.15), 200},
	} {
		got, err := Density(test.temperature, test.pressure)
		if err != nil || !(got > 500 && got < 1100) {
			t.Errorf("Density(%v, %v) = %v, %v, want that of a liquid", test.temperature, test.pressure, got, err)
		}
	}
}

// Kind: common-practice. What can't be liquid water, or is beyond region 1.
func TestDensityRefuses(t *testing.T) {
	for _, test := range []struct {
		temperature paperprop.Temperature
		pressure    paperprop.AbsolutePressure
		want        string
	}{
		{120, 1.01325, "water at 120 degC: pressure is 1.01325 bar(a), want 1.98665 bar(a) to 1000 bar(a)"}, // WT-018
		{-2, 1.01325, "temperature is -2 degC, want 0 degC to 350 degC"},                                    // WT-019
		{350.01, 500, "temperature is 350.01 degC, want 0 degC to 350 degC"},
		{20, 1000.5, "water at 20 degC: pressure is 1000.5 bar(a), want 0.0233921 bar(a) to 1000 bar(a)"},
		{paperprop.Temperature(math.NaN()), 1, ""},
		{20, paperprop.AbsolutePressure(math.NaN()), ""},
		{20, paperprop.AbsolutePressure(math.Inf(1)), ""},
	} {
		got, err := Density(test.temperature, test.pressure)
		var bound *paperprop.RangeError
		if got != 0 || !errors.As(err, &bound) || !errors.Is(err, paperprop.ErrRange) || test.want != "" && err.Error() != test.want {
			t.Errorf("Density(%v, %v) = %v, %v, want %s", test.temperature, test.pressure, got, err, test.want)
		}
	}
}

// Kind: common-practice. What is outside, in each function, with its bound.
func TestRefuses(t *testing.T) {
	nan := paperprop.Temperature(math.NaN())
	for _, test := range []struct {
		name string
		call func() error
		want string
	}{
		{"SaturatedAt(-0.01)", func() error { _, err := SaturatedAt(-0.01); return err }, "temperature is -0.01 degC, want 0 degC to 350 degC"},
		{"SaturatedAt(NaN)", func() error { _, err := SaturatedAt(nan); return err }, ""},
		{"SaturatedUnder(0.006)", func() error { _, err := SaturatedUnder(0.006); return err }, "pressure is 0.006 bar(a), want 0.00611213 bar(a) to 165.292 bar(a)"},
		{"SaturatedUnder(165.292)", func() error { _, err := SaturatedUnder(165.292); return err }, "pressure is 165.292 bar(a), want 0.00611213 bar(a) to 165.29164253 bar(a)"},
		{"SaturatedUnder(165.3)", func() error { _, err := SaturatedUnder(165.3); return err }, "pressure is 165.3 bar(a), want 0.00611213 bar(a) to 165.292 bar(a)"},
		{"Vapour(100, 2)", func() error { _, err := Vapour(100, 2); return err }, "steam at 100 degC: pressure is 2 bar(a), want above 0 bar(a) and at most 1.01418 bar(a)"},
		{"Vapour(100, 0)", func() error { _, err := Vapour(100, 0); return err }, "steam at 100 degC: pressure is 0 bar(a), want above 0 bar(a) and at most 1.01418 bar(a)"},
		{"Vapour(400, 400)", func() error { _, err := Vapour(400, 400); return err }, "steam at 400 degC: pressure is 400 bar(a), want above 0 bar(a) and at most 242.356 bar(a)"},
		{"Vapour(700, 1001)", func() error { _, err := Vapour(700, 1001); return err }, "steam at 700 degC: pressure is 1001 bar(a), want above 0 bar(a) and at most 1000 bar(a)"},
		{"Vapour(801, 1)", func() error { _, err := Vapour(801, 1); return err }, "temperature is 801 degC, want 0 degC to 800 degC"},
	} {
		err := test.call()
		var bound *paperprop.RangeError
		if !errors.As(err, &bound) || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%s: %v, want %s", test.name, err, test.want)
		}
	}
}

// Kind: common-practice, our own choice: the thinnest steam whose volume is a
// number, half a per cent inside and outside, and itself.
func TestThinnestVapour(t *testing.T) {
	for _, test := range []struct {
		pressure paperprop.AbsolutePressure
		refused  bool
	}{
		{1.005e-200 * paperprop.KilopascalAbsolute, false}, {1e-200 * paperprop.KilopascalAbsolute, false}, {0.995e-200 * paperprop.KilopascalAbsolute, true},
	} {
		v, err := Vapour(100, test.pressure)
		if test.refused != errors.Is(err, paperprop.ErrRange) || !test.refused && !(v.SpecificVolume > 0 && !math.IsInf(float64(v.SpecificVolume), 1)) {
			t.Errorf("%v: %+v, %v, refused: %t", test.pressure, v, err, test.refused)
		}
	}
}

// Kind: common-practice. The line is the same both ways, and region 2 is closed
// where 1 begins: v, h and latent heat fall or rise all the way.
func TestSaturationLine(t *testing.T) {
	last := Saturation{LiquidEnthalpy: -1}
	for c := paperprop.Temperature(0); c <= 350; c += 0.25 {
		s, err := SaturatedAt(c)
		if err != nil {
			t.Fatal(err)
		}
		back, err := SaturatedUnder(s.Pressure)
		if err != nil || !(math.Abs(float64(back.Temperature-c)) <= 2e-10) {
			t.Errorf("at %v water boils under %v, which gives back %v, %v", c, s.Pressure, float64(back.Temperature), err)
		}
		if v, err := Vapour(c, s.Pressure); err != nil || v != s.Steam() || v.Enthalpy != s.SteamEnthalpy {
			t.Errorf("saturated steam at %v: %v, %v, want %v", c, v, err, s.Steam())
		}
		if w, err := Liquid(c, s.Pressure); err != nil || w != s.Liquid() || w.Enthalpy != s.LiquidEnthalpy {
			t.Errorf("saturated water at %v: %v, %v, want %v", c, w, err, s.Liquid())
		}
		if c > 0 && !(s.LatentHeat() < last.LatentHeat() && s.LiquidEnthalpy > last.LiquidEnthalpy && s.Steam().SpecificVolume < last.Steam().SpecificVolume) {
			t.Errorf("at %v: %+v after %+v", c, s, last)
		}
		last = s
	}
}

// Kind: common-practice. Superheated steam is steam of the pressure of saturation.
func TestSuperheated(t *testing.T) {
	s, err := SaturatedUnder(4)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []paperprop.Temperature{s.Temperature, 200, 800} {
		got, err := s.Superheated(c)
		if want, wantErr := Vapour(c, s.Pressure); err != nil || wantErr != nil || got != want {
			t.Errorf("steam of 4 bar at %v is %+v, %v, want %+v, %v", c, got, err, want, wantErr)
		}
	}
	for _, c := range []paperprop.Temperature{s.Temperature - 0.001, 800.001, paperprop.Temperature(math.NaN())} {
		if got, err := s.Superheated(c); !errors.Is(err, paperprop.ErrRange) {
			t.Errorf("steam of 4 bar at %v is %+v, %v, want ErrRange", c, got, err)
		}
	}
}

// Kind: common-practice. At 623.15 K the boundary to region 3 meets the
// saturation line.
func TestBoundariesMeet(t *testing.T) {
	if b, s := boundary23(623.15), saturation4(623.15); !(math.Abs(b-s) <= 1e-6*s) {
		t.Errorf("the boundary to region 3 begins at %v MPa, saturation ends at %v", b, s)
	}
	densest, err := DensestVapour(HottestSaturated)
	if p, _ := SaturationPressure(HottestSaturated); err != nil || densest != p {
		t.Errorf("the densest steam at 350 °C has %v, %v, want the pressure of saturation, %v", densest, err, p)
	}
}

// byPow are the formulas as the release prints them, one power at a time.
type byPow struct{ v, h, cp float64 }

func region1ByPow(k, megapascal float64) byPow {
	pi, tau := megapascal/16.53, 1386/k
	var gp, gt, gtt float64
	for _, t := range terms1 {
		i, j := float64(t.i), float64(t.j)
		gp -= t.n * i * math.Pow(7.1-pi, i-1) * math.Pow(tau-1.222, j)
		gt += t.n * math.Pow(7.1-pi, i) * j * math.Pow(tau-1.222, j-1)
		gtt += t.n * math.Pow(7.1-pi, i) * j * (j - 1) * math.Pow(tau-1.222, j-2)
	}
	return byPow{gasConstant * k / 16530 * gp, gasConstant * k * tau * gt, -gasConstant * tau * tau * gtt}
}

func region2ByPow(k, megapascal float64) byPow {
	pi, tau := megapascal, 540/k
	gp, gt, gtt := 1/pi, 0.0, 0.0
	for _, t := range ideal2 {
		j := float64(t.j)
		gt += t.n * j * math.Pow(tau, j-1)
		gtt += t.n * j * (j - 1) * math.Pow(tau, j-2)
	}
	for _, t := range terms2 {
		i, j := float64(t.i), float64(t.j)
		gp += t.n * i * math.Pow(pi, i-1) * math.Pow(tau-0.5, j)
		gt += t.n * math.Pow(pi, i) * j * math.Pow(tau-0.5, j-1)
		gtt += t.n * math.Pow(pi, i) * j * (j - 1) * math.Pow(tau-0.5, j-2)
	}
	return byPow{gasConstant * k / 1000 * gp, gasConstant * k * tau * gt, -gasConstant * tau * tau * gtt}
}

// Kind: library. Source: Go's math.Pow in the formulas as they are printed.
func TestPowersAreShared(t *testing.T) {
	compare := func(region int, k, p float64, got Properties, want byPow) {
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"volume", got.SpecificVolume.In(paperprop.CubicMetrePerKilogram), want.v},
			{"enthalpy", got.Enthalpy.In(paperprop.KilojoulePerKilogram), want.h},
			{"heat capacity", got.HeatCapacity.In(paperprop.KilojoulePerKilogramKelvin), want.cp},
		} {
			if !(math.Abs(v.got-v.want) <= 1e-11*math.Abs(v.want)) && !(math.Abs(v.got-v.want) <= 1e-11) {
				t.Fatalf("region %d: %s at %v K, %v MPa is %v, want %v by math.Pow", region, v.what, k, p, v.got, v.want)
			}
		}
	}
	for k := 273.15; k <= 623.15; k += 3.5 {
		for p := saturation4(k); p < 100; p += 4.7 {
			compare(1, k, p, region1(k, p), region1ByPow(k, p))
		}
		for share := 0.05; share <= 1; share += 0.1 {
			p := share * saturation4(k)
			compare(2, k, p, region2(k, p), region2ByPow(k, p))
		}
	}
	for k := 625.0; k <= 1073.15; k += 3.5 {
		for p := 0.1; p < min(100, boundary23(k)); p += 4.7 {
			compare(2, k, p, region2(k, p), region2ByPow(k, p))
		}
	}
}

func TestAllocatesNothing(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() {
		_, _ = Density(48, 1.01325)
		_, _ = SaturatedAt(150)
		_, _ = SaturatedUnder(4)
		_, _ = Vapour(200, 1)
		a, _ := AirAtWetBulb(82, 62, 1.01325)
		_, _ = a.DewPoint()
		_, _ = a.WetBulb()
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkDensity(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Density(48, 1.01325); err != nil {
			b.Fatal(err)
		}
	}
}

// A saturation state: pressure and both enthalpies.
func BenchmarkSaturation(b *testing.B) {
	b.Run("powers=shared", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := SaturatedAt(150); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("powers=math.Pow", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			enthalpiesByPow(423.15)
		}
	})
}

// enthalpiesByPow works out the pressure and both enthalpies, and nothing else.
func enthalpiesByPow(k float64) (p, liquid, steam float64) {
	theta := k + n9/(k-n10)
	a := math.Pow(theta, 2) + n1*theta + n2
	b := n3*math.Pow(theta, 2) + n4*theta + n5
	c := n6*math.Pow(theta, 2) + n7*theta + n8
	p = math.Pow(2*c/(-b+math.Sqrt(math.Pow(b, 2)-4*a*c)), 4)
	tau := 1386 / k
	for _, t := range terms1 {
		j := float64(t.j)
		liquid += t.n * math.Pow(7.1-p/16.53, float64(t.i)) * j * math.Pow(tau-1.222, j-1)
	}
	liquid *= gasConstant * k * tau
	tau = 540 / k
	for _, t := range ideal2 {
		j := float64(t.j)
		steam += t.n * j * math.Pow(tau, j-1)
	}
	for _, t := range terms2 {
		j := float64(t.j)
		steam += t.n * math.Pow(p, float64(t.i)) * j * math.Pow(tau-0.5, j-1)
	}
	return p, liquid, steam * gasConstant * k * tau
}

// The benchmark's other side is worth a comparison only if it is right.
func TestEnthalpiesByPow(t *testing.T) {
	s, _ := SaturatedAt(150)
	p, liquid, steam := enthalpiesByPow(423.15)
	if !(math.Abs(p-s.Pressure.In(paperprop.MegapascalAbsolute)) <= 1e-12) || !(math.Abs(liquid-float64(s.LiquidEnthalpy)) <= 1e-9) || !(math.Abs(steam-float64(s.SteamEnthalpy)) <= 1e-9) {
		t.Errorf("by math.Pow %v MPa, %v, %v kJ/kg, want %+v", p, liquid, steam, s)
	}
}
