package trim

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"
)

// plan solves the models one after another, each in its share of the time.
func (b *book) plan(ctx context.Context) (*Plan, error) {
	plan := &Plan{Orders: make([]Made, len(b.job.Orders)), Fillers: make([]int, len(b.job.Fillers)), Left: b.left}
	plan.Certificate = Certificate{Step: length(b.coin), Proven: true}
	deadline, limited := ctx.Deadline()
	for n, m := range b.models {
		share := ctx
		if limited {
			now := time.Now()
			var cancel context.CancelFunc
			share, cancel = context.WithDeadline(ctx, now.Add(deadline.Sub(now)/time.Duration(len(b.models)-n)))
			defer cancel()
		}
		if err := b.solve(share, n, m, plan); err != nil {
			return nil, err
		}
	}
	b.total(plan)
	return plan, nil
}

// stopper returns a function that reports whether the context has ended or a part
// of its time is over. Asking the clock costs more than a step of a search, so it
// asks only now and then.
func stopper(ctx context.Context, part float64) func() bool {
	var until time.Time
	if deadline, ok := ctx.Deadline(); ok {
		now := time.Now()
		until = now.Add(time.Duration(part * float64(deadline.Sub(now))))
	}
	calls, over := 0, false
	return func() bool {
		if calls++; !over && calls%16 == 0 {
			over = ctx.Err() != nil || !until.IsZero() && time.Now().After(until)
		}
		return over
	}
}

// solve finds the least cost, then fills the trim, then reduces the number of
// patterns.
func (b *book) solve(ctx context.Context, n int, m *model, plan *Plan) error {
	part := 0.5 // of the time, if patterns take the rest
	if b.job.AnyPatterns {
		part = 0.95
	}
	s := b.search(ctx, m, part)
	var left []Left
	if !s.has && b.job.Partly {
		s, left = b.partly(ctx, n, m)
	}
	if !s.has {
		i := b.entries[n][s.short()].orders[0]
		reason := "no plan makes all of it with " + b.binding()
		switch {
		case b.mixes(n):
			reason = "no plan was found with " + b.binding() + apart
		case ctx.Err() != nil || !s.impossible:
			reason = "no plan was found with " + b.binding() + " in the time that was left"
		}
		return &OrderError{i, b.job.Orders[i], reason}
	}
	found := s.best
	for f := range b.job.Fillers {
		found = b.fill(ctx, n, f, found, s.master, plan)
	}
	m.fillers = 0 // from now on they have a demand
	best := m.tidy(b.ordered(n, found), b.entries[n])
	if !b.job.AnyPatterns {
		best = m.tidy(m.fewer(best, stopper(ctx, 0.95)), b.entries[n])
	}
	b.tell(plan, n, m, best)
	for _, l := range left {
		if l.Reels = b.job.Orders[l.Order].wanted() - plan.Orders[l.Order].Reels; l.Reels > 0 {
			plan.Left = append(plan.Left, l)
		}
	}
	b.certify(plan, n, s, m.cost(&best))
	return nil
}

// search looks for the least cost, in a part of the time unless the problem is hard.
func (b *book) search(ctx context.Context, m *model, part float64) *solver {
	if m.runs > 1 || m.parents[0].least > 0 {
		return m.solveHard(func(part float64) func() bool { return stopper(ctx, part) })
	}
	return solve(m, stopper(ctx, part))
}

// binding names the limits that can leave a job without a plan though every order
// by itself is possible.
func (b *book) binding() string {
	var limits []string
	sets, stocked := 0, true
	for _, p := range b.job.Parents {
		sets += p.Sets
		stocked = stocked && p.Sets > 0
	}
	if stocked {
		limits = append(limits, "at most "+plural(sets, "set"))
	}
	if s := b.job.Slitter; s.LeastUsed > 0 {
		limits = append(limits, fmt.Sprintf("at least %v used in every set", s.LeastUsed))
	}
	if n := b.job.Slitter.LeastSets; n > 1 {
		limits = append(limits, fmt.Sprintf("every pattern cut at least %d times", n))
	}
	if len(limits) == 0 { // only sheets whose reels are too narrow lead here
		limits = append(limits, fmt.Sprintf("no reel below %v", b.job.Slitter.Narrowest))
	}
	text := strings.Join(limits, " and ")
	for _, o := range b.job.Orders {
		if least, most := o.asked(); least < most {
			return text
		}
	}
	return text + ", and no over- or under-run"
}

// wanted returns the number ordered, or the nearest that least and most allow.
func (o *Order) wanted() int {
	least, most := o.asked()
	return min(max(o.Reels, least), most)
}

