package calc

import (
	"math"
	"math/bits"
	"sync"
)

// A generator draws random numbers by xoshiro256++ (Blackman and Vigna, 2019). It is
// our own because draws are time-critical: through the interface of the standard
// library, one draw costs as much as a calculation.
type generator struct{ a, b, c, d uint64 }

// newGenerator spreads a seed and a block number over the state with SplitMix64, as the
// authors advise.
func newGenerator(seed, block uint64) *generator {
	x := seed ^ bits.RotateLeft64(block+1, 32)*0xd1342543de82ef95
	next := func() uint64 {
		x += 0x9e3779b97f4a7c15
		z := x
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		return z ^ z>>31
	}
	return &generator{next(), next(), next(), next()}
}

func (g *generator) next() uint64 {
	r := bits.RotateLeft64(g.a+g.d, 23) + g.a
	t := g.b << 17
	g.c ^= g.a
	g.d ^= g.b
	g.b ^= g.c
	g.a ^= g.d
	g.c ^= t
	g.d = bits.RotateLeft64(g.d, 45)
	return r
}

// uniform returns a number strictly between 0 and 1.
func (g *generator) uniform() float64 { return (float64(g.next()>>12) + 0.5) * 0x1p-52 }

// layers is the number of layers of the ziggurat (Marsaglia and Tsang, 2000):
// rectangles of equal area under the normal density. The end of the last one was solved
// for with mpmath, which gives the authors' 3.6541528853610088 for their 256 layers.
const (
	layers   = 1024
	tail     = 4.0388498461095045
	layerFit = 0.0012263246463530881 // the area
)

// A ziggurat holds the ends of the layers and the density there.
type ziggurat struct{ x, y [layers + 1]float64 }

// normalLayers returns the layers, built on first use.
func normalLayers() *ziggurat {
	normal.once.Do(normal.layers.build)
	return &normal.layers
}

var normal struct {
	once   sync.Once
	layers ziggurat
}

func (z *ziggurat) build() {
	density := func(x float64) float64 { return math.Exp(-x * x / 2) }
	z.x[0] = layerFit / density(tail) // the base layer includes the tail
	z.x[1] = tail
	for i := 2; i < layers; i++ {
		z.x[i] = math.Sqrt(-2 * math.Log(layerFit/z.x[i-1]+density(z.x[i-1])))
	}
	for i := range z.y {
		z.y[i] = density(z.x[i])
	}
}

// normals fills a slice with normal numbers of the given mean and standard deviation.
// All but one in 200 need a single draw and a single comparison; for these the state of
// the generator stays in registers.
func (g *generator) normals(z *ziggurat, numbers []float64, mean, deviation float64) {
	a, b, c, d := g.a, g.b, g.c, g.d
	for i := range numbers {
		r := bits.RotateLeft64(a+d, 23) + a
		s := b << 17
		c ^= a
		d ^= b
		b ^= c
		a ^= d
		c ^= s
		d = bits.RotateLeft64(d, 45)
		layer := r & (layers - 1)
		x := float64(int64(r)>>11) * 0x1p-52 * z.x[layer]
		if math.Abs(x) >= z.x[layer+1] {
			*g = generator{a, b, c, d}
			x = g.edge(z, layer, x)
			a, b, c, d = g.a, g.b, g.c, g.d
		}
		numbers[i] = mean + x*deviation
	}
	*g = generator{a, b, c, d}
}

// edge decides on a number in the part of a layer that extends beyond the density, and
// draws again if the number lies outside.
func (g *generator) edge(z *ziggurat, layer uint64, x float64) float64 {
	for {
		switch {
		case layer == 0:
			return math.Copysign(g.beyond(), x)
		case z.y[layer]+g.uniform()*(z.y[layer+1]-z.y[layer]) < math.Exp(-x*x/2):
			return x
		}
		r := g.next()
		layer = r & (layers - 1)
		x = float64(int64(r)>>11) * 0x1p-52 * z.x[layer]
		if math.Abs(x) < z.x[layer+1] {
			return x
		}
	}
}

// beyond draws from the tail (Marsaglia, 1964).
func (g *generator) beyond() float64 {
	for {
		x, y := -math.Log(g.uniform())/tail, -math.Log(g.uniform())
		if 2*y > x*x {
			return tail + x
		}
	}
}
