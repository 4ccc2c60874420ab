package paperprop

import "math/big"

// Exactly returns the exact canonical value of x in u.
func Exactly(u Unit, x *big.Rat) *big.Rat { return u.exactly(x) }
