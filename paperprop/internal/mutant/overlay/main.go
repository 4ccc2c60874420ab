// Command overlay writes copies of the packages with formulas, in which each
// constant can be changed while the program runs, and the file that the flag
// -overlay of the go command takes. See .ci/release/constants.
//
//	overlay FOLDER
package main

import (
	"encoding/json"
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"millmaths.example/paperprop/internal/source"
)

// rooms are the packages that hold formulas.
var rooms = []string{"stock", "fibre", "paperprop/sheet", "paperprop/board", "paperprop/drying", "paperprop/reel", "paperprop/lab", "paperprop/water"}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: overlay FOLDER")
		os.Exit(2)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "overlay:", err)
		os.Exit(1)
	}
}

// A constantOf is a literal, an expression of literals, or all uses of a named
// constant.
type constantOf struct {
	Number int
	Room   string // "fibre"
	Where  string // "fibre/kappa.go" and what is declared there
	Text   string // "0.013", "-0.01" or a name
	Place  string // "fibre/kappa.go:59:70"
}

// An edit replaces a part of a file.
type edit struct {
	from, to int
	text     string
}

// edited is a text with its edits, none of which lies in another.
func edited(text []byte, edits []edit) string {
	sort.Slice(edits, func(i, j int) bool { return edits[i].from < edits[j].from })
	var b strings.Builder
	at := 0
	for _, e := range edits {
		b.Write(text[at:e.from])
		b.WriteString(e.text)
		at = e.to
	}
	b.Write(text[at:])
	return b.String()
}

func write(folder string) error {
	fset := token.NewFileSet()
	var patterns []string
	for _, r := range rooms {
		patterns = append(patterns, source.Module+"/"+r)
	}
	packages, err := source.Load(fset, patterns...)
	if err != nil {
		return err
	}
	replace := map[string]string{}
	var constants []constantOf
	for _, p := range packages {
		named := map[types.Object]int{}
		for _, f := range p.Files {
			path := fset.Position(f.Pos()).Filename
			if strings.HasSuffix(path, "_gen.go") {
				continue // units: GNU units is their oracle
			}
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			var edits []edit
			imported := map[string]bool{}
			number := func(what ast.Expr, name string) int {
				short := p.Short() + "/" + filepath.Base(path)
				constants = append(constants, constantOf{
					Number: len(constants) + 1, Room: p.Short(), Where: short + " " + declared(f, what), Text: name,
					Place: short + strings.TrimPrefix(fset.Position(what.Pos()).String(), path),
				})
				return len(constants)
			}
			wrap := func(e ast.Expr, n int) {
				t := types.TypeString(p.Info.Types[e].Type, func(other *types.Package) string {
					if other == p.Package {
						return ""
					}
					imported[other.Path()] = true
					return other.Name()
				})
				from, to := fset.Position(e.Pos()).Offset, fset.Position(e.End()).Offset
				edits = append(edits, edit{from, to, fmt.Sprintf("mutant.Of[%s](%d, %s)", t, n, text[from:to])})
			}
			walk(f, func(e ast.Expr) {
				v := p.Info.Types[e]
				if v.Value == nil || !isFloat(v.Type) || constant.Sign(constant.ToFloat(v.Value)) == 0 {
					return
				}
				switch e := e.(type) {
				case *ast.BasicLit:
					wrap(e, number(e, e.Value))
				case *ast.UnaryExpr, *ast.BinaryExpr:
					// In -0.01 and 25.0/6 the literals have no type: the whole is changed.
					if untyped(p.Info, e) {
						from, to := fset.Position(e.Pos()).Offset, fset.Position(e.End()).Offset
						wrap(e, number(e, string(text[from:to])))
					}
				case *ast.Ident:
					object, ok := p.Info.Uses[e].(*types.Const)
					if !ok || object.Pkg() != p.Package || strings.HasSuffix(fset.Position(object.Pos()).Filename, "_gen.go") {
						return
					}
					if named[object] == 0 {
						named[object] = number(e, e.Name)
					}
					wrap(e, named[object])
				}
			})
			if len(edits) == 0 {
				continue
			}
			head := fmt.Sprintf("package %s\n\nimport %q\n", p.Name(), source.Module+"/internal/mutant")
			changed := strings.Replace(edited(text, edits), "package "+p.Name()+"\n", head, 1)
			copied := filepath.Join(folder, strings.ReplaceAll(p.Short(), "/", "_")+"_"+filepath.Base(path))
			if err := os.WriteFile(copied, []byte(changed), 0o644); err != nil {
				return err
			}
			replace[path] = copied
		}
	}
	// Package mutant stands where all rooms may import it in the copies alone.
	root := strings.TrimSuffix(packages[0].Dir, "/"+packages[0].Short())
	replace[filepath.Join(root, "internal/mutant/mutant.go")] = filepath.Join(root, "paperprop/internal/mutant/mutant.go")
	// A test that imports what only the overlay has would stop go mod tidy, here
	// and in every module that imports the catalogue.
	replace[filepath.Join(root, "paperprop/catalogue/constants_test.go")] = filepath.Join(root, "paperprop/internal/mutant/testdata/constants_test.go")
	if err := writeJSON(filepath.Join(folder, "overlay.json"), map[string]any{"Replace": replace}); err != nil {
		return err
	}
	fmt.Printf("%d constants in %d files\n", len(constants), len(replace))
	return writeJSON(filepath.Join(folder, "constants.json"), constants)
}

