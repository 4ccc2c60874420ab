package trim

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// drawnMixer has some patterns of a solution drawn.
func drawnMixer(r *rand.Rand) *mixer {
	m, s := mixable(r)
	if r.IntN(3) == 0 {
		m.parents[0].least = m.parents[0].width - r.Int64N(10)
	}
	x := m.mixer(s, r.Uint64(), never)
	x.drawn = append(x.drawn, r.Perm(len(x.now.patterns))[:min(len(x.now.patterns), 2+r.IntN(2))]...)
	return x
}

// fallings are all ways to write a sum as k whole numbers above zero, none greater than
// the one before it, the greatest first ones first.
func fallings(sum, k, most int) (all [][]int) {
	if k == 0 {
		if sum == 0 {
			all = append(all, nil)
		}
		return all
	}
	for n := min(sum, most); n > 0; n-- {
		if n*k < sum {
			break
		}
		for _, rest := range fallings(sum-n, k-1, n) {
			all = append(all, append([]int{n}, rest...))
		}
	}
	return all
}

// Runs are parted in all ways that lack no more than they may and have one pattern for
// the rarest cut.
func TestPartRuns(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 1))
	some, lack := 0, 0
	for range 3000 {
		x := &mixer{model: &model{runs: 1 + r.IntN(4)}, lacking: r.IntN(4)}
		runs, k, fewest := 1+r.IntN(14), 1+r.IntN(4), 1+r.IntN(9)
		var want []int
		for _, way := range fallings(runs, k, runs) {
			lacking := 0
			for _, n := range way {
				lacking += max(0, x.runs-n)
			}
			if lacking <= x.lacking && way[k-1] <= fewest {
				want = append(want, way...)
				if lacking > 0 {
					lack++
				}
			}
		}
		if x.partRuns(runs, k, fewest); !slices.Equal(x.parts, want) {
			t.Fatalf("%d runs in %d, one of %d at most, of %d at least but for %d: %v, want %v", runs, k, fewest, x.runs, x.lacking, x.parts, want)
		}
		if len(want) > 0 {
			some++
		}
	}
	if some < 1000 || lack < 500 {
		t.Errorf("%d with ways and %d ways that lack runs, want many", some, lack)
	}
	x := &mixer{model: &model{runs: 1}}
	all := fallings(70, 5, 70)
	if x.partRuns(70, 5, 70); len(all) < mostParts || !slices.Equal(x.parts, slices.Concat(all[:mostParts]...)) {
		t.Errorf("%d ways to part many runs of %d, want the first %d", len(x.parts)/5, len(all), mostParts)
	}
}

// That millions of runs can't be parted is seen at once: by trying, no end was.
func TestPartMillions(t *testing.T) {
	for _, test := range []struct{ least, lacking, runs, k, fewest int }{
		{2, 0, 4_000_000, 4, 1},                   // none may lack what the rarest does
		{1_500_000, 1_999_999, 4_000_000, 4, 9e9}, // one more than they may lack
		{1_500_000, 2_000_000, 2_000_000, 4, 9e9}, // far more
	} {
		x := &mixer{model: &model{runs: test.least}, lacking: test.lacking}
		if x.partRuns(test.runs, test.k, test.fewest); len(x.parts) > 0 {
			t.Errorf("%+v: %v, want none", test, x.parts[:test.k])
		}
	}
	x := &mixer{model: &model{runs: 1_500_000}, lacking: 2_000_000}
	if x.partRuns(4_000_000, 4, 9e9); len(x.parts) != 4*mostParts || !slices.Equal(x.parts[:4], []int{1_500_000, 1_500_000, 999_999, 1}) {
		t.Errorf("%d ways, first %v", len(x.parts)/4, x.parts[:min(4, len(x.parts))])
	}
}

