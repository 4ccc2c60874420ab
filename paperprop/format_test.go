package paperprop

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

// TestFormatParsesBack formats random values in every unit of every kind.
func TestFormatParsesBack(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, k := range Kinds() {
		for _, u := range k.Units() {
			for range 60 {
				checkFormat(t, k, u, randomFloat(random))
			}
			checkFormat(t, k, u, 0)
			checkFormat(t, k, u, u.From(1))
			checkFormat(t, k, u, u.From(0))
		}
	}
}

func checkFormat(t *testing.T, k *Kind, u Unit, v float64) {
	t.Helper()
	text := k.Format(v, u)
	got, read, err := k.Parse(text)
	if err != nil || got != v {
		t.Fatalf("%s %v in %v is %q, which parses to %v, %v", k.Name(), v, u, text, got, err)
	}
	if u.u.shift == 0 && v != 0 && read != u && !(k.pure() && u.u.factor == 1) {
		t.Errorf("%s %v in %v is written in another unit: %q", k.Name(), v, u, text)
	}
}

// TestFormatIsShortest tries all shorter numbers near each value, which are
// few: those with one digit less, rounded up and down.
func TestFormatIsShortest(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for _, k := range Kinds() {
		for _, u := range k.Units() {
			if u.u.shift != 0 {
				continue
			}
			for range 20 {
				v := randomFloat(random)
				number, _, _ := strings.Cut(k.Format(v, u), " ")
				if shorter := shorterThan(number, v, u); shorter != "" {
					t.Errorf("%s %v in %v is %s, but %s is shorter", k.Name(), v, u, number, shorter)
				}
			}
		}
	}
}

// AppendShort writes what Format writes, where that is in the same unit, and otherwise
// the digits of To.
func TestAppendShortInUnit(t *testing.T) {
	random := rand.New(rand.NewPCG(23, 24))
	for _, k := range Kinds() {
		for _, u := range k.Units() {
			for range 30 {
				v := randomFloat(random)
				want, unit, _ := strings.Cut(k.Format(v, u), " ")
				if unit != u.String() && !k.pure() {
					want = string(AppendShort(nil, u.To(v)))
				}
				if got := string(u.AppendShort(nil, v)); got != want {
					t.Errorf("%s %v in %v: %s, want %s", k.Name(), v, u, got, want)
				}
			}
		}
	}
	if got := string(Unit{}.AppendShort(nil, 0.1)); got != "0.1" {
		t.Errorf("no unit: %s, want 0.1", got)
	}
}

// TestQuick holds the digits for rows of a table against big numbers: they parse back,
// they are the nearest with their count, and nearly every value has them.
func TestQuick(t *testing.T) {
	random := rand.New(rand.NewPCG(25, 26))
	for _, of := range []struct {
		kind, unit string
		least      float64 // part of the values: near 0 degC, 17 digits are few in K
	}{
		{"Consistency", "%", 0.99}, {"Mass", "lb", 0.99}, {"Mass", "g", 0.99}, {"Grammage", "lb/1000ft2", 0.99}, {"Pressure", "psi", 0.99},
		{"Temperature", "degF", 0.9}, {"Temperature", "K", 0.5},
	} {
		k, _ := KindNamed(of.kind)
		u, err := k.Unit(of.unit)
		if err != nil {
			t.Fatal(err)
		}
		const values = 2000
		quick := 0
		for range values {
			v := (1 + random.Float64()) * math.Pow(10, 3*random.Float64())
			if random.IntN(2) == 0 {
				v = -v
			}
			d, ok := u.quick(v)
			if !ok {
				continue
			}
			quick++
			if got := u.canonical(d); got != v {
				t.Fatalf("%v in %v is %s, which parses to %v", v, u, d.append(nil), got)
			}
			if miss := missOf(u, d, v); miss.Cmp(big.NewRat(1, 2)) > 0 {
				t.Fatalf("%v in %v is %s, %s of its last digit off", v, u, d.append(nil), miss.FloatString(3))
			}
		}
		if float64(quick) < of.least*values {
			t.Errorf("%v: %d of %d values are quick", u, quick, values)
		}
		buffer := make([]byte, 0, 64)
		if n := testing.AllocsPerRun(100, func() { u.AppendShort(buffer, 123.456789012345678) }); n != 0 {
			t.Errorf("AppendShort in %v allocates %v times", u, n)
		}
	}
	// Halves of the steps between floats are not equal at a power of two.
	for _, v := range []float64{0, 2, math.Inf(1), math.NaN(), 5e-324, math.MaxFloat64} {
		if d, ok := kinds[kindMass].unit(1).quick(v); ok {
			t.Errorf("%v is quick: %v", v, d)
		}
	}
}

