// Code generated from units.csv by internal/generate; DO NOT EDIT.

package paperprop

import (
	"database/sql/driver"
	"math"
)

// Mass is mass as weighed, water included.
// Its canonical unit is kg, its natural range 0 kg and above.
type Mass float64

// Units of mass, in kg.
const (
	Kilogram  Mass = 1                        // kg
	Milligram Mass = 1.0 / 1000000            // mg
	Gram      Mass = 1.0 / 1000               // g
	Tonne     Mass = 1000                     // t
	Pound     Mass = 45359237.0 / 100000000   // lb
	Ounce     Mass = 45359237.0 / 1600000000  // oz
	Grain     Mass = 6479891.0 / 100000000000 // gr
	ShortTon  Mass = 45359237.0 / 50000       // short ton
	LongTon   Mass = 317514659.0 / 312500     // long ton
)

// ParseMass reads a number and a unit, such as "12 kg". The error is a
// [NumberError] or a [UnitError].
func ParseMass(text string) (Mass, error) {
	v, _, err := kinds[kindMass].Parse(text)
	return Mass(v), err
}

// In returns x as a number in unit u: x.In(Kilogram).
func (x Mass) In(u Mass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Mass) String() string { return kinds[kindMass].text(float64(x)) }

// MarshalText returns the text of [Mass.String]; an x that is not finite is an error.
func (x Mass) MarshalText() ([]byte, error) { return kinds[kindMass].marshal(float64(x)) }

