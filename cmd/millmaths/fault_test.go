package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A failing disk is one of which the n-th read or write fails, alone or with
// all that follow. Opening is a read; making, bringing to the disk, closing and
// renaming are writes.
type failing struct {
	process
	reads, writes int    // so far
	at            int    // the one that fails; 0: none does
	write         bool   // it is a write
	on            bool   // and so do all that follow
	failed        string // the file that it was
}

var errBroken = syscall.EIO

func (d *failing) step(write bool, op, name string) error {
	count := &d.reads
	if write {
		count = &d.writes
	}
	*count++
	if write != d.write || d.at == 0 || *count < d.at || *count > d.at && !d.on {
		return nil
	}
	if d.failed == "" {
		d.failed = name
	}
	return &fs.PathError{Op: op, Path: name, Err: errBroken}
}

func (d *failing) open(name string) (io.ReadCloser, error) {
	if err := d.step(false, "open", name); err != nil {
		return nil, err
	}
	f, err := d.process.open(name)
	return failingReader{d, f, name}, err
}

func (d *failing) openIn(folder, name string) (io.ReadCloser, error) {
	if err := d.step(false, "open", name); err != nil {
		return nil, err
	}
	f, err := d.process.openIn(folder, name)
	return failingReader{d, f, name}, err
}

func (d *failing) readDir(name string) ([]fs.DirEntry, error) {
	if err := d.step(false, "open", name); err != nil {
		return nil, err
	}
	return d.process.readDir(name)
}

func (d *failing) makeFolder(name string) error {
	if err := d.step(true, "mkdir", name); err != nil {
		return err
	}
	return d.process.makeFolder(name)
}

func (d *failing) create(name string, mode fs.FileMode) (diskFile, error) {
	if err := d.step(true, "open", name); err != nil {
		return nil, err
	}
	f, err := d.process.create(name, mode)
	return failingFile{d, f, name}, err
}

func (d *failing) rename(from, to string) error {
	if err := d.step(true, "rename", from); err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: errBroken}
	}
	return d.process.rename(from, to)
}

type failingReader struct {
	*failing
	io.ReadCloser
	name string
}

func (r failingReader) Read(p []byte) (int, error) {
	if err := r.step(false, "read", r.name); err != nil {
		return 0, err
	}
	return r.ReadCloser.Read(p)
}

type failingFile struct {
	*failing
	file diskFile
	name string
}

// Write writes half of it before it fails.
func (f failingFile) Write(p []byte) (int, error) {
	if err := f.step(true, "write", f.name); err != nil {
		n, _ := f.file.Write(p[:len(p)/2])
		return n, err
	}
	return f.file.Write(p)
}

func (f failingFile) Sync() error {
	if err := f.step(true, "sync", f.name); err != nil {
		return err
	}
	return f.file.Sync()
}

func (f failingFile) Close() error {
	err := f.file.Close()
	if err := f.step(true, "close", f.name); err != nil {
		return err
	}
	return err
}

// A stream is standard input or output on a failing disk.
type stream struct {
	*failing
	in  io.Reader
	out bytes.Buffer
}

func (s *stream) Read(p []byte) (int, error) {
	if err := s.step(false, "read", "/dev/stdin"); err != nil {
		return 0, err
	}
	return s.in.Read(p)
}

func (s *stream) Write(p []byte) (int, error) {
	if err := s.step(true, "write", "/dev/stdout"); err != nil {
		return 0, err
	}
	return s.out.Write(p)
}

// on runs a command on a failing disk.
func (d *failing) called(input string, args ...string) result {
	var err bytes.Buffer
	s := &stream{failing: d, in: strings.NewReader(input)}
	status := newTerminal(s, s, &err, d).run(context.Background(), args)
	return result{status, s.out.String(), err.String()}
}

