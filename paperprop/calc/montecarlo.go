package calc

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"millmaths.example/paperprop/calc/uncertainty"
	"millmaths.example/paperprop/internal/wording"
)

// MonteCarlo propagates distributions by random draws (JCGM 101:2008).
type MonteCarlo struct {
	Draws   int
	Seed    uint64
	Workers int // 0: one for each processor; the result does not depend on it
}

// A Sample is the distribution of one output over the draws.
type Sample struct {
	Cell           *Cell
	Mean, Standard float64
	Low, High      float64 // 2.5 % and 97.5 % points
	Refused        int     // number of draws that the calculation refused
	Outside        int     // number of values outside the range of their input in the draws that were used
	first          Uncertainty
	estimate       float64
	draws          int
}

// blockDraws is the number of draws with a seed of their own, so that the result does
// not depend on which worker draws which block. The numbers of one block of a typical
// calculation fit into the cache nearest to the processor.
const blockDraws = 512

// pilotBlocks is the number of blocks that set the gates: the more, the fewer draws are
// kept.
const pilotBlocks = 16

// maxDraws limits time and memory: about one draw in twenty is kept.
const maxDraws = 50_000_000

// Run makes the draws and returns a sample of each number among the results. The sheet
// must have run and have an uncertain input. Run refuses correlated inputs and a sheet
// with an input that was solved for: [Sheet.Uncertainties] handles both, and the tool
// propagate draws correlated inputs of a formula.
func (mc MonteCarlo) Run(ctx context.Context, s *Sheet) ([]Sample, error) {
	if mc.Draws < 100 || mc.Draws > maxDraws {
		return nil, fmt.Errorf("%s, want 100 to %d", wording.Count(mc.Draws, "draw"), maxDraws)
	}
	if len(s.Roots) > 0 {
		return nil, fmt.Errorf("%s was solved for, and draws compute forward alone: see its uncertainty of first order", s.Roots[0].Input.Name)
	}
	if len(s.variables()) == 0 {
		return nil, errors.New("nothing to draw: no input has an uncertainty")
	}
	if correlated := s.correlated(); len(correlated) > 0 {
		return nil, fmt.Errorf("draws take independent inputs, and %s and %s are correlated: first order takes that into account", correlated[0].a, correlated[0].b)
	}
	first, err := s.Uncertainties()
	if err != nil {
		return nil, err
	}
	estimates := s.results(nil)
	if len(estimates) == 0 {
		return nil, errors.New("nothing to draw for: no result is a number")
	}
	samples, err := mc.sample(ctx, s, estimates)
	for i := range samples {
		samples[i].Cell, samples[i].first, samples[i].estimate = first[i].Cell, first[i], estimates[i]
		if samples[i].Standard < uncertainty.Negligible*math.Abs(estimates[i]) {
			samples[i].Standard = 0 // only rounding of the results
		}
	}
	return samples, err
}

// sample draws with the gates that the pilot blocks set. If a wanted point turns out to
// lie outside its gate, it draws again and keeps everything.
func (mc MonteCarlo) sample(ctx context.Context, s *Sheet, estimates []float64) ([]Sample, error) {
	gates := openGates(len(estimates))
	if mc.Draws > 4*pilotBlocks*blockDraws {
		gates = mc.pilot(s, estimates)
	}
	for {
		drawers, blocks, err := mc.draw(ctx, s, estimates, gates)
		if err != nil {
			return nil, err
		}
		if samples, ok := summarise(drawers, blocks, estimates); ok {
			for i := range samples {
				samples[i].Refused = mc.Draws - samples[i].draws
			}
			if refused := samples[0].Refused; refused > mc.Draws/2 {
				return nil, fmt.Errorf("%d of %d draws were refused: the inputs are too uncertain for their ranges", refused, mc.Draws)
			}
			return samples, nil
		}
		gates = openGates(len(estimates))
	}
}

// draw distributes the blocks over the workers.
func (mc MonteCarlo) draw(ctx context.Context, s *Sheet, estimates []float64, gates []gates) ([]*drawer, []block, error) {
	blocks := make([]block, (mc.Draws+blockDraws-1)/blockDraws)
	workers := mc.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	drawers := make([]*drawer, min(workers, len(blocks)))
	var next atomic.Int64
	var group sync.WaitGroup
	for w := range drawers {
		group.Go(func() {
			d := newDrawer(s, estimates, gates)
			d.expect(mc.Draws / len(drawers))
			drawers[w] = d
			for {
				b := int(next.Add(1)) - 1
				if b >= len(blocks) || ctx.Err() != nil {
					return
				}
				blocks[b] = d.draw(mc.Seed, uint64(b), min(blockDraws, mc.Draws-b*blockDraws))
			}
		})
	}
	group.Wait()
	return drawers, blocks, ctx.Err()
}

