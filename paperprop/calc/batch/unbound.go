package batch

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// given returns notes on what the job gives for every row, which the rows themselves do
// not show.
func (p *plan) given(s *calc.Sheet) (given []string) {
	for _, c := range s.In {
		unread := ""
		if at := p.layout.FindAll(c.Name); len(at) > 0 {
			unread = fmt.Sprintf("; column %d (%s) is not read", at[0]+1, p.layout.Columns[at[0]].Head)
		}
		switch {
		case c.Given():
			given = append(given, "given for every row: "+c.Name+" "+c.AsWritten()+unread)
		case givenToAll(c) && unread != "":
			given = append(given, "asked for in every row: "+c.Name+unread)
		}
	}
	for _, c := range s.Out {
		if c.Given() { // an input will be solved for
			given = append(given, "given for every row: "+c.Name+" "+c.AsWritten())
		}
	}
	return given
}

// givenToAll reports whether the job itself gives an input, or asks for it with "?".
func givenToAll(c *calc.Cell) bool { return c.Given() || c.AsWritten() == "?" }

// unknown returns the index of the input to solve for if an output is given: the one
// asked for, else the required one with neither a column nor a value. It is below zero
// if no output is given.
func (p *plan) unknown(s *calc.Sheet) (int, error) {
	target := p.target(s)
	if target == nil {
		return -1, nil
	}
	if asked := slices.IndexFunc(s.In, func(c *calc.Cell) bool { return c.AsWritten() == "?" }); asked >= 0 {
		return asked, nil
	}
	missing := slices.DeleteFunc(slices.Clone(s.In), func(c *calc.Cell) bool {
		return c.Need != calc.Required || c.Given() || p.binds(s, c)
	})
	if len(missing) == 1 {
		return slices.Index(s.In, missing[0]), nil
	}
	why := "an output, and no required input is left out: leave one out, or give the one asked for as ?"
	if len(missing) > 1 {
		why = fmt.Sprintf("an output, from which one input is solved for, and %s have no column and no value", strings.Join(names(missing), ", "))
	}
	return -1, &calc.InputError{Input: target.Name, Text: cmp.Or(target.AsWritten(), strings.Join(p.Columns[target.Name], ", ")), Err: errors.New(why)}
}

// target returns the output that is given, as a constant or by a column, or that a
// surplus input becomes; nil if there is none.
func (p *plan) target(s *calc.Sheet) *calc.Cell {
	given := func(c *calc.Cell) bool { return c.Given() || p.binds(s, c) }
	if i := slices.IndexFunc(s.Out, given); i >= 0 {
		return s.Out[i]
	}
	if p.Lot != "" {
		return nil // a lot is not solved for an input
	}
	return s.Surplus(given)
}

// binds reports whether a column gives a cell.
func (p *plan) binds(s *calc.Sheet, c *calc.Cell) bool {
	cells := bindable(s)
	return slices.ContainsFunc(p.columns, func(col column) bool { return cells[col.cell] == c })
}

// results returns the cells written for each row: the outputs, preceded by the input
// that is solved for.
func (p *plan) results(s *calc.Sheet) []*calc.Cell {
	if p.sought < 0 {
		return s.Out
	}
	root := s.In[p.sought]
	others := slices.DeleteFunc(slices.Clone(s.Out), func(c *calc.Cell) bool { return c.Name == root.Name })
	return append([]*calc.Cell{root}, others...)
}

// unbound handles inputs with neither a column nor a value: a required one ends the
// work before the first row, and a default is noted, as the results do not show it.
func (p *plan) unbound(s *calc.Sheet) (assumed []string, err error) {
	solved := p.target(s) != nil
	for _, c := range s.In {
		if givenToAll(c) || p.binds(s, c) || c.Need == calc.Optional || solved && c.Need == calc.Required {
			continue
		}
		like := p.like(c)
		switch {
		case c.Need == calc.Required && like == "":
			return nil, p.unboundError(c, p.shares(c.Name))
		case like != "":
			return nil, p.unboundError(c, like)
		}
		assumed = append(assumed, "default in every row: "+c.Name+" "+c.Default())
	}
	if solved {
		return assumed, nil
	}
	return assumed, p.unmet(s)
}

// unmet refuses a table in which no row can give as many inputs as a choice wants.
func (p *plan) unmet(s *calc.Sheet) error {
	for _, choice := range p.Calculation.Info().Exactly {
		have, open := p.ways(s, choice)
		if have >= choice.N {
			continue
		}
		for _, c := range open {
			like := cmp.Or(p.like(c), p.shares(c.Name))
			if at, ok := p.layout.Find(like); ok && takes(c, p.layout.Columns[at].Unit) { // else it may be any
				return p.unboundError(c, like)
			}
		}
		short := &calc.ChoiceError{Choice: choice}
		for _, name := range slices.Concat(choice.Of...) {
			if c, _ := s.Input(name); c.Given() || p.binds(s, c) {
				short.Given = append(short.Given, name)
			}
		}
		return &UnboundError{File: p.layout.Name, Calculation: p.Calculation.ID(), Heads: heads(p.layout), Choice: short}
	}
	return nil
}

// ways returns how many ways of a choice have all their columns or values, and the inputs
// that lack theirs.
func (p *plan) ways(s *calc.Sheet, choice calc.Choice) (have int, open []*calc.Cell) {
	for _, names := range choice.Of {
		whole := true
		for _, name := range names {
			c, _ := s.Input(name)
			if c.Given() || p.binds(s, c) {
				continue
			}
			whole = false
			if !givenToAll(c) { // it is not asked for
				open = append(open, c)
			}
		}
		if whole {
			have++
		}
	}
	return have, open
}

