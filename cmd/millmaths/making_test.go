package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const orderBook = "../../examples/quillbeck/order-book.toml"

// The plain call tells the runs, the tonnes, what is taken, and who waits.
func TestMaking(t *testing.T) {
	r := called("", "making", orderBook, "--sets")
	if r.Status != done {
		t.Fatalf("exit %d: %s", r.Status, r.Err)
	}
	for _, want := range []string{
		"Whin 105        14       5         0", "Harebell 120    10       4      0.50", "Harebell 140    10       4      0.50",
		"Harebell 120    24.29", "3 to a jumbo of 20817 m; 3 rests of 1151 m",
		"OB-315  45 min late: Whin 105 and Harebell 120 run before it until Mon 30 Nov\n",
		"3      30       60       3 × 1080\n", "no plan uses fewer sets (bound 10, by weights)",
		"trim of the deckle and rests of jumbos come on",
	} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("the output lacks %q:\n%s", want, r.Out)
		}
	}
	for i, row := range strings.Split(r.Out, "\n") {
		if len([]rune(row)) > 80 {
			t.Errorf("line %d has %d columns: %s", i+1, len([]rune(row)), row)
		}
	}
	if !strings.Contains(r.Err, "order-book.csv: delimiter: semicolon") || !strings.Contains(r.Err, "caution: A reel can weigh tonnes") {
		t.Errorf("standard error: %s", r.Err)
	}
}

func TestMakingJSON(t *testing.T) {
	r := called("", "making", orderBook, "--json")
	var plan struct {
		Command, Version, Start, Ready string
		Runs                           []struct {
			Grade        string
			Sets, Jumbos int
			Takes        []struct {
				Name, Unit string
				Value      float64
			}
			Tonnes   map[string]struct{ Value float64 }
			Slitting struct {
				Command string
				Proven  bool
			}
		}
		Orders []struct {
			Order, Due, Ready, Reason string
			Late                      struct {
				Value float64
				Unit  string
			}
		}
		Tonnes      map[string]struct{ Value float64 }
		Conventions []string
		Cautions    []struct{ Code string }
	}
	if err := json.Unmarshal([]byte(r.Out), &plan); err != nil {
		t.Fatalf("%v in %s", err, r.Out)
	}
	if plan.Command != "making" || plan.Version == "" || plan.Start != "2026-11-30T06:00:00" || len(plan.Runs) != 3 || len(plan.Orders) != 11 ||
		len(plan.Conventions) < 8 || len(plan.Cautions) != 1 {
		t.Fatalf("plan %+v", plan)
	}
	made := 0.0
	for _, run := range plan.Runs {
		if run.Slitting.Command != "trim" || !run.Slitting.Proven || run.Takes[0].Name != "recovered-paper" || run.Takes[0].Unit != "t" {
			t.Errorf("run %+v", run)
		}
		made += run.Tonnes["made"].Value
	}
	if d := made - plan.Tonnes["made"].Value; d > 1e-9 || d < -1e-9 {
		t.Errorf("runs make %v, all %v", made, plan.Tonnes["made"])
	}
	if o := plan.Orders[7]; o.Order != "OB-315" || o.Late.Unit != "h" || o.Late.Value < 0.7 || o.Late.Value > 0.8 || o.Reason == "" {
		t.Errorf("order %+v", o)
	}
	refused := called("", "making", "no.toml", "--json")
	if refused.Status != failed || !strings.Contains(refused.Out, `"error"`) {
		t.Errorf("exit %d: %s", refused.Status, refused.Out)
	}
}

func TestMakingCSV(t *testing.T) {
	r := called("", "making", orderBook, "--csv", "--quiet")
	rows, err := csv.NewReader(strings.NewReader(r.Out)).ReadAll()
	if err != nil || len(rows) < 100 || strings.Join(rows[0], ",") != "of,name,result,value,unit" {
		t.Fatalf("%v in %s", err, r.Out)
	}
	found := false
	for _, row := range rows {
		found = found || strings.HasPrefix(strings.Join(row, ","), "grade,Harebell 120,ordered,24.2922") && row[4] == "t"
	}
	if !found {
		t.Errorf("no tonnes of Harebell 120 in %s", r.Out)
	}
}

