package lab

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// convert restates a value in another unit. It is a tool, since the text counts: a
// finite decimal comes out as that decimal.
var convert = &calc.Tool{
	About: calc.Info{
		Name:    "convert",
		Title:   "A value in another unit",
		Answers: "What a value is in another unit, by exact factors, rounded once.",
		Method:  "the decimal text times the exact ratio of the units; temperatures with their offset, differences without",
		Source:  "exact factors: SI Brochure, NIST Handbook 44 App. C, NIST SP 811 (2008) App. B.8, GNU units 2.22",
		Status:  calc.Published,
		Example: "value=42 lb/1000ft2; to=g/m2",
		Mistakes: []string{
			"ton, gal, Btu, hp and cal alone are ambiguous and refused.",
			"Mass is not force, gauge is not absolute, and a temperature is not a difference.",
		},
		Tool: true,
		Bare: true,
	},
	Fields: convertFields,
	Run:    runConvert,
}

func convertFields() (in, out []*calc.Field) {
	return []*calc.Field{
		calc.NewField("value", "x", calc.One, "a number with its unit"),
		calc.NewField("to", "to", calc.Text, "the unit wanted"),
	}, []*calc.Field{calc.NewField("value", "x", calc.One, "the same value in that unit")}
}

func runConvert(given []calc.Pair) ([]calc.Answer, error) {
	in, _ := convertFields()
	for _, f := range in {
		if textOf(given, f.Name) == "" {
			return nil, &calc.MissingError{Input: f}
		}
	}
	value, to := textOf(given, "value"), textOf(given, "to")
	x, unit, err := paperprop.Convert(value, to)
	if err == nil {
		return []calc.Answer{{Name: "value", Value: x, Unit: unit}}, nil
	}
	if _, unknown := paperprop.ParseUnit(to); unknown != nil {
		return nil, &calc.InputError{Input: "to", Text: to, Err: err}
	}
	return nil, &calc.InputError{Input: "value", Text: value, Err: err}
}
