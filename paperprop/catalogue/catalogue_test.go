package catalogue_test

import (
	"encoding/csv"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// every calls f for each calculation that has a sheet.
func every(t *testing.T, f func(t *testing.T, c calc.Calculation)) {
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			if !c.Info().Tool {
				t.Run(c.ID(), func(t *testing.T) { f(t, c) })
			}
		}
	}
}

func TestDescriptionsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range catalogue.Groups() {
		for _, c := range g.Calculations {
			info := c.Info()
			if seen[info.Name] {
				t.Errorf("%s is there twice", info.Name)
			}
			seen[info.Name] = true
			for what, text := range map[string]string{
				"title": info.Title, "answer": info.Answers, "source": info.Source, "status": string(info.Status), "example": info.Example,
			} {
				if text == "" {
					t.Errorf("%s has no %s", info.Name, what)
				}
			}
			if len(info.Formula) == 0 && info.Method == "" {
				t.Errorf("%s has neither formula nor method", info.Name)
			}
			if len(info.Mistakes) == 0 {
				t.Errorf("%s does not say what people get wrong", info.Name)
			}
			for _, fields := range [][]*calc.Field{info.In, info.Out} {
				names, symbols := map[string]bool{}, map[string]bool{}
				for _, f := range fields {
					if names[f.Name] || symbols[f.Symbol] {
						t.Errorf("%s: %s (%s) is bound twice", info.Name, f.Name, f.Symbol)
					}
					names[f.Name], symbols[f.Symbol] = true, true
					if f.Help == "" {
						t.Errorf("%s: %s has no help", info.Name, f.Name)
					}
				}
			}
		}
	}
}

func TestExamplesRun(t *testing.T) {
	every(t, func(t *testing.T, c calc.Calculation) {
		run(t, c, c.Info().Example)
		for _, other := range c.Info().Compare {
			with := c
			if other.Name != "" {
				var ok bool
				if with, ok = catalogue.Find(other.Name); !ok {
					t.Errorf("nothing to compare with has the name %q", other.Name)
					continue
				}
			}
			run(t, with, other.Inputs)
		}
	})
}

// run runs a calculation on inputs as a description writes them.
func run(t *testing.T, c calc.Calculation, inputs string) {
	t.Helper()
	s := c.NewSheet()
	if err := s.SetText(inputs); err != nil {
		t.Errorf("%s: %v", inputs, err)
		return
	}
	if err := s.Run(); err != nil {
		t.Errorf("%s: %v", inputs, err)
	}
}

// signature is a line of testdata/signatures.
type signature struct{ name, symbol, kind, unit, form, def, note string }

func signatures(t *testing.T) map[string]map[string][]signature {
	all := map[string]map[string][]signature{}
	files, _ := filepath.Glob("../../testdata/signatures/*.csv")
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows[1:] {
			if all[r[0]] == nil {
				all[r[0]] = map[string][]signature{}
			}
			all[r[0]][r[1]] = append(all[r[0]][r[1]], signature{r[2], r[3], r[4], r[5], r[6], r[7], r[8]})
		}
	}
	if len(all) == 0 {
		t.Fatal("no signatures")
	}
	return all
}

// Names, order, types, units, forms and defaults are as the signatures fix
// them.
func TestSignatures(t *testing.T) {
	all := signatures(t)
	for name := range all {
		if _, ok := catalogue.Find(name); !ok {
			t.Errorf("no calculation %s", name)
		}
	}
	for _, name := range catalogue.Names() {
		c, _ := catalogue.Find(name)
		want, ok := all[name]
		if !ok {
			t.Errorf("%s has no signature", name)
			continue
		}
		if info := c.Info(); !info.Tool {
			compareSignature(t, name+" in", info.In, want["in"])
			compareSignature(t, name+" out", info.Out, want["out"])
		}
	}
}

func compareSignature(t *testing.T, what string, got []*calc.Field, want []signature) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d fields, want %d", what, len(got), len(want))
		return
	}
	for i, w := range want {
		if g := ofField(got[i], w); g != w {
			t.Errorf("%s:\n got %+v\nwant %+v", what, g, w)
		}
	}
}

