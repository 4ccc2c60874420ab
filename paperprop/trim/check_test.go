package trim_test

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"strconv"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/trim"
)

// rat is a length in mm, exactly as its shortest decimal text.
func rat(l paperprop.Length) *big.Rat {
	r, _ := new(big.Rat).SetString(strconv.FormatFloat(float64(l), 'g', -1, 64))
	return r
}

func sum(to *big.Rat, l paperprop.Length, n int) *big.Rat {
	return to.Add(to, new(big.Rat).Mul(rat(l), big.NewRat(int64(n), 1)))
}

// check is independent of the solver: it tells what a plan breaks of its job.
// It shares no code with package trim but the types.
func check(j *trim.Job, p *trim.Plan) error {
	s := j.Slitter
	sets, made := 0, map[string]int{}
	stock := make([]int, len(j.Parents))
	trimmed, deckle := new(big.Rat), new(big.Rat)
	fillers := map[string]int{}
	seen := map[string]bool{}
	for i, x := range p.Patterns {
		parent := j.Parents[x.Parent]
		usable := new(big.Rat).Sub(rat(parent.Deckle), sum(new(big.Rat), parent.Edge, 2))
		used, reels, kinds := new(big.Rat), 0, map[string]bool{}
		key := fmt.Sprint(x.Parent, x.Group)
		for _, r := range x.Reels {
			sum(used, r.Width, r.Count)
			reels += r.Count
			kinds[rat(r.Width).String()] = true
			key += fmt.Sprint(" ", r)
			if r.Count < 1 {
				return fmt.Errorf("pattern %d: %d × %v", i, r.Count, r.Width)
			}
			if r.Width < s.Narrowest || s.Widest > 0 && r.Width > s.Widest {
				return fmt.Errorf("pattern %d: a reel of %v", i, r.Width)
			}
			if r.Filler {
				fillers[rat(r.Width).String()] += r.Count * x.Times
			} else {
				one := new(big.Rat).Quo(rat(r.Width), big.NewRat(int64(r.Sheets), 1))
				made[x.Group+"|"+one.String()] += r.Count * r.Sheets * x.Times
			}
		}
		switch {
		case seen[key]:
			return fmt.Errorf("pattern %d comes twice", i)
		case x.Times < 1:
			return fmt.Errorf("pattern %d is cut %d times", i, x.Times)
		case used.Cmp(usable) > 0:
			return fmt.Errorf("pattern %d uses %v of %v", i, used, usable)
		case used.Cmp(rat(s.LeastUsed)) < 0:
			return fmt.Errorf("pattern %d uses %v, at least %v is wanted", i, used, s.LeastUsed)
		case s.MostReels > 0 && reels > s.MostReels:
			return fmt.Errorf("pattern %d has %d reels", i, reels)
		case s.MostWidths > 0 && len(kinds) > s.MostWidths:
			return fmt.Errorf("pattern %d has %d widths", i, len(kinds))
		case s.SetMultiple > 0 && x.Times%s.SetMultiple != 0:
			return fmt.Errorf("pattern %d is cut %d times", i, x.Times)
		case s.LeastSets > 0 && x.Times < s.LeastSets:
			return fmt.Errorf("pattern %d is cut %d times", i, x.Times)
		case new(big.Rat).Sub(rat(parent.Deckle), used).Cmp(rat(x.Trim)) != 0:
			return fmt.Errorf("pattern %d: trim %v", i, x.Trim)
		}
		seen[key] = true
		sets += x.Times
		stock[x.Parent] += x.Times
		sum(trimmed, x.Trim, x.Times)
		sum(deckle, parent.Deckle, x.Times)
	}
	if sets != p.Sets || trimmed.Cmp(rat(p.Trim)) != 0 || deckle.Cmp(rat(p.Deckle)) != 0 {
		return fmt.Errorf("totals %d sets, trim %v, deckle %v; the patterns have %d, %v, %v", p.Sets, p.Trim, p.Deckle, sets, trimmed, deckle)
	}
	for i, n := range stock {
		if most := j.Parents[i].Sets; most > 0 && n > most {
			return fmt.Errorf("%d sets of parent %d, want at most %d", n, i, most)
		}
	}
	left := map[int]int{}
	for _, l := range p.Left {
		left[l.Order] += l.Reels
	}
	for i, o := range j.Orders {
		least, most := bounds(o)
		n := p.Orders[i].Reels
		if n < least-left[i] || n > most {
			return fmt.Errorf("order %d: %d reels of %v, want %d to %d", i, n, o.Width, least, most)
		}
		if p.Orders[i].Over != n-o.Reels {
			return fmt.Errorf("order %d: %d over", i, p.Orders[i].Over)
		}
		made[o.Group+"|"+rat(o.Width).String()] -= n
	}
	for key, n := range made {
		if n != 0 {
			return fmt.Errorf("%s: %d reels belong to no order", key, n)
		}
	}
	for i, f := range j.Fillers {
		if f.Most > 0 && p.Fillers[i] > f.Most {
			return fmt.Errorf("%d reels of filler %d", p.Fillers[i], i)
		}
		fillers[rat(f.Width).String()] -= p.Fillers[i]
	}
	for key, n := range fillers {
		if n != 0 {
			return fmt.Errorf("filler %s: %d reels differ", key, n)
		}
	}
	return certified(j, p)
}

