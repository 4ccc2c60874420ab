package trim

import (
	"cmp"
	"math"
	"slices"
)

// A knapsack finds the most valuable set that a parent and the slitter allow: a
// bounded knapsack in whole numbers, solved exactly by depth-first search in order
// of value per width. It is reused for many searches, with its memory.
type knapsack struct {
	items  []item
	ratio  []float64 // upper bound on the value per width of items[i:]
	after  []int64   // total width of items[i:], for sets with a least width
	thin   []int64   // the narrowest of items[i:]
	top    []int64   // the greatest value of one item of items[i:]
	room   limits
	best   int64
	nodes  int // left
	ended  bool
	stack  []piece
	sets   [][]piece // found so far, each better than the one before
	banned func([]piece) bool
	apart  [][]int32 // of each cut, those that must not lie beside it
	barred []int32   // of each cut, pieces on the stack that it must not lie beside
	alike  []cut     // of the model, if equal widths count as one kind; nil if there are none
	ahead  []int64   // see guided

	// For orders of several sheets, whose rows have a cut for each number of
	// sheets:
	cuts []cut   // of the model; nil if no reel has several sheets
	left []int32 // units of each row that a set may still take
	lead []int32 // of each row: units of its widest cut, or loose
	gain []int64 // the most that rows with a cut in items[i:] are worth
	open int64   // the most that left is worth
}

// An item may be taken up to most times.
type item struct {
	cut   int32
	most  int32
	width int64
	value int64
}

// A piece is a width in a set, and how often it lies there.
type piece struct {
	cut int32
	n   int32
}

// limits is the limits of a set.
type limits struct {
	width  int64 // at most
	least  int64 // at least
	pieces int   // across, at most
	kinds  int   // different widths, at most
}

// search leaves in k.sets those worth more than atLeast. It returns the most that
// any set is worth, or atLeast if none is worth more. It is not exact if it ran out
// of nodes: there may be sets worth more.
func (k *knapsack) search(items []item, room limits, atLeast int64, nodes int) (most int64, exact bool) {
	k.items, k.room, k.best, k.nodes, k.ended = items, room, atLeast, nodes, false
	k.sets, k.stack = k.sets[:0], k.stack[:0]
	slices.SortFunc(items, func(a, b item) int {
		x, y := float64(a.value)/float64(a.width), float64(b.value)/float64(b.width)
		return cmp.Or(cmp.Compare(y, x), cmp.Compare(b.width, a.width), cmp.Compare(a.cut, b.cut))
	})
	n := len(items)
	k.ratio = grown(k.ratio, n+1)
	k.after = grown(k.after, n+1)
	k.thin = grown(k.thin, n+1)
	k.top = grown(k.top, n+1)
	k.ratio[n], k.after[n], k.thin[n], k.top[n] = 0, 0, math.MaxInt64, 0
	for i := n - 1; i >= 0; i-- {
		k.ratio[i] = max(0, float64(items[i].value)/float64(items[i].width)*(1+1e-14))
		k.after[i] = k.after[i+1] + int64(items[i].most)*items[i].width
		k.thin[i] = min(k.thin[i+1], items[i].width)
		k.top[i] = max(k.top[i+1], items[i].value)
	}
	k.ration()
	k.descend(0, room.width, room.pieces, room.kinds, 0)
	return k.best, !k.ended
}

// none is the value of the impossible.
const none = math.MinInt64 / 4

// guided is search by a table of the most that items[i:] are worth in each room
// that they can fill, ignoring the limits on pieces, kinds and neighbours. The
// table rules out at once what is too wide or leaves too much, the main difficulty
// with sets that must be full. After the best set it looks for more with other
// items, as the linear program needs them together. If it runs out of nodes, it
// returns an upper bound.
func (k *knapsack) guided(items []item, room limits, atLeast int64, nodes int) (most int64) {
	k.items, k.room, k.best, k.nodes, k.ended = items, room, atLeast, nodes, false
	k.foresee()
	k.follow(0, room.width, room.pieces, room.kinds, 0)
	if most = k.best; k.ended {
		most = max(most, k.ahead[room.width])
	}
	for range mostSets {
		if len(k.sets) == 0 {
			break
		}
		last := k.sets[len(k.sets)-1]
		for i := range items {
			for _, p := range last {
				if p.cut == items[i].cut {
					items[i].most -= p.n
				}
			}
		}
		found := len(k.sets)
		k.best, k.nodes, k.ended = atLeast, briefly, false
		k.follow(0, room.width, room.pieces, room.kinds, 0)
		if len(k.sets) == found {
			break
		}
	}
	return most
}

