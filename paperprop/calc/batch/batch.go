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
// what holds for every row. A result has the name of the output, or "NAME of
// CALCULATION" where the table has that name already, and so has the remark.
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

// A Job is a calculation to be run on one table.
type Job struct {
	Calculation calc.Calculation
	Options     table.Options
	Columns     map[string][]string // input to heads, where their names differ; or one output, to solve each row for an input
	Constants   []calc.Pair         // inputs that hold for every row; an input that is "?" reads no column, and is solved for or computed
	Units       map[string]string   // output to unit, if not the usual one; a rule that rounds to a step of the usual unit does not apply then
	Lot         string              // head: rows with the same cell there make one list; "*": all rows do; at most 400,000 numbers in all
	By          []string            // heads: summarise rows with the same cells there; at most 40,000 results in all
	Together    bool                // summarise all rows together, if By is empty; or, with Lot, keep what became of the lots
	Only        []calc.Pair         // head and cell: rows with another cell there are skipped
	Full        bool                // do not round results
	NoFooters   bool                // treat rows that begin with mean, s, n ... as ordinary rows
	Workers     int                 // 0: one for each processor

	// Tell is called for each row that is not computed, in order, with a *RowError or a
	// *table.CellError, which give the place and the reason. Calls never overlap and end
	// before Run does, but may come from another goroutine than the caller's.
	Tell func(error)
	// Understood is called once, with notes on how the table was read.
	Understood func(notes []string)
}

// Totals count what became of the rows: Rows = Computed + Reported.
type Totals struct {
	Rows     int // data rows, complete or not, and footers
	Computed int // or used in a lot
	Reported int // Failed and Footers
	Failed   int
	Footers  int // mean, s or total by the file's writer: not used
	Others   int // rows that Only skips: not among Rows
	Lack     Lack

	FooterLines []string // places of the first footers: `line 18 "Mean"`
	Warned      map[string]int
	Texts       map[string]string // texts of the warnings, by code
	Groups      []Group           // groups of the summary, in order of first appearance
	Lots        []LotResult       // lots in order of first appearance, if Together keeps them
	Assumed     []string          // what held for every row: given values and defaults; in a summary also labels taken from cells

	delimiter, decimal byte // as written
	ofLots             bool // warnings count lots, not rows
}

// A Lack is what rows that [Job].Only skips have in place of a cell that it asks for. Where
// there is no other row, it says why.
type Lack struct {
	Only  int      // its index: no row that has the cells before it has its cell
	Cells []string // under its head, each once, the first hundred
}

const mostLacked = 100

// add adds a cell. Cells before one that some row has are of no use.
func (l *Lack) add(only int, cell []byte) {
	if only > l.Only {
		*l = Lack{Only: only}
	}
	if only < l.Only || len(l.Cells) == mostLacked {
		return
	}
	for _, c := range slices.Backward(l.Cells) { // most are like the one before
		if c == string(cell) {
			return
		}
	}
	l.Cells = append(l.Cells, string(cell))
}

// A column says where the value of an input comes from.
type column struct {
	at   []int // columns of the table; several make a list
	cell int   // index among the sheet's inputs, followed by its outputs
	unit paperprop.Unit
	pure bool // the column has a unit, or needs none
	list bool // the input is a list

	named string // unit as the file writes it, or as the caller does for a column without one

	// scale converts a number of the column to what the cell takes; a Value takes it as
	// written.
	scale paperprop.Unit
}

// A plan is a job bound to the heads of one table.
type plan struct {
	*Job
	layout    *table.Layout
	taken     map[string]bool // heads, in plain letters
	columns   []column
	by        []int
	only      []only
	grouped   bool
	labels    []labelColumn // for a summary
	sought    int           // index of the input to solve for; below zero: none
	lot       int           // column of the lots; wholeTable: all rows are one lot
	assumed   []string
	decimal   byte // of numbers read and written
	delimiter byte // between written cells
}

var (
	errNoCalculation  = errors.New("batch: a job without a calculation")
	errColumnAndValue = errors.New("given as a column and as a value")
)

// An only is a cell that a row must have to be computed.
type only struct {
	at   int
	text string
}

// wholeTable stands for a lot of all rows.
const wholeTable = -1

// Run reads the table, computes its rows and writes the results. It returns an error
// only if the work had to stop; rows that could not be computed are reported to Tell
// and counted.
func (j *Job) Run(ctx context.Context, in io.Reader, out io.Writer) (Totals, error) {
	r, err := j.Open(in)
	if err != nil {
		return Totals{}, err
	}
	return j.RunTable(ctx, r, out)
}

// RunTable is [Job.Run] on a table opened by [Job.Open]. The caller may have filled in
// Columns, By, Lot and Only from its heads.
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

