package calc

import (
	"math"
	"slices"

	"millmaths.example/paperprop"
)

// A binding holds a field that is not a single float64: a list, a pointer, a word. It
// hides the type of the field.
type binding interface {
	present() bool
	finite() bool
	length() int
	at(i int) float64
	set(values []float64)
	word() string
	setWord(w string)
}

// listed binds a slice. Its array is reused from row to row.
type listed[Q ~float64] struct{ p *[]Q }

func (l *listed[Q]) present() bool    { return len(*l.p) > 0 }
func (l *listed[Q]) length() int      { return len(*l.p) }
func (l *listed[Q]) at(i int) float64 { return float64((*l.p)[i]) }

func (l *listed[Q]) set(values []float64) {
	*l.p = (*l.p)[:0]
	for _, v := range values {
		*l.p = append(*l.p, Q(v))
	}
}

func (l *listed[Q]) finite() bool {
	for _, v := range *l.p {
		if !(math.Abs(float64(v)) <= largest) {
			return false
		}
	}
	return true
}

func (l *listed[Q]) word() string   { return "" }
func (l *listed[Q]) setWord(string) {}

// pointed binds a pointer; nil means not given.
type pointed[Q ~float64] struct {
	p     **Q
	value Q
}

func (l *pointed[Q]) present() bool { return *l.p != nil }

func (l *pointed[Q]) length() int {
	if *l.p == nil {
		return 0
	}
	return 1
}

func (l *pointed[Q]) at(int) float64 { return float64(**l.p) }

func (l *pointed[Q]) set(values []float64) {
	if *l.p = nil; len(values) > 0 {
		l.value = Q(values[0])
		*l.p = &l.value
	}
}

func (l *pointed[Q]) finite() bool   { return *l.p == nil || math.Abs(float64(**l.p)) <= largest }
func (l *pointed[Q]) word() string   { return "" }
func (l *pointed[Q]) setWord(string) {}

// worded binds a word or a text; empty means not given.
type worded[W ~string] struct{ p *W }

func (l *worded[W]) present() bool    { return *l.p != "" }
func (l *worded[W]) length() int      { return 0 }
func (l *worded[W]) at(int) float64   { return 0 }
func (l *worded[W]) finite() bool     { return true }
func (l *worded[W]) word() string     { return string(*l.p) }
func (l *worded[W]) setWord(w string) { *l.p = W(w) }

func (l *worded[W]) set(values []float64) {
	if len(values) == 0 {
		*l.p = ""
	}
}

// checkBound checks a list, a pointer or a word against the guard.
func (c *Cell) checkBound(g *guard) error {
	if c.Shape == Word {
		return c.checkWord(c.bound.word())
	}
	if c.Shape == List && !c.bound.present() {
		return &MissingError{Input: c.Field}
	}
	for i := range c.bound.length() {
		if v := c.bound.at(i); !g.takes(v) {
			return c.rangeError(v, i)
		}
	}
	return nil
}

// Check returns an error if the value of an input is outside its range. An output has
// no range.
func (c *Cell) Check() error {
	if c.output {
		return nil
	}
	g := &c.sheet.guards[c.index]
	if g.number == nil {
		return c.checkBound(g)
	}
	if !g.takes(*g.number) {
		return c.rangeError(*g.number, 0)
	}
	return nil
}

func (c *Cell) checkWord(w string) error {
	switch {
	case slices.Contains(c.Choices, w):
		return nil
	case w == "":
		return &MissingError{Input: c.Field}
	}
	return &WordError{Input: c.Field, Text: w}
}

// evenLists checks that lists which belong together have the same length.
func (s *Sheet) evenLists() error {
	for _, cells := range s.even {
		first := cells[0]
		for _, c := range cells[1:] {
			if n := c.bound.length(); n != first.bound.length() && (n != 0 || c.Need == Required) {
				return &LengthError{Input: c.Field, Got: n, Other: first.Field, Want: first.bound.length()}
			}
		}
	}
	return nil
}

func (c *Cell) put(v float64) {
	if c.number != nil {
		*c.number = v
	} else {
		c.bound.set([]float64{v})
	}
}

// putMember is put for one member of a list, or the one number of another cell.
func (c *Cell) putMember(i int, v float64) {
	if c.number != nil {
		*c.number = v
		return
	}
	values := c.Numbers()
	values[i] = v
	c.bound.set(values)
}

func (c *Cell) clear() {
	if c.number != nil {
		*c.number = 0
	} else {
		c.bound.set(nil)
	}
}

// rangeError returns the error for the value v, which for a list is that of a member.
func (c *Cell) rangeError(v float64, member int) error {
	name := c.Name
	if c.Shape == List {
		name = memberName(c.Name, member)
	}
	unit, text := c.written()
	if c.Whole && v != math.Trunc(v) && v >= c.Low && v <= c.High {
		return &WholeError{Input: name, Value: v, Text: text}
	}
	low, high := c.Low, c.High
	if c.Kind == nil && !unit.IsZero() { // a Value keeps its number in its unit
		v, low, high = unit.From(v), unit.From(low), unit.From(high)
	}
	return &paperprop.RangeError{
		Input: name, Kind: c.Kind, Value: v, Min: low, Max: high,
		AboveMin: c.AboveLow, BelowMax: c.BelowHigh, Unit: unit, Text: text,
	}
}
