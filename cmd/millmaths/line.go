package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/plain"
	"millmaths.example/stock/line"
)

// lineOptions holds the flags of line.
type lineOptions struct {
	set         []string
	want        string
	of          []string
	steps       string
	worked      bool // --steps was given
	json, csv   bool
	full        bool
	differences bool
	plot        string
	help        bool
}

func (o *lineOptions) flags() *pflag.FlagSet {
	flags := newFlags("line")
	flags.StringArrayVar(&o.set, "set", nil, `FIGURE="VALUE": another value for a figure of the file; "?" to solve for it, a range "0.7..0.9 %" for a table`)
	flags.Var(&onceFlag{text: &o.want}, "want", `RESULT="VALUE": a result that is given, in place of the figure that is left out or "?"`)
	flags.StringArrayVar(&o.of, "of", nil, "a result for the table of a range; may be given more than once")
	flags.Var(&onceFlag{text: &o.steps}, "steps", "the worked solution of one stage or tank")
	flags.BoolVar(&o.json, "json", false, "for programs")
	flags.BoolVar(&o.csv, "csv", false, csvUsage)
	flags.BoolVar(&o.full, "full", false, "unrounded")
	flags.BoolVar(&o.differences, "differences", false, "of two files, only what differs")
	flags.StringVar(&o.plot, "plot", "", "draw the flows, or the curve of a range: FILE.svg or FILE.png")
	flags.BoolVarP(&o.help, "help", "h", false, "this page")
	return flags
}

// lineCommand balances machine lines described in files.
func lineCommand(ctx context.Context, args []string, t *terminal) error {
	var o lineOptions
	flags := o.flags()
	if n := len(args); n > 0 && args[n-1] == "--steps" {
		args = append(slices.Clone(args), "") // "" is no stage, so the error names those of the file
	}
	if err := parseFlags(flags, args); err != nil {
		return err
	}
	o.worked = flags.Changed("steps")
	if o.help {
		return lineHelp(t.out, flags)
	}
	files := flags.Args()
	if len(files) < 1 || len(files) > 2 {
		return usageError{errors.New("line takes one file, or two to compare: millmaths line FILE.toml")}
	}
	if err := o.fits(len(files)); err != nil {
		return usageError{err}
	}
	return t.withJSON("line", o.json, o.run(files, t))
}

// fits refuses flags that cannot be combined.
func (o *lineOptions) fits(files int) error {
	if err := oneForm(o.json, o.csv, o.worked); err != nil {
		return err
	}
	switch {
	case files == 2 && (o.worked || o.plot != "" || o.want != "" || o.json):
		return errors.New("two files are compared in a table or with --csv")
	case files == 1 && o.differences:
		return errors.New("--differences compares two files")
	}
	return nil
}

func (o *lineOptions) run(files []string, t *terminal) error {
	if err := checkPlot(o.plot); err != nil {
		return err
	}
	settings, err := readSettings(o.set, "FIGURE")
	if err != nil {
		return err
	}
	ranged, err := rangeAmong(settings)
	if err != nil {
		return err
	}
	var solved []*solvedLine
	for _, name := range files {
		l, err := t.readLine(name)
		if err != nil {
			return err
		}
		if l, err = l.WithAll(settings); err != nil { // with the range, which may fix the size in place of the file's figure
			return err
		}
		if ranged.Name != "" {
			if len(files) > 1 || o.want != "" || o.worked || o.json {
				return usageError{errors.New("a range is for one file, in a table or with --csv")}
			}
			t.tellCautions(l.Cautions()...)
			return o.sweep(l, ranged.Name, ranged.Text, t)
		}
		s, err := o.solve(l)
		if err != nil {
			return err
		}
		solved = append(solved, s)
	}
	if err := o.rangeless(solved); err != nil {
		return err
	}
	if !o.json {
		t.tellCautions(cautionsOf(solved)...)
	}
	if len(solved) == 2 {
		o.compare(solved[0], solved[1], t)
		for _, f := range uncertain(solved[0].Line, solved[1].Line) {
			t.leftOut(f, "into a comparison")
		}
		return nil
	}
	return o.print(solved[0], t)
}

// rangeAmong returns the setting that is a range; its name is empty if there is none.
func rangeAmong(settings []calc.Pair) (ranged calc.Pair, err error) {
	for _, s := range settings {
		switch {
		case !calc.IsRange(s.Text):
		case ranged.Name != "":
			return ranged, usageError{fmt.Errorf("%s and %s both run through a range, want one", ranged.Name, s.Name)}
		default:
			ranged = s
		}
	}
	return ranged, nil
}

