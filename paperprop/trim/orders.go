package trim

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/internal/strict"
	"millmaths.example/paperprop/reel"
	"millmaths.example/paperprop/table"
)

// A List says how to read an order list. Its terms apply to every row that does not
// give its own.
type List struct {
	Table   table.Options
	Columns map[string]string // head of each input, if it has another name
	// Naming tells readers of messages how to name a column, such as "--column
	// INPUT=HEAD", where INPUT stands for the missing one. It is left out if "".
	Naming string
	Terms  Terms
	// Grades, if there are any, are the only ones that a row may name. An order is
	// under the terms of its grade instead of Terms.
	Grades map[string]Terms
	// Also lists heads of further columns, whose cells are passed through
	// unchanged. For one that the list lacks, the texts are empty.
	Also []string
}

// A Request is an order as it was placed: in reels or by mass.
type Request struct {
	Name   string
	Line   int    // of the list; zero if there is none
	Grade  string // as named
	Group  string // as named: what must be alike in a set besides the grade
	Width  paperprop.Length
	Reels  int            // ordered, if Mass is zero
	Mass   paperprop.Mass // ordered, to be met with whole reels; zero is not given
	Sheets int            // as in [Order]
	Terms  Terms          // all that apply to it

	alike []string // besides grade and group: the sizes that it gives itself
}

// Order returns the order in reels. One by mass needs a diameter and a density; one
// by reels has their mass if these are known.
func (r Request) Order() (Order, error) {
	o := Order{Name: r.Name, Line: r.Line, Width: clean(r.Width), Sheets: r.Sheets}
	o.Group = joined(append([]string{r.Grade, r.Group}, r.alike...))
	switch {
	case !(r.Width > 0):
		return o, fmt.Errorf("width is %v, want above 0 mm", r.Width)
	case !(r.Mass >= 0):
		return o, fmt.Errorf("ordered-mass is %v, want above 0 kg", r.Mass)
	}
	if err := r.Terms.check(); err != nil {
		return o, err
	}
	if r.Mass > 0 {
		return o, r.Terms.tonnes(&o, r.Mass)
	}
	return o, r.Terms.reels(&o, r.Reels)
}

// Terms are the terms of an order other than width and amount. Zero is not given.
type Terms struct {
	UnderRun, OverRun paperprop.Fraction // of what is ordered
	Diameter          paperprop.Length   // outside
	CoreDiameter      paperprop.Length   // outside of the core
	RollDensity       paperprop.Density  // or Grammage and ReelThickness
	Grammage          paperprop.Grammage
	ReelThickness     paperprop.Length
}

// check refuses terms that no order can be under, by their keys in files.
func (t Terms) check() error {
	for _, x := range []struct {
		key   string
		value float64
		text  fmt.Stringer
		most  float64
		want  string
	}{
		{"under-run", float64(t.UnderRun), t.UnderRun, 1, "0 % to 100 %"},
		{"over-run", float64(t.OverRun), t.OverRun, math.MaxFloat64, "from 0 %"},
		{"diameter", float64(t.Diameter), t.Diameter, math.MaxFloat64, "above 0 mm"},
		{"core-diameter", float64(t.CoreDiameter), t.CoreDiameter, math.MaxFloat64, "from 0 mm"},
		{"roll-density", float64(t.RollDensity), t.RollDensity, math.MaxFloat64, "above 0 kg/m3"},
		{"grammage", float64(t.Grammage), t.Grammage, math.MaxFloat64, "above 0 g/m2"},
		{"reel-thickness", float64(t.ReelThickness), t.ReelThickness, math.MaxFloat64, "above 0 um"},
	} {
		if !(x.value >= 0 && x.value <= x.most) { // zero is not given
			return strict.Refuse(x.key, "%s is %v, want %s", x.key, x.text, x.want)
		}
	}
	return nil
}

// Inputs returns the names of the columns of an order list. In the heads a space or
// '_' may stand for '-', and a unit may follow: "width [mm]".
func Inputs() []string {
	var names []string
	for _, in := range inputs {
		names = append(names, in.name)
	}
	return names
}

// An input is a column: text if kind is "", else a whole number or a quantity.
type input struct{ name, kind string }

