package batch_test

import (
	"errors"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

// bind opens a text and binds the job to it.
func bind(t *testing.T, calculation string, job *batch.Job, text string) (*table.Reader, *batch.Bound, error) {
	t.Helper()
	job.Calculation, _ = catalogue.Find(calculation)
	r, err := table.Open(strings.NewReader(text), job.Options)
	if err != nil {
		t.Fatal(err)
	}
	b, err := job.Bind(r.Layout())
	return r, b, err
}

func sorted(text string) string {
	lines := strings.SplitAfter(text, "\n")
	slices.Sort(lines)
	return strings.Join(lines, "")
}

// Blocks computed apart, each after a journey, are what Run writes, once sorted.
func TestBoundBlocksAreRun(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 1))
	for i, s := range styles[:3] {
		text, _ := randomTable(random, s, 45_000)
		text += "Mean" + s.delimiter + "96" + s.delimiter + s.delimiter + "\n"
		whole := run(t, "tensile", batch.Job{Full: i%2 == 0}, text)
		job := batch.Job{Full: i%2 == 0}
		r, _, err := bind(t, "tensile", &job, text)
		if err != nil {
			t.Fatal(err)
		}
		var computed, unused, head string
		var told []string
		blocks, rows := 0, 0
		for {
			var cut, sent table.Block
			if err := r.Next(&cut); err == io.EOF {
				break
			} else if err != nil {
				t.Fatal(err)
			}
			data, err := cut.MarshalBinary()
			if err != nil {
				t.Fatal(err)
			}
			if err := sent.UnmarshalBinary(data); err != nil {
				t.Fatal(err)
			}
			b, err := job.Bind(sent.Layout())
			if err != nil {
				t.Fatal(err)
			}
			part, err := b.Block(&sent)
			if err != nil {
				t.Fatal(err)
			}
			computed, unused, head = computed+string(part.Computed), unused+string(part.Unused), string(b.Head())
			for _, err := range part.Told {
				told = append(told, err.Error())
			}
			blocks, rows = blocks+1, rows+part.Totals.Rows
		}
		if got := head + computed + unused; sorted(got) != sorted(whole.out) {
			t.Errorf("style %d: the blocks do not give what Run gives", i)
		}
		if blocks < 2 || unused == "" || rows != whole.totals.Rows || !slices.Equal(told, whole.told) {
			t.Errorf("style %d: %d blocks, %d rows (%d), told %d (%d)", i, blocks, rows, whole.totals.Rows, len(told), len(whole.told))
		}
	}
}

func TestBoundEndsAtOtherHeads(t *testing.T) {
	var job batch.Job
	r, b, err := bind(t, "tensile", &job, "force [N],grammage [g/m2]\n96,121\ngrammage [g/m2],force [N]\n121,96\n")
	if err != nil {
		t.Fatal(err)
	}
	var block table.Block
	if err := r.Next(&block); err != nil {
		t.Fatal(err)
	}
	part, err := b.Block(&block)
	if err == nil || !strings.Contains(err.Error(), "other heads") || strings.Contains(string(part.Computed), "121,96") {
		t.Errorf("%v\n%s", err, part.Computed)
	}
}

// Rows that a program brings cell by cell.
func TestBoundCompute(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	job := batch.Job{Calculation: tensile, Columns: map[string][]string{"force": {"f_max"}}}
	layout := table.NewLayout("readings", []table.Column{{Head: "piece"}, {Head: "f_max", Unit: "N"}, {Head: "strip_width", Unit: "mm"}, {Head: "grammage", Unit: "g/m2"}})
	b, err := job.Bind(layout)
	if err != nil {
		t.Fatal(err)
	}
	var heads []string
	for _, c := range b.Columns() {
		heads = append(heads, c.Input.Name+"="+layout.Columns[c.Column].Head+" "+c.Unit.String())
		if !c.Bare {
			t.Errorf("%s takes no number alone", c.Input.Name)
		}
	}
	if got := strings.Join(heads, "; "); got != "force=f_max N; strip-width=strip_width mm; grammage=grammage g/m2" {
		t.Error(got)
	}
	for _, test := range []struct {
		cells        string
		strength     float64 // kN/m: force over width
		remark, told string
	}{
		{"a|90|15|100", 6, "", ""},
		{"b||15|100", 0, `f_max: no reading, want a number in N`, `readings:7:2: f_max: no reading, want a number in N`},
		{"c|90|-1|100", 0, "strip-width is -1 mm, want above 0 mm", "readings:7:3: strip-width is -1 mm, want above 0 mm"},
		{"d|90||100", 6, "warning: default-taken", ""},
	} {
		rec := table.Record{Line: 7}
		for _, cell := range strings.Split(test.cells, "|") {
			rec.Fields = append(rec.Fields, []byte(cell))
		}
		var totals batch.Totals
		err := b.Compute(&rec)
		if got := b.Remark(err, &totals); got != test.remark {
			t.Errorf("%s: remark %q, want %q", test.cells, got, test.remark)
		}
		if err != nil || test.told != "" {
			if err == nil || err.Error() != test.told {
				t.Errorf("%s: %v, want %s", test.cells, err, test.told)
			}
			continue
		}
		out, _ := b.Sheet().Output("tensile-strength")
		if out.Printed() != test.strength {
			t.Errorf("%s: %v, want %v", test.cells, out.Printed(), test.strength)
		}
	}
}

