package main

import (
	"fmt"
	"math"
	"slices"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/making"
)

// A plan over time has a row for each run: the change of grade as an empty frame,
// and the run as a grey bar, divided where a jumbo ends. Above it the due dates of
// its orders are small pointers; missed ones are black, with "late".
const (
	planWidth             = 720
	planLeft, planRight   = 104, 26
	planTop, planBottom   = 52, 36
	planRow, planBar      = 62, 20
	pointer               = 5
	narrowestJumbo        = 5   // that is drawn separately, in points
	letterWidth           = 6.2 // approximate, of a label
	datesBeyond           = 0.6 // share of the plan's length; later dates are counted, not drawn
	mostTicks             = 9
	namedTogether         = 2 // most orders of one date that are named
	barShade, changeShade = 0.82, 1.0
)

// drawMaking draws a plan over time.
func drawMaking(file string, p *making.Plan, t *terminal) error {
	height := max(planTop+planRow*len(p.Runs)+planBottom, 120)
	return drawFile(file, planWidth, height, t, func(c canvas) {
		d := &planPicture{c: c, p: p, bottom: float64(planTop + planRow*len(p.Runs))}
		d.reach()
		title := p.Book.Name
		if title == "" {
			title = "Plan"
		}
		c.text(point{planLeft, 20}, shortTo(title, 80), start)
		c.text(point{planLeft, 36}, "white: change of grade; strokes: jumbos; pointers: dates of orders, black where missed", start)
		d.grid()
		for i := range p.Runs {
			d.run(i)
		}
		if out := p.YardOut; !out.IsZero() {
			x := d.x(out)
			for _, dash := range dashes([]point{{x, planTop}, {x, d.bottom + 18}}) {
				c.line(dash, 1, black)
			}
			c.text(point{x, d.bottom + 29}, "yard empty", middle)
		}
	})
}

type planPicture struct {
	c        canvas
	p        *making.Plan
	from, to time.Time
	bottom   float64
}

// reach finds the extent of the picture: to the end of the plan, and to due dates
// not far beyond it.
func (d *planPicture) reach() {
	d.from, d.to = d.p.Book.Start, d.p.Ready
	if !d.to.After(d.from) {
		d.to = d.from.Add(time.Hour)
	}
	limit := d.to.Add(time.Duration(datesBeyond * float64(d.to.Sub(d.from))))
	for i := range d.p.Orders {
		for _, at := range []time.Time{d.p.Orders[i].Ready, d.p.Book.Orders[i].Due} {
			if at.After(d.to) && at.Before(limit) {
				d.to = at
			}
		}
	}
}

func (d *planPicture) x(t time.Time) float64 {
	return planLeft + float64(t.Sub(d.from))/float64(d.to.Sub(d.from))*(planWidth-planLeft-planRight)
}

// steps are the possible distances between ticks.
var steps = []time.Duration{
	time.Hour, 2 * time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour, 24 * time.Hour, 48 * time.Hour, 7 * 24 * time.Hour, 28 * 24 * time.Hour,
}

// grid draws lines at round times of the clock.
func (d *planPicture) grid() {
	span := d.to.Sub(d.from)
	step := steps[len(steps)-1]
	for i := len(steps) - 1; i >= 0; i-- {
		if span <= mostTicks*steps[i] {
			step = steps[i]
		}
	}
	for span > mostTicks*step {
		step *= 2
	}
	layout, last := "15:04", ""
	if step >= 24*time.Hour {
		layout = "2 Jan"
	}
	for at := d.from.Truncate(step); !at.After(d.to); at = at.Add(step) {
		if at.Before(d.from) {
			continue
		}
		x := d.x(at)
		d.c.line([]point{{x, planTop}, {x, d.bottom}}, 0.5, light)
		d.c.text(point{x, d.bottom + 14}, at.Format(layout), middle)
		if day := at.Format("Mon 2 Jan"); layout == "15:04" && day != last {
			d.c.text(point{x, d.bottom + 27}, day, middle)
			last = day
		}
	}
	d.c.line([]point{{planLeft, d.bottom}, {planWidth - planRight, d.bottom}}, 1, black)
}

