package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// FibreConsistency splits a consistency into fibre and filler.
type FibreConsistency struct {
	Consistency paperprop.Consistency // everything the filter keeps
	FillerShare paperprop.Fraction    // filler and other additives over the dry pad, 0 to 100 %
}

// FibreConsistencyResult is the fibre and the filler, each over stock mass.
type FibreConsistencyResult struct {
	FibreConsistency  paperprop.Consistency
	FillerConsistency paperprop.Consistency
}

// Calculate returns the fibre c(1 − x_f) and the filler c·x_f.
func (s FibreConsistency) Calculate() (FibreConsistencyResult, error) {
	return fibreConsistency.Calculate(s)
}

func (s FibreConsistency) compute() (FibreConsistencyResult, error) {
	c, filler := float64(s.Consistency), float64(s.FillerShare)
	return FibreConsistencyResult{
		FibreConsistency:  paperprop.Consistency(c * (1 - filler)),
		FillerConsistency: paperprop.Consistency(c * filler),
	}, nil
}

var fibreConsistency = &calc.Description[FibreConsistency, FibreConsistencyResult]{
	Name:    "fibre-consistency",
	Title:   "Consistency of fibre alone",
	Answers: "How much of a stock is fibre and how much filler.",
	Formula: []string{"c_f = c*(1 - x_f)", "c_a = c*x_f"},
	Source:  "definition in a handbook chapter on consistency sampling (seen): dry total solids less dry additives over sample mass",
	Status:  calc.Published,
	Example: "consistency=3.0 %; filler-share=12 %",
	Mistakes: []string{
		"Say which is meant: with 12 % filler, 3.0 % of total solids are 2.64 % of fibre.",
		"The share is of the dry pad, not of the stock, and ash is less than filler: carbonate loses carbon dioxide at 900 degC.",
	},
	Compute: FibreConsistency.compute,
	Fields: func(f *calc.Form, in *FibreConsistency, out *FibreConsistencyResult) {
		calc.In(f, &in.Consistency, "consistency", "c", "%", "everything the filter keeps, filler included")
		calc.In(f, &in.FillerShare, "filler-share", "x_f", "%", "filler and other additives over the dry pad").From(0).UpTo(100)
		calc.Out(f, &out.FibreConsistency, "fibre-consistency", "c_f", "%", "fibre alone over stock mass")
		calc.Out(f, &out.FillerConsistency, "filler-consistency", "c_a", "%", "filler alone over stock mass")
	},
}

// AirDryConsistency restates an oven-dry consistency as an air-dry one.
type AirDryConsistency struct {
	Consistency       paperprop.Consistency // oven-dry, at most CommercialDryness
	CommercialDryness paperprop.DryContent  // of air-dry pulp; zero stands for 90 %
}

// AirDryConsistencyResult is the consistency on air-dry pulp.
type AirDryConsistencyResult struct {
	AirDryConsistency paperprop.Fraction // air-dry mass over stock mass
}

// Calculate returns c/X, where X is the commercial dryness.
func (s AirDryConsistency) Calculate() (AirDryConsistencyResult, error) {
	return airDryConsistency.Calculate(s)
}

func (s AirDryConsistency) compute() (AirDryConsistencyResult, error) {
	c, x := float64(s.Consistency), float64(s.CommercialDryness)
	if c > x {
		return AirDryConsistencyResult{}, calc.Refuse("consistency", s.Consistency, "at most commercial-dryness %v", s.CommercialDryness)
	}
	return AirDryConsistencyResult{paperprop.Fraction(c / x)}, nil
}

var airDryConsistency = &calc.Description[AirDryConsistency, AirDryConsistencyResult]{
	Name:    "air-dry-consistency",
	Title:   "Air-dry consistency",
	Answers: "What an oven-dry consistency is in terms of air-dry pulp.",
	Formula: []string{"c_ad = c/X"},
	Source:  "Engineering Data Book of the Hydraulic Institute, losses with paper stock, III b (seen): air-dried consistency times 0.9",
	Status:  calc.Published,
	Example: "consistency=3.15 %",
	Mistakes: []string{
		"A table or a curve may be for air-dry consistency: 3.15 % oven-dry is 3.5 % air-dry.",
		"Air-dry is 90 % by convention; a page quotes German makers of wood pulp with 88 %.",
	},
	Compute: AirDryConsistency.compute,
	Fields: func(f *calc.Form, in *AirDryConsistency, out *AirDryConsistencyResult) {
		calc.In(f, &in.Consistency, "consistency", "c", "%", "oven-dry")
		calc.In(f, &in.CommercialDryness, "commercial-dryness", "X", "%", "of air-dry pulp").Above(0).Default(90)
		calc.Out(f, &out.AirDryConsistency, "air-dry-consistency", "c_ad", "%", "air-dry mass over stock mass")
	},
}

