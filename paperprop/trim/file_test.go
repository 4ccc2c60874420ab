package trim_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

const jobFile = `orders = "list.csv"
limit = "20s"
aim = "width"
partly = true
any-patterns = true
under-run = "2 %"
over-run = "5 %"
diameter = "48 in"
core-diameter = "76 mm"
roll-density = "800 kg/m3"
grammage = "120 g/m2"
reel-thickness = "150 um"

[slitter]
most-reels = 5
most-widths = 3
narrowest = "400 mm"
widest = "2.5 m"
least-used = "3 m"
set-multiple = 2
least-sets = 4

[[deckle]]
width = "200 in"
edge = "15 mm"
[[deckle]]
width = "2480 mm"
sets = 12

[[filler]]
width = "420 mm"
most = 12
[[filler]]
width = "500 mm"
group = "long"
`

// Every name of a job file, and what it stands for: 48 in are 1219.2 mm.
func TestReadFile(t *testing.T) {
	f, err := trim.ReadFile("job.toml", strings.NewReader(jobFile))
	if err != nil {
		t.Fatal(err)
	}
	inch, err := paperprop.Length(0).Kind().Unit("in")
	if err != nil {
		t.Fatal(err)
	}
	want := &trim.File{
		Orders: "list.csv", Limit: 20 * time.Second, Unit: inch,
		Terms: trim.Terms{
			UnderRun: 2 * paperprop.Percent, OverRun: 5 * paperprop.Percent, Diameter: 1219.2 * mm, CoreDiameter: 76 * mm,
			RollDensity: 800 * paperprop.KilogramPerCubicMetre, Grammage: 120 * paperprop.GramPerSquareMetre, ReelThickness: 0.15 * mm,
		},
		Job: trim.Job{
			Aim: trim.LeastWidth, Partly: true, AnyPatterns: true,
			Slitter: trim.Slitter{MostReels: 5, MostWidths: 3, Narrowest: 400 * mm, Widest: 2500 * mm, LeastUsed: 3000 * mm, SetMultiple: 2, LeastSets: 4},
			Parents: []trim.Parent{{Deckle: 5080 * mm, Edge: 15 * mm}, {Deckle: 2480 * mm, Sets: 12}},
			Fillers: []trim.Filler{{Width: 420 * mm, Most: 12}, {Width: 500 * mm, Group: "long"}},
		},
	}
	if !reflect.DeepEqual(f, want) {
		t.Errorf("%+v,\nwant %+v", f, want)
	}
}

// Orders in the file itself, by reels and by mass: of a ring of 160π kg, 502.7 kg, 2 t
// are 3.98, 30 % less 2.79 and 5 % more 4.18.
func TestReadFileOrders(t *testing.T) {
	f, err := trim.ReadFile("job.toml", strings.NewReader(`diameter = "1 m"
core-diameter = "600 mm"
under-run = "30 %"

[[deckle]]
width = "3300 mm"

[[order]]
order = "A"
width = "1250 mm"
ordered-mass = "2 t"
over-run = "5 %"
roll-density = "800 kg/m3"
grade = "Harebell 120"
group = "long"

[[order]]
width = "40 in"
reels = 10
sheets = 2
diameter = "48 in"
core-diameter = "3 in"

[[order]]
width = "900 mm"
reels = 0
under-run = "0 %"
`))
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Job.Orders[0].ReelMass; !near(got, 160*math.Pi) {
		t.Errorf("%v of a reel, want 160π kg", got)
	}
	f.Job.Orders[0].ReelMass = 0
	if want := []trim.Order{
		{Name: "A", Line: 8, Width: 1250 * mm, Reels: 4, Least: 3, Most: 4, Group: "Harebell 120, long", OrderedMass: 2000 * kg},
		{Line: 17, Width: 1016 * mm, Reels: 10, Least: 7, Most: 10, Sheets: 2, Group: "1219.2 mm, core 76.2 mm"},
		{Line: 24, Width: 900 * mm},
	}; !reflect.DeepEqual(f.Job.Orders, want) {
		t.Errorf("%+v,\nwant %+v", f.Job.Orders, want)
	}
	if f.Orders != "" || f.Limit != 0 || f.Job.Aim != trim.FewestSets || f.Job.Partly || f.Unit.String() != "mm" {
		t.Errorf("%+v", f)
	}
}

