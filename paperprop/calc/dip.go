package calc

import "math"

// Limits of the search in a dip. Chosen here.
const (
	// A dip that is shallower than this part of the distance left is rounding, or a bend
	// that ends far from the wanted output.
	shallow = 1e-3
	// Each step leaves 0.618 of the dip: as many as a float64 can tell apart.
	dipSteps = 80
	// A dip between the edge of a refused stretch and the next point of the search is found
	// if the output goes towards what is wanted over this part of the way.
	besideEdge = 1e-3
)

// dipAt looks for a dip between the edge of a refused stretch and its neighbour.
func (f *searcher) dipAt(edge, neighbour probe) {
	x := edge.x + besideEdge*(neighbour.x-edge.x)
	if x == edge.x || x == neighbour.x {
		return
	}
	middle := f.probe(x)
	if edge.x < neighbour.x {
		f.dip(edge, middle, neighbour)
	} else {
		f.dip(neighbour, middle, edge)
	}
}

// dip looks for roots where the output turns back between three neighbouring points of
// the search: two that lie closer together than these, or the one where it only touches
// what is wanted. Neither changes the sign from point to point.
func (f *searcher) dip(a, b, c probe) {
	if a.refused || b.refused || c.refused || f.gear != nil && a.count != c.count || f.believes(b) {
		return
	}
	side := math.Copysign(1, b.miss)
	left := func(p probe) float64 { return side * p.miss }
	if left(b) >= left(a) || left(b) > left(c) || max(left(a), left(c))-left(b) <= shallow*left(b) {
		return
	}
	for range dipSteps {
		x := golden(a.x, b.x, c.x)
		if x == b.x {
			break
		}
		p := f.probe(x)
		switch before := x < b.x; {
		case p.refused:
			return
		case left(p) < left(b) && before:
			b, c = p, b
		case left(p) < left(b):
			a, b = b, p
		case before:
			a = p
		default:
			c = p
		}
		if left(b) < 0 {
			break
		}
	}
	last := f.last
	f.last = probe{refused: true} // these are not in the order of the search
	f.crossing(a, b)
	f.consider(b)
	f.crossing(b, c)
	f.last = last
}

// golden returns the point that parts the larger side of the middle by the golden section.
func golden(low, middle, high float64) float64 {
	const part = 0.381966011250105 // 2 less the golden ratio
	if middle-low > high-middle {
		return middle - part*(middle-low)
	}
	return middle + part*(high-middle)
}
