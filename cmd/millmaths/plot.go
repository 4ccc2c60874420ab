package main

import (
	"fmt"
	"io"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
)

// A canvas takes lines and texts, in points from the upper left corner. There are
// two: one writes SVG, one paints a PNG.
type canvas interface {
	line(points []point, width, grey float64)
	text(at point, text string, anchor anchor)
	encode(out io.Writer) error
}

type point struct{ x, y float64 }

// An anchor is the part of a text that is placed at its point.
type anchor uint8

const (
	start anchor = iota
	middle
	end
	upwards // centred, read from below
)

// Sizes of a picture in points, and the margins around the curve.
const (
	pictureWidth, pictureHeight         = 480, 320
	marginLeft, marginRight             = 76, 22
	marginTop, marginBottom             = 36, 52
	fontSize                            = 11
	titleStep                           = 1.2 * fontSize // between lines
	black, light                float64 = 0, 0.85
)

// drawTo writes a picture to a file, black on white.
func drawTo(p *calc.Picture, file string, t *terminal) error {
	return drawFile(file, pictureWidth, heightOf(p), t, func(c canvas) { drawOn(c, p) })
}

// heightOf returns the height of a picture, which grows if the title has more lines
// than the two that fit in the margin.
func heightOf(p *calc.Picture) int { return pictureHeight + lowering(titleLines(p.Title)) }

func lowering(title []string) int {
	return int(math.Ceil(titleStep * float64(max(0, len(title)-2))))
}

// A lowered canvas draws everything further down.
type lowered struct {
	canvas
	by float64
}

func (l lowered) line(points []point, width, grey float64) {
	moved := make([]point, len(points))
	for i, p := range points {
		moved[i] = point{p.x, p.y + l.by}
	}
	l.canvas.line(moved, width, grey)
}

func (l lowered) text(at point, text string, a anchor) {
	l.canvas.text(point{at.x, at.y + l.by}, text, a)
}

// canvasFor returns what makes a canvas of a size, in the format of a file's ending.
func canvasFor(file string) (func(width, height int) canvas, error) {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg":
		return func(width, height int) canvas { return newSVG(width, height) }, nil
	case ".png":
		return func(width, height int) canvas { return newPNG(width, height) }, nil
	}
	return nil, usageError{fmt.Errorf("--plot %s, want a file that ends in .svg or .png", shown(file))}
}

// checkPlot refuses a file that can't be drawn to before there is long work to lose. An
// empty name asks for no picture.
func checkPlot(file string) error {
	if file == "" {
		return nil
	}
	_, err := canvasFor(file)
	return err
}

// drawFile writes a picture to a file, in the format of its ending.
func drawFile(file string, width, height int, t *terminal, on func(canvas)) error {
	empty, err := canvasFor(file)
	if err != nil {
		return err
	}
	c := empty(width, height)
	on(c)
	if err := t.writeFile(file, c.encode); err != nil {
		return err
	}
	t.say("drawn: %s", shown(file))
	return nil
}

// drawSweep draws one output over the range.
func (o *options) drawSweep(w *swept, t *terminal) error {
	at := 0
	if o.of != "" {
		if at = w.indexOf(o.of); at < 0 {
			return usageError{unknown("output", o.of, w.names())}
		}
	}
	p := w.picture(at)
	if len(p.Curves)+len(p.Marks) == 0 {
		return usageError{fmt.Errorf("%s is absent all along the range, --of names another output: %s", w.cells[at].Name, strings.Join(w.names(), ", "))}
	}
	return drawTo(p, o.plot, t)
}

// picture returns the curve of one output over the range, in pieces between points
// that lack it. If the input is a count, nothing lies between its values, so they
// are dots. So is a piece of a single point, which would not be visible otherwise.
func (w *swept) picture(at int) *calc.Picture {
	heads := w.heads()
	title := w.cells[at].Name
	if len(w.fixed) > 0 {
		title += " at " + strings.Join(w.fixed, ", ")
	}
	p := &calc.Picture{
		Title: title,
		X:     calc.Axis{Label: heads[0], From: w.xs[0], To: w.xs[len(w.xs)-1]},
		Y:     calc.Axis{Label: heads[at+1]},
	}
	for _, piece := range w.pieces(at) {
		if w.input.Whole || len(piece) == 1 {
			for _, q := range piece {
				p.Marks = append(p.Marks, calc.Mark{X: q.x, Y: q.y})
			}
			continue
		}
		p.Curves = append(p.Curves, curveThrough(piece, w.cells[at].Stepped))
	}
	return p
}