// readSettings parses the texts of --set, NAME=VALUE; what is for messages. A name
// given twice is refused, as it is not clear which value is meant.
func readSettings(texts []string, what string) ([]calc.Pair, error) {
	var list []calc.Pair
	for _, text := range texts {
		name, value, ok := strings.Cut(text, "=")
		s := calc.Pair{Name: strings.TrimSpace(name), Text: strings.TrimSpace(value)}
		if !ok || s.Name == "" {
			return nil, usageError{fmt.Errorf("--set %q, want %s=\"VALUE\"", text, what)}
		}
		for _, before := range list {
			if before.Name == s.Name {
				return nil, usageError{fmt.Errorf("--set %s is given twice: %q and %q, want one", s.Name, before.Text, s.Text)}
			}
		}
		list = append(list, s)
	}
	return list, nil
}

// cautionsOf returns the cautions of lines, each once.
func cautionsOf(solved []*solvedLine) []*calc.Caution {
	var all []*calc.Caution
	for _, s := range solved {
		for _, c := range s.Line.Cautions() {
			if !slices.Contains(all, c) {
				all = append(all, c)
			}
		}
	}
	return all
}

// rangeless refuses --of, which names results for the table of a range, where there is
// none: first a name that is no result of any line.
func (o *lineOptions) rangeless(solved []*solvedLine) error {
	for _, name := range o.of {
		if !slices.ContainsFunc(solved, func(s *solvedLine) bool { _, ok := s.Value(name); return ok }) {
			_, err := line.ResultNamed(solved[0].Results, name)
			return err
		}
	}
	if len(o.of) > 0 {
		return usageError{fmt.Errorf("--of %s is for the table of a range: give a figure as one, --set FIGURE=\"0.7..0.9 %%\"", o.of[0])}
	}
	return nil
}

func (t *terminal) readLine(name string) (*line.Line, error) {
	in, err := t.openInput(name)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	return line.Read(source(name), in)
}

// A solvedLine is an answer, with the figure solved for and the uncertainties.
type solvedLine struct {
	*line.Answer
	spreads []line.Spread
	roots   []*line.Line // if a figure was solved for
	wish    line.Wish    // what was given in its place
	figure  int          // index of that figure; below zero is none
}

func (o *lineOptions) solve(l *line.Line) (*solvedLine, error) {
	s := &solvedLine{figure: -1}
	var wish line.Wish
	if o.want != "" {
		name, value, ok := strings.Cut(o.want, "=")
		if !ok {
			return nil, usageError{fmt.Errorf("--want %q, want RESULT=\"VALUE\"", o.want)}
		}
		var err error
		if wish, err = l.ReadWish(strings.TrimSpace(name), value); err != nil {
			return nil, err
		}
		for i, f := range l.Figures {
			if f.Unknown {
				s.figure = i
			}
		}
		if s.roots, err = l.SolveFor(wish); err != nil {
			return nil, err
		}
		l = s.roots[0]
	}
	var err error
	if s.Answer, err = l.Solve(); err != nil {
		return nil, err
	}
	s.wish = wish
	s.spreads, err = l.Uncertainties(s.figure, wish)
	return s, err
}

func (o *lineOptions) print(s *solvedLine, t *terminal) error {
	if o.plot != "" {
		if err := drawLine(o.plot, s.Answer, t); err != nil {
			return err
		}
	}
	doubts, err := s.Line.Doubts(s.figure, s.wish, s.spreads)
	if err != nil {
		return err
	}
	switch {
	case o.json:
		return t.answer(s.JSON(s.spreads, doubts...))
	case o.csv:
		o.lineCSV(s, t)
	case o.worked:
		o.solvedText(s, t)
		if err := o.lineSteps(s.Answer, t); err != nil {
			return err
		}
	default:
		o.lineText(s, t)
	}
	for _, w := range doubts {
		t.warn(w)
	}
	return nil
}

