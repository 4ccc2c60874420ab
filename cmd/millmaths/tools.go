package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

const convertHelp = `A value in other units

  millmaths convert "42 lb/1000ft2" g/m2

VALUE has its unit; a UNIT with a space needs quotes. --full prints all digits.
--json is for programs: an object, or for several units an array of them.
A mass of a ream needs its size: lb/25x38-500, lb/3000ft2 ...
The units of an input are in millmaths schema NAME; all stand with their factors
in paperprop/units.csv of the source. Others are composed: oz/yd2, lb/(h ft2).
`

// convert prints a value in one or several units.
func convert(_ context.Context, args []string, t *terminal) error {
	// No set of flags is used, as a value below zero looks like a flag.
	full, programs := false, false
	var words []string
	for _, a := range args {
		switch a {
		case "--full":
			full = true
		case "--json":
			programs = true
		case "--help", "-h":
			_, err := io.WriteString(t.out, convertHelp)
			return err
		default:
			if strings.HasPrefix(a, "--") {
				return usageError{fmt.Errorf("convert has no %s: it has --full, --json and --help", a)}
			}
			words = append(words, a)
		}
	}
	if len(words) < 2 || slices.Contains(words, "") {
		return usageError{errors.New("convert takes a value and units: millmaths convert \"42 lb/1000ft2\" g/m2")}
	}
	if programs {
		return convertJSON(words[0], words[1:], t)
	}
	for _, unit := range words[1:] {
		x, u, err := paperprop.Convert(words[0], unit)
		if err != nil {
			return inQuotes(err, words)
		}
		fmt.Fprintln(t.out, strings.TrimSpace(numberText(x, full)+" "+u.String()))
	}
	return nil
}

// inQuotes says of a bare number before units, convert 300 t/h kg/s, that quotes are
// missing around the value.
func inQuotes(err error, words []string) error {
	value := words[0] + " " + words[1]
	_, isNumber := paperprop.ParseNumber(words[0])
	if _, u, other := paperprop.Convert(value, words[1]); isNumber != nil || other != nil || u.IsZero() {
		return err
	}
	return fmt.Errorf("%w; a value with a space needs quotes: %q", err, value)
}

// convertJSON prints for each unit the answer of the calculation, and those of several
// as an array, as the values of a range are. No answer is printed if one is refused.
func convertJSON(value string, units []string, t *terminal) error {
	c, _ := catalogue.Find("convert")
	var answers [][]byte
	for _, unit := range units {
		given := []calc.Pair{{Name: "value", Text: value}, {Name: "to", Text: unit}}
		answer, err := c.(*calc.Tool).AnswerJSON(given, []byte("{}"))
		if err != nil {
			return t.withJSON(c.ID(), true, err)
		}
		answers = append(answers, answer)
	}
	text := bytes.Join(answers, []byte("\n,"))
	if len(units) > 1 {
		text = fmt.Appendf(nil, "[%s\n]", text)
	}
	return t.answer(text, nil)
}

const verifyHelp = `Check tables against the calculations

  millmaths verify testdata/checks/stock.csv

A check table is CSV in UTF-8 with commas and the heads

  id,calculation,inputs,expected,tolerance,kind,source,note

inputs     NAME=VALUE UNIT; ... as for the calculation; a list in brackets
expected   OUTPUT=VALUE UNIT; ... or an input that is solved for; u(OUTPUT) is
           its standard uncertainty; warned: a warning must come; refused: an
           error must come, whatever its reason: an unknown unit, a missing
           input or one given twice too
tolerance  rel 1e-6, abs 0.002 (in the unit of the expected value) or exact
kind       published, library, common-practice or memory: where the value is
           from
source     what was seen there

- reads standard input. Each row that fails is told with file and line. The exit
status is 1 if any does.
`

// verify runs check tables and reports each row that fails.
func verify(ctx context.Context, args []string, t *terminal) error {
	if len(args) == 0 {
		return usageError{errors.New("verify takes one or more check tables")}
	}
	if args[0] == "--help" || args[0] == "-h" {
		_, err := io.WriteString(t.out, verifyHelp)
		return err
	}
	rows, wrong := 0, 0
	tell := func(format string, args ...any) error {
		_, err := fmt.Fprintf(t.out, "%s\n", oneLine(fmt.Sprintf(format, args...)))
		return err
	}
	for _, name := range args {
		err := t.eachCheck(name, func(c *calc.Check, err error) error {
			rows++
			if stop := cmp.Or(ctx.Err(), unreadable(err)); stop != nil {
				return stop
			}
			if err != nil {
				wrong++
				return tell("%v", err)
			}
			failures := c.Run(catalogue.Find)
			if len(failures) > 0 {
				wrong++
			}
			for _, failure := range failures {
				if err := tell("%s:%d: %s %s: %s (%s: %s)", c.File, c.Line, c.ID, c.Calculation, failure, c.Kind, c.Source); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	fmt.Fprintf(t.out, "%s, %d failed\n", counted(rows, "row"), wrong)
	if rows == 0 {
		return fmt.Errorf("nothing was checked: %s", strings.Join(args, ", "))
	}
	if wrong > 0 {
		return errReported
	}
	return nil
}

// eachCheck goes through a check table. The files that its rows name are in its
// folder or below.
func (t *terminal) eachCheck(name string, do func(*calc.Check, error) error) error {
	f, err := t.openInput(name)
	if err != nil {
		return err
	}
	defer f.Close()
	for c, err := range calc.EachCheck(source(name), f) {
		c.Open = func(file string) (io.ReadCloser, error) { return t.disk.openIn(filepath.Dir(name), file) }
		if err := do(&c, err); err != nil {
			return err
		}
	}
	return nil
}

// unreadable returns an error of the disk, rather than of the contents of a file,
// or nil.
func unreadable(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return err
	}
	return nil
}

// schema prints the JSON Schema of one calculation or of all.
func schema(_ context.Context, args []string, t *terminal) error {
	switch len(args) {
	case 0:
		return t.answer(calc.CatalogueSchema(allInfos()))
	case 1:
		c, ok := catalogue.Find(args[0])
		if !ok {
			return usageError{unknown("calculation", args[0], catalogue.Names())}
		}
		return t.answer(calc.Schema(c.Info()))
	}
	return usageError{errors.New("schema takes one name, or none for all")}
}