// run draws a grade.
func (d *planPicture) run(i int) {
	r := &d.p.Runs[i]
	y := float64(planTop + planRow*i + planRow - planBar/2 - 10)
	d.c.text(point{planLeft - 8, y + 0.35*fontSize}, shortTo(r.Grade.Name, 16), end)
	from, to := d.x(r.Begin), d.x(r.End)
	if r.Changed {
		framed(d.c, d.x(r.Change), from, y, changeShade)
	}
	framed(d.c, from, to, y, barShade)
	if ends := r.Ends(); float64(len(ends))*narrowestJumbo < to-from {
		for _, at := range ends {
			x := d.x(at)
			d.c.line([]point{{x, y - planBar/2}, {x, y + planBar/2}}, 0.75, black)
		}
	}
	text := fmt.Sprintf("%s, %s, %s t", counted(r.Sets.Sets, "set"), counted(r.Jumbos, "jumbo"), toDecimals(r.Tonnes.Made.In(paperprop.Tonne), 1))
	if later := d.dates(r, y-planBar/2); later > 0 {
		text += fmt.Sprintf("; %d due later", later)
	}
	at, anchored := point{to + 6, y + 0.35*fontSize}, start
	if at.x+letterWidth*float64(len(text)) > planWidth {
		at, anchored = point{from - 6, at.y}, end
		if r.Changed {
			at.x = d.x(r.Change) - 6
		}
	}
	d.c.text(at, text, anchored)
}

// framed draws a bar with an outline.
func framed(c canvas, from, to, y, shade float64) {
	c.line([]point{{from, y}, {to, y}}, planBar, shade)
	box{from, y - planBar/2, to, y + planBar/2}.outlined(c)
}

// dates draws the due dates of the orders of a grade, one pointer per date, and
// counts those beyond the picture.
func (d *planPicture) dates(r *making.Run, top float64) (later int) {
	type date struct {
		due  time.Time
		late bool
		name []string
	}
	var list []date
	for i := range d.p.Orders {
		o, m := &d.p.Book.Orders[i], &d.p.Orders[i]
		if o.Grade != r.Grade.Name || o.Due.IsZero() || m.Reels == 0 {
			continue
		}
		if o.Due.After(d.to) {
			later++
			continue
		}
		k := slices.IndexFunc(list, func(x date) bool { return x.due.Equal(o.Due) && x.late == (m.Late > 0) })
		if k < 0 {
			k = len(list)
			list = append(list, date{due: o.Due, late: m.Late > 0})
		}
		list[k].name = append(list[k].name, o.Name)
	}
	slices.SortFunc(list, func(a, b date) int { return a.due.Compare(b.due) })
	free := []float64{math.Inf(-1), math.Inf(-1)} // right ends of labels, in the low and the high row
	for _, x := range list {
		at := math.Max(d.x(x.due), planLeft)
		shade := 0.5
		text := fmt.Sprintf("%d due", len(x.name))
		if len(x.name) <= namedTogether {
			text = names(x.name)
		}
		if x.late {
			text, shade = text+" late", black
		}
		downward(d.c, at, top, shade)
		width := letterWidth * float64(len(text))
		left := math.Min(at-width/2, planWidth-width-2)
		for level := range free {
			if left > free[level] || level == len(free)-1 {
				free[level] = left + width + 4
				d.c.text(point{left, top - 8 - 12*float64(level)}, text, start)
				break
			}
		}
	}
	return later
}

// downward draws a pointer down to the top of a bar.
func downward(c canvas, x, top, shade float64) {
	for i := range pointer {
		c.line([]point{{x - float64(i), top - float64(i) - 0.5}, {x + float64(i) + 0.01, top - float64(i) - 0.5}}, 1, shade)
	}
}

func names(list []string) string {
	text := ""
	for i, n := range list {
		if i > 0 {
			text += ", "
		}
		text += shortTo(n, 18)
	}
	return text
}
