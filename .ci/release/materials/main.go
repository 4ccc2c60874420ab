// Command materials writes the software bill of materials of a built program in
// CycloneDX 1.5: each module with its version, its hash and the licence that
// DEVELOPERS.md lists.
//
//	go run ./.ci/release/materials PROGRAM > bom.json
package main

import (
	"debug/buildinfo"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "materials: want a program")
		os.Exit(2)
	}
	if err := write(os.Stdout, os.Args[1], "DEVELOPERS.md"); err != nil {
		fmt.Fprintln(os.Stderr, "materials:", err)
		os.Exit(1)
	}
}

type document struct {
	Format     string      `json:"bomFormat"`
	Version    string      `json:"specVersion"`
	Number     int         `json:"version"`
	Metadata   metadata    `json:"metadata"`
	Components []component `json:"components"`
}

type metadata struct {
	Component component `json:"component"`
}

type component struct {
	Type     string    `json:"type"`
	Name     string    `json:"name"`
	Version  string    `json:"version,omitempty"`
	URL      string    `json:"purl,omitempty"`
	Hashes   []hash    `json:"hashes,omitempty"`
	Licences []licence `json:"licenses,omitempty"`
}

type hash struct {
	Algorithm string `json:"alg"`
	Content   string `json:"content"`
}

type licence struct {
	Licence struct {
		ID string `json:"id"`
	} `json:"license"`
}

func write(out io.Writer, program, dependencies string) error {
	info, err := buildinfo.ReadFile(program)
	if err != nil {
		return err
	}
	text, err := os.ReadFile(dependencies)
	if err != nil {
		return err
	}
	d := document{Format: "CycloneDX", Version: "1.5", Number: 1, Components: []component{}}
	d.Metadata.Component = component{Type: "application", Name: info.Main.Path, Version: info.Main.Version}
	for _, m := range info.Deps {
		c := component{Type: "library", Name: m.Path, Version: m.Version, URL: "pkg:golang/" + m.Path + "@" + m.Version}
		sum, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(m.Sum, "h1:"))
		if err != nil || len(sum) == 0 {
			return fmt.Errorf("hash of %s is %q, want h1: and base64", m.Path, m.Sum)
		}
		c.Hashes = []hash{{"SHA-256", hex.EncodeToString(sum)}} // of the module's files, as go.sum has it
		var l licence
		if l.Licence.ID = licenceOf(m.Path, string(text)); l.Licence.ID == "" {
			return fmt.Errorf("%s lists no licence of %s", dependencies, m.Path)
		}
		c.Licences = []licence{l}
		d.Components = append(d.Components, c)
	}
	c := component{Type: "library", Name: "std", Version: info.GoVersion}
	var l licence
	l.Licence.ID = "BSD-3-Clause"
	c.Licences = []licence{l}
	d.Components = append(d.Components, c)
	e := json.NewEncoder(out)
	e.SetIndent("", "  ")
	return e.Encode(d)
}

// licenceOf finds the row of a module in the table of dependencies.
func licenceOf(module, text string) string {
	for line := range strings.Lines(text) {
		cells := strings.Split(line, "|")
		if len(cells) > 3 && strings.TrimPrefix(module, "github.com/") == strings.Trim(cells[1], " `") {
			return strings.TrimSpace(cells[2])
		}
	}
	return ""
}