// How many sets besides the best guided looks for, and the nodes for that.
const (
	mostSets = 40
	briefly  = 3000
)

// foresee makes the table for guided and all.
func (k *knapsack) foresee() {
	k.sets, k.stack = k.sets[:0], k.stack[:0]
	slices.SortFunc(k.items, func(a, b item) int {
		return cmp.Or(cmp.Compare(b.width, a.width), cmp.Compare(b.value, a.value), cmp.Compare(a.cut, b.cut))
	})
	n, size := len(k.items), int(k.room.width)+1
	k.ahead = grown(k.ahead, (n+1)*size)
	last := k.ahead[n*size : (n+1)*size]
	for c := range last {
		last[c] = none
		if int64(c) <= k.room.width-k.room.least {
			last[c] = 0
		}
	}
	for i := n - 1; i >= 0; i-- {
		w, v := int(k.items[i].width), k.items[i].value
		row, next := k.ahead[i*size:(i+1)*size], k.ahead[(i+1)*size:(i+2)*size]
		copy(row, next)
		for t := 1; t <= int(k.items[i].most) && t*w < size; t++ {
			to, worth := row[t*w:], int64(t)*v
			from := next[:len(to)]
			for c, x := range from {
				to[c] = max(to[c], x+worth)
			}
		}
	}
	k.ration()
}

// follow extends the set on the stack with items[i:], along the table.
func (k *knapsack) follow(i int, room int64, pieces, kinds int, value int64) {
	size := k.room.width + 1
	for ; i < len(k.items) && pieces > 0 && k.opens(kinds); i++ {
		if value+k.ahead[int64(i)*size+room] <= k.best {
			return
		}
		it := &k.items[i]
		kind := k.kind(it)
		if k.apart != nil && k.barred[it.cut] > 0 || kind > kinds {
			continue
		}
		next := k.ahead[int64(i+1)*size:]
		for t := min(int64(it.most), room/it.width, int64(pieces)); t > 0; t-- {
			if value+t*it.value+next[room-t*it.width] <= k.best {
				continue
			}
			if k.nodes--; k.nodes < 0 {
				k.ended = true
				return
			}
			k.stack = append(k.stack, piece{it.cut, int32(t)})
			k.bar(it.cut, 1)
			k.follow(i+1, room-t*it.width, pieces-int(t), kinds-kind, value+t*it.value)
			k.bar(it.cut, -1)
			k.stack = k.stack[:len(k.stack)-1]
			if k.ended {
				return
			}
		}
	}
	if used := k.room.width - room; value > k.best && used >= k.room.least && used > 0 {
		if set := slices.Clone(k.stack); k.banned == nil || !k.banned(set) {
			k.best = value
			k.sets = append(k.sets, set)
		}
	}
}

// all lists the sets worth at least atLeast, by the table that foresee made. It is
// not ok if there are more than limit.
func (k *knapsack) all(atLeast int64, limit int) (sets [][]piece, ok bool) {
	k.sets, k.stack, k.best, k.nodes = k.sets[:0], k.stack[:0], atLeast, limit
	k.ended = false
	k.each(0, k.room.width, k.room.pieces, k.room.kinds, 0)
	return slices.Clone(k.sets), !k.ended
}

// rarest lists the sets worth at least atLeast that hold the item which occurs in
// the fewest of them. It is not ok if every item occurs in more than limit.
func (k *knapsack) rarest(atLeast int64, limit int) (sets [][]piece, ok bool) {
	for i := range k.items {
		it := &k.items[i]
		most := it.most
		it.most = 0
		k.sets, k.best, k.nodes, k.ended = k.sets[:0], atLeast, limit, false
		for t := min(most, int32(k.room.width/it.width), int32(min(k.room.pieces, math.MaxInt32))); t > 0; t-- {
			k.stack = append(k.stack[:0], piece{it.cut, t})
			k.bar(it.cut, 1)
			k.each(0, k.room.width-int64(t)*it.width, k.room.pieces-int(t), k.room.kinds-1, int64(t)*it.value)
			k.bar(it.cut, -1)
		}
		it.most = most
		if !k.ended {
			sets, ok = slices.Clone(k.sets), true
			if limit = len(sets) - 1; limit < 1 {
				break
			}
		}
	}
	return sets, ok
}

