package batch_test

import (
	"context"
	"fmt"
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
