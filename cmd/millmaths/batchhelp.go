package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
)

func batchOverview(out io.Writer) error {
	fmt.Fprint(out, `A calculation over the rows of a table

  millmaths batch tensile examples/quillbeck/tensile.txt --by specimen,direction

millmaths batch NAME --help tells the options and the inputs of a calculation.
`)
	return nil
}

// batchHelp prints the help of batch, which begins with a working call.
func batchHelp(out io.Writer, c calc.Calculation, flags *pflag.FlagSet) error {
	info := c.Info()
	fmt.Fprintf(out, `%s, over the rows of a table

  millmaths batch %s FILE

A column whose head is the name of an input is that input, its unit in the head
("force [N]"), in a row of units under it, or in each cell. - or no FILE reads
standard input. One row comes out for each row in; a row that can't be computed
stays in place with its reason, and the exit status is 1.
`, info.Title, info.Name)
	if slices.ContainsFunc(info.In, func(f *calc.Field) bool { return f.Relation != "" }) {
		fmt.Fprintln(out, "\nA value of any unit has its unit in the head or in the row of units; where none\nis there, its cells are numbers alone. Rows of several units go through --jsonl.")
	}
	fmt.Fprint(out, "\nInputs, as columns or as flags that hold for every row")
	if len(info.Exactly) > 0 {
		fmt.Fprint(out, `; "?" reads no column`)
	}
	fmt.Fprintln(out)
	plain.Rows(out, fieldRows(info, info.In, "  --"))
	printOptions(out, flags)
	return nil
}
