//go:build amd64 && !amd64.v3

package trim

import (
	"encoding/binary"
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what the searches do now")

// cutUp is what so many sets are cut into, three reels each, a hair narrower.
func cutUp(r *rand.Rand, sets int) (widths []int64, deckle int64) {
	for range sets {
		a := 190 + r.Int64N(200)
		b := 190 + r.Int64N(200)
		widths = append(widths, a, b, 1000-a-b-r.Int64N(3))
	}
	return widths, 1000
}

// steps says what a search did: what it came to, how many nodes it took, and all sets
// that it thought of, in that order.
func (s *solver) steps() string {
	h := fnv.New32a()
	for _, p := range s.patterns[s.bought:] {
		h.Write([]byte(p.key()))
		h.Write([]byte{'\n'})
	}
	return fmt.Sprintf("%v, %d to %d (%d), %d nodes, %d sets %08x, plan %s",
		s.has, s.lower, s.best.cost, s.byWeights, s.nodes, len(s.patterns)-s.bought, h.Sum32(), s.best.digest())
}

// digest is another for another solution.
func (s *solution) digest() string {
	h := fnv.New32a()
	for i, p := range s.patterns {
		h.Write(binary.AppendVarint([]byte(p.key()), int64(s.times[i])))
	}
	return fmt.Sprintf("%d of %08x", len(s.patterns), h.Sum32())
}

// Searches take the steps that they took when they were last measured. Another step
// is no fault, but may cost time: look at the benchmarks, and then at -update. Where
// a processor rounds a product and a sum at once, the steps are others.
func TestSteps(t *testing.T) {
	var got strings.Builder
	r := rand.New(rand.NewPCG(13, 14))
	say := func(name string, n int, text string) { fmt.Fprintf(&got, "%s %d: %s\n", name, n, text) }
	all := func(float64) func() bool { return never }
	for n := range 6 {
		m := orderedModel(r, 6+n, 12)
		s := solve(m, never)
		say("orders", n, s.steps())
		if n < 4 {
			few := m.fewer(s.best, never)
			say("fewer patterns", n, few.digest())
		}

		m = orderedModel(r, 5+n, 30)
		m.pieces, m.kinds = 3+n%3, 2+n%2
		s = solve(m, never)
		say("few across", n, s.steps())
		if n < 2 {
			few := m.fewer(s.best, never)
			say("fewer patterns of few across", n, few.digest())
		}

		m = orderedModel(r, 6+n, 12)
		m.parents = append(m.parents, parent{width: 820 + int64(n), cost: 820 + int64(n), times: 1})
		m.parents[0].cost = 1036
		if n%2 == 0 {
			m.parents[1].draws, m.stocks = []draw{{0, 1}}, []int64{int64(2 + n)}
		}
		say("two deckles", n, solve(m, never).steps())

		m = orderedModel(r, 3+n, 20).overrun(2)
		m.runs, m.strict = 2+n, true
		say("several runs", n, m.solveHard(all).steps())

		m = orderedModel(r, 7+2*n, 10).overrun(1)
		m.parents[0].least, m.strict = 1036-40, true
		say("full", n, m.solveHard(all).steps())

		m = orderedModel(r, 6+n, 12)
		m.apart = make([][]int32, len(m.cuts))
		for range n {
			a, b := int32(r.IntN(len(m.cuts))), int32(r.IntN(len(m.cuts)))
			m.apart[a], m.apart[b] = append(m.apart[a], b), append(m.apart[b], a)
		}
		say("apart", n, solve(m, never).steps())

		widths, deckle := cutUp(r, 5+n)
		m = packing(widths, deckle)
		sets := int64(5 + n)
		s = &solver{master: newMaster(m, never), enough: sets, never: 1 << 30, patience: 60}
		s.branch()
		say("branches", n, s.steps())
	}
	for n := 0; n < 8; {
		widths, deckle, sets := fullSets(r)
		m := packing(widths, deckle)
		p := &pairing{sets: int64(sets), slack: m.slack(int64(sets)), stop: never}
		if p.search(p.root(newMaster(m, never))); p.nodes > 1 {
			say("pairs", n, fmt.Sprintf("%v, %d nodes, plan %s", p.has, p.nodes, p.found.digest()))
			n++
		}
	}
	for n, rows := range []int{40, 110} {
		say("many orders", n, solve(orderedModel(r, rows, 3), never).steps())
	}
	r = rand.New(rand.NewPCG(15, 16))
	for _, part := range []func(steps, *rand.Rand){partSteps, looseSteps, runSteps, mixSteps, smallSteps, sparseSteps} {
		part(say, r)
	}

	const file = "../../testdata/trim/steps.txt"
	if *update {
		if err := os.WriteFile(file, []byte(got.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got.String(), "\n")); diff != "" {
		t.Errorf("%s (-) and the steps now (+):\n%s", file, diff)
	}
}

// steps takes a line of what searches do.
type steps func(name string, n int, text string)

// partSteps says what programs and knapsacks do by themselves.
func partSteps(say steps, r *rand.Rand) {
	for n := range 10 {
		h := fnv.New32a()
		steps, begun := 0, 0
		for range 20 {
			p := smallLP(r)
			if n > 4 {
				p = p.larger(r, 10*n-40)
			}
			p.settle()
			p.dual()
			for v := p.m; v < len(p.cost); v++ {
				p.cost[v] = float64(1 + r.IntN(9))
			}
			p.settle()
			p.primal()
			for _, v := range p.head {
				h.Write(binary.AppendVarint(nil, int64(v)))
			}
			steps += p.steps
			p.begin([]int32{int32(p.m), int32(p.m + 1), int32(p.m + 2)})
			p.dual()
			begun += p.steps
		}
		say("programs", n, fmt.Sprintf("%d and %d steps, %08x", steps, begun-steps, h.Sum32()))

		h.Reset()
		nodes, guided := 0, 0
		for range 50 {
			c := smallChoice(r)
			k := c.sack()
			k.search(slices.Clone(c.items), c.room, c.atLeast, 1<<30)
			nodes += 1<<30 - k.nodes
			c.part(r)
			k = c.sack()
			k.items, k.room, k.best, k.nodes = slices.Clone(c.items), c.room, c.atLeast, 1<<30
			k.foresee()
			k.follow(0, c.room.width, c.room.pieces, c.room.kinds, 0)
			guided += 1<<30 - k.nodes
			_, set := k.table(c.items, c.room.width)
			h.Write([]byte(pattern{pieces: set}.key()))
		}
		say("knapsacks", n, fmt.Sprintf("%d and %d nodes, tables %08x", nodes, guided, h.Sum32()))
	}
}

// looseSteps searches models with sheets, groups, stocks and limits of any sort, then for less than what was found.
func looseSteps(say steps, r *rand.Rand) {
	for n := range 60 {
		m := looseModel(r)
		for i := range m.rows {
			m.rows[i].least *= 1 + n%7
			m.rows[i].most = m.rows[i].least + n%3
		}
		m.pieces += n % 4
		m.kinds += n % 3
		m.strict = n%2 == 0
		m.stocks[0] *= 10
		m.stocks[1] *= 10
		if n%4 > 0 {
			for j := range m.parents {
				d := &m.parents[j]
				d.times, d.least = 1, d.least*int64(n%4-1)/2
			}
		}
		if n%5 > 0 {
			m.runs = 1
		}
		s := solve(m, after(300))
		say("loose", n, fmt.Sprintf("%s, proof %x", s.steps(), s.shown.row))
		if !s.has {
			continue
		}
		s = &solver{master: newMaster(m, after(300)), enough: s.best.cost - 1, never: 1 << 30, patience: 40}
		s.branch()
		say("loose less", n, s.steps())
	}
}

// runSteps searches for patterns that must be cut several times.
func runSteps(say steps, r *rand.Rand) {
	for n := range 12 {
		m := orderedModel(r, 4+n/2, 6)
		m.runs = 1 + n%3
		m.strict = n%2 == 0
		m.overrun(n % 4)
		s := &solver{master: newMaster(m, after(300)), enough: int64(n), never: 1 << 30, patience: 60}
		s.run()
		say("runs", n, s.steps())
		sets := aboutSets(m) + 1
		s = &solver{master: newMaster(m, after(600)), enough: sets, never: 1 << 30, patience: 60}
		s.branch()
		say("run branches", n, s.steps())
		if found, ok := m.anySparse(sets+2, 5, after(500)); ok {
			say("sparse", n, found.digest())
		}
	}
}

// mixSteps mixes and mends, some of it in very few steps.
func mixSteps(say steps, r *rand.Rand) {
	for n := range 20 {
		m, s := mixable(r)
		got := m.mixed(s, uint64(n), n%4, never)
		say("mixed", n, got.digest())
		m.runs++
		got, ok := m.mended(s, 300, mendNodes, never)
		say("mended", n, fmt.Sprint(ok, " ", got.digest()))
	}
	for n := range 10 {
		h := fnv.New32a()
		for i := range 30 {
			m, s := mixable(r)
			if m.runs++; i%2 == 0 {
				m.parents[0].least = m.parents[0].width * 2 / 3
			}
			x := m.mixer(s, uint64(i), never)
			x.nodes = 1 + i/3
			x.lacking, x.thin = 1, 1
			for range 5 {
				x.draw(3)
				fmt.Fprintln(h, x.remake(2+i%2), x.now.digest())
			}
			got, ok := m.mended(s, 1+n*n, 2+i*n, never)
			fmt.Fprintln(h, ok, got.digest())
		}
		say("short steps", n, fmt.Sprintf("%08x", h.Sum32()))
	}
}

// smallSteps searches small models over splits, lists, branches and pairs.
func smallSteps(say steps, r *rand.Rand) {
	for n, rows := range []int{30, 31} {
		s := &solver{master: newMaster(orderedModel(r, rows, 9), never), enough: -1, never: 1 << 30}
		s.greedy()
		s.relax(1 << 30)
		say("about 30 rows", n, s.steps())
	}
	for n := range 10 {
		h := fnv.New32a()
		nodes := 0
		for i := range 10 {
			m := smallModel(r)
			s := singles(m)
			s.stop = after(200)
			s.bySplits(1 + n)
			fmt.Fprintln(h, s.steps())
			s = singles(m)
			for least := m.leastCost(); s.best.cost > least+2*s.priciest; {
				s.best.cost--
			}
			s.stop = after(200)
			s.overList()
			fmt.Fprintln(h, s.steps())
			if m.strict = i%3 == 0; m.strict {
				m.overrun(2)
			}
			s = &solver{master: newMaster(m, after(200)), enough: -1, never: 1 << 30}
			s.branch()
			nodes += s.nodes
			fmt.Fprintln(h, s.steps())
			few := m.fewer(s.best, after(200))
			fmt.Fprintln(h, few.digest())
		}
		say("small", n, fmt.Sprintf("%d nodes, %08x", nodes, h.Sum32()))

		h.Reset()
		nodes = 0
		for i := range 20 {
			widths, deckle, sets := fullSets(r)
			m := packing(widths, deckle)
			p := &pairing{sets: int64(sets), slack: m.slack(int64(sets)), stop: after(300), list: i % 3 * 4, ways: i % 2 * 2}
			root := p.root(newMaster(m, never))
			if s := p.relaxed(root); s.inner() {
				ways, few := s.sack.rarest(s.proof.full-s.gap(root.sets), 20)
				fmt.Fprintln(h, s.proof, few, ways)
			}
			p.search(root)
			nodes += p.nodes
			fmt.Fprintln(h, p.has, p.nodes, p.found.digest())
		}
		say("full sets", n, fmt.Sprintf("%d nodes, %08x", nodes, h.Sum32()))
	}
}

// sparseSteps dives for fewer patterns, and searches what is hard.
func sparseSteps(say steps, r *rand.Rand) {
	for n := range 8 {
		h := fnv.New32a()
		m := orderedModel(r, 4+n, 8)
		s := solve(m, never)
		if m.strict = n%2 == 0; m.strict {
			m.overrun(1)
		}
		d := &sparser{model: m, best: m.merged(s.best)}
		asks := 0
		d.stop = func() bool { asks++; return false }
		for seed := range 16 {
			d.seed = seed
			ok := d.dive()
			fmt.Fprintln(h, ok, asks, d.best.digest())
		}
		say("dives", n, fmt.Sprintf("%d steps, %08x", asks, h.Sum32()))

		h.Reset()
		asks = 0
		for seed := range 12 {
			m, s := mixable(r)
			m.runs, m.strict = 1, true
			d := &sparser{model: m, best: s, seed: seed + n, stop: func() bool { asks++; return false }}
			if seed < 3 {
				fmt.Fprintln(h, d.exact(), d.best.digest())
			}
			d = &sparser{model: m, best: s, seed: seed + n, stop: d.stop}
			fmt.Fprintln(h, d.dive(), d.best.digest())
			fmt.Fprintln(h, d.dive(), d.best.digest())
		}
		say("few of many", n, fmt.Sprintf("%d steps, %08x", asks, h.Sum32()))

		h.Reset()
		for range 5 {
			s := nudged(smallModel(r), 1e-3, never)
			if _, ok := s.relax(1 << 30); ok && s.inner() {
				fmt.Fprintln(h, s.proof)
			}
		}
		say("faces", n, fmt.Sprintf("%08x", h.Sum32()))

		h.Reset()
		for range 6 {
			m := hardModel(r)
			s := m.solveHard(func(part float64) func() bool { return after(int(part * float64(int(20)<<n))) })
			fmt.Fprintln(h, s.steps())
		}
		say("hard", n, fmt.Sprintf("%08x", h.Sum32()))

		h.Reset()
		for range 6 {
			widths, deckle, _ := fullSets(r)
			fmt.Fprintln(h, solve(packing(widths, deckle), after(300)).steps())
		}
		say("solved full sets", n, fmt.Sprintf("%08x", h.Sum32()))
	}
	for n, rows := 0, []int{3, 4, 5, 6, 8, 12}; n < len(rows); n++ {
		m := orderedModel(r, rows[n], 4)
		s := solve(m, never)
		d := &sparser{model: m, best: s.best, stop: after(500)}
		d.exact()
		say("exact", n, d.best.digest())
		few := m.fewer(s.best, after(2000))
		say("fewer", n, few.digest())
	}
}

// larger is a program like a plan's, of so many rows.
func (p *lp) larger(r *rand.Rand, m int) *lp {
	var low, high []float64
	for range m {
		low, high = append(low, float64(1+r.IntN(9))), append(high, math.Inf(1))
	}
	p = newLP(low, high)
	p.stop = never
	for i := range m {
		p.add([]entry{{int32(i), 1}}, 10, math.Inf(1))
	}
	for range 3 * m {
		var column []entry
		for _, i := range r.Perm(m)[:3] {
			column = append(column, entry{int32(i), 1 + r.Int32N(2)})
		}
		p.add(column, float64(5+r.IntN(9)), math.Inf(1))
	}
	return p
}

// aboutSets is about how many sets a model of one deckle takes.
func aboutSets(m *model) (sets int64) {
	for _, c := range m.cuts {
		sets += c.width * int64(m.rows[c.row].least)
	}
	return sets / m.parents[0].width
}
