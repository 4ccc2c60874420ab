package calc

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"millmaths.example/paperprop"
)

// heat is a calculation with a temperature, whose zero is not that of its unit, and a
// step on the way whose result is no output.
type heat struct {
	Mass paperprop.Mass
	T    paperprop.Temperature
	Word string
	N    paperprop.Ratio
}

type heatResult struct{ Y, Z paperprop.Ratio }

func heatSheet() *Sheet {
	d := &Description[heat, heatResult]{
		Name: "heat", Title: "Heat",
		Formula: []string{"k = t/t", "r = m*t", "y = n*k", "yes: z = n + n", "no: z = n*n"},
		Compute: func(h heat) (heatResult, error) {
			z := h.N * h.N
			if h.Word == "yes" {
				z = h.N + h.N
			}
			return heatResult{Y: h.N, Z: z}, nil
		},
		Fields: func(f *Form, in *heat, out *heatResult) {
			In(f, &in.Mass, "mass", "m", "g", "").Above(0)
			In(f, &in.T, "temperature", "t", "degC", "").Default(20)
			InWord(f, &in.Word, "word", "", "yes", "no")
			In(f, &in.N, "number", "n", "1", "")
			Out(f, &out.Y, "y", "y", "1", "")
			Out(f, &out.Z, "z", "z", "1", "")
		},
	}
	return d.NewSheet()
}

// A worked solution tells what was given, as written and in the unit of the formula
// where that is another, and works each line that holds for the words.
func TestBoard(t *testing.T) {
	for word, z := range map[string]string{"yes": "6", "no": "9"} {
		s := heatSheet()
		for name, text := range map[string]string{"mass": "2 kg", "word": word, "number": "3"} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		w, err := s.Solution()
		if err != nil {
			t.Fatal(err)
		}
		var given []string
		for _, g := range w.Given {
			given = append(given, fmt.Sprintf("%s|%s|%s|%v", g.Name, g.Written, g.Value, g.Default))
		}
		if want := []string{"mass|2 kg|2000 g|false", "temperature||20 degC|true", "word|" + word + "||false", "number|3||false"}; !slices.Equal(given, want) {
			t.Errorf("given %q, want %q", given, want)
		}
		var steps []string
		for _, step := range w.Steps {
			steps = append(steps, step.Formula+"|"+step.Substituted+"|"+step.Result)
		}
		want := []string{"k = t/t|293.15 K/293.15 K|1", "r = m*t|2000 g*293.15 K|586.3 kg K", "y = n*k|3*1|3", "z = n + n|3 + 3|6"}
		if word == "no" {
			want[3] = "z = n*n|3*3|9"
		}
		if !slices.Equal(steps, want) {
			t.Errorf("steps %q, want %q (by hand: 2 kg at 293.15 K)", steps, want)
		}
		if w.Results[1].Full != z || w.Solved != "" {
			t.Errorf("z is %s, want %s; solved %q", w.Results[1].Full, z, w.Solved)
		}
	}
	s := heatSheet()
	for name, text := range map[string]string{"mass": "2 kg", "word": "yes", "z": "6"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	w, err := s.Solution()
	if err != nil || w.Solved != "z was given as 6; the range of number was searched for what gives it: number = 3" {
		t.Errorf("solved: %q, %v", w.Solved, err)
	}
}

// free is a calculation with more Values than there are base quantities.
type free struct {
	X, Y []float64
	Z    [7]float64
}

// The result of a line has the unit that the units given make: their own, a difference,
// a square or a quotient. Other powers have none, nor has what follows the units past
// the seventh.
func TestFreeUnits(t *testing.T) {
	d := &Description[free, struct{}]{
		Name: "free", Title: "Free units",
		Formula: []string{
			"m = mean(x)", "d = x - m", "q = sum(d*d)", "s = sqrt(q)", "n = mean(y)/s", "i = 1/s", "a = q/mean(y)",
			"p = m*mean(y)", "c = m*m*m", "z = z1 - z1", "o = z5 + z5", "l = z6 + z6",
		},
		Compute: func(free) (struct{}, error) { return struct{}{}, nil },
		Fields: func(f *Form, in *free, out *struct{}) {
			InValues(f, &in.X, "x", "x", "any", "")
			InValues(f, &in.Y, "y", "y", "any", "")
			for i := range in.Z {
				name := fmt.Sprintf("z%d", i+1)
				InValue(f, &in.Z[i], name, name, "any", "")
			}
		},
	}
	s := d.NewSheet()
	for name, text := range map[string]string{
		"x": "[20 21 25] degC", "y": "[2 4] N", "z1": "1 mm", "z2": "1 mm", "z3": "1 mm", "z4": "1 mm", "z5": "1 mm", "z6": "1 mm", "z7": "1 mm",
	} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	w, err := s.Solution()
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"m 22 degC", "d [-2 -1 3] K", "q 14 K2", "s 3.741657387 K", "n 0.8017837257 N/K", "i 0.2672612419", "a 4.666666667 K2/N",
		"p 66", "c 10648", "z 0 mm", "o 2 mm", "l 2",
	}
	for i, step := range w.Steps {
		if got := step.Line.Name + " " + step.Result; got != want[i] {
			t.Errorf("%s: %q, want %q", step.Formula, got, want[i])
		}
	}
	if len(w.Steps) != len(want) {
		t.Errorf("%d steps, want %d", len(w.Steps), len(want))
	}
}

