package paperprop_test

import (
	"errors"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

func kind(t testing.TB, name string) *paperprop.Kind {
	t.Helper()
	k, ok := paperprop.KindNamed(name)
	if !ok {
		t.Fatalf("no kind %q", name)
	}
	return k
}

func unit(t testing.TB, text string) paperprop.Unit {
	t.Helper()
	u, err := paperprop.ParseUnit(text)
	if err != nil {
		t.Fatal(err)
	}
	return u
}

func TestParseGrammage(t *testing.T) {
	for _, test := range []struct {
		text         string
		want         paperprop.Grammage
		kind, source string
	}{
		{"1 lb/1000ft²", 453.59237 / 92.90304, "published", "NIST HB 44 C (lb), SP 811 B.8 (ft)"},
		{"1 lb/MSF", 453.59237 / 92.90304, "published", "NIST HB 44 C (lb), SP 811 B.8 (ft)"},
		{"1 lb/ft2", 453.59237 / 0.09290304, "published", "NIST HB 44 C (lb), SP 811 B.8 (ft)"},
		{"2 oz/yd²", 2 * 28.349523125 / 0.83612736, "published", "NIST HB 44 C (oz), SP 811 B.8 (yd)"},
		{"127 gsm", 127, "common-practice", "no source"},
		{"127g/m²", 127, "common-practice", "no source"},
		{" 127 g/m2 ", 127, "common-practice", "no source"},
		{"127\u00a0g/m²", 127, "common-practice", "no source"},
		{"0.127 kg/m2", 127, "common-practice", "no source"},
		{"1.27e2 g/m2", 127, "common-practice", "no source"},
		{"1.27E+02 g/m2", 127, "common-practice", "no source"},
		{"1270e-1 g/m2", 127, "common-practice", "no source"},
		{".5 g/m2", 0.5, "common-practice", "no source"},
		{"−3 g/m2", -3, "common-practice", "no source"},
		{"007 g/m2", 7, "common-practice", "no source"},
	} {
		got, err := paperprop.ParseGrammage(test.text)
		if err != nil || got != test.want {
			t.Errorf("ParseGrammage(%q) = %v, %v, want %v (%s: %s)", test.text, got, err, test.want, test.kind, test.source)
		}
	}
}

// TestParse takes the texts that are read in one kind and not in another.
func TestParse(t *testing.T) {
	for _, test := range []struct {
		kind, text string
		want       float64
	}{
		{"Consistency", "4 %", 0.04},
		{"Consistency", "4.0%", 0.04},
		{"Consistency", "0.04 1", 0.04},
		{"Dosage", "0.75 %", 7.5},
		{"Mass", "3 short tons", 2721.55422},
		{"Mass", "2 tonnes", 2000},
		{"OvenDryMass", "3 bdt", 3000},
		{"OvenDryFlow", "310.4 odt/d", 310.4 / 24},
		{"Length", `3 "`, 76.2},
		{"Length", "3 inches", 76.2},
		{"Length", "10 mils", 0.254},
		{"Moment", "150 Taber units", 150 * 0.0980665},
		{"Volume", "1000 US gallons", 3.785411784},
		{"VolumeFlow", "1 imp gallon/min", 0.2727654},
		{"VolumeFlow", "1200 US gpm", 1200 * 0.22712470704},
		{"VolumeFlow", "1 imp gpm", 0.2727654},
		{"Grammage", "35 lb/1000 sq ft", 35 * 453.59237 / 92.90304},
		{"Grammage", "30 lb/3000 sq ft", 10 * 453.59237 / 92.90304},
		{"OvenDryGrammage", "35 lb/1000 sq ft", 35 * 453.59237 / 92.90304},
		{"Area", "2 1000 sq ft", 185.80608},
		{"Consistency", "2 m/100 m", 0.02},
		{"Fraction", "2 ft/100 ft", 0.02},
		{"Coarseness", "12 mg/100 m", 0.12},
		{"ForcePerLength", "60 lbf/6 in", 60 * 4.4482216152605 / 152.4},
		{"Pressure", "12 in H2O", 12 * 0.24908891},
		{"Pressure", "20 in Hg", 20 * 3.386388640341},
		{"Length", "30 µm", 0.03},
		{"Length", "30 μm", 0.03},
		{"AmountConcentration", "0.1 N", 0.1},
		{"Force", "0.1 N", 0.1},
		{"Force", "3 kg m/s2", 3},
		{"AmountPerMass", "4eq/t", 4},
		{"Count", "12", 12},
		{"Count", "3 million", 3e6},
		{"Count", "12 sheets", 12},
		{"Ratio", "1.02", 1.02},
		{"Temperature", "20 °C", 20},
		{"Temperature", "293.15K", 20},
		{"Temperature", "73.4 °F", 23},
		{"TemperatureDifference", "18 degF_diff", 10},
		{"GaugePressure", "3.5 bar(g)", 3.5},
		{"GaugePressure", "350 kPa(g)", 3.5},
		{"GaugePressure", "3500 mbar(g)", 3.5},
		{"AbsolutePressure", "0.1 MPa(a)", 1},
		{"AbsolutePressure", "1 atm(a)", 1.01325},
		{"MassFlow", "24 tonnes/day", 1},
		{"SpecificHeat", "4186.8 J/(kg·K)", 4.1868},
		{"SpecificHeat", "1 Btu_IT/(lb·°F)", 4.1868},
		{"HeatTransfer", "3.6 kJ/(h m2 degC)", 1},
		{"Power", "550 ft.lbf/s", 0.74569987158227022},
		{"TearFactor", "1 100 gf/(g/m2)", 1},
	} {
		got, u, err := kind(t, test.kind).Parse(test.text)
		if err != nil || got != test.want || u.Kind().Name() != test.kind {
			t.Errorf("%s %q is %v %v, %v, want %v", test.kind, test.text, got, u, err, test.want)
		}
	}
}

func TestErrors(t *testing.T) {
	for _, test := range []struct{ kind, text, want string }{
		{"Consistency", "4", `consistency "4": unit missing, want % or g/g`},
		{"Grammage", "42", `grammage "42": unit missing, want g/m2 or lb/1000ft2`},
		{"Length", "7 furlongs", `unknown unit "furlongs", want a unit of length such as mm or m`},
		{"Mass", "7 tone", `unknown unit "tone", near: tonne`},
		{"Mass", "7 KG", `unknown unit "KG", near: kg`},
		{"Duration", "7 minut", `unknown unit "minut", near: minute, min`}, // the nearer first
		{"Mass", "3 ton", `"ton" is ambiguous: t, short ton or long ton`},
		{"VolumeFlow", "3 gal/min", `"gal" is ambiguous: US gal or imp gal`},
		{"Volume", "3 gallons", `"gallons" is ambiguous: US gal or imp gal`},
		{"VolumeFlow", "3 gallons/min", `"gallons" is ambiguous: US gal or imp gal`},
		{"Energy", "3 therms", `"therms" is ambiguous: therm_US (that of the United States, write another in MJ)`},
		{"Temperature", "3 degrees C", `unknown unit "degrees C", want a unit of temperature such as degC or K`},
		{"Power", "3 hp", `"hp" is ambiguous: hp_mech, hp_el or hp_metric`},
		{"Force", "3 kg", `"kg" is no unit of force, want kgf, gf or N (mass is not force)`},
		{"Force", "3 lb", `"lb" is no unit of force, want lbf`},
		{"GaugePressure", "3 bar", `"bar" is no unit of gauge pressure, want bar(g), kPa(g) or psig`},
		{"AbsolutePressure", "3 bar(g)", `"bar(g)" is no unit of absolute pressure, want bar(a), kPa(a) or psia (a gauge pressure is lower by that of the air)`},
		{"GaugePressure", "44 psia", `"psia" is no unit of gauge pressure, want bar(g), kPa(g) or psig (an absolute pressure is higher by that of the air)`},
		{"MassFlow", "250 m³/h", `"m³/h" is no unit of mass flow, want t/h or kg/h (multiply a volume flow by the density, that of water is about 1 t/m3)`},
		{"VolumeFlow", "250 t/h", `"t/h" is no unit of volume flow, want m3/h or L/min (divide a mass flow by the density, that of water is about 1 t/m3)`},
		{"Grammage", "20 lb", `"lb" is no unit of grammage, want g/m2, lb/1000ft2, lb/3000ft2 or lb/17x22-500 (pounds of a ream have to name it)`},
		{"Mass", "80 gsm", `"gsm" is no unit of mass, want kg or t (a mass per area; pounds of a ream have to name it as lb/17x22-500 does)`},
		{"TemperatureDifference", "3 °C", `"°C" is no unit of temperature difference, want K, degC_diff or degF_diff (a difference of 1 degC is 1 K, one of 1 degF is 1 degF_diff)`},
		{"Consistency", "8.2 g/L", `"g/L" is no unit of consistency, want % or g/g (divide a concentration by the density of the stock, 10 g/L is about 1 %)`},
		{"Consistency", "8.2 kg/m³", `"kg/m³" is no unit of consistency, want % or g/g (divide a concentration by the density of the stock, 10 g/L is about 1 %)`},
		{"Ratio", "3 %", `"%" is no unit of ratio, want a pure number`},
		{"Count", "3 boxes", `"boxes" is no unit of count, want a number alone`},
		{"Mass", "3 odt", `"odt" is no unit of mass, want kg or t (as it lies on the scale; an air-dry and an oven-dry mass are others)`},
		{"Mass", "3 ADMT", `"ADMT" is no unit of mass, want kg or t (as it lies on the scale; an air-dry and an oven-dry mass are others)`},
		{"Grammage", "3 kg", `"kg" is no unit of grammage, want g/m2 or lb/1000ft2`},
		{"SpecificHeat", "3 kJ/kg/K", `unit "kJ/kg/K": two strokes, write kJ/(kg K)`},
		{"SpecificHeat", "3 kJ/kg K", `unit "kJ/kg K": more than one unit below the stroke, put them in brackets: kJ/(kg K)`},
		{"Grammage", "3 g/m^2", `unit "g/m^2": leave out the ^, write g/m2`},
		{"AmountConcentration", "0.02 M", `"M" is no unit of amount concentration, want mol/L or eq/L (a mole can hold several equivalents, five of permanganate as an oxidiser)`},
		{"Mass", "1.2×10^5 kg", `unit "×10^5 kg": a power of ten goes with the number, as 1.2e5 for 1.2×10^5`},
		{"Mass", "1.2 x 10⁻⁵ kg", `unit "x 10⁻⁵ kg": a power of ten goes with the number, as 1.2e5 for 1.2×10^5`},
		{"Mass", "1.2·10**5 kg", `unit "·10**5 kg": a power of ten goes with the number, as 1.2e5 for 1.2×10^5`},
		{"Mass", "10^5 kg", `unit "^5 kg": a power of ten goes with the number, as 1.2e5 for 1.2×10^5`},
		{"Count", "10⁵", `unit "⁵": a power of ten goes with the number, as 1.2e5 for 1.2×10^5`},
		{"Grammage", "3 g/", `unit "g/": a unit is missing`},
		{"Grammage", "3 g/(m2", `unit "g/(m2": a bracket is not closed`},
		{"Grammage", "3 g m9 m9 m9/m9", `unit "g m9 m9 m9/m9": a power above 20`},
		{"Grammage", "3 g/m2)", `unit "g/m2)": unexpected ")"`},
		{"Grammage", "12 1 g/m2", `unit "1 g/m2": a 1 among units, leave it out`},
		{"Grammage", "12 g 1/m2", `unit "g 1/m2": a 1 among units, leave it out`},
		{"Consistency", "4.0(1) %", `unit "(1) %": a number in brackets, want a unit alone; an uncertainty is for inputs, right after the value: 4.0(1) %`},
		{"Consistency", "4.0 (12) %", `unit "(12) %": a number in brackets, want a unit alone; an uncertainty is for inputs, right after the value: 4.0(1) %`},
		{"Ratio", "0.92(1)", `unit "(1)": a number in brackets, want a unit alone; an uncertainty is for inputs, right after the value: 4.0(1) %`},
		{"Consistency", "4.0 ± 0.1 %", `number "4.0 ± 0.1 %": an uncertainty, want the value alone`},
		{"MassFlow", "500 t/h +- 1 %", `number "500 t/h +- 1 %": an uncertainty, want the value alone`},
		{"Mass", "[1 2 3] kg", `number "[1 2 3] kg": a list, want one number`},
		{"Consistency", "4,0 %", `number "4,0 %": decimal comma, write 4.0`},
		{"Mass", "4,000 kg", `number "4,000 kg": a comma that can be read two ways, write 4.000 or 4000`},
		{"Mass", "0,125 kg", `number "0,125 kg": decimal comma, write 0.125`},
		{"Mass", "1,234.5 kg", `number "1,234.5 kg": commas between digits, write 1234.5`},
		{"Length", `1'4"`, `number "1'4\"": feet and inches, want one number with one unit`},
		{"Mass", "1'000 kg", `number "1'000 kg": ' between digits, leave it out`},
		{"Mass", "5. kg", `number "5. kg": no digit after the decimal sign`},
		{"Mass", "3..5 kg", `number "3..5 kg": a range, want one number`},
		{"Mass", "3.5.7 kg", `number "3.5.7 kg": two points, want one number`},
		{"Mass", "+5 kg", `number "+5 kg": a leading +, leave it out`},
		{"Mass", "1_000 kg", `number "1_000 kg": _ between digits, leave it out`},
		{"Mass", "0x10 kg", `unknown unit "x10", want a unit of mass such as kg or mg`},
		{"Mass", "NaN kg", `number "NaN kg": no digits`},
		{"Mass", "Inf kg", `number "Inf kg": no digits`},
		{"Mass", "kg", `number "kg": no digits`},
		{"Mass", "-kg", `number "-kg": no digits`},
		{"Mass", "", `number "": empty`},
		{"Mass", "1e401 kg", `number "1e401 kg": exponent beyond ±400`},
		{"Mass", "1e-999999999999999999999 kg", `number "1e-999999999999999999999 kg": exponent beyond ±400`},
		{"Mass", "1e400 kg", `number "1e400": too large`},
		{"Mass", "1e308 t", `number "1e308": too large`},
	} {
		v, _, err := kind(t, test.kind).Parse(test.text)
		if err == nil || err.Error() != test.want {
			t.Errorf("%s %q is %v, %v\nwant error      %s", test.kind, test.text, v, err, test.want)
			continue
		}
		var u *paperprop.UnitError
		var n *paperprop.NumberError
		if errors.Is(err, paperprop.ErrUnit) != errors.As(err, &u) || errors.Is(err, paperprop.ErrNumber) != errors.As(err, &n) || (u == nil) == (n == nil) {
			t.Errorf("%s %q: %T is not one of ErrUnit and ErrNumber", test.kind, test.text, err)
		}
	}
}

func TestRangeError(t *testing.T) {
	mass, consistency, count, temperature := kind(t, "Mass"), kind(t, "Consistency"), kind(t, "Count"), kind(t, "Temperature")
	gram, _ := mass.Unit("g")
	kelvin, _ := temperature.Unit("K")
	open := math.Inf(1)
	for _, test := range []struct {
		err  paperprop.RangeError
		want string
	}{
		{paperprop.RangeError{Input: "consistency-in", Kind: consistency, Value: 4.5, Max: 1, Unit: consistency.Print()}, "consistency-in is 450 %, want 0 % to 100 %"},
		{paperprop.RangeError{Input: "consistency-in", Kind: consistency, Value: 4.5, Max: 1, Unit: consistency.Print(), Text: "4.5 g/g"}, "consistency-in is 4.5 g/g, want 0 % to 100 %"},
		{paperprop.RangeError{Kind: mass, Value: -0.001, Max: open, AboveMin: true, Unit: gram}, "mass is -1 g, want above 0 g"},
		{paperprop.RangeError{Kind: count, Value: 0, Min: 1, Max: open, Unit: count.Print()}, "count is 0, want at least 1"},
		{paperprop.RangeError{Kind: count, Value: 9, Min: -open, Max: 8, Unit: count.Print()}, "count is 9, want at most 8"},
		{paperprop.RangeError{Kind: count, Value: 9, Min: 3, Max: 9, BelowMax: true, Unit: count.Print()}, "count is 9, want at least 3 and below 9"},
		{paperprop.RangeError{Kind: temperature, Value: -300, Min: -273.15, Max: open, Unit: kelvin}, "temperature is -26.85 K, want at least 0 K"},
		{paperprop.RangeError{Input: "x", Value: 2, Min: -open, Max: 1, BelowMax: true}, "x is 2, want below 1"},
		{paperprop.RangeError{Input: "x", Value: 165.292, Max: 165.29164253}, "x is 165.292, want 0 to 165.29164253"},
		{paperprop.RangeError{Input: "x", Value: 166, Max: 165.29164253}, "x is 166, want 0 to 165.292"},
		{paperprop.RangeError{Input: "x", Value: 1.23456, Min: 1.2345641, Max: 2}, "x is 1.23456, want 1.2345641 to 2"},
		{paperprop.RangeError{Value: math.NaN(), Min: -open, Max: open}, "value is NaN, want a finite number"},
	} {
		if got := test.err.Error(); got != test.want || !errors.Is(&test.err, paperprop.ErrRange) {
			t.Errorf("error is %q, want %q", got, test.want)
		}
	}
}

// TestRefusals tries every spelling that units.csv refuses.
func TestRefusals(t *testing.T) {
	for _, test := range []struct{ kind, text, candidate string }{
		{"", "ton", "short ton"}, {"", "tons", "t"}, {"", "tn", "long ton"}, {"", "tpd", "t/d"}, {"", "gal", "US gal"}, {"", "gallon", "imp gal"},
		{"", "gpm", "US gal/min"}, {"", "cwt", "lb"}, {"", "hp", "hp_el"}, {"", "Btu", "Btu_IT"}, {"", "BTU", "Btu_th"}, {"", "MMBtu", "Btu_IT"},
		{"", "cal", "cal_IT"}, {"", "kcal", "kcal_IT"}, {"", "therm", "therm_US"}, {"", "ream", "lb/3000ft2"}, {"", "#", "lb/3000ft2"}, {"", "MM", "million"},
		{"Force", "pound", "lbf"}, {"Force", "oz", "kgf"}, {"ForcePerLength", "lb/in", "lbf/in"}, {"ForcePerLength", "kg/cm", "kgf/cm"},
		{"GaugePressure", "kgf/cm2", "bar(g)"}, {"AbsolutePressure", "psi", "psia"}, {"TemperatureDifference", "F", "K"},
		{"Ratio", "ppm", "a pure number"}, {"Concentration", "ppm", "mg/L"}, {"SpecificEnergy", "hpd/t", "kWh/t"},
		{"OvenDryMass", "ADMT", "odt"}, {"AirDryMass", "bdt", "adt"}, {"BurstIndex", "points", "kPa.m2/g"},
	} {
		_, err := paperprop.ParseUnit(test.text)
		if test.kind != "" {
			_, err = kind(t, test.kind).Unit(test.text)
		}
		var u *paperprop.UnitError
		if !errors.As(err, &u) || !slices.Contains(u.Candidates, test.candidate) {
			t.Errorf("%s %q: error %v, want one with candidate %s", test.kind, test.text, err, test.candidate)
		}
	}
}

func TestParseUnit(t *testing.T) {
	for _, test := range []struct{ text, name, kind, dimension string }{
		{"", "1", "Ratio", "1"},
		{"1", "1", "Ratio", "1"},
		{"kg", "kg", "Mass", "kg"},
		{"K", "K", "Temperature", "K"},
		{"%", "%", "Fraction", "1"},
		{"kPa", "kPa", "Pressure", "kg/(m s2)"},
		{"barg", "bar(g)", "GaugePressure", "kg/(m s2)"},
		{"g/L", "g/L", "Concentration", "kg/m3"},
		{"1/K", "1/K", "", "1/K"},
		{"1/(m K)", "1/(m K)", "", "1/(m K)"},
		{"mm WC/m", "mm WC/m", "", "kg/(m2 s2)"},
		{"(g/m2)/kPa", "(g/m2)/kPa", "", "s2/m"},
		{"W·s/(m²·K)", "W.s/(m2.K)", "", "kg/(s2 K)"},
		{"V", "V", "Voltage", "kg m2/(s3 A)"}, // these two: SI Brochure, 9th edition, table 4, from memory
		{"ohm", "ohm", "Resistance", "kg m2/(s3 A2)"},
		{"V/A", "V/A", "Resistance", "kg m2/(s3 A2)"},
		{"deg/min", "deg/min", "", "deg/s"},
	} {
		u, err := paperprop.ParseUnit(test.text)
		name := ""
		if u.Kind() != nil {
			name = u.Kind().Name()
		}
		if err != nil || u.String() != test.name || name != test.kind || u.Dimension().String() != test.dimension {
			t.Errorf("ParseUnit(%q) is %v of kind %q, %v, %v, want %s of %q, %s", test.text, u, name, u.Dimension(), err, test.name, test.kind, test.dimension)
		}
	}
}

// TestRounding reads random decimals in every unit, and wants what math/big
// (a library) gets by rounding the exact product.
func TestRounding(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for _, k := range paperprop.Kinds() {
		for _, u := range k.Units() {
			for range 200 {
				text := randomDecimal(random)
				x, _ := new(big.Rat).SetString(text)
				want, _ := paperprop.Exactly(u, x).Float64()
				got, err := u.Read([]byte(text), '.')
				if math.IsInf(want, 0) {
					if !errors.Is(err, paperprop.ErrNumber) {
						t.Fatalf("%s %v: Read(%s) = %v, %v, want ErrNumber", k.Name(), u, text, got, err)
					}
					continue
				}
				if err != nil || got != want {
					t.Fatalf("%s %v: Read(%s) = %v, %v, want %v", k.Name(), u, text, got, err, want)
				}
				if parsed, _, err := k.Parse(text + " " + u.String()); err != nil || parsed != want {
					t.Fatalf("%s: Parse(%s %v) = %v, %v, want %v", k.Name(), text, u, parsed, err, want)
				}
				if cell := strings.Replace(text, ".", ",", 1); cell != text {
					if got, err := u.Read([]byte(cell), ','); err != nil || got != want {
						t.Fatalf("%s %v: Read(%s) = %v, %v, want %v", k.Name(), u, cell, got, err, want)
					}
				}
			}
		}
	}
}

func randomDecimal(r *rand.Rand) string {
	n := 1 + r.IntN(25)
	if r.IntN(2) == 0 {
		n = 1 + r.IntN(6)
	}
	digits := make([]byte, n)
	for i := range digits {
		digits[i] = byte('0' + r.IntN(10))
	}
	point := r.IntN(n + 1)
	text := string(digits[:point]) + "." + string(digits[point:])
	if point == n {
		text = string(digits)
	}
	switch r.IntN(5) {
	case 0:
		text += "e" + strconv.Itoa(r.IntN(60)-30)
	case 1:
		text += "e" + strconv.Itoa(r.IntN(700)-350)
	}
	if r.IntN(4) == 0 {
		text = "-" + text
	}
	return text
}

// TestParseNumber reads random decimals as strconv (a library) does.
func TestParseNumber(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for range 100_000 {
		text := randomDecimal(random)
		want, err := strconv.ParseFloat(text, 64)
		got, gotErr := paperprop.ParseNumber(text)
		if (err == nil) != (gotErr == nil) || err == nil && got != want {
			t.Fatalf("ParseNumber(%s) = %v, %v, want %v, %v", text, got, gotErr, want, err)
		}
	}
	for text, want := range map[string]string{
		"1.5":                       "1.5",
		"1,5":                       `number "1,5": decimal comma, write 1.5`,
		"1 %":                       `number "1 %": want a number alone`,
		"1 2":                       `number "1 2": want a number alone`,
		"0x1p":                      `number "0x1p": want a number alone`,
		"":                          `number "": empty`,
		"nan":                       `number "nan": no digits`,
		"-":                         `number "-": no digits`,
		"−":                         `number "−": no digits`,
		"\xe2\x88":                  `number "\xe2\x88": no digits`, // of a minus sign that was cut
		"-.":                        `number "-.": no digits`,
		"..":                        `number "..": no digits`,
		"1e":                        `number "1e": want a number alone`,
		"1e+":                       `number "1e+": want a number alone`,
		"12,":                       `number "12,": want a number alone`,
		"12,9":                      `number "12,9": decimal comma, write 12.9`,
		strings.Repeat("x", 64):     `number "` + strings.Repeat("x", 64) + `": no digits`,
		strings.Repeat("x", 65):     `number "` + strings.Repeat("x", 64) + `…": no digits`,
		strings.Repeat("1", 64):     "1.1111111111111112e+63",
		strings.Repeat("1", 65):     `number "` + strings.Repeat("1", 64) + `…": longer than 64 characters`,
		strings.Repeat("1", 1e6):    `number "` + strings.Repeat("1", 64) + `…": longer than 64 characters`,
		"1" + "e" + "0000000000400": `number "1e0000000000400": too large`,
	} {
		x, err := paperprop.ParseNumber(text)
		got := string(paperprop.AppendShort(nil, x))
		if err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("ParseNumber(%.80q) gives %s, want %s", text, got, want)
		}
	}
}

