package batch

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
)

// A label holds what the rows of a group say of an input without which a result means
// nothing, such as the time of a Cobb value. Of different values it keeps only the
// first two, with their lines: enough for a warning, and bounded.
type label struct {
	values [2]string // for people to read; the second is unset if all rows agree
	lines  [2]int    // 0: unset
}

func (l *label) add(value []byte, line int) {
	switch {
	case l.lines[0] == 0:
		l.values[0], l.lines[0] = string(value), line
	case l.lines[1] == 0 && string(value) != l.values[0]:
		l.values[1], l.lines[1] = string(value), line
	}
}

// merge adds what later rows say.
func (l *label) merge(o label) {
	for i, line := range o.lines {
		if line > 0 {
			l.add([]byte(o.values[i]), line)
		}
	}
}

func (l label) differs() bool { return l.lines[1] > 0 }

// labelText appends the value of a label for a person to read.
func labelText(dst []byte, c *calc.Cell) []byte {
	if !c.Present() {
		return append(dst, "none"...)
	}
	dst = c.AppendNumber(dst, false)
	if unit := c.PrintUnit().String(); c.Shape != calc.Word && unit != "" && unit != "1" {
		dst = append(append(dst, ' '), unit...)
	}
	return dst
}

// LabelDiffers is the code of the warning that a group mixes results that cannot be
// compared, because an input that belongs to the result differs.
const LabelDiffers = "label-differs"

// A labelColumn is a column of the plan that gives a label.
type labelColumn struct {
	input  string
	column int // of the plan
}

// findLabels finds the columns that give labels.
func (p *plan) findLabels(s *calc.Sheet) {
	cells := bindable(s)
	for i, col := range p.columns {
		if c := cells[col.cell]; c.Label {
			p.labels = append(p.labels, labelColumn{c.Name, i})
		}
	}
}

// sayLabels reports the labels of a summary: as assumed if the rows of each group
// agree, else as a warning.
func (p *plan) sayLabels(t *Totals) {
	var differ []string
	for k, l := range p.labels {
		if text := labelDiffers(k, t.Groups); text != "" {
			head := p.layout.Columns[p.columns[l.column].at[0]].Head
			differ = append(differ, fmt.Sprintf("%s is %s, and a result means nothing without it: column %q separates them", l.input, text, head))
		} else if text := labelAgrees(k, t.Groups); text != "" {
			t.Assumed = append(t.Assumed, l.input+" "+text)
		}
	}
	if len(differ) == 0 {
		return
	}
	rows := 0
	for i := range t.Groups {
		if g := &t.Groups[i]; slices.ContainsFunc(g.labels, label.differs) {
			rows += g.computed
		}
	}
	t.warn(LabelDiffers, strings.Join(differ, "; "), rows)
}

// labelDiffers describes the first group whose rows differ in label k.
func labelDiffers(k int, groups []Group) string {
	var first *Group
	more := 0
	for i := range groups {
		switch g := &groups[i]; {
		case !g.labels[k].differs():
		case first == nil:
			first = g
		default:
			more++
		}
	}
	if first == nil {
		return ""
	}
	l := &first.labels[k]
	text := fmt.Sprintf("%s (line %d) and %s (line %d)", l.values[0], l.lines[0], l.values[1], l.lines[1])
	if len(first.Key) > 0 {
		text += " in " + first.name()
	}
	if more > 0 {
		text += fmt.Sprintf(" and likewise in %d more", more)
	}
	return text
}

// mostNamed limits the groups that are named with their labels.
const mostNamed = 6

// labelAgrees describes label k if the rows of each group agree. Groups without a
// computed row are left out.
func labelAgrees(k int, groups []Group) string {
	first, same, said := "", true, 0
	var texts []string
	for i := range groups {
		l := &groups[i].labels[k]
		if l.lines[0] == 0 {
			continue
		}
		if said == 0 {
			first = l.values[0]
		}
		same = same && l.values[0] == first
		if said++; said <= mostNamed {
			texts = append(texts, l.values[0]+" in "+groups[i].name())
		}
	}
	switch {
	case said == 0:
		return ""
	case same:
		return first + " in every row"
	case said > mostNamed:
		return fmt.Sprintf("%s, and so on in %d more", strings.Join(texts, ", "), said-mostNamed)
	}
	return strings.Join(texts, ", ")
}

// name returns the group as named in a sentence.
func (g *Group) name() string { return fmt.Sprintf("group %q", strings.Join(g.Key, ", ")) }
