package line_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/stock/line"
)

const quillbeck = "../../examples/quillbeck/harebell-120.toml"

// The invented mill's balance, as its figures were told beside the file. It
// proves that the file is read as it is meant, not that the method is right:
// that is for the laws.
const scenario = `
recovered paper      15.4937   11.9294 1.5083 0.2742 1.7818
coarse rejects       0.9457    0.4772  0.0603 0.0110 0.3972
screen rejects       17.4534   0.3425  0.0571 0.0194 17.0346
headbox              2165.086  13.3682 2.9725 1.4130 2147.332
sheet off the press  28.3056   11.7640 1.4268 0.2543 14.8604
size solution        5.6932    0       0      0.5409 5.1524
evaporated, dryers        14.3002 0 0 0 14.3002
evaporated, after-dryers  4.5786  0 0 0 4.5786
reel                 15.1200   11.7640 1.4268 0.7952 1.1340
sewer                72.0284   0.0516  0.0497 0.0373 71.8898
`

// asPrinted compares a number with one that is rounded to the digits shown.
func asPrinted(t *testing.T, name string, got float64, want string) {
	t.Helper()
	decimals := 0
	if i := strings.IndexByte(want, '.'); i >= 0 {
		decimals = len(want) - i - 1
	}
	if text := fmt.Sprintf("%.*f", decimals, got); text != want {
		t.Errorf("%s = %s, want %s", name, text, want)
	}
}

