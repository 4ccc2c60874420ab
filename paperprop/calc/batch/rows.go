package batch

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
	"millmaths.example/paperprop/table"
)

// A block of rows on its way from the reader past a worker to the writer.
type block struct {
	text   table.Block
	out    []byte
	totals Totals
	told   []error
	groups groups
	done   chan struct{}
}

// runRows reads in one goroutine, computes in several and writes in order.
func (p *plan) runRows(ctx context.Context, r *table.Reader, out io.Writer) (Totals, error) {
	var totals Totals
	first, err := p.worker()
	if err != nil {
		return totals, err
	}
	workers := []*worker{first}
	for len(workers) < p.workers() {
		w, err := p.worker()
		if err != nil {
			return totals, err
		}
		workers = append(workers, w)
	}
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	blocks := len(workers) + 2
	free, work, order := make(chan *block, blocks), make(chan *block, blocks), make(chan *block, blocks)
	for range blocks {
		free <- &block{done: make(chan struct{}, 1)}
	}
	var readErr error
	var group sync.WaitGroup
	group.Add(1)
	go func() {
		defer group.Done()
		readErr = read(ctx, r, free, work, order)
	}()
	for _, w := range workers {
		group.Add(1)
		go func() {
			defer group.Done()
			for b := range work {
				w.block(b)
				b.done <- struct{}{}
			}
		}()
	}
	summary := groups{}
	writeErr := p.writeHead(out, first.sheet)
	for b := range order {
		<-b.done
		if writeErr == nil {
			if _, writeErr = out.Write(b.out); writeErr != nil {
				cancel()
			}
			for _, err := range b.told {
				p.tell(err)
			}
			totals.add(&b.totals)
			summary.merge(b.groups)
		}
		free <- b
	}
	group.Wait()
	totals.Groups = summary.list
	switch {
	case writeErr != nil:
		return totals, writeErr
	default:
		return totals, readErr
	}
}

// read hands blocks to the workers and, in the same order, to the writer.
func read(ctx context.Context, r *table.Reader, free <-chan *block, work, order chan<- *block) error {
	defer close(order)
	defer close(work)
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		b := <-free
		err := r.Next(&b.text)
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		work <- b
		order <- b
	}
}

func (p *plan) tell(err error) {
	if p.Tell != nil {
		p.Tell(err)
	}
}

// writeHead writes the heads of the table and of the results, with units.
func (p *plan) writeHead(out io.Writer, s *calc.Sheet) error {
	var line []byte
	for _, c := range p.layout.Columns {
		head := c.Head
		if c.Unit != "" {
			head += " [" + c.Unit + "]"
		}
		line = p.appendCell(line, []byte(head))
	}
	line = p.appendOutputHeads(line, s)
	line = p.appendCell(line, []byte("remark"))
	line[len(line)-1] = '\n'
	_, err := out.Write(line)
	return err
}

func (p *plan) appendOutputHeads(line []byte, s *calc.Sheet) []byte {
	for _, o := range p.outputs {
		line = p.appendCell(line, []byte(outputHead(s.Out[o])))
	}
	return line
}

func outputHead(c *calc.Cell) string {
	if u := c.PrintUnit().String(); u != "" && u != "1" {
		return c.Name + " [" + u + "]"
	}
	return c.Name
}

// appendCell appends a cell and a delimiter.
func (p *plan) appendCell(line, cell []byte) []byte {
	return append(table.AppendCSV(line, p.delimiter(), cell), p.delimiter())
}

func (p *plan) delimiter() byte {
	if p.layout.Delimiter == 0 {
		return ','
	}
	return p.layout.Delimiter
}

// block computes the rows of a block.
func (w *worker) block(b *block) {
	b.out, b.told, b.totals = b.out[:0], b.told[:0], Totals{}
	b.groups = groups{}
	for b.text.Record(&w.rec) {
		switch w.rec.Class {
		case table.Data:
			b.totals.Rows++
			w.row(b)
		case table.Footer:
			b.totals.Rows++
			b.totals.Reported++
			b.totals.Footers++
			w.unused(b, "footer: not counted")
		case table.Bad, table.Changed:
			b.totals.Rows++
			w.fail(b, w.rec.Err)
		}
	}
}

func (w *worker) row(b *block) {
	if err := w.compute(); err != nil {
		w.fail(b, err)
		return
	}
	b.totals.Computed++
	b.out = w.appendInput(b.out)
	for _, o := range w.outputs {
		b.out = w.appendResult(b.out, w.sheet.Out[o])
		b.out = append(b.out, w.delimiter())
	}
	if len(w.sheet.Warnings()) > 0 {
		b.out = w.warn(b.out, &b.totals)
	}
	b.out = append(b.out, '\n')
	if len(w.by) > 0 {
		b.groups.add(w)
	}
}

