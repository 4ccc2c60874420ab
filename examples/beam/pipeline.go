package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path"
	"strings"

	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/register"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"

	"millmaths.example/examples/parquet/unitparquet"
)

// registerStages makes the stages known to Beam. A worker is this same program,
// so it must be called before beam.Init.
func registerStages() {
	register.DoFn3x1[context.Context, string, func([]byte), error](&cut{})
	register.DoFn3x1[context.Context, []byte, func(string, []byte), error](&compute{})
	register.DoFn3x1[context.Context, string, func(*[]byte) bool, error](&write{})
	register.Emitter1[[]byte]()
	register.Emitter2[string, []byte]()
	register.Iter1[[]byte]()
}

// A Task is what the pipeline is to do. It travels to the workers as JSON.
type Task struct {
	Calculation string
	Columns     map[string][]string // input to heads
	Constants   []calc.Pair         // inputs that hold for every row
	Full        bool                // unrounded results
	Decimal     byte                // 0: each file tells
	Delimiter   byte                // 0: each file tells
	Output      string              // the directory
}

// job is the task for one file, as millmaths batch would have it.
func (t *Task) job(name string) (*batch.Job, error) {
	c, ok := catalogue.Find(t.Calculation)
	if !ok {
		return nil, fmt.Errorf("no calculation %q, near are: %s", t.Calculation,
			strings.Join(calc.Nearest(t.Calculation, catalogue.Names()), ", "))
	}
	job := &batch.Job{Calculation: c, Columns: t.Columns, Constants: t.Constants, Full: t.Full,
		Options: table.Options{Name: name, Decimal: t.Decimal, DecimalName: "--decimal", Delimiter: t.Delimiter}}
	if isParquet(name) {
		job.Options.Decimal, job.Options.Delimiter = '.', ','
		job.NoFooters = true // nobody writes a mean under the columns of such a file
	}
	return job, nil
}

func isParquet(name string) bool { return strings.HasSuffix(name, ".parquet") }

// pipeline cuts the files into blocks of whole rows, computes them wherever the
// runner has room, and gathers the lines by the file they belong in.
//
// A table isn't cut at any line end, since a quoted cell may hold one, and what
// its heads and its decimal sign mean stands in the file but once: one worker
// reads a file from its beginning, which is fast, and sends blocks that carry
// what was understood. The rows are computed anywhere.
func pipeline(s beam.Scope, files []string, t Task) {
	blocks := beam.ParDo(s.Scope("cut"), &cut{t}, beam.CreateList(s, files))
	lines := beam.ParDo(s.Scope("compute"), &compute{t}, beam.Reshuffle(s, blocks))
	beam.ParDo0(s.Scope("write"), &write{}, beam.GroupByKey(s, lines))
}

// cut reads a file and emits its blocks.
type cut struct{ Task Task }

func (c *cut) ProcessElement(ctx context.Context, name string, emit func([]byte)) error {
	job, err := c.Task.job(name)
	if err != nil {
		return err
	}
	in, err := open(ctx, name)
	if err != nil {
		return err
	}
	defer in.Close()
	r, err := job.Open(in)
	if err != nil {
		return err
	}
	for empty := true; ; empty = false {
		var b table.Block
		if err := r.Next(&b); err == io.EOF && empty {
			return fmt.Errorf("%s: no row under the heads", name)
		} else if err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
		data, err := b.MarshalBinary()
		if err != nil {
			return err
		}
		emit(data)
	}
}

// compute computes a block and emits its lines, by the file they belong in.
type compute struct{ Task Task }

// Counters of the rows; Rows = Computed + Failed + Footers.
const namespace = "millmaths"

var (
	rowsCounted     = beam.NewCounter(namespace, "rows")
	computedCounted = beam.NewCounter(namespace, "computed")
	failedCounted   = beam.NewCounter(namespace, "failed")
	footersCounted  = beam.NewCounter(namespace, "footers")
)

