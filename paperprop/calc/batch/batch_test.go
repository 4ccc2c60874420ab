package batch_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

// An answer is all that a run gives.
type answer struct {
	out    string
	told   []string
	notes  []string
	totals batch.Totals
	err    error
}

// run runs a job over a text and checks that the rows add up.
func run(t testing.TB, calculation string, job batch.Job, text string) answer {
	t.Helper()
	return runReader(t, calculation, job, strings.NewReader(text))
}

func runReader(t testing.TB, calculation string, job batch.Job, in io.Reader) (a answer) {
	t.Helper()
	var ok bool
	if job.Calculation, ok = catalogue.Find(calculation); !ok {
		t.Fatalf("no calculation %s", calculation)
	}
	job.Tell = func(err error) { a.told = append(a.told, err.Error()) }
	job.Understood = func(notes []string) { a.notes = notes }
	var out bytes.Buffer
	a.totals, a.err = job.Run(context.Background(), in, &out)
	a.out = out.String()
	if n := a.totals; n.Rows != n.Computed+n.Reported || n.Reported != n.Failed+n.Footers {
		t.Errorf("rows don't add up: %+v", n)
	}
	if len(a.told) != a.totals.Failed && job.Lot == "" {
		t.Errorf("told of %d rows, %d failed", len(a.told), a.totals.Failed)
	}
	return a
}

// quillbeck runs a job over a file of the invented mill.
func quillbeck(t testing.TB, calculation, file string, job batch.Job) answer {
	t.Helper()
	in, err := os.Open(filepath.Join("..", "..", "..", "examples", "quillbeck", file))
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	job.Options.Name = file
	return runReader(t, calculation, job, in)
}

func (a answer) lines() []string { return strings.Split(strings.TrimSuffix(a.out, "\n"), "\n") }

// wantLines compares lines of the output, by number from 1.
func (a answer) wantLines(t *testing.T, want map[int]string) {
	t.Helper()
	if a.err != nil {
		t.Fatalf("Run: %v", a.err)
	}
	lines := a.lines()
	for n, text := range want {
		if n > len(lines) {
			t.Errorf("%d lines, want a line %d", len(lines), n)
		} else if lines[n-1] != text {
			t.Errorf("line %d is\n%s\nwant\n%s", n, lines[n-1], text)
		}
	}
}

func (a answer) wantTold(t *testing.T, want ...string) {
	t.Helper()
	if !slices.Equal(a.told, want) {
		t.Errorf("told\n%s\nwant\n%s", strings.Join(a.told, "\n"), strings.Join(want, "\n"))
	}
}

func (a answer) wantTotals(t *testing.T, rows, computed, failed, footers int) {
	t.Helper()
	if n := a.totals; n.Rows != rows || n.Computed != computed || n.Failed != failed || n.Footers != footers {
		t.Errorf("%d rows, %d computed, %d failed, %d footers, want %d, %d, %d, %d",
			n.Rows, n.Computed, n.Failed, n.Footers, rows, computed, failed, footers)
	}
}

// The figures are sums and quotients by hand (common-practice: no source is
// needed for a division); the rounding to 3 figures is that of the method.
func TestTensile(t *testing.T) {
	a := quillbeck(t, "tensile", "tensile.txt", batch.Job{})
	a.wantLines(t, map[int]string{
		1:  "Specimen\tDirection\tStrip width [mm]\tForce [N]\tElongation [mm]\tGrammage [g/m²]\ttensile-strength [kN/m]\ttensile-index [kN.m/kg]\tbreaking-length [km]\tremark",
		2:  "H120-7\tMD\t15,0\t96,4\t1,83\t121,4\t6,43\t52,9\t5,40\t", // 96.4/15, /0.1214, /9.80665
		22: "H120-7\tCD\t15,0\t41,0\t4,32\t121,4\t2,73\t22,5\t2,30\t", // the first under the heads come again
	})
	a.wantTotals(t, 40, 40, 0, 0)
	a.wantTold(t)
	for _, note := range []string{
		"encoding: windows-1252, as the bytes are not UTF-8",
		"lines 1 to 8: preamble, not read",
		"strip-width: column 3 (Strip width) in mm",
	} {
		if !slices.Contains(a.notes, note) {
			t.Errorf("notes lack %q: %q", note, a.notes)
		}
	}
}

// Means and standard deviations are those of Python 3's statistics module on
// the quotients force/15 mm (library).
func TestSummary(t *testing.T) {
	a := quillbeck(t, "tensile", "tensile.txt", batch.Job{By: []string{"specimen", "direction"}, Workers: 2})
	if a.err != nil {
		t.Fatal(a.err)
	}
	var b bytes.Buffer
	if err := a.totals.WriteSummary(&b, []string{"specimen", "direction"}, 0.95); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(b.String(), "\n")
	if got, want := lines[0], "specimen\tdirection\tresult\tn\tleft out\tmean\ts\tcoefficient of variation [%]\tlower\tupper\tconfidence [%]\tunit\treported mean\trule"; got != want {
		t.Errorf("head is\n%s\nwant\n%s", got, want)
	}
	// lower and upper: mean ∓ 2.262157·s/√10; t of 9 degrees of freedom as
	// tables of Student's distribution have it (memory).
	for i, want := range map[int]string{
		1:  "H120-7\tMD\ttensile-strength\t10\t0\t6,47333\t0,163209\t2,52124\t6,35658\t6,59009\t95\tkN/m\t6,47\t",
		4:  "W105-3\tMD\ttensile-strength\t10\t0\t5,48933\t0,109869\t2,00149\t5,41074\t5,56793\t95\tkN/m\t5,49\t",
		7:  "H120-7\tCD\ttensile-strength\t10\t0\t2,698\t0,0270436\t1,00236\t2,67865\t2,71735\t95\tkN/m\t2,70\t",
		10: "W105-3\tCD\ttensile-strength\t10\t0\t2,194\t0,0512992\t2,33816\t2,1573\t2,2307\t95\tkN/m\t2,19\t",
	} {
		if !strings.HasPrefix(lines[i], want) {
			t.Errorf("line %d is\n%s\nwant\n%s…", i+1, lines[i], want)
		}
	}
	if n := len(a.totals.Groups); n != 4 {
		t.Errorf("%d groups, want 4", n)
	}
}

// Sums of masses and of dry masses by hand, in decimals (common-practice).
func TestLots(t *testing.T) {
	a := quillbeck(t, "bale-lot", "deliveries.csv", batch.Job{Lot: "load"})
	a.wantLines(t, map[int]string{
		1: "load;rows;lot-mass [kg];lot-moisture [%];lot-dry-mass [kg];remark",
		2: "Q-0411;5;2566,5;11,2612;2277,48;",
		4: "Q-0413;5;2503;10,7023;2235,12;1 of 6 rows not used",
		7: "Q-0416;6;3038,5;11,7856;2680,39;",
	})
	if n := len(a.lines()); n != 7 {
		t.Errorf("%d lines, want 7", n)
	}
	a.wantTotals(t, 31, 29, 1, 1)
	a.wantTold(t, `deliveries.csv:14:4: moisture "n/a": no reading, want a number in %`)
}