// vectors are all ways to give n to patterns that are run so often, each at most so
// many, the most for the first ones first.
func vectors(n int, times []int, most int) (all [][]int32) {
	if len(times) == 0 {
		if n == 0 {
			all = append(all, nil)
		}
		return all
	}
	for c := most; c >= 0; c-- {
		if c*times[0] > n {
			continue
		}
		for _, rest := range vectors(n-c*times[0], times[1:], most) {
			all = append(all, append([]int32{int32(c)}, rest...))
		}
	}
	return all
}

// A portion is parted in all ways that no set is too wide for.
func TestListWays(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 2))
	for range 3000 {
		m := &model{pieces: 1 + r.IntN(6)}
		x := &trial{mixer: &mixer{model: m}, parent: parent{width: 10 + r.Int64N(20)}}
		for range 1 + r.IntN(4) {
			x.times = append(x.times, 1+r.IntN(5))
		}
		p := &portion{width: 1 + r.Int64N(12), n: 1 + r.IntN(25)}
		want := vectors(p.n, x.times, min(m.pieces, int(x.parent.width/p.width)))
		if x.list(p); !slices.Equal(p.ways, slices.Concat(want...)) {
			t.Fatalf("%+v over %v in %+v: %v, want %v", p, x.times, x.parent, p.ways, want)
		}
	}
	x := &trial{mixer: &mixer{model: &model{pieces: 100}}, parent: parent{width: 100}, times: []int{1, 1, 1, 1}}
	p := &portion{width: 1, n: 30}
	all := vectors(30, x.times, 100)
	if x.list(p); len(all) < mostWays || !slices.Equal(p.ways, slices.Concat(all[:mostWays]...)) {
		t.Errorf("%d ways of %d to part many reels, want the first %d", len(p.ways)/4, len(all), mostWays)
	}
}

// What the drawn make is added up by cut.
func TestGather(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 3))
	for range 500 {
		x := drawnMixer(r)
		runs, fewest := x.gather()
		want, all := map[int32]int{}, 0
		var order []int32
		for _, d := range x.drawn {
			all += x.now.times[d]
			for _, c := range laid(x.now.patterns[d]) {
				if want[c] += x.now.times[d]; !slices.Contains(order, c) {
					order = append(order, c)
				}
			}
		}
		least := all
		for _, n := range want {
			least = min(least, n)
		}
		if runs != all || fewest != least || len(x.portions) != len(order) {
			t.Fatalf("%d runs, the rarest %d, want %d, %d", runs, fewest, all, least)
		}
		for i, p := range x.portions {
			if p.cut != order[i] || p.n != want[p.cut] || p.width != x.cuts[p.cut].width || x.at[p.cut] != -1 {
				t.Fatalf("portion %d is %+v, want %d of %d", i, p, want[order[i]], order[i])
			}
		}
	}
}

