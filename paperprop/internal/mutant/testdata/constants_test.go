package catalogue_test

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"millmaths.example/internal/mutant"
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

// catchersByConstant runs every catcher once, and says which of them ask for which
// constant.
func catchersByConstant(t *testing.T) map[int][]func() bool {
	all := map[int][]func() bool{}
	catchers(t, func(fails func() bool) {
		clear(mutant.Touched)
		if fails() {
			t.Error("a check fails though no constant is changed")
		}
		for n := range mutant.Touched {
			all[n] = append(all[n], fails)
		}
	})
	return all
}
