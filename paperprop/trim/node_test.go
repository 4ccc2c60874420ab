package trim

import (
	"cmp"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// smallNode is a node some steps below a root, with sets that it may begin with.
func smallNode(r *rand.Rand) (m *model, n *node, from pool) {
	widths, deckle, sets := fullSets(r)
	m = packing(widths, deckle)
	p := &pairing{sets: int64(sets), slack: m.slack(int64(sets)), stop: never}
	n = p.root(newMaster(m, never))
	for range r.IntN(4) {
		if q, ok := n.anyPair(r); ok && r.IntN(2) == 0 {
			n = n.together(q, pool{})
		} else if ok {
			n = n.beside(q, pool{})
		}
	}
	for range 12 {
		set := pattern{}
		for c := range n.cuts {
			if k := r.Int32N(int32(n.rows[c].least) + 1); r.IntN(3) == 0 && k > 0 {
				set.pieces = append(set.pieces, piece{int32(c), k})
			}
		}
		if len(set.pieces) > 0 && !n.clashes(set.pieces) {
			from.patterns = append(from.patterns, set)
		}
	}
	from.base = r.IntN(len(from.patterns) + 1)
	return m, n, from
}

// anyPair is two reels of a node that may lie side by side.
func (n *node) anyPair(r *rand.Rand) (q pair, ok bool) {
	if len(n.cuts) == 0 {
		return q, false
	}
	a, b := r.Int32N(int32(len(n.cuts))), r.Int32N(int32(len(n.cuts)))
	a, b = min(a, b), max(a, b)
	return pair{a, b}, (a != b || n.rows[a].least > 1) && !slices.Contains(n.apart[a], b)
}

// parted checks that a node's cuts are as wide as their parts and in its group, that what is
// apart is so both ways, and that its rows are those of its cuts.
func (n *node) parted(t *testing.T, m *model) {
	t.Helper()
	if len(n.rows) != len(n.cuts) || len(n.parts) != len(n.cuts) || len(n.apart) != len(n.cuts) || len(n.groups) != 1 || len(n.groups[0]) != len(n.cuts) {
		t.Fatalf("node %+v of %+v has not a row, parts and a place for each cut", n, n.model)
	}
	for c, cut := range n.cuts {
		if width := m.used(pattern{pieces: n.parts[c]}); width != cut.width || int(cut.row) != c || cut.units != 1 || !slices.Contains(n.groups[0], int32(c)) {
			t.Fatalf("cut %d of %+v is %+v, of parts %v", c, n.model, cut, n.parts[c])
		}
		for _, k := range n.apart[c] {
			if !slices.Contains(n.apart[k], int32(c)) {
				t.Fatalf("cut %d is apart from %d, which is not from it", c, k)
			}
		}
	}
}

// reels are what a node wants in all, in pieces of the problem, settled sets included.
func (n *node) reels(m *model) []int {
	sum := make([]int, len(m.rows))
	for c, x := range n.rows {
		for _, part := range n.parts[c] {
			sum[m.cuts[part.cut].row] += int(part.n) * x.least
		}
	}
	for _, set := range n.taken {
		for _, x := range set {
			sum[m.cuts[x.cut].row] += int(x.n)
		}
	}
	return sum
}

// spells is a set of a node, one piece of the problem after another.
func (n *node) spells(set []piece) (cuts []int32) {
	for _, c := range laid(pattern{pieces: set}) {
		cuts = append(cuts, laid(pattern{pieces: n.parts[c]})...)
	}
	slices.Sort(cuts)
	return cuts
}

// The root wants all reels of sets that leave no more than may be left.
func TestRoot(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 1))
	for range 200 {
		widths, deckle, sets := fullSets(r)
		m := packing(slices.Clone(widths), deckle)
		sum := int64(0)
		for _, w := range widths {
			sum += w
		}
		slack := deckle*int64(sets) - sum
		if got := m.slack(int64(sets)); got != slack {
			t.Fatalf("%d sets leave %d, want %d", sets, got, slack)
		}
		s := newMaster(m, never)
		s.take(pattern{pieces: []piece{{0, 1}}})
		p := &pairing{sets: int64(sets), slack: slack}
		if slack < 0 {
			continue
		}
		n := p.root(s)
		n.parted(t, m)
		if d := n.parents[0]; len(n.parents) != 1 || d.width != deckle || d.least != max(1, deckle-slack) || d.cost != 1 || d.times != 1 || n.sets != int64(sets) {
			t.Fatalf("root has parents %+v, want %d, at least %d", n.parents, deckle, deckle-slack)
		}
		for c, x := range m.rows {
			if n.rows[c] != (row{x.least, x.least}) || len(n.apart[c]) != 0 || !reflect.DeepEqual(n.parts[c], []piece{{int32(c), 1}}) {
				t.Fatalf("row %d is %+v, parts %v, want %+v", c, n.rows[c], n.parts[c], x)
			}
		}
		if !reflect.DeepEqual(n.pool.patterns, s.patterns[s.bought:]) || n.pool.base != 0 {
			t.Fatalf("pool %+v", n.pool)
		}
		if &n.rows[0] == &m.rows[0] || m.parents[0].least != 0 {
			t.Fatal("a root changes the problem")
		}
	}
}

