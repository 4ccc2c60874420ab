package paperprop

import (
	"fmt"
	"math/big"
	"strings"

	"millmaths.example/paperprop/internal/wording"
)

// A composed unit is a product of powers of listed units.
type composed struct {
	factor    *big.Rat // in base units
	dimension Dimension
}

// A unitReader reads a composed unit, written in plain letters, from left to right:
// products with a space or a point, powers with a digit, one stroke, and brackets:
//
//	quotient = ( "1" | product ) [ "/" ( "1" | unit | "(" quotient ")" ) ]
//	product  = factor { ( " " | "." ) factor }
//	factor   = unit | "(" quotient ")" [ power ]
type unitReader struct {
	text    string
	at      int
	percent bool // % is a factor, for units of no kind: the slope N/%, the square %2
}

func (r *unitReader) read() (composed, error) {
	if len(r.text) > maxLength {
		return composed{}, &UnitError{Text: wording.Clip(r.text), Fault: MalformedUnit, Reason: "longer than 64 characters"}
	}
	if strings.Contains(r.text, "^") {
		return composed{}, r.malformed("leave out the ^, write " + strings.ReplaceAll(r.text, "^", ""))
	}
	c, err := r.quotient()
	if err == nil && r.at < len(r.text) {
		err = r.malformed(fmt.Sprintf("unexpected %q", r.text[r.at:]))
	}
	return c, err
}

func (r *unitReader) malformed(reason string) error {
	return &UnitError{Text: r.text, Fault: MalformedUnit, Reason: reason}
}

func (r *unitReader) next() byte {
	if r.at < len(r.text) {
		return r.text[r.at]
	}
	return 0
}

func (r *unitReader) skip(c byte) bool {
	if r.next() != c {
		return false
	}
	r.at++
	return true
}

func (r *unitReader) quotient() (composed, error) {
	c, err := r.product()
	if err != nil || !r.skip('/') {
		return c, err
	}
	start := r.at
	below, err := r.factor()
	if err != nil {
		return c, err
	}
	switch r.next() {
	case '/':
		return c, r.malformed("two strokes, write " + r.text[:start] + "(" + strings.ReplaceAll(r.text[start:], "/", " ") + ")")
	case ' ', '.':
		return c, r.malformed("more than one unit below the stroke, put them in brackets: " + r.text[:start] + "(" + r.text[start:] + ")")
	}
	return c.times(below, -1), r.bounded(c, below)
}

// bounded refuses powers too high for a Dimension to hold.
func (r *unitReader) bounded(factors ...composed) error {
	const most = 20
	for _, f := range factors {
		for _, power := range f.dimension {
			if power > most || power < -most {
				return r.malformed("a power above 20")
			}
		}
	}
	return nil
}

func (r *unitReader) product() (composed, error) {
	start := r.at
	c, err := r.factor()
	one := r.text[start:r.at] == "1"
	for err == nil && (r.skip(' ') || r.skip('.')) {
		var f composed
		start = r.at
		if f, err = r.factor(); err != nil {
			break
		}
		if one = one || r.text[start:r.at] == "1"; one { // "12 1 t" is a slip of 12.1 t, or a list
			return c, r.malformed("a 1 among units, leave it out")
		}
		err = r.bounded(c, f)
		c = c.times(f, 1)
	}
	return c, err
}

func (r *unitReader) factor() (composed, error) {
	if !r.skip('(') {
		return r.power()
	}
	if end := r.word(r.at); strings.HasPrefix(r.text[end:], ")") && strings.Trim(r.text[r.at:end], "0123456789") == "" && end > r.at {
		// 1 is a unit too, so that the uncertainty of 4.0 (1) % would be lost.
		return composed{}, r.malformed("a number in brackets, want a unit alone; an uncertainty is for inputs, right after the value: 4.0(1) %")
	}
	c, err := r.quotient()
	if err == nil && !r.skip(')') {
		err = r.malformed("a bracket is not closed")
	}
	if err != nil || r.next() < '2' || r.next() > '9' {
		return c, err
	}
	product := c
	for range r.next() - '1' {
		if err = r.bounded(product, c); err != nil {
			return c, err
		}
		product = product.times(c, 1)
	}
	r.at++
	return product, nil
}

// power reads a listed unit, which may be two words, and its exponent if there is one.
func (r *unitReader) power() (composed, error) {
	one := r.word(r.at)
	if one == r.at {
		return composed{}, r.malformed("a unit is missing")
	}
	if two := one; two < len(r.text) && r.text[two] == ' ' {
		two = r.word(two + 1)
		if c, ok := r.powerOf(r.text[r.at:two]); ok {
			r.at = two
			return c, nil
		}
	}
	word := r.text[r.at:one]
	c, ok := r.powerOf(word)
	if !ok {
		if err := refuse(nil, word, word); err != nil {
			return c, err
		}
		if strings.Trim(word, "0123456789") == "" {
			return c, r.malformed("a number among units, want one number with one unit")
		}
		return c, &UnitError{Text: word}
	}
	r.at = one
	return c, nil
}

