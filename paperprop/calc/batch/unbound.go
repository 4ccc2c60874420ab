package batch

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// given says what holds for every row because the job says so: nobody would find
// it in the rows.
func (p *plan) given(s *calc.Sheet) (given []string) {
	for _, c := range s.In {
		if !c.Given() {
			continue
		}
		text := "given for every row: " + c.Name + " " + c.AsWritten()
		if at := p.layout.FindAll(c.Name); len(at) > 0 {
			text += fmt.Sprintf("; column %d (%s) is not read", at[0]+1, p.layout.Columns[at[0]].Head)
		}
		given = append(given, text)
	}
	for _, c := range s.Out {
		if c.Given() { // an input is to be solved for
			given = append(given, "given for every row: "+c.Name+" "+c.AsWritten())
		}
	}
	return given
}

// unbound sees to the inputs that have neither a column nor a value: one that
// is required ends the work before the first row, and a default is said, for
// nobody should find it in the results.
func (p *plan) unbound(s *calc.Sheet) (assumed []string, err error) {
	if slices.ContainsFunc(s.Out, (*calc.Cell).Given) {
		return nil, nil // an input is to be solved for
	}
	for i, c := range s.In {
		if c.Given() || slices.ContainsFunc(p.columns, func(col column) bool { return col.cell == i }) || c.Need == calc.Optional {
			continue
		}
		like := p.like(c.Name)
		switch {
		case c.Need == calc.Required && like == "":
			return nil, fmt.Errorf("%s: no column for %s and no value: heads are %s; name its column with --column %[2]s=HEAD, or give --%[2]s for all rows",
				p.layout.Name, c.Name, strings.Join(heads(p.layout), ", "))
		case like != "":
			return nil, p.misnamed(c, like)
		}
		assumed = append(assumed, "default in every row: "+c.Name+" "+c.Default())
	}
	return assumed, nil
}

// like is a head that nobody read and that looks like the name of an input.
func (p *plan) like(name string) string {
	for at, head := range heads(p.layout) {
		if p.reads(at) || head == "" {
			continue
		}
		if strings.HasPrefix(plain(head), plain(name)) || len(name) >= 4 && len(calc.Nearest(plain(head), []string{plain(name)})) > 0 {
			return head
		}
	}
	return ""
}

func plain(text string) string {
	return strings.ToLower(strings.NewReplacer("-", " ", "_", " ").Replace(text))
}

// noColumn is the error of a table that has nothing for the calculation.
func (p *plan) noColumn(s *calc.Sheet) error {
	for _, c := range s.In {
		if like := p.like(c.Name); like != "" && !c.Given() {
			return p.misnamed(c, like)
		}
	}
	return fmt.Errorf("%s: no column is called as an input of %s: heads are %s, inputs are %s; name one with --column INPUT=HEAD",
		p.layout.Name, p.Calculation.ID(), strings.Join(heads(p.layout), ", "), strings.Join(names(s.In), ", "))
}

// misnamed is the error of an input that a head looks like.
func (p *plan) misnamed(c *calc.Cell, head string) error {
	name, unit := bareUnit(c, head)
	if unit == "" {
		return fmt.Errorf("%s: no column for %s: is it %q? Name it with --column %[2]s=%[3]q, or give --%[2]s for all rows",
			p.layout.Name, c.Name, head)
	}
	return fmt.Errorf("%s: no column for %s: is it %q? A unit behind a name wants brackets: write \"%s [%s]\", or name the column with --column %[2]s=\"%[3]s [%[5]s]\", or give --%[2]s for all rows",
		p.layout.Name, c.Name, head, name, unit)
}

// bareUnit parts "Moisture %" into the name of an input and its unit. It is not taken
// for that unasked: "sheet B" has no unit.
func bareUnit(c *calc.Cell, head string) (name, unit string) {
	if c.Shape == calc.Word {
		return "", ""
	}
	const longest = 200 // a longer head is no name with a unit
	for i := range min(len(head), longest) {
		if head[i] != ' ' || plain(head[:i]) != plain(c.Name) {
			continue
		}
		name, unit = head[:i], strings.TrimSpace(head[i:])
		var err error
		if c.Kind == nil {
			_, err = paperprop.ParseUnit(unit)
		} else {
			_, err = c.Kind.Unit(unit)
		}
		if err == nil && unit != "1" {
			return name, unit
		}
	}
	return "", ""
}

func (p *plan) reads(at int) bool {
	return slices.ContainsFunc(p.columns, func(col column) bool { return slices.Contains(col.at, at) })
}

// unread says which columns are no input.
func (p *plan) unread() []string {
	var names []string
	for at, head := range heads(p.layout) {
		if !p.reads(at) {
			names = append(names, fmt.Sprintf("%d (%s)", at+1, head))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{"no input: column " + strings.Join(names, ", ")}
}
