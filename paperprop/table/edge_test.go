package table

import (
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestClassString(t *testing.T) {
	for c, want := range []string{"data", "blank", "head", "units", "footer", "bad", "changed", "Class(7)", "Class(8)"} {
		if got := Class(c).String(); got != want {
			t.Errorf("Class(%d) is %s, want %s", c, got, want)
		}
	}
}

func TestCell(t *testing.T) {
	rec := Record{Fields: [][]byte{[]byte("a"), []byte("b")}}
	for i, want := range map[int]string{-1: "", 0: "a", 1: "b", 2: "", 3: ""} {
		if got := string(rec.Cell(i)); got != want {
			t.Errorf("Cell(%d) is %q, want %q", i, got, want)
		}
	}
}

// TestErrorText leaves out of the text what an error lacks.
func TestErrorText(t *testing.T) {
	long := strings.Repeat("x", 60)
	for _, test := range []struct {
		err  CellError
		want string
	}{
		{CellError{File: "f", Line: 3, Column: 2, Head: "h", Text: "t", Reason: "r", Accepted: "a"}, `f:3:2: h "t": r, want a`},
		{CellError{File: "f", Line: 3, Head: "h", Reason: "r"}, `f:3: h: r`},
		{CellError{File: "f", Text: "t", Reason: "r"}, `f: "t": r`},
		{CellError{Line: 3, Column: 2, Reason: "r"}, `3:2: r`},
		{CellError{Reason: "r", Accepted: "a"}, `r, want a`},
		{CellError{Text: long, Reason: "r"}, `"` + long + `": r`},
		{CellError{Text: long + "y", Reason: "r"}, `"` + long + `…": r`},
	} {
		if got := test.err.Error(); got != test.want {
			t.Errorf("error is %s, want %s", got, test.want)
		}
	}
	for _, test := range []struct{ pointLine, pointColumn, commaLine, commaColumn int }{{1, 2, 2, 1}, {1, 1, 1, 2}, {2, 2, 2, 2}, {2, 1, 1, 2}, {1, 2, 1, 1}} {
		e := &MixedError{PointLine: test.pointLine, PointColumn: test.pointColumn, PointText: "1.5",
			CommaLine: test.commaLine, CommaColumn: test.commaColumn, CommaText: "2,5"}
		point, comma := fmt.Sprintf(`%d:%d: "1.5"`, test.pointLine, test.pointColumn), fmt.Sprintf(`%d:%d: "2,5"`, test.commaLine, test.commaColumn)
		first := point
		if slices.Compare([]int{test.commaLine, test.commaColumn}, []int{test.pointLine, test.pointColumn}) < 0 {
			first = comma
		}
		if got := e.Error(); !strings.HasPrefix(got, first) || !strings.Contains(got, point) || !strings.Contains(got, comma) {
			t.Errorf("error is %s, want both cells, and first %s", got, first)
		}
	}
}

// TestAppendRow has the law that a row written again holds the same cells, read by
// encoding/csv of the standard library (library). What stands without quotes stays
// as it stood, blanks and all.
func TestAppendRow(t *testing.T) {
	const text = "a;b;c\n1;2;3\n 1 ; 2;3 \n\"x;y\";\"say \"\"so\"\"\";3\n\" =1\";2;3\n4;;\n1;2;3;;\n\nshort\n"
	want := []string{"1;2;3;", " 1 ; 2;3 ;", `"x;y";"say ""so""";3;`, `" =1";2;3;`, "4;;;", "1;2;3;", ";;;", "short;;;"}
	r, err := Open(strings.NewReader(text), Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b Block
	var rec Record
	if err := r.Next(&b); err != nil {
		t.Fatal(err)
	}
	var rows []string
	for b.Record(&rec) {
		row := string(rec.AppendRow([]byte("> "), 3, ';'))[2:]
		rows = append(rows, row)
		theirs := csv.NewReader(strings.NewReader(row))
		theirs.Comma = ';'
		cells, err := theirs.Read()
		if err != nil || len(cells) != 4 {
			t.Fatalf("%q is read as %q, %v", row, cells, err)
		}
		for i, cell := range cells {
			if want := string(rec.Cell(i)); strings.TrimSpace(cell) != want {
				t.Errorf("cell %d of %q is %q, want %q", i, row, cell, want)
			}
		}
	}
	if diff := cmp.Diff(want, rows); diff != "" {
		t.Errorf("rows (-want +got):\n%s", diff)
	}
}

// TestSplit has the law that a line without quotes is cut at its delimiters, and
// blanks taken off, as bytes.Split and bytes.Trim do (library): at every length, with
// text behind the line and without.
func TestSplit(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 7))
	pieces := []string{"1", "2.5", "-", "x", ";", ";", ",", " ", "\t", "\u00a0", "\u202f", "à"}
	for range 20_000 {
		var line []byte
		for range rnd.IntN(80) {
			line = append(line, pieces[rnd.IntN(len(pieces))]...)
		}
		delimiter := ";,\t"[rnd.IntN(3)]
		var want []string
		for _, cell := range bytes.Split(line, []byte{delimiter}) {
			want = append(want, string(bytes.Trim(cell, " \t\u00a0\u202f")))
		}
		for _, line := range [][]byte{slices.Clip(bytes.Clone(line)), append(bytes.Clone(line), "\n;;;;;;;; "...)[:len(line)]} {
			var rec Record
			rec.split(line, delimiter)
			var got []string
			for _, cell := range rec.Fields {
				got = append(got, string(cell))
			}
			if !slices.Equal(got, want) || rec.plain != len(want) {
				t.Fatalf("%q at %q: %q, %d plain, want %q", line, delimiter, got, rec.plain, want)
			}
		}
	}
}

