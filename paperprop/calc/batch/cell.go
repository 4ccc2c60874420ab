package batch

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/table"
)

// A worker computes rows on a sheet of its own.
type worker struct {
	*plan
	sheet   *calc.Sheet
	rec     table.Record
	cells   []*calc.Cell // cells of the plan's columns
	results []*calc.Cell // cells that are written
	once    []once
	scratch []byte
	key     []byte
	list    []float64

	fixed     bool // a constant was given with an uncertainty
	uncertain bool // an input of this row was
	defaulted bool // a cell of this row is empty and the default applies
	skipped   bool // one of several cells of a list is empty

	// The padding keeps what is written for every row out of the cache lines in which
	// the next worker begins.
	_ [128]byte
}

func (p *plan) worker() (*worker, error) {
	s, err := p.Sheet()
	if err != nil {
		return nil, err
	}
	w := &worker{plan: p, sheet: s, results: p.results(s)}
	for _, c := range s.In {
		w.fixed = w.fixed || c.Uncertain()
		if c.Shape == calc.List && c.Given() && !c.Uncertain() && len(c.Numbers()) == 1 {
			w.once = append(w.once, once{c, c.Numbers()})
		}
	}
	cells := bindable(s)
	for i := range p.columns {
		c := cells[p.columns[i].cell]
		w.cells = append(w.cells, c)
		p.columns[i].keepUnit(c)
	}
	return w, nil
}

// keepUnit restores the unit of a Value, or of a price in a currency, which a previous
// cell may have changed.
func (col *column) keepUnit(c *calc.Cell) {
	if c.Kind == nil && c.Shape != calc.Word || col.unit.Currency() != "" {
		c.PutUnit(col.unit)
	}
}

func (col *column) hasUnit() bool {
	text := col.unit.String()
	return text != "" && text != "1"
}

// compute sets the inputs from the record and runs the sheet.
func (w *worker) compute() error {
	w.uncertain, w.defaulted, w.skipped = w.fixed, false, false
	for i := range w.columns {
		if err := w.read(i); err != nil {
			return err
		}
	}
	if err := w.sheet.Run(); err != nil {
		return w.rowError(err)
	}
	return nil
}

// read sets the input of a column. Most cells are a plain number.
func (w *worker) read(i int) error {
	col, c := &w.columns[i], w.cells[i]
	if len(col.at) > 1 {
		return w.readList(col, c)
	}
	cell := w.rec.Cell(col.at[0])
	target := col.cell >= len(w.sheet.In)
	if col.pure && c.Shape == calc.One && !target && !beyondFloat(c, cell) {
		if x, err := col.scale.Read(cell, w.decimal); err == nil {
			c.Put(x)
			return nil
		}
	}
	var err error
	if target {
		err = w.readTarget(col, c, cell)
	} else {
		err = w.readUnusual(col, c, cell)
	}
	if err != nil {
		c.Forget()
		err = w.cellError(col.at[0], c, cell, err)
	}
	w.uncertain = w.uncertain || c.Uncertain()
	col.keepUnit(c)
	return err
}

// readTarget sets the output from which the row is solved.
func (w *worker) readTarget(col *column, c *calc.Cell, cell []byte) error {
	switch {
	case table.Missing(cell):
		return errNoReading
	case table.Censored(cell):
		return errLimit
	}
	text, err := w.text(cell)
	if err != nil {
		return err
	}
	if err := col.set(c, text); err != nil {
		return reason(err)
	}
	return nil
}

// beyondFloat reports whether a number may have more digits than a float64 holds, for
// an input in which every digit counts.
func beyondFloat(c *calc.Cell, cell []byte) bool {
	const held = 15
	return len(cell) > held && c.KeepsWritten()
}