// curveThrough joins points. If stepped, it jumps from one to the next.
func curveThrough(piece []point, stepped bool) calc.Curve {
	var curve calc.Curve
	for i, q := range piece {
		if stepped && i > 0 && q.y != piece[i-1].y {
			middle := (piece[i-1].x + q.x) / 2
			curve.Add(middle, piece[i-1].y)
			curve.Add(middle, q.y)
		}
		curve.Add(q.x, q.y)
	}
	return curve
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

// A frame converts the numbers of a picture to points of the canvas.
type frame struct {
	x, y    axis
	taken   []box     // where a label or a mark is
	strokes [][]point // the curves
}

type box struct{ left, top, right, bottom float64 }

func (b box) overlaps(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

// outlined draws the edges of the box.
func (b box) outlined(c canvas) {
	const thin = 0.75
	c.line([]point{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}, {b.left, b.top}}, thin, black)
}

// newFrame returns a frame with room for everything that is drawn.
func newFrame(p *calc.Picture) *frame {
	var xs, ys []float64
	add := func(a calc.Axis, values *[]float64) {
		if a.From != a.To {
			*values = append(*values, a.From, a.To)
		}
	}
	add(p.X, &xs)
	add(p.Y, &ys)
	for _, c := range p.Curves {
		xs, ys = append(xs, c.X...), append(ys, c.Y...)
	}
	for _, m := range p.Marks {
		xs, ys = append(xs, m.X), append(ys, m.Y)
	}
	f := frame{x: newAxis(xs, 5), y: newAxis(ys, 5)}
	if p.Equal {
		f = frame{x: newAxis(xs, 10), y: newAxis(ys, 10)}
		// If both axes have the same scale, the one with room to spare is
		// stretched.
		perX, perY := (f.x.high-f.x.low)/plotWidth, (f.y.high-f.y.low)/plotHeight
		f.x.widen(perY / perX)
		f.y.widen(perX / perY)
	}
	return &f
}

const (
	plotWidth  = pictureWidth - marginLeft - marginRight
	plotHeight = pictureHeight - marginTop - marginBottom
)

func (f *frame) place(x, y float64) point {
	return point{marginLeft + f.x.part(x)*plotWidth, pictureHeight - marginBottom - f.y.part(y)*plotHeight}
}

// drawOn draws the axes with round numbers on them, the curves and the marks.
func drawOn(c canvas, p *calc.Picture) {
	title := titleLines(p.Title)
	c = lowered{c, float64(lowering(title))}
	f := newFrame(p)
	numbers := f.x.numbers()
	for i, tick := range f.x.ticks {
		c.line([]point{f.place(tick, f.y.low), f.place(tick, f.y.high)}, 0.5, light)
		label := f.place(tick, f.y.low)
		c.text(point{label.x, label.y + 1.5*fontSize}, numbers[i], middle)
	}
	numbers = f.y.numbers()
	for i, tick := range f.y.ticks {
		c.line([]point{f.place(f.x.low, tick), f.place(f.x.high, tick)}, 0.5, light)
		label := f.place(f.x.low, tick)
		c.text(point{label.x - 6, label.y + 0.35*fontSize}, numbers[i], end)
	}
	c.line([]point{f.place(f.x.low, f.y.high), f.place(f.x.low, f.y.low), f.place(f.x.high, f.y.low)}, 1, black)
	for _, curve := range p.Curves {
		f.curve(c, curve)
	}
	for _, m := range p.Marks {
		at := f.place(m.X, m.Y)
		c.line(dot(at), 3, black)
		f.taken = append(f.taken, box{at.x - 4, at.y - 4, at.x + 4, at.y + 4})
	}
	for _, m := range p.Marks {
		if m.Label != "" {
			f.label(c, f.place(m.X, m.Y), m.Label, -1)
		}
	}
	for _, curve := range p.Curves {
		if n := len(curve.X); n > 0 && curve.Label != "" {
			f.label(c, f.place(curve.X[n-1], curve.Y[n-1]), curve.Label, 1)
		}
	}
	c.text(point{(marginLeft + pictureWidth - marginRight) / 2, pictureHeight - 12}, typesetUnit(p.X.Label), middle)
	c.text(point{16, (marginTop + pictureHeight - marginBottom) / 2}, typesetUnit(p.Y.Label), upwards)
	for i, line := range title {
		c.text(point{marginLeft, marginTop - 12 - titleStep*float64(len(title)-1-i)}, line, start)
	}
}

// typesetUnit returns the label of an axis with its unit as in print; the name in
// front of it is unchanged.
func typesetUnit(label string) string {
	at := max(strings.LastIndex(label, "["), 0)
	if at == 0 {
		return label
	}
	return label[:at] + typeset(label[at:])
}

// titleLines breaks a title into lines as wide as the picture, after a comma if
// possible, so that a name stays with its value. Eight lines are enough for any
// calculation, but not for any list: the rest is cut. A character is as wide as in
// the fonts of browsers.
func titleLines(title string) []string {
	const most, enough = 60, 8
	fits := func(text string) bool { return len([]rune(strings.TrimRight(text, " "))) <= most }
	var pieces []string
	for _, part := range strings.SplitAfter(title, ", ") {
		if fits(part) {
			pieces = append(pieces, part)
		} else {
			pieces = append(pieces, strings.SplitAfter(part, " ")...)
		}
	}
	var lines []string
	for _, piece := range pieces {
		if n := len(lines) - 1; n >= 0 && fits(lines[n]+piece) {
			lines[n] += piece
		} else {
			lines = append(lines, piece)
		}
	}
	if len(lines) > enough {
		lines = append(lines[:enough-1], strings.Join(lines[enough-1:], ""))
	}
	for i, line := range lines {
		lines[i] = shortTo(strings.ReplaceAll(strings.TrimRight(line, " "), plain.UnbrokenBlank, " "), most)
	}
	return lines
}

// unbrokenValue keeps a number, or the last of a list, together with its unit.
func unbrokenValue(text string) string {
	at := strings.LastIndex(text, "]") + 1
	return text[:at] + strings.ReplaceAll(text[at:], " ", plain.UnbrokenBlank)
}

func (f *frame) curve(c canvas, curve calc.Curve) {
	width, grey := 1.5, black
	if curve.Light {
		width, grey = 0.75, 0.5
	}
	placed := make([]point, len(curve.X))
	for i := range placed {
		placed[i] = f.place(curve.X[i], curve.Y[i])
	}
	f.strokes = append(f.strokes, placed)
	if curve.Dashed {
		for _, dash := range dashes(placed) {
			c.line(dash, width, grey)
		}
	} else {
		c.line(placed, width, grey)
	}
}

// dot returns a small square standing on its corner.
func dot(at point) []point {
	const r = 1.5
	return []point{{at.x - r, at.y}, {at.x, at.y - r}, {at.x + r, at.y}, {at.x, at.y + r}, {at.x - r, at.y}}
}

// label writes text beside a point: at the first of its corners where there is room
// and no curve, else at the first where there is room. Side 1, right, is for a
// curve that ends there, so that the label is not taken for the next one's; side -1
// is for a mark.
func (f *frame) label(c canvas, at point, text string, side float64) {
	const letter, away = 0.56 * fontSize, 5
	width := letter * float64(len([]rune(text)))
	var where point
	var from anchor
	var room box
	found := false
	for _, corner := range [...]point{{1, -1}, {-1, -1}, {-1, 2}, {1, 2}, {1, -3.4}, {-1, -3.4}, {-1, 4.4}, {1, 4.4}} {
		corner.x *= side
		place, anchored := point{at.x + corner.x*away, at.y + corner.y*away}, start
		b := box{place.x, place.y - 0.8*fontSize, place.x + width, place.y + 0.2*fontSize}
		if corner.x < 0 {
			anchored = end
			b.left, b.right = place.x-width, place.x
		}
		free := f.hasRoom(b)
		apart := free && !slices.ContainsFunc(f.strokes, b.crossed)
		if apart || !found {
			where, from, room = place, anchored, b
		}
		if found = found || free; apart {
			break
		}
	}
	const gap = 3 // to the next label
	f.taken = append(f.taken, box{room.left - gap, room.top, room.right + gap, room.bottom})
	c.text(where, text, from)
}

// hasRoom reports whether a label in a box is within the picture and clear of all
// others.
func (f *frame) hasRoom(b box) bool {
	return b.right <= pictureWidth && b.left >= marginLeft && b.top >= marginTop-fontSize && !slices.ContainsFunc(f.taken, b.overlaps)
}

// crossed reports whether a line runs through the box.
func (b box) crossed(line []point) bool {
	for i := 1; i < len(line); i++ {
		p, q := line[i-1], line[i]
		left, right := partBetween(p.x, q.x, b.left, b.right)
		top, bottom := partBetween(p.y, q.y, b.top, b.bottom)
		if max(left, top) <= min(right, bottom) {
			return true
		}
	}
	return false
}

// partBetween returns the part of the way from one number to another, as 0 to 1,
// that lies between low and high. The ends are reversed if there is none.
func partBetween(from, to, low, high float64) (first, last float64) {
	if from == to {
		if from < low || from > high {
			return 1, 0
		}
		return 0, 1
	}
	a, b := (low-from)/(to-from), (high-from)/(to-from)
	return max(0, min(a, b)), min(1, max(a, b))
}

// dashes cuts a line into strokes of four points with gaps of three.
func dashes(line []point) [][]point {
	const stroke, gap = 4.0, 3.0
	var out [][]point
	left, drawing := stroke, true
	var dash []point
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		length := math.Hypot(b.x-a.x, b.y-a.y)
		if drawing && len(dash) == 0 {
			dash = []point{a}
		}
		for at := 0.0; at < length; {
			step := min(left, length-at)
			at, left = at+step, left-step
			q := point{a.x + (b.x-a.x)*at/length, a.y + (b.y-a.y)*at/length}
			if drawing {
				dash = append(dash, q)
			}
			if left > 0 {
				continue
			}
			if drawing {
				out = append(out, dash)
				dash, left = nil, gap
			} else {
				dash, left = []point{q}, stroke
			}
			drawing = !drawing
		}
	}
	if len(dash) > 1 {
		out = append(out, dash)
	}
	return out
}

