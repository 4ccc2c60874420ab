package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"path/filepath"
	"strings"

	switches "millmaths.example/paperprop/internal/mutant"
	"millmaths.example/paperprop/internal/mutant/copies"
	"millmaths.example/paperprop/internal/source"
)

// A change is what a mutant does to an operator.
type change struct {
	kind string // name of the kind in gremlins
	to   token.Token
}

const (
	boundary   = "conditionals_boundary"
	negation   = "conditionals_negation"
	arithmetic = "arithmetic_base"
	increment  = "increment_decrement"
	negative   = "invert_negatives"
)

// binary and unary are the changes that gremlins makes by default, in the order in
// which package mutant makes them. It makes that of a minus twice, under two kinds.
var (
	binary = map[token.Token][]change{
		token.LSS: {{boundary, token.LEQ}, {negation, token.GEQ}},
		token.LEQ: {{boundary, token.LSS}, {negation, token.GTR}},
		token.GTR: {{boundary, token.GEQ}, {negation, token.LEQ}},
		token.GEQ: {{boundary, token.GTR}, {negation, token.LSS}},
		token.EQL: {{negation, token.NEQ}},
		token.NEQ: {{negation, token.EQL}},
		token.ADD: {{arithmetic, token.SUB}},
		token.SUB: {{arithmetic, token.ADD}},
		token.MUL: {{arithmetic, token.QUO}},
		token.QUO: {{arithmetic, token.MUL}},
		token.REM: {{arithmetic, token.MUL}},
	}
	unary = map[token.Token][]change{
		token.SUB: {{negative, token.ADD}},
		token.ADD: {{arithmetic, token.SUB}},
	}
	step = map[token.Token][]change{
		token.INC: {{increment, token.DEC}},
		token.DEC: {{increment, token.INC}},
	}
)

// functions of package mutant that replace operators.
var functions = map[token.Token]string{
	token.LSS: "Less", token.LEQ: "AtMost", token.GTR: "Greater", token.GEQ: "AtLeast",
	token.ADD: "Plus", token.SUB: "Minus", token.MUL: "Times", token.QUO: "Over", token.REM: "Rest",
}

// A mutant is one change of one operator.
type mutant struct {
	change
	from     token.Token
	file     string // "stock/density.go"
	at       token.Position
	code     string // the line of code
	recorded int    // the number under which the program records that the operator was evaluated
}

// A rewriter makes the copies of a package, in which mutant number n is mutants[n-1].
type rewriter struct {
	dirs    []string // folders of the package and of those whose tests count too
	overlay string
	fset    *token.FileSet
	mutants []mutant
	fixed   []mutant // mutants that no copy can switch: in declared constants, in types and others
}

// rewrite writes the copies of a package, and test files that make the programs record
// at their end what was evaluated.
func rewrite(folder, name string, with []string) (*rewriter, error) {
	w := &rewriter{fset: token.NewFileSet()}
	p, err := w.load(name)
	if err != nil {
		return nil, err
	}
	overlay, err := copies.New(folder, p)
	if err != nil {
		return nil, err
	}
	for _, f := range p.Files {
		file, err := copies.Open(w.fset, p, f)
		if err != nil {
			return nil, err
		}
		ast.Inspect(f, copying{file, w}.visit)
		if err := overlay.Add(file); err != nil {
			return nil, err
		}
	}
	if len(w.mutants) > switches.Most {
		return nil, fmt.Errorf("%d mutants, want at most %d", len(w.mutants), switches.Most)
	}
	for i, tested := range append([]string{name}, with...) {
		p, err := w.load(tested)
		if err != nil {
			return nil, err
		}
		tell := fmt.Sprintf(telling, p.Name(), source.Module)
		if err := overlay.AddText(filepath.Join(p.Dir, "mutant_telling_test.go"), fmt.Sprintf("telling%d_test.go", i), tell); err != nil {
			return nil, err
		}
		w.dirs = append(w.dirs, p.Dir)
	}
	overlay.PutTests(copies.Root(p), "noticed_test.go", "catchers_test.go")
	w.overlay = overlay.Path()
	return w, overlay.Write()
}

