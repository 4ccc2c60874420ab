package line

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
)

// unsolved is a solver of a text that has not solved it.
func unsolved(t *testing.T, text string) *Solver {
	t.Helper()
	l, err := Read("test.toml", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	s, err := l.newSolver()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// loop is a line whose one tank is drawn on by all stages, and whose ways out for fines
// are figures that a test sets.
const loop = `
waste = ["rejects", "coarse"]
effluent = ["sewer"]
[size]
fed = "10 t/h"
[[component]]
name = "fibre"
form = "suspended"
[[component]]
name = "fines"
form = "suspended"
[[tank]]
name = "white water"
overflow = "save-all"
make-up = "fresh"
[[tank]]
name = "clear water"
overflow = "sewer"
make-up = "fresh"
[[stage]]
name = "pulper"
kind = "pulper"
bales = { moisture = "10 %", fibre = "rest", fines = "20 %" }
consistency = "4 %"
water = "clear water"
reject-rate = "3 %"
reject-dryness = "50 %"
rejects-to = "coarse"
[[stage]]
name = "screen"
kind = "screen"
reject-rate = "5 %"
reject-consistency = "2 %"
rejects-to = "rejects"
to = "thickener"
[[stage]]
name = "save-all"
kind = "save-all"
consistency = "3 %"
capture = { fibre = "100 %", fines = "90 %" }
water-to = "clear water"
to = "thickener"
[[stage]]
name = "thickener"
kind = "thickener"
consistency = "5 %"
capture = { fibre = "100 %", fines = "90 %" }
water-to = "white water"
[[stage]]
name = "headbox"
kind = "headbox"
consistency = "0.8 %"
water = "white water"
[[stage]]
name = "wire"
kind = "wire"
retention = { fibre = "100 %", fines = "50 %" }
dryness = "20 %"
water-to = "white water"
[[stage]]
name = "winder"
kind = "winder"
broke = "5 %"
broke-to = "thickener"
to = "sold"
`

// What comes to a place has no way out where all ways are shut, and one where any is
// open: in a sheet, in rejects, with a filtrate that runs to the sewer.
func TestStuck(t *testing.T) {
	const wire, screen, pulper, saveAll, thickener, bales, winder = "wire.retention.fines", "screen.reject-rate", "pulper.reject-rate",
		"save-all.capture.fines", "thickener.capture.fines", "pulper.bales.fines", "winder.broke"
	shut := map[string]float64{wire: 0, screen: 0, pulper: 0, saveAll: 1}
	for _, test := range []struct {
		name    string
		figures map[string]float64
		want    string
	}{
		{"all shut", nil, "pulper: fines has no way out: what comes here stays in the mill"},
		{"none in the bales", map[string]float64{bales: 0}, ""},
		{"in the sheet", map[string]float64{wire: 0.5}, ""},
		{"all of it in the sheet", map[string]float64{wire: 1}, ""},
		{"in the rejects of the screen alone", map[string]float64{screen: 0.1}, "thickener: fines has no way out"},
		{"in coarse rejects of the pulper alone", map[string]float64{pulper: 0.1}, "screen: fines has no way out"},
		{"in the filtrate of the save-all", map[string]float64{saveAll: 0.9}, ""},
		{"the save-all keeps nothing", map[string]float64{saveAll: 0}, ""},
		{"the thickener keeps nothing, and the water brings it to the wire", map[string]float64{wire: 0.5, thickener: 0}, ""},
		{"the thickener keeps all", map[string]float64{wire: 0.5, thickener: 1}, ""},
		{"all of the sheet comes back", map[string]float64{wire: 0.5, winder: 1}, "pulper: fibre has no way out"},
		{"none of the sheet comes back", map[string]float64{wire: 0.5, winder: 0}, ""},
		{"all of the sheet comes back, and the wire lets no fibre through", map[string]float64{wire: 0.5, winder: 1, "save-all.capture.fibre": 0.9}, "pulper: fibre has no way out"},
	} {
		s := unsolved(t, loop)
		set := func(figures map[string]float64) {
			for name, x := range figures {
				i, err := s.l.FigureNamed(name)
				if err != nil {
					t.Fatal(err)
				}
				s.Set(i, x)
			}
		}
		set(shut)
		set(test.figures)
		err := s.stuck()
		if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)) {
			t.Errorf("%s: %v, want %q", test.name, err, test.want)
		}
	}
	// Matter of which a save-all does not say what it keeps stays with the stock whole.
	s := unsolved(t, strings.Replace(loop, `fibre = "100 %", fines = "90 %" }`+"\nwater-to = \"clear", `fibre = "100 %" }`+"\nwater-to = \"clear", 1))
	for name, x := range map[string]float64{wire: 0, screen: 0, pulper: 0} {
		i, _ := s.l.figure(name)
		s.Set(i, x)
	}
	if err := s.stuck(); err == nil || !strings.Contains(err.Error(), "fines has no way out") {
		t.Errorf("a save-all that keeps what it is not told of: %v", err)
	}
	// What a thickener keeps stays in a loop behind it; what it does not keep leaves with
	// its filtrate.
	behind := strings.NewReplacer("water-to = \"white water\"\n[[stage]]\nname = \"headbox\"", "water-to = \"clear water\"\n[[stage]]\nname = \"headbox\"",
		"overflow = \"save-all\"", "overflow = \"headbox\"").Replace(loop)
	for capture, want := range map[float64]string{0: "", 0.5: "headbox: fines has no way out", 1: "pulper: fines has no way out"} {
		s := unsolved(t, behind)
		for name, x := range map[string]float64{wire: 0, screen: 0, pulper: 0, thickener: capture} {
			i, _ := s.l.figure(name)
			s.Set(i, x)
		}
		if err := s.stuck(); want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("a thickener that keeps %v: %v, want %q", capture, err, want)
		}
	}
}

