package water

import (
	"errors"
	"math"
	"testing"

	"millmaths.example/paperprop"
)

const (
	table5  = "IAPWS R7-97(2012) Table 5, as carried in the tests of a public steam-table port"
	table35 = "IAPWS R7-97(2012) Table 35, as carried in the tests of two public steam-table ports"
	iapws   = "python3-iapws 1.5.3-1 (iapws 1.5.2)"
)

// ninth returns half a unit of the ninth digit of x, which the verification
// tables print.
func ninth(x float64) float64 { return math.Pow(10, math.Floor(math.Log10(x))-8) / 2 }

func TestSpecificVolume(t *testing.T) {
	for _, test := range []struct {
		kelvin, megapascal, want float64
		kind, source             string
	}{
		{300, 3, 0.100215168e-2, "published", table5},
		{300, 80, 0.971180894e-3, "published", table5},
		{500, 3, 0.120241800e-2, "published", table5},
	} {
		if got := 1 / density1(test.kelvin, test.megapascal); math.Abs(got-test.want) > ninth(test.want) {
			t.Errorf("volume at %v K, %v MPa is %.9g m³/kg, want %.9g (%s: %s)", test.kelvin, test.megapascal, got, test.want, test.kind, test.source)
		}
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
		if got := saturation4(test.kelvin); math.Abs(got-test.want) > test.tolerance {
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
		if err != nil || math.Abs(float64(got-test.want)) > test.tolerance {
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

// densityByPow is the formula as the release prints it.
func densityByPow(k, megapascal float64) float64 {
	pi, tau, gradient := megapascal/16.53, 1386/k, 0.0
	for _, t := range terms1 {
		gradient -= t.n * float64(t.i) * math.Pow(7.1-pi, float64(t.i-1)) * math.Pow(tau-1.222, float64(t.j))
	}
	return 16530 / (0.461526 * k * gradient)
}

// Kind: library. Source: Go's math.Pow in the formula as it is printed.
func TestPowersAreShared(t *testing.T) {
	for k := 273.15; k <= 623.15; k += 3.5 {
		for p := saturation4(k); p < 100; p += 4.7 {
			if got, want := density1(k, p), densityByPow(k, p); math.Abs(got-want) > 1e-13*want {
				t.Fatalf("density at %v K, %v MPa is %v kg/m³, want %v by math.Pow", k, p, got, want)
			}
		}
	}
}

func TestDensityAllocatesNothing(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() { _, _ = Density(48, 1.01325) }); n != 0 {
		t.Errorf("Density allocates %v times", n)
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

func BenchmarkDensityFormula(b *testing.B) {
	b.Run("powers=shared", func(b *testing.B) {
		for b.Loop() {
			density1(321.15, 0.101325)
		}
	})
	b.Run("powers=math.Pow", func(b *testing.B) {
		for b.Loop() {
			densityByPow(321.15, 0.101325)
		}
	})
}
