package main

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// toolOptions are what can be asked of a tool of the catalogue. Its inputs have
// names of their own, so flags are read here, not by a set of known ones.
type toolOptions struct {
	given      []calc.Pair
	json, full bool
	help       bool
	plot       string
	markdown   bool
	units      map[string]string
}

// runTool runs a tool of the catalogue: inputs are --NAME "VALUE UNIT" or
// "NAME=VALUE UNIT".
func runTool(tool *calc.Tool, args []string, t *terminal) error {
	o, err := toolArguments(tool, args)
	if err != nil {
		return err
	}
	if o.help {
		return toolHelp(t, tool)
	}
	if err := o.expand(tool, t); err != nil {
		return err
	}
	answers, err := o.answers(tool)
	if err == nil && o.plot != "" {
		err = o.draw(tool, answers, t)
	}
	if err != nil {
		if o.json {
			fmt.Fprintf(t.out, "%s\n", calc.ErrorJSON(tool.ID(), err))
			return errReported
		}
		return err
	}
	if o.json {
		data, err := calc.AnswersJSON(tool, o.given, answers)
		if err == nil {
			_, err = fmt.Fprintf(t.out, "%s\n", data)
		}
		return err
	}
	var rows [][]string
	for _, a := range answers {
		rows = append(rows, []string{a.Name, o.value(a)})
	}
	info := tool.Info()
	t.tellCautions(info)
	if !o.markdown {
		printRows(t.out, rows)
		return nil
	}
	fmt.Fprintf(t.out, "## %s\n\n", info.Title)
	markdownTable(t.out, []string{"result", "value"}, rows)
	fmt.Fprintf(t.out, "\n- method: %s\n- source: %s (%s)\n\n", info.Method, info.Source, info.Status)
	return nil
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

// mostListed is how many values of a list a person wants to see.
const mostListed = 24

func toolArguments(tool *calc.Tool, args []string) (*toolOptions, error) {
	o := &toolOptions{units: map[string]string{}}
	for i := 0; i < len(args); i++ {
		name, value, ok := strings.Cut(args[i], "=")
		flag, isFlag := strings.CutPrefix(name, "--")
		switch {
		case args[i] == "--json":
			o.json = true
			continue
		case args[i] == "--full":
			o.full = true
			continue
		case args[i] == "--steps=markdown":
			o.markdown = true
			continue
		case args[i] == "--help" || args[i] == "-h":
			o.help = true
			return o, nil
		case !isFlag && !ok:
			return nil, usageError{fmt.Errorf("%s: %q is no input, want --NAME \"VALUE UNIT\"", tool.ID(), args[i])}
		case isFlag && !ok:
			if i++; i == len(args) {
				return nil, usageError{fmt.Errorf("%s: --%s has no value", tool.ID(), flag)}
			}
			value = args[i]
		}
		name = strings.TrimSpace(flag)
		if name == "plot" {
			o.plot = value
			continue
		}
		if name == "unit" {
			output, unit, ok := strings.Cut(value, "=")
			if !ok {
				return nil, usageError{fmt.Errorf("--unit %s, want OUTPUT=UNIT", value)}
			}
			o.units[output] = unit
			continue
		}
		o.given = append(o.given, calc.Pair{Name: name, Text: strings.TrimSpace(value)})
	}
	for _, p := range o.given {
		if !tool.Takes(o.given, p.Name, false) {
			return nil, usageError{fmt.Errorf("%s has no input %q; see millmaths %[1]s --help", tool.ID(), p.Name)}
		}
	}
	return o, nil
}

// expand replaces @FILE by what stands in the file: of a table the columns with
// a unit, cleaned as the tool wants it, else the numbers of a list.
func (o *toolOptions) expand(tool *calc.Tool, t *terminal) error {
	for i := range o.given {
		p := &o.given[i]
		file, ok := strings.CutPrefix(p.Text, "@")
		if !ok {
			continue
		}
		isTable := slices.ContainsFunc(tool.Info().In, func(f *calc.Field) bool { return f.Name == p.Name && f.Shape == calc.Table })
		var err error
		if isTable {
			p.Text, err = tableText(tool, file, t)
		} else {
			p.Text, err = t.listText(file)
		}
		if err != nil {
			return fmt.Errorf("%s: %w", p.Name, err)
		}
	}
	return nil
}

func tableText(tool *calc.Tool, file string, t *terminal) (string, error) {
	f, err := t.open(file)
	if err != nil {
		return "", err
	}
	defer f.Close()
	grid, err := table.ReadGrid(f, table.Options{Name: shown(file)})
	if err != nil {
		return "", err
	}
	for _, note := range grid.Reading {
		t.say("%s: %s", shown(file), note)
	}
	rows := grid.Rows
	if tool.Clean != nil {
		var notes []string
		if rows, notes, err = tool.Clean(rows); err != nil {
			return "", err
		}
		for _, note := range notes {
			t.say("%s: %s", shown(file), note)
		}
	}
	return calc.TableText(rows, grid.Unit), nil
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

// answers runs the tool and turns answers into the units asked for.
func (o *toolOptions) answers(tool *calc.Tool) ([]calc.Answer, error) {
	answers, err := tool.Run(o.given)
	if err != nil {
		return nil, err
	}
	for name, text := range o.units {
		unit, err := paperprop.ParseUnit(text)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(answers, func(a calc.Answer) bool { return a.Name == name }) {
			return nil, usageError{fmt.Errorf("--unit %s=%s: no output has that name", name, text)}
		}
		for i := range answers {
			if !follows(answers[i].Name, name) {
				continue
			}
			if err := answers[i].Restate(unit); err != nil {
				return nil, err
			}
		}
	}
	return answers, nil
}

// follows says whether an answer is in the unit of an output: the output itself,
// its u, mean, lower, upper, and the parts that inputs have in its u.
func follows(answer, output string) bool {
	of, rest, _ := strings.Cut(answer, "(")
	switch of {
	case "u", "mean", "lower", "upper":
		return rest == output+")"
	case "part":
		return true
	}
	return answer == output
}

func toolHelp(t *terminal, tool *calc.Tool) error {
	info := tool.Info()
	fmt.Fprintf(t.out, "%s\n\n  %s\n\n%s\n", info.Title, breakFlags(exampleCommand(info)), wrapped(info.Answers, ""))
	fmt.Fprintln(t.out, "\nInputs")
	printRows(t.out, fieldRows(info, info.In, "  --"))
	fmt.Fprintln(t.out, "\nOutputs")
	printRows(t.out, fieldRows(info, info.Out, "  "))
	fmt.Fprint(t.out, `
Options
  --unit OUTPUT=UNIT   print an output in another unit
  --steps=markdown     as a section of a report
  --plot FILE          draw the answer, where it has a picture: .svg or .png
  --json               for programs
  --full               unrounded
`)
	fmt.Fprintf(t.out, "\n%s\n", wrapped("Method: "+info.Method, "  "))
	fmt.Fprintf(t.out, "\n%s\n", wrapped(fmt.Sprintf("Source: %s (%s)", info.Source, info.Status), "  "))
	return nil
}
