//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// emptyProgram is the package of a program that links what millmaths links.
const emptyProgram = "./internal/linked"

// The empty program links the libraries that millmaths links: all, those of Go too,
// and no others.
func TestEmptyProgramLinksTheSame(t *testing.T) {
	var lists []string
	for _, name := range []string{".", emptyProgram} {
		out, err := exec.Command("go", "list", "-deps", "-f", "{{.ImportPath}}", name).Output()
		if err != nil {
			t.Fatal(err)
		}
		var libraries []string
		for _, path := range strings.Fields(string(out)) {
			if !strings.HasPrefix(path, "millmaths.example/") {
				libraries = append(libraries, path)
			}
		}
		slices.Sort(libraries)
		lists = append(lists, strings.Join(libraries, "\n"))
	}
	if lists[0] != lists[1] {
		t.Errorf("millmaths links\n%s\nand the empty program\n%s", lists[0], lists[1])
	}
}

// No package of ours has work to do before main: each would cost every command a page
// of code and one of data.
func TestNothingBeforeMain(t *testing.T) {
	if testing.CoverMode() != "" {
		t.Skip("counting what runs has work of its own to do before main")
	}
	ours, err := program()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(ours, "--version")
	c.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	out, err := c.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "\ninit os ") {
		t.Fatalf("%v: no trace of what runs before main in\n%s", err, out)
	}
	for line := range strings.Lines(string(out)) {
		if strings.HasPrefix(line, "init main ") || strings.HasPrefix(line, "init millmaths.example/") {
			t.Error(line)
		}
	}
}

// BenchmarkStart starts millmaths and an empty program that links the same libraries,
// in turn, and tells how many times as long millmaths takes until it has ended: of the
// files that the linker wrote, of which the system keeps each page alone in memory, and
// of copies, as an installation writes them, of which it keeps many pages together.
func BenchmarkStart(b *testing.B) {
	ours, err := program()
	if err != nil {
		b.Fatal(err)
	}
	empty := filepath.Join(b.TempDir(), "empty")
	if out, err := exec.Command("go", "build", "-o", empty, emptyProgram).CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	b.Run("file=linked", func(b *testing.B) { benchmarkStart(b, ours, empty) })
	b.Run("file=copied", func(b *testing.B) { benchmarkStart(b, copied(b, ours), copied(b, empty)) })
}

func benchmarkStart(b *testing.B, ours, empty string) {
	var took [2][]time.Duration
	for b.Loop() {
		for i, c := range []*exec.Cmd{exec.Command(ours, "--version"), exec.Command(empty)} {
			start := time.Now()
			if err := c.Run(); err != nil {
				b.Fatal(err)
			}
			took[i] = append(took[i], time.Since(start))
		}
	}
	middle := func(t []time.Duration) float64 { slices.Sort(t); return float64(t[len(t)/2]) }
	b.ReportMetric(middle(took[0])/middle(took[1]), "times-empty")
}

func copied(b *testing.B, program string) string {
	data, err := os.ReadFile(program)
	if err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(b.TempDir(), filepath.Base(program))
	if err := os.WriteFile(path, data, 0o755); err != nil {
		b.Fatal(err)
	}
	return path
}