// Open finds out how a table is written, as Run does, expecting the names of the inputs
// and the heads of Columns among its heads. Its errors are those of package table.
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

// Sheet returns a new sheet as each worker uses it: with the constants set, and outputs
// printed in the units of the job, by the rules that apply to those.
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

// setUnits sets the units of the outputs. An input is not printed: its cell is written
// as it was read.
func (j *Job) setUnits(s *calc.Sheet) error {
	for _, name := range slices.Sorted(maps.Keys(j.Units)) {
		_, isInput := s.Input(name)
		_, isOutput := s.Output(name)
		outputs := names(s.Out)
		switch {
		case isInput && slices.ContainsFunc(s.Out, j.gives): // the input may be solved for
		case isInput && !isOutput:
			return &calc.InputError{Input: name, Text: j.Units[name],
				Err: errors.New("an input stays in its unit, want an output: " + strings.Join(outputs, ", "))}
		case !isOutput:
			return &calc.NameError{Calculation: j.Calculation.ID(), Name: name, Near: calc.Nearest(name, outputs), All: outputs}
		}
		if err := s.PrintIn(name, j.Units[name]); err != nil {
			return err
		}
	}
	return nil
}

// gives reports whether an output is given, as a constant or by a column.
func (j *Job) gives(c *calc.Cell) bool {
	_, named := j.Columns[c.Name]
	return named || c.Given()
}

