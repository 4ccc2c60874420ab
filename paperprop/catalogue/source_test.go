package catalogue_test

import (
	"go/ast"
	"go/token"
	"go/types"
	"testing"

	"millmaths.example/paperprop/internal/source"
)

// A product of two quantities compiles and is wrong: tonnes times tonnes are no
// tonnes. Outside package paperprop one factor must be a constant, a unit.
func TestNoQuantityTimesQuantity(t *testing.T) {
	fset := token.NewFileSet()
	packages, err := source.Load(fset, source.Module+"/...")
	if err != nil {
		t.Fatal(err)
	}
	looked, products := 0, 0
	for _, p := range packages {
		if p.Short() == "paperprop" {
			continue
		}
		looked++
		for _, f := range p.Files {
			ast.Inspect(f, func(n ast.Node) bool {
				b, ok := n.(*ast.BinaryExpr)
				if !ok || b.Op != token.MUL || !isQuantity(p.Info.Types[b].Type) {
					return true
				}
				products++
				if p.Info.Types[b.X].Value == nil && p.Info.Types[b.Y].Value == nil {
					t.Errorf("%v: %v times %v", fset.Position(b.Pos()), p.Info.Types[b.X].Type, p.Info.Types[b.Y].Type)
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