// missOf returns how far d is from the exact number in u, in steps of a digit.
func missOf(u Unit, d decimal, v float64) *big.Rat {
	for ; d.digits%10 == 0; d.exponent++ {
		d.digits /= 10
	}
	exact := new(big.Rat).SetFloat64(v)
	exact.Sub(exact, new(big.Rat).SetFrac64(u.u.shift, int64(max(u.u.exact.den, 1))))
	exact.Quo(exact, u.u.rat())
	number, _ := new(big.Rat).SetString(string(d.append(nil)))
	step, _ := new(big.Rat).SetString(fmt.Sprintf("1e%d", d.exponent))
	miss := exact.Sub(exact, number)
	return miss.Abs(miss).Quo(miss, step)
}

func shorterThan(number string, v float64, u Unit) string {
	x, _ := new(big.Rat).SetString(number)
	mantissa, _, _ := strings.Cut(number, "e")
	digits := len(strings.Trim(strings.ReplaceAll(mantissa, ".", ""), "-0"))
	if digits < 2 {
		return ""
	}
	f := new(big.Float).SetPrec(300).SetRat(x)
	for _, mode := range []big.RoundingMode{big.ToZero, big.AwayFromZero} {
		text := f.SetMode(mode).Text('e', digits-2)
		if got, err := read(text, '.', u); err == nil && got == v {
			return text
		}
	}
	return ""
}

// TestTemperatureKeepsItsUnit has the law that from 100 °C up and down no value
// needs more than 17 digits in kelvins or degrees Fahrenheit, so it is written in
// them. Nearer to nought it may go back to °C, which has room for it.
func TestTemperatureKeepsItsUnit(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 22))
	k := &kinds[kindTemperature]
	for _, u := range k.Units() {
		for range 20_000 {
			v := 100 * math.Pow(10, 5*random.Float64())
			if random.IntN(2) == 0 {
				v = -v
			}
			text := k.Format(v, u)
			if got, read, err := k.Parse(text); err != nil || got != v || read != u {
				t.Fatalf("%v in %v is %q, which parses to %v %v, %v", v, u, text, got, read, err)
			}
		}
	}
}

