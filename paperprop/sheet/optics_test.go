package sheet_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/sheet"
)

func ExampleOpacitySides() {
	sides := sheet.OpacitySides{TopOpacity: 88.6 * paperprop.Percent, WireOpacity: 88.9 * paperprop.Percent}
	for _, sides.Method = range []sheet.OpacityMethod{sheet.MethodISO2471, sheet.MethodT519} {
		r, err := sides.Calculate()
		fmt.Printf("%s: %s, %v\n", sides.Method, r.Sides, err)
	}
	// Output:
	// iso-2471: apart, <nil>
	// t-519: together, <nil>
}

func ExampleLightCoefficients() {
	r, err := sheet.LightCoefficients{
		BlackReflectance: 72.4 * paperprop.Percent,
		PadReflectance:   80.5 * paperprop.Percent,
		Grammage:         80 * paperprop.GramPerSquareMetre,
	}.Calculate()
	fmt.Printf("s = %.1f m²/kg, k = %.3f m²/kg, %v\n",
		r.Scattering.In(paperprop.OpticalSquareMetrePerKilogram), r.Absorption.In(paperprop.OpticalSquareMetrePerKilogram), err)
	// Output: s = 40.7 m²/kg, k = 0.960 m²/kg, <nil>
}

func ExampleColourDifference() {
	r, err := sheet.ColourDifference{ // pair 25 of Sharma, Wu and Dalal
		Lightness:  []paperprop.Ratio{60.2574, 60.4626}, // reference, sample
		RedGreen:   []paperprop.Ratio{-34.0099, -34.1751},
		YellowBlue: []paperprop.Ratio{36.2677, 39.4387},
	}.Calculate()
	fmt.Printf("%.4f by CIEDE2000, %.4f by the distance of 1976, %v\n", float64(r.Difference2000), float64(r.Difference1976), err)
	// Output: 1.2644 by CIEDE2000, 3.1819 by the distance of 1976, <nil>
}

// randomSheet scatters and absorbs, by chance so little that the closed forms of
// the textbook lose all digits, or not at all.
func randomSheet(r *rand.Rand) sheet.Reflectance {
	s := sheet.Reflectance{
		Scattering: paperprop.OpticalCoefficient(20 + 100*r.Float64()),
		Absorption: paperprop.OpticalCoefficient(math.Pow(10, 16*r.Float64()-15)),
		Grammage:   paperprop.Grammage(10 + 150*r.Float64()),
	}
	if r.IntN(10) == 0 {
		s.Absorption = 0
	}
	return s
}

func reflectances(t *testing.T, s sheet.Reflectance) sheet.ReflectanceResult {
	t.Helper()
	got, err := s.Calculate()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func close12(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*max(math.Abs(want), math.Abs(got))) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// A sheet of twice the grammage is two sheets, between which light goes to and
// fro: a law that the closed forms do not use.
func TestTwoSheetsAreOneOfTwiceTheGrammage(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for range 1000 {
		s := randomSheet(r)
		one := reflectances(t, s)
		s.Grammage *= 2
		two := reflectances(t, s)
		black, through := float64(one.BlackReflectance), float64(one.Transmittance)
		between := 1 - black*black
		close12(t, "reflectance of two sheets", float64(two.BlackReflectance), black+through*through*black/between)
		close12(t, "transmittance of two sheets", float64(two.Transmittance), through*through/between)
	}
}

// What is not absorbed is reflected or let through, and a pad is its own
// backing.
func TestLightIsKept(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for range 1000 {
		s := randomSheet(r)
		got := reflectances(t, s)
		if kept := float64(got.BlackReflectance + got.Transmittance); s.Absorption == 0 {
			close12(t, "light kept without absorption", kept, 1)
		} else if kept > 1+1e-15 {
			t.Errorf("%+v keeps %v of the light", s, kept)
		}
		s.BackingReflectance = got.PadReflectance
		close12(t, "sheet over a pad of itself", float64(reflectances(t, s).Reflectance), float64(got.PadReflectance))
	}
}

// Coefficients come back from the reflectances that they give, and the pad from
// a sheet over black and over 89 %.
func TestLightCoefficientsComeBack(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 36))
	for range 500 {
		s := randomSheet(r)
		s.Absorption = paperprop.OpticalCoefficient(0.1 + 5*r.Float64())
		got := reflectances(t, s)
		if got.Opacity > 0.98 {
			continue // the readings no longer hold what is asked of them
		}
		back, err := sheet.LightCoefficients{BlackReflectance: got.BlackReflectance, PadReflectance: got.PadReflectance, Grammage: s.Grammage}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		near := func(what string, got, want float64) {
			if !(math.Abs(got-want) <= 1e-10*want) {
				t.Errorf("%+v: %s comes back as %v, want %v", s, what, got, want)
			}
		}
		near("scattering", float64(back.Scattering), float64(s.Scattering))
		near("absorption", float64(back.Absorption), float64(s.Absorption))
		pad, err := sheet.PadReflectance{BlackReflectance: got.BlackReflectance, BackedReflectance: got.WhiteReflectance}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		near("pad", float64(pad.PadReflectance), float64(got.PadReflectance))
		near("contrast ratio", float64(pad.ContrastRatio), float64(got.ContrastRatio))
	}
}

