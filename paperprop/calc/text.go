package calc

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
)

var (
	errUnknownWithoutOutput = errors.New("to solve for an input give one output")
	errOneNumber            = errors.New("want one number, not a list")
	errSourceTwice          = errors.New("already given differently, and inputs may use it")
	errTwoInOne             = errors.New("an uncertainty is given twice")
	errUnitsWithin          = errors.New("units within brackets, want one for all after them, [50 60] g, or members with units separated by commas, [50 g, 2 oz]")
	errUnitsBetween         = errors.New("units between members, want one for all after them, 50 60 g, or members with units separated by commas, 50 g, 2 oz")
	errAskedOutput          = errors.New("an output is computed from what is given, leave it out; ? stands for an input that is sought")
	errSpreadWithin         = errors.New("an uncertainty within brackets, want it after them: [50 60] ± 1 g or [50 60] ± [1 2] g")
)

// errNoNumber is said of a value of any unit; one of a kind says which it wants.
var errNoNumber error = &noNumberError{"a number and a unit"}

// Set reads the text of a value: a number with its unit, perhaps with an uncertainty, a
// list, a word, or "?" for what is to be solved for from an output, or is what a choice
// leaves to be computed.
func (c *Cell) Set(text string) error {
	c.Forget()
	c.text, c.plain = strings.TrimSpace(text), false
	if err := c.read(c.text); err != nil {
		c.given = false
		return &InputError{c.Name, c.text, c.withOwnUnit(c.withOwnText(err))}
	}
	return nil
}

// withOwnText gives an error about the whole text the text as it was written: a number and
// its unit were read apart, and stand together again with a blank.
func (c *Cell) withOwnText(err error) error {
	var fault *paperprop.NumberError
	packed := func(text string) string { return strings.ReplaceAll(text, " ", "") }
	if errors.As(err, &fault) && packed(fault.Text) == packed(c.text) {
		fault.Text = c.text
	}
	return err
}

// withOwnUnit puts the unit in which the field prints first among those to choose from
// if a unit is missing or of another quantity: mL for a freeness, not m3. Units that were
// chosen for the one that was written, as kgf is for kg, stay.
func (c *Cell) withOwnUnit(err error) error {
	var fault *paperprop.UnitError
	if !errors.As(err, &fault) || c.Unit.IsZero() {
		return err
	}
	usual := fault.Fault == paperprop.ForeignUnit && c.Kind != nil && len(fault.Candidates) == 2 && fault.Candidates[0] == c.Kind.Print().String()
	if fault.Fault != paperprop.MissingUnit && !usual {
		return err
	}
	own := c.Unit.String()
	others := slices.DeleteFunc(slices.Clone(fault.Candidates), func(u string) bool { return u == own })
	fault.Candidates = append([]string{own}, others[:min(1, len(others))]...)
	return err
}

// UnmarshalText is [Cell.Set], for packages such as flag and encoding/json.
func (c *Cell) UnmarshalText(text []byte) error { return c.Set(string(text)) }

// MarshalText returns the text as it was given.
func (c *Cell) MarshalText() ([]byte, error) { return []byte(c.text), nil }

func (c *Cell) read(text string) error {
	output := c.output
	switch {
	case text == "?" && output:
		return errAskedOutput
	case text == "?":
		c.asked, c.sheet.inverse = true, true
		return nil
	case c.Shape == Word && !output:
		c.given = true
		c.bound.setWord(text)
		return c.checkWord(text)
	case c.Shape.inLetters():
		return errors.New("only a number can be given for an output")
	}
	switch {
	case IsRange(text) && output:
		return errors.New("a range is for an input, want one value of an output")
	case IsRange(text):
		return errors.New("a range is for a single calculation on the command line, want one value")
	}
	r, err := c.readValues(text)
	if err == errNoNumber && c.Kind != nil {
		return &noNumberError{c.wanted()}
	}
	if err != nil {
		if dotted, sign, ok := otherRange(text); ok {
			return fmt.Errorf("%s makes no range, want %s", sign, dotted)
		}
		return err
	}
	c.unit, c.uncertain = r.unit, r.uncertain
	if output {
		if len(r.values) != 1 || c.Shape == List {
			return errors.New("only one number can be given for an output")
		}
		c.given, c.want, c.sheet.inverse = true, r.values[0], true
		return nil
	}
	c.given = true
	if c.Kind == nil {
		c.raw = r.values
	}
	if c.number != nil {
		*c.number = r.values[0]
	} else {
		c.bound.set(r.values)
	}
	return nil
}

