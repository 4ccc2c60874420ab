// Command shift writes the report of a night shift in an invented mill from two
// of its files as they are: the bales delivered, load by load, and the retention
// from the white water, grouped by the flag that the gauge sets.
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

func main() {
	if len(os.Args) != 3 {
		fmt.Fprintln(os.Stderr, "shift: want the files of deliveries and of white water")
		os.Exit(2)
	}
	if err := report(os.Args[1], os.Args[2], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "shift:", err)
		os.Exit(1)
	}
}

// report writes both parts. A row that can't be used is told where it stands,
// and the rest goes on.
func report(deliveries, whiteWater string, out io.Writer) error {
	fmt.Fprintln(out, "Bales delivered, load by load")
	if _, err := run("bale-lot", deliveries, out, out, batch.Job{Lot: "load"}); err != nil {
		return err
	}
	fmt.Fprintln(out, "\nRetention on the wire, by the flag of the gauge")
	flags := []string{"flag"}
	totals, err := run("retention", whiteWater, io.Discard, out, batch.Job{By: flags})
	if err != nil {
		return err
	}
	return totals.WriteSummary(out, flags, 0.95)
}

// run computes a file and tells what became of its rows.
func run(name, file string, rows, say io.Writer, job batch.Job) (batch.Totals, error) {
	calculation, ok := catalogue.Find(name)
	if !ok {
		return batch.Totals{}, &calc.NameError{Calculation: "catalogue", Name: name}
	}
	f, err := os.Open(file)
	if err != nil {
		return batch.Totals{}, err
	}
	defer f.Close()
	job.Calculation = calculation
	job.Options = table.Options{Name: file}
	job.Tell = func(err error) { fmt.Fprintln(say, "  ", err) }
	totals, err := job.Run(context.Background(), f, rows)
	if err == nil {
		fmt.Fprintf(say, "%d rows = %d used + %d reported\n", totals.Rows, totals.Computed, totals.Reported)
	}
	return totals, err
}
