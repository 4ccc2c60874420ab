package trim

import (
	"cmp"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// A choice is a small problem of a knapsack.
type choice struct {
	items   []item
	room    limits
	apart   [][]int32
	banned  func([]piece) bool
	atLeast int64
	model   *model // of orders of several sheets
	most    []int  // units of each row in a set then
}

// smallChoice has few items in random order, some of them worth nothing or less, some
// of a value near their width times much, and limits of any sort.
func smallChoice(r *rand.Rand) *choice {
	width := 8 + r.Int64N(18)
	c := &choice{room: limits{width, 0, 1 << 30, 1 << 30}}
	unit := []int64{0, 0, 1, 1 << 46}[r.IntN(4)]
	for i := range 1 + r.IntN(5) {
		it := item{int32(i), 1 + r.Int32N(3), 1 + r.Int64N(width*2/3), r.Int64N(9) - 2}
		if it.value += it.width * unit; unit == 0 {
			it.value += r.Int64N(2) * it.width
		}
		c.items = append(c.items, it)
	}
	if r.IntN(8) == 0 {
		c.items[0].width += width
	}
	r.Shuffle(len(c.items), func(i, j int) { c.items[i], c.items[j] = c.items[j], c.items[i] })
	if r.IntN(2) == 0 {
		c.room.pieces = 1 + r.IntN(4)
	}
	if r.IntN(2) == 0 {
		c.room.kinds = 1 + r.IntN(3)
	}
	if r.IntN(2) == 0 {
		c.room.least = width - r.Int64N(6)
	}
	switch r.IntN(5) {
	case 0, 1:
		c.atLeast = r.Int64N(1 + width*max(1, unit))
	case 2:
		c.atLeast = -1 - r.Int64N(3)
	}
	if r.IntN(4) == 0 {
		c.banned = func(set []piece) bool {
			sum := int32(0)
			for _, p := range set {
				sum += (p.cut + 2) * p.n
			}
			return sum%3 == 0
		}
	}
	return c
}

// part keeps some items apart.
func (c *choice) part(r *rand.Rand) {
	c.apart = make([][]int32, len(c.items))
	for range r.IntN(4) {
		a, b := r.Int32N(int32(len(c.items))), r.Int32N(int32(len(c.items)))
		if a != b {
			c.apart[a], c.apart[b] = append(c.apart[a], b), append(c.apart[b], a)
		}
	}
}

// sack is a knapsack for a choice.
func (c *choice) sack() *knapsack {
	k := &knapsack{banned: c.banned}
	if c.model != nil {
		k.bind(c.model)
		for i := range k.left {
			k.left[i] = int32(c.most[i])
		}
		return k
	}
	k.bind(&model{cuts: make([]cut, len(c.items)), apart: c.apart})
	return k
}

// shared tells whether rows take no more than they may of a set that has some of one cut
// of theirs, or of the widest and of another, less than one of the widest; where reels
// of a single sheet are none, of any.
func (c *choice) shared(set []piece) bool {
	if c.model == nil {
		return true
	}
	for i := range c.model.rows {
		row, one, widest := int32(i), false, int32(0)
		for _, it := range c.items {
			if cut := c.model.cuts[it.cut]; cut.row == row {
				one, widest = one || cut.units == 1, max(widest, cut.units)
			}
		}
		units, kinds, others := int32(0), 0, int32(0)
		for _, p := range set {
			if cut := c.model.cuts[p.cut]; cut.row == row {
				units += p.n * cut.units
				if kinds++; cut.units < widest {
					others += p.n * cut.units
				}
			}
		}
		if int(units) > c.most[i] || one && (kinds > 2 || kinds == 2 && (others == units || others >= widest)) {
			return false
		}
	}
	return true
}

func (c *choice) byValue() []item {
	items := slices.Clone(c.items)
	slices.SortFunc(items, func(a, b item) int {
		x, y := float64(a.value)/float64(a.width), float64(b.value)/float64(b.width)
		return cmp.Or(cmp.Compare(y, x), cmp.Compare(b.width, a.width), cmp.Compare(a.cut, b.cut))
	})
	return items
}

func (c *choice) byWidth() []item {
	items := slices.Clone(c.items)
	slices.SortFunc(items, func(a, b item) int {
		return cmp.Or(cmp.Compare(b.width, a.width), cmp.Compare(b.value, a.value), cmp.Compare(a.cut, b.cut))
	})
	return items
}

// every shows all sets that keep the limits but the least width: of two where one
// begins with the other, this one first, or last.
func (c *choice) every(items []item, last bool, show func(set []piece, value, width int64)) {
	var set []piece
	var next func(i int, value, width int64, pieces int)
	next = func(i int, value, width int64, pieces int) {
		if !last {
			show(set, value, width)
		}
		for ; i < len(items); i++ {
			it := items[i]
			if c.apart != nil && slices.ContainsFunc(set, func(p piece) bool { return slices.Contains(c.apart[p.cut], it.cut) }) {
				continue
			}
			for n := it.most; n > 0; n-- {
				w := width + int64(n)*it.width
				if w > c.room.width || pieces+int(n) > c.room.pieces || len(set) == c.room.kinds {
					continue
				}
				if set = append(set, piece{it.cut, n}); c.shared(set) {
					next(i+1, value+int64(n)*it.value, w, pieces+int(n))
				}
				set = set[:len(set)-1]
			}
		}
		if last {
			show(set, value, width)
		}
	}
	next(0, 0, 0, 0)
}

// rising are the sets that are worth more than all before them.
func (c *choice) rising(items []item, last bool) (sets [][]piece, most int64) {
	most = c.atLeast
	c.every(items, last, func(set []piece, value, width int64) {
		if value > most && width >= c.room.least && width > 0 && (c.banned == nil || !c.banned(set)) {
			sets, most = append(sets, slices.Clone(set)), value
		}
	})
	return sets, most
}

// dear are all sets that are worth at least so much.
func (c *choice) dear(items []item) (sets [][]piece) {
	c.every(items, false, func(set []piece, value, width int64) {
		if value >= c.atLeast && width >= c.room.least && width > 0 {
			set = slices.Clone(set)
			sortPieces(set)
			sets = append(sets, set)
		}
	})
	return sets
}

func sameSets(a, b [][]piece) bool { return slices.EqualFunc(a, b, slices.Equal) }

// A search finds the sets that trying all finds, and tells where it came to its end.
func TestSearch(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 1))
	ended := 0
	for n := range 3000 {
		c := smallChoice(r)
		want, worth := c.rising(c.byValue(), false)
		k, items := c.sack(), slices.Clone(c.items)
		most, exact := k.search(items, c.room, c.atLeast, 1<<30)
		if most != worth || !exact || !sameSets(k.sets, want) {
			t.Fatalf("choice %d: %+v: sets %v worth %d, %v, want %v worth %d", n, c, k.sets, most, exact, want, worth)
		}
		nodes := 1<<30 - k.nodes
		if most, exact := k.search(items, c.room, c.atLeast, nodes); most != worth || !exact || !sameSets(k.sets, want) {
			t.Fatalf("choice %d: %+v: with all %d nodes: sets %v worth %d, %v, want %v", n, c, nodes, k.sets, most, exact, want)
		}
		if nodes == 0 {
			continue
		}
		ended++
		if _, exact := k.search(items, c.room, c.atLeast, nodes-1); exact {
			t.Fatalf("choice %d: %+v: one of %d nodes is wanting, and nothing tells", n, c, nodes)
		}
		some := r.IntN(nodes)
		most, exact = k.search(items, c.room, c.atLeast, some)
		if exact || len(k.sets) > len(want) || !sameSets(k.sets, want[:len(k.sets)]) {
			t.Fatalf("choice %d: %+v: after %d of %d nodes: %v, %v, want the first of %v", n, c, some, nodes, k.sets, exact, want)
		}
		if last := len(k.sets); last == 0 && most != c.atLeast || last > 0 && most != c.worth(k.sets[last-1]) {
			t.Fatalf("choice %d: %+v: after %d of %d nodes: worth %d, sets %v", n, c, some, nodes, most, k.sets)
		}
	}
	if ended < 2000 {
		t.Errorf("%d of 3000 searches take nodes, want most", ended)
	}
}

