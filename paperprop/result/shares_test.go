package result_test

import (
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"millmaths.example/paperprop/result"
)

func decimals(t *testing.T, texts ...string) []decimal.Decimal {
	t.Helper()
	var all []decimal.Decimal
	for _, text := range texts {
		d, err := result.ParseDecimal(text)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, d)
	}
	return all
}

func TestShares(t *testing.T) {
	for _, test := range []struct {
		id           string
		parts        []string
		step         string
		want         []string
		kind, source string
	}{
		{"RS-209", []string{"1", "1", "1"}, "0.001", []string{"0.334", "0.333", "0.333"}, "common-practice", ownArithmetic},
		{"RS-210", []string{"12.5", "30.2", "8.8", "48.9"}, "0.01", []string{"0.12", "0.30", "0.09", "0.49"}, "common-practice", ownArithmetic},
		{"RS-211", []string{"220", "130", "95", "55"}, "0.005", []string{"0.44", "0.26", "0.19", "0.11"}, "common-practice", ownArithmetic},
		{"whole", []string{"2", "1"}, "1", []string{"1", "0"}, "common-practice", ownArithmetic},
		{"spread", []string{"1e300", "1e-300"}, "0.5", []string{"1", "0"}, "common-practice", ownArithmetic},
	} {
		got, err := result.Shares(decimals(t, test.parts...), decimals(t, test.step)[0])
		if diff := cmp.Diff(decimals(t, test.want...), got); err != nil || diff != "" {
			t.Errorf("%s: Shares(%v, %s): %v, -want +got (%s: %s)\n%s", test.id, test.parts, test.step, err, test.kind, test.source, diff)
		}
	}
}

func TestSharesRefuses(t *testing.T) {
	for _, test := range []struct {
		parts []string
		step  string
		want  string
	}{
		{[]string{"0", "0"}, "0.01", "the sum of the parts is 0, want above 0"},
		{nil, "0.01", "the sum of the parts is 0, want above 0"},
		{[]string{"5", "-1", "3"}, "0.01", "part 2 is -1, want 0 or above"},
		{[]string{"5"}, "0.3", "step is 0.3, want a fraction that divides 1, such as 0.001"},
		{[]string{"5"}, "0", "step is 0, want a fraction that divides 1, such as 0.001"},
		{[]string{"5"}, "2", "step is 2, want a fraction that divides 1, such as 0.001"},
		{[]string{"5"}, "-0.1", "step is -0.1, want a fraction that divides 1, such as 0.001"},
	} {
		if _, err := result.Shares(decimals(t, test.parts...), decimals(t, test.step)[0]); err == nil || err.Error() != test.want {
			t.Errorf("Shares(%v, %s): %v, want %s", test.parts, test.step, err, test.want)
		}
	}
}

// Shares add up to 1, and none is a step or more from its exact value.
func TestSharesAddUp(t *testing.T) {
	random := rand.New(rand.NewPCG(2026, 12))
	for range 2000 {
		parts := make([]decimal.Decimal, 1+random.IntN(12))
		for i := range parts {
			parts[i] = decimal.New(random.Int64N(1000), -int32(random.IntN(4)))
		}
		parts[0] = parts[0].Add(decimal.New(1, 0))
		step := decimals(t, []string{"0.1", "0.05", "0.01", "0.005", "0.001", "0.0002"}[random.IntN(6)])[0]
		shares, err := result.Shares(parts, step)
		if err != nil {
			t.Fatalf("Shares(%v, %v): %v", parts, step, err)
		}
		sum, whole := decimal.Sum(parts[0], parts[1:]...), decimal.Sum(shares[0], shares[1:]...)
		if !whole.Equal(decimal.New(1, 0)) {
			t.Fatalf("Shares(%v, %v) = %v, which add up to %v", parts, step, shares, whole)
		}
		for i, share := range shares {
			if off := share.Mul(sum).Sub(parts[i]).Abs(); !off.LessThan(step.Mul(sum)) {
				t.Fatalf("Shares(%v, %v) = %v: part %d is off by a step", parts, step, shares, i+1)
			}
		}
	}
}
