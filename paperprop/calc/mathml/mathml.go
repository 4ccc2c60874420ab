// Package mathml writes the formula lines of a description as MathML, for pages
// and documents:
//
//	line, err := formula.Parse("q_w = q*(c_in - c_out)/(c_out - c_w)")
//	html := mathml.Line(line)
//
// It writes MathML Core, which browsers show without help: fractions, powers,
// roots, sums, symbols with subscripts. [Legend] explains in words what a line uses
// and a reader may not know. Parentheses that a fraction or a root makes redundant
// are left out; those that the order of operations needs are added.
//
// # What people get wrong
//
// A package of templates takes what these functions return for text, and the reader sees
// its tags. It is markup already: in html/template make it a template.HTML. The texts for
// [Substituted] are text, not markup.
//
// A name without a text stays a symbol, but one with an empty text leaves a gap: leave it
// out of the map.
//
// [Line] sets the formula alone, without the words for which it holds: say them beside it.
//
// Symbols are written in plain letters: rho_w has a Greek letter and a subscript, and c₁ is
// one letter. A Greek letter has its small name: Delta stays a word, and the difference of T
// is dT.
package mathml

import (
	"go/ast"
	"go/token"
	"html"
	"strings"

	"millmaths.example/paperprop/calc/formula"
)

// Line returns a formula as a math element in block display.
func Line(l *formula.Line) string {
	return display(Symbol(l.Name) + operator("=") + row(writer{}.expr(l.Expr(), loose)))
}

// Substituted returns an equals sign and the right side of a formula, with each name
// that has a text replaced by it, such as q by 300 t/h. If result is not empty, it
// follows after another equals sign.
func Substituted(l *formula.Line, texts map[string]string, result string) string {
	inner := operator("=") + row(writer{texts}.expr(l.Expr(), loose))
	if result != "" {
		inner += operator("=") + value(result)
	}
	return display(Symbol(l.Name) + inner)
}

// Inline returns a symbol as a math element for use within text.
func Inline(symbol string) string { return "<math>" + Symbol(symbol) + "</math>" }

func display(inner string) string { return `<math display="block">` + row(inner) + "</math>" }

func row(inner string) string { return "<mrow>" + inner + "</mrow>" }

func operator(text string) string { return "<mo>" + html.EscapeString(text) + "</mo>" }

// value returns a text as a number element: an operator between text elements would be
// set as a mere sign, close to what follows.
func value(text string) string { return "<mn>" + html.EscapeString(text) + "</mn>" }

func fenced(inner string) string { return between("(", inner, ")") }

// between puts fences around an expression. They stretch around a fraction and keep
// their size otherwise, as stretched ones stand too far apart.
func between(open, inner, closing string) string {
	attributes := ` lspace="0" rspace="0"`
	if !strings.Contains(inner, "<mfrac>") && !strings.Contains(inner, "largeop") {
		attributes += ` stretchy="false"`
	}
	return row(`<mo form="prefix"` + attributes + ">" + open + "</mo>" + inner + `<mo form="postfix"` + attributes + ">" + closing + "</mo>")
}

// Invisible operators, which are spoken but not shown.
const (
	times = `<mo lspace="0.08em" rspace="0.08em">&#x2062;</mo>`
	apply = "<mo>&#x2061;</mo>"
	dot   = "<mo>·</mo>"
)

// A place says how tightly the surroundings bind an expression; one that binds less
// tightly is put in parentheses.
type place uint8

const (
	loose  place = iota // between =, commas, the lines of a fraction
	added               // right of a minus
	factor              // of a product, except the last
	last                // the last factor of a product
	base                // base of a power
)

// A writer writes expressions, replacing each name that has a text.
type writer struct {
	texts map[string]string
}

func (w writer) expr(e ast.Expr, at place) string {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return w.expr(e.X, at)
	case *ast.BasicLit:
		return number(e.Value)
	case *ast.Ident:
		return w.name(e.Name, at)
	case *ast.UnaryExpr:
		inner := `<mo form="prefix">` + sign(e.Op) + "</mo>" + w.expr(e.X, last)
		if at >= added {
			return fenced(inner)
		}
		return row(inner)
	case *ast.BinaryExpr:
		return w.binary(e, at)
	case *ast.CallExpr:
		return w.call(e, at)
	}
	return "" // formula.Parse accepts nothing else
}

func (w writer) name(name string, at place) string {
	text, ok := w.texts[name]
	switch {
	case !ok:
		return Symbol(name)
	case at == base && strings.ContainsAny(text, " -"), at >= added && strings.HasPrefix(text, "-"):
		return fenced(value(text))
	}
	return value(text)
}

