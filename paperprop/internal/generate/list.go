package generate

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"
)

// A list is the content of units.csv.
type list struct {
	kinds   []*kind
	refused []refusal
}

type kind struct {
	name, about string
	parent      string // the kind whose units it shares
	suffix      string // appended to shared units: "(g)"
	si          string // the canonical unit in base units: "1/1000 kg m-2"
	min, max    string // of the natural range; empty is open
	apart       bool   // no unit of another kind converts to one of this
	printed     string // name of the unit to print in; empty is the canonical one
	units       []*unit
	listed      int    // how many of them are its own
	print       int    // index of the unit to print in
	first       int    // index of its first unit among all units
	lookup      string // name of the function that finds its units
}

type unit struct {
	name     string
	aliases  []string
	constant string
	factor   *big.Rat
	offset   *big.Rat // canonical, nil for none
	radian   bool
}

type refusal struct {
	kind                  string
	spellings, candidates []string
	note                  string
}

// read reads units.csv. The rows of a kind need not be adjacent: they are gathered by
// name.
func read(source []byte) (*list, error) {
	rows, err := csv.NewReader(bytes.NewReader(source)).ReadAll()
	if err != nil {
		return nil, err
	}
	l := &list{}
	byName := map[string]*kind{}
	for i, cells := range rows[1:] {
		row := map[string]string{}
		for j, head := range rows[0] {
			row[head] = cells[j]
		}
		if row["type"] == "refused" {
			l.refused = append(l.refused, refused(row))
			continue
		}
		k := byName[row["type"]]
		if k == nil {
			k = &kind{name: row["type"]}
			byName[k.name] = k
			l.kinds = append(l.kinds, k)
		}
		if err := k.add(row); err != nil {
			return nil, fmt.Errorf("units.csv:%d: %w", i+2, err)
		}
	}
	return l, l.finish(byName)
}

func refused(row map[string]string) refusal {
	r := refusal{kind: row["like"], spellings: append([]string{row["unit"]}, split(row["aliases"])...)}
	candidates, note, _ := strings.Cut(row["note"], ": ")
	r.candidates, r.note = strings.Split(candidates, " | "), note
	for _, s := range r.spellings {
		if plain := normal(s); plain != s {
			r.spellings = append(r.spellings, plain)
		}
	}
	return r
}

func (k *kind) add(row map[string]string) error {
	u := &unit{name: row["unit"], aliases: split(row["aliases"]), constant: row["go"]}
	k.units = append(k.units, u)
	if row["canonical"] == "yes" {
		if len(k.units) > 1 {
			return fmt.Errorf("the canonical unit of %s must come first", k.name)
		}
		k.about, k.si, k.min, k.max, k.apart = row["about"], row["si"], row["min"], row["max"], row["apart"] == "yes"
		k.parent = row["like"]
		if parent, suffix, ok := strings.Cut(k.parent, "("); ok && !strings.ContainsAny(k.parent, "*/") {
			k.parent, k.suffix = parent, "("+suffix
		}
		k.printed = row["print"]
	}
	if row["factor"] == "180/pi" {
		u.radian = true
		u.factor = radian()
		return nil
	}
	var ok bool
	if u.factor, ok = new(big.Rat).SetString(row["factor"]); !ok {
		return fmt.Errorf("factor %q is no number", row["factor"])
	}
	if row["offset"] != "" {
		if u.offset, ok = new(big.Rat).SetString(row["offset"]); !ok {
			return fmt.Errorf("offset %q is no number", row["offset"])
		}
	}
	return nil
}

// finish gives each kind the units of its parent, and numbers all units.
func (l *list) finish(byName map[string]*kind) error {
	count, bodies := 0, map[string]string{}
	for _, k := range l.kinds {
		if k.listed = len(k.units); byName[k.parent] != nil {
			if err := k.inherit(byName[k.parent]); err != nil {
				return err
			}
		}
		if k.printed != "" {
			if k.print = slices.IndexFunc(k.units, func(u *unit) bool { return u.name == k.printed }); k.print < 0 {
				return fmt.Errorf("%s has no unit %s to print in", k.name, k.printed)
			}
		}
		body := fmt.Sprint(k.cases())
		if bodies[body] == "" {
			bodies[body] = "lookup" + k.name
		}
		k.lookup = bodies[body]
		k.first, count = count, count+len(k.units)
		for _, u := range k.units {
			if !u.factor.Num().IsUint64() || !u.factor.Denom().IsUint64() {
				return fmt.Errorf("the factor of %s %s does not fit: %s", k.name, u.name, u.factor)
			}
		}
	}
	return nil
}