// TestCountLines counts line ends of all three kinds as a regular expression does
// (library).
func TestCountLines(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 8))
	ends := regexp.MustCompile("\r\n|\r|\n")
	for range 5000 {
		text := make([]byte, rnd.IntN(12))
		for i := range text {
			text[i] = "\r\nx"[rnd.IntN(3)]
		}
		if got, want := countLines(text), len(ends.FindAll(text, -1)); got != want {
			t.Fatalf("countLines(%q) is %d, want %d", text, got, want)
		}
	}
}

// TestUTF16Shaped has on both sides of each limit a text with so many NUL at even and
// at odd places: three in ten characters of two bytes, and ten times as many as at
// the others.
func TestUTF16Shaped(t *testing.T) {
	for _, test := range []struct {
		bytes, even, odd int
		want             string
	}{
		{100, 0, 0, ""}, {100, 0, 14, ""}, {100, 0, 15, utf16leName}, {100, 0, 50, utf16leName}, {100, 2, 19, ""}, {100, 2, 20, utf16leName},
		{100, 14, 0, ""}, {100, 15, 0, utf16beName}, {100, 50, 0, utf16beName}, {100, 19, 2, ""}, {100, 20, 2, utf16beName}, {100, 20, 20, ""},
		{13, 1, 0, ""}, {13, 0, 1, ""}, {13, 2, 0, utf16beName}, {13, 0, 2, utf16leName}, {7, 1, 0, ""}, {6, 1, 0, utf16beName}, {0, 0, 0, ""},
	} {
		raw := bytes.Repeat([]byte("x"), test.bytes)
		for i := range test.even {
			raw[2*i] = 0
		}
		for i := range test.odd {
			raw[2*i+1] = 0
		}
		if got := utf16Shaped(raw); got != test.want {
			t.Errorf("%d bytes, %d NUL at even places and %d at odd ones: %q, want %q", test.bytes, test.even, test.odd, got, test.want)
		}
	}
}

// TestCharacterCutBySample cuts UTF-8 within its last character: right where the file
// goes on, wrong where it ends.
func TestCharacterCutBySample(t *testing.T) {
	for _, c := range []string{"é", "€", "𝛼"} {
		for n := 1; n < len(c); n++ {
			for _, text := range []string{c[:n], "abc" + c[:n], c + c[:n]} {
				if !validStart([]byte(text), false) || validStart([]byte(text), true) {
					t.Errorf("%q: %v where the file goes on, %v where it ends", text, validStart([]byte(text), false), validStart([]byte(text), true))
				}
			}
		}
		if !validStart([]byte(c), false) || !validStart([]byte(c), true) {
			t.Errorf("%q is not UTF-8", c)
		}
	}
	for _, text := range []string{"\x80", "\xff", "a\x80", "a\xffb", "é\x80"} {
		if validStart([]byte(text), false) {
			t.Errorf("%q passes for UTF-8", text)
		}
	}
	for _, heads := range []string{"a;b\n", "a;bc\n", "a;bcd\n", "a;bcde\n"} {
		text := heads + strings.Repeat("1;𝛼\n", sampleSize/6)
		if r, err := Open(strings.NewReader(text), Options{}); err != nil || r.Layout().Encoding != utf8Name {
			t.Errorf("under %q no UTF-8, %v", heads, err)
		}
	}
}

// TestLongestRecord takes a record of just a mebibyte behind the sample, whatever
// ends it, and refuses one of a byte more.
func TestLongestRecord(t *testing.T) {
	read := func(record, rest string) (longest int, err error) {
		r, err := Open(strings.NewReader("a;b\n"+strings.Repeat("1;2\n", sampleSize/4)+record+rest), Options{Name: "f"})
		if err != nil {
			return 0, err
		}
		var b Block
		var rec Record
		for err = r.Next(&b); err == nil; err = r.Next(&b) {
			for b.Record(&rec) {
				longest = max(longest, len(rec.Raw))
			}
		}
		return longest, err
	}
	for _, end := range []string{"\n", "\r", "\r\n"} {
		record := strings.Repeat("x", maxRecord-len(end)) + end
		for _, rest := range []string{"3;4\n", ""} {
			if longest, err := read(record, rest); longest != maxRecord || err != io.EOF {
				t.Errorf("a mebibyte with %q before %q: longest is %d, %v, want all of it", end, rest, longest, err)
			}
			if longest, err := read("x"+record, rest); err == io.EOF || !strings.Contains(err.Error(), "no end within 1 MiB") {
				t.Errorf("a byte more with %q before %q: longest is %d, %v, want it refused", end, rest, longest, err)
			}
		}
	}
	const never, long = "a quote in the record that begins here is never closed", "no end within 1 MiB"
	open := `"` + strings.Repeat("x", maxRecord-1)
	for text, want := range map[string]string{open: never, open + "x": long} {
		if _, err := read(text, ""); err == io.EOF || !strings.Contains(err.Error(), want) {
			t.Errorf("a quote before %d bytes: %v, want %s", len(text)-1, err, want)
		}
	}
}

