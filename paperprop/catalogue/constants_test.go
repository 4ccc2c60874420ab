//go:build mutants

package catalogue_test

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"millmaths.example/internal/mutant"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// Each constant of the formulas, changed by 1 %, makes a check row or a formula
// line fail. What only tests of its package would see is left to them, by
// .ci/release/constants.
func TestConstants(t *testing.T) {
	text, err := os.ReadFile(os.Getenv("CONSTANTS"))
	if err != nil {
		t.Fatal(err)
	}
	var constants []struct {
		Number      int
		Text, Place string
	}
	if err := json.Unmarshal(text, &constants); err != nil {
		t.Fatal(err)
	}
	catchers := catchersByConstant(t)
	caught := 0
	var left []int
	for _, c := range constants {
		mutant.Active = c.Number
		if slices.ContainsFunc(catchers[c.Number], func(fails func() bool) bool { return fails() }) {
			caught++
		} else {
			left = append(left, c.Number)
			t.Logf("%d: %s %s is seen by %d checks, caught by none", c.Number, c.Place, c.Text, len(catchers[c.Number]))
		}
		mutant.Active = 0
	}
	t.Logf("%d of %d constants are caught", caught, len(constants))
	out, err := json.Marshal(left)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(os.Getenv("CONSTANTS")+".left", out, 0o644); err != nil {
		t.Fatal(err)
	}
}

// catchersByConstant runs every check row and the formula lines of every
// calculation once, and says which of them ask for which constant.
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
	return err != nil || len(differences(s, lines, map[string]int{})) > 0
}
