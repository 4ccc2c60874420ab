package batch_test

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

// What no row could mend ends the work before the first row, and says what it is about.
func TestColumnsThatAreNotThere(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	for _, test := range []struct{ name, text, want, code, input string }{
		{"lab.csv", "force [N],piece\n85,15\n", "lab.csv: no column for grammage and no value: heads are force, piece", "missing", "grammage"},
		{"", "force [N],piece\n85,15\n", "no column for grammage and no value: heads are force, piece", "missing", "grammage"},
		{"lab.csv", "force [N],grammmage [g/m2]\n85,80\n", `lab.csv: no column for grammage: is it "grammmage"?`, "missing", "grammage"},
		{"lab.csv", "force [N],Grammage top\n85,80\n", `lab.csv: no column for grammage: is it "Grammage top"?`, "missing", "grammage"},
		{"lab.csv", "force [N],grammage [g/m2],Strip Width mm\n85,80,25.4\n",
			`lab.csv: no column for strip-width: is it "Strip Width mm"? A unit after a name needs brackets: write "Strip Width [mm]"`, "missing", "strip-width"},
		{"", "Force N,Grammage g/m2\n85,80\n", `no column for force: is it "Force N"? A unit after a name needs brackets: write "Force [N]"`, "missing", "force"},
		{"", "Forces N,grammage [g/m2]\n85,80\n", `no column for force: is it "Forces N"? A unit after a name needs brackets: write "Forces [N]"`, "missing", "force"},
		{"", "force [N],Grammage top side lb/1000 ft2\n85,80\n",
			`no column for grammage: is it "Grammage top side lb/1000 ft2"? A unit after a name needs brackets: write "Grammage top side [lb/1000 ft2]"`, "missing", "grammage"},
		{"", "Peak force [N],Grammage [g/m2]\n85,80\n", `no column for force: is it "Peak force"?`, "missing", "force"},
		{"", "Peak force [N],grip force [N],Grammage [g/m2]\n85,9,80\n", "no column for force and no value: heads are Peak force, grip force, Grammage", "missing", "force"},
		{"", "Peak force [N],piece\n85,25\n", `no column for force: is it "Peak force"?`, "missing", "force"},
		{"", "a,b\n1,2\n", "no column is named like an input of tensile: heads are a, b, inputs are force, strip-width, grammage, gravity", "input", ""},
	} {
		job := batch.Job{Calculation: tensile, Options: table.Options{Name: test.name}}
		var out bytes.Buffer
		_, err := job.Run(context.Background(), strings.NewReader(test.text), &out)
		if err == nil || err.Error() != test.want || out.Len() > 0 {
			t.Errorf("%q: %v\nwant %s\nwritten %q", test.text, err, test.want, out.String())
		}
		var unbound *batch.UnboundError
		if code, input := calc.Code(err); code != test.code || input != test.input || !errors.As(err, &unbound) || unbound.Input != test.input {
			t.Errorf("%q: code %s of input %q, %#v, want %s of %q", test.text, code, input, err, test.code, test.input)
		}
	}
}

// A head of a value of any unit, or of an input with a short name, is suggested too.
func TestHeadsSuggested(t *testing.T) {
	for _, test := range []struct{ calculation, text, want string }{
		{"replicates", "Value kPa\n331\n", `no column for value: is it "Value kPa"? A unit after a name needs brackets: write "Value [kPa]"`},
		{"replicates", "Values of burst kPa\n331\n", `no column for value: is it "Values of burst kPa"?`},
		{"replicates", "Value 1\n331\n", `no column for value: is it "Value 1"?`},
		{"air-dry", "Mas [t]\n331\n", `no column for mass: is it "Mas"?`},
	} {
		if a := run(t, test.calculation, batch.Job{}, test.text); a.err == nil || a.err.Error() != test.want {
			t.Errorf("%q: %v\nwant %s", test.text, a.err, test.want)
		}
	}
}