func TestLongestCell(t *testing.T) {
	cell := strings.Repeat("x", maxCell)
	if got := parseText("a,b\n"+cell+",1\nx"+cell+",1\n", Options{}); !strings.HasPrefix(got.lines[0], "2 data") || !strings.HasPrefix(got.lines[1], "3 bad") {
		t.Errorf("cells of 64 KiB and a byte more: %.20s, %.20s", got.lines[0], got.lines[1])
	}
	heads := strings.Repeat("a,", maxColumns-1) + "a\n"
	if got := parseText(heads+strings.Repeat("1,", maxColumns-1)+"1\n", Options{}); got.err != "" || len(got.lines) != 1 {
		t.Errorf("%d heads: %.80s", maxColumns, got.err)
	}
}

// TestHeadsAndUnits brackets, measures and repeats heads and units.
func TestHeadsAndUnits(t *testing.T) {
	l := &Layout{isUnit: func(text string) bool { return text != "wire" && text != "" }}
	for head, want := range map[string]Column{
		"force [N]": {"force", "N"}, "force (N)": {"force", "N"}, "side (wire)": {"side (wire)", ""}, "side [wire]": {"side", "wire"},
		"force / N": {"force", "N"}, "force in N": {"force", "N"}, "sheets in wire": {"sheets in wire", ""}, "a / b / N": {"a / b", "N"},
		"flow (t/(h m))": {"flow", "t/(h m)"}, "flow [t/[h m]]": {"flow", "t/[h m]"}, "x (a) (N)": {"x (a)", "N"}, "flow (t/[h m])": {"flow", "t/[h m]"},
		"force, [N]": {"force", "N"}, "force: (N)": {"force", "N"}, "force; [N]": {"force", "N"}, "force - [N]": {"force", "N"}, "side, (wire)": {"side, (wire)", ""},
		"(N)": {"(N)", ""}, "[N]": {"[N]", ""}, "x)": {"x)", ""}, "x []": {"x []", ""},
	} {
		if got := l.column(head); got != want {
			t.Errorf("%q is %+v, want %+v", head, got, want)
		}
	}
	for text, want := range map[string]string{"[N]": "N", "(N)": "N", "( N )": "N", "N": "N", "[N": "[N", "N]": "N]", "(N": "(N", "N)": "N)", "[N)": "[N)", "(N]": "(N]", "[]": "[]", "()": "()", "": "",
		"in N": "N", "[in N]": "N", "in inHg": "inHg", "in Hg": "in Hg", "in lbf": "in lbf", "in wet": "in wet", "in": "in"} {
		if got := unbracket(text); got != want {
			t.Errorf("unbracket(%q) is %q, want %q", text, got, want)
		}
	}
	for n, want := range map[int]bool{40: true, 41: false} {
		if got := l.unitRow([][]byte{nil, bytes.Repeat([]byte("u"), n)}); got != want {
			t.Errorf("a row with a unit of %d letters: %v", n, got)
		}
	}
	for n, want := range map[int]bool{200: true, 201: false} {
		l := &Layout{isUnit: isUnit}
		l.setHeads([]string{"a", strings.Repeat("h", n)}, nil)
		if got := l.isHead(bytes.Repeat([]byte("h"), n)); got != want {
			t.Errorf("a head of %d letters: %v", n, got)
		}
		l = &Layout{Columns: []Column{{"a", ""}, {"b", "N"}}}
		if got := l.foreignHeads([][]byte{nil, append(bytes.Repeat([]byte("h"), n-len(" [mm]")), " [mm]"...)}); got != want {
			t.Errorf("a head of another table of %d letters: %v", n, got)
		}
	}
}

