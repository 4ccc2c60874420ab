package main

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// A swept is a range with its results: a line per value, with a refusal instead of
// numbers if the calculation does not accept the value.
type swept struct {
	input  *calc.Cell
	unit   paperprop.Unit
	xs     []float64 // in unit
	texts  []string  // the same, as printed
	points []sweptPoint
	cells  []*calc.Cell
	fixed  []string // the other inputs, as in the title

	defaults []string // those of them left to their defaults
	warnings []sweptWarning
}

// A sweptWarning is a warning of one or more points.
type sweptWarning struct {
	calc.Warning         // as of the first of them
	first        float64 // where that is
	points       int
}

type sweptPoint struct {
	values  []string // as printed
	numbers []float64
	json    json.RawMessage
	refused error
}

// runSweep computes along the range and prints a table, JSON or CSV. With --plot it
// draws it as well.
func (o *options) runSweep(s *calc.Sheet, t *terminal) error {
	w, err := o.computeSweep(s)
	if err != nil {
		return err
	}
	if len(w.cells) == 0 && (o.plot != "" || !o.json) {
		return usageError{fmt.Errorf("%s gives only lists, which have no column and no curve: --json shows them along a range", s.Info().Name)}
	}
	t.tellCautions(s.Info().Cautions...)
	if o.plot != "" {
		fine, err := o.smooth(s)
		if err != nil {
			return err
		}
		if err := o.drawSweep(fine, t); err != nil {
			return err
		}
	}
	switch {
	case o.json:
		if err := w.printJSON(t); err != nil {
			return err
		}
	case o.csv:
		w.printCSV(t)
	default:
		w.printText(t)
	}
	if !o.json { // JSON has them with each point
		for _, text := range w.defaults {
			t.say("default along the range: %s", text)
		}
	}
	if last := w.xs[len(w.xs)-1]; o.sweepRange.Short {
		t.say("the range ends at %s: its step does not lead to the end", paperprop.WithUnit(paperprop.People(last), w.unit))
	}
	for _, c := range s.In {
		if c.Uncertain() && !o.json { // JSON has u with each point
			t.leftOut(c.Name, "along a range")
		}
	}
	return w.end(t)
}

// end tells what to know about the table just printed. Refused points are an error, as
// refused rows of a batch are: what follows may want them all.
func (w *swept) end(t *terminal) error {
	for _, warning := range w.warnings {
		warning.Text += fmt.Sprintf(" (at %d of %d values of %s, first at %s)", warning.points, len(w.points), w.input.Name,
			paperprop.WithUnit(paperprop.People(warning.first), w.unit))
		t.warn(warning.Warning)
	}
	refused := 0
	for _, p := range w.points {
		if p.refused != nil {
			refused++
		}
	}
	if refused == 0 {
		return nil
	}
	t.say("%d of %d values of %s refused", refused, len(w.points), w.input.Name)
	return errReported
}

// smooth computes the range in steps too small to see.
func (o *options) smooth(s *calc.Sheet) (*swept, error) {
	const steps = 240
	values := o.sweepRange.Values
	low, high := values[0], values[len(values)-1]
	if o.sweep.Whole || len(values) > steps {
		return o.computeSweep(s)
	}
	fine := *o
	fine.json = false
	fine.sweepRange.Values = nil
	for i := range steps + 1 {
		fine.sweepRange.Values = append(fine.sweepRange.Values, low+(high-low)*float64(i)/steps)
	}
	return fine.computeSweep(s)
}

func (o *options) computeSweep(s *calc.Sheet) (*swept, error) {
	w := &swept{input: o.sweep, unit: o.sweepRange.Unit}
	for _, p := range o.given {
		if p.Name != o.sweep.Name {
			c, _ := s.Input(p.Name)
			w.fixed = append(w.fixed, p.Name+" "+inTitle(c, p.Text))
		}
	}
	for _, c := range s.Out {
		if c.Shape == calc.One && c.Name != o.sweep.Name { // else it repeats the values of the range
			w.cells = append(w.cells, c)
		}
	}
	o.sweep.PutUnit(w.unit)
	var last error
	computed := 0
	for _, v := range o.sweepRange.Values {
		w.at(v, o.full)
		o.sweep.Put(v)
		p := sweptPoint{refused: s.Run()}
		if p.refused == nil {
			if computed++; computed == 1 {
				w.begin(s)
			}
			for _, c := range w.cells {
				p.add(o, c)
			}
			w.warn(s)
			if o.json {
				var err error
				if p.json, err = s.MarshalJSON(); err != nil {
					return nil, err
				}
			}
		} else {
			last = p.refused
			p.json = calc.ErrorJSON(s.Info().Name, p.refused)
		}
		w.points = append(w.points, p)
	}
	if computed == 0 {
		return nil, last
	}
	return w, nil
}

