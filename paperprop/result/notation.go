package result

import "github.com/shopspring/decimal"

// A Notation says how many figures of a standard uncertainty are written.
type Notation uint8

// The rules for the figures of a standard uncertainty.
const (
	TwoFigures Notation = iota
	PDG                 // two up to 354, one up to 949, else two of the next decade: 0.119 is 0.12, 0.951 is 1.0
)

// Brackets returns a value with its standard uncertainty, which must be above 0, in
// units of the last place of the value: 12.345(67). Ties go to even. Neither number may
// be NaN or infinite.
func (n Notation) Brackets(value, standard float64) string {
	u, last := n.figures(Exact(standard))
	return atPlace(value, last) + "(" + plain(u.Shift(max(0, -last))) + ")"
}

// PlusMinus returns a value and its standard uncertainty to the same decimal place:
// 0.83+/-0.12. Its arguments are as for Brackets.
func (n Notation) PlusMinus(value, standard float64) string {
	u, last := n.figures(Exact(standard))
	return atPlace(value, last) + "+/-" + u.StringFixed(max(0, -last))
}

// figures returns the uncertainty rounded to the figures that are kept, and the power
// of ten of the last of them.
func (n Notation) figures(u decimal.Decimal) (decimal.Decimal, int32) {
	keep := 2
	if n == PDG {
		switch first := u.Shift(2 - leading(u)).IntPart(); { // the first three figures
		case first > 949:
			u = decimal.New(1, leading(u)+1)
		case first > 354:
			keep = 1
		}
	}
	u = Figures(keep, Even).RoundDecimal(u)
	return u, leading(u) - int32(keep) + 1
}

func atPlace(value float64, place int32) string { return StepOf(1, place, Even).Text(Exact(value)) }
