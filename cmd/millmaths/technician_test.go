package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What a technician asks of files that are not as one would like them.
func TestFilesAsTheyAre(t *testing.T) {
	pieces := "piece;Kraft;g\nA;1 234,5;100\nA;1'034,5;100\nB;900;100\n"
	for _, test := range []struct {
		name, table string
		args        []string
		out, err    []string
	}{
		{"units named on the command line, thousands parted by blanks", pieces,
			[]string{"batch", "tensile", "--column", "force=Kraft [N]", "--column", "grammage=g [g/m2]"},
			[]string{"A;1 234,5;100;82,3;823;83,9;\n", "A;1'034,5;100;69,0;"}, []string{"3 rows = 3 computed + 0 reported"}},
		{"a head with a comma", "\"Moist mass, g\",\"Dry mass, g\"\n5,4.5\n",
			[]string{"batch", "moisture", "--column", "moist-mass=Moist mass, g [g], dry-mass=Dry mass, g [g]"},
			[]string{"5,4.5,10.0,"}, []string{"moist-mass: column 1 (Moist mass) in g", "dry-mass: column 2 (Dry mass) in g"}},
		{"heads of --column under a preamble", "Report\n\nStück;Masse / g;Fläche / cm2\nA;27,17;699;junk\nB;2,5;500\n",
			[]string{"batch", "grammage", "--column", "mass=Masse", "--column", "area=Fläche"},
			[]string{"B;2,5;500;50,0;"}, []string{"lines 1 to 2: preamble", "2 rows = 1 computed + 1 reported"}},
		{"a head with a comma between semicolons", "Moist mass, g;Dry mass, g\n5;4,5\n",
			[]string{"batch", "moisture", "--column", "moist-mass=Moist mass, g[g]", "--column", "dry-mass=dry_mass, g [g]"},
			[]string{"5;4,5;10,0;"}, nil},
		{"heads of a list, of which one has a comma", "a [mm];b, c [mm];d [mm]\n1;2;3\n",
			[]string{"batch", "replicates", "--column", "value=a,b, c,d"}, []string{"1;2;3;3;2;1;"}, []string{"value: column 1 (a), 2 (b, c), 3 (d) in mm"}},
		{"a head with a sign of equality behind its comma", "force, x=2 [N];grammage [g/m2]\n60;100\n",
			[]string{"batch", "tensile", "--column", "force=force, x=2"}, []string{"60;100;4.00;"}, nil},
		{"units behind a stroke or a word", "piece;Force / N;Grammage in g/m2;made in May\nA;60;100;x\n", []string{"batch", "tensile"},
			[]string{"A;60;100;x;4.00;40.0;4.08;\n"}, []string{"force: column 2 (Force) in N", "(made in May)"}},
		{"heads of --column as they are written", "piece;Kraft (N);Fl.-gew. / g/m2\nA;60;100\n",
			[]string{"batch", "tensile", "--column", "force=Kraft (N),grammage=Fl.-gew. / g/m2"},
			[]string{"A;60;100;4.00;40.0;4.08;\n"}, []string{"force: column 2 (Kraft) in N", "grammage: column 3 (Fl.-gew.) in g/m2"}},
		{"rows of one piece", pieces,
			[]string{"batch", "tensile", "--column", "force=Kraft [N],grammage=g [g/m2]", "--only", "piece=A", "--summary", "markdown"},
			[]string{", piece A: 2 rows, 2 computed", "| tensile-strength | 2 | 0 | 75.6333 kN/m |"}, []string{"1 row besides, not asked for"}},
		{"results in other units", pieces,
			[]string{"batch", "tensile", "--column", "force=Kraft [N],grammage=g [g/m2]", "--unit", "tensile-strength=lbf/in", "--unit", "breaking-length=m"},
			[]string{"tensile-strength [lbf/in];tensile-index [kN.m/kg];breaking-length [m];remark\nA;1 234,5;100;470;823;83900;\n"}, // 82.3 kN/m over 0.1751268
			[]string{"tensile-strength is reported to 3 significant figures"}},
		{"rows of one piece and side", "piece,side,force [N],grammage [g/m2]\nA,top,60,100\nA,wire,66,100\nB,top,90,120\n",
			[]string{"batch", "tensile", "--only", "piece=A, Side=top", "--summary", "markdown"},
			[]string{", piece A, Side top: 1 row, 1 computed"}, []string{"2 rows besides, not asked for"}},
		{"rows of a cell with a comma", "\"piece, no\",force [N],grammage [g/m2]\n\"A, x=1\",60,100\n\"A\",66,100\n",
			[]string{"batch", "tensile", "--only", "piece, no=A, x=1"}, []string{"\"A, x=1\",60,100,4.00,"}, []string{"1 row besides, not asked for"}},
		{"words are counted", "value [kN/m],limit [kN/m]\n2.3,2.2\n2.1,2.2\n2.4,2.2\n",
			[]string{"batch", "conformity-absolute", "--side", "at-least", "--summary", "markdown"},
			[]string{"| verdict | 3 | 0 |  |  |  | 2 pass, 1 fail |"}, nil},
		{"all rows are one list", "x [%],y [%]\n1,2\n2,4.1\n3,5.9\n",
			[]string{"batch", "line-fit", "--lot", "*"}, []string{"all rows,3,"}, []string{"3 rows = 3 used in a lot"}},
		{"positions of a chart count the readings that are there", "shift,moisture [%]\n1,8.0\n2,\n3,8.1\n4,8.0\n5,8.1\n6,8.0\n7,8.1\n8,9.5\n9,8.0\n10,8.1\n11,8.0\n12,8.1\n",
			[]string{"batch", "control-chart", "--column", "value=moisture", "--lot", "*"}, []string{",[7],1 of 12 rows not used\n"}, []string{"12 rows = 11 used in a lot + 1 reported"}},
	} {
		r := called(test.table, test.args...)
		for _, want := range test.out {
			if !strings.Contains(r.Out, want) {
				t.Errorf("%s: no %q in\n%s%s", test.name, want, r.Out, r.Err)
			}
		}
		for _, want := range test.err {
			if !strings.Contains(r.Err, want) {
				t.Errorf("%s: no %q in\n%s", test.name, want, r.Err)
			}
		}
	}
}

