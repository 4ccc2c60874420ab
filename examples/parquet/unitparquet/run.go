package unitparquet

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"sync"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/compress"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/table"
)

// RemarkName is the column that says why a row has no results, or what it was
// warned of; null where there is nothing to say.
const RemarkName = "remark"

// Run computes the job over a Parquet file, row group by row group, and writes
// its columns, the results and a column of remarks. Results are not rounded.
// Of the job it takes Calculation, Columns, Constants, Workers, Tell,
// Understood and the name in Options; it refuses what Job.Bind refuses, and a number
// without a unit. A result that has the name of a column is called "NAME of
// CALCULATION", and so is the remark.
func Run(ctx context.Context, job *batch.Job, in parquet.ReaderAtSeeker, out io.Writer) (batch.Totals, error) {
	s, err := open(job.Options.Name, in)
	if err != nil {
		return batch.Totals{}, err
	}
	defer s.file.Close()
	t, err := s.bind(job)
	if err != nil {
		return batch.Totals{}, err
	}
	w, err := pqarrow.NewFileWriter(t.schema, out,
		parquet.NewWriterProperties(parquet.WithCompression(compress.Codecs.Snappy)),
		pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		return batch.Totals{}, fmt.Errorf("%s: writing: %w", s.name, err)
	}
	w.NewBufferedRowGroup()
	groups, group := s.file.NumRowGroups(), 0
	err = s.groups(ctx, func(r arrow.RecordBatch) error {
		results, err := t.compute(r)
		if err != nil {
			return err
		}
		defer results.Release()
		return w.WriteBuffered(results)
	}, func() error {
		if group++; group < groups {
			w.NewBufferedRowGroup()
		}
		return nil
	})
	return t.totals, errors.Join(err, w.Close())
}

// A task is a job bound to the columns of a file.
type task struct {
	job     *batch.Job
	schema  *arrow.Schema // of what is written
	read    []int         // columns that are inputs
	workers []*worker
	totals  batch.Totals
	rows    int // computed so far
}

// A worker computes a span of rows with a sheet of its own.
type worker struct {
	bound    *batch.Bound
	record   table.Record
	text     []byte               // of the cells of a row
	builders []array.Builder      // of the results,
	remarks  *array.StringBuilder // of which the last is the remarks'
	totals   batch.Totals
	told     []error
}

func (s *source) bind(job *batch.Job) (*task, error) {
	t := &task{job: job}
	n := job.Workers
	if n <= 0 {
		n = runtime.GOMAXPROCS(0)
	}
	for range n {
		bound, err := job.Bind(s.layout())
		if err != nil {
			return nil, err
		}
		t.workers = append(t.workers, &worker{bound: bound, record: table.Record{Fields: make([][]byte, s.schema.NumFields())}})
	}
	bound := t.workers[0].bound
	for _, c := range bound.Columns() {
		if err := s.fits(c); err != nil {
			return nil, err
		}
		t.read = append(t.read, c.Column)
	}
	if job.Understood != nil {
		job.Understood(bound.Notes())
	}
	fields := slices.Clone(s.schema.Fields())
	for _, c := range bound.Sheet().Out {
		f := resultField(c, job.Calculation.ID())
		f.Name = bound.ResultHead(c.Name)
		fields = append(fields, f)
	}
	fields = append(fields, arrow.Field{Name: bound.ResultHead(RemarkName), Type: arrow.BinaryTypes.String, Nullable: true})
	metadata := s.schema.Metadata()
	t.schema = arrow.NewSchema(fields, &metadata)
	for _, w := range t.workers {
		for _, f := range fields[s.schema.NumFields() : len(fields)-1] {
			w.builders = append(w.builders, array.NewBuilder(memory.DefaultAllocator, f.Type))
		}
		w.remarks = array.NewStringBuilder(memory.DefaultAllocator)
		w.builders = append(w.builders, w.remarks)
	}
	return t, nil
}