// TestHeadOverUnit writes heads as ISO 80000-1 writes a quantity over its unit.
func TestHeadOverUnit(t *testing.T) {
	l := &Layout{isUnit: isUnit}
	for head, want := range map[string]Column{
		"force/N": {"force", "N"}, "force/ N": {"force", "N"}, "force /N": {"force", "N"}, "Force/kN": {"Force", "kN"},
		"grammage/(g/m2)": {"grammage", "g/m2"}, "grammage / (g/m²)": {"grammage", "g/m²"}, "grammage/[g/m2]": {"grammage", "g/m2"},
		"strip-width/mm": {"strip-width", "mm"}, "moisture/%": {"moisture", "%"}, "temperature/°C": {"temperature", "°C"},
		"flow/t/h": {"flow", "t/h"}, "MD/CD/N": {"MD/CD", "N"}, "MD/CD force / N": {"MD/CD force", "N"},
		// A unit by itself, or over a unit, is no name; what is behind must be one.
		"kg/t": {"kg/t", ""}, "m/g": {"m/g", ""}, "1/min": {"1/min", ""}, "N/wire": {"N/wire", ""}, "Grammage g/m2": {"Grammage g/m2", ""}, "dose_kg/(t)": {"dose_kg/(t)", ""}, "flow_t/h": {"flow_t/h", ""}, "flow:t/h": {"flow:t/h", ""}, "wet mass/g": {"wet mass", "g"},
		"consistency-in/%": {"consistency-in", "%"}, "consistency in/%": {"consistency in", "%"}, "dew point/°C": {"dew point", "°C"}, "in/s": {"in/s", ""}, "kg/(m s)": {"kg/(m s)", ""},
		// A unit that no list spells so is one all the same, and so is one that is unclear.
		"HB cons. g/l": {"HB cons. g/l", ""}, "COD mg/l": {"COD mg/l", ""}, "uptake ml/g": {"uptake ml/g", ""}, "strip lb/in": {"strip lb/in", ""},
		"Flow gal/min": {"Flow gal/min", ""}, "Flow L/min": {"Flow L/min", ""}, "output ton/h": {"output ton/h", ""},
		"mass of a sheet/g": {"mass of a sheet", "g"}, "distance in/m": {"distance in", "m"},
		"MD/CD": {"MD/CD", ""}, "date/time": {"date/time", ""}, "n/a": {"n/a", ""}, "/N": {"/N", ""}, "force/": {"force/", ""}, "a/(wire)": {"a/(wire)", ""},
	} {
		if got := l.column(head); got != want {
			t.Errorf("%q is %+v, want %+v", head, got, want)
		}
	}
}

// TestUnitBehindComma takes what stands behind the last comma of a head for a unit where
// it is one, and no word that says which of several was measured.
func TestUnitBehindComma(t *testing.T) {
	l := &Layout{isUnit: isUnit}
	for head, want := range map[string]Column{
		"RCT force, N": {"RCT force", "N"}, "Kraft,N": {"Kraft", "N"}, "force, MD, N": {"force, MD", "N"}, "dose, kg/t": {"dose", "kg/t"},
		"moisture, %": {"moisture", "%"}, "time, s": {"time", "s"}, "force, in N": {"force", "N"}, "vacuum, in Hg": {"vacuum", "in Hg"},
		"force (in N)": {"force", "N"}, "force [in kN]": {"force", "kN"}, "vacuum [in Hg]": {"vacuum", "in Hg"},
		"force, max / N": {"force, max", "N"}, "force, max in N": {"force, max", "N"}, "force, max [N]": {"force, max", "N"},
		"Mean, MD": {"Mean, MD", ""}, "force, max": {"force, max", ""}, "force, min": {"force, min", ""}, "consistency, in": {"consistency, in", ""},
		"gloss, F": {"gloss, F", ""}, "force, 1": {"force, 1", ""}, ", N": {", N", ""}, "force,": {"force,", ""}, "factor 1,5": {"factor 1,5", ""},
	} {
		if got := l.column(head); got != want {
			t.Errorf("%q is %+v, want %+v", head, got, want)
		}
	}
	// A sentence above the heads is no name hoped for.
	got := parseText("force, and what else was seen\n\nid;force, N\n1;2,5\n", Options{Heads: []string{"force"}})
	if want := []string{"4 data 1|2,5"}; got.err != "" || !slices.Equal(got.lines, want) || !slices.Contains(got.notes, `column 2: "force" in N`) {
		t.Errorf("%s %q, notes %q", got.err, got.lines, got.notes)
	}
}

// TestWrittenHead names columns by their heads as they stand in the file.
func TestWrittenHead(t *testing.T) {
	for _, test := range []struct {
		heads, hoped, find string
		want               Column
	}{
		{"id,force/N", "", "force", Column{"force", "N"}},
		{"id,force/N", "force/N", "Force/N", Column{"force", "N"}},
		{"id,force / N", "force / N", "force / N", Column{"force", "N"}},
		{"id,force [N]", "", "force [N]", Column{"force", "N"}},
		{"force/N,force", "", "force/N", Column{"force", "N"}},
		{"id,U/min", "", "U/min", Column{"U", "min"}},
		{"id,U/min", "U/min [1/min]", "U/min", Column{"U/min", ""}},
		{"id,U/min", "U/min [h]", "U/min", Column{"U", "min"}}, // a minute is no hour: who reads the column says so
	} {
		r, err := Open(strings.NewReader(test.heads+"\nx,1.5\n"), Options{Heads: []string{test.hoped}})
		if err != nil {
			t.Errorf("%s: %v", test.heads, err)
			continue
		}
		all := r.Layout().FindAll(test.find)
		if len(all) != 1 || r.Layout().Columns[all[0]] != test.want {
			t.Errorf("%q of %q, hoping for %q: columns %d, %+v, want %+v", test.find, test.heads, test.hoped, all, r.Layout().Columns, test.want)
		}
	}
}

