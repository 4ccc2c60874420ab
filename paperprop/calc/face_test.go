package calc_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// A value of JSON is taken as the text that says the same.
func TestJSONValues(t *testing.T) {
	for _, test := range []struct{ calculation, input, raw, want string }{
		{"dilution", "mass-flow", `"300 t/h"`, "300 t/h"},
		{"dilution", "mass-flow", `{"value":300,"unit":"t/h"}`, "300 t/h"},
		{"dilution", "mass-flow", `{"unit":"t/h","value":300,"u":3}`, "300 ± 3 t/h"},
		{"dilution", "mass-flow", `{"value":3e2,"unit":"t/h"}`, "3e2 t/h"},
		{"bale-lot", "mass", `{"value":[612,588],"unit":"kg"}`, "[612 588] kg"},
		{"bale-lot", "mass", `{"value":[612,588],"unit":"kg","u":1}`, "[612 588] ± 1 kg"},
		{"bale-lot", "mass", `{"value":[9,0],"unit":"kg","u":[0.5,0.25]}`, "[9 0] ± [0.5 0.25] kg"},
		{"bale-lot", "mass", `{"value":[612,588],"unit":"kg","u":[1,2]}`, "[612 588] ± [1 2] kg"},
		{"bale-lot", "mass", `["612 kg","588 kg"]`, "612 kg; 588 kg"},
		{"bale-lot", "mass", `["612 kg"]`, "[612] kg"},
		{"bale-lot", "mass", `["612kg"]`, "[612] kg"},
		{"bale-lot", "mass", `["612(2) kg"]`, "[612(2)] kg"},
		{"bale-lot", "mass", `["612 ± 2 kg"]`, "[612] ± 2 kg"},
		{"blend", "consistency", `["0.05 1"]`, "[0.05] 1"},
		{"replicates", "value", `["612"]`, "[612]"},
		{"bale-lot", "mass", `[{"value":612,"unit":"kg","u":2},"1000 lb"]`, "612 ± 2 kg; 1000 lb"},
		{"blend", "consistency", `["0.05 1",{"value":0.06,"unit":"1","u":0.001}]`, "0.05 1; 0.06 ± 0.001 1"},
		{"blend", "consistency", `[{"value":0.06,"unit":"1","u":0.001}]`, "[0.06] ± 0.001 1"},
		{"blend", "consistency", `{"value":[0.05,0.06],"unit":"1","u":0.001}`, "[0.05 0.06] ± [0.001] 1"},
		{"bale-lot", "mass", `{"value":612,"unit":"kg"}`, "[612] kg"},
		{"blend", "consistency", `{"value":0.05,"unit":"1"}`, "[0.05] 1"},
		{"blend", "consistency", `{"value":0.05,"unit":"1","u":0.001}`, "[0.05] ± [0.001] 1"},
		{"dilution", "consistency-in", `{"value":0.859,"unit":"1","u":0.000859}`, "0.859 ± 0.000859 1"},
		{"moisture-claim", "rule", `"points"`, "points"},
		{"round", "figures", `3`, "3"},
	} {
		s := sheet(t, test.calculation)
		if err := s.SetJSON([]byte(fmt.Sprintf(`{%q:%s}`, test.input, test.raw))); err != nil {
			t.Errorf("%s: %v", test.raw, err)
			continue
		}
		if c, _ := s.Input(test.input); c.AsWritten() != test.want || !c.Given() {
			t.Errorf("%s is taken as %q, want %q", test.raw, c.AsWritten(), test.want)
		}
	}
	for _, test := range []struct{ data, want string }{
		{``, "want a JSON object"}, {`[]`, `JSON: begins with '[', want a JSON object such as {"mass-flow":"300 t/h"}`}, {`null`, "want a JSON object"}, {`{`, "JSON: "}, {`{"a":1} {}`, "text after the object"}, {`{"a":1,}`, "JSON: after byte 7: invalid character '}'"}, {`{a:1}`, "JSON: after byte 1: invalid character 'a'"},
		{`{"mass-flow":"1 t/h","mass-flow":"2 t/h"}`, "mass-flow is given twice, want it once"},
		{`{"mass-flow":300}`, `mass-flow "300": unit missing`},
		{`{"mass-flow":true}`, `want "4 %", {"value":4,"unit":"%"}, a list of these or a word`},
		{`{"mass-flow":null}`, `want "4 %"`}, {`{"mass-flow":[[1]]}`, `member 1: a list, want "4 %" or {"value":4,"unit":"%"}`}, {`{"mass-flow":["1 t/h",true]}`, `member 2: true, want "4 %" or {"value":4,"unit":"%"}`},
		{`{"mass-flow":{"unit":"t/h"}}`, `value is missing, want it beside its unit: {"value":4,"unit":"%"}`},
		{`{"mass-flow":{"value":"300","unit":"t/h"}}`, `value is "300", want a number such as 4, or a list of numbers`},
		{`{"mass-flow":{"value":true,"unit":"t/h"}}`, `value is true, want a number such as 4, or a list of numbers`},
		{`{"mass-flow":{"value":[1,"x"],"unit":"t/h"}}`, `member 2 of value is "x", want a number such as 4`},
		{`{"mass-flow":{"value":1,"units":"t/h"}}`, `unknown name "units", want value, unit, u`},
		{`{"mass-flow":{"value":1,"unit":3}}`, `mass-flow "{\"value\":1,\"unit\":3}": unit is 3, want a unit alone, as a text such as "%"`},
		{`{"mass-flow":{"value":1,"unit":"2"}}`, `unit is "2", want a unit alone, as a text such as "%"`},
		{`{"mass-flow":{"value":1,"unit":"2 t/h"}}`, `unit is "2 t/h", want`},
		{`{"mass-flow":{"value":1,"unit":"t/h; 2 t/h"}}`, `unit is "t/h; 2 t/h", want`},
		{`{"mass-flow":{"value":1,"unit":"± 0.1 t/h"}}`, `unit is "± 0.1 t/h", want`},
		{`{"mass-flow":{"value":[1,null,3],"unit":"t/h"}}`, `member 2 of value is null, want a number such as 4`},
		{`{"mass-flow":{"value":[1,"3"],"unit":"t/h"}}`, `member 2 of value is "3", want a number such as 4`},
		{`{"mass-flow":{"value":[1],"unit":"t/h","u":[null]}}`, `member 1 of u is null, want a number such as 4`},
		{`{"mass-flow":{"value":1,"unit":"t/h","u":[0.1]}}`, `u is [0.1], want one number beside one`},
		{`{"mass-flow":{"value":1,"unit":"t/h","u":null}}`, `u is null, want a number such as 4, or a list of numbers`},
		{`{"mass-flow":{"value":null,"unit":"t/h"}}`, `value is null, want a number such as 4, or a list of numbers`},
		{`{"mass-flow":{"value":1,"unit":null}}`, `unit is null, want a unit alone, as a text such as "%"`},
		{`{"mass-flow":["[1 2] t/h"]}`, `member 1: a list, want "4 %"`},
		{`{"mass-flow":[{"value":[1,2],"unit":"t/h"}]}`, `member 1: a list, want "4 %"`}, {`{"mass-flow":[]}`, "a list without a number, want one at least in the brackets"},
		{`{"mass-flow":[300,400]}`, "want one number, not a list"},
		{`{"mass-flow":["300 t/h","400 t/h"]}`, "want one number, not a list"},
		{`{"mas-flow":"300 t/h"}`, `"mas-flow"`},
	} {
		if err := sheet(t, "dilution").SetJSON([]byte(test.data)); err == nil || !strings.Contains(err.Error(), test.want) {
			t.Errorf("%s: %v, want %s", test.data, err, test.want)
		}
	}
}

