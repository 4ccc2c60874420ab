package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/stock/line"
)

// A flow picture has two parts, water above and dry matter below. In each the
// stages stand side by side in the order of the file, and a stream is a band as
// wide as its mass. A stream to the next stage runs straight, one that jumps runs
// above the stages. Tanks lie below, joined to the stages by upright bands. What
// enters or leaves the mill stands above, with its name.
const (
	flowWidth, flowHeight = 960, 760
	flowLeft, flowRight   = 58, 64
	flowTop               = 56  // of the first band of drawing
	flowBand              = 350 // height of one
	flowMain              = 175 // the stages, from the top of the band
	flowTank              = 285 // the first tank, from the top of the band
	widestWater           = 34  // widest band, in points
	widestDry             = 22
	thinnest              = 0.6
	thinLine              = 2
)

// drawLine draws the flows of a line, black and greys on white.
func drawLine(file string, a *line.Answer, t *terminal) error {
	return drawFile(file, flowWidth, flowHeight, t, func(c canvas) {
		p := newFlowPicture(c, a)
		c.text(point{flowLeft - 30, 22}, a.Line.Name, start)
		water := len(a.Line.Components) - 1
		p.draw(0, "Water", widestWater, func(s *line.Stream) float64 { return s.Flows[water].In(paperprop.TonnePerHour) })
		p.draw(1, "Dry matter", widestDry, func(s *line.Stream) float64 {
			return s.Total.In(paperprop.TonnePerHour) - s.Flows[water].In(paperprop.TonnePerHour)
		})
	})
}

// A flowPicture holds the positions of stages and tanks.
type flowPicture struct {
	c      canvas
	a      *line.Answer
	column map[string]int // of a stage
	stages []string
	tanks  []string
	taken  []box // where a label or a band is
	thin   []box // where there is a line through which a label can be read
}

func newFlowPicture(c canvas, a *line.Answer) *flowPicture {
	p := &flowPicture{c: c, a: a, column: map[string]int{}}
	for _, b := range a.Stages {
		if b.Kind == "tank" {
			p.tanks = append(p.tanks, b.Name)
			continue
		}
		p.column[b.Name] = len(p.stages)
		p.stages = append(p.stages, b.Name)
	}
	return p
}

// pitch returns the distance between stages.
func (p *flowPicture) pitch() float64 {
	return (flowWidth - flowLeft - flowRight) / float64(max(len(p.stages)-1, 1))
}

// at returns where a column of the picture is, x where the column of a stage is.
func (p *flowPicture) at(column int) float64 { return flowLeft + float64(column)*p.pitch() }

func (p *flowPicture) x(stage string) float64 { return p.at(p.column[stage]) }

func (p *flowPicture) tank(name string) (index int, ok bool) {
	for i, t := range p.tanks {
		if t == name {
			return i, true
		}
	}
	return 0, false
}

// A bandStyle draws the streams of one part of the picture.
type bandStyle struct {
	top, scale float64
	mass       func(*line.Stream) float64
}

func (b bandStyle) width(s *line.Stream) float64 { return b.mass(s) * b.scale }

// draw draws one part of the picture: all streams that have any mass.
func (p *flowPicture) draw(index int, title string, widest float64, mass func(*line.Stream) float64) {
	largest := 0.0
	for i := range p.a.Streams {
		largest = max(largest, mass(&p.a.Streams[i]))
	}
	b := bandStyle{float64(flowTop + index*flowBand), widest / max(largest, 1e-12), mass}
	p.c.text(point{flowLeft - 30, b.top}, fmt.Sprintf("%s, t/h; the widest band is %s", title, paperprop.People(math.Round(largest*10)/10)), start)
	p.tankBars(b)
	p.jumps(b)
	p.upright(b)
	p.straight(b)
	p.marks(b)
}

// along reports whether a stream runs to the next stage.
func (p *flowPicture) along(s *line.Stream) bool {
	from, ok := p.column[s.From]
	to, also := p.column[s.To]
	return ok && also && to == from+1
}

func (p *flowPicture) straight(b bandStyle) {
	y := b.top + flowMain
	for i := range p.a.Streams {
		s := &p.a.Streams[i]
		if !p.along(s) || b.mass(s) <= 0 {
			continue
		}
		p.c.line([]point{{p.x(s.From), y}, {p.x(s.To), y}}, max(b.width(s), thinnest), 0.35)
		p.arrow(point{(p.x(s.From)+p.x(s.To))/2 + 3, y}, 3, 0, b.width(s))
	}
}

// jumps draws the streams above the stages, each in a lane of its own; those that
// go back are lighter.
func (p *flowPicture) jumps(b bandStyle) {
	lane := 0.0
	for i := range p.a.Streams {
		s := &p.a.Streams[i]
		from, ok := p.column[s.From]
		to, also := p.column[s.To]
		if !ok || !also || to == from+1 || b.mass(s) <= 0 {
			continue
		}
		w := max(b.width(s), thinnest)
		y := b.top + flowMain - 34 - lane
		lane += w + 7
		grey := 0.35
		if to < from {
			grey = 0.6
		}
		x, end := p.x(s.From)+4, p.x(s.To)-4
		main := b.top + flowMain
		p.c.line([]point{{x, main}, {x, y}, {end, y}, {end, main}}, w, grey)
		left, right := min(x, end), max(x, end)
		lines := []box{{left - w/2, y - w/2, right + w/2, y + w/2}, {left - w/2, y, left + w/2, main}, {right - w/2, y, right + w/2, main}}
		if w < thinLine {
			p.thin = append(p.thin, lines...)
		} else {
			p.taken = append(p.taken, lines...)
		}
		step := 3.0
		if to < from {
			step = -3
		}
		p.arrow(point{(x + end) / 2, y}, step, 0, w)
	}
}

