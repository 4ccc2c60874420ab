package paperprop

import (
	"math/big"
	"strconv"
	"strings"
)

// A Unit is a unit of measurement. The zero Unit is no unit. Listed units can be
// compared with ==; compare composed ones, and those that [Convert] returns, by their
// text.
type Unit struct{ u *unit }

// A unit converts a number x to its canonical value, (x·num + shift)/den.
type unit struct {
	name, also string // also holds aliases, separated by commas
	kind       kindID
	factor     float64 // num/den, rounded once
	exact      ratio
	shift      int64 // for temperatures; otherwise zero

	dimension Dimension // of a unit of no kind
	big       *big.Rat  // the factor of a composed unit, if exact cannot hold it
}

// String returns the name of a listed unit, or a composed one as it was composed.
func (u Unit) String() string {
	if u.u == nil {
		return ""
	}
	return u.u.name
}

// Spelled reports whether text contains u as String writes it, in plain or typographic
// letters. It compares spellings only: N/mm is kN/m, but a reader does not see that.
func (u Unit) Spelled(text string) bool {
	plain := func(t string) string { return strings.ReplaceAll(normal(t), ".", " ") }
	return strings.Contains(plain(text), plain(u.String()))
}

// IsZero reports whether u is no unit at all.
func (u Unit) IsZero() bool { return u.u == nil }

// Kind returns the kind that u belongs to, nil for a composed unit of no kind.
func (u Unit) Kind() *Kind {
	if u.u == nil || u.u.kind == noKind {
		return nil
	}
	return &kinds[u.u.kind]
}

// Dimension returns the powers of base quantities that u is made of.
func (u Unit) Dimension() Dimension {
	if k := u.Kind(); k != nil {
		return k.dimension
	}
	if u.u == nil {
		return Dimension{}
	}
	return u.u.dimension
}

// Currency returns the currency of a price unit: "EUR" for EUR/t. It is empty for 1/t,
// whose currency the caller decides, and for a unit that is not a price.
func (u Unit) Currency() string {
	if u.u == nil || u.u.kind != kindPrice {
		return ""
	}
	if letters, _, _ := strings.Cut(u.u.name, "/"); len(letters) == len("EUR") {
		return letters
	}
	return ""
}

// PricedIn returns the price unit in the given currency per the same mass as u: EUR/t
// for 1/t. It returns u if the currency is empty or unknown, or u is not a price.
func (u Unit) PricedIn(currency string) Unit {
	if u.u == nil || u.u.kind != kindPrice || currency == "" {
		return u
	}
	_, mass, _ := strings.Cut(u.u.name, "/")
	if i := kinds[kindPrice].lookup(currency + "/" + mass); i >= 0 {
		return kinds[kindPrice].unit(i)
	}
	return u
}

// From converts x from u to the canonical unit of its kind. For a unit of no kind the
// result is in base units. No unit at all leaves x as it is.
func (u Unit) From(x float64) float64 {
	switch {
	case u.plain():
		return x
	case u.u.shift != 0:
		return (x*float64(u.u.exact.num) + float64(u.u.shift)) / float64(u.u.exact.den)
	}
	if n, d, ok := u.u.whole(); ok {
		return x * n / d
	}
	return x * u.u.factor
}

// To converts v from the canonical unit to u. It is the inverse of [Unit.From].
func (u Unit) To(v float64) float64 {
	switch {
	case u.plain():
		return v
	case u.u.shift != 0:
		return (v*float64(u.u.exact.den) - float64(u.u.shift)) / float64(u.u.exact.num)
	}
	if n, d, ok := u.u.whole(); ok {
		return v * d / n
	}
	return v / u.u.factor
}

// whole returns the factor as two whole numbers that are exact in a float64: 0.0082 is
// 0.0082·100/1 %, where 0.0082/0.01 would miss the last digit.
func (u *unit) whole() (num, den float64, ok bool) {
	const most = 1 << 53
	return float64(u.exact.num), float64(u.exact.den), u.big == nil && u.exact.num <= most && u.exact.den <= most
}

// SI returns the factor and offset that convert a number in u to coherent base units
// (kg, m, s, K, mol, A, and deg for angles): number·factor + offset.
func (u Unit) SI() (factor, offset float64) {
	if u.u == nil {
		return 1, 0
	}
	f := u.u.rat()
	if k := u.Kind(); k != nil {
		f.Mul(f, k.si.rat())
	}
	factor, _ = f.Float64()
	if u.u.kind == kindTemperature {
		offset = u.From(0) + kelvinOffset
	}
	return factor, offset
}

