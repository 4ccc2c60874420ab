package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var fibreRoom = room{
	byMethod: map[string]string{
		"freeness-blank": "a verdict, not a number",
	},
	labels: []string{"freeness consistency", "freeness temperature"},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"furnish":      func(_ *rand.Rand, s *calc.Sheet) { sharing(s, "share") },
		"furnish-cost": func(_ *rand.Rand, s *calc.Sheet) { sharing(s, "share") },
	},
}