func (c *choice) worth(set []piece) (value int64) {
	for _, p := range set {
		for _, it := range c.items {
			if it.cut == p.cut {
				value += int64(p.n) * it.value
			}
		}
	}
	return value
}

// The table tells what is worth most in each room, by trying all.
func TestForesee(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 2))
	for n := range 500 {
		c := smallChoice(r)
		c.room.pieces, c.room.kinds = 1<<30, 1<<30
		items := c.byWidth()
		k := c.sack()
		k.items, k.room = slices.Clone(c.items), c.room
		k.foresee()
		if !slices.Equal(k.items, items) {
			t.Fatalf("choice %d: items %v, want %v", n, k.items, items)
		}
		size := int(c.room.width) + 1
		for i := range len(items) + 1 {
			want := make([]int64, size)
			for at := range want {
				want[at] = none
			}
			c.every(items[i:], false, func(_ []piece, value, width int64) {
				for at := width; at < int64(size); at++ {
					if at-width <= c.room.width-c.room.least {
						want[at] = max(want[at], value)
					}
				}
			})
			for at, most := range want {
				if got := k.ahead[i*size+at]; got != most && (most != none || got > none/2) {
					t.Fatalf("choice %d: %+v: from item %d on %d in room %d, want %d", n, c, i, got, at, most)
				}
			}
		}
	}
}

