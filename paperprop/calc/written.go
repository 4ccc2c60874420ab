package calc

import (
	"math/big"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
)

// A Written is a number as written, for a calculation that compares or rounds in
// decimals: 205 g/m2 that follow a value in lb/1000ft2 are neither a decimal there nor
// a float64. The zero Written is that of a typed struct, whose numbers stand for
// themselves.
type Written struct{ number *big.Rat }

// Exactly returns x as it was written, in the unit in which x counts. If x was not
// written, but put as a number, moved by an uncertainty or found by a search, it
// returns the shortest decimal of x. The result must not be changed.
func (w Written) Exactly(x float64) *big.Rat {
	if w.Holds(x) {
		return w.number
	}
	return result.Exact(x).Rat()
}

// Holds reports whether x is the number that was written, rather than one moved or
// searched for.
func (w Written) Holds(x float64) bool {
	if w.number == nil {
		return false
	}
	float, _ := w.number.Float64()
	return float == x
}

// Written binds the variable that keeps the one number of an input as written, beside
// its float64.
func (in *Input) Written(w *Written) *Input {
	in.cell.kept = w
	return in
}

// KeepsWritten reports whether an input counts as written, so that a text says more
// than its float64.
func (c *Cell) KeepsWritten() bool { return c.kept != nil }

// keep stores the number as written, in the unit in which it counts. The float64 is
// that number, rounded once.
func (c *Cell) keep() {
	c.kept.number = nil
	x, ok := c.asNumber()
	if !ok {
		return
	}
	to := c.relatedUnit()
	if c.Kind != nil {
		to = c.Kind.Canonical()
	}
	if x, err := c.unit.ConvertExactly(x, to); err == nil {
		c.kept.number = x
		*c.number, _ = x.Float64()
	}
}

// asNumber returns the number that was given, in its own unit. A quantity that was put
// has only its canonical float64.
func (c *Cell) asNumber() (x *big.Rat, ok bool) {
	if !c.given {
		return nil, false
	}
	if x, ok = paperprop.LeadingNumber(c.text); ok || len(c.raw) != 1 || c.raw[0]-c.raw[0] != 0 {
		return x, ok // a number that is not finite has no decimal
	}
	return result.Exact(c.raw[0]).Rat(), true
}
