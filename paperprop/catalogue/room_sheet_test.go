package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var sheetRoom = room{
	labels: []string{"cobb time", "short-span thickness", "ring-crush thickness", "fluted-crush delay", "corrugated-crush delay"},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"tensile-curve": func(_ *rand.Rand, s *calc.Sheet) { risingFromZero(s, "elongation") },
	},
}

// risingFromZero puts a list in order and begins it with zero.
func risingFromZero(s *calc.Sheet, name string) {
	sorted(s, name)
	c, _ := s.Input(name)
	list := c.Numbers()
	list[0] = 0
	c.PutList(list)
}
