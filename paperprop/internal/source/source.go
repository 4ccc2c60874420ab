// Package source type-checks the packages of this module, for the tests and
// tools that walk its source.
package source

import (
	"bytes"
	"encoding/json"
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
	all, err := list(patterns)
	if err != nil {
		return nil, err
	}
	exports := map[string]string{}
	for _, l := range all {
		exports[l.ImportPath] = l.Export
	}
	compiled := importer.ForCompiler(fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	var packages []*Package
	for _, l := range all {
		if l.DepOnly || !strings.HasPrefix(l.ImportPath, Module+"/") || len(l.GoFiles) == 0 {
			continue
		}
		p, err := l.check(fset, compiled)
		if err != nil {
			return nil, err
		}
		packages = append(packages, p)
	}
	return packages, nil
}

// A listed is a package as the go command lists it.
type listed struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
	DepOnly                 bool
}

// list lists the packages that match the patterns, and their dependencies.
func list(patterns []string) ([]listed, error) {
	arguments := append([]string{"list", "-deps", "-export", "-json=ImportPath,Dir,Export,GoFiles,DepOnly"}, patterns...)
	command := exec.Command("go", arguments...)
	var told bytes.Buffer
	command.Stderr = &told
	out, err := command.Output()
	if err != nil {
		return nil, fmt.Errorf("go list: %w\n%s", err, told.Bytes())
	}
	var all []listed
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var l listed
		if err := d.Decode(&l); err != nil {
			return nil, err
		}
		all = append(all, l)
	}
	return all, nil
}

func (l *listed) check(fset *token.FileSet, compiled types.Importer) (*Package, error) {
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
	var err error
	p.Package, err = config.Check(l.ImportPath, fset, p.Files, p.Info)
	return p, err
}