// ofField writes a field as a signature; what a field does not hold is taken
// over.
func ofField(f *calc.Field, w signature) signature {
	g := signature{name: f.Name, symbol: f.Symbol, unit: f.Unit.String(), def: f.Default(), note: w.note, form: form(f, w)}
	switch {
	case f.Shape == calc.Word:
		g.kind, g.unit = "word", ""
		if choices, _, _ := strings.Cut(w.note, ":"); !strings.HasPrefix(choices+";", strings.Join(f.Choices, "|")) {
			g.note = strings.Join(f.Choices, "|")
		}
	case f.Shape == calc.Text:
		g.kind, g.unit = "text", ""
	case f.Kind == nil:
		g.kind, g.unit = "Value", f.Relation
	default:
		g.kind = f.Kind.Name()
		if u, err := f.Kind.Unit(w.unit); err == nil && u == f.Unit {
			g.unit = w.unit // t/t is kg/kg by another name
		}
	}
	if g.symbol == g.name && w.symbol == "" {
		g.symbol = ""
	}
	return g
}

func form(f *calc.Field, w signature) string {
	switch optional := f.Need == calc.Optional; {
	case f.Shape == calc.Word && w.form == "word":
		return "word"
	case f.Shape == calc.List && optional:
		return "optional-list"
	case f.Shape == calc.List:
		return "list"
	case optional:
		return "optional"
	}
	return "one"
}

// checks reads the check tables of the project.
func checks(t *testing.T) []calc.Check {
	files, _ := filepath.Glob("../../testdata/checks/*.csv")
	var all []calc.Check
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		rows, err := calc.ReadChecks(file, f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, rows...)
	}
	return all
}

func TestChecks(t *testing.T) {
	rows := checks(t)
	if len(rows) < 468 {
		t.Errorf("%d rows, want 468 or more", len(rows))
	}
	ids := map[string]bool{}
	byName := map[string][]calc.Check{}
	for _, c := range rows {
		if ids[c.ID] {
			t.Errorf("%s: id is there twice", c.ID)
		}
		ids[c.ID] = true
		byName[c.Calculation] = append(byName[c.Calculation], c)
		if c.Source == "" {
			t.Errorf("%s: no source", c.ID)
		}
		if c.Tolerance.Relative > 1e-6 && c.Note == "" {
			t.Errorf("%s: tolerance rel %g without a reason in the note", c.ID, c.Tolerance.Relative)
		}
	}
	for _, name := range catalogue.Names() {
		if len(byName[name]) == 0 {
			t.Errorf("no check row of %s", name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(byName)) {
		t.Run(name, func(t *testing.T) {
			for _, c := range byName[name] {
				for _, f := range c.Run(catalogue.Find) {
					t.Errorf("%s: %v (%s: %s)", c.ID, f, c.Kind, c.Source)
				}
			}
		})
	}
}

// A check that can't fail is none: each expected value moved by a little more
// than its tolerance makes the row fail.
func TestChecksBite(t *testing.T) {
	moved := 0
	for _, row := range checks(t) {
		if row.Refused {
			row.Refused, row.Warned = false, true
			if len(row.Run(catalogue.Find)) == 0 {
				t.Errorf("%s passes though no refusal is expected", row.ID)
			}
			continue
		}
		for i, p := range row.Expected {
			for _, text := range movedTexts(p.Text, row.Tolerance) {
				other := row
				other.Expected = slices.Clone(row.Expected)
				other.Expected[i].Text = text
				moved++
				if len(other.Run(catalogue.Find)) == 0 {
					t.Errorf("%s: %s=%s passes in place of %s", row.ID, p.Name, text, p.Text)
				}
			}
		}
		row.Refused, row.Expected = true, nil
		if len(row.Run(catalogue.Find)) == 0 {
			t.Errorf("%s passes though a refusal is expected", row.ID)
		}
	}
	if moved < 500 {
		t.Errorf("%d values moved, want 500 or more", moved)
	}
}
