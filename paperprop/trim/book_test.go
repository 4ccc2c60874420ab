package trim

import (
	"context"
	"math"
	"reflect"
	"testing"
	"testing/synctest"
	"time"

	"millmaths.example/paperprop"
)

// Lengths in grains, a billionth of a millimetre each, and back.
func TestGrains(t *testing.T) {
	for _, test := range []struct {
		l paperprop.Length
		n int64
	}{
		{1, 1_000_000_000}, {0.000000001, 1}, {846.534375, 846_534_375_000}, {0.1, 100_000_000}, {-1.5, -1_500_000_000}, {0, 0}, {1e8, 100_000_000_000_000_000},
	} {
		if n, err := exact(test.l); n != test.n || err != nil {
			t.Errorf("exact(%v) = %d, %v, want %d", test.l, n, err, test.n)
		}
		if l := length(test.n); l != test.l || math.Signbit(float64(l)) != (test.n < 0) {
			t.Errorf("length(%d) = %v, want %v", test.n, l, test.l)
		}
	}
	if n := gcd(1_450_000, 820_000); n != 10_000 {
		t.Errorf("gcd(1450000, 820000) = %d, want 10000", n)
	}
}

// Reels are laid into the trim of sets as they come: two into each of three sets of 8
// of 10, then one that is left into one of two sets of 7.
func TestLaid(t *testing.T) {
	m := &model{
		rows: make([]row, 3), groups: [][]int32{{0, 1, 2}}, parents: []parent{{width: 10, cost: 1, times: 1}}, pieces: 9, kinds: 9, runs: 1,
		cuts: []cut{{width: 8, row: 0, units: 1}, {width: 7, row: 1, units: 1}, {width: 1, row: 2, units: 1}},
	}
	set := func(pieces ...piece) pattern { return pattern{pieces: pieces} }
	s := solution{patterns: []pattern{set(piece{0, 1}), set(piece{1, 1})}, times: []int{3, 2}, cost: 5}
	for _, test := range []struct {
		most, laid int
		want       solution
	}{
		{7, 7, solution{[]pattern{set(piece{0, 1}, piece{2, 2}), set(piece{1, 1}, piece{2, 1}), set(piece{1, 1})}, []int{3, 1, 1}, 5}},
		{5, 5, solution{[]pattern{set(piece{0, 1}, piece{2, 2}), set(piece{0, 1}), set(piece{1, 1}, piece{2, 1}), set(piece{1, 1})}, []int{2, 1, 1, 1}, 5}},
		{12, 12, solution{[]pattern{set(piece{0, 1}, piece{2, 2}), set(piece{1, 1}, piece{2, 3})}, []int{3, 2}, 5}},
		{99, 12, solution{[]pattern{set(piece{0, 1}, piece{2, 2}), set(piece{1, 1}, piece{2, 3})}, []int{3, 2}, 5}},
	} {
		if got, laid := m.laid(s, 2, test.most); laid != test.laid || !reflect.DeepEqual(got, test.want) {
			t.Errorf("laid(%d) = %+v, %d, want %+v, %d", test.most, got, laid, test.want, test.laid)
		}
	}
}

// A set of fillers alone is left out, and what it held of them is wanted no more.
func TestOrdered(t *testing.T) {
	m := &model{
		rows: []row{{2, 2}, {7, 7}}, groups: [][]int32{{0, 1}}, parents: []parent{{width: 10, cost: 3, times: 1}},
		cuts: []cut{{width: 8, row: 0, units: 1}, {width: 2, row: 1, units: 1}},
	}
	b := &book{models: []*model{m}, entries: [][]entryRow{{{filler: -1, ordered: 2}, {filler: 0, ordered: 7}}}}
	full, bare := pattern{pieces: []piece{{0, 1}, {1, 1}}}, pattern{pieces: []piece{{1, 5}}}
	got := b.ordered(0, solution{[]pattern{full, bare}, []int{2, 1}, 9})
	if want := (solution{[]pattern{full}, []int{2}, 6}); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v, want %+v", got, want)
	}
	if m.rows[0] != (row{2, 2}) || m.rows[1] != (row{2, 2}) || b.entries[0][0].ordered != 2 || b.entries[0][1].ordered != 2 {
		t.Errorf("rows %v of %+v, want two reels of each", m.rows, b.entries[0])
	}
}

// A stopper asks the clock at every sixteenth call, and stops for good at the end of
// its part of the time or of the context.
func TestStopper(t *testing.T) {
	asked := func(stop func() bool) (over bool) {
		for range 16 {
			over = stop()
		}
		return over
	}
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		ctx, cancel := context.WithTimeout(t.Context(), time.Hour)
		defer cancel()
		time.Sleep(20 * time.Minute)
		half, whole, endless := stopper(ctx, 0.5), stopper(ctx, 1), stopper(t.Context(), 0.5) // until 40, 60 minutes, and for ever
		for _, at := range []struct {
			minutes     time.Duration
			half, whole bool
		}{{39, false, false}, {41, true, false}, {59, true, false}, {61, true, true}} {
			time.Sleep(time.Until(start.Add(at.minutes * time.Minute)))
			if h, w, e := asked(half), asked(whole), asked(endless); h != at.half || w != at.whole || e {
				t.Errorf("after %d minutes: %v, %v, %v, want %v, %v, false", at.minutes, h, w, e, at.half, at.whole)
			}
		}
		late := stopper(ctx, 1)
		for n := 1; n <= 17; n++ {
			if over := late(); over != (n >= 16) {
				t.Errorf("call %d behind the end: %v", n, over)
			}
		}
	})
}

// A slowContext takes its time when it is asked for its deadline, once.
type slowContext struct {
	context.Context
	asked *int
	slow  int // which time
}

func (c slowContext) Deadline() (time.Time, bool) {
	if *c.asked++; *c.asked == c.slow {
		time.Sleep(40 * time.Minute)
	}
	return c.Context.Deadline()
}

// Groups share an hour: the first has half of it and the last what is left. The plan
// asks for the deadline, then each group; where that takes 40 minutes, the first has
// no time to prove its plan, but the second has. Each reel fills more than half of a
// set, so there are as many sets as reels.
func TestGroupsShareTime(t *testing.T) {
	j := &Job{Parents: []Parent{{Deckle: 1000}}, AnyPatterns: true}
	for i := range 80 {
		j.Orders = append(j.Orders, Order{Width: paperprop.Length(501 + i/2), Reels: 1, Group: string(rune('a' + i%2))})
	}
	for _, test := range []struct {
		slow          int
		first, second bool // proven
	}{{0, true, true}, {2, false, true}, {3, true, true}} {
		synctest.Test(t, func(t *testing.T) {
			ctx, cancel := context.WithTimeout(t.Context(), time.Hour)
			defer cancel()
			p, err := j.Plan(slowContext{ctx, new(int), test.slow})
			if err != nil {
				t.Fatal(err)
			}
			w := p.Certificate.Weights
			if p.Sets != 80 || len(w) != 2 || (w[0].Bound == 40) != test.first || (w[1].Bound == 40) != test.second || p.Certificate.Proven != (test.first && test.second) {
				t.Errorf("slow at %d: %d sets, bounds %d and %d, want proven %v and %v", test.slow, p.Sets, w[0].Bound, w[1].Bound, test.first, test.second)
			}
		})
	}
}