func TestGermanHeads(t *testing.T) {
	a := quillbeck(t, "grammage-at-moisture", "grammage.csv", batch.Job{
		Columns:   map[string][]string{"grammage": {"Fl.-gew."}, "moisture": {"Feuchte"}},
		Constants: []calc.Pair{{Name: "to-moisture", Text: "7.5 %"}},
	})
	a.wantLines(t, map[int]string{
		1: "Muster;Probe;Fl.-gew. [g/m²];Feuchte [%];to-grammage [g/m2];dry-grammage [g/m2];remark",
		2: "H120-7;1;121,4;7,6;121,269;112,174;", // 121.4·0.924/0.925 = 121.26876, 121.4·0.924 = 112.1736
		3: `H120-7;2;n/a;7,4;;;"Fl.-gew. ""n/a"": no reading, want a number in g/m²"`,
	})
	a.wantTotals(t, 12, 11, 1, 0)
	a.wantTold(t, `grammage.csv:4:3: Fl.-gew. "n/a": no reading, want a number in g/m²`)
}

// TestHeadsHopedFor finds German heads under a preamble by Columns, though the row below
// them does not fit.
func TestHeadsHopedFor(t *testing.T) {
	job := batch.Job{Columns: map[string][]string{"mass": {"Masse"}, "area": {"Fläche"}}, Options: table.Options{Name: "t.csv"}}
	a := run(t, "grammage", job, "Report\n\nStück;Masse / g;Fläche / cm2\nA;27,17;699;junk\nB;2,5;500\n")
	if a.err != nil {
		t.Fatal(a.err)
	}
	a.wantLines(t, map[int]string{3: "B;2,5;500;50,0;"}) // 2.5 g / 0.05 m2
	a.wantTotals(t, 2, 1, 1, 0)
}

// TestHeadsOverUnits reads heads such as "force/N" over a row with the same units, spelled
// otherwise, and names columns as they are written.
func TestHeadsOverUnits(t *testing.T) {
	job := batch.Job{Columns: map[string][]string{"grammage": {"Fl.-gew. [gsm]"}}, Options: table.Options{Name: "t.csv"}}
	a := run(t, "tensile", job, "piece;force/kN;strip-width/mm;Fl.-gew./(g/m²)\n;kN;[mm];[g/m2]\nA;0,0605;15;100\n")
	if a.err != nil {
		t.Fatal(a.err)
	}
	a.wantLines(t, map[int]string{2: "A;0,0605;15;100;4,03;40,3;4,11;"}) // 60.5 N / 15 mm; over 0.1 kg/m2; over 9.80665 m/s2
	job = batch.Job{Columns: map[string][]string{"frequency": {"U/min [1/min]"}, "diameter": {"core/mm"}}, Options: table.Options{Name: "t.csv"}}
	b := run(t, "roll-speed", job, "roll,U/min,core/mm\nA,100,1500\n")
	if b.err != nil {
		t.Fatal(b.err)
	}
	b.wantLines(t, map[int]string{2: "A,100,1500,471.239,100,"}) // 1.5 m * pi * 100/min
}

// TestNoFootersFit has rows that begin as footers do, and no cell for each head.
func TestNoFootersFit(t *testing.T) {
	job := batch.Job{NoFooters: true, Together: true, Options: table.Options{Name: "t.csv"}}
	a := run(t, "tensile", job, "piece,force [N],grammage [g/m2]\nr,52.5,105\ns,52,3,105\nn,52.5\n")
	a.wantTotals(t, 3, 1, 2, 0)
	a.wantTold(t, `t.csv:3:4: "105": 4 cells, want 3 as in the heads of line 1`,
		"t.csv:4:3: grammage: the row ends before this cell, want 3 cells as in the heads of line 1")
	if n := a.totals.Groups[0].LeftOut; n != 2 {
		t.Errorf("of all rows together %d left out, want 2", n)
	}
	b := run(t, "tensile", job, "piece,force [N],grammage [g/m2]\nr,52.5,105\nMean,,105\n")
	if n := b.totals.Groups[0].LeftOut; n != 1 {
		t.Errorf("%d rows left out, want 1", n)
	}
}

func TestShortSpan(t *testing.T) {
	a := quillbeck(t, "short-span", "short-span.csv", batch.Job{})
	a.wantLines(t, map[int]string{
		2:  `H120-7/1,34.5,15,121.4,"2,335.7",2.30,18.9,`, // 34.5/15 = 2.3; 2.3/0.1214 = 18.9456
		3:  `H120-7/2,overload,15,121.4,"2,259.0",,,"Force ""overload"": not a number, want a number in N"`,
		16: "Mean,33.9,,,,,,footer: not counted",
		17: "s,1.06,,,,,,footer: not counted",
	})
	a.wantTotals(t, 16, 13, 1, 2)
	a.wantTold(t, `short-span.csv:4:2: Force "overload": not a number, want a number in N`)
}

func TestMoistureInDish(t *testing.T) {
	a := quillbeck(t, "moisture-in-dish", "moisture.csv", batch.Job{})
	const refused = "dry-dish-mass is 47.8947 g, want above dish-mass 47.907 g and at most moist-dish-mass 53.0477 g"
	a.wantLines(t, map[int]string{
		1: "sample,dish-mass [g],moist-dish-mass [g],dry-dish-mass [g],moisture [%],dryness [%],moisture-ratio [kg/kg],dry-mass [g],remark",
		5: "H120-7/4,48410 mg,53389 mg,53014 mg,7.5,92.4684,0.0814509,4.604,", // 375/4979, 4604/4979, 375/4604
		9: `W105-3/3,47.9070,53.0477,47.8947,,,,,"` + refused + `"`,
	})
	a.wantTotals(t, 10, 9, 1, 0)
	a.wantTold(t, "moisture.csv:9:4: "+refused)
}

// A constant stands for the area of all pieces: 2.4 g on 200 cm² are 120 g/m²
// (common-practice).
func TestConstants(t *testing.T) {
	const text = "mass [g],note\n2.4,a\n0,b\n"
	a := run(t, "grammage", batch.Job{Constants: []calc.Pair{{Name: "area", Text: "200 cm2"}}}, text)
	a.wantLines(t, map[int]string{1: "mass [g],note,grammage [g/m2],remark", 2: "2.4,a,120,", 3: `0,b,,"mass is 0 g, want above 0 g"`})
	a.wantTold(t, "3:1: mass is 0 g, want above 0 g")
	b := run(t, "grammage", batch.Job{Constants: []calc.Pair{{Name: "length", Text: "200 mm"}, {Name: "width", Text: "100 mm"}}}, text)
	if b.out != a.out {
		t.Errorf("by length and width\n%s\nby area\n%s", b.out, a.out)
	}
	a = run(t, "grammage", batch.Job{Constants: []calc.Pair{{Name: "area", Text: "50 cm2"}}}, "mass [g]\n0.6\n")
	a.wantLines(t, map[int]string{2: "0.6,120,warning: small-piece"}) // the limit: AS 1301.405 (published)
	if a.totals.Warned["small-piece"] != 1 || len(a.totals.Warnings()) != 1 {
		t.Errorf("warned %v, want one small-piece", a.totals.Warned)
	}
}