// Two reels become one that is as wide as both and apart from what either is apart from. Sets that
// hold both hold it then, and sets that need neither stay.
func TestTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 2))
	joined, twice, apart := 0, 0, 0
	for range 2000 {
		m, n, from := smallNode(r)
		q, ok := n.anyPair(r)
		if !ok {
			continue
		}
		want := n.reels(m)
		c := n.together(q, from)
		c.parted(t, m)
		if !slices.Equal(c.reels(m), want) || c.sets != n.sets || len(c.taken) != len(n.taken) {
			t.Fatalf("together wants %v, want %v", c.reels(m), want)
		}
		left := n.wanted()
		left[q.a]--
		left[q.b]--
		var old []int32 // cut of n of each of c
		for i, k := range left {
			if k > 0 {
				old = append(old, int32(i))
			}
		}
		wide := len(c.cuts) - 1
		if wide != len(old) || c.rows[wide] != (row{1, 1}) || c.cuts[wide].width != n.cuts[q.a].width+n.cuts[q.b].width {
			t.Fatalf("together %v of %+v is %+v", q, n.model, c.model)
		}
		for i, a := range old {
			if c.rows[i] != (row{left[a], left[a]}) || !slices.Equal(c.parts[i], n.parts[a]) {
				t.Fatalf("row %d is %+v, want %d", i, c.rows[i], left[a])
			}
			for k, b := range old {
				if slices.Contains(c.apart[i], int32(k)) != slices.Contains(n.apart[a], b) {
					t.Fatalf("cuts %d and %d, once %d and %d: apart %v, before %v", i, k, a, b, c.apart, n.apart)
				}
			}
			either := slices.Contains(n.apart[a], q.a) || slices.Contains(n.apart[a], q.b)
			if slices.Contains(c.apart[wide], int32(i)) != either || slices.Contains(c.apart[i], int32(wide)) != either {
				t.Fatalf("cut %d: apart %v, before %v", i, c.apart, n.apart)
			}
			if either {
				apart++
			}
		}
		var pool [][]int32
		base := 0
		held := func(set []piece, cut int32) (k int32) {
			for _, x := range laid(pattern{pieces: set}) {
				if x == cut {
					k++
				}
			}
			return k
		}
		for i, p := range from.patterns {
			gone := func(less ...int32) bool { // whether it needs a cut that is no more
				for c := range n.cuts {
					k := held(p.pieces, int32(c))
					for _, x := range less {
						if int(x) == c {
							k--
						}
					}
					if k > 0 && left[c] <= 0 {
						return true
					}
				}
				return false
			}
			both := held(p.pieces, q.a) > 0 && held(p.pieces, q.b) > 0 && (q.a != q.b || held(p.pieces, q.a) > 1)
			if both && !gone(q.a, q.b) {
				pool = append(pool, n.spells(p.pieces))
				joined++
			}
			if !gone() {
				pool = append(pool, n.spells(p.pieces))
				twice++
			}
			if i < from.base {
				base = len(pool)
			}
		}
		var got [][]int32
		for _, p := range c.pool.patterns {
			got = append(got, c.spells(p.pieces))
			if !slices.IsSortedFunc(p.pieces, func(a, b piece) int { return cmp.Compare(a.cut, b.cut) }) {
				t.Fatalf("set %v is not in order", p.pieces)
			}
		}
		if !slices.EqualFunc(got, pool, slices.Equal) || c.pool.base != base {
			t.Fatalf("together %v of %+v: pool %v, %d of the basis, want %v, %d", q, from, got, c.pool.base, pool, base)
		}
	}
	m := packing([]int64{6, 4}, 10)
	n := (&pairing{sets: 1}).root(newMaster(m, never))
	c := n.together(pair{0, 1}, pool{patterns: []pattern{{pieces: []piece{{0, 1}, {1, 1}}}, {pieces: []piece{{0, 1}}}}, base: 2})
	if want := (pool{patterns: []pattern{{pieces: []piece{{0, 1}}}}, base: 1}); !reflect.DeepEqual(c.pool, want) || len(c.cuts) != 1 {
		t.Errorf("the last two reels together begin with %+v, want %+v", c.pool, want)
	}
	if joined < 300 || twice < 500 || apart < 100 {
		t.Errorf("%d sets joined, %d kept, %d apart, want many", joined, twice, apart)
	}
}

