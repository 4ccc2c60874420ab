package main

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/paperprop/calc/worked"
	"millmaths.example/paperprop/table"
)

// toolOptions holds the flags of a tool of the catalogue. The inputs of a tool have
// names of their own, so flags are read here, not by a set of known ones.
type toolOptions struct {
	given      []calc.Pair
	json, full bool
	help       bool
	plot       string
	markdown   bool
	units      map[string]string
	table      tableFlags // how to read @FILE
	cleaned    []string   // what was used of a table, each with its file
	leftOut    []calc.Warning
}

// runTool runs a tool of the catalogue: inputs are --NAME "VALUE UNIT" or
// "NAME=VALUE UNIT".
func runTool(tool *calc.Tool, args []string, t *terminal) error {
	o, err := toolArguments(tool, args)
	if err != nil {
		return err
	}
	if o.help {
		toolHelp(t.out, tool)
		return nil
	}
	return t.withJSON(tool.ID(), o.json, o.run(tool, t))
}

// run runs the tool and prints its answers.
func (o *toolOptions) run(tool *calc.Tool, t *terminal) error {
	if err := checkPlot(o.plot); err != nil {
		return err
	}
	if err := o.expand(tool, t); err != nil {
		return err
	}
	answers, err := o.answers(tool)
	if err != nil {
		return err
	}
	if o.plot != "" {
		if err := o.draw(tool, answers, t); err != nil {
			return err
		}
	}
	if o.json {
		return t.answer(calc.AnswersJSON(tool, o.given, answers, o.leftOut...))
	}
	info := tool.Info()
	t.tellCautions(info.Cautions...)
	t.tellAbsent(tool, answers)
	rows, warnings := o.rows(answers), tool.Warnings(o.given)
	if o.markdown {
		toolMarkdown(t.out, info, rows, o.cleaned, warnings)
	} else {
		plain.Rows(t.out, rows)
	}
	for _, w := range warnings {
		t.warn(w)
	}
	return nil
}

func toolMarkdown(out io.Writer, info *calc.Info, rows [][]string, cleaned []string, warnings []calc.Warning) {
	fmt.Fprintf(out, "## %s\n\n", info.Title)
	plain.MarkdownTable(out, []string{"result", "value"}, rows)
	for _, w := range warnings {
		worked.MarkdownWarning(out, w)
	}
	fmt.Fprintln(out)
	for _, note := range cleaned {
		fmt.Fprintf(out, "- %s\n", plain.InMarkdown(note))
	}
	fmt.Fprintf(out, "- method: %s\n- source: %s\n\n", plain.InMarkdown(info.Method), plain.InMarkdown(info.Status.Cite(info.Source)))
}

func (o *toolOptions) rows(answers []calc.Answer) [][]string {
	var rows [][]string
	for _, a := range answers {
		rows = append(rows, []string{a.Name, o.value(a)})
	}
	return rows
}

func (o *toolOptions) value(a calc.Answer) string {
	switch {
	case o.full:
		return a.Full()
	case len(a.List) > mostListed:
		few := a
		few.List = a.List[:6]
		return fmt.Sprintf("%s ... %d in all, --full for them", few.People(), len(a.List))
	}
	return a.People()
}

// mostListed is the most values of a list that are shown.
const mostListed = 24

func toolArguments(tool *calc.Tool, args []string) (*toolOptions, error) {
	o := &toolOptions{units: map[string]string{}}
	for i := 0; i < len(args); i++ {
		if args[i] == "--help" || args[i] == "-h" {
			o.help = true
			return o, nil
		}
		if o.bare(args[i]) {
			continue
		}
		name, value, ok := strings.Cut(args[i], "=")
		flag, isFlag := strings.CutPrefix(name, "--")
		switch {
		case isFlag && ofCalculations(flag) && (!tool.Takes(o.given, flag, false) || !ok && !hasValue(args[i+1:])):
			return nil, unknownInput(tool, flag)
		case !isFlag && !ok:
			return nil, usageError{fmt.Errorf("%s: %q is no input, want --NAME \"VALUE UNIT\"", tool.ID(), args[i])}
		case isFlag && !ok:
			if i++; i == len(args) {
				return nil, usageError{fmt.Errorf("%s: --%s has no value", tool.ID(), flag)}
			}
			value = args[i]
		}
		if err := o.take(strings.TrimSpace(flag), value); err != nil {
			return nil, err
		}
	}
	return o, o.sort(tool)
}

// hasValue reports whether what follows a flag is a value, and not another flag.
func hasValue(rest []string) bool { return len(rest) > 0 && !strings.HasPrefix(rest[0], "--") }