// TotalSolids is the drying of a sample in a dish.
type TotalSolids struct {
	DishMass    paperprop.Mass // empty dish, dried
	WetDishMass paperprop.Mass // dish with the sample as taken, above DishMass
	DryDishMass paperprop.Mass // dish with the dried residue: from DishMass to WetDishMass
}

// TotalSolidsResult is the share of a sample that is not water.
type TotalSolidsResult struct {
	TotalSolids paperprop.DryContent
}

// Calculate returns (m_2 − m_0)/(m_1 − m_0).
func (s TotalSolids) Calculate() (TotalSolidsResult, error) { return totalSolids.Calculate(s) }

func (s TotalSolids) compute() (TotalSolidsResult, error) {
	if s.WetDishMass <= s.DishMass {
		return TotalSolidsResult{}, calc.Refuse("wet-dish-mass", s.WetDishMass, "above dish-mass %v", s.DishMass)
	}
	if s.DryDishMass < s.DishMass || s.DryDishMass > s.WetDishMass {
		return TotalSolidsResult{}, calc.Refuse("dry-dish-mass", s.DryDishMass,
			"from dish-mass %v to wet-dish-mass %v", s.DishMass, s.WetDishMass)
	}
	return TotalSolidsResult{paperprop.DryContent((s.DryDishMass - s.DishMass) / (s.WetDishMass - s.DishMass))}, nil
}

var totalSolids = &calc.Description[TotalSolids, TotalSolidsResult]{
	Name:    "total-solids",
	Title:   "Total solids by evaporation",
	Answers: "How much of a stock or water is left when it is dried in a dish.",
	Formula: []string{"d_t = (m_2 - m_0)/(m_1 - m_0)"},
	Source:  "definition of the dry content of a weighed sample",
	Status:  calc.CommonPractice,
	Example: "dish-mass=38.4127 g; wet-dish-mass=88.2951 g; dry-dish-mass=38.5103 g",
	Mistakes: []string{
		"It is not a consistency: what is dissolved counts, which a filter lets through.",
		"Of 50 g at 0.2 % no more than 100 mg are left: a milligram of error is a hundredth of the result.",
	},
	Compute: TotalSolids.compute,
	Fields: func(f *calc.Form, in *TotalSolids, out *TotalSolidsResult) {
		calc.In(f, &in.DishMass, "dish-mass", "m_0", "g", "empty dish, dried")
		calc.In(f, &in.WetDishMass, "wet-dish-mass", "m_1", "g", "dish with the sample as taken")
		calc.In(f, &in.DryDishMass, "dry-dish-mass", "m_2", "g", "dish with what is left at 105 degC")
		calc.Out(f, &out.TotalSolids, "total-solids", "d_t", "%", "all but water, dissolved matter included").
			Unreported("no method is named, so no rule of rounding is applied")
	},
}

// DissolvedSolids is the matter that evaporation finds and filtration does not.
type DissolvedSolids struct {
	TotalSolids paperprop.DryContent  // by evaporation
	Consistency paperprop.Consistency // by filtration: at most TotalSolids, below 100 %
}

// DissolvedSolidsResult is the matter that is dissolved or passes the filter.
type DissolvedSolidsResult struct {
	DissolvedSolids paperprop.DryContent // over stock mass
	FiltrateSolids  paperprop.DryContent // over the liquid
}

// Calculate returns the dissolved solids d_t − c over stock mass, and over the
// liquid.
func (s DissolvedSolids) Calculate() (DissolvedSolidsResult, error) {
	return dissolvedSolids.Calculate(s)
}