var inputs = [...]input{
	{"order", ""}, {"width", "Length"}, {"reels", whole}, {"ordered-mass", "Mass"},
	{"under-run", "Fraction"}, {"over-run", "Fraction"}, {"sheets", whole}, {"grade", ""}, {"group", ""},
	{"diameter", "Length"}, {"core-diameter", "Length"}, {"roll-density", "Density"},
	{"grammage", "Grammage"}, {"reel-thickness", "Length"},
}

const whole = "whole"

// Positions in inputs.
const (
	inOrder = iota
	inWidth
	inReels
	inMass
	inUnder
	inOver
	inSheets
	inGrade
	inGroup
	inDiameter
	inCore
	inDensity
	inGrammage
	inThickness
	inputCount
)

// A Listing is an order list that was read.
type Listing struct {
	Orders   []Order
	Requests []Request // from which the orders were made
	Also     [][]Cell  // of each order, the cells of the further columns
	Bad      []error   // rows that could not be read, with file, line and column
	Rows     int       // below the heads: orders, bad rows and footers
	Footer   int       // rows that are the list's own total, not counted
	Notes    []string  // how the table was understood
}

// A Cell is the text of a cell, and its column from 1; 0 if the list has no such
// column.
type Cell struct {
	Text   string
	Column int
}

// mostRows is the most rows of an order list: nobody plans so many at once.
const mostRows = 10_000

// Read reads an order list. Rows that can't be read are in Bad, each as a
// [table.CellError] with its place. An error means that the list as a whole can't be
// read: it is one too where the heads are at fault, else one of package table.
func (l List) Read(in io.Reader) (*Listing, error) {
	if err := l.Terms.check(); err != nil {
		return nil, err
	}
	if l.Table.Heads == nil {
		l.Table.Heads = append(Inputs(), l.Also...)
	}
	r, err := table.Open(in, l.Table)
	if err != nil {
		return nil, err
	}
	p, err := l.reader(r.Layout())
	if err != nil {
		return nil, err
	}
	out := &Listing{Notes: r.Layout().Notes()}
	var block table.Block
	for {
		if err := r.Next(&block); err == io.EOF {
			return out, nil
		} else if err != nil {
			return nil, err
		}
		for block.Record(&p.rec) {
			if out.Rows == mostRows {
				return nil, &table.CellError{File: r.Layout().Name, Line: p.rec.Line, Reason: fmt.Sprintf("more than %d rows", mostRows), Accepted: "the orders of one plan"}
			}
			switch p.rec.Class {
			case table.Data:
			case table.Footer:
				out.Rows, out.Footer = out.Rows+1, out.Footer+1
				continue
			case table.Bad, table.Changed:
				out.Rows, out.Bad = out.Rows+1, append(out.Bad, p.rec.Err)
				continue
			default:
				continue
			}
			out.Rows++
			r, o, err := p.order()
			if err != nil {
				out.Bad = append(out.Bad, err)
				continue
			}
			out.Orders, out.Requests = append(out.Orders, o), append(out.Requests, r)
			if l.Also != nil {
				out.Also = append(out.Also, p.further())
			}
		}
	}
}

// A rowReader turns a record into an order.
type rowReader struct {
	list    List
	layout  *table.Layout
	decimal byte
	at      [inputCount]int // column, or -1
	also    []int           // column of each further head, or -1
	rec     table.Record
}

// further returns the cells of the columns that are passed through.
func (p *rowReader) further() []Cell {
	var cells []Cell
	for _, at := range p.also {
		c := Cell{Column: at + 1}
		if at >= 0 && !table.Missing(p.rec.Cell(at)) {
			c.Text = strings.TrimSpace(string(p.rec.Cell(at)))
		}
		cells = append(cells, c)
	}
	return cells
}

func (l List) reader(layout *table.Layout) (*rowReader, error) {
	p := &rowReader{list: l, layout: layout, decimal: layout.Decimal}
	if p.decimal == 0 {
		p.decimal = '.'
	}
	var err error
	for i, in := range inputs {
		if p.at[i], err = l.column(layout, in.name); err != nil {
			return nil, err
		}
	}
	for _, name := range l.Also {
		at, err := l.column(layout, name)
		if err != nil {
			return nil, err
		}
		p.also = append(p.also, at)
	}
	switch {
	case p.at[inGrade] < 0 && l.Grades != nil:
		return nil, l.lacks(layout, "column grade", "grade")
	case p.at[inWidth] < 0:
		return nil, l.lacks(layout, "column width, want one such as \"width [mm]\"", "width")
	case p.at[inReels] < 0 && p.at[inMass] < 0:
		return nil, l.lacks(layout, "column reels and none ordered-mass, want one of them", "reels")
	}
	return p, nil
}

