// Command overlay writes copies of the packages with formulas, in which each
// constant can be changed while the program runs, and the file for the go command's
// flag -overlay. See .ci/release/constants.
//
//	overlay FOLDER
package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"os"
	"path/filepath"
	"strings"

	"millmaths.example/paperprop/internal/mutant/copies"
	"millmaths.example/paperprop/internal/source"
)

// rooms are the packages with formulas.
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
	Where  string // "fibre/kappa.go" and the declaration it is in
	Text   string // "0.013", "-0.01" or a name
	Place  string // "fibre/kappa.go:59:70"
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
	overlay, err := copies.New(folder, packages[0])
	if err != nil {
		return err
	}
	var constants []constantOf
	for _, p := range packages {
		named := map[types.Object]int{}
		for _, f := range p.Files {
			file, err := copies.Open(fset, p, f)
			if err != nil {
				return err
			}
			if generated(file.Path) {
				continue // units: GNU units is their oracle
			}
			walk(f, marker{file, fset, named, &constants}.mark)
			if err := overlay.Add(file); err != nil {
				return err
			}
		}
	}
	overlay.PutTests(copies.Root(packages[0]), "constants_test.go", "catchers_test.go")
	if err := overlay.Write(); err != nil {
		return err
	}
	fmt.Printf("%d constants in %d files\n", len(constants), overlay.Len())
	return copies.WriteJSON(filepath.Join(folder, "constants.json"), constants)
}

func generated(path string) bool { return strings.HasSuffix(path, "_gen.go") }

// A marker numbers the constants of one file, and has its copy ask for them by number.
type marker struct {
	*copies.File
	fset      *token.FileSet
	named     map[types.Object]int // the numbers of the package's named constants
	constants *[]constantOf        // of all files so far
}

// mark marks an expression if it is a constant.
func (m marker) mark(e ast.Expr) {
	info := m.Package.Info
	v := info.Types[e]
	if v.Value == nil || !isFloat(v.Type) || constant.Sign(constant.ToFloat(v.Value)) == 0 {
		return
	}
	switch e := e.(type) {
	case *ast.BasicLit:
		m.wrap(e, m.number(e, e.Value))
	case *ast.UnaryExpr, *ast.BinaryExpr:
		// In -0.01 and 25.0/6 the literals have no type: the whole is changed.
		if untyped(info, e) {
			m.wrap(e, m.number(e, m.Source(e)))
		}
	case *ast.Ident:
		object, ok := info.Uses[e].(*types.Const)
		if !ok || object.Pkg() != m.Package.Package || generated(m.fset.Position(object.Pos()).Filename) {
			return
		}
		if m.named[object] == 0 {
			m.named[object] = m.number(e, e.Name)
		}
		m.wrap(e, m.named[object])
	}
}

// number adds a constant to the list.
func (m marker) number(what ast.Expr, text string) int {
	n := len(*m.constants) + 1
	*m.constants = append(*m.constants, constantOf{
		Number: n, Room: m.Package.Short(), Where: m.Short() + " " + declared(m.File.File, what), Text: text,
		Place: m.Short() + strings.TrimPrefix(m.fset.Position(what.Pos()).String(), m.Path),
	})
	return n
}

func (m marker) wrap(e ast.Expr, n int) {
	m.Replace(e.Pos(), e.End(), fmt.Sprintf("mutant.Of[%s](%d, %s)", m.TypeName(m.Package.Info.Types[e].Type, e.Pos()), n, m.Source(e)))
}

// declared returns the name of the function or variable that contains an expression.
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

// untyped reports whether no literal or named constant in a constant expression is
// itself a float.
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

// bounds are methods whose arguments are ends of ranges, not constants of a formula.
var bounds = map[string]bool{"Above": true, "From": true, "Below": true, "UpTo": true, "SumsTo": true}

// walk calls f for the expressions of a file that are evaluated at run time: not those
// of constants, types, cases of a switch and ranges.
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
