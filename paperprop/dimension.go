package paperprop

import "strconv"

// A Dimension is the product of powers of base quantities that a unit stands
// for: mass, length, time, temperature, amount of substance, electric current
// and plane angle, in this order. The zero Dimension is that of a pure number.
type Dimension [7]int8

// Times returns d·eⁿ: a product for n = 1, a quotient for n = -1.
func (d Dimension) Times(e Dimension, n int) Dimension {
	for i := range d {
		d[i] += e[i] * int8(n)
	}
	return d
}

// String writes the dimension in base units: "kg m-2"; a pure number is "1".
func (d Dimension) String() string {
	var text []byte
	for i, symbol := range [...]string{"kg", "m", "s", "K", "mol", "A", "deg"} {
		if d[i] == 0 {
			continue
		}
		if text != nil {
			text = append(text, ' ')
		}
		text = append(text, symbol...)
		if d[i] != 1 {
			text = strconv.AppendInt(text, int64(d[i]), 10)
		}
	}
	if text == nil {
		return "1"
	}
	return string(text)
}
