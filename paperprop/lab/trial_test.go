package lab_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/lab"
)

// A trial in three laboratories (invented): what two results may differ by.
func ExamplePrecision() {
	r, err := lab.Precision{
		Result: [][]float64{{2.31, 2.24, 2.42}, {2.19, 2.33, 2.27}, {2.40, 2.44, 2.36}},
		Factor: 2.8,
	}.Calculate()
	fmt.Printf("r %.3f, R %.3f kN/m, %v\n", r.RepeatabilityLimit, r.ReproducibilityLimit, err)
	// Output: r 0.196, R 0.250 kN/m, <nil>
}

// Three scans of a sheet (invented), the second stuck and the edges empty.
func ExampleCleanScans() {
	none := math.NaN()
	clean, _ := lab.CleanScans([][]float64{
		{none, 121.0, 120.4, 119.6, none},
		{none, 120.0, 120.0, 120.0, none},
		{none, 121.3, 120.9, 119.8, none},
	})
	r, err := lab.Profile{Scan: clean.Scan}.Calculate()
	fmt.Printf("without scans %v, from position %d: across %.2f g/m², %v\n", clean.LeftOut, clean.First, r.CDTwoSigma, err)
	// Output: without scans [2], from position 2: across 1.47 g/m², <nil>
}

// With one number of results in each laboratory the formulas of ISO 5725-2 are
// those of ASTM E691. Kind: common-practice, algebra.
func TestPrecisionAsE691(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		labs, n := 2+r.IntN(6), 2+r.IntN(4)
		table := make([][]float64, labs)
		var means, within float64
		for i := range table {
			shift := 3 * r.NormFloat64()
			for range n {
				table[i] = append(table[i], 100+shift+r.NormFloat64())
			}
			m, s := meanAndDeviation(table[i])
			means += m
			within += s * s / float64(labs)
		}
		byLab := make([]float64, labs)
		for i := range table {
			byLab[i], _ = meanAndDeviation(table[i])
		}
		_, sx := meanAndDeviation(byLab)
		got, err := lab.Precision{Result: table, Factor: 2.8}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		want := math.Sqrt(max(within, sx*sx+within*float64(n-1)/float64(n)))
		near(t, "s_R", got.ReproducibilityDeviation, want, 1e-12)
		near(t, "s_r", got.RepeatabilityDeviation, math.Sqrt(within), 1e-12)
		near(t, "mean", got.Mean, means/float64(labs), 1e-12)
		var h, k float64
		for i := range got.H {
			h += got.H[i]
			k += got.K[i] * got.K[i]
		}
		near(t, "sum of h, and 1", 1+h, 1, 1e-12) // h are deviations from a mean
		near(t, "mean square of k", k/float64(labs), 1, 1e-12)
	}
}