// What a trial keeps of what it may do follows from its ways, and what it takes from its sums.
func TestTrial(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 4))
	taken, refused, begun := 0, 0, 0
	for range 1000 {
		x := drawnMixer(r)
		runs, _ := x.gather()
		x.thin = r.Int64N(4)
		tr := &x.trial
		tr.mixer = x
		k := 1 + r.IntN(3)
		all := fallings(runs, k, runs)
		if len(all) == 0 {
			continue
		}
		times := all[r.IntN(len(all))]
		ok := tr.begin(times)
		most := func(p portion) int { return min(x.pieces, int(x.parents[0].width/p.width)) }
		want := !slices.ContainsFunc(x.portions, func(p portion) bool { return len(vectors(p.n, times, most(p))) == 0 })
		if ok != want {
			t.Fatalf("begins %v, want %v", ok, want)
		}
		if !ok {
			continue
		}
		begun++
		slack := x.parents[0].width * int64(runs)
		for _, p := range x.portions {
			slack -= p.width * int64(p.n)
		}
		for j, s := range tr.sum {
			least := max(1, x.parents[0].least-x.thin)
			for x.parents[0].width-least > slack/int64(times[j]) { // more would be lost than there is
				least++
			}
			if s != (fill{least: least}) {
				t.Fatalf("pattern %d of %v begins with %+v, want at least %d", j, times, s, least)
			}
		}
		for i := range tr.order {
			if i > 0 {
				p, q := tr.portion(i-1), tr.portion(i)
				if len(p.ways) > len(q.ways) || len(p.ways) == len(q.ways) && (p.width < q.width || p.width == q.width && p.cut >= q.cut) {
					t.Fatalf("%+v comes before %+v", p, q)
				}
			}
			for j := range times {
				rest := int64(0)
				for h := i; h < len(tr.order); h++ {
					p := tr.portion(h)
					top := int32(0)
					for _, way := range vectors(p.n, times, most(*p))[:len(p.ways)/k] {
						top = max(top, way[j])
					}
					rest += int64(top) * p.width
				}
				if tr.rest[i][j] != rest {
					t.Fatalf("portions from %d on bring %d to pattern %d, want %d", i, tr.rest[i][j], j, rest)
				}
			}
		}
		if last := tr.rest[len(tr.order)]; slices.ContainsFunc(last, func(n int64) bool { return n != 0 }) || len(last) != k {
			t.Fatalf("nothing brings %v", last)
		}
		laidOut := make([]pattern, k)
		for i := range tr.order {
			p := tr.portion(i)
			w := r.IntN(len(p.ways) / k)
			way := p.ways[w*k : (w+1)*k]
			fits := true
			for j, n := range way {
				with := laidOut[j]
				with.pieces = slices.Clone(with.pieces)
				if n > 0 {
					with.pieces = append(with.pieces, piece{p.cut, n})
				}
				used := x.used(with)
				fits = fits && used <= x.parents[0].width && used+tr.rest[i+1][j] >= tr.sum[j].least && len(laid(with)) <= x.pieces && len(with.pieces) <= x.kinds
			}
			if got := tr.takes(i, way); got != fits {
				t.Fatalf("way %v of %+v is taken %v, want %v beside %+v", way, p, got, fits, laidOut)
			}
			if !fits {
				refused++
				break
			}
			taken++
			before := slices.Clone(tr.sum)
			tr.lay(i, way, 1)
			for j, n := range way {
				if n > 0 {
					laidOut[j].pieces = append(laidOut[j].pieces, piece{p.cut, n})
				}
				s := tr.sum[j]
				if s.width != x.used(laidOut[j]) || s.reels != len(laid(laidOut[j])) || s.widths != len(laidOut[j].pieces) || s.least != before[j].least {
					t.Fatalf("pattern %d comes to %+v, want %+v", j, s, laidOut[j])
				}
			}
			after := slices.Clone(tr.sum)
			if tr.lay(i, way, -1); !slices.Equal(tr.sum, before) {
				t.Fatalf("taken back: %+v, want %+v", tr.sum, before)
			}
			copy(tr.sum, after)
			tr.chosen[i] = w
		}
		lacked := int64(0)
		for j := range laidOut {
			lacked += max(0, x.parents[0].least-x.used(laidOut[j]))
		}
		if got := tr.lacked(); got != lacked {
			t.Fatalf("lacks %d, want %d", got, lacked)
		}
	}
	if taken < 400 || refused < 200 || begun < 300 {
		t.Errorf("%d ways taken, %d refused, %d trials begun, want many", taken, refused, begun)
	}
}

