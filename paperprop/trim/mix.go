package trim

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Fewer patterns by mixing: what two to five patterns make together is made by one
// fewer (Foerster and Wäscher 2000). If that is impossible, two or three are
// replaced by as many others, which saves nothing by itself but gives the next step
// another start. The runs are first divided among the new patterns, then each width
// among these runs. If all sets are full or nearly so, few ways remain, and
// searching them is fast.

// A mixer makes such steps from one solution to the next.
type mixer struct {
	*model
	now    solution
	random *rand.Rand // of a fixed seed
	stop   func() bool

	drawn    []int // patterns being mixed
	lacking  int   // runs that they may lack in all of being cut often enough
	thin     int64 // width that they may lack in all
	nodes    int   // nodes that a step may try
	parts    []int // ways to divide the runs, one after another
	way      []int // the way being made
	fewest   int   // number of the rarest cut
	weight   []int // of each pattern for the next draw
	portions []portion
	at       []int32 // portion of each cut, or -1
	trial    trial
}

// A portion is the number of a cut that the drawn patterns make together.
type portion struct {
	cut   int32
	width int64
	n     int
	ways  []int32 // to divide it: a number for each pattern, way after way
}

// Limits of one step.
const (
	mostMixed = 5    // patterns
	mostParts = 3000 // ways to divide the runs
	mostWays  = 400  // ways to divide a portion
	mixNodes  = 1000 // nodes of the search, in all
)

func (m *model) mixer(s solution, seed uint64, stop func() bool) *mixer {
	x := &mixer{model: m, now: m.merged(s), random: rand.New(rand.NewPCG(seed, 0)), stop: stop, nodes: mixNodes, at: make([]int32, len(m.cuts))}
	for c := range x.at {
		x.at[c] = -1
	}
	return x
}

// mixed returns a solution of the same cost that many steps of mixing can't
// improve, after kicks steps that make it worse.
func (m *model) mixed(s solution, seed uint64, kicks int, stop func() bool) solution {
	x := m.mixer(s, seed, stop)
	for range kicks {
		x.draw(2 + x.random.IntN(2))
		x.remake(len(x.drawn) + 1)
	}
	for missed := 0; missed < mixMisses(len(x.now.patterns)) && !stop(); missed++ {
		before := len(x.now.patterns)
		if x.draw(2 + x.random.IntN(mostMixed-1)); len(x.drawn) > 1 && !x.remake(len(x.drawn)-1) && len(x.drawn) < 4 {
			x.remake(len(x.drawn))
		}
		if len(x.now.patterns) < before {
			missed = 0
		}
	}
	return x.now
}

// mended returns a solution of the same cost without patterns that are cut too
// seldom or use too little of their width, if such steps lead to one. These
// patterns are remade with others, as one fewer, as many, or one more, so that
// together they lack less, or as much, or seldom more. A step has so many nodes,
// and so many steps in a row may improve nothing.
func (m *model) mended(s solution, misses, nodes int, stop func() bool) (solution, bool) {
	x := m.mixer(s, 0, stop)
	x.nodes = nodes
	fewest := math.MaxInt
	for missed := 0; missed < misses && !stop(); missed++ {
		faults := x.faults()
		if faults == 0 {
			return x.now, true
		}
		if faults < fewest {
			fewest, missed = faults, 0
		}
		x.mend(missed)
	}
	return s, false
}

// faults returns the number of faults of all patterns: of each the runs that it
// lacks, or one if it lacks only width.
func (x *mixer) faults() (n int) {
	for i := range x.now.patterns {
		if runs, width := x.lacks(i); runs > 0 || width > 0 {
			n += max(1, runs)
		}
	}
	return n
}

// mend makes one step, after missed steps in a row that improved nothing.
func (x *mixer) mend(missed int) {
	far := missed > mendNear
	if x.random.IntN(4) > 0 {
		n := mostNear
		if far {
			n = mostMixed
		}
		x.drawShort(2 + x.random.IntN(n-1))
	} else {
		x.draw(2 + x.random.IntN(2))
	}
	x.lacking, x.thin = 0, 0
	for _, d := range x.drawn {
		runs, width := x.lacks(d)
		x.lacking += runs
		x.thin += width
	}
	if x.random.IntN(3) > 0 {
		x.lacking, x.thin = max(0, x.lacking-1), max(0, x.thin-1)
	} else if missed > mendStuck && x.random.IntN(10) == 0 {
		x.lacking++
	}
	drawn := len(x.drawn)
	least, most := max(1, drawn-1), drawn
	switch {
	case drawn > 4 || drawn > 3 && !far:
		most = drawn - 1
	case drawn < 4 && far:
		most = drawn + 1
	}
	for k := least; k <= most && !x.remake(k); k++ {
	}
}