// inherit adds the units and aliases of the parent that k does not list itself, with
// factors for the canonical unit of k.
func (k *kind) inherit(parent *kind) error {
	own := map[string]*unit{}
	for _, u := range k.units {
		for _, spelling := range append(u.aliases, u.name) {
			own[spelling] = u
		}
	}
	scale := new(big.Rat).Quo(siFactor(parent.si), siFactor(k.si))
	for _, p := range parent.units {
		name, factor := p.name+k.suffix, new(big.Rat).Mul(p.factor, scale)
		u := own[name]
		if u == nil {
			u = &unit{name: name, factor: factor}
			k.units = append(k.units, u)
		} else if u.factor.Cmp(factor) != 0 {
			return fmt.Errorf("%s of %s differs from that of %s", name, k.name, parent.name)
		}
		for _, a := range p.aliases {
			if a += k.suffix; own[a] == nil {
				u.aliases = append(u.aliases, a)
			}
		}
	}
	return nil
}

func siFactor(si string) *big.Rat {
	number, _, _ := strings.Cut(si, " ")
	f, ok := new(big.Rat).SetString(number)
	if !ok {
		panic("units.csv: bad si column: " + si)
	}
	return f
}

// radian returns 180/π as the best fraction of 64-bit whole numbers, correct to 1e-36,
// by continued fractions from 50 digits of π.
func radian() *big.Rat {
	pi, _ := new(big.Rat).SetString("3.14159265358979323846264338327950288419716939937510")
	x := new(big.Rat).Quo(big.NewRat(180, 1), pi)
	p0, q0, p1, q1 := big.NewInt(0), big.NewInt(1), big.NewInt(1), big.NewInt(0)
	for {
		a := new(big.Int).Quo(x.Num(), x.Denom())
		p := new(big.Int).Add(new(big.Int).Mul(a, p1), p0)
		q := new(big.Int).Add(new(big.Int).Mul(a, q1), q0)
		if !p.IsUint64() || !q.IsUint64() {
			return new(big.Rat).SetFrac(p1, q1)
		}
		p0, q0, p1, q1 = p1, q1, p, q
		x.Sub(x, new(big.Rat).SetInt(a)).Inv(x)
	}
}

// A spelled unit is a unit with all its spellings.
type spelled struct {
	texts []string
	unit  int
}

// cases returns the spellings of all units of k.
func (k *kind) cases() []spelled {
	taken := map[string]bool{}
	for _, u := range k.units {
		taken[u.name] = true
	}
	var cases []spelled
	for i, u := range k.units {
		cases = append(cases, spelled{u.spellings(taken), i})
	}
	return cases
}

// spellings returns the name and the aliases, with their plurals and plain-letter
// forms, except spellings that are already taken.
func (u *unit) spellings(taken map[string]bool) []string {
	texts := []string{u.name}
	for _, a := range append([]string{u.name}, u.aliases...) {
		for _, t := range []string{a, normal(a), plural(a)} {
			if t != "" && !taken[t] {
				taken[t] = true
				texts = append(texts, t)
			}
		}
	}
	return texts
}

// atoms returns the units that others may be composed of: simple ones and, of the
// temperature units, those of differences.
func (l *list) atoms() []spelled {
	taken := map[string]bool{}
	var all []spelled
	for _, k := range l.kinds {
		if k.si == "1" && k.name != "Count" || k.name == "Dosage" || k.affine() || k.apart && k.name != "Count" && k.name != "TemperatureDifference" {
			continue
		}
		for i, u := range k.units[:k.listed] {
			texts := slices.DeleteFunc(u.spellings(map[string]bool{}), func(t string) bool {
				return strings.ContainsAny(t, "/.()·⋅") || t == "1" || taken[t]
			})
			if k.name == "TemperatureDifference" {
				texts = append(texts, map[int][]string{0: {"degC", "celsius"}, 1: {"degF", "fahrenheit"}}[i]...)
			}
			slices.Sort(texts)
			texts = slices.Compact(texts)
			for _, t := range texts {
				taken[t] = true
			}
			all = append(all, spelled{texts, k.first + i})
		}
	}
	return all
}

// any returns every unit with its name and those aliases that do not name another unit;
// a spelling shared by several kinds goes to the first.
func (l *list) any() []spelled {
	taken := map[string]bool{"1": true}
	var all []spelled
	for _, k := range l.kinds {
		for i, u := range k.units {
			s := spelled{unit: k.first + i}
			if !taken[u.name] {
				taken[u.name] = true
				s.texts = []string{u.name}
			}
			all = append(all, s)
		}
	}
	n := 0
	for _, k := range l.kinds {
		for _, u := range k.units {
			for _, t := range u.spellings(map[string]bool{u.name: true})[1:] {
				if !taken[t] {
					taken[t] = true
					all[n].texts = append(all[n].texts, t)
				}
			}
			n++
		}
	}
	return all
}