// A list of one is refused as its member would be, or as a list.
func TestJSONListOfOne(t *testing.T) {
	for member, want := range map[string]string{
		"1 234 kg": `mass "[\"1 234 kg\"]": member 1: want one number, not a list; without blanks between digits it is 1234`,
		"12 34 kg": `mass "[\"12 34 kg\"]": member 1: want one number, not a list`,
		"kg":       `mass "[kg]": units within brackets, want one for all after them, [50 60] g, or members with units separated by commas, [50 g, 2 oz]`,
		"612 l":    `mass "[612] l": "l" is no unit of mass, want kg or mg`,
	} {
		data, _ := json.Marshal(map[string][]string{"mass": {member}})
		if err := sheet(t, "bale-lot").SetJSON(data); err == nil || err.Error() != want {
			t.Errorf("%s: %v, want %s", data, err, want)
		}
	}
}

// What holds for every object of a stream may not be given by one of them too.
func TestGivenForAll(t *testing.T) {
	s := sheet(t, "dilution")
	given := []calc.Pair{{Name: "consistency-in", Text: "4.6 %"}, {Name: "consistency-out", Text: "0.92 %"}}
	for range 2 { // again and again
		if _, err := s.AnswerJSON(given, []byte(`{"mass-flow":"300 t/h"}`)); err != nil || s.Out[0].Reported() != "1200 t/h" {
			t.Errorf("%s, %v", s.Out[0].Reported(), err)
		}
	}
	_, err := s.AnswerJSON(given, []byte(`{"mass-flow":"300 t/h","consistency-in":"4 %"}`))
	if err == nil || !strings.Contains(err.Error(), "4.6 % is given for every object already, want it in one place") {
		t.Errorf("given twice: %v", err)
	}
	if _, err = s.AnswerJSON([]calc.Pair{{Name: "consistency-in", Text: "4.6"}}, []byte(`{"mass-flow":"300 t/h"}`)); err == nil || !strings.Contains(err.Error(), "unit missing") {
		t.Errorf("a bad value for all: %v", err)
	}
}

