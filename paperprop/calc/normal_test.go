package calc

import (
	"math"
	"slices"
	"testing"
)

// The numbers drawn are normal, tails included: the greatest distance between
// their distribution and the normal one is what Kolmogorov's test leaves open.
func TestNormalsAreNormal(t *testing.T) {
	const n = 2_000_000
	x := make([]float64, n)
	g := newGenerator(11, 12)
	g.normals(normalLayers(), x, 0, 1)
	distributed(t, "normals", x, func(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) })
	// Beyond the last layer of the ziggurat lie 2·(1 − Φ(4.039)) of all: 107 of
	// two million, with a standard deviation of 10.
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

// The generator is the one its comment names, by known answers (memory: the authors'
// reference code from the state 1, 2, 3, 4; SplitMix64 from the seed 1234567). The
// first is rotl(1 + 4, 23) + 1 by hand.
func TestGeneratorKnownAnswers(t *testing.T) {
	g := &generator{1, 2, 3, 4}
	for i, want := range []uint64{41943041, 58720359, 3588806011781223, 3591011842654386, 9228616714210784205, 9973669472204895162} {
		if got := g.next(); got != want {
			t.Errorf("number %d is %d, want %d", i+1, got, want)
		}
	}
	// The block before the first leaves the seed as it is.
	want := generator{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431}
	if got := *newGenerator(1234567, math.MaxUint64); got != want {
		t.Errorf("the state is %v, want %v", got, want)
	}
}

// The least and the greatest uniform number are half a step from 0 and from 1.
func TestUniformEnds(t *testing.T) {
	if got := (&generator{}).uniform(); got != 0x1p-53 {
		t.Errorf("the least is %v, want 2⁻⁵³", got)
	}
	if got := (&generator{d: math.MaxUint64}).uniform(); got != 1-0x1p-53 {
		t.Errorf("the greatest is %v, want 1 − 2⁻⁵³", got)
	}
}

// All layers have one area, that at the base with the tail, and the last ends at the
// top of the density.
func TestLayers(t *testing.T) {
	z := normalLayers()
	if got := tail*math.Exp(-tail*tail/2) + math.Sqrt(math.Pi/2)*math.Erfc(tail/math.Sqrt2); !(math.Abs(got/layerFit-1) <= 1e-12) {
		t.Errorf("the base with the tail has %v, want %v", got, layerFit)
	}
	for i := 1; i < layers; i++ {
		if area := z.x[i] * (z.y[i+1] - z.y[i]); !(math.Abs(area/layerFit-1) <= 1e-8) || !(z.x[i+1] < z.x[i]) {
			t.Errorf("layer %d has %v, want %v", i, area, layerFit)
		}
	}
	if z.x[layers] != 0 || z.y[layers] != 1 {
		t.Errorf("the top lies at %v and %v, want 0 and 1", z.x[layers], z.y[layers])
	}
}

// Within its layer a number is the fraction that the upper bits of the generator make,
// sign and all, stretched to the mean and the deviation asked for.
func TestNormalsWithinLayers(t *testing.T) {
	const n = 10_000
	z, bits := normalLayers(), newGenerator(5, 6)
	within := 0
	for range n {
		var one [1]float64
		g := *bits
		g.normals(z, one[:], 100, 4)
		r := bits.next()
		layer := r & (layers - 1)
		x := float64(int64(r)>>11) / (1 << 52) * z.x[layer]
		if math.Abs(x) >= z.x[layer+1] {
			continue
		}
		within++
		if want := 100 + 4*x; !(math.Abs(one[0]-want) <= 1e-12*want) {
			t.Fatalf("%x gives %v, want %v", r, one[0], want)
		}
	}
	if within < n*98/100 {
		t.Errorf("%d of %d lie within their layers, want nearly all", within, n)
	}
}

// Where a layer sticks out of the density, a number is taken as often as the density
// there rises into the layer. One drawn in its place is as normal as any.
func TestEdge(t *testing.T) {
	const n = 20_000
	z, g := normalLayers(), newGenerator(3, 4)
	var others []float64
	for _, layer := range []uint64{1, 2, 10, 300, 700, 1000, layers - 1} {
		for _, part := range []float64{0.1, 0.5, 0.9} {
			x := z.x[layer+1] + part*(z.x[layer]-z.x[layer+1])
			taken := 0
			for i := range n {
				signed := math.Copysign(x, float64(i%2)-0.5)
				if y := g.edge(z, layer, signed); y == signed {
					taken++
				} else {
					others = append(others, y)
				}
			}
			want := (math.Exp(-x*x/2) - z.y[layer]) / (z.y[layer+1] - z.y[layer])
			if got := float64(taken) / n; !(math.Abs(got-want) <= 5*math.Sqrt(want*(1-want)/n)) {
				t.Errorf("layer %d, %v: %v taken, want %v", layer, x, got, want)
			}
		}
	}
	distributed(t, "drawn again", others, func(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) })
	beyond := 0.0
	for _, y := range others {
		if math.Abs(y) > tail {
			beyond++
		}
	}
	if want := float64(len(others)) * math.Erfc(tail/math.Sqrt2); !(math.Abs(beyond-want) <= 5*math.Sqrt(want)) {
		t.Errorf("%v of %d drawn again lie in the tail, want about %.0f", beyond, len(others), want)
	}
}

// Beyond the layers the numbers have the distribution of the normal one's tail, and
// the sign of the number that led there.
func TestTail(t *testing.T) {
	g := newGenerator(7, 8)
	x := make([]float64, 200_000)
	for i := range x {
		x[i] = g.beyond()
	}
	distributed(t, "the tail", x, func(x float64) float64 { return 1 - math.Erfc(x/math.Sqrt2)/math.Erfc(tail/math.Sqrt2) })
	if x := g.edge(normalLayers(), 0, -4.1); !(x < -tail) {
		t.Errorf("%v stands for -4.1, want one below %v", x, -tail)
	}
}

// distributed is Kolmogorov's test, at 0.1 % (memory: 1.95/√n).
func distributed(t *testing.T, name string, x []float64, distribution func(float64) float64) {
	t.Helper()
	slices.Sort(x)
	worst, n := 0.0, float64(len(x))
	for i, v := range x {
		p := distribution(v)
		worst = max(worst, math.Abs(p-float64(i)/n), math.Abs(p-float64(i+1)/n))
	}
	if limit := 1.95 / math.Sqrt(n); !(worst <= limit) {
		t.Errorf("%s: distance %v, want at most %v", name, worst, limit)
	}
}