func solve(t *testing.T, text string) *line.Answer {
	t.Helper()
	a, err := answer(text)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func answer(text string) (*line.Answer, error) {
	l, err := line.Read("test.toml", strings.NewReader(text))
	if err != nil {
		return nil, err
	}
	return l.Solve()
}

func read(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestQuillbeck(t *testing.T) {
	a := solve(t, read(t, quillbeck))
	for _, row := range strings.Split(strings.TrimSpace(scenario), "\n") {
		fields := strings.Fields(row)
		numbers := fields[len(fields)-5:]
		name := strings.Join(fields[:len(fields)-5], " ")
		for i, column := range []string{"total", "fibre", "filler", "starch", "water"} {
			v, ok := a.Value(name + "." + column)
			if !ok {
				t.Fatalf("no result %s.%s", name, column)
			}
			asPrinted(t, name+"."+column, v, numbers[i])
		}
	}
	for _, test := range []struct{ name, want string }{
		{"fresh-water", "102.332"}, {"white water.consistency", "0.192423"}, {"recovered-paper-per-tonne", "1.0901"},
		{"yield", "91.93"}, {"starch-on-sheet", "4.29"}, {"drying-rate", "23.66"}, {"steam", "25.68"}, {"yard-lasts", "9.46"},
		{"production", "15.12"}, {"sold", "14.2128"}, {"sold-per-day", "310.4"}, {"evaporation", "18.8788"}, {"speed", "625"},
		{"first-pass-retention.fibre", "88"}, {"first-pass-retention.filler", "48"}, {"recovered paper.dryness", "88.5"},
		{"coarse rejects.dryness", "58"}, {"broke pulper.dryness", "4.0"},
	} {
		for i := range a.Results {
			if a.Results[i].Name == test.name {
				asPrinted(t, test.name, a.Results[i].In(a.Values[i]), test.want)
			}
		}
		if _, ok := a.Value(test.name); !ok {
			t.Errorf("no result %s", test.name)
		}
	}
	if a.Closure > 1e-12 {
		t.Errorf("closes to %g", a.Closure)
	}
}

// Lines that cannot be are refused with the stage and the reason.
func TestImpossible(t *testing.T) {
	text := read(t, quillbeck)
	for _, test := range []struct{ name, from, to, want string }{
		{"a press that wets", `"47.5 %"`, `"17.5 %"`, `:110: press: dryness is 17.5 %: the press would wet the sheet, which comes in at 19 %`},
		{"dryers that wet", `"96 %"`, `"46 %"`, `dryers: dryness is 46 %: the dryers would wet the sheet, which comes in at 47.5 %`},
		{"a size press that dries", `"71 %"`, `"96.5 %"`, `size press: dryness is 96.5 %: the size press would dry the sheet`},
		{"dilution upwards", `"0.82 %"`, `"3.2 %"`, `headbox: consistency is 3.2 %: water can only thin the stock, which comes in at 2.96`},
		{"a tank that runs dry", `"7.2 t/t"`, `"1 t/t"`, `white water: the tank runs dry by 16.2238 t/h`},
		{"out of range", `"96 %"`, `"960 %"`, `dryers.dryness is 960 %, want above 0 % and below 100 %`},
		{"an unknown key", `reject-dryness`, `reject-drynes`, `pulper: a pulper has no "reject-drynes", near: reject-dryness`},
		{"an unknown table", `[mill]`, `[mil]`, `a line has no "mil", near: mill`},
		{"a stream that goes nowhere", `rejects-to         = "screen 2"`, `rejects-to = "screen 3"`, `screen 1: rejects-to = "screen 3" goes nowhere`},
		{"less said than needed", `dryness   = "19 %"`, ``, `wire.dryness missing (of the sheet that leaves): want a value such as "50 %"`},
		{"more said than free", `speed = "625 m/min"`, "speed = \"625 m/min\"\nsold = \"14 t/h\"", `size: fixed by sold and speed at once`},
		{"no size", `speed = "625 m/min"`, ``, `nothing fixes the size`},
		{"shares above 100 %", `filler = "11 %"`, `filler = "99 %"`, `bales: the given dry shares add up to 101 %, and nothing is left for fibre`},
		{"a rate without a place", `rejects-to     = "coarse rejects"`, ``, `pulper: rejects-to missing: it goes with reject-rate and reject-dryness`},
		{"a unit missing", `"3.36 m"`, `"3.36"`, `reel.width "3.36": unit missing`},
		{"a number for a text", `"3.36 m"`, `3.36`, `reel.width is 3.36, want it in quotes with its unit`},
		{"two of one name", `name = "machine chest"`, `name = "pulper"`, `two places or waters have this name`},
		{"a water named as a tank", `name = "fresh water"`, `name = "white water"`, `white water: two places or waters have this name`},
		{"water for nothing", `overflow = "sewer"`, ``, `white water: neither overflow nor make-up`},
		{"no way out", `overflow = "sewer"`, `make-up = "fresh"`, `white water: the tank runs over by`},
		{"broken TOML", `[size]`, `[size`, `test.toml:18: column`},
		{"what the headbox brings is less than the sheet holds", `fibre = "88 %"`, `fibre = "0 %"`, `pulper: consistency is 4.6 %: the water of the white water has`},
		{"rejects thinner than the feed", `"3.6 %"`, `"0.2 %"`, `screen 1: reject-consistency is 0.2 %: the rejects would take 950.851 t/h of water, and 440.083 t/h are fed`},
		{"convention", `dryness     = "everything but water"`, `dryness = "all"`, `conventions: dryness is "all", want "everything but water" or "suspended matter"`},
	} {
		changed := strings.Replace(text, test.from, test.to, 1)
		if changed == text {
			t.Fatalf("%s: %q is not in the file", test.name, test.from)
		}
		_, err := answer(changed)
		if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), "test.toml") {
			t.Errorf("%s:\n got %v\nwant %s", test.name, err, test.want)
		}
	}
}

// A component that is nowhere let out of a closed loop is found by name.
func TestNoWayOut(t *testing.T) {
	text := read(t, quillbeck)
	for _, edit := range [][2]string{
		{`fibre = "88 %", filler = "48 %"`, `fibre = "88 %", filler = "0 %"`},
		{`reject-rate    = "4 %"`, `reject-rate    = "0 %"`},
		{`"18 %"` + "\nreject-c", `"0 %"` + "\nreject-c"},
		{`overflow = "sewer"`, `overflow = "broke pulper"`},
		{`reject-rate        = "18 %"`, `reject-rate        = "0 %"`},
	} {
		text = strings.Replace(text, edit[0], edit[1], 1)
	}
	_, err := answer(text)
	if err == nil || !strings.Contains(err.Error(), "filler has no way out") {
		t.Errorf("got %v, want: filler has no way out", err)
	}
}

// The copy with one bad figure that the examples hold is refused by name.
func TestImpossibleExample(t *testing.T) {
	l, err := line.ReadFile("../../examples/quillbeck/harebell-120-impossible.toml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err = l.Solve(); err == nil || !strings.Contains(err.Error(), "press: dryness is 17.5 %") {
		t.Errorf("got %v, want the dryness of the press named", err)
	}
}

