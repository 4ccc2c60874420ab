// Package formula evaluates the formula lines of a description: Go syntax,
// numbers with their dimension, lists member by member.
//
//	line, err := formula.Parse("q_w = q*(c_in - c_out)/(c_out - c_w)")
//	water, err := line.Eval(formula.Values{"q": ..., "c_in": ...})
//
// A line that holds for one word begins with it: "basis: m_p = ...". Lines are
// checked against the Go method they stand for, printed in worked solutions and
// read by the tool that propagates uncertainty; one evaluator does all three.
//
// # What people get wrong
//
// A [Value] is in coherent SI units: 300 t/h is 83.3 kg/s, 4.6 % is 0.046, 20 °C is
// 293.15 K. A 300 with the dimension kg/s is taken for 300 kg/s, as the dimension of
// t/h is the same. The factor and the offset of a unit are those of
// [paperprop.Unit.SI].
//
// Eval does not look at the Words of a line: whoever evaluates it asks first whether it
// holds.
//
// max and min take two arguments and go member by member; the largest and the smallest
// member of a list are most(x) and least(x). log is the natural logarithm. sin(30) is
// that of 30 radians, unless the 30 has the dimension of an angle, which is in degrees.
//
// Eval refuses units that do not fit, but no number: 1/0 is infinite, and the root of
// -1 is NaN.
//
// Substitute brackets nothing: in m/g a text of 125 g/m2 for g reads as if the m2 stood
// above the stroke. Replace says where a text needs brackets.
package formula

import (
	"fmt"
	"go/ast"
	"go/token"
	"iter"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
)

// A Line is one formula, NAME = EXPRESSION, which may hold for some words only.
type Line struct {
	Words []string // words for which it holds; if empty, always
	Name  string   // name on the left of the equals sign
	Text  string   // NAME = EXPRESSION, as written
	expr  ast.Expr
	body  string // EXPRESSION
}

// maxLine limits the length that Parse accepts: formulas come from outside too.
const maxLine = 4096

// Parse reads a line. It refuses what Eval could not evaluate: statements, unknown
// functions, and operators other than + - * /.
func Parse(line string) (*Line, error) {
	if len(line) > maxLine {
		return nil, fmt.Errorf("formula of %d bytes, want at most %d", len(line), maxLine)
	}
	l := &Line{Text: strings.TrimSpace(line)}
	if words, rest, ok := strings.Cut(l.Text, ":"); ok {
		l.Words, l.Text = strings.Fields(words), strings.TrimSpace(rest)
	}
	name, body, ok := strings.Cut(l.Text, "=")
	l.Name, l.body = strings.TrimSpace(name), strings.TrimSpace(body)
	if !ok || !token.IsIdentifier(l.Name) {
		return nil, fmt.Errorf("formula %q: want NAME = EXPRESSION", line)
	}
	var err error
	if l.expr, err = (&reader{text: l.body}).line(); err != nil {
		return nil, fmt.Errorf("formula %q: %w", l.Text, err)
	}
	return l, nil
}

// Names returns the names on the right side, each once, in order of appearance.
func (l *Line) Names() []string {
	var names []string
	for id := range l.variables() {
		if !slices.Contains(names, id.Name) {
			names = append(names, id.Name)
		}
	}
	return names
}

// Expr returns the right side as parsed: numbers, names, parentheses, + - * / and calls
// of known functions. It must not be changed.
func (l *Line) Expr() ast.Expr { return l.expr }

// Factors returns the names that are by themselves an operand of a product or quotient.
// Their values count from zero, temperatures from absolute zero.
func (l *Line) Factors() []string {
	var names []string
	for n := range l.variables() {
		if l.isFactor(n) && !slices.Contains(names, n.Name) {
			names = append(names, n.Name)
		}
	}
	return names
}

// isFactor reports whether name is an operand of a product or quotient.
func (l *Line) isFactor(name *ast.Ident) bool {
	return l.holds(func(b *ast.BinaryExpr) bool {
		return (b.Op == token.MUL || b.Op == token.QUO) && (ast.Unparen(b.X) == name || ast.Unparen(b.Y) == name)
	})
}

