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
