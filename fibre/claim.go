package fibre

import (
	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A ClaimRule says how moisture above the allowance is deducted.
type ClaimRule string

// The two rules in use. For 25 t at 16 % with an allowance of 10 %, basis pays
// 23.333 t and points 23.5 t.
const (
	RuleBasis  ClaimRule = "basis"  // payable m(1 − w)/(1 − w_0): the mass at the agreed dryness
	RulePoints ClaimRule = "points" // payable m(1 − (w − w_0)): a point of mass for a point of moisture
)

// A ClaimScope says whose moisture is compared with the allowance.
type ClaimScope string

// The scopes. Only in a lot do dry loads make up for wet ones.
const (
	ScopeLot  ClaimScope = "lot"  // the mean of the lot, weighted by mass
	ScopeLoad ClaimScope = "load" // each load by itself
)

// MoistureClaim is the payment for recovered paper that may be too moist. Its lists
// are of equal length.
type MoistureClaim struct {
	Mass      []paperprop.Mass // delivered, of each load, above zero
	Moisture  []paperprop.Moisture
	Allowance paperprop.Moisture // agreed moisture, below 100 %
	Rule      ClaimRule
	Scope     ClaimScope
}

// MoistureClaimResult is the mass to pay for and the mass claimed. For an invoice
// use [MoistureClaim.Decimals], which add up to the last digit.
type MoistureClaimResult struct {
	PayableMass paperprop.Mass
	ClaimMass   paperprop.Mass
}

// Calculate returns the payable mass. There is no bonus for moisture below the
// allowance.
func (c MoistureClaim) Calculate() (MoistureClaimResult, error) { return moistureClaim.Calculate(c) }

func (c MoistureClaim) compute() (MoistureClaimResult, error) {
	var delivered, payable, water float64
	for i, mass := range c.Mass {
		m, w := mass.In(paperprop.Kilogram), float64(c.Moisture[i])
		delivered += m
		water += m * w
		payable += m * c.paid(w)
	}
	if c.Scope == ScopeLot {
		payable = delivered * c.paid(water/delivered)
	}
	return MoistureClaimResult{
		PayableMass: paperprop.Mass(payable) * paperprop.Kilogram,
		ClaimMass:   paperprop.Mass(delivered-payable) * paperprop.Kilogram,
	}, nil
}

// paid returns the share of a mass at moisture w that is paid for.
func (c MoistureClaim) paid(w float64) float64 {
	allowance := float64(c.Allowance)
	switch {
	case w <= allowance:
		return 1
	case c.Rule == RuleBasis:
		return (1 - w) / (1 - allowance)
	}
	return 1 - (w - allowance)
}

// Decimals returns the result in decimals, in kilograms, computed from the shortest
// texts of the inputs, so that payable and claimed mass add up to the mass
// delivered. By the basis rule, a payable mass of the too moist loads with endless
// digits is rounded to a gram. The error is that of Calculate.
func (c MoistureClaim) Decimals() (payable, claimed decimal.Decimal, err error) {
	if _, err = c.Calculate(); err != nil {
		return payable, claimed, err
	}
	payable, claimed = c.inDecimals()
	return payable, claimed, nil
}

// A load is a mass and the water in it, in decimals.
type load struct{ mass, water decimal.Decimal }

func (l load) with(other load) load {
	return load{l.mass.Add(other.mass), l.water.Add(other.water)}
}

func (c MoistureClaim) inDecimals() (payable, claimed decimal.Decimal) {
	var all, moist load // moist is the part that is too moist
	for i, mass := range c.Mass {
		m := result.Exact(float64(mass))
		l := load{m, m.Mul(result.Exact(float64(c.Moisture[i])))}
		all = all.with(l)
		if c.Scope == ScopeLoad && c.excess(l).Sign() > 0 {
			moist = moist.with(l)
		}
	}
	if c.Scope == ScopeLot && c.excess(all).Sign() > 0 {
		moist = all
	}
	payable = all.mass.Sub(moist.mass).Add(c.exactlyPaid(moist))
	return payable, all.mass.Sub(payable)
}

// excess returns the water above the allowance.
func (c MoistureClaim) excess(l load) decimal.Decimal {
	return l.water.Sub(l.mass.Mul(result.Exact(float64(c.Allowance))))
}

// exactlyPaid returns the payable part of loads moister than agreed, given as their
// sum: they are added up before the division.
func (c MoistureClaim) exactlyPaid(moist load) decimal.Decimal {
	if c.Rule == RuleBasis {
		return invoiced(moist.mass.Sub(moist.water), c.agreedDryness())
	}
	return moist.mass.Sub(c.excess(moist))
}

func (c MoistureClaim) agreedDryness() decimal.Decimal {
	return decimal.New(1, 0).Sub(result.Exact(float64(c.Allowance)))
}

var moistureClaim = &calc.Description[MoistureClaim, MoistureClaimResult]{
	Name:    "moisture-claim",
	Title:   "Claim on the moisture of recovered paper",
	Answers: "What is to be paid for of a delivery of recovered paper (waste paper, OCC) that is moister than agreed.",
	Formula: []string{
		"lot: w_l = sum(m*w)/sum(m)",
		"lot basis: m_p = sum(m)*min(1, (1 - w_l)/(1 - w_0))",
		"lot points: m_p = sum(m)*min(1, 1 - (w_l - w_0))",
		"load basis: m_p = sum(m*min(1, (1 - w)/(1 - w_0)))",
		"load points: m_p = sum(m*min(1, 1 - (w - w_0)))",
		"m_c = sum(m) - m_p",
	},
	Source:  "10 % allowance: EN 643 guidelines on a trade-press page (seen), which gives no arithmetic; both rules are in use",
	Status:  calc.CommonPractice,
	Example: "mass=[24.8 25.3 23.9] t; moisture=[12.5 8.1 11.0] %; allowance=10 %; rule=points; scope=load",
	Mistakes: []string{
		"A simple mean of the moistures is not that of the lot: heavy loads count for more.",
		"10 % is the figure of the guidelines, and an association of recyclers disputed it (seen): what the contract says counts.",
		"Claimed and payable mass rounded each by itself need not add up to what was delivered; these do.",
	},
	Compare: []calc.Comparison{
		{
			Inputs: "mass=[24.8 25.3 23.9] t; moisture=[12.5 8.1 11.0] %; allowance=10 %; rule=basis; scope=load",
			Why:    "the basis rule: what the dry matter would weigh at the agreed moisture",
		},
		{
			Inputs: "mass=[24.8 25.3 23.9] t; moisture=[12.5 8.1 11.0] %; allowance=10 %; rule=points; scope=lot",
			Why:    "by the lot: the dry load pays for the wet ones",
		},
	},
	Compute: MoistureClaim.compute,
	Fields: func(f *calc.Form, in *MoistureClaim, out *MoistureClaimResult) {
		f.Even(
			calc.InList(f, &in.Mass, "mass", "m", "kg", "delivered, of each load").Above(0),
			calc.InList(f, &in.Moisture, "moisture", "w", "%", "of each"),
		)
		calc.In(f, &in.Allowance, "allowance", "w_0", "%", "agreed moisture").From(0).Below(100)
		calc.InWord(f, &in.Rule, "rule", "of two in use: payable m(1 - w)/(1 - w_0), or m(1 - (w - w_0))", RuleBasis, RulePoints).Label()
		calc.InWord(f, &in.Scope, "scope", "compare the lot's mean, or each load by itself", ScopeLot, ScopeLoad).Label()
		calc.Out(f, &out.PayableMass, "payable-mass", "m_p", "kg", "to pay for").Unreported(toAGram).
			Exact(func() string { payable, _ := in.inDecimals(); return payable.String() })
		calc.Out(f, &out.ClaimMass, "claim-mass", "m_c", "kg", "delivered less payable").Unreported(toAGram).
			Exact(func() string { _, claimed := in.inDecimals(); return claimed.String() })
	},
}
