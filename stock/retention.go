package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
	"millmaths.example/paperprop/result"
)

// Retention is first-pass retention from two consistencies, in its usual form: the
// flow through the wire is taken to equal that out of the headbox.
// [RetentionTwoProduct] does without that assumption.
type Retention struct {
	HeadboxConsistency paperprop.Consistency // above zero
	TrayConsistency    paperprop.Consistency // water under the wire, at most HeadboxConsistency
}

// RetentionResult is the share of the solids that stays on the wire.
type RetentionResult struct {
	FirstPassRetention paperprop.Fraction
}

// Calculate returns 1 − c_w/c_h.
func (r Retention) Calculate() (RetentionResult, error) { return retention.Calculate(r) }

func (r Retention) compute() (RetentionResult, error) {
	if err := drains(r.HeadboxConsistency, r.TrayConsistency); err != nil {
		return RetentionResult{}, err
	}
	return RetentionResult{paperprop.Fraction(1 - float64(r.TrayConsistency/r.HeadboxConsistency))}, nil
}

var retention = &calc.Description[Retention, RetentionResult]{
	Name:    "retention",
	Title:   "First-pass retention, usual form",
	Answers: "What part of the solids from the headbox stays on the wire.",
	Formula: []string{"R = 1 - c_w/c_h"},
	Source:  "common form; that two consistencies suffice is said by a university encyclopaedia of wet-end chemistry (seen)",
	Status:  calc.CommonPractice,
	Example: "headbox-consistency=0.82 %; tray-consistency=0.2057 %",
	Mistakes: []string{
		"It takes tray flow for equal to headbox flow: the sheet carries water too, so the tray gets less.",
		"Of one pass only: what comes back with the white water makes the retention of the loop higher.",
	},
	Compare: []calc.Comparison{{
		Name:   "retention-two-product",
		Inputs: "headbox-consistency=0.82 %; tray-consistency=0.2057 %; sheet-dryness=19 %",
		Why:    "the balance of water and solids over the wire, which needs the dryness of the sheet and gives a little more",
	}},
	Compute: Retention.compute,
	Fields: func(f *calc.Form, in *Retention, out *RetentionResult) {
		consistenciesOfWire(f, &in.HeadboxConsistency, &in.TrayConsistency)
		calc.Out(f, &out.FirstPassRetention, "first-pass-retention", "R", "%", "usual form: takes tray flow equal to headbox flow")
	},
}

func consistenciesOfWire(f *calc.Form, headbox, tray *paperprop.Consistency) {
	calc.In(f, headbox, "headbox-consistency", "c_h", "%", "in the headbox").Above(0)
	calc.In(f, tray, "tray-consistency", "c_w", "%", "of the water under the wire")
}

// drains refuses a tray thicker than the headbox.
func drains(headbox, tray paperprop.Consistency) error {
	if tray > headbox {
		return calc.Refuse("tray-consistency", tray, "at most headbox-consistency %v", headbox)
	}
	return nil
}

// RetentionTwoProduct is first-pass retention from the balance of water and
// solids over the wire.
type RetentionTwoProduct struct {
	HeadboxConsistency paperprop.Consistency // above zero
	TrayConsistency    paperprop.Consistency // water under the wire, at most HeadboxConsistency
	SheetDryness       paperprop.DryContent  // of the sheet leaving the wire, above HeadboxConsistency
}

// RetentionTwoProductResult is the share of the solids that stays on the wire.
type RetentionTwoProductResult struct {
	FirstPassRetention paperprop.Fraction
}

// Calculate returns c_s(c_h − c_w)/(c_h(c_s − c_w)).
func (r RetentionTwoProduct) Calculate() (RetentionTwoProductResult, error) {
	return retentionTwoProduct.Calculate(r)
}

func (r RetentionTwoProduct) compute() (RetentionTwoProductResult, error) {
	if err := drains(r.HeadboxConsistency, r.TrayConsistency); err != nil {
		return RetentionTwoProductResult{}, err
	}
	headbox, tray, sheet := float64(r.HeadboxConsistency), float64(r.TrayConsistency), float64(r.SheetDryness)
	if sheet <= headbox {
		return RetentionTwoProductResult{}, calc.Refuse("sheet-dryness", r.SheetDryness, "above headbox-consistency %v", r.HeadboxConsistency)
	}
	return RetentionTwoProductResult{paperprop.Fraction(sheet * (headbox - tray) / (headbox * (sheet - tray)))}, nil
}

var retentionTwoProduct = &calc.Description[RetentionTwoProduct, RetentionTwoProductResult]{
	Name:    "retention-two-product",
	Title:   "First-pass retention by the balance of two products",
	Answers: "What part of the solids from the headbox stays on the wire, the water in the sheet counted.",
	Formula: []string{"R = c_s*(c_h - c_w)/(c_h*(c_s - c_w))"},
	Source:  "balance of water and of dry matter over the wire",
	Status:  calc.CommonPractice,
	Example: "headbox-consistency=0.82 %; tray-consistency=0.2057 %; sheet-dryness=19 %",
	Mistakes: []string{
		"The dryness is that of the sheet as it leaves the wire, not that after the presses.",
		"White water from the chest is thinner than that in the tray where press water and fresh water join it.",
	},
	Compare: []calc.Comparison{{
		Name:   "retention",
		Inputs: "headbox-consistency=0.82 %; tray-consistency=0.2057 %",
		Why:    "the usual form, for which two consistencies suffice: it takes tray flow for equal to headbox flow and gives less, by c_w/c_s of it: here by 1.1 %",
	}},
	Compute: RetentionTwoProduct.compute,
	Fields: func(f *calc.Form, in *RetentionTwoProduct, out *RetentionTwoProductResult) {
		consistenciesOfWire(f, &in.HeadboxConsistency, &in.TrayConsistency)
		calc.In(f, &in.SheetDryness, "sheet-dryness", "c_s", "%", "of the sheet leaving the wire")
		calc.Out(f, &out.FirstPassRetention, "first-pass-retention", "R", "%", "by the balance of water and solids")
	},
}

