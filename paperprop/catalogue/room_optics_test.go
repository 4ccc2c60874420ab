package catalogue_test

import (
	"math/rand/v2"

	"millmaths.example/paperprop/calc"
)

var opticsRoom = room{
	byMethod: map[string]string{
		"brightness":  "a table of weights",
		"tristimulus": "tables of weights",
	},
	limit: map[string]string{
		"sheet-reflectance": "a sheet that absorbs nothing has a whole reflectivity, and E is 1",
	},
	shape: map[string]func(r *rand.Rand, s *calc.Sheet){
		"optical-mix": func(_ *rand.Rand, s *calc.Sheet) { sharing(s, "share") },
		"brightness":  func(r *rand.Rand, s *calc.Sheet) { spectrum(r, s, 400, 510, float64(5+5*r.IntN(2))) },
		"tristimulus": func(r *rand.Rand, s *calc.Sheet) { spectrum(r, s, 380, 780, 5) },
	},
}

// sharing scales a list so that it makes one whole.
func sharing(s *calc.Sheet, name string) {
	c, _ := s.Input(name)
	list, sum := c.Numbers(), 0.0
	for _, x := range list {
		sum += x
	}
	for i := range list {
		list[i] /= sum
	}
	c.PutList(list)
}

// spectrum reaches at least over a range of wavelengths in nm, by one step.
func spectrum(r *rand.Rand, s *calc.Sheet, from, to, step float64) {
	wavelength, _ := s.Input("wavelength")
	reflectance, _ := s.Input("reflectance")
	var waves, readings []float64
	for nm := from - step*float64(r.IntN(3)); nm <= to+step*float64(r.IntN(3)); nm += step {
		waves = append(waves, wavelength.Unit.From(nm))
		readings = append(readings, randomValue(r, reflectance.Field))
	}
	wavelength.PutList(waves)
	reflectance.PutList(readings)
}
