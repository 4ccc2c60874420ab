package calc

import (
	"context"
	"math"
	"runtime"
	"slices"
	"strings"
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
	const want = "a was solved for, and draws compute forward alone: see its uncertainty of first order"
	if _, err := (MonteCarlo{Draws: 1000}).Run(context.Background(), solved); err == nil || err.Error() != want {
		t.Errorf("a solved input gives %v, want %s", err, want)
	}
}

// Two uncertain inputs of one source move together: their sum has the sum of
// the two, not the root of the squares (from memory: JCGM 100:2008, 5.2.2, note 1).
func TestSharedSource(t *testing.T) {
	s := models.NewSheet()
	if err := s.SetSource("balance", "0.3"); err != nil {
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

// Any number of draws is drawn, to the last block, and the most that are allowed may be
// asked for.
func TestEveryBlockIsDrawn(t *testing.T) {
	s := modelSheet(t, "10 ± 1", "1")
	for _, n := range []int{100, blockDraws - 1, blockDraws, blockDraws + 1, 2*blockDraws - 1, 2 * blockDraws, 2*blockDraws + 1} {
		if got := len(everyDraw(t, MonteCarlo{Draws: n, Seed: 1, Workers: 2}, s)[0]); got != n {
			t.Errorf("%d draws, want %d", got, n)
		}
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := (MonteCarlo{Draws: maxDraws, Workers: 1}).Run(ended, s); err != context.Canceled {
		t.Errorf("%d draws: %v, want them begun", maxDraws, err)
	}
	// The workers together have room for all draws, once.
	estimates := s.results(nil)
	drawers, _, _ := MonteCarlo{Draws: 3000, Workers: 3}.draw(ended, s, estimates, openGates(len(estimates)))
	room := 0
	for _, d := range drawers {
		room += cap(d.kept[0][0])
	}
	if room != 3000 {
		t.Errorf("room for %d draws, want 3000", room)
	}
}

// What is not near the points that are wanted takes no memory: kept, the draws of both
// points would be 16 bytes each, and as many again to select from.
func TestFewDrawsAreKept(t *testing.T) {
	const n = 400_000
	s := ranged(func(x float64) float64 { return 2 * x }, math.Inf(1))
	if err := s.Set("x", "5 ± 0.1"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	if _, err := (MonteCarlo{Draws: n, Workers: 1}).Run(context.Background(), s); err != nil {
		t.Fatal(err)
	}
	runtime.ReadMemStats(&after)
	if got := after.TotalAlloc - before.TotalAlloc; got > 3*n {
		t.Errorf("%d bytes for %d draws, want at most 3 each", got, n)
	}
}

// The gates lie four standard deviations of a count to both sides of the points of the
// first 8192 draws: 204.8 and 7987.2, with 4·√(0.025·0.975·8192) = 56.5. There is room
// for what they let through of many draws, 8·√(0.025·0.975/8192) of all, and a bit.
func TestPilot(t *testing.T) {
	s := modelSheet(t, "10 ± 1", "1 ± rectangular(2)")
	mc := MonteCarlo{Draws: pilotBlocks * blockDraws, Seed: 5, Workers: 1}
	estimates := s.results(nil)
	set := mc.pilot(s, estimates)
	for i, x := range everyDraw(t, mc, s) {
		slices.Sort(x)
		want := gates{{x[148], x[261]}, {x[7930], x[8043]}}
		if set[i] != want {
			t.Errorf("result %d has the gates %v, want %v", i, set[i], want)
		}
	}
	const n = 1_000_000
	d := newDrawer(s, estimates, set)
	d.expect(n)
	through := 8 * math.Sqrt(0.025*0.975/8192) * n
	for i := range d.kept {
		for k := range points {
			if room := float64(cap(d.kept[i][k])); room < through || room > 1.5*through {
				t.Errorf("room for %v draws, want a bit more than %v", room, through)
			}
		}
	}
}

// Where nearly all draws are refused the pilot has too few for gates, or none, and there
// is no answer, but for the reason.
func TestNearlyAllRefused(t *testing.T) {
	s := ranged(func(x float64) float64 { return 2 * x }, 5)
	if err := s.Set("x", "5 ± 1"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	estimates := s.results(nil)
	x, _ := s.Input("x")
	*x.number = 100
	drawers, blocks, err := MonteCarlo{Draws: 1000}.draw(context.Background(), s, estimates, openGates(1))
	if err != nil {
		t.Fatal(err)
	}
	if m, ok := summarise(drawers, blocks, estimates); !ok || m[0].draws != 0 {
		t.Fatalf("all refused: %+v, %v, want no draws, and none missed", m[0], ok)
	}
	for _, mean := range []float64{100, 7.3, 6.6} { // none, a hundredth and a twentieth are taken
		*x.number = mean
		_, err := MonteCarlo{Draws: 50_000}.sample(context.Background(), s, estimates)
		if err == nil || !strings.Contains(err.Error(), "of 50000 draws were refused") {
			t.Errorf("about %v of at most 5: %v", mean, err)
		}
	}
	// Half of the draws may be refused, and not one more.
	left := 0
	counting := ranged(func(x float64) float64 {
		if left--; left >= 0 {
			return math.NaN()
		}
		return x
	}, math.Inf(1))
	if err := counting.Set("x", "5 ± 0.1"); err != nil {
		t.Fatal(err)
	}
	if err := counting.Run(); err != nil {
		t.Fatal(err)
	}
	for refused, want := range map[int]bool{500: true, 501: false} {
		left = refused
		samples, err := MonteCarlo{Draws: 1000, Workers: 1}.sample(context.Background(), counting, []float64{5})
		if (err == nil) != want || err == nil && samples[0].Refused != refused {
			t.Errorf("%d of 1000 refused: %v", refused, err)
		}
	}
}

// Of an input with one limit, what is drawn beyond it is counted; what lies on it is a
// reading.
func TestDrawsOutside(t *testing.T) {
	for _, test := range []struct {
		x           string
		least, most bool
	}{{"0 ± 0.1", true, false}, {"0 ± 0.1", false, true}, {"4 ± 4", true, false}, {"-4 ± 4", false, true}} {
		d := &Description[ended, endedResult]{
			Name:    "half",
			Compute: func(b ended) (endedResult, error) { return endedResult{b.X}, nil },
			Fields: func(f *Form, in *ended, out *endedResult) {
				x := In(f, &in.X, "x", "x", "1", "")
				if test.least {
					x.From(0)
				}
				if test.most {
					x.UpTo(0)
				}
				Out(f, &out.Y, "y", "y", "1", "")
			},
		}
		s := d.NewSheet()
		if err := s.Set("x", test.x); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		mc := MonteCarlo{Draws: 1000, Workers: 1}
		samples, err := mc.Run(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		want := 0
		for _, y := range everyDraw(t, mc, s)[0] {
			if test.least && y < 0 || test.most && y > 0 {
				want++
			}
		}
		if got := samples[0].Outside; got != want || want == 0 {
			t.Errorf("%s: %d outside, want %d", test.x, got, want)
		}
	}
	if on := (&guard{low: 3, high: 3}); on.leaves(3) || !on.leaves(math.Nextafter(3, 4)) || !on.leaves(math.Nextafter(3, 2)) {
		t.Error("3 to 3 holds 3, and nothing else")
	}
}

// The draws of a list are those of its members; where it has another number of them the
// draw is refused.
func TestDrawsOfAList(t *testing.T) {
	s := shapesSheet()
	for name, text := range map[string]string{"weights": "[1(0.1) 2 3] kg", "word": "yes"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	samples, err := MonteCarlo{Draws: 20_000, Workers: 2}.Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	mean, standard := []float64{6, 2, 4, 6}, []float64{0.1, 0.2, 0, 0} // of the sum, and of each doubled
	for i, m := range samples {
		open := 5 * standard[i] / math.Sqrt(20_000)
		if !(math.Abs(m.Mean-mean[i]) <= open) || !(math.Abs(m.Standard-standard[i]) <= open) || !m.Agrees() {
			t.Errorf("result %d is %v ± %v, want %v ± %v", i, m.Mean, m.Standard, mean[i], standard[i])
		}
	}
	shortening := clipped.NewSheet()
	if err := shortening.Set("weights", "[9(1) 2] kg"); err != nil {
		t.Fatal(err)
	}
	if err := shortening.Run(); err != nil {
		t.Fatal(err)
	}
	mc := MonteCarlo{Draws: 10_000, Workers: 2}
	samples, err = mc.sample(context.Background(), shortening, shortening.results(nil))
	if err != nil {
		t.Fatal(err)
	}
	if refused := samples[0].Refused; refused < 1400 || refused > 1770 { // Φ(−1) is 0.1587
		t.Errorf("%d of 10000 draws with a list cut short are refused, want about 1587", refused)
	}
	if samples[0].High > 20 || samples[1].Standard != 0 {
		t.Errorf("lists cut short are reckoned with: %+v", samples)
	}
}

// clipped doubles weights, and leaves out the last of them where the first is above 10.
var clipped = &Description[shapes, shapesResult]{
	Name: "clipped",
	Compute: func(in shapes) (out shapesResult, err error) {
		for _, m := range in.Weights {
			out.Each = append(out.Each, 2*m)
		}
		if in.Weights[0] > 10*paperprop.Kilogram {
			out.Each = out.Each[:1]
		}
		return out, nil
	},
	Fields: func(f *Form, in *shapes, out *shapesResult) {
		InList(f, &in.Weights, "weights", "m", "kg", "").From(0)
		OutList(f, &out.Each, "each", "e", "kg", "")
	},
}

// Draws on a gate are kept, those below are counted, whatever is between: of hand-made
// columns.
func TestSift(t *testing.T) {
	const far = 1 << 53 // where numbers lie 2 apart, and a middle is rounded
	for _, test := range []struct {
		gates     gates
		y         []float64
		low, high []float64
		below     [2]int
	}{
		{
			gates{{1, 2}, {8, 9}}, []float64{-20, -3, 0.5, 1, 1.5, 2, 2.5, 5, 7.5, 8, 8.5, 9, 9.5, 20},
			[]float64{1, 1.5, 2}, []float64{8, 8.5, 9}, [2]int{3, 9},
		},
		{gates{{-2, -1}, {1, 2}}, []float64{-3, -2, -1, 0, 1, 2, 3}, []float64{-2, -1}, []float64{1, 2}, [2]int{1, 4}},
		{
			gates{{far - 2, far}, {far + 2, far + 4}}, []float64{far - 4, far - 2, far, far + 2, far + 4, far + 6},
			[]float64{far - 2, far}, []float64{far + 2, far + 4}, [2]int{1, 3},
		},
	} {
		d := &drawer{gates: []gates{test.gates}, columns: [][]float64{test.y}, kept: make([][2][]float64, 1), below: make([][2]int, 1)}
		d.sift(0, len(test.y))
		if !slices.Equal(d.kept[0][0], test.low) || !slices.Equal(d.kept[0][1], test.high) || d.below[0] != test.below {
			t.Errorf("%v: kept %v, below %v, want %v and %v, %v", test.gates, d.kept[0], d.below[0], test.low, test.high, test.below)
		}
	}
}

// A point is found from the first to the last of the draws that were kept.
func TestPoint(t *testing.T) {
	drawers := []*drawer{
		{below: [][2]int{{2, 0}}, kept: [][2][]float64{{{5, 3}, nil}}},
		{below: [][2]int{{1, 0}}, kept: [][2][]float64{{{4}, nil}}},
	}
	for rank, want := range map[int]float64{2: 0, 3: 3, 4: 4, 5: 5, 6: 0} {
		if got, ok := point(drawers, 0, 0, rank); got != want || ok != (want > 0) {
			t.Errorf("rank %d: %v, %v, want %v", rank, got, ok, want)
		}
	}
}

// What is no normal number is its distribution's inverse at a uniform one, so that
// draws rise with it.
func TestDrawsRise(t *testing.T) {
	for d, inverse := range map[Distribution]func(*generator) float64{
		Rectangular: func(g *generator) float64 { return math.Sqrt(3) * (2*g.uniform() - 1) },
		Triangular:  func(g *generator) float64 { return math.Sqrt(6) * (g.uniform() + g.uniform() - 1) },
		Arcsine:     func(g *generator) float64 { return -math.Sqrt2 * math.Cos(math.Pi*g.uniform()) },
	} {
		x := make([]float64, 1000)
		d.fill(newGenerator(1, 2), x, 100, 4)
		g := newGenerator(1, 2)
		for i, got := range x {
			if want := 100 + 4*inverse(g); !(math.Abs(got-want) <= 1e-11) {
				t.Fatalf("%v: number %d is %v, want %v", d, i, got, want)
			}
		}
	}
}

// An interval whose end lies just on the tolerance agrees, and so does a result that
// is nought and stays it.
func TestAgreesOnTheEdge(t *testing.T) {
	const k = 1.959963984540054
	within := 0.05 + 3*2.67/2. // half of the second digit of 1, and what four draws leave open
	for _, m := range []Sample{
		{estimate: k, Low: -within, High: 2 * k},
		{estimate: -k, Low: -2 * k, High: within},
	} {
		m.Cell, m.first, m.draws = &Cell{Field: &Field{}}, Uncertainty{Standard: 1}, 4
		if !m.Agrees() {
			t.Errorf("%v to %v about %v does not agree", m.Low, m.High, m.estimate)
		}
	}
	if m := (Sample{Cell: &Cell{Field: &Field{}}}); !m.Agrees() {
		t.Error("nought does not agree with nought")
	}
}
