// Command beam runs any calculation of millmaths, by name, over many tables and
// Parquet files as an Apache Beam pipeline: on this machine or, with --runner, on
// Flink, Spark or Dataflow. The tables in the examples are those of the invented
// mill Quillbeck.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path"
	"strings"

	"github.com/apache/beam/sdks/v2/go/pkg/beam"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/core/metrics"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/io/filesystem"
	"github.com/apache/beam/sdks/v2/go/pkg/beam/x/beamx"

	"millmaths.example/paperprop/calc"
)

// options are the flags of ours; Beam has its own beside them.
type options struct {
	task               Task
	input              string
	decimal, delimiter string
}

func (o *options) flags(f *flag.FlagSet) {
	f.StringVar(&o.task.Calculation, "calculation", "", "the `name` of the calculation: millmaths list")
	f.StringVar(&o.input, "input", "", "the tables: a `pattern` such as data/*.csv or gs://bucket/day/*.parquet")
	f.StringVar(&o.task.Output, "output", "", "the `directory` of the results")
	f.BoolVar(&o.task.Full, "full", false, "unrounded results")
	f.StringVar(&o.decimal, "decimal", "", "point or comma, where a file does not tell")
	f.StringVar(&o.delimiter, "delimiter", "", "comma, semicolon or tab, where a file does not tell")
	o.task.Columns = map[string][]string{}
	f.Func("column", "`INPUT=HEAD`: where an input comes from, if its head has another name", func(text string) error {
		input, head, ok := strings.Cut(text, "=")
		if !ok {
			return errors.New("want INPUT=HEAD")
		}
		o.task.Columns[input] = append(o.task.Columns[input], head)
		return nil
	})
	f.Func("given", "`INPUT=VALUE UNIT`: an input that holds for every row", func(text string) error {
		pairs, err := calc.ParsePairs(text)
		o.task.Constants = append(o.task.Constants, pairs...)
		return err
	})
}

func main() {
	registerStages()
	var o options
	o.flags(flag.CommandLine)
	flag.Parse()
	beam.Init() // a worker stays here
	err := run(context.Background(), &o, os.Stderr)
	if err != nil && err != errRows {
		fmt.Fprintln(os.Stderr, "beam:", err)
	}
	switch {
	case errors.Is(err, errUsage):
		os.Exit(2)
	case err != nil:
		os.Exit(1)
	}
}

var (
	// errUsage is wrong usage.
	errUsage = errors.New("wrong usage")
	// errRows says that some rows were not computed.
	errRows = errors.New("rows were not computed: see reasons.txt")
)

// check reads what is wrong before anything is started.
func (o *options) check(ctx context.Context) (files []string, err error) {
	words := map[string]byte{"": 0, "point": '.', "comma": ',', "semicolon": ';', "tab": '\t'}
	sign, ok := words[o.decimal]
	if !ok || sign == ';' || sign == '\t' {
		return nil, fmt.Errorf("%w: --decimal=%s, want point or comma", errUsage, o.decimal)
	}
	delimiter, ok := words[o.delimiter]
	if !ok || delimiter == '.' {
		return nil, fmt.Errorf("%w: --delimiter=%s, want comma, semicolon or tab", errUsage, o.delimiter)
	}
	o.task.Decimal, o.task.Delimiter = sign, delimiter
	for flag, value := range map[string]string{"calculation": o.task.Calculation, "input": o.input, "output": o.task.Output} {
		if value == "" {
			return nil, fmt.Errorf("%w: --%s is missing", errUsage, flag)
		}
	}
	if _, err := o.task.job(""); err != nil {
		return nil, fmt.Errorf("%w: %w", errUsage, err)
	}
	fs, err := filesystem.New(ctx, o.input)
	if err != nil {
		return nil, err
	}
	defer fs.Close()
	if files, err = fs.List(ctx, o.input); err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("%s: no such file", o.input)
	}
	bases := map[string]string{}
	for _, name := range files {
		if other, ok := bases[path.Base(name)]; ok {
			return nil, fmt.Errorf("%s and %s would both be written to %s: want files of different names", other, name, path.Base(name))
		}
		bases[path.Base(name)] = name
	}
	return files, nil
}

// run runs the pipeline and says what became of the rows.
func run(ctx context.Context, o *options, say io.Writer) error {
	files, err := o.check(ctx)
	if err != nil {
		return err
	}
	p, s := beam.NewPipelineWithRoot()
	pipeline(s, files, o.task)
	result, err := beamx.RunWithMetrics(ctx, p)
	if err != nil {
		return err
	}
	counts, known := count(result)
	if !known {
		fmt.Fprintln(say, "the runner gives no counts: reasons.txt has a line for each row that was not computed")
		return nil
	}
	fmt.Fprintf(say, "%d rows = %d computed + %d reported, %d of them footers\n",
		counts["rows"], counts["computed"], counts["failed"]+counts["footers"], counts["footers"])
	if counts["failed"] > 0 {
		return errRows
	}
	return nil
}

// count reads the counters; a runner may have none.
func count(result beam.PipelineResult) (counts map[string]int64, known bool) {
	counts = map[string]int64{}
	if result == nil {
		return counts, false
	}
	found := result.Metrics().Query(func(r metrics.SingleResult) bool { return r.Namespace() == namespace })
	for _, c := range found.Counters() {
		counts[c.Name()] += c.Result()
	}
	return counts, len(found.Counters()) > 0
}
