package catalogue_test

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"testing"

	"millmaths.example/internal/mutant"
)

// Told on standard input of mutants, each by its number and that of its operator,
// TestNoticed says of one after the other what check rows, limits and formula lines
// make of it. One process does all, so that a mutant takes a millisecond and not the
// start of a process.
func TestNoticed(t *testing.T) {
	byOperator := map[int][]func() bool{}
	catchers(t, func(fails func() bool) {
		mutant.Asked()
		if fails() {
			t.Error("a check fails without a mutant")
		}
		for _, n := range mutant.Asked() {
			byOperator[n] = append(byOperator[n], fails)
		}
	})
	fmt.Println("ready")
	for in := bufio.NewScanner(os.Stdin); in.Scan(); {
		var number, operator int
		if _, err := fmt.Sscan(in.Text(), &number, &operator); err != nil {
			t.Fatal(err)
		}
		mutant.Active = number
		switch catchers := byOperator[operator]; {
		case len(catchers) == 0:
			fmt.Println("not covered")
		case slices.ContainsFunc(catchers, failsOrPanics):
			fmt.Println("killed")
		default:
			fmt.Println("lived")
		}
	}
}

func failsOrPanics(fails func() bool) (failed bool) {
	defer func() { failed = failed || recover() != nil }()
	return fails()
}
