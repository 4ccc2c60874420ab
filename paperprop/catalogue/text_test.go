package catalogue_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

func sheetOf(name string) *calc.Sheet {
	c, _ := catalogue.Find(name)
	return c.NewSheet()
}

// The answer does not depend on the unit in which an input is given.
func TestUnitsOfInputsDoNotMatter(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(5, 6))
		for range 30 {
			s := accepted(t, c, r)
			other := copyBut(c, s, nil)
			for i, in := range s.In {
				if in.Kind == nil || in.Shape != calc.One || !in.Given() {
					continue
				}
				units := slices.DeleteFunc(in.Kind.Units(), func(u paperprop.Unit) bool { return u.Currency() != "" }) // which is printed
				text := in.Kind.Format(in.Number(), units[r.IntN(len(units))])
				if err := other.In[i].Set(text); err != nil {
					t.Fatalf("%s %q: %v", in.Name, text, err)
				}
			}
			if err := other.Run(); err != nil {
				t.Fatal(err)
			}
			for i, out := range s.Out {
				if got := other.Out[i]; got.Present() && got.Full() != out.Full() {
					t.Errorf("%s is %s, with other units %s", out.Name, out.Full(), got.Full())
				}
			}
		}
	})
}

// What an uncertain value may look like, and the uncertainty that it gives to
// the water of a dilution by a slope known by hand: q(c_in − c_out)/c_out at
// 300 t/h, 4.6 and 0.92 % moves 4 t/h with each t/h of q.
func TestUncertainTexts(t *testing.T) {
	for _, test := range []struct {
		text string
		want float64 // t/h of water
	}{
		{"300 ± 3 t/h", 12},
		{"300 +- 3 t/h", 12},
		{"300 +/- 3 t/h", 12},
		{"300(3) t/h", 12},
		{"300.0(30) t/h", 12},
		{"300 t/h ± 1 %", 12},
		{"300 t/h ± 3000 kg/h", 12},
		{"300 ± rectangular(3) t/h", 12 / math.Sqrt(3)},
		{"300 ± triangular(3) t/h", 12 / math.Sqrt(6)},
		{"300 ± arcsine(3) t/h", 12 / math.Sqrt2},
		{"300 t/h ± meter", 12},
	} {
		s := sheetOf("dilution")
		if err := s.SetSource("meter", "3 t/h"); err != nil {
			t.Fatal(err)
		}
		for name, text := range map[string]string{"mass-flow": test.text, "consistency-in": "4.6 %", "consistency-out": "0.92 %"} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		all, err := s.Uncertainties()
		if err != nil {
			t.Fatal(err)
		}
		if got := all[0].Standard; !(math.Abs(got-test.want) <= 1e-9*test.want) {
			t.Errorf("%s gives u(water-flow) = %v t/h, want %v (common practice, slope by hand)", test.text, got, test.want)
		}
	}
}

// What Set refuses, and what it says.
func TestRefusedTexts(t *testing.T) {
	for _, test := range []struct{ calculation, input, text, want string }{
		{"dilution", "mass-flow", "", `mass-flow "": `},
		{"dilution", "mass-flow", "300", `mass-flow "300": unit missing, want t/h or kg/h`},
		{"dilution", "mass-flow", "3,0 t/h", `decimal comma, write 3.0`},
		{"dilution", "mass-flow", "0x12 t/h", `mass-flow`},
		{"dilution", "mass-flow", "1_000 t/h", `mass-flow`},
		{"dilution", "mass-flow", "NaN t/h", `mass-flow "NaN t/h"`},
		{"dilution", "mass-flow", "Inf t/h", `mass-flow "Inf t/h"`},
		{"dilution", "mass-flow", "5. t/h", `mass-flow`},
		{"dilution", "mass-flow", "1e401 t/h", `exponent`},
		{"dilution", "mass-flow", strings.Repeat("1", 65) + " t/h", `64`},
		{"dilution", "mass-flow", "300 ton/h", `ton`},
		{"dilution", "mass-flow", "[300 400] t/h", `want one number, not a list`},
		{"dilution", "mass-flow", "300 400 t/h", `want one number, not a list`},
		{"dilution", "mass-flow", "300 t/h ± 1 furlong", `furlong`},
		{"dilution", "mass-flow", "300 ± -1 t/h", `below zero`},
		{"dilution", "mass-flow", "300(1) ± 2 t/h", `given twice`},
		{"dilution", "mass-flow", "300 ± balance", `unknown source of uncertainty "balance"`},
		{"dilution", "mass-flow", "300 ± gaussian(1) t/h", `unknown distribution "gaussian"`},
		{"dilution", "consistency-in", "4 % ± 1 %", `can be read two ways`},
		{"bale-lot", "mass", "[612 588 kg", `bracket [ without ]`},
		{"bale-lot", "mass", "[] kg", `a list without a number`},
		{"bale-lot", "mass", "[612 588] ± [1 2 3] kg", `3 uncertainties for 2 values`},
		{"tensile", "force", "8.5 kg", `"kg" is no unit of force`},
		{"moisture-claim", "rule", "Points", `rule is "Points", want basis or points`},
	} {
		s := sheetOf(test.calculation)
		err := s.Set(test.input, test.text)
		if err == nil || !strings.Contains(err.Error(), test.want) || !strings.HasPrefix(err.Error(), test.input) {
			t.Errorf("%s=%q: %v, want in it %s", test.input, test.text, err, test.want)
		}
	}
}

