package oracles

import (
	"bytes"
	"encoding/csv"
	"errors"
	"flag"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/table"
)

var tables = flag.Int("tables", 20_000, "how many random tables to compare with encoding/csv")

// Random tables that encoding/csv wrote come out as it reads them: heads, cells,
// quotes over lines, empty cells.
func TestTables(t *testing.T) {
	pieces := []string{"", "a", "Zug", "1", "2.5", "-3", "\"", "\n", ",", ";", "\t", " ", "mean", "n/a", "µm", "x y", "--", "<5", "'", "=1+1", "(", "0"}
	cells := 0
	for k := range *tables {
		r := rand.New(rand.NewPCG(uint64(k), 1))
		delimiter := []byte{',', ';', '\t'}[r.IntN(3)]
		columns := 2 + r.IntN(4)
		rows := [][]string{nil}
		for j := range columns {
			rows[0] = append(rows[0], "head "+string(rune('a'+j)))
		}
		for range 1 + r.IntN(6) {
			var row []string
			for range columns {
				cell := ""
				for range r.IntN(4) {
					cell += pieces[r.IntN(len(pieces))]
				}
				row = append(row, strings.TrimSpace(cell)) // outer blanks are no part of a cell to the reader
			}
			if strings.Trim(strings.Join(row, ""), "-") != "" { // nor are rows of nothing, or of dashes, rows of data
				rows = append(rows, row)
			}
		}
		var file bytes.Buffer
		w := csv.NewWriter(&file)
		w.Comma, w.UseCRLF = rune(delimiter), r.IntN(2) == 0
		if err := w.WriteAll(rows); err != nil {
			t.Fatal(err)
		}
		theirs := csv.NewReader(bytes.NewReader(file.Bytes()))
		theirs.Comma = rune(delimiter)
		want, err := theirs.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		got, err := read(file.Bytes(), delimiter)
		if err != nil {
			t.Fatalf("table %d: %v\n%q", k, err, file.Bytes())
		}
		for i := range want[1:] {
			if i >= len(got) || !slices.Equal(got[i], want[i+1]) {
				t.Fatalf("table %d row %d: got %q, want %q\n%q", k, i+1, got, want[i+1], file.Bytes())
			}
			cells += columns
		}
		if len(got) != len(want)-1 {
			t.Fatalf("table %d: %d rows, want %d\n%q", k, len(got), len(want)-1, file.Bytes())
		}
	}
	t.Logf("%d tables, %d cells", *tables, cells)
}

// read returns the cells of all records below the heads.
func read(file []byte, delimiter byte) (rows [][]string, err error) {
	r, err := table.Open(bytes.NewReader(file), table.Options{Delimiter: delimiter, Decimal: '.', Encoding: "utf-8", Head: 1, IsUnit: func(string) bool { return false }})
	if err != nil {
		return nil, err
	}
	var b table.Block
	var rec table.Record
	for {
		err := r.Next(&b)
		for b.Record(&rec) {
			var row []string
			for _, f := range rec.Fields {
				row = append(row, strings.ReplaceAll(string(f), "\r\n", "\n")) // as encoding/csv does within quotes
			}
			rows = append(rows, row)
		}
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
	}
}
