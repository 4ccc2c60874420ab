package batch_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/iotest"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
)

// A style is how a random table is written.
type style struct {
	delimiter, decimal, lineEnd string
}

var styles = []style{{",", ".", "\n"}, {";", ",", "\r\n"}, {"\t", ",", "\n"}, {",", ",", "\n"}, {";", ".", "\r"}}

// A written value is a cell of a table and the text that a single calculation
// takes for the same.
type written struct{ cell, text string }

// value writes a number of a unit in one of the ways in which people do.
func (s style) value(r *rand.Rand, unit string, low, high float64) written {
	x := low + (high-low)*r.Float64()
	text := fmt.Sprintf("%.*f", r.IntN(4), x)
	local := strings.ReplaceAll(text, ".", s.decimal)
	switch r.IntN(12) {
	case 0:
		return written{local + " " + unit, text + " " + unit}
	case 1:
		return written{"n/a", ""}
	case 2:
		return written{"-" + local, "-" + text + " " + unit}
	case 3:
		return written{" " + local + " ", text + " " + unit}
	case 4:
		return written{s.thousands(text), text + " " + unit}
	case 5:
		return written{local + "e1", text + "e1 " + unit}
	}
	return written{local, text + " " + unit}
}

// thousands parts the whole thousands of a number.
func (s style) thousands(text string) string {
	mark := map[string]string{".": ",", ",": "."}[s.decimal]
	whole, fraction, found := strings.Cut(text, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + mark + whole[i:]
	}
	if found {
		whole += s.decimal + fraction
	}
	return whole
}

