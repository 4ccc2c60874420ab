package paperprop

import "strconv"

// A Dimension holds the powers of the base quantities in a unit: mass, length, time,
// temperature, amount of substance, electric current and plane angle, in this order.
// The zero Dimension is that of a pure number; an acceleration has
// Dimension{BaseLength: 1, BaseTime: -2}.
type Dimension [7]int8

// The places of the base quantities in a Dimension.
const (
	BaseMass        = iota // kg
	BaseLength             // m
	BaseTime               // s
	BaseTemperature        // K
	BaseAmount             // mol
	BaseCurrent            // A
	BaseAngle              // deg
)

// Times returns d·eⁿ: the product for n = 1, the quotient for n = -1.
func (d Dimension) Times(e Dimension, n int) Dimension {
	for i := range d {
		d[i] += e[i] * int8(n)
	}
	return d
}

// String returns the dimension in base units: "kg/m2", "kg/(m s2)". A pure number is
// "1".
func (d Dimension) String() string {
	above, _ := d.powers(1)
	below, n := d.powers(-1)
	switch {
	case n == 0 && above == "":
		return "1"
	case n == 0:
		return above
	case above == "":
		above = "1"
	}
	if n > 1 {
		below = "(" + below + ")"
	}
	return above + "/" + below
}

// powers writes the base units whose power has the given sign, and counts them.
func (d Dimension) powers(sign int) (text string, n int) {
	for i, symbol := range [...]string{"kg", "m", "s", "K", "mol", "A", "deg"} {
		power := sign * int(d[i])
		if power <= 0 {
			continue
		}
		if n++; n > 1 {
			text += " "
		}
		if text += symbol; power > 1 {
			text += strconv.Itoa(power)
		}
	}
	return text, n
}