func (w writer) binary(e *ast.BinaryExpr, at place) string {
	switch e.Op {
	case token.QUO:
		fraction := "<mfrac>" + row(w.expr(e.X, loose)) + row(w.expr(e.Y, loose)) + "</mfrac>"
		if at == base {
			return fenced(fraction)
		}
		return fraction
	case token.MUL:
		return w.product(e, at)
	}
	right := loose
	if e.Op == token.SUB {
		right = added
	}
	inner := w.expr(e.X, loose) + operator(sign(e.Op)) + w.expr(e.Y, right)
	if at >= added {
		return fenced(inner)
	}
	return inner
}

func sign(op token.Token) string {
	if op == token.SUB {
		return "−"
	}
	return op.String()
}

func (w writer) product(e *ast.BinaryExpr, at place) string {
	factors := factors(e)
	var b strings.Builder
	for i, f := range factors {
		if i > 0 {
			if w.closes(factors[i-1]) && !w.opens(f) {
				b.WriteString(times)
			} else {
				b.WriteString(dot)
			}
		}
		bound := factor
		if i == len(factors)-1 {
			bound = last
		}
		b.WriteString(w.expr(f, bound))
	}
	if at == base {
		return fenced(b.String())
	}
	return b.String()
}

// factors returns the factors of a product: a*b*c has three.
func factors(e ast.Expr) []ast.Expr {
	if p, ok := e.(*ast.BinaryExpr); ok && p.Op == token.MUL {
		return append(factors(p.X), factors(ast.Unparen(p.Y))...)
	}
	return []ast.Expr{e}
}

// opens reports whether a factor begins with a digit: 2 and 3 side by side would read
// 23.
func (w writer) opens(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.BasicLit:
		return true
	case *ast.Ident:
		_, ok := w.texts[e.Name]
		return ok
	case *ast.CallExpr:
		if e.Fun.(*ast.Ident).Name == "pow" {
			return w.opens(e.Args[0])
		}
	}
	return false
}

// closes reports whether another factor may follow without a sign between; it would run
// into a symbol of several letters.
func (w writer) closes(e ast.Expr) bool {
	switch e := ast.Unparen(e).(type) {
	case *ast.Ident:
		_, ok := w.texts[e.Name]
		return !ok && !long(e.Name)
	case *ast.BasicLit:
		return !strings.ContainsAny(e.Value, "eE")
	}
	return true
}

func (w writer) call(e *ast.CallExpr, at place) string {
	name := e.Fun.(*ast.Ident).Name
	switch name {
	case "pow":
		power := w.power(e.Args[0], e.Args[1])
		if at == base {
			return fenced(power)
		}
		return power
	case "sqrt":
		return "<msqrt>" + row(w.expr(e.Args[0], loose)) + "</msqrt>"
	case "abs":
		return between("|", w.expr(e.Args[0], loose), "|")
	case "reaches":
		return between("[", w.expr(e.Args[0], loose)+operator("≥")+w.expr(e.Args[1], loose), "]")
	case "sum", "product":
		large := map[string]string{"sum": "∑", "product": "∏"}[name]
		inner := `<mo largeop="true" movablelimits="false">` + large + "</mo>" + w.expr(e.Args[0], last)
		if at == factor || at == base {
			return fenced(inner)
		}
		return row(inner)
	case "log":
		name = "ln"
	}
	var args []string
	for _, a := range e.Args {
		args = append(args, row(w.expr(a, loose)))
	}
	inner := "<mi>" + name + "</mi>" + apply + fenced(strings.Join(args, `<mo separator="true">,</mo>`))
	if at == base {
		return fenced(inner)
	}
	return row(inner)
}

// power writes an exponent on one line: a fraction there is too small to read.
func (w writer) power(x, exponent ast.Expr) string {
	above := row(w.flat(exponent))
	if id, ok := ast.Unparen(x).(*ast.Ident); ok && w.texts[id.Name] == "" {
		if base, sub := parts(id.Name); sub != "" {
			return "<msubsup>" + base + sub + above + "</msubsup>"
		}
	}
	return "<msup>" + row(w.expr(x, base)) + above + "</msup>"
}

// flat writes x/y with a slash.
func (w writer) flat(e ast.Expr) string {
	if b, ok := ast.Unparen(e).(*ast.BinaryExpr); ok && b.Op == token.QUO {
		return w.expr(b.X, factor) + operator("/") + w.expr(b.Y, base)
	}
	return w.expr(e, loose)
}

// number writes 1e-9 as a power of ten.
func number(text string) string {
	digits, exponent, ok := strings.Cut(strings.ToLower(text), "e")
	if !ok {
		return "<mn>" + text + "</mn>"
	}
	power := "<msup><mn>10</mn>" + row(signed(exponent)) + "</msup>"
	if digits == "1" {
		return power
	}
	return row("<mn>" + digits + "</mn>" + dot + power)
}

func signed(exponent string) string {
	if rest, ok := strings.CutPrefix(exponent, "-"); ok {
		return "<mo>−</mo><mn>" + rest + "</mn>"
	}
	return "<mn>" + strings.TrimPrefix(exponent, "+") + "</mn>"
}