// The order of two colours does not matter, and hues that are opposite but for
// a last digit are the published tie (Sharma, Wu and Dalal, pairs 10 and 14).
func TestColourDifferenceHasNoSide(t *testing.T) {
	difference := func(l, a, b [2]float64) float64 {
		r, err := sheet.ColourDifference{
			Lightness:  []paperprop.Ratio{paperprop.Ratio(l[0]), paperprop.Ratio(l[1])},
			RedGreen:   []paperprop.Ratio{paperprop.Ratio(a[0]), paperprop.Ratio(a[1])},
			YellowBlue: []paperprop.Ratio{paperprop.Ratio(b[0]), paperprop.Ratio(b[1])},
		}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		return float64(r.Difference2000)
	}
	r := rand.New(rand.NewPCG(37, 38))
	for range 500 {
		l := [2]float64{100 * r.Float64(), 100 * r.Float64()}
		a := [2]float64{80*r.Float64() - 40, 80*r.Float64() - 40}
		b := [2]float64{80*r.Float64() - 40, 80*r.Float64() - 40}
		there, back := difference(l, a, b), difference([2]float64{l[1], l[0]}, [2]float64{a[1], a[0]}, [2]float64{b[1], b[0]})
		if !(math.Abs(there-back) <= 1e-12*there) {
			t.Errorf("%v %v %v: %v, the other way %v", l, a, b, there, back)
		}
	}
	for _, tie := range []struct {
		a, b [2]float64
		want float64
	}{
		{[2]float64{2.49, -2.49}, [2]float64{-0.001, 0.001}, 7.1792},
		{[2]float64{-0.001, 0.001}, [2]float64{2.49, -2.49}, 4.8045},
	} {
		for _, off := range []float64{-4e-16, 0, 4e-16} {
			a := tie.a
			a[1] += off * a[1]
			if got := difference([2]float64{50, 50}, a, tie.b); !(math.Abs(got-tie.want) <= 1e-4) {
				t.Errorf("%v %v: %v, want %v (published)", a, tie.b, got, tie.want)
			}
		}
	}
}

// A perfect white has the white point of the tables, and no colour against it.
func TestWhiteIsWhite(t *testing.T) {
	for _, condition := range []sheet.Condition{sheet.ConditionC2, sheet.ConditionD6510} {
		in := sheet.Tristimulus{Condition: condition}
		for nm := 360; nm <= 830; nm += 5 { // wider than the tables: what lies outside is left aside
			in.Wavelength = append(in.Wavelength, paperprop.Length(nm)*paperprop.Nanometre)
			in.Reflectance = append(in.Reflectance, 1)
		}
		got, err := in.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		white, err := sheet.WhitePoint{Condition: condition}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		for _, pair := range [][2]paperprop.Ratio{{got.XTristimulus, white.XTristimulus}, {got.YTristimulus, white.YTristimulus}, {got.ZTristimulus, white.ZTristimulus}} {
			if !(math.Abs(float64(pair[0]-pair[1])) <= 0.006) { // the published ones are rounded to 0.01
				t.Errorf("%s: the tables' white has %v, the published one %v", condition, pair[0], pair[1])
			}
		}
		half, err := sheet.CIELAB{
			XTristimulus: got.XTristimulus / 3, YTristimulus: got.YTristimulus / 3, ZTristimulus: got.ZTristimulus / 3,
			WhiteX: got.XTristimulus, WhiteY: got.YTristimulus, WhiteZ: got.ZTristimulus,
		}.Calculate()
		if err != nil || half.Chroma > 1e-9 || half.Hue != 0 {
			t.Errorf("%s: a grey has chroma %v and hue %v, %v", condition, half.Chroma, half.Hue, err)
		}
	}
}