// PutUnit sets the unit of the numbers that [Cell.Put] and [Cell.PutList] give to a
// Value, or the currency of those that they give to a price. Other inputs take numbers
// in their canonical unit.
func (c *Cell) PutUnit(u paperprop.Unit) { c.unit = c.asDeviation(u) }

// A reading is what the text of a value says.
type reading struct {
	values    []float64 // canonical; for a Value in unit
	unit      paperprop.Unit
	uncertain []Uncertain // as many as values, or none
}

// readValues reads anything but words: one number, or a list.
func (c *Cell) readValues(text string) (reading, error) {
	if parts := members(text); len(parts) > 1 {
		if c.Shape != List {
			return reading{}, errOneNumber
		}
		return c.readMembers(parts)
	}
	if name, inner, rest, ok := cutName(text); ok && name == "mean" {
		return c.readMean(inner, rest)
	}
	left, right, uncertain := cutUncertain(text)
	// Most texts are a number and a unit, and need no further tests. Refusals are slow,
	// as they look for similar units.
	if c.Kind != nil && c.Shape == One && !uncertain && strings.IndexByte(text, '(') < 0 {
		if v, u, err := c.Kind.Parse(text); err == nil {
			return reading{values: []float64{v}, unit: u}, nil
		}
	}
	return c.readSides(left, right, uncertain)
}

// readSides reads the numbers left of ± and, if there is one, the uncertainty right of it.
func (c *Cell) readSides(left, right string, uncertain bool) (reading, error) {
	if spreadWithin(left, right) {
		if c.Shape == One {
			return reading{}, errOneNumber
		}
		return reading{}, errSpreadWithin
	}
	if _, _, again := cutUncertain(right); again {
		return reading{}, errTwoInOne
	}
	numbers, unit, bracket, err := c.split(left)
	if err != nil {
		return reading{}, err
	}
	if c.Shape == One && (len(numbers) > 1 || bracket) {
		return reading{}, notOne(numbers)
	}
	if c.Shape == List {
		if err := thousands(numbers, unit, bracket); err != nil {
			return reading{}, err
		}
	}
	var spread spread
	if uncertain {
		of := c
		if c.Shape == List && len(numbers) == 1 {
			of = c.single()
		}
		if spread, err = of.readSpread(right, unit != ""); err != nil {
			return reading{}, err
		}
		if unit == "" {
			unit = spread.unit
		}
	}
	r, err := c.readNumbers(numbers, unit)
	if err != nil && c.Shape == One {
		if _, _, torn := paperprop.Split(left); torn != nil { // its end is no unit: 5/32 in, 1_000 mm
			return r, torn
		}
	}
	switch {
	case err != nil:
		return r, c.probable(err, numbers, unit, bracket)
	case !uncertain:
		return r, nil
	case r.uncertain != nil:
		return reading{}, errTwoInOne
	}
	r.uncertain, err = spread.over(r, c)
	return r, err
}

// notOne says of a list that one number was wanted, and how to write one whose thousands
// blanks part.
func notOne(numbers []string) error {
	if whole, _ := grouped(numbers); len(whole) == 1 {
		return fmt.Errorf("%w; without blanks between digits it is %s", errOneNumber, whole[0])
	}
	return errOneNumber
}

