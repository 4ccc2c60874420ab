// Package worked writes a worked solution as plain text or in Markdown:
//
//	err := s.Run() // a calc.Sheet
//	...
//	w, err := s.Solution()
//	...
//	err = worked.Text(os.Stdout, w, calc.Findings{})
//
// A [calc.Solution] holds texts, so that a program can set them itself: this package sets
// them as the command does.
package worked

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/mathml"
	"millmaths.example/paperprop/calc/plain"
)

// Text writes a worked solution in lines of at most 80 columns, as far as its formulas can be
// broken, with what was found on its uncertainty besides first order. Found may be zero.
// The error is that of out.
func Text(out io.Writer, w *calc.Solution, found calc.Findings) error {
	var b bytes.Buffer
	writeText(&b, w, found)
	_, err := b.WriteTo(out)
	return err
}

func writeText(out io.Writer, w *calc.Solution, found calc.Findings) {
	fmt.Fprintf(out, "%s\n\nGiven\n", w.Title)
	printGiven(out, givenRows(w, "  "))
	if len(w.Between) > 0 {
		fmt.Fprintln(out, "\nValues on the way")
		plain.Rows(out, betweenRows(w, "  "))
	}
	if w.Solved != "" {
		fmt.Fprintf(out, "\nSolved for\n  %s\n", plain.Wrapped(w.Solved, "  "))
	}
	if len(w.Steps) > 0 || w.Method != "" {
		fmt.Fprintln(out, "\nSolution")
	}
	for _, step := range w.Steps {
		name, _, _ := strings.Cut(step.Formula, "=")
		for i, line := range stepLines(step) {
			if i == 0 {
				fmt.Fprintf(out, "  %s\n", line)
				continue
			}
			fmt.Fprintf(out, "  %s= %s\n", strings.Repeat(" ", len(name)), plain.Folded(line, len(name)+4))
		}
	}
	for _, text := range mathml.TypedLegend(stepFormulas(w)) {
		fmt.Fprintf(out, "  %s\n", plain.Wrapped(text, "  "))
	}
	if w.Method != "" {
		fmt.Fprintf(out, "  %s\n", plain.Wrapped("Method: "+w.Method, "  "))
	}
	fmt.Fprintln(out, "\nResult")
	plain.Rows(out, resultRows(w, "  "))
	for _, r := range withSpread(w) {
		fmt.Fprintf(out, "\n%s\n", plain.Wrapped("Uncertainty of "+r.Name+", "+spreadOf(r), "  "))
		plain.Rows(out, budgetRows(r, "  "))
		fmt.Fprint(out, expandedLine(r, found.Level, "  %s\n"))
	}
	if len(found.Samples)+len(found.Bent) > 0 {
		fmt.Fprintln(out)
	}
	Findings(out, found)
	for _, warning := range w.Warnings {
		fmt.Fprintf(out, "\n%s\n", plain.Wrapped(fmt.Sprintf("Warning: %s: %s", warning.Code, warning.Text), "  "))
	}
	for _, c := range w.Cautions {
		fmt.Fprintf(out, "\n%s\n", plain.Wrapped("Caution: "+c.Text, "  "))
	}
	fmt.Fprintf(out, "\n%s\n", plain.Wrapped("Source: "+w.Status.Cite(w.Source), "  "))
}

// withSpread returns the results whose uncertainty has a section of its own, for a
// list by member.
func withSpread(w *calc.Solution) []calc.ResultLine {
	var lines []calc.ResultLine
	for _, r := range w.Results {
		for _, one := range append(slices.Clone(r.Members), r) {
			if len(one.Budget) > 0 {
				lines = append(lines, one)
			}
		}
	}
	return lines
}

func spreadOf(r calc.ResultLine) string { return "u = " + r.U + ", first order (JCGM 100:2008)" }

// longestGiven is the length up to which a value stands in the table of what was
// given.
const longestGiven = 60

