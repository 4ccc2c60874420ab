package main

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
	"millmaths.example/paperprop/calc/mathml"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/catalogue"
)

// A pageOf is the page of one calculation or tool.
type pageOf struct {
	c      calc.Calculation
	info   *calc.Info
	room   catalogue.Group
	checks []checkedRow
}

// main returns the text of the page, from the question to the checks.
func (p *pageOf) main() (markup, error) {
	lines, err := formulaLines(p.info)
	if err != nil {
		return "", err
	}
	example, err := p.example()
	if err != nil {
		return "", fmt.Errorf("example: %w", err)
	}
	others, err := p.others()
	if err != nil {
		return "", fmt.Errorf("compare: %w", err)
	}
	return join(
		ownLine(`p class="room"`, link("index.html#"+p.room.Name, text(p.room.Name)), text(" - "+p.room.Title)),
		ownLine("h1", text(p.info.Title)),
		ownLine(`p class="answers"`, text(p.info.Answers)),
		p.cautions(),
		p.formulas(lines),
		p.symbols(lines),
		example,
		others,
		p.mistakes(),
		p.reporting(),
		p.source(),
		p.checked(),
	), nil
}

func (p *pageOf) cautions() markup {
	var all []markup
	for _, c := range p.info.Cautions {
		all = append(all, ownLine(`p class="caution"`, element("strong", "Caution."), " ", text(c.Text)))
	}
	return join(all...)
}

// formulaLines parses the formula lines of a description.
func formulaLines(info *calc.Info) ([]*formula.Line, error) {
	var lines []*formula.Line
	for _, line := range info.Formula {
		l, err := formula.Parse(line)
		if err != nil {
			return nil, err
		}
		lines = append(lines, l)
	}
	return lines, nil
}

// formulas sets the formula lines; those that apply to certain words stand below
// them.
func (p *pageOf) formulas(lines []*formula.Line) markup {
	parts := []markup{ownLine("h2", "Formula")}
	var words []string
	for i, l := range lines {
		if i == 0 || !slices.Equal(l.Words, words) {
			if condition := p.condition(l.Words); condition != "" {
				parts = append(parts, ownLine(`p class="condition"`, condition))
			} else if i > 0 {
				parts = append(parts, ownLine(`p class="condition"`, "Always:"))
			}
		}
		words = l.Words
		parts = append(parts, formulaBlock(mathml.Line(l), l.Text))
	}
	if p.info.Method != "" {
		parts = append(parts, ownLine("p", element("strong", "Method:"), " ", text(p.info.Method)))
	}
	var legend []markup
	for _, s := range mathml.Legend(lines) {
		legend = append(legend, text(s), " ")
	}
	if len(legend) > 0 {
		parts = append(parts, ownLine(`p class="quiet"`, legend...))
	}
	return join(parts...)
}

// longFormula is the most characters of a formula that fits on a telephone.
const longFormula = 28

// formulaBlock returns a formula. A long one scrolls by itself on a narrow page, by
// keyboard too.
func formulaBlock(math, plain string) markup {
	if len(plain) <= longFormula {
		return ownLine(`div class="formula"`, markup(math))
	}
	return ownLine(`div class="formula" role="group" tabindex="0" aria-label="Formula"`, markup(math))
}