// The scenarios of failing disks, in a folder that holds the files of Quillbeck
// and a few more. Output files are called old.
var scenarios = []struct{ name, input, command string }{
	{"rows", "", `batch tensile tensile.txt`},
	{"rows of standard input", "force [N];grammage [g/m2]\n80;120\n81;121\n", `batch tensile`},
	{"rows to a file", "", `batch tensile tensile.txt --out old`},
	{"lots to a file", "", `batch bale-lot deliveries.csv --lot load --out old`},
	{"summary", "", `batch tensile tensile.txt --by specimen,direction --out old`},
	{"certificate", "", `batch tensile tensile.txt --summary markdown`},
	{"summary for programs", "", `batch tensile tensile.txt --summary json`},
	{"JSON lines", "{\"mass-flow\":\"300 t/h\",\"consistency-in\":\"4 %\",\"consistency-out\":\"1 %\"}\n\n", `batch dilution --jsonl`},
	{"one calculation", "", `dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "1 %"`},
	{"worked solution", "", `dilution --mass-flow "300 t/h" --consistency-in "4 ± 0.1 %" --consistency-out "1 %" --steps`},
	{"answer for programs", "", `dilution --mass-flow "300 t/h" --consistency-in "4 %" --consistency-out "1 %" --json`},
	{"draws", "", `dilution --mass-flow "300 t/h" --consistency-in "4 ± 0.1 %" --consistency-out "1 %" --monte-carlo 1000`},
	{"list of a file", "", `replicates --value @values.txt`},
	{"column of a file", "", `replicates --value @values.csv:mass`},
	{"curve", "", `dilution --mass-flow "300 t/h" --consistency-in "3..5 %" --consistency-out "1 %" --plot old.svg`},
	{"curve in dots", "", `dilution --mass-flow "300 t/h" --consistency-in "3..5 %" --consistency-out "1 %" --plot old.png`},
	{"scans", "", `profile --scan @scanner.csv`},
	{"line", "", `line harebell-120.toml`},
	{"line for programs", "", `line harebell-120.toml --json`},
	{"two lines", "", `line harebell-120.toml harebell-120.toml --csv`},
	{"flows", "", `line harebell-120.toml --plot old.svg`},
	{"sets", "", `trim orders.csv --deckle "3300 mm" --partly`},
	{"sets of a job", "", `trim job.toml --plot old.svg`},
	{"order book", "", `making order-book.toml`},
	{"order book drawn", "", `making order-book.toml --csv --plot old.svg`},
	{"checks", "", `verify few.csv`},
	{"units", "", `convert "42 lb/1000ft2" g/m2`},
	{"schema", "", `schema`},
	{"completion", "", `completion bash`},
	{"list", "", `list`},
	{"help", "", `dilution --help`},
}

// Whichever read or write fails, the command fails, says which file and why,
// leaves the file as it was that should have been written, and nothing beside
// it.
func TestEveryFault(t *testing.T) {
	quillbeck, err := filepath.Abs("../../examples/quillbeck")
	if err != nil {
		t.Fatal(err)
	}
	for _, scenario := range scenarios {
		t.Run(scenario.name, func(t *testing.T) {
			folder := t.TempDir()
			t.Chdir(folder)
			files := map[string]string{
				"old": "what was there\n", "old.svg": "a picture\n", "old.png": "another\n", "values.csv": "n,mass [g]\n1,1.2\n2,1.3\n",
				"values.txt": "1.2 1.3\n1.25 g\n",
				"few.csv": "id,calculation,inputs,expected,tolerance,kind,source,note\n" +
					"a,dilution,mass-flow=300 t/h; consistency-in=4 %; consistency-out=1 %,water-flow=900 t/h,rel 1e-9,common-practice,,\n" +
					"b,replicates,value=@values.txt,mean=1.25 g,rel 1e-9,common-practice,,\n",
				"job.toml": "orders = \"orders.csv\"\npartly = true\n[[deckle]]\nwidth = \"3300 mm\"\n",
			}
			for name, text := range files {
				if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			if err := os.CopyFS(".", os.DirFS(quillbeck)); err != nil {
				t.Fatal(err)
			}
			before, err := filepath.Glob("*")
			if err != nil {
				t.Fatal(err)
			}
			args := words(scenario.command)
			sound := new(failing)
			if r := sound.called(scenario.input, args...); r.Status == misused || r.Status == failed && !strings.Contains(r.Err, "rows = ") && !strings.Contains(r.Err, "left out") {
				t.Fatalf("with a sound disk: %+v", r)
			}
			if sound.writes == 0 {
				t.Fatal("a scenario that writes nothing")
			}
			for _, fault := range []struct {
				write bool
				count int
			}{{false, sound.reads}, {true, sound.writes}} {
				for n := range 2 * fault.count {
					if n%2 == 1 && n > 16 {
						continue // of many faults, those that last are like each other
					}
					d := &failing{at: n/2 + 1, write: fault.write, on: n%2 == 1}
					for name, text := range files {
						if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
							t.Fatal(err)
						}
					}
					r := d.called(scenario.input, args...)
					which := fmt.Sprintf("fault %d of %d (write %v, for good %v) in %s", d.at, fault.count, d.write, d.on, d.failed)
					said := r.Err + r.Out
					if r.Status != failed || !strings.Contains(said, errBroken.Error()) || !strings.Contains(said, calledBy(d.failed, args)) {
						t.Errorf("%s: exit %d\n%s", which, r.Status, said)
					}
					for name, text := range files {
						if now, err := os.ReadFile(name); string(now) != text && d.failed != "/dev/stdout" {
							t.Errorf("%s: %s is now %q, %v", which, name, now, err)
						}
					}
					if after, err := filepath.Glob("*"); len(after) != len(before) || err != nil {
						t.Errorf("%s: the folder holds %v, held %v", which, after, before)
					}
					if left, _ := filepath.Glob(".millmaths-*"); left != nil {
						t.Errorf("%s: left over: %v", which, left)
					}
				}
			}
		})
	}
}