// A table in which no row can give what a choice wants is refused before the first row. A
// head is suggested where its unit fits.
func TestChoiceWithoutColumns(t *testing.T) {
	const rest = ",core-diameter [mm]\nA,1,1,76\n"
	length := []calc.Pair{{Name: "length", Text: "3000 m"}}
	for _, test := range []struct {
		calculation, text string
		constants         []calc.Pair
		want, code        string
	}{
		{"grammage", "mass [g]\n0.6\n", nil, "want exactly 1 of area, (length,width), none is given; heads are mass", "choice"},
		{"grammage", "mass [g],length [mm]\n0.6,100\n", nil, "want exactly 1 of area, (length,width), given: length; heads are mass, length", "choice"},
		{"grammage", "mass [g],length [mm],breadth [mm]\n0.6,100,9\n", []calc.Pair{{Name: "width", Text: "100 mm"}}, "", ""},
		{"reel", "reel,a [mm],b [um]" + rest, nil, "want exactly 2 of length, diameter, reel-thickness, none is given; heads are reel, a, b, core-diameter", "choice"},
		{"reel", "reel,outer-diameter [mm],thickness [um]" + rest, length, `no column for diameter: is it "outer-diameter"?`, "missing"},
		{"reel", "reel,a [mm],thickness [um]" + rest, length, `no column for reel-thickness: is it "thickness"?`, "missing"},
		{"reel", "reel,a [mm],thickness" + rest, length, "want exactly 2 of length, diameter, reel-thickness, given: length; heads are reel, a, thickness, core-diameter", "choice"},
		{"reel", "reel,a [mm],reel-thickness [um]" + rest, length, "", ""},
		{"reel", "reel,thickness [um],b\nA,180,1\n", length, `no column for reel-thickness: is it "thickness"?`, "missing"}, // and no core
	} {
		a := run(t, test.calculation, batch.Job{Constants: test.constants}, test.text)
		if code, _ := calc.Code(a.err); code != test.code || fmt.Sprint(a.err) != cmp.Or(test.want, "<nil>") {
			t.Errorf("%s of %q: code %s, %v, want %s", test.calculation, test.text, code, a.err, test.want)
		}
	}
}

// An input asked for as ? reads no column, so that a table which has all of a choice is
// computed. A result whose name the table has already is told apart by the calculation,
// so that its table can be read in turn. Kind: published, area of the ring of paper; value
// of check TR-001.
func TestOneOfThreeColumns(t *testing.T) {
	const text = "length [m],diameter [mm],reel-thickness [um],core-diameter [mm]\n3534.29173529,1,345,100\n"
	a := run(t, "reel", batch.Job{Constants: []calc.Pair{{Name: "diameter", Text: "?"}}}, text)
	a.wantLines(t, map[int]string{
		1: "length [m],diameter [mm],reel-thickness [um],core-diameter [mm],length of reel [m],diameter of reel [mm],reel-thickness of reel [um],exact-layers,remark",
		2: "3534.29173529,1,345,100,3534.29,1250,345,1666.67,",
	})
	if want := []string{"asked for in every row: diameter; column 2 (diameter) is not read"}; !slices.Equal(a.totals.Assumed, want) {
		t.Errorf("told %q, want %q", a.totals.Assumed, want)
	}
	crowded := run(t, "reel", batch.Job{}, a.out)
	const much = "a row gives exactly 2 of length, diameter, reel-thickness; what is asked for as ? reads no column"
	if !slices.Contains(crowded.notes, much) || slices.Contains(a.notes, much) {
		t.Errorf("notes %q, want %q; where one is asked for: %q, want it not", crowded.notes, much, a.notes)
	}
	crowded.wantTold(t, "2: want exactly 2 of length, diameter, reel-thickness, given: length, diameter, reel-thickness")
	again := run(t, "reel", batch.Job{Constants: []calc.Pair{{Name: "length", Text: "?"}}, Columns: map[string][]string{"diameter": {"diameter of reel"}}}, a.out)
	if head := again.lines()[0]; !strings.HasSuffix(head, ",remark,length of reel 2 [m],diameter of reel 2 [mm],reel-thickness of reel 2 [um],exact-layers of reel,remark of reel") {
		t.Errorf("the heads of a table read again are %s", head)
	}
	if row := again.lines()[1]; !strings.HasSuffix(row, ",3534.29,1250,345,1666.67,") {
		t.Errorf("read again: %s", row)
	}
	again = run(t, "reel", batch.Job{Constants: []calc.Pair{{Name: "diameter", Text: "?"}}, Columns: map[string][]string{"diameter": {"diameter of reel"}}}, a.out)
	if want := `diameter "?": given as a column and as a value`; fmt.Sprint(again.err) != want {
		t.Errorf("%v, want %s", again.err, want)
	}
}