// Two reels never lie side by side then, and sets that hold both are no more.
func TestBeside(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 3))
	kept, lost := 0, 0
	for range 1000 {
		m, n, from := smallNode(r)
		q, ok := n.anyPair(r)
		if !ok {
			continue
		}
		before := make([][]int32, len(n.apart))
		for i, list := range n.apart {
			before[i] = slices.Clone(list)
		}
		c := n.beside(q, from)
		c.parted(t, m)
		if !slices.Equal(c.reels(m), n.reels(m)) || c.sets != n.sets || !reflect.DeepEqual(c.rows, n.rows) || !reflect.DeepEqual(c.cuts, n.cuts) {
			t.Fatalf("beside %v of %+v is %+v", q, n.model, c.model)
		}
		for i := range n.cuts {
			for k := range n.cuts {
				pair := int32(i) == q.a && int32(k) == q.b || int32(i) == q.b && int32(k) == q.a
				if slices.Contains(c.apart[i], int32(k)) != (pair || slices.Contains(before[i], int32(k))) {
					t.Fatalf("beside %v: apart %v, before %v", q, c.apart, before)
				}
			}
			if !slices.Equal(n.apart[i], before[i]) {
				t.Fatalf("beside %v changes the node: %v, before %v", q, n.apart, before)
			}
		}
		if q.a == q.b && len(c.apart[q.a]) != len(before[q.a])+1 {
			t.Fatalf("a cut is apart from itself %v, before %v", c.apart[q.a], before[q.a])
		}
		var pool []pattern
		base := 0
		for i, p := range from.patterns {
			cuts := laid(p)
			clash := false
			for k, a := range cuts {
				for _, b := range cuts[k+1:] {
					clash = clash || slices.Contains(c.apart[a], b)
				}
			}
			if !clash {
				pool = append(pool, p)
				kept++
			} else {
				lost++
			}
			if i < from.base {
				base = len(pool)
			}
		}
		if !reflect.DeepEqual(c.pool.patterns, pool) || c.pool.base != base {
			t.Fatalf("beside %v: pool %+v, want %+v, %d", q, c.pool, pool, base)
		}
	}
	if kept < 300 || lost < 300 {
		t.Errorf("%d sets kept and %d lost, want many", kept, lost)
	}
}

