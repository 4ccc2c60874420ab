package catalogue_test

import (
	"math/rand/v2"
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// catchers gives f every check row, every limit, every bound of a refusal and the formula lines of every
// calculation on some inputs, each as what says whether it fails.
func catchers(t *testing.T, f func(fails func() bool)) {
	rows := checks(t)
	for i := range rows {
		f(func() bool { return len(rows[i].Run(catalogue.Find)) > 0 })
	}
	for i := range limits {
		f(func() bool { return limits[i].wrong() != "" })
		if limits[i].exact() {
			f(func() bool { return limits[i].wrongNear() != "" })
		}
	}
	for _, r := range refusals(t) {
		f(func() bool { _, wrong := r.wrong(); return wrong != "" })
	}
	every(t, func(t *testing.T, c calc.Calculation) {
		if len(c.Info().Formula) == 0 {
			return
		}
		r := rand.New(rand.NewPCG(5, 6))
		for range 20 {
			s := accepted(t, c, r)
			f(func() bool { return linesDiffer(s) })
		}
	})
}

// linesDiffer says whether lines and method part on the inputs of a sheet, or
// these are taken no longer.
func linesDiffer(s *calc.Sheet) bool {
	return s.Run() != nil || s.CheckLines() != nil
}
