package formula_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/formula"
)

var (
	none = paperprop.Dimension{}
	// any two different dimensions with a root
	area   = dimension("m2")
	length = dimension("m")
	degree = dimension("°")
)

func dimension(unit string) paperprop.Dimension {
	u, err := paperprop.ParseUnit(unit)
	if err != nil {
		return none
	}
	return u.Dimension()
}

// values for the lines of the tests: a pure 2, a length 3 m, an area 16 m², a
// pure list 1 2 4, an angle of 30°.
func values() formula.Values {
	return formula.Values{
		"a": formula.Number(2, none),
		"l": formula.Number(3, length),
		"A": formula.Number(16, area),
		"x": formula.List([]float64{1, 2, 4}, none),
		"y": formula.List([]float64{1, 2}, none),
		"o": formula.List([]float64{1}, none),
		"g": formula.Number(30, degree),
	}
}

func TestEval(t *testing.T) {
	for _, test := range []struct {
		line string
		want []float64
		unit paperprop.Dimension
	}{
		{"z = 1 + 2*3", []float64{7}, none},
		{"z = -a - -a + +a", []float64{2}, none},
		{"z = -x", []float64{-1, -2, -4}, none},
		{"z = 90 + 1e+1 + 1E-1 + .9", []float64{101}, none},
		{"z = 2/3/4", []float64{1.0 / 6}, none},
		{"z = (1 - 1e-1)*a", []float64{1.8}, none},
		{"z = l*l", []float64{9}, area},
		{"z = pow(l, 2)", []float64{9}, area},
		{"z = sqrt(A)", []float64{4}, length},
		{"z = pow(l, 9)/pow(l, 7)", []float64{9}, area},
		{"z = pow(l, -9)*pow(l, 9)", []float64{1}, none},
		{"z = pow(a, 10)", []float64{1024}, none},
		{"z = A/l", []float64{16.0 / 3}, length},
		{"z = sqrt(A) + l", []float64{7}, length},
		{"z = l/l", []float64{1}, none},
		{"z = pow(a, 0.5)", []float64{math.Sqrt2}, none},
		{"z = exp(log(a))", []float64{2}, none},
		{"z = sin(pi/6) + cos(pi/3)", []float64{1}, none},
		{"z = sin(g)", []float64{0.5}, none},
		{"z = cos(2*g)", []float64{0.5}, none},
		{"z = tan(1.5*g)", []float64{1}, none},
		{"z = abs(1 - a)", []float64{1}, none},
		{"z = min(a, 3) + max(a, 3)", []float64{5}, none},
		{"z = a*x", []float64{2, 4, 8}, none},
		{"z = x*x - x", []float64{0, 2, 12}, none},
		{"z = sum(x)", []float64{7}, none},
		{"z = mean(x)", []float64{7.0 / 3}, none},
		{"z = product(x)", []float64{8}, none},
		{"z = count(x)", []float64{3}, none},
		{"z = reaches(x, a)", []float64{0, 1, 1}, none},
		{"z = reaches(l, A/l)", []float64{0}, none},
		{"z = least(x) + most(x) + final(x)", []float64{9}, none},
		{"z = after(x) - before(x)", []float64{1, 2}, none},
		{"z = after(y) - before(y)", []float64{1}, none},
	} {
		line, err := formula.Parse(test.line)
		if err != nil {
			t.Error(err)
			continue
		}
		got, err := line.Eval(values())
		if err != nil {
			t.Error(err)
			continue
		}
		if got.Dimension != test.unit {
			t.Errorf("%s comes out in %v, want %v", test.line, got.Dimension, test.unit)
		}
		if len(got.Numbers) != len(test.want) {
			t.Errorf("%s = %v, want %v", test.line, got.Numbers, test.want)
			continue
		}
		for i, want := range test.want {
			if !(math.Abs(got.Numbers[i]-want) <= 1e-15*max(1, math.Abs(want))) {
				t.Errorf("%s = %v, want %v (by hand)", test.line, got.Numbers, test.want)
			}
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, test := range []struct{ line, want string }{
		{"", `want NAME = EXPRESSION`},
		{"z", `want NAME = EXPRESSION`},
		{"2 = a", `want NAME = EXPRESSION`},
		{"z = ", `want a number or a name at the end`},
		{"z = a +", `want a number or a name at the end`},
		{"z = (a", `want ) after "(a"`},
		{"z = a)", `) without its (`},
		{"z = pow(a 2)", `want , or ) after "pow(a "`},
		{"z = pow(a, 2", `want , or ) after "pow(a, 2"`},
		{"z = 1e*2", `1e is no number`},
		{"z = 2a", `2a is no number`},
		{"z = a\x00b", "operator \x00, want + - * / or pow(x, n)"},
		{"z = \x00", `'\x00': want numbers, names, + - * / and functions`},
		{"z = a^2", `operator ^, want + - * / or pow(x, n)`},
		{"z = a % 2", `operator %, want + - * / or pow(x, n)`},
		{"z = !a", `'!': want numbers, names, + - * / and functions`},
		{"z = a ** 2", `'*': want numbers, names, + - * / and functions`},
		{"z = *a", `want numbers, names, + - * / and functions`},
		{"z = a[0]", `operator [, want + - * / or pow(x, n)`},
		{"z = a.b", `operator ., want + - * / or pow(x, n)`},
		{"z = func() {}()", `"func": want numbers, names, + - * / and functions`},
		{`z = "a"`, `'"': want numbers, names, + - * / and functions`},
		{"z = 1i", `1i is no number`},
		{"z = 1e999", `1e999 is no number`},
		{"z = 0x10", `0x10 is no number`},
		{"z = cot(a)", `unknown function cot, want one of abs, `},
		{"z = pow(a)", `pow takes 2 arguments, not 1`},
		{"z = sum()", `sum takes 1 arguments, not 0`},
		{"z = a" + strings.Repeat(" ", 4092), `formula of 4097 bytes, want at most 4096`},
	} {
		_, err := formula.Parse(test.line)
		if err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("Parse(%.40q) = %v, want in it %s", test.line, err, test.want)
		}
	}
}

func TestEvalRefuses(t *testing.T) {
	for _, test := range []struct{ line, want string }{
		{"z = b", "no value for b"},
		{"z = -b", "no value for b"},
		{"z = a + l", "units do not fit"},
		{"z = min(a, l)", "units do not fit"},
		{"z = reaches(a, l)", "units do not fit"},
		{"z = exp(l)", "want a pure number"},
		{"z = sqrt(l)", "square root of"},
		{"z = pow(l, 0.5)", "to the power of 0.5"},
		{"z = pow(l, 10)", "to the power of 10"},
		{"z = pow(l, -10)", "to the power of -10"},
		{"z = pow(a, l)", "want one pure number as exponent"},
		{"z = pow(a, x)", "want one pure number as exponent"},
		{"z = x + y", "lists of 3 and 2 members"},
		{"z = product(l)", "want pure numbers"},
		{"z = after(a)", "want a list of at least two members"},
		{"z = before(o)", "want a list of at least two members"},
	} {
		line, err := formula.Parse(test.line)
		if err != nil {
			t.Error(err)
			continue
		}
		if v, err := line.Eval(values()); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s = %v, %v, want in the error %s", test.line, v.Numbers, err, test.want)
		}
	}
}

