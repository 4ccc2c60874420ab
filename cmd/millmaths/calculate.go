package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
)

// pairs collects the inputs given by flags, in order.
type pairs []calc.Pair

// A pairFlag gives one input or output.
type pairFlag struct {
	name string
	list bool
	to   *pairs
}

func (f pairFlag) String() string { return "" }
func (f pairFlag) Type() string   { return "VALUE" }

func (f pairFlag) Set(text string) error {
	if strings.HasPrefix(text, "--") {
		return errors.New("that is a flag, want a value between the two")
	}
	for _, p := range *f.to {
		switch {
		case p.Name != f.name:
		case f.list && !strings.ContainsAny(p.Text+text, "[@"):
			return fmt.Errorf("given twice: %q and %q, want one list: %q", p.Text, text, p.Text+", "+text)
		case f.list:
			return fmt.Errorf("given twice: %q and %q, want all values in one list", p.Text, text)
		default:
			return fmt.Errorf("given twice: %q and %q, want one", p.Text, text)
		}
	}
	*f.to = append(*f.to, calc.Pair{Name: f.name, Text: text})
	return nil
}

// inputFlags makes a flag for every input, and for every output that can be solved
// for.
func inputFlags(flags *pflag.FlagSet, info *calc.Info, to *pairs) {
	for _, f := range slices.Concat(info.In, info.Out) {
		if flags.Lookup(f.Name) == nil {
			flags.Var(pairFlag{f.Name, f.Shape == calc.List, to}, f.Name, f.Help)
		}
	}
}

// options holds the flags of a calculation.
type options struct {
	given      pairs
	steps      string
	json, csv  bool
	full       bool
	plot, of   string
	draws      int
	seed       uint64
	workers    int
	sources    []string
	units      []string
	correlated []string
	freedom    []string
	expanded   string
	level      float64 // level of confidence of the expanded uncertainty; 0 is none
	second     bool
	help       bool
	sweep      *calc.Cell
	sweepRange calc.Range
}

// oneForm refuses two output forms at once.
func oneForm(json, csv, steps bool) error {
	if json && csv || json && steps || csv && steps {
		return errors.New("want one of --json, --csv and --steps")
	}
	return nil
}

// csvUsage says which digits are rounded: the rows of a range are reported values,
// as those of a batch are; a single result has its reported value beside it.
const csvUsage = "for tables, unrounded; a range as reported, unrounded with --full"

func (o *options) flags(info *calc.Info) *pflag.FlagSet {
	flags := newFlags(info.Name)
	inputFlags(flags, info, &o.given)
	flags.StringVar(&o.steps, "steps", "", "worked solution; --steps=markdown for a report")
	flags.Lookup("steps").NoOptDefVal = "text"
	flags.BoolVar(&o.json, "json", false, "for programs")
	flags.BoolVar(&o.csv, "csv", false, csvUsage)
	flags.BoolVar(&o.full, "full", false, "unrounded")
	drawn := "draw a range: FILE.svg or FILE.png"
	if info.Drawn {
		drawn = "draw the result, or a range: FILE.svg or FILE.png"
	}
	flags.StringVar(&o.plot, "plot", "", drawn)
	flags.StringVar(&o.of, "of", "", "the output to draw; the first where none is named")
	flags.IntVar(&o.draws, "monte-carlo", 0, "draw N times from the uncertain inputs")
	flags.Uint64Var(&o.seed, "seed", 1, "of the draws, 1 if left out")
	flags.IntVar(&o.workers, "workers", 0, "of the draws; the answer is the same")
	flags.StringArrayVar(&o.sources, "source", nil, `NAME="0.5 mg": an uncertainty named once, used as ± NAME`)
	flags.StringArrayVar(&o.correlated, "correlated", nil, "A,B=0.8: the correlation of two uncertain values")
	flags.StringArrayVar(&o.freedom, "freedom", nil, "INPUT=4: degrees of freedom of its uncertainty")
	flags.StringVar(&o.expanded, "expanded", "", "expanded uncertainty at a level of confidence: 95%; k is Student's t at the effective degrees of freedom, which are not cut to a whole number")
	flags.BoolVar(&o.second, "second-order", false, "mean and uncertainty with the terms of second order")
	flags.StringArrayVar(&o.units, "unit", nil, "NAME=UNIT: print an output, or an input that is solved for, in another unit; a rule that rounds to a step of the usual one does not hold then")
	flags.BoolVarP(&o.help, "help", "h", false, "this page")
	return flags
}

