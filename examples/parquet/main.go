// Command parquet runs any calculation of millmaths, by name, over a Parquet file
// whose columns state their units in their metadata, and adds the results as
// columns with units. The readings of --sample are invented, as is the mill they
// come from.
package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"

	"millmaths.example/examples/parquet/unitparquet"
)

const usage = `parquet runs a calculation over a Parquet file, a column an input:
  parquet [-column INPUT=COLUMN].. [-input "INPUT=VALUE UNIT"].. CALCULATION IN OUT
  parquet -csv FILE          writes a file as a table, units in the heads
  parquet -sample ROWS FILE  writes invented readings
What is written is a new file: none is written over.
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	status := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// errRows says that some rows were not computed: they have been told.
var errRows = errors.New("")

// errUsage is wrong usage.
var errUsage = errors.New("wrong usage")

// run returns 0, or 1 where the work failed or a row did, or 2 for wrong usage.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	err := command(ctx, args, stdout, stderr)
	switch {
	case err == nil || errors.Is(err, flag.ErrHelp):
		return 0
	case errors.Is(err, errUsage):
		fmt.Fprintf(stderr, "parquet: %v\n%s", err, usage)
		return 2
	case err != errRows:
		fmt.Fprintln(stderr, "parquet:", err)
	}
	return 1
}

func command(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	job := &batch.Job{
		Columns:    map[string][]string{},
		Tell:       func(err error) { fmt.Fprintln(stderr, err) },
		Understood: func(notes []string) { fmt.Fprintln(stderr, strings.Join(notes, "\n")) },
	}
	flags := flag.NewFlagSet("parquet", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	flags.Func("column", "INPUT=COLUMN: where an input comes from, if its column has another name", func(text string) error {
		input, column, ok := strings.Cut(text, "=")
		if !ok {
			return errors.New("want INPUT=COLUMN")
		}
		job.Columns[input] = append(job.Columns[input], column)
		return nil
	})
	flags.Func("input", "INPUT=VALUE UNIT: an input that holds for every row", func(text string) error {
		pairs, err := calc.ParsePairs(text)
		job.Constants = append(job.Constants, pairs...)
		return err
	})
	flags.IntVar(&job.Workers, "workers", 0, "how many compute; the values are the same")
	csv := flags.Bool("csv", false, "write a file as a table, units in the heads")
	sample := flags.Int("sample", 0, "write so many invented readings")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(stdout, usage)
		flags.SetOutput(stdout)
		flags.PrintDefaults()
		return err
	} else if err != nil {
		return fmt.Errorf("%w: %w", errUsage, err)
	}
	switch n := flags.NArg(); {
	case *csv && n == 1:
		return show(ctx, flags.Arg(0), stdout)
	case *sample > 0 && n == 1:
		return writeFile(flags.Arg(0), func(out io.Writer) error { return writeSample(out, *sample) })
	case *csv || *sample != 0 || n != 3:
		return fmt.Errorf("%w: want a calculation and two files, or -csv and one, or -sample with a number above 0 and one", errUsage)
	}
	return compute(ctx, job, flags.Args(), stderr)
}

func compute(ctx context.Context, job *batch.Job, args []string, stderr io.Writer) error {
	name, from, to := args[0], args[1], args[2]
	var ok bool
	if job.Calculation, ok = catalogue.Find(name); !ok {
		return unknown(name)
	}
	job.Options.Name = from
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	var totals batch.Totals
	err = writeFile(to, func(out io.Writer) error {
		totals, err = unitparquet.Run(ctx, job, in, out)
		return err
	})
	if err != nil {
		return err
	}
	for _, c := range job.Calculation.Info().Cautions {
		fmt.Fprintln(stderr, "caution:", c.Text)
	}
	for _, line := range totals.Warnings() {
		fmt.Fprintln(stderr, "warning:", line)
	}
	fmt.Fprintf(stderr, "%d rows = %d computed + %d reported\n", totals.Rows, totals.Computed, totals.Reported)
	switch {
	case totals.Rows == 0:
		return fmt.Errorf("%s: no row in it", from)
	case totals.Failed > 0:
		return errRows
	}
	return nil
}

func show(ctx context.Context, name string, stdout io.Writer) error {
	in, err := os.Open(name)
	if err != nil {
		return err
	}
	defer in.Close()
	out := bufio.NewWriter(stdout)
	return errors.Join(unitparquet.WriteCSV(ctx, name, in, out), out.Flush())
}

// unknown tells the nearest names, if any is near.
func unknown(name string) error {
	err := fmt.Errorf("%w: no calculation %q", errUsage, name)
	if near := calc.Nearest(name, catalogue.Names()); len(near) > 0 {
		return fmt.Errorf("%w, near are: %s", err, strings.Join(near, ", "))
	}
	return err
}

// writeFile writes beside the place and renames: nobody finds half a file, and
// none that is there is lost, least of all what was measured.
func writeFile(name string, write func(io.Writer) error) (err error) {
	if _, err := os.Lstat(name); err == nil {
		return fmt.Errorf("%s is there already and would be written over, want the name of a new file", name)
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".parquet-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	if err = write(unclosed{f}); err != nil {
		return err
	}
	if err = errors.Join(f.Chmod(0o644), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}

// unclosed keeps a file open where a writer of Parquet would close it.
type unclosed struct{ io.Writer }