func (k *kind) affine() bool {
	return slices.ContainsFunc(k.units, func(u *unit) bool { return u.offset != nil })
}

// composes reports whether unlisted units of k may be composed. They may not for a pure
// number, a temperature, or a gauge or absolute pressure.
func (k *kind) composes() bool {
	return strings.Contains(k.si, " ") && k.si != "1 K" && k.suffix == ""
}

// words returns the name in words: "oven-dry mass".
func (k *kind) words() string {
	var b strings.Builder
	for i, r := range k.name {
		if i > 0 && unicode.IsUpper(r) {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return strings.NewReplacer("oven dry ", "oven-dry ", "air dry ", "air-dry ").Replace(b.String())
}

func (k *kind) rangeText() string {
	unit := " " + k.units[0].name
	if unit == " 1" {
		unit = ""
	}
	switch {
	case k.min != "" && k.max != "":
		return fmt.Sprintf(", its natural range %s to %s%s", k.min, k.max, unit)
	case k.min != "":
		return fmt.Sprintf(", its natural range %s%s and above", k.min, unit)
	}
	return ""
}

func (k *kind) literal() string {
	si := siFactor(k.si)
	text := fmt.Sprintf("name: %q, words: %q, first: %d, count: %d, print: %d, lookup: %s, si: ratio{%s, %s}, dimension: %s",
		k.name, k.words(), k.first, len(k.units), k.print, k.lookup, si.Num(), si.Denom(), k.dimension())
	if k.min != "" {
		text += fmt.Sprintf(", min: %s, bounded: true", k.min)
	}
	if k.max != "" {
		text += fmt.Sprintf(", max: %s, capped: true", k.max)
	}
	if k.composes() {
		text += ", composes: true"
	}
	if k.apart {
		text += ", apart: true"
	}
	return text
}

func (k *kind) dimension() string {
	bases := []string{"kg", "m", "s", "K", "mol", "A", "deg"}
	powers := make([]string, len(bases))
	for i := range powers {
		powers[i] = "0"
	}
	for _, word := range strings.Fields(k.si)[1:] {
		base := strings.TrimRight(word, "-0123456789")
		powers[slices.Index(bases, base)] = cmp.Or(strings.TrimPrefix(word, base), "1")
	}
	return "Dimension{" + strings.Join(powers, ", ") + "}"
}

// literal writes u for the table. The shift is added to the number times num before the
// division by den.
func (u *unit) literal(k *kind) string {
	num, den := new(big.Int).Set(u.factor.Num()), new(big.Int).Set(u.factor.Denom())
	shift := ""
	if u.offset != nil {
		common := new(big.Rat).SetInt(u.offset.Denom())
		common.Quo(common, new(big.Rat).SetInt(den))
		if !common.IsInt() {
			panic("units.csv: the denominator of an offset must be a multiple of the factor's")
		}
		num.Mul(num, common.Num())
		den.Mul(den, common.Num())
		shift = fmt.Sprintf(", shift: %s", u.offset.Num())
	}
	return fmt.Sprintf("name: %q, also: %q, kind: kind%s, factor: %s, exact: ratio{%s, %s}%s",
		u.name, strings.Join(u.aliases, ","), k.name, u.expression(), num, den, shift)
}

// expression returns the factor as a Go expression: a quotient the compiler rounds.
func (u *unit) expression() string {
	switch {
	case u.radian:
		return "180 / math.Pi"
	case u.factor.IsInt():
		return u.factor.Num().String()
	}
	return u.factor.Num().String() + ".0 / " + u.factor.Denom().String()
}

func split(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, ",")
}

var plain = strings.NewReplacer("µ", "u", "μ", "u", "²", "2", "³", "3", "°C", "degC", "°F", "degF", "·", ".", "⋅", ".", "Ω", "ohm")

func normal(text string) string { return plain.Replace(text) }

// plural returns the plural of a word, or of a name that ends in one. It is empty for a
// symbol.
func plural(text string) string {
	last := text[strings.LastIndexByte(text, ' ')+1:]
	switch last {
	case "inch":
		return text + "es"
	case "kilogram", "gram", "milligram", "tonne", "pound", "ounce", "grain", "ton", "millimetre", "millimeter", "nanometre", "micrometre",
		"micron", "mil", "centimetre", "metre", "meter", "kilometre", "yard", "mile", "point", "minute", "millisecond", "second", "hour", "day",
		"week", "kelvin", "newton", "decanewton", "mole", "degree", "radian", "million", "reel", "litre", "liter", "gallon", "unit", "joule", "watt", "kilowatt", "volt", "ampere":
		return text + "s"
	}
	return ""
}