// fill puts as many reels of a filler as it finds room for into sets that cost no
// more than the best from a master. A filler is a row that asks for so many.
func (b *book) fill(ctx context.Context, n, f int, best solution, by *master, plan *Plan) solution {
	m, filler := b.models[n], b.job.Fillers[f]
	width, _ := exact(filler.Width) // checked before
	width /= b.step
	k := max(1, b.job.Slitter.SetMultiple)
	var room int64
	for i, p := range best.patterns {
		room += m.parents[p.parent].width * int64(best.times[i])
	}
	for i, e := range b.entries[n] {
		room -= e.width / b.step * int64(m.rows[i].least)
	}
	most := int(room / width)
	if filler.Most > 0 {
		most = min(most, (filler.Most-plan.Fillers[f])/k)
	}
	row := slices.IndexFunc(b.entries[n], func(e entryRow) bool { return e.filler == f })
	if row < 0 && most > 0 {
		row = b.addFiller(m, n, f, width)
	}
	if row < 0 {
		return best // no room, or it may lie beside none of these groups
	}
	least := m.made(best)[row]
	if m.runs == 1 {
		var laid int
		best, laid = m.laid(best, row, most-least)
		least += laid
	}
	from := by.pool(len(by.patterns))
	// The most that the trim can hold is often possible, and soon found.
	for asked := most; least < most && ctx.Err() == nil; asked = (least + most + 1) / 2 {
		m.setRow(row, asked)
		if found, ok := within(m, best.cost, stopper(ctx, 0.1), fillNodes, from); ok {
			best, least = found, asked
		} else {
			most = asked - 1
		}
	}
	m.setRow(row, least)
	b.entries[n][row].ordered = least
	return best
}

// ordered returns a solution without the sets that hold only fillers. One whose
// cost is not proven may have room for such sets.
func (b *book) ordered(n int, s solution) solution {
	m, entries, out := b.models[n], b.entries[n], solution{}
	for i, p := range s.patterns {
		if slices.ContainsFunc(p.pieces, func(c piece) bool { return entries[m.cuts[c.cut].row].filler < 0 }) {
			out.patterns, out.times = append(out.patterns, p), append(out.times, s.times[i])
		}
	}
	out.cost = m.cost(&out)
	for r, n := range m.made(out) {
		if entries[r].filler >= 0 {
			m.setRow(r, n)
			entries[r].ordered = n
		}
	}
	return out
}

// fillNodes is the number of nodes in the search for one more reel of a filler.
const fillNodes = 40

// laid lays up to most reels of a row into the trim of a solution, pattern by
// pattern, and returns how many.
func (m *model) laid(s solution, row, most int) (solution, int) {
	out, laid := solution{cost: s.cost}, 0
	put := func(p pattern, times int) {
		if times > 0 {
			out.patterns, out.times = append(out.patterns, p), append(out.times, times)
		}
	}
	for i, p := range s.patterns {
		thick, n := p, 0
		for _, c := range m.groups[p.group] {
			if int(m.cuts[c].row) != row {
				continue
			}
			for {
				next := pattern{p.parent, p.group, added(slices.Clone(p.pieces), c, int32(n+1))}
				if n == most-laid || !m.allows(next) {
					break
				}
				sortPieces(next.pieces)
				thick, n = next, n+1
			}
		}
		runs := 0
		if n > 0 {
			runs = min(s.times[i], (most-laid)/n)
		}
		put(thick, runs)
		put(p, s.times[i]-runs)
		laid += n * runs
	}
	return out, laid
}

func (m *model) setRow(r, n int) { m.rows[r].least, m.rows[r].most = n, n }

// addFiller adds the row of a filler to a model, and a cut to each group that it
// may lie beside.
func (b *book) addFiller(m *model, n, f int, width int64) int {
	filler, r := b.job.Fillers[f], len(m.rows)
	group, any := -1, false
	for i, e := range b.entries[n] {
		if i == 0 || e.group != b.entries[n][i-1].group {
			group++
		}
		if e.filler >= 0 || i > 0 && e.group == b.entries[n][i-1].group || filler.Group != "" && filler.Group != e.group {
			continue
		}
		m.groups[group] = append(m.groups[group], int32(len(m.cuts)))
		m.cuts = append(m.cuts, cut{width, int32(r), 1, int32(group)})
		any = true
	}
	if !any {
		return -1
	}
	m.rows = append(m.rows, row{})
	b.entries[n] = append(b.entries[n], entryRow{width: width * b.step, sheets: 1, filler: f})
	m.sortCuts()
	return r
}