// Where no unit is known, the one that the head may mean is told, not another.
func TestUnitThatHeadMayMean(t *testing.T) {
	for head, want := range map[string]string{"strip width cm": "strip width [cm]", "b_in": "b [in]", "b_0": "b_0 [mm]", "width": "width [mm]", "min": "min [mm]"} {
		job := batch.Job{Columns: map[string][]string{"strip-width": {head}}, Constants: []calc.Pair{{Name: "force", Text: "30 N"}, {Name: "grammage", Text: "100 g/m2"}}}
		run(t, "tensile", job, head+"\n1.5\n").wantTold(t, `2:1: `+head+` "1.5": unit missing, want a number with its unit, such as 1 mm, or that of all in the head: `+want)
	}
}

// What a cell may hold beside a plain number. Quotients by hand
// (common-practice): 30 N on 15 mm are 2 kN/m, at 100 g/m² 20 kN·m/kg and
// 20/9.80665 km.
func TestCells(t *testing.T) {
	const computed = "2.00,20.0,2.04,"
	for _, test := range []struct{ name, text, want string }{
		{"plain", "force [N],grammage [g/m2]\n30,100\n", computed},
		{"unit of its own", "force [N],grammage [g/m2]\n0.03 kN,100\n", computed},
		{"unit in each cell", "force,grammage\n30 N,100 g/m2\n", computed},
		{"another unit in the head", "force [kN],grammage [g/m2]\n0.03,100\n", computed},
		{"thousands", "force [mN],grammage [g/m2]\n\"30,000.0\",100\n", computed},
		{"thousands and a unit of its own", "force [N],grammage [g/m2]\n\"30,000.0 mN\",100\n", computed},
		{"exponent", "force [N],grammage [g/m2]\n3e1,1.0E+2\n", computed},
		{"a default where there is no reading", "force [N],grammage [g/m2],strip-width [mm]\n30,100,n/a\n", computed + "warning: default-taken"},
		{"uncertainty", "force [N],grammage [g/m2]\n30 ± 0.1,100\n", computed + "warning: uncertainty-unused"},
		{"uncertainty in brackets", "force [N],grammage [g/m2]\n30.0(2),100\n", computed + "warning: uncertainty-unused"},
		{"uncertainty of a distribution", "force [N],grammage [g/m2]\n30 ± rectangular(0.1),100\n", computed + "warning: uncertainty-unused"},
		{"uncertainty and unit", "force [N],grammage [g/m2]\n30 ± 0.1 N,100\n", computed + "warning: uncertainty-unused"},
		{"no reading", "force [N],grammage [g/m2]\n--,100\n", `,,,"force ""--"": no reading, want a number in N"`},
		{"empty", "force [N],grammage [g/m2]\n,100\n", `,,,"force: no reading, want a number in N"`},
		{"limit", "force [N],grammage [g/m2]\n<5,100\n", `,,,"force ""<5"": a limit, not a reading, want a number in N"`},
		{"no unit", "force,grammage [g/m2]\n30,100\n", `,,,"force ""30"": unit missing, want a number with its unit, such as 1 N, or that of all in the head: force [N]"`},
		{"unknown unit", "force [N],grammage [g/m2]\n30 ?,100\n", `,,,"force ""30 ?"": a mark ""?"" behind the number, want a number in N"`},
		{"a mark", "force [N],grammage [g/m2]\n30*,100\n", `,,,"force ""30*"": a mark ""*"" behind the number, want a number in N"`},
		{"to be solved for", "force [N],grammage [g/m2]\n?,100\n", `,,,"force ""?"": not a number, want a number in N"`},
		{"two numbers", "force [N],grammage [g/m2]\n30 31,100\n", `,,,"force ""30 31"": not a number, want a number in N"`},
		{"a range", "force [N],grammage [g/m2]\n3..5,100\n", `,,,"force ""3..5"": a range, want a number in N"`},
		{"two points", "force [N],grammage [g/m2]\n9.9.9,100\n", `,,,"force ""9.9.9"": two points, want a number in N"`},
		{"foreign unit", "force [N],grammage [g/m2]\n30 kg,100\n", `,,,"force ""30 kg"": ""kg"" is no unit of force, want kgf, gf or N (mass is not force), want a number in N"`},
		{"out of range", "force [N],grammage [g/m2]\n30,-1 kg/m2\n", `,,,"grammage is -1 kg/m2, want above 0 g/m2"`},
		{"a file", "force [N],grammage [g/m2]\n@/etc/passwd,100\n", `,,,"force ""@/etc/passwd"": not a number, want a number in N"`},
	} {
		t.Run(test.name, func(t *testing.T) {
			a := run(t, "tensile", batch.Job{}, test.text)
			lines := a.lines()
			if a.err != nil || len(lines) != 2 || !strings.HasSuffix(lines[1], ","+test.want) {
				t.Errorf("Run: %v\n%s\nwant the row to end with\n%s", a.err, a.out, test.want)
			}
		})
	}
}

// What one cell brings holds for its row alone.
func TestRowsAreIndependent(t *testing.T) {
	const head, good = "force [N],grammage [g/m2],strip-width [mm]\n", "30,100,15\n"
	for _, odd := range []string{"0.03 kN,100,15", "30 ± 1,100,15", "?,100,15", ",,15", "30,100,n/a", "30,100,0.3 m", "x,y,z", "1e999,100,15", "30,-4,15"} {
		a := run(t, "tensile", batch.Job{Workers: 1}, head+good+odd+"\n"+good)
		if lines := a.lines(); a.err != nil || len(lines) != 4 || lines[3] != lines[1] {
			t.Errorf("behind %q: %v\n%s", odd, a.err, a.out)
		}
	}
	// A Value takes its unit from its column, whatever a cell above brought:
	// 0.0011 kg/m² is 1.1 g/m² (common-practice).
	a := run(t, "conformity-absolute", batch.Job{Workers: 1, Constants: []calc.Pair{{Name: "limit", Text: "1 g/m2"}, {Name: "side", Text: "at-least"}}},
		"value [g/m2]\n1.1\n0.0011 kg/m2\n1.1\n1.1 N\n")
	lines := a.lines()
	if a.err != nil || len(lines) != 5 || strings.TrimPrefix(lines[2], "0.0011 kg/m2") != strings.TrimPrefix(lines[1], "1.1") || lines[3] != lines[1] {
		t.Errorf("%v\n%s", a.err, a.out)
	}
	if len(a.told) != 1 || !strings.HasPrefix(a.told[0], `5:1: value "1.1 N": `) {
		t.Errorf("told %q, want line 5", a.told)
	}
}

// A unit in one cell of a Value is refused where the column has none: beside plain
// numbers 5 % might be 5 or 0.05.
func TestUnitWithoutHead(t *testing.T) {
	a := run(t, "round", batch.Job{Workers: 1, Constants: []calc.Pair{{Name: "step", Text: "0.01"}, {Name: "tie", Text: "even"}}},
		"value\n0.064\n5 %\n5 N\nx\n5 ± 1 lb/1000ft2\n5 zzz\n0.07\n")
	const (
		own   = "a unit in a column that has none, want a number alone, and the unit of all in the head: value [UNIT]"
		alone = "want a number alone: its unit stands in the head"
	)
	want := []string{
		`3:1: value "5 %": ` + own,
		`4:1: value "5 N": ` + own,
		`5:1: value "x": not a number, ` + alone,
		`6:1: value "5 ± 1 lb/1000ft2": ` + own,
		`7:1: value "5 zzz": unknown unit "zzz", ` + alone,
	}
	if lines := a.lines(); a.err != nil || len(lines) != 8 || lines[1] != "0.064,0.06," || lines[7] != "0.07,0.07," || !slices.Equal(a.told, want) {
		t.Errorf("%v\n%s\ntold %q,\nwant %q", a.err, a.out, a.told, want)
	}
}

