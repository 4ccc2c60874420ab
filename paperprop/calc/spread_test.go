package calc

import (
	"context"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// ended is a calculation whose result is not finite above 3 and whose input ends
// at 10.
type ended struct{ X paperprop.Ratio }

type endedResult struct{ Y paperprop.Ratio }

func ranged(of func(x float64) float64, most float64) *Sheet {
	d := &Description[ended, endedResult]{
		Name: "ranged",
		Compute: func(b ended) (endedResult, error) {
			if float64(b.X) > most {
				return endedResult{}, Refuse("x", b.X, "less")
			}
			return endedResult{paperprop.Ratio(of(float64(b.X)))}, nil
		},
		Fields: func(f *Form, in *ended, out *endedResult) {
			In(f, &in.X, "x", "x", "1", "").From(0).UpTo(10)
			Out(f, &out.Y, "y", "y", "1", "")
		},
	}
	return d.NewSheet()
}

// Draws outside of an input's range are reckoned with and counted; those that the
// calculation refuses, or that give no number, are left out and counted as that alone.
func TestDrawsLeftOut(t *testing.T) {
	linear := func(x float64) float64 { return 2 * x }
	for _, test := range []struct {
		name, x          string
		of               func(float64) float64
		most             float64
		outside, refused float64 // of all
	}{
		{"well within", "5 ± 0.1", linear, 10, 0, 0},
		{"half above", "10 ± 1", linear, math.Inf(1), 0.5, 0},
		{"half below", "0 ± 1", linear, math.Inf(1), 0.5, 0},
		{"the whole range, and half of it to either side", "5 ± rectangular(10)", linear, math.Inf(1), 0.5, 0},
		{"a sixth refused", "9 ± 1", linear, 10, 0, 0.158655}, // published in any table: Φ(−1)
		{"a sixth not finite", "9 ± 1", func(x float64) float64 {
			if x > 10 {
				return math.Inf(1)
			}
			return 2 * x
		}, math.Inf(1), 0, 0.158655},
		{"a sixth no number", "9 ± 1", func(x float64) float64 { return 2 * x * (1 + 0*math.Sqrt(10-x)) }, math.Inf(1), 0, 0.158655},
	} {
		for _, n := range []int{20_000, 100_000} { // without gates and with them
			s := ranged(test.of, test.most)
			if err := s.Set("x", test.x); err != nil {
				t.Fatal(err)
			}
			if err := s.Run(); err != nil {
				t.Fatal(err)
			}
			samples, err := MonteCarlo{Draws: n, Seed: 3, Workers: 2}.Run(context.Background(), s)
			if err != nil {
				t.Errorf("%s: %v", test.name, err)
				continue
			}
			m := samples[0]
			open := 5 * math.Sqrt(float64(n)) / 2 // five standard deviations of a count
			if off := math.Abs(float64(m.Outside) - test.outside*float64(n)); off > open || test.outside == 0 && m.Outside != 0 {
				t.Errorf("%s: %d of %d outside, want about %v", test.name, m.Outside, n, test.outside*float64(n))
			}
			if off := math.Abs(float64(m.Refused) - test.refused*float64(n)); off > open || test.refused == 0 && m.Refused != 0 {
				t.Errorf("%s: %d of %d refused, want about %v", test.name, m.Refused, n, test.refused*float64(n))
			}
			if math.IsNaN(m.Mean) || math.IsInf(m.Mean, 0) || math.IsNaN(m.Standard) || !(m.Low < m.Mean && m.Mean < m.High) {
				t.Errorf("%s: %+v", test.name, m)
			}
			if test.refused > 0 && m.High > 20 {
				t.Errorf("%s: the 97.5 %% point is %v, and what is above 20 was left out", test.name, m.High)
			}
		}
	}
	// Where more than half are refused there is no answer.
	s := ranged(linear, 5)
	if err := s.Set("x", "5 ± 1"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	x, _ := s.Input("x")
	for mean, refused := range map[float64]bool{4.5: false, 5.5: true} {
		*x.number = mean
		if _, err := (MonteCarlo{Draws: 10_000, Seed: 1}).sample(context.Background(), s, []float64{10}); (err != nil) != refused || err != nil && !strings.Contains(err.Error(), "too uncertain for their ranges") {
			t.Errorf("about %v of at most 5: %v", mean, err)
		}
	}
}

// Draws agree with first order where the calculation is straight, and where an
// interval lies within half a unit of the second digit; they do not where it bends.
func TestAgrees(t *testing.T) {
	sample := func(estimate, u, low, high float64, draws int) Sample {
		return Sample{Cell: &Cell{Field: &Field{}}, estimate: estimate, first: Uncertainty{Standard: u}, Low: low, High: high, draws: draws}
	}
	const k = 1.959963984540054
	many := math.MaxInt64 // so that the draws leave nothing open
	for _, test := range []struct {
		name string
		m    Sample
		want bool
	}{
		{"the same", sample(10, 0.12, 10-k*0.12, 10+k*0.12, many), true},
		{"within half of 0.01", sample(10, 0.12, 10-k*0.12-0.0049, 10+k*0.12+0.0049, many), true},
		{"a low end beyond it", sample(10, 0.12, 10-k*0.12-0.0051, 10+k*0.12, many), false},
		{"a high end beyond it", sample(10, 0.12, 10-k*0.12, 10+k*0.12+0.0051, many), false},
		{"a low end above", sample(10, 0.12, 10-k*0.12+0.0051, 10+k*0.12, many), false},
		{"of 0.099 half of 0.001", sample(10, 0.099, 10-k*0.099-0.0006, 10+k*0.099, many), false},
		{"what a hundred draws leave open", sample(10, 0.12, 10-k*0.12-0.09, 10+k*0.12, 100), true},
		{"and no more", sample(10, 0.12, 10-k*0.12-0.11, 10+k*0.12, 100), false},
		{"nothing moves", Sample{Cell: &Cell{Field: &Field{}}, estimate: 10, Standard: 1e-12}, true},
		{"what should not move does", Sample{Cell: &Cell{Field: &Field{}}, estimate: 10, Standard: 1e-10}, false},
	} {
		if got := test.m.Agrees(); got != test.want {
			t.Errorf("%s: agrees %v, want %v", test.name, got, test.want)
		}
	}
	stepped := sample(10, 0.12, 0, 0, many)
	stepped.Cell.Stepped = true
	if !stepped.Agrees() {
		t.Error("a result that moves in steps has nothing to agree with")
	}
}

// A draw has the mean and the standard deviation that are asked of it, whatever it
// is drawn from.
func TestDraw(t *testing.T) {
	const n = 200_000
	for d := Normal; d <= Arcsine; d++ {
		x := make([]float64, n)
		d.Draw(x, 100, 4, 1, 2)
		var mean, square float64
		for _, v := range x {
			mean += v / n
		}
		for _, v := range x {
			square += (v - mean) * (v - mean) / n
		}
		if !(math.Abs(mean-100) <= 5*4/math.Sqrt(n)) || !(math.Abs(math.Sqrt(square)-4) <= 5*4/math.Sqrt(n)) {
			t.Errorf("%v: %v ± %v, want 100 ± 4", d, mean, math.Sqrt(square))
		}
		again := make([]float64, n)
		d.Draw(again, 100, 4, 1, 2)
		other := make([]float64, n)
		d.Draw(other, 100, 4, 1, 3)
		if again[n-1] != x[n-1] || other[n-1] == x[n-1] {
			t.Errorf("%v: again %v, of another stream %v, want %v and another", d, again[n-1], other[n-1], x[n-1])
		}
	}
}

// Where an input was solved for, an uncertainty of the output given, and of the other
// inputs, becomes that of the input: by the slopes of x = y·b/a.
func TestUncertainRoot(t *testing.T) {
	d := &Description[power, powerResult]{
		Name: "quotient",
		Compute: func(p power) (powerResult, error) {
			return powerResult{Y: p.A * p.C / p.B, Zero: p.A + p.B, Constant: 7}, nil
		},
		Fields: func(f *Form, in *power, out *powerResult) {
			In(f, &in.A, "a", "a", "1", "")
			In(f, &in.B, "b", "b", "1", "").Above(0)
			In(f, &in.C, "c", "c", "1", "").UpTo(100)
			Out(f, &out.Y, "y", "y", "1", "")
			Out(f, &out.Zero, "sum", "s", "1", "")
			Out(f, &out.Constant, "constant", "k", "1", "")
		},
	}
	for _, test := range []struct{ y, b string }{{"6 ± 0.3", "2 ± 0.05"}, {"6 ± 0.3", "2"}, {"6", "2 ± 0.05"}} {
		s := d.NewSheet()
		for name, text := range map[string]string{"b": test.b, "c": "4", "y": test.y} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		uy, ub := 0.0, 0.0
		if strings.Contains(test.y, "±") {
			uy = 0.3
		}
		if strings.Contains(test.b, "±") {
			ub = 0.05
		}
		all, err := s.Uncertainties()
		if err != nil {
			t.Fatal(err)
		}
		// a = y·b/c = 3; the sum a + b has the slopes y/c + 1 with b and b/c with y.
		want := map[string]float64{
			"y": uy, "a": math.Hypot(3*ub/2, 3*uy/6), "sum": math.Hypot(2.5*ub, 0.5*uy), "constant": 0,
		}
		if len(all) != 4 {
			t.Errorf("%d uncertainties, want those of three results and the root", len(all))
		}
		for _, u := range all {
			if w := want[u.Cell.Name]; !(math.Abs(u.Standard-w) <= 1e-8) {
				t.Errorf("y = %s, b = %s: u(%s) = %v, want %v (by hand)", test.y, test.b, u.Cell.Name, u.Standard, w)
			}
			sum := 0.0
			for _, share := range u.Shares {
				sum += share.U * share.U
			}
			if !(math.Abs(math.Sqrt(sum)-u.Standard) <= 1e-9) {
				t.Errorf("y = %s, b = %s: shares of %s make %v, want %v", test.y, test.b, u.Cell.Name, math.Sqrt(sum), u.Standard)
			}
		}
		if a, _ := s.Input("a"); !(math.Abs(a.Number()-3) <= 1e-9) {
			t.Errorf("the sheet is left with a = %v, want 3", a.Number())
		}
	}
	s := d.NewSheet()
	for name, text := range map[string]string{"b": "2", "c": "4", "y": "6"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	if all, err := s.Uncertainties(); err != nil || len(all) != 0 {
		t.Errorf("nothing is uncertain: %d uncertainties, %v", len(all), err)
	}
}

// The budget of a worked solution is sorted, and its parts make up the whole.
func TestBudget(t *testing.T) {
	s := powerSheet(t, "a=3 ± 0.1", "b=2 ± 0.01", "c=5 ± 0.5", "n=2", "t=20 degC")
	w, err := s.Solution()
	if err != nil {
		t.Fatal(err)
	}
	y := w.Results[0]
	// relative: a 2/30, b 1/200, c 1/10
	parts := []struct {
		name  string
		share float64
	}{{"c", 0.1}, {"a", 0.2 / 3}, {"b", 0.005}}
	whole := 0.0
	for _, p := range parts {
		whole += p.share * p.share
	}
	if len(y.Budget) != 3 || y.U == "" {
		t.Fatalf("budget %+v", y.Budget)
	}
	for i, p := range parts {
		if b := y.Budget[i]; b.Name != p.name || !(math.Abs(b.Percent-100*p.share*p.share/whole) <= 1e-6) {
			t.Errorf("line %d is %+v, want %s with %v %%", i+1, b, p.name, 100*p.share*p.share/whole)
		}
	}
	for _, r := range w.Results[1:] {
		if r.Budget != nil {
			t.Errorf("%s moves with nothing, and has the budget %+v", r.Name, r.Budget)
		}
	}
	// To the place of the second digit of 22.5·0.1203 = 2.7.
	if got := s.Out[0].ToPlaceOf(2.7); got != "22.5" {
		t.Errorf("22.5 ± 2.7 is written %s", got)
	}
	for u, want := range map[float64]string{27: "22", 0.00027: "22.50000", 0: s.Out[0].Reported(), math.NaN(): s.Out[0].Reported(), math.Inf(1): s.Out[0].Reported()} {
		if got := s.Out[0].ToPlaceOf(u); got != want {
			t.Errorf("22.5 ± %v is written %s, want %s", u, got, want)
		}
	}
}