// probable adds to an error about numbers that share a unit what was probably meant.
func (c *Cell) probable(err error, numbers []string, unit string, bracket bool) error {
	if c.Shape == List {
		if holdsNumber(unit) {
			err = errUnitsBetween
		}
		err = blanksBetween(err, numbers)
	}
	if n := len(numbers) - 1; unit == "" && !bracket && n > 0 && numbers[n] == "1" && c.hasUnit("1") {
		return fmt.Errorf("%w; of the unit 1 write [%s] 1", err, strings.Join(numbers[:n], " "))
	}
	return err
}

// blanksBetween adds how members of a list are parted to an error about one that may be
// several: 1450,900,900 mm.
func blanksBetween(err error, numbers []string) error {
	i := slices.IndexFunc(numbers, func(n string) bool { return strings.Count(n, ",") > 1 })
	if i < 0 {
		return err
	}
	return fmt.Errorf("%w; members of a list have blanks between them: %s", err, strings.ReplaceAll(numbers[i], ",", " "))
}

// readMean reads several readings of one value: their mean, with the uncertainty from
// their spread (JCGM 100:2008, 4.2).
func (c *Cell) readMean(inner, unit string) (reading, error) {
	numbers, _, _, err := splitNumbers("[" + inner + "]")
	if err != nil {
		return reading{}, err
	}
	if whole, _ := grouped(numbers); whole != nil {
		return reading{}, &paperprop.NumberError{Text: strings.Join(numbers, " "), Reason: "blanks between digits, write " + strings.Join(whole, " ")}
	}
	r, err := c.readNumbers(numbers, unit)
	if err != nil {
		return reading{}, err
	}
	if r.uncertain != nil || len(r.values) < 2 {
		return reading{}, errors.New("want mean(READING READING ...) UNIT of two readings or more")
	}
	s, err := result.Summarise(r.values, 0.95)
	if err != nil {
		return reading{}, err
	}
	n := float64(s.Count)
	r.values = []float64{s.Mean}
	r.uncertain = []Uncertain{{Standard: *s.StandardDeviation / math.Sqrt(n), Freedom: n - 1}}
	return r, nil
}

// members splits a list whose members have their own units: "9.5 %; 13 %", also in
// brackets. Bare numbers in brackets are not such members, as they share one unit.
func members(text string) []string {
	text, bracket := strings.CutPrefix(text, "[")
	if bracket {
		var closed bool
		if text, closed = strings.CutSuffix(text, "]"); !closed || strings.ContainsAny(text, "[]") {
			return nil
		}
	}
	var parts []string
	if strings.Contains(text, ";") {
		parts = strings.Split(text, ";")
	} else if strings.Contains(text, ", ") {
		parts = splitOutside(text, ", ")
	}
	if bracket && !slices.ContainsFunc(parts, namesUnit) {
		return nil
	}
	return parts
}

// namesUnit reports whether a text is a number, a blank and a unit.
func namesUnit(text string) bool {
	number, unit, _ := strings.Cut(strings.TrimSpace(text), " ")
	return isNumber(number) && unit != "" && numberEnd(unit) == 0
}

// splitOutside splits a text at separators outside brackets: the comma of "±
// readings(0.4, 5)" splits nothing.
func splitOutside(text, separator string) []string {
	var parts []string
	depth, from := 0, 0
	for i := range len(text) {
		switch {
		case text[i] == '(':
			depth++
		case text[i] == ')':
			depth--
		case depth == 0 && strings.HasPrefix(text[i:], separator):
			parts, from = append(parts, text[from:i]), i+len(separator)
		}
	}
	return append(parts, text[from:])
}

