package fibre

import (
	"math/big"

	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Notes on reported texts that are computed in decimals.
const (
	exactly = "a decimal, not rounded"
	toAGram = "a decimal: parts add up; what has no end is rounded to 0.001 kg"
)

// invoiced returns a quotient in kilograms. One with endless digits is rounded to a
// gram, once.
func invoiced(dividend, divisor decimal.Decimal) decimal.Decimal {
	quotient := new(big.Rat).Quo(dividend.Rat(), divisor.Rat())
	kilograms, ends := result.FromRat(quotient)
	if !ends {
		grams, _, _ := result.ToStep(quotient, big.NewRat(1, 1000), result.Even) // never a tie: a tie has finitely many digits
		kilograms, _ = result.FromRat(grams)
	}
	return kilograms
}

// commercialDryness is the dryness in most contracts.
const commercialDryness = 90 * paperprop.Percent

// SaleableMass is the invoiced mass of pulp: what its dry matter would weigh at the
// dryness of the contract.
type SaleableMass struct {
	Mass              paperprop.Mass       // gross, as found, above zero
	Dryness           paperprop.DryContent // absolute, as found
	CommercialDryness paperprop.DryContent // of the contract, above zero; zero stands for 90 %
}

// SaleableMassResult is the saleable mass. For an invoice use
// [SaleableMass.Decimal].
type SaleableMassResult struct {
	SaleableMass paperprop.Mass
}

// Calculate returns the saleable mass m·X/X_c.
func (s SaleableMass) Calculate() (SaleableMassResult, error) { return saleableMass.Calculate(s) }

func (s SaleableMass) compute() (SaleableMassResult, error) {
	m := s.Mass.In(paperprop.Kilogram) * float64(s.Dryness) / float64(s.CommercialDryness)
	return SaleableMassResult{paperprop.Mass(m) * paperprop.Kilogram}, nil
}

// Decimal returns the result in decimals, in kilograms, computed from the shortest
// texts of the inputs; one with endless digits is rounded to a gram. The error is
// that of Calculate.
func (s SaleableMass) Decimal() (decimal.Decimal, error) {
	if _, err := s.Calculate(); err != nil {
		return decimal.Decimal{}, err
	}
	return s.inDecimals(), nil
}

func (s SaleableMass) inDecimals() decimal.Decimal {
	if s.CommercialDryness == 0 {
		s.CommercialDryness = commercialDryness
	}
	dry := result.Exact(float64(s.Mass)).Mul(result.Exact(float64(s.Dryness)))
	return invoiced(dry, result.Exact(float64(s.CommercialDryness)))
}

// principle is the source of saleable masses.
const principle = "principle of ISO 801-1, -2, -3:1994: gross mass and absolute dryness against the theoretical commercial dryness " +
	"(terms seen, formula and rounding not)"

var saleableMass = &calc.Description[SaleableMass, SaleableMassResult]{
	Name:    "saleable-mass",
	Title:   "Saleable mass of pulp",
	Answers: "What mass of pulp is invoiced for a gross mass at the dryness found.",
	Formula: []string{"m_s = m*X/X_c"},
	Source:  principle,
	Status:  calc.Memory,
	Example: "mass=24.86 t; dryness=91.35 %",
	Mistakes: []string{
		"The invoice may exceed the scale: 24.86 t at 91.35 % are 25.233 t at 90 %.",
		"Whether wrapping and wire are in the gross mass is a matter of the standard and the contract.",
	},
	Compare: []calc.Comparison{{
		Inputs: "mass=24.86 t; dryness=91.35 %; commercial-dryness=88 %",
		Why:    "the older convention of German wood pulp, 12 % moisture (seen on a question page of the trade)",
	}},
	Compute: SaleableMass.compute,
	Fields: func(f *calc.Form, in *SaleableMass, out *SaleableMassResult) {
		goodsFound(f, &in.Mass, &in.Dryness, &in.CommercialDryness)
		calc.Out(f, &out.SaleableMass, "saleable-mass", "m_s", "kg", "to invoice").Unreported(toAGram).
			Exact(func() string { return in.inDecimals().String() })
	},
}

func goodsFound(f *calc.Form, mass *paperprop.Mass, dryness, commercial *paperprop.DryContent) {
	calc.In(f, mass, "mass", "m", "kg", "gross, on the scale").Above(0)
	calc.In(f, dryness, "dryness", "X", "%", "absolute, as found")
	calc.In(f, commercial, "commercial-dryness", "X_c", "%", "theoretical, of the contract").Above(0).UpTo(100).Default(90)
}

// SaleableClaim compares an invoice with the pulp delivered.
type SaleableClaim struct {
	InvoicedMass      paperprop.Mass       // of the invoice, above zero
	Mass              paperprop.Mass       // gross, as found, above zero
	Dryness           paperprop.DryContent // absolute, as found
	CommercialDryness paperprop.DryContent // of the contract, above zero; zero stands for 90 %
}

// SaleableClaimResult is the mass to pay for and the mass claimed; a claim below
// zero is in the seller's favour. For an invoice use [SaleableClaim.Decimals].
type SaleableClaimResult struct {
	SaleableMass paperprop.Mass
	ClaimMass    paperprop.Mass     // invoiced minus saleable
	ClaimShare   paperprop.Fraction // of the invoiced mass
}

// Calculate returns the saleable mass m·X/X_c, and by how much the invoice exceeds
// it.
func (c SaleableClaim) Calculate() (SaleableClaimResult, error) { return saleableClaim.Calculate(c) }

// found returns the saleable mass as found on delivery.
func (c SaleableClaim) found() SaleableMass {
	return SaleableMass{Mass: c.Mass, Dryness: c.Dryness, CommercialDryness: c.CommercialDryness}
}

func (c SaleableClaim) compute() (SaleableClaimResult, error) {
	saleable, err := c.found().compute()
	claim := c.InvoicedMass - saleable.SaleableMass
	return SaleableClaimResult{
		SaleableMass: saleable.SaleableMass,
		ClaimMass:    claim,
		ClaimShare:   paperprop.Fraction(claim / c.InvoicedMass),
	}, err
}

// Decimals returns the result in decimals, in kilograms, computed from the shortest
// texts of the inputs, so that saleable and claimed mass add up to the mass
// invoiced. The error is that of Calculate.
func (c SaleableClaim) Decimals() (saleable, claimed decimal.Decimal, err error) {
	if _, err = c.Calculate(); err != nil {
		return saleable, claimed, err
	}
	saleable, claimed = c.inDecimals()
	return saleable, claimed, nil
}

func (c SaleableClaim) inDecimals() (saleable, claimed decimal.Decimal) {
	saleable = c.found().inDecimals()
	return saleable, result.Exact(float64(c.InvoicedMass)).Sub(saleable)
}

var saleableClaim = &calc.Description[SaleableClaim, SaleableClaimResult]{
	Name:    "saleable-claim",
	Title:   "Claim on the invoiced mass of pulp",
	Answers: "By how much an invoice for pulp exceeds what was delivered.",
	Formula: []string{"m_s = m*X/X_c", "m_c = m_i - m_s", "x_c = m_c/m_i"},
	Source:  principle,
	Status:  calc.Memory,
	Example: "invoiced-mass=25.300 t; mass=25.117 t; dryness=89.72 %",
	Mistakes: []string{
		"Gross mass against the invoiced: of the 261 kg claimed in the example 183 kg show on the scale, the rest in the oven.",
		"A claim below zero is the seller's: the goods were drier or heavier than invoiced.",
	},
	Compute: SaleableClaim.compute,
	Fields: func(f *calc.Form, in *SaleableClaim, out *SaleableClaimResult) {
		calc.In(f, &in.InvoicedMass, "invoiced-mass", "m_i", "kg", "of the invoice").Above(0)
		goodsFound(f, &in.Mass, &in.Dryness, &in.CommercialDryness)
		calc.Out(f, &out.SaleableMass, "saleable-mass", "m_s", "kg", "to pay for").Unreported(toAGram).
			Exact(func() string { saleable, _ := in.inDecimals(); return saleable.String() })
		calc.Out(f, &out.ClaimMass, "claim-mass", "m_c", "kg", "invoiced less saleable; below 0 in the seller's favour").Unreported(toAGram).
			Exact(func() string { _, claimed := in.inDecimals(); return claimed.String() })
		calc.Out(f, &out.ClaimShare, "claim-share", "x_c", "%", "of the invoiced mass")
	},
}

// PriceAsReceived is the price of moist goods from their price per dry mass.
type PriceAsReceived struct {
	DryPrice paperprop.Price    // per oven-dry mass, in any currency, zero or more
	Moisture paperprop.Moisture // of the goods
}

// PriceAsReceivedResult is the price per mass as received.
type PriceAsReceivedResult struct {
	Price paperprop.Price
}

// Calculate returns the price K_d·(1 − w).
func (p PriceAsReceived) Calculate() (PriceAsReceivedResult, error) {
	return priceAsReceived.Calculate(p)
}

func (p PriceAsReceived) compute() (PriceAsReceivedResult, error) {
	k := p.DryPrice.In(paperprop.MoneyPerTonne) * (1 - float64(p.Moisture))
	return PriceAsReceivedResult{paperprop.Price(k) * paperprop.MoneyPerTonne}, nil
}

// Decimal returns the result in decimals, per tonne, computed from the shortest
// texts of the inputs. The error is that of Calculate.
func (p PriceAsReceived) Decimal() (decimal.Decimal, error) {
	if _, err := p.Calculate(); err != nil {
		return decimal.Decimal{}, err
	}
	return p.inDecimals(), nil
}

func (p PriceAsReceived) inDecimals() decimal.Decimal {
	return result.Exact(float64(p.DryPrice)).Mul(decimal.New(1, 0).Sub(result.Exact(float64(p.Moisture))))
}

var priceAsReceived = &calc.Description[PriceAsReceived, PriceAsReceivedResult]{
	Name:    "price-as-received",
	Title:   "Price as received of goods priced dry",
	Answers: "What a tonne as it comes costs when the price is per oven-dry tonne.",
	Formula: []string{"K = K_d*(1 - w)"},
	Source:  "page of the wood-chip trade on the bone-dry tonne, with figures (seen)",
	Status:  calc.Published,
	Example: "dry-price=131 1/t; moisture=11.5 %",
	Mistakes: []string{
		"Moisture on dry matter is another number: 50 % of the moist mass is 100 % of the dry.",
		"A price per air-dry tonne is not one per oven-dry tonne: it is 90 % of it.",
	},
	Compute: PriceAsReceived.compute,
	Fields: func(f *calc.Form, in *PriceAsReceived, out *PriceAsReceivedResult) {
		calc.In(f, &in.DryPrice, "dry-price", "K_d", "1/t", "per oven-dry mass, in any currency").From(0)
		calc.In(f, &in.Moisture, "moisture", "w", "%", "of the goods")
		calc.Out(f, &out.Price, "price", "K", "1/t", "per mass as received").Unreported(exactly).
			Exact(func() string { return in.inDecimals().String() })
	},
}
