package calc_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// A cell that is given what it can't take is not given, and says so when it is
// run: it neither panics nor keeps an older number.
func TestCellOfAnotherShape(t *testing.T) {
	c, _ := catalogue.Find("dilution")
	s := c.NewSheet()
	flow, _ := s.Input("mass-flow")
	flow.Put(300)
	for what, give := range map[string]func(){
		"two numbers": func() { flow.PutList([]float64{1, 2}) },
		"a word":      func() { flow.PutWord("much") },
	} {
		flow.Put(300)
		give()
		var missing *calc.MissingError
		if err := s.Run(); !errors.As(err, &missing) || missing.Input.Name != "mass-flow" {
			t.Errorf("after %s the sheet runs with %v, want mass-flow missing", what, err)
		}
	}
	if flow.PutList([]float64{42}); !flow.Given() || flow.Number() != 42 {
		t.Errorf("a list of one is %v, want 42", flow.Number())
	}
	if w := flow.Word(); w != "" {
		t.Errorf("a number has the word %q", w)
	}
	if out, _ := s.Output("water-flow"); out.Check() != nil {
		t.Errorf("an output is outside a range: %v", out.Check())
	}
	blend, _ := catalogue.Find("blend")
	list, _ := blend.NewSheet().Input("mass-flow")
	if x := list.Number(); x != 0 {
		t.Errorf("an empty list has the number %v, want 0", x)
	}
	if text := calc.Distribution(200).String(); text != "distribution 200" {
		t.Errorf("Distribution(200) is %q", text)
	}
}

// A result without a standard uncertainty has none to expand, and says why.
func TestNothingToExpand(t *testing.T) {
	for _, test := range []struct{ name, inputs, output, want string }{
		{"strip-strength", "force=96.4 N", "strength", "strength has no uncertainty to expand: no input was given with one"},
		{"total-draw", "speed=[600 612 619] m/min ± 1 %", "section-draw", "section-draw is a list: its members have uncertainties of their own"},
		{"stack-layers", "stack-height=2.1 m ± 1 %; box-height=236 mm", "layers", "layers moves in steps and has no uncertainty to expand: draws tell it"},
	} {
		s := given(t, test.name, test.inputs)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		solution, err := s.Solution()
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(solution.Results, func(r calc.ResultLine) bool { return r.Name == test.output })
		if k, text, err := solution.Results[i].Expanded(0.95); err == nil || err.Error() != test.want {
			t.Errorf("Expanded of %s = %v, %q, %v, want %s", test.output, k, text, err, test.want)
		}
	}
}

// A sheet that has not run, or not well, has no result to show.
func TestNothingBeforeRun(t *testing.T) {
	c, ok := catalogue.Find("retention")
	if !ok {
		t.Fatal("no retention")
	}
	s := c.NewSheet()
	out, _ := s.Output("first-pass-retention")
	nothing := func(when string) {
		t.Helper()
		if out.Present() || out.Reported() != "" || out.Full() != "" || len(out.AppendNumber(nil, false)) > 0 {
			t.Errorf("%s: %v, %q, %q", when, out.Present(), out.Reported(), out.Full())
		}
	}
	set := func(headbox, tray string) error {
		if err := errors.Join(s.Set("headbox-consistency", headbox), s.Set("tray-consistency", tray)); err != nil {
			t.Fatal(err)
		}
		return s.Run()
	}
	nothing("new")
	if err := set("0.8 %", "0.2 %"); err != nil || out.Reported() != "75 %" || out.Full() != "75 %" {
		t.Fatalf("%s, %s, %v", out.Reported(), out.Full(), err)
	}
	if err := set("0.2 %", "0.8 %"); err == nil {
		t.Fatal("no refusal")
	}
	nothing("refused")
}