// readList reads one number from each of several columns.
func (w *worker) readList(col *column, c *calc.Cell) error {
	w.list = w.list[:0]
	for _, at := range col.at {
		cell := w.rec.Cell(at)
		if table.Missing(cell) {
			w.skipped = true
			continue // fewer replicates in this row
		}
		x, err := w.number(col, cell)
		if err != nil {
			x, err = w.member(col, c, cell, err)
		}
		if err != nil {
			c.Forget()
			return w.cellError(at, c, cell, err)
		}
		w.list = append(w.list, x)
	}
	c.PutList(w.list)
	return nil
}

// member reads the one number of a cell that has a unit of its own. Plain is what keeps the
// cell from being a plain number.
func (w *worker) member(col *column, c *calc.Cell, cell []byte, plain error) (float64, error) {
	defer col.keepUnit(c)
	if err := w.readUnusual(col, c, cell); err != nil {
		return 0, err
	}
	x := c.Numbers()
	if len(x) != 1 || c.Uncertain() {
		return 0, plain
	}
	return x[0], nil
}

// Reasons for refusing a cell that no lower package gives.
var (
	errNoReading = errors.New("no reading")
	errNoNumber  = errors.New("not a number")
	errNoUnit    = errors.New("unit missing")
	errNoWord    = errors.New("no such word")
	errLimit     = errors.New("a limit, not a reading")
	errEither    = errors.New("one number with its thousands separated, or several readings")
	errPoint     = errors.New("a point where the decimal sign is a comma")
	errOwnUnit   = errors.New("a unit in a column that has none")
	errOtherUnit = errors.New("more than a number, in another unit than that of the column")
)

// number reads a number that may have thousands separators.
func (w *worker) number(col *column, cell []byte) (float64, error) {
	if table.Censored(cell) {
		return 0, errLimit
	}
	w.scratch = append(w.scratch[:0], cell...)
	text := w.layout.Number(cell, w.scratch)
	if parted := table.UngroupedValue(text, w.decimal); parted != nil {
		if len(col.at) == 1 && col.list {
			return 0, fmt.Errorf("%w: %s says which", errEither, col.either(string(parted), string(text)))
		}
		text = parted
	}
	x, err := col.scale.Read(text, w.decimal)
	switch {
	case err != nil:
		return 0, reason(err)
	case !col.pure:
		return 0, errNoUnit
	}
	return x, nil
}

// either returns how to write a cell as one number or as a list of readings, as far as
// the column accepts each. A member of Values has no unit of its own.
func (col *column) either(parted, text string) string {
	unit := strings.LastIndexByte(text, ' ')
	switch {
	case unit < 0 || !namesUnit(text[unit:]):
		return parted + " or [" + text + "]"
	case col.scale.IsZero() && col.pure:
		return parted
	}
	return parted + " or [" + text[:unit] + "]" + text[unit:]
}

// readUnusual reads everything other than a plain number in the unit of the column:
// thousands separators, a unit, an uncertainty, a list, a word, nothing.
func (w *worker) readUnusual(col *column, c *calc.Cell, cell []byte) error {
	switch {
	case table.Missing(cell):
		if c.Forget(); c.Need == calc.Required && !w.leftToLot(c) {
			return errNoReading
		}
		w.defaulted = w.defaulted || c.Need == calc.Defaulted
		return nil
	case c.Shape == calc.Word:
		return readWord(c, cell)
	}
	if col.pure && beyondFloat(c, cell) {
		if text, err := w.text(cell); err == nil && col.set(c, text) == nil {
			return nil
		}
	}
	x, err := w.number(col, cell)
	switch {
	case err == nil:
		c.Put(x)
		return nil
	case err == errLimit || err == errNoUnit || errors.Is(err, errEither):
		return err
	}
	text, textErr := w.text(cell)
	if textErr != nil {
		return textErr
	}
	if setErr := col.set(c, text); setErr != nil {
		if why := reason(setErr); why != errNoNumber {
			return why
		}
		return err
	}
	return nil
}

func readWord(c *calc.Cell, cell []byte) error {
	for _, choice := range c.Choices {
		if string(cell) == choice {
			c.PutWord(choice)
			return nil
		}
	}
	return errNoWord
}

