// Package source type-checks the packages of this module, for the tests and
// tools that walk its source.
package source

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
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
)

// Module is the path of this module.
const Module = "millmaths.example"

// A Package is one package of the module, without its tests.
type Package struct {
	Dir string
	*types.Package
	Files []*ast.File
	Info  *types.Info
}

// Short returns the path of the package within the module: "stock".
func (p *Package) Short() string { return strings.TrimPrefix(p.Path(), Module+"/") }

// Load type-checks the packages of the module that match the patterns, which are those
// of the go command. Dependencies are read as compiled export data.
func Load(fset *token.FileSet, patterns ...string) ([]*Package, error) {
	arguments := append([]string{"list", "-deps", "-export", "-json=ImportPath,Dir,Export,GoFiles,DepOnly"}, patterns...)
	list := exec.Command("go", arguments...)
	var told bytes.Buffer
	list.Stderr = &told
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w\n%s", err, told.Bytes())
	}
	type listed struct {
		ImportPath, Dir, Export string
		GoFiles                 []string
		DepOnly                 bool
	}
	exports := map[string]string{}
	var wanted []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var l listed
		if err := d.Decode(&l); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		exports[l.ImportPath] = l.Export
		if !l.DepOnly && strings.HasPrefix(l.ImportPath, Module+"/") && len(l.GoFiles) > 0 {
			wanted = append(wanted, l)
		}
	}
	compiled := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	var packages []*Package
	for _, l := range wanted {
		p := &Package{Dir: l.Dir, Info: &types.Info{
			Types: map[ast.Expr]types.TypeAndValue{},
			Defs:  map[*ast.Ident]types.Object{},
			Uses:  map[*ast.Ident]types.Object{},
		}}
		for _, name := range l.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(l.Dir, name), nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return nil, err
			}
			p.Files = append(p.Files, f)
		}
		config := types.Config{Importer: compiled}
		if p.Package, err = config.Check(l.ImportPath, fset, p.Files, p.Info); err != nil {
			return nil, err
		}
		packages = append(packages, p)
	}
	return packages, nil
}