// certified checks the weights of a certificate: that no set the job allows is
// heavier than they say, by dynamic programming over widths in whole numbers,
// and that the sum gives the bound.
func certified(j *trim.Job, p *trim.Plan) error {
	c := &p.Certificate
	if c.Proven != (c.Value == c.Bound) || c.Bound > c.Value {
		return fmt.Errorf("value %d, bound %d, proven %v", c.Value, c.Bound, c.Proven)
	}
	if j.Aim == trim.FewestSets && c.Value != p.Sets || j.Aim == trim.LeastWidth && sum(new(big.Rat), c.Step, c.Value).Cmp(rat(p.Deckle)) != 0 {
		return fmt.Errorf("value %d in steps of %v, the plan takes %d sets and %v", c.Value, c.Step, p.Sets, p.Deckle)
	}
	total := 0
	for _, w := range c.Weights {
		kinds, err := kindsOf(j, w)
		if err != nil {
			return err
		}
		if err := heaviest(j, w, kinds); err != nil {
			return err
		}
		weight := new(big.Int)
		k := max(1, j.Slitter.SetMultiple)
		for _, x := range kinds {
			n := (x.least + k - 1) / k
			if x.value < 0 {
				n = x.upTo / k
			}
			weight.Add(weight, new(big.Int).Mul(big.NewInt(x.value), big.NewInt(int64(n))))
		}
		for i, spare := range w.Spare {
			weight.Sub(weight, new(big.Int).Mul(big.NewInt(spare), big.NewInt(int64(j.Parents[i].Sets/k))))
		}
		// ceil(weight / full)
		bound := new(big.Int).Sub(weight, big.NewInt(1))
		bound.Div(bound, big.NewInt(w.Full)).Add(bound, big.NewInt(1))
		bound.Mul(bound, big.NewInt(int64(k)))
		if w.Bound != 0 && bound.Cmp(big.NewInt(int64(w.Bound))) < 0 {
			return fmt.Errorf("weights prove %v, not %d", bound, w.Bound)
		}
		total += w.Bound
	}
	if c.Proof == trim.ByWeights && total < c.Bound {
		return fmt.Errorf("weights prove %d in all, not %d", total, c.Bound)
	}
	return nil
}

// A kind is all orders of one width and group.
type kind struct {
	group       string
	width       *big.Rat
	least, upTo int
	most        int // in a set
	value       int64
	units       int
}

func kindsOf(j *trim.Job, w trim.Weights) ([]kind, error) {
	var kinds []kind
	at := map[string]int{}
	for k, i := range w.Orders {
		o := j.Orders[i]
		least, most := bounds(o)
		key := o.Group + "|" + rat(o.Width).String() + "|" + strconv.Itoa(max(1, o.Sheets))
		n, ok := at[key]
		if !ok {
			n = len(kinds)
			at[key] = n
			kinds = append(kinds, kind{group: o.Group, width: rat(o.Width), value: w.Order[k], units: max(1, o.Sheets)})
		}
		kinds[n].least += least
		kinds[n].upTo += most
		if kinds[n].value != w.Order[k] {
			return nil, fmt.Errorf("order %d: another weight than its like", i)
		}
	}
	k := max(1, j.Slitter.SetMultiple)
	runs := max(1, (j.Slitter.LeastSets+k-1)/k)
	for n := range kinds {
		x := &kinds[n]
		x.most = x.upTo / k / runs
		if j.Slitter.LeastUsed == 0 && runs == 1 {
			x.most = (x.least + k - 1) / k // more is never needed: it may be trim
		}
	}
	return kinds, nil
}