// A figure left out comes back from any result that depends on it.
func TestSolveFor(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	a, err := l.Solve()
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct{ figure, result string }{
		{"wire.retention.filler", "white water.consistency"}, {"headbox.consistency", "headbox.volume"},
		{"fresh water.flow", "white water.filler"}, {"pulper.bales.moisture", "recovered paper.total"},
		{"winder.broke", "sold.total"}, {"size.speed", "steam"}, {"screen 1.reject-rate", "screen rejects.fibre"},
		{"size press.dryness", "starch-on-sheet"},
	} {
		unknown, err := l.With(test.figure, "?")
		if err != nil {
			t.Fatal(err)
		}
		want, _ := a.Value(test.result)
		roots, err := unknown.SolveFor(line.Wish{Result: test.result, Value: want})
		if err != nil {
			t.Errorf("%s from %s: %v", test.figure, test.result, err)
			continue
		}
		i, _ := l.FigureNamed(test.figure)
		best := math.Inf(1)
		for _, r := range roots {
			best = min(best, math.Abs(r.Figures[i].Value/l.Figures[i].Value-1))
		}
		if best > 1e-9 {
			t.Errorf("%s from %s: nearest root is off by %.1e", test.figure, test.result, best)
		}
	}
	if _, err := l.SolveFor(line.Wish{Result: "steam", Value: 20}); err == nil || !strings.Contains(err.Error(), "too many figures") {
		t.Errorf("nothing unknown: got %v", err)
	}
	unknown, _ := l.With("wire.retention.filler", "?")
	if _, err := unknown.SolveFor(line.Wish{Result: "white water.consistency", Value: 0.2}); err == nil || !strings.Contains(err.Error(), "no value gives white water.consistency 20 %") {
		t.Errorf("no root: got %v", err)
	}
}