// text returns the cell as it would be written elsewhere: with a decimal point and
// without thousands separators.
func (w *worker) text(cell []byte) (string, error) {
	text := string(w.layout.Number(cell, nil))
	if parted := table.UngroupedValue([]byte(text), w.decimal); parted != nil {
		text = string(parted)
	}
	if text == "?" {
		return "", errNoNumber // a "?" is not accepted in a table
	}
	if w.decimal == ',' {
		for i := range len(text) - 1 {
			if text[i] == '.' && text[i+1]-'0' <= 9 {
				return "", errPoint
			}
		}
		text = strings.ReplaceAll(text, ",", ".")
	}
	return text, nil
}

// set sets an input from text, in the unit of the column if the text names none.
func (col *column) set(c *calc.Cell, text string) error {
	switch named := namesUnit(text); {
	case !named && col.hasUnit():
		return c.Set(bracketed(text) + " " + col.unit.String())
	case !named && col.named != "" && c.Kind != nil:
		return c.Set(inOne(c, text))
	case named && c.Kind == nil && !col.hasUnit():
		if _, err := calc.ParseEstimate(text); err != nil {
			return err
		}
		return errOwnUnit // 5 % is not 0.05 in the unit of other cells
	case named && c.Kind == nil:
		return col.setInUnit(c, text)
	}
	if err := c.Set(text); err != nil {
		return err
	}
	own, other := col.unit.Currency(), c.WrittenIn().Currency()
	if own != "" && other != "" && own != other {
		return &paperprop.ConversionError{From: c.WrittenIn(), To: col.unit}
	}
	return nil
}

// setInUnit sets an input of any unit from text with a unit. A number is converted to
// the unit of the column; anything more must be in that unit.
func (col *column) setInUnit(c *calc.Cell, text string) error {
	x, _, err := paperprop.Convert(text, col.unit.String())
	switch {
	case err == nil:
		c.Put(x)
	case c.Set(text) != nil:
		return err
	case c.WrittenIn() != col.unit:
		return errOtherUnit
	}
	return nil
}

// namesUnit reports whether some part of a text can be a unit. In "9.5; 13.2", "4.0(1)"
// and "4.0 ± rectangular(0.1)" none can.
func namesUnit(text string) bool {
	for _, distribution := range [...]string{"normal", "rectangular", "triangular", "arcsine"} {
		text = strings.ReplaceAll(text, distribution, "")
	}
	return strings.Trim(text, "0123456789.,;+-−±/()[] eE") != ""
}

// inOne returns numbers with the unit 1, which 9.5 13.2 1 would take for one of them.
func inOne(c *calc.Cell, text string) string {
	if text = bracketed(text); c.Shape == calc.List && !strings.HasPrefix(text, "[") {
		text = "[" + text + "]"
	}
	return text + " 1"
}

// bracketed returns one list of numbers that could each have had a unit.
func bracketed(text string) string {
	if strings.HasPrefix(text, "[") || !strings.Contains(text, ";") && !strings.Contains(text, ", ") {
		return text
	}
	return "[" + text + "]"
}

// reason returns what is wrong with a text, without the text itself.
func reason(err error) error {
	var number *paperprop.NumberError
	var unit *paperprop.UnitError
	var conversion *paperprop.ConversionError
	switch {
	case err == errOwnUnit, err == errOtherUnit:
		return err
	case errors.As(err, &conversion):
		return conversion
	case errors.As(err, &unit) && unit.Fault == paperprop.MissingUnit:
		return errNoUnit
	case errors.As(err, &unit) && unit.Fault == paperprop.ForeignUnit && unit.Reason != "":
		return unit // which tells more than the column takes
	case errors.As(err, &unit) && unit.Fault == paperprop.UnknownUnit && strings.Trim(unit.Text, "*#!?†‡~") == "":
		return fmt.Errorf("a mark %q behind the number", unit.Text)
	case errors.As(err, &unit):
		why, _, _ := strings.Cut(unit.Error(), ", want") // what the column takes is said behind it
		return errors.New(why)
	case errors.As(err, &number) && startsNumber(number.Text) && !strings.HasPrefix(number.Reason, "want"):
		why, _, _ := strings.Cut(number.Reason, ", want")
		return errors.New(why)
	}
	return errNoNumber
}

