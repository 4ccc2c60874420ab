// Command claim works out what an invented mill pays for a lot of recovered paper
// under both rules in use. Masses are decimals: paid and claimed add up to
// delivered, to the last digit.
package main

import (
	"fmt"
	"io"
	"os"

	"millmaths.example/fibre"
	"millmaths.example/paperprop"
)

func main() {
	if err := check(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "claim:", err)
		os.Exit(2)
	}
	if err := write(os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "claim:", err)
		os.Exit(1)
	}
}

// check refuses arguments: they would seem to be reckoned with.
func check(args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%q is too much: the lot stands in the program, want no argument", args[0])
	}
	return nil
}

// write states the claim for three lorries of 10 % agreed moisture.
func write(out io.Writer) error {
	claim := fibre.MoistureClaim{
		Mass:      []paperprop.Mass{24.8 * paperprop.Tonne, 25.3 * paperprop.Tonne, 23.9 * paperprop.Tonne},
		Moisture:  []paperprop.Moisture{12.1 * paperprop.Percent, 10.9 * paperprop.Percent, 11.5 * paperprop.Percent},
		Allowance: 10 * paperprop.Percent,
		Scope:     fibre.ScopeLoad,
	}
	for _, claim.Rule = range []fibre.ClaimRule{fibre.RuleBasis, fibre.RulePoints} {
		payable, claimed, err := claim.Decimals()
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "by %-7s pay %s kg, claim %s kg, delivered %s kg\n", claim.Rule+":", payable, claimed, payable.Add(claimed))
	}
	return nil
}
