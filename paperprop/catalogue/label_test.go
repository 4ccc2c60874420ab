package catalogue_test

import (
	"slices"
	"testing"

	"millmaths.example/paperprop/calc"
)

// Where two ways are in use that give different figures, the way taken is printed beside
// the result, and rows by both in one group are warned of.
func TestWayTakenStandsBesideTheResult(t *testing.T) {
	for name, inputs := range map[string][]string{
		"moisture-claim":        {"rule", "scope"},
		"kappa-lignin":          {"lignin-factor"},
		"polymerisation-degree": {"relation"},
		"cooking-liquor":        {"to-basis"},
		"fibre-length":          {"lower-limit"},
		"basis-weight":          {"ream"},
		"gurley":                {"gurley-constant"},
		"edge-crush":            {"method"},
		"opacity-sides":         {"method"},
		"white-point":           {"condition"},
		"tristimulus":           {"condition"},
		"filter-tristimulus":    {"condition"},
		"whiteness":             {"observer"},
	} {
		for _, input := range inputs {
			if !slices.ContainsFunc(infoOf(name).In, func(f *calc.Field) bool { return f.Name == input && f.Label }) {
				t.Errorf("%s does not print its %s beside the result", name, input)
			}
		}
	}
}

// A normality counts equivalents: permanganate of 0.1 eq/L is 0.02 mol/L of it.
func TestNormalityIsInEquivalents(t *testing.T) {
	want := map[string]string{"normality": "eq/L", "charge-concentration": "ueq/L", "charge-per-dry": "meq/kg"}
	for _, name := range []string{"kappa", "charge-demand", "fibre-charge"} {
		info := infoOf(name)
		for _, f := range slices.Concat(info.In, info.Out) {
			if unit := want[f.Name]; unit != "" && f.Unit.String() != unit {
				t.Errorf("%s of %s is printed in %s, want %s", f.Name, name, f.Unit, unit)
			}
		}
	}
}
