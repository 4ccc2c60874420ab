package calc

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

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

// SetJSON sets the inputs given in a JSON object. A value is "4 %",
// {"value":4,"unit":"%","u":0.1}, a number if no unit is needed, or a word; a list is
// an array of these or {"value":[..],"unit":..}. Unknown and repeated names are
// refused.
func (s *Sheet) SetJSON(data []byte) error {
	members, err := parseObject(data)
	if err != nil {
		return err
	}
	for _, m := range members {
		c, ok := s.Input(m.name)
		text, err := valueText(m.raw, ok && c.Shape == List)
		if err != nil {
			return &InputError{m.name, string(m.raw), err}
		}
		if err := s.Set(m.name, text); err != nil {
			return err
		}
	}
	return nil
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

type rawMember struct {
	name string
	raw  json.RawMessage
}

func parseObject(data []byte) ([]rawMember, error) {
	text := bytes.TrimLeft(data, " \t\r\n")
	switch {
	case len(text) == 0:
		return nil, errNoObject
	case text[0] != '{':
		first, _ := utf8.DecodeRune(text)
		return nil, fmt.Errorf("JSON: begins with %q, %w", first, errNoObject)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	if _, err := d.Token(); err != nil {
		return nil, betweenMembers(err)
	}
	var members []rawMember
	seen := map[string]bool{}
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return nil, betweenMembers(err)
		}
		name := t.(string)
		if seen[name] {
			return nil, fmt.Errorf("%s is given twice, want it once", name)
		}
		seen[name] = true
		var raw json.RawMessage
		if err := d.Decode(&raw); err != nil {
			return nil, fmt.Errorf("JSON: %s: %w", name, unfinished(err))
		}
		members = append(members, rawMember{name, raw})
	}
	if _, err := d.Token(); err != nil {
		return nil, betweenMembers(err)
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, errors.New("JSON: text after the object, want one object")
	}
	return members, nil
}

// unfinished returns the error for JSON that ends too early.
func unfinished(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return errors.New("the object has no end, want it whole, and in a stream of lines in one line")
	}
	return err
}

// betweenMembers returns an error with the place of invalid JSON between the members of
// an object.
func betweenMembers(err error) error {
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		return fmt.Errorf("JSON: after byte %d: %w", syntax.Offset, err)
	}
	return fmt.Errorf("JSON: %w", unfinished(err))
}

var errNoObject = errors.New(`want a JSON object such as {"mass-flow":"300 t/h"}`)

var (
	errJSONValue  = errors.New(`want "4 %", {"value":4,"unit":"%"}, a list of these or a word`)
	errJSONMember = errors.New(`want "4 %" or {"value":4,"unit":"%"}`)
	errJSONParts  = errors.New(`value is missing, want it beside its unit: {"value":4,"unit":"%"}`)
)

// valueText returns the text of a value, or of a list, given in JSON.
func valueText(raw json.RawMessage, isList bool) (string, error) {
	switch raw[0] {
	case '"':
		var text string
		err := json.Unmarshal(raw, &text)
		return text, err
	case '[':
		var list []json.RawMessage
		if err := json.Unmarshal(raw, &list); err != nil {
			return "", err
		}
		var texts []string
		plain := true
		for i, m := range list {
			text, err := memberText(m)
			if err != nil {
				return "", fmt.Errorf("member %d: %w", i+1, err)
			}
			plain = plain && m[0] != '"' && m[0] != '{'
			texts = append(texts, text)
		}
		if plain || len(texts) < 2 {
			return listText(texts, plain), nil
		}
		return strings.Join(texts, "; "), nil
	case '{':
		return partsText(raw, isList)
	case 't', 'f', 'n':
		return "", errJSONValue
	}
	return string(raw), nil
}

// memberText is valueText for a member, which is not a list. Nested brackets are
// refused unread: at each level the inner ones would be read again.
func memberText(raw json.RawMessage) (text string, err error) {
	what := string(raw)
	if raw[0] != '[' {
		text, err = valueText(raw, false)
	}
	switch {
	case raw[0] == '[' || strings.HasPrefix(text, "["):
		what = "a list"
	case err == errJSONValue: // null, true, false
	default:
		return text, err
	}
	return "", fmt.Errorf("%s, %w", what, errJSONMember)
}

// listText returns a list in brackets, of one member or of numbers without units.
func listText(texts []string, plain bool) string {
	if plain || len(texts) == 0 {
		return "[" + strings.Join(texts, " ") + "]"
	}
	number, unit, _ := strings.Cut(texts[0], " ")
	return "[" + number + "] " + unit
}

// partsText turns {"value":4,"unit":"%","u":0.1} into "4 ± 0.1 %", or for a list into
// "[4] ± 0.1 %", as "4 1" would be two numbers.
func partsText(raw json.RawMessage, isList bool) (string, error) {
	members, err := parseObject(raw)
	if err != nil {
		return "", err
	}
	var value, unit, u string
	for _, m := range members {
		switch m.name {
		case "value":
			value, err = numbersText(m)
		case "u":
			u, err = numbersText(m)
		case "unit":
			unit, err = unitText(m.raw)
		default:
			err = fmt.Errorf("unknown name %q, want value, unit, u", m.name)
		}
		if err != nil {
			return "", err
		}
	}
	if value == "" {
		return "", errJSONParts
	}
	if isList && value[0] != '[' {
		value = "[" + value + "]"
	}
	if value[0] != '[' && strings.HasPrefix(u, "[") {
		return "", fmt.Errorf("u is %s, want one number beside one", u)
	}
	if u != "" && value[0] == '[' && u[0] != '[' && isNumber(unit) {
		u = "[" + u + "]" // in a list 0.1 1 would be two numbers
	}
	if u != "" {
		value += " ± " + u
	}
	return strings.TrimSpace(value + " " + unit), nil
}

