package paperprop

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strings"
	"unicode"

	"millmaths.example/paperprop/internal/wording"
)

// Convert converts a value such as "42 lb/1000ft2" to the unit to, such as "g/m2", and
// returns the number x and that unit as u, named as it was asked for if its listed name is
// that of another unit, as t/h is for odt/h. It looks for a kind of quantity that has
// both units, else for two composed units of one dimension. The decimal text is
// multiplied by the exact factor and rounded once, so a result that is a finite decimal
// comes out as that decimal. The error is a [NumberError], a [UnitError], a
// [ConversionError], or a [RangeError] for a temperature below absolute zero.
func Convert(value, to string) (x float64, u Unit, err error) {
	_, number, unit, err := split(value)
	if err != nil {
		return 0, Unit{}, err
	}
	to = trim(to)
	from, u, err := pair(unit, to)
	if err != nil {
		if whole := ungrouped(trim(value), len(number)); whole != "" {
			return 0, Unit{}, &NumberError{Text: wording.Clip(value), Reason: "blanks between digits, write " + whole}
		}
		return 0, Unit{}, forceMeant(inText(err, value), number, unit, to)
	}
	if !from.fits(u) {
		return 0, Unit{}, &ConversionError{From: from, To: u}
	}
	exact := rat(number, '.')
	if k := from.Kind(); k == &kinds[kindTemperature] {
		if v, err := rounded(value, from.exactly(exact)); err == nil && v < k.min {
			return 0, Unit{}, &RangeError{Input: "value", Kind: k, Value: v, Min: k.min, Max: math.Inf(1), Unit: from, Text: value}
		}
	}
	x, err = rounded(trim(value), between(exact, from, u))
	return x, u.askedAs(to), err
}

// askedAs returns u under the name by which somebody asked for it, if only that tells what
// it measures: odt/d is listed as t/d, which alone is a mass flow with its water. So with
// all quotients: kg/t is listed as g/kg, but whoever doses asks for the first. A name that
// begins with a digit can't stand behind a number.
func (u Unit) askedAs(text string) Unit {
	plain := normal(text)
	letters := strings.NewReplacer(".", " ")
	if plain == "" || plain[0] <= '9' || letters.Replace(plain) == letters.Replace(u.String()) || u.Kind() == nil {
		return u
	}
	own, _ := ParseUnit(u.String())
	if asked, err := u.Kind().Unit(plain); err != nil || asked != u || own == u && !strings.Contains(plain, "/") {
		return u
	}
	named := *u.u
	named.name = plain
	return Unit{&named}
}

// forceMeant adds to an error that a mass was written where the unit to takes a force
// of the same name: pounds per inch for pounds-force per inch.
func forceMeant(err error, number, from, to string) error {
	var e *UnitError
	v, unknown := ParseUnit(to)
	if unknown != nil || !errors.As(err, &e) || e.Fault != ForeignUnit {
		return err
	}
	isLetter := func(c rune) bool { return unicode.IsLetter(c) }
	for _, mass := range []string{"lbs", "lb", "kg", "g"} {
		at := strings.Index(from, mass)
		if at < 0 || strings.ContainsFunc(from[:at], isLetter) || strings.IndexFunc(from[at+len(mass):], isLetter) == 0 {
			continue // no word of its own, or not the first
		}
		force := strings.TrimSuffix(mass, "s") + "f"
		whole := from[:at] + force + from[at+len(mass):]
		if u, unknown := ParseUnit(whole); unknown == nil && u.fits(v) {
			e.Candidates, e.Reason = nil, fmt.Sprintf("%s is a mass, a force is %s: %s %s", mass, force, wording.Clip(number), whole)
			return err
		}
	}
	return err
}

// pair reads two units that measure the same quantity.
func pair(from, to string) (u, v Unit, err error) {
	plain, plainTo := normal(from), normal(to)
	for i := range kinds {
		k := &kinds[i]
		if j, n := k.lookup(plain), k.lookup(plainTo); j >= 0 && n >= 0 {
			return k.unit(j), k.unit(n), nil
		}
	}
	f, t := spell(from, plain), spell(to, plainTo)
	for i := range kinds {
		if u, ok := kinds[i].find(f); ok {
			if v, ok := kinds[i].find(t); ok {
				return u, v, nil
			}
		}
	}
	return pairOfNoKind(from, to)
}

// pairOfNoKind reads two units that no single kind has, or returns what is wrong.
func pairOfNoKind(from, to string) (u, v Unit, err error) {
	if from == "" {
		return u, v, &UnitError{Fault: MissingUnit}
	}
	if u, err = ParseUnit(from); err != nil {
		return u, v, err
	}
	if v, err = ParseUnit(to); err != nil {
		return u, v, err
	}
	if !u.fits(v) {
		if k := u.Kind(); k != nil {
			_, err = k.Unit(cmp.Or(to, "1"))
			return u, v, err
		}
		return u, v, &ConversionError{From: u, To: v}
	}
	return u, v, nil
}
