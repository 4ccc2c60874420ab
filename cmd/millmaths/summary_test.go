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
		"## Tensile strength, index and breaking length\n\nFile -: 4 rows, 3 computed, 1 not, 0 footers not counted.\n",
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
