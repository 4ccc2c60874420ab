package calc

import "math"

// mostTeeth is how many teeth of a saw are looked at between two points of the search. Of a
// finer saw some roots are told, and that there can be more.
const mostTeeth = 3

// fewRoots is the most roots of an output without teeth. One that comes back more often
// has steps finer than the search.
const fewRoots = 5

// geared returns the count with which the wanted output jumps, as what is left on a spool
// does with the whole sets; nil if there is none. Between two jumps it is smooth.
func (f *searcher) geared(grid []float64) *Cell {
	for _, c := range f.s.Out {
		if c != f.target && c.Whole && c.number != nil && f.jumpsWith(c, grid) {
			return c
		}
	}
	return nil
}

// jumpsWith reports whether the wanted output jumps where a count first changes.
func (f *searcher) jumpsWith(count *Cell, grid []float64) bool {
	f.gear = count
	before := probe{refused: true}
	for _, x := range grid {
		p := f.probe(x)
		if !before.refused && !p.refused && p.count != before.count {
			if low, high := f.jump(before, p); !high.refused {
				return !f.still(min(low.miss, high.miss), max(low.miss, high.miss))
			}
		}
		before = p
	}
	return false
}

// jump returns the last point with the count of a on the way to b, which has another, and
// the next point, which may be refused.
func (f *searcher) jump(a, b probe) (last, next probe) {
	for {
		x := a.x + (b.x-a.x)/2
		if x == a.x || x == b.x {
			return a, b
		}
		if p := f.probe(x); !p.refused && p.count == a.count {
			a = p
		} else {
			b = p
		}
	}
}

// teeth looks for roots between two neighbouring points of the search, tooth by tooth.
func (f *searcher) teeth(a, b probe) {
	if f.gear == nil || a.count == b.count {
		f.crossing(a, b)
		return
	}
	fine := math.Abs(b.count-a.count) > mostTeeth
	if fine && (f.more || !f.passedByJump(a, b)) {
		f.crossing(a, b)
		return
	}
	f.more = f.more || fine
	for tooth := 0; tooth < mostTeeth && a.count != b.count; tooth++ {
		last, next := f.jump(a, b)
		f.tooth(a, last)
		if next.refused {
			f.between(next, b)
			return
		}
		a = next
	}
	f.tooth(a, b)
}

// passedByJump reports whether the first or the last jump between two points passes by the
// wanted output, so that the teeth between them meet it.
func (f *searcher) passedByJump(a, b probe) bool {
	for _, ends := range [...][2]probe{{a, b}, {b, a}} {
		last, next := f.jump(ends[0], ends[1])
		if !next.refused && (last.miss == 0 || next.miss == 0 || last.miss < 0 != (next.miss < 0)) {
			return true
		}
	}
	return false
}

// tooth looks for roots on one tooth. An end of it is a root if the output is exact there,
// or stands still from end to end. Otherwise what is nearly met is the point of a tooth:
// past pieces of 1000 m, which leave nothing of 11 000 m, those of a hair more leave all but
// 1000 m.
func (f *searcher) tooth(a, b probe) {
	still := f.believes(a) && f.believes(b)
	if still || a.miss == 0 {
		f.consider(a)
	}
	f.crossing(a, b)
	if still || b.miss == 0 {
		f.consider(b)
	}
}

// crossing looks for a root between two points that no jump parts.
func (f *searcher) crossing(a, b probe) {
	if a.miss < 0 != (b.miss < 0) {
		f.consider(f.bisect(a, b))
	}
}
