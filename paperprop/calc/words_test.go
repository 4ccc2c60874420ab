package calc

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
	"weak"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/result"
)

// all is a calculation of inputs and outputs of every sort.
type all struct {
	Mass   paperprop.Mass
	Ratio  paperprop.Ratio
	List   []paperprop.Ratio
	Word   string
	Value  float64
	As     float64
	Values []float64
	Degree *paperprop.Temperature
}

type allResult struct {
	Twice  paperprop.Mass
	Square paperprop.Ratio
	Each   []paperprop.Ratio
	Word   string
	Text   string
	Same   float64
	Maybe  *paperprop.Ratio
	Exact  paperprop.Ratio
}

var allWarning = Warning{"large", "The ratio is large."}

var allCaution = Caution{"sharp", "It is sharp."}

func allSheet(t *testing.T, texts ...string) *Sheet {
	t.Helper()
	var warnings Warnings
	d := &Description[all, allResult]{
		Name: "all", Title: "All", Source: "by hand", Status: Memory, Cautions: []*Caution{&allCaution},
		Compute: func(in all) (allResult, error) {
			warnings = warnings[:0]
			if in.Ratio > 9 {
				warnings = append(warnings, &allWarning)
			}
			out := allResult{Twice: 2 * in.Mass, Square: in.Ratio * in.Ratio, Word: in.Word, Text: "1.50", Same: in.Value + in.As, Exact: in.Ratio}
			for _, x := range in.List {
				out.Each = append(out.Each, 2*x)
			}
			if in.Ratio > 5 {
				out.Maybe = &in.Ratio
			}
			return out, nil
		},
		Fields: func(f *Form, in *all, out *allResult) {
			In(f, &in.Mass, "mass", "m", "g", "").Default(500)
			In(f, &in.Ratio, "ratio", "r", "1", "").From(-1e300).UpTo(1e300)
			InList(f, &in.List, "list", "l", "1", "").Optional()
			InWord(f, &in.Word, "word", "", "yes", "no").Optional()
			InValue(f, &in.Value, "value", "v", "any", "").Optional()
			InValue(f, &in.As, "as", "a", "as value", "").Optional()
			InValues(f, &in.Values, "values", "vs", "any", "").Optional()
			Pointer(f, &in.Degree, "degree", "t", "degC", "")
			Out(f, &out.Twice, "twice", "w", "g", "").Report(result.StepOf(1, -1, result.Even), "a method", Published)
			Out(f, &out.Square, "square", "s", "1", "").Report(result.Figures(3, result.Even), "", Memory)
			OutList(f, &out.Each, "each", "e", "1", "")
			OutWord(f, &out.Word, "said", "", "yes", "no").Optional()
			OutText(f, &out.Text, "text", "x", "as value", "")
			OutValue(f, &out.Same, "same", "q", "as value", "")
			OutPointer(f, &out.Maybe, "maybe", "y", "1", "")
			Out(f, &out.Exact, "exact", "z", "1", "").Exact(func() string { return "4.00" })
			f.Warnings(&warnings)
		},
	}
	s := d.NewSheet()
	for i := 0; i < len(texts); i += 2 {
		if err := s.Set(texts[i], texts[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func ran(t *testing.T, texts ...string) *Sheet {
	t.Helper()
	s := allSheet(t, texts...)
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	return s
}

// The whole answer in JSON: what is absent, empty or certain is left out.
func TestWholeAnswer(t *testing.T) {
	for _, test := range []struct{ given, want string }{
		{"ratio=2",
			`{"calculation":"all","version":"V","inputs":{"ratio":{"value":2}},"outputs":{"twice":{"value":1000,"unit":"g","reported":"1000.0 g","rule":"step 0.1, ties to even (ISO 80000-1 rule A); a method (published)"},"square":{"value":4,"reported":"4.00","rule":"3 significant figures, ties to even (ISO 80000-1 rule A) (memory)"},"text":{"reported":"1.50"},"same":{"value":0},"exact":{"value":2,"reported":"4.00"}},"defaults":{"mass":{"value":500,"unit":"g"}},"cautions":[{"code":"sharp","text":"It is sharp."}],"source":"by hand","kind":"memory"}`},
		{"ratio=10 ± 0.5; mass=2 ± 0.25 kg; list=[1 2] ± [0.5 0.25]; word=no; value=3 kg; as=0.5 ± 0.05 kg; values=[1 2] mm",
			`{"calculation":"all","version":"V","inputs":{"mass":{"value":2000,"unit":"g","u":250},"ratio":{"value":10,"u":0.5},"list":{"value":[1,2],"u":[0.5,0.25]},"word":"no","value":{"value":3,"unit":"kg"},"as":{"value":0.5,"unit":"kg","u":0.05},"values":{"value":[1,2],"unit":"mm"}},"outputs":{"twice":{"value":4000,"unit":"g","u":500,"reported":"4000.0 g","rule":"step 0.1, ties to even (ISO 80000-1 rule A); a method (published)"},"square":{"value":100,"u":10,"reported":"100","rule":"3 significant figures, ties to even (ISO 80000-1 rule A) (memory)"},"each":{"value":[2,4],"u":[1,0.5]},"said":"no","text":{"reported":"1.50 kg"},"same":{"value":3.5,"unit":"kg","u":0.05},"maybe":{"value":10,"u":0.5},"exact":{"value":10,"u":0.5,"reported":"4.00"}},"warnings":[{"code":"large","text":"The ratio is large."}],"cautions":[{"code":"sharp","text":"It is sharp."}],"source":"by hand","kind":"memory"}`},
	} {
		pairs, err := ParsePairs(test.given)
		if err != nil {
			t.Fatal(err)
		}
		var texts []string
		for _, p := range pairs {
			texts = append(texts, p.Name, p.Text)
		}
		data, err := ran(t, texts...).MarshalJSON()
		if got := strings.Replace(string(data), Version, "V", 1); err != nil || got != test.want {
			t.Errorf("%s:\n%s, want\n%s; %v", test.given, got, test.want, err)
		}
	}
}

// What is found beside the first order stands at its own output alone.
func TestFindings(t *testing.T) {
	s := ran(t, "ratio", "10 ± readings(1, 4)", "list", "[1 2] ± 0.5")
	samples, err := MonteCarlo{Draws: 1000, Seed: 1, Workers: 1}.Run(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	bent, err := s.SecondOrder()
	if err != nil {
		t.Fatal(err)
	}
	read := func(f Findings) map[string]map[string]json.RawMessage {
		data, err := s.MarshalFindings(f)
		if err != nil {
			t.Fatal(err)
		}
		var answer struct {
			Outputs map[string]json.RawMessage
		}
		if err := json.Unmarshal(data, &answer); err != nil {
			t.Fatal(err)
		}
		outputs := map[string]map[string]json.RawMessage{}
		for name, raw := range answer.Outputs {
			var members map[string]json.RawMessage
			if json.Unmarshal(raw, &members) == nil {
				outputs[name] = members
			}
		}
		return outputs
	}
	for level, expanded := range map[float64]bool{0: false, 0.95: true} {
		outputs := read(Findings{Samples: samples, Bent: bent, Level: level})
		for name, of := range outputs {
			one, free := name != "each" && name != "text", slices.Contains([]string{"square", "maybe", "exact"}, name)
			if (of["freedom"] != nil) != free || (of["expanded"] != nil) != (one && expanded) || (of["second-order"] != nil) != one {
				t.Errorf("%s at %v: %s", name, level, of)
			}
			switch draws := string(of["monte-carlo"]); {
			case one && !strings.HasPrefix(draws, `{"draws":`), name == "each" && !strings.HasPrefix(draws, `[{"draws":`), !one && name != "each" && draws != "":
				t.Errorf("%s: draws are %q", name, draws)
			}
		}
		// By hand: the mean of r² is 10² + 0.5².
		for name, want := range map[string]float64{"maybe": 10, "square": 100.25} {
			var second struct{ Mean float64 }
			if err := json.Unmarshal(outputs[name]["second-order"], &second); err != nil || math.Abs(second.Mean-want) > 1e-6 {
				t.Errorf("%s has the mean %v, %v, want %v", name, second.Mean, err, want)
			}
		}
		var e struct{ U, K, Confidence float64 }
		if raw := outputs["maybe"]["expanded"]; raw != nil {
			// published: Student's factor of three degrees of freedom at 95 % is 3.182 (JCGM 100:2008, table G.2)
			if err := json.Unmarshal(raw, &e); err != nil || math.Abs(e.K-3.182) > 0.001 || math.Abs(e.U-e.K/2) > 1e-9 || e.Confidence != 0.95 {
				t.Errorf("expanded: %s, %v", raw, err)
			}
		}
	}
	for name, of := range read(Findings{}) {
		if of["monte-carlo"] != nil || of["second-order"] != nil {
			t.Errorf("%s was not drawn: %s", name, of)
		}
	}
}

// stepped has outputs that jump and that two inputs give: an interval, two roots, one.
func steppedSheet(t *testing.T, out, text string) *Sheet {
	t.Helper()
	type in struct{ X paperprop.Ratio }
	type results struct{ Floor, Square, Line paperprop.Ratio }
	d := &Description[in, results]{
		Name: "stepped",
		Compute: func(i in) (results, error) {
			return results{paperprop.Ratio(math.Floor(float64(i.X))), i.X * i.X, 2 * i.X}, nil
		},
		Fields: func(f *Form, i *in, o *results) {
			In(f, &i.X, "x", "x", "1", "").From(-8).UpTo(8)
			Out(f, &o.Floor, "floor", "f", "1", "").Steps()
			Out(f, &o.Square, "square", "s", "1", "")
			Out(f, &o.Line, "line", "l", "1", "")
		},
	}
	s := d.NewSheet()
	if err := s.Set(out, text); err != nil {
		t.Fatal(err)
	}
	return s
}

// Roots are told where there are several or an interval; one is an input.
func TestRootsInJSON(t *testing.T) {
	type root struct {
		Input           string
		Value, From, To *float64
	}
	for _, test := range []struct {
		out, text string
		n         int
		interval  bool
	}{{"floor", "3", 1, true}, {"square", "16", 2, false}, {"line", "6", 0, false}} {
		s := steppedSheet(t, test.out, test.text)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		data, err := s.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		var answer struct {
			Solved string
			Roots  []root
		}
		if err := json.Unmarshal(data, &answer); err != nil || len(answer.Roots) != test.n || answer.Solved != "x" || strings.Contains(string(data), `null`) || strings.Contains(string(data), `"cautions"`) || strings.Contains(string(data), `"warnings"`) {
			t.Errorf("%s: %s, %v", test.out, data, err)
		}
		for _, r := range answer.Roots {
			if r.Input != "x" || (r.Value == nil) != test.interval || (r.From != nil && r.To != nil) != test.interval {
				t.Errorf("%s: root %+v in %s", test.out, r, data)
			}
		}
	}
	for text, want := range map[string]bool{"3": true, "3.5": true, "3.99": true, "2.9": false, "4.1": false} {
		c := Check{Calculation: "stepped", Inputs: []Pair{{"floor", "3"}}, Expected: []Pair{{"x", text}}, Tolerance: Tolerance{Relative: 1e-6}}
		failures := c.Run(func(string) (Calculation, bool) { return steppedSheet(t, "floor", "3").of, true })
		if (len(failures) == 0) != want {
			t.Errorf("an x of %s for a floor of 3: %v", text, failures)
		}
	}
}

// A text that needs no page, and one that no text may hold, come out as JSON.
func TestTextsInJSON(t *testing.T) {
	for _, text := range []string{"\t\n", "\x01", "\xff", "\xff\xfe", "é", "~", " ", `"`} {
		data, err := object{{"a", text}}.MarshalJSON()
		var back struct{ A string }
		if err != nil || !json.Valid(data) || !utf8.Valid(data) || json.Unmarshal(data, &back) != nil || back.A != strings.ToValidUTF8(text, "�") && text != "\xff\xfe" {
			t.Errorf("%q is %q, %v", text, data, err)
		}
	}
	s := allSheet(t)
	for raw, want := range map[string]string{`[1,2]`: "[1 2]", `[{"value":1},{"value":2}]`: "1; 2", `[{"value":1},2]`: "1; 2"} {
		if err := s.SetJSON([]byte(`{"list":` + raw + `}`)); err != nil {
			t.Fatal(err)
		}
		if c, _ := s.Input("list"); c.AsWritten() != want {
			t.Errorf("%s is %q, want %q", raw, c.AsWritten(), want)
		}
	}
}

// A result as it is reported, in full, with its rule and in a table.
func TestReported(t *testing.T) {
	s := ran(t, "ratio", "10.0625", "list", "[1.23456789 2]", "word", "no", "value", "3 kg", "mass", "1.03125 g")
	for name, want := range map[string]string{
		"twice":  "2.1 g|2.0625 g|2.0625 g|true|2.1|2.0625|step 0.1, ties to even (ISO 80000-1 rule A); a method (published)|step 0.1 (published)",
		"square": "101|101.25390625|101.2539062|true|101|101.25390625|3 significant figures, ties to even (ISO 80000-1 rule A) (memory)|3 significant figures (memory)",
		"each":   "[2.46914 4]|[2.46913578 4]|[2.46913578 4]|false|[2.46914 4]|[2.46913578 4]||",
		"said":   "no|no|no|false|no|no||",
		"text":   "1.50 kg|1.50 kg|1.50 kg|true|1.50|1.50||",
		"same":   "3 kg|3 kg|3 kg|false|3|3||",
		"maybe":  "10.0625|10.0625|10.0625|false|10.0625|10.0625||",
		"exact":  "4.00|10.0625|10.0625|true|4.00|10.0625||",
	} {
		c, _ := s.Output(name)
		got := fmt.Sprintf("%s|%s|%s|%v|%s|%s|%v|%s", c.Reported(), c.Full(), c.unrounded(), c.HasRule(), c.AppendNumber(nil, false), c.AppendNumber(nil, true), c.Field.Report, c.Field.Report.Short())
		if got != want {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
	w, err := s.Solution()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range w.Results {
		if c, _ := s.Output(line.Name); line.Reported != c.Reported() || line.Ruled != c.HasRule() || line.U != "" {
			t.Errorf("the board says %+v", line)
		}
	}
	for _, test := range []struct {
		report      Report
		long, short string
	}{
		{Report{}, "", ""}, {Report{Note: "no rule is known"}, "no rule is known", ""},
		{Report{Words: "1 mL below 100, 10 mL above", Status: Published}, "1 mL below 100, 10 mL above (published)", "1 mL below 100, 10 mL above (published)"},
	} {
		if test.report.String() != test.long || test.report.Short() != test.short {
			t.Errorf("%+v is %q and %q", test.report, test.report, test.report.Short())
		}
	}
	for name, want := range map[string]string{"twice": "1500 g", "same": "1.5 kg"} {
		if c, _ := s.Output(name); c.Spread(1.5) != want {
			t.Errorf("an uncertainty of %s is %s, want %s", name, c.Spread(1.5), want)
		}
	}
	maybe, _ := s.Output("maybe")
	for u, want := range map[float64]string{0: "10.0625", 0.5: "10.06", 1e300: "0", 1.001e300: "10.0625", 1e-291: "10.0625", math.NaN(): "10.0625"} {
		if got := maybe.ToPlaceOf(u); got != want {
			t.Errorf("10.0625 to the place of %v is %s, want %s", u, got, want)
		}
	}
	if got := maybe.ToPlaceOf(1e-290); !strings.HasPrefix(got, "10.0625000000") {
		t.Errorf("10.0625 to the place of 1e-290 is %s", got)
	}
	for _, test := range []struct {
		name, unit string
		kept       bool
	}{{"twice", "g", true}, {"twice", "kg", false}, {"square", "1", true}} {
		s := ran(t, "ratio", "2")
		if err := s.PrintIn(test.name, test.unit); err != nil {
			t.Fatal(err)
		}
		if c, _ := s.Output(test.name); c.HasRule() != test.kept {
			t.Errorf("%s in %s keeps its rule: %v, want %v", test.name, test.unit, c.HasRule(), test.kept)
		}
	}
}

// Bounds and units stand in the schema of a calculation, and each way to ask.
func TestSchemaOfAll(t *testing.T) {
	data, err := Schema(allSheet(t).Info())
	if err != nil {
		t.Fatal(err)
	}
	var schema struct {
		Properties map[string]struct {
			Low  *float64 `json:"value-minimum"`
			High *float64 `json:"value-maximum"`
		}
		Answers map[string]struct{ Unit, Absent *string }
	}
	if err := json.Unmarshal(data, &schema); err != nil {
		t.Fatal(err)
	}
	if p := schema.Properties["ratio"]; p.Low == nil || *p.Low != -1e300 || p.High == nil || *p.High != 1e300 {
		t.Errorf("the bounds of ratio: %s", data)
	}
	if a := schema.Answers; a["same"].Unit == nil || *a["same"].Unit != "as value" || a["square"].Unit != nil || a["said"].Unit != nil || a["maybe"].Absent == nil || a["same"].Absent != nil {
		t.Errorf("the answers: %s", data)
	}
	type in struct{ A, B paperprop.Ratio }
	type one struct{ Y paperprop.Ratio }
	type list struct{ Y []paperprop.Ratio }
	either := func(f *Form, i *in) {
		f.Exactly(1, In(f, &i.A, "a", "a", "1", ""), In(f, &i.B, "b", "b", "1", ""))
	}
	solvable := &Description[in, one]{Name: "e", Fields: func(f *Form, i *in, o *one) {
		either(f, i)
		Out(f, &o.Y, "y", "y", "1", "")
		Out(f, &o.Y, "a", "a2", "1", "") // an input too, so no output to give
	}}
	listed := &Description[in, list]{Name: "e", Fields: func(f *Form, i *in, o *list) {
		either(f, i)
		OutList(f, &o.Y, "y", "y", "1", "")
	}}
	for want, info := range map[string]*Info{
		`"allOf":[{"description":"exactly 1 of a, b","if":{"not":{"anyOf":[{"required":["y"]}]}},"then":{"oneOf":[{"required":["a"]},{"required":["b"]}]}}]`: solvable.Info(),
		`"allOf":[{"description":"exactly 1 of a, b","oneOf":[{"required":["a"]},{"required":["b"]}]}]`:                                                      listed.Info(),
	} {
		if data, err := Schema(info); err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%s, want in it %s; %v", data, want, err)
		}
	}
}

// typed is a calculation for the typed way in.
type typed struct {
	N, D, O paperprop.Ratio
	P, Q    *paperprop.Ratio
	L       []paperprop.Ratio
	W       string
}

type typedResult struct {
	Told  string
	Large paperprop.Ratio
	Many  []paperprop.Ratio
	May   *paperprop.Ratio
}

var errTyped = errors.New("13 is refused")

func typedDescription() *Description[typed, typedResult] {
	return &Description[typed, typedResult]{
		Name: "typed",
		Compute: func(in typed) (typedResult, error) {
			if in.N == 13 {
				return typedResult{}, errTyped
			}
			text := fmt.Sprintf("%v %v %v", float64(in.N), float64(in.D), float64(in.O))
			for _, p := range []*paperprop.Ratio{in.P, in.Q} {
				if p == nil {
					text += " nil"
				} else {
					text += fmt.Sprintf(" %v", float64(*p))
				}
			}
			x := in.O
			return typedResult{Told: text, Large: x, Many: []paperprop.Ratio{x}, May: &x}, nil
		},
		Fields: func(f *Form, in *typed, out *typedResult) {
			In(f, &in.N, "n", "n", "1", "").From(0.5).UpTo(20.5).Whole()
			In(f, &in.D, "d", "d", "1", "").From(1).Default(5)
			In(f, &in.O, "o", "o", "1", "").Optional()
			Pointer(f, &in.P, "p", "p", "1", "").From(0).Default(7)
			Pointer(f, &in.Q, "q", "q", "1", "").From(0)
			InList(f, &in.L, "l", "l", "1", "").From(0)
			InWord(f, &in.W, "w", "", "yes", "no")
			OutText(f, &out.Told, "told", "t", "", "")
			Out(f, &out.Large, "large", "x", "1", "")
			OutList(f, &out.Many, "many", "y", "1", "")
			OutPointer(f, &out.May, "may", "z", "1", "")
		},
	}
}

func TestPlural(t *testing.T) {
	for words, want := range map[string]string{"mass": "masses", "length": "lengths", "density": "densities", "ray": "rays"} {
		if got := plural(words); got != want {
			t.Errorf("plural(%q) = %q, want %q", words, got, want)
		}
	}
}

// What a typed struct leaves out is put in, and what it holds is checked.
func TestTyped(t *testing.T) {
	number := func(x float64) *paperprop.Ratio { return (*paperprop.Ratio)(&x) }
	list := []paperprop.Ratio{1}
	for _, test := range []struct {
		in   typed
		want string
	}{
		{typed{N: 1, L: list, W: "yes"}, "1 5 0 7 nil"},
		{typed{N: 20, D: 1, O: 3, P: number(0), Q: number(0), L: list, W: "no"}, "20 1 3 0 0"},
		{typed{N: 1, O: 1e300, L: list, W: "yes"}, "1 5 1e+300 7 nil"},
		{typed{N: 1, O: -1e300, L: list, W: "yes"}, "1 5 -1e+300 7 nil"},
		{typed{N: 1, O: 1.001e300, L: list, W: "yes"}, "large is not finite for these inputs: out of range"},
		{typed{N: 13, L: list, W: "yes"}, "13 is refused"},
		{typed{N: 0.5, L: list, W: "yes"}, "n is 0.5, want a whole number"},
		{typed{N: 20.5, L: list, W: "yes"}, "n is 20.5, want a whole number"},
		{typed{N: 0, L: list, W: "yes"}, "n is 0, want 0.5 to 20.5"},
		{typed{N: 1, D: 0.5, L: list, W: "yes"}, "d is 0.5, want at least 1"},
		{typed{N: 1, P: number(-1), L: list, W: "yes"}, "p is -1, want at least 0"},
		{typed{N: 1, Q: number(-1), L: list, W: "yes"}, "q is -1, want at least 0"},
		{typed{N: 1, W: "yes"}, "l is missing, want a list of numbers: "},
		{typed{N: 1, L: []paperprop.Ratio{-1, 2}, W: "yes"}, "l[1] is -1, want at least 0"},
		{typed{N: 1, L: []paperprop.Ratio{1, -2}, W: "yes"}, "l[2] is -2, want at least 0"},
		{typed{N: 1, L: list}, "w is missing, want yes or no: no default"},
		{typed{N: 1, L: list, W: "perhaps"}, `w is "perhaps", want yes or no`},
	} {
		out, err := typedDescription().Calculate(test.in)
		got := out.Told
		if err != nil {
			got = err.Error()
		}
		if got != test.want {
			t.Errorf("%+v: %s, want %s", test.in, got, test.want)
		}
	}
}

// Nothing of the caller's is held once an answer is given.
func TestHoldsNothing(t *testing.T) {
	type number struct{ X paperprop.Ratio }
	type list struct{ L []paperprop.Ratio }
	type warned struct {
		X paperprop.Ratio
		W Warnings
	}
	const size = 1 << 16
	lists := &Description[list, number]{Name: "l",
		Compute: func(in list) (number, error) { return number{}, nil },
		Fields: func(f *Form, in *list, out *number) {
			InList(f, &in.L, "l", "l", "1", "")
			Out(f, &out.X, "x", "x", "1", "")
		}}
	answers := &Description[number, list]{Name: "a",
		Compute: func(in number) (list, error) { return list{make([]paperprop.Ratio, size)}, nil },
		Fields: func(f *Form, in *number, out *list) {
			In(f, &in.X, "x", "x", "1", "")
			OutList(f, &out.L, "l", "l", "1", "")
		}}
	warns := &Description[number, warned]{Name: "w",
		Compute: func(in number) (warned, error) { return warned{W: make(Warnings, size)}, nil },
		Fields: func(f *Form, in *number, out *warned) {
			In(f, &in.X, "x", "x", "1", "")
			Out(f, &out.X, "y", "y", "1", "")
			f.Warnings(&out.W)
		}}
	for name, calculate := range map[string]func() func() bool{
		"a list given": func() func() bool {
			in := list{make([]paperprop.Ratio, size)}
			held := weak.Make(&in.L[0])
			lists.Calculate(in)
			return func() bool { return held.Value() != nil }
		},
		"a list answered": func() func() bool {
			out, _ := answers.Calculate(number{1})
			held := weak.Make(&out.L[0])
			return func() bool { return held.Value() != nil }
		},
		"warnings": func() func() bool {
			out, _ := warns.Calculate(number{1})
			held := weak.Make(&out.W[0])
			return func() bool { return held.Value() != nil }
		},
	} {
		held := calculate()
		runtime.GC() // one alone: a pool lets go of its own at the second
		if held() {
			t.Errorf("%s is held", name)
		}
	}
}

// A word left out again is no word, and a number put is in the unit named.
func TestLeftOutAgain(t *testing.T) {
	s := ran(t, "ratio", "2", "word", "yes")
	s.Reset()
	if err := s.Set("ratio", "2"); err != nil {
		t.Fatal(err)
	}
	if err := s.Run(); err != nil {
		t.Fatal(err)
	}
	if c, _ := s.Output("said"); c.Present() {
		t.Errorf("a word of an earlier run is said: %s", c.Word())
	}
	gram, _ := paperprop.ParseUnit("g")
	millimetre, _ := paperprop.ParseUnit("mm")
	s = ran(t, "ratio", "2", "value", "3 kg")
	as, _ := s.Input("as")
	values, _ := s.Input("values")
	as.PutUnit(gram)
	values.PutUnit(millimetre)
	same, _ := s.Output("same")
	for _, x := range []float64{500, 250, 1000} {
		as.Put(x)
		values.PutList([]float64{x, 1})
		if err := s.Run(); err != nil || same.Number() != 3+x/1000 || !slices.Equal(values.raw, []float64{x, 1}) {
			t.Errorf("3 kg and %v g are %s, %v; list %v", x, same.Full(), err, values.raw)
		}
	}
	mass, _ := s.Input("mass")
	if mass.Put(1); len(mass.raw) != 0 {
		t.Errorf("a mass keeps %v", mass.raw)
	}
}

// refusing refuses in the words of its input, by each of its inputs and outputs.
func refusingSheet(err func() error) *Sheet {
	type in struct {
		M paperprop.Mass
		V float64
		L []paperprop.Mass
	}
	type out struct{ Y paperprop.Mass }
	d := &Description[in, out]{
		Name:    "refusing",
		Compute: func(in) (out, error) { return out{}, err() },
		Fields: func(f *Form, i *in, o *out) {
			In(f, &i.M, "mass", "m", "kg", "")
			InValue(f, &i.V, "value", "v", "any", "")
			InList(f, &i.L, "list", "l", "kg", "")
			Out(f, &o.Y, "y", "y", "t", "")
			Out(f, &o.Y, "z", "z", "kg", "")
		},
	}
	return d.NewSheet()
}

// A refusal speaks of a value as it was typed, and of the others in its unit.
func TestRefusalAsWritten(t *testing.T) {
	kilogram := paperprop.Kilogram
	for _, test := range []struct {
		err  func() error
		want string
	}{
		{func() error { return Refuse("mass", 2*kilogram, "at most %v", 1*kilogram) }, "mass is 2000.0 g, want at most 1000 g"},
		{func() error { return Refuse("value", 2*kilogram, "at most %v", 1*kilogram) }, "value is 7.0 t, want at most 1 kg"},
		{func() error { return Refuse("list", 2*kilogram, "at most %v", 1*kilogram) }, "list is 2000 g, want at most 1000 g"},
		{func() error { return Refuse("y", 2*kilogram, "at most %v", 1*kilogram) }, "y is 0.002 t, want at most 0.001 t"},
		{func() error { return Refuse("other", 2*kilogram, "at most %v", 1*kilogram) }, "other is 2 kg, want at most 1 kg"},
		{func() error { return Refuse("mass", Members(2), "at most %v", Members(1)) }, "mass is 2000.0 g, want at most 1 value"},
		{func() error { return Refuse("y", paperprop.Mass(math.Inf(1)), "less") }, "y is infinite, want less"},
		{func() error {
			return &paperprop.RangeError{Input: "mass", Kind: paperprop.Mass(0).Kind(), Value: 2, Min: 0, Max: 1, Unit: paperprop.Mass(0).Kind().Canonical()}
		}, "mass is 2000.0 g, want 0 g to 1000 g"},
		{func() error {
			return &paperprop.RangeError{Input: "mass", Kind: paperprop.Length(0).Kind(), Value: 2, Min: 0, Max: 1, Unit: paperprop.Length(0).Kind().Canonical()}
		}, "mass is 2 mm, want 0 mm to 1 mm"},
		{func() error {
			return &paperprop.RangeError{Input: "inner", Kind: paperprop.Mass(0).Kind(), Value: 2, Min: 0, Max: 1, Unit: paperprop.Mass(0).Kind().Canonical()}
		}, "inner is 2 kg, want 0 kg to 1 kg"},
	} {
		s := refusingSheet(test.err)
		if err := s.SetText("mass=2000.0 g; value=7.0 t; list=[1 2] g"); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err == nil || err.Error() != test.want {
			t.Errorf("%v, want %s", err, test.want)
		}
	}
}

// The whole of what is said where a name or a text is no good.
func TestMessages(t *testing.T) {
	x64 := strings.Repeat("x", 64)
	for _, test := range []struct {
		err  error
		want string
	}{
		{&NameError{"all", "zzzzzz", nil, nil}, `all has no input or output "zzzzzz"`},
		{&NameError{"all", "rati", []string{"ratio"}, []string{"ratio", "x"}}, `all has no input or output "rati", near: ratio`},
		{&NameError{"all", "a", []string{"b", "c"}, nil}, `all has no input or output "a", near: b, c`},
		{&NameError{"all", "zzzzzz", nil, []string{"b", "c"}}, `all has no input or output "zzzzzz", want one of b, c`},
		{&InputError{"a", x64, errors.New("no")}, `a "` + x64 + `": no`},
		{&InputError{"a", x64 + "y", errors.New("no")}, `a "` + x64 + `…": no`},
		{&InputError{"a", x64[1:] + "é", errors.New("no")}, `a "` + x64[1:] + `…": no`},
		{&WholeError{"n", 2.5, "2.50"}, "n is 2.50, want a whole number"},
		{&WholeError{"n", 2.5, ""}, "n is 2.5, want a whole number"},
	} {
		if test.err.Error() != test.want {
			t.Errorf("%v, want %s", test.err, test.want)
		}
	}
	if got := Nearest(x64, []string{x64[1:] + "y"}); len(got) != 1 {
		t.Errorf("near 64 letters: %q", got)
	}
}

// What lists, means and uncertainties take, and which member they do not.
func TestMembersRead(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"list", "1; two", `list "1; two": member 2: no number, want a number and a unit`},
		{"list", "one; 2", `list "one; 2": member 1: no number, want a number and a unit`},
		{"list", "1; [2 3]", `list "1; [2 3]": member 2: want one number, not a list`},
		{"list", "1 mm 2 mm", `list "1 mm 2 mm": ` + errUnitsBetween.Error()},
		{"values", "1 t/h 2 kg/s", `values "1 t/h 2 kg/s": ` + errUnitsBetween.Error()},
		{"values", "1 t/h and 2 t/h", `values "1 t/h and 2 t/h": ` + errUnitsBetween.Error()},
		{"values", "1 2 lb/1000 ft2", "[1 2] lb/1000ft2"},
		{"values", "1 2 kg gg", `values "1 2 kg gg": unknown unit "kg gg", near: kg/kg`},
		{"values", "1 kg; 2 mm", `values "1 kg; 2 mm": member 2: mm is a unit of length and kg a unit of mass: one cannot be converted into the other`},
		{"ratio", "mean(1)", `ratio "mean(1)": want mean(READING READING ...) UNIT of two readings or more`},
		{"ratio", "mean(1 3)", "2 ± 1"},
		{"ratio", "3 ± 0", "3 ± 0"},
		{"ratio", "3 ± -1", `ratio "3 ± -1": an uncertainty of -1 is below zero, want 0 or more`},
		{"ratio", "3 ± readings(0.4, 1)", `ratio "3 ± readings(0.4, 1)": readings(0.4, 1), want readings(s, n): the standard deviation of n single readings, n from 2`},
		{"ratio", "3 ± readings(2, 4)", "3 ± 1"},
		{"degree", "20 degC ± 1.8 degF", "20 ± 1"},
		{"degree", "20 degC ± 1 K", "20 ± 1"},
		{"values", "1 kg; 500 g; 2 t", "[1 0.5 2000] kg"},
		{"values", "500 g; 1 kg", "[500 1000] g"},
	} {
		s := allSheet(t)
		got := ""
		if err := s.Set(test.name, test.text); err != nil {
			got = err.Error()
		} else if c, _ := s.Input(test.name); c.uncertain != nil {
			got = fmt.Sprintf("%.6g ± %.6g", c.Number(), c.uncertainNumbers()[0])
		} else {
			got = c.Full()
		}
		if got != test.want {
			t.Errorf("%s = %s: %s, want %s", test.name, test.text, got, test.want)
		}
	}
	if err := allSheet(t).Set("ratio", "3 ± readings(0.4, 2)"); err != nil {
		t.Errorf("two readings: %v", err)
	}
	if _, u, _, err := cutConcise(".5(1)"); err != nil || u != 0.1 {
		t.Errorf("the uncertainty of .5(1) is %v, %v, want 0.1", u, err)
	}
}

// The law of a run is worked out once, whoever asks, and anew for another run, correlation or
// degrees of freedom.
func TestLawOnce(t *testing.T) {
	type in struct{ A, B paperprop.Ratio }
	type out struct{ Y paperprop.Ratio }
	calls := 0
	d := &Description[in, out]{
		Compute: func(i in) (out, error) { calls++; return out{i.A + i.B}, nil },
		Fields: func(f *Form, i *in, o *out) {
			In(f, &i.A, "a", "a", "1", "")
			In(f, &i.B, "b", "b", "1", "")
			Out(f, &o.Y, "y", "y", "1", "")
		},
	}
	s := d.NewSheet()
	u := func() (u, freedom float64, took int) {
		t.Helper()
		before := calls
		all, err := s.Uncertainties()
		if err != nil {
			t.Fatal(err)
		}
		return all[0].Standard, all[0].Freedom, calls - before
	}
	rerun := func(a string) {
		t.Helper()
		if err := cmp.Or(s.Set("a", a), s.Set("b", "1 ± 4 1"), s.Run()); err != nil {
			t.Fatal(err)
		}
	}
	check := func(what string, wantU, wantFreedom float64, anew bool) {
		t.Helper()
		got, freedom, took := u()
		if !(math.Abs(got-wantU) <= 1e-11) || !(math.Abs(freedom-wantFreedom) <= 1e-9) || took > 0 != anew {
			t.Errorf("%s: u is %v with %v degrees of freedom after %d calls, want %v, %v", what, got, freedom, took, wantU, wantFreedom)
		}
	}
	rerun("1 ± 3 1")
	check("first", 5, 0, true)
	check("again", 5, 0, false)
	rerun("1 ± 0 1")
	check("another run", 4, 0, true)
	rerun("1 ± 3 1")
	if err := s.Correlate("a", "b", 1); err != nil {
		t.Fatal(err)
	}
	check("correlated", 7, 0, true)
	if err := cmp.Or(s.Correlate("a", "b", 0), s.SetFreedom("b", 256)); err != nil {
		t.Fatal(err)
	}
	check("with degrees of freedom", 5, 625, true) // 5^4/(4^4/256)
	if err := s.SetFreedom("b", 128); err != nil {
		t.Fatal(err)
	}
	check("with fewer", 5, 312.5, true)
}

// A total is taken up to its slack, but for the last digits.
func TestTotalSlack(t *testing.T) {
	type in struct{ L []paperprop.Ratio }
	type out struct{ Y paperprop.Ratio }
	d := &Description[in, out]{Compute: func(in) (out, error) { return out{}, nil }, Fields: func(f *Form, i *in, o *out) {
		InList(f, &i.L, "l", "l", "1", "").SumsTo(0, 1)
		Out(f, &o.Y, "y", "y", "1", "")
	}}
	for x, want := range map[float64]bool{0: true, 1: true, 1.000000000000009: true, -1.000000000000009: true, 1.00000000000002: false, 2: false, math.NaN(): false} {
		if _, err := d.Calculate(in{[]paperprop.Ratio{paperprop.Ratio(x)}}); (err == nil) != want {
			t.Errorf("a total of %v: %v", x, err)
		}
	}
}

// A row is read up to its most, and no byte further.
func TestRowEnds(t *testing.T) {
	b := &bounded{strings.NewReader("abcdef"), 3}
	p := make([]byte, 3)
	if n, err := b.Read(p); n != 3 || err != nil {
		t.Errorf("%d, %v", n, err)
	}
	if n, err := b.Read(p); n != 0 || err == nil || err.Error() != "a row of more than 1048576 bytes: is a quote not closed?" {
		t.Errorf("%d, %v", n, err)
	}
}

// A failure tells what was found in the unit of what was expected.
func TestFailureInUnit(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"twice", "2.5 kg", "twice is 2 kg, want 2.5 kg, difference -0.5"},
		{"twice", "2000 g", ""},
		{"same", "3000 g", ""},
		{"same", "3 mm", "same is "},
	} {
		c := Check{Calculation: "all", Inputs: []Pair{{"ratio", "2"}, {"mass", "1 kg"}, {"value", "3 kg"}}, Expected: []Pair{{test.name, test.text}}, Tolerance: Tolerance{Relative: 1e-9}}
		var got []string
		for _, f := range c.Run(func(string) (Calculation, bool) { return allSheet(t).of, true }) {
			got = append(got, f.String())
		}
		if text := strings.Join(got, "; "); text != test.want && !(test.text == "3 mm" && strings.HasPrefix(text, test.want)) {
			t.Errorf("%s = %s: %s, want %s", test.name, test.text, text, test.want)
		}
	}
}

func TestListFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list.txt")
	if _, err := ListFile(path); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no file: %v", err)
	}
	if err := os.WriteFile(path, []byte("\n---\n1 2 kg\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if text, err := ListFile(path); text != "[1 2] kg" || err != nil {
		t.Errorf("%q, %v", text, err)
	}
}

// A picture is drawn of what was computed, by a calculation that has one.
func TestPictureOfASheet(t *testing.T) {
	type in struct{ X paperprop.Ratio }
	for _, drawn := range []bool{true, false} {
		d := &Description[in, in]{Compute: func(i in) (in, error) { return i, nil }, Fields: func(f *Form, i, o *in) {
			In(f, &i.X, "x", "x", "1", "")
			Out(f, &o.X, "y", "y", "1", "")
			if drawn {
				f.Picture(func() *Picture { return &Picture{Title: "t"} })
			}
		}}
		if d.Info().Drawn != drawn {
			t.Errorf("drawn is %v, want %v", d.Info().Drawn, drawn)
		}
		s := d.NewSheet()
		if s.Picture() != nil {
			t.Error("a picture before the run")
		}
		if err := s.Set("x", "2"); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		if p := s.Picture(); (p != nil) != drawn {
			t.Errorf("the picture is %v", p)
		}
	}
}

// Of several forms of a formula the one is worked whose names all have values.
func TestFormsOfAFormula(t *testing.T) {
	type in struct{ A, B, C paperprop.Ratio }
	type out struct{ Y, Z paperprop.Ratio }
	for _, test := range []struct {
		formula []string
		want    string
	}{
		{[]string{"y = a*b", "y = a*c", "z = a"}, "y = a*c, z = a"},
		{[]string{"y = a*b", "z = a"}, "y = a*b, z = a"},
		{[]string{"y = a*b", "z = a*b"}, "y = a*b, z = a*b"},
	} {
		d := &Description[in, out]{Formula: test.formula, Compute: func(i in) (out, error) { return out{i.A * i.C, i.A}, nil }, Fields: func(f *Form, i *in, o *out) {
			In(f, &i.A, "a", "a", "1", "")
			In(f, &i.B, "b", "b", "1", "").Optional()
			In(f, &i.C, "c", "c", "1", "")
			Out(f, &o.Y, "y", "y", "1", "")
			Out(f, &o.Z, "z", "z", "1", "")
		}}
		s := d.NewSheet()
		if err := s.SetText("a=2 ± 0.2; c=2 ± 0.2"); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		w, err := s.Solution()
		if err != nil {
			t.Fatal(err)
		}
		var steps []string
		for _, step := range w.Steps {
			steps = append(steps, step.Formula)
		}
		if got := strings.Join(steps, ", "); got != test.want {
			t.Errorf("%q: worked %s, want %s", test.formula, got, test.want)
		}
		y := &w.Results[0]
		if b := y.Budget; len(b) != 2 || b[0].Name != "a" || b[1].Name != "c" {
			t.Errorf("equal shares stand as %+v, want them as they were described", b)
		}
		// By hand: 2·0.2·√2 is 0.5657, and the normal factor at 95 % is 1.96.
		if k, text, err := y.Expanded(0.95); err != nil || math.Abs(k-1.95996) > 1e-4 || text != "1.1" {
			t.Errorf("expanded: %v, %s, %v", k, text, err)
		}
		if _, _, err := y.Expanded(2); err == nil {
			t.Error("expanded at 200 %")
		}
	}
}

// A tool tells its cautions where it has some, and its fields are open.
func TestToolCautions(t *testing.T) {
	for _, cautions := range [][]*Caution{nil, {&allCaution}} {
		tool := &Tool{About: Info{Name: "tool", Cautions: cautions, Status: Memory}}
		data, err := AnswersJSON(tool, nil, []Answer{{Name: "a", Value: 1}})
		if err != nil || strings.Contains(string(data), "cautions") != (cautions != nil) || strings.Contains(string(data), `{"code":"sharp","text":"It is sharp."}`) != (cautions != nil) {
			t.Errorf("%s, %v", data, err)
		}
	}
	if f := NewField("a", "a", One, ""); !math.IsInf(f.Low, -1) || !math.IsInf(f.High, 1) {
		t.Errorf("a field goes from %v to %v", f.Low, f.High)
	}
}

// A whole number that lies at an end which is left out is whole all the same: what
// is wrong with it is the end.
func TestWholeAtTheEnd(t *testing.T) {
	type in struct{ N paperprop.Ratio }
	whole := &Description[in, in]{Compute: func(i in) (in, error) { return i, nil }, Fields: func(f *Form, i, o *in) {
		In(f, &i.N, "n", "n", "1", "").Above(0).Below(9).Whole()
		Out(f, &o.N, "y", "y", "1", "")
	}}
	for text, want := range map[string]string{
		"2.50": "n is 2.50, want a whole number", "0": "n is 0, want above 0 and below 9", "9.0": "n is 9.0, want above 0 and below 9", "10.5": "n is 10.5, want above 0 and below 9",
	} {
		s := whole.NewSheet()
		if err := s.Set("n", text); err != nil {
			t.Fatal(err)
		}
		if err := s.Run(); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// A value of any unit that fails is told in the unit of what was expected.
func TestFailureOfAValue(t *testing.T) {
	c := Check{Calculation: "all", Inputs: []Pair{{"ratio", "2"}, {"value", "3 kg"}}, Expected: []Pair{{"same", "3500 g"}}, Tolerance: Tolerance{Relative: 1e-9}}
	failures := c.Run(func(string) (Calculation, bool) { return allSheet(t).of, true })
	if want := "same is 3000 g, want 3500 g, difference -500"; len(failures) != 1 || failures[0].String() != want {
		t.Errorf("%v, want %s", failures, want)
	}
}

// An uncertainty is told in the unit of its value, whatever both were written in.
func TestUncertaintyOfARelative(t *testing.T) {
	data, err := ran(t, "ratio", "2", "value", "3 kg", "as", "500 ± 50 g").MarshalJSON()
	if want := `"as":{"value":0.5,"unit":"kg","u":0.05}`; err != nil || !strings.Contains(string(data), want) {
		t.Errorf("%s, want in it %s; %v", data, want, err)
	}
}

// The uncertainty of a member goes with it into the unit of the first.
func TestUncertaintyOfAMember(t *testing.T) {
	for text, want := range map[string][]float64{
		"1 ± 0.1 kg; 500 ± 50 g": {0.1, 0.05}, "1 kg; 500(50) g": {0, 0.05}, "500 ± 50 g; 1 kg ± 10 %": {50, 100}, "20 ± 1 degC; 68 ± 1.8 degF": {1, 1},
	} {
		s := allSheet(t, "values", text)
		c, _ := s.Input("values")
		us := c.uncertainNumbers()
		if len(us) != 2 || math.Abs(us[0]-want[0]) > 1e-12 || math.Abs(us[1]-want[1]) > 1e-12 {
			t.Errorf("%s: %v, want %v", text, us, want)
		}
	}
}