// Of a line that has no solution, though no part of it is left over, no place is named.
func TestSingular(t *testing.T) {
	const want = "test.toml: the line: the figures of these places contradict each other, or leave a flow free"
	if err := unsolved(t, loop).singular(nil, nil); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// A line that was changed after it was read may have an equation too many, or too few.
func TestChangedLine(t *testing.T) {
	l, err := Read("test.toml", strings.NewReader(loop))
	if err != nil {
		t.Fatal(err)
	}
	l.Components = l.Components[1:]
	const want = "test.toml: 49 equations for 48 unknowns: the line was changed after it was read"
	if _, err := l.Solve(); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// Each flow below zero is explained, though people are told the first explanation that is
// sure, or the first at all.
func TestCauses(t *testing.T) {
	data, err := os.ReadFile(quillbeckFile)
	if err != nil {
		t.Fatal(err)
	}
	s := unsolved(t, string(data))
	i, _ := s.l.figure("size press.dryness")
	s.Set(i, 0.096) // and the solution has 9.5 %
	s.fixSize()
	if s.steady() == nil {
		t.Fatal("a sheet at 9.6 % is made with a solution of 9.5 %")
	}
	var got []string
	for why := range s.causes(-1e-6) {
		got = append(got, why.Error())
	}
	const overfed = "test.toml:58: pulper: recovered paper would run backwards, with 0.213059 t/h: 13.8243 t/h of dry matter are added to the sheet, and 13.6358 t/h leave the mill"
	for i, want := range []string{
		overfed, overfed, // told of the water that thins it, and of itself
		"test.toml:58: pulper: all of coarse rejects would run backwards, with 0.0130039 t/h",
		"test.toml:58: pulper: all of pulper would run backwards, with 4.37923 t/h",
		"test.toml: white water to the screen 1: all would run backwards, with 2.08343 t/h",
	} {
		if got[i] != want {
			t.Errorf("cause %d is %s\nwant %s", i+1, got[i], want)
		}
	}
	if want := "test.toml:58: pulper: starch of recovered paper would run backwards, with 0.00377114 t/h"; !slices.Contains(got, want) {
		t.Errorf("%s is not among\n%s", want, strings.Join(got, "\n"))
	}
}

// With the sheet as the one way out, all fines of the bales leave by it.
func TestOneWayOut(t *testing.T) {
	l, err := Read("test.toml", strings.NewReader(loop))
	if err != nil {
		t.Fatal(err)
	}
	for _, figure := range [][2]string{{"screen.reject-rate", "0 %"}, {"pulper.reject-rate", "0 %"}, {"save-all.capture.fines", "100 %"}} {
		if l, err = l.With(figure[0], figure[1]); err != nil {
			t.Fatal(err)
		}
	}
	a, err := l.Solve()
	if err != nil {
		t.Fatal(err)
	}
	in, _ := a.Value("recovered paper.fines")
	if out, ok := a.Value("sold.fines"); !ok || !(math.Abs(out-in) <= 1e-9*in) {
		t.Errorf("%v t/h of fines leave, and %v come", out, in)
	}
}

// Where nothing is dissolved, a thickener's water is worked without it.
func TestStepsOfClearWater(t *testing.T) {
	l, err := Read("test.toml", strings.NewReader(loop))
	if err != nil {
		t.Fatal(err)
	}
	a, err := l.Solve()
	if err != nil {
		t.Fatal(err)
	}
	w, err := a.Steps("thickener")
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(w.Steps, func(s Step) bool { return s.Formula == "l = s*(1 - c)/c" }) {
		t.Errorf("no step without x in %v", w.Steps)
	}
}

// A search finds all roots of a result over the range of its figure: between points of
// the grid, on them, at the ends of what is possible, and each once.
func TestRoots(t *testing.T) {
	data, err := os.ReadFile(quillbeckFile)
	if err != nil {
		t.Fatal(err)
	}
	l, err := Read("test.toml", strings.NewReader(string(data)))
	if err != nil {
		t.Fatal(err)
	}
	dryness, _ := l.figure("press.dryness") // possible from 19 % off the wire to 96 % off the dryers
	speed, _ := l.figure("size.speed")
	for _, test := range []struct {
		name  string
		of    func(x float64) float64
		roots []float64
	}{
		{"between points", func(x float64) float64 { return x - 0.4321 }, []float64{0.4321}},
		{"falling", func(x float64) float64 { return 0.4321 - x }, []float64{0.4321}},
		{"on a point", func(x float64) float64 { return x - 0.5 }, []float64{0.5}},
		{"two", func(x float64) float64 { return (x - 0.31) * (x - 0.77) }, []float64{0.31, 0.77}},
		{"two on points", func(x float64) float64 { return (x - 0.25) * (x - 0.75) }, []float64{0.25, 0.75}},
		{"touching on a point", func(x float64) float64 { return (x - 0.5) * (x - 0.5) }, []float64{0.5}},
		{"three", func(x float64) float64 { return (x - 0.2) * (x - 0.3) * (x - 0.9) }, []float64{0.2, 0.3, 0.9}},
		{"beside the lower end", func(x float64) float64 { return x - 0.1901 }, []float64{0.1901}},
		{"beside the upper end", func(x float64) float64 { return x - 0.9599 }, []float64{0.9599}},
		{"falling beside the upper end", func(x float64) float64 { return 0.9599 - x }, []float64{0.9599}},
		{"beyond the ends", func(x float64) float64 { return (x - 0.18) * (x - 0.97) }, nil},
		{"nowhere", func(float64) float64 { return 1 }, nil},
		{"on the first point that is possible", func(x float64) float64 { return x - 0.19 }, []float64{0.19}},
		{"of a speed, near nothing", func(x float64) float64 { return (x - 1.2e-5) * (x - 3e-5) }, []float64{1.2e-5, 3e-5}},
	} {
		s, err := l.newSolver()
		if err != nil {
			t.Fatal(err)
		}
		at := dryness
		if strings.HasPrefix(test.name, "of a speed") {
			at = speed
		}
		f := &search{s: s, figure: at, result: &Result{of: func(s *Solver) float64 { return test.of(s.figures[at]) }}, low: math.NaN(), high: math.NaN()}
		got := f.roots()
		same := len(got) == len(test.roots)
		for i := range min(len(got), len(test.roots)) {
			same = same && math.Abs(got[i]-test.roots[i]) <= 1e-12
		}
		if !same {
			t.Errorf("%s: roots %v, want %v", test.name, got, test.roots)
		}
	}
}

// A solution that is not one is no answer.
func TestNotClosed(t *testing.T) {
	s := prepared(t, quillbeckFile)
	if _, err := s.Answer(); err != nil {
		t.Fatal(err)
	}
	for i := range s.u {
		s.u[i] *= 1 + 1e-6*float64(i%3)
	}
	if a, err := s.Answer(); err == nil || !strings.Contains(err.Error(), "the balance closes only to") {
		t.Errorf("an answer that closes to %v, %v", a.Closure, err)
	}
}

// An order of elimination fills nothing where none need be filled: an arrow is
// eliminated from its shaft, a chain from its ends.
func TestFill(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 4))
	const n = 40
	for name, stands := range map[string]func(i, j int) bool{
		"an arrow": func(i, j int) bool { return i == j || i == 0 || j == 0 },
		"a chain":  func(i, j int) bool { return i-j <= 1 && j-i <= 1 },
		"a tree":   func(i, j int) bool { return i == j || (i-1)/2 == j && i > 0 || (j-1)/2 == i && j > 0 },
	} {
		rows, cols := r.Perm(n), r.Perm(n)
		var entries []entry
		var values []float64
		x := make([]float64, n)
		for i := range n {
			x[i] = 1
			for j := range n {
				if stands(i, j) {
					v := 1 + r.Float64()
					if i == j {
						v = 5
					}
					entries, values = append(entries, entry{rows[i], cols[j]}), append(values, v)
				}
			}
		}
		f, _, _ := newLU(n, entries, values, x, nil, nil)
		if f == nil {
			t.Fatalf("%s is said to be singular", name)
		}
		if got := len(f.left) + len(f.right) + n; got != len(entries) {
			t.Errorf("%s of %d entries is filled to %d", name, len(entries), got)
		}
	}
}

// Of a matrix that is singular what is left over is named.
func TestLeftOver(t *testing.T) {
	// Rows 1 and 3 tell the same of columns 0 and 2.
	entries := []entry{{0, 1}, {1, 0}, {1, 2}, {2, 3}, {3, 0}, {3, 2}}
	f, rows, cols := newLU(4, entries, []float64{1, 2, 3, 4, 4, 6}, []float64{1, 1, 1, 1}, make([]bool, 4), make([]bool, 4))
	if f != nil || len(rows) != 1 || len(cols) != 1 || rows[0]%2 != 1 || cols[0]%2 != 0 {
		t.Errorf("rows %v and columns %v are left over", rows, cols)
	}
	// Nothing stands in row 2 and column 2.
	f, rows, cols = newLU(3, []entry{{0, 0}, {1, 1}}, []float64{1, 1}, []float64{1, 1, 1}, make([]bool, 3), make([]bool, 3))
	if f != nil || fmt.Sprint(rows, cols) != "[2] [2]" {
		t.Errorf("rows %v and columns %v are left over", rows, cols)
	}
}
