package making

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/strict"
)

// century is the longest time that a plan may take.
const century = 36525 * 24 * time.Hour

// minutes converts a duration to that of a clock.
func minutes(d paperprop.Duration) time.Duration {
	return time.Duration(d.In(paperprop.Minute) * float64(time.Minute))
}

// hours computes the time of a run, without its change.
func (b *Book) hours(r *Run) error {
	reeling := r.Tonnes.Made.In(paperprop.Tonne) / r.needs.perHour
	r.Hours = Hours{
		Reeling: paperprop.Duration(reeling) * paperprop.Hour,
		Lost:    paperprop.Duration(reeling/r.needs.uptime-reeling) * paperprop.Hour,
	}
	if !(r.Hours.Sum() < paperprop.Duration(century.Hours())*paperprop.Hour) {
		return errors.New("it takes more than a hundred years")
	}
	loss := paperprop.Duration(b.Change.Loss.In(paperprop.Tonne)/r.needs.perHour) * paperprop.Hour
	if loss > b.Change.Time*(1+1e-9) {
		return strict.Refuse("change.loss", "change.loss is %s, and takes %v at %s: more than change.time, %s",
			b.written("change.loss", float64(b.Change.Loss), b.Change.Loss), clockText(minutes(loss)),
			paperprop.People(r.needs.perHour)+" t/h", b.written("change.time", float64(b.Change.Time), b.Change.Time))
	}
	return nil
}

// clockText formats a length of time.
func clockText(d time.Duration) string {
	d = d.Round(time.Minute)
	if d < time.Hour {
		return fmt.Sprintf("%d min", int(d.Minutes()))
	}
	return fmt.Sprintf("%d h %d min", int(d.Hours()), int(d.Minutes())%60)
}

// A schedule says when the orders of successive runs are ready.
type schedule struct {
	begin, end []time.Time // of each run; begin is after its change
	changed    []bool
	late       int // number of late orders
	lateness   time.Duration
}

// clocked schedules runs one after another.
func (b *Book) clocked(runs []*Run, offsets map[int]time.Duration) schedule {
	s := schedule{}
	at, on := b.Start, b.Running
	for _, r := range runs {
		changed := on != "" && on != r.Grade.Name
		if changed {
			at = at.Add(minutes(b.Change.Time))
		}
		s.changed, s.begin = append(s.changed, changed), append(s.begin, at)
		for _, i := range r.orders {
			ready, made := offsets[i]
			if due := b.Orders[i].Due; made && !due.IsZero() {
				if late := at.Add(ready).Sub(due); late > 0 {
					s.late, s.lateness = s.late+1, s.lateness+late
				}
			}
		}
		at, on = at.Add(minutes(r.Hours.Sum())), r.Grade.Name
		s.end = append(s.end, at)
	}
	return s
}

// ready computes how long after the beginning of its run each order is ready: when
// the jumbo with its last set is wound, plus handling. Orders of one width get
// their reels in the order of the run.
func (b *Book) ready(r *Run, made []Made, offsets map[int]time.Duration) {
	all, before := r.length(), 0.0
	for _, w := range r.Wound {
		cut := map[paperprop.Length]int{} // reels of a width already assigned
		for j, i := range r.orders {
			if r.Job.Orders[j].Group != w.name || made[i].Reels == 0 {
				continue
			}
			width := r.Job.Orders[j].Width
			cut[width] += made[i].Reels
			x := before + w.wound(w.last(r, width, cut[width]))
			offsets[i] = time.Duration(x/all*float64(minutes(r.Hours.Sum()))) + minutes(b.Handling)
		}
		before += w.wound(w.Sets)
	}
}

// wound returns when the last jumbo with a reel of an order is wound.
func (b *Book) wound(m *Made) time.Time { return m.Ready.Add(-minutes(b.Handling)) }

// last returns the set with which so many reels of a width are cut.
func (w *Wound) last(r *Run, width paperprop.Length, reels int) int {
	sets := 0
	for _, p := range w.patterns {
		pattern := &r.Sets.Patterns[p]
		each := 0
		for _, q := range pattern.Reels {
			if q.Width == width {
				each += q.Count
			}
		}
		if each > 0 && each*pattern.Times >= reels {
			return sets + (reels+each-1)/each
		}
		reels -= each * pattern.Times
		sets += pattern.Times
	}
	return sets
}

// wound returns the length on the jumbos up to and including the one with a set, in
// m.
func (w *Wound) wound(set int) float64 {
	jumbos := (set + w.PerJumbo - 1) / w.PerJumbo
	sets := min(jumbos*w.PerJumbo, w.Sets)
	return float64(sets)*w.Length.In(paperprop.Metre) + float64(min(jumbos, w.Rests))*w.Rest.In(paperprop.Metre) +
		float64(jumbos)*w.lost.In(paperprop.Metre)
}

// mostEnds is the most that Ends returns.
const mostEnds = 1000

