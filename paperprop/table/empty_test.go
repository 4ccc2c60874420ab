package table_test

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/table"
)

// A block that no reader filled holds no record.
func TestEmptyBlock(t *testing.T) {
	if new(table.Block).Record(new(table.Record)) {
		t.Error("an empty block has a record")
	}
}

// A source that gives nothing and does not end is given up: at once, behind some rows,
// and under a decoder.
func TestNothingGiven(t *testing.T) {
	for _, text := range []string{"", "id;force\n1;2\n", "\xff\xfei\x00d\x00\n\x001\x00\n\x00"} {
		source := io.MultiReader(strings.NewReader(text), idle{})
		if _, err := table.Open(source, table.Options{Name: "line.csv"}); !errors.Is(err, io.ErrNoProgress) {
			t.Errorf("behind %q: %v, want %v", text, err, io.ErrNoProgress)
		}
	}
}

type idle struct{}

func (idle) Read([]byte) (int, error) { return 0, nil }

// Records gives each record, then the error that ends the table; a loop may be left.
func TestAllRecords(t *testing.T) {
	const text = "id;force\nA;1,5\nB\nMean;1,5\nforce;id\nC;2,5\n"
	open := func(text string) *table.Reader {
		r, err := table.Open(strings.NewReader(text), table.Options{Name: "f"})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	var got []string
	for rec, err := range open(text).Records() {
		if err != nil {
			got = append(got, err.Error())
			continue
		}
		got = append(got, fmt.Sprintf("%d %v %s", rec.Line, rec.Class, rec.Cell(0)))
	}
	want := []string{"2 data A", "3 bad B", "4 footer Mean", "5 changed force",
		"f:5: other heads, or the same in another order or with other units, want the heads of line 1 again, or a file of its own for what follows"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	for rec, err := range open(text).Records() {
		if rec.Line != 2 || err != nil {
			t.Errorf("line %d, %v, want 2 alone", rec.Line, err)
		}
		break
	}
	for rec := range open("id;force\n").Records() {
		t.Errorf("%v in a table without rows", rec)
	}
}

// Of a table that no file holds no file is named, and no line.
func TestTableWithoutFile(t *testing.T) {
	if _, _, err := table.ReadColumn(strings.NewReader("force [N],piece\n1,2\n"), table.Options{}, "mass"); err == nil || err.Error() != `no one column has the head "mass", heads are force, piece` {
		t.Error(err)
	}
	if _, err := table.ReadGrid(strings.NewReader("a [g],b [kg]\n1,2\n"), table.Options{}); err == nil || err.Error() != `columns "a" and "b" have the units "g" and "kg", want one unit` {
		t.Error(err)
	}
	got := table.NewLayout("mill.db", []table.Column{{Head: "force", Unit: "N"}}).Notes()
	if want := []string{"encoding: UTF-8", "delimiter: comma", "decimal sign: point, as given", `column 1: "force" in N`}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
