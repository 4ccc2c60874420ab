package making

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
)

// check names all figures that are missing or cannot be.
func (b *Book) check() error {
	var all []error
	refuse := func(format string, args ...any) { all = append(all, fmt.Errorf(format, args...)) }
	if b.Start.IsZero() {
		refuse("start missing, want when the machine is free, such as start = 2026-11-30T06:00:00")
	}
	length := func(name string, l paperprop.Length, example string) {
		switch {
		case l == 0:
			refuse("%s missing, want one such as %q", name, example)
		case !(l > 0) || math.IsInf(float64(l), 0):
			refuse("%s is %v, want above 0 mm", name, l)
		}
	}
	notBelow := func(name string, x float64, text fmt.Stringer) {
		if !(x >= 0) || math.IsInf(x, 0) {
			refuse("%s is %v, want from 0", name, text)
		}
	}
	duration := func(name string, d paperprop.Duration) {
		if notBelow(name, float64(d), d); d >= paperprop.Duration(century.Hours())*paperprop.Hour && !math.IsInf(float64(d), 0) {
			refuse("%s is %v, want below a hundred years", name, d)
		}
	}
	length("machine.deckle", b.Machine.Deckle, "3300 mm")
	length("jumbo.diameter", b.Jumbo.Diameter, "2.3 m")
	notBelow("jumbo.spool", float64(b.Jumbo.Spool), b.Jumbo.Spool)
	notBelow("jumbo.lost", float64(b.Jumbo.Lost), b.Jumbo.Lost)
	duration("change.time", b.Change.Time)
	notBelow("change.loss", float64(b.Change.Loss), b.Change.Loss)
	duration("handling", b.Handling)
	notBelow("yard", float64(b.Yard), b.Yard)
	if b.Jumbo.Diameter > 0 && b.Jumbo.Spool >= b.Jumbo.Diameter {
		refuse("jumbo.diameter is %v, want above its spool, %v", b.Jumbo.Diameter, b.Jumbo.Spool)
	}
	if len(b.Grades) == 0 {
		refuse("no grade, want [[grade]] with name, grammage and reel-thickness")
	}
	var names []string
	for i, g := range b.Grades {
		switch {
		case g.Name == "":
			refuse("grade %d: name missing", i+1)
		case slices.Contains(names, g.Name):
			refuse("grade %q is there twice", g.Name)
		}
		names = append(names, g.Name)
		if g.Line == nil {
			refuse("grade %q: line missing", g.Name)
		}
		switch {
		case g.Grammage == 0:
			refuse("grade %q: grammage missing, want one such as \"120 g/m2\"", g.Name)
		case !(g.Grammage > 0):
			refuse("grade %q: grammage is %v, want above 0 g/m2", g.Name, g.Grammage)
		}
		length(fmt.Sprintf("grade %q: reel-thickness", g.Name), g.ReelThickness, "186 um")
		notBelow(fmt.Sprintf("grade %q: jumbo-thickness", g.Name), float64(g.JumboThickness), g.JumboThickness)
		if !(g.Uptime >= 0 && g.Uptime <= 1) {
			refuse("grade %q: uptime is %v, want above 0 %% to 100 %%", g.Name, g.Uptime)
		}
	}
	for i, name := range b.Sequence {
		switch {
		case !slices.Contains(names, name):
			refuse("sequence: %q is no grade of the book%s", name, near(name, names))
		case slices.Contains(b.Sequence[:i], name):
			refuse("sequence: %q is there twice: each grade runs once", name)
		}
	}
	if b.Running != "" && !slices.Contains(names, b.Running) {
		refuse("running: %q is no grade of the book%s", b.Running, near(b.Running, names))
	}
	if len(b.Orders) == 0 && len(b.Bad) == 0 {
		refuse("no order")
	}
	if b.File == "" {
		return errors.Join(all...)
	}
	for i, err := range all {
		all[i] = fmt.Errorf("%s: %w", b.File, err)
	}
	return errors.Join(all...)
}
