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
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/table"
)

// A summaryLine is built of cells with the delimiter and decimal sign of the
// table that is summarised.
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

// A Statement is what the rows of one group say of one result. Numbers are in
// Unit; what too few rows can't tell is nil.
type Statement struct {
	Key            []string // the cells that the rows share
	Name           string   // of the result
	Count, LeftOut int      // rows computed and not
	Mean           float64  // void where Count is 0
	Deviation      *float64 // standard deviation, n - 1
	Variation      *float64 // coefficient of variation, a fraction
	Lower, Upper   *float64 // of the confidence interval of the mean
	Unit           string
	Reported       string // the mean by the rule of the method; empty where there is none
	Rule           string
	Words          []string // of an output that is a word: how often each came, such as "3 pass"
}

// Statements lists what the groups say, at a confidence above 0.5 and below 1.
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

// statementsBy lists them for heads that name the cells of each group.
func (t *Totals) statementsBy(heads []string, confidence float64) ([]Statement, error) {
	for _, g := range t.Groups {
		if len(g.Key) != len(heads) {
			return nil, fmt.Errorf("batch: groups share %d cells and %d heads are named: want the heads by which the job that ran summed up", len(g.Key), len(heads))
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
		s.Variation = nil // a share of nothing: 10 degC is not half of 20 degC
	}
	s.Lower, s.Upper = in(m.Lower, plain), in(m.Upper, plain)
	if rule := r.Cell.Field.Report.For(s.Mean); !rule.IsZero() {
		s.Reported = string(rule.AppendComputed(nil, s.Mean))
	}
	return nil
}

// finest is the last digit of a coefficient of variation that is written. What lies
// below it is no spread of readings: computing 28 g/m² from 1.46 g less 1.18 g and from
// 1.47 g less 1.19 g leaves as much.
const finest = 1e-10

// settle makes a spread of nothing what it is.
func settle(m *result.Summary) {
	if m.StandardDeviation == nil || *m.StandardDeviation >= finest/2*math.Abs(m.Mean) {
		return
	}
	*m.StandardDeviation, *m.Lower, *m.Upper = 0, m.Mean, m.Mean
	if m.CoefficientOfVariation != nil {
		*m.CoefficientOfVariation = 0
	}
}

// percent writes a fraction without the last digits that a product leaves.
func percent(x float64) string { return paperprop.People(math.Round(x/finest) * (100 * finest)) }

// summaryHeads follow those of the groups.
var summaryHeads = [...]string{
	"result", "n", "left out", "mean", "s", "coefficient of variation [%]", "lower", "upper", "confidence [%]", "unit", "reported mean", "rule",
}

// WriteSummary writes a line for each group and output: how many rows, how many
// could not be computed, mean, s, coefficient of variation, confidence interval,
// and the mean as the method reports it. A cell that can't be filled is empty. By are
// the heads of the cells that the rows of a group share, as in the Job; the delimiter
// and the decimal sign are those of the table that was read.
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
