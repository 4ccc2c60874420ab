package line

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// An object is a JSON object whose names keep their order.
type object []jsonMember

type jsonMember struct {
	name  string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := json.Marshal(m.name)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func jsonNumber(x float64) json.Number { return json.Number(paperprop.AppendShort(nil, x)) }

// asWritten returns a value in another unit as somebody would write it: 58 %, where 0.58
// over 0.01 is 57.99999999999999.
func asWritten(x float64, from, to paperprop.Unit) json.Number {
	y, err := from.Convert(x, to)
	if err != nil {
		y = to.To(x) // beyond a float64
	}
	return jsonNumber(y)
}

// json returns a canonical value as JSON, in the unit of its result.
func (r *Result) json(value float64, spread *Spread) object {
	o := object{{"value", jsonNumber(r.In(value))}}
	if text := r.Unit.String(); text != "" && text != "1" {
		o = append(o, jsonMember{"unit", text})
	}
	if spread != nil && spread.Standard > 0 {
		o = append(o, jsonMember{"u", jsonNumber(r.Unit.Difference().To(spread.Standard))})
	}
	return o
}

// JSON returns the answer for programs: the streams, each with its total, every
// component and its dryness, then the balances of stages and tanks, the results,
// the figures, the conventions and the cautions. Spreads are those of [Line.Uncertainties]: of the
// results, in their order, and last of a figure that was solved for; or nil. Warnings, as
// those of [Line.Doubts], are told where there are any.
func (a *Answer) JSON(spreads []Spread, warnings ...calc.Warning) ([]byte, error) {
	if a.Line == nil {
		return nil, errNoLine
	}
	solved := slices.ContainsFunc(a.Line.Figures, func(f Figure) bool { return f.solved })
	if n := len(spreads); spreads != nil && n != len(a.Results) && !(solved && n == len(a.Results)+1) {
		return nil, fmt.Errorf("%d spreads, want one for each of %d results", len(spreads), len(a.Results))
	}
	spread := func(i int) *Spread {
		if spreads == nil {
			return nil
		}
		return &spreads[i]
	}
	var streams, stages []object
	var results, figures object
	at := 0
	for _, st := range a.Streams {
		o := object{{"name", st.Name}, {"from", st.From}, {"to", st.To}}
		for ; at < len(a.Results) && a.Results[at].stream != nil && a.Results[at].stream.name == st.Name; at++ {
			r := &a.Results[at]
			o = append(o, jsonMember{r.Name[len(st.Name)+1:], r.json(a.Values[at], spread(at))})
		}
		streams = append(streams, o)
	}
	for ; at < len(a.Results); at++ {
		results = append(results, jsonMember{a.Results[at].Name, a.Results[at].json(a.Values[at], spread(at))})
	}
	for _, b := range a.Stages {
		stages = append(stages, object{
			{"name", b.Name}, {"kind", b.Kind}, {"in", texts(b.In)}, {"out", texts(b.Out)}, {"closure", jsonNumber(b.Closure)},
		})
	}
	for i := range a.Line.Figures {
		f := &a.Line.Figures[i]
		unit, canonical := f.Field.Unit, f.Field.Kind.Canonical()
		o := object{{"value", asWritten(f.Value, canonical, unit)}}
		if text := unit.String(); text != "" && text != "1" {
			o = append(o, jsonMember{"unit", text})
		}
		u := f.Uncertain.Standard
		if f.solved && len(spreads) > len(a.Results) {
			u = spreads[len(a.Results)].Standard
		}
		if u > 0 {
			o = append(o, jsonMember{"u", asWritten(u, canonical.Difference(), unit.Difference())})
		}
		figures = append(figures, jsonMember{f.Name, o})
	}
	cautions := []object{}
	for _, c := range a.Line.Cautions() {
		cautions = append(cautions, object{{"code", c.Code}, {"text", c.Text}})
	}
	all := object{
		{"line", a.Line.Name}, {"version", calc.Version},
		{"streams", streams}, {"stages", stages}, {"results", results},
		{"closure", object{{"worst", jsonNumber(a.Closure)}, {"mill", jsonNumber(a.Whole.Closure)}, {"limit", jsonNumber(closed)}}},
		{"figures", figures}, {"conventions", a.Line.Conventions()}, {"cautions", cautions},
	}
	if len(warnings) > 0 {
		var told []object
		for _, w := range warnings {
			told = append(told, object{{"code", w.Code}, {"text", w.Text}})
		}
		all = append(all, jsonMember{"warnings", told})
	}
	return marshal(all)
}

// texts returns a copy of list that is never nil, so that JSON has [] and not null.
func texts(list []string) []string { return append([]string{}, list...) }

// marshal is json.Marshal without the escapes for HTML: <, > and & stay as they
// are.
func marshal(v any) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	return bytes.TrimRight(b.Bytes(), "\n"), nil
}
