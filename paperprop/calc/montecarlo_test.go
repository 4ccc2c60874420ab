package calc

import (
	"context"
	"math"
	"slices"
	"testing"

	"millmaths.example/paperprop"
)

// model is a calculation that is straight in a and bends in b.
type model struct{ A, B paperprop.Ratio }

type modelResult struct{ Sum, Square paperprop.Ratio }

var models = &Description[model, modelResult]{
	Name: "model",
	Compute: func(m model) (modelResult, error) {
		if m.B < -3.5 {
			return modelResult{}, Refuse("b", m.B, "above -3.5")
		}
		a, b := float64(m.A), float64(m.B)
		return modelResult{paperprop.Ratio(a + b), paperprop.Ratio(b * b)}, nil
	},
	Fields: func(f *Form, in *model, out *modelResult) {
		In(f, &in.A, "a", "a", "1", "straight")
		In(f, &in.B, "b", "b", "1", "bent")
		Out(f, &out.Sum, "sum", "s", "1", "a + b")
		Out(f, &out.Square, "square", "q", "1", "b*b")
	},
}

func modelSheet(t *testing.T, a, b string) *Sheet {
	t.Helper()
	s := models.NewSheet()
	for name, text := range map[string]string{"a": a, "b": b} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	return s
}

// Each distribution is drawn with mean 0 and standard deviation 1, within its
// half-width and with its own fourth moment, by which they are told apart.
func TestDistributions(t *testing.T) {
	const n = 1_000_000
	for _, test := range []struct {
		d               Distribution
		halfWidth       float64
		fourth          float64 // of the standard one
		kind, reference string
	}{
		{Normal, math.Inf(1), 3, "memory", "kurtosis of the normal distribution"},
		{Rectangular, math.Sqrt(3), 9.0 / 5, "memory", "kurtosis of the rectangular distribution; JCGM 100:2008, 4.3.7 for the half-width"},
		{Triangular, math.Sqrt(6), 12.0 / 5, "memory", "kurtosis of the triangular distribution; JCGM 100:2008, 4.3.9 for the half-width"},
		{Arcsine, math.Sqrt2, 3.0 / 2, "memory", "kurtosis of the arcsine distribution; JCGM 101:2008, 6.4.6 for the half-width"},
	} {
		x := make([]float64, n)
		test.d.fill(newGenerator(8, 9), x, 0, 1)
		var mean, square, fourth float64
		for _, v := range x {
			mean += v / n
			square += v * v / n
			fourth += v * v * v * v / n
		}
		if most := max(slices.Max(x), -slices.Min(x)); most > test.halfWidth || test.halfWidth < 10 && most < 0.99*test.halfWidth {
			t.Errorf("%v reaches %v, want up to %v (%s: %s)", test.d, most, test.halfWidth, test.kind, test.reference)
		}
		// Five standard deviations of what a million draws leave open.
		if !(math.Abs(mean) <= 0.005) || !(math.Abs(square-1) <= 0.0075) || !(math.Abs(fourth-test.fourth) <= 0.05) {
			t.Errorf("%v has mean %v, square %v, fourth moment %v, want 0, 1, %v (%s: %s)",
				test.d, mean, square, fourth, test.fourth, test.kind, test.reference)
		}
	}
}

// The gates leave out draws that are not wanted, and change nothing: mean,
// spread and both points are those of all draws, sorted.
func TestGatesChangeNothing(t *testing.T) {
	s := modelSheet(t, "10 ± 1", "1 ± rectangular(2)")
	mc := MonteCarlo{Draws: 50_000, Seed: 5, Workers: 2}
	samples, err := mc.Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	all := everyDraw(t, mc, s)
	for i, m := range samples {
		x := all[i]
		slices.Sort(x)
		mean, deviations := 0.0, 0.0
		for _, v := range x {
			mean += v / float64(len(x))
		}
		for _, v := range x {
			deviations += (v - mean) * (v - mean)
		}
		standard := math.Sqrt(deviations / float64(len(x)-1))
		low, high := x[len(x)/40-1], x[len(x)*39/40-1]
		if m.Low != low || m.High != high || !(math.Abs(m.Mean-mean) <= 1e-12*math.Abs(mean)) || !(math.Abs(m.Standard-standard) <= 1e-12*standard) {
			t.Errorf("%s is %v ± %v, %v to %v, want %v ± %v, %v to %v of the draws",
				m.Cell.Name, m.Mean, m.Standard, m.Low, m.High, mean, standard, low, high)
		}
	}
}

