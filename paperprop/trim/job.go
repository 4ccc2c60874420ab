package trim

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/internal/strict"
)

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
	sheets int   // across a reel at most
	orders []int // index in the job
	filler int   // index in the job, or -1
	// ordered is the sum of what is ordered, in runs of the slitter.
	ordered int
}

// compare sorts rows by group, the widest first. Orders that compare equal are one row.
func (e entryRow) compare(f entryRow) int {
	return cmp.Or(cmp.Compare(e.group, f.group), cmp.Compare(f.width, e.width), cmp.Compare(e.sheets, f.sheets))
}

// shares reports whether a reel of one width may go to another row as well.
func (e entryRow) shares(f entryRow) bool {
	if e.group != f.group || e.compare(f) == 0 {
		return false
	}
	for n := 1; n <= e.sheets; n++ {
		if w := e.width * int64(n); w%f.width == 0 && w/f.width <= int64(f.sheets) {
			return true
		}
	}
	return false
}

// read checks a job and converts it to whole numbers.
func (j *Job) read() (*book, error) {
	b := &book{job: j, kept: map[int]row{}}
	if j.Aim > LeastWidth {
		return nil, fmt.Errorf("aim is %d, want FewestSets or LeastWidth", j.Aim)
	}
	if err := b.readLimits(); err != nil {
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
	return b, b.gather(widths, taken)
}

// readLimits reads everything but the orders.
func (b *book) readLimits() error {
	if err := b.readParents(); err != nil {
		return err
	}
	return b.checkFillers()
}

func (b *book) checkFillers() error {
	for i, f := range b.job.Fillers {
		key := strict.Member("filler", i)
		if w, err := exact(f.Width); err != nil {
			return strict.Refuse(key+".width", "filler %d: %w", i+1, err)
		} else if w <= 0 || f.Most < 0 {
			return strict.Refuse(key, "filler %d: width is %v, at most %d reels; want above 0 mm, and 0 for as many as fit", i+1, f.Width, f.Most)
		} else if err := b.within(w, 1); err != nil {
			return strict.Refuse(key+".width", "filler %d: width %v: %w", i+1, f.Width, err)
		}
	}
	return nil
}

func (b *book) readParents() error {
	j := b.job
	if len(j.Parents) == 0 {
		return errors.New("deckle is missing: want at least one")
	}
	for i, p := range j.Parents {
		d, err := p.read(strict.Member("deckle", i))
		if err != nil && len(j.Parents) > 1 {
			return fmt.Errorf("deckle %d: %w", i+1, err)
		} else if err != nil {
			return err
		}
		b.parents = append(b.parents, d)
	}
	if err := j.Slitter.check(); err != nil {
		return err
	}
	if least, _ := exact(j.Slitter.LeastUsed); least > b.widestUsable() { // checked above
		return strict.Refuse("slitter.least-used", "least used width is %v, want at most %v, what the deckle leaves between its edges",
			j.Slitter.LeastUsed, length(b.widestUsable()))
	}
	return nil
}

// read checks a parent, whose key is that in files, and converts it to grains.
func (p Parent) read(key string) (deckle, error) {
	whole, err := exact(p.Deckle)
	if err != nil {
		return deckle{}, strict.Refuse(key+".width", "deckle: %w", err)
	}
	edge, err := exact(p.Edge)
	switch {
	case err != nil:
		return deckle{}, strict.Refuse(key+".edge", "edge: %w", err)
	case whole <= 0:
		return deckle{}, strict.Refuse(key+".width", "deckle is %v, want above 0 mm", p.Deckle)
	case edge < 0 || 2*edge >= whole:
		return deckle{}, strict.Refuse(key+".edge", "edge is %v, want from 0 mm to below half of the deckle, %v", p.Edge, p.Deckle)
	case p.Sets < 0:
		return deckle{}, strict.Refuse(key+".sets", "sets of the deckle %v is %d, want from 0", p.Deckle, p.Sets)
	}
	return deckle{whole, whole - 2*edge}, nil
}

// check refuses limits below zero or that leave no reel, and multiples beyond any order.
func (s Slitter) check() error {
	for _, limit := range []struct {
		key, name string
		n, most   int
	}{
		{"most-reels", "most reels", s.MostReels, math.MaxInt}, {"most-widths", "most widths", s.MostWidths, math.MaxInt},
		{"set-multiple", "set multiple", s.SetMultiple, mostReels}, {"least-sets", "least sets", s.LeastSets, mostReels},
	} {
		if limit.n < 0 {
			return strict.Refuse("slitter."+limit.key, "%s is %d, want from 0, which is no limit", limit.name, limit.n)
		}
		if limit.n > limit.most {
			return strict.Refuse("slitter."+limit.key, "%s is %d, want at most %d", limit.name, limit.n, limit.most)
		}
	}
	for _, limit := range []struct {
		key, name string
		l         paperprop.Length
	}{{"narrowest", "narrowest reel", s.Narrowest}, {"widest", "widest reel", s.Widest}, {"least-used", "least used width", s.LeastUsed}} {
		if n, err := exact(limit.l); err != nil {
			return strict.Refuse("slitter."+limit.key, "slitter: %w", err)
		} else if n < 0 {
			return strict.Refuse("slitter."+limit.key, "%s is %v, want from 0 mm, which is no limit", limit.name, limit.l)
		}
	}
	if s.Widest > 0 && s.Narrowest > s.Widest {
		return strict.Refuse("slitter.narrowest", "narrowest reel is %v, want at most the widest, %v", s.Narrowest, s.Widest)
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
	return w, b.within(w, o.Sheets)
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
	usable := b.widestUsable()
	switch {
	case w > usable:
		return fmt.Errorf("wider than the deckle, %v less its edges; want at most %v", b.job.widestDeckle(), length(usable))
	case widest > 0 && w > widest:
		return fmt.Errorf("wider than the slitter's widest reel, %v", s.Widest)
	case w*int64(b.across(w, sheets)) < narrowest:
		return fmt.Errorf("narrower than the slitter's narrowest reel, %v", s.Narrowest)
	}
	return nil
}

// across returns how many of so many sheets of a width a reel can have.
func (b *book) across(w int64, sheets int) int {
	most := b.widestUsable()
	if widest, _ := exact(b.job.Slitter.Widest); widest > 0 {
		most = min(most, widest)
	}
	return int(min(int64(max(1, sheets)), most/w))
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
	entries, err := b.cuttable(b.alike(widths, taken))
	if err != nil {
		return err
	}
	j := b.job
	for _, e := range entries {
		b.step = gcd(b.step, e.width)
	}
	for _, f := range j.Fillers {
		w, _ := exact(f.Width) // checked before
		b.step = gcd(b.step, w)
	}
	if b.step == 0 {
		return nil // nothing is ordered
	}
	if j.Aim == LeastWidth {
		if err := b.priceWidth(entries); err != nil {
			return err
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

// alike makes rows of the orders that are taken, by group, the widest first.
func (b *book) alike(widths []int64, taken []bool) []entryRow {
	var entries []entryRow
	for i, o := range b.job.Orders {
		if _, most := o.asked(); !taken[i] || most == 0 {
			continue
		}
		e := entryRow{group: o.Group, width: widths[i], sheets: b.across(widths[i], o.Sheets), orders: []int{i}, filler: -1}
		entries = append(entries, e)
	}
	slices.SortStableFunc(entries, entryRow.compare)
	rows := entries[:0]
	for _, e := range entries {
		if last := len(rows) - 1; last >= 0 && rows[last].compare(e) == 0 {
			rows[last].orders = append(rows[last].orders, e.orders...)
		} else {
			rows = append(rows, e)
		}
	}
	return rows
}

// cuttable returns the rows that can be cut in the multiples of the slitter. The others
// are left out, or refused.
func (b *book) cuttable(entries []entryRow) ([]entryRow, error) {
	j := b.job
	var kept []entryRow
	for _, e := range entries {
		err := b.whole(b.wanted(e))
		if err == nil {
			kept = append(kept, e)
			continue
		}
		reason := err.Error()
		if slices.ContainsFunc(entries, e.shares) {
			reason += apart
		}
		if !j.Partly {
			return nil, &OrderError{e.orders[0], j.Orders[e.orders[0]], reason}
		}
		for _, i := range e.orders {
			b.left = append(b.left, Left{i, j.Orders[i].Reels, reason})
		}
	}
	return kept, nil
}

// priceWidth finds the coin in which deckles cost their width, and refuses one too fine
// for the cost of all reels to be a whole number of a float64.
func (b *book) priceWidth(entries []entryRow) error {
	widest := int64(0)
	for _, p := range b.parents {
		b.coin = gcd(b.coin, p.whole)
		widest = max(widest, p.whole)
	}
	reels := 0
	for _, e := range entries {
		_, most := b.wanted(e)
		reels += most
	}
	if float64(widest/b.coin)*float64(reels) > 1<<53 {
		return fmt.Errorf("the deckles are multiples of %v and of nothing wider, too fine for %d reels; want deckles in whole mm", length(b.coin), reels)
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

// rowOf returns the demand for a row, and notes what is ordered of it.
func (b *book) rowOf(e *entryRow) row {
	k := max(1, b.job.Slitter.SetMultiple)
	least, most, ordered := 0, 0, 0
	for _, i := range e.orders {
		will := b.will(i)
		least, most, ordered = least+will.least, most+will.most, ordered+b.job.Orders[i].Reels
	}
	r := row{(least + k - 1) / k, most / k}
	e.ordered = min(max(r.least, (ordered+k/2)/k), r.most)
	return r
}

func (b *book) addRow(m *model, e *entryRow) {
	s := b.job.Slitter
	m.rows = append(m.rows, b.rowOf(e))
	group := int32(len(m.groups) - 1)
	narrowest, _ := exact(s.Narrowest)
	for n := 1; n <= min(e.sheets, max(1, m.rows[len(m.rows)-1].most)); n++ {
		w := e.width * int64(n)
		if w < narrowest {
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
