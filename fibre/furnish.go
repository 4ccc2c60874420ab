package fibre

import (
	"github.com/shopspring/decimal"

	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// A FurnishProperty is the kind of property that is mixed.
type FurnishProperty string

// The properties. Freeness and strength do not mix in proportion to the shares.
const (
	PropertyFreeness    FurnishProperty = "freeness"
	PropertyStrength    FurnishProperty = "strength"
	PropertyFibreLength FurnishProperty = "fibre-length"
	PropertyOther       FurnishProperty = "other"
)

// Furnish is the mean of a property of components, weighted by their shares. Its
// lists are of equal length.
type Furnish struct {
	Share    []paperprop.Fraction // zero or more, all on the same basis; together 100 %
	Value    []float64            // of each, in one unit
	Property FurnishProperty      // empty if not given
}

// FurnishResult is the weighted mean, in the unit of the values.
type FurnishResult struct {
	MeanValue float64
	Warnings  calc.Warnings
}

// Calculate returns the mean Σx·y.
func (f Furnish) Calculate() (FurnishResult, error) { return furnish.Calculate(f) }

var notAdditive = calc.Warnings{{Code: "not-additive", Text: "freeness and strength do not mix by shares: " +
	"the mean only guides, the mixture must be measured"}}

func (f Furnish) compute() (FurnishResult, error) {
	r := FurnishResult{MeanValue: byShares(f.Share, f.Value)}
	if f.Property == PropertyFreeness || f.Property == PropertyStrength {
		r.Warnings = notAdditive
	}
	return r, nil
}

// byShares returns the sum of the values times their shares.
func byShares[Q ~float64](share []paperprop.Fraction, value []Q) float64 {
	sum := 0.0
	for i, x := range share {
		sum += float64(x) * float64(value[i])
	}
	return sum
}

var furnish = &calc.Description[Furnish, FurnishResult]{
	Name:    "furnish",
	Title:   "Property of a furnish by shares",
	Answers: "What property a furnish has if its components contribute by their shares.",
	Formula: []string{"y_m = sum(x*y)"},
	Source:  "mean weighted by share",
	Status:  calc.CommonPractice,
	Example: "share=[55 30 15] %; value=[13.2 9.4 17.8] %; property=other",
	Mistakes: []string{
		"Freeness does not blend arithmetically: fines of the slow component plug the pad of the whole; nor does strength.",
		"Shares on one basis: 50 % as received at 9 and 17 % moisture are 52.3 and 47.7 % of the dry matter.",
		"A mean fibre length blends by number, length or mass, as it was weighted.",
	},
	Compute: Furnish.compute,
	Fields: func(f *calc.Form, in *Furnish, out *FurnishResult) {
		f.Even(
			shares(f, &in.Share, "of each component, dry or as received"),
			calc.InValues(f, &in.Value, "value", "y", "any", "of each component, one unit for all"),
		)
		calc.InWord(f, &in.Property, "property", "what is mixed; freeness and strength don't mix by shares",
			PropertyFreeness, PropertyStrength, PropertyFibreLength, PropertyOther).Optional()
		calc.OutValue(f, &out.MeanValue, "mean-value", "y_m", "as value", "by shares")
		f.Warnings(&out.Warnings)
	},
}

// shares binds the shares of a furnish. Their sum has some play, so that three may
// be 33.333 % each.
func shares(f *calc.Form, share *[]paperprop.Fraction, help string) *calc.Input {
	return calc.InList(f, share, "share", "x", "%", help+"; 100 % in all").From(0).SumsTo(100, 0.001)
}

// FurnishCost is the cost of a furnish. Its lists are of equal length.
type FurnishCost struct {
	Share        []paperprop.Fraction // as received, zero or more; together 100 %
	Price        []paperprop.Price    // per mass as received, in any currency; may be below zero, as that of some grades has been
	BalePerPaper paperprop.MassRatio  // bales used per paper made, both moist, above zero
}

// FurnishCostResult is the cost. For exact digits use [FurnishCost.Decimals].
type FurnishCostResult struct {
	MeanPrice    paperprop.Price // of the furnish as received
	CostPerPaper paperprop.Price
}

// Calculate returns the mean price Σx·K, and the cost: that times k_b.
func (c FurnishCost) Calculate() (FurnishCostResult, error) { return furnishCost.Calculate(c) }

func (c FurnishCost) compute() (FurnishCostResult, error) {
	mean := byShares(c.Share, c.Price)
	return FurnishCostResult{
		MeanPrice:    paperprop.Price(mean) * paperprop.MoneyPerTonne,
		CostPerPaper: paperprop.Price(mean*float64(c.BalePerPaper)) * paperprop.MoneyPerTonne,
	}, nil
}

// Decimals returns the result in decimals, per tonne, computed from the shortest
// texts of the inputs. The error is that of Calculate.
func (c FurnishCost) Decimals() (meanPrice, costPerPaper decimal.Decimal, err error) {
	if _, err = c.Calculate(); err != nil {
		return meanPrice, costPerPaper, err
	}
	meanPrice, costPerPaper = c.inDecimals()
	return meanPrice, costPerPaper, nil
}

func (c FurnishCost) inDecimals() (meanPrice, costPerPaper decimal.Decimal) {
	for i, x := range c.Share {
		meanPrice = meanPrice.Add(result.Exact(float64(x)).Mul(result.Exact(float64(c.Price[i]))))
	}
	return meanPrice, meanPrice.Mul(result.Exact(float64(c.BalePerPaper)))
}

var furnishCost = &calc.Description[FurnishCost, FurnishCostResult]{
	Name:    "furnish-cost",
	Title:   "Cost of a furnish",
	Answers: "What the bales of a mixture cost, and what of that a tonne of paper bears.",
	Formula: []string{"K_m = sum(x*K)", "K_p = K_m*k_b"},
	Source:  "mean weighted by share; balance over the mill",
	Status:  calc.CommonPractice,
	Example: "share=[60 40] %; price=[105 140] 1/t; bale-per-paper=1.0901 t/t",
	Mistakes: []string{
		"Bales per paper is not a yield: 1.0901 t/t goes with a dry yield of 91.93 % at 11.5 and 7.5 % moisture and 4.1 % of starch.",
		"Shares as received go with prices as received; dry shares would count moist grades too little.",
	},
	Compute: FurnishCost.compute,
	Fields: func(f *calc.Form, in *FurnishCost, out *FurnishCostResult) {
		f.Even(
			shares(f, &in.Share, "of each component, as received"),
			calc.InList(f, &in.Price, "price", "K", "1/t", "of each, per mass as received; may be below 0"),
		)
		calc.In(f, &in.BalePerPaper, "bale-per-paper", "k_b", "t/t", "components used per paper made, both as they are").Above(0)
		calc.Out(f, &out.MeanPrice, "mean-price", "K_m", "1/t", "of the furnish").Unreported(exactly).
			Exact(func() string { mean, _ := in.inDecimals(); return mean.String() })
		calc.Out(f, &out.CostPerPaper, "cost-per-paper", "K_p", "1/t", "of paper").Unreported(exactly).
			Exact(func() string { _, cost := in.inDecimals(); return cost.String() })
	},
}