// column returns the index of the column of an input; -1 if the list has none.
func (l List) column(layout *table.Layout, input string) (int, error) {
	head, named := l.Columns[input]
	if !named {
		head = input
	}
	at, ok := layout.Find(head)
	switch n := len(layout.FindAll(head)); {
	case ok:
		return at, nil
	case n > 1:
		return 0, headsError(layout, fmt.Sprintf("%d columns are named %q", n, head), "one")
	case named:
		return 0, headsError(layout, fmt.Sprintf("no column %q for %s", head, input), "one of "+strings.Join(heads(layout), ", "))
	}
	return -1, nil
}

// lacks returns the error for a missing column, and says how to name one.
func (l List) lacks(layout *table.Layout, what, input string) error {
	text := fmt.Sprintf("no %s; the heads are %s", what, strings.Join(heads(layout), ", "))
	if l.Naming != "" {
		text += "; name its column with " + strings.Replace(l.Naming, "INPUT", input, 1)
	}
	return headsError(layout, text, "")
}

// headsError returns an error about the line of the heads.
func headsError(layout *table.Layout, reason, accepted string) error {
	return &table.CellError{File: layout.Name, Line: layout.HeadLine, Reason: reason, Accepted: accepted}
}

func heads(l *table.Layout) []string {
	var names []string
	for _, c := range l.Columns {
		names = append(names, c.Head)
	}
	return names
}

// cell returns the text of an input in this row, or "".
func (p *rowReader) cell(i int) string {
	if p.at[i] < 0 || table.Missing(p.rec.Cell(p.at[i])) {
		return ""
	}
	return string(p.rec.Cell(p.at[i]))
}

func (p *rowReader) refuse(i int, reason, accepted string) error {
	return &table.CellError{
		File: p.layout.Name, Line: p.rec.Line, Column: p.at[i] + 1, Head: inputs[i].name,
		Text: p.cell(i), Reason: reason, Accepted: accepted,
	}
}

// quantity reads a cell in its own unit or that of its column. An empty cell is not
// given.
func (p *rowReader) quantity(i int) (x float64, given bool, err error) {
	text := p.cell(i)
	if text == "" {
		return 0, false, nil
	}
	kind, _ := paperprop.KindNamed(inputs[i].kind) // of the list above
	cell := p.layout.Single([]byte(text))
	if p.decimal == ',' {
		text = strings.ReplaceAll(string(cell), ",", ".")
	} else {
		text = string(cell)
	}
	unit := p.layout.Columns[p.at[i]].Unit
	x, _, err = kind.Parse(text)
	var wrong *paperprop.UnitError
	if errors.As(err, &wrong) && wrong.Fault == paperprop.MissingUnit && unit != "" {
		x, _, err = kind.Parse(text + " " + unit)
	}
	if err == nil {
		if low, _ := kind.Range(); x < low && i == inWidth {
			return 0, false, p.refuse(i, "below zero", "above 0 mm")
		} else if x < low {
			return 0, false, p.refuse(i, "below zero", "from 0")
		}
		return x, true, nil
	}
	var number *paperprop.NumberError
	if errors.As(err, &number) {
		return 0, false, p.refuse(i, "not a number", example(i))
	}
	if errors.As(err, &wrong) && wrong.Fault == paperprop.MissingUnit {
		return 0, false, p.refuse(i, "unit missing", example(i))
	}
	if wrong != nil && wrong.Fault == paperprop.ForeignUnit && wrong.Reason != "" {
		return 0, false, p.refuse(i, err.Error(), "") // which tells more than the column takes
	}
	why, _, _ := strings.Cut(err.Error(), ", want") // what the column takes is said behind it
	return 0, false, p.refuse(i, why, example(i))
}

// example returns a typical cell of an input.
func example(i int) string {
	kind, _ := paperprop.KindNamed(inputs[i].kind)
	unit := kind.Print().String()
	if i == inMass {
		unit = "t or kg"
	}
	return "a number in " + unit
}

func (p *rowReader) count(i int) (n int, given bool, err error) {
	text := p.cell(i)
	if text == "" {
		return 0, false, nil
	}
	x, err := paperprop.ReadNumber(p.layout.Single([]byte(text)), p.decimal)
	if n = int(x); err != nil || float64(n) != x || n < 0 || n > 1e7 {
		return 0, false, p.refuse(i, "no whole number of "+inputs[i].name, "0 to 10000000")
	}
	return n, true, nil
}

