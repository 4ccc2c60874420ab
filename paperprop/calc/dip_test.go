package calc

import (
	"fmt"
	"math"
	"testing"
)

// Two roots beside a refused stretch are found as two elsewhere are, whether the point of
// the search next to its edge lies beyond them, between them or before them. The grid here
// has points at each 0.005 mm. Kind: common-practice, zeros known by hand.
func TestRootsInADipBesideAnEdge(t *testing.T) {
	for _, edge := range []float64{4.0001, 4.0024, 4.0049} {
		for _, first := range []float64{2e-5, 2e-4, 1.1e-3, 3e-3, 6e-3, 9e-3} {
			for _, apart := range []float64{2e-5, 2e-4, 2e-3} {
				for _, side := range []float64{1, -1} {
					a, b := edge+side*first, edge+side*(first+apart)
					low, high := edge, 10.0
					if side < 0 {
						low, high = 0, edge
					}
					for name, of := range map[string]func(x float64) float64{
						"curve": func(x float64) float64 { return 1 + 1e4*(x-a)*(x-b) },
						"kink":  func(x float64) float64 { return 1 + math.Abs(x-(a+b)/2) - apart/2 },
						"hump":  func(x float64) float64 { return 1 - 1e4*(x-a)*(x-b) },
					} {
						s := drawn(closed, refusedFrom(low, high, of))
						err := setAll(s, "y=1")
						ok := err == nil && len(s.Roots) == 2
						if ok {
							found := [2]float64{s.Roots[0].Low, s.Roots[1].Low}
							ok = math.Abs(found[0]-min(a, b)) < 1e-7 && math.Abs(found[1]-max(a, b)) < 1e-7
						}
						if !ok {
							t.Errorf("%s beside an edge at %v: roots %v, %v, want %v and %v", name, edge, fmt.Sprint(s.Roots), err, min(a, b), max(a, b))
						}
					}
				}
			}
		}
	}
}