func TestColumnsOfATable(t *testing.T) {
	file := filepath.Join(t.TempDir(), "cal.csv")
	if err := os.WriteFile(file, []byte("lab [%];meter [%]\n2,1;2,0\n2,9;2,85\n3,8;3,75\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	r := called("", "line-fit", "--x", "@"+file+":lab", "--y", "@"+file+":meter")
	if r.Status != done || !strings.Contains(r.Out, "slope                  1.0288\n") {
		t.Errorf("exit %d:\n%s%s", r.Status, r.Out, r.Err)
	}
	if r := called("", "line-fit", "--x", "@"+file+":paper", "--y", "@"+file+":meter"); r.Status != failed || !strings.Contains(r.Err, "heads are lab, meter") {
		t.Errorf("exit %d: %s", r.Status, r.Err)
	}
}

// A tool reads a table as it is, or is told how, and says where a row stands
// that it can't take and what it leaves out.
func TestTablesOfTools(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"either.csv": "lab;r1 [kN/m];r2 [kN/m]\nA;2.312;2.245\nB;2.193;2.272\n",
		"gap.csv":    "lab;r1 [kN/m];r2 [kN/m];r3 [kN/m]\nA;2,31;2,24;2,42\nB;2,19;n.a.;2,27\nC;2,40;;2,36\n",
		"empty.csv":  "",
		"mean.csv":   "piece,x [N]\nA,1\nB,3\nMean,2\n",
		"one.csv":    "lab;r1/(kN/m);r2/(kN/m)\nA;2,31;2,24\nB;2,19;\n",
		"scans.csv":  "scan,p1 [g/m2],p2 [g/m2],p3 [g/m2]\n1,120.1,121.2,120.3\n\n2,120.3,-,120.2\n3,120.2,121,120.9\n",
	} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	const absent = " is absent: of each laboratory, between; only where all have the same number of results, 2 or more, and these scatter\n"
	for _, test := range []struct {
		command  string
		status   int
		out, err string // parts of them
	}{
		{`precision --result @either.csv --factor 2.8`, failed, "",
			"want --decimal point or --decimal comma\n"},
		{`precision --result @either.csv --factor 2.8 --decimal point`, done, "mean                       2.2555 kN/m\n", "decimal sign: point, as given"},
		{`precision --decimal=comma --result @either.csv --factor 2.8`, done, "mean                       2255.5 kN/m\n", "decimal sign: comma, as given"},
		{`precision --result @either.csv --factor 2.8 --decimal dot`, misused, "", `--decimal is "dot", want comma or point`},
		{`precision --result @either.csv --factor 2.8 --head-line two`, misused, "", `precision: --head-line "two": `},
		{`precision --result @gap.csv --factor 2.8`, done, "mean                       2.31286 kN/m\n",
			"gap.csv: row 2: 2 results, 1 missing and left out\ngap.csv: row 3: 2 results, 1 missing and left out\nh" + absent},
		{`precision --result @gap.csv --factor 2.8`, done, "", "\nk" + strings.Replace(absent, "between", "within", 1)},
		{`precision --result @one.csv --factor 2.8`, done, "mean                       2.24667 kN/m\n", "one.csv: row 2: 1 result, 1 missing and left out\n"},
		{`profile --scan @scans.csv`, failed, "", "millmaths: scans.csv:4: scan: scan 2, position 2: missing amid others, leave out the scan\n"},
		{`replicates --value @mean.csv:x`, done, "count                     2\n", "mean.csv: footer, not counted: line 4 \"Mean\"\n"},
		{`propagate --model y=2*a --method first-order --a @either.csv:r1 --decimal point`, done, "y        4.505 kN/m\n", ""},
		{`propagate --model y=2*decimal --method first-order --decimal "3 ± 0.1 g"`, done, "u(y)           0.2 g\n", ""},
		{`replicates --value @gap.csv:r2`, failed, "",
			`gap.csv:3:3: r2 "n.a.": no reading, want a number in each row of a list; millmaths batch with --lot "*" makes one list of the rows that have one` + "\n"},
		{`replicates --value @empty.csv:x`, failed, "", "empty.csv: nothing in it, want a line of heads and rows under it\n"},
		{`replicates --value @either.csv:r1`, failed, "",
			`want --decimal point or --decimal comma; --decimal is a flag of millmaths batch, where --lot "*" makes one list of all rows` + "\n"},
	} {
		r := called("", words(test.command)...)
		if r.Status != test.status || !strings.Contains(r.Out, test.out) || !strings.Contains(r.Err, test.err) {
			t.Errorf("%s: exit %d\n%s%s\nwant exit %d, %q and %q", test.command, r.Status, r.Out, r.Err, test.status, test.out, test.err)
		}
	}
	for name, want := range map[string]string{"precision": "or @FILE: of its", "profile": "or @FILE: of its", "propagate": "or @FILE:HEAD for a"} {
		if help := called("", name, "--help").Out; !strings.Contains(help, want) || !strings.Contains(help, "\n  --decimal ") {
			t.Errorf("%s --help does not tell of @FILE:\n%s", name, help)
		}
	}
}

// A step has no slope: nobody is told that a number of layers is certain.
func TestStepsHaveNoUncertainty(t *testing.T) {
	r := called("", "stacking", "--box-compression", "2063.73 ± 100 N", "--mass", "8.4 kg", "--layers", "6", "--multiplier", "[0.6 0.68 0.5]")
	if !strings.Contains(r.Out, "most-layers       6          moves in steps") {
		t.Errorf("got\n%s", r.Out)
	}
	if !strings.HasPrefix(r.Err, "caution: ") {
		t.Errorf("no caution:\n%s", r.Err)
	}
}

func TestToolsTakeJSON(t *testing.T) {
	r := called(`{"model":"y=a*b","method":"first-order","a":{"value":2,"u":0.1},"b":"3"}
{"model":"y=a*b","method":"first-order","a":"2","c":"3"}
`, "batch", "propagate", "--jsonl")
	lines := strings.Split(r.Out, "\n")
	if r.Status != failed || len(lines) != 3 || !strings.Contains(lines[0], `"u(y)":{"value":0.3`) || !strings.Contains(lines[1], `"error":{"code":"name","line":2,"input":"c"`) {
		t.Errorf("exit %d:\n%s%s", r.Status, r.Out, r.Err)
	}
}

// A step of one unit is none of another, and what is not asked for aright is said.
func TestUnitsOfABatch(t *testing.T) {
	const table = "moist-mass [g],dry-mass [g]\n5,4.62\n"
	if r := called(table, "batch", "moisture", "--unit", "moisture=g/g"); !strings.Contains(r.Out, "5,4.62,0.076,") || strings.Contains(r.Err, "moisture is reported") {
		t.Errorf("got\n%s%s", r.Out, r.Err)
	}
	for _, test := range []struct{ units, want string }{
		{"moisture", "millmaths: --unit moisture, want OUTPUT=UNIT\n"},
		{"moisture=% moisture=g/g", "millmaths: --unit moisture=g/g, but moisture is asked for in % already\n"},
		{"moistur=%", "millmaths: moisture has no input or output \"moistur\", near: moisture, moisture-ratio\n"},
	} {
		args := []string{"batch", "moisture"}
		for _, unit := range strings.Fields(test.units) {
			args = append(args, "--unit", unit)
		}
		if r := called(table, args...); r.Status != misused || !strings.HasSuffix(r.Err, test.want) {
			t.Errorf("%s: exit %d, %q, want %q", test.units, r.Status, r.Err, test.want)
		}
	}
}

// A tool takes no table, and says where its own help is before a file is opened.
func TestToolsTakeNoTable(t *testing.T) {
	for _, args := range [][]string{{"precision", "--help"}, {"convert", "-h", "--jsonl"}, {"profile", "no-such-file.csv"}} {
		r := called("", append([]string{"batch"}, args...)...)
		want := "millmaths: " + args[0] + " is a tool and takes no table: see millmaths " + args[0] + " --help; batch " + args[0] + " --jsonl takes one JSON object per line\n"
		if r.Status != failed || r.Out != "" || r.Err != want {
			t.Errorf("batch %v: exit %d, %q, want %q", args, r.Status, r.Err, want)
		}
	}
}

// A flag that would do nothing beside another is refused, and so is a second value where
// only one is taken.
func TestBatchFlagsThatDoNotFit(t *testing.T) {
	for _, test := range []struct{ flags, want string }{
		{"--interval 90", "--interval is of a summary of rows: give --by HEAD or --summary, or leave it out"},
		{"--interval 90 --lot piece", "--interval is of a summary of rows: give --by HEAD or --summary, or leave it out"},
		{"--interval 90 --lot piece --summary markdown", "--interval is of a summary of rows: give --by HEAD or --summary, or leave it out"},
		{"--full --by piece --summary markdown", "want one of --full, which is for rows, and --summary markdown, which is for people"},
		{"--lot piece --lot day", `batch tensile: --lot "day": given twice: "piece" and "day", want one`},
		{"--jsonl --interval 90", "--interval is for tables: --jsonl takes objects, and answers with all digits"},
		{"--jsonl --workers 2", "--workers is for tables: --jsonl takes objects, and answers with all digits"},
	} {
		r := called("piece,force [N],grammage [g/m2]\nA,60,100\n", append([]string{"batch", "tensile"}, words(test.flags)...)...)
		if r.Status != misused || r.Out != "" || r.Err != "millmaths: "+test.want+"\n" {
			t.Errorf("batch tensile %s: exit %d, %s%s, want %s", test.flags, r.Status, r.Out, r.Err, test.want)
		}
	}
	for _, flags := range []string{"--interval 90 --by piece", "--interval 90 --summary json", "--full --summary json", "--full --by piece --summary markdown --out " + filepath.Join(t.TempDir(), "rows.csv")} {
		r := called("piece,force [N],grammage [g/m2]\nA,60,100\nA,61,100\n", append([]string{"batch", "tensile"}, words(flags)...)...)
		if r.Status != done {
			t.Errorf("batch tensile %s: exit %d, %s", flags, r.Status, r.Err)
		}
	}
}

// Where no row is asked for there is nothing to certify.
func TestNoRowAskedFor(t *testing.T) {
	const table = "piece,force [N],grammage [g/m2]\nA,60,100\nB,60,100\n"
	for _, form := range []string{"markdown", "json"} {
		r := called(table, "batch", "tensile", "--only", "piece=C,force=60", "--summary", form, "--quiet")
		if want := "millmaths: standard input: no row of 2 has the cells that --only asks for, piece C, force 60; near under piece: \"A\", \"B\"\n"; r.Status != failed || r.Out != "" || !strings.HasSuffix(r.Err, want) {
			t.Errorf("%s: exit %d, printed %q, said %q, want %q", form, r.Status, r.Out, r.Err, want)
		}
	}
}

// Where a cell is not as it was asked for, those like it are told: of the first one that no
// row with the cells before it has, and whichever block of a long table they are in.
func TestNoRowIsNearlyAskedFor(t *testing.T) {
	const head = "specimen,direction,force [N],grammage [g/m2]\n"
	const table = head + "H120-7/1,MD,60,100\nH120-7/2,MD,61,100\nH120-7/2,CD,30,100\nW105-3/1,MD,55,100\n"
	far := head
	for i := range 80 {
		far += strings.Repeat(fmt.Sprintf("P%d,MD,60,100\n", i), 500)
	}
	for _, test := range []struct{ table, only, want string }{
		{table, "specimen=H120-7", `4 has the cells that --only asks for, specimen H120-7; near under specimen: "H120-7/1", "H120-7/2"`},
		{table, "specimen=H120-7/1,direction=md", `4 has the cells that --only asks for, specimen H120-7/1, direction md; near under direction: "MD"`},
		{table, "direction=MD,specimen=K", `4 has the cells that --only asks for, direction MD, specimen K; under specimen: "H120-7/1", "H120-7/2", "W105-3/1"`},
		{table, "force=6", `4 has the cells that --only asks for, force 6; near under force: "60", "61"`},
		{far, "specimen=p79", `40000 has the cells that --only asks for, specimen p79; near under specimen: "P79", "P7", "P9"`},
		{far, "specimen=Q", `40000 has the cells that --only asks for, specimen Q; under specimen: "P0", "P1", "P2", "P3", "P4", "P5", ...`},
	} {
		for _, workers := range []string{"1", "2"} {
			r := called(test.table, "batch", "tensile", "--only", test.only, "--workers", workers, "--quiet")
			if want := "millmaths: standard input: no row of " + test.want + "\n"; r.Status != failed || !strings.HasSuffix(r.Err, want) {
				t.Errorf("--only %s: exit %d, said %q, want %q", test.only, r.Status, r.Err, want)
			}
		}
	}
}

// A footer is no row that is asked for.
func TestOnlyFooters(t *testing.T) {
	r := called("piece,force [N],grammage [g/m2]\nA,60,100\nmean,60,100\n", "batch", "tensile", "--only", "piece=C", "--quiet")
	if want := "millmaths: standard input: no row of 1 has the cells that --only asks for, piece C; near under piece: \"A\"; --no-footers takes footers for rows\n"; r.Status != failed || !strings.HasSuffix(r.Err, want) {
		t.Errorf("exit %d, said %q, want %q", r.Status, r.Err, want)
	}
}

// An output that is given for every row is to be solved for one input.
func TestBatchWithoutUnknown(t *testing.T) {
	r := called("mass-flow [t/h],consistency-in [%],consistency-out [%]\n300,4,1\n300,5,1\n", "batch", "dilution", "--water-flow", "900 t/h", "--quiet")
	want := "millmaths: water-flow \"900 t/h\": an output, and no required input is left out: leave one out, or give the one asked for as ?\n"
	if r.Status != failed || r.Out != "" || r.Err != want {
		t.Errorf("exit %d, printed %q, said %q, want %q", r.Status, r.Out, r.Err, want)
	}
}

// Where other heads end the work, that is said once, and what was done and what not.
func TestOtherHeadsAreToldOnce(t *testing.T) {
	const table = "piece,force [N],grammage [g/m2]\nA,60,100\npiece,force [kN],grammage [g/m2]\nB,60,100\nC,60,100\n"
	const told = "standard input:3: other heads, or the same in another order or with other units, want the heads of line 1 again, or a file of its own for what follows\n"
	const unread = "standard input: what follows line 3 is not read, computed or counted"
	out := filepath.Join(t.TempDir(), "out.csv")
	for _, test := range []struct {
		flags []string
		want  string
	}{
		{nil, told + "2 rows = 1 computed + 1 reported\n" + unread + "\n"},
		{[]string{"--by", "piece"}, told + "2 rows = 1 computed + 1 reported\n" + unread + "; no summary is made\n"},
		{[]string{"--lot", "piece"}, told + "2 rows = 1 used in a lot + 1 reported\n" + unread + "; no lot is computed\n"},
		{[]string{"--out", out}, told + "2 rows = 1 computed + 1 reported\n" + unread + "; " + out + " is not written\n"},
	} {
		r := called(table, append([]string{"batch", "tensile", "--quiet"}, test.flags...)...)
		if r.Status != failed || r.Err != test.want {
			t.Errorf("%v: exit %d, said\n%s\nwant\n%s", test.flags, r.Status, r.Err, test.want)
		}
	}
	if _, err := os.Stat(out); err == nil {
		t.Errorf("%s is written", out)
	}
}

// Standard input has one name, in notes as in errors, and none but - for programs.
func TestStandardInputHasOneName(t *testing.T) {
	const table = "piece,force [N],grammage [g/m2]\nA,60,100\nB,x,100\n"
	r := called(table, "batch", "tensile")
	for _, want := range []string{"standard input: line 1: heads\n", "standard input: force: column 2 (force) in N\n",
		"standard input:3:2: force \"x\": not a number, want a number in N\n"} {
		if r.Status != failed || !strings.Contains(r.Err, want) || strings.Contains("\n"+r.Err, "\n-:") {
			t.Errorf("exit %d, said %q, want %q and no -", r.Status, r.Err, want)
		}
	}
	if r := called(table, "batch", "tensile", "--summary", "json"); !strings.Contains(r.Out, `"file":"-"`) {
		t.Errorf("printed %s, want - as the file", r.Out)
	}
	if r := called("x\n", "line", "-"); !strings.HasPrefix(r.Err, "millmaths: standard input:1: ") {
		t.Errorf("line says %q", r.Err)
	}
	if r := called("x\n", "verify", "-"); !strings.HasPrefix(r.Err+r.Out, "standard input:1: ") {
		t.Errorf("verify says %q and prints %q", r.Err, r.Out)
	}
}

// Heads that are numbers, and heads with a comma, are found by the flags that name them.
func TestHeadsThatFlagsName(t *testing.T) {
	r := called("id;1;2;3\nA;1,5;2,5;3,5\n", "batch", "replicates", "--column", "value=1,2,3", "--quiet")
	if want := "A;1,5;2,5;3,5;3;2,5;1;40;"; r.Status != 0 || !strings.Contains(r.Out, want) {
		t.Errorf("exit %d, printed %q, said %q, want %q", r.Status, r.Out, r.Err, want)
	}
	const table = "id;\"side, wire\";force [N];grammage [g/m2]\nA;t;60;100\nA;w;75;100\n"
	for _, by := range []string{"id,side, wire", "id,\"side, wire\""} {
		r := called(table, "batch", "tensile", "--by", by, "--quiet")
		if want := "A;t;tensile-strength;1;0;4;"; r.Status != 0 || !strings.Contains(r.Out, want) {
			t.Errorf("--by %s: exit %d, printed %q, said %q, want %q", by, r.Status, r.Out, r.Err, want)
		}
	}
	// The readings decide the decimal sign, not the names.
	r = called("id;r1;r2\n2.1;1.234;1.250\n", "batch", "replicates", "--column", "value=r1,r2", "--quiet")
	if want := `"1.234" is 1.234 with a decimal point, or 1234 with a decimal comma`; r.Status != failed || !strings.Contains(r.Err, want) {
		t.Errorf("exit %d, printed %q, said %q, want %q", r.Status, r.Out, r.Err, want)
	}
}

// What is wrong with the heads of a table is said in flags.
func TestHeadsInFlags(t *testing.T) {
	for _, test := range []struct {
		heads string
		flags []string
		want  string
	}{
		{"force [N],piece", nil, "standard input: no column for grammage and no value: heads are force, piece; name its column with --column grammage=HEAD, or give --grammage for all rows"},
		{"force [N],grammmage [g/m2]", nil, `standard input: no column for grammage: is it "grammmage"? Name it with --column grammage="grammmage", or give --grammage for all rows`},
		{"force [N],Grammage g/m2", nil, `standard input: no column for grammage: is it "Grammage g/m2"? A unit after a name needs brackets: write "Grammage [g/m2]", or name the column with --column grammage="Grammage g/m2 [g/m2]", or give --grammage for all rows`},
		{"force [N],Grammage [g/qm]", nil, `standard input:1:2: grammage: column "Grammage": unknown unit "g/qm", near: g/m2, gsm; --column grammage="Grammage [UNIT]" says which unit is meant`},
		{"force [N],grammage [g/m2]", []string{"--unit", "tensile-index=g/qm"}, `tensile-index: unknown unit "g/qm", want a unit of strength index such as kN.m/kg or kN.m/g`},
		{"specimen force grammage", nil, "standard input: no column is named like an input of tensile: heads are specimen force grammage, inputs are force, strip-width, grammage, gravity; name one with --column INPUT=HEAD; there is one column: cells are separated by commas, semicolons or tabs, not by blanks"},
		{"a,b", nil, "standard input: no column is named like an input of tensile: heads are a, b, inputs are force, strip-width, grammage, gravity; name one with --column INPUT=HEAD"},
		{"force [N],grammage [g/m2]", []string{"--column", "force=F"}, `--column force: standard input: no column has the head "F", heads are force, grammage`},
		{"force [N],force [lbf]", nil, `standard input: 2 columns have the head "force", want one of force [N], force [lbf]; --column force="force [N]" takes that`},
		{"force [N],force [lbf]", []string{"--column", "force=force"}, `--column force: standard input: 2 columns have the head "force", want one of force [N], force [lbf]`},
		{"force [N],force [N]", nil, `standard input: 2 columns have the head "force", want it once`},
		{",MD,,CD,\npiece,force [N],grammage [g/m2],force [N],grammage [g/m2]", nil,
			`standard input: 2 columns have the head "force", want it once; if the line above tells them apart, --head-line 1 joins the two`},
		{"no force width", []string{"--column", "force=force"}, `--column force: standard input: no column has the head "force", heads are no force width; there is one column: cells are separated by commas, semicolons or tabs, not by blanks`},
		{"Peak force [N],grammage [g/m2]", nil, `standard input: no column for force: is it "Peak force"? Name it with --column force="Peak force", or give --force for all rows`},
		{"force [N],grammage [g/m2]", []string{"--by", "m"}, `--by: standard input: no column has the head "m", heads are force, grammage`},
		{"force [N],grammage [g/m2]", []string{"--only", "m=1"}, `--only: standard input: no column has the head "m", heads are force, grammage`},
		{"force [N],grammage [g/m2]", []string{"--lot", "m"}, `--lot: standard input: no column has the head "m", heads are force, grammage`},
	} {
		r := called(test.heads+"\n85,80\n", append([]string{"batch", "tensile", "--quiet"}, test.flags...)...)
		if r.Status != failed || r.Out != "" || r.Err != "millmaths: "+test.want+"\n" {
			t.Errorf("%s %v: exit %d, said\n%s\nwant\n%s", test.heads, test.flags, r.Status, r.Err, test.want)
		}
	}
}

// The confidence of an interval is in per cent, with or without the sign.
func TestIntervalInPerCent(t *testing.T) {
	for interval, want := range map[string]string{
		"99": ";99;", "99%": ";99;", "99 %": ";99;", "99.5": ";99,5;",
		"50": "millmaths: --interval is 50, want above 50 and below 100", "0.95": "millmaths: --interval is 0.95, want above 50 and below 100",
		"high": `--interval "high": `,
	} {
		r := called("piece;force [N];grammage [g/m2]\nA;85,1;80\nA;86;80\n", "batch", "tensile", "--by", "piece", "--interval", interval, "--out", filepath.Join(t.TempDir(), "rows"))
		if !strings.Contains(r.Out+r.Err, want) {
			t.Errorf("--interval %s: exit %d, %s%s, want %s", interval, r.Status, r.Out, r.Err, want)
		}
	}
}

// --column HEAD=INPUT is the wrong way round, and is told as that.
func TestColumnTurned(t *testing.T) {
	for column, more := range map[string]string{
		"Kraft=force":     `; want INPUT=HEAD: --column force="Kraft"`,
		"Kraft [N]=force": `; want INPUT=HEAD: --column force="Kraft [N]"`,
		"Kraft=F":         ", want one of force, strip-width, grammage, gravity, tensile-strength, tensile-index, breaking-length",
	} {
		name, _, _ := strings.Cut(column, "=")
		r := called("Kraft [N],grammage [g/m2]\n85,80\n", "batch", "tensile", "--quiet", "--column", column)
		if want := fmt.Sprintf("millmaths: tensile has no input or output %q%s\n", name, more); r.Status != misused || r.Err != want {
			t.Errorf("--column %s: exit %d, said %s, want %s", column, r.Status, r.Err, want)
		}
	}
}

// What is told of a row that no input solves has the output as that row has it.
func TestTargetsAreTold(t *testing.T) {
	r := called("mass-flow [t/h],consistency-in [%],water-flow [t/h]\n300,4.6,-5\n300,4.6,1200\n300,4.6,-7\n", "batch", "dilution", "--column", "water-flow=water-flow", "--quiet")
	const told = "standard input:%d: no consistency-out between 0 %% and 100 %% gives water-flow %s t/h\n"
	if want := fmt.Sprintf(told, 2, "-5") + fmt.Sprintf(told, 4, "-7"); !strings.HasPrefix(r.Err, want) {
		t.Errorf("said\n%s\nwant\n%s", r.Err, want)
	}
}

// Help tells where the unit of a value of any unit stands, how one is named that the file
// lacks, and what becomes of a rule in another unit.
func TestBatchHelpTellsUnits(t *testing.T) {
	const values = "A value of any unit has its unit in the head"
	for name, any := range map[string]bool{"conformity-guard-band": true, "replicates": true, "cobb": false, "moisture-claim": false} {
		help := called("", "batch", name, "--help").Out
		if strings.Contains(help, values) != any || !strings.Contains(help, `INPUT="HEAD [UNIT]"`) {
			t.Errorf("batch %s --help:\n%s", name, help)
		}
		for _, page := range []string{help, called("", name, "--help").Out} {
			if unwrapped := strings.Join(strings.Fields(page), " "); !strings.Contains(unwrapped, "in another unit; a rule that rounds to a step of the usual one does not hold then") {
				t.Errorf("%s: what of --unit?\n%s", name, page)
			}
		}
	}
}

// What a tool left out of a file stands in the answer too: neither a certificate nor a
// program has the notes beside it, and a profile without its edge begins elsewhere.
func TestLeftOutStandsInTheAnswer(t *testing.T) {
	const scans = "scan,p1 [g/m2],p2 [g/m2],p3 [g/m2],p4 [g/m2]\n1,,120,121,122\n2,,121,121,123\n3,,121,121,123\n"
	const trial = "lab,a [N],b [N]\n1,20,21\n2,22,\n3,23,24\n"
	for _, test := range []struct {
		name, table string
		args        []string
		want        []string
	}{
		{"profile in JSON", scans, []string{"profile", "--scan", "@-", "--json"},
			[]string{`{"code":"left-out","text":"standard input: 2 of 3 scans used, positions 2 to 4 of 4"}`,
				`{"code":"left-out","text":"standard input: left out, stuck or empty: scan 3"}`}},
		{"profile in a certificate", scans, []string{"profile", "--scan", "@-", "--steps=markdown"},
			[]string{"\n- standard input: 2 of 3 scans used, positions 2 to 4 of 4\n- standard input: left out, stuck or empty: scan 3\n- method: "}},
		{"precision in JSON", trial, []string{"precision", "--result", "@-", "--factor", "2.8", "--json"},
			[]string{`"warnings":[{"code":"left-out","text":"standard input: row 2: 1 result, 1 missing and left out"}]`}},
	} {
		r := called(test.table, test.args...)
		for _, want := range test.want {
			if r.Status != done || !strings.Contains(r.Out, want) {
				t.Errorf("%s: %q, %q, status %d, want in it %q", test.name, r.Out, r.Err, r.Status, want)
			}
		}
	}
	whole := "scan,p1 [g/m2],p2 [g/m2]\n1,120,121\n2,121,124\n"
	if r := called(whole, "profile", "--scan", "@-", "--json"); r.Status != done || strings.Contains(r.Out, "warnings") {
		t.Errorf("nothing was left out: %q, %q", r.Out, r.Err)
	}
}
