package trim

import (
	"math"
	"math/big"
	"math/rand/v2"
	"reflect"
	"testing"
)

// A bound is the worth of what is wanted, less that of stocks, over full, rounded up.
// Rows that have too much want nothing. Sums may be far beyond 64 bits.
func TestBound(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 1))
	whole, none, long := 0, 0, 0
	for range 3000 {
		p := &proof{full: 1 + r.Int64N([]int64{3, 20, 1 << 40}[r.IntN(3)])}
		unit, reels := []int64{1, 1 << 38}[r.IntN(2)], 1
		if r.IntN(3) == 0 {
			unit, reels, p.full = 1<<58, 10_000_000, 1<<40+r.Int64N(1<<40)
		}
		var least, most []int
		var stocks []int64
		sum := new(big.Rat)
		add := func(worth, n int64) {
			sum.Add(sum, new(big.Rat).Mul(new(big.Rat).SetInt64(worth), new(big.Rat).SetInt64(n)))
		}
		for range 1 + r.IntN(4) {
			v, n, more := (r.Int64N(12)-3)*unit, (r.IntN(8)-1)*reels, r.IntN(3)
			p.row, least, most = append(p.row, v), append(least, n), append(most, n+more)
			if v < 0 {
				n += more
			}
			add(v, int64(max(0, n)))
		}
		for range r.IntN(3) {
			v, n := r.Int64N(4)*unit, r.Int64N(3)
			p.spare, stocks = append(p.spare, v), append(stocks, n)
			add(-v, n)
		}
		if sum.Num().BitLen() > 64 {
			long++
		}
		full := new(big.Rat).SetInt64(p.full)
		sum.Quo(sum, full)
		want := int64(0)
		if sum.Sign() > 0 {
			up := new(big.Int).Add(sum.Num(), sum.Denom())
			want = up.Sub(up, big.NewInt(1)).Quo(up, sum.Denom()).Int64()
			if sum.IsInt() {
				whole++
			}
		} else {
			none++
		}
		if got := p.bound(least, most, stocks); got != want {
			t.Fatalf("%+v of %v to %v, %v in stock: bound %d, want %d", p, least, most, stocks, got, want)
		}
		value, _ := sum.Float64()
		if got := p.value(least, most, stocks); math.Abs(got-value) > 1e-9*math.Abs(value) {
			t.Fatalf("%+v of %v to %v, %v in stock: value %v, want %v", p, least, most, stocks, got, value)
		}
		var d parent
		beside := int64(0)
		for k, v := range p.spare {
			n := r.Int32N(4)
			d.draws = append(d.draws, draw{int32(k), n})
			beside += v * int64(n)
		}
		if got := p.of(d); got != beside {
			t.Fatalf("%+v: a set that draws %v may be worth %d more, want %d", p, d.draws, got, beside)
		}
		q := &proof{row: []int64{1, 2, 3, 4, 5}, spare: []int64{7}, full: 9}
		if q.set(p); !reflect.DeepEqual(q.row, p.row) || len(q.spare) != len(p.spare) || q.full != p.full {
			t.Fatalf("%+v set to %+v", q, p)
		}
		if q.row[0]++; q.row[0] == p.row[0] {
			t.Fatal("a copy shares its rows")
		}
		if p.full = 0; p.bound(least, most, stocks) != 0 {
			t.Fatalf("%+v: of nothing there is no bound", p)
		}
	}
	if whole < 100 || none < 100 || long < 100 {
		t.Errorf("%d bounds were whole before, %d nothing, and %d of long sums, want many", whole, none, long)
	}
}

// The quotient of a wide number that is no int64 is the largest there is.
func TestOverInt64(t *testing.T) {
	for _, test := range []struct {
		w    wide
		d    uint64
		want uint64
	}{
		{wide{hi: 3, lo: 5}, 3, math.MaxInt64}, // 2^64 and more
		{wide{hi: 2, lo: 5}, 3, math.MaxInt64}, // below 2^64, above 2^63
		{wide{hi: 1, lo: 4}, 4, 1<<62 + 1},
	} {
		if got := test.w.over(test.d); got != test.want {
			t.Errorf("%+v over %d is %d, want %d", test.w, test.d, got, test.want)
		}
	}
}

// A bound that needs a weight below zero for fillers is not proven by weights of orders.
func TestBoundByWeightsOfOrders(t *testing.T) {
	s := &solver{master: &master{m: &model{rows: make([]row, 3), fillers: 2}}}
	for _, test := range []struct {
		row              []int64
		lower            int64
		want, wantByThem int64
	}{
		{[]int64{2, 0, 1}, 5, 5, 5},
		{[]int64{2, 0, -1}, 7, 7, 5},
		{[]int64{-2, 0, 0}, 8, 8, 8},
		{[]int64{3, 0, 0}, 8, 8, 8},
		{[]int64{9, 0, 0}, 6, 8, 8},
	} {
		s.proven.row = test.row
		if s.raise(test.lower); s.lower != test.want || s.byWeights != test.wantByThem {
			t.Errorf("%v raises to %d: %d, by weights %d, want %d, %d", test.row, test.lower, s.lower, s.byWeights, test.want, test.wantByThem)
		}
	}
	if want := []int64{-2, 0, 0}; !reflect.DeepEqual(s.shown.row, want) {
		t.Errorf("shown is %v, want %v", s.shown.row, want)
	}
}

// Products of either sign add up as they do without limits.
func TestWideAdds(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 1))
	for range 1000 {
		var sum wide
		want := new(big.Int)
		for range 1 + r.IntN(4) {
			a, b := int64(r.Uint64()), int64(r.Uint64())>>r.IntN(64)
			sum.add(a, b)
			want.Add(want, new(big.Int).Mul(big.NewInt(a), big.NewInt(b)))
		}
		got := new(big.Int).Lsh(big.NewInt(sum.hi), 64)
		got.Add(got, new(big.Int).SetUint64(sum.lo))
		if want.BitLen() < 127 && got.Cmp(want) != 0 {
			t.Fatalf("%+v is %v, want %v", sum, got, want)
		}
	}
}
