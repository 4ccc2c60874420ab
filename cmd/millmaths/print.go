package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/calc/worked"
	"millmaths.example/paperprop/table"
)

// print writes the results of a sheet in the form asked for.
func (o *options) print(s *calc.Sheet, found calc.Findings, t *terminal) error {
	switch {
	case o.json:
		return t.answer(s.MarshalFindings(found))
	case o.csv:
		return printCSV(t.out, s, found)
	case o.steps != "":
		w, err := s.Solution()
		if err != nil {
			return err
		}
		if o.steps == "markdown" {
			doubts, err := s.Doubts(found)
			if err != nil {
				return err
			}
			for _, d := range doubts {
				w.Warnings = append(w.Warnings, &d)
			}
			return worked.Markdown(t.out, w, found)
		}
		w.Warnings, w.Cautions = nil, nil // said to whom reads the screen
		return worked.Text(t.out, w, found)
	}
	return o.printText(t.out, s, found)
}

// value returns the text of a cell for people.
func (o *options) value(c *calc.Cell) string {
	if o.full {
		return c.Full()
	}
	return c.Reported()
}

func (o *options) printText(out io.Writer, s *calc.Sheet, found calc.Findings) error {
	uncertainties, err := s.Uncertainties()
	if err != nil {
		return err
	}
	var rows [][]string
	for i, r := range s.Roots {
		var said []string
		if i == 0 { // the results, and the uncertainties, are of the first
			said = spreads(r.Input, uncertainties, found.Level)
		}
		value := r.People()
		if o.full {
			value = r.Full()
		} else if us := standards(r.Input, uncertainties); i == 0 && r.Low == r.High && len(us) == 1 && us[0] > 0 {
			value = r.Input.ToPlaceOf(us[0])
		}
		rows = append(rows, []string{r.Input.Name, value, strings.Join(append(said, "solved for"), ", ")})
	}
	for _, c := range s.Out {
		if c.Empty() {
			rows = append(rows, []string{c.Name, calc.NoneText, ""})
		}
		if !c.Present() || s.Sought(c.Name) {
			continue
		}
		rows = append(rows, o.outputRow(c, uncertainties, found.Level))
	}
	for _, c := range s.Labels() {
		rows = append(rows, []string{c.Name, o.value(c), withMeaning("as given", c)})
	}
	for _, c := range s.Defaults() {
		if c.Present() {
			rows = append(rows, []string{c.Name, c.Reported(), "default"})
		}
	}
	plain.Rows(out, rows)
	worked.Findings(out, found)
	return nil
}

// outputRow returns name, value and remarks. A value beside its uncertainty has the
// digits that the uncertainty leaves it, and the reported value among the remarks.
func (o *options) outputRow(c *calc.Cell, all []calc.Uncertainty, level float64) []string {
	value, remarks := o.value(c), strings.Join(spreads(c, all, level), ", ")
	reported := o.full
	if us := standards(c, all); len(us) == 1 && us[0] > 0 && !o.full && !c.Decimal {
		value, reported = c.ToPlaceOf(us[0]), true
	}
	if rule := c.Field.Report.Short(); rule != "" {
		text := "reported to " + rule
		if reported {
			text = "reported " + c.Reported() + ", to " + rule
		}
		remarks = strings.TrimPrefix(remarks+"; "+text, "; ")
	}
	if c.Remark != "" {
		remarks = strings.TrimPrefix(remarks+"; "+c.Remark, "; ")
	}
	return []string{c.Name, value, remarks}
}

// standards returns the standard uncertainties of a cell, one for each member.
func standards(c *calc.Cell, all []calc.Uncertainty) []float64 {
	var us []float64
	for _, u := range all {
		if u.Cell == c && !c.Stepped {
			us = append(us, u.Standard)
		}
	}
	return us
}

const movesInSteps = "moves in steps: --monte-carlo gives its uncertainty"