// TestSpellingsOfAUnit puts the unit of a head into the row of units in another spelling.
func TestSpellingsOfAUnit(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"id,grammage/g/m²\n,[g/m2]\nx,1.5\n", "3 data x|1.5"}, {"id,grammage [gsm]\n,(g/m²)\nx,1.5\n", "3 data x|1.5"},
		{"id,t [°C]\n,degC\nx,1.5\n", "3 data x|1.5"}, {"id,d [µm]\n,um\nx,1.5\n", "3 data x|1.5"},
		{"id,g [g/m²]\nx,1.5\n,[g/m2]\n", "3 data |[g/m2]"}, // no row of units stands above: a reading that is none
		{"id,g\n,g/m²\nx,1.5\n,[g/m2]\n", "4 units |[g/m2]"},
	} {
		got := parseText(test.text, Options{Name: "f"})
		if n := len(got.lines); got.err != "" || n == 0 || got.lines[n-1] != test.want {
			t.Errorf("%q: %q, error %q, want %q", test.text, got.lines, got.err, test.want)
		}
	}
	for _, test := range []struct {
		a, b string
		want bool
	}{
		{"g/m2", "gsm", true}, {"g/m²", "g/m2", true}, {"lb/1000 ft²", "lb/1000ft2", true}, {"bar", "bar", true}, {"x", "x", true}, {"", "", true},
		{"N", "kN", false}, {"g/m2", "", false}, {"", "g/m2", false}, {"EUR/t", "USD/t", false}, {"K", "degC", false}, {"bar", "psi", false},
	} {
		if got := SameUnit(test.a, test.b); got != test.want {
			t.Errorf("SameUnit(%q, %q) = %v, want %v", test.a, test.b, got, test.want)
		}
	}
}

// TestRepeats puts rows like the heads and the units under them, with a cell more or
// less.
func TestRepeats(t *testing.T) {
	for _, test := range []struct{ text, row, want string }{
		{"a,b\ng,N\n1,2\n", "g,N", "units"}, {"a,b\ng,N\n1,2\n", "g,N,", "units"}, {"a,b\ng,N\n1,2\n", "g,N,x", "bad"}, {"a,b\ng,N\n1,2\n", "g", "bad"},
		{"a,b\ng,\n1,2\n", "g", "units"}, {"a,b\ng,-\n1,2\n", "g,n/a", "units"}, {"a,b\ng,N\n1,2\n", ",N", "data"},
		{"a,b\n1,2\n", "a,b", "head"}, {"a,b\n1,2\n", "a,b,", "head"}, {"a,b\n1,2\n3,4\n", "a,b,x", "changed"}, {"a,b\n1,2\n", "a", "changed"},
		{"a,b\n1,2\n", "A,2", "changed"}, {"a,b\n1,2\n", "x,b", "data"},
		{"id,force,width\nx,1,2\n", "no,force/N,width/mm", "changed"}, {"id,force at break,strip width\nx,1,2\n", "no,force at  break [N],strip  width [mm]", "changed"},
		// Heads are what is so by half: two names of four cells, not of five.
		{"a,b,c,d\n1,2,3,4\n", "x,a,b,y", "changed"}, {"a,b,c,d,e\n1,2,3,4,5\n", "x,a,b,y,z", "data"}, {"a,b,c,d,e\n1,2,3,4,5\n", "x,a,b,,", "changed"},
	} {
		got := parseText(test.text+test.row+"\n", Options{})
		if n := len(got.lines); n == 0 || !strings.Contains(got.lines[n-1], " "+test.want+" ") {
			t.Errorf("%q under %q: %q, %s, want %s", test.row, test.text, got.lines, got.err, test.want)
		}
	}
}

// TestLongestLabel takes names of 80 bytes for those of footers, by the name before a
// bracket and by the first of several words, and none that are longer.
func TestLongestLabel(t *testing.T) {
	for _, name := range []string{"Minimum (of all strips that broke between the jaws, and not at the very edge of)", "Mean of all those strips that broke between the jaws, and not at the very edge,o"} {
		got := parseText("id;force [N]\nA;1,5\n"+name+";1,5\n"+name[:1]+name+";1,5\n", Options{})
		if want := []string{"2 data A|1,5", "3 footer " + name + "|1,5", "4 data " + name[:1] + name + "|1,5"}; !slices.Equal(got.lines, want) {
			t.Errorf("%d bytes: %q, want %q", len(name), got.lines, want)
		}
	}
}

// TestTakeFooter takes footers, and rows that may be one, for rows, and leaves others as
// they are.
func TestTakeFooter(t *testing.T) {
	r, err := Open(strings.NewReader("id;force\nA;1,5\nMean;1,5\nMean;1,5;2\nQ1;1,5\nQ1\n\nid;force\nB;1;2\n"), Options{Name: "f"})
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for rec, err := range r.Records() {
		if err != nil {
			t.Fatal(err)
		}
		before := rec.Class
		r.Layout().TakeFooter(rec)
		line := fmt.Sprintf("%d %v %v", rec.Line, before, rec.Class)
		if rec.Err != nil {
			line += " ! " + rec.Err.Error()
		}
		got = append(got, line)
	}
	want := []string{"2 data data", "3 footer data", `4 footer bad ! f:4:3: "2": 3 cells, want 2 as in the heads of line 1`, "5 bad data",
		"6 bad bad ! f:6:2: force: the row ends before this cell, want 2 cells as in the heads of line 1", "7 blank blank", "8 head head",
		`9 bad bad ! f:9:3: "2": 3 cells, want 2 as in the heads of line 1`}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("before and after (-want +got):\n%s", diff)
	}
}

