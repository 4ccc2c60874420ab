package table_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"millmaths.example/paperprop/table"
)

// TestAppendCSV reads back with encoding/csv of the standard library (library)
// what AppendCSV wrote.
func TestAppendCSV(t *testing.T) {
	rnd := rand.New(rand.NewPCG(8, 1))
	pieces := []string{"a", "µ", "1.5", ",", ";", "\t", "\"", "\n", " ", ""}
	for _, delimiter := range []byte{',', ';', '\t'} {
		var want [][]string
		var text []byte
		for range 500 {
			row := make([]string, 3)
			for i := range row {
				for range rnd.IntN(4) {
					row[i] += pieces[rnd.IntN(len(pieces))]
				}
				if i > 0 {
					text = append(text, delimiter)
				}
				text = table.AppendCSV(text, delimiter, []byte(row[i]))
			}
			text = append(text, '\n')
			want = append(want, row)
		}
		r := csv.NewReader(bytes.NewReader(text))
		r.Comma = rune(delimiter)
		got, err := r.ReadAll()
		if err != nil {
			t.Fatalf("delimiter %q: %v", delimiter, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("delimiter %q (-want +got):\n%s", delimiter, diff)
		}
	}
	for _, test := range []struct{ cell, want string }{
		{"plain", "plain"}, {"", ""}, {"a,b", `"a,b"`}, {`5"`, `"5"""`}, {" x", `" x"`}, {"a\rb", "\"a\rb\""},
	} {
		if got := string(table.AppendCSV(nil, ',', []byte(test.cell))); got != test.want {
			t.Errorf("AppendCSV(%q) = %s, want %s (published: RFC 4180, 2005, section 2)", test.cell, got, test.want)
		}
	}
}

// TestAgainstEncodingCSV reads well-formed tables with quotes in both ways
// (library: encoding/csv of the standard library).
func TestAgainstEncodingCSV(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 9))
	pieces := []string{"a", "b7", "1.5", ",", "\"", "\n", "-"}
	text := []byte("id,x,y\n0,1,2\n")
	for i := range 2000 {
		text = fmt.Appendf(text, "%d", i)
		for range 2 {
			var cell string
			for range rnd.IntN(4) {
				cell += pieces[rnd.IntN(len(pieces))]
			}
			text = append(text, ',')
			text = table.AppendCSV(text, ',', []byte(strings.TrimSpace(cell)))
		}
		text = append(text, '\n')
	}
	want, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	r, err := table.Open(bytes.NewReader(text), table.Options{Decimal: '.'})
	if err != nil {
		t.Fatal(err)
	}
	got := want[:1:1]
	var b table.Block
	var rec table.Record
	for {
		if err := r.Next(&b); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		for b.Record(&rec) {
			row := make([]string, len(rec.Fields))
			for i, cell := range rec.Fields {
				row[i] = string(cell)
			}
			got = append(got, row)
		}
	}
	for _, row := range want {
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("records (-want +got):\n%s", diff)
	}
}

func ExampleOpen() {
	const file = "Muster;Kraft\n;N\nH120-7/1;34,5\nH120-7/2;overload\nMittel;34,5\n"
	r, err := table.Open(strings.NewReader(file), table.Options{Name: "lab.csv"})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, note := range r.Layout().Notes()[:4] {
		fmt.Println(note)
	}
	for rec, err := range r.Records() {
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d %v %s\n", rec.Line, rec.Class, rec.Cell(1))
	}
	// Output:
	// encoding: UTF-8
	// delimiter: semicolon
	// decimal sign: comma (line 3, "34,5")
	// line 1: heads; line 2: units
	// 3 data 34,5
	// 4 data overload
	// 5 footer 34,5
}
