package main

import (
	"encoding/json"
	"strings"
	"testing"
)

// A section of a certificate says what was measured, how often, what could not
// be, and by which rule it is reported.
func TestSummary(t *testing.T) {
	const table = "piece;force [N];grammage [g/m2]\nA;60;100\nA;66;100\nA;n/a;100\nB;90;120\n"
	r := called(table, "batch", "tensile", "--by", "piece", "--summary", "markdown", "--quiet")
	for _, want := range []string{
		"## Tensile strength, index and breaking length\n\nStandard input: 4 rows, 3 computed, 1 not, 0 footers not counted.\n",
		"| A | tensile-strength | 2 | 1 | 4.2 kN/m | 0.282843 kN/m | 1.65876 to 6.74124 kN/m | 4.20 kN/m |\n",
		"| B | tensile-strength | 1 | 0 | 6 kN/m |  |  | 6.00 kN/m |\n",
		"- default in every row: strip-width 15 mm\n",
		"- source: ",
	} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("no %q in\n%s", want, r.Out)
		}
	}
	if strings.Contains(r.Out, "remark") {
		t.Errorf("the rows are in the summary:\n%s", r.Out)
	}
	r = called(table, "batch", "tensile", "--by", "piece", "--strip-width", "25 mm", "--summary", "markdown", "--quiet")
	if want := "\n- given for every row: strip-width 25 mm\n- default in every row: gravity 9.80665 m/s2\n"; !strings.Contains(r.Out, want) {
		t.Errorf("no %q in\n%s", want, r.Out)
	}
	r = called(table, "batch", "tensile", "--by", "piece", "--strip-width", "15 mm", "--summary", "json", "--quiet")
	if want := `"assumed":["given for every row: strip-width 15 mm","default in every row: gravity 9.80665 m/s2"]`; !strings.Contains(r.Out, want) {
		t.Errorf("no %s in\n%s", want, r.Out)
	}
	var summary struct {
		Rows, Computed, Reported int
		Statements               []struct {
			By     map[string]string
			Output string
			N      int
			Mean   float64
		}
	}
	if err := json.Unmarshal([]byte(r.Out), &summary); err != nil {
		t.Fatalf("%v in %s", err, r.Out)
	}
	if s := summary.Statements; summary.Rows != 4 || summary.Reported != 1 || len(s) != 6 || s[0].By["piece"] != "A" || s[0].N != 2 || s[0].Mean != 4.2 {
		t.Errorf("got %+v", summary)
	}
	for _, wrong := range [][]string{{"--summary", "html", "--by", "piece"}, {"--summary", "json", "--lot", "piece"}, {"--only", "piece"}} {
		if r := called(table, append([]string{"batch", "tensile"}, wrong...)...); r.Status != misused {
			t.Errorf("%v: exit %d, want %d", wrong, r.Status, misused)
		}
	}
}

// A row that may be a reading or a statistic is refused, and the flag named that takes it.
func TestDoubtfulRows(t *testing.T) {
	const table = "piece;force [N];grammage [g/m2]\nA1;60;100\nA2;66;100\nP95;65,7;100\n;126;100\n"
	const flag = "--no-footers takes rows that are refused for their names, and footers, for readings\n"
	r := called(table, "batch", "tensile", "--quiet")
	if r.Status != failed || !strings.HasSuffix(r.Err, "\n4 rows = 2 computed + 2 reported\n") || !strings.HasPrefix(r.Err,
		`standard input:4:1: piece "P95": may name a percentile, as no reading is named alike, want another name, if it is a reading`+"\n"+
			"standard input:5:1: piece: no name, and a total or a mean may have none, want a name, if it is a reading\n"+flag) {
		t.Errorf("exit %d, told\n%s", r.Status, r.Err)
	}
	r = called(table, "batch", "tensile", "--quiet", "--no-footers")
	if r.Status != done || strings.Contains(r.Err, flag) || !strings.HasSuffix(r.Err, "\n4 rows = 4 computed + 0 reported\n") ||
		!strings.HasPrefix(r.Err, "warning: 1 row: row-unnamed: no name in column 1 (piece), and the row counts as a reading: write the name in each row, and none beside a total\n") {
		t.Errorf("--no-footers: exit %d, told\n%s", r.Status, r.Err)
	}
}

// A row of a certificate is one line, whatever a cell holds, and a number without a unit has
// none.
func TestSummaryRows(t *testing.T) {
	r := called("piece,value [N]\n\"x\ny\",1\n\"x\ny\",2\n", "batch", "replicates", "--by", "piece", "--summary", "markdown", "--quiet")
	if want := "| x y | count | 2 | 0 | 1 | 0 | 1 to 1 |  |\n| x y | mean | 2 | 0 | 1.5 N | 0.707107 N | -4.8531 to 7.8531 N |  |\n"; !strings.Contains(r.Out, want) {
		t.Errorf("no %q in\n%s", want, r.Out)
	}
}

