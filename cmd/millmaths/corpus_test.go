//go:build unix

package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
	"unicode"
)

// hostile is a folder of files that somebody might send: each is good for one
// nasty surprise.
const hostile = "../../testdata/hostile"

// readers are the commands that read files, %s being the file.
var readers = []string{
	"batch tensile %s",
	"batch tensile %s --by specimen --summary markdown",
	"batch replicates %s --lot specimen --column value=force",
	"batch dilution %s --jsonl",
	"batch precision %s --jsonl",
	"replicates --value @%s",
	"replicates --value @%s:force",
	"profile --scan @%s",
	"line %s",
	"line %s --json",
	"trim %s --deckle 3300mm --limit 300ms --partly",
	"trim %s --limit 300ms",
	"verify %s",
}

var patience = flag.Int("patience", 5, "how many times a second a mebibyte a command may take: 1 on a machine that does nothing else")

// allowed is the time for so many bytes, which no command may exceed.
func allowed(size int) time.Duration {
	return time.Duration(*patience) * (time.Second + time.Duration(size>>10)*time.Second/1024)
}

// watched runs a command as on a terminal, and holds it to what is asked of
// whatever it is given: soon done or refused with a word, and nothing that could
// steer a terminal.
func watched(t *testing.T, size int, input io.Reader, args ...string) result {
	t.Helper()
	var out, err bytes.Buffer
	begin := processorTime()
	status := newTerminal(input, &screen{to: &out}, &err, new(process)).run(context.Background(), args)
	r := result{status, out.String(), err.String()}
	which := fmt.Sprintf("%.200q", args)
	// Time of the processor: the machine may have more to do.
	if took := processorTime() - begin; took > allowed(size) {
		t.Errorf("%s: %v for %d bytes", which, took, size)
	}
	if status != done && strings.TrimSpace(r.Err+r.Out) == "" {
		t.Errorf("%s: exit %d and no word", which, status)
	}
	for name, text := range map[string]string{"out": r.Out, "err": r.Err} {
		if at := steering(text); at >= 0 {
			t.Errorf("%s: std%s has %q", which, name, text[max(0, at-40):min(len(text), at+10)])
		}
	}
	for line := range strings.Lines(r.Err) {
		if strings.HasPrefix(line, "millmaths: all is well") {
			t.Errorf("%s: a forged line in\n%s", which, r.Err)
		}
		if len(line) > 2200 {
			t.Errorf("%s: a line of %d bytes: %.100s", which, len(line), line)
		}
	}
	return r
}

// steering is where a text has what does not print, -1 if nowhere.
func steering(text string) int {
	return strings.IndexFunc(text, func(c rune) bool {
		return c != '\n' && c != '\t' && !unicode.IsGraphic(c) || unicode.Is(unicode.Bidi_Control, c)
	})
}

