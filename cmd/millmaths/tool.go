package main

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// toolOptions are what can be asked of a tool of the catalogue. Its inputs have
// names of their own, so flags are read here, not by a set of known ones.
type toolOptions struct {
	given      []calc.Pair
	json, full bool
	help       bool
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
	answers, err := o.answers(tool)
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
	printRows(t.out, rows)
	t.tellCautions(tool.Info())
	return nil
}

func (o *toolOptions) value(a calc.Answer) string {
	if o.full {
		return a.Full()
	}
	return a.People()
}

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
  --json               for programs
  --full               unrounded
`)
	fmt.Fprintf(t.out, "\n%s\n", wrapped("Method: "+info.Method, "  "))
	fmt.Fprintf(t.out, "\n%s\n", wrapped(fmt.Sprintf("Source: %s (%s)", info.Source, info.Status), "  "))
	return nil
}
