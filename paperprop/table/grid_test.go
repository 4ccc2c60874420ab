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
		{"lab,a\n1,2\n", "no column has a unit"},
		{"a [g],b [g]\n1,<5\n", `f:2:2: b "<5": not a number`},
	} {
		if _, err := table.ReadGrid(strings.NewReader(test.text), table.Options{Name: "f"}); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %v, want in it %s", test.text, err, test.want)
		}
	}
	g, err = table.ReadGrid(strings.NewReader("a [g/m²],b/(g/m2),c [gsm]\n1,2,3\n"), table.Options{Name: "f"})
	if err != nil || g.Unit != "g/m²" || len(g.Heads) != 3 {
		t.Errorf("spellings of one unit: %+v, %v", g, err)
	}
	g, err = table.ReadGrid(strings.NewReader("lab,r1 [g],r2 [g],mean [g]\n1,2,3,2.5\nmean,4,5,4.5\n"), table.Options{Name: "f"})
	if err != nil || len(g.Rows) != 1 || len(g.Rows[0]) != 2 {
		t.Errorf("the writer's own mean: %+v, %v", g, err)
	}
	said := strings.Join(g.Reading, "\n")
	for _, want := range []string{"2 columns in g, from 2 (r1) to 3 (r2)", "not read: column 1 (lab), 4 (mean)", `line 3 "mean"`} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q in\n%s", want, said)
		}
	}
	g, err = table.ReadGrid(strings.NewReader("lab,r1 [g]\nA,2\n"), table.Options{Name: "f"})
	if err != nil || g.Reading[len(g.Reading)-2] != "read: column 2 (r1) in g" {
		t.Errorf("one column: %q, %v", g.Reading, err)
	}
}