// crowded returns notes on choices of which the columns give more than a row may.
func (p *plan) crowded(s *calc.Sheet) (notes []string) {
	for _, choice := range p.Calculation.Info().Exactly {
		if have, _ := p.ways(s, choice); have > choice.N && p.target(s) == nil {
			notes = append(notes, fmt.Sprintf("a row gives %v; what is asked for as ? reads no column", choice))
		}
	}
	return notes
}

// like returns an unread head that is similar to the name of an input; empty if there
// is none. Of several, that with a unit of the input is meant: the thickness [um], and not
// the reel, is a reel-thickness.
func (p *plan) like(c *calc.Cell) string {
	name, found := plain(c.Name), ""
	for at, head := range heads(p.layout) {
		if p.reads(at) || head == "" {
			continue
		}
		if !strings.HasPrefix(plain(head), name) && (len(name) < 4 || len(calc.Nearest(plain(head), []string{name})) == 0) {
			continue
		}
		if takes(c, p.layout.Columns[at].Unit) {
			return head
		}
		found = cmp.Or(found, head)
	}
	return found
}

// shares returns the one unread head that has all words of a name: "Peak force". Of
// two such heads none is suggested, nor is a head alone, which may be several heads
// parted by blanks.
func (p *plan) shares(name string) string {
	found := ""
	all := heads(p.layout)
	if len(all) == 1 {
		return ""
	}
	for at, head := range all {
		words := strings.Fields(plain(head))
		lacks := func(word string) bool { return !slices.Contains(words, word) }
		switch {
		case p.reads(at) || slices.ContainsFunc(strings.Fields(plain(name)), lacks):
		case found != "":
			return ""
		default:
			found = head
		}
	}
	return found
}

func plain(text string) string {
	return strings.ToLower(strings.NewReplacer("-", " ", "_", " ").Replace(text))
}

// noColumn returns the error for a table that has nothing for the calculation.
func (p *plan) noColumn(s *calc.Sheet) error {
	for _, c := range s.In {
		if like := p.like(c); like != "" && !c.Given() {
			return p.unboundError(c, like)
		}
	}
	for _, c := range s.In {
		if shares := p.shares(c.Name); shares != "" && !c.Given() && c.Need == calc.Required {
			return p.unboundError(c, shares)
		}
	}
	return &UnboundError{File: p.layout.Name, Calculation: p.Calculation.ID(), Heads: heads(p.layout), Inputs: names(s.In)}
}

// unboundError returns the error for an input, with a head that may be meant for it.
func (p *plan) unboundError(c *calc.Cell, like string) error {
	e := &UnboundError{File: p.layout.Name, Calculation: p.Calculation.ID(), Input: c.Name, Like: like, Unit: bareUnit(c, like),
		Heads: heads(p.layout), field: c.Field}
	for _, f := range p.Calculation.Info().Out {
		if at := p.layout.FindAll(f.Name); len(at) == 1 && !p.reads(at[0]) && f.Shape == calc.One {
			e.Output = f.Name
			break
		}
	}
	return e
}

// bareUnit returns the unit in "Moisture %" and "Residue mg". Such a head is suggested,
// never used: "sheet B" has no unit. Of an input of any unit, the text before it must be
// the name.
func bareUnit(c *calc.Cell, head string) string {
	if c.Shape == calc.Word {
		return ""
	}
	const longest = 200 // a longer head is no name with a unit
	for i := range min(len(head), longest) {
		if head[i] != ' ' || c.Kind == nil && plain(head[:i]) != plain(c.Name) {
			continue
		}
		unit := strings.TrimSpace(head[i:])
		if unit != "1" && takes(c, unit) {
			return unit
		}
	}
	return ""
}

// looseUnit parts the head of a value of any unit, "Burst strength kPa". The letters A
// to F are more often names of samples and laboratories.
func looseUnit(head string) (name, unit string) {
	i := strings.LastIndexByte(head, ' ')
	if i < 0 {
		return head, ""
	}
	name, unit = head[:i], head[i+1:]
	if _, err := paperprop.ParseUnit(unit); err != nil || unit == "1" || len(unit) == 1 && 'A' <= unit[0] && unit[0] <= 'F' {
		return head, ""
	}
	return name, unit
}

func (p *plan) reads(at int) bool {
	return slices.ContainsFunc(p.columns, func(col column) bool { return slices.Contains(col.at, at) })
}

// unread returns notes on the columns that give no input. One of units is told apart, as
// rows in another unit than that of the head would be computed all the same.
func (p *plan) unread() []string {
	var names, notes []string
	for at, head := range heads(p.layout) {
		if p.reads(at) {
			continue
		}
		names = append(names, fmt.Sprintf("%d (%s)", at+1, head))
		asked := slices.ContainsFunc(p.Only, func(o calc.Pair) bool { return slices.Contains(p.layout.FindAll(o.Name), at) })
		if words := strings.Fields(plain(head)); !asked && (slices.Contains(words, "unit") || slices.Contains(words, "units")) {
			notes = append(notes, fmt.Sprintf("column %d (%s) is not read: ask only for the rows of one unit, and name that in the head", at+1, head))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return append(notes, "no input: column "+strings.Join(names, ", "))
}