// The schema of a calculation asks for what it takes.
func TestSchemaOfShapes(t *testing.T) {
	data, err := Schema(shapesSheet().Info())
	if err != nil {
		t.Fatal(err)
	}
	var schema struct {
		Required   []string
		AnyOf      []struct{ Required []string }
		Properties map[string]json.RawMessage
		Answers    map[string]struct {
			Unit, Absent string
			Enum         []string
		}
		AllOf json.RawMessage
	}
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	var either []string
	for _, one := range schema.AnyOf {
		either = append(either, strings.Join(one.Required, " "))
	}
	if want := []string{"weights word", "sum"}; !slices.Equal(either, want) || schema.AllOf != nil {
		t.Errorf("one of %q is required, want %q; %s", either, want, schema.AllOf)
	}
	if a := schema.Answers; a["sum"].Unit != "kg" || a["each"].Unit != "kg" || !slices.Equal(a["said"].Enum, []string{"yes", "no"}) || a["sum"].Absent != "" {
		t.Errorf("answers %+v", a)
	}
	for _, name := range []string{"length", "weights", "word", "offset", "value", "number", "sum"} {
		if schema.Properties[name] == nil {
			t.Errorf("no property %s in %s", name, data)
		}
	}
	type property struct {
		Type, Units, Enum []string
		Unit, Default     string
		Low               *float64 `json:"value-minimum"`
		Above             *float64 `json:"value-exclusiveMinimum"`
		High              *float64 `json:"value-maximum"`
		Below             *float64 `json:"value-exclusiveMaximum"`
	}
	number := func(x float64) *float64 { return &x }
	for name, want := range map[string]property{
		"length":  {Type: []string{"string", "object"}, Unit: "mm", Default: "5 mm", Above: number(0)},
		"weights": {Type: []string{"string", "array", "object"}, Unit: "kg", Low: number(0)},
		"word":    {Enum: []string{"yes", "no"}},
		"offset":  {Type: []string{"string", "object"}, Unit: "degC", Low: number(-20), High: number(40)},
		"value":   {Type: []string{"string", "number", "object"}},
		"number":  {Type: []string{"string", "number", "object"}, Unit: "1", Default: "2", Low: number(1), High: number(9)},
	} {
		var got property
		if err := json.Unmarshal(schema.Properties[name], &got); err != nil {
			t.Fatal(err)
		}
		if got.Unit != "" && !slices.Contains(got.Units, got.Unit) {
			t.Errorf("%s is in %s, and may be in %q", name, got.Unit, got.Units)
		}
		got.Units = nil
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}
