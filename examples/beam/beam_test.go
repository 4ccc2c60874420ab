package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"
	"github.com/apache/beam/sdks/v2/go/pkg/beam"

	"millmaths.example/examples/parquet/unitparquet"
)

func TestMain(m *testing.M) {
	registerStages()
	flag.Parse()
	beam.Init()
	os.Exit(m.Run())
}

// beamCommand runs the pipeline on the runner that is in this process.
func beamCommand(args ...string) (said string, err error) {
	var o options
	flags := flag.NewFlagSet("beam", flag.ContinueOnError)
	flags.SetOutput(new(bytes.Buffer))
	o.flags(flags)
	if err := flags.Parse(args); err != nil {
		return "", err
	}
	var out strings.Builder
	err = run(context.Background(), &o, &out)
	return out.String(), err
}

// long writes a table of several blocks: quotes over lines, spoilt rows, a
// footer.
func long(t *testing.T, dir string) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("piece;force [N];strip-width [mm];grammage [g/m2]\n")
	for i := range 60_000 {
		switch i % 1000 {
		case 17:
			fmt.Fprintf(&b, "\"H120-7\n%d\";overload;15;121,4\n", i)
		case 423:
			fmt.Fprintf(&b, "\"a \"\"b\"\" %d\";96,4;-15;121,4\n", i)
		default:
			fmt.Fprintf(&b, "H120-7/%d;%d,%d;15;121,4\n", i, 80+i%31, i%10)
		}
	}
	b.WriteString("Mean;96,1;;\n")
	name := filepath.Join(dir, "long.csv")
	if err := os.WriteFile(name, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// columns writes a Parquet file; a row of it is empty.
func columns(t *testing.T, dir string) string {
	t.Helper()
	unit := func(u string) arrow.Metadata {
		return arrow.NewMetadata([]string{unitparquet.UnitKey}, []string{u})
	}
	schema := arrow.NewSchema([]arrow.Field{
		{Name: "force", Type: arrow.PrimitiveTypes.Float64, Nullable: true, Metadata: unit("N")},
		{Name: "grammage", Type: arrow.PrimitiveTypes.Float64, Nullable: true, Metadata: unit("g/m2")},
	}, nil)
	var out bytes.Buffer
	w, err := pqarrow.NewFileWriter(schema, &out, nil, pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		t.Fatal(err)
	}
	b := array.NewRecordBuilder(memory.DefaultAllocator, schema)
	for i := range 5000 {
		if i == 77 {
			b.Field(0).AppendNull()
			b.Field(1).AppendNull()
			continue
		}
		b.Field(0).(*array.Float64Builder).Append(90 + float64(i%13)/7)
		b.Field(1).(*array.Float64Builder).Append(100)
	}
	if err := w.Write(b.NewRecordBatch()); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(dir, "columns.parquet")
	if err := os.WriteFile(name, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func sorted(text string) string {
	lines := strings.SplitAfter(text, "\n")
	slices.Sort(lines)
	return strings.Join(lines, "")
}

func read(t *testing.T, parts ...string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(parts...))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// What the pipeline writes is what a batch of each file writes, byte for byte
// once sorted: the rows computed and the others together; and it tells the same.
func TestPipelineIsBatch(t *testing.T) {
	dir := t.TempDir()
	for _, test := range []struct {
		calculation, file string
		rows              string
		failed            bool
	}{
		{"tensile", long(t, dir), "60001 rows = 59880 computed + 121 reported, 1 of them footers\n", true},
		{"tensile", "../quillbeck/tensile.txt", "40 rows = 40 computed + 0 reported, 0 of them footers\n", false},
		{"short-span", "../quillbeck/short-span.csv", "16 rows = 13 computed + 3 reported, 2 of them footers\n", true},
		{"tensile", columns(t, dir), "5000 rows = 4999 computed + 1 reported, 0 of them footers\n", true},
	} {
		output := filepath.Join(dir, "out", filepath.Base(test.file))
		said, err := beamCommand("--calculation", test.calculation, "--input", test.file, "--output", output)
		if (err == errRows) != test.failed || err != nil && err != errRows {
			t.Errorf("%s: %v", test.file, err)
			continue
		}
		if !strings.HasSuffix(said, test.rows) {
			t.Errorf("%s: %q, want %q", test.file, said, test.rows)
		}
		want, told := byBatch(t, test.calculation, test.file)
		base := filepath.Base(test.file)
		if isParquet(base) {
			base += ".csv"
		}
		computed, unused := read(t, output, "computed", base), read(t, output, "unused", base)
		head, _, _ := strings.Cut(want, "\n")
		if !strings.HasPrefix(computed, head+"\n") || !strings.HasPrefix(unused, head+"\n") {
			t.Errorf("%s: no heads:\n%.200s\n%.200s", test.file, computed, unused)
		}
		if got := computed + strings.TrimPrefix(unused, head+"\n"); sorted(got) != sorted(want) {
			t.Errorf("%s: %d bytes of rows are not the %d of a batch", test.file, len(got), len(want))
		}
		if got := read(t, output, "reasons.txt"); sorted(got) != sorted(told) || (got != "") != test.failed {
			t.Errorf("%s: reasons are\n%.400s\na batch tells\n%.400s", test.file, got, told)
		}
		if left, _ := filepath.Glob(filepath.Join(output, "*", "*.part-*")); len(left) > 0 {
			t.Errorf("left behind: %v", left)
		}
	}
}

// byBatch is what millmaths batch writes of the file, or of the table that a
// Parquet file is, and what it tells.
func byBatch(t *testing.T, calculation, name string) (rows, told string) {
	t.Helper()
	in, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	task := Task{Calculation: calculation}
	job, err := task.job(name)
	if err != nil {
		t.Fatal(err)
	}
	job.Tell = func(err error) { told += err.Error() + "\n" }
	var out, table bytes.Buffer
	if !isParquet(name) {
		_, err = job.Run(context.Background(), in, &out)
	} else if err = unitparquet.WriteCSV(context.Background(), name, in, &table); err == nil {
		_, err = job.Run(context.Background(), &table, &out)
	}
	if err != nil {
		t.Fatal(err)
	}
	return out.String(), told
}

// Many files at once, and inputs that hold for every row.
func TestManyFiles(t *testing.T) {
	dir := t.TempDir()
	for i := range 5 {
		name := filepath.Join(dir, fmt.Sprintf("day-%d.csv", i))
		if err := os.WriteFile(name, []byte(fmt.Sprintf("f_max [N]\n%d\n", 90+i)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	output := filepath.Join(dir, "out")
	said, err := beamCommand("--calculation=tensile", "--input", filepath.Join(dir, "*.csv"), "--output", output, "--full",
		"--column", "force=f_max", "--given", "grammage=100 g/m2; strip-width=15 mm")
	if err != nil || !strings.HasPrefix(said, "5 rows = 5 computed") {
		t.Fatal(said, err)
	}
	for i, want := range []string{"90,6,", "91,6.066666666666666,", "92,6.133333333333334,", "93,6.2,", "94,6.266666666666667,"} {
		got := read(t, output, "computed", fmt.Sprintf("day-%d.csv", i))
		if _, row, _ := strings.Cut(got, "\n"); !strings.HasPrefix(row, want) {
			t.Errorf("day %d: %q, want %s", i, got, want)
		}
	}
}

func TestRefuses(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		name = filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
	write("a/x.csv", "force [N],grammage [g/m2]\n96,121\n")
	write("b/x.csv", "force [N],grammage [g/m2]\n96,121\n")
	output := filepath.Join(dir, "out")
	for _, test := range []struct {
		input string
		more  []string
		want  string
	}{
		{"", nil, "--input is missing"},
		{filepath.Join(dir, "nowhere", "*.csv"), nil, "no such file"},
		{filepath.Join(dir, "*", "x.csv"), nil, "different names"},
		{filepath.Join(dir, "a", "x.csv"), []string{"--calculation", "tensil"}, "tensile"},
		{filepath.Join(dir, "a", "x.csv"), []string{"--decimal", "semicolon"}, "want point or comma"},
		{filepath.Join(dir, "a", "x.csv"), []string{"--column", "force"}, "want INPUT=HEAD"},
		{filepath.Join(dir, "a", "x.csv"), []string{"--calculation", "cobb"}, "no column is named like an input of cobb"},
		{write("c/empty.csv", ""), nil, "nothing in it"},
		{write("c/heads.csv", "force [N],grammage [g/m2]\n"), nil, "no row under the heads"},
		{write("c/unit.csv", "force [kg],grammage [g/m2]\n96,121\n"), nil, "force"},
		{write("c/other.csv", "force [N],grammage [g/m2]\n96,121\ngrammage [g/m2],force [N]\n121,96\n"), nil, "other heads"},
		{write("c/decimal.csv", "force [N];grammage [g/m2]\n\"1,234\";121\n"), nil, "1,234"},
		{write("c/no.parquet", "force\n"), nil, "not a Parquet file"},
	} {
		args := append([]string{"--calculation", "tensile", "--input", test.input, "--output", output}, test.more...)
		if said, err := beamCommand(args...); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%q: %q, %v, want %q", args, said, err, test.want)
		}
		if _, err := os.Stat(output); err == nil {
			t.Fatalf("%q wrote something", args)
		}
	}
}

// A task is a batch's job, but that a Parquet file is read in one way only.
func TestTaskIsJob(t *testing.T) {
	task := Task{Calculation: "tensile", Columns: map[string][]string{"force": {"a", "b"}}, Full: true, Decimal: ',', Delimiter: '\t'}
	job, err := task.job("x.csv")
	if err != nil || job.Options.Decimal != ',' || job.Options.Delimiter != '\t' || !job.Full || len(job.Columns["force"]) != 2 {
		t.Errorf("%+v, %v", job, err)
	}
	if p, err := task.job("x.parquet"); err != nil || p.Options.Decimal != '.' || !p.NoFooters {
		t.Errorf("%+v, %v", p, err)
	}
}
