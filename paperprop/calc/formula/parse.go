package formula

import (
	"errors"
	"fmt"
	"go/ast"
	"go/token"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A reader parses the right side of a line, the part of Go's expressions with numbers,
// names, + - * /, parentheses and calls. go/parser reads the whole language, and makes
// a program loaded into a web page a twentieth larger.
type reader struct {
	text string
	at   int
	deep int // number of open signs and brackets
}

// deepest is how deep signs and brackets may be nested: printing a formula wraps each
// of them around its content.
const deepest = 100

func (r *reader) pos() token.Pos { return token.Pos(r.at + 1) }

// end is what next returns after the last character.
const end rune = -1

// next skips blanks and returns the next character.
func (r *reader) next() rune {
	r.at = len(r.text) - len(strings.TrimLeft(r.text[r.at:], " \t\r\n"))
	if r.at == len(r.text) {
		return end
	}
	c, _ := utf8.DecodeRuneInString(r.text[r.at:])
	return c
}

func (r *reader) line() (ast.Expr, error) {
	e, err := r.sum()
	if err != nil {
		return nil, err
	}
	switch c := r.next(); c {
	case end:
		return e, nil
	case ')', ',':
		return nil, fmt.Errorf("%c without its (", c)
	default:
		return nil, fmt.Errorf("operator %c, want + - * / or pow(x, n)", c)
	}
}

func (r *reader) sum() (ast.Expr, error) {
	return r.chain(r.product, token.ADD, token.SUB)
}

func (r *reader) product() (ast.Expr, error) {
	return r.chain(r.operand, token.MUL, token.QUO)
}

// chain reads operands joined by either of two operators, which associate to the left.
func (r *reader) chain(operand func() (ast.Expr, error), one, other token.Token) (ast.Expr, error) {
	x, err := operand()
	for err == nil {
		op := operator(r.next())
		if op != one && op != other {
			break
		}
		b := &ast.BinaryExpr{X: x, Op: op, OpPos: r.pos()}
		r.at++
		b.Y, err = operand()
		x = b
	}
	return x, err
}

func operator(c rune) token.Token {
	switch c {
	case '+':
		return token.ADD
	case '-':
		return token.SUB
	case '*':
		return token.MUL
	case '/':
		return token.QUO
	}
	return token.ILLEGAL
}

func (r *reader) operand() (ast.Expr, error) {
	if r.deep++; r.deep > deepest {
		return nil, fmt.Errorf("signs and brackets within each other, want at most %d", deepest)
	}
	defer func() { r.deep-- }()
	switch c := r.next(); {
	case c == '+' || c == '-':
		u := &ast.UnaryExpr{Op: operator(c), OpPos: r.pos()}
		r.at++
		var err error
		u.X, err = r.operand()
		return u, err
	case c == '(':
		p := &ast.ParenExpr{Lparen: r.pos()}
		r.at++
		var err error
		if p.X, err = r.sum(); err != nil {
			return nil, err
		}
		if r.next() != ')' {
			return nil, fmt.Errorf("want ) after %q", r.text[p.Lparen-1:r.at])
		}
		p.Rparen = r.pos()
		r.at++
		return p, nil
	case c == '.' || c >= '0' && c <= '9':
		return r.number()
	case c == '_' || unicode.IsLetter(c):
		return r.name()
	case c == end:
		return nil, errors.New("want a number or a name at the end")
	default:
		return nil, fmt.Errorf("%q: want numbers, names, + - * / and functions", c)
	}
}

func (r *reader) number() (ast.Expr, error) {
	n := &ast.BasicLit{Kind: token.FLOAT, ValuePos: r.pos()}
	from := r.at
	for ; r.at < len(r.text); r.at++ {
		c := r.text[r.at]
		exponent := r.at > from && (r.text[r.at-1]|' ') == 'e' && (c == '+' || c == '-')
		if c != '.' && !exponent && !letter(rune(c)) {
			break
		}
	}
	n.Value = r.text[from:r.at]
	if _, err := strconv.ParseFloat(n.Value, 64); err != nil {
		return nil, fmt.Errorf("%s is no number, want one such as 0.5 or 1e3", n.Value)
	}
	return n, nil
}

// name reads a name, or a call of the function with that name.
func (r *reader) name() (ast.Expr, error) {
	id := &ast.Ident{NamePos: r.pos()}
	rest := strings.TrimLeftFunc(r.text[r.at:], letter)
	id.Name = r.text[r.at : len(r.text)-len(rest)]
	r.at += len(id.Name)
	if token.IsKeyword(id.Name) {
		return nil, fmt.Errorf("%q: want numbers, names, + - * / and functions", id.Name)
	}
	if r.next() != '(' {
		return id, nil
	}
	f, ok := find(id.Name)
	if !ok {
		return nil, fmt.Errorf("unknown function %s, want one of %s", id.Name, names)
	}
	call := &ast.CallExpr{Fun: id, Lparen: r.pos()}
	r.at++
	for r.next() != ')' {
		if len(call.Args) > 0 {
			if r.next() != ',' {
				return nil, fmt.Errorf("want , or ) after %q", r.text[id.NamePos-1:r.at])
			}
			r.at++
		}
		arg, err := r.sum()
		if err != nil {
			return nil, err
		}
		call.Args = append(call.Args, arg)
	}
	call.Rparen = r.pos()
	r.at++
	if len(call.Args) != f.arity {
		return nil, fmt.Errorf("%s takes %d arguments, not %d", id.Name, f.arity, len(call.Args))
	}
	return call, nil
}

func letter(c rune) bool { return c == '_' || unicode.IsLetter(c) || unicode.IsDigit(c) }
