package batch

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// A lot is a set of rows that share a cell. Its lists come from all of them; any other
// input must be the same in all rows that give it.
type lot struct {
	name   string
	line   int   // line of its first row
	lines  []int // lines of the rows that are used
	unused int

	uncertain bool        // some number has an uncertainty
	skipped   bool        // one of several cells of a list is empty
	lists     [][]float64 // for each column of the plan
	single    []*float64
	words     []string
}

// A LotResult is what became of a lot, as [Job.Together] keeps it.
type LotResult struct {
	Name         string // the cell that its rows share
	Used, Unused int    // numbers of rows; none is used where Err is set
	Outputs      []LotOutput
	Err          error // why the lot has no outputs
}

// A LotOutput is one output of a lot as its method reports it.
type LotOutput struct{ Name, Text, Rule string }

// lots gathers the rows. Until the table ends, it holds one number for each row and
// list.
type lots struct {
	list  []*lot
	index map[string]*lot
	held  int // count of numbers held
}

// mostHeld limits the numbers that are held, and so the memory that a table can take:
// computing a lot takes several times as much again. Each lot counts as lotHeld
// numbers.
const (
	mostHeld = 400_000
	lotHeld  = 40
)

func (l *lots) named(name []byte, line, columns int) *lot {
	if found, ok := l.index[string(name)]; ok {
		return found
	}
	made := &lot{
		name: string(name), line: line,
		lists: make([][]float64, columns), single: make([]*float64, columns), words: make([]string, columns),
	}
	l.index[made.name] = made
	l.held += lotHeld
	l.list = append(l.list, made)
	return made
}

// runLots gathers the rows of each lot, computes the lots and writes one line for each,
// in order of first appearance.
func (p *plan) runLots(ctx context.Context, r *table.Reader, out io.Writer) (Totals, error) {
	totals := Totals{ofLots: true}
	w, err := p.worker()
	if err != nil {
		return totals, err
	}
	all := &lots{index: map[string]*lot{}}
	var b table.Block
	for {
		if err := ctx.Err(); err != nil {
			return totals, err
		}
		if err := r.Next(&b); err == io.EOF {
			break
		} else if err != nil {
			return totals, err
		}
		for b.Record(&w.rec) {
			w.gather(all, &totals)
			if all.held > mostHeld {
				return totals, &RowError{File: w.layout.Name, Line: w.rec.Line, Err: fmt.Errorf("lots up to here hold more than %d numbers: want fewer rows at a time, or a summary of rows, which holds none", mostHeld)}
			}
		}
	}
	var text []byte
	head := "lot"
	if p.lot != wholeTable {
		head = p.layout.Columns[p.lot].Head
	}
	text = p.appendCell(text, []byte(head))
	text = p.appendCell(text, []byte("rows"))
	for _, c := range p.results(w.sheet) {
		text = p.appendCell(text, []byte(withUnit(outputColumn(c))))
	}
	text = append(text, "remark\n"...)
	for _, l := range all.list {
		text = w.lotLine(text, l, &totals)
	}
	return totals, write(out, text)
}

// gather adds a row to its lot, or reports it.
func (w *worker) gather(all *lots, t *Totals) {
	switch w.class() {
	case table.Data:
		if !w.asked(t) {
			return
		}
		t.Rows++
		w.gatherRow(all, t)
	case table.Footer:
		t.footer(&w.rec)
	case table.Bad, table.Changed:
		t.Rows++
		w.failed(w.rec.Err, t)
	}
}

// failed reports a row that no lot uses.
func (w *worker) failed(err error, t *Totals) {
	t.Reported++
	t.Failed++
	w.tell(err)
}

func (w *worker) gatherRow(all *lots, t *Totals) {
	name := []byte("all rows")
	if w.lot != wholeTable {
		name = w.rec.Cell(w.lot)
	}
	if len(name) == 0 {
		w.failed(&table.CellError{File: w.layout.Name, Line: w.rec.Line, Column: w.lot + 1,
			Head: w.layout.Columns[w.lot].Head, Reason: "empty", Accepted: "the name of a lot"}, t)
		return
	}
	l := all.named(name, w.rec.Line, len(w.columns))
	if err := w.take(l); err != nil {
		l.unused++
		w.failed(err, t)
		return
	}
	l.lines = append(l.lines, w.rec.Line)
	all.held += len(w.columns)
	t.Computed++
	w.sayUnnamedRow(t)
}

