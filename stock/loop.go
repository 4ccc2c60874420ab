package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// LoopRetention is the retention of a steady loop in which part of the tray solids
// comes back to the headbox.
type LoopRetention struct {
	FirstPassRetention paperprop.Fraction // above zero, at most 100 %
	ReturnShare        paperprop.Fraction // of the tray solids that comes back, zero to 100 %
}

// LoopRetentionResult is the retention of the loop, and how far its solids build
// up.
type LoopRetentionResult struct {
	OverallRetention paperprop.Fraction // delivered over added
	BuildUpFactor    paperprop.Ratio    // headbox solids over fresh solids, 1 where nothing comes back
}

// Calculate returns the overall retention R/(1 − y(1 − R)) and the build-up
// 1/(1 − y(1 − R)).
func (l LoopRetention) Calculate() (LoopRetentionResult, error) { return loopRetention.Calculate(l) }

func (l LoopRetention) compute() (LoopRetentionResult, error) {
	r := float64(l.FirstPassRetention)
	gone := leaving(r, float64(l.ReturnShare))
	return LoopRetentionResult{
		OverallRetention: paperprop.Fraction(r / gone),
		BuildUpFactor:    paperprop.Ratio(1 / gone),
	}, nil
}

// leaving returns the share of the headbox solids that does not come back: r leaves
// with the sheet, (1 − y)(1 − r) to the sewer. The form 1 − y(1 − r) would lose
// digits in a closed loop.
func leaving(r, y float64) float64 { return (1 - y) + y*r }

var loopRetention = &calc.Description[LoopRetention, LoopRetentionResult]{
	Name:    "loop-retention",
	Title:   "Retention of a loop with return of white water",
	Answers: "What part of the solids fed ends in the sheet when white water (backwater) comes back, and how many times they are in the headbox.",
	Formula: []string{"R_o = R/(1 - y*(1 - R))", "k_b = 1/(1 - y*(1 - R))"},
	Source:  "balance of dry matter over a steady loop",
	Status:  calc.CommonPractice,
	Example: "first-pass-retention=75.7 %; return-share=96.8 %",
	Mistakes: []string{
		"A closed loop retains 100 % whatever the first pass retains: overall retention says nothing of the wire.",
		"At 60 % on the wire a closed loop carries 1.67 times the fresh solids, at 90 % 1.11 times.",
	},
	Compute: LoopRetention.compute,
	Fields: func(f *calc.Form, in *LoopRetention, out *LoopRetentionResult) {
		calc.In(f, &in.FirstPassRetention, "first-pass-retention", "R", "%", "on the wire").Above(0).UpTo(100)
		shareReturned(f, &in.ReturnShare)
		calc.Out(f, &out.OverallRetention, "overall-retention", "R_o", "%", "delivered over added, in a steady loop")
		calc.Out(f, &out.BuildUpFactor, "build-up-factor", "k_b", "1", "headbox solids over fresh solids")
	},
}

func shareReturned(f *calc.Form, share *paperprop.Fraction) {
	calc.In(f, share, "return-share", "y", "%", "of the tray solids that comes back").From(0).UpTo(100)
}

// LoopAsh is the ash in a steady loop that retains filler and fibre to different
// degrees.
type LoopAsh struct {
	FreshAshShare   paperprop.Fraction // of the dry matter fed, zero to 100 %
	FibreRetention  paperprop.Fraction // first pass: above zero, at most 100 %
	FillerRetention paperprop.Fraction // first pass: above zero, at most 100 %
	ReturnShare     paperprop.Fraction // of the tray solids that comes back, zero to 100 %
}

// LoopAshResult is the ash content of the dry matter in the headbox and in the
// sheet.
type LoopAshResult struct {
	HeadboxAshShare paperprop.Fraction
	SheetAshShare   paperprop.Fraction
}

// Calculate builds filler and fibre up separately, each by its own
// 1/(1 − y(1 − R)).
func (l LoopAsh) Calculate() (LoopAshResult, error) { return loopAsh.Calculate(l) }

func (l LoopAsh) compute() (LoopAshResult, error) {
	fresh, y := float64(l.FreshAshShare), float64(l.ReturnShare)
	fillerKept, fibreKept := float64(l.FillerRetention), float64(l.FibreRetention)
	filler, fibre := fresh/leaving(fillerKept, y), (1-fresh)/leaving(fibreKept, y)
	return LoopAshResult{
		HeadboxAshShare: paperprop.Fraction(filler / (filler + fibre)),
		SheetAshShare:   paperprop.Fraction(filler * fillerKept / (filler*fillerKept + fibre*fibreKept)),
	}, nil
}

var loopAsh = &calc.Description[LoopAsh, LoopAshResult]{
	Name:    "loop-ash",
	Title:   "Ash in the headbox and the sheet of a loop",
	Answers: "How much ash the headbox and the sheet hold once filler has built up in the white water.",
	Formula: []string{
		"f_a = a_0/(1 - y*(1 - R_a))",
		"f_f = (1 - a_0)/(1 - y*(1 - R_f))",
		"a_h = f_a/(f_a + f_f)",
		"a_s = R_a*f_a/(R_a*f_a + R_f*f_f)",
	},
	Source:  "balance of filler and of fibre over a steady loop; f is per fresh dry matter, in the headbox",
	Status:  calc.CommonPractice,
	Example: "fresh-ash-share=11.2 %; fibre-retention=81.3 %; filler-retention=48 %; return-share=96.8 %",
	Mistakes: []string{
		"Ash in the headbox is not ash in the sheet: 12 % fed, 90 % of fibre and 50 % of filler retained, 94 % returned: 18.9 % against 11.5 %.",
		"A loop takes hours to become steady after a change of filler.",
	},
	Compute: LoopAsh.compute,
	Fields: func(f *calc.Form, in *LoopAsh, out *LoopAshResult) {
		calc.In(f, &in.FreshAshShare, "fresh-ash-share", "a_0", "%", "of the dry matter fed").From(0).UpTo(100)
		calc.In(f, &in.FibreRetention, "fibre-retention", "R_f", "%", "first pass").Above(0).UpTo(100)
		calc.In(f, &in.FillerRetention, "filler-retention", "R_a", "%", "first pass").Above(0).UpTo(100)
		shareReturned(f, &in.ReturnShare)
		calc.Out(f, &out.HeadboxAshShare, "headbox-ash-share", "a_h", "%", "of the dry matter, in the steady loop")
		calc.Out(f, &out.SheetAshShare, "sheet-ash-share", "a_s", "%", "of the dry matter, in the steady loop")
	},
}

// FreshStock is the dry matter to feed for a given sheet.
type FreshStock struct {
	SheetDryFlow     paperprop.OvenDryFlow // leaving the wire, above zero
	OverallRetention paperprop.Fraction    // above zero, at most 100 %
}

// FreshStockResult is the dry matter to feed, and the part of it that is lost.
type FreshStockResult struct {
	FreshDryFlow paperprop.OvenDryFlow
	LossDryFlow  paperprop.OvenDryFlow // to the sewer
}

// Calculate returns the feed q_s/R_o, and the part of it that does not end in the
// sheet.
func (s FreshStock) Calculate() (FreshStockResult, error) { return freshStock.Calculate(s) }

func (s FreshStock) compute() (FreshStockResult, error) {
	sheet, r := s.SheetDryFlow.In(paperprop.DryTonnePerHour), float64(s.OverallRetention)
	return FreshStockResult{
		FreshDryFlow: paperprop.OvenDryFlow(sheet/r) * paperprop.DryTonnePerHour,
		LossDryFlow:  paperprop.OvenDryFlow(sheet*(1-r)/r) * paperprop.DryTonnePerHour,
	}, nil
}

var freshStock = &calc.Description[FreshStock, FreshStockResult]{
	Name:     "fresh-stock",
	Title:    "Fresh dry matter for a sheet",
	Answers:  "How much dry matter must be fed for a sheet, and how much of it goes to the sewer.",
	Formula:  []string{"q_0 = q_s/R_o", "q_l = q_0 - q_s"},
	Source:   "definition of overall retention, delivered over entering at steady state: TAPPI TIP 0502-13:2010 (seen)",
	Status:   calc.Published,
	Example:  "sheet-dry-flow=13.4451 t/h; overall-retention=98.98 %",
	Mistakes: []string{"Overall retention, not first-pass retention: with 75 % in its place a third too much would be fed."},
	Compute:  FreshStock.compute,
	Fields: func(f *calc.Form, in *FreshStock, out *FreshStockResult) {
		calc.In(f, &in.SheetDryFlow, "sheet-dry-flow", "q_s", "t/h", "leaving the wire").Above(0)
		calc.In(f, &in.OverallRetention, "overall-retention", "R_o", "%", "of the loop, from loop-retention").Above(0).UpTo(100)
		calc.Out(f, &out.FreshDryFlow, "fresh-dry-flow", "q_0", "t/h", "to feed")
		calc.Out(f, &out.LossDryFlow, "loss-dry-flow", "q_l", "t/h", "to the sewer")
	},
}
