package making_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/making"
	"millmaths.example/paperprop/table"
	"millmaths.example/paperprop/trim"
)

const quillbeck = "../../examples/quillbeck/"

// mill is a book of the invented mill without orders; what a test adds stands
// behind it.
const mill = `
start = "2026-11-30 06:00"
line = "harebell-120.toml"
diameter = "1250 mm"
core-diameter = "100 mm"
%s
[machine]
deckle = "3300 mm"
most-reels = 5
[jumbo]
diameter = "2.30 m"
spool = "0.60 m"
[[grade]]
name = "Whin 105"
grammage = "105 g/m2"
reel-thickness = "172 um"
[grade.figures]
"size.speed" = "700 m/min"
"reel.grammage" = "105 g/m2"
"headbox.consistency" = "0.72 %%"
[[grade]]
name = "Harebell 120"
grammage = "120 g/m2"
reel-thickness = "186 um"
`

// files serves those of the invented mill, and texts of a test.
func files(texts map[string]string) making.Opener {
	return func(name string) (io.ReadCloser, error) {
		if text, ok := texts[name]; ok {
			return io.NopCloser(strings.NewReader(text)), nil
		}
		return os.Open(quillbeck + name)
	}
}

func read(t testing.TB, text string, texts map[string]string, set ...making.Setting) *making.Book {
	t.Helper()
	b, err := making.Read("book.toml", strings.NewReader(text), files(texts), table.Options{}, set...)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func plan(t testing.TB, b *making.Book) *making.Plan {
	t.Helper()
	p, err := b.Plan(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// listed is a book with an order list.
func listed(t testing.TB, head, list string, set ...making.Setting) *making.Book {
	t.Helper()
	return read(t, fmt.Sprintf(mill, "orders = \"list.csv\"\n"+head), map[string]string{"list.csv": list}, set...)
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b), 1) }

// The figures that the invented mill's scenario prints: they prove that the book
// is read as it is meant.
func TestQuillbeck(t *testing.T) {
	b, err := making.ReadFile(quillbeck+"order-book.toml", table.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := plan(t, b)
	for i, want := range []struct {
		grade        string
		sets         int
		loss, tonnes string
	}{
		{"Whin 105", 14, "5.67", "32.44"}, {"Harebell 120", 10, "6.42", "24.29"}, {"Harebell 140", 10, "4.41", "25.16"},
	} {
		r := p.Runs[i]
		if loss, ordered := fmt.Sprintf("%.2f", 100*r.Sets.Loss()), fmt.Sprintf("%.2f", r.Tonnes.Ordered.In(paperprop.Tonne)); r.Grade.Name != want.grade ||
			r.Sets.Sets != want.sets || !r.Sets.Certificate.Proven || loss != want.loss || ordered != want.tonnes {
			t.Errorf("run %d: %s, %d sets, proven %v, loss %s %%, %s t; want %v", i+1, r.Grade.Name, r.Sets.Sets, r.Sets.Certificate.Proven, loss, ordered, want)
		}
		// "A jumbo holds three sets and a rest."
		if w := r.Wound[0]; w.PerJumbo != 3 || !(w.Rest > 0 && w.Rest < w.Length) || w.Jumbos != (want.sets+2)/3 || w.Rests != want.sets/3 {
			t.Errorf("%s: %+v", want.grade, w)
		}
	}
	for name, want := range map[string]string{"production": "15.12", "steam": "25.68"} {
		if x, ok := p.Runs[1].Line.Value(name); !ok || fmt.Sprintf("%.2f", x) != want {
			t.Errorf("line of Harebell 120: %s is %v, want %s", name, x, want)
		}
	}
	// The grades whose figures are derived keep within the dryers of the one that
	// is told.
	most, _ := p.Runs[1].Line.Value("drying-rate")
	for _, r := range p.Runs {
		if x, ok := r.Line.Value("drying-rate"); !ok || x > most*1.001 {
			t.Errorf("%s dries %v kg/(h m2), more than %v of Harebell 120", r.Grade.Name, x, most)
		}
	}
}

// Where the line's own broke holds all that is not sold, a grade takes what the
// line alone tells: 1.0901 t of recovered paper for a tonne, 102.332 t/h of fresh
// water.
func TestLineAlone(t *testing.T) {
	p := plan(t, listed(t, "broke = \"trim included\"\n", "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n", making.Setting{Name: "jumbo.rest", Text: "not wound"}))
	r := p.Runs[0]
	if got := fmt.Sprintf("%.4f", r.Takes.Paper/r.Tonnes.Sold()); got != "1.0901" {
		t.Errorf("%s t of recovered paper per tonne sold, want 1.0901", got)
	}
	if got := fmt.Sprintf("%.3f", r.Takes.FreshWater.In(paperprop.Tonne)/r.Hours.Reeling.In(paperprop.Hour)); got != "102.332" {
		t.Errorf("%s t/h of fresh water, want 102.332", got)
	}
	if got := fmt.Sprintf("%.2f", r.Takes.Steam.In(paperprop.Tonne)/r.Hours.Reeling.In(paperprop.Hour)); got != "25.68" {
		t.Errorf("%s t/h of steam, want 25.68", got)
	}
	if !near(float64(r.Broke), 0.06) {
		t.Errorf("broke is %v, want 6 %%", r.Broke)
	}
}

// random is a list of orders, some of them of tonnes, some with a date.
func random(r *rand.Rand, n int) []string {
	var rows []string
	for i := range n {
		grade := []string{"Whin 105", "Harebell 120"}[r.IntN(2)]
		amount := fmt.Sprintf("%d;", 1+r.IntN(12))
		if r.IntN(3) == 0 {
			amount = fmt.Sprintf(";%d t", 5+r.IntN(20))
		}
		due := ""
		if r.IntN(3) > 0 {
			due = time.Date(2026, 11, 30, 6+r.IntN(40), 0, 0, 0, time.UTC).Format("2006-01-02 15:04")
		}
		rows = append(rows, fmt.Sprintf("O%d;%s;%d;%s;%s;%d %%;%d mm", i, grade, 400+10*r.IntN(150), amount, due, 5*r.IntN(3), 1200+50*r.IntN(2)))
	}
	return rows
}

const head = "order;grade;width [mm];reels;ordered-mass;due;over-run;diameter\n"

// Sums are sums, what is made is what becomes of it, and an hour of the line
// closes.
func TestBalance(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 7))
	for range 25 {
		set := making.Setting{Name: "jumbo.rest", Text: []string{"broke", "not wound"}[r.IntN(2)]}
		p := plan(t, listed(t, "running = \"Whin 105\"\nlimit = \"200ms\"\nhandling = \"1 h\"\n[change]\ntime = \"40 min\"\nloss = \"1 t\"\n",
			head+strings.Join(random(r, 1+r.IntN(10)), "\n"), set, making.Setting{Name: "jumbo.lost", Text: "20 m"}))
		var sum making.Tonnes
		var paper, dry, water float64
		at := p.Book.Start
		for _, run := range p.Runs {
			x := run.Tonnes
			made := x.Ordered + x.Over + x.Trim + x.Rest + x.Broke + x.Change
			if !near(float64(made), float64(x.Made)) {
				t.Errorf("%s: made %v, and %v becomes of it", run.Grade.Name, x.Made, made)
			}
			// What was wound, and the strips and breaks beside it.
			deckle := 0.0
			for _, w := range run.Wound {
				length := float64(w.Sets)*w.Length.In(paperprop.Metre) + float64(w.Rests)*w.Rest.In(paperprop.Metre) + 20*float64(w.Jumbos)
				deckle += length * 3.3 * run.Grade.Grammage.In(paperprop.GramPerSquareMetre) / 1e6
			}
			if got := (x.Made - x.Broke - x.Change).In(paperprop.Tonne); !near(got, deckle) {
				t.Errorf("%s: %v t on the deckle, and %v t wound", run.Grade.Name, got, deckle)
			}
			if !near(float64(x.Broke), 0.06*float64(x.Made-x.Change)) {
				t.Errorf("%s: broke %v of %v", run.Grade.Name, x.Broke, x.Made-x.Change)
			}
			if !(run.Line.Closure < 1e-9) {
				t.Errorf("%s: closure %v", run.Grade.Name, run.Line.Closure)
			}
			sold, _ := run.Line.Value("sold")
			hours := x.Made.In(paperprop.Tonne) / 15.12
			if run.Grade.Name == "Whin 105" {
				hours = x.Made.In(paperprop.Tonne) / 14.8176
			}
			if !near(sold*hours, x.Sold().In(paperprop.Tonne)) {
				t.Errorf("%s: the line sells %v t, the plan %v", run.Grade.Name, sold*hours, x.Sold())
			}
			if run.Change.Before(at) || run.Begin.Before(run.Change) || !run.End.After(run.Begin) {
				t.Errorf("%s: from %v, %v to %v after %v", run.Grade.Name, run.Change, run.Begin, run.End, at)
			}
			at = run.End
			sum.Ordered, sum.Over, sum.Trim, sum.Rest = sum.Ordered+x.Ordered, sum.Over+x.Over, sum.Trim+x.Trim, sum.Rest+x.Rest
			sum.Broke, sum.Change, sum.Made = sum.Broke+x.Broke, sum.Change+x.Change, sum.Made+x.Made
			paper, dry, water = paper+float64(run.Takes.Paper), dry+float64(run.Takes.DryPaper), water+float64(run.Takes.FreshWater)
		}
		if !near(float64(sum.Made), float64(p.Tonnes.Made)) || !near(float64(sum.Ordered), float64(p.Tonnes.Ordered)) || !near(float64(sum.Trim), float64(p.Tonnes.Trim)) ||
			!near(paper, float64(p.Takes.Paper)) || !near(dry, float64(p.Takes.DryPaper)) || !near(water, float64(p.Takes.FreshWater)) {
			t.Errorf("sums %+v, all %+v", sum, p.Tonnes)
		}
		mass := paperprop.Mass(0)
		for i, m := range p.Orders {
			mass += m.Mass
			if m.Left == 0 && (m.Ready.Before(p.Book.Start) || m.Ready.After(p.Ready.Add(time.Hour))) {
				t.Errorf("%s is ready %v, and all %v", p.Book.Orders[i].Name, m.Ready, p.Ready)
			}
			if m.Late > 0 && m.Reason == "" {
				t.Errorf("%s is late by %v, and no word why", p.Book.Orders[i].Name, m.Late)
			}
		}
		if !near(float64(mass), float64(p.Tonnes.Sold())) {
			t.Errorf("orders weigh %v, and %v is sold", mass, p.Tonnes.Sold())
		}
	}
}

