package batch

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A Group is the summary of the rows that share some cells.
type Group struct {
	Key     []string
	Results []Result
	LeftOut int // number of rows that could not be computed

	line     int // of the first row
	computed int // number of rows
	labels   []label
}

// A Result is the summary of one output.
type Result struct {
	Cell   *calc.Cell // describes the output; its value means nothing
	Count  int
	Values result.Running
	Words  map[string]int // how often each word occurred, for an output that is a word

	unit paperprop.Unit // unit of the first value: a price is in the currency of its row
	line int            // line of that value
}

// in refuses a value in another unit than those before it.
func (r *Result) in(u paperprop.Unit, line int) error {
	if r.Count == 0 {
		r.unit, r.line = u, line
	}
	if r.unit == u {
		return nil
	}
	return fmt.Errorf("%s is in %v, and in %v in line %d: a summary takes one currency, want By a column that separates them", r.Cell.Name, u, r.unit, r.line)
}

// mostResults limits the results of all groups, and so the memory that a table can
// take.
const mostResults = 40_000

// groups keeps the groups in order of first appearance.
type groups struct {
	list  []Group
	index map[string]int
}

// of returns the index of the group of the worker's row.
func (g *groups) of(w *worker) int {
	w.key = w.key[:0]
	for _, at := range w.by {
		w.key = append(append(w.key, w.rec.Cell(at)...), 0)
	}
	if i, ok := g.index[string(w.key)]; ok {
		return i
	}
	return g.open(string(w.key), w)
}

func (g *groups) leaveOut(w *worker) { g.list[g.of(w)].LeftOut++ }

// add adds the results of a row. It refuses those that cannot be summarised with the
// results before them.
func (g *groups) add(w *worker) error {
	i := g.of(w)
	for k := range g.list[i].Results {
		r := &g.list[i].Results[k]
		if c := r.Cell; c.Shape != calc.Word && c.Present() {
			if err := r.in(c.PrintUnit(), w.rec.Line); err != nil {
				return &RowError{File: w.layout.Name, Line: w.rec.Line, Err: err}
			}
		}
	}
	g.list[i].computed++
	for k, l := range w.labels {
		w.scratch = labelText(w.scratch[:0], w.cells[l.column])
		g.list[i].labels[k].add(w.scratch, w.rec.Line)
	}
	for k := range g.list[i].Results {
		r := &g.list[i].Results[k]
		switch c := r.Cell; {
		case !c.Present():
		case c.Shape == calc.Word:
			r.Count++
			r.Words[c.Word()]++
		default:
			r.Count++
			r.Values.Add(c.Number())
		}
	}
	return nil
}

func (g *groups) open(key string, w *worker) int {
	var keys []string
	for _, at := range w.by {
		keys = append(keys, string(w.rec.Cell(at)))
	}
	group := Group{Key: keys, line: w.rec.Line, labels: make([]label, len(w.labels))}
	for _, c := range w.results {
		switch c.Shape {
		case calc.One:
			group.Results = append(group.Results, Result{Cell: c})
		case calc.Word:
			group.Results = append(group.Results, Result{Cell: c, Words: map[string]int{}})
		}
	}
	return g.put(key, group)
}

func (g *groups) put(key string, group Group) int {
	if g.index == nil {
		g.index = map[string]int{}
	}
	g.index[key] = len(g.list)
	g.list = append(g.list, group)
	return len(g.list) - 1
}

// merge adds the groups of the next block of a file. It refuses one that exceeds the
// limit, and one that cannot be summarised with what came before.
func (g *groups) merge(o groups, file string) error {
	for _, group := range o.list {
		key := ""
		for _, cell := range group.Key {
			key += cell + "\x00"
		}
		i, ok := g.index[key]
		if !ok {
			if g.put(key, group); len(g.list)*len(group.Results) > mostResults {
				return &RowError{File: file, Line: group.line, Err: fmt.Errorf("group %q is one too many for a summary, which holds at most %d results: want By columns with fewer different cells",
					strings.Join(group.Key, ", "), mostResults)}
			}
			continue
		}
		g.list[i].LeftOut += group.LeftOut
		g.list[i].computed += group.computed
		for k, l := range group.labels {
			g.list[i].labels[k].merge(l)
		}
		for k, more := range group.Results {
			if err := g.list[i].Results[k].merge(more); err != nil {
				return &RowError{File: file, Line: more.line, Err: err}
			}
		}
	}
	return nil
}

func (r *Result) merge(o Result) error {
	if o.Count > 0 && r.Words == nil {
		if err := r.in(o.unit, o.line); err != nil {
			return err
		}
	}
	r.Count += o.Count
	r.Values.Merge(o.Values)
	for word, n := range o.Words {
		r.Words[word] += n
	}
	return nil
}

// GroupUnnamed is the code of the warning that rows are summed up by a cell that is empty.
// A spreadsheet may show a name once for the rows below it: without it they are the rows
// of no specimen, or of several.
const GroupUnnamed = "group-unnamed"

// sayUnnamed warns of rows of which a cell that By names is empty.
func (p *plan) sayUnnamed(t *Totals) {
	var unnamed []string
	rows := 0
	for i := range t.Groups {
		g := &t.Groups[i]
		if !slices.Contains(g.Key, "") {
			continue
		}
		rows += g.computed + g.LeftOut
		for k, cell := range g.Key {
			if head := p.By[k]; cell == "" && !slices.Contains(unnamed, head) {
				unnamed = append(unnamed, head)
			}
		}
	}
	if rows > 0 {
		t.warn(GroupUnnamed, fmt.Sprintf("an empty cell of %s counts as a name of its own, whatever stands above it: write the name in each row", strings.Join(unnamed, ", ")), rows)
	}
}

// RowUnnamed is the code of the warning that a row without a name counts as a reading.
// It may be one of the specimen above it, or a total.
const RowUnnamed = "row-unnamed"

// sayUnnamedRow warns of a row that counts though it has no name, unless it is summed up
// by that.
func (w *worker) sayUnnamedRow(t *Totals) {
	if at, ok := w.layout.Unnamed(&w.rec); ok && !slices.Contains(w.by, at) {
		t.warn(RowUnnamed, fmt.Sprintf("no name in column %d (%s), and the row counts as a reading: write the name in each row, and none beside a total", at+1, w.layout.Columns[at].Head), 1)
	}
}
