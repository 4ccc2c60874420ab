package trim

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"time"

	"millmaths.example/paperprop"
)

// grain is the number of decimals of a millimetre that a width may have: a 64th of
// an inch has six.
const grain = 9

// lastDigits is the error, in units in the last place, that a few steps of float64
// arithmetic may leave: 69.875 times 25.4 mm is 1774.8249999999998 mm.
const lastDigits = 4

// exact returns a length in whole grains, from its shortest decimal text. A number
// that differs only in its last digits from one with few enough decimals counts as
// that one.
func exact(l paperprop.Length) (int64, error) {
	x := l.In(paperprop.Millimetre)
	whole, part, _ := strings.Cut(strconv.FormatFloat(x, 'f', -1, 64), ".")
	if len(part) > grain {
		text := strconv.FormatFloat(x, 'f', grain, 64)
		near, _ := strconv.ParseFloat(text, 64) // digits and a point
		if size := math.Abs(x); math.Abs(near-x) > lastDigits*(math.Nextafter(size, math.Inf(1))-size) {
			return 0, fmt.Errorf("width is %v, want at most %d decimals of a mm", l, grain)
		}
		whole, part, _ = strings.Cut(text, ".")
	}
	n, err := strconv.ParseInt(whole+part+strings.Repeat("0", grain-len(part)), 10, 64)
	if longest := 100 * paperprop.Kilometre; err != nil || l > longest {
		return 0, fmt.Errorf("width is %v, want at most %v", l, longest)
	}
	return n, nil
}

// length is the inverse of exact.
func length(n int64) paperprop.Length { return lengths(n, 1) }

// lengths returns the length of n times so many grains. The product may exceed an
// int64.
func lengths(n, times int64) paperprop.Length { return sumOf(new(big.Int), n, times) }

// sumOf adds n times so many grains to sum, and returns the sum as a length.
func sumOf(sum *big.Int, n, times int64) paperprop.Length {
	sum.Add(sum, new(big.Int).Mul(big.NewInt(n), big.NewInt(times)))
	text := fmt.Sprintf("%0*d", grain+1, new(big.Int).Abs(sum))
	if sum.Sign() < 0 {
		text = "-" + text
	}
	at := len(text) - grain
	x, _ := strconv.ParseFloat(text[:at]+"."+text[at:], 64) // digits and a point
	return paperprop.Length(x) * paperprop.Millimetre
}