// Divides reports whether a name is by itself the divisor of a quotient.
func (l *Line) Divides(name string) bool {
	return l.holds(func(b *ast.BinaryExpr) bool {
		id, ok := ast.Unparen(b.Y).(*ast.Ident)
		return b.Op == token.QUO && ok && id.Name == name
	})
}

func (l *Line) holds(is func(b *ast.BinaryExpr) bool) bool {
	found := false
	visit(l.expr, func(n ast.Expr) bool {
		b, ok := n.(*ast.BinaryExpr)
		found = found || ok && is(b)
		return !found
	})
	return found
}

// Substitute returns the right side with each name replaced by its text, if it has one.
func (l *Line) Substitute(text func(name string) (string, bool)) string {
	return l.Replace(func(name string, alone bool) (string, bool) { return text(name) })
}

// Replace is [Line.Substitute] for texts that depend on whether the name stands alone
// in parentheses or between commas, where its text needs no parentheses of its own.
func (l *Line) Replace(text func(name string, alone bool) (string, bool)) string {
	var b strings.Builder
	last := 0
	for id := range l.variables() {
		at := int(id.Pos()) - 1
		if t, ok := text(id.Name, l.alone(at, at+len(id.Name))); ok {
			b.WriteString(l.body[last:at])
			b.WriteString(t)
			last = at + len(id.Name)
		}
	}
	b.WriteString(l.body[last:])
	return b.String()
}

// alone reports whether a part of the right side stands alone, in parentheses or
// between commas.
func (l *Line) alone(from, to int) bool {
	before, after := strings.TrimRight(l.body[:from], " "), strings.TrimLeft(l.body[to:], " ")
	return (before == "" || strings.HasSuffix(before, "(") || strings.HasSuffix(before, ",")) &&
		(after == "" || strings.HasPrefix(after, ")") || strings.HasPrefix(after, ","))
}

// visit calls f for an expression and, if f returns true, for those within it, from left
// to right. It knows the nodes that Parse makes: ast.Inspect knows all of Go, and with
// it a page would link a hundred types more.
func visit(e ast.Expr, f func(ast.Expr) bool) {
	if !f(e) {
		return
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		visit(e.X, f)
	case *ast.UnaryExpr:
		visit(e.X, f)
	case *ast.BinaryExpr:
		visit(e.X, f)
		visit(e.Y, f)
	case *ast.CallExpr:
		visit(e.Fun, f)
		for _, arg := range e.Args {
			visit(arg, f)
		}
	}
}

// variables yields the names that stand for values, without functions and pi, from left
// to right.
func (l *Line) variables() iter.Seq[*ast.Ident] {
	return func(yield func(*ast.Ident) bool) {
		functions := map[ast.Expr]bool{}
		more := true
		visit(l.expr, func(n ast.Expr) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				functions[n.Fun] = true
			case *ast.Ident:
				if more && !functions[n] && n.Name != "pi" {
					more = yield(n)
				}
			}
			return more
		})
	}
}

// A Value is a number or a list of numbers in coherent SI units, with its dimension.
// Size is the largest term added on the way to each number: the scale on which to
// compare it with the result of another calculation.
type Value struct {
	Numbers   []float64
	Size      []float64
	List      bool
	Dimension paperprop.Dimension
}

// Number returns the Value of one number.
func Number(x float64, d paperprop.Dimension) Value {
	return Value{Numbers: []float64{x}, Size: []float64{math.Abs(x)}, Dimension: d}
}

// List returns the Value of a list of numbers.
func List(x []float64, d paperprop.Dimension) Value {
	v := Value{Numbers: slices.Clone(x), Size: make([]float64, len(x)), List: true, Dimension: d}
	for i := range x {
		v.Size[i] = math.Abs(x[i])
	}
	return v
}

// Values holds the value of each name in a formula.
type Values map[string]Value

