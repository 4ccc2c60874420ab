package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var streamRoom = room{
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"dewatering": func(_ *rand.Rand, s *calc.Sheet) { sorted(s, "dryness") }, // a sheet gets no wetter
	},
}