// printGiven prints the rows of givenRows, with long lists below them.
func printGiven(out io.Writer, rows [][]string) {
	var long strings.Builder
	for _, row := range rows {
		if len(row[1]) > longestGiven {
			column := len(row[0]) + len(" = ")
			fmt.Fprintf(&long, "%s = %s\n", row[0], plain.WrappedAt(row[1], column))
			row[1] = "(below)"
		}
	}
	plain.Rows(out, rows)
	fmt.Fprint(out, long.String())
}

// stepLines returns the formula of a step, the formula with its values, and its
// result, without lines that repeat the one above.
func stepLines(step calc.Step) []string {
	lines := []string{step.Formula}
	_, said, _ := strings.Cut(step.Formula, "=")
	said = strings.TrimSpace(said)
	for _, line := range []string{step.Substituted, step.Result} {
		if line != "" && line != said {
			lines, said = append(lines, line), line
		}
	}
	return lines
}

func givenRows(w *calc.Solution, indent string) [][]string {
	var rows [][]string
	for _, g := range w.Given {
		value := g.Written
		switch {
		case g.Written == "":
			value = g.Value
		case g.Value != "":
			value += " = " + g.Value
		}
		help := g.Help
		if g.Default {
			help += " (default)"
		}
		rows = append(rows, []string{indent + g.Symbol, value, g.Name, help})
	}
	return rows
}

func betweenRows(w *calc.Solution, indent string) [][]string {
	var rows [][]string
	for _, b := range w.Between {
		rows = append(rows, []string{indent + b.Symbol, b.Value, b.Help})
	}
	return rows
}

func stepFormulas(w *calc.Solution) []*formula.Line {
	var lines []*formula.Line
	for _, step := range w.Steps {
		lines = append(lines, step.Line)
	}
	return lines
}

func resultRows(w *calc.Solution, indent string) [][]string {
	var rows [][]string
	for _, r := range w.Results {
		said := reportedAs(r)
		if r.Remark != "" {
			said = strings.TrimPrefix(said+"; "+r.Remark, "; ")
		}
		if r.Stepped {
			said = strings.TrimPrefix(said+"; moves in steps: Monte Carlo gives its uncertainty", "; ")
		}
		rows = append(rows, []string{indent + r.Symbol, r.Full, r.Name, said})
	}
	return rows
}

func reportedAs(r calc.ResultLine) string {
	if !r.Ruled || r.Rule == "" || r.Reported == r.Full {
		return r.Rule
	}
	return "reported " + r.Reported + ": " + r.Rule
}

// expandedLine returns the expanded uncertainty of a result, if it was asked for.
func expandedLine(r calc.ResultLine, level float64, format string) string {
	if level == 0 {
		return ""
	}
	k, text, err := r.Expanded(level)
	if err != nil {
		return fmt.Sprintf(format, err)
	}
	of := Level(level, r.Freedom)
	if whole := math.Trunc(r.Freedom); whole >= 1 && r.Freedom-whole > 0.05 && r.Freedom-whole < 0.95 {
		of += fmt.Sprintf(", not cut to %.0f", whole) // JCGM 100:2008, G.4.1, leaves it open (from memory)
	}
	return fmt.Sprintf(format, fmt.Sprintf("U = %s, k = %.2f (%s)", text, k, of))
}

func budgetRows(r calc.ResultLine, indent string) [][]string {
	var rows [][]string
	for _, b := range r.Budget {
		rows = append(rows, []string{indent + b.Name, b.U, fmt.Sprintf("%.1f %% of the variance", b.Percent)})
	}
	return rows
}

// Markdown is [Text] in Markdown, for a report.
func Markdown(out io.Writer, w *calc.Solution, found calc.Findings) error {
	var b bytes.Buffer
	writeMarkdown(&b, w, found)
	_, err := b.WriteTo(out)
	return err
}