// word returns where the word that begins at i ends.
func (r *unitReader) word(i int) int {
	for i < len(r.text) && strings.IndexByte(" ./()", r.text[i]) < 0 {
		i++
	}
	return i
}

func (r *unitReader) powerOf(word string) (composed, bool) {
	if word == "1" {
		return composed{factor: big.NewRat(1, 1)}, true
	}
	if c, ok := r.atom(word); ok {
		return c, true
	}
	last := len(word) - 1
	if last < 1 || word[last] < '2' || word[last] > '9' {
		return composed{}, false
	}
	c, ok := r.atom(word[:last])
	if !ok {
		return composed{}, false
	}
	one := composed{factor: big.NewRat(1, 1)}
	return one.times(c, int(word[last]-'0')), true
}

func (r *unitReader) atom(word string) (composed, bool) {
	if word == "%" {
		return composed{factor: big.NewRat(1, 100)}, r.percent
	}
	if i := lookupAtom(word); i >= 0 {
		return Unit{&units[i]}.inBase(), true
	}
	return composed{}, false
}

// times returns c·dⁿ.
func (c composed) times(d composed, n int) composed {
	f := new(big.Rat).Set(c.factor)
	for range max(n, -n) {
		if n > 0 {
			f.Mul(f, d.factor)
		} else {
			f.Quo(f, d.factor)
		}
	}
	return composed{f, c.dimension.Times(d.dimension, n)}
}

// unit returns c as a unit of kind k, or of no kind if k is nil.
func (c composed) unit(name string, k *Kind) Unit {
	u := &unit{name: name, kind: noKind, dimension: c.dimension}
	f := c.factor
	if k != nil {
		u.kind = k.id()
		f = new(big.Rat).Quo(f, k.si.rat())
	}
	u.factor, _ = f.Float64()
	if f.Num().IsUint64() && f.Denom().IsUint64() {
		u.exact = ratio{f.Num().Uint64(), f.Denom().Uint64()}
	} else {
		u.big = f
	}
	return Unit{u}
}

// id returns the index of k among the kinds.
func (k *Kind) id() kindID { return units[k.first].kind }

// ParseUnit reads a unit of any kind, or a composed unit of no kind: "1/K". The empty
// text is the unit 1. Where kinds share a unit it returns the most natural one: "kg" is
// a Mass, "K" a Temperature, "%" a Fraction. An ambiguous unit is refused with its
// candidates. The error is a [UnitError].
func ParseUnit(text string) (Unit, error) {
	plain := normal(text)
	u, err := parseUnit(text, plain)
	if err != nil {
		return Unit{}, near(err, nil, text, plain)
	}
	return u, nil
}

// parseUnit is ParseUnit without what may have been meant, which takes long to find.
func parseUnit(text, plain string) (Unit, error) {
	if plain == "" || plain == "1" {
		return kinds[kindRatio].Canonical(), nil
	}
	for _, spelling := range []string{text, plain} {
		if i := lookupAny(spelling); i >= 0 {
			return Unit{&units[i]}, nil
		}
	}
	if err := refuse(nil, text, plain); err != nil {
		return Unit{}, err
	}
	c, err := (&unitReader{text: plain, percent: true}).read()
	if err != nil {
		return Unit{}, err
	}
	return c.unit(plain, kindOf(c.dimension)), nil
}

// kindOf returns the first kind of dimension d whose units may be composed, or nil.
func kindOf(d Dimension) *Kind {
	for i := range kinds {
		if k := &kinds[i]; k.composes && !k.apart && k.dimension == d {
			return k
		}
	}
	return nil
}

// normal returns the text of a unit in plain letters, with single spaces.
func normal(text string) string {
	var b strings.Builder
	for i, r := range text {
		switch r {
		case 'µ', 'μ':
			b.WriteByte('u')
		case '·', '⋅':
			b.WriteByte('.')
		case 'Ω', '\u2126':
			b.WriteString("ohm")
		case '″':
			b.WriteByte('"')
		case '²', '³':
			b.WriteRune(r - '²' + '2')
		case '⁴', '⁵', '⁶', '⁷', '⁸', '⁹':
			b.WriteRune(r - '⁴' + '4')
		case '°':
			if strings.HasPrefix(text[i:], "°C") || strings.HasPrefix(text[i:], "°F") {
				b.WriteString("deg")
			} else {
				b.WriteRune(r)
			}
		default:
			b.WriteRune(r)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