// A guided search finds the best set, then the best of what other items are left, and
// so on. Where it ends too soon it tells what none exceeds.
func TestGuided(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 3))
	several, ended := 0, 0
	for n := range 2000 {
		c := smallChoice(r)
		if r.IntN(2) == 0 {
			c.part(r)
		}
		items := c.byWidth()
		want, worth := c.rising(items, true)
		for range mostSets {
			if len(want) == 0 {
				break
			}
			for _, p := range want[len(want)-1] {
				at := slices.IndexFunc(items, func(it item) bool { return it.cut == p.cut })
				items[at].most -= p.n
			}
			more, _ := c.rising(items, true)
			if len(more) == 0 {
				break
			}
			want = append(want, more...)
			several++
		}
		k := c.sack()
		if most := k.guided(slices.Clone(c.items), c.room, c.atLeast, 1<<30); most != worth || !sameSets(k.sets, want) {
			t.Fatalf("choice %d: %+v: sets %v worth %d, want %v worth %d", n, c, k.sets, most, want, worth)
		}
		if slices.ContainsFunc(k.barred, func(n int32) bool { return n != 0 }) {
			t.Fatalf("choice %d: %+v: pieces barred when all is over: %v", n, c, k.barred)
		}
		k.items, k.room, k.best, k.nodes, k.ended = slices.Clone(c.items), c.room, c.atLeast, 1<<30, false
		k.foresee()
		k.follow(0, c.room.width, c.room.pieces, c.room.kinds, 0)
		nodes := 1<<30 - k.nodes
		if most := k.guided(slices.Clone(c.items), c.room, c.atLeast, nodes); most != worth {
			t.Fatalf("choice %d: %+v: with all %d nodes worth %d, want %d", n, c, nodes, most, worth)
		}
		if nodes == 0 {
			continue
		}
		ended++
		free := *c
		free.apart, free.banned, free.room.pieces, free.room.kinds = nil, nil, 1<<30, 1<<30
		bound := c.atLeast
		free.every(c.items, false, func(_ []piece, value, width int64) {
			if width >= c.room.least {
				bound = max(bound, value)
			}
		})
		if most := k.guided(slices.Clone(c.items), c.room, c.atLeast, nodes-1); most != bound {
			t.Fatalf("choice %d: %+v: with one of %d nodes wanting worth %d, want %d", n, c, nodes, most, bound)
		}
	}
	if several < 500 || ended < 1000 {
		t.Errorf("%d sets beside the best and %d searches that took nodes, want many", several, ended)
	}
}

// A list has all sets that are worth so much, if they are not too many.
func TestAll(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 4))
	for n := range 2000 {
		c := smallChoice(r)
		c.banned = nil
		if r.IntN(2) == 0 {
			c.part(r)
		}
		want := c.dear(c.byWidth())
		k := c.sack()
		k.items, k.room = slices.Clone(c.items), c.room
		k.foresee()
		if got, ok := k.all(c.atLeast, len(want)); !ok || !sameSets(got, want) {
			t.Fatalf("choice %d: %+v: %v, %v, want %v", n, c, got, ok, want)
		}
		if got, ok := k.all(c.atLeast, len(want)-1); ok && len(want) > 0 {
			t.Fatalf("choice %d: %+v: %v is more than %d, want not ok", n, c, got, len(want)-1)
		}
	}
}