// bare takes an option without a value, and reports whether arg is one.
func (o *toolOptions) bare(arg string) bool {
	switch arg {
	case "--json":
		o.json = true
	case "--full":
		o.full = true
	case "--steps=markdown":
		o.markdown = true
	default:
		return false
	}
	return true
}

// take takes an option or an input with a value.
func (o *toolOptions) take(name, value string) error {
	switch name {
	case "plot":
		o.plot = value
	case "unit":
		output, unit, ok := strings.Cut(value, "=")
		if !ok {
			return usageError{fmt.Errorf("--unit %s, want OUTPUT=UNIT", value)}
		}
		o.units[output] = unit
	default:
		o.given = append(o.given, calc.Pair{Name: name, Text: strings.TrimSpace(value)})
	}
	return nil
}

// sort separates the flags for tables from the inputs, once it is known which names
// the user's model has.
func (o *toolOptions) sort(tool *calc.Tool) error {
	flags := newFlags(tool.ID())
	o.table.add(flags)
	var inputs []calc.Pair
	for _, p := range o.given {
		switch {
		case tool.Takes(o.given, p.Name, false):
			inputs = append(inputs, p)
		case takesFiles(tool) && flags.Lookup(p.Name) != nil:
			if err := flags.Set(p.Name, p.Text); err != nil {
				return badFlag(tool.ID(), err)
			}
		default:
			return unknownInput(tool, p.Name)
		}
	}
	o.given = inputs
	return nil
}

// ofCalculations reports whether a flag belongs to calculations and not to tools.
func ofCalculations(flag string) bool { return flag == "csv" || flag == "steps" }

func unknownInput(tool *calc.Tool, name string) error {
	if ofCalculations(name) {
		return usageError{fmt.Errorf("%s has no --%s: a tool has --json and --steps=markdown", tool.ID(), name)}
	}
	return usageError{fmt.Errorf("%s has no input %q; see millmaths %[1]s --help", tool.ID(), name)}
}

// takesFiles reports whether an input of the tool may be @FILE: a table, a list, or
// the readings of an input of a model.
func takesFiles(tool *calc.Tool) bool {
	return tool.Open != nil || takesTable(tool)
}

func takesTable(tool *calc.Tool) bool {
	return slices.ContainsFunc(tool.Info().In, func(f *calc.Field) bool { return f.Shape == calc.Table })
}

