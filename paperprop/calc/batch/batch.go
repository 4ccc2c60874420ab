// Package batch runs a calculation over the rows of a table: one column per
// input, one row out for each row in:
//
//	tensile, _ := catalogue.Find("tensile")
//	job := batch.Job{Calculation: tensile, Tell: func(err error) { log.Print(err) }}
//	job.Options.Name = "lab.csv"
//	totals, err := job.Run(ctx, file, os.Stdout)
//
// The table is cut into blocks of rows; each worker reads a block, computes it
// on a sheet of its own, and writes it when its turn comes, so any number of
// workers writes the same bytes.
//
// Columns bind to inputs by their heads, with the unit in the head ("force [N]"), in
// a row of units, or in the cell. Columns names those with other heads, Constants
// what holds for every row.
//
// # What people get wrong
//
// An error from Run means that the work ended. Rows that could not be computed are no
// error: they keep their place in the output with a remark, Tell hears of each, and
// Totals counts them. A program that checks only the error misses them.
//
// Results are rounded as their test method asks. Set Full where a program computes
// further with them.
//
// The mean of the rows' results is not the result of the rows' mean: By summarises
// results; Lot makes one list of the rows that share a cell, and computes once.
//
// Cobb values at 60 s and at 45 s have no common mean. By summarises what it is asked
// to; where an input that belongs to the result differs within a group, Totals warns.
package batch

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"runtime"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// A Job is one table and what to do with it.
type Job struct {
	Calculation calc.Calculation
	Options     table.Options
	Columns     map[string][]string // input to heads, where they are not called the same; an output too, to solve each row for an input
	Constants   []calc.Pair         // inputs that hold for every row
	Units       map[string]string   // output to unit, where it is not the usual one; a rule that rounds to a step of that does not hold then
	Lot         string              // head: rows that share its cell make one list; "*": all rows do; at most 400,000 numbers in all
	By          []string            // heads: summarise rows that share their cells; at most 40,000 results in all
	Together    bool                // summarise all rows together, where By names no head
	Only        []calc.Pair         // head and cell: rows with another cell there are passed over
	Full        bool                // unrounded results
	NoFooters   bool                // rows that begin with mean, s, n ... are rows like the others
	Workers     int                 // 0: as many as there are processors

	// Tell hears of each row that is not computed, in order, and why: a
	// *RowError or a *table.CellError, which have the place.
	Tell func(error)
	// Understood hears once how the table was read.
	Understood func(notes []string)
}

// Totals say what became of the rows: Rows = Computed + Reported.
type Totals struct {
	Rows     int // of data, whole or not, and footers
	Computed int // or used in a lot
	Reported int // Failed and Footers
	Failed   int
	Footers  int // the writer's own mean, s, total: not counted
	Others   int // rows that Only passes over: not among Rows

	FooterLines []string // where the first of them stand: `line 18 "Mean"`
	Warned      map[string]int
	Texts       map[string]string // of the warnings, by code
	Groups      []Group           // of the summary, in order of first appearance
	Assumed     []string          // what held for every row: given values and defaults; of a summary the labels too that cells gave

	delimiter, decimal byte // of what is written
	ofLots             bool // what was warned of are lots, not rows
}

// A column says where an input comes from.
type column struct {
	at   []int // of the table; several make a list
	cell int   // of the sheet's inputs, and of its outputs after them
	unit paperprop.Unit
	pure bool // the column has a unit, or needs none
	list bool // the input is one

	named string // the unit that the caller gave to a column without one

	// scale turns a number of the column into what the cell takes: a Value
	// takes it as written.
	scale paperprop.Unit
}

// A plan is a job bound to the heads of one table.
type plan struct {
	*Job
	layout    *table.Layout
	columns   []column
	by        []int
	only      []only
	grouped   bool
	labels    []labelColumn // of a summary
	sought    int           // the input that is solved for; below zero: none
	lot       int           // wholeTable: all rows are one
	assumed   []string
	decimal   byte // of numbers in and out
	delimiter byte // between cells out
}

var (
	errNoCalculation  = errors.New("batch: a job without a calculation")
	errColumnAndValue = errors.New("given as a column and as a value")
)

// An only is a cell that a row must have.
type only struct {
	at   int
	text string
}

// wholeTable is the lot of all rows.
const wholeTable = -2

// Run reads the table, computes and writes. An error is one that ended the
// work; rows that could not be computed are told and counted.
func (j *Job) Run(ctx context.Context, in io.Reader, out io.Writer) (Totals, error) {
	r, err := j.Open(in)
	if err != nil {
		return Totals{}, err
	}
	return j.RunTable(ctx, r, out)
}