func TestFormat(t *testing.T) {
	for _, test := range []struct {
		value, want  string
		unit         string
		kind, source string
	}{
		{"127 g/m2", "127 g/m2", "g/m2", "common-practice", "definition"},
		{"26 lb/1000ft2", "26 lb/1000ft2", "lb/1000ft2", "common-practice", "definition"},
		{"205.06 g/m2", "205.06 g/m2", "g/m2", "common-practice", "definition"},
		{"1000000 g/m2", "1000000 g/m2", "g/m2", "common-practice", "definition"},
		{"1e15 g/m2", "1e+15 g/m2", "g/m2", "common-practice", "definition"},
		{"0.000001 g/m2", "0.000001 g/m2", "g/m2", "common-practice", "definition"},
		{"0.00000012 g/m2", "1.2e-07 g/m2", "g/m2", "common-practice", "definition"},
		{"-0 g/m2", "0 lb/1000ft2", "lb/1000ft2", "common-practice", "definition"},
	} {
		k := &kinds[kindGrammage]
		v, _, err := k.Parse(test.value)
		if err != nil {
			t.Fatal(err)
		}
		u, err := k.Unit(test.unit)
		if err != nil {
			t.Fatal(err)
		}
		if got := k.Format(v, u); got != test.want {
			t.Errorf("Format(%q, %s) = %q, want %q (%s: %s)", test.value, test.unit, got, test.want, test.kind, test.source)
		}
	}
	for text, want := range map[string]string{
		Consistency(0.0437).String():   "4.37 %",
		Moisture(0.07).String():        "7 %", // 0.07/0.01 is 7.000000000000001
		Count(3e6).String():            "3000000",
		Ratio(-0.5).String():           "-0.5",
		Fraction(2.5e-7).String():      "0.000025 %",
		MassRatio(1.5).String():        "1.5 kg/kg",
		Celsius(-273.15).String():      "-273.15 degC",
		Moisture(math.NaN()).String():  "NaN %",
		Grammage(math.Inf(1)).String(): "+Inf g/m2",
	} {
		if text != want {
			t.Errorf("String is %q, want %q", text, want)
		}
	}
	temperature := &kinds[kindTemperature]
	for _, test := range []struct{ unit, want string }{{"K", "0 K"}, {"degF", "-459.67 degF"}} {
		u, _ := temperature.Unit(test.unit)
		if got := temperature.Format(-273.15, u); got != test.want {
			t.Errorf("absolute zero in %s is %s, want %s (published: SI Brochure)", test.unit, got, test.want)
		}
	}
	tiny := temperature.Format(1e-20, temperature.unit(1))
	if tiny != "1e-20 degC" {
		t.Errorf("1e-20 °C in K is %q: no 17 digits of K are that", tiny)
	}
}

// TestPeople holds AppendPeople against strconv (a library): its 'g' with 6
// digits, in our layout.
func TestPeople(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	check := func(x float64) {
		t.Helper()
		text := strconv.FormatFloat(x, 'g', 6, 64)
		got := People(x)
		if g, err := strconv.ParseFloat(got, 64); err != nil || strconv.FormatFloat(g, 'g', 6, 64) != text {
			t.Fatalf("People(%v) = %s, want %s", x, got, text)
		}
		rounded, _ := strconv.ParseFloat(text, 64)
		if want := string(AppendShort(nil, rounded)); got != want {
			t.Fatalf("People(%v) = %s, want %s", x, got, want)
		}
	}
	for range 300_000 {
		check(randomFloat(random))
		check(float64(random.IntN(1e8)) / 64) // many ties
		check(math.Pow(10, float64(random.IntN(40)-20)) * (1 + float64(random.IntN(5)-2)*1e-7))
	}
	for e := -20; e < 20; e++ {
		x := math.Pow(10, float64(e))
		for _, y := range []float64{x, math.Nextafter(x, 0), math.Nextafter(x, 2*x), 0.9999995 * x, 0.99999949 * x, -x, 1.5 * x} {
			check(y)
		}
	}
	for x, want := range map[float64]string{0: "0", math.Copysign(0, -1): "0", 1234567: "1234570", 999999.5: "1000000", math.MaxFloat64: "1.79769e+308"} {
		if got := People(x); got != want {
			t.Errorf("People(%v) = %s, want %s", x, got, want)
		}
	}
}

func TestAppendShort(t *testing.T) {
	random := rand.New(rand.NewPCG(9, 10))
	for range 10_000 {
		x := randomFloat(random)
		text := string(AppendShort(nil, x))
		if got, err := ParseNumber(text); err != nil || got != x {
			t.Fatalf("AppendShort(%v) = %s, which parses to %v, %v", x, text, got, err)
		}
		if a := math.Abs(x); strings.Contains(text, "e") == (a >= 1e-6 && a < 1e15) {
			t.Fatalf("AppendShort(%v) = %s", x, text)
		}
	}
}

// Near the largest float a step of the conversion overflows where the number does not; the
// text is as short as elsewhere.
func TestHugeNumberIsShortToo(t *testing.T) {
	k := &kinds[kindBendingStiffness]
	u, err := k.Unit("lbf.in")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := k.Format(2.505999823417183e+298, u), "2.21799673901763e+296 lbf.in"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