// calledBy is what a message must call a file: by the name that the person gave
// to it, even where another is written beside it.
func calledBy(file string, args []string) string {
	switch {
	case file == "/dev/stdout":
		return "standard output: "
	case strings.Contains(file, ".millmaths-"):
		for _, a := range args {
			if strings.HasPrefix(a, "old") {
				return a
			}
		}
	}
	return file
}

// A handbook has hundreds of files, each written in the same way: three of them,
// one of an earlier handbook, and one that goes.
func TestHandbookFaults(t *testing.T) {
	pages := []handbookFile{
		{"a.html", []byte(handbookMark + " new a")}, {"b.html", []byte(handbookMark + " new b")}, {"c.html", []byte(handbookMark + " new c")},
	}
	write := func(d *failing, dir string) error {
		t := newTerminal(strings.NewReader(""), io.Discard, io.Discard, d)
		ours, _, err := t.handbookFiles(dir)
		if err != nil {
			return err
		}
		return t.writeHandbook(context.Background(), dir, pages, ours)
	}
	folder := func() string {
		dir := t.TempDir()
		for name, text := range map[string]string{"b.html": handbookMark + " old b", "gone.html": handbookMark, "notes.txt": "mine"} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		return dir
	}
	sound := new(failing)
	dir := folder()
	if err := write(sound, dir); err != nil {
		t.Fatal(err)
	}
	if names, err := filepath.Glob(filepath.Join(dir, "*")); err != nil || len(names) != 4 || sound.reads < 7 || sound.writes < 16 {
		t.Fatalf("with a sound disk: %v, %v; %d reads, %d writes", names, err, sound.reads, sound.writes)
	}
	for _, fault := range []struct {
		write bool
		count int
	}{{false, sound.reads}, {true, sound.writes}} {
		for at := 1; at <= fault.count; at++ {
			d := &failing{at: at, write: fault.write}
			dir := folder()
			err := write(d, dir)
			which := fmt.Sprintf("fault %d of %d (write %v) in %s", at, fault.count, fault.write, d.failed)
			if !errors.Is(err, errBroken) || !strings.Contains(d.failed, ".millmaths-") && !strings.Contains(err.Error(), d.failed) {
				t.Errorf("%s: %v", which, err)
			}
			if left, _ := filepath.Glob(filepath.Join(dir, ".millmaths-*")); left != nil {
				t.Errorf("%s: left over: %v", which, left)
			}
			if b, err := os.ReadFile(filepath.Join(dir, "b.html")); err != nil || string(b) != handbookMark+" old b" && string(b) != handbookMark+" new b" {
				t.Errorf("%s: b.html is %q, %v", which, b, err)
			}
			if mine, err := os.ReadFile(filepath.Join(dir, "notes.txt")); string(mine) != "mine" {
				t.Errorf("%s: notes.txt is %q, %v", which, mine, err)
			}
		}
	}
}

// remove fails for a file that people know. What lies beside it can be cleared
// away even here.
func (d *failing) remove(name string) error {
	if strings.Contains(name, ".millmaths-") {
		return d.process.remove(name)
	}
	if err := d.step(true, "remove", name); err != nil {
		return err
	}
	return d.process.remove(name)
}