// A section of a certificate of lots has a row for each output of a lot, and says which lot
// is not computed and why.
func TestSummaryOfLots(t *testing.T) {
	const (
		table = "reel,thickness [um]\nA,201\nA,199\nA,n/a\nA,204\nB,207\n"
		lost  = "standard input:4:2: thickness \"n/a\": no reading, want a number in um"
		short = "standard input:6: lot \"B\": value has 1 value, want at least 3 values"
	)
	args := []string{"batch", "control-chart", "--column", "value=thickness", "--lot", "reel", "--summary", "markdown"}
	r := called(table, args...)
	want := "## Control chart of single readings\n\nStandard input: 5 rows, 3 used in a lot, 2 not, 0 footers not counted.\n\n" +
		"| reel | rows used | not used | result | reported |\n| --- | --- | --- | --- | --- |\n" +
		"| A | 3 | 1 | mean | 201.333 um |\n| A | 3 | 1 | moving-range | 3.5 um |\n| A | 3 | 1 | sigma | 3.10179 um |\n" +
		"| A | 3 | 1 | upper-limit | 210.639 um |\n| A | 3 | 1 | lower-limit | 192.028 um |\n| A | 3 | 1 | moving-range-limit | 11.4329 um |\n| A | 3 | 1 | outside | none |\n" +
		"| B | 0 | 1 | not computed |  |\n\n- not computed: " + lost + "\n- not computed: " + short +
		"\n- source: moving range of two, d2 = 2/sqrt(pi); tables print 2.660 R_m and 3.267 R_m (common-practice)\n\n"
	if r.Status != failed || r.Out != want || !strings.HasSuffix(r.Err, lost+"\n"+short+"\n5 rows = 3 used in a lot + 2 reported\n") {
		t.Errorf("exit %d, said\n%s\nprinted\n%s\nwant\n%s", r.Status, r.Err, r.Out, want)
	}
	args[5] = "*"
	if r := called(table, args...); !strings.Contains(r.Out, "| lot | rows used | not used | result | reported |\n| --- | --- | --- | --- | --- |\n| all rows | 4 | 1 | mean | 202.75 um |\n") {
		t.Errorf("of all rows:\n%s%s", r.Out, r.Err)
	}
	args[7] = "json"
	if r := called(table, args...); r.Status != misused || !strings.Contains(r.Err, "--summary markdown for a table of the lots") {
		t.Errorf("json: exit %d, %s", r.Status, r.Err)
	}
}

// A certificate names the first rows that are not computed, and counts the others.
func TestMostTold(t *testing.T) {
	table := "reel,value [um]\nA,1\n" + strings.Repeat("A,n/a\n", mostTold+2)
	for _, by := range []string{"--by", "--lot"} {
		r := called(table, "batch", "replicates", by, "reel", "--summary", "markdown")
		if n := strings.Count(r.Out, "- not computed: standard input:"); n != mostTold || !strings.Contains(r.Out, "- not computed: 2 more\n") {
			t.Errorf("%s: %d rows named\n%s", by, n, r.Out)
		}
	}
}

// The certificate and what is said beside it count the same rows.
func TestCountsAgree(t *testing.T) {
	for _, test := range []struct{ rows, out, err string }{
		{"A,60\nB,n/a\nMean,60\n", "Standard input: 3 rows, 1 computed, 1 not, 1 footer not counted.\n", "3 rows = 1 computed + 2 reported, 1 of them a footer\n"},
		{"A,60\nMean,60\ns,0\n", "Standard input: 3 rows, 1 computed, 0 not, 2 footers not counted.\n", "3 rows = 1 computed + 2 reported, 2 of them footers\n"},
		{"A,60\n", "Standard input: 1 row, 1 computed, 0 not, 0 footers not counted.\n", "1 row = 1 computed + 0 reported\n"},
		{"A,60 ± 1\n", "- warning: 1 row: uncertainty-unused: ", "warning: 1 row: uncertainty-unused: "},
	} {
		r := called("piece,force [N]\n"+test.rows, "batch", "tensile", "--grammage", "100 g/m2", "--summary", "markdown")
		if !strings.Contains(r.Out, test.out) || !strings.Contains(r.Err, test.err) {
			t.Errorf("%q gives\n%s%s\nwant %q and %q", test.rows, r.Out, r.Err, test.out, test.err)
		}
	}
}

