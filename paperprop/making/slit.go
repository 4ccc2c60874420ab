package making

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/reel"
	"millmaths.example/paperprop/trim"
)

// A kind is what the reels of a set have in common besides the grade.
type kind struct {
	group          string
	diameter, core paperprop.Length
}

func (k kind) String() string {
	text := fmt.Sprintf("%v on %v", k.diameter, k.core)
	if k.group != "" {
		text = k.group + ", " + text
	}
	return text
}

func (o *Order) kind() kind { return kind{o.Group, o.Terms.Diameter, o.Terms.CoreDiameter} }

// sooner compares dates; no date comes last.
func sooner(a, b time.Time) int {
	if a.IsZero() != b.IsZero() {
		if a.IsZero() {
			return 1
		}
		return -1
	}
	return a.Compare(b)
}

// of returns the orders of a grade, sorted: the earliest date gets its reels first.
func (b *Book) of(g *Grade) []int {
	var list []int
	for i := range b.Orders {
		if b.Orders[i].Grade == g.Name {
			list = append(list, i)
		}
	}
	slices.SortStableFunc(list, func(i, j int) int {
		x, y := &b.Orders[i], &b.Orders[j]
		return cmp.Or(sooner(x.Due, y.Due), cmp.Compare(y.Width, x.Width), cmp.Compare(x.Name, y.Name),
			cmp.Compare(x.kind().String(), y.kind().String()), cmp.Compare(x.Mass, y.Mass), cmp.Compare(x.Reels, y.Reels),
			cmp.Compare(x.Terms.OverRun, y.Terms.OverRun), cmp.Compare(x.Terms.UnderRun, y.Terms.UnderRun))
	})
	return list
}

// count converts an order of a grade to reels, or says why it can't be made.
func (g *Grade) count(o *Order) (trim.Order, error) {
	r := o.Request
	switch {
	case r.Sheets > 1:
		return trim.Order{}, errors.New("reels of several sheets are planned by trim alone")
	case r.Terms.Grammage != 0 && r.Terms.Grammage != g.Grammage:
		return trim.Order{}, fmt.Errorf("grammage is %v, want that of the grade, %v", r.Terms.Grammage, g.Grammage)
	case r.Terms.ReelThickness != 0 && r.Terms.ReelThickness != g.ReelThickness:
		return trim.Order{}, fmt.Errorf("reel-thickness is %v, want that of the grade, %v", r.Terms.ReelThickness, g.ReelThickness)
	case r.Terms.Diameter == 0:
		return trim.Order{}, errors.New("diameter missing, want that of the reel, in the book, the grade or the order")
	case r.Terms.Diameter <= r.Terms.CoreDiameter:
		return trim.Order{}, fmt.Errorf("diameter is %v, want above the core's, %v", r.Terms.Diameter, r.Terms.CoreDiameter)
	}
	r.Terms.RollDensity, r.Terms.Grammage, r.Terms.ReelThickness = 0, g.Grammage, g.ReelThickness
	order, err := r.Order()
	order.Group = o.kind().String()
	return order, err
}

