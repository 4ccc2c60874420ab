package main

import (
	"bytes"
	"encoding/json"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// object is a JSON object; encoding/json writes its names in order of the
// alphabet, so the document is the same each time.
type object map[string]any

// listJSON is what there is to ask, room by room.
func listJSON(groups []catalogue.Group) ([]byte, error) {
	list := []object{}
	for _, g := range groups {
		for _, c := range g.Calculations {
			info := c.Info()
			list = append(list, object{
				"name": info.Name, "group": g.Name, "title": info.Title, "answers": info.Answers,
				"source": info.Source, "kind": string(info.Status),
			})
		}
	}
	return json.Marshal(object{"version": calc.Version, "calculations": list})
}

// openAPIJSON is the OpenAPI 3.1 document of all paths.
func openAPIJSON(groups []catalogue.Group) ([]byte, error) {
	var infos []*calc.Info
	tags := []object{}
	paths := object{
		"/health":       object{"get": fixedOperation("health", "whether the service answers")},
		"/openapi.json": object{"get": fixedOperation("openapi", "this document")},
		"/calculations": object{"get": fixedOperation("list", "what can be asked")},
	}
	for _, g := range groups {
		tags = append(tags, object{"name": g.Name, "description": g.Title})
		for _, c := range g.Calculations {
			infos = append(infos, c.Info())
			paths["/calculations/"+c.ID()] = object{
				"get":  fixedOperation("schema-"+c.ID(), "the JSON Schema of what is asked"),
				"post": operation(g.Name, c.Info()),
			}
		}
	}
	schemas, err := schemasOf(infos)
	if err != nil {
		return nil, err
	}
	return json.Marshal(object{
		"openapi": "3.1.0",
		"info": object{
			"title": "millmaths", "version": calc.Version, "summary": "calculations of pulp, paper and board mills",
		},
		"tags": tags, "paths": paths, "components": object{"schemas": schemas},
	})
}

// schemasOf are the schemas of what is asked, which are those of calc, and the parts
// of all answers.
func schemasOf(infos []*calc.Info) (object, error) {
	document, err := calc.CatalogueSchema(infos)
	if err != nil {
		return nil, err
	}
	// The definitions refer to one another, and move together.
	document = bytes.ReplaceAll(document, []byte(`"#/$defs/`), []byte(`"#/components/schemas/`))
	var asked struct {
		Schemas map[string]json.RawMessage `json:"$defs"`
	}
	if err := json.Unmarshal(document, &asked); err != nil {
		return nil, err
	}
	schemas := object{"Number": numberSchema(), "Answer": answerSchema(), "Notes": notesSchema(), "Error": errorSchema()}
	for name, schema := range asked.Schemas {
		schemas[name] = schema
	}
	return schemas, nil
}

func textSchema() object { return object{"type": "string"} }

func describedText(description string) object {
	return object{"type": "string", "description": description}
}

func numberSchema() object {
	numbers := object{"type": []string{"number", "array"}, "items": object{"type": "number"}}
	return object{
		"description": "a number, or a list of them, in its unit; u is the standard uncertainty, reported the text by the rule of the method",
		"type":        "object",
		"required":    []string{"value"},
		"properties": object{
			"value": numbers, "unit": textSchema(), "u": numbers, "reported": textSchema(), "rule": textSchema(), "remark": textSchema(),
		},
	}
}

func answerSchema() object {
	names := object{"type": "object"}
	return object{
		"type":     "object",
		"required": []string{"calculation", "version", "inputs", "outputs", "source", "kind"},
		"properties": object{
			"calculation": textSchema(), "version": textSchema(),
			"inputs": names, "outputs": names, "defaults": names,
			"solved":   describedText("the input that was solved for"),
			"roots":    object{"type": "array", "description": "where several values of that input give the output"},
			"warnings": reference("Notes"), "cautions": reference("Notes"),
			"source": textSchema(), "kind": object{"enum": []calc.Status{calc.Published, calc.Library, calc.CommonPractice, calc.Memory}},
		},
	}
}

func notesSchema() object {
	return object{
		"type": "array",
		"items": object{
			"type": "object", "required": []string{"code", "text"},
			"properties": object{"code": textSchema(), "text": textSchema()},
		},
	}
}

func errorSchema() object {
	return object{
		"type": "object", "required": []string{"error"},
		"properties": object{
			"calculation": textSchema(), "version": textSchema(),
			"error": object{
				"type": "object", "required": []string{"code", "text"},
				"properties": object{
					"code": describedText("stable, for programs"), "input": textSchema(), "text": textSchema(),
				},
			},
		},
	}
}

// operation asks for a calculation; the answer has what is in all answers, and its
// own outputs.
func operation(tag string, info *calc.Info) object {
	outputs := object{}
	for _, f := range info.Out {
		out := object{"description": f.Help}
		if f.Shape != calc.Word && f.Shape != calc.Text {
			out["allOf"] = []object{reference("Number")}
		}
		outputs[f.Name] = out
	}
	return object{
		"operationId": info.Name, "tags": []string{tag}, "summary": info.Title, "description": info.Answers,
		"requestBody": object{"required": true, "content": content(reference(info.Name))},
		"responses": object{
			"200": object{"description": "computed", "content": content(object{
				"allOf": []object{reference("Answer"), {"properties": object{"outputs": object{"properties": outputs}}}},
			})},
			"400": refusal("no JSON, or not all of it"),
			"408": refusal("the body did not come in time"),
			"413": refusal("the body is too large, or has too many uncertain numbers"),
			"415": refusal("not application/json"),
			"422": refusal("the calculation refuses an input: code, input and text say why"),
			"503": refusal("too many requests at once; Retry-After says when to ask again"),
			"504": refusal("not done in time"),
		},
	}
}

func fixedOperation(id, summary string) object {
	return object{
		"operationId": id, "summary": summary,
		"responses": object{"200": object{"description": "found", "content": content(object{"type": "object"})}},
	}
}

func refusal(description string) object {
	return object{"description": description, "content": content(reference("Error"))}
}

func content(schema object) object { return object{"application/json": object{"schema": schema}} }

func reference(name string) object { return object{"$ref": "#/components/schemas/" + name} }
