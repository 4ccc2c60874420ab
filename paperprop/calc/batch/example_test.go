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
