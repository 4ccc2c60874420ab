package line_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/stock/line"
)

// doubted returns what is doubted about the uncertainties of a line, "code: names", with a
// figure solved for where one is "?".
func doubted(t *testing.T, l *line.Line, want string, set ...calc.Pair) (string, []line.Spread) {
	t.Helper()
	l, err := l.WithAll(set)
	if err != nil {
		t.Fatal(err)
	}
	solved, wish := -1, line.Wish{}
	if name, text, ok := strings.Cut(want, "="); ok {
		solved, _ = l.FigureNamed(set[0].Name)
		if wish, err = l.ReadWish(name, text); err != nil {
			t.Fatal(err)
		}
		lines, err := l.SolveFor(wish)
		if err != nil {
			t.Fatal(err)
		}
		l = lines[0]
	}
	spreads, err := l.Uncertainties(solved, wish)
	if err != nil {
		t.Fatal(err)
	}
	doubts, err := l.Doubts(solved, wish, spreads)
	if err != nil {
		t.Fatal(err)
	}
	a, err := l.Solve()
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, w := range doubts {
		names, _, _ := strings.Cut(w.Text, ": ")
		all = append(all, w.Code+": "+names)
		data, err := a.JSON(spreads, doubts...)
		var told struct{ Warnings []struct{ Code, Text string } }
		if err != nil || json.Unmarshal(data, &told) != nil || len(told.Warnings) != len(doubts) || told.Warnings[len(all)-1].Text != w.Text {
			t.Errorf("JSON tells %v, %v, want %v", told.Warnings, err, doubts)
		}
	}
	if solved >= 0 && len(spreads) > 0 { // spreads of something else
		if _, err := l.Doubts(-1, line.Wish{}, spreads); err == nil && len(set) > 1 {
			t.Error("spreads with a figure solved for are taken without one")
		}
		if _, err := l.Doubts(solved, wish, spreads[:len(spreads)-1]); err == nil {
			t.Error("too few spreads are taken")
		}
	}
	return strings.Join(all, "; "), spreads
}

// First order of a line is doubted where its results bend within the uncertainty of a
// figure, or where the line is impossible within it; of a figure solved for too.
func TestLineDoubts(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	set := func(name, text string) calc.Pair { return calc.Pair{Name: name, Text: text} }
	for _, test := range []struct {
		want string
		set  []calc.Pair
		said string
	}{
		{"", nil, ""},
		{"", []calc.Pair{set("headbox.consistency", "0.82 ± 0.01 %")}, ""},
		{"", []calc.Pair{set("dryers.steam", "1.36 ± 0.4 t/t")}, ""}, // straight, however far
		{"", []calc.Pair{set("wire.retention.filler", "95 ± 4 %")}, "spread-refused: wire.retention.filler"},
		{"", []calc.Pair{set("wire.retention.filler", "95 ± rectangular(4) %")}, ""},
		{"steam=25.6752 ± 5 t/h", []calc.Pair{set("dryers.steam", "?")}, ""},
		{"steam=25.6752 t/h", []calc.Pair{set("dryers.steam", "?"), set("press.dryness", "47.5 ± 0.5 %")}, ""},
		// The water that the sheet brings to the dryers goes with 1/dryness.
		{"steam=25.6752 t/h", []calc.Pair{set("dryers.steam", "?"), set("press.dryness", "60 ± 12 %")}, "first-order-bends: "},
		{"white water.consistency=0.192 ± 0.08 %", []calc.Pair{set("wire.retention.filler", "?")}, "spread-refused: white water.consistency"},
	} {
		got, _ := doubted(t, l, test.want, test.set...)
		if got != test.said && (!strings.HasSuffix(test.said, ": ") || !strings.HasPrefix(got, test.said)) {
			t.Errorf("%v, %s: %q, want %q", test.set, test.want, got, test.said)
		}
	}
	if _, err := l.Doubts(-1, line.Wish{}, make([]line.Spread, 3)); err != nil {
		t.Errorf("nothing is uncertain: %v", err)
	}
}

// Of shares that add up to 100 %, the largest takes up what the others vary by, and its own
// uncertainty goes nowhere: that is told.
func TestUncertaintyOfTheRest(t *testing.T) {
	text := read(t, quillbeck)
	const rest = `fibre = "rest", filler = "11 %", starch = "2 %"`
	const told = "uncertainty-left-out: that of pulper.bales.fibre is not carried"
	for shares, want := range map[string]string{
		`fibre = "rest", filler = "11 ± 0.1 %", starch = "2 %"`:         "",
		`fibre = "87 %", filler = "11 ± 0.1 %", starch = "2 ± 0.1 %"`:   "",
		`fibre = "87 ± 3 %", filler = "11 %", starch = "2 %"`:           told,
		`fibre = "87 ± 3 %", filler = "11 ± 0.1 %", starch = "2 %"`:     told,
		`fibre = "rest", filler = "11 ± 0.1 %", starch = "2.0 ± 0.1 %"`: "",
	} {
		got, spreads := doubted(t, readText(t, strings.Replace(text, rest, shares, 1)), "")
		if got != want || len(spreads) == 0 {
			t.Errorf("%s: %q, want %q", shares, got, want)
		}
	}
}

// What is doubted are as many results as have another uncertainty by draws.
func TestLineDoubtsAreThoseOfDraws(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	uncertain := calc.Pair{Name: "headbox.consistency", Text: "0.82 ± rectangular(0.4) %"}
	said, spreads := doubted(t, l, "", uncertain)
	i, _ := l.FigureNamed(uncertain.Name)
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	const draws = 3000
	sum, squares := make([]float64, len(spreads)), make([]float64, len(spreads))
	base := l.Figures[i].Value
	rnd := rand.New(rand.NewPCG(1, 2))
	for range draws {
		s.Set(i, base+0.004*(2*rnd.Float64()-1))
		if err := s.Solve(); err != nil {
			t.Fatal(err)
		}
		for k, y := range s.Values(nil) {
			sum[k] += y
			squares[k] += y * y
		}
	}
	surely, perhaps := 0, 0
	for k := range spreads {
		mean := sum[k] / draws
		drawn := math.Sqrt(max(0, squares[k]/draws-mean*mean))
		if off := math.Abs(drawn-spreads[k].Standard) / drawn; drawn < 1e-6*math.Abs(mean) {
			continue
		} else if off > 0.14 {
			surely++
		} else if off > 0.06 {
			perhaps++
		}
	}
	n := 1 + strings.Count(strings.TrimPrefix(said, "first-order-bends: "), ", ")
	if surely < 5 || n < surely || n > surely+perhaps {
		t.Errorf("%d results are doubted, %d and perhaps %d more are off by draws: %s", n, surely, perhaps, said)
	}
}
