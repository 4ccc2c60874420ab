package main

import (
	"fmt"
	"slices"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// What the page asks of the library. It knows no calculation by name. The page
// reads the fields of an answer by their names, begun small.

type room struct {
	Name         string
	Title        string
	Calculations []calculation
}

type calculation struct {
	Name  string
	Title string
}

// rooms lists what can be picked: the calculations with a sheet, room by room.
func rooms() []room {
	var list []room
	for _, g := range catalogue.Groups() {
		r := room{Name: g.Name, Title: g.Title}
		for _, c := range g.Calculations {
			if info := c.Info(); !info.Tool {
				r.Calculations = append(r.Calculations, calculation{info.Name, info.Title})
			}
		}
		list = append(list, r)
	}
	return list
}

type described struct {
	Title    string
	Answers  string
	Inputs   []field
	Outputs  []field
	Mistakes []string
	Cautions []string
}

type field struct {
	Name    string
	Symbol  string
	Help    string
	Unit    string
	Default string
	Choices []string
	Needed  bool
	Range   bool // of an input: it can run; of an output: it can be drawn
	Example string
}

// describe tells the inputs of a calculation, filled in with its example.
func describe(name string) (described, error) {
	c, err := find(name)
	if err != nil {
		return described{}, err
	}
	info := c.Info()
	example, err := calc.ParsePairs(info.Example)
	if err != nil {
		return described{}, err
	}
	d := described{Title: info.Title, Answers: info.Answers, Mistakes: info.Mistakes}
	for _, f := range info.In {
		in := newField(f)
		if i := slices.IndexFunc(example, func(p calc.Pair) bool { return p.Name == f.Name }); i >= 0 {
			in.Example = example[i].Text
		}
		d.Inputs = append(d.Inputs, in)
	}
	for _, f := range info.Out {
		d.Outputs = append(d.Outputs, newField(f))
	}
	for _, caution := range info.Cautions {
		d.Cautions = append(d.Cautions, caution.Text)
	}
	return d, nil
}

func newField(f *calc.Field) field {
	unit := f.Unit.String()
	if unit == "1" {
		unit = ""
	}
	return field{
		Name: f.Name, Symbol: f.Symbol, Help: f.Help, Unit: unit, Default: f.Default(), Choices: f.Choices,
		Needed: f.Need == calc.Required, Range: f.Shape == calc.One && f.Kind != nil,
	}
}

type worked struct {
	Solution *solution // nil: refused
	Curves   []curve
}

// A solution is what the page shows of a worked solution.
type solution struct {
	Solved, Method, Source, Status string
	Steps                          []step
	Results                        []line
	Warnings                       []string
}

type step struct{ Formula, Substituted, Result string }

type line struct{ Symbol, Reported, Name, U string }

// A curve is one output over the range of one input, in the units that it is
// printed in; a point that is refused parts it.
type curve struct {
	Output string
	Y      string // with unit, for the axis
	X      string
	Pieces [][][2]float64
}

// work runs a calculation on texts as a person types them. One may be a range,
// "3..5 %": then the outputs are curves and the solution is that of its start.
func work(name string, texts map[string]string) (worked, error) {
	c, err := find(name)
	if err != nil {
		return worked{}, err
	}
	s := c.NewSheet()
	var running *calc.Cell
	var along calc.Range
	for _, in := range slices.Concat(s.In, s.Out) {
		text := strings.TrimSpace(texts[in.Name])
		if text == "" {
			continue
		}
		if cell, ok := s.Input(in.Name); ok && calc.IsRange(text) {
			if running != nil {
				return worked{}, &calc.InputError{Input: in.Name, Text: text, Err: fmt.Errorf("%s is a range already: one can run", running.Name)}
			}
			if along, err = cell.Range(text); err != nil {
				return worked{}, err
			}
			running = cell
			continue
		}
		if err := s.Set(in.Name, text); err != nil {
			return worked{}, err
		}
	}
	var w worked
	if running != nil {
		if w.Curves, err = curves(s, running, along); err != nil {
			return worked{}, err
		}
		number := calc.Pair{Name: running.Name, Text: running.Kind.Format(along.Values[0], along.Unit)}
		if err := s.Set(number.Name, number.Text); err != nil {
			return worked{}, err
		}
	}
	if err := s.Run(); err != nil {
		return w, err
	}
	w.Solution, err = solutionOf(s)
	return w, err
}

func solutionOf(s *calc.Sheet) (*solution, error) {
	from, err := s.Solution()
	if err != nil {
		return nil, err
	}
	to := &solution{Solved: from.Solved, Method: from.Method, Source: from.Source, Status: string(from.Status)}
	for _, f := range from.Steps {
		to.Steps = append(to.Steps, step{f.Formula, f.Substituted, f.Result})
	}
	for _, r := range from.Results {
		to.Results = append(to.Results, line{r.Symbol, r.Reported, r.Name, r.U})
	}
	for _, w := range from.Warnings {
		to.Warnings = append(to.Warnings, w.Text)
	}
	return to, nil
}

// curves computes every output that is one number along the range.
func curves(s *calc.Sheet, running *calc.Cell, along calc.Range) ([]curve, error) {
	const steps = 120
	low, high := along.Values[0], along.Values[len(along.Values)-1]
	var all []curve
	var cells []*calc.Cell
	for _, out := range s.Out {
		if out.Shape == calc.One && out.Kind != nil {
			cells = append(cells, out)
			all = append(all, curve{Output: out.Name, X: head(running.Name, along.Unit.String()), Y: head(out.Name, out.PrintUnit().String())})
		}
	}
	var refused error
	computed, broken := false, true
	for i := range steps + 1 {
		v := low + (high-low)*float64(i)/steps
		running.Put(v)
		if err := s.Run(); err != nil {
			refused, broken = err, true
			continue
		}
		computed = true
		for k, out := range cells {
			if !out.Present() {
				continue
			}
			if broken || len(all[k].Pieces) == 0 {
				all[k].Pieces = append(all[k].Pieces, nil)
			}
			last := len(all[k].Pieces) - 1
			all[k].Pieces[last] = append(all[k].Pieces[last], [2]float64{along.Unit.To(v), out.Printed()})
		}
		broken = false
	}
	if !computed {
		return nil, refused
	}
	return all, nil
}

func head(name, unit string) string {
	if unit == "" || unit == "1" {
		return name
	}
	return name + " [" + unit + "]"
}

func find(name string) (calc.Calculation, error) {
	c, ok := catalogue.Find(name)
	if !ok || c.Info().Tool {
		return nil, fmt.Errorf("no calculation %q", name)
	}
	return c, nil
}
