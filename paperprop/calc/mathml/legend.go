package mathml

import (
	"go/ast"
	"slices"

	"millmaths.example/paperprop/calc/formula"
)

// Legend says in words what formulas use and a reader may not know, each once,
// in the order of the alphabet of the functions.
func Legend(lines []*formula.Line) []string {
	return legend(lines, func(m meaning) string { return m.set })
}

// TypedLegend is Legend for formulas as they are typed.
func TypedLegend(lines []*formula.Line) []string {
	return legend(lines, func(m meaning) string { return m.typed })
}

func legend(lines []*formula.Line, say func(meaning) string) []string {
	used := map[string]bool{}
	for _, l := range lines {
		ast.Inspect(l.Expr(), func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				used[call.Fun.(*ast.Ident).Name] = true
			}
			return true
		})
	}
	var said []string
	for _, m := range meanings {
		if text := say(m); text != "" && slices.ContainsFunc(m.of, func(name string) bool { return used[name] }) {
			said = append(said, text)
		}
	}
	return said
}

// A meaning is what functions do, as formulas are set and as they are typed; empty where
// the sign or the name says it.
type meaning struct {
	of         []string
	set, typed string
}

const (
	neighbours = "before(x) is the list x without its last member, after(x) without its first: pairs of neighbours."
	final      = "final(x) is the last member of the list x."
	extremes   = "least(x) and most(x) are the smallest and the largest member of the list x."
)

// meanings of the functions that schoolbooks do not have, or write otherwise.
var meanings = []meaning{
	{[]string{"after", "before"}, neighbours, neighbours},
	{[]string{"count"}, "count(x) is the number of members of the list x.", ""},
	{[]string{"final"}, final, final},
	{[]string{"least", "most"}, extremes, extremes},
	{[]string{"log"}, "", "log(x) is the natural logarithm."},
	{[]string{"mean"}, "mean(x) is the arithmetic mean of the list x.", ""},
	{[]string{"product"}, "∏ multiplies the members of the lists.", "product(x) multiplies the members of the list x."},
	{[]string{"reaches"}, "[a ≥ b] is 1 where it holds and 0 where it does not.", "reaches(a, b) is 1 where a is at least b, and 0 where it is less."},
	{[]string{"sum"}, "∑ adds over the members of the lists.", ""},
}