// Ends returns the times at which the jumbos of a run are full, other than the
// last; nil if there are more than a thousand, or none.
func (r *Run) Ends() []time.Time {
	if r.Jumbos > mostEnds || len(r.Wound) == 0 {
		return nil
	}
	all, before := r.length(), 0.0
	var list []time.Time
	for _, w := range r.Wound {
		for j := range w.Jumbos {
			share := (before + w.wound(min((j+1)*w.PerJumbo, w.Sets))) / all
			list = append(list, r.Begin.Add(time.Duration(share*float64(r.End.Sub(r.Begin)))))
		}
		before += w.wound(w.Sets)
	}
	return list[:len(list)-1]
}

// length returns the whole length wound, in m.
func (r *Run) length() float64 {
	all := 0.0
	for _, w := range r.Wound {
		all += w.wound(w.Sets)
	}
	return all
}

// tried is the largest number of grades for which all sequences are tried.
const tried = 7

// sequence puts the runs in the order of the book, or chooses one.
func (b *Book) sequence(runs []*Run, offsets map[int]time.Duration) ([]*Run, error) {
	if len(b.Sequence) > 0 {
		for _, r := range runs {
			if !slices.Contains(b.Sequence, r.Grade.Name) {
				return nil, strict.Refuse("sequence", "sequence: %q is missing, but has orders", r.Grade.Name)
			}
		}
		slices.SortFunc(runs, func(r, s *Run) int {
			return cmp.Compare(slices.Index(b.Sequence, r.Grade.Name), slices.Index(b.Sequence, s.Grade.Name))
		})
		return runs, nil
	}
	// By the first date that each must meet; of equal ones first the grade that is
	// running, then in the order of the book.
	due := func(r *Run) (first time.Time) {
		for _, i := range r.orders {
			if sooner(b.Orders[i].Due, first) < 0 {
				first = b.Orders[i].Due
			}
		}
		return first
	}
	runs = slices.Clone(runs)
	slices.SortStableFunc(runs, func(r, s *Run) int {
		c := sooner(due(r), due(s))
		if c == 0 && r.Grade.Name == b.Running {
			return -1
		}
		if c == 0 && s.Grade.Name == b.Running {
			return 1
		}
		return c
	})
	if len(runs) > tried {
		return runs, nil
	}
	best, of := slices.Clone(runs), b.clocked(runs, offsets)
	permute(runs, 0, func(try []*Run) {
		s := b.clocked(try, offsets)
		if s.late < of.late || s.late == of.late && s.lateness < of.lateness {
			best, of = slices.Clone(try), s
		}
	})
	return best, nil
}

// permute tries all orders, the given one first.
func permute(runs []*Run, from int, try func([]*Run)) {
	if from == len(runs) {
		try(runs)
		return
	}
	for i := from; i < len(runs); i++ {
		moved := runs[i]
		copy(runs[from+1:i+1], runs[from:i])
		runs[from] = moved
		permute(runs, from+1, try)
		copy(runs[from:i], runs[from+1:i+1])
		runs[i] = moved
	}
}

// Day formats a time as mills say it. Midnight is the end of a day.
func Day(t time.Time) string {
	t = t.Round(time.Minute)
	if t.Hour() == 0 && t.Minute() == 0 {
		return t.AddDate(0, 0, -1).Format("Mon 2 Jan") + " 24:00"
	}
	return t.Format("Mon 2 Jan 15:04")
}

// judge enters for each order of a run when it is ready, and why it is late.
func (p *Plan) judge(at int, offsets map[int]time.Duration) {
	b, r := p.Book, &p.Runs[at]
	for _, i := range r.orders {
		offset, ok := offsets[i]
		if !ok {
			continue
		}
		m, o := &p.Orders[i], &b.Orders[i]
		m.Ready = r.Begin.Add(offset)
		if o.Due.IsZero() || !m.Ready.After(o.Due) {
			continue
		}
		m.Late = m.Ready.Sub(o.Due)
		m.First = b.Start.Add(offset)
		if b.Running != "" && b.Running != r.Grade.Name {
			m.First = m.First.Add(minutes(b.Change.Time))
		}
		var before []string
		for _, other := range p.Runs[:at] {
			before = append(before, other.Grade.Name)
		}
		switch {
		case !o.Due.After(b.Start):
			m.Reason = "its date is not after the start"
		case m.First.After(o.Due):
			m.Reason = fmt.Sprintf("can't be made by then: even with %s first it would be ready %s", r.Grade.Name, Day(m.First))
			if at == 0 {
				m.Reason = fmt.Sprintf("can't be made by then: though %s runs first, the last jumbo with a reel of it is wound %s",
					r.Grade.Name, Day(b.wound(m)))
			}
		default:
			run := "run"
			if at == 1 {
				run = "runs"
			}
			m.Reason = fmt.Sprintf("%s %s before it until %s; with %s first it would be ready %s",
				names(before), run, Day(p.Runs[at-1].End), r.Grade.Name, Day(m.First))
		}
	}
}