func meanAndDeviation(x []float64) (mean, s float64) {
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		s += (v - mean) * (v - mean) / float64(len(x)-1)
	}
	return mean, math.Sqrt(s)
}

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if !(math.Abs(got-want) <= relative*math.Abs(want)) {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// h and k are absent where they say nothing.
func TestPrecisionWithoutConsistency(t *testing.T) {
	for name, table := range map[string][][]float64{
		"uneven rows":       {{1, 2, 3}, {4, 6}},
		"means alike":       {{1, 3}, {0, 4}},
		"replicates alike":  {{1, 1}, {2, 2}},
		"one in each but 1": {{1, 2}, {3}},
	} {
		r, err := lab.Precision{Result: table, Factor: 2.8}.Calculate()
		if err != nil || r.H != nil || r.K != nil {
			t.Errorf("%s: h %v, k %v, %v, want none", name, r.H, r.K, err)
		}
	}
	r, _ := lab.Precision{Result: [][]float64{{1, 3}, {0, 4}}, Factor: 2.8}.Calculate()
	if r.LaboratoryDeviation != 0 || r.ReproducibilityDeviation != r.RepeatabilityDeviation {
		t.Errorf("s_L = %v, s_R = %v, want 0 and s_r %v", r.LaboratoryDeviation, r.ReproducibilityDeviation, r.RepeatabilityDeviation)
	}
}

// The three sums of squares are that of all readings about their mean, to 1e-12
// of it; profiles moved up or down are the same. Kind: common-practice, algebra.
func TestProfileCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		scans, positions := 2+r.IntN(10), 2+r.IntN(30)
		table, moved := make([][]float64, scans), make([][]float64, scans)
		var all []float64
		for i := range table {
			for j := range positions {
				x := 120 + float64(j)/10 + r.NormFloat64()
				table[i], moved[i] = append(table[i], x), append(moved[i], x+1024)
				all = append(all, x)
			}
		}
		got, err := lab.Profile{Scan: table}.Calculate()
		if err != nil {
			t.Fatal(err)
		}
		mean, s := meanAndDeviation(all)
		near(t, "mean", got.Mean, mean, 1e-12)
		near(t, "total standard deviation", got.TotalStandardDeviation, s, 1e-12)
		near(t, "sum of squares", got.CDSum+got.MDSum+got.ResidualSum, s*s*float64(len(all)-1), 1e-12)
		up, _ := lab.Profile{Scan: moved}.Calculate()
		near(t, "residual of moved scans", up.ResidualSum, got.ResidualSum, 1e-10)
	}
}

// Scans that differ by as much at every position leave nothing over, not 1e-16 of it
// (common-practice, by hand); a thousandth of a reading is left over.
func TestProfileWithoutResidual(t *testing.T) {
	p := lab.Profile{Scan: [][]float64{{1.1, 1.2, 1.4}, {2.1, 2.2, 2.4}, {3.3, 3.4, 3.6}}}
	r, err := p.Calculate()
	if err != nil || r.ResidualSum != 0 || r.ResidualTwoSigma != 0 || !(math.Abs(r.CDSum-0.14) <= 1e-14) || !(math.Abs(r.MDSum-7.28) <= 1e-13) {
		t.Errorf("got %+v, %v, want no residual, cd-sum 0.14, md-sum 7.28", r, err)
	}
	for _, p := range []lab.Profile{
		{Scan: [][]float64{{1.1e7, 1.2e7, 1.4e7}, {2.1e7, 2.2e7, 2.4e7}, {3.3e7, 3.4e7, 3.6e7}}},
		{Scan: [][]float64{{1000.1, 1000.2, 1000.4}, {-1000.7, -1000.6, -1000.4}}},
		{Scan: [][]float64{{0.1, 0.2, -0.3}, {3000.1, 3000.2, 2999.7}, {6000.7, 6000.8, 6000.3}}},
	} {
		if r, err := p.Calculate(); err != nil || r.ResidualSum != 0 {
			t.Errorf("%v: residual sum %v, %v, want none", p.Scan, r.ResidualSum, err)
		}
	}
	p.Scan[1][1] += 1e-3 // of which a position and a scan take a third each
	r, err = p.Calculate()
	if want := 1e-6 * 4 / 9; err != nil || !(math.Abs(r.ResidualSum-want) <= 1e-9*want) {
		t.Errorf("got a residual sum of %v, %v, want %v", r.ResidualSum, err, want)
	}
}

