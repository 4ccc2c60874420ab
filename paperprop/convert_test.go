package paperprop_test

import (
	"cmp"
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// TestConvertChecks runs the check rows of testdata/units.csv, exactly and by
// floats: each has its source and the kind of it beside it.
func TestConvertChecks(t *testing.T) {
	f, err := os.Open("testdata/units.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < 100 {
		t.Fatalf("only %d check rows", len(rows)-1)
	}
	for _, row := range rows[1:] {
		id, inputs, expected, tolerance, source := row[0], row[2], row[3], row[4], row[5]+": "+row[6]
		value, to, _ := strings.Cut(strings.TrimPrefix(inputs, "value="), "; to=")
		got, u, err := paperprop.Convert(value, to)
		if expected == "refused" {
			if !errors.Is(err, paperprop.ErrUnit) {
				t.Errorf("%s: Convert(%q, %q) = %v %v, %v, want it refused (%s)", id, value, to, got, u, err, source)
			}
			continue
		}
		number, unit, _ := strings.Cut(strings.TrimPrefix(expected, "value="), " ")
		want, parseErr := strconv.ParseFloat(number, 64)
		if parseErr != nil || unit != to {
			t.Fatalf("%s: cannot read what is expected: %q", id, expected)
		}
		if err != nil || !(math.Abs(got-want) <= slack(t, tolerance, want)) {
			t.Errorf("%s: Convert(%q, %q) = %v %v, %v, want %s (%s)", id, value, to, got, u, err, number, source)
		}
		if k := u.Kind(); k != nil {
			v, _, err := k.Parse(value)
			if got := u.To(v); err != nil || !(math.Abs(got-want) <= slack(t, tolerance, want)+4e-16*math.Abs(want)) {
				t.Errorf("%s: %s %s is %v %v by floats, %v, want %s (%s)", id, k.Name(), value, got, u, err, number, source)
			}
		}
	}
}

// A unit is named as it was asked for, if its listed name is that of another: t/d alone is
// a mass flow with its water. So is a quotient, kg/t. Otherwise it has its listed name.
func TestConvertNamesTheUnit(t *testing.T) {
	for _, test := range []struct{ value, to, want string }{
		{"10 t/h", "odt/d", "240 odt/d"},
		{"10 odt/h", "bdt/d", "240 bdt/d"},
		{"10 odt/h", "t/d", "240 t/d"},
		{"18 degF_diff", "°C_diff", "10 degC_diff"},
		{"18 degF_diff", "K", "10 K"},
		{"0.02 kg/kg", "kg/kg dry air", "0.02 kg/kg dry air"},
		{"3 dm2", "100 gf/(g/m2)", "3 dm2"}, // no number stands behind another
		{"5 %", "kg/t", "50 kg/t"},
		{"60 m3/h", "l/min", "1000 l/min"},
		{"2 %", "kg/kg", "0.02 kg/kg"},
		{"2 kg", "gram", "2000 g"},
		{"2", "", "2"},
		{"2 %", "1", "0.02"},
		{"9 t/(h m2)", "kg/(h·m²)", "9000 kg/(h m2)"},
		{"2 kg/kN", "g/N", "2 g/N"},
	} {
		x, u, err := paperprop.Convert(test.value, test.to)
		if got := paperprop.WithUnit(paperprop.People(x), u); err != nil || got != test.want {
			t.Errorf("Convert(%q, %q) = %s, %v, want %s", test.value, test.to, got, err, test.want)
		}
		back, v, err := paperprop.Convert(test.want, test.to)
		if err != nil || back != x || v.String() != u.String() {
			t.Errorf("Convert(%q, %q) = %v %v, %v, want what it was", test.want, test.to, back, v, err)
		}
	}
}

func slack(t *testing.T, tolerance string, want float64) float64 {
	t.Helper()
	if tolerance == "exact" {
		return 0
	}
	rule, text, _ := strings.Cut(tolerance, " ")
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || rule != "rel" && rule != "abs" {
		t.Fatalf("tolerance %q", tolerance)
	}
	if rule == "rel" {
		x *= math.Abs(want)
	}
	return x
}

// TestConvertDecimals converts decimals by factors that are decimals: what
// comes out is the decimal.
func TestConvertDecimals(t *testing.T) {
	for _, test := range []struct{ value, to, want string }{
		{"0.1 in", "mm", "2.54"},
		{"0.07 1", "%", "7"},
		{"2.3 %", "1", "0.023"},
		{"1.1 t", "kg", "1100"},
		{"0.3 bar(g)", "kPa(g)", "30"},
		{"12.7 degC", "K", "285.85"},
		{"1 1/K", "1/degC", "1"},
		{"-273.15 degC", "K", "0"},
		{"-0.2 bar(g)", "kPa(g)", "-20"},
		{"3 N.m", "J", "3"},
		{"3 kWh", "N.m", "10800000"},
		{"7", "1", "7"},
		{"3 million", "1", "3000000"},
		{"1 kPa/(m/s)", "Pa s/m", "1000"},
		{"1e-400 m", "mm", "0"},
		{"0 degF_diff", "K", "0"},
	} {
		x, u, err := paperprop.Convert(test.value, test.to)
		if got := string(paperprop.AppendShort(nil, x)); err != nil || got != test.want {
			t.Errorf("Convert(%q, %q) = %s %v, %v, want %s", test.value, test.to, got, u, err, test.want)
		}
	}
}

func TestConvertErrors(t *testing.T) {
	for _, test := range []struct{ value, to, want string }{
		{"12", "m", `value "12": unit missing`},
		{"12 m", "", `"1" is no unit of length, want mm or m`},
		{"12 m", "fet", `unknown unit "fet", near: ft, feet`},
		{"12 Nm", "J", `unknown unit "Nm", near: N.m, nm, mm, m`}, // a product without its sign first
		{"12 mNm", "J", `unknown unit "mNm", near: mN.m, mm, mN, mpm`},
		{"1 234 kg", "g", `number "1 234 kg": blanks between digits, write 1234`},
		{"123 456 kg", "g", `number "123 456 kg": blanks between digits, write 123456`},
		{"1 234.5 kg", "g", `number "1 234.5 kg": blanks between digits, write 1234.5`},
		{"1 234. kg", "g", `number "1 234. kg": blanks between digits, write 1234`},
		{"-12 345 678,9 kg", "g", `number "-12 345 678,9 kg": blanks between digits, write -12345678.9`},
		{"1234 567 kg", "g", `unit "567 kg": a number among units, want one number with one unit`},
		{"1.234,5 kg", "g", `number "1.234,5 kg": points between digits and a decimal comma, write 1234.5`},
		{"1'234 kg", "g", `number "1'234 kg": ' between digits, leave it out`},
		{"5 ft 3 in", "mm", `unit "ft 3 in": a number among units, want one number with one unit`},
		{"1/3 kg", "g", `number "1/3 kg": a fraction, want a decimal number`},
		{"12 kg", "N", `"N" is no unit of mass (kg is a mass, a force is kgf: 12 kgf)`},
		{"25 lb/in", "kN/m", `"kN/m" is no unit of coarseness (lb is a mass, a force is lbf: 25 lbf/in)`},
		{"44 lbs/in", "kN/m", `"kN/m" is no unit of coarseness (lbs is a mass, a force is lbf: 44 lbf/in)`},
		{"4 lb/in2", "kPa", `"kPa" is no unit of grammage (lb is a mass, a force is lbf: 4 lbf/in2)`},
		{"5 g", "mN", `"mN" is no unit of mass (g is a mass, a force is gf: 5 gf)`},
		{"12 kg", "m", `"m" is no unit of mass, want kg or mg`},
		{"20 lb", "g/m2", `"g/m2" is no unit of mass, want kg or t (a mass per area; pounds of a ream have to name it as lb/17x22-500 does)`},
		{"5 mg", "mN", `"mN" is no unit of mass, want kg or mg`},
		{"4 () kg", "g", `unit "() kg": a unit is missing`},
		{"4.0(1) %", "g/g", `unit "(1) %": a number in brackets, want a unit alone; an uncertainty is for inputs, right after the value: 4.0(1) %`},
		{"500 t/h ± 1 %", "kg/h", `number "500 t/h ± 1 %": an uncertainty, want the value alone`},
		{"[1 2] kg", "g", `number "[1 2] kg": a list, want one number`},
		{"12,5 kg", "g", `number "12,5 kg": decimal comma, write 12.5`},
		{"1 1/K", "m", `1/K is of dimension 1/K and m a unit of length: one cannot be converted into the other`},
		{"1 EUR/t", "USD/t", `EUR/t and USD/t are prices in two currencies: one cannot be converted into the other`},
		{"1 USD/short ton", "GBP/t", `USD/short ton and GBP/t are prices in two currencies: one cannot be converted into the other`},
		{"1e400 kg", "g", `number "1e400 kg": too large`},
		{"-273.151 degC", "K", "value is -273.151 degC, want at least -273.15 degC"},
		{"-460 degF", "K", "value is -460 degF, want at least -459.67 degF"},
	} {
		x, u, err := paperprop.Convert(test.value, test.to)
		if err == nil || err.Error() != test.want {
			t.Errorf("Convert(%q, %q) = %v %v, %v\nwant error %s", test.value, test.to, x, u, err, test.want)
		}
	}
}

// TestConvertKind has the rule that of the kinds that list both units, the first
// gives its own: what is converted from kilograms is no ream's weight.
func TestConvertKind(t *testing.T) {
	for _, test := range []struct{ value, to, kind string }{
		{"3 kg", "g", "Mass"},
		{"3 g", "kg", "Mass"},
		{"3 odt", "kg", "OvenDryMass"},
		{"3 m/s", "m/min", "Speed"},
		{"4 %", "ppm", "Fraction"},
		{"3 mN.m", "lbf.in", "BendingStiffness"},
		{"3 lbf.in", "mN.m", "BendingStiffness"},
		{"3 kg2", "g2", ""},
	} {
		_, u, err := paperprop.Convert(test.value, test.to)
		name := ""
		if k := u.Kind(); k != nil {
			name = k.Name()
		}
		if err != nil || u.String() != test.to || name != test.kind {
			t.Errorf("Convert(%q, %q) is in %v of %q, %v, want %q", test.value, test.to, u, name, err, test.kind)
		}
	}
}

func TestUnitConvert(t *testing.T) {
	for _, test := range []struct {
		x        float64
		from, to string
		want     float64
		fits     bool
	}{
		{0.1, "in", "mm", 2.54, true},
		{20, "degC", "K", 293.15, true},
		{73.4, "degF", "degC", 23, true},
		{3, "N.m", "J", 3, true},
		{4, "%", "1", 0.04, true},
		{1, "1/degF", "1/K", 1.8, true},
		{5, "1/K", "1/K", 5, true},
		{45.359237, "EUR/short ton", "EUR/t", 50, true},
		{1, "EUR/t", "USD/t", 0, false},
		{1, "kg", "N", 0, false},
		{1, "bar(g)", "bar(a)", 0, false},
		{1, "bar(g)", "bar", 0, false},
		{1, "degC", "degF_diff", 0, false},
		{1, "odt", "kg", 0, false},
		{1, "million", "%", 0, false},
		{math.NaN(), "in", "mm", 0, false},
	} {
		from, to := unit(t, test.from), unit(t, test.to)
		got, err := from.Convert(test.x, to)
		if got != test.want || (err == nil) != test.fits {
			t.Errorf("%v %v is %v %v, %v, want %v", test.x, from, got, to, err, test.want)
		}
	}
}

// TestConvertExactly turns numbers to and fro: none is rounded, and none changed.
func TestConvertExactly(t *testing.T) {
	for _, test := range []struct{ x, from, to, want string }{
		{"273", "in", "ft", "91/4"},
		{"0.1", "mm", "in", "1/254"},
		{"205", "g/m2", "g/m2", "205"},
		{"73.4", "degF", "degC", "23"},
		{"1", "1/degF", "1/K", "9/5"},
		{"0.1000000000000000000001", "m", "mm", "100.0000000000000000001"},
		{"1", "kg", "N", ""},
		{"1", "degC", "degF_diff", ""},
	} {
		from, to := unit(t, test.from), unit(t, test.to)
		x, _ := new(big.Rat).SetString(test.x)
		got, err := from.ConvertExactly(x, to)
		if want, ok := new(big.Rat).SetString(test.want); ok != (err == nil) || ok && got.Cmp(want) != 0 {
			t.Errorf("%s %v is %v %v, %v, want %s", test.x, from, got, to, err, test.want)
			continue
		}
		if err != nil {
			continue
		}
		if back, err := to.ConvertExactly(got, from); err != nil || back.Cmp(x) != 0 {
			t.Errorf("%s %v is %v %v, and back %v, %v", test.x, from, got, to, back, err)
		}
	}
}

func TestLeadingNumber(t *testing.T) {
	for text, want := range map[string]string{
		"4.05(2) %": "4.05", "4.0 ± 0.1 %": "4", "−2.5e-3kg": "-0.0025", ".5": "0.5",
		"2.50000000000000000001": "2.50000000000000000001", "1 2": "1",
		"mean(1 2) kg": "", "[1 2] kg": "", "": "", "1e999": "", "5. kg": "",
	} {
		got, ok := paperprop.LeadingNumber(text)
		if number, isNumber := new(big.Rat).SetString(want); ok != isNumber || ok && got.Cmp(number) != 0 {
			t.Errorf("LeadingNumber(%q) = %v, %v, want %q", text, got, ok, want)
		}
	}
}

// TestUnitMethods takes one number through From, To, SI and Difference.
func TestUnitMethods(t *testing.T) {
	for _, test := range []struct {
		kind, unit             string
		from, factor, offset   float64 // of 1 in the unit
		difference, dimensions string
	}{
		{"Mass", "t", 1000, 1000, 0, "t", "kg"},
		{"MassFlow", "t/h", 1, 1 / 3.6, 0, "t/h", "kg/s"},
		{"Grammage", "g/m2", 1, 0.001, 0, "g/m2", "kg/m2"},
		{"Force", "kN", 1000, 1000, 0, "kN", "kg m/s2"},
		{"Angle", "rad", 180 / math.Pi, 180 / math.Pi, 0, "rad", "deg"},
		{"Temperature", "degC", 1, 1, 273.15, "K", "K"},
		{"Temperature", "K", -272.15, 1, 0, "K", "K"},
		{"Temperature", "degF", -155. / 9, 5. / 9, 459.67 * 5 / 9, "degF_diff", "K"},
		{"Dosage", "%", 10, 0.01, 0, "%", "1"},
		{"Pressure", "psi", 6.894757293168361, 6894.757293168361, 0, "psi", "kg/(m s2)"},
	} {
		u, err := kind(t, test.kind).Unit(test.unit)
		if err != nil {
			t.Fatal(err)
		}
		factor, offset := u.SI()
		if !close(u.From(1), test.from) || !close(factor, test.factor) || !close(offset, test.offset) ||
			u.Difference().String() != test.difference || u.Dimension().String() != test.dimensions || !close(u.To(u.From(1)), 1) {
			t.Errorf("%s %v: From(1) %v, SI %v %v, Difference %v, Dimension %v, To(From(1)) %v, want %+v",
				test.kind, u, u.From(1), factor, offset, u.Difference(), u.Dimension(), u.To(u.From(1)), test)
		}
	}
	var none paperprop.Unit
	factor, offset := none.SI()
	if !none.IsZero() || none.String() != "" || none.Kind() != nil || none.From(3) != 3 || none.To(3) != 3 || factor != 1 || offset != 0 || none.Difference() != none {
		t.Error("the zero Unit is not none")
	}
}

func close(a, b float64) bool { return math.Abs(a-b) <= 4e-15*math.Abs(b) }

func TestKinds(t *testing.T) {
	for _, k := range paperprop.Kinds() {
		found, ok := paperprop.KindNamed(k.Name())
		if !ok || found != k {
			t.Errorf("KindNamed(%s) is another", k.Name())
		}
		if k.Canonical() != k.Units()[0] || k.Canonical().From(3) != 3 {
			t.Errorf("%s: the canonical unit is not the first", k.Name())
		}
		if min, max := k.Range(); !(min < max) {
			t.Errorf("%s: range %v to %v", k.Name(), min, max)
		}
		for _, u := range k.Units() {
			if v, err := k.Unit(u.String()); err != nil || v != u || u.Kind() != k {
				t.Errorf("%s: Unit(%q) is %v, %v", k.Name(), u, v, err)
			}
		}
	}
	if _, ok := paperprop.KindNamed("grammage"); ok {
		t.Error("a kind named grammage")
	}
	for _, test := range []struct {
		kind, print string
		min, max    float64
	}{
		{"Consistency", "%", 0, 1},
		{"Fraction", "%", math.Inf(-1), math.Inf(1)},
		{"Temperature", "degC", -273.15, math.Inf(1)},
		{"Grammage", "g/m2", 0, math.Inf(1)},
		{"GaugePressure", "bar(g)", math.Inf(-1), math.Inf(1)},
		{"AbsolutePressure", "bar(a)", 0, math.Inf(1)},
	} {
		k := kind(t, test.kind)
		if min, max := k.Range(); min != test.min || max != test.max || k.Print().String() != test.print {
			t.Errorf("%s: range %v to %v, printed in %v, want %+v", test.kind, min, max, k.Print(), test)
		}
	}
}

func TestKindCheck(t *testing.T) {
	for _, test := range []struct {
		kind  string
		value float64
		want  string
	}{
		{"Moisture", 0, ""}, {"Moisture", 1, ""}, {"Fraction", -3, ""}, {"GaugePressure", -0.9, ""},
		{"Moisture", 7.5, "moisture is 750 %, want 0 % to 100 %"},
		{"Mass", -1, "mass is -1 kg, want at least 0 kg"},
		{"Temperature", -300, "temperature is -300 degC, want at least -273.15 degC"},
		{"Moisture", math.NaN(), "moisture is NaN %, want a finite number"},
		{"Grammage", math.Inf(1), "grammage is +Inf g/m2, want a finite number"},
	} {
		err := kind(t, test.kind).Check(test.value)
		if got := fmt.Sprint(err); got != cmp.Or(test.want, "<nil>") || err != nil && !errors.Is(err, paperprop.ErrRange) {
			t.Errorf("Check(%v) of %s: %v, want %s", test.value, test.kind, err, test.want)
		}
	}
}

// TestComposedTooFine takes a unit whose exact factor has more than 64 bits.
func TestComposedTooFine(t *testing.T) {
	k := kind(t, "BendingIndex")
	u, err := k.Unit("lbf ft7/oz3")
	if err != nil {
		t.Fatal(err)
	}
	const want = 4.4482216152605 * (0.3048 * 0.3048 * 0.3048 * 0.3048 * 0.3048 * 0.3048 * 0.3048) / (0.028349523125 * 0.028349523125 * 0.028349523125)
	factor, _ := u.SI()
	if u.From(1) != want || factor != want {
		t.Errorf("From(1) is %v, SI %v, want %v (published: NIST HB 44 C, SP 811 B.8)", u.From(1), factor, want)
	}
	for _, v := range []float64{want, 3 * want, 0.1, 1e-200} {
		text := k.Format(v, u)
		if got, _, err := k.Parse(text); err != nil || got != v {
			t.Errorf("%v is %q, which parses to %v, %v", v, text, got, err)
		}
	}
	if got, err := u.Read([]byte("1"), '.'); err != nil || got != want {
		t.Errorf("Read(1) is %v, %v, want %v", got, err, want)
	}
}

// TestTemperature checks fixed points as the SI Brochure and NIST SP 811
// (2008) B.8 define the scales: published.
func TestTemperature(t *testing.T) {
	for _, test := range []struct{ celsius, kelvin, fahrenheit float64 }{
		{-273.15, 0, -459.67},
		{-40, 233.15, -40},
		{0, 273.15, 32},
		{23, 296.15, 73.4},
		{100, 373.15, 212},
	} {
		for name, x := range map[string]paperprop.Temperature{
			"Celsius": paperprop.Celsius(test.celsius), "Kelvin": paperprop.Kelvin(test.kelvin), "Fahrenheit": paperprop.Fahrenheit(test.fahrenheit),
		} {
			if x.Celsius() != test.celsius || !(math.Abs(x.Kelvin()-test.kelvin) <= 1e-13) || !(math.Abs(x.Fahrenheit()-test.fahrenheit) <= 1e-13) {
				t.Errorf("from %s: %v °C, %v K, %v °F, want %+v", name, x.Celsius(), x.Kelvin(), x.Fahrenheit(), test)
			}
		}
	}
}

// A number has no unit to be named.
func TestConversionToANumber(t *testing.T) {
	var number paperprop.Unit
	newton := paperprop.Newton.Kind().Canonical()
	for want, units := range map[string][2]paperprop.Unit{
		"N is a unit of force and a number alone without a unit: one cannot be converted into the other": {newton, number},
		"a number alone is without a unit and N a unit of force: one cannot be converted into the other": {number, newton},
	} {
		if _, err := units[0].Convert(1, units[1]); err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestWords(t *testing.T) {
	if got := kind(t, "OvenDryMass").Words(); got != "oven-dry mass" {
		t.Errorf("Words is %q", got)
	}
}

// A file may be full of units that are none: what may have been meant is looked for once, not
// once for each kind of quantity.
func TestRefusedUnitIsCheap(t *testing.T) {
	k, ok := paperprop.KindNamed("MassFlow")
	if !ok {
		t.Fatal("no MassFlow")
	}
	for name, refused := range map[string]func(){
		"Convert": func() { paperprop.Convert("300 xyzzy/hqkw long", "g") },
		"Parse":   func() { k.Parse("300 xyzzy/hqkw long") },
	} {
		if n := testing.AllocsPerRun(10, refused); n > 60 {
			t.Errorf("%s: %v allocations, want at most 60", name, n)
		}
	}
}