// remakes tells whether other patterns of so many runs make what the drawn make, by trying all.
func (x *mixer) remakes(times []int) bool {
	d := x.parents[x.now.patterns[x.drawn[0]].parent]
	sets := make([]pattern, len(times))
	var next func(i int) bool
	next = func(i int) bool {
		if i < len(x.portions) {
			p := x.portions[i]
			for _, way := range vectors(p.n, times, min(x.pieces, int(d.width/p.width))) {
				ok := true
				for j, n := range way {
					if n > 0 {
						sets[j].pieces = append(sets[j].pieces, piece{p.cut, n})
					}
					ok = ok && x.used(sets[j]) <= d.width
				}
				ok = ok && next(i+1)
				for j, n := range way {
					if n > 0 {
						sets[j].pieces = sets[j].pieces[:len(sets[j].pieces)-1]
					}
				}
				if ok {
					return true
				}
			}
			return false
		}
		lacked, other := int64(0), len(times) < len(x.drawn)
		for j, s := range sets {
			if !x.countable(s) || x.used(s) < d.least-x.thin {
				return false
			}
			lacked += max(0, d.least-x.used(s))
			s.pieces = slices.Clone(s.pieces)
			sortPieces(s.pieces)
			other = other || !slices.ContainsFunc(x.drawn, func(i int) bool {
				return x.now.times[i] == times[j] && slices.Equal(x.now.patterns[i].pieces, s.pieces)
			})
		}
		return other && lacked <= x.thin
	}
	return next(0)
}

// Other patterns are found where there are some, by trying all, and take the place of the drawn.
func TestRemake(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 5))
	found, none := 0, 0
	for n := 0; n < 400; {
		x := drawnMixer(r)
		x.nodes = 1 << 30
		runs, fewest := x.gather()
		size := 1
		for _, p := range x.portions {
			size *= p.n
		}
		if size > 3000 {
			continue
		}
		n++
		x.lacking, x.thin = r.IntN(2), r.Int64N(3)
		k := max(1, len(x.drawn)-1+r.IntN(3))
		want := false
		for _, way := range fallings(runs, k, runs) {
			lacking := 0
			for _, n := range way {
				lacking += max(0, x.runs-n)
			}
			want = want || lacking <= x.lacking && way[k-1] <= fewest && x.remakes(way)
		}
		made, before := x.made(x.now), x.now
		kept := cutSets(before)
		for _, d := range x.drawn {
			kept[before.patterns[d].key()] -= before.times[d]
		}
		if got := x.remake(k); got != want {
			t.Fatalf("%d of %+v in %+v: remade %v, want %v", x.drawn, before, x.model, got, want)
		}
		if !want {
			if none++; !reflect.DeepEqual(x.now, before) {
				t.Fatal("nothing is found, and something changed")
			}
			continue
		}
		found++
		if !slices.Equal(x.made(x.now), made) || x.cost(&x.now) != x.cost(&before) || x.now.cost != before.cost {
			t.Fatalf("%+v makes %v in %d, want %v", x.now, x.made(x.now), x.cost(&x.now), made)
		}
		more, lacked := 0, int64(0)
		for key, n := range cutSets(x.now) {
			if more += n - kept[key]; n < kept[key] {
				t.Fatalf("%+v lost what was not drawn of %+v", x.now, before)
			}
		}
		for i, p := range x.now.patterns {
			if !x.countable(p) || x.used(p) > x.parents[0].width {
				t.Fatalf("%+v is not allowed", p)
			}
			if kept[p.key()] == 0 {
				lacked += max(0, x.parents[0].least-x.used(p))
			}
			if i > 0 && slices.ContainsFunc(x.now.patterns[:i], func(q pattern) bool { return q.key() == p.key() }) {
				t.Fatalf("%+v has a pattern twice", x.now)
			}
		}
		if more != runs || lacked > x.thin || len(x.now.patterns) > len(before.patterns)-len(x.drawn)+k {
			t.Fatalf("%+v are %d runs in the place of %d, and lack %d of %d", x.now, more, runs, lacked, x.thin)
		}
	}
	if found < 50 || none < 50 {
		t.Errorf("%d found, %d not, want many", found, none)
	}
}