// The order of the list does not matter.
func TestOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 7))
	for range 6 {
		rows := random(r, 8)
		a := plan(t, listed(t, "", head+strings.Join(rows, "\n")))
		r.Shuffle(len(rows), func(i, j int) { rows[i], rows[j] = rows[j], rows[i] })
		b := plan(t, listed(t, "", head+strings.Join(rows, "\n")))
		if len(a.Runs) != len(b.Runs) || a.Tonnes != b.Tonnes || a.Takes.Paper != b.Takes.Paper || !a.Ready.Equal(b.Ready) {
			t.Errorf("%+v, and in another order %+v", a.Tonnes, b.Tonnes)
		}
		for i, m := range a.Orders {
			j := slices.IndexFunc(b.Book.Orders, func(o making.Order) bool { return o.Name == a.Book.Orders[i].Name })
			if n := b.Orders[j]; !m.Ready.Equal(n.Ready) || m.Reels != n.Reels || m.Reason != n.Reason {
				t.Errorf("%s: %+v, and in another order %+v", a.Book.Orders[i].Name, m, n)
			}
		}
	}
}

// Of k times the orders k times the tonnes are sold, and no more than k times is
// made where jumbos are turned up at whole sets.
func TestMultiples(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 7))
	turned := making.Setting{Name: "jumbo.rest", Text: "not wound"}
	for range 6 {
		b := listed(t, "", "order;grade;width [mm];reels\nA;Whin 105;1640;"+fmt.Sprint(1+r.IntN(9))+"\nB;Whin 105;1010;"+fmt.Sprint(1+r.IntN(9))+"\nC;Harebell 120;1450;3\n", turned)
		one := plan(t, b)
		for i := range b.Orders {
			b.Orders[i].Reels *= 3
		}
		three := plan(t, b)
		if !near(float64(three.Tonnes.Sold()), 3*float64(one.Tonnes.Sold())) {
			t.Errorf("three times %v is %v", one.Tonnes.Sold(), three.Tonnes.Sold())
		}
		if float64(three.Tonnes.Made) > 3*float64(one.Tonnes.Made)*(1+1e-9) {
			t.Errorf("three times %v makes %v", one.Tonnes.Made, three.Tonnes.Made)
		}
	}
}

