package catalogue_test

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// A product of two quantities compiles and is wrong: tonnes times tonnes are no
// tonnes. Outside package paperprop one factor must be a constant, a unit.
func TestNoQuantityTimesQuantity(t *testing.T) {
	fset := token.NewFileSet()
	packages := listed(t)
	exports := map[string]string{}
	for _, p := range packages {
		exports[p.ImportPath] = p.Export
	}
	lookup := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	looked, products := 0, 0
	for _, p := range packages {
		if !strings.HasPrefix(p.ImportPath, "millmaths.example/") || p.ImportPath == "millmaths.example/paperprop" {
			continue
		}
		var files []*ast.File
		for _, name := range p.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
		info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
		config := types.Config{Importer: lookup}
		if _, err := config.Check(p.ImportPath, fset, files, info); err != nil {
			t.Fatal(err)
		}
		looked++
		for _, f := range files {
			ast.Inspect(f, func(n ast.Node) bool {
				b, ok := n.(*ast.BinaryExpr)
				if !ok || b.Op != token.MUL || !isQuantity(info.Types[b].Type) {
					return true
				}
				products++
				if info.Types[b.X].Value == nil && info.Types[b.Y].Value == nil {
					t.Errorf("%v: %v times %v", fset.Position(b.Pos()), info.Types[b.X].Type, info.Types[b.Y].Type)
				}
				return true
			})
		}
	}
	if looked < 10 || products < 40 {
		t.Errorf("looked at %d packages and %d products of a quantity, want more", looked, products)
	}
}

func isQuantity(t types.Type) bool {
	named, ok := t.(*types.Named)
	if !ok || named.Obj().Pkg() == nil || named.Obj().Pkg().Path() != "millmaths.example/paperprop" {
		return false
	}
	basic, ok := named.Underlying().(*types.Basic)
	return ok && basic.Kind() == types.Float64
}

type listedPackage struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
}

// listed asks the go command for our packages and the export data of all that
// they import.
func listed(t *testing.T) []listedPackage {
	out, err := exec.Command("go", "list", "-deps", "-export", "-json=ImportPath,Dir,Export,GoFiles", "millmaths.example/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	var packages []listedPackage
	d := json.NewDecoder(strings.NewReader(string(out)))
	for {
		var p listedPackage
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return packages
		} else if err != nil {
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
}
