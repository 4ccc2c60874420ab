package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/mathml"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/catalogue"
)

// exampleCommand returns the working call of a description, as typed in a shell.
func exampleCommand(info *calc.Info) string { return commandOf(info, info.Example) }

// commandOf returns a call with inputs, as typed in a shell.
func commandOf(info *calc.Info, inputs string) string {
	pairs, err := calc.ParsePairs(inputs)
	if err != nil {
		return ""
	}
	words := []string{"millmaths " + info.Name}
	if info.Bare {
		for _, p := range pairs {
			words = append(words, quoted(p.Text))
		}
		return strings.Join(words, " ")
	}
	for _, p := range pairs {
		words = append(words, "--"+p.Name+" "+quoted(p.Text))
	}
	return strings.Join(words, " ")
}

func quoted(text string) string {
	if strings.ContainsAny(text, " []()") {
		return `"` + text + `"`
	}
	return text
}

// calculationHelp prints the help of a calculation, which begins with a working
// call.
func calculationHelp(out io.Writer, c calc.Calculation, flags *pflag.FlagSet) {
	info := c.Info()
	printInputs(out, info)
	for _, choice := range info.Exactly {
		fmt.Fprintf(out, "  %s\n", plain.WrappedAt(choice.String(), 2))
	}
	heading, before := "Outputs", "  "
	if len(info.Solvable()) > 0 {
		heading, before = "Outputs; give one in place of an input to solve for that", "  --"
	}
	fmt.Fprintf(out, "\n%s\n", heading)
	plain.Rows(out, fieldRows(info, info.Out, before))
	fmt.Fprint(out, `
A value is a number and a unit. ± gives one standard uncertainty (k = 1), in
the value's unit or, after the unit, in per cent of it: "4.0 ± 0.1 %",
"500 t/h ± 1 %", "4.0(1) %"; a limit is "± rectangular(0.1)", a scale's step
"± resolution(0.1)", readings "mean(5.87 5.88) g" or "± readings(s, n)". A list
is "[9.5 13.2] %", or @FILE:HEAD, a column of a table, - as FILE for standard
input; a range is "3..5 %" or "3..5 % by 0.25 %".
`)
	printOptions(out, flags)
	printOrigin(out, info)
}

// printInputs prints what the help of a calculation or a tool begins with.
func printInputs(out io.Writer, info *calc.Info) {
	fmt.Fprintf(out, "%s\n\n  %s\n\n%s\n", info.Title, breakFlags(exampleCommand(info)), plain.Wrapped(info.Answers, ""))
	fmt.Fprintln(out, "\nInputs")
	plain.Rows(out, fieldRows(info, info.In, "  --"))
}

// printOrigin prints what every page about a calculation or a tool ends with: its
// cautions and its source.
func printOrigin(out io.Writer, info *calc.Info) {
	for _, caution := range info.Cautions {
		fmt.Fprintf(out, "\n%s\n", plain.Wrapped("Caution: "+caution.Text, "  "))
	}
	fmt.Fprintf(out, "\n%s\n", plain.Wrapped("Source: "+info.Status.Cite(info.Source), "  "))
}

// printOptions prints the flags that are not inputs.
func printOptions(out io.Writer, flags *pflag.FlagSet) {
	fmt.Fprintln(out, "\nOptions")
	var rows [][]string
	flags.VisitAll(func(f *pflag.Flag) {
		if _, ok := f.Value.(pairFlag); !ok {
			rows = append(rows, []string{"  --" + f.Name, f.Usage})
		}
	})
	plain.Rows(out, rows)
}