// Where rows are skipped, Totals says what they have in place of the cell that no row
// has: a hundred cells at most, each once.
func TestLack(t *testing.T) {
	grammage, _ := catalogue.Find("grammage")
	job := batch.Job{Calculation: grammage, Constants: []calc.Pair{{Name: "area", Text: "200 cm2"}}, Only: []calc.Pair{{Name: "machine", Text: "1"}, {Name: "shift", Text: "early"}}}
	many := ""
	for i := range 300 {
		many += fmt.Sprintf("2.4,1,shift %d\n", i/2)
	}
	for _, test := range []struct {
		rows  string
		only  int
		cells int
		first string
	}{
		{"2.4,2,early\n2.4,3,late\n2.4,2,late\n", 0, 2, "2"},
		{"2.4,2,early\n2.4,1,late\n2.4,3,night\n2.4,1,night\n2.4,1,late\n", 1, 2, "late"},
		{"2.4,1,late\n2.4,2,early\n", 1, 1, "late"},
		{many, 1, 100, "shift 0"},
	} {
		totals, err := job.Run(context.Background(), strings.NewReader("mass [g],machine,shift\n"+test.rows), io.Discard)
		l := totals.Lack
		if err != nil || totals.Rows != 0 || l.Only != test.only || len(l.Cells) != test.cells || l.Cells[0] != test.first ||
			len(slices.Compact(slices.Sorted(slices.Values(l.Cells)))) != test.cells {
			t.Errorf("%.60q: %v, %d rows, lacking %+v", test.rows, err, totals.Rows, l)
		}
	}
}

// An unknown head names the line above the heads, which may tell them apart.
func TestLineAbove(t *testing.T) {
	for _, test := range []struct {
		text  string
		above int
	}{
		{"force [N],grammage [g/m2]\n85,80\n", 0},
		{"MD,CD\nforce [N],grammage [g/m2]\n85,80\n", 1},
		{"a file\nMD,CD\nforce [N],grammage [g/m2]\n85,80\n", 2},
	} {
		a := run(t, "tensile", batch.Job{Columns: map[string][]string{"force": {"kraft"}}}, test.text)
		var head *batch.HeadError
		if !errors.As(a.err, &head) || head.Above != test.above {
			t.Errorf("%q: %v of line %+v, want the line above to be %d", test.text, a.err, head, test.above)
		}
	}
}

// A column of units is told: rows in another unit than that of the head are computed all
// the same. Where the rows of one unit are asked for, there is nothing to tell.
func TestColumnOfUnits(t *testing.T) {
	const text = "piece,force [N],grammage [g/m2],Unit\nA,85,80,N\nB,0.085,80,kN\n"
	const told = "column 4 (Unit) is not read: ask only for the rows of one unit, and name that in the head"
	if a := run(t, "tensile", batch.Job{}, text); a.err != nil || !slices.Contains(a.notes, told) {
		t.Errorf("%v, notes %q, want %q", a.err, a.notes, told)
	}
	a := run(t, "tensile", batch.Job{Only: []calc.Pair{{Name: "unit", Text: "N"}}}, text)
	if a.err != nil || slices.Contains(a.notes, told) || a.totals.Rows != 1 {
		t.Errorf("%v, notes %q, %d rows", a.err, a.notes, a.totals.Rows)
	}
	if a := run(t, "tensile", batch.Job{}, "United,force [N],grammage [g/m2]\nA,85,80\n"); strings.Contains(strings.Join(a.notes, "\n"), "is not read") {
		t.Errorf("notes %q", a.notes)
	}
}

// A unit that the caller gives stands for all columns of a list, and replaces one that the
// input does not take. Two units are refused, and so is one where the file has another.
func TestUnitOfTheCaller(t *testing.T) {
	columns := func(input string, heads ...string) batch.Job {
		return batch.Job{Columns: map[string][]string{input: heads}, Constants: []calc.Pair{{Name: "grammage", Text: "80 g/m2"}}}
	}
	a := run(t, "tensile", columns("force", "Force [lbf]"), "Force [lb]\n10\n-1\nx\n")
	a.wantLines(t, map[int]string{2: "10,2.97,37.1,3.78,"}) // 10 * 4.448222 N / 15 mm
	a.wantTold(t, "3:1: force is -1 lbf, want above 0 lbf", `4:1: Force "x": not a number, want a number in lbf`)
	a = run(t, "tensile", columns("force", "Force [N]"), "Force [ton]\n85\n")
	a.wantLines(t, map[int]string{2: "85,5.67,70.8,7.22,"})
	a = run(t, "tensile", columns("force", "Force [N]"), "Force\n85 %\n85 (5)\n85 ton\n")
	a.wantTold(t, `2:1: Force "85 %": "%" is no unit of force, want a number in N`,
		`3:1: Force "85 (5)": unit "(5) N": a number in brackets, want a number in N`, `4:1: Force "85 ton": "ton" is ambiguous: t, short ton or long ton, want a number in N`)
	job := batch.Job{Columns: map[string][]string{"value": {"a [N]", "b"}}}
	if a := run(t, "replicates", job, "a,b\n1,2\n"); !strings.HasPrefix(a.out, "a,b,count,mean [N],") {
		t.Errorf("head is %s", a.lines()[0])
	}
	for _, test := range []struct {
		heads        []string
		first, given string
	}{
		{[]string{"a [N]", "b [kN]"}, "a,b", `value "b [kN]": another unit than N before it`},
		{[]string{"a", "b [kN]"}, "a [N],b", `1:2: value: columns "a" and "b" have the units "N" and "kN"`},
		{[]string{"a", "b [kN]"}, "a,b [N]", `1:2: value "b [kN]": column "b" is in N, not in kN`},
	} {
		replicates, _ := catalogue.Find("replicates")
		job := batch.Job{Calculation: replicates, Columns: map[string][]string{"value": test.heads}}
		if _, err := job.Run(context.Background(), strings.NewReader(test.first+"\n1,2\n"), io.Discard); err == nil || err.Error() != test.given {
			t.Errorf("%q of %q: %v, want %s", test.heads, test.first, err, test.given)
		}
	}
}

