package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

const orderList = "width [mm],reels\n2240,3\n1450,6\n1080,9\n820,7\n"

// The plain call tells the sets, the totals and the certificate.
func TestTrim(t *testing.T) {
	r := called(orderList, "trim", "-", "--deckle", "3300 mm", "--most-reels", "5")
	for _, want := range []string{"sets         10\n", "6.42 % of the deckle", "no plan uses fewer sets (bound 10, by weights)", "3 × 1080"} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("trim says:\n%s\nwithout %q", r.Out, want)
		}
	}
	if r.Status != done {
		t.Errorf("exit %d: %s", r.Status, r.Err)
	}
}

func TestTrimJSON(t *testing.T) {
	r := called(orderList, "trim", "-", "--deckle", "3300 mm", "--json")
	var plan struct {
		Sets, Bound int
		Proven      bool
		Patterns    []struct {
			Times  int
			Widths []struct {
				Value float64
				Unit  string
				Count int
			}
		}
	}
	if err := json.Unmarshal([]byte(r.Out), &plan); err != nil {
		t.Fatalf("%v in %s", err, r.Out)
	}
	sets, reels := 0, map[float64]int{}
	for _, p := range plan.Patterns {
		sets += p.Times
		for _, w := range p.Widths {
			if w.Unit != "mm" {
				t.Errorf("unit %q", w.Unit)
			}
			reels[w.Value] += p.Times * w.Count
		}
	}
	if plan.Sets != 10 || plan.Bound != 10 || !plan.Proven || sets != 10 || reels[2240] != 3 || reels[1450] != 6 || reels[1080] != 9 || reels[820] != 7 {
		t.Errorf("plan %+v: %d sets, reels %v", plan, sets, reels)
	}
}

func TestTrimCSVAndPlot(t *testing.T) {
	picture := filepath.Join(t.TempDir(), "sets.svg")
	r := called(orderList, "trim", "-", "--deckle", "3300 mm", "--csv", "--plot", picture)
	if !strings.HasPrefix(r.Out, "pattern,times,deckle,width,count,sheets,filler,edge,trim,unit,group\n1,") {
		t.Errorf("CSV begins %q", r.Out)
	}
	svg, err := os.ReadFile(picture)
	if err != nil || !strings.Contains(string(svg), ">1450</text>") || !strings.Contains(string(svg), "10 sets") {
		t.Errorf("picture: %v, %s", err, svg)
	}
}

// A job file says the same as the flags.
func TestTrimFile(t *testing.T) {
	dir := t.TempDir()
	job := "orders = \"o.csv\"\n[[deckle]]\nwidth = \"3300 mm\"\n[slitter]\nmost-reels = 5\n"
	for name, text := range map[string]string{"o.csv": orderList, "job.toml": job, "bad.toml": strings.Replace(job, "most-reels", "most-reel", 1)} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	byFile := called("", "trim", filepath.Join(dir, "job.toml"))
	byFlags := called(orderList, "trim", "-", "--deckle", "3300 mm", "--most-reels", "5")
	if byFile.Out != byFlags.Out || byFile.Status != done {
		t.Errorf("by file, exit %d:\n%s%s\nby flags:\n%s", byFile.Status, byFile.Out, byFile.Err, byFlags.Out)
	}
	if r := called("", "trim", filepath.Join(dir, "bad.toml")); r.Status != failed || !strings.Contains(r.Err, `bad.toml:5: unknown name "slitter.most-reel"`) {
		t.Errorf("exit %d: %s", r.Status, r.Err)
	}
}

