package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/mathml"
)

// solutionText writes a worked solution for a terminal.
func solutionText(out io.Writer, w *calc.Solution, found calc.Findings) {
	fmt.Fprintf(out, "%s\n\nGiven\n", w.Title)
	printGiven(out, givenRows(w, "  "))
	if len(w.Between) > 0 {
		fmt.Fprintln(out, "\nValues on the way")
		printRows(out, betweenRows(w, "  "))
	}
	if w.Solved != "" {
		fmt.Fprintf(out, "\nSolved for\n  %s\n", wrapped(w.Solved, "  "))
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
			fmt.Fprintf(out, "  %s= %s\n", strings.Repeat(" ", len(name)), folded(line, len(name)+4))
		}
	}
	for _, text := range mathml.TypedLegend(stepFormulas(w)) {
		fmt.Fprintf(out, "  %s\n", wrapped(text, "  "))
	}
	if w.Method != "" {
		fmt.Fprintf(out, "  %s\n", wrapped("Method: "+w.Method, "  "))
	}
	fmt.Fprintln(out, "\nResult")
	printRows(out, resultRows(w, "  "))
	for _, r := range withSpread(w) {
		fmt.Fprintf(out, "\n%s\n", wrapped("Uncertainty of "+r.Name+", "+spreadOf(r), "  "))
		printRows(out, budgetRows(r, "  "))
		fmt.Fprint(out, expandedLine(r, found.Level, "  %s\n"))
	}
	if len(found.Samples)+len(found.Bent) > 0 {
		fmt.Fprintln(out)
	}
	printFindings(out, found)
	fmt.Fprintf(out, "\n%s\n", wrapped("Source: "+w.Status.Cite(w.Source), "  "))
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
			fmt.Fprintf(&long, "%s = %s\n", row[0], wrappedAt(row[1], column))
			row[1] = "(below)"
		}
	}
	printRows(out, rows)
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

// folded breaks a formula that begins at a column if it is wider than the terminal:
// before a sign, after a comma, or between the members of a list.
func folded(text string, column int) string {
	var b strings.Builder
	for {
		at := foldAt(text, width-column)
		if at == 0 {
			b.WriteString(text)
			return b.String()
		}
		b.WriteString(strings.TrimRight(text[:at], " ") + "\n" + strings.Repeat(" ", column))
		text = strings.TrimLeft(text[at:], " ")
	}
}

// foldAt returns where to break a formula so that the first part fits, or is as
// short as possible; 0 if it fits or can't be broken. A product or a list is broken
// only where no sum can be.
func foldAt(text string, room int) int {
	if utf8.RuneCountInString(text) <= room {
		return 0
	}
	last, within := 0, 0
	bracket := strings.IndexAny(text, "[]")
	list := bracket >= 0 && text[bracket] == ']' // a list that was broken before
	for i, c := range text {
		if i > 0 && max(last, within) > 0 && utf8.RuneCountInString(text[:i]) > room {
			break
		}
		if c == '[' || c == ']' {
			list = c == '['
		}
		rest := text[i:]
		switch {
		case i == 0:
		case c == '*' || c == ' ' && list:
			within = i
		case c == ' ' && text[i-1] == ',' || strings.HasPrefix(rest, " + ") || strings.HasPrefix(rest, " - "):
			last = i
		}
	}
	if last < room/3 {
		return max(last, within)
	}
	return last
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
		if r.Stepped {
			said = strings.TrimPrefix(said+"; "+movesInSteps, "; ")
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
func solutionMarkdown(out io.Writer, w *calc.Solution, found calc.Findings) {
	fmt.Fprintf(out, "# %s\n\n## Given\n\n", w.Title)
	markdownTable(out, []string{"symbol", "value", "input", "meaning"}, givenRows(w, ""))
	if len(w.Between) > 0 {
		fmt.Fprint(out, "\n## Values on the way\n\n")
		markdownTable(out, []string{"symbol", "value", "meaning"}, betweenRows(w, ""))
	}
	if w.Solved != "" {
		fmt.Fprintf(out, "\n## Solved for\n\n%s\n", inMarkdown(w.Solved))
	}
	fmt.Fprintf(out, "\n## Solution\n\n")
	for _, step := range w.Steps {
		fmt.Fprint(out, "```\n")
		for i, line := range stepLines(step) {
			if i > 0 {
				line = "  = " + folded(line, len("  = "))
			}
			fmt.Fprintln(out, line)
		}
		fmt.Fprint(out, "```\n\n")
	}
	for _, text := range mathml.TypedLegend(stepFormulas(w)) {
		fmt.Fprintf(out, "%s\n\n", inMarkdown(text))
	}
	if w.Method != "" {
		fmt.Fprintf(out, "Method: %s\n\n", inMarkdown(w.Method))
	}
	fmt.Fprint(out, "## Result\n\n")
	markdownTable(out, []string{"symbol", "unrounded", "output", "reported"}, resultRows(w, ""))
	for _, r := range withSpread(w) {
		fmt.Fprintf(out, "\n## Uncertainty of %s\n\n%s\n\n", r.Name, spreadOf(r))
		markdownTable(out, []string{"source", "contribution", "part"}, budgetRows(r, ""))
		fmt.Fprint(out, expandedLine(r, found.Level, "\n%s\n"))
	}
	if len(found.Samples)+len(found.Bent) > 0 {
		fmt.Fprint(out, "\n```\n")
		printFindings(out, found)
		fmt.Fprint(out, "```\n")
	}
	for _, warning := range w.Warnings {
		warningMarkdown(out, *warning)
	}
	for _, c := range w.Cautions {
		fmt.Fprintf(out, "\n**Caution**: %s\n", inMarkdown(c.Text))
	}
	fmt.Fprintf(out, "\nSource: %s\n", inMarkdown(w.Status.Cite(w.Source)))
}

func warningMarkdown(out io.Writer, w calc.Warning) {
	fmt.Fprintf(out, "\n**Warning** (%s): %s\n", w.Code, inMarkdown(w.Text))
}

// inMarkdown returns a text as it must be written in Markdown, which takes what stands
// between two asterisks for stressed: k*a*b would come out without them.
func inMarkdown(text string) string { return strings.ReplaceAll(text, "*", `\*`) }

func markdownTable(out io.Writer, head []string, rows [][]string) {
	fmt.Fprintf(out, "| %s |\n|%s\n", strings.Join(head, " | "), strings.Repeat(" --- |", len(head)))
	plain := strings.NewReplacer("|", `\|`, "*", `\*`, "\r\n", " ", "\n", " ", "\r", " ") // a row must be one line
	for _, row := range rows {
		for i := range row {
			row[i] = plain.Replace(row[i])
		}
		fmt.Fprintf(out, "| %s |\n", strings.Join(row, " | "))
	}
}
