package main

import (
	"bufio"
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/pflag"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

// batchOptions holds the flags of batch.
type batchOptions struct {
	given                    pairs
	columns, by, only, units []string
	lot, out, summary        string
	level                    float64
	full, jsonl, quiet, help bool
	noFooters                bool
	table                    tableFlags
	workers                  int
}

func (o *batchOptions) flags(info *calc.Info) *pflag.FlagSet {
	flags := newFlags("batch " + info.Name)
	inputFlags(flags, info, &o.given)
	flags.StringArrayVar(&o.columns, "column", nil, "INPUT=HEAD,...: where an input comes from, if its head has another name; INPUT=\"HEAD [UNIT]\", if the file gives no unit for it; OUTPUT=HEAD: solve each row for the input left out")
	flags.Var(&onceFlag{text: &o.lot}, "lot", "HEAD: rows that share this cell make one list; \"*\": all rows do")
	flags.StringArrayVar(&o.only, "only", nil, "HEAD=CELL,...: only the rows that have these cells")
	flags.StringSliceVar(&o.by, "by", nil, "HEAD,...: summarise the rows that share these cells")
	o.level = 95
	flags.Var((*perCent)(&o.level), "interval", "confidence of the summary's interval in per cent, 95 if left out")
	flags.StringVar(&o.summary, "summary", "", "markdown or json: the summary alone, for a certificate; with --lot markdown, the results of the lots")
	flags.StringVar(&o.out, "out", "", "FILE: write the rows there, in place of standard output")
	flags.StringArrayVar(&o.units, "unit", nil, "OUTPUT=UNIT: print an output in another unit; a rule that rounds to a step of the usual one does not hold then")
	flags.BoolVar(&o.full, "full", false, "unrounded results")
	flags.BoolVar(&o.noFooters, "no-footers", false, "rows that begin with mean, s, n ... are rows like the others")
	o.table.add(flags)
	flags.BoolVar(&o.jsonl, "jsonl", false, "a JSON object a line in, an answer a line out, in order; an empty line has none, and an error tells its line")
	flags.IntVar(&o.workers, "workers", 0, "how many compute; the output is the same")
	flags.BoolVar(&o.quiet, "quiet", false, "do not say how the table was understood")
	flags.BoolVarP(&o.help, "help", "h", false, "this page")
	return flags
}

// perCent is a flag in per cent, with or without the sign.
type perCent float64

func (p *perCent) String() string { return paperprop.People(float64(*p)) }
func (p *perCent) Type() string   { return "PERCENT" }

func (p *perCent) Set(text string) error {
	x, err := paperprop.ParseNumber(strings.TrimSpace(strings.TrimSuffix(text, "%")))
	*p = perCent(x)
	return err
}

// summed reports whether rows are summed up: lots are not, they are results of their own.
func (o *batchOptions) summed() bool { return len(o.by) > 0 || o.summary != "" && o.lot == "" }

// job returns the job that the flags describe.
func (o *batchOptions) job(c calc.Calculation, name string, t *terminal) (*batch.Job, error) {
	if err := checkWorkers(o.workers); err != nil {
		return nil, usageError{err}
	}
	switch {
	case !(o.level > 50 && o.level < 100):
		return nil, usageError{fmt.Errorf("--interval is %v, want above 50 and below 100", o.level)}
	case o.summary != "" && o.summary != "markdown" && o.summary != "json":
		return nil, usageError{fmt.Errorf("--summary=%s, want markdown or json", o.summary)}
	case o.summary == "json" && o.lot != "":
		return nil, usageError{errors.New("--lot gives one result per lot, --summary json sums up rows: use one of them, or --summary markdown for a table of the lots")}
	case o.full && o.summary == "markdown" && o.out == "":
		return nil, usageError{errors.New("want one of --full, which is for rows, and --summary markdown, which is for people")}
	case o.lot != "" && len(o.by) > 0:
		return nil, usageError{errors.New("--lot gives one result per lot, --by summarises rows: use one of them")}
	case o.out == "-":
		return nil, usageError{errors.New("--out -: want the name of a file; without --out the rows go to standard output")}
	case o.out != "" && t.sameFile(name, o.out):
		return nil, usageError{fmt.Errorf("--out %s is the table itself: measurements are not overwritten", shown(o.out))}
	}
	options, err := o.table.options(name)
	if err != nil {
		return nil, err
	}
	job := &batch.Job{
		Calculation: c, Lot: o.lot, By: o.by, Full: o.full, Workers: o.workers, NoFooters: o.noFooters,
		Together: o.summary != "" && len(o.by) == 0,
		Options:  options,
		Tell:     func(err error) { t.say("%v", err) },
	}
	if !o.quiet {
		job.Understood = func(notes []string) {
			for _, n := range notes {
				t.say("%s: %s", source(name), n)
			}
		}
	}
	for _, text := range o.only {
		if !strings.Contains(text, "=") {
			return nil, usageError{fmt.Errorf("--only %s, want HEAD=CELL", text)}
		}
	}
	if job.Units, err = outputUnits(o.units); err != nil {
		return nil, err
	}
	if job.Columns, err = columnHeads(o.columns); err != nil { // checks their form before a file is opened
		return nil, err
	}
	for _, text := range o.columns { // only the heads show whether a comma separates two
		if input, head, _ := strings.Cut(text, "="); strings.Contains(head, ",") {
			input = strings.TrimSpace(input)
			job.Columns[input] = append(job.Columns[input], head)
		}
	}
	job.Constants, err = o.constants(t)
	return job, err
}

// constants returns the inputs given for every row, with each @FILE replaced by the
// numbers of the file.
func (o *batchOptions) constants(t *terminal) ([]calc.Pair, error) {
	given := slices.Clone(o.given)
	for i, p := range given {
		var err error
		if given[i].Text, _, err = t.textOf(p, &o.table); err != nil {
			return nil, err
		}
	}
	return given, nil
}

// outputUnits parses OUTPUT=UNIT.
func outputUnits(texts []string) (map[string]string, error) {
	units := map[string]string{}
	for _, text := range texts {
		name, unit, ok := strings.Cut(text, "=")
		if !ok {
			return nil, usageError{fmt.Errorf("--unit %s, want OUTPUT=UNIT", text)}
		}
		if first, twice := units[name]; twice {
			return nil, usageError{fmt.Errorf("--unit %s, but %s is asked for in %s already", text, name, first)}
		}
		units[name] = unit
	}
	return units, nil
}

// batchCommand runs a calculation over the rows of a table.
func batchCommand(ctx context.Context, args []string, t *terminal) error {
	if len(args) == 0 || strings.HasPrefix(args[0], "-") {
		if slices.Contains(args, "--help") || slices.Contains(args, "-h") {
			return batchOverview(t.out)
		}
		return usageError{errors.New("batch takes a calculation: millmaths batch tensile FILE")}
	}
	c, ok := catalogue.Find(args[0])
	if !ok {
		return usageError{unknown("calculation", args[0], catalogue.Names())}
	}
	var o batchOptions
	flags := o.flags(c.Info())
	if err := parseFlags(flags, args[1:]); err != nil {
		return err
	}
	if c.Info().Tool && (o.help || !o.jsonl) {
		return fmt.Errorf("%s is a tool and takes no table: see millmaths %[1]s --help; batch %[1]s --jsonl takes one JSON object per line", c.ID())
	}
	if o.help {
		return batchHelp(t.out, c, flags)
	}
	if flags.Changed("interval") && !o.jsonl && !o.summed() {
		return usageError{errors.New("--interval is of a summary of rows: give --by HEAD or --summary, or leave it out")}
	}
	if flags.NArg() > 1 {
		return usageError{fmt.Errorf("batch takes one table, not %d: %s", flags.NArg(), strings.Join(flags.Args(), ", "))}
	}
	name := cmp.Or(flags.Arg(0), "-")
	job, err := o.job(c, name, t)
	if err != nil {
		return err
	}
	in, err := t.openInput(name)
	if err != nil {
		return err
	}
	defer in.Close()
	if o.jsonl {
		for _, name := range append(tableFlagNames[:], "column", "lot", "only", "by", "summary", "out", "unit", "full", "no-footers", "interval", "workers") {
			if flags.Changed(name) {
				return usageError{fmt.Errorf("--%s is for tables: --jsonl takes objects, and answers with all digits", name)}
			}
		}
		return lines(ctx, c, job.Constants, name, in, t)
	}
	return o.runJob(ctx, job, in, t)
}

// runJob writes the rows, then the summary, and reports what became of the rows.
func (o *batchOptions) runJob(ctx context.Context, job *batch.Job, in io.Reader, t *terminal) error {
	var totals batch.Totals
	var told failures
	tell := job.Tell
	job.Tell = func(err error) {
		told.add(err)
		tell(err)
	}
	work := func(out io.Writer) error {
		r, err := job.Open(in)
		if err != nil {
			return err
		}
		if job.Columns, err = columnHeadsOf(o.columns, isHead(r.Layout())); err != nil {
			return err
		}
		job.Only, job.By = onlyCells(o.only, isHead(r.Layout())), joinedHeads(o.by, isHead(r.Layout()))
		totals, err = job.RunTable(ctx, r, out)
		return inFlags(err, job, isHead(r.Layout()))
	}
	err := ctx.Err() // starts listening for an interrupt, so that no half file is left
	if err != nil {
		return err
	}
	t.tellCautions(job.Calculation.Info().Cautions...)
	switch {
	case o.out != "":
		err = t.writeFile(o.out, work)
	case o.summary != "":
		err = work(io.Discard)
	default:
		err = work(t.out)
	}
	if err != nil {
		if totals.Rows > 0 {
			t.tellRows(job, &totals)
		}
		if errors.Is(err, told.last) { // the row that ended the work has been reported
			o.tellUnread(job, err, t)
			return errReported
		}
		return err
	}
	if totals.Rows > totals.Footers && (len(job.By) > 0 || job.Together) {
		if err := o.writeSummary(job, &totals, &told, t); err != nil {
			return err
		}
	}
	o.tellOutcome(job, &totals, &told, t)
	footers := ""
	if totals.Footers > 0 {
		footers = "; --no-footers takes footers for rows"
	}
	switch {
	case totals.Rows == totals.Footers && totals.Others > 0:
		return fmt.Errorf("%s: no row of %d has the cells that --only asks for%s%s%s", source(job.Options.Name), totals.Others, onlyText(job.Only), lackText(job.Only, &totals.Lack), footers)
	case totals.Rows == totals.Footers:
		return fmt.Errorf("%s: no row under the heads%s", source(job.Options.Name), footers)
	case totals.Failed > 0:
		return errReported
	}
	return nil
}

// lackText says which cells there are in place of the one that no row has: those like it,
// in small or capital letters, or else the first.
func lackText(only []calc.Pair, l *batch.Lack) string {
	const enough = 6
	asked, small := only[l.Only], make([]string, len(l.Cells))
	for i, cell := range l.Cells {
		small[i] = strings.ToLower(cell)
	}
	if near := calc.Nearest(asked.Text, small); len(near) > 0 {
		for i, cell := range near {
			near[i] = quotedCell(l.Cells[slices.Index(small, cell)])
		}
		return fmt.Sprintf("; near under %s: %s", asked.Name, strings.Join(near, ", "))
	}
	var first []string
	for _, cell := range l.Cells[:min(len(l.Cells), enough)] {
		first = append(first, quotedCell(cell))
	}
	if len(l.Cells) > enough {
		first = append(first, "...")
	}
	return fmt.Sprintf("; under %s: %s", asked.Name, strings.Join(first, ", "))
}

func quotedCell(cell string) string { return strconv.Quote(shortTo(cell, 40)) }

// tellOutcome tells what is to be known of the rows, and what became of them.
func (o *batchOptions) tellOutcome(job *batch.Job, totals *batch.Totals, told *failures, t *terminal) {
	for _, line := range totals.Warnings() {
		t.say("warning: %s", line)
	}
	if totals.Warned[batch.LabelDiffers] > 0 {
		t.say("--by with the column named there separates the rows that differ")
	}
	if told.doubtful {
		t.say("--no-footers takes rows that are refused for their names, and footers, for readings")
	}
	for _, text := range totals.Assumed {
		t.say("%s", text)
	}
	t.tellReported(o, job)
	t.tellRows(job, totals)
}

// inFlags adds to an error of a job the flag that is wrong, or those that can help.
func inFlags(err error, job *batch.Job, isHead func(string) bool) error {
	var head *batch.HeadError
	var name *calc.NameError
	var unbound *batch.UnboundError
	var input *calc.InputError
	if errors.As(err, &head) {
		err = fmt.Errorf("%w%s", err, lineAbove(head))
	}
	switch {
	case head != nil && head.Field == "Columns":
		return fmt.Errorf("--column %s: %w%s", head.Input, err, oneColumn(head.Heads))
	case head != nil && head.Field == "" && len(head.Alike) > 0:
		return fmt.Errorf("%w; --column %s=%q takes that", err, head.Input, head.Alike[0])
	case head != nil && head.Field != "":
		return fmt.Errorf("--%s: %w", strings.ToLower(head.Field), err)
	case errors.As(err, &input) && errors.Is(err, paperprop.ErrUnit) && isHead(input.Text):
		return fmt.Errorf("%w; --column %s=%q says which unit is meant", err, input.Input, input.Text+" [UNIT]")
	case errors.As(err, &name):
		return turned(err, name, job)
	case !errors.As(err, &unbound):
		return err
	}
	help := ""
	switch input := unbound.Input; {
	case input == "":
		help = "; name one with --column INPUT=HEAD"
	case unbound.Like == "":
		help = fmt.Sprintf("; name its column with --column %s=HEAD, or give --%[1]s for all rows", input)
		if out := unbound.Output; out != "" {
			help += fmt.Sprintf("; %s is an output: --column %[1]s=%[1]s solves each row for %s", out, input)
		}
	case unbound.Unit == "":
		help = fmt.Sprintf(" Name it with --column %s=%q, or give --%[1]s for all rows", input, unbound.Like)
	default:
		help = fmt.Sprintf(", or name the column with --column %s=%q, or give --%[1]s for all rows", input, unbound.Like+" ["+unbound.Unit+"]")
	}
	if unbound.Unit == "" {
		help += oneColumn(unbound.Heads)
	}
	return errors.New(err.Error() + help) // the file lacks it, not the call
}

// lineAbove says how heads are joined with the line above them, in which a spreadsheet may
// have what tells them apart.
func lineAbove(e *batch.HeadError) string {
	if e.Count < 2 || len(e.Alike) > 0 || e.Above == 0 {
		return ""
	}
	return fmt.Sprintf("; if the line above tells them apart, --head-line %d joins the two", e.Above)
}

// oneColumn says of a table with one head of several words how cells are separated.
func oneColumn(heads []string) string {
	if len(heads) != 1 || !strings.Contains(heads[0], " ") {
		return ""
	}
	return "; there is one column: cells are separated by commas, semicolons or tabs, not by blanks"
}

// turned says of --column HEAD=INPUT that it is the wrong way round, and not which names
// there are.
func turned(err error, unknown *calc.NameError, job *batch.Job) error {
	if heads := job.Columns[unknown.Name]; len(heads) == 1 {
		for _, f := range job.Calculation.Info().In {
			if f.Name == heads[0] {
				return fmt.Errorf("%w; want INPUT=HEAD: --column %s=%q", &calc.NameError{Calculation: unknown.Calculation, Name: unknown.Name, Near: unknown.Near}, f.Name, unknown.Name)
			}
		}
	}
	return err
}

// tellUnread reports what is not done for a table whose heads change.
func (o *batchOptions) tellUnread(job *batch.Job, err error, t *terminal) {
	lost := ""
	switch {
	case o.out != "":
		lost = "; " + shown(o.out) + " is not written"
	case job.Lot != "":
		lost = "; no lot is computed"
	case len(job.By) > 0 || job.Together:
		lost = "; no summary is made"
	}
	var cell *table.CellError
	if errors.As(err, &cell) {
		t.say("%s: what follows line %d is not read, computed or counted%s", cell.File, cell.Line, lost)
	}
}

// failures are the rows and lots that are not computed.
type failures struct {
	first    []string // what a certificate says of them
	more     int
	last     error
	doubtful bool // some row may be a reading or a footer
}

// mostTold is the most failed rows that a certificate names.
const mostTold = 20

func (f *failures) add(err error) {
	f.last = err
	var cell *table.CellError
	f.doubtful = f.doubtful || errors.As(err, &cell) && cell.Doubtful
	if len(f.first) == mostTold {
		f.more++
		return
	}
	f.first = append(f.first, err.Error())
}

// tellReported says which results of the rows are rounded, so that nobody computes
// with them unawares.
func (t *terminal) tellReported(o *batchOptions, job *batch.Job) {
	if o.full || o.quiet || o.summary != "" {
		return
	}
	s, err := job.Sheet()
	if err != nil {
		return // can't happen: the job has run
	}
	for _, c := range s.Out {
		if rule := c.Field.Report.Short(); rule != "" {
			t.say("%s is reported to %s; --full is not rounded", c.Name, rule)
		}
	}
}

// tellRows reports what became of the rows.
func (t *terminal) tellRows(job *batch.Job, totals *batch.Totals) {
	used, footers := "computed", ""
	if job.Lot != "" {
		used = "used in a lot"
	}
	if totals.Footers > 0 {
		footers = fmt.Sprintf(", %d of them footers", totals.Footers)
		if totals.Footers == 1 {
			footers = ", 1 of them a footer"
		}
		more := ""
		if n := totals.Footers - len(totals.FooterLines); n > 0 {
			more = fmt.Sprintf(" and %d more", n)
		}
		t.say("footers, not counted: %s%s", strings.Join(totals.FooterLines, ", "), more)
	}
	if totals.Others > 0 {
		t.say("%s besides, not asked for", counted(totals.Others, "row"))
	}
	t.say("%s = %d %s + %d reported%s", counted(totals.Rows, "row"), totals.Computed, used, totals.Reported, footers)
}

func oneOf(flag, word string, choices map[string]byte) (byte, error) {
	if word == "" {
		return 0, nil
	}
	if b, ok := choices[word]; ok {
		return b, nil
	}
	var words []string
	for w := range choices {
		if len(w) > 1 {
			words = append(words, w)
		}
	}
	slices.Sort(words)
	return 0, usageError{fmt.Errorf("--%s is %q, want %s", flag, word, strings.Join(words, " or "))}
}

// columnHeads parses INPUT=HEAD,HEAD and INPUT=HEAD,INPUT=HEAD: a part without an
// equals sign is one more head of the input before it.
func columnHeads(texts []string) (map[string][]string, error) {
	return columnHeadsOf(texts, func(string) bool { return false })
}

// columnHeadsOf is columnHeads with known heads. A head may contain commas: as many
// parts as make up a head are one.
func columnHeadsOf(texts []string, isHead func(string) bool) (map[string][]string, error) {
	columns := map[string][]string{}
	for _, text := range texts {
		input := ""
		for parts := strings.Split(text, ","); len(parts) > 0; {
			if name, rest, ok := strings.Cut(parts[0], "="); ok {
				input, parts[0] = strings.TrimSpace(name), rest
			}
			n := partsOfHead(parts, isHead)
			head := strings.TrimSpace(strings.Join(parts[:n], ","))
			if input == "" || head == "" {
				return nil, usageError{fmt.Errorf("--column %s, want INPUT=HEAD", text)}
			}
			columns[input] = append(columns[input], head)
			parts = parts[n:]
		}
	}
	return columns, nil
}

// partsOfHead returns how many of the first parts make up a head with commas; 1 if none
// do.
func partsOfHead(parts []string, isHead func(string) bool) int {
	n := len(parts)
	for n > 1 && !isHead(strings.Join(parts[:n], ",")) {
		n--
	}
	return n
}

// joinedHeads puts heads with commas together again.
func joinedHeads(parts []string, isHead func(string) bool) (heads []string) {
	for len(parts) > 0 {
		n := partsOfHead(parts, isHead)
		heads = append(heads, strings.Join(parts[:n], ","))
		parts = parts[n:]
	}
	return heads
}

// onlyCells parses HEAD=CELL and HEAD=CELL,HEAD=CELL: a comma belongs to the cell
// unless a head and an equals sign follow.
func onlyCells(texts []string, isHead func(string) bool) (only []calc.Pair) {
	for _, text := range texts {
		head, rest, _ := strings.Cut(text, "=")
		parts := strings.Split(rest, ",")
		only = append(only, calc.Pair{Name: head, Text: parts[0]})
		for _, part := range parts[1:] {
			if head, cell, ok := strings.Cut(part, "="); ok && isHead(head) {
				only = append(only, calc.Pair{Name: strings.TrimSpace(head), Text: cell})
			} else {
				only[len(only)-1].Text += "," + part
			}
		}
	}
	return only
}

// isHead returns a function that reports whether a text is a head of the table,
// with or without its unit.
func isHead(l *table.Layout) func(string) bool {
	return func(text string) bool {
		name := text
		if unit := strings.LastIndexByte(text, '['); unit > 0 && strings.HasSuffix(strings.TrimSpace(text), "]") {
			name = text[:unit]
		}
		return len(l.FindAll(text)) > 0 || len(l.FindAll(name)) > 0
	}
}

// maxLine is the longest line of JSON, in bytes.
const maxLine = 1 << 20

// flushed is input that flushes the answers to what came before, before it reads
// on.
type flushed struct {
	in  io.Reader
	out *bufio.Writer
}

func (f flushed) Read(p []byte) (int, error) {
	if err := f.out.Flush(); err != nil {
		return 0, err
	}
	return f.in.Read(p)
}

// lines answers one JSON object per line. No answer waits for the next question.
func lines(ctx context.Context, c calc.Calculation, given pairs, name string, in io.Reader, t *terminal) error {
	s := c.NewSheet()
	answerOf := func(line []byte) ([]byte, error) { return s.AnswerJSON(given, line) }
	if tool, ok := c.(*calc.Tool); ok {
		answerOf = func(line []byte) ([]byte, error) { return tool.AnswerJSON(given, line) }
	}
	r := bufio.NewReaderSize(flushed{in, t.out}, maxLine+len("\n"))
	bad := false
	for number := 1; ; number++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		line, problem, end := nextLine(r)
		if number == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff"))
		}
		answer := bytes.TrimSpace(line) // a blank line has no answer
		if len(answer) > 0 {
			answer, problem = answerOf(answer)
		}
		if problem != nil {
			answer, bad = calc.ErrorLineJSON(c.ID(), number, problem), true
		}
		if len(answer) > 0 {
			t.out.Write(answer)
			if err := t.out.WriteByte('\n'); err != nil {
				return err
			}
		}
		if end == nil {
			continue
		}
		if err := t.out.Flush(); err != nil {
			return err
		}
		switch {
		case end != io.EOF:
			return fmt.Errorf("%s:%d: %w", source(name), number, end)
		case bad:
			return errReported
		}
		return nil
	}
}

// nextLine reads a line, which is valid until the next call. A line that is too
// long is dropped, and problem says so. If no line follows, end says why.
func nextLine(r *bufio.Reader) (line []byte, problem, end error) {
	line, end = r.ReadSlice('\n')
	for errors.Is(end, bufio.ErrBufferFull) {
		problem = fmt.Errorf("more than %d bytes in a line, want fewer", maxLine)
		_, end = r.ReadSlice('\n')
	}
	if problem != nil {
		line = nil
	}
	return line, problem, end
}
