package table_test

import (
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop/table"
)

func TestReadGrid(t *testing.T) {
	g, err := table.ReadGrid(strings.NewReader("lab;a;b\n;g;g\nX;1,5;2\nY;n/a;1.234,5\n\nmean;1;2\n"), table.Options{Name: "f"})
	if err != nil {
		t.Fatal(err)
	}
	if g.Unit != "g" || len(g.Rows) != 2 || g.Rows[0][0] != 1.5 || !math.IsNaN(g.Rows[1][0]) || g.Rows[1][1] != 1234.5 || g.Lines[1] != 4 {
		t.Errorf("got %+v", g)
	}
	for _, test := range []struct{ text, want string }{
		{"a [g],b [kg]\n1,2\n", `columns "a" and "b" have the units "g" and "kg"`},
		{"a [g],b [g]\n1,overload\n", `f:2:2: b "overload": not a number`},
		{"a [g],b [g]\n1,<5\n", `f:2:2: b "<5": not a number`},
	} {
		if _, err := table.ReadGrid(strings.NewReader(test.text), table.Options{Name: "f"}); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v, want in it %s", test.text, err, test.want)
		}
	}
	if g, err := table.ReadGrid(strings.NewReader("a,b\n1,2\n3,4\n"), table.Options{Name: "f"}); err != nil || len(g.Rows[1]) != 2 || g.Unit != "" {
		t.Errorf("without units: %+v, %v", g, err)
	}
}