// Beside numbers in the unit of the head a value with ± is in that unit too.
func TestUncertainInUnitOfHead(t *testing.T) {
	a := run(t, "md-cd", batch.Job{Workers: 1, Constants: []calc.Pair{{Name: "cd-value", Text: "2 N"}}},
		"md-value [N]\n5 ± 0.1 N\n5 ± 0.1\n5 ± 0.1 kN\n5 ± 1 %\n0.005 kN\n")
	const other = "more than a number, in another unit than that of the column, want a number in N"
	want := []string{`4:1: md-value "5 ± 0.1 kN": ` + other, `5:1: md-value "5 ± 1 %": ` + other}
	lines := a.lines()
	if a.err != nil || len(lines) != 6 || !slices.Equal(a.told, want) {
		t.Fatalf("%v\n%s\ntold %q,\nwant %q", a.err, a.out, a.told, want)
	}
	for _, i := range []int{1, 2, 5} {
		if !strings.Contains(lines[i], ",2.5,3.16228,") { // 5 over 2, and the root of 10
			t.Errorf("row %d is %q, want 2.5 and 3.16228", i, lines[i])
		}
	}
}

// In a file with decimal commas a point is never taken for a decimal sign.
func TestDecimalComma(t *testing.T) {
	const want = `"2,00","20,0","2,04",`
	for _, test := range []struct{ row, want string }{
		{`"30,0",100`, want},
		{`"30,0 N",100`, want},
		{`"0,03 kN",100`, want},
		{`"30.000,0 mN",100`, want},
		{`"30,0 ± 0,1",100`, want + "warning: uncertainty-unused"},
		{`"1.5",100`, `,,,"force ""1.5"": a point where the decimal sign is a comma, want a number in N"`},
		{`"1.5 N",100`, `,,,"force ""1.5 N"": a point where the decimal sign is a comma, want a number in N"`},
		{`"1.9",100`, `,,,"force ""1.9"": a point where the decimal sign is a comma, want a number in N"`},
		{`.5,100`, `,,,"force "".5"": a point where the decimal sign is a comma, want a number in N"`},
		{`"-30,5",100`, `,,,"force is -30,5 N, want above 0 N"`},
	} {
		a := run(t, "tensile", batch.Job{Options: table.Options{Decimal: ','}}, "force [N],grammage [g/m2]\n"+test.row+"\n")
		if lines := a.lines(); a.err != nil || len(lines) != 2 || lines[1] != test.row+","+test.want && lines[1] != strings.ReplaceAll(test.row, `"`, "")+","+test.want {
			t.Errorf("%s: %v\n%s\nwant the row and %s", test.row, a.err, a.out, test.want)
		}
	}
	// Only the results of a row are turned, not what stands before them: 3007.5 N over 15 mm
	// and 100 g/m2 by hand (common-practice).
	full := run(t, "tensile", batch.Job{Full: true}, "force [N];grammage [g/m2];p.1\n3007,5;100;p.1\n")
	full.wantLines(t, map[int]string{2: "3007,5;100;p.1;200,5;2005;204,45310070207465;"})
	if want := "no input: column 3 (p.1)"; !slices.Contains(full.notes, want) {
		t.Errorf("notes %q, want %s", full.notes, want)
	}
	// One column has no delimiter to go by; results come behind a comma.
	a := run(t, "grammage", batch.Job{Constants: []calc.Pair{{Name: "area", Text: "200 cm2"}}}, "mass [g]\n2,41\n2,4\n")
	a.wantLines(t, map[int]string{1: "mass [g],grammage [g/m2],remark", 2: `"2,41",120,`}) // 120.5 to 3 figures, ties to even
}

// A cell has more digits than a float64 holds: each counts where a calculation
// rounds what was written (common-practice, by hand).
func TestCellsAsWritten(t *testing.T) {
	job := batch.Job{Constants: []calc.Pair{{Name: "step", Text: "1 in"}, {Name: "tie", Text: "even"}}}
	a := run(t, "round", job, "value [in]\n2.50000000000000000001\n2.5\n12345678901234567891\n2.500000000000(1)\n2.50000000000000000001 ft\n")
	a.wantLines(t, map[int]string{
		2: "2.50000000000000000001,3,", 3: "2.5,2,", 4: "12345678901234567891,12345678901234567891,",
		5: "2.500000000000(1),2,warning: uncertainty-unused", 6: "2.50000000000000000001 ft,30,",
	})
}

// Lists by hand (common-practice): mean of 1, 2, 3 is 2, s is 1.
func TestListFromColumns(t *testing.T) {
	job := batch.Job{Columns: map[string][]string{"value": {"a", "b", "c"}}}
	a := run(t, "replicates", job, "piece,a [mm],b [mm],c [mm]\n1,1,2,3\n2,2,,2\n3,,,\n4,1,x,3\n")
	if a.err != nil {
		t.Fatal(a.err)
	}
	heads, row := strings.Split(a.lines()[0], ","), strings.Split(a.lines()[1], ",")
	for head, want := range map[string]string{"count": "3", "mean [mm]": "2", "standard-deviation [mm]": "1", "median [mm]": "2"} {
		if i := slices.Index(heads, head); i < 0 || row[i] != want {
			t.Errorf("%s is not %s in\n%s", head, want, a.out)
		}
	}
	if i := slices.Index(heads, "count"); i > 0 && !strings.HasPrefix(a.lines()[2], "2,2,,2,2,") {
		t.Errorf("an empty cell is a replicate less: %s", a.lines()[2])
	}
	a.wantTotals(t, 4, 2, 2, 0)
	if len(a.told) != 2 || !strings.HasPrefix(a.told[0], "4") || a.told[1] != `5:3: b "x": not a number, want a number in mm` {
		t.Errorf("told %q", a.told)
	}
}

// A list in one cell is in the unit of its column, unless it names one.
func TestListInCell(t *testing.T) {
	for _, row := range []string{
		"[100 100];10 20", "[100 100];[10 20]", `"100; 100";"10; 20"`, "100, 100;10, 20", "0.1 0.1 t;10 20 %",
		`"100 kg; 0.1 t";"10 %; 20 %"`, "[100 100];0.1 0.2 g/g",
	} {
		a := run(t, "bale-lot", batch.Job{}, "mass [kg];moisture [%]\n"+row+"\n")
		if want := row + ";200;15;170;"; a.err != nil || len(a.lines()) != 2 || a.lines()[1] != want {
			t.Errorf("%v\n%s\nwant %s", a.err, a.out, want)
		}
	}
	// A Value could do without a unit, so here it is easily lost: a list in mm
	// whose mean is 2 mm (common-practice).
	for _, cell := range []string{"1 2 3", "[1 2 3]", "[1; 2; 3]", "1, 2, 3"} {
		a := run(t, "replicates", batch.Job{}, "value [mm]\tnote\n"+cell+"\ta\n2000 um\tb\n")
		if a.err != nil || !strings.HasPrefix(a.out, "value [mm]\tnote\tcount\tmean [mm]\t") || !strings.HasPrefix(a.lines()[1], cell+"\ta\t3\t2\t1\t") || !strings.HasPrefix(a.lines()[2], "2000 um\tb\t1\t2\t\t") {
			t.Errorf("%v\n%s", a.err, a.out)
		}
	}
}