// breakFlags puts each flag except the first on a line of its own, and splits a
// long list over several: a shell continues after a backslash in quotes too.
func breakFlags(command string) string {
	parts := strings.Split(command, " --")
	lines := []string{parts[0]}
	for _, p := range parts[1:] {
		last := &lines[len(lines)-1]
		if len(*last)+len(p)+4 <= 74 {
			*last += " --" + p
			continue
		}
		line := "    --"
		for i, word := range strings.Fields(p) {
			switch {
			case i == 0:
				line += word
			case len(line)+1+len(word) > 74:
				lines = append(lines, line)
				line = "      " + word
			default:
				line += " " + word
			}
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, " \\\n  ")
}

func fieldRows(info *calc.Info, fields []*calc.Field, indent string) [][]string {
	var rows [][]string
	for _, f := range fields {
		rows = append(rows, []string{indent + f.Name, valueShape(f), f.Help + limits(info, f)})
	}
	return rows
}

// valueShape describes the form of a value of a field.
func valueShape(f *calc.Field) string {
	unit := f.Unit.String()
	switch {
	case f.Shape == calc.Word:
		if choices := strings.Join(f.Choices, "|"); len(choices) <= mostChoices {
			return choices
		}
		return "word"
	case f.Shape == calc.Text:
		return "text"
	case strings.Contains(f.Relation, " per "):
		unit = "unit of " + f.Relation
	case strings.HasPrefix(f.Relation, "square of "):
		unit = "unit squared"
	case f.Kind == nil && f.Relation != "any":
		unit = "same unit"
	case f.Kind == nil:
		unit = "any unit"
	case unit == "1":
		unit = "number"
	}
	switch f.Shape {
	case calc.List:
		return "list, " + unit
	case calc.Table:
		return "table, " + unit
	}
	return unit
}

// mostChoices is the most characters of words to choose from beside a name.
const mostChoices = 24

// limits describes an input: its words, range, default, and whether it is required.
func limits(info *calc.Info, f *calc.Field) string {
	var parts []string
	if f.Shape == calc.Word && valueShape(f) == "word" {
		parts = append(parts, strings.Join(f.Choices, ", "))
	}
	if !slices.Contains(info.In, f) {
		return inBrackets(parts)
	}
	low, high := bounds(f)
	if low != "" {
		parts = append(parts, unbroken(low))
	}
	if high != "" {
		parts = append(parts, unbroken(high))
	}
	if d := f.Default(); d != "" {
		parts = append(parts, "default "+unbroken(d))
	} else if f.Need == calc.Optional {
		parts = append(parts, "may be left out")
	}
	return inBrackets(parts)
}

func inBrackets(parts []string) string {
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

func bounds(f *calc.Field) (low, high string) {
	number := func(v float64) string { return paperprop.WithUnit(paperprop.People(f.Unit.To(v)), f.Unit) }
	if f.Low > -1e300 {
		low = map[bool]string{true: "above ", false: "from "}[f.AboveLow] + number(f.Low)
	}
	if f.High < 1e300 {
		high = map[bool]string{true: "below ", false: "to "}[f.BelowHigh] + number(f.High)
	}
	return low, high
}

// explain prints the page of a calculation.
func explain(_ context.Context, args []string, t *terminal) error {
	if len(args) != 1 {
		return usageError{errors.New("explain takes the name of one calculation, and millmaths list shows them: millmaths explain cobb")}
	}
	c, ok := catalogue.Find(args[0])
	if !ok {
		for _, command := range tools() {
			switch {
			case command.name != args[0] || command.usage == "":
			case command.tables != nil:
				explainFile(t.out, command)
				return nil
			default:
				return usageError{fmt.Errorf("%s is a command and no calculation; see millmaths %s --help", args[0], args[0])}
			}
		}
		return usageError{unknown("calculation", args[0], catalogue.Names())}
	}
	info := c.Info()
	fmt.Fprintf(t.out, "%s (%s)\n\n%s\n\nInputs\n", info.Title, info.Name, plain.Wrapped(info.Answers, ""))
	plain.Rows(t.out, symbolRows(info, info.In))
	for _, choice := range info.Exactly {
		fmt.Fprintf(t.out, "  %s\n", plain.WrappedAt(choice.String(), 2))
	}
	fmt.Fprintln(t.out, "\nOutputs")
	plain.Rows(t.out, symbolRows(info, info.Out))
	if err := explainFormula(t, info); err != nil {
		return err
	}
	if info.Method != "" {
		fmt.Fprintf(t.out, "\n%s\n", plain.Wrapped("Method: "+info.Method, "  "))
	}
	explainReporting(t, info)
	if len(info.Mistakes) > 0 {
		fmt.Fprintln(t.out, "\nWhat people get wrong")
		for _, m := range info.Mistakes {
			fmt.Fprintf(t.out, "  %s\n", plain.Wrapped(m, "  "))
		}
	}
	printOrigin(t.out, info)
	return explainExample(t, c)
}

// explainFormula prints the formula lines, and the symbols in them that are neither
// input nor output.
func explainFormula(t *terminal, info *calc.Info) error {
	if len(info.Formula) == 0 {
		return nil
	}
	fmt.Fprintf(t.out, "\nFormula\n  %s\n", strings.Join(info.Formula, "\n  "))
	lines, err := formulaLines(info)
	if err != nil {
		return err
	}
	for _, text := range mathml.TypedLegend(lines) {
		fmt.Fprintf(t.out, "  %s\n", plain.Wrapped(text, "  "))
	}
	var rows [][]string
	for _, f := range info.Between {
		given := slices.ContainsFunc(info.In, func(in *calc.Field) bool { return in.Symbol == f.Symbol })
		if usedIn(lines, f.Symbol) && !given {
			rows = append(rows, []string{"  " + f.Symbol, valueShape(f), f.Help})
		}
	}
	if len(rows) > 0 {
		fmt.Fprintln(t.out, "\nValues on the way")
		plain.Rows(t.out, rows)
	}
	return nil
}

func symbolRows(info *calc.Info, fields []*calc.Field) [][]string {
	var rows [][]string
	for _, f := range fields {
		rows = append(rows, []string{"  " + f.Symbol, f.Name, valueShape(f), f.Help + limits(info, f)})
	}
	return rows
}

// explainReporting prints how each result is reported, and by whose rule.
func explainReporting(t *terminal, info *calc.Info) {
	var rows [][]string
	for _, f := range info.Out {
		if rule := f.Report.String(); rule != "" {
			rows = append(rows, []string{"  " + f.Name, rule})
		}
	}
	if len(rows) > 0 {
		fmt.Fprintln(t.out, "\nReporting")
		plain.Rows(t.out, rows)
	}
}

// explainExample works the example of the description, and shows what other rules
// give.
func explainExample(t *terminal, c calc.Calculation) error {
	info := c.Info()
	fmt.Fprintf(t.out, "\nExample, with invented figures\n")
	if err := workedExample(t, c, info.Example); err != nil {
		return err
	}
	if info.Drawn {
		fmt.Fprintln(t.out, "\n  With --plot FILE.svg or FILE.png this is drawn.")
	}
	for _, other := range info.Compare {
		fmt.Fprintf(t.out, "\n%s\n", plain.Wrapped("Compare: "+other.Why, "  "))
		with := c
		if other.Name != "" {
			with, _ = catalogue.Find(other.Name)
		}
		if err := workedExample(t, with, other.Inputs); err != nil {
			return err
		}
	}
	return nil
}

// workedExample prints a call and its result.
func workedExample(t *terminal, c calc.Calculation, inputs string) error {
	info := c.Info()
	fmt.Fprintf(t.out, "  %s\n\n", breakFlags(commandOf(info, inputs)))
	if tool, ok := c.(*calc.Tool); ok {
		_, answers, err := answered(tool, inputs)
		plain.Rows(t.out, new(toolOptions).rows(answers))
		return err
	}
	s, err := computed(c, inputs)
	if err != nil {
		return err
	}
	var o options
	return o.printText(t.out, s, calc.Findings{})
}

// computed runs a calculation on inputs.
func computed(c calc.Calculation, inputs string) (*calc.Sheet, error) {
	s := c.NewSheet()
	if err := s.SetText(inputs); err != nil {
		return nil, err
	}
	return s, s.Run()
}

// solved works a calculation on inputs.
func solved(c calc.Calculation, inputs string) (*calc.Sheet, *calc.Solution, error) {
	s, err := computed(c, inputs)
	if err != nil {
		return nil, nil, err
	}
	w, err := s.Solution()
	return s, w, err
}

// answered runs a tool on inputs.
func answered(tool *calc.Tool, inputs string) (given []calc.Pair, answers []calc.Answer, err error) {
	if given, err = calc.ParsePairs(inputs); err == nil {
		answers, err = tool.Run(given)
	}
	return given, answers, err
}
