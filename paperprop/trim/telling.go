package trim

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"millmaths.example/paperprop"
)

// tell adds a solution to the plan.
func (b *book) tell(plan *Plan, n int, m *model, best solution) {
	k := max(1, b.job.Slitter.SetMultiple)
	entries := b.entries[n]
	made := make([]int, len(entries))
	alike := slices.ContainsFunc(m.groups, m.twice) // sets of different rows may be alike
	for i, p := range best.patterns {
		d := b.parents[p.parent]
		out := Pattern{Times: best.times[i] * k, Parent: int(p.parent)}
		trim := d.whole
		for _, c := range p.pieces {
			cut := m.cuts[c.cut]
			e := entries[cut.row]
			made[cut.row] += best.times[i] * int(c.n*cut.units) * k
			trim -= cut.width * b.step * int64(c.n)
			if e.filler < 0 {
				out.Group = e.group
			}
			out.add(Reels{length(cut.width * b.step), int(c.n), int(cut.units), e.filler >= 0})
		}
		slices.SortStableFunc(out.Reels, func(x, y Reels) int {
			return cmp.Or(cmp.Compare(y.Width, x.Width), cmp.Compare(x.Sheets, y.Sheets))
		})
		out.Trim = length(trim)
		out.Edge = out.Trim / 2
		if alike {
			plan.add(out)
		} else {
			plan.Patterns = append(plan.Patterns, out)
		}
	}
	for r, e := range entries {
		b.share(plan, e, made[r])
	}
}

// add puts reels into a pattern, next to others like them: orders of one width that
// differ in Sheets are separate rows, and so are two fillers.
func (p *Pattern) add(r Reels) {
	for i := range p.Reels {
		if q := &p.Reels[i]; q.Width == r.Width && q.Sheets == r.Sheets && q.Filler == r.Filler {
			q.Count += r.Count
			return
		}
	}
	p.Reels = append(p.Reels, r)
}

// add adds a pattern to the plan, or its times to the same pattern of other orders.
func (p *Plan) add(x Pattern) {
	for i := range p.Patterns {
		if q := &p.Patterns[i]; q.Parent == x.Parent && q.Group == x.Group && slices.Equal(q.Reels, x.Reels) {
			q.Times += x.Times
			return
		}
	}
	p.Patterns = append(p.Patterns, x)
}

// will returns the fewest and most that satisfy an order in this plan.
func (b *book) will(i int) row {
	if r, ok := b.kept[i]; ok {
		return r
	}
	least, most := b.job.Orders[i].asked()
	return row{least, most}
}

// share divides the reels of a row among its orders: first the least that each
// needs, then what it ordered, then what it accepts.
func (b *book) share(plan *Plan, e entryRow, made int) {
	if e.filler >= 0 {
		plan.Fillers[e.filler] += made
		return
	}
	for _, upTo := range []func(least, ordered, most int) int{
		func(least, _, _ int) int { return least },
		func(least, ordered, most int) int { return min(max(least, ordered), most) },
		func(_, _, most int) int { return most },
	} {
		for _, i := range e.orders {
			will := b.will(i)
			n := min(made, upTo(will.least, b.job.Orders[i].Reels, will.most)-plan.Orders[i].Reels)
			if n > 0 {
				plan.Orders[i].Reels += n
				made -= n
			}
		}
	}
}

// apart is said of orders that may have no plan only because of what mixes reports.
const apart = "; an order that can take reels of the same width in other sheets counts apart"

// mixes reports whether plans of a model may mix what its rows count apart, so that its
// bound does not hold for them. Sets that look alike and are shared out differently count
// apart where patterns are repeated. A reel of several sheets may be shared between orders
// that differ only in Sheets: where it could as well be so many reels, that is no matter.
func (b *book) mixes(n int) bool {
	m, entries, s := b.models[n], b.entries[n], &b.job.Slitter
	if s.SetMultiple > 1 || m.runs > 1 {
		filler := func(cut int32) bool { return entries[m.cuts[cut].row].filler >= 0 }
		return slices.ContainsFunc(m.groups, func(cuts []int32) bool { return m.twice(slices.DeleteFunc(slices.Clone(cuts), filler)) })
	}
	narrowest, _ := exact(s.Narrowest) // checked before
	for i, e := range entries[1:] {
		if f := entries[i]; f.sheets > 1 && e.sheets > 1 && f.group == e.group && f.width == e.width &&
			(s.MostReels > 0 || s.MostWidths > 0 || e.width < narrowest) {
			return true
		}
	}
	return false
}

// certify adds the proof of a model to the plan.
func (b *book) certify(plan *Plan, n int, s *solver, cost int64) {
	c := &plan.Certificate
	k := max(1, b.job.Slitter.SetMultiple)
	if b.mixes(n) {
		s.byWeights, s.lower = 0, 0
	}
	if s.byWeights == 0 { // time was up before there was a bound, or none holds
		s.shown = proof{row: make([]int64, len(s.m.rows)), spare: make([]int64, len(s.m.stocks)), full: 1}
	}
	w := Weights{Full: s.shown.full, Bound: int(s.byWeights) * k}
	if len(s.shown.spare) > 0 {
		for _, d := range s.m.parents {
			w.Spare = append(w.Spare, s.shown.of(d))
		}
	}
	if s.lower > s.byWeights {
		w.Proof, c.Proof = BySearch, BySearch
	}
	for r, e := range b.entries[n] {
		if e.filler >= 0 {
			continue // added after the bound
		}
		for _, i := range e.orders {
			w.Orders = append(w.Orders, i)
			w.Order = append(w.Order, s.shown.row[r])
		}
	}
	c.Weights = append(c.Weights, w)
	c.Bound += int(s.lower) * k
	c.Value += int(cost) * k
	c.Proven = c.Proven && cost <= s.lower
}

// total adds up the figures of the plan.
func (b *book) total(plan *Plan) {
	slices.SortStableFunc(plan.Patterns, func(x, y Pattern) int {
		if c := cmp.Compare(y.Times, x.Times); c != 0 {
			return c
		}
		return slices.CompareFunc(x.Reels, y.Reels, func(x, y Reels) int {
			return cmp.Or(cmp.Compare(y.Width, x.Width), cmp.Compare(y.Count, x.Count))
		})
	})
	var deckle, trim big.Int
	for _, p := range plan.Patterns {
		plan.Sets += p.Times
		t, _ := exact(p.Trim) // computed from grains
		plan.Deckle = sumOf(&deckle, b.parents[p.Parent].whole, int64(p.Times))
		plan.Trim = sumOf(&trim, t, int64(p.Times))
	}
	for i, o := range b.job.Orders {
		m := &plan.Orders[i]
		m.Over = m.Reels - o.Reels
		m.OverMass = o.overMass(m.Reels)
	}
}

// overMass returns the mass of so many reels of an order above what is ordered. The
// mass of a reel contains π: one within 1e-9 of the ordered mass counts as equal.
func (o *Order) overMass(reels int) paperprop.Mass {
	one, ordered := o.ReelMass.In(paperprop.Kilogram), o.OrderedMass.In(paperprop.Kilogram)
	switch {
	case one == 0 || !isMass(o.ReelMass) || !isMass(o.OrderedMass): // an order that is left out
		return 0
	case ordered == 0:
		return paperprop.Mass(float64(reels-o.Reels)*one) * paperprop.Kilogram
	}
	over := float64(reels)*one - ordered
	if math.Abs(over) <= 1e-9*ordered {
		return 0
	}
	return paperprop.Mass(over) * paperprop.Kilogram
}
