package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the outputs of the commands into README.md")

const readme = "../../README.md"

// block is a fenced console block: commands after a dollar, their output below.
var block = regexp.MustCompile("(?s)```console\n(.*?)```\n")

// TestReadme runs each command of the README and compares what a terminal
// would show: output and errors in the order in which they come.
func TestReadme(t *testing.T) {
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir("../..")
	defer os.Remove("rows.txt")
	count := 0
	found := block.ReplaceAllStringFunc(string(text), func(b string) string {
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
	if *update {
		if err := os.WriteFile("README.md", []byte(found), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if count < 12 {
		t.Errorf("README has %d commands, want at least 12", count)
	}
	if found != string(text) {
		t.Errorf("README is not what the commands print (go test ./cmd/millmaths -run Readme -update):\n%s", firstDifference(string(text), found))
	}
	for _, must := range []string{"go run ./cmd/millmaths batch tensile examples/quillbeck/tensile.txt", "go test ./..."} {
		if !strings.Contains(string(text), "\n    "+must+"\n") {
			t.Errorf("README lacks the command %q", must)
		}
	}
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
			return "README: " + x[i] + "\nprinted: " + y[i]
		}
	}
	return "lengths differ"
}
