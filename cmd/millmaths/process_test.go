//go:build unix

package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

var (
	kills  = flag.Int("kills", 10, "how often a command is killed, and how often interrupted")
	within = flag.Duration("within", 2*time.Second, "time in which an interrupted command must have ended")
)

// program is the command itself, built once.
var program = sync.OnceValues(func() (string, error) {
	folder, err := os.MkdirTemp("", "millmaths")
	if err != nil {
		return "", err
	}
	name := filepath.Join(folder, "millmaths")
	if out, err := exec.Command("go", "build", "-o", name, ".").CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return name, nil
})

func built(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	name, err := program()
	if err != nil {
		t.Fatal(err)
	}
	return exec.Command(name, args...)
}

// An endless reader gives a text, and after it another again and again.
type endless struct {
	text, again string
}

func (r *endless) Read(p []byte) (int, error) {
	if r.text == "" {
		r.text = r.again
	}
	n := copy(p, r.text)
	r.text = r.text[n:]
	return n, nil
}

// rowsForEver are of a table for tensile.
func rowsForEver() *endless {
	return &endless{"force [N];grammage [g/m2]\n", strings.Repeat("80.25;121.5\n", 4096)}
}

// An interrupted command has ended soon, says 130 or dies of the interrupt
// before it listens, and leaves what was there and nothing more: while it works,
// and while it hangs in a read or a write.
func TestInterrupts(t *testing.T) {
	const was = "what was there\n"
	var slowest time.Duration
	listened := 0
	for i := range *kills {
		folder := t.TempDir()
		old := filepath.Join(folder, "old")
		if err := os.WriteFile(old, []byte(was), 0o644); err != nil {
			t.Fatal(err)
		}
		cmd, begin := interruptible(t, i, old)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		begin()
		time.Sleep(rand.N(200 * time.Millisecond))
		sent := time.Now()
		if err := cmd.Process.Signal(os.Interrupt); err != nil {
			t.Fatal(err)
		}
		var exit *exec.ExitError
		if err := cmd.Wait(); !errors.As(err, &exit) {
			t.Fatalf("%v: %v", cmd.Args[1:], err)
		}
		took := time.Since(sent)
		slowest = max(slowest, took)
		if took > *within {
			t.Errorf("%v ended after %v, want %v", cmd.Args[1:], took, *within)
		}
		if status := exit.Sys().(syscall.WaitStatus); exit.ExitCode() != interrupted && status.Signal() != syscall.SIGINT {
			t.Errorf("%v: %v", cmd.Args[1:], exit)
		}
		if exit.ExitCode() == interrupted {
			listened++
		}
		if left := folderOf(t, folder); len(left) != 1 || left["old"] != was {
			t.Errorf("%v left %q", cmd.Args[1:], left)
		}
	}
	t.Logf("%d interrupts, %d of them when it listened; the slowest end after %v", *kills, listened, slowest)
}

// interruptible is one of some commands that take for ever, and what it does
// once it runs.
func interruptible(t *testing.T, i int, old string) (cmd *exec.Cmd, begin func()) {
	begin = func() {}
	switch i % 4 {
	case 0: // works
		cmd = built(t, "batch", "tensile", "--quiet", "--out", old)
		in, err := cmd.StdinPipe()
		if err != nil {
			t.Fatal(err)
		}
		begin = func() { go io.Copy(in, rowsForEver()) }
	case 1: // waits for a line
		cmd = built(t, "batch", "dilution", "--jsonl")
		in, err := cmd.StdinPipe()
		if err != nil {
			t.Fatal(err)
		}
		begin = func() { io.WriteString(in, `{"mass-flow":"300 t/h"}`+"\n") }
	case 2: // waits for a reader
		cmd = built(t, "batch", "tensile", "--quiet")
		in, inErr := cmd.StdinPipe()
		_, outErr := cmd.StdoutPipe()
		if err := errors.Join(inErr, outErr); err != nil {
			t.Fatal(err)
		}
		begin = func() { go io.Copy(in, rowsForEver()) }
	case 3: // computes
		cmd = built(t, "dilution", "--mass-flow", "300 ± 1 t/h", "--consistency-in", "4 %", "--consistency-out", "1 %", "--monte-carlo", "50000000")
	}
	return cmd, begin
}

