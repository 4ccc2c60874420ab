package result_test

import (
	"math"
	"testing"

	"millmaths.example/paperprop/result"
)

// The critical values of one ratio fall as readings are added; a slip of the pen
// in a table shows as one that does not. Kind: published. Source: the rule of
// reading such tables, and OUT-022 to OUT-030.
func TestDixonLimitsFall(t *testing.T) {
	for n := 4; n <= 30; n++ {
		before, limit := result.DixonLimit(n-1), result.DixonLimit(n)
		if result.DixonRatioOf(n-1) == result.DixonRatioOf(n) && limit >= before {
			t.Errorf("DixonLimit(%d) = %v, want below the %v of %d", n, limit, before, n-1)
		}
		if !(limit > 0.3 && limit < 1) {
			t.Errorf("DixonLimit(%d) = %v, want a part of 1", n, limit)
		}
	}
	for _, n := range []int{-1, 2, 31} {
		if got := result.DixonLimit(n); !math.IsNaN(got) {
			t.Errorf("DixonLimit(%d) = %v, want NaN", n, got)
		}
	}
}

// Kind: common-practice, by hand.
func TestDixonRatios(t *testing.T) {
	x := []float64{10, 1, 4, 6, 7, 9, 3} // in order 1 3 4 6 7 9 10
	for _, test := range []struct {
		ratio           result.DixonRatio
		lowest, highest float64
	}{
		{result.R10, 2.0 / 9, 1.0 / 9},
		{result.R11, 2.0 / 8, 1.0 / 7},
		{result.R21, 3.0 / 8, 3.0 / 7},
		{result.R22, 3.0 / 6, 3.0 / 6},
	} {
		low, _ := test.ratio.Of(x, false)
		high, _ := test.ratio.Of(x, true)
		if low != test.lowest || !(math.Abs(high-test.highest) <= 1e-15) {
			t.Errorf("ratio %d is %v and %v, want %v and %v", test.ratio, low, high, test.lowest, test.highest)
		}
		if _, ok := test.ratio.Of(x[:test.ratio.Least()], false); !ok {
			t.Errorf("no ratio %d of %d readings", test.ratio, test.ratio.Least())
		}
		if q, ok := test.ratio.Of(x[:test.ratio.Least()-1], false); ok {
			t.Errorf("ratio %d of %d readings is %v, want none", test.ratio, test.ratio.Least()-1, q)
		}
	}
	if q, ok := result.R10.Of([]float64{2, 2, 2}, true); ok {
		t.Errorf("ratio without a range is %v, want none", q)
	}
}

// A ratio that equals the critical value of its table comes out equal, whatever the
// readings are as float64s (common-practice, by hand: 0.19/0.40, 0.9/2.0, 4.3/10).
func TestDixonRatioAtItsLimit(t *testing.T) {
	for _, test := range []struct {
		first, next, last float64 // suspect, second nearest and end of the range
		count             int
		highest           bool
	}{
		{5.52, 5.71, 5.92, 18, false},
		{-5.52, -5.71, -5.92, 18, true},
		{0.3, 1.2, 2.3, 20, false},
		{10.2, 14.5, 20.2, 22, false},
	} {
		x := []float64{test.first, test.next}
		for len(x) < test.count-3 {
			x = append(x, test.next)
		}
		x = append(x, test.last, test.last, test.last)
		q, ok := result.R22.Of(x, test.highest)
		if limit := result.DixonLimit(test.count); !ok || q != limit {
			t.Errorf("R22.Of(%v) = %v, %v, want the critical value %v", x, q, ok, limit)
		}
	}
}

func TestGrubbsLimit(t *testing.T) {
	for _, test := range []struct {
		count        int
		significance float64
		either       bool
		want         float64
		kind, source string
	}{
		{8, 0.05, false, 2.031652001549944, "published", "NIST/SEMATECH e-Handbook 1.3.5.17.1, seen in public test suites that cite it"}, // OUT-001
		{5, 0.05, true, 1.715037312, "library", scipy},   // RS-225
		{20, 0.05, true, 2.708245645, "library", scipy},  // OUT-020
		{25, 0.05, false, 2.662873129, "library", scipy}, // OUT-015
	} {
		if got := result.GrubbsLimit(test.count, test.significance, test.either); !(math.Abs(got/test.want-1) <= 1e-8) {
			t.Errorf("GrubbsLimit(%d, %v, %v) = %.10g, want %.10g (%s: %s)", test.count, test.significance, test.either, got, test.want, test.kind, test.source)
		}
	}
	for n := 3; n < 200; n++ {
		if limit, most := result.GrubbsLimit(n, 0.01, true), result.GrubbsLargest(n); !(limit < most) {
			t.Errorf("GrubbsLimit(%d) = %v, want below the largest statistic %v", n, limit, most)
		}
	}
	for n := -1; n < 3; n++ {
		if got := result.GrubbsLargest(n); !math.IsNaN(got) {
			t.Errorf("GrubbsLargest(%d) = %v, want NaN", n, got)
		}
	}
	for _, bad := range []struct {
		count        int
		significance float64
	}{{2, 0.05}, {10, 0}, {10, 1}, {10, 2}, {10, -0.05}, {10, math.NaN()}} {
		for _, either := range []bool{true, false} {
			if got := result.GrubbsLimit(bad.count, bad.significance, either); !math.IsNaN(got) {
				t.Errorf("GrubbsLimit(%d, %v, %v) = %v, want NaN", bad.count, bad.significance, either, got)
			}
		}
	}
}