// take reads all inputs of the row before adding any to the lot.
func (w *worker) take(l *lot) error {
	w.uncertain, w.skipped = w.fixed, false
	for i := range w.columns {
		if err := w.read(i); err != nil {
			return err
		}
	}
	for i := range w.columns {
		if err := w.same(l, i); err != nil {
			return err
		}
		if err := w.inRange(w.cells[i]); err != nil {
			return err
		}
	}
	for i, c := range w.cells {
		switch {
		case !c.Given():
		case c.Shape == calc.List:
			l.lists[i] = append(l.lists[i], c.Numbers()...)
		case c.Shape == calc.Word:
			l.words[i] = c.Word()
		default:
			x := c.Number()
			l.single[i] = &x
		}
	}
	l.uncertain, l.skipped = l.uncertain || w.uncertain, l.skipped || w.skipped
	return nil
}

// leftToLot reports whether another row of the lot may give an input that this row
// lacks. Not so for a list, to which each row adds its members.
func (p *plan) leftToLot(c *calc.Cell) bool { return p.Lot != "" && c.Shape != calc.List }

// inRange refuses a member that no lot could accept, in its own row.
func (w *worker) inRange(c *calc.Cell) error {
	if !c.Given() {
		return nil
	}
	err := c.Check()
	var ranged *paperprop.RangeError
	if errors.As(err, &ranged) {
		ranged.Input = c.Name // without a member number, as there is no list yet
	}
	if err != nil {
		return w.rowError(err)
	}
	return nil
}

// same refuses a single value that differs from the one the lot has.
func (w *worker) same(l *lot, i int) error {
	c, at := w.cells[i], w.columns[i].at[0]
	if !c.Given() {
		return nil
	}
	if c.Shape == calc.Word && l.words[i] != "" && l.words[i] != c.Word() ||
		c.Shape == calc.One && l.single[i] != nil && *l.single[i] != c.Number() {
		return &table.CellError{
			File: w.layout.Name, Line: w.rec.Line, Column: at + 1, Head: w.layout.Columns[at].Head, Text: string(w.rec.Cell(at)),
			Reason: fmt.Sprintf("differs from a row above of lot %q", l.name), Accepted: "the same in all its rows" + w.summaryMeant(),
		}
	}
	return nil
}

// summaryMeant names the summary where no column makes a list: whoever has several
// readings of a lot then wants each computed, not all of them as one.
func (w *worker) summaryMeant() string {
	switch {
	case slices.ContainsFunc(w.columns, func(col column) bool { return col.list }):
		return ""
	case w.lot == wholeTable:
		return "; a summary of the rows computes each"
	}
	return fmt.Sprintf("; a summary by %q computes each row", w.layout.Columns[w.lot].Head)
}

func (w *worker) lotLine(dst []byte, l *lot, t *Totals) []byte {
	dst = w.appendCell(dst, []byte(l.name))
	dst = append(fmt.Appendf(dst, "%d", len(l.lines)), w.delimiter)
	err := w.computeLot(l)
	if w.Together {
		t.Lots = append(t.Lots, w.lotResult(l, err))
	}
	for _, c := range w.results {
		if err == nil {
			dst = w.appendResult(dst, c)
		}
		dst = append(dst, w.delimiter)
	}
	return append(table.AppendCSV(dst, w.delimiter, w.lotRemark(l, err, t)), '\n')
}

func (w *worker) lotResult(l *lot, err error) LotResult {
	r := LotResult{Name: l.name, Used: len(l.lines), Unused: l.unused, Err: err}
	if err != nil {
		r.Used, r.Unused = 0, r.Used+r.Unused
		return r
	}
	for _, c := range w.results {
		if c.Empty() {
			r.Outputs = append(r.Outputs, LotOutput{Name: c.Name, Text: calc.NoneText})
		}
		if c.Present() {
			r.Outputs = append(r.Outputs, LotOutput{c.Name, c.Reported(), c.Field.Report.String()})
		}
	}
	return r
}