// tankBars draws the tanks, as wide as the row of stages.
func (p *flowPicture) tankBars(b bandStyle) {
	for i, name := range p.tanks {
		y := p.tankAt(b, i)
		p.c.line([]point{{flowLeft - 20, y}, {flowWidth - flowRight + 20, y}}, 7, light)
		p.c.text(point{flowLeft - 30, y + 16}, name, start)
	}
}

func (p *flowPicture) tankAt(b bandStyle, i int) float64 {
	return b.top + flowTank + 26*float64(i)
}

// upright draws the streams between stages and tanks, and those that enter or leave
// the mill.
func (p *flowPicture) upright(b bandStyle) {
	main := b.top + flowMain
	beside := map[bool]int{} // number of streams at each end of a tank
	for i := range p.a.Streams {
		s := &p.a.Streams[i]
		if b.mass(s) <= 0 || s.To == "" { // none, or split further on
			continue
		}
		w := max(b.width(s), thinnest)
		from, fromStage := p.column[s.From]
		to, toStage := p.column[s.To]
		fromTank, isFrom := p.tank(s.From)
		toTank, isTo := p.tank(s.To)
		switch {
		case isFrom && toStage: // drawn up
			x := p.at(to) - p.pitch()*0.22
			p.c.line([]point{{x, p.tankAt(b, fromTank)}, {x, main}}, w, 0.6)
			p.arrow(point{x, (main + p.tankAt(b, fromTank)) / 2}, 0, -3, w)
		case fromStage && isTo: // runs down
			x := p.at(from) + p.pitch()*0.22
			p.c.line([]point{{x, main}, {x, p.tankAt(b, toTank)}}, w, 0.75)
			p.arrow(point{x, (main + p.tankAt(b, toTank)) / 2}, 0, 3, w)
		case fromStage && !toStage: // leaves the mill
			p.c.line([]point{{p.at(from), main}, {p.at(from), main - 60}}, w, 0.5)
			p.label(b, from, s)
		case toStage && !fromStage && !isFrom: // enters it
			p.c.line([]point{{p.at(to), main - 60}, {p.at(to), main}}, w, 0.2)
			p.label(b, to, s)
		case isTo && !isFrom:
			p.endOf(b, toTank, beside, s, false)
		case isFrom:
			p.endOf(b, fromTank, beside, s, true)
		}
	}
}

// label writes the name of a stream above its column, at the first height at which
// it is clear of jumps and of earlier labels.
func (p *flowPicture) label(b bandStyle, column int, s *line.Stream) {
	at := p.at(column)
	// The column shows where it goes.
	name := strings.TrimSuffix(s.Name, " to the "+p.stages[column])
	text := fmt.Sprintf("%s %s", shortTo(name, 26), shortNumber(b.mass(s)))
	half := letterWidth / 2 * float64(len([]rune(text)))
	x := min(max(at, half+4), flowWidth-half-4)
	room := box{left: x - half, right: x + half}
	y := p.clear(room, b.top, append(slices.Clone(p.thin), p.taken...))
	if y < b.top+12 { // there is no room clear of thin lines
		y = p.clear(room, b.top, p.taken)
	}
	room.top, room.bottom = y-9, y+3
	p.taken = append(p.taken, room)
	p.c.line([]point{{at, b.top + flowMain - 60}, {at, y + 3}}, 0.5, light)
	p.c.text(point{x, y}, text, middle)
}

// clear returns the first height above the stages at which a label is clear.
func (p *flowPicture) clear(room box, top float64, of []box) float64 {
	y := top + flowMain - 66
	for ; y >= top+12; y -= 13 {
		room.top, room.bottom = y-9, y+3
		if !slices.ContainsFunc(of, room.overlaps) {
			break
		}
	}
	return y
}

// endOf draws the stream that enters a tank from outside at its left end, and one
// that leaves the mill from it at its right.
func (p *flowPicture) endOf(b bandStyle, tank int, count map[bool]int, s *line.Stream, leaves bool) {
	y := p.tankAt(b, tank) + 22 + 12*float64(count[leaves])
	count[leaves]++
	w := max(b.width(s), thinnest)
	text := fmt.Sprintf("%s %s", s.Name, shortNumber(b.mass(s)))
	if leaves {
		x := flowWidth - flowRight + 10.0
		p.c.line([]point{{x, p.tankAt(b, tank)}, {x, y}}, w, 0.5)
		p.c.text(point{x - w/2 - 6, y}, text, end)
		return
	}
	x := flowLeft + 130.0
	p.c.line([]point{{x, y}, {x, p.tankAt(b, tank)}}, w, 0.2)
	p.c.text(point{x + w/2 + 6, y}, text, start)
}

// shortNumber formats a flow for a picture.
func shortNumber(x float64) string {
	if x >= 100 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}

// arrow draws a white arrowhead in a band that has room for it, along dx, dy.
func (p *flowPicture) arrow(at point, dx, dy, width float64) {
	if width < 3 {
		return
	}
	p.c.line([]point{{at.x - dx - dy, at.y - dy - dx}, at, {at.x - dx + dy, at.y - dy + dx}}, 1, 1)
}

// marks draws the stages: an upright stroke and the name below, alternating between
// two heights.
func (p *flowPicture) marks(b bandStyle) {
	for i, name := range p.stages {
		x, y := p.at(i), b.top+flowMain
		p.c.line([]point{{x, y - 20}, {x, y + 20}}, 2, black)
		p.c.text(point{x, y + 34 + 13*float64(i%2)}, name, middle)
	}
}
