package calc

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
)

// Where a number at the start of a text ends; a standard uncertainty in brackets
// belongs to it.
func TestNumberEnd(t *testing.T) {
	for _, test := range []struct{ number, rest string }{
		{"4", ""}, {"40", " %"}, {"-4.5", "kg"}, {"−4.5", " kg"}, {"4.5", "."}, {"4,5", " kg"}, {"4", ".kg"}, {"4", ","}, {"09", "x"},
		{"4e3", ""}, {"4E-3", " g"}, {"4e+3", "g"}, {"4e−3", "g"}, {"4", "e"}, {"4", "e+"}, {"4", "eV"}, {"4.5e12", " "}, {"4", "E+ 3"},
		{"4.0(1)", ""}, {"4.0(12)", " %"}, {"4", "()"}, {"4.0", "(1"}, {"4.0", "(a)"}, {"4.0e2(3)", " t/h"},
		{"", ""}, {"", "-"}, {"", "kg"}, {"", "(1)"}, {"", "e3"}, {".5", " kg"}, {"", "."}, {"", "+4"},
	} {
		text := test.number + test.rest
		if got := text[:numberEnd(text)]; got != test.number {
			t.Errorf("the number of %q is %q, want %q", text, got, test.number)
		}
		if got := isNumber(text); got != (test.rest == "" && test.number != "") {
			t.Errorf("%q is a number: %v", text, got)
		}
	}
}

// An uncertainty in brackets counts in the last digits of its number.
func TestCutConcise(t *testing.T) {
	for text, want := range map[string]float64{
		"4.0(1)": 0.1, "4.0(12)": 1.2, "4.00(1)": 0.01, "4.000(123)": 0.123, "40(3)": 3, "4(10)": 10, "4.0e2(1)": 10, "4e2(3)": 300, "4.0E-2(1)": 0.001, "0.5(2)": 0.2,
	} {
		_, u, ok, err := cutConcise(text)
		if err != nil || !ok || u != want {
			t.Errorf("%s: %v, %v, %v, want %v", text, u, ok, err, want)
		}
	}
	if number, u, ok, err := cutConcise("4.0"); number != "4.0" || u != 0 || ok || err != nil {
		t.Errorf("4.0: %v, %v, %v, %v", number, u, ok, err)
	}
}

// A name is letters, with digits and hyphens after the first of them.
func TestCutName(t *testing.T) {
	for _, test := range []struct {
		text, name, inner, rest string
		ok                      bool
	}{
		{"balance", "balance", "", "", true}, {"balance-2", "balance-2", "", "", true}, {"a_0z9AZ", "a_0z9AZ", "", "", true},
		{"rectangular(0.1) g", "rectangular", "0.1", "g", true}, {"readings(0.4, 5) mm", "readings", "0.4, 5", "mm", true},
		{"rectangular(0.1", "rectangular", "0.1", "", false}, {"kg m", "kg", " m", "", false}, {"0.1 g", "", "", "", false}, {"-a", "", "", "", false}, {"9z", "", "", "", false}, {"", "", "", "", false},
	} {
		name, inner, rest, ok := cutName(test.text)
		if name != test.name || ok != test.ok || ok && (inner != test.inner || rest != test.rest) {
			t.Errorf("%q: %q, %q, %q, %v", test.text, name, inner, rest, ok)
		}
	}
}

