package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var labRoom = room{
	byMethod: map[string]string{
		"round":               "decimal text, not a number",
		"shares":              "largest remainders",
		"conformity-rounding": "decimal text, not a number",
		"notation":            "decimal text, not a number",
		"student-t":           "root of an incomplete beta function",
		"range-factor":        "root of an integral",
		"sample-size":         "search for the smallest number that does",
		"dixon":               "readings in order",
		"dixon-limit":         "table",
		"interpolate":         "search for the neighbours",
	},
	lost: map[string]string{
		"conformity-rounding step": "a saw over the step: more roots than any grid finds",
	},
	broken: map[string]string{
		"shares step": "a step goes into 100 % a whole number of times",
	},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"interpolate": func(r *rand.Rand, s *calc.Sheet) {
			sorted(s, "x")
			x, _ := s.Input("x")
			at, _ := s.Input("at")
			all := x.Numbers()
			at.Put(all[0] + (all[len(all)-1]-all[0])*r.Float64())
		},
	},
}
