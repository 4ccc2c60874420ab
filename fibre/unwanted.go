package fibre

import (
	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// UnwantedClaim is the claim for unwanted and non-paper material in recovered
// paper.
type UnwantedClaim struct {
	Mass           paperprop.Mass     // delivered, above zero
	UnwantedShare  paperprop.Fraction // as received, 0 to 100 %
	ToleratedShare paperprop.Fraction // tolerated in the grade, 0 to 100 %
}

// UnwantedClaimResult is the mass claimed. For an invoice use
// [UnwantedClaim.Decimal].
type UnwantedClaimResult struct {
	ClaimMass paperprop.Mass // zero within the tolerance
}

// Calculate returns the claim m·(x_u − x_t), or zero within the tolerance.
func (c UnwantedClaim) Calculate() (UnwantedClaimResult, error) { return unwantedClaim.Calculate(c) }

func (c UnwantedClaim) compute() (UnwantedClaimResult, error) {
	m := c.Mass.In(paperprop.Kilogram) * max(0, float64(c.UnwantedShare-c.ToleratedShare))
	return UnwantedClaimResult{paperprop.Mass(m) * paperprop.Kilogram}, nil
}

// Decimal returns the result in decimals, in kilograms, computed from the shortest
// texts of the inputs. The error is that of Calculate.
func (c UnwantedClaim) Decimal() (decimal.Decimal, error) {
	if _, err := c.Calculate(); err != nil {
		return decimal.Decimal{}, err
	}
	return c.inDecimals(), nil
}

func (c UnwantedClaim) inDecimals() decimal.Decimal {
	excess := result.Exact(float64(c.UnwantedShare)).Sub(result.Exact(float64(c.ToleratedShare)))
	return result.Exact(float64(c.Mass)).Mul(decimal.Max(excess, decimal.Decimal{}))
}

var unwantedClaim = &calc.Description[UnwantedClaim, UnwantedClaimResult]{
	Name:    "unwanted-claim",
	Title:   "Claim on unwanted material in recovered paper",
	Answers: "What mass of a delivery may be claimed because it is not the paper that was bought.",
	Formula: []string{"m_c = m*max(0, x_u - x_t)"},
	Source:  "only what lies above the tolerance of the grade; EN 643 gives one for each grade (not seen)",
	Status:  calc.CommonPractice,
	Example: "mass=24.6 t; unwanted-share=3.7 %; tolerated-share=1.5 %",
	Mistakes: []string{
		"The whole share is not claimed: of 3.7 % against 1.5 % it is 2.2 %, 541.2 kg of 24.6 t and not 910.2 kg.",
		"Shares are of the mass as received; sorted and dried they come out otherwise.",
		"Prohibited material has no tolerance: it is refused, not deducted (memory).",
	},
	Compute: UnwantedClaim.compute,
	Fields: func(f *calc.Form, in *UnwantedClaim, out *UnwantedClaimResult) {
		calc.In(f, &in.Mass, "mass", "m", "kg", "delivered").Above(0)
		calc.In(f, &in.UnwantedShare, "unwanted-share", "x_u", "%", "unwanted and non-paper material, as received").From(0).UpTo(100)
		calc.In(f, &in.ToleratedShare, "tolerated-share", "x_t", "%", "of the grade").From(0).UpTo(100)
		calc.Out(f, &out.ClaimMass, "claim-mass", "m_c", "kg", "what lies above the tolerance").Unreported(exactly).
			Exact(func() string { return in.inDecimals().String() })
	},
}
