package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the outputs of the commands into the pages")

// pages are those whose commands and outputs must be true.
var pages = []struct {
	name     string
	commands int // at least
}{
	{"README.md", 3},
	{"examples/README.md", 15},
	{"examples/quillbeck/TOUR.md", 15},
}

// block is a fenced console block: commands after a dollar, their output below.
var block = regexp.MustCompile("(?s)```console\n(.*?)```\n")

// linked is a link or a picture of a page.
var linked = regexp.MustCompile(`\]\(([^)#]+)`)

// TestReadme runs each command of the README and of the pages behind it and
// compares what a terminal would show: output and errors in the order in which
// they come.
func TestReadme(t *testing.T) {
	t.Chdir("../..")
	defer os.Remove("rows.txt")
	for _, page := range pages {
		text, err := os.ReadFile(page.name)
		if err != nil {
			t.Fatal(err)
		}
		found, count := retyped(string(text))
		if *update {
			if err := os.WriteFile(page.name, []byte(found), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if count < page.commands {
			t.Errorf("%s has %d commands, want at least %d", page.name, count, page.commands)
		}
		if found != string(text) {
			t.Errorf("%s is not what the commands print (go test ./cmd/millmaths -run Readme -update):\n%s", page.name, firstDifference(string(text), found))
		}
		for _, to := range linked.FindAllStringSubmatch(string(text), -1) {
			if _, err := os.Stat(filepath.Join(filepath.Dir(page.name), to[1])); err != nil {
				t.Errorf("%s: a link leads nowhere: %v", page.name, err)
			}
		}
	}
}

// TestReadmeBegins holds the commands that a stranger types first.
func TestReadmeBegins(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, must := range []string{"go run ./cmd/millmaths batch tensile examples/quillbeck/tensile.txt", "go run ./cmd/millmaths line examples/quillbeck/harebell-120.toml", "go test ./..."} {
		if !strings.Contains(string(text), "\n    "+must+"\n") {
			t.Errorf("README lacks the command %q", must)
		}
	}
}

// retyped is a page with what its commands print, and their number.
func retyped(page string) (text string, count int) {
	text = block.ReplaceAllStringFunc(page, func(b string) string {
		var out strings.Builder
		out.WriteString("```console\n")
		for _, line := range strings.Split(block.FindStringSubmatch(b)[1], "\n") {
			if command, ok := strings.CutPrefix(line, "$ millmaths "); ok {
				count++
				out.WriteString(line + "\n" + typed(command))
			}
		}
		return out.String() + "```\n"
	})
	return text, count
}

// typed runs a command line and returns what a terminal shows.
func typed(command string) string {
	command, input, _ := strings.Cut(command, " <<< ")
	var screen bytes.Buffer
	run(context.Background(), words(command), strings.NewReader(strings.Trim(input, "'")), &screen, &screen)
	return screen.String()
}

// words parts a command line as a shell does, with double quotes alone.
func words(command string) []string {
	var out []string
	for i, part := range strings.Split(command, `"`) {
		if i%2 == 1 {
			out[len(out)-1] += part
			continue
		}
		fields := strings.Fields(part)
		if i > 0 && len(fields) > 0 && !strings.HasPrefix(part, " ") {
			out[len(out)-1] += fields[0]
			fields = fields[1:]
		}
		out = append(out, fields...)
		if strings.HasSuffix(part, " ") {
			out = append(out, "")
		}
	}
	if n := len(out); n > 0 && out[n-1] == "" {
		out = out[:n-1]
	}
	return out
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return "written: " + x[i] + "\nprinted: " + y[i]
		}
	}
	return "lengths differ"
}