// lacks returns how many runs a pattern lacks, and how much of its width is unused
// that must be used.
func (x *mixer) lacks(i int) (runs int, width int64) {
	p := x.now.patterns[i]
	return max(0, x.runs-x.now.times[i]), max(0, x.parents[p.parent].least-x.used(p))
}

// drawShort draws a pattern that lacks something and then others, at least n in all
// if there are enough: those that hold what the drawn ones have too few of, or
// share something with them.
func (x *mixer) drawShort(n int) {
	all := x.now.patterns
	first := x.random.IntN(len(all))
	for {
		if runs, width := x.lacks(first); runs > 0 || width > 0 {
			break
		}
		first = (first + 1) % len(all)
	}
	x.drawn = append(x.drawn[:0], first)
	for len(x.drawn) < mostMixed {
		x.gather()
		rare := slices.IndexFunc(x.portions, func(p portion) bool { return p.n < x.runs })
		if rare < 0 && len(x.drawn) >= n {
			return
		}
		if x.weight = grown(x.weight, len(all)); rare < 0 {
			rare = x.random.IntN(len(x.portions))
		}
		for i, p := range all {
			x.weight[i] = 0
			if p.parent == all[first].parent && p.group == all[first].group && !slices.Contains(x.drawn, i) &&
				slices.ContainsFunc(p.pieces, func(c piece) bool { return c.cut == x.portions[rare].cut }) {
				x.weight[i] = 1 + shared(p, all[first])
			}
		}
		next := x.weighted()
		if next < 0 {
			return
		}
		x.drawn = append(x.drawn, next)
	}
}

// Limits of mending at first. One fewer of a few patterns mends most for its time;
// if that mends nothing, as many of four or one more of few; and at last a step may
// make things worse.
const (
	mendMisses = 1000 // steps in a row without success
	mendNodes  = 200  // nodes of a step
	mendNear   = 50   // steps in a row without success, before others are tried
	mostNear   = 4    // patterns until then
	mendStuck  = 500  // steps in a row without success, before some may make it worse
)

// mixMisses returns how many steps in a row may save nothing, for so many patterns.
func mixMisses(patterns int) int {
	if patterns < 2 {
		return 0
	}
	return min(5000, 5*patterns*patterns)
}

// draw chooses at most n patterns of one parent and group: first preferably one
// with few runs, then those that share cuts with the ones before.
func (x *mixer) draw(n int) {
	all := x.now.patterns
	next := x.random.IntN(len(all))
	if other := x.random.IntN(len(all)); x.now.times[other] < x.now.times[next] {
		next = other
	}
	first := all[next]
	x.drawn, x.weight = x.drawn[:0], grown(x.weight, len(all))
	for i, p := range all {
		x.weight[i] = 0
		if p.parent == first.parent && p.group == first.group {
			x.weight[i] = 1
		}
	}
	for {
		x.drawn = append(x.drawn, next)
		x.weight[next] = 0
		for i := range x.weight {
			if x.weight[i] > 0 {
				x.weight[i] += 3 * shared(all[i], all[next])
			}
		}
		if len(x.drawn) == n {
			return
		}
		if next = x.weighted(); next < 0 {
			return
		}
	}
}

// weighted chooses a pattern by weight. It returns a number below zero if none has
// any.
func (x *mixer) weighted() int {
	sum := 0
	for _, w := range x.weight {
		sum += w
	}
	if sum == 0 {
		return -1
	}
	next := 0
	for k := x.random.IntN(sum); k >= x.weight[next]; next++ {
		k -= x.weight[next]
	}
	return next
}

// shared returns the number of cuts that two patterns have in common.
func shared(p, q pattern) int {
	n, j := 0, 0
	for _, c := range p.pieces {
		for j < len(q.pieces) && q.pieces[j].cut < c.cut {
			j++
		}
		if j < len(q.pieces) && q.pieces[j].cut == c.cut {
			n++
		}
	}
	return n
}

// remake replaces the drawn patterns by k that make the same, and reports whether
// there are any.
func (x *mixer) remake(k int) bool {
	runs, fewest := x.gather()
	x.partRuns(runs, k, fewest)
	n := len(x.parts) / k
	if n == 0 {
		return false
	}
	t := &x.trial
	t.mixer, t.nodes = x, x.nodes
	first := x.random.IntN(n)
	for i := range n {
		i = (first + i) % n
		if t.begin(x.parts[i*k:(i+1)*k]) && t.part(0) {
			x.replace()
			return true
		}
		if t.nodes < 0 || x.stop() {
			break
		}
	}
	return false
}