// plan binds inputs to columns and returns notes on how.
func (j *Job) plan(l *table.Layout) (*plan, []string, error) {
	s, err := j.Sheet()
	if err != nil {
		return nil, nil, err
	}
	p := &plan{Job: j, layout: l, taken: map[string]bool{}, decimal: cmp.Or(l.Decimal, '.'), delimiter: cmp.Or(l.Delimiter, ',')}
	for _, c := range l.Columns {
		p.taken[plain(c.Head)] = true
	}
	var notes []string
	if err := j.checkColumns(s); err != nil {
		return nil, nil, err
	}
	for i, c := range bindable(s) {
		if _, named := j.Columns[c.Name]; i >= len(s.In) && !named {
			continue // a column gives an output only if the job says so
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
	notes = append(append(notes, p.crowded(s)...), p.unread()...)
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

// bindable returns the cells that columns may give. A name that is both output and
// input appears once.
func bindable(s *calc.Sheet) []*calc.Cell {
	return append(slices.Clone(s.In), slices.DeleteFunc(slices.Clone(s.Out), func(c *calc.Cell) bool {
		_, both := s.Input(c.Name)
		return both
	})...)
}

// checkColumns refuses names that are neither input nor output, and more than one
// output, since a row is solved from one.
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
			all := names(bindable(s))
			return &calc.NameError{Calculation: j.Calculation.ID(), Name: name, Near: calc.Nearest(name, all), All: all}
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

// findWithUnit finds the column for a head such as "force [N]", in which the caller
// gives the unit of a column that has none in the file.
// The caller's unit also replaces one that the input does not take.
func (p *plan) findWithUnit(c *calc.Cell, head string) (at int, unit string, err error) {
	if at, err = p.find("Columns", c.Name, head); err == nil {
		return at, "", nil
	}
	name, rest, ok := strings.Cut(head, "[")
	if !ok || !strings.HasSuffix(rest, "]") {
		return 0, "", err
	}
	if at, err = p.find("Columns", c.Name, strings.TrimSpace(name)); err != nil {
		return 0, "", err
	}
	unit = strings.TrimSuffix(rest, "]")
	if own := p.layout.Columns[at].Unit; takes(c, own) && !table.SameUnit(own, unit) {
		return 0, "", p.inHead(at, &calc.InputError{Input: c.Name, Text: head,
			Err: fmt.Errorf("column %q is in %s, not in %s", p.layout.Columns[at].Head, own, unit)})
	}
	return at, unit, nil
}

// takes reports whether a text is a unit of a cell.
func takes(c *calc.Cell, unit string) bool {
	if unit == "" {
		return false
	}
	var err error
	if c.Kind == nil {
		_, err = paperprop.ParseUnit(unit)
	} else {
		_, err = c.Kind.Unit(unit)
	}
	return err == nil
}

// find returns the column with a head that a field of the job names; input is set for
// Columns.
func (p *plan) find(field, input, head string) (int, error) {
	if at, ok := p.layout.Find(head); ok {
		return at, nil
	}
	return 0, p.headError(field, input, head)
}

func (p *plan) headError(field, input, head string) *HeadError {
	all := p.layout.FindAll(head)
	e := &HeadError{File: p.layout.Name, Field: field, Input: input, Head: head, Count: len(all), Heads: heads(p.layout)}
	for _, at := range all {
		e.Alike = append(e.Alike, withUnit(p.layout.Columns[at]))
	}
	e.Above = max(0, p.layout.HeadLine-1)
	if len(all) < 2 || len(slices.Compact(slices.Sorted(slices.Values(e.Alike)))) < len(all) {
		e.Alike = nil
	}
	return e
}

// bind finds the column of an input, by the caller's head or by the input's name.
func (p *plan) bind(i int, c *calc.Cell) (*column, string, error) {
	col := &column{cell: i, list: c.Shape == calc.List}
	names, asked := p.Columns[c.Name]
	switch {
	case asked && givenToAll(c):
		return nil, "", &calc.InputError{Input: c.Name, Text: c.AsWritten(), Err: errColumnAndValue}
	case asked:
		for _, head := range names {
			at, unit, err := p.findWithUnit(c, head)
			if err != nil {
				return nil, "", err
			}
			if unit != "" && col.named != "" && !table.SameUnit(unit, col.named) {
				return nil, "", &calc.InputError{Input: c.Name, Text: head, Err: fmt.Errorf("another unit than %s before it", col.named)}
			}
			col.at, col.named = append(col.at, at), cmp.Or(unit, col.named)
		}
	case givenToAll(c):
		return nil, "", nil
	default:
		col.at = p.layout.FindAll(c.Name)
		if c.Shape != calc.List && len(col.at) > 1 {
			return nil, "", p.headError("", c.Name, c.Name)
		}
	}
	if len(col.at) == 0 {
		return nil, "", nil
	}
	if len(col.at) > 1 && c.Shape != calc.List {
		return nil, "", &calc.InputError{Input: c.Name, Text: strings.Join(names, ", "), Err: fmt.Errorf("takes one column, not %d", len(col.at))}
	}
	note, err := p.bindUnit(col, c)
	if err == nil && c.Shape == calc.List && len(col.at) == 1 && p.Lot == "" {
		note += ": a list in each cell, as no lot joins rows"
	}
	return col, note, err
}

// columnFor returns the i-th column of an input with its own unit, or that of the caller
// if the input does not take its own.
func (p *plan) columnFor(col *column, c *calc.Cell, i int) table.Column {
	column := p.layout.Columns[col.at[i]]
	if col.named != "" && !takes(c, column.Unit) {
		column.Unit = col.named
	}
	return column
}

// bindUnit sets the unit of the column, if it has one.
func (p *plan) bindUnit(col *column, c *calc.Cell) (string, error) {
	first := p.columnFor(col, c, 0)
	for i := range col.at[1:] {
		if other := p.columnFor(col, c, i+1); !table.SameUnit(other.Unit, first.Unit) {
			return "", p.inHead(col.at[i+1], &calc.InputError{Input: c.Name, Text: other.Head,
				Err: fmt.Errorf("columns %q and %q have the units %q and %q", first.Head, other.Head, first.Unit, other.Unit)})
		}
	}
	col.named = first.Unit
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
		} else if name, unit := looseUnit(first.Head); unit != "" {
			note += fmt.Sprintf(", without a unit: one after a name needs brackets, %q", name+" ["+unit+"]")
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
		return "", p.inHead(col.at[0], &calc.InputError{Input: c.Name, Text: first.Head, Err: fmt.Errorf("column %q: %w", first.Head, err)})
	}
	if c.Kind != nil {
		col.scale = col.unit
	}
	if col.hasUnit() {
		note += " in " + col.unit.String()
	}
	return note, nil
}

// inHead adds the place of a head to an error about its column.
func (p *plan) inHead(at int, err error) error {
	return &RowError{File: p.layout.Name, Line: p.layout.HeadLine, Column: at + 1, Err: err}
}

// footer counts a footer and keeps the place of the first ones, in case a specimen is
// called "Mean".
func (t *Totals) footer(rec *table.Record) {
	t.Rows++
	t.Reported++
	t.Footers++
	if len(t.FooterLines) < mostFooterLines {
		t.FooterLines = append(t.FooterLines, fmt.Sprintf("line %d %q", rec.Line, rec.Label()))
	}
}

const mostFooterLines = 6

// Add adds the counts of o, but not its Groups, Lots and Assumed.
func (t *Totals) Add(o *Totals) {
	t.Rows += o.Rows
	t.Computed += o.Computed
	t.Reported += o.Reported
	t.Failed += o.Failed
	t.Footers += o.Footers
	t.Others += o.Others
	for _, cell := range o.Lack.Cells {
		t.Lack.add(o.Lack.Only, []byte(cell))
	}
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

// Warnings returns a line for each kind of warning, in order of the code.
func (t *Totals) Warnings() []string {
	var lines []string
	for code, n := range t.Warned {
		what := "row"
		if t.ofLots && code != RowUnnamed {
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