// points are the ends of the interval, as fractions of the draws.
var points = [2]float64{0.025, 0.975}

// gates say which draws of a result are kept: those near the two points. The others are
// only counted.
type gates [2]struct{ low, high float64 }

func openGates(n int) []gates {
	all := make([]gates, n)
	for i := range all {
		for k := range points {
			all[i][k].low, all[i][k].high = math.Inf(-1), math.Inf(1)
		}
	}
	return all
}

// pilot sets the gates to four standard deviations around the points of the first
// blocks.
func (mc MonteCarlo) pilot(s *Sheet, estimates []float64) []gates {
	set := openGates(len(estimates))
	d := newDrawer(s, estimates, set)
	drawn := make([][]float64, len(set))
	for i := range drawn {
		drawn[i] = make([]float64, 0, pilotBlocks*blockDraws)
	}
	for b := range uint64(pilotBlocks) {
		count := d.fill(mc.Seed, b, blockDraws).count
		for i, column := range d.columns {
			drawn[i] = append(drawn[i], column[:count]...)
		}
	}
	for i, x := range drawn {
		n := float64(len(x))
		for k, p := range points {
			at, wide := p*n, 4*math.Sqrt(p*(1-p)*n)
			if at > wide {
				set[i][k].low = selected(x, int(at-wide))
			}
			if at+wide < n {
				set[i][k].high = selected(x, int(at+wide))
			}
		}
	}
	return set
}