// Texts come through JSON as they are, whatever is in them.
func TestJSONText(t *testing.T) {
	for _, text := range []string{"plain", `a "quote" and a \`, " ~", "é ± €", "a\tb\nc", "<&>", "\x7f", ""} {
		var told struct {
			Error struct{ Code, Input, Text string }
		}
		data := calc.ErrorJSON(text, errors.New(text))
		if err := json.Unmarshal(data, &told); err != nil || told.Error.Text != text {
			t.Errorf("%q is written as %s: %v", text, data, err)
		}
		if strings.Contains(string(data), `\u003c`) {
			t.Errorf("%s is written for a page", data)
		}
	}
	if data := string(calc.ErrorLineJSON("dilution", 7, &calc.InputError{Input: "mass-flow", Text: "x", Err: errors.New("no")})); !strings.Contains(data, `"line":7`) || !strings.Contains(data, `"input":"mass-flow"`) {
		t.Errorf("an error of a line: %s", data)
	}
	for _, test := range []struct{ name, inputs, code, input string }{
		{"dilution", `{"mass-flow": "1e303 t/h", "consistency-in": "4 %", "consistency-out": "1 %"}`, "range", "water-flow"},
		{"basis-weight", `{"ream": "bok", "basis-weight": "60 lb"}`, "word", "ream"},
		{"basis-weight", `{"ream": "", "basis-weight": "60 lb"}`, "missing", "ream"},
	} {
		c, _ := catalogue.Find(test.name)
		_, err := calc.RunJSON(c, []byte(test.inputs))
		if code, input := calc.Code(err); code != test.code || input != test.input {
			t.Errorf("%s %s: %v has the code %q, input %q, want %q and %q", test.name, test.inputs, err, code, input, test.code, test.input)
		}
	}
	if code, input := calc.Code(nil); code != "" || input != "" {
		t.Errorf("no error has the code %q, input %q", code, input)
	}
	if data := string(calc.ErrorJSON("dilution", errors.New("no"))); strings.Contains(data, `"line":`) || strings.Contains(data, `"input":`) {
		t.Errorf("an error of no line: %s", data)
	}
}

type told struct {
	Value, U *float64
	Unit     string
	Freedom  *float64
	Expanded *struct{ U, K, Confidence float64 }
}

// The answer tells the inputs as given, what was solved for and what was assumed,
// and uncertainty where there is some.
func TestAnswer(t *testing.T) {
	for _, test := range []struct {
		inputs            string
		solved, u, assume bool
	}{
		{"mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %", false, false, true},
		{"mass-flow=300 t/h; consistency-in=4.6 %; consistency-out=0.92 %; water-consistency=0 %", false, false, false},
		{"mass-flow=300 ± 3 t/h; consistency-in=4.6 %; consistency-out=0.92 %", false, true, true},
		{"mass-flow=300 ± readings(3, 5) t/h; consistency-in=4.6 %; consistency-out=0.92 %", false, true, true},
		{"mass-flow=300 t/h; consistency-in=4.6 %; water-flow=1200 t/h", true, false, true},
	} {
		s := given(t, "dilution", test.inputs)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		data, err := s.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		var answer struct {
			Outputs  map[string]told
			Solved   json.RawMessage
			Defaults json.RawMessage
			Roots    json.RawMessage
		}
		if err := json.Unmarshal(data, &answer); err != nil {
			t.Fatal(err)
		}
		water := answer.Outputs["water-flow"]
		if water.Value == nil || !(math.Abs(*water.Value-1200) <= 1e-9) || water.Unit != "t/h" || (water.U != nil) != test.u {
			t.Errorf("%s: water-flow is %s", test.inputs, data)
		}
		if (water.Freedom != nil) != strings.Contains(test.inputs, "readings") || water.Expanded != nil {
			t.Errorf("%s: freedom %v, expanded %v", test.inputs, water.Freedom, water.Expanded)
		}
		if assumed := strings.Contains(string(data), `"defaults"`) || strings.Contains(string(data), `"assumed"`); assumed != test.assume {
			t.Errorf("%s: assumed is there: %v in %s", test.inputs, assumed, data)
		}
	}
}

// A tool answers a request of JSON as it answers texts.
func TestToolJSON(t *testing.T) {
	c, ok := catalogue.Find("convert")
	if !ok {
		t.Fatal("no convert")
	}
	tool := c.(*calc.Tool)
	data, err := tool.AnswerJSON([]calc.Pair{{Name: "to", Text: "lb"}}, []byte(`{"value":"1 kg"}`))
	if err != nil {
		t.Fatal(err)
	}
	var answer struct {
		Calculation string
		Inputs      map[string]string
		Outputs     map[string]told
	}
	if err := json.Unmarshal(data, &answer); err != nil {
		t.Fatal(err)
	}
	found := false
	for _, o := range answer.Outputs {
		found = found || o.Value != nil && o.Unit == "lb" && math.Abs(*o.Value-1/0.45359237) < 1e-9 // published: the pound is 0.45359237 kg
	}
	if !found || answer.Calculation != "convert" || answer.Inputs["value"] != "1 kg" || answer.Inputs["to"] != "lb" {
		t.Errorf("%s", data)
	}
	for request, want := range map[string]string{
		`{"value":"1 kg","to":"g"}`: "lb is given for every object already", `{"valu":"1 kg"}`: `convert has no input or output "valu", near: value`, `{"value":true}`: "want \"4 %\"", `[]`: "want a JSON object", `{"value":"1 kgg"}`: "kgg",
	} {
		if _, err := tool.AnswerJSON([]calc.Pair{{Name: "to", Text: "lb"}}, []byte(request)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", request, err, want)
		}
	}
}

// An answer of a tool is restated whole, list and all.
func TestRestate(t *testing.T) {
	kilogram, _ := paperprop.ParseUnit("kg")
	gram, _ := paperprop.ParseUnit("g")
	metre, _ := paperprop.ParseUnit("m")
	for _, test := range []struct {
		answer       calc.Answer
		people, full string
	}{
		{calc.Answer{Name: "m", Value: 1.2345678, Unit: kilogram}, "1234.57 g", "1234.5678 g"},
		{calc.Answer{Name: "m", List: []float64{1, 2.5}, Unit: kilogram}, "[1000 2500] g", "[1000 2500] g"},
	} {
		a := test.answer
		if err := a.Restate(gram); err != nil || a.People() != test.people || a.Full() != test.full {
			t.Errorf("%+v is %q and %q, %v, want %q and %q", test.answer, a.People(), a.Full(), err, test.people, test.full)
		}
		if err := a.Restate(metre); err == nil || !strings.HasPrefix(err.Error(), `m "m": `) || a.Unit != gram {
			t.Errorf("a mass in metres: %v, %v", a, err)
		}
	}
	degF, _ := paperprop.ParseUnit("degF_diff")
	kelvin, _ := paperprop.ParseUnit("K") // of a temperature, if nothing tells otherwise
	s := calc.Answer{Name: "s", Value: 9, U: 1.8, Unit: degF}
	if err := s.Restate(kelvin); err != nil || s.People() != "5 K" || s.U != 1 {
		t.Errorf("9 degF_diff in K: %s ± %v, %v", s.People(), s.U, err)
	}
	if a := (calc.Answer{Name: "w", Text: "yes"}); a.People() != "yes" || a.Full() != "yes" {
		t.Errorf("a word is %q and %q", a.People(), a.Full())
	}
}

func TestTableText(t *testing.T) {
	for _, test := range []struct {
		rows       [][]float64
		unit, want string
	}{
		{[][]float64{{1, 2}, {3, math.NaN()}}, "g", "[1 2 | 3 -] g"},
		{[][]float64{{1}}, "", "[1]"},
		{[][]float64{{1}, {2}, {3.5}}, "mm", "[1 | 2 | 3.5] mm"},
		{[][]float64{{math.NaN(), 2, 3}}, "mm", "[- 2 3] mm"},
	} {
		if got := calc.TableText(test.rows, test.unit); got != test.want {
			t.Errorf("TableText(%v, %q) = %q, want %q", test.rows, test.unit, got, test.want)
		}
	}
}

// A list in a file is the numbers after its last line of ---, and a unit.
func TestReadList(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"1\n2\n3\n", "[1 2 3] "}, {"1 2 3 kg", "[1 2 3] kg"}, {"title\n---\n1\n2 kg/m3\n", "[1 2] kg/m3"},
		{"---\n1\n2", "[1 2] "}, {"a\n---\n5\n--- more ---\n1\n2", "[1 2] "}, {"-1 -2 g", "[-1 -2] g"}, {"1 2 g and so on", "[1 2] g and so on"},
		{"", ""}, {"---\n", ""}, {"title", ""}, {"1 2\n---\n", ""}, {"kg 1 2", ""},
	} {
		got, err := calc.ReadList("a.txt", strings.NewReader(test.text))
		if got != test.want || (err != nil) != (test.want == "") || err != nil && err.Error() != "a.txt: no numbers, want one a line after a line of ---" {
			t.Errorf("%q: %q, %v, want %q", test.text, got, err, test.want)
		}
	}
	const most = 4 << 20
	for over, want := range map[int]bool{0: true, 1: false, 100: false} {
		_, err := calc.ReadList("a.txt", strings.NewReader(strings.Repeat(" ", most-1+over)+"1"))
		if (err == nil) != want || err != nil && err.Error() != "a.txt: longer than 4194304 bytes" {
			t.Errorf("%d bytes: %v", most+over, err)
		}
	}
}

// Names of calculations and inputs that are nearly right are found; others are not.
func TestNearest(t *testing.T) {
	names := []string{"mass-flow", "mass", "flow", "consistency", "consistency-in"}
	for _, test := range []struct {
		name string
		want []string
	}{
		{"mass-flo", []string{"mass-flow"}}, {"MASS-FLOW", []string{"mass-flow"}}, {"mss", []string{"mass"}}, {"consistenc", []string{"consistency", "consistency-in"}},
		{"floe", []string{"flow"}}, {"fl", nil}, {"low", []string{"flow", "mass-flow"}}, {"zzzz", nil}, {strings.Repeat("x", 65), nil}, {"", nil},
		{"massif-of-rock", []string{"mass"}}, {"mass-flow-of-the-feed", []string{"mass-flow"}}, {"flo-of-the-feed", nil},
	} {
		if got := calc.Nearest(test.name, names); !slices.Equal(got, test.want) {
			t.Errorf("near %q: %q, want %q", test.name, got, test.want)
		}
	}
	if got := calc.Nearest("a1", []string{"a2", "a3", "a4", "a5"}); len(got) != 3 {
		t.Errorf("%d names are near, want three at most", len(got))
	}
}

// filled is a sheet with inputs as a check table has them.
func filled(t *testing.T, calculation, inputs string) *calc.Sheet {
	t.Helper()
	s := sheet(t, calculation)
	if err := s.SetText(inputs); err != nil {
		t.Fatal(err)
	}
	return s
}

// What is said again of a correlation holds, and Reset ends it; a source is said once.
// By hand (common-practice), of 300 ± 3 t/h from 4.6 ± 0.05 to 0.92 ± 0.01 %: shares of
// 12, 16.30 and -16.30 t/h, 25.99 t/h in all, and 12 where the last two cancel.
func TestCorrelatedAgain(t *testing.T) {
	s := sheet(t, "dilution")
	u := func() float64 {
		t.Helper()
		for name, text := range map[string]string{"mass-flow": "300 ± 3 t/h", "consistency-in": "4.6 ± 0.05 %", "consistency-out": "0.92 ± 0.01 %"} {
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
		return all[0].Standard
	}
	near := func(got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 0.01) {
			t.Errorf("u is %v, want %v", got, want)
		}
	}
	near(u(), 25.99)
	for _, test := range []struct{ r, want float64 }{{1, 12}, {0, 25.99}, {0.5, 20.24}} {
		if err := s.Correlate("consistency-in", "consistency-out", test.r); err != nil {
			t.Fatal(err)
		}
		near(u(), test.want)
	}
	if err := s.Correlate("consistency-out", "consistency-in", 1); err != nil {
		t.Fatal(err)
	}
	near(u(), 12)
	s.Reset()
	near(u(), 25.99)
	if _, err := (calc.MonteCarlo{Draws: 100}).Run(context.Background(), s); err != nil {
		t.Error(err)
	}
	if err := s.SetSource("meter", "0.1 %"); err != nil {
		t.Error(err)
	}
	if err := s.SetSource("meter", "0.1 %"); err != nil {
		t.Error(err)
	}
	if err := s.SetSource("meter", "0.5 %"); err == nil || err.Error() != `source meter "0.5 %": already given differently, and inputs may use it` {
		t.Error(err)
	}
}

// No number before an end that is not taken is a root: no flow needs no water.
func TestNoRootAtAnOpenEnd(t *testing.T) {
	for _, test := range []struct{ calculation, inputs, want string }{
		{"dilution", "consistency-in=4.6 %; consistency-out=0.92 %; water-flow=0 t/h", "no mass-flow between 0 t/h and 1000000000 t/h gives water-flow 0 t/h"},
		{"grammage", "area=1 m2; grammage=0 g/m2", "no mass between "},
	} {
		s := filled(t, test.calculation, test.inputs)
		var none *calc.NoRootError
		if err := s.Run(); !errors.As(err, &none) || !strings.HasPrefix(err.Error(), test.want) {
			t.Errorf("%s: %s: %v, roots %v, want %s", test.calculation, test.inputs, err, s.Roots, test.want)
		}
	}
}

// What an output does not depend on is no root, whatever computing leaves behind the
// last digits where the unknown is next to nothing; nor is it in pieces where the output
// stands still.
func TestFlatWithNoise(t *testing.T) {
	const pulping = "bale-flow=28 t/h; bale-moisture=10 %; reject-rate=6 %; reject-dryness=?; consistency=4.2 %; "
	const two = "dry-share=[94 6] %; consistency=[3.4 4.0] %; consistency-out="
	const stack = "box-compression=2.06 kN; mass=8.4 kg; layers=?; multiplier=[0.6 0.8 0.85]; most-layers="
	for _, test := range []struct{ calculation, inputs, want string }{
		{"pulping", pulping + "stock-flow=564 t/h", "stock-flow does not depend on reject-dryness"},
		{"pulping", pulping + "stock-dry-flow=23.688 t/h", "stock-dry-flow does not depend on reject-dryness"},
		{"proportioning", two + "3.43087790110999 %", "consistency-out does not depend on dry-flow"},
		{"proportioning", two + "3.43088 %", "consistency-out does not depend on dry-flow"},
		{"stacking", stack + "5", "most-layers does not depend on layers"}, // one layer alone is refused
		{"stacking", stack + "11", "most-layers does not depend on layers"},
	} {
		s := filled(t, test.calculation, test.inputs)
		if err := s.Run(); err == nil || err.Error() != test.want {
			t.Errorf("%s: %s: %v, roots %v, want %s", test.calculation, test.inputs, err, s.Roots, test.want)
		}
	}
}

// What a choice leaves to be computed may be asked for as ?, without an output to solve
// from. Kind: published, area of the ring of paper; value of check TR-001.
func TestAskedForResult(t *testing.T) {
	s := filled(t, "reel", "length=3534.29173529 m; diameter=?; core-diameter=100 mm; reel-thickness=345 um")
	if err := s.Run(); err != nil || len(s.Roots) > 0 {
		t.Fatalf("%v, roots %v", err, s.Roots)
	}
	diameter, _ := s.Output("diameter")
	if got := diameter.Reported(); got != "1250 mm" {
		t.Errorf("the diameter is %s, want 1250 mm", got)
	}
}

// A number of whole things that is the only one before the next is refused is told
// with all that leads to it, and no other number has a root.
func TestOneStepAlone(t *testing.T) {
	const short = "jumbo-length=7000 m; reel-length=5200 m; lost-length=?; "
	for _, test := range []struct{ inputs, want string }{
		{short + "sets=1", "0 to 1800 m"},
		{short + "sets=2", "no lost-length between 0 m and 1000000000 m gives sets 2"},
		{"jumbo-length=20817 m; reel-length=6555 m; lost-length=?; sets=2", "1152 to 7707 m"},
	} {
		s := filled(t, "sets", test.inputs)
		var got []string
		if err := s.Run(); err != nil {
			got = append(got, err.Error())
		}
		for _, r := range s.Roots {
			got = append(got, r.People())
		}
		if !slices.Equal(got, []string{test.want}) {
			t.Errorf("%s: %q, want %q", test.inputs, got, test.want)
		}
	}
}

// What was solved for is the first result of a worked solution, with its uncertainty;
// an output of the same name does not say it again.
func TestSolutionOfUnknown(t *testing.T) {
	for _, test := range []struct{ calculation, inputs, want string }{
		// 60 lb over 500 sheets of 25 in by 38 in: 27215.5422/306.45093 m2 (by hand)
		{"basis-weight", "ream=book; basis-weight=60 ± 1 lb", "grammage 88.80878901 g/m2, solved for, u 1.5 g/m2; basis-weight 60 lb, , u 1.0 lb; ream-area 3298.611111 ft2, , u 0 ft2"},
		// pi/4*(1.2^2 - 0.1^2) m2*2.4 m*0.12 kg/m2/2000 kg (by hand)
		{"reel-mass", "diameter=1200 mm; core-diameter=100 mm; mass=2000 kg; reel-width=2.4 m; grammage=120 g/m2; reel-thickness=?",
			"reel-thickness 161.7291898 um, solved for, u ; length 6944.444444 m, , u ; diameter 1200 mm, , u ; mass 2000 kg, , u ; roll-density 741.9810867 kg/m3, , u "},
	} {
		s := filled(t, test.calculation, test.inputs)
		if err := s.Run(); err != nil {
			t.Fatal(err)
		}
		w, err := s.Solution()
		if err != nil {
			t.Fatal(err)
		}
		var lines []string
		for _, r := range w.Results {
			lines = append(lines, fmt.Sprintf("%s %s, %s, u %s", r.Name, r.Full, r.Rule, r.U))
		}
		if got := strings.Join(lines, "; "); got != test.want {
			t.Errorf("%s: %s\n got %s\nwant %s", test.calculation, test.inputs, got, test.want)
		}
	}
}

// A part of a JSON Schema, as far as values are written in one.
type part struct {
	Type       any // a name or several
	Enum       []string
	Items      *part
	MinItems   int
	Minimum    *float64
	Properties map[string]*part
	Required   []string
	More       *bool `json:"additionalProperties"`
}

func (p *part) allows(value any) bool {
	var name string
	switch v := value.(type) {
	case nil:
		name = "null"
	case bool:
		name = "boolean"
	case float64:
		if p.Minimum != nil && v < *p.Minimum {
			return false
		}
		name = "number"
	case string:
		if p.Enum != nil {
			return slices.Contains(p.Enum, v)
		}
		name = "string"
	case []any:
		if len(v) < p.MinItems || p.Items != nil && slices.ContainsFunc(v, func(x any) bool { return !p.Items.allows(x) }) {
			return false
		}
		name = "array"
	case map[string]any:
		for name, x := range v {
			if p.Properties[name] != nil && !p.Properties[name].allows(x) || p.Properties[name] == nil && p.More != nil && !*p.More {
				return false
			}
		}
		if slices.ContainsFunc(p.Required, func(name string) bool { return v[name] == nil }) {
			return false
		}
		name = "object"
	}
	switch types := p.Type.(type) {
	case string:
		return types == name
	case []any:
		return slices.Contains(types, any(name))
	}
	return p.Enum == nil
}

// A schema allows a value in the shapes in which it is taken, and in no others.
func TestSchemaOfValues(t *testing.T) {
	for _, group := range catalogue.Groups() {
		for _, c := range group.Calculations {
			if c.Info().Tool {
				continue
			}
			data, err := calc.Schema(c.Info())
			var schema part
			if err := errors.Join(err, json.Unmarshal(data, &schema)); err != nil {
				t.Fatal(err)
			}
			s := c.NewSheet()
			for _, cell := range slices.Concat(s.In, s.Out) {
				p := schema.Properties[cell.Name]
				if p == nil {
					continue
				}
				for _, raw := range valuesOf(cell.Field) {
					var value any
					if err := json.Unmarshal([]byte(raw), &value); err != nil {
						t.Fatalf("%s: %v", raw, err)
					}
					s.Reset()
					err := s.SetJSON([]byte(fmt.Sprintf(`{%q:%s}`, cell.Name, raw)))
					if p.allows(value) != (err == nil) {
						t.Errorf("%s %s %s: allowed by the schema %v, but %v", c.ID(), cell.Name, raw, p.allows(value), err)
					}
				}
			}
		}
	}
}

// The schema of a catalogue says of each calculation what its own schema says, with the
// forms of values by reference.
func TestCatalogueSchema(t *testing.T) {
	var infos []*calc.Info
	for _, c := range catalogue.All() {
		infos = append(infos, c.Info())
	}
	data, err := calc.CatalogueSchema(infos)
	var all struct {
		Definitions map[string]map[string]any `json:"$defs"`
	}
	if err := errors.Join(err, json.Unmarshal(data, &all)); err != nil {
		t.Fatal(err)
	}
	for _, info := range infos {
		data, err := calc.Schema(info)
		var want map[string]any
		if err := errors.Join(err, json.Unmarshal(data, &want)); err != nil {
			t.Fatal(err)
		}
		delete(want, "$schema")
		got := all.Definitions[info.Name]
		properties, _ := got["properties"].(map[string]any)
		for _, p := range properties {
			property := p.(map[string]any)
			if to, ok := property["$ref"].(string); ok {
				delete(property, "$ref")
				maps.Copy(property, all.Definitions[strings.TrimPrefix(to, "#/$defs/")])
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s alone and in the catalogue:\n%s", info.Name, diff)
		}
	}
	if n := bytes.Count(data, []byte(`"minItems"`)); n != 6 {
		t.Errorf("minItems stands %d times, want 3 in each of the two forms of lists", n)
	}
}

// valuesOf writes a value of a field in all shapes of JSON.
func valuesOf(f *calc.Field) []string {
	values := []string{
		`null`, `true`, `[]`, `{}`, `[null]`, `[true]`, `[[1]]`, `{"a":1}`, `{"value":null}`, `{"value":true}`, `{"value":[]}`, `{"value":[null]}`, `{"value":[[1]]}`,
	}
	if f.Shape == calc.Word {
		return append(values, `1`, fmt.Sprintf("%q", f.Choices[0]), fmt.Sprintf("[%q]", f.Choices[0]), `{"value":1}`)
	}
	values = append(values, `1`, `[1]`)
	for _, form := range []string{
		`"1 UNIT"`, `{"value":1,"unit":"UNIT"}`, `{"value":1,"unit":"UNIT","u":0.1}`, `["1 UNIT"]`, `["1 UNIT","2 UNIT"]`, `[{"value":1,"unit":"UNIT"}]`,
		`{"value":[1],"unit":"UNIT"}`, `{"value":[1,2],"unit":"UNIT"}`, `{"value":[1,2],"unit":"UNIT","u":0.1}`, `{"value":[1,2],"unit":"UNIT","u":[0.1,0.1]}`,
		`{"value":1,"unit":"UNIT","u":null}`, `{"value":[1,null],"unit":"UNIT"}`, `{"value":1,"unit":null}`, `{"value":"1","unit":"UNIT"}`, `{"value":1,"unit":"UNIT","k":2}`,
		`{"value":1}`, `{"value":1,"u":0.1}`, `{"value":1,"unit":"UNIT","u":-0.1}`, `{"value":[1,2],"unit":"UNIT","u":-0.1}`, `{"value":[1,2],"unit":"UNIT","u":[0.1,-0.1]}`,
		`[{"value":1,"unit":"UNIT","u":0.1}]`, `[{"value":1}]`, `[{"a":1}]`, `[{"value":[1],"unit":"UNIT"}]`,
		`{"value":1,"unit":"UNIT","u":[0.1]}`, `["1 UNIT",null]`, `[["1 UNIT"]]`, `{"value":1,"unit":["UNIT"]}`,
	} {
		unit := "1"
		if f.Kind != nil {
			unit = f.Unit.String()
		}
		values = append(values, strings.ReplaceAll(form, "UNIT", unit))
	}
	return values
}

// A number has the same digits in JSON, in a cell of CSV and with --full, alone and
// in a list.
func TestDigitsOfFaces(t *testing.T) {
	for _, group := range catalogue.Groups() {
		for _, c := range group.Calculations {
			if c.Info().Tool {
				continue
			}
			s := c.NewSheet()
			err := s.SetText(c.Info().Example)
			data, jsonErr := []byte(nil), s.Run()
			if jsonErr == nil {
				data, jsonErr = s.MarshalJSON()
			}
			var answer struct{ Outputs map[string]json.RawMessage }
			if err := errors.Join(err, jsonErr, json.Unmarshal(data, &answer)); err != nil {
				t.Errorf("%s: %v", c.ID(), err)
				continue
			}
			for _, out := range s.Out {
				var told struct{ Value json.RawMessage }
				if json.Unmarshal(answer.Outputs[out.Name], &told) != nil || told.Value == nil {
					continue // a word, a text or absent
				}
				number := strings.ReplaceAll(string(told.Value), ",", " ")
				if full, _, _ := strings.Cut(out.Full()+" ", number+" "); out.FullNumber() != number || full != "" {
					t.Errorf("%s %s: %s in JSON, %s in CSV, %s with --full", c.ID(), out.Name, number, out.FullNumber(), out.Full())
				}
			}
		}
	}
}