// What a file can't say, with its place where the text itself is wrong.
func TestReadFileRefuses(t *testing.T) {
	const (
		deckle = "[[deckle]]\nwidth = \"3300 mm\"\n"
		order  = "[[order]]\nwidth = \"1000 mm\"\n"
	)
	for _, test := range []struct{ text, want string }{
		{deckle, `job.toml: want either orders = "FILE" or [[order]]`},
		{"orders = \"list.csv\"\n" + deckle + order + "reels = 6\n", `job.toml:1: want either orders = "list.csv" or [[order]]`},
		{"limit = \"soon\"\n" + order + "reels = 6\n", `job.toml:1: limit is "soon", want a time such as 20s`},
		{"limit = \"0s\"\n" + order + "reels = 6\n", `job.toml:1: limit is "0s", want a time such as 20s`},
		{"limit = \"-2s\"\n" + order + "reels = 6\n", `job.toml:1: limit is "-2s", want a time such as 20s`},
		{"aim = \"trim\"\n" + order + "reels = 6\n", `job.toml:1: aim is "trim", want sets or width`},
		{order + "reels = 6\n" + deckle + "[[deckle]]\nwidth = \"wide\"\n", `job.toml:7: deckle 2: width: number "wide": no digits`},
		{order + "reels = 6\n[[deckle]]\nedge = \"5 mm\"\n", `job.toml:4: deckle 1: width missing, want a length such as 3300 mm`},
		{order + "reels = 6\n[[deckle]]\nwidth = \"3300\"\n", `job.toml:5: deckle 1: width: length "3300": unit missing, want mm or m`},
		{"[[order]]\nreels = 6\n", `job.toml:1: order 1: width missing, want a length such as 1000 mm`},
		{order + "reels = 6\n[[order]]\nreels = 6\n" + deckle, `job.toml:4: order 2: width missing, want a length such as 1000 mm`},
		{"order = [{ width = \"1 m\", reels = 6 }, { reels = 6 }]\n" + deckle, `job.toml:1: order 2: width missing, want a length such as 1000 mm`},
		{"[[order]]\nwidth = \"0 mm\"\nreels = 6\n", `job.toml:2: order 1: width is 0 mm, want above 0 mm`},
		{order + "reels = -6\n", `job.toml:1: order 1: width 1000 mm: reels is -6, want from 0`},
		{order + "reels = 6\n" + order, `job.toml:4: order 2: width 1000 mm: want either reels or ordered-mass`},
		{order + "reels = 6\nordered-mass = \"2 t\"\n", `job.toml:1: order 1: width 1000 mm: want either reels or ordered-mass`},
		{order + "ordered-mass = \"0 t\"\n", `job.toml:1: order 1: width 1000 mm: ordered-mass is 0 kg, want above 0 kg`},
		{order + "ordered-mass = \"2 t\"\n", `job.toml:1: order 1: width 1000 mm: a mass needs a roll density, or grammage and reel thickness`},
		{order + "reels = 6\nunder-run = \"101 %\"\n", `job.toml:4: order 1: width 1000 mm: under-run is 101 %, want 0 % to 100 %`},
		{"aim = \"sets\"\nunder-run = \"150 %\"\n" + order + "reels = 6\n", `job.toml:2: under-run is 150 %, want 0 % to 100 %`},
		{"over-run = \"-5 %\"\norders = \"list.csv\"\n", `job.toml:1: over-run is -5 %, want from 0 %`},
		{order + "reels = 6\n\ndiameter = \"-48 in\"\n", `job.toml:5: order 1: width 1000 mm: diameter is -1219.2 mm, want above 0 mm (written "-48 in")`},
		{order + "reels = 6\n" + deckle + deckle + "edge = \"1.65 m\"\n", `job.toml:8: deckle 2: edge is 1650 mm, want from 0 mm to below half of the deckle, 3300 mm (written "1.65 m")`},
		{order + "reels = 6\n" + deckle + "\nsets = -1\n", `job.toml:7: sets of the deckle 3300 mm is -1, want from 0`},
		{order + "reels = 6\n" + deckle + "[slitter]\nmost-reels = 5\nleast-sets = -1\n", `job.toml:8: least sets is -1, want from 0, which is no limit`},
		{order + "reels = 6\n" + deckle + "[slitter]\nset-multiple = 10_000_001\n", `job.toml:7: set multiple is 10000001, want at most 10000000`},
		{order + "reels = 6\n" + deckle + "[slitter]\n\nleast-used = \"200 km\"\n", `job.toml:8: slitter: width is 200000000 mm, want at most 100000000 mm (written "200 km")`},
		{order + "reels = 6\n" + deckle + "edge = \"15 mm\"\n[slitter]\nleast-used = \"3.28 m\"\n", `job.toml:8: least used width is 3280 mm, want at most 3270 mm, what the deckle leaves between its edges (written "3.28 m")`},
		{order + "reels = 6\n" + deckle + "[slitter]\nnarrowest = \"2 m\"\nwidest = \"1.9 m\"\n", `job.toml:7: narrowest reel is 2000 mm, want at most the widest, 1900 mm (written "2 m")`},
		{"filler = [{width = \"200 mm\"},\n {most = 3,\n width = \"3.4 m\"}]\n" + order + "reels = 6\n" + deckle, `job.toml:3: filler 2: width 3400 mm: wider than the deckle, 3300 mm less its edges; want at most 3300 mm (written "3.4 m")`},
		{order + "reels = 6\n" + deckle + "[[filler]]\nmost = 3\n", `job.toml:6: filler 1: width missing, want a length such as 200 mm`},
		{order + "reels = 6\n" + deckle + "[[filler]]\nwidth = \"0 mm\"\nmost = 3\n", `job.toml:6: filler 1: width is 0 mm, at most 3 reels; want above 0 mm, and 0 for as many as fit`},
		{"[slitter]\nmost-reel = 5\n", `job.toml:2: unknown name "slitter.most-reel", near: most-reels`},
		{"[slitter]\nwidest = 2500\n", `job.toml:2: slitter.widest is 2500, want it in quotes with its unit`},
		{"[slitter\n", `job.toml:1:9: expected ']' to close table name`},
	} {
		if f, err := trim.ReadFile("job.toml", strings.NewReader(test.text)); f != nil || fmt.Sprint(err) != test.want {
			t.Errorf("%q: %+v, error\n%v, want\n%v", test.text, f, err, test.want)
		}
	}
}

func TestParseAim(t *testing.T) {
	for _, test := range []struct {
		text string
		want trim.Aim
		name string
	}{{"", trim.FewestSets, "sets"}, {"sets", trim.FewestSets, "sets"}, {"width", trim.LeastWidth, "width"}} {
		if a, err := trim.ParseAim(test.text); a != test.want || a.String() != test.name || err != nil {
			t.Errorf("ParseAim(%q) = %v, %v, want %v", test.text, a, err, test.want)
		}
	}
	if _, err := trim.ParseAim("trim"); fmt.Sprint(err) != `aim is "trim", want sets or width` {
		t.Errorf("ParseAim(trim): %v", err)
	}
}