// gather adds up what the drawn patterns make. It returns their runs, and how
// many there are of the rarest cut.
func (x *mixer) gather() (runs, fewest int) {
	x.portions = x.portions[:0]
	for _, d := range x.drawn {
		times := x.now.times[d]
		runs += times
		for _, c := range x.now.patterns[d].pieces {
			i := x.at[c.cut]
			if i < 0 {
				i = int32(len(x.portions))
				x.at[c.cut] = i
				x.portions = append(x.portions, portion{cut: c.cut, width: x.cuts[c.cut].width})
			}
			x.portions[i].n += times * int(c.n)
		}
	}
	fewest = runs
	for _, p := range x.portions {
		x.at[p.cut] = -1
		fewest = min(fewest, p.n)
	}
	return runs, fewest
}

// partRuns lists in parts the ways to divide runs among k patterns, the most often
// run first. One pattern must be enough for the rarest cut.
func (x *mixer) partRuns(runs, k, fewest int) {
	x.parts, x.way, x.fewest = x.parts[:0], grown(x.way, k), fewest
	x.partRest(0, runs, runs, x.lacking)
}

// partRest divides what is left among the patterns from the i-th on, none run more
// often than the one before. It takes no step that leads nowhere: there may be
// millions of runs.
func (x *mixer) partRest(i, left, most, lacking int) {
	k := len(x.way)
	rest := k - 1 - i
	if left <= rest || (rest+1)*x.runs-left > lacking {
		return
	}
	if rest == 0 {
		if left <= min(most, x.fewest) {
			x.way[i] = left
			x.parts = append(x.parts, x.way...)
		}
		return
	}
	for n := min(most, left-max(rest, rest*x.runs-lacking)); len(x.parts) < k*mostParts; n-- {
		last := min(n, x.fewest)
		lacked := max(0, x.runs-n)
		if n*rest+last < left || lacked+max(0, x.runs-last) > lacking {
			return // fewer runs don't either
		}
		x.way[i] = n
		x.partRest(i+1, left-n, n, lacking-lacked)
	}
}

// replace puts the result of a trial in the place of the drawn patterns.
func (x *mixer) replace() {
	next := solution{x.trial.sets(), slices.Clone(x.trial.times), x.now.cost}
	for i, p := range x.now.patterns {
		if !slices.Contains(x.drawn, i) {
			next.patterns, next.times = append(next.patterns, p), append(next.times, x.now.times[i])
		}
	}
	x.now = x.merged(next)
}

// A trial divides portions among patterns with given runs, depth first.
type trial struct {
	*mixer
	parent parent
	times  []int
	sum    []fill
	order  []int32   // in which the portions are divided
	rest   [][]int64 // the most that portions from the i-th on add to the width of each pattern
	chosen []int     // way chosen for each
	ways   [mostMixed]int32
	nodes  int // left
	brief  int // nodes left for these runs
}

// A fill is the content of a pattern so far.
type fill struct {
	width, least  int64 // least is the width it must reach
	reels, widths int
}

// begin lists the ways to divide each portion. It is false if one has none.
func (t *trial) begin(times []int) bool {
	t.times, t.brief = times, t.mixer.nodes*2/5
	t.parent = t.parents[t.now.patterns[t.drawn[0]].parent]
	slack := int64(0)
	for _, n := range times {
		slack += t.parent.width * int64(n)
	}
	for i := range t.portions {
		p := &t.portions[i]
		slack -= p.width * int64(p.n)
		if t.list(p); len(p.ways) == 0 {
			return false
		}
	}
	t.sum = grown(t.sum, len(times))
	for j, n := range times {
		t.sum[j] = fill{least: max(1, t.parent.least-t.thin, t.parent.width-slack/int64(n))} // so that none is empty
	}
	t.chosen = grown(t.chosen, len(t.portions))
	t.rank()
	t.foresee()
	return true
}

// list lists the ways to divide a portion.
func (t *trial) list(p *portion) {
	p.ways = p.ways[:0]
	t.listRest(p, 0, p.n, int(min(t.parent.width/p.width, int64(t.pieces))))
}

// listRest lists those with so many left for the patterns from j on.
func (t *trial) listRest(p *portion, j, left, most int) {
	k, after := len(t.times), 0
	for _, n := range t.times[j+1:] {
		after += n
	}
	for n := min(left/t.times[j], most); n >= 0 && len(p.ways) < k*mostWays; n-- {
		rest := left - n*t.times[j]
		if rest > most*after {
			return // with fewer even more so
		}
		t.ways[j] = int32(n)
		switch {
		case j < k-2:
			t.listRest(p, j+1, rest, most)
		case j == k-2:
			last := rest / t.times[k-1]
			if last*t.times[k-1] != rest {
				continue
			}
			t.ways[k-1] = int32(last)
			fallthrough
		default:
			p.ways = append(p.ways, t.ways[:k]...)
		}
	}
}