func TestLongest(t *testing.T) {
	if _, err := formula.Parse("z = a" + strings.Repeat(" ", 4091)); err != nil {
		t.Errorf("4096 bytes are refused: %v", err)
	}
}

// Signs and brackets within each other are bounded, beside each other they are not.
func TestDeepest(t *testing.T) {
	for text, want := range map[string]string{
		"z = " + strings.Repeat("-", 99) + "a":                                 "",
		"z = " + strings.Repeat("-", 100) + "a":                                "signs and brackets within each other, want at most 100",
		"z = " + strings.Repeat("(", 99) + "a" + strings.Repeat(")", 99):       "",
		"z = " + strings.Repeat("(", 100) + "a" + strings.Repeat(")", 100):     "signs and brackets within each other, want at most 100",
		"z = " + strings.Repeat("sqrt(", 100) + "a" + strings.Repeat(")", 100): "signs and brackets within each other, want at most 100",
		"z = a" + strings.Repeat("+(-a)", 700):                                 "",
		"z = " + strings.Repeat("sqrt(-", 50) + "a" + strings.Repeat(")", 50):  "signs and brackets within each other, want at most 100",
		"z = " + strings.Repeat("sqrt(-", 49) + "a" + strings.Repeat(")", 49):  "",
	} {
		_, err := formula.Parse(text)
		if got := fmt.Sprint(err); want == "" && err != nil || want != "" && !strings.HasSuffix(got, want) {
			t.Errorf("%.40s…: %.100s, want %s", text, got, want)
		}
	}
}

// Of a sum the size is its largest term; a product, a quotient and a function have
// as large a share of it as what they are made of.
func TestSize(t *testing.T) {
	for _, test := range []struct {
		line string
		want []float64
	}{
		{"z = 10 - 8", []float64{10}},
		{"z = 8 - 10", []float64{10}},
		{"z = -(10 - 8)", []float64{10}},
		{"z = (10 - 9)*4", []float64{40}},
		{"z = 4*(10 - 9)*(5 - 4)", []float64{200}},
		{"z = (10 - 8)/4", []float64{2.5}},
		{"z = 4/(10 - 8)", []float64{10}}, // 2, of which below the line a fifth is left
		{"z = (6 - 4)/(10 - 8)", []float64{15}},
		{"z = abs(8 - 10)", []float64{10}},
		{"z = pow(10 - 8, 2)", []float64{20}},
		{"z = abs(8 - 8)", []float64{8}},   // of nought nothing is a share
		{"z = sqrt(9 - 9)", []float64{3}},  // and what was lost goes through the root
		{"z = log(10 - 8)", []float64{5}},  // a share of the argument is as much of 1
		{"z = log(10 - 9)", []float64{10}}, // also where the logarithm is nought
		{"z = log(100)", []float64{math.Log(100)}},
		{"z = x - 8", []float64{8, 8, 8}},
		{"z = sum(x - 8)", []float64{8}},
		{"z = mean(x - 8)", []float64{8.0 / 3}},
		{"z = product(10 - x)", []float64{1000}},
		{"z = least(x - 8)", []float64{8}},
		{"z = max(10 - 8, 5)", []float64{10}},
		{"z = reaches(10 - 8, 2)", []float64{1}},
	} {
		line, err := formula.Parse(test.line)
		if err != nil {
			t.Fatal(err)
		}
		got, err := line.Eval(values())
		if err != nil || len(got.Size) != len(test.want) {
			t.Errorf("%s: sizes %v, %v, want %v", test.line, got.Size, err, test.want)
			continue
		}
		for i, want := range test.want {
			if !(math.Abs(got.Size[i]-want) <= 1e-15*want) {
				t.Errorf("%s: sizes %v, want %v (by hand)", test.line, got.Size, test.want)
			}
		}
	}
}

