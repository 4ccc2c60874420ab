package calc

import "millmaths.example/paperprop"

const schemaDialect = "https://json-schema.org/draft/2020-12/schema"

// Schema is the JSON Schema of what SetJSON takes for one calculation.
func Schema(info *Info) ([]byte, error) {
	o := object{{"$schema", schemaDialect}}
	return marshal(append(o, schemaOf(info)...))
}

// CatalogueSchema is the JSON Schema of {"calculation":NAME,"inputs":{...}}
// for all calculations.
func CatalogueSchema(infos []*Info) ([]byte, error) {
	var definitions object
	var choices []object
	for _, info := range infos {
		definitions.add(info.Name, schemaOf(info))
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

func schemaOf(info *Info) object {
	var properties object
	var required []string
	for _, f := range info.In {
		properties.add(f.Name, f.schema())
		if f.Need == Required {
			required = append(required, f.Name)
		}
	}
	o := object{
		{"title", info.Title}, {"description", info.Answers}, {"version", Version}, {"type", "object"},
		{"properties", properties}, {"additionalProperties", false},
	}
	// A required input may be left out where an output is given instead.
	var outputs []string
	for _, f := range info.Out {
		if f.Shape == One && !has(properties, f.Name) {
			properties.add(f.Name, object{{"description", "output, in place of an input: " + f.Help}})
			outputs = append(outputs, f.Name)
		}
	}
	o[4].value = properties
	if len(outputs) == 0 {
		o.add("required", required)
		return o
	}
	complete := []object{{{"required", nonNil(required)}}}
	for _, name := range outputs {
		complete = append(complete, object{{"required", []string{name}}})
	}
	o.add("anyOf", complete)
	return o
}

func has(o object, name string) bool {
	for _, m := range o {
		if m.name == name {
			return true
		}
	}
	return false
}

func nonNil(names []string) []string {
	if names == nil {
		return []string{}
	}
	return names
}

func (f *Field) schema() object {
	o := object{{"title", f.Symbol}, {"description", f.Help}}
	switch {
	case f.Shape == Word:
		o.add("enum", f.Choices)
		return o
	case f.Shape == List:
		o.add("type", []string{"string", "array", "object"})
	case f.Kind == nil || f.Unit.String() == "1":
		o.add("type", []string{"string", "number", "object"})
	default:
		o.add("type", []string{"string", "object"})
	}
	if f.Kind != nil {
		var units []string
		for _, u := range f.Kind.Units() {
			units = append(units, u.String())
		}
		o.add("units", units)
		o.add("unit", f.Unit.String())
		o.addBound("minimum", "exclusiveMinimum", f.Low, f.AboveLow, f.Unit)
		o.addBound("maximum", "exclusiveMaximum", f.High, f.BelowHigh, f.Unit)
	}
	if d := f.Default(); d != "" {
		o.add("default", d)
	}
	return o
}

// addBound writes a bound as a number of the unit to print in, under a name of
// ours: a value is a text or an object, so the schema's own bounds do not
// apply.
func (o *object) addBound(name, exclusive string, bound float64, excluded bool, u paperprop.Unit) {
	if bound < -1e300 || bound > 1e300 {
		return
	}
	if excluded {
		name = exclusive
	}
	o.add("value-"+name, jsonNumber(u.To(bound)))
}
