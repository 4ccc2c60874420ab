package batch

import (
	"bytes"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/table"
)

// A summaryLine is built of cells with the delimiter and decimal sign of the
// table that is summarised.
type summaryLine struct {
	text               []byte
	delimiter, decimal byte
}

func (l *summaryLine) cell(text string) {
	l.text = append(table.AppendCSV(l.text, l.delimiter, []byte(text)), l.delimiter)
}

func (l *summaryLine) number(text string) {
	l.cell(strings.ReplaceAll(text, ".", string(rune(l.decimal))))
}

func (l *summaryLine) end(b *bytes.Buffer) {
	l.text[len(l.text)-1] = '\n'
	b.Write(l.text)
	l.text = l.text[:0]
}

// summaryHeads follow those of the groups.
var summaryHeads = [...]string{
	"result", "n", "left out", "mean", "s", "coefficient of variation [%]", "lower", "upper", "confidence [%]", "unit", "reported mean", "rule",
}

// WriteSummary writes a line for each group and output: how many rows, how many
// could not be computed, mean, s, coefficient of variation, confidence interval,
// and the mean as the method reports it. A cell that can't be filled is empty.
func (t *Totals) WriteSummary(out io.Writer, by []string, confidence float64) error {
	var b bytes.Buffer
	l := &summaryLine{delimiter: t.delimiter, decimal: t.decimal}
	for _, head := range slices.Concat(by, summaryHeads[:]) {
		l.cell(head)
	}
	l.end(&b)
	for _, g := range t.Groups {
		for _, r := range g.Results {
			if r.Count == 0 && g.LeftOut == 0 {
				continue
			}
			for _, key := range g.Key {
				l.cell(key)
			}
			if err := l.result(r, g.LeftOut, confidence); err != nil {
				return err
			}
			l.end(&b)
		}
	}
	_, err := out.Write(b.Bytes())
	return err
}

// result appends the cells of one output of one group.
func (l *summaryLine) result(r Result, leftOut int, confidence float64) error {
	l.cell(r.Cell.Name)
	l.cell(strconv.Itoa(r.Count))
	l.cell(strconv.Itoa(leftOut))
	if r.Count == 0 {
		for range len(summaryHeads) - 3 {
			l.cell("")
		}
		return nil
	}
	m, err := r.Values.Summary(confidence)
	if err != nil {
		return err
	}
	u := r.Cell.PrintUnit()
	plain := func(x float64) float64 { return r.Cell.In(x, u) }
	l.number(paperprop.People(plain(m.Mean)))
	l.optional(m.StandardDeviation, r.Cell.Difference)
	l.optional(m.CoefficientOfVariation, func(x float64) float64 { return 100 * x })
	l.optional(m.Lower, plain)
	l.optional(m.Upper, plain)
	level := ""
	if m.Lower != nil {
		level = paperprop.People(math.Round(confidence*1e6) / 1e4)
	}
	l.number(level)
	l.cell(u.String())
	reported := ""
	if rule := r.Cell.Field.Report.Rule; !rule.IsZero() {
		reported = rule.Round(plain(m.Mean))
	}
	l.number(reported)
	l.cell(r.Cell.Field.Report.String())
	return nil
}

func (l *summaryLine) optional(x *float64, turn func(float64) float64) {
	if x == nil {
		l.cell("")
		return
	}
	l.number(paperprop.People(turn(*x)))
}