func TestReadNumber(t *testing.T) {
	for _, test := range []struct {
		cell    string
		decimal byte
		want    string
	}{
		{"12.5", '.', "12.5"},
		{" 12,5\t", ',', "12.5"},
		{"-0", ',', "0"},
		{"1.234,5", ',', `number "1.234,5": a point where the decimal sign is a comma`},
		{"12.5", ',', `number "12.5": a point where the decimal sign is a comma`},
		{"12,5", '.', `number "12,5": decimal comma, write 12.5`},
		{"12,5,3", ',', `number "12,5,3": two commas, want one number`},
		{"12,", ',', `number "12,": no digit after the decimal sign`},
		{"n/a", '.', `number "n/a": no digits`},
	} {
		x, err := paperprop.ReadNumber([]byte(test.cell), test.decimal)
		got := string(paperprop.AppendShort(nil, x))
		if err != nil {
			got = err.Error()
		}
		if got != test.want {
			t.Errorf("ReadNumber(%q, %q) gives %s, want %s", test.cell, test.decimal, got, test.want)
		}
	}
}

// TestReadTakesDigitsAlone puts every byte before, between and behind digits. But
// for digits, signs, blanks and an e nothing makes a number with them.
func TestReadTakesDigitsAlone(t *testing.T) {
	u := kind(t, "Mass").Units()[2]
	for c := range 256 {
		for _, test := range []struct{ text, with string }{
			{string([]byte{byte(c), '1', '2'}), "0123456789.- \t\n\r"},
			{string([]byte{'1', byte(c), '2'}), "0123456789.eE"},
			{string([]byte{'1', '2', byte(c)}), "0123456789 \t\n\r"},
			{string([]byte{byte(c)}), "0123456789"},
		} {
			x, err := u.Read([]byte(test.text), '.')
			if taken := strings.IndexByte(test.with, byte(c)) >= 0; taken != (err == nil) {
				t.Errorf("Read(%q) is %v, %v", test.text, x, err)
			}
		}
	}
	for _, text := range []string{"", " ", ".", "1.2.", "-", "1 2"} {
		if x, err := u.Read([]byte(text), '.'); !errors.Is(err, paperprop.ErrNumber) {
			t.Errorf("Read(%q) is %v, %v, want ErrNumber", text, x, err)
		}
	}
}

