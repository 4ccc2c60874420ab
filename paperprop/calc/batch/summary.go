package batch

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/table"
)

// WriteSummary writes a line for each group and output: how many rows, mean,
// s, coefficient of variation, confidence interval, and the mean as the method
// reports it.
func (t *Totals) WriteSummary(out io.Writer, by []string, confidence float64) error {
	var b bytes.Buffer
	for _, head := range by {
		b.WriteString(head + ",")
	}
	fmt.Fprintf(&b, "result,n,mean,s,coefficient of variation [%%],lower,upper,confidence [%%],unit,reported mean,rule\n")
	for _, g := range t.Groups {
		for _, r := range g.Results {
			if r.Count == 0 {
				continue
			}
			m, err := r.Values.Summary(confidence)
			if err != nil {
				return err
			}
			var line []byte
			for _, key := range g.Key {
				line = append(table.AppendCSV(line, ',', []byte(key)), ',')
			}
			line = appendSummary(line, r.Cell, m, confidence)
			b.Write(append(line, '\n'))
		}
	}
	_, err := out.Write(b.Bytes())
	return err
}

// appendSummary appends the cells of one output of one group. A cell that one
// row can't fill is empty.
func appendSummary(line []byte, c *calc.Cell, m result.Summary, confidence float64) []byte {
	u := c.PrintUnit()
	value := func(x float64) []byte { return append(paperprop.AppendPeople(line, c.In(x, u)), ',') }
	optional := func(x *float64, turn func(float64) float64) []byte {
		if x != nil {
			line = paperprop.AppendPeople(line, turn(*x))
		}
		return append(line, ',')
	}
	plain := func(x float64) float64 { return c.In(x, u) }
	line = append(table.AppendCSV(line, ',', []byte(c.Name)), ',')
	line = append(paperprop.AppendPeople(line, float64(m.Count)), ',')
	line = value(m.Mean)
	line = optional(m.StandardDeviation, c.Difference)
	line = optional(m.CoefficientOfVariation, func(x float64) float64 { return 100 * x })
	line = optional(m.Lower, plain)
	line = optional(m.Upper, plain)
	line = append(paperprop.AppendPeople(line, math.Round(confidence*1e6)/1e4), ',')
	line = append(table.AppendCSV(line, ',', []byte(u.String())), ',')
	rule := c.Field.Report
	if !rule.Rule.IsZero() {
		line = rule.Rule.Append(line, plain(m.Mean))
	}
	line = append(line, ',')
	return table.AppendCSV(line, ',', []byte(rule.String()))
}
