package calc

import (
	"slices"
	"strings"

	"millmaths.example/paperprop"
)

const schemaDialect = "https://json-schema.org/draft/2020-12/schema"

// Schema returns the JSON Schema of what [Sheet.SetJSON] reads for one calculation, in
// dialect 2020-12. What that has no words for stands under names of our own, which
// validators pass over.
//
// In a property, title is the symbol of an input; an output that may be given in place
// of an input has none. The unit is the one to print in, and units lists all that have a
// name: composed ones are read too. The range is value-minimum or
// value-exclusiveMinimum, value-maximum or value-exclusiveMaximum, in that unit. A
// default is a text, as the input would be given. What has to be given is said by
// required, anyOf and allOf, which describes each "exactly n of".
//
// Beside the properties stands answers: each output with its unit, of a Value in words
// ("as value"), with the enum of a word, and with absent where it may be left out.
func Schema(info *Info) ([]byte, error) {
	o := object{{"$schema", schemaDialect}}
	return marshal(append(o, schemaOf(info, jsonForm.schema)...))
}

// CatalogueSchema returns the JSON Schema of {"calculation":NAME,"inputs":{...}} for
// all calculations. What each takes is in $defs under its name, as Schema writes it, but
// for the forms of values, which stand there once and are referred to.
func CatalogueSchema(infos []*Info) ([]byte, error) {
	var definitions object
	var choices []object
	for _, w := range jsonForms {
		definitions.add(w.name(), w.schema())
	}
	for _, info := range infos {
		definitions.add(info.Name, schemaOf(info, jsonForm.reference))
		choices = append(choices, object{
			{"properties", object{
				{"calculation", object{{"const", info.Name}}},
				{"inputs", object{{"$ref", "#/$defs/" + info.Name}}},
			}},
		})
	}
	return marshal(object{
		{"$schema", schemaDialect}, {"title", "millmaths"}, {"version", Version}, {"type", "object"},
		{"required", []string{"calculation", "inputs"}}, {"anyOf", choices}, {"$defs", definitions},
	})
}

// schemaOf returns the schema of one calculation, with the forms of values as written by
// write.
func schemaOf(info *Info, write func(jsonForm) object) object {
	if info.Open {
		return openSchema(info, write)
	}
	var properties object
	var required []string
	for _, f := range info.In {
		properties.add(f.Name, f.schema(write))
		if f.Need == Required {
			required = append(required, f.Name)
		}
	}
	// A required input may be left out if an output is given instead.
	outputs := info.Solvable()
	for _, f := range outputs {
		o := object{{"description", "output, in place of an input: " + f.Help}}
		properties.add(f.Name, append(o, f.valueSchema(write)...))
	}
	o := object{
		{"title", info.Title}, {"description", info.Answers}, {"version", Version}, {"type", "object"},
		{"properties", properties}, {"additionalProperties", false}, {"answers", answersOf(info)},
	}
	if rules := choicesOf(info); len(rules) > 0 {
		o.add("allOf", rules)
	}
	if len(outputs) == 0 {
		o.add("required", required)
		return o
	}
	o.add("anyOf", append([]object{{{"required", nonNil(required)}}}, outputsGiven(info)...))
	return o
}

// openSchema returns the schema of a tool whose inputs have names of their own: the
// fixed ones are described, any other is allowed.
func openSchema(info *Info, write func(jsonForm) object) object {
	var properties object
	for _, f := range info.Named() {
		properties.add(f.Name, f.schema(write))
	}
	return object{
		{"title", info.Title}, {"description", info.Answers}, {"version", Version}, {"type", "object"},
		{"properties", properties}, {"additionalProperties", object{{"type", []string{"string", "number", "array", "object"}}}},
		{"answers", answersOf(info)},
	}
}

// answersOf returns the outputs and their units. A schema of a request does not cover
// the answer, so they are under a name of our own.
func answersOf(info *Info) object {
	var answers object
	for _, f := range info.Out {
		o := object{{"description", f.Help}}
		switch unit := f.Unit.String(); {
		case f.Shape == Word:
			o.add("enum", f.Choices)
		case f.Kind != nil && unit != "1":
			o.add("unit", unit)
		case f.Kind == nil && f.Relation != "":
			o.add("unit", f.Relation)
		}
		if f.Need == Optional {
			o.add("absent", "where the inputs do not tell it")
		}
		answers.add(f.Name, o)
	}
	return answers
}

// choicesOf returns, for each "exactly n of", the sets of inputs that satisfy it.
func choicesOf(info *Info) []object {
	var rules []object
	for _, choice := range info.Exactly {
		var sets []object
		for _, names := range choice.sets(choice.N) {
			sets = append(sets, object{{"required", names}})
		}
		rule := object{{"description", choice.String()}}
		if given := outputsGiven(info); len(given) > 0 { // instead of an input, which is left out
			rule.add("if", object{{"not", object{{"anyOf", given}}}})
			rule.add("then", object{{"oneOf", sets}})
		} else {
			rule.add("oneOf", sets)
		}
		rules = append(rules, rule)
	}
	return rules
}

// sets returns the names in each way to give n of the choices.
func (c *Choice) sets(n int) (sets [][]string) {
	for _, set := range subsets(len(c.Of), n) {
		var names []string
		for _, i := range set {
			names = append(names, c.Of[i]...)
		}
		sets = append(sets, names)
	}
	return sets
}