// A faster machine makes the same of the same, in less time.
func TestSpeed(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Harebell 120;1640;9\n"
	slow := plan(t, listed(t, "", list, making.Setting{Name: "Harebell 120.size.speed", Text: "500 m/min"}))
	fast := plan(t, listed(t, "", list, making.Setting{Name: "line.size.speed", Text: "1000 m/min"}))
	if !near(float64(slow.Takes.Paper), float64(fast.Takes.Paper)) || !near(float64(slow.Takes.FreshWater), float64(fast.Takes.FreshWater)) ||
		!near(float64(slow.Hours.Sum()), 2*float64(fast.Hours.Sum())) {
		t.Errorf("slow %+v in %v, fast %+v in %v", slow.Takes, slow.Hours.Sum(), fast.Takes, fast.Hours.Sum())
	}
}

// What fixes the size of the line's file does not matter, only the production
// that it tells.
func TestSizeOfLine(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Harebell 120;1640;9\n"
	want := plan(t, listed(t, "", list))
	for _, set := range []making.Setting{{Name: "Harebell 120.size.sold", Text: "14.2128 t/h"}, {Name: "Harebell 120.size.reel", Text: "15.12 t/h"}} {
		got := plan(t, listed(t, "", list, set))
		if !near(float64(got.Takes.Paper), float64(want.Takes.Paper)) || !near(float64(got.Hours.Sum()), float64(want.Hours.Sum())) {
			t.Errorf("%v: %v in %v, want %v in %v", set, got.Takes.Paper, got.Hours.Sum(), want.Takes.Paper, want.Hours.Sum())
		}
	}
}

// What is set of a grade holds before what is set of all lines, and that before what
// the grade tells, whichever came first; a size takes the place of any other.
func TestSizeSet(t *testing.T) {
	type set = []making.Setting
	for _, test := range []struct {
		set    set
		result string
		whin   float64 // which tells size.speed = 700 m/min
		hare   float64 // which tells none; 625 m/min of its line's file
	}{
		{nil, "production", 14.8176, 15.12}, // 700 m/min · 3.36 m · 105 g/m², 625 m/min · 3.36 m · 120 g/m²
		{set{{"Whin 105.size.reel", "13 t/h"}}, "production", 13, 15.12},
		{set{{"line.size.reel", "13 t/h"}}, "production", 13, 13},
		{set{{"line.size.sold", "13 t/h"}}, "sold", 13, 13},
		{set{{"line.size.fed", "13 t/h"}}, "recovered paper.total", 13, 13},
		{set{{"line.size.speed", "500 m/min"}}, "production", 10.584, 12.096},
		{set{{"Whin 105.size.fed", "13 t/h"}, {"line.size.fed", "12 t/h"}}, "recovered paper.total", 13, 12},
		{set{{"line.size.fed", "12 t/h"}, {"Whin 105.size.fed", "13 t/h"}}, "recovered paper.total", 13, 12},
		{set{{"Whin 105.size.speed", "500 m/min"}, {"line.size.reel", "12 t/h"}}, "production", 10.584, 12},
		{set{{"line.size.speed", "500 m/min"}, {"Whin 105.size.reel", "12 t/h"}}, "production", 12, 12.096},
	} {
		b := listed(t, "", "order;grade;width [mm];reels\nA;Harebell 120;1640;9\n", test.set...)
		for i, want := range []float64{test.whin, test.hare} {
			a, err := b.Grades[i].Line.Solve()
			if err != nil {
				t.Fatal(err)
			}
			if got, ok := a.Value(test.result); !ok || !near(got, want) {
				t.Errorf("%v: %s: %s is %v, want %v", test.set, b.Grades[i].Name, test.result, got, want)
			}
		}
	}
}