// RunTable is Run on a table that Open has opened. Who has seen its heads by then may
// have filled in Columns, By, Lot and Only by them.
func (j *Job) RunTable(ctx context.Context, r *table.Reader, out io.Writer) (Totals, error) {
	p, notes, err := j.plan(r.Layout())
	if j.Understood != nil {
		j.Understood(append(r.Layout().Reading(), notes...))
	}
	if err != nil {
		return Totals{}, err
	}
	run := p.runRows
	if j.Lot != "" {
		run = p.runLots
	}
	totals, err := run(ctx, r, out)
	totals.Assumed, totals.delimiter, totals.decimal = p.assumed, p.delimiter, p.decimal
	if err == nil {
		p.sayLabels(&totals)
		p.sayUnnamed(&totals)
	}
	return totals, err
}

// Open finds out how a table is written, as Run does: the names of the inputs and the
// heads of Columns are hoped for among the heads. The error is one of package table.
func (j *Job) Open(in io.Reader) (*table.Reader, error) {
	if j.Calculation == nil {
		return nil, errNoCalculation
	}
	o := j.Options
	if o.Heads == nil {
		for _, f := range j.Calculation.Info().In {
			o.Heads = append(o.Heads, f.Name)
		}
		for _, name := range slices.Sorted(maps.Keys(j.Columns)) {
			o.Heads = append(o.Heads, j.Columns[name]...)
		}
	}
	return table.Open(in, o)
}