// load reads one package.
func (w *rewriter) load(name string) (*source.Package, error) {
	packages, err := source.Load(w.fset, source.Module+"/"+name)
	if err == nil && len(packages) != 1 {
		err = fmt.Errorf("%s is no package of the module", name)
	}
	if err != nil {
		return nil, err
	}
	return packages[0], nil
}

const telling = `package %s

import (
	"os"
	"testing"

	"%s/internal/mutant"
)

func TestMain(m *testing.M) {
	code := m.Run()
	mutant.Tell()
	os.Exit(code)
}
`

// A copying is the rewriting of one file.
type copying struct {
	*copies.File
	*rewriter
}

// visit edits an expression or statement from left to right, so that edits at one place
// nest.
func (c copying) visit(n ast.Node) bool {
	if e, ok := n.(ast.Expr); ok && c.Package.Info.Types[e].Value != nil {
		c.constant(e)
		return false
	}
	switch n := n.(type) {
	case *ast.GenDecl:
		if n.Tok == token.VAR {
			return true
		}
		c.leave(n)
	case *ast.ArrayType:
		c.leave(n)
	case *ast.CompositeLit:
		c.literal(n)
	case *ast.IncDecStmt:
		c.increment(n)
	case *ast.UnaryExpr:
		if len(c.changes(n)) == 0 {
			return true
		}
		c.sign(n)
	case *ast.BinaryExpr:
		if len(c.changes(n)) == 0 {
			return true
		}
		c.infix(n)
	default:
		return true
	}
	return false
}

// literal edits the members of a literal. The names of fields are no expressions.
func (c copying) literal(n *ast.CompositeLit) {
	_, isMap := c.Package.Info.Types[n].Type.Underlying().(*types.Map)
	for _, e := range n.Elts {
		if pair, ok := e.(*ast.KeyValueExpr); ok {
			if isMap {
				ast.Inspect(pair.Key, c.visit)
			}
			e = pair.Value
		}
		ast.Inspect(e, c.visit)
	}
}

func (c copying) increment(n *ast.IncDecStmt) {
	ast.Inspect(n.X, c.visit)
	name := c.TypeName(c.Package.Info.Types[n.X].Type, n.Pos())
	if name == "" {
		c.leave(n)
		return
	}
	operator := map[token.Token]string{token.INC: "+=", token.DEC: "-="}[n.Tok]
	first := c.number(n.TokPos, n.Tok, step[n.Tok])
	c.Replace(n.TokPos, n.End(), fmt.Sprintf(" %s mutant.One[%s](%d)", operator, name, first))
}

func (c copying) sign(n *ast.UnaryExpr) {
	function := map[token.Token]string{token.SUB: "Negative", token.ADD: "Positive"}[n.Op]
	first := c.number(n.OpPos, n.Op, unary[n.Op])
	c.Replace(n.OpPos, n.X.Pos(), c.call(function, n.X, first))
	ast.Inspect(n.X, c.visit)
	c.Insert(n.End(), ")")
}

func (c copying) infix(n *ast.BinaryExpr) {
	first := c.number(n.OpPos, n.Op, binary[n.Op])
	opening, operator, closing := "((", n.Op.String(), fmt.Sprintf(") != mutant.On(%d))", first)
	if f := functions[n.Op]; f != "" {
		opening, operator, closing = c.call(f, n.X, first), ",", ")"
	}
	c.Insert(n.Pos(), opening)
	ast.Inspect(n.X, c.visit)
	c.Replace(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), operator)
	ast.Inspect(n.Y, c.visit)
	c.Insert(n.End(), closing)
}

// call opens a call of package mutant. It names its type where possible, since two
// untyped operands would have another.
func (c copying) call(function string, operand ast.Expr, first int) string {
	if name := c.TypeName(types.Default(c.Package.Info.Types[operand].Type), operand.Pos()); name != "" {
		function += "[" + name + "]"
	}
	return fmt.Sprintf("mutant.%s(%d, ", function, first)
}

// number numbers the changes of an operator, and returns the first number.
func (c copying) number(pos token.Pos, from token.Token, changes []change) int {
	first := len(c.mutants) + 1
	for _, ch := range changes {
		c.mutants = append(c.mutants, c.mutant(pos, from, ch, first))
	}
	return first
}