// lotRemark counts a lot as computed or refused and returns the remark for its line.
func (w *worker) lotRemark(l *lot, err error, t *Totals) []byte {
	if err != nil {
		t.Failed += len(l.lines)
		t.Reported += len(l.lines)
		t.Computed -= len(l.lines)
		note := err.Error()
		line := w.blamed(l, err)
		if line > 0 {
			note = fmt.Sprintf("line %d: %s", line, note)
		}
		w.tell(&RowError{File: w.layout.Name, Line: cmp.Or(line, l.line), Err: fmt.Errorf("lot %q: %w", l.name, err)})
		return []byte(note)
	}
	note := w.warnings(nil, t)
	if l.unused > 0 {
		if len(note) > 0 {
			note = append(note, "; "...)
		}
		note = fmt.Appendf(note, "%d of %d rows not used", l.unused, len(l.lines)+l.unused)
	}
	return note
}

// blamed returns the line of the first row that would be refused by itself for the same
// reason as its lot; 0 if no single row is to blame, or if it cannot be told because a
// cell holds several members.
func (w *worker) blamed(l *lot, err error) int {
	if len(l.lines) < 2 {
		return 0
	}
	alone := *l
	alone.lines, alone.lists = l.lines[:1], make([][]float64, len(l.lists))
	for _, list := range l.lists {
		if len(list) > 0 && len(list) != len(l.lines) {
			return 0
		}
	}
	for k, line := range l.lines {
		for i, list := range l.lists {
			if len(list) > 0 {
				alone.lists[i] = list[k : k+1]
			}
		}
		if own := w.computeLot(&alone); own != nil && own.Error() == err.Error() {
			return line
		}
	}
	return 0
}

func (w *worker) computeLot(l *lot) error {
	if len(l.lines) == 0 {
		return errors.New("no row of it can be used")
	}
	if err := w.unsaid(l); err != nil {
		return err
	}
	w.uncertain, w.skipped, w.defaulted = l.uncertain, l.skipped, false
	for i, c := range w.cells {
		c.Forget()
		w.columns[i].keepUnit(c)
		switch {
		case c.Shape == calc.List:
			c.PutList(l.lists[i])
		case c.Shape == calc.Word && l.words[i] != "":
			c.PutWord(l.words[i])
		case l.single[i] != nil:
			c.Put(*l.single[i])
		default:
			w.defaulted = w.defaulted || c.Need == calc.Defaulted
		}
	}
	for _, o := range w.once {
		o.cell.PutList(o.value)
	}
	err := w.sheet.Run()
	for range w.once {
		var uneven *calc.LengthError
		if !errors.As(err, &uneven) || !w.repeat(uneven) {
			break
		}
		err = w.sheet.Run()
	}
	if head := w.headError(err); head != nil {
		return head
	}
	return err
}

// unsaid refuses a lot in which no row gives a required input.
func (w *worker) unsaid(l *lot) error {
	for i, c := range w.cells {
		if c.Need != calc.Required || !w.leftToLot(c) || l.single[i] != nil || l.words[i] != "" {
			continue
		}
		at := w.columns[i].at[0]
		return &table.CellError{Head: w.layout.Columns[at].Head,
			Reason: errNoReading.Error() + " in " + linesText(l.lines), Accepted: w.accepted(at, c, errNoReading) + " in one of its rows"}
	}
	return nil
}

// linesText names the first lines of a lot, and how many more there are.
func linesText(lines []int) string {
	const named = 10
	if len(lines) == 1 {
		return fmt.Sprintf("line %d", lines[0])
	}
	text := "lines"
	for i, line := range lines[:min(named, len(lines))] {
		if i > 0 {
			text += ","
		}
		text += fmt.Sprintf(" %d", line)
	}
	if more := len(lines) - named; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// A once is a list with a single member that was given for every row.
type once struct {
	cell  *calc.Cell
	value []float64
}

// repeat extends a list that was given for every row to the length of the list that it
// must match.
func (w *worker) repeat(e *calc.LengthError) bool {
	for _, o := range w.once {
		switch {
		case o.cell.Field == e.Input && e.Got == 1:
			o.cell.PutList(slices.Repeat(o.value, e.Want))
			return true
		case o.cell.Field == e.Other && e.Want == 1:
			o.cell.PutList(slices.Repeat(o.value, e.Got))
			return true
		}
	}
	return false
}