func TestMakingPlot(t *testing.T) {
	picture := drawn(t, "order-book.svg", "making", orderBook)
	for _, want := range []string{">Whin 105<", ">10 sets, 4 jumbos, 34.1 t; 2 due later<", ">OB-315 late<", ">12:00<", ">Mon 30 Nov<"} {
		if !strings.Contains(picture, want) {
			t.Errorf("the picture lacks %q", want)
		}
	}
}

// A plan of weeks, with more dates than have room, an empty yard and nothing to
// be made: all are drawn and told within the page.
func TestMakingExtremes(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"order-book.toml", "harebell-120.toml"} {
		data, err := os.ReadFile("../../examples/quillbeck/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	book, picture := filepath.Join(dir, "order-book.toml"), filepath.Join(dir, "plan.svg")
	for _, test := range []struct {
		list   string
		status int
		want   string
	}{
		{"order;grade;width [mm];reels;due\nA;Whin 105;1640;2000;2026-12-01\nB;Whin 105;1640;2000;2026-12-02\nC;Whin 105;1010;300;2027-06-01\nD;Harebell 140;1640;9000;2026-12-24\n", done, "the yard lacks"},
		// An order without a date is not late, though the yard is empty before it.
		{"order;grade;width [mm];reels;due\nA;Whin 105;1640;2;2026-11-30 06:01\nB;Whin 105;1640;4000;\n", done,
			"is wound Mon 30 Nov 06:37\n\nShort of bales\n  B  not without more bales, as the yard is empty "},
		{"order;grade;width [mm];reels;due\nA;Whin 105;3640;20;2026-12-01\n", failed, "Nothing can be made."},
		// An order of which none are made is told, and why.
		{"order;grade;width [mm];reels;under-run\nA;Whin 105;1640;2;\nB;Whin 105;1220;0;\nC;Harebell 140;1425;0;\nD;Whin 105;1010;7;100 %\n", done,
			"\nNone made, as none need be\n  B  0 reels of 1220 mm ordered\n  C  0 reels of 1425 mm ordered\n  D  7 reels of 1010 mm ordered\n\nCertificates\n"},
		{"order;grade;width [mm];reels;due\nA;Whin 105;1640;0;2026-12-01\n", done, "Nothing need be made.\n\nNone made, as none need be\n  A  0 reels of 1640 mm ordered\n"},
	} {
		if err := os.WriteFile(filepath.Join(dir, "order-book.csv"), []byte(test.list), 0o644); err != nil {
			t.Fatal(err)
		}
		r := called("", "making", book, "--quiet", "--plot", picture)
		if r.Status != test.status || !strings.Contains(r.Out, test.want) {
			t.Errorf("%q: exit %d: %s%s, want %q", test.list, r.Status, r.Out, r.Err, test.want)
		}
		for i, row := range strings.Split(r.Out, "\n") {
			if len([]rune(row)) > 80 {
				t.Errorf("line %d has %d columns: %s", i+1, len([]rune(row)), row)
			}
		}
		if data, err := os.ReadFile(picture); err != nil || strings.Contains(string(data), "NaN") || strings.Contains(string(data), "Inf") {
			t.Errorf("picture: %v\n%s", err, data)
		}
	}
}

func TestMakingRefuses(t *testing.T) {
	for _, test := range []struct {
		args   []string
		status int
		want   string
	}{
		{nil, misused, "making takes one order book, not 0"},
		{[]string{"../../examples/quillbeck/order-book.csv"}, misused, "making takes the book that names it"},
		{[]string{orderBook, "--json", "--csv"}, misused, "use one of them"},
		{[]string{orderBook, "--sets", "--csv"}, misused, "--csv has a result a line, and no sets: want --sets without it, or --json, which has them"},
		{[]string{orderBook, "--limit", "0s"}, misused, "want a time such as 20s"},
		{[]string{orderBook, "--plt", "x.svg"}, misused, "near: --plot"},
		{[]string{orderBook, "--plot", "x.pdf"}, misused, ".svg or .png"},
		{[]string{orderBook, "--set", "uptime"}, misused, "want NAME=\"VALUE\""},
		{[]string{orderBook, "--set", "uptime=85 %", "--set", "uptime=90 %"}, misused, `--set uptime is given twice: "85 %" and "90 %", want one`},
		{[]string{orderBook, "--set", "line.size.sold=12 t/h", "--set", "line.size.reel=13 t/h"}, failed,
			`grade "Whin 105": size is fixed by size.sold = 12 t/h and size.reel = 13 t/h at once: give one, and the others follow`},
		{[]string{orderBook, "--set", "uptim=80 %"}, misused, "near: uptime"},
		{[]string{orderBook, "--set", "Whin 106.size.speed=600 m/min"}, misused, "want one such as uptime, jumbo.diameter, line.FIGURE or GRADE.FIGURE"},
		{[]string{orderBook, "--set", "jumbo.diameter=3"}, failed, `length "3": unit missing`},
		{[]string{orderBook, "--set", "Whin 105.headbox.consistensy=0.8 %"}, misused, "near: headbox.consistency"},
		{[]string{orderBook, "--set", "line.press.dryness=15 %"}, failed, "press: dryness is 15 %: the press would wet the sheet"},
		{[]string{"no.toml"}, failed, "no.toml"},
		{[]string{"-"}, failed, `standard input:1: unknown name "x"`},
		{[]string{"../../examples/quillbeck/harebell-120.toml"}, failed, "unknown name"},
	} {
		r := called("x = 1\n", append([]string{"making"}, test.args...)...)
		if r.Status != test.status || !strings.Contains(r.Err, test.want) {
			t.Errorf("making %q: exit %d\n%s\nwant %d and %q", test.args, r.Status, r.Err, test.status, test.want)
		}
	}
}

// An interrupt ends the search; what was found is told.
func TestMakingInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, err strings.Builder
	if status := run(ctx, []string{"making", orderBook}, strings.NewReader(""), &out, &err); status != interrupted || !strings.Contains(out.String(), "Certificates") {
		t.Errorf("exit %d: %s%s", status, out.String(), err.String())
	}
}

