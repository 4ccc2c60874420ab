package result_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"millmaths.example/paperprop/result"
)

var allRules = rules()

func rules() []result.Rule {
	var all []result.Rule
	for _, tie := range []result.Tie{result.Even, result.Away} {
		for n := 1; n <= 15; n++ {
			all = append(all, result.Figures(n, tie))
		}
		for _, mantissa := range []int64{1, 2, 5, 25, 3, 7, 999_999_999_999} {
			for exponent := int32(-23); exponent <= 16; exponent++ {
				all = append(all, result.StepOf(mantissa, exponent, tie))
			}
		}
	}
	return all
}

// everyday returns numbers as a mill's files hold them, and what lies next to
// the ties of a rule.
func everyday(r *rand.Rand) float64 {
	x := (r.Float64() - 0.3) * math.Pow(10, float64(r.IntN(14)-5))
	switch r.IntN(4) {
	case 0:
		return x
	case 1:
		x = math.Round(x*1000) / 1000
	case 2:
		digits := strconv.FormatInt(r.Int64N(1e7), 10) + "5e" + strconv.Itoa(r.IntN(24)-16)
		x, _ = strconv.ParseFloat(digits, 64)
	case 3:
		return math.Float64frombits(r.Uint64() &^ (1 << 62))
	}
	for range r.IntN(4) {
		x = math.Nextafter(x, math.Inf(1-2*r.IntN(2)))
	}
	return x
}

func TestAppendEqualsText(t *testing.T) {
	random := rand.New(rand.NewPCG(2026, 11))
	got := make([]byte, 0, 64)
	for i := range 1_000_000 {
		x, rule := everyday(random), allRules[i%len(allRules)]
		got = rule.Append(got[:0], x)
		if want := rule.Text(result.Exact(x)); string(got) != want {
			t.Fatalf("%v: Append(%v) = %s, want %s as the exact path has it", rule, x, got, want)
		}
	}
}

// A carry makes a figure more, and a power of ten has its own number of figures.
// Kind: common-practice, by hand.
func TestAppendAtPowersOfTen(t *testing.T) {
	for _, test := range []struct {
		figures int
		x       float64
		want    string
	}{
		{1, 9.6, "10"}, {2, 99.6, "100"}, {3, 999.6, "1000"}, {2, 9.96, "10"}, {2, 0.0996, "0.10"}, {4, 0.99999, "1.000"},
		{1, 10, "10"}, {2, 10, "10"}, {3, 10, "10.0"}, {2, 100, "100"}, {2, 1, "1.0"}, {2, 0.1, "0.10"}, {2, 1e-6, "0.0000010"}, {3, 1000, "1000"},
	} {
		rule := result.Figures(test.figures, result.Even)
		if got := string(rule.Append(nil, test.x)); got != test.want || rule.Round(test.x) != test.want {
			t.Errorf("%v to %d figures is %s, and %s by Round, want %s", test.x, test.figures, got, rule.Round(test.x), test.want)
		}
	}
}

// What stands before stays, in room of any size.
func TestAppendInNarrowRoom(t *testing.T) {
	rule := result.StepOf(1, -2, result.Even)
	for room := range 40 {
		dst := append(make([]byte, 0, 1+room), '<')
		if got := string(rule.Append(dst, 1234.5)); got != "<1234.50" {
			t.Errorf("in room for %d: %s", room, got)
		}
	}
}

func BenchmarkAppend(b *testing.B) {
	random := rand.New(rand.NewPCG(1, 2))
	values := make([]float64, 1024)
	for i := range values {
		values[i] = 20 + 480*random.Float64()
	}
	readings := make([]float64, 1024)
	for i := range readings {
		readings[i] = math.Round(values[i]*100) / 100
	}
	for _, bench := range []struct {
		name   string
		rule   result.Rule
		values []float64
	}{
		{"step=0.1", result.StepOf(1, -1, result.Even), values},
		{"step=0.1/readings=0.01", result.StepOf(1, -1, result.Even), readings},
		{"step=0.5", result.StepOf(5, -1, result.Even), values},
		{"step=5", result.StepOf(5, 0, result.Even), values},
		{"figures=3", result.Figures(3, result.Even), values},
	} {
		b.Run(bench.name, func(b *testing.B) {
			dst := make([]byte, 0, 64)
			for i := 0; b.Loop(); i++ {
				dst = bench.rule.Append(dst[:0], bench.values[i%1024])
			}
		})
	}
	b.Run("strconv=0.1", func(b *testing.B) {
		var dst []byte
		for i := 0; b.Loop(); i++ {
			dst = strconv.AppendFloat(dst[:0], values[i%1024], 'f', 1, 64)
		}
	})
}

func TestAppendAllocatesNothing(t *testing.T) {
	dst := make([]byte, 0, 64)
	for _, rule := range []result.Rule{result.Figures(3, result.Even), result.StepOf(5, -1, result.Away), result.StepOf(50, 0, result.Even)} {
		for _, x := range []float64{0, -0.04, 80.05, 99.95, 127.25, 12345.678} {
			if n := testing.AllocsPerRun(10, func() { dst = rule.Append(dst[:0], x) }); n != 0 {
				t.Errorf("%v: Append(%v) allocates %v times", rule, x, n)
			}
		}
	}
}

// lost is how much of what was in a dish has gone, in per cent.
func lost(dish, moist, dry float64) float64 { return 100 * (moist - dry) / (moist - dish) }

// A computed number beside a tie is the tie; one that lies further off is not.
// Ties by ISO 80000-1 rule A (common practice, reckoned by hand).
func TestAppendComputed(t *testing.T) {
	one, tenth := result.StepOf(1, 0, result.Even), result.StepOf(1, -1, result.Even)
	three := result.Figures(3, result.Even)
	for _, test := range []struct {
		rule result.Rule
		x    float64
		want string
	}{
		{tenth, lost(0, 10, 9.255), "7.4"},              // 7.449999999999992
		{tenth, lost(52.3104, 54.3104, 54.3054), "0.2"}, // 0.25, and 2e-12 of it: the dish weighs most
		{tenth, lost(0, 5.23, 5.227385), "0.0"},
		{tenth, 7.45 * (1 + 1e-10), "7.5"},
		{tenth, 7.45 * (1 - 1e-10), "7.4"},
		{tenth, 7.55 * (1 - 1e-10), "7.5"},
		{tenth, 7.55 * (1 - 1e-15), "7.6"},
		{three, 5.0750 / 0.05, "102"},
		{three, 30.525 / 15, "2.04"},
		{three, -30.525 / 15, "-2.04"},
		{tenth, 74512.35 * (1 - 3e-14), "74512.4"},
		{one, 5e12 + 1.3, "5000000000001"}, // no tie, however small 0.2 is to it
		{tenth, 500000000000.255, "500000000000.3"},
		{result.StepOf(50000, 0, result.Even), 1000025000.005, "1000000000"},
	} {
		if got := string(test.rule.AppendComputed(nil, test.x)); got != test.want {
			t.Errorf("%v of %v is %s, want %s", test.rule, test.x, got, test.want)
		}
	}
}