// lineText prints the streams, the results and what they depend on.
func (o *lineOptions) lineText(s *solvedLine, t *terminal) {
	if s.Line.Name != "" {
		fmt.Fprintf(t.out, "%s\n\n", s.Line.Name)
	}
	o.solvedText(s, t)
	printFlows(t.out, s.flowRows(o.full))
	if s.spreads != nil {
		fmt.Fprintln(t.out, "\nStandard uncertainty of the streams (k = 1, first order)")
		printFlows(t.out, s.spreadRows())
	}
	if rows := s.volumeRows(o.full); len(rows) > 1 {
		fmt.Fprintln(t.out, "\nVolume flows")
		printFlows(t.out, rows)
	}
	fmt.Fprintln(t.out, "\nResults")
	var rows [][]string
	for i := range s.Results {
		r := &s.Results[i]
		if r.OfStream() {
			continue
		}
		about := r.About
		if s.spreads != nil && s.spreads[i].Standard > 0 {
			about = "u = " + o.spread(r, s.spreads[i].Standard)
		}
		rows = append(rows, []string{"  " + r.Name, o.number(r.In(s.Values[i]), r.Unit), about})
	}
	plain.Rows(t.out, rows)
	fmt.Fprintln(t.out, "\nConventions")
	for _, text := range s.Line.Conventions() {
		fmt.Fprintf(t.out, "  %s\n", plain.Wrapped(text, "  "))
	}
	fmt.Fprintf(t.out, "\n%s\n", plain.Wrapped(fmt.Sprintf(
		"Check: the balance of each component closes to %s over the mill, to %s in the worst of %d places (relative; 1e-9 is the most that is taken).",
		small(s.Whole.Closure), small(s.Closure), len(s.Stages)), "  "))
}

// small formats a relative error. Rounding error differs between machines, so it is
// only named as such.
func small(x float64) string {
	if x < 1e-12 {
		return "less than 1e-12"
	}
	return fmt.Sprintf("%.1e", x)
}

// solvedText prints the figure solved for, with all values that give the result.
func (o *lineOptions) solvedText(s *solvedLine, t *terminal) {
	for i, root := range s.roots {
		f := root.Figures[s.figure]
		text := o.number(f.Field.Unit.To(f.Value), f.Field.Unit)
		if i > 0 {
			fmt.Fprintf(t.out, "  also %s\n", text)
			continue
		}
		if s.spreads != nil {
			d := f.Field.Unit.Difference()
			text += fmt.Sprintf(", u = %s %s", twoDigits(d.To(s.spreads[len(s.Results)].Standard)), d)
		}
		fmt.Fprintf(t.out, "%s = %s, solved for from %s\n", f.Name, text, o.want)
	}
	if len(s.roots) > 0 {
		fmt.Fprintln(t.out)
	}
}

func (o *lineOptions) number(x float64, u paperprop.Unit) string {
	return paperprop.WithUnit(numberText(x, o.full), u)
}

// spread formats a standard uncertainty with two digits.
func (o *lineOptions) spread(r *line.Result, u float64) string {
	return fmt.Sprintf("%s %s", twoDigits(r.Unit.Difference().To(u)), r.Unit.Difference())
}

func twoDigits(x float64) string {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return "0"
	}
	step := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-1)
	return paperprop.People(math.Round(x/step) * step)
}

// flowDecimals is the number of decimals in a table of flows: the same for all, so
// that columns add up.
const flowDecimals = 4