// heaviest looks for a set that is heavier than the weights allow.
func heaviest(j *trim.Job, w trim.Weights, all []kind) error {
	byGroup := map[string][]kind{}
	for _, k := range all {
		byGroup[k.group] = append(byGroup[k.group], k)
	}
	for group, kinds := range byGroup {
		for _, f := range j.Fillers { // they count in what must be used
			if s := j.Slitter; s.LeastUsed > 0 && (f.Group == "" || f.Group == group) {
				kinds = append(kinds, kind{group: group, width: rat(f.Width), most: cmp.Or(f.Most, 1<<20), units: 1})
			}
		}
		for i, parent := range j.Parents {
			if k := max(1, j.Slitter.SetMultiple); parent.Sets > 0 && parent.Sets/k*k < max(k, j.Slitter.LeastSets) {
				continue // not good for the fewest runs
			}
			usable := new(big.Rat).Sub(rat(parent.Deckle), sum(new(big.Rat), parent.Edge, 2))
			// Whole numbers by a common denominator.
			scale := big.NewInt(1)
			for _, k := range kinds {
				scale = lcm(scale, k.width.Denom())
			}
			whole := func(r *big.Rat) int64 {
				n := new(big.Rat).Mul(r, new(big.Rat).SetInt(scale))
				return new(big.Int).Div(n.Num(), n.Denom()).Int64()
			}
			g := int64(0)
			for _, k := range kinds {
				g = gcd(g, whole(k.width))
			}
			capacity := whole(usable) / g
			reels := j.Slitter.MostReels
			if reels == 0 {
				reels = 1
				for _, k := range kinds {
					reels = max(reels, int(capacity/(whole(k.width)/g)))
				}
			}
			cost := big.NewInt(1)
			if j.Aim == trim.LeastWidth {
				q := new(big.Rat).Quo(rat(parent.Deckle), rat(mustStep(j)))
				cost = q.Num()
			}
			limit := new(big.Int).Mul(cost, big.NewInt(w.Full))
			if len(w.Spare) > 0 {
				limit.Add(limit, big.NewInt(w.Spare[i]))
			}
			if j.Slitter.MostWidths > 0 || j.Slitter.LeastUsed > 0 {
				most := cmp.Or(j.Slitter.MostWidths, len(kinds))
				full := new(big.Rat).Mul(rat(j.Slitter.LeastUsed), new(big.Rat).SetInt(scale))
				var deepest func(i, reels, widths int, room int64) int64
				deepest = func(i, reels, widths int, room int64) int64 {
					if i == len(kinds) || widths == 0 {
						if big.NewRat((capacity-room)*g, 1).Cmp(full) < 0 {
							return math.MinInt64 / 2
						}
						return 0
					}
					heaviest := deepest(i+1, reels, widths, room)
					for n := 1; n <= kinds[i].most; n++ {
						left := room - int64(n)*whole(kinds[i].width)/g
						if left < 0 {
							break
						}
						for r := (n + kinds[i].units - 1) / kinds[i].units; r <= min(n, reels); r++ {
							alike := 1 // widths
							if n%r > 0 {
								alike = 2
							}
							if alike <= widths {
								heaviest = max(heaviest, int64(n)*kinds[i].value+deepest(i+1, reels-r, widths-alike, left))
							}
						}
					}
					return heaviest
				}
				if v := deepest(0, reels, most, capacity); limit.Cmp(big.NewInt(v)) < 0 {
					return fmt.Errorf("a set of parent %d weighs %d, above %v", i, v, limit)
				}
				continue
			}
			if capacity*int64(reels) > 5e6 {
				continue // too large to check so
			}
			// best[r][c]: heaviest with r reels in c.
			best := make([][]int64, reels+1)
			for r := range best {
				best[r] = make([]int64, capacity+1)
			}
			for _, k := range kinds {
				width := whole(k.width) / g
				for r := reels; r >= 1; r-- {
					for n := 1; n <= min(k.most, r*k.units); n++ {
						before := best[r-(n+k.units-1)/k.units]
						for c := capacity; c >= width*int64(n); c-- {
							best[r][c] = max(best[r][c], before[c-width*int64(n)]+k.value*int64(n))
						}
					}
				}
			}
			if limit.Cmp(big.NewInt(best[reels][capacity])) < 0 {
				return fmt.Errorf("a set of parent %d weighs %d, above %v", i, best[reels][capacity], limit)
			}
		}
	}
	return nil
}

// mustStep is the step of costs: the greatest common measure of the deckles.
func mustStep(j *trim.Job) paperprop.Length {
	g := int64(0)
	for _, p := range j.Parents {
		n := new(big.Rat).Mul(rat(p.Deckle), big.NewRat(1e6, 1))
		g = gcd(g, n.Num().Int64())
	}
	return paperprop.Length(float64(g) / 1e6)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func lcm(a, b *big.Int) *big.Int {
	g := new(big.Int).GCD(nil, nil, a, b)
	return new(big.Int).Mul(a, new(big.Int).Quo(b, g))
}