func (c *compute) ProcessElement(ctx context.Context, data []byte, emit func(string, []byte)) error {
	var b table.Block
	if err := b.UnmarshalBinary(data); err != nil {
		return err
	}
	name := b.Layout().Name
	job, err := c.Task.job(name)
	if err != nil {
		return err
	}
	bound, err := job.Bind(b.Layout())
	if err != nil {
		return err
	}
	part, err := bound.Block(&b)
	if err != nil {
		return err // other heads: what follows in the file must not be read
	}
	head := string(bound.Head())
	var reasons []byte
	for _, err := range part.Told {
		reasons = append(append(reasons, err.Error()...), '\n')
	}
	for _, out := range []struct {
		to    place
		lines []byte
	}{
		{place{c.Task.file("computed", name), head}, part.Computed},
		{place{c.Task.file("unused", name), head}, part.Unused},
		{place{c.Task.Output + "/reasons.txt", ""}, reasons},
	} {
		key, err := json.Marshal(out.to)
		if err != nil {
			return err
		}
		emit(string(key), out.lines) // no lines too: the file is there and says so
	}
	rowsCounted.Inc(ctx, int64(part.Totals.Rows))
	computedCounted.Inc(ctx, int64(part.Totals.Computed))
	failedCounted.Inc(ctx, int64(part.Totals.Failed))
	footersCounted.Inc(ctx, int64(part.Totals.Footers))
	return nil
}

// A place is a file of the output and the line above its lines.
type place struct{ Name, Head string }

// file is where the rows of an input go.
func (t *Task) file(folder, input string) string {
	name := path.Base(input)
	if isParquet(name) {
		name += ".csv"
	}
	return t.Output + "/" + folder + "/" + name
}

// write gathers the lines of one file. It writes beside and renames, so that
// neither a failure nor a second try leaves half a file.
type write struct{}

func (*write) ProcessElement(ctx context.Context, key string, parts func(*[]byte) bool) (err error) {
	var to place
	if err := json.Unmarshal([]byte(key), &to); err != nil {
		return err
	}
	fs, err := filesystem.New(ctx, to.Name)
	if err != nil {
		return err
	}
	defer fs.Close()
	beside := fmt.Sprintf("%s.part-%016x", to.Name, rand.Uint64())
	out, err := fs.OpenWrite(ctx, beside)
	if err != nil {
		return err
	}
	defer func() {
		if remover, ok := fs.(filesystem.Remover); ok && err != nil {
			err = errors.Join(err, remover.Remove(ctx, beside))
		}
	}()
	if err := writeParts(out, to.Head, parts); err != nil {
		return errors.Join(err, out.Close())
	}
	if err := out.Close(); err != nil {
		return err
	}
	return filesystem.Rename(ctx, fs, beside, to.Name)
}

func writeParts(out io.Writer, head string, parts func(*[]byte) bool) error {
	if _, err := io.WriteString(out, head); err != nil {
		return err
	}
	var part []byte
	for parts(&part) {
		if _, err := out.Write(part); err != nil {
			return err
		}
	}
	return nil
}

// open opens a file as a table, a Parquet file too.
func open(ctx context.Context, name string) (io.ReadCloser, error) {
	fs, err := filesystem.New(ctx, name)
	if err != nil {
		return nil, err
	}
	f, err := fs.OpenRead(ctx, name)
	if err != nil {
		return nil, errors.Join(err, fs.Close())
	}
	in := &source{f, []io.Closer{f, fs}}
	if !isParquet(name) {
		return in, nil
	}
	columns, err := in.seekable()
	if err != nil {
		return nil, errors.Join(err, in.Close())
	}
	r, w := io.Pipe()
	done := make(chan struct{})
	go func() {
		defer close(done)
		w.CloseWithError(unitparquet.WriteCSV(ctx, name, columns, w))
	}()
	in.Reader = r
	in.closers = append([]io.Closer{r, waits(done)}, in.closers...) // the writer ends before its file is closed
	return in, nil
}

// A source is a file and what must be closed with it, in order.
type source struct {
	io.Reader
	closers []io.Closer
}

func (s *source) Close() error {
	var errs []error
	for _, c := range s.closers {
		errs = append(errs, c.Close())
	}
	return errors.Join(errs...)
}

// waits closes when a goroutine has ended.
type waits chan struct{}

func (w waits) Close() error { <-w; return nil }

// seekable is the source for one who reads here and there, as a Parquet file is
// read. What comes from a distant store is first put into a file, not into memory.
func (s *source) seekable() (parquet.ReaderAtSeeker, error) {
	if f, ok := s.Reader.(*os.File); ok {
		return unclosed{f}, nil
	}
	f, err := os.CreateTemp("", "millmaths-*.parquet")
	if err != nil {
		return nil, err
	}
	s.closers = append([]io.Closer{f, removed(f.Name())}, s.closers...)
	if _, err := io.Copy(f, s.Reader); err != nil {
		return nil, err
	}
	return unclosed{f}, nil
}

// unclosed keeps Parquet's reader from closing what the source closes.
type unclosed struct{ parquet.ReaderAtSeeker }

// removed is a file to be removed.
type removed string

func (r removed) Close() error { return os.Remove(string(r)) }
