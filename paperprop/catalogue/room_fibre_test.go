package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var fibreRoom = room{
	byMethod: map[string]string{
		"freeness-blank": "a verdict, not a number",
	},
	labels: []string{"freeness consistency", "freeness temperature", "ash ignition-temperature"},
	broken: map[string]string{
		"ash ignition-temperature": "525 or 900 degC, within 25 K: two stretches by the methods",
	},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"disintegration": func(r *rand.Rand, s *calc.Sheet) { // often beside its limit of 20 %
			if r.IntN(4) == 0 {
				put(s, "dryness", 0.198+0.004*r.Float64())
			}
		},
		"ash": func(r *rand.Rand, s *calc.Sheet) {
			put(s, "ignition-temperature", 525+375*float64(r.IntN(2))+50*(r.Float64()-0.5))
		},
		"furnish":      func(_ *rand.Rand, s *calc.Sheet) { sharing(s, "share") },
		"h-factor":     func(_ *rand.Rand, s *calc.Sheet) { sorted(s, "time") },
		"furnish-cost": func(_ *rand.Rand, s *calc.Sheet) { sharing(s, "share") },
	},
}
