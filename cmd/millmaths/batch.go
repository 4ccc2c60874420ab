package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

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
	var given pairs
	flags := newFlags("batch " + c.ID())
	inputFlags(flags, c.Info(), &given)
	columns := flags.StringArray("column", nil, "INPUT=HEAD,...: where an input comes from, if its head has another name")
	lot := flags.String("lot", "", "HEAD: rows that share this cell make one list")
	by := flags.StringSlice("by", nil, "HEAD,...: summarise the rows that share these cells")
	confidence := flags.Float64("level", 95, "confidence of the summary in per cent")
	out := flags.String("out", "", "FILE: write the rows there, in place of standard output")
	full := flags.Bool("full", false, "unrounded results")
	decimal := flags.String("decimal", "", "point or comma: the decimal sign, where the file does not tell")
	delimiter := flags.String("delimiter", "", "comma, semicolon or tab, where the file does not tell")
	encoding := flags.String("encoding", "", "utf-8, utf-16le, utf-16be, windows-1252 or iso-8859-1")
	head := flags.Int("head", 0, "the line of the heads, where the file does not tell")
	jsonl := flags.Bool("jsonl", false, "a JSON object a line in and out")
	workers := flags.Int("workers", 0, "how many compute; the output is the same")
	quiet := flags.Bool("quiet", false, "do not say how the table was understood")
	help := flags.BoolP("help", "h", false, "this page")
	if err := parseFlags(flags, args[1:]); err != nil {
		return err
	}
	if *help {
		return batchHelp(t.out, c, flags)
	}
	if flags.NArg() > 1 {
		return usageError{fmt.Errorf("batch takes one table, not %d: %s", flags.NArg(), strings.Join(flags.Args(), ", "))}
	}
	name := "-"
	if flags.NArg() == 1 {
		name = flags.Arg(0)
	}
	in, err := openInput(name, t)
	if err != nil {
		return err
	}
	defer in.Close()
	if sameFile(name, *out) {
		return usageError{fmt.Errorf("--out %s is the table itself: what was measured is not written over", *out)}
	}
	if *jsonl {
		return lines(ctx, c, given, in, t)
	}
	job := &batch.Job{
		Calculation: c, Constants: given, Lot: *lot, By: *by, Full: *full, Workers: *workers,
		Options: table.Options{Name: name, Encoding: *encoding, Head: *head},
		Tell:    func(err error) { t.say("%v", err) },
	}
	if !*quiet {
		job.Understood = func(notes []string) {
			for _, n := range notes {
				t.say("%s: %s", name, n)
			}
		}
	}
	if job.Options.Decimal, err = oneOf("decimal", *decimal, map[string]byte{"point": '.', "comma": ',', ".": '.', ",": ','}); err != nil {
		return err
	}
	if job.Options.Delimiter, err = oneOf("delimiter", *delimiter, map[string]byte{"comma": ',', "semicolon": ';', "tab": '\t', ",": ',', ";": ';'}); err != nil {
		return err
	}
	if job.Columns, err = columnHeads(*columns); err != nil {
		return err
	}
	if *confidence <= 50 || *confidence >= 100 {
		return usageError{fmt.Errorf("--level is %v, want above 50 and below 100", *confidence)}
	}
	if *lot != "" && len(*by) > 0 {
		return usageError{errors.New("--lot makes one result a lot, --by summarises rows: use one of them")}
	}
	return runJob(ctx, job, in, *out, *confidence/100, t)
}

