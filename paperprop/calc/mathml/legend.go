package mathml

import (
	"go/ast"
	"slices"

	"millmaths.example/paperprop/calc/formula"
)

// Legend says in words what formulas use and a reader may not know, each once,
// in the order of the alphabet of the functions.
func Legend(lines []*formula.Line) []string {
	used := map[string]bool{}
	for _, l := range lines {
		ast.Inspect(l.Expr(), func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				used[call.Fun.(*ast.Ident).Name] = true
			}
			return true
		})
	}
	var legend []string
	for _, m := range meanings {
		if slices.ContainsFunc(m.of, func(name string) bool { return used[name] }) {
			legend = append(legend, m.text)
		}
	}
	return legend
}

// meanings of the functions that schoolbooks do not have.
var meanings = []struct {
	of   []string
	text string
}{
	{[]string{"after", "before"}, "before(x) is the list x without its last member, after(x) without its first: pairs of neighbours."},
	{[]string{"count"}, "count(x) is the number of members of the list x."},
	{[]string{"final"}, "final(x) is the last member of the list x."},
	{[]string{"least", "most"}, "least(x) and most(x) are the smallest and the largest member of the list x."},
	{[]string{"mean"}, "mean(x) is the arithmetic mean of the list x."},
	{[]string{"product"}, "∏ multiplies the members of the lists."},
	{[]string{"reaches"}, "[a ≥ b] is 1 where it holds and 0 where it does not."},
	{[]string{"sum"}, "∑ adds over the members of the lists."},
}