// order reads the row.
func (p *rowReader) order() (r Request, o Order, err error) {
	r = Request{Name: p.cell(inOrder), Line: p.rec.Line, Grade: p.cell(inGrade), Group: p.cell(inGroup), Terms: p.list.Terms}
	if p.list.Grades != nil {
		t, ok := p.list.Grades[r.Grade]
		if !ok {
			return r, o, p.refuse(inGrade, "unknown", oneOf(r.Grade, p.list.Grades))
		}
		r.Terms = t
	}
	t := &r.Terms
	for _, q := range []struct {
		i  int
		to *float64
	}{
		{inWidth, r.Width.Number()}, {inMass, r.Mass.Number()}, {inUnder, t.UnderRun.Number()}, {inOver, t.OverRun.Number()},
		{inDiameter, t.Diameter.Number()}, {inCore, t.CoreDiameter.Number()}, {inDensity, t.RollDensity.Number()},
		{inGrammage, t.Grammage.Number()}, {inThickness, t.ReelThickness.Number()},
	} {
		x, given, err := p.quantity(q.i)
		if err != nil {
			return r, o, err
		}
		if given {
			*q.to = x
		}
	}
	var hasReels bool
	if r.Reels, hasReels, err = p.count(inReels); err != nil {
		return r, o, err
	}
	if r.Sheets, _, err = p.count(inSheets); err != nil {
		return r, o, err
	}
	_, hasMass, _ := p.quantity(inMass)
	switch {
	case p.cell(inWidth) == "" || r.Width <= 0:
		return r, o, p.refuse(inWidth, "no width", "above 0 mm")
	case hasReels && hasMass:
		return r, o, p.refuse(inMass, "beside reels", "one of reels and ordered-mass")
	case !hasReels && !(r.Mass > 0):
		i := inReels
		if p.at[i] < 0 || hasMass {
			i = inMass
		}
		return r, o, p.refuse(i, "nothing ordered", "reels or ordered-mass")
	}
	if under, given, _ := p.quantity(inUnder); given && under > 1 {
		return r, o, p.refuse(inUnder, "more than is ordered", "0 % to 100 %")
	}
	for _, i := range [...]int{inDiameter, inCore} {
		if x, given, _ := p.quantity(i); given {
			r.alike = append(r.alike, [...]string{inDiameter: "", inCore: "core "}[i]+paperprop.Length(x).String())
		}
	}
	if o, err = r.Order(); err != nil {
		i := inWidth
		if hasMass {
			i = inMass
		}
		return r, o, p.refuse(i, err.Error(), "") // the message says what is wanted
	}
	return r, o, nil
}

// oneOf names the grades; of many, those most like a name.
func oneOf(name string, grades map[string]Terms) string {
	all := slices.Sorted(maps.Keys(grades))
	if near := calc.Nearest(name, all); len(all) > 12 && len(near) > 0 {
		return "a grade of the book such as " + strings.Join(near, " or ")
	}
	return "one of " + strings.Join(all, ", ")
}

// reels sets up an order by number of reels.
func (t Terms) reels(o *Order, n int) error {
	least, most, err := Within(n, t.UnderRun, t.OverRun)
	if err != nil {
		return err
	}
	o.Reels, o.Least, o.Most, o.NoneWillDo = n, least, most, least == 0 && n > 0
	if density, err := t.density(); err == nil && t.Diameter > 0 {
		// The mass of a reel is that of its ring: any layer thickness of that
		// density gives it.
		m, err := reel.Mass{
			Diameter: t.Diameter, CoreDiameter: t.CoreDiameter, ReelWidth: o.Width, ReelThickness: paperprop.Millimetre,
			Grammage: paperprop.Grammage(density.In(paperprop.KilogramPerCubicMetre)) * paperprop.GramPerSquareMetre,
		}.Calculate()
		if err != nil {
			return err
		}
		o.ReelMass, o.Coreless = m.Mass, t.CoreDiameter == 0
	}
	return nil
}