func (c *Cell) readMembers(parts []string) (reading, error) {
	one := c.single()
	read := make([]reading, len(parts))
	for i, part := range parts {
		parts[i] = strings.TrimSpace(part)
		r, err := one.readValues(parts[i])
		if err != nil {
			return reading{}, fmt.Errorf("member %d: %w", i+1, err)
		}
		read[i] = r
	}
	if c.Kind == nil {
		if err := allNamed(parts, read); err != nil {
			return reading{}, err
		}
	}
	var all reading
	for i, r := range read {
		if err := all.join(r, c.Kind == nil); err != nil {
			return reading{}, fmt.Errorf("member %d: %w", i+1, err)
		}
	}
	return all, nil
}

// allNamed refuses a number without a unit beside one that has a unit: among
// percentages 20 would be 2000 %.
func allNamed(parts []string, read []reading) error {
	named := slices.IndexFunc(read, func(r reading) bool { return !pure(r.unit) })
	bare := slices.IndexFunc(read, func(r reading) bool { return r.unit.IsZero() })
	if named < 0 || bare < 0 {
		return nil
	}
	return fmt.Errorf("member %d: %w", bare+1, unitMissing(parts[bare], read[named].unit))
}

// pure reports whether numbers in a unit are the same without it.
func pure(u paperprop.Unit) bool { return u.IsZero() || u.String() == "1" }

func unitMissing(text string, want paperprop.Unit) error {
	return &paperprop.UnitError{Fault: paperprop.MissingUnit, Text: text, Candidates: []string{want.String()}}
}

// join adds a member that was read: a Value is converted to the unit of the first, a
// price must be in its currency.
func (r *reading) join(member reading, convert bool) error {
	switch have, more := r.unit.Currency(), member.unit.Currency(); {
	case len(r.values) == 0:
		r.unit = member.unit
	case convert:
		if err := member.convert(r.unit); err != nil {
			return err
		}
	case have == "":
		r.unit = r.unit.PricedIn(more)
	case more != "" && more != have:
		return &paperprop.ConversionError{From: member.unit, To: r.unit}
	}
	r.add(member.values[0], member.uncertain)
	return nil
}

// add adds a value with its uncertainty, if it has one. As soon as one has, each has one,
// of zero if need be.
func (r *reading) add(value float64, u []Uncertain) {
	r.values = append(r.values, value)
	if len(u) > 0 || r.uncertain != nil {
		without := len(r.values) - len(u) - len(r.uncertain)
		r.uncertain = append(append(r.uncertain, make([]Uncertain, without)...), u...)
	}
}

// convert converts the values and their uncertainties to another unit.
func (r *reading) convert(u paperprop.Unit) (err error) {
	for i, x := range r.values {
		if r.values[i], err = r.unit.Convert(x, u); err != nil {
			return err
		}
	}
	factor, err := r.unit.Difference().Convert(1, u.Difference())
	for i := range r.uncertain {
		r.uncertain[i].Standard *= factor
	}
	r.unit = u
	return err
}

// readNumbers reads numbers that share one unit, each perhaps with its standard
// uncertainty in brackets: 4.0(1).
func (c *Cell) readNumbers(numbers []string, unit string) (reading, error) {
	var r reading
	for _, text := range numbers {
		number, u, concise, err := cutConcise(text)
		if err != nil {
			return reading{}, err
		}
		v, read, err := c.readNumber(number, unit)
		if err != nil {
			return reading{}, err
		}
		r.unit = read
		var spread []Uncertain
		if concise {
			spread = []Uncertain{{Standard: c.differenceUnit(read).From(u)}}
		}
		r.add(v, spread)
	}
	return r, nil
}

func (c *Cell) readNumber(number, unit string) (float64, paperprop.Unit, error) {
	if c.Kind != nil {
		return c.Kind.Parse(strings.TrimSpace(number + " " + unit))
	}
	u, err := c.anyUnit(unit)
	if err != nil {
		return 0, u, err
	}
	v, err := paperprop.ParseNumber(number)
	return v, u, err
}

