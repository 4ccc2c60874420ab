package fibre_test

import (
	"fmt"

	"millmaths.example/fibre"
	"millmaths.example/paperprop"
)

// Two rules are in use, and they differ: the call says which.
func ExampleMoistureClaim() {
	claim := fibre.MoistureClaim{
		Mass:      []paperprop.Mass{25 * paperprop.Tonne},
		Moisture:  []paperprop.Moisture{16 * paperprop.Percent},
		Allowance: 10 * paperprop.Percent,
		Scope:     fibre.ScopeLoad,
	}
	for _, claim.Rule = range []fibre.ClaimRule{fibre.RuleBasis, fibre.RulePoints} {
		r, err := claim.Calculate()
		fmt.Printf("%s: %.3f t, %v\n", claim.Rule, r.PayableMass.In(paperprop.Tonne), err)
	}
	// Output:
	// basis: 23.333 t, <nil>
	// points: 23.500 t, <nil>
}

func ExampleBaleLot() {
	r, err := fibre.BaleLot{
		Mass:     []paperprop.Mass{612, 588, 745, 530},
		Moisture: []paperprop.Moisture{0.094, 0.121, 0.178, 0.109},
	}.Calculate()
	fmt.Printf("%.0f kg at %.3f %%, %v\n", r.LotMass.In(paperprop.Kilogram), 100*float64(r.LotMoisture), err)
	// Output: 2475 kg at 12.891 %, <nil>
}
