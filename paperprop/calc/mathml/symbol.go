package mathml

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Symbol returns a symbol of a formula as MathML, without an enclosing math element:
// rho_w is a Greek letter with a subscript, dT a difference, Rinf has an infinity sign
// as subscript, R0 a digit.
func Symbol(name string) string {
	base, sub := parts(name)
	if sub == "" {
		return base
	}
	return "<msub>" + base + sub + "</msub>"
}

// parts returns the letter of a symbol and its subscript, which may be empty.
func parts(name string) (base, sub string) {
	letter, below := split(name)
	if below == "" {
		return identifier(letter), ""
	}
	return identifier(letter), subscript(below)
}

// split cuts a symbol where its subscript begins: at the first _, or before inf or
// digits after the letter.
func split(name string) (letter, below string) {
	if letter, below, ok := strings.Cut(name, "_"); ok {
		more, figures := split(letter)
		return more, strings.TrimSpace(figures + " " + below)
	}
	if letter, ok := strings.CutSuffix(name, "inf"); ok && letter != "" {
		return letter, "∞"
	}
	letter = strings.TrimRightFunc(name, unicode.IsDigit)
	return letter, name[len(letter):]
}

// long reports whether a symbol is written with several letters, such as CSF.
func long(name string) bool {
	letter, _ := split(name)
	return utf8.RuneCountInString(letters(letter)) > 1
}

// identifier sets a letter in italics and a word upright.
func identifier(letter string) string {
	return "<mi>" + html.EscapeString(letters(letter)) + "</mi>"
}

// letters replaces the name of a Greek letter by the letter, and the d of a difference
// by a delta.
func letters(name string) string {
	if greek, ok := greekLetter(name); ok {
		return greek
	}
	if rest, ok := strings.CutPrefix(name, "d"); ok && utf8.RuneCountInString(rest) == 1 {
		return "Δ" + rest
	}
	return name
}

// subscript is set upright: it is a word, an abbreviation or a number.
func subscript(below string) string {
	var inner strings.Builder
	for i, part := range strings.FieldsFunc(below, func(r rune) bool { return r == '_' || r == ' ' }) {
		if i > 0 {
			inner.WriteString(`<mo separator="true">,</mo>`)
		}
		if greek, ok := greekLetter(part); ok {
			part = greek
		}
		if strings.TrimFunc(part, unicode.IsDigit) == "" {
			inner.WriteString("<mn>" + part + "</mn>")
		} else {
			inner.WriteString(`<mi mathvariant="normal">` + html.EscapeString(part) + "</mi>")
		}
	}
	return row(inner.String())
}

// greekLetter returns the Greek letter with the given name. It knows none that looks
// like a Latin letter (omicron).
func greekLetter(name string) (string, bool) {
	switch name {
	case "alpha":
		return "α", true
	case "beta":
		return "β", true
	case "gamma":
		return "γ", true
	case "delta":
		return "δ", true
	case "epsilon":
		return "ε", true
	case "zeta":
		return "ζ", true
	case "eta":
		return "η", true
	case "theta":
		return "θ", true
	case "kappa":
		return "κ", true
	case "lambda":
		return "λ", true
	case "mu":
		return "μ", true
	case "nu":
		return "ν", true
	case "xi":
		return "ξ", true
	case "pi":
		return "π", true
	case "rho":
		return "ρ", true
	case "sigma":
		return "σ", true
	case "tau":
		return "τ", true
	case "phi":
		return "φ", true
	case "chi":
		return "χ", true
	case "psi":
		return "ψ", true
	case "omega":
		return "ω", true
	}
	return "", false
}
