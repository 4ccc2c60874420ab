package lab_test

import (
	"fmt"

	"millmaths.example/paperprop/lab"
)

func ExampleReplicates() {
	r, err := lab.Replicates{Value: []float64{17.4, 18.1, 17.7, 18.6, 17.9}}.Calculate()
	fmt.Printf("%.2f ± %.2f, %v\n", r.Mean, *r.HalfWidth, err)
	// Output: 17.94 ± 0.56, <nil>
}

// One value passes by one method and fails by the other.
func ExampleConformityRounding() {
	absolute, _ := lab.ConformityAbsolute{Value: 2.1978, Limit: 2.20, Side: lab.SideAtLeast}.Calculate()
	rounded, _ := lab.ConformityRounding{
		Value: 2.1978, Limit: 2.20, Side: lab.SideAtLeast, Step: 0.01, Tie: lab.TieEven,
	}.Calculate()
	fmt.Println(absolute.Verdict, rounded.Reported, rounded.Verdict)
	// Output: fail 2.20 pass
}

// The breaking force of one strip stands apart (readings invented). It is
// shown, not removed.
func ExampleGrubbs() {
	r, err := lab.Grubbs{Value: []float64{34.5, 33.9, 34.8, 28.6, 34.1}, Side: lab.SideEither}.Calculate()
	fmt.Printf("reading %v: %.3f against %.3f, %s, %v\n", r.Position, r.Statistic, r.CriticalValue, r.Verdict, err)
	// Output: reading 4: 1.772 against 1.715, outlier, <nil>
}

// A consistency meter against the laboratory (readings invented).
func ExampleLinePrediction() {
	r, err := lab.LinePrediction{
		X: []float64{2.1, 2.9, 3.8, 4.6, 5.2}, Y: []float64{2.0, 2.85, 3.75, 4.7, 5.15}, At: 4.0,
	}.Calculate()
	fmt.Printf("%.3f ± %.3f %%, %v\n", r.Predicted, r.PredictedUncertainty, err)
	// Output: 3.980 ± 0.033 %, <nil>
}

func ExampleNotation() {
	r, err := lab.Notation{
		Value: 120.4127, StandardUncertainty: 0.3512, Form: lab.FormBrackets, Rule: lab.RuleTwoFigures,
	}.Calculate()
	fmt.Println(r.Reported, err)
	// Output: 120.41(35) <nil>
}