// Tonnes are met with whole reels within the tolerance, and what is over is told.
func TestTolerance(t *testing.T) {
	p := plan(t, listed(t, "", "order;grade;width [mm];ordered-mass;over-run;under-run\nA;Harebell 120;1080;7,6 t;0 %;10 %\nB;Harebell 120;1640;9 t;30 %;0 %\n"))
	for i, m := range p.Orders {
		o := p.Book.Orders[i]
		low, high := float64(o.Mass)*(1-float64(o.Terms.UnderRun)), float64(o.Mass)*(1+float64(o.Terms.OverRun))
		if m.Left > 0 || float64(m.Mass) < low || float64(m.Mass) > high {
			t.Errorf("%s: %v of %v, want %v to %v kg", o.Name, m.Mass, o.Mass, low, high)
		}
	}
	over := paperprop.Mass(0)
	for _, m := range p.Orders {
		over += paperprop.Mass(float64(max(0, m.Over)) * m.Order.ReelMass.In(paperprop.Kilogram))
	}
	if !near(float64(over), float64(p.Tonnes.Over)) {
		t.Errorf("over %v, of all %v", over, p.Tonnes.Over)
	}
}

// Reels of two sizes never lie on one jumbo.
func TestSizesOfReels(t *testing.T) {
	p := plan(t, listed(t, "", "order;grade;width [mm];reels;diameter\nA;Whin 105;1640;4;1250 mm\nB;Whin 105;1640;4;1000 mm\n"))
	r := p.Runs[0]
	if len(r.Wound) != 2 || r.Wound[0].Sets != 2 || r.Wound[1].Sets != 2 || r.Jumbos != 2 {
		t.Fatalf("wound %+v", r.Wound)
	}
	if a, b := p.Orders[0].Order.ReelMass, p.Orders[1].Order.ReelMass; !near(float64(a/b), (1.25*1.25-0.01)/(1-0.01)) {
		t.Errorf("reels of %v and %v", a, b)
	}
}

// Dates choose the sequence; the book may say another, and then who waits is told
// why.
func TestDates(t *testing.T) {
	list := "order;grade;width [mm];reels;due\nA;Whin 105;1640;12;2026-12-02\nB;Harebell 120;1640;8;30.11.2026 08:00\nC;Harebell 120;1640;200;2026-11-30\n"
	p := plan(t, listed(t, "", list))
	if p.Runs[0].Grade.Name != "Harebell 120" || p.Orders[1].Late > 0 {
		t.Errorf("first runs %s; B is late by %v", p.Runs[0].Grade.Name, p.Orders[1].Late)
	}
	if m := p.Orders[2]; m.Late <= 0 || !strings.HasPrefix(m.Reason, "can't be made by then: though Harebell 120 runs first, the last jumbo with a reel of it is wound ") {
		t.Errorf("C: %v, %q", m.Late, m.Reason)
	}
	p = plan(t, listed(t, "sequence = [\"Whin 105\", \"Harebell 120\"]\n", list))
	if m := p.Orders[1]; m.Late <= 0 || !strings.HasPrefix(m.Reason, "Whin 105 runs before it until Mon 30 Nov 07:") || !strings.Contains(m.Reason, "with Harebell 120 first it would be ready Mon 30 Nov 07:") {
		t.Errorf("B: %v, %q", m.Late, m.Reason)
	}
	p = plan(t, listed(t, "running = \"Whin 105\"\n[change]\ntime = \"2 h\"\n", list))
	if !p.Runs[0].Changed || p.Runs[0].Begin.Sub(p.Book.Start) != 2*time.Hour || p.Hours.Changes != 4*paperprop.Hour {
		t.Errorf("%+v", p.Runs[0])
	}
}

// The yard tells until when.
func TestYard(t *testing.T) {
	list := "order;grade;width [mm];reels\nA;Whin 105;1640;40\n"
	all := plan(t, listed(t, "", list))
	if got := all.YardLeft + all.Takes.Paper; !near(got.In(paperprop.Tonne), 3200) { // of the line's file
		t.Errorf("the yard held %v", got)
	}
	half := plan(t, listed(t, "", list, making.Setting{Name: "yard", Text: fmt.Sprintf("%v t", all.Takes.Paper.In(paperprop.Tonne)/2)}))
	mid := half.Book.Start.Add(half.Ready.Sub(half.Book.Start) / 2)
	if d := half.YardOut.Sub(mid); half.YardLeft >= 0 || d < -time.Second || d > time.Second || !strings.Contains(half.Orders[0].Reason, "the yard is empty") {
		t.Errorf("%v left, empty %v: %q", half.YardLeft, half.YardOut, half.Orders[0].Reason)
	}
}

