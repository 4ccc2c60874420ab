package catalogue_test

import (
	"testing"

	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/catalogue"
)

// named finds a calculation that a test asks for.
func named(t testing.TB, name string) calc.Calculation {
	t.Helper()
	c, ok := catalogue.Find(name)
	if !ok {
		t.Fatalf("no calculation %s", name)
	}
	return c
}

// find returns the calculation of a sheet.
func find(s *calc.Sheet) (calc.Calculation, bool) { return catalogue.Find(s.Info().Name) }