// An input that is solved for is printed in the unit asked for, wherever the output stands
// from which it is.
func TestUnitOfWhatIsSolvedFor(t *testing.T) {
	for _, job := range []batch.Job{
		{Columns: map[string][]string{"tensile-strength": {"S"}}},
		{Constants: []calc.Pair{{Name: "tensile-strength", Text: "4 kN/m"}}},
	} {
		job.Units = map[string]string{"force": "kN"}
		a := run(t, "tensile", job, "S [kN/m],strip-width [mm],grammage [g/m2]\n4,25,100\n")
		a.wantLines(t, map[int]string{2: "4,25,100,0.1,4.00,40.0,4.08,"}) // 4 N/mm * 25 mm
		if !strings.Contains(a.out, ",force [kN],") {
			t.Errorf("heads %s", a.lines()[0])
		}
	}
}

// What held for every row is said: nobody finds it in the results.
func TestWhatHeldForEveryRow(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	job := batch.Job{Calculation: tensile, Constants: []calc.Pair{{Name: "grammage", Text: "80 g/m2"}}}
	var out bytes.Buffer
	totals, err := job.Run(context.Background(), strings.NewReader("force [N]\n85\n"), &out)
	if got := strings.Join(totals.Assumed, "; "); err != nil || got != "given for every row: grammage 80 g/m2; default in every row: strip-width 15 mm; default in every row: gravity 9.80665 m/s2" {
		t.Errorf("assumed %q, %v", got, err)
	}
}

// Groups of which no row could be computed are in the summary all the same, and
// it is written as the table is.
func TestSummaryTellsWhatIsLeftOut(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	job := batch.Job{Calculation: tensile, By: []string{"piece"}, Constants: []calc.Pair{{Name: "grammage", Text: "80 g/m2"}}}
	var out, summary bytes.Buffer
	totals, err := job.Run(context.Background(), strings.NewReader("piece;force [N]\nA;85,5\nA;n/a\nB;overload\n"), &out)
	if err != nil {
		t.Fatal(err)
	}
	if err := totals.WriteSummary(&summary, job.By, 0.95); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(summary.String(), "\n")
	for i, want := range map[int]string{
		1: "A;tensile-strength;1;1;5,7;;;;;;kN/m;5,70;",
		4: "B;tensile-strength;0;1;;;;;;;;;",
	} {
		if !strings.HasPrefix(lines[i], want) {
			t.Errorf("line %d is %q, want %q", i+1, lines[i], want)
		}
	}
}

