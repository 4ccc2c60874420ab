package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var reelRoom = room{
	lost: map[string]string{
		"sets jumbo-length": "rest-length is a saw over it: more roots than any grid finds",
		"sets reel-length":  "rest-length is a saw over it: more roots than any grid finds",

		"reel-count-by-diameter ordered-mass": "diameter is a saw over it: a tooth for each number of reels",
		"reel-count-by-diameter reel-width":   "diameter is a saw over it: a tooth for each number of reels",
		"reel-count-by-diameter roll-density": "diameter is a saw over it: a tooth for each number of reels",
	},
	broken: map[string]string{
		"reel-count ordered-mass":             "whole reels within an over- and under-run: not every mass has a number of them",
		"reel-count reel-width":               "whole reels, as above",
		"reel-count diameter":                 "whole reels, as above",
		"reel-count roll-density":             "whole reels, as above",
		"reel-count-by-diameter ordered-mass": "whole reels between two diameters: not every mass has a number of them",
		"reel-count-by-diameter reel-width":   "whole reels, as above",
		"reel-count-by-diameter roll-density": "whole reels, as above",
	},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"reel-count": func(r *rand.Rand, s *calc.Sheet) {
			reelsOfAMill(r, s)
			put(s, "diameter", 600+900*r.Float64())
		},
		"reel-count-by-diameter": func(r *rand.Rand, s *calc.Sheet) {
			reelsOfAMill(r, s)
			put(s, "least-diameter", 600+300*r.Float64())
			put(s, "most-diameter", 900+600*r.Float64())
		},
	},
}

// reelsOfAMill makes an order of some dozens of reels, not of billions.
func reelsOfAMill(r *rand.Rand, s *calc.Sheet) {
	put(s, "ordered-mass", 1000+50_000*r.Float64())
	put(s, "reel-width", 300+2700*r.Float64())
	put(s, "core-diameter", 300*r.Float64())
	put(s, "roll-density", 300+1100*r.Float64())
}

func put(s *calc.Sheet, name string, x float64) {
	c, _ := s.Input(name)
	c.Put(x)
}
