// Package batch runs a calculation over the rows of a table, a column an
// input, one row out for each row in.
//
// The table is cut into blocks of rows; workers compute blocks, each on a
// sheet of its own, and the results are put back in order, so that any number
// of workers writes the same bytes.
package batch

import (
	"context"
	"errors"
	"fmt"
	"io"
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
	Columns     map[string][]string // input to heads, where they are not called the same
	Constants   []calc.Pair         // inputs that hold for every row
	Units       map[string]string   // output to unit, where it is not the usual one
	Lot         string              // head: rows that share its cell make one list
	By          []string            // heads: summarise rows that share their cells
	Full        bool                // unrounded results
	Workers     int                 // 0: as many as there are processors

	// Tell hears of each row that is not computed, in order, and why.
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
	Warned   map[string]int
	Texts    map[string]string // of the warnings, by code
	Groups   []Group           // of the summary, in order of first appearance
}

// A column says where an input comes from.
type column struct {
	at   []int // of the table; several make a list
	cell int   // of the sheet's inputs
	unit paperprop.Unit
	pure bool // no unit is needed
}

// A plan is a job bound to the heads of one table.
type plan struct {
	*Job
	layout  *table.Layout
	columns []column
	outputs []int // of the sheet
	by      []int
	lot     int
	decimal byte // of the results
	quote   bool // numbers need quotes: comma within commas
}

// Run reads the table, computes and writes. An error is one that ended the
// work; rows that could not be computed are told and counted.
func (j *Job) Run(ctx context.Context, in io.Reader, out io.Writer) (Totals, error) {
	o := j.Options
	if o.Heads == nil {
		for _, f := range j.Calculation.Info().In {
			o.Heads = append(o.Heads, f.Name)
		}
	}
	r, err := table.Open(in, o)
	if err != nil {
		return Totals{}, err
	}
	p, notes, err := j.plan(r.Layout())
	if j.Understood != nil {
		j.Understood(append(r.Layout().Notes(), notes...))
	}
	if err != nil {
		return Totals{}, err
	}
	if j.Lot != "" {
		return p.runLots(ctx, r, out)
	}
	return p.runRows(ctx, r, out)
}

