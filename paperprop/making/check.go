package making

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/strict"
)

// check returns an error that names all figures that are missing or invalid.
func (b *Book) check() error {
	f := faults{book: b}
	if b.Start.IsZero() {
		f.add("start", "start missing, want when the machine is free, such as start = 2026-11-30T06:00:00")
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
		f.add("jumbo.diameter", "jumbo.diameter is %s, want above its spool, %s",
			f.written("jumbo.diameter", float64(b.Jumbo.Diameter), b.Jumbo.Diameter), f.written("jumbo.spool", float64(b.Jumbo.Spool), b.Jumbo.Spool))
	}
	if len(b.Grades) == 0 {
		f.add("", "no grade, want [[grade]] with name, grammage and reel-thickness")
	}
	var names []string
	for i := range b.Grades {
		g, key := &b.Grades[i], strict.Member("grade", i)
		switch {
		case g.Name == "":
			f.add(key+".name", "grade %d: name missing", i+1)
		case slices.Contains(names, g.Name):
			f.add(key+".name", "grade %q appears twice", g.Name)
		}
		names = append(names, g.Name)
		f.grade(key, g)
	}
	for i, name := range b.Sequence {
		switch {
		case !slices.Contains(names, name):
			f.add("sequence", "sequence: %q is no grade of the book%s", name, near(name, names))
		case slices.Contains(b.Sequence[:i], name):
			f.add("sequence", "sequence: %q appears twice: each grade runs once", name)
		}
	}
	if b.Running != "" && !slices.Contains(names, b.Running) {
		f.add("running", "running: %q is no grade of the book%s", b.Running, near(b.Running, names))
	}
	if len(b.Orders) == 0 && len(b.Bad) == 0 {
		f.add("", "no order")
	}
	for i := range b.Orders {
		f.order(i, &b.Orders[i])
	}
	if b.Broke > TrimIncluded {
		f.add("broke", "broke is %d, want BesideTrim or TrimIncluded", b.Broke)
	}
	if b.Limit < 0 {
		f.add("limit", "limit is %v, want a time such as 20s, or zero for none", b.Limit)
	}
	for i, err := range f.found {
		f.found[i] = b.placed(err)
	}
	return errors.Join(f.found...)
}

// faults collects what is wrong with a book, or with a table of it.
type faults struct {
	book      *Book
	found     []error
	table, of string // before each key and each message
}

func (f *faults) add(key, format string, args ...any) {
	f.found = append(f.found, strict.Refuse(f.table+key, "%s%w", f.of, fmt.Errorf(format, args...)))
}

// order refuses values that are not finite, which only a program can give: no plan
// could report on them. Anything else that can't be made is left out of the plan,
// with the reason.
func (f *faults) order(i int, o *Order) {
	if w := float64(o.Width); w-w != 0 {
		f.add(strict.Member("order", i), "order %d: width is %v, want above 0 mm", i+1, o.Width)
	}
	if m := float64(o.Mass); m-m != 0 {
		f.add(strict.Member("order", i), "order %d: ordered-mass is %v, want above 0 kg", i+1, o.Mass)
	}
}

// grade checks the figures of a grade under a key.
func (f *faults) grade(key string, g *Grade) {
	of := faults{book: f.book, table: key + ".", of: fmt.Sprintf("grade %q: ", g.Name)}
	if g.Line == nil {
		of.add("line", "line missing")
	}
	switch {
	case g.Grammage == 0:
		of.add("grammage", "grammage missing, want one such as \"120 g/m2\"")
	case !(g.Grammage > 0):
		of.add("grammage", "grammage is %s, want above 0 g/m2", of.written("grammage", float64(g.Grammage), g.Grammage))
	}
	of.length("reel-thickness", g.ReelThickness, "186 um")
	of.below("jumbo-thickness", float64(g.JumboThickness), g.JumboThickness)
	if !(g.Uptime >= 0 && g.Uptime <= 1) {
		of.add("uptime", "uptime is %s, want above 0 %% to 100 %%", of.written("uptime", float64(g.Uptime), g.Uptime))
	}
	f.found = append(f.found, of.found...)
}

// length refuses a length that is not above zero.
func (f *faults) length(key string, l paperprop.Length, example string) {
	switch {
	case l == 0:
		f.add(key, "%s missing, want one such as %q", key, example)
	case !(l > 0) || math.IsInf(float64(l), 0):
		f.add(key, "%s is %s, want above 0 mm", key, f.written(key, float64(l), l))
	}
}

// below refuses a value below zero, or not finite.
func (f *faults) below(key string, x float64, of quantity) {
	if !(x >= 0) || math.IsInf(x, 0) {
		f.add(key, "%s is %s, want from 0", key, f.written(key, x, of))
	}
}

// duration refuses a time below zero, or longer than a plan may take.
func (f *faults) duration(key string, d paperprop.Duration) {
	if d >= paperprop.Duration(century.Hours())*paperprop.Hour && !math.IsInf(float64(d), 0) {
		f.add(key, "%s is %s, want below a hundred years", key, f.written(key, float64(d), d))
		return
	}
	f.below(key, float64(d), d)
}

// A quantity is any of the types of paperprop.
type quantity interface {
	fmt.Stringer
	Kind() *paperprop.Kind
}

// written returns a value under a key as the book has it.
func (f *faults) written(key string, x float64, of quantity) string {
	return f.book.written(f.table+key, x, of)
}

// written returns a value as the file has it under its key, unless a program has changed it
// since.
func (b *Book) written(key string, x float64, of quantity) string {
	if b.source != nil {
		text := b.source.Text(key)
		if v, _, err := of.Kind().Parse(text); err == nil && v == x {
			return text
		}
	}
	return of.String()
}
