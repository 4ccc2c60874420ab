package catalogue_test

import (
	"slices"
	"strings"
	"testing"

	"millmaths.example/paperprop/calc"
)

// What a method reports is a mean: its rule names how many readings make it, wherever
// that is known, and on which basis.
func TestMethodsNameTheirReadings(t *testing.T) {
	for _, test := range []struct{ name, output, want, kind, source string }{
		{"grammage", "grammage", "20 pieces from 5 specimens", "published", "AS 1301.405:2021, excerpts"},
		{"moisture", "moisture", "T 412: of two", "memory", "T 412: in duplicate"},
		{"moisture-in-dish", "moisture", "T 412: of two", "memory", "T 412: in duplicate"},
		{"moisture-lot", "moisture", "mean of the pieces", "memory", "ISO 287"},
		{"density", "density", "20 readings of thickness, 10 of density", "published", "a testing laboratory's page on ISO 534"},
		{"bulking-thickness", "bulk", "20 readings of thickness, 10 of density", "published", "a testing laboratory's page on ISO 534"},
		{"tensile", "tensile-strength", "10 in each direction, conditioned grammage", "memory", "ISO 1924-2, T 494"},
		{"tensile", "tensile-index", "10 in each direction, conditioned grammage", "memory", "ISO 1924-2, T 494"},
		{"breaking-length", "breaking-length", "10 in each direction", "memory", "ISO 1924-2, T 494"},
		{"tensile-curve", "stretch", "10 in each direction", "memory", "ISO 1924-2, T 494"},
		{"tear", "tear-index", "10 in each direction", "published", "a laboratory's page on T 414"},
		{"burst", "burst-index", "20, ten from each side", "memory", "ISO 2758"},
		{"cobb", "cobb", "5 from each side", "published", "laboratories' pages on ISO 535"},
		{"air-permeance", "air-permeance", "five from each side", "published", "abstracts of ISO 5636"},
		{"short-span", "short-span-strength", "20 in each direction", "published", "a German institute's page on DIN 54518"},
		{"ring-crush", "ring-crush-strength", "10 in each direction", "published", "AS/NZS 1301.407:2017, excerpts"},
		{"bending-resistance", "bending-resistance", "10 in each direction", "published", "AS/NZS 1301.453:2016, excerpt"},
		{"edge-crush", "edge-crush", "10 pieces", "memory", "ISO 3037"},
	} {
		i := slices.IndexFunc(infoOf(test.name).Out, func(f *calc.Field) bool { return f.Name == test.output })
		if i < 0 {
			t.Fatalf("%s has no %s", test.name, test.output)
		}
		if got := infoOf(test.name).Out[i].Report.String(); !strings.Contains(got, test.want) {
			t.Errorf("%s of %s is reported by %q, want in it %q (%s: %s)", test.output, test.name, got, test.want, test.kind, test.source)
		}
	}
}
