// Command shift writes the report of a night shift in an invented mill from three
// of its files as they are: the bales delivered, load by load; the retention from
// the white water, grouped by the flag that the gauge sets; and the line, as its
// file has it and at the night's retention.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"text/tabwriter"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
	"millmaths.example/stock/line"
)

func main() {
	if len(os.Args) != 4 {
		fmt.Fprintln(os.Stderr, "shift: want the files of deliveries, of white water and of the line")
		os.Exit(2)
	}
	if err := report(os.Args[1], os.Args[2], os.Args[3], os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "shift:", err)
		os.Exit(1)
	}
}

// report writes all parts. A row that can't be used is told where it stands, and
// the rest goes on.
func report(deliveries, whiteWater, ofLine string, out io.Writer) error {
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
	if err := totals.WriteSummary(out, flags, 0.95); err != nil {
		return err
	}
	retention, err := mean(&totals, "ok")
	if err != nil {
		return fmt.Errorf("%s: %w", whiteWater, err)
	}
	fmt.Fprintf(out, "\nThe line, as its file has it and at the night's retention of %s %%\n", paperprop.People(retention.In(paperprop.Percent)))
	return compare(ofLine, retention, out)
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

// mean returns the mean retention of the rows with a flag.
func mean(totals *batch.Totals, flag string) (paperprop.Fraction, error) {
	statements, err := totals.Statements(0.95)
	if err != nil {
		return 0, err
	}
	for _, s := range statements {
		if s.Key[0] == flag && s.Count > 0 {
			return paperprop.ParseFraction(fmt.Sprintf("%v %s", s.Mean, s.Unit))
		}
	}
	return 0, fmt.Errorf("no reading with the flag %q", flag)
}

// compare writes what the line gives by its file, and at a measured retention. No
// gauge tells how much of the filler stays on the wire: it is solved for, so that
// the white water has what that retention leaves of the headbox.
func compare(file string, retention paperprop.Fraction, out io.Writer) error {
	told, err := line.ReadFile(file)
	if err != nil {
		return err
	}
	good, err := told.Solve()
	if err != nil {
		return err
	}
	headbox, ok := good.Value("headbox.dryness")
	if !ok {
		return fmt.Errorf("%s: the line has no headbox of that name", file)
	}
	unknown, err := told.With("wire.retention.filler", "?")
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	found, err := unknown.SolveFor(line.Wish{Result: "white water.consistency", Value: headbox * (1 - float64(retention))})
	if err != nil {
		return err
	}
	night, err := found[0].Solve()
	if err != nil {
		return err
	}
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(rows, "\tby its file\tthat night")
	for _, name := range []string{
		"first-pass-retention.filler", "white water.consistency", "sold", "recovered paper.total", "yield", "effluent-load.filler",
	} {
		i, err := line.ResultNamed(good.Results, name)
		if err != nil {
			return err
		}
		r := &good.Results[i]
		fmt.Fprintf(rows, "%s\t%s\t%s\n", name, r.Text(good.Values[i]), r.Text(night.Values[i]))
	}
	return rows.Flush()
}
