package table_test

import (
	"errors"
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

// A source that gives nothing and does not end is given up.
func TestNothingGiven(t *testing.T) {
	if _, err := table.Open(idle{}, table.Options{Name: "line.csv"}); !errors.Is(err, io.ErrNoProgress) {
		t.Errorf("%v, want %v", err, io.ErrNoProgress)
	}
}

type idle struct{}

func (idle) Read([]byte) (int, error) { return 0, nil }

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