// What a flag overrides, what a list lacks and who is no footer.
func TestNothingInSilence(t *testing.T) {
	for _, test := range []struct {
		calculation string
		job         batch.Job
		text, want  string
		assumed     string
	}{
		{"cobb", batch.Job{Constants: []calc.Pair{{Name: "area", Text: "10 cm2"}, {Name: "time", Text: "60 s"}}},
			"mass-in [g],mass-out [g],area [cm2]\n1.2,1.4,100\n", "1.2,1.4,100,200,\n",
			"given for every row: area 10 cm2; column 3 (area) is not read; given for every row: time 60 s"},
		{"replicates", batch.Job{Columns: map[string][]string{"value": {"a", "b", "c"}}, Constants: []calc.Pair{{Name: "confidence", Text: "95 %"}}},
			"a [N],b [N],c [N]\n1,,3\n", "warning: reading-missing\n", "given for every row: confidence 95 %"},
		{"dilution", batch.Job{Constants: []calc.Pair{{Name: "water-flow", Text: "1200 t/h"}}}, "mass-flow [t/h],consistency-in [%]\n300,4.6\n", "water-flow [t/h],mass-flow-out [t/h],dry-flow-out [t/h],remark\n300,4.6,0.92,1200,1500,13.8,\n",
			"given for every row: water-flow 1200 t/h; default in every row: water-consistency 0 %"},
		// A column of an output: 300 t/h at 4.6 % are 13.8 t/h of fibre.
		{"dilution", batch.Job{Columns: map[string][]string{"water-flow": {"wanted [t/h]"}}}, "mass-flow [t/h],consistency-in [%],wanted\n300,4.6,1200\n300,4.6,\"1,080\"\n300,4.6,\n300,4.6,-1\n300,4.6,much\n",
			"wanted,consistency-out [%],water-flow [t/h],mass-flow-out [t/h],dry-flow-out [t/h],remark\n300,4.6,1200,0.92,1200,1500,13.8,\n300,4.6,\"1,080\",1,1080,1380,13.8,\n" +
				"300,4.6,,,,,,\"wanted: no reading, want a number in t/h\"\n300,4.6,-1,,,,,no consistency-out between 0 % and 100 % gives water-flow -1 t/h\n" +
				"300,4.6,much,,,,,\"wanted \"\"much\"\": not a number, want a number in t/h\"\n",
			"default in every row: water-consistency 0 %"},
		{"dilution", batch.Job{Columns: map[string][]string{"water-flow": {"w"}}, Constants: []calc.Pair{{Name: "mass-flow", Text: "?"}, {Name: "water-consistency", Text: "0.1 %"}}},
			"consistency-in [%];consistency-out [%];w [t/h]\n4,6;1;1200\n", "4,6;1;1200;300;1200;1500;15;\n", "given for every row: water-consistency 0.1 %"},
		{"dilution", batch.Job{Columns: map[string][]string{"water-flow": {"w"}}, Constants: []calc.Pair{{Name: "water-consistency", Text: "?"}}},
			"mass-flow [t/h];consistency-in [%];consistency-out [%];w [t/h]\n300;4,6;1;1200\n", "300;4,6;1;1200;0,1;1200;1500;15;\n", ""},
		{"reel-mass", batch.Job{Constants: []calc.Pair{{Name: "mass", Text: "2000 kg"}, {Name: "reel-thickness", Text: "?"}, {Name: "core-diameter", Text: "100 mm"}, {Name: "grammage", Text: "120 g/m2"}}},
			"diameter [mm],reel-width [m]\n1200,2.4\n,2.4\n", "reel-thickness [um],length [m],diameter of reel-mass [mm],mass [kg],roll-density [kg/m3],remark\n" +
				"1200,2.4,161.729,6944.44,1200,2000,741.981,\n" +
				",2.4,,,,,,\"want exactly 2 of length, diameter, reel-thickness, given: reel-thickness\"\n",
			"given for every row: core-diameter 100 mm; given for every row: grammage 120 g/m2; given for every row: mass 2000 kg"},
		// 2500/(5.87*sqrt(1.2*0.004)) N/m over 175.126835 N/m (by hand)
		{"box-compression", batch.Job{Constants: []calc.Pair{{Name: "box-compression", Text: "2500 N"}}, Units: map[string]string{"edge-crush": "lbf/in"}},
			"thickness [mm],perimeter [m]\n4,1.2\n", "edge-crush [lbf/in],box-compression [N],remark\n4,1.2,35.1017,2500,\n", "given for every row: box-compression 2500 N; default in every row: constant 5.87; default in every row: perimeter-exponent 0.5"},
		// What is given for every row holds for each member of a lot.
		{"bale-lot", batch.Job{Lot: "lot", Constants: []calc.Pair{{Name: "moisture", Text: "10 %"}}}, "lot,mass [kg]\nL1,612\nL1,588\nL2,600\n",
			"L1,2,1200,10,1080,\nL2,1,600,10,540,\n", "given for every row: moisture 10 %"},
		{"bale-lot", batch.Job{Lot: "lot", Constants: []calc.Pair{{Name: "mass", Text: "600 kg"}}}, "lot,moisture [%]\nL1,10\nL1,20\n",
			"L1,2,1200,15,1020,\n", "given for every row: mass 600 kg"},
		{"sets", batch.Job{Constants: []calc.Pair{{Name: "rest-length", Text: "100 m"}}}, "reel-length [m]\n10000\n", "10000,10100,1,100,warning: several-roots\n",
			"given for every row: rest-length 100 m; default in every row: lost-length 0 m"},
		{"production", batch.Job{NoFooters: true}, "grade,grammage [g/m2],sheet-width [m],speed [m/min]\nMean,100,6,1000\n", "Mean,100,6,1000,36,360000,\n", ""},
	} {
		c, _ := catalogue.Find(test.calculation)
		test.job.Calculation = c
		var out bytes.Buffer
		totals, err := test.job.Run(context.Background(), strings.NewReader(test.text), &out)
		if err != nil || !strings.HasSuffix(out.String(), test.want) || strings.Join(totals.Assumed, "; ") != test.assumed {
			t.Errorf("%s: %v, assumed %q, written\n%swant at the end\n%s", test.calculation, err, totals.Assumed, out.String(), test.want)
		}
	}
}

