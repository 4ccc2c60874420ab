package main

import (
	"fmt"
	"image/color"
	"io"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"millmaths.example/paperprop/calc"
)

// drawSweep draws one output over the range, black on white.
func (o *options) drawSweep(w *swept, t *terminal) error {
	format := strings.TrimPrefix(strings.ToLower(filepath.Ext(o.plot)), ".")
	if format != "svg" && format != "png" {
		return usageError{fmt.Errorf("--plot %s, want a file that ends in .svg or .png", o.plot)}
	}
	at := 0
	if o.of != "" {
		if at = w.indexOf(o.of); at < 0 {
			return usageError{unknown("output", o.of, w.names())}
		}
	}
	cell := w.cells[at]
	p := plot.New()
	p.Title.Text = o.sweepTitle(cell)
	p.X.Label.Text, p.Y.Label.Text = w.heads()[0], w.heads()[at+1]
	p.Add(plotter.NewGrid())
	for _, piece := range w.pieces(at) {
		line, err := plotter.NewLine(piece)
		if err != nil {
			return err
		}
		line.Width, line.Color = vg.Points(1.5), color.Black
		p.Add(line)
	}
	picture, err := p.WriterTo(16*vg.Centimeter, 10*vg.Centimeter, format)
	if err != nil {
		return err
	}
	if err := writeFile(o.plot, func(out io.Writer) error { _, err := picture.WriteTo(out); return err }); err != nil {
		return err
	}
	t.say("drawn: %s", o.plot)
	return nil
}

func (o *options) sweepTitle(c *calc.Cell) string {
	return fmt.Sprintf("%s over %s", c.Name, o.sweep.Name)
}

func (w *swept) names() []string {
	var names []string
	for _, c := range w.cells {
		names = append(names, c.Name)
	}
	return names
}

func (w *swept) indexOf(name string) int {
	for i, c := range w.cells {
		if c.Name == name {
			return i
		}
	}
	return -1
}

// pieces are the stretches of a curve between refused points.
func (w *swept) pieces(at int) []plotter.XYs {
	var pieces []plotter.XYs
	var piece plotter.XYs
	for i, p := range w.points {
		if p.refused != nil {
			if len(piece) > 0 {
				pieces, piece = append(pieces, piece), nil
			}
			continue
		}
		piece = append(piece, plotter.XY{X: w.xs[i], Y: p.numbers[at]})
	}
	if len(piece) > 0 {
		pieces = append(pieces, piece)
	}
	return pieces
}
