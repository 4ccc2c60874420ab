package trim

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// cutSets counts the runs of each set that holds something.
func cutSets(s solution) map[string]int {
	runs := map[string]int{}
	for i, p := range s.patterns {
		if len(p.pieces) > 0 {
			runs[p.key()] += s.times[i]
		}
	}
	return runs
}

// setOf is the pattern of these cuts.
func setOf(like pattern, cuts []int32) pattern {
	p := pattern{parent: like.parent, group: like.group}
	slices.Sort(cuts)
	for _, c := range cuts {
		p.pieces = added(p.pieces, c, 1)
	}
	return p
}

// smallest is where the cut of a row with fewest units lies among cuts, or -1.
func (m *model) smallest(cuts []int32, r int) int {
	best := -1
	for i, c := range cuts {
		if int(m.cuts[c].row) == r && (best < 0 || m.cuts[c].units < m.cuts[cuts[best]].units) {
			best = i
		}
	}
	return best
}

// thinner is a set with a unit less of a row.
func (m *model) thinner(p pattern, r int) pattern {
	cuts := laid(p)
	at := m.smallest(cuts, r)
	units := m.cuts[cuts[at]].units
	cuts = slices.Delete(cuts, at, at+1)
	for c, cut := range m.cuts {
		if units > 1 && int(cut.row) == r && cut.units == units-1 {
			cuts = append(cuts, int32(c))
		}
	}
	return setOf(p, cuts)
}

// What is taken out of a row leaves sets that are one unit thinner, of the pattern that
// is run most if all its runs are thinned, else of the one that is run least.
func TestTakeOut(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 1))
	parted, whole, gone := 0, 0, 0
	for range 3000 {
		m := looseModel(r)
		s := m.anySolution(r)
		made := m.made(s)
		rows := slices.DeleteFunc(r.Perm(len(made)), func(i int) bool { return made[i] == 0 })
		if len(rows) == 0 {
			continue
		}
		row, n := rows[0], 1+r.IntN(6)
		best := -1
		for i, p := range s.patterns {
			if m.smallest(laid(p), row) < 0 {
				continue
			}
			if best < 0 {
				best = i
				continue
			}
			a, b := s.times[i], s.times[best]
			if a <= n && (b > n || a > b) || a > n && b > n && a < b {
				best = i
			}
		}
		runs := min(n, s.times[best])
		thin := m.thinner(s.patterns[best], row)
		want := cutSets(s)
		key := s.patterns[best].key()
		if want[key] -= runs; want[key] == 0 {
			delete(want, key)
			whole++
		} else {
			parted++
		}
		if len(thin.pieces) > 0 {
			want[thin.key()] += runs
		} else {
			gone++
		}
		wantMade := slices.Clone(made)
		wantMade[row] -= runs
		before := solution{slices.Clone(s.patterns), slices.Clone(s.times), s.cost}
		m.takeOut(&s, made, row, n)
		if got := cutSets(s); !reflect.DeepEqual(got, want) || !slices.Equal(made, wantMade) || !slices.Equal(m.made(s), made) {
			t.Fatalf("%+v: %d of row %d out of %+v are %+v", m, n, row, before, s)
		}
		if slices.ContainsFunc(s.patterns, func(p pattern) bool { return len(p.pieces) == 0 }) || slices.Contains(s.times, 0) {
			t.Fatalf("%+v has sets of nothing", s)
		}
	}
	if parted < 300 || whole < 300 || gone < 20 {
		t.Errorf("%d patterns parted, %d thinned whole, %d gone, want many", parted, whole, gone)
	}
}

// The pattern that is thinned first is one whose runs are all thinned, and most runs, or
// else one with fewest.
func TestBetter(t *testing.T) {
	for n := range 5 {
		order := []int{1, 2, 3, 4, 5, 6}
		slices.SortFunc(order, func(a, b int) int {
			switch {
			case a <= n && b <= n:
				return b - a
			default:
				return a - b
			}
		})
		for i, a := range order {
			for j, b := range order {
				if got := better(a, b, n); got != (i < j) {
					t.Errorf("of %d, %d is better than %d: %v, want %v", n, a, b, got, i < j)
				}
			}
		}
	}
}

// Rows come down to their most, and what is not too much stays.
func TestLowered(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 2))
	for range 2000 {
		m := looseModel(r)
		s := m.anySolution(r)
		want := m.made(s)
		before := cutSets(s)
		lowered := false
		for i := range want {
			lowered = lowered || want[i] > m.rows[i].most
			want[i] = min(want[i], m.rows[i].most)
		}
		got, made := m.lowered(s)
		if !slices.Equal(made, want) || !slices.Equal(m.made(got), want) {
			t.Fatalf("%+v: %+v lowered is %+v, which makes %v, want %v", m, s, got, made, want)
		}
		if !lowered && !reflect.DeepEqual(cutSets(got), before) {
			t.Fatalf("%+v: %+v is not too much, and lowered to %+v", m, s, got)
		}
		if !reflect.DeepEqual(cutSets(s), before) {
			t.Fatal("lowering changes what it is given")
		}
		// So does tidying, where what is too much may not stay.
		entries := make([]entryRow, len(m.rows))
		for i, x := range m.rows {
			entries[i].ordered = x.most
		}
		m.strict = r.IntN(2) == 0
		tidy := m.tidy(s, entries)
		made = m.made(tidy)
		for i, n := range made {
			if !m.strict && (n > m.rows[i].most || n < want[i]) || m.strict && max(n-m.rows[i].most, m.rows[i].most-n) > max(m.made(s)[i]-m.rows[i].most, m.rows[i].most-m.made(s)[i]) {
				t.Fatalf("%+v: %+v tidied is %+v, which makes %v", m, s, tidy, made)
			}
		}
		if len(cutSets(tidy)) != len(tidy.patterns) {
			t.Fatalf("%+v has one pattern twice", tidy)
		}
	}
}

