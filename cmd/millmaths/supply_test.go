package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// licences by a sentence that each has.
var licences = map[string]string{
	"MIT":          "Permission is hereby granted, free of charge",
	"BSD-3-Clause": "Neither the name of",
	"Apache-2.0":   "Apache License",
}

// DEVELOPERS.md lists the modules that the main module requires, and no others,
// each with the licence that comes with it.
func TestDependenciesAreListed(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, text2, _ := strings.Cut(string(text), "\n## Dependencies\n")
	section, _, _ := strings.Cut(text2, "\n## ")
	listed := map[string]string{}
	for line := range strings.Lines(section) {
		cells := strings.Split(line, "|")
		if len(cells) < 6 || !strings.Contains(cells[1], "`") {
			continue
		}
		name := strings.Trim(strings.TrimSpace(cells[1]), "`")
		if !strings.Contains(strings.SplitN(name, "/", 2)[0], ".") {
			name = "github.com/" + name
		}
		listed[name] = strings.TrimSpace(cells[2])
		for i, cell := range cells[1:5] {
			if strings.TrimSpace(cell) == "" {
				t.Errorf("%s: cell %d of its row is empty", name, i+1)
			}
		}
	}
	out, err := exec.Command("go", "list", "-m", "-json", "all").Output()
	if err != nil {
		t.Fatal(err)
	}
	for modules := json.NewDecoder(strings.NewReader(string(out))); modules.More(); {
		var m struct {
			Path, Dir      string
			Main, Indirect bool
		}
		if err := modules.Decode(&m); err != nil {
			t.Fatal(err)
		}
		if m.Main || m.Indirect {
			continue
		}
		licence, ok := listed[m.Path]
		delete(listed, m.Path)
		if !ok {
			t.Errorf("DEVELOPERS.md lacks the module %s", m.Path)
			continue
		}
		files, err := filepath.Glob(filepath.Join(m.Dir, "LICEN[SC]E*"))
		if err != nil || len(files) == 0 {
			t.Errorf("%s: no licence in %s, %v", m.Path, m.Dir, err)
			continue
		}
		own, err := os.ReadFile(files[0])
		if err != nil {
			t.Fatal(err)
		}
		if says := licences[licence]; says == "" || !strings.Contains(strings.Join(strings.Fields(string(own)), " "), says) {
			t.Errorf("%s: DEVELOPERS.md says %q, its licence begins %.80q", m.Path, licence, own)
		}
	}
	for name := range listed {
		t.Errorf("DEVELOPERS.md lists %s, which go.mod does not require", name)
	}
}
