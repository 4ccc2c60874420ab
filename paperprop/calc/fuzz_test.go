package calc_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

func finite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }

// What is read of an estimate is finite, and its uncertainty not below zero.
func FuzzParseEstimate(f *testing.F) {
	for _, text := range []string{"50.0(2) mm", "0.3 ± 0.1 g", "rectangular(1.1, 1.3) kg/m3", "[1 2 3] mm", "4 +- 2 %", "triangular(-1,1)", "± ±", "mean(1 2) g", "1 g ± 3 % k=2"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, err := calc.ParseEstimate(text)
		if err != nil {
			return
		}
		if !finite(e.Value) || !(e.Standard >= 0) || !finite(e.Standard) {
			t.Errorf("%q is %v with an uncertainty of %v", text, e.Value, e.Standard)
		}
		for _, x := range e.Readings {
			if !finite(x) {
				t.Errorf("%q has the reading %v", text, x)
			}
		}
	})
}

// A list that is read has numbers between brackets, and nothing of it is lost.
func FuzzReadList(f *testing.F) {
	for _, text := range []string{"1\n2\n3 mm\n", "words\n---\n1 2\n", "---", "1,5\n2,5\n", "\xff", "--- \n--- 1\n2"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		list, err := calc.ReadList("list.txt", strings.NewReader(text))
		if err != nil {
			if !strings.HasPrefix(err.Error(), "list.txt") {
				t.Errorf("%q: error %q does not name the file", text, err)
			}
			return
		}
		inner, unit, ok := strings.Cut(strings.TrimPrefix(list, "["), "] ")
		if !ok || list[0] != '[' || len(strings.Fields(inner)) == 0 {
			t.Fatalf("%q is read as %q", text, list)
		}
		if words := strings.Join(append(strings.Fields(inner), strings.Fields(unit)...), ""); !strings.HasSuffix(strings.Join(strings.Fields(text), ""), words) {
			t.Errorf("%q is read as %q, and its end is lost", text, list)
		}
	})
}

// A range that is read runs from one end to the other in steps of one sign.
func FuzzRange(f *testing.F) {
	for _, text := range []string{"3..5 %", "5 %..3 % by 0.5 %", "0..1e300 % by 1e299", "1..1", "..", "1..2 by 0", "1..2 % by nan %", "-1..1 %"} {
		f.Add(text)
	}
	c, _ := catalogue.Find("dilution")
	s := c.NewSheet()
	f.Fuzz(func(t *testing.T, text string) {
		r, err := s.In[1].Range(text)
		if err != nil {
			return
		}
		if len(r.Values) < 2 {
			t.Fatalf("%q has %d values", text, len(r.Values))
		}
		up := r.Values[1] > r.Values[0]
		for i, x := range r.Values {
			if !finite(x) || i > 0 && (x == r.Values[i-1] || (x > r.Values[i-1]) != up) {
				t.Fatalf("%q runs through %v", text, r.Values[max(i-1, 0):i+1])
			}
		}
	})
}

// An answer to a request is JSON, with numbers that JSON has.
func FuzzRunJSON(f *testing.F) {
	f.Add(uint8(0), `{"mass-flow":"300 t/h","consistency-in":{"value":4,"unit":"%","u":0.1},"consistency-out":"1 %"}`)
	f.Add(uint8(1), `{"value":[1,2,3],"unit":"g"}`)
	f.Add(uint8(2), `{"model":"g = m/(l*b)","method":"first-order","m":"5.871 ± 0.004 g","l":"200 mm","b":{"value":250,"unit":"mm"}}`)
	f.Add(uint8(3), `{"value":"1 lb","to":"kg"}`)
	f.Add(uint8(0), `{"mass-flow":1e999,"a":{"b":[[[[]]]]}}`)
	f.Add(uint8(0), `{"mass-flow":1,"mass-flow":2}`)
	names := []string{"dilution", "replicates", "propagate", "convert"}
	f.Fuzz(func(t *testing.T, which uint8, text string) {
		if strings.Contains(text, "monte") {
			return // a million draws
		}
		c, ok := catalogue.Find(names[int(which)%len(names)])
		if !ok {
			t.Fatal(names, which)
		}
		answer, err := calc.RunJSON(c, []byte(text))
		if err != nil {
			answer = calc.ErrorJSON(c.Info().Name, err)
		}
		if !json.Valid(answer) {
			t.Errorf("%s %q is answered by %q, which is no JSON", c.Info().Name, text, answer)
		}
	})
}