func (c copying) mutant(pos token.Pos, from token.Token, ch change, recorded int) mutant {
	at := c.fset.Position(pos)
	line := strings.Split(string(c.Text), "\n")[at.Line-1]
	return mutant{ch, from, c.Short(), at, strings.TrimSpace(line), recorded}
}

// leave records the mutants that cannot be switched while the program runs.
func (c copying) leave(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		pos, from, changes := c.operator(n)
		for _, ch := range changes {
			c.fixed = append(c.fixed, c.mutant(pos, from, ch, 0))
		}
		return true
	})
}

// operator returns the operator of a node, with the changes that compile.
func (c copying) operator(n ast.Node) (token.Pos, token.Token, []change) {
	switch n := n.(type) {
	case *ast.IncDecStmt:
		return n.TokPos, n.Tok, step[n.Tok]
	case *ast.UnaryExpr:
		return n.OpPos, n.Op, c.changes(n)
	case *ast.BinaryExpr:
		return n.OpPos, n.Op, c.changes(n)
	}
	return token.NoPos, token.ILLEGAL, nil
}

// changes returns the changes of an operator that compile and may have an effect.
// Strings have no minus, and an integer is not divided by a constant zero. Division by
// a constant one, such as the canonical unit of a quantity, equals multiplication.
func (c copying) changes(e ast.Expr) []change {
	switch e := e.(type) {
	case *ast.UnaryExpr:
		return unary[e.Op]
	case *ast.BinaryExpr:
		x, y := c.Package.Info.Types[e.X], c.Package.Info.Types[e.Y]
		changes := binary[e.Op]
		if len(changes) == 0 || changes[0].kind != arithmetic {
			return changes
		}
		if !types.Satisfies(types.Default(x.Type), number) {
			return nil
		}
		if (e.Op == token.MUL || e.Op == token.QUO) && x.Value == nil && y.Value != nil && constant.Compare(constant.ToFloat(y.Value), token.EQL, constant.MakeInt64(1)) {
			return nil
		}
		if e.Op == token.MUL && y.Value != nil && constant.Sign(y.Value) == 0 && (x.Value != nil || types.Satisfies(types.Default(x.Type), integer)) {
			return nil
		}
		return changes
	}
	return nil
}

// constant edits an expression that the compiler computes: the copy picks among its
// values with each of its operators changed.
func (c copying) constant(e ast.Expr) {
	info := c.Package.Info.Types[e]
	t := types.Default(info.Type)
	text := c.Source(e)
	picks, name := "", ""
	first := len(c.mutants) + 1
	ast.Inspect(e, func(n ast.Node) bool {
		pos, from, changes := c.operator(n)
		for _, ch := range changes {
			at := c.Offset(pos) - c.Offset(e.Pos())
			changed := text[:at] + ch.to.String() + text[at+len(from.String()):]
			if !c.compiles(changed, t, e.Pos()) {
				continue
			}
			if name = c.TypeName(t, e.Pos()); name == "" {
				c.fixed = append(c.fixed, c.mutant(pos, from, ch, 0))
				continue
			}
			c.mutants = append(c.mutants, c.mutant(pos, from, ch, first))
			picks += ", " + changed
		}
		return true
	})
	if picks != "" {
		c.Replace(e.Pos(), e.End(), fmt.Sprintf("mutant.Pick[%s](%d, %s%s)", name, first, text, picks))
	}
}

// compiles reports whether a text is a constant that a type can hold.
func (c copying) compiles(text string, t types.Type, at token.Pos) bool {
	if basic, ok := t.Underlying().(*types.Basic); ok {
		text = fmt.Sprintf("%s(%s)", basic.Name(), text)
	}
	_, err := types.Eval(c.fset, c.Package.Package, at, text)
	return err == nil
}

// number and integer are the constraints of package mutant.
var (
	integer = constraint(types.Int, types.Uintptr)
	number  = constraint(types.Int, types.Float64)
)

// constraint returns an interface that the basic kinds from one to another satisfy.
func constraint(from, to types.BasicKind) *types.Interface {
	var terms []*types.Term
	for k := from; k <= to; k++ {
		terms = append(terms, types.NewTerm(true, types.Typ[k]))
	}
	return types.NewInterfaceType(nil, []types.Type{types.NewUnion(terms)}).Complete()
}