// slit plans the sets of a grade, and enters in made what becomes of its orders. It
// returns nil if none of them can be made.
func (b *Book) slit(ctx context.Context, g *Grade, made []Made) (*Run, error) {
	r := &Run{Grade: g, Job: trim.Job{
		Parents: []trim.Parent{{Deckle: b.Machine.Deckle, Edge: b.Machine.Edge}}, Slitter: b.Machine.Slitter, Partly: true,
	}}
	var wound []Wound
	for _, i := range b.of(g) {
		o := &b.Orders[i]
		order, err := g.count(o)
		made[i].Order = order
		if err == nil && !slices.ContainsFunc(wound, func(w Wound) bool { return w.name == order.Group }) {
			var w Wound
			if w, err = b.wind(g, o.kind()); err == nil {
				wound = append(wound, w)
			}
		}
		if err != nil {
			made[i].Left, made[i].Reason = max(order.Reels, o.Reels), err.Error()
			continue
		}
		r.Job.Orders = append(r.Job.Orders, order)
		r.orders = append(r.orders, i)
	}
	if len(r.orders) == 0 {
		return nil, nil
	}
	var err error
	if r.Sets, err = r.Job.Plan(ctx); err != nil {
		return nil, b.ofGrade(g, err)
	}
	for j, i := range r.orders {
		m, p := &made[i], r.Sets.Orders[j]
		m.Reels, m.Over = p.Reels, p.Over
		m.Mass = paperprop.Mass(float64(p.Reels)*m.Order.ReelMass.In(paperprop.Kilogram)) * paperprop.Kilogram
	}
	for _, l := range r.Sets.Left {
		m := &made[r.orders[l.Order]]
		m.Left, m.Reason = l.Reels, l.Reason
	}
	if r.Sets.Sets == 0 {
		return nil, nil
	}
	for _, w := range wound {
		if b.fill(r, &w); w.Sets > 0 {
			r.Wound = append(r.Wound, w)
			r.Jumbos += w.Jumbos
		}
	}
	return r, nil
}

// wind computes how many sets of a kind a jumbo holds. It is wound as hard as the
// reels unless the grade has a JumboThickness.
func (b *Book) wind(g *Grade, k kind) (Wound, error) {
	w := Wound{Diameter: k.diameter, Core: k.core, Group: k.group, name: k.String(), lost: b.Jumbo.Lost}
	of, err := reel.Reel{Diameter: k.diameter, CoreDiameter: k.core, ReelThickness: g.ReelThickness}.Calculate()
	if err != nil {
		return w, err
	}
	layer := g.ReelThickness
	if g.JumboThickness > 0 {
		layer = g.JumboThickness
	}
	jumbo, err := reel.Reel{Diameter: b.Jumbo.Diameter, CoreDiameter: b.Jumbo.Spool, ReelThickness: layer}.Calculate()
	if err != nil {
		return w, fmt.Errorf("jumbo: %w", err)
	}
	w.Length, w.Jumbo = of.Length, jumbo.Length
	sets, err := reel.Sets{JumboLength: w.Jumbo, ReelLength: w.Length, LostLength: w.lost}.Calculate()
	if err != nil {
		return w, fmt.Errorf("a jumbo of %v on a spool of %v holds no whole reel of %v: %w", b.Jumbo.Diameter, b.Jumbo.Spool, k.diameter, err)
	}
	w.PerJumbo = int(min(sets.Sets, 1e9))
	if !b.Jumbo.Turned {
		w.Rest = sets.RestLength
	}
	return w, nil
}

// fill puts the sets of a kind on jumbos, in the order of the dates to meet.
func (b *Book) fill(r *Run, w *Wound) {
	due := map[int]time.Time{}
	for p, pattern := range r.Sets.Patterns {
		if pattern.Group != w.name {
			continue
		}
		w.patterns = append(w.patterns, p)
		w.Sets += pattern.Times
		for j, i := range r.orders {
			o := &b.Orders[i]
			if x := &r.Job.Orders[j]; x.Group == w.name && holds(pattern, x.Width) && sooner(o.Due, due[p]) < 0 {
				due[p] = o.Due
			}
		}
	}
	slices.SortStableFunc(w.patterns, func(p, q int) int { return sooner(due[p], due[q]) })
	w.Jumbos = (w.Sets + w.PerJumbo - 1) / w.PerJumbo
	if w.Rest > 0 {
		w.Rests = max(0, w.Jumbos-1)
	}
}

// names joins the names of grades as in a sentence.
func names(list []string) string {
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list, "")
}

func holds(p trim.Pattern, width paperprop.Length) bool {
	return slices.ContainsFunc(p.Reels, func(r trim.Reels) bool { return r.Width == width })
}