// A set that is settled is taken out of what is wanted, and written in pieces of the problem.
func TestWithout(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 4))
	kept := 0
	for range 1000 {
		m, n, from := smallNode(r)
		if len(from.patterns) == 0 {
			continue
		}
		set := from.patterns[0].pieces
		want := n.reels(m)
		c := n.without(set, from)
		c.parted(t, m)
		if !slices.Equal(c.reels(m), want) || c.sets != n.sets-1 || len(c.taken) != len(n.taken)+1 {
			t.Fatalf("without %v wants %v in %d sets, want %v in %d", set, c.reels(m), c.sets, want, n.sets-1)
		}
		if got := laid(pattern{pieces: c.taken[len(n.taken)]}); !slices.Equal(got, n.spells(set)) {
			t.Fatalf("without %v takes %v, want %v", set, got, n.spells(set))
		}
		left := n.wanted()
		for _, x := range laid(from.patterns[0]) {
			left[x]--
		}
		var pool [][]int32
		base := 0
		for i, p := range from.patterns {
			if !slices.ContainsFunc(p.pieces, func(x piece) bool { return left[x.cut] == 0 }) {
				pool = append(pool, n.spells(p.pieces))
				kept++
			}
			if i < from.base {
				base = len(pool)
			}
		}
		var got [][]int32
		for _, p := range c.pool.patterns {
			got = append(got, c.spells(p.pieces))
		}
		if !slices.EqualFunc(got, pool, slices.Equal) || c.pool.base != base {
			t.Fatalf("without %v of %+v: pool %v, %d of the basis, want %v, %d", set, from, got, c.pool.base, pool, base)
		}
		// A plan of what is left is one of the whole, with the sets that are settled.
		var s solution
		for i := range c.cuts {
			s.patterns, s.times = append(s.patterns, pattern{pieces: []piece{{int32(i), 1}}}), append(s.times, c.rows[i].least)
			s.cost += int64(c.rows[i].least)
		}
		p := &pairing{}
		p.take(c, s)
		if !p.has || !slices.Equal(m.made(p.found), want) || p.found.cost != m.cost(&p.found) {
			t.Fatalf("taken %+v makes %v for %d, want %v", p.found, m.made(p.found), p.found.cost, want)
		}
	}
	if kept < 300 {
		t.Errorf("%d sets kept, want many", kept)
	}
}

// The pair to branch on is the one whose runs are the least whole, and the widest of such.
func TestPickPair(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 5))
	picked, whole := 0, 0
	for range 600 {
		_, n, from := smallNode(r)
		if len(n.rows) == 0 {
			continue
		}
		n.parents = []parent{{width: n.parents[0].width, cost: 1, times: 1}}
		s := newMaster(n.model, never)
		s.begin(from)
		s.relax(1 << 30)
		runs := map[pair]float64{}
		for c := s.bought; c < len(s.patterns); c++ {
			x := s.lp.value(s.lp.m + c)
			if got := s.runs(s.patterns[c].pieces); got != x {
				t.Fatalf("set %v is cut %v times, want %v", s.patterns[c], got, x)
			}
			seen := map[pair]bool{}
			cuts := laid(s.patterns[c])
			for i, a := range cuts {
				for _, b := range cuts[i+1:] {
					if q := (pair{min(a, b), max(a, b)}); !seen[q] && x >= 1e-6 {
						seen[q] = true
						runs[q] += x
					}
				}
			}
		}
		if s.runs([]piece{{0, 77}}) != 0 {
			t.Fatal("a set that is not known is cut")
		}
		want, most, ok := pair{}, 0.0, false
		width := func(q pair) int64 { return n.cuts[q.a].width + n.cuts[q.b].width }
		for a := range n.cuts {
			for b := a; b < len(n.cuts); b++ {
				q := pair{int32(a), int32(b)}
				part := math.Round(1e6*math.Abs(runs[q]-math.Round(runs[q]))) / 1e6
				if part >= 0.01 && (!ok || part > most || part == most && width(q) > width(want)) {
					want, most, ok = q, part, true
				}
			}
		}
		got, is := new(pairing).pick(n, s)
		if is != ok || got != want {
			t.Fatalf("picked %v, %v, want %v, %v, whose runs are %v", got, is, want, ok, runs)
		}
		if ok {
			picked++
		} else {
			whole++
		}
	}
	if picked < 100 || whole < 50 {
		t.Errorf("%d picked, %d times all whole, want many", picked, whole)
	}
}