// appendResult appends a number with the decimal sign of the file.
func (w *worker) appendResult(dst []byte, c *calc.Cell) []byte {
	from := len(dst)
	if w.quote {
		dst = append(dst, '"')
	}
	dst = c.AppendNumber(dst, w.Full)
	if w.decimal != '.' && c.Shape != calc.Word {
		for i := from; i < len(dst); i++ {
			if dst[i] == '.' {
				dst[i] = w.decimal
			}
		}
	}
	if w.quote {
		dst = append(dst, '"')
	}
	return dst
}

// appendInput appends the row as it was read, and a delimiter.
func (w *worker) appendInput(dst []byte) []byte {
	raw := bytes.TrimRight(w.rec.Raw, "\r\n")
	n := len(w.layout.Columns)
	if len(w.rec.Fields) == n && bytes.IndexByte(raw, '"') < 0 && bytes.Count(raw, []byte{w.delimiter()}) == n-1 {
		return append(append(dst, raw...), w.delimiter())
	}
	for i := range n {
		dst = w.appendCell(dst, w.rec.Cell(i))
	}
	return dst
}

func (w *worker) fail(b *block, err error) {
	b.totals.Reported++
	b.totals.Failed++
	b.told = append(b.told, err)
	w.unused(b, remark(err))
}

// unused keeps a row in its place, without results and with the reason.
func (w *worker) unused(b *block, reason string) {
	b.out = w.appendInput(b.out)
	for range w.outputs {
		b.out = append(b.out, w.delimiter())
	}
	b.out = table.AppendCSV(b.out, w.delimiter(), []byte(reason))
	b.out = append(b.out, '\n')
}

// A Group is the summary of the rows that share some cells.
type Group struct {
	Key     []string
	Results []Result
}

// A Result is the summary of one output.
type Result struct {
	Cell   *calc.Cell // a cell of its kind: its own value means nothing
	Count  int
	Values result.Running
}

// groups keeps the groups in order of first appearance.
type groups struct {
	list  []Group
	index map[string]int
}

func (g *groups) add(w *worker) {
	w.key = w.key[:0]
	for _, at := range w.by {
		w.key = append(append(w.key, w.rec.Cell(at)...), 0)
	}
	i, ok := g.index[string(w.key)]
	if !ok {
		i = g.open(string(w.key), w)
	}
	for k := range g.list[i].Results {
		r := &g.list[i].Results[k]
		if c := w.sheet.Out[slices.Index(w.sheet.Out, r.Cell)]; c.Present() {
			r.Count++
			r.Values.Add(c.Number())
		}
	}
}

func (g *groups) open(key string, w *worker) int {
	var keys []string
	for _, at := range w.by {
		keys = append(keys, string(w.rec.Cell(at)))
	}
	group := Group{Key: keys}
	for _, c := range w.sheet.Out {
		if c.Shape == calc.One {
			group.Results = append(group.Results, Result{Cell: c})
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

// merge takes the groups of the next block.
func (g *groups) merge(o groups) {
	for _, group := range o.list {
		key := strings.Join(group.Key, "\x00") + "\x00"
		i, ok := g.index[key]
		if !ok {
			g.put(key, group)
			continue
		}
		for k := range group.Results {
			g.list[i].Results[k].Count += group.Results[k].Count
			g.list[i].Results[k].Values.Merge(group.Results[k].Values)
		}
	}
}

// WriteSummary writes a line for each group and output: how many rows, mean,
// s, coefficient of variation, confidence interval, and the mean as the method
// reports it.
func (t *Totals) WriteSummary(out io.Writer, by []string, confidence float64) error {
	var b bytes.Buffer
	for _, head := range by {
		b.WriteString(head + ",")
	}
	fmt.Fprintf(&b, "result,n,mean,s,coefficient of variation [%%],lower,upper,confidence [%%],unit,reported mean,rule\n")
	for _, g := range t.Groups {
		for _, r := range g.Results {
			if r.Count == 0 {
				continue
			}
			m, err := r.Values.Summary(confidence)
			if err != nil {
				return err
			}
			var line []byte
			for _, key := range g.Key {
				line = append(table.AppendCSV(line, ',', []byte(key)), ',')
			}
			line = appendSummary(line, r.Cell, m, confidence)
			b.Write(append(line, '\n'))
		}
	}
	_, err := out.Write(b.Bytes())
	return err
}