// Every file of the corpus through every command that reads one.
func TestHostileFiles(t *testing.T) {
	files, withWord := 0, map[string]int{}
	err := filepath.WalkDir(hostile, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		files++
		for _, reader := range readers {
			r := watched(t, int(info.Size()), nil, words(fmt.Sprintf(reader, name))...)
			if r.Status != done && r.Status != failed && r.Status != misused {
				t.Errorf("%s: exit %d", fmt.Sprintf(reader, name), r.Status)
			}
			if r.Status != done {
				withWord[reader]++
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 60 {
		t.Errorf("%d files, want 60 or more", files)
	}
	for _, reader := range readers {
		if withWord[reader] < 20 {
			t.Errorf("%s refused %d of %d files, want more of them", reader, withWord[reader], files)
		}
	}
}

// Every text of the corpus as an input, an output to solve for, a value to
// convert, a flag of a tool, a command, a name of a file.
func TestHostileTexts(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(hostile, "values.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for line := range bytes.Lines(data) {
		var text string
		if err := json.Unmarshal(line, &text); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{
			{"dilution", "--mass-flow", text, "--consistency-in", "4 %", "--consistency-out", "1 %"},
			{"dilution", "--mass-flow", text, "--consistency-in", "4 %", "--consistency-out", "1 %", "--json"},
			{"dilution", "--water-flow", text, "--consistency-in", "4 %", "--consistency-out", "1 %", "--steps"},
			{"dilution", "--mass-flow", "3 t/h", "--source", text, "--unit", text, "--correlated", text, "--freedom", text},
			{"dilution", "--" + text, text},
			{"replicates", "--value", text},
			{"profile", "--scan", text},
			{"profile", "--" + text, text},
			{"round", "--value", "5", "--step", "0.1", "--tie", text},
			{"convert", text, "kg"},
			{"convert", "1 kg", text},
			{"batch", "tensile", "-", "--force", text, "--column", text},
			{"batch", text},
			{"line", text, "--set", text},
			{"line", "-", "--want", text},
			{"trim", text, "--deckle", text},
			{"trim", "-", "--deckle", "3 m", "--column", text, "--filler", text},
			{"verify", text},
			{"schema", text},
			{"explain", text},
			{"list", text},
			{"complete", "--", text},
			{text},
		} {
			watched(t, len(text), strings.NewReader("width [mm],reels\n500,3\n"), args...)
		}
	}
}

// A file's name may hold what steers a terminal, or look like a message.
func TestHostileNames(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"\x1b[31mred.csv", "a\nmillmaths: all is well", "\u202evsc.exe", "\x9b5m", "-", "--out", "x\ty.toml"} {
		if err := os.WriteFile(name, []byte("specimen;force [N];grammage [g/m2]\nA;x;120\n"), 0o644); err != nil {
			t.Logf("not a name here: %v", err)
			continue
		}
		for _, reader := range readers {
			var args []string
			for _, word := range words(reader) {
				args = append(args, strings.ReplaceAll(strings.ReplaceAll(word, "%%", "%"), "%s", name))
			}
			watched(t, 0, strings.NewReader("\n"), args...)
		}
		watched(t, 0, nil, "dilution", "--mass-flow", "3..5 t/h", "--consistency-in", "4 %", "--consistency-out", "1 %", "--plot", name)
		watched(t, 0, nil, "dilution", "--mass-flow", "3..5 t/h", "--consistency-in", "4 %", "--consistency-out", "1 %", "--plot", name+".svg")
		watched(t, 0, strings.NewReader("force [N];grammage [g/m2]\n80;121\n"), "batch", "tensile", "--out", name)
	}
}

// A table's cells come out as they were, what steers a terminal and what a
// spreadsheet would take for a formula too: the file is not ours to change.
// Only a terminal is kept from it.
func TestCellsPassThrough(t *testing.T) {
	for _, name := range []string{"formulas-in-cells.csv", "directions-in-cells.csv"} {
		name = filepath.Join(hostile, "tables", name)
		in, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(t.TempDir(), "rows.csv")
		called("", "batch", "tensile", name, "--out", out, "--quiet")
		rows, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		got := bytes.Split(rows, []byte("\n"))
		for i, line := range bytes.Split(bytes.TrimSpace(in), []byte("\n")) {
			if cells := bytes.ReplaceAll(line, []byte(`"`), nil); i > 0 && !bytes.HasPrefix(bytes.ReplaceAll(got[i], []byte(`"`), nil), cells) {
				t.Errorf("%s: row %d is %q, was %q", name, i, got[i], line)
			}
		}
	}
}

// A check table may come from a stranger: its rows read no file outside of its
// folder, and one that can't be read is no refusal.
func TestChecksStayInTheirFolder(t *testing.T) {
	name := filepath.Join(hostile, "checks", "leaves-folder.csv")
	if r := called("", "verify", name); r.Status != failed || !strings.HasSuffix(r.Out, "\n16 rows, 16 failed\n") || strings.Contains(r.Out, "root:") {
		t.Errorf("exit %d, %s", r.Status, r.Out)
	}
}

// processorTime is the time that this process has used so far.
func processorTime() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		panic(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