// Results in the units that a job asks for, in rows and summary. By hand
// (common-practice): 4 and 4.4 kN/m over 0.1751268 kN/m are 22.8406 and 25.1247 lbf/in,
// s = 0.282843/0.1751268; 3 figures are 3 in any unit, a step of 0.1 % is none of g/g;
// 50 and 60 degC are 122 and 140 degF, and differ by 18 degF: s = 18/sqrt 2.
func TestUnits(t *testing.T) {
	for _, test := range []struct {
		calculation string
		units       map[string]string
		text, out   string
		summary     string
	}{
		{"tensile", map[string]string{"tensile-strength": "lbf/in", "breaking-length": "m"}, "force [N],grammage [g/m2]\n60,100\n66,100\n",
			"force [N],grammage [g/m2],tensile-strength [lbf/in],tensile-index [kN.m/kg],breaking-length [m],remark\n60,100,22.8,40.0,4080,\n66,100,25.1,44.0,4490,\n",
			"tensile-strength,2,0,23.9826,1.61507,6.73435,9.47176,38.4935,95,lbf/in,24.0,\"3 significant figures"},
		{"moisture", map[string]string{"moisture": "g/g"}, "moist-mass [g],dry-mass [g]\n5,4.62\n5,4.62\n",
			"moist-mass [g],dry-mass [g],moisture [g/g],dryness [%],moisture-ratio [kg/kg],remark\n5,4.62,0.076,92.4,0.0822511,\n5,4.62,0.076,92.4,0.0822511,\n",
			"moisture,2,0,0.076,0,0,0.076,0.076,95,g/g,,\n"},
		{"mixing-temperature", map[string]string{"temperature-out": "degF"}, "mass-flow [t/h],consistency [%],temperature [degC],fibre-heat-capacity [kJ/(kg K)]\n1,0,50,1.4\n1,0,60,1.4\n",
			"mass-flow [t/h],consistency [%],temperature [degC],fibre-heat-capacity [kJ/(kg K)],temperature-out [degF],mass-flow-out [t/h],consistency-out [%],remark\n1,0,50,1.4,122,1,0,\n1,0,60,1.4,140,1,0,\n",
			"temperature-out,2,0,131,12.7279,"},
		{"round", nil, "value [degC],step [K],tie\n20.4,1,even\n", "value [degC],step [K],tie,reported [degC],remark\n20.4,1,even,20,\n", ""},
		{"expanded-uncertainty", nil, "standard-uncertainty [K],degrees-of-freedom\n1,1\n-1,1\n",
			"standard-uncertainty [K],degrees-of-freedom,coverage-factor,expanded-uncertainty [K],remark\n1,1,12.7062,12.7062,\n" +
				"-1,1,,,\"standard-uncertainty is -1 K, want at least 0 K\"\n", "coverage-factor,1,1,12.7062,"},
		{"price-as-received", nil, "dry-price [EUR/t],moisture [%]\n100,40\n20 1/t,50\n50 USD/t,40\n",
			"dry-price [EUR/t],moisture [%],price [EUR/t],remark\n100,40,60,\n20 1/t,50,10,\n" +
				"50 USD/t,40,,\"dry-price \"\"50 USD/t\"\": USD/t and EUR/t are prices in two currencies: one cannot be converted into the other, want a number in EUR/t\"\n",
			"price,2,1,35,35.3553,"},
	} {
		a := run(t, test.calculation, batch.Job{Units: test.units, Together: true}, test.text)
		if a.err != nil || a.out != test.out {
			t.Errorf("%s: %v, written\n%swant\n%s", test.calculation, a.err, a.out, test.out)
		}
		var summary bytes.Buffer
		if err := a.totals.WriteSummary(&summary, nil, 0.95); err != nil {
			t.Fatal(err)
		}
		if _, got, _ := strings.Cut(summary.String(), "\n"); !strings.HasPrefix(got, test.summary) {
			t.Errorf("%s: summarised as\n%swant\n%s", test.calculation, got, test.summary)
		}
	}
}

