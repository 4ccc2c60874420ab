package main

import (
	"strings"
	"testing"
)

func TestReport(t *testing.T) {
	var b strings.Builder
	if err := report("../quillbeck/deliveries.csv", "../quillbeck/white-water.csv", &b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Q-0413;5;2503;10,7023;2235,12;1 of 6 rows not used\n",
		`deliveries.csv:14:4: moisture "n/a": no reading, want a number in %`,
		"31 rows = 29 used + 2 reported\n",
		`white-water.csv:9:4: tray consistency "<0.05": a limit, not a reading, want a number in %`,
		"17 rows = 15 used + 2 reported\n",
		"ok,first-pass-retention,14,1,",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in the report:\n%s", want, b.String())
		}
	}
	if err := report("nowhere.csv", "../quillbeck/white-water.csv", &b); err == nil {
		t.Error("a file that is not there was read")
	}
}
