package formula_test

import (
	"fmt"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc/formula"
)

func ExampleLine_Eval() {
	line, err := formula.Parse("w_l = sum(m*w)/sum(m)")
	if err != nil {
		fmt.Println(err)
		return
	}
	mass := paperprop.Dimension{paperprop.BaseMass: 1}
	v, err := line.Eval(formula.Values{
		"m": formula.List([]float64{600, 400}, mass),
		"w": formula.List([]float64{0.10, 0.15}, paperprop.Dimension{}),
	})
	fmt.Printf("%.3f %v %v\n", v.Numbers[0], v.Dimension, err)
	// Output: 0.120 1 <nil>
}
