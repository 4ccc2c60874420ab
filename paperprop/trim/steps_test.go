//go:build amd64 && !amd64.v3

package trim

import (
	"encoding/binary"
	"flag"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what the searches do now")

// orderedModel has so many rows of a day's orders, cut from one deckle.
func orderedModel(r *rand.Rand, rows, reels int) *model {
	m := &model{groups: [][]int32{nil}, pieces: 1 << 30, kinds: 1 << 30, runs: 1}
	for len(m.rows) < rows {
		w := 150 + r.Int64N(500)
		if slices.ContainsFunc(m.cuts, func(c cut) bool { return c.width == w }) {
			continue
		}
		m.groups[0] = append(m.groups[0], int32(len(m.cuts)))
		m.cuts = append(m.cuts, m.cutOf(w, len(m.rows)))
		n := 1 + r.IntN(reels)
		m.rows = append(m.rows, row{n, n})
	}
	m.parents = []parent{{width: 1036, cost: 1, times: 1}}
	m.sortCuts()
	return m
}

// overrun lets all rows be overrun, by tenths.
func (m *model) overrun(more int) *model {
	for i := range m.rows {
		m.rows[i].most += 1 + m.rows[i].least*more/10
	}
	return m
}

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
	lines := strings.Split(string(want), "\n")
	for i, line := range strings.Split(got.String(), "\n") {
		if i >= len(lines) || line != lines[i] {
			t.Errorf("line %d of %s differs: now %s", i+1, file, line)
		}
	}
}