// outputsGiven returns the ways to give an output in order to solve for an input: by its
// name, or as one input more than its choice takes.
func outputsGiven(info *Info) []object {
	var given []object
	for _, f := range info.Solvable() {
		given = append(given, object{{"required", []string{f.Name}}})
	}
	for _, choice := range info.Exactly {
		all := slices.Concat(choice.Of...)
		other := func(f *Field) bool { return f.Shape == One && !slices.Contains(all, f.Name) }
		if !slices.ContainsFunc(info.In, other) {
			continue // nothing to solve for
		}
		for _, names := range choice.sets(choice.N + 1) {
			repeated := func(f *Field) bool { return f.Shape == One && slices.Contains(names, f.Name) }
			if slices.ContainsFunc(info.Out, repeated) {
				given = append(given, object{{"required", names}})
			}
		}
	}
	return given
}

// Solvable returns the outputs that may be given to solve for an input. A tool has
// none. A name that is both input and output is an input.
func (info *Info) Solvable() []*Field {
	var outputs []*Field
	for _, f := range info.Out {
		if f.Shape == One && !info.Tool && !slices.ContainsFunc(info.In, func(in *Field) bool { return in.Name == f.Name }) {
			outputs = append(outputs, f)
		}
	}
	return outputs
}

// Named returns the inputs. For an open tool it leaves out those whose names stand for
// names of the caller: NAME, df(NAME).
func (info *Info) Named() []*Field {
	var inputs []*Field
	for _, f := range info.In {
		if !strings.ContainsAny(f.Name, "(ABCDEFGHIJKLMNOPQRSTUVWXYZ") {
			inputs = append(inputs, f)
		}
	}
	return inputs
}

// subsets returns the ways to choose k of n.
func subsets(n, k int) [][]int {
	if k == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for last := k - 1; last < n; last++ {
		for _, rest := range subsets(last, k-1) {
			out = append(out, append(slices.Clone(rest), last))
		}
	}
	return out
}

func nonNil(names []string) []string {
	if names == nil {
		return []string{}
	}
	return names
}

func (f *Field) schema(write func(jsonForm) object) object {
	o := object{{"title", f.Symbol}, {"description", f.Help}}
	if f.Shape == Word {
		o.add("enum", f.Choices)
		return o
	}
	o = append(o, f.valueSchema(write)...)
	if f.Kind != nil {
		o.addBound("minimum", "exclusiveMinimum", f.Low, f.AboveLow, f.Unit)
		o.addBound("maximum", "exclusiveMaximum", f.High, f.BelowHigh, f.Unit)
	}
	if d := f.Default(); d != "" {
		o.add("default", d)
	}
	return o
}

// valueSchema returns how a value may be written, and in which units.
func (f *Field) valueSchema(write func(jsonForm) object) object {
	if f.Shape == Table {
		return object{{"type", "string"}}
	}
	o := write(jsonForm{list: f.Shape == List, bare: pure(f.Unit)})
	if f.Kind != nil {
		var units []string
		for _, u := range f.Kind.Units() {
			units = append(units, u.String())
		}
		o.add("units", units)
		o.add("unit", f.Unit.String())
	}
	return o
}

// A jsonForm is one of the ways to write values in JSON.
type jsonForm struct {
	list bool // several values
	bare bool // numbers need no unit
}

var jsonForms = [...]jsonForm{{}, {bare: true}, {list: true}, {list: true, bare: true}}

// name returns the name of the form in a catalogue. It begins with a capital letter, as
// no calculation's does.
func (w jsonForm) name() string {
	switch w {
	case jsonForm{}:
		return "Quantity"
	case jsonForm{bare: true}:
		return "PureNumber"
	case jsonForm{list: true}:
		return "Quantities"
	}
	return "PureNumbers"
}

// reference returns a schema that refers to the form in a catalogue.
func (w jsonForm) reference() object { return object{{"$ref", "#/$defs/" + w.name()}} }

// schema returns the schema of the form.
func (w jsonForm) schema() object {
	types := []string{"string"}
	if w.bare {
		types = append(types, "number")
	}
	number, above := object{{"type", "number"}}, object{{"type", "number"}, {"minimum", 0}}
	one := objectOf(types, number, above)
	if !w.list {
		return one
	}
	several := func(member object) object {
		return object{{"type", []string{"number", "array"}}, {"items", member}, {"minItems", 1}}
	}
	u := several(above)
	u.add("minimum", 0)
	o := objectOf(append(types, "array"), several(number), u)
	o.add("items", one)
	o.add("minItems", 1)
	return o
}

// objectOf is the schema of a value of these types or of an object; all but the types
// applies to the object form only. A value that may not be a bare number needs its unit.
func objectOf(types []string, value, u object) object {
	needed := []string{"value"}
	if !slices.Contains(types, "number") {
		needed = append(needed, "unit")
	}
	return object{
		{"type", append(slices.Clone(types), "object")},
		{"properties", object{{"value", value}, {"unit", object{{"type", "string"}}}, {"u", u}}},
		{"required", needed}, {"additionalProperties", false},
	}
}

// addBound writes a bound in the unit to print in, under a name of our own: a value is
// a text or an object, to which the bounds of the schema language do not apply.
func (o *object) addBound(name, exclusive string, bound float64, excluded bool, u paperprop.Unit) {
	if bound < -1e300 || bound > 1e300 {
		return
	}
	if excluded {
		name = exclusive
	}
	o.add("value-"+name, jsonNumber(u.To(bound)))
}