// rank puts the portions with the least choice first.
func (t *trial) rank() {
	t.order = t.order[:0]
	for i := range t.portions {
		at := i
		t.order = append(t.order, 0)
		for ; at > 0 && t.before(&t.portions[i], &t.portions[t.order[at-1]]); at-- {
			t.order[at] = t.order[at-1]
		}
		t.order[at] = int32(i)
	}
}

func (t *trial) before(p, q *portion) bool {
	switch {
	case len(p.ways) != len(q.ways):
		return len(p.ways) < len(q.ways)
	case p.width != q.width:
		return p.width > q.width
	}
	return p.cut < q.cut
}

// foresee adds up what portions can still contribute.
func (t *trial) foresee() {
	k, n := len(t.times), len(t.order)
	t.rest = grown(t.rest, n+1)
	t.rest[n] = grown(t.rest[n], k)
	clear(t.rest[n])
	for i := n - 1; i >= 0; i-- {
		p := t.portion(i)
		t.rest[i] = grown(t.rest[i], k)
		for j, below := range t.rest[i+1] {
			most := int32(0)
			for w := j; w < len(p.ways); w += k {
				most = max(most, p.ways[w])
			}
			t.rest[i][j] = below + int64(most)*p.width
		}
	}
}

// portion returns the i-th portion to divide.
func (t *trial) portion(i int) *portion { return &t.portions[t.order[i]] }

// part divides portions from the i-th on, and reports whether that gave patterns
// other than those drawn.
func (t *trial) part(i int) bool {
	if i == len(t.order) {
		return t.lacked() <= t.thin && !t.same()
	}
	p, k := t.portion(i), len(t.times)
	ways := len(p.ways) / k
	first := t.random.IntN(ways)
	for n := range ways {
		n = (first + n) % ways
		way := p.ways[n*k : (n+1)*k]
		if !t.takes(i, way) {
			continue
		}
		t.nodes--
		if t.brief--; t.brief < 0 || t.nodes < 0 {
			return false
		}
		t.chosen[i] = n
		t.lay(i, way, 1)
		if t.part(i + 1) {
			return true
		}
		t.lay(i, way, -1)
	}
	return false
}

// lacked returns how much width is unused that must be used.
func (t *trial) lacked() (width int64) {
	for _, s := range t.sum {
		width += max(0, t.parent.least-s.width)
	}
	return width
}

// takes reports whether a way leaves each pattern within its limits and able to
// reach its least width.
func (t *trial) takes(i int, way []int32) bool {
	p := t.portion(i)
	for j, c := range way {
		s := &t.sum[j]
		width := s.width + int64(c)*p.width
		if width > t.parent.width || width+t.rest[i+1][j] < s.least || s.reels+int(c) > t.pieces || c > 0 && s.widths+t.kind(i, j) > t.kinds {
			return false
		}
	}
	return true
}

// lay puts the i-th portion into the patterns, or takes it out.
func (t *trial) lay(i int, way []int32, sign int) {
	p := t.portion(i)
	for j, c := range way {
		if c > 0 {
			s := &t.sum[j]
			s.width += int64(sign) * int64(c) * p.width
			s.reels += sign * int(c)
			s.widths += sign * t.kind(i, j)
		}
	}
}

// kind returns 1 if the width of the i-th portion is new to the j-th pattern, else
// 0.
func (t *trial) kind(i, j int) int {
	if !t.alike {
		return 1
	}
	for h, k := 0, len(t.times); h < i; h++ {
		if p := t.portion(h); p.width == t.portion(i).width && p.ways[t.chosen[h]*k+j] > 0 {
			return 0
		}
	}
	return 1
}

// sets returns the patterns of a completed trial.
func (t *trial) sets() []pattern {
	like, k := t.now.patterns[t.drawn[0]], len(t.times)
	sets := make([]pattern, k)
	for j := range sets {
		sets[j] = pattern{parent: like.parent, group: like.group}
		for i, chosen := range t.chosen {
			p := t.portion(i)
			if n := p.ways[chosen*k+j]; n > 0 {
				sets[j].pieces = append(sets[j].pieces, piece{p.cut, n})
			}
		}
		sortPieces(sets[j].pieces)
	}
	return sets
}

// same reports whether a trial has arrived at the drawn patterns again.
func (t *trial) same() bool {
	if len(t.times) < len(t.drawn) {
		return false
	}
	for j, p := range t.sets() {
		if !slices.ContainsFunc(t.drawn, func(d int) bool {
			return t.now.times[d] == t.times[j] && slices.Equal(t.now.patterns[d].pieces, p.pieces)
		}) {
			return false
		}
	}
	return true
}