// Eval evaluates the line. It returns an error for a name without a value, and for
// units that cannot be added, compared or passed to a function.
func (l *Line) Eval(values Values) (Value, error) {
	v, err := eval(l.expr, values)
	if err != nil {
		return Value{}, fmt.Errorf("formula %q: %w", l.Text, err)
	}
	return v, nil
}

func eval(e ast.Expr, values Values) (Value, error) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return eval(e.X, values)
	case *ast.BasicLit:
		x, err := strconv.ParseFloat(e.Value, 64)
		return Number(x, dimensionless), err
	case *ast.Ident:
		if v, ok := values[e.Name]; ok {
			if len(v.Size) != len(v.Numbers) || !v.List && len(v.Numbers) != 1 {
				return Value{}, fmt.Errorf("%s is an incomplete Value, want one made by Number or List", e.Name)
			}
			return v, nil
		}
		if e.Name == "pi" {
			return Number(math.Pi, dimensionless), nil
		}
		return Value{}, fmt.Errorf("no value for %s", e.Name)
	case *ast.UnaryExpr:
		v, err := eval(e.X, values)
		if err != nil || e.Op == token.ADD {
			return v, err
		}
		return memberwise(v, Number(-1, dimensionless), v.Dimension, multiply)
	case *ast.BinaryExpr:
		return evalBinary(e, values)
	case *ast.CallExpr:
		return evalCall(e, values)
	}
	return Value{}, fmt.Errorf("cannot evaluate %T", e)
}

func evalBinary(e *ast.BinaryExpr, values Values) (Value, error) {
	x, err := eval(e.X, values)
	if err != nil {
		return Value{}, err
	}
	y, err := eval(e.Y, values)
	if err != nil {
		return Value{}, err
	}
	switch e.Op {
	case token.MUL:
		return memberwise(x, y, x.Dimension.Times(y.Dimension, 1), multiply)
	case token.QUO:
		return memberwise(x, y, x.Dimension.Times(y.Dimension, -1), divide)
	}
	if x.Dimension != y.Dimension {
		return Value{}, fmt.Errorf("%v %s %v: units do not fit", x.Dimension, e.Op, y.Dimension)
	}
	if e.Op == token.SUB {
		return memberwise(x, y, x.Dimension, subtract)
	}
	return memberwise(x, y, x.Dimension, add)
}

func evalCall(e *ast.CallExpr, values Values) (Value, error) {
	args := make([]Value, len(e.Args))
	for i := range e.Args {
		var err error
		if args[i], err = eval(e.Args[i], values); err != nil {
			return Value{}, err
		}
	}
	f, _ := find(e.Fun.(*ast.Ident).Name) // Parse has checked the name
	return f.apply(args)
}

// A term is an intermediate number of a formula.
type term struct{ x, size float64 }

func add(a, b term) term      { return term{a.x + b.x, max(a.size, b.size)} }
func subtract(a, b term) term { return term{a.x - b.x, max(a.size, b.size)} }
func multiply(a, b term) term { return term{a.x * b.x, a.size * b.size} }
func divide(a, b term) term {
	x := a.x / b.x
	// What a difference in the divisor has lost is as large here as one in the
	// dividend.
	return term{x, max(a.size/math.Abs(b.x), math.Abs(x)) * max(1, b.size/math.Abs(b.x))}
}

func memberwise(x, y Value, d paperprop.Dimension, op func(a, b term) term) (Value, error) {
	n := 1
	switch {
	case x.List && y.List && len(x.Numbers) != len(y.Numbers):
		return Value{}, fmt.Errorf("lists of %d and %d members", len(x.Numbers), len(y.Numbers))
	case x.List:
		n = len(x.Numbers)
	case y.List:
		n = len(y.Numbers)
	}
	out := Value{Numbers: make([]float64, n), Size: make([]float64, n), List: x.List || y.List, Dimension: d}
	for i := range n {
		t := op(x.at(i), y.at(i))
		out.Numbers[i], out.Size[i] = t.x, t.size
	}
	return out, nil
}

func (v Value) at(i int) term {
	if !v.List {
		i = 0
	}
	return term{v.Numbers[i], v.Size[i]}
}