// A text that is taken gives finite values, whatever it looks like.
func FuzzSet(f *testing.F) {
	for _, text := range []string{"300 t/h", "4.0 ± 0.1 %", "4.0(1) %", "[9.5 13.2] %", "9.5 %; 13 %", "± rectangular(1) g", "?", "-0 °C", "1e400 kg", "[[", "4(4(4 %"} {
		f.Add(text)
	}
	s := sheetOf("dilution")
	list := sheetOf("bale-lot")
	value := sheetOf("replicates")
	f.Fuzz(func(t *testing.T, text string) {
		for _, c := range []*calc.Cell{s.In[0], s.In[1], list.In[0], list.In[1], value.In[0]} {
			if c.Set(text) != nil || !c.Given() {
				continue
			}
			for _, x := range c.Numbers() {
				if x-x != 0 {
					t.Errorf("%s=%q gives %v", c.Name, text, x)
				}
			}
		}
	})
}

func FuzzSetJSON(f *testing.F) {
	f.Add(`{"mass-flow":"300 t/h","consistency-in":{"value":4,"unit":"%","u":0.1},"consistency-out":"1 %"}`)
	f.Add(`{"mass-flow":[1,2]}`)
	f.Add(`{"mass-flow":null}`)
	s := sheetOf("dilution")
	f.Fuzz(func(t *testing.T, text string) {
		s.Reset()
		if s.SetJSON([]byte(text)) == nil && s.Run() == nil {
			if _, err := s.MarshalJSON(); err != nil {
				t.Errorf("%s: %v", text, err)
			}
		}
	})
}

// Draws fall where an input is refused, too: what computes them comes to an end there.
func TestDrawsEnd(t *testing.T) {
	drawn := 0
	for _, c := range catalogue.All() {
		pairs, err := calc.ParsePairs(c.Info().Example)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pairs {
			number, unit, _ := strings.Cut(p.Text, " ")
			x, err := strconv.ParseFloat(number, 64)
			if err != nil {
				continue // a list or a word
			}
			for _, times := range []float64{0.6, 30} {
				s := sheetOf(c.ID())
				for _, q := range pairs {
					text := q.Text
					if q.Name == p.Name {
						text = fmt.Sprintf("%v ± %v %s", x, math.Abs(x)*times, unit)
					}
					if in, ok := s.Input(q.Name); ok && in.Set(text) != nil {
						t.Fatalf("%s: %s %s", c.ID(), q.Name, text)
					}
				}
				if s.Run() != nil {
					continue
				}
				end := make(chan error)
				go func() {
					_, err := calc.MonteCarlo{Draws: 100, Workers: 1}.Run(context.Background(), s)
					end <- err
				}()
				select {
				case <-end:
					drawn++
				case <-time.After(time.Minute):
					t.Fatalf("%s: draws of %s from %v times itself about it have no end", c.ID(), p.Name, times)
				}
			}
		}
	}
	if drawn < 1000 {
		t.Errorf("%d inputs drawn, want more than a thousand", drawn)
	}
}

// Draws agree with first order on a model that is straight, for any number of
// workers alike; on one that bends that is said.
func TestMonteCarlo(t *testing.T) {
	straight := sheetOf("production")
	for name, text := range map[string]string{"grammage": "120 ± 1.5 g/m2", "sheet-width": "6.00 ± 0.02 m", "speed": "900 ± 5 m/min"} {
		if err := straight.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := straight.Run(); err != nil {
		t.Fatal(err)
	}
	var first []calc.Sample
	for _, workers := range []int{1, 2, 5} {
		samples, err := calc.MonteCarlo{Draws: 200_000, Seed: 7, Workers: workers}.Run(context.Background(), straight)
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = samples
		}
		for i, m := range samples {
			if m.Mean != first[i].Mean || m.Standard != first[i].Standard || m.Low != first[i].Low || m.High != first[i].High {
				t.Errorf("%d workers: %s %v, one worker %v", workers, m.Cell.Name, m, first[i])
			}
		}
	}
	all, err := straight.Uncertainties()
	if err != nil {
		t.Fatal(err)
	}
	for i, m := range first {
		if !(math.Abs(m.Standard/all[i].Standard-1) <= 0.01) || !m.Agrees() {
			t.Errorf("%s: u by draws %v, by first order %v, agrees %v", m.Cell.Name, m.Standard, all[i].Standard, m.Agrees())
		}
	}
	bent := sheetOf("dilution")
	for name, text := range map[string]string{"mass-flow": "300 t/h", "consistency-in": "4 %", "consistency-out": "0.5 ± 0.1 %", "water-consistency": "0.2 %"} {
		if err := bent.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := bent.Run(); err != nil {
		t.Fatal(err)
	}
	samples, err := calc.MonteCarlo{Draws: 50_000, Seed: 7}.Run(context.Background(), bent)
	if err != nil {
		t.Fatal(err)
	}
	if samples[0].Agrees() || samples[0].Refused == 0 {
		t.Errorf("a dilution near its pole: agrees %v, %d draws refused", samples[0].Agrees(), samples[0].Refused)
	}
}