// each extends the set on the stack with items[i:].
func (k *knapsack) each(i int, room int64, pieces, kinds int, value int64) {
	size := k.room.width + 1
	if used := k.room.width - room; value >= k.best && used >= k.room.least && used > 0 {
		if k.nodes--; k.nodes < 0 {
			k.ended = true
			return
		}
		set := slices.Clone(k.stack)
		sortPieces(set)
		k.sets = append(k.sets, set)
	}
	for ; i < len(k.items) && pieces > 0 && k.opens(kinds) && !k.ended; i++ {
		if value+k.ahead[int64(i)*size+room] < k.best {
			return
		}
		it := &k.items[i]
		kind := k.kind(it)
		if k.apart != nil && k.barred[it.cut] > 0 || kind > kinds {
			continue
		}
		next := k.ahead[int64(i+1)*size:]
		for t := min(k.most(it), room/it.width, int64(pieces)); t > 0 && !k.ended; t-- {
			if value+t*it.value+next[room-t*it.width] < k.best {
				continue
			}
			k.stack = append(k.stack, piece{it.cut, int32(t)})
			k.bar(it.cut, 1)
			left := k.lay(it, t)
			k.each(i+1, room-t*it.width, pieces-int(t), kinds-kind, value+t*it.value)
			k.putBack(it, left)
			k.bar(it.cut, -1)
			k.stack = k.stack[:len(k.stack)-1]
		}
	}
}

// bind takes from a model the cuts that may not lie side by side, or else those of
// several sheets: pairs are made of single reels. It notes equal widths if widths
// are limited.
func (k *knapsack) bind(m *model) {
	if k.cuts = nil; m.apart == nil && slices.ContainsFunc(m.cuts, func(c cut) bool { return c.units > 1 }) {
		k.cuts, k.left, k.lead = m.cuts, grown(k.left, len(m.rows)), grown(k.lead, len(m.rows))
	}
	if k.alike = nil; m.alike {
		k.alike = m.cuts
	}
	if k.apart = m.apart; k.apart != nil {
		k.barred = grown(k.barred, len(m.cuts))
		clear(k.barred)
	}
}

// bar counts a cut in or out for those that must not lie beside it.
func (k *knapsack) bar(cut, by int32) {
	if k.apart == nil {
		return
	}
	for _, c := range k.apart[cut] {
		k.barred[c] += by
	}
}

// opens reports whether a set that may hold so many more kinds may take another
// cut.
func (k *knapsack) opens(kinds int) bool { return kinds > 0 || k.alike != nil }

// kind returns 1 for an item whose width is not on the stack, else 0.
func (k *knapsack) kind(it *item) int {
	if k.alike == nil || !k.holds(it.width) {
		return 1
	}
	return 0
}

// holds reports whether a reel of that width is on the stack.
func (k *knapsack) holds(width int64) bool {
	return slices.ContainsFunc(k.stack, func(p piece) bool { return k.alike[p.cut].width == width })
}

// loose marks a row in lead if not all numbers of sheets can be cut, or if some
// save a width.
const loose = -1

// ration prepares the share that the cuts of a row have in common: together they
// give a set no more than the row may take. The items of a row are in order, the
// widest first.
func (k *knapsack) ration() {
	if k.cuts == nil {
		return
	}
	n := len(k.items)
	k.gain = grown(k.gain, n+1)
	k.gain[n] = 0
	clear(k.lead)
	for i := n - 1; i >= 0; i-- {
		it := &k.items[i]
		c := &k.cuts[it.cut]
		k.gain[i] = k.gain[i+1]
		switch lead := &k.lead[c.row]; {
		case *lead == 0:
			k.gain[i] += int64(k.left[c.row]) * k.unit(it)
			if *lead = c.units; c.units > 1 || k.alike != nil {
				*lead = loose
			}
		case *lead != loose:
			*lead = c.units
		}
	}
	k.open = k.gain[0]
}

// unit returns the value of a unit of an item's row, at least 0.
func (k *knapsack) unit(it *item) int64 { return max(0, it.value/int64(k.cuts[it.cut].units)) }

// most returns how many of an item a set may still take.
func (k *knapsack) most(it *item) int64 {
	if k.cuts == nil {
		return int64(it.most)
	}
	c := &k.cuts[it.cut]
	return int64(min(it.most, k.left[c.row]/c.units))
}

