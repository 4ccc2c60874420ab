package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

var release = flag.Bool("release", false, "write what this version promises into testdata/released")

const releasedDir = "../../testdata/released"

// What a version has promised stays, or the change is told: each line of
// testdata/released/VERSION.txt is a name or a unit with what it means. One that
// is changed or gone has to stand in CHANGELOG.md, among what is not released
// yet: an item with all the words in backquotes. What is new needs nothing here.
//
// When a version is released, -release writes its file.
func TestReleasedNames(t *testing.T) {
	now := promises(t)
	file := filepath.Join(releasedDir, calc.Version+".txt")
	if *release {
		text := "# What version " + calc.Version + " promises: never edit, see TestReleasedNames.\n" + strings.Join(now, "\n") + "\n"
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	files, err := filepath.Glob(filepath.Join(releasedDir, "*.txt"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no file in %s: %v", releasedDir, err)
	}
	slices.SortFunc(files, func(a, b string) int { return slices.Compare(numbersOf(filepath.Base(a)), numbersOf(filepath.Base(b))) })
	data, err := os.ReadFile(files[len(files)-1])
	if err != nil {
		t.Fatal(err)
	}
	log, err := os.ReadFile("../../CHANGELOG.md")
	if err != nil {
		t.Fatal(err)
	}
	released := strings.Split(strings.TrimSpace(string(data)), "\n")[1:]
	if len(released) < 1000 {
		t.Fatalf("%s promises %d names, want all", files[len(files)-1], len(released))
	}
	for _, problem := range untold(released, now, string(log)) {
		t.Error(problem)
	}
}

// untold lists the promises that are not kept and not told of.
func untold(released, now []string, log string) []string {
	kept := map[string]bool{}
	for _, line := range now {
		kept[line] = true
	}
	items := unreleasedItems(log)
	var problems []string
	for _, line := range released {
		key, _, _ := strings.Cut(line, ":")
		var words []string
		for _, w := range strings.Fields(key)[1:] {
			words = append(words, "`"+w+"`")
		}
		told := slices.ContainsFunc(items, func(item string) bool {
			return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(item, w) })
		})
		if !kept[line] && !told {
			problems = append(problems, fmt.Sprintf("changed or gone: %s\n\tput it back, or tell it in CHANGELOG.md, unreleased, in one item with %s", line, strings.Join(words, ", ")))
		}
	}
	return problems
}

// unreleasedItems are the items of the first section of the changelog, if that
// is not released.
func unreleasedItems(log string) []string {
	_, rest, _ := strings.Cut(log, "\n## ")
	section, _, _ := strings.Cut(rest, "\n## ")
	head, body, _ := strings.Cut(section, "\n")
	if !strings.HasSuffix(head, "unreleased") {
		return nil
	}
	return strings.Split(body, "\n- ")[1:]
}

func TestUntold(t *testing.T) {
	const log = "# Changelog\n\n## 0.2.0, unreleased\n\n- `dilution`: `mass-flow`\n  is in kg/s.\n- `bar` is gone.\n\n## 0.1.0\n\n- `tear` came.\n"
	released := []string{"in dilution mass-flow: t/h", "calculation bar:", "calculation tear:", "in blend share: %", "out dilution water-flow: t/h"}
	now := []string{"in dilution mass-flow: kg/s", "in blend share: %", "calculation new:"}
	var got []string
	for _, p := range untold(released, now, log) {
		line, _, _ := strings.Cut(p, "\n")
		got = append(got, line)
	}
	if want := []string{"changed or gone: calculation tear:", "changed or gone: out dilution water-flow: t/h"}; !slices.Equal(got, want) {
		t.Errorf("untold: %q, want %q", got, want)
	}
}

