package calc

import (
	"math/big"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
)

// Written is a number as a person wrote it, for a calculation that compares or
// rounds in decimals: 205 g/m2 that follow a value in lb/1000ft2 are no decimal
// there, nor a float64. The zero Written is that of a typed struct, whose
// numbers stand for themselves.
type Written struct{ number *big.Rat }

// Exactly returns x as it was written, in the unit in which x counts. An x that
// was not written, but put as a number, moved by an uncertainty or found by a
// search, is its shortest decimal. It must not be changed.
func (w Written) Exactly(x float64) *big.Rat {
	if w.Holds(x) {
		return w.number
	}
	return result.Exact(x).Rat()
}

// Holds says whether x is what was written, and not moved or sought.
func (w Written) Holds(x float64) bool {
	if w.number == nil {
		return false
	}
	float, _ := w.number.Float64()
	return float == x
}

// Written binds the place where the one number of an input is kept as it was
// written, beside its float64.
func (in *Input) Written(w *Written) *Input {
	in.cell.kept = w
	return in
}

// KeepsWritten says whether an input counts as it was written, so that a text
// tells more than its float64.
func (c *Cell) KeepsWritten() bool { return c.kept != nil }

// keep keeps the number that was written, in the unit in which it counts: the
// float64 is rounded once, from that.
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

// asNumber is the number that was given, in its own unit. A quantity that was put
// has none but its canonical float64.
func (c *Cell) asNumber() (x *big.Rat, ok bool) {
	if !c.given {
		return nil, false
	}
	if x, ok = paperprop.LeadingNumber(c.text); ok || len(c.raw) != 1 || c.raw[0]-c.raw[0] != 0 {
		return x, ok // what is not finite has no decimal
	}
	return result.Exact(c.raw[0]).Rat(), true
}