// FillerRetention splits first-pass retention into filler and fibre by the ash of
// both waters. It does not correct for the loss of filler on ignition.
type FillerRetention struct {
	HeadboxConsistency paperprop.Consistency // above zero
	HeadboxAshShare    paperprop.Fraction    // of the dry matter, at 525 °C: above zero, below 100 %
	TrayConsistency    paperprop.Consistency // water under the wire
	TrayAshShare       paperprop.Fraction    // of the dry matter, zero to 100 %
}

// FillerRetentionResult is the retention of filler, of fibre and of both together.
type FillerRetentionResult struct {
	FillerRetention    paperprop.Fraction
	FibreRetention     paperprop.Fraction
	FirstPassRetention paperprop.Fraction
}

// Calculate returns the filler retention 1 − c_w·a_w/(c_h·a_h), the same of the
// matter that is not ash, and that of both together.
func (r FillerRetention) Calculate() (FillerRetentionResult, error) {
	return fillerRetention.Calculate(r)
}

func (r FillerRetention) compute() (FillerRetentionResult, error) {
	if err := drains(r.HeadboxConsistency, r.TrayConsistency); err != nil {
		return FillerRetentionResult{}, err
	}
	headbox, tray := float64(r.HeadboxConsistency), float64(r.TrayConsistency)
	ash, trayAsh := float64(r.HeadboxAshShare), float64(r.TrayAshShare)
	filler, fibre := passed(tray*trayAsh, headbox*ash), passed(tray*(1-trayAsh), headbox*(1-ash))
	switch {
	case filler > 1:
		return FillerRetentionResult{}, calc.Refuse("tray-ash-share", r.TrayAshShare,
			"at most %v: more filler in the tray than in the headbox", paperprop.Fraction(headbox*ash/tray))
	case fibre > 1:
		return FillerRetentionResult{}, calc.Refuse("tray-ash-share", r.TrayAshShare,
			"at least %v: more fibre in the tray than in the headbox", paperprop.Fraction(1-headbox*(1-ash)/tray))
	}
	return FillerRetentionResult{
		FillerRetention:    paperprop.Fraction(1 - filler),
		FibreRetention:     paperprop.Fraction(1 - fibre),
		FirstPassRetention: paperprop.Fraction(1 - tray/headbox),
	}, nil
}

// passed returns the share that goes through the wire. It is 1 where tray and
// headbox hold the same, even if the products differ in their last digit.
func passed(tray, headbox float64) float64 {
	x := tray / headbox
	if x > 1 && x < 1+result.LastDigits {
		return 1
	}
	return x
}

var fillerRetention = &calc.Description[FillerRetention, FillerRetentionResult]{
	Name:    "filler-retention",
	Title:   "First-pass retention of filler and fibre",
	Answers: "What part of the filler and of the fibre from the headbox stays on the wire.",
	Formula: []string{
		"R_a = 1 - c_w*a_w/(c_h*a_h)",
		"R_f = 1 - c_w*(1 - a_w)/(c_h*(1 - a_h))",
		"R = 1 - c_w/c_h",
	},
	Source:  "usual form of first-pass retention, for ash and for the rest",
	Status:  calc.CommonPractice,
	Example: "headbox-consistency=0.82 %; headbox-ash-share=16.7 %; tray-consistency=0.2057 %; tray-ash-share=35.9 %",
	Mistakes: []string{
		"Ash is not filler: at 900 degC carbonate leaves 56 % of itself, clay 86 to 89 % (seen). Take ash at 525 degC.",
		"Starch and all else that burns counts as fibre here.",
		"Usual form, as in retention: what it calls 46.1 % of filler is 47.8 % by the balance of two products with a sheet at 19 %.",
	},
	Compute: FillerRetention.compute,
	Fields: func(f *calc.Form, in *FillerRetention, out *FillerRetentionResult) {
		calc.In(f, &in.HeadboxConsistency, "headbox-consistency", "c_h", "%", "in the headbox").Above(0)
		calc.In(f, &in.HeadboxAshShare, "headbox-ash-share", "a_h", "%", "of the dry matter, at 525 degC").Above(0).Below(100)
		calc.In(f, &in.TrayConsistency, "tray-consistency", "c_w", "%", "of the water under the wire")
		calc.In(f, &in.TrayAshShare, "tray-ash-share", "a_w", "%", "of the dry matter, at 525 degC").From(0).UpTo(100)
		calc.Out(f, &out.FillerRetention, "filler-retention", "R_a", "%", "of ash, loss on ignition not corrected")
		calc.Out(f, &out.FibreRetention, "fibre-retention", "R_f", "%", "of all that is not ash")
		calc.Out(f, &out.FirstPassRetention, "first-pass-retention", "R", "%", "of both together, usual form")
	},
}