// expand replaces @FILE by the contents of the file: for a table the columns with a
// unit, cleaned as the tool wants it, else the numbers of a list.
func (o *toolOptions) expand(tool *calc.Tool, t *terminal) error {
	for i := range o.given {
		p := &o.given[i]
		isTable := slices.ContainsFunc(tool.Info().In, func(f *calc.Field) bool { return f.Name == p.Name && f.Shape == calc.Table })
		var err error
		if file, ok := strings.CutPrefix(p.Text, "@"); ok && isTable {
			p.Text, err = o.tableText(tool, p.Name, file, t)
		} else {
			p.Text, _, err = t.textOf(*p, &o.table)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func (o *toolOptions) tableText(tool *calc.Tool, input, file string, t *terminal) (string, error) {
	grid, err := o.grid(file, t)
	if err != nil {
		return "", fmt.Errorf("%s: %w", input, err)
	}
	for _, note := range grid.Reading {
		t.say("%s: %s", source(file), note)
	}
	rows := grid.Rows
	if tool.Clean != nil {
		if rows, err = o.clean(tool, file, grid, t); err != nil {
			return "", err
		}
	}
	return calc.TableText(rows, grid.Unit), nil
}

// clean leaves out what the tool cannot use, and keeps what is to be said of it for the
// answer: whoever reads that may not see the notes.
func (o *toolOptions) clean(tool *calc.Tool, file string, grid *table.Grid, t *terminal) ([][]float64, error) {
	rows, notes, err := tool.Clean(grid.Rows)
	if err != nil {
		return nil, placed(err, file, grid.Lines)
	}
	sameLength := func(a, b []float64) bool { return len(a) == len(b) }
	fewer := !slices.EqualFunc(rows, grid.Rows, sameLength)
	for _, note := range notes {
		note = source(file) + ": " + note
		t.say("%s", note)
		o.cleaned = append(o.cleaned, note)
		if fewer {
			o.leftOut = append(o.leftOut, calc.Warning{Code: "left-out", Text: note})
		}
	}
	return rows, nil
}

func (o *toolOptions) grid(file string, t *terminal) (*table.Grid, error) {
	options, err := o.table.options(file)
	if err != nil {
		return nil, err
	}
	f, err := t.openInput(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return table.ReadGrid(f, options)
}

// placed puts the line of a file in front of an error about a row of its table.
func placed(err error, file string, lines []int) error {
	var at interface {
		error
		Row() int
	}
	if !errors.As(err, &at) {
		return fmt.Errorf("%s: %w", source(file), err)
	}
	return fmt.Errorf("%s:%d: %w", source(file), lines[at.Row()-1], err)
}

func (o *toolOptions) draw(tool *calc.Tool, answers []calc.Answer, t *terminal) error {
	var picture *calc.Picture
	if tool.Picture != nil {
		picture = tool.Picture(o.given, answers)
	}
	if picture == nil {
		return usageError{fmt.Errorf("%s has nothing to draw here", tool.ID())}
	}
	return drawTo(picture, o.plot, t)
}

// answers runs the tool and converts the answers to the units asked for.
func (o *toolOptions) answers(tool *calc.Tool) ([]calc.Answer, error) {
	answers, err := tool.Run(o.given)
	if err != nil {
		return nil, err
	}
	units := map[string]paperprop.Unit{}
	for _, name := range slices.Sorted(maps.Keys(o.units)) {
		if units[name], err = paperprop.ParseUnit(o.units[name]); err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(answers, func(a calc.Answer) bool { return a.Name == name }) {
			return nil, usageError{fmt.Errorf("--unit %s=%s: no output has that name", name, o.units[name])}
		}
	}
	for i := range answers {
		unit, ok := unitFor(answers[i].Name, units)
		if !ok {
			continue
		}
		if err := answers[i].Restate(unit); err != nil {
			return nil, err
		}
	}
	return answers, nil
}

// unitFor returns the unit asked for an answer: its own, or else that of the output
// that it follows.
func unitFor(answer string, units map[string]paperprop.Unit) (paperprop.Unit, bool) {
	if unit, ok := units[answer]; ok {
		return unit, true
	}
	for _, output := range slices.Sorted(maps.Keys(units)) {
		if follows(answer, output) {
			return units[output], true
		}
	}
	return paperprop.Unit{}, false
}

// follows reports whether an answer has the unit of another: u, mean, lower and
// upper of an output, and the contributions of inputs to the u of the only output.
func follows(answer, output string) bool {
	of, rest, inner := strings.Cut(answer, "(")
	switch {
	case !inner:
		return false
	case of == "u" || of == "mean" || of == "lower" || of == "upper":
		return rest == output+")"
	}
	return of == "part" && !strings.Contains(output, "(")
}

// tellAbsent names the outputs that are absent, and what they need.
func (t *terminal) tellAbsent(tool *calc.Tool, answers []calc.Answer) {
	if tool.Open != nil {
		return // its outputs have the names of the model
	}
	for _, f := range tool.Info().Out {
		if !slices.ContainsFunc(answers, func(a calc.Answer) bool { return a.Name == f.Name }) {
			t.say("%s is absent: %s", f.Name, f.Help)
		}
	}
}

func toolHelp(out io.Writer, tool *calc.Tool) {
	info := tool.Info()
	printInputs(out, info)
	fmt.Fprintln(out, "\nOutputs")
	plain.Rows(out, fieldRows(info, info.Out, "  "))
	rows := [][]string{
		{"  --unit OUTPUT=UNIT", "print an output in another unit"},
		{"  --steps=markdown", "as a section of a report"},
		{"  --plot FILE", "draw the answer, where it has a picture: .svg or .png"},
		{"  --json", "for programs"},
		{"  --full", "unrounded"},
	}
	if takesFiles(tool) {
		fmt.Fprintf(out, "\n%s\n", plain.Wrapped(filesHelp(tool), ""))
		flags := newFlags(tool.ID())
		new(tableFlags).add(flags)
		flags.VisitAll(func(f *pflag.Flag) { rows = append(rows, []string{"  --" + f.Name, "of @FILE: " + f.Usage}) })
	}
	fmt.Fprintln(out, "\nOptions")
	plain.Rows(out, rows)
	fmt.Fprintf(out, "\n%s\n", plain.Wrapped("Method: "+info.Method, "  "))
	printOrigin(out, info)
}

// filesHelp describes @FILE for the tool.
func filesHelp(tool *calc.Tool) string {
	if takesTable(tool) {
		return "A table is rows in brackets, or @FILE: of its columns those that have a unit in the head (r1 [kN/m]) or under it, one unit for all."
	}
	return "Readings are [..] UNIT, @FILE for the numbers in a file, or @FILE:HEAD for a column of a table."
}