// The sets of the rarest item are found, and that there are too many of each.
func TestRarest(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 5))
	few, many := 0, 0
	for n := range 2000 {
		c := smallChoice(r)
		c.banned = nil
		if r.IntN(2) == 0 {
			c.part(r)
		}
		items := c.byWidth()
		limit := r.IntN(12)
		var want [][]piece
		wantOK, most := false, limit
		for i, it := range items {
			if wantOK && len(want) < 2 {
				break
			}
			order := slices.Concat([]item{it}, items[:i], items[i+1:])
			sets := slices.DeleteFunc(c.dear(order), func(set []piece) bool {
				return !slices.ContainsFunc(set, func(p piece) bool { return p.cut == it.cut })
			})
			if len(sets) <= most {
				want, wantOK, most = sets, true, len(sets)-1
			}
		}
		k := c.sack()
		k.items, k.room = slices.Clone(c.items), c.room
		k.foresee()
		got, ok := k.rarest(c.atLeast, limit)
		if ok != wantOK || !sameSets(got, want) {
			t.Fatalf("choice %d: %+v: limit %d: %v, %v, want %v, %v", n, c, limit, got, ok, want, wantOK)
		}
		if !slices.Equal(k.items, items) {
			t.Fatalf("choice %d: items %v afterwards, want %v", n, k.items, items)
		}
		if ok && len(got) > 1 {
			few++
		} else if !ok {
			many++
		}
	}
	if few < 200 || many < 200 {
		t.Errorf("%d times some sets and %d times too many, want both often", few, many)
	}
}

// The table finds what is worth most, and a set that is worth it.
func TestTable(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 6))
	for n := range 2000 {
		c := smallChoice(r)
		c.room.least, c.room.pieces, c.room.kinds, c.banned = 0, 1<<30, 1<<30, nil
		if r.IntN(2) == 0 { // over more than one word of bits
			for i := range c.items {
				c.items[i].width = c.items[i].width*7 + r.Int64N(7)
				c.items[i].most += r.Int32N(3)
			}
			c.room.width *= 7
		}
		c.atLeast = 0
		_, worth := c.rising(c.items, false)
		most, set := new(knapsack).table(c.items, c.room.width)
		if most != worth || c.worth(set) != worth {
			t.Fatalf("choice %d: %+v: %v worth %d, want %d", n, c, set, most, worth)
		}
		left := c.room.width
		for i, p := range set {
			at := slices.IndexFunc(c.items, func(it item) bool { return it.cut == p.cut })
			left -= int64(p.n) * c.items[at].width
			if p.n < 1 || p.n > c.items[at].most || left < 0 || c.items[at].value <= 0 || slices.ContainsFunc(set[:i], func(q piece) bool { return q.cut == p.cut }) {
				t.Fatalf("choice %d: %+v: %v is no set", n, c, set)
			}
		}
	}
}

// What never lies side by side is counted for each cut on the stack.
func TestBar(t *testing.T) {
	m := &model{cuts: make([]cut, 3), apart: [][]int32{{1, 2}, {0}, {0, 2}}}
	k := &knapsack{barred: []int32{7, 7, 7, 7, 7}}
	k.bind(m)
	k.bar(0, 1)
	k.bar(2, 1)
	if want := []int32{1, 1, 2}; !reflect.DeepEqual(k.barred, want) {
		t.Errorf("barred %v, want %v", k.barred, want)
	}
	k.bar(2, -1)
	if want := []int32{0, 1, 1}; !reflect.DeepEqual(k.barred, want) {
		t.Errorf("barred %v, want %v", k.barred, want)
	}
	m.apart = nil
	k.bind(m)
	k.bar(1, 1)
	if want := []int32{0, 1, 1}; !reflect.DeepEqual(k.barred, want) {
		t.Errorf("barred %v, want %v", k.barred, want)
	}
}

// Room is used again where there is enough of it.
func TestGrown(t *testing.T) {
	s := make([]int, 3, 5)
	s[0] = 9
	for n := range 8 {
		got := grown(s, n)
		if len(got) != n || n > 0 && (got[0] == 9) != (n <= 5) {
			t.Errorf("grown to %d is %v", n, got)
		}
	}
}

// A row of five sheets gives one reel of three and two of one, but no more of these.
func TestSharesOfARow(t *testing.T) {
	k := &knapsack{}
	k.bind(&model{rows: []row{{5, 5}}, cuts: []cut{{width: 9, units: 3}, {width: 3, units: 1}}})
	k.left[0] = 5
	for _, test := range []struct {
		set  []piece
		want bool
	}{
		{[]piece{{cut: 0, n: 1}, {cut: 1, n: 2}}, true},
		{[]piece{{cut: 0, n: 1}, {cut: 1, n: 3}}, false},
		{[]piece{{cut: 0, n: 2}}, false},
		{[]piece{{cut: 1, n: 5}}, true},
	} {
		if got := k.shares(test.set); got != test.want {
			t.Errorf("%v of a row of five is had: %v, want %v", test.set, got, test.want)
		}
	}
}
