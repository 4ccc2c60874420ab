package paperprop

import "math"

//go:generate go run ./internal/generate/write

// A kindID is the index of a kind, from 0.
type kindID uint8

// A ratio is an exact factor.
type ratio struct{ num, den uint64 }

// A Kind describes a quantity type: its name, its units and its natural range. There is
// one for each quantity type of this package; it never changes.
type Kind struct {
	name, words     string
	first, count    int // position of its units in the table of units
	print           int // unit to print in, counted from first
	lookup          func(text string) int
	si              ratio // the canonical unit in base units
	dimension       Dimension
	min, max        float64
	bounded, capped bool // min and max mean something
	composes        bool // unlisted units may be composed
	apart           bool // no unit of another kind fits, though the dimension is the same
}

// Kinds returns all kinds, in the order of the documentation.
func Kinds() []*Kind {
	all := make([]*Kind, len(kinds))
	for i := range kinds {
		all[i] = &kinds[i]
	}
	return all
}

// KindNamed returns the kind of the type with the given name, such as "Grammage".
func KindNamed(name string) (*Kind, bool) {
	for i := range kinds {
		if kinds[i].name == name {
			return &kinds[i], true
		}
	}
	return nil, false
}

// Name returns the name of the Go type: "OvenDryMass".
func (k *Kind) Name() string { return k.name }

// Words returns the name in words: "oven-dry mass".
func (k *Kind) Words() string { return k.words }

// Units returns the listed units of k, the canonical one first.
func (k *Kind) Units() []Unit {
	list := make([]Unit, k.count)
	for i := range list {
		list[i] = k.unit(i)
	}
	return list
}

// Canonical returns the unit in which values of the type are kept.
func (k *Kind) Canonical() Unit { return k.unit(0) }

// Print returns the unit that String uses: percent for parts of a whole, otherwise the
// canonical unit.
func (k *Kind) Print() Unit { return k.unit(k.print) }

// Range returns the natural range in the canonical unit: a mass is not below 0. An open
// end is infinite. Parsing does not check the range: see [Kind.Check].
func (k *Kind) Range() (min, max float64) {
	min, max = math.Inf(-1), math.Inf(1)
	if k.bounded {
		min = k.min
	}
	if k.capped {
		max = k.max
	}
	return min, max
}

// Check returns a [RangeError] if a value in the canonical unit lies outside the natural
// range or is not finite. The caller may name its Input.
func (k *Kind) Check(value float64) error {
	if err := k.finite(value); err != nil {
		return err
	}
	if min, max := k.Range(); value < min || value > max {
		return &RangeError{Kind: k, Value: value, Min: min, Max: max, Unit: k.Print()}
	}
	return nil
}

func (k *Kind) unit(i int) Unit { return Unit{&units[k.first+i]} }

// pure reports whether a number of the kind needs no unit.
func (k *Kind) pure() bool { return k == &kinds[kindCount] || k == &kinds[kindRatio] }

// Unit reads a unit of kind k: a listed one by its name, an alias or a plural, in plain
// or typographic letters; or one composed of listed units that has the dimension of k.
// The empty text is the unit 1 of a Count or a Ratio. The error is a [UnitError].
func (k *Kind) Unit(text string) (Unit, error) {
	if i := k.lookup(text); i >= 0 {
		return k.unit(i), nil
	}
	plain := normal(text)
	if i := k.lookup(plain); i >= 0 {
		return k.unit(i), nil
	}
	if u, ok := k.find(spell(text, plain)); ok {
		return u, nil
	}
	if plain == "" {
		return Unit{}, &UnitError{Kind: k, Fault: MissingUnit, Candidates: k.usual()}
	}
	if err := refuse(k, text, plain); err != nil {
		return Unit{}, err
	}
	return Unit{}, k.foreign(text, plain)
}

// A spelling is the text of a unit, read as far as that is the same for all kinds.
type spelling struct {
	text, plain string // as written, and in plain letters
	whole       composed
	composes    bool // whole is what it is composed of
}

func spell(text, plain string) spelling {
	whole, err := (&unitReader{text: plain}).read()
	return spelling{text, plain, whole, err == nil}
}

// find returns the unit of kind k that is spelt so. It does not say what is wrong where there
// is none: to look for what is spelt similarly takes much longer.
func (k *Kind) find(s spelling) (Unit, bool) {
	if s.plain == "" {
		return k.unit(0), k.pure()
	}
	for _, text := range [...]string{s.text, s.plain} {
		if i := k.lookup(text); i >= 0 {
			return k.unit(i), true
		}
	}
	if !k.composes || !s.composes || s.whole.dimension != k.dimension || refuse(k, s.text, s.plain) != nil {
		return Unit{}, false
	}
	return s.whole.unit(s.plain, k), true
}
