package result_test

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"
	"millmaths.example/paperprop/result"
)

// The bending stiffness of Harebell 120, a grade of the invented Quillbeck
// Board Mill, to three significant figures.
func ExampleFigures() {
	rule := result.Figures(3, result.Even)
	fmt.Println(rule)
	fmt.Println(rule.Round(80.05), rule.Round(99.95), rule.Round(1316.9))
	// Output:
	// 3 significant figures, ties to even (ISO 80000-1 rule A)
	// 80.0 100 1320
}

// The grammage of Whin 105, a grade of the invented Quillbeck Board Mill, to
// half a gram per square metre.
func ExampleStep() {
	rule, err := result.Step("0.5", result.Away)
	fmt.Println(rule.Round(104.75), err)
	_, err = result.Step("0,5", result.Away)
	fmt.Println(err)
	// Output:
	// 105.0 <nil>
	// step is "0,5", want a step above 0 with at most 18 digits, such as 0.5
}

// Three equal loads share a delivery to the invented Quillbeck Board Mill.
func ExampleShares() {
	load := decimal.New(152, -1) // 15.2 t
	shares, err := result.Shares(slices.Repeat([]decimal.Decimal{load}, 3), decimal.New(1, -3))
	fmt.Println(shares, err)
	// Output: [0.334 0.333 0.333] <nil>
}

// Five short-span readings at the invented Quillbeck Board Mill, in kN/m.
func ExampleSummarise() {
	s, err := result.Summarise([]float64{2.31, 2.24, 2.42, 2.28, 2.36}, 0.95)
	fmt.Printf("%.3f ± %.3f, s %.4f, error: %v\n", s.Mean, *s.HalfWidth, *s.StandardDeviation, err)
	// Output: 2.322 ± 0.087, s 0.0701, error: <nil>
}

// Two shifts of the invented Quillbeck Board Mill weigh reels, in tonnes, and
// the day is put together from both.
func ExampleRunning() {
	var early, late result.Running
	for _, x := range []float64{3.12, 3.20, 3.15} {
		early.Add(x)
	}
	for _, x := range []float64{3.22, 3.18} {
		late.Add(x)
	}
	early.Merge(late)
	s, err := early.Summary(0.95)
	fmt.Printf("%d reels, mean %.3f, error: %v\n", s.Count, s.Mean, err)
	// Output: 5 reels, mean 3.174, error: <nil>
}
