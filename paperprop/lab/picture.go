package lab

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop/calc"
)

// cleanScans is CleanScans with a message for each thing it leaves out.
func cleanScans(rows [][]float64) ([][]float64, []string, error) {
	c, err := CleanScans(rows)
	if err != nil {
		return nil, nil, err
	}
	notes := []string{fmt.Sprintf("%d of %d scans used, positions %d to %d of %d",
		len(c.Scan), len(rows), c.First, c.First+len(c.Scan[0])-1, len(rows[0]))}
	if len(c.LeftOut) > 0 {
		scans := "scans "
		if len(c.LeftOut) == 1 {
			scans = "scan "
		}
		notes = append(notes, "left out, stuck or empty: "+scans+strings.Trim(fmt.Sprint(c.LeftOut), "[]"))
	}
	return c.Scan, notes, nil
}

// withoutMissing leaves out missing results. Laboratories may have made different
// numbers of them, and their order means nothing.
func withoutMissing(rows [][]float64) ([][]float64, []string, error) {
	var notes []string
	kept := make([][]float64, len(rows))
	for i, row := range rows {
		kept[i] = present(row)
		if n := len(kept[i]); n < len(row) {
			results := "results"
			if n == 1 {
				results = "result"
			}
			notes = append(notes, fmt.Sprintf("row %d: %d %s, %d missing and left out", i+1, n, results, len(row)-n))
		}
	}
	return kept, notes, nil
}

// level returns a horizontal line at a value.
func level(label string, from, to, y float64) calc.Curve {
	return calc.Curve{Label: label, X: []float64{from, to}, Y: []float64{y, y}, Light: true}
}

// limit is a dashed level.
func limit(label string, from, to, y float64) calc.Curve {
	c := level(label, from, to, y)
	c.Dashed = true
	return c
}

// drawChart draws the readings in order with their unit, and the limits, and marks
// the readings outside.
func drawChart(in *ControlChart, out *ControlChartResult, head string) *calc.Picture {
	n := float64(len(in.Value))
	p := &calc.Picture{Title: "control chart: single readings, limits of 3 sigma", X: calc.Axis{Label: "reading", From: 0, To: n}, Y: calc.Axis{Label: head}}
	p.Curves = append(p.Curves,
		limit("upper limit", 0, n, out.UpperLimit), level("mean", 0, n, out.Mean), limit("lower limit", 0, n, out.LowerLimit))
	var readings calc.Curve
	for i, x := range in.Value {
		readings.Add(float64(i+1), x)
	}
	p.Curves = append(p.Curves, readings)
	for _, i := range out.Outside {
		p.Marks = append(p.Marks, calc.Mark{Label: strconv.Itoa(int(i)), X: float64(i), Y: in.Value[int(i)-1]})
	}
	return p
}

// numbersOf returns the numbers of an answer, or nil if it is absent.
func numbersOf(answers []calc.Answer, name string) []float64 {
	i := slices.IndexFunc(answers, func(a calc.Answer) bool { return a.Name == name })
	if i < 0 {
		return nil
	}
	return answers[i].Numbers()
}

// drawProfile draws the mean of each position, the overall mean, and twice the CD
// deviation on either side of it.
func drawProfile(_ []calc.Pair, answers []calc.Answer) *calc.Picture {
	profile, mean, sigma := numbersOf(answers, "cd-profile"), numbersOf(answers, "mean")[0], numbersOf(answers, "cd-two-sigma")[0]
	n := float64(len(profile))
	p := &calc.Picture{Title: "profile across the sheet, mean and 2-sigma", X: calc.Axis{Label: "position, of those used"}, Y: calc.Axis{Label: strings.TrimSpace("mean of the scans " + inBrackets(answers[0].Unit.String()))}}
	p.Curves = append(p.Curves, limit("", 1, n, mean+sigma), level("", 1, n, mean), limit("", 1, n, mean-sigma))
	var curve calc.Curve
	for i, x := range profile {
		curve.Add(float64(i+1), x)
	}
	p.Curves = append(p.Curves, curve)
	return p
}

func inBrackets(unit string) string {
	if unit == "" || unit == "1" {
		return ""
	}
	return "[" + unit + "]"
}

// drawPrecision draws h and k of each laboratory as bars side by side, k dashed.
func drawPrecision(_ []calc.Pair, answers []calc.Answer) *calc.Picture {
	h, k := numbersOf(answers, "h"), numbersOf(answers, "k")
	if h == nil {
		return nil // there are none if laboratories differ in their numbers of results
	}
	p := &calc.Picture{Title: "h (line) and k (dashed) of each laboratory", X: calc.Axis{Label: "laboratory", From: 0, To: float64(len(h) + 1)}, Y: calc.Axis{Label: "h, k"}}
	p.Curves = append(p.Curves, level("", 0, float64(len(h)+1), 0))
	for i := range h {
		at := float64(i + 1)
		p.Curves = append(p.Curves,
			calc.Curve{X: []float64{at - 0.1, at - 0.1}, Y: []float64{0, h[i]}},
			calc.Curve{X: []float64{at + 0.1, at + 0.1}, Y: []float64{0, k[i]}, Dashed: true})
	}
	return p
}