// condition says for which words of which inputs a line applies.
func (p *pageOf) condition(words []string) markup {
	var parts []markup
	for _, w := range words {
		if len(parts) > 0 {
			parts = append(parts, " and ")
		}
		i := slices.IndexFunc(p.info.In, func(f *calc.Field) bool { return slices.Contains(f.Choices, w) })
		if i >= 0 {
			parts = append(parts, code(p.info.In[i].Name), " is ", code(w))
		} else {
			parts = append(parts, code(w))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return join("Where ", join(parts...), ":")
}

// symbols returns the tables of inputs, outputs and intermediate values.
func (p *pageOf) symbols(lines []*formula.Line) markup {
	parts := []markup{ownLine("h2", "Symbols")}
	var rows [][]markup
	for _, f := range p.info.In {
		rows = append(rows, []markup{named(f), symbolOf(f), unitOf(f), p.limits(f)})
	}
	parts = append(parts, tableOf("Inputs", []string{"Name", "Symbol", "Unit or words", "Range and default"}, rows))
	for _, choice := range p.info.Exactly {
		parts = append(parts, ownLine("p", text("Given are "+choice.String()+".")))
	}
	rows = nil
	for _, f := range p.info.Out {
		rows = append(rows, []markup{named(f), symbolOf(f), join(unitOf(f), map[bool]markup{true: "; may be absent"}[f.Need == calc.Optional])})
	}
	parts = append(parts, tableOf("Outputs", []string{"Name", "Symbol", "Unit or words"}, rows))
	rows = nil
	for _, f := range p.info.Between {
		if usedIn(lines, f.Symbol) {
			rows = append(rows, []markup{text(f.Help), symbolOf(f), unitOf(f)})
		}
	}
	if len(rows) > 0 {
		parts = append(parts, tableOf("Values on the way", []string{"Meaning", "Symbol", "Unit"}, rows))
	}
	return join(parts...)
}

func usedIn(lines []*formula.Line, symbol string) bool {
	return slices.ContainsFunc(lines, func(l *formula.Line) bool { return slices.Contains(l.Names(), symbol) })
}

// named returns the name of a field with its meaning.
func named(f *calc.Field) markup {
	return join(code(f.Name), element("span", text(f.Help)))
}

// symbolOf returns the symbol of a field as in the formulas; a word has none.
func symbolOf(f *calc.Field) markup {
	if f.Shape == calc.Word || f.Symbol == f.Name && len(f.Symbol) > 1 {
		return "-"
	}
	return markup(mathml.Inline(f.Symbol))
}

// symbolBeside returns a symbol that stands beside its name, unless it is the name.
func symbolBeside(name, symbol string) markup {
	if symbol == name {
		return "-"
	}
	return markup(mathml.Inline(symbol))
}

// unitOf returns the unit of a field, or the words to choose from.
func unitOf(f *calc.Field) markup {
	if f.Shape == calc.Word {
		return text(strings.Join(f.Choices, ", "))
	}
	return text(typeset(valueShape(f)))
}

func (p *pageOf) limits(f *calc.Field) markup {
	var parts []string
	low, high := bounds(f)
	if span := strings.TrimSpace(low + " " + high); span != "" {
		parts = append(parts, typeset(span))
	}
	switch d := f.Default(); {
	case d != "":
		parts = append(parts, "default "+p.asTyped(f.Name, d))
	case f.Need == calc.Optional:
		parts = append(parts, "may be left out")
	}
	if f.Whole {
		parts = append(parts, "whole")
	}
	return text(strings.Join(parts, ", "))
}

// example works the example of the description: command, solution and picture.
func (p *pageOf) example() (markup, error) {
	parts := []markup{
		ownLine("h2", "Worked example"),
		ownLine(`p class="quiet"`, "The figures are invented."),
		scrolling("Command", element("pre", code(breakFlags(exampleCommand(p.info))))),
	}
	if tool, ok := p.c.(*calc.Tool); ok {
		answers, err := toolAnswers(tool, p.info.Example)
		return join(append(parts, answers)...), err
	}
	s, w, err := solved(p.c, p.info.Example)
	if err != nil {
		return "", err
	}
	if rows := p.given(w); len(rows) > 0 {
		parts = append(parts, tableOf("Given", []string{"Name", "Symbol", "Value"}, rows))
	}
	if w.Solved != "" {
		parts = append(parts, ownLine("p", text("Solved for: "+typeset(w.Solved)+".")))
	}
	for _, step := range w.Steps {
		parts = append(parts, stepBlock(step))
	}
	parts = append(parts, results("Results", w))
	for _, warning := range w.Warnings {
		parts = append(parts, ownLine("p", element("strong", "Warning."), " ", text(warning.Text)))
	}
	picture, err := p.pictures(s)
	return join(append(parts, picture)...), err
}

func toolAnswers(tool *calc.Tool, inputs string) (markup, error) {
	pairs, answers, err := answered(tool, inputs)
	if err != nil {
		return "", err
	}
	var rows [][]markup
	o := &toolOptions{}
	for _, a := range answers {
		rows = append(rows, []markup{code(a.Name), text(typeset(o.value(a)))})
	}
	parts := []markup{tableOf("Results", []string{"Name", "Value"}, rows)}
	if tool.Picture != nil {
		if picture := tool.Picture(pairs, answers); picture != nil {
			parts = append(parts, figure(picture, ""))
		}
	}
	return join(parts...), nil
}

// asTyped typesets a value given for a name, but not a word or text: ft2-1000 must
// be typed as it is.
func (p *pageOf) asTyped(name, value string) string {
	if slices.ContainsFunc(p.info.In, func(f *calc.Field) bool {
		return f.Name == name && (f.Shape == calc.Word || f.Shape == calc.Text)
	}) {
		return value
	}
	return typeset(value)
}

func (p *pageOf) given(w *calc.Solution) [][]markup {
	var rows [][]markup
	for _, g := range w.Given {
		value := p.asTyped(g.Name, g.Written)
		switch {
		case g.Written == "":
			value = p.asTyped(g.Name, g.Value)
		case g.Value != "":
			value += " = " + typeset(g.Value)
		}
		if g.Default {
			value += " (default)"
		}
		rows = append(rows, []markup{code(g.Name), symbolBeside(g.Name, g.Symbol), text(value)})
	}
	return rows
}

// results shows the results, with a column for the reported value where it differs.
func results(caption string, w *calc.Solution) markup {
	heads := []string{"Name", "Symbol", "Unrounded", "Reported"}
	if !slices.ContainsFunc(w.Results, func(r calc.ResultLine) bool { return r.Reported != r.Full }) {
		heads = []string{"Name", "Symbol", "Value"}
	}
	var rows [][]markup
	for _, r := range w.Results {
		reported := typeset(r.Reported)
		if !r.Ruled && r.Reported != r.Full {
			reported += ", by no rule"
		}
		row := []markup{code(r.Name), symbolBeside(r.Name, r.Symbol), text(typeset(r.Full)), text(reported)}
		rows = append(rows, row[:len(heads)])
	}
	return tableOf(caption, heads, rows)
}

// longestSet is the length up to which a value is put into a formula; a longer one,
// a list, is left as its symbol.
const longestSet = 36

// stepBlock sets a step of the solution with its values put in.
func stepBlock(step calc.Step) markup {
	values := map[string]string{}
	for symbol, value := range step.Values {
		if value = typeset(value); len([]rune(value)) <= longestSet {
			values[symbol] = value
		}
	}
	result := typeset(step.Result)
	return formulaBlock(mathml.Substituted(step.Line, values, result), step.Line.Name+" = "+step.Substituted+" = "+step.Result)
}

// others works the example by other rules.
func (p *pageOf) others() (markup, error) {
	if len(p.info.Compare) == 0 {
		return "", nil
	}
	parts := []markup{ownLine("h2", "Other rules in use")}
	for _, other := range p.info.Compare {
		with := p.c
		parts = append(parts, ownLine("p", text(other.Why)))
		if other.Name != "" {
			with, _ = catalogue.Find(other.Name)
			parts = append(parts, ownLine("p", "See ", link(other.Name+".html", text(with.Info().Title)), "."))
		}
		parts = append(parts, scrolling("Command", element("pre", code(breakFlags(commandOf(with.Info(), other.Inputs))))))
		if tool, ok := with.(*calc.Tool); ok {
			answers, err := toolAnswers(tool, other.Inputs)
			if err != nil {
				return "", err
			}
			parts = append(parts, answers)
			continue
		}
		_, w, err := solved(with, other.Inputs)
		if err != nil {
			return "", err
		}
		parts = append(parts, results("What it gives", w))
	}
	return join(parts...), nil
}

func (p *pageOf) mistakes() markup {
	if len(p.info.Mistakes) == 0 {
		return ""
	}
	var all []markup
	for _, m := range p.info.Mistakes {
		all = append(all, text(m))
	}
	return join(ownLine("h2", "What people get wrong"), bullets(all...))
}

// reporting says how each result is reported, and by whose rule.
func (p *pageOf) reporting() markup {
	var rows [][]markup
	for _, f := range p.info.Out {
		if rule := f.Report.String(); rule != "" {
			rows = append(rows, []markup{code(f.Name), text(rule)})
		}
	}
	if len(rows) == 0 {
		return ""
	}
	return join(ownLine("h2", "Reporting"), tableOf("How results are written down", []string{"Output", "Rule"}, rows))
}

func (p *pageOf) source() markup {
	return join(ownLine("h2", "Source"), ownLine("p", text(p.info.Source)), ownLine("p", kind(p.info.Status)))
}

// kind names the kind of a source, with a link to its meaning.
func kind(s calc.Status) markup {
	return link("index.html#"+string(s), text(plainKind(s)))
}

func plainKind(s calc.Status) string { return strings.ReplaceAll(string(s), "-", " ") }

// checked shows the check rows and their outcome.
func (p *pageOf) checked() markup {
	parts := []markup{ownLine("h2", "Checks")}
	if len(p.checks) == 0 {
		return join(append(parts, ownLine("p", "No row of a check table calls it."))...)
	}
	failed, kinds := 0, map[calc.Status]int{}
	var rows [][]markup
	for _, c := range p.checks {
		kinds[c.Kind]++
		status := markup("agrees")
		switch {
		case len(c.failures) > 0:
			failed++
			var told []string
			for _, f := range c.failures {
				told = append(told, f.String())
			}
			status = element(`strong class="failed"`, text("fails: "+strings.Join(told, "; ")))
		case c.Refused:
			status = "is refused"
		}
		rows = append(rows, []markup{
			join(text(c.ID), element("span", status)),
			p.pairLines(c.Inputs), p.expectedOf(&c.Check),
			join(kind(c.Kind), text(": "+c.Source), note(c.Note)),
		})
	}
	var count []string
	for _, k := range []calc.Status{calc.Published, calc.Library, calc.CommonPractice, calc.Memory} {
		if kinds[k] > 0 {
			count = append(count, fmt.Sprintf("%d %s", kinds[k], plainKind(k)))
		}
	}
	verdict := "all agree"
	if failed > 0 {
		verdict = fmt.Sprintf("%d fail", failed)
	}
	if len(rows) == 1 {
		verdict = map[bool]string{true: "it fails", false: "it agrees"}[failed > 0]
	}
	parts = append(parts, ownLine("p", text(fmt.Sprintf("%s of check tables, run when this page was written: %s. By where the expected value is from: %s.",
		counted(len(rows), "row"), verdict, strings.Join(count, ", ")))))
	return join(append(parts, wideTable("Check rows", []string{"Row", "Given", "Expected", "From"}, rows))...)
}

func note(s string) markup {
	if s == "" {
		return ""
	}
	return element("span", text(s))
}

// mostShown is the most characters shown of a list in a check row.
const mostShown = 160

func (p *pageOf) pairLines(pairs []calc.Pair) markup {
	var lines []markup
	for _, pair := range pairs {
		lines = append(lines, element("span", text(pair.Name+" = "+unbroken(shortTo(p.asTyped(pair.Name, pair.Text), mostShown)))))
	}
	return join(lines...)
}

// unbroken keeps a short value and its unit on one line.
func unbroken(value string) string {
	if len(value) > 24 {
		return value
	}
	return strings.ReplaceAll(value, " ", plain.UnbrokenBlank)
}

func (p *pageOf) expectedOf(c *calc.Check) markup {
	parts := []markup{p.pairLines(c.Expected)}
	if c.Refused {
		parts = append(parts, element("span", "a refusal"))
	}
	if c.Warned {
		parts = append(parts, element("span", "a warning"))
	}
	switch t := c.Tolerance; {
	case c.Refused || len(c.Expected) == 0:
	case t.Exact:
		parts = append(parts, element(`span class="quiet"`, "exactly"))
	case t.Absolute > 0:
		parts = append(parts, element(`span class="quiet"`, text(fmt.Sprintf("within %.3g", t.Absolute))))
	default:
		parts = append(parts, element(`span class="quiet"`, text(fmt.Sprintf("within %.3g of it", t.Relative))))
	}
	return join(parts...)
}