// A trial has so many nodes, and two fifths of them for each way to part the runs.
func TestTrialNodes(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 6))
	ended := 0
	for range 300 {
		x := drawnMixer(r)
		x.nodes = 1 << 30
		seed := r.Uint64()
		begin := func(nodes, all int) *mixer {
			y := *x
			y.trial, y.portions, y.parts = trial{}, nil, nil
			y.random, y.nodes = rand.New(rand.NewPCG(seed, 0)), nodes
			y.at = slices.Clone(x.at)
			tr := &y.trial
			tr.mixer, tr.nodes = &y, all
			runs, _ := y.gather()
			y.partRuns(runs, len(y.drawn), runs)
			return &y
		}
		y := begin(1<<30, 1<<30)
		k := len(y.drawn)
		if len(y.parts) == 0 || !y.trial.begin(y.parts[:k]) {
			continue
		}
		ok := y.trial.part(0)
		took := 1<<30 - y.trial.nodes
		if y.trial.brief != 1<<30*2/5-took {
			t.Fatalf("%d nodes for these runs left, want %d", y.trial.brief, 1<<30*2/5-took)
		}
		if took == 0 {
			continue
		}
		ended++
		for _, test := range []struct {
			nodes, all int
			want       bool
		}{{took * 5, took, ok}, {took * 5, took - 1, false}, {(took-1)*5/2 + 1, 1 << 30, false}, {(took*5 + 1) / 2, 1 << 30, ok}} {
			z := begin(test.nodes, test.all)
			z.trial.begin(z.parts[:k])
			if got := z.trial.part(0); got != test.want {
				t.Fatalf("%d nodes: %+v parts %v", took, test, got)
			}
		}
	}
	if ended < 50 {
		t.Errorf("%d trials took nodes, want many", ended)
	}
}

// The next is drawn by weight, those of the same parent and group alone, and rather such as
// share cuts.
func TestDraw(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 7))
	short := 0
	for range 1000 {
		m, s := mixable(r)
		for i := range s.patterns {
			if len(s.patterns)%2 == 0 {
				s.patterns[i].parent, s.patterns[i].group = r.Int32N(2), r.Int32N(2)
			}
		}
		m.parents = append(m.parents, m.parents[0])
		if r.IntN(2) == 0 {
			m.runs += 2 + r.IntN(8)
		}
		seed := r.Uint64()
		x := m.mixer(s, seed, never)
		same := rand.New(rand.NewPCG(seed, 0))
		all := x.now.patterns
		common := func(p, q pattern) (n int) {
			for _, a := range p.pieces {
				for _, b := range q.pieces {
					if a.cut == b.cut {
						n++
					}
				}
			}
			return n
		}
		for _, p := range all {
			if shared(p, all[0]) != common(p, all[0]) {
				t.Fatalf("%+v and %+v share %d cuts, want %d", p, all[0], shared(p, all[0]), common(p, all[0]))
			}
		}
		choose := func(weight []int) int {
			var each []int // as often as it weighs
			for i, w := range weight {
				for range w {
					each = append(each, i)
				}
			}
			if len(each) == 0 {
				return -1
			}
			return each[same.IntN(len(each))]
		}
		a, b := same.IntN(len(all)), same.IntN(len(all))
		if x.now.times[b] < x.now.times[a] {
			a = b
		}
		want, n := []int{a}, 1+r.IntN(mostMixed)
		for len(want) < n {
			weight := make([]int, len(all))
			for i, p := range all {
				if p.parent == all[a].parent && p.group == all[a].group && !slices.Contains(want, i) {
					weight[i] = 1
					for _, d := range want {
						weight[i] += 3 * common(p, all[d])
					}
				}
			}
			next := choose(weight)
			if next < 0 {
				short++
				break
			}
			want = append(want, next)
		}
		if x.draw(n); !slices.Equal(x.drawn, want) {
			t.Fatalf("drawn %v of %+v, want %v", x.drawn, x.now, want)
		}

		// Those that lack something come first, then such as have what is too little.
		for i := range all {
			runs, width := x.lacks(i)
			if runs != max(0, m.runs-x.now.times[i]) || width != max(0, m.parents[0].least-m.used(all[i])) {
				t.Fatalf("%+v lacks %d runs and %d", all[i], runs, width)
			}
		}
		if !lacking(x) {
			continue
		}
		first := same.IntN(len(all))
		for x.now.times[first] >= m.runs && m.used(all[first]) >= m.parents[0].least {
			first = (first + 1) % len(all)
		}
		for want = []int{first}; len(want) < mostMixed; {
			var cuts []int32
			runs := map[int32]int{}
			for _, d := range want {
				for _, c := range laid(all[d]) {
					if runs[c] += x.now.times[d]; !slices.Contains(cuts, c) {
						cuts = append(cuts, c)
					}
				}
			}
			rare := slices.IndexFunc(cuts, func(c int32) bool { return runs[c] < m.runs })
			if rare < 0 {
				if len(want) >= n {
					break
				}
				rare = same.IntN(len(cuts))
			}
			weight := make([]int, len(all))
			for i, p := range all {
				if p.parent == all[first].parent && p.group == all[first].group && !slices.Contains(want, i) && slices.Contains(laid(p), cuts[rare]) {
					weight[i] = 1 + common(p, all[first])
				}
			}
			next := choose(weight)
			if next < 0 {
				break
			}
			want = append(want, next)
		}
		if x.drawShort(n); !slices.Equal(x.drawn, want) {
			t.Fatalf("drawn %v of %+v, want %v", x.drawn, x.now, want)
		}
	}
	if short < 100 {
		t.Errorf("%d times too few to draw, want many", short)
	}
	for n, want := range map[int]int{0: 0, 1: 0, 2: 20, 3: 45, 31: 4805, 32: 5000, 90: 5000} {
		if got := mixMisses(n); got != want {
			t.Errorf("%d patterns miss %d times, want %d", n, got, want)
		}
	}
}