// declared is the name of the function or variable in which an expression stands.
func declared(file *ast.File, what ast.Expr) string {
	for _, d := range file.Decls {
		if what.Pos() < d.Pos() || d.End() <= what.Pos() {
			continue
		}
		switch d := d.(type) {
		case *ast.FuncDecl:
			return d.Name.Name
		case *ast.GenDecl:
			for _, s := range d.Specs {
				if v, ok := s.(*ast.ValueSpec); ok && v.Pos() <= what.Pos() && what.Pos() < v.End() {
					return v.Names[0].Name
				}
			}
		}
	}
	return ""
}

func writeJSON(path string, v any) error {
	text, err := json.MarshalIndent(v, "", "\t")
	if err != nil {
		return err
	}
	return os.WriteFile(path, text, 0o644)
}

// untyped says whether no literal or name of a constant expression is a float by
// itself.
func untyped(info *types.Info, e ast.Expr) bool {
	all := true
	ast.Inspect(e, func(n ast.Node) bool {
		if part, ok := n.(ast.Expr); ok && part != e && info.Types[part].Value != nil && isFloat(info.Types[part].Type) {
			all = false
		}
		return all
	})
	return all
}

func isFloat(t types.Type) bool {
	basic, ok := t.Underlying().(*types.Basic)
	return ok && basic.Kind() == types.Float64
}

// bounds are methods whose arguments are ends of ranges, and no constant of a
// formula.
var bounds = map[string]bool{"Above": true, "From": true, "Below": true, "UpTo": true, "SumsTo": true}

// walk calls f for the expressions of a file that are evaluated when it runs:
// not those of constants, of types, of the cases of a switch and of ranges.
func walk(file *ast.File, f func(ast.Expr)) {
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GenDecl:
			return n.Tok == token.VAR
		case *ast.CaseClause:
			for _, s := range n.Body {
				ast.Inspect(s, func(m ast.Node) bool { return visit(m, f) })
			}
			return false
		}
		return visit(n, f)
	})
}

func visit(n ast.Node, f func(ast.Expr)) bool {
	switch n := n.(type) {
	case *ast.CallExpr:
		if s, ok := n.Fun.(*ast.SelectorExpr); ok && bounds[s.Sel.Name] {
			ast.Inspect(s.X, func(m ast.Node) bool { return visit(m, f) })
			return false
		}
	case *ast.GenDecl:
		return n.Tok == token.VAR
	case *ast.ArrayType:
		return false
	case *ast.SelectorExpr:
		ast.Inspect(n.X, func(m ast.Node) bool { return visit(m, f) })
		return false
	case *ast.KeyValueExpr:
		ast.Inspect(n.Value, func(m ast.Node) bool { return visit(m, f) })
		return false
	case ast.Expr:
		f(n)
	}
	return true
}