// tonnes sets up an order by mass, to be met with whole reels.
func (t Terms) tonnes(o *Order, m paperprop.Mass) error {
	density, err := t.density()
	if err != nil {
		return err
	}
	if t.Diameter == 0 {
		return errors.New("a mass needs a diameter")
	}
	c := reel.Count{
		OrderedMass: m, ReelWidth: o.Width, Diameter: t.Diameter, CoreDiameter: t.CoreDiameter,
		RollDensity: density, UnderRun: t.UnderRun, OverRun: t.OverRun,
	}
	noneWillDo := t.UnderRun == 1
	if noneWillDo { // there is a count, and all of it may be left out
		c.UnderRun = mostUnder
	}
	n, err := c.Calculate()
	if err != nil {
		return unmet(c, err)
	}
	o.Reels, o.Least, o.Most = int(n.NearestReels), int(n.FewestReels), int(n.MostReels)
	if noneWillDo {
		o.Least, o.NoneWillDo = 0, true
	}
	o.ReelMass, o.OrderedMass, o.Coreless = n.ReelMass, m, t.CoreDiameter == 0
	return nil
}

// mostUnder is an under-run that still leaves a reel of any order.
const mostUnder = 1 - 1e-9

// unmet replaces an error by one that says which under- or over-run would be
// enough, if no whole number of reels is within those of an order. Any other error
// stays.
func unmet(c reel.Count, err error) error {
	c.OverRun = 1e9 // so wide that there is one, unless something else is wrong
	n, wrong := c.Calculate()
	if wrong != nil {
		return err
	}
	exact, one := float64(n.ExactReels), n.ReelMass.In(paperprop.Tonne)
	fewer := math.Floor(exact)
	more := fewer + 1
	over := upPercent(more/exact - 1)
	if fewer == 0 {
		return fmt.Errorf("one reel is %s t, more than over-run allows, want an over-run from %s", paperprop.People(one), over)
	}
	return fmt.Errorf("no whole number of reels lies within under-run and over-run: the nearest are %s t with %.0f and %s t with %.0f, want an under-run from %s or an over-run from %s",
		paperprop.People(fewer*one), fewer, paperprop.People(more*one), more, upPercent(1-fewer/exact), over)
}

// upPercent returns a share in per cent with two decimals, rounded up so that the
// value shown is enough. A share above two decimals only by its last digits is not
// rounded up.
func upPercent(x float64) string {
	return strconv.FormatFloat(math.Ceil(x*1e4-1e-7)/100, 'f', -1, 64) + " %"
}

func (t Terms) density() (paperprop.Density, error) {
	switch {
	case t.RollDensity > 0:
		return t.RollDensity, nil
	case t.Grammage > 0 && t.ReelThickness > 0:
		g, mm := t.Grammage.In(paperprop.GramPerSquareMetre), t.ReelThickness.In(paperprop.Millimetre)
		return paperprop.Density(g/mm) * paperprop.KilogramPerCubicMetre, nil
	}
	return 0, errors.New("a mass needs a roll density, or grammage and reel thickness")
}

// Within returns the fewest and most reels that under- and over-run allow, computed
// in decimals: 90 % of 30 reels is 27. If reels are ordered, a least of zero calls
// for NoneWillDo in an [Order].
func Within(reels int, under, over paperprop.Fraction) (least, most int, err error) {
	if reels < 0 {
		return 0, 0, fmt.Errorf("reels is %d, want from 0", reels)
	}
	if !(under >= 0 && under <= 1 && over >= 0 && over <= math.MaxFloat64) {
		return 0, 0, fmt.Errorf("under-run is %v and over-run %v, want 0 %% to 100 %% and from 0 %%", under, over)
	}
	share := func(x float64) *big.Rat {
		r, _ := new(big.Rat).SetString(strconv.FormatFloat(x, 'g', -1, 64)) // a float64's own text
		return r
	}
	n, one := big.NewRat(int64(reels), 1), big.NewRat(1, 1)
	low := new(big.Rat).Mul(n, new(big.Rat).Sub(one, share(float64(under))))
	high := new(big.Rat).Mul(n, new(big.Rat).Add(one, share(float64(over))))
	up := new(big.Int).Add(low.Num(), new(big.Int).Sub(low.Denom(), big.NewInt(1)))
	l, h := up.Quo(up, low.Denom()), new(big.Int).Quo(high.Num(), high.Denom())
	if !h.IsInt64() || h.Int64() > 1e7 {
		return 0, 0, fmt.Errorf("at most %v reels, want at most 10000000", h)
	}
	return int(l.Int64()), int(h.Int64()), nil
}