// streamRows returns a table of the streams in t/h, with a head; cell gives the
// text for a result.
func (s *solvedLine) streamRows(cell func(i int) string) [][]string {
	head := []string{"t/h", "total"}
	for _, c := range s.Line.Components {
		head = append(head, c.Name)
	}
	head = append(head, "dry %")
	rows := [][]string{head}
	at := 0
	for _, st := range s.Streams {
		row := []string{st.Name}
		for ; at < len(s.Results) && s.Results[at].OfStream() && strings.HasPrefix(s.Results[at].Name, st.Name+"."); at++ {
			if len(row) < len(head) { // volumes have a table of their own
				row = append(row, cell(at))
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// flowRows returns the table of the flows themselves.
func (s *solvedLine) flowRows(full bool) [][]string {
	return s.streamRows(func(i int) string {
		r := &s.Results[i]
		x, decimals := r.In(s.Values[i]), flowDecimals
		if r.Kind.Name() == "DryContent" {
			decimals = 3
		}
		return asTold(x, decimals, full)
	})
}

// asTold formats a number with so many decimals, or in full.
func asTold(x float64, decimals int, full bool) string {
	if full {
		return fullText(x)
	}
	return toDecimals(x, decimals)
}

// toDecimals formats a number with so many decimals, and an exact zero as 0.
func toDecimals(x float64, decimals int) string {
	if math.Abs(x) < 1e-12 {
		return "0"
	}
	return fmt.Sprintf("%.*f", decimals, x)
}

// spreadRows returns the table of the standard uncertainties.
func (s *solvedLine) spreadRows() [][]string {
	return s.streamRows(func(i int) string { return twoDigits(s.Results[i].Unit.Difference().To(s.spreads[i].Standard)) })
}

func (s *solvedLine) volumeRows(full bool) [][]string {
	rows := [][]string{{"", "m3/h", "degC", "%"}}
	exact := s.flowRows(true)
	for i, st := range s.Streams {
		if st.Volume == 0 {
			continue
		}
		dry := toDecimals(st.Dryness.In(paperprop.Percent), 4)
		if full {
			dry = exact[i+1][len(exact[0])-1]
		}
		rows = append(rows, []string{st.Name, asTold(st.Volume.In(paperprop.CubicMetrePerHour), 2, full),
			paperprop.People(st.Temperature.Celsius()), dry})
	}
	return rows
}

// printFlows aligns names to the left and numbers to the right. A name that does
// not fit within 80 columns takes two lines, and numbers that do not fit follow below
// the others.
func printFlows(out io.Writer, rows [][]string) {
	widths := columnWidths(rows)
	numbers := 0
	for _, w := range widths[1:] {
		numbers += w + 2
	}
	widths[0] = min(widths[0], max(plain.Width-numbers, 20))
	for i, columns := range columnsThatFit(widths) {
		if i > 0 {
			fmt.Fprintln(out)
		}
		for _, row := range rows {
			printFlow(out, row, widths, columns)
		}
	}
}

// printFlow prints the columns of a row of flows.
func printFlow(out io.Writer, row []string, widths, columns []int) {
	var b strings.Builder
	name := row[0]
	if utf8.RuneCountInString(name) > widths[0] {
		first, last := parted(name, widths[0])
		fmt.Fprintln(out, first)
		name = "  " + last
	}
	b.WriteString(name + strings.Repeat(" ", max(widths[0]-utf8.RuneCountInString(name), 0)))
	for _, c := range columns[1:] {
		b.WriteString("  " + strings.Repeat(" ", widths[c]-utf8.RuneCountInString(row[c])) + row[c])
	}
	fmt.Fprintln(out, strings.TrimRight(b.String(), " "))
}

// parted splits a name at the last space for which the first part fits, or within a
// word if there is none.
func parted(name string, room int) (first, last string) {
	runes := []rune(name)
	for i := min(room, len(runes)-1); i > 0; i-- {
		if runes[i] == ' ' {
			return string(runes[:i]), string(runes[i+1:])
		}
	}
	return string(runes[:room]), string(runes[room:])
}

// lineCSV writes a line per result, unrounded.
func (o *lineOptions) lineCSV(s *solvedLine, t *terminal) {
	fmt.Fprintln(t.out, "result,value,unit,u")
	for _, root := range s.roots {
		f, u := root.Figures[s.figure], ""
		if s.spreads != nil {
			u = fullText(f.Field.Unit.Difference().To(s.spreads[len(s.Results)].Standard))
		}
		printCSVLine(t.out, f.Name, fullText(f.Field.Unit.To(f.Value)), f.Field.Unit.String(), u)
	}
	for i := range s.Results {
		r, u := &s.Results[i], ""
		if s.spreads != nil {
			u = fullText(r.Unit.Difference().To(s.spreads[i].Standard))
		}
		printCSVLine(t.out, r.Name, fullText(r.In(s.Values[i])), r.Unit.String(), u)
	}
}

func lineHelp(out io.Writer, flags *pflag.FlagSet) error {
	fmt.Fprint(out, `The balance of a machine line, from the bale to the reel

  millmaths line FILE.toml
  millmaths line FILE.toml --set wire.retention.filler=? \
      --want "white water.consistency=0.2 %"
  millmaths line A.toml B.toml --differences

The file tells the stages in the order in which stock meets them, each with the
figures known of it, the tanks, what comes back, and one figure that fixes the
size; examples/quillbeck/harebell-120.toml says how. A figure goes by the names
of its stage and key (headbox.consistency), a result by that of its stream
(headbox.filler, sewer.total) or its own (fresh-water-per-tonne).
`)
	printTables(out, line.Tables())
	printOptions(out, flags)
	return nil
}