func TestWords(t *testing.T) {
	line, err := formula.Parse("basis full: m_p = m*(1 - w)/(1 - w)")
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(line.Words, ","); got != "basis,full" || line.Name != "m_p" {
		t.Errorf("words %s of %s, want basis,full of m_p", got, line.Name)
	}
	if got := strings.Join(line.Names(), ","); got != "m,w" {
		t.Errorf("names %s, want m,w", got)
	}
	got := line.Substitute(func(name string) (string, bool) { return "<" + name + ">", name == "w" })
	if want := "m*(1 - <w>)/(1 - <w>)"; got != want {
		t.Errorf("substituted %s, want %s", got, want)
	}
}

// A line that is taken gives back its own text, evaluates or says why not, and
// gives as many sizes as numbers.
func FuzzParse(f *testing.F) {
	for _, line := range []string{
		"q_w = q*(c_in - c_out)/(c_out - c_w)", "basis: m_p = a*pow(a, 2)", "z = after(x) - before(x)",
		"z = sqrt(A)/l", "z = -(a)", "z = sum(x...)", "z = a // b", "z = a\n+a", "z = pi(a)", "é = é",
	} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, text string) {
		line, err := formula.Parse(text)
		if err != nil {
			return
		}
		body := line.Substitute(func(name string) (string, bool) { return name, true })
		if again, err := formula.Parse(line.Name + " = " + body); err != nil || strings.Join(again.Names(), " ") != strings.Join(line.Names(), " ") {
			t.Errorf("%q is written as %q, which reads as %v, %v", text, body, again, err)
		}
		v, err := line.Eval(values())
		if err == nil && (len(v.Numbers) != len(v.Size) || !v.List && len(v.Numbers) != 1) {
			t.Errorf("%q gives %+v", text, v)
		}
	})
}

// A temperature counts from absolute zero where it is a side of a product or quotient,
// and nowhere else.
func TestFactors(t *testing.T) {
	for text, want := range map[string]string{
		"a = b*(T_1 - T_2)": "b", "a = b/T": "b T", "a = (T)*2": "T", "a = T_1 - T_2": "", "a = b*exp(T)/c": "b c", "a = T + b*c": "b c",
	} {
		l, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(l.Factors(), " "); got != want {
			t.Errorf("factors of %s are %q, want %q", text, got, want)
		}
	}
}

// A list without members comes through a sign and a sum, and what is no Value is refused.
func TestEmptyValues(t *testing.T) {
	none := formula.List(nil, paperprop.Dimension{})
	for _, text := range []string{"y = -x", "y = 2*x", "y = x + x"} {
		line, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if v, err := line.Eval(formula.Values{"x": none}); err != nil || !v.List || len(v.Numbers) != 0 {
			t.Errorf("%s of an empty list is %v, %v", text, v, err)
		}
		for _, x := range []formula.Value{{}, {Numbers: []float64{1}}, {List: true, Numbers: []float64{1, 2}, Size: []float64{1}}} {
			const want = "x is an incomplete Value, want one made by Number or List"
			if v, err := line.Eval(formula.Values{"x": x}); err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s of %v is %v, %v, want %s", text, x, v, err, want)
			}
		}
	}
}

// A name alone in its parentheses, or between commas, is told from one beside others.
func TestReplace(t *testing.T) {
	for text, want := range map[string]string{
		"y = sum(a)/a": "sum(<a>)/(a)", "y = pow( a , b + 1)": "pow( <a> , (b) + 1)", "y = a": "<a>", "y = -a": "-(a)", "y = max(a, 0)*2": "max(<a>, 0)*2",
	} {
		line, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		got := line.Replace(func(name string, alone bool) (string, bool) {
			if alone {
				return "<" + name + ">", true
			}
			return "(" + name + ")", true
		})
		if got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
}

func TestDivides(t *testing.T) {
	for text, want := range map[string]bool{
		"y = b/a": true, "y = b/(a)": true, "y = exp(1 - b/a)": true, "y = a/b": false, "y = b/(a*2)": false, "y = a": false, "y = b*a": false,
	} {
		line, err := formula.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if got := line.Divides("a"); got != want {
			t.Errorf("%s: a divides: %v, want %v", text, got, want)
		}
	}
}