// fits refuses a column whose cells could not be taken, all of them.
func (s *source) fits(c batch.BoundColumn) error {
	f := s.schema.Field(c.Column)
	switch {
	case words(f.Type):
		return nil // each text is looked at: a word, or a number with its unit
	case c.Input.Shape == calc.Word:
		return fmt.Errorf("%s: column %q holds %v, want the words of %s", s.name, f.Name, f.Type, c.Input.Name)
	case !number(f.Type) && !numbers(f.Type) || numbers(f.Type) && c.Input.Shape != calc.List:
		return fmt.Errorf("%s: column %q holds %v, want numbers, or texts with a unit, for %s", s.name, f.Name, f.Type, c.Input.Name)
	case !c.Bare:
		return fmt.Errorf("%s: column %q has no unit, want one such as %v in its metadata under the key %q", s.name, f.Name, c.Input.Unit, UnitKey)
	}
	return nil
}

func resultField(c *calc.Cell, calculation string) arrow.Field {
	f := arrow.Field{Name: c.Name, Type: arrow.PrimitiveTypes.Float64, Nullable: true}
	switch c.Shape {
	case calc.Word, calc.Text:
		f.Type = arrow.BinaryTypes.String
	case calc.List:
		f.Type = arrow.ListOf(arrow.PrimitiveTypes.Float64)
	}
	keys, values := []string{"computed-by"}, []string{"millmaths " + calculation + " " + calc.Version}
	if unit := c.PrintUnit().String(); unit != "" && unit != "1" {
		keys, values = append(keys, UnitKey), append(values, unit)
	}
	f.Metadata = arrow.NewMetadata(keys, values)
	return f
}

// compute computes the rows of a record, each worker a span of them.
func (t *task) compute(r arrow.RecordBatch) (arrow.RecordBatch, error) {
	rows := int(r.NumRows())
	var group sync.WaitGroup
	for i, w := range t.workers {
		group.Go(func() {
			w.span(r, t.read, i*rows/len(t.workers), (i+1)*rows/len(t.workers), t.rows)
		})
	}
	group.Wait()
	for _, w := range t.workers {
		t.totals.Add(&w.totals)
		for _, err := range w.told {
			if t.job.Tell != nil {
				t.job.Tell(err)
			}
		}
	}
	t.rows += rows
	columns := slices.Clone(r.Columns())
	for i := range t.workers[0].builders {
		column, err := t.join(func(w *worker) array.Builder { return w.builders[i] })
		if err != nil {
			return nil, err
		}
		columns = append(columns, column)
	}
	return array.NewRecordBatch(t.schema, columns, r.NumRows()), nil
}

// join puts the spans of a column one behind the other.
func (t *task) join(column func(*worker) array.Builder) (arrow.Array, error) {
	var spans []arrow.Array
	for _, w := range t.workers {
		spans = append(spans, column(w).NewArray())
	}
	return array.Concatenate(spans, memory.DefaultAllocator)
}

// span computes rows; before is how many the file has in front of the record.
func (w *worker) span(r arrow.RecordBatch, read []int, from, to, before int) {
	w.totals, w.told = batch.Totals{}, w.told[:0]
	for row := from; row < to; row++ {
		w.text = w.text[:0]
		for _, at := range read {
			begin := len(w.text)
			w.text = appendCell(w.text, r.Column(at), row)
			w.record.Fields[at] = w.text[begin:len(w.text):len(w.text)]
		}
		w.record.Line = before + row + 1
		err := w.bound.Compute(&w.record)
		w.totals.Rows++
		if err != nil {
			w.totals.Failed++
			w.totals.Reported++
			w.told = append(w.told, err)
		} else {
			w.totals.Computed++
		}
		for i, c := range w.bound.Sheet().Out {
			put(w.builders[i], c, err == nil)
		}
		if remark := w.bound.Remark(err, &w.totals); remark != "" {
			w.remarks.Append(remark)
		} else {
			w.remarks.AppendNull()
		}
	}
}

// put appends a result in the unit that its column says.
func put(b array.Builder, c *calc.Cell, computed bool) {
	if !computed || !c.Present() {
		b.AppendNull()
		return
	}
	switch b := b.(type) {
	case *array.Float64Builder:
		b.Append(c.Printed())
	case *array.StringBuilder:
		b.Append(c.Word())
	case *array.ListBuilder:
		b.Append(true)
		members := b.ValueBuilder().(*array.Float64Builder)
		for _, v := range c.Numbers() {
			members.Append(c.In(v, c.PrintUnit()))
		}
	}
}
