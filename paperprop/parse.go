package paperprop

import (
	"encoding/binary"
	"math/bits"

	"millmaths.example/paperprop/internal/wording"
)

// Parse reads a number and a unit of kind k, with or without a space between them: "4
// %", "42lb/1000ft2". The value is in the canonical unit: the number as written times
// the exact factor, rounded once. The unit u is the one written. The error is a
// [NumberError] or a [UnitError]; the natural range is not checked.
func (k *Kind) Parse(text string) (value float64, u Unit, err error) {
	d, end, reason := scan(text, '.')
	if reason != "" {
		return k.parseUnusual(text)
	}
	rest := end
	for rest < len(text) && text[rest] == ' ' {
		rest++
	}
	i := k.lookup(text[rest:])
	if i < 0 {
		return k.parseUnusual(text)
	}
	u = k.unit(i)
	if v, ok := u.value(d); ok {
		return v, u, nil
	}
	if value, err = u.slow(text[:end], '.'); err != nil {
		return 0, Unit{}, err
	}
	return value, u, nil
}

// parseUnusual reads the spellings that Parse does not try first, or returns the error.
func (k *Kind) parseUnusual(text string) (float64, Unit, error) {
	d, number, unit, err := split(text)
	if err != nil {
		return 0, Unit{}, err
	}
	u, err := k.Unit(unit)
	if err != nil {
		return 0, Unit{}, inText(err, text)
	}
	if v, ok := u.value(d); ok {
		return v, u, nil
	}
	v, err := u.slow(number, '.')
	if err != nil {
		return 0, Unit{}, err
	}
	return v, u, nil
}

// Split parts a value such as "4.0 %" into its number and the text of its unit, which may
// be empty; whether it is a unit is not asked. The error is a [NumberError], also where the
// text goes on with what belongs to no unit, as in "5/32 in".
func Split(text string) (number, unit string, err error) {
	_, number, unit, err = split(text)
	return number, unit, err
}

// split parts a value into its number, as read and as written, and the text of its unit.
func split(text string) (d decimal, number, unit string, err error) {
	whole := trim(text)
	d, end, reason := scan(whole, '.')
	if reason == "" {
		reason = tail(whole, end, '.')
	}
	if reason != "" {
		return d, "", "", &NumberError{Text: wording.Clip(text), Reason: reason}
	}
	return d, whole[:end], trim(whole[end:]), nil
}

// ParseNumber reads a number without a unit, with a decimal point. The value is rounded
// once. The error is a [NumberError].
func ParseNumber(text string) (float64, error) { return read(trim(text), '.', Unit{}) }

// Read reads a number in u, written without its unit, from a cell of a table. The
// decimal sign is '.' or ','; spaces around the number are skipped. The result is the
// canonical value, rounded once. Read does not allocate unless the number has more than
// 19 digits or many more than the value needs. The error is a [NumberError].
func (u Unit) Read(cell []byte, sign byte) (float64, error) {
	if digits, places, ok := readShort(cell, sign); ok {
		if u.plain() {
			return float64(digits) / float64(tens[places]), nil
		}
		if v, ok := u.value(decimal{digits: digits, exponent: -places}); ok {
			return v, nil
		}
	}
	return read(trim(cell), sign, u)
}

// readShort reads what most cells hold: up to eight digits, perhaps with a decimal sign
// between them, and nothing else. It takes them as one word, because the processor
// cannot predict how often a loop over the bytes would run.
func readShort(cell []byte, point byte) (digits uint64, places int, ok bool) {
	n := len(cell)
	empty := (64 - 8*n) & 63 // bits before the first byte: the last one stands highest
	word := uint64(0)
	switch {
	case n >= 4 && n <= 8:
		word = uint64(binary.LittleEndian.Uint32(cell))<<empty | uint64(binary.LittleEndian.Uint32(cell[n-4:]))<<32
	case n >= 1 && n < 4:
		word = uint64(cell[0])<<empty | uint64(cell[n/2])<<((empty+n/2*8)&63) | uint64(cell[n-1])<<56
	default:
		return 0, 0, false
	}
	word ^= '0' * ones << empty
	if hits := equalBytes(word, uint64(point^'0')*ones); hits != 0 {
		at := bits.TrailingZeros64(hits) &^ 7 & 63 // the bit where the decimal sign begins
		before := uint64(1)<<at - 1
		word = word&before<<8 | word&^(before<<8|0xff)
		places = 7 - at/8
	}
	const high = 0x80 * ones
	if (word+('\x80'-10)*ones|word)&high != 0 || places == 0 && cell[n-1] == point {
		return 0, 0, false
	}
	word = word * (10<<8 + 1) >> 8 & 0x00ff00ff_00ff00ff
	word = word * (100<<16 + 1) >> 16 & 0x0000ffff_0000ffff
	return word * (10000<<32 + 1) >> 32, places, true
}

const ones = 0x0101010101010101 // a byte times ones is that byte eight times

// equalBytes sets the high bit of each byte in which word and pattern agree.
func equalBytes(word, pattern uint64) uint64 {
	const low = 0x7f * ones
	x := word ^ pattern
	return ^((x&low + low) | x | low)
}

// ReadNumber is [Unit.Read] for a number without a unit.
func ReadNumber(cell []byte, sign byte) (float64, error) { return read(trim(cell), sign, Unit{}) }

func read[T string | []byte](text T, point byte, u Unit) (float64, error) {
	d, end, reason := scan(text, point)
	if reason != "" || end != len(text) {
		return 0, unread(string(text), end, point, reason)
	}
	if v, ok := u.value(d); ok {
		return v, nil
	}
	return u.slow(string(text), point)
}

// unread returns the error for text that is not a number.
func unread(text string, end int, point byte, reason string) error {
	if reason == "" {
		reason = tail(text, end, point)
	}
	if reason == "" {
		reason = "want a number alone"
	}
	return &NumberError{Text: wording.Clip(text), Reason: reason}
}

// value returns the canonical value of d in u. It reports false if rounding once would
// need more than 128 bits.
func (u Unit) value(d decimal) (float64, bool) {
	switch {
	case u.u == nil:
		return d.times(ratio{1, 1})
	case u.u.shift != 0:
		return d.shifted(u.u)
	case u.u.big != nil:
		return 0, false
	}
	return d.times(u.u.exact)
}

// slow returns the canonical value of a scanned number of any length.
func (u Unit) slow(number string, point byte) (float64, error) {
	return rounded(number, u.exactly(rat(number, point)))
}

// trim cuts spaces off both ends.
func trim[T string | []byte](text T) T {
	for len(text) > 0 && space(text[0]) {
		text = text[1:]
	}
	for len(text) > 0 && space(text[len(text)-1]) {
		text = text[:len(text)-1]
	}
	return text
}

func space(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }
