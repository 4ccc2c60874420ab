package calc

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// MonteCarlo propagates distributions by drawing from them (JCGM 101:2008).
type MonteCarlo struct {
	Draws   int
	Seed    uint64
	Workers int // 0: as many as there are processors; the answer is the same
}

// A Sample is what the draws say of one output.
type Sample struct {
	Cell           *Cell
	Mean, Standard float64
	Low, High      float64 // 2.5 % and 97.5 % points
	Refused        int     // draws that the calculation did not take
	first          Uncertainty
	estimate       float64
	draws          int
}

// blockDraws is the work that has a seed of its own, so that the answer does
// not depend on who draws which block.
const blockDraws = 4096

// maxDraws bounds memory: each draw keeps eight bytes an output.
const maxDraws = 50_000_000

// Run draws. The sheet must have run and have an uncertain input.
func (mc MonteCarlo) Run(ctx context.Context, s *Sheet) ([]Sample, error) {
	if mc.Draws < 100 || mc.Draws > maxDraws {
		return nil, fmt.Errorf("%d draws, want 100 to %d", mc.Draws, maxDraws)
	}
	if len(s.variables()) == 0 {
		return nil, errors.New("nothing to draw: no input has an uncertainty")
	}
	first, err := s.Uncertainties()
	if err != nil {
		return nil, err
	}
	kept, refused, err := mc.draw(ctx, s, len(first))
	if err != nil {
		return nil, err
	}
	if mc.Draws-refused < mc.Draws/2 {
		return nil, fmt.Errorf("%d of %d draws were refused: the inputs are too uncertain for their ranges", refused, mc.Draws)
	}
	estimates := s.results(nil)
	samples := make([]Sample, len(first))
	var group sync.WaitGroup
	for i := range first {
		group.Add(1)
		go func() {
			defer group.Done()
			samples[i] = summarise(kept[i])
			samples[i].Cell, samples[i].Refused = first[i].Cell, refused
			samples[i].first, samples[i].estimate = first[i], estimates[i]
		}()
	}
	group.Wait()
	return samples, nil
}

// draw fills a column of draws for each of the n results.
func (mc MonteCarlo) draw(ctx context.Context, s *Sheet, n int) (kept [][]float64, refused int, err error) {
	kept = make([][]float64, n)
	for i := range kept {
		kept[i] = make([]float64, mc.Draws)
	}
	blocks := (mc.Draws + blockDraws - 1) / blockDraws
	counts := make([]int, blocks) // draws kept of each block
	workers := mc.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var next atomic.Int64
	var group sync.WaitGroup
	for range min(workers, blocks) {
		copied := s.clone()
		group.Add(1)
		go func() {
			defer group.Done()
			d := newDrawer(copied, n)
			for {
				b := int(next.Add(1)) - 1
				if b >= blocks || ctx.Err() != nil {
					return
				}
				counts[b] = d.block(mc.Seed, uint64(b), kept, b*blockDraws, min(blockDraws, mc.Draws-b*blockDraws))
			}
		}()
	}
	group.Wait()
	if err := ctx.Err(); err != nil {
		return nil, 0, err
	}
	// Close the gaps that refused draws left, in order.
	total := 0
	for b, count := range counts {
		for i := range kept {
			copy(kept[i][total:], kept[i][b*blockDraws:b*blockDraws+count])
		}
		total += count
	}
	for i := range kept {
		kept[i] = kept[i][:total]
	}
	return kept, mc.Draws - total, nil
}

// clone is another sheet with the same inputs, values and uncertainties.
func (s *Sheet) clone() *Sheet {
	c := s.fresh()
	for i, in := range s.In {
		to := c.In[i]
		to.given, to.text, to.unit = in.given, in.text, in.unit
		to.raw, to.uncertain = slices.Clone(in.raw), slices.Clone(in.uncertain)
		switch {
		case in.number != nil:
			*to.number = *in.number
		case in.Shape == Word:
			to.bound.setWord(in.bound.word())
		default:
			to.bound.set(in.Numbers())
		}
	}
	return c
}