// What can't be made is left out, each with its reason, and the rest is planned.
func TestNotToBeMade(t *testing.T) {
	b := listed(t, "", `order;grade;width [mm];reels;ordered-mass;due;diameter
A;Whin 105;3450;2;;;
B;Whin 106;1000;2;;;
C;Whin 105;1000;;12;;
D;Whin 105;1000;2;;03/04/2026;
E;Whin 105;1000;2;;;3 m
F;Harebell 120;1000;3;;;
total;;;11;;;
`)
	var bad []string
	for _, err := range b.Bad {
		bad = append(bad, err.Error())
	}
	for i, want := range []string{
		`list.csv:3:2: grade "Whin 106": unknown, want one of Harebell 120, Whin 105`, `list.csv:4:5: ordered-mass "12": unit missing`, `list.csv:5:6: due "03/04/2026": no date that reads in one way only, want 2026-12-02`,
	} {
		if i >= len(bad) || !strings.HasPrefix(bad[i], want) {
			t.Errorf("bad rows are %q, want %q", bad, want)
		}
	}
	if b.Footer != 1 {
		t.Errorf("%d footers", b.Footer)
	}
	p := plan(t, b)
	for i, want := range []string{"wider than the deckle", "a jumbo of 2300 mm on a spool of 600 mm holds no whole reel of 3000 mm", ""} {
		if m := p.Orders[i]; (m.Left > 0) != (want != "") || !strings.Contains(m.Reason, want) {
			t.Errorf("%s: %d left, %q, want %q", b.Orders[i].Name, m.Left, m.Reason, want)
		}
	}
	if len(p.Runs) != 1 || p.Orders[2].Reels != 3 {
		t.Errorf("runs %+v", p.Runs)
	}
	// In code, a grade may be named that is not there.
	b.Orders[2].Grade = "Harebel 120"
	p = plan(t, b)
	if m := p.Orders[2]; m.Left != 3 || !strings.Contains(m.Reason, "near: Harebell 120") || len(p.Runs) != 0 {
		t.Errorf("%+v", m)
	}
}

// Orders in the book itself are those of a list.
func TestOrdersInBook(t *testing.T) {
	in := read(t, fmt.Sprintf(mill, "")+`
[[order]]
order = "A"
customer = "Tansy & Daughter"
grade = "Whin 105"
width = "1640 mm"
reels = 12
due = 2026-12-01
[[order]]
order = "B"
grade = "Harebell 120"
width = "48 in"
ordered-mass = "9 t"
over-run = "20 %"
due = 2026-12-01T14:00:00
`, nil)
	from := listed(t, "", "order;customer;grade;width;reels;ordered-mass;over-run;due\nA;Tansy & Daughter;Whin 105;1640 mm;12;;;2026-12-01\nB;;Harebell 120;48 in;;9 t;20 %;1.12.2026 14:00\n")
	a, b := plan(t, in), plan(t, from)
	if a.Tonnes != b.Tonnes || a.Takes.Paper != b.Takes.Paper || in.Orders[0].Due != from.Orders[0].Due || in.Orders[1].Due != from.Orders[1].Due {
		t.Errorf("in the book %+v, in a list %+v", a.Tonnes, b.Tonnes)
	}
}