// TestReadEqualsReadNumber puts signs of numbers, and any byte, at each place of cells
// of up to twelve: what is read at once is what is read byte by byte, and no more.
func TestReadEqualsReadNumber(t *testing.T) {
	random := rand.New(rand.NewPCG(2026, 11))
	const signs = "0123456789012345678901234567890123456789..,,-e "
	for range 500_000 {
		cell := make([]byte, random.IntN(13), 13)
		for i := range cell {
			cell[i] = signs[random.IntN(len(signs))]
		}
		if len(cell) > 0 && random.IntN(4) == 0 {
			cell[random.IntN(len(cell))] = byte(random.IntN(256))
		}
		sign := ".,"[random.IntN(2)]
		got, gotErr := paperprop.Unit{}.Read(cell, sign)
		want, wantErr := paperprop.ReadNumber(cell, sign)
		if got != want || (gotErr == nil) != (wantErr == nil) {
			t.Fatalf("Read(%q, %q) is %v, %v, want %v, %v", cell, sign, got, gotErr, want, wantErr)
		}
	}
}

func TestReadAllocatesNothing(t *testing.T) {
	u, err := kind(t, "Grammage").Unit("lb/1000ft2")
	if err != nil {
		t.Fatal(err)
	}
	for _, cell := range []string{"42", "-127.35", "205.0616234512345", "0.30000000000000004", "1.7976931348623157e10"} {
		text := []byte(cell)
		if n := testing.AllocsPerRun(100, func() { u.Read(text, '.') }); n != 0 {
			t.Errorf("Read(%s) allocates %v times", cell, n)
		}
		if n := testing.AllocsPerRun(100, func() { paperprop.ParseGrammage(cell + " lb/1000ft2") }); n > 1 {
			t.Errorf("ParseGrammage(%s lb/1000ft2) allocates %v times beside the text", cell, n-1)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add("42 lb/1000ft²", byte(0))
	f.Add("4 %", byte(14))
	f.Add("-459.67 °F", byte(6))
	f.Add("3 kJ/(kg·K)", byte(67))
	f.Add("1e-400 J/(g K)", byte(67))
	all := paperprop.Kinds()
	f.Fuzz(func(t *testing.T, text string, n byte) {
		k := all[int(n)%len(all)]
		v, u, err := k.Parse(text)
		if err != nil {
			if v != 0 || !u.IsZero() {
				t.Fatalf("%s %q gives %v %v with error %v", k.Name(), text, v, u, err)
			}
			return
		}
		if v-v != 0 {
			t.Fatalf("%s %q gives %v", k.Name(), text, v)
		}
		for _, u := range append(k.Units(), u) {
			written := k.Format(v, u)
			if back, _, err := k.Parse(written); err != nil || back != v {
				t.Fatalf("%s %q gives %v, written %q, which parses to %v, %v", k.Name(), text, v, written, back, err)
			}
		}
	})
}

func FuzzParseGrammage(f *testing.F) {
	f.Add("42 lb/1000ft²")
	f.Add("1e+06 g/m²")
	f.Fuzz(func(t *testing.T, s string) {
		g, err := paperprop.ParseGrammage(s)
		if err != nil {
			return
		}
		if back, err := paperprop.ParseGrammage(g.String()); err != nil || back != g {
			t.Fatalf("%q gives %v, which parses to %v, %v", s, g, back, err)
		}
	})
}

// FuzzParseUnit: the name of a unit is read as the same unit.
func FuzzParseUnit(f *testing.F) {
	for _, s := range []string{"kJ/(kg·K)", "mm WC/m", "(g/m2)/kPa", "kJ/kg/K", "1/(m2 1/s)", "short ton/(US gal h)", "((((m"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		u, err := paperprop.ParseUnit(s)
		if err != nil {
			return
		}
		back, err := paperprop.ParseUnit(u.String())
		if err != nil || back.String() != u.String() || back.Dimension() != u.Dimension() {
			t.Fatalf("%q is %v, which is read as %v, %v", s, u, back, err)
		}
		if x, err := u.Convert(3, back); err != nil || x != 3 {
			t.Fatalf("3 %v is %v %v, %v", u, x, back, err)
		}
	})
}

// A unit is told again only where it was written as another of the same size.
func TestSpelled(t *testing.T) {
	for _, test := range []struct {
		text string
		want bool
	}{
		{"112 kN/m", true}, {"112 N/mm", false}, {"120 g/m²", true}, {"120 g/m2", true}, {"20 °C", true}, {"3 ± 0.1 %", true}, {"168 µm", true},
		{"2 kPa·s", true},
	} {
		_, text, _ := strings.Cut(test.text, " ")
		u, err := paperprop.ParseUnit(strings.TrimPrefix(text, "± 0.1 "))
		if err != nil {
			t.Fatal(err)
		}
		if got := u.Spelled(test.text); got != test.want {
			t.Errorf("%q spells %s: %v, want %v", test.text, u, got, test.want)
		}
	}
}
