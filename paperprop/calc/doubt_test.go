package calc_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/uncertainty"
)

// doubted returns what is doubted about a run, "code: names", one after the other.
func doubted(t *testing.T, s *calc.Sheet, found calc.Findings) string {
	t.Helper()
	doubts, err := s.Doubts(found)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, w := range doubts {
		names, _, _ := strings.Cut(w.Text, ": ")
		all = append(all, w.Code+": "+names)
	}
	return strings.Join(all, "; ")
}

func run(t *testing.T, name, inputs string) *calc.Sheet {
	t.Helper()
	s := given(t, name, inputs)
	if err := s.Run(); err != nil {
		t.Fatalf("%s %s: %v", name, inputs, err)
	}
	return s
}

// First order is doubted where draws give another uncertainty: with a bend in one input,
// or in several together. Half the draws of a tenth around the end of a range are refused.
func TestFirstOrderDoubted(t *testing.T) {
	for _, test := range []struct{ name, inputs, want string }{
		{"dilution", "mass-flow=300 ± 3 t/h; consistency-in=4.6 ± 0.1 %; consistency-out=0.92 ± 0.02 %", ""},
		{"dilution", "mass-flow=300 ± 300 t/h; consistency-in=4.6 %; consistency-out=0.92 %", ""}, // straight, however far
		{"dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 ± 0.3 %", "first-order-bends: water-flow, mass-flow-out"},
		{"dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=4.6 ± 0.1 %", "spread-refused: consistency-out"},
		{"dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=4.5 ± rectangular(0.1) %", ""}, // just within
		{"dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %", ""},
		{"dilution", "mass-flow=300 t/h; consistency-in=4.6 %; water-flow=1200 ± 600 t/h", "first-order-bends: consistency-out"},
		{"dilution", "mass-flow=300 t/h; consistency-in=4.6 %; water-flow=1200 ± 60 t/h", ""},
		{"dilution", "consistency-in=4.6 %; consistency-out=3 ± 0.4 %; water-flow=1600 ± 60 t/h", "first-order-bends: mass-flow-out, dry-flow-out, mass-flow"}, // by hand 3000 ± 1490, not ± 1150
		{"dilution", "consistency-in=4.6 %; consistency-out=4.5 ± 0.1 %; water-flow=1 t/h", "spread-refused: consistency-out"},
		{"replicates", "value=[17.9 17.9 17.9 17.9 17.9] ± 0.1 N", "first-order-bends: standard-deviation, coefficient-of-variation, " +
			"half-width, lower, upper, minimum, maximum, median, range, critical-difference"},
		{"replicates", "value=[10 20 30 40 50] ± 0.1 N", ""},
		{"fibre-length", "class-length=[0.1 0.3 0.7] mm; class-count=[10 20 10]; lower-limit=0.3 ± 0.01 mm", "first-order-jumps: number-mean-length, length-weighted-length, mass-weighted-length"},
		{"fibre-length", "class-length=[0.1 0.3 0.7] mm; class-count=[10 20 10]; lower-limit=0.29 ± 0.01 mm", "first-order-jumps: number-mean-length, length-weighted-length, mass-weighted-length"},
		{"fibre-length", "class-length=[0.1 0.3 0.7] mm; class-count=[10 20 10]; lower-limit=0.27 ± 0.01 mm", ""},
		{"dixon-limit", "count=10 ± 1", "first-order-jumps: critical-value"},
	} {
		s := run(t, test.name, test.inputs)
		before := full(s)
		if got := doubted(t, s, calc.Findings{}); got != test.want {
			t.Errorf("%s %s: %q, want %q", test.name, test.inputs, got, test.want)
		}
		if after := full(s); after != before {
			t.Errorf("%s %s: afterwards the sheet holds %s, want %s", test.name, test.inputs, after, before)
		}
	}
}

