package trim

import (
	"context"
	"slices"
	"time"
)

// A part is the part of a model that is planned where no plan makes all of it.
type part struct {
	*book
	ctx    context.Context
	n      int
	m      *model
	found  *solver // of what is kept so far
	proven bool    // nothing fits what the last trial asked for
}

// partly plans each order in turn, from the top of the list: whole if that leaves the
// orders above it what they have, or as many of its reels as do. An order without its
// turn may get any number. It returns the orders that are left out, wholly or in part.
func (b *book) partly(ctx context.Context, n int, m *model) (*solver, []Left) {
	p := &part{book: b, ctx: ctx, n: n, m: m}
	var orders []int
	for _, e := range b.entries[n] {
		orders = append(orders, e.orders...)
	}
	slices.Sort(orders)
	for _, i := range orders {
		p.ask(i, 0)
	}
	p.fits()
	var left []Left
	first := orders[0]
	for len(orders) > 0 {
		whole, proven := p.most(len(orders), func(count int) {
			for at, i := range orders {
				least := 0
				if at < count {
					least, _ = b.job.Orders[i].asked()
				}
				p.ask(i, least)
			}
		})
		if orders = orders[whole:]; len(orders) == 0 {
			break
		}
		i := orders[0]
		least, _ := b.job.Orders[i].asked()
		if reels, none := p.most(least-1, func(reels int) { p.ask(i, reels) }); reels < least-1 {
			proven = none
		}
		left = append(left, Left{Order: i, Reason: p.reason(i == first, proven)})
		orders = orders[1:]
	}
	p.demand()
	s := b.search(ctx, m, 0.5)
	if !s.has {
		s = p.found
	}
	return s, left
}

// ask sets the fewest reels of an order that will do.
func (p *part) ask(i, least int) {
	_, most := p.job.Orders[i].asked()
	p.kept[i] = row{least, most}
}

// most returns the greatest number, up to a limit, for which what ask asks for fits, and
// asks for it. With none it fits. proven tells that one more does not.
func (p *part) most(limit int, ask func(n int)) (n int, proven bool) {
	for not := limit + 1; not-n > 1; {
		middle := (n + not) / 2
		ask(middle)
		if p.fits() {
			n = middle
		} else {
			not, proven = middle, p.proven
		}
	}
	ask(n)
	return n, proven
}

// fits reports whether a plan of what is asked for is found.
func (p *part) fits() bool {
	if !p.demand() {
		p.proven = true
		return false
	}
	ctx := p.ctx
	if deadline, ok := ctx.Deadline(); ok {
		now := time.Now()
		limited, cancel := context.WithDeadline(ctx, now.Add(deadline.Sub(now)/10))
		defer cancel()
		ctx = limited
	}
	s := p.search(ctx, p.m, 1)
	if p.proven = s.impossible && !p.mixes(p.n); s.has {
		p.found = s
	}
	return s.has
}

// demand sets the rows of the model to what is asked for. It is false if a row can't be
// met in the multiples of the slitter.
func (p *part) demand() bool {
	for r := range p.m.asked() {
		p.m.rows[r] = p.rowOf(&p.entries[p.n][r])
		if p.m.rows[r].least > p.m.rows[r].most {
			return false
		}
	}
	return true
}

// reason says why no more of an order is made.
func (p *part) reason(first, proven bool) string {
	switch {
	case first && proven:
		return "no plan makes more of it with " + p.binding()
	case proven:
		return "no room beside the orders above it"
	case first:
		return "no plan was found that makes more of it with " + p.binding()
	}
	return "no room was found beside the orders above it"
}