func TestWords(t *testing.T) {
	job := batch.Job{Constants: []calc.Pair{{Name: "limit", Text: "2 mm"}}}
	a := run(t, "conformity-absolute", job, "value [mm],side\n2,at-least\n3,at-most\n3,atmost\n3,\n")
	a.wantLines(t, map[int]string{4: `3,atmost,,,"side ""atmost"": no such word, want one of at-least, at-most"`,
		5: `3,,,,"side: no reading, want one of at-least, at-most"`})
	if !strings.Contains(a.lines()[1], "pass") || !strings.Contains(a.lines()[2], "fail") {
		t.Errorf("2 is at least 2, 3 is not at most 2:\n%s", a.out)
	}
}

// Wrong jobs are refused before anything is written.
func TestWrongJobs(t *testing.T) {
	const text = "force [N],grammage [g/m2],n,n\n30,100,1,2\n"
	for _, test := range []struct {
		job  batch.Job
		want string
	}{
		{batch.Job{Columns: map[string][]string{"forse": {"n"}}}, `tensile has no input or output "forse", near: force`},
		{batch.Job{Columns: map[string][]string{"force": {"F"}}}, `t.csv: no column has the head "F", heads are force, grammage, n, n`},
		{batch.Job{Columns: map[string][]string{"force": {"n"}}}, `t.csv: 2 columns have the head "n", want it once`},
		{batch.Job{Columns: map[string][]string{"force": {"force", "grammage"}}}, `force "force, grammage": takes one column, not 2`},
		{batch.Job{Columns: map[string][]string{"force": {"grammage"}}}, `t.csv:1:2: force: column "grammage": "g/m2" is no unit of force`},
		{batch.Job{Columns: map[string][]string{"force": {"force"}}, Constants: []calc.Pair{{Name: "force", Text: "1 N"}}}, `force "1 N": given as a column and as a value`},
		{batch.Job{Constants: []calc.Pair{{Name: "force", Text: "1 kg"}}}, "force"},
		{batch.Job{Constants: []calc.Pair{{Name: "strip-width", Text: "15 mm"}, {Name: "gravity", Text: "9.81 m/s2"}, {Name: "strip-width", Text: "25 mm"}}},
			`strip-width "25 mm": given already for every row, as "15 mm"`},
		{batch.Job{Units: map[string]string{"tensile-strenght": "lbf/in"}}, `tensile has no input or output "tensile-strenght", near: tensile-strength`},
		{batch.Job{Units: map[string]string{"tensile-strength": "kg"}}, `tensile-strength: "kg" is no unit of force per length, want kN/m or N/m`},
		{batch.Job{Units: map[string]string{"force": "lbf"}}, `force "lbf": an input stays in its unit, want an output: tensile-strength, tensile-index, breaking-length`},
		{batch.Job{By: []string{"m"}}, `t.csv: no column has the head "m"`},
		{batch.Job{Lot: "m"}, `t.csv: no column has the head "m"`},
		{batch.Job{Only: []calc.Pair{{Name: "m", Text: "1"}}}, `t.csv: no column has the head "m"`},
		{batch.Job{Columns: map[string][]string{"force": {"force [kN]"}}}, `t.csv:1:1: force "force [kN]": column "force" is in N, not in kN`},
	} {
		test.job.Options.Name = "t.csv"
		a := run(t, "tensile", test.job, text)
		if a.err == nil || !strings.HasPrefix(a.err.Error(), test.want) || a.out != "" {
			t.Errorf("%+v: %v, want %s", test.job, a.err, test.want)
		}
	}
	for heads, want := range map[string]string{
		"force [N],force [N],grammage [g/m2]":  `t.csv: 2 columns have the head "force", want it once`,
		"force [N],force [kN],grammage [g/m2]": `t.csv: 2 columns have the head "force", want one of force [N], force [kN]`,
	} {
		if a := run(t, "tensile", batch.Job{Options: table.Options{Name: "t.csv"}}, heads+"\n30,31,100\n"); a.err == nil || a.err.Error() != want {
			t.Errorf("%s: %v, want %s", heads, a.err, want)
		}
	}
	a := run(t, "tensile", batch.Job{Columns: map[string][]string{"force": {"F"}}}, text)
	var head *batch.HeadError
	if !errors.As(a.err, &head) || head.Field != "Columns" || head.Input != "force" || head.Head != "F" || !strings.HasPrefix(a.err.Error(), "no column") {
		t.Errorf("%#v, want what it is about", a.err)
	}
	if a := run(t, "tensile", batch.Job{}, "a,b\n1,2\n"); a.err == nil || !strings.Contains(a.err.Error(), "no column is named like an input of tensile: heads are a, b, inputs are force, ") {
		t.Errorf("no head fits: %v", a.err)
	}
	if a := run(t, "round", batch.Job{}, "a,b\n1,2\n"); a.err == nil {
		t.Error("round takes a table without its inputs")
	}
}

// A number that should be whole is told with its cell.
func TestRowWithAPart(t *testing.T) {
	job := batch.Job{Constants: []calc.Pair{{Name: "tear-length", Text: "43 mm"}}, Options: table.Options{Name: "t.csv"}}
	a := run(t, "tear-energy", job, "energy [J],plies\n0.28,2.50\n0.28,4\n")
	a.wantTold(t, "t.csv:2:2: plies is 2.50, want a whole number")
	a.wantLines(t, map[int]string{2: `0.28,2.50,,"plies is 2.50, want a whole number"`})
	for _, note := range a.notes {
		if strings.HasPrefix(note, "no input") {
			t.Errorf("every column gives an input, yet noted %q", note)
		}
	}
}

// The places of the first footers are kept, and only these.
func TestFooterLines(t *testing.T) {
	job := batch.Job{Constants: []calc.Pair{{Name: "area", Text: "200 cm2"}}}
	a := run(t, "grammage", job, "piece,mass [g]\nA,2.4\n"+strings.Repeat("Mean,2.4\n", 8))
	if len(a.totals.FooterLines) != 6 || a.totals.FooterLines[0] != `line 3 "Mean"` || a.totals.FooterLines[5] != `line 8 "Mean"` || a.totals.Footers != 8 {
		t.Errorf("%d footers in %q", a.totals.Footers, a.totals.FooterLines)
	}
}