// lay takes some of an item out of what its row has left, and returns what that
// was. Units of a row take the same width in whatever reels. So if a single sheet
// can be cut, only reels of one number of sheets are tried, and the widest with
// others for the remainder: nothing else has fewer reels or widths.
func (k *knapsack) lay(it *item, times int64) (left int32) {
	if k.cuts == nil {
		return 0
	}
	c := &k.cuts[it.cut]
	left = k.left[c.row]
	now := left - int32(times)*c.units
	switch k.lead[c.row] {
	case loose:
	case c.units:
		now = min(now, c.units-1)
	default:
		now = 0
	}
	k.setLeft(it, now)
	return left
}

// putBack undoes lay.
func (k *knapsack) putBack(it *item, left int32) {
	if k.cuts != nil {
		k.setLeft(it, left)
	}
}

func (k *knapsack) setLeft(it *item, now int32) {
	left := &k.left[k.cuts[it.cut].row]
	k.open += int64(now-*left) * k.unit(it)
	*left = now
}

// shares reports whether rows may take everything that a set has of their cuts.
func (k *knapsack) shares(set []piece) bool {
	if k.cuts == nil {
		return true
	}
	units := map[int32]int32{}
	for _, p := range set {
		c := &k.cuts[p.cut]
		if units[c.row] += p.n * c.units; units[c.row] > k.left[c.row] {
			return false
		}
	}
	return true
}

func grown[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}

// descend extends the set on the stack with items[i:].
func (k *knapsack) descend(i int, room int64, pieces, kinds int, value int64) {
	if used := k.room.width - room; value > k.best && used >= k.room.least && used > 0 {
		set := slices.Clone(k.stack)
		if k.banned == nil || !k.banned(set) {
			k.best = value
			k.sets = append(k.sets, set)
		}
	}
	if pieces == 0 || !k.opens(kinds) {
		return
	}
	for ; i < len(k.items); i++ {
		// The margin exceeds the rounding of float64: values are below 2^53.
		if float64(value)+k.ratio[i]*float64(room) < float64(k.best)+0.5 ||
			k.thin[i] > room || value+min(int64(pieces), room/k.thin[i])*k.top[i] <= k.best || k.room.width-room+k.after[i] < k.room.least ||
			k.cuts != nil && value+min(k.open, k.gain[i]) <= k.best {
			return
		}
		it := &k.items[i]
		kind := k.kind(it)
		if it.width > room || kind > kinds {
			continue
		}
		t := min(k.most(it), room/it.width, int64(pieces))
		for ; t > 0; t-- {
			if k.nodes--; k.nodes < 0 {
				k.ended = true
				return
			}
			k.stack = append(k.stack, piece{it.cut, int32(t)})
			left := k.lay(it, t)
			k.descend(i+1, room-t*it.width, pieces-int(t), kinds-kind, value+t*it.value)
			k.putBack(it, left)
			k.stack = k.stack[:len(k.stack)-1]
			if k.ended {
				return
			}
		}
	}
}

// table solves the knapsack by dynamic programming over the width, for values so
// close to the widths that a search would not end. It ignores pieces, kinds and the
// least width: the result is the most without them.
func (k *knapsack) table(items []item, width int64) (most int64, set []piece) {
	type lump struct {
		item int
		n    int32
	}
	var lumps []lump
	for i := range items {
		if items[i].value <= 0 {
			continue
		}
		left := min(int64(items[i].most), width/items[i].width)
		for n := int64(1); left > 0; n *= 2 {
			lumps = append(lumps, lump{i, int32(min(n, left))})
			left -= n
		}
	}
	words := int(width/64) + 1
	taken := make([]uint64, words*len(lumps))
	value := make([]int64, width+1)
	for l, lump := range lumps {
		w, v := items[lump.item].width*int64(lump.n), items[lump.item].value*int64(lump.n)
		bits := taken[l*words : (l+1)*words]
		for c := width; c >= w; c-- {
			if with := value[c-w] + v; with > value[c] {
				value[c] = with
				bits[c>>6] |= 1 << (c & 63)
			}
		}
	}
	c := width
	for l := len(lumps) - 1; l >= 0; l-- {
		if taken[l*words+int(c>>6)]>>(c&63)&1 == 0 {
			continue
		}
		it := &items[lumps[l].item]
		c -= it.width * int64(lumps[l].n)
		if n := len(set); n > 0 && set[n-1].cut == it.cut {
			set[n-1].n += lumps[l].n
		} else {
			set = append(set, piece{it.cut, lumps[l].n})
		}
	}
	return value[width], set
}