// folderOf is what a folder holds.
func folderOf(t *testing.T, folder string) map[string]string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = string(data)
	}
	return files
}

// Whenever a command is killed, its output file is the old one or the new one,
// whole.
func TestKills(t *testing.T) {
	var table strings.Builder
	table.WriteString("force [N];grammage [g/m2]\n")
	for i := range 20_000 {
		fmt.Fprintf(&table, "%d.5;121.5\n", 60+i%40)
	}
	folder := t.TempDir()
	in, out := filepath.Join(folder, "in.csv"), filepath.Join(folder, "out.csv")
	if err := os.WriteFile(in, []byte(table.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	if err := built(t, "batch", "tensile", in, "--quiet", "--out", out).Run(); err != nil {
		t.Fatal(err)
	}
	took := time.Since(start)
	want, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	const was = "what was there\n"
	whole, kept := 0, 0
	for range *kills {
		if err := os.WriteFile(out, []byte(was), 0o644); err != nil {
			t.Fatal(err)
		}
		cmd := built(t, "batch", "tensile", in, "--quiet", "--out", out)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(rand.N(took))
		cmd.Process.Kill() // it may have ended
		cmd.Wait()
		switch got, err := os.ReadFile(out); {
		case err != nil:
			t.Fatal(err)
		case string(got) == was:
			kept++
		case bytes.Equal(got, want):
			whole++
		default:
			t.Fatalf("a torn file of %d bytes, want the old one or all %d", len(got), len(want))
		}
	}
	t.Logf("%d kills: the old file %d times, the new one %d times", *kills, kept, whole)
}

// A full device fails the command, whatever it writes.
func TestFullDevice(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if errors.Is(err, os.ErrNotExist) {
		return // only Linux has it
	} else if err != nil {
		t.Fatal(err)
	}
	defer full.Close()
	for _, command := range written {
		cmd := built(t, words(command)...)
		var said bytes.Buffer
		cmd.Stdin, cmd.Stdout, cmd.Stderr = io.LimitReader(rowsForEver(), 1<<20), full, &said
		var exit *exec.ExitError
		if err := cmd.Run(); !errors.As(err, &exit) || exit.ExitCode() != failed || said.String() != "millmaths: standard output: write /dev/stdout: no space left on device\n" {
			t.Errorf("millmaths %s: %v, %s", command, err, &said)
		}
	}
}

// Commands that write, the first ones for ever if they may.
var written = []string{
	"batch tensile --quiet --full",
	"batch tensile --jsonl",
	"schema",
	"list",
	"convert \"1 kg\" g",
	"line ../../examples/quillbeck/harebell-120.toml --json",
	"verify ../../testdata/checks/drying.csv",
}

// Where nobody reads the results any more the command ends quietly, with the
// status that a shell has for it.
func TestClosedPipe(t *testing.T) {
	for i, command := range written {
		read, write, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		read.Close()
		cmd := built(t, words(command)...)
		var said bytes.Buffer
		cmd.Stdout, cmd.Stderr = write, &said
		if i < 2 {
			in, err := cmd.StdinPipe()
			if err != nil {
				t.Fatal(err)
			}
			go io.Copy(in, rowsForEver())
		}
		var exit *exec.ExitError
		if err := cmd.Run(); !errors.As(err, &exit) || exit.ExitCode() != unread || said.Len() > 0 {
			t.Errorf("millmaths %s: %v, %s", command, err, &said)
		}
		write.Close()
	}
}

// Where nobody reads what is said beside the results, the file is written all
// the same.
func TestClosedMessages(t *testing.T) {
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	read.Close()
	defer write.Close()
	out := filepath.Join(t.TempDir(), "rows.txt")
	cmd := built(t, "batch", "tensile", "../../examples/quillbeck/tensile.txt", "--out", out)
	cmd.Stderr = write
	if err := cmd.Run(); err != nil {
		t.Error(err)
	}
	if rows, err := os.ReadFile(out); bytes.Count(rows, []byte("\n")) != 41 {
		t.Errorf("%d bytes, %v", len(rows), err)
	}
}
