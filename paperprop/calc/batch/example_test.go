package batch_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/calc/batch"
	"millmaths.example/paperprop/catalogue"
	"millmaths.example/paperprop/table"
)

// One row out for each row in; what can't be computed is told and counted.
func ExampleJob_Run() {
	tensile, _ := catalogue.Find("tensile")
	job := batch.Job{
		Calculation: tensile,
		Constants:   []calc.Pair{{Name: "grammage", Text: "80 g/m2"}},
		Tell:        func(err error) { fmt.Println("told:", err) },
	}
	job.Options.Name = "lab.csv"
	table := "piece,force [N]\n1,85\n2,overload\n"
	totals, err := job.Run(context.Background(), strings.NewReader(table), os.Stdout)
	fmt.Printf("%d rows = %d computed + %d reported, %v\n", totals.Rows, totals.Computed, totals.Reported, err)
	// Output:
	// piece,force [N],tensile-strength [kN/m],tensile-index [kN.m/kg],breaking-length [km],remark
	// 1,85,5.67,70.8,7.22,
	// 2,overload,,,,"force ""overload"": not a number, want a number in N"
	// told: lab.csv:3:2: force "overload": not a number, want a number in N
	// 2 rows = 1 computed + 1 reported, <nil>
}

// Rows that a program has itself, under heads of its own: each is computed when it comes.
// 45 lbf over 25 mm are 200.170 N over 25 mm.
func ExampleJob_Bind() {
	tensile, _ := catalogue.Find("tensile")
	job := batch.Job{
		Calculation: tensile,
		Columns:     map[string][]string{"force": {"peak"}, "strip-width": {"w"}},
		Constants:   []calc.Pair{{Name: "grammage", Text: "120 g/m2"}},
	}
	bound, err := job.Bind(table.NewLayout("tester", []table.Column{{Head: "peak", Unit: "lbf"}, {Head: "w", Unit: "mm"}}))
	if err != nil {
		fmt.Println(err)
		return
	}
	strength, _ := bound.Sheet().Output("tensile-strength")
	rec := table.Record{Fields: make([][]byte, 2)}
	for i, row := range [][2]string{{"45", "25"}, {"overload", "25"}, {"46.5", "25"}} {
		rec.Line = i + 1
		rec.Fields[0], rec.Fields[1] = []byte(row[0]), []byte(row[1])
		if err := bound.Compute(&rec); err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Printf("%.6g kN/m, reported %s\n", strength.Printed(), strength.Reported())
	}
	// Output:
	// 8.0068 kN/m, reported 8.01 kN/m
	// tester:2:1: peak "overload": not a number, want a number in lbf
	// 8.27369 kN/m, reported 8.27 kN/m
}

// A tensile tester's file with a preamble, tabs, decimal commas, Latin-1 letters
// and its head twice becomes one statement a specimen and direction. The file is
// of an invented mill.
func ExampleTotals_Statements() {
	tensile, _ := catalogue.Find("tensile")
	file, err := os.Open("../../../examples/quillbeck/tensile.txt")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer file.Close()
	job := batch.Job{
		Calculation: tensile,
		By:          []string{"specimen", "direction"},
		Tell:        func(err error) { fmt.Println("told:", err) },
	}
	job.Options.Name = "tensile.txt"
	totals, err := job.Run(context.Background(), file, io.Discard)
	if err != nil {
		fmt.Println(err)
		return
	}
	statements, err := totals.Statements(0.95)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range statements {
		if s.Name == "tensile-index" {
			fmt.Printf("%v: %s %s, n = %d\n", s.Key, s.Reported, s.Unit, s.Count)
		}
	}
	// Output:
	// [H120-7 MD]: 53.3 kN.m/kg, n = 10
	// [W105-3 MD]: 51.8 kN.m/kg, n = 10
	// [H120-7 CD]: 22.2 kN.m/kg, n = 10
	// [W105-3 CD]: 20.7 kN.m/kg, n = 10
}
