// Package paperprop holds the quantities of a paper mill as types, so that
// a wet basis can't be taken for a dry one, nor a short ton for a tonne.
//
// A quantity is a float64 in one canonical unit. Multiply by a unit to make
// one, use In to read one:
//
//	g := 42 * paperprop.PoundPer1000SquareFoot
//	fmt.Println(g.In(paperprop.GramPerSquareMetre)) // 205.06…
//
// A variable that is a plain float64 takes the type first:
//
//	flow := paperprop.MassFlow(x) * paperprop.TonnePerHour
//
// The canonical unit is the one the trade writes: t/h, g/m², mm, kg, °C; parts
// of a whole are kept as 0 to 1 and printed in per cent. What people mix up has
// types of its own: [Consistency], [DryContent] and [Moisture]; [Mass],
// [OvenDryMass] and [AirDryMass]; [Pressure], [GaugePressure] and
// [AbsolutePressure]; [Temperature] and [TemperatureDifference]. One becomes
// another only through a method with a name, such as [Moisture.DryContent].
//
// # Text
//
// Every type reads and writes a number with its unit: in flags and JSON through
// UnmarshalText and MarshalText, in databases through Scan and Value. What is
// printed parses back to the same value. Parsing multiplies the decimal text by
// the exact factor of the unit and rounds once, so 0.1 in is 2.54 mm. A unit
// that is not listed may be composed of those that are: oz/yd2, lb/(h ft2).
// What is ambiguous (ton, gal, Btu) is refused with its candidates.
//
// # What people get wrong
//
// Go lets an untyped number pass for any type of number: Consistency(4), or a 4
// where a Consistency is wanted, is 400 %. Write 4*paperprop.Percent. That is
// untyped too, and passes for any part of a whole: where a DryContent is wanted,
// 7.5*paperprop.Percent is 7.5 % dry. A variable, or Moisture(7.5*paperprop.Percent),
// has a type and does not pass.
//
// Go lets two quantities of one type be multiplied, and gives the product that
// type: 3*Metre times 2*Metre is no length. Multiply only by constants of units;
// to compute, take numbers out with In, and put the result back with the unit in
// which it holds.
//
// Moisture on the wet basis is not water over dry matter: 50 % of the one is
// 100 % of the other. The first is a [Moisture], the second a [MoistureRatio].
//
// A quantity is not checked against its range when it is made or parsed: 120 %
// moisture is a value, and whoever takes it refuses it. A program that reads its own
// settings asks [Kind.Check].
//
// A number in a database is in the canonical unit: in a column of moistures 7.5 is
// 750 %. What may be NULL is scanned into a pointer or an sql.Null.
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