// The version of the program is the newest of the changelog.
func TestVersionIsTheNewest(t *testing.T) {
	log, err := os.ReadFile("../../CHANGELOG.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(log), "\n## ")
	head, _, _ := strings.Cut(rest, "\n")
	if version, _, _ := strings.Cut(head, ","); version != calc.Version {
		t.Errorf("CHANGELOG.md begins with %q, the program is %s", head, calc.Version)
	}
	for _, args := range []string{"--version", "version"} {
		if r := called("", args); r.Status != done || r.Out != "millmaths "+calc.Version+"\n" {
			t.Errorf("millmaths %s: %q", args, r.Out)
		}
	}
}

// promises lists all names and units that others build on, sorted: commands,
// calculations with their fields, words, units, codes, and the names of JSON.
func promises(t *testing.T) []string {
	t.Helper()
	var all []string
	add := func(format string, args ...any) { all = append(all, strings.TrimSpace(fmt.Sprintf(format, args...))) }
	for _, tool := range tools() {
		if tool.usage != "" {
			add("command %s:", tool.name)
		}
	}
	for _, k := range paperprop.Kinds() {
		for _, u := range k.Units() {
			add("unit %s: %s", k.Name(), u)
		}
	}
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			info := c.Info()
			add("calculation %s:", info.Name)
			for _, f := range info.In {
				add("in %s %s: %s", info.Name, f.Name, promiseOf(f))
			}
			for _, f := range info.Out {
				add("out %s %s: %s", info.Name, f.Name, promiseOf(f))
			}
			for _, caution := range info.Cautions {
				add("caution %s %s:", info.Name, caution.Code)
			}
			for _, f := range slices.Concat(info.In, info.Out) {
				for _, w := range f.Choices {
					add("word %s %s %s:", info.Name, f.Name, w)
				}
			}
		}
	}
	for _, code := range codesInSource(t) {
		add("%s:", code)
	}
	for _, name := range jsonNames(t) {
		add("json %s:", name)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// promiseOf is what a field takes or gives: its type, unit, form and default.
func promiseOf(f *calc.Field) string {
	typ := f.Relation
	if f.Kind != nil {
		typ = f.Kind.Name()
	}
	form := [...]string{"one", "list", "word", "text", "table"}[f.Shape]
	if f.Need == calc.Optional {
		form = "optional " + form
	}
	return strings.Join(strings.Fields(strings.Join([]string{typ, f.Unit.String(), form, f.Default()}, " ")), " ")
}

// codesInSource are the codes of warnings, and those of errors in JSON.
func codesInSource(t *testing.T) []string {
	t.Helper()
	var codes []string
	err := filepath.WalkDir("../..", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CompositeLit:
				if code, ok := warningCode(n); ok {
					codes = append(codes, "warning "+code)
				}
			case *ast.FuncDecl:
				if n.Name.Name == "Code" && file.Name.Name == "calc" {
					for _, code := range firstReturned(n) {
						if code != "" { // of no error
							codes = append(codes, "error "+code)
						}
					}
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return codes
}

func warningCode(n *ast.CompositeLit) (string, bool) {
	typ := n.Type
	if selector, ok := typ.(*ast.SelectorExpr); ok {
		typ = selector.Sel
	}
	if id, ok := typ.(*ast.Ident); !ok || id.Name != "Warning" || len(n.Elts) == 0 {
		return "", false
	}
	first := n.Elts[0]
	if pair, ok := first.(*ast.KeyValueExpr); ok {
		first = pair.Value
	}
	literal, ok := first.(*ast.BasicLit)
	if !ok {
		return "", false
	}
	code, err := strconv.Unquote(literal.Value)
	return code, err == nil
}

func firstReturned(f *ast.FuncDecl) []string {
	var texts []string
	ast.Inspect(f, func(n ast.Node) bool {
		if r, ok := n.(*ast.ReturnStmt); ok {
			if literal, ok := r.Results[0].(*ast.BasicLit); ok {
				if code, err := strconv.Unquote(literal.Value); err == nil {
					texts = append(texts, code)
				}
			}
		}
		return true
	})
	return texts
}

// jsonFaces are commands that together write every name that JSON has; what
// they write is one object or array, or one a line.
var jsonFaces = []struct {
	face, input, command string
}{
	{"result", "", `dilution --mass-flow "300 ± 3 t/h" --consistency-in "4.6 %" --consistency-out "0.92 %" --expanded 95% --freedom mass-flow=5 --second-order --monte-carlo 1000 --json`},
	{"result", "", `dilution --mass-flow ? --water-flow "1200 t/h" --consistency-in "4.6 %" --consistency-out "0.92 %" --json`},
	{"result", "", `grammage --mass "5.871 g" --length "200 mm" --width "250 mm" --json`},
	{"result", "", `jet --head "3.2 m" --wire-speed "480 m/min" --json`},
	{"result", "", `freeness --volume "90 mL" --consistency "0.3 %" --temperature "20 degC" --json`},
	{"result", "", `precision --result "[2.31 2.24 2.42 | 2.19 2.33 2.27 | 2.40 2.44 2.36] kN/m" --factor 2.8 --json`},
	{"result", "", `air-dry-consistency --consistency "3..5 %" --json`},
	{"result", `{"headbox-consistency":"0.82 %","tray-consistency":"0.19 %"}`, `batch retention --jsonl`},
	{"error", "", `dilution --mass-flow "300 t" --json`},
	{"error", "", `precision --result 4 --json`},
	{"error", `{"headbox":"0.82 %"}` + "\n{", `batch retention --jsonl`},
	{"summary", "", `batch tensile ../../examples/quillbeck/tensile.txt --summary json`},
	{"line", "", `line ../../examples/quillbeck/harebell-120.toml --json`},
	{"trim", "", `trim ../../examples/quillbeck/orders.csv --deckle "3300 mm" --most-reels 5 --partly --quiet --json`},
	{"error", "", `trim ../../examples/quillbeck/orders.csv --deckle "2 m" --quiet --json`},
	{"schema", "", `schema dilution`},
	{"schema", "", `schema grammage`},
	{"schema", "", `schema propagate`},
	{"schemas", "", `schema`},
}

// Every JSON that the program writes says which version wrote it, refusals too.
func TestEveryJSONTellsItsVersion(t *testing.T) {
	for _, face := range jsonFaces {
		for _, object := range jsonObjects(t, face.command, face.input) {
			if object["version"] != calc.Version {
				t.Errorf("millmaths %s: version is %v, want %s", face.command, object["version"], calc.Version)
			}
		}
	}
}

// jsonObjects runs a command and reads the objects that it writes.
func jsonObjects(t *testing.T, command, input string) []map[string]any {
	t.Helper()
	r := called(input, words(command)...)
	d := json.NewDecoder(bytes.NewBufferString(r.Out))
	var objects []map[string]any
	for d.More() {
		var v any
		if err := d.Decode(&v); err != nil {
			t.Errorf("millmaths %s: %v in %.200q", command, err, r.Out)
			break
		}
		switch v := v.(type) {
		case map[string]any:
			objects = append(objects, v)
		case []any:
			for _, member := range v {
				objects = append(objects, member.(map[string]any))
			}
		}
	}
	if len(objects) == 0 {
		t.Errorf("millmaths %s writes no JSON: exit %d, %s%s", command, r.Status, r.Out, r.Err)
	}
	return objects
}

// jsonNames are the names of each face, with * for those that are inputs,
// outputs, calculations, stages or streams of somebody.
func jsonNames(t *testing.T) []string {
	t.Helper()
	found := map[string]bool{}
	for _, face := range jsonFaces {
		for _, object := range jsonObjects(t, face.command, face.input) {
			namesIn(found, face.face, object)
		}
	}
	var names []string
	for name := range found {
		names = append(names, name)
	}
	return names
}

// keyed are the objects whose names are no part of the form.
var keyed = []string{"inputs", "outputs", "defaults", "properties", "answers", "$defs", "by", "streams", "stages", "figures", "results"}

func namesIn(found map[string]bool, path string, v any) {
	switch v := v.(type) {
	case []any:
		for _, member := range v {
			namesIn(found, path, member)
		}
	case map[string]any:
		last := path[strings.LastIndexByte(path, '.')+1:]
		for name, member := range v {
			if slices.Contains(keyed, last) {
				name = "*"
			}
			found[path+"."+name] = true
			namesIn(found, path+"."+name, member)
		}
	}
}