// at adds a canonical value of the input.
func (w *swept) at(v float64, full bool) {
	x := w.unit.To(v)
	text := paperprop.People(x)
	if full {
		text = string(w.unit.AppendShort(nil, v))
	}
	w.xs, w.texts = append(w.xs, x), append(w.texts, text)
}

// inTitle returns a value as it stands in the title of a picture: in print, except for a
// word, which stands as it is typed. The cell of a result that was given is nil.
func inTitle(c *calc.Cell, text string) string {
	if c == nil || c.Shape != calc.Word && c.Shape != calc.Text {
		text = typeset(text)
	}
	return unbrokenValue(text)
}

// begin takes from the first point what holds for all: what is solved for, and the
// defaults.
func (w *swept) begin(s *calc.Sheet) {
	if len(s.Roots) > 0 {
		root := s.Roots[0].Input
		others := slices.DeleteFunc(w.cells, func(c *calc.Cell) bool { return c.Name == root.Name })
		w.cells = append([]*calc.Cell{root}, others...)
	}
	for _, c := range s.Defaults() {
		if c.Present() {
			w.defaults = append(w.defaults, c.Name+" "+c.Reported())
			w.fixed = append(w.fixed, c.Name+" "+inTitle(c, c.Reported()))
		}
	}
}

// warn keeps the warnings of the point just computed.
func (w *swept) warn(s *calc.Sheet) {
	for _, warning := range warningsOf(s) {
		i := slices.IndexFunc(w.warnings, func(have sweptWarning) bool { return have.Code == warning.Code })
		if i < 0 {
			i = len(w.warnings)
			w.warnings = append(w.warnings, sweptWarning{Warning: warning, first: w.xs[len(w.xs)-1]})
		}
		w.warnings[i].points++
	}
}

// add keeps a result of the point. An absent one is empty, and NaN.
func (p *sweptPoint) add(o *options, c *calc.Cell) {
	if !c.Present() {
		p.values, p.numbers = append(p.values, ""), append(p.numbers, math.NaN())
		return
	}
	u := c.PrintUnit()
	p.values = append(p.values, strings.TrimSuffix(o.value(c), paperprop.WithUnit("", u)))
	p.numbers = append(p.numbers, c.In(c.Number(), u))
}

func (w *swept) heads() []string {
	heads := []string{headOf(w.input.Name, w.unit)}
	for _, c := range w.cells {
		heads = append(heads, headOf(c.Name, c.PrintUnit()))
	}
	return heads
}

func headOf(name string, u paperprop.Unit) string {
	if text := u.String(); text != "" && text != "1" {
		return name + " [" + text + "]"
	}
	return name
}

func (w *swept) rows() [][]string {
	rows := [][]string{w.heads()}
	for i, p := range w.points {
		row := []string{w.texts[i]}
		if p.refused != nil {
			row = append(row, "refused: "+p.refused.Error())
		} else {
			row = append(row, p.values...)
		}
		rows = append(rows, row)
	}
	return rows
}

func (w *swept) printText(t *terminal) {
	rows := w.rows()
	var plain [][]string
	for i, row := range rows { // a refusal would widen its column
		if i == 0 || w.points[i-1].refused == nil {
			plain = append(plain, row)
		}
	}
	printTable(t.out, plain)
	for i, p := range w.points {
		if row := rows[i+1]; p.refused != nil {
			t.say("%s = %s: %s", w.input.Name, paperprop.WithUnit(row[0], w.unit), row[1])
		}
	}
}

func (w *swept) printCSV(t *terminal) {
	for i, row := range w.rows() {
		if i > 0 && w.points[i-1].refused != nil {
			row = slices.Insert(row, 1, make([]string, len(w.cells)-1)...)
		}
		printCSVLine(t.out, row...)
	}
}

func (w *swept) printJSON(t *terminal) error {
	for i, p := range w.points {
		separator := ","
		if i == 0 {
			separator = "["
		}
		fmt.Fprintf(t.out, "%s%s\n", separator, p.json)
	}
	_, err := fmt.Fprintln(t.out, "]")
	return err
}