// Rows that lack a cell asked for are counted and left alone, torn ones are told.
func TestOnly(t *testing.T) {
	const text = "piece,side,mass [g]\nA,top,2.4\nA,back,3\nB,top\nB,top,2.5\nMean,top,2.45\n"
	only := batch.Job{Only: []calc.Pair{{Name: "side", Text: "top"}}, Constants: []calc.Pair{{Name: "area", Text: "200 cm2"}}, Options: table.Options{Name: "t.csv"}}
	a := run(t, "grammage", only, text)
	a.wantLines(t, map[int]string{2: "A,top,2.4,120,", 3: `B,top,,,"mass: the row ends before this cell, want 3 cells as in the heads of line 1"`, 4: "B,top,2.5,125,", 5: "Mean,top,2.45,,footer: not counted"})
	a.wantTotals(t, 4, 2, 1, 1)
	if a.totals.Others != 1 {
		t.Errorf("%d other rows, want 1", a.totals.Others)
	}
	only.Lot = "piece"
	a = run(t, "moisture-lot", only, strings.Replace(text, "mass [g]", "moist-mass [g]", 1))
	if a.err == nil {
		t.Error("a lot without its inputs is computed")
	}
	only.Constants = []calc.Pair{{Name: "moisture", Text: "10 %"}}
	a = run(t, "bale-lot", only, text)
	a.wantLines(t, map[int]string{2: "A,1,0.0024,10,0.00216,", 3: "B,1,0.0025,10,0.00225,"})
	a.wantTotals(t, 4, 2, 1, 1)
	if a.totals.Others != 1 {
		t.Errorf("%d rows of other lots, want 1", a.totals.Others)
	}
}

// A row's error has its place, and works with errors.Is and As.
func TestRowErrors(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	var told []error
	job := &batch.Job{Calculation: tensile, Options: table.Options{Name: "t.csv"}, Tell: func(err error) { told = append(told, err) }}
	if _, err := job.Run(context.Background(), strings.NewReader("force [N],grammage [g/m2]\nx,100\n30,0\n"), io.Discard); err != nil {
		t.Fatal(err)
	}
	var cell *table.CellError
	var row *batch.RowError
	switch {
	case len(told) != 2:
		t.Fatalf("told of %d rows, want 2", len(told))
	case !errors.As(told[0], &cell) || cell.Line != 2 || cell.Column != 1 || cell.Head != "force" || cell.Text != "x":
		t.Errorf("%#v has no place", told[0])
	case !errors.As(told[1], &row) || row.File != "t.csv" || row.Line != 3 || row.Column != 2 || !errors.Is(row, paperprop.ErrRange):
		t.Errorf("%#v has no place, or is no range error", told[1])
	}
}

// Rows under other heads would be read wrongly: nothing behind them is used,
// however many workers are ahead.
func TestChangedHeads(t *testing.T) {
	var b strings.Builder
	b.WriteString("force [N],grammage [g/m2]\n30,100\ngrammage [g/m2],force [N]\n")
	for range 200_000 {
		b.WriteString("100,30\n")
	}
	var first string
	for _, workers := range []int{1, 2, 7} {
		a := run(t, "tensile", batch.Job{Workers: workers, Options: table.Options{Name: "t.csv"}}, b.String())
		if a.err == nil || !strings.HasPrefix(a.err.Error(), "t.csv:3: other heads") {
			t.Errorf("%d workers: %v", workers, a.err)
		}
		a.wantTotals(t, 2, 1, 1, 0)
		if first == "" {
			first = a.out
		}
		if a.out != first {
			t.Errorf("%d workers write\n%.200s\none writes\n%s", workers, a.out, first)
		}
	}
}

// Lots that go wrong.
func TestLotErrors(t *testing.T) {
	a := run(t, "bale-lot", batch.Job{Lot: "load", Options: table.Options{Name: "d.csv"}},
		"load,mass [kg],moisture [%]\nA,500,10\nA,500 ± 1,10\nB,x,10\n,500,10\nC,500,120\n")
	a.wantLines(t, map[int]string{
		2: "A,2,1000,10,900,warning: uncertainty-unused",
		3: "B,0,,,,no row of it can be used",
		4: "C,0,,,,no row of it can be used",
	})
	a.wantTotals(t, 5, 2, 3, 0)
	a.wantTold(t,
		`d.csv:4:2: mass "x": not a number, want a number in kg`,
		"d.csv:5:1: load: empty, want the name of a lot",
		`d.csv:6:3: moisture is 120 %, want 0 % to 100 %`,
		`d.csv:4: lot "B": no row of it can be used`,
		`d.csv:6: lot "C": no row of it can be used`)
	// A member that kills its lot is named by its line; where no row alone does, the lot's first is.
	a = run(t, "moisture-lot", batch.Job{Lot: "piece", Options: table.Options{Name: "m.csv"}},
		"piece,moist-mass [g],dry-mass [g]\nA,5,4.5\nA,x,4.5\nB,5,4\nA,5,4.6\nA,6,6.5\nA,7,7.5\n")
	const refused = "dry-mass is 6.5 g, want at most the moist-mass of the piece, 6 g"
	a.wantLines(t, map[int]string{2: `A,4,,,,"line 6: ` + refused + `"`, 3: "B,1,20.0,20,0,"})
	a.wantTold(t, `m.csv:3:2: moist-mass "x": not a number, want a number in g`, `m.csv:6: lot "A": `+refused)
	a = run(t, "line-fit", batch.Job{Lot: "*", Options: table.Options{Name: "f.csv"}}, "x [%],y [%]\n2,1\n2,3\n2,2\n")
	if len(a.told) != 1 || !strings.HasPrefix(a.told[0], `f.csv:2: lot "all rows": x`) || strings.Contains(a.out, "line 2") {
		t.Errorf("told %q, written\n%s", a.told, a.out)
	}
	a = run(t, "moisture-lot", batch.Job{Lot: "piece"}, "piece,moist-mass [g],dry-mass [g]\nA,5,4.5\nA,7,7.5\n")
	a.wantLines(t, map[int]string{2: `A,2,,,,"line 3: dry-mass is 7.5 g, want at most the moist-mass of the piece, 7 g"`})
	a = run(t, "moisture-lot", batch.Job{Lot: "piece"}, "piece,moist-mass [g],dry-mass [g]\nA,5 6,4.5 5.5\nA,7,7.5\n")
	a.wantLines(t, map[int]string{2: `A,2,,,,"dry-mass is 7.5 g, want at most the moist-mass of the piece, 7 g"`}) // of several members in a cell no line is told
	a = run(t, "fibre-fractions", batch.Job{Lot: "*"}, "retained-dry-mass [g],dry-mass [g]\n0,10\n12,\n")          // a number beside the list blames no less
	a.wantLines(t, map[int]string{2: `all rows,2,,,"line 3: retained-dry-mass is 12 g, want in all at most dry-mass 10 g"`})
	a = run(t, "moisture-lot", batch.Job{Lot: "piece", Together: true}, "piece,moist-mass [g],dry-mass [g]\nA,5,4.5\nA,x,4.5\nA,7,7.5\nB,5,4\n")
	if l := a.totals.Lots; len(l) != 2 || l[0].Err == nil || l[0].Used != 0 || l[0].Unused != 3 || l[0].Outputs != nil || l[1].Err != nil || l[1].Used != 1 || l[1].Unused != 0 {
		t.Errorf("lots %+v, want one of three rows refused and one of one row computed", l)
	}
	claim := batch.Job{Lot: "lot", Columns: map[string][]string{"mass": {"m"}, "moisture": {"w"}, "rule": {"r"}},
		Constants: []calc.Pair{{Name: "allowance", Text: "10 %"}, {Name: "scope", Text: "lot"}}}
	a = run(t, "moisture-claim", claim, "lot,m [kg],w [%],r\nA,500,12,basis\nA,500,12,points\n")
	if len(a.told) == 0 || !strings.Contains(strings.Join(a.told, "\n"), `3:4: r "points": differs from a row above of lot "A", want the same in all its rows`) {
		t.Errorf("told %q", a.told)
	}
}