// First order agrees with drawing from the figures, and the shares add up.
func TestUncertainties(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range [][2]string{{"headbox.consistency", "0.82 ± 0.01 %"}, {"wire.retention.filler", "48 ± 1 %"}, {"pulper.bales.moisture", "11.5(3) %"}} {
		if l, err = l.With(f[0], f[1]); err != nil {
			t.Fatal(err)
		}
	}
	spreads, err := l.Uncertainties(-1, line.Wish{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := l.NewSolver()
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	n := len(s.Results())
	mean, square := make([]float64, n), make([]float64, n)
	base := s.Values(nil)
	var values []float64
	const draws = 4000
	for range draws {
		for i, f := range l.Figures {
			if f.Uncertain.Standard > 0 {
				s.Set(i, f.Value+f.Uncertain.Standard*rnd.NormFloat64())
			}
		}
		if err := s.Solve(); err != nil {
			t.Fatal(err)
		}
		values = s.Values(values[:0])
		for i, y := range values {
			mean[i] += (y - base[i]) / draws
			square[i] += (y - base[i]) * (y - base[i]) / draws
		}
	}
	for i, r := range s.Results() {
		drawn := math.Sqrt(max(square[i]-mean[i]*mean[i], 0))
		if u := spreads[i].Standard; !(math.Abs(drawn-u) <= 0.05*u+1e-9*math.Abs(base[i])) {
			t.Errorf("u(%s) = %g, drawn %g", r.Name, u, drawn)
		}
		sum := 0.0
		for _, share := range spreads[i].Shares {
			sum += share.U * share.U
		}
		if u := spreads[i].Standard; !(math.Abs(math.Sqrt(sum)-u) <= 1e-9*u) {
			t.Errorf("%s: shares make %g, want %g", r.Name, math.Sqrt(sum), u)
		}
	}
}

// The uncertainty of a figure solved for is that of the result over the slope,
// and the result given keeps its own.
func TestUncertainRoot(t *testing.T) {
	l, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	unknown, err := l.With("wire.retention.filler", "?")
	if err != nil {
		t.Fatal(err)
	}
	wish, err := unknown.ReadWish("white water.consistency", "0.192 ± 0.002 %")
	if err != nil {
		t.Fatal(err)
	}
	at, _ := l.FigureNamed("wire.retention.filler")
	root := func(want float64) float64 {
		lines, err := unknown.SolveFor(line.Wish{Result: wish.Result, Value: want})
		if err != nil {
			t.Fatal(err)
		}
		return lines[0].Figures[at].Value
	}
	lines, err := unknown.SolveFor(wish)
	if err != nil {
		t.Fatal(err)
	}
	spreads, err := lines[0].Uncertainties(at, wish)
	if err != nil {
		t.Fatal(err)
	}
	want := math.Abs(root(0.00192+1e-7)-root(0.00192-1e-7)) / 2e-7 * 2e-5
	if got := spreads[len(spreads)-1].Standard; !(math.Abs(got-want) <= 1e-5*want) {
		t.Errorf("u of the figure is %g, want %g", got, want)
	}
	a, err := lines[0].Solve()
	if err != nil {
		t.Fatal(err)
	}
	given, err := line.ResultNamed(a.Results, wish.Result)
	if err != nil {
		t.Fatal(err)
	}
	if u := spreads[given].Standard; !(math.Abs(u-2e-5) <= 1e-12) {
		t.Errorf("u of the result given is %g, want 2e-5", u)
	}
}

// Each formula of a worked solution gives what the whole line gives.
func TestSteps(t *testing.T) {
	for _, text := range []string{read(t, quillbeck), twoPly} {
		a := solve(t, text)
		for _, b := range a.Stages {
			w, err := a.Steps(b.Name)
			if err != nil {
				t.Errorf("%s: %v", b.Name, err)
				continue
			}
			if len(w.Steps) == 0 {
				t.Errorf("%s has no steps", b.Name)
			}
			for _, step := range w.Steps {
				if !(math.Abs(step.Value-step.Solved) <= 1e-9*math.Max(math.Abs(step.Solved), 1e-3)) {
					t.Errorf("%s: %s = %g, the line gives %g", b.Name, step.Formula, step.Value, step.Solved)
				}
			}
		}
	}
}

// A figure is as uncertain as it was measured, and so are the results that hang on
// it.
func ExampleLine_Uncertainties() {
	l, err := line.ReadFile("../../examples/quillbeck/harebell-120.toml")
	if err == nil {
		l, err = l.With("headbox.consistency", "0.82 ± 0.01 %")
	}
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := l.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	spreads, err := l.Uncertainties(-1, line.Wish{}) // no figure was solved for
	if err != nil {
		fmt.Println(err)
		return
	}
	i, err := line.ResultNamed(a.Results, "white water.consistency")
	if err != nil {
		fmt.Println(err)
		return
	}
	r := &a.Results[i]
	fmt.Printf("%s: %.4f, u = %.4f %v\n", r.Name, r.In(a.Values[i]), r.Unit.Difference().To(spreads[i].Standard), r.Unit)
	// Output:
	// white water.consistency: 0.1924, u = 0.0022 %
}

func ExampleLine_Solve() {
	l, err := line.ReadFile("../../examples/quillbeck/harebell-120.toml")
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := l.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range a.Streams {
		if s.To == "sewer" || s.Name == "headbox" {
			fmt.Printf("%s: %.1f t/h at %.3f %%\n", s.Name, s.Total.In(paperprop.TonnePerHour), s.Dryness.In(paperprop.Percent))
		}
	}
	// Output:
	// headbox: 2165.1 t/h at 0.820 %
	// sewer: 72.0 t/h at 0.192 %
}

// A line has the cautions of its stages, each once, in the order of the stages.
func TestCautions(t *testing.T) {
	const stock = `
name = "stock"
[[component]]
name = "fibre"
form = "suspended"
[[tank]]
name = "clear"
make-up = "fresh"
[size]
fed = "10 t/h"
[[stage]]
name = "pulper"
kind = "pulper"
bales = { moisture = "10 %", fibre = "rest" }
consistency = "4 %"
water = "clear"
[[stage]]
name = "chest"
kind = "chest"
to = "sold"
`
	whole, err := line.ReadFile(quillbeck)
	if err != nil {
		t.Fatal(err)
	}
	pulped, err := line.Read("stock.toml", strings.NewReader(stock))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		line *line.Line
		want []string
	}{
		{whole, []string{"confined-space", "moving-machine", "steam", "heavy-reel"}},
		{pulped, []string{"confined-space"}},
	} {
		var got []string
		for _, c := range test.line.Cautions() {
			got = append(got, c.Code)
		}
		if !slices.Equal(got, test.want) {
			t.Errorf("%s has the cautions %q, want %q", test.line.Name, got, test.want)
		}
	}
}
