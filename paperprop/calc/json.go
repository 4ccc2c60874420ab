package calc

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strconv"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/uncertainty"
)

// An object is a JSON object that keeps the order of its names.
type object []jsonMember

type jsonMember struct {
	name  string
	value any
}

func (o *object) add(name string, value any) { *o = append(*o, jsonMember{name, value}) }

// addUnit adds the unit of a number, unless it is pure.
func (o *object) addUnit(u paperprop.Unit) {
	if !pure(u) {
		o.add("unit", u.String())
	}
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) { return o.append(nil) }

func (o object) append(b []byte) (_ []byte, err error) {
	b = append(b, '{')
	for i, m := range o {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(appendText(b, m.name), ':')
		switch v := m.value.(type) {
		case object:
			b, err = v.append(b)
		case string:
			b = appendText(b, v)
		case int:
			b = strconv.AppendInt(b, int64(v), 10)
		default:
			var data []byte
			data, err = marshal(v)
			b = append(b, data...)
		}
		if err != nil {
			return nil, err
		}
	}
	return append(b, '}'), nil
}

// appendText appends a string as marshal would write it.
func appendText(b []byte, s string) []byte {
	from := len(b)
	b = append(b, '"')
	for i := range len(s) {
		switch c := s[i]; {
		case c < ' ' || c > '~':
			data, _ := marshal(s) // a string has no error
			return append(b[:from], data...)
		case c == '"' || c == '\\':
			b = append(b, '\\', c)
		default:
			b = append(b, c)
		}
	}
	return append(b, '"')
}

