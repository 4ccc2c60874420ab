package main

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// pictures returns the pictures of the result, and the curve of the most telling
// input.
func (p *pageOf) pictures(s *calc.Sheet) (markup, error) {
	var parts []markup
	if picture := s.Picture(); picture != nil {
		parts = append(parts, figure(picture, "The result of the example as a picture."))
	}
	i := slices.IndexFunc(s.Out, func(c *calc.Cell) bool { return c.Shape == calc.One && c.Present() && !c.Stepped })
	if i < 0 {
		return join(parts...), nil
	}
	output := s.Out[i]
	input, r := s.Telling(output)
	if input == nil {
		return join(parts...), nil
	}
	pairs, err := calc.ParsePairs(p.info.Example)
	if err != nil {
		return "", err
	}
	at := [2]float64{input.Printed(), output.Printed()}
	o := &options{given: pairs, sweep: input, sweepRange: r}
	w, err := o.computeSweep(s)
	if err != nil {
		return "", err
	}
	picture := w.picture(w.indexOf(output.Name))
	picture.Title = output.Name + " over " + input.Name
	picture.Marks = []calc.Mark{{X: at[0], Y: at[1]}}
	caption := fmt.Sprintf("What %s does to %s, all else as in the example, which is the dot.", input.Name, output.Name)
	return join(append(parts, figure(picture, caption))...), nil
}

// figure returns a picture as part of a page, with a description for those who do
// not see it.
func figure(p *calc.Picture, caption string) markup {
	c := newSVG(pictureWidth, heightOf(p))
	drawOn(c, p)
	parts := []markup{scrolling("Picture: "+p.Title, c.inline(inWords(p)))}
	if caption != "" {
		parts = append(parts, element("figcaption", text(caption)))
	}
	return ownLine("figure", parts...)
}

// inWords describes a picture: how a single curve runs, or what several curves and
// the marks are.
func inWords(p *calc.Picture) string {
	of := fmt.Sprintf("%s, %s over %s", p.Title, typesetUnit(p.Y.Label), typesetUnit(p.X.Label))
	if len(p.Curves) == 1 && len(p.Curves[0].X) > 1 {
		c := p.Curves[0]
		n := len(c.X) - 1
		high, low := slices.Max(c.Y), slices.Min(c.Y)
		text := fmt.Sprintf("%s: from %s at %s to %s at %s", of, paperprop.People(c.Y[0]), paperprop.People(c.X[0]), paperprop.People(c.Y[n]), paperprop.People(c.X[n]))
		if high > max(c.Y[0], c.Y[n]) {
			text += ", up to " + paperprop.People(high) + " between"
		}
		if low < min(c.Y[0], c.Y[n]) {
			text += ", down to " + paperprop.People(low) + " between"
		}
		return text
	}
	var labels []string
	for _, c := range p.Curves {
		if c.Label != "" {
			labels = append(labels, c.Label)
		}
	}
	for _, m := range p.Marks {
		if m.Label != "" {
			labels = append(labels, fmt.Sprintf("%s at %s, %s", m.Label, paperprop.People(m.X), paperprop.People(m.Y)))
		}
	}
	if len(labels) == 0 {
		return of
	}
	return of + ". It shows: " + strings.Join(labels, "; ")
}
