package paperprop

import (
	"math/big"
	"strings"
)

// Per returns the unit u/v, as of a slope: N/% for newtons against per cent. A unit
// over itself is the pure number 1. For temperatures pass the [Unit.Difference]: a
// slope is a matter of differences.
func (u Unit) Per(v Unit) Unit {
	if u.String() == v.String() || u.one() && v.one() {
		return kinds[kindRatio].Canonical()
	}
	if v.one() {
		return u
	}
	c := u.inBase().times(v.inBase(), -1)
	below := v.String()
	if strings.ContainsAny(below, " ./") {
		below = "(" + below + ")"
	}
	above := u.String()
	switch {
	case u.one():
		above = "1"
	case strings.Contains(above, "/"):
		above = "(" + above + ")"
	}
	return c.unit(above+"/"+below, kindOf(c.dimension))
}

// Squared returns the unit of the product of two values in u, such as a sum of squares.
// For a pure number it is 1.
func (u Unit) Squared() Unit {
	if u.one() {
		return kinds[kindRatio].Canonical()
	}
	c := u.inBase()
	name := u.String()
	if last := name[len(name)-1]; strings.ContainsAny(name, " ./") || last >= '0' && last <= '9' {
		name = "(" + name + ")"
	}
	c = c.times(c, 1)
	return c.unit(name+"2", kindOf(c.dimension))
}

// one reports whether u is the unit of a pure number.
func (u Unit) one() bool { return u.u == nil || u.String() == "1" }

// inBase returns u as a factor of composed units.
func (u Unit) inBase() composed {
	if u.u == nil {
		return composed{factor: big.NewRat(1, 1)}
	}
	return composed{new(big.Rat).Mul(u.u.rat(), u.Kind().scale()), u.Dimension()}
}
