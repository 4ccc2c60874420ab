package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// A command writes the same bytes whatever the number of processors and of
// workers, when it is run again, and in another folder.
func TestSameBytes(t *testing.T) {
	quillbeck, err := filepath.Abs("../../examples/quillbeck")
	if err != nil {
		t.Fatal(err)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	draws := `dilution --mass-flow "300 ± 3 t/h" --consistency-in "4.6 ± 0.1 %" --consistency-out "0.92 %" --monte-carlo 20000 --seed 7 --json`
	for _, test := range []struct {
		command string
		file    string // that it writes
		workers bool   // it takes any number of them
	}{
		{draws, "", true},
		{`batch tensile tensile.txt --by specimen,direction`, "", true},
		{`batch tensile tensile.txt --full --out rows.txt`, "rows.txt", true},
		{`batch bale-lot deliveries.csv --lot load`, "", false},
		{`batch tensile tensile.txt --summary json`, "", true},
		{`line harebell-120.toml --json`, "", false},
		{`line harebell-120.toml --plot flows.svg`, "flows.svg", false},
		{`dilution --mass-flow "300 t/h" --consistency-in "3..5 %" --consistency-out "1 %" --plot curve.png`, "curve.png", false},
		{`trim orders.csv --deckle "3300 mm" --most-reels 5 --partly`, "", false},
		{`schema`, "", false},
	} {
		var want string
		for i := range 8 {
			runtime.GOMAXPROCS(1 + i%2)
			t.Chdir(t.TempDir())
			if err := os.CopyFS(".", os.DirFS(quillbeck)); err != nil {
				t.Fatal(err)
			}
			args := words(test.command)
			if test.workers {
				args = append(args, "--workers", []string{"1", "2", "7", "0"}[i/2])
			}
			r := called("", args...)
			got := r.Out + r.Err
			if test.file != "" {
				data, err := os.ReadFile(test.file)
				if err != nil {
					t.Fatal(err)
				}
				got += string(data)
			}
			if i == 0 {
				want = got
			}
			if got != want || got == "" {
				t.Errorf("%v, run %d: %d bytes, others before %d:\n%.300s", args, i, len(got), len(want), got)
			}
		}
	}
}