func (j *Job) workers() int {
	if j.Workers > 0 {
		return j.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// sheet is a new sheet with the constants.
func (j *Job) sheet() (*calc.Sheet, error) {
	s := j.Calculation.NewSheet()
	if s == nil {
		return nil, fmt.Errorf("%s is a tool and takes no table", j.Calculation.ID())
	}
	for _, p := range j.Constants {
		if err := s.Set(p.Name, p.Text); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// plan binds inputs to columns and says how.
func (j *Job) plan(l *table.Layout) (*plan, []string, error) {
	s, err := j.sheet()
	if err != nil {
		return nil, nil, err
	}
	p := &plan{Job: j, layout: l, lot: -1, decimal: l.Decimal}
	if p.decimal == 0 {
		p.decimal = '.'
	}
	p.quote = p.decimal == l.Delimiter
	var notes []string
	for name := range j.Columns {
		if _, ok := s.Input(name); !ok {
			return nil, nil, &calc.NameError{Calculation: j.Calculation.ID(), Name: name, Near: calc.Nearest(name, inputNames(s))}
		}
	}
	for i, c := range s.In {
		col, note, err := p.bind(s, i, c)
		if err != nil {
			return nil, notes, err
		}
		if col != nil {
			p.columns = append(p.columns, *col)
			notes = append(notes, note)
		}
	}
	if len(p.columns) == 0 {
		return nil, notes, fmt.Errorf("%s: no column is called as an input of %s: heads are %s, inputs are %s; name one with --column INPUT=HEAD",
			l.Name, j.Calculation.ID(), strings.Join(heads(l), ", "), strings.Join(inputNames(s), ", "))
	}
	for i := range s.Out {
		p.outputs = append(p.outputs, i)
	}
	for _, head := range j.By {
		at, err := p.find(head)
		if err != nil {
			return nil, notes, fmt.Errorf("--by: %w", err)
		}
		p.by = append(p.by, at)
	}
	if j.Lot != "" {
		if p.lot, err = p.find(j.Lot); err != nil {
			return nil, notes, fmt.Errorf("--lot: %w", err)
		}
	}
	return p, notes, nil
}

func heads(l *table.Layout) []string {
	var names []string
	for _, c := range l.Columns {
		names = append(names, c.Head)
	}
	return names
}

func inputNames(s *calc.Sheet) []string {
	var names []string
	for _, c := range s.In {
		names = append(names, c.Name)
	}
	return names
}

func (p *plan) find(head string) (int, error) {
	if at, ok := p.layout.Find(head); ok {
		return at, nil
	}
	if len(p.layout.FindAll(head)) > 1 {
		return 0, fmt.Errorf("%s: %d columns have the head %q", p.layout.Name, len(p.layout.FindAll(head)), head)
	}
	return 0, fmt.Errorf("%s: no column has the head %q, heads are %s", p.layout.Name, head, strings.Join(heads(p.layout), ", "))
}

// bind finds the column of an input: named by the caller, else by its head.
func (p *plan) bind(s *calc.Sheet, i int, c *calc.Cell) (*column, string, error) {
	col := &column{cell: i}
	names, asked := p.Columns[c.Name]
	switch {
	case asked && c.Given():
		return nil, "", fmt.Errorf("%s is given as a column and as a value", c.Name)
	case asked:
		for _, head := range names {
			at, err := p.find(head)
			if err != nil {
				return nil, "", fmt.Errorf("--column %s: %w", c.Name, err)
			}
			col.at = append(col.at, at)
		}
	case c.Given():
		return nil, "", nil
	default:
		col.at = p.layout.FindAll(c.Name)
		if c.Shape != calc.List && len(col.at) > 1 {
			return nil, "", fmt.Errorf("%s: %d columns have the head %q", p.layout.Name, len(col.at), c.Name)
		}
	}
	if len(col.at) == 0 {
		return nil, "", nil
	}
	if len(col.at) > 1 && c.Shape != calc.List {
		return nil, "", fmt.Errorf("%s takes one column, not %d", c.Name, len(col.at))
	}
	note, err := p.bindUnit(col, c)
	return col, note, err
}

// bindUnit takes the unit of the column, where it has one.
func (p *plan) bindUnit(col *column, c *calc.Cell) (string, error) {
	first := p.layout.Columns[col.at[0]]
	for _, at := range col.at[1:] {
		if other := p.layout.Columns[at]; other.Unit != first.Unit {
			return "", fmt.Errorf("%s: columns %q and %q have the units %q and %q", c.Name, first.Head, other.Head, first.Unit, other.Unit)
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
		col.unit, err = paperprop.ParseUnit(first.Unit)
		col.pure = true
	default:
		col.unit, err = c.Kind.Unit(first.Unit)
		if missing := (*paperprop.UnitError)(nil); errors.As(err, &missing) && missing.Fault == paperprop.MissingUnit {
			return note + ", unit in each cell", nil // cells must bring their own
		}
		col.pure = true
	}
	if err != nil {
		return "", fmt.Errorf("%s: column %q: %w", c.Name, first.Head, err)
	}
	if text := col.unit.String(); text != "" && text != "1" {
		note += " in " + text
	}
	return note, nil
}

// A worker computes rows on a sheet of its own.
type worker struct {
	*plan
	sheet   *calc.Sheet
	rec     table.Record
	scratch []byte
	key     []byte
	list    []float64
}

func (p *plan) worker() (*worker, error) {
	s, err := p.sheet()
	if err != nil {
		return nil, err
	}
	for _, col := range p.columns {
		if c := s.In[col.cell]; c.Kind == nil && c.Shape != calc.Word {
			c.SetUnit(col.unit)
		}
	}
	return &worker{plan: p, sheet: s}, nil
}

// compute sets the inputs from the record and runs the sheet.
func (w *worker) compute() error {
	for i := range w.columns {
		if err := w.read(&w.columns[i]); err != nil {
			return err
		}
	}
	if err := w.sheet.Run(); err != nil {
		return w.rowError(err)
	}
	return nil
}

// read sets one input.
func (w *worker) read(col *column) error {
	c := w.sheet.In[col.cell]
	if len(col.at) > 1 {
		return w.readList(col, c)
	}
	cell := w.rec.Cell(col.at[0])
	if c.Shape == calc.One && col.pure {
		if x, err := col.unit.Read(cell, w.decimal); err == nil {
			c.Put(w.raw(c, col, x))
			return nil
		}
	}
	return w.readUnusual(col, c, cell)
}

// raw is the number that Put takes: of a Value as written.
func (w *worker) raw(c *calc.Cell, col *column, x float64) float64 {
	if c.Kind == nil {
		return col.unit.To(x)
	}
	return x
}

func (w *worker) readList(col *column, c *calc.Cell) error {
	w.list = w.list[:0]
	for _, at := range col.at {
		cell := w.rec.Cell(at)
		if table.Missing(cell) {
			continue // fewer replicates in this row
		}
		x, err := w.number(col, cell)
		if err != nil {
			return w.cellError(at, c, cell, err)
		}
		w.list = append(w.list, w.raw(c, col, x))
	}
	c.PutList(w.list)
	return nil
}

func (w *worker) number(col *column, cell []byte) (float64, error) {
	if !col.pure {
		return 0, errNoUnit
	}
	w.scratch = append(w.scratch[:0], cell...)
	return col.unit.Read(w.layout.Number(cell, w.scratch), w.decimal)
}

var errNoUnit = errors.New("unit missing")

// readUnusual reads all that is no plain number in the unit of the column:
// thousands, a unit of its own, an uncertainty, a list, a word, nothing.
func (w *worker) readUnusual(col *column, c *calc.Cell, cell []byte) error {
	if table.Missing(cell) {
		c.Forget()
		w.forgot(col, c)
		if c.Need == calc.Required {
			return w.cellError(col.at[0], c, cell, errNoReading)
		}
		return nil
	}
	if c.Shape == calc.Word {
		for _, choice := range c.Choices {
			if string(cell) == choice {
				c.PutWord(choice)
				return nil
			}
		}
		return w.cellError(col.at[0], c, cell, fmt.Errorf("no such word"))
	}
	if c.Shape == calc.One {
		if x, err := w.number(col, cell); err == nil {
			c.Put(w.raw(c, col, x))
			return nil
		}
	}
	text := string(w.layout.Number(cell, nil))
	if w.decimal == ',' {
		text = strings.ReplaceAll(text, ",", ".")
	}
	err := c.Set(text)
	if missing := (*paperprop.UnitError)(nil); err != nil && errors.As(err, &missing) && col.pure {
		if again := c.Set(text + " " + col.unit.String()); again == nil {
			return nil
		}
	}
	if err != nil {
		c.Forget()
		w.forgot(col, c)
		return w.cellError(col.at[0], c, cell, reason(err))
	}
	return nil
}

// forgot gives a Value its unit back.
func (w *worker) forgot(col *column, c *calc.Cell) {
	if c.Kind == nil && c.Shape != calc.Word {
		c.SetUnit(col.unit)
	}
}

var errNoReading = errors.New("no reading")

// reason is what is wrong with a text, without the text.
func reason(err error) error {
	var number *paperprop.NumberError
	var unit *paperprop.UnitError
	var input *calc.InputError
	switch {
	case errors.As(err, &unit) && unit.Fault == paperprop.MissingUnit:
		return errNoUnit
	case errors.As(err, &unit):
		return unit
	case errors.As(err, &number):
		return errors.New(number.Reason)
	case errors.As(err, &input):
		return errors.New("not a number")
	}
	return err
}

func (w *worker) cellError(at int, c *calc.Cell, cell []byte, why error) error {
	return &table.CellError{
		File: w.layout.Name, Line: w.rec.Line, Column: at + 1, Head: w.layout.Columns[at].Head,
		Text: string(cell), Reason: why.Error(), Accepted: w.accepted(at, c),
	}
}

func (w *worker) accepted(at int, c *calc.Cell) string {
	switch unit := w.layout.Columns[at].Unit; {
	case c.Shape == calc.Word:
		return "one of " + strings.Join(c.Choices, ", ")
	case unit != "":
		return "a number in " + unit
	case c.Kind == nil || c.Unit.String() == "1":
		return "a number"
	default:
		return "a number with its unit, such as 1 " + c.Unit.String()
	}
}

// rowError puts file and line before what the calculation refused, and the
// column where an input of the table is named.
func (w *worker) rowError(err error) error {
	input := ""
	var ranged *paperprop.RangeError
	var refused *calc.Refusal
	var missing *calc.MissingError
	switch {
	case errors.As(err, &ranged):
		input = ranged.Input
	case errors.As(err, &refused):
		input = refused.Input
	case errors.As(err, &missing):
		input = missing.Input.Name
	}
	for _, col := range w.columns {
		if w.sheet.In[col.cell].Name == input {
			written := strings.TrimSpace(string(w.rec.Cell(col.at[0])) + " " + w.layout.Columns[col.at[0]].Unit)
			if ranged != nil {
				ranged.Text = written
			} else if refused != nil {
				refused.Got = written
			}
			return fmt.Errorf("%s:%d:%d: %w", w.layout.Name, w.rec.Line, col.at[0]+1, err)
		}
	}
	return fmt.Errorf("%s:%d: %w", w.layout.Name, w.rec.Line, err)
}

// remark is the reason without its place: the row itself is the place.
func remark(err error) string {
	var cell *table.CellError
	if errors.As(err, &cell) {
		head := cell.Head
		if head != "" {
			head += " "
		}
		return fmt.Sprintf("%s%q: %s, want %s", head, cell.Text, cell.Reason, cell.Accepted)
	}
	if inner := errors.Unwrap(err); inner != nil && !errors.Is(inner, paperprop.ErrRange) {
		return inner.Error()
	} else if inner != nil && inner != paperprop.ErrRange {
		return inner.Error()
	}
	return err.Error()
}

// warn counts the warnings of the last run and appends their codes.
func (w *worker) warn(dst []byte, t *Totals) []byte {
	for i, warning := range w.sheet.Warnings() {
		if t.Warned == nil {
			t.Warned, t.Texts = map[string]int{}, map[string]string{}
		}
		t.Warned[warning.Code]++
		t.Texts[warning.Code] = warning.Text
		if i == 0 {
			dst = append(dst, "warning: "...)
		} else {
			dst = append(dst, ' ')
		}
		dst = append(dst, warning.Code...)
	}
	return dst
}

func (t *Totals) add(o *Totals) {
	t.Rows += o.Rows
	t.Computed += o.Computed
	t.Reported += o.Reported
	t.Failed += o.Failed
	t.Footers += o.Footers
	for code, n := range o.Warned {
		if t.Warned == nil {
			t.Warned, t.Texts = map[string]int{}, map[string]string{}
		}
		t.Warned[code] += n
		t.Texts[code] = o.Texts[code]
	}
}

// Warnings lists what was warned of, in order of the code.
func (t *Totals) Warnings() []string {
	var lines []string
	for code, n := range t.Warned {
		lines = append(lines, fmt.Sprintf("%d rows: %s: %s", n, code, t.Texts[code]))
	}
	slices.Sort(lines)
	return lines
}