// A search over pairs suits few reels of each width in sets of one parent that must be full.
func TestPairable(t *testing.T) {
	base := func() *model {
		return &model{
			rows: []row{{2, 2}, {2, 2}}, cuts: []cut{{6000, 0, 1, 0}, {3999, 1, 1, 0}}, groups: [][]int32{{0, 1}},
			parents: []parent{{width: 10000, cost: 1, times: 1}}, pieces: 10000, kinds: 2, runs: 1,
		}
	}
	for name, test := range map[string]struct {
		change func(*model)
		want   bool
	}{
		"full":    {func(*model) {}, true},
		"slack":   {func(m *model) { m.cuts[1].width = 3995 }, false}, // a thousandth
		"nearly":  {func(m *model) { m.cuts[0].width = 5996; m.cuts[1].width = 4000 }, true},
		"reels":   {func(m *model) { m.rows[0].least, m.cuts[0].width = 3, 4000 }, false},
		"cost":    {func(m *model) { m.parents[0].cost = 2 }, false},
		"pieces":  {func(m *model) { m.pieces = 9999 }, false},
		"kinds":   {func(m *model) { m.kinds = 1 }, false},
		"rows":    {func(m *model) { m.rows = append(m.rows, row{}) }, false},
		"parents": {func(m *model) { m.parents = append(m.parents, m.parents[0]) }, false},
		"groups":  {func(m *model) { m.groups = append(m.groups, nil) }, false},
		"stocks":  {func(m *model) { m.stocks = []int64{9} }, false},
		"strict":  {func(m *model) { m.strict = true }, false},
		"large":   {func(m *model) { m.parents[0].width, m.pieces = mostAhead, mostAhead }, false},
	} {
		m := base()
		test.change(m)
		if m.pairable(2) != test.want {
			t.Errorf("%s: pairable %v", name, !test.want)
		}
	}
}

// A search finds what there is where no dive comes before it.
func TestPairsUndived(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 6))
	planned, none, nodes := 0, 0, 0
	for n := range 400 {
		widths, deckle, sets := fullSets(r)
		m := packing(widths, deckle)
		rooms := make([]int64, sets)
		for i := range rooms {
			rooms[i] = deckle
		}
		want := packs(widths, rooms)
		// The third node of a search dives no more than the fifth.
		p := &pairing{sets: int64(sets), slack: m.slack(int64(sets)), stop: never, list: n % 2 * 3, ways: n % 3 * 10, nodes: 2}
		if complete := p.search(p.root(newMaster(m, never))); p.has != want || !complete {
			t.Fatalf("problem %d: widths %v in %d sets of %d: has %v, complete %v, want %v", n, widths, sets, deckle, p.has, complete, want)
		}
		nodes += p.nodes - 2
		if !want {
			none++
			continue
		}
		planned++
		if made := m.made(p.found); !covers(m, made) || m.cost(&p.found) > int64(sets) {
			t.Fatalf("problem %d: %+v makes %v in %d sets", n, p.found, made, m.cost(&p.found))
		}
	}
	if planned < 100 || none < 50 || nodes < 600 {
		t.Errorf("%d planned and %d not, in %d nodes, want many", planned, none, nodes)
	}
}
