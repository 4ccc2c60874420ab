// Package paperprop holds the quantities of a paper mill as types, so that
// a wet basis can't be taken for a dry one, nor a short ton for a tonne.
//
// A quantity is a float64 in one canonical unit. Multiply by a unit to make
// one, use In to read one:
//
//	g := 42 * paperprop.PoundPer1000SquareFoot
//	fmt.Println(g.In(paperprop.GramPerSquareMetre)) // 205.06…
package paperprop

// Parts of a whole, for all types that are such: 4 * Percent serves as a
// [Consistency], a [DryContent], a [Moisture], a [Fraction], a [MassRatio].
const (
	Percent        = 0.01
	PartPerMillion = 1e-6
)

// A Property is a pointer to a quantity of this package: *Grammage, *Mass.
type Property interface {
	String() string
	UnmarshalText(text []byte) error
	Kind() *Kind
	Number() *float64 // in the canonical unit, in place
}
