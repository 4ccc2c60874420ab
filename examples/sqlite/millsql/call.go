package millsql

import (
	"database/sql/driver"
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Results that every function has beside its outputs.
const (
	asJSON  = "json"  // all of the answer, as millmaths --json writes it
	asError = "error" // why there is no answer, NULL where there is one
)

// A function is a calculation in SQL. SQLite may call it from any number of
// connections at once.
type function struct {
	calculation calc.Calculation
	name        string
	sheets      sync.Pool
}

// call answers one call: nothing given asks for the usage.
func (f *function) call(args []driver.Value) (driver.Value, error) {
	if len(args) == 0 {
		return f.usage(), nil
	}
	for _, arg := range args {
		if arg == nil {
			return nil, nil
		}
	}
	wanted, ok := args[0].(string)
	if !ok || len(args)%2 == 0 {
		return nil, fmt.Errorf("%s takes the result, then names and values: %s", f.name, f.shape())
	}
	value, err := f.answer(wanted, args[1:])
	switch {
	case wanted == asError && err != nil:
		return err.Error(), nil
	case wanted == asError:
		return nil, nil
	case err != nil:
		return nil, fmt.Errorf("%s: %w", f.name, err)
	}
	return value, nil
}

func (f *function) answer(wanted string, args []driver.Value) (driver.Value, error) {
	given := make([]calc.Pair, 0, 8)
	for i := 0; i < len(args); i += 2 {
		p, err := pair(args[i], args[i+1])
		if err != nil {
			return nil, err
		}
		for _, q := range given {
			if p.Name == q.Name {
				return nil, fmt.Errorf("%s is given twice", p.Name)
			}
		}
		given = append(given, p)
	}
	if tool, ok := f.calculation.(*calc.Tool); ok {
		return toolAnswer(tool, wanted, given)
	}
	s, ok := f.sheets.Get().(*calc.Sheet)
	if !ok {
		s = f.calculation.NewSheet()
	}
	defer f.sheets.Put(s)
	s.Reset()
	if err := s.SetPairs(given); err != nil {
		return nil, err
	}
	if err := s.Run(); err != nil {
		return nil, err
	}
	return sheetAnswer(s, wanted)
}

// pair is an input as the library reads it: "force [N]" and 96.4 are force,
// "96.4 N".
func pair(name, value driver.Value) (calc.Pair, error) {
	text, ok := name.(string)
	if !ok {
		return calc.Pair{}, fmt.Errorf("%v is no name of an input, want a text such as 'force [N]'", name)
	}
	text, unit := cutUnit(text)
	p := calc.Pair{Name: text}
	switch v := value.(type) {
	case float64:
		p.Text = string(paperprop.AppendShort(nil, v))
	case int64:
		p.Text = strconv.FormatInt(v, 10)
	case string:
		p.Text = list(strings.TrimSpace(v))
	default:
		return p, fmt.Errorf("%s is a value of type %T, want a number or a text", p.Name, value)
	}
	if unit != "" {
		if end := strings.TrimRight(p.Text, "0123456789.)]"); end == p.Text {
			return p, fmt.Errorf("%s is %q, want a number in %s, as its name says", p.Name, p.Text, unit)
		}
		p.Text += " " + unit
	}
	return p, nil
}

// cutUnit parts "force [N]".
func cutUnit(text string) (name, unit string) {
	name, unit, ok := strings.Cut(strings.TrimSuffix(text, "]"), "[")
	if !ok || !strings.HasSuffix(text, "]") {
		return strings.TrimSpace(text), ""
	}
	return strings.TrimSpace(name), strings.TrimSpace(unit)
}

// list is the list that json_group_array gives, [512.5,498], as the library
// writes one. Other texts stay: the library says what is wrong with them.
func list(text string) string {
	if !strings.HasPrefix(text, "[") || !strings.HasSuffix(text, "]") {
		return text
	}
	var numbers []json.Number
	if err := json.Unmarshal([]byte(text), &numbers); err != nil {
		return text
	}
	words := make([]string, len(numbers))
	for i, n := range numbers {
		if words[i] = n.String(); words[i] == "" {
			words[i] = "null" // no reading: refused, by its name
		}
	}
	return "[" + strings.Join(words, " ") + "]"
}

// sheetAnswer is one result of a sheet that has run.
func sheetAnswer(s *calc.Sheet, wanted string) (driver.Value, error) {
	switch wanted {
	case asError:
		return nil, nil
	case asJSON:
		data, err := s.MarshalJSON()
		return string(data), err
	}
	name, unit := cutUnit(wanted)
	if inner, ok := strings.CutPrefix(name, "u("); ok {
		return uncertainty(s, strings.TrimSuffix(inner, ")"), unit)
	}
	if c, ok := s.Output(name); ok {
		return cellValue(c, unit)
	}
	if s.Sought(name) {
		return root(s.Roots, unit)
	}
	return nil, noResult(s.Info(), name)
}

// cellValue is a result in a unit, or in its own.
func cellValue(c *calc.Cell, unit string) (driver.Value, error) {
	switch {
	case !c.Present():
		return nil, nil
	case c.Shape == calc.Word || c.Shape == calc.Text:
		if unit != "" {
			return nil, fmt.Errorf("%s is a text and has no unit to choose", c.Name)
		}
		return c.Reported(), nil
	}
	in, err := inUnit(c, unit)
	if err != nil {
		return nil, err
	}
	var numbers []float64
	for _, v := range c.Numbers() {
		x, err := in(v)
		if err != nil {
			return nil, err
		}
		numbers = append(numbers, x)
	}
	if c.Shape == calc.List {
		data, err := json.Marshal(numbers)
		return string(data), err
	}
	if whole := int64(numbers[0]); c.Whole && float64(whole) == numbers[0] {
		return whole, nil
	}
	return numbers[0], nil
}

// inUnit turns values of a cell into numbers of a unit; the empty one is that in
// which the cell is printed.
func inUnit(c *calc.Cell, unit string) (func(float64) (float64, error), error) {
	own := c.PrintUnit()
	switch {
	case unit == "" || unit == own.String():
		return func(v float64) (float64, error) { return c.In(v, own), nil }, nil
	case c.Kind != nil:
		u, err := c.Kind.Unit(unit)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		return func(v float64) (float64, error) { return c.In(v, u), nil }, nil
	}
	u, err := paperprop.ParseUnit(unit)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Name, err)
	}
	return func(v float64) (float64, error) { return own.Convert(v, u) }, nil
}

