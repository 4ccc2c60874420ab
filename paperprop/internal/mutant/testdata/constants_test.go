package catalogue_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"millmaths.example/internal/mutant"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// Each constant of the formulas, changed by 1 %, makes a check row, a formula
// line or a limit fail. What only tests of its package would see is left to them,
// by .ci/release/constants.
func TestConstants(t *testing.T) {
	text, err := os.ReadFile(os.Getenv("CONSTANTS"))
	if err != nil {
		t.Fatal(err)
	}
	var constants []struct {
		Number                   int
		Room, Where, Text, Place string
	}
	if err := json.Unmarshal(text, &constants); err != nil {
		t.Fatal(err)
	}
	catchers := catchersByConstant(t)
	caught := 0
	var left strings.Builder
	for _, c := range constants {
		mutant.Active = c.Number
		if slices.ContainsFunc(catchers[c.Number], func(fails func() bool) bool { return fails() }) {
			caught++
		} else {
			fmt.Fprintf(&left, "%d\t%s\t%s\t%s\t%s\n", c.Number, c.Room, c.Where, c.Text, c.Place)
		}
		mutant.Active = 0
	}
	t.Logf("%d of %d constants are caught by check rows, formula lines and limits", caught, len(constants))
	if err := os.WriteFile(os.Getenv("CONSTANTS")+".left", []byte(left.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// catchersByConstant runs every check row, every limit and the formula lines of
// every calculation once, and says which of them ask for which constant.
func catchersByConstant(t *testing.T) map[int][]func() bool {
	all := map[int][]func() bool{}
	note := func(fails func() bool) {
		clear(mutant.Touched)
		if fails() {
			t.Error("a check fails though no constant is changed")
		}
		for n := range mutant.Touched {
			all[n] = append(all[n], fails)
		}
	}
	rows := checks(t)
	for i := range rows {
		note(func() bool { return len(rows[i].Run(catalogue.Find)) > 0 })
	}
	for i := range limits {
		note(func() bool { return limits[i].wrong() != "" })
	}
	every(t, func(t *testing.T, c calc.Calculation) {
		if len(c.Info().Formula) == 0 {
			return
		}
		r := rand.New(rand.NewPCG(5, 6))
		for range 20 {
			s := accepted(t, c, r)
			note(func() bool { return linesDiffer(s) })
		}
	})
	return all
}

// linesDiffer says whether lines and method part on the inputs of a sheet, or
// these are taken no longer.
func linesDiffer(s *calc.Sheet) bool {
	if s.Run() != nil {
		return true
	}
	lines, err := s.Lines()
	return err != nil || len(differences(s, lines, map[string]int{}, true)) > 0
}