func (s DissolvedSolids) compute() (DissolvedSolidsResult, error) {
	total, c := float64(s.TotalSolids), float64(s.Consistency)
	if c > total {
		return DissolvedSolidsResult{}, calc.Refuse("consistency", s.Consistency, "at most total-solids %v", s.TotalSolids)
	}
	return DissolvedSolidsResult{
		DissolvedSolids: paperprop.DryContent(total - c),
		FiltrateSolids:  paperprop.DryContent((total - c) / (1 - c)),
	}, nil
}

var dissolvedSolids = &calc.Description[DissolvedSolids, DissolvedSolidsResult]{
	Name:    "dissolved-solids",
	Title:   "Dissolved solids from total solids and consistency",
	Answers: "How much of a stock is dissolved or passes the filter (TDS), over stock and over liquid.",
	Formula: []string{"d_s = d_t - c", "d_l = (d_t - c)/(1 - c)"},
	Source:  "balance of dry matter over the filter",
	Status:  calc.CommonPractice,
	Example: "total-solids=1.118 %; consistency=0.84 %",
	Mistakes: []string{
		"Fine filler that passes the filter counts as dissolved here.",
		"Over the liquid it is more than over the stock: only the liquid carries it.",
	},
	Compute: DissolvedSolids.compute,
	Fields: func(f *calc.Form, in *DissolvedSolids, out *DissolvedSolidsResult) {
		calc.In(f, &in.TotalSolids, "total-solids", "d_t", "%", "by evaporation")
		calc.In(f, &in.Consistency, "consistency", "c", "%", "by filtration").Below(100)
		calc.Out(f, &out.DissolvedSolids, "dissolved-solids", "d_s", "%", "dissolved and filter-passing matter over stock mass")
		calc.Out(f, &out.FiltrateSolids, "filtrate-solids", "d_l", "%", "the same over the liquid")
	},
}

// SuspendedSolids is the filtration of a measured volume of water.
type SuspendedSolids struct {
	Volume        paperprop.Volume // filtered, above zero
	FilterMass    paperprop.Mass   // filter alone, dried
	DryFilterMass paperprop.Mass   // filter with residue, dried: FilterMass or more
}

// SuspendedSolidsResult is the suspended dry matter per volume of water.
type SuspendedSolidsResult struct {
	Concentration paperprop.Concentration
}

// Calculate returns (m_df − m_f)/V.
func (s SuspendedSolids) Calculate() (SuspendedSolidsResult, error) {
	return suspendedSolids.Calculate(s)
}

func (s SuspendedSolids) compute() (SuspendedSolidsResult, error) {
	if s.DryFilterMass < s.FilterMass {
		return SuspendedSolidsResult{}, calc.Refuse("dry-filter-mass", s.DryFilterMass, "at least filter-mass %v", s.FilterMass)
	}
	c := (s.DryFilterMass - s.FilterMass).In(paperprop.Milligram) / s.Volume.In(paperprop.Litre)
	return SuspendedSolidsResult{paperprop.Concentration(c) * paperprop.MilligramPerLitre}, nil
}

var suspendedSolids = &calc.Description[SuspendedSolids, SuspendedSolidsResult]{
	Name:    "suspended-solids",
	Title:   "Suspended solids of a water",
	Answers: "How many milligrams a filter keeps of a litre of water (TSS).",
	Formula: []string{"C = (m_df - m_f)/V"},
	Source:  "definition of a concentration by filtration",
	Status:  calc.CommonPractice,
	Example: "volume=500 mL; filter-mass=92.4 mg; dry-filter-mass=151.9 mg",
	Mistakes: []string{
		"The pore of the filter is part of the result: say which filter it was.",
		"mg/L is ppm only for water of 1 kg/L; in thick stock it is not.",
	},
	Compute: SuspendedSolids.compute,
	Fields: func(f *calc.Form, in *SuspendedSolids, out *SuspendedSolidsResult) {
		calc.In(f, &in.Volume, "volume", "V", "mL", "water filtered").Above(0)
		calc.In(f, &in.FilterMass, "filter-mass", "m_f", "mg", "filter alone, dried")
		calc.In(f, &in.DryFilterMass, "dry-filter-mass", "m_df", "mg", "filter with residue, dried at 105 degC")
		calc.Out(f, &out.Concentration, "concentration", "C", "mg/L", "suspended dry matter per volume").
			Unreported("no method is named, so no rule of rounding is applied")
	},
}