// calculate runs a calculation on its flags. It knows none by name.
func calculate(ctx context.Context, c calc.Calculation, args []string, t *terminal) error {
	var o options
	flags := o.flags(c.Info())
	if err := parseFlags(flags, args); err != nil {
		return err
	}
	if o.help {
		calculationHelp(t.out, c, flags)
		return nil
	}
	if err := o.check(flags); err != nil {
		return usageError{err}
	}
	return t.withJSON(c.ID(), o.json, o.run(ctx, c, t))
}

// check refuses flags that do not go together, and words that are no flags.
func (o *options) check(flags *pflag.FlagSet) error {
	if flags.Changed("monte-carlo") && o.draws == 0 {
		return errors.New("--monte-carlo 0 draws nothing, want 100 or more")
	}
	for _, name := range []string{"seed", "workers"} {
		if flags.Changed(name) && o.draws == 0 {
			return fmt.Errorf("--%s is for draws: give --monte-carlo N, or leave it out", name)
		}
	}
	if err := checkWorkers(o.workers); err != nil {
		return err
	}
	switch {
	case flags.Arg(0) == "markdown" && o.steps != "":
		return fmt.Errorf("%s: for a report want --steps=markdown, with an equals sign", flags.Name())
	case flags.NArg() > 0:
		return fmt.Errorf("%s: %q is no flag, want --INPUT \"VALUE UNIT\"; a value with a space needs quotes", flags.Name(), flags.Arg(0))
	case o.steps != "" && o.steps != "text" && o.steps != "markdown":
		return fmt.Errorf("--steps=%s, want --steps or --steps=markdown", o.steps)
	}
	return oneForm(o.json, o.csv, o.steps != "")
}

func checkWorkers(n int) error {
	if n < 0 {
		return fmt.Errorf("--workers %d, want 1 or more, or 0 for one a processor", n)
	}
	return nil
}

// withJSON writes the error of a calculation or a command as JSON too, if that was asked
// for. It returns what is left to report: of wrong usage, the error itself.
func (t *terminal) withJSON(name string, asked bool, err error) error {
	if err == nil || !asked || errors.Is(err, context.Canceled) || errors.Is(err, errReported) {
		return err
	}
	fmt.Fprintf(t.out, "%s\n", calc.ErrorJSON(name, err))
	if status(err, io.Discard) == failed {
		return errReported
	}
	return err
}

func (o *options) run(ctx context.Context, c calc.Calculation, t *terminal) error {
	if err := checkPlot(o.plot); err != nil {
		return err
	}
	s := c.NewSheet()
	if err := o.fill(s, t); err != nil {
		return err
	}
	if o.sweep != nil {
		if left := o.leftOut(); left != "" {
			return usageError{fmt.Errorf("%s is a range, which makes a table without %s: give one value for that", o.sweep.Name, left)}
		}
	}
	if o.of != "" && (o.sweep == nil || o.plot == "") {
		return usageError{fmt.Errorf("--of %s names the output of a range that --plot draws: give an input as 3..5 and its unit, and --plot FILE", o.of)}
	}
	if o.sweep != nil {
		return o.runSweep(s, t)
	}
	if err := o.setUncertainty(s); err != nil {
		return err
	}
	if err := s.Run(); err != nil {
		return err
	}
	if o.level > 0 || o.second {
		if all, err := s.Uncertainties(); err != nil || len(all) == 0 {
			return cmp.Or[error](err, usageError{errors.New("--expanded and --second-order are for uncertain inputs: give one with ±")})
		}
	}
	if o.plot != "" {
		picture := s.Picture()
		if picture == nil {
			return usageError{errors.New("--plot draws a range here: give one input as 3..5 and its unit")}
		}
		if err := drawTo(picture, o.plot, t); err != nil {
			return err
		}
	}
	found, err := o.findings(ctx, s)
	if err != nil {
		return err
	}
	t.tellCautions(s.Info().Cautions...)
	if err := o.print(s, found, t); err != nil {
		return err
	}
	return t.tellWarnings(s, found)
}

// findings draws, and computes the second order, where that was asked for.
func (o *options) findings(ctx context.Context, s *calc.Sheet) (found calc.Findings, err error) {
	found = calc.Findings{Level: o.level, Draws: o.draws, Seed: o.seed}
	if o.draws != 0 {
		found.Samples, err = calc.MonteCarlo{Draws: o.draws, Seed: o.seed, Workers: o.workers}.Run(ctx, s)
	}
	if o.second && err == nil {
		found.Bent, err = s.SecondOrder()
	}
	return found, err
}

// leftOut names what was asked for but is not done along a range.
func (o *options) leftOut() string {
	switch {
	case o.steps != "":
		return "--steps"
	case o.draws != 0:
		return "--monte-carlo"
	case o.second:
		return "--second-order"
	case o.expanded != "":
		return "--expanded"
	case len(o.correlated) > 0:
		return "--correlated"
	case len(o.freedom) > 0:
		return "--freedom"
	}
	return ""
}

