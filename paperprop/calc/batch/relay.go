package batch

import (
	"context"
	"io"
	"sync"

	"millmaths.example/paperprop/table"
)

// A relay passes the table between the workers: one at a time reads a block, and the
// blocks are written in the order in which they were read.
type relay struct {
	ctx context.Context

	reading sync.Mutex // guards the next three fields
	reader  *table.Reader
	last    <-chan struct{} // closed when the block read last has been written
	end     error           // why no further block is read

	// The rest belongs to the worker whose turn it is to write.
	file    string
	out     io.Writer
	tell    func(error)
	totals  Totals
	summary groups
	err     error // why nothing more is written
}

// A block holds rows and their outcome. Each worker reuses one.
type block struct {
	text   table.Block
	out    []byte
	aside  *[]byte // destination of rows without results; nil: out, in their place
	totals Totals
	told   []error
	groups groups
	end    error // error after which no later block may be used

	before <-chan struct{} // closed when it is this block's turn
	after  chan struct{}   // to be closed when the turn is over
}

// runRows computes the table row by row.
func (p *plan) runRows(ctx context.Context, reader *table.Reader, out io.Writer) (Totals, error) {
	workers := make([]*worker, p.workers())
	for i := range workers {
		var err error
		if workers[i], err = p.worker(); err != nil {
			return Totals{}, err
		}
	}
	if err := write(out, p.appendHead(nil, workers[0].sheet)); err != nil {
		return Totals{}, err
	}
	first := make(chan struct{})
	close(first)
	r := &relay{ctx: ctx, reader: reader, last: first, file: p.layout.Name, out: out, tell: p.tell}
	var group sync.WaitGroup
	for _, w := range workers {
		group.Go(func() { w.run(r) })
	}
	group.Wait()
	r.totals.Groups = r.summary.list
	switch {
	case r.err != nil:
		return r.totals, r.err
	case r.end != io.EOF:
		return r.totals, r.end
	}
	return r.totals, nil
}

// run takes one block after another from reading to writing.
func (w *worker) run(r *relay) {
	var b block
	for r.read(&b) {
		w.computeBlock(&b)
		<-b.before
		r.write(&b)
		close(b.after)
	}
}

// read reads the next block and reports whether there is one.
func (r *relay) read(b *block) bool {
	r.reading.Lock()
	defer r.reading.Unlock()
	if r.end == nil {
		r.end = r.ctx.Err()
	}
	if r.end == nil {
		r.end = r.reader.Next(&b.text)
	}
	if r.end != nil {
		return false
	}
	b.before, b.after = r.last, make(chan struct{})
	r.last = b.after
	return true
}

// write writes the outcome of a block, unless the work has ended before it.
func (r *relay) write(b *block) {
	if r.err != nil {
		return
	}
	if r.err = write(r.out, b.out); r.err != nil {
		r.stop(r.err)
		return
	}
	for i, err := range b.told {
		r.tell(err)
		b.told[i] = nil // many errors take much memory
	}
	r.totals.Add(&b.totals)
	if err := r.summary.merge(b.groups, r.file); err != nil {
		b.end = err
	}
	if b.end != nil {
		r.err = b.end
		r.stop(b.end)
	}
}

// stop prevents further blocks from being read.
func (r *relay) stop(err error) {
	r.reading.Lock()
	defer r.reading.Unlock()
	if r.end == nil {
		r.end = err
	}
}

func (p *plan) tell(err error) {
	if p.Tell != nil {
		p.Tell(err)
	}
}
