package main

import (
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"

	"millmaths.example/paperprop"
)

// A canvas takes lines and texts in points, from the upper left corner. There
// are two: one writes SVG, one paints a PNG.
type canvas interface {
	line(points []point, width, grey float64)
	text(at point, text string, anchor anchor)
	encode(out io.Writer) error
}

type point struct{ x, y float64 }

// An anchor says which part of a text stands at its point.
type anchor uint8

const (
	start anchor = iota
	middle
	end
	upwards // in the middle, read from below
)

// Sizes of a picture in points, and the margins around the curve.
const (
	pictureWidth, pictureHeight         = 480, 320
	marginLeft, marginRight             = 76, 22
	marginTop, marginBottom             = 36, 52
	fontSize                            = 11
	black, light                float64 = 0, 0.85
)

// drawSweep draws one output over the range, black on white.
func (o *options) drawSweep(w *swept, t *terminal) error {
	var c canvas
	switch ext := strings.ToLower(filepath.Ext(o.plot)); ext {
	case ".svg":
		c = newSVG(pictureWidth, pictureHeight)
	case ".png":
		c = newPNG(pictureWidth, pictureHeight)
	default:
		return usageError{fmt.Errorf("--plot %s, want a file that ends in .svg or .png", o.plot)}
	}
	at := 0
	if o.of != "" {
		if at = w.indexOf(o.of); at < 0 {
			return usageError{unknown("output", o.of, w.names())}
		}
	}
	curve(c, w, at)
	if err := writeFile(o.plot, c.encode); err != nil {
		return err
	}
	t.say("drawn: %s", o.plot)
	return nil
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

// curve draws the axes with round numbers on them, and the curve.
func curve(c canvas, w *swept, at int) {
	pieces := w.pieces(at)
	x, y := newAxis(w.xs), axis{}
	var ys []float64
	for _, piece := range pieces {
		for _, p := range piece {
			ys = append(ys, p.y)
		}
	}
	y = newAxis(ys)
	place := func(p point) point {
		return point{
			marginLeft + x.part(p.x)*(pictureWidth-marginLeft-marginRight),
			pictureHeight - marginBottom - y.part(p.y)*(pictureHeight-marginTop-marginBottom),
		}
	}
	for _, tick := range x.ticks {
		c.line([]point{place(point{tick, y.low}), place(point{tick, y.high})}, 0.5, light)
		label := place(point{tick, y.low})
		c.text(point{label.x, label.y + 1.5*fontSize}, paperprop.People(tick), middle)
	}
	for _, tick := range y.ticks {
		c.line([]point{place(point{x.low, tick}), place(point{x.high, tick})}, 0.5, light)
		label := place(point{x.low, tick})
		c.text(point{label.x - 6, label.y + 0.35*fontSize}, paperprop.People(tick), end)
	}
	c.line([]point{place(point{x.low, y.high}), place(point{x.low, y.low}), place(point{x.high, y.low})}, 1, black)
	for _, piece := range pieces {
		placed := make([]point, len(piece))
		for i, p := range piece {
			placed[i] = place(p)
		}
		c.line(placed, 1.5, black)
	}
	heads := w.heads()
	c.text(point{(marginLeft + pictureWidth - marginRight) / 2, pictureHeight - 12}, heads[0], middle)
	c.text(point{16, (marginTop + pictureHeight - marginBottom) / 2}, heads[at+1], upwards)
	c.text(point{marginLeft, marginTop - 12}, shortTo(w.cells[at].Name+" at "+strings.Join(w.fixed, ", "), 72), start)
}

// shortTo cuts a text that has no room.
func shortTo(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}

// pieces are the stretches of a curve between refused points.
func (w *swept) pieces(at int) [][]point {
	var pieces [][]point
	var piece []point
	for i, p := range w.points {
		if p.refused == nil {
			piece = append(piece, point{w.xs[i], p.numbers[at]})
			continue
		}
		if len(piece) > 0 {
			pieces, piece = append(pieces, piece), nil
		}
	}
	if len(piece) > 0 {
		pieces = append(pieces, piece)
	}
	return pieces
}

// An axis runs from low to high, with ticks on round numbers.
type axis struct {
	low, high float64
	ticks     []float64
}

// newAxis makes room for the values, out to the next tick.
func newAxis(values []float64) axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		low, high = min(low, v), max(high, v)
	}
	if high-low <= 1e-9*max(math.Abs(low), math.Abs(high)) { // a level line
		half := max(math.Abs(low)/10, 1e-9)
		low, high = low-half, high+half
	}
	step := roundStep((high - low) / 5)
	first, last := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
	a := axis{low: first * step, high: last * step}
	for i := first; i <= last; i++ {
		a.ticks = append(a.ticks, i*step)
	}
	return a
}

// roundStep is the next larger of 1, 2, 5 times a power of ten.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, n := range []float64{1, 2, 5} {
		if n*power >= x*(1-1e-9) {
			return n * power
		}
	}
	return 10 * power
}

func (a axis) part(v float64) float64 { return (v - a.low) / (a.high - a.low) }