// shortTo cuts a text that does not fit.
func shortTo(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return text
}

// pieces returns the stretches of a curve between points that are refused, or where
// the output is absent.
func (w *swept) pieces(at int) [][]point {
	var pieces [][]point
	var piece []point
	for i, p := range w.points {
		if p.refused == nil && !math.IsNaN(p.numbers[at]) {
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
	step      float64
	ticks     []float64
}

// numbers returns the ticks as text, with all digits of their step if fewer would
// make two alike.
func (a axis) numbers() []string {
	var texts []string
	for _, tick := range a.ticks {
		text := paperprop.People(tick)
		if n := len(texts); n > 0 && texts[n-1] == text {
			return a.allDigits()
		}
		texts = append(texts, text)
	}
	return texts
}

func (a axis) allDigits() []string {
	decimals := max(0, -int(math.Floor(math.Log10(a.step)+1e-9)))
	var texts []string
	for _, tick := range a.ticks {
		texts = append(texts, strconv.FormatFloat(tick, 'f', decimals, 64))
	}
	return texts
}

// newAxis returns an axis with room for the values, extended to the next of about
// so many ticks.
func newAxis(values []float64, ticks float64) axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		low, high = min(low, v), max(high, v)
	}
	if high-low <= 1e-9*max(math.Abs(low), math.Abs(high)) { // a horizontal line
		half := math.Abs(low) / 10
		if half == 0 {
			half = 1
		}
		low, high = low-half, high+half
	}
	step := roundStep((high - low) / ticks)
	first, last := math.Floor(low/step+1e-9), math.Ceil(high/step-1e-9)
	a := axis{low: first * step, high: last * step, step: step}
	for i := first; i <= last; i++ {
		a.ticks = append(a.ticks, i*step)
	}
	return a
}

// roundStep returns the next larger of 1, 2, 5 times a power of ten.
func roundStep(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, n := range []float64{1, 2, 5} {
		if n*power >= x*(1-1e-9) {
			return n * power
		}
	}
	return 10 * power
}

// widen stretches the axis about its middle if the factor is above one.
func (a *axis) widen(factor float64) {
	if factor <= 1 {
		return
	}
	middle, half := (a.low+a.high)/2, (a.high-a.low)/2
	a.low, a.high = middle-half*factor, middle+half*factor
}

func (a axis) part(v float64) float64 { return (v - a.low) / (a.high - a.low) }