// anyUnit reads the unit of a Value, which may have none. For a difference of
// temperatures it is the unit of a difference.
func (c *Cell) anyUnit(text string) (paperprop.Unit, error) {
	if text == "" {
		return paperprop.Unit{}, nil
	}
	u, err := paperprop.ParseUnit(text)
	if err != nil || c.follows.how != difference || u.Kind() == nil || u.Kind().Name() != "Temperature" {
		return c.asDeviation(u), err
	}
	k, _ := paperprop.KindNamed("TemperatureDifference")
	return k.Unit(text)
}

// asDeviation returns the unit of a Value that is a deviation, or follows one: 1 degC
// means 1 K there. In other Values only K itself means a difference.
func (c *Cell) asDeviation(u paperprop.Unit) paperprop.Unit {
	r := c.follows
	if r.of != nil && r.of.Deviates || r.how == difference && u.String() == "K" {
		return u.Difference()
	}
	return u
}

// differenceUnit returns the unit of a difference of values in u. A Value is kept as
// written, and so is its difference.
func (c *Cell) differenceUnit(u paperprop.Unit) paperprop.Unit {
	if c.Kind == nil {
		return paperprop.Unit{}
	}
	return u.Difference()
}

// numberEnd returns the index at which the number at the start of a text ends, 0 if
// there is none. A standard uncertainty in brackets, 4.0(1), is part of it. It only
// splits a text; package paperprop decides which numbers are valid.
func numberEnd(text string) int {
	i := skipSign(text, 0)
	digits := skipDigits(text, i)
	end := digits
	if end < len(text) && (text[end] == '.' || text[end] == ',') {
		if after := skipDigits(text, end+1); after > end+1 {
			end = after
		}
	}
	if end == i {
		return 0
	}
	if end < len(text) && (text[end] == 'e' || text[end] == 'E') {
		from := skipSign(text, end+1)
		if from < len(text) && text[from] == '+' {
			from++
		}
		if after := skipDigits(text, from); after > from {
			end = after
		}
	}
	if end < len(text) && text[end] == '(' {
		if after := skipDigits(text, end+1); after > end+1 && after < len(text) && text[after] == ')' {
			end = after + 1
		}
	}
	return end
}

func skipSign(text string, i int) int {
	for _, sign := range []string{"-", "−"} {
		if strings.HasPrefix(text[i:], sign) {
			return i + len(sign)
		}
	}
	return i
}

func skipDigits(text string, i int) int {
	for i < len(text) && text[i] >= '0' && text[i] <= '9' {
		i++
	}
	return i
}

// isNumber reports whether a word is a number and nothing else.
func isNumber(word string) bool { return word != "" && numberEnd(word) == len(word) }

// single returns a cell that takes one of the values that c takes.
func (c *Cell) single() *Cell {
	field := *c.Field
	field.Shape = One
	return &Cell{Field: &field, sheet: c.sheet, follows: c.follows}
}

// split is splitNumbers, except that in a cell of one number everything after it is the
// unit, as some units begin with a digit: "0.05 1", "12 1000 ft2".
func (c *Cell) split(text string) (numbers []string, unit string, bracket bool, err error) {
	numbers, unit, bracket, err = splitNumbers(text)
	if c.Shape != One || bracket || len(numbers) < 2 {
		return numbers, unit, bracket, err
	}
	_, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	rest = strings.TrimSpace(rest)
	if rest == "1" || c.hasUnit(rest) { // 1 is a unit, but not of every input
		numbers, unit = numbers[:1], rest
	}
	return numbers, unit, false, nil
}

// hasUnit reports whether a text is a unit that the cell accepts.
func (c *Cell) hasUnit(text string) bool {
	var err error
	if c.Kind != nil {
		_, err = c.Kind.Unit(text)
	} else {
		_, err = paperprop.ParseUnit(text)
	}
	return err == nil
}