// TestEmptyCellsOfALot takes a cell that says nothing for what the other rows of the lot
// say. Where none says it, the lot is refused, once, with its lines.
func TestEmptyCellsOfALot(t *testing.T) {
	job := batch.Job{Lot: "lot", Options: table.Options{Name: "c.csv"}, Constants: []calc.Pair{{Name: "scope", Text: "lot"}}}
	a := run(t, "moisture-claim", job, "lot,mass [kg],moisture [%],rule,allowance [%]\n"+
		"A,500,12,,\nA,510,13,n/a,10\nA,,13,basis,10\nA,500,11,basis,\nB,500,12,,10\nB,500,13,,10\nC,500,12,basis,\n")
	a.wantLines(t, map[int]string{
		2: "A,3,1476.333,33.667,1 of 4 rows not used", // (440 + 443.7 + 445)/0.9 kg, of 1510 kg
		3: `B,2,,,"rule: no reading in lines 6, 7, want one of basis, points in one of its rows"`,
		4: `C,1,,,"allowance: no reading in line 8, want a number in % in one of its rows"`,
	})
	a.wantTold(t, `c.csv:4:2: mass: no reading, want a number in kg`,
		`c.csv:6: lot "B": rule: no reading in lines 6, 7, want one of basis, points in one of its rows`,
		`c.csv:8: lot "C": allowance: no reading in line 8, want a number in % in one of its rows`)
	a.wantTotals(t, 7, 3, 4, 0)
	a = run(t, "moisture-claim", job, "lot,mass [kg],moisture [%],rule,allowance [%]\n"+strings.Repeat("A,500,12,,10\n", 12))
	a.wantTold(t, `c.csv:2: lot "A": rule: no reading in lines 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 2 more, want one of basis, points in one of its rows`)
	a = run(t, "moisture-claim", job, "lot,mass [kg],moisture [%],rule,allowance [%]\n"+strings.Repeat("A,500,12,,10\n", 10))
	a.wantTold(t, `c.csv:2: lot "A": rule: no reading in lines 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, want one of basis, points in one of its rows`)
	a = run(t, "moisture-claim", job, "lot,mass [kg],moisture [%],rule,allowance [%]\nA,500,12,basis,10\nA,500,12,,10\nA,500,12,points,10\n")
	a.wantTold(t, `c.csv:4:4: rule "points": differs from a row above of lot "A", want the same in all its rows`)
}

// TestLotsWithoutAList names the summary to whoever takes the pieces of a specimen for a
// lot of a calculation that has no list.
func TestLotsWithoutAList(t *testing.T) {
	const rows = "piece,force [N],grammage [g/m2]\nA,85,120\nA,86,120\n"
	for lot, want := range map[string]string{
		"piece": `t.csv:3:2: force "86": differs from a row above of lot "A", want the same in all its rows; a summary by "piece" computes each row`,
		"*":     `t.csv:3:2: force "86": differs from a row above of lot "all rows", want the same in all its rows; a summary of the rows computes each`,
	} {
		a := run(t, "tensile", batch.Job{Lot: lot, Options: table.Options{Name: "t.csv"}}, rows)
		a.wantTold(t, want)
		a.wantTotals(t, 2, 1, 1, 0)
	}
}

// Lots hold their numbers until the table ends, and so many that memory is bounded.
func TestLotsThatHoldTooMuch(t *testing.T) {
	a := run(t, "bale-lot", batch.Job{Lot: "load", Options: table.Options{Name: "d.csv"}},
		"load,mass [kg],moisture [%]\n"+strings.Repeat("A,500,10\n", 200_000))
	if want := "d.csv:199982: lots up to here hold more than 400000 numbers"; a.err == nil || !strings.HasPrefix(a.err.Error(), want) {
		t.Errorf("error %v, want %s", a.err, want)
	}
	a = run(t, "bale-lot", batch.Job{Lot: "load"}, "load,mass [kg],moisture [%]\n"+strings.Repeat("A,500,10\n", 190_000))
	if a.err != nil || a.totals.Computed != 190_000 {
		t.Errorf("%d rows of 190000, error %v", a.totals.Computed, a.err)
	}
}

// A summary holds so many results that memory is bounded: a grammage is one of a row.
func TestSummaryThatHoldsTooMuch(t *testing.T) {
	rows := func(n int) string {
		text := []byte("id,mass [g],length [mm],width [mm]\n")
		for i := range n {
			text = append(strconv.AppendInt(text, int64(i), 10), ",1,100,100\n"...)
		}
		return string(text)
	}
	job := batch.Job{By: []string{"id"}, Options: table.Options{Name: "d.csv"}}
	a := run(t, "grammage", job, rows(40_001))
	if want := `d.csv:40002: group "40000" is one too many for a summary, which holds at most 40000 results: want By columns with fewer different cells`; a.err == nil || a.err.Error() != want {
		t.Errorf("error %v, want %s", a.err, want)
	}
	if a = run(t, "grammage", job, rows(40_000)); a.err != nil || a.totals.Computed != 40_000 {
		t.Errorf("%d rows of 40000, error %v", a.totals.Computed, a.err)
	}
}

// Thousands may be parted before a unit in the cell too. Where a list may stand they
// could be readings.
func TestThousandsBeforeUnit(t *testing.T) {
	job := batch.Job{Constants: []calc.Pair{{Name: "area", Text: "1 m2"}}}
	for cell, want := range map[string]string{
		"1 355,3 g": "1360;", "1'355,3 g": "1360;", "1\u00A0355,3\u00A0g": "1360;", "1 355 250 mg": "1360;", "1.355,3 g": "1360;",
		"1 35,3 g": `;"mass ""1 35,3 g"": not a number, want a number with its unit, such as 1 g"`,
	} {
		a := run(t, "grammage", job, "mass;note\n"+cell+";0,5\n")
		a.wantLines(t, map[int]string{2: cell + ";0,5;" + want})
	}
	a := run(t, "bale-lot", batch.Job{Lot: "*", Constants: []calc.Pair{{Name: "moisture", Text: "10 %"}}}, "id;mass\nA;1 355,3 kg\nB;400,5 kg\nC;[612 588] kg\n")
	a.wantLines(t, map[int]string{2: "all rows;2;1600,5;10;1440,45;1 of 3 rows not used"})
	a.wantTold(t, `2:2: mass "1 355,3 kg": one number with its thousands separated, or several readings: 1355,3 kg or [1 355,3] kg says which, want a number with its unit, such as 1 kg`)
}

// TestThousandsOfAValue keeps to hints that are true: a list of Values has no unit of its own.
func TestThousandsOfAValue(t *testing.T) {
	a := run(t, "replicates", batch.Job{}, "value [g];note\n1 355,3 g;a\n1355,3 g;b\n")
	a.wantTold(t, `2:1: value "1 355,3 g": one number with its thousands separated, or several readings: 1355,3 g says which, want a number in g`)
}

