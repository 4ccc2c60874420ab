package paperprop

import (
	"errors"
	"math/bits"
	"slices"
	"strings"
	"sync"

	"millmaths.example/paperprop/internal/wording"
)

// A refusal is a spelling that means more than one unit or, for one kind, a unit of
// another quantity that is often written by mistake.
type refusal struct {
	kind                  kindID // noKind: for all kinds
	spellings, candidates string // separated by commas
	note                  string
}

// refuse returns the error for a spelling that k, or every kind, refuses; else nil.
func refuse(k *Kind, text, plain string) error {
	if powered(text) {
		return &UnitError{Kind: k, Text: wording.Clip(text), Fault: MalformedUnit, Reason: "a power of ten goes with the number, as 1.2e5 for 1.2×10^5"}
	}
	for _, r := range refusals {
		if r.kind != noKind && k != &kinds[r.kind] || !lists(r.spellings, text) && !lists(r.spellings, plain) {
			continue
		}
		e := &UnitError{Kind: k, Text: text, Fault: AmbiguousUnit, Candidates: strings.Split(r.candidates, ","), Reason: r.note}
		if r.kind != noKind {
			e.Fault = ForeignUnit
		}
		return e
	}
	return nil
}

// powered reports whether the text behind a number is not its unit yet, but a power of ten
// or of the number: "×10^5 kg", "^5 kg".
func powered(text string) bool {
	times := strings.TrimLeft(text, " ×xX*·⋅.")
	if ten, ok := strings.CutPrefix(times, "10"); ok {
		text = ten
	}
	for _, sign := range [...]string{"^", "**", "⁻", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"} {
		if strings.HasPrefix(text, sign) {
			return true
		}
	}
	return false
}

func lists(list, text string) bool {
	for list != "" {
		var first string
		if first, list, _ = strings.Cut(list, ","); first == text {
			return true
		}
	}
	return false
}

// usual names two units as examples: the one to print in and the next in the list or,
// if the first is percent, another whose factor is 1.
func (k *Kind) usual() []string {
	if k.pure() {
		return []string{"a number alone"}
	}
	names := []string{k.Print().String()}
	for i := 1; i < k.count && len(names) < 2; i++ {
		if k.print == 0 || k.unit(i).u.factor == 1 {
			names = append(names, k.unit(i).u.name)
		}
	}
	return names
}

// foreign returns the error for a unit that k neither lists nor can compose: a unit of
// another kind, or no unit at all.
func (k *Kind) foreign(text, plain string) error {
	if _, err := parseUnit(text, plain); err != nil {
		return near(err, k, text, plain)
	}
	return &UnitError{Kind: k, Text: text, Fault: ForeignUnit, Candidates: k.usual()}
}

// near completes the error for an unknown unit with units of k, or of all kinds if k is
// nil, that are spelt similarly.
func near(err error, k *Kind, text, plain string) error {
	var e *UnitError
	if !errors.As(err, &e) {
		return err
	}
	e.Kind = k
	if e.Fault != UnknownUnit {
		return e
	}
	word := e.Text
	if k != nil && k.pure() {
		e.Fault, e.Text, e.Candidates = ForeignUnit, wording.Clip(text), k.usual()
		return e
	}
	e.Candidates = nearest(k, plain)
	if e.Candidates == nil && word != plain && nearest(nil, plain) == nil { // else it is the whole that is unknown
		if e.Candidates = nearest(nil, word); !slices.Contains(e.Candidates, word) {
			return e
		}
		e.Candidates = nil // a unit that cannot be composed with others
	}
	e.Text = wording.Clip(text)
	return e
}

// inText gives the error for a missing unit the text that lacks the unit.
func inText(err error, text string) error {
	var e *UnitError
	if errors.As(err, &e) && e.Fault == MissingUnit && e.Text == "" {
		e.Text = wording.Clip(text)
	}
	return err
}

// A listedSpelling is a name of a unit, or another spelling of it.
type listedSpelling struct {
	text    string
	letters uint32
	unit    int // index
}

var (
	listSpellings   sync.Once
	listedSpellings []listedSpelling
)

// spellings returns those of all units, in the order of these. They are parted when the first
// text is refused, which few programs come to.
func spellings() []listedSpelling {
	listSpellings.Do(func() {
		for i := range units {
			for text := range strings.SplitSeq(units[i].name+","+units[i].also, ",") {
				if text != "" {
					listedSpellings = append(listedSpellings, listedSpelling{text, lettersOf(text), i})
				}
			}
		}
	})
	return listedSpellings
}

// lettersOf returns the set of letters in a text, be they large or small, without the signs
// of a product. Some others share a place with them.
func lettersOf(text string) (set uint32) {
	for i := range len(text) {
		if c := text[i]; c != '.' && c != ' ' {
			set |= 1 << (c & 31)
		}
	}
	return set
}

// isJoined reports whether text is a spelling without the signs of its products.
func isJoined(text, spelling string) bool {
	for i := range len(spelling) {
		switch {
		case text != "" && text[0] == spelling[i]:
			text = text[1:]
		case spelling[i] != '.' && spelling[i] != ' ':
			return false
		}
	}
	return text == ""
}

// nearest returns at most four spellings that text may be a misspelling of: they differ
// by the signs of a product ("Nm" is N.m, and only then nm), in letter case, or in at
// most two letters and no more than half of them.
func nearest(k *Kind, text string) []string {
	if len(text) > maxLength {
		return nil
	}
	type slip struct {
		spelling string
		distance int
	}
	var slips []slip
	letters, most := lettersOf(text), min(2, len(text)/2)
	for _, l := range spellings() {
		d := 0
		switch {
		case k != nil && (l.unit < k.first || l.unit >= k.first+k.count):
			continue
		case bits.OnesCount32(letters&^l.letters) > most, bits.OnesCount32(l.letters&^letters) > most:
			continue // so is the distance, which takes longer to find
		case isJoined(text, l.text):
			d = -1
		case !strings.EqualFold(text, l.text):
			d = wording.Distance(text, l.text)
		}
		if d <= most && !slices.ContainsFunc(slips, func(s slip) bool { return s.spelling == l.text }) {
			slips = append(slips, slip{l.text, d})
		}
	}
	slices.SortStableFunc(slips, func(a, b slip) int { return a.distance - b.distance })
	var names []string
	for _, s := range slips[:min(4, len(slips))] {
		names = append(names, s.spelling)
	}
	return names
}