// A fault is told of the file that it is in: an order's of the list, with its line, all
// others of the job.
func TestTrimFaultPlace(t *testing.T) {
	dir := t.TempDir()
	job, list := filepath.Join(dir, "job.toml"), filepath.Join(dir, "o.csv")
	for _, test := range []struct{ job, want string }{
		{"orders = \"o.csv\"\n[[deckle]]\nwidth = \"2000 mm\"\n", list + ": line 2: width 2240 mm: wider than the deckle, 2000 mm less its edges; want at most 2000 mm; --partly plans the others"},
		{"orders = \"o.csv\"\npartly = true\n[[deckle]]\nwidth = \"2000 mm\"\n", list + ": line 2: width 2240 mm: 3 reels left out: wider than the deckle, 2000 mm less its edges; want at most 2000 mm"},
		{"orders = \"o.csv\"\n[[deckle]]\nwidth = \"3300 mm\"\nsets = -1\n", job + ":4: sets of the deckle 3300 mm is -1, want from 0"},
		{"[[deckle]]\nwidth = \"2000 mm\"\n[[order]]\nwidth = \"2240 mm\"\nreels = 3\n", job + ": line 3: width 2240 mm: wider than the deckle, 2000 mm less its edges; want at most 2000 mm; --partly plans the others"},
	} {
		for name, text := range map[string]string{list: orderList, job: test.job} {
			if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if r := called("", "trim", job, "--quiet"); r.Status != failed || !strings.Contains("\n"+strings.ReplaceAll(r.Err, "millmaths: ", ""), "\n"+test.want+"\n") {
			t.Errorf("%s\nexit %d: %s\nwant %s", test.job, r.Status, r.Err, test.want)
		}
	}
}

// A pattern that is cut at all is cut so often, with exact counts too.
func TestTrimLeastSets(t *testing.T) {
	const list = "width [mm],reels\n1062,12\n890,18\n710,22\n630,16\n550,30\n480,24\n"
	for _, test := range []struct{ least, sets string }{{"2", "33"}, {"4", "33"}, {"6", "35"}} {
		r := called(list, "trim", "-", "--deckle", "2540 mm", "--least-sets", test.least, "--any-patterns")
		if r.Status != done || !strings.Contains(r.Out, "sets         "+test.sets+"\n") || !strings.Contains(r.Out, "no plan uses fewer sets") {
			t.Errorf("--least-sets %s: exit %d\n%s%s\nwant %s sets, proven", test.least, r.Status, r.Out, r.Err, test.sets)
		}
	}
}

// The mass of reels without a core is said to be that: a core of 100 mm takes 0.64 % of a
// reel of 1250 mm.
func TestTrimWithoutCore(t *testing.T) {
	const list = "width [mm],ordered-mass\n1250,4 t\n"
	for _, test := range []struct {
		core string
		want bool
	}{{"", true}, {"0 mm", true}, {"100 mm", false}} {
		args := []string{"trim", "-", "--deckle", "3300 mm", "--diameter", "1250 mm", "--roll-density", "650 kg/m3", "--over-run", "10 %", "--under-run", "10 %", "--quiet"}
		if test.core != "" {
			args = append(args, "--core-diameter", test.core)
		}
		plain, data := called(list, args...), called(list, append(args, "--json")...)
		if got := strings.HasPrefix(plain.Err, "warning: no-core: core-diameter is 0 mm"); got != test.want {
			t.Errorf("core %q: %s", test.core, plain.Err)
		}
		if got := strings.Contains(data.Out, `"code": "no-core"`); got != test.want || strings.Contains(data.Err, "no-core") {
			t.Errorf("core %q: %s%s", test.core, data.Out, data.Err)
		}
	}
}

// What a plan leaves out is in its JSON whole: rows that could not be read, too.
func TestTrimLeavesOutInJSON(t *testing.T) {
	const list = "order,width [mm],reels\nA,1062,12\nB,3400,18\nC,710,x\n"
	r := called(list, "trim", "-", "--deckle", "2540 mm", "--partly", "--json")
	for _, want := range []string{
		"\"left-out\": [\n    {\n      \"order\": \"B\",\n      \"line\": 3,",
		"\"refused\": [\n    \"standard input:4:3: reels \\\"x\\\"",
	} {
		if r.Status != failed || !strings.Contains(r.Out, want) {
			t.Errorf("exit %d, %s\nwant %s", r.Status, r.Out, want)
		}
	}
}

func TestTrimRefuses(t *testing.T) {
	for _, test := range []struct {
		list   string
		args   []string
		status int
		want   string
	}{
		{orderList, nil, misused, "--deckle is missing"},
		{orderList, []string{"--deckle", "3300"}, misused, "unit"},
		{orderList, []string{"--deckle", "0 x 2480 mm"}, misused, `write "5180 mm", or "12 x 2480 mm" for 12 sets`},
		{orderList, []string{"--deckle", "3300 mm", "--filler", "0 x 200 mm"}, misused, `write "200 mm", or "12 x 200 mm" for at most 12 reels`},
		{orderList, []string{"--deckle", "2000 mm"}, failed, "line 2: width 2240 mm: wider than the deckle"},
		{orderList, []string{"--deckle", "3300 mm", "--widest", "2 m"}, failed, "line 2: width 2240 mm: wider than the slitter's widest reel"},
		{orderList, []string{"--deckle", "3300 mm", "--narrowest", "900 mm"}, failed, "line 5: width 820 mm: narrower"},
		{orderList, []string{"--deckle", "3300 mm", "--set-multiple", "2"}, failed, "line 2: width 2240 mm: 3 reels can't be cut in multiples of 2; the nearest are 2 and 4"},
		{orderList, []string{"--deckle", "2 x 3300 mm"}, failed, "no plan makes all of it with at most 2 sets"},
		{orderList, []string{"--deckle", "3300 mm", "--under-run", "150 %"}, failed, "millmaths: under-run is 150 %, want 0 % to 100 %\n"},
		{orderList, []string{"--deckle", "3300 mm", "--diameter", "-1200 mm"}, failed, "millmaths: diameter is -1200 mm, want above 0 mm\n"},
		{orderList, []string{"--deckle", "3300 mm", "--json", "--csv"}, misused, "use one of them"},
		{orderList, []string{"--deckle", "3300 mm", "--aim", "trim"}, misused, "want sets or width"},
		{orderList, []string{"--deckle", "3300 mm", "--roll-density", "700 kg/m3", "--grammage", "120 g/m2"}, misused, "want either --roll-density, or --grammage and --reel-thickness"},
		{"width [mm],reels\n1000,2.5\n", []string{"--deckle", "3300 mm"}, failed, "standard input:2:2: reels"},
		{"width,reels\n1000,2\n", []string{"--deckle", "3300 mm"}, failed, "unit missing"},
		{"breadth,reels\n1000,2\n", []string{"--deckle", "3300 mm"}, failed, "no column width"},
		{"width [mm],Quantity\n1000,2\n", []string{"--deckle", "3300 mm"}, failed,
			"no column reels and none ordered-mass, want one of them; the heads are width, Quantity; name its column with --column reels=HEAD"},
		{"width [mm],Quantity\n1000,2\n", []string{"--deckle", "3300 mm", "--column", "quantity=Quantity"}, misused,
			"--column quantity: no input of that name, want one of order, width, reels, ordered-mass,"},
		{"width [mm],Quantity\n1000,2\n", []string{"--deckle", "3300 mm", "--column", "reels=Quantity,width"}, misused, "--column reels has 2 heads, want one"},
		{"width [mm],ordered-mass\n1000,2 t\n", []string{"--deckle", "3300 mm"}, failed, "a mass needs a roll density"},
	} {
		r := called(test.list, append([]string{"trim", "-"}, test.args...)...)
		if r.Status != test.status || !strings.Contains(r.Err, test.want) {
			t.Errorf("trim %v of %q: exit %d\n%s\nwant %d and %q", test.args, test.list, r.Status, r.Err, test.status, test.want)
		}
	}
}

// What is given for a mass that can't be told is not ignored without a word.
func TestTrimWithoutMass(t *testing.T) {
	const told = "no mass is told: it takes the diameter of every reel, and its roll density, or grammage and reel-thickness\n"
	for _, test := range []struct {
		flags string
		want  bool
	}{
		{"", false},
		{`--diameter "1200 mm"`, true},
		{`--grammage "120 g/m2" --reel-thickness "0.3 mm"`, true},
		{`--diameter "1200 mm" --roll-density "700 kg/m3"`, false},
	} {
		r := called(orderList, append([]string{"trim", "-", "--deckle", "3300 mm", "--quiet"}, words(test.flags)...)...)
		if r.Status != done || strings.Contains(r.Err, told) != test.want || strings.Contains(r.Out, "\nmass ") == (test.want || test.flags == "") {
			t.Errorf("%s: exit %d\n%s%s", test.flags, r.Status, r.Out, r.Err)
		}
	}
}

// A flag on how to read an order list is refused where there is none.
func TestNoListToRead(t *testing.T) {
	dir := t.TempDir()
	job, book := filepath.Join(dir, "job.toml"), filepath.Join(dir, "book.toml")
	text, err := os.ReadFile(orderBook)
	if err != nil {
		t.Fatal(err)
	}
	quillbeck, err := filepath.Abs(filepath.Dir(orderBook))
	if err != nil {
		t.Fatal(err)
	}
	own := strings.Replace(string(text), "orders = \"order-book.csv\"", "", 1) + "\n[[order]]\ngrade = \"Whin 105\"\nwidth = \"1 m\"\nreels = 3\n"
	own = strings.ReplaceAll(own, "\"harebell-120.toml\"", strconv.Quote(filepath.Join(quillbeck, "harebell-120.toml")))
	for name, text := range map[string]string{job: "[[deckle]]\nwidth = \"3300 mm\"\n[[order]]\nwidth = \"1 m\"\nreels = 3\n", book: own} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, test := range []struct{ command, file, flag, value string }{
		{"trim", job, "column", "reels=pieces"}, {"trim", job, "decimal", "comma"}, {"trim", job, "head-line", "2"},
		{"making", book, "decimal", "comma"}, {"making", book, "encoding", "utf-8"},
	} {
		r := called("", test.command, test.file, "--"+test.flag, test.value)
		if want := "millmaths: --" + test.flag + " is about an order list: " + test.file + " has its orders in itself\n"; r.Status != misused || r.Err != want || r.Out != "" {
			t.Errorf("%s --%s: exit %d: %s%s\nwant %s", test.command, test.flag, r.Status, r.Out, r.Err, want)
		}
	}
	for _, test := range [][]string{{"trim", job}, {"making", book, "--limit", "5s"}} {
		if r := called("", test...); r.Status != done {
			t.Errorf("%v: exit %d: %s", test, r.Status, r.Err)
		}
	}
}

// What is over and under of orders by mass is told by mass. A reel of 700 kg/m³ between
// 100 and 1200 mm, 1.25 m wide, weighs π/4·1.43·1.25·700 = 982.729 kg: 13 of them are
// 775.48 kg more than 12 t, and 3 of 786.184 kg, 1 m wide, 141.449 kg less than 2.5 t.
func TestTrimByMass(t *testing.T) {
	const list = "order,width [mm],ordered-mass [t],reels,under-run [%]\nA,1250,12,,0\nB,1000,2.5,,6\nC,800,,4,0\n"
	by := func(list string, args ...string) result {
		return called(list, append([]string{"trim", "-", "--deckle", "3000 mm", "--diameter", "1200 mm", "--core-diameter", "100 mm",
			"--roll-density", "700 kg/m3", "--over-run", "10 %", "--any-patterns", "--quiet"}, args...)...)
	}
	r := by(list)
	for _, want := range []string{
		"reels        20, 0 over and 0 under what is ordered\n",
		"mass         17.6498 t, 0.775483 t over and 0.141449 t under what is ordered\n",
		"order  ordered  made  over  width mm  ordered t  made t   over t\n" +
			"A      13       13    0     1250      12         12.7755  +0.775483\n" +
			"B      3        3     0     1000      2.5        2.35855  -0.141449\n",
	} {
		if r.Status != done || !strings.Contains(r.Out, want) {
			t.Errorf("exit %d:\n%s%s\nwithout %s", r.Status, r.Out, r.Err, want)
		}
	}
	// By reels alone as before.
	if r := by("width [mm],reels\n1250,6\n"); !strings.Contains(r.Out, "mass         5.89638 t\n") || strings.Contains(r.Out, "over t") {
		t.Errorf("exit %d:\n%s%s", r.Status, r.Out, r.Err)
	}
}

// A long name stands above its row, so that the figures fit in 80 columns. Reels of
// several sheets are told to count as so many.
func TestTrimWide(t *testing.T) {
	const name = "Tansy & Daughter, Quillbeck Lower Mill, box plant 3 (December)"
	r := called("order;width [mm];reels;sheets\n"+name+";1000;7;1\nB;500;9;2\n", "trim", "-", "--deckle", "2000 mm", "--over-run", "20 %", "--under-run", "20 %", "--quiet")
	for _, want := range []string{
		"1 × 1000, 1 × 1000 (2 sheets)",
		"; one of several sheets\n             counts as so many\n",
		"\norder  ordered  made  over  width mm\n" + name + "\n       7        6     -1    1000\nB      9        8     -1    500\n",
	} {
		if r.Status != done || !strings.Contains(r.Out, want) {
			t.Errorf("exit %d:\n%s%s\nwithout %s", r.Status, r.Out, r.Err, want)
		}
	}
}

// No digit of a width is lost, in whatever unit it was typed; one without a short text in
// the unit printed is rounded. In the picture a label that its reel has no room for is left
// out.
func TestTrimDigits(t *testing.T) {
	const list = "width [mm],reels\n1000.125,2\n69.875 in,1\n48.0625,1\n"
	picture := filepath.Join(t.TempDir(), "sets.svg")
	by := func(args ...string) result {
		return called(list, append([]string{"trim", "-", "--edge", "0.5 mm", "--filler", "1 x 100.0625 mm", "--over-run", "100 %", "--quiet"}, args...)...)
	}
	for _, test := range []struct {
		args []string
		want []string
	}{
		{[]string{"--deckle", "3000.25 mm", "--plot", picture}, []string{
			"\n1      38.5875    77.175    1 × 1774.825, 1 × 1000.125, 1 × 100.0625 filler, 1 ×\n                            48.0625\n",
			"\n1      1000.0625  2000.125  1 × 1000.125\n",
			"\ntrim         2077.3 mm, 34.62 % of the deckle\n", "\nfiller       1 reel of 100.0625 mm\n",
		}},
		{[]string{"--deckle", "3000.25 mm", "--aim", "width"}, []string{"no plan uses less deckle (bound 6000.5 mm, by weights)"}},
		{[]string{"--deckle", "3000.25 mm", "--unit", "in"}, []string{"1 × 69.875, 1 × 39.375, "}},
		{[]string{"--deckle", "3000.25 mm", "--unit", "ft"}, []string{"1 × 5.82292, 1 × 3.28125, "}},
		{[]string{"--deckle", "3000.25 mm", "--unit", "m"}, []string{"1 × 1.774825, 1 × 1.000125, "}},
	} {
		r := by(test.args...)
		for _, want := range test.want {
			if r.Status != done || !strings.Contains(r.Out, want) {
				t.Errorf("trim %v: exit %d:\n%s%s\nwithout %q", test.args, r.Status, r.Out, r.Err, want)
			}
		}
	}
	svg, err := os.ReadFile(picture)
	if err != nil || !strings.Contains(string(svg), ">1000.125</text>") || strings.Contains(string(svg), ">48.0625</text>") {
		t.Errorf("picture: %v, %s", err, svg)
	}
}

// A length below 1 has no more digits than others: 10.7 mm is 0.421259842519685 in.
func TestTrimSmallLengths(t *testing.T) {
	r := called("width [mm],reels\n989.3,1\n", "trim", "-", "--deckle", "1000 mm", "--unit", "in", "--quiet")
	if want := "\n1      0.21063  0.42126  1 × 38.9488\n"; r.Status != done || !strings.Contains(r.Out, want) {
		t.Errorf("exit %d: %s%s\nwithout %q", r.Status, r.Out, r.Err, want)
	}
}

// How many sets a deckle is good for, and how many reels may fill, may be said as plans say it.
func TestTrimTimes(t *testing.T) {
	by := func(sign string) result {
		return called(orderList, "trim", "-", "--deckle", "5 "+sign+" 3300 mm", "--deckle", "3400 mm", "--filler", "2 "+sign+" 200 mm", "--quiet")
	}
	x, sign := by("x"), by("×")
	if x.Status != done || x != sign || !strings.Contains(x.Out, "filler       2 reels of 200 mm\n") {
		t.Errorf("exit %d:\n%s%s\nwith ×, exit %d:\n%s%s", x.Status, x.Out, x.Err, sign.Status, sign.Out, sign.Err)
	}
}

// Where no bound is proven, none is told. Reels of 300 mm go to both orders, in patterns
// that are cut twice.
func TestTrimUnbound(t *testing.T) {
	r := called("width [mm],reels,sheets\n300,4,1\n150,4,2\n", "trim", "-", "--deckle", "700 mm", "--set-multiple", "2")
	if want := "certificate  no plan is known with fewer sets than 4; how little will do is not\n             proven\n"; r.Status != done || !strings.Contains(r.Out, want) {
		t.Errorf("exit %d:\n%s%s\nwithout %s", r.Status, r.Out, r.Err, want)
	}
}
