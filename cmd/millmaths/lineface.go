package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/stock/line"
)

// usual lists the results in the table of a range if none are named.
var usual = []string{
	"production", "recovered-paper-per-tonne", "yield", "fresh-water-per-tonne", "effluent-per-tonne", "steam",
}

// sweep solves a line along the range of a figure and prints a table and, with
// --plot, draws the curve of the first result.
func (o *lineOptions) sweep(l *line.Line, name, text string, t *terminal) error {
	i, err := l.FigureNamed(name)
	if err != nil {
		return err
	}
	field := l.Figures[i].Field
	r, err := field.Range(text)
	if err != nil {
		return err
	}
	points, err := l.Range(name, r.Values)
	if err != nil {
		return err
	}
	results := l.Results()
	columns, err := o.columns(results)
	if err != nil {
		return err
	}
	w := &swept{input: &calc.Cell{Field: field}, unit: r.Unit}
	for _, c := range columns {
		f := calc.NewField(results[c].Name, "", calc.One, results[c].About)
		f.Kind, f.Unit = results[c].Kind, results[c].Unit
		w.cells = append(w.cells, &calc.Cell{Field: f})
	}
	w.fixed = []string{l.Name}
	solved := 0
	for _, p := range points {
		w.at(p.Figure, o.full)
		point := sweptPoint{refused: p.Err}
		if p.Err == nil {
			solved++
			for _, c := range columns {
				x := results[c].In(p.Values[c])
				point.values, point.numbers = append(point.values, numberText(x, o.full)), append(point.numbers, x)
			}
		}
		w.points = append(w.points, point)
	}
	if solved == 0 {
		return points[0].Err
	}
	if o.plot != "" {
		if err := (&options{plot: o.plot}).drawSweep(w, t); err != nil {
			return err
		}
	}
	if o.csv {
		w.printCSV(t)
	} else {
		w.printText(t)
	}
	for _, f := range uncertain(l) {
		if f != name {
			t.leftOut(f, "along a range")
		}
	}
	return w.end(t)
}

// uncertain names the figures with an uncertainty, each once.
func uncertain(lines ...*line.Line) []string {
	var names []string
	for _, l := range lines {
		for _, f := range l.Figures {
			if f.Uncertain.Standard > 0 && !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
		}
	}
	return names
}

// leftOut warns of an uncertainty that the table just printed does not show.
func (t *terminal) leftOut(name, where string) {
	t.say("warning: uncertainty-left-out: that of %s is not carried %s", name, where)
}

// columns returns the results asked for, or the usual ones that the line has.
func (o *lineOptions) columns(results []line.Result) ([]int, error) {
	var list []int
	for _, name := range o.of {
		i, err := line.ResultNamed(results, name)
		if err != nil {
			return nil, err
		}
		list = append(list, i)
	}
	if list != nil {
		return list, nil
	}
	for _, name := range usual {
		if i, err := line.ResultNamed(results, name); err == nil {
			list = append(list, i)
		}
	}
	return list, nil
}

