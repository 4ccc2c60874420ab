package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var stockRoom = room{
	byMethod: map[string]string{
		"cascade-removal": "each stage takes from the one after: a recurrence, for which formula lines have no form",
	},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"proportioning":       sharesOfOne,
		"proportioning-batch": sharesOfOne,
	},
}

// sharesOfOne scales the shares of a furnish to 100 %.
func sharesOfOne(_ *rand.Rand, s *calc.Sheet) {
	c, _ := s.Input("dry-share")
	shares := c.Numbers()
	sum := 0.0
	for _, x := range shares {
		sum += x
	}
	for i := range shares {
		shares[i] /= sum
	}
	c.PutList(shares)
}