// TestWarningsOfALot tells of a lot what is so of its own rows. A cell that says nothing
// takes what the lot says, if it says something.
func TestWarningsOfALot(t *testing.T) {
	a := run(t, "replicates", batch.Job{Lot: "lot"}, "lot,value [N],confidence [%]\nA,10,95\nA,12,95\nB,10,\nB,12,\nC,10,\nC,12,95\n")
	remarks := func(a answer, want ...string) {
		for i, line := range a.lines()[1:] {
			if i >= len(want) || !strings.HasSuffix(line, ","+want[i]) {
				t.Errorf("line %d is %s, want the remarks %q", i+2, line, want)
			}
		}
	}
	remarks(a, "", "warning: default-taken", "")
	if got := a.totals.Warnings(); len(got) != 1 || !strings.HasPrefix(got[0], "1 lot: default-taken: ") {
		t.Errorf("warnings %q, want one of 1 lot", got)
	}
	job := batch.Job{Lot: "lot", Columns: map[string][]string{"value": {"r1", "r2"}}}
	b := run(t, "replicates", job, "lot,r1 [N],r2 [N]\nA,10,12\nA,11,13\nB,10,\nB,11,13\nC,10,12\n")
	remarks(b, "", "warning: reading-missing", "")
}

// A head may say that numbers are parts of one, those of a list too.
func TestUnitOne(t *testing.T) {
	for _, cells := range []string{"[10 20],[0.05 0.06]", "[10 20],0.05 0.06", "[10 20],0.05; 0.06", `[10 20],"0.05, 0.06"`, "[10 20],0.05 1; 6 %"} {
		a := run(t, "blend", batch.Job{}, "mass-flow [t/h],consistency [1],note\n"+cells+",a\n")
		if len(a.told) > 0 || !strings.Contains(a.out, ",a,30,5.66667,1.7,") {
			t.Errorf("%s: told %q, written\n%s", cells, a.told, a.out)
		}
	}
	a := run(t, "dilution", batch.Job{}, "mass-flow [t/h],consistency-in [1],consistency-out [1]\n300,0.046 ± 0.001,0.0092\n")
	if len(a.told) > 0 || !strings.HasSuffix(a.lines()[1], ",1200,1500,13.8,warning: uncertainty-unused") {
		t.Errorf("told %q, written\n%s", a.told, a.out)
	}
}

// Where a cell may hold a list, thousands that are parted could be readings. A cell of
// several columns is one reading.
func TestThousandsInList(t *testing.T) {
	for _, cell := range []string{"3 250", "52 340 118", "1 012.5"} {
		a := run(t, "replicates", batch.Job{}, "value [N];note\n"+cell+";a\n")
		whole := strings.ReplaceAll(cell, " ", "")
		want := `2:1: value "` + cell + `": one number with its thousands separated, or several readings: ` + whole + " or [" + cell + "] says which, want a number in N"
		if a.err != nil || len(a.told) != 1 || a.told[0] != want {
			t.Errorf("%s: %v, told %q, want %s", cell, a.err, a.told, want)
		}
	}
	a := run(t, "replicates", batch.Job{}, "value [N];note\n3 250 3 310;a\n")
	if want := `2:1: value "3 250 3 310": blanks between digits can be read two ways, write [3250 3310] N or [3 250 3 310] N, want a number in N`; len(a.told) != 1 || a.told[0] != want {
		t.Errorf("told %q, want %s", a.told, want)
	}
	for cell, want := range map[string]string{"[3 250]": ";2;126.5;", "3250": ";1;3250;", "3 25": ";2;14;", "3; 250": ";2;126.5;"} {
		if a := run(t, "replicates", batch.Job{}, "value [N]\tnote\n"+cell+"\ta\n"); len(a.told) > 0 || !strings.Contains(strings.ReplaceAll(a.out, "\t", ";"), want) {
			t.Errorf("%s: told %q, written\n%s, want %s", cell, a.told, a.out, want)
		}
	}
	if a := run(t, "replicates", batch.Job{}, "value [N];value [N]\n3250;3310\n"); len(a.told) > 0 || !strings.HasPrefix(a.lines()[1], "3250;3310;2;3280;") {
		t.Errorf("two columns of one head: told %q, written\n%s", a.told, a.out)
	}
	job := batch.Job{Columns: map[string][]string{"value": {"a", "b"}}}
	if a := run(t, "replicates", job, "a [N];b [N]\n3 250;3 310\n"); len(a.told) > 0 || !strings.HasPrefix(a.lines()[1], "3 250;3 310;2;3280;") {
		t.Errorf("two columns: told %q, written\n%s", a.told, a.out)
	}
}

// A column whose unit is missing beside a Value that has one, or does not fit it, is told
// with its head: the cells have no unit of their own, and the sheet sees no text of them.
func TestUnitBesideAnother(t *testing.T) {
	limit := batch.Job{Constants: []calc.Pair{{Name: "limit", Text: "9 kPa"}, {Name: "side", Text: "at-least"}}}
	run(t, "conformity-absolute", limit, "lot,value\nA,9.5\n").wantTold(t, `2:2: value "9.5": unit missing, want that of all in the head: value [kPa]`)
	limit.Constants[0] = calc.Pair{Name: "value", Text: "9 kPa"}
	run(t, "conformity-absolute", limit, "limit [N]\n9.5\n").wantTold(t,
		`2:1: limit "9.5": N is a unit of force and kPa a unit of pressure: one cannot be converted into the other, want the unit of value`)
	lot := batch.Job{Lot: "lot", Constants: []calc.Pair{{Name: "second-value", Text: "[1 2 3] kPa"}}}
	run(t, "compare-samples", lot, "lot,first-value\nA,5\nA,6\n").wantTold(t,
		`2: lot "A": first-value: unit missing, want that of all in the head: first-value [kPa]`)
}

// A list over several columns takes a unit in a cell as one column does. An inch is 25.4 mm
// exactly (NIST SP 811 B.8).
func TestUnitInListOverColumns(t *testing.T) {
	job := batch.Job{Full: true, Columns: map[string][]string{"value": {"a", "b", "c"}}}
	a := run(t, "replicates", job, "a [um],b [um],c [um]\n0.188 mm,7.5 mil,190\n186,187,188\n188,3 g,190\n188,5 ± 1,190\n188,,190\n188,x,190\n")
	lines := a.lines()
	if a.err != nil || len(lines) != 7 || !strings.HasPrefix(lines[1], "0.188 mm,7.5 mil,190,3,189.5,") || !strings.HasPrefix(lines[2], "186,187,188,3,187,1,") ||
		!strings.HasPrefix(lines[5], "188,,190,2,189,") {
		t.Errorf("%v\n%s", a.err, a.out)
	}
	a.wantTold(t,
		`4:2: b "3 g": more than a number, in another unit than that of the column, want a number in um`,
		`5:2: b "5 ± 1": an uncertainty, want a number in um`,
		`7:2: b "x": not a number, want a number in um`)
	job = batch.Job{Full: true, Columns: map[string][]string{"mass": {"a", "b"}}, Constants: []calc.Pair{{Name: "moisture", Text: "[10 10] %"}}}
	a = run(t, "bale-lot", job, "a [kg],b [kg]\n500,0.52 t\n500,7 m\n")
	a.wantLines(t, map[int]string{2: "500,0.52 t,1020,10,918,"}) // 500 + 520, 90 % of it
	a.wantTold(t, `3:2: b "7 m": "m" is no unit of mass, want a number in kg`)
}