// everyDraw draws again with nothing left out.
func everyDraw(t *testing.T, mc MonteCarlo, s *Sheet) [][]float64 {
	t.Helper()
	estimates := s.results(nil)
	drawers, _, err := mc.draw(context.Background(), s, estimates, openGates(len(estimates)))
	if err != nil {
		t.Fatal(err)
	}
	all := make([][]float64, len(estimates))
	for _, d := range drawers {
		for i := range all {
			all[i] = append(all[i], d.kept[i][0]...)
		}
	}
	return all
}

// A point that slipped past its gate is seen.
func TestGatesMissed(t *testing.T) {
	s := modelSheet(t, "10 ± 1", "1")
	estimates := s.results(nil)
	gates := openGates(len(estimates))
	gates[0][1].low = 11 // the 97.5 % point lies at 11.96, the gate is open
	gates[0][1].high = 11.5
	drawers, blocks, err := MonteCarlo{Draws: 5000, Seed: 1}.draw(context.Background(), s, estimates, gates)
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := summarise(drawers, blocks, estimates); ok {
		t.Error("a point above its gate is given")
	}
}

func TestMonteCarloRefuses(t *testing.T) {
	plain := modelSheet(t, "10", "1")
	if _, err := (MonteCarlo{Draws: 1000}).Run(context.Background(), plain); err == nil {
		t.Error("draws without an uncertain input")
	}
	uncertain := modelSheet(t, "10 ± 1", "1")
	for _, n := range []int{-1, 0, 99, maxDraws + 1} {
		if _, err := (MonteCarlo{Draws: n}).Run(context.Background(), uncertain); err == nil {
			t.Errorf("%d draws are taken", n)
		}
	}
	wide := modelSheet(t, "10", "-3.4 ± 100")
	if samples, err := (MonteCarlo{Draws: 1000}).Run(context.Background(), wide); err == nil && samples[0].Refused < 400 {
		t.Errorf("%d of 1000 draws refused, want about half", samples[0].Refused)
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := (MonteCarlo{Draws: 1000}).Run(ended, uncertain); err != context.Canceled {
		t.Errorf("an ended context gives %v", err)
	}
	solved := models.NewSheet()
	for name, text := range map[string]string{"a": "?", "b": "1 ± 0.1", "sum": "11"} {
		if err := solved.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := solved.Run(); err != nil {
		t.Fatal(err)
	}
	const want = "a was solved for, and draws do not solve: give it in place of the output"
	if _, err := (MonteCarlo{Draws: 1000}).Run(context.Background(), solved); err == nil || err.Error() != want {
		t.Errorf("a solved input gives %v, want %s", err, want)
	}
}

// Two uncertain inputs of one source move together: their sum has the sum of
// the two, not the root of the squares (from memory: JCGM 100:2008, 5.2.2, note 1).
func TestSharedSource(t *testing.T) {
	s := models.NewSheet()
	if err := s.Source("balance", "0.3"); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"a": "10 ± balance", "b": "1 ± balance"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	all, err := s.Uncertainties()
	if err != nil {
		t.Fatal(err)
	}
	if u := all[0].Standard; !(math.Abs(u-0.6) <= 1e-10) {
		t.Errorf("u(sum) = %v, want 0.6 (memory: JCGM 100:2008, 5.2.2)", u)
	}
	if len(all[0].Shares) != 1 || all[0].Shares[0].Name != "balance" {
		t.Errorf("shares are %v, want the balance alone", all[0].Shares)
	}
	samples, err := MonteCarlo{Draws: 200_000, Seed: 2}.Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	if u := samples[0].Standard; !(math.Abs(u-0.6) <= 0.005) || !samples[0].Agrees() {
		t.Errorf("u(sum) by draws = %v, agrees %v, want 0.6", u, samples[0].Agrees())
	}
	if samples[1].Agrees() {
		t.Error("the square bends within its uncertainty: want that draws and first order differ")
	}
}
