package mathml_test

import (
	"strings"
	"testing"

	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/mathml"
)

// plain strips what makes MathML long to read: (a) (b) for the two parts of an
// element, invisible operators as a blank.
func plain(markup string) string {
	markup = strings.NewReplacer(
		`<mo lspace="0.08em" rspace="0.08em">&#x2062;</mo>`, " ", "<mo>&#x2061;</mo>", "",
		"<mrow>", "{", "</mrow>", "}",
	).Replace(markup)
	var b strings.Builder
	for markup != "" {
		if markup[0] != '<' {
			i := strings.IndexByte(markup, '<')
			if i < 0 {
				i = len(markup)
			}
			b.WriteString(markup[:i])
			markup = markup[i:]
			continue
		}
		tag, rest, _ := strings.Cut(markup, ">")
		name, _, _ := strings.Cut(tag[1:], " ")
		switch name {
		case "mfrac", "msub", "msup", "msubsup", "msqrt":
			b.WriteString(name + ":")
		}
		markup = rest
	}
	return b.String()
}

func TestLine(t *testing.T) {
	for _, test := range []struct{ line, want string }{
		{"q_w = q*(c_in - c_out)/(c_out - c_w)", "{msub:q{w}={mfrac:{q {(msub:c{in}−msub:c{out})}}{msub:c{out}−msub:c{w}}}}"},
		{"g_d = g*(1 - w)", "{msub:g{d}={g {(1−w)}}}"},
		{"a = b - (c - d)", "{a={b−{(c−d)}}}"},
		{"a = b - (c + d)*e", "{a={b−{(c+d)} e}}"},
		{"a = (b + c) + d", "{a={b+c+d}}"},
		{"a = b + (c - d)", "{a={b+c−d}}"},
		{"a = -(b + c)", "{a={{−{(b+c)}}}}"},
		{"a = b*-c", "{a={b {(−c)}}}"},
		{"a = b/c/d", "{a={mfrac:{mfrac:{b}{c}}{d}}}"},
		{"a = b*(c/d)", "{a={b mfrac:{c}{d}}}"},
		{"a = pow(b/c, 2)", "{a={msup:{{(mfrac:{b}{c})}}{2}}}"},
		{"a = pow(b*c, 2)", "{a={msup:{{(b c)}}{2}}}"},
		{"a = pow(D_c, 2)", "{a={msubsup:D{c}{2}}}"},
		{"a = pow(b, 1/3)", "{a={msup:{b}{1/3}}}"},
		{"a = pow(b, c - 1)", "{a={msup:{b}{c−1}}}"},
		{"a = pow(b, 1/(c + d))", "{a={msup:{b}{1/{(c+d)}}}}"},
		{"a = pow(pow(b, 2), 3)", "{a={msup:{{(msup:{b}{2})}}{3}}}"},
		{"a = pow(-b, 2)", "{a={msup:{{(−b)}}{2}}}"},
		{"a = 2*3*b", "{a={2·3 b}}"},
		{"a = b*0.5", "{a={b·0.5}}"},
		{"a = 4*pow(2, b)", "{a={4·msup:{2}{b}}}"},
		{"a = 1e-9*b", "{a={msup:10{−9}·b}}"},
		{"a = sqrt(b + c)*d", "{a={msqrt:{b+c} d}}"},
		{"a = sum(b)*c", "{a={{(∑b)} c}}"},
		{"a = c*sum(b*d)", "{a={c {∑b d}}}"},
		{"a = sum(b - c)", "{a={{∑{(b−c)}}}}"},
		{"a = log(b)/exp(-c)", "{a={mfrac:{{ln{({b})}}}{{exp{({{−c}})}}}}}"},
		{"a = abs(b - c)", "{a={{|b−c|}}}"},
		{"a = max(b, c)", "{a={{max{({b},{c})}}}}"},
		{"a = pow(max(b, c), 2)", "{a={msup:{{(max{({b},{c})})}}{2}}}"},
		{"k = reaches(l, l_0)", "{k={{[l≥msub:l{0}]}}}"},
		{"rho_w = pi*eta_0/Rinf", "{msub:ρ{w}={mfrac:{π msub:η{0}}{msub:R{∞}}}}"},
		{"dT = CSF*R0*dE76", "{ΔT={CSF·msub:R{0} msub:ΔE{76}}}"},
	} {
		line, err := formula.Parse(test.line)
		if err != nil {
			t.Fatal(err)
		}
		if got := plain(mathml.Line(line)); got != test.want {
			t.Errorf("Line(%q)\n gives %s\n want  %s", test.line, got, test.want)
		}
	}
}
