package reel

import (
	"fmt"
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// rings is the number of parts of equal length that a section shows.
const rings = 5

// section draws a reel from the end: core, outside, and between them the circles
// that divide its length into five. Only the outside has room for a label: the
// core's would stand across a ring.
func section(in *Reel, out *ReelResult) *calc.Picture {
	outer, core := out.Diameter.In(paperprop.Millimetre), in.CoreDiameter.In(paperprop.Millimetre)
	p := &calc.Picture{
		Title: fmt.Sprintf("reel of %s m on a core of %s mm: each ring holds a fifth of it",
			paperprop.People(math.Round(out.Length.In(paperprop.Metre))), paperprop.People(core)),
		X: calc.Axis{Label: "width of the section [mm]"}, Y: calc.Axis{Label: "height [mm]"}, Equal: true,
	}
	p.Curves = append(p.Curves, circle(core, "", false))
	for i := range rings - 1 {
		part := float64(i+1) / rings
		p.Curves = append(p.Curves, circle(math.Sqrt(core*core+part*(outer*outer-core*core)), "", true))
	}
	p.Curves = append(p.Curves, circle(outer, paperprop.People(outer), false))
	return p
}

// circle ends at the upper right, where its label has room.
func circle(diameter float64, label string, light bool) calc.Curve {
	c := calc.Curve{Label: label, Light: light}
	const steps = 180
	for i := range steps + 1 {
		angle := math.Pi/4 + 2*math.Pi*float64(i)/steps
		c.Add(diameter/2*math.Cos(angle), diameter/2*math.Sin(angle))
	}
	return c
}