// On a jump, u is that beside it, and not a quotient by the step: of the class at the limit,
// its length still counts. By hand: 20 of 30 fibres, or of 40 with a shorter class, times u.
func TestUncertaintyBesideJump(t *testing.T) {
	const classes = "; class-count=[10 20 10]; lower-limit="
	for _, test := range []struct {
		inputs string
		want   float64
	}{
		{"class-length=[0.1 0.3 0.7] mm" + classes + "0.3 ± 0.01 mm", 0},
		{"class-length=[0.1 0.3 0.7] ± [0 0.03 0] mm" + classes + "0.3 mm", 0.02},
	} {
		us, err := run(t, "fibre-length", test.inputs).Uncertainties()
		if err != nil || !(math.Abs(us[0].Standard-test.want) <= 1e-9) {
			t.Errorf("%s: u of the mean %v, %v, want %v", test.inputs, us[0].Standard, err, test.want)
		}
	}
}

// Shares of one whole can't all be independent: what one has more, the others have less
// (JCGM 100:2008, 5.2, from memory). Correlations that keep the total are taken, if need be
// with the two digits that people write.
func TestUncertainTotal(t *testing.T) {
	type pair struct {
		a, b string
		r    float64
	}
	const values = "; value=[10 10 10] %; property=other"
	for _, test := range []struct {
		share string
		pairs []pair
		want  string
	}{
		{"[55 30 15] %", nil, ""},
		{"[55 30 15] ± 1 %", nil, "total-uncertain: share"},
		{"[55 30 15] ± [1 1 0] %", nil, "total-uncertain: share"},
		{"[55 30 15] ± [1 0 0] %", nil, "total-uncertain: share"}, // the others must give way
		{"[55 30 15] ± [1 1 0] %", []pair{{"share[1]", "share[2]", -1}}, ""},
		{"[55 30 15] ± [1 1 0] %", []pair{{"share[1]", "share[2]", -0.9}}, "total-uncertain: share"},
		{"[55 30 15] ± [2 1 0] %", []pair{{"share[1]", "share[2]", -1}}, "total-uncertain: share"},
		{"[55 30 15] ± 1 %", []pair{{"share[1]", "share[2]", -0.5}, {"share[1]", "share[3]", -0.5}, {"share[2]", "share[3]", -0.5}}, ""},
		{"[25 25 25 25] ± 1 %", []pair{{"share[1]", "share[2]", -0.33}, {"share[1]", "share[3]", -0.33}, {"share[1]", "share[4]", -0.33},
			{"share[2]", "share[3]", -0.33}, {"share[2]", "share[4]", -0.33}, {"share[3]", "share[4]", -0.33}}, ""},
	} {
		inputs := "share=" + test.share + values
		if strings.HasPrefix(test.share, "[25") {
			inputs = "share=" + test.share + "; value=[10 10 10 10] %; property=other"
		}
		s := run(t, "furnish", inputs)
		for _, p := range test.pairs {
			if err := s.Correlate(p.a, p.b, p.r); err != nil {
				t.Fatal(err)
			}
		}
		if got := doubted(t, s, calc.Findings{}); got != test.want {
			t.Errorf("%s, %v: %q, want %q", test.share, test.pairs, got, test.want)
		}
	}
	shared := sheet(t, "furnish")
	if err := shared.SetSource("scale", "1 %"); err != nil {
		t.Fatal(err)
	}
	for _, p := range [][2]string{{"share", "[55 45] % ± scale"}, {"value", "[10 12] ± 0.1 %"}, {"property", "other"}} {
		if err := shared.Set(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := shared.Run(); err != nil || doubted(t, shared, calc.Findings{}) != "total-uncertain: share" {
		t.Errorf("with one source: %v, %q", err, doubted(t, shared, calc.Findings{}))
	}
	drawn := run(t, "furnish", "share=[55 30 15] ± 1 %"+values) // draws are as independent
	samples, err := (calc.MonteCarlo{Draws: 10_000, Workers: 1}).Run(context.Background(), drawn)
	if got := doubted(t, drawn, calc.Findings{Samples: samples, Draws: 10_000}); err != nil || got != "total-uncertain: share" {
		t.Errorf("drawn: %v, %q", err, got)
	}
	other := run(t, "furnish", "share=[55 30 15] %; value=[10 10 10] ± 1 %; property=other")
	if got := doubted(t, other, calc.Findings{}); got != "" {
		t.Errorf("the values alone uncertain: %q", got)
	}
}

// Draws are advised where they can be made: forward, of independent inputs.
func TestDrawsAdvised(t *testing.T) {
	const forward = "mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 ± 0.3 %"
	for _, test := range []struct {
		inputs     string
		correlated bool
		want       bool
	}{
		{forward, false, true},
		{forward, true, false},
		{"mass-flow=300 t/h; consistency-in=4.6 %; water-flow=1200 ± 600 t/h", false, false},
	} {
		s := run(t, "dilution", test.inputs)
		if test.correlated {
			if err := s.Correlate("mass-flow", "consistency-out", 0.5); err != nil {
				t.Fatal(err)
			}
		}
		all, err := s.Doubts(calc.Findings{})
		if err != nil || len(all) != 1 || strings.HasSuffix(all[0].Text, "; take draws") != test.want {
			t.Errorf("%s, correlated %t: %v, %v, want draws advised: %t", test.inputs, test.correlated, all, err, test.want)
		}
		_, err = (calc.MonteCarlo{Draws: 1000, Workers: 1}).Run(context.Background(), s)
		if (err == nil) != test.want {
			t.Errorf("%s, correlated %t: draws end with %v", test.inputs, test.correlated, err)
		}
	}
}

// Names beyond what a strain tells of have no warning.
func TestMoreNamesThanStrains(t *testing.T) {
	found := uncertainty.Strain{Bends: []bool{false, true}, Jumps: []bool{true}, Refused: []bool{true}}
	all := calc.StrainWarnings(found, []string{"a", "b", "c"}, []string{"x", "y"}, false)
	var said []string
	for _, w := range all {
		names, _, _ := strings.Cut(w.Text, ": ")
		said = append(said, w.Code+": "+names)
	}
	if got := strings.Join(said, "; "); got != "first-order-jumps: a; first-order-bends: b; spread-refused: x" {
		t.Error(got)
	}
}

// A long list of names is told as a number.
func TestManyDoubted(t *testing.T) {
	for n, want := range map[int]string{12: "a, a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, a11: ",
		13: "a, a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, a11, a12: ", 14: "a, a1, a2, a3, a4, a5, a6, a7, a8, a9, a10, a11, 2 more: "} {
		names := []string{"a"}
		for k := 1; k < n; k++ {
			names = append(names, fmt.Sprintf("a%d", k))
		}
		found := uncertainty.Strain{Bends: make([]bool, n+2), Jumps: make([]bool, n+2), Refused: []bool{false}}
		for k := range found.Bends {
			found.Bends[k] = true
		}
		all := calc.StrainWarnings(found, append(names, "", "a"), []string{"x"}, true) // one has no name, one is told
		if len(all) != 1 || !strings.HasPrefix(all[0].Text, want) {
			t.Errorf("%d: %v, want %s", n, all, want)
		}
	}
}

// Where there are draws, they are told of instead, in JSON too.
func TestDrawsDoubted(t *testing.T) {
	s := run(t, "dilution", "mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 ± 0.5 %")
	found := calc.Findings{Draws: 10_000}
	var err error
	if found.Samples, err = (calc.MonteCarlo{Draws: found.Draws, Workers: 1}).Run(context.Background(), s); err != nil {
		t.Fatal(err)
	}
	data, err := s.MarshalFindings(found)
	if err != nil {
		t.Fatal(err)
	}
	var answer struct{ Warnings []struct{ Code, Text string } }
	if err := json.Unmarshal(data, &answer); err != nil {
		t.Fatal(err)
	}
	doubts, err := s.Doubts(found)
	if err != nil || len(doubts) != 2 || len(answer.Warnings) != 2 {
		t.Fatalf("doubts %v, %v, and in JSON %v, want two each", doubts, err, answer.Warnings)
	}
	for i, code := range []string{"first-order-differs", "draws-refused"} { // what was refused is not reckoned with
		if w := answer.Warnings[i]; w.Code != code || doubts[i].Code != code || w.Text != doubts[i].Text {
			t.Errorf("doubt %d is %v, and in JSON %v, want %s", i, doubts[i], w, code)
		}
	}
}

// What was given to solve for an input has no uncertainty of first order, and none when the
// inputs are moved.
func TestGivenResultNotDoubted(t *testing.T) {
	for calculation, text := range map[string]string{
		"dilution": "mass-flow=300 ± 3 t/h; consistency-in=4.6 ± 0.1 %; water-flow=1200 t/h",
		"grammage": "grammage=80 g/m2; width=200 ± 0.3 mm; length=250 ± 0.2 mm",
		"burst":    "burst-index=4.1 kPa.m2/g; grammage=81 ± 1.1 g/m2", // and its factor, the same in other units
	} {
		if doubts, err := run(t, calculation, text).Doubts(calc.Findings{}); err != nil || len(doubts) != 0 {
			t.Errorf("%s: doubts %v, %v, want none", calculation, doubts, err)
		}
	}
}

// A straight line bends nowhere, but 95 % of a rectangle lie within 0.95 of its half-width,
// which is 1.65 of its u, and of a normal distribution within 1.96 (by hand).
func TestDrawsOfRectangle(t *testing.T) {
	s := run(t, "dilution", "mass-flow=300 ± rectangular(30) t/h; consistency-in=4.6 %; consistency-out=0.92 %")
	samples, err := calc.MonteCarlo{Draws: 10_000, Workers: 1}.Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	doubts, err := s.Doubts(calc.Findings{Samples: samples})
	if err != nil || len(doubts) != 1 || doubts[0].Code != "first-order-differs" || !strings.Contains(doubts[0].Text, "far from normal") {
		t.Errorf("doubts %v, %v, want one that names the distribution", doubts, err)
	}
}

// Degrees of freedom hold for what no correlation touches; what one does has none, and k
// then promises too much (JCGM 100:2008, G.4.1, from memory).
func TestFreedomOfCorrelated(t *testing.T) {
	s := run(t, "dilution", "mass-flow=300 ± 3 t/h; consistency-in=4.6 ± 0.1 %; consistency-out=0.92 ± 0.01 %")
	freedoms := func() (all []float64) {
		us, err := s.Uncertainties()
		if err != nil {
			t.Fatal(err)
		}
		for _, u := range us {
			all = append(all, u.Freedom)
		}
		return all
	}
	if err := s.SetFreedom("consistency-in", 4); err != nil {
		t.Fatal(err)
	}
	alone := freedoms()
	for _, test := range []struct {
		a, b string
		want [3]float64
		said string
	}{
		{"consistency-in", "consistency-out", [3]float64{0, 0, alone[2]}, "freedom-unused: water-flow, mass-flow-out"},
		{"mass-flow", "consistency-in", [3]float64{}, "freedom-unused: water-flow, mass-flow-out, dry-flow-out"},
	} {
		if err := s.Correlate(test.a, test.b, 0.9); err != nil {
			t.Fatal(err)
		}
		for i, got := range freedoms() {
			if !(math.Abs(got-test.want[i]) <= 1e-9*test.want[i]) {
				t.Errorf("%s and %s: result %d has %v degrees of freedom, want %v", test.a, test.b, i, got, test.want[i])
			}
		}
		if got := doubted(t, s, calc.Findings{Level: 0.95}); got != test.said {
			t.Errorf("%s and %s: %q, want %q", test.a, test.b, got, test.said)
		}
		if got := doubted(t, s, calc.Findings{}); got != "" {
			t.Errorf("%s and %s, no expanded uncertainty asked for: %q", test.a, test.b, got)
		}
		if err := s.Correlate(test.a, test.b, 0); err != nil {
			t.Fatal(err)
		}
	}
	// Of two that have infinitely many, the correlation takes nothing from a third.
	if err := s.Correlate("mass-flow", "consistency-out", 0.5); err != nil {
		t.Fatal(err)
	}
	if got := freedoms(); math.Abs(got[2]-alone[2]) > 1e-9 || !(got[0] > 4) || doubted(t, s, calc.Findings{Level: 0.95}) != "" {
		t.Errorf("mass-flow and consistency-out: %v degrees of freedom, want some, and the last %v", got, alone[2])
	}
}
