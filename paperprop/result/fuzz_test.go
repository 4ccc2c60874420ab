package result_test

import (
	"math"
	"math/big"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop/result"
)

// What is taken is a plain number within the guard, with the value that exact
// arithmetic gives it.
func FuzzParseDecimal(f *testing.F) {
	for _, text := range []string{"4.05", "-.5", "−2", "1e400", "5.", "1e", "0x1", "1_0", "+1", "1e-401", "1.2e+3", "--1", "1.-5"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := result.ParseDecimal(text)
		if err != nil {
			return
		}
		if len(text) > 64 {
			t.Fatalf("ParseDecimal(%q) takes %d bytes", text, len(text))
		}
		want, ok := new(big.Rat).SetString(strings.Replace(text, "−", "-", 1))
		if !ok || d.Rat().Cmp(want) != 0 {
			t.Fatalf("ParseDecimal(%q) = %v, want %v", text, d, want)
		}
	})
}

// The reported text parses, is within half a step of the shortest text of x,
// stays as it is when rounded again, and is the same by the fast path and the
// exact one.
func FuzzRound(f *testing.F) {
	f.Add(80.05, uint8(3), int64(1), int32(0), false)
	f.Add(99.95, uint8(3), int64(1), int32(0), true)
	f.Add(-0.04, uint8(0), int64(1), int32(-1), false)
	f.Add(2.675, uint8(0), int64(1), int32(-2), true)
	f.Add(132.5, uint8(0), int64(5), int32(0), false)
	f.Add(5e-324, uint8(0), int64(25), int32(-324), false)
	f.Add(1e23, uint8(15), int64(7), int32(3), false)
	f.Add(9.5367431640625e-7, uint8(2), int64(7), int32(3), false)
	f.Fuzz(func(t *testing.T, x float64, figures uint8, mantissa int64, exponent int32, away bool) {
		tie := result.Even
		if away {
			tie = result.Away
		}
		rule := result.StepOf(mantissa, exponent, tie)
		if figures > 0 {
			rule = result.Figures(int(figures), tie)
		}
		if rule.IsZero() || math.IsNaN(x) || math.IsInf(x, 0) {
			return
		}
		text := rule.Round(x)
		if exact := rule.Text(result.Exact(x)); text != exact {
			t.Fatalf("%v: Round(%v) = %s, but %s by the exact path", rule, x, text, exact)
		}
		got, ok := new(big.Rat).SetString(text)
		if !ok || strings.ContainsAny(text, "eE/") || got.Sign() == 0 && text[0] == '-' {
			t.Fatalf("%v: Round(%v) = %q", rule, x, text)
		}
		shortest := exactly(strconv.FormatFloat(x, 'g', -1, 64))
		off := new(big.Rat).Sub(got, shortest)
		if off.Abs(off).Mul(off, big.NewRat(2, 1)).Cmp(stepAt(x, int(figures), mantissa, exponent)) > 0 {
			t.Fatalf("%v: Round(%v) = %s, more than half a step off", rule, x, text)
		}
		if len(text) > 64 {
			return
		}
		again, err := result.ParseDecimal(text)
		if err != nil || rule.Text(again) != text {
			t.Fatalf("%v: Round(%v) = %s, rounded again %s, %v", rule, x, text, rule.Text(again), err)
		}
	})
}

// stepAt returns the step of a rule at x, in exact arithmetic.
func stepAt(x float64, figures int, mantissa int64, exponent int32) *big.Rat {
	if figures == 0 {
		return exactly(strconv.FormatInt(mantissa, 10) + "e" + strconv.Itoa(int(exponent)))
	}
	text := strconv.FormatFloat(x, 'e', -1, 64)
	_, power, _ := strings.Cut(text, "e")
	first, _ := strconv.Atoi(power)
	return exactly("1e" + strconv.Itoa(first-figures+1))
}

func exactly(text string) *big.Rat {
	x, ok := new(big.Rat).SetString(text)
	if !ok {
		panic(text + " is no number")
	}
	return x
}