func (s style) cell(text string) string {
	if strings.ContainsAny(text, s.delimiter+"\"\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// randomTable is a table of tensile tests and the inputs of its rows as a
// single calculation takes them.
func randomTable(r *rand.Rand, s style, rows int) (text string, inputs [][]written) {
	var b strings.Builder
	line := func(cells ...string) {
		for i, c := range cells {
			if i > 0 {
				b.WriteString(s.delimiter)
			}
			b.WriteString(s.cell(c))
		}
		b.WriteString(s.lineEnd)
	}
	names := []string{"H120-7", "a \"quoted\" name", "two\nlines", "W105-3", "Änne", ""}
	line("name", "force [N]", "grammage [g/m2]", "strip-width [mm]")
	line("first", "96"+s.decimal+"45", "121"+s.decimal+"4", "15") // tells the decimal sign
	inputs = append(inputs, []written{{"", "96.45 N"}, {"", "121.4 g/m2"}, {"", "15 mm"}})
	for range rows {
		row := []written{s.value(r, "N", 0.5, 20000), s.value(r, "g/m2", 20, 4000), s.value(r, "mm", 10, 1500)}
		line(names[r.IntN(len(names))], row[0].cell, row[1].cell, row[2].cell)
		inputs = append(inputs, row)
	}
	return b.String(), inputs
}

// Any number of workers, and any way in which the text comes in, write the
// same bytes and tell the same.
func TestSerialIsParallel(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	for i, s := range styles[:3] {
		text, _ := randomTable(r, s, 50_000) // several blocks
		var first answer
		for _, workers := range []int{1, 2, 7} {
			a := run(t, "tensile", batch.Job{Full: i%2 == 0, By: []string{"name"}, Workers: workers}, text)
			if workers == 1 {
				first = a
			}
			if a.err != nil || a.out != first.out || strings.Join(a.told, "\n") != strings.Join(first.told, "\n") {
				t.Errorf("style %d: %d workers, %v: not what one worker gives", i, workers, a.err)
			}
			if summary(t, a) != summary(t, first) {
				t.Errorf("style %d: %d workers summarise\n%s\none worker\n%s", i, workers, summary(t, a), summary(t, first))
			}
		}
	}
}

func summary(t *testing.T, a answer) string {
	t.Helper()
	var b strings.Builder
	if err := a.totals.WriteSummary(&b, []string{"name"}, 0.95); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestAnyChunks(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 1))
	for i, s := range styles {
		text, _ := randomTable(r, s, 1000)
		whole := run(t, "tensile", batch.Job{Workers: 2}, text)
		for name, in := range map[string]io.Reader{
			"one byte":             iotest.OneByteReader(strings.NewReader(text)),
			"half":                 iotest.HalfReader(strings.NewReader(text)),
			"data and end at once": iotest.DataErrReader(strings.NewReader(text)),
		} {
			if a := runReader(t, "tensile", batch.Job{Workers: 2}, in); a.err != nil || a.out != whole.out {
				t.Errorf("style %d, %s at a time: %v, not what the whole gives", i, name, a.err)
			}
		}
	}
}

// Each row is what a single calculation gives for the same texts.
func TestBatchIsSingle(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	tensile, _ := catalogue.Find("tensile")
	for i, s := range styles {
		text, inputs := randomTable(r, s, 2000)
		for _, full := range []bool{false, true} {
			a := run(t, "tensile", batch.Job{Full: full, Workers: 2}, text)
			rows := readRows(t, s, a.out)[1:]
			if len(rows) != len(inputs) {
				t.Fatalf("style %d: %d rows, want %d", i, len(rows), len(inputs))
			}
			for k, row := range rows {
				want := single(tensile, inputs[k], full)
				got := strings.ReplaceAll(strings.Join(row[4:7], ";"), s.decimal, ".")
				remark := row[7] != "" && row[7] != "warning: default-taken"
				if got != want || (want == ";;") != remark {
					t.Errorf("style %d: %q gives %s, remark %q; a single calculation of %q %s", i, row[:4], got, row[7], inputs[k], want)
				}
			}
		}
	}
}

func readRows(t *testing.T, s style, out string) [][]string {
	t.Helper()
	in := csv.NewReader(strings.NewReader(out))
	in.Comma = rune(s.delimiter[0])
	rows, err := in.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// single is one calculation by itself; it has no results where it is refused.
func single(c calc.Calculation, row []written, full bool) string {
	sheet := c.NewSheet()
	const refused = ";;"
	for i, name := range []string{"force", "grammage", "strip-width"} {
		if row[i].text == "" {
			continue
		}
		if err := sheet.Set(name, row[i].text); err != nil {
			return refused
		}
	}
	if err := sheet.Run(); err != nil {
		return refused
	}
	var results []string
	for _, out := range sheet.Out {
		results = append(results, string(out.AppendNumber(nil, full)))
	}
	return strings.Join(results, ";")
}

// FuzzRun states: nothing panics, the totals add up, and there is a record out
// for the heads and for each row in.
func FuzzRun(f *testing.F) {
	for _, text := range []string{
		"force [N],grammage [g/m2]\n96.4,121.4\noverload,1\n",
		"force;grammage\nN;g/m²\n\"96,4\";121,4\nmean;1;\n",
		"force [N],grammage [g/m2]\n30 ± 0.1,100\n?,1\n[1 2],3\n\"1,234.5\",<5\n",
		"\ufeffname\tforce [N]\tgrammage [g/m2]\na\"b\t1\t2\n\"a\nb\"\t3\t4\n\nforce\n",
		"force [N]\n1\n2\nforce [kN]\n3\n",
	} {
		f.Add(text, false, uint8(2))
		f.Add(text, true, uint8(1))
	}
	tensile, _ := catalogue.Find("tensile")
	f.Fuzz(func(t *testing.T, text string, full bool, workers uint8) {
		told := 0
		job := &batch.Job{
			Calculation: tensile, Full: full, Workers: 1 + int(workers%3),
			Constants: []calc.Pair{{Name: "strip-width", Text: "15 mm"}},
			Columns:   map[string][]string{"force": {"force"}},
			Tell:      func(error) { told++ },
		}
		var delimiter byte = ','
		job.Understood = func(notes []string) {
			for _, note := range notes {
				switch note {
				case "delimiter: semicolon":
					delimiter = ';'
				case "delimiter: tab":
					delimiter = '\t'
				}
			}
		}
		var out bytes.Buffer
		n, err := job.Run(context.Background(), strings.NewReader(text), &out)
		if n.Rows != n.Computed+n.Reported || n.Reported != n.Failed+n.Footers || told != n.Failed {
			t.Fatalf("rows don't add up: %+v, %d told", n, told)
		}
		if out.Len() == 0 {
			if err == nil {
				t.Fatal("nothing written, and no error")
			}
			return
		}
		if got := records(t, out.Bytes(), delimiter); got != 1+n.Rows {
			t.Fatalf("%d rows in, %d records out:\n%s", n.Rows, got, out.Bytes())
		}
	})
}

// records counts the records that were written. encoding/csv would drop the
// blank ones.
func records(t *testing.T, out []byte, delimiter byte) int {
	t.Helper()
	n, quoted, cell := 0, false, true // cell: a cell begins here
	for i := 0; i < len(out); i++ {
		switch c := out[i]; {
		case quoted && c == '"' && i+1 < len(out) && out[i+1] == '"':
			i++
		case c == '"' && (quoted || cell):
			quoted, cell = !quoted, false
		case quoted:
		case c == '\n':
			n, cell = n+1, true
		default:
			cell = c == delimiter
		}
	}
	if quoted {
		t.Fatalf("a quote is not closed:\n%s", out)
	}
	return n
}