func startsNumber(text string) bool {
	text = strings.TrimLeft(text, "+-−")
	return text != "" && text[0]-'0' <= 9
}

func (w *worker) cellError(at int, c *calc.Cell, cell []byte, why error) error {
	return &table.CellError{
		File: w.layout.Name, Line: w.rec.Line, Column: at + 1, Head: w.layout.Columns[at].Head,
		Text: string(cell), Reason: why.Error(), Accepted: w.accepted(at, c, why),
	}
}

func (w *worker) accepted(at int, c *calc.Cell, why error) string {
	unit := ""
	if i := slices.IndexFunc(w.columns, func(col column) bool { return slices.Contains(col.at, at) }); i >= 0 {
		unit = w.columns[i].named
	}
	switch {
	case c.Shape == calc.Word:
		return "one of " + strings.Join(c.Choices, ", ")
	case unit != "":
		return "a number in " + unit
	case c.Kind == nil && why == errOwnUnit:
		return "a number alone, and the unit of all in the head: " + w.layout.Columns[at].Head + " [UNIT]"
	case c.Kind == nil:
		return "a number alone: its unit stands in the head"
	case c.Unit.String() == "1":
		return "a number"
	}
	text := "a number with its unit, such as 1 " + c.Unit.String()
	if why == errNoUnit {
		text += ", or that of all in the head: " + withUnit(lacking(w.layout.Columns[at].Head, c))
	}
	return text
}

// lacking returns a head as it would be with a unit of the input: the one that it ends with,
// as thickness mm does, which nothing tells from a name, or else the usual one.
func lacking(head string, c *calc.Cell) table.Column {
	if i := strings.LastIndexAny(head, " _"); i > 0 {
		if _, err := c.Kind.Unit(head[i+1:]); err == nil {
			return table.Column{Head: head[:i], Unit: head[i+1:]}
		}
	}
	return table.Column{Head: head, Unit: c.Unit.String()}
}

// A RowError reports a row that the calculation refused, or a column that gives no input,
// with its place.
type RowError struct {
	File         string
	Line, Column int // from 1; Column is 0 if the error is not about one cell, Line if the table has no lines
	Err          error
}

func (e *RowError) Error() string {
	if e.Line == 0 {
		return before(e.File) + e.Err.Error()
	}
	place := fmt.Sprint(e.Line)
	if e.File != "" {
		place = e.File + ":" + place
	}
	if e.Column > 0 {
		place = fmt.Sprintf("%s:%d", place, e.Column)
	}
	return place + ": " + e.Err.Error()
}

// Unwrap returns the error of the calculation.
func (e *RowError) Unwrap() error { return e.Err }

// rowError adds the place of the refused input, and its value as written in the table.
func (w *worker) rowError(err error) error {
	if head := w.headError(err); head != nil {
		head.File, head.Line, head.Text = w.layout.Name, w.rec.Line, string(w.rec.Cell(head.Column-1))
		return head
	}
	place := &RowError{File: w.layout.Name, Line: w.rec.Line, Err: err}
	var ranged *paperprop.RangeError
	var refused *calc.Refusal
	var whole *calc.WholeError
	switch {
	case errors.As(err, &ranged):
		if col, cell := w.cellOf(ranged.Input); cell != "" {
			place.Column, ranged.Text = col.at[0]+1, cell
			if ranged.Kind != nil && col.hasUnit() {
				ranged.Unit = col.unit
			}
		}
	case errors.As(err, &refused):
		if col, cell := w.cellOf(refused.Input); cell != "" {
			place.Column = col.at[0] + 1
			refused.Written(cell)
		}
	case errors.As(err, &whole):
		if col, cell := w.cellOf(whole.Input); cell != "" {
			place.Column, whole.Text = col.at[0]+1, cell
		}
	}
	return place
}

