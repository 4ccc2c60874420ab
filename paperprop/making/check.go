package making

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
)

// check returns an error that names all figures that are missing or invalid.
func (b *Book) check() error {
	var f faults
	if b.Start.IsZero() {
		f.add("start missing, want when the machine is free, such as start = 2026-11-30T06:00:00")
	}
	f.length("machine.deckle", b.Machine.Deckle, "3300 mm")
	f.length("jumbo.diameter", b.Jumbo.Diameter, "2.3 m")
	f.below("jumbo.spool", float64(b.Jumbo.Spool), b.Jumbo.Spool)
	f.below("jumbo.lost", float64(b.Jumbo.Lost), b.Jumbo.Lost)
	f.duration("change.time", b.Change.Time)
	f.below("change.loss", float64(b.Change.Loss), b.Change.Loss)
	f.duration("handling", b.Handling)
	f.below("yard", float64(b.Yard), b.Yard)
	if b.Jumbo.Diameter > 0 && b.Jumbo.Spool >= b.Jumbo.Diameter {
		f.add("jumbo.diameter is %v, want above its spool, %v", b.Jumbo.Diameter, b.Jumbo.Spool)
	}
	if len(b.Grades) == 0 {
		f.add("no grade, want [[grade]] with name, grammage and reel-thickness")
	}
	var names []string
	for i := range b.Grades {
		g := &b.Grades[i]
		switch {
		case g.Name == "":
			f.add("grade %d: name missing", i+1)
		case slices.Contains(names, g.Name):
			f.add("grade %q appears twice", g.Name)
		}
		names = append(names, g.Name)
		f.grade(g)
	}
	for i, name := range b.Sequence {
		switch {
		case !slices.Contains(names, name):
			f.add("sequence: %q is no grade of the book%s", name, near(name, names))
		case slices.Contains(b.Sequence[:i], name):
			f.add("sequence: %q appears twice: each grade runs once", name)
		}
	}
	if b.Running != "" && !slices.Contains(names, b.Running) {
		f.add("running: %q is no grade of the book%s", b.Running, near(b.Running, names))
	}
	if len(b.Orders) == 0 && len(b.Bad) == 0 {
		f.add("no order")
	}
	for i := range b.Orders {
		f.order(i, &b.Orders[i])
	}
	if b.Broke > TrimIncluded {
		f.add("broke is %d, want BesideTrim or TrimIncluded", b.Broke)
	}
	if b.Limit < 0 {
		f.add("limit is %v, want a time such as 20s, or zero for none", b.Limit)
	}
	if b.File != "" {
		for i, err := range f {
			f[i] = fmt.Errorf("%s: %w", b.File, err)
		}
	}
	return errors.Join(f...)
}

// faults collects what is wrong with a book.
type faults []error

func (f *faults) add(format string, args ...any) { *f = append(*f, fmt.Errorf(format, args...)) }

// order refuses values that are not finite, which only a program can give: no plan
// could report on them. Anything else that can't be made is left out of the plan,
// with the reason.
func (f *faults) order(i int, o *Order) {
	if w := float64(o.Width); w-w != 0 {
		f.add("order %d: width is %v, want above 0 mm", i+1, o.Width)
	}
	if m := float64(o.Mass); m-m != 0 {
		f.add("order %d: ordered-mass is %v, want above 0 kg", i+1, o.Mass)
	}
}

// grade checks the figures of a grade.
func (f *faults) grade(g *Grade) {
	if g.Line == nil {
		f.add("grade %q: line missing", g.Name)
	}
	switch {
	case g.Grammage == 0:
		f.add("grade %q: grammage missing, want one such as \"120 g/m2\"", g.Name)
	case !(g.Grammage > 0):
		f.add("grade %q: grammage is %v, want above 0 g/m2", g.Name, g.Grammage)
	}
	f.length(fmt.Sprintf("grade %q: reel-thickness", g.Name), g.ReelThickness, "186 um")
	f.below(fmt.Sprintf("grade %q: jumbo-thickness", g.Name), float64(g.JumboThickness), g.JumboThickness)
	if !(g.Uptime >= 0 && g.Uptime <= 1) {
		f.add("grade %q: uptime is %v, want above 0 %% to 100 %%", g.Name, g.Uptime)
	}
}

// length refuses a length that is not above zero.
func (f *faults) length(name string, l paperprop.Length, example string) {
	switch {
	case l == 0:
		f.add("%s missing, want one such as %q", name, example)
	case !(l > 0) || math.IsInf(float64(l), 0):
		f.add("%s is %v, want above 0 mm", name, l)
	}
}

// below refuses a value below zero, or not finite.
func (f *faults) below(name string, x float64, text fmt.Stringer) {
	if !(x >= 0) || math.IsInf(x, 0) {
		f.add("%s is %v, want from 0", name, text)
	}
}

// duration refuses a time below zero, or longer than a plan may take.
func (f *faults) duration(name string, d paperprop.Duration) {
	if d >= paperprop.Duration(century.Hours())*paperprop.Hour && !math.IsInf(float64(d), 0) {
		f.add("%s is %v, want below a hundred years", name, d)
		return
	}
	f.below(name, float64(d), d)
}
