package calc_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/formula"
)

// Sheets is a calculation of one's own: how many sheets a mass of paper makes.
type Sheets struct {
	Mass     paperprop.Mass     // above zero
	Grammage paperprop.Grammage // above zero
	Area     paperprop.Area     // of a sheet, above zero
}

// SheetsResult is what Sheets calculates.
type SheetsResult struct {
	Sheets paperprop.Ratio // not rounded
}

func (s Sheets) compute() (SheetsResult, error) {
	one := s.Grammage.In(paperprop.GramPerSquareMetre) * s.Area.In(paperprop.SquareMetre) // g
	return SheetsResult{paperprop.Ratio(s.Mass.In(paperprop.Gram) / one)}, nil
}

var sheets = &calc.Description[Sheets, SheetsResult]{
	Name:    "sheets",
	Title:   "Sheets in a mass of paper",
	Formula: []string{"n = m/(g*A)"},
	Source:  "definition of grammage",
	Status:  calc.CommonPractice,
	Compute: Sheets.compute,
	Fields: func(f *calc.Form, in *Sheets, out *SheetsResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "of paper").Above(0)
		calc.In(f, &in.Grammage, "grammage", "g", "g/m2", "of paper").Above(0)
		calc.In(f, &in.Area, "area", "A", "m2", "of a sheet").Above(0)
		calc.Out(f, &out.Sheets, "sheets", "n", "1", "not rounded")
	},
}

// A description is all that a calculation needs to be asked with texts, in any
// units, with uncertainty, and to be solved for an input.
func ExampleDescription() {
	typed, err := sheets.Calculate(Sheets{
		Mass: 5 * paperprop.Kilogram, Grammage: 80 * paperprop.GramPerSquareMetre, Area: 0.0625 * paperprop.SquareMetre,
	})
	fmt.Println(typed.Sheets, err)

	s := sheets.NewSheet()
	if err := s.SetText("mass=11 ± 0.1 lb; area=625 cm2; sheets=1000"); err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Run(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("grammage", s.Roots[0].People())
	// Output:
	// 1000 <nil>
	// grammage 79.8323 g/m2
}

// An input runs through a range, as --INPUT "70..90 g/m2 by 10 g/m2" of the command does.
func ExampleCell_Range() {
	s := sheets.NewSheet()
	if err := s.SetText("mass=5 kg; area=625 cm2"); err != nil {
		fmt.Println(err)
		return
	}
	grammage, _ := s.Input("grammage")
	count, _ := s.Output("sheets")
	run, err := grammage.Range("70..90 g/m2 by 10 g/m2")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range run.Values {
		grammage.Put(x)
		if err := s.Run(); err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(grammage.Printed(), count.Reported())
	}
	// Output:
	// 70 1142.86
	// 80 1000
	// 90 888.889
}

// The worked solution, as --steps of the command prints it, is a struct of texts: a
// program sets them as it likes.
func ExampleSheet_Solution() {
	s := sheets.NewSheet()
	if err := s.SetText("mass=5.00 ± 0.02 kg; grammage=80 g/m2; area=625 cm2"); err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Run(); err != nil {
		fmt.Println(err)
		return
	}
	solution, err := s.Solution()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, g := range solution.Given {
		fmt.Println(g.Symbol, g.Written, g.Name, g.Help)
	}
	for _, step := range solution.Steps {
		fmt.Println(step.Formula, "=", step.Substituted, "=", step.Result)
	}
	for _, r := range solution.Results {
		fmt.Println(r.Name, r.Reported, "u =", r.U)
	}
	// Output:
	// m 5.00 ± 0.02 kg mass of paper
	// g 80 g/m2 grammage of paper
	// A 625 cm2 area of a sheet
	// n = m/(g*A) = 5 kg/((80 g/m2)*0.0625 m2) = 1000
	// sheets 1000 u = 4.0
}

// A worked solution prints formula lines beside what Compute gave. CheckLines is for
// the test of a description: here a line takes half of the mass for dry, and Compute does not.
func ExampleSheet_CheckLines() {
	line, err := formula.Parse("n = m*0.5/(g*A)")
	if err != nil {
		fmt.Println(err)
		return
	}
	s := sheets.NewSheet()
	if err := s.SetText("mass=5 kg; grammage=80 g/m2; area=625 cm2"); err != nil {
		fmt.Println(err)
		return
	}
	if err := s.Run(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(s.CheckLines())
	fmt.Println(s.CheckLines(line))
	// Output:
	// <nil>
	// n = m*0.5/(g*A) gives 500, the calculation 1000, in SI units
}