// What computing leaves behind the last digits is no spread; a spread that a coefficient
// of variation shows is one. By hand (common-practice): 0.28 g on 100 cm² is 28 g/m²;
// 120 and 120.0000001 g/m² lie 7.07e-8 g/m² about their mean.
func TestSpreadOfNothing(t *testing.T) {
	for _, test := range []struct{ calculation, text, want string }{
		{"cobb", "mass-in [g],mass-out [g],time [s]\n1.18,1.46,60\n1.19,1.47,60\n", "cobb,2,0,28,0,0,28,28,95,g/m2,"},
		// 1.4e-10 of the mean is more than rounding leaves, 1.4e-12 may be what it leaves, of large numbers too.
		{"grammage", "mass [g],area [cm2]\n2.4,200\n2.40000000048,200\n", "grammage,2,0,120,1.69706e-08,1e-08,120,120,95,g/m2,"},
		{"grammage", "mass [g],area [cm2]\n24000,200\n24000.0000000480,200\n", "grammage,2,0,1200000,0,0,1200000,1200000,95,g/m2,"},
		{"grammage", "mass [g],area [cm2]\n2.4,200\n2.400000002,200\n", "grammage,2,0,120,7.07107e-08,6e-08,120,120,95,g/m2,"},
	} {
		a := run(t, test.calculation, batch.Job{Together: true}, test.text)
		var summary bytes.Buffer
		if err := a.totals.WriteSummary(&summary, nil, 0.95); err != nil || a.err != nil {
			t.Fatal(err, a.err)
		}
		if _, got, _ := strings.Cut(summary.String(), "\n"); !strings.HasPrefix(got, test.want) {
			t.Errorf("%s: summarised as\n%swant\n%s", test.calculation, got, test.want)
		}
	}
}

// A row is solved from one number of one output, and a lot not at all.
func TestTargetsRefused(t *testing.T) {
	const table = "mass-flow [t/h],consistency-in [%],water-flow [t/h],mass-flow-out [t/h],consistency-out [%]\n300,4.6,1200,1500,1\n"
	water := map[string][]string{"water-flow": {"water-flow"}}
	for _, test := range []struct {
		calculation string
		job         batch.Job
		text, want  string
	}{
		{"dilution", batch.Job{Columns: water}, table,
			`water-flow "water-flow": an output, and no required input is left out: leave one out, or give the one asked for as ?`},
		{"dilution", batch.Job{Columns: water}, "mass-flow [t/h],water-flow [t/h]\n300,1200\n",
			`water-flow "water-flow": an output, from which one input is solved for, and consistency-in, consistency-out have no column and no value`},
		{"dilution", batch.Job{Columns: map[string][]string{"water-flow": {"water-flow"}, "mass-flow-out": {"mass-flow-out"}}}, table,
			`water-flow "water-flow": is an output, and so is mass-flow-out: a row is solved from one`},
		{"dilution", batch.Job{Columns: water, Constants: []calc.Pair{{Name: "mass-flow-out", Text: "1500 t/h"}}}, table,
			`water-flow "water-flow": is an output, and so is mass-flow-out: a row is solved from one`},
		{"dilution", batch.Job{Columns: map[string][]string{"mass-flow-out": {"mass-flow-out"}}, Constants: []calc.Pair{{Name: "water-flow", Text: "1200 t/h"}}}, table,
			`mass-flow-out "mass-flow-out": is an output, and so is water-flow: a row is solved from one`},
		{"dilution", batch.Job{Columns: water, Constants: []calc.Pair{{Name: "water-flow", Text: "1500 t/h"}}}, table,
			`water-flow "1500 t/h": given as a column and as a value`},
		{"dilution", batch.Job{Columns: map[string][]string{"water-flow": {"water-flow", "mass-flow-out"}}}, table,
			`water-flow "water-flow, mass-flow-out": takes one column, not 2`},
		{"dilution", batch.Job{Columns: map[string][]string{"water": {"water-flow"}}}, table, `dilution has no input or output "water", near: water-flow, water-consistency`},
		{"blend", batch.Job{Columns: map[string][]string{"dry-share": {"s"}}}, "mass-flow [t/h],s\n1,2\n",
			`dry-share "s": is an output that is not one number: nothing can be solved from it`},
		{"bale-lot", batch.Job{Lot: "lot", Columns: map[string][]string{"lot-mass": {"m"}}}, "lot,mass [kg],m\nL1,612,3\n", `lot-mass "m": is an output: a lot is not solved for an input`},
	} {
		c, _ := catalogue.Find(test.calculation)
		test.job.Calculation = c
		_, err := test.job.Run(context.Background(), strings.NewReader(test.text), io.Discard)
		if err == nil || err.Error() != test.want {
			t.Errorf("%s:\n got %v\nwant %s", test.calculation, err, test.want)
		}
	}
	c, _ := catalogue.Find("dilution")
	job := batch.Job{Calculation: c}
	_, err := job.Run(context.Background(), strings.NewReader("mass-flow [t/h],consistency-in [%],water-flow [t/h]\n300,4.6,1200\n"), io.Discard)
	if unbound := (*batch.UnboundError)(nil); !errors.As(err, &unbound) || unbound.Output != "water-flow" || unbound.Input != "consistency-out" {
		t.Errorf("a head that is called as an output: %v", err)
	}
}

