// Package mutant changes one constant of the formulas at a time by 1 %, or one
// operator to another, to see that some check fails. Only copies of our source import
// it: those of command overlay, in which each constant x is Of(n, x), and those of
// command operators, in which x + y is Plus(n, x, y).
package mutant

import (
	"os"
	"strconv"
)

// Active is the number of the constant or operator that is changed; 0 means none. It is
// set from the environment at the start, before anything is computed.
var Active, _ = strconv.Atoi(os.Getenv("MUTANT"))

// Touched counts how often each constant was used.
var Touched = map[int]int{}

// Of returns x, or 1 % more if n is active.
func Of[T ~float64](n int, x T) T {
	if n == Active {
		return x * 1.01
	}
	if Active == 0 {
		Touched[n]++
	}
	return x
}