// root is the input that was solved for. Several roots are no one number.
func root(roots []calc.Root, unit string) (driver.Value, error) {
	in, err := inUnit(roots[0].Input, unit)
	if err != nil {
		return nil, err
	}
	if len(roots) > 1 || roots[0].Low != roots[0].High {
		var texts []string
		for _, r := range roots {
			texts = append(texts, r.People())
		}
		return nil, fmt.Errorf("%s has more than one answer: %s; 'json' gives all", roots[0].Input.Name, strings.Join(texts, ", "))
	}
	return in(roots[0].Low)
}

// uncertainty is the standard uncertainty of a result, in a unit of differences;
// NULL where no input has one.
func uncertainty(s *calc.Sheet, name, unit string) (driver.Value, error) {
	all, err := s.Uncertainties()
	if err != nil {
		return nil, err
	}
	if _, ok := s.Output(name); !ok && !s.Sought(name) {
		return nil, noResult(s.Info(), name)
	}
	for _, u := range all {
		if u.Cell.Name != name || u.Cell.Shape != calc.One || u.Cell.Stepped {
			continue
		}
		if own := u.Cell.PrintUnit(); u.Cell.Kind != nil && unit != "" && unit != own.String() {
			in, err := u.Cell.Kind.Unit(unit)
			if err != nil {
				return nil, fmt.Errorf("u(%s): %w", name, err)
			}
			return in.Difference().To(u.Standard), nil
		} else if u.Cell.Kind == nil && unit != "" && unit != own.String() {
			return nil, fmt.Errorf("u(%s) is in %v, not in %s", name, own, unit)
		}
		return u.Cell.Difference(u.Standard), nil
	}
	return nil, nil
}

// toolAnswer is one result of a tool, which takes texts of its own.
func toolAnswer(t *calc.Tool, wanted string, given []calc.Pair) (driver.Value, error) {
	for _, p := range given {
		if !t.Takes(given, p.Name, false) {
			return nil, &calc.NameError{Calculation: t.ID(), Name: p.Name, Near: calc.Nearest(p.Name, fieldNames(t.Info().In)), All: fieldNames(t.Info().In)}
		}
	}
	answers, err := t.Run(given)
	if err != nil {
		return nil, err
	}
	switch wanted {
	case asError:
		return nil, nil
	case asJSON:
		data, err := calc.AnswersJSON(t, given, answers)
		return string(data), err
	}
	name, unit := cutUnit(wanted)
	for _, a := range answers {
		if a.Name != name {
			continue
		}
		if unit != "" && unit != a.Unit.String() && a.Text == "" {
			u, err := paperprop.ParseUnit(unit)
			if err != nil {
				return nil, fmt.Errorf("%s: %w", name, err)
			}
			if err := a.Restate(u); err != nil {
				return nil, err
			}
		}
		switch {
		case a.Text != "":
			return a.Text, nil
		case a.List != nil:
			data, err := json.Marshal(a.List)
			return string(data), err
		}
		return a.Value, nil
	}
	if t.Takes(given, name, true) {
		return nil, nil // absent, as far as these inputs go
	}
	return nil, noResult(t.Info(), name)
}

func noResult(info *calc.Info, name string) error {
	names := append(fieldNames(info.Out), asJSON, asError)
	text := fmt.Sprintf("no result %q, want %s", name, strings.Join(names, ", "))
	for _, f := range info.In {
		if f.Name == name {
			text += "; an input is a result where an output is given in its place"
		}
	}
	return errors.New(text)
}

func fieldNames(fields []*calc.Field) []string {
	var names []string
	for _, f := range fields {
		names = append(names, f.Name)
	}
	return names
}

// usage says what the function answers, takes and gives.
func (f *function) usage() string {
	info := f.calculation.Info()
	return fmt.Sprintf("%s: %s\n%s\nresults: %s, %s, %s\ninputs: %s", f.shape(), info.Title, info.Answers,
		strings.Join(withUnits(info.Out), ", "), asJSON, asError, strings.Join(withUnits(info.In), ", "))
}

// shape is a call of the function in outline.
func (f *function) shape() string {
	info := f.calculation.Info()
	result, input := asJSON, "NAME"
	if len(info.Out) > 0 {
		result = info.Out[0].Name
	}
	if len(info.In) > 0 {
		input = withUnits(info.In)[0]
	}
	return fmt.Sprintf("%s('%s', '%s', VALUE, ...)", f.name, result, input)
}

func withUnits(fields []*calc.Field) []string {
	var names []string
	for _, field := range fields {
		name := field.Name
		if u := field.Unit.String(); u != "" && u != "1" {
			name += " [" + u + "]"
		}
		switch field.Need {
		case calc.Defaulted:
			if d := field.Default(); d != "" {
				name += " (default " + d + ")"
			}
		case calc.Optional:
			name += " (optional)"
		}
		names = append(names, name)
	}
	return names
}
