package table_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"millmaths.example/paperprop/table"
)

// records writes down all records of a block.
func records(b *table.Block) string {
	var out strings.Builder
	var rec table.Record
	for b.Record(&rec) {
		fmt.Fprintf(&out, "%d %v %q %v\n", rec.Line, rec.Class, rec.Fields, rec.Err)
	}
	return out.String()
}

// A block that travelled is read as one that stayed.
func TestBlocksTravel(t *testing.T) {
	files, err := filepath.Glob("../../examples/quillbeck/*.csv")
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	long := filepath.Join(t.TempDir(), "long.csv")
	row := "\"two\nlines\",\"a \"\"quoted\"\" name\",96.4\n,x,\nMean,,96\nname,note [g],force [N]\n\"open\" end,,\n"
	if err := os.WriteFile(long, []byte("name,note [g],force [N]\n"+strings.Repeat(row, 20_000)), 0o600); err != nil {
		t.Fatal(err)
	}
	deep := filepath.Join(t.TempDir(), "deep.csv")
	if err := os.WriteFile(deep, []byte(strings.Repeat("name,force,,mass\n,MD,CD,\n,N,N,g\nA,1.5,2.5,3\n\n", 20_000)), 0o600); err != nil {
		t.Fatal(err)
	}
	doubtful := filepath.Join(t.TempDir(), "doubtful.csv")
	if err := os.WriteFile(doubtful, []byte("name,no,force [N]\n"+strings.Repeat("A1,1,96.4\nA2,2,96.6\nMean,,96.5\nQ1,,96.4\nTotal A,,193\nS,,0.1\n", 20_000)+",,96.5\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	late := filepath.Join(t.TempDir(), "late.csv") // its refusals name the option
	if err := os.WriteFile(late, []byte("name;force [N]\n"+strings.Repeat("A;96\n", 250_000)+"A;96,4\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	blocks, named := 0, 0
	for _, name := range append(files, long, deep, doubtful, late, "../../examples/quillbeck/tensile.txt") {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		r, err := table.Open(f, table.Options{Name: name, DecimalName: "--decimal"})
		if err != nil {
			f.Close()
			continue // a file that is refused has no blocks
		}
		for {
			var stays, travels table.Block
			if err := r.Next(&stays); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
			data, err := stays.MarshalBinary()
			if err != nil {
				t.Fatal(err)
			}
			if err := travels.UnmarshalBinary(data); err != nil {
				t.Fatal(err)
			}
			here, there := stays.Layout(), travels.Layout()
			if fmt.Sprint(here.Columns, here.FindAll("force")) != fmt.Sprint(there.Columns, there.FindAll("force")) {
				t.Errorf("%s: columns %v became %v", name, here.Columns, there.Columns)
			}
			want, got := records(&stays), records(&travels)
			if got != want || want == "" {
				t.Errorf("%s: block %d became\n%.300s\nwant\n%.300s", name, stays.Index(), got, want)
			}
			named += strings.Count(got, "want whole numbers, or --decimal point or --decimal comma")
			blocks++
		}
		f.Close()
	}
	if blocks < len(files) || named != 1 {
		t.Errorf("%d blocks of %d files, %d refusals that name the option, want 1", blocks, len(files), named)
	}
}

func TestBlocksThatDoNotTravel(t *testing.T) {
	var empty table.Block
	if _, err := empty.MarshalBinary(); err == nil {
		t.Error("an empty block was sent")
	}
	for _, data := range []string{"", "no block"} {
		if err := empty.UnmarshalBinary([]byte(data)); err == nil {
			t.Errorf("%q was taken for a block", data)
		}
	}
	r, err := table.Open(strings.NewReader("a,b\n1,2\n"), table.Options{IsUnit: func(string) bool { return false }})
	if err != nil {
		t.Fatal(err)
	}
	if err := r.Next(&empty); err != nil {
		t.Fatal(err)
	}
	if _, err := empty.MarshalBinary(); err == nil {
		t.Error("a block was sent without its function for units")
	}
}