// spreads returns the uncertainties of an output: standard ones, or ones expanded
// to a level of confidence.
func spreads(c *calc.Cell, all []calc.Uncertainty, level float64) []string {
	var texts []string
	for _, u := range all {
		switch {
		case u.Cell != c:
			continue
		case c.Stepped:
			return []string{movesInSteps}
		}
		text := "u = " + c.Spread(u.Standard)
		if k, expanded, err := u.Expanded(level); level > 0 && err == nil {
			text += fmt.Sprintf(", U = %s (k = %.2f, %s)", c.Spread(expanded), k, worked.Level(level, u.Freedom))
		}
		texts = append(texts, text)
	}
	return texts
}

// printTable aligns columns of numbers below their heads. If the table is wider than
// the terminal, units go below the heads; columns that still do not fit follow below
// the others.
func printTable(out io.Writer, rows [][]string) {
	if widths := columnWidths(rows); len(columnsThatFit(widths)) > 1 {
		rows = withUnitsBelow(rows)
	}
	widths := columnWidths(rows)
	for i, columns := range columnsThatFit(widths) {
		if i > 0 {
			fmt.Fprintln(out)
		}
		for _, row := range rows {
			var line strings.Builder
			for _, c := range columns {
				fmt.Fprintf(&line, "%-*s", widths[c]+2, row[c])
			}
			fmt.Fprintln(out, strings.TrimRight(line.String(), " "))
		}
	}
}

// columnsThatFit groups the columns of a table, which are two spaces apart, so that
// each group fits on the terminal. The first column begins each of them.
func columnsThatFit(widths []int) [][]int {
	groups, at := [][]int{{0}}, widths[0]
	for c := 1; c < len(widths); c++ {
		if last := len(groups) - 1; len(groups[last]) > 1 && at+2+widths[c] > plain.Width {
			groups, at = append(groups, []int{0}), widths[0]
		}
		last := len(groups) - 1
		groups[last], at = append(groups[last], c), at+2+widths[c]
	}
	return groups
}

// withUnitsBelow puts the units of heads, "steam-flow [t/h]", on a line of their own.
func withUnitsBelow(rows [][]string) [][]string {
	names, units := slices.Clone(rows[0]), make([]string, len(rows[0]))
	for i, head := range rows[0] {
		if at := strings.LastIndex(head, " ["); at >= 0 {
			names[i], units[i] = head[:at], head[at+1:]
		}
	}
	return append([][]string{names, units}, rows[1:]...)
}

// columnWidths returns the widths of the columns of a table.
func columnWidths(rows [][]string) []int {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	return widths
}

// withMeaning returns a text about a label, followed by the meaning of its word.
func withMeaning(text string, c *calc.Cell) string {
	if m := c.Meaning(); m != "" {
		return text + ": " + m
	}
	return text
}

// printCSV writes a line per output: its full value, unit, standard uncertainty and
// reported text, and what else was asked for of its uncertainty; then a line per input
// that belongs to the results.
func printCSV(out io.Writer, s *calc.Sheet, found calc.Findings) error {
	uncertainties, err := s.Uncertainties()
	if err != nil {
		return err
	}
	columns := findingColumns(found)
	heads := []string{"output", "value", "unit", "u", "reported"}
	for _, column := range columns {
		heads = append(heads, column.head)
	}
	printCSVLine(out, heads...)
	line := func(c *calc.Cell, number, reported string, all []calc.Uncertainty) {
		cells := []string{c.Name, number, c.PrintUnit().String(), figuresText(c, differences(c, standards(c, all))), reported}
		for _, column := range columns {
			cells = append(cells, figuresText(c, column.of(c, all)))
		}
		printCSVLine(out, cells...)
	}
	for i, r := range s.Roots {
		if i == 0 { // the results, and the uncertainties, are of the first
			line(r.Input, r.FullNumber(), r.People(), uncertainties)
		} else {
			line(r.Input, r.FullNumber(), r.People(), nil)
		}
	}
	for _, c := range s.Out {
		if c.Present() && !s.Sought(c.Name) {
			line(c, c.FullNumber(), c.Reported(), uncertainties)
		}
	}
	for _, c := range s.Labels() {
		line(c, c.FullNumber(), withMeaning(c.Reported(), c), nil)
	}
	return nil
}

// A findingColumn is a column of CSV about the uncertainty of each cell: one figure, or
// one for each member of a list, in the unit to print in.
type findingColumn struct {
	head string
	of   func(c *calc.Cell, all []calc.Uncertainty) []float64
}

