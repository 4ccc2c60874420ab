package calc

import (
	"math"
	"slices"
	"testing"
)

// The numbers drawn are normal, tails included: the greatest distance between
// their distribution and the normal one is what Kolmogorov's test leaves open
// at 0.1 % (memory: 1.95/√n).
func TestNormalsAreNormal(t *testing.T) {
	const n = 2_000_000
	x := make([]float64, n)
	g := newGenerator(11, 12)
	g.normals(normalLayers(), x, 0, 1)
	slices.Sort(x)
	worst := 0.0
	for i, v := range x {
		p := 0.5 * math.Erfc(-v/math.Sqrt2)
		worst = max(worst, math.Abs(p-float64(i)/n), math.Abs(p-float64(i+1)/n))
	}
	if limit := 1.95 / math.Sqrt(n); worst > limit {
		t.Errorf("distance %v, want at most %v", worst, limit)
	}
	// Beyond the last layer of the ziggurat lie 2·(1 − Φ(3.654)) of all: 516 of
	// two million, with a standard deviation of 23.
	beyond := 0
	for _, v := range x {
		if math.Abs(v) > tail {
			beyond++
		}
	}
	if want := n * math.Erfc(tail/math.Sqrt2); !(math.Abs(float64(beyond)-want) <= 4*math.Sqrt(want)) {
		t.Errorf("%d lie in the tail, want about %.0f", beyond, want)
	}
}

// Blocks next to each other, and seeds, have nothing in common.
func TestBlocksDiffer(t *testing.T) {
	seen := map[uint64]bool{}
	for seed := range uint64(50) {
		for block := range uint64(50) {
			first := newGenerator(seed, block).next()
			if seen[first] {
				t.Fatalf("seed %d, block %d begins as another one", seed, block)
			}
			seen[first] = true
		}
	}
}