// splitNumbers splits "9.5 13.2 11 %" and "[9.5 13.2 11] %" into the numbers and the
// unit.
func splitNumbers(text string) (numbers []string, unit string, bracket bool, err error) {
	if rest, ok := strings.CutPrefix(text, "["); ok {
		inner, unit, ok := strings.Cut(rest, "]")
		if !ok {
			return nil, "", true, errors.New("bracket [ without ]")
		}
		numbers = strings.FieldsFunc(inner, func(r rune) bool { return strings.ContainsRune(" \t\n;", r) })
		for i, n := range numbers {
			numbers[i] = strings.TrimSuffix(n, ",")
		}
		if err := thousandsWithin(inner); err != nil {
			return nil, "", true, err
		}
		switch {
		case len(numbers) == 0:
			return nil, "", true, errors.New("a list without a number, want one at least in the brackets")
		case slices.ContainsFunc(numbers, bringsUnit):
			return nil, "", true, errUnitsWithin
		}
		return numbers, strings.TrimSpace(unit), true, nil
	}
	rest := strings.TrimSpace(text)
	for rest != "" {
		word, after, _ := strings.Cut(rest, " ")
		if !isNumber(word) {
			break
		}
		numbers, rest = append(numbers, word), strings.TrimSpace(after)
	}
	if len(numbers) == 0 {
		n := numberEnd(rest)
		if n == 0 {
			return nil, "", false, errNoNumber
		}
		for n < len(rest) && strings.IndexByte("0123456789.,", rest[n]) >= 0 {
			n++ // in "5. N" and "1,23,456.5 N" the whole text before the unit is the faulty number
		}
		numbers, rest = []string{rest[:n]}, strings.TrimSpace(rest[n:])
	}
	return numbers, rest, false, nil
}

// holdsNumber reports whether what should be a unit goes on with a number, as in
// "mm 200 mm".
func holdsNumber(unit string) bool {
	_, after, _ := strings.Cut(strings.TrimSpace(unit), " ")
	return slices.ContainsFunc(strings.Fields(after), func(w string) bool { return numberEnd(w) > 0 })
}

// bringsUnit reports whether a member of a list is a unit, or ends in one.
func bringsUnit(member string) bool {
	unit := member[numberEnd(member):]
	if unit == "" {
		return false
	}
	_, err := paperprop.ParseUnit(unit)
	return err == nil
}

// cutConcise splits 4.0(1) into 4.0 and the uncertainty 0.1: the digits in brackets are
// in units of the last digit of the number.
func cutConcise(text string) (number string, u float64, ok bool, err error) {
	number, digits, ok := strings.Cut(strings.TrimSuffix(text, ")"), "(")
	if !ok || !isNumber(digits) { // 0.5bar(g)
		return text, 0, false, nil
	}
	mantissa, exponent := number, ""
	if i := strings.IndexAny(number, "eE"); i >= 0 {
		mantissa, exponent = number[:i], number[i:]
	}
	decimals := 0
	if i := strings.IndexByte(mantissa, '.'); i >= 0 {
		decimals = len(mantissa) - i - 1
	}
	if decimals > 0 {
		for len(digits) <= decimals {
			digits = "0" + digits
		}
		digits = digits[:len(digits)-decimals] + "." + digits[len(digits)-decimals:]
	}
	u, err = paperprop.ParseNumber(digits + exponent)
	return number, u, true, err
}

// cutUncertain splits a text at its sign of uncertainty.
func cutUncertain(text string) (left, right string, ok bool) {
	for _, sign := range []string{"±", "+/-", "+-"} {
		if l, r, ok := strings.Cut(text, sign); ok {
			return strings.TrimSpace(l), strings.TrimSpace(r), true
		}
	}
	return text, "", false
}

// spreadWithin reports whether ± is within brackets: [1.4 ± 0.1].
func spreadWithin(left, right string) bool {
	i := strings.IndexAny(right, "[]")
	return strings.HasPrefix(left, "[") && !strings.Contains(left, "]") && i >= 0 && right[i] == ']'
}