// unitText refuses a unit that would be more than a unit beside a number: another
// number, member or uncertainty.
func unitText(raw json.RawMessage) (string, error) {
	var unit string
	err := json.Unmarshal(raw, &unit)
	word, _, _ := strings.Cut(unit, " ")
	if err != nil || raw[0] == 'n' || isNumber(word) && unit != "1" || strings.ContainsAny(unit, ";|[]±+") {
		return "", fmt.Errorf(`unit is %s, want a unit alone, as a text such as "%%"`, raw)
	}
	return unit, nil
}

// numbersText refuses null: in a list it would shift the other numbers, and a value of
// unknown uncertainty is not exact.
func numbersText(m rawMember) (string, error) {
	if m.raw[0] != '[' {
		if !isJSONNumber(m.raw) {
			return "", fmt.Errorf("%s is %s, want a number such as 4, or a list of numbers", m.name, m.raw)
		}
		return string(m.raw), nil
	}
	var list []json.RawMessage
	if err := json.Unmarshal(m.raw, &list); err != nil {
		return "", err
	}
	var texts []string
	for i, n := range list {
		if !isJSONNumber(n) {
			return "", fmt.Errorf("member %d of %s is %s, want a number such as 4", i+1, m.name, n)
		}
		texts = append(texts, string(n))
	}
	return "[" + strings.Join(texts, " ") + "]", nil
}

// isJSONNumber reports whether a JSON value is a number.
func isJSONNumber(raw json.RawMessage) bool { return raw[0] == '-' || '0' <= raw[0] && raw[0] <= '9' }

// MarshalJSON returns the sheet as JSON: its inputs as given, its outputs by name,
// defaults, warnings, cautions and the source. Absent outputs are left out. The sheet
// must have run.
func (s *Sheet) MarshalJSON() ([]byte, error) { return s.resultJSON(Findings{}) }

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
func (s *Sheet) MarshalFindings(f Findings) ([]byte, error) { return s.resultJSON(f) }

func (s *Sheet) resultJSON(found Findings) ([]byte, error) {
	if !s.ran {
		return nil, ErrNotRun
	}
	if found.Level != 0 {
		if _, err := uncertainty.Factor(found.Level, 0); err != nil {
			return nil, err
		}
	}
	info := s.Info()
	uncertainties, err := s.Uncertainties()
	if err != nil {
		return nil, err
	}
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
	warnings := s.Warnings()
	for _, m := range found.Samples {
		if !m.Agrees() {
			warnings = append(warnings[:len(warnings):len(warnings)], FirstOrderDiffers)
			break
		}
	}
	if s.MoreRoots {
		warnings = append(warnings[:len(warnings):len(warnings)], &moreRoots)
	}
	if len(warnings) > 0 {
		o.add("warnings", codes(warnings, func(w *Warning) (string, string) { return w.Code, w.Text }))
	}
	if len(info.Cautions) > 0 {
		o.add("cautions", codes(info.Cautions, func(c *Caution) (string, string) { return c.Code, c.Text }))
	}
	o.add("source", info.Source)
	o.add("kind", string(info.Status))
	return marshal(o)
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
			o.add("value", r.Input.In(r.Low, u))
		} else {
			o.add("from", r.Input.In(r.Low, u))
			o.add("to", r.Input.In(r.High, u))
		}
		o.add("unit", u.String())
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
	if c.Shape == Word || c.Shape == Text {
		return c.Word()
	}
	u := c.PrintUnit()
	o := object{{"value", c.jsonNumbers(c.Numbers(), c.jsonIn)}}
	if text := u.String(); text != "" && text != "1" {
		o.add("unit", text)
	}
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
	if c.Shape == Text || c.Shape == Word {
		if c.Shape == Text {
			return object{{"reported", c.Reported()}}
		}
		return c.Word()
	}
	o := c.jsonValue(standards(c, uncertainties)).(object)
	if c.HasRule() {
		o.add("reported", c.Reported())
		if rule := c.Field.Report.String(); rule != "" {
			o.add("rule", rule)
		}
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

// Code returns the stable code of an error of this package, for programs, and the name
// of the input it is about, if any. The codes are missing, range (the name may be that
// of an output that is not finite), refused, word, choice (too many or too few of an
// "exactly n of"), length (lists that differ), no-root, name (an unknown name), text
// (an unreadable value), and input for everything else. For a nil error both are empty.
func Code(err error) (code, input string) {
	var missing *MissingError
	var ranged *paperprop.RangeError
	var refusal *Refusal
	var read *InputError
	var name *NameError
	var whole *WholeError
	var word *WordError
	var choice *ChoiceError
	var length *LengthError
	var root *NoRootError
	var infinite *FiniteError
	var other interface{ About() string }
	if err == nil {
		return "", ""
	}
	switch {
	case errors.As(err, &missing):
		return "missing", missing.Input.Name
	case errors.As(err, &ranged):
		return "range", ranged.Input
	case errors.As(err, &whole):
		return "range", whole.Input
	case errors.As(err, &infinite):
		return "range", infinite.Output.Name
	case errors.As(err, &refusal):
		return "refused", refusal.Input
	case errors.As(err, &word):
		return "word", word.Input.Name
	case errors.As(err, &choice):
		return "choice", ""
	case errors.As(err, &length):
		return "length", length.Input.Name
	case errors.As(err, &root):
		return "no-root", root.Unknown.Name
	case errors.As(err, &name):
		return "name", name.Name
	case errors.As(err, &read):
		return "text", read.Input
	case errors.As(err, &other):
		return "input", other.About()
	}
	return "input", ""
}