// Difference returns the unit of the difference between two values in u: K for degC,
// degF_diff for degF, otherwise u itself.
func (u Unit) Difference() Unit {
	switch {
	case u.u == nil || u.u.kind != kindTemperature:
		return u
	case u == fahrenheit():
		return kinds[kindTemperatureDifference].unit(1)
	}
	return kinds[kindTemperatureDifference].Canonical()
}

// Convert converts x from u to the unit to. The shortest decimal text of x is
// multiplied by the exact factor and rounded once: 0.1 in is 2.54 mm. The error is a
// [ConversionError] if the units do not measure the same quantity: mass and force,
// gauge and absolute pressure, a temperature and a difference, prices in two
// currencies. It is a [NumberError] if x or the result is not finite.
func (u Unit) Convert(x float64, to Unit) (float64, error) {
	if !u.fits(to) {
		return 0, &ConversionError{From: u, To: to}
	}
	if u == to {
		return x, nil
	}
	var buffer [32]byte
	text := string(strconv.AppendFloat(buffer[:0], x, 'e', -1, 64))
	if x-x != 0 {
		return 0, &NumberError{Text: text, Reason: "not finite"}
	}
	number, _ := new(big.Rat).SetString(text)
	return rounded(text, between(number, u, to))
}

// ConvertExactly is [Unit.Convert] without rounding, for a result that has no finite
// decimal, such as 205 g/m2 in lb/1000ft2. It does not change x.
func (u Unit) ConvertExactly(x *big.Rat, to Unit) (*big.Rat, error) {
	switch {
	case !u.fits(to):
		return nil, &ConversionError{From: u, To: to}
	case u == to:
		return new(big.Rat).Set(x), nil
	}
	return between(x, u, to), nil
}

// fits reports whether a number in u can be converted to v.
func (u Unit) fits(v Unit) bool {
	j, k := u.Kind(), v.Kind()
	if j == k && j != nil {
		return !u.otherMoney(v)
	}
	return u.Dimension() == v.Dimension() && (j == nil || !j.apart) && (k == nil || !k.apart)
}

// otherMoney reports whether u and v are prices in two currencies.
func (u Unit) otherMoney(v Unit) bool {
	a, b := u.Currency(), v.Currency()
	return a != "" && b != "" && a != b
}

// between converts an exact number from u to v.
func between(x *big.Rat, u, v Unit) *big.Rat {
	x = u.exactly(x)
	if j, k := u.Kind(), v.Kind(); j != k {
		x.Mul(x, j.scale())
		x.Quo(x, k.scale())
	}
	if v.u != nil {
		v.u.fromCanonical(x)
	}
	return x
}

// exactly returns the canonical value of a number in u.
func (u Unit) exactly(x *big.Rat) *big.Rat {
	x = new(big.Rat).Set(x)
	if u.u == nil {
		return x
	}
	x.Mul(x, u.u.rat())
	if u.u.shift != 0 {
		x.Add(x, u.u.offset())
	}
	return x
}

// fromCanonical makes the number in u of a canonical value x.
func (u *unit) fromCanonical(x *big.Rat) {
	if u.shift != 0 {
		x.Sub(x, u.offset())
	}
	x.Quo(x, u.rat())
}

// offset returns the canonical value of 0 in u.
func (u *unit) offset() *big.Rat { return new(big.Rat).SetFrac64(u.shift, int64(u.exact.den)) }

func (u *unit) rat() *big.Rat {
	if u.big != nil {
		return new(big.Rat).Set(u.big)
	}
	return u.exact.rat()
}

// scale returns the canonical unit in base units; 1 if k is nil.
func (k *Kind) scale() *big.Rat {
	if k == nil {
		return big.NewRat(1, 1)
	}
	return k.si.rat()
}

func (r ratio) rat() *big.Rat {
	return new(big.Rat).SetFrac(new(big.Int).SetUint64(r.num), new(big.Int).SetUint64(r.den))
}

// rounded rounds x once; a number too large for a float64 is an error.
func rounded(text string, x *big.Rat) (float64, error) {
	v, _ := x.Float64()
	if v-v != 0 {
		return 0, &NumberError{Text: text, Reason: "too large"}
	}
	return v, nil
}
