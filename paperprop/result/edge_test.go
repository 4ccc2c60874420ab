package result_test

import (
	"math"
	"testing"

	"millmaths.example/paperprop/result"
)

func TestDixonOfWhatIsNone(t *testing.T) {
	for _, test := range []struct {
		r result.DixonRatio
		x []float64
	}{
		{255, []float64{1, 2, 3}},
		{result.R10, []float64{1, 2, math.NaN()}},
		{result.R10, []float64{1, 2, math.Inf(1)}},
		{result.R10, []float64{4, 4, 4}},
	} {
		if got, ok := test.r.Of(test.x, true); ok || got != 0 {
			t.Errorf("ratio %d of %v = %v, %v, want none", test.r, test.x, got, ok)
		}
	}
}

func TestCorrelationOfTwoLengths(t *testing.T) {
	if r := result.Correlation([]float64{1, 2, 3}, []float64{1, 2}); !math.IsNaN(r) {
		t.Errorf("Correlation = %v, want NaN", r)
	}
}
