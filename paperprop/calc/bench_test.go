package calc_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/stock"
)

var sink float64

// thinned is a variable so that the compiler can't reckon ahead.
var thinned = stock.Dilution{
	MassFlow:         300 * paperprop.TonnePerHour,
	ConsistencyIn:    4.6 * paperprop.Percent,
	ConsistencyOut:   0.92 * paperprop.Percent,
	WaterConsistency: 0.1 * paperprop.Percent,
}

// The formula of a dilution and nothing else: what the checks are measured
// against.
func BenchmarkFormulaAlone(b *testing.B) {
	b.ReportAllocs()
	d := &thinned
	for b.Loop() {
		q, in, out, water := float64(d.MassFlow), float64(d.ConsistencyIn), float64(d.ConsistencyOut), float64(d.WaterConsistency)
		w := q * (in - out) / (out - water)
		sink = w + (q+w)*out
	}
}

// A typed struct from ranges and defaults to a checked result.
func BenchmarkCalculate(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		r, err := thinned.Calculate()
		if err != nil {
			b.Fatal(err)
		}
		sink = float64(r.WaterFlow)
	}
}

// A value as a person types it.
func BenchmarkSet(b *testing.B) {
	for _, test := range []struct{ name, text string }{
		{"form=plain", "300 t/h"}, {"form=uncertain", "300 ± 3 t/h"}, {"form=concise", "300(3) t/h"},
	} {
		b.Run(test.name, func(b *testing.B) {
			b.ReportAllocs()
			c := sheet(b, "dilution").In[0]
			for b.Loop() {
				if err := c.Set(test.text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A row of numbers through a sheet, as a table gives it.
func BenchmarkRow(b *testing.B) {
	b.ReportAllocs()
	s := sheet(b, "dilution")
	q, in, out, water := s.In[0], s.In[1], s.In[2], s.In[3]
	result := s.Out[0]
	for b.Loop() {
		q.Put(300)
		in.Put(0.046)
		out.Put(0.0092)
		water.Put(0.001)
		if err := s.Run(); err != nil {
			b.Fatal(err)
		}
		sink = result.Number()
	}
}

// An input solved for from an output given; half of its range is refused.
func BenchmarkSolve(b *testing.B) {
	b.ReportAllocs()
	s := sheet(b, "dilution")
	for b.Loop() {
		s.Reset()
		for _, p := range [][2]string{{"mass-flow", "300 t/h"}, {"consistency-in", "4.6 %"}, {"water-flow", "1200 t/h"}} {
			if err := s.Set(p[0], p[1]); err != nil {
				b.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			b.Fatal(err)
		}
		sink = s.Roots[0].Low
	}
}

// sixInputs is a calculation whose six inputs are all uncertain.
func sixInputs(tb testing.TB) *calc.Sheet {
	tb.Helper()
	s := sheet(tb, "pulping")
	for _, p := range [][2]string{
		{"bale-flow", "28 ± 0.3 t/h"}, {"bale-moisture", "10 ± 0.2 %"}, {"reject-rate", "6 ± 0.3 %"},
		{"reject-dryness", "35 ± 1 %"}, {"consistency", "4.2 ± 0.02 %"}, {"water-consistency", "0.2 ± 0.01 %"},
	} {
		if err := s.Set(p[0], p[1]); err != nil {
			tb.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		tb.Fatal(err)
	}
	return s
}

const benchDraws = 1_000_000

func BenchmarkMonteCarlo(b *testing.B) {
	s := sixInputs(b)
	for b.Loop() {
		samples, err := calc.MonteCarlo{Draws: benchDraws, Seed: 1, Workers: 2}.Run(context.Background(), s)
		if err != nil {
			b.Fatal(err)
		}
		sink = samples[0].Standard
	}
}

// The same draws on one core by a loop that knows the formula and keeps only
// mean and standard deviation: no interval, no ranges, no seed by block.
func BenchmarkPlainLoop(b *testing.B) {
	for b.Loop() {
		r := rand.New(rand.NewPCG(1, 0))
		var sum, squares float64
		for range benchDraws {
			bales, moisture := 28+0.3*r.NormFloat64(), 0.10+0.002*r.NormFloat64()
			rate, dryness := 0.06+0.003*r.NormFloat64(), 0.35+0.01*r.NormFloat64()
			c, water := 0.042+0.0002*r.NormFloat64(), 0.002+0.0001*r.NormFloat64()
			dry := bales * (1 - moisture)
			rejects := dry * rate / dryness
			w := (dry*(1-rate) - c*(bales-rejects)) / (c - water)
			sum += w
			squares += w * w
		}
		mean := sum / benchDraws
		sink = math.Sqrt((squares - sum*mean) / (benchDraws - 1))
	}
}
