package making

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"millmaths.example/paperprop"
)

// Plan plans the order book. When ctx ends, it uses the best sets so far. Orders
// that can't be made are left out, with the reason in [Plan.Orders]: also all of a grade
// of which so little is sold that its line can't take the broke of it. A line that can't
// run with the figures of its grade is an error.
func (b *Book) Plan(ctx context.Context) (*Plan, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	p, err := b.plan(ctx)
	if err != nil {
		return nil, b.placed(err)
	}
	return p, nil
}

// plan plans a checked book.
func (b *Book) plan(ctx context.Context) (*Plan, error) {
	p := &Plan{Book: b, Orders: make([]Made, len(b.Orders)), Ready: b.Start}
	runs, err := b.runs(ctx, p.Orders)
	if err != nil {
		return nil, err
	}
	offsets := map[int]time.Duration{}
	for _, r := range runs {
		if err := b.prepare(r, p.Orders, offsets); err != nil {
			return nil, b.ofGrade(r.Grade, err)
		}
	}
	if runs, err = b.taken(runs, offsets, p.Orders); err != nil {
		return nil, err
	}
	for _, r := range runs {
		p.Runs = append(p.Runs, *r)
		p.Tonnes.add(r.Tonnes)
		p.Takes.plus(r.Takes)
		p.Hours = Hours{p.Hours.Reeling + r.Hours.Reeling, p.Hours.Lost + r.Hours.Lost, p.Hours.Changes + r.Hours.Changes}
		p.Ready = r.End
	}
	for k := range p.Runs {
		p.judge(k, offsets)
	}
	p.yard()
	p.Conventions = b.conventions(p.Runs)
	return p, nil
}

// taken puts the runs in their order, and balances the line of each. One that fails is
// left out, and the others begin anew, with a change of grade less. It is an error if all
// fail.
func (b *Book) taken(runs []*Run, offsets map[int]time.Duration, made []Made) ([]*Run, error) {
	var first error
	for {
		var err error
		if runs, err = b.sequence(runs, offsets); err != nil {
			return nil, err
		}
		b.place(runs, offsets)
		fails := slices.IndexFunc(runs, func(r *Run) bool {
			err = r.take()
			return err != nil
		})
		if fails < 0 {
			return runs, nil
		}
		r := runs[fails]
		if first = cmp.Or(first, b.ofGrade(r.Grade, err)); len(runs) == 1 {
			return nil, first
		}
		for _, i := range r.orders {
			if m := &made[i]; m.Reels > 0 {
				*m = Made{Order: m.Order, Left: m.Order.Reels, Reason: err.Error()}
			}
		}
		runs = slices.Delete(slices.Clone(runs), fails, fails+1)
	}
}

// place sets the times of runs in this order, and what their changes of grade take.
func (b *Book) place(runs []*Run, offsets map[int]time.Duration) {
	s := b.clocked(runs, offsets)
	for k, r := range runs {
		r.Changed, r.Change, r.Begin, r.End = s.changed[k], s.begin[k], s.begin[k], s.end[k]
		r.Hours.Changes, r.Tonnes.Change = 0, 0
		if r.Changed {
			r.Change = r.Begin.Add(-minutes(b.Change.Time))
			r.Hours.Changes, r.Tonnes.Change = b.Change.Time, b.Change.Loss
		}
		r.Tonnes.sum()
	}
}

// runs plans the sets of all grades. Orders of a grade that the book lacks can't be
// made.
func (b *Book) runs(ctx context.Context, made []Made) ([]*Run, error) {
	var grades []string
	ordered := 0
	for i := range b.Grades {
		grades = append(grades, b.Grades[i].Name)
		ordered += min(1, len(b.of(&b.Grades[i])))
	}
	for i := range b.Orders {
		if o := &b.Orders[i]; !slices.Contains(grades, o.Grade) {
			made[i].Left, made[i].Reason = o.Reels, fmt.Sprintf("grade %q is not one of the book%s", o.Grade, near(o.Grade, grades))
		}
	}
	var runs []*Run
	for i := range b.Grades {
		r, err := b.slitWithin(ctx, &b.Grades[i], made, ordered)
		if err != nil {
			return nil, err
		}
		if r != nil {
			runs = append(runs, r)
		}
	}
	return runs, nil
}

// slitWithin is slit within the grade's part of the time.
func (b *Book) slitWithin(ctx context.Context, g *Grade, made []Made, grades int) (*Run, error) {
	if b.Limit > 0 && grades > 0 {
		limited, cancel := context.WithTimeout(ctx, b.Limit/time.Duration(grades))
		defer cancel()
		ctx = limited
	}
	return b.slit(ctx, g, made)
}

// prepare computes everything about a run that does not depend on the sequence.
func (b *Book) prepare(r *Run, made []Made, offsets map[int]time.Duration) (err error) {
	if r.needs, err = b.ask(r.Grade); err != nil {
		return err
	}
	if err = b.weigh(r, made); err != nil {
		return err
	}
	if err = b.hours(r); err != nil {
		return err
	}
	b.ready(r, made, offsets)
	return nil
}

// yard computes how long the recovered paper in the yard lasts: the amount in the
// book, or in the first line that gives one.
func (p *Plan) yard() {
	yard := p.Book.Yard
	for i := range p.Runs {
		if f, err := p.Runs[i].Grade.Line.FigureNamed("mill.yard"); err == nil && yard == 0 {
			yard = paperprop.Mass(p.Runs[i].Grade.Line.Figures[f].Value)
		}
	}
	if yard == 0 {
		return
	}
	p.YardLeft = yard
	for i := range p.Runs {
		r := &p.Runs[i]
		if left := p.YardLeft; left >= 0 && left < r.Takes.Paper {
			p.YardOut = r.takenIn(float64(left / r.Takes.Paper))
		}
		p.YardLeft -= r.Takes.Paper
	}
	for i := range p.Orders {
		m := &p.Orders[i]
		if p.YardOut.IsZero() || m.Ready.IsZero() || !p.Book.wound(m).After(p.YardOut) {
			continue // handling uses no bales
		}
		if m.Reason != "" {
			m.Reason += "; "
		}
		m.Reason += "not without more bales, as the yard is empty " + Day(p.YardOut)
	}
}

// takenIn returns when a run has taken in a share of its recovered paper. Intake
// follows production: the loss of its change of grade during the change, everything
// else from the first jumbo to the last.
func (r *Run) takenIn(share float64) time.Time {
	change := float64(r.Tonnes.Change / r.Tonnes.Made)
	if share == 0 {
		return r.Change
	}
	if share < change {
		return r.Change.Add(time.Duration(share / change * float64(r.Begin.Sub(r.Change))))
	}
	return r.Begin.Add(time.Duration((share - change) / (1 - change) * float64(r.End.Sub(r.Begin))))
}