// runJob writes the rows, then the summary, and says what became of the rows.
func runJob(ctx context.Context, job *batch.Job, in io.Reader, file string, confidence float64, t *terminal) error {
	var totals batch.Totals
	work := func(out io.Writer) (err error) {
		totals, err = job.Run(ctx, in, out)
		return err
	}
	var err error
	if file != "" {
		err = writeFile(file, work)
	} else {
		err = work(t.out)
	}
	if err != nil {
		if totals.Rows > 0 {
			t.tellRows(job, &totals)
		}
		return err
	}
	if len(job.By) > 0 {
		if file == "" {
			fmt.Fprintln(t.out)
		}
		if err := totals.WriteSummary(t.out, job.By, confidence); err != nil {
			return err
		}
	}
	for _, line := range totals.Warnings() {
		t.say("warning: %s", line)
	}
	for _, text := range totals.Assumed {
		t.say("default in every row: %s", text)
	}
	t.tellCautions(job.Calculation.Info())
	t.tellRows(job, &totals)
	switch {
	case totals.Rows == 0:
		return fmt.Errorf("%s: no row under the heads", job.Options.Name)
	case totals.Failed > 0:
		return errReported
	}
	return nil
}

// tellRows says what became of the rows.
func (t *terminal) tellRows(job *batch.Job, totals *batch.Totals) {
	used, footers := "computed", ""
	if job.Lot != "" {
		used = "used in a lot"
	}
	if totals.Footers > 0 {
		footers = fmt.Sprintf(", %d of them footers", totals.Footers)
		t.say("footers, not counted: %s", strings.Join(totals.FooterLines, ", "))
	}
	t.say("%d rows = %d %s + %d reported%s", totals.Rows, totals.Computed, used, totals.Reported, footers)
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

// columnHeads reads INPUT=HEAD,HEAD and INPUT=HEAD,INPUT=HEAD: a part without a
// sign of equality is one more head of the input before it.
func columnHeads(texts []string) (map[string][]string, error) {
	columns := map[string][]string{}
	for _, text := range texts {
		input := ""
		for _, part := range strings.Split(text, ",") {
			head := part
			if name, rest, ok := strings.Cut(part, "="); ok {
				input, head = strings.TrimSpace(name), rest
			}
			if head = strings.TrimSpace(head); input == "" || head == "" {
				return nil, usageError{fmt.Errorf("--column %s, want INPUT=HEAD", text)}
			}
			columns[input] = append(columns[input], head)
		}
	}
	return columns, nil
}

func openInput(name string, t *terminal) (io.ReadCloser, error) {
	if name == "-" {
		return io.NopCloser(t.in), nil
	}
	return os.Open(name)
}

// sameFile says whether two names are one file.
func sameFile(a, b string) bool {
	x, err := os.Stat(a)
	if err != nil || b == "" {
		return false
	}
	y, err := os.Stat(b)
	return err == nil && os.SameFile(x, y)
}

// maxLine bounds a line of JSON.
const maxLine = 1 << 20

// lines answers one JSON object a line, each flushed before the next is read.
func lines(ctx context.Context, c calc.Calculation, given pairs, in io.Reader, t *terminal) error {
	if c.Info().Tool {
		return usageError{fmt.Errorf("%s is a tool and takes no JSON", c.ID())}
	}
	s := c.NewSheet()
	scanner := bufio.NewScanner(in)
	scanner.Buffer(nil, maxLine)
	bad := false
	for scanner.Scan() {
		if err := ctx.Err(); err != nil {
			return err
		}
		if len(strings.TrimSpace(scanner.Text())) == 0 {
			continue
		}
		answer, err := answerLine(s, given, scanner.Bytes())
		if err != nil {
			answer, bad = calc.ErrorJSON(c.ID(), err), true
		}
		if _, err := fmt.Fprintf(t.out, "%s\n", answer); err != nil {
			return fmt.Errorf("standard output: %w", err)
		}
		if err := t.out.Flush(); err != nil {
			return fmt.Errorf("standard output: %w", err)
		}
	}
	if err := scanner.Err(); err != nil {
		return fmt.Errorf("reading JSON lines (at most %d bytes each): %w", maxLine, err)
	}
	if bad {
		return errReported
	}
	return nil
}

func answerLine(s *calc.Sheet, given pairs, line []byte) ([]byte, error) {
	s.Reset()
	for _, p := range given {
		if err := s.Set(p.Name, p.Text); err != nil {
			return nil, err
		}
	}
	if err := s.SetJSON(line); err != nil {
		return nil, err
	}
	if err := s.Run(); err != nil {
		return nil, err
	}
	return s.MarshalJSON()
}