// UnmarshalText reads what [ParseMass] reads; an error leaves x unchanged.
func (x *Mass) UnmarshalText(text []byte) error {
	return kinds[kindMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg, or text with a unit.
func (x *Mass) Scan(src any) error { return kinds[kindMass].scan(src, (*float64)(x)) }

// Value returns the number in kg for a database; an x that is not finite is an error.
func (x Mass) Value() (driver.Value, error) { return kinds[kindMass].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Mass) Kind() *Kind { return &kinds[kindMass] }

// Number returns a pointer to the number of x, in kg.
func (x *Mass) Number() *float64 { return (*float64)(x) }

// OvenDryMass is mass without any water.
// Its canonical unit is kg, its natural range 0 kg and above.
type OvenDryMass float64

// Units of oven-dry mass, in kg.
const (
	OvenDryKilogram OvenDryMass = 1          // kg
	OvenDryTonne    OvenDryMass = 1000       // odt
	OvenDryGram     OvenDryMass = 1.0 / 1000 // g
)

// ParseOvenDryMass reads a number and a unit, such as "12 kg". The error is a
// [NumberError] or a [UnitError].
func ParseOvenDryMass(text string) (OvenDryMass, error) {
	v, _, err := kinds[kindOvenDryMass].Parse(text)
	return OvenDryMass(v), err
}

// In returns x as a number in unit u: x.In(OvenDryKilogram).
func (x OvenDryMass) In(u OvenDryMass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x OvenDryMass) String() string { return kinds[kindOvenDryMass].text(float64(x)) }

// MarshalText returns the text of [OvenDryMass.String]; an x that is not finite is an error.
func (x OvenDryMass) MarshalText() ([]byte, error) { return kinds[kindOvenDryMass].marshal(float64(x)) }

// UnmarshalText reads what [ParseOvenDryMass] reads; an error leaves x unchanged.
func (x *OvenDryMass) UnmarshalText(text []byte) error {
	return kinds[kindOvenDryMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg, or text with a unit.
func (x *OvenDryMass) Scan(src any) error { return kinds[kindOvenDryMass].scan(src, (*float64)(x)) }

// Value returns the number in kg for a database; an x that is not finite is an error.
func (x OvenDryMass) Value() (driver.Value, error) { return kinds[kindOvenDryMass].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (OvenDryMass) Kind() *Kind { return &kinds[kindOvenDryMass] }

// Number returns a pointer to the number of x, in kg.
func (x *OvenDryMass) Number() *float64 { return (*float64)(x) }

// AirDryMass is mass calculated at 90 % dry content.
// Its canonical unit is kg, its natural range 0 kg and above.
type AirDryMass float64

// Units of air-dry mass, in kg.
const (
	AirDryKilogram AirDryMass = 1    // kg
	AirDryTonne    AirDryMass = 1000 // adt
)

// ParseAirDryMass reads a number and a unit, such as "12 kg". The error is a
// [NumberError] or a [UnitError].
func ParseAirDryMass(text string) (AirDryMass, error) {
	v, _, err := kinds[kindAirDryMass].Parse(text)
	return AirDryMass(v), err
}

// In returns x as a number in unit u: x.In(AirDryKilogram).
func (x AirDryMass) In(u AirDryMass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AirDryMass) String() string { return kinds[kindAirDryMass].text(float64(x)) }

// MarshalText returns the text of [AirDryMass.String]; an x that is not finite is an error.
func (x AirDryMass) MarshalText() ([]byte, error) { return kinds[kindAirDryMass].marshal(float64(x)) }

// UnmarshalText reads what [ParseAirDryMass] reads; an error leaves x unchanged.
func (x *AirDryMass) UnmarshalText(text []byte) error {
	return kinds[kindAirDryMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg, or text with a unit.
func (x *AirDryMass) Scan(src any) error { return kinds[kindAirDryMass].scan(src, (*float64)(x)) }

// Value returns the number in kg for a database; an x that is not finite is an error.
func (x AirDryMass) Value() (driver.Value, error) { return kinds[kindAirDryMass].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (AirDryMass) Kind() *Kind { return &kinds[kindAirDryMass] }

// Number returns a pointer to the number of x, in kg.
func (x *AirDryMass) Number() *float64 { return (*float64)(x) }

// BasisWeight is the mass of a ream; the ream itself is a separate input.
// Its canonical unit is lb, its natural range 0 lb and above.
type BasisWeight float64

// Units of basis weight, in lb.
const (
	PoundPerReam    BasisWeight = 1                      // lb
	KilogramPerReam BasisWeight = 100000000.0 / 45359237 // kg
)

// ParseBasisWeight reads a number and a unit, such as "12 lb". The error is a
// [NumberError] or a [UnitError].
func ParseBasisWeight(text string) (BasisWeight, error) {
	v, _, err := kinds[kindBasisWeight].Parse(text)
	return BasisWeight(v), err
}

// In returns x as a number in unit u: x.In(PoundPerReam).
func (x BasisWeight) In(u BasisWeight) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x BasisWeight) String() string { return kinds[kindBasisWeight].text(float64(x)) }

// MarshalText returns the text of [BasisWeight.String]; an x that is not finite is an error.
func (x BasisWeight) MarshalText() ([]byte, error) { return kinds[kindBasisWeight].marshal(float64(x)) }

// UnmarshalText reads what [ParseBasisWeight] reads; an error leaves x unchanged.
func (x *BasisWeight) UnmarshalText(text []byte) error {
	return kinds[kindBasisWeight].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in lb, or text with a unit.
func (x *BasisWeight) Scan(src any) error { return kinds[kindBasisWeight].scan(src, (*float64)(x)) }

// Value returns the number in lb for a database; an x that is not finite is an error.
func (x BasisWeight) Value() (driver.Value, error) { return kinds[kindBasisWeight].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (BasisWeight) Kind() *Kind { return &kinds[kindBasisWeight] }

// Number returns a pointer to the number of x, in lb.
func (x *BasisWeight) Number() *float64 { return (*float64)(x) }

// Length is a length, width, thickness or wavelength.
// Its canonical unit is mm, its natural range 0 mm and above.
type Length float64

// Units of length, in mm.
const (
	Millimetre Length = 1             // mm
	Metre      Length = 1000          // m
	Nanometre  Length = 1.0 / 1000000 // nm
	Micrometre Length = 1.0 / 1000    // um
	Centimetre Length = 10            // cm
	Kilometre  Length = 1000000       // km
	Inch       Length = 127.0 / 5     // in
	Foot       Length = 1524.0 / 5    // ft
	Yard       Length = 4572.0 / 5    // yd
	Mile       Length = 1609344       // mi
	Mil        Length = 127.0 / 5000  // mil
	Point      Length = 127.0 / 5000  // pt
)

// ParseLength reads a number and a unit, such as "12 mm". The error is a
// [NumberError] or a [UnitError].
func ParseLength(text string) (Length, error) {
	v, _, err := kinds[kindLength].Parse(text)
	return Length(v), err
}

// In returns x as a number in unit u: x.In(Millimetre).
func (x Length) In(u Length) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Length) String() string { return kinds[kindLength].text(float64(x)) }

// MarshalText returns the text of [Length.String]; an x that is not finite is an error.
func (x Length) MarshalText() ([]byte, error) { return kinds[kindLength].marshal(float64(x)) }

// UnmarshalText reads what [ParseLength] reads; an error leaves x unchanged.
func (x *Length) UnmarshalText(text []byte) error {
	return kinds[kindLength].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mm, or text with a unit.
func (x *Length) Scan(src any) error { return kinds[kindLength].scan(src, (*float64)(x)) }

// Value returns the number in mm for a database; an x that is not finite is an error.
func (x Length) Value() (driver.Value, error) { return kinds[kindLength].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Length) Kind() *Kind { return &kinds[kindLength] }

// Number returns a pointer to the number of x, in mm.
func (x *Length) Number() *float64 { return (*float64)(x) }

// Duration is a span of time.
// Its canonical unit is min, its natural range 0 min and above.
type Duration float64

// Units of duration, in min.
const (
	Minute      Duration = 1           // min
	Millisecond Duration = 1.0 / 60000 // ms
	Second      Duration = 1.0 / 60    // s
	Hour        Duration = 60          // h
	Day         Duration = 1440        // d
	Week        Duration = 10080       // week
)

// ParseDuration reads a number and a unit, such as "12 min". The error is a
// [NumberError] or a [UnitError].
func ParseDuration(text string) (Duration, error) {
	v, _, err := kinds[kindDuration].Parse(text)
	return Duration(v), err
}

// In returns x as a number in unit u: x.In(Minute).
func (x Duration) In(u Duration) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Duration) String() string { return kinds[kindDuration].text(float64(x)) }

// MarshalText returns the text of [Duration.String]; an x that is not finite is an error.
func (x Duration) MarshalText() ([]byte, error) { return kinds[kindDuration].marshal(float64(x)) }

// UnmarshalText reads what [ParseDuration] reads; an error leaves x unchanged.
func (x *Duration) UnmarshalText(text []byte) error {
	return kinds[kindDuration].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in min, or text with a unit.
func (x *Duration) Scan(src any) error { return kinds[kindDuration].scan(src, (*float64)(x)) }

// Value returns the number in min for a database; an x that is not finite is an error.
func (x Duration) Value() (driver.Value, error) { return kinds[kindDuration].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Duration) Kind() *Kind { return &kinds[kindDuration] }

// Number returns a pointer to the number of x, in min.
func (x *Duration) Number() *float64 { return (*float64)(x) }

// Temperature is a point on the temperature scale; make one with [Celsius], [Kelvin] or [Fahrenheit].
// Its canonical unit is degC, its natural range -273.15 degC and above.
type Temperature float64

// ParseTemperature reads a number and a unit, such as "12 degC". The error is a
// [NumberError] or a [UnitError].
func ParseTemperature(text string) (Temperature, error) {
	v, _, err := kinds[kindTemperature].Parse(text)
	return Temperature(v), err
}

// String returns x with its unit, as text that parses back to the same value.
func (x Temperature) String() string { return kinds[kindTemperature].text(float64(x)) }

// MarshalText returns the text of [Temperature.String]; an x that is not finite is an error.
func (x Temperature) MarshalText() ([]byte, error) { return kinds[kindTemperature].marshal(float64(x)) }

// UnmarshalText reads what [ParseTemperature] reads; an error leaves x unchanged.
func (x *Temperature) UnmarshalText(text []byte) error {
	return kinds[kindTemperature].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in degC, or text with a unit.
func (x *Temperature) Scan(src any) error { return kinds[kindTemperature].scan(src, (*float64)(x)) }

// Value returns the number in degC for a database; an x that is not finite is an error.
func (x Temperature) Value() (driver.Value, error) { return kinds[kindTemperature].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Temperature) Kind() *Kind { return &kinds[kindTemperature] }

// Number returns a pointer to the number of x, in degC.
func (x *Temperature) Number() *float64 { return (*float64)(x) }

// TemperatureDifference is the difference between two temperatures.
// Its canonical unit is K.
type TemperatureDifference float64

// Units of temperature difference, in K.
const (
	KelvinDifference     TemperatureDifference = 1       // K
	FahrenheitDifference TemperatureDifference = 5.0 / 9 // degF_diff
)

// ParseTemperatureDifference reads a number and a unit, such as "12 K". The error is a
// [NumberError] or a [UnitError].
func ParseTemperatureDifference(text string) (TemperatureDifference, error) {
	v, _, err := kinds[kindTemperatureDifference].Parse(text)
	return TemperatureDifference(v), err
}

// In returns x as a number in unit u: x.In(KelvinDifference).
func (x TemperatureDifference) In(u TemperatureDifference) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x TemperatureDifference) String() string {
	return kinds[kindTemperatureDifference].text(float64(x))
}

// MarshalText returns the text of [TemperatureDifference.String]; an x that is not finite is an error.
func (x TemperatureDifference) MarshalText() ([]byte, error) {
	return kinds[kindTemperatureDifference].marshal(float64(x))
}

// UnmarshalText reads what [ParseTemperatureDifference] reads; an error leaves x unchanged.
func (x *TemperatureDifference) UnmarshalText(text []byte) error {
	return kinds[kindTemperatureDifference].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in K, or text with a unit.
func (x *TemperatureDifference) Scan(src any) error {
	return kinds[kindTemperatureDifference].scan(src, (*float64)(x))
}

// Value returns the number in K for a database; an x that is not finite is an error.
func (x TemperatureDifference) Value() (driver.Value, error) {
	return kinds[kindTemperatureDifference].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (TemperatureDifference) Kind() *Kind { return &kinds[kindTemperatureDifference] }

// Number returns a pointer to the number of x, in K.
func (x *TemperatureDifference) Number() *float64 { return (*float64)(x) }

// Force is force, not mass.
// Its canonical unit is N, its natural range 0 N and above.
type Force float64

// Units of force, in N.
const (
	Newton        Force = 1                                // N
	Millinewton   Force = 1.0 / 1000                       // mN
	Kilonewton    Force = 1000                             // kN
	Decanewton    Force = 10                               // daN
	PoundForce    Force = 8896443230521.0 / 2000000000000  // lbf
	OunceForce    Force = 8896443230521.0 / 32000000000000 // ozf
	KilogramForce Force = 196133.0 / 20000                 // kgf
	GramForce     Force = 196133.0 / 20000000              // gf
)

// ParseForce reads a number and a unit, such as "12 N". The error is a
// [NumberError] or a [UnitError].
func ParseForce(text string) (Force, error) {
	v, _, err := kinds[kindForce].Parse(text)
	return Force(v), err
}

// In returns x as a number in unit u: x.In(Newton).
func (x Force) In(u Force) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Force) String() string { return kinds[kindForce].text(float64(x)) }

// MarshalText returns the text of [Force.String]; an x that is not finite is an error.
func (x Force) MarshalText() ([]byte, error) { return kinds[kindForce].marshal(float64(x)) }

// UnmarshalText reads what [ParseForce] reads; an error leaves x unchanged.
func (x *Force) UnmarshalText(text []byte) error {
	return kinds[kindForce].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in N, or text with a unit.
func (x *Force) Scan(src any) error { return kinds[kindForce].scan(src, (*float64)(x)) }

// Value returns the number in N for a database; an x that is not finite is an error.
func (x Force) Value() (driver.Value, error) { return kinds[kindForce].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Force) Kind() *Kind { return &kinds[kindForce] }

// Number returns a pointer to the number of x, in N.
func (x *Force) Number() *float64 { return (*float64)(x) }

// Amount is an amount of substance or of charge; an equivalent counts as a mole.
// Its canonical unit is mol, its natural range 0 mol and above.
type Amount float64

// Units of amount, in mol.
const (
	Mole            Amount = 1             // mol
	Millimole       Amount = 1.0 / 1000    // mmol
	Micromole       Amount = 1.0 / 1000000 // umol
	Equivalent      Amount = 1             // eq
	Milliequivalent Amount = 1.0 / 1000    // meq
	Microequivalent Amount = 1.0 / 1000000 // ueq
)

// ParseAmount reads a number and a unit, such as "12 mol". The error is a
// [NumberError] or a [UnitError].
func ParseAmount(text string) (Amount, error) {
	v, _, err := kinds[kindAmount].Parse(text)
	return Amount(v), err
}

// In returns x as a number in unit u: x.In(Mole).
func (x Amount) In(u Amount) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Amount) String() string { return kinds[kindAmount].text(float64(x)) }

// MarshalText returns the text of [Amount.String]; an x that is not finite is an error.
func (x Amount) MarshalText() ([]byte, error) { return kinds[kindAmount].marshal(float64(x)) }

// UnmarshalText reads what [ParseAmount] reads; an error leaves x unchanged.
func (x *Amount) UnmarshalText(text []byte) error {
	return kinds[kindAmount].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mol, or text with a unit.
func (x *Amount) Scan(src any) error { return kinds[kindAmount].scan(src, (*float64)(x)) }

// Value returns the number in mol for a database; an x that is not finite is an error.
func (x Amount) Value() (driver.Value, error) { return kinds[kindAmount].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Amount) Kind() *Kind { return &kinds[kindAmount] }

// Number returns a pointer to the number of x, in mol.
func (x *Amount) Number() *float64 { return (*float64)(x) }

// Angle is a plane angle.
// Its canonical unit is deg.
type Angle float64

// Units of angle, in deg.
const (
	Degree Angle = 1             // deg
	Radian Angle = 180 / math.Pi // rad
)

// ParseAngle reads a number and a unit, such as "12 deg". The error is a
// [NumberError] or a [UnitError].
func ParseAngle(text string) (Angle, error) {
	v, _, err := kinds[kindAngle].Parse(text)
	return Angle(v), err
}

// In returns x as a number in unit u: x.In(Degree).
func (x Angle) In(u Angle) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Angle) String() string { return kinds[kindAngle].text(float64(x)) }

// MarshalText returns the text of [Angle.String]; an x that is not finite is an error.
func (x Angle) MarshalText() ([]byte, error) { return kinds[kindAngle].marshal(float64(x)) }

// UnmarshalText reads what [ParseAngle] reads; an error leaves x unchanged.
func (x *Angle) UnmarshalText(text []byte) error {
	return kinds[kindAngle].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in deg, or text with a unit.
func (x *Angle) Scan(src any) error { return kinds[kindAngle].scan(src, (*float64)(x)) }

// Value returns the number in deg for a database; an x that is not finite is an error.
func (x Angle) Value() (driver.Value, error) { return kinds[kindAngle].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Angle) Kind() *Kind { return &kinds[kindAngle] }

// Number returns a pointer to the number of x, in deg.
func (x *Angle) Number() *float64 { return (*float64)(x) }

// Count is a whole number of things.
// Its canonical unit is 1, its natural range 0 and above.
type Count float64

// Units of count, in 1.
const (
	Million Count = 1000000 // million
	Sheet   Count = 1       // sheets
)

// ParseCount reads a number and a unit, such as "12". The error is a
// [NumberError] or a [UnitError].
func ParseCount(text string) (Count, error) {
	v, _, err := kinds[kindCount].Parse(text)
	return Count(v), err
}

// In returns x as a number in unit u: x.In(Million).
func (x Count) In(u Count) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Count) String() string { return kinds[kindCount].text(float64(x)) }

// MarshalText returns the text of [Count.String]; an x that is not finite is an error.
func (x Count) MarshalText() ([]byte, error) { return kinds[kindCount].marshal(float64(x)) }

// UnmarshalText reads what [ParseCount] reads; an error leaves x unchanged.
func (x *Count) UnmarshalText(text []byte) error {
	return kinds[kindCount].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1, or text with a unit.
func (x *Count) Scan(src any) error { return kinds[kindCount].scan(src, (*float64)(x)) }

// Value returns the number in 1 for a database; an x that is not finite is an error.
func (x Count) Value() (driver.Value, error) { return kinds[kindCount].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Count) Kind() *Kind { return &kinds[kindCount] }

// Number returns a pointer to the number of x, in 1.
func (x *Count) Number() *float64 { return (*float64)(x) }

// Ratio is a pure number, such as a draw or a slope.
// Its canonical unit is 1.
type Ratio float64

// ParseRatio reads a number and a unit, such as "12". The error is a
// [NumberError] or a [UnitError].
func ParseRatio(text string) (Ratio, error) {
	v, _, err := kinds[kindRatio].Parse(text)
	return Ratio(v), err
}

// In returns x as a number in unit u.
func (x Ratio) In(u Ratio) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Ratio) String() string { return kinds[kindRatio].text(float64(x)) }

// MarshalText returns the text of [Ratio.String]; an x that is not finite is an error.
func (x Ratio) MarshalText() ([]byte, error) { return kinds[kindRatio].marshal(float64(x)) }

// UnmarshalText reads what [ParseRatio] reads; an error leaves x unchanged.
func (x *Ratio) UnmarshalText(text []byte) error {
	return kinds[kindRatio].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1, or text with a unit.
func (x *Ratio) Scan(src any) error { return kinds[kindRatio].scan(src, (*float64)(x)) }

// Value returns the number in 1 for a database; an x that is not finite is an error.
func (x Ratio) Value() (driver.Value, error) { return kinds[kindRatio].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Ratio) Kind() *Kind { return &kinds[kindRatio] }

// Number returns a pointer to the number of x, in 1.
func (x *Ratio) Number() *float64 { return (*float64)(x) }

// Fraction is a part of a whole, or a relative change; 4 % is 0.04.
// Its canonical unit is 1.
type Fraction float64

// Units of fraction, in 1.
const (
	SquareMillimetrePerSquareMetre Fraction = 1.0 / 1000000 // mm2/m2
	MetrePer100Metre               Fraction = 1.0 / 100     // m/100m
)

// ParseFraction reads a number and a unit, such as "12 %". The error is a
// [NumberError] or a [UnitError].
func ParseFraction(text string) (Fraction, error) {
	v, _, err := kinds[kindFraction].Parse(text)
	return Fraction(v), err
}

// In returns x as a number in unit u: x.In(SquareMillimetrePerSquareMetre).
func (x Fraction) In(u Fraction) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Fraction) String() string { return kinds[kindFraction].text(float64(x)) }

// MarshalText returns the text of [Fraction.String]; an x that is not finite is an error.
func (x Fraction) MarshalText() ([]byte, error) { return kinds[kindFraction].marshal(float64(x)) }

// UnmarshalText reads what [ParseFraction] reads; an error leaves x unchanged.
func (x *Fraction) UnmarshalText(text []byte) error {
	return kinds[kindFraction].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1, or text with a unit.
func (x *Fraction) Scan(src any) error { return kinds[kindFraction].scan(src, (*float64)(x)) }

// Value returns the number in 1 for a database; an x that is not finite is an error.
func (x Fraction) Value() (driver.Value, error) { return kinds[kindFraction].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Fraction) Kind() *Kind { return &kinds[kindFraction] }

// Number returns a pointer to the number of x, in 1.
func (x *Fraction) Number() *float64 { return (*float64)(x) }

// Consistency is the filtered solids over the mass of the stock; 4 % is 0.04.
// Its canonical unit is 1, its natural range 0 to 1.
type Consistency float64

// ParseConsistency reads a number and a unit, such as "12 %". The error is a
// [NumberError] or a [UnitError].
func ParseConsistency(text string) (Consistency, error) {
	v, _, err := kinds[kindConsistency].Parse(text)
	return Consistency(v), err
}

// In returns x as a number in unit u: x.In(Percent).
func (x Consistency) In(u Consistency) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Consistency) String() string { return kinds[kindConsistency].text(float64(x)) }

// MarshalText returns the text of [Consistency.String]; an x that is not finite is an error.
func (x Consistency) MarshalText() ([]byte, error) { return kinds[kindConsistency].marshal(float64(x)) }

// UnmarshalText reads what [ParseConsistency] reads; an error leaves x unchanged.
func (x *Consistency) UnmarshalText(text []byte) error {
	return kinds[kindConsistency].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1, or text with a unit.
func (x *Consistency) Scan(src any) error { return kinds[kindConsistency].scan(src, (*float64)(x)) }

// Value returns the number in 1 for a database; an x that is not finite is an error.
func (x Consistency) Value() (driver.Value, error) { return kinds[kindConsistency].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Consistency) Kind() *Kind { return &kinds[kindConsistency] }

// Number returns a pointer to the number of x, in 1.
func (x *Consistency) Number() *float64 { return (*float64)(x) }

// DryContent is mass without water over moist mass; 92 % is 0.92.
// Its canonical unit is 1, its natural range 0 to 1.
type DryContent float64

// ParseDryContent reads a number and a unit, such as "12 %". The error is a
// [NumberError] or a [UnitError].
func ParseDryContent(text string) (DryContent, error) {
	v, _, err := kinds[kindDryContent].Parse(text)
	return DryContent(v), err
}

// In returns x as a number in unit u: x.In(Percent).
func (x DryContent) In(u DryContent) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x DryContent) String() string { return kinds[kindDryContent].text(float64(x)) }

// MarshalText returns the text of [DryContent.String]; an x that is not finite is an error.
func (x DryContent) MarshalText() ([]byte, error) { return kinds[kindDryContent].marshal(float64(x)) }

// UnmarshalText reads what [ParseDryContent] reads; an error leaves x unchanged.
func (x *DryContent) UnmarshalText(text []byte) error {
	return kinds[kindDryContent].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1, or text with a unit.
func (x *DryContent) Scan(src any) error { return kinds[kindDryContent].scan(src, (*float64)(x)) }

// Value returns the number in 1 for a database; an x that is not finite is an error.
func (x DryContent) Value() (driver.Value, error) { return kinds[kindDryContent].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (DryContent) Kind() *Kind { return &kinds[kindDryContent] }

// Number returns a pointer to the number of x, in 1.
func (x *DryContent) Number() *float64 { return (*float64)(x) }

// Moisture is water over moist mass; 8 % is 0.08.
// Its canonical unit is 1, its natural range 0 to 1.
type Moisture float64

// ParseMoisture reads a number and a unit, such as "12 %". The error is a
// [NumberError] or a [UnitError].
func ParseMoisture(text string) (Moisture, error) {
	v, _, err := kinds[kindMoisture].Parse(text)
	return Moisture(v), err
}

// In returns x as a number in unit u: x.In(Percent).
func (x Moisture) In(u Moisture) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Moisture) String() string { return kinds[kindMoisture].text(float64(x)) }

// MarshalText returns the text of [Moisture.String]; an x that is not finite is an error.
func (x Moisture) MarshalText() ([]byte, error) { return kinds[kindMoisture].marshal(float64(x)) }

// UnmarshalText reads what [ParseMoisture] reads; an error leaves x unchanged.
func (x *Moisture) UnmarshalText(text []byte) error {
	return kinds[kindMoisture].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1, or text with a unit.
func (x *Moisture) Scan(src any) error { return kinds[kindMoisture].scan(src, (*float64)(x)) }

// Value returns the number in 1 for a database; an x that is not finite is an error.
func (x Moisture) Value() (driver.Value, error) { return kinds[kindMoisture].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Moisture) Kind() *Kind { return &kinds[kindMoisture] }

// Number returns a pointer to the number of x, in 1.
func (x *Moisture) Number() *float64 { return (*float64)(x) }

// MassRatio is mass of one thing over mass of another, such as steam per water.
// Its canonical unit is kg/kg.
type MassRatio float64

// Units of mass ratio, in kg/kg.
const (
	KilogramPerKilogram MassRatio = 1 // kg/kg
)

// ParseMassRatio reads a number and a unit, such as "12 kg/kg". The error is a
// [NumberError] or a [UnitError].
func ParseMassRatio(text string) (MassRatio, error) {
	v, _, err := kinds[kindMassRatio].Parse(text)
	return MassRatio(v), err
}

// In returns x as a number in unit u: x.In(KilogramPerKilogram).
func (x MassRatio) In(u MassRatio) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x MassRatio) String() string { return kinds[kindMassRatio].text(float64(x)) }

// MarshalText returns the text of [MassRatio.String]; an x that is not finite is an error.
func (x MassRatio) MarshalText() ([]byte, error) { return kinds[kindMassRatio].marshal(float64(x)) }

// UnmarshalText reads what [ParseMassRatio] reads; an error leaves x unchanged.
func (x *MassRatio) UnmarshalText(text []byte) error {
	return kinds[kindMassRatio].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg/kg, or text with a unit.
func (x *MassRatio) Scan(src any) error { return kinds[kindMassRatio].scan(src, (*float64)(x)) }

// Value returns the number in kg/kg for a database; an x that is not finite is an error.
func (x MassRatio) Value() (driver.Value, error) { return kinds[kindMassRatio].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (MassRatio) Kind() *Kind { return &kinds[kindMassRatio] }

// Number returns a pointer to the number of x, in kg/kg.
func (x *MassRatio) Number() *float64 { return (*float64)(x) }

// MoistureRatio is water over dry mass; in a wet web it exceeds 1.
// Its canonical unit is kg/kg, its natural range 0 kg/kg and above.
type MoistureRatio float64

// Units of moisture ratio, in kg/kg.
const (
	WaterPerDry MoistureRatio = 1 // kg/kg
)

// ParseMoistureRatio reads a number and a unit, such as "12 kg/kg". The error is a
// [NumberError] or a [UnitError].
func ParseMoistureRatio(text string) (MoistureRatio, error) {
	v, _, err := kinds[kindMoistureRatio].Parse(text)
	return MoistureRatio(v), err
}

// In returns x as a number in unit u: x.In(WaterPerDry).
func (x MoistureRatio) In(u MoistureRatio) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x MoistureRatio) String() string { return kinds[kindMoistureRatio].text(float64(x)) }

// MarshalText returns the text of [MoistureRatio.String]; an x that is not finite is an error.
func (x MoistureRatio) MarshalText() ([]byte, error) {
	return kinds[kindMoistureRatio].marshal(float64(x))
}

// UnmarshalText reads what [ParseMoistureRatio] reads; an error leaves x unchanged.
func (x *MoistureRatio) UnmarshalText(text []byte) error {
	return kinds[kindMoistureRatio].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg/kg, or text with a unit.
func (x *MoistureRatio) Scan(src any) error { return kinds[kindMoistureRatio].scan(src, (*float64)(x)) }

// Value returns the number in kg/kg for a database; an x that is not finite is an error.
func (x MoistureRatio) Value() (driver.Value, error) {
	return kinds[kindMoistureRatio].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (MoistureRatio) Kind() *Kind { return &kinds[kindMoistureRatio] }

// Number returns a pointer to the number of x, in kg/kg.
func (x *MoistureRatio) Number() *float64 { return (*float64)(x) }

// HumidityRatio is mass of water vapour over mass of dry air.
// Its canonical unit is kg/kg, its natural range 0 kg/kg and above.
type HumidityRatio float64

// Units of humidity ratio, in kg/kg.
const (
	WaterPerDryAir HumidityRatio = 1 // kg/kg
)

// ParseHumidityRatio reads a number and a unit, such as "12 kg/kg". The error is a
// [NumberError] or a [UnitError].
func ParseHumidityRatio(text string) (HumidityRatio, error) {
	v, _, err := kinds[kindHumidityRatio].Parse(text)
	return HumidityRatio(v), err
}

// In returns x as a number in unit u: x.In(WaterPerDryAir).
func (x HumidityRatio) In(u HumidityRatio) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x HumidityRatio) String() string { return kinds[kindHumidityRatio].text(float64(x)) }

// MarshalText returns the text of [HumidityRatio.String]; an x that is not finite is an error.
func (x HumidityRatio) MarshalText() ([]byte, error) {
	return kinds[kindHumidityRatio].marshal(float64(x))
}

// UnmarshalText reads what [ParseHumidityRatio] reads; an error leaves x unchanged.
func (x *HumidityRatio) UnmarshalText(text []byte) error {
	return kinds[kindHumidityRatio].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg/kg, or text with a unit.
func (x *HumidityRatio) Scan(src any) error { return kinds[kindHumidityRatio].scan(src, (*float64)(x)) }

// Value returns the number in kg/kg for a database; an x that is not finite is an error.
func (x HumidityRatio) Value() (driver.Value, error) {
	return kinds[kindHumidityRatio].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (HumidityRatio) Kind() *Kind { return &kinds[kindHumidityRatio] }

// Number returns a pointer to the number of x, in kg/kg.
func (x *HumidityRatio) Number() *float64 { return (*float64)(x) }

// Dosage is mass added over the mass it is added to; the basis is stated with the input.
// Its canonical unit is kg/t, its natural range 0 kg/t and above.
type Dosage float64

// Units of dosage, in kg/t.
const (
	KilogramPerTonne          Dosage = 1          // kg/t
	DosagePercent             Dosage = 10         // %
	GramPerTonne              Dosage = 1.0 / 1000 // g/t
	DosageKilogramPerKilogram Dosage = 1000       // kg/kg
	PoundPerShortTon          Dosage = 1.0 / 2    // lb/short ton
)

// ParseDosage reads a number and a unit, such as "12 kg/t". The error is a
// [NumberError] or a [UnitError].
func ParseDosage(text string) (Dosage, error) {
	v, _, err := kinds[kindDosage].Parse(text)
	return Dosage(v), err
}

// In returns x as a number in unit u: x.In(KilogramPerTonne).
func (x Dosage) In(u Dosage) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Dosage) String() string { return kinds[kindDosage].text(float64(x)) }

// MarshalText returns the text of [Dosage.String]; an x that is not finite is an error.
func (x Dosage) MarshalText() ([]byte, error) { return kinds[kindDosage].marshal(float64(x)) }

// UnmarshalText reads what [ParseDosage] reads; an error leaves x unchanged.
func (x *Dosage) UnmarshalText(text []byte) error {
	return kinds[kindDosage].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg/t, or text with a unit.
func (x *Dosage) Scan(src any) error { return kinds[kindDosage].scan(src, (*float64)(x)) }

// Value returns the number in kg/t for a database; an x that is not finite is an error.
func (x Dosage) Value() (driver.Value, error) { return kinds[kindDosage].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Dosage) Kind() *Kind { return &kinds[kindDosage] }

// Number returns a pointer to the number of x, in kg/t.
func (x *Dosage) Number() *float64 { return (*float64)(x) }

// Area is an area.
// Its canonical unit is m2, its natural range 0 m2 and above.
type Area float64

// Units of area, in m2.
const (
	SquareMetre        Area = 1                   // m2
	SquareMillimetre   Area = 1.0 / 1000000       // mm2
	SquareCentimetre   Area = 1.0 / 10000         // cm2
	SquareDecimetre    Area = 1.0 / 100           // dm2
	SquareInch         Area = 16129.0 / 25000000  // in2
	SquareFoot         Area = 145161.0 / 1562500  // ft2
	SquareYard         Area = 1306449.0 / 1562500 // yd2
	ThousandSquareFoot Area = 290322.0 / 3125     // 1000ft2
)

// ParseArea reads a number and a unit, such as "12 m2". The error is a
// [NumberError] or a [UnitError].
func ParseArea(text string) (Area, error) {
	v, _, err := kinds[kindArea].Parse(text)
	return Area(v), err
}

// In returns x as a number in unit u: x.In(SquareMetre).
func (x Area) In(u Area) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Area) String() string { return kinds[kindArea].text(float64(x)) }

// MarshalText returns the text of [Area.String]; an x that is not finite is an error.
func (x Area) MarshalText() ([]byte, error) { return kinds[kindArea].marshal(float64(x)) }

// UnmarshalText reads what [ParseArea] reads; an error leaves x unchanged.
func (x *Area) UnmarshalText(text []byte) error {
	return kinds[kindArea].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m2, or text with a unit.
func (x *Area) Scan(src any) error { return kinds[kindArea].scan(src, (*float64)(x)) }

// Value returns the number in m2 for a database; an x that is not finite is an error.
func (x Area) Value() (driver.Value, error) { return kinds[kindArea].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Area) Kind() *Kind { return &kinds[kindArea] }

// Number returns a pointer to the number of x, in m2.
func (x *Area) Number() *float64 { return (*float64)(x) }

// Volume is a volume.
// Its canonical unit is m3, its natural range 0 m3 and above.
type Volume float64

// Units of volume, in m3.
const (
	CubicMetre     Volume = 1                          // m3
	Litre          Volume = 1.0 / 1000                 // L
	Millilitre     Volume = 1.0 / 1000000              // mL
	USGallon       Volume = 473176473.0 / 125000000000 // US gal
	ImperialGallon Volume = 454609.0 / 100000000       // imp gal
	CubicFoot      Volume = 55306341.0 / 1953125000    // ft3
	CubicInch      Volume = 2048383.0 / 125000000000   // in3
)

// ParseVolume reads a number and a unit, such as "12 m3". The error is a
// [NumberError] or a [UnitError].
func ParseVolume(text string) (Volume, error) {
	v, _, err := kinds[kindVolume].Parse(text)
	return Volume(v), err
}

// In returns x as a number in unit u: x.In(CubicMetre).
func (x Volume) In(u Volume) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Volume) String() string { return kinds[kindVolume].text(float64(x)) }

// MarshalText returns the text of [Volume.String]; an x that is not finite is an error.
func (x Volume) MarshalText() ([]byte, error) { return kinds[kindVolume].marshal(float64(x)) }

// UnmarshalText reads what [ParseVolume] reads; an error leaves x unchanged.
func (x *Volume) UnmarshalText(text []byte) error {
	return kinds[kindVolume].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m3, or text with a unit.
func (x *Volume) Scan(src any) error { return kinds[kindVolume].scan(src, (*float64)(x)) }

// Value returns the number in m3 for a database; an x that is not finite is an error.
func (x Volume) Value() (driver.Value, error) { return kinds[kindVolume].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Volume) Kind() *Kind { return &kinds[kindVolume] }

// Number returns a pointer to the number of x, in m3.
func (x *Volume) Number() *float64 { return (*float64)(x) }

// AreaFlow is area per time.
// Its canonical unit is m2/h, its natural range 0 m2/h and above.
type AreaFlow float64

// Units of area flow, in m2/h.
const (
	SquareMetrePerHour AreaFlow = 1 // m2/h
)

// ParseAreaFlow reads a number and a unit, such as "12 m2/h". The error is a
// [NumberError] or a [UnitError].
func ParseAreaFlow(text string) (AreaFlow, error) {
	v, _, err := kinds[kindAreaFlow].Parse(text)
	return AreaFlow(v), err
}

// In returns x as a number in unit u: x.In(SquareMetrePerHour).
func (x AreaFlow) In(u AreaFlow) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AreaFlow) String() string { return kinds[kindAreaFlow].text(float64(x)) }

// MarshalText returns the text of [AreaFlow.String]; an x that is not finite is an error.
func (x AreaFlow) MarshalText() ([]byte, error) { return kinds[kindAreaFlow].marshal(float64(x)) }

// UnmarshalText reads what [ParseAreaFlow] reads; an error leaves x unchanged.
func (x *AreaFlow) UnmarshalText(text []byte) error {
	return kinds[kindAreaFlow].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m2/h, or text with a unit.
func (x *AreaFlow) Scan(src any) error { return kinds[kindAreaFlow].scan(src, (*float64)(x)) }

// Value returns the number in m2/h for a database; an x that is not finite is an error.
func (x AreaFlow) Value() (driver.Value, error) { return kinds[kindAreaFlow].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (AreaFlow) Kind() *Kind { return &kinds[kindAreaFlow] }

// Number returns a pointer to the number of x, in m2/h.
func (x *AreaFlow) Number() *float64 { return (*float64)(x) }

// Speed is length per time.
// Its canonical unit is m/min, its natural range 0 m/min and above.
type Speed float64

// Units of speed, in m/min.
const (
	MetrePerMinute     Speed = 1            // m/min
	MetrePerSecond     Speed = 60           // m/s
	FootPerMinute      Speed = 381.0 / 1250 // ft/min
	FootPerSecond      Speed = 2286.0 / 125 // ft/s
	KilometrePerSecond Speed = 60000        // km/s
)

// ParseSpeed reads a number and a unit, such as "12 m/min". The error is a
// [NumberError] or a [UnitError].
func ParseSpeed(text string) (Speed, error) {
	v, _, err := kinds[kindSpeed].Parse(text)
	return Speed(v), err
}

// In returns x as a number in unit u: x.In(MetrePerMinute).
func (x Speed) In(u Speed) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Speed) String() string { return kinds[kindSpeed].text(float64(x)) }

// MarshalText returns the text of [Speed.String]; an x that is not finite is an error.
func (x Speed) MarshalText() ([]byte, error) { return kinds[kindSpeed].marshal(float64(x)) }

// UnmarshalText reads what [ParseSpeed] reads; an error leaves x unchanged.
func (x *Speed) UnmarshalText(text []byte) error {
	return kinds[kindSpeed].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m/min, or text with a unit.
func (x *Speed) Scan(src any) error { return kinds[kindSpeed].scan(src, (*float64)(x)) }

// Value returns the number in m/min for a database; an x that is not finite is an error.
func (x Speed) Value() (driver.Value, error) { return kinds[kindSpeed].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Speed) Kind() *Kind { return &kinds[kindSpeed] }

// Number returns a pointer to the number of x, in m/min.
func (x *Speed) Number() *float64 { return (*float64)(x) }

// Acceleration is speed per time.
// Its canonical unit is m/s2.
type Acceleration float64

// Units of acceleration, in m/s2.
const (
	MetrePerSquareSecond Acceleration = 1                // m/s2
	FootPerSquareSecond  Acceleration = 381.0 / 1250     // ft/s2
	StandardGravity      Acceleration = 196133.0 / 20000 // g_n
)

// ParseAcceleration reads a number and a unit, such as "12 m/s2". The error is a
// [NumberError] or a [UnitError].
func ParseAcceleration(text string) (Acceleration, error) {
	v, _, err := kinds[kindAcceleration].Parse(text)
	return Acceleration(v), err
}

// In returns x as a number in unit u: x.In(MetrePerSquareSecond).
func (x Acceleration) In(u Acceleration) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Acceleration) String() string { return kinds[kindAcceleration].text(float64(x)) }

// MarshalText returns the text of [Acceleration.String]; an x that is not finite is an error.
func (x Acceleration) MarshalText() ([]byte, error) {
	return kinds[kindAcceleration].marshal(float64(x))
}

// UnmarshalText reads what [ParseAcceleration] reads; an error leaves x unchanged.
func (x *Acceleration) UnmarshalText(text []byte) error {
	return kinds[kindAcceleration].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m/s2, or text with a unit.
func (x *Acceleration) Scan(src any) error { return kinds[kindAcceleration].scan(src, (*float64)(x)) }

// Value returns the number in m/s2 for a database; an x that is not finite is an error.
func (x Acceleration) Value() (driver.Value, error) { return kinds[kindAcceleration].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Acceleration) Kind() *Kind { return &kinds[kindAcceleration] }

// Number returns a pointer to the number of x, in m/s2.
func (x *Acceleration) Number() *float64 { return (*float64)(x) }

// Frequency is turns or events per time.
// Its canonical unit is 1/min, its natural range 0 1/min and above.
type Frequency float64

// Units of frequency, in 1/min.
const (
	PerMinute Frequency = 1  // 1/min
	Hertz     Frequency = 60 // Hz
)

// ParseFrequency reads a number and a unit, such as "12 1/min". The error is a
// [NumberError] or a [UnitError].
func ParseFrequency(text string) (Frequency, error) {
	v, _, err := kinds[kindFrequency].Parse(text)
	return Frequency(v), err
}

// In returns x as a number in unit u: x.In(PerMinute).
func (x Frequency) In(u Frequency) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Frequency) String() string { return kinds[kindFrequency].text(float64(x)) }

// MarshalText returns the text of [Frequency.String]; an x that is not finite is an error.
func (x Frequency) MarshalText() ([]byte, error) { return kinds[kindFrequency].marshal(float64(x)) }

// UnmarshalText reads what [ParseFrequency] reads; an error leaves x unchanged.
func (x *Frequency) UnmarshalText(text []byte) error {
	return kinds[kindFrequency].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1/min, or text with a unit.
func (x *Frequency) Scan(src any) error { return kinds[kindFrequency].scan(src, (*float64)(x)) }

// Value returns the number in 1/min for a database; an x that is not finite is an error.
func (x Frequency) Value() (driver.Value, error) { return kinds[kindFrequency].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Frequency) Kind() *Kind { return &kinds[kindFrequency] }

// Number returns a pointer to the number of x, in 1/min.
func (x *Frequency) Number() *float64 { return (*float64)(x) }

// MassFlow is mass per time, water included.
// Its canonical unit is t/h, its natural range 0 t/h and above.
type MassFlow float64

// Units of mass flow, in t/h.
const (
	TonnePerHour      MassFlow = 1                         // t/h
	KilogramPerHour   MassFlow = 1.0 / 1000                // kg/h
	KilogramPerSecond MassFlow = 18.0 / 5                  // kg/s
	TonnePerDay       MassFlow = 1.0 / 24                  // t/d
	PoundPerHour      MassFlow = 45359237.0 / 100000000000 // lb/h
	ShortTonPerHour   MassFlow = 45359237.0 / 50000000     // short ton/h
	ShortTonPerDay    MassFlow = 45359237.0 / 1200000000   // short ton/d
)

// ParseMassFlow reads a number and a unit, such as "12 t/h". The error is a
// [NumberError] or a [UnitError].
func ParseMassFlow(text string) (MassFlow, error) {
	v, _, err := kinds[kindMassFlow].Parse(text)
	return MassFlow(v), err
}

// In returns x as a number in unit u: x.In(TonnePerHour).
func (x MassFlow) In(u MassFlow) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x MassFlow) String() string { return kinds[kindMassFlow].text(float64(x)) }

// MarshalText returns the text of [MassFlow.String]; an x that is not finite is an error.
func (x MassFlow) MarshalText() ([]byte, error) { return kinds[kindMassFlow].marshal(float64(x)) }

// UnmarshalText reads what [ParseMassFlow] reads; an error leaves x unchanged.
func (x *MassFlow) UnmarshalText(text []byte) error {
	return kinds[kindMassFlow].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in t/h, or text with a unit.
func (x *MassFlow) Scan(src any) error { return kinds[kindMassFlow].scan(src, (*float64)(x)) }

// Value returns the number in t/h for a database; an x that is not finite is an error.
func (x MassFlow) Value() (driver.Value, error) { return kinds[kindMassFlow].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (MassFlow) Kind() *Kind { return &kinds[kindMassFlow] }

// Number returns a pointer to the number of x, in t/h.
func (x *MassFlow) Number() *float64 { return (*float64)(x) }

// OvenDryFlow is oven-dry mass per time.
// Its canonical unit is t/h, its natural range 0 t/h and above.
type OvenDryFlow float64

// Units of oven-dry flow, in t/h.
const (
	DryTonnePerHour      OvenDryFlow = 1          // t/h
	DryTonnePerDay       OvenDryFlow = 1.0 / 24   // t/d
	DryKilogramPerHour   OvenDryFlow = 1.0 / 1000 // kg/h
	DryKilogramPerSecond OvenDryFlow = 18.0 / 5   // kg/s
)

// ParseOvenDryFlow reads a number and a unit, such as "12 t/h". The error is a
// [NumberError] or a [UnitError].
func ParseOvenDryFlow(text string) (OvenDryFlow, error) {
	v, _, err := kinds[kindOvenDryFlow].Parse(text)
	return OvenDryFlow(v), err
}

// In returns x as a number in unit u: x.In(DryTonnePerHour).
func (x OvenDryFlow) In(u OvenDryFlow) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x OvenDryFlow) String() string { return kinds[kindOvenDryFlow].text(float64(x)) }

// MarshalText returns the text of [OvenDryFlow.String]; an x that is not finite is an error.
func (x OvenDryFlow) MarshalText() ([]byte, error) { return kinds[kindOvenDryFlow].marshal(float64(x)) }

// UnmarshalText reads what [ParseOvenDryFlow] reads; an error leaves x unchanged.
func (x *OvenDryFlow) UnmarshalText(text []byte) error {
	return kinds[kindOvenDryFlow].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in t/h, or text with a unit.
func (x *OvenDryFlow) Scan(src any) error { return kinds[kindOvenDryFlow].scan(src, (*float64)(x)) }

// Value returns the number in t/h for a database; an x that is not finite is an error.
func (x OvenDryFlow) Value() (driver.Value, error) { return kinds[kindOvenDryFlow].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (OvenDryFlow) Kind() *Kind { return &kinds[kindOvenDryFlow] }

// Number returns a pointer to the number of x, in t/h.
func (x *OvenDryFlow) Number() *float64 { return (*float64)(x) }

// DryAirFlow is mass of dry air per time.
// Its canonical unit is t/h, its natural range 0 t/h and above.
type DryAirFlow float64

// Units of dry air flow, in t/h.
const (
	DryAirTonnePerHour      DryAirFlow = 1          // t/h
	DryAirKilogramPerHour   DryAirFlow = 1.0 / 1000 // kg/h
	DryAirKilogramPerSecond DryAirFlow = 18.0 / 5   // kg/s
)

// ParseDryAirFlow reads a number and a unit, such as "12 t/h". The error is a
// [NumberError] or a [UnitError].
func ParseDryAirFlow(text string) (DryAirFlow, error) {
	v, _, err := kinds[kindDryAirFlow].Parse(text)
	return DryAirFlow(v), err
}

// In returns x as a number in unit u: x.In(DryAirTonnePerHour).
func (x DryAirFlow) In(u DryAirFlow) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x DryAirFlow) String() string { return kinds[kindDryAirFlow].text(float64(x)) }

// MarshalText returns the text of [DryAirFlow.String]; an x that is not finite is an error.
func (x DryAirFlow) MarshalText() ([]byte, error) { return kinds[kindDryAirFlow].marshal(float64(x)) }

// UnmarshalText reads what [ParseDryAirFlow] reads; an error leaves x unchanged.
func (x *DryAirFlow) UnmarshalText(text []byte) error {
	return kinds[kindDryAirFlow].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in t/h, or text with a unit.
func (x *DryAirFlow) Scan(src any) error { return kinds[kindDryAirFlow].scan(src, (*float64)(x)) }

// Value returns the number in t/h for a database; an x that is not finite is an error.
func (x DryAirFlow) Value() (driver.Value, error) { return kinds[kindDryAirFlow].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (DryAirFlow) Kind() *Kind { return &kinds[kindDryAirFlow] }

// Number returns a pointer to the number of x, in t/h.
func (x *DryAirFlow) Number() *float64 { return (*float64)(x) }

// VolumeFlow is volume per time.
// Its canonical unit is m3/h, its natural range 0 m3/h and above.
type VolumeFlow float64

// Units of volume flow, in m3/h.
const (
	CubicMetrePerHour       VolumeFlow = 1                         // m3/h
	CubicMetrePerDay        VolumeFlow = 1.0 / 24                  // m3/d
	LitrePerSecond          VolumeFlow = 18.0 / 5                  // L/s
	LitrePerMinute          VolumeFlow = 3.0 / 50                  // L/min
	LitrePerHour            VolumeFlow = 1.0 / 1000                // L/h
	MillilitrePerMinute     VolumeFlow = 3.0 / 50000               // mL/min
	USGallonPerMinute       VolumeFlow = 1419529419.0 / 6250000000 // US gal/min
	ImperialGallonPerMinute VolumeFlow = 1363827.0 / 5000000       // imp gal/min
	CubicFootPerMinute      VolumeFlow = 165919023.0 / 97656250    // ft3/min
)

// ParseVolumeFlow reads a number and a unit, such as "12 m3/h". The error is a
// [NumberError] or a [UnitError].
func ParseVolumeFlow(text string) (VolumeFlow, error) {
	v, _, err := kinds[kindVolumeFlow].Parse(text)
	return VolumeFlow(v), err
}

// In returns x as a number in unit u: x.In(CubicMetrePerHour).
func (x VolumeFlow) In(u VolumeFlow) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x VolumeFlow) String() string { return kinds[kindVolumeFlow].text(float64(x)) }

// MarshalText returns the text of [VolumeFlow.String]; an x that is not finite is an error.
func (x VolumeFlow) MarshalText() ([]byte, error) { return kinds[kindVolumeFlow].marshal(float64(x)) }

// UnmarshalText reads what [ParseVolumeFlow] reads; an error leaves x unchanged.
func (x *VolumeFlow) UnmarshalText(text []byte) error {
	return kinds[kindVolumeFlow].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m3/h, or text with a unit.
func (x *VolumeFlow) Scan(src any) error { return kinds[kindVolumeFlow].scan(src, (*float64)(x)) }

// Value returns the number in m3/h for a database; an x that is not finite is an error.
func (x VolumeFlow) Value() (driver.Value, error) { return kinds[kindVolumeFlow].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (VolumeFlow) Kind() *Kind { return &kinds[kindVolumeFlow] }

// Number returns a pointer to the number of x, in m3/h.
func (x *VolumeFlow) Number() *float64 { return (*float64)(x) }

// FlowPerWidth is volume flow per width of machine.
// Its canonical unit is L/(min m), its natural range 0 L/(min m) and above.
type FlowPerWidth float64

// Units of flow per width, in L/(min m).
const (
	LitrePerMinuteMetre         FlowPerWidth = 1                 // L/(min m)
	CubicMetrePerMinuteMetre    FlowPerWidth = 1000              // m3/(min m)
	CubicMetrePerHourCentimetre FlowPerWidth = 5000.0 / 3        // m3/(h cm)
	USGallonPerMinuteInch       FlowPerWidth = 3725799.0 / 25000 // US gal/(min in)
)

// ParseFlowPerWidth reads a number and a unit, such as "12 L/(min m)". The error is a
// [NumberError] or a [UnitError].
func ParseFlowPerWidth(text string) (FlowPerWidth, error) {
	v, _, err := kinds[kindFlowPerWidth].Parse(text)
	return FlowPerWidth(v), err
}

// In returns x as a number in unit u: x.In(LitrePerMinuteMetre).
func (x FlowPerWidth) In(u FlowPerWidth) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x FlowPerWidth) String() string { return kinds[kindFlowPerWidth].text(float64(x)) }

// MarshalText returns the text of [FlowPerWidth.String]; an x that is not finite is an error.
func (x FlowPerWidth) MarshalText() ([]byte, error) {
	return kinds[kindFlowPerWidth].marshal(float64(x))
}

// UnmarshalText reads what [ParseFlowPerWidth] reads; an error leaves x unchanged.
func (x *FlowPerWidth) UnmarshalText(text []byte) error {
	return kinds[kindFlowPerWidth].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in L/(min m), or text with a unit.
func (x *FlowPerWidth) Scan(src any) error { return kinds[kindFlowPerWidth].scan(src, (*float64)(x)) }

// Value returns the number in L/(min m) for a database; an x that is not finite is an error.
func (x FlowPerWidth) Value() (driver.Value, error) { return kinds[kindFlowPerWidth].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (FlowPerWidth) Kind() *Kind { return &kinds[kindFlowPerWidth] }

// Number returns a pointer to the number of x, in L/(min m).
func (x *FlowPerWidth) Number() *float64 { return (*float64)(x) }

// MassFlux is mass flow per area, such as a drying rate.
// Its canonical unit is kg/(h m2), its natural range 0 kg/(h m2) and above.
type MassFlux float64

// Units of mass flux, in kg/(h m2).
const (
	KilogramPerHourSquareMetre MassFlux = 1                    // kg/(h m2)
	PoundPerHourSquareFoot     MassFlux = 45359237.0 / 9290304 // lb/(h ft2)
)

// ParseMassFlux reads a number and a unit, such as "12 kg/(h m2)". The error is a
// [NumberError] or a [UnitError].
func ParseMassFlux(text string) (MassFlux, error) {
	v, _, err := kinds[kindMassFlux].Parse(text)
	return MassFlux(v), err
}

// In returns x as a number in unit u: x.In(KilogramPerHourSquareMetre).
func (x MassFlux) In(u MassFlux) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x MassFlux) String() string { return kinds[kindMassFlux].text(float64(x)) }

// MarshalText returns the text of [MassFlux.String]; an x that is not finite is an error.
func (x MassFlux) MarshalText() ([]byte, error) { return kinds[kindMassFlux].marshal(float64(x)) }

// UnmarshalText reads what [ParseMassFlux] reads; an error leaves x unchanged.
func (x *MassFlux) UnmarshalText(text []byte) error {
	return kinds[kindMassFlux].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg/(h m2), or text with a unit.
func (x *MassFlux) Scan(src any) error { return kinds[kindMassFlux].scan(src, (*float64)(x)) }

// Value returns the number in kg/(h m2) for a database; an x that is not finite is an error.
func (x MassFlux) Value() (driver.Value, error) { return kinds[kindMassFlux].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (MassFlux) Kind() *Kind { return &kinds[kindMassFlux] }

// Number returns a pointer to the number of x, in kg/(h m2).
func (x *MassFlux) Number() *float64 { return (*float64)(x) }

// Grammage is mass per area, at the moisture of the sheet.
// Its canonical unit is g/m2, its natural range 0 g/m2 and above.
type Grammage float64

// Units of grammage, in g/m2.
const (
	GramPerSquareMetre     Grammage = 1                        // g/m2
	PoundPer1000SquareFoot Grammage = 45359237.0 / 9290304     // lb/1000ft2
	PoundPer3000SquareFoot Grammage = 45359237.0 / 27870912    // lb/3000ft2
	PoundPer3300SquareFoot Grammage = 20617835.0 / 13935456    // lb/3300ft2
	PoundPerBookReam       Grammage = 45359237.0 / 30645100    // lb/25x38-500
	PoundPerBondReam       Grammage = 4123567.0 / 1096772      // lb/17x22-500
	PoundPerCoverReam      Grammage = 45359237.0 / 16774160    // lb/20x26-500
	PoundPerBristolReam    Grammage = 90718474.0 / 41370885    // lb/22.5x28.5-500
	PoundPerIndexReam      Grammage = 90718474.0 / 50177319    // lb/25.5x30.5-500
	PoundPerBlottingReam   Grammage = 45359237.0 / 14709648    // lb/19x24-500
	PoundPerBlanksReam     Grammage = 589081.0 / 258064        // lb/22x28-500
	PoundPerTissueReam     Grammage = 1133980925.0 / 668901888 // lb/24x36-480
)

// ParseGrammage reads a number and a unit, such as "12 g/m2". The error is a
// [NumberError] or a [UnitError].
func ParseGrammage(text string) (Grammage, error) {
	v, _, err := kinds[kindGrammage].Parse(text)
	return Grammage(v), err
}

// In returns x as a number in unit u: x.In(GramPerSquareMetre).
func (x Grammage) In(u Grammage) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Grammage) String() string { return kinds[kindGrammage].text(float64(x)) }

// MarshalText returns the text of [Grammage.String]; an x that is not finite is an error.
func (x Grammage) MarshalText() ([]byte, error) { return kinds[kindGrammage].marshal(float64(x)) }

// UnmarshalText reads what [ParseGrammage] reads; an error leaves x unchanged.
func (x *Grammage) UnmarshalText(text []byte) error {
	return kinds[kindGrammage].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in g/m2, or text with a unit.
func (x *Grammage) Scan(src any) error { return kinds[kindGrammage].scan(src, (*float64)(x)) }

// Value returns the number in g/m2 for a database; an x that is not finite is an error.
func (x Grammage) Value() (driver.Value, error) { return kinds[kindGrammage].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Grammage) Kind() *Kind { return &kinds[kindGrammage] }

// Number returns a pointer to the number of x, in g/m2.
func (x *Grammage) Number() *float64 { return (*float64)(x) }

// OvenDryGrammage is oven-dry mass per area.
// Its canonical unit is g/m2, its natural range 0 g/m2 and above.
type OvenDryGrammage float64

// Units of oven-dry grammage, in g/m2.
const (
	DryGramPerSquareMetre OvenDryGrammage = 1 // g/m2
)

// ParseOvenDryGrammage reads a number and a unit, such as "12 g/m2". The error is a
// [NumberError] or a [UnitError].
func ParseOvenDryGrammage(text string) (OvenDryGrammage, error) {
	v, _, err := kinds[kindOvenDryGrammage].Parse(text)
	return OvenDryGrammage(v), err
}

// In returns x as a number in unit u: x.In(DryGramPerSquareMetre).
func (x OvenDryGrammage) In(u OvenDryGrammage) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x OvenDryGrammage) String() string { return kinds[kindOvenDryGrammage].text(float64(x)) }

// MarshalText returns the text of [OvenDryGrammage.String]; an x that is not finite is an error.
func (x OvenDryGrammage) MarshalText() ([]byte, error) {
	return kinds[kindOvenDryGrammage].marshal(float64(x))
}

// UnmarshalText reads what [ParseOvenDryGrammage] reads; an error leaves x unchanged.
func (x *OvenDryGrammage) UnmarshalText(text []byte) error {
	return kinds[kindOvenDryGrammage].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in g/m2, or text with a unit.
func (x *OvenDryGrammage) Scan(src any) error {
	return kinds[kindOvenDryGrammage].scan(src, (*float64)(x))
}

// Value returns the number in g/m2 for a database; an x that is not finite is an error.
func (x OvenDryGrammage) Value() (driver.Value, error) {
	return kinds[kindOvenDryGrammage].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (OvenDryGrammage) Kind() *Kind { return &kinds[kindOvenDryGrammage] }

// Number returns a pointer to the number of x, in g/m2.
func (x *OvenDryGrammage) Number() *float64 { return (*float64)(x) }

// Density is the mass of a body over its own volume.
// Its canonical unit is kg/m3, its natural range 0 kg/m3 and above.
type Density float64

// Units of density, in kg/m3.
const (
	KilogramPerCubicMetre  Density = 1                          // kg/m3
	GramPerCubicCentimetre Density = 1000                       // g/cm3
	PoundPerCubicFoot      Density = 28349523125.0 / 1769802912 // lb/ft3
	PoundPerCubicInch      Density = 56699046250.0 / 2048383    // lb/in3
)

// ParseDensity reads a number and a unit, such as "12 kg/m3". The error is a
// [NumberError] or a [UnitError].
func ParseDensity(text string) (Density, error) {
	v, _, err := kinds[kindDensity].Parse(text)
	return Density(v), err
}

// In returns x as a number in unit u: x.In(KilogramPerCubicMetre).
func (x Density) In(u Density) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Density) String() string { return kinds[kindDensity].text(float64(x)) }

// MarshalText returns the text of [Density.String]; an x that is not finite is an error.
func (x Density) MarshalText() ([]byte, error) { return kinds[kindDensity].marshal(float64(x)) }

// UnmarshalText reads what [ParseDensity] reads; an error leaves x unchanged.
func (x *Density) UnmarshalText(text []byte) error {
	return kinds[kindDensity].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kg/m3, or text with a unit.
func (x *Density) Scan(src any) error { return kinds[kindDensity].scan(src, (*float64)(x)) }

// Value returns the number in kg/m3 for a database; an x that is not finite is an error.
func (x Density) Value() (driver.Value, error) { return kinds[kindDensity].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Density) Kind() *Kind { return &kinds[kindDensity] }

// Number returns a pointer to the number of x, in kg/m3.
func (x *Density) Number() *float64 { return (*float64)(x) }

// Concentration is mass of one thing per volume of another.
// Its canonical unit is g/L, its natural range 0 g/L and above.
type Concentration float64

// Units of concentration, in g/L.
const (
	GramPerLitre                   Concentration = 1                          // g/L
	MilligramPerLitre              Concentration = 1.0 / 1000                 // mg/L
	GramPerMillilitre              Concentration = 1000                       // g/mL
	ConcentrationPoundPerCubicFoot Concentration = 28349523125.0 / 1769802912 // lb/ft3
)

// ParseConcentration reads a number and a unit, such as "12 g/L". The error is a
// [NumberError] or a [UnitError].
func ParseConcentration(text string) (Concentration, error) {
	v, _, err := kinds[kindConcentration].Parse(text)
	return Concentration(v), err
}

// In returns x as a number in unit u: x.In(GramPerLitre).
func (x Concentration) In(u Concentration) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Concentration) String() string { return kinds[kindConcentration].text(float64(x)) }

// MarshalText returns the text of [Concentration.String]; an x that is not finite is an error.
func (x Concentration) MarshalText() ([]byte, error) {
	return kinds[kindConcentration].marshal(float64(x))
}

// UnmarshalText reads what [ParseConcentration] reads; an error leaves x unchanged.
func (x *Concentration) UnmarshalText(text []byte) error {
	return kinds[kindConcentration].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in g/L, or text with a unit.
func (x *Concentration) Scan(src any) error { return kinds[kindConcentration].scan(src, (*float64)(x)) }

// Value returns the number in g/L for a database; an x that is not finite is an error.
func (x Concentration) Value() (driver.Value, error) {
	return kinds[kindConcentration].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (Concentration) Kind() *Kind { return &kinds[kindConcentration] }

// Number returns a pointer to the number of x, in g/L.
func (x *Concentration) Number() *float64 { return (*float64)(x) }

// SpecificVolume is volume per mass, such as bulk.
// Its canonical unit is cm3/g, its natural range 0 cm3/g and above.
type SpecificVolume float64

// Units of specific volume, in cm3/g.
const (
	CubicCentimetrePerGram SpecificVolume = 1                         // cm3/g
	CubicMetrePerKilogram  SpecificVolume = 1000                      // m3/kg
	CubicMetrePerTonne     SpecificVolume = 1                         // m3/t
	DecilitrePerGram       SpecificVolume = 100                       // dL/g
	CubicFootPerPound      SpecificVolume = 14158423296.0 / 226796185 // ft3/lb
)

// ParseSpecificVolume reads a number and a unit, such as "12 cm3/g". The error is a
// [NumberError] or a [UnitError].
func ParseSpecificVolume(text string) (SpecificVolume, error) {
	v, _, err := kinds[kindSpecificVolume].Parse(text)
	return SpecificVolume(v), err
}

// In returns x as a number in unit u: x.In(CubicCentimetrePerGram).
func (x SpecificVolume) In(u SpecificVolume) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x SpecificVolume) String() string { return kinds[kindSpecificVolume].text(float64(x)) }

// MarshalText returns the text of [SpecificVolume.String]; an x that is not finite is an error.
func (x SpecificVolume) MarshalText() ([]byte, error) {
	return kinds[kindSpecificVolume].marshal(float64(x))
}

// UnmarshalText reads what [ParseSpecificVolume] reads; an error leaves x unchanged.
func (x *SpecificVolume) UnmarshalText(text []byte) error {
	return kinds[kindSpecificVolume].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in cm3/g, or text with a unit.
func (x *SpecificVolume) Scan(src any) error {
	return kinds[kindSpecificVolume].scan(src, (*float64)(x))
}

// Value returns the number in cm3/g for a database; an x that is not finite is an error.
func (x SpecificVolume) Value() (driver.Value, error) {
	return kinds[kindSpecificVolume].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (SpecificVolume) Kind() *Kind { return &kinds[kindSpecificVolume] }

// Number returns a pointer to the number of x, in cm3/g.
func (x *SpecificVolume) Number() *float64 { return (*float64)(x) }

// AreaPerMass is area per mass, such as a specific surface.
// Its canonical unit is m2/kg, its natural range 0 m2/kg and above.
type AreaPerMass float64

// Units of area per mass, in m2/kg.
const (
	SquareMetrePerKilogram      AreaPerMass = 1             // m2/kg
	SquareMetrePerTonne         AreaPerMass = 1.0 / 1000    // m2/t
	SquareMillimetrePerKilogram AreaPerMass = 1.0 / 1000000 // mm2/kg
)

// ParseAreaPerMass reads a number and a unit, such as "12 m2/kg". The error is a
// [NumberError] or a [UnitError].
func ParseAreaPerMass(text string) (AreaPerMass, error) {
	v, _, err := kinds[kindAreaPerMass].Parse(text)
	return AreaPerMass(v), err
}

// In returns x as a number in unit u: x.In(SquareMetrePerKilogram).
func (x AreaPerMass) In(u AreaPerMass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AreaPerMass) String() string { return kinds[kindAreaPerMass].text(float64(x)) }

// MarshalText returns the text of [AreaPerMass.String]; an x that is not finite is an error.
func (x AreaPerMass) MarshalText() ([]byte, error) { return kinds[kindAreaPerMass].marshal(float64(x)) }

// UnmarshalText reads what [ParseAreaPerMass] reads; an error leaves x unchanged.
func (x *AreaPerMass) UnmarshalText(text []byte) error {
	return kinds[kindAreaPerMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m2/kg, or text with a unit.
func (x *AreaPerMass) Scan(src any) error { return kinds[kindAreaPerMass].scan(src, (*float64)(x)) }

// Value returns the number in m2/kg for a database; an x that is not finite is an error.
func (x AreaPerMass) Value() (driver.Value, error) { return kinds[kindAreaPerMass].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (AreaPerMass) Kind() *Kind { return &kinds[kindAreaPerMass] }

// Number returns a pointer to the number of x, in m2/kg.
func (x *AreaPerMass) Number() *float64 { return (*float64)(x) }

// OpticalCoefficient is a scattering or absorption coefficient of the sheet.
// Its canonical unit is m2/kg, its natural range 0 m2/kg and above.
type OpticalCoefficient float64

// Units of optical coefficient, in m2/kg.
const (
	OpticalSquareMetrePerKilogram OpticalCoefficient = 1 // m2/kg
)

// ParseOpticalCoefficient reads a number and a unit, such as "12 m2/kg". The error is a
// [NumberError] or a [UnitError].
func ParseOpticalCoefficient(text string) (OpticalCoefficient, error) {
	v, _, err := kinds[kindOpticalCoefficient].Parse(text)
	return OpticalCoefficient(v), err
}

// In returns x as a number in unit u: x.In(OpticalSquareMetrePerKilogram).
func (x OpticalCoefficient) In(u OpticalCoefficient) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x OpticalCoefficient) String() string { return kinds[kindOpticalCoefficient].text(float64(x)) }

// MarshalText returns the text of [OpticalCoefficient.String]; an x that is not finite is an error.
func (x OpticalCoefficient) MarshalText() ([]byte, error) {
	return kinds[kindOpticalCoefficient].marshal(float64(x))
}

// UnmarshalText reads what [ParseOpticalCoefficient] reads; an error leaves x unchanged.
func (x *OpticalCoefficient) UnmarshalText(text []byte) error {
	return kinds[kindOpticalCoefficient].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in m2/kg, or text with a unit.
func (x *OpticalCoefficient) Scan(src any) error {
	return kinds[kindOpticalCoefficient].scan(src, (*float64)(x))
}

// Value returns the number in m2/kg for a database; an x that is not finite is an error.
func (x OpticalCoefficient) Value() (driver.Value, error) {
	return kinds[kindOpticalCoefficient].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (OpticalCoefficient) Kind() *Kind { return &kinds[kindOpticalCoefficient] }

// Number returns a pointer to the number of x, in m2/kg.
func (x *OpticalCoefficient) Number() *float64 { return (*float64)(x) }

// Coarseness is mass of fibre per length of fibre.
// Its canonical unit is mg/m, its natural range 0 mg/m and above.
type Coarseness float64

// Units of coarseness, in mg/m.
const (
	MilligramPerMetre    Coarseness = 1          // mg/m
	MicrogramPerMetre    Coarseness = 1.0 / 1000 // ug/m
	MilligramPer100Metre Coarseness = 1.0 / 100  // mg/100m
)

// ParseCoarseness reads a number and a unit, such as "12 mg/m". The error is a
// [NumberError] or a [UnitError].
func ParseCoarseness(text string) (Coarseness, error) {
	v, _, err := kinds[kindCoarseness].Parse(text)
	return Coarseness(v), err
}

// In returns x as a number in unit u: x.In(MilligramPerMetre).
func (x Coarseness) In(u Coarseness) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Coarseness) String() string { return kinds[kindCoarseness].text(float64(x)) }

// MarshalText returns the text of [Coarseness.String]; an x that is not finite is an error.
func (x Coarseness) MarshalText() ([]byte, error) { return kinds[kindCoarseness].marshal(float64(x)) }

// UnmarshalText reads what [ParseCoarseness] reads; an error leaves x unchanged.
func (x *Coarseness) UnmarshalText(text []byte) error {
	return kinds[kindCoarseness].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mg/m, or text with a unit.
func (x *Coarseness) Scan(src any) error { return kinds[kindCoarseness].scan(src, (*float64)(x)) }

// Value returns the number in mg/m for a database; an x that is not finite is an error.
func (x Coarseness) Value() (driver.Value, error) { return kinds[kindCoarseness].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Coarseness) Kind() *Kind { return &kinds[kindCoarseness] }

// Number returns a pointer to the number of x, in mg/m.
func (x *Coarseness) Number() *float64 { return (*float64)(x) }

// CountPerMass is a number of things per mass.
// Its canonical unit is 1/kg, its natural range 0 1/kg and above.
type CountPerMass float64

// Units of count per mass, in 1/kg.
const (
	PerKilogram    CountPerMass = 1          // 1/kg
	PerGram        CountPerMass = 1000       // 1/g
	PerTonne       CountPerMass = 1.0 / 1000 // 1/t
	MillionPerGram CountPerMass = 1000000000 // million/g
)

// ParseCountPerMass reads a number and a unit, such as "12 1/kg". The error is a
// [NumberError] or a [UnitError].
func ParseCountPerMass(text string) (CountPerMass, error) {
	v, _, err := kinds[kindCountPerMass].Parse(text)
	return CountPerMass(v), err
}

// In returns x as a number in unit u: x.In(PerKilogram).
func (x CountPerMass) In(u CountPerMass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x CountPerMass) String() string { return kinds[kindCountPerMass].text(float64(x)) }

// MarshalText returns the text of [CountPerMass.String]; an x that is not finite is an error.
func (x CountPerMass) MarshalText() ([]byte, error) {
	return kinds[kindCountPerMass].marshal(float64(x))
}

// UnmarshalText reads what [ParseCountPerMass] reads; an error leaves x unchanged.
func (x *CountPerMass) UnmarshalText(text []byte) error {
	return kinds[kindCountPerMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1/kg, or text with a unit.
func (x *CountPerMass) Scan(src any) error { return kinds[kindCountPerMass].scan(src, (*float64)(x)) }

// Value returns the number in 1/kg for a database; an x that is not finite is an error.
func (x CountPerMass) Value() (driver.Value, error) { return kinds[kindCountPerMass].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (CountPerMass) Kind() *Kind { return &kinds[kindCountPerMass] }

// Number returns a pointer to the number of x, in 1/kg.
func (x *CountPerMass) Number() *float64 { return (*float64)(x) }

// CountPerArea is a number of things per area.
// Its canonical unit is 1/m2, its natural range 0 1/m2 and above.
type CountPerArea float64

// Units of count per area, in 1/m2.
const (
	PerSquareMetre CountPerArea = 1                  // 1/m2
	PerSquareFoot  CountPerArea = 1562500.0 / 145161 // 1/ft2
)

// ParseCountPerArea reads a number and a unit, such as "12 1/m2". The error is a
// [NumberError] or a [UnitError].
func ParseCountPerArea(text string) (CountPerArea, error) {
	v, _, err := kinds[kindCountPerArea].Parse(text)
	return CountPerArea(v), err
}

// In returns x as a number in unit u: x.In(PerSquareMetre).
func (x CountPerArea) In(u CountPerArea) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x CountPerArea) String() string { return kinds[kindCountPerArea].text(float64(x)) }

// MarshalText returns the text of [CountPerArea.String]; an x that is not finite is an error.
func (x CountPerArea) MarshalText() ([]byte, error) {
	return kinds[kindCountPerArea].marshal(float64(x))
}

// UnmarshalText reads what [ParseCountPerArea] reads; an error leaves x unchanged.
func (x *CountPerArea) UnmarshalText(text []byte) error {
	return kinds[kindCountPerArea].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1/m2, or text with a unit.
func (x *CountPerArea) Scan(src any) error { return kinds[kindCountPerArea].scan(src, (*float64)(x)) }

// Value returns the number in 1/m2 for a database; an x that is not finite is an error.
func (x CountPerArea) Value() (driver.Value, error) { return kinds[kindCountPerArea].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (CountPerArea) Kind() *Kind { return &kinds[kindCountPerArea] }

// Number returns a pointer to the number of x, in 1/m2.
func (x *CountPerArea) Number() *float64 { return (*float64)(x) }

// AmountConcentration is amount of substance or charge per volume.
// Its canonical unit is mol/L, its natural range 0 mol/L and above.
type AmountConcentration float64

// Units of amount concentration, in mol/L.
const (
	MolePerLitre            AmountConcentration = 1             // mol/L
	MillimolePerLitre       AmountConcentration = 1.0 / 1000    // mmol/L
	MicromolePerLitre       AmountConcentration = 1.0 / 1000000 // umol/L
	EquivalentPerLitre      AmountConcentration = 1             // eq/L
	MilliequivalentPerLitre AmountConcentration = 1.0 / 1000    // meq/L
	MicroequivalentPerLitre AmountConcentration = 1.0 / 1000000 // ueq/L
)

// ParseAmountConcentration reads a number and a unit, such as "12 mol/L". The error is a
// [NumberError] or a [UnitError].
func ParseAmountConcentration(text string) (AmountConcentration, error) {
	v, _, err := kinds[kindAmountConcentration].Parse(text)
	return AmountConcentration(v), err
}

// In returns x as a number in unit u: x.In(MolePerLitre).
func (x AmountConcentration) In(u AmountConcentration) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AmountConcentration) String() string { return kinds[kindAmountConcentration].text(float64(x)) }

// MarshalText returns the text of [AmountConcentration.String]; an x that is not finite is an error.
func (x AmountConcentration) MarshalText() ([]byte, error) {
	return kinds[kindAmountConcentration].marshal(float64(x))
}

// UnmarshalText reads what [ParseAmountConcentration] reads; an error leaves x unchanged.
func (x *AmountConcentration) UnmarshalText(text []byte) error {
	return kinds[kindAmountConcentration].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mol/L, or text with a unit.
func (x *AmountConcentration) Scan(src any) error {
	return kinds[kindAmountConcentration].scan(src, (*float64)(x))
}

// Value returns the number in mol/L for a database; an x that is not finite is an error.
func (x AmountConcentration) Value() (driver.Value, error) {
	return kinds[kindAmountConcentration].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (AmountConcentration) Kind() *Kind { return &kinds[kindAmountConcentration] }

// Number returns a pointer to the number of x, in mol/L.
func (x *AmountConcentration) Number() *float64 { return (*float64)(x) }

// AmountPerMass is amount of substance or charge per mass.
// Its canonical unit is mmol/kg.
type AmountPerMass float64

// Units of amount per mass, in mmol/kg.
const (
	MillimolePerKilogram       AmountPerMass = 1 // mmol/kg
	MilliequivalentPerKilogram AmountPerMass = 1 // meq/kg
)

// ParseAmountPerMass reads a number and a unit, such as "12 mmol/kg". The error is a
// [NumberError] or a [UnitError].
func ParseAmountPerMass(text string) (AmountPerMass, error) {
	v, _, err := kinds[kindAmountPerMass].Parse(text)
	return AmountPerMass(v), err
}

// In returns x as a number in unit u: x.In(MillimolePerKilogram).
func (x AmountPerMass) In(u AmountPerMass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AmountPerMass) String() string { return kinds[kindAmountPerMass].text(float64(x)) }

// MarshalText returns the text of [AmountPerMass.String]; an x that is not finite is an error.
func (x AmountPerMass) MarshalText() ([]byte, error) {
	return kinds[kindAmountPerMass].marshal(float64(x))
}

// UnmarshalText reads what [ParseAmountPerMass] reads; an error leaves x unchanged.
func (x *AmountPerMass) UnmarshalText(text []byte) error {
	return kinds[kindAmountPerMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mmol/kg, or text with a unit.
func (x *AmountPerMass) Scan(src any) error { return kinds[kindAmountPerMass].scan(src, (*float64)(x)) }

// Value returns the number in mmol/kg for a database; an x that is not finite is an error.
func (x AmountPerMass) Value() (driver.Value, error) {
	return kinds[kindAmountPerMass].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (AmountPerMass) Kind() *Kind { return &kinds[kindAmountPerMass] }

// Number returns a pointer to the number of x, in mmol/kg.
func (x *AmountPerMass) Number() *float64 { return (*float64)(x) }

// Price is money per mass; the caller decides the currency, one for all values of a call.
// Its canonical unit is 1/t.
type Price float64

// Units of price, in 1/t.
const (
	MoneyPerTonne    Price = 1                     // 1/t
	MoneyPerShortTon Price = 50000000.0 / 45359237 // 1/short ton
)

// ParsePrice reads a number and a unit, such as "12 1/t". The error is a
// [NumberError] or a [UnitError].
func ParsePrice(text string) (Price, error) {
	v, _, err := kinds[kindPrice].Parse(text)
	return Price(v), err
}

// In returns x as a number in unit u: x.In(MoneyPerTonne).
func (x Price) In(u Price) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Price) String() string { return kinds[kindPrice].text(float64(x)) }

// MarshalText returns the text of [Price.String]; an x that is not finite is an error.
func (x Price) MarshalText() ([]byte, error) { return kinds[kindPrice].marshal(float64(x)) }

// UnmarshalText reads what [ParsePrice] reads; an error leaves x unchanged.
func (x *Price) UnmarshalText(text []byte) error {
	return kinds[kindPrice].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in 1/t, or text with a unit.
func (x *Price) Scan(src any) error { return kinds[kindPrice].scan(src, (*float64)(x)) }

// Value returns the number in 1/t for a database; an x that is not finite is an error.
func (x Price) Value() (driver.Value, error) { return kinds[kindPrice].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Price) Kind() *Kind { return &kinds[kindPrice] }

// Number returns a pointer to the number of x, in 1/t.
func (x *Price) Number() *float64 { return (*float64)(x) }

// ForcePerLength is force per width of strip, or per length of nip.
// Its canonical unit is kN/m, its natural range 0 kN/m and above.
type ForcePerLength float64

// Units of force per length, in kN/m.
const (
	KilonewtonPerMetre           ForcePerLength = 1                                 // kN/m
	NewtonPerMetre               ForcePerLength = 1.0 / 1000                        // N/m
	PoundForcePerInch            ForcePerLength = 8896443230521.0 / 50800000000000  // lbf/in
	PoundForcePer6Inch           ForcePerLength = 8896443230521.0 / 304800000000000 // lbf/6in
	KilogramForcePerCentimetre   ForcePerLength = 196133.0 / 200000                 // kgf/cm
	KilogramForcePerMillimetre   ForcePerLength = 196133.0 / 20000                  // kgf/mm
	KilogramForcePer15Millimetre ForcePerLength = 196133.0 / 300000                 // kgf/15mm
	NewtonPer15Millimetre        ForcePerLength = 1.0 / 15                          // N/15mm
)

// ParseForcePerLength reads a number and a unit, such as "12 kN/m". The error is a
// [NumberError] or a [UnitError].
func ParseForcePerLength(text string) (ForcePerLength, error) {
	v, _, err := kinds[kindForcePerLength].Parse(text)
	return ForcePerLength(v), err
}

// In returns x as a number in unit u: x.In(KilonewtonPerMetre).
func (x ForcePerLength) In(u ForcePerLength) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x ForcePerLength) String() string { return kinds[kindForcePerLength].text(float64(x)) }

// MarshalText returns the text of [ForcePerLength.String]; an x that is not finite is an error.
func (x ForcePerLength) MarshalText() ([]byte, error) {
	return kinds[kindForcePerLength].marshal(float64(x))
}

// UnmarshalText reads what [ParseForcePerLength] reads; an error leaves x unchanged.
func (x *ForcePerLength) UnmarshalText(text []byte) error {
	return kinds[kindForcePerLength].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kN/m, or text with a unit.
func (x *ForcePerLength) Scan(src any) error {
	return kinds[kindForcePerLength].scan(src, (*float64)(x))
}

// Value returns the number in kN/m for a database; an x that is not finite is an error.
func (x ForcePerLength) Value() (driver.Value, error) {
	return kinds[kindForcePerLength].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (ForcePerLength) Kind() *Kind { return &kinds[kindForcePerLength] }

// Number returns a pointer to the number of x, in kN/m.
func (x *ForcePerLength) Number() *float64 { return (*float64)(x) }

// StrengthIndex is strength per width over grammage.
// Its canonical unit is kN.m/kg, its natural range 0 kN.m/kg and above.
type StrengthIndex float64

// Units of strength index, in kN.m/kg.
const (
	KilonewtonMetrePerKilogram StrengthIndex = 1    // kN.m/kg
	KilonewtonMetrePerGram     StrengthIndex = 1000 // kN.m/g
)

// ParseStrengthIndex reads a number and a unit, such as "12 kN.m/kg". The error is a
// [NumberError] or a [UnitError].
func ParseStrengthIndex(text string) (StrengthIndex, error) {
	v, _, err := kinds[kindStrengthIndex].Parse(text)
	return StrengthIndex(v), err
}

// In returns x as a number in unit u: x.In(KilonewtonMetrePerKilogram).
func (x StrengthIndex) In(u StrengthIndex) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x StrengthIndex) String() string { return kinds[kindStrengthIndex].text(float64(x)) }

// MarshalText returns the text of [StrengthIndex.String]; an x that is not finite is an error.
func (x StrengthIndex) MarshalText() ([]byte, error) {
	return kinds[kindStrengthIndex].marshal(float64(x))
}

// UnmarshalText reads what [ParseStrengthIndex] reads; an error leaves x unchanged.
func (x *StrengthIndex) UnmarshalText(text []byte) error {
	return kinds[kindStrengthIndex].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kN.m/kg, or text with a unit.
func (x *StrengthIndex) Scan(src any) error { return kinds[kindStrengthIndex].scan(src, (*float64)(x)) }

// Value returns the number in kN.m/kg for a database; an x that is not finite is an error.
func (x StrengthIndex) Value() (driver.Value, error) {
	return kinds[kindStrengthIndex].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (StrengthIndex) Kind() *Kind { return &kinds[kindStrengthIndex] }

// Number returns a pointer to the number of x, in kN.m/kg.
func (x *StrengthIndex) Number() *float64 { return (*float64)(x) }

// TearIndex is tearing resistance over grammage.
// Its canonical unit is mN.m2/g, its natural range 0 mN.m2/g and above.
type TearIndex float64

// Units of tear index, in mN.m2/g.
const (
	MillinewtonSquareMetrePerGram TearIndex = 1 // mN.m2/g
)

// ParseTearIndex reads a number and a unit, such as "12 mN.m2/g". The error is a
// [NumberError] or a [UnitError].
func ParseTearIndex(text string) (TearIndex, error) {
	v, _, err := kinds[kindTearIndex].Parse(text)
	return TearIndex(v), err
}

// In returns x as a number in unit u: x.In(MillinewtonSquareMetrePerGram).
func (x TearIndex) In(u TearIndex) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x TearIndex) String() string { return kinds[kindTearIndex].text(float64(x)) }

// MarshalText returns the text of [TearIndex.String]; an x that is not finite is an error.
func (x TearIndex) MarshalText() ([]byte, error) { return kinds[kindTearIndex].marshal(float64(x)) }

// UnmarshalText reads what [ParseTearIndex] reads; an error leaves x unchanged.
func (x *TearIndex) UnmarshalText(text []byte) error {
	return kinds[kindTearIndex].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mN.m2/g, or text with a unit.
func (x *TearIndex) Scan(src any) error { return kinds[kindTearIndex].scan(src, (*float64)(x)) }

// Value returns the number in mN.m2/g for a database; an x that is not finite is an error.
func (x TearIndex) Value() (driver.Value, error) { return kinds[kindTearIndex].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (TearIndex) Kind() *Kind { return &kinds[kindTearIndex] }

// Number returns a pointer to the number of x, in mN.m2/g.
func (x *TearIndex) Number() *float64 { return (*float64)(x) }

// TearFactor is the old tear factor, which differs from the tear index.
// Its canonical unit is dm2, its natural range 0 dm2 and above.
type TearFactor float64

// Units of tear factor, in dm2.
const (
	TearFactorSquareDecimetre TearFactor = 1 // dm2
)

// ParseTearFactor reads a number and a unit, such as "12 dm2". The error is a
// [NumberError] or a [UnitError].
func ParseTearFactor(text string) (TearFactor, error) {
	v, _, err := kinds[kindTearFactor].Parse(text)
	return TearFactor(v), err
}

// In returns x as a number in unit u: x.In(TearFactorSquareDecimetre).
func (x TearFactor) In(u TearFactor) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x TearFactor) String() string { return kinds[kindTearFactor].text(float64(x)) }

// MarshalText returns the text of [TearFactor.String]; an x that is not finite is an error.
func (x TearFactor) MarshalText() ([]byte, error) { return kinds[kindTearFactor].marshal(float64(x)) }

// UnmarshalText reads what [ParseTearFactor] reads; an error leaves x unchanged.
func (x *TearFactor) UnmarshalText(text []byte) error {
	return kinds[kindTearFactor].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in dm2, or text with a unit.
func (x *TearFactor) Scan(src any) error { return kinds[kindTearFactor].scan(src, (*float64)(x)) }

// Value returns the number in dm2 for a database; an x that is not finite is an error.
func (x TearFactor) Value() (driver.Value, error) { return kinds[kindTearFactor].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (TearFactor) Kind() *Kind { return &kinds[kindTearFactor] }

// Number returns a pointer to the number of x, in dm2.
func (x *TearFactor) Number() *float64 { return (*float64)(x) }

// BurstIndex is bursting strength over grammage.
// Its canonical unit is kPa.m2/g, its natural range 0 kPa.m2/g and above.
type BurstIndex float64

// Units of burst index, in kPa.m2/g.
const (
	KilopascalSquareMetrePerGram BurstIndex = 1                  // kPa.m2/g
	BurstFactor                  BurstIndex = 196133.0 / 2000000 // (gf/cm2)/(g/m2)
)

// ParseBurstIndex reads a number and a unit, such as "12 kPa.m2/g". The error is a
// [NumberError] or a [UnitError].
func ParseBurstIndex(text string) (BurstIndex, error) {
	v, _, err := kinds[kindBurstIndex].Parse(text)
	return BurstIndex(v), err
}

// In returns x as a number in unit u: x.In(KilopascalSquareMetrePerGram).
func (x BurstIndex) In(u BurstIndex) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x BurstIndex) String() string { return kinds[kindBurstIndex].text(float64(x)) }

// MarshalText returns the text of [BurstIndex.String]; an x that is not finite is an error.
func (x BurstIndex) MarshalText() ([]byte, error) { return kinds[kindBurstIndex].marshal(float64(x)) }

// UnmarshalText reads what [ParseBurstIndex] reads; an error leaves x unchanged.
func (x *BurstIndex) UnmarshalText(text []byte) error {
	return kinds[kindBurstIndex].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kPa.m2/g, or text with a unit.
func (x *BurstIndex) Scan(src any) error { return kinds[kindBurstIndex].scan(src, (*float64)(x)) }

// Value returns the number in kPa.m2/g for a database; an x that is not finite is an error.
func (x BurstIndex) Value() (driver.Value, error) { return kinds[kindBurstIndex].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (BurstIndex) Kind() *Kind { return &kinds[kindBurstIndex] }

// Number returns a pointer to the number of x, in kPa.m2/g.
func (x *BurstIndex) Number() *float64 { return (*float64)(x) }

// PressurePerMass is bursting strength over the basis weight of a named ream.
// Its canonical unit is psi/lb, its natural range 0 psi/lb and above.
type PressurePerMass float64

// Units of pressure per mass, in psi/lb.
const (
	PSIPerPound PressurePerMass = 1 // psi/lb
)

// ParsePressurePerMass reads a number and a unit, such as "12 psi/lb". The error is a
// [NumberError] or a [UnitError].
func ParsePressurePerMass(text string) (PressurePerMass, error) {
	v, _, err := kinds[kindPressurePerMass].Parse(text)
	return PressurePerMass(v), err
}

// In returns x as a number in unit u: x.In(PSIPerPound).
func (x PressurePerMass) In(u PressurePerMass) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x PressurePerMass) String() string { return kinds[kindPressurePerMass].text(float64(x)) }

// MarshalText returns the text of [PressurePerMass.String]; an x that is not finite is an error.
func (x PressurePerMass) MarshalText() ([]byte, error) {
	return kinds[kindPressurePerMass].marshal(float64(x))
}

// UnmarshalText reads what [ParsePressurePerMass] reads; an error leaves x unchanged.
func (x *PressurePerMass) UnmarshalText(text []byte) error {
	return kinds[kindPressurePerMass].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in psi/lb, or text with a unit.
func (x *PressurePerMass) Scan(src any) error {
	return kinds[kindPressurePerMass].scan(src, (*float64)(x))
}

// Value returns the number in psi/lb for a database; an x that is not finite is an error.
func (x PressurePerMass) Value() (driver.Value, error) {
	return kinds[kindPressurePerMass].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (PressurePerMass) Kind() *Kind { return &kinds[kindPressurePerMass] }

// Number returns a pointer to the number of x, in psi/lb.
func (x *PressurePerMass) Number() *float64 { return (*float64)(x) }

// BendingStiffness is bending stiffness per width.
// Its canonical unit is mN.m, its natural range 0 mN.m and above.
type BendingStiffness float64

// Units of bending stiffness, in mN.m.
const (
	MillinewtonMetre BendingStiffness = 1                                   // mN.m
	NewtonMetre      BendingStiffness = 1000                                // N.m
	PoundForceInch   BendingStiffness = 1129848290276167.0 / 10000000000000 // lbf.in
)

// ParseBendingStiffness reads a number and a unit, such as "12 mN.m". The error is a
// [NumberError] or a [UnitError].
func ParseBendingStiffness(text string) (BendingStiffness, error) {
	v, _, err := kinds[kindBendingStiffness].Parse(text)
	return BendingStiffness(v), err
}

// In returns x as a number in unit u: x.In(MillinewtonMetre).
func (x BendingStiffness) In(u BendingStiffness) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x BendingStiffness) String() string { return kinds[kindBendingStiffness].text(float64(x)) }

// MarshalText returns the text of [BendingStiffness.String]; an x that is not finite is an error.
func (x BendingStiffness) MarshalText() ([]byte, error) {
	return kinds[kindBendingStiffness].marshal(float64(x))
}

// UnmarshalText reads what [ParseBendingStiffness] reads; an error leaves x unchanged.
func (x *BendingStiffness) UnmarshalText(text []byte) error {
	return kinds[kindBendingStiffness].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mN.m, or text with a unit.
func (x *BendingStiffness) Scan(src any) error {
	return kinds[kindBendingStiffness].scan(src, (*float64)(x))
}

// Value returns the number in mN.m for a database; an x that is not finite is an error.
func (x BendingStiffness) Value() (driver.Value, error) {
	return kinds[kindBendingStiffness].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (BendingStiffness) Kind() *Kind { return &kinds[kindBendingStiffness] }

// Number returns a pointer to the number of x, in mN.m.
func (x *BendingStiffness) Number() *float64 { return (*float64)(x) }

// Moment is a bending moment.
// Its canonical unit is mN.m, its natural range 0 mN.m and above.
type Moment float64

// Units of moment, in mN.m.
const (
	MomentMillinewtonMetre Moment = 1                                   // mN.m
	MomentNewtonMetre      Moment = 1000                                // N.m
	GramForceCentimetre    Moment = 196133.0 / 2000000                  // gf.cm
	MomentPoundForceInch   Moment = 1129848290276167.0 / 10000000000000 // lbf.in
)

// ParseMoment reads a number and a unit, such as "12 mN.m". The error is a
// [NumberError] or a [UnitError].
func ParseMoment(text string) (Moment, error) {
	v, _, err := kinds[kindMoment].Parse(text)
	return Moment(v), err
}

// In returns x as a number in unit u: x.In(MomentMillinewtonMetre).
func (x Moment) In(u Moment) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Moment) String() string { return kinds[kindMoment].text(float64(x)) }

// MarshalText returns the text of [Moment.String]; an x that is not finite is an error.
func (x Moment) MarshalText() ([]byte, error) { return kinds[kindMoment].marshal(float64(x)) }

// UnmarshalText reads what [ParseMoment] reads; an error leaves x unchanged.
func (x *Moment) UnmarshalText(text []byte) error {
	return kinds[kindMoment].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mN.m, or text with a unit.
func (x *Moment) Scan(src any) error { return kinds[kindMoment].scan(src, (*float64)(x)) }

// Value returns the number in mN.m for a database; an x that is not finite is an error.
func (x Moment) Value() (driver.Value, error) { return kinds[kindMoment].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Moment) Kind() *Kind { return &kinds[kindMoment] }

// Number returns a pointer to the number of x, in mN.m.
func (x *Moment) Number() *float64 { return (*float64)(x) }

// BendingIndex is bending stiffness over grammage cubed.
// Its canonical unit is N.m7/kg3, its natural range 0 N.m7/kg3 and above.
type BendingIndex float64

// Units of bending index, in N.m7/kg3.
const (
	NewtonMetreSeventhPerCubicKilogram BendingIndex = 1 // N.m7/kg3
)

// ParseBendingIndex reads a number and a unit, such as "12 N.m7/kg3". The error is a
// [NumberError] or a [UnitError].
func ParseBendingIndex(text string) (BendingIndex, error) {
	v, _, err := kinds[kindBendingIndex].Parse(text)
	return BendingIndex(v), err
}

// In returns x as a number in unit u: x.In(NewtonMetreSeventhPerCubicKilogram).
func (x BendingIndex) In(u BendingIndex) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x BendingIndex) String() string { return kinds[kindBendingIndex].text(float64(x)) }

// MarshalText returns the text of [BendingIndex.String]; an x that is not finite is an error.
func (x BendingIndex) MarshalText() ([]byte, error) {
	return kinds[kindBendingIndex].marshal(float64(x))
}

// UnmarshalText reads what [ParseBendingIndex] reads; an error leaves x unchanged.
func (x *BendingIndex) UnmarshalText(text []byte) error {
	return kinds[kindBendingIndex].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in N.m7/kg3, or text with a unit.
func (x *BendingIndex) Scan(src any) error { return kinds[kindBendingIndex].scan(src, (*float64)(x)) }

// Value returns the number in N.m7/kg3 for a database; an x that is not finite is an error.
func (x BendingIndex) Value() (driver.Value, error) { return kinds[kindBendingIndex].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (BendingIndex) Kind() *Kind { return &kinds[kindBendingIndex] }

// Number returns a pointer to the number of x, in N.m7/kg3.
func (x *BendingIndex) Number() *float64 { return (*float64)(x) }

// BendingResistanceIndex is bending resistance over grammage cubed.
// Its canonical unit is N.m6/kg3, its natural range 0 N.m6/kg3 and above.
type BendingResistanceIndex float64

// Units of bending resistance index, in N.m6/kg3.
const (
	NewtonMetreSixthPerCubicKilogram BendingResistanceIndex = 1 // N.m6/kg3
)

// ParseBendingResistanceIndex reads a number and a unit, such as "12 N.m6/kg3". The error is a
// [NumberError] or a [UnitError].
func ParseBendingResistanceIndex(text string) (BendingResistanceIndex, error) {
	v, _, err := kinds[kindBendingResistanceIndex].Parse(text)
	return BendingResistanceIndex(v), err
}

// In returns x as a number in unit u: x.In(NewtonMetreSixthPerCubicKilogram).
func (x BendingResistanceIndex) In(u BendingResistanceIndex) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x BendingResistanceIndex) String() string {
	return kinds[kindBendingResistanceIndex].text(float64(x))
}

// MarshalText returns the text of [BendingResistanceIndex.String]; an x that is not finite is an error.
func (x BendingResistanceIndex) MarshalText() ([]byte, error) {
	return kinds[kindBendingResistanceIndex].marshal(float64(x))
}

// UnmarshalText reads what [ParseBendingResistanceIndex] reads; an error leaves x unchanged.
func (x *BendingResistanceIndex) UnmarshalText(text []byte) error {
	return kinds[kindBendingResistanceIndex].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in N.m6/kg3, or text with a unit.
func (x *BendingResistanceIndex) Scan(src any) error {
	return kinds[kindBendingResistanceIndex].scan(src, (*float64)(x))
}

// Value returns the number in N.m6/kg3 for a database; an x that is not finite is an error.
func (x BendingResistanceIndex) Value() (driver.Value, error) {
	return kinds[kindBendingResistanceIndex].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (BendingResistanceIndex) Kind() *Kind { return &kinds[kindBendingResistanceIndex] }

// Number returns a pointer to the number of x, in N.m6/kg3.
func (x *BendingResistanceIndex) Number() *float64 { return (*float64)(x) }

// EdgeLoad is energy per length of crossing bar edges.
// Its canonical unit is J/m, its natural range 0 J/m and above.
type EdgeLoad float64

// Units of edge load, in J/m.
const (
	JoulePerMetre EdgeLoad = 1 // J/m
)

// ParseEdgeLoad reads a number and a unit, such as "12 J/m". The error is a
// [NumberError] or a [UnitError].
func ParseEdgeLoad(text string) (EdgeLoad, error) {
	v, _, err := kinds[kindEdgeLoad].Parse(text)
	return EdgeLoad(v), err
}

// In returns x as a number in unit u: x.In(JoulePerMetre).
func (x EdgeLoad) In(u EdgeLoad) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x EdgeLoad) String() string { return kinds[kindEdgeLoad].text(float64(x)) }

// MarshalText returns the text of [EdgeLoad.String]; an x that is not finite is an error.
func (x EdgeLoad) MarshalText() ([]byte, error) { return kinds[kindEdgeLoad].marshal(float64(x)) }

// UnmarshalText reads what [ParseEdgeLoad] reads; an error leaves x unchanged.
func (x *EdgeLoad) UnmarshalText(text []byte) error {
	return kinds[kindEdgeLoad].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in J/m, or text with a unit.
func (x *EdgeLoad) Scan(src any) error { return kinds[kindEdgeLoad].scan(src, (*float64)(x)) }

// Value returns the number in J/m for a database; an x that is not finite is an error.
func (x EdgeLoad) Value() (driver.Value, error) { return kinds[kindEdgeLoad].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (EdgeLoad) Kind() *Kind { return &kinds[kindEdgeLoad] }

// Number returns a pointer to the number of x, in J/m.
func (x *EdgeLoad) Number() *float64 { return (*float64)(x) }

// Pressure is a stress or a pressure difference.
// Its canonical unit is kPa.
type Pressure float64

// Units of pressure, in kPa.
const (
	Kilopascal                       Pressure = 1                                 // kPa
	Pascal                           Pressure = 1.0 / 1000                        // Pa
	Megapascal                       Pressure = 1000                              // MPa
	Gigapascal                       Pressure = 1000000                           // GPa
	Bar                              Pressure = 100                               // bar
	Millibar                         Pressure = 1.0 / 10                          // mbar
	PSI                              Pressure = 8896443230521.0 / 1290320000000   // psi
	PoundForcePerSquareFoot          Pressure = 8896443230521.0 / 185806080000000 // lbf/ft2
	KilogramForcePerSquareCentimetre Pressure = 196133.0 / 2000                   // kgf/cm2
	Atmosphere                       Pressure = 4053.0 / 40                       // atm
	Torr                             Pressure = 4053.0 / 30400                    // Torr
	MillimetreMercury                Pressure = 26664477483.0 / 200000000000      // mmHg
	InchMercury                      Pressure = 3386388640341.0 / 1000000000000   // inHg
	MillimetreWater                  Pressure = 196133.0 / 20000000               // mmH2O
	InchWater                        Pressure = 24908891.0 / 100000000            // inH2O
)

// ParsePressure reads a number and a unit, such as "12 kPa". The error is a
// [NumberError] or a [UnitError].
func ParsePressure(text string) (Pressure, error) {
	v, _, err := kinds[kindPressure].Parse(text)
	return Pressure(v), err
}

// In returns x as a number in unit u: x.In(Kilopascal).
func (x Pressure) In(u Pressure) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Pressure) String() string { return kinds[kindPressure].text(float64(x)) }

// MarshalText returns the text of [Pressure.String]; an x that is not finite is an error.
func (x Pressure) MarshalText() ([]byte, error) { return kinds[kindPressure].marshal(float64(x)) }

// UnmarshalText reads what [ParsePressure] reads; an error leaves x unchanged.
func (x *Pressure) UnmarshalText(text []byte) error {
	return kinds[kindPressure].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kPa, or text with a unit.
func (x *Pressure) Scan(src any) error { return kinds[kindPressure].scan(src, (*float64)(x)) }

// Value returns the number in kPa for a database; an x that is not finite is an error.
func (x Pressure) Value() (driver.Value, error) { return kinds[kindPressure].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Pressure) Kind() *Kind { return &kinds[kindPressure] }

// Number returns a pointer to the number of x, in kPa.
func (x *Pressure) Number() *float64 { return (*float64)(x) }

// GaugePressure is pressure above that of the surrounding air.
// Its canonical unit is bar(g).
type GaugePressure float64

// Units of gauge pressure, in bar(g).
const (
	BarGauge        GaugePressure = 1                                 // bar(g)
	KilopascalGauge GaugePressure = 1.0 / 100                         // kPa(g)
	PSIGauge        GaugePressure = 8896443230521.0 / 129032000000000 // psig
)

// ParseGaugePressure reads a number and a unit, such as "12 bar(g)". The error is a
// [NumberError] or a [UnitError].
func ParseGaugePressure(text string) (GaugePressure, error) {
	v, _, err := kinds[kindGaugePressure].Parse(text)
	return GaugePressure(v), err
}

// In returns x as a number in unit u: x.In(BarGauge).
func (x GaugePressure) In(u GaugePressure) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x GaugePressure) String() string { return kinds[kindGaugePressure].text(float64(x)) }

// MarshalText returns the text of [GaugePressure.String]; an x that is not finite is an error.
func (x GaugePressure) MarshalText() ([]byte, error) {
	return kinds[kindGaugePressure].marshal(float64(x))
}

// UnmarshalText reads what [ParseGaugePressure] reads; an error leaves x unchanged.
func (x *GaugePressure) UnmarshalText(text []byte) error {
	return kinds[kindGaugePressure].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in bar(g), or text with a unit.
func (x *GaugePressure) Scan(src any) error { return kinds[kindGaugePressure].scan(src, (*float64)(x)) }

// Value returns the number in bar(g) for a database; an x that is not finite is an error.
func (x GaugePressure) Value() (driver.Value, error) {
	return kinds[kindGaugePressure].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (GaugePressure) Kind() *Kind { return &kinds[kindGaugePressure] }

// Number returns a pointer to the number of x, in bar(g).
func (x *GaugePressure) Number() *float64 { return (*float64)(x) }

// AbsolutePressure is pressure above vacuum.
// Its canonical unit is bar(a), its natural range 0 bar(a) and above.
type AbsolutePressure float64

// Units of absolute pressure, in bar(a).
const (
	BarAbsolute        AbsolutePressure = 1                                 // bar(a)
	KilopascalAbsolute AbsolutePressure = 1.0 / 100                         // kPa(a)
	MegapascalAbsolute AbsolutePressure = 10                                // MPa(a)
	PSIAbsolute        AbsolutePressure = 8896443230521.0 / 129032000000000 // psia
)

// ParseAbsolutePressure reads a number and a unit, such as "12 bar(a)". The error is a
// [NumberError] or a [UnitError].
func ParseAbsolutePressure(text string) (AbsolutePressure, error) {
	v, _, err := kinds[kindAbsolutePressure].Parse(text)
	return AbsolutePressure(v), err
}

// In returns x as a number in unit u: x.In(BarAbsolute).
func (x AbsolutePressure) In(u AbsolutePressure) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AbsolutePressure) String() string { return kinds[kindAbsolutePressure].text(float64(x)) }

// MarshalText returns the text of [AbsolutePressure.String]; an x that is not finite is an error.
func (x AbsolutePressure) MarshalText() ([]byte, error) {
	return kinds[kindAbsolutePressure].marshal(float64(x))
}

// UnmarshalText reads what [ParseAbsolutePressure] reads; an error leaves x unchanged.
func (x *AbsolutePressure) UnmarshalText(text []byte) error {
	return kinds[kindAbsolutePressure].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in bar(a), or text with a unit.
func (x *AbsolutePressure) Scan(src any) error {
	return kinds[kindAbsolutePressure].scan(src, (*float64)(x))
}

// Value returns the number in bar(a) for a database; an x that is not finite is an error.
func (x AbsolutePressure) Value() (driver.Value, error) {
	return kinds[kindAbsolutePressure].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (AbsolutePressure) Kind() *Kind { return &kinds[kindAbsolutePressure] }

// Number returns a pointer to the number of x, in bar(a).
func (x *AbsolutePressure) Number() *float64 { return (*float64)(x) }

// PressImpulse is pressure times time in the nip.
// Its canonical unit is kPa s, its natural range 0 kPa s and above.
type PressImpulse float64

// Units of press impulse, in kPa s.
const (
	KilopascalSecond PressImpulse = 1                               // kPa s
	PSISecond        PressImpulse = 8896443230521.0 / 1290320000000 // psi s
)

// ParsePressImpulse reads a number and a unit, such as "12 kPa s". The error is a
// [NumberError] or a [UnitError].
func ParsePressImpulse(text string) (PressImpulse, error) {
	v, _, err := kinds[kindPressImpulse].Parse(text)
	return PressImpulse(v), err
}

// In returns x as a number in unit u: x.In(KilopascalSecond).
func (x PressImpulse) In(u PressImpulse) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x PressImpulse) String() string { return kinds[kindPressImpulse].text(float64(x)) }

// MarshalText returns the text of [PressImpulse.String]; an x that is not finite is an error.
func (x PressImpulse) MarshalText() ([]byte, error) {
	return kinds[kindPressImpulse].marshal(float64(x))
}

// UnmarshalText reads what [ParsePressImpulse] reads; an error leaves x unchanged.
func (x *PressImpulse) UnmarshalText(text []byte) error {
	return kinds[kindPressImpulse].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kPa s, or text with a unit.
func (x *PressImpulse) Scan(src any) error { return kinds[kindPressImpulse].scan(src, (*float64)(x)) }

// Value returns the number in kPa s for a database; an x that is not finite is an error.
func (x PressImpulse) Value() (driver.Value, error) { return kinds[kindPressImpulse].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (PressImpulse) Kind() *Kind { return &kinds[kindPressImpulse] }

// Number returns a pointer to the number of x, in kPa s.
func (x *PressImpulse) Number() *float64 { return (*float64)(x) }

// AirPermeance is air flow per area and pressure.
// Its canonical unit is um/(Pa s), its natural range 0 um/(Pa s) and above.
type AirPermeance float64

// Units of air permeance, in um/(Pa s).
const (
	MicrometrePerPascalSecond                     AirPermeance = 1       // um/(Pa s)
	AirPermeabilityUnit                           AirPermeance = 1.0 / 6 // CU
	MillilitrePerMinuteSquareCentimetreKilopascal AirPermeance = 1.0 / 6 // mL/(min cm2 kPa)
)

// ParseAirPermeance reads a number and a unit, such as "12 um/(Pa s)". The error is a
// [NumberError] or a [UnitError].
func ParseAirPermeance(text string) (AirPermeance, error) {
	v, _, err := kinds[kindAirPermeance].Parse(text)
	return AirPermeance(v), err
}

// In returns x as a number in unit u: x.In(MicrometrePerPascalSecond).
func (x AirPermeance) In(u AirPermeance) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x AirPermeance) String() string { return kinds[kindAirPermeance].text(float64(x)) }

// MarshalText returns the text of [AirPermeance.String]; an x that is not finite is an error.
func (x AirPermeance) MarshalText() ([]byte, error) {
	return kinds[kindAirPermeance].marshal(float64(x))
}

// UnmarshalText reads what [ParseAirPermeance] reads; an error leaves x unchanged.
func (x *AirPermeance) UnmarshalText(text []byte) error {
	return kinds[kindAirPermeance].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in um/(Pa s), or text with a unit.
func (x *AirPermeance) Scan(src any) error { return kinds[kindAirPermeance].scan(src, (*float64)(x)) }

// Value returns the number in um/(Pa s) for a database; an x that is not finite is an error.
func (x AirPermeance) Value() (driver.Value, error) { return kinds[kindAirPermeance].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (AirPermeance) Kind() *Kind { return &kinds[kindAirPermeance] }

// Number returns a pointer to the number of x, in um/(Pa s).
func (x *AirPermeance) Number() *float64 { return (*float64)(x) }

// PermeanceTime is length per pressure.
// Its canonical unit is um/Pa, its natural range 0 um/Pa and above.
type PermeanceTime float64

// Units of permeance time, in um/Pa.
const (
	MicrometrePerPascal PermeanceTime = 1 // um/Pa
)

// ParsePermeanceTime reads a number and a unit, such as "12 um/Pa". The error is a
// [NumberError] or a [UnitError].
func ParsePermeanceTime(text string) (PermeanceTime, error) {
	v, _, err := kinds[kindPermeanceTime].Parse(text)
	return PermeanceTime(v), err
}

// In returns x as a number in unit u: x.In(MicrometrePerPascal).
func (x PermeanceTime) In(u PermeanceTime) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x PermeanceTime) String() string { return kinds[kindPermeanceTime].text(float64(x)) }

// MarshalText returns the text of [PermeanceTime.String]; an x that is not finite is an error.
func (x PermeanceTime) MarshalText() ([]byte, error) {
	return kinds[kindPermeanceTime].marshal(float64(x))
}

// UnmarshalText reads what [ParsePermeanceTime] reads; an error leaves x unchanged.
func (x *PermeanceTime) UnmarshalText(text []byte) error {
	return kinds[kindPermeanceTime].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in um/Pa, or text with a unit.
func (x *PermeanceTime) Scan(src any) error { return kinds[kindPermeanceTime].scan(src, (*float64)(x)) }

// Value returns the number in um/Pa for a database; an x that is not finite is an error.
func (x PermeanceTime) Value() (driver.Value, error) {
	return kinds[kindPermeanceTime].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (PermeanceTime) Kind() *Kind { return &kinds[kindPermeanceTime] }

// Number returns a pointer to the number of x, in um/Pa.
func (x *PermeanceTime) Number() *float64 { return (*float64)(x) }

// Energy is energy, work or heat.
// Its canonical unit is J.
type Energy float64

// Units of energy, in J.
const (
	Joule                 Energy = 1                                      // J
	Millijoule            Energy = 1.0 / 1000                             // mJ
	Kilojoule             Energy = 1000                                   // kJ
	Megajoule             Energy = 1000000                                // MJ
	Gigajoule             Energy = 1000000000                             // GJ
	WattHour              Energy = 3600                                   // Wh
	KilowattHour          Energy = 3600000                                // kWh
	MegawattHour          Energy = 3600000000                             // MWh
	BtuIT                 Energy = 52752792631.0 / 50000000               // Btu_IT
	BtuThermochemical     Energy = 23722880951.0 / 22500000               // Btu_th
	CalorieIT             Energy = 10467.0 / 2500                         // cal_IT
	CalorieThermochemical Energy = 523.0 / 125                            // cal_th
	KilocalorieIT         Energy = 20934.0 / 5                            // kcal_IT
	USTherm               Energy = 105480400                              // therm_US
	FootPoundForce        Energy = 3389544870828501.0 / 2500000000000000  // ft.lbf
	InchPoundForce        Energy = 1129848290276167.0 / 10000000000000000 // in.lbf
)

// ParseEnergy reads a number and a unit, such as "12 J". The error is a
// [NumberError] or a [UnitError].
func ParseEnergy(text string) (Energy, error) {
	v, _, err := kinds[kindEnergy].Parse(text)
	return Energy(v), err
}

// In returns x as a number in unit u: x.In(Joule).
func (x Energy) In(u Energy) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Energy) String() string { return kinds[kindEnergy].text(float64(x)) }

// MarshalText returns the text of [Energy.String]; an x that is not finite is an error.
func (x Energy) MarshalText() ([]byte, error) { return kinds[kindEnergy].marshal(float64(x)) }

// UnmarshalText reads what [ParseEnergy] reads; an error leaves x unchanged.
func (x *Energy) UnmarshalText(text []byte) error {
	return kinds[kindEnergy].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in J, or text with a unit.
func (x *Energy) Scan(src any) error { return kinds[kindEnergy].scan(src, (*float64)(x)) }

// Value returns the number in J for a database; an x that is not finite is an error.
func (x Energy) Value() (driver.Value, error) { return kinds[kindEnergy].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Energy) Kind() *Kind { return &kinds[kindEnergy] }

// Number returns a pointer to the number of x, in J.
func (x *Energy) Number() *float64 { return (*float64)(x) }

// Power is energy per time.
// Its canonical unit is kW.
type Power float64

// Units of power, in kW.
const (
	Kilowatt             Power = 1                                       // kW
	Watt                 Power = 1.0 / 1000                              // W
	Megawatt             Power = 1000                                    // MW
	HorsepowerMechanical Power = 37284993579113511.0 / 50000000000000000 // hp_mech
	HorsepowerElectrical Power = 373.0 / 500                             // hp_el
	HorsepowerMetric     Power = 588399.0 / 800000                       // hp_metric
)

// ParsePower reads a number and a unit, such as "12 kW". The error is a
// [NumberError] or a [UnitError].
func ParsePower(text string) (Power, error) {
	v, _, err := kinds[kindPower].Parse(text)
	return Power(v), err
}

// In returns x as a number in unit u: x.In(Kilowatt).
func (x Power) In(u Power) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Power) String() string { return kinds[kindPower].text(float64(x)) }

// MarshalText returns the text of [Power.String]; an x that is not finite is an error.
func (x Power) MarshalText() ([]byte, error) { return kinds[kindPower].marshal(float64(x)) }

// UnmarshalText reads what [ParsePower] reads; an error leaves x unchanged.
func (x *Power) UnmarshalText(text []byte) error {
	return kinds[kindPower].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kW, or text with a unit.
func (x *Power) Scan(src any) error { return kinds[kindPower].scan(src, (*float64)(x)) }

// Value returns the number in kW for a database; an x that is not finite is an error.
func (x Power) Value() (driver.Value, error) { return kinds[kindPower].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Power) Kind() *Kind { return &kinds[kindPower] }

// Number returns a pointer to the number of x, in kW.
func (x *Power) Number() *float64 { return (*float64)(x) }

// SpecificEnergy is energy per mass.
// Its canonical unit is kJ/kg.
type SpecificEnergy float64

// Units of specific energy, in kJ/kg.
const (
	KilojoulePerKilogram               SpecificEnergy = 1                         // kJ/kg
	JoulePerKilogram                   SpecificEnergy = 1.0 / 1000                // J/kg
	KilowattHourPerTonne               SpecificEnergy = 18.0 / 5                  // kWh/t
	MegawattHourPerTonne               SpecificEnergy = 3600                      // MWh/t
	GigajoulePerTonne                  SpecificEnergy = 1000                      // GJ/t
	KilowattHourPerShortTon            SpecificEnergy = 180000000.0 / 45359237    // kWh/short ton
	HorsepowerMechanicalDayPerShortTon SpecificEnergy = 22193821881.0 / 312500000 // hp_mech d/short ton
	BtuITPerPound                      SpecificEnergy = 1163.0 / 500              // Btu_IT/lb
)

// ParseSpecificEnergy reads a number and a unit, such as "12 kJ/kg". The error is a
// [NumberError] or a [UnitError].
func ParseSpecificEnergy(text string) (SpecificEnergy, error) {
	v, _, err := kinds[kindSpecificEnergy].Parse(text)
	return SpecificEnergy(v), err
}

// In returns x as a number in unit u: x.In(KilojoulePerKilogram).
func (x SpecificEnergy) In(u SpecificEnergy) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x SpecificEnergy) String() string { return kinds[kindSpecificEnergy].text(float64(x)) }

// MarshalText returns the text of [SpecificEnergy.String]; an x that is not finite is an error.
func (x SpecificEnergy) MarshalText() ([]byte, error) {
	return kinds[kindSpecificEnergy].marshal(float64(x))
}

// UnmarshalText reads what [ParseSpecificEnergy] reads; an error leaves x unchanged.
func (x *SpecificEnergy) UnmarshalText(text []byte) error {
	return kinds[kindSpecificEnergy].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kJ/kg, or text with a unit.
func (x *SpecificEnergy) Scan(src any) error {
	return kinds[kindSpecificEnergy].scan(src, (*float64)(x))
}

// Value returns the number in kJ/kg for a database; an x that is not finite is an error.
func (x SpecificEnergy) Value() (driver.Value, error) {
	return kinds[kindSpecificEnergy].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (SpecificEnergy) Kind() *Kind { return &kinds[kindSpecificEnergy] }

// Number returns a pointer to the number of x, in kJ/kg.
func (x *SpecificEnergy) Number() *float64 { return (*float64)(x) }

// EnergyPerArea is energy per area.
// Its canonical unit is J/m2, its natural range 0 J/m2 and above.
type EnergyPerArea float64

// Units of energy per area, in J/m2.
const (
	JoulePerSquareMetre         EnergyPerArea = 1                              // J/m2
	FootPoundForcePerSquareFoot EnergyPerArea = 8896443230521.0 / 609600000000 // ft.lbf/ft2
	InchPoundForcePerSquareInch EnergyPerArea = 8896443230521.0 / 50800000000  // in.lbf/in2
)

// ParseEnergyPerArea reads a number and a unit, such as "12 J/m2". The error is a
// [NumberError] or a [UnitError].
func ParseEnergyPerArea(text string) (EnergyPerArea, error) {
	v, _, err := kinds[kindEnergyPerArea].Parse(text)
	return EnergyPerArea(v), err
}

// In returns x as a number in unit u: x.In(JoulePerSquareMetre).
func (x EnergyPerArea) In(u EnergyPerArea) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x EnergyPerArea) String() string { return kinds[kindEnergyPerArea].text(float64(x)) }

// MarshalText returns the text of [EnergyPerArea.String]; an x that is not finite is an error.
func (x EnergyPerArea) MarshalText() ([]byte, error) {
	return kinds[kindEnergyPerArea].marshal(float64(x))
}

// UnmarshalText reads what [ParseEnergyPerArea] reads; an error leaves x unchanged.
func (x *EnergyPerArea) UnmarshalText(text []byte) error {
	return kinds[kindEnergyPerArea].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in J/m2, or text with a unit.
func (x *EnergyPerArea) Scan(src any) error { return kinds[kindEnergyPerArea].scan(src, (*float64)(x)) }

// Value returns the number in J/m2 for a database; an x that is not finite is an error.
func (x EnergyPerArea) Value() (driver.Value, error) {
	return kinds[kindEnergyPerArea].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (EnergyPerArea) Kind() *Kind { return &kinds[kindEnergyPerArea] }

// Number returns a pointer to the number of x, in J/m2.
func (x *EnergyPerArea) Number() *float64 { return (*float64)(x) }

// SpecificHeat is energy per mass and temperature difference.
// Its canonical unit is kJ/(kg K), its natural range 0 kJ/(kg K) and above.
type SpecificHeat float64

// Units of specific heat, in kJ/(kg K).
const (
	KilojoulePerKilogramKelvin SpecificHeat = 1              // kJ/(kg K)
	JoulePerKilogramKelvin     SpecificHeat = 1.0 / 1000     // J/(kg K)
	BtuITPerPoundFahrenheit    SpecificHeat = 10467.0 / 2500 // Btu_IT/(lb degF)
)

// ParseSpecificHeat reads a number and a unit, such as "12 kJ/(kg K)". The error is a
// [NumberError] or a [UnitError].
func ParseSpecificHeat(text string) (SpecificHeat, error) {
	v, _, err := kinds[kindSpecificHeat].Parse(text)
	return SpecificHeat(v), err
}

// In returns x as a number in unit u: x.In(KilojoulePerKilogramKelvin).
func (x SpecificHeat) In(u SpecificHeat) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x SpecificHeat) String() string { return kinds[kindSpecificHeat].text(float64(x)) }

// MarshalText returns the text of [SpecificHeat.String]; an x that is not finite is an error.
func (x SpecificHeat) MarshalText() ([]byte, error) {
	return kinds[kindSpecificHeat].marshal(float64(x))
}

// UnmarshalText reads what [ParseSpecificHeat] reads; an error leaves x unchanged.
func (x *SpecificHeat) UnmarshalText(text []byte) error {
	return kinds[kindSpecificHeat].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in kJ/(kg K), or text with a unit.
func (x *SpecificHeat) Scan(src any) error { return kinds[kindSpecificHeat].scan(src, (*float64)(x)) }

// Value returns the number in kJ/(kg K) for a database; an x that is not finite is an error.
func (x SpecificHeat) Value() (driver.Value, error) { return kinds[kindSpecificHeat].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (SpecificHeat) Kind() *Kind { return &kinds[kindSpecificHeat] }

// Number returns a pointer to the number of x, in kJ/(kg K).
func (x *SpecificHeat) Number() *float64 { return (*float64)(x) }

// HeatTransfer is power per area and temperature difference.
// Its canonical unit is W/(m2 K), its natural range 0 W/(m2 K) and above.
type HeatTransfer float64

// Units of heat transfer, in W/(m2 K).
const (
	WattPerSquareMetreKelvin         HeatTransfer = 1                          // W/(m2 K)
	BtuITPerHourSquareFootFahrenheit HeatTransfer = 52752792631.0 / 9290304000 // Btu_IT/(h ft2 degF)
)

// ParseHeatTransfer reads a number and a unit, such as "12 W/(m2 K)". The error is a
// [NumberError] or a [UnitError].
func ParseHeatTransfer(text string) (HeatTransfer, error) {
	v, _, err := kinds[kindHeatTransfer].Parse(text)
	return HeatTransfer(v), err
}

// In returns x as a number in unit u: x.In(WattPerSquareMetreKelvin).
func (x HeatTransfer) In(u HeatTransfer) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x HeatTransfer) String() string { return kinds[kindHeatTransfer].text(float64(x)) }

// MarshalText returns the text of [HeatTransfer.String]; an x that is not finite is an error.
func (x HeatTransfer) MarshalText() ([]byte, error) {
	return kinds[kindHeatTransfer].marshal(float64(x))
}

// UnmarshalText reads what [ParseHeatTransfer] reads; an error leaves x unchanged.
func (x *HeatTransfer) UnmarshalText(text []byte) error {
	return kinds[kindHeatTransfer].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in W/(m2 K), or text with a unit.
func (x *HeatTransfer) Scan(src any) error { return kinds[kindHeatTransfer].scan(src, (*float64)(x)) }

// Value returns the number in W/(m2 K) for a database; an x that is not finite is an error.
func (x HeatTransfer) Value() (driver.Value, error) { return kinds[kindHeatTransfer].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (HeatTransfer) Kind() *Kind { return &kinds[kindHeatTransfer] }

// Number returns a pointer to the number of x, in W/(m2 K).
func (x *HeatTransfer) Number() *float64 { return (*float64)(x) }

// ThermalConductivity is power per length and temperature difference.
// Its canonical unit is W/(m K), its natural range 0 W/(m K) and above.
type ThermalConductivity float64

// Units of thermal conductivity, in W/(m K).
const (
	WattPerMetreKelvin         ThermalConductivity = 1                           // W/(m K)
	BtuITPerHourFootFahrenheit ThermalConductivity = 52752792631.0 / 30480000000 // Btu_IT/(h ft degF)
)

// ParseThermalConductivity reads a number and a unit, such as "12 W/(m K)". The error is a
// [NumberError] or a [UnitError].
func ParseThermalConductivity(text string) (ThermalConductivity, error) {
	v, _, err := kinds[kindThermalConductivity].Parse(text)
	return ThermalConductivity(v), err
}

// In returns x as a number in unit u: x.In(WattPerMetreKelvin).
func (x ThermalConductivity) In(u ThermalConductivity) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x ThermalConductivity) String() string { return kinds[kindThermalConductivity].text(float64(x)) }

// MarshalText returns the text of [ThermalConductivity.String]; an x that is not finite is an error.
func (x ThermalConductivity) MarshalText() ([]byte, error) {
	return kinds[kindThermalConductivity].marshal(float64(x))
}

// UnmarshalText reads what [ParseThermalConductivity] reads; an error leaves x unchanged.
func (x *ThermalConductivity) UnmarshalText(text []byte) error {
	return kinds[kindThermalConductivity].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in W/(m K), or text with a unit.
func (x *ThermalConductivity) Scan(src any) error {
	return kinds[kindThermalConductivity].scan(src, (*float64)(x))
}

// Value returns the number in W/(m K) for a database; an x that is not finite is an error.
func (x ThermalConductivity) Value() (driver.Value, error) {
	return kinds[kindThermalConductivity].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (ThermalConductivity) Kind() *Kind { return &kinds[kindThermalConductivity] }

// Number returns a pointer to the number of x, in W/(m K).
func (x *ThermalConductivity) Number() *float64 { return (*float64)(x) }

// Viscosity is dynamic viscosity.
// Its canonical unit is mPa.s, its natural range 0 mPa.s and above.
type Viscosity float64

// Units of viscosity, in mPa.s.
const (
	MillipascalSecond Viscosity = 1 // mPa.s
)

// ParseViscosity reads a number and a unit, such as "12 mPa.s". The error is a
// [NumberError] or a [UnitError].
func ParseViscosity(text string) (Viscosity, error) {
	v, _, err := kinds[kindViscosity].Parse(text)
	return Viscosity(v), err
}

// In returns x as a number in unit u: x.In(MillipascalSecond).
func (x Viscosity) In(u Viscosity) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Viscosity) String() string { return kinds[kindViscosity].text(float64(x)) }

// MarshalText returns the text of [Viscosity.String]; an x that is not finite is an error.
func (x Viscosity) MarshalText() ([]byte, error) { return kinds[kindViscosity].marshal(float64(x)) }

// UnmarshalText reads what [ParseViscosity] reads; an error leaves x unchanged.
func (x *Viscosity) UnmarshalText(text []byte) error {
	return kinds[kindViscosity].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mPa.s, or text with a unit.
func (x *Viscosity) Scan(src any) error { return kinds[kindViscosity].scan(src, (*float64)(x)) }

// Value returns the number in mPa.s for a database; an x that is not finite is an error.
func (x Viscosity) Value() (driver.Value, error) { return kinds[kindViscosity].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Viscosity) Kind() *Kind { return &kinds[kindViscosity] }

// Number returns a pointer to the number of x, in mPa.s.
func (x *Viscosity) Number() *float64 { return (*float64)(x) }

// ViscometerConstant is kinematic viscosity per time of flow.
// Its canonical unit is mm2/s2, its natural range 0 mm2/s2 and above.
type ViscometerConstant float64

// Units of viscometer constant, in mm2/s2.
const (
	SquareMillimetrePerSquareSecond ViscometerConstant = 1 // mm2/s2
)

// ParseViscometerConstant reads a number and a unit, such as "12 mm2/s2". The error is a
// [NumberError] or a [UnitError].
func ParseViscometerConstant(text string) (ViscometerConstant, error) {
	v, _, err := kinds[kindViscometerConstant].Parse(text)
	return ViscometerConstant(v), err
}

// In returns x as a number in unit u: x.In(SquareMillimetrePerSquareSecond).
func (x ViscometerConstant) In(u ViscometerConstant) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x ViscometerConstant) String() string { return kinds[kindViscometerConstant].text(float64(x)) }

// MarshalText returns the text of [ViscometerConstant.String]; an x that is not finite is an error.
func (x ViscometerConstant) MarshalText() ([]byte, error) {
	return kinds[kindViscometerConstant].marshal(float64(x))
}

// UnmarshalText reads what [ParseViscometerConstant] reads; an error leaves x unchanged.
func (x *ViscometerConstant) UnmarshalText(text []byte) error {
	return kinds[kindViscometerConstant].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in mm2/s2, or text with a unit.
func (x *ViscometerConstant) Scan(src any) error {
	return kinds[kindViscometerConstant].scan(src, (*float64)(x))
}

// Value returns the number in mm2/s2 for a database; an x that is not finite is an error.
func (x ViscometerConstant) Value() (driver.Value, error) {
	return kinds[kindViscometerConstant].value(float64(x))
}

// Kind returns the kind shared by all values of the type.
func (ViscometerConstant) Kind() *Kind { return &kinds[kindViscometerConstant] }

// Number returns a pointer to the number of x, in mm2/s2.
func (x *ViscometerConstant) Number() *float64 { return (*float64)(x) }

// Voltage is an electric potential difference.
// Its canonical unit is V.
type Voltage float64

// Units of voltage, in V.
const (
	Volt Voltage = 1 // V
)

// ParseVoltage reads a number and a unit, such as "12 V". The error is a
// [NumberError] or a [UnitError].
func ParseVoltage(text string) (Voltage, error) {
	v, _, err := kinds[kindVoltage].Parse(text)
	return Voltage(v), err
}

// In returns x as a number in unit u: x.In(Volt).
func (x Voltage) In(u Voltage) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Voltage) String() string { return kinds[kindVoltage].text(float64(x)) }

// MarshalText returns the text of [Voltage.String]; an x that is not finite is an error.
func (x Voltage) MarshalText() ([]byte, error) { return kinds[kindVoltage].marshal(float64(x)) }

// UnmarshalText reads what [ParseVoltage] reads; an error leaves x unchanged.
func (x *Voltage) UnmarshalText(text []byte) error {
	return kinds[kindVoltage].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in V, or text with a unit.
func (x *Voltage) Scan(src any) error { return kinds[kindVoltage].scan(src, (*float64)(x)) }

// Value returns the number in V for a database; an x that is not finite is an error.
func (x Voltage) Value() (driver.Value, error) { return kinds[kindVoltage].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Voltage) Kind() *Kind { return &kinds[kindVoltage] }

// Number returns a pointer to the number of x, in V.
func (x *Voltage) Number() *float64 { return (*float64)(x) }

// Current is an electric current.
// Its canonical unit is A.
type Current float64

// Units of current, in A.
const (
	Ampere      Current = 1          // A
	Milliampere Current = 1.0 / 1000 // mA
)

// ParseCurrent reads a number and a unit, such as "12 A". The error is a
// [NumberError] or a [UnitError].
func ParseCurrent(text string) (Current, error) {
	v, _, err := kinds[kindCurrent].Parse(text)
	return Current(v), err
}

// In returns x as a number in unit u: x.In(Ampere).
func (x Current) In(u Current) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Current) String() string { return kinds[kindCurrent].text(float64(x)) }

// MarshalText returns the text of [Current.String]; an x that is not finite is an error.
func (x Current) MarshalText() ([]byte, error) { return kinds[kindCurrent].marshal(float64(x)) }

// UnmarshalText reads what [ParseCurrent] reads; an error leaves x unchanged.
func (x *Current) UnmarshalText(text []byte) error {
	return kinds[kindCurrent].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in A, or text with a unit.
func (x *Current) Scan(src any) error { return kinds[kindCurrent].scan(src, (*float64)(x)) }

// Value returns the number in A for a database; an x that is not finite is an error.
func (x Current) Value() (driver.Value, error) { return kinds[kindCurrent].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Current) Kind() *Kind { return &kinds[kindCurrent] }

// Number returns a pointer to the number of x, in A.
func (x *Current) Number() *float64 { return (*float64)(x) }

// Resistance is an electric resistance.
// Its canonical unit is ohm, its natural range 0 ohm and above.
type Resistance float64

// Units of resistance, in ohm.
const (
	Ohm Resistance = 1 // ohm
)

// ParseResistance reads a number and a unit, such as "12 ohm". The error is a
// [NumberError] or a [UnitError].
func ParseResistance(text string) (Resistance, error) {
	v, _, err := kinds[kindResistance].Parse(text)
	return Resistance(v), err
}

// In returns x as a number in unit u: x.In(Ohm).
func (x Resistance) In(u Resistance) float64 { return float64(x / u) }

// String returns x with its unit, as text that parses back to the same value.
func (x Resistance) String() string { return kinds[kindResistance].text(float64(x)) }

// MarshalText returns the text of [Resistance.String]; an x that is not finite is an error.
func (x Resistance) MarshalText() ([]byte, error) { return kinds[kindResistance].marshal(float64(x)) }

// UnmarshalText reads what [ParseResistance] reads; an error leaves x unchanged.
func (x *Resistance) UnmarshalText(text []byte) error {
	return kinds[kindResistance].unmarshal(text, (*float64)(x))
}

// Scan reads a database value: a number in ohm, or text with a unit.
func (x *Resistance) Scan(src any) error { return kinds[kindResistance].scan(src, (*float64)(x)) }

// Value returns the number in ohm for a database; an x that is not finite is an error.
func (x Resistance) Value() (driver.Value, error) { return kinds[kindResistance].value(float64(x)) }

// Kind returns the kind shared by all values of the type.
func (Resistance) Kind() *Kind { return &kinds[kindResistance] }

// Number returns a pointer to the number of x, in ohm.
func (x *Resistance) Number() *float64 { return (*float64)(x) }
