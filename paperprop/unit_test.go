package paperprop

import (
	"errors"
	"math/big"
	"math/rand/v2"
	"reflect"
	"strconv"
	"testing"
)

// TestFactors holds the factor that floats are multiplied by against the exact one.
func TestFactors(t *testing.T) {
	for i := range units {
		u := &units[i]
		if want, _ := u.exact.rat().Float64(); u.factor != want {
			t.Errorf("%s %q: factor %v, want %v/%v", kinds[u.kind].name, u.name, u.factor, u.exact.num, u.exact.den)
		}
	}
}

// TestCurrency reads the currency of prices, and finds the unit of one size in it.
func TestCurrency(t *testing.T) {
	for _, test := range []struct{ unit, currency, inEuros string }{
		{"1/t", "", "EUR/t"},
		{"USD/t", "USD", "EUR/t"},
		{"GBP/short ton", "GBP", "EUR/short ton"},
		{"1/kg", "", "1/kg"}, // composed
	} {
		u, err := kinds[kindPrice].Unit(test.unit)
		if err != nil || u.Currency() != test.currency || u.PricedIn("EUR").String() != test.inEuros || u.PricedIn("") != u {
			t.Errorf("%s is in %q, %v, in euros %v, want %q and %s", test.unit, u.Currency(), err, u.PricedIn("EUR"), test.currency, test.inEuros)
		}
	}
	kg := kinds[kindMass].Canonical()
	if (Unit{}).Currency() != "" || kg.Currency() != "" || (Unit{}).PricedIn("EUR") != (Unit{}) || kg.PricedIn("EUR") != kg {
		t.Error("a unit that is no price has a currency")
	}
}

// TestFromAndToRoundOnce has the law that where the number and both parts of the
// factor are small whole numbers, the quotient alone is rounded.
func TestFromAndToRoundOnce(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	small := 0
	for i := range units {
		u := Unit{&units[i]}
		if u.u.shift != 0 || max(u.u.exact.num, u.u.exact.den) > 1e11 {
			continue
		}
		small++
		for range 20 {
			x := int64(random.IntN(1e4))
			from, _ := u.exactly(big.NewRat(x, 1)).Float64()
			to, _ := new(big.Rat).Quo(big.NewRat(x, 1), u.u.rat()).Float64()
			if f := float64(x); u.From(f) != from || u.To(f) != to {
				t.Errorf("%v: From(%d) is %v, To %v, want %v and %v", u, x, u.From(f), u.To(f), from, to)
			}
		}
	}
	if small < 200 {
		t.Errorf("only %d units", small)
	}
}

// TestRoundingWhereFloatsEnd reads numbers whose product with the factor, or they
// themselves, are near 2^53, behind which not all whole numbers are floats. The
// composed units have a factor of large numbers, or 2^48 below the stroke. What is
// right is said by math/big (a library).
func TestRoundingWhereFloatsEnd(t *testing.T) {
	random := rand.New(rand.NewPCG(19, 20))
	list := make([]Unit, len(units))
	for i := range list {
		list[i] = Unit{&units[i]}
	}
	for _, text := range []string{"g3/lb2", "lb2/kg", "oz9 oz3/(lb9 lb3)"} {
		u, err := ParseUnit(text)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, u)
	}
	for _, u := range list {
		times := 300
		if u.u.shift != 0 {
			times = 10_000 // of a temperature all must come together: 16 digits, 10 of them decimals
		}
		for range times {
			digits := uint64(1<<53 + random.Int64N(1<<41) - 1<<40)
			switch random.IntN(3) {
			case 0:
				digits /= u.u.exact.num
			case 1:
				digits = random.Uint64N(1000)
			}
			text := strconv.FormatUint(digits, 10) + "e-" + strconv.Itoa(random.IntN(22))
			if random.IntN(3) == 0 {
				text = "-" + text
			}
			x, _ := new(big.Rat).SetString(text)
			want, _ := u.exactly(x).Float64()
			if got, err := u.Read([]byte(text), '.'); err != nil || got != want {
				t.Fatalf("%v: Read(%s) = %v, %v, want %v", u, text, got, err, want)
			}
		}
	}
}

// TestIn takes a number of every type out in every unit of a random size. Of a
// temperature Celsius, Kelvin and Fahrenheit do it.
func TestIn(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 18))
	for _, p := range properties() {
		in := reflect.ValueOf(p).Elem().MethodByName("In")
		if !in.IsValid() {
			if _, ok := p.(*Temperature); !ok {
				t.Errorf("%T has no method In", p)
			}
			continue
		}
		x, unit := random.NormFloat64(), random.Float64()
		*p.Number() = x
		argument := reflect.ValueOf(unit).Convert(in.Type().In(0))
		if got := in.Call([]reflect.Value{argument})[0].Float(); got != x/unit {
			t.Errorf("%T: In(%v) of %v is %v, want %v", p, unit, x, got, x/unit)
		}
	}
}

// A kind suggests its own units, and no unit of the kind that stands before or after it in
// the table of units.
func TestSuggestsOwnUnits(t *testing.T) {
	all := Kinds()
	for i, k := range all {
		texts := []string{""}
		for _, beside := range all[max(0, i-1):min(i+2, len(all))] {
			for _, u := range beside.Units() {
				texts = append(texts, u.String()+"x", u.String()+"xx")
			}
		}
		for _, text := range texts {
			_, err := k.Unit(text)
			var e *UnitError
			if !errors.As(err, &e) || e.Text != text || e.Fault == AmbiguousUnit || k.pure() {
				continue // a unit of the kind, a part of a text, or what it may mean beside
			}
			for _, unit := range e.Candidates {
				if _, err := k.Unit(unit); err != nil {
					t.Errorf("%s: %q, near %q: %v", k.Name(), text, e.Candidates, err)
				}
			}
		}
	}
}
