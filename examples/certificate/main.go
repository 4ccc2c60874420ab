// Command certificate states for an invented lot of board whether its strength
// along the machine meets a limit, from the tensile tester's file as it is.
package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/lab"
	"millmaths.example/paperprop/table"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "certificate: want the tensile tester's file")
		os.Exit(2)
	}
	if err := certify(os.Args[1], "H120-7", "MD", 6.2, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "certificate:", err)
		os.Exit(1)
	}
}

// certify writes the verdict on the mean tensile strength of a specimen, at
// least limit kN/m. The half-width of the 95 % interval is kept clear of the
// limit: between them nothing is decided.
func certify(file, specimen, direction string, limit float64, out io.Writer) error {
	f, err := os.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	tensile, _ := catalogue.Find("tensile")
	job := batch.Job{Calculation: tensile, Options: table.Options{Name: file}, By: []string{"specimen", "direction"}}
	totals, err := job.Run(context.Background(), f, io.Discard)
	if err != nil {
		return err
	}
	statements, err := totals.Statements(0.95)
	if err != nil {
		return err
	}
	for _, s := range statements {
		if s.Key[0] != specimen || s.Key[1] != direction || s.Name != "tensile-strength" || s.Upper == nil {
			continue
		}
		r, err := lab.ConformityGuardBand{Value: s.Mean, Limit: limit, Side: lab.SideAtLeast, ExpandedUncertainty: *s.Upper - s.Mean}.Calculate()
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "%s %s, %d pieces: %s %s, %v at least %v %s\n", specimen, direction, s.Count, s.Reported, s.Unit, r.Verdict, limit, s.Unit)
		return nil
	}
	return fmt.Errorf("%s: no two pieces of %s %s", file, specimen, direction)
}