func TestMembers(t *testing.T) {
	for text, want := range map[string][]string{
		"9.5 %; 13 %":                           {"9.5 %", " 13 %"},
		"[9.5 %, 110 g/kg]":                     {"9.5 %", "110 g/kg"},
		"[9.5 ± 0.1 %; 13 %]":                   {"9.5 ± 0.1 %", " 13 %"},
		"[0.5 bar(g), 2 bar(g)]":                {"0.5 bar(g)", "2 bar(g)"},
		"[9.5 %, 13]":                           {"9.5 %", "13"},
		"[9.5, 13]":                             nil,
		"[9.5 13 11, 12]":                       nil,
		"[9.5 %, 13 %] %":                       nil,
		"[9.5 %, [13 %]]":                       nil,
		"9.5 %, 13 %":                           {"9.5 %", "13 %"},
		"9.5 ± readings(0.4, 5) %, 13 %":        {"9.5 ± readings(0.4, 5) %", "13 %"},
		"9.5 ± readings(0.4, 5) %":              {"9.5 ± readings(0.4, 5) %"},
		"1 ± f(a(b, c), d) g, 2 g, 3 ± f(4, 5)": {"1 ± f(a(b, c), d) g", "2 g", "3 ± f(4, 5)"},
		"[1, 2] g":                              nil,
		"9,5 %":                                 nil,
	} {
		if got := members(text); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// shapes is a calculation of inputs and outputs of every shape.
type shapes struct {
	Length  paperprop.Length
	Weights []paperprop.Mass
	Word    string
	Offset  *paperprop.Temperature
	Any     float64
	Whole   paperprop.Count
}

type shapesResult struct {
	Sum  paperprop.Mass
	Each []paperprop.Mass
	Said string
}

func shapesSheet() *Sheet {
	d := &Description[shapes, shapesResult]{
		Name: "shapes",
		Compute: func(in shapes) (shapesResult, error) {
			out := shapesResult{Said: in.Word}
			for _, m := range in.Weights {
				out.Sum += m
				out.Each = append(out.Each, 2*m)
			}
			return out, nil
		},
		Fields: func(f *Form, in *shapes, out *shapesResult) {
			In(f, &in.Length, "length", "l", "mm", "").Above(0).Default(5)
			InList(f, &in.Weights, "weights", "m", "kg", "").From(0)
			InWord(f, &in.Word, "word", "", "yes", "no")
			Pointer(f, &in.Offset, "offset", "t", "degC", "").From(-20).UpTo(40)
			InValue(f, &in.Any, "value", "x", "any", "").Optional()
			In(f, &in.Whole, "number", "n", "1", "").From(1).UpTo(9).Whole().Default(2)
			Out(f, &out.Sum, "sum", "s", "kg", "")
			OutList(f, &out.Each, "each", "e", "kg", "")
			OutWord(f, &out.Said, "said", "", "yes", "no")
		},
	}
	return d.NewSheet()
}

// A sheet takes every shape, says what is wrong with each, and forgets all.
func TestShapes(t *testing.T) {
	good := map[string]string{"weights": "[1 2 3] kg", "word": "yes"}
	for _, test := range []struct{ name, text, want string }{
		{"length", "3 mm", ""}, {"length", "0 mm", "length is 0 mm, want above 0 mm"}, {"length", "-1 mm", "length is -1 mm, want above 0 mm"},
		{"weights", "[1 0] kg", ""}, {"weights", "[1 -0.5] kg", "weights[2] is -0.5 kg, want at least 0 kg"},
		{"word", "no", ""}, {"word", "perhaps", `word is "perhaps", want yes or no`}, {"word", "", "word is missing, want yes or no: no default"},
		{"offset", "0 degC", ""}, {"offset", "-20 degC", ""}, {"offset", "40 degC", ""}, {"offset", "-20.1 degC", "offset is -20.1"}, {"offset", "40.1 degC", "offset is 40.1"},
		{"number", "1", ""}, {"number", "9", ""}, {"number", "2.5", "number is 2.5, want a whole number"}, {"number", "0", "number is 0, want 1 to 9"}, {"number", "10", "number is 10, want 1 to 9"},
		{"value", "3 zogs", "zogs"}, {"value", "3 kg", ""},
	} {
		s := shapesSheet()
		for name, text := range good {
			if name != test.name {
				if err := s.Set(name, text); err != nil {
					t.Fatal(err)
				}
			}
		}
		err := s.Set(test.name, test.text)
		if err == nil {
			err = s.Run()
		}
		if test.want == "" && err != nil || test.want != "" && (err == nil || !strings.Contains(err.Error(), test.want)) {
			t.Errorf("%s = %q: %v, want %q", test.name, test.text, err, test.want)
		}
	}
	for _, missing := range []string{"weights", "word"} {
		s := shapesSheet()
		for name, text := range good {
			if name != missing {
				if err := s.Set(name, text); err != nil {
					t.Fatal(err)
				}
			}
		}
		var m *MissingError
		if err := s.Run(); !errors.As(err, &m) || m.Input.Name != missing {
			t.Errorf("without %s: %v", missing, err)
		}
	}
}

// What was given, what was assumed and what came out is told; after Reset nothing is.
func TestCells(t *testing.T) {
	s := shapesSheet()
	for name, text := range map[string]string{"weights": "[1(1) 2 3] kg", "word": "yes", "value": "3 kg"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	for _, c := range s.In {
		given := slices.Contains([]string{"weights", "word", "value"}, c.Name)
		assumed := slices.Contains([]string{"length", "number"}, c.Name)
		if c.Given() != given || c.Uncertain() != (c.Name == "weights") || c.Present() != (given || assumed) || slices.Contains(s.Defaults(), c) != assumed {
			t.Errorf("%s: given %v, uncertain %v, present %v", c.Name, c.Given(), c.Uncertain(), c.Present())
		}
	}
	for name, want := range map[string]string{"sum": "6 kg", "each": "[2 4 6] kg", "said": "yes"} {
		if c, _ := s.Output(name); c.Reported() != want || c.Full() != want || !c.Present() {
			t.Errorf("%s is %q and %q, want %q", name, c.Reported(), c.Full(), want)
		}
	}
	for name, want := range map[string]string{"length": "5 mm", "number": "2"} {
		if c, _ := s.Input(name); c.Default() != want || c.Full() != want {
			t.Errorf("%s is %q by default, %q, want %q", name, c.Default(), c.Full(), want)
		}
	}
	if c, _ := s.Input("word"); c.Default() != "" {
		t.Errorf("a word has the default %q", c.Default())
	}
	weights, _ := s.Input("weights")
	weights.PutList([]float64{4, 5})
	if weights.Uncertain() || weights.AsWritten() != "" || !weights.Given() || !slices.Equal(weights.Numbers(), []float64{4, 5}) {
		t.Errorf("a list put in place of a text: %v, %q", weights.Numbers(), weights.AsWritten())
	}
	weights.PutList(nil)
	if weights.Given() || weights.Present() {
		t.Error("an empty list is given")
	}
	weights.Put(7)
	if err := s.Run(); err != nil || s.Out[0].Number() != 7 {
		t.Errorf("a list of one: %v, %v", s.Out[0].Number(), err)
	}
	value, _ := s.Input("value")
	value.Put(8)
	if got := value.Full(); got != "8 kg" || !value.Given() || value.AsWritten() != "" {
		t.Errorf("a value put in place of a text is %q, as written %q", got, value.AsWritten())
	}
	s.Reset()
	for _, c := range s.In {
		if c.Given() || c.AsWritten() != "" || c.Uncertain() {
			t.Errorf("%s outlives a reset", c.Name)
		}
	}
	if _, err := s.Solution(); err != ErrNotRun {
		t.Errorf("a solution of nothing: %v", err)
	}
}

// Nothing is said of results that what was given since does not lead to.
func TestStale(t *testing.T) {
	for name, give := range map[string]func(s *Sheet, in func(string) *Cell){
		"number":      func(_ *Sheet, in func(string) *Cell) { in("length").Put(2) },
		"value":       func(_ *Sheet, in func(string) *Cell) { in("value").Put(2) },
		"list":        func(_ *Sheet, in func(string) *Cell) { in("weights").PutList([]float64{4, 5}) },
		"one of list": func(_ *Sheet, in func(string) *Cell) { in("weights").Put(4) },
		"word":        func(_ *Sheet, in func(string) *Cell) { in("word").PutWord("no") },
		"left out":    func(_ *Sheet, in func(string) *Cell) { in("length").Forget() },
		"text":        func(s *Sheet, _ func(string) *Cell) { s.Set("word", "no") },
	} {
		s := shapesSheet()
		for name, text := range map[string]string{"weights": "[1 2 3] kg", "word": "yes"} {
			if err := s.Set(name, text); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Run(); err != nil || !s.Out[0].Present() {
			t.Fatal(err, s.Out[0].Present())
		}
		give(s, func(name string) *Cell { c, _ := s.Input(name); return c })
		_, err := s.Solution()
		if _, jsonErr := s.MarshalJSON(); err != ErrNotRun || jsonErr != ErrNotRun || s.Out[0].Present() {
			t.Errorf("%s given after a run: %v, %v, present %v", name, err, jsonErr, s.Out[0].Present())
		}
	}
}

// A result goes into another unit of its kind, and into no other.
func TestPrintIn(t *testing.T) {
	s := shapesSheet()
	for name, text := range map[string]string{"weights": "[1 2 3] kg", "word": "yes"} {
		if err := s.Set(name, text); err != nil {
			t.Fatal(err)
		}
	}
	for _, p := range [][2]string{{"sum", "g"}, {"each", "t"}, {"length", "m"}} {
		if err := s.PrintIn(p[0], p[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"sum": "6000 g", "each": "[0.002 0.004 0.006] t"} {
		if c, _ := s.Output(name); c.Reported() != want {
			t.Errorf("%s is %q, want %q", name, c.Reported(), want)
		}
	}
	if c, _ := s.Input("length"); c.Full() != "0.005 m" {
		t.Errorf("length is %q, want 0.005 m", c.Full())
	}
	for _, p := range [][3]string{{"sum", "m", `sum: "m" is no unit of mass`}, {"summ", "g", `"summ"`}, {"said", "g", "it is printed in the unit of the inputs"}, {"value", "g", "it is printed in the unit of the inputs"}} {
		if err := s.PrintIn(p[0], p[1]); err == nil || !strings.Contains(err.Error(), p[2]) {
			t.Errorf("%s in %s: %v, want %s", p[0], p[1], err, p[2])
		}
	}
}

// A Default of a word would do nothing, so that building the description panics: the
// walks over a catalogue build each one.
func TestNoDefaultOfAWord(t *testing.T) {
	d := &Description[struct{ W string }, curveResult]{
		Name: "worded",
		Fields: func(f *Form, in *struct{ W string }, out *curveResult) {
			InWord(f, &in.W, "word", "yes or no", "yes", "no").Default(1)
		},
	}
	const want = "calc: word: Default is for numbers, and a word has none: want Optional, or no default"
	defer func() {
		if got := recover(); got != want {
			t.Errorf("panic %v, want %s", got, want)
		}
	}()
	d.Info()
}