// A unit in place of a relation is refused when the description is built, not by a
// crash when somebody solves for it.
func TestRelationThatIsNone(t *testing.T) {
	type in struct{ X float64 }
	type out struct{ Y float64 }
	for relation, want := range map[string]string{
		"m3/t":             `calc: second: relation "m3/t"`,
		"as third":         `calc: second: relation "as third"`,
		"cube of first":    `calc: second: relation "cube of first"`,
		"third per first":  `calc: second: relation "third per first"`,
		"first per third":  `calc: second: relation "first per third"`,
		"":                 `calc: second: relation ""`,
		"any":              "",
		"as first":         "",
		"square of first":  "",
		"first per first":  "",
		"difference of in": `calc: second: relation "difference of in"`,
	} {
		d := &calc.Description[in, out]{
			Name:    "twice",
			Compute: func(i in) (out, error) { return out{2 * i.X}, nil },
			Fields: func(f *calc.Form, i *in, o *out) {
				calc.InValue(f, &i.X, "first", "x", "any", "")
				calc.OutValue(f, &o.Y, "second", "y", relation, "")
			},
		}
		got := panicked(func() { d.NewSheet() })
		if want != "" {
			want += ", want any, as x, difference of x, square of x or y per x, where x and y are inputs; a quantity with a unit of its own is bound by In or Out"
		}
		if got != want {
			t.Errorf("relation %q:\n got %s\nwant %s", relation, got, want)
		}
	}
}

// A name or a field that is bound twice is refused when the description is built, as one
// of the two would never be given; so is a unit that its quantity does not have.
func TestBoundWrongly(t *testing.T) {
	type in struct{ A, B paperprop.Mass }
	type out struct{ C, D paperprop.Mass }
	for want, fields := range map[string]func(*calc.Form, *in, *out){
		"": func(f *calc.Form, i *in, o *out) {
			calc.In(f, &i.A, "first", "a", "kg", "")
			calc.In(f, &i.B, "second", "b", "kg", "")
			calc.Out(f, &o.C, "first", "c", "kg", "") // an output may have the name of an input
		},
		"calc: first: bound twice": func(f *calc.Form, i *in, o *out) {
			calc.In(f, &i.A, "first", "a", "kg", "")
			calc.In(f, &i.B, "first", "b", "kg", "")
		},
		"calc: second: bound to the field of first": func(f *calc.Form, i *in, o *out) {
			calc.In(f, &i.A, "first", "a", "kg", "")
			calc.In(f, &i.A, "second", "b", "kg", "")
		},
		`calc: fourth: unknown unit "kgg", near: kg`: func(f *calc.Form, i *in, o *out) {
			calc.In(f, &i.A, "fourth", "a", "kgg", "")
		},
		"calc: third: bound twice": func(f *calc.Form, i *in, o *out) {
			calc.Out(f, &o.C, "third", "c", "kg", "")
			calc.Out(f, &o.D, "third", "d", "kg", "")
		},
	} {
		d := &calc.Description[in, out]{Name: "sum", Fields: fields}
		if got := panicked(func() { d.NewSheet() }); got != want {
			t.Errorf("panicked with %q, want %q", got, want)
		}
	}
}

// panicked returns what a function panics with; empty if it does not.
func panicked(f func()) (said string) {
	defer func() {
		if r := recover(); r != nil {
			said = fmt.Sprint(r)
		}
	}()
	f()
	return ""
}

// TestToolSheet sends whoever takes a tool for a description to what runs it, rather than
// deny the input that the tool has.
func TestToolSheet(t *testing.T) {
	c, _ := catalogue.Find("profile")
	const want = "profile is a tool and has no sheet, want its own Run or RunJSON"
	s := c.NewSheet()
	for _, err := range []error{s.Set("scan", "[1 2 | 3 4] g"), s.SetJSON([]byte(`{"scan":"[1 2 | 3 4] g"}`)), s.PrintIn("mean", "kg"), s.Run()} {
		if err == nil || err.Error() != want {
			t.Errorf("error %v, want %s", err, want)
		}
	}
}

// TestSchemaTellsInputs holds the documentation of Schema to its word: a program that
// makes a form of a schema tells inputs from outputs by their titles.
func TestSchemaTellsInputs(t *testing.T) {
	for _, c := range catalogue.All() {
		data, err := calc.Schema(c.Info())
		if err != nil {
			t.Fatal(err)
		}
		var schema struct {
			Properties map[string]struct{ Title string }
			Answers    map[string]json.RawMessage
		}
		if err := json.Unmarshal(data, &schema); err != nil {
			t.Fatal(err)
		}
		for _, in := range c.Info().Named() {
			if schema.Properties[in.Name].Title == "" {
				t.Errorf("%s: input %s has no title", c.ID(), in.Name)
			}
		}
		for _, out := range c.Info().Solvable() {
			if schema.Properties[out.Name].Title != "" || schema.Answers[out.Name] == nil {
				t.Errorf("%s: output %s has the title of an input, or no answer", c.ID(), out.Name)
			}
		}
	}
}