// What is ordered in tonnes, and is not counted in reels, is left out in tonnes.
func TestMakingLeavesOutTonnes(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../examples/quillbeck")); err != nil {
		t.Fatal(err)
	}
	list := "order;grade;width [mm];reels;ordered-mass;under-run;over-run;sheets\nA;Harebell 120;1080;5;;;;\nB;Whin 105;900;;9 t;5 %;5 %;2\nC;Whin 105;900;5;;;;2\n"
	if err := os.WriteFile(filepath.Join(dir, "order-book.csv"), []byte(list), 0o644); err != nil {
		t.Fatal(err)
	}
	r := called("", "making", filepath.Join(dir, "order-book.toml"), "--quiet")
	for _, want := range []string{"  B  9.00 t of 900 mm: reels of several sheets", "  C  5 reels of 900 mm: reels of several sheets"} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("no %q in %s%s", want, r.Out, r.Err)
		}
	}
}

// An order that can't be understood stands in every form of the plan: who prints
// it must not lose an order.
func TestMakingTellsWhatItCouldNotRead(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../examples/quillbeck")); err != nil {
		t.Fatal(err)
	}
	list, err := os.ReadFile(filepath.Join(dir, "order-book.csv"))
	if err != nil {
		t.Fatal(err)
	}
	list = bytes.Replace(list, []byte("Harebell 120"), []byte("Harebell 130"), 1)
	if err := os.WriteFile(filepath.Join(dir, "order-book.csv"), list, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, form := range []string{"", "--csv", "--json"} {
		r := called("", append([]string{"making", filepath.Join(dir, "order-book.toml"), "--quiet"}, words(form)...)...)
		told := strings.Join(strings.Fields(r.Out), " ") // a message may go on in the next line
		if r.Status != failed || !strings.Contains(told, "Harebell 130") || !strings.Contains(told, "unknown, want one of Harebell 120, Harebell 140, Whin 105") {
			t.Errorf("%s: exit %d\n%s", form, r.Status, r.Out)
		}
	}
}