func TestProfileAndPrecisionRefuse(t *testing.T) {
	none := math.NaN()
	profile := func(rows ...[]float64) error {
		_, err := lab.Profile{Scan: rows}.Calculate()
		return err
	}
	clean := func(rows ...[]float64) error {
		_, err := lab.CleanScans(rows)
		return err
	}
	precision := func(factor paperprop.Ratio, rows ...[]float64) error {
		_, err := lab.Precision{Result: rows, Factor: factor}.Calculate()
		return err
	}
	for _, test := range []struct {
		err  error
		want string
	}{
		{profile([]float64{1, 2}), "scan is 1 scan, want at least 2"},
		{profile([]float64{1}, []float64{2}), "scan is 1 position, want at least 2"},
		{profile([]float64{1, 2, 3}, []float64{1, 2}), "scan is 2 positions in scan 2, want 3, as many as in the first"},
		{profile([]float64{1, none}, []float64{1, 2}), "scan: scan 1, position 2: missing, want no gaps: cut empty edges, leave out broken scans"},
		{profile([]float64{1, 2}, []float64{1e200, 2}), "scan: scan 2, position 1: too large, want a number up to 1e140 in size"},
		{profile([]float64{1, 2}, []float64{1, math.Inf(-1)}), "scan: scan 2, position 2: too large, want a number up to 1e140 in size"},
		{clean(), "scan is 0 scans, all empty or stuck, want at least 2 that are not"},
		{clean([]float64{2, 2, 2}), "scan is 1 scan, all empty or stuck, want at least 2 that are not"},
		{clean([]float64{1, 2, 3}, []float64{none, none, none}, []float64{3, none, 2}), "scan: scan 3, position 2: missing amid others, leave out the scan"},
		{clean([]float64{1}, []float64{1, 2, 3}), "scan is 3 positions in scan 2, want 1, as many as in scan 1"},
		{precision(0, []float64{1, 2}, []float64{3, 4}), "factor is 0, want above 0"},
		{precision(2.8, []float64{1, 2}), "result is 1 laboratory, want at least 2 laboratories"},
		{precision(2.8, []float64{1}, []float64{2}), "result is one result a laboratory, want at least 2 results in one: nothing is repeated"},
		{precision(2.8, []float64{1, 2}, nil), "result is empty for laboratory 2, want a result of each"},
		{precision(2.8, []float64{1, 2}, []float64{none, 3}), "result: laboratory 2, result 1: missing, leave it out: rows may differ in length"},
	} {
		if test.err == nil || test.err.Error() != test.want {
			t.Errorf("%v, want %s", test.err, test.want)
		}
	}
	if err := profile([]float64{1, 2}, []float64{1e140, -1e140}); err != nil {
		t.Errorf("readings of 1e140: %v", err)
	}
}

// What the rules keep out, and what they leave.
func TestCleanScans(t *testing.T) {
	none := math.NaN()
	got, err := lab.CleanScans([][]float64{
		{none, none, 1, 2, 3, none},
		{none, none, 1, 2, 3, none}, // repeats
		{none, 4, 2, 3, 4, none},
		{none, 7, 7, none, 7, none}, // stuck
		{none, none, none, none, none, none},
		{none, 5, 3, 2, 4, none},
	})
	if err == nil || !strings.HasPrefix(err.Error(), "scan: scan 1, position 2") {
		t.Errorf("%+v, %v, want the gap of scan 1 at position 2", got, err)
	}
	got, err = lab.CleanScans([][]float64{{none, 1, 2, 3}, {none, 5, 5, 5}, {none, 2, 2, 3}})
	if err != nil || got.First != 2 || len(got.Scan) != 2 || len(got.Scan[1]) != 3 || fmt.Sprint(got.LeftOut) != "[2]" {
		t.Errorf("%+v, %v, want two scans from position 2 without scan 2", got, err)
	}
	got, err = lab.CleanScans([][]float64{{1, 2, 3}, {1, 2, 3}, {3, 3, 4}})
	if err != nil || len(got.Scan) != 2 || fmt.Sprint(got.LeftOut) != "[2]" {
		t.Errorf("%+v, %v, want scan 2 left out: three readings repeat the scan before", got, err)
	}
	// Two readings are alike by chance, however many empty positions are beside them.
	got, err = lab.CleanScans([][]float64{{none, 1, 2}, {none, 1, 2}, {none, 3, 3}, {none, 3, 4}})
	if err != nil || len(got.Scan) != 4 || got.LeftOut != nil {
		t.Errorf("%+v, %v, want four scans of two positions", got, err)
	}
}