// Where the columns give one input of a choice too many, rows are solved for the input
// that has none. Kind: published, area of the ring of paper; value of check TR-001.
func TestSurplusColumn(t *testing.T) {
	const head = "length [m],diameter [mm],reel-thickness [um]"
	const rows = "\n3534.29173529,1250,345\n,1250,345\n3534.29173529,1250,345\n"
	for _, test := range []struct {
		text      string
		constants []calc.Pair
	}{
		{head + rows, nil},
		{strings.ReplaceAll(head+rows, "reel-thickness [um]", "layer [um]"), []calc.Pair{{Name: "reel-thickness", Text: "345 um"}}},
	} {
		a := run(t, "reel", batch.Job{Constants: test.constants}, test.text)
		if a.err != nil || !slices.Contains(a.notes, "solved for in each row: core-diameter") {
			t.Errorf("%v, notes %q", a.err, a.notes)
		}
		a.wantTotals(t, 3, 2, 1, 0)
		for i, want := range []string{head + ",core-diameter [mm],", "3534.29173529,1250,345,100,", `,1250,345,,,,,,"core-diameter is missing,`, "3534.29173529,1250,345,100,"} {
			if got := strings.ReplaceAll(a.lines()[i], "layer", "reel-thickness"); !strings.HasPrefix(got, want) {
				t.Errorf("line %d is %s, want %s", i+1, got, want)
			}
		}
	}
	c, _ := catalogue.Find("reel")
	job := batch.Job{Calculation: c, Lot: "lot"}
	_, err := job.Run(context.Background(), strings.NewReader("lot,"+head+"\nA,3534.29173529,1250,345\n"), io.Discard)
	if unbound := (*batch.UnboundError)(nil); !errors.As(err, &unbound) || unbound.Input != "core-diameter" {
		t.Errorf("a lot: %v, want that core-diameter has no column", err)
	}
}

// A value of any unit is a number alone under a head without brackets, and a note says
// so where the head ends in what may be a unit.
func TestUnitWithoutBrackets(t *testing.T) {
	for _, test := range []struct {
		head, column, note, unit string
	}{
		{"Burst strength kPa", "Burst strength kPa", `value: column 2 (Burst strength kPa), without a unit: one after a name needs brackets, "Burst strength [kPa]"`, ""},
		{"R457 %", "R457 %", `value: column 2 (R457 %), without a unit: one after a name needs brackets, "R457 [%]"`, ""},
		{"Burst strength kPa", "Burst strength kPa [kPa]", "value: column 2 (Burst strength kPa) in kPa", " [kPa]"},
		{"Burst strength [kPa]", "Burst strength", "value: column 2 (Burst strength) in kPa", " [kPa]"},
		{"Laboratory A", "Laboratory A", "value: column 2 (Laboratory A)", ""},
		{"Burst", "Burst", "value: column 2 (Burst)", ""},
		{"Burst strength", "Burst strength", "value: column 2 (Burst strength)", ""},
		{"Burst 1", "Burst 1", "value: column 2 (Burst 1)", ""},
	} {
		job := batch.Job{Columns: map[string][]string{"value": {test.column}}, Lot: "Sample"}
		a := run(t, "replicates", job, "Sample;"+test.head+"\nA;331\nA;329\n")
		if a.err != nil || !slices.Contains(a.notes, test.note) || !strings.HasPrefix(a.out, "Sample;rows;count;mean"+test.unit+";") {
			t.Errorf("%s: %v, notes %q, want %q; heads %s", test.head, a.err, a.notes, test.note, a.lines()[0])
		}
	}
}

// Who wants the mean of a column and names no lot gets the mean of each cell, and a note.
func TestListInEachCell(t *testing.T) {
	const told = ": a list in each cell, as no lot joins rows"
	for _, test := range []struct {
		calculation, text, lot, note string
	}{
		{"replicates", "sample,value [kPa]\nA,331\n", "", "value: column 2 (value) in kPa" + told},
		{"replicates", "sample,value [kPa]\nA,331\n", "sample", "value: column 2 (value) in kPa"},
		{"cobb", "mass-in [g],mass-out [g],time [s]\n1,2,60\n", "", "mass-in: column 1 (mass-in) in g"},
	} {
		a := run(t, test.calculation, batch.Job{Lot: test.lot}, test.text)
		if a.err != nil || !slices.Contains(a.notes, test.note) {
			t.Errorf("%s, lot %q: %v, notes %q, want %q", test.calculation, test.lot, a.err, a.notes, test.note)
		}
	}
}