// marshal leaves <, > and & unescaped: the output is not a web page.
func marshal(v any) ([]byte, error) {
	if o, ok := v.(object); ok {
		return o.append(nil)
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimRight(b.Bytes(), "\n"), nil
}

// RunJSON answers one JSON request: data holds the inputs of a calculation or of a
// tool, in the form that [Sheet.SetJSON] reads. A refused request is an error, which
// [ErrorJSON] can write.
func RunJSON(c Calculation, data []byte) ([]byte, error) {
	if tool, ok := c.(*Tool); ok {
		return tool.AnswerJSON(nil, data)
	}
	return c.NewSheet().AnswerJSON(nil, data)
}

// AnswerJSON answers one request of a stream, reusing the sheet. The inputs given hold
// for all requests; a request that repeats one is refused.
func (s *Sheet) AnswerJSON(given []Pair, data []byte) ([]byte, error) {
	s.Reset()
	if err := s.SetJSON(data); err != nil {
		return nil, err
	}
	for _, p := range given {
		if c, ok := s.Input(p.Name); ok && c.Given() {
			return nil, &InputError{p.Name, c.AsWritten(), givenAlready(p)}
		}
		if err := s.Set(p.Name, p.Text); err != nil {
			return nil, err
		}
	}
	if err := s.Run(); err != nil {
		return nil, err
	}
	return s.MarshalJSON()
}

func givenAlready(p Pair) error {
	return fmt.Errorf("%s is given for every object already, want it in one place", p.Text)
}

// MarshalJSON returns the sheet as JSON: its inputs as given, its outputs by name,
// defaults, warnings, cautions and the source. Absent outputs are left out. The sheet
// must have run.
func (s *Sheet) MarshalJSON() ([]byte, error) { return s.MarshalFindings(Findings{}) }

// Findings are results on the uncertainty of a sheet in addition to first order.
type Findings struct {
	Samples []Sample // results of draws
	Bent    []Bent   // results of second order
	Level   float64  // confidence for expanded uncertainties; 0: none
	Draws   int      // number of draws requested
	Seed    uint64   // seed of the draws
}

// MarshalFindings is [Sheet.MarshalJSON] with findings on the uncertainty. An expanded
// uncertainty that no float64 holds is left out.
func (s *Sheet) MarshalFindings(found Findings) ([]byte, error) {
	if !s.ran {
		return nil, ErrNotRun
	}
	if found.Level != 0 {
		if _, err := uncertainty.Factor(found.Level, 0); err != nil {
			return nil, err
		}
	}
	info := s.Info()
	law, err := s.firstOrder()
	if err != nil {
		return nil, err
	}
	uncertainties := law.all
	var inputs, outputs, defaults object
	for _, c := range s.In {
		if s.isRoot(c) {
			inputs.add(c.Name, c.jsonValue(standards(c, uncertainties)))
		} else if c.given {
			inputs.add(c.Name, c.jsonValue(c.uncertainNumbers()))
		} else if c.Need == Defaulted && c.Present() {
			defaults.add(c.Name, c.jsonValue(nil))
		}
	}
	for _, c := range s.Out {
		if c.Present() {
			outputs.add(c.Name, c.jsonOutput(uncertainties, found))
		}
	}
	o := object{{"calculation", info.Name}, {"version", Version}, {"inputs", inputs}, {"outputs", outputs}}
	if len(s.Roots) > 0 {
		o.add("solved", s.Roots[0].Input.Name)
	}
	if len(s.Roots) > 1 || len(s.Roots) == 1 && s.Roots[0].Low != s.Roots[0].High {
		o.add("roots", s.jsonRoots())
	}
	if len(defaults) > 0 {
		o.add("defaults", defaults)
	}
	o.addWarnings(s.warningsWith(found, law))
	o.addOrigin(info)
	return marshal(o)
}

// warningsWith returns the warnings of the run, and what to know about its uncertainties.
func (s *Sheet) warningsWith(found Findings, law *law) (all []Warning) {
	for _, w := range s.Warnings() {
		all = append(all, *w)
	}
	all = append(all, s.doubts(found, law)...)
	if s.MoreRoots {
		all = append(all, moreRoots)
	}
	return all
}

func (o *object) addWarnings(warnings []Warning) {
	if len(warnings) > 0 {
		o.add("warnings", codes(warnings, func(w Warning) (string, string) { return w.Code, w.Text }))
	}
}

// addOrigin adds what is said of every answer of a calculation: its cautions and source.
func (o *object) addOrigin(info *Info) {
	if len(info.Cautions) > 0 {
		o.add("cautions", codes(info.Cautions, func(c *Caution) (string, string) { return c.Code, c.Text }))
	}
	o.add("source", info.Source)
	o.add("kind", string(info.Status))
}

func codes[T any](list []T, parts func(T) (code, text string)) []object {
	var out []object
	for _, t := range list {
		code, text := parts(t)
		out = append(out, object{{"code", code}, {"text", text}})
	}
	return out
}

func (s *Sheet) isRoot(c *Cell) bool { return len(s.Roots) > 0 && s.Roots[0].Input == c }

func (s *Sheet) jsonRoots() []object {
	var roots []object
	for _, r := range s.Roots {
		u := r.Input.PrintUnit()
		o := object{{"input", r.Input.Name}}
		if r.Low == r.High {
			o.add("value", r.Input.jsonIn(r.Low))
		} else {
			o.add("from", r.Input.jsonIn(r.Low))
			o.add("to", r.Input.jsonIn(r.High))
		}
		o.addUnit(u)
		roots = append(roots, o)
	}
	return roots
}

func (c *Cell) uncertainNumbers() []float64 {
	var us []float64
	factor := c.writtenFactor()
	for _, u := range c.uncertain {
		us = append(us, u.Standard*factor)
	}
	return us
}

// jsonValue returns numbers in the unit to print in, a word as a string.
func (c *Cell) jsonValue(us []float64) any {
	if c.Shape.inLetters() {
		return c.Word()
	}
	u := c.PrintUnit()
	o := object{{"value", c.jsonNumbers(c.Numbers(), c.jsonIn)}}
	o.addUnit(u)
	if len(us) > 0 {
		o.add("u", c.jsonNumbers(us, func(v float64) json.Number { return jsonNumber(c.Difference(v)) }))
	}
	return o
}

// Difference converts a canonical difference to the unit to print in.
func (c *Cell) Difference(v float64) float64 {
	if c.Kind == nil {
		return v
	}
	return c.PrintUnit().Difference().To(v)
}

func (c *Cell) jsonNumbers(values []float64, write func(float64) json.Number) any {
	if c.Shape != List {
		return write(values[0])
	}
	list := make([]json.Number, len(values))
	for i, v := range values {
		list[i] = write(v)
	}
	return list
}

// jsonIn returns a canonical value in the unit to print in, with the digits of Full.
func (c *Cell) jsonIn(v float64) json.Number { return json.Number(c.digits(v, c.PrintUnit())) }

func jsonNumbers(values []float64) []json.Number {
	list := make([]json.Number, len(values))
	for i, v := range values {
		list[i] = jsonNumber(v)
	}
	return list
}

// jsonNumber returns a number with the shortest digits that give it back.
func jsonNumber(x float64) json.Number { return json.Number(paperprop.AppendShort(nil, x)) }

// standards returns the standard uncertainties of a cell, one for each member.
func standards(c *Cell, uncertainties []Uncertainty) []float64 {
	var us []float64
	for _, u := range uncertainties {
		if u.Cell == c && !c.Stepped {
			us = append(us, u.Standard)
		}
	}
	return us
}

func (c *Cell) jsonOutput(uncertainties []Uncertainty, found Findings) any {
	switch c.Shape {
	case Text:
		return object{{"reported", c.Reported()}}
	case Word:
		return c.Word()
	}
	o := c.jsonValue(standards(c, uncertainties)).(object)
	if c.HasRule() {
		o.add("reported", c.Reported())
		if rule := c.Field.Report.String(); rule != "" {
			o.add("rule", rule)
		}
	}
	if c.Remark != "" {
		o.add("remark", c.Remark)
	}
	for _, u := range uncertainties {
		if u.Cell != c || c.Shape != One || c.Stepped {
			continue
		}
		if u.Freedom > 0 {
			o.add("freedom", jsonNumber(u.Freedom))
		}
		if k, expanded, err := u.Expanded(found.Level); found.Level > 0 && err == nil {
			o.add("expanded", object{{"U", jsonNumber(c.Difference(expanded))}, {"k", jsonNumber(k)}, {"confidence", jsonNumber(found.Level)}})
		}
	}
	for _, b := range found.Bent {
		if b.Cell == c && c.Shape == One {
			o.add("second-order", object{{"mean", jsonNumber(c.In(b.Mean, c.PrintUnit()))}, {"u", jsonNumber(c.Difference(b.Standard))}})
		}
	}
	var drawn []object
	for _, m := range found.Samples {
		if m.Cell == c {
			u := c.PrintUnit()
			drawn = append(drawn, object{
				{"draws", m.draws}, {"mean", jsonNumber(c.In(m.Mean, u))}, {"u", jsonNumber(c.Difference(m.Standard))},
				{"lower", jsonNumber(c.In(m.Low, u))}, {"upper", jsonNumber(c.In(m.High, u))}, {"agrees", m.Agrees()},
			})
		}
	}
	if len(drawn) == 1 {
		o.add("monte-carlo", drawn[0])
	} else if len(drawn) > 1 {
		o.add("monte-carlo", drawn)
	}
	return o
}

// ErrorJSON returns an error, which must not be nil, as JSON.
func ErrorJSON(calculation string, err error) []byte { return ErrorLineJSON(calculation, 0, err) }

// ErrorLineJSON is [ErrorJSON] for a line of a stream, counted from 1.
func ErrorLineJSON(calculation string, line int, err error) []byte {
	code, input := Code(err)
	e := object{{"code", code}}
	if line > 0 {
		e.add("line", line)
	}
	if input != "" {
		e.add("input", input)
	}
	e.add("text", err.Error())
	data, marshalErr := marshal(object{{"calculation", calculation}, {"version", Version}, {"error", e}})
	if marshalErr != nil {
		return []byte(`{"error":{"code":"internal"}}`)
	}
	return data
}