// clean returns a length as a plan reports it: without the rounding of arithmetic.
func clean(l paperprop.Length) paperprop.Length {
	if n, err := exact(l); err == nil {
		return length(n)
	}
	return l
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// A book is a job in whole numbers, as models that can be solved separately.
type book struct {
	job     *Job
	models  []*model
	entries [][]entryRow // of each model
	parents []deckle
	step    int64 // of widths, in grains
	coin    int64 // of costs, in grains; 0 if sets are counted
	left    []Left
	kept    map[int]row // demand of orders of which reels are left out, by index in the job
}

// A deckle is a parent, in grains.
type deckle struct{ whole, usable int64 }

// An entryRow is what a row of a model stands for.
type entryRow struct {
	group  string
	width  int64 // in grains
	sheets int
	orders []int // index in the job
	filler int   // index in the job, or -1
	// ordered is the sum of what is ordered, in runs of the slitter.
	ordered int
}

// read checks a job and converts it to whole numbers.
func (j *Job) read() (*book, error) {
	b := &book{job: j, kept: map[int]row{}}
	if j.Aim > LeastWidth {
		return nil, fmt.Errorf("aim is %d, want FewestSets or LeastWidth", j.Aim)
	}
	if err := b.readParents(); err != nil {
		return nil, err
	}
	widths := make([]int64, len(j.Orders))
	taken := make([]bool, len(j.Orders))
	for i := range j.Orders {
		w, err := b.readOrder(&j.Orders[i])
		if err == nil {
			widths[i], taken[i] = w, true
			continue
		}
		refused := &OrderError{i, j.Orders[i], err.Error()}
		if !j.Partly || !j.Orders[i].finite() {
			return nil, refused
		}
		b.left = append(b.left, Left{i, j.Orders[i].Reels, refused.Reason})
	}
	for i, f := range j.Fillers {
		if w, err := exact(f.Width); err != nil {
			return nil, fmt.Errorf("filler %d: %w", i+1, err)
		} else if w <= 0 || f.Most < 0 {
			return nil, fmt.Errorf("filler %d: width is %v, at most %d reels; want above 0 mm, and 0 for as many as fit", i+1, f.Width, f.Most)
		} else if err := b.within(w, 1); err != nil {
			return nil, fmt.Errorf("filler %d: width %v: %w", i+1, f.Width, err)
		}
	}
	return b, b.gather(widths, taken)
}

func (b *book) readParents() error {
	j := b.job
	if len(j.Parents) == 0 {
		return errors.New("deckle is missing: want at least one")
	}
	for i, p := range j.Parents {
		d, err := p.read()
		if err != nil && len(j.Parents) > 1 {
			return fmt.Errorf("deckle %d: %w", i+1, err)
		} else if err != nil {
			return err
		}
		b.parents = append(b.parents, d)
	}
	return j.Slitter.check()
}

// read checks a parent and converts it to grains.
func (p Parent) read() (deckle, error) {
	whole, err := exact(p.Deckle)
	if err != nil {
		return deckle{}, fmt.Errorf("deckle: %w", err)
	}
	edge, err := exact(p.Edge)
	switch {
	case err != nil:
		return deckle{}, fmt.Errorf("edge: %w", err)
	case whole <= 0:
		return deckle{}, fmt.Errorf("deckle is %v, want above 0 mm", p.Deckle)
	case edge < 0 || 2*edge >= whole:
		return deckle{}, fmt.Errorf("edge is %v, want from 0 mm to below half of the deckle, %v", p.Edge, p.Deckle)
	case p.Sets < 0:
		return deckle{}, fmt.Errorf("sets of the deckle %v is %d, want from 0", p.Deckle, p.Sets)
	}
	return deckle{whole, whole - 2*edge}, nil
}

// check refuses limits below zero, and multiples beyond any order.
func (s Slitter) check() error {
	for _, limit := range []struct {
		name    string
		n, most int
	}{
		{"most reels", s.MostReels, math.MaxInt}, {"most widths", s.MostWidths, math.MaxInt},
		{"set multiple", s.SetMultiple, mostReels}, {"least sets", s.LeastSets, mostReels},
	} {
		if limit.n < 0 {
			return fmt.Errorf("%s is %d, want from 0, which is no limit", limit.name, limit.n)
		}
		if limit.n > limit.most {
			return fmt.Errorf("%s is %d, want at most %d", limit.name, limit.n, limit.most)
		}
	}
	for _, limit := range []struct {
		name string
		l    paperprop.Length
	}{{"narrowest reel", s.Narrowest}, {"widest reel", s.Widest}, {"least used width", s.LeastUsed}} {
		if n, err := exact(limit.l); err != nil {
			return fmt.Errorf("slitter: %w", err)
		} else if n < 0 {
			return fmt.Errorf("%s is %v, want from 0 mm, which is no limit", limit.name, limit.l)
		}
	}
	return nil
}

// mostReels is the most reels of an order, and so the most that a pattern may have
// to be cut.
const mostReels = 10_000_000

// mostSheets is the most sheets that a reel may be wide: no sheeter cuts nearly as
// many.
const mostSheets = 100

// readOrder returns the width in grains, or an error that says why no plan can have
// it.
func (b *book) readOrder(o *Order) (int64, error) {
	w, err := exact(o.Width)
	if err != nil {
		return 0, err
	}
	least, most := o.asked()
	switch {
	case w <= 0:
		return 0, errors.New("want above 0 mm")
	case o.Reels < 0:
		return 0, fmt.Errorf("reels is %d, want from 0", o.Reels)
	case least < 0:
		return 0, fmt.Errorf("at least %d reels, want from 0", least)
	case o.NoneWillDo && o.Least != 0:
		return 0, fmt.Errorf("none will do, but at least %d reels are asked for: want one of the two", o.Least)
	case o.Sheets < 0 || o.Sheets > mostSheets:
		return 0, fmt.Errorf("sheets is %d, want from 0 to %d", o.Sheets, mostSheets)
	case least > most:
		return 0, fmt.Errorf("at least %d and at most %d reels, want the other way round", least, most)
	case most > mostReels:
		return 0, fmt.Errorf("reels is %d, want at most %d", most, mostReels)
	case !isMass(o.ReelMass):
		return 0, fmt.Errorf("the mass of a reel is %v, want above 0 kg, or 0 kg where it is not known", o.ReelMass)
	case !isMass(o.OrderedMass):
		return 0, fmt.Errorf("the mass ordered is %v, want above 0 kg, or 0 kg of an order by reels", o.OrderedMass)
	}
	if most == 0 {
		return w, nil
	}
	if err := b.within(w, max(1, o.Sheets)); err != nil {
		return 0, err
	}
	return w, nil
}

// finite reports whether all values of an order are finite. Only a program can give
// others, and no plan could report on them.
func (o *Order) finite() bool {
	sum := float64(o.Width) + float64(o.ReelMass) + float64(o.OrderedMass)
	return sum-sum == 0
}

// isMass reports whether a mass is usable: at least zero, and small enough to add
// up ten million.
func isMass(m paperprop.Mass) bool { return m >= 0 && m <= 1e300 }

// whole returns the reason that the reels of a row can't be cut in the multiples of
// the slitter, or nil.
func (b *book) whole(least, most int) error {
	k := max(1, b.job.Slitter.SetMultiple)
	up, down := (least+k-1)/k, most/k
	if up > down {
		return fmt.Errorf("%s can't be cut in multiples of %d; the nearest are %d and %d", count(least, most), k, least/k*k, up*k)
	}
	if runs := (b.job.Slitter.LeastSets + k - 1) / k; up > 0 && down < runs {
		return fmt.Errorf("at most %s, but a pattern is cut at least %d times", plural(most, "reel"), runs*k)
	}
	return nil
}

func plural(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

func count(least, most int) string {
	if least == most {
		return plural(least, "reel")
	}
	return fmt.Sprintf("%d to %d reels", least, most)
}

// asked returns the fewest and most reels that satisfy an order.
func (o *Order) asked() (least, most int) {
	least, most = cmp.Or(o.Least, o.Reels), cmp.Or(o.Most, o.Reels)
	if o.NoneWillDo {
		least = 0
	}
	return least, most
}

// within returns the reason that a reel of a width, or of some sheets of it, can't
// be slit, or nil.
func (b *book) within(w int64, sheets int) error {
	s := b.job.Slitter
	narrowest, _ := exact(s.Narrowest)
	widest, _ := exact(s.Widest)
	usable, across := b.widestUsable(), int64(sheets)
	switch {
	case w > usable:
		return fmt.Errorf("wider than the deckle, %v less its edges; want at most %v", b.job.widestDeckle(), length(usable))
	case widest > 0 && w > widest:
		return fmt.Errorf("wider than the slitter's widest reel, %v", s.Widest)
	}
	if across = min(across, usable/w); widest > 0 {
		across = min(across, widest/w)
	}
	if w*across < narrowest {
		return fmt.Errorf("narrower than the slitter's narrowest reel, %v", s.Narrowest)
	}
	return nil
}

// widestUsable returns the width of the widest parent between its edges.
func (b *book) widestUsable() (usable int64) {
	for _, p := range b.parents {
		usable = max(usable, p.usable)
	}
	return usable
}

func (j *Job) widestDeckle() paperprop.Length {
	var widest paperprop.Length
	for _, p := range j.Parents {
		widest = max(widest, p.Deckle)
	}
	return widest
}

// gather makes rows of orders that are alike, and models of groups that are
// independent.
func (b *book) gather(widths []int64, taken []bool) error {
	j := b.job
	type rowKey struct {
		group  string
		width  int64
		sheets int
	}
	at := map[rowKey]int{}
	var entries []entryRow
	for i, o := range j.Orders {
		if _, most := o.asked(); !taken[i] || most == 0 {
			continue
		}
		key := rowKey{o.Group, widths[i], max(1, o.Sheets)}
		r, ok := at[key]
		if !ok {
			r = len(entries)
			at[key] = r
			entries = append(entries, entryRow{group: key.group, width: key.width, sheets: key.sheets, filler: -1})
		}
		entries[r].orders = append(entries[r].orders, i)
	}
	slices.SortFunc(entries, func(x, y entryRow) int {
		return cmp.Or(cmp.Compare(x.group, y.group), cmp.Compare(y.width, x.width), cmp.Compare(x.sheets, y.sheets))
	})
	kept := entries[:0]
	for _, e := range entries {
		if err := b.whole(b.wanted(e)); err == nil {
			kept = append(kept, e)
			b.step = gcd(b.step, e.width)
		} else if !j.Partly {
			return &OrderError{e.orders[0], j.Orders[e.orders[0]], err.Error()}
		} else {
			for _, i := range e.orders {
				b.left = append(b.left, Left{i, j.Orders[i].Reels, err.Error()})
			}
		}
	}
	entries = kept
	for _, f := range j.Fillers {
		w, _ := exact(f.Width) // checked before
		b.step = gcd(b.step, w)
	}
	if b.step == 0 {
		return nil // nothing is ordered
	}
	if j.Aim == LeastWidth {
		for _, p := range b.parents {
			b.coin = gcd(b.coin, p.whole)
		}
		reels := 0
		for _, e := range entries {
			_, most := b.wanted(e)
			reels += most
		}
		if dearest := slices.MaxFunc(b.parents, func(p, q deckle) int { return cmp.Compare(p.whole, q.whole) }); float64(dearest.whole/b.coin)*float64(reels) > 1<<53 {
			return fmt.Errorf("the deckles are multiples of %v and of nothing wider, too fine for %d reels; want deckles in whole mm", length(b.coin), reels)
		}
	}
	stocked := slices.ContainsFunc(j.Parents, func(p Parent) bool { return p.Sets > 0 })
	together := stocked || j.Slitter.LeastUsed > 0 && slices.ContainsFunc(j.Fillers, func(f Filler) bool { return f.Most > 0 })
	var m *model
	for i, e := range entries {
		if m == nil || !together && e.group != entries[i-1].group {
			m = b.newModel()
			b.models, b.entries = append(b.models, m), append(b.entries, nil)
		}
		last := len(b.models) - 1
		if n := len(b.entries[last]); n == 0 || b.entries[last][n-1].group != e.group {
			m.groups = append(m.groups, nil)
		}
		b.addRow(m, &e)
		b.entries[last] = append(b.entries[last], e)
	}
	for n, m := range b.models {
		m.sortCuts()
		b.allowFillers(n)
	}
	return nil
}

// allowFillers lets fillers count towards the least width used of a set: until the
// orders are planned, they are rows without demand.
func (b *book) allowFillers(n int) {
	if b.job.Slitter.LeastUsed == 0 {
		return
	}
	m, k := b.models[n], max(1, b.job.Slitter.SetMultiple)
	sets := 0 // at most so many hold something ordered
	for _, r := range m.rows {
		sets += r.most
	}
	for f, filler := range b.job.Fillers {
		width, _ := exact(filler.Width) // checked before
		most := int64(sets) * (b.widestUsable() / width)
		if filler.Most > 0 {
			most = min(most, int64(filler.Most/k))
		}
		if row := b.addFiller(m, n, f, width/b.step); row >= 0 {
			m.rows[row].most = int(min(most, math.MaxInt32))
			m.fillers++
		}
	}
	m.sortCuts()
}

// wanted returns the fewest and most that satisfy all orders of a row.
func (b *book) wanted(e entryRow) (least, most int) {
	for _, i := range e.orders {
		l, h := b.job.Orders[i].asked()
		least, most = least+l, most+h
	}
	return least, most
}

// newModel returns a model with the limits of the job and no rows.
func (b *book) newModel() *model {
	s := b.job.Slitter
	m := &model{
		pieces: cmp.Or(s.MostReels, math.MaxInt32), kinds: cmp.Or(s.MostWidths, math.MaxInt32),
		runs: max(1, s.LeastSets),
	}
	used, _ := exact(s.LeastUsed) // checked before
	k := max(1, s.SetMultiple)
	m.runs = (m.runs + k - 1) / k
	for i, p := range b.parents {
		cost := int64(1)
		if b.coin > 0 {
			cost = p.whole / b.coin
		}
		d := parent{width: p.usable / b.step, least: (used + b.step - 1) / b.step, cost: cost, times: 1}
		if n := b.job.Parents[i].Sets; n > 0 {
			d.draws = []draw{{int32(len(m.stocks)), 1}}
			m.stocks = append(m.stocks, int64(n/k))
		}
		m.parents = append(m.parents, d)
	}
	m.strict = used > 0 || m.runs > 1
	return m
}

func (b *book) addRow(m *model, e *entryRow) {
	s := b.job.Slitter
	k := max(1, s.SetMultiple)
	least, most := b.wanted(*e)
	ordered := 0
	for _, i := range e.orders {
		ordered += b.job.Orders[i].Reels
	}
	r := row{(least + k - 1) / k, most / k}
	e.ordered = min(max(r.least, (ordered+k/2)/k), r.most)
	m.rows = append(m.rows, r)
	group := int32(len(m.groups) - 1)
	narrowest, _ := exact(s.Narrowest)
	widest, _ := exact(s.Widest)
	across := int(min(int64(min(e.sheets, max(1, most/k))), b.widestUsable()/e.width))
	for n := 1; n <= across; n++ {
		w := e.width * int64(n)
		if w < narrowest || widest > 0 && w > widest {
			continue
		}
		m.groups[group] = append(m.groups[group], int32(len(m.cuts)))
		m.cuts = append(m.cuts, cut{w / b.step, int32(len(m.rows) - 1), int32(n), group})
		// A surplus of a row is taken out one width at a time, if possible: that
		// may leave a reel with another number of sheets, and so of another width.
		m.strict = m.strict || n > 1 && (e.width < narrowest || s.MostWidths > 0)
	}
}

// sortCuts sorts the cuts of each group widest first, with fillers after orders,
// and notes equal widths if widths are limited.
func (m *model) sortCuts() {
	rank := func(c int32) int { return max(0, int(m.cuts[c].row)+1-len(m.asked())) }
	for _, cuts := range m.groups {
		slices.SortStableFunc(cuts, func(x, y int32) int {
			return cmp.Or(cmp.Compare(rank(x), rank(y)), cmp.Compare(m.cuts[y].width, m.cuts[x].width))
		})
		m.alike = m.alike || m.kinds < len(m.cuts) && m.twice(cuts)
	}
}

// twice reports whether two of the cuts are of equal width.
func (m *model) twice(cuts []int32) bool {
	seen := map[int64]bool{}
	for _, c := range cuts {
		seen[m.cuts[c].width] = true
	}
	return len(seen) < len(cuts)
}

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
	var s *solver
	if m.runs > 1 || m.parents[0].least > 0 {
		s = m.solveHard(func(part float64) func() bool { return stopper(ctx, part) })
	} else {
		s = solve(m, stopper(ctx, part))
	}
	if !s.has && b.job.Partly {
		s = b.partly(ctx, n, m, plan)
	}
	if !s.has {
		i := b.entries[n][s.short()].orders[0]
		reason := "no plan makes all of it with " + b.binding()
		if ctx.Err() != nil || !s.impossible {
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
	b.certify(plan, n, s, m.cost(&best))
	return nil
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

// partly keeps as many reels, in the order of the list, as can be planned, and
// lists the rest.
func (b *book) partly(ctx context.Context, n int, m *model, plan *Plan) *solver {
	var orders []int
	for _, e := range b.entries[n] {
		orders = append(orders, e.orders...)
	}
	slices.Sort(orders)
	total := 0
	for _, i := range orders {
		total += b.job.Orders[i].wanted()
	}
	fits, not := 0, total
	for not-fits > 1 {
		kept := (fits + not) / 2
		b.keep(n, m, orders, kept)
		if solve(m, stopper(ctx, 0.1)).has {
			fits = kept
		} else {
			not = kept
		}
	}
	reason := "no plan makes more of it with " + b.binding()
	for i, left := range b.keep(n, m, orders, fits) {
		if left > 0 {
			plan.Left = append(plan.Left, Left{orders[i], left, reason})
		}
		reason = "no room beside the orders above it"
	}
	return solve(m, stopper(ctx, 0.5))
}

// wanted returns the number ordered, or the nearest that least and most allow.
func (o *Order) wanted() int {
	least, most := o.asked()
	return min(max(o.Reels, least), most)
}

// keep reduces the demand of a model to kept reels, and returns how many are left
// out of each order.
func (b *book) keep(n int, m *model, orders []int, kept int) (left []int) {
	k := max(1, b.job.Slitter.SetMultiple)
	rowOf := map[int]int{}
	for r, e := range b.entries[n] {
		if e.filler >= 0 {
			continue
		}
		m.rows[r] = row{}
		b.entries[n][r].ordered = 0
		for _, i := range e.orders {
			rowOf[i] = r
		}
	}
	for _, i := range orders {
		wanted := b.job.Orders[i].wanted()
		take, r := min(wanted, kept), rowOf[i]
		kept -= take
		least, most := b.job.Orders[i].asked()
		delete(b.kept, i)
		if take < wanted {
			take = take / k * k
			least, most = min(least, take), take
			b.kept[i] = row{least, most}
		}
		left = append(left, wanted-take)
		m.rows[r].least += least
		m.rows[r].most += most
		b.entries[n][r].ordered += take
	}
	for r := range m.asked() {
		x := &m.rows[r]
		x.least, x.most = (x.least+k-1)/k, x.most/k
		b.entries[n][r].ordered = min(max(x.least, b.entries[n][r].ordered/k), x.most)
	}
	return left
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

// mixes reports whether reels of one width may go to several rows of a model whose
// patterns are repeated. Sets that look alike and are shared out differently count apart
// there, so that its bound does not hold for plans that mix them.
func (b *book) mixes(n int) bool {
	if b.job.Slitter.SetMultiple <= 1 && b.models[n].runs <= 1 {
		return false
	}
	type place struct {
		group int32
		width int64
	}
	rows := map[place]int32{}
	for _, c := range b.models[n].cuts {
		if b.entries[n][c.row].filler >= 0 {
			continue
		}
		at := place{c.group, c.width}
		if row, ok := rows[at]; ok && row != c.row {
			return true
		}
		rows[at] = c.row
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