func TestBindRefuses(t *testing.T) {
	tensile, _ := catalogue.Find("tensile")
	convert, _ := catalogue.Find("convert")
	layout := func(unit string) *table.Layout {
		return table.NewLayout("readings", []table.Column{{Head: "force", Unit: unit}, {Head: "grammage", Unit: "g/m2"}})
	}
	for _, test := range []struct {
		job  batch.Job
		unit string
		want string
	}{
		{batch.Job{}, "N", "without a calculation"},
		{batch.Job{Calculation: tensile, Lot: "*"}, "N", "lots and summaries"},
		{batch.Job{Calculation: tensile, Together: true}, "N", "lots and summaries"},
		{batch.Job{Calculation: convert}, "N", "tool"},
		{batch.Job{Calculation: tensile}, "kg", `readings: force: column "force": "kg" is no unit of force`},
	} {
		_, err := test.job.Bind(layout(test.unit))
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%+v: %v, want %q", test.job, err, test.want)
		}
	}
	_, err := (&batch.Job{Calculation: tensile}).Bind(layout("kg"))
	if unit := (*paperprop.UnitError)(nil); !errors.As(err, &unit) {
		t.Errorf("%v is no UnitError", err)
	}
}

// A block of another table is refused: its cells would be read under the wrong heads.
func TestBoundToOneTable(t *testing.T) {
	const heads = "force [N],grammage [g/m2]\n"
	for _, test := range []struct{ text, want string }{
		{heads + "85,80\n", ""},
		{heads + "85.5,80\n", ""},
		{"grammage [g/m2],force [N]\n80,85\n", "batch: a block with the heads grammage [g/m2], force [N], and the job is bound to force [N], grammage [g/m2]: bind it to the layout of each table"},
		{"force [kN],grammage [g/m2]\n85,80\n", "batch: a block with the heads force [kN], grammage [g/m2], and the job is bound to force [N], grammage [g/m2]: bind it to the layout of each table"},
		{"force [N];grammage [g/m2]\n85,5;80\n", `batch: a block with ';' between cells and ',' as the decimal sign, and the job is bound to ',' and '.': bind it to the layout of each table`},
	} {
		job := batch.Job{}
		_, b, err := bind(t, "tensile", &job, heads+"90,80\n")
		if err != nil {
			t.Fatal(err)
		}
		r, err := job.Open(strings.NewReader(test.text))
		if err != nil {
			t.Fatal(err)
		}
		var other table.Block
		if err := r.Next(&other); err != nil {
			t.Fatal(err)
		}
		part, err := b.Block(&other)
		if test.want == "" && (err != nil || part.Totals.Computed != 1) || test.want != "" && (err == nil || err.Error() != test.want || part.Totals.Rows > 0) {
			t.Errorf("a block of %q: %d rows computed, %v, want %s", test.text, part.Totals.Computed, err, test.want)
		}
	}
}

// A row that is refused leaves no results of the row before, whichever cell it is.
func TestBoundRefusedRow(t *testing.T) {
	c, _ := catalogue.Find("replicates")
	job := batch.Job{Calculation: c, Columns: map[string][]string{"value": {"first", "second"}}}
	b, err := job.Bind(table.NewLayout("mill.db", []table.Column{{Head: "first", Unit: "g"}, {Head: "second", Unit: "g"}}))
	if err != nil {
		t.Fatal(err)
	}
	row := func(first, second string) error {
		return b.Compute(&table.Record{Line: 4, Fields: [][]byte{[]byte(first), []byte(second)}})
	}
	mean, _ := b.Sheet().Output("mean")
	if err := row("1", "3"); err != nil || mean.Full() != "2 g" {
		t.Fatalf("%s, %v", mean.Full(), err)
	}
	var cell *table.CellError
	if err := row("5", "much"); !errors.As(err, &cell) || cell.Column != 2 || mean.Present() || b.Sheet().In[0].Given() {
		t.Errorf("a row that is refused: %v, mean %q, want none", err, mean.Full())
	}
}

// What becomes of the caller's columns is nothing to a layout that was made of them.
func TestLayoutOfItsOwn(t *testing.T) {
	columns := []table.Column{{Head: "force", Unit: "N"}, {Head: "grammage", Unit: "g/m2"}}
	l := table.NewLayout("mill.db", columns)
	columns[0].Unit = "kN"
	c, _ := catalogue.Find("tensile")
	job := batch.Job{Calculation: c}
	b, err := job.Bind(l)
	if err != nil {
		t.Fatal(err)
	}
	err = b.Compute(&table.Record{Fields: [][]byte{[]byte("85.5"), []byte("80")}})
	if got := b.Sheet().Out[0].Full(); err != nil || got != "5.7 kN/m" {
		t.Errorf("85.5 N over 15 mm are %s, %v, want 5.7 kN/m", got, err)
	}
}
