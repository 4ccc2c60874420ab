package catalogue_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/table"
)

// A written input is one as people write it: its number or list, and its unit.
type written struct{ name, number, unit string }

// writtenInputs returns the given inputs of a sheet in random units.
func writtenInputs(r *rand.Rand, s *calc.Sheet) []written {
	var all []written
	for _, in := range s.In {
		switch {
		case !in.Given():
		case in.Shape == calc.Word:
			all = append(all, written{in.Name, in.Word(), ""})
		case in.Kind == nil:
			all = append(all, written{in.Name, in.FullNumber(), ""})
		default:
			units := slices.DeleteFunc(in.Kind.Units(), func(u paperprop.Unit) bool { return u.Currency() != "" })
			u := units[r.IntN(len(units))]
			var numbers []string
			for _, x := range in.Numbers() {
				numbers = append(numbers, string(u.AppendShort(nil, x)))
			}
			number := strings.Join(numbers, " ")
			if in.Shape == calc.List {
				number = "[" + number + "]"
			}
			all = append(all, written{in.Name, number, u.String()})
		}
	}
	return all
}

func (w written) text() string { return strings.TrimSpace(w.number + " " + w.unit) }

// One result is the same in every face, to the last digit: a sheet set from texts, JSON
// of texts and of numbers with units, and a row of a batch, rounded or not.
func TestFacesAgree(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		r := rand.New(rand.NewPCG(13, 14))
		for range 20 {
			inputs := writtenInputs(r, accepted(t, c, r))
			s := c.NewSheet()
			for _, w := range inputs {
				if err := s.Set(w.name, w.text()); err != nil {
					t.Fatal(err)
				}
			}
			if err := s.Run(); err != nil {
				continue // the shortest text lies past the edge of a refused stretch
			}
			sameJSON(t, c, s, inputs)
			for _, full := range []bool{true, false} {
				sameRow(t, c, s, inputs, full)
			}
		}
	})
}

func sameJSON(t *testing.T, c calc.Calculation, s *calc.Sheet, inputs []written) {
	t.Helper()
	texts, parts := map[string]string{}, map[string]any{}
	for _, w := range inputs {
		texts[w.name] = w.text()
		in, _ := s.Input(w.name)
		switch value := json.RawMessage(strings.ReplaceAll(w.number, " ", ",")); {
		case in.Shape == calc.Word:
			parts[w.name] = w.number
		case w.unit == "":
			parts[w.name] = value
		default:
			parts[w.name] = map[string]any{"value": value, "unit": w.unit}
		}
	}
	want, err := s.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	for _, request := range []any{texts, parts} {
		data, _ := json.Marshal(request)
		if got, err := calc.RunJSON(c, data); err != nil || !bytes.Equal(got, want) {
			t.Errorf("%s gives\n%s, %v, the sheet\n%s", data, got, err, want)
		}
	}
	var answer struct {
		Outputs map[string]json.RawMessage
	}
	if err := json.Unmarshal(want, &answer); err != nil {
		t.Fatal(err)
	}
	for _, out := range s.Out {
		var value struct{ Value json.RawMessage }
		json.Unmarshal(answer.Outputs[out.Name], &value)
		got := strings.ReplaceAll(string(value.Value), ",", " ")
		if out.Shape != calc.Word && out.Shape != calc.Text && got != out.FullNumber() {
			t.Errorf("%s is %s in JSON, %s unrounded", out.Name, got, out.FullNumber())
		}
	}
}

func sameRow(t *testing.T, c calc.Calculation, s *calc.Sheet, inputs []written, full bool) {
	t.Helper()
	var head, row []byte
	for _, w := range inputs {
		name := w.name
		if w.unit != "" {
			name += " [" + w.unit + "]"
		}
		head = append(table.AppendCSV(head, ';', []byte(name)), ';')
		row = append(table.AppendCSV(row, ';', []byte(w.number)), ';')
	}
	job := batch.Job{Calculation: c, Full: full, Tell: func(err error) { t.Error(err) }}
	text := fmt.Sprintf("%snote\n%sa\n", head, row)
	var out bytes.Buffer
	if _, err := job.Run(context.Background(), strings.NewReader(text), &out); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	cells := csv.NewReader(&out)
	cells.Comma = ';'
	rows, err := cells.ReadAll()
	if err != nil || len(rows) != 2 {
		t.Fatalf("%s: %d rows, %v", text, len(rows), err)
	}
	for i, head := range rows[0][len(inputs)+1 : len(rows[0])-1] {
		name, _, _ := strings.Cut(head, " ")
		cell, _ := s.Output(name)
		want := cell.FullNumber()
		if !full {
			want = strings.TrimSuffix(cell.Reported(), paperprop.WithUnit("", cell.PrintUnit()))
		}
		if got := rows[1][len(inputs)+1+i]; got != want {
			t.Errorf("%s in a row is %s, by itself %s (full %v)\n%s", head, got, want, full, text)
		}
	}
}