// Reels come out of all runs of a pattern, or go in, where that brings rows nearer to
// what is ordered.
func TestTidyShift(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 3))
	less, more := 0, 0
	for range 5000 {
		m := looseModel(r)
		p := m.anySet(r)
		if len(p.pieces) == 0 {
			continue
		}
		times := 1 + r.IntN(3)
		made := m.made(solution{patterns: []pattern{p}, times: []int{times}})
		entries := make([]entryRow, len(m.rows))
		for i := range entries {
			entries[i].ordered = max(0, made[i]+r.IntN(12)-6)
		}
		d := m.parents[p.parent]
		cuts, wantMade := laid(p), slices.Clone(made)
		width := func() (sum int64) {
			for _, c := range cuts {
				sum += m.cuts[c].width
			}
			return sum
		}
		for i := 0; i < len(cuts); {
			c := m.cuts[cuts[i]]
			by := times * int(c.units)
			if wantMade[c.row]-by < entries[c.row].ordered || width()-c.width < d.least || len(cuts) == 1 {
				i++
				continue
			}
			wantMade[c.row] -= by
			cuts = slices.Delete(cuts, i, i+1)
			less++
		}
		for _, c := range m.groups[p.group] {
			for {
				by := times * int(m.cuts[c].units)
				with := setOf(p, append(slices.Clone(cuts), c))
				if wantMade[m.cuts[c].row]+by > entries[m.cuts[c].row].ordered || !m.allows(with) {
					break
				}
				wantMade[m.cuts[c].row] += by
				cuts = laid(with)
				more++
			}
		}
		want := setOf(p, cuts)
		was := pattern{p.parent, p.group, slices.Clone(p.pieces)}
		m.shift(&p, times, made, entries)
		if !slices.Equal(p.pieces, want.pieces) || p.parent != want.parent || p.group != want.group || !slices.Equal(made, wantMade) {
			t.Fatalf("%+v: %d times %+v is %+v then, which makes %v, want %+v, %v of %+v", m, times, was, p, made, want, wantMade, entries)
		}
	}
	if less < 500 || more < 500 {
		t.Errorf("%d reels less and %d more, want many", less, more)
	}
}

// Runs of one pattern are put together, in the order in which they come.
func TestMerged(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 4))
	for range 500 {
		m := looseModel(r)
		s := m.anySolution(r)
		for range 3 {
			if n := len(s.patterns); n > 0 {
				s.patterns, s.times = append(s.patterns, s.patterns[r.IntN(n)]), append(s.times, 1+r.IntN(3))
			}
		}
		s.cost = 77
		want := cutSets(s)
		got := m.merged(s)
		if !reflect.DeepEqual(cutSets(got), want) || len(got.patterns) != len(want) || got.cost != 77 {
			t.Fatalf("%+v merged is %+v", s, got)
		}
		last := -1
		for i, p := range got.patterns {
			at := slices.IndexFunc(s.patterns, func(q pattern) bool { return q.key() == p.key() })
			if at <= last || got.times[i] != want[p.key()] {
				t.Fatalf("%+v merged is %+v, in another order", s, got)
			}
			last = at
		}
	}
}

// Thin sets are filled up with the first cuts that rows may still take.
func TestThick(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 5))
	full, short := 0, 0
	for range 5000 {
		m := looseModel(r)
		p := m.anySet(r)
		times := 1 + r.IntN(3)
		made := make([]int, len(m.rows))
		for i := range made {
			made[i] = r.IntN(1 + m.rows[i].most)
		}
		d := m.parents[p.parent]
		want, wantMade := p, slices.Clone(made)
		for m.used(want) < d.least {
			at := slices.IndexFunc(m.groups[p.group], func(c int32) bool {
				with := setOf(p, append(laid(want), c))
				cut := m.cuts[c]
				return wantMade[cut.row]+times*int(cut.units) <= m.rows[cut.row].most && m.used(with) <= d.width && m.countable(with)
			})
			if at < 0 {
				break
			}
			c := m.groups[p.group][at]
			want = setOf(p, append(laid(want), c))
			wantMade[m.cuts[c].row] += times * int(m.cuts[c].units)
		}
		got := m.thick(p, times, made)
		if !slices.Equal(got.pieces, want.pieces) || got.parent != p.parent || got.group != p.group || !slices.Equal(made, wantMade) {
			t.Fatalf("%+v: %d times %+v is %+v, and makes %v, want %+v, %v", m, times, p, got, made, want, wantMade)
		}
		if m.used(got) >= d.least {
			full++
		} else {
			short++
		}
	}
	if full < 500 || short < 500 {
		t.Errorf("%d sets full and %d short, want many", full, short)
	}
}