// findingColumns returns the columns of what was asked for.
func findingColumns(found calc.Findings) []findingColumn {
	var columns []findingColumn
	if found.Level > 0 {
		columns = append(columns,
			findingColumn{"U", func(c *calc.Cell, all []calc.Uncertainty) []float64 {
				u, _ := expanded(c, all, found.Level)
				return differences(c, u)
			}},
			findingColumn{"k", func(c *calc.Cell, all []calc.Uncertainty) []float64 {
				_, k := expanded(c, all, found.Level)
				return k
			}})
	}
	if len(found.Bent) > 0 {
		columns = append(columns,
			foundColumn("second-order-mean", found.Bent, func(b calc.Bent) (*calc.Cell, float64) { return b.Cell, inPrint(b.Cell, b.Mean) }),
			foundColumn("second-order-u", found.Bent, func(b calc.Bent) (*calc.Cell, float64) { return b.Cell, b.Cell.Difference(b.Standard) }))
	}
	if len(found.Samples) > 0 {
		columns = append(columns,
			foundColumn("monte-carlo-mean", found.Samples, func(m calc.Sample) (*calc.Cell, float64) { return m.Cell, inPrint(m.Cell, m.Mean) }),
			foundColumn("monte-carlo-u", found.Samples, func(m calc.Sample) (*calc.Cell, float64) { return m.Cell, m.Cell.Difference(m.Standard) }),
			foundColumn("monte-carlo-lower", found.Samples, func(m calc.Sample) (*calc.Cell, float64) { return m.Cell, inPrint(m.Cell, m.Low) }),
			foundColumn("monte-carlo-upper", found.Samples, func(m calc.Sample) (*calc.Cell, float64) { return m.Cell, inPrint(m.Cell, m.High) }))
	}
	return columns
}

// foundColumn returns the column of one figure of what was found.
func foundColumn[F any](head string, all []F, figure func(F) (*calc.Cell, float64)) findingColumn {
	return findingColumn{head, func(c *calc.Cell, _ []calc.Uncertainty) (figures []float64) {
		for _, found := range all {
			if of, x := figure(found); of == c {
				figures = append(figures, x)
			}
		}
		return figures
	}}
}

// inPrint converts a canonical value to the unit in which a cell is printed.
func inPrint(c *calc.Cell, canonical float64) float64 { return c.In(canonical, c.PrintUnit()) }

// expanded returns the expanded uncertainties of a cell, and their factors.
func expanded(c *calc.Cell, all []calc.Uncertainty, level float64) (expanded, k []float64) {
	for _, u := range all {
		if factor, x, err := u.Expanded(level); u.Cell == c && !c.Stepped && err == nil {
			expanded, k = append(expanded, x), append(k, factor)
		}
	}
	return expanded, k
}

// differences converts canonical differences to the unit in which a cell is printed.
func differences(c *calc.Cell, canonical []float64) []float64 {
	printed := make([]float64, len(canonical))
	for i, x := range canonical {
		printed[i] = c.Difference(x)
	}
	return printed
}

// figuresText returns figures about a cell with all their digits, those of a list in
// brackets; empty if there are none.
func figuresText(c *calc.Cell, figures []float64) string {
	var texts []string
	for _, x := range figures {
		texts = append(texts, fullText(x))
	}
	text := strings.Join(texts, " ")
	if c.Shape == calc.List && text != "" {
		return "[" + text + "]"
	}
	return text
}

// printCSVLine writes cells as a line of CSV.
func printCSVLine(out io.Writer, cells ...string) error {
	var line []byte
	for i, cell := range cells {
		if i > 0 {
			line = append(line, ',')
		}
		line = table.AppendCSV(line, ',', []byte(cell))
	}
	_, err := out.Write(append(line, '\n'))
	return err
}

// numberText returns a number for people, or with all its digits.
func numberText(x float64, full bool) string {
	if full {
		return fullText(x)
	}
	return paperprop.People(x)
}

func fullText(x float64) string { return string(paperprop.AppendShort(nil, x)) }

// counted returns "1 row", "2 rows" and so on.
func counted(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}
