package stock

import (
	"millmaths.example/paperprop"
	"millmaths.example/paperprop/calc"
)

// Retention is first-pass retention from two consistencies.
type Retention struct {
	HeadboxConsistency paperprop.Consistency // above zero
	TrayConsistency    paperprop.Consistency // water under the wire, at most HeadboxConsistency
}

// RetentionResult is the part of the solids that stays on the wire.
type RetentionResult struct {
	FirstPassRetention paperprop.Fraction
}

// Calculate returns 1 − c_w/c_h, the usual form: it takes the flow into the
// tray for as large as that out of the headbox.
func (r Retention) Calculate() (RetentionResult, error) { return retention.Calculate(r) }

func (r Retention) compute() (RetentionResult, error) {
	if r.TrayConsistency > r.HeadboxConsistency {
		return RetentionResult{}, calc.Refuse("tray-consistency", r.TrayConsistency, "at most headbox-consistency %v", r.HeadboxConsistency)
	}
	return RetentionResult{paperprop.Fraction(1 - float64(r.TrayConsistency/r.HeadboxConsistency))}, nil
}

var retention = &calc.Description[Retention, RetentionResult]{
	Name:    "retention",
	Title:   "First-pass retention, usual form",
	Answers: "What part of the solids from the headbox stays on the wire.",
	Formula: []string{"R = 1 - c_w/c_h"},
	Source:  "common form; that two consistencies suffice is said by a university encyclopedia of wet-end chemistry (seen)",
	Status:  calc.CommonPractice,
	Example: "headbox-consistency=0.82 %; tray-consistency=0.19 %",
	Mistakes: []string{
		"It takes tray flow for equal to headbox flow; the balance of two products gives 75.76 % for the 75.00 % of 0.80 and 0.20 % with a sheet at 20 %.",
	},
	Compute: Retention.compute,
	Fields: func(f *calc.Form, in *Retention, out *RetentionResult) {
		calc.In(f, &in.HeadboxConsistency, "headbox-consistency", "c_h", "%", "in the headbox").Above(0)
		calc.In(f, &in.TrayConsistency, "tray-consistency", "c_w", "%", "of the water under the wire")
		calc.Out(f, &out.FirstPassRetention, "first-pass-retention", "R", "%", "usual form: takes tray flow equal to headbox flow")
	},
}
