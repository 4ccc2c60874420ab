package batch

import (
	"math"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/table"
)

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