func writeMarkdown(out io.Writer, w *calc.Solution, found calc.Findings) {
	fmt.Fprintf(out, "# %s\n\n## Given\n\n", w.Title)
	plain.MarkdownTable(out, []string{"symbol", "value", "input", "meaning"}, givenRows(w, ""))
	if len(w.Between) > 0 {
		fmt.Fprint(out, "\n## Values on the way\n\n")
		plain.MarkdownTable(out, []string{"symbol", "value", "meaning"}, betweenRows(w, ""))
	}
	if w.Solved != "" {
		fmt.Fprintf(out, "\n## Solved for\n\n%s\n", plain.InMarkdown(w.Solved))
	}
	fmt.Fprintf(out, "\n## Solution\n\n")
	for _, step := range w.Steps {
		fmt.Fprint(out, "```\n")
		for i, line := range stepLines(step) {
			if i > 0 {
				line = "  = " + plain.Folded(line, len("  = "))
			}
			fmt.Fprintln(out, line)
		}
		fmt.Fprint(out, "```\n\n")
	}
	for _, text := range mathml.TypedLegend(stepFormulas(w)) {
		fmt.Fprintf(out, "%s\n\n", plain.InMarkdown(text))
	}
	if w.Method != "" {
		fmt.Fprintf(out, "Method: %s\n\n", plain.InMarkdown(w.Method))
	}
	fmt.Fprint(out, "## Result\n\n")
	plain.MarkdownTable(out, []string{"symbol", "unrounded", "output", "reported"}, resultRows(w, ""))
	for _, r := range withSpread(w) {
		fmt.Fprintf(out, "\n## Uncertainty of %s\n\n%s\n\n", r.Name, spreadOf(r))
		plain.MarkdownTable(out, []string{"source", "contribution", "part"}, budgetRows(r, ""))
		fmt.Fprint(out, expandedLine(r, found.Level, "\n%s\n"))
	}
	if len(found.Samples)+len(found.Bent) > 0 {
		fmt.Fprint(out, "\n```\n")
		Findings(out, found)
		fmt.Fprint(out, "```\n")
	}
	for _, warning := range w.Warnings {
		MarkdownWarning(out, *warning)
	}
	for _, c := range w.Cautions {
		fmt.Fprintf(out, "\n**Caution**: %s\n", plain.InMarkdown(c.Text))
	}
	fmt.Fprintf(out, "\nSource: %s\n", plain.InMarkdown(w.Status.Cite(w.Source)))
}

// MarkdownWarning writes a warning as a paragraph of Markdown.
func MarkdownWarning(out io.Writer, w calc.Warning) {
	fmt.Fprintf(out, "\n**Warning** (%s): %s\n", w.Code, plain.InMarkdown(w.Text))
}

// Findings writes what was found beyond the first order.
func Findings(out io.Writer, found calc.Findings) {
	if len(found.Samples) > 0 {
		fmt.Fprintf(out, "Monte Carlo, %d draws, seed %d, 95 %% interval:\n", found.Draws, found.Seed)
	}
	var rows [][]string
	for _, m := range found.Samples {
		people := func(x float64) string { return m.Cell.PeopleBeside(x, m.Standard) }
		rows = append(rows, []string{
			"  " + m.Cell.Name, paperprop.WithUnit(people(m.Low)+" to "+people(m.High), m.Cell.PrintUnit()),
			"u = " + m.Cell.Spread(m.Standard),
		})
	}
	plain.Rows(out, rows)
	if len(found.Bent) > 0 {
		fmt.Fprintln(out, "Second order:")
	}
	rows = nil
	for _, b := range found.Bent {
		rows = append(rows, []string{
			"  " + b.Cell.Name, "mean " + paperprop.WithUnit(b.Cell.PeopleBeside(b.Mean, b.Standard), b.Cell.PrintUnit()),
			"u = " + b.Cell.Spread(b.Standard),
		})
	}
	plain.Rows(out, rows)
}

// Level returns a level of confidence, from 0 to 1, as a person reads it, with the degrees of
// freedom unless they are zero.
func Level(level, freedom float64) string {
	text := paperprop.People(100*level) + " %"
	if freedom > 0 {
		text += fmt.Sprintf(", %s degrees of freedom", paperprop.People(math.Round(freedom*10)/10))
	}
	return text
}
