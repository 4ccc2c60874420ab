package unitparquet_test

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"

	"millmaths.example/examples/parquet/unitparquet"
)

// A column is one of a file made for a test; rows are Arrow's JSON.
type column struct {
	name string
	kind arrow.DataType
	unit string
}

var (
	float64s = arrow.PrimitiveTypes.Float64
	text     = arrow.BinaryTypes.String
)

// write makes a Parquet file of row groups, each an array of rows in JSON.
func write(t *testing.T, columns []column, groups ...string) []byte {
	t.Helper()
	var fields []arrow.Field
	for _, c := range columns {
		f := arrow.Field{Name: c.name, Type: c.kind, Nullable: true}
		if c.unit != "" {
			f.Metadata = arrow.NewMetadata([]string{unitparquet.UnitKey}, []string{c.unit})
		}
		fields = append(fields, f)
	}
	schema := arrow.NewSchema(fields, nil)
	var out bytes.Buffer
	w, err := pqarrow.NewFileWriter(schema, &out, parquet.NewWriterProperties(), pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		t.Fatal(err)
	}
	for _, rows := range groups {
		r, _, err := array.RecordFromJSON(memory.DefaultAllocator, schema, strings.NewReader(rows))
		if err != nil {
			t.Fatal(err)
		}
		if err := w.Write(r); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func csv(t *testing.T, data []byte) string {
	t.Helper()
	var out bytes.Buffer
	if err := unitparquet.WriteCSV(context.Background(), "rows", bytes.NewReader(data), &out); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func find(t *testing.T, name string) calc.Calculation {
	t.Helper()
	c, ok := catalogue.Find(name)
	if !ok {
		t.Fatalf("no calculation %s", name)
	}
	return c
}

// alike reports whether two tables agree cell by cell: to the byte, but for the last
// digit of numbers. A batch prints digits that read back as the canonical value; a
// column of floats holds the number in its own unit, which may be beside them.
func alike(a, b string) bool {
	cells := func(text string) []string {
		return strings.FieldsFunc(text, func(c rune) bool { return c == ',' || c == '\n' })
	}
	return slices.EqualFunc(cells(a), cells(b), func(a, b string) bool {
		x, err := strconv.ParseFloat(a, 64)
		y, err2 := strconv.ParseFloat(b, 64)
		return a == b || err == nil && err2 == nil && math.Abs(x-y) <= 4e-16*math.Abs(x)
	})
}

// What comes out, written as a table, is what a batch makes of what went in,
// written as a table, remarks and all.
func TestRunIsBatch(t *testing.T) {
	var many strings.Builder
	for i := range 40_000 {
		fmt.Fprintf(&many, `,{"piece":"H%d","force":%v,"strip_width":%v,"grammage":%v}`, i, 60+float64(i%977)/7, 15-float64(i%3), 121.4)
	}
	tensile := []column{{"piece", text, ""}, {"force", float64s, "N"}, {"strip_width", arrow.PrimitiveTypes.Int32, "mm"}, {"grammage", arrow.PrimitiveTypes.Float32, "lb/1000ft2"}}
	for _, test := range []struct {
		calculation string
		columns     []column
		groups      []string
		job         batch.Job
		failed      int
	}{
		{"tensile", tensile, []string{
			`[{"piece":"a, b","force":96.4,"strip_width":15,"grammage":24.9},{"piece":"c","strip_width":15,"grammage":24.9},
			  {"piece":"d","force":-3,"strip_width":15,"grammage":24.9},{"piece":"e","force":96.4,"grammage":24.9}]`,
			`[{"piece":"f","force":1e-300,"strip_width":15,"grammage":24.9}]`}, batch.Job{}, 2},
		{"tensile", []column{{"f_max", text, ""}, {"strip-width", arrow.PrimitiveTypes.Uint8, "mm"}}, []string{
			`[{"f_max":"96.4 N","strip-width":15},{"f_max":"9.83 kgf","strip-width":15},{"f_max":"96.4","strip-width":15},{"f_max":"overload","strip-width":15}]`},
			batch.Job{Columns: map[string][]string{"force": {"f_max"}}, Constants: []calc.Pair{{Name: "grammage", Text: "121.4 g/m2"}}}, 2},
		{"bale-lot", []column{{"load", text, ""}, {"mass", arrow.ListOf(float64s), "kg"}, {"moisture", arrow.ListOf(float64s), "%"}}, []string{
			`[{"load":"Q-0411","mass":[512.5,498,520.5],"moisture":[11.2,10.9,12.4]},{"load":"Q-0412","mass":[512.5],"moisture":[11.2,12]}]`}, batch.Job{}, 1},
		{"edge-crush", []column{{"force", float64s, "N"}, {"length", float64s, "mm"}, {"method", text, ""}}, []string{
			`[{"force":700,"length":100,"method":"iso-3037"},{"force":700,"length":100,"method":"iso-0"}]`}, batch.Job{}, 1},
		{"reel", []column{{"diameter", float64s, "mm"}, {"core-diameter", float64s, "mm"}, {"reel-thickness", float64s, "um"}, {"remark", text, ""}}, []string{
			`[{"diameter":1250,"core-diameter":100,"reel-thickness":345,"remark":"dented"},{"core-diameter":100,"reel-thickness":345,"remark":"sold"}]`}, batch.Job{}, 1},
		{"tensile", tensile, []string{"[" + many.String()[1:] + "]"}, batch.Job{Workers: 3}, 0},
	} {
		in := write(t, test.columns, test.groups...)
		job := test.job
		job.Calculation = find(t, test.calculation)
		job.Options.Name = "rows"
		var told []string
		job.Tell = func(err error) { told = append(told, err.Error()) }
		var out bytes.Buffer
		totals, err := unitparquet.Run(context.Background(), &job, bytes.NewReader(in), &out)
		if err != nil {
			t.Errorf("%s: %v", test.calculation, err)
			continue
		}
		table := csv(t, in)
		byBatch := job
		byBatch.Full = true
		byBatch.Options.Decimal, byBatch.Options.Delimiter = '.', ','
		byBatch.Tell = nil
		var rows bytes.Buffer
		if _, err := byBatch.Run(context.Background(), strings.NewReader(table), &rows); err != nil {
			t.Fatal(err)
		}
		if got := csv(t, out.Bytes()); !alike(got, rows.String()) {
			t.Errorf("%s gives\n%.1500s\na batch gives\n%.1500s", test.calculation, got, rows.String())
		}
		if totals.Failed != test.failed || len(told) != test.failed || totals.Rows != totals.Computed+totals.Failed {
			t.Errorf("%s: %d failed and %d told, want %d: %v", test.calculation, totals.Failed, len(told), test.failed, told)
		}
		f, err := file.NewParquetReader(bytes.NewReader(out.Bytes()))
		if err != nil || f.NumRowGroups() != len(test.groups) {
			t.Errorf("%s: %d row groups, want %d: %v", test.calculation, f.NumRowGroups(), len(test.groups), err)
		}
	}
}

// A row without any value is no blank line here: it is told.
func TestRowOfNulls(t *testing.T) {
	in := write(t, []column{{"force", float64s, "N"}, {"grammage", float64s, "g/m2"}}, `[{},{"force":90,"grammage":100}]`)
	var out bytes.Buffer
	totals, err := unitparquet.Run(context.Background(), &batch.Job{Calculation: find(t, "tensile"), Workers: 5}, bytes.NewReader(in), &out)
	if err != nil || totals.Rows != 2 || totals.Failed != 1 {
		t.Errorf("%+v, %v", totals, err)
	}
	if got := csv(t, in); got != "force [N],grammage [g/m2]\n-,\n90,100\n" {
		t.Errorf("%q", got)
	}
	if got := csv(t, out.Bytes()); !strings.Contains(got, "\n,,,,,\"force: no reading, want a number in N\"\n90,100,6,") {
		t.Error(got)
	}
}

func TestNoNumber(t *testing.T) {
	fields := []arrow.Field{{Name: "force", Type: float64s, Metadata: arrow.NewMetadata([]string{"unit"}, []string{"N"})}}
	schema := arrow.NewSchema(fields, nil)
	b := array.NewRecordBuilder(memory.DefaultAllocator, schema)
	b.Field(0).(*array.Float64Builder).AppendValues([]float64{math.NaN(), math.Inf(1), 90}, nil)
	var in, out bytes.Buffer
	w, err := pqarrow.NewFileWriter(schema, &in, nil, pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Write(b.NewRecordBatch()); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	job := &batch.Job{Calculation: find(t, "tensile"), Constants: []calc.Pair{{Name: "grammage", Text: "100 g/m2"}}}
	totals, err := unitparquet.Run(context.Background(), job, bytes.NewReader(in.Bytes()), &out)
	if err != nil || totals.Failed != 2 || totals.Computed != 1 {
		t.Errorf("%+v, %v:\n%s", totals, err, csv(t, out.Bytes()))
	}
}

// The columns that were there keep their units, and the results bring theirs.
func TestUnitsOut(t *testing.T) {
	in := write(t, []column{{"force", float64s, "N"}, {"grammage", float64s, "g/m2"}}, `[{"force":90,"grammage":100}]`)
	var out bytes.Buffer
	if _, err := unitparquet.Run(context.Background(), &batch.Job{Calculation: find(t, "tensile")}, bytes.NewReader(in), &out); err != nil {
		t.Fatal(err)
	}
	f, err := file.NewParquetReader(bytes.NewReader(out.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	r, err := pqarrow.NewFileReader(f, pqarrow.ArrowReadProperties{}, memory.DefaultAllocator)
	if err != nil {
		t.Fatal(err)
	}
	schema, err := r.Schema()
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"force": "N", "grammage": "g/m2", "tensile-strength": "kN/m", "tensile-index": "kN.m/kg", "remark": ""} {
		found, _ := schema.FieldsByName(name)
		if len(found) != 1 {
			t.Errorf("%d columns %s", len(found), name)
			continue
		}
		if got, _ := found[0].Metadata.GetValue("unit"); got != want {
			t.Errorf("%s is in %q, want %q", name, got, want)
		}
	}
}

func TestRunRefuses(t *testing.T) {
	force, grammage := column{"force", float64s, "N"}, column{"grammage", float64s, "g/m2"}
	for _, test := range []struct {
		name    string
		columns []column
		want    string
	}{
		{"no unit", []column{{"force", float64s, ""}, grammage}, `column "force" has no unit, want one such as N in its metadata under the key "unit"`},
		{"another dimension", []column{{"force", float64s, "kg"}, grammage}, "force"},
		{"no such unit", []column{{"force", float64s, "newtonn"}, grammage}, "newtonn"},
		{"ambiguous", []column{{"force", float64s, "lb"}, grammage}, "lb"},
		{"no column", []column{{"kraft", float64s, "N"}, grammage}, "no column for force"},
		{"no input", []column{{"a", float64s, "N"}}, "no column is named like an input"},
		{"two of a name", []column{force, {"FORCE", float64s, "N"}, grammage}, "2 columns"},
		{"no number", []column{{"force", arrow.FixedWidthTypes.Boolean, "N"}, grammage}, `column "force" holds bool`},
		{"a list", []column{{"force", arrow.ListOf(float64s), "N"}, grammage}, "want numbers"},
	} {
		in := write(t, test.columns, "[{}]")
		var out bytes.Buffer
		job := &batch.Job{Calculation: find(t, "tensile")}
		job.Options.Name = "rows.parquet"
		_, err := unitparquet.Run(context.Background(), job, bytes.NewReader(in), &out)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %q", test.name, err, test.want)
		}
	}
	whole := write(t, []column{force, grammage}, `[{"force":90,"grammage":100}]`)
	for _, data := range [][]byte{nil, []byte("force,grammage\n1,2\n"), whole[:len(whole)/2], whole[len(whole)/2:]} {
		_, err := unitparquet.Run(context.Background(), &batch.Job{Calculation: find(t, "tensile")}, bytes.NewReader(data), &bytes.Buffer{})
		if err == nil {
			t.Errorf("%d bytes of %d were taken for a file", len(data), len(whole))
		}
	}
}