// A drawer draws on a sheet of its own.
type drawer struct {
	s       *Sheet
	vs      []variable
	centres [][]float64
	y       []float64
}

func newDrawer(s *Sheet, n int) *drawer {
	d := &drawer{s: s, vs: s.variables(), y: make([]float64, 0, n)}
	for _, v := range d.vs {
		d.centres = append(d.centres, v.values())
	}
	return d
}

func (d *drawer) block(seed, block uint64, kept [][]float64, at, n int) (count int) {
	source := rand.NewPCG(seed, block)
	random := rand.New(source)
	for range n {
		for i := range d.vs {
			v := &d.vs[i]
			t := v.u.Distribution.draw(random)
			if m := &v.of[0]; len(v.of) == 1 && m.cell.number != nil {
				*m.cell.number = d.centres[i][0] + t*m.scale
			} else {
				v.move(d.centres[i], t)
			}
		}
		if d.s.evaluate() != nil {
			continue
		}
		if d.y = d.s.results(d.y[:0]); len(d.y) != len(kept) {
			continue
		}
		for i, y := range d.y {
			kept[i][at+count] = y
		}
		count++
	}
	return count
}

// draw returns a value of the distribution with mean 0 and standard deviation 1.
func (d Distribution) draw(r *rand.Rand) float64 {
	switch d {
	case Rectangular:
		return (2*r.Float64() - 1) * sqrt3
	case Triangular:
		return (r.Float64() + r.Float64() - 1) * sqrt6
	case Arcsine:
		return math.Sin(math.Pi*(r.Float64()-0.5)) * math.Sqrt2
	}
	return r.NormFloat64()
}

// summarise reorders x.
func summarise(x []float64) Sample {
	n := float64(len(x))
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	mean := sum / n
	var squares, rest float64
	for _, v := range x {
		d := v - mean
		squares += d * d
		rest += d
	}
	low, high := point(x, 0.025), point(x, 0.975)
	return Sample{
		Mean: mean + rest/n, Standard: math.Sqrt((squares - rest*rest/n) / (n - 1)),
		Low: low, High: high, draws: len(x),
	}
}

// point is the p-quantile by selection: x is reordered, not sorted.
func point(x []float64, p float64) float64 {
	k := int(math.Ceil(p*float64(len(x)))) - 1
	lo, hi := 0, len(x)-1
	for lo < hi {
		pivot := median3(x[lo], x[lo+(hi-lo)/2], x[hi])
		i, j := lo, hi
		for i <= j {
			for x[i] < pivot {
				i++
			}
			for x[j] > pivot {
				j--
			}
			if i <= j {
				x[i], x[j] = x[j], x[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return x[k]
		}
	}
	return x[k]
}

func median3(a, b, c float64) float64 {
	return max(min(a, b), min(max(a, b), c))
}

// Agrees compares the sample with first order as JCGM 101:2008, 8.1 does: the
// ends of the 95 % intervals may lie half a unit of the second digit of the
// standard uncertainty apart, beside what the number of draws leaves open.
func (m Sample) Agrees() bool {
	u := m.first.Standard
	if u == 0 {
		return m.Standard <= 1e-12*math.Abs(m.estimate)
	}
	tolerance := 0.5 * math.Pow(10, math.Floor(math.Log10(u))-1)
	noise := 3 * 2.67 * u / math.Sqrt(float64(m.draws))
	const k = 1.959963984540054 // normal, 97.5 %
	return math.Abs(m.estimate-k*u-m.Low) <= tolerance+noise && math.Abs(m.estimate+k*u-m.High) <= tolerance+noise
}

// FirstOrderDiffers warns that draws and first order do not agree.
var FirstOrderDiffers = &Warning{"first-order-differs", "the uncertainty by first order differs from that of the draws: " +
	"the calculation bends within the uncertainty; take the draws"}