// headError says which column has the wrong unit in its head, or none, if a Value does not
// fit another: its cells have no unit of their own. It is nil for any other error.
func (w *worker) headError(err error) *table.CellError {
	var read *calc.InputError
	if !errors.As(err, &read) || read.Text != "" {
		return nil
	}
	i := slices.IndexFunc(w.cells, func(c *calc.Cell) bool { return c.Name == read.Input })
	if i < 0 {
		return nil
	}
	at := w.columns[i].at[0]
	head := w.layout.Columns[at].Head
	wrong := &table.CellError{Column: at + 1, Head: head}
	var missing *paperprop.UnitError
	var unlike *calc.UnlikeError
	switch {
	case errors.As(err, &missing) && missing.Fault == paperprop.MissingUnit:
		wrong.Reason = errNoUnit.Error()
		wrong.Accepted = "that of all in the head: " + withUnit(table.Column{Head: head, Unit: missing.Candidates[0]})
	case errors.As(err, &unlike):
		wrong.Reason, wrong.Accepted = unlike.Err.Error(), unlike.Accepted()
	default:
		wrong.Reason = read.Err.Error()
	}
	return wrong
}

// cellOf returns the cell of an input as written, with the unit of its column if it has
// none of its own. It is empty if no column, or more than one, gives the input.
func (w *worker) cellOf(input string) (*column, string) {
	for i := range w.columns {
		col := &w.columns[i]
		if w.cells[i].Name != input || len(col.at) > 1 {
			continue
		}
		text := string(w.rec.Cell(col.at[0]))
		if col.named != "" && !namesUnit(text) {
			text += " " + col.named
		}
		return col, text
	}
	return nil, ""
}

// remark returns the reason without its place, as the remark stands in the row itself.
func remark(err error) string {
	var cell *table.CellError
	var row *RowError
	switch {
	case errors.As(err, &cell):
		inRow := *cell
		inRow.File, inRow.Line, inRow.Column = "", 0, 0
		return inRow.Error()
	case errors.As(err, &row):
		return row.Err.Error()
	}
	return err.Error()
}

// warnings counts the warnings of the last run and appends their codes.
func (w *worker) warnings(dst []byte, t *Totals) []byte {
	before := "warning: "
	for _, warning := range w.sheet.Warnings() {
		dst = append(append(dst, before...), warning.Code...)
		t.warn(warning.Code, warning.Text, 1)
		before = " "
	}
	for _, own := range [...]struct {
		holds   bool
		warning *calc.Warning
	}{{w.uncertain, &uncertaintyUnused}, {w.defaulted, &defaultTaken}, {w.skipped, &readingMissing}, {w.several(), &severalRoots}} {
		if own.holds {
			dst = append(append(dst, before...), own.warning.Code...)
			t.warn(own.warning.Code, own.warning.Text, 1)
			before = " "
		}
	}
	return dst
}

// several reports whether solving found more than the value written in the row.
func (w *worker) several() bool {
	roots := w.sheet.Roots
	return len(roots) > 1 || w.sheet.MoreRoots || len(roots) == 1 && roots[0].Low != roots[0].High
}

var severalRoots = calc.Warning{Code: "several-roots",
	Text: "more than one value of the input leads to the output: the first stands here, calculate the row by itself for all"}

var defaultTaken = calc.Warning{Code: "default-taken",
	Text: "a cell has no value and the input has a default: the default was used"}

var readingMissing = calc.Warning{Code: "reading-missing",
	Text: "one of several columns of readings has no value: the others were used"}

var uncertaintyUnused = calc.Warning{Code: "uncertainty-unused",
	Text: "the result does not carry the ± of an input: calculate the row by itself for that"}
