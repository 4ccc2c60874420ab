package main

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop/calc"
)

func batchOverview(out io.Writer) error {
	fmt.Fprint(out, `A calculation over the rows of a table

  millmaths batch tensile examples/quillbeck/tensile.txt --by specimen,direction

millmaths batch NAME --help tells the options and the inputs of a calculation.
`)
	return nil
}

// batchHelp begins with a call that works.
func batchHelp(out io.Writer, c calc.Calculation, flags *pflag.FlagSet) error {
	info := c.Info()
	fmt.Fprintf(out, `%s, over the rows of a table

  millmaths batch %s FILE

A column whose head is the name of an input is that input, its unit in the head
("force [N]"), in a row of units under it, or in each cell. - or no FILE reads
standard input. One row comes out for each row in; a row that can't be computed
stays in place with its reason, and the exit status is 1.

Inputs, as columns or as flags that hold for every row
`, info.Title, info.Name)
	printRows(out, fieldRows(info, info.In, "  --"))
	printOptions(out, flags)
	return nil
}
