package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var streamRoom = room{
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"dewatering": func(_ *rand.Rand, s *calc.Sheet) { sorted(s, "dryness") }, // a sheet gets no wetter
		// Exponents of friction are small: to the hundredth power all is zero or infinite.
		"pipe-friction": func(r *rand.Rand, s *calc.Sheet) {
			for _, name := range []string{"speed-exponent", "consistency-exponent", "diameter-exponent"} {
				small(r, s, name)
			}
		},
		"pipe-friction-limit": func(r *rand.Rand, s *calc.Sheet) { small(r, s, "limit-exponent") },
	},
}

// small puts an exponent between -3 and 3.
func small(r *rand.Rand, s *calc.Sheet, name string) {
	c, _ := s.Input(name)
	c.Put(6*r.Float64() - 3)
}
