package trim_test

import (
	"cmp"
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"runtime"
	"slices"
	"sort"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// randomJob is a small job with some limits of a slitter.
func randomJob(r *rand.Rand) *trim.Job {
	deckle := 20 + r.IntN(30)
	j := &trim.Job{Parents: []trim.Parent{{Deckle: paperprop.Length(deckle), Edge: paperprop.Length(r.IntN(2))}}}
	used := map[int]bool{}
	for range 1 + r.IntN(4) {
		w := 3 + r.IntN(deckle/2)
		if used[w] {
			continue
		}
		used[w] = true
		o := trim.Order{Width: paperprop.Length(w), Reels: 1 + r.IntN(3)}
		if r.IntN(3) == 0 {
			o.Least, o.Most = o.Reels, o.Reels+1+r.IntN(2)
		}
		j.Orders = append(j.Orders, o)
	}
	if r.IntN(3) == 0 {
		j.Slitter.MostReels = 1 + r.IntN(4)
	}
	if r.IntN(3) == 0 {
		j.Slitter.MostWidths = 1 + r.IntN(2)
	}
	if r.IntN(4) == 0 {
		j.Slitter.LeastUsed = paperprop.Length(r.IntN(deckle / 2))
	}
	if r.IntN(5) == 0 {
		j.Slitter.LeastSets = 2
	}
	if r.IntN(6) == 0 {
		j.Slitter.SetMultiple = 2
	}
	if r.IntN(4) == 0 {
		j.Parents = append(j.Parents, trim.Parent{Deckle: paperprop.Length(deckle + 7)})
		if r.IntN(2) == 0 {
			j.Aim = trim.LeastWidth
		}
		if r.IntN(2) == 0 {
			j.Parents[1].Sets = 1 + r.IntN(2)
		}
	}
	if r.IntN(4) == 0 {
		for i := range j.Orders {
			j.Orders[i].Group = string(rune('a' + i%2))
		}
	}
	return j
}

// randomSheets is a small job with orders of several sheets.
func randomSheets(r *rand.Rand) *trim.Job {
	j := randomJob(r)
	j.Orders = j.Orders[:min(len(j.Orders), 2)]
	for i := range j.Orders {
		o := &j.Orders[i]
		o.Reels += r.IntN(4)
		if o.Sheets = 1 + r.IntN(3); o.Most > 0 {
			o.Least, o.Most = o.Reels, o.Reels+r.IntN(3)
		}
	}
	if r.IntN(2) == 0 {
		j.Slitter.LeastUsed = paperprop.Length(int(j.Parents[0].Deckle) * 6 / 10)
	}
	return j
}

// randomAlike is a small job with reels of one width for several orders, or for an order
// and a filler, and few widths across.
func randomAlike(r *rand.Rand) *trim.Job {
	j := randomSheets(r)
	for i := range j.Orders {
		j.Orders[i].Group = ""
	}
	o := j.Orders[0]
	o.Reels, o.Sheets = 1+r.IntN(4), o.Sheets+1+r.IntN(2)
	if r.IntN(3) == 0 && o.Width*2 <= j.Parents[0].Deckle-2*j.Parents[0].Edge {
		o.Width, o.Sheets = o.Width*2, 1
	}
	if o.Most > 0 {
		o.Least, o.Most = o.Reels, o.Reels+r.IntN(3)
	}
	j.Orders = append(j.Orders, o)
	j.Slitter.MostWidths = 1 + r.IntN(2)
	if r.IntN(3) == 0 {
		j.Fillers = []trim.Filler{{Width: o.Width, Most: r.IntN(3)}}
	}
	return j
}

// randomFillers is a small job whose sets must be full, with fillers.
func randomFillers(r *rand.Rand) *trim.Job {
	j := randomJob(r)
	j.Orders = j.Orders[:min(len(j.Orders), 2)]
	for i := range j.Orders {
		j.Orders[i].Group = ""
	}
	deckle := int(j.Parents[0].Deckle)
	j.Slitter.LeastUsed = paperprop.Length(deckle * (4 + r.IntN(5)) / 10)
	j.Fillers = []trim.Filler{{Width: paperprop.Length(deckle/5 + r.IntN(deckle/3)), Most: r.IntN(4)}}
	return j
}

// across is how many of the sheets of an order the widest reel can have.
func across(j *trim.Job, o trim.Order) int {
	widest := paperprop.Length(0)
	for _, p := range j.Parents {
		widest = max(widest, p.Deckle-2*p.Edge)
	}
	if j.Slitter.Widest > 0 {
		widest = min(widest, j.Slitter.Widest)
	}
	return max(1, min(o.Sheets, int(widest/o.Width)))
}

// allowed is the orders of a job, those alike as one, and fillers after so many of them as
// orders of none, which any number will do for.
func allowed(j *trim.Job) (orders []trim.Order, asked int) {
	for _, o := range j.Orders {
		o.Sheets = across(j, o)
		o.Least, o.Most = bounds(o)
		o.NoneWillDo = o.Least == 0
		at := slices.IndexFunc(orders, func(x trim.Order) bool { return x.Group == o.Group && x.Width == o.Width && x.Sheets == o.Sheets })
		if at < 0 {
			orders = append(orders, o)
			continue
		}
		x := &orders[at]
		x.Reels, x.Least, x.Most = x.Reels+o.Reels, x.Least+o.Least, x.Most+o.Most
		x.NoneWillDo = x.Least == 0
	}
	asked = len(orders)
	if j.Slitter.LeastUsed > 0 {
		for _, f := range j.Fillers {
			orders = append(orders, trim.Order{Width: f.Width, NoneWillDo: true, Most: cmp.Or(f.Most, 1000)})
		}
	}
	return orders, asked
}

// fewest is the least cost of any plan, by trying all: patterns are taken in
// turn, each so often as it may be, until every order has what it needs.
func fewest(j *trim.Job) (cost int, possible bool) {
	type set struct {
		reels []int
		cost  int
		of    int
	}
	var sets []set
	s := j.Slitter
	type choice struct{ order, sheets int }
	var across []choice
	orders, asked := allowed(j)
	for i, o := range orders {
		for n := range max(1, o.Sheets) {
			across = append(across, choice{i, n + 1})
		}
	}
	for p, parent := range j.Parents {
		seen := map[string]bool{}
		counts := make([]int, len(orders))
		var build func(i, room, reels int, widths []int, used int, group string)
		build = func(i, room, reels int, widths []int, used int, group string) {
			if i == len(across) {
				// Fewer fillers come first, and more are of no use; nor are they alone.
				if key, wanted := fmt.Sprint(counts[:asked]), slices.Max(counts[:asked]); wanted > 0 && float64(used) >= float64(s.LeastUsed) && !seen[key] {
					seen[key] = true
					c := 1
					if j.Aim == trim.LeastWidth {
						c = int(parent.Deckle)
					}
					sets = append(sets, set{slices.Clone(counts), c, p})
				}
				return
			}
			o, sheets := orders[across[i].order], across[i].sheets
			made := &counts[across[i].order]
			before, width := *made, sheets*int(o.Width)
			_, most := bounds(o)
			for n := 0; before+n*sheets <= most && n*width <= room; n++ {
				if n > 0 && reels > 0 && group != o.Group || s.MostReels > 0 && reels+n > s.MostReels {
					break
				}
				g, all := group, widths
				if n > 0 {
					g = o.Group
				}
				if n > 0 && !slices.Contains(widths, width) {
					all = append(slices.Clip(widths), width)
				}
				if s.MostWidths > 0 && len(all) > s.MostWidths {
					break
				}
				*made = before + n*sheets
				build(i+1, room-n*width, reels+n, all, used+n*width, g)
			}
			*made = before
		}
		build(0, int(parent.Deckle-2*parent.Edge), 0, nil, 0, "")
	}
	best := -1
	made := make([]int, len(orders))
	stock := make([]int, len(j.Parents))
	step, first := max(1, s.SetMultiple), max(1, s.LeastSets)
	first = (first + step - 1) / step * step
	var try func(i, cost int)
	try = func(i, cost int) {
		if best >= 0 && cost >= best {
			return
		}
		short := false
		for k, o := range orders {
			least, most := bounds(o)
			if made[k] > most {
				return
			}
			short = short || made[k] < least
		}
		if !short {
			best = cost
			return
		}
		if i == len(sets) {
			return
		}
		try(i+1, cost)
		x := sets[i]
		for n := first; ; n += step {
			over := false
			for k := range made {
				_, most := bounds(orders[k])
				over = over || made[k]+n*x.reels[k] > most
			}
			if over || j.Parents[x.of].Sets > 0 && stock[x.of]+n > j.Parents[x.of].Sets {
				return
			}
			for k := range made {
				made[k] += n * x.reels[k]
			}
			stock[x.of] += n
			try(i+1, cost+n*x.cost)
			stock[x.of] -= n
			for k := range made {
				made[k] -= n * x.reels[k]
			}
		}
	}
	try(0, 0)
	return best, best >= 0
}

func bounds(o trim.Order) (least, most int) {
	least, most = o.Least, o.Most
	if least == 0 && !o.NoneWillDo {
		least = o.Reels
	}
	if most == 0 {
		most = o.Reels
	}
	return least, most
}

func cost(j *trim.Job, p *trim.Plan) int {
	if j.Aim == trim.LeastWidth {
		return int(p.Deckle)
	}
	return p.Sets
}

// Small jobs, planned, against all plans there are.
func TestEnumerated(t *testing.T) {
	enumerated(t, rand.New(rand.NewPCG(1, 2)), randomJob, 1500)
}

// So are orders of several sheets: reels of fewer are always a choice.
func TestEnumeratedSheets(t *testing.T) {
	enumerated(t, rand.New(rand.NewPCG(1, 3)), randomSheets, 1000)
}

// So are reels of one width for several orders: it is one width across.
func TestEnumeratedAlike(t *testing.T) {
	enumerated(t, rand.New(rand.NewPCG(1, 5)), randomAlike, 1000)
}

// So are fillers, where they help sets to their least width.
func TestEnumeratedFillers(t *testing.T) {
	enumerated(t, rand.New(rand.NewPCG(1, 4)), randomFillers, 600)
}

// A reel of two sheets more may be of another width than one of a sheet more: then what is
// too much can't be left in the trim, and counts.
func TestSheetsOfOneWidth(t *testing.T) {
	p := plan(t, &trim.Job{
		Parents: []trim.Parent{{Deckle: 1000}},
		Orders:  []trim.Order{{Width: 250, Reels: 3, Most: 4, Sheets: 2}},
		Slitter: trim.Slitter{MostReels: 2, MostWidths: 1},
	})
	if c := p.Certificate; p.Sets != 1 || c.Bound != 1 || !c.Proven {
		t.Errorf("%d sets, bound %d, proven %v, want one of two reels of 500 mm", p.Sets, c.Bound, c.Proven)
	}
}

// mixes reports whether reels of one width may go to orders that differ in Sheets, in
// patterns that are repeated or in a reel of several sheets that counts as fewer than single
// ones would: such jobs have no bound.
func mixes(j *trim.Job) bool {
	s := j.Slitter
	repeated := s.SetMultiple > 1 || s.LeastSets > 1
	type reel struct {
		group string
		width paperprop.Length
	}
	orders := map[reel]trim.Order{}
	for _, o := range j.Orders {
		o.Sheets = across(j, o)
		for n := 1; n <= o.Sheets; n++ {
			at := reel{o.Group, o.Width * paperprop.Length(n)}
			other, ok := orders[at]
			shared := other.Width == o.Width && n > 1 && (s.MostReels > 0 || s.MostWidths > 0 || o.Width < s.Narrowest)
			if ok && (other.Width != o.Width || other.Sheets != o.Sheets) && (repeated || shared) {
				return true
			}
			orders[at] = o
		}
	}
	return false
}

func enumerated(t *testing.T, r *rand.Rand, job func(*rand.Rand) *trim.Job, jobs int) {
	planned := 0
	for n := range jobs {
		j := job(r)
		want, possible := fewest(j)
		ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
		p, err := j.Plan(ctx)
		cancel()
		if (err == nil) != possible {
			t.Errorf("job %d %+v: %v, but possible is %v", n, j, err, possible)
			continue
		}
		if err != nil {
			continue
		}
		planned++
		if err := check(j, p); err != nil {
			t.Errorf("job %d %+v: %v\n%+v", n, j, err, p)
		}
		if got := cost(j, p); got != want || !p.Certificate.Proven && !mixes(j) {
			t.Errorf("job %d %+v: cost %d, proven %v, want %d\n%+v", n, j, got, p.Certificate.Proven, want, p)
		}
	}
	if 2*planned < jobs*14/15 {
		t.Errorf("%d jobs planned: the test has too many that no plan can have", planned)
	}
}

// mediumJob is of the size of a day's orders.
func mediumJob(r *rand.Rand) *trim.Job {
	j := &trim.Job{Parents: []trim.Parent{{Deckle: 5180, Edge: 10}}, Slitter: trim.Slitter{MostReels: 7}}
	for range 5 + r.IntN(6) {
		j.Orders = append(j.Orders, trim.Order{Width: paperprop.Length(400+r.IntN(2000)) + 0.5, Reels: 1 + r.IntN(40)})
	}
	return j
}

func plan(t *testing.T, j *trim.Job) *trim.Plan {
	t.Helper()
	p, err := j.Plan(context.Background())
	if err != nil {
		t.Fatalf("%+v: %v", j, err)
	}
	if err := check(j, p); err != nil {
		t.Fatalf("%+v: %v", j, err)
	}
	return p
}

// firstFit is the plan that takes reels widest first, each into the first set
// that has room.
func firstFit(j *trim.Job) int {
	orders := slices.Clone(j.Orders)
	sort.SliceStable(orders, func(a, b int) bool { return orders[a].Width > orders[b].Width })
	type set struct {
		room  paperprop.Length
		reels int
	}
	var sets []set
	for _, o := range orders {
	next:
		for range o.Reels {
			for i := range sets {
				if sets[i].room >= o.Width && sets[i].reels < j.Slitter.MostReels {
					sets[i].room -= o.Width
					sets[i].reels++
					continue next
				}
			}
			sets = append(sets, set{j.Parents[0].Deckle - 2*j.Parents[0].Edge - o.Width, 1})
		}
	}
	return len(sets)
}

// What must not change a plan, and what it is never above or below.
func TestLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 4 {
		j := mediumJob(r)
		p := plan(t, j)
		if ffd := firstFit(j); p.Sets > ffd {
			t.Errorf("%+v: %d sets, first fit takes %d", j, p.Sets, ffd)
		}

		// The order of the list.
		k := *j
		k.Orders = slices.Clone(j.Orders)
		r.Shuffle(len(k.Orders), func(a, b int) { k.Orders[a], k.Orders[b] = k.Orders[b], k.Orders[a] })
		if q := plan(t, &k); !reflect.DeepEqual(p.Patterns, q.Patterns) {
			t.Errorf("%+v: another plan for another order of the list", j)
		}

		// An order in two.
		k.Orders = slices.Clone(j.Orders)
		if first := &k.Orders[0]; first.Reels > 1 {
			second := *first
			second.Reels = first.Reels / 2
			first.Reels -= second.Reels
			k.Orders = append(k.Orders, second)
			if q := plan(t, &k); !reflect.DeepEqual(p.Patterns, q.Patterns) {
				t.Errorf("%+v: another plan for an order in two", j)
			}
		}

		// All widths times two.
		k.Orders = slices.Clone(j.Orders)
		for i := range k.Orders {
			k.Orders[i].Width *= 2
		}
		k.Parents = []trim.Parent{{Deckle: 2 * j.Parents[0].Deckle, Edge: 2 * j.Parents[0].Edge}}
		q := plan(t, &k)
		same := len(p.Patterns) == len(q.Patterns)
		for i := range p.Patterns {
			same = same && p.Patterns[i].Times == q.Patterns[i].Times && 2*p.Patterns[i].Trim == q.Patterns[i].Trim
		}
		if !same {
			t.Errorf("%+v: another plan for twice the widths", j)
		}

		// The number of processors.
		n := runtime.GOMAXPROCS(1)
		q = plan(t, j)
		runtime.GOMAXPROCS(n)
		if !reflect.DeepEqual(p, q) {
			t.Errorf("%+v: another plan on one processor", j)
		}
	}
}

// At the end of its time a job gives the best plan so far.
func TestLimited(t *testing.T) {
	j := &trim.Job{Parents: []trim.Parent{{Deckle: 10000}}}
	r := rand.New(rand.NewPCG(5, 6))
	for range 150 {
		j.Orders = append(j.Orders, trim.Order{Width: paperprop.Length(1500 + r.IntN(4000)), Reels: 1 + r.IntN(3)})
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p, err := j.Plan(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if err := check(j, p); err != nil {
		t.Error(err)
	}
	if p.Sets > firstFit(&trim.Job{Orders: j.Orders, Parents: j.Parents, Slitter: trim.Slitter{MostReels: 1000}}) {
		t.Errorf("%d sets, more than first fit", p.Sets)
	}
}