// setUncertainty sets what is given about the uncertain inputs besides ±.
func (o *options) setUncertainty(s *calc.Sheet) error {
	for _, text := range o.correlated {
		pair, number, ok := strings.Cut(text, "=")
		a, b, two := strings.Cut(pair, ",")
		r, err := paperprop.ParseNumber(strings.TrimSpace(number))
		if !ok || !two || err != nil {
			return usageError{fmt.Errorf("--correlated %s, want A,B=0.8", text)}
		}
		if err := s.Correlate(strings.TrimSpace(a), strings.TrimSpace(b), r); err != nil {
			return usageError{err}
		}
	}
	for _, text := range o.freedom {
		name, number, ok := strings.Cut(text, "=")
		nu, err := paperprop.ParseNumber(strings.TrimSpace(number))
		if !ok || err != nil {
			return usageError{fmt.Errorf("--freedom %s, want INPUT=4", text)}
		}
		if err := s.SetFreedom(name, nu); err != nil {
			return usageError{err}
		}
	}
	if o.expanded != "" {
		p, err := paperprop.ParseFraction(o.expanded)
		if err != nil || !(p > 0.5 && p < 1) {
			return usageError{fmt.Errorf("--expanded %s, want a level of confidence above 50 %% and below 100 %%: 95%%", o.expanded)}
		}
		o.level = float64(p)
	}
	return nil
}

// fill sets the sources, units and inputs that were given; an input may be a
// range.
func (o *options) fill(s *calc.Sheet, t *terminal) error {
	for _, source := range o.sources {
		name, text, ok := strings.Cut(source, "=")
		if !ok {
			return usageError{fmt.Errorf("--source %s, want NAME=\"0.5 g\"", source)}
		}
		if err := s.SetSource(name, text); err != nil {
			return err
		}
	}
	for _, unit := range o.units {
		name, text, ok := strings.Cut(unit, "=")
		if !ok {
			return usageError{fmt.Errorf("--unit %s, want OUTPUT=UNIT", unit)}
		}
		if err := s.PrintIn(name, text); err != nil {
			return err
		}
	}
	for _, p := range o.given {
		text, file, err := t.textOf(p, new(tableFlags))
		if err != nil {
			return whereListIs(err)
		}
		if cell, ok := s.Input(p.Name); ok && file == "" && calc.IsRange(text) {
			if o.sweep != nil {
				return usageError{fmt.Errorf("%s and %s are both ranges, want at most one", o.sweep.Name, p.Name)}
			}
			r, err := cell.Range(text)
			if err != nil {
				return err
			}
			o.sweep, o.sweepRange = cell, r
			continue
		}
		if err := s.Set(p.Name, text); err != nil && file != "" {
			return fmt.Errorf("%s: %w", source(file), err)
		} else if err != nil {
			return err
		}
	}
	if unused := s.UnusedSources(); len(unused) > 0 {
		return usageError{fmt.Errorf("source %s is used by no input: write ± %[1]s after a value", unused[0])}
	}
	return nil
}

// warningsOf returns the warnings of a run, and one if the input that was solved for has
// other values.
func warningsOf(s *calc.Sheet) []calc.Warning {
	var all []calc.Warning
	for _, w := range s.Warnings() {
		all = append(all, *w)
	}
	if n := len(s.Roots); n > 1 || s.MoreRoots {
		text := fmt.Sprintf("the results are of the first of %d values of %s", n, s.Roots[0].Input.Name)
		if s.MoreRoots {
			text += "; there can be more, closer together than the search goes"
		}
		all = append(all, calc.Warning{Code: "several-roots", Text: text})
	}
	return all
}

func (t *terminal) warn(w calc.Warning) {
	t.sayAll(plain.Wrapped(fmt.Sprintf("warning: %s: %s", w.Code, w.Text), "  "))
}

// tellWarnings prints, apart from the result, what to know about it and about its
// uncertainties.
func (t *terminal) tellWarnings(s *calc.Sheet, found calc.Findings) error {
	doubts, err := s.Doubts(found)
	if err != nil {
		return err
	}
	for _, w := range append(warningsOf(s), doubts...) {
		t.warn(w)
	}
	return nil
}

// tellCautions prints cautions before the result, which could lead to harm.
func (t *terminal) tellCautions(cautions ...*calc.Caution) {
	for _, c := range cautions {
		t.sayAll(plain.Wrapped("caution: "+c.Text, "  "))
	}
}
