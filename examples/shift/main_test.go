package main

import (
	"strings"
	"testing"
)

func TestReport(t *testing.T) {
	var b strings.Builder
	const line = "../quillbeck/harebell-120.toml"
	if err := report("../quillbeck/deliveries.csv", "../quillbeck/white-water.csv", line, &b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Q-0413;5;2503;10,7023;2235,12;1 of 6 rows not used\n",
		`deliveries.csv:14:4: moisture "n/a": no reading, want a number in %`,
		"31 rows = 29 used + 2 reported\n",
		`white-water.csv:9:4: tray consistency "<0.05": a limit, not a reading, want a number in %`,
		"17 rows = 15 used + 2 reported\n",
		"ok,first-pass-retention,14,1,",
		"at the night's retention of 75.2894 %\n",
		// 0.82 % less that retention is 0.202627 %.
		"white water.consistency      0.192423 %    0.202627 %\n",
		"first-pass-retention.filler  48 %          43.4341 %\n",
		"recovered paper.total        15.4937 t/h   15.5056 t/h\n",
	} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %q in the report:\n%s", want, b.String())
		}
	}
	for _, files := range [][3]string{
		{"nowhere.csv", "../quillbeck/white-water.csv", line},
		{"../quillbeck/deliveries.csv", "nowhere.csv", line},
		{"../quillbeck/deliveries.csv", "../quillbeck/white-water.csv", "nowhere.toml"},
		{"../quillbeck/deliveries.csv", "../quillbeck/white-water.csv", "../quillbeck/harebell-120-impossible.toml"},
	} {
		if err := report(files[0], files[1], files[2], &b); err == nil {
			t.Errorf("no error of %q", files)
		}
	}
}