// The certificate of a Cobb value has its time; where that differs within a group, it
// says so, and beside it stands what helps.
func TestLabelsOfASummary(t *testing.T) {
	const table = "Specimen,time [s],mass-in [g],mass-out [g]\nA,60,1.18,1.46\nA,%,1.19,1.47\n"
	for _, test := range []struct{ second, out, err string }{
		{"60", "- default in every row: area 100 cm2\n- time 60 s in every row\n- source: ", "time 60 s in every row\n2 rows = "},
		{"45", "- warning: 2 rows: label-differs: time is 60 s (line 2) and 45 s (line 3) in group \"A\", and a result means nothing without it: column \"time\" separates them\n",
			"separates them\n--by with the column named there separates the rows that differ\n"},
	} {
		r := called(strings.ReplaceAll(table, "%", test.second), "batch", "cobb", "--by", "Specimen", "--summary", "markdown", "--quiet")
		if r.Status != done || !strings.Contains(r.Out, test.out) || !strings.Contains(r.Err, test.err) {
			t.Errorf("exit %d\n%s%s\nwant %q and %q", r.Status, r.Out, r.Err, test.out, test.err)
		}
	}
}

// There is no coefficient of variation of a temperature whose zero is not nothing.
func TestNoVariationOfTemperatures(t *testing.T) {
	r := called("temperature [degC],relative-humidity [%],group\n20,50,a\n22,50,a\n", "batch", "humid-air", "--by", "group", "--quiet")
	for _, want := range []string{"\na,dew-point,2,0,10.1912,1.29945,,", "\na,enthalpy,2,0,40.7945,3.17181,7.77508,"} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("printed\n%s\nwant %q", r.Out, want)
		}
	}
}

// The mean of a group is reported by a rule whose step grows with it, too.
func TestGrowingStepOfAMean(t *testing.T) {
	r := called("volume [mL],temperature [degC],consistency [%],group\n151,20,0.3,a\n162,20,0.3,a\n97,20,0.3,b\n98,20,0.3,b\n251,20,0.3,c\n254,20,0.3,c\n", "batch", "freeness", "--by", "group", "--quiet")
	for _, want := range []string{"\na,freeness,2,0,156.5,", ",mL,155,", "\nb,freeness,2,0,97.5,", ",mL,98,", "\nc,freeness,2,0,252.5,", ",mL,250,"} {
		if !strings.Contains(r.Out, want) {
			t.Errorf("printed\n%s\nwant %q", r.Out, want)
		}
	}
}

// Footers are told apart from rows that failed, in JSON too.
func TestFootersInJSON(t *testing.T) {
	r := called("piece,force [N],grammage [g/m2]\nA,60,100\nB,x,100\nmean,61,100\n", "batch", "tensile", "--summary", "json", "--quiet")
	if want := `"rows":3,"computed":1,"reported":2,"footers":1,`; !strings.Contains(r.Out, want) {
		t.Errorf("printed\n%s\nwant %q", r.Out, want)
	}
}

// A summary for programs has the cautions, as that for people does.
func TestCautionsOfASummary(t *testing.T) {
	const table = "head [m],wire-speed [m/min]\n12,625\n"
	r := called(table, "batch", "jet", "--quiet", "--summary", "json")
	var summary struct {
		Cautions []struct{ Code, Text string }
	}
	if err := json.Unmarshal([]byte(r.Out), &summary); err != nil || len(summary.Cautions) != 1 || summary.Cautions[0].Code == "" || !strings.HasPrefix(summary.Cautions[0].Text, "Nips, ") {
		t.Errorf("%v in %s, want the caution of nips and jets", err, r.Out)
	}
	r = called(table, "batch", "jet", "--quiet", "--summary", "markdown")
	if !strings.Contains(r.Out, "\n- **Caution**: Nips, ") {
		t.Errorf("no caution in\n%s", r.Out)
	}
}

// Fewer workers than none are refused by every command that takes a number of them.
func TestWorkersBelowZero(t *testing.T) {
	for _, args := range [][]string{
		{"batch", "tensile", "-", "--workers", "-3"},
		{"tensile", "--force", "66 ± 1 N", "--strip-width", "15 mm", "--grammage", "80 g/m2", "--monte-carlo", "1000", "--workers", "-3"},
	} {
		r := called("", args...)
		if want := "millmaths: --workers -3, want 1 or more, or 0 for one a processor\n"; r.Status != misused || r.Err != want {
			t.Errorf("%q: exit %d, says %q, want %q", args, r.Status, r.Err, want)
		}
	}
}
