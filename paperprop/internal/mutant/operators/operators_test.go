package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// What becomes of each mutant of the sample is what gremlins v0.6.0 says, whose
// lines are in testdata/gremlins.txt, sorted by place.
func TestAgainstGremlins(t *testing.T) {
	text, err := os.ReadFile("testdata/gremlins.txt")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]outcome{}
	for line := range strings.Lines(strings.ToLower(string(text))) {
		verdict, place, _ := strings.Cut(strings.TrimSpace(line), " at sample.go:")
		kind := strings.LastIndexByte(verdict, ' ')
		want[place+verdict[kind:]] = outcome(verdict[:kind])
	}
	for place, differs := range map[string]outcome{
		"12:26 invert_negatives": lived,          // Gremlins takes a package's variables as not covered.
		"12:39 arithmetic_base":  killed,         // so too
		"10:17 arithmetic_base":  "not switched", // A constant is not covered for gremlins.
		"24:20 arithmetic_base":  "not switched", // so is the length of an array
		"41:22 arithmetic_base":  "not switched", // This one it builds: a program for itself.
	} {
		want[place] = differs
	}
	for _, place := range []string{
		// do not compile, which gremlins takes for killed
		"21:13 arithmetic_base", "31:12 arithmetic_base", "42:14 arithmetic_base",
		"31:21 arithmetic_base", // by a constant one
		// Gremlins makes the change of a minus twice.
		"26:28 invert_negatives", "41:22 invert_negatives", "45:46 invert_negatives", "49:13 invert_negatives",
		"12:26 arithmetic_base", "31:17 arithmetic_base",
	} {
		delete(want, place)
	}

	got := map[string]outcome{}
	for _, list := range []bool{true, false} {
		var out strings.Builder
		j := job{name: "paperprop/internal/mutant/operators/testdata/sample", every: 1, list: list}
		if _, err := j.mutate(&out); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(out.String()) {
			if f := strings.Split(line, "\t"); len(f) > 4 {
				var column int
				fmt.Sscanf(f[4], "column %d", &column)
				_, row, _ := strings.Cut(f[0], ":")
				got[fmt.Sprintf("%s:%d %s", row, column, f[1])] = outcome(strings.Replace(f[3], "listed", string(killed), 1))
			}
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("gremlins (-) and ours (+) differ:\n%s", diff)
	}
}