// TestMostMore has as many lines between the heads and the units as are allowed, and one
// more.
func TestMostMore(t *testing.T) {
	for lines, want := range map[int]string{mostMore: `column 2: "force" in N`, mostMore + 1: `column 2: "force"`} {
		got := parseText("id;force\n"+strings.Repeat("no.;max.\n", lines)+";N\nA;1,5\n", Options{})
		if got.err != "" || got.notes[len(got.notes)-1] != want {
			t.Errorf("%d lines: %s, notes %q, want %s", lines, got.err, got.notes, want)
		}
	}
}

// TestFindHead has files in which one thing alone tells where the heads are.
func TestFindHead(t *testing.T) {
	names := []string{"force", "width"}
	for _, test := range []struct {
		name, text string
		options    Options
		line       int // 0: none found
	}{
		{"given as the first", "a;b\nc;d\n1;2\n", Options{Head: 1}, 1},
		{"given where nothing stands", "a;b\n;\n1;2\n", Options{Head: 2}, 0},
		{"footers with nothing before them have no say", "Report,on\nSite,3\nid,b,c\nx,1.5,2\n,Total\n,Mean\n,s,\n", Options{}, 3},
		{"two names of three, no row fits", "x;y;z\nForce;Width;Note\n1;2;3;4;5\n1;2;3\n", Options{Heads: names}, 2},
		{"one name of two is not enough", "Force;Lab\na;b;c\n1;2;3\n", Options{Heads: names}, 2},
		{"one name of one is", "Force;\n1;2;3\n4;\n", Options{Heads: names}, 1},
		{"no rows, half of what stands above fits", "Lab;x\nRun;5\nid;b;c\n", Options{}, 3},
		{"no rows, an empty line above", "Lab;x\n;;;\nid;b;c\n", Options{}, 3},
		{"a title that is the first head", "Force\n\nForce;Width\n34,5;15\n", Options{}, 3},
		{"a preamble filled up to twice its cells", "Tester;SCT 12;;\nid;force;width;remark\nA;60,5;15;x\n", Options{}, 2},
		{"a remark in twice the cells below", "id;force\nA;1,5\nB;2,5\nC;2\nD;3\nRemark:;cut;by;hand\n", Options{}, 1},
		{"names under numbers", "1;2;3\na;b;c\n", Options{}, 0},
		{"numbers hoped for", "Lab;2\nRun;5;6\nid;1;2;3;Mean\nA;2;3;3;3\n", Options{Heads: []string{"1", "2", "3"}}, 3},
		{"numbers not hoped for", "id;1;2;3;Mean\nA;2;3;3;3\n", Options{Heads: []string{"force"}}, 0},
	} {
		r, err := Open(strings.NewReader(test.text), test.options)
		if test.line == 0 {
			var refused *CellError
			if !errors.As(err, &refused) || !strings.Contains(refused.Reason, "heads") {
				t.Errorf("%s: %v, want no heads", test.name, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
		} else if got := r.Layout().HeadLine; got != test.line {
			t.Errorf("%s: heads in line %d, want %d", test.name, got, test.line)
		}
	}
}

// TestDelimiter has files that can be parted in two ways. A semicolon is believed
// before a comma, unless names hoped for say otherwise, or fewer than nine rows of ten
// fit under its heads and more fit under those of the comma.
func TestDelimiter(t *testing.T) {
	rows := func(both, comma, semicolon int) string {
		return "x;y,z\n" + strings.Repeat("1;2,3\n", both) + strings.Repeat("4,5\n", comma) + strings.Repeat("6;7\n", semicolon)
	}
	for _, test := range []struct {
		name, text string
		options    Options
		want       byte
	}{
		{"all rows fit both", rows(3, 0, 0), Options{}, ';'},
		{"names hoped for", "Force,Width;mm\n1,2;3\n4,5;6\n", Options{Heads: []string{"force"}}, ','},
		{"no names found in either", "Force,Width;mm\n1,2;3\n4,5;6\n", Options{Heads: []string{"mass"}}, ';'},
		{"one row of six", rows(1, 5, 0), Options{}, ','},
		{"nine rows of ten", rows(9, 1, 0), Options{}, ';'},
		{"eight rows of ten", rows(8, 2, 0), Options{}, ','},
		{"three of four against two", rows(1, 2, 1), Options{}, ','},
		{"two of four against three", rows(1, 1, 2), Options{}, ';'},
		{"as many", rows(1, 1, 1), Options{}, ';'},
		{"no rows against one of two", "a,b\n1,2\nRemark;end\n", Options{}, ','},
		{"named on top", "sep=,\n" + rows(3, 0, 0), Options{}, ','},
		{"named on top, a tab", "sep=\ta;b\n1;2\n", Options{}, ';'},
		{"named on top in capitals", "SEP=,\n" + rows(3, 0, 0), Options{}, ','},
		{"named on top, but given", "sep=,\n" + rows(3, 0, 0), Options{Delimiter: ';'}, ';'},
		{"tab named on top", "sep=\t\na\tb;c\n1\t2;3\n", Options{}, '\t'},
		{"semicolon named on top, lines with both", "sep=;\na\tb;c\n1\t2;3\n", Options{}, ';'},
		{"tab named on top, names in the other", "sep=\t\nForce;x\ty\n1;2\t3\n", Options{Heads: []string{"force"}}, '\t'},
		{"what parts no cells named on top", "sep=|\na;b\n1;2\n", Options{}, ';'},
	} {
		r, err := Open(strings.NewReader(test.text), test.options)
		if err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if got := r.Layout().Delimiter; got != test.want {
			t.Errorf("%s: parted at %q, want %q", test.name, got, test.want)
		}
	}
}

// TestDecimalByRowsThatCount takes the sign from rows and footers, and not from what is
// refused.
func TestDecimalByRowsThatCount(t *testing.T) {
	for _, test := range []struct {
		text string
		want byte
	}{
		{"a;b\nx;2\nMean;1,5\n", ','}, {"a;b\nx;2\nMean;1.5\n", '.'}, {"a;b\nx;2\n1;2;3,5\n", 0}, {"a;b\nx;2\ny;2,5\n", ','},
	} {
		r, err := Open(strings.NewReader(test.text), Options{})
		if err != nil || r.Layout().Decimal != test.want {
			t.Errorf("%q: %v, sign not %q", test.text, err, test.want)
		}
	}
}

// TestDecimalByReadings takes the sign from the columns of readings: names and dates have
// points and commas of their own.
func TestDecimalByReadings(t *testing.T) {
	heads := Options{Name: "f", Heads: []string{"force"}}
	either := `f:2:2: "1.234" is 1.234 with a decimal point, or 1234 with a decimal comma, and no other cell tells which, want Options.Decimal '.' or Options.Decimal ','`
	for _, test := range []struct {
		text    string
		options Options
		want    byte
		err     string
	}{
		{"id;force\n2.1;1.234\n2.2;1.310\n", heads, 0, either},
		{"id;kraft [N]\n2.1;1.234\n2.2;1.310\n", heads, 0, either},
		{"id;force\n2.1;1.234\n2.2;1.310\n", Options{Name: "f"}, '.', ""}, // any column may be read
		{"id;force\n2.1;1.234\n2.2;99.5\n", heads, '.', ""},
		{"id;force\n2.1;1234,5\n27.11.;1310\n", heads, ',', ""},
		{"id;force\n2,1;12.5\n", heads, '.', ""},
		{"id;force\n2,1;125\n", heads, ',', ""},
		{"id;force\n2.1;125\n", heads, '.', ""},
		{"id;force\n1.234;125\n", heads, 0, ""}, // a name that either sign allows, and no reading with one
		{"id;note;force\n2,1;3.5;125\n", heads, 0, ""},
		{"id;note;force\n2,1;3.5;125,5\n3;4;1.5\n", heads, 0, `f:2:3: "125,5" has a decimal comma, but f:3:3: "1.5" has a decimal point, want one decimal sign in a file, or Options.Decimal ',' where "1.5" is a name or a date, Options.Decimal '.' where "125,5" is: a row with a number of the other sign is refused`},
		{"id;note;force\n2,1;3.5;125\n" + strings.Repeat("A;;125\n", sampleSize/7), heads, 0, `f:2:1: "2,1" has a decimal comma, but f:2:2: "3.5" has a decimal point, want one decimal sign in a file, or Options.Decimal ',' where "3.5" is a name or a date, Options.Decimal '.' where "2,1" is: a row with a number of the other sign is refused`},
	} {
		r, err := Open(strings.NewReader(test.text), test.options)
		switch {
		case err != nil && err.Error() != test.err, err == nil && test.err != "":
			t.Errorf("%.60q: %v, want %s", test.text, err, test.err)
		case err == nil && r.Layout().Decimal != test.want:
			t.Errorf("%.60q: sign %q, want %q", test.text, r.Layout().Decimal, test.want)
		}
	}
	if _, err := ReadGrid(strings.NewReader("id;r1 [N]\n2.1;1.234\n"), Options{Name: "f"}); err == nil || err.Error() != either {
		t.Errorf("grid: %v, want %s", err, either)
	}
}

// TestBlocksCutOff has the law that a block that was sent is refused where its end is
// cut off, however much of it came.
func TestBlocksCutOff(t *testing.T) {
	r, err := Open(strings.NewReader("a,b\n1,2\n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	var b Block
	if err := r.Next(&b); err != nil {
		t.Fatal(err)
	}
	data, err := b.MarshalBinary()
	if err != nil {
		t.Fatal(err)
	}
	size, at := binary.Uvarint(data)
	for n := range at + int(size) {
		if err := b.UnmarshalBinary(data[:n]); err == nil || !strings.Contains(err.Error(), "its head is cut off") {
			t.Errorf("%d bytes of a head of %d: %v", n, at+int(size), err)
		}
	}
	for n := at + int(size); n < len(data); n++ {
		want := fmt.Sprintf("table: not the block that was sent: %d bytes of text, want 4", n-at-int(size))
		if err := b.UnmarshalBinary(data[:n]); err == nil || err.Error() != want {
			t.Errorf("%d bytes of %d: %v, want %s", n, len(data), err, want)
		}
	}
}

// TestReadColumn reads a column as it is written, but for thousands and the sign.
func TestReadColumn(t *testing.T) {
	read := func(text string, o Options) ([]string, string, error) {
		o.Name = "f"
		return ReadColumn(strings.NewReader(text), o, "Force")
	}
	var notes []string
	numbers, unit, err := read("id;force\n;N\nA;1.234,5\n\nB;2,50\nC;1 234,5\nMittel;3\n", Options{Tell: func(note string) { notes = append(notes, note) }})
	if diff := cmp.Diff([]string{`footer, not counted: line 7 "Mittel"`}, notes); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff([]string{"1234.5", "2.50", "1234.5"}, numbers); diff != "" || unit != "N" || err != nil {
		t.Errorf("in %q, %v (-want +got):\n%s", unit, err, diff)
	}
	for _, test := range []struct {
		text string
		o    Options
		want string
	}{
		{"", Options{}, "f: nothing in it, want a line of heads and rows under it"},
		{"id;mass\nA;1\n", Options{}, `f: no one column has the head "Force", heads are id, mass`},
		{"id;force;force\nA;1;2\n", Options{}, `f: no one column has the head "Force", heads are id, force, force`},
		{"id;force\nA;<5\n", Options{}, `f:2:2: Force "<5": not a number, want a number in each row of a list`},
		{"id;force\nA;4,5 lbf\n", Options{}, `f:2:2: Force "4,5 lbf": a unit in a list, want a number alone, and the unit of all in the head: Force [lbf]`},
		{"id;force\nA;4,5 zz\n", Options{}, `f:2:2: Force "4,5 zz": not a number, want a number in each row of a list`},
		{"id;force\nA;4,5 \nB;x kg\n", Options{}, `f:3:2: Force "x kg": not a number, want a number in each row of a list`},
		{"id;force\nA;1\nB;n/a\n", Options{}, `f:3:2: Force "n/a": no reading, want a number in each row of a list`},
		{"id;force\nA;1\nB;\n", Options{}, `f:3:2: Force: no reading, want a number in each row of a list`},
		{"id;force\nA;1\nB;2;3\n", Options{}, `f:3:3: "3": 3 cells, want 2 as in the heads of line 1`},
		{"id;force\nA;1\nforce;id\n", Options{}, "f:3: other heads, or the same in another order or with other units, want the heads of line 1 again, or a file of its own for what follows"},
		{"id;force\nA;1\n\"B;2\n", Options{}, "f:3: a quote in the record that begins here is never closed, want a closing quote"},
	} {
		if numbers, unit, err := read(test.text, test.o); err == nil || err.Error() != test.want || numbers != nil || unit != "" {
			t.Errorf("%q: %q in %q, %v, want %s", test.text, numbers, unit, err, test.want)
		}
	}
}

// TestMostNumbers holds columns and grids to half a million numbers, of short rows to
// fewer.
func TestMostNumbers(t *testing.T) {
	column := func(rows int) error {
		numbers, _, err := ReadColumn(strings.NewReader("force\n"+strings.Repeat("1\n", rows)), Options{}, "force")
		if err == nil && len(numbers) != rows {
			t.Errorf("%d numbers of %d rows", len(numbers), rows)
		}
		return err
	}
	grid := func(heads, row string, rows int) error {
		g, err := ReadGrid(strings.NewReader(heads+strings.Repeat(row, rows)), Options{})
		if err == nil && len(g.Rows) != rows {
			t.Errorf("%d rows of %d", len(g.Rows), rows)
		}
		return err
	}
	narrow := func(rows int) error { return grid("a [N];b [N]\n", "1;2\n", rows) }
	wide := func(rows int) error {
		return grid("a [N];b [N];c [N];d [N];e [N]\n", "1;2;3;4;5\n", rows)
	}
	for want, errs := range map[string][2]error{
		"more than 500000 numbers in column":        {column(mostNumbers), column(mostNumbers + 1)},
		"more than 125000 rows with 2 numbers each": {narrow(mostNumbers / 4), narrow(mostNumbers/4 + 1)},
		"more than 100000 rows with 5 numbers each": {wide(mostNumbers / 5), wide(mostNumbers/5 + 1)},
	} {
		if errs[0] != nil || errs[1] == nil || !strings.Contains(errs[1].Error(), want) {
			t.Errorf("%s: %v for all that fits, %v for one more", want, errs[0], errs[1])
		}
	}
}

// TestGridKeepsShortRows: where heads are missing, rows may be short, which is not
// the same as having no reading there.
func TestGridKeepsShortRows(t *testing.T) {
	g, err := ReadGrid(strings.NewReader("a;b;\ng;g;g\n1;2;3\n4;n/a\n"), Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(g.Rows) != 2 || !slices.Equal(g.Rows[0], []float64{1, 2, 3}) || len(g.Rows[1]) != 2 || !math.IsNaN(g.Rows[1][1]) {
		t.Errorf("rows %v, want 1 2 3 and 4 NaN", g.Rows)
	}
	if said := strings.Join(g.Reading, "\n"); strings.Contains(said, "not read") {
		t.Errorf("all columns are read, but it says\n%s", said)
	}
}
