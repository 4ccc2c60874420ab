package main

import (
	"os"
	"strings"
	"testing"
)

// The commands that the invented mill's README gives, and what they say of the
// rows. The counts are those of the files.
func TestQuillbeck(t *testing.T) {
	t.Chdir("../../examples/quillbeck")
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"deliveries.csv":        "31 rows = 29 used in a lot + 2 reported, 1 of them a footer",
		"grammage.csv":          "12 rows = 11 computed + 1 reported",
		"tensile.txt":           "40 rows = 40 computed + 0 reported",
		"short-span.csv":        "16 rows = 13 computed + 3 reported, 2 of them footers",
		"scanner.csv":           "",
		"moisture.csv":          "10 rows = 9 computed + 1 reported",
		"white-water.csv":       "17 rows = 15 computed + 2 reported",
		"orders.csv":            "  safety rules.", // the caution, behind what was left out
		"short-span-limits.csv": "6 rows = 5 computed + 1 reported",

		"harebell-120.toml": "", "harebell-120-impossible.toml": "",
		"order-book.toml": "  safety rules.",
	}
	ran := map[string]bool{}
	commands := strings.ReplaceAll(string(text), "\\\n", " ")
	for _, line := range strings.Split(commands, "\n") {
		command, ok := strings.CutPrefix(line, "    millmaths ")
		if !ok {
			continue
		}
		command, _, _ = strings.Cut(command, " >> ")
		args := words(command)
		r := called("", args...)
		if args[0] == "profile" {
			if r.Status != done || !strings.Contains(r.Err, "59 of 60 scans used, positions 4 to 396 of 400\n") {
				t.Errorf("millmaths %s: exit %d, %s", command, r.Status, r.Err)
			}
			ran["scanner.csv"] = true
			continue
		}
		if args[0] == "line" {
			ran[args[1]] = true
			if impossible := strings.Contains(args[1], "impossible"); (r.Status == failed) != impossible {
				t.Errorf("millmaths %s: exit %d, %s", command, r.Status, r.Err)
			}
			continue
		}
		file := args[min(2, len(args)-1)]
		if args[0] == "trim" || args[0] == "making" {
			file = args[1]
		}
		if strings.Contains(command, "--only") {
			if r.Status == misused || !strings.Contains(r.Out, "## ") || !strings.Contains(r.Err, " besides, not asked for") {
				t.Errorf("millmaths %s: exit %d, %s", command, r.Status, r.Err)
			}
			continue
		}
		if !strings.HasSuffix(r.Err, want[file]+"\n") {
			t.Errorf("millmaths %s says:\n%s\nwant at the end: %s", command, r.Err, want[file])
		}
		if computed := file == "tensile.txt" || file == "order-book.toml"; computed != (r.Status == done) {
			t.Errorf("millmaths %s: exit %d", command, r.Status)
		}
		ran[file] = true
	}
	for file := range want {
		if !ran[file] {
			t.Errorf("the README has no command for %s", file)
		}
	}
}