// compare prints two lines side by side: figures, then results.
func (o *lineOptions) compare(a, b *solvedLine, t *terminal) {
	heads := []string{a.Line.File, b.Line.File, "difference"}
	var figures, results [][]string
	var names []string
	texts := [2]map[string]string{{}, {}}
	for i, s := range []*solvedLine{a, b} {
		for _, f := range s.Line.Figures {
			texts[i][f.Name] = f.Text
			if !slices.Contains(names, f.Name) {
				names = append(names, f.Name)
			}
		}
	}
	for _, name := range names {
		x, y := texts[0][name], texts[1][name]
		if x != y {
			figures = append(figures, []string{name, x, y, ""})
		}
	}
	for i := range a.Results {
		r := &a.Results[i]
		x, y := a.Values[i], math.NaN()
		if v, ok := b.Value(r.Name); ok {
			y = v
		}
		if r := compared(o, r, x, y); r != nil {
			results = append(results, r)
		}
	}
	for i := range b.Results {
		r := &b.Results[i]
		if _, both := a.Value(r.Name); !both {
			results = append(results, compared(o, r, math.NaN(), b.Values[i]))
		}
	}
	if o.csv {
		printCSVLine(t.out, append([]string{"name"}, heads...)...)
		for _, r := range append(figures, results...) {
			printCSVLine(t.out, r...)
		}
		return
	}
	fmt.Fprintf(t.out, "A: %s  %s\nB: %s  %s\n", a.Line.File, a.Line.Name, b.Line.File, b.Line.Name)
	head := []string{"", "A", "B", "B - A"}
	if len(figures) == 0 {
		fmt.Fprintln(t.out, "\nAll figures are the same.")
	} else {
		fmt.Fprintln(t.out, "\nFigures that differ")
		printFlows(t.out, append([][]string{head[:3]}, shortened(figures)...))
	}
	if len(results) == 0 {
		fmt.Fprintln(t.out, "\nAll results are the same.")
		return
	}
	fmt.Fprintln(t.out, "\nResults")
	printFlows(t.out, append([][]string{head}, results...))
}

func shortened(rows [][]string) [][]string {
	var out [][]string
	for _, r := range rows {
		out = append(out, r[:3])
	}
	return out
}

// compared returns a row of a comparison, or nil if only differences are wanted and
// there is none. A result that a line lacks is NaN.
func compared(o *lineOptions, r *line.Result, x, y float64) []string {
	same := math.Abs(x-y) <= 1e-9*max(math.Abs(x), math.Abs(y), 1e-9)
	if o.differences && same {
		return nil
	}
	write := func(v float64) string {
		if math.IsNaN(v) {
			return "--"
		}
		return numberText(v, o.full || o.csv)
	}
	d := r.In(y) - r.In(x)
	if same {
		d = 0
	}
	return []string{headOf(r.Name, r.Unit), write(r.In(x)), write(r.In(y)), write(d)}
}

// lineSteps prints the worked solution of one stage or tank. Even in full, numbers
// put into a formula are rounded, as in the solutions of calculations.
func (o *lineOptions) lineSteps(a *line.Answer, t *terminal) error {
	w, err := a.Steps(o.steps)
	if err != nil {
		return err
	}
	fmt.Fprintf(t.out, "%s (%s)\n", w.Name, w.Kind)
	if len(w.Given) > 0 {
		fmt.Fprintln(t.out, "\nGiven")
		var rows [][]string
		for _, f := range w.Given {
			rows = append(rows, []string{"  " + strings.TrimPrefix(f.Name, w.Name+"."), f.Text, f.Field.Help})
		}
		plain.Rows(t.out, rows)
	}
	s := &solvedLine{Answer: a}
	all := s.flowRows(o.full)
	part := func(title string, names []string) {
		if len(names) == 0 {
			return
		}
		rows := [][]string{append([]string{title}, all[0][1:]...)}
		for i, st := range a.Streams {
			if slices.Contains(names, st.Name) {
				rows = append(rows, all[i+1])
			}
		}
		fmt.Fprintln(t.out)
		printFlows(t.out, rows)
	}
	part("Comes, t/h", w.In)
	part("Leaves, t/h", w.Out)
	fmt.Fprintln(t.out, "\nSolution")
	for _, step := range w.Steps {
		name, _, _ := strings.Cut(step.Formula, "=")
		indent := "  " + strings.Repeat(" ", len(name))
		result := step.Result
		if o.full {
			result = step.Full
		}
		fmt.Fprintf(t.out, "  %s\n%s= %s\n%s= %s  %s\n", step.Formula, indent, plain.Folded(step.Substituted, len(indent)+2), indent, result, step.About)
	}
	fmt.Fprintf(t.out, "\n%s\n", plain.Wrapped(fmt.Sprintf("Check: what leaves equals what comes, for each component to %s.", small(w.Closure)), "  "))
	return nil
}