// A trial of as many patterns is the same where all of it was drawn, runs and all.
func TestSame(t *testing.T) {
	m := &model{parents: []parent{{width: 20, cost: 1, times: 1}}, groups: [][]int32{{0, 1}}, pieces: 9, kinds: 9, runs: 1,
		cuts: []cut{{4, 0, 1, 0}, {3, 1, 1, 0}}, rows: []row{{2, 2}, {2, 2}}}
	x := m.mixer(solution{patterns: []pattern{{pieces: []piece{{0, 2}}}, {pieces: []piece{{0, 1}, {1, 1}}}}, times: []int{2, 3}}, 1, never)
	x.drawn = []int{0, 1}
	for _, test := range []struct {
		times []int
		ways  [2][]int32
		want  bool
	}{
		{[]int{3, 2}, [2][]int32{{1, 2}, {1, 0}}, true},
		{[]int{2, 3}, [2][]int32{{1, 2}, {1, 0}}, false},
		{[]int{3, 2}, [2][]int32{{1, 2}, {1, 1}}, false},
		{[]int{5}, [2][]int32{{2}, {0}}, false},
		{[]int{3, 2, 2}, [2][]int32{{1, 2, 2}, {1, 0, 0}}, true},
	} {
		tr := &trial{mixer: x, times: test.times, order: []int32{0, 1}, chosen: []int{0, 0}}
		x.portions = []portion{{cut: 0, width: 4, ways: test.ways[0]}, {cut: 1, width: 3, ways: test.ways[1]}}
		if got := tr.same(); got != test.want {
			t.Errorf("%+v is the same %v", test, got)
		}
	}
}

// Where nothing mends, so many steps are made and no more, from the last that did.
func TestMendedMisses(t *testing.T) {
	m := &model{parents: []parent{{width: 20, cost: 1, times: 1}}, groups: [][]int32{{0}}, pieces: 9, kinds: 9, runs: 2,
		cuts: []cut{{4, 0, 1, 0}}, rows: []row{{2, 2}}}
	s := solution{patterns: []pattern{{pieces: []piece{{0, 2}}}}, times: []int{1}, cost: 1}
	for misses := range 4 { // by then no trial asks for the time
		steps := 0
		if _, ok := m.mended(s, misses, mixNodes, func() bool { steps++; return false }); ok || steps != misses {
			t.Errorf("%d steps, want %d", steps, misses)
		}
	}
}
