package batch

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/wording"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/table"
)

// A summaryLine is built from cells, with the delimiter and decimal sign of the table
// that is summarised.
type summaryLine struct {
	text               []byte
	delimiter, decimal byte
}

func (l *summaryLine) cell(text string) {
	l.text = append(table.AppendCSV(l.text, l.delimiter, []byte(text)), l.delimiter)
}

func (l *summaryLine) number(text string) {
	l.cell(strings.ReplaceAll(text, ".", string(rune(l.decimal))))
}

func (l *summaryLine) end(b *bytes.Buffer) {
	l.text[len(l.text)-1] = '\n'
	b.Write(l.text)
	l.text = l.text[:0]
}

// A Statement is the summary of one result over the rows of one group. Numbers are in
// Unit; what too few rows cannot give is nil.
type Statement struct {
	Key            []string // cells that the rows share
	Name           string   // name of the result
	Count, LeftOut int      // numbers of rows computed and not computed
	Mean           float64  // meaningless if Count is 0
	Deviation      *float64 // standard deviation, divisor n - 1
	Variation      *float64 // coefficient of variation, a fraction
	Lower, Upper   *float64 // ends of the confidence interval of the mean
	Unit           string
	Reported       string // the mean rounded by the rule of the method; empty if there is none
	Rule           string
	Words          []string // for an output that is a word: how often each occurred, such as "3 pass"
}

// Statements returns the statements of all groups, for a confidence above 0.5 and below
// 1.
func (t *Totals) Statements(confidence float64) ([]Statement, error) {
	var out []Statement
	for _, g := range t.Groups {
		for _, r := range g.Results {
			if r.Count == 0 && (g.LeftOut == 0 || g.computed > 0) {
				continue // no row has this result, such as s of one reading
			}
			s := Statement{Key: g.Key, Name: r.Cell.Name, Count: r.Count, LeftOut: g.LeftOut}
			if r.Count > 0 {
				if err := s.state(r, confidence); err != nil {
					return nil, err
				}
			}
			out = append(out, s)
		}
	}
	return out, nil
}

// statementsBy is Statements with a check that heads names the cells of each group.
func (t *Totals) statementsBy(heads []string, confidence float64) ([]Statement, error) {
	for _, g := range t.Groups {
		if len(g.Key) != len(heads) {
			return nil, fmt.Errorf("batch: groups share %s and the number of heads named is %d: want the heads in By of the job that ran",
				wording.Count(len(g.Key), "cell"), len(heads))
		}
	}
	return t.Statements(confidence)
}

func (s *Statement) state(r Result, confidence float64) error {
	if r.Words != nil {
		for _, word := range r.Cell.Choices {
			if n := r.Words[word]; n > 0 {
				s.Words = append(s.Words, strconv.Itoa(n)+" "+word)
			}
		}
		return nil
	}
	m, err := r.Values.Summary(confidence)
	if err != nil {
		return err
	}
	settle(&m)
	u := r.unit
	in := func(x *float64, turn func(float64) float64) *float64 {
		if x == nil {
			return nil
		}
		y := turn(*x)
		return &y
	}
	plain := func(x float64) float64 { return r.Cell.In(x, u) }
	s.Mean, s.Unit, s.Rule = plain(m.Mean), u.String(), r.Cell.Field.Report.String()
	s.Deviation, s.Variation = in(m.StandardDeviation, r.Cell.Difference), m.CoefficientOfVariation
	if _, offset := u.SI(); offset != 0 {
		s.Variation = nil // a ratio needs a true zero: 10 degC is not half of 20 degC
	}
	s.Lower, s.Upper = in(m.Lower, plain), in(m.Upper, plain)
	if rule := r.Cell.Field.Report.For(s.Mean); !rule.IsZero() {
		s.Reported = string(rule.AppendComputed(nil, s.Mean))
	}
	return nil
}

// finest is the smallest coefficient of variation that counts as a spread of readings.
// Rounding alone can leave less: 28 g/m² computed from 1.46 g less 1.18 g and from 1.47
// g less 1.19 g.
const finest = 1e-10

// settle sets a spread that is only rounding to zero.
func settle(m *result.Summary) {
	if m.StandardDeviation == nil || *m.StandardDeviation >= finest/2*math.Abs(m.Mean) {
		return
	}
	*m.StandardDeviation, *m.Lower, *m.Upper = 0, m.Mean, m.Mean
	if m.CoefficientOfVariation != nil {
		*m.CoefficientOfVariation = 0
	}
}

// percent writes a fraction in percent, without the rounding of the multiplication.
func percent(x float64) string { return paperprop.People(math.Round(x/finest) * (100 * finest)) }

// summaryHeads follow the heads of the groups.
var summaryHeads = [...]string{
	"result", "n", "left out", "mean", "s", "coefficient of variation [%]", "lower", "upper", "confidence [%]", "unit", "reported mean", "rule",
}

// WriteSummary writes a line for each group and output: how many rows were computed and
// how many not, mean, s, coefficient of variation, confidence interval, and the mean as
// the method reports it. A value that cannot be given is an empty cell. By are the
// heads of the cells that the rows of a group share, as in the Job; delimiter and
// decimal sign are those of the table that was read.
func (t *Totals) WriteSummary(out io.Writer, by []string, confidence float64) error {
	statements, err := t.statementsBy(by, confidence)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	l := &summaryLine{delimiter: cmp.Or(t.delimiter, ','), decimal: cmp.Or(t.decimal, '.')}
	for _, head := range slices.Concat(by, summaryHeads[:]) {
		l.cell(head)
	}
	l.end(&b)
	for i := range statements {
		l.statement(&statements[i], confidence)
		l.end(&b)
	}
	return write(out, b.Bytes())
}

func (l *summaryLine) statement(s *Statement, confidence float64) {
	for _, key := range s.Key {
		l.cell(key)
	}
	l.cell(s.Name)
	l.cell(strconv.Itoa(s.Count))
	l.cell(strconv.Itoa(s.LeftOut))
	if s.Count == 0 {
		for range len(summaryHeads) - 3 {
			l.cell("")
		}
		return
	}
	if s.Words != nil {
		for range len(summaryHeads) - 5 {
			l.cell("")
		}
		l.cell(strings.Join(s.Words, ", "))
		l.cell("")
		return
	}
	l.number(paperprop.People(s.Mean))
	l.optional(s.Deviation, paperprop.People)
	l.optional(s.Variation, percent)
	l.optional(s.Lower, paperprop.People)
	l.optional(s.Upper, paperprop.People)
	level := ""
	if s.Lower != nil {
		level = percent(confidence)
	}
	l.number(level)
	l.cell(s.Unit)
	l.number(s.Reported)
	l.cell(s.Rule)
}

func (l *summaryLine) optional(x *float64, write func(float64) string) {
	if x == nil {
		l.cell("")
		return
	}
	l.number(write(*x))
}
