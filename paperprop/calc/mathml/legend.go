package mathml

import (
	"go/ast"
	"slices"

	"millmaths.example/paperprop/calc/formula"
)

// Legend returns sentences that explain the less familiar notation of formulas as
// [Line] sets them, each once, in alphabetical order of the functions.
func Legend(lines []*formula.Line) []string {
	return legend(lines, func(m meaning) string { return m.set })
}

// TypedLegend is [Legend] for formulas as they are typed.
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

// A meaning explains functions, for formulas as set and as typed. A text is empty where
// the notation explains itself.
type meaning struct {
	of         []string
	set, typed string
}

const (
	neighbours = "before(x) is the list x without its last member, after(x) without its first: pairs of neighbours."
	final      = "final(x) is the last member of the list x."
	extremes   = "least(x) and most(x) are the smallest and the largest member of the list x."
)

// meanings explains the functions that school mathematics does not have, or writes
// differently.
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