func TestRefused(t *testing.T) {
	list := map[string]string{"list.csv": "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n", "dry.toml": "name = \"x\"",
		"other.csv": "grade;width [mm];Quantity\nHarebell 120;1080;9\n"}
	good := fmt.Sprintf(mill, "orders = \"list.csv\"")
	for _, test := range []struct{ old, new, want string }{
		{"start = ", "stat = ", `book.toml:2: unknown name "stat", near: start`},
		{"most-reels", "most-reel", `unknown name "machine.most-reel", near: most-reels`},
		{"reel-thickness", "reel-thicknes", `unknown name "grade.reel-thicknes", near: reel-thickness`},
		{"start = \"2026-11-30 06:00\"", "", "book.toml: start missing"},
		{"2026-11-30 06:00", "30/11/26", "start is \"30/11/26\": no date"},
		{"2026-11-30 06:00", "26-11-30", "no date"},
		{"deckle = \"3300 mm\"", "", "machine.deckle missing, want one such as \"3300 mm\""},
		{"3300 mm", "3300", "unit missing"},
		{"\"3300 mm\"", "3300", "machine.deckle is 3300, want it in quotes with its unit"},
		{"3300 mm", "-3300 mm", "machine.deckle is -3300 mm, want above 0 mm"},
		{"3300 mm", "3400 mm", "the deckle of 3400 mm is wider than the sheet on the reel, 3360 mm"},
		{"3300 mm", "3000 mm", "winder.broke is 6 %, but the strips beside the deckle of 3000 mm"},
		{"2.30 m", "0.50 m", "jumbo.diameter is 0.50 m, want above its spool, 0.60 m"},
		{"grammage = \"120 g/m2\"", "", "grade \"Harebell 120\": grammage missing"},
		{"grammage = \"120 g/m2\"", "grammage = \"125 g/m2\"", "the grade has 125 g/m2 and its line reel.grammage = 120 g/m2"},
		{"reel-thickness = \"186 um\"", "", "grade \"Harebell 120\": reel-thickness missing"},
		{"name = \"Harebell 120\"", "name = \"Whin 105\"", "grade \"Whin 105\" appears twice"},
		{"\"size.speed\"", "\"size.sped\"", "near: size.speed"},
		{"\"size.speed\"", "\"size.reel\" = \"13 t/h\"\n\"size.speed\"",
			"book.toml:17: grade \"Whin 105\": size is fixed by size.reel = 13 t/h and size.speed = 700 m/min at once: give one, and the others follow"},
		{"\"size.speed\"", "size.speed = \"650 m/min\"\n\"size.speed\"", "grade \"Whin 105\": size.speed is given twice: \"650 m/min\" and \"700 m/min\", want one"},
		{"name = \"Harebell 120\"", "name = \"Harebell 120\"\nfigures = { headbox.consistency = \"72 %\" }", "Harebell 120: harebell-120.toml:"},
		{"line = \"harebell-120.toml\"", "", "line missing"},
		{"line = \"harebell-120.toml\"", "line = \"nowhere.toml\"", "nowhere.toml"},
		{"line = \"harebell-120.toml\"", "line = \"dry.toml\"", "dry.toml: nothing fixes the size"},
		{"orders = \"list.csv\"", "", "want either orders = \"FILE\" or [[order]]"},
		{"orders = \"list.csv\"", "orders = \"gone.csv\"", "gone.csv"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nsequence = [\"Whin 105\"]", "book.toml:7: sequence: \"Harebell 120\" is missing, but has orders"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nsequence = [\"Whin\"]", "sequence: \"Whin\" is no grade of the book"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nrunning = \"Harebell 12\"", "running: \"Harebell 12\" is no grade of the book, near: Harebell 120"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nuptime = \"120 %\"", "uptime is 120 %"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nuptime = \"0 %\"", "uptime is 0 %, want above it"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nyard = \"0 t\"", "yard is 0 t: there is nothing to make paper of"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nuptime = \"1e-12 %\"", "more than a hundred years"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nbroke = \"none\"", "broke is \"none\", want \"beside trim\" or \"trim included\""},
		{"orders = \"list.csv\"\n[machine]\ndeckle = \"3300 mm\"\nmost-reels = 5", "orders = \"list.csv\"\nbroke = \"trim included\"\n[machine]\ndeckle = \"3300 mm\"\nmost-reels = 2", "winder.broke is 6 %, trim and rests of jumbos included, but they alone are"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nlimit = \"soon\"", "limit is \"soon\", want a time such as 20s"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[change]\ntime = \"10 min\"\nloss = \"6 t\"", "change.loss is 6 t, and takes 24 min at 15.12 t/h: more than change.time, 10 min"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[change]\ntime = \"-10 min\"", "change.time is -10 min, want from 0"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[change]\ntime = \"876600 h\"", "change.time is 876600 h, want below a hundred years"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nhandling = \"3e6 h\"", "handling is 3e6 h, want below a hundred years"},
		{"orders = \"list.csv\"", "orders = \"other.csv\"",
			"no column reels and none ordered-mass, want one of them; the heads are grade, width, Quantity; name its column with columns.reels = \"HEAD\" in the book"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[columns]\nwidht = \"B\"", "columns: unknown name \"widht\", near: width"},
		{"orders = \"list.csv\"", "[[order]]\nreels = 3\n", "book.toml:6: order 1: width missing, want a length such as 1000 mm"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[[grade]]\ngrammage = \"120 g/m2\"\n", "book.toml:7: grade 1: name missing, want that by which orders refer to it"},
		{"diameter = \"1250 mm\"", "", ""}, // told of the order alone: see below
	} {
		text := strings.Replace(good, test.old, test.new, 1)
		if text == good {
			t.Errorf("nothing to replace: %q", test.old)
		}
		b, err := making.Read("book.toml", strings.NewReader(text), files(list), table.Options{})
		var p *making.Plan
		if err == nil {
			p, err = b.Plan(context.Background())
		}
		if test.want == "" {
			if err != nil || p.Orders[0].Left != 9 || !strings.Contains(p.Orders[0].Reason, "diameter missing") {
				t.Errorf("%q for %q: %v", test.new, test.old, err)
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q for %q: %v, want %q", test.new, test.old, err, test.want)
		}
	}
	for _, test := range []struct{ name, text, want string }{
		{"uptim", "80 %", "near: uptime"}, {"uptime", "80", `fraction "80": unit missing, want %`}, {"Whin 105.reel.width", "3 furlong", "reel.width"},
		{"line.reel.widht", "3.3 m", "near: reel.width"}, {"a = 1\nb", "1", "no figure of the book"}, {"machine.most-reels", "x", "most-reels"},
	} {
		_, err := making.Read("book.toml", strings.NewReader(good), files(list), table.Options{}, making.Setting{Name: test.name, Text: test.text})
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("set %s=%s: %v, want %q", test.name, test.text, err, test.want)
		}
	}
}

// A grade of which so little is sold that its line can't take the broke of it is left out,
// and the others are planned as if nothing of it were ordered. It is an error only where no
// other is left.
func TestTinyGrade(t *testing.T) {
	const (
		change = "running = \"Whin 105\"\n[change]\ntime = \"30 min\"\nloss = \"5 t\""
		whin   = "A;Whin 105;1640;12;;;;\nB;Whin 105;1010;14;;;;\n"
		tiny   = "C;Harebell 120;100;1;;;;\n"
		wide   = "D;Harebell 120;3450;2;;;;\n"
	)
	without, p := plan(t, listed(t, change, head+whin)), plan(t, listed(t, change, head+whin+tiny+wide))
	if len(p.Runs) != 1 || p.Tonnes != without.Tonnes || p.Hours != without.Hours || !p.Ready.Equal(without.Ready) {
		t.Errorf("%d runs, %+v, %+v, ready %v; without the tiny grade %+v, %+v, ready %v", len(p.Runs), p.Tonnes, p.Hours, p.Ready, without.Tonnes, without.Hours, without.Ready)
	}
	c := &p.Orders[2]
	if want := "t can be sold: harebell-120.toml:47: white water: the tank runs dry by "; !c.Out() || c.Left != 1 || c.Mass != 0 || !c.Ready.IsZero() || !strings.Contains(c.Reason, want) {
		t.Errorf("the tiny order: %+v, want it left out with %q", c, want)
	}
	if d := &p.Orders[3]; d.Left != 2 || !strings.Contains(d.Reason, "wider than the deckle") {
		t.Errorf("an order of it that has a reason of its own: %+v", d)
	}
	if p, err := listed(t, change, head+tiny).Plan(context.Background()); err == nil || !strings.HasPrefix(err.Error(), "book.toml:25: Harebell 120: with ") {
		t.Errorf("the tiny order alone: %v, %v", p, err)
	}
}

// A name that is wrong in a setting is a mistake of who asks, and one in a book is not.
func TestWrongNames(t *testing.T) {
	list := map[string]string{"list.csv": "order;grade;width [mm];reels\nA;Harebell 120;1640;9\n"}
	good := fmt.Sprintf(mill, "orders = \"list.csv\"\n")
	for _, test := range []struct {
		text  string
		set   []making.Setting
		asked bool
	}{
		{good, []making.Setting{{Name: "uptim", Text: "80 %"}}, true},
		{good, []making.Setting{{Name: "Whin 106.size.speed", Text: "600 m/min"}}, true},
		{good, []making.Setting{{Name: "line.size.sped", Text: "600 m/min"}}, true},
		{good, []making.Setting{{Name: "uptime", Text: "80 t"}}, false},
		{strings.Replace(good, "size.speed", "size.sped", 1), nil, false},
		{strings.Replace(good, "diameter", "diametre", 1), nil, false},
	} {
		_, err := making.Read("book.toml", strings.NewReader(test.text), files(list), table.Options{}, test.set...)
		if unknown := (*calc.NameError)(nil); err == nil || errors.As(err, &unknown) != test.asked {
			t.Errorf("%v: %v, a name asked for: %v, want %v", test.set, err, !test.asked, test.asked)
		}
	}
}

// A fault of a book is told with the line of its key, or of the table that lacks it; one
// of a setting with neither.
func TestFaultLines(t *testing.T) {
	list := map[string]string{"list.csv": "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n"}
	order := "[[order]]\ngrade = \"Harebell 120\"\nwidth = \"1 m\"\nreels = 3\n"
	for _, test := range []struct {
		old, new, set string // the setting is of jumbo.diameter, if there is one
		want          string
	}{
		{"start = \"2026-11-30 06:00\"", "", "", "book.toml: start missing"},
		{"2026-11-30 06:00", "26-11-30", "", "book.toml:2: start is"},
		{"deckle = \"3300 mm\"", "", "", "book.toml:7: machine.deckle missing"},
		{"3300 mm", "3400 mm", "", "book.toml:8: Harebell 120: the deckle of 3400 mm is wider"},
		{"deckle = \"3300 mm\"", "deckle = \"3300 mm\"\nedge = \"1.7 m\"", "", "book.toml:9: Harebell 120: edge is 1700 mm, want"},
		{"deckle = \"3300 mm\"", "deckle = \"3300 mm\"\n\nleast-sets = -2", "", "book.toml:10: Harebell 120: least sets is -2, want"},
		{"2.30 m", "0.50 m", "", "book.toml:11: jumbo.diameter is 0.50 m, want above"},
		{"2.30 m", "0.50 m", "0.4 m", "book.toml: jumbo.diameter is 0.4 m, want above"},
		{"spool = \"0.60 m\"", "rest = \"x\"", "", "book.toml:12: jumbo.rest is \"x\", want"},
		{"grammage = \"120 g/m2\"", "", "", "book.toml:21: grade \"Harebell 120\": grammage missing"},
		{"grammage = \"120 g/m2\"", "grammage = \"125 g/m2\"", "", "book.toml:21: Harebell 120: the grade has 125 g/m2"},
		{"name = \"Harebell 120\"", "name = \"Whin 105\"", "", "book.toml:22: grade \"Whin 105\" appears twice"},
		{"\"size.speed\"", "\"size.sped\"", "", "book.toml:17: grade \"Whin 105\": "},
		{"line = \"harebell-120.toml\"", "", "", "book.toml:13: grade \"Whin 105\": line missing"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nrunning = \"x\"", "", "book.toml:7: running: \"x\" is no grade"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nuptime = \"120 %\"", "", "book.toml:7: grade \"Whin 105\": uptime is 120 %, want above 0 % to 100 %"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\nyard = \"0 t\"", "", "book.toml:7: yard is 0 t"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[change]\nloss = \"6 t\"", "", "book.toml:8: Harebell 120: change.loss is"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n[columns]\nwidth = \"width\"\nwidht = \"B\"", "", "book.toml:9: columns: unknown name"},
		{"orders = \"list.csv\"", "orders = \"list.csv\"\n" + order, "", "book.toml:6: want either orders"},
		{"orders = \"list.csv\"", order + order + "ordered-mass = \"2 t\"", "", "book.toml:10: order 2: want either reels or ordered-mass"},
		{"orders = \"list.csv\"", order + "due = \"soon\"", "", "book.toml:10: order 1: due is \"soon\""},
		{"orders = \"list.csv\"", strings.Replace(order, "120", "12", 1), "", "book.toml:7: order 1: grade \"Harebell 12\" is not one"},
	} {
		text := strings.Replace(fmt.Sprintf(mill, "orders = \"list.csv\""), test.old, test.new, 1)
		var set []making.Setting
		if test.set != "" {
			set = append(set, making.Setting{Name: "jumbo.diameter", Text: test.set})
		}
		b, err := making.Read("book.toml", strings.NewReader(text), files(list), table.Options{}, set...)
		if err == nil {
			_, err = b.Plan(context.Background())
		}
		if err == nil || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%q for %q: %v, want %s", test.new, test.old, err, test.want)
		}
	}
}

// A search that is ended early leaves a plan that closes.
func TestEnded(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	b := listed(t, "", head+strings.Join(random(rand.New(rand.NewPCG(4, 7)), 30), "\n"))
	p, err := b.Plan(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if p.Tonnes.Made == 0 || !near(float64(p.Tonnes.Ordered+p.Tonnes.Over+p.Tonnes.Trim+p.Tonnes.Rest+p.Tonnes.Broke), float64(p.Tonnes.Made)) {
		t.Errorf("%+v", p.Tonnes)
	}
}

// A book is told in code as well as in a file.
func TestInCode(t *testing.T) {
	from := listed(t, "", "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n")
	b := &making.Book{
		Start:   from.Start,
		Machine: making.Machine{Deckle: 3300 * paperprop.Millimetre, Slitter: trim.Slitter{MostReels: 5}},
		Jumbo:   making.Jumbo{Diameter: 2300 * paperprop.Millimetre, Spool: 600 * paperprop.Millimetre},
		Grades: []making.Grade{{
			Name: "Harebell 120", Grammage: 120 * paperprop.GramPerSquareMetre, ReelThickness: 186 * paperprop.Micrometre, Line: from.Grades[1].Line,
		}},
		Orders: []making.Order{{Request: trim.Request{
			Grade: "Harebell 120", Width: 1080 * paperprop.Millimetre, Reels: 9,
			Terms: trim.Terms{Diameter: 1250 * paperprop.Millimetre, CoreDiameter: 100 * paperprop.Millimetre},
		}}},
	}
	if got, want := plan(t, b), plan(t, from); got.Tonnes != want.Tonnes || got.Takes.Paper != want.Takes.Paper {
		t.Errorf("in code %+v, from a file %+v", got.Tonnes, want.Tonnes)
	}
	if _, err := (&making.Book{}).Plan(context.Background()); err == nil || !strings.Contains(err.Error(), "start missing") || !strings.Contains(err.Error(), "no grade") {
		t.Errorf("an empty book: %v", err)
	}
}

// What only a program can tell is refused like what a file tells.
func TestWrongInCode(t *testing.T) {
	for _, test := range []struct {
		change func(b *making.Book)
		want   string
	}{
		{func(b *making.Book) { b.Orders[0].Width = paperprop.Length(math.NaN()) }, "order 1: width is NaN mm, want above 0 mm"},
		{func(b *making.Book) { b.Orders[0].Mass = paperprop.Mass(math.Inf(1)) }, "order 1: ordered-mass is +Inf kg, want above 0 kg"},
		{func(b *making.Book) { b.Broke = 9 }, "broke is 9, want BesideTrim or TrimIncluded"},
		{func(b *making.Book) { b.Limit = -time.Second }, "limit is -1s, want a time such as 20s, or zero for none"},
	} {
		b := listed(t, "", "order;grade;width [mm];reels\nA;Harebell 120;1080;9\n")
		b.File = ""
		test.change(b)
		if p, err := b.Plan(context.Background()); err == nil || err.Error() != test.want {
			t.Errorf("%v, %v, want %s", p, err, test.want)
		}
	}
	const want = "harebell-120.toml is named by the book, and there is no Opener to open it"
	text := fmt.Sprintf(mill, "orders = \"list.csv\"")
	if _, err := making.Read("book.toml", strings.NewReader(text), nil, table.Options{}); err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("no Opener: %v, want %s", err, want)
	}
}