// clone returns a second sheet with the same inputs, values and uncertainties.
func (s *Sheet) clone() *Sheet {
	c := s.of.NewSheet()
	for i, in := range s.In {
		to := c.In[i]
		to.given, to.plain, to.text, to.unit = in.given, in.plain, in.text, in.unit
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
	s         *Sheet
	plain     []plainVariable
	moved     []movedVariable
	of        shape         // of the results at the estimates
	results   []plainResult // empty if some result is not a plain number
	estimates []float64
	gates     []gates
	y         []float64
	columns   [][]float64    // results of one block
	bounded   bool           // some value can be drawn outside the range of its input
	beyond    []int          // of each row of the columns: the number of values drawn outside
	kept      [][2][]float64 // kept draws of all blocks, in any order
	below     [][2]int       // number of draws below the gates
}

// A plainVariable is one plain number with its values in one block.
type plainVariable struct {
	place  *float64
	drawn  []float64
	from   Distribution
	centre float64
	scale  float64
	bounds *guard // nil if no draw can lie outside
}

// A movedVariable is shared by several numbers, or is a member of a list.
type movedVariable struct {
	variable
	centres []float64
	drawn   []float64 // in standard uncertainties
	bounds  []*guard  // of each number; nil if no draw can lie outside
}

// A plainResult is one number with its values in one block.
type plainResult struct {
	place  *float64
	column []float64
}

// A block holds what must be added up in order, so that the last digits do not depend
// on the workers.
type block struct {
	count   int
	outside int
	moments []moments
}

// moments are sums over the differences from the estimate.
type moments struct{ sum, squares float64 }

// newDrawer returns a drawer on a copy of a sheet that has run.
func newDrawer(of *Sheet, estimates []float64, g []gates) *drawer {
	s, n := of.clone(), len(estimates)
	d := &drawer{
		s: s, of: of.shape(), estimates: estimates, gates: g, y: make([]float64, 0, n),
		columns: make([][]float64, n), kept: make([][2][]float64, n), below: make([][2]int, n),
		beyond: make([]int, blockDraws),
	}
	for _, v := range s.variables() {
		drawn := make([]float64, blockDraws)
		bounds := s.bounds(v)
		d.bounded = d.bounded || slices.ContainsFunc(bounds, func(g *guard) bool { return g != nil })
		if place := v.of[0].cell.number; len(v.of) == 1 && place != nil {
			d.plain = append(d.plain, plainVariable{place, drawn, v.u.Distribution, *place, v.of[0].scale, bounds[0]})
		} else {
			d.moved = append(d.moved, movedVariable{v, v.values(), drawn, bounds})
		}
	}
	absent := slices.ContainsFunc(s.plain, func(c *Cell) bool { return !c.present() })
	for i := range d.columns {
		d.columns[i] = make([]float64, blockDraws)
		if len(s.numbers) == n && !absent { // each result is one number
			d.results = append(d.results, plainResult{s.numbers[i], d.columns[i]})
		}
	}
	return d
}

// expect reserves space for the draws that the gates let through, of about n.
func (d *drawer) expect(n int) {
	for i, g := range d.gates {
		for k, p := range points {
			share := 10 * math.Sqrt(p*(1-p)/(pilotBlocks*blockDraws)) // the width of the gates, and a little more
			if math.IsInf(g[k].low, 0) || math.IsInf(g[k].high, 0) {
				share = 1
			}
			d.kept[i][k] = make([]float64, 0, int(share*float64(n)))
		}
	}
}

// farthest is how many standard deviations from its mean a draw can lie: that of the
// smallest uniform number in the tail of the normal distribution.
const farthest = 14

// bounds returns for each number of a variable the range of its input, nil if no draw can
// lie outside.
func (s *Sheet) bounds(v variable) []*guard {
	bounds := make([]*guard, len(v.of))
	for i, m := range v.of {
		g, x := &s.guards[m.cell.index], m.value()
		if !g.takes(x-farthest*m.scale) || !g.takes(x+farthest*m.scale) {
			bounds[i] = g
		}
	}
	return bounds
}

// leaves reports whether x lies outside the range, where there is one.
func (g *guard) leaves(x float64) bool { return g != nil && (x < g.low || x > g.high) }

// outside returns how many of the values just drawn lie outside the range of their
// input.
func (d *drawer) outside() (n int) {
	for i := range d.plain {
		if p := &d.plain[i]; p.bounds.leaves(*p.place) {
			n++
		}
	}
	for i := range d.moved {
		for k, m := range d.moved[i].of {
			if d.moved[i].bounds[k].leaves(m.value()) {
				n++
			}
		}
	}
	return n
}

func (d *drawer) draw(seed, number uint64, n int) block {
	b := d.fill(seed, number, n)
	for i := range d.columns {
		d.sift(i, b.count)
	}
	return b
}

// fill fills the columns with the results of one block.
func (d *drawer) fill(seed, number uint64, n int) block {
	random := newGenerator(seed, number)
	b := block{moments: make([]moments, len(d.columns))}
	for i := range d.plain {
		p := &d.plain[i]
		p.from.fill(random, p.drawn[:n], p.centre, p.scale)
	}
	for _, v := range d.moved {
		v.u.Distribution.fill(random, v.drawn[:n], 0, 1)
	}
	b.count = d.compute(n)
	if !d.sum(b) {
		b.count = d.onlyFinite(b.count)
		d.sum(b)
	}
	if d.bounded {
		for _, n := range d.beyond[:b.count] {
			b.outside += n
		}
	}
	return b
}

// compute computes the drawn values, stores the results that are not refused in the
// columns, and returns their number.
func (d *drawer) compute(n int) (count int) {
	plain, results, compute := d.plain, d.results, d.s.compute
	for k := range n {
		for i := range plain {
			v := &plain[i]
			*v.place = v.drawn[k]
		}
		for i := range d.moved {
			v := &d.moved[i]
			v.move(v.centres, v.drawn[k])
		}
		if compute() != nil {
			continue
		}
		for i := range results {
			r := &results[i]
			r.column[count] = *r.place
		}
		if len(results) == 0 && !d.record(count) {
			continue
		}
		if d.bounded {
			d.beyond[count] = d.outside()
		}
		count++
	}
	return count
}

// record stores results that are not all plain numbers in a row of the columns. It
// reports false if one is missing that the estimates have.
func (d *drawer) record(row int) bool {
	var ok bool
	if d.y, ok = d.s.resultsAs(d.of, d.y[:0]); !ok {
		return false
	}
	for i, y := range d.y {
		d.columns[i][row] = y
	}
	return true
}

// sum adds up the moments of a block and reports whether they are finite.
func (d *drawer) sum(b block) bool {
	total := 0.0
	for i, column := range d.columns {
		var m moments
		estimate := d.estimates[i]
		for _, y := range column[:b.count] {
			off := y - estimate
			m.sum += off
			m.squares += off * off
		}
		b.moments[i] = m
		total += m.squares
	}
	return total-total == 0
}

// onlyFinite removes the rows in which a result is not finite, and returns how many are
// left.
func (d *drawer) onlyFinite(count int) (left int) {
	for row := range count {
		finite := true
		for _, column := range d.columns {
			y := column[row]
			finite = finite && y-y == 0
			column[left] = y
		}
		d.beyond[left] = d.beyond[row]
		if finite {
			left++
		}
	}
	return left
}

// sift keeps or counts the draws of one result. Most lie between the gates by more than
// rounding; the others are moved to the front of the column without a branch, which no
// processor could predict.
func (d *drawer) sift(i, count int) {
	g, column := d.gates[i], d.columns[i][:count]
	kept, below := &d.kept[i], &d.below[i]
	middle := (g[0].high + g[1].low) / 2
	reach := (g[1].low-g[0].high)/2 - 1e-12*math.Abs(middle)
	n := 0
	for _, y := range column {
		column[n] = y
		if !(math.Abs(y-middle) < reach) {
			n++
		}
	}
	for _, y := range column[:n] {
		for k := range g {
			if y < g[k].low {
				below[k]++
			} else if y <= g[k].high {
				kept[k] = append(kept[k], y)
			}
		}
	}
	below[1] += count - n
}

// summarise combines the draws of the workers. It reports false if a point was not
// among the draws that were kept.
func summarise(drawers []*drawer, blocks []block, estimates []float64) ([]Sample, bool) {
	count, outside := 0, 0
	for _, b := range blocks {
		count += b.count
		outside += b.outside
	}
	samples := make([]Sample, len(estimates))
	var missed atomic.Bool
	var group sync.WaitGroup
	for i := range samples {
		group.Go(func() {
			var m moments
			for _, b := range blocks {
				m.sum += b.moments[i].sum
				m.squares += b.moments[i].squares
			}
			n := float64(count)
			var ends [2]float64
			for k, p := range points {
				var ok bool
				if ends[k], ok = point(drawers, i, k, int(math.Ceil(p*n))-1); !ok && count > 0 {
					missed.Store(true)
				}
			}
			samples[i] = Sample{
				Mean: estimates[i] + m.sum/n, Standard: math.Sqrt(max(0, m.squares-m.sum*m.sum/n) / (n - 1)),
				Low: ends[0], High: ends[1], draws: count, Outside: outside,
			}
		})
	}
	group.Wait()
	return samples, !missed.Load()
}

// point returns the draw of a rank, if it was kept.
func point(drawers []*drawer, i, k, rank int) (float64, bool) {
	parts := make([][]float64, len(drawers))
	for w, d := range drawers {
		rank -= d.below[i][k]
		parts[w] = d.kept[i][k]
	}
	kept := slices.Concat(parts...)
	if rank < 0 || rank >= len(kept) {
		return 0, false
	}
	return selected(kept, rank), true
}

// selected returns the member of x that would be at index k if x were sorted. It
// reorders x.
func selected(x []float64, k int) float64 {
	lo, hi := 0, len(x)-1
	for lo < hi {
		pivot := x[lo+(hi-lo)/2]
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

// fill draws from the distribution with the given mean and standard deviation.
func (d Distribution) fill(g *generator, x []float64, mean, deviation float64) {
	if d == Normal {
		g.normals(normalLayers(), x, mean, deviation)
		return
	}
	for i := range x {
		var t float64
		switch d {
		case Rectangular:
			t = (2*g.uniform() - 1) * sqrt3
		case Triangular:
			t = (g.uniform() + g.uniform() - 1) * sqrt6
		default:
			t = math.Sin(math.Pi*(g.uniform()-0.5)) * math.Sqrt2
		}
		x[i] = mean + t*deviation
	}
}

// Agrees compares the sample with first order as in JCGM 101:2008, 8.1: the ends of the
// 95 % intervals may differ by half a unit of the second digit of the standard
// uncertainty, plus what the number of draws leaves uncertain.
func (m Sample) Agrees() bool {
	u := m.first.Standard
	switch {
	case m.Cell.Stepped:
		return true // there is nothing to agree with
	case u == 0:
		return m.Standard <= 1e-12*math.Abs(m.estimate)
	}
	tolerance := 0.5 * math.Pow(10, math.Floor(math.Log10(u))-1)
	noise := 3 * 2.67 * u / math.Sqrt(float64(m.draws))
	const k = 1.959963984540054 // normal, 97.5 %
	return math.Abs(m.estimate-k*u-m.Low) <= tolerance+noise && math.Abs(m.estimate+k*u-m.High) <= tolerance+noise
}