func (j *Job) workers() int {
	if j.Workers > 0 {
		return j.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// Sheet is a new sheet as each worker has one: it holds the constants, and its
// outputs are printed in the units that the job asks for, with the rules that hold
// for those.
func (j *Job) Sheet() (*calc.Sheet, error) {
	if j.Calculation == nil {
		return nil, errNoCalculation
	}
	if j.Calculation.Info().Tool {
		return nil, fmt.Errorf("%s is a tool and takes no table", j.Calculation.ID())
	}
	s := j.Calculation.NewSheet()
	for i, p := range j.Constants {
		same := func(before calc.Pair) bool { return before.Name == p.Name }
		if first := slices.IndexFunc(j.Constants[:i], same); first >= 0 {
			return nil, &calc.InputError{Input: p.Name, Text: p.Text, Err: fmt.Errorf("given already for every row, as %q", j.Constants[first].Text)}
		}
		if err := s.Set(p.Name, p.Text); err != nil {
			return nil, err
		}
	}
	return s, j.setUnits(s)
}

// setUnits prints outputs in other units. An input is not printed: its cell stands
// in the row as it was read.
func (j *Job) setUnits(s *calc.Sheet) error {
	for _, name := range slices.Sorted(maps.Keys(j.Units)) {
		_, isInput := s.Input(name)
		_, isOutput := s.Output(name)
		outputs := names(s.Out)
		switch {
		case isInput && slices.ContainsFunc(s.Out, j.gives): // it may be solved for
		case isInput && !isOutput:
			return &calc.InputError{Input: name, Text: j.Units[name],
				Err: errors.New("an input stays in its unit, want an output: " + strings.Join(outputs, ", "))}
		case !isOutput:
			return &calc.NameError{Calculation: j.Calculation.ID(), Name: name, Near: calc.Nearest(name, outputs)}
		}
		if err := s.PrintIn(name, j.Units[name]); err != nil {
			return err
		}
	}
	return nil
}

// gives tells whether an output is given, for every row or in a column.
func (j *Job) gives(c *calc.Cell) bool {
	_, named := j.Columns[c.Name]
	return named || c.Given()
}

// plan binds inputs to columns and says how.
func (j *Job) plan(l *table.Layout) (*plan, []string, error) {
	s, err := j.Sheet()
	if err != nil {
		return nil, nil, err
	}
	p := &plan{Job: j, layout: l, lot: -1, decimal: cmp.Or(l.Decimal, '.'), delimiter: cmp.Or(l.Delimiter, ',')}
	var notes []string
	if err := j.checkColumns(s); err != nil {
		return nil, nil, err
	}
	for i, c := range bindable(s) {
		if _, named := j.Columns[c.Name]; i >= len(s.In) && !named {
			continue // an output is only what the job says is one
		}
		col, note, err := p.bind(i, c)
		if err != nil {
			return nil, notes, err
		}
		if col != nil {
			p.columns = append(p.columns, *col)
			notes = append(notes, note)
		}
	}
	if len(p.columns) == 0 {
		return nil, notes, p.noColumn(s)
	}
	assumed, err := p.unbound(s)
	if err != nil {
		return nil, notes, err
	}
	p.assumed = append(p.given(s), assumed...)
	if p.sought, err = p.unknown(s); err != nil {
		return nil, notes, err
	}
	if p.target(s) != nil {
		notes = append(notes, "solved for in each row: "+s.In[p.sought].Name)
	}
	notes = append(notes, p.unread()...)
	for _, head := range j.By {
		at, err := p.find("By", "", head)
		if err != nil {
			return nil, notes, err
		}
		p.by = append(p.by, at)
	}
	if p.grouped = len(j.By) > 0 || j.Together; p.grouped {
		p.findLabels(s)
	}
	for _, o := range j.Only {
		at, err := p.find("Only", "", o.Name)
		if err != nil {
			return nil, notes, err
		}
		p.only = append(p.only, only{at, o.Text})
	}
	switch {
	case j.Lot == "*":
		p.lot = wholeTable
	case j.Lot != "":
		if p.lot, err = p.find("Lot", "", j.Lot); err != nil {
			return nil, notes, err
		}
	}
	return p, notes, nil
}

// bindable are the cells that columns may give. An output that is an input too is not
// among them twice.
func bindable(s *calc.Sheet) []*calc.Cell {
	return append(slices.Clone(s.In), slices.DeleteFunc(slices.Clone(s.Out), func(c *calc.Cell) bool {
		_, both := s.Input(c.Name)
		return both
	})...)
}

// checkColumns refuses names that are no input or output, and more outputs than the
// one that a row can be solved from.
func (j *Job) checkColumns(s *calc.Sheet) error {
	target := ""
	if given := slices.IndexFunc(s.Out, (*calc.Cell).Given); given >= 0 {
		target = s.Out[given].Name
	}
	for _, name := range slices.Sorted(maps.Keys(j.Columns)) {
		if _, ok := s.Input(name); ok {
			continue
		}
		c, ok := s.Output(name)
		heads := strings.Join(j.Columns[name], ", ")
		switch {
		case !ok:
			return &calc.NameError{Calculation: j.Calculation.ID(), Name: name, Near: calc.Nearest(name, names(bindable(s)))}
		case c.Shape != calc.One:
			return &calc.InputError{Input: name, Text: heads, Err: errors.New("is an output that is not one number: nothing can be solved from it")}
		case c.Given():
			return &calc.InputError{Input: name, Text: c.AsWritten(), Err: errColumnAndValue}
		case j.Lot != "":
			return &calc.InputError{Input: name, Text: heads, Err: errors.New("is an output: a lot is not solved for an input")}
		case target != "":
			return &calc.InputError{Input: name, Text: heads, Err: fmt.Errorf("is an output, and so is %s: a row is solved from one", target)}
		}
		target = name
	}
	return nil
}

func heads(l *table.Layout) []string {
	var names []string
	for _, c := range l.Columns {
		names = append(names, c.Head)
	}
	return names
}

func names(cells []*calc.Cell) []string {
	var names []string
	for _, c := range cells {
		names = append(names, c.Name)
	}
	return names
}

// findWithUnit finds the column of "force [N]", which says the unit of a column
// that has none in the file.
func (p *plan) findWithUnit(input, head string) (at int, unit string, err error) {
	if at, err = p.find("Columns", input, head); err == nil {
		return at, "", nil
	}
	name, rest, ok := strings.Cut(head, "[")
	if !ok || !strings.HasSuffix(rest, "]") {
		return 0, "", err
	}
	if at, err = p.find("Columns", input, strings.TrimSpace(name)); err != nil {
		return 0, "", err
	}
	unit = strings.TrimSuffix(rest, "]")
	if own := p.layout.Columns[at].Unit; own != "" && !table.SameUnit(own, unit) {
		return 0, "", &calc.InputError{Input: input, Text: head,
			Err: fmt.Errorf("column %q is in %s, not in %s", p.layout.Columns[at].Head, own, unit)}
	}
	return at, unit, nil
}

// find finds the column of a head that a field of the job names, of Columns for an
// input.
func (p *plan) find(field, input, head string) (int, error) {
	if at, ok := p.layout.Find(head); ok {
		return at, nil
	}
	return 0, &HeadError{File: p.layout.Name, Field: field, Input: input, Head: head, Count: len(p.layout.FindAll(head)), Heads: heads(p.layout)}
}

// bind finds the column of an input: named by the caller, else by its head.
func (p *plan) bind(i int, c *calc.Cell) (*column, string, error) {
	col := &column{cell: i, list: c.Shape == calc.List}
	names, asked := p.Columns[c.Name]
	switch {
	case asked && c.Given():
		return nil, "", &calc.InputError{Input: c.Name, Text: c.AsWritten(), Err: errColumnAndValue}
	case asked:
		for _, head := range names {
			at, unit, err := p.findWithUnit(c.Name, head)
			if err != nil {
				return nil, "", err
			}
			col.at, col.named = append(col.at, at), cmp.Or(unit, col.named)
		}
	case c.Given():
		return nil, "", nil
	default:
		col.at = p.layout.FindAll(c.Name)
		if c.Shape != calc.List && len(col.at) > 1 {
			return nil, "", &HeadError{File: p.layout.Name, Input: c.Name, Head: c.Name, Count: len(col.at), Heads: heads(p.layout)}
		}
	}
	if len(col.at) == 0 {
		return nil, "", nil
	}
	if len(col.at) > 1 && c.Shape != calc.List {
		return nil, "", &calc.InputError{Input: c.Name, Text: strings.Join(names, ", "), Err: fmt.Errorf("takes one column, not %d", len(col.at))}
	}
	note, err := p.bindUnit(col, c)
	return col, note, err
}

// bindUnit takes the unit of the column, where it has one.
func (p *plan) bindUnit(col *column, c *calc.Cell) (string, error) {
	first := p.layout.Columns[col.at[0]]
	if first.Unit == "" {
		first.Unit = col.named
	}
	for _, at := range col.at[1:] {
		if other := p.layout.Columns[at]; !table.SameUnit(cmp.Or(other.Unit, col.named), first.Unit) {
			return "", &calc.InputError{Input: c.Name, Text: other.Head,
				Err: fmt.Errorf("columns %q and %q have the units %q and %q", first.Head, other.Head, first.Unit, other.Unit)}
		}
	}
	var places []string
	for _, at := range col.at {
		places = append(places, fmt.Sprintf("%d (%s)", at+1, p.layout.Columns[at].Head))
	}
	note := fmt.Sprintf("%s: column %s", c.Name, strings.Join(places, ", "))
	if c.Shape == calc.Word {
		return note, nil
	}
	var err error
	switch {
	case c.Kind == nil:
		if first.Unit != "" {
			col.unit, err = paperprop.ParseUnit(first.Unit)
		}
		col.pure = true
	default:
		col.unit, err = c.Kind.Unit(first.Unit)
		if missing := (*paperprop.UnitError)(nil); errors.As(err, &missing) && missing.Fault == paperprop.MissingUnit {
			return note + ", unit in each cell", nil // cells must bring their own
		}
		col.pure = true
	}
	if err != nil {
		return "", &calc.InputError{Input: c.Name, Text: first.Head, Err: fmt.Errorf("column %q: %w", first.Head, err)}
	}
	if c.Kind != nil {
		col.scale = col.unit
	}
	if col.hasUnit() {
		note += " in " + col.unit.String()
	}
	return note, nil
}

// footer counts a row that is the writer's own. Should a test piece be called
// "Mean", somebody has to see it: the first ones are kept.
func (t *Totals) footer(rec *table.Record) {
	t.Rows++
	t.Reported++
	t.Footers++
	if len(t.FooterLines) < mostFooterLines {
		t.FooterLines = append(t.FooterLines, fmt.Sprintf("line %d %q", rec.Line, rec.Label()))
	}
}

const mostFooterLines = 6

// Add counts what o counted too, but for Groups and Assumed.
func (t *Totals) Add(o *Totals) {
	t.Rows += o.Rows
	t.Computed += o.Computed
	t.Reported += o.Reported
	t.Failed += o.Failed
	t.Footers += o.Footers
	t.Others += o.Others
	t.FooterLines = append(t.FooterLines, o.FooterLines[:min(len(o.FooterLines), max(0, mostFooterLines-len(t.FooterLines)))]...)
	for code, n := range o.Warned {
		t.warn(code, o.Texts[code], n)
	}
}

func (t *Totals) warn(code, text string, rows int) {
	if t.Warned == nil {
		t.Warned = map[string]int{}
	}
	if t.Texts == nil {
		t.Texts = map[string]string{}
	}
	t.Warned[code] += rows
	t.Texts[code] = text
}

// Warnings lists what was warned of, in order of the code.
func (t *Totals) Warnings() []string {
	var lines []string
	for code, n := range t.Warned {
		what := "row"
		if t.ofLots {
			what = "lot"
		}
		if n != 1 {
			what += "s"
		}
		lines = append(lines, fmt.Sprintf("%d %s: %s: %s", n, what, code, t.Texts[code]))
	}
	slices.Sort(lines)
	return lines
}
