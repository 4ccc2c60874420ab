package main

import (
	"fmt"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/calc/plain"
)

// writeSummary writes the results of the groups of rows, in the form asked for.
func (o *batchOptions) writeSummary(job *batch.Job, totals *batch.Totals, told *failures, t *terminal) error {
	confidence := o.level / 100
	switch o.summary {
	case "markdown":
		return o.summaryMarkdown(job, totals, told, t)
	case "json":
		return t.answer(totals.MarshalSummary(job, confidence))
	}
	if o.out == "" {
		fmt.Fprintln(t.out)
	}
	return totals.WriteSummary(t.out, job.By, confidence)
}

// summaryMarkdown writes a section of a certificate: what was measured, how often,
// with what uncertainty, and the rule by which it is reported; or what became of each
// lot.
func (o *batchOptions) summaryMarkdown(job *batch.Job, totals *batch.Totals, told *failures, t *terminal) error {
	info := job.Calculation.Info()
	used := "computed"
	head, rows, rules := lotRows(job, totals)
	if job.Lot != "" {
		used = "used in a lot"
	} else {
		statements, err := totals.Statements(o.level / 100)
		if err != nil {
			return err
		}
		head, rows, rules = o.statementRows(job, statements)
	}
	fmt.Fprintf(t.out, "## %s\n\n%s%s: %s, %d %s, %d not, %s not counted.\n\n",
		info.Title, fileText(job.Options.Name), onlyText(job.Only), counted(totals.Rows, "row"), totals.Computed, used, totals.Failed, counted(totals.Footers, "footer"))
	plain.MarkdownTable(t.out, head, rows)
	fmt.Fprintln(t.out)
	for _, f := range info.Out {
		if rule := rules[f.Name]; rule != "" {
			fmt.Fprintf(t.out, "- %s: %s\n", f.Name, rule)
		}
	}
	for _, text := range totals.Assumed {
		fmt.Fprintf(t.out, "- %s\n", text)
	}
	for _, line := range totals.Warnings() {
		fmt.Fprintf(t.out, "- warning: %s\n", line)
	}
	for _, text := range told.first {
		fmt.Fprintf(t.out, "- not computed: %s\n", text)
	}
	if told.more > 0 {
		fmt.Fprintf(t.out, "- not computed: %d more\n", told.more)
	}
	for _, c := range info.Cautions {
		fmt.Fprintf(t.out, "- **Caution**: %s\n", c.Text)
	}
	_, err := fmt.Fprintf(t.out, "- source: %s\n\n", info.Status.Cite(info.Source))
	return err
}

func fileText(name string) string {
	if name == "-" {
		return "Standard input"
	}
	return "File " + name
}

// statementRows returns the table of the groups of rows, and the rules by which outputs
// are reported.
func (o *batchOptions) statementRows(job *batch.Job, statements []batch.Statement) (head []string, rows [][]string, rules map[string]string) {
	rules = map[string]string{}
	for _, s := range statements {
		rows = append(rows, append(append([]string{}, s.Key...), o.statementCells(s)...))
		if s.Rule != "" {
			rules[s.Name] = s.Rule
		}
	}
	head = append(append([]string{}, job.By...), "result", "n", "not computed", "mean", "s", fmt.Sprintf("%s %% interval of the mean", paperprop.People(o.level)), "reported")
	return head, rows, rules
}

// lotRows is statementRows for lots: a row for each output of a lot, or one for a lot
// that has none.
func lotRows(job *batch.Job, totals *batch.Totals) (head []string, rows [][]string, rules map[string]string) {
	rules = map[string]string{}
	for _, l := range totals.Lots {
		lot := []string{l.Name, strconv.Itoa(l.Used), strconv.Itoa(l.Unused)}
		if l.Err != nil {
			rows = append(rows, append(lot, "not computed", ""))
		}
		for _, out := range l.Outputs {
			rows = append(rows, append(lot[:3:3], out.Name, out.Text))
			rules[out.Name] = out.Rule
		}
	}
	name := job.Lot
	if name == "*" {
		name = "lot"
	}
	return []string{name, "rows used", "not used", "result", "reported"}, rows, rules
}

func onlyText(only []calc.Pair) string {
	text := ""
	for _, o := range only {
		text += fmt.Sprintf(", %s %s", o.Name, o.Text)
	}
	return text
}

func (o *batchOptions) statementCells(s batch.Statement) []string {
	if s.Count == 0 {
		return []string{s.Name, "0", strconv.Itoa(s.LeftOut), "", "", "", ""}
	}
	if s.Words != nil {
		return []string{s.Name, strconv.Itoa(s.Count), strconv.Itoa(s.LeftOut), "", "", "", strings.Join(s.Words, ", ")}
	}
	unit := func(number string) string {
		if s.Unit == "1" {
			return number
		}
		return strings.TrimSpace(number + " " + s.Unit)
	}
	people := func(x *float64) string {
		if x == nil {
			return ""
		}
		return unit(paperprop.People(*x))
	}
	interval := ""
	if s.Lower != nil {
		interval = unit(paperprop.People(*s.Lower) + " to " + paperprop.People(*s.Upper))
	}
	reported := ""
	if s.Reported != "" {
		reported = unit(s.Reported)
	}
	return []string{s.Name, strconv.Itoa(s.Count), strconv.Itoa(s.LeftOut), people(&s.Mean), people(s.Deviation), interval, reported}
}
