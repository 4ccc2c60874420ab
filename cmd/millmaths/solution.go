package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"millmaths.example/paperprop/calc"
)

// solutionText writes a worked solution for a terminal.
func solutionText(out io.Writer, w *calc.Solution, found calc.Findings) error {
	fmt.Fprintf(out, "%s\n\nGiven\n", w.Title)
	printRows(out, givenRows(w, "  "))
	if w.Solved != "" {
		fmt.Fprintf(out, "\nSolved for\n  %s\n", wrapped(w.Solved, "  "))
	}
	if len(w.Steps) > 0 || w.Method != "" {
		fmt.Fprintln(out, "\nSolution")
	}
	for _, step := range w.Steps {
		name, _, _ := strings.Cut(step.Formula, "=")
		indent := "  " + strings.Repeat(" ", len(name))
		fmt.Fprintf(out, "  %s\n%s= %s\n", step.Formula, indent, step.Substituted)
		if step.Result != "" {
			fmt.Fprintf(out, "%s= %s\n", indent, step.Result)
		}
	}
	if w.Method != "" {
		fmt.Fprintf(out, "  %s\n", wrapped("Method: "+w.Method, "  "))
	}
	fmt.Fprintln(out, "\nResult")
	printRows(out, resultRows(w, "  "))
	for _, r := range w.Results {
		if len(r.Budget) > 0 {
			fmt.Fprintf(out, "\nUncertainty of %s, u = %s, first order (JCGM 100:2008)\n", r.Name, r.U)
			printRows(out, budgetRows(r, "  "))
			fmt.Fprint(out, expandedLine(r, found.Level, "  %s\n"))
		}
	}
	if len(found.Samples)+len(found.Bent) > 0 {
		fmt.Fprintln(out)
	}
	printFindings(out, found)
	fmt.Fprintf(out, "\n%s\n", wrapped(fmt.Sprintf("Source: %s (%s)", w.Source, w.Status), "  "))
	return nil
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

func resultRows(w *calc.Solution, indent string) [][]string {
	var rows [][]string
	for _, r := range w.Results {
		rows = append(rows, []string{indent + r.Symbol, r.Full, r.Name, reportedAs(r)})
	}
	return rows
}

func reportedAs(r calc.ResultLine) string {
	if !r.Ruled || r.Rule == "" || r.Reported == r.Full {
		return r.Rule
	}
	return "reported " + r.Reported + ": " + r.Rule
}

// expandedLine writes the expanded uncertainty of a result, where it was asked
// for.
func expandedLine(r calc.ResultLine, level float64, format string) string {
	if level == 0 {
		return ""
	}
	k, text, err := r.Expanded(level)
	if err != nil {
		return fmt.Sprintf(format, err)
	}
	of := levelText(level, r.Freedom)
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

// solutionMarkdown writes a worked solution for a report.
func solutionMarkdown(out io.Writer, w *calc.Solution, found calc.Findings) error {
	fmt.Fprintf(out, "# %s\n\n## Given\n\n", w.Title)
	markdownTable(out, []string{"symbol", "value", "input", "meaning"}, givenRows(w, ""))
	if w.Solved != "" {
		fmt.Fprintf(out, "\n## Solved for\n\n%s\n", w.Solved)
	}
	fmt.Fprintf(out, "\n## Solution\n\n")
	for _, step := range w.Steps {
		fmt.Fprintf(out, "```\n%s\n  = %s\n", step.Formula, step.Substituted)
		if step.Result != "" {
			fmt.Fprintf(out, "  = %s\n", step.Result)
		}
		fmt.Fprint(out, "```\n\n")
	}
	if w.Method != "" {
		fmt.Fprintf(out, "Method: %s\n\n", w.Method)
	}
	fmt.Fprint(out, "## Result\n\n")
	markdownTable(out, []string{"symbol", "unrounded", "output", "reported"}, resultRows(w, ""))
	for _, r := range w.Results {
		if len(r.Budget) > 0 {
			fmt.Fprintf(out, "\n## Uncertainty of %s\n\nu = %s, first order (JCGM 100:2008)\n\n", r.Name, r.U)
			markdownTable(out, []string{"source", "contribution", "part"}, budgetRows(r, ""))
			fmt.Fprint(out, expandedLine(r, found.Level, "\n%s\n"))
		}
	}
	if len(found.Samples)+len(found.Bent) > 0 {
		fmt.Fprint(out, "\n```\n")
		printFindings(out, found)
		fmt.Fprint(out, "```\n")
	}
	for _, warning := range w.Warnings {
		fmt.Fprintf(out, "\n**Warning** (%s): %s\n", warning.Code, warning.Text)
	}
	for _, c := range w.Cautions {
		fmt.Fprintf(out, "\n**Caution**: %s\n", c.Text)
	}
	fmt.Fprintf(out, "\nSource: %s (%s)\n", w.Source, w.Status)
	return nil
}

func markdownTable(out io.Writer, head []string, rows [][]string) {
	fmt.Fprintf(out, "| %s |\n|%s\n", strings.Join(head, " | "), strings.Repeat(" --- |", len(head)))
	plain := strings.NewReplacer("|", `\|`, "\r\n", " ", "\n", " ", "\r", " ") // a row is one line
	for _, row := range rows {
		for i := range row {
			row[i] = plain.Replace(row[i])
		}
		fmt.Fprintf(out, "| %s |\n", strings.Join(row, " | "))
	}
}
